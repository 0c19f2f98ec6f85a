//! Where the figures come from.
//!
//! Rule: examples, assumptions and figures that changed since the layout was saved are said, the shop's settings among them;
//! so are places of which "by eye" was said when it meant less than now, and a building that is not as the bay has it but as
//! planned for this arrangement. What was measured on this very car and is far from its profile needs care.
//! Limit: none; every figure for a real car comes from its maker's service information.

use baywright_geometry::DVec3;
use baywright_geometry::marks::Wheel;

use super::finding::{Basis, Code, Facts, Finding, Quantity, Severity, Step, Subject};
use super::{Check, Context, finding, thing_subject};
use crate::model::{Arrangement, Known, Provenance};

/// Whether any figure that the answer rests on is an example.
pub(crate) fn on_examples(arrangement: &Arrangement) -> bool {
    come_from(arrangement, &Provenance::Example)
}

/// Whether any of them has this source.
fn come_from(arrangement: &Arrangement, source: &Provenance) -> bool {
    let survey = arrangement.bay.survey.as_ref().map(|survey| &survey.provenance);
    let runways = arrangement.bay.runways.iter().filter(|own| arrangement.on_runways.contains(&own.id));
    let runways = runways.filter_map(|own| own.survey.as_ref()).map(|survey| &survey.provenance);
    [
        &arrangement.vehicle.provenance,
        &arrangement.sensor.provenance,
        &arrangement.aiming.provenance,
        &arrangement.bay.provenance,
    ]
    .into_iter()
    .chain(survey)
    .chain(runways)
    .any(|provenance| provenance == source)
}

pub(super) const CHECK: Check = Check {
    codes: &[
        Code::ProfileChanged,
        Code::ShopUnread,
        Code::ShopChanged,
        Code::OwnBuilding,
        Code::OlderByEye,
        Code::ExampleFigures,
        Code::SourceNotGiven,
        Code::AssumedFigures,
        Code::MeasuredOnCar,
    ],
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
    if arrangement.loading.shop_unread {
        findings.push(note(Facts::ShopUnread, Severity::Care));
    }
    if arrangement.loading.shop_changed {
        findings.push(note(Facts::ShopChanged, Severity::Note));
    }
    if arrangement.loading.own_building {
        let subjects = vec![Subject::Floor];
        findings.push(Finding { subjects, ..note(Facts::OwnBuilding, Severity::Note) });
    }
    let things = arrangement.bay.things.iter().filter(|thing| thing.place.known == Known::ByEyeOlder);
    let walls = (arrangement.bay.walls_known == Known::ByEyeOlder).then_some(Subject::Floor);
    let older: Vec<Subject> = things.map(|thing| thing_subject(&thing.id)).chain(walls).collect();
    if !older.is_empty() {
        findings.push(Finding { subjects: older, ..note(Facts::OlderByEye, Severity::Note) });
    }
    if on_examples(arrangement) {
        findings.push(note(Facts::ExampleFigures, Severity::Note).cured_by(Step::EnterFigures));
    }
    if come_from(arrangement, &Provenance::NotGiven) {
        findings.push(note(Facts::SourceNotGiven, Severity::Care).cured_by(Step::EnterFigures));
    }
    let guessed = arrangement.vehicle.guessed();
    if !guessed.is_empty() {
        let assumed = Facts::AssumedFigures(guessed);
        findings.push(note(assumed, Severity::Note).cured_by(Step::EnterFigures));
    }
    let car = &arrangement.on_this_car;
    if car.wheels.is_some() {
        let off = Wheel::ALL.map(|w| arrangement.wheel_point(w).distance(arrangement.vehicle.wheel_point(w)));
        findings.push(measured(Subject::Car, at, off.into_iter().fold(0.0, f64::max)));
    }
    if let Some(own) = car.sensor_at {
        findings.push(measured(Subject::Sensor, context.scene.sensor(), own.distance(arrangement.sensor.at)));
    }
}

/// So much cars of one kind differ where they stand, by springs and load, and sensors by their brackets (common practice, no
/// source), mm: more is a slip of the tape, or what spoils the aim.
const DIFFERS_MM: f64 = 60.0;

