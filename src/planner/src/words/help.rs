//! Longer texts: the first steps, help, what the keys do.

use super::Language;

/// A title and its lines.
pub type Section = (&'static str, &'static [&'static str]);

/// Keys and what they do.
pub type Key = (&'static str, &'static str);

/// The longer texts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Help {
    /// What the program is for and the first steps in it.
    pub first_steps: &'static [Section],
    /// What is seen, what the program does not do, cautions.
    pub sections: &'static [Section],
    /// Keys and what they do.
    pub keys: &'static [Key],
}

impl Language {
    /// The longer texts.
    pub fn help(self) -> &'static Help {
        texts_of!(self, Help, help)
    }
}
