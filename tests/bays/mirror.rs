//! The same bay as somebody sees it in a mirror, turned, or listed in another order.

use baywright_planner::geometry::marks::{Construction, WhichSide};
use baywright_planner::geometry::{Circle, DVec2, DVec3, Outline, PlanPose, Polygon};
use baywright_planner::model::sheet::Side;
use baywright_planner::model::*;

use crate::dice::Dice;

fn point(p: DVec2) -> DVec2 {
    DVec2::new(p.x, -p.y)
}

fn polygon(of: &Polygon) -> Polygon {
    Polygon::simple(of.outer().iter().map(|&p| point(p)).collect()).expect("as sound as before")
}

fn outline(of: &Outline) -> Outline {
    match of {
        Outline::Polygon(own) => polygon(own).into(),
        Outline::Circle(own) => Circle::new(point(own.centre()), own.radius()).expect("as sound").into(),
    }
}

fn pose(of: PlanPose) -> PlanPose {
    PlanPose::new(point(of.origin()), -of.heading())
}

fn wheel(of: Wheel) -> Wheel {
    match of {
        Wheel::FrontLeft => Wheel::FrontRight,
        Wheel::FrontRight => Wheel::FrontLeft,
        Wheel::RearLeft => Wheel::RearRight,
        Wheel::RearRight => Wheel::RearLeft,
    }
}

fn aiming(of: &mut Aiming) {
    for placement in &mut of.placements {
        let off = &mut placement.stand_off;
        (off.bearing_rad, off.aside_mm) = (-off.bearing_rad, -off.aside_mm);
        if let Datum::Wheel(own) = &mut off.from {
            *own = wheel(*own);
        }
        placement.turned_rad = -placement.turned_rad;
        if let Some(stand) = &mut placement.target.stand {
            stand.base = outline(&stand.base);
        }
    }
    for step in &mut of.mark_plan {
        match &mut step.construction {
            Construction::WheelPoint { wheel: own } | Construction::Outboard { wheel: own, .. } => {
                *own = wheel(*own)
            }
            Construction::AlongAside { aside, .. } => *aside = -*aside,
            Construction::AtAngle { angle, .. } => *angle = -*angle,
            Construction::TwoDistances { side, .. } => {
                *side = if *side == WhichSide::Left { WhichSide::Right } else { WhichSide::Left };
            }
            _ => {}
        }
    }
    for zone in &mut of.zones {
        zone.outline = outline(&zone.outline);
    }
}

fn sensor(of: &mut Sensor) {
    of.at = DVec3::new(of.at.x, -of.at.y, of.at.z);
    of.azimuth_rad = -of.azimuth_rad;
}

fn measured(of: &mut OnThisCar) {
    of.sensor_at = of.sensor_at.map(|at| DVec3::new(at.x, -at.y, at.z));
    of.rear_toe = RearToe { left_rad: of.rear_toe.right_rad, right_rad: of.rear_toe.left_rad };
    of.set_back_mm = of.set_back_mm.map(|mm| -mm);
    of.wheels = of.wheels.map(|[front_left, front_right, rear_left, rear_right]| {
        [front_right, front_left, rear_right, rear_left].map(point)
    });
    of.sheet.toe = swapped(of.sheet.toe);
    of.sheet.camber = swapped(of.sheet.camber);
    of.arches_mm = swapped(of.arches_mm);
    for told in [&mut of.sheet.set_back, &mut of.sheet.thrust] {
        told.way = told.way.map(|way| if way == Side::Left { Side::Right } else { Side::Left });
    }
    of.body_points.iter_mut().for_each(|(_, at)| *at = point(*at));
}

/// Of the wheels in their order: left is right.
fn swapped<T>([front_left, front_right, rear_left, rear_right]: [T; 4]) -> [T; 4] {
    [front_right, front_left, rear_right, rear_left]
}

