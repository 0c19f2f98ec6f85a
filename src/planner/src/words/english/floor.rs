//! What is found of the floor's levels, in words.

use super::off_place::off_by;
use super::{About, listed};
use crate::assessment::{Finding, FloorFact, Subject, Tilt};
use crate::ground::{KnownBy, LevelKnown};

impl About<'_> {
    /// What else to know about it; where it is not sure, how surely each level is known, and who says so.
    pub(super) fn floor_detail(&self, fact: FloorFact) -> String {
        let detail = detail(fact).to_owned();
        match LevelKnown::worst(self.arrangement).filter(|_| is_unsure(fact)) {
            Some(known) => {
                let within = self.locale.tenths(known.within_mm);
                let by = match known.by {
                    KnownBy::Survey => ", as its survey says.",
                    KnownBy::Instrument(_) => ", as the shop's list of instruments has it.",
                    KnownBy::Assumed => ": assumed, the shop's own figure.",
                };
                format!("{detail} Each level counts as ± {within}{by}")
            }
            None => detail,
        }
    }

    /// What is wrong, as it stands within a sentence.
    pub(super) fn floor_title(&self, fact: FloorFact, finding: &Finding) -> String {
        let what = match finding.subjects.first() {
            Some(Subject::Runway(_)) => self.bare_subject(&finding.subjects[0]),
            _ => "floor".to_owned(),
        };
        let there = || {
            let names = finding.subjects.iter().skip(1).map(|subject| match subject {
                Subject::Car => "the wheels".to_owned(),
                other => self.subject(other),
            });
            listed(&names.collect::<Vec<_>>())
        };
        match fact {
            FloorFact::Unknown => {
                let all = finding.subjects.iter().map(|ground| self.bare_subject(ground));
                format!("{} not surveyed here", listed(&all.collect::<Vec<_>>()))
            }
            FloorFact::Undated | FloorFact::NoToday | FloorFact::Future | FloorFact::OutOfDate => {
                self.survey_title(fact, finding)
            }
            FloorFact::NotCovered => format!("{what} survey does not reach {}", there()),
            FloorFact::Between => format!("{what} survey has no point near {}", there()),
            FloorFact::Uncertain => format!("{what} level is not well known at {}", there()),
            FloorFact::Uneven => format!("{what} is not level at wheels and target"),
            FloorFact::Astride => format!("{} would stand astride a step", there()),
            FloorFact::MaybeUneven => format!("{what} may not be level at wheels and target"),
            FloorFact::Tilted(tilt) => format!("the car stands {}", tilted(tilt)),
            FloorFact::MaybeTilted(tilt) => format!("the car may stand {}", tilted(tilt)),
            FloorFact::TargetOff { high } => {
                format!("{} would stand {} for the car", there(), if high { "too high" } else { "too low" })
            }
            FloorFact::TargetMaybeOff { high } => {
                format!("{} may stand {} for the car", there(), if high { "too high" } else { "too low" })
            }
            FloorFact::MatOff { high } => {
                format!("{} would lie {} for the car", there(), if high { "too high" } else { "too low" })
            }
            FloorFact::MatMaybeOff { high } => {
                format!("{} may lie {} for the car", there(), if high { "too high" } else { "too low" })
            }
            FloorFact::PlumbOff(_) => {
                format!("{} would be upright by the plumb line, not for the car", there())
            }
            FloorFact::PlumbMaybeOff(_) => {
                format!("{} may be upright by the plumb line and not for the car", there())
            }
        }
    }

    /// What is wrong with the age of a survey, or of several.
    fn survey_title(&self, fact: FloorFact, finding: &Finding) -> String {
        let all = finding.subjects.iter().map(|ground| self.bare_subject(ground));
        let what = listed(&all.collect::<Vec<_>>());
        let is_one = finding.subjects.len() < 2;
        let (survey, is, has) = if is_one { ("survey", "is", "has") } else { ("surveys", "are", "have") };
        match fact {
            FloorFact::Undated => format!("{what} {survey} {has} no date"),
            FloorFact::NoToday => format!("how old the {what} {survey} {is} cannot be told"),
            FloorFact::Future => format!("{what} {survey} {is} dated in the future"),
            _ => format!("{what} {survey} {is} out of date"),
        }
    }
}

/// Whether it is what is uncertain of levels that makes it one.
const fn is_unsure(fact: FloorFact) -> bool {
    matches!(
        fact,
        FloorFact::Uncertain
            | FloorFact::MaybeUneven
            | FloorFact::MaybeTilted(_)
            | FloorFact::TargetMaybeOff { .. }
            | FloorFact::MatMaybeOff { .. }
            | FloorFact::PlumbMaybeOff(_)
    )
}

const fn tilted(tilt: Tilt) -> &'static str {
    match tilt {
        Tilt::NoseDown => "nose down",
        Tilt::NoseUp => "nose up",
        Tilt::LeftUp => "left side up",
        Tilt::RightUp => "right side up",
    }
}

