//! Rooms with all that is awkward: mirrors in one plane, crossing, lying on one another, places in a mirror's plane or on it.

use std::f64::consts::FRAC_PI_2;

use baywright_geometry::{DVec2, DVec3, Face, Polygon, Prism, Span};
use baywright_radar::paths::{Mirror, Room, Way, mirror_ghosts, target_ghosts};
use proptest::prelude::*;

/// On a coarse grid, so that planes and places fall on one another.
fn grid() -> impl Strategy<Value = DVec3> {
    (-3..4i8, -3..4i8, 0..3i8).prop_map(|(x, y, z)| DVec3::new(x.into(), y.into(), z.into()) * 500.0)
}

fn mirror() -> impl Strategy<Value = Mirror> {
    (grid(), 0..8u8, -2..3i8, 1..5u8, 1..5u8, any::<bool>()).prop_map(|(centre, turn, tip, w, h, both)| {
        let (turn, tip) = (f64::from(turn) * 0.5 * FRAC_PI_2, f64::from(tip) * 0.5 * FRAC_PI_2);
        let face = Face::new(centre, turn, tip, f64::from(w) * 500.0, f64::from(h) * 500.0).unwrap();
        Mirror { face, on_both_sides: both }
    })
}

fn solid() -> impl Strategy<Value = Prism> {
    (grid(), 1..3i8, 1..3i8, 1..4i8).prop_map(|(low, w, d, h)| {
        let size = DVec2::new(w.into(), d.into()) * 250.0;
        let outline = Polygon::rectangle(low.truncate(), low.truncate() + size).unwrap();
        Prism::new(outline.into(), Span::new(low.z, low.z + 500.0 * f64::from(h)).unwrap())
    })
}

/// The law of reflection and plain distances: nothing of images.
fn check(way: &Way, from: DVec3, to: DVec3, mirrors: &[Mirror]) -> Result<(), TestCaseError> {
    let mut stops = vec![from];
    stops.extend(way.bounces.iter().map(|bounce| bounce.at));
    stops.push(to);
    let legs: Vec<DVec3> = stops.windows(2).map(|pair| pair[1] - pair[0]).collect();
    let length: f64 = legs.iter().map(|leg| leg.length()).sum();
    prop_assert!((length - way.length_mm).abs() < 1e-6, "{length} in {way:?}");
    prop_assert!((way.departs - legs[0].normalize()).length() < 1e-9);
    prop_assert!((way.comes_from + legs[legs.len() - 1].normalize()).length() < 1e-9);
    for (bounce, pair) in way.bounces.iter().zip(legs.windows(2)) {
        let mirror = &mirrors[bounce.mirror];
        let face = &mirror.face;
        let own = bounce.at - face.centre();
        prop_assert!(own.dot(face.normal()).abs() < 1e-6);
        prop_assert!(own.dot(face.left()).abs() <= 0.5 * face.width() + 1e-6);
        prop_assert!(own.dot(face.up()).abs() <= 0.5 * face.height() + 1e-6);
        let (comes, goes) = (pair[0].normalize(), pair[1].normalize());
        let turned = comes - 2.0 * comes.dot(face.normal()) * face.normal();
        prop_assert!((turned - goes).length() < 1e-6, "{way:?}");
        prop_assert!(mirror.on_both_sides || comes.dot(face.normal()) < 0.0, "by the back: {way:?}");
        prop_assert!((bounce.incidence.cos() - comes.dot(face.normal()).abs()).abs() < 1e-9);
    }
    Ok(())
}

