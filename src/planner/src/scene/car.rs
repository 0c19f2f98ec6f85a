//! The car in the bay: what carries it, which way its reference axis points, what it fills.

use baywright_geometry::{Bounds, DVec2, PlanPose, Prism, angle};

use crate::model::{Arrangement, ReferenceAxis};

/// Height of the plane that carries the wheels: the highest of the runways it stands on, or the floor.
pub(super) fn carried_at(arrangement: &Arrangement) -> f64 {
    arrangement
        .bay
        .runways
        .iter()
        .filter(|runway| arrangement.on_runways.contains(&runway.id))
        .map(|runway| runway.top)
        .fold(0.0, f64::max)
}

/// Vehicle from reference axis. The geometric centreline is the vehicle's own x axis. The thrust line passes the middle
/// of the rear axle with heading (rear right toe - rear left toe) / 2; without an alignment sheet the centreline
/// stands in, and a check says so.
pub(super) fn reference_axis(arrangement: &Arrangement) -> PlanPose {
    match (arrangement.aiming.axis, arrangement.on_this_car.rear_toe) {
        (ReferenceAxis::ThrustLine, Some((left, right))) => {
            let thrust = (right - left) * 0.5;
            let rear = DVec2::new(-arrangement.vehicle.wheelbase, 0.0);
            PlanPose::new(rear + angle::direction(thrust) * arrangement.vehicle.wheelbase, thrust)
        }
        _ => PlanPose::IDENTITY,
    }
}

/// The solids that the car fills, and the box around them.
pub(super) fn solids(
    arrangement: &Arrangement,
    bay_from_vehicle: &PlanPose,
    carried_at: f64,
) -> (Vec<Prism>, Bounds) {
    let solids: Vec<Prism> = arrangement
        .vehicle
        .body
        .iter()
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

#[cfg(test)]
mod tests {
    use super::*;

    /// references.md §8: thrust heading (right - left) / 2, and its offset at 2700 and 5000 mm.
    #[test]
    fn thrust_line_offsets() {
        for (left, right, degrees, at_2700, at_5000) in [
            (0.1, 0.1, 0.0, 0.0, 0.0),
            (0.2, 0.0, -0.1, -4.71239, -8.72666),
            (0.0, 0.2, 0.1, 4.71239, 8.72666),
            (-0.05, 0.15, 0.1, 4.71239, 8.72666),
            (0.3, -0.1, -0.2, -9.42482, -17.45336),
        ] {
            let thrust = (angle::radians(right) - angle::radians(left)) * 0.5;
            assert!((angle::degrees(thrust) - degrees).abs() < 1e-12);
            for (distance, offset) in [(2700.0, at_2700), (5000.0, at_5000)] {
                let (sin, cos) = angle::sin_cos(thrust);
                assert!((distance * sin / cos - offset).abs() < 1e-5);
            }
        }
    }
}
