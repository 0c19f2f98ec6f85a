//! How surely the marks of a plan put a target in its place.
//!
//! Rule: a mark leads to every target. Where none does, how its place on the floor is found is not told: a thrust line nobody
//! sees, and along a centreline a stand-off has a length and no place until somebody says by which marks the line is laid.
//! Rule: every mark is laid a little beside its place, and what is built from it lies as much beside its own, or more: where a line
//! is short and prolonged far, or two lines cross flat. What that makes of a target's mark is less than the target may be off.
//! The same is asked of a target's direction, where that aims and its mark is the middle of a join: the join of two marks is turned
//! by what one may lie further ahead than the other, over their distance. How a direction is found that no join gives is not told.
//! Limit: how far off a mark is laid, the shop's own `mark_laid_mm`; how far off a target may be, the placement's tolerance,
//! or what the aiming's tolerance makes of it at that distance, else the shop's own `target_off_mm`. How far a target may be turned:
//! the placement's tolerance, or what the aiming's makes of it.

use baywright_geometry::marks::{Construction, MayBeOff, Sought};

use super::finding::{Basis, Code, Facts, Finding, Quantity, Severity, Subject};
use super::{Check, Context, finding};
use crate::model::{Aiming, Arrangement, Placement, ShopFigure};
use crate::scene::{PlacedTarget, Scene};

pub(super) const CHECK: Check = Check { codes: &[Code::MarkMissing, Code::MarkUnsure], whole, ..Check::NONE };

/// What of a target a mark is too unsure for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MarkFor {
    /// Its place.
    Place,
    /// Its direction.
    Direction,
}

/// A join that runs less across the axis than this share of its length gives a target no direction: 45°.
const MOST_SLANTED: f64 = std::f64::consts::FRAC_1_SQRT_2;

fn whole(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for (placement, target) in context.arrangement.aiming.placements.iter().zip(&context.scene.targets) {
        match &placement.mark {
            None => findings.push(missing(context, target)),
            Some(id) => {
                let marks = &context.scene.marks;
                let step = marks.iter().position(|mark| mark.id == *id && mark.at.is_ok());
                if let Some(step) = step {
                    of_target(context, placement, target, step, findings);
                }
            }
        }
    }
}

fn missing(context: &Context<'_>, target: &PlacedTarget) -> Finding {
    let basis = Basis::Procedure(context.arrangement.aiming.provenance.clone());
    let of = vec![Subject::Target(target.id.clone())];
    finding(Facts::MarkMissing, Severity::Care, of, target.meant_centre(), basis)
}

/// What its mark makes of one target. A plan is laid once for both that is asked of it.
fn of_target(
    context: &Context<'_>,
    placement: &Placement,
    target: &PlacedTarget,
    step: usize,
    findings: &mut Vec<Finding>,
) {
    let (scene, arrangement, own) = (context.scene, context.arrangement, Sought::Mark(step));
    let construction = arrangement.aiming.mark_plan.get(step).map(|step| &step.construction);
    let Some(Construction::Middle { first, second }) = construction else {
        let [off] = scene.marks_may_be_off(arrangement, [own]);
        findings.extend(unsure(context, placement, target, step, off));
        return;
    };
    let join = (*first, *second);
    let [off, apart] = scene.marks_may_be_off(arrangement, [own, Sought::Apart(*first, *second)]);
    findings.extend(unsure(context, placement, target, step, off));
    findings.extend(apart.and_then(|apart| askew(context, placement, target, join, &apart)));
}

/// What is worst of one target's mark, against what is allowed.
fn unsure(
    context: &Context<'_>,
    placement: &Placement,
    target: &PlacedTarget,
    step: usize,
    off: Option<MayBeOff>,
) -> Option<Finding> {
    let mark = context.scene.marks.get(step)?;
    let subjects = vec![Subject::Mark(mark.id.clone()), Subject::Target(target.id.clone())];
    let at = mark.at.ok()?.extend(mark.lies_mm);
    let away = target.meant.place.forward();
    let Some(off) = off else {
        let basis = Basis::Shop(ShopFigure::MarkLaid);
        return Some(finding(Facts::MarkUnsure(MarkFor::Place), Severity::Care, subjects, at, basis));
    };
    let mut worst: Option<(f64, f64, Basis)> = None;
    for (towards, (limit, basis)) in
        [(away, along(context, placement)), (away.perp(), across(context, placement, target))]
    {
        let off = off.towards(context.scene.in_car_directions(towards));
        if worst.as_ref().is_none_or(|(known, allowed, _)| off / limit > known / allowed) {
            worst = Some((off, limit, basis));
        }
    }
    let (off, limit, basis) = worst.filter(|(off, limit, _)| off > limit)?;
    let found = finding(Facts::MarkUnsure(MarkFor::Place), Severity::Care, subjects, at, basis);
    Some(found.against(Quantity::Length(off), Quantity::Length(limit)))
}

