//! What a stand does to the aim: its height, its face, its pole; and what the ways of finding them prove.
//!
//! Angles are radians, positive anticlockwise from above; lengths mm; left and right are the car's.

use baywright_geometry::DVec2;

use crate::input::Input;
use crate::propagate::{Outcome, propagate};

/// How far a face is turned from square to the axis, by the distances of its left and its right end from a line that is square to
/// it: positive anticlockwise, when the left end is the nearer one. `u_mm` is the standard uncertainty of each distance. `None` if
/// the ends are not apart or a figure is no number.
///
/// 1 mm at each end of 500 mm proves no tenth of a degree:
///
/// ```
/// use baywright_survey::stand::face_turned;
/// let found = face_turned(3000.0, 3000.9, 500.0, 1.0).unwrap();
/// assert!((found.value.to_degrees() - 0.103).abs() < 5e-4);
/// assert!((found.u.to_degrees() - 0.162).abs() < 5e-4);
/// ```
pub fn face_turned(left_mm: f64, right_mm: f64, apart_mm: f64, u_mm: f64) -> Option<Outcome> {
    if !(apart_mm > 0.0 && apart_mm.is_finite()) {
        return None;
    }
    let ends = [Input::normal(left_mm, u_mm), Input::normal(right_mm, u_mm)];
    propagate(|x| libm::atan((at(x, 1) - at(x, 0)) / apart_mm), &ends, &[])
}

/// How far a face is turned if a laser that it sends back by a mirror comes in so far beside where it went out. `None` without a
/// distance.
///
/// 9.4 mm at 2.7 m is a tenth of a degree:
///
/// ```
/// use baywright_survey::stand::turned_by_mirror;
/// assert!((turned_by_mirror(9.4248, 2700.0, 1.0).unwrap().value.to_degrees() - 0.1).abs() < 1e-4);
/// ```
pub fn turned_by_mirror(beside_mm: f64, distance_mm: f64, u_mm: f64) -> Option<Outcome> {
    let is_there = distance_mm > 0.0 && distance_mm.is_finite();
    is_there.then(|| {
        propagate(|x| 0.5 * libm::atan(at(x, 0) / distance_mm), &[Input::normal(beside_mm, u_mm)], &[])
    })?
}

/// How far from where it should be a target is that hangs at a height on a pole that leans so far ahead (x) and to the left (y),
/// mm.
pub fn lean_moves(height_mm: f64, ahead_rad: f64, left_rad: f64) -> DVec2 {
    DVec2::new(libm::sin(ahead_rad), libm::sin(left_rad)) * height_mm
}

/// A target's height over the floor where it stands: a reference line's height, its offset from that, both with their standard
/// uncertainties, and the floor's own there over that under the reference. `None` if a figure is no number.
pub fn height(reference: Input, offset: Input, floor_between: Input) -> Option<Outcome> {
    propagate(|x| at(x, 0) + at(x, 1) - at(x, 2), &[reference, offset, floor_between], &[])
}

/// The angle under which so much aside is seen from a distance, radians: 5 mm at 2.8 m is a tenth of a degree. `None` without a
/// distance.
pub fn seen_as(aside_mm: f64, distance_mm: f64) -> Option<f64> {
    (distance_mm > 0.0 && aside_mm.is_finite()).then(|| libm::atan(aside_mm / distance_mm))
}

/// How far apart two points at a radius are that differ by an angle, mm: what a tape has to read instead of a protractor. Half a
/// degree is 13 mm at 1.5 m.
pub fn chord_mm(radius_mm: f64, angle_rad: f64) -> f64 {
    2.0 * radius_mm * libm::sin(0.5 * angle_rad)
}

/// How often an adjusting screw is turned to turn what it holds by an angle: the screw's distance from the pivot over its pitch.
/// `None` without a pitch or a distance.
pub fn turns_of_screw(angle_rad: f64, from_pivot_mm: f64, pitch_mm: f64) -> Option<f64> {
    let turns = from_pivot_mm * libm::tan(angle_rad) / pitch_mm;
    (from_pivot_mm > 0.0 && pitch_mm > 0.0 && turns.is_finite()).then_some(turns)
}

fn at(x: &[f64], which: usize) -> f64 {
    x.get(which).copied().unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: 0.1° of a plate of 500 mm is 0.87 mm between its ends; half a degree at 1.5 m is 13.1 mm; a tenth at 2.8 m 4.9 mm
    /// and at 4 m 7.0 mm.
    #[test]
    fn figures_by_hand() {
        let tenth = 0.1_f64.to_radians();
        assert!((500.0 * libm::tan(tenth) - 0.873).abs() < 5e-4);
        let turned = face_turned(1000.0 - 0.8727, 1000.0, 500.0, 0.1).unwrap();
        assert!((turned.value - tenth).abs() < 1e-6);
        assert!((chord_mm(1500.0, 0.5_f64.to_radians()) - 13.09).abs() < 5e-3);
        assert!((seen_as(4.887, 2800.0).unwrap() - tenth).abs() < 1e-6);
        assert!((seen_as(6.981, 4000.0).unwrap() - tenth).abs() < 1e-6);
        assert!((lean_moves(1000.0, 0.0, 0.5_f64.to_radians()).y - 8.727).abs() < 1e-3);
        assert!((turns_of_screw(tenth, 60.0, 1.0).unwrap() - 0.1047).abs() < 1e-4);
    }

    #[test]
    fn a_height_from_a_line() {
        let found =
            height(Input::normal(300.0, 0.5), Input::normal(283.0, 0.5), Input::normal(4.0, 1.0)).unwrap();
        assert!((found.value - 579.0).abs() < 1e-9 && (found.u - 1.5_f64.sqrt()).abs() < 1e-9);
        assert!((found.parts[2].share - 2.0 / 3.0).abs() < 1e-9);
    }

    #[test]
    fn what_makes_no_sense_has_no_answer() {
        assert_eq!(face_turned(1.0, 1.0, 0.0, 1.0), None);
        assert_eq!(face_turned(f64::NAN, 1.0, 500.0, 1.0), None);
        assert_eq!(turned_by_mirror(1.0, 0.0, 1.0), None);
        assert_eq!((seen_as(1.0, 0.0), turns_of_screw(0.1, 60.0, 0.0)), (None, None));
    }
}