/// In a mirror that stands along the bay's x.
pub fn mirrored(of: &Arrangement) -> Arrangement {
    let mut all = of.clone();
    let bay = &mut all.bay;
    let corners = bay.room.outer().to_vec();
    let count = corners.len();
    // The ring is run through backwards, so that the inside lies left of its edges again.
    bay.room = polygon(&bay.room);
    let now = |edge: usize| (2 * count - 2 - edge) % count;
    bay.walls = (0..count).map(|edge| bay.walls[now(edge)].clone()).collect();
    for door in &mut bay.openings {
        let length = corners[door.wall].distance(corners[(door.wall + 1) % count]);
        door.from_mm = length - door.from_mm - door.width_mm;
        door.wall = now(door.wall);
    }
    for own in &mut bay.floor_features {
        own.outline = polygon(&own.outline);
    }
    for own in &mut bay.runways {
        own.outline = polygon(&own.outline);
        if let Some(survey) = &mut own.survey {
            survey.points.change(|points| points.iter_mut().for_each(|own| own.at = point(own.at)));
        }
    }
    for own in &mut bay.keep_free {
        own.outline = polygon(&own.outline);
    }
    for own in &mut bay.bays {
        own.outline = polygon(&own.outline);
    }
    for thing in &mut bay.things {
        thing.place.at = pose(thing.place.at);
        if let Shape::Outline(corners) = thing.footprint.shape() {
            let corners = corners.iter().map(|&p| point(p)).collect();
            thing.footprint = Footprint::new(Shape::Outline(corners)).expect("as sound as before");
        }
    }
    if let Some(survey) = &mut bay.survey {
        survey.points.change(|points| points.iter_mut().for_each(|own| own.at = point(own.at)));
    }
    let car = &mut all.vehicle;
    car.outline_top = car.outline_top.iter().rev().map(|&p| point(p)).collect();
    for own in &mut car.body_points {
        own.at = DVec3::new(own.at.x, -own.at.y, own.at.z);
    }
    car.sensors.iter_mut().for_each(sensor);
    car.aimings.iter_mut().for_each(aiming);
    car.make_solids();
    sensor(&mut all.sensor);
    aiming(&mut all.aiming);
    measured(&mut all.on_this_car);
    for set in &mut all.stands {
        if let StandSet::At { place, .. } = set {
            *place = pose(*place);
        }
    }
    all.parked = pose(all.parked);
    all
}

/// The whole bay put elsewhere.
pub fn turned(of: &Arrangement, by: PlanPose) -> Arrangement {
    let mut all = of.clone();
    let bay = &mut all.bay;
    bay.room = bay.room.placed(&by);
    for own in &mut bay.floor_features {
        own.outline = own.outline.placed(&by);
    }
    for own in &mut bay.runways {
        own.outline = own.outline.placed(&by);
        if let Some(survey) = &mut own.survey {
            survey.points.change(|points| points.iter_mut().for_each(|own| own.at = by * own.at));
        }
    }
    for own in &mut bay.keep_free {
        own.outline = own.outline.placed(&by);
    }
    for own in &mut bay.bays {
        own.outline = own.outline.placed(&by);
    }
    for thing in &mut bay.things {
        thing.place.at = by * thing.place.at;
    }
    if let Some(survey) = &mut bay.survey {
        survey.points.change(|points| points.iter_mut().for_each(|own| own.at = by * own.at));
    }
    for set in &mut all.stands {
        if let StandSet::At { place, .. } = set {
            *place = by * *place;
        }
    }
    all.parked = by * all.parked;
    all
}

/// Everything listed in another order, the walls from another corner on.
pub fn reordered(of: &Arrangement, dice: &mut Dice) -> Arrangement {
    let mut all = of.clone();
    let bay = &mut all.bay;
    let count = bay.walls.len();
    let first = dice.count(1, count - 1);
    let mut corners = bay.room.outer().to_vec();
    corners.rotate_left(first);
    bay.room = Polygon::simple(corners).expect("as sound as before");
    bay.walls.rotate_left(first);
    for door in &mut bay.openings {
        door.wall = (door.wall + count - first) % count;
    }
    shuffle(&mut bay.things, dice);
    shuffle(&mut bay.openings, dice);
    shuffle(&mut bay.floor_features, dice);
    shuffle(&mut bay.runways, dice);
    shuffle(&mut bay.keep_free, dice);
    shuffle(&mut bay.bays, dice);
    shuffle(&mut all.kept_empty, dice);
    shuffle(&mut all.kept_shut, dice);
    let bay = &mut all.bay;
    if let Some(survey) = &mut bay.survey {
        survey.points.change(|points| points.reverse());
    }
    // Marks keep their order: later ones are made from earlier ones. So do targets: the order is the procedure's.
    let id = all.aiming.id.clone();
    shuffle(&mut all.aiming.zones, dice);
    let zones = all.aiming.zones.clone();
    let of_car = all.vehicle.aimings.iter_mut().filter(|own| own.id == id);
    of_car.for_each(|own| own.zones.clone_from(&zones));
    all
}

fn shuffle<T>(list: &mut [T], dice: &mut Dice) {
    for last in (1..list.len()).rev() {
        list.swap(last, dice.count(0, last));
    }
}
