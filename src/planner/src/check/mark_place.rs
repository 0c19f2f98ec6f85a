//! Floor marks that cannot be found, or lie where no mark can be.
//!
//! Rule: every step of the mark plan can be done; every mark that a person makes lies on the floor of the room, under no
//! thing, on no drain or pit. Points under the car's own tyres are found, not made.
//! Limit: a hand with a pen must get there: a thing whose underside is lower than the shop's own
//! `over_mark_mm` covers what is under it.

use baywright_geometry::locate::{Located, locate};
use baywright_geometry::marks::Construction;
use baywright_geometry::{Bounds, DVec2, Span};

use super::claim::{Claim, Volume, is_over_mark};
use super::finding::{Basis, Code, Facts, Finding, Quantity, Severity, Subject};
use super::{Check, Context, Remedy, SPEAKS_FROM_MM, finding, thing_subject};
use crate::model::{Arrangement, FloorFeatureKind, ShopFigure};
use crate::scene::Scene;

pub(super) const CHECK: Check =
    Check { codes: &[Code::MarkFault, Code::MarkPlace], things, whole, claims, remedy, ..Check::NONE };

fn remedy(finding: &Finding) -> Remedy {
    match finding.subjects.first() {
        Some(Subject::FloorFeature(_)) => Remedy::OffFeature,
        _ => Remedy::of_obstacle(finding),
    }
}

/// Nothing low may stand on a mark that a person makes.
fn claims(arrangement: &Arrangement, scene: &Scene, claims: &mut Vec<Claim>) {
    claims.extend(made(arrangement, scene).filter_map(|(mark, at, lies_mm)| {
        let free = over_mark(arrangement, lies_mm)?;
        Some(Claim::with_car(mark, Volume::Spot { at, free }, Code::MarkPlace, Severity::Stops))
    }));
}

/// The heights that a hand wants free over a mark that lies so high, mm.
fn over_mark(arrangement: &Arrangement, lies_mm: f64) -> Option<Span> {
    Span::new(lies_mm, lies_mm + arrangement.shop.over_mark_mm).ok()
}

/// The marks that a person makes, where they can be found, each with the height of what it lies on, mm.
fn made<'a>(
    arrangement: &'a Arrangement,
    scene: &'a Scene,
) -> impl Iterator<Item = (Subject, DVec2, f64)> + use<'a> {
    let made = arrangement.aiming.mark_plan.iter().zip(&scene.marks);
    let made = made.filter(|(step, _)| !matches!(step.construction, Construction::WheelPoint { .. }));
    made.filter_map(|(_, mark)| Some((Subject::Mark(mark.id.clone()), mark.at.ok()?, mark.lies_mm)))
}

fn things(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for (subject, at, lies_mm) in made(context.arrangement, context.scene) {
        under_things(context, &subject, at, lies_mm, findings);
    }
}

fn whole(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for mark in &context.scene.marks {
        let Err(fault) = mark.at else { continue };
        let at = context.scene.bay_from_vehicle.origin().extend(0.0);
        let subjects = vec![Subject::Mark(mark.id.clone())];
        findings.push(finding(Facts::MarkFault(fault), Severity::Stops, subjects, at, Basis::Geometry));
    }
    for (subject, at, lies_mm) in made(context.arrangement, context.scene) {
        on_the_floor(context, &subject, at, lies_mm, findings);
    }
}

fn under_things(context: &Context<'_>, mark: &Subject, at: DVec2, lies_mm: f64, findings: &mut Vec<Finding>) {
    let Some(free) = over_mark(context.arrangement, lies_mm) else { return };
    for seen in context.things_near(Bounds { low: at, high: at }) {
        let prism = &seen.placed.prism;
        if is_over_mark(&prism.span, &free) && locate(&prism.outline, at) == Located::Inside {
            let subjects = vec![thing_subject(&seen.thing.id), mark.clone()];
            let place = at.extend(prism.span.bottom());
            let basis = Basis::Shop(ShopFigure::OverMark);
            let found = finding(Facts::MarkPlace, Severity::Stops, subjects, place, basis);
            let hangs = prism.span.bottom() - lies_mm;
            findings.push(match hangs > SPEAKS_FROM_MM {
                true => found.against(Quantity::Length(hangs), Quantity::Length(free.top() - lies_mm)),
                false => found,
            });
        }
    }
}

