//! What went wrong, as data: for `--json`, to standard error.

use std::io::{self, Write};

use baywright_planner::words::Language;
use schemars::JsonSchema;
use serde::Serialize;

use super::VERSION;
use crate::command_line::kind::Kind;
use crate::command_line::trouble::Trouble;

/// What `--json` writes to standard error if anything went wrong.
#[derive(Serialize, JsonSchema)]
pub(super) struct Errors {
    /// Which kind of document this is.
    format: ErrorsFormat,
    /// The version of the format. New fields may be added without a new one.
    version: u32,
    /// What went wrong, in the order in which it was met; never empty.
    #[schemars(length(min = 1))]
    errors: Vec<Wrong>,
}

/// What went wrong.
#[derive(Serialize, JsonSchema)]
enum ErrorsFormat {
    #[serde(rename = "baywright-errors")]
    Errors,
}

/// One thing that went wrong.
#[derive(Serialize, JsonSchema)]
struct Wrong {
    /// What kind of thing it is.
    kind: Kind,
    /// The file, as it was named.
    file: Option<String>,
    /// Its line, from 1.
    line: Option<u32>,
    /// Its column, from 1, counted in characters.
    column: Option<u32>,
    /// The field, by its path in the file; of the command line the argument.
    field: Option<String>,
    /// What was found there, in words.
    found: Option<String>,
    /// What is allowed there, in words.
    allowed: Option<String>,
    /// What was probably meant.
    meant: Option<String>,
    /// All of it in a sentence, as it is written without `--json`.
    sentence: String,
}

/// Writes what went wrong as one document; nothing if nothing did.
pub(crate) fn write_troubles(
    troubles: &[Trouble],
    language: Language,
    errors: &mut dyn Write,
) -> io::Result<()> {
    if troubles.is_empty() {
        return Ok(());
    }
    let all = troubles.iter().map(|trouble| wrong(trouble, language)).collect();
    let document = Errors { format: ErrorsFormat::Errors, version: VERSION, errors: all };
    serde_json::to_writer_pretty(&mut *errors, &document)?;
    writeln!(errors)
}

fn wrong(trouble: &Trouble, language: Language) -> Wrong {
    let about = trouble.about(language);
    Wrong {
        kind: trouble.kind(),
        file: about.file,
        line: about.line,
        column: about.column,
        field: about.field,
        found: about.found,
        allowed: about.allowed,
        meant: about.meant,
        sentence: trouble.sentence(language),
    }
}
