//! What a surface through surveyed points must hold, whatever the points.

use baywright_geometry::{DVec2, angle};
use baywright_survey::{LevelSurface, SurveyedPoint};
use proptest::prelude::*;

fn point(at: DVec2, level_mm: f64) -> SurveyedPoint {
    SurveyedPoint { at, level_mm }
}

/// A grid of so many by so many points, a step apart, with the levels of a function.
fn grid(columns: u32, rows: u32, step: f64, level: impl Fn(DVec2) -> f64) -> Vec<SurveyedPoint> {
    let place = |i: u32| DVec2::new(f64::from(i % columns), f64::from(i / columns)) * step;
    (0..columns * rows).map(|i| point(place(i), level(place(i)))).collect()
}

/// Points as people and programs give them: scattered, on a grid, on a line, on a circle, twice, tiny, huge.
fn awkward() -> impl Strategy<Value = Vec<SurveyedPoint>> {
    let level = || -40.0..40.0f64;
    let scattered = move |size: f64| prop::collection::vec(((-size..size), (-size..size), level()), 0..40);
    let as_points = |all: Vec<(f64, f64, f64)>| {
        all.into_iter().map(|(x, y, level)| point(DVec2::new(x, y), level)).collect::<Vec<_>>()
    };
    let levels = || prop::collection::vec(level(), 30);
    prop_oneof![
        prop::sample::select(vec![1e-200, 1e-9, 1.0, 20.0, 8e3, 1e8])
            .prop_flat_map(scattered)
            .prop_map(as_points),
        levels().prop_map(|levels| {
            let mut points = grid(6, 5, 1000.0, |_| 0.0);
            points.iter_mut().zip(levels).for_each(|(point, level)| point.level_mm = level);
            points
        }),
        (levels(), -10.0..10.0f64, 0.0..1e-9f64).prop_map(|(levels, slope, off)| {
            let at = |i: usize| DVec2::new(i as f64 * 100.0, i as f64 * 100.0 * slope + (i % 3) as f64 * off);
            levels.into_iter().enumerate().map(|(i, level)| point(at(i), level)).collect()
        }),
        levels().prop_map(|levels| {
            let at = |i: usize| angle::direction(i as f64 * 0.2) * 3000.0;
            levels.into_iter().enumerate().map(|(i, level)| point(at(i), level)).collect()
        }),
        (levels(), 0.0..2.0f64).prop_map(|(levels, apart)| {
            let at = |i: usize| {
                DVec2::new((i % 5) as f64 * 900.0 + (i % 2) as f64 * apart, (i / 10) as f64 * 700.0)
            };
            levels.into_iter().enumerate().map(|(i, level)| point(at(i), level)).collect()
        }),
    ]
}

fn anywhere(points: &[SurveyedPoint], share: (f64, f64)) -> DVec2 {
    let low = points.iter().fold(DVec2::INFINITY, |low, p| low.min(p.at));
    let high = points.iter().fold(DVec2::NEG_INFINITY, |high, p| high.max(p.at));
    low + (high - low) * DVec2::from(share)
}

