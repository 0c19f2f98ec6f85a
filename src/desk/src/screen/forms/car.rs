//! The form in which a car and its aimings are entered: on the left, while the drawing shows the car in the bay.
//!
//! Short form first, everything behind it. A figure that was not entered is marked *assumed* until it is; what is wrong
//! stands beside its field; the drawing follows every figure that leaves the car sound.

mod aiming;
pub(in crate::screen) mod body;
pub(in crate::screen) mod car_form;
mod choices;
mod plan;
mod plan_fields;
mod screws;
mod sections;
mod sensors;
mod short;
mod sketch;
mod source;
mod targets;
mod way;
mod zones;

use baywright_planner::entry::starter::StartKind;
use baywright_planner::model::{Figures, Id, Provenance, Vehicle, VehicleClass};
use baywright_planner::words::forms::Forms;
use baywright_planner::words::sentence_start;
use egui::{RichText, ScrollArea, Ui};

use super::{picked, steady};
use crate::screen::command::{Command, OfCar};
use crate::screen::look::{self, size};
use crate::screen::{Desk, in_sight, widgets};
use crate::session::draft::is_to_type;
use car_form::{CarForm, seeking};

/// How wide the form is, px.
pub(in crate::screen) const FORM_PX: f32 = 400.0;

impl Desk {
    pub(in crate::screen) fn car_panel(&mut self, ui: &mut Ui, out: &mut Vec<Command>) {
        let texts = self.view.locale.language.forms();
        let Some(draft) = self.document.draft() else { return };
        let (car, faults, unlikely) = (Vehicle::clone(draft.car()), draft.faults(), draft.unlikely());
        let fields = std::mem::take(&mut self.fields);
        let mut sheet = CarForm::new(self, fields, car, faults, unlikely);
        sheet.lead = self.view.car.lead;
        sheet.head(ui, out);
        ui.separator();
        let whole = self.view.car.whole;
        // Under the form, so that it pushes nothing in it.
        if !sheet.faults.is_empty() {
            egui::Panel::bottom("told of the car")
                .frame(egui::Frame::new())
                .resizable(false)
                .show(ui, |ui| sheet.told_of_all(ui));
        }
        if whole {
            sheet.seek(ui);
        }
        if let Some(part) = &self.view.car.part {
            sheet.lead_to_part(ui, part);
        }
        // From the picker that Enter led to at last it leads on; the arrows, a letter and the space bar choose in it.
        if picked::is_led_to_at_end(ui.ctx()) {
            sheet.leave_source(ui);
        }
        let area = ScrollArea::vertical().id_salt("car").auto_shrink([false, false]);
        let form = steady::area(ui.ctx(), area).show(ui, |ui| {
            let beginning = ui.cursor().top();
            ui.spacing_mut().item_spacing.y = 3.0;
            ui.set_width(ui.available_width() - 8.0);
            sheet.names(ui);
            if whole {
                sheet.body(ui);
                sheet.sensors(ui);
                sheet.aimings(ui, out);
            } else {
                ui.label(widgets::soft(ui, texts.short_about));
                sheet.short(ui);
            }
            ui.add_space(BELOW_PX);
            in_sight::follow(ui);
            beginning
        });
        steady::keep_still(ui.ctx(), &form, form.inner);
        ui.data_mut(|data| data.insert_temp(seeking(), false));
        // Enter in the last field leads to what nobody said yet, where the figures come from, and then to what it is all for.
        if sheet.fields.leads_out() {
            if sheet.car.provenance == Provenance::NotGiven && sheet.is_sought(texts.source) {
                sheet.fields.lead_to_picker(SOURCE);
                // It is one of the first rows.
                steady::to_beginning(ui.ctx());
            } else if let Some(keep) = sheet.keep {
                ui.memory_mut(|memory| memory.request_focus(keep));
            }
        }
        let CarForm { fields, car, changed, lead, .. } = sheet;
        if self.view.car.lead.is_some() {
            // What was unfolded in this frame is seen in the next.
            ui.ctx().request_repaint();
        }
        self.view.car.lead = lead;
        self.view.car.part = None;
        self.fields = fields.leading_on(false);
        if changed {
            out.push(Command::Car(OfCar::Change(Box::new(car))));
        }
    }
}

