//! What of the room is in a camera's picture, for certain or as far as is known.

use baywright_geometry::{Circle, DVec2, DVec3, Outline, PlanPose, Polygon, Pose, Span, angle, convex};

use crate::check::ring::{area, clipped};
use crate::model::Sensor;

/// Less than this of a pane, mm², is no light.
const LEAST_MM2: f64 = 1.0;
/// The nearest that a flat picture begins ahead of the lens, mm: nearer there is the windscreen.
const NEAREST_MM: f64 = 1.0;
/// A wide picture is asked at so many places each way, each as wide as what it stands for: none in it is missed.
const PLACES: u32 = 24;

/// How far what is looked at may be from where it is drawn, seen from the camera.
#[derive(Clone, Copy, Debug)]
pub(super) struct Unsure {
    /// Any way, mm.
    pub mm: f64,
    /// About the camera, rad.
    pub rad: f64,
}

impl Unsure {
    /// Where it is drawn.
    pub const NOT: Self = Self { mm: 0.0, rad: 0.0 };
}

/// Whether an upright rectangle, by its corners in turn in the sensor frame, is in the picture, or may be.
pub(super) fn is_in_picture(sensor: &Sensor, corners: [DVec3; 4], unsure: Unsure) -> bool {
    if sensor.has_flat_picture() {
        in_flat(sensor, corners, unsure)
    } else {
        in_wide(sensor, corners, unsure)
    }
}

/// What is left of the pane within the planes through the lens and the picture's edges, each as much further out as is unsure.
fn in_flat(sensor: &Sensor, corners: [DVec3; 4], unsure: Unsure) -> bool {
    let across = libm::tan(sensor.view.azimuth_half_rad + unsure.rad);
    let upright = libm::tan(sensor.view.elevation_half_rad + unsure.rad);
    let (out, over) = (unsure.mm * libm::hypot(1.0, across), unsure.mm * libm::hypot(1.0, upright));
    let within: [&dyn Fn(DVec3) -> f64; 5] = [
        &|p| p.x - NEAREST_MM + unsure.mm,
        &|p| p.x * across - p.y + out,
        &|p| p.x * across + p.y + out,
        &|p| p.x * upright - p.z + over,
        &|p| p.x * upright + p.z + over,
    ];
    let left = within.iter().fold(corners.to_vec(), |ring, side| clipped(&ring, side));
    area(&left) > LEAST_MM2
}

/// By angles, as the field of view of a wide lens is given.
fn in_wide(sensor: &Sensor, corners: [DVec3; 4], unsure: Unsure) -> bool {
    let [from, to, _, up] = corners;
    let (along, up) = (to - from, up - from);
    let half_cell = 0.5 * libm::hypot(along.length(), up.length()) / f64::from(PLACES);
    let share = |i: u32| (f64::from(i) + 0.5) / f64::from(PLACES);
    let mut places = (0..PLACES).flat_map(|i| (0..PLACES).map(move |j| (i, j)));
    places.any(|(i, j)| {
        let p = from + along * share(i) + up * share(j);
        // The angle under which the farthest point of this place's share is seen from its middle.
        let wide = libm::atan2(half_cell + unsure.mm, p.length()) + unsure.rad;
        let azimuth = libm::atan2(p.y, p.x).abs();
        let elevation = libm::atan2(p.z, libm::hypot(p.x, p.y)).abs();
        azimuth <= sensor.view.azimuth_half_rad + wide && elevation <= sensor.view.elevation_half_rad + wide
    })
}

/// The space that a flat picture shows: four rays from the lens, as far as the room reaches. Bay frame, mm.
#[derive(Clone, Debug, PartialEq)]
pub struct Picture {
    eye: DVec3,
    /// The far ends of the picture's corners, in turn.
    far: [DVec3; 4],
}

impl Picture {
    /// What the picture shows up to so far ahead, mm; `None` if it is not flat.
    pub(super) fn of(sensor: &Sensor, bay_from_sensor: &Pose, far: f64) -> Option<Self> {
        let across = far * libm::tan(sensor.view.azimuth_half_rad);
        let upright = far * libm::tan(sensor.view.elevation_half_rad);
        let ends = [(1.0, 1.0), (1.0, -1.0), (-1.0, -1.0), (-1.0, 1.0)];
        let far = ends.map(|(y, z)| *bay_from_sensor * DVec3::new(far, y * across, z * upright));
        sensor.has_flat_picture().then(|| Self { eye: bay_from_sensor.origin(), far })
    }

    /// Its corners in plan.
    pub(crate) fn plan(&self) -> [DVec2; 5] {
        let [a, b, c, d] = self.far.map(DVec3::truncate);
        [self.eye.truncate(), a, b, c, d]
    }

    /// The region of the plan in which something of these heights is in it.
    pub(crate) fn at(&self, heights: &Span) -> Option<Polygon> {
        let [a, b, c, d] = self.far;
        let edges =
            [(self.eye, a), (self.eye, b), (self.eye, c), (self.eye, d), (a, b), (b, c), (c, d), (d, a)];
        let ends = std::iter::once(self.eye).chain(self.far);
        let between = ends.filter(|p| (heights.bottom()..=heights.top()).contains(&p.z));
        let crossing = edges.iter().flat_map(|&(from, to)| {
            [heights.bottom(), heights.top()].into_iter().filter_map(move |z| {
                let share = (z - from.z) / (to.z - from.z);
                (0.0..=1.0).contains(&share).then(|| from + (to - from) * share)
            })
        });
        convex::hull(&between.chain(crossing).map(DVec3::truncate).collect::<Vec<_>>())
    }
}

