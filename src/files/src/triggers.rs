//! The file form of a list of what asks for aimings, version 1, and where the shop's own list lies.

use std::path::Path;

use baywright_planner::model::fault::{FileFault, FileKind};
use baywright_planner::model::{Trigger, TriggerList, validate};
use serde::{Deserialize, Serialize};

use crate::source::SourceFile;
use crate::text::Text;
use crate::version::{self, Reader};

/// The name of the shop's own list in a folder.
pub const TRIGGERS_FILE: &str = "triggers.ron";

/// The list that ships in the binary, an example.
const EXAMPLE: &str = include_str!("example-triggers.ron");
const EXAMPLE_LABEL: &str = "example-triggers.ron";

/// Every version of lists of what asks for aimings that can be read, the present one last.
const VERSIONS: &[Reader<TriggersFile>] = &[Reader { version: version::TRIGGERS, read: Text::parse }];

/// A whole list.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TriggersFile {
    pub version: u32,
    pub name: String,
    pub source: SourceFile,
    pub triggers: Vec<TriggerFile>,
}

/// One kind of work.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TriggerFile {
    pub name: String,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub title: Option<String>,
    pub asks: Vec<SensorGroupFile>,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
    pub source: SourceFile,
}

/// Sensors that work on a car speaks of together.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum SensorGroupFile {
    ForwardRadar,
    Lidar,
    ForwardCamera,
    FrontCornerRadar,
    RearCornerRadar,
    SurroundCamera,
}

/// The shop's own list in its data folder (see [`crate::Library::data_folder`]); the built-in example if the folder, or a
/// list in it, is not there.
///
/// # Errors
/// A list is there and cannot be read: the example never stands in for it unseen.
pub fn triggers(folder: Option<&Path>) -> Result<TriggerList, Vec<FileFault>> {
    match folder.map(|folder| folder.join(TRIGGERS_FILE)) {
        // Also a link that leads nowhere is somebody's.
        Some(path) if std::fs::symlink_metadata(&path).is_ok() => load_triggers(&path),
        _ => parse_triggers(EXAMPLE_LABEL, EXAMPLE),
    }
}

/// Loads a list.
///
/// # Errors
/// Everything found wrong with it.
pub fn load_triggers(path: &Path) -> Result<TriggerList, Vec<FileFault>> {
    list_in(&Text::read(path, FileKind::TriggerList).map_err(|fault| vec![fault])?)
}

/// A list from a text in hand; `file` names it in sentences.
///
/// # Errors
/// Everything found wrong with it.
pub fn parse_triggers(file: &str, text: &str) -> Result<TriggerList, Vec<FileFault>> {
    list_in(
        &Text::of_bytes(file, text.as_bytes().to_vec(), FileKind::TriggerList)
            .map_err(|fault| vec![fault])?,
    )
}

fn list_in(text: &Text) -> Result<TriggerList, Vec<FileFault>> {
    let file = version::read(text, VERSIONS).map_err(|fault| vec![fault])?;
    let list = list_of(&file);
    let faults = validate::trigger_list(&list);
    if faults.is_empty() { Ok(list) } else { Err(text.located(faults)) }
}

fn list_of(file: &TriggersFile) -> TriggerList {
    let triggers = file.triggers.iter().map(|t| Trigger {
        id: t.name.as_str().into(),
        title: t.title.clone().unwrap_or_else(|| t.name.clone()),
        asks: t.asks.iter().copied().map(Into::into).collect(),
        note: t.note.clone(),
        provenance: (&t.source).into(),
    });
    TriggerList { name: file.name.clone(), triggers: triggers.collect(), provenance: (&file.source).into() }
}

/// The file that describes a list.
pub fn file_of(list: &TriggerList) -> TriggersFile {
    let triggers = list.triggers.iter().map(|t| TriggerFile {
        name: t.id.to_string(),
        title: (t.title != t.id.as_str()).then(|| t.title.clone()),
        asks: t.asks.iter().copied().map(Into::into).collect(),
        note: t.note.clone(),
        source: (&t.provenance).into(),
    });
    TriggersFile {
        version: version::TRIGGERS,
        name: list.name.clone(),
        source: (&list.provenance).into(),
        triggers: triggers.collect(),
    }
}
