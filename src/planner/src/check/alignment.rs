//! The car's alignment, before anything is aimed.
//!
//! Rule: where the aiming limits the thrust angle or the set-back, what the alignment sheet of this very car says is within
//! it, and so is the set-back that wheels measured on it show; where nothing of it is entered, or the toe of one rear wheel alone, that needs care, unless the
//! reference axis says so already. A sensor that is aimed to a crooked car is crooked.
//! Limit: the aiming's own; an aiming that names none still is not for a car as crooked as [`CROOKED_RAD`] or [`SET_BACK_MM`] say:
//! that needs care.

use super::finding::{Basis, Code, Facts, Finding, Quantity, Severity, Step, Subject};
use super::{Check, Context, finding};
use crate::model::Arrangement;

/// A hair over a limit, as a share of it: what was entered as the limit itself is within it.
const HAIR: f64 = 1e-9;

/// More thrust angle than a car has that stands straight enough for any aiming, half a degree: alignment sheets allow less than half
/// of that (from memory), and a sensor that is aimed along the centreline of such a car looks aside by more than its tolerance of
/// where the car goes (common practice, no source).
const CROOKED_RAD: f64 = std::f64::consts::PI / 360.0;
/// The same of the set-back: an axle that was pushed back (common practice, no source), mm.
const SET_BACK_MM: f64 = 20.0;

/// Which figure of the alignment sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AlignmentFigure {
    /// Where the rear wheels push the car, against its centreline.
    ThrustAngle,
    /// How far one front wheel stands further back than the other.
    SetBack,
}

pub(super) const CHECK: Check =
    Check { codes: &[Code::AlignmentOff, Code::AlignmentUnknown], whole, ..Check::NONE };

fn whole(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let limits = &context.arrangement.aiming.alignment;
    let car = &context.arrangement.on_this_car;
    let thrust = car.thrust_rad();
    // What was read of one wheel wants the other.
    let half_toe = car.is_half_read();
    let quantities: [fn(f64) -> Quantity; 2] = [Quantity::Angle, Quantity::Length];
    let figures = [
        (AlignmentFigure::ThrustAngle, (limits.thrust_angle_rad, CROOKED_RAD), thrust),
        (AlignmentFigure::SetBack, (limits.set_back_mm, SET_BACK_MM), set_back(context.arrangement)),
    ];
    for ((figure, (own, usual), entered), quantity) in figures.into_iter().zip(quantities) {
        let (limit, severity, basis) = match own {
            Some(own) => {
                let provenance = context.arrangement.aiming.provenance.clone();
                (own, Severity::Stops, Basis::Procedure(provenance))
            }
            // What no procedure asks for, need not be measured.
            None if entered.is_none() && !(figure == AlignmentFigure::ThrustAngle && half_toe) => continue,
            None => (usual, Severity::Care, Basis::CommonPractice),
        };
        let at = context.scene.bay_from_vehicle.origin().extend(0.0);
        let told = |facts, severity| finding(facts, severity, vec![Subject::Car], at, basis.clone());
        match entered.map(f64::abs) {
            None if figure == AlignmentFigure::ThrustAngle
                && super::axis::is_unknown(context.arrangement) => {}
            None => {
                let unknown = told(Facts::AlignmentUnknown(figure), Severity::Care);
                let unknown = Finding { limit: Some(quantity(limit)), ..unknown };
                findings.push(unknown.cured_by(Step::EnterAlignment));
            }
            Some(entered) if entered > limit * (1.0 + HAIR) => findings.push(
                told(Facts::AlignmentOff(figure), severity).against(quantity(entered), quantity(limit)),
            ),
            Some(_) => {}
        }
    }
}

/// The set-back as the sheet says; or as the wheels were measured on this car, if that is beyond the limit and more than was
/// entered: how far the right front wheel stands further back than the left one along the centreline, mm.
fn set_back(arrangement: &Arrangement) -> Option<f64> {
    let entered = arrangement.told_set_back_mm();
    let Some([left, right, ..]) = arrangement.measured_wheels() else { return entered };
    let shown = (left - right).dot(arrangement.centreline().0.forward());
    let limit = arrangement.aiming.alignment.set_back_mm.unwrap_or(SET_BACK_MM);
    let is_worse = shown.abs() > limit * (1.0 + HAIR) && shown.abs() > entered.map_or(0.0, f64::abs);
    if is_worse { Some(shown) } else { entered }
}

#[cfg(test)]
mod tests {
    use super::AlignmentFigure;
    use crate::check::testing::*;

