//! Placing a thing as a person measures it: two distances from two known points, from a wall and a corner, ahead and aside
//! of a wheel. What was placed by tape is known as taped.

use baywright_planner::Subject;
use baywright_planner::edit::Edit;
use baywright_planner::geometry::{
    DVec2, Located, Outline, PlanPose, TAPES_MEET_MM, TapeFault, locate, two_distances,
};
use baywright_planner::hand::pose_of;
use baywright_planner::model::{self, Id, Known, Wheel};
use baywright_planner::words::rooms::Rooms;
use egui::{RichText, Ui};

use crate::screen::command::{Command, OfBay};
use crate::screen::forms::car::car_form::{CarForm, Line, Of, part};
use crate::screen::forms::field::Fields;
use crate::screen::look::size;
use crate::screen::{Desk, widgets};

/// How a place is measured.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
enum Way {
    #[default]
    TwoPoints,
    WallAndCorner,
    Wheel,
}

/// What was typed of one thing's place so far.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
struct Typed {
    way: Way,
    points: [usize; 2],
    lengths: [Option<f64>; 2],
    /// To its middle, instead of its nearest side.
    to_middle: bool,
}

/// A point that a tape can start from.
struct Known2 {
    name: String,
    at: DVec2,
}

impl Desk {
    /// The fields of placing by tape.
    pub(in crate::screen) fn by_tape(
        &self,
        ui: &mut Ui,
        fields: &mut Fields,
        id: &Id,
        out: &mut Vec<Command>,
    ) {
        let texts = self.view.locale.language.rooms();
        let car = self.answer.arrangement.vehicle.clone();
        let mut sheet = CarForm::new(self, std::mem::take(fields), car, Vec::new(), Vec::new()).narrow();
        let key = egui::Id::unique("by tape").with(id.as_str());
        let mut typed = ui.data_mut(|data| *data.get_temp_mut_or_default::<Typed>(key));
        let mut placed: Option<DVec2> = None;
        part(ui, texts.by_tape, "by tape", false, |ui| {
            let ways = [Way::TwoPoints, Way::WallAndCorner, Way::Wheel];
            let name = |way: &Way| match way {
                Way::TwoPoints => texts.two_points.to_owned(),
                Way::WallAndCorner => texts.wall_and_corner.to_owned(),
                Way::Wheel => texts.from_wheel.to_owned(),
            };
            if let Some(way) = sheet.pick(ui, texts.by_tape, &format!("way {id}"), &typed.way, &ways, name) {
                typed = Typed { way, ..Typed::default() };
            }
            placed = match typed.way {
                Way::TwoPoints => self.two_points(ui, &mut sheet, id, &mut typed),
                Way::WallAndCorner => self.wall_and_corner(ui, &mut sheet, id, &mut typed),
                Way::Wheel => self.beside_wheel(ui, &mut sheet, id, &mut typed),
            };
        });
        *fields = sheet.fields;
        ui.data_mut(|data| data.insert_temp(key, typed));
        if let Some(at) = placed {
            self.put_by_tape(id, at, out);
        }
    }

    /// Puts a thing's middle there; its place is taped now.
    fn put_by_tape(&self, id: &Id, at: DVec2, out: &mut Vec<Command>) {
        let bay = &self.answer.arrangement.bay;
        let Some(thing) = bay.things.iter().find(|own| own.id == *id) else { return };
        let at = PlanPose::new(at, thing.place.at.heading());
        out.push(Command::Bay(OfBay::Edit(Edit::Place {
            thing: id.clone(),
            place: model::Place { at, known: Known::Taped },
        })));
    }

