//! The body: every dimension with its sketch, wheels, mirrors, ride heights, outlines, named points.

use baywright_planner::geometry::{DVec2, DVec3};
use baywright_planner::model::assumed::{Assumed, BodyPart};
use baywright_planner::model::validate::number;
use baywright_planner::model::{BodyPoint, Id, Vehicle};
use baywright_planner::words::{Locale, Units};
use egui::Ui;

use super::car_form::{CarForm, Line, Of, Order, part};
use super::choices;
use super::sketch::Sketch;
use crate::screen::forms::as_shown::AsShown;
use crate::screen::forms::typed::of_table;
use crate::screen::widgets;

type Field = fn(&mut Vehicle) -> &mut f64;

impl CarForm<'_> {
    pub(super) fn body(&mut self, ui: &mut Ui) {
        let texts = self.texts;
        part(ui, texts.body, "body", true, |ui| {
            self.figure(ui, (texts.length, ""), "length_mm", BodyPart::Length, Sketch::Length, |c| {
                &mut c.length_mm
            });
            self.figure(
                ui,
                (texts.width, texts.width_hint),
                "width_mm",
                BodyPart::Width,
                Sketch::Width,
                |c| &mut c.width_mm,
            );
            self.figure(ui, (texts.height, ""), "height_mm", BodyPart::Height, Sketch::Height, |c| {
                &mut c.height_mm
            });
            self.figure(
                ui,
                (texts.wheelbase, ""),
                "wheelbase_mm",
                BodyPart::Wheelbase,
                Sketch::Wheelbase,
                |c| &mut c.wheelbase_mm,
            );
            self.figure(
                ui,
                (texts.overhang_front, texts.overhang_front_hint),
                "overhang_front_mm",
                BodyPart::OverhangFront,
                Sketch::OverhangFront,
                |c| &mut c.overhang_front_mm,
            );
            self.figure(
                ui,
                (texts.overhang_rear, texts.overhang_rear_hint),
                "overhang_rear_mm",
                BodyPart::OverhangRear,
                Sketch::OverhangRear,
                |c| &mut c.overhang_rear_mm,
            );
            self.figure(
                ui,
                (texts.ground_clearance, ""),
                "ground_clearance_mm",
                BodyPart::GroundClearance,
                Sketch::Clearance,
                |c| &mut c.ground_clearance_mm,
            );
        });
        part(ui, texts.wheels, "wheels", true, |ui| self.wheels(ui));
        part(ui, texts.mirrors, "mirrors", false, |ui| self.mirrors(ui));
        part(ui, texts.ride_heights, "ride", false, |ui| self.ride_heights(ui));
        part(ui, texts.outlines, "outlines", false, |ui| self.outlines(ui));
        part(ui, texts.body_points, "points", false, |ui| self.body_points(ui));
    }

    fn figure(
        &mut self,
        ui: &mut Ui,
        (label, hint): (&str, &str),
        field: &str,
        figure: BodyPart,
        sketch: Sketch,
        of: Field,
    ) {
        let path = format!("body.{field}");
        let figure = Assumed::from(figure);
        let line = Line { label, hint, path: &path, figure: Some(&figure), sketch: Some(sketch) };
        let value = *of(&mut self.car);
        if let Some(typed) = self.number(ui, line, Of::Length, value) {
            *of(&mut self.car) = typed;
        }
    }

    fn wheels(&mut self, ui: &mut Ui) {
        let texts = self.texts;
        let track = texts.track_hint;
        self.figure(
            ui,
            (texts.track_front, track),
            "track_front_mm",
            BodyPart::TrackFront,
            Sketch::TrackFront,
            |c| &mut c.track_front_mm,
        );
        self.figure(
            ui,
            (texts.track_rear, track),
            "track_rear_mm",
            BodyPart::TrackRear,
            Sketch::TrackRear,
            |c| &mut c.track_rear_mm,
        );
        self.figure(
            ui,
            (texts.tyre_diameter, ""),
            "tyre_diameter_mm",
            BodyPart::TyreDiameter,
            Sketch::TyreDiameter,
            |c| &mut c.tyre_diameter_mm,
        );
        self.figure(
            ui,
            (texts.tyre_width, ""),
            "tyre_width_mm",
            BodyPart::TyreWidth,
            Sketch::TyreWidth,
            |c| &mut c.tyre_width_mm,
        );
        let line = Line {
            label: texts.tyre_width_rear,
            hint: texts.tyre_width_rear_hint,
            path: "body.tyre_width_rear_mm",
            ..Line::default()
        };
        if let Some(typed) = self.number_or_none(ui, line, Of::Length, self.car.tyre_width_rear_mm) {
            self.car.tyre_width_rear_mm = typed;
        }
    }

    fn mirrors(&mut self, ui: &mut Ui) {
        let texts = self.texts;
        self.figure(
            ui,
            (texts.mirror_width, ""),
            "mirrors.width_mm",
            BodyPart::Mirrors,
            Sketch::MirrorWidth,
            |c| &mut c.mirrors.width_mm,
        );
        self.figure(
            ui,
            (texts.mirror_ahead, texts.mirror_ahead_hint),
            "mirrors.ahead_mm",
            BodyPart::Mirrors,
            Sketch::MirrorAhead,
            |c| &mut c.mirrors.ahead_mm,
        );
        self.figure(
            ui,
            (texts.mirror_height, ""),
            "mirrors.height_mm",
            BodyPart::Mirrors,
            Sketch::MirrorHeight,
            |c| &mut c.mirrors.height_mm,
        );
    }

    fn ride_heights(&mut self, ui: &mut Ui) {
        let texts = self.texts;
        let mut given = self.car.ride_heights.is_some();
        if ui.checkbox(&mut given, widgets::soft(ui, texts.ride_heights_given)).changed() {
            self.car.ride_heights = given.then_some([USUAL_RIDE_MM; 4]);
            self.car.ride_height_off_mm = self.car.ride_height_off_mm.filter(|_| given);
            self.did();
        }
        let fields = ["front_left_mm", "front_right_mm", "rear_left_mm", "rear_right_mm"];
        let Some(heights) = self.car.ride_heights else { return };
        for (i, (wheel, field)) in baywright_planner::model::Wheel::ALL.into_iter().zip(fields).enumerate() {
            let path = format!("body.ride_heights.{field}");
            let label = texts.wheel_of(wheel);
            let line = Line { label, path: &path, ..Line::default() };
            let Some(&value) = heights.get(i) else { continue };
            if let Some(typed) = self.number(ui, line, Of::Length, value)
                && let Some(own) = self.car.ride_heights.as_mut().and_then(|heights| heights.get_mut(i))
            {
                *own = typed;
            }
        }
        let own = self.desk.view.locale.language.this_car();
        let line = Line {
            label: own.allowed_off,
            hint: own.allowed_off_hint,
            path: "body.ride_heights.allowed_mm",
            ..Line::default()
        };
        if let Some(typed) = self.number_or_none(ui, line, Of::Length, self.car.ride_height_off_mm) {
            self.car.ride_height_off_mm = typed;
        }
    }

    fn outlines(&mut self, ui: &mut Ui) {
        let texts = self.texts;
        for (label, hint, path, name, top) in [
            (texts.outline_top, texts.outline_top_hint, "body.outline_top_mm", BodyPart::OutlineTop, true),
            (
                texts.outline_side,
                texts.outline_side_hint,
                "body.outline_side_mm",
                BodyPart::OutlineSide,
                false,
            ),
        ] {
            let locale = self.desk.view().locale;
            let own = if top { &self.car.outline_top } else { &self.car.outline_side };
            let shown = if self.car.is_assumed(name) { String::new() } else { points_text(own, locale) };
            let line = Line { label, hint, path, ..Line::default() };
            let wrong = locale.language.forms().not_points(locale.units);
            let before = own.clone();
            let read = |text: &str| points(text, locale, &before).ok_or_else(|| wrong.clone());
            if let Some(typed) = self.lines(ui, line, &shown, read) {
                if typed.is_empty() {
                    self.car.leave_open(name);
                } else {
                    self.car.enter(name);
                    *(if top { &mut self.car.outline_top } else { &mut self.car.outline_side }) = typed;
                }
            }
        }
    }

    fn body_points(&mut self, ui: &mut Ui) {
        let texts = self.texts;
        let count = self.car.body_points.len();
        let mut asked = None;
        for i in 0..count {
            let Some(point) = self.car.body_points.get(i).cloned() else { continue };
            let path = |field: &str| format!("body_points[{i}].{field}");
            let others: Vec<Id> = self.car.body_points.iter().map(|own| own.id.clone()).collect();
            let renamed = self.own_id(ui, texts.name, &path("name"), &point.id, others.iter());
            let mut at = point.at;
            for (part, (label, hint, sketch)) in [
                (texts.ahead, texts.ahead_hint, Sketch::SensorAhead),
                (texts.aside, texts.aside_hint, Sketch::SensorAside),
                (texts.above_ground, "", Sketch::SensorHeight),
            ]
            .into_iter()
            .enumerate()
            {
                let path = path(&format!("at_mm[{part}]"));
                let line = Line { label, hint, path: &path, sketch: Some(sketch), ..Line::default() };
                if let Some(typed) = self.number(ui, line, Of::Length, at[part]) {
                    at[part] = typed;
                }
            }
            if let Some(own) = self.car.body_points.get_mut(i) {
                own.at = at;
            }
            if let Some(id) = renamed {
                self.car.rename_body_point(i, id);
            }
            asked = self.order(ui, point.id.as_str(), i, count).map(|order| (i, order)).or(asked);
            ui.separator();
        }
        if let Some((i, order)) = asked {
            let done = match order {
                Order::Remove => self.car.remove_body_point(i),
                Order::Copy => self.car.body_points.get(i).cloned().is_some_and(|mut point| {
                    point.id =
                        choices::free(point.id.as_str(), self.car.body_points.iter().map(|own| &own.id));
                    self.car.body_points.push(point);
                    true
                }),
                Order::Up => self.car.swap_body_points(i.wrapping_sub(1), i),
                Order::Down => self.car.swap_body_points(i, i + 1),
            };
            if done {
                self.did();
            }
        }
        if widgets::lesser(ui, texts.add_body_point).clicked() {
            let id = choices::free(texts.a_point, self.car.body_points.iter().map(|own| &own.id));
            let at = DVec3::new(self.car.front().round(), 0.0, (self.car.height_mm * 0.5).round());
            self.car.body_points.push(BodyPoint { id, at });
            self.did();
        }
    }
}

