//! Cars that are entered figure by figure: what is assumed, what is unlikely, what is refused.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test that cannot set itself up has failed")]

mod plan;

use baywright_planner::entry::plausible;
use baywright_planner::entry::starter::StartKind;
use baywright_planner::model::assumed::{AimingPart, BodyPart, SensorPart};
use baywright_planner::model::{FloorRequirement, Vehicle, VehicleClass, validate};
use proptest::prelude::*;

fn started(class: VehicleClass, kind: StartKind) -> Vehicle {
    let mut car = Vehicle::of_class(class);
    car.start_sensor(kind, "sensor".into());
    car.start_aiming(&"sensor".into(), "aiming".into());
    car
}

#[test]
fn every_start_is_sound_likely_and_wholly_assumed() {
    for class in VehicleClass::ALL {
        for kind in StartKind::ALL {
            let car = started(class, kind);
            assert_eq!(validate::vehicle(&car), [], "{class:?} {kind:?}");
            assert_eq!(plausible::refused(&car), [], "{class:?} {kind:?}");
            assert_eq!(plausible::unlikely(&car), [], "{class:?} {kind:?}");
            assert_eq!(
                car.assumed.len(),
                BodyPart::ALL.len() + SensorPart::ALL.len() + AimingPart::ALL.len(),
                "{class:?} {kind:?}"
            );
        }
    }
}

/// By hand: a length of 4 600, a wheelbase of 2 700 and a front overhang of 880 leave 1 020 behind.
#[test]
fn what_is_open_of_the_length_shares_what_is_left() {
    let mut car = Vehicle::of_class(VehicleClass::Saloon);
    for (part, value) in
        [(BodyPart::Length, 4_600.0), (BodyPart::Wheelbase, 2_700.0), (BodyPart::OverhangFront, 880.0)]
    {
        car.enter(part);
        match part {
            BodyPart::Length => car.length_mm = value,
            BodyPart::Wheelbase => car.wheelbase_mm = value,
            _ => car.overhang_front_mm = value,
        }
        car.assume();
        assert!(
            (car.wheelbase_mm + car.overhang_front_mm + car.overhang_rear_mm - car.length_mm).abs() < 1e-5,
            "{part:?}"
        );
    }
    assert!((car.overhang_rear_mm - 1_020.0).abs() < 1e-6, "{}", car.overhang_rear_mm);
    assert_eq!((car.length_mm, car.wheelbase_mm, car.overhang_front_mm), (4_600.0, 2_700.0, 880.0));
    // Entered whole, it stays as it is, even if it is wrong.
    car.enter(BodyPart::OverhangRear);
    car.overhang_rear_mm = 1_040.0;
    car.assume();
    assert_eq!(car.overhang_rear_mm, 1_040.0);
    assert!(validate::vehicle(&car).iter().any(|fault| fault.field == "body.length_mm"));
    car.overhang_rear_mm = 1_025.0;
    car.assume();
    assert_eq!(validate::vehicle(&car), []);
    let unlikely = plausible::unlikely(&car);
    assert!(unlikely.iter().any(|fault| fault.field == "body.length_mm"), "{unlikely:?}");
}

#[test]
fn what_is_assumed_follows_what_is_entered() {
    let mut car = started(VehicleClass::SmallHatchback, StartKind::ForwardRadar);
    car.enter(BodyPart::OverhangFront);
    car.overhang_front_mm = 900.0;
    car.assume();
    car.follow();
    assert_eq!(car.sensors[0].at.x, 860.0, "40 mm behind the bumper");
    let area = car.aimings[0].zones[0].outline.bounds();
    assert_eq!((area.low.x, area.high.x), (940.0, 3_600.0 + 1_200.0));
    // The stand-off counts from the sensor now, and is longer.
    let off = &mut car.aimings[0].placements[0].stand_off;
    (off.from, off.distance_mm) = (baywright_planner::model::Datum::Sensor, 4_000.0);
    car.follow();
    assert_eq!(car.aimings[0].zones[0].outline.bounds().high.x, 860.0 + 4_000.0 + 1_200.0);
    // Once entered, it stays.
    car.enter(SensorPart::Ahead.of(&"sensor".into()));
    car.enter(AimingPart::ClearAlong.of(&"aiming".into()));
    car.overhang_front_mm = 700.0;
    car.follow();
    assert_eq!(car.sensors[0].at.x, 860.0);
    assert_eq!(car.aimings[0].zones[0].outline.bounds().low.x, 940.0);
}

#[test]
fn another_name_goes_everywhere() {
    let mut car = started(VehicleClass::Van, StartKind::ForwardRadar);
    car.rename_sensor(0, "front radar".into());
    car.rename_aiming(0, "at the grille".into());
    assert_eq!(car.aimings[0].sensor.as_str(), "front radar");
    let (radar, aiming) = ("front radar".into(), "at the grille".into());
    assert!(car.is_assumed(SensorPart::Height.of(&radar)) && car.is_assumed(AimingPart::Target.of(&aiming)));
    assert!(car.assumed.iter().all(|figure| car.has_part(figure)));
    assert_eq!(validate::vehicle(&car), []);
    // A name that is taken is not given twice.
    car.start_sensor(StartKind::Lidar, "lidar".into());
    car.rename_sensor(1, "front radar".into());
    assert_eq!(car.sensors[1].id.as_str(), "lidar");
    car.sensors.remove(0);
    car.forget_what_is_gone();
    assert!(!car.is_assumed(SensorPart::Height.of(&radar)) && car.is_assumed(AimingPart::Target.of(&aiming)));
}

