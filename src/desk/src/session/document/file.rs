//! Where the layout in hand lies on disk, what lay there when it was read or written last, and what of it is saved.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use baywright_files::{DiskMark, Saved, save_layout};
use baywright_planner::model::Layout;

use super::NotSaved;

/// The file of a layout in hand.
#[derive(Debug)]
pub(super) struct LayoutFile {
    /// Where it lies; `None` for a built-in one, which is saved under a name of its own.
    path: Option<PathBuf>,
    /// What lay there when it was read or written last.
    mark: Option<DiskMark>,
    saved: Arc<Layout>,
    /// Made here, or taken up, and never saved: it would be lost.
    is_new: bool,
}

impl LayoutFile {
    /// Of a layout as it was read; `path` is where, `mark` what lay there.
    pub const fn of(layout: Arc<Layout>, path: Option<PathBuf>, mark: Option<DiskMark>) -> Self {
        Self { path, mark, saved: layout, is_new: false }
    }

    /// The same of one that is on no disk as it is.
    pub fn never_saved(self) -> Self {
        Self { is_new: true, ..self }
    }

    /// Where it lies.
    pub fn path(&self) -> Option<&Path> {
        self.path.as_deref()
    }

    /// What lay there when it was read or written last.
    pub const fn mark(&self) -> Option<DiskMark> {
        self.mark
    }

    /// Whether a layout is on disk as it is.
    pub fn holds(&self, now: &Arc<Layout>) -> bool {
        !self.is_new && (Arc::ptr_eq(now, &self.saved) || **now == *self.saved)
    }

    /// From here on a layout counts as on disk.
    pub fn counts_as_saved(&mut self, now: &Arc<Layout>) {
        self.saved = Arc::clone(now);
    }

    /// Whether someone else changed the file since it was read or written.
    pub fn is_changed_on_disk(&self) -> bool {
        self.path.as_deref().zip(self.mark).is_some_and(|(path, mark)| mark != DiskMark::of(path))
    }

    /// Saves where it lies; `over` says that a file which someone else changed may be replaced.
    pub fn save(&mut self, now: &Arc<Layout>, over: bool) -> Result<Saved, NotSaved> {
        let path = self.path.clone().ok_or(NotSaved::NoPlace)?;
        if !over && self.is_changed_on_disk() {
            return Err(NotSaved::ChangedOnDisk);
        }
        self.write(now, &path)
    }

    /// Saves under another name, which it then goes by; `over` says that a file which is there may be replaced.
    pub fn save_as(&mut self, now: &Arc<Layout>, path: &Path, over: bool) -> Result<Saved, NotSaved> {
        if !over && DiskMark::of(path).is_there() {
            return Err(NotSaved::ChangedOnDisk);
        }
        self.write(now, path)
    }

    fn write(&mut self, now: &Arc<Layout>, path: &Path) -> Result<Saved, NotSaved> {
        let saved = save_layout(path, now).map_err(NotSaved::Faults)?;
        *self = Self::of(Arc::clone(now), Some(path.to_owned()), Some(DiskMark::of(path)));
        Ok(saved)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_on_disk_is_known_and_what_someone_else_wrote_is_asked_about() {
        let layout = Arc::new(baywright_files::open(Path::new("crowded-bay"), None).unwrap().layout);
        let folder = std::env::temp_dir().join(format!("baywright-layout-file-{}", std::process::id()));
        std::fs::create_dir_all(&folder).unwrap();
        let path = folder.join("mine.ron");
        let mut file = LayoutFile::of(Arc::clone(&layout), None, None).never_saved();
        assert!(!file.holds(&layout));
        assert_eq!(file.save(&layout, false), Err(NotSaved::NoPlace));
        file.save_as(&layout, &path, false).unwrap();
        // The same said by another copy is on disk too.
        assert!(file.holds(&layout) && file.holds(&Arc::new(Layout::clone(&layout))));
        assert_eq!((file.path(), file.mark()), (Some(path.as_path()), Some(DiskMark::of(&path))));
        std::fs::write(&path, "(version: 1)").unwrap();
        assert!(file.is_changed_on_disk());
        assert_eq!(file.save(&layout, false), Err(NotSaved::ChangedOnDisk));
        file.save(&layout, true).unwrap();
        // Gone is changed too.
        std::fs::remove_file(&path).unwrap();
        assert_eq!(file.save(&layout, false), Err(NotSaved::ChangedOnDisk));
        std::fs::remove_dir_all(folder).unwrap();
    }
}
