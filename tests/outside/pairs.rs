//! Pairs of plan shapes against shapely on GEOS: distance, shared area, containment and the shortest separating move of
//! 160 awkward pairs (`pairs.json`, made by `pairs.py`, which names its versions).

use baywright_geometry::{
    Circle, Containment, DVec2, Outline, Polygon, SeparatingMoves, Separation, contains, distance,
    overlap_area, overlaps, separating_moves,
};
use serde::Deserialize;

/// Both sides work in `f64` on coordinates up to 5e5 mm, whose last place is 6e-11 mm: a hundred of those.
const LENGTH_MM: f64 = 1e-8;

/// An area is a sum of products of lengths up to 1e4 mm with such errors.
const AREA_MM2: f64 = 1e-3;

/// The script stands in polygons of 65,536 corners for circles when it takes an area: chords miss the arc by 2e-6 mm over
/// a few metres of arc.
const CIRCLE_AREA_MM2: f64 = 0.05;

/// The script stands in polygons of 2,048 corners for circles when it seeks a move: up to 1.2e-6 of the radius of 1.5 m.
const CIRCLE_MOVE_MM: f64 = 0.005;

#[derive(Deserialize)]
struct Table {
    library: String,
    pairs: Vec<Case>,
}

#[derive(Deserialize)]
struct Case {
    a: Shape,
    b: Shape,
    distance: f64,
    area: f64,
    #[serde(rename = "move")]
    shortest: f64,
    contained: Option<bool>,
}

#[derive(Deserialize)]
#[serde(rename_all = "lowercase")]
enum Shape {
    Circle([f64; 3]),
    Rings(Vec<Vec<[f64; 2]>>),
}

impl Shape {
    fn outline(&self) -> Outline {
        match self {
            Self::Circle([x, y, r]) => Circle::new(DVec2::new(*x, *y), *r).unwrap().into(),
            Self::Rings(rings) => {
                let mut rings =
                    rings.iter().map(|ring| ring.iter().map(|&p| DVec2::from(p)).collect::<Vec<_>>());
                Polygon::new(rings.next().unwrap(), rings.collect()).unwrap().into()
            }
        }
    }
}

fn table() -> Vec<(Outline, Outline, Case)> {
    let table: Table = serde_json::from_str(include_str!("pairs.json")).unwrap();
    assert!(table.library.starts_with("shapely"), "{}", table.library);
    assert!(table.pairs.len() >= 100);
    table.pairs.into_iter().map(|case| (case.a.outline(), case.b.outline(), case)).collect()
}

fn has_circle(a: &Outline, b: &Outline) -> bool {
    matches!(a, Outline::Circle(_)) || matches!(b, Outline::Circle(_))
}

#[test]
fn distances_agree() {
    let mut apart = 0;
    for (i, (a, b, case)) in table().iter().enumerate() {
        let got = distance(a, b);
        assert!((got.gap() - case.distance).abs() <= LENGTH_MM, "pair {i}: {got:?}, not {}", case.distance);
        apart += usize::from(matches!(got, Separation::Apart { .. }));
    }
    assert!(apart >= 40, "only {apart} pairs test a distance");
}

#[test]
fn areas_agree() {
    let mut overlapping = 0;
    for (i, (a, b, case)) in table().iter().enumerate() {
        let got = overlap_area(a, b);
        let slack = if has_circle(a, b) { CIRCLE_AREA_MM2 } else { AREA_MM2 };
        assert!((got - case.area).abs() <= slack, "pair {i}: {got}, not {}", case.area);
        assert!(overlaps(a, b) == (got > 0.0), "pair {i}");
        overlapping += usize::from(got > 0.0);
    }
    assert!(overlapping >= 60, "only {overlapping} pairs test an area");
}

#[test]
fn containment_agrees() {
    let mut inside = 0;
    for (i, (a, b, case)) in table().iter().enumerate() {
        if let (Outline::Polygon(a), Some(expected)) = (a, case.contained) {
            let got = contains(a, b);
            let within = matches!(got, Containment::Within | Containment::TouchingWithin);
            assert_eq!(within, expected, "pair {i}: {got:?}");
            inside += usize::from(within);
        }
    }
    assert!(inside >= 5, "only {inside} pairs are contained");
}

#[test]
fn shortest_moves_agree() {
    let mut moved = 0;
    for (i, (a, b, case)) in table().iter().enumerate() {
        let SeparatingMoves::Moves { length, moves } = separating_moves(&[a], b) else { continue };
        if case.shortest == 0.0 {
            continue;
        }
        let slack = if has_circle(a, b) { CIRCLE_MOVE_MM } else { LENGTH_MM };
        assert!((length - case.shortest).abs() <= slack, "pair {i}: {length}, not {}", case.shortest);
        for t in moves {
            assert!(!overlaps(a, &b.moved(t)), "pair {i}: {t} does not separate");
        }
        moved += 1;
    }
    assert!(moved >= 60, "only {moved} pairs test a move");
}
