//! Directions as a sensor has them, on paper: degrees to the right of its axis and above it. A straight edge is a bent line there, so
//! it is drawn in short pieces; what lies beside the picture or behind the sensor is cut off in space, before it is looked at.

use baywright_planner::geometry::{DVec2, DVec3, angle};

/// The longest piece of an edge, radians: the chord of such an arc is within 0.02° of it.
const PIECE: f64 = 1.5 * std::f64::consts::PI / 180.0;
/// Nearer to the sensor's own plane than this nothing is drawn, mm: its direction is that of its housing.
const NEAREST_MM: f64 = 1.0;
/// So far beyond the picture's edge things are cut, degrees: what runs along the cut is out of sight.
const BEYOND: f64 = 3.0;

/// Where a place of the sensor's own frame (mm, or a direction of any length) is seen: degrees to the right of its axis, and above it.
pub(crate) fn pictured(own: DVec3) -> DVec2 {
    let azimuth = libm::atan2(own.y, own.x);
    let elevation = libm::atan2(own.z, own.truncate().length());
    DVec2::new(-angle::degrees(azimuth), angle::degrees(elevation))
}

/// A line through places of the sensor's own frame, as it is seen.
pub(crate) fn arc(points: &[DVec3]) -> Vec<DVec2> {
    let mut seen: Vec<DVec2> = points.first().map(|&p| pictured(p)).into_iter().collect();
    for pair in points.windows(2) {
        let [from, to] =
            [pair.first(), pair.last()].map(|p| p.map_or(DVec3::X, |p| p.normalize_or(DVec3::X)));
        // All places of a straight line lie on the great circle through its ends.
        let pieces = (from.angle_between(to) / PIECE).ceil().clamp(1.0, 256.0);
        seen.extend((1..=pieces as u32).map(|i| pictured(from.lerp(to, f64::from(i) / pieces))));
    }
    seen
}

/// The same of a ring.
pub(crate) fn ring(points: &[DVec3]) -> Vec<DVec2> {
    let closed: Vec<DVec3> = points.iter().chain(points.first()).copied().collect();
    let mut seen = arc(&closed);
    seen.pop();
    seen
}

/// What of space can be in a picture.
pub(crate) struct Frame {
    /// So much is shown to either side and up and down, degrees.
    pub half: DVec2,
    /// Of each plane its normal, and from where along it on space is in sight.
    planes: [(DVec3, f64); 5],
}

impl Frame {
    /// Of a picture that shows so much to either side (less than 85 degrees) and up and down.
    pub fn new(half: DVec2) -> Self {
        let [across, up] = [half.x + BEYOND, half.y + BEYOND].map(|own| angle::radians(own.min(88.0)));
        let (sin, cos) = angle::sin_cos(across);
        // The cone of one elevation lies within this plane as far as the picture goes to the sides.
        let steep = libm::tan(up) / cos;
        let planes = [
            (DVec3::X, NEAREST_MM),
            (DVec3::new(sin, -cos, 0.0), 0.0),
            (DVec3::new(sin, cos, 0.0), 0.0),
            (DVec3::new(steep, 0.0, -1.0), 0.0),
            (DVec3::new(steep, 0.0, 1.0), 0.0),
        ];
        Self { half, planes }
    }

    /// What of a flat ring can be seen. A ring that is not convex may keep edges along the cut, which lie beside the picture.
    pub fn cut(&self, ring: Vec<DVec3>) -> Vec<DVec3> {
        self.planes.iter().fold(ring, |ring, (normal, from)| {
            let depth = |p: DVec3| p.dot(*normal) - from;
            let mut kept = Vec::with_capacity(ring.len() + 2);
            for (&a, &b) in ring.iter().zip(ring.iter().cycle().skip(1)) {
                let (da, db) = (depth(a), depth(b));
                if da >= 0.0 {
                    kept.push(a);
                }
                if (da >= 0.0) != (db >= 0.0) {
                    kept.push(a.lerp(b, da / (da - db)));
                }
            }
            kept
        })
    }

