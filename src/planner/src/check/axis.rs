//! The reference axis.
//!
//! Rule: an aiming along the thrust line needs the rear toe of this very car, from its alignment sheet. Without it, or with one wheel's alone, the
//! centreline is drawn instead, and that needs care; a thrust angle that the aiming limits is then as little known.
//! Limit: the aiming's reference axis.

use super::finding::{Basis, Code, Facts, Finding, Quantity, Severity, Step, Subject};
use super::{Check, Context, finding};
use crate::model::{Arrangement, ReferenceAxis};

pub(super) const CHECK: Check = Check { codes: &[Code::AxisUnknown], whole, ..Check::NONE };

fn whole(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let arrangement = context.arrangement;
    if is_unknown(arrangement) {
        let at = context.scene.bay_from_vehicle.origin().extend(0.0);
        let basis = Basis::Procedure(arrangement.aiming.provenance.clone());
        let unknown = finding(Facts::AxisUnknown, Severity::Care, vec![Subject::Car], at, basis);
        let limit = arrangement.aiming.alignment.thrust_angle_rad.map(Quantity::Angle);
        findings.push(Finding { limit, ..unknown }.cured_by(Step::EnterAlignment));
    }
}

/// Whether the aiming follows the thrust line, and the rear toe of this car is not entered, of both wheels.
pub(super) fn is_unknown(arrangement: &Arrangement) -> bool {
    arrangement.aiming.axis == ReferenceAxis::ThrustLine && arrangement.on_this_car.thrust_rad().is_none()
}

#[cfg(test)]
mod tests {
    use crate::check::testing::*;

    #[test]
    fn the_thrust_line_moves_the_target() {
        let mut arrangement = clear();
        arrangement.aiming.axis = ReferenceAxis::ThrustLine;
        check(&arrangement, Code::AxisUnknown, Severity::Care, None);
        // One wheel's alone is not the other's nothing.
        let centreline = assess(&arrangement).scene.bay_from_axis;
        for half in [(Some(0.1), None), (None, Some(0.1))] {
            arrangement.on_this_car.rear_toe = RearToe { left_rad: half.0, right_rad: half.1 };
            check(&arrangement, Code::AxisUnknown, Severity::Care, None);
            assert_eq!(assess(&arrangement).scene.bay_from_axis, centreline);
        }
        // (0.2 - 0) / 2 = 0.1° to the left.
        arrangement.on_this_car.rear_toe = RearToe::of(0.0, angle::radians(0.2));
        none(&arrangement, Code::AxisUnknown);
        let scene = assess(&arrangement).scene;
        let expected = 3_000.0 + 4_000.0 * libm::sin(angle::radians(0.1));
        assert!((scene.targets[0].meant.place.origin().y - expected).abs() < 1e-9);
    }

    /// An aiming that follows the thrust line and limits its angle wants the sheet once, not twice.
    #[test]
    fn a_sheet_that_is_wanted_is_asked_for_once() {
        let mut arrangement = clear();
        arrangement.aiming.axis = ReferenceAxis::ThrustLine;
        arrangement.aiming.alignment.thrust_angle_rad = Some(angle::radians(0.1));
        let found = check(&arrangement, Code::AxisUnknown, Severity::Care, None);
        let words = words::Words::new(&arrangement, words::Locale::default());
        assert!(
            words.detail(&found).contains("It allows a thrust angle of 0.10° at most."),
            "{}",
            words.detail(&found)
        );
        none(&arrangement, Code::AlignmentUnknown);
        arrangement.aiming.alignment.set_back_mm = Some(8.0);
        check(&arrangement, Code::AlignmentUnknown, Severity::Care, None);
        arrangement.aiming.axis = ReferenceAxis::GeometricCentreline;
        assert_eq!(of(&assess(&arrangement), Code::AlignmentUnknown).len(), 2);
    }

    /// references.md §8: thrust heading (right - left) / 2, and its offset at 2700 and 5000 mm.
    #[test]
    fn thrust_line_offsets() {
        for (left, right, at_2700, at_5000) in [
            (0.1, 0.1, 0.0, 0.0),
            (0.2, 0.0, -4.71239, -8.72666),
            (0.0, 0.2, 4.71239, 8.72666),
            (-0.05, 0.15, 4.71239, 8.72666),
            (0.3, -0.1, -9.42482, -17.45336),
        ] {
            let mut arrangement = clear();
            arrangement.aiming.axis = ReferenceAxis::ThrustLine;
            arrangement.on_this_car.rear_toe = RearToe::of(angle::radians(left), angle::radians(right));
            let axis = assess(&arrangement).scene.bay_from_axis;
            let rear = DVec2::new(4_000.0 - 2_600.0, 3_000.0);
            for (distance, offset) in [(2_700.0, at_2700), (5_000.0, at_5000)] {
                // Where the axis crosses a line square to the car, so far ahead of the rear axle.
                let along = (rear.x + distance - axis.origin().x) / axis.forward().x;
                let crossing = axis.origin() + axis.forward() * along;
                assert!((crossing.y - rear.y - offset).abs() < 1e-4, "{left} {right} at {distance}");
            }
        }
    }
}
