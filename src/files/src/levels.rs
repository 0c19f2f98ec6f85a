//! Files of floor levels: plain text, a line each, as a table program or an instrument writes it.

use std::path::Path;

use baywright_planner::model::fault::{FileFault, FileKind};

use crate::text::Text;

/// The text of a file of levels, and the name it goes by in sentences; what stands in it is for its reader to judge.
///
/// # Errors
/// Not there, not a file, not readable, larger than [`crate::LARGEST_FILE`], not text, empty.
pub fn read_levels(path: &Path) -> Result<(String, String), FileFault> {
    let Text { file, text } = Text::read(path, FileKind::Levels)?;
    Ok((file, text))
}