fn measured(of: Subject, at: DVec3, off_mm: f64) -> Finding {
    let found = finding(Facts::MeasuredOnCar, Severity::Note, vec![of], at, Basis::AsEntered);
    if off_mm <= DIFFERS_MM {
        return found;
    }
    let found = Finding { severity: Severity::Care, basis: Basis::CommonPractice, ..found };
    found.against(Quantity::Length(off_mm), Quantity::Length(DIFFERS_MM))
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
        // A radar 240 mm aside of where the profile has it: read off another edge, or its bracket is bent.
        arrangement.on_this_car.sensor_at = Some(DVec3::new(800.0, 240.0, 500.0));
        check(&arrangement, Code::MeasuredOnCar, Severity::Care, Some(240.0));
    }

    #[test]
    fn what_is_noticed_of_the_shops_settings() {
        let mut arrangement = clear();
        none(&arrangement, Code::ShopUnread);
        none(&arrangement, Code::ShopChanged);
        arrangement.loading.shop_changed = true;
        check(&arrangement, Code::ShopChanged, Severity::Note, None);
        // What they are is not known: never ready unasked.
        arrangement.loading.shop_unread = true;
        check(&arrangement, Code::ShopUnread, Severity::Care, None);
    }

    #[test]
    fn a_building_as_planned_is_said() {
        let mut arrangement = clear();
        none(&arrangement, Code::OwnBuilding);
        arrangement.loading.own_building = true;
        check(&arrangement, Code::OwnBuilding, Severity::Note, None);
    }

    #[test]
    fn what_was_by_eye_under_an_older_rule_is_offered_for_review() {
        let mut arrangement = with(vec![
            cabinet("bench", (1_000.0, 5_000.0), 1.0, 400.0),
            cabinet("bin", (2_000.0, 5_000.0), 1.0, 400.0),
        ]);
        arrangement.bay.things[0].place.known = Known::ByEye;
        none(&arrangement, Code::OlderByEye);
        arrangement.bay.things[1].place.known = Known::ByEyeOlder;
        arrangement.bay.walls_known = Known::ByEyeOlder;
        let found = check(&arrangement, Code::OlderByEye, Severity::Note, None);
        assert_eq!(found.subjects, [Subject::Thing("bin".into()), Subject::Floor]);
        assert_eq!(arrangement.shop.within(Known::ByEyeOlder), 50.0);
    }

    /// By hand: the feet are shifted so that the middles of front and rear lie at (0, 10) and (-2600, -10): the centreline
    /// runs to the left by atan(20 / 2600). Spots lie square to it, 150 mm off tyres of 200 mm, the rear ones 250 wide.
    #[test]
    fn wheels_measured_on_the_car_carry_centreline_and_marks() {
        let mut arrangement = clear();
        let feet = [(0.0, 775.0), (0.0, -755.0), (-2_605.0, 762.0), (-2_595.0, -782.0)].map(DVec2::from);
        arrangement.on_this_car.wheels = Some(feet);
        arrangement.vehicle.tyre_width_rear_mm = Some(250.0);
        let found = check(&arrangement, Code::MeasuredOnCar, Severity::Note, None);
        assert_eq!(found.subjects, [Subject::Car]);
        let scene = assess(&arrangement).scene;
        let in_bay = |p: DVec2| arrangement.parked * p;
        let ahead = (DVec2::new(0.0, 10.0) - DVec2::new(-2_600.0, -10.0)).normalize();
        assert!((scene.bay_from_axis.heading() - libm::atan(20.0 / 2_600.0)).abs() < 1e-12);
        assert!(scene.bay_from_axis.origin().distance(in_bay(DVec2::new(0.0, 10.0))) < 1e-9);
        let mark = |index: usize| scene.marks[index].at.unwrap();
        assert!(mark(0).distance(in_bay(feet[2] + ahead.perp() * (125.0 + 150.0))) < 1e-9, "rear left");
        assert!(mark(3).distance(in_bay(feet[1] - ahead.perp() * (100.0 + 150.0))) < 1e-9, "front right");
        assert!(scene.wheels[2].distance(in_bay(feet[2])) < 1e-9);
        let width = scene.treads[3].bounds().size().y;
        assert!((width - 250.0).abs() < 1e-9, "{width}");
        assert_eq!(scene.treads[0].bounds().size().y, 200.0);
        // The target stands 4 m before the sensor, in the direction of the centreline.
        let sensor = scene.sensor().truncate();
        assert!(scene.targets[0].meant.place.origin().distance(sensor + ahead * 4_000.0) < 1e-9);
    }
}
