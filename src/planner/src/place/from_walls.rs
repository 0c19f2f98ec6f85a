//! Where a place is, as a person finds it with a tape: which wall the nose looks to, and how far the front left tyre is from two
//! walls.

use baywright_geometry::{DVec2, PlanPose};

use crate::model::{Bay, Id, Vehicle, Wheel};

/// Two walls that meet at less than this, as the sine of the angle, place nothing.
const LEAST_SINE: f64 = 0.5;

/// A place from the walls.
#[derive(Clone, Debug, PartialEq)]
pub struct FromWalls {
    /// The wall that the car looks to.
    pub nose_to: Id,
    /// Which tyre's middle, on the floor, is taped.
    pub wheel: Wheel,
    /// Two walls that are not parallel, and how far the tyre's middle is from each, square to it, mm; the nearer first.
    pub taped: [(Id, f64); 2],
}

/// Where a car that stands at a pose (bay from vehicle) is from the walls of its room; `None` where no two of them place it.
///
/// Walls are taken where a square line from the tyre meets them; where no such are there, as they run on.
pub fn from_walls(bay: &Bay, vehicle: &Vehicle, pose: PlanPose) -> Option<FromWalls> {
    let wheel = Wheel::FrontLeft;
    let at = pose * vehicle.wheel_point(wheel);
    let edges: Vec<_> = bay.room.edges().zip(&bay.walls).collect();
    // Whether a square line misses it, how far it is, how it runs, its name.
    let mut walls: Vec<(bool, f64, DVec2, &Id)> = Vec::new();
    let mut nose_to: Option<(f64, &Id)> = None;
    for (edge, wall) in &edges {
        let along = (edge.to - edge.from).normalize_or_zero();
        let apart = along.perp_dot(at - edge.from);
        let share = along.dot(at - edge.from);
        walls.push((!(0.0..=edge.length()).contains(&share), apart.abs(), along, &wall.id));
        // How far ahead the car's own line meets this wall.
        let (from, ahead) = (pose.origin(), pose.forward());
        let across = ahead.perp_dot(edge.to - edge.from);
        if across.abs() > 1e-9 {
            let far = (edge.from - from).perp_dot(edge.to - edge.from) / across;
            let on = (edge.from - from).perp_dot(ahead) / across;
            if far >= 0.0 && (0.0..=1.0).contains(&on) && nose_to.is_none_or(|own| far < own.0) {
                nose_to = Some((far, &wall.id));
            }
        }
    }
    walls.sort_by(|a, b| (a.0, a.1).partial_cmp(&(b.0, b.1)).unwrap_or(std::cmp::Ordering::Equal));
    let first = walls.first()?;
    let second = walls.iter().find(|own| own.2.perp_dot(first.2).abs() >= LEAST_SINE)?;
    let taped = |own: &(bool, f64, DVec2, &Id)| (own.3.clone(), own.1);
    Some(FromWalls { nose_to: nose_to?.1.clone(), wheel, taped: [taped(first), taped(second)] })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::check::testing::*;

    #[test]
    fn a_tyre_is_told_from_two_walls_and_the_nose_from_the_one_ahead() {
        let (bay, car) = (bay(), vehicle());
        // The bay is 12 000 by 6000; the left front tyre is 770 to the left.
        let own = from_walls(&bay, &car, PlanPose::new(DVec2::new(4_000.0, 2_000.0), 0.0)).unwrap();
        assert_eq!(own.nose_to.as_str(), "far wall");
        let [(first, near), (second, far)] = own.taped;
        assert_eq!((first.as_str(), near), ("right wall", 2_770.0));
        assert_eq!((second.as_str(), far), ("near wall", 4_000.0));
        let back = from_walls(&bay, &car, PlanPose::new(DVec2::new(4_000.0, 2_000.0), std::f64::consts::PI));
        assert_eq!(back.unwrap().nose_to.as_str(), "near wall");
    }
}
