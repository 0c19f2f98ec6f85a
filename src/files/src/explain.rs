//! What the text reader complains of, in a workshop's words.

use baywright_planner::model::validate::nearest;
use ron::error::{Error, SpannedError};
use serde_path_to_error::{Path, Segment};

use crate::fault::{FileFault, one_of, quoted};
use crate::text::Text;
use crate::{slip, spot};

/// A complaint of the reader as a fault of the file.
pub fn parse_fault(text: &Text, error: &SpannedError, path: Option<&Path>) -> FileFault {
    let start = spot::offset(&text.text, error.span.start.line, error.span.start.col);
    let end = spot::offset(&text.text, error.span.end.line, error.span.end.col);
    let (mut at, mut field) = (start, path.map(field_path).filter(|p| !p.is_empty()));
    let (found, allowed) = match &error.code {
        Error::NoSuchStructField { expected, found, .. } => {
            field = Some(joined(field, found));
            let meant = did_you_mean(found, expected);
            (format!("a field named {}", quoted(found)), one_of(expected.iter().copied()) + &meant)
        }
        Error::MissingStructField { field: missing, .. } => {
            field = Some(joined(field, missing));
            // The reader is at the record's end; its start is what a person looks for.
            at = field.as_deref().and_then(|f| spot::deepest_offset(&text.text, f)).unwrap_or(start);
            (format!("no {missing}"), "a value: this field must be given".to_owned())
        }
        Error::DuplicateStructField { field: twice, .. } => {
            field = Some(joined(field, twice));
            (format!("{twice} again"), "each field once".to_owned())
        }
        Error::NoSuchEnumVariant { expected, found, .. } => {
            (quoted(found), bare(expected) + &did_you_mean(found, expected))
        }
        Error::ExceededRecursionLimit => {
            ("records nested too deep".to_owned(), "records as the formats describe them".to_owned())
        }
        Error::TrailingCharacters => {
            (token(text, end), "nothing after the file's last closing bracket".to_owned())
        }
        Error::Eof => ("the end of the file".to_owned(), "a file whose brackets are all closed".to_owned()),
        Error::InvalidValueForType { expected, found } => (plain_value(found), expected.clone()),
        Error::ExpectedDifferentLength { expected, found } => {
            (format!("{found} values"), plain_length(expected))
        }
        Error::Message(message) => (message.clone(), "what the formats describe".to_owned()),
        code => {
            at = if start == end { start } else { value_start(text, start, end) };
            (token(text, at), kind_in_quotes(text, at, code).unwrap_or_else(|| expected(code)))
        }
    };
    let (mut found, mut allowed) = (found, allowed);
    let names_field =
        matches!(error.code, Error::NoSuchStructField { .. } | Error::MissingStructField { .. });
    if let Some(quote) = spot::unclosed_text(&text.text, end) {
        let (first, last) = (quote.start, quote.end);
        let last = spot::line_and_column(&text.text, last).0;
        at = first;
        found = format!("a text that goes on to line {last}");
        allowed = "a text that ends on its line: its closing double quote is probably missing".to_owned();
    } else if let Some((number, meant)) = slip::in_number(&text.text, start, end).filter(|_| !names_field) {
        (found, allowed) = (number, meant);
    }
    let (line, column) = spot::line_and_column(&text.text, at);
    FileFault { file: text.file.clone(), line: Some(line), column: Some(column), field, found, allowed }
}

/// A path as the formats write it: names of kinds are left out.
fn field_path(path: &Path) -> String {
    let mut written = String::new();
    for segment in path.iter() {
        match segment {
            Segment::Seq { index } => written.push_str(&format!("[{index}]")),
            Segment::Map { key } => {
                if !written.is_empty() {
                    written.push('.');
                }
                written.push_str(key);
            }
            Segment::Enum { .. } | Segment::Unknown => {}
        }
    }
    written
}

fn joined(path: Option<String>, field: &str) -> String {
    match path {
        // The path may already end with the field.
        Some(path) if path == field || path.ends_with(&format!(".{field}")) => path,
        Some(path) => format!("{path}.{field}"),
        None => field.to_owned(),
    }
}

