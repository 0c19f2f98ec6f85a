//! What holds for every echo: mirrored scenes, limits, figures without sense.

#![allow(clippy::unwrap_used, reason = "a test that cannot set itself up has failed")]

use std::f64::consts::PI;

use baywright_geometry::{DVec2, DVec3, Face, Pose, Wavelength, wavelength};
use baywright_radar::clear::{Asked, Moving, Turning, move_by, turn_by};
use baywright_radar::cylinder::Cylinder;
use baywright_radar::dihedral::Dihedral;
use baywright_radar::echo::{Echo, Eye, Shape, echo, seen};
use baywright_radar::face;
use baywright_radar::level::Band;
use baywright_radar::material::{Building, Own, Reach, Surface};
use baywright_radar::seen::Seen;
use baywright_radar::trihedral::{Mouth, Trihedral};
use proptest::prelude::*;

fn wave() -> Wavelength {
    wavelength(77e9).unwrap()
}

fn upright(w: f64, h: f64) -> Face {
    Face::new(DVec3::ZERO, 0.0, 0.0, w, h).unwrap()
}

/// A length that is nothing, tiny, usual, huge, negative or none.
fn awkward() -> impl Strategy<Value = f64> {
    prop_oneof![
        4 => -9000.0..9000.0_f64,
        1 => Just(0.0),
        1 => Just(f64::MIN_POSITIVE),
        1 => Just(1e-6),
        1 => Just(-1e-9),
        1 => Just(1e12),
        1 => Just(1e300),
        1 => Just(f64::NAN),
        1 => Just(f64::INFINITY),
        1 => Just(f64::NEG_INFINITY),
    ]
}

fn vector() -> impl Strategy<Value = DVec3> {
    [awkward(), awkward(), awkward()].prop_map(DVec3::from_array)
}

