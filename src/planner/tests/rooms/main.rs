//! Rooms as they are taped: closing errors, their spread, the wall that explains them.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test that cannot set itself up has failed")]

use baywright_planner::geometry::{DVec2, angle};
use baywright_planner::room::{Leg, Slip, slips, spread, walk};
use proptest::prelude::*;

/// A closed traverse of land surveying, with its corrections by the compass rule, as printed in the lecture notes "Compass
/// Rule: Adjustment of Bearing and Distance of A Closed Traverse" (four lines: 80.40 N 76° E, 46.30 S 36° E, 72.80 S 61° W,
/// 68.00 N 38° W; closing errors 0.285 in latitude and -0.311 in departure; each line's corrections to 0.0001).
const BEARINGS: [(f64, f64); 4] = [(80.40, 76.0), (46.30, 144.0), (72.80, 241.0), (68.00, 322.0)];
const ADJUSTED_LATITUDES: [f64; 4] = [19.3653, -37.5063, -35.3716, 53.5126];
const ADJUSTED_DEPARTURES: [f64; 3] = [78.1055, 27.2678, -63.5874];

/// Azimuths go clockwise from north; x is east here, so the walk is clockwise and turns to the right.
fn published() -> (f64, Vec<Leg>) {
    let legs = BEARINGS.iter().enumerate().map(|(i, &(length, azimuth))| {
        let next = BEARINGS[(i + 1) % 4].1;
        Leg { length_mm: length, turn_rad: -angle::radians((next - azimuth).rem_euclid(360.0)) }
    });
    (angle::radians(90.0 - BEARINGS[0].1), legs.collect())
}

#[test]
fn the_compass_rule_gives_the_published_corrections() {
    let (start, legs) = published();
    let walked = walk(start, &legs);
    assert!((walked.gap.y - 0.285).abs() < 2e-3 && (walked.gap.x + 0.311).abs() < 2e-3, "{:?}", walked.gap);
    // Walked clockwise, its turns make a full turn the other way: our rule for turns wants them the usual way round, so the
    // picture is mirrored, which changes the sign of y and of every turn.
    let mirrored: Vec<Leg> = legs.iter().map(|leg| Leg { turn_rad: -leg.turn_rad, ..*leg }).collect();
    assert!(walk(-start, &mirrored).turn_gap_rad.abs() < 1e-9);
    let corners: Vec<DVec2> = spread(-start, &mirrored).into_iter().map(|p| DVec2::new(p.x, -p.y)).collect();
    for i in 0..4 {
        let line = corners[(i + 1) % 4] - corners[i];
        assert!((line.y - ADJUSTED_LATITUDES[i]).abs() < 2e-3, "latitude {i}: {}", line.y);
        if let Some(departure) = ADJUSTED_DEPARTURES.get(i) {
            assert!((line.x - departure).abs() < 2e-3, "departure {i}: {}", line.x);
        }
    }
}

/// An L of six walls, all corners square: 8 000, 4 000, 3 000, 2 000, 5 000, 6 000.
fn ell() -> Vec<Leg> {
    let (left, right) = (angle::radians(90.0), angle::radians(-90.0));
    [(8_000.0, left), (4_000.0, left), (3_000.0, right), (2_000.0, left), (5_000.0, left), (6_000.0, left)]
        .map(|(length, turn)| Leg { length_mm: length, turn_rad: turn })
        .to_vec()
}

#[test]
fn a_room_that_closes_stays_as_it_is() {
    let walked = walk(0.0, &ell());
    assert!(walked.gap.length() < 1e-6 && walked.turn_gap_rad.abs() < 1e-12);
    assert_eq!(walked.perimeter_mm, 28_000.0);
    for (a, b) in spread(0.0, &ell()).iter().zip(&walked.places) {
        assert!(a.distance(*b) < 1e-6);
    }
    assert!(slips(0.0, &ell(), 5.0).is_empty());
}

#[test]
fn the_wall_that_was_misread_is_among_those_named() {
    for wall in 0..6 {
        let mut legs = ell();
        legs[wall].length_mm += 300.0;
        let named = slips(0.0, &legs, 20.0);
        let right = ell()[wall].length_mm;
        let found = named.iter().any(|own| {
            matches!(own.slip, Slip::Length { wall: w, would_be } if w == wall && (would_be - right).abs() < 1e-6)
        });
        assert!(found, "{wall}: {named:?}");
        // Only walls that run the same way can explain it: three of the six.
        assert_eq!(named.len(), 3, "{named:?}");
        assert!(named.iter().all(|own| own.leaves < 1e-6));
    }
}

