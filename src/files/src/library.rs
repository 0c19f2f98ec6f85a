//! Where vehicle profiles are looked up.

use std::collections::BTreeSet;
use std::io::ErrorKind;
use std::path::{Path, PathBuf};

use baywright_planner::model::Id;
use baywright_planner::model::fault::{FileFault, FileKind};

use crate::embedded;
use crate::open_profile::{Profile, load_profile, parse_profile};
use crate::text::not_read;

/// The places where profiles are looked up, in their order.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Library {
    folders: Vec<PathBuf>,
    built_in: bool,
    /// Whether the built-in ones go before those of the folders.
    shipped_first: bool,
    /// The folder that belongs to the layout: where that cannot be read no car of another place stands in.
    of_layout: Option<PathBuf>,
}

impl Library {
    /// For a layout on disk: `../vehicle-profiles` beside it, then the user's own folder, then the built-in ones.
    pub fn beside(layout: &Path) -> Self {
        let beside = layout.parent().unwrap_or(Path::new("")).join("..").join("vehicle-profiles");
        Self {
            folders: std::iter::once(beside.clone()).chain(Self::user_folder()).collect(),
            built_in: true,
            shipped_first: false,
            of_layout: Some(beside),
        }
    }

    /// Only the built-in ones: for a built-in layout, so that it is the same everywhere.
    pub const fn built_in() -> Self {
        Self { folders: Vec::new(), built_in: true, shipped_first: false, of_layout: None }
    }

    /// The built-in ones, so that a built-in layout is the same everywhere, then those of the user's own folder.
    pub fn built_in_first() -> Self {
        let folders = Self::user_folder().into_iter().collect();
        Self { folders, built_in: true, shipped_first: true, of_layout: None }
    }

    /// Profiles of this folder are offered too, after those that are there.
    pub fn also(&mut self, folder: PathBuf) {
        if !self.folders.contains(&folder) {
            self.folders.push(folder);
        }
    }

    /// Profiles of this folder are offered instead of those in the user's own, after those that are there.
    pub fn live_in(&mut self, folder: PathBuf) {
        let own = Self::user_folder();
        self.folders.retain(|known| *known != folder && Some(known) != own.as_ref());
        self.folders.push(folder);
    }

    /// Only these folders.
    pub const fn folders(folders: Vec<PathBuf>) -> Self {
        Self { folders, built_in: false, shipped_first: false, of_layout: None }
    }

    /// The user's own folder of profiles; it need not exist. `None` if the user has no home.
    pub fn user_folder() -> Option<PathBuf> {
        Self::data_folder().map(|folder| folder.join("vehicle-profiles"))
    }

    /// The program's own folder for what it keeps; it need not exist. `None` if the user has no home.
    pub fn data_folder() -> Option<PathBuf> {
        directories::ProjectDirs::from("", "", "baywright").map(|dirs| dirs.data_dir().to_owned())
    }

    /// The profile of this name, from the first place that has it; `None` if none has.
    ///
    /// # Errors
    /// A profile of that name is there and cannot be read, or the folder that belongs to the layout cannot: no car of another
    /// place stands in for one that may lie there.
    pub fn find(&self, name: &Id) -> Result<Option<Profile>, Vec<FileFault>> {
        let name = name.as_str();
        // A name is a file's stem and nothing else: it must not lead to another folder.
        if name.is_empty() || name.starts_with('.') || name.contains(['/', '\\', ':', '\0']) {
            return Ok(None);
        }
        let built_in = embedded::PROFILES.iter().find(|e| self.built_in && e.name == name);
        let built_in = || built_in.map(|e| parse_profile(&e.label(), e.name, e.text)).transpose();
        if self.shipped_first
            && let Some(shipped) = built_in()?
        {
            return Ok(Some(shipped));
        }
        for folder in &self.folders {
            let path = folder.join(format!("{name}.ron"));
            match path.try_exists() {
                Ok(true) => return load_profile(&path).map(Some),
                Err(_) if self.of_layout.as_ref() == Some(folder) => {
                    if let Some(fault) = unread(folder) {
                        return Err(vec![fault]);
                    }
                }
                Ok(false) | Err(_) => {}
            }
        }
        built_in()
    }

    /// The folders that are there and cannot be read: whatever cars lie in them are not found.
    pub fn unread(&self) -> Vec<FileFault> {
        self.folders.iter().filter_map(|folder| unread(folder)).collect()
    }

    /// The folders that go before the place where the profile of this name is found, and cannot be looked into: another one of
    /// its name that lies there does not count.
    pub fn passed_over(&self, name: &Id) -> Vec<FileFault> {
        if self.shipped_first
            && self.built_in
            && embedded::PROFILES.iter().any(|own| own.name == name.as_str())
        {
            return Vec::new();
        }
        let mut passed = Vec::new();
        for folder in &self.folders {
            match folder.join(format!("{name}.ron")).try_exists() {
                Ok(true) => break,
                Ok(false) => {}
                Err(_) => passed.extend(unread(folder)),
            }
        }
        passed
    }

    /// The names of all profiles that are there, sorted. A folder that cannot be read has none; [`Self::unread`] tells it.
    pub fn names(&self) -> Vec<Id> {
        let mut names = BTreeSet::new();
        for folder in &self.folders {
            let entries = std::fs::read_dir(folder).into_iter().flatten().flatten();
            names.extend(entries.filter_map(|entry| {
                let path = entry.path();
                let stem = path.file_stem()?.to_str()?;
                // A link that leads nowhere is no profile, as in [`Self::find`].
                let is_one = path.extension()? == "ron" && path.try_exists().unwrap_or(false);
                is_one.then(|| Id::from(stem))
            }));
        }
        if self.built_in {
            names.extend(embedded::PROFILES.iter().map(|e| Id::from(e.name)));
        }
        names.into_iter().collect()
    }
}

/// Why a folder cannot be read; `None` if it can, or is not there.
fn unread(folder: &Path) -> Option<FileFault> {
    let error = std::fs::read_dir(folder).err().filter(|error| error.kind() != ErrorKind::NotFound)?;
    Some(FileFault::whole(folder.display().to_string(), not_read(FileKind::ProfileFolder, &error)))
}
