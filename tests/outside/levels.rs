//! Levels between surveyed points and the stance of a car against scipy (`levels.json`, made by `levels.py`, which names its
//! versions): 30 scattered surveys with 25 places each, 30 cars on four feet.

use baywright_geometry::{DVec2, DVec3};
use baywright_survey::{LevelSurface, SurveyedPoint, stance};
use serde::Deserialize;

/// The table prints nine decimals.
const LEVEL_MM: f64 = 1e-6;

#[derive(Deserialize)]
struct Table {
    library: String,
    surfaces: Vec<Survey>,
    stances: Vec<Stands>,
}

#[derive(Deserialize)]
struct Survey {
    points: Vec<[f64; 3]>,
    asked: Vec<Asked>,
}

#[derive(Deserialize)]
struct Asked {
    at: [f64; 2],
    level: Option<f64>,
}

#[derive(Deserialize)]
struct Stands {
    wheels: [[f64; 3]; 4],
    ahead: [f64; 2],
    pitch: f64,
    roll: f64,
    spread: f64,
}

fn table() -> Table {
    let table: Table = serde_json::from_str(include_str!("levels.json")).unwrap();
    assert!(table.library.starts_with("scipy"));
    table
}

#[test]
fn levels_between_points() {
    let (mut inside, mut outside) = (0, 0);
    for (i, survey) in table().surfaces.iter().enumerate() {
        let point = |p: &[f64; 3]| SurveyedPoint { at: DVec2::new(p[0], p[1]), level_mm: p[2] };
        let surface = LevelSurface::through(&survey.points.iter().map(point).collect::<Vec<_>>());
        for asked in &survey.asked {
            let level = surface.at(asked.at.into()).map(|level| level.level_mm);
            match (asked.level, level) {
                (Some(expected), Some(level)) => {
                    assert!(
                        (level - expected).abs() < LEVEL_MM,
                        "survey {i} at {:?}: {level} not {expected}",
                        asked.at
                    );
                    inside += 1;
                }
                (None, None) => outside += 1,
                (expected, level) => panic!("survey {i} at {:?}: {level:?} not {expected:?}", asked.at),
            }
        }
    }
    assert!(inside >= 200 && outside >= 100, "{inside} {outside}");
}

#[test]
fn cars_on_four_feet() {
    for (i, case) in table().stances.iter().enumerate() {
        let stands = stance(&case.wheels.map(DVec3::from), case.ahead.into()).unwrap();
        for (what, found, expected) in [
            ("pitch", stands.pitch_rad, case.pitch),
            ("roll", stands.roll_rad, case.roll),
            ("spread", stands.spread_mm, case.spread),
        ] {
            assert!((found - expected).abs() < 1e-9, "car {i}: {what} {found} not {expected}");
        }
    }
}