    /// A rear toe of 0.3° left and 0.1° right pushes the car (0.1 - 0.3) / 2 = 0.1° to the right.
    #[test]
    fn a_crooked_car_stops_the_aiming() {
        let mut arrangement = clear();
        arrangement.aiming.alignment.thrust_angle_rad = Some(angle::radians(0.1));
        let found = check(&arrangement, Code::AlignmentUnknown, Severity::Care, None);
        assert_eq!(found.cure.map(|cure| cure.step), Some(Step::EnterAlignment));
        for half in [(Some(0.0), None), (None, Some(0.0)), (Some(angle::radians(5.0)), None)] {
            arrangement.on_this_car.rear_toe = RearToe { left_rad: half.0, right_rad: half.1 };
            check(&arrangement, Code::AlignmentUnknown, Severity::Care, None);
            none(&arrangement, Code::AlignmentOff);
            // Who read one wheel reads the other, whether or not the procedure asks.
            let mut unasked = arrangement.clone();
            unasked.aiming.alignment.thrust_angle_rad = None;
            check(&unasked, Code::AlignmentUnknown, Severity::Care, None);
        }
        arrangement.on_this_car.rear_toe = RearToe::of(angle::radians(0.3), angle::radians(0.1));
        none(&arrangement, Code::AlignmentOff);
        none(&arrangement, Code::AlignmentUnknown);
        arrangement.on_this_car.rear_toe = RearToe::of(angle::radians(0.32), angle::radians(0.1));
        let found = check(&arrangement, Code::AlignmentOff, Severity::Stops, Some(angle::radians(0.11)));
        assert_eq!(found.facts, Facts::AlignmentOff(AlignmentFigure::ThrustAngle));
        assert_eq!(number(found.limit.unwrap()), angle::radians(0.1));
    }

    /// An aiming that says nothing of the alignment still is not for a car whose rear axle pushes 0.55° aside, or whose front
    /// wheel was pushed back by 21 mm.
    #[test]
    fn a_very_crooked_car_needs_care_for_any_aiming() {
        let mut arrangement = clear();
        arrangement.on_this_car.set_back_mm = Some(-20.0);
        arrangement.on_this_car.rear_toe = RearToe::of(angle::radians(-0.5), angle::radians(0.5));
        none(&arrangement, Code::AlignmentOff);
        arrangement.on_this_car.set_back_mm = Some(-21.0);
        check(&arrangement, Code::AlignmentOff, Severity::Care, Some(21.0));
        arrangement.on_this_car.set_back_mm = None;
        arrangement.on_this_car.rear_toe = RearToe::of(angle::radians(-0.55), angle::radians(0.55));
        check(&arrangement, Code::AlignmentOff, Severity::Care, Some(angle::radians(0.55)));
    }

    #[test]
    fn a_set_back_stops_the_aiming_either_way() {
        let mut arrangement = clear();
        none(&arrangement, Code::AlignmentUnknown);
        arrangement.aiming.alignment.set_back_mm = Some(8.0);
        check(&arrangement, Code::AlignmentUnknown, Severity::Care, None);
        arrangement.on_this_car.set_back_mm = Some(8.0);
        none(&arrangement, Code::AlignmentUnknown);
        for back in [8.5, -8.5] {
            arrangement.on_this_car.set_back_mm = Some(back);
            let found = check(&arrangement, Code::AlignmentOff, Severity::Stops, Some(8.5));
            assert_eq!(found.facts, Facts::AlignmentOff(AlignmentFigure::SetBack));
        }
    }

    /// Wheels that were measured on this car show 50 mm of set-back where the sheet says none.
    #[test]
    fn measured_wheels_show_a_set_back() {
        let mut arrangement = clear();
        arrangement.aiming.alignment.set_back_mm = Some(8.0);
        arrangement.on_this_car.set_back_mm = Some(0.0);
        let wheels = |back: f64| {
            Wheel::ALL.map(|wheel| {
                let at = clear().vehicle.wheel_point(wheel);
                if wheel == Wheel::FrontRight { at - DVec2::new(back, 0.0) } else { at }
            })
        };
        arrangement.on_this_car.wheels = Some(wheels(50.0));
        let found =
            of(&assess(&arrangement), Code::AlignmentOff).first().map(|found| (*found).clone()).unwrap();
        assert_eq!(found.severity, Severity::Stops);
        // The centreline turns a little with the wheel.
        assert!((number(found.measured.unwrap()) - 50.0).abs() < 0.1, "{found:?}");
        arrangement.on_this_car.wheels = Some(wheels(7.0));
        none(&arrangement, Code::AlignmentOff);
        arrangement.on_this_car.set_back_mm = None;
        check(&arrangement, Code::AlignmentUnknown, Severity::Care, None);
    }
}
