//! What was measured on this very car, to be typed: as the alignment sheet and the tape have it, with what follows from it under it.

use baywright_planner::edit::Edit;
use baywright_planner::geometry::DVec2;
use baywright_planner::model::sheet::{AlignmentSheet, Inward, Rim, SheetPart, SheetUnit, Side, Told, Typed};
use baywright_planner::model::{Id, MOST_STOOD, OnThisCar, Stood, Wheel, WheelsAt};
use baywright_planner::words::this_car::ThisCarTexts;
use egui::{RichText, Ui};
use jiff::civil::Date;

use super::car::car_form::part;
use super::field::{Fields, Row};
use super::rows::choice;
use super::sheet_typed::{self, NoFigure};
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
        let before = now.sheet_to_type();
        let mut sheet = before.clone();
        ui.add_space(4.0);
        ui.label(RichText::new(own.sheet).font(look::bold(size::SMALL)));
        ui.add(egui::Label::new(widgets::soft(ui, own.sheet_why)).wrap());
        let unit = |unit: &SheetUnit| own.unit(*unit).to_owned();
        if let Some(unit) = choice(ui, fields, own.toe_in, &sheet.toe_unit, &SheetUnit::ALL, unit) {
            sheet.set_toe_unit(unit);
        }
        if sheet.toe_unit.is_length() {
            self.rim_row(ui, fields, of, &mut sheet);
        }
        for wheel in [Wheel::RearLeft, Wheel::RearRight] {
            self.toe_row(ui, fields, of, &mut sheet, wheel);
        }
        if now.is_half_read() {
            ui.add(egui::Label::new(widgets::soft(ui, texts.other_toe)).wrap());
        }
        let row = Row { label: texts.set_back, hint: texts.set_back_hint, of };
        let mut told = sheet.set_back;
        self.told(ui, fields, &row, (SheetPart::SetBack, sheet.set_back_unit), &mut told, |way: &Side| {
            own.back_way(*way)
        });
        sheet.set_back = told;
        part(ui, own.more_of_sheet, "more of the sheet", false, |ui| {
            for wheel in [Wheel::FrontLeft, Wheel::FrontRight] {
                self.toe_row(ui, fields, of, &mut sheet, wheel);
            }
            let units = &SheetUnit::ANGLES;
            if let Some(unit) = choice(ui, fields, own.angles_in, &sheet.camber_unit, units, unit) {
                sheet.set_angle_unit(unit);
            }
            for (nth, wheel) in Wheel::ALL.into_iter().enumerate() {
                let camber = SheetPart::Camber(wheel);
                let label = own.part(camber);
                let row = Row { label: &label, hint: own.camber_hint, of };
                let unit = sheet.camber_unit;
                if let Some(told) = sheet.camber.get_mut(nth) {
                    self.told(ui, fields, &row, (camber, unit), told, |way: &Inward| own.camber_way(*way));
                }
            }
            let row = Row { label: own.thrust, hint: own.thrust_hint, of };
            let thrust = (SheetPart::Thrust, sheet.thrust_unit);
            self.told(ui, fields, &row, thrust, &mut sheet.thrust, |way: &Side| own.thrust_way(*way));
            let all = &SheetUnit::ALL;
            if let Some(unit) = choice(ui, fields, own.set_back_in, &sheet.set_back_unit, all, unit) {
                sheet.set_set_back_unit(unit);
            }
            self.sheet_day(ui, fields, of, &mut sheet);
        });
        let words = self.words();
        self.follows(ui, words.thrust_line().into_iter().chain(words.hubs_off()));
        if sheet != before {
            now.take_sheet(sheet);
        }
    }

    fn toe_row(&self, ui: &mut Ui, fields: &mut Fields, of: &str, sheet: &mut AlignmentSheet, wheel: Wheel) {
        let own = self.of_this_car();
        let toe = SheetPart::Toe(wheel);
        let label = own.part(toe);
        let row = Row { label: &label, hint: own.toe_hint, of };
        let unit = sheet.toe_unit;
        let nth = Wheel::ALL.iter().position(|own| *own == wheel);
        if let Some(told) = nth.and_then(|nth| sheet.toe.get_mut(nth)) {
            self.told(ui, fields, &row, (toe, unit), told, |way: &Inward| own.toe_way(*way));
        }
    }

    /// A figure without its sign, and under it, once it is something, which way it goes.
    fn told<W: Way>(
        &self,
        ui: &mut Ui,
        fields: &mut Fields,
        row: &Row<'_>,
        (of, unit): (SheetPart, SheetUnit),
        told: &mut Told<W>,
        named: impl Fn(&W) -> &'static str,
    ) {
        let own = self.of_this_car();
        let shown = told.reads.map_or_else(String::new, |typed| self.view.locale.sheet_figure(unit, typed));
        let read = |text: &str| {
            sheet_typed::figure(text, unit).map_err(|why| match why {
                NoFigure::Sign => own.no_sign.to_owned(),
                NoFigure::Minutes => own.no_minutes.to_owned(),
                NoFigure::Number => own.no_figure(text),
            })
        };
        if let Some(reads) = fields.row(ui, row, &shown, read) {
            told.reads = reads;
            // What was rubbed out, or is nothing, has no way.
            told.way = told.way.filter(|_| !reads.is_none_or(Typed::is_nothing));
        }
        if told.reads.is_none_or(Typed::is_nothing) {
            return;
        }
        let all: Vec<Option<W>> = std::iter::once(None).chain(W::BOTH.map(Some)).collect();
        let name = |way: &Option<W>| way.as_ref().map_or(own.not_said, &named).to_owned();
        let label = own.way_of(of);
        told.way = choice(ui, fields, &label, &told.way, &all, name).unwrap_or(told.way);
        if told.wants_way() {
            self.open(ui, own.say_way);
        }
    }

    fn rim_row(&self, ui: &mut Ui, fields: &mut Fields, of: &str, sheet: &mut AlignmentSheet) {
        let own = self.of_this_car();
        let unit = sheet.toe_unit;
        let shown = sheet.rim.map_or_else(String::new, |rim| {
            let (unit, value) = match rim {
                Rim::Millimetres(mm) => (SheetUnit::Millimetres, mm),
                Rim::Inches(inches) => (SheetUnit::Inches, inches),
            };
            self.view.locale.sheet_figure(unit, Typed::of(value))
        });
        let read = |text: &str| match text.trim() {
            "" => Ok(None),
            text => sheet_typed::rim(text, unit).map(Some).ok_or_else(|| own.no_rim.to_owned()),
        };
        let row = Row { label: own.rim, hint: own.rim_hint, of };
        sheet.rim = fields.row(ui, &row, &shown, read).unwrap_or(sheet.rim);
        if sheet.rim.is_none() && sheet.toe.iter().any(|own| own.reads.is_some()) {
            self.open(ui, own.no_rim_yet);
        }
    }

    fn sheet_day(&self, ui: &mut Ui, fields: &mut Fields, of: &str, sheet: &mut AlignmentSheet) {
        let own = self.of_this_car();
        let shown = sheet.taken.map_or_else(String::new, |day| day.to_string());
        let read = |text: &str| match text.trim() {
            "" => Ok(None),
            text => text.parse::<Date>().map(Some).map_err(|_| own.no_day.to_owned()),
        };
        let row = Row { label: own.date, hint: own.date_hint, of };
        sheet.taken = fields.row(ui, &row, &shown, read).unwrap_or(sheet.taken);
        let shown = sheet.by.clone().unwrap_or_default();
        let read = |text: &str| {
            let text = text.trim();
            Ok::<_, String>((!text.is_empty()).then(|| text.to_owned()))
        };
        let row = Row { label: own.by, hint: own.by_hint, of };
        if let Some(by) = fields.row(ui, &row, &shown, read) {
            sheet.by = by;
        }
    }

    fn arch_rows(&self, ui: &mut Ui, fields: &mut Fields, of: &str, now: &mut OnThisCar) {
        let own = self.of_this_car();
        let is_open =
            now.arches_mm != [None; 4] || self.answer.arrangement.vehicle.ride_height_off_mm.is_some();
        part(ui, own.arches, "arches", is_open, |ui| {
            for (wheel, arch) in Wheel::ALL.into_iter().zip(&mut now.arches_mm) {
                let label = own.arch_of(wheel);
                self.length_or_none(ui, fields, (&label, own.arches_hint), of, arch);
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
            for (nth, stood) in now.stood.iter_mut().enumerate() {
                self.stood_row(ui, fields, nth + 1, stood);
                let text = own.nth(nth + 1, own.remove_stood);
                if widgets::link(ui, self.view.theme, text).clicked() {
                    removed = Some(nth);
                }
            }
            if let Some(nth) = removed {
                now.stood.remove(nth);
            }
            let number = now.stood.len() + 1;
            if number <= MOST_STOOD {
                let label = own.nth(number, own.at_start);
                let mut start = None;
                self.length_or_none(ui, fields, (&label, own.stood_why), "stood", &mut start);
                now.stood.extend(start.map(|start_mm| Stood {
                    from: own.usual_floor(number).into(),
                    to: own.usual_car(number).into(),
                    start_mm,
                    end_mm: None,
                }));
            }
            self.follows(ui, self.words().stood_still());
        });
    }

    fn stood_row(&self, ui: &mut Ui, fields: &mut Fields, number: usize, stood: &mut Stood) {
        let (own, of) = (self.of_this_car(), "stood");
        let no_name = self.texts().no_name;
        let read = |text: &str| match text.trim() {
            "" => Err(no_name.to_owned()),
            text => Ok(Id::from(text)),
        };
        let label = own.nth(number, own.at_start);
        let row = (label.as_str(), own.stood_why);
        stood.start_mm = self.length_row(ui, fields, row, of, stood.start_mm).unwrap_or(stood.start_mm);
        let label = own.nth(number, own.at_end);
        self.length_or_none(ui, fields, (&label, own.stood_why), of, &mut stood.end_mm);
        for (field, hint, name) in [
            (own.floor_point, own.floor_point_hint, &mut stood.from),
            (own.car_point, own.car_point_hint, &mut stood.to),
        ] {
            let label = own.nth(number, field);
            let shown = name.to_string();
            if let Some(typed) = fields.row(ui, &Row { label: &label, hint, of }, &shown, read) {
                *name = typed;
            }
        }
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

/// One of two ways.
trait Way: Copy + PartialEq {
    /// Both.
    const BOTH: [Self; 2];
}

impl Way for Inward {
    const BOTH: [Self; 2] = [Self::In, Self::Out];
}

impl Way for Side {
    const BOTH: [Self; 2] = [Self::Left, Self::Right];
}
