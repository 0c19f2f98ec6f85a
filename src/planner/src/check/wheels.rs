//! What the tyres stand on.
//!
//! Rule: no tyre stands on a pit, or on what is prouder of the floor than the aiming lets levels differ; another drain's grate
//! or joint under a tyre needs care. When runways carry the car, every
//! tyre's tread lies wholly on one of them, and they are equally high: as nearly as the aiming lets levels differ, or it stops.
//! Limit: a tyre over an edge falls; a grate or joint under one tips the car by what this program is not told (common
//! practice, no source). A tread is [`crate::scene::Scene::treads`].

use baywright_geometry::contain::holds;
use baywright_geometry::overlap;

use super::finding::{Basis, Code, Facts, Finding, Quantity, Severity, Subject};
use super::{Check, Context, Remedy, SPEAKS_FROM_MM, finding, middle_of_both};
use crate::model::{Arrangement, FloorFeature, FloorFeatureKind, Runway, Wheel};

pub(super) const CHECK: Check =
    Check { codes: &[Code::WheelPlace, Code::WheelOffRunway], whole, remedy, ..Check::NONE };

/// What is wrong about a car on runways.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum OnRunways {
    /// This wheel is not wholly on one.
    Off(Wheel),
    /// They are not equally high.
    Unequal,
}

fn remedy(finding: &Finding) -> Remedy {
    match finding.facts {
        Facts::WheelOffRunway(crate::OnRunways::Off(_)) => Remedy::OntoRunways,
        Facts::WheelPlace(_) => Remedy::OffFeature,
        _ => Remedy::None,
    }
}

/// Where the aiming asks for no level floor: a tenth of a degree across a track of 1.5 m is 2.6 mm, and one wheel that
/// stands ten times as high up is on a kerb (common practice, no source), mm.
pub(super) const UNEVEN_MM: f64 = 26.0;

/// How much higher one wheel may stand than the others, mm.
pub(crate) fn level_mm(arrangement: &Arrangement) -> f64 {
    arrangement.aiming.floor.map_or(UNEVEN_MM, |floor| floor.level_mm)
}

/// Whether a wheel on it stops the aiming, if one wheel may stand so much higher than the others, mm.
pub(crate) fn stops_a_wheel(feature: &FloorFeature, level_mm: f64) -> bool {
    // No survey of the floor shows what a wheel stands on top of.
    feature.kind == FloorFeatureKind::Pit || feature.proud_mm > level_mm + SPEAKS_FROM_MM
}

fn whole(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let arrangement = context.arrangement;
    if !arrangement.on_runways.is_empty() {
        on_runways(context, findings);
        return;
    }
    let level_mm = level_mm(arrangement);
    for (wheel, tread) in Wheel::ALL.into_iter().zip(&context.scene.treads) {
        for feature in &arrangement.bay.floor_features {
            if !overlap::overlaps(&tread.clone().into(), &feature.outline.clone().into()) {
                continue;
            }
            let severity = if stops_a_wheel(feature, level_mm) { Severity::Stops } else { Severity::Care };
            let at = middle_of_both(&tread.bounds(), &feature.outline.bounds()).extend(0.0);
            let subjects = vec![Subject::FloorFeature(feature.id.clone()), Subject::Car];
            findings.push(finding(Facts::WheelPlace(wheel), severity, subjects, at, Basis::CommonPractice));
        }
    }
}

fn on_runways(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let arrangement = context.arrangement;
    let carrying: Vec<&Runway> =
        arrangement.bay.runways.iter().filter(|runway| arrangement.on_runways.contains(&runway.id)).collect();
    let wheels = Wheel::ALL.into_iter().zip(context.scene.wheels).zip(&context.scene.treads);
    for ((name, wheel), tread) in wheels {
        let tread = tread.clone().into();
        if carrying.iter().any(|runway| holds(&runway.outline, &tread)) {
            continue;
        }
        let nearest = carrying.iter().min_by(|a, b| {
            let gap = |r: &Runway| r.outline.bounds().centre().distance(wheel);
            gap(a).total_cmp(&gap(b))
        });
        if let Some(runway) = nearest {
            let subjects = vec![Subject::Runway(runway.id.clone()), Subject::Car];
            findings.push(finding(
                Facts::WheelOffRunway(crate::OnRunways::Off(name)),
                Severity::Stops,
                subjects,
                wheel.extend(runway.top_mm),
                Basis::Geometry,
            ));
        }
    }
    let tops = || carrying.iter().map(|runway| runway.top_mm);
    let (low, high) = (tops().fold(f64::INFINITY, f64::min), tops().fold(f64::NEG_INFINITY, f64::max));
    let level_mm = level_mm(arrangement);
    let (severity, limit) = match high - low > level_mm + SPEAKS_FROM_MM {
        true => (Severity::Stops, level_mm),
        false => (Severity::Care, 0.0),
    };
    if high - low > SPEAKS_FROM_MM
        && let Some(runway) = carrying.iter().find(|runway| runway.top_mm == low)
    {
        findings.push(
            finding(
                Facts::WheelOffRunway(crate::OnRunways::Unequal),
                severity,
                vec![Subject::Runway(runway.id.clone())],
                runway.outline.bounds().centre().extend(low),
                Basis::Geometry,
            )
            .against(Quantity::Length(high - low), Quantity::Length(limit)),
        );
    }
}