/// A sensor and an aiming of one name are two things: what is assumed of one does not go with the other.
#[test]
fn a_sensor_named_like_an_aiming_keeps_to_itself() {
    let mut car = Vehicle::of_class(VehicleClass::Saloon);
    car.start_sensor(StartKind::ForwardRadar, "radar".into());
    car.start_aiming(&"radar".into(), "radar".into());
    car.rename_sensor(0, "front".into());
    assert!(SensorPart::ALL.iter().all(|part| car.is_assumed(part.of(&"front".into()))));
    assert!(AimingPart::ALL.iter().all(|part| car.is_assumed(part.of(&"radar".into()))));
    car.rename_aiming(0, "front".into());
    assert!(AimingPart::ALL.iter().all(|part| car.is_assumed(part.of(&"front".into()))));
    assert!(car.assumed.iter().all(|figure| car.has_part(figure)));
}

#[test]
fn slips_are_asked_about_and_impossible_places_refused() {
    let mut car = started(VehicleClass::Estate, StartKind::ForwardRadar);
    let fields = |faults: &[validate::Fault]| faults.iter().map(|f| f.field.clone()).collect::<Vec<_>>();
    car.enter(BodyPart::Wheelbase);
    car.wheelbase_mm = 1_500.0;
    car.assume();
    car.follow();
    assert_eq!(fields(&plausible::unlikely(&car)), ["body.wheelbase_mm"]);
    let mut car = started(VehicleClass::Estate, StartKind::ForwardRadar);
    car.aimings[0].floor = Some(FloorRequirement::level(300.0));
    assert_eq!(fields(&plausible::unlikely(&car)), ["aimings[0].floor.level_mm"]);
    let mut car = started(VehicleClass::Estate, StartKind::ForwardRadar);
    car.sensors[0].at.z = 1_400.0;
    assert_eq!(fields(&plausible::unlikely(&car)), ["sensors[0].at_mm[2]"]);
    // An edge as far from the centre as no sensor is tall: its height above the ground was typed.
    car.sensors[0].edges.lower_below_mm = Some(240.0);
    assert_eq!(
        fields(&plausible::unlikely(&car)),
        ["sensors[0].at_mm[2]", "sensors[0].edges.lower_below_mm"]
    );
    car.sensors[0].at.x = car.front() + 100.0;
    assert_eq!(validate::vehicle(&car), [], "a file may say so");
    assert_eq!(fields(&plausible::refused(&car)), ["sensors[0].at_mm[0]"]);
    // A track wider than the car.
    car.enter(BodyPart::TrackFront);
    car.track_front_mm = car.width_mm + 10.0;
    assert!(fields(&validate::vehicle(&car)).contains(&"body.track_front_mm".to_owned()));
}

proptest! {
    /// Whatever of the main sizes is entered, the rest is made to fit, and nothing that was entered changes.
    #[test]
    fn entered_figures_stay_and_the_rest_fits(
        class in proptest::sample::select(VehicleClass::ALL.to_vec()),
        entered in proptest::collection::vec((0usize..6, 0.6f64..1.5), 0..8),
    ) {
        let mut car = started(class, StartKind::ForwardRadar);
        let usual = class.sizes();
        let mut last = [None; 6];
        for (which, factor) in entered {
            let (part, field, usual): (BodyPart, &mut f64, f64) = match which {
                0 => (BodyPart::Length, &mut car.length_mm, usual.length),
                1 => (BodyPart::Width, &mut car.width_mm, usual.width),
                2 => (BodyPart::Height, &mut car.height_mm, usual.height),
                3 => (BodyPart::Wheelbase, &mut car.wheelbase_mm, usual.wheelbase),
                4 => (BodyPart::OverhangFront, &mut car.overhang_front_mm, usual.overhang_front),
                _ => (BodyPart::OverhangRear, &mut car.overhang_rear_mm, usual.overhang_rear),
            };
            *field = (usual * factor).round();
            last[which] = Some(*field);
            car.enter(part);
            car.assume();
            car.follow();
        }
        let now = [car.length_mm, car.width_mm, car.height_mm, car.wheelbase_mm, car.overhang_front_mm, car.overhang_rear_mm];
        for (was, is) in last.iter().zip(now) {
            if let Some(was) = was {
                prop_assert_eq!(*was, is);
            }
        }
        prop_assert!(now.iter().all(|value| value.is_finite() && *value > 0.0));
        // Something of the length is open and has room: then the sum is right.
        let open = [BodyPart::Wheelbase, BodyPart::OverhangFront, BodyPart::OverhangRear, BodyPart::Length];
        let sum = car.wheelbase_mm + car.overhang_front_mm + car.overhang_rear_mm;
        if car.is_assumed(BodyPart::Length) {
            prop_assert!((sum - car.length_mm).abs() < 1e-3);
        } else if open.iter().any(|part| car.is_assumed(*part)) && validate::vehicle(&car).is_empty() {
            prop_assert!((sum - car.length_mm).abs() < 10.0);
        }
        // Working it out again changes nothing.
        let mut again = car.clone();
        again.assume();
        again.follow();
        prop_assert_eq!(again, car);
    }
}
