//! Where figures come from, as every kind of file says it.

use serde::{Deserialize, Serialize};

use crate::figure::Day;

/// Where a group of figures comes from.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub enum SourceFile {
    Example,
    NotGiven,
    Maker {
        document: String,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        date: Option<Day>,
    },
    Measured {
        by: String,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        date: Option<Day>,
    },
    Published {
        source: String,
    },
}
