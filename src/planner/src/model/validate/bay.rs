//! Invariants of a bay.

use std::borrow::Cow;

use baywright_geometry::{Outline, Polygon};

use super::super::fault::{Allowed, Found, Listed, Quote};
use super::super::{Bay, EndOn, FloorSurvey, Id, Known, Opening, Shape, Thing};
use super::limits;
use super::{Faults, extent};

/// `path` stands before every field: empty in a layout file.
pub(super) fn check(path: &str, bay: &Bay, faults: &mut Faults) {
    faults.name(format!("{path}name"), bay.id.as_str());
    faults.name(format!("{path}name"), &bay.name);
    building(path, bay, faults);
    if let Some(own) = &bay.survey {
        survey(&format!("{path}survey"), own, faults);
    }
    marks(path, bay, faults);
    dimensions(path, bay, faults);
}

/// What an arrangement may have of its own: all but names, the floor's levels and the marks on it.
pub(super) fn building(path: &str, bay: &Bay, faults: &mut Faults) {
    faults.source(&format!("{path}source"), &bay.provenance);
    room(path, bay, faults);
    faults.count(&format!("{path}openings"), bay.openings.len(), limits::MOST_FIXTURES);
    for (i, opening) in bay.openings.iter().enumerate() {
        check_opening(&format!("{path}openings[{i}]"), opening, bay, faults);
    }
    if bay.openings.len() <= limits::MOST_FIXTURES {
        overlaps(path, bay, faults);
    }
    fixtures(path, bay, faults);
    bays(path, bay, faults);
    faults.count(&format!("{path}things"), bay.things.len(), limits::MOST_THINGS);
    for (i, item) in bay.things.iter().enumerate() {
        thing(&format!("{path}things[{i}]"), item, faults);
    }
    let outlines = bay.things.iter().map(|thing| Cow::Borrowed(thing.footprint.outline()));
    faults.corners((&format!("{path}things"), "shape.corners_mm"), outlines, limits::MOST_CORNERS_IN_ALL);
    names(path, bay, faults);
}

fn survey(path: &str, survey: &FloorSurvey, faults: &mut Faults) {
    faults.source(&format!("{path}.source"), &survey.provenance);
    for (field, text) in [("with", &survey.how.with), ("by", &survey.how.by)] {
        if let Some(text) = text {
            faults.name(format!("{path}.{field}"), text);
        }
    }
    if let Some(within) = survey.how.within_mm {
        faults.number(format!("{path}.within_mm"), within, &limits::LEVEL_READ);
    }
    faults.count(&format!("{path}.points"), survey.points.len(), limits::MOST_THINGS);
    if survey.points.is_empty() {
        faults.add(format!("{path}.points"), Found::NoLevel, Allowed::AtLeastOneOrNoSurvey);
    }
    for (i, point) in survey.points.iter().enumerate() {
        faults.place(&format!("{path}.points[{i}].at_mm"), point.at);
        faults.number(format!("{path}.points[{i}].level_mm"), point.level_mm, &limits::LEVEL);
    }
}

fn room(path: &str, bay: &Bay, faults: &mut Faults) {
    let corners = bay.room.outer().len();
    faults.no_holes(format!("{path}room.corners_mm"), &bay.room);
    faults.count(&format!("{path}room.corners_mm"), corners, limits::MOST_WALLS);
    if !has_size(bay) {
        let found = Found::RoomOf(bay.room.bounds().size());
        faults.add(format!("{path}room.corners_mm"), found, Allowed::EachWay(limits::ROOM));
    }
    if bay.walls.len() != corners {
        let found = Found::WallsForCorners { walls: bay.walls.len(), corners };
        faults.add(format!("{path}room.walls"), found, Allowed::OneForEachCorner);
    }
    for (i, wall) in bay.walls.iter().enumerate() {
        faults.name(format!("{path}room.walls[{i}].name"), wall.id.as_str());
    }
    faults.number(format!("{path}room.ceiling_mm"), bay.ceiling_mm, &limits::CEILING);
    known(&format!("{path}room.walls_known"), bay.walls_known, faults);
}

