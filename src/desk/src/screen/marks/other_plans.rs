//! What another mark plan would buy, behind the details of the marks, and the press that changes the plan.

use baywright_planner::another_plan::{PlanBuys, plan_helps};
use baywright_planner::proof::Helps;
use egui::{Label, RichText, Ui};

use crate::screen::command::{Command, OfCar};
use crate::screen::look::size;
use crate::screen::{Desk, waking, widgets};
use crate::session::answer::SlowPart;

/// What was found, of which answer.
#[derive(Debug, Default)]
pub(super) struct OtherPlans(SlowPart<Vec<PlanBuys>>);

impl OtherPlans {
    /// Takes in what came since the last frame; what failed, in whose words.
    pub fn collect(&mut self) -> Result<(), String> {
        self.0.collect()
    }
}

impl Desk {
    /// Each plan with what it buys; the press waits while a car is being entered, for it begins to change one.
    pub(super) fn other_plans(
        &self,
        ui: &mut Ui,
        helps: &Helps,
        found: &mut OtherPlans,
        out: &mut Vec<Command>,
    ) {
        let (words, texts) = (self.words(), self.view.locale.language.another_plan());
        let wake = waking(ui.ctx());
        self.answer.work_out(&mut found.0, ("other mark plans", 1), &wake, |of, _, tell| {
            plan_helps(of, &|| !tell.is_stopped())
        });
        let soft = |ui: &mut Ui, text: String| {
            ui.add(Label::new(widgets::soft(ui, widgets::unbroken(text))).wrap());
        };
        let Some(shown) = self.answer.shown_of(&found.0).filter(|own| !own.is_older) else {
            return soft(ui, texts.looking.to_owned());
        };
        if shown.found.is_empty() {
            return soft(ui, texts.none.to_owned());
        }
        for own in shown.found {
            let text = words.other_plan(helps, own);
            ui.add(Label::new(RichText::new(widgets::unbroken(text.as_str())).size(size::SMALL)).wrap());
            for step in words.laid_otherwise(own) {
                soft(ui, format!("\u{2022} {step}"));
            }
            if self.document.draft().is_none() {
                let name = self.texts().with(texts.take, &text);
                let press = widgets::lesser(ui, texts.take).on_hover_text(texts.take_why);
                if press.accessible_name(name).clicked() {
                    out.push(Command::Car(OfCar::Plan(Box::new(own.clone()))));
                }
            }
        }
        soft(ui, texts.maker_decides.to_owned());
    }
}
