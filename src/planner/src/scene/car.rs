//! The car in the bay: what carries it, which way its reference axis points, what it fills.

use baywright_geometry::{Bounds, DVec2, Located, PlanPose, Polygon, Prism, locate_in, thrust_axis};

use crate::model::{Arrangement, ReferenceAxis, Runway, Wheel};

/// The runways that the car stands on.
pub(super) fn carrying(arrangement: &Arrangement) -> impl Iterator<Item = &Runway> {
    arrangement.bay.runways.iter().filter(|runway| arrangement.on_runways.contains(&runway.id))
}

/// Height of the plane that carries the wheels: the highest of the runways it stands on, or the floor.
pub(super) fn carried_at(arrangement: &Arrangement) -> f64 {
    carrying(arrangement).map(|runway| runway.top_mm).fold(0.0, f64::max)
}

/// How high above the bay's floor a mark there lies, mm: on a runway that carries the car, or on the floor.
pub(super) fn lies_on_mm(arrangement: &Arrangement, at: DVec2) -> f64 {
    let under = carrying(arrangement).filter(|runway| locate_in(&runway.outline, at) != Located::Outside);
    under.map(|runway| runway.top_mm).fold(0.0, f64::max)
}

/// Vehicle from reference axis. The geometric centreline is the vehicle's own x axis, unless the wheels were measured on this car. Without an alignment sheet it stands
/// in for the thrust line, and a check says so.
pub(super) fn reference_axis(arrangement: &Arrangement) -> PlanPose {
    let (centreline, wheelbase) = arrangement.centreline();
    match (arrangement.aiming.axis, arrangement.on_this_car.thrust_rad()) {
        (ReferenceAxis::ThrustLine, Some(thrust)) => centreline * thrust_axis(wheelbase, thrust),
        _ => centreline,
    }
}

/// The solids that the car fills, and the box around them. Where the wheels were measured on this car, its tyres fill the place
/// that they stand in as well as the one that the profile has for them.
pub(super) fn solids(
    arrangement: &Arrangement,
    bay_from_vehicle: &PlanPose,
    carried_at: f64,
) -> (Vec<Prism>, Bounds) {
    let measured = arrangement.measured_wheels().map(|wheels| arrangement.vehicle.tyres_at(wheels));
    let measured = measured.unwrap_or_default();
    let solids: Vec<Prism> = arrangement
        .vehicle
        .solids()
        .iter()
        .chain(&measured)
        .map(|solid| Prism::new(solid.outline.placed(bay_from_vehicle), solid.span.raised(carried_at)))
        .collect();
    let here = bay_from_vehicle.origin();
    let bounds = solids
        .iter()
        .map(|solid| solid.outline.bounds())
        .reduce(Bounds::union)
        .unwrap_or(Bounds { low: here, high: here });
    (solids, bounds)
}

/// How long a tyre's tread touches or nearly touches the ground: a tape cannot pass there (common practice, no source).
const TREAD_MM: f64 = 300.0;

/// Where each tyre stands on the ground, in [`Wheel::ALL`]'s order.
pub(super) fn treads(arrangement: &Arrangement, bay_from_vehicle: &PlanPose) -> Vec<Polygon> {
    tyres_up_to(arrangement, bay_from_vehicle, 0.0)
}

/// Where each tyre is at any height up to this over what it stands on, mm, in [`Wheel::ALL`]'s order: its tread, or the chord
/// of its circle at that height where that is longer.
pub(super) fn tyres_up_to(
    arrangement: &Arrangement,
    bay_from_vehicle: &PlanPose,
    height_mm: f64,
) -> Vec<Polygon> {
    let diameter = arrangement.vehicle.tyre_diameter_mm;
    let up = height_mm.min(diameter * 0.5);
    let chord = 2.0 * (up * (diameter - up)).max(0.0).sqrt();
    Wheel::ALL
        .into_iter()
        .filter_map(|wheel| {
            let at = arrangement.wheel_point(wheel);
            let half = DVec2::new(TREAD_MM.max(chord), arrangement.vehicle.tyre_width(wheel)) * 0.5;
            Some(Polygon::rectangle(at - half, at + half).ok()?.placed(bay_from_vehicle))
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use crate::check::testing::*;

    /// The front left tyre stands on y = 3670 to 3870 by its profile, under a body that ends at 3900; measured 90 mm further out
    /// it reaches to 3960.
    #[test]
    fn a_tyre_is_where_it_was_measured() {
        let mut arrangement = with(vec![cabinet("box", (4_000.0, 4_430.0), 200.0, 1_000.0)]);
        arrangement.aiming.working_room_mm = Some(0.0);
        none(&arrangement, Code::CarClash);
        let wheels = Wheel::ALL.map(|wheel| arrangement.vehicle.wheel_point(wheel));
        arrangement.on_this_car.wheels = Some(wheels);
        none(&arrangement, Code::CarClash);
        let mut off = wheels;
        off[0].y += 90.0;
        arrangement.on_this_car.wheels = Some(off);
        check(&arrangement, Code::CarClash, Severity::Stops, Some(30.0));
    }
}
