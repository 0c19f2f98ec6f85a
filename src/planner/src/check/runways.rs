//! A car on raised runways.
//!
//! Rule: when runways carry the car, every wheel point lies on one of them, and they are equally high.
//! Limit: a tyre beside its runway falls; runways of unequal height tilt the car by what this program is not told.

use baywright_geometry::contain::{Place, locate};

use super::{Context, SPEAKS_FROM_MM, finding};
use crate::assessment::{Basis, Code, Facts, Finding, Quantity, Severity, Subject};
use crate::model::{Runway, Wheel};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let arrangement = context.arrangement;
    if arrangement.on_runways.is_empty() {
        return;
    }
    let carrying: Vec<&Runway> =
        arrangement.bay.runways.iter().filter(|runway| arrangement.on_runways.contains(&runway.id)).collect();
    for (name, wheel) in Wheel::ALL.into_iter().zip(context.scene.wheels) {
        let on_one =
            carrying.iter().any(|runway| locate(&runway.outline.clone().into(), wheel) == Place::Inside);
        let nearest = carrying.iter().min_by(|a, b| {
            let gap = |r: &Runway| r.outline.bounds().centre().distance(wheel);
            gap(a).total_cmp(&gap(b))
        });
        if let (false, Some(runway)) = (on_one, nearest) {
            findings.push(
                finding(
                    Code::WheelOffRunway,
                    Severity::Stops,
                    vec![Subject::Runway(runway.id.clone()), Subject::Car],
                    wheel.extend(runway.top),
                    Basis::Geometry,
                )
                .knowing(Facts::Wheel(name)),
            );
        }
    }
    let tops = || carrying.iter().map(|runway| runway.top);
    let (low, high) = (tops().fold(f64::INFINITY, f64::min), tops().fold(f64::NEG_INFINITY, f64::max));
    if high - low > SPEAKS_FROM_MM
        && let Some(runway) = carrying.iter().find(|runway| runway.top == low)
    {
        findings.push(
            finding(
                Code::WheelOffRunway,
                Severity::Care,
                vec![Subject::Runway(runway.id.clone())],
                runway.outline.bounds().centre().extend(low),
                Basis::Geometry,
            )
            .against(Quantity::Length(high - low), Quantity::Length(0.0)),
        );
    }
}
