//! The mark plan against the stand-off: two ways to say where a target goes.
//!
//! Rule: the mark that a placement names lies where its stand-off puts the middle of the target's face. If the two
//! disagree, one of them was entered wrongly, or the plan follows another axis than the aiming does (a plan along the
//! wheels for an aiming along the thrust line).
//! Limit: the shop's own `mark_agrees_mm`, and never more than the placement's own tolerance of place.

use super::finding::{Basis, Code, Facts, Finding, Quantity, Severity, Subject};
use super::{Check, Context, finding};
use crate::model::{Placement, ShopFigure};

pub(super) const CHECK: Check = Check { codes: &[Code::MarkOffTarget], whole, ..Check::NONE };

fn whole(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for (placement, target) in context.arrangement.aiming.placements.iter().zip(&context.scene.targets) {
        let named = context.scene.marks.iter().find(|mark| Some(&mark.id) == placement.mark.as_ref());
        // A mark that cannot be found is a finding of its own.
        let Some(at) = named.and_then(|mark| mark.at.ok()) else { continue };
        let apart = at.distance(target.meant.place.origin());
        let (limit, basis) = limit(context, placement);
        if apart > limit
            && let Some(mark) = named
        {
            findings.push(
                finding(
                    Facts::MarkOffTarget,
                    Severity::Stops,
                    vec![Subject::Mark(mark.id.clone()), Subject::Target(target.id.clone())],
                    at.extend(0.0),
                    basis,
                )
                .against(Quantity::Length(apart), Quantity::Length(limit)),
            );
        }
    }
}

/// What the two ways may differ by, mm, and who says so: where the procedure allows less than the shop does, it holds.
fn limit(context: &Context<'_>, placement: &Placement) -> (f64, Basis) {
    let shop = context.arrangement.shop.mark_agrees_mm;
    let tolerance = [placement.tolerance.along_mm, placement.tolerance.across_mm];
    let least = tolerance.into_iter().flatten().fold(shop, f64::min);
    if least < shop {
        (least, Basis::Procedure(context.arrangement.aiming.provenance.clone()))
    } else {
        (shop, Basis::Shop(ShopFigure::MarkAgrees))
    }
}

#[cfg(test)]
mod tests {
    use super::Basis;
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
            Construction::Prolong { from: 1, through: 3, reach: Reach::Length(4_806.0) };
        let found = check(&arrangement, Code::MarkOffTarget, Severity::Stops, Some(3.25));
        assert_eq!(found.basis, Basis::Shop(ShopFigure::MarkAgrees));
        // The shop may say otherwise; what the procedure allows holds all the same.
        arrangement.shop.mark_agrees_mm = 4.0;
        none(&arrangement, Code::MarkOffTarget);
        arrangement.aiming.placements[0].tolerance.along_mm = Some(2.0);
        let found = check(&arrangement, Code::MarkOffTarget, Severity::Stops, Some(3.25));
        assert_eq!(found.limit, Some(Quantity::Length(2.0)));
        assert!(matches!(found.basis, Basis::Procedure(_)));
        // A plan along the wheels cannot serve an aiming along a thrust line of 0.1°.
        let mut arrangement = clear();
        arrangement.aiming.axis = ReferenceAxis::ThrustLine;
        arrangement.on_this_car.rear_toe = RearToe::of(0.0, angle::radians(0.2));
        check(&arrangement, Code::MarkOffTarget, Severity::Stops, None);
    }

    /// A plan whose figures are each rounded to a sixteenth of an inch, 25.4 / 16 = 1.5875 mm, and a stand-off rounded so.
    #[test]
    fn a_plan_in_sixteenths_of_an_inch_is_not_stopped() {
        use crate::geometry::marks::{Construction, Reach};
        let sixteenths = |mm: f64| (mm / 1.5875).round() * 1.5875;
        for off in 0..100 {
            let mut arrangement = clear();
            let (outboard, stand_off) = (150.0 + 0.37 * f64::from(off), 4_000.0 + 0.53 * f64::from(off));
            for step in &mut arrangement.aiming.mark_plan {
                match &mut step.construction {
                    Construction::Outboard { distance, .. } => *distance = sixteenths(outboard),
                    Construction::Prolong { reach: Reach::Length(length), .. } => {
                        *length = sixteenths(800.0 + stand_off);
                    }
                    _ => {}
                }
            }
            arrangement.aiming.placements[0].stand_off.distance_mm = sixteenths(stand_off);
            none(&arrangement, Code::MarkOffTarget);
        }
    }
}
