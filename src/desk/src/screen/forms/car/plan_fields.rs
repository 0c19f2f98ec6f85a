//! The fields of one step of a mark plan, by its construction.

use baywright_planner::geometry::marks::{Construction, Reach, WhichSide};
use baywright_planner::model::{Id, Wheel};
use egui::Ui;

use super::car_form::{CarForm, Line, Of};
use crate::screen::command::Command;

impl CarForm<'_> {
    pub(super) fn mark_step(&mut self, ui: &mut Ui, i: usize, j: usize, out: &mut Vec<Command>) {
        let texts = self.texts;
        self.step_name(ui, i, j);
        let Some(step) = self.car.aimings.get(i).and_then(|own| own.mark_plan.get(j)) else { return };
        let labels: &[&str] = match step.construction {
            Construction::WheelPoint { .. }
            | Construction::Outboard { .. }
            | Construction::BodyPoint { .. } => &[],
            Construction::Prolong { .. } => &[texts.from_mark, texts.through_mark],
            Construction::Middle { .. } | Construction::TwoDistances { .. } => {
                &[texts.first_mark, texts.second_mark]
            }
            Construction::Foot { .. } => &[texts.of_mark, texts.from_mark, texts.to_mark],
            Construction::AlongAside { .. } => &[texts.from_mark, texts.to_mark],
            Construction::AtAngle { .. } => &[texts.at_mark, texts.to_mark],
            Construction::Crossing { .. } => {
                &[texts.from_mark, texts.through_mark, texts.first_mark, texts.second_mark]
            }
        };
        if !labels.is_empty() && j == 0 {
            self.no_marks_before(ui);
        }
        for (nth, label) in labels.iter().enumerate() {
            self.used_mark(ui, label, (i, j, nth), out);
        }
        let path = format!("aimings[{i}].mark_plan[{j}].how");
        let targets: Vec<Id> = self
            .car
            .aimings
            .get(i)
            .map_or_else(Vec::new, |own| own.placements.iter().map(|p| p.id.clone()).collect());
        // What the lists above changed is read anew.
        let Some(mut how) =
            self.car.aimings.get(i).and_then(|own| own.mark_plan.get(j)).map(|s| s.construction)
        else {
            return;
        };
        self.own_figures(ui, &path, &targets, &mut how);
        if let Some(step) = self.car.aimings.get_mut(i).and_then(|own| own.mark_plan.get_mut(j)) {
            step.construction = how;
        }
    }

    fn own_figures(&mut self, ui: &mut Ui, path: &str, targets: &[Id], how: &mut Construction) {
        let texts = self.texts;
        match how {
            Construction::WheelPoint { wheel } => self.wheel(ui, path, wheel),
            Construction::Outboard { wheel, distance } => {
                self.wheel(ui, path, wheel);
                self.mark_figure(ui, texts.outboard_by, &format!("{path}.distance_mm"), distance);
            }
            Construction::BodyPoint { point } => {
                let names: Vec<Id> = self.car.body_points.iter().map(|own| own.id.clone()).collect();
                let all: Vec<usize> = (0..names.len()).collect();
                let chosen = self.pick(ui, texts.point, &format!("{path}.point"), &*point, &all, |&k| {
                    names.get(k).map_or_else(|| "?".to_owned(), ToString::to_string)
                });
                *point = chosen.unwrap_or(*point);
            }
            Construction::Prolong { reach, .. } => self.reach(ui, path, targets, reach),
            Construction::Middle { .. } | Construction::Foot { .. } | Construction::Crossing { .. } => {}
            Construction::AlongAside { along, aside, .. } => {
                self.mark_figure(ui, texts.along, &format!("{path}.along_mm"), along);
                self.mark_figure(ui, texts.to_left, &format!("{path}.aside_mm"), aside);
            }
            Construction::AtAngle { angle, distance, .. } => {
                let p = format!("{path}.angle_deg");
                let line = Line { label: texts.at_angle, path: &p, ..Line::default() };
                *angle = self.number(ui, line, Of::Angle, *angle).unwrap_or(*angle);
                self.mark_figure(ui, texts.away, &format!("{path}.distance_mm"), distance);
            }
            Construction::TwoDistances { from_first, from_second, side, .. } => {
                self.mark_figure(ui, texts.from_first, &format!("{path}.from_first_mm"), from_first);
                self.mark_figure(ui, texts.from_second, &format!("{path}.from_second_mm"), from_second);
                let sides = [WhichSide::Left, WhichSide::Right];
                let p = format!("{path}.side");
                let chosen =
                    self.pick(ui, texts.on_side, &p, &*side, &sides, |own| texts.side(*own).to_owned());
                *side = chosen.unwrap_or(*side);
            }
        }
    }

    fn mark_figure(&mut self, ui: &mut Ui, label: &str, path: &str, value: &mut f64) {
        let line = Line { label, path, ..Line::default() };
        *value = self.number(ui, line, Of::Length, *value).unwrap_or(*value);
    }

    fn wheel(&mut self, ui: &mut Ui, path: &str, wheel: &mut Wheel) {
        let texts = self.texts;
        let p = format!("{path}.wheel");
        let chosen =
            self.pick(ui, texts.wheel, &p, &*wheel, &Wheel::ALL, |own| texts.wheel_of(*own).to_owned());
        *wheel = chosen.unwrap_or(*wheel);
    }

    /// By a length, or until abreast of a target.
    fn reach(&mut self, ui: &mut Ui, path: &str, targets: &[Id], reach: &mut Reach) {
        let texts = self.texts;
        let length = if let Reach::Length(length) = reach { *length } else { 3_000.0 };
        let ways: Vec<Reach> =
            std::iter::once(Reach::Length(length)).chain((0..targets.len()).map(Reach::AbreastOf)).collect();
        let chosen = self.pick(ui, texts.until, &format!("{path}.reach"), &*reach, &ways, |way| match way {
            Reach::Length(_) => texts.by_length.to_owned(),
            Reach::AbreastOf(k) => {
                let target = targets.get(*k).map_or("?", Id::as_str);
                texts.abreast_of_target(target)
            }
        });
        *reach = chosen.unwrap_or(*reach);
        if let Reach::Length(length) = reach {
            self.mark_figure(ui, texts.by, &format!("{path}.by_mm"), length);
        }
    }
}
