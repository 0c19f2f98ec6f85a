//! The floor marks of an aiming: steps in order, each with its construction and the marks that it uses, picked in the
//! drawing or from a list, and the instruction as a person will read it.

use baywright_planner::geometry::marks::Construction;
use baywright_planner::model::assumed::AimingPart;
use baywright_planner::model::{Aiming, Id, MarkStep, PlanFault};
use egui::{Button, RichText, Ui};

use super::car_form::{CarForm, Order, part};
use super::choices;
use crate::screen::command::{Command, OfCar, OfView};
use crate::screen::look::size;
use crate::screen::view::Tool;
use crate::screen::widgets;

impl CarForm<'_> {
    pub(super) fn mark_plan(&mut self, ui: &mut Ui, i: usize, out: &mut Vec<Command>) {
        let texts = self.texts;
        let Some(aiming) = self.car.aimings.get(i) else { return };
        let count = aiming.mark_plan.len();
        let figure = AimingPart::MarkPlan.of(&aiming.id);
        let id = aiming.id.clone();
        let shown = self.desk.answer().arrangement.aiming.id == id;
        let mut asked = None;
        let before = aiming.mark_plan.clone();
        for j in 0..count {
            let Some(step) = self.car.aimings.get(i).and_then(|own| own.mark_plan.get(j)) else { continue };
            let title = self.desk.texts().of(step.id.as_str(), texts.way(&step.construction));
            part(ui, &title, &format!("mark {i} {j}"), false, |ui| {
                self.mark_step(ui, i, j, out);
                if shown {
                    self.as_told(ui, j);
                }
                asked = self.order(ui, &title, j, count).map(|order| (j, order)).or(asked);
            });
        }
        if let Some((j, order)) = asked {
            self.order_mark(i, j, order, out);
        }
        let ways = choices::ways(count, &self.car);
        ui.menu_button(texts.add_mark, |ui| {
            for way in ways {
                if ui.button(texts.way(&way)).clicked() {
                    self.add_mark(i, way);
                    ui.close();
                }
            }
        });
        if self.car.aimings.get(i).is_some_and(|own| own.mark_plan != before) {
            self.car.enter(&figure);
            self.did();
        }
    }

    /// The instruction, and why the mark cannot be found if it cannot.
    fn as_told(&self, ui: &mut Ui, j: usize) {
        let answer = self.desk.answer();
        if answer.stale {
            return;
        }
        let (arrangement, scene) = (&*answer.judged, &answer.assessment.scene);
        let told = self.desk.words().instruction(j, scene);
        ui.add(egui::Label::new(RichText::new(widgets::unbroken(told)).size(size::SMALL)).wrap());
        let Some(id) = arrangement.aiming.mark_plan.get(j).map(|step| &step.id) else { return };
        let words = self.desk.words();
        let colour = ui.visuals().error_fg_color;
        let of_mark = |finding: &&baywright_planner::Finding| {
            finding.code() == baywright_planner::Code::MarkFault
                && finding.subjects.first() == Some(&baywright_planner::Subject::Mark(id.clone()))
        };
        for finding in answer.assessment.findings.iter().filter(of_mark) {
            let text = RichText::new(widgets::unbroken(words.line(finding))).size(size::LEAST).color(colour);
            ui.add(egui::Label::new(text).wrap());
        }
    }

    fn add_mark(&mut self, i: usize, construction: Construction) {
        let Some(own) = self.car.aimings.get_mut(i) else { return };
        let id = free_number(own);
        own.mark_plan.push(MarkStep { id, construction });
    }

    fn order_mark(&mut self, i: usize, j: usize, order: Order, out: &mut Vec<Command>) {
        let texts = self.texts;
        let Some(own) = self.car.aimings.get_mut(i) else { return };
        let done = match order {
            Order::Up => j.checked_sub(1).map_or(Err(PlanFault::NoSuch), |before| own.swap_marks(before)),
            Order::Down => own.swap_marks(j),
            Order::Remove => own.remove_mark(j),
            Order::Copy => {
                let id = free_number(own);
                let construction = own.mark_plan.get(j).map(|step| step.construction);
                construction.map_or(Err(PlanFault::NoSuch), |construction| {
                    own.mark_plan.push(MarkStep { id, construction });
                    Ok(())
                })
            }
        };
        match done {
            Ok(()) | Err(PlanFault::NoSuch) => {}
            Err(PlanFault::OutOfOrder) => out.push(Command::Say(texts.used_later.to_owned())),
            Err(PlanFault::Used) => out.push(Command::Say(texts.used_by_others.to_owned())),
        }
    }

    /// One mark that a step uses: from the list of those before it, or picked in the drawing.
    pub(super) fn used_mark(
        &mut self,
        ui: &mut Ui,
        label: &str,
        (i, j, nth): (usize, usize, usize),
        out: &mut Vec<Command>,
    ) {
        let texts = self.texts;
        let Some(aiming) = self.car.aimings.get(i) else { return };
        let Some(step) = aiming.mark_plan.get(j) else { return };
        let Some(&now) = step.construction.uses().get(nth) else { return };
        let names: Vec<Id> = aiming.mark_plan.iter().take(j).map(|step| step.id.clone()).collect();
        let id = aiming.id.clone();
        let path = format!("aimings[{i}].mark_plan[{j}].how {nth}");
        let all: Vec<usize> = (0..names.len()).collect();
        let chosen = self.pick(ui, label, &path, &now, &all, |&k| {
            names.get(k).map_or_else(|| "?".to_owned(), ToString::to_string)
        });
        let tool = Tool::PickMark { aiming: i, step: j, nth };
        let picking = self.desk.view.tool == tool;
        let text = RichText::new(texts.pick).size(size::LEAST);
        let pick = ui.add(Button::new(text).selected(picking)).on_hover_text(texts.pick_why);
        if pick.accessible_name(self.desk.texts().of(texts.pick, label)).clicked() {
            out.push(Command::Car(OfCar::Aiming(id)));
            out.push(Command::View(OfView::Tool(if picking { Tool::WhichSide } else { tool })));
        }
        if let (Some(chosen), Some(own)) = (chosen, self.car.aimings.get_mut(i)) {
            // The list holds only marks before this one.
            let _ = own.use_mark(j, nth, chosen);
        }
    }

    pub(super) fn step_name(&mut self, ui: &mut Ui, i: usize, j: usize) {
        let texts = self.texts;
        let Some(aiming) = self.car.aimings.get(i) else { return };
        let others: Vec<Id> = aiming.mark_plan.iter().map(|step| step.id.clone()).collect();
        let Some(id) = others.get(j) else { return };
        let path = format!("aimings[{i}].mark_plan[{j}].name");
        let typed = self.own_id(ui, texts.name, &path, id, others.iter());
        if let (Some(to), Some(own)) = (typed, self.car.aimings.get_mut(i)) {
            own.rename_mark(j, to);
        }
    }

    pub(super) fn no_marks_before(&self, ui: &mut Ui) {
        ui.label(widgets::soft(ui, self.texts.needs_earlier));
    }
}

/// The next free number.
fn free_number(aiming: &Aiming) -> Id {
    let marks = &aiming.mark_plan;
    // Among one more number than there are marks one is free.
    let numbers = (1..=marks.len()).map(|n| n.to_string());
    let free = numbers.into_iter().find(|n| !marks.iter().any(|step| step.id.as_str() == n));
    free.unwrap_or_else(|| (marks.len() + 1).to_string()).into()
}