fn on_the_floor(context: &Context<'_>, mark: &Subject, at: DVec2, lies_mm: f64, findings: &mut Vec<Finding>) {
    if !context.scene.on_floor(at) {
        let subjects = vec![super::outside_room::barrier(context, at), mark.clone()];
        findings.push(finding(Facts::MarkPlace, Severity::Stops, subjects, at.extend(0.0), Basis::Geometry));
        return;
    }
    for (runway, prism) in context.idle_runways() {
        if locate(&prism.outline, at) == Located::Inside {
            let place = at.extend(prism.span.top());
            let subjects = vec![runway, mark.clone()];
            findings.push(finding(Facts::MarkPlace, Severity::Stops, subjects, place, Basis::Geometry));
        }
    }
    // What is in the floor under a runway is under no mark on it.
    let features = context.arrangement.bay.floor_features.iter().filter(|_| lies_mm <= 0.0);
    for feature in features {
        let outline = feature.outline.clone().into();
        if locate(&outline, at) != Located::Outside {
            let severity = match feature.kind {
                FloorFeatureKind::Drain | FloorFeatureKind::Pit => Severity::Stops,
                // A lip lifts what is laid over it.
                FloorFeatureKind::Joint if feature.proud_mm > 0.0 => Severity::Stops,
                FloorFeatureKind::Joint => Severity::Care,
            };
            let subjects = vec![Subject::FloorFeature(feature.id.clone()), mark.clone()];
            findings.push(finding(
                Facts::MarkPlace,
                severity,
                subjects,
                at.extend(0.0),
                Basis::CommonPractice,
            ));
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::check::testing::*;

    /// Marks 1 to 4 lie 150 mm outboard of the tyres: y = 3000 ± (770 + 100 + 150). Mark 3 is at (4000, 4020).
    #[test]
    fn a_thing_on_a_mark_and_in_a_run() {
        let arrangement = with(vec![cabinet("drum", (4_000.0, 4_220.0), 300.0, 500.0)]);
        let found = check(&arrangement, Code::MarkPlace, Severity::Stops, None);
        assert_eq!(found.subjects[1], Subject::Mark("3".into()));
        let assessment = assess(&with(vec![cabinet("drum", (6_000.0, 4_220.0), 300.0, 500.0)]));
        let runs = of(&assessment, Code::RunBlocked);
        assert_eq!(runs.len(), 1);
        assert_eq!(runs[0].subjects[1], Subject::Run("1".into(), "5".into()));
        // Over the laser's light it is not in the way.
        let mut shelf = cabinet("shelf", (6_000.0, 4_220.0), 300.0, 500.0);
        shelf.span = span(100.0, 900.0);
        none(&with(vec![shelf]), Code::RunBlocked);
        assert_eq!(words_tool(), [Tool::Tape, Tool::LineLaser]);
    }

    fn words_tool() -> [Tool; 2] {
        let scene = assess(&clear()).scene;
        let tool = |mark: usize| scene.runs.iter().find(|run| run.mark == mark).unwrap().run.tool;
        [tool(6), tool(4)]
    }

    #[test]
    fn a_step_that_cannot_be_done_says_so() {
        use crate::geometry::marks::Construction;
        let mut arrangement = clear();
        arrangement.aiming.mark_plan[6].construction =
            Construction::Crossing { first: (0, 2), second: (1, 3) };
        check(&arrangement, Code::MarkFault, Severity::Stops, None);
    }

    #[test]
    fn drains_and_pits() {
        let feature = |kind, low, high| FloorFeature {
            id: "drain".into(),
            kind,
            outline: rectangle(low, high),
            material: Material::Steel,
            proud_mm: 0.0,
        };
        let mut arrangement = clear();
        // Mark 3 at (4000, 4020).
        arrangement.bay.floor_features =
            vec![feature(FloorFeatureKind::Drain, (3_900.0, 3_950.0), (4_100.0, 4_050.0))];
        check(&arrangement, Code::MarkPlace, Severity::Stops, None);
        arrangement.bay.floor_features[0].kind = FloorFeatureKind::Joint;
        check(&arrangement, Code::MarkPlace, Severity::Care, None);
        // Under the stand's feet.
        arrangement.bay.floor_features =
            vec![feature(FloorFeatureKind::Pit, (9_100.0, 3_100.0), (9_200.0, 3_200.0))];
        check(&arrangement, Code::StandClash, Severity::Stops, None);
    }
    /// Marks 1 to 4 on runways 400 mm high: what stands or hangs there is looked at from the runway, and what is in the floor
    /// under it is under no mark.
    #[test]
    fn a_mark_on_a_runway() {
        let mut arrangement = raised();
        let (left, right) = (
            rectangle((500.0, 3_400.0), (5_000.0, 4_200.0)),
            rectangle((500.0, 1_800.0), (5_000.0, 2_600.0)),
        );
        (arrangement.bay.runways[0].outline, arrangement.bay.runways[1].outline) = (left, right);
        none(&arrangement, Code::MarkPlace);
        let over = |bottom: f64, top: f64| {
            let mut own = arrangement.clone();
            own.bay.things = vec![cabinet("tray", (4_000.0, 4_020.0), 100.0, 100.0)];
            own.bay.things[0].span = span(bottom, top);
            own
        };
        let stands = over(400.0, 450.0);
        let found = check(&stands, Code::MarkPlace, Severity::Stops, None);
        assert_eq!(found.measured, None);
        let free = stands.shop.over_mark_mm;
        check(&over(400.0 + free - 10.0, 900.0), Code::MarkPlace, Severity::Stops, Some(free - 10.0));
        none(&over(400.0 + free, 900.0), Code::MarkPlace);
        let mut drain = arrangement.clone();
        drain.bay.floor_features = vec![FloorFeature {
            id: "drain".into(),
            kind: FloorFeatureKind::Drain,
            outline: rectangle((3_900.0, 3_900.0), (4_100.0, 4_100.0)),
            material: Material::Steel,
            proud_mm: 0.0,
        }];
        none(&drain, Code::MarkPlace);
    }
}
