//! English of what was read and does not count, or says something else than what was entered.

use super::About;
use crate::assessment::{Facts, Finding, Unused};

impl About<'_> {
    pub(super) fn read_title(&self, finding: &Finding) -> String {
        let mark = finding.subjects.first().map_or_else(String::new, |own| self.subject(own));
        match &finding.facts {
            Facts::ReadingUnused { all: 1, first: Unused::NoBodyPoint(of) } => {
                format!("what was plumbed of {of} is not used")
            }
            Facts::ReadingUnused { all: 1, first: Unused::NoTarget(of) } => {
                format!("what was read of the stand {of} is not used")
            }
            Facts::ReadingUnused {
                all: 1,
                first: Unused::NoMark { from, to } | Unused::NoRun { from, to },
            } => {
                format!("the reading from {from} to {to} is not used")
            }
            Facts::ReadingUnused { all, .. } => format!("{all} readings are not used"),
            Facts::ReadingDay { is_to_come: true } => "a reading is of a day to come".to_owned(),
            Facts::ReadingDay { is_to_come: false } => "marks were taped on another day".to_owned(),
            Facts::MarkElsewhere { .. } => format!("{mark} is not where it is entered"),
            _ => format!("a check of {mark} is not used"),
        }
    }

    pub(super) fn read_detail(&self, finding: &Finding) -> String {
        match &finding.facts {
            Facts::ReadingUnused { first, .. } => {
                let why = match first {
                    Unused::NoMark { from, to } => {
                        format!("This mark plan does not have both {from} and {to}.")
                    }
                    Unused::NoRun { from, to } => {
                        format!(
                            "No straight tape is held from {from} to {to}: something of the car is between them."
                        )
                    }
                    Unused::NoTarget(of) => format!("This aiming has no target {of}."),
                    Unused::NoBodyPoint(of) => {
                        format!("This car's profile has no point of the body called {of}.")
                    }
                };
                format!("{why} Type it where it belongs, or take it out: nothing of the answer rests on it.")
            }
            Facts::ReadingDay { is_to_come: true } => {
                "Put its day right, or the clock of this machine.".to_owned()
            }
            Facts::ReadingDay { is_to_come: false } => {
                "The marks are laid from the wheels as the car stood then. Show by two distances to \
                 it, taped then and now, that it was not moved, or tape the marks again."
                    .to_owned()
            }
            Facts::MarkElsewhere { by, on } => format!(
                "By the check of {} it lies off by {}. Check it once more; then enter it where it lies, or paint it anew.",
                self.locale.region.day(*on),
                self.towards(*by)
            ),
            Facts::MarkCheckUnused { on, is_to_come: true } => {
                format!("Its day, {}, is still to come: put it right.", self.locale.region.day(*on))
            }
            Facts::MarkCheckUnused { on, .. } => self.check_says_nothing(*on),
            _ => String::new(),
        }
    }

    /// So many days from today.
    pub(super) fn days_away(&self, value: &str, is_to_come: bool) -> String {
        if is_to_come { format!("{value} after today") } else { format!("{value} before today") }
    }
}
