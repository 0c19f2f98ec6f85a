use std::f64::consts::{FRAC_PI_2, PI};

use super::*;
use crate::circle::Circle;
use crate::polygon::Polygon;
use crate::prism::Span;

fn block(low: (f64, f64), high: (f64, f64), bottom: f64, top: f64) -> Prism {
    let polygon = Polygon::rectangle(low.into(), high.into()).unwrap();
    Prism::new(polygon.into(), Span::new(bottom, top).unwrap())
}

fn drum(at: (f64, f64), radius: f64, bottom: f64, top: f64) -> Prism {
    Prism::new(Circle::new(at.into(), radius).unwrap().into(), Span::new(bottom, top).unwrap())
}

/// A board 400 wide and 200 high, four metres ahead of a eye at 500 mm.
fn board() -> (DVec3, Face) {
    let face = Face::new(DVec3::new(4000.0, 0.0, 500.0), PI, 0.0, 400.0, 200.0).unwrap();
    (DVec3::new(0.0, 0.0, 500.0), face)
}

fn seen(eye: DVec3, face: &Face, things: &[Prism]) -> VisibleFace {
    match target_share(eye, face, &things.iter().collect::<Vec<_>>()) {
        Share::Seen(seen) => {
            let area: f64 = seen.visible.iter().map(|ring| signed_area(ring)).sum();
            assert!((area / face.area() - seen.share).abs() < 1e-9);
            seen
        }
        other => panic!("{other:?}"),
    }
}

#[track_caller]
fn check(things: &[Prism], share: f64) {
    let (eye, face) = board();
    let found = seen(eye, &face, things).share;
    assert!((found - share).abs() < 1e-9, "{found} not {share}");
}

#[test]
fn halves_of_a_board() {
    check(&[], 1.0);
    // Half way, so magnified twice.
    check(&[block((2000.0, 0.0), (2100.0, 500.0), 0.0, 2000.0)], 0.5);
    check(&[block((2000.0, -500.0), (2100.0, 500.0), 500.0, 2000.0)], 0.5);
    // Overhead: its far edge hangs lowest in the picture.
    check(&[block((1900.0, -500.0), (2000.0, 500.0), 525.0, 2000.0)], 0.75);
    // Its top below the eye: the far edge decides.
    check(
        &[block((2000.0, -500.0), (2100.0, 500.0), 0.0, 475.0)],
        1.0 - (100.0 - 25.0 * 4000.0 / 2100.0) / 200.0,
    );
    check(&[block((2000.0, -500.0), (2100.0, 500.0), 0.0, 2000.0)], 0.0);
    // The same half twice, and two halves that stand flush.
    check(
        &[
            block((2000.0, 0.0), (2100.0, 500.0), 0.0, 2000.0),
            block((1000.0, 0.0), (1100.0, 500.0), 0.0, 2000.0),
        ],
        0.5,
    );
    check(
        &[
            block((2000.0, 0.0), (2100.0, 500.0), 0.0, 2000.0),
            block((2000.0, -500.0), (2100.0, 0.0), 0.0, 2000.0),
        ],
        0.0,
    );
}

#[test]
fn what_only_touches_the_view_hides_nothing() {
    // Behind the face and flush with it; behind the eye and flush with it; beside, above and below the view.
    check(&[block((4000.0, -500.0), (4100.0, 500.0), 0.0, 2000.0)], 1.0);
    check(&[block((-100.0, -500.0), (0.0, 500.0), 0.0, 2000.0)], 1.0);
    check(&[block((1900.0, 100.0), (2000.0, 500.0), 0.0, 2000.0)], 1.0);
    check(&[block((1900.0, -500.0), (2000.0, 500.0), 550.0, 2000.0)], 1.0);
    check(&[block((1900.0, -500.0), (2000.0, 500.0), 0.0, 450.0)], 1.0);
    // One edge through the eye, along the middle of the view.
    check(&[block((0.0, 0.0), (2100.0, 500.0), 0.0, 2000.0)], 0.5);
    check(&[block((0.0, -500.0), (2100.0, 500.0), 0.0, 500.0)], 0.5);
    let (eye, face) = board();
    // A column against the side of the view.
    let flush = drum((2000.0, 100.0 + 50.0 * 1.0025_f64.sqrt()), 50.0, 0.0, 2000.0);
    assert!(seen(eye, &face, &[flush]).hidden_by.is_empty());
}

#[test]
fn things_across_the_sensor_or_the_face() {
    // From behind the eye to beyond the board.
    check(&[block((-500.0, 50.0), (5000.0, 500.0), 0.0, 2000.0)], 0.5 + 0.5 * 50.0 / 200.0);
    check(&[block((-500.0, 50.0), (2000.0, 500.0), 0.0, 2000.0)], 0.5 + 0.5 * 100.0 / 200.0);
    // A column through the board's plane: what is before it counts.
    check(&[block((3000.0, 150.0), (5000.0, 500.0), 0.0, 2000.0)], 0.5 + 0.5 * 150.0 / 200.0);
}