/// A car of a class with a forward radar and an aiming of it.
pub(crate) fn new_car(class: VehicleClass, texts: &Forms) -> Vehicle {
    let mut car = Vehicle::of_class(class);
    let radar: Id = texts.kind(StartKind::ForwardRadar).into();
    car.start_sensor(StartKind::ForwardRadar, radar.clone());
    start_aiming(&mut car, &radar, texts.a_aiming(radar.as_str()).into());
    car
}

/// An aiming to start from; its title is its name with a capital.
fn start_aiming(car: &mut Vehicle, sensor: &Id, id: Id) {
    car.start_aiming(sensor, id);
    if let Some(aiming) = car.aimings.last_mut() {
        aiming.name = sentence_start(&aiming.name);
    }
}

impl CarForm<'_> {
    /// What is entered, and the presses that keep or drop it.
    fn head(&mut self, ui: &mut Ui, out: &mut Vec<Command>) {
        let texts = self.texts;
        let theme = self.desk.view.theme;
        ui.horizontal(|ui| {
            ui.label(RichText::new(texts.your_car).font(look::bold(size::LEAD)));
            ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| {
                if widgets::lesser(ui, texts.drop_car).clicked() {
                    out.push(Command::Car(OfCar::Drop));
                }
                let sound = self.faults.is_empty();
                let keep = ui.add_enabled_ui(sound, |ui| widgets::press(ui, theme, texts.keep_car)).inner;
                self.keep = keep.enabled().then_some(keep.id);
                if keep.on_hover_text(texts.keep_why).clicked() {
                    out.push(Command::Car(OfCar::Keep));
                }
            });
        });
        ui.horizontal(|ui| {
            for (whole, name) in [(false, texts.short_form), (true, texts.whole_form)] {
                let chosen = self.desk.view.car.whole == whole;
                if ui.add(egui::Button::selectable(chosen, name)).clicked() && !chosen {
                    out.push(Command::Car(OfCar::Whole(whole)));
                }
            }
            let in_sight = if self.desk.view.car.whole { 0 } else { self.short_assumed() };
            let assumed = texts.still_assumed(self.car.guessed().len(), in_sight);
            ui.add(egui::Label::new(widgets::soft(ui, assumed)).truncate());
        });
    }

    /// A field that leaves only the rows whose names hold what is typed there, wherever they are folded away.
    fn seek(&mut self, ui: &mut Ui) {
        let texts = self.texts;
        let id = egui::Id::unique("sought in the form");
        let mut sought: String = ui.data(|data| data.get_temp(id)).unwrap_or_default();
        ui.horizontal(|ui| {
            let label = ui.label(widgets::soft(ui, texts.seek));
            widgets::field(ui, id.with("field"), &mut sought, ui.available_width() - GO_TO_PX, false)
                .on_hover_text(texts.seek_hint)
                .labelled_by(label.id);
            if self.go_to(ui) {
                // Where one goes there is more than what was sought.
                sought.clear();
            }
        });
        self.sought = sought.trim().to_lowercase();
        ui.data_mut(|data| {
            data.insert_temp(id, sought);
            data.insert_temp(seeking(), !self.sought.is_empty());
        });
    }

    /// What is still to be typed, and what is wrong.
    fn told_of_all(&self, ui: &mut Ui) {
        let texts = self.texts;
        let (to_type, wrong): (Vec<_>, Vec<_>) = self.faults.iter().partition(|fault| is_to_type(fault));
        for fault in to_type.into_iter().take(1) {
            let text = texts.to_type(&texts.field_name(&fault.field, &self.car));
            ui.add(egui::Label::new(widgets::soft(ui, text)).wrap());
        }
        if !wrong.is_empty() {
            let colour = ui.visuals().error_fg_color;
            ui.label(RichText::new(texts.to_put_right).font(look::bold(size::SMALL)).color(colour));
            for fault in wrong.into_iter().take(MOST_TOLD) {
                let field = sentence_start(&texts.field_name(&fault.field, &self.car));
                let text = self.desk.texts().of(&field, &texts.wrong(fault, self.desk.lengths()));
                ui.add(
                    egui::Label::new(RichText::new(widgets::unbroken(text)).size(size::LEAST).color(colour))
                        .wrap(),
                );
            }
        }
        if !self.faults.is_empty() {
            ui.label(widgets::soft(ui, texts.not_shown_yet));
        }
    }

    /// Enter in the picker of the source leads to what goes with it, if nobody typed that yet, and else to what the sheet was typed
    /// for; where there is neither it is the picker's own.
    fn leave_source(&mut self, ui: &Ui) {
        let open = match &self.car.provenance {
            Provenance::Maker { document: said, .. }
            | Provenance::Measured { by: said, .. }
            | Provenance::Published { source: said } => said.is_empty(),
            Provenance::Example | Provenance::NotGiven => false,
        };
        if open {
            if picked::take_enter(ui.ctx()) {
                let source = self.car.provenance.clone();
                self.lead_to_said(SOURCE, &source);
            }
        } else if let Some(keep) = self.keep
            && picked::take_enter(ui.ctx())
        {
            ui.memory_mut(|memory| memory.request_focus(keep));
        }
    }

    /// What it is called, what it is, where its figures come from.
    fn names(&mut self, ui: &mut Ui) {
        let texts = self.texts;
        self.led_to(ui, Figures::Body);
        if let Some(name) = self.text(ui, (texts.name_of_car, ""), "name", &self.car.name.clone()) {
            let named = |name: &str| self.desk.free_car_name(&file_name(name, texts.my_car));
            // Its file is called as the car is, unless it was called otherwise by hand or lies on the disk already.
            if [named(&self.car.name), self.desk.free_car_name(texts.my_car)].contains(&self.car.id) {
                self.car.id = named(&name);
            }
            self.car.name = name;
        }
        // No sheet has it: in the short form it would only stand in the way of the first figure.
        let hint = (texts.file_name, texts.file_name_hint);
        let shown = self.car.id.to_string();
        if self.desk.view.car.whole
            && let Some(id) = self.text(ui, hint, "id", &shown)
        {
            self.car.id = Id::from(file_name(&id, texts.my_car));
        }
        let (class, all) = (self.car.class, VehicleClass::ALL);
        if let Some(class) =
            self.pick(ui, texts.class, "class", &class, &all, |own| texts.class_of(*own).to_owned())
        {
            self.car.class = class;
        }
        let mut source = self.car.provenance.clone();
        if self.source(ui, SOURCE, &mut source) {
            // The short form is of one sheet of paper: car, radar and aiming.
            if !self.desk.view.car.whole {
                let (radar, aiming) = self.short_of();
                if let Some(own) = radar.and_then(|at| self.car.sensors.get_mut(at)) {
                    own.provenance = source.clone();
                }
                if let Some(own) = aiming.and_then(|at| self.car.aimings.get_mut(at)) {
                    own.provenance = source.clone();
                }
            }
            self.car.provenance = source;
        }
    }
}

