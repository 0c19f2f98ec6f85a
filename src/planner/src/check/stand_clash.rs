//! A target or its stand and something else in one place.
//!
//! Rule: target, mast and feet share no volume with a thing, a runway, the car, the floor, or another target and stand that
//! stands at the same time; the feet stand on whole floor, not on a pit or a drain's grate. Walls are the check `outside_room`.
//! Limit: two things cannot be in one place; feet on a grate or a joint rock (common practice, no source).

use baywright_geometry::{Prism, Span, overlap};

use super::claim::Claim;
use super::finding::{Basis, Code, Facts, Finding, Quantity, Severity, Subject};
use super::in_one_place::{Depth, Lacks, depth};
use super::{Check, Context, Remedy, SPEAKS_FROM_MM, finding, middle_of_both, thing_subject};
use crate::model::{Arrangement, FloorFeatureKind};
use crate::scene::{PlacedTarget, Scene};

pub(super) const CHECK: Check =
    Check { codes: &[Code::StandClash], things, whole, claims, remedy, depths: &[Code::StandClash] };

fn remedy(finding: &Finding) -> Remedy {
    match finding.subjects.first() {
        Some(Subject::FloorFeature(_)) => Remedy::OffFeature,
        _ => Remedy::of_obstacle(finding),
    }
}

fn claims(_: &Arrangement, scene: &Scene, claims: &mut Vec<Claim>) {
    for target in &scene.targets {
        let of = Subject::Stand(target.id.clone());
        claims.extend(target.solids.iter().map(|solid| Claim::solid(of.clone(), solid, Code::StandClash)));
    }
}

fn things(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for target in &context.scene.targets {
        for solid in &target.solids {
            for seen in context.things_near(solid.outline.bounds()) {
                clash(target, solid, thing_subject(&seen.thing.id), &seen.placed.prism, findings);
            }
        }
    }
}

fn whole(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for (i, target) in context.scene.targets.iter().enumerate() {
        into_the_floor(context, target, findings);
        against_the_rest(context, target, findings);
        let earlier = context.scene.targets.get(..i).unwrap_or_default();
        for (_, other) in context.companions(&target.id).filter(|(_, other)| earlier.contains(other)) {
            for (own, part) in target.solids.iter().flat_map(|own| other.solids.iter().map(move |p| (own, p)))
            {
                clash(target, own, Subject::Stand(other.id.clone()), part, findings);
            }
        }
    }
}

/// A target that is set lower than half its own height.
fn into_the_floor(context: &Context<'_>, target: &PlacedTarget, findings: &mut Vec<Finding>) {
    let meant = context.arrangement.aiming.placements.iter().find(|own| own.id == target.id);
    let Some(meant) = meant.filter(|_| !target.lies) else { return };
    let missing = meant.target.height_mm * 0.5 - target.set.height_mm;
    if missing > SPEAKS_FROM_MM {
        let subjects = vec![Subject::Floor, Subject::Stand(target.id.clone())];
        let at = target.set.place.origin().extend(0.0);
        findings.push(
            finding(Facts::StandClash(Lacks::Height), Severity::Stops, subjects, at, Basis::Geometry)
                .against(Quantity::Length(missing), Quantity::Length(0.0)),
        );
    }
}

fn against_the_rest(context: &Context<'_>, target: &PlacedTarget, findings: &mut Vec<Finding>) {
    let of_target = findings.len();
    for solid in &target.solids {
        for part in &context.scene.car {
            clash(target, solid, Subject::Car, part, findings);
        }
        for runway in &context.arrangement.bay.runways {
            if let Ok(span) = Span::new(0.0, runway.top_mm) {
                let prism = Prism::new(runway.outline.clone().into(), span);
                clash(target, solid, Subject::Runway(runway.id.clone()), &prism, findings);
            }
        }
        for (subject, prism) in context.proud_features() {
            clash(target, solid, subject, &prism, findings);
        }
    }
    // The feet, or a mat's body: what rests on the floor.
    let resting = || target.solids.iter().filter(|solid| rests_on_floor(solid));
    for feature in &context.arrangement.bay.floor_features {
        let outline = feature.outline.clone().into();
        let Some(solid) = resting().find(|solid| overlap::overlaps(&solid.outline, &outline)) else {
            continue;
        };
        let severity = match feature.kind {
            FloorFeatureKind::Pit => Severity::Stops,
            FloorFeatureKind::Drain | FloorFeatureKind::Joint => Severity::Care,
        };
        let subjects = vec![Subject::FloorFeature(feature.id.clone()), Subject::Stand(target.id.clone())];
        // What is proud of the floor is said already.
        let is_said = |f: &Finding| f.code() == Code::StandClash && f.subjects == subjects;
        if feature.proud_mm > 0.0 && findings.iter().skip(of_target).any(is_said) {
            continue;
        }
        let at = middle_of_both(&solid.outline.bounds(), &feature.outline.bounds()).extend(0.0);
        findings.push(finding(Facts::StandClash(Lacks::Room), severity, subjects, at, Basis::CommonPractice));
    }
}

