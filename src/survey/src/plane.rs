//! A plane through some points by least squares, and how a car on four wheel points stands.
//!
//! The plane is the one whose squared vertical distances from the points add up to the least; through three points it
//! is exact. For angles of a floor (a degree at most) vertical and perpendicular distances are one.

use baywright_geometry::{DVec2, DVec3};

/// Points nearer to one line than this share of their extent make no plane.
const FLAT_SHARE: f64 = 1e-9;

/// A plane that is not upright: its level at a place, and its slope.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Plane {
    /// The middle of the points that it was laid through.
    pub middle: DVec2,
    /// Its level there, mm.
    pub level_mm: f64,
    /// How much it rises along x and along y.
    pub slope: DVec2,
}

impl Plane {
    /// The plane through three or more points, z up; `None` if they lie on one line, are fewer, or are not finite.
    ///
    /// ```
    /// use baywright_survey::Plane;
    /// let points = [(0.0, 0.0, 1.0), (1000.0, 0.0, 3.0), (0.0, 1000.0, 1.0)];
    /// let plane = Plane::through(&points.map(|(x, y, z)| [x, y, z].into())).unwrap();
    /// assert!((plane.at((500.0, 800.0).into()) - 2.0).abs() < 1e-9);
    /// ```
    pub fn through(points: &[DVec3]) -> Option<Self> {
        if points.len() < 3 || points.iter().any(|point| !point.is_finite()) {
            return None;
        }
        let count = points.len() as f64;
        // Divided before they are added, so that no sum is beyond what a number can hold.
        let middle = points.iter().fold(DVec3::ZERO, |sum, point| sum + *point / count);
        let extent = points.iter().map(|p| (*p - middle).truncate().abs().max_element()).fold(0.0, f64::max);
        if !(extent > 0.0 && extent.is_finite()) {
            return None;
        }
        let [mut xx, mut xy, mut yy, mut xz, mut yz] = [0.0; 5];
        for point in points {
            let (flat, z) = ((*point - middle).truncate() / extent, point.z - middle.z);
            (xx, xy, yy) = (xx + flat.x * flat.x, xy + flat.x * flat.y, yy + flat.y * flat.y);
            (xz, yz) = (xz + flat.x * z, yz + flat.y * z);
        }
        let determinant = xx * yy - xy * xy;
        if determinant <= FLAT_SHARE * FLAT_SHARE * (xx + yy) * (xx + yy) {
            return None;
        }
        let slope = DVec2::new(xz * yy - yz * xy, yz * xx - xz * xy) / determinant / extent;
        slope.is_finite().then_some(Self { middle: middle.truncate(), level_mm: middle.z, slope })
    }

    /// Its level at a place, mm.
    pub fn at(&self, place: DVec2) -> f64 {
        self.level_mm + self.slope.dot(place - self.middle)
    }
}

/// How a car on four wheel points stands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stance {
    /// The plane of its wheels.
    pub plane: Plane,
    /// Positive nose down.
    pub pitch_rad: f64,
    /// Positive left side up.
    pub roll_rad: f64,
    /// Highest less lowest of the four about the plane, mm.
    pub spread_mm: f64,
    /// Roll of the front axle less that of the rear one.
    pub twist_rad: f64,
}

