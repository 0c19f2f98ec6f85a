//! English of the same: see `words/way_in.rs`.

use super::names::the;
use super::{About, Language, listed, sentence_start};
use crate::assessment::Subject;
use crate::way_in::{Driven, TooSmall, Turns, Way};
use crate::words::way_in::WayTexts;

/// The fixed texts.
pub const TEXTS: WayTexts = WayTexts {
    language: Language::English,
    where_it_stands: "Where the car stands now",
    looking: "Looking for the ways in \u{2026}",
    taken_as_free: "What lies before a door is taken as free and level, and a shut door is opened for it. Targets and stands are set up once the car stands.",
    beside_it: "Somebody outside the car watches its corners.",
    in_the_drawing: "shaded: where the car passes; dot: least room",
};

impl About<'_> {
    /// How the car comes there.
    pub fn way(&self, way: &Way) -> String {
        match way {
            Way::Driven(own) => self.driven(own),
            Way::Pushed { .. } => {
                "No driven way found: it has to be pushed, or turned on dollies.".to_owned()
            }
            Way::Barred { door, by } if by.is_empty() => {
                format!("No driven way found, nor one straight in by {}.", the(door))
            }
            Way::Barred { door, by } => {
                let verb = if by.len() == 1 { "stands" } else { "stand" };
                format!("No driven way found: {} {verb} just inside {}.", self.all_of(by), the(door))
            }
            Way::Taken { by } if by.is_empty() => {
                "No driven way found: hardly any room where it would stand.".to_owned()
            }
            Way::Taken { by } => {
                let verb = if by.len() == 1 { "is" } else { "are" };
                format!("No driven way: {} {verb} where it would stand.", self.all_of(by))
            }
            Way::NoDoorLetsIn { door, of, mm, is_only } => {
                let lacks = match of {
                    TooSmall::Narrow => format!("is {} too narrow", self.length(*mm)),
                    TooSmall::Low => format!("is {} too low", self.length(*mm)),
                    TooSmall::Sill => format!("has a sill {} too high", self.length(*mm)),
                    TooSmall::NoGround => "has no ground".to_owned(),
                };
                if *is_only {
                    format!("The only door, {}, {lacks}.", the(door))
                } else {
                    format!("No door lets it in: {} {lacks}.", the(door))
                }
            }
            Way::NoDoor => "No door is entered by which it could come.".to_owned(),
            Way::NoCar => "What is entered of the car does not say how it turns.".to_owned(),
            Way::Stopped => "The way in was not looked for to the end.".to_owned(),
        }
    }

    fn all_of(&self, all: &[Subject]) -> String {
        listed(&all.iter().map(|own| self.subject(own)).collect::<Vec<_>>())
    }

    fn driven(&self, own: &Driven) -> String {
        let mut line = format!("By {}", the(&own.door));
        if own.is_opened {
            line.push_str(", opened for it");
        }
        line.push_str(if own.nose_first { ", nose first" } else { ", backwards in" });
        match own.changes {
            0 => {}
            1 => line.push_str(", one change of gear"),
            all => line.push_str(&format!(", {all} changes of gear")),
        }
        if own.mirrors_folded {
            line.push_str(", mirrors folded");
        }
        if let Some(least) = &own.least {
            line.push_str(&format!("; least room {} at {}", self.length(least.mm), self.subject(&least.to)));
            if least.known_mm >= least.mm {
                line.push_str(&format!(", whose place is known to ± {}", self.length(least.known_mm)));
            }
        }
        line.push('.');
        if !own.aside.is_empty() {
            line.push_str(&format!(" {} rolled aside first.", sentence_start(&self.all_of(&own.aside))));
        }
        line
    }

    /// How tight it turns.
    pub fn turning(&self, turns: &Turns) -> String {
        let circle = self.length(turns.circle_mm);
        if turns.is_assumed {
            format!(
                "Turning circle {circle} between kerbs: assumed for such a car. Enter what this car has with what was measured on it."
            )
        } else {
            format!("Turning circle {circle} between kerbs, as entered for this car.")
        }
    }
}