    /// Corners of the room, floor marks, wheel points: what a tape can start from.
    fn known_points(&self) -> Vec<Known2> {
        let texts = self.view.locale.language.rooms();
        let forms = self.view.locale.language.forms();
        let (bay, scene) = (&self.answer.arrangement.bay, &self.answer.assessment.scene);
        let count = bay.walls.len();
        let corners = bay.room.outer().iter().enumerate().filter_map(|(i, &at)| {
            let (before, own) = (bay.walls.get((i + count - 1) % count)?, bay.walls.get(i)?);
            Some(Known2 { name: texts.corner(before.id.as_str(), own.id.as_str()), at })
        });
        let marks = scene
            .marks
            .iter()
            .filter_map(|mark| Some(Known2 { name: texts.mark(mark.id.as_str()), at: mark.at.ok()? }));
        let wheels = Wheel::ALL
            .into_iter()
            .zip(scene.wheels)
            .map(|(wheel, at)| Known2 { name: texts.wheel(forms.wheel_of(wheel)), at });
        corners.chain(marks).chain(wheels).collect()
    }

    fn length(
        &self,
        ui: &mut Ui,
        sheet: &mut CarForm<'_>,
        (label, hint): (&str, &str),
        path: &str,
        value: &mut Option<f64>,
    ) {
        let line = Line { label, hint, path, ..Line::default() };
        *value = sheet.number_or_none(ui, line, Of::Length, *value).unwrap_or(*value);
    }

    fn two_points(&self, ui: &mut Ui, sheet: &mut CarForm<'_>, id: &Id, typed: &mut Typed) -> Option<DVec2> {
        let texts = self.view.locale.language.rooms();
        let points = self.known_points();
        if typed.points == [0, 0] {
            typed.points = [0, 1];
        }
        let all: Vec<usize> = (0..points.len()).collect();
        for (nth, label) in [texts.first_point, texts.second_point].into_iter().enumerate() {
            let now = *typed.points.get(nth)?;
            let chosen = sheet.pick(ui, label, &format!("tape point {nth} {id}"), &now, &all, |&k| {
                points.get(k).map_or_else(String::new, |point| point.name.clone())
            });
            *typed.points.get_mut(nth)? = chosen.unwrap_or(now);
            let path = format!("tape length {nth} {id}");
            let label = self.texts().numbered(texts.distance, nth + 1);
            self.length(ui, sheet, (&label, ""), &path, typed.lengths.get_mut(nth)?);
        }
        let (a, b) = (points.get(typed.points[0])?, points.get(typed.points[1])?);
        let (from_a, from_b) = (typed.lengths[0]?, typed.lengths[1]?);
        match two_distances(a.at, from_a, b.at, from_b) {
            Err(fault) => {
                let words = self.words();
                let said = match fault {
                    TapeFault::TooFarApart { gap } => texts.too_short(&words.length(gap)),
                    TapeFault::Nested { excess } => texts.too_long(&words.length(excess)),
                    // From one point, both tapes alike.
                    TapeFault::OnePoint => texts.too_long(&words.length(TAPES_MEET_MM)),
                    TapeFault::NoDistance { distance } => texts.too_short(&words.length(-distance)),
                    // Points to start from all lie somewhere.
                    TapeFault::NoPoint => return None,
                };
                let colour = ui.visuals().error_fg_color;
                ui.add(egui::Label::new(RichText::new(said).size(size::SMALL).color(colour)).wrap());
                None
            }
            Ok(places) => self.which(ui, texts, places),
        }
    }

    /// Two places fit: those outside the room are not offered.
    fn which(&self, ui: &mut Ui, texts: &Rooms, places: [DVec2; 2]) -> Option<DVec2> {
        let room = &self.answer.arrangement.bay.room;
        let inside = places.map(|p| locate(&Outline::Polygon(room.clone()), p) != Located::Outside);
        if inside != [true, true] && inside != [false, false] {
            let at = if inside[0] { places[0] } else { places[1] };
            return widgets::press(ui, self.view.theme, texts.put_there).clicked().then_some(at);
        }
        ui.label(widgets::soft(ui, texts.which_place));
        let mut chosen = None;
        let words = self.words();
        for (at, side) in places.into_iter().zip([texts.left_place, texts.right_place]) {
            let where_ = self.texts().at_place(side, &words.length(at.x), &words.length(at.y));
            if widgets::press(ui, self.view.theme, where_).clicked() {
                chosen = Some(at);
            }
        }
        chosen
    }

