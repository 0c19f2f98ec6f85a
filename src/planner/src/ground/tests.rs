//! Against what is worked out by hand on the test car: axles at x = 4000 and 1400, track 1540, its target at (8800, 3000).

use super::{Ground, *};
use crate::check::testing::*;
use crate::model::{FloorRequirement, Instrument, InstrumentKind, VerticalReference};

fn with_levels(level: impl Fn(DVec2) -> f64) -> Arrangement {
    let mut arrangement = clear();
    let survey = arrangement.bay.survey.as_mut().unwrap();
    survey.points.change(|points| points.iter_mut().for_each(|p| p.level_mm = level(p.at)));
    survey.how.within_mm = Some(1.0);
    arrangement
}

fn ground(arrangement: &Arrangement) -> Ground {
    Ground::of(arrangement, &assess(arrangement).scene).unwrap()
}

/// 2 mm a metre down ahead is atan 0.002 nose down. Each level is known to 1/√3 mm: over a wheelbase of 2600, two levels to an axle,
/// that makes the pitch 0.577/2600 unsure.
#[test]
fn a_fall_ahead_is_nose_down() {
    let mut arrangement = with_levels(|p| -0.002 * p.x);
    arrangement.aiming.floor =
        Some(FloorRequirement { level_mm: 40.0, pitch_rad: Some(angle::radians(0.2)), roll_rad: None });
    let car = ground(&arrangement).car.unwrap();
    assert!((car.pitch.value - libm::atan(0.002)).abs() < 1e-9);
    let alone = K / 3.0_f64.sqrt() / 2_600.0;
    assert!((car.pitch.u95 / alone - 1.0).abs() < 1e-4, "{} {alone}", car.pitch.u95);
    assert!(car.pitch.is_inside() && car.roll.said.is_none());
    assert!(car.tyres.iter().all(|own| own.value.abs() < 1e-9));
    // A limit of 0.12° is met by the figure and not by all of its range.
    arrangement.aiming.floor =
        Some(FloorRequirement { level_mm: 40.0, pitch_rad: Some(angle::radians(0.12)), roll_rad: None });
    let car = ground(&arrangement).car.unwrap();
    assert!(matches!(car.pitch.said, Some(Said::CannotSay { less_u: Some(_) })), "{:?}", car.pitch);
    arrangement.aiming.floor =
        Some(FloorRequirement { level_mm: 40.0, pitch_rad: Some(angle::radians(0.05)), roll_rad: None });
    assert!(matches!(ground(&arrangement).car.unwrap().pitch.said, Some(Said::Outside { .. })));
}

/// The sensor is 800 mm ahead of the front axle, the target 4 m ahead of it, 500 mm high: a level line meets it 8 mm further up over a floor
/// that falls by 2 mm a metre; by the plane of the wheels nothing changes.
#[test]
fn a_height_is_corrected_by_the_floor() {
    let mut arrangement = with_levels(|p| -0.002 * p.x);
    arrangement.aiming.placements[0].vertical = VerticalReference::Gravity;
    let scene = assess(&arrangement).scene;
    let meant = scene.targets[0].meant.height_mm;
    let away = scene.targets[0].set.place.origin().distance(scene.sensor().truncate());
    let own = &ground(&arrangement).heights[0];
    assert!((own.more_mm - 0.002 * away).abs() < 1e-6, "{own:?}");
    assert!((own.height.value - meant - own.more_mm).abs() < 1e-9);
    assert!((own.level.value + 0.002 * 8_800.0).abs() < 1e-6);
    arrangement.aiming.placements[0].vertical = VerticalReference::WheelsPlane;
    assert!(ground(&arrangement).heights[0].more_mm.abs() < 1e-6);
    assert_eq!(
        height_to_set(&arrangement, &scene, &scene.targets[0].id).unwrap().placement,
        scene.targets[0].id
    );
}

