//! Where the layout in hand lies on disk, what lay there when it was read or written last, and what of it is saved.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use baywright_files::{DiskMark, Saved, save_layout};
use baywright_planner::model::{JudgedBy, Layout};

use super::refused::NotSaved;

/// The file of a layout in hand.
#[derive(Debug)]
pub(super) struct LayoutFile {
    /// Where it lies; `None` for a built-in one, which is saved under a name of its own.
    path: Option<PathBuf>,
    /// What lay there when it was read or written last.
    mark: Option<DiskMark>,
    saved: Arc<Layout>,
    /// The mark of the shop's settings by which it was judged when it was saved, if that was remembered. It is the file's
    /// affair, not the bay's: other settings are no change of the bay.
    judged_by: Option<String>,
    /// Made here, or taken up, and never saved: it would be lost.
    is_new: bool,
}

impl LayoutFile {
    /// Of a layout as it was read; `path` is where, `mark` what lay there.
    pub const fn of(layout: Arc<Layout>, path: Option<PathBuf>, mark: Option<DiskMark>) -> Self {
        Self { path, mark, saved: layout, judged_by: None, is_new: false }
    }

    /// The same of one that is on no disk as it is.
    pub fn never_saved(self) -> Self {
        Self { is_new: true, ..self }
    }

    /// The same of one that remembers by which settings of the shop it was judged.
    pub fn judged_by(self, judged_by: Option<String>) -> Self {
        Self { judged_by, ..self }
    }

    /// The mark of the settings by which it was judged when it was saved.
    pub fn judged_by_mark(&self) -> Option<&str> {
        self.judged_by.as_deref()
    }

    /// Whether it was judged by other settings of the shop when it was saved.
    pub fn was_judged_by_others(&self, now: &Layout, by: &JudgedBy) -> bool {
        self.judged_by.as_ref().is_some_and(|own| *own != now.judged_mark(&by.shop, &by.instruments))
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

    /// Whether nothing lies any more where it was read or written.
    pub fn is_gone(&self) -> bool {
        self.mark.is_some_and(DiskMark::is_there)
            && self.path.as_deref().is_some_and(|path| !DiskMark::of(path).is_there())
    }

    /// Saves where it lies; `over` says that a file which someone else changed or removed may be written.
    pub fn save(&mut self, now: &Arc<Layout>, by: &JudgedBy, over: bool) -> Result<Saved, NotSaved> {
        let path = self.path.clone().ok_or(NotSaved::NoPlace)?;
        if !over && self.is_changed_on_disk() {
            return Err(if self.is_gone() { NotSaved::Gone } else { NotSaved::ChangedOnDisk });
        }
        self.write(now, &path, by)
    }

    /// Saves under another name, which it then goes by; `over` says that a file which is there may be replaced.
    pub fn save_as(
        &mut self,
        now: &Arc<Layout>,
        path: &Path,
        by: &JudgedBy,
        over: bool,
    ) -> Result<Saved, NotSaved> {
        if !over && DiskMark::of(path).is_there() {
            return Err(NotSaved::ChangedOnDisk);
        }
        self.write(now, path, by)
    }

    fn write(&mut self, now: &Arc<Layout>, path: &Path, by: &JudgedBy) -> Result<Saved, NotSaved> {
        let judged_by = Some(now.judged_mark(&by.shop, &by.instruments));
        let written = Layout { shop_fingerprint: judged_by.clone(), ..Layout::clone(now) };
        let saved = save_layout(path, &written).map_err(NotSaved::Faults)?;
        *self =
            Self::of(Arc::clone(now), Some(path.to_owned()), Some(DiskMark::of(path))).judged_by(judged_by);
        Ok(saved)
    }
}

/// A layout apart from what its file remembers of the shop's settings.
pub(super) fn without_shop(mut layout: Layout) -> (Layout, Option<String>) {
    let judged_by = layout.shop_fingerprint.take();
    (layout, judged_by)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_on_disk_is_known_and_what_someone_else_wrote_is_asked_about() {
        let layout = Arc::new(baywright_files::open(Path::new("crowded-bay"), None).unwrap().layout);
        let shop = JudgedBy::default();
        let folder = std::env::temp_dir().join(format!("baywright-layout-file-{}", std::process::id()));
        std::fs::create_dir_all(&folder).unwrap();
        let path = folder.join("mine.ron");
        let mut file = LayoutFile::of(Arc::clone(&layout), None, None).never_saved();
        assert!(!file.holds(&layout));
        assert_eq!(file.save(&layout, &shop, false), Err(NotSaved::NoPlace));
        file.save_as(&layout, &path, &shop, false).unwrap();
        // The same said by another copy is on disk too.
        assert!(file.holds(&layout) && file.holds(&Arc::new(Layout::clone(&layout))));
        assert_eq!((file.path(), file.mark()), (Some(path.as_path()), Some(DiskMark::of(&path))));
        // By which settings it is judged is remembered, and is no change of the bay.
        assert!(!file.was_judged_by_others(&layout, &shop));
        let mut other = shop.clone();
        other.shop.by_eye_mm = 80.0;
        assert!(file.was_judged_by_others(&layout, &other) && file.holds(&layout));
        let read = baywright_files::load_layout(&path).unwrap();
        assert_eq!(read.shop_fingerprint, Some(shop.shop.fingerprint()));
        std::fs::write(&path, "(version: 1)").unwrap();
        assert!(file.is_changed_on_disk());
        assert_eq!(file.save(&layout, &shop, false), Err(NotSaved::ChangedOnDisk));
        file.save(&layout, &shop, true).unwrap();
        // Gone is something else: nobody's work would be replaced.
        assert!(!file.is_gone());
        std::fs::remove_file(&path).unwrap();
        assert!(file.is_gone() && file.is_changed_on_disk());
        assert_eq!(file.save(&layout, &shop, false), Err(NotSaved::Gone));
        file.save(&layout, &shop, true).unwrap();
        assert!(path.exists() && !file.is_gone());
        std::fs::remove_dir_all(folder).unwrap();
    }
}
