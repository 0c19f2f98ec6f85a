use glam::DVec2;

use super::*;
use crate::circle::Circle;
use crate::polygon::Polygon;

/// references: ITU-R P.526 equation 2, radii computed with numpy from it: f GHz, d1 m, d2 m, n, radius m.
const RADII: [(f64, f64, f64, u32, f64); 12] = [
    (77.0, 2.0, 2.0, 1, 0.0623972),
    (77.0, 0.5, 3.5, 1, 0.0412719),
    (77.0, 1.0, 4.0, 1, 0.0558097),
    (77.0, 5.0, 5.0, 1, 0.0986586),
    (77.0, 0.1, 3.9, 1, 0.0194835),
    (76.5, 1.5, 1.5, 1, 0.0542139),
    (79.0, 2.0, 2.0, 1, 0.0616023),
    (77.0, 2.0, 2.0, 2, 0.0882429),
    (77.0, 2.0, 2.0, 3, 0.1080751),
    (24.125, 2.0, 2.0, 1, 0.1114748),
    (5.745, 2.4384, 7.3152, 1, 0.3089217),
    (10.0, 10000.0, 10000.0, 1, 12.2432115),
];

#[test]
fn zone_radii_of_the_recommendation() {
    for (f, d1, d2, n, metres) in RADII {
        let radius = zone_radius(wavelength(f * 1e9).unwrap(), d1 * 1e3, d2 * 1e3, n) / 1e3;
        // The table prints seven decimals of a metre.
        assert!((radius - metres).abs() <= 0.51e-7, "{f} GHz {d1} {d2}: {radius} not {metres}");
    }
}

/// Speed of light over frequency, computed with numpy: GHz, mm.
#[test]
fn wavelengths() {
    let known = [
        (24.125, 12.426630),
        (76.0, 3.944638),
        (76.5, 3.918856),
        (77.0, 3.893409),
        (78.5, 3.819012),
        (79.0, 3.794841),
        (81.0, 3.701141),
    ];
    for (f, mm) in known {
        assert!((wavelength(f * 1e9).unwrap().mm() - mm).abs() <= 0.51e-6, "{f} GHz");
    }
}

#[test]
fn no_frequency_no_wavelength() {
    for hz in [0.0, -77e9, f64::NAN, f64::INFINITY, f64::NEG_INFINITY, 5e-324] {
        let found = wavelength(hz);
        assert!(
            matches!(found, Err(WaveFault::Frequency { hz: own }) if own.to_bits() == hz.to_bits()),
            "{found:?}"
        );
    }
    for mm in [0.0, -4.0, f64::NAN, f64::INFINITY] {
        let found = Wavelength::new(mm);
        assert!(
            matches!(found, Err(WaveFault::Length { mm: own }) if own.to_bits() == mm.to_bits()),
            "{found:?}"
        );
    }
}

#[test]
fn no_zone_at_the_ends_nor_beyond() {
    let lambda = wavelength(77e9).unwrap();
    for (d1, d2) in [(0.0, 4e3), (4e3, 0.0), (-1.0, 4e3), (-5.0, 3.0), (-3.0, -3.0), (f64::NAN, 1.0)] {
        assert_eq!(zone_radius(lambda, d1, d2, 1), 0.0, "{d1} {d2}");
    }
}

fn thing(outline: impl Into<crate::outline::Outline>, bottom: f64, top: f64) -> Prism {
    Prism::new(outline.into(), Span::new(bottom, top).unwrap())
}

#[test]
fn an_edge_at_a_share_of_the_radius_has_that_ratio() {
    let (a, b) = (DVec3::new(0.0, 0.0, 500.0), DVec3::new(4000.0, 0.0, 500.0));
    let lambda = wavelength(77e9).unwrap();
    for share in [0.1, 0.6, 0.95, 1.2, 3.0] {
        let off = share * zone_radius(lambda, 2000.0, 2000.0, 1);
        // A thin screen half way, its upright edge beside the line; then a low one below the line.
        let beside = Polygon::rectangle(DVec2::new(1999.9, off), DVec2::new(2000.1, 1e3)).unwrap();
        let below = Polygon::rectangle(DVec2::new(1999.9, -1e3), DVec2::new(2000.1, 1e3)).unwrap();
        for obstacle in [thing(beside, 0.0, 2e3), thing(below, 0.0, 500.0 - off)] {
            let ratio = match fresnel_clearance(a, b, lambda, &obstacle) {
                FresnelClearance::Clear { ratio } if share > 1.0 => ratio,
                FresnelClearance::Entered { ratio, at } if share < 1.0 => {
                    assert!((at.x - 2000.0).abs() <= 0.1001 && at.y.abs() <= off + 1e-9);
                    ratio
                }
                other => panic!("{share}: {other:?}"),
            };
            // Equation 2 is the first term of a series in (radius / distance)², about 1e-3 here.
            assert!((ratio / share - 1.0).abs() < 2e-3 * share.max(1.0), "{share}: {ratio}");
        }
    }
}

#[test]
fn through_and_touching() {
    let (a, b) = (DVec3::new(0.0, 0.0, 500.0), DVec3::new(4000.0, 0.0, 500.0));
    let across =
        thing(Polygon::rectangle(DVec2::new(1000.0, -50.0), DVec2::new(1100.0, 50.0)).unwrap(), 0.0, 900.0);
    let lambda = Wavelength::new(4.0).unwrap();
    let crossed = fresnel_clearance(a, b, lambda, &across);
    assert_eq!(crossed, FresnelClearance::Crossed { at: DVec3::new(1000.0, 0.0, 500.0) });
    let touching =
        thing(Polygon::rectangle(DVec2::new(1000.0, 0.0), DVec2::new(1100.0, 50.0)).unwrap(), 0.0, 900.0);
    match fresnel_clearance(a, b, lambda, &touching) {
        FresnelClearance::Entered { ratio, .. } => assert!(ratio < 1e-5, "{ratio}"),
        other => panic!("{other:?}"),
    }
    let column = thing(Circle::new(DVec2::new(2000.0, 0.0), 100.0).unwrap(), 0.0, 900.0);
    assert_eq!(
        fresnel_clearance(a, b, lambda, &column),
        FresnelClearance::Crossed { at: DVec3::new(1900.0, 0.0, 500.0) }
    );
}

/// The direction in which the line comes nearest is one of those that are tried anyway, a rounding apart.
#[test]
fn a_rim_whose_nearest_point_is_tried_twice() {
    let (a, b) = (DVec2::new(-6.0, 4.0), DVec2::new(7.0, -9.0));
    let centre = DVec2::new(0.25859369955260714, -0.5849108925766431);
    let radius = 0.5940662283803715;
    let circle = Circle::new(centre, radius).unwrap();
    let found = fresnel_clearance_in_plan(a, b, Wavelength::new(200.0).unwrap(), &circle.into());
    let FresnelClearance::Entered { ratio, .. } = found else { panic!("{found:?}") };
    let least = (0..100_000)
        .map(|i| {
            let (sin, cos) = libm::sincos(f64::from(i) * std::f64::consts::TAU / 1e5);
            let p = centre + radius * DVec2::new(cos, sin);
            a.distance(p) + p.distance(b) - a.distance(b)
        })
        .fold(f64::INFINITY, f64::min);
    assert!((ratio * ratio * 100.0 - least).abs() < 1e-8, "{} {least}", ratio * ratio * 100.0);
}
