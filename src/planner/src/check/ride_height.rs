//! How the body hangs over its wheels, as the four arches were taped.
//!
//! Rule: each arch is as high over its wheel as the profile has it, and the body leans no more than the aiming lets the car lean.
//! Where the maker says how far an arch may be off, one that is further off stops the aiming, and one that nobody taped needs care;
//! where only the height itself is given, what is further off than [`OFF_MM`] needs care. A body that leans more than the aiming
//! allows of what carries the car needs care: its sensors lean with it.
//! Limit: the profile's, else common practice; of the lean the aiming's.

use baywright_geometry::angle;

use super::finding::{Basis, Code, Facts, Finding, Quantity, Severity, Subject};
use super::{Check, Context, finding};
use crate::as_measured::{arches_off_mm, hangs};
use crate::model::Wheel;

/// So far an arch may be off where its maker names no limit: 15 mm, more than load, fuel and worn springs make of a sound car as a
/// rule (common practice, no source).
const OFF_MM: f64 = 15.0;
/// A hair over a limit: what was entered as the limit itself is within it.
const HAIR_MM: f64 = 1e-6;

/// What of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum RideFact {
    /// An arch that the maker limits was not taped.
    NotTaped(Wheel),
    /// An arch is so much too high, mm; negative: too low.
    Arch(Wheel, f64),
    /// The body is so much nose down more than it is meant to, radians; negative: nose up.
    NoseDown(f64),
    /// Its left side is up so much, radians; negative: its right side.
    LeftUp(f64),
}

pub(super) const CHECK: Check = Check { codes: &[Code::RideHeight], whole, ..Check::NONE };

fn whole(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let arrangement = context.arrangement;
    if arrangement.vehicle.ride_heights.is_none() {
        return;
    }
    let own = arrangement.vehicle.ride_height_off_mm;
    let (limit, severity, basis) = match own {
        Some(own) => (own, Severity::Stops, Basis::Procedure(arrangement.vehicle.provenance.clone())),
        None => (OFF_MM, Severity::Care, Basis::CommonPractice),
    };
    let at = |wheel: Wheel| (context.scene.bay_from_vehicle * arrangement.wheel_point(wheel)).extend(0.0);
    let told = |facts, severity, at, basis| {
        finding(Facts::RideHeight(facts), severity, vec![Subject::Car], at, basis)
    };
    let off = arches_off_mm(arrangement);
    for (wheel, off) in Wheel::ALL.into_iter().zip(off) {
        match off {
            Some(off) if off.abs() > limit + HAIR_MM => findings.push(
                told(RideFact::Arch(wheel, off), severity, at(wheel), basis.clone())
                    .against(Quantity::Length(off.abs()), Quantity::Length(limit)),
            ),
            _ => {}
        }
    }
    // One that is missing is enough to say: its row leads to the others.
    let missing = Wheel::ALL.into_iter().zip(off).find(|(_, off)| off.is_none());
    if let (Some(_), Some((wheel, _))) = (own, missing) {
        let open = told(RideFact::NotTaped(wheel), Severity::Care, at(wheel), basis);
        findings.push(Finding { limit: Some(Quantity::Length(limit)), ..open });
    }
    let (Some(hangs), Some(floor)) = (hangs(arrangement), &arrangement.aiming.floor) else { return };
    let middle = context.scene.bay_from_vehicle.origin().extend(0.0);
    let (pitch, roll) = (hangs.pitch_rad.value, hangs.roll_rad.value);
    for (facts, own, limit) in
        [(RideFact::NoseDown(pitch), pitch, floor.pitch_rad), (RideFact::LeftUp(roll), roll, floor.roll_rad)]
    {
        if let Some(limit) = limit.filter(|limit| own.abs() > limit + angle::radians(1e-6)) {
            let basis = Basis::Procedure(arrangement.aiming.provenance.clone());
            findings.push(
                told(facts, Severity::Care, middle, basis)
                    .against(Quantity::Angle(own.abs()), Quantity::Angle(limit)),
            );
        }
    }
}

#[cfg(test)]
mod tests {
    use super::RideFact;
    use crate::check::testing::*;

    fn hanging(arches: [f64; 4], allowed: Option<f64>) -> Arrangement {
        let mut arrangement = clear();
        arrangement.vehicle.ride_heights = Some([380.0, 380.0, 375.0, 375.0]);
        arrangement.vehicle.ride_height_off_mm = allowed;
        arrangement.on_this_car.arches_mm = arches.map(Some);
        arrangement
    }

    #[test]
    fn a_low_arch_stops_where_the_maker_limits_it() {
        none(&clear(), Code::RideHeight);
        let level = [380.0, 380.0, 375.0, 375.0];
        none(&hanging(level, Some(10.0)), Code::RideHeight);
        none(&hanging([370.0, 390.0, 375.0, 375.0], Some(10.0)), Code::RideHeight);
        let low = hanging([369.0, 380.0, 375.0, 375.0], Some(10.0));
        let found = check(&low, Code::RideHeight, Severity::Stops, Some(11.0));
        assert_eq!(found.facts, Facts::RideHeight(RideFact::Arch(Wheel::FrontLeft, -11.0)));
        none(&hanging([365.0, 380.0, 375.0, 375.0], None), Code::RideHeight);
        check(&hanging([364.0, 380.0, 375.0, 375.0], None), Code::RideHeight, Severity::Care, Some(16.0));
    }

    #[test]
    fn an_arch_that_nobody_taped_is_told_where_it_is_limited() {
        let mut arrangement = hanging([380.0, 380.0, 375.0, 375.0], Some(10.0));
        arrangement.on_this_car.arches_mm[3] = None;
        let found = check(&arrangement, Code::RideHeight, Severity::Care, None);
        assert_eq!(found.facts, Facts::RideHeight(RideFact::NotTaped(Wheel::RearRight)));
        arrangement.vehicle.ride_height_off_mm = None;
        none(&arrangement, Code::RideHeight);
    }

    /// 10 mm low in front over 2 600 mm is 0.220° nose down (closed form; over 2 550 mm 0.225°).
    #[test]
    fn a_body_that_leans_more_than_the_car_may_needs_care() {
        let mut arrangement = hanging([370.0, 370.0, 375.0, 375.0], Some(20.0));
        none(&arrangement, Code::RideHeight);
        let limit = |pitch: f64, roll: f64| {
            Some(FloorRequirement {
                level_mm: 1_000.0,
                pitch_rad: Some(angle::radians(pitch)),
                roll_rad: Some(angle::radians(roll)),
            })
        };
        arrangement.aiming.floor = limit(0.23, 0.1);
        none(&arrangement, Code::RideHeight);
        arrangement.aiming.floor = limit(0.2, 0.1);
        let found = check(&arrangement, Code::RideHeight, Severity::Care, None);
        assert!((number(found.measured.unwrap()) - libm::atan(10.0 / 2_600.0)).abs() < 1e-9, "{found:?}");
        arrangement.on_this_car.arches_mm = [372.0, 380.0, 367.0, 375.0].map(Some);
        let found = check(&arrangement, Code::RideHeight, Severity::Care, None);
        assert!(matches!(found.facts, Facts::RideHeight(RideFact::LeftUp(own)) if own < 0.0), "{found:?}");
    }
}
