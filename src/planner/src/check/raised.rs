//! A car on runways, and what was written for a car on the floor.
//!
//! Rule: heights that a procedure gives from the floor mean another place once the car is raised: that needs care, until
//! they are given from the plane that carries the wheels. A mat lies below what the camera expects: it stops. A spot
//! outboard of a tyre is in the air unless it lies on a runway that carries the car: it stops, and another mark plan of
//! this car for the same sensor is named that has none, if one is entered.
//! Limit: common practice, no source; the procedure decides.

use baywright_geometry::DVec2;
use baywright_geometry::locate::{Located, locate};
use baywright_geometry::marks::Construction;

use super::finding::{Basis, Code, Facts, Finding, Severity, Step, Subject};
use super::{Check, Context, finding};
use crate::model::{Aiming, HeightsFrom, Id, TargetHeight, Wheel};

pub(super) const CHECK: Check =
    Check { codes: &[Code::MatBelow, Code::MarkInAir, Code::HeightsFromFloor], whole, ..Check::NONE };

fn whole(context: &Context<'_>, findings: &mut Vec<Finding>) {
    if !context.is_raised() {
        return;
    }
    heights(context, findings);
    for target in context.scene.targets.iter().filter(|target| target.lies) {
        let subjects = vec![Subject::Target(target.id.clone()), Subject::Car];
        let basis = Basis::CommonPractice;
        findings.push(finding(Facts::MatBelow, Severity::Stops, subjects, target.centre(), basis));
    }
    let aiming = &context.arrangement.aiming;
    let (of, places): (Vec<Subject>, Vec<DVec2>) =
        in_the_air(context, aiming).map(|(mark, at)| (Subject::Mark(mark.clone()), at)).unzip();
    if let Some(at) = places.first() {
        let place = at.extend(context.scene.carried_at_mm);
        let facts = Facts::MarkInAir { instead: another_plan(context) };
        findings.push(finding(facts, Severity::Stops, of, place, Basis::CommonPractice));
    }
}

fn heights(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let aiming = &context.arrangement.aiming;
    let zones = aiming.zones.iter().filter(|zone| zone.heights_from == HeightsFrom::Floor);
    let targets = aiming.placements.iter().filter(|placement| {
        matches!(placement.height, TargetHeight::Absolute(_)) && placement.heights_from == HeightsFrom::Floor
    });
    let of: Vec<Subject> = zones
        .map(|zone| Subject::Zone(zone.id.clone()))
        .chain(targets.map(|placement| Subject::Target(placement.id.clone())))
        .collect();
    if !of.is_empty() {
        let here = context.scene.bay_from_vehicle.origin().extend(context.scene.carried_at_mm);
        let basis = Basis::Procedure(aiming.provenance.clone());
        let found = finding(Facts::HeightsFromFloor, Severity::Care, of, here, basis);
        findings.push(found.cured_by(Step::SayHeightsFrom));
    }
}

/// The spots outboard of tyres, which lie on what the tyres stand on.
pub(crate) fn beside_tyres<'a>(
    context: &Context<'_>,
    aiming: &'a Aiming,
) -> impl Iterator<Item = (&'a Id, DVec2)> {
    aiming.mark_plan.iter().filter_map(|step| match step.construction {
        Construction::Outboard { wheel, distance } => Some((&step.id, outboard(context, wheel, distance))),
        _ => None,
    })
}

/// Those of them that lie on no runway that carries the car.
fn in_the_air<'a>(context: &Context<'_>, aiming: &'a Aiming) -> impl Iterator<Item = (&'a Id, DVec2)> {
    beside_tyres(context, aiming).filter(|(_, at)| {
        !context.carrying_runways().any(|(_, prism)| locate(&prism.outline, *at) != Located::Outside)
    })
}

fn outboard(context: &Context<'_>, wheel: Wheel, distance: f64) -> DVec2 {
    let vehicle = &context.arrangement.vehicle;
    let at = context.arrangement.wheel_point(wheel);
    let out = vehicle.tyre_width(wheel) * 0.5 + distance;
    let left = context.arrangement.centreline().0.forward().perp();
    context.scene.bay_from_vehicle * (at + left * if wheel.is_left() { out } else { -out })
}

/// Another aiming of this car for the same sensor whose marks can be laid.
fn another_plan(context: &Context<'_>) -> Option<Id> {
    let own = &context.arrangement.aiming;
    let others = context.arrangement.vehicle.aimings.iter();
    let would_do = |other: &&Aiming| {
        other.id != own.id
            && other.sensor == own.sensor
            && !other.mark_plan.is_empty()
            && in_the_air(context, other).next().is_none()
    };
    others.into_iter().find(would_do).map(|other| other.id.clone())
}

#[cfg(test)]
mod tests {
    use crate::check::testing::*;

    #[test]
    fn on_the_floor_nothing_is_said() {
        for code in [Code::MatBelow, Code::MarkInAir, Code::HeightsFromFloor] {
            none(&clear(), code);
        }
    }