/// How far the join that gives a target its direction may be turned, against what is allowed.
fn askew(
    context: &Context<'_>,
    placement: &Placement,
    target: &PlacedTarget,
    (first, second): (usize, usize),
    apart: &MayBeOff,
) -> Option<Finding> {
    let (aiming, marks) = (&context.arrangement.aiming, &context.scene.marks);
    let limit = turned(aiming, placement)?;
    let (from, to) = (marks.get(first)?, marks.get(second)?);
    let join = to.at.ok()? - from.at.ok()?;
    let away = target.meant.place.forward();
    // A join along the axis gives no square.
    let across = join.perp_dot(away).abs();
    if across < join.length() * MOST_SLANTED {
        return None;
    }
    let off = apart.towards(context.scene.in_car_directions(away));
    let turned = libm::atan2(off, across);
    let subjects = vec![
        Subject::Target(target.id.clone()),
        Subject::Mark(from.id.clone()),
        Subject::Mark(to.id.clone()),
    ];
    let basis = Basis::Procedure(aiming.provenance.clone());
    let at = target.meant.place.origin().extend(0.0);
    let found = finding(Facts::MarkUnsure(MarkFor::Direction), Severity::Care, subjects, at, basis);
    (turned > limit).then(|| found.against(Quantity::Angle(turned), Quantity::Angle(limit)))
}

/// How far a target may be turned where its direction aims, radians.
fn turned(aiming: &Aiming, placement: &Placement) -> Option<f64> {
    let share = placement.target.error.by_squareness;
    let seen = (share > 0.0).then(|| aiming.tolerance.azimuth_rad / share);
    [placement.tolerance.yaw_rad, seen].into_iter().flatten().reduce(f64::min)
}

/// How far off its place a target of an arrangement may be, along and aside as its sensor sees it, mm; and how far turned, radians, where
/// its direction aims.
pub(crate) fn may_be_off(
    arrangement: &Arrangement,
    scene: &Scene,
    placement: &Placement,
    target: &PlacedTarget,
) -> ([f64; 2], Option<f64>) {
    let context = Context::new(arrangement, scene);
    let place = [along(&context, placement).0, across(&context, placement, target).0];
    (place, turned(&arrangement.aiming, placement))
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
        rough.aiming.tolerance.azimuth_rad = angle::radians(1.0);
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

    /// Marks 5 and 6 lie 2040 mm apart, each laid to 1 mm, and abreast of the target along lines of 2600 mm that are each turned by
    /// √2 / 2600, seen from 1020 mm aside: the plate on their middle is square to √(2 (1 + 2 (1020 / 2600)²)) / 2040, 0.045°.
    #[test]
    fn a_join_that_is_too_short_to_be_square() {
        let turns = |arrangement: &Arrangement| {
            let found = assess(arrangement).findings.into_iter();
            found.filter(|f| f.facts == Facts::MarkUnsure(super::MarkFor::Direction)).collect::<Vec<_>>()
        };
        let square = (2.0 * (1.0 + 2.0 * (1_020.0_f64 / 2_600.0).powi(2))).sqrt() / 2_040.0;
        let mut arrangement = clear();
        assert!(turns(&arrangement).is_empty());
        arrangement.aiming.tolerance.azimuth_rad = square * 1.001;
        assert!(turns(&arrangement).is_empty());
        arrangement.aiming.tolerance.azimuth_rad = square * 0.999;
        let found = turns(&arrangement);
        assert_eq!(found.len(), 1);
        assert!((number(found[0].measured.unwrap()) - square).abs() < 1e-6, "{found:?}");
        let words = words::Words::new(&arrangement, words::Locale::default()).line(&found[0]);
        assert!(
            words.starts_with("Plate cannot be set square so surely by mark 5 and mark 6: to ± "),
            "{words}"
        );
        // Half the share, twice as much; a procedure's own limit goes first; a reflector aims by its place.
        let mut half = arrangement.clone();
        half.aiming.placements[0].target.error.by_squareness = 0.5;
        assert!(turns(&half).is_empty());
        half.aiming.placements[0].tolerance.yaw_rad = Some(square * 0.9);
        assert_eq!(turns(&half).len(), 1);
        let mut reflector = arrangement;
        reflector.aiming.placements[0].target.error = AimError::PLACE;
        assert!(turns(&reflector).is_empty());
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
        arrangement.on_this_car.rear_toe = RearToe::of(0.0, 0.0);
        assert!(says(&arrangement).contains("thrust line"));
        arrangement.aiming.placements[0].mark = Some("T".into());
        none(&arrangement, Code::MarkMissing);
    }
}
