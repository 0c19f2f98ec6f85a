//! Where a person's files lie, and what lies there.

use std::path::{Path, PathBuf};

/// Where a person keeps documents; the home folder if there is no other. `None` if there is neither.
pub fn documents_folder() -> Option<PathBuf> {
    let own = directories::UserDirs::new()?;
    Some(own.document_dir().unwrap_or(own.home_dir()).to_owned())
}

/// The files in a folder that may be bay layouts, sorted by name; a folder that cannot be read has none.
pub fn layouts_in(folder: &Path) -> Vec<PathBuf> {
    /// A folder of more is no folder of bays; what is beyond is not listed.
    const MOST: usize = 200;
    let entries = std::fs::read_dir(folder).into_iter().flatten().flatten();
    let mut paths: Vec<PathBuf> = entries
        .map(|entry| entry.path())
        .filter(|path| path.extension().is_some_and(|e| e == "ron"))
        .collect();
    paths.sort();
    paths.truncate(MOST);
    paths
}

/// Whether a name is taken: by a file, a folder, anything that can be reached by it.
pub fn is_taken(path: &Path) -> bool {
    path.exists()
}

/// Which file is meant: what was named, if it is there; else the file that may have been meant, if that is.
pub fn meant<'a>(named: &'a Path, near: &'a Path) -> &'a Path {
    if !named.exists() && near.is_file() { near } else { named }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_file_that_is_there_is_meant() {
        let folder = std::env::temp_dir().join(format!("baywright-places-{}", std::process::id()));
        std::fs::create_dir_all(&folder).unwrap();
        let [named, near] = ["bay", "bay.ron"].map(|name| folder.join(name));
        assert_eq!(meant(&named, &near), named, "neither is there: what was named is said not to be");
        std::fs::write(&near, "").unwrap();
        assert_eq!(meant(&named, &near), near);
        assert!(is_taken(&near) && is_taken(&folder) && !is_taken(&named));
        std::fs::write(&named, "").unwrap();
        assert_eq!(meant(&named, &near), named);
        std::fs::remove_dir_all(folder).unwrap();
    }
}
