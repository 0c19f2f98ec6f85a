//! Floors, cars on them and their bodies, as numpy, scipy and the library uncertainties have them (`floors.py`).

use baywright_geometry::{DVec2, angle};
use baywright_survey::SurveyedPoint;
use baywright_survey::alignment::body::{between_centrelines, ride};
use baywright_survey::floor::even::{fall, straightedge_gap};
use baywright_survey::floor::{ToSet, Upright, height_to_set, standing};
use baywright_survey::input::Figure;
use serde_json::Value;

use crate::{near, number, numbers, table};

fn place(of: &Value) -> DVec2 {
    DVec2::new(number(&of[0]), number(&of[1]))
}

fn four(of: &Value) -> [DVec2; 4] {
    [0, 1, 2, 3].map(|nth| place(&of[nth]))
}

fn figure(of: &Value) -> Figure {
    Figure { value: number(&of[0]), u: number(&of[1]) }
}

#[track_caller]
fn same(found: Figure, expected: &Value, share: f64, what: &str) {
    let expected = figure(expected);
    near(found.value, expected.value, share * (1.0 + expected.value.abs()), what);
    near(found.u, expected.u, 1e-5 * expected.u + 1e-12, what);
}

fn all() -> Vec<Value> {
    let all = table(include_str!("floors.json"));
    assert!(all.len() >= 20);
    all
}

#[test]
fn a_car_on_a_floor() {
    for (case, of) in all().iter().enumerate() {
        let (of, what) = (&of["standing"], format!("case {case}"));
        let levels = numbers(&of["levels"]);
        let wheels = [0, 1, 2, 3].map(|nth| place(&of["wheels"][nth]).extend(levels[nth]));
        let u = number(&of["u"]);
        let found = standing(&wheels, u, angle::direction(number(&of["ahead"]))).unwrap();
        for (nth, off) in found.off_mm.iter().enumerate() {
            same(*off, &of["off"][nth], 1e-8, &what);
        }
        same(found.pitch_rad, &of["pitch"], 1e-10, &what);
        same(found.roll_rad, &of["roll"], 1e-10, &what);
        same(found.twist_rad, &of["twist"], 1e-10, &what);
        for (nth, upright) in [Upright::Gravity, Upright::WheelsPlane].into_iter().enumerate() {
            let asked = ToSet {
                wheels,
                level_u_mm: u,
                sensor: place(&of["sensor"]),
                sensor_height_mm: figure(&of["high"]),
                target: place(&of["target"]),
                higher_mm: number(&of["more"]),
                stand_level_mm: figure(&of["stand"]),
                upright,
            };
            let found = height_to_set(&asked).unwrap();
            same(Figure { value: found.value, u: found.u }, &of["heights"][nth], 1e-8, &what);
        }
    }
}

#[test]
fn falls_and_gaps() {
    for (case, of) in all().iter().enumerate() {
        let what = format!("case {case}");
        let points: Vec<SurveyedPoint> = of["fall"]["points"]
            .as_array()
            .unwrap()
            .iter()
            .map(|p| SurveyedPoint { at: place(p), level_mm: number(&p[2]) })
            .collect();
        let found = fall(&points, 1.0).unwrap();
        same(found.share, &of["fall"]["share"], 1e-10, &what);
        let turned = angle::wrapped(found.towards_rad - number(&of["fall"]["towards"]));
        near(turned, 0.0, 1e-8, &what);
        let of = &of["straightedge"];
        let profile: Vec<(f64, f64)> =
            of["profile"].as_array().unwrap().iter().map(|p| (number(&p[0]), number(&p[1]))).collect();
        let found = straightedge_gap(&profile, f64::INFINITY, 1.0).unwrap();
        near(found.mm.value, number(&of["gap"]), 1e-9, &what);
        assert_eq!(found.at as u64, of["at"].as_u64().unwrap(), "{what}");
    }
}

#[test]
fn a_body_over_its_wheels() {
    for (case, of) in all().iter().enumerate() {
        let (of, what) = (&of["body"], format!("case {case}"));
        let u = numbers(&of["u"]);
        let found =
            between_centrelines((&four(&of["wheels"]), u[0]), (&four(&of["spots"]), u[1]), 3600.0).unwrap();
        same(found.turned_rad, &of["turned"], 1e-10, &what);
        same(found.aside_mm, &of["aside"], 1e-8, &what);
        let (heights, nominal) = (numbers(&of["heights"]), numbers(&of["nominal"]));
        let sizes = numbers(&of["sizes"]);
        let found = ride(
            [0, 1, 2, 3].map(|nth| heights[nth]),
            [0, 1, 2, 3].map(|nth| nominal[nth]),
            u[0],
            (sizes[0], sizes[1]),
        )
        .unwrap();
        same(found.higher_mm, &of["higher"], 1e-9, &what);
        same(found.pitch_rad, &of["pitch"], 1e-10, &what);
        same(found.roll_rad, &of["roll"], 1e-10, &what);
    }
}