/// The path of where a car's figures come from.
const SOURCE: &str = "source";

/// Room for the menu of sections beside the search, px.
const GO_TO_PX: f32 = 80.0;

/// Under the last row, px: there is always something to scroll by, so that no row need move.
const BELOW_PX: f32 = 200.0;

/// So many faults are told at once.
const MOST_TOLD: usize = 4;

/// What may stand in a file's name on every system: letters, digits, dashes. Of a text that has none of them, what is `otherwise`
/// said.
pub(in crate::screen) fn file_name(typed: &str, otherwise: &str) -> String {
    let plain = |text: &str| -> String {
        let text = text.trim().to_lowercase();
        let plain: String =
            text.chars().map(|c| if c.is_alphanumeric() { c } else { '-' }).take(60).collect();
        plain.trim_matches('-').to_owned()
    };
    let typed = plain(typed);
    if typed.is_empty() { plain(otherwise) } else { typed }
}

#[cfg(test)]
mod tests {
    use baywright_planner::words::Language;

    use super::*;

    #[test]
    fn what_is_named_by_the_program_is_named_in_the_language_that_is_spoken() {
        let car = new_car(VehicleClass::Estate, Language::Bracketed.forms());
        for name in [car.sensors[0].id.as_str(), car.aimings[0].id.as_str(), &car.aimings[0].name] {
            assert!(name.starts_with('⟦'), "{name}");
        }
        assert_eq!(file_name(" Back Bay! ", "my-car"), "back-bay");
        assert_eq!(file_name("!", "⟦my-bay⟧"), "my-bay");
    }
}
