//! What is found of one set-up that is not found of another, and what is found of both.

use crate::assessment::{Assessment, Finding, Severity};

/// What is found of one beside another, by position among its findings; notes are left out.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Found {
    /// What the other does not have.
    pub alone: Vec<usize>,
    /// What the other has too, and where it stands there.
    pub in_both: Vec<(usize, usize)>,
}

/// What is found of `own` beside `other`. The same is what says the same of the same things; of several such each is the one in the
/// same place among them.
pub fn found(own: &Assessment, other: &Assessment) -> Found {
    let mut all = Found::default();
    for (at, finding) in own.findings.iter().enumerate().filter(|(_, own)| own.severity != Severity::Note) {
        let nth = own.findings.iter().take(at).filter(|before| is_same(before, finding)).count();
        let same = || other.findings.iter().enumerate().filter(|(_, own)| is_same(own, finding));
        match same().nth(nth).or_else(|| same().next_back()) {
            Some((there, _)) => all.in_both.push((at, there)),
            None => all.alone.push(at),
        }
    }
    all
}

/// The same thing said of the same things.
fn is_same(a: &Finding, b: &Finding) -> bool {
    a.severity != Severity::Note
        && b.severity != Severity::Note
        && a.code() == b.code()
        && a.subjects == b.subjects
}