fn near(a: f64, b: f64) -> bool {
    (a - b).abs() < 1e-6 * (1.0 + a.abs())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 400, ..ProptestConfig::default() })]

    /// A level between the lowest and the highest, an uncertainty that is none or more, and the points themselves.
    #[test]
    fn no_level_leaves_those_of_the_points(points in awkward(), shares in prop::collection::vec((-0.1..1.1f64, -0.1..1.1f64), 20)) {
        let surface = LevelSurface::through(&points);
        let low = points.iter().map(|p| p.level_mm).fold(f64::INFINITY, f64::min);
        let high = points.iter().map(|p| p.level_mm).fold(f64::NEG_INFINITY, f64::max);
        for share in shares {
            if let Some(level) = surface.at(anywhere(&points, share)) {
                prop_assert!(level.level_mm >= low - 1e-6 && level.level_mm <= high + 1e-6, "{level:?}");
                prop_assert!(level.within_mm >= 0.0 && level.within_mm.is_finite(), "{level:?}");
                prop_assert!(level.nearest_mm >= 0.0 && level.nearest_mm.is_finite(), "{level:?}");
            }
        }
        for own in &points {
            let level = surface.at(own.at).expect("a surveyed point is known");
            prop_assert!(level.nearest_mm <= 1.0);
            let alone = points.iter().all(|p| p == own || p.at.distance(own.at) > 2.0);
            prop_assert!(!alone || near(level.level_mm, own.level_mm), "{level:?} {own:?}");
        }
    }

    /// A floor that is a plane is known to be one.
    #[test]
    fn a_plane_is_followed_exactly(points in awkward(), slope in (-0.02..0.02f64, -0.02..0.02f64), share in (0.0..1.0f64, 0.0..1.0f64)) {
        let points: Vec<_> = points.into_iter().filter(|p| p.at.length() < 1e6).collect();
        let slope = DVec2::from(slope);
        let mut apart: Vec<SurveyedPoint> = Vec::new();
        for own in points {
            if apart.iter().all(|p| p.at.distance(own.at) > 5.0) {
                apart.push(point(own.at, slope.dot(own.at)));
            }
        }
        if let Some(level) = LevelSurface::through(&apart).at(anywhere(&apart, share)) {
            let place = anywhere(&apart, share);
            // Just outside, the level is that of the nearest edge, 2 mm away at most.
            prop_assert!((level.level_mm - slope.dot(place)).abs() < 0.1, "{level:?}");
            prop_assert!(level.within_mm < 1e-3, "{level:?}");
        }
    }

    /// Neither the order of the points nor the way the bay lies changes what is known.
    #[test]
    fn the_same_turned_and_in_another_order(
        points in awkward(), turned in -3.0..3.0f64, by in (-1e4..1e4f64, -1e4..1e4f64),
        share in (0.02..0.98f64, 0.02..0.98f64),
    ) {
        let spread = |p: &SurveyedPoint| p.at.length() < 1e5;
        prop_assume!(points.iter().all(spread));
        // Points that are neither clearly one place nor clearly two are left out: whether they are one is decided by rounding.
        let doubtful = |a: &SurveyedPoint, b: &SurveyedPoint| (0.9..1.1).contains(&a.at.distance(b.at));
        prop_assume!(!points.iter().any(|a| points.iter().any(|b| doubtful(a, b))));
        let place = anywhere(&points, share);
        let here = LevelSurface::through(&points).at(place);
        let mut back = points.clone();
        back.reverse();
        prop_assert_eq!(here, LevelSurface::through(&back).at(place));
        let ahead = angle::direction(turned);
        let moved = |p: DVec2| ahead.rotate(p) + DVec2::from(by);
        let there: Vec<_> = points.iter().map(|p| point(moved(p.at), p.level_mm)).collect();
        if let (Some(here), Some(there)) = (here, LevelSurface::through(&there).at(moved(place))) {
            // Triangles just too flat here may be just tall enough there: what lies in them is as good as on their edge.
            prop_assert!((here.level_mm - there.level_mm).abs() < 1.0 + 2.0 * here.within_mm.max(there.within_mm), "{here:?} {there:?}");
        }
    }

    /// A grid is four-cornered cells: turned by any angle the level is the same to the last micrometre.
    #[test]
    fn a_turned_grid_is_the_same(levels in prop::collection::vec(-20.0..20.0f64, 30), turned in -3.0..3.0f64, at in (0.0..5000.0f64, 0.0..4000.0f64)) {
        let mut points = grid(6, 5, 1000.0, |_| 0.0);
        points.iter_mut().zip(levels).for_each(|(point, level)| point.level_mm = level);
        let ahead = angle::direction(turned);
        let turned: Vec<_> = points.iter().map(|p| point(ahead.rotate(p.at), p.level_mm)).collect();
        let here = LevelSurface::through(&points).at(DVec2::from(at)).expect("within");
        let there = LevelSurface::through(&turned).at(ahead.rotate(DVec2::from(at))).expect("within");
        prop_assert!((here.level_mm - there.level_mm).abs() < 1e-6, "{here:?} {there:?}");
        prop_assert!((here.within_mm - there.within_mm).abs() < 1e-6, "{here:?} {there:?}");
    }

    /// Bowls and saddles of every bend: the true level is within what is said, since the survey shows the bend.
    #[test]
    fn a_floor_that_bends_evenly_is_within_what_is_said(
        bends in (-2e-6..2e-6f64, -2e-6..2e-6f64, -2e-6..2e-6f64), at in (0.0..5000.0f64, 0.0..4000.0f64),
    ) {
        let (xx, xy, yy) = bends;
        let floor = |p: DVec2| 0.5 * xx * p.x * p.x + xy * p.x * p.y + 0.5 * yy * p.y * p.y;
        let place = DVec2::from(at);
        let level = LevelSurface::through(&grid(6, 5, 1000.0, floor)).at(place).expect("within");
        // The slopes of neighbours show the bend along the grid, a cell's twist the one across it; the greatest of all
        // directions is less than their sum.
        let off = (level.level_mm - floor(place)).abs();
        prop_assert!(off <= 2.0 * level.within_mm + 1e-9, "{off} {level:?}");
    }

    #[test]
    fn nothing_is_too_awkward(points in prop::collection::vec(prop::array::uniform3(prop::num::f64::ANY), 0..12), at in prop::array::uniform2(prop::num::f64::ANY)) {
        let points: Vec<_> = points.into_iter().map(|[x, y, level]| point(DVec2::new(x, y), level)).collect();
        let surface = LevelSurface::through(&points);
        let level = surface.at(DVec2::from(at));
        prop_assert!(level.is_none_or(|level| level.level_mm.is_finite()));
        prop_assert_eq!(LevelSurface::through(&points), surface);
    }
}