#[test]
fn a_wrong_last_turn_is_told_by_the_turns_alone() {
    // No wall's end hangs on it: the walk closes, and only the sum of the turns shows it.
    for by in [-90.0, -10.0, 1.0, 45.0_f64] {
        let mut legs = ell();
        let last = legs.len() - 1;
        let right = legs[last].turn_rad;
        legs[last].turn_rad += by.to_radians();
        let named = slips(0.0, &legs, 20.0);
        let [one] = named.as_slice() else { panic!("{by}: {named:?}") };
        let Slip::Turn { wall, would_be } = one.slip else { panic!("{one:?}") };
        assert_eq!(wall, last);
        assert!((would_be - right).abs() < 1e-9, "{would_be}");
    }
}

#[test]
fn the_corner_that_was_misread_is_named() {
    for wall in 0..5 {
        let mut legs = ell();
        legs[wall].turn_rad += angle::radians(4.0);
        let named = slips(0.0, &legs, 20.0);
        let found = named.iter().any(|own| {
            matches!(own.slip, Slip::Turn { wall: w, would_be }
                if w == wall && (would_be - ell()[wall].turn_rad).abs() < 1e-6)
        });
        assert!(found, "{wall}: {named:?}");
        assert!(named.iter().all(|own| matches!(own.slip, Slip::Turn { .. })));
    }
}

proptest! {
    /// Whatever is taped, the spread corners close, and the correction of each wall is its share of the gap.
    #[test]
    fn spread_corners_share_the_gap(
        start in -3.0f64..3.0,
        lengths in proptest::collection::vec(10.0f64..50_000.0, 3..12),
        wobble in proptest::collection::vec(-0.2f64..0.2, 12),
    ) {
        let count = lengths.len();
        let each = std::f64::consts::TAU / count as f64;
        let legs: Vec<Leg> = lengths
            .iter()
            .zip(&wobble)
            .map(|(&length, &by)| Leg { length_mm: length, turn_rad: each + by })
            .collect();
        let walked = walk(start, &legs);
        let sum: f64 = wobble[..count].iter().sum();
        prop_assert!((walked.turn_gap_rad - sum).abs() < 1e-9);
        let level: Vec<Leg> =
            legs.iter().map(|leg| Leg { turn_rad: leg.turn_rad - sum / count as f64, ..*leg }).collect();
        let level = walk(start, &level);
        let corners = spread(start, &legs);
        prop_assert_eq!(corners.len(), count);
        for i in 0..count {
            let line = corners[(i + 1) % count] - corners[i];
            let taped = level.places[i + 1] - level.places[i];
            let share = level.gap * (lengths[i] / level.perimeter_mm);
            prop_assert!((taped - share - line).length() < 1e-6 * level.perimeter_mm);
        }
    }
}

mod walls {
    use baywright_planner::geometry::Span;
    use baywright_planner::model::{AlcovePart, Bay, Material, Opening, OpeningKind, Provenance, RoomFault};

    use super::*;

    fn bay() -> Bay {
        let corners = [(0.0, 0.0), (8_000.0, 0.0), (8_000.0, 5_000.0), (0.0, 5_000.0)]
            .map(|(x, y)| DVec2::new(x, y))
            .to_vec();
        let names = ["south", "east", "north", "west"].map(str::to_owned);
        let mut bay = Bay::of_corners(
            "bay".into(),
            "Bay".into(),
            corners,
            (&names, |n| n.to_string()),
            3_000.0,
            Provenance::Example,
        )
        .unwrap();
        for (name, wall, from) in [("gate", 0, 500.0), ("side door", 0, 6_000.0), ("window", 2, 1_000.0)] {
            bay.openings.push(Opening {
                id: name.into(),
                kind: OpeningKind::SwingDoor,
                wall,
                from_mm: from,
                width_mm: 900.0,
                span: Span::new(0.0, 2_000.0).unwrap(),
                material: Material::Wood,
                shut: true,
                free_beyond_mm: 0.0,
                is_exit: false,
            });
        }
        bay
    }

    fn part(part: AlcovePart) -> String {
        format!("{part:?}")
    }

    /// Where an opening begins in the bay.
    fn place(bay: &Bay, name: &str) -> DVec2 {
        let own = bay.openings.iter().find(|own| own.id.as_str() == name).unwrap();
        let (a, b) = bay.wall_ends(own.wall).unwrap();
        a + (b - a).normalize() * own.from_mm
    }

