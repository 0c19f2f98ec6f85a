//! Turning a text into file structs, with located errors.

use baywright_planner::model::fault::FileFault;
use ron::extensions::Extensions;
use serde::de::DeserializeOwned;

use crate::explain;
use crate::text::Text;

/// No record may lie deeper in others: ours go to 9; it keeps a hostile file from exhausting the stack.
const DEEPEST_NESTING: usize = 32;

impl Text {
    /// The text as a file struct.
    ///
    /// # Errors
    /// The first thing that cannot be read, with its line, column and field.
    pub fn parse<T: DeserializeOwned>(&self) -> Result<T, FileFault> {
        let at_error = |error: ron::error::SpannedError, path: Option<&serde_path_to_error::Path>| {
            explain::parse_fault(self, &error, path)
        };
        let mut from = ron::Deserializer::from_str_with_options(&self.text, &options())
            .map_err(|error| at_error(error, None))?;
        let value = serde_path_to_error::deserialize::<_, T>(&mut from).map_err(|error| {
            let path = error.path().clone();
            at_error(from.span_error(error.into_inner()), Some(&path))
        })?;
        from.end().map_err(|error| at_error(from.span_error(error), None))?;
        Ok(value)
    }
}

/// How files are written: optional values stand bare, without `Some(...)`.
pub fn options() -> ron::Options {
    ron::Options::default()
        .with_default_extension(Extensions::IMPLICIT_SOME)
        .with_recursion_limit(DEEPEST_NESTING)
}
