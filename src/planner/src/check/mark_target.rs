//! The mark plan against the stand-off: two ways to say where a target goes.
//!
//! Rule: the mark that a placement names lies where its stand-off puts the middle of the target's face. If the two
//! disagree, one of them was entered wrongly, or the plan follows another axis than the aiming does (a plan along the
//! wheels for an aiming along the thrust line).
//! Limit: [`AGREES_WITHIN_MM`], what a tape can read (common practice, no source).

use super::finding::{Basis, Code, Facts, Finding, Quantity, Severity, Subject};
use super::{Check, Context, finding};

/// A steel tape reads to a millimetre (common practice, no source).
const AGREES_WITHIN_MM: f64 = 1.0;

pub(super) const CHECK: Check = Check { codes: &[Code::MarkOffTarget], whole, ..Check::NONE };

fn whole(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for (placement, target) in context.arrangement.aiming.placements.iter().zip(&context.scene.targets) {
        let named = context.scene.marks.iter().find(|mark| Some(&mark.id) == placement.mark.as_ref());
        // A mark that cannot be found is a finding of its own.
        let Some(at) = named.and_then(|mark| mark.at.ok()) else { continue };
        let apart = at.distance(target.meant.place.origin());
        if apart > AGREES_WITHIN_MM
            && let Some(mark) = named
        {
            findings.push(
                finding(
                    Facts::MarkOffTarget,
                    Severity::Stops,
                    vec![Subject::Mark(mark.id.clone()), Subject::Target(target.id.clone())],
                    at.extend(0.0),
                    Basis::CommonPractice,
                )
                .against(Quantity::Length(apart), Quantity::Length(AGREES_WITHIN_MM)),
            );
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::check::testing::*;

    /// The marks of the test car by closed form: outboard spots at ±1020, prolonged to x = 800 + 4000 = 4800 ahead of the
    /// axle; their middle lies under the plate.
    #[test]
    fn the_mark_plan_leads_under_the_plate() {
        let scene = assess(&clear()).scene;
        let at = |id: &str| scene.marks.iter().find(|mark| mark.id.as_str() == id).unwrap().at.unwrap();
        assert!(at("1").distance(DVec2::new(1_400.0, 4_020.0)) < 1e-9);
        assert!(at("6").distance(DVec2::new(8_800.0, 1_980.0)) < 1e-9);
        assert!(at("T").distance(scene.targets[0].meant.place.origin()) < 1e-9);
        let diagonal =
            scene.readings.iter().find(|r| r.from.as_str() == "1" && r.to.as_str() == "6").unwrap();
        assert!((diagonal.distance_mm - libm::hypot(7_400.0, 2_040.0)).abs() < 1e-9);
    }

    #[test]
    fn a_plan_that_leads_elsewhere_says_so() {
        use crate::geometry::marks::{Construction, Reach};
        let mut arrangement = clear();
        for (step, from) in [(4, 0), (5, 1)] {
            arrangement.aiming.mark_plan[step].construction =
                Construction::Prolong { from, through: from + 2, reach: Reach::Length(4_800.5) };
        }
        none(&arrangement, Code::MarkOffTarget);
        arrangement.aiming.mark_plan[5].construction =
            Construction::Prolong { from: 1, through: 3, reach: Reach::Length(4_804.0) };
        check(&arrangement, Code::MarkOffTarget, Severity::Stops, Some(2.25));
        // A plan along the wheels cannot serve an aiming along a thrust line of 0.1°.
        let mut arrangement = clear();
        arrangement.aiming.axis = ReferenceAxis::ThrustLine;
        arrangement.on_this_car.rear_toe_rad = Some((0.0, angle::radians(0.2)));
        check(&arrangement, Code::MarkOffTarget, Severity::Stops, None);
    }
}