/// The number against its limit.
pub(super) fn measure(fact: FloorFact, value: &str, limit: &str) -> String {
    match fact {
        FloorFact::OutOfDate => format!("{value} old, limit {limit}"),
        FloorFact::Between => format!("{value} to the nearest, wants {limit}"),
        FloorFact::Uncertain => format!("known to ± {value}, limit {limit}"),
        FloorFact::MaybeUneven => format!("up to {value} between highest and lowest, limit {limit}"),
        FloorFact::Tilted(_) => format!("by {value}, limit {limit}"),
        FloorFact::MaybeTilted(_) => format!("by up to {value}, limit {limit}"),
        FloorFact::PlumbOff(about) => format!("{value} {}, limit {limit}", off_by(about)),
        FloorFact::PlumbMaybeOff(about) => format!("up to {value} {}, limit {limit}", off_by(about)),
        FloorFact::TargetOff { .. } | FloorFact::MatOff { .. } => {
            format!("{value} off the plane of the wheels, limit {limit}")
        }
        FloorFact::TargetMaybeOff { .. } | FloorFact::MatMaybeOff { .. } => {
            format!("up to {value} off the plane of the wheels, limit {limit}")
        }
        FloorFact::Unknown
        | FloorFact::Undated
        | FloorFact::NoToday
        | FloorFact::Future
        | FloorFact::NotCovered
        | FloorFact::Astride
        | FloorFact::Uneven => format!("{value} between highest and lowest, limit {limit}"),
    }
}

/// What else to know about it.
const fn detail(fact: FloorFact) -> &'static str {
    match fact {
        FloorFact::Unknown => "Levels at wheels and target are not known.",
        FloorFact::Undated => "Nobody can tell how old it is.",
        FloorFact::NoToday => "It is dated, but it is not known what day it is.",
        FloorFact::Future => "Its date must be wrong.",
        FloorFact::OutOfDate => "Floors settle and joints lift.",
        FloorFact::NotCovered => "Beyond the surveyed points nothing is known.",
        FloorFact::Between => "Between points further apart a floor may do anything.",
        FloorFact::Uncertain => "The surveyed floor bends much there for points so far apart.",
        FloorFact::Uneven => {
            "The aiming needs a floor that is more level there; park on a part that is, or have it levelled."
        }
        FloorFact::Astride => "This aiming asks nothing of the floor, but no stand is square on that.",
        FloorFact::MaybeUneven => {
            "Between surveyed points the floor may bend as it does around them, and the car may stand a little elsewhere."
        }
        FloorFact::Tilted(_) => "That is the plane of the wheels, on the floor as surveyed.",
        FloorFact::MaybeTilted(_) => "That is the plane of the wheels, with what is uncertain of the levels.",
        FloorFact::PlumbOff(_) => {
            "The plane of the wheels is tilted there, and the aiming says how upright is judged: by the plumb line. Park on a \
             part that is more level, or ask whether the procedure means the plane of the wheels."
        }
        FloorFact::PlumbMaybeOff(_) => {
            "The plane of the wheels may be tilted so far, with what is uncertain of the levels."
        }
        FloorFact::MatOff { .. } => {
            "It lies as its floor does: park on a part that is more level, or have it levelled."
        }
        FloorFact::TargetMaybeOff { .. } | FloorFact::MatMaybeOff { .. } => {
            "The plane of the wheels, drawn on to it, is known no better."
        }
        FloorFact::TargetOff { high: true } => {
            "Its floor lies higher than the plane of the wheels there: a height that is taped from that floor is wrong by it. The height to set, which goes by what the procedure calls upright, allows for it."
        }
        FloorFact::TargetOff { high: false } => {
            "Its floor lies lower than the plane of the wheels there: a height that is taped from that floor is wrong by it. The height to set, which goes by what the procedure calls upright, allows for it."
        }
    }
}

/// What a survey is to be for it: of a floor that was surveyed, and lately, it is not said to be surveyed.
pub(super) const fn survey(fact: FloorFact) -> &'static str {
    match fact {
        FloorFact::Unknown => "Survey the floor and enter the levels",
        FloorFact::Undated | FloorFact::Future => "Enter the day of the survey, or survey the floor anew",
        FloorFact::NoToday | FloorFact::OutOfDate => "Survey the floor anew and enter the levels",
        FloorFact::NotCovered => "Survey the floor as far as there and enter the levels",
        FloorFact::Between
        | FloorFact::Uncertain
        | FloorFact::Uneven
        | FloorFact::MaybeUneven
        | FloorFact::Astride
        | FloorFact::Tilted(_)
        | FloorFact::MaybeTilted(_)
        | FloorFact::TargetOff { .. }
        | FloorFact::TargetMaybeOff { .. }
        | FloorFact::MatOff { .. }
        | FloorFact::MatMaybeOff { .. }
        | FloorFact::PlumbOff(_)
        | FloorFact::PlumbMaybeOff(_) => "Survey more points there and enter their levels",
    }
}