    #[test]
    fn names_stay_with_their_walls_whichever_way_the_corners_go() {
        let corners: Vec<DVec2> = bay().room.outer().iter().rev().copied().collect();
        // Round the other way from (0, 5 000): north, east, south, west.
        let names = ["north", "east", "south", "west"].map(str::to_owned);
        let turned = Bay::of_corners(
            "b".into(),
            "B".into(),
            corners,
            (&names, |n| n.to_string()),
            3_000.0,
            Provenance::Example,
        )
        .unwrap();
        for (i, wall) in turned.walls.iter().enumerate() {
            let (a, b) = turned.wall_ends(i).unwrap();
            let middle = (a + b) * 0.5;
            let expected = match (middle.x as i32, middle.y as i32) {
                (4_000, 0) => "south",
                (8_000, 2_500) => "east",
                (4_000, 5_000) => "north",
                _ => "west",
            };
            assert_eq!(wall.id.as_str(), expected, "{middle}");
        }
    }

    #[test]
    fn corners_that_are_typed_in_another_order_move_no_wall_in_silence() {
        let bay = bay();
        let corners = bay.room.outer().to_vec();
        let reversed: Vec<DVec2> = corners.iter().rev().copied().collect();
        let mut from_the_third = corners.clone();
        from_the_third.rotate_left(2);
        // A corner that is put right on the way is no excuse.
        let mut other_way = reversed.clone();
        other_way[0].y -= 40.0;
        for typed in [reversed, from_the_third, other_way] {
            let mut changed = bay.clone();
            assert_eq!(changed.replace_corners(typed), Err(RoomFault::OtherOrder));
            assert_eq!(changed, bay);
        }
        let mut changed = bay.clone();
        assert_eq!(changed.replace_corners(corners[..3].to_vec()), Err(RoomFault::NoSuch));
        let mut longer = corners;
        longer[1].x += 500.0;
        longer[2].x += 500.0;
        changed.replace_corners(longer.clone()).unwrap();
        assert_eq!(changed, Bay { room: changed.room.clone(), ..bay });
        assert_eq!(changed.room.outer(), longer);
    }

    #[test]
    fn an_alcove_leaves_every_opening_where_it_was() {
        let before = bay();
        let mut after = before.clone();
        after.alcove(0, (2_000.0, 3_000.0, 800.0), part).unwrap();
        assert_eq!((after.walls.len(), after.room.outer().len()), (8, 8));
        for name in ["gate", "side door", "window"] {
            assert!(place(&before, name).distance(place(&after, name)) < 1e-6, "{name}");
        }
        assert!((after.room.area() - before.room.area() - 3_000.0 * 800.0).abs() < 1e-3);
        // Into the room: a pier.
        let mut pier = before.clone();
        pier.alcove(0, (2_000.0, 400.0, -400.0), part).unwrap();
        assert!((before.room.area() - pier.room.area() - 400.0 * 400.0).abs() < 1e-3);
        // Not through a door, nor beyond the wall.
        let mut refused = before.clone();
        assert!(matches!(refused.alcove(0, (1_000.0, 2_000.0, 500.0), part), Err(RoomFault::TooLong { .. })));
        assert!(matches!(refused.alcove(0, (6_000.0, 3_000.0, 500.0), part), Err(RoomFault::TooLong { .. })));
        assert_eq!(refused, before);
    }

    #[test]
    fn corners_move_and_go_and_crossing_walls_are_refused() {
        let mut room = bay();
        room.move_corner(2, DVec2::new(8_500.0, 5_200.0)).unwrap();
        assert_eq!(room.room.outer()[2], DVec2::new(8_500.0, 5_200.0));
        let before = room.clone();
        assert!(room.move_corner(2, DVec2::new(-1_000.0, -1_000.0)).is_err());
        assert!(room.move_corner(9, DVec2::ZERO).is_err());
        assert_eq!(room, before);
        room.push_wall(1, 500.0).unwrap();
        let mut alcove = bay();
        alcove.alcove(1, (1_000.0, 1_000.0, 300.0), part).unwrap();
        for _ in 0..4 {
            alcove.remove_corner(2).unwrap();
        }
        assert_eq!(alcove.room.outer(), bay().room.outer());
        assert_eq!(alcove.openings, bay().openings);
    }
}