/// A ride height to start from, mm.
const USUAL_RIDE_MM: f64 = 380.0;

/// Points as they can be typed again, in the unit that is shown.
pub(in crate::screen) fn points_text(points: &[DVec2], locale: Locale) -> String {
    points.iter().map(|point| point_text(*point, locale)).collect()
}

fn point_text(p: DVec2, locale: Locale) -> String {
    match locale.units {
        Units::Millimetres => format!("{}, {}\n", number(p.x), number(p.y)),
        // A comma may stand in a number of metres.
        Units::Metres | Units::FeetInches => {
            format!("{}; {}\n", locale.length_to_type(p.x), locale.length_to_type(p.y))
        }
    }
}

/// Points from what was typed, one a line; a comma may part the two numbers or stand in them. A bare number is in the unit that is
/// shown. A line that stands there as one of those `before` was shown is that point itself, finer than it is written.
pub(in crate::screen) fn points(text: &str, locale: Locale, before: &[DVec2]) -> Option<Vec<DVec2>> {
    let mut untouched = AsShown::new(before, |own| point_text(*own, locale));
    let lines = text.lines().map(str::trim).filter(|line| !line.is_empty());
    lines
        .map(|line| {
            if let Some(same) = untouched.take(line) {
                return Some(same);
            }
            let line = line.trim_matches(['(', ')', ',', ';']);
            // "850, -1500", "850 -1500", "850,5; -1500"
            let parts: Vec<&str> = if line.contains(';') {
                line.split(';').collect()
            } else if line.split_whitespace().count() == 2 {
                line.split_whitespace().collect()
            } else {
                line.split(',').collect()
            };
            let [x, y] = parts.as_slice() else { return None };
            Some(DVec2::new(of_table(x, locale.units)?, of_table(y, locale.units)?))
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn points_are_read_as_they_are_typed() {
        let points = |text: &str| points(text, Locale::default(), &[]);
        let two = Some(vec![DVec2::new(850.0, -1_500.0), DVec2::new(0.5, 2.0)]);
        assert_eq!(points("850, -1500\n\n0.5, 2"), two);
        assert_eq!(points("850 -1500\n0.5 2\n"), two);
        assert_eq!(points("(850, -1500),\n(0.5, 2)"), two);
        assert_eq!(points("850; -1500\n0,5; 2"), two);
        assert_eq!(points(""), Some(Vec::new()));
        assert_eq!(
            points("2' 9 1/2\", -5 ft\n0.5 2"),
            Some(vec![DVec2::new(850.9, -1_524.0), DVec2::new(0.5, 2.0)])
        );
        assert_eq!(points("850"), None);
        assert_eq!(points("a, b"), None);
        assert_eq!(points("1, inf"), None);
        assert_eq!(points(&points_text(&two.clone().unwrap(), Locale::default())), two);
    }

    /// As in every field; and what nobody touched stays to the last bit, however it is shown.
    #[test]
    fn points_are_in_the_unit_that_is_shown() {
        let feet = Locale { units: Units::FeetInches, ..Locale::default() };
        let before = [DVec2::new(1_250.0, 0.0), DVec2::new(3_333.3, -40.0)];
        let shown = points_text(&before, feet);
        assert!(shown.starts_with("4′ 1 "), "{shown}");
        assert_eq!(points(&shown, feet, &before).as_deref(), Some(before.as_slice()));
        let typed = points(&format!("{shown}12; 4' 6 1/2\"\n1250 mm, 6 1/2"), feet, &before).unwrap();
        assert_eq!(typed[..2], before);
        let meant = [DVec2::new(304.8, 1_384.3), DVec2::new(1_250.0, 165.1)];
        assert!(typed[2..].iter().zip(meant).all(|(own, meant)| own.distance(meant) < 1e-9), "{typed:?}");
        // Half a millimetre apart they are shown alike, and are not the same.
        let alike = [DVec2::new(1_250.0, 0.0), DVec2::new(1_250.5, 0.0), DVec2::new(9.0, 9.0)];
        let shown = points_text(&alike, feet);
        let read = points(&format!("{shown}1; 1"), feet, &alike).unwrap();
        assert_eq!(read[..3], alike);
        let metres = Locale { units: Units::Metres, ..Locale::default() };
        assert_eq!(points("1.25; 3", metres, &[]), Some(vec![DVec2::new(1_250.0, 3_000.0)]));
    }
}
