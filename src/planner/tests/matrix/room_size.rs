//! How big an empty room must be.

use baywright_planner::matrix::{
    Along, Curve, Needs, RoomSize, Strip, in_empty_room, in_room, needs, smallest, smallest_for_width,
};
use baywright_planner::place::{Search, Slack};

use crate::made::{line, two};
use crate::support::*;
use crate::{Severity, judge};

const NONE: Slack = Slack { mm: 0.0, rad: 0.0 };

/// The car's own shape alone, m: its body is this outline, and wheels and mirrors lie inside of it.
fn shape(ring: &[(f64, f64)]) -> Arrangement {
    let mut own = clear();
    own.aiming.zones.clear();
    own.aiming.placements.clear();
    own.aiming.mark_plan.clear();
    own.stands.clear();
    let corners: Vec<DVec2> = ring.iter().map(|&(x, y)| DVec2::new(x, y) * 1_000.0).collect();
    let car = &mut own.vehicle;
    car.outline_top = corners.clone();
    let body = Polygon::simple(corners).unwrap();
    car.body = vec![Prism::new(body.into(), span(150.0, 1_500.0))].into();
    car.mirrors = Mirrors { width_mm: 4.0, ahead_mm: 0.0, height_mm: 1_000.0 };
    (car.wheelbase_mm, car.track_front_mm, car.track_rear_mm) = (2.0, 2.0, 2.0);
    (car.tyre_width_mm, car.tyre_diameter_mm) = (1.0, 2.0);
    own
}

/// The rectangles of least area around published shapes (computed with shapely 2.2.0 / GEOS 3.14.1 by their oriented envelopes).
#[test]
fn the_least_rectangles_of_an_independent_library() {
    let hexagon: Vec<(f64, f64)> = (0..6)
        .map(|nth| {
            let way = angle::direction(angle::radians(60.0 * f64::from(nth)));
            (way.x, way.y)
        })
        .collect();
    let turned = |(x, y): (f64, f64)| {
        let p = crate::geometry::PlanPose::new(DVec2::ZERO, angle::radians(30.0)).turned(DVec2::new(x, y));
        (p.x, p.y)
    };
    let rotated: Vec<(f64, f64)> =
        [(-1.5, -0.5), (1.5, -0.5), (1.5, 0.5), (-1.5, 0.5)].into_iter().map(turned).collect();
    let ell = [(-0.5, -0.5), (2.5, -0.5), (2.5, 0.5), (0.5, 0.5), (0.5, 3.5), (-0.5, 3.5)];
    type Case<'a> = (&'a str, &'a [(f64, f64)], [f64; 2]);
    let cases: [Case<'_>; 3] = [
        ("3 by 1, turned by 30 degrees", &rotated, [1_000.0, 3_000.0]),
        ("an L", &ell, [3_000.0, 4_000.0]),
        // 1732.05, told to 10 mm.
        ("a regular hexagon", &hexagon, [1_740.0, 2_000.0]),
    ];
    for (name, ring, expected) in cases {
        let own = needs(&line(shape(ring)), &NONE).unwrap();
        let least = smallest(&[own], 0.0).unwrap();
        let mut sides = [least.length_mm, least.width_mm];
        sides.sort_by(f64::total_cmp);
        assert_eq!(sides, expected, "{name}");
    }
}

/// The set-up that reaches 9200 by 3000 needs such a room; at a heading its extents are those of its turned corners.
#[test]
fn one_set_up_is_its_own_rectangle() {
    let own = needs(&line(clear()), &NONE).unwrap();
    let least = smallest(std::slice::from_ref(&own), 0.0).unwrap();
    assert_eq!((least.width_mm, least.length_mm, least.decides), (3_000.0, 9_200.0, 0));
    assert!((own.length_for(3_000.0) - 9_200.0).abs() < 1e-6 && own.length_for(2_999.0).is_infinite());
    assert!((own.least_width() - 3_000.0).abs() < 1e-6);
    // Where it is as wide as it is long, the other way round does too.
    assert!((own.length_for(9_200.0) - 3_000.0).abs() < 1e-6);
    assert!(smallest_for_width(&[own], 2_900.0, 0.0).is_none());
}

