//! How surely the marks of a plan put a target in its place.
//!
//! Rule: a mark leads to every target. Where none does, how its place on the floor is found is not told: a thrust line nobody
//! sees, and along a centreline a stand-off has a length and no place until somebody says by which marks the line is laid.
//! Rule: every mark is laid a little beside its place, and what is built from it lies as much beside its own, or more: where a line
//! is short and prolonged far, or two lines cross flat. What that makes of a target's mark is less than the target may be off.
//! Limit: how far off a mark is laid, the shop's own `mark_laid_mm`; how far off a target may be, the placement's tolerance,
//! or what the aiming's tolerance makes of it at that distance, else the shop's own `target_off_mm`.

use baywright_geometry::DVec2;

use super::finding::{Basis, Code, Facts, Finding, Quantity, Severity, Subject};
use super::{Check, Context, finding};
use crate::model::{Placement, ShopFigure};
use crate::scene::PlacedTarget;

pub(super) const CHECK: Check = Check { codes: &[Code::MarkMissing, Code::MarkUnsure], whole, ..Check::NONE };

fn whole(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for (placement, target) in context.arrangement.aiming.placements.iter().zip(&context.scene.targets) {
        match &placement.mark {
            None => findings.push(missing(context, target)),
            Some(id) => {
                let marks = &context.scene.marks;
                let step = marks.iter().position(|mark| mark.id == *id && mark.at.is_ok());
                findings.extend(step.and_then(|step| unsure(context, placement, target, step)));
            }
        }
    }
}

fn missing(context: &Context<'_>, target: &PlacedTarget) -> Finding {
    let basis = Basis::Procedure(context.arrangement.aiming.provenance.clone());
    let of = vec![Subject::Target(target.id.clone())];
    finding(Facts::MarkMissing, Severity::Care, of, target.meant_centre(), basis)
}

/// What is worst of one target's mark, against what is allowed.
fn unsure(
    context: &Context<'_>,
    placement: &Placement,
    target: &PlacedTarget,
    step: usize,
) -> Option<Finding> {
    let mark = context.scene.marks.get(step)?;
    let subjects = vec![Subject::Mark(mark.id.clone()), Subject::Target(target.id.clone())];
    let at = mark.at.ok()?.extend(mark.lies_mm);
    let away = target.meant.place.forward();
    let off = |towards: DVec2| context.scene.mark_may_be_off(context.arrangement, step, towards);
    let mut worst: Option<(f64, f64, Basis)> = None;
    for (towards, (limit, basis)) in
        [(away, along(context, placement)), (away.perp(), across(context, placement, target))]
    {
        let Some(off) = off(towards) else {
            let basis = Basis::Shop(ShopFigure::MarkLaid);
            return Some(finding(Facts::MarkUnsure, Severity::Care, subjects, at, basis));
        };
        if worst.as_ref().is_none_or(|(known, allowed, _)| off / limit > known / allowed) {
            worst = Some((off, limit, basis));
        }
    }
    let (off, limit, basis) = worst.filter(|(off, limit, _)| off > limit)?;
    let found = finding(Facts::MarkUnsure, Severity::Care, subjects, at, basis);
    Some(found.against(Quantity::Length(off), Quantity::Length(limit)))
}

/// How far nearer or further off a target may be, mm.
fn along(context: &Context<'_>, placement: &Placement) -> (f64, Basis) {
    allowed(context, placement.tolerance.along_mm)
}

/// How far aside it may be, mm.
fn across(context: &Context<'_>, placement: &Placement, target: &PlacedTarget) -> (f64, Basis) {
    let (aiming, scene) = (&context.arrangement.aiming, context.scene);
    let share = placement.target.error.by_place;
    let away = target.meant_centre().truncate().distance(scene.sensor().truncate());
    // Seen under this angle the aim is off by its tolerance.
    let seen = (share > 0.0).then(|| away * libm::tan((aiming.tolerance.azimuth_rad / share).min(1.0)));
    let own = [placement.tolerance.across_mm, seen].into_iter().flatten().reduce(f64::min);
    allowed(context, own)
}

