//! The answer in one sentence, beside the verdict.

use super::this_car;
use super::{About, sentence_start};
use crate::assessment::{Assessment, Facts, Severity, TooLarge, Verdict};
use crate::cure::{LOOKED_WITHIN_MM, looks_elsewhere};

/// Beside the work it concerns, on every output.
pub const CAUTION: &str = "Es gilt die Anleitung des Herstellers. Räder verkeilen, Bremse wie dort verlangt, nicht in den Laser blicken.";

impl About<'_> {
    /// How many findings of which kind, alone: each is a point of its own, with its letter.
    pub fn counted(&self, assessment: &Assessment) -> String {
        match (assessment.count(Severity::Stops), assessment.count(Severity::Care)) {
            (0, 0) => "Nichts im Weg gefunden.".to_owned(),
            (0, 1) => "Ein Punkt verlangt Vorsicht.".to_owned(),
            (0, care) => format!("{care} Punkte verlangen Vorsicht."),
            (stops, 0) => format!("{}.", stop(stops)),
            (stops, 1) => format!("{}, 1 verlangt Vorsicht.", stop(stops)),
            (stops, care) => format!("{}, {care} verlangen Vorsicht.", stop(stops)),
        }
    }

    /// How many findings of which kind, and what would make the space ready.
    pub fn summary(&self, assessment: &Assessment) -> String {
        let found = self.counted(assessment);
        match &assessment.promise {
            Some(promise) => {
                let then = match promise.verdict {
                    Verdict::Ready => "dann ist der Platz bereit",
                    _ => "dann verhindert nichts mehr die Einstellung; einige Punkte verlangen noch Vorsicht",
                };
                format!("{found} {}, {then}.", sentence_start(&self.steps(&promise.steps)))
            }
            // Nor the car itself.
            None if this_car::first(assessment).is_some() => {
                format!("{found} {}", this_car::first(assessment).unwrap_or_default())
            }
            // No move of a thing or of the car puts a mark right.
            None if assessment.findings.iter().any(|own| matches!(own.facts, Facts::LaidOff(_))) => {
                format!(
                    "{found} Die Marken liegen neben ihren Stellen: nach der Markenprüfung verschieben oder neu legen, und neu messen."
                )
            }
            None if assessment.verdict == Verdict::NotReady => match self.too_small_by(assessment) {
                Some(by) => {
                    let how = match by {
                        TooLarge::Long { .. } => "kurz",
                        TooLarge::Wide { .. } => "schmal",
                    };
                    format!(
                        "{found} Der Raum ist in dieser Richtung {} zu {how} dafür.",
                        self.length(by.missing_mm())
                    )
                }
                None if !looks_elsewhere(self.arrangement, assessment) => {
                    format!("{found} So viel ist im Weg, dass kein anderer Platz gesucht wurde.")
                }
                None => format!(
                    "{found} Auch mit dem Fahrzeug um bis zu {} versetzt wurde nichts gefunden, das den Platz bereit macht.",
                    self.length(LOOKED_WITHIN_MM)
                ),
            },
            None => found,
        }
    }

    /// What is asked: the bay, the arrangement in it, its car and its aiming.
    pub fn asked(&self, bay: &str) -> String {
        let own = self.arrangement;
        let planned = if own.loading.own_building { ", Gebäude wie geplant" } else { "" };
        format!("{bay}, „{}“{planned}: {}, {}", own.id, own.vehicle.name, own.aiming.name)
    }

    /// The verdict and how it comes about.
    pub fn answer(&self, assessment: &Assessment) -> String {
        let examples = if assessment.on_example_figures { " (mit Beispielwerten)" } else { "" };
        format!("{}{examples}. {}", self.verdict(assessment.verdict), self.summary(assessment))
    }

    /// The usual cautions.
    pub const fn caution(&self) -> &'static str {
        CAUTION
    }
}

fn stop(stops: usize) -> String {
    if stops == 1 {
        "Ein Punkt verhindert die Einstellung".to_owned()
    } else {
        format!("{stops} Punkte verhindern die Einstellung")
    }
}
