//! Which distances between floor marks rest on figures that nobody entered: found by trying, so that it is true of every way in
//! which a mark is found.

use crate::model::assumed::{AimingPart, Assumed, BodyPart, SensorPart};
use crate::model::{Arrangement, Vehicle};
use crate::scene::{Reading, Scene};
use baywright_geometry::marks::Construction;

/// By so much a figure is tried otherwise, mm: no track or wheelbase stops making sense by it.
const TRIED_MM: f64 = 20.0;
/// A distance that changes by less does not rest on it, mm.
const SAME_MM: f64 = 1e-3;

/// The assumed figures that each of a scene's readings rests on, in the readings' order; empty where all was entered.
pub fn readings_rest_on(arrangement: &Arrangement, readings: &[Reading]) -> Vec<Vec<Assumed>> {
    let mut rests = vec![Vec::new(); readings.len()];
    for figure in &arrangement.vehicle.assumed {
        let Some(other) = tried(arrangement, figure) else { continue };
        let now = Scene::of(&other).readings;
        for (own, rests) in readings.iter().zip(&mut rests) {
            let same = now.iter().find(|other| (&other.from, &other.to) == (&own.from, &own.to));
            // A distance that could not be taped then rests on it too.
            if same.is_none_or(|other| (other.distance_mm - own.distance_mm).abs() > SAME_MM) {
                rests.push(figure.clone());
            }
        }
    }
    rests
}

/// The same set-up with another value of a figure; `None` of a figure that moves no mark.
fn tried(arrangement: &Arrangement, figure: &Assumed) -> Option<Arrangement> {
    let mut other = arrangement.clone();
    let length: &mut f64 = match figure {
        Assumed::Body(part) => of_body(&mut other.vehicle, *part)?,
        Assumed::Sensor(id, SensorPart::Ahead) if *id == arrangement.sensor.id => &mut other.sensor.at.x,
        Assumed::Sensor(id, SensorPart::Aside) if *id == arrangement.sensor.id => &mut other.sensor.at.y,
        Assumed::Aiming(id, AimingPart::StandOff) if *id == arrangement.aiming.id => {
            for placement in &mut other.aiming.placements {
                placement.stand_off.distance_mm += TRIED_MM;
            }
            return Some(other);
        }
        Assumed::Aiming(id, AimingPart::MarkPlan) if *id == arrangement.aiming.id => {
            for step in &mut other.aiming.mark_plan {
                if let Construction::Outboard { distance, .. } = &mut step.construction {
                    *distance += TRIED_MM;
                }
            }
            return Some(other);
        }
        Assumed::Sensor(..) | Assumed::Aiming(..) | Assumed::Zone(..) => return None,
    };
    *length += TRIED_MM;
    Some(other)
}

const fn of_body(car: &mut Vehicle, part: BodyPart) -> Option<&mut f64> {
    Some(match part {
        BodyPart::Wheelbase => &mut car.wheelbase_mm,
        BodyPart::OverhangFront => &mut car.overhang_front_mm,
        BodyPart::OverhangRear => &mut car.overhang_rear_mm,
        BodyPart::TrackFront => &mut car.track_front_mm,
        BodyPart::TrackRear => &mut car.track_rear_mm,
        BodyPart::TyreWidth => &mut car.tyre_width_mm,
        BodyPart::Length
        | BodyPart::Width
        | BodyPart::Height
        | BodyPart::TyreDiameter
        | BodyPart::GroundClearance
        | BodyPart::Mirrors
        | BodyPart::OutlineTop
        | BodyPart::OutlineSide => return None,
    })
}

#[cfg(test)]
mod tests {
    use baywright_geometry::marks::Reach;

    use super::*;
    use crate::check::testing;

    #[test]
    fn a_distance_across_rests_on_the_track_and_none_on_what_was_entered() {
        let mut arrangement = testing::clear();
        let readings = Scene::of(&arrangement).readings;
        assert!(!readings.is_empty());
        assert!(readings_rest_on(&arrangement, &readings).iter().all(Vec::is_empty));
        arrangement.vehicle.leave_open(BodyPart::TrackFront);
        arrangement.vehicle.leave_open(BodyPart::Height);
        let rests = readings_rest_on(&arrangement, &readings);
        assert!(rests.iter().flatten().all(|own| *own == BodyPart::TrackFront.into()));
        assert!(rests.iter().any(|own| !own.is_empty()), "{readings:?}");
        // Of wheels that were measured on this car the track says nothing.
        let wheels = crate::model::Wheel::ALL.map(|wheel| arrangement.vehicle.wheel_point(wheel));
        arrangement.on_this_car.wheels = Some(wheels);
        let readings = Scene::of(&arrangement).readings;
        assert!(readings_rest_on(&arrangement, &readings).iter().all(Vec::is_empty));
    }

    /// The mark abreast of a second target rests on the stand-off too, which is one figure of the aiming.
    #[test]
    fn a_mark_of_the_second_target_rests_on_the_stand_off() {
        let mut arrangement = testing::clear();
        let mut second = arrangement.aiming.placements[0].clone();
        second.id = "second".into();
        arrangement.aiming.placements.push(second);
        arrangement.stands.push(crate::model::StandSet::OnMark);
        for step in &mut arrangement.aiming.mark_plan {
            if let Construction::Prolong { reach, .. } = &mut step.construction {
                *reach = Reach::AbreastOf(1);
            }
        }
        let figure = AimingPart::StandOff.of(&arrangement.aiming.id);
        arrangement.vehicle.leave_open(figure.clone());
        let readings = Scene::of(&arrangement).readings;
        let rests = readings_rest_on(&arrangement, &readings);
        assert!(rests.iter().any(|own| own.contains(&figure)), "{readings:?}");
    }
}
