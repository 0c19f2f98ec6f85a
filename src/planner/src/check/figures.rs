//! Where the figures come from.
//!
//! Rule: examples, assumptions and figures that changed since the layout was saved are said.
//! Limit: none; every figure for a real car comes from its maker's service information.

use super::finding::{Basis, Code, Facts, Finding, Severity, Step, Subject};
use super::{Check, Context, finding};
use crate::model::{Arrangement, Provenance};

/// Whether any figure that the answer rests on is an example.
pub(crate) fn on_examples(arrangement: &Arrangement) -> bool {
    let survey = arrangement.bay.survey.as_ref().map(|survey| &survey.provenance);
    [
        &arrangement.vehicle.provenance,
        &arrangement.sensor.provenance,
        &arrangement.aiming.provenance,
        &arrangement.bay.provenance,
    ]
    .into_iter()
    .chain(survey)
    .any(|provenance| *provenance == Provenance::Example)
}

pub(super) const CHECK: Check = Check {
    codes: &[Code::ProfileChanged, Code::ExampleFigures, Code::AssumedFigures, Code::MeasuredOnCar],
    whole,
    ..Check::NONE
};

fn whole(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let arrangement = context.arrangement;
    let at = context.scene.bay_from_vehicle.origin().extend(0.0);
    let note = |facts, severity| finding(facts, severity, vec![Subject::Figures], at, Basis::AsEntered);
    if arrangement.loading.profile_changed {
        findings.push(note(Facts::ProfileChanged, Severity::Care).cured_by(Step::ReviewProfile));
    }
    if on_examples(arrangement) {
        findings.push(note(Facts::ExampleFigures, Severity::Note).cured_by(Step::EnterFigures));
    }
    let guessed = arrangement.vehicle.guessed();
    if !guessed.is_empty() {
        let assumed = Facts::AssumedFigures(guessed);
        findings.push(note(assumed, Severity::Note).cured_by(Step::EnterFigures));
    }
    if arrangement.on_this_car.sensor_at.is_some() {
        let at = context.scene.sensor();
        findings.push(finding(
            Facts::MeasuredOnCar,
            Severity::Note,
            vec![Subject::Sensor],
            at,
            Basis::AsEntered,
        ));
    }
}

#[cfg(test)]
mod tests {
    use crate::check::testing::*;

    #[test]
    fn figures_measured_on_the_car_count() {
        let mut arrangement = clear();
        arrangement.on_this_car.sensor_at = Some(DVec3::new(810.0, -5.0, 520.0));
        check(&arrangement, Code::MeasuredOnCar, Severity::Note, None);
        let scene = assess(&arrangement).scene;
        assert!(scene.sensor().distance(DVec3::new(4_810.0, 2_995.0, 520.0)) < 1e-9);
        assert!((scene.targets[0].meant.height_mm - 520.0).abs() < 1e-9);
    }
}
