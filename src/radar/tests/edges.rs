//! Fresnel integrals as scipy has them (`data/quadrature.py`), knife edges as tabled.

use baywright_geometry::wavelength;
use baywright_radar::fresnel_integral::fresnel;
use baywright_radar::knife_edge::{loss_approximate_db, loss_exact_db, reach};
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
