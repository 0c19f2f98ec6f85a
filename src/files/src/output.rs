//! Outputs: drawings and answers, written where they were asked for and never over what they are made from.

use std::fs::DirBuilder;
use std::hash::{BuildHasher, RandomState};
use std::path::{Path, PathBuf};

use baywright_planner::model::fault::{FileFault, FileTrouble};

use crate::whole::{behind_links, canonical, not_written, write_whole};

/// Writes an output, as [`write_whole`]; `inputs` are the files that it was made from. A link is followed only to a file of
/// the kind that its own name says.
///
/// # Errors
/// It leads to a file of another kind or to an input, or cannot be written; what was there is there still.
pub fn write_output(path: &Path, bytes: &[u8], inputs: &[&Path]) -> Result<(), FileFault> {
    may_be_output(path, inputs)?;
    write_whole(path, bytes)
}

/// Whether an output may be written there: `inputs` are the files that it is made from.
///
/// # Errors
/// It leads to a file of another kind or to an input.
pub fn may_be_output(path: &Path, inputs: &[&Path]) -> Result<(), FileFault> {
    let refused = |trouble| Err(FileFault::whole(path.display().to_string(), trouble));
    let real = behind_links(path);
    let kind = |path: &Path| path.extension().map(std::ffi::OsStr::to_ascii_lowercase);
    if kind(&real) != kind(path) {
        return refused(FileTrouble::LinkToOtherKind(real.display().to_string()));
    }
    let place = canonical(path);
    if inputs.iter().any(|input| canonical(input) == place) {
        return refused(FileTrouble::IsInput);
    }
    Ok(())
}

/// Makes a folder for its owner only, where the system keeps what is soon thrown away, under a name that nobody knows before:
/// what others put there is neither followed nor replaced.
///
/// # Errors
/// It cannot be made.
pub fn fresh_folder(stem: &str) -> Result<PathBuf, FileFault> {
    // The system's own lot, with which the library keeps its tables from being guessed.
    let lot = RandomState::new().hash_one(std::process::id());
    let folder = std::env::temp_dir().join(format!("{stem}-{lot:016x}"));
    let builder = {
        #[cfg_attr(not(unix), expect(unused_mut, reason = "a user's temporary folder is private elsewhere"))]
        let mut builder = DirBuilder::new();
        #[cfg(unix)]
        std::os::unix::fs::DirBuilderExt::mode(&mut builder, 0o700);
        builder
    };
    // Not made if anything is there, a link too.
    builder.create(&folder).map_err(|error| not_written(&folder, &error))?;
    Ok(folder)
}

#[cfg(all(test, unix))]
mod tests {
    use std::os::unix::fs::{PermissionsExt, symlink};

    use baywright_planner::words::Language;

    use super::*;

    #[test]
    fn an_output_replaces_neither_an_input_nor_a_file_of_another_kind() {
        let folder = fresh_folder("baywright-output").unwrap();
        assert_eq!(std::fs::metadata(&folder).unwrap().permissions().mode() & 0o777, 0o700);
        let [bay, plan, link, twice, alias] =
            ["bay.ron", "plan.svg", "link.svg", "twice.svg", "alias.svg"].map(|name| folder.join(name));
        std::fs::write(&bay, "mine").unwrap();
        std::fs::write(&plan, "old").unwrap();
        symlink("bay.ron", &link).unwrap();
        symlink("link.svg", &twice).unwrap();
        symlink("plan.svg", &alias).unwrap();
        for path in [&link, &twice] {
            let said = Language::English.file_fault(&write_output(path, b"new", &[]).unwrap_err());
            assert!(
                said.contains("bay.ron, which is another kind of file than the link's name says; choose"),
                "{said}"
            );
        }
        let said = write_output(&alias, b"new", &[&folder.join(".").join("plan.svg")]).unwrap_err();
        let said = Language::English.file_fault(&said);
        assert!(said.ends_with("it is what this is made from; choose another name."), "{said}");
        assert_eq!(std::fs::read_to_string(&bay).unwrap(), "mine");
        assert_eq!(std::fs::read_to_string(&plan).unwrap(), "old");
        // A link to a file of its own kind is followed.
        write_output(&alias, b"new", &[&bay]).unwrap();
        assert_eq!(std::fs::read_to_string(&plan).unwrap(), "new");
        std::fs::remove_dir_all(folder).unwrap();
    }
}
