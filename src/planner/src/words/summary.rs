//! The answer in one sentence, beside the verdict.

use super::{Words, sentence_start};
use crate::assessment::{Assessment, Facts, Severity, Verdict};

/// Beside the work it concerns, on every output.
pub const CAUTION: &str = "The vehicle maker's procedure decides. Chock the wheels, set the brake as told, keep eyes off \
                           the laser.";

impl Words<'_> {
    /// How many findings of which kind, and what would make the space ready.
    pub fn summary(&self, assessment: &Assessment) -> String {
        let stops = assessment.count(Severity::Stops);
        let care = assessment.count(Severity::Care);
        let found = match (stops, care) {
            (0, 0) => "Nothing found in the way.".to_owned(),
            (0, 1) => "One thing needs care.".to_owned(),
            (0, care) => format!("{care} things need care."),
            (stops, 0) => format!("{}.", stop(stops)),
            (stops, 1) => format!("{}, 1 needs care.", stop(stops)),
            (stops, care) => format!("{}, {care} need care.", stop(stops)),
        };
        match &assessment.promise {
            Some(promise) => {
                let then = match promise.verdict {
                    Verdict::Ready => "the space is ready",
                    _ => "only care remains",
                };
                format!("{found} {}, and {then}.", sentence_start(&self.steps(&promise.steps)))
            }
            None if assessment.verdict == Verdict::NotReady => {
                let short = assessment.findings.iter().find_map(|finding| match finding.facts {
                    Facts::TooLong { needs, there } => Some(("short", needs - there)),
                    Facts::TooWide { needs, there } => Some(("narrow", needs - there)),
                    _ => None,
                });
                match short {
                    Some((how, by)) => {
                        format!("{found} The room is {} too {how} for it this way round.", self.length(by))
                    }
                    None => format!("{found} No set of moves was found that makes it ready."),
                }
            }
            None => found,
        }
    }

    /// The usual cautions.
    pub const fn caution(&self) -> &'static str {
        CAUTION
    }
}

fn stop(stops: usize) -> String {
    if stops == 1 { "1 thing stops the aiming".to_owned() } else { format!("{stops} things stop the aiming") }
}
