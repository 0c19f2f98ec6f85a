//! Opening vehicle profiles.

use std::path::{Path, PathBuf};

use baywright_planner::model::fault::{FileFault, FileKind, FileTrouble};
use baywright_planner::model::{Id, Vehicle};

use crate::fingerprint::fingerprint;
use crate::kind::or_other_kind;
use crate::profile;
use crate::text::Text;
use crate::version;

/// A profile with where it was found.
#[derive(Clone, Debug, PartialEq)]
pub struct Profile {
    /// The vehicle.
    pub vehicle: Vehicle,
    /// The mark of its content, see [`crate::fingerprint()`].
    pub fingerprint: String,
    /// Its file, for sentences.
    pub file: String,
    /// Where it was read on disk; `None` for a built-in one.
    pub path: Option<PathBuf>,
}

impl Profile {
    /// Where its own file lies, or lay when it was read, if it has one: a car that can be changed in its place.
    pub fn own_file(&self) -> Option<&Path> {
        self.path.as_deref()
    }
}

/// Loads a profile.
///
/// # Errors
/// Everything found wrong with it.
pub fn load_profile(path: &Path) -> Result<Profile, Vec<FileFault>> {
    let text = Text::read(path, FileKind::Profile).map_err(|fault| vec![fault])?;
    Ok(Profile { path: Some(path.to_owned()), ..profile_in(text, stem(path)?)? })
}

/// A profile from a text in hand; `file` names it in sentences, `id` is its name.
///
/// # Errors
/// Everything found wrong with it.
pub fn parse_profile(file: &str, id: &str, text: &str) -> Result<Profile, Vec<FileFault>> {
    let text =
        Text::of_bytes(file, text.as_bytes().to_vec(), FileKind::Profile).map_err(|fault| vec![fault])?;
    profile_in(text, id.into())
}

/// The same of a car that was still being entered, as the recovery journal has it: its figures need not fit yet.
///
/// # Errors
/// Everything for which no car can be made of it.
pub fn parse_draft(file: &str, id: &str, text: &str) -> Result<Vehicle, Vec<FileFault>> {
    let text =
        Text::of_bytes(file, text.as_bytes().to_vec(), FileKind::Profile).map_err(|fault| vec![fault])?;
    let file = version::read(&text, profile::VERSIONS).map_err(|fault| vec![fault])?;
    profile::draft_of(&file, id.into()).map_err(|faults| text.located(faults))
}

fn profile_in(text: Text, id: Id) -> Result<Profile, Vec<FileFault>> {
    let file = or_other_kind(&text, FileKind::Profile, version::read(&text, profile::VERSIONS));
    let file = file.map_err(|fault| vec![fault])?;
    let vehicle = profile::vehicle_of(&file, id).map_err(|faults| text.located(faults))?;
    Ok(Profile { fingerprint: fingerprint(&vehicle), vehicle, file: text.file, path: None })
}

/// A file's name without `.ron`, by which it goes.
pub fn stem(path: &Path) -> Result<Id, Vec<FileFault>> {
    let stem = path.file_stem().and_then(|s| s.to_str()).map(str::trim).filter(|s| !s.is_empty());
    stem.map(Id::from).ok_or_else(|| {
        let file = path.display().to_string();
        vec![FileFault::whole(file, FileTrouble::NameIsNoText)]
    })
}
