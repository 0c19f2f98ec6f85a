//! What was measured on this very car, to be typed: as the alignment sheet and the tape have it, with what follows from it under it.

use baywright_planner::edit::Edit;
use baywright_planner::geometry::DVec2;
use baywright_planner::model::sheet::{SheetLacks, SheetPart};
use baywright_planner::model::{MOST_STOOD, OnThisCar, Wheel, WheelsAt};
use baywright_planner::words::this_car::ThisCarTexts;
use egui::{RichText, Ui};

use super::car::car_form::part;
use super::car_rows::{CarRow, car_row_chosen};
use super::field::{Fields, Row};
use super::rows::choice;
use super::step::Stepped;
use super::which::NotRead;
use crate::screen::command::{Command, OfBay};
use crate::screen::look::{self, size};
use crate::screen::{Desk, widgets};

impl Desk {
    fn of_this_car(&self) -> &'static ThisCarTexts {
        self.view.locale.language.this_car()
    }

    /// What was measured on this very car.
    pub(super) fn measured_rows(&self, ui: &mut Ui, fields: &mut Fields, out: &mut Vec<Command>) {
        let texts = self.texts();
        let before = &self.answer.arrangement.on_this_car;
        let of = self.answer.arrangement.vehicle.id.clone();
        let of = of.as_str();
        let mut now = before.clone();
        ui.add_space(4.0);
        ui.label(RichText::new(texts.on_this_car).font(look::bold(size::SMALL)));
        self.sensor_measured(ui, fields, of, &mut now);
        self.wheels_measured(ui, fields, of, &mut now);
        self.sheet_rows(ui, fields, of, &mut now);
        let row = (texts.turning_circle, texts.turning_circle_hint);
        self.length_or_none(ui, fields, row, of, &mut now.turning_circle_mm);
        self.arch_rows(ui, fields, of, &mut now);
        self.body_rows(ui, fields, of, &mut now);
        self.stood_rows(ui, fields, &mut now);
        if now != *before {
            out.push(Command::Bay(OfBay::Edit(Edit::OnThisCar(now))));
        }
    }

    fn sensor_measured(&self, ui: &mut Ui, fields: &mut Fields, of: &str, now: &mut OnThisCar) {
        let (texts, forms) = (self.texts(), self.view.locale.language.forms());
        let arrangement = &self.answer.arrangement;
        let mut measured = now.sensor_at.is_some();
        if ui.checkbox(&mut measured, widgets::soft(ui, texts.sensor_measured)).changed() {
            now.sensor_at = measured.then_some(arrangement.sensor.at);
        }
        let Some(at) = &mut now.sensor_at else { return };
        for (axis, row) in
            [(forms.ahead, forms.ahead_hint), (forms.aside, forms.aside_hint), (forms.above_ground, "")]
                .into_iter()
                .enumerate()
        {
            at[axis] = self.length_row(ui, fields, row, of, at[axis]).unwrap_or(at[axis]);
        }
        // The edge or line that the aiming goes by is what a tape is held to: the centre follows it.
        let edges = &arrangement.sensor.edges;
        for point in arrangement.aiming.sensor_points() {
            let Some(above) = edges.above_centre_mm(point) else { continue };
            let row = (forms.point_above_ground(point), texts.centre_follows_hint);
            at.z = self.length_row(ui, fields, row, of, at.z + above).map_or(at.z, |typed| typed - above);
        }
    }

    fn wheels_measured(&self, ui: &mut Ui, fields: &mut Fields, of: &str, now: &mut OnThisCar) {
        let (texts, forms, own) = (self.texts(), self.view.locale.language.forms(), self.of_this_car());
        let arrangement = &self.answer.arrangement;
        let mut feet = now.wheels.is_some();
        if ui.checkbox(&mut feet, widgets::soft(ui, texts.wheels_measured)).changed() {
            now.wheels = feet.then(|| Wheel::ALL.map(|wheel| arrangement.vehicle.wheel_point(wheel)));
        }
        let Some(wheels) = &mut now.wheels else { return };
        let named = |at: &WheelsAt| match at {
            WheelsAt::TyreMiddle => own.at_tyre.to_owned(),
            WheelsAt::Hub => own.at_hub.to_owned(),
        };
        let both = [WheelsAt::TyreMiddle, WheelsAt::Hub];
        now.wheels_at =
            choice(ui, fields, own.wheels_at, &now.wheels_at, &both, named).unwrap_or(now.wheels_at);
        for (wheel, at) in Wheel::ALL.into_iter().zip(wheels) {
            for (axis, of_axis) in [texts.wheel_ahead, texts.wheel_left].into_iter().enumerate() {
                let label = texts.of_wheel(forms.wheel_of(wheel), of_axis);
                let row = (label.as_str(), texts.wheels_hint);
                at[axis] = self.length_row(ui, fields, row, of, at[axis]).unwrap_or(at[axis]);
            }
        }
        self.follows(ui, self.words().stands_on());
    }

    /// The alignment sheet: what every aiming asks for first, and the rest of it folded away.
    fn sheet_rows(&self, ui: &mut Ui, fields: &mut Fields, of: &str, now: &mut OnThisCar) {
        let (texts, own) = (self.texts(), self.of_this_car());
        ui.add_space(4.0);
        ui.label(RichText::new(own.sheet).font(look::bold(size::SMALL)));
        ui.add(egui::Label::new(widgets::soft(ui, own.sheet_why)).wrap());
        for row in CarRow::OF_SHEET {
            self.car_field(ui, fields, of, row, now);
            let is_last_toe = matches!(row, CarRow::Told(SheetPart::Toe(Wheel::RearRight)));
            if is_last_toe && now.is_half_read() {
                ui.add(egui::Label::new(widgets::soft(ui, texts.other_toe)).wrap());
            }
        }
        part(ui, own.more_of_sheet, "more of the sheet", false, |ui| {
            for row in CarRow::OF_REST {
                self.car_field(ui, fields, of, row, now);
            }
        });
        let words = self.words();
        self.follows(ui, words.thrust_line().into_iter().chain(words.hubs_off()));
    }

    /// One of the rows that the page of a record has too.
    fn car_field(&self, ui: &mut Ui, fields: &mut Fields, of: &str, row: CarRow, now: &mut OnThisCar) {
        let own = self.of_this_car();
        let shown = self.car_row(row, now);
        if !shown.options.is_empty() {
            let all: Vec<usize> = (0..shown.options.len()).collect();
            let name = |at: &usize| shown.options.get(*at).cloned().unwrap_or_default();
            if let Some(option) = choice(ui, fields, &shown.label, &shown.chosen, &all, name) {
                *now = car_row_chosen(row, now, option);
            }
        } else {
            let before = now.clone();
            let named = Row { label: &shown.label, hint: &shown.hint, of };
            if let CarRow::Start(at) = row
                && let Some(stood) = now.stood.get(at)
            {
                fields.stepping(Stepped::Length(stood.start_mm));
            }
            let read = |text: &str| self.car_row_typed(row, &before, text);
            if let Some(car) = fields.row(ui, &named, &shown.text, read) {
                *now = car;
            }
        }
        let sheet = now.sheet_to_type();
        match row {
            CarRow::Way(of) if sheet.open().contains(&(of, SheetLacks::Way)) => self.open(ui, own.say_way),
            CarRow::Rim if sheet.rim.is_none() && sheet.toe.iter().any(|own| own.reads.is_some()) => {
                self.open(ui, own.no_rim_yet);
            }
            _ => {}
        }
        if let Some(next) = row.asks(now) {
            self.car_field(ui, fields, of, next, now);
        }
    }

    fn arch_rows(&self, ui: &mut Ui, fields: &mut Fields, of: &str, now: &mut OnThisCar) {
        let own = self.of_this_car();
        let is_open =
            now.arches_mm != [None; 4] || self.answer.arrangement.vehicle.ride_height_off_mm.is_some();
        part(ui, own.arches, "arches", is_open, |ui| {
            for wheel in Wheel::ALL {
                self.car_field(ui, fields, of, CarRow::Arch(wheel), now);
            }
            if self.answer.arrangement.vehicle.ride_heights.is_some() {
                self.follows(ui, self.words().body_hangs());
            } else if now.arches_mm.iter().any(Option::is_some) {
                ui.add(egui::Label::new(widgets::soft(ui, own.no_nominal)).wrap());
            }
        });
    }

    /// The points of the body that its profile names: how far each lies aside, empty until it was plumbed.
    fn body_rows(&self, ui: &mut Ui, fields: &mut Fields, of: &str, now: &mut OnThisCar) {
        let own = self.of_this_car();
        let points = &self.answer.arrangement.vehicle.body_points;
        if points.is_empty() {
            return;
        }
        part(ui, own.body, "body points", !now.body_points.is_empty(), |ui| {
            for point in points {
                let measured = now.body_points.iter().find(|(id, _)| *id == point.id);
                let before: Option<DVec2> = measured.map(|(_, at)| *at);
                // What lies aside is what separates the lines: with it the point is measured, as far ahead as the drawing has it
                // until that is typed too.
                let label = own.body_point(point.id.as_str(), false);
                let mut left = before.map(|at| at.y);
                self.length_or_none(ui, fields, (&label, own.body_hint), of, &mut left);
                let mut at = left.map(|left| DVec2::new(before.map_or(point.at.x, |at| at.x), left));
                if let Some(at) = &mut at {
                    let label = own.body_point(point.id.as_str(), true);
                    at.x = self.length_row(ui, fields, (&label, own.body_hint), of, at.x).unwrap_or(at.x);
                }
                if at != before {
                    now.body_points.retain(|(id, _)| *id != point.id);
                    now.body_points.extend(at.map(|at| (point.id.clone(), at)));
                }
            }
            self.follows(ui, self.words().lines_apart(&self.answer.assessment.scene));
        });
    }

    /// Distances from the floor to the car, at the start and at the end; the last one is empty until its start is typed.
    fn stood_rows(&self, ui: &mut Ui, fields: &mut Fields, now: &mut OnThisCar) {
        let own = self.of_this_car();
        part(ui, own.stood, "stood", !now.stood.is_empty(), |ui| {
            ui.add(egui::Label::new(widgets::soft(ui, own.stood_why)).wrap());
            let mut removed = None;
            for at in 0..now.stood.len() {
                for row in [CarRow::Start(at), CarRow::End(at), CarRow::From(at), CarRow::To(at)] {
                    self.car_field(ui, fields, "stood", row, now);
                }
                let text = own.nth(at + 1, own.remove_stood);
                if widgets::link(ui, self.view.theme, text).clicked() {
                    removed = Some(at);
                }
            }
            if let Some(at) = removed {
                now.stood.remove(at);
            }
            if now.stood.len() < MOST_STOOD {
                self.car_field(ui, fields, "stood", CarRow::Start(now.stood.len()), now);
            }
            self.follows(ui, self.words().stood_still());
        });
    }

    /// A length that may be left empty.
    fn length_or_none(
        &self,
        ui: &mut Ui,
        fields: &mut Fields,
        (label, hint): (&str, &str),
        of: &str,
        value: &mut Option<f64>,
    ) {
        let shown = value.map_or_else(String::new, |mm| self.view.locale.length_to_type(mm));
        let read = |text: &str| -> Result<Option<f64>, NotRead> {
            match text.trim() {
                "" => Ok(None),
                text => self.read_length(text).map(Some),
            }
        };
        *value = fields.row(ui, &Row { label, hint, of }, &shown, read).unwrap_or(*value);
    }

    /// What follows from what was typed, as it stood before this frame.
    fn follows(&self, ui: &mut Ui, lines: impl IntoIterator<Item = String>) {
        for line in lines {
            ui.add(egui::Label::new(widgets::soft(ui, line)).wrap());
        }
    }

    /// Why a figure is not used yet, where it stands.
    fn open(&self, ui: &mut Ui, why: &str) {
        let care = look::colour(self.view.theme.palette().care);
        ui.add(egui::Label::new(RichText::new(widgets::unbroken(why)).size(size::LEAST).color(care)).wrap());
    }

    /// What the marks of this car are to be taken with: hubs beside their tyres, a car that is to stand still.
    pub(in crate::screen) fn car_under_the_marks(&self, ui: &mut Ui) {
        let words = self.words();
        let hubs = words.hubs_off().filter(|_| self.answer.judged.aiming.plumbs_hubs());
        let lines = hubs.into_iter().chain(words.stood_still());
        self.follows(ui, lines);
    }
}