#[test]
fn a_column_is_as_wide_as_its_tangents() {
    let (eye, face) = board();
    let half = 4000.0 * (60.0_f64 / 2000.0).asin().tan();
    let found = seen(eye, &face, &[drum((2000.0, 0.0), 60.0, 0.0, 2000.0)]);
    assert!((found.share - (1.0 - half / 200.0)).abs() < 1e-12, "side tangents are exact");
    // With its lid in view the rim stands in as tangents, never inside, never more than the sagitta outside.
    let lid = seen(eye, &face, &[drum((2000.0, 0.0), 60.0, 0.0, 475.0)]).share;
    let finer = seen(eye, &face, &[block((1940.0, -60.0), (2060.0, 60.0), 0.0, 475.0)]).share;
    assert!(lid > finer && lid < 1.0);
    // Closed form: the far rim of the lid, seen at v = -25 · 4000 / x over each angle.
    let n = 200_000;
    let (mut hidden, mut last) = (0.0, None);
    for i in 0..=n {
        let turn = FRAC_PI_2 + 0.03_f64.asin() - (PI + 2.0 * 0.03_f64.asin()) * f64::from(i) / f64::from(n);
        let (x, y) = (2000.0 + 60.0 * turn.cos(), 60.0 * turn.sin());
        let (u, v) = (y * 4000.0 / x, 100.0 - 25.0 * 4000.0 / x);
        if let Some((before, at)) = last.replace((u, v)) {
            hidden += (f64::max(before, -200.0) - u.max(-200.0)).abs() * 0.5 * (at + v);
        }
    }
    let exact = 1.0 - hidden / face.area();
    assert!((lid - exact).abs() < 2e-5 && lid <= exact + 1e-9, "{lid} {exact}");
}

#[test]
fn the_worst_hider_comes_first() {
    let (eye, face) = board();
    let things = [
        block((2000.0, 90.0), (2100.0, 500.0), 0.0, 2000.0),
        block((5000.0, -90.0), (5100.0, 500.0), 0.0, 2000.0),
        block((2000.0, -500.0), (2100.0, 0.0), 0.0, 2000.0),
        block((2000.0, 90.0), (2100.0, 500.0), 0.0, 2000.0),
    ];
    let order: Vec<usize> = seen(eye, &face, &things).hidden_by.iter().map(|h| h.thing).collect();
    assert_eq!(order, [2, 0, 3]);
}

#[test]
fn no_answer_from_inside_or_behind() {
    let (eye, face) = board();
    let around = block((-50.0, -50.0), (50.0, 50.0), 0.0, 2000.0);
    let other = block((500.0, -50.0), (550.0, 50.0), 0.0, 2000.0);
    assert_eq!(target_share(eye, &face, &[&other, &around]), Share::EyeInside { thing: 1 });
    assert_eq!(target_share(DVec3::new(4000.0, 9.0, 1.0), &face, &[]), Share::Behind);
    assert_eq!(target_share(DVec3::new(4001.0, 9.0, 1.0), &face, &[]), Share::Behind);
}

#[test]
fn a_notched_thing_counts_its_pieces_once() {
    let (eye, face) = board();
    let gate = |x: f64, y: f64| DVec2::new(x, y);
    let ring = Polygon::simple(vec![
        gate(2000.0, -80.0),
        gate(2400.0, -80.0),
        gate(2400.0, 80.0),
        gate(2000.0, 80.0),
        gate(2000.0, 40.0),
        gate(2300.0, 40.0),
        gate(2300.0, -40.0),
        gate(2000.0, -40.0),
    ])
    .unwrap();
    let found = seen(eye, &face, &[Prism::new(ring.into(), Span::new(0.0, 2000.0).unwrap())]);
    assert!((found.share - 0.2).abs() < 1e-12, "{}", found.share);
    assert!((found.hidden_by[0].share - 0.8).abs() < 1e-12);
}

#[test]
fn a_mat_on_the_floor_seen_over_a_kerb() {
    let mat = Face::new(DVec3::new(1000.0, 0.0, 0.0), 0.0, -FRAC_PI_2, 400.0, 200.0).unwrap();
    let eye = DVec3::new(0.0, 0.0, 1000.0);
    // A kerb 100 high ends at 890: its top edge is seen at 890 / 0.9 on the floor.
    let found = seen(eye, &mat, &[block((880.0, -900.0), (890.0, 900.0), 0.0, 100.0)]);
    assert!((found.share - (1100.0 - 890.0 / 0.9) / 200.0).abs() < 1e-12, "{}", found.share);
}
