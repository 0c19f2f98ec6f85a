//! Places that are not known well enough, in words.

use super::names::before;
use super::{About, listed};
use crate::assessment::{Code, Finding, MayBe, Meets, Subject};
use crate::model::ParkedKnown;

/// How many are named; of the rest, how many there are.
pub(super) const NAMED: usize = 3;

impl About<'_> {
    /// Within each place that something may be in.
    pub(super) fn in_each_of(&self, places: &[MayBe]) -> String {
        let named = places.iter().take(NAMED).map(|one| before("in", &self.dative(&one.of)));
        and_more(named.collect(), places.len())
    }

    /// What a thing or wall may be in the way of, the nearest first.
    pub(super) fn may_be(&self, finding: &Finding, all: &[MayBe]) -> String {
        let mut all: Vec<&MayBe> = all.iter().collect();
        all.sort_by(|a, b| a.gap_mm.total_cmp(&b.gap_mm));
        let named = all.iter().take(NAMED).map(|one| self.may(one)).collect();
        format!("{} Vielleicht {}.", self.known(finding), and_more(named, all.len()))
    }

    /// What of the room the set-up may meet, the nearest first.
    pub(super) fn car_place(&self, all: &[Meets]) -> String {
        let named = all.iter().take(NAMED).map(|one| {
            let of = &one.may_be.of;
            let what = self.subject(&one.what);
            match (one.may_be.code, &one.what) {
                (Code::ZoneObject | Code::ZoneUnjudged, _) => {
                    format!("{what} kann {} sein", before("in", &self.dative(of)))
                }
                (Code::LightInPicture, _) => {
                    format!("{what} kann in das Bild {} kommen", self.genitive(of))
                }
                (Code::WheelOffRunway, _) => format!("ein Rad kann von {} abkommen", self.dative(&one.what)),
                (Code::WheelPlace, _) => format!("ein Rad kann auf {} kommen", self.accusative(&one.what)),
                (Code::MarkInAir, _) => {
                    format!("{} kann neben {} in der Luft liegen", self.subject(of), self.dative(&one.what))
                }
                (Code::MarkPlace | Code::StandClash, Subject::FloorFeature(_)) => {
                    format!("{} kann auf {} kommen", self.subject(of), self.accusative(&one.what))
                }
                (Code::RunBlocked, _) => {
                    format!("{what} kann in einer Messstrecke {} sein", before("zu", &self.dative(of)))
                }
                _ => format!("{what} kann {} im Weg sein", self.dative(of)),
            }
        });
        let what = and_more(named.collect(), all.len());
        let (mm, rad) = self.arrangement.shop.parked_within(self.arrangement.parked_known);
        let so_much = format!("± {} und ± {}", self.length(mm), self.margin_of_angle(rad));
        let known = match self.arrangement.parked_known {
            ParkedKnown::Planned => format!("Der Platz ist geplant, {so_much}"),
            ParkedKnown::Taped => format!("Der Platz ist eingemessen, {so_much}"),
            ParkedKnown::Within { .. } => format!("Der Platz ist auf {so_much} bekannt"),
        };
        format!("{known}: {what}.")
    }

    /// What something may do, with how far it is from doing it: "die Tafel teilweise verdeckt (40 mm)".
    fn may(&self, one: &MayBe) -> String {
        let (accusative, dative) = (self.accusative(&one.of), self.dative(&one.of));
        let what = match (one.code, &one.of) {
            (Code::SightBlocked, _) => format!("ein Teil {} verdeckt", self.genitive(&one.of)),
            (Code::FresnelEntered, _) => format!("zu nah am Weg des Radars {}", before("zu", &dative)),
            (Code::RunBlocked, _) => format!("in einer Messstrecke {}", before("zu", &dative)),
            (Code::MarkPlace, _) => format!("auf {dative}"),
            (Code::LightInPicture, _) => format!("im Bild {}", self.genitive(&one.of)),
            (_, Subject::Zone(_)) => before("in", &dative),
            _ => format!("am Platz für {accusative}"),
        };
        format!("{what} ({})", self.length(one.gap_mm))
    }
}

pub(super) fn and_more(mut named: Vec<String>, all: usize) -> String {
    match all - named.len() {
        0 => {}
        1 => named.push("noch eins".to_owned()),
        n => named.push(format!("{n} weitere")),
    }
    listed(&named)
}
