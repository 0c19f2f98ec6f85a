//! How one bay differs from another: walls, openings, what is in the floor, things; each difference with its figures.
//!
//! What goes by one name in both is the same thing. What goes by a name in one only is new or gone, unless it is like
//! something in the other in all but its name.

mod bay;
mod found;
mod parts;

use std::borrow::Cow;

use baywright_geometry::DVec2;

use crate::assessment::Subject;
use crate::model::{
    Arrangement, Effort, FloorFeatureKind, Id, KeepFreeKind, Known, Layout, Material, Metal, OpeningKind,
    ParkedKnown, Shape, ThingKind,
};

pub use bay::between;
pub use found::{Found, found};

/// Lengths that differ by less than this, mm, are the same: what the planner speaks of begins here.
pub(crate) const SAME_MM: f64 = 0.01;
/// Directions that differ by less than this, radians, are the same: [`SAME_MM`] over the metre of a thing's half length.
pub(crate) const SAME_RAD: f64 = 1e-5;

/// One difference: of what, and in what.
#[derive(Clone, Debug, PartialEq)]
pub struct Difference {
    /// Of what; the floor stands for the room.
    pub of: Subject,
    /// In what.
    pub what: Change,
}

/// What was, and what is now.
#[derive(Clone, Debug, PartialEq)]
pub enum Change {
    /// It was not there.
    New,
    /// It is not there any more.
    Gone,
    /// It had this name.
    Name(Id),
    /// A wall that runs as before stands further out by so much, mm; negative: further in.
    FurtherOut(f64),
    /// A wall runs otherwise: its two ends are so far from where they were, mm.
    Ends([f64; 2]),
    /// A length is other than it was, mm.
    Length(Figure, [f64; 2]),
    /// It is from another height, or to another: underside and top before and now, mm above the floor.
    Heights([[f64; 2]; 2]),
    /// It stands elsewhere by so much, bay frame, mm, and is turned by so much, radians anticlockwise.
    Moved(DVec2, f64),
    /// It has another shape.
    Shape([Box<Shape>; 2]),
    /// Its outline on the floor is another: its size before and now, mm.
    Outline([DVec2; 2]),
    /// It is something else.
    Kind([Kind; 2]),
    /// It is made of something else.
    Material([Material; 2]),
    /// It holds more or less metal; none where nothing is said.
    Metal([Option<Metal>; 2]),
    /// An opening is in another wall.
    Wall([Id; 2]),
    /// It is shut now, or open.
    Shut(bool),
    /// It is a way out now, or none.
    Exit(bool),
    /// Its place is known better or worse.
    Known([Known; 2]),
    /// It takes more or less to move it.
    Effort([Effort; 2]),
    /// The hand may not move it now, or may again.
    Locked(bool),
    /// Where the car stands is known better or worse.
    Parked([ParkedKnown; 2]),
    /// Other runways carry the car; none: the floor does.
    Carried([Vec<Id>; 2]),
    /// It is made in another bay of the hall, or in none.
    InBay([Option<Id>; 2]),
    /// Other bays of the hall are kept empty for it.
    KeptEmpty([Vec<Id>; 2]),
    /// Other doors are kept shut for it.
    KeptShut([Vec<Id>; 2]),
    /// Other set-ups are done at the same time.
    AtOnce([Vec<Id>; 2]),
    /// The levels of its top are others.
    Levels,
    /// Its figures come from elsewhere.
    Source,
    /// A target stands exactly where it belongs now, or as it was found or put.
    OnMark(bool),
    /// A target that was put is tipped otherwise: before and now, radians, positive if its face looks down.
    Tipped([f64; 2]),
    /// Something was measured on this very car, or is: whether before and whether now; both where it is another figure.
    OnThisCar(OfThisCar, [bool; 2]),
    /// Distances between its marks were taped, or others are: how many before and now.
    MarksTaped([usize; 2]),
    /// How many stands were read of.
    StandsRead([usize; 2]),
}

/// Which length.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Figure {
    /// A wall's.
    WallLength,
    /// The clear height under the ceiling.
    Ceiling,
    /// From the wall's first corner to where an opening starts.
    FromCorner,
    /// An opening's width.
    Width,
    /// How far the ground beyond an opening is free.
    FreeBeyond,
    /// How far something stands proud of the floor.
    Proud,
    /// A runway's top.
    RunwayTop,
    /// The middle of a target's face above the floor.
    TargetHeight,
}

