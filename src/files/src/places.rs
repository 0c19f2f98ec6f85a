//! Where a person's files lie, and what lies there.

use std::ffi::OsStr;
use std::path::{Component, Path, PathBuf};

use crate::embedded::LAYOUTS;

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

/// A name beside this one that nothing goes by yet: "bay 2.ron" for "bay.ron", and after it "bay 3.ron".
pub fn free_beside(path: &Path) -> PathBuf {
    /// A folder of more copies of one file is no folder of bays; the last name is then offered all the same, and asked about.
    const MOST: usize = 1_000;
    let stem = path.file_stem().map_or_else(String::new, |stem| stem.to_string_lossy().into_owned());
    // The copy of "bay 2" is "bay 3", not "bay 2 2".
    let (stem, from) = match stem.rsplit_once(' ') {
        Some((before, number)) if !before.is_empty() => match number.parse::<usize>() {
            Ok(number) if (2..MOST).contains(&number) => (before.to_owned(), number + 1),
            _ => (stem, 2),
        },
        _ => (stem, 2),
    };
    let ending = path.extension().map_or_else(String::new, |own| format!(".{}", own.to_string_lossy()));
    let named = |number: usize| path.with_file_name(format!("{stem} {number}{ending}"));
    // A link that leads nowhere is there as well.
    let is_free = |path: &PathBuf| path.symlink_metadata().is_err();
    (from..from + MOST).map(named).find(is_free).unwrap_or_else(|| named(from + MOST))
}

/// Whether somebody who names this and nothing else may mean a layout: it is there, a built-in one is called so, or it is
/// written as files are.
pub fn may_be_layout(named: &Path) -> bool {
    let is_written_so = named.extension().is_some_and(|ending| ending.eq_ignore_ascii_case("ron"))
        || named.components().count() > 1;
    is_written_so || LAYOUTS.iter().any(|own| named == Path::new(own.name)) || is_taken(named)
}

/// A path that leads to the same file from wherever the program is started; `None` if it cannot be written as text.
pub fn whole_path(path: &Path) -> Option<String> {
    std::path::absolute(path).ok()?.into_os_string().into_string().ok()
}

/// Whether the file that says which zone the clock is in can be read at once: what the system or a person names for it (the
/// value of `TZ`, if there is one) is a name among the system's zones or a plain file of their size. A device never ends, and
/// a pipe waits for somebody at its other end.
pub fn zone_is_plain(named: Option<&OsStr>) -> bool {
    /// The largest of the system's zones take a few thousand bytes.
    const LARGEST: u64 = 1024 * 1024;
    let is_plain =
        |path: &Path| std::fs::metadata(path).map_or(true, |about| about.is_file() && about.len() <= LARGEST);
    let named = named.map(|named| named.to_string_lossy().trim_start_matches(':').to_owned());
    match named.as_deref() {
        None | Some("") => is_plain(Path::new("/etc/localtime")),
        Some(path) if Path::new(path).is_absolute() => is_plain(Path::new(path)),
        // Only what stays below the system's own folder.
        Some(name) => {
            let parts = || Path::new(name).components();
            parts().all(|part| matches!(part, Component::Normal(_)))
                && ["/usr/share/zoneinfo", "/usr/lib/zoneinfo", "/etc/zoneinfo"]
                    .iter()
                    .all(|folder| is_plain(&Path::new(folder).join(name)))
        }
    }
}

/// Which file is meant: what was named, if it is there; else the file that may have been meant, if that is.
pub fn meant<'a>(named: &'a Path, near: &'a Path) -> &'a Path {
    if !named.exists() && near.is_file() { near } else { named }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[cfg(unix)]
    #[test]
    fn a_zone_is_not_read_from_what_never_ends() {
        let plain = |named: &str| zone_is_plain(Some(OsStr::new(named)));
        for endless in ["/dev/zero", ":/dev/zero", "/dev/stdin", "/tmp", "../../../dev/zero"] {
            assert!(!plain(endless), "{endless}");
        }
        for zone in ["UTC", "CET-1CEST", ":UTC"] {
            assert!(plain(zone), "{zone}");
        }
    }

    #[test]
    fn what_is_named_alone_may_be_a_layout() {
        for named in ["bay.ron", "BAY.RON", "bays/mine", "./mine", "crowded-bay", "src"] {
            assert!(may_be_layout(Path::new(named)), "{named}");
        }
        for named in ["chek", "crowded", "licence", ""] {
            assert!(!may_be_layout(Path::new(named)), "{named}");
        }
    }

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
