//! What the text reader complains of, as a fault of our own.

use baywright_planner::model::fault::{Allowed, Counted, Fault, FileFault, Found, Quote, Syntax};
use baywright_planner::model::validate::nearest;
use ron::error::{Error, SpannedError};
use serde_path_to_error::{Path, Segment};

use crate::figure::{A_DAY, A_MOMENT};
use crate::text::Text;
use crate::{slip, spot};

/// A complaint of the reader as a fault of the file.
pub fn parse_fault(text: &Text, error: &SpannedError, path: Option<&Path>) -> FileFault {
    let start = spot::offset(&text.text, error.span.start.line, error.span.start.col);
    let end = spot::offset(&text.text, error.span.end.line, error.span.end.col);
    let (mut at, mut field) = (start, path.map(field_path).unwrap_or_default());
    let (mut found, mut allowed) = match &error.code {
        Error::NoSuchStructField { expected, found, .. } => {
            field = joined(&field, found);
            let meant = nearest(found, expected.iter().copied());
            (Found::FieldNamed(Quote::of(found)), Allowed::Field(expected, meant))
        }
        Error::MissingStructField { field: missing, .. } => {
            field = joined(&field, missing);
            // The reader is at the record's end; its start is what a person looks for.
            at = spot::deepest_offset(&text.text, &field).unwrap_or(start);
            (Found::NoField(missing), Allowed::Syntax(Syntax::Value))
        }
        Error::DuplicateStructField { field: twice, .. } => {
            field = joined(&field, twice);
            (Found::FieldTwice(twice), Allowed::Syntax(Syntax::EachFieldOnce))
        }
        Error::NoSuchEnumVariant { expected, found, .. } => {
            let meant = nearest(found, expected.iter().copied());
            (Found::Word(Quote::of(found)), Allowed::Kind(expected, meant))
        }
        Error::ExceededRecursionLimit => (Found::TooDeep, Allowed::Syntax(Syntax::LessDeep)),
        Error::TrailingCharacters => (token(text, end), Allowed::Syntax(Syntax::NothingMore)),
        Error::Eof => (Found::EndOfFile, Allowed::Syntax(Syntax::ClosedBrackets)),
        Error::InvalidValueForType { expected, found } if expected == A_DAY => {
            (Found::Saying(Quote::of(found)), Allowed::Day)
        }
        Error::InvalidValueForType { expected, found } if expected == A_MOMENT => {
            (Found::Saying(Quote::of(found)), Allowed::Moment)
        }
        Error::ExpectedDifferentLength { expected, found } => {
            (Found::Count(*found, Counted::Values), length(expected))
        }
        code => {
            at = if start == end { start } else { value_start(text, start, end) };
            let allowed = kind_in_quotes(text, at, code).unwrap_or(Allowed::Syntax(expected(code)));
            (token(text, at), allowed)
        }
    };
    // Before the first bracket nothing of any field can be wrong.
    if !text.text.get(..at).unwrap_or_default().contains('(')
        && !matches!(found, Found::EndOfFile)
        && !rest_begins(text, at)
    {
        allowed = Allowed::Syntax(Syntax::WholeFile);
    }
    let names_field =
        matches!(error.code, Error::NoSuchStructField { .. } | Error::MissingStructField { .. });
    if let Some(quote) = spot::unclosed_text(&text.text, end) {
        let (first, last) = (quote.start, quote.end);
        at = first;
        found = Found::TextToLine(spot::line_and_column(&text.text, last).0);
        allowed = Allowed::Syntax(Syntax::TextOnOneLine);
    } else if let Some((number, meant)) = slip::in_number(&text.text, start, end).filter(|_| !names_field) {
        (found, allowed) = (number, meant);
    }
    let place = spot::line_and_column(&text.text, at);
    FileFault::inside(&text.file, Some(place), Fault { field, found, allowed })
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

fn joined(path: &str, field: &str) -> String {
    // The path may already end with the field.
    if path == field || path.ends_with(&format!(".{field}")) {
        path.to_owned()
    } else if path.is_empty() {
        field.to_owned()
    } else {
        format!("{path}.{field}")
    }
}

/// A kind stands without quotes.
fn kind_in_quotes(text: &Text, at: usize, code: &Error) -> Option<Allowed> {
    let rest = text.text.get(at..)?.strip_prefix('"')?;
    let word = rest.split(['"', '\n']).next()?;
    let is_word =
        word.starts_with(char::is_alphabetic) && word.chars().all(|c| c.is_alphanumeric() || c == '_');
    let asked = matches!(code, Error::ExpectedIdentifier | Error::ExpectedNamedStructLike(_));
    (asked && is_word).then(|| Allowed::Unquoted(word.to_owned()))
}

const fn expected(code: &Error) -> Syntax {
    match code {
        Error::ExpectedFloat => Syntax::Number,
        Error::ExpectedInteger | Error::InvalidIntegerDigit { .. } => Syntax::WholeNumber,
        Error::IntegerOutOfBounds => Syntax::WholeNumberUpTo(u32::MAX),
        Error::ExpectedBoolean => Syntax::TrueOrFalse,
        Error::ExpectedString => Syntax::Text,
        Error::ExpectedStringEnd => Syntax::ClosedText,
        Error::ExpectedArray => Syntax::List,
        Error::ExpectedArrayEnd => Syntax::EndOfList,
        Error::ExpectedComma => Syntax::Comma,
        Error::ExpectedMapColon => Syntax::Colon,
        Error::ExpectedStructLike | Error::ExpectedNamedStructLike(_) => Syntax::Record,
        Error::ExpectedStructLikeEnd => Syntax::EndOfRecord,
        Error::ExpectedIdentifier | Error::InvalidIdentifier(_) | Error::SuggestRawIdentifier(_) => {
            Syntax::FieldOrKind
        }
        Error::ExpectedUnit => Syntax::KindAlone,
        Error::UnclosedBlockComment | Error::UnclosedLineComment => Syntax::ClosedComment,
        Error::FloatUnderscore | Error::UnderscoreAtBeginning => Syntax::NoUnderscores,
        Error::InvalidEscape(_) => Syntax::Backslash,
        Error::NoSuchExtension(_) | Error::ExpectedAttribute | Error::ExpectedAttributeEnd => {
            Syntax::NoSettings
        }
        _ => Syntax::AsDescribed,
    }
}

/// Whether a record, or a setting of the format before it, begins at this place.
fn rest_begins(text: &Text, at: usize) -> bool {
    text.text.get(at..).unwrap_or_default().trim_start().starts_with(['(', '#'])
}

/// How many figures a list must have: the reader says "a tuple of size 2".
fn length(expected: &str) -> Allowed {
    let count = expected.strip_prefix("a tuple of size ").and_then(|count| count.parse().ok());
    count.map_or(Allowed::Syntax(Syntax::AsDescribed), Allowed::Figures)
}

/// Where the value starts that the reader was in: after blanks.
fn value_start(text: &Text, start: usize, end: usize) -> usize {
    let rest = text.text.get(start..end.max(start)).unwrap_or_default();
    start + (rest.len() - rest.trim_start().len())
}

/// The word at a place in the text.
fn token(text: &Text, at: usize) -> Found {
    let rest = text.text.get(at..).unwrap_or_default().trim_start();
    let Some(first) = rest.chars().next() else { return Found::EndOfFile };
    let is_word = |c: char| c.is_alphanumeric() || "_.+-".contains(c);
    let word: String = if first == '"' {
        let end = rest.char_indices().skip(1).find(|(_, c)| matches!(c, '"' | '\n')).map_or(
            rest.len(),
            |(i, c)| {
                if c == '"' { i + 1 } else { i }
            },
        );
        return Found::Text(Quote::of(rest.get(..end).unwrap_or_default().trim_matches('"')));
    } else if is_word(first) {
        rest.chars().take_while(|&c| is_word(c)).collect()
    } else {
        first.to_string()
    };
    Found::Word(Quote::of(&word))
}
