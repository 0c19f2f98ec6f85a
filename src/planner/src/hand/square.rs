//! A heading drawn onto right angles.

use std::f64::consts::FRAC_PI_2;

use baywright_geometry::angle;

use super::pose_of;
use crate::assessment::Subject;
use crate::model::Arrangement;
use crate::scene::Scene;

/// The wanted heading of what is in hand (radians, bay frame), drawn onto a right angle to a wall or to the car's reference
/// axis if one is within `reach` radians: then exactly square, within (-π, π]; else as wanted. Of two that are as near,
/// walls come before the car. The car itself is squared to walls only. In the place of a heading that is not a number
/// comes the one that it has now.
pub fn squared(arrangement: &Arrangement, scene: &Scene, subject: &Subject, wanted: f64, reach: f64) -> f64 {
    if !wanted.is_finite() {
        return pose_of(arrangement, scene, subject).map_or(0.0, |pose| pose.heading());
    }
    let room = arrangement.bay.room.edges().take(arrangement.bay.walls.len());
    let walls = room.map(|edge| angle::heading(edge.to - edge.from));
    let car = (*subject != Subject::Car).then(|| scene.bay_from_axis.heading());
    let mut best = None;
    for base in walls.chain(car) {
        let heading = square_to(base, wanted);
        let off = angle::wrapped(heading - wanted).abs();
        if off <= reach && best.is_none_or(|(least, _)| off < least) {
            best = Some((off, heading));
        }
    }
    best.map_or(wanted, |(_, heading)| heading)
}

/// Of the four headings square to `base` the nearest to `wanted`.
fn square_to(base: f64, wanted: f64) -> f64 {
    // Less than an eighth of a turn, so that whole quarters added to it stay exact: those of a wall along the bay's axes
    // are what a person types as 90 or 180 degrees.
    let less = base - libm::round(base / FRAC_PI_2) * FRAC_PI_2;
    let quarters = libm::round((angle::wrapped(wanted) - less) / FRAC_PI_2);
    angle::wrapped(less + quarters * FRAC_PI_2)
}
