//! Invariants of a layout: its bay, and what its arrangements say of it.

use std::borrow::Cow;
use std::collections::BTreeSet;

use super::super::fault::{Allowed, Counted, Found, Quote};
use super::super::{
    Bay, Id, Layout, MOST_TAPED, MarkTaped, OnThisCar, OwnerFigures, ParkedKnown, SavedArrangement, StandSet,
    TapedRoom, Underlay,
};
use super::limits;
use super::on_car::WHEELS;
use super::{Faults, bay, on_car, stand_read};

pub(super) fn check(layout: &Layout, faults: &mut Faults) {
    bay::check("", &layout.bay, faults);
    faults.count("arrangements", layout.arrangements.len(), limits::MOST_ARRANGEMENTS);
    faults.unique(
        layout.arrangements.iter().enumerate().map(|(i, a)| (format!("arrangements[{i}].name"), &a.id)),
    );
    let bay = &layout.bay;
    let at_home = bay.things.len() + bay.floor_features.len() + bay.runways.len() + bay.keep_free.len();
    // An arrangement's own building brings its walls and openings along: they count too.
    let placed = layout.arrangements.iter().fold(0_usize, |all, saved| {
        let in_it = saved.building.as_ref().map_or(at_home, |own| own.names().count());
        all.saturating_add(in_it).saturating_add(saved.added.len())
    });
    if placed > limits::MOST_PLACED {
        let found = Found::Count(placed, Counted::Placed);
        faults.add("arrangements", found, Allowed::AtMost(limits::MOST_PLACED));
    }
    let at_once_with = layout.named_at_once();
    for (i, saved) in layout.arrangements.iter().enumerate() {
        arrangement(&format!("arrangements[{i}]"), saved, layout, faults);
        if at_once_with.contains(&saved.id) {
            at_once(&format!("arrangements[{i}]"), saved, layout, faults);
        }
    }
    if let Some(picture) = &layout.underlay {
        underlay(picture, faults);
    }
    owner(&layout.owner, faults);
    if let Some(mark) = &layout.shop_fingerprint {
        faults.name("shop_fingerprint", mark);
    }
    if let Some(room) = &layout.taped {
        taped(room, faults);
    }
}

fn underlay(underlay: &Underlay, faults: &mut Faults) {
    faults.text("underlay.picture", &underlay.picture, limits::LONGEST_TEXT);
    faults.number("underlay.mm_per_px", underlay.mm_per_px, &limits::MM_PER_PX);
    faults.place("underlay.at_mm", underlay.at);
    faults.angle("underlay.turned_deg", underlay.turned_rad, &limits::TURN);
    faults.number("underlay.faded", underlay.faded, &limits::FADED);
}

fn owner(own: &OwnerFigures, faults: &mut Faults) {
    for (field, value) in [("owner.square_metre", own.square_metre), ("owner.to_spend", own.to_spend)] {
        if let Some(value) = value {
            faults.number(field, value, &limits::MONEY);
        }
    }
    if let Some(depth) = own.store_mm {
        faults.number("owner.store_mm", depth, &limits::IN_STORE);
    }
    faults.count("owner.comes_in", own.comes_in.len(), limits::MOST_FIXTURES);
    for (i, line) in own.comes_in.iter().enumerate() {
        faults.name(format!("owner.comes_in[{i}].car"), line.car.as_str());
        faults.name(format!("owner.comes_in[{i}].aiming"), line.aiming.as_str());
        faults.number(format!("owner.comes_in[{i}].a_month"), line.a_month, &limits::A_MONTH);
    }
    let costs = [
        ("without", &own.without),
        ("further", &own.further),
        ("walled_up", &own.walled_up),
        ("open_onto", &own.open_onto),
    ];
    for (list, all) in costs {
        faults.count(&format!("owner.{list}"), all.len(), limits::MOST_FIXTURES);
        for (i, cost) in all.iter().enumerate() {
            faults.name(format!("owner.{list}[{i}].name"), cost.name.as_str());
            faults.number(format!("owner.{list}[{i}].costs"), cost.costs, &limits::MONEY);
        }
    }
}

fn taped(room: &TapedRoom, faults: &mut Faults) {
    faults.angle("taped.start_turned_deg", room.start_turned_rad, &limits::TURN);
    faults.count("taped.walls", room.walls.len(), limits::MOST_WALLS);
    for (i, wall) in room.walls.iter().enumerate() {
        faults.number(format!("taped.walls[{i}].length_mm"), wall.length_mm, &limits::TAPED_WALL);
        faults.angle(format!("taped.walls[{i}].turn_deg"), wall.turn_rad, &limits::TURN);
        if let Some(name) = &wall.name {
            faults.name(format!("taped.walls[{i}].name"), name.as_str());
        }
    }
}