/// It fits in the room that is told and not in one 10 mm shorter or narrower, by the search in that very room.
#[test]
fn the_room_that_is_told_is_enough_and_ten_less_is_not() {
    let all = two();
    let slack = Slack { mm: 30.0, rad: angle::radians(0.5) };
    let needed: Vec<_> = all.iter().map(|own| needs(&line(own.clone()), &slack).unwrap()).collect();
    let room = smallest(&needed, 0.0).unwrap();
    let fits = |length: f64, width: f64| {
        all.iter().all(|own| {
            let search = Search::new(&in_empty_room(own, length, width).unwrap());
            (0..360).any(|nth| search.clear_places(angle::radians(f64::from(nth)), &slack).is_some())
        })
    };
    // Where a place is a point its region has no area: a hair more room shows it.
    assert!(fits(room.length_mm + 0.1, room.width_mm + 0.1), "{room:?}");
    assert!(!fits(room.length_mm - 10.1, room.width_mm), "{room:?}");
    // Monotone: a wider room need not be longer.
    let lengths: Vec<f64> = (0..40)
        .filter_map(|nth| smallest_for_width(&needed, 3_000.0 + 200.0 * f64::from(nth), 0.0))
        .map(|own| own.length_mm)
        .collect();
    assert!(lengths.len() > 10 && lengths.windows(2).all(|own| own[1] <= own[0]), "{lengths:?}");
}

/// The curve is the table of least lengths by width; its least area is the smallest room; a line that decides adds what the room
/// without it saves, and one that fits in every room of the curve adds nothing.
#[test]
fn the_curve_says_how_long_for_a_width_and_what_each_adds() {
    let all = two();
    let needed: Vec<Option<Needs>> = all.iter().map(|own| needs(&line(own.clone()), &NONE)).collect();
    let own = Curve::of(&needed, 0.0);
    let fit: Vec<Needs> = needed.iter().flatten().cloned().collect();
    assert_eq!(own.smallest, smallest(&fit, 0.0));
    for pair in own.rooms.windows(2) {
        assert!(pair[0].width_mm < pair[1].width_mm && pair[0].length_mm > pair[1].length_mm, "{pair:?}");
    }
    for room in &own.rooms {
        assert_eq!(
            Some(room.length_mm),
            smallest_for_width(&fit, room.width_mm, 0.0).map(|own| own.length_mm)
        );
        for own in &fit {
            let pose = own.pose_in(room).unwrap();
            assert!(pose.origin().cmpge(DVec2::ZERO).all());
            assert!(pose.origin().x <= room.length_mm && pose.origin().y <= room.width_mm);
        }
    }
    let area = own.smallest.as_ref().unwrap().area();
    for (nth, adds) in own.adds.iter().enumerate() {
        let rest: Vec<Needs> =
            needed.iter().enumerate().filter(|own| own.0 != nth).flat_map(|own| own.1.clone()).collect();
        let without = smallest(&rest, 0.0).map_or(0.0, |own| own.area());
        assert!((adds.unwrap() - (area - without)).abs() < 1.0);
        let alone = smallest(std::slice::from_ref(needed[nth].as_ref().unwrap()), 0.0).unwrap();
        let told = own.alone[nth].as_ref().unwrap();
        assert_eq!((told.length_mm, told.width_mm, told.decides), (alone.length_mm, alone.width_mm, nth));
    }
    // What fits in no empty room takes the others nothing.
    let with = Curve::of(&[needed[0].clone(), None, needed[1].clone()], 0.0);
    assert_eq!(with.smallest.as_ref().map(|own| own.area()), Some(area));
    assert_eq!((with.adds[1], &with.alone[1]), (None, &None));
    assert!(with.smallest.is_some_and(|own| own.decides != 1));
}

