//! A language for tests, offered to nobody: English in brackets, two fifths longer. What stands on a screen, in an answer or on
//! a drawing without brackets was not made here; what is cut off will be cut off in a longer language too.

use std::collections::BTreeMap;
use std::sync::{Mutex, PoisonError};

use super::help::Help;

/// A text, or several, put in brackets.
pub(super) trait Bracket {
    /// The same in brackets and longer; what is empty stays so.
    fn bracketed(self) -> Self;
}

fn longer(text: &str) -> String {
    if text.is_empty() {
        return String::new();
    }
    // The brackets are two of them.
    let more = (text.chars().count() * 2).div_ceil(5).saturating_sub(2);
    let words: String = " ever so long".chars().cycle().take(more).collect();
    format!("\u{27e6}{text}{words}\u{27e7}")
}

impl Bracket for String {
    fn bracketed(self) -> Self {
        longer(&self)
    }
}

impl Bracket for &'static str {
    /// Each text is made once and then kept, so that it is as fixed as the English one.
    fn bracketed(self) -> Self {
        static MADE: Mutex<BTreeMap<&str, &str>> = Mutex::new(BTreeMap::new());
        let mut made = MADE.lock().unwrap_or_else(PoisonError::into_inner);
        made.entry(self).or_insert_with(|| longer(self).leak())
    }
}

impl<T: Bracket> Bracket for Option<T> {
    fn bracketed(self) -> Self {
        self.map(Bracket::bracketed)
    }
}

impl<A: Bracket, B: Bracket> Bracket for (A, B) {
    fn bracketed(self) -> Self {
        (self.0.bracketed(), self.1.bracketed())
    }
}

impl<T: Bracket> Bracket for Vec<T> {
    fn bracketed(self) -> Self {
        self.into_iter().map(Bracket::bracketed).collect()
    }
}

impl<T: Bracket + Copy> Bracket for &'static [T] {
    fn bracketed(self) -> Self {
        self.iter().map(|text| text.bracketed()).collect::<Vec<T>>().leak()
    }
}

impl Bracket for Help {
    fn bracketed(self) -> Self {
        Self {
            first_steps: self.first_steps.bracketed(),
            sections: self.sections.bracketed(),
            keys: self.keys.bracketed(),
        }
    }
}