/// Whether the room is as large as rooms are, either way.
fn has_size(bay: &Bay) -> bool {
    let size = bay.room.bounds().size();
    limits::ROOM.holds(size.x) && limits::ROOM.holds(size.y)
}

pub(super) fn known(field: &str, known: Known, faults: &mut Faults) {
    if let Known::Within(mm) = known {
        faults.number(format!("{field}.mm"), mm, &limits::KNOWN);
    }
}

/// The length of a wall.
fn wall_length(bay: &Bay, wall: usize) -> Option<f64> {
    let corners = bay.room.outer();
    let from = corners.get(wall)?;
    let to = corners.get((wall + 1) % corners.len())?;
    Some(from.distance(*to))
}

fn check_opening(path: &str, opening: &Opening, bay: &Bay, faults: &mut Faults) {
    faults.name(format!("{path}.name"), opening.id.as_str());
    faults.number_or_none(format!("{path}.free_beyond_mm"), opening.free_beyond_mm, &limits::FREE);
    let length = wall_length(bay, opening.wall);
    if length.is_none() {
        let found = Found::Position(Listed::Wall, opening.wall + 1);
        faults.add(format!("{path}.wall"), found, Allowed::WallOfRoom);
    }
    // A wall of a room that is not as large as a room is no measure.
    along_wall(path, opening.from_mm, opening.width_mm, length.filter(|_| has_size(bay)), faults);
    let (bottom, top) = (opening.span.bottom(), opening.span.top());
    if bottom < 0.0 {
        faults.length(format!("{path}.bottom_mm"), bottom, Allowed::FromFloor);
    } else if !limits::OPENING.holds(top - bottom) {
        faults.length(format!("{path}.top_mm"), top, Allowed::AboveBottom(limits::OPENING));
    }
    if limits::CEILING.holds(bay.ceiling_mm) && top > bay.ceiling_mm + limits::WALL_SLACK_MM {
        faults.length(format!("{path}.top_mm"), top, Allowed::UpToCeiling(bay.ceiling_mm));
    }
}

/// Where an opening lies along its wall, mm from the wall's start. `length` is the wall's, if it is known.
pub(super) fn along_wall(path: &str, from: f64, width: f64, length: Option<f64>, faults: &mut Faults) {
    let before = faults.list.len();
    faults.number(format!("{path}.from_mm"), from, &limits::SIZE_OR_NONE);
    faults.number(format!("{path}.width_mm"), width, &limits::OPENING);
    let Some(length) = length.filter(|_| faults.list.len() == before) else { return };
    let end = from + width;
    if end > length + limits::WALL_SLACK_MM {
        let found = Found::AlongWall { from, to: end };
        faults.add(format!("{path}.width_mm"), found, Allowed::WithinWall(length));
    }
}

/// Two openings in one wall must not overlap, along it and in height.
fn overlaps(path: &str, bay: &Bay, faults: &mut Faults) {
    for (i, a) in bay.openings.iter().enumerate() {
        let clash = bay.openings.iter().take(i).find(|b| {
            a.wall == b.wall
                && a.from_mm + limits::WALL_SLACK_MM < b.from_mm + b.width_mm
                && b.from_mm + limits::WALL_SLACK_MM < a.from_mm + a.width_mm
                && a.span.shared(&b.span).is_some()
        });
        if let Some(b) = clash {
            let found = Found::OpeningsOverlap(a.id.clone(), b.id.clone());
            faults.add(format!("{path}openings[{i}]"), found, Allowed::OpeningsApart);
        }
    }
}