/// What is answered makes sense, whatever was asked.
fn makes_sense(found: &Seen) -> bool {
    found.range_mm > 0.0
        && found.range_mm.is_finite()
        && found.at.is_finite()
        && found.sigma_dbsm.low() <= found.ideal_dbsm
        && found.ideal_dbsm <= found.sigma_dbsm.high()
        && found.sigma_dbsm.high() < f64::INFINITY
        && found.incidences.iter().all(|angle| (0.0..=PI / 2.0).contains(angle))
        && !found.incidences.is_empty()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 600, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn nothing_awkward_breaks_a_shape(
        sensor in vector(), middle in vector(), along in vector(), size in [awkward(), awkward(), awkward()],
        error in -0.2..0.2_f64,
        ghz in prop_oneof![Just(77.0), Just(24.0), 0.1..200.0_f64],
    ) {
        let wave = wavelength(ghz * 1e9).unwrap();
        let [one, other, third] = size;
        let edges = [along, along + DVec3::X * one, along.cross(DVec3::Y) + DVec3::Z * 0.1];
        let shapes = [
            Face::new(middle, along.x, along.y, one, other).ok().map(Shape::Face),
            Cylinder::new(middle, along, one, other).map(Shape::Cylinder),
            Some(Shape::Sphere { middle, radius_mm: one }),
            Some(Shape::Dihedral(Dihedral {
                middle, edge: along, first: sensor, first_mm: one, second_mm: other, length_mm: third, open_by: error,
            })),
            Trihedral::new(middle, edges, one, Mouth::Square).map(Shape::Trihedral),
            Trihedral::looking(middle, sensor - middle, one, Mouth::Triangular).map(Shape::Trihedral),
        ];
        for shape in shapes.into_iter().flatten() {
            if let Some(found) = seen(&shape, sensor, wave) {
                prop_assert!(makes_sense(&found), "{shape:?} {found:?}");
            }
        }
    }

    /// Near the plane, its sides and the lines of its sides there is a figure, and it goes over evenly.
    #[test]
    fn faces_are_even_everywhere(
        w in 60.0..2500.0_f64, h in 60.0..2500.0_f64, d in 100.0..6000.0_f64, p in -1.0..1.0_f64, q in -1.0..1.0_f64,
        on_side in 0..4_u32,
    ) {
        let face = upright(w, h);
        // On the line of a side, on a corner, or anywhere.
        let (y, z) = match on_side {
            0 => (0.5 * w, q * h),
            1 => (0.5 * w, 0.5 * h),
            2 => (p * w, -0.5 * h),
            _ => (p * w * 2.0, q * h * 2.0),
        };
        let at = |y: f64, z: f64| face::echo(&face, DVec3::new(d, y, z), wave()).unwrap();
        let found = at(y, z);
        prop_assert!(makes_sense(&found));
        for (dy, dz) in [(1e-7, 0.0), (-1e-7, 0.0), (0.0, 1e-7), (0.0, -1e-7)] {
            let beside = at(y + dy, z + dz);
            // Amplitudes against the mirror's own: deep zones are steep in dB.
            let size = |of: &Seen| 10.0_f64.powf(of.ideal_dbsm / 20.0) / (d / 1000.0);
            prop_assert!((size(&beside) - size(&found)).abs() < 1e-4, "{found:?} {beside:?}");
        }
        // Mirrored about either middle line it is the same.
        for other in [at(-y, z), at(y, -z), at(-y, -z)] {
            prop_assert!((other.ideal_dbsm - found.ideal_dbsm).abs() < 1e-6, "{found:?} {other:?}");
            prop_assert!((other.sigma_dbsm.high() - found.sigma_dbsm.high()).abs() < 1e-6);
        }
        // Lying down, it is the same with the sides changed over.
        let turned = face::echo(&upright(h, w), DVec3::new(d, z, y), wave()).unwrap();
        prop_assert!((turned.ideal_dbsm - found.ideal_dbsm).abs() < 1e-6);
        prop_assert!((turned.sigma_dbsm.low() - found.sigma_dbsm.low()).abs() < 1e-6);
    }

    /// Two halves of a face side by side are the face: their sums add up, so no more than both amplitudes together come back.
    #[test]
    fn halves_make_the_whole(
        w in 100.0..2000.0_f64, h in 100.0..2000.0_f64, at in -0.9..0.9_f64, d in 500.0..6000.0_f64,
        y in -800.0..800.0_f64, z in -800.0..800.0_f64,
    ) {
        let cut = 0.5 * w * at;
        let sensor = DVec3::new(d, y, z);
        let part = |from: f64, to: f64| {
            let face = Face::new(DVec3::Y * (0.5 * (from + to)), 0.0, 0.0, to - from, h).unwrap();
            let seen = face::echo(&face, sensor, wave()).unwrap();
            10.0_f64.powf(seen.ideal_dbsm / 20.0) / (seen.range_mm * seen.range_mm)
        };
        let (left, right, whole) = (part(-0.5 * w, cut), part(cut, 0.5 * w), part(-0.5 * w, 0.5 * w));
        prop_assert!(whole <= (left + right) * (1.0 + 1e-6) && whole >= (left - right).abs() * (1.0 - 1e-6) - 1e-15);
    }

    /// Far off, a face square on grows as its area squared and a column as its length squared; a corner reflector as its edge's
    /// fourth power.
    #[test]
    fn far_limits_are_monotone(size in 40.0..200.0_f64, more in 1.01..2.0_f64) {
        let far = DVec3::X * 1e8;
        let grown = |shape: &dyn Fn(f64) -> Shape| {
            let at = |mm: f64| seen(&shape(mm), far, wave()).unwrap().ideal_dbsm;
            at(size * more) - at(size)
        };
        let by = 10.0 * more.log10();
        let face = |mm: f64| Shape::Face(upright(mm, mm));
        let column = |mm: f64| Shape::Cylinder(Cylinder::new(DVec3::ZERO, DVec3::Z, 50.0, mm).unwrap());
        let corner = |mm: f64| {
            Shape::Trihedral(Trihedral::looking(DVec3::ZERO, DVec3::X, mm, Mouth::Triangular).unwrap())
        };
        prop_assert!((grown(&face) - 4.0 * by).abs() < 1e-2 && (grown(&column) - 2.0 * by).abs() < 1e-2);
        prop_assert!((grown(&corner) - 4.0 * by).abs() < 1e-2);
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 40, failure_persistence: None, ..ProptestConfig::default() })]

    /// At the turn that is named, and anywhere in the hold beyond it, the echo is low: asked anew of faces that were really turned.
    #[test]
    fn a_turn_that_is_named_does(
        far in 1000.0..4000.0_f64, aside in -1500.0..1500.0_f64, w in 200.0..900.0_f64, deep in 200.0..700.0_f64,
        first in -0.6..0.6_f64, share in 0.0..1.0_f64,
    ) {
        let made = |turn: f64| cabinet(DVec2::new(far, aside), first + turn, w, deep);
        let sensor = DVec3::new(0.0, 0.0, 600.0);
        let most = -10.0;
        let is_low = |of: &Seen| of.sigma_dbsm.high() - 40.0 * (of.range_mm / 1000.0).log10() <= most - 13.5;
        let faces = made(0.0);
        let asked = Asked { faces: &faces, sensor, wave: wave(), is_low: &is_low };
        let how = Turning { about: DVec2::new(far, aside), limit: 0.6, hold: 0.035 };
        let found = turn_by(&asked, &how);
        prop_assume!(found.left.is_some_and(|turn| turn > 0.0) || found.right.is_some_and(|turn| turn > 0.0));
        for (sign, turn) in [(1.0, found.left), (-1.0, found.right)] {
            let Some(turn) = turn else { continue };
            let there = sign * (turn + share * how.hold);
            for face in made(there) {
                if let Some(seen) = face::echo(&face, sensor, wave()) {
                    let level = seen.sigma_dbsm.high() - 40.0 * (seen.range_mm / 1000.0).log10();
                    prop_assert!(level <= most - 13.5 + 0.5, "{turn} {there} {level}");
                }
            }
        }
    }
}