/// Whether a part of a stand, or a mat's body, rests on the floor.
pub(crate) fn rests_on_floor(solid: &Prism) -> bool {
    solid.span.bottom() <= SPEAKS_FROM_MM
}

/// One finding for each pair, with the deepest of the stand's parts.
fn clash(target: &PlacedTarget, solid: &Prism, other: Subject, prism: &Prism, findings: &mut Vec<Finding>) {
    let (a, b) = (solid.outline.bounds(), prism.outline.bounds());
    if !a.meets(&b) {
        return;
    }
    let Some(Depth { mm, lacks, heights }) = depth(solid, prism) else { return };
    let subjects = vec![other, Subject::Stand(target.id.clone())];
    let (facts, depth) = (Facts::StandClash(lacks), Quantity::Length(mm));
    let known = findings.iter_mut().find(|f| f.code() == Code::StandClash && f.subjects == subjects);
    match known {
        Some(known) => {
            if let Some(Quantity::Length(before)) = known.measured
                && before < mm
            {
                (known.facts, known.measured) = (facts, Some(depth));
            }
        }
        None => {
            let at = middle_of_both(&a, &b).extend((heights.bottom() + heights.top()) * 0.5);
            findings.push(
                finding(facts, Severity::Stops, subjects, at, Basis::Geometry)
                    .against(depth, Quantity::Length(0.0)),
            );
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::check::testing::*;

    /// The mast is 50 mm wide and goes up to 800 mm; an arm over it whose underside is at 799 mm lacks 1 mm of height.
    #[test]
    fn an_arm_a_little_too_low_over_the_mast() {
        let arm = |bottom: f64| {
            let mut arm = cabinet("arm", (8_860.0, 3_000.0), 40.0, 900.0);
            arm.span = span(bottom, 900.0);
            with(vec![arm])
        };
        let found = check(&arm(799.0), Code::StandClash, Severity::Stops, Some(1.0));
        assert_eq!(found.facts, Facts::StandClash(crate::Lacks::Height));
        none(&arm(800.0), Code::StandClash);
        let found = check(&arm(600.0), Code::StandClash, Severity::Stops, Some(45.0));
        assert_eq!(found.facts, Facts::StandClash(crate::Lacks::Room));
    }

    #[test]
    fn the_stand_against_a_thing() {
        // The feet reach from 20 to 500 mm behind the face at x = 8800.
        let mut box_ = cabinet("box", (9_200.0, 3_300.0), 200.0, 100.0);
        box_.span = span(0.0, 300.0);
        box_.material = Material::Wood;
        check(&with(vec![box_.clone()]), Code::StandClash, Severity::Stops, Some(50.0));
        box_.span = span(60.0, 300.0);
        none(&with(vec![box_]), Code::StandClash);
    }

    /// A mat does not lie flat on a grate, and there is steel beneath it.
    #[test]
    fn a_grate_under_a_mat() {
        let mut arrangement = clear();
        let placement = &mut arrangement.aiming.placements[0];
        placement.height = TargetHeight::OnFloor;
        placement.target = Target { kind: TargetKind::Mat, stand: None, ..placement.target.clone() };
        none(&arrangement, Code::StandClash);
        arrangement.bay.floor_features = vec![FloorFeature {
            id: "gully".into(),
            kind: FloorFeatureKind::Drain,
            outline: rectangle((8_700.0, 2_000.0), (8_900.0, 4_000.0)),
            material: Material::Steel,
            proud_mm: 0.0,
        }];
        let found = check(&arrangement, Code::StandClash, Severity::Care, None);
        let title = words::Words::new(&arrangement, words::Locale::default()).title(&found);
        assert_eq!(title, "The mat would lie on the gully");
    }

    /// The plate is 500 mm high: with its middle 240 mm up it would be 10 mm in the floor.
    #[test]
    fn a_target_lower_than_the_floor() {
        let at = |height: f64| {
            let mut arrangement = clear();
            arrangement.aiming.placements[0].height = TargetHeight::Absolute(height);
            arrangement.aiming.placements[0].target.height_mm = 500.0;
            arrangement
        };
        none(&at(250.0), Code::StandClash);
        let low = at(240.0);
        let found = check(&low, Code::StandClash, Severity::Stops, Some(10.0));
        assert_eq!(found.subjects[0], Subject::Floor);
        let words = words::Words::new(&low, words::Locale::default());
        assert_eq!(words.measure(&found).unwrap(), "10 mm of height missing");
    }
}