fn fixtures(path: &str, bay: &Bay, faults: &mut Faults) {
    for (field, len) in [
        ("floor_features", bay.floor_features.len()),
        ("runways", bay.runways.len()),
        ("keep_free", bay.keep_free.len()),
    ] {
        faults.count(&format!("{path}{field}"), len, limits::MOST_FIXTURES);
    }
    let floor = |field: &str| format!("{path}{field}");
    let shape = |outline: &Polygon| Cow::Owned(Outline::from(outline.clone()));
    let most = limits::MOST_CORNERS_IN_ALL;
    let features = bay.floor_features.iter().map(|own| shape(&own.outline));
    faults.corners((&floor("floor_features"), "corners_mm"), features, most);
    faults.corners(
        (&floor("runways"), "corners_mm"),
        bay.runways.iter().map(|own| shape(&own.outline)),
        most,
    );
    faults.corners(
        (&floor("keep_free"), "corners_mm"),
        bay.keep_free.iter().map(|own| shape(&own.outline)),
        most,
    );
    for (i, feature) in bay.floor_features.iter().enumerate() {
        faults.name(format!("{path}floor_features[{i}].name"), feature.id.as_str());
        faults.no_holes(format!("{path}floor_features[{i}].corners_mm"), &feature.outline);
        faults.number(format!("{path}floor_features[{i}].proud_mm"), feature.proud_mm, &limits::PROUD);
    }
    for (i, runway) in bay.runways.iter().enumerate() {
        faults.name(format!("{path}runways[{i}].name"), runway.id.as_str());
        faults.no_holes(format!("{path}runways[{i}].corners_mm"), &runway.outline);
        area(&format!("{path}runways[{i}].corners_mm"), &runway.outline, faults);
        faults.number(format!("{path}runways[{i}].top_mm"), runway.top_mm, &limits::RUNWAY_TOP);
        if let Some(own) = &runway.survey {
            survey(&format!("{path}runways[{i}].survey"), own, faults);
        }
    }
    for (i, free) in bay.keep_free.iter().enumerate() {
        faults.name(format!("{path}keep_free[{i}].name"), free.id.as_str());
        faults.no_holes(format!("{path}keep_free[{i}].corners_mm"), &free.outline);
        area(&format!("{path}keep_free[{i}].corners_mm"), &free.outline, faults);
    }
}

/// The bays of a hall are pieces of floor as those that are kept free are.
fn bays(path: &str, bay: &Bay, faults: &mut Faults) {
    let field = format!("{path}bays");
    faults.count(&field, bay.bays.len(), limits::MOST_BAYS);
    let outlines = bay.bays.iter().map(|own| Cow::Owned(Outline::from(own.outline.clone())));
    faults.corners((&field, "corners_mm"), outlines, limits::MOST_CORNERS_OF_BAYS);
    for (i, own) in bay.bays.iter().enumerate() {
        faults.name(format!("{field}[{i}].name"), own.id.as_str());
        faults.no_holes(format!("{field}[{i}].corners_mm"), &own.outline);
        area(&format!("{field}[{i}].corners_mm"), &own.outline, faults);
    }
}

/// A piece of floor that is used or kept free is no smaller than a hand either way.
fn area(field: &str, outline: &Polygon, faults: &mut Faults) {
    let size = outline.bounds().size();
    if !(limits::AREA.holds(size.x) && limits::AREA.holds(size.y)) {
        faults.add(field, Found::AreaOf(size), Allowed::EachWay(limits::AREA));
    }
}

pub(super) fn thing(path: &str, thing: &Thing, faults: &mut Faults) {
    faults.name(format!("{path}.name"), thing.id.as_str());
    match thing.footprint.shape() {
        Shape::Rectangle { length_mm: length, width_mm: width } => {
            faults.number(format!("{path}.shape.length_mm"), *length, limits::side(*length, *width));
            faults.number(format!("{path}.shape.width_mm"), *width, limits::side(*width, *length));
        }
        Shape::Round { diameter_mm: diameter } => {
            faults.number(format!("{path}.shape.diameter_mm"), *diameter, &limits::THING);
        }
        Shape::Outline(_) => {
            let size = extent(thing.footprint.outline()).max_element();
            if !limits::THING.holds(size) {
                let allowed = Allowed::In(limits::THING);
                faults.add(format!("{path}.shape.corners_mm"), Found::ShapeOf(size), allowed);
            }
        }
    }
    faults.place(&format!("{path}.at_mm"), thing.place.at.origin());
    faults.angle(format!("{path}.turned_deg"), thing.place.at.heading(), &limits::TURN);
    faults.number(format!("{path}.bottom_mm"), thing.span.bottom(), &limits::HEIGHT);
    faults.number(format!("{path}.top_mm"), thing.span.top(), &limits::HEIGHT);
    let thick = thing.span.top() - thing.span.bottom();
    if !limits::THICKNESS.holds(thick) {
        let allowed = Allowed::AboveBottom(limits::THICKNESS);
        faults.length(format!("{path}.top_mm"), thing.span.top(), allowed);
    }
    known(&format!("{path}.known"), thing.place.known, faults);
}