fn arrangement(path: &str, saved: &SavedArrangement, layout: &Layout, faults: &mut Faults) {
    faults.name(format!("{path}.name"), saved.id.as_str());
    faults.name(format!("{path}.vehicle"), saved.vehicle.as_str());
    faults.name(format!("{path}.aiming"), saved.aiming.as_str());
    faults.place(&format!("{path}.parked.at_mm"), saved.parked.origin());
    faults.angle(format!("{path}.parked.heading_deg"), saved.parked.heading(), &limits::TURN);
    parked_known(&format!("{path}.parked.known"), saved.parked_known, faults);
    on_this_car(&format!("{path}.on_this_car"), &saved.on_this_car, faults);
    marks_taped(&format!("{path}.marks_taped"), &saved.marks_taped, faults);
    marks_taped(&format!("{path}.laid_before"), &saved.laid_before, faults);
    stand_read::check(&format!("{path}.stands_read"), &saved.stands_read, faults);

    let bay = &*layout.bay_of(saved);
    if saved.building.is_some() {
        bay::building(&format!("{path}.building."), bay, faults);
    }
    let runways: Vec<&Id> = bay.runways.iter().map(|r| &r.id).collect();
    once(path, "on_runways", "", saved.on_runways.iter(), &runways, faults);
    bays_of(&format!("{path}."), saved.in_bay.as_ref(), &saved.kept_empty, bay, faults);
    for (i, (_, set)) in saved.stands.iter().enumerate() {
        stand(&format!("{path}.stands[{i}].set"), set, faults);
    }
    // Whether the placements exist is known only with the profile; that none is named twice is known now.
    faults.unique(
        saved.stands.iter().enumerate().map(|(i, (id, _))| (format!("{path}.stands[{i}].placement"), id)),
    );
    let things: Vec<&Id> = bay.things.iter().map(|t| &t.id).collect();
    once(path, "moved", ".thing", saved.moved.iter().map(|m| &m.thing), &things, faults);
    for (i, moved) in saved.moved.iter().enumerate() {
        faults.place(&format!("{path}.moved[{i}].at_mm"), moved.place.at.origin());
        faults.angle(format!("{path}.moved[{i}].turned_deg"), moved.place.at.heading(), &limits::TURN);
        super::bay::known(&format!("{path}.moved[{i}].known"), moved.place.known, faults);
    }
    once(path, "away", "", saved.away.iter(), &things, faults);
    if !saved.added.is_empty() {
        faults.count(&format!("{path}.added"), bay.things.len() + saved.added.len(), limits::MOST_THINGS);
        let all = saved.added.iter().chain(&bay.things).map(|thing| Cow::Borrowed(thing.footprint.outline()));
        faults.corners(
            (&format!("{path}.added"), "shape.corners_mm"),
            all.take(limits::MOST_THINGS),
            limits::MOST_CORNERS_IN_ALL,
        );
    }
    let taken: BTreeSet<&Id> = bay.names().collect();
    for (i, thing) in saved.added.iter().enumerate() {
        bay::thing(&format!("{path}.added[{i}]"), thing, faults);
        if taken.contains(&&thing.id) {
            let found = Found::TakenInBay(Quote::of(thing.id.as_str()));
            faults.add(format!("{path}.added[{i}].name"), found, Allowed::OwnName);
        }
    }
    faults.unique(saved.added.iter().enumerate().map(|(i, t)| (format!("{path}.added[{i}].name"), &t.id)));
    let doors: Vec<&Id> = bay.openings.iter().map(|o| &o.id).collect();
    once(path, "doors", ".door", saved.shut.iter().map(|(id, _)| id), &doors, faults);
    let doors: Vec<&Id> = bay.openings.iter().filter(|own| own.kind.is_door()).map(|own| &own.id).collect();
    once(path, "kept_shut", "", saved.kept_shut.iter(), &doors, faults);
    // Whether the car has these aimings is known only with its profile.
    faults.count(&format!("{path}.visit"), saved.visit.len(), limits::MOST_PARTS);
    for (i, aiming) in saved.visit.iter().enumerate() {
        faults.name(format!("{path}.visit[{i}]"), aiming.as_str());
    }
    faults.unique(saved.visit.iter().enumerate().map(|(i, id)| (format!("{path}.visit[{i}]"), id)));
}

