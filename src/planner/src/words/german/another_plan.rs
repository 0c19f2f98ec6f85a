//! German of the same: see `words/another_plan.rs`.

use super::{About, Language, listed};
use crate::another_plan::{Otherwise, PlanBuys};
use crate::proof::Helps;
use crate::words::Words;
use crate::words::another_plan::AnotherPlanTexts;

/// The fixed texts.
pub const TEXTS: AnotherPlanTexts = AnotherPlanTexts {
    language: Language::German,
    maker_decides: "Das Verfahren des Fahrzeugherstellers entscheidet: Marken nur anders legen, wo es das offen lässt.",
    take: "Plan ändern",
    take_why: "Öffnet das Formular des Autos mit diesem Plan darin. Behalten wird nichts, bevor das Auto behalten wird; es lässt sich rückgängig machen",
    none: "Kein anderer Plan, den dieser Raum zulässt, macht es sicherer.",
    looking: "Andere Pläne werden gesucht \u{2026}",
};

impl About<'_> {
    /// "Mit den Marken 1, 2, 3 und 4 1,00 m neben den Reifen statt 0,20 m: ± 0,03° statt ± 0,05°."
    pub fn other_plan(&self, helps: &Helps, own: &PlanBuys) -> String {
        let [before, after] = [helps.u95, own.u95].map(|u95| self.finely(helps.of, u95));
        let how = match &own.otherwise {
            Otherwise::FurtherOut { marks, from_mm, to_mm } => {
                let marks: Vec<String> = marks.iter().map(ToString::to_string).collect();
                let (to, from) = (self.length(*to_mm), self.length(*from_mm));
                format!("Marken {}: {to} neben den Reifen statt {from}", listed(&marks))
            }
            Otherwise::LongerBase => "Mit Linien, die weiter weg beginnen".to_owned(),
            Otherwise::OtherWay => "Anders gelegt".to_owned(),
        };
        let gain = format!("{how}: ±\u{a0}{after} statt ±\u{a0}{before}.");
        match &own.dearest {
            Some(cost) => {
                let then = About::of(&Words::new(&own.then, self.locale));
                let share = self.locale.region.number(100.0 * cost.share, 0);
                format!("{gain} Am teuersten dann: {}, {share} %.", then.origin(&cost.origin))
            }
            None => gain,
        }
    }

    /// The steps that are otherwise.
    pub fn laid_otherwise(&self, own: &PlanBuys) -> Vec<String> {
        let then = About::of(&Words::new(&own.then, self.locale));
        match own.otherwise {
            Otherwise::FurtherOut { .. } => Vec::new(),
            Otherwise::LongerBase | Otherwise::OtherWay => {
                own.changed.iter().map(|step| then.instruction(*step, &own.scene)).collect()
            }
        }
    }
}
