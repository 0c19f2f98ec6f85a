//! What is wrong with a file, in one sentence.

use std::fmt;

pub use baywright_planner::model::validate::quoted;

/// One thing wrong with one file: where, what was found, what is allowed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FileFault {
    /// The file, as it was named to the program; a built-in file is "NAME.ron (built in)".
    pub file: String,
    /// The line, from 1, where it is known.
    pub line: Option<u32>,
    /// The column, from 1, counted in characters.
    pub column: Option<u32>,
    /// The field's path, such as `sensors[0].at_mm`.
    pub field: Option<String>,
    /// What was found there.
    pub found: String,
    /// What is allowed there.
    pub allowed: String,
}

impl FileFault {
    /// A fault of the file as a whole.
    pub fn whole(file: &str, found: impl Into<String>, allowed: impl Into<String>) -> Self {
        Self {
            file: file.to_owned(),
            line: None,
            column: None,
            field: None,
            found: found.into(),
            allowed: allowed.into(),
        }
    }
}

impl fmt::Display for FileFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.file)?;
        if let Some(line) = self.line {
            write!(f, ", line {line}")?;
        }
        if let Some(column) = self.column {
            write!(f, ", column {column}")?;
        }
        if let Some(field) = &self.field {
            write!(f, ", {field}")?;
        }
        write!(f, ": found {}; allowed is {}.", self.found, self.allowed)
    }
}

impl std::error::Error for FileFault {}

/// Names for a sentence: `"a", "b" or "c"`, cut when there are many.
pub fn one_of<'a>(names: impl IntoIterator<Item = &'a str>) -> String {
    const MOST_NAMES: usize = 12;
    let mut names: Vec<&str> = names.into_iter().collect();
    let more = names.len().saturating_sub(MOST_NAMES);
    names.truncate(MOST_NAMES);
    let mut quoted: Vec<String> = names.into_iter().map(quoted).collect();
    if more > 0 {
        quoted.push(format!("{more} more"));
    }
    match quoted.split_last() {
        None => "nothing, since there is none".to_owned(),
        Some((only, [])) => only.clone(),
        Some((last, rest)) => format!("{} or {last}", rest.join(", ")),
    }
}