/// Without a survey's own figure the shop's stands in, and that is said.
#[test]
fn what_is_assumed_is_said() {
    let mut arrangement = with_levels(|_| 0.0);
    assert_eq!(ground(&arrangement).known, LevelKnown { within_mm: 1.0, by: KnownBy::Survey });
    arrangement.bay.survey.as_mut().unwrap().how.within_mm = None;
    arrangement.shop.level_read_mm = 2.0;
    let found = ground(&arrangement);
    assert_eq!(found.known, LevelKnown { within_mm: 2.0, by: KnownBy::Assumed });
    let spread = found.spread.unwrap();
    assert!((spread.u95 - K * 2.0 * (2.0_f64 / 3.0).sqrt()).abs() < 1e-9, "{spread:?}");
    // The instrument that the survey names goes before it, if the shop's list says what it is good for.
    arrangement.bay.survey.as_mut().unwrap().how.with = Some("level laser".to_owned());
    let mut laser = Instrument::new("level laser".into(), InstrumentKind::LevelLaser);
    arrangement.instruments = vec![laser.clone()].into();
    assert_eq!(ground(&arrangement).known.by, KnownBy::Assumed);
    laser.reading_mm = Some(0.5);
    arrangement.instruments = vec![laser].into();
    let known = LevelKnown { within_mm: 0.5, by: KnownBy::Instrument("level laser".into()) };
    assert_eq!(ground(&arrangement).known, known);
    arrangement.bay.survey = None;
    assert_eq!(Ground::of(&arrangement, &assess(&arrangement).scene), None);
}

/// A floor that falls by 1 % to the left is no dip; a point 12 mm low is, and no other; between two points 2 m apart its line allows
/// 6 mm (table 3, row 3: 4 at 1 m, 10 at 4 m).
#[test]
fn fall_and_dips_are_told_apart() {
    let even = ground(&with_levels(|p| -0.01 * p.y)).even.unwrap();
    let fall = even.fall.unwrap();
    assert!((fall.share.value - 0.01).abs() < 1e-9 && fall.towards.distance(DVec2::Y) < 1e-6);
    assert!(even.dips.is_empty() && even.gap.unwrap().value < 1e-6);
    assert!(even.din.unwrap().off.value < 1e-6);
    let low = DVec2::new(6_000.0, 3_000.0);
    let even = ground(&with_levels(|p| if p == low { -12.0 } else { 0.0 })).even.unwrap();
    assert_eq!(even.dips[0].at, low);
    assert!((even.dips[0].below.value - 12.0).abs() < 1e-9);
    let din = even.din.unwrap();
    assert!((din.off.value - 12.0).abs() < 1e-6, "{din:?}");
    assert!(!din.off.is_inside(), "{din:?}");
}

/// The right side 12 mm low: level is 12 mm under both right wheels; within 0.2° as much less as that is over the track of 1540.
#[test]
fn shims_bring_the_car_within() {
    let mut arrangement = with_levels(|p| if p.y < 3_000.0 { -12.0 } else { 0.0 });
    // Nothing is asked of the car's tilt: nothing needs to be laid.
    arrangement.aiming.floor = None;
    assert!(!ground(&arrangement).car.unwrap().wants_shims());
    arrangement.aiming.floor = Some(FloorRequirement {
        level_mm: 40.0,
        pitch_rad: Some(angle::radians(0.2)),
        roll_rad: Some(angle::radians(0.2)),
    });
    let car = ground(&arrangement).car.unwrap();
    assert!(car.wants_shims());
    let shims = car.shims.unwrap();
    assert!(shims.is_within && shims.under_mm[0] == 0.0 && shims.under_mm[2] == 0.0, "{shims:?}");
    let lower = car.levels[0] - car.levels[1];
    let least = lower - 1_540.0 * libm::tan(angle::radians(0.2));
    assert!((shims.under_mm[1] - least).abs() <= 0.5 + 1e-9, "{shims:?} {least}");
}

/// On runways the car's levels are the runways' own; the target's is the floor's.
#[test]
fn on_runways_their_own_levels_count() {
    let mut arrangement = raised();
    let scene = assess(&arrangement).scene;
    assert!(Ground::of(&arrangement, &scene).unwrap().car.is_none_or(|own| own.on_runways));
    for runway in &mut arrangement.bay.runways {
        runway.survey = None;
    }
    let found = Ground::of(&arrangement, &scene).unwrap();
    assert_eq!((found.car, found.heights), (None, vec![]));
}