/// Permanent marks have their own numbers.
fn marks(path: &str, bay: &Bay, faults: &mut Faults) {
    let field = format!("{path}marks");
    faults.count(&field, bay.marks.len(), limits::MOST_FIXTURES);
    for (i, mark) in bay.marks.iter().enumerate() {
        faults.name(format!("{field}[{i}].name"), mark.id.as_str());
        faults.place(&format!("{field}[{i}].at_mm"), mark.at);
        if let Some(within) = mark.laid_within_mm {
            faults.number(format!("{field}[{i}].laid_within_mm"), within, &limits::MARK_WITHIN);
        }
        if let Some(to) = &mark.line_to {
            let path = format!("{field}[{i}].line_to");
            faults.name(&path, to.as_str());
            if *to == mark.id {
                faults.add(path, Found::Text(Quote::of(to.as_str())), Allowed::OtherMark);
            }
        }
        super::instrument::mark_checks(&format!("{field}[{i}].checks"), mark, faults);
    }
    faults.unique(bay.marks.iter().enumerate().map(|(i, mark)| (format!("{field}[{i}].name"), &mark.id)));
}

/// Dimensions have names of their own too. What an end lies on may be gone.
fn dimensions(path: &str, bay: &Bay, faults: &mut Faults) {
    let field = format!("{path}dimensions");
    faults.count(&field, bay.dimensions.len(), limits::MOST_DIMENSIONS);
    for (i, dimension) in bay.dimensions.iter().enumerate() {
        faults.name(format!("{field}[{i}].name"), dimension.id.as_str());
        for (end, which) in dimension.ends.iter().zip(["from", "to"]) {
            let path = format!("{field}[{i}].{which}");
            faults.place(&format!("{path}.at_mm"), end.at);
            end_on(&format!("{path}.on"), end.on.as_ref(), faults);
        }
    }
    let names = bay.dimensions.iter().enumerate();
    faults.unique(names.map(|(i, own)| (format!("{field}[{i}].name"), &own.id)));
}

fn end_on(path: &str, on: Option<&EndOn>, faults: &mut Faults) {
    let (field, name) = match on {
        None | Some(EndOn::Car(_) | EndOn::Sensor) => return,
        Some(EndOn::Corner(id)) => ("wall", id),
        Some(EndOn::SquareTo(id)) => ("wall", id),
        Some(EndOn::Wall { wall, along_mm }) => {
            faults.number(format!("{path}.along_mm"), *along_mm, &limits::ALONG_WALL);
            ("wall", wall)
        }
        Some(EndOn::Thing { thing, .. }) => ("thing", thing),
        Some(EndOn::Mark(id) | EndOn::LaidMark(id)) => ("mark", id),
        Some(EndOn::Target(id)) => ("placement", id),
    };
    faults.name(format!("{path}.{field}"), name.as_str());
}

/// A finding names what it is about, so no two things of a bay share a name.
fn names(path: &str, bay: &Bay, faults: &mut Faults) {
    let names = |list: &str, ids: Vec<&Id>| -> Vec<(String, Id)> {
        ids.into_iter().enumerate().map(|(i, id)| (format!("{path}{list}[{i}].name"), id.clone())).collect()
    };
    let mut all = names("room.walls", bay.walls.iter().map(|w| &w.id).collect());
    all.extend(names("openings", bay.openings.iter().map(|o| &o.id).collect()));
    all.extend(names("floor_features", bay.floor_features.iter().map(|f| &f.id).collect()));
    all.extend(names("runways", bay.runways.iter().map(|r| &r.id).collect()));
    all.extend(names("things", bay.things.iter().map(|t| &t.id).collect()));
    all.extend(names("keep_free", bay.keep_free.iter().map(|k| &k.id).collect()));
    all.extend(names("bays", bay.bays.iter().map(|own| &own.id).collect()));
    faults.unique(all.iter().map(|(field, id)| (field.clone(), id)));
}
