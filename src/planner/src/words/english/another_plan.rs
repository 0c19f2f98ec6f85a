//! English of the same: see `words/another_plan.rs`.

use super::{About, Language, listed};
use crate::another_plan::{Otherwise, PlanBuys};
use crate::proof::Helps;
use crate::words::Words;
use crate::words::another_plan::AnotherPlanTexts;

/// The fixed texts.
pub const TEXTS: AnotherPlanTexts = AnotherPlanTexts {
    language: Language::English,
    maker_decides: "The vehicle maker's procedure decides: lay marks another way only where it leaves that to you.",
    take: "Change the plan",
    take_why: "Opens the car's form with this plan in it. Nothing is kept before you keep the car; it can be undone",
    none: "No other plan that this room allows makes it surer.",
    looking: "Other plans are being looked for \u{2026}",
};

impl About<'_> {
    /// "With marks 1, 2, 3 and 4 set 1.00 m outboard of the tyres instead of 0.20 m: ± 0.03° instead of ± 0.05°."
    pub fn other_plan(&self, helps: &Helps, own: &PlanBuys) -> String {
        let [before, after] = [helps.u95, own.u95].map(|u95| self.finely(helps.of, u95));
        let how = match &own.otherwise {
            Otherwise::FurtherOut { marks, from_mm, to_mm } => {
                let marks: Vec<String> = marks.iter().map(ToString::to_string).collect();
                let (to, from) = (self.length(*to_mm), self.length(*from_mm));
                format!("With marks {} set {to} outboard of the tyres instead of {from}", listed(&marks))
            }
            Otherwise::LongerBase => "With lines that start further away".to_owned(),
            Otherwise::OtherWay => "Laid another way".to_owned(),
        };
        let gain = format!("{how}: ±\u{a0}{after} instead of ±\u{a0}{before}.");
        match &own.dearest {
            Some(cost) => {
                let then = About::of(&Words::new(&own.then, self.locale));
                let share = self.locale.region.number(100.0 * cost.share, 0);
                format!("{gain} Dearest then: {}, {share} %.", then.origin(&cost.origin))
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
