//! The sections of the long form, and the way to each: a menu that unfolds one and brings it into sight.

use baywright_planner::Subject;
use baywright_planner::words::sentence_start;
use egui::{Button, RichText, Ui};

use super::car_form::CarForm;
use super::way::{Way, kept};
use crate::screen::in_sight;
use crate::screen::look::size;

/// One section: its name, its key, how deep it lies, and the keys of the sections that it lies in.
struct Section {
    name: String,
    key: String,
    within: Vec<String>,
}

impl CarForm<'_> {
    /// Every section, in the order in which they stand in the form.
    fn sections(&self) -> Vec<Section> {
        let texts = self.texts;
        let mut all: Vec<Section> = [
            (texts.body, "body"),
            (texts.wheels, "wheels"),
            (texts.mirrors, "mirrors"),
            (texts.ride_heights, "ride"),
            (texts.outlines, "outlines"),
            (texts.body_points, "points"),
            (texts.sensors, "sensors"),
        ]
        .map(|(name, key)| Section { name: name.to_owned(), key: key.to_owned(), within: Vec::new() })
        .into();
        for (i, sensor) in self.car.sensors.iter().enumerate() {
            let (name, key) = (sentence_start(sensor.id.as_str()), format!("sensor {i}"));
            all.push(Section { name, key, within: vec!["sensors".to_owned()] });
        }
        let aimings = "aimings".to_owned();
        all.push(Section { name: texts.aimings.to_owned(), key: aimings.clone(), within: Vec::new() });
        for (i, aiming) in self.car.aimings.iter().enumerate() {
            let own = format!("aiming {i}");
            all.push(Section {
                name: sentence_start(&aiming.name),
                key: own.clone(),
                within: vec![aimings.clone()],
            });
            for (name, key) in
                [(texts.mark_plan, "marks"), (texts.targets, "targets"), (texts.zones, "zones")]
            {
                let (name, key) = (name.to_owned(), format!("{key} {i}"));
                all.push(Section { name, key, within: vec![aimings.clone(), own.clone()] });
            }
        }
        all
    }

    /// Leads to a zone or a target of the aiming that is shown, or to all of its zones.
    pub(super) fn lead_to_part(&self, ui: &Ui, part: &Subject) {
        let shown = &self.desk.answer().arrangement.aiming.id;
        let Some(i) = self.car.aimings.iter().position(|own| own.id == *shown) else { return };
        let Some(aiming) = self.car.aimings.get(i) else { return };
        let (kind, kinds, at) = match part {
            Subject::Zone(id) => ("zone", "zones", aiming.zones.iter().position(|own| own.id == *id)),
            Subject::Target(id) => {
                ("target", "targets", aiming.placements.iter().position(|own| own.id == *id))
            }
            Subject::Figures => ("zone", "zones", None),
            _ => return,
        };
        let mut within = vec!["aimings".to_owned(), format!("aiming {i}")];
        let all = format!("{kinds} {i}");
        let to = match at {
            Some(j) => {
                within.push(all);
                format!("{kind} {i} {j}")
            }
            None => all,
        };
        ui.data_mut(|data| data.insert_temp(kept(), Way { to, within }));
        ui.ctx().request_repaint();
    }

    /// The menu of all sections; whether one was chosen.
    pub(super) fn go_to(&self, ui: &mut Ui) -> bool {
        let mut chosen = false;
        ui.menu_button(RichText::new(self.texts.go_to).size(size::SMALL), |ui| {
            ui.set_min_width(220.0);
            let most = in_sight::menu_height(ui);
            egui::ScrollArea::vertical().max_height(most).min_scrolled_height(most).show(ui, |ui| {
                for section in self.sections() {
                    let depth = section.within.len();
                    let name = RichText::new(&section.name).size(size::SMALL);
                    let row = ui.horizontal(|ui| {
                        ui.add_space(INDENT_PX * depth as f32);
                        ui.add(Button::new(name).frame(false))
                    });
                    // Of whose aiming it is, for who cannot see where it stands.
                    let spoken = self.desk.texts().of(self.texts.go_to, &section.name);
                    if row.inner.accessible_name(spoken).clicked() {
                        let way = Way { to: section.key, within: section.within };
                        ui.data_mut(|data| data.insert_temp(kept(), way));
                        chosen = true;
                        ui.close();
                    }
                }
                in_sight::follow(ui);
            });
        })
        .response
        .on_hover_text(self.texts.go_to_hint);
        chosen
    }
}

/// How far what lies in something is moved in, px.
const INDENT_PX: f32 = 14.0;