fn over(ways: &[Way]) -> Vec<Vec<usize>> {
    let mut all: Vec<Vec<usize>> =
        ways.iter().map(|way| way.bounces.iter().map(|bounce| bounce.mirror).collect()).collect();
    all.sort();
    all
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2000))]

    #[test]
    fn every_way_is_one(
        from in grid(), to in grid(),
        mirrors in prop::collection::vec(mirror(), 0..7), solids in prop::collection::vec(solid(), 0..3),
    ) {
        let blockers: Vec<&Prism> = solids.iter().collect();
        let room = Room { mirrors: &mirrors, blockers: &blockers, longest_mm: 50_000.0 };
        let mut ways: Vec<Way> = room.direct(from, to).into_iter().collect();
        ways.extend(room.singles(from, to));
        ways.extend(room.doubles(from, to));
        for way in &ways {
            check(way, from, to, &mirrors)?;
            check(&way.reversed(), to, from, &mirrors)?;
        }
        for ghost in target_ghosts(from, &ways) {
            prop_assert!(ghost.believed.is_finite());
            prop_assert!((ghost.believed.distance(from) - ghost.range_mm).abs() < 1e-6);
        }
        prop_assert!(mirror_ghosts(from, &room.doubles(from, from)).len().is_multiple_of(2), "each in both directions");
    }

    /// Nothing new is seen from the other end, and less within a shorter range.
    #[test]
    fn ways_go_both_ways(
        from in (-1400.0..1400.0, -1400.0..1400.0, 10.0..900.0).prop_map(DVec3::from),
        to in (-1400.0..1400.0, -1400.0..1400.0, 10.0..900.0).prop_map(DVec3::from),
        mirrors in prop::collection::vec(mirror(), 0..7), solids in prop::collection::vec(solid(), 0..3),
        longest in 500.0..6000.0,
    ) {
        let blockers: Vec<&Prism> = solids.iter().collect();
        let room = Room { mirrors: &mirrors, blockers: &blockers, longest_mm: 1e6 };
        let near = Room { longest_mm: longest, ..room };
        for (there, back, short) in [
            (room.singles(from, to), room.singles(to, from), near.singles(from, to)),
            (room.doubles(from, to), room.doubles(to, from), near.doubles(from, to)),
        ] {
            let back: Vec<Way> = back.iter().map(Way::reversed).collect();
            prop_assert_eq!(over(&there), over(&back));
            let expected: Vec<Way> = there.into_iter().filter(|way| way.length_mm <= longest).collect();
            prop_assert_eq!(short, expected);
        }
        let stepped: Vec<Way> = (0..mirrors.len() + 2).flat_map(|first| room.doubles_from(first, from, to)).collect();
        prop_assert_eq!(stepped, room.doubles(from, to));
    }

    #[test]
    fn places_that_are_no_numbers_see_nothing(
        at in grid(), mirrors in prop::collection::vec(mirror(), 1..5),
        nowhere in prop::sample::select(vec![DVec3::NAN, DVec3::INFINITY, DVec3::new(0.0, f64::NAN, 0.0)]),
    ) {
        let room = Room { mirrors: &mirrors, blockers: &[], longest_mm: 1e6 };
        for (from, to) in [(at, nowhere), (nowhere, at), (nowhere, nowhere)] {
            prop_assert_eq!(room.direct(from, to), None);
            prop_assert_eq!(room.singles(from, to), vec![]);
            prop_assert_eq!(room.doubles(from, to), vec![]);
        }
    }
}

#[test]
fn in_the_plane_and_behind_nothing_is_mirrored() {
    let at = |x: f64, y: f64| DVec3::new(x, y, 500.0);
    let wall = Face::new(at(0.0, 0.0), FRAC_PI_2, 0.0, 4000.0, 1000.0).unwrap();
    let ways = |mirror: Mirror, from: DVec3, to: DVec3| {
        let mirrors = [mirror];
        Room { mirrors: &mirrors, blockers: &[], longest_mm: 1e6 }.singles(from, to).len()
    };
    let front = || Mirror::front(wall.clone());
    let sheet = || Mirror::sheet(wall.clone());
    assert_eq!(ways(front(), at(0.0, 500.0), at(900.0, 700.0)), 1);
    // The target behind, both behind, in the plane on the wall, and in the plane beside it.
    assert_eq!(ways(front(), at(0.0, 500.0), at(900.0, -700.0)), 0);
    assert_eq!(
        (ways(front(), at(0.0, -500.0), at(9.0, -7.0)), ways(sheet(), at(0.0, -500.0), at(9.0, -7.0))),
        (0, 1)
    );
    assert_eq!(
        (ways(sheet(), at(0.0, 0.0), at(900.0, 700.0)), ways(sheet(), at(9000.0, 0.0), at(900.0, 700.0))),
        (0, 0)
    );
    // Faces without a width are none.
    assert!(Face::new(at(0.0, 0.0), 0.0, 0.0, 0.0, 1000.0).is_err());
}

/// A wave does not go through the wall by which it goes, nor through another that stands between.
#[test]
fn mirrors_hide_too() {
    let at = |x: f64, y: f64| DVec3::new(x, y, 500.0);
    let far = Mirror::front(Face::new(at(0.0, 0.0), FRAC_PI_2, 0.0, 4000.0, 1000.0).unwrap());
    let between = Mirror::sheet(Face::new(at(0.0, 300.0), FRAC_PI_2, 0.0, 600.0, 1000.0).unwrap());
    let mirrors = [far, between];
    let room = Room { mirrors: &mirrors, blockers: &[], longest_mm: 1e6 };
    assert_eq!(over(&room.singles(at(-100.0, 500.0), at(100.0, 500.0))), [[1]]);
    assert_eq!(over(&room.singles(at(-1000.0, 500.0), at(1000.0, 500.0))), [[0], [1]]);
    assert_eq!(room.direct(at(0.0, 100.0), at(0.0, 900.0)), None);
    assert!(room.direct(at(0.0, 100.0), at(0.0, 300.0)).is_some(), "a target on the sheet itself");
}