/// Each set-up that is done at the same time is another one, in the same building and another bay of the hall, and is named once. Those
/// that name it count too.
fn at_once(path: &str, saved: &SavedArrangement, layout: &Layout, faults: &mut Faults) {
    let field = format!("{path}.at_once");
    faults.count(&field, saved.at_once.len(), limits::MOST_AT_ONCE);
    if saved.at_once.len() <= limits::MOST_AT_ONCE {
        faults.count(&field, layout.at_once(saved).count(), limits::MOST_AT_ONCE);
    }
    let named: Vec<(String, &Id)> =
        saved.at_once.iter().enumerate().map(|(i, id)| (format!("{field}[{i}]"), id)).collect();
    for (field, id) in &named {
        faults.known(field.clone(), id, layout.may_be_at_once(saved).map(|own| &own.id));
    }
    faults.unique(named);
}

/// The bay of a hall that an arrangement is made in and those that are kept empty for it are there, each named once.
pub(super) fn bays_of(path: &str, in_bay: Option<&Id>, kept_empty: &[Id], bay: &Bay, faults: &mut Faults) {
    faults.count(&format!("{path}kept_empty"), kept_empty.len(), limits::MOST_BAYS);
    let kept = kept_empty.iter().enumerate().map(|(i, id)| (format!("{path}kept_empty[{i}]"), id));
    let named: Vec<(String, &Id)> =
        in_bay.map(|id| (format!("{path}in_bay"), id)).into_iter().chain(kept).collect();
    for (field, id) in &named {
        faults.known(field.clone(), id, bay.bays.iter().map(|own| &own.id));
    }
    faults.unique(named);
}

/// Each name exists, and is named once.
fn once<'a>(
    path: &str,
    list: &str,
    part: &str,
    names: impl Iterator<Item = &'a Id>,
    known: &[&Id],
    faults: &mut Faults,
) {
    let names: Vec<(String, &Id)> =
        names.enumerate().map(|(i, id)| (format!("{path}.{list}[{i}]{part}"), id)).collect();
    faults.count(&format!("{path}.{list}"), names.len(), limits::MOST_THINGS);
    let there: BTreeSet<&Id> = known.iter().copied().collect();
    for (field, id) in names.iter().filter(|(_, id)| !there.contains(id)) {
        faults.known(field.clone(), id, known.iter().copied());
    }
    faults.unique(names);
}

pub(super) fn stand(path: &str, set: &StandSet, faults: &mut Faults) {
    if let StandSet::At { place, height_mm: height, pitch_rad: pitch } = set {
        faults.place(&format!("{path}.at_mm"), place.origin());
        faults.angle(format!("{path}.heading_deg"), place.heading(), &limits::TURN);
        faults.number(format!("{path}.height_mm"), *height, &limits::SIZE_OR_NONE);
        faults.angle(format!("{path}.pitch_deg"), *pitch, &limits::ELEVATION);
    }
}

pub(super) fn parked_known(path: &str, known: ParkedKnown, faults: &mut Faults) {
    if let ParkedKnown::Within { mm, rad } = known {
        faults.number(format!("{path}.mm"), mm, &limits::KNOWN);
        faults.angle(format!("{path}.deg"), rad, &limits::PARKED_TURN);
    }
}

/// What a tape read between marks; whether these exist is known with the profile.
pub(super) fn marks_taped(path: &str, taped: &[MarkTaped], faults: &mut Faults) {
    faults.count(path, taped.len(), MOST_TAPED);
    for (i, own) in taped.iter().take(MOST_TAPED).enumerate() {
        faults.name(format!("{path}[{i}].from"), own.from.as_str());
        faults.name(format!("{path}[{i}].to"), own.to.as_str());
        faults.number(format!("{path}[{i}].read_mm"), own.read_mm, limits::mark_taped(own.is_again()));
        super::instrument::taken(&format!("{path}[{i}]"), &own.taken, faults);
    }
}

pub(super) fn on_this_car(path: &str, car: &OnThisCar, faults: &mut Faults) {
    if let Some(at) = car.sensor_at {
        for (i, value) in at.to_array().into_iter().enumerate() {
            faults.number(format!("{path}.sensor_at_mm[{i}]"), value, &limits::ON_CAR);
        }
    }
    for (side, toe) in [("left_deg", car.rear_toe.left_rad), ("right_deg", car.rear_toe.right_rad)] {
        if let Some(toe) = toe {
            faults.angle(format!("{path}.rear_toe.{side}"), toe, &limits::TOE);
        }
    }
    if let Some(back) = car.set_back_mm {
        faults.number(format!("{path}.set_back_mm"), back, &limits::SET_BACK);
    }
    if let Some(circle) = car.turning_circle_mm {
        faults.number(format!("{path}.turning_circle_mm"), circle, &limits::TURNING_CIRCLE);
    }
    for (wheel, at) in WHEELS.iter().zip(car.wheels.iter().flatten()) {
        for (i, value) in at.to_array().into_iter().enumerate() {
            faults.number(format!("{path}.wheels_mm.{wheel}[{i}]"), value, &limits::ON_CAR);
        }
    }
    on_car::check(path, car, faults);
}
