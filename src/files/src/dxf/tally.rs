//! What of a drawing is left out, counted by kind.

use std::collections::BTreeMap;

use baywright_planner::model::fault::LeftOut;

/// Kinds beyond so many are counted together.
const MOST_KINDS: usize = 100;
/// So many lines of each are told.
const MOST_LINES: usize = 5;
/// Longest name of a kind, in letters.
const LONGEST: usize = 40;

/// So many of a kind that were left out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NotRead {
    /// The format's own name of the kind; `None` for all kinds beyond a hundred.
    pub kind: Option<String>,
    /// Why they were.
    pub why: LeftOut,
    /// How many.
    pub count: usize,
    /// The lines of the first five, from 1.
    pub lines: Vec<u32>,
}

/// All that was left out.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Tally {
    all: BTreeMap<(Option<String>, LeftOut), (usize, Vec<u32>)>,
}

impl Tally {
    /// One more of a kind, in a line.
    pub fn add(&mut self, kind: &str, why: LeftOut, line: u32) {
        let plain = kind.chars().filter(|letter| letter.is_ascii_alphanumeric() || *letter == '_');
        self.count((Some(plain.take(LONGEST).collect()), why), 1, &[line]);
    }

    /// All of another one.
    pub fn add_all(&mut self, other: &Self) {
        for (own, (count, lines)) in &other.all {
            self.count(own.clone(), *count, lines);
        }
    }

    fn count(&mut self, mut of: (Option<String>, LeftOut), count: usize, lines: &[u32]) {
        if self.all.len() >= MOST_KINDS && !self.all.contains_key(&of) {
            of.0 = None;
        }
        let own = self.all.entry(of).or_default();
        own.0 = own.0.saturating_add(count);
        let room = MOST_LINES.saturating_sub(own.1.len());
        own.1.extend(lines.iter().take(room));
    }

    /// A line for each kind and reason.
    pub fn told(&self) -> Vec<NotRead> {
        let told = self.all.iter().map(|((kind, why), (count, lines))| NotRead {
            kind: kind.clone(),
            why: *why,
            count: *count,
            lines: lines.clone(),
        });
        told.collect()
    }
}