/// Where a wide picture looks in plan, up to so far, mm: by bearing alone, since what is above or below so wide a picture is
/// little.
pub(super) fn wide_plan(sensor: &Sensor, bay_from_sensor: &Pose, far: f64) -> Option<Outline> {
    let eye = bay_from_sensor.origin().truncate();
    let ahead = bay_from_sensor.turned(DVec3::X).truncate();
    let ahead = PlanPose::facing(eye, eye + ahead);
    let (half, up) = (sensor.view.azimuth_half_rad, sensor.view.elevation_half_rad);
    // The widest bearing of what is seen at the picture's edges, of a camera that looks down as well.
    let share = |i: u32| f64::from(i) / f64::from(PLACES) * 2.0 - 1.0;
    let sides =
        (0..=PLACES).flat_map(|i| [(half, up * share(i)), (half * share(i), up), (half * share(i), -up)]);
    let bearing = |(azimuth, elevation): (f64, f64)| {
        let (sine, cosine) = angle::sin_cos(elevation);
        let seen = bay_from_sensor.turned((angle::direction(azimuth) * cosine).extend(sine));
        let seen = ahead.inverse().turned(seen.truncate());
        libm::atan2(seen.y, seen.x).abs()
    };
    let widest = sides.map(bearing).fold(0.0, f64::max);
    let sees = |p: DVec3| {
        let own = bay_from_sensor.inverse().turned(p);
        libm::atan2(own.y, own.x).abs() <= half && libm::atan2(own.z, libm::hypot(own.x, own.y)).abs() <= up
    };
    const STEPS: u32 = 16;
    let step = widest * 2.0 / f64::from(STEPS);
    if sees(DVec3::Z) || sees(-DVec3::Z) || widest + step >= std::f64::consts::PI {
        return Circle::new(eye, far).ok().map(Outline::from);
    }
    let out = far / angle::sin_cos(step * 0.5).1;
    let rim = (0..=STEPS).map(|i| ahead * (angle::direction(step * f64::from(i) - widest) * out));
    Polygon::simple(std::iter::once(eye).chain(rim).collect()).ok().map(Outline::from)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::check::testing::*;

    /// A camera 1000 mm up with a picture of 60° by 40°: between 2 m and 3 m it looks from where its upper edge reaches 2 m,
    /// 1000 / tan 20° = 2747.5 mm ahead; there it is 2747.5 · tan 30° = 1586.3 mm to either side.
    #[test]
    fn a_region_at_heights() {
        let mut sensor = radar();
        sensor.kind = SensorKind::ForwardCamera(Camera { pixels_across: 1280, pixels_down: 960 });
        sensor.view.azimuth_half_rad = angle::radians(30.0);
        sensor.view.elevation_half_rad = angle::radians(20.0);
        let bay_from_sensor = Pose::looking(DVec3::new(0.0, 0.0, 1_000.0), 0.0, 0.0);
        let picture = Picture::of(&sensor, &bay_from_sensor, 10_000.0).unwrap();
        let bounds = picture.at(&span(2_000.0, 3_000.0)).unwrap().bounds();
        assert!(
            (bounds.low.x - 2_747.477).abs() < 0.01 && (bounds.high.x - 10_000.0).abs() < 1e-6,
            "{bounds:?}"
        );
        assert!((bounds.high.y - 5_773.503).abs() < 0.01, "{bounds:?}");
        // At the lens' own height from the lens on.
        assert_eq!(picture.at(&span(900.0, 1_100.0)).unwrap().bounds().low.x, 0.0);
        assert!(picture.at(&span(4_640.0, 5_000.0)).is_none());
    }

    /// 100° to either side: what lies straight behind is not in it, what lies straight aside is. One that also looks straight
    /// down looks everywhere.
    #[test]
    fn a_wide_picture_in_plan() {
        let mut sensor = radar();
        sensor.kind = SensorKind::SurroundCamera(Camera { pixels_across: 1280, pixels_down: 960 });
        sensor.view.azimuth_half_rad = angle::radians(100.0);
        sensor.view.elevation_half_rad = angle::radians(60.0);
        let holds = |sensor: &Sensor, down: f64, degrees: f64| {
            let pose = Pose::looking(DVec3::new(0.0, 0.0, 1_000.0), 0.0, -angle::radians(down));
            let outline = wide_plan(sensor, &pose, 10_000.0).unwrap();
            let at = angle::direction(angle::radians(degrees)) * 5_000.0;
            let spot = Polygon::rectangle(at - DVec2::ONE, at + DVec2::ONE).unwrap();
            baywright_geometry::overlaps(&outline, &spot.into())
        };
        for (degrees, is_in) in [(0.0, true), (99.0, true), (-99.0, true), (103.0, false), (180.0, false)] {
            assert_eq!(holds(&sensor, 0.0, degrees), is_in, "{degrees}");
        }
        assert!(holds(&sensor, 40.0, 180.0));
    }
}
