//! Where the sensor sees a target if something is out: car, stand and sensor in space, turned and moved as they are.
//!
//! Vehicle frame as it is meant (x ahead, y to the left, z up); mm and radians. What comes out is how far to the left and how far
//! up of where it belongs the target is seen, as the aiming's weights have it: by its place, by its squareness.

use baywright_geometry::{DVec2, DVec3, angle};

use super::Suspect;
use crate::model::{AimError, Arrangement, Placement, Wheel};
use crate::scene::{PlacedTarget, Scene};

/// All that is meant.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Sight {
    sensor: DVec3,
    target: DVec3,
    /// The way in which a sensor looks that meets the face squarely.
    squarely: DVec3,
    /// How high the face's middle is over the stand's floor.
    up_mm: f64,
    wheelbase_mm: f64,
    error: AimError,
}

impl Sight {
    pub fn of(
        arrangement: &Arrangement,
        scene: &Scene,
        placement: &Placement,
        target: &PlacedTarget,
    ) -> Self {
        let vehicle_from_bay = scene.bay_from_vehicle.inverse();
        let own = vehicle_from_bay * target.meant.place.origin();
        let facing = target.meant.place.heading() - scene.bay_from_vehicle.heading();
        let squarely = angle::direction(facing + std::f64::consts::PI);
        let front = middle(arrangement, [Wheel::FrontLeft, Wheel::FrontRight]);
        let rear = middle(arrangement, [Wheel::RearLeft, Wheel::RearRight]);
        Self {
            sensor: arrangement.on_this_car.sensor_at.unwrap_or(arrangement.sensor.at),
            target: own.extend(target.meant.height_mm - scene.carried_at_mm),
            squarely: squarely.extend(0.0),
            up_mm: target.meant.height_mm,
            wheelbase_mm: front.distance(rear).max(1.0),
            error: placement.target.error,
        }
    }

    /// Level, from above, mm.
    pub fn distance_mm(&self) -> f64 {
        (self.target - self.sensor).truncate().length()
    }

    /// The sensor from above, vehicle frame.
    pub const fn sensor(&self) -> DVec2 {
        DVec2::new(self.sensor.x, self.sensor.y)
    }

    /// What one unit of this makes of it: to the left and up, radians.
    pub fn per_unit(&self, of: Suspect) -> (f64, f64) {
        let step = if of.is_angle() { 1e-4 } else { 0.5 };
        let ((left, up), (right, down)) = (self.seen(of, step), self.seen(of, -step));
        ((left - right) / (2.0 * step), (up - down) / (2.0 * step))
    }

    /// Where it is seen if this alone is out, by so much.
    fn seen(&self, of: Suspect, by: f64) -> (f64, f64) {
        let only = |own: Suspect| if own == of { by } else { 0.0 };
        // The stand: aside as seen from the sensor, leaning about its foot.
        let away = (self.target - self.sensor).truncate().normalize_or(DVec2::X);
        let (lean_sin, lean_cos) = angle::sin_cos(only(Suspect::StandLeans));
        let (tip_sin, tip_cos) = angle::sin_cos(only(Suspect::StandTipped));
        let aside =
            away.perp() * (only(Suspect::StandAside) + self.up_mm * lean_sin) - away * (self.up_mm * tip_sin);
        let higher =
            only(Suspect::StandHeight) + only(Suspect::StandLevel) + self.up_mm * (lean_cos * tip_cos - 1.0);
        let target = self.target + aside.extend(higher);
        // A face that looks down is met squarely from below.
        let level = DVec2::from_angle(only(Suspect::StandTurned)).rotate(self.squarely.truncate());
        let squarely = (level * tip_cos).extend(tip_sin);
        // The car: moved aside at both axles, lifted at both.
        let (front, rear) = (only(Suspect::CarFront), only(Suspect::CarRear));
        let (front_up, rear_up) = (only(Suspect::FrontLevel), only(Suspect::RearLevel));
        let turned = libm::atan((front - rear) / self.wheelbase_mm);
        let nose_down = libm::asin(((rear_up - front_up) / self.wheelbase_mm).clamp(-1.0, 1.0));
        let in_car = |way: DVec3| {
            let flat = DVec2::from_angle(-turned).rotate(way.truncate());
            let (sin, cos) = angle::sin_cos(nose_down);
            DVec3::new(flat.x * cos - way.z * sin, flat.y, flat.x * sin + way.z * cos)
        };
        let meant = self.target - self.sensor;
        let place = in_car(target - DVec3::new(0.0, front, front_up)) - self.sensor;
        // What far away stood still is seen elsewhere too: the car itself is turned.
        let still = apart(in_car(meant), meant);
        let by_place = apart(place, meant);
        let by_turn = apart(in_car(squarely), self.squarely);
        let still_square = apart(in_car(self.squarely), self.squarely);
        let AimError { by_place: of_place, by_squareness: of_turn } = self.error;
        let sum = |still: f64, place: f64, turn: f64, still_square: f64| {
            still + of_place * (place - still) + of_turn * (turn - still_square)
        };
        let left = sum(still.0, by_place.0, by_turn.0, still_square.0);
        let up = sum(still.1, by_place.1, by_turn.1, still_square.1);
        (left - only(Suspect::Thrust) - only(Suspect::BracketTurned), up - only(Suspect::BracketTilted))
    }
}

