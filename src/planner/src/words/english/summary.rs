//! The answer in one sentence, beside the verdict.

use super::this_car;
use super::{About, sentence_start};
use crate::assessment::{Assessment, Facts, Severity, TooLarge, Verdict};
use crate::cure::{LOOKED_WITHIN_MM, looks_elsewhere};

/// Beside the work it concerns, on every output.
pub const CAUTION: &str = "The vehicle maker's procedure decides. Chock the wheels, set the brake as told, keep eyes off \
                           the laser.";

impl About<'_> {
    /// How many findings of which kind, alone: each is a point of its own, with its letter.
    pub fn counted(&self, assessment: &Assessment) -> String {
        match (assessment.count(Severity::Stops), assessment.count(Severity::Care)) {
            (0, 0) => "Nothing found in the way.".to_owned(),
            (0, 1) => "One point needs care.".to_owned(),
            (0, care) => format!("{care} points need care."),
            (stops, 0) => format!("{}.", stop(stops)),
            (stops, 1) => format!("{}, 1 needs care.", stop(stops)),
            (stops, care) => format!("{}, {care} need care.", stop(stops)),
        }
    }

    /// How many findings of which kind, and what would make the space ready.
    pub fn summary(&self, assessment: &Assessment) -> String {
        let found = self.counted(assessment);
        match &assessment.promise {
            Some(promise) => {
                let then = match promise.verdict {
                    Verdict::Ready => "the space is ready",
                    _ => "nothing stops it; some points still need care",
                };
                format!("{found} {}, and {then}.", sentence_start(&self.steps(&promise.steps)))
            }
            // Nor the car itself.
            None if this_car::first(assessment).is_some() => {
                format!("{found} {}", this_car::first(assessment).unwrap_or_default())
            }
            // No move of a thing or of the car puts a mark right.
            None if assessment.findings.iter().any(|own| matches!(own.facts, Facts::LaidOff(_))) => {
                format!(
                    "{found} The marks lie beside their places: shift them as the tape check says, or lay them anew, and tape again."
                )
            }
            None if assessment.verdict == Verdict::NotReady => match self.too_small_by(assessment) {
                Some(by) => {
                    let how = match by {
                        TooLarge::Long { .. } => "short",
                        TooLarge::Wide { .. } => "narrow",
                    };
                    let by = self.length(by.missing_mm());
                    format!("{found} The room is {by} too {how} for it this way round.")
                }
                None if !looks_elsewhere(self.arrangement, assessment) => {
                    format!("{found} So much is in the way that no other place was looked for.")
                }
                None => format!(
                    "{found} No set of moves was found that makes it ready, with the car within {} of where it stands.",
                    self.length(LOOKED_WITHIN_MM)
                ),
            },
            None => found,
        }
    }

    /// What is asked: the bay, the arrangement in it, its car and its aiming.
    pub fn asked(&self, bay: &str) -> String {
        let own = self.arrangement;
        let planned = if own.loading.own_building { ", building as planned" } else { "" };
        format!("{bay}, “{}”{planned}: {}, {}", own.id, own.vehicle.name, own.aiming.name)
    }

    /// The verdict and how it comes about.
    pub fn answer(&self, assessment: &Assessment) -> String {
        let examples = if assessment.on_example_figures { " (on example figures)" } else { "" };
        format!("{}{examples}. {}", self.verdict(assessment.verdict), self.summary(assessment))
    }

    /// The usual cautions.
    pub const fn caution(&self) -> &'static str {
        CAUTION
    }
}

fn stop(stops: usize) -> String {
    if stops == 1 {
        "One point stops the aiming".to_owned()
    } else {
        format!("{stops} points stop the aiming")
    }
}