/// What is measured on one car.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum OfThisCar {
    /// Where its sensor is.
    Sensor,
    /// The toe of its rear wheels.
    RearToe,
    /// Its set-back.
    SetBack,
    /// Its turning circle.
    TurningCircle,
    /// Where its wheels stand.
    Wheels,
    /// Its alignment sheet, beyond rear toe and set-back.
    Sheet,
    /// The heights of its wheel arches.
    Arches,
    /// Where points of its body are.
    BodyPoints,
    /// Whether it stood still.
    Stood,
}

/// What something is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// A thing.
    Thing(ThingKind),
    /// An opening.
    Opening(OpeningKind),
    /// A place in the floor.
    Feature(FloorFeatureKind),
    /// An area that is kept free.
    KeepFree(KeepFreeKind),
}

/// How an arrangement's own building differs from the bay's, things at home and doors as they are there; `None` if it has none.
pub fn of_own_building(layout: &Layout, arrangement: &Id) -> Option<Vec<Difference>> {
    let own = layout.arrangements.iter().find(|own| own.id == *arrangement)?;
    own.building.is_some().then(|| between(&layout.bay, &layout.bay_of(own)))
}

/// How what is seen in the one arrangement differs from the other: the bay with its things where they stand, and where the car
/// stands, how well that is known and on what and what was measured on it, if it is the same one; where its targets stand, if it
/// is the same aiming; in which bay of a hall, which others are kept empty,
/// and which doors shut.
pub fn between_arrangements(before: &Arrangement, now: &Arrangement) -> Vec<Difference> {
    let mut all = Vec::new();
    // The same names in another order are the same.
    let is_other =
        |[was, now]: [&Vec<Id>; 2]| was.len() != now.len() || was.iter().any(|id| !now.contains(id));
    if before.vehicle.id == now.vehicle.id {
        let moved = parts::moved(&before.parked, &now.parked);
        let known = [before.parked_known, now.parked_known];
        let known = (known[0] != known[1]).then_some(Change::Parked(known));
        let carried = [&before.on_runways, &now.on_runways];
        let carried = is_other(carried).then(|| Change::Carried(carried.map(Clone::clone)));
        let of_car = moved.into_iter().chain(known).chain(carried);
        let measured = parts::on_this_car(&before.on_this_car, &now.on_this_car);
        all.extend(of_car.chain(measured).map(|what| Difference { of: Subject::Car, what }));
    }
    if before.vehicle.id == now.vehicle.id && before.aiming.id == now.aiming.id {
        if before.stands_read != now.stands_read {
            let what = Change::StandsRead([before.stands_read.len(), now.stands_read.len()]);
            all.push(Difference { of: Subject::Car, what });
        }
        if before.marks_taped != now.marks_taped {
            let what = Change::MarksTaped([before.marks_taped.len(), now.marks_taped.len()]);
            all.push(Difference { of: Subject::Car, what });
        }
        let placements = before.aiming.placements.iter().zip(&before.stands);
        for (was, own) in placements {
            let at = now.aiming.placements.iter().position(|other| other.id == was.id);
            let changes = at.and_then(|at| now.stands.get(at)).map(|is| parts::stand(own, is));
            let of = |what| Difference { of: Subject::Stand(was.id.clone()), what };
            all.extend(changes.into_iter().flatten().map(of));
        }
    }
    let in_bay = [&before.in_bay, &now.in_bay];
    let in_bay = (in_bay[0] != in_bay[1]).then(|| Change::InBay(in_bay.map(Clone::clone)));
    let kept = [&before.kept_empty, &now.kept_empty];
    let kept = is_other(kept).then(|| Change::KeptEmpty(kept.map(Clone::clone)));
    let kept_shut = [&before.kept_shut, &now.kept_shut];
    let kept_shut = is_other(kept_shut).then(|| Change::KeptShut(kept_shut.map(Clone::clone)));
    let at_once =
        [before, now].map(|own| own.beside.iter().map(|own| own.set_up.clone()).collect::<Vec<_>>());
    let at_once = is_other([&at_once[0], &at_once[1]]).then_some(Change::AtOnce(at_once));
    let of_arrangement = in_bay.into_iter().chain(kept).chain(kept_shut).chain(at_once);
    all.extend(of_arrangement.map(|what| Difference { of: Subject::Car, what }));
    // What stands there of other set-ups is told in theirs.
    let [before, now] = [before, now].map(|own| match own.beside.is_empty() {
        true => Cow::Borrowed(&own.bay),
        false => Cow::Owned(own.clone().alone().bay),
    });
    all.extend(between(&before, &now));
    all
}

