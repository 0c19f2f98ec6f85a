//! What comes back by mirrors, and where it is believed to be.

use std::f64::consts::{FRAC_PI_2, PI};

use baywright_geometry::angle::{degrees, heading};
use baywright_geometry::{DVec2, DVec3, Face, Polygon, Prism, Span};
use baywright_radar::paths::{Ghost, Mirror, Room, Round, mirror_ghosts, target_ghosts};

const SENSOR: DVec3 = DVec3::new(0.0, 0.0, 500.0);

/// An upright wall that faces along `turn`.
fn wall(x: f64, y: f64, turn: f64) -> Mirror {
    Mirror::front(Face::new(DVec3::new(x, y, 1000.0), turn, 0.0, 20_000.0, 4000.0).unwrap())
}

const fn room(mirrors: &[Mirror]) -> Room<'_> {
    Room { mirrors, blockers: &[], longest_mm: 100_000.0 }
}

fn bearing(ghost: &Ghost) -> f64 {
    degrees(heading(ghost.comes_from.truncate()))
}

/// references (computed with numpy): sensor (0, 0), target (3, 1), wall y = 2.5 m: ranges 3.162278, 4.081139, 5.000000 m at
/// bearings of 18.43495° and 53.13010°, the wall touched at x = 1.875 m.
#[test]
fn the_ghosts_of_one_wall() {
    let mirrors = [wall(0.0, 2500.0, -FRAC_PI_2)];
    let target = DVec3::new(3000.0, 1000.0, 500.0);
    let room = room(&mirrors);
    let direct = room.direct(SENSOR, target).unwrap();
    let single = room.singles(SENSOR, target).remove(0);
    assert!((single.bounces[0].at - DVec3::new(1875.0, 2500.0, 500.0)).length() < 1e-9);
    assert!((single.length_mm - 5000.0).abs() < 1e-9);
    assert!((degrees(single.bounces[0].incidence) - 36.869_897_6).abs() < 1e-6);
    let ghosts = target_ghosts(SENSOR, &[direct.clone(), single]);
    let found: Vec<(f64, f64, usize)> =
        ghosts.iter().map(|ghost| (ghost.range_mm, bearing(ghost), ghost.bounces())).collect();
    let expected = [(4081.139, 53.1301, 1), (4081.139, 18.43495, 1), (5000.0, 53.1301, 2)];
    assert_eq!(found.len(), expected.len());
    for (found, expected) in found.iter().zip(expected) {
        assert!((found.0 - expected.0).abs() < 1e-3 && (found.1 - expected.1).abs() < 1e-4, "{found:?}");
        assert_eq!(found.2, expected.2);
    }
    // Out by the wall and straight back, it comes from where the target is: believed behind it.
    assert!((ghosts[1].extra_mm(direct.length_mm) - 918.861).abs() < 1e-3);
    // There and back by the wall it is believed where the target's image stands.
    assert!((ghosts[2].believed - DVec3::new(3000.0, 4000.0, 500.0)).length() < 1e-9);
}

/// The wall itself sends back along its perpendicular, and what stands before it takes that away.
#[test]
fn a_wall_sends_back_along_its_perpendicular() {
    let mirrors = [wall(0.0, 2500.0, -FRAC_PI_2)];
    let back = mirror_ghosts(SENSOR, &room(&mirrors).singles(SENSOR, SENSOR));
    assert_eq!(back.len(), 1);
    assert_eq!(back[0].believed, DVec3::new(0.0, 2500.0, 500.0));
    assert!(matches!(&back[0].round, Round::Mirrors { around } if around.bounces[0].incidence == 0.0));
    let outline = Polygon::rectangle(DVec2::new(-100.0, 1000.0), DVec2::new(100.0, 1200.0)).unwrap();
    for (high, left) in [(400.0, 1), (600.0, 0)] {
        let cabinet = Prism::new(outline.clone().into(), Span::new(0.0, high).unwrap());
        let room = Room { blockers: &[&cabinet], ..room(&mirrors) };
        assert_eq!(room.singles(SENSOR, SENSOR).len(), left, "{high}");
    }
}

/// Two walls that face each other: the sensor between them sees itself by both, in both directions, at the distance between them.
#[test]
fn facing_walls_send_back_twice() {
    let mirrors = [wall(0.0, 2500.0, -FRAC_PI_2), wall(0.0, -1500.0, FRAC_PI_2)];
    let back = mirror_ghosts(SENSOR, &room(&mirrors).doubles(SENSOR, SENSOR));
    let found: Vec<(f64, f64)> = back.iter().map(|ghost| (ghost.range_mm, bearing(ghost))).collect();
    assert_eq!(found.len(), 2);
    for ((range, turn), expected) in found.iter().zip([-90.0, 90.0]) {
        assert!((range - 4000.0).abs() < 1e-9 && (turn - expected).abs() < 1e-9, "{found:?}");
    }
}

/// A wedge of 100°: sent back by both faces. A right angle sends back from its edge alone, which is a dihedral's echo.
#[test]
fn wedges_and_right_angles() {
    let turned = |by: f64| {
        let (sin, cos) = (0.5 * by).sin_cos();
        let face = |side: f64| {
            let centre = DVec3::new(5000.0 - 4000.0 * cos, side * 4000.0 * sin, 500.0);
            Mirror::front(Face::new(centre, PI - side * (0.5 * by - FRAC_PI_2), 0.0, 8000.0, 3000.0).unwrap())
        };
        [face(1.0), face(-1.0)]
    };
    let wedge = turned(80_f64.to_radians());
    let back = room(&wedge).doubles(SENSOR, SENSOR);
    assert_eq!(back.len(), 2, "{wedge:?}");
    // The wave's images lie 80° apart twice: half of the way is 5 m times sin 80°.
    assert!((0.5 * back[0].length_mm - 5000.0 * 80_f64.to_radians().sin()).abs() < 1e-6, "{back:?}");
    assert_eq!(room(&turned(FRAC_PI_2)).doubles(SENSOR, SENSOR), []);
    // Wider than a right angle, the second face lies behind what the first sends on.
    assert_eq!(room(&turned(100_f64.to_radians())).doubles(SENSOR, SENSOR), []);
}

#[test]
fn doubles_make_ghosts_both_ways() {
    let mirrors = [wall(0.0, 2500.0, -FRAC_PI_2), wall(6000.0, 0.0, PI)];
    let target = DVec3::new(3000.0, 1000.0, 500.0);
    let room = room(&mirrors);
    let mut ways = vec![room.direct(SENSOR, target).unwrap()];
    ways.extend(room.singles(SENSOR, target));
    let doubles = room.doubles(SENSOR, target);
    ways.extend(doubles.clone());
    // The image by both walls of a right angle stands at (12 - 3, 5 - 1) m, whichever comes first; one order is real.
    assert_eq!(doubles.len(), 1);
    assert!((doubles[0].length_mm - 9000_f64.hypot(4000.0)).abs() < 1e-9);
    let ghosts = target_ghosts(SENSOR, &ways);
    // Straight and by one: 2 × 2; by one and by one: 4; straight and by two: 2.
    assert_eq!(ghosts.len(), 10);
    assert!(ghosts.iter().all(|ghost| (1..=2).contains(&ghost.bounces()) && ghost.extra_mm(3162.0) > 0.0));
}