/// Names of kinds, which stand in files without quotes.
fn bare(names: &[&str]) -> String {
    match names.split_last() {
        None => "nothing".to_owned(),
        Some((only, [])) => (*only).to_owned(),
        Some((last, rest)) => format!("{} or {last}", rest.join(", ")),
    }
}

/// A kind stands without quotes.
fn kind_in_quotes(text: &Text, at: usize, code: &Error) -> Option<String> {
    let rest = text.text.get(at..)?.strip_prefix('"')?;
    let word = rest.split(['"', '\n']).next()?;
    let is_word =
        word.starts_with(char::is_alphabetic) && word.chars().all(|c| c.is_alphanumeric() || c == '_');
    let asked = matches!(code, Error::ExpectedIdentifier | Error::ExpectedNamedStructLike(_));
    (asked && is_word).then(|| format!("a kind without quotes: {word}"))
}

fn did_you_mean(found: &str, words: &[&str]) -> String {
    let meant = nearest(found, words.iter().copied());
    meant.map(|meant| format!(" (did you mean {meant}?)")).unwrap_or_default()
}

fn expected(code: &Error) -> String {
    match code {
        Error::ExpectedFloat => "a number",
        Error::ExpectedInteger | Error::InvalidIntegerDigit { .. } => "a whole number",
        Error::IntegerOutOfBounds => "a whole number from 0 to 4294967295",
        Error::ExpectedBoolean => "true or false",
        Error::ExpectedString => "a text in double quotes",
        Error::ExpectedStringEnd => "a text closed by a double quote",
        Error::ExpectedArray => "a list in [ and ]",
        Error::ExpectedArrayEnd => "a comma or ] at the end of the list",
        Error::ExpectedComma => "a comma between two entries",
        Error::ExpectedMapColon => "a colon after the field's name",
        Error::ExpectedStructLike | Error::ExpectedNamedStructLike(_) => "a record in ( and )",
        Error::ExpectedStructLikeEnd => "a comma or ) at the end of the record",
        Error::ExpectedIdentifier | Error::InvalidIdentifier(_) | Error::SuggestRawIdentifier(_) => {
            "the name of a field or of a kind"
        }
        Error::ExpectedUnit => "a kind without figures",
        Error::UnclosedBlockComment | Error::UnclosedLineComment => "a comment that is closed",
        Error::FloatUnderscore | Error::UnderscoreAtBeginning => "a number without underscores at its ends",
        Error::InvalidEscape(_) => "a backslash only as in \\\" or \\\\",
        Error::NoSuchExtension(_) | Error::ExpectedAttribute | Error::ExpectedAttributeEnd => {
            "no #![...] line: none is needed"
        }
        _ => "what the formats describe",
    }
    .to_owned()
}

fn plain_value(found: &str) -> String {
    // serde says `the string "x"`, `the unsigned integer `5``; its words are good enough, its backticks are not.
    found.replace('`', "")
}

fn plain_length(expected: &str) -> String {
    expected.replace("a tuple of size", "a list of figures in ( and ) of length").replace('`', "")
}

/// Where the value starts that the reader was in: after blanks.
fn value_start(text: &Text, start: usize, end: usize) -> usize {
    let rest = text.text.get(start..end.max(start)).unwrap_or_default();
    start + (rest.len() - rest.trim_start().len())
}

/// The word at a place in the text, for a sentence.
fn token(text: &Text, at: usize) -> String {
    let rest = text.text.get(at..).unwrap_or_default().trim_start();
    let Some(first) = rest.chars().next() else { return "the end of the file".to_owned() };
    let is_word = |c: char| c.is_alphanumeric() || "_.+-".contains(c);
    let word: String = if first == '"' {
        let end = rest.char_indices().skip(1).find(|(_, c)| matches!(c, '"' | '\n')).map_or(
            rest.len(),
            |(i, c)| {
                if c == '"' { i + 1 } else { i }
            },
        );
        return format!("the text {}", quoted(rest.get(..end).unwrap_or_default().trim_matches('"')));
    } else if is_word(first) {
        rest.chars().take_while(|&c| is_word(c)).collect()
    } else {
        first.to_string()
    };
    quoted(&word)
}
