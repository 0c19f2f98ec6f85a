//! What was measured on this very car, as figures that follow from it: the one way to [`baywright_survey::alignment`].
//!
//! Lengths are mm, angles radians, positive towards the car's left, nose down, left side up. Uncertainties are standard ones, from
//! the shop's own figures (either way, any value alike).

use baywright_geometry::DVec2;
use baywright_survey::alignment::body::{Apart, Ride, body_line, ride};
use baywright_survey::alignment::{Footing, footing};
use baywright_survey::input::Figure;

use crate::model::{Arrangement, ReferenceAxis, Wheel};
use crate::scene::Scene;

/// Half a width as a standard uncertainty (JCGM 100, 4.3.7).
fn standard(half: f64) -> f64 {
    half / 3.0_f64.sqrt()
}

/// Tracks, wheelbases left and right, set-back and centreline by the wheels as they were measured; `None` where they were not.
pub fn feet(arrangement: &Arrangement) -> Option<Footing> {
    footing(&arrangement.measured_wheels()?)
}

/// How far each arch is above where the profile has it, mm, negative: low; `None` of one that was not taped, or where the profile
/// says nothing.
pub fn arches_off_mm(arrangement: &Arrangement) -> [Option<f64>; 4] {
    let nominal = arrangement.vehicle.ride_heights;
    let mut off = arrangement.on_this_car.arches_mm;
    for (nth, own) in off.iter_mut().enumerate() {
        let nominal = nominal.as_ref().and_then(|all| all.get(nth));
        *own = own.zip(nominal.copied()).map(|(own, nominal)| own - nominal);
    }
    off
}

/// How much higher the left arch of an axle is than the right one, mm, but for what the profile has them apart; `None` until both
/// were taped. Each reading is the shop's of a tape.
pub fn sides_apart(arrangement: &Arrangement, is_front: bool) -> Option<Figure> {
    let [front_left, front_right, rear_left, rear_right] = arrangement.on_this_car.arches_mm;
    let (left, right) = if is_front { (front_left?, front_right?) } else { (rear_left?, rear_right?) };
    let meant =
        arrangement.vehicle.ride_heights.map_or(0.0, |[front_left, front_right, rear_left, rear_right]| {
            if is_front { front_left - front_right } else { rear_left - rear_right }
        });
    let u = std::f64::consts::SQRT_2 * standard(arrangement.shop.tape_read_mm);
    Some(Figure { value: left - right - meant, u })
}

/// How much higher the body is than the profile has it over a place of the car (vehicle frame, mm): in the plane that its four
/// arches make; `None` until all of them were taped and the profile says how high they are meant.
///
/// By hand: fronts 4 mm low, 800 mm ahead of the front axle over a wheelbase of 2 600 mm are 4 · 3 400 / 2 600 = 5.23 mm low.
pub fn higher_at_mm(arrangement: &Arrangement, at: DVec2) -> Option<Figure> {
    let [front_left, front_right, rear_left, rear_right] = arches_off_mm(arrangement);
    let off = [front_left?, front_right?, rear_left?, rear_right?];
    let [one, other, ..] = Wheel::ALL.map(|wheel| arrangement.wheel_point(wheel));
    let (wheelbase, track) = (arrangement.centreline().1, one.distance(other));
    // From the rear axle on: 0 over it, 1 over the front one; and to the left, half on each side.
    let (along, aside) = (1.0 + at.x / wheelbase, 0.5 * at.y / track);
    let weights =
        [0.5 * along + aside, 0.5 * along - aside, 0.5 * (1.0 - along) + aside, 0.5 * (1.0 - along) - aside];
    let value = off.iter().zip(weights).map(|(off, weight)| off * weight).sum::<f64>();
    let u = standard(arrangement.shop.tape_read_mm) * weights.iter().map(|own| own * own).sum::<f64>().sqrt();
    (value.is_finite() && u.is_finite()).then_some(Figure { value, u })
}

/// How the body hangs against the profile, once all four arches were taped.
pub fn hangs(arrangement: &Arrangement) -> Option<Ride> {
    let [front_left, front_right, rear_left, rear_right] = arrangement.on_this_car.arches_mm;
    let heights = [front_left?, front_right?, rear_left?, rear_right?];
    let wheels = Wheel::ALL.map(|wheel| arrangement.wheel_point(wheel));
    let [one, other, behind, _] = wheels;
    let u_mm = standard(arrangement.shop.tape_read_mm);
    let spans = (arrangement.centreline().1, one.distance(other).max(behind.distance(wheels[3])));
    ride(heights, arrangement.vehicle.ride_heights?, u_mm, spans)
}

/// What separates the centreline by the points of the body that were plumbed on this car from the reference axis that the aiming
/// names, abreast of what lies so far ahead of the front axle, mm; `None` of fewer than two such points, or while the thrust line
/// is named and not known.
pub fn body_apart(arrangement: &Arrangement, ahead_mm: f64) -> Option<Apart> {
    let car = &arrangement.on_this_car;
    let points: Vec<_> = arrangement
        .vehicle
        .body_points
        .iter()
        .filter_map(|own| {
            let (_, at) = car.body_points.iter().find(|(id, _)| *id == own.id)?;
            Some((own.at.truncate(), *at))
        })
        .collect();
    let wheels = Wheel::ALL.map(|wheel| arrangement.wheel_point(wheel));
    let thrust_rad = match arrangement.aiming.axis {
        ReferenceAxis::GeometricCentreline => 0.0,
        ReferenceAxis::ThrustLine => car.thrust_rad()?,
    };
    let [wheel_u, point_u] = [arrangement.shop.wheel_found_mm, arrangement.shop.plumb_found_mm].map(standard);
    body_line((&wheels, wheel_u), (&points, point_u), thrust_rad, ahead_mm)
}

/// The same abreast of the first target, with how far ahead of the front axle that is, mm.
pub fn body_at_target(arrangement: &Arrangement, scene: &Scene) -> Option<(Apart, f64)> {
    let ahead_mm = ahead_of_axle_mm(scene, 0)?;
    Some((body_apart(arrangement, ahead_mm)?, ahead_mm))
}

/// How far ahead of the front axle a target belongs, along the reference axis, mm.
pub fn ahead_of_axle_mm(scene: &Scene, target: usize) -> Option<f64> {
    let target = scene.targets.get(target)?;
    Some((scene.bay_from_axis.inverse() * target.meant.place.origin()).x)
}

/// How far two readings of one distance may differ with the same tape if nothing moved, mm: 95 of 100, k·√2·u with the shop's
/// uncertainty of one reading. The tape's scale and warmth are the same in both.
pub fn still_within_mm(arrangement: &Arrangement) -> f64 {
    baywright_survey::chances::K95 * std::f64::consts::SQRT_2 * standard(arrangement.shop.tape_read_mm)
}