    /// So far from a wall, so far along it from its first corner, to the middle or to the nearest side.
    fn wall_and_corner(
        &self,
        ui: &mut Ui,
        sheet: &mut CarForm<'_>,
        id: &Id,
        typed: &mut Typed,
    ) -> Option<DVec2> {
        let texts = self.view.locale.language.rooms();
        let bay = &self.answer.arrangement.bay;
        let all: Vec<usize> = (0..bay.walls.len()).collect();
        let now = typed.points[0];
        let chosen = sheet.pick(ui, texts.wall, &format!("tape wall {id}"), &now, &all, |&k| {
            bay.walls.get(k).map_or_else(String::new, |wall| wall.id.to_string())
        });
        typed.points[0] = chosen.unwrap_or(now);
        self.length(ui, sheet, (texts.from_the_wall, ""), &format!("tape from {id}"), &mut typed.lengths[0]);
        self.length(
            ui,
            sheet,
            (texts.along_the_wall, ""),
            &format!("tape along {id}"),
            &mut typed.lengths[1],
        );
        let chosen = sheet.pick(
            ui,
            texts.measured_to,
            &format!("tape to {id}"),
            &typed.to_middle,
            &[false, true],
            |to| if *to { texts.middle } else { texts.nearest_side }.to_owned(),
        );
        typed.to_middle = chosen.unwrap_or(typed.to_middle);
        let (from, to) = bay.wall_ends(typed.points[0])?;
        let way = (to - from).normalize_or_zero();
        let (off, along) = (typed.lengths[0]?, typed.lengths[1]?);
        let half = if typed.to_middle { DVec2::ZERO } else { self.half_along(id, way)? };
        let at = from + way * (along + half.x) + way.perp() * (off + half.y);
        widgets::press(ui, self.view.theme, texts.put_there).clicked().then_some(at)
    }

    /// So far ahead of a wheel's middle and so far away from the car.
    fn beside_wheel(
        &self,
        ui: &mut Ui,
        sheet: &mut CarForm<'_>,
        id: &Id,
        typed: &mut Typed,
    ) -> Option<DVec2> {
        let texts = self.view.locale.language.rooms();
        let forms = self.view.locale.language.forms();
        let now = *Wheel::ALL.get(typed.points[0])?;
        let chosen = sheet.pick(ui, forms.wheel, &format!("tape wheel {id}"), &now, &Wheel::ALL, |wheel| {
            forms.wheel_of(*wheel).to_owned()
        });
        let wheel = chosen.unwrap_or(now);
        typed.points[0] = Wheel::ALL.iter().position(|own| *own == wheel)?;
        let (ahead, aside) = ((texts.ahead, texts.ahead_hint), (texts.aside, texts.aside_hint));
        self.length(ui, sheet, ahead, &format!("tape ahead {id}"), &mut typed.lengths[0]);
        self.length(ui, sheet, aside, &format!("tape aside {id}"), &mut typed.lengths[1]);
        let (arrangement, scene) = (&*self.answer.arrangement, &self.answer.assessment.scene);
        let parked = pose_of(arrangement, scene, &Subject::Car)?;
        let at = *scene.wheels.get(typed.points[0])?;
        let out = if wheel.is_left() { parked.left() } else { -parked.left() };
        let middle = at + parked.turned(DVec2::X) * typed.lengths[0]? + out * typed.lengths[1]?;
        widgets::press(ui, self.view.theme, texts.put_there).clicked().then_some(middle)
    }

    /// From a thing's nearest side to its middle, along a wall and away from it.
    fn half_along(&self, id: &Id, way: DVec2) -> Option<DVec2> {
        let thing = self.answer.arrangement.bay.things.iter().find(|own| own.id == *id)?;
        let outline = thing
            .footprint
            .outline()
            .placed(&PlanPose::new(DVec2::ZERO, thing.place.at.heading() - heading(way)));
        let low = outline.bounds().low;
        Some(-low)
    }
}

fn heading(way: DVec2) -> f64 {
    baywright_planner::geometry::angle::heading(way)
}
