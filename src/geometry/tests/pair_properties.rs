//! What must hold for every pair of shapes, however awkward.

mod awkward;

use awkward::{pair, polygon};
use baywright_geometry::{
    Containment, DVec2, Located, Outline, PlanPose, Polygon, Prism, PrismSeparation, Segment, Separation,
    Span, contains, difference, distance, distance_to_point, distance_to_segment, hull, intersection, locate,
    overlap_area, overlap_region, overlaps, prism_distance, union,
};
use proptest::prelude::*;

/// What rounding and the touching tolerance may do to an area: a strip as wide as the length slack round both shapes.
fn area_slack(pair: &awkward::Pair) -> f64 {
    let round = |o: &Outline| o.as_polygon().edges().map(|e| e.length()).sum::<f64>();
    pair.length_slack() * (round(&pair.a) + round(&pair.b)) + 1e-12 * (pair.a.area() + pair.b.area())
}

proptest! {
    #![proptest_config(awkward::config(1500))]

    #[test]
    fn distance_is_symmetric_and_its_points_lie_on_the_shapes(pair in pair()) {
        let (ab, ba) = (distance(&pair.a, &pair.b), distance(&pair.b, &pair.a));
        let slack = pair.length_slack();
        prop_assert!((ab.gap() - ba.gap()).abs() <= slack, "{ab:?} {ba:?}");
        prop_assert_eq!(ab == Separation::Overlapping, ba == Separation::Overlapping);
        prop_assert_eq!(ab == Separation::Overlapping, overlaps(&pair.a, &pair.b));
        prop_assert_eq!(ab == Separation::Overlapping, overlap_area(&pair.a, &pair.b) > 0.0);
        if let Separation::Apart { gap, from, to } = ab {
            prop_assert!((from.distance(to) - gap).abs() <= slack);
            prop_assert!(distance_to_point(&pair.a, from).gap() <= slack);
            prop_assert!(distance_to_point(&pair.b, to).gap() <= slack);
        }
        if let Separation::Touching { at } = ab {
            prop_assert!(distance_to_point(&pair.a, at).gap() <= slack);
            prop_assert!(distance_to_point(&pair.b, at).gap() <= slack);
        }
    }

    #[test]
    fn rigid_moves_change_nothing(pair in pair(), heading in -3.0..3.0_f64, x in -50.0..50.0_f64) {
        let pose = PlanPose::new(DVec2::new(x, 17.0 - x) * pair.unit, heading);
        let (a, b) = (pair.a.placed(&pose), pair.b.placed(&pose));
        let (here, there) = (overlap_area(&pair.a, &pair.b), overlap_area(&a, &b));
        prop_assert!((here - there).abs() <= 4.0 * area_slack(&pair), "{here} {there}");
        let (here, there) = (distance(&pair.a, &pair.b).gap(), distance(&a, &b).gap());
        prop_assert!((here - there).abs() <= 4.0 * pair.length_slack(), "{here} {there}");
    }

    #[test]
    fn overlap_is_no_more_than_either_and_adds_up(pair in pair()) {
        let area = overlap_area(&pair.a, &pair.b);
        let slack = area_slack(&pair);
        prop_assert!(area >= 0.0 && area <= pair.a.area().min(pair.b.area()) + slack);
        prop_assert!((area - overlap_area(&pair.b, &pair.a)).abs() <= slack);
        if let (Outline::Polygon(a), Outline::Polygon(b)) = (&pair.a, &pair.b) {
            let whole: f64 = union(&[a.clone(), b.clone()]).iter().map(Polygon::area).sum();
            prop_assert!((a.area() + b.area() - area - whole).abs() <= slack, "{area} {whole}");
            let left: f64 = difference(a, b).iter().map(Polygon::area).sum();
            prop_assert!((a.area() - area - left).abs() <= slack, "{area} {left}");
            let both: f64 = intersection(a, b).iter().map(Polygon::area).sum();
            prop_assert!((area - both).abs() <= slack, "{area} {both}");
        } else {
            // A polygon round the disc is larger by a sliver at most as wide as its sagitta.
            let drawn: f64 = overlap_region(&pair.a, &pair.b).iter().map(Polygon::area).sum();
            let (p, q) = (pair.a.as_polygon(), pair.b.as_polygon());
            let more = p.area() - pair.a.area() + q.area() - pair.b.area();
            prop_assert!(drawn >= area - slack && drawn <= area + more + slack, "{area} {drawn}");
        }
    }

    #[test]
    fn results_of_unions_are_sound_polygons(pair in pair()) {
        if let (Outline::Polygon(a), Outline::Polygon(b)) = (&pair.a, &pair.b) {
            let mut all = union(&[a.clone(), b.clone()]);
            all.extend(difference(a, b));
            all.extend(intersection(a, b));
            for p in all {
                let again = Polygon::new(p.outer().to_vec(), p.holes().to_vec());
                prop_assert!(again.is_ok(), "{again:?}");
            }
        }
    }

    #[test]
    fn pieces_cover_and_are_convex(p in polygon()) {
        let area: f64 = p.pieces().map(baywright_geometry::polygon::signed_area).sum();
        prop_assert!((area - p.area()).abs() <= 1e-12 * p.area());
        for piece in p.pieces() {
            let again = Polygon::simple(piece.to_vec()).unwrap();
            prop_assert!(again.is_convex());
        }
    }

    #[test]
    fn a_hull_holds_its_points(p in polygon()) {
        let hull = hull(p.outer()).unwrap();
        prop_assert!(hull.is_convex() && hull.area() >= p.area() * (1.0 - 1e-12));
        let outline = Outline::Polygon(hull);
        for &corner in p.outer() {
            prop_assert!(locate(&outline, corner) != Located::Outside);
        }
    }

    #[test]
    fn containment_agrees_with_area(pair in pair()) {
        if let Outline::Polygon(a) = &pair.a {
            let area = overlap_area(&pair.a, &pair.b);
            let slack = area_slack(&pair);
            match contains(a, &pair.b) {
                Containment::Within | Containment::TouchingWithin => {
                    prop_assert!((area - pair.b.area()).abs() <= slack, "{} of {}", area, pair.b.area());
                }
                Containment::Outside => prop_assert_eq!(area, 0.0),
                Containment::Partly => {
                    prop_assert!(area > 0.0 && area < pair.b.area() + slack);
                }
            }
            prop_assert!(matches!(
                contains(a, &pair.a),
                Containment::TouchingWithin
            ));
        }
    }

    #[test]
    fn a_segment_is_as_far_as_a_sliver_of_it(pair in pair(), x in -6.0..6.0_f64, y in -6.0..6.0_f64) {
        let from = pair.b.bounds().centre();
        let s = Segment::new(from, from + DVec2::new(x, y) * pair.unit);
        let got = distance_to_segment(&pair.a, &s);
        // Sampled points of the segment are never nearer than the answer.
        for i in 0..=64 {
            let p = s.at(f64::from(i) / 64.0);
            let here = distance_to_point(&pair.a, p);
            prop_assert!(here.gap() >= got.gap() - pair.length_slack());
            if here == Separation::Overlapping && distance_to_boundary(&pair.a, p) > 1e-6 * pair.unit {
                prop_assert_eq!(got, Separation::Overlapping);
            }
        }
    }

    #[test]
    fn prisms_stack(pair in pair(), lift in -3.0..3.0_f64) {
        let low = Span::new(0.0, pair.unit).unwrap();
        let a = Prism::new(pair.a.clone(), low);
        let b = Prism::new(pair.b.clone(), low.raised(lift * pair.unit));
        let plan = distance(&pair.a, &pair.b);
        let rise = (b.span.bottom() - low.top()).max(low.bottom() - b.span.top()).max(0.0);
        let got = prism_distance(&a, &b);
        prop_assert!((got.gap() - plan.gap().hypot(rise)).abs() <= 2.0 * pair.length_slack());
        prop_assert_eq!(
            got == PrismSeparation::Overlapping,
            plan == Separation::Overlapping && low.shared(&b.span).is_some()
        );
        if let PrismSeparation::Apart { from, to, .. } = got {
            prop_assert!(distance_to_point(&pair.a, from.truncate()).gap() <= pair.length_slack());
            prop_assert!(distance_to_point(&pair.b, to.truncate()).gap() <= pair.length_slack());
        }
    }
}

fn distance_to_boundary(outline: &Outline, p: DVec2) -> f64 {
    match outline {
        Outline::Polygon(polygon) => polygon.edges().map(|e| e.distance_to(p)).fold(f64::INFINITY, f64::min),
        Outline::Circle(circle) => (circle.radius() - p.distance(circle.centre())).abs(),
    }
}