/// How a car stands: its wheel points front left, front right, rear left, rear right with their levels, and the
/// direction in which its nose points (of length 1). `None` if the points make no plane.
pub fn stance(wheels: &[DVec3; 4], ahead: DVec2) -> Option<Stance> {
    let plane = Plane::through(wheels)?;
    let off = wheels.map(|wheel| wheel.z - plane.at(wheel.truncate()));
    let (low, high) = off.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), o| (l.min(*o), h.max(*o)));
    let [front_left, front_right, rear_left, rear_right] = *wheels;
    let roll = |left: DVec3, right: DVec3| libm::atan2(left.z - right.z, (left - right).truncate().length());
    Some(Stance {
        plane,
        pitch_rad: -libm::atan(plane.slope.dot(ahead)),
        roll_rad: libm::atan(plane.slope.dot(ahead.perp())),
        spread_mm: high - low,
        twist_rad: roll(front_left, front_right) - roll(rear_left, rear_right),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use baywright_geometry::angle;
    use proptest::prelude::*;

    fn wheels(levels: [f64; 4]) -> [DVec3; 4] {
        let [a, b, c, d] = levels;
        [(0., 750., a), (0., -750., b), (-2500., 750., c), (-2500., -750., d)].map(DVec3::from)
    }

    /// By hand: the front axle 5 mm lower over a wheelbase of 2500 is atan(0.002) nose down; the left side 3 mm higher
    /// over a track of 1500 is atan(0.002) left side up.
    #[test]
    fn nose_down_and_left_side_up_are_positive() {
        let stands = |levels| stance(&wheels(levels), DVec2::X).unwrap();
        let down = stands([-5.0, -5.0, 0.0, 0.0]);
        assert!((down.pitch_rad - libm::atan(0.002)).abs() < 1e-12 && down.roll_rad.abs() < 1e-12);
        let up = stands([3.0, 0.0, 3.0, 0.0]);
        assert!((up.roll_rad - libm::atan(0.002)).abs() < 1e-12 && up.pitch_rad.abs() < 1e-12);
        assert!(up.spread_mm < 1e-9 && up.twist_rad.abs() < 1e-12);
    }

    /// Four points of a rectangle, one lifted by 4 mm: the plane takes 3 of them, each is 1 mm off, by turns up and down.
    #[test]
    fn one_wheel_lifted_twists_the_car() {
        let twisted = stance(&wheels([4.0, 0.0, 0.0, 0.0]), DVec2::X).unwrap();
        assert!((twisted.spread_mm - 2.0).abs() < 1e-9);
        assert!((twisted.twist_rad - libm::atan(4.0 / 1500.0)).abs() < 1e-12);
    }

    #[test]
    fn points_on_a_line_make_no_plane() {
        let on_line = |n: u32| {
            let along = |i: u32| DVec3::new(f64::from(i) * 300.0, f64::from(i) * 100.0, 1.0);
            (0..n).map(along).collect::<Vec<_>>()
        };
        assert_eq!(Plane::through(&on_line(9)), None);
        assert_eq!(Plane::through(&on_line(2)), None);
        assert_eq!(Plane::through(&[DVec3::ZERO; 4]), None);
        assert_eq!(Plane::through(&[DVec3::NAN, DVec3::ZERO, DVec3::X]), None);
    }

    proptest! {
        /// Whatever way the car looks and wherever the bay's zero is: three points exactly, and the same stance.
        #[test]
        fn a_turned_and_raised_car_stands_the_same(
            levels in prop::array::uniform4(-50.0..50.0f64), turned in -3.0..3.0f64,
            by in (-1e5..1e5f64, -1e5..1e5f64, -1e3..1e3f64),
        ) {
            let here = stance(&wheels(levels), DVec2::X).unwrap();
            let by = DVec3::from(by);
            let ahead = angle::direction(turned);
            let there = wheels(levels).map(|w| ahead.rotate(w.truncate()).extend(w.z) + by);
            let there = stance(&there, ahead).unwrap();
            for (a, b) in [
                (here.pitch_rad, there.pitch_rad), (here.roll_rad, there.roll_rad), (here.twist_rad, there.twist_rad),
                (here.spread_mm, there.spread_mm),
            ] {
                prop_assert!((a - b).abs() < 1e-9, "{a} {b}");
            }
            let three = &wheels(levels)[..3];
            let plane = Plane::through(three).unwrap();
            for point in three {
                prop_assert!((plane.at(point.truncate()) - point.z).abs() < 1e-9);
            }
        }

        /// No plane near it fits better.
        #[test]
        fn none_fits_better(
            points in prop::collection::vec((-9e3..9e3f64, -9e3..9e3f64, -30.0..30.0f64), 4..20),
            other in (-1.0..1.0f64, -1e-4..1e-4f64, -1e-4..1e-4f64),
        ) {
            let points: Vec<DVec3> = points.into_iter().map(DVec3::from).collect();
            let Some(plane) = Plane::through(&points) else { return Ok(()) };
            let off = |plane: &Plane| points.iter().map(|p| (p.z - plane.at(p.truncate())).powi(2)).sum::<f64>();
            let other = Plane {
                level_mm: plane.level_mm + other.0, slope: plane.slope + DVec2::new(other.1, other.2), ..plane
            };
            prop_assert!(off(&plane) <= off(&other) * (1.0 + 1e-9) + 1e-9);
        }

        #[test]
        fn nothing_is_too_awkward(points in prop::collection::vec(prop::array::uniform3(prop::num::f64::ANY), 0..6)) {
            let points: Vec<DVec3> = points.into_iter().map(DVec3::from).collect();
            if let Some(plane) = Plane::through(&points) {
                prop_assert!(plane.slope.is_finite());
            }
        }
    }
}
