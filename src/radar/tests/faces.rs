//! Flat faces against direct quadrature of the same integral (`data/quadrature.py`) and published limits.

#![allow(clippy::unwrap_used, reason = "a test that cannot set itself up has failed")]

use std::f64::consts::PI;

use baywright_geometry::{DVec3, Face, Wavelength, wavelength};
use baywright_radar::face::echo;
use baywright_radar::seen::Seen;
use serde_json::Value;

fn table(of: &str) -> Vec<Value> {
    let all: Value = serde_json::from_str(include_str!("data/quadrature.json")).unwrap();
    all[of].as_array().unwrap().clone()
}

fn db(m2: f64) -> f64 {
    10.0 * m2.log10()
}

/// A face about the origin that looks along x: its left is y, its up z; the sensor over (p, q), d before it; metres.
fn seen(w: f64, h: f64, (p, q, d): (f64, f64, f64), wave: Wavelength) -> Option<Seen> {
    let face = Face::new(DVec3::ZERO, 0.0, 0.0, w * 1000.0, h * 1000.0).unwrap();
    echo(&face, DVec3::new(d, p, q) * 1000.0, wave)
}

#[test]
fn faces_are_those_of_direct_quadrature() {
    let rows = table("faces");
    assert!(rows.len() >= 40);
    let (mut worst, mut widest_on) = (0.0_f64, 0.0_f64);
    for row in &rows {
        let figure = |name: &str| row[name].as_f64().unwrap();
        let wave = Wavelength::new(figure("wave") * 1000.0).unwrap();
        let found = seen(figure("w"), figure("h"), (figure("p"), figure("q"), figure("d")), wave).unwrap();
        let direct = db(figure("sigma"));
        worst = worst.max((found.ideal_dbsm - direct).abs());
        let band = found.sigma_dbsm;
        assert!(band.low() <= direct && direct <= band.high(), "{direct} {found:?}");
        if found.is_spot_on {
            widest_on = widest_on.max(band.high() - band.low());
        }
    }
    assert!(worst < 0.01, "{worst}");
    assert!(widest_on < 2.0, "{widest_on}");
}

/// Product form and direct integral as published for these sizes at 77 GHz, at the distance of the middle.
#[test]
fn sheets_turned_about_their_middle() {
    let wave = wavelength(77e9).unwrap();
    for (w, degrees, direct) in [(1.0, 0.0, 15.1), (1.0, 5.0, 14.4), (1.0, 10.0, 5.2), (1.0, 12.0, -5.1)] {
        let turn = f64::to_radians(degrees);
        let found = seen(w, 1.0, (3.0 * turn.sin(), 0.0, 3.0 * turn.cos()), wave).unwrap();
        let at_middle = found.ideal_dbsm + 40.0 * (3000.0 / found.range_mm).log10();
        assert!((at_middle - direct).abs() < 0.06, "{degrees}: {at_middle}");
    }
    // The product of Fresnel integrals, not the direct integral: within its own band of about 2 dB where the level is deep.
    for (degrees, product, within) in [(0.22, 14.0, 0.5), (5.0, 7.4, 0.5), (10.0, -11.8, 3.0)] {
        let turn = f64::to_radians(degrees);
        let found = seen(0.5, 1.0, (3.0 * turn.sin(), 0.0, 3.0 * turn.cos()), wave).unwrap();
        let at_middle = found.ideal_dbsm + 40.0 * (3000.0 / found.range_mm).log10();
        assert!((at_middle - product).abs() < within, "{degrees}: {at_middle}");
    }
}

/// Square on, at 77 GHz: range, sides, direct two-dimensional quadrature with exact ways, dBsm (scipy).
#[test]
fn sheets_square_on_near_and_far() {
    let wave = wavelength(77e9).unwrap();
    let rows = [
        (3.0, 0.05, 0.05, 7.056),
        (3.0, 0.1, 0.1, 17.771),
        (3.0, 0.2, 0.2, 9.923),
        (3.0, 0.3, 0.3, 11.611),
        (3.0, 0.5, 0.5, 16.080),
        (3.0, 1.0, 1.0, 15.099),
        (3.0, 2.0, 1.0, 15.006),
        (5.0, 0.3, 0.3, 19.738),
        (5.0, 1.0, 1.0, 17.923),
        (10.0, 1.0, 1.0, 26.407),
        (100.0, 0.3, 0.3, 38.168),
        (200.0, 1.0, 1.0, 55.963),
    ];
    for (far, w, h, direct) in rows {
        let found = seen(w, h, (0.0, 0.0, far), wave).unwrap();
        assert!((found.ideal_dbsm - direct).abs() < 0.01, "{far} {w}: {found:?}");
    }
    // Far off, 4πA²/λ²: 1 m at 77 GHz gives 59.1855 dBsm.
    let far = seen(1.0, 1.0, (0.0, 0.0, 1e5), wave).unwrap();
    assert!((far.ideal_dbsm - 59.1855).abs() < 0.001, "{far:?}");
    // Off the normal, 4πA²/λ² cos²θ sinc²: 0.1 m, 0.5 and 1.6 degrees: 16.0961, 5.9200 dBsm.
    for (degrees, expected) in [(0.5, 16.0961), (1.6, 5.9200), (5.0, -3.8330)] {
        let turn = f64::to_radians(degrees);
        let found = seen(0.1, 0.1, (1e4 * turn.sin(), 0.0, 1e4 * turn.cos()), wave).unwrap();
        assert!((found.ideal_dbsm - expected).abs() < 0.01, "{degrees}: {found:?}");
        assert!(found.sigma_dbsm.low() <= expected && expected <= found.sigma_dbsm.high());
    }
    // A wall: πR² with a ripple of its rim.
    let wall = seen(40.0, 30.0, (3.3, -2.7, 3.0), wave).unwrap();
    assert!((wall.ideal_dbsm - db(PI * 9.0)).abs() < 1.0, "{wall:?}");
}

/// Strips solved by the method of moments (`data/strips.py`), for waves along their edges and across: both lie in the band of a
/// face that is as wide and long besides, far off: σ = 2l²/λ times the echo width.
#[test]
fn both_polarisations_of_strips_lie_in_the_band() {
    let rows: Vec<[f64; 4]> = serde_json::from_str(include_str!("data/strips.json")).unwrap();
    assert!(rows.len() > 400);
    let wave = Wavelength::new(4.0).unwrap();
    let long = 0.5;
    let mut over = [0.0_f64; 2];
    for [width, degrees, tm, te] in rows {
        let (sin, cos) = degrees.to_radians().sin_cos();
        let found = seen(width * 0.004, long, (1e5 * sin, 0.0, 1e5 * cos), wave).unwrap();
        for (nth, echo_width) in [tm, te].into_iter().enumerate() {
            let exact = db(2.0 * long * long * echo_width);
            over[nth] = over[nth].max(exact - found.ideal_dbsm);
            let band = found.sigma_dbsm;
            assert!(band.low() <= exact && exact <= band.high(), "{width} {degrees}: {exact} {found:?}");
        }
    }
    // Physical optics alone would not do.
    assert!(over[0] > 10.0 && over[1] > 10.0, "{over:?}");
}