/// Four upright sides, 1.5 m high, turned by so much about a place.
fn cabinet(at: DVec2, turn: f64, wide: f64, deep: f64) -> Vec<Face> {
    let side = |nth: f64, out: f64, width: f64| {
        let heading = turn + nth * PI / 2.0;
        let middle = at + DVec2::from_angle(heading) * out;
        Face::new(middle.extend(750.0), heading, 0.0, width, 1500.0).unwrap()
    };
    let (w, d) = (0.5 * wide, 0.5 * deep);
    vec![side(0.0, d, wide), side(1.0, w, deep), side(2.0, d, wide), side(3.0, w, deep)]
}

/// A door of 1 m at 3 m, square on: it must turn until the foot of the perpendicular is well off it (9.6° puts it on the edge), and
/// a small turn does nothing. Back by how much it must be moved, too.
#[test]
fn turned_until_the_spot_is_off() {
    let face = [Face::new(DVec3::new(3000.0, 0.0, 600.0), PI, 0.0, 1000.0, 1000.0).unwrap()];
    let sensor = DVec3::new(0.0, 0.0, 600.0);
    let level = |of: &Seen| of.sigma_dbsm.high() - 40.0 * (of.range_mm / 1000.0).log10();
    // A reflector of 13.5 dBsm at 1.5 m has 13.5 - 7.04 = 6.46 in the same count; -20 dB against it.
    let is_low = |of: &Seen| level(of) <= 6.46 - 20.0;
    let asked = Asked { faces: &face, sensor, wave: wave(), is_low: &is_low };
    let how = Turning { about: DVec2::new(3000.0, 0.0), limit: 0.7, hold: 0.035 };
    let found = turn_by(&asked, &how);
    let (left, right) = (found.left.unwrap().to_degrees(), found.right.unwrap().to_degrees());
    assert!((left - right).abs() < 0.05 && (9.4..12.0).contains(&left), "{left} {right}");
    assert_eq!(
        turn_by(&asked, &Turning { limit: 0.1, ..how }),
        baywright_radar::clear::Turns { left: None, right: None }
    );
    // πR²/R⁴ is -4.0 at 3 m in that count, so -5.54 at about 3.6 m, with the ripple of the rim.
    let strict = |of: &Seen| level(of) <= 6.46 - 12.0;
    let asked = Asked { is_low: &strict, ..asked };
    let back = Moving { along: DVec3::X, limit_mm: 4000.0, hold_mm: 100.0 };
    let moved = move_by(&asked, &back).unwrap();
    assert!((100.0..2500.0).contains(&moved), "{moved}");
    let there = Face::new(DVec3::new(3000.0 + moved + 50.0, 0.0, 600.0), PI, 0.0, 1000.0, 1000.0).unwrap();
    assert!(strict(&face::echo(&there, sensor, wave()).unwrap()));
    // Aside, the foot leaves it after half its width.
    let aside = move_by(&asked, &Moving { along: DVec3::Y, ..back }).unwrap();
    assert!((380.0..620.0).contains(&aside), "{aside}");
    assert_eq!(move_by(&asked, &Moving { along: DVec3::ZERO, ..back }), None);
    assert_eq!(move_by(&asked, &Moving { limit_mm: f64::NAN, ..back }), None);
}

/// A cabinet beside the line of sight: one way brings the mirror spot on before it takes it off.
#[test]
fn the_wrong_way_brings_the_spot_on() {
    let at = DVec2::new(2500.0, 700.0);
    // It looks at the sensor at 15.6°; 6° short of that the spot is on it by 27 mm.
    let heading = PI + f64::to_radians(15.64 - 6.0);
    let faces = [Face::new(at.extend(600.0), heading, 0.0, 600.0, 1500.0).unwrap()];
    let is_low = |of: &Seen| of.sigma_dbsm.high() - 40.0 * (of.range_mm / 1000.0).log10() <= -14.0;
    let asked = Asked { faces: &faces, sensor: DVec3::Z * 600.0, wave: wave(), is_low: &is_low };
    let turns = turn_by(&asked, &Turning { about: at, limit: 0.6, hold: 0.02 });
    let (left, right) = (turns.left.unwrap(), turns.right.unwrap());
    assert!(left.to_degrees() > 11.0 && right > 0.0 && right.to_degrees() < 5.0, "{left} {right}");
}

