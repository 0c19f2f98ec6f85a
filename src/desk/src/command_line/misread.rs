//! A command line that cannot be read: what the library that reads it says, as values.

use clap::error::{ContextKind, ContextValue, ErrorKind};

use crate::command_line::kind::{About, Kind};

/// What cannot be read of a command line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Misread {
    /// What kind of thing it is.
    pub(crate) kind: Kind,
    /// What it is about.
    pub(crate) about: About,
    /// All of it as it is printed: the library's own words, which may be several lines.
    pub(crate) text: String,
}

impl From<&clap::Error> for Misread {
    fn from(error: &clap::Error) -> Self {
        let kind = match error.kind() {
            ErrorKind::InvalidSubcommand => Kind::UnknownCommand,
            ErrorKind::UnknownArgument => Kind::UnknownOption,
            ErrorKind::MissingRequiredArgument
            | ErrorKind::MissingSubcommand
            | ErrorKind::TooFewValues
            | ErrorKind::NoEquals => Kind::MissingArgument,
            _ => Kind::WrongArgument,
        };
        let first = |kinds: &[ContextKind]| kinds.iter().find_map(|kind| told(error.get(*kind)?));
        let argument = first(&[ContextKind::InvalidArg]);
        let found = match kind {
            Kind::UnknownOption => argument.clone(),
            _ => first(&[ContextKind::InvalidSubcommand, ContextKind::InvalidValue]),
        };
        let about = About {
            field: argument.filter(|_| kind != Kind::UnknownOption),
            found,
            allowed: first(&[ContextKind::ValidValue]),
            meant: [ContextKind::SuggestedSubcommand, ContextKind::SuggestedArg, ContextKind::SuggestedValue]
                .iter()
                .find_map(|kind| nearest(error.get(*kind)?)),
            ..About::default()
        };
        Self { kind, about, text: error.to_string().trim_end().to_owned() }
    }
}

/// Of what may have been meant, the nearest: the library names it last.
fn nearest(value: &ContextValue) -> Option<String> {
    match value {
        ContextValue::Strings(texts) => texts.last().cloned(),
        other => told(other),
    }
}

fn told(value: &ContextValue) -> Option<String> {
    match value {
        ContextValue::String(text) => Some(text.clone()),
        ContextValue::Strings(texts) => Some(texts.join(", ")).filter(|all| !all.is_empty()),
        ContextValue::Number(number) => Some(number.to_string()),
        _ => None,
    }
}
