//! The screws of a sensor that is set by screws: pitch, distance to the pivot, and which way a turn clockwise moves the beam.

use baywright_planner::model::Adjusted;
use baywright_planner::model::screw::{Screw, Upright};
use baywright_planner::model::sheet::Side;
use egui::Ui;

use super::car_form::{CarForm, Line, Of, part};
use crate::screen::widgets;

impl CarForm<'_> {
    pub(super) fn screws(&mut self, ui: &mut Ui, at: usize, adjusted: Adjusted) {
        let Some(mut now) = self.car.sensors.get(at).map(|own| own.screws) else { return };
        if adjusted != Adjusted::Screw {
            return;
        }
        let before = now;
        let texts = self.desk.view.locale.language.screws();
        part(ui, texts.title, &format!("screws {at}"), before != Default::default(), |ui| {
            ui.add(egui::Label::new(widgets::soft(ui, texts.why)).wrap());
            let path = |field: &str| format!("sensors[{at}].screws.{field}");
            let labels = [texts.pitch_up_down, texts.arm_up_down];
            self.screw(ui, labels, &path("up_down"), &mut now.up_down);
            let ways = [None, Some(Upright::Up), Some(Upright::Down)];
            let named =
                |way: &Option<Upright>| way.map_or(texts.not_said, |way| texts.up_or_down(way)).to_owned();
            let path_of_way = path("up_down.clockwise");
            let chosen = self.pick(ui, texts.way_up_down, &path_of_way, &now.up_down.clockwise, &ways, named);
            now.up_down.clockwise = chosen.unwrap_or(now.up_down.clockwise);
            let labels = [texts.pitch_left_right, texts.arm_left_right];
            self.screw(ui, labels, &path("left_right"), &mut now.left_right);
            let ways = [None, Some(Side::Left), Some(Side::Right)];
            let named =
                |way: &Option<Side>| way.map_or(texts.not_said, |way| texts.left_or_right(way)).to_owned();
            let path_of_way = path("left_right.clockwise");
            let clockwise = now.left_right.clockwise;
            let chosen = self.pick(ui, texts.way_left_right, &path_of_way, &clockwise, &ways, named);
            now.left_right.clockwise = chosen.unwrap_or(clockwise);
        });
        if now != before
            && let Some(own) = self.car.sensors.get_mut(at)
        {
            own.screws = now;
        }
    }

    fn screw<W>(&mut self, ui: &mut Ui, [pitch, arm]: [&str; 2], path: &str, screw: &mut Screw<W>) {
        let texts = self.desk.view.locale.language.screws();
        for (label, hint, field, value) in [
            (pitch, texts.pitch_hint, "pitch_mm", &mut screw.pitch_mm),
            (arm, texts.arm_hint, "arm_mm", &mut screw.arm_mm),
        ] {
            let path = format!("{path}.{field}");
            let line = Line { label, hint, path: &path, ..Line::default() };
            *value = self.number_or_none(ui, line, Of::Length, *value).unwrap_or(*value);
        }
    }
}
