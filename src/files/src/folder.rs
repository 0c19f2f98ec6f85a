//! Folders of layouts.

use std::path::{Path, PathBuf};

use baywright_planner::model::fault::{FileFault, FileKind};

use crate::kind::kind_of;
use crate::text::not_read;
use crate::whole::not_written;

/// Of so many layouts sheets are made at once; a folder with more is not looked through.
pub const MOST_LAYOUTS: usize = 1_000;

/// The layouts in a folder, sorted by name: what ends in `.ron` and is no file of ours of another kind. `None` if it is no folder. No more
/// than one over [`MOST_LAYOUTS`].
///
/// # Errors
/// It cannot be looked into.
pub fn layouts_of_folder(folder: &Path) -> Option<Result<Vec<PathBuf>, FileFault>> {
    if !folder.is_dir() {
        return None;
    }
    let listed = std::fs::read_dir(folder).map(|entries| {
        let mut all: Vec<PathBuf> = entries
            .flatten()
            .map(|entry| entry.path())
            .filter(|path| may_be(path))
            .take(MOST_LAYOUTS + 1)
            .collect();
        all.sort();
        all
    });
    Some(
        listed.map_err(|error| {
            FileFault::whole(folder.display().to_string(), not_read(FileKind::Layout, &error))
        }),
    )
}

fn may_be(path: &Path) -> bool {
    let is_written_so = path.extension().is_some_and(|own| own.eq_ignore_ascii_case("ron"));
    is_written_so && path.is_file() && matches!(kind_of(path), FileKind::Layout | FileKind::Any)
}

/// Makes a folder, and those that it lies in, unless it is there.
///
/// # Errors
/// It cannot be made.
pub fn make_folder(folder: &Path) -> Result<(), FileFault> {
    std::fs::create_dir_all(folder).map_err(|error| not_written(folder, &error))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::embedded::{LAYOUTS, PROFILES};

    #[test]
    fn the_layouts_of_a_folder_and_nothing_else() {
        let folder = crate::fresh_folder("baywright-folder").unwrap();
        let write = |name: &str, text: &str| std::fs::write(folder.join(name), text).unwrap();
        write("b.ron", LAYOUTS[0].text);
        write("a.ron", "(broken");
        write("car.ron", PROFILES[0].text);
        write("notes.txt", "");
        make_folder(&folder.join("inner.ron/deep")).unwrap();
        let found = layouts_of_folder(&folder).unwrap().unwrap();
        assert_eq!(found, ["a.ron", "b.ron"].map(|name| folder.join(name)));
        assert!(layouts_of_folder(&folder.join("b.ron")).is_none());
        assert!(make_folder(&folder.join("b.ron/deep")).is_err());
        std::fs::remove_dir_all(folder).unwrap();
    }
}
