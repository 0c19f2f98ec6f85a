//! Fresnel integrals as scipy has them (`data/quadrature.py`), knife edges as tabled.

use baywright_geometry::wavelength;
use baywright_radar::fresnel_integral::fresnel;
use baywright_radar::knife_edge::{Edge, loss_approximate_db, loss_exact_db, reach, shift};
use serde_json::Value;

#[test]
fn c_and_s_are_those_of_scipy() {
    let all: Value = serde_json::from_str(include_str!("data/quadrature.json")).unwrap();
    let rows = all["fresnel"].as_array().unwrap();
    assert!(rows.len() > 100);
    for row in rows {
        let [x, c, s] = [0, 1, 2].map(|nth| row[nth].as_f64().unwrap());
        let at = fresnel(x);
        assert!((at.c - c).abs() < 1e-12 && (at.s - s).abs() < 1e-12, "{x}: {at:?} {c} {s}");
    }
}

#[test]
fn awkward_arguments() {
    assert_eq!((fresnel(0.0).c, fresnel(f64::INFINITY).c, fresnel(f64::NEG_INFINITY).s), (0.0, 0.5, -0.5));
    assert!(fresnel(f64::NAN).c.is_nan());
    let wave = wavelength(77e9).unwrap();
    assert_eq!(reach(1.0, 0.0, 1.0, wave), None);
    assert_eq!(reach(f64::NAN, 1.0, 1.0, wave), None);
}

/// Computed with scipy, checked to 40 digits with mpmath: ν, exact, approximate, dB.
#[test]
fn losses_as_tabled() {
    let table = [
        (-3.0, -0.443943, 0.0),
        (-2.0, 0.736589, 0.0),
        (-1.2247, -1.368133, 0.0),
        (-0.8485281374, -0.374433, 0.0),
        (-0.5, 1.858624, 1.959250),
        (0.0, 6.020600, 6.032852),
        (1.0, 13.864105, 13.925729),
        (2.4, 20.618195, 20.539266),
        (5.0, 26.936198, 26.813581),
        (30.0, 42.495725, 42.436452),
    ];
    for (nu, exact, approximate) in table {
        assert!((loss_exact_db(nu) - exact).abs() < 1e-6, "{nu}: {}", loss_exact_db(nu));
        assert!((loss_approximate_db(nu) - approximate).abs() < 1e-6, "{nu}");
    }
    // 77 GHz, 0.8 and 3.2 m, 20 mm into the line: ν 0.566618.
    let nu = reach(20.0, 800.0, 3200.0, wavelength(77e9).unwrap()).unwrap();
    assert!((nu - 0.566618).abs() < 1e-6 && (loss_exact_db(nu) - 10.75831).abs() < 1e-4);
}

/// Where a wave behind an edge seems to come from, against the Kirchhoff integral over the open half-plane (`data/quadrature.py`).
/// Its look for the strongest direction ended at 60 mrad: rows at that end tell nothing of it.
#[test]
fn bearings_are_those_of_direct_quadrature() {
    let all: Value = serde_json::from_str(include_str!("data/quadrature.json")).unwrap();
    let rows = all["bearings"].as_array().unwrap();
    assert!(rows.len() >= 20);
    let mut compared = 0;
    for row in rows {
        let figure = |name: &str| row[name].as_f64().unwrap() * 1000.0;
        let edge = Edge { over_mm: figure("h"), sensor_mm: figure("d1"), source_mm: figure("d2") };
        let wave = baywright_geometry::Wavelength::new(figure("wave")).unwrap();
        let found = shift(&edge, figure("wide"), wave).unwrap();
        let (mean, strongest) = (figure("mean") / 1000.0, figure("peak") / 1000.0);
        assert!((found.mean - mean).abs() < 1e-4 + 0.02 * mean.abs(), "{edge:?} {found:?} {mean}");
        if strongest.abs() < 0.0599 {
            assert!(
                (found.strongest - strongest).abs() < 1e-4 + 0.02 * strongest.abs(),
                "{edge:?} {found:?} {strongest}"
            );
            compared += 1;
        }
    }
    assert!(compared >= 16, "{compared}");
}

/// Far below the line there is no shift; deep behind the edge the wave comes from the edge itself.
#[test]
fn shifts_at_either_end() {
    let wave = wavelength(77e9).unwrap();
    let at =
        |over_mm: f64| shift(&Edge { over_mm, sensor_mm: 1500.0, source_mm: 1000.0 }, 40.0, wave).unwrap();
    assert!(at(-2000.0).mean.abs() < 1e-4 && at(-2000.0).strongest.abs() < 1e-3, "{:?}", at(-2000.0));
    let deep = at(300.0);
    assert!((deep.mean - 0.2).abs() < 0.005 && (deep.strongest - 0.2).abs() < 0.01, "{deep:?}");
    let mut before = 0.0;
    for step in 0..=30 {
        let now = at(10.0 * f64::from(step)).mean;
        assert!(now > before, "{step}");
        before = now;
    }
    for (over_mm, sensor_mm, source_mm, wide) in [
        (f64::NAN, 1.0, 1.0, 1.0),
        (0.0, 0.0, 1.0, 1.0),
        (0.0, 1.0, -1.0, 1.0),
        (0.0, 1.0, 1.0, f64::INFINITY),
    ] {
        assert_eq!(shift(&Edge { over_mm, sensor_mm, source_mm }, wide, wave), None);
    }
}
