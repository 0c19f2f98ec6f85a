//! The headings that are looked at: first those that the room invites.

use std::f64::consts::{FRAC_PI_2, PI};

use baywright_geometry::{Polygon, angle};

/// A few degrees either way of a heading that the room invites are taken with it.
const FEW_DEGREES: i32 = 3;

/// Two walls whose directions differ by less, rad, run the same way: a few millimetres along a hall.
const SAME_WAY_RAD: f64 = 1e-3;

/// The four headings that a room invites, radians: along the walls of which it has most, and back, and across.
pub fn invited(room: &Polygon) -> [f64; 4] {
    let mut ways: Vec<(f64, f64)> = Vec::new();
    for edge in room.edges() {
        let along = angle::heading(edge.to - edge.from).rem_euclid(FRAC_PI_2);
        let apart = |a: f64| {
            let by = (a - along).abs();
            by.min(FRAC_PI_2 - by)
        };
        match ways.iter_mut().find(|(own, _)| apart(*own) < SAME_WAY_RAD) {
            Some((_, length)) => *length += edge.length(),
            None => ways.push((along, edge.length())),
        }
    }
    let most = ways.iter().fold((0.0, 0.0), |best, own| if own.1 > best.1 { *own } else { best }).0;
    [0.0, 1.0, 2.0, 3.0].map(|quarter| angle::wrapped(most + quarter * FRAC_PI_2))
}

/// All headings, a degree apart, each with whether the room invites it: those it does first, each with a few degrees either way.
pub fn headings(room: &Polygon) -> Vec<(f64, bool)> {
    let degree = PI / 180.0;
    let invited = invited(room);
    let offs = (0..=FEW_DEGREES).flat_map(|off| if off == 0 { vec![0] } else { vec![off, -off] });
    let near = offs.flat_map(|off| invited.map(|own| (angle::wrapped(own + f64::from(off) * degree), true)));
    let between = invited.iter().flat_map(|&own| {
        let others = FEW_DEGREES + 1..90 - FEW_DEGREES;
        others.map(move |off| (angle::wrapped(own + f64::from(off) * degree), false))
    });
    near.chain(between).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use baywright_geometry::DVec2;

    #[test]
    fn a_turned_room_invites_along_and_across_its_walls() {
        let room = Polygon::rectangle(DVec2::ZERO, DVec2::new(12_000.0, 6_000.0)).unwrap();
        let turned = room.placed(&baywright_geometry::PlanPose::new(DVec2::ZERO, 0.3));
        for (own, quarter) in invited(&turned).into_iter().zip([0.0, 1.0, 2.0, 3.0]) {
            assert!(angle::wrapped(own - 0.3 - quarter * FRAC_PI_2).abs() < 1e-9, "{own}");
        }
        let all = headings(&room);
        assert_eq!((all.len(), all.iter().filter(|own| own.1).count()), (360, 28));
        assert!(all[..4].iter().all(|own| (own.0 / FRAC_PI_2).fract().abs() < 1e-12));
        let mut degrees: Vec<i64> = all.iter().map(|own| own.0.to_degrees().round() as i64).collect();
        degrees.sort_unstable();
        degrees.dedup();
        assert!(degrees.len() >= 360, "{}", degrees.len());
    }
}
