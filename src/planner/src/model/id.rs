//! Names that things are known by.

use std::fmt;
use std::sync::Arc;

/// The name of one thing within its file: what a person typed, cheap to copy.
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Id(Arc<str>);

impl Id {
    /// The text of the name.
    pub fn as_str(&self) -> &str {
        &self.0
    }

    /// The first of "name", "name 2", "name 3" ... that is not taken; `gap` stands before the number.
    pub fn free(wanted: &str, gap: &str, taken: impl Fn(&str) -> bool) -> Self {
        std::iter::once(wanted.to_owned())
            .chain((2..).map(|n: usize| format!("{wanted}{gap}{n}")))
            .find(|name| !taken(name))
            .map_or_else(|| Self::from(wanted), Self::from)
    }

    /// What it is called without the number at its end: "cabinet" of "cabinet 2"; a number alone stays.
    pub fn stem(&self) -> &str {
        let stem = self.0.trim_end_matches(|c: char| c.is_ascii_digit() || c == ' ');
        if stem.is_empty() { &self.0 } else { stem }
    }
}

impl From<&str> for Id {
    fn from(name: &str) -> Self {
        Self(name.into())
    }
}

impl From<String> for Id {
    fn from(name: String) -> Self {
        Self(name.into())
    }
}

impl fmt::Display for Id {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl fmt::Debug for Id {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:?}", &*self.0)
    }
}
