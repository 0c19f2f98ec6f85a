//! What another mark plan would buy, in words.

use super::Words;
use crate::another_plan::PlanBuys;
use crate::proof::Helps;

texts! {
    another_plan: AnotherPlanTexts, "Every fixed text about other mark plans.";
    maker_decides, "Whose plan it is.";
    take, "Changes the plan of the car.";
    take_why, "What that does.";
    none, "No other plan makes it surer here.";
    looking, "While it is looked for.";
}

impl Words<'_> {
    sentences! { about:
        /// What another plan buys, with the step that is the dearest then.
        other_plan(helps: &Helps, own: &PlanBuys) -> String;
        /// What is laid otherwise in it, a sentence each.
        laid_otherwise(own: &PlanBuys) -> Vec<String>;
    }
}