fn allowed(context: &Context<'_>, own: Option<f64>) -> (f64, Basis) {
    match own {
        Some(limit) => (limit, Basis::Procedure(context.arrangement.aiming.provenance.clone())),
        None => (context.arrangement.shop.target_off_mm, Basis::Shop(ShopFigure::TargetOff)),
    }
}

#[cfg(test)]
mod tests {
    use crate::check::testing::*;
    use crate::geometry::marks::{Construction, Reach};

    /// Rear spots at x = 1400, front ones at 4000, prolonged by 4800 mm: r = 4800 / 2600, and each prolonged mark is off by
    /// √((1 + r)² + r² + 1) times 1 mm aside, their middle by half of √2 times that, and by its own 1 mm.
    #[test]
    fn a_short_base_prolonged_far() {
        let off = |base: f64| {
            let r: f64 = 4_800.0 / base;
            ((((1.0 + r).powi(2) + r * r + 1.0) / 2.0) + 1.0).sqrt()
        };
        let arrangement = clear();
        none(&arrangement, Code::MarkUnsure);
        let sees = |limit: f64| {
            let mut own = arrangement.clone();
            own.aiming.placements[0].tolerance.across_mm = Some(limit);
            own
        };
        let expected = off(2_600.0);
        none(&sees(expected + 0.01), Code::MarkUnsure);
        let found = check(&sees(expected - 0.01), Code::MarkUnsure, Severity::Care, None);
        assert!((number(found.measured.unwrap()) - expected).abs() < 1e-3, "{found:?}");
        assert_eq!(found.subjects, [Subject::Mark("T".into()), Subject::Target("ahead".into())]);
        // A shop that lays its marks to 3 mm is off by three times as much.
        let mut rough = sees(2.0 * expected);
        none(&rough, Code::MarkUnsure);
        rough.shop.mark_laid_mm = 3.0;
        let found = check(&rough, Code::MarkUnsure, Severity::Care, None);
        assert!((number(found.measured.unwrap()) - 3.0 * expected).abs() < 1e-2);
        // A reflector aims by its place: 0.1° at 4 m are 7 mm, and a base of 500 mm makes more of 1 mm.
        let mut short = clear();
        short.aiming.placements[0].target.error = AimError::PLACE;
        none(&short, Code::MarkUnsure);
        let step = |id: &str, construction| MarkStep { id: id.into(), construction };
        let prolong = |from, through, mm| Construction::Prolong { from, through, reach: Reach::Length(mm) };
        let plan = &mut short.aiming.mark_plan;
        plan.truncate(4);
        plan.extend([
            step("7", prolong(0, 2, -500.0)),
            step("8", prolong(1, 3, -500.0)),
            step("5", prolong(4, 2, 4_800.0)),
            step("6", prolong(5, 3, 4_800.0)),
            step("T", Construction::Middle { first: 6, second: 7 }),
        ]);
        check(&short, Code::MarkUnsure, Severity::Care, None);
    }

    /// A target that no mark leads to: on the centreline nobody tells how the line is laid, on the thrust line nobody sees it.
    #[test]
    fn no_mark_leads_to_a_target() {
        let mut arrangement = clear();
        none(&arrangement, Code::MarkMissing);
        arrangement.aiming.placements[0].mark = None;
        let says = |arrangement: &Arrangement| {
            let found = check(arrangement, Code::MarkMissing, Severity::Care, None);
            words::Words::new(arrangement, words::Locale::default()).line(&found)
        };
        let line = says(&arrangement);
        assert!(
            line.starts_with("No mark leads to the plate. How its place on the floor is found is not told"),
            "{line}"
        );
        assert_eq!(assess(&arrangement).verdict, Verdict::ReadyWithCare);
        arrangement.aiming.axis = ReferenceAxis::ThrustLine;
        arrangement.on_this_car.rear_toe_rad = Some((0.0, 0.0));
        assert!(says(&arrangement).contains("thrust line"));
        arrangement.aiming.placements[0].mark = Some("T".into());
        none(&arrangement, Code::MarkMissing);
    }
}
