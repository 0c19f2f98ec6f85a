//! Pages as files: those that were written, or what went wrong.

use std::path::{Path, PathBuf};

use baywright_drawing::Page;
use baywright_files::write_output;
use baywright_planner::words::Language;

use crate::command_line::trouble::Trouble;
use crate::session::printed::{Format, NotMade, bytes, names};

/// The files that pages become.
///
/// # Errors
/// A picture would be too large, or a writer refused.
pub(crate) fn as_files(
    pages: &[Page],
    format: Format,
    language: Language,
) -> Result<Vec<Vec<u8>>, Box<Trouble>> {
    bytes(pages, format, language).map_err(|fault| {
        Box::new(match fault {
            NotMade::TooManyPixels(pixels) => Trouble::TooManyPixels(pixels),
            NotMade::NoPages(why) => Trouble::NoPages(why),
        })
    })
}

/// Writes them, and gives the names of what was written: of several pictures each has its number. What they are made from is never
/// replaced.
///
/// # Errors
/// They could not be made, or one could not be written.
pub(crate) fn written(
    pages: &[Page],
    to: &Path,
    (format, language): (Format, Language),
    made_from: &[&Path],
) -> Result<Vec<PathBuf>, Box<Trouble>> {
    let all = as_files(pages, format, language)?;
    let files = names(to, all.len());
    for (file, own) in files.iter().zip(&all) {
        write_output(file, own, made_from).map_err(|fault| Box::new(Trouble::File(fault)))?;
    }
    Ok(files)
}
