//! What the tyres stand on.
//!
//! Rule: no tyre stands on a pit; a drain's grate or a joint under a tyre needs care. When runways carry the car, every
//! tyre's tread lies wholly on one of them, and they are equally high.
//! Limit: a tyre over an edge falls; a grate or joint under one tips the car by what this program is not told (common
//! practice, no source). A tread is [`crate::scene::Scene::treads`].

use baywright_geometry::contain::{Containment, contains};
use baywright_geometry::{Polygon, overlap};

use super::{Check, Context, Remedy, SPEAKS_FROM_MM, finding, middle_of_both};
use crate::assessment::{Basis, Code, Facts, Finding, Quantity, Severity, Subject};
use crate::model::{FloorFeatureKind, Runway, Wheel};

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
        Facts::WheelOffRunway(OnRunways::Off(_)) => Remedy::OntoRunways,
        _ => Remedy::None,
    }
}

fn whole(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let arrangement = context.arrangement;
    if !arrangement.on_runways.is_empty() {
        on_runways(context, findings);
        return;
    }
    for (wheel, tread) in Wheel::ALL.into_iter().zip(&context.scene.treads) {
        for feature in &arrangement.bay.floor_features {
            if !overlap::overlaps(&tread.clone().into(), &feature.outline.clone().into()) {
                continue;
            }
            let severity = match feature.kind {
                FloorFeatureKind::Pit => Severity::Stops,
                FloorFeatureKind::Drain | FloorFeatureKind::Joint => Severity::Care,
            };
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
        let holds = |runway: &Polygon| {
            matches!(
                contains(runway, &tread.clone().into()),
                Containment::Within | Containment::TouchingWithin
            )
        };
        if carrying.iter().any(|runway| holds(&runway.outline)) {
            continue;
        }
        let nearest = carrying.iter().min_by(|a, b| {
            let gap = |r: &Runway| r.outline.bounds().centre().distance(wheel);
            gap(a).total_cmp(&gap(b))
        });
        if let Some(runway) = nearest {
            let subjects = vec![Subject::Runway(runway.id.clone()), Subject::Car];
            findings.push(finding(
                Facts::WheelOffRunway(OnRunways::Off(name)),
                Severity::Stops,
                subjects,
                wheel.extend(runway.top),
                Basis::Geometry,
            ));
        }
    }
    let tops = || carrying.iter().map(|runway| runway.top);
    let (low, high) = (tops().fold(f64::INFINITY, f64::min), tops().fold(f64::NEG_INFINITY, f64::max));
    if high - low > SPEAKS_FROM_MM
        && let Some(runway) = carrying.iter().find(|runway| runway.top == low)
    {
        findings.push(
            finding(
                Facts::WheelOffRunway(OnRunways::Unequal),
                Severity::Care,
                vec![Subject::Runway(runway.id.clone())],
                runway.outline.bounds().centre().extend(low),
                Basis::Geometry,
            )
            .against(Quantity::Length(high - low), Quantity::Length(0.0)),
        );
    }
}
