//! Doors that somebody may open while it is aimed, in words.

use super::About;
use super::names::the;
use super::unsure::{NAMED, and_more};
use crate::assessment::{Finding, Opened, Reaches, Subject};
use crate::check::STEP_IN_MM;
use crate::model::Id;

impl About<'_> {
    /// The title of what a shut door may bring.
    pub(super) fn shut_door_title(&self, by: Opened, parts: &[Reaches], finding: &Finding) -> String {
        let Some(Subject::Opening(door)) = finding.subjects.first() else { return String::new() };
        let (name, met) = (self.bare_subject(&Subject::Opening(door.clone())), self.what_is_met(parts));
        match by {
            Opened::Leaf => {
                let over = match parts.first().map(|part| &part.of) {
                    Some(Subject::Mark(_)) => "over",
                    _ => "into",
                };
                format!("{name} may swing {over} {met} if somebody opens it")
            }
            Opened::Step => format!("{name} may let somebody in within a step of {met}"),
            Opened::Never => self.keep_shut(door),
        }
    }

    /// What is known of it.
    pub(super) fn shut_door(&self, by: Opened, parts: &[Reaches]) -> String {
        match by {
            Opened::Leaf => "Which way it is hung is not told: its leaf is counted in the quarter circle about either jamb. \
                             Whoever opens it from outside does not know of the aiming."
                .to_owned(),
            Opened::Step => format!(
                "A step in is {}. Whoever opens it from outside does not know of the aiming.",
                self.length(STEP_IN_MM)
            ),
            Opened::Never if parts.is_empty() => {
                "Nothing of this set-up is in its way: it need not be kept shut for that.".to_owned()
            }
            Opened::Never => format!("Opened, it may disturb {}.", self.what_is_met(parts)),
        }
    }

    /// To keep a door shut: a way out stays unlocked.
    pub(super) fn keep_shut(&self, door: &Id) -> String {
        let door_of = |id: &Id| self.arrangement.bay.openings.iter().find(|own| own.id == *id);
        let how = match door_of(door).is_some_and(|own| own.is_exit) {
            true => "shut but not locked, with somebody at it,",
            false => "shut and locked",
        };
        format!("keep {} {how} while this is aimed", the(door))
    }

    fn what_is_met(&self, parts: &[Reaches]) -> String {
        let named = parts.iter().take(NAMED).map(|part| self.used(part)).collect();
        and_more(named, parts.len())
    }
}
