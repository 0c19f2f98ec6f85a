//! The bounce off the floor.

use std::f64::consts::FRAC_PI_2;

use baywright_geometry::angle::degrees;
use baywright_geometry::{DVec3, Face, wavelength};
use baywright_radar::paths::{Mirror, Room, floor_bounce};
use proptest::prelude::*;

/// references (computed with numpy), 77 GHz: heights, distance, straight way, bounce, difference, grazing angle, place, all in m
/// and degrees. The heights are of the target first.
#[test]
fn the_exact_two_ways() {
    let rows = [
        (0.5, 0.5, 2.0, 2.000000, 2.236068, 0.236068, 26.5651, 1.0000),
        (0.5, 1.0, 3.0, 3.041381, 3.354102, 0.312721, 26.5651, 1.0000),
        (0.35, 0.7, 1.5, 1.540292, 1.830983, 0.290691, 34.9920, 0.5000),
        (0.6, 0.6, 4.0, 4.000000, 4.176123, 0.176123, 16.6992, 2.0000),
        (0.5, 0.5, 10.0, 10.000000, 10.049876, 0.049876, 5.7106, 5.0000),
        (0.9, 0.2, 2.5, 2.596151, 2.731300, 0.135149, 23.7495, 2.0455),
    ];
    for (first, second, distance, direct, bounce, extra, grazing, at) in rows {
        let from = DVec3::new(0.0, 0.0, 1000.0 * first + 30.0);
        let to = DVec3::new(0.0, 1000.0 * distance, 1000.0 * second + 30.0);
        let found = floor_bounce(from, to, 30.0).unwrap();
        assert!((found.direct_mm - 1000.0 * direct).abs() < 1e-3, "{found:?}");
        assert!((found.bounce_mm - 1000.0 * bounce).abs() < 1e-3, "{found:?}");
        assert!((found.extra_mm() - 1000.0 * extra).abs() < 1e-3, "{found:?}");
        assert!((degrees(found.grazing) - grazing).abs() < 1e-4, "{found:?}");
        assert!((found.at.y - 1000.0 * at).abs() < 0.06 && found.at.z == 30.0, "{found:?}");
    }
}

#[test]
fn there_is_none_from_below_or_from_nowhere() {
    let up = DVec3::new(0.0, 0.0, 500.0);
    for other in [DVec3::ZERO, DVec3::new(9.0, 9.0, -5.0), DVec3::NAN, DVec3::new(f64::INFINITY, 0.0, 9.0)] {
        assert_eq!(floor_bounce(up, other, 0.0), None);
        assert_eq!(floor_bounce(other, up, 0.0), None);
    }
    assert_eq!(floor_bounce(up, up, f64::NAN), None);
    // One above the other the wave goes straight down and up: no ellipse has a direction there.
    let above = floor_bounce(up, up, 0.0).unwrap();
    assert!(above.grazing == FRAC_PI_2 && above.bounce_mm == 1000.0);
    assert_eq!(above.zone(up, up, wavelength(77e9).unwrap()), None);
}

proptest! {
    /// It is the way by a mirror that lies on the floor.
    #[test]
    fn it_is_a_mirror_on_the_floor(
        from in (-3000.0..3000.0, -3000.0..3000.0, 1.0..2000.0),
        to in (-3000.0..3000.0, -3000.0..3000.0, 1.0..2000.0),
    ) {
        let (from, to) = (DVec3::from(from), DVec3::from(to));
        let floor = Mirror::front(Face::new(DVec3::ZERO, 0.0, -FRAC_PI_2, 9000.0, 9000.0).unwrap());
        let mirrors = [floor];
        let room = Room { mirrors: &mirrors, blockers: &[], longest_mm: 1e6 };
        let way = room.singles(from, to).remove(0);
        let bounce = floor_bounce(from, to, 0.0).unwrap();
        prop_assert!((way.length_mm - bounce.bounce_mm).abs() < 1e-8);
        prop_assert!((way.bounces[0].at - bounce.at).length() < 1e-8);
        prop_assert!((way.bounces[0].incidence + bounce.grazing - FRAC_PI_2).abs() < 1e-6);
    }

    /// ITU-R P.526 equation 1, by plain distances: on the rim of the zone the way over the floor is half a wavelength longer.
    #[test]
    fn the_rim_of_the_zone_is_half_a_wavelength_longer(
        from in (-3000.0..3000.0, -3000.0..3000.0, 50.0..2000.0),
        to in (-3000.0..3000.0, -3000.0..3000.0, 50.0..2000.0),
        turn in 0.0..6.3_f64,
        hz in prop::sample::select(vec![24.125e9, 76.5e9, 79e9]),
    ) {
        let (from, to) = (DVec3::from(from), DVec3::from(to));
        let wave = wavelength(hz).unwrap();
        let bounce = floor_bounce(from, to, 0.0).unwrap();
        let zone = bounce.zone(from, to, wave).unwrap();
        let (sin, cos) = turn.sin_cos();
        let rim = zone.middle + zone.along * (zone.half_along_mm * cos) + zone.along.perp() * (zone.half_across_mm * sin);
        let rim = rim.extend(0.0);
        let longer = from.distance(rim) + rim.distance(to) - bounce.bounce_mm;
        prop_assert!((longer - 0.5 * wave.mm()).abs() < 1e-5, "{longer}");
        prop_assert!(zone.holds(bounce.at.truncate()));
        let far = zone.middle + (rim.truncate() - zone.middle) * 1.001;
        prop_assert!(!zone.holds(far));
    }
}
