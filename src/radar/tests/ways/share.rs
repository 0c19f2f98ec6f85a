//! What mirrors of some size send on.

use std::f64::consts::FRAC_PI_2;

use baywright_geometry::{DVec3, Face, Wavelength, wavelength};
use baywright_radar::face;
use baywright_radar::paths::{Mirror, Room, Way};
use proptest::prelude::*;

fn wave() -> Wavelength {
    wavelength(77e9).unwrap()
}

/// A wall along x through y = 0 that looks to +y, from `low` to `high`, mm, and 4 m tall; sensor and target 1 m before it, 4 m apart.
fn by(low: f64, high: f64) -> Option<(Way, f64)> {
    let centre = DVec3::new(0.5 * (low + high), 0.0, 500.0);
    let mirrors = [Mirror::front(Face::new(centre, FRAC_PI_2, 0.0, high - low, 4_000.0).unwrap())];
    let room = Room { mirrors: &mirrors, blockers: &[], longest_mm: 1e6 };
    let (from, to) = (DVec3::new(-2_000.0, 1_000.0, 500.0), DVec3::new(2_000.0, 1_000.0, 500.0));
    let way = room.singles(from, to).pop()?;
    let share = way.share(from, &mirrors, wave())?;
    Some((way, share))
}

/// Recommendation ITU-R P.526: behind an edge that just touches the way a quarter of the power is left (6.02 dB); beside one at most
/// 1.37 times the power (from memory: the first maximum of the fringes beside a straight edge, a gain of 1.38 dB).
#[test]
fn an_edge_at_the_way_leaves_a_quarter() {
    let (_, whole) = by(-4_000.0, 4_000.0).unwrap();
    assert!((whole - 1.0).abs() < 0.1, "{whole}");
    let (_, half) = by(0.0, 8_000.0).unwrap();
    assert!((half - 0.25 * whole).abs() < 0.02, "{half}");
    for narrow in [20.0, 50.0] {
        let (_, share) = by(-0.5 * narrow, 0.5 * narrow).unwrap();
        assert!(share < 0.2, "{narrow}: {share}");
    }
    let most = (1..400).map(|mm| by(-f64::from(mm) * 2.0, 6_000.0).unwrap().1).fold(0.0, f64::max);
    assert!((most - 1.37 * whole).abs() < 0.05, "{most}");
}

/// From a place to itself a mirror's share of πR² is what the echo of the face is, by exact ways: two rooms of physics that know
/// nothing of each other. A face of 300 to 2 000 mm that looks at the sensor from 2 m, its middle beside the foot or not.
#[test]
fn there_and_back_it_is_the_echo_of_a_face() {
    for (wide, aside) in [(300.0, 0.0), (300.0, 60.0), (500.0, -120.0), (1_000.0, 300.0), (2_000.0, 0.0)] {
        let face = Face::new(DVec3::new(aside, 0.0, 500.0), FRAC_PI_2, 0.0, wide, 900.0).unwrap();
        let sensor = DVec3::new(0.0, 2_000.0, 480.0);
        let mirrors = [Mirror::front(face.clone())];
        let room = Room { mirrors: &mirrors, blockers: &[], longest_mm: 1e6 };
        let way = room.singles(sensor, sensor).pop().unwrap();
        let share = way.share(sensor, &mirrors, wave()).unwrap();
        let mirrored = 10.0 * (std::f64::consts::PI * 4.0 * share).log10();
        let own = face::echo(&face, sensor, wave()).unwrap().ideal_dbsm;
        assert!((mirrored - own).abs() < 0.3, "{wide} {aside}: {mirrored} {own}");
    }
}

proptest! {
    #[test]
    fn a_share_is_a_share(low in -3_000.0_f64..-1.0, high in 1.0_f64..3_000.0) {
        let (_, share) = by(low, high).unwrap();
        prop_assert!((0.0..2.2).contains(&share), "{share}");
    }
}