#[cfg(test)]
mod tests {
    use crate::check::testing::*;

    /// The front left tyre stands on y = 3670 to 3870; the aiming allows 5 mm of level.
    #[test]
    fn a_tyre_on_a_kerb() {
        let on = |proud_mm: f64| {
            let mut arrangement = clear();
            let (kind, material) = (FloorFeatureKind::Joint, Material::Steel);
            let outline = rectangle((3_900.0, 3_600.0), (4_100.0, 3_950.0));
            arrangement.bay.floor_features =
                vec![FloorFeature { id: "kerb".into(), kind, outline, material, proud_mm }];
            arrangement
        };
        check(&on(5.0), Code::WheelPlace, Severity::Care, None);
        check(&on(5.1), Code::WheelPlace, Severity::Stops, None);
        let mut unasked = on(100.0);
        unasked.aiming.floor = None;
        check(&unasked, Code::WheelPlace, Severity::Stops, None);
    }

    #[test]
    fn runways_carry_the_car() {
        let mut arrangement = clear();
        arrangement.bay.runways = vec![
            Runway {
                id: "left runway".into(),
                outline: rectangle((500.0, 3_500.0), (5_000.0, 4_000.0)),
                top_mm: 400.0,
                survey: None,
            },
            Runway {
                id: "right runway".into(),
                outline: rectangle((500.0, 2_000.0), (5_000.0, 2_500.0)),
                top_mm: 400.0,
                survey: None,
            },
        ];
        arrangement.on_runways = vec!["left runway".into(), "right runway".into()];
        let assessment = assess(&arrangement);
        assert_eq!(assessment.scene.carried_at_mm, 400.0);
        assert!((assessment.scene.sensor().z - 900.0).abs() < 1e-9);
        none(&arrangement, Code::WheelOffRunway);
        // The left tyre's outer edge, at y = 3000 + 770 + 100, passes the runway's at 4000 by 1 mm.
        arrangement.parked = PlanPose::new(DVec2::new(4_000.0, 3_131.0), 0.0);
        assert_eq!(of(&assess(&arrangement), Code::WheelOffRunway).len(), 2);
        arrangement.parked = PlanPose::new(DVec2::new(4_000.0, 3_130.0), 0.0);
        none(&arrangement, Code::WheelOffRunway);
        arrangement.parked = PlanPose::new(DVec2::new(4_000.0, 3_000.0), angle::radians(12.0));
        assert!(!of(&assess(&arrangement), Code::WheelOffRunway).is_empty());
    }

    /// Seen from the rear right wheel's point at (1400, 2230): a pit under its tread stops, a grate needs care.
    #[test]
    fn wheels_on_bad_ground() {
        let mut arrangement = clear();
        let feature = |kind| FloorFeature {
            id: "pit".into(),
            kind,
            outline: rectangle((1_500.0, 2_100.0), (1_700.0, 2_200.0)),
            material: Material::Steel,
            proud_mm: 0.0,
        };
        arrangement.bay.floor_features = vec![feature(FloorFeatureKind::Pit)];
        let found = check(&arrangement, Code::WheelPlace, Severity::Stops, None);
        assert_eq!(found.facts, Facts::WheelPlace(Wheel::RearRight));
        arrangement.bay.floor_features = vec![feature(FloorFeatureKind::Drain)];
        check(&arrangement, Code::WheelPlace, Severity::Care, None);
        arrangement.parked = PlanPose::new(DVec2::new(4_600.0, 3_000.0), 0.0);
        none(&arrangement, Code::WheelPlace);
    }

    /// The aiming allows 5 mm of level.
    #[test]
    fn runways_of_two_heights() {
        let mut arrangement = raised();
        arrangement.bay.runways[1].top_mm += 5.0;
        let found = check(&arrangement, Code::WheelOffRunway, Severity::Care, Some(5.0));
        assert_eq!(found.facts, Facts::WheelOffRunway(crate::OnRunways::Unequal));
        arrangement.bay.runways[1].top_mm += 1_000.0;
        check(&arrangement, Code::WheelOffRunway, Severity::Stops, Some(1_005.0));
    }
}