/// The middle between two wheels' points.
fn middle(arrangement: &Arrangement, [one, other]: [Wheel; 2]) -> DVec2 {
    (arrangement.wheel_point(one) + arrangement.wheel_point(other)) * 0.5
}

/// How far to the left and up one direction is of another.
fn apart(way: DVec3, of: DVec3) -> (f64, f64) {
    let turn = |way: DVec3| (angle::heading(way.truncate()), libm::atan2(way.z, way.truncate().length()));
    let ((left, up), (meant_left, meant_up)) = (turn(way), turn(of));
    (angle::wrapped(left - meant_left), up - meant_up)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::check::testing::clear;
    use crate::model::AimError;

    /// By hand, with similar triangles: front axle at 0, wheelbase as the car has it, sensor 800 ahead and 500 up, target 4 000
    /// further at its height.
    #[test]
    fn what_each_makes_of_the_aim_is_what_triangles_say() {
        let mut arrangement = clear();
        let base = arrangement.vehicle.wheelbase_mm;
        let far = 4_000.0;
        for error in [AimError::PLACE, AimError::SQUARENESS] {
            arrangement.aiming.placements[0].target.error = error;
            let scene = Scene::of(&arrangement);
            let sight = Sight::of(&arrangement, &scene, &arrangement.aiming.placements[0], &scene.targets[0]);
            let (place, turn) = (error.by_place, error.by_squareness);
            for (of, left, up) in [
                (Suspect::StandAside, place / far, 0.0),
                (Suspect::StandHeight, 0.0, place / far),
                (Suspect::StandLevel, 0.0, place / far),
                (Suspect::StandTurned, turn, 0.0),
                (Suspect::StandTipped, 0.0, turn),
                (Suspect::StandLeans, place * 500.0 / far, 0.0),
                (Suspect::Thrust, -1.0, 0.0),
                (Suspect::BracketTurned, -1.0, 0.0),
                (Suspect::BracketTilted, 0.0, -1.0),
                // The sensor itself goes along with the car: aside by 1 + 800 / base, and the car is turned by 1 / base.
                (Suspect::CarFront, -1.0 / base - place * (1.0 + 800.0 / base) / far, 0.0),
                (Suspect::CarRear, 1.0 / base + place * 800.0 / base / far, 0.0),
                (Suspect::FrontLevel, 0.0, -1.0 / base - place * (1.0 + 800.0 / base) / far),
                (Suspect::RearLevel, 0.0, 1.0 / base + place * 800.0 / base / far),
            ] {
                let found = sight.per_unit(of);
                let near =
                    |found: f64, expected: f64| (found - expected).abs() < 2e-3 * expected.abs() + 1e-9;
                assert!(near(found.0, left) && near(found.1, up), "{of:?}: {found:?}, not {left} {up}");
            }
        }
    }
}