    /// What of a straight line can be seen.
    pub fn cut_line(&self, from: DVec3, to: DVec3) -> Option<[DVec3; 2]> {
        let (mut enter, mut leave) = (0.0_f64, 1.0_f64);
        for (normal, least) in &self.planes {
            let (a, b) = (from.dot(*normal) - least, to.dot(*normal) - least);
            match (a >= 0.0, b >= 0.0) {
                (true, true) => {}
                (false, false) => return None,
                (false, true) => enter = enter.max(a / (a - b)),
                (true, false) => leave = leave.min(a / (a - b)),
            }
        }
        (enter < leave).then(|| [from.lerp(to, enter), from.lerp(to, leave)])
    }

    /// Whether a place of the picture is in it, degrees.
    pub fn shows(&self, at: DVec2) -> bool {
        at.abs().cmple(self.half).all()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use baywright_planner::geometry::Pose;
    use proptest::prelude::*;

    /// Plane trigonometry by hand: a metre ahead, `tan 45° = 1`; to the left is left, which is where x grows down to.
    #[test]
    fn left_is_left_and_up_is_up() {
        let at = |x: f64, y: f64, z: f64| pictured(DVec3::new(x, y, z));
        assert!(at(1000.0, 0.0, 0.0).length() < 1e-12, "straight ahead is the middle");
        assert!(at(1000.0, 1000.0, 0.0).distance(DVec2::new(-45.0, 0.0)) < 1e-12);
        assert!(at(1000.0, 0.0, 1000.0).distance(DVec2::new(0.0, 45.0)) < 1e-12);
        // atan(500 / (2 · 1000 · √2)) of what lies 45° to the right.
        let aside = at(1000.0, -1000.0, -500.0);
        assert!(aside.distance(DVec2::new(45.0, -19.471_220_634_490_69)) < 1e-12, "{aside}");
    }

    proptest! {
        /// A place so far away in a direction of a turned sensor's own, put into the room by the sensor's pose and taken back, is seen in
        /// that direction.
        #[test]
        fn a_direction_there_and_back(
            heading in -3.1_f64..3.1, pitch in -0.6_f64..0.6, roll in -0.6_f64..0.6,
            azimuth in -1.4_f64..1.4, elevation in -1.4_f64..1.4, far in 10.0_f64..20_000.0,
            x in -9e3_f64..9e3, y in -9e3_f64..9e3, z in 0.0_f64..2e3,
        ) {
            let bay_from_sensor = Pose::new(DVec3::new(x, y, z), heading, pitch, roll);
            // Spherical coordinates by hand.
            let own = DVec3::new(
                elevation.cos() * azimuth.cos(),
                elevation.cos() * azimuth.sin(),
                elevation.sin(),
            ) * far;
            let seen = pictured(bay_from_sensor.inverse() * (bay_from_sensor * own));
            let wanted = DVec2::new(-azimuth.to_degrees(), elevation.to_degrees());
            prop_assert!(seen.distance(wanted) < 1e-6, "{seen} {wanted}");
        }

        /// Every place of a straight line lies on its bent one, within what a chord of 1.5° leaves; what is cut off is out of the
        /// picture, and what is in the picture is not cut off.
        #[test]
        fn a_straight_edge_is_bent_and_cut(
            from in prop::array::uniform3(-5e3_f64..5e3), to in prop::array::uniform3(-5e3_f64..5e3),
            across in 25.0_f64..80.0, up in 20.0_f64..60.0, share in 0.0_f64..1.0,
        ) {
            let frame = Frame::new(DVec2::new(across, up));
            let (from, to) = (DVec3::from(from), DVec3::from(to));
            let at = from.lerp(to, share);
            let seen = pictured(at);
            let is_shown = at.x > 2.0 && frame.shows(seen);
            match frame.cut_line(from, to) {
                None => prop_assert!(!is_shown),
                Some(cut) => {
                    let line = arc(&cut);
                    prop_assert!(line.iter().all(|p| p.is_finite()));
                    if is_shown {
                        let off = line.windows(2).map(|pair| {
                            baywright_planner::geometry::Segment::new(pair[0], pair[1]).distance_to(seen)
                        });
                        let off = off.fold(f64::INFINITY, f64::min);
                        prop_assert!(off < 0.3, "{off}");
                    }
                }
            }
        }
    }
}
