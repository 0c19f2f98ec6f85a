//! Standard input and output in the place of a file: `-`.

use std::path::Path;

use baywright_files::{FileFault, Loaded};
use baywright_planner::model::JudgedBy;
use baywright_planner::words::Language;

/// Whether this stands for standard input or output. A file of that name is reached as `./-`.
pub(crate) fn is_stream(name: &Path) -> bool {
    name.as_os_str() == "-"
}

/// Opens a layout: a file, a built-in one, or what comes through standard input, as if it lay in the folder that is worked in.
pub(crate) fn open(name: &Path, by: JudgedBy, language: Language) -> Result<Loaded, Vec<FileFault>> {
    if is_stream(name) {
        let file = language.command_line().standard_input;
        baywright_files::open_from(file, &mut std::io::stdin().lock(), by)
    } else {
        baywright_files::open(name, by)
    }
}