fn eye(tilt: Option<f64>) -> Eye {
    Eye { bay_from_sensor: Pose::looking(DVec3::new(0.0, 0.0, 600.0), 0.0, 0.0), wave: wave(), tilt }
}

#[test]
fn an_echo_has_a_place_and_a_surface() {
    let board = Face::new(DVec3::new(2000.0, 500.0, 600.0), PI, 0.0, 2000.0, 1000.0).unwrap();
    let of = |surface: Surface| echo(&Shape::Face(board.clone()), &surface, &eye(None));
    let steel = of(Surface::Metal).unwrap();
    assert_eq!((steel.range_mm, steel.at), (2000.0, DVec3::new(2000.0, 0.0, 600.0)));
    assert!(steel.bearing.azimuth.abs() < 1e-9 && steel.bearing.elevation.abs() < 1e-9 && steel.is_spot_on);
    let concrete = of(Surface::Thick(Building::Concrete)).unwrap();
    assert!((steel.sigma_dbsm.low() - concrete.sigma_dbsm.low() - 8.1204).abs() < 1e-3);
    assert!(of(Surface::Thick(Building::Brick)).is_some_and(|it| it.reach == Reach::Extrapolated));
    assert!(of(Surface::Own(Own::Cloth)).is_some_and(|it| it.is_estimate));
    assert_eq!(of(Surface::Unknown), None);
    // To the left and up, as the sensor counts.
    let ball = Shape::Sphere { middle: DVec3::new(2000.0, 2000.0, 1600.0), radius_mm: 100.0 };
    let found = echo(&ball, &Surface::Metal, &eye(None)).unwrap();
    assert!((found.bearing.azimuth - PI / 4.0).abs() < 1e-9 && found.bearing.elevation > 0.3, "{found:?}");
}

/// The law of levels takes it: a wide steel wall at 1.5, 2, 3 m against a reflector of 13.5 dBsm at 1.5 m is -5.0, -7.5, -11.0 dB
/// but for the ripple of its rim; the reflector is the one of 141.4 mm.
#[test]
fn walls_against_the_reflector() {
    use baywright_radar::level::{Known, Sensor, against};
    let sensor = Sensor::of(&Known::default()).unwrap();
    let eye = eye(Some(0.0));
    let origin = eye.bay_from_sensor.origin();
    let received = |of: &Echo| of.received(origin, sensor.isolation_db, Band::NOTHING).unwrap();
    let corner = origin + DVec3::X * 1500.0;
    let target = Trihedral::looking(corner, -DVec3::X, 141.4, Mouth::Triangular).unwrap();
    let target = echo(&Shape::Trihedral(target), &Surface::Metal, &eye).unwrap();
    for (mm, expected) in [(1500.0, -5.0), (2000.0, -7.5), (3000.0, -11.0)] {
        let wall = Face::new(DVec3::new(mm, 0.0, 600.0), PI, 0.0, 9000.0, 7000.0).unwrap();
        let wall = echo(&Shape::Face(wall), &Surface::Metal, &eye).unwrap();
        let level = against(&received(&wall), &received(&target), &sensor, &eye.bay_from_sensor).unwrap();
        assert!(level.low() - 0.3 < expected && expected < level.high() + 0.3, "{mm}: {level:?}");
        assert!(level.high() - level.low() < 2.0, "{level:?}");
    }
}

/// Two walls that meet behind the target: how the polarisation is tilted against the edge says what comes back as sent.
#[test]
fn a_corner_turns_the_polarisation() {
    let room = Shape::Dihedral(Dihedral {
        middle: DVec3::new(3000.0, 0.0, 600.0),
        edge: DVec3::Z,
        first: DVec3::new(-1.0, -1.0, 0.0),
        first_mm: 500.0,
        second_mm: 500.0,
        length_mm: 1000.0,
        open_by: 0.0,
    });
    let share = |tilt: Option<f64>| {
        let seen = seen(&room, DVec3::Z * 600.0, wave());
        assert!(seen.is_none());
        let Shape::Dihedral(of) = room.clone() else { unreachable!() };
        let turned = Shape::Dihedral(Dihedral { first: DVec3::new(-1.0, 1.0, 0.0), ..of });
        echo(&turned, &Surface::Metal, &eye(tilt)).unwrap().co_polar
    };
    for (degrees, expected) in [(0.0_f64, 1.0), (22.5, 0.5), (45.0, 0.0), (-22.5, 0.5)] {
        let found = share(Some(degrees.to_radians()));
        assert!((found.low() - expected).abs() < 1e-9 && found.low() == found.high(), "{degrees}: {found:?}");
    }
    assert_eq!((share(None).low(), share(None).high()), (0.0, 1.0));
}
