//! Placing a thing as a person measures it: two distances from two known points, from a wall and a corner, ahead and aside
//! of a wheel. What was placed by tape from the room is known as taped; from the car and its marks, no better than the car.

use baywright_planner::Subject;
use baywright_planner::edit::Edit;
use baywright_planner::geometry::{
    DVec2, Located, Outline, PlanPose, TAPES_MEET_MM, TapeFault, locate, two_distances,
};
use baywright_planner::hand::pose_of;
use baywright_planner::model::validate::limits;
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
#[derive(Clone, Debug, Default, PartialEq)]
struct Typed {
    way: Way,
    /// The points that the two tapes start from, by name: the list of them changes with the room and the marks.
    points: [Option<String>; 2],
    /// The wall, by name.
    wall: Option<Id>,
    /// The wheel, by its place in [`Wheel::ALL`].
    wheel: usize,
    /// Two lengths, mm.
    lengths: [Option<f64>; 2],
    /// To its middle, instead of its nearest side.
    to_middle: bool,
}

/// A point that a tape can start from.
struct Known2 {
    name: String,
    at: DVec2,
    /// Whether it goes with the car, which stands where it is parked only as well as that is known.
    is_of_car: bool,
}

/// Where a thing was placed by tape.
struct Placed {
    at: DVec2,
    /// Whether a tape started from the car or a mark that goes with it.
    from_car: bool,
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
        let mut typed = ui.data_mut(|data| data.get_temp_mut_or_default::<Typed>(key).clone());
        let mut placed: Option<Placed> = None;
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
        if let Some(placed) = placed {
            self.put_by_tape(id, &placed, out);
        }
    }

    /// Puts a thing's middle there; its place is taped now. From the car it is so in the car's frame, and in the bay's known as
    /// the car is: out by as much as that may stand elsewhere, and by its turn over the distance.
    fn put_by_tape(&self, id: &Id, placed: &Placed, out: &mut Vec<Command>) {
        let arrangement = &self.answer.arrangement;
        let known = if placed.from_car {
            let (mm, rad) = arrangement.shop.parked_within(arrangement.parked_known);
            let turned = rad * placed.at.distance(arrangement.parked.origin());
            let within = mm + turned + arrangement.shop.within(Known::Taped);
            Known::Within(within.ceil().min(limits::KNOWN.high))
        } else {
            Known::Taped
        };
        let bay = &self.answer.arrangement.bay;
        let Some(thing) = bay.things.iter().find(|own| own.id == *id) else { return };
        let at = PlanPose::new(placed.at, thing.place.at.heading());
        let place = model::Place { at, known };
        out.push(Command::Bay(OfBay::Edit(Edit::Place { thing: id.clone(), place })));
    }

    /// Corners of the room, floor marks, wheel points: what a tape can start from.
    fn known_points(&self) -> Vec<Known2> {
        let texts = self.view.locale.language.rooms();
        let forms = self.view.locale.language.forms();
        let (bay, scene) = (&self.answer.arrangement.bay, &self.answer.assessment.scene);
        let count = bay.walls.len();
        let corners = bay.room.outer().iter().enumerate().filter_map(|(i, &at)| {
            let (before, own) = (bay.walls.get((i + count - 1) % count)?, bay.walls.get(i)?);
            let name = texts.corner(before.id.as_str(), own.id.as_str());
            Some(Known2 { name, at, is_of_car: false })
        });
        let marks = scene.marks.iter().filter_map(|mark| {
            Some(Known2 { name: texts.mark(mark.id.as_str()), at: mark.at.ok()?, is_of_car: true })
        });
        let wheels = Wheel::ALL.into_iter().zip(scene.wheels).map(|(wheel, at)| Known2 {
            name: texts.wheel(forms.wheel_of(wheel)),
            at,
            is_of_car: true,
        });
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

    fn two_points(&self, ui: &mut Ui, sheet: &mut CarForm<'_>, id: &Id, typed: &mut Typed) -> Option<Placed> {
        let texts = self.view.locale.language.rooms();
        let points = self.known_points();
        let all: Vec<usize> = (0..points.len()).collect();
        let mut starts = [0, 1];
        for (nth, label) in [texts.first_point, texts.second_point].into_iter().enumerate() {
            let start = starts.get_mut(nth)?;
            if let Some(name) = typed.points.get(nth)?.as_ref() {
                match points.iter().position(|point| point.name == *name) {
                    Some(at) => *start = at,
                    // What was taped from a point that is gone says nothing of another.
                    None => *typed.lengths.get_mut(nth)? = None,
                }
            }
            let name = |&k: &usize| points.get(k).map_or_else(String::new, |point| point.name.clone());
            let chosen = sheet.pick(ui, label, &format!("tape point {nth} {id}"), start, &all, name);
            *start = chosen.unwrap_or(*start);
            *typed.points.get_mut(nth)? = points.get(*start).map(|point| point.name.clone());
            let path = format!("tape length {nth} {id}");
            let label = self.texts().numbered(texts.distance, nth + 1);
            self.length(ui, sheet, (&label, ""), &path, typed.lengths.get_mut(nth)?);
        }
        let (a, b) = (points.get(starts[0])?, points.get(starts[1])?);
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
                ui.add(
                    egui::Label::new(RichText::new(widgets::unbroken(said)).size(size::SMALL).color(colour))
                        .wrap(),
                );
                None
            }
            Ok(places) => {
                let from_car = a.is_of_car || b.is_of_car;
                self.which(ui, texts, places).map(|at| Placed { at, from_car })
            }
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
    ) -> Option<Placed> {
        let texts = self.view.locale.language.rooms();
        let bay = &self.answer.arrangement.bay;
        let all: Vec<usize> = (0..bay.walls.len()).collect();
        let named = typed.wall.as_ref().map(|id| bay.walls.iter().position(|own| own.id == *id));
        if named == Some(None) {
            // What was taped from a wall that is gone says nothing of another.
            typed.lengths = [None; 2];
        }
        let now = named.flatten().unwrap_or(0);
        let chosen = sheet.pick(ui, texts.wall, &format!("tape wall {id}"), &now, &all, |&k| {
            bay.walls.get(k).map_or_else(String::new, |wall| wall.id.to_string())
        });
        let wall = chosen.unwrap_or(now);
        typed.wall = bay.walls.get(wall).map(|own| own.id.clone());
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
        let (from, to) = bay.wall_ends(wall)?;
        let way = (to - from).normalize_or_zero();
        let (off, along) = (typed.lengths[0]?, typed.lengths[1]?);
        let half = if typed.to_middle { DVec2::ZERO } else { self.half_along(id, way)? };
        let at = from + way * (along + half.x) + way.perp() * (off + half.y);
        let put = widgets::press(ui, self.view.theme, texts.put_there).clicked();
        put.then_some(Placed { at, from_car: false })
    }

    /// So far ahead of a wheel's middle and so far away from the car.
    fn beside_wheel(
        &self,
        ui: &mut Ui,
        sheet: &mut CarForm<'_>,
        id: &Id,
        typed: &mut Typed,
    ) -> Option<Placed> {
        let texts = self.view.locale.language.rooms();
        let forms = self.view.locale.language.forms();
        let now = *Wheel::ALL.get(typed.wheel)?;
        let chosen = sheet.pick(ui, forms.wheel, &format!("tape wheel {id}"), &now, &Wheel::ALL, |wheel| {
            forms.wheel_of(*wheel).to_owned()
        });
        let wheel = chosen.unwrap_or(now);
        typed.wheel = Wheel::ALL.iter().position(|own| *own == wheel)?;
        let (ahead, aside) = ((texts.ahead, texts.ahead_hint), (texts.aside, texts.aside_hint));
        self.length(ui, sheet, ahead, &format!("tape ahead {id}"), &mut typed.lengths[0]);
        self.length(ui, sheet, aside, &format!("tape aside {id}"), &mut typed.lengths[1]);
        let (arrangement, scene) = (&*self.answer.arrangement, &self.answer.assessment.scene);
        let parked = pose_of(arrangement, scene, &Subject::Car)?;
        let at = *scene.wheels.get(typed.wheel)?;
        let out = if wheel.is_left() { parked.left() } else { -parked.left() };
        let middle = at + parked.turned(DVec2::X) * typed.lengths[0]? + out * typed.lengths[1]?;
        let put = widgets::press(ui, self.view.theme, texts.put_there).clicked();
        put.then_some(Placed { at: middle, from_car: true })
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