/// A strip for what is in store lies along the wall that leaves the room smaller: 9200 by 3000 with 800 in store is 10 000 by 3000, not 9200
/// by 3800; of two that need other shapes it is the least of all widths, looked at 10 mm apart. Nothing reaches into it.
#[test]
fn what_is_in_store_takes_of_the_shorter_side() {
    let own = needs(&line(clear()), &NONE).unwrap();
    let least = smallest(std::slice::from_ref(&own), 800.0).unwrap();
    assert_eq!((least.length_mm, least.width_mm), (10_000.0, 3_000.0));
    assert_eq!(least.strip, Some(Strip { depth_mm: 800.0, along: Along::Width }));
    assert_eq!(least.in_store(), Some([DVec2::new(9_200.0, 0.0), DVec2::new(10_000.0, 3_000.0)]));
    // Where the length is given by the width, the strip takes of the width as soon as that is enough.
    let wide = smallest_for_width(std::slice::from_ref(&own), 3_800.0, 800.0).unwrap();
    assert_eq!((wide.length_mm, wide.strip.map(|own| own.along)), (9_200.0, Some(Along::Length)));
    let narrow = smallest_for_width(std::slice::from_ref(&own), 3_790.0, 800.0).unwrap();
    assert_eq!((narrow.length_mm, narrow.strip.map(|own| own.along)), (10_000.0, Some(Along::Width)));
    assert_eq!(smallest_for_width(&[own], 2_990.0, 800.0), None);

    let all = two();
    let lines: Vec<_> = all.iter().map(|own| line(own.clone())).collect();
    let needed: Vec<Needs> = lines.iter().map(|own| needs(own, &NONE).unwrap()).collect();
    for store in [0.0, 300.0, 1_250.0, 4_000.0] {
        let found = smallest(&needed, store).unwrap();
        let longest = |width: f64| needed.iter().map(|own| own.length_for(width)).fold(0.0, f64::max);
        let brute = (0..2_000)
            .map(|nth| 10.0 * f64::from(nth))
            .flat_map(|width| [(longest(width - store)) * width, (longest(width) + store) * width]);
        let brute = brute.filter(|own| own.is_finite()).fold(f64::INFINITY, f64::min);
        // Lengths are told to 10 mm.
        let hair = 10.0 * found.width_mm;
        assert!(found.area() >= brute - 1.0 && found.area() <= brute + hair, "{store}: {found:?} {brute}");
        assert_eq!(found.strip.is_some(), store > 0.0);
        for (line, needs) in lines.iter().zip(&needed) {
            let there = in_room(line, needs, &found, "in store").unwrap();
            assert_eq!(there.bay.things.len(), usize::from(store > 0.0));
            assert_eq!(judge(&there).count(Severity::Stops), 0, "{store}: {:#?}", judge(&there).findings);
            // A strip that is 30 mm deeper is in the way of one of them, or the room could be as much smaller.
            let free = found.free();
            assert!(
                needs
                    .pose_in(&RoomSize { length_mm: free.x, width_mm: free.y, decides: 0, strip: None })
                    .is_some()
            );
        }
    }
    // The curve keeps it in each of its rooms.
    let needed: Vec<Option<Needs>> = needed.into_iter().map(Some).collect();
    let curve = Curve::of(&needed, 800.0);
    let (bare, fit) = (Curve::of(&needed, 0.0), needed.iter().flatten().cloned().collect::<Vec<Needs>>());
    assert_eq!(curve.smallest, smallest(&fit, 800.0));
    for room in &curve.rooms {
        assert!(room.strip.is_some_and(|own| own.depth_mm == 800.0), "{room:?}");
        let without = bare.rooms.iter().filter(|own| own.width_mm <= room.width_mm).map(|own| own.length_mm);
        assert!(without.fold(f64::INFINITY, f64::min) <= room.length_mm, "{room:?}");
        assert_eq!(
            Some(room),
            smallest_for_width(&fit, room.width_mm, 800.0)
                .map(|own| RoomSize { decides: room.decides, ..own })
                .as_ref()
        );
    }
}
