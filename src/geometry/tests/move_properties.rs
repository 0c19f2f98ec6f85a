//! What must hold for every move that the crate proposes.

// A missing ring fails the test, as it should.
#![allow(clippy::unwrap_used)]

mod awkward;

use awkward::{outline, pair};
use baywright_geometry::convex::{ROUNDED_MM, hull_grown};
use baywright_geometry::separate::EQUAL_MOVES_MM;
use baywright_geometry::tolerance::SAGITTA_MM;
use baywright_geometry::{
    Containment, DVec2, Located, Outline, PlanPose, Segment, SeparatingMoves, contains, distance,
    distance_to_point, exits, holds, hull, locate, moves_inside, overlaps, overlaps_by, protrusions,
    separating_moves,
};
use proptest::prelude::*;

proptest! {
    #![proptest_config(awkward::config(1000))]

    #[test]
    fn a_separating_move_separates_and_no_shorter_one_does(pair in pair()) {
        match separating_moves(&[&pair.a], &pair.b) {
            SeparatingMoves::AlreadyApart => prop_assert!(!overlaps(&pair.a, &pair.b)),
            SeparatingMoves::Moves { length, moves } => {
                prop_assert!(overlaps(&pair.a, &pair.b));
                prop_assert!(!moves.is_empty() && length.is_finite());
                for &t in &moves {
                    prop_assert!((t.length() - length).abs() <= 2.0 * EQUAL_MOVES_MM);
                    let moved = pair.b.moved(t);
                    prop_assert!(!overlaps(&pair.a, &moved), "{t} leaves an overlap");
                    prop_assert!(distance(&pair.a, &moved).gap() <= pair.length_slack());
                }
                for (share, turns) in [(0.9999, 97), (0.97, 41), (0.7, 17), (0.3, 7)] {
                    let reach = length * share - 2.0 * pair.length_slack();
                    for i in 0..turns {
                        let (sin, cos) = libm::sincos(std::f64::consts::TAU * f64::from(i) / f64::from(turns));
                        let t = DVec2::new(cos, sin) * reach;
                        prop_assert!(reach <= 0.0 || overlaps(&pair.a, &pair.b.moved(t)), "{t} is shorter");
                    }
                }
            }
        }
    }

    /// What is quickly found too deep is no deeper than the shortest move says, and whatever is inside has no part outside.
    #[test]
    fn quick_answers_agree_with_the_exact_ones(pair in pair(), share in 0.0..1.5_f64) {
        if let SeparatingMoves::Moves { length, .. } = separating_moves(&[&pair.a], &pair.b) {
            let depth = length * share;
            let is_deeper = overlaps_by(&pair.a, &pair.b, depth);
            prop_assert!(!is_deeper || length >= depth - pair.length_slack(), "{length} is less than {depth}");
        }
        if let Outline::Polygon(room) = &pair.a {
            let inside = matches!(contains(room, &pair.b), Containment::Within | Containment::TouchingWithin);
            prop_assert_eq!(holds(room, &pair.b), inside);
            prop_assert_eq!(inside, protrusions(room, &pair.b).is_empty());
        }
    }

    /// All that is as near as asked, and hardly more.
    #[test]
    fn a_grown_hull_is_as_wide_as_asked(pair in pair(), by in 0.0..3_000.0_f64) {
        let corners = pair.a.as_polygon().outer().to_vec();
        if let (Some(own), Some(grown)) = (hull(&corners).map(Outline::from), hull_grown(&corners, by)) {
            let slack = pair.length_slack().max(1e-9 * by);
            for &p in grown.outer() {
                let off = distance_to_point(&own, p).gap();
                prop_assert!((by - slack..=by + ROUNDED_MM + slack).contains(&off), "{off} for {by}");
            }
            for edge in grown.edges() {
                let off = distance_to_point(&own, edge.at(0.5)).gap();
                prop_assert!(off >= by - slack, "the middle of an edge is {off} off, not {by}");
            }
        }
    }

    #[test]
    fn exits_start_with_the_shortest_and_all_lead_out(pair in pair()) {
        let all = exits(&[&pair.a], &pair.b);
        match separating_moves(&[&pair.a], &pair.b) {
            SeparatingMoves::AlreadyApart => prop_assert!(all.is_empty()),
            SeparatingMoves::Moves { length, .. } => {
                prop_assert!((all[0].length() - length).abs() <= 2.0 * EQUAL_MOVES_MM);
                prop_assert!(all.windows(2).all(|w| w[0].length() <= w[1].length() + EQUAL_MOVES_MM));
                for &t in &all {
                    prop_assert!(!overlaps(&pair.a, &pair.b.moved(t)));
                    // A local minimum: a little less of the same move is no way out.
                    let less = t * (1.0 - 1e-3);
                    let shorter = t.length() * 1e-3;
                    let back = pair.b.moved(less);
                    // By a few millionths of a millimetre a thin corner is in by less than what counts as touching.
                    let touches = shorter < 1e-4 && distance(&pair.a, &back).gap() <= pair.length_slack();
                    let is_in = shorter < 1e-7 || touches || overlaps(&pair.a, &back);
                    prop_assert!(is_in, "{t} is no minimum");
                }
            }
        }
    }

    #[test]
    fn several_obstacles_are_cleared_at_once(
        pair in pair(), third in outline(), x in -6.0..6.0_f64, y in -6.0..6.0_f64,
    ) {
        let at = pair.b.bounds().centre() + DVec2::new(x, y) * pair.unit;
        let third = third.placed(&PlanPose::new(at, x));
        let obstacles = [&pair.a, &third];
        if let SeparatingMoves::Moves { length, moves } = separating_moves(&obstacles, &pair.b) {
            let alone = obstacles.map(|o| match separating_moves(&[o], &pair.b) {
                SeparatingMoves::AlreadyApart => 0.0,
                SeparatingMoves::Moves { length, .. } => length,
            });
            prop_assert!(length >= alone[0].max(alone[1]) - pair.length_slack());
            for t in moves {
                let moved = pair.b.moved(t);
                prop_assert!(!overlaps(&pair.a, &moved) && !overlaps(&third, &moved));
            }
            for i in 0..60 {
                let (sin, cos) = libm::sincos(std::f64::consts::TAU * f64::from(i) / 60.0);
                let moved = pair.b.moved(DVec2::new(cos, sin) * (0.99 * length));
                prop_assert!(overlaps(&pair.a, &moved) || overlaps(&third, &moved));
            }
        }
    }

    #[test]
    fn what_protrudes_is_reported_and_can_be_brought_in(pair in pair()) {
        let Outline::Polygon(room) = &pair.a else { return Ok(()) };
        let inside = matches!(
            contains(room, &pair.b),
            Containment::Within | Containment::TouchingWithin
        );
        let found = protrusions(room, &pair.b);
        prop_assert_eq!(found.is_empty(), inside, "{:?}", found);
        prop_assert!(found.windows(2).all(|w| w[0].depth >= w[1].depth));
        for p in &found {
            // The place named is that far from the edge named, and no edge is nearer.
            let ring = room.rings().nth(p.ring).unwrap();
            let edge = Segment::new(ring[p.edge], ring[(p.edge + 1) % ring.len()]);
            let least = room.edges().map(|e| e.distance_to(p.deepest)).fold(f64::INFINITY, f64::min);
            prop_assert!((edge.distance_to(p.deepest) - p.depth).abs() <= 2e-6 && least >= p.depth - 2e-6);
        }
        // No sampled point of the thing outside the room is further from it.
        let (room_outline, around) = (Outline::Polygon(room.clone()), pair.b.bounds());
        let deepest = found.first().map_or(0.0, |p| p.depth);
        // A disc's depth between two edges is that of a polygon within it.
        let arc = if matches!(pair.b, Outline::Circle(_)) { SAGITTA_MM } else { 0.0 };
        for i in 0..20 {
            for j in 0..20 {
                let p = around.low + around.size() * DVec2::new(f64::from(i), f64::from(j)) / 19.0;
                if locate(&pair.b, p) != Located::Outside && locate(&room_outline, p) == Located::Outside {
                    let depth = distance_to_point(&room_outline, p).gap();
                    prop_assert!(depth <= deepest + arc + 1e-6 + 2.0 * pair.length_slack(), "{p} {depth} {deepest}");
                }
            }
        }
        let moves = moves_inside(room, &pair.b);
        prop_assert_eq!(inside, moves.first() == Some(&DVec2::ZERO));
        for &t in &moves {
            let now = contains(room, &pair.b.moved(t));
            prop_assert!(matches!(now, Containment::Within | Containment::TouchingWithin), "{t}: {now:?}");
        }
        // It must move at least as far as it sticks out.
        if let (Some(p), Some(t)) = (found.first(), moves.first()) {
            prop_assert!(t.length() >= p.depth - 1e-6 - pair.length_slack());
        }
        // No sampled shorter move brings it in.
        if let Some(t) = moves.first() {
            for i in 0..40 {
                let (sin, cos) = libm::sincos(std::f64::consts::TAU * f64::from(i) / 40.0);
                let less = DVec2::new(cos, sin) * (0.99 * t.length() - 2.0 * pair.length_slack());
                let now = contains(room, &pair.b.moved(less));
                prop_assert!(
                    inside || t.length() < 1e-7 || !matches!(now, Containment::Within | Containment::TouchingWithin)
                );
            }
        }
    }
}
