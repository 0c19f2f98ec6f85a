//! Where a picture lies in the bay, against closed forms and there and back.

use baywright_planner::geometry::{DVec2, angle};
use baywright_planner::model::{PictureScaleFault, Underlay};
use baywright_planner::words::{Language, Lengths};
use proptest::prelude::*;

fn underlay(at: DVec2, turned_deg: f64, mm_per_px: f64) -> Underlay {
    Underlay {
        picture: "hall.png".to_owned(),
        mm_per_px,
        at,
        turned_rad: angle::radians(turned_deg),
        faded: 0.5,
    }
}

fn v(x: f64, y: f64) -> DVec2 {
    DVec2::new(x, y)
}

/// By hand: 300 and 400 pixels apart make 500; 6 250 mm over them are 12.5 mm a pixel.
#[test]
fn a_scale_from_two_points() {
    assert_eq!(Underlay::scaled_by([v(100.0, 50.0), v(400.0, 450.0)], 6_250.0), Ok(12.5));
    assert_eq!(Underlay::scaled_by([v(0.0, 0.0), v(10.0, 0.0)], 20.0), Ok(2.0), "10 pixels are enough");
    let words = Language::English.visits();
    let refused = |points, distance| {
        let fault = Underlay::scaled_by(points, distance).unwrap_err();
        (fault, words.scale_fault(fault, Lengths::InFile))
    };
    let (near, said) = refused([v(0.0, 0.0), v(6.0, 7.0)], 1_000.0);
    assert!(
        matches!(near, PictureScaleFault::TooNear { apart_px } if (apart_px - 85_f64.sqrt()).abs() < 1e-12)
    );
    assert_eq!(said, "The two points are 9 pixels apart; take two that are 10 pixels apart or more.");
    // Nearly enough is not written as enough.
    let (_, said) = refused([v(0.0, 0.0), v(9.7, 0.0)], 1_000.0);
    assert!(said.starts_with("The two points are 9 pixels apart"), "{said}");
    let far = [v(0.0, 0.0), v(20.0, 0.0)];
    for distance in [0.0, -5.0, f64::NAN, f64::INFINITY, 1e9] {
        assert_eq!(refused(far, distance).0, PictureScaleFault::NoDistance, "{distance}");
    }
    let (large, said) = refused(far, 90_000.0);
    assert_eq!(large, PictureScaleFault::OutOfLimits { mm_per_px: 4_500.0 });
    assert_eq!(said, "One pixel would be 4500 mm; a picture's scale is 0.001 to 1000 mm a pixel.");
    for bad in [v(f64::NAN, 0.0), v(f64::INFINITY, 0.0)] {
        assert!(matches!(refused([bad, v(0.0, 0.0)], 100.0).0, PictureScaleFault::TooNear { .. }));
    }
}

/// By hand: 10 mm a pixel, 200 pixels high, lower left corner at (1 000, 2 000).
#[test]
fn corners_of_a_picture() {
    let near = |a: DVec2, b: DVec2| assert!(a.distance(b) < 1e-9, "{a} {b}");
    let straight = underlay(v(1_000.0, 2_000.0), 0.0, 10.0).bay_from_px(200.0);
    near(straight.bay(v(0.0, 200.0)), v(1_000.0, 2_000.0));
    near(straight.bay(v(0.0, 0.0)), v(1_000.0, 4_000.0));
    near(straight.bay(v(300.0, 150.0)), v(4_000.0, 2_500.0));
    // Turned a quarter anticlockwise about that corner, its lower edge runs along y and its left edge back along x.
    let turned = underlay(v(1_000.0, 2_000.0), 90.0, 10.0).bay_from_px(200.0);
    near(turned.bay(v(0.0, 200.0)), v(1_000.0, 2_000.0));
    near(turned.bay(v(300.0, 200.0)), v(1_000.0, 5_000.0));
    near(turned.bay(v(0.0, 0.0)), v(-1_000.0, 2_000.0));
    near(turned.px(v(-1_000.0, 2_000.0)), v(0.0, 0.0));
}

proptest! {
    #[test]
    fn there_and_back(
        at in (-1e5..1e5, -1e5..1e5), turned in -360.0..360.0, mm_per_px in 0.1..100.0,
        height in 1.0..12_000.0, px in (0.0..12_000.0, 0.0..12_000.0), other in (0.0..12_000.0, 0.0..12_000.0)
    ) {
        let map = underlay(v(at.0, at.1), turned, mm_per_px).bay_from_px(height);
        let (px, other) = (v(px.0, px.1), v(other.0, other.1));
        prop_assert!(map.px(map.bay(px)).distance(px) < 1e-6);
        // All lengths grow alike, whatever the turn.
        let (short, long) = (px.distance(other), map.bay(px).distance(map.bay(other)));
        prop_assert!((long - short * mm_per_px).abs() < 1e-6);
        // And what is seen on the floor gives the scale back.
        if short >= 10.0 && (10.0..=1e5).contains(&long) {
            let scale = Underlay::scaled_by([px, other], long).unwrap();
            prop_assert!((scale - mm_per_px).abs() < 1e-9 * mm_per_px.max(1.0));
        }
    }
}