/// By hand: a square of 1 m whose corners are by turns 2 mm up and down. In its middle the four weigh alike: level 0. Cut one
/// way it would be 2 mm, cut the other -2 mm: so much is uncertain.
#[test]
fn a_twisted_square() {
    let corners = [(0., 0., 2.), (1000., 0., -2.), (1000., 1000., 2.), (0., 1000., -2.)];
    let surface = LevelSurface::through(&corners.map(|(x, y, z)| point(DVec2::new(x, y), z)));
    let middle = surface.at(DVec2::splat(500.0)).unwrap();
    assert!(middle.level_mm.abs() < 1e-12);
    assert!((middle.within_mm - 2.0).abs() < 1e-12);
    assert!((middle.nearest_mm - 500.0 * 2.0f64.sqrt()).abs() < 1e-9);
    let on_edge = surface.at(DVec2::new(250.0, 0.0)).unwrap();
    assert!((on_edge.level_mm - 1.0).abs() < 1e-12);
}

/// By hand: a valley along x = 1000, both sides rising by 10 mm over 1000. Slopes change by 0.02 over 1000 mm: ½ · 2e-5 ·
/// (4 · ¼ · 500 000) = 5 mm in the middle of a cell.
#[test]
fn a_valley() {
    let points = grid(3, 2, 1000.0, |p| (p.x - 1000.0).abs() * 0.01);
    let level = LevelSurface::through(&points).at(DVec2::splat(500.0)).unwrap();
    assert!((level.level_mm - 5.0).abs() < 1e-9);
    assert!((level.within_mm - 5.0).abs() < 1e-9, "{level:?}");
}

/// The same spot taken twice: half way, and so uncertain.
#[test]
fn taken_twice() {
    let mut points = grid(2, 2, 1000.0, |_| 0.0);
    points.push(point(DVec2::new(0.2, 0.0), 3.0));
    let level = LevelSurface::through(&points).at(DVec2::ZERO).unwrap();
    assert_eq!((level.level_mm, level.within_mm), (1.5, 1.5));
}

/// Three points on a staff's foot, each near another: which of them stand for one place must not hang on which is seen first.
#[test]
fn a_place_between_points_that_are_nearly_one() {
    let points = [(0.726, 0.0, -40.0), (-0.463, 0.456, 0.0), (-0.859, 0.0, 0.0)];
    let place = DVec2::new(0.185, 0.395);
    for turned in 0..40 {
        let ahead = angle::direction(f64::from(turned) * 0.16);
        let moved = points.map(|(x, y, level)| point(ahead.rotate(DVec2::new(x, y)), level));
        let level = LevelSurface::through(&moved).at(ahead.rotate(place)).unwrap();
        assert_eq!((level.level_mm, level.within_mm), (-20.0, 20.0), "{turned}");
    }
}

#[test]
fn outside_nothing_is_known() {
    let surface = LevelSurface::through(&grid(3, 3, 1000.0, |_| 1.0));
    assert!(surface.at(DVec2::new(2001.0, 500.0)).is_some(), "an edge is as wide as a staff's foot");
    for place in [(2003.0, 500.0), (-10.0, -10.0), (f64::NAN, 0.0)] {
        assert_eq!(surface.at(place.into()), None);
    }
    assert_eq!(LevelSurface::through(&[]).at(DVec2::ZERO), None);
    let alone = LevelSurface::through(&[point(DVec2::ZERO, 4.0)]);
    assert_eq!(alone.at(DVec2::ZERO).map(|level| level.level_mm), Some(4.0));
    assert_eq!(alone.at(DVec2::new(5.0, 0.0)), None);
}
