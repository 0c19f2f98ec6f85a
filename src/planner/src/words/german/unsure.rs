//! Places that are not known well enough, in words.

use super::{About, listed};
use crate::assessment::{Code, Finding, MayBe, Meets, Subject};
use crate::model::ParkedKnown;

/// How many are named; of the rest, how many there are.
pub(super) const NAMED: usize = 3;

impl About<'_> {
    /// Each place that something may be in.
    pub(super) fn each_of(&self, places: &[MayBe]) -> String {
        let named: Vec<String> = places.iter().take(NAMED).map(|one| self.subject(&one.of)).collect();
        and_more(named, places.len())
    }

    /// What a thing or wall may be in the way of, the nearest first.
    pub(super) fn may_be(&self, finding: &Finding, all: &[MayBe]) -> String {
        let mut all: Vec<&MayBe> = all.iter().collect();
        all.sort_by(|a, b| a.gap_mm.total_cmp(&b.gap_mm));
        let named = all.iter().take(NAMED).map(|one| self.may(one)).collect();
        let what = and_more(named, all.len());
        let it = if finding.culprit().is_some() { "It" } else { "That" };
        format!("{} {it} may {what}.", self.known(finding))
    }

    /// What of the room the set-up may meet, the nearest first.
    pub(super) fn car_place(&self, all: &[Meets]) -> String {
        let named = all.iter().take(NAMED).map(|one| {
            let (what, of) = (self.subject(&one.what), self.subject(&one.may_be.of));
            match (one.may_be.code, &one.what) {
                (Code::ZoneObject | Code::ZoneUnjudged, _) => format!("{what} may be inside {of}"),
                (Code::LightInPicture, _) => format!("{what} may come into the picture of {of}"),
                (Code::WheelOffRunway, _) => format!("a wheel may leave {what}"),
                (Code::WheelPlace, _) => format!("a wheel may come onto {what}"),
                (Code::MarkInAir, _) => format!("{of} may lie beside {what}, in the air"),
                (Code::MarkPlace | Code::StandClash, Subject::FloorFeature(_)) => {
                    format!("{of} may come onto {what}")
                }
                (Code::RunBlocked, _) => format!("{what} may be in a run to {of}"),
                _ => format!("{what} may be in the way of {of}"),
            }
        });
        let what = and_more(named.collect(), all.len());
        let (mm, rad) = self.arrangement.shop.parked_within(self.arrangement.parked_known);
        let so_much = format!("± {} and ± {}", self.length(mm), self.margin_of_angle(rad));
        let known = match self.arrangement.parked_known {
            ParkedKnown::Planned => format!("It is planned there, {so_much}"),
            ParkedKnown::Taped => format!("Its place was taped, so it is known to {so_much}"),
            ParkedKnown::Within { .. } => format!("Its place is known to {so_much}"),
        };
        format!("{known}: {what}.")
    }

    /// What something may do, with how far it is from doing it: "hide part of the target (40 mm)".
    fn may(&self, one: &MayBe) -> String {
        let of = self.subject(&one.of);
        let what = match (one.code, &one.of) {
            (Code::SightBlocked, _) => format!("hide part of {of}"),
            (Code::FresnelEntered, _) => format!("be too near the radar's path to {of}"),
            (Code::RunBlocked, _) => format!("stand in a run to {of}"),
            (Code::MarkPlace, _) => format!("stand on {of}"),
            (Code::LightInPicture, _) => format!("be in the picture of {of}"),
            (_, Subject::Zone(_)) => format!("be inside {of}"),
            _ => format!("be where {of} goes"),
        };
        format!("{what} ({})", self.length(one.gap_mm))
    }
}

pub(super) fn and_more(mut named: Vec<String>, all: usize) -> String {
    match all - named.len() {
        0 => {}
        1 => named.push("one more".to_owned()),
        n => named.push(format!("{n} more")),
    }
    listed(&named)
}