#[cfg(test)]
mod tests {
    use baywright_geometry::{DVec3, PlanPose};

    use super::*;
    use crate::check::testing::{cabinet, clear};
    use crate::model::StandSet;

    #[test]
    fn of_the_car_and_of_a_thing_everything_is_told() {
        let mut before = clear();
        before.bay.things = vec![cabinet("cabinet", (8_000.0, 5_000.0), 600.0, 400.0)];
        assert_eq!(between_arrangements(&before, &before), []);
        let mut now = before.clone();
        now.parked_known = ParkedKnown::Within { mm: 77.0, rad: 0.0 };
        now.on_runways = vec!["lift, left".into()];
        now.bay.things[0].locked = true;
        let expected = [
            (Subject::Car, Change::Parked([before.parked_known, now.parked_known])),
            (Subject::Car, Change::Carried([Vec::new(), now.on_runways.clone()])),
            (Subject::Thing("cabinet".into()), Change::Locked(true)),
        ];
        let told = between_arrangements(&before, &now);
        assert_eq!(told, expected.map(|(of, what)| Difference { of, what }));
        // So is in which bay of a hall it is made, and what is kept empty for that, whatever the car.
        let mut in_bay = before.clone();
        (in_bay.in_bay, in_bay.kept_empty) = (Some("bay 1".into()), vec!["bay 2".into()]);
        in_bay.kept_shut = vec!["side door".into()];
        in_bay.vehicle.id = "another".into();
        let expected = [
            Change::InBay([None, in_bay.in_bay.clone()]),
            Change::KeptEmpty([Vec::new(), in_bay.kept_empty.clone()]),
            Change::KeptShut([Vec::new(), in_bay.kept_shut.clone()]),
        ];
        let expected = expected.map(|what| Difference { of: Subject::Car, what });
        assert_eq!(between_arrangements(&before, &in_bay), expected);
        // What was measured on this car, and where its target was put.
        let mut own = before.clone();
        own.on_this_car.sensor_at = Some(DVec3::new(1.0, 2.0, 3.0));
        let at = |x: f64, height_mm: f64| {
            let place = PlanPose::new(DVec2::new(x, 3_000.0), 0.0);
            StandSet::At { place, height_mm, pitch_rad: 0.0 }
        };
        own.stands = vec![at(8_800.0, 500.0)];
        let of = |what| Difference { of: Subject::Stand("ahead".into()), what };
        let expected = [
            Difference { of: Subject::Car, what: Change::OnThisCar(OfThisCar::Sensor, [false, true]) },
            of(Change::OnMark(false)),
        ];
        assert_eq!(between_arrangements(&before, &own), expected);
        let mut moved = own.clone();
        moved.on_this_car.sensor_at = Some(DVec3::new(1.0, 2.0, 4.0));
        moved.stands = vec![at(8_900.0, 520.0)];
        let expected = [
            Difference { of: Subject::Car, what: Change::OnThisCar(OfThisCar::Sensor, [true, true]) },
            of(Change::Moved(DVec2::new(100.0, 0.0), 0.0)),
            of(Change::Length(Figure::TargetHeight, [500.0, 520.0])),
        ];
        assert_eq!(between_arrangements(&own, &moved), expected);
        let mut back = own.clone();
        (back.on_this_car, back.stands) = (before.on_this_car, before.stands.clone());
        let expected = [
            Difference { of: Subject::Car, what: Change::OnThisCar(OfThisCar::Sensor, [true, false]) },
            of(Change::OnMark(true)),
        ];
        assert_eq!(between_arrangements(&own, &back), expected);
        // The same runways in another order carry it as before.
        now.on_runways.push("lift, right".into());
        let mut turned = now.clone();
        turned.on_runways.reverse();
        assert_eq!(between_arrangements(&now, &turned), []);
    }
}
