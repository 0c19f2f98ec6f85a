//! What lies beyond its bay of a hall, in words.

use super::About;
use super::names::the;
use super::unsure::{NAMED, and_more};
use crate::assessment::{Beyond, Code, Finding, Reaches, Subject};

impl About<'_> {
    /// The title of what reaches into another bay or out of its own.
    pub(super) fn beyond_bay_title(&self, lies: Beyond, parts: &[Reaches], finding: &Finding) -> String {
        let name = |at: usize| finding.subjects.get(at).map_or_else(String::new, |own| self.subject(own));
        let verb = if parts.iter().any(|part| part.depth_mm.is_some()) { "reaches" } else { "may reach" };
        match (lies, finding.subjects.first()) {
            (Beyond::Bay, _) => format!("the set-up {verb} into {}", name(0)),
            (Beyond::AtWork, Some(Subject::HallBay(own))) => {
                format!("the set-up {verb} to where people work in {}", the(own))
            }
            (Beyond::AtWork, _) => format!("the set-up {verb} to where people work on another car"),
            (Beyond::Hall, Some(Subject::HallBay(own))) => format!("the set-up {verb} out of {}", the(own)),
            (Beyond::Hall, _) => format!("the set-up {verb} into the hall beside its bays"),
            (Beyond::KeptEmpty, _) => format!("keep {} empty while this is aimed", name(0)),
            (Beyond::NotEmpty, _) => format!("{} stands in {}, which is to be kept empty", name(0), name(1)),
            (Beyond::Overlap, _) => format!("{} and {} overlap", name(0), name(1)),
            (Beyond::SameFloor, _) => format!("{} and {} are the same floor", name(0), name(1)),
        }
    }

    /// What lies there, and what to do about it.
    pub(super) fn beyond_bay(&self, lies: Beyond, parts: &[Reaches]) -> String {
        let said = match lies {
            Beyond::Bay => "Another car may be driven in there meanwhile",
            Beyond::AtWork => "Nobody steps in there, and nothing is put there, while this is aimed",
            Beyond::Hall => "People and cars pass there: close it off meanwhile",
            Beyond::NotEmpty => return "Drive it out before this is aimed.".to_owned(),
            Beyond::Overlap => return "What is set up on the floor that they share is in both.".to_owned(),
            Beyond::SameFloor => {
                return "Draw them apart, or remove one: of two bays in one place neither can be kept empty for the other."
                    .to_owned();
            }
            Beyond::KeptEmpty if parts.is_empty() => {
                return "Nothing of this set-up reaches into it: it need not be kept empty for that."
                    .to_owned();
            }
            Beyond::KeptEmpty => "No car is driven in and nobody works there meanwhile",
        };
        let chosen = match (&self.arrangement.in_bay, lies) {
            (None, Beyond::Bay | Beyond::Hall) => " Which bay this set-up is made in is not chosen.",
            _ => "",
        };
        format!("{}. {said}.{chosen}", super::sentence_start(&self.lie_there(parts)))
    }

    /// "The keep-clear zone and the car lie there, and mark 4 may."
    fn lie_there(&self, parts: &[Reaches]) -> String {
        let named = |surely: bool| {
            let all: Vec<&Reaches> = parts.iter().filter(|part| part.depth_mm.is_some() == surely).collect();
            let named = all.iter().take(NAMED).map(|part| self.used(part)).collect();
            (all.len(), and_more(named, all.len()))
        };
        let ((sure, are), (unsure, may)) = (named(true), named(false));
        let lie = if sure == 1 { "lies" } else { "lie" };
        match (sure, unsure) {
            (0, _) => format!("{may} may lie there"),
            (_, 0) => format!("{are} {lie} there"),
            _ => format!("{are} {lie} there, and {may} may"),
        }
    }

    /// A part of the set-up by what it uses the floor for.
    pub(super) fn used(&self, part: &Reaches) -> String {
        let of = self.subject(&part.of);
        match part.code {
            Code::WorkingRoom => format!("the room to work around {of}"),
            Code::StandRoom => format!("the room before {of}"),
            Code::SightBlocked => format!("the sight to {of}"),
            Code::FresnelEntered => format!("the radar's path to {of}"),
            _ => of,
        }
    }
}
