//! What the window remembers from one start to the next: what was in hand last, which files were opened, how things are shown.
//! It lies beside the shop's own document, in the program's own folder.

use std::path::Path;

use baywright_planner::model::fault::{FileFault, FileKind, FileTrouble};
use serde::{Deserialize, Serialize};

use crate::text::Text;
use crate::version::{self, Reader};
use crate::whole::{not_written, write_whole};

/// The name of its file in the program's own folder.
pub const WINDOW_FILE: &str = "window.ron";

/// So many files that were opened are remembered.
pub const MOST_RECENT: usize = 10;

/// Every version that can be read, the present one last.
const VERSIONS: &[Reader<Remembered>] = &[Reader { version: version::WINDOW, read: Text::parse }];

/// What is remembered. What is left out was never chosen.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Remembered {
    version: u32,
    /// What was in hand last.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub last: Option<LastOpen>,
    /// Files that were opened or saved, with their whole paths, the last one first; at most [`MOST_RECENT`].
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub recent: Vec<String>,
    /// How lengths are shown.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub units: Option<KeptUnits>,
    /// The language.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub language: Option<KeptLanguage>,
    /// Light or dark.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub look: Option<KeptLook>,
    /// How large letters are: 100 is the usual size.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub letters_percent: Option<u32>,
    /// How the paper of the top view lies.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub paper: Option<KeptPaper>,
    /// The size of the paper that sheets are printed on, by its name.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub printed_on: Option<String>,
    /// Whether the long side of that paper lies level.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub printed_level: Option<bool>,
    /// The window.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub window: Option<KeptWindow>,
}

/// How lengths are shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum KeptUnits {
    /// mm.
    Millimetres,
    /// m.
    Metres,
    /// Feet and inches.
    FeetInches,
}

/// The language.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum KeptLanguage {
    /// English.
    English,
    /// German.
    German,
}

/// Light or dark.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum KeptLook {
    /// Dark lines on light paper.
    Light,
    /// Light lines on dark paper.
    Dark,
    /// As the system looks.
    AsSystem,
}

/// How the paper of the top view lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum KeptPaper {
    /// Turned to the car.
    ToCar,
    /// As the room lies.
    AsRoom,
}

/// The window when it fills no screen, in points of the screen, and whether it filled one.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct KeptWindow {
    /// Its left upper corner with its frame, from the left, downwards; `None` where the system does not tell.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub at: Option<(f32, f32)>,
    /// Width and height of what is inside its frame.
    pub size: (f32, f32),
    /// Whether it fills the screen but for the system's own bars.
    #[serde(default)]
    pub maximized: bool,
}

/// Which layout was open, and which arrangement of it was shown.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LastOpen {
    /// The layout's file with its whole path, or the name of a built-in one.
    pub layout: String,
    /// The arrangement's name.
    pub arrangement: String,
}

impl Default for Remembered {
    fn default() -> Self {
        Self {
            version: version::WINDOW,
            last: None,
            recent: Vec::new(),
            language: None,
            units: None,
            look: None,
            letters_percent: None,
            paper: None,
            printed_on: None,
            printed_level: None,
            window: None,
        }
    }
}

impl Remembered {
    /// What is in hand from now on; `is_file` says that it is a file and no built-in layout.
    pub fn opened(&mut self, last: LastOpen, is_file: bool) {
        if is_file {
            self.recent.retain(|own| *own != last.layout);
            self.recent.insert(0, last.layout.clone());
            self.recent.truncate(MOST_RECENT);
        }
        self.last = Some(last);
    }
}

/// What is remembered in the program's own folder; `None` if nothing ever was.
///
/// # Errors
/// It is there and cannot be read: damaged, or of a later version.
pub fn remembered(folder: &Path) -> Result<Option<Remembered>, FileFault> {
    match text(folder)? {
        Some(text) => version::read(&text, VERSIONS).map(Some),
        None => Ok(None),
    }
}

/// Changes what is remembered, which another window may have changed since; the folder is made if it is not there. What is
/// damaged is begun anew. Answers what is remembered now.
///
/// # Errors
/// It cannot be written, or a later version of the program wrote it: what was remembered before is there still.
pub fn remember(folder: &Path, change: impl FnOnce(&mut Remembered)) -> Result<Remembered, FileFault> {
    let before = match remembered(folder) {
        Ok(before) => before,
        Err(fault) if is_later(folder) => return Err(fault),
        Err(_) => None,
    };
    let mut now = before.clone().unwrap_or_default();
    change(&mut now);
    if before.as_ref() != Some(&now) {
        let path = folder.join(WINDOW_FILE);
        let layout = ron::ser::PrettyConfig::new().struct_names(false);
        let text = crate::parse::options()
            .to_string_pretty(&now, layout)
            .map_err(|_| FileFault::whole(path.display().to_string(), FileTrouble::NotInText))?;
        std::fs::create_dir_all(folder).map_err(|error| not_written(folder, &error))?;
        write_whole(&path, text.as_bytes())?;
    }
    Ok(now)
}

fn text(folder: &Path) -> Result<Option<Text>, FileFault> {
    let path = folder.join(WINDOW_FILE);
    // A link that leads nowhere is somebody's, too.
    if std::fs::symlink_metadata(&path).is_err() {
        return Ok(None);
    }
    Text::read(&path, FileKind::Any).map(Some)
}

fn is_later(folder: &Path) -> bool {
    let text = text(folder).ok().flatten();
    text.and_then(|text| version::stated(&text)).is_some_and(|own| own > u64::from(version::WINDOW))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn last(layout: &str) -> LastOpen {
        LastOpen { layout: layout.to_owned(), arrangement: "As \"found\"".to_owned() }
    }

    #[test]
    fn what_was_in_hand_is_remembered_and_what_is_damaged_is_not_guessed() {
        let folder = std::env::temp_dir().join(format!("baywright-window-{}", std::process::id()));
        let _ = std::fs::remove_dir_all(&folder);
        assert_eq!(remembered(&folder), Ok(None));
        for number in 0..12 {
            remember(&folder, |own| own.opened(last(&format!("/a/{number}.ron")), true)).unwrap();
        }
        // Another window's file, one again, and a built-in bay, which is no file.
        remember(&folder, |own| own.opened(last("/a/7.ron"), true)).unwrap();
        let now = remember(&folder, |own| own.opened(last("clear-bay"), false)).unwrap();
        let own = remembered(&folder).unwrap().unwrap();
        assert_eq!(own, now);
        assert_eq!(own.last, Some(last("clear-bay")));
        assert_eq!(
            (own.recent.len(), own.recent[0].as_str(), own.recent[1].as_str()),
            (10, "/a/7.ron", "/a/11.ron")
        );
        let path = folder.join(WINDOW_FILE);
        for damaged in ["", "(version: 1, recent:", "(version: 1, last: 3)", "(version: 1, other: 3)"] {
            std::fs::write(&path, damaged).unwrap();
            assert!(remembered(&folder).is_err(), "{damaged:?}");
            assert_eq!(remember(&folder, |own| own.opened(last("a"), false)).unwrap().last, Some(last("a")));
            assert!(remembered(&folder).unwrap().unwrap().recent.is_empty());
        }
        // What a later version wrote is left to it.
        let later = "(version: 2, colour: \"sepia\")";
        std::fs::write(&path, later).unwrap();
        assert!(remembered(&folder).is_err());
        assert!(remember(&folder, |own| own.opened(last("a"), false)).is_err());
        assert_eq!(std::fs::read_to_string(&path).unwrap(), later);
        std::fs::remove_dir_all(folder).unwrap();
    }
}