    #[test]
    fn heights_name_their_plane() {
        let mut arrangement = raised();
        let found = check(&arrangement, Code::HeightsFromFloor, Severity::Care, None);
        assert_eq!(found.subjects, [Subject::Zone("beam".into())]);
        assert_eq!(assess(&arrangement).scene.zones[0].prism.span, span(0.0, 1500.0));
        arrangement.aiming.placements[0].height = TargetHeight::Absolute(600.0);
        assert_eq!(assess(&arrangement).scene.targets[0].set.height_mm, 600.0);
        let found = check(&arrangement, Code::HeightsFromFloor, Severity::Care, None);
        assert_eq!(found.subjects, [Subject::Zone("beam".into()), Subject::Target("ahead".into())]);
        arrangement.aiming.zones[0].heights_from = HeightsFrom::Wheels;
        arrangement.aiming.placements[0].heights_from = HeightsFrom::Wheels;
        none(&arrangement, Code::HeightsFromFloor);
        let assessment = assess(&arrangement);
        assert_eq!(assessment.scene.zones[0].prism.span, span(400.0, 1900.0));
        assert_eq!(assessment.scene.targets[0].set.height_mm, 1000.0);
    }

    /// Runways end at y = 4000 and 2000; marks 1 to 4 lie at 3000 ± 1020.
    #[test]
    fn marks_outboard_of_a_runway_are_in_the_air() {
        let mut arrangement = raised();
        let found = check(&arrangement, Code::MarkInAir, Severity::Stops, None);
        assert_eq!(found.subjects, ["1", "2", "3", "4"].map(|id| Subject::Mark(id.into())));
        assert_eq!(found.facts, Facts::MarkInAir { instead: None });
        let mut other = arrangement.aiming.clone();
        other.id = "along the centreline".into();
        arrangement.vehicle.aimings.push(other);
        assert_eq!(
            check(&arrangement, Code::MarkInAir, Severity::Stops, None).facts,
            found.facts,
            "no better"
        );
        let wheel = |wheel| Construction::WheelPoint { wheel };
        arrangement.vehicle.aimings[1].mark_plan = [wheel(Wheel::RearLeft), wheel(Wheel::FrontLeft)]
            .into_iter()
            .zip(["1", "2"])
            .map(|(construction, id)| MarkStep { id: id.into(), construction })
            .collect();
        let found = check(&arrangement, Code::MarkInAir, Severity::Stops, None);
        assert_eq!(found.facts, Facts::MarkInAir { instead: Some("along the centreline".into()) });
        // On runways 100 mm wider the spots lie on steel.
        for (runway, y) in arrangement.bay.runways.iter_mut().zip([3_400.0, 1_900.0]) {
            runway.outline = rectangle((500.0, y), (5_000.0, y + 700.0));
        }
        none(&arrangement, Code::MarkInAir);
    }

    #[test]
    fn mats_lie_below() {
        let mut arrangement = raised();
        let placement = &mut arrangement.aiming.placements[0];
        placement.target.kind = TargetKind::Mat;
        placement.target.stand = None;
        placement.height = TargetHeight::OnFloor;
        let found = check(&arrangement, Code::MatBelow, Severity::Stops, None);
        assert_eq!(found.subjects, [Subject::Target("ahead".into()), Subject::Car]);
        arrangement.on_runways.clear();
        arrangement.bay.runways.clear();
        none(&arrangement, Code::MatBelow);
    }

    /// The zone begins at x = 4900; runways that end at 5000 reach 100 mm into it below the wheels.
    #[test]
    fn the_steel_that_carries_the_car_counts_in_a_zone() {
        let mut arrangement = raised();
        let in_zone = |arrangement: &Arrangement, code| {
            let assessment = assess(arrangement);
            of(&assessment, code).iter().map(|found| found.severity).collect::<Vec<_>>()
        };
        assert_eq!(in_zone(&arrangement, Code::ZoneUnjudged), [Severity::Care; 2]);
        arrangement.aiming.zones[0].heights_from = HeightsFrom::Wheels;
        assert!(in_zone(&arrangement, Code::ZoneObject).is_empty());
        arrangement.aiming.zones[0].span = span(-10.0, 1500.0);
        assert_eq!(in_zone(&arrangement, Code::ZoneObject), [Severity::Stops; 2]);
    }

    /// A target set lower than the runways' top is hidden by those that reach ahead under it.
    #[test]
    fn carrying_runways_hide_what_is_below_them() {
        let mut arrangement = raised();
        arrangement.bay.runways[0].outline = rectangle((500.0, 2_700.0), (8_000.0, 4_000.0));
        arrangement.aiming.placements[0].height = TargetHeight::Absolute(300.0);
        assert!(!of(&assess(&arrangement), Code::SightBlocked).is_empty());
        arrangement.aiming.placements[0].heights_from = HeightsFrom::Wheels;
        none(&arrangement, Code::SightBlocked);
    }
}
