//! What else of a target than its mark: how surely its height is set, and how surely its face stands square. With the shop's own
//! instruments, by the same law; heights in mm over the stand's floor, angles in radians.
//!
//! What each figure is made of is common practice, no source.

use super::instruments::Instruments;
use crate::input::{Figure, Input};
use crate::propagate::{Outcome, propagate};
use crate::stand::{face_turned, turned_by_mirror};

/// How a height is set: from a reference line, which a laser draws, by a tape.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HeightSet {
    /// The reference line's height over the floor under the wheels, as it was set.
    pub reference_mm: Figure,
    /// How far the laser is from the stand: it drifts by this.
    pub laser_run_mm: f64,
    /// How far over the line the target is to be, taped; negative under it.
    pub offset_mm: f64,
    /// The floor's level at the stand over that under the wheels.
    pub floor_between_mm: Figure,
}

/// Where the uncertainty of a height comes from, in the order of the parts of [`height`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum HeightFrom {
    /// Setting the reference line.
    Reference,
    /// The laser's drift up to the stand.
    Laser,
    /// Finding the middle of its line.
    Line,
    /// Reading the tape.
    TapeRead,
    /// The tape's scale and warmth.
    TapeCommon,
    /// The floor between.
    Floor,
}

impl HeightFrom {
    /// All, in the order of the parts.
    pub const ALL: [Self; 6] =
        [Self::Reference, Self::Laser, Self::Line, Self::TapeRead, Self::TapeCommon, Self::Floor];
}

/// The height at which a target comes to hang over the floor where it stands, with what each of [`HeightFrom::ALL`] adds. `None`
/// if a figure is no number.
///
/// By hand: 0.2 mm a metre over 5 m, 0.5 mm of a line and 0.5 mm of a tape are √(1 + 0.25 + 0.25).
///
/// ```
/// use baywright_survey::{budget::*, budget::target::*, input::Figure};
/// let tape = Tape { read_mm: 0.5, ..Instruments::PERFECT.tape };
/// let shop = Instruments { tape, laser_mm_per_m: 0.2, line_mm: 0.5, ..Instruments::PERFECT };
/// let exact = |value| Figure { value, u: 0.0 };
/// let set = HeightSet {
///     reference_mm: exact(300.0), laser_run_mm: 5000.0, offset_mm: 283.0, floor_between_mm: exact(4.0),
/// };
/// let found = height(&set, &shop).unwrap();
/// assert!((found.value - 579.0).abs() < 1e-9 && (found.u - 1.5_f64.sqrt()).abs() < 1e-9);
/// ```
pub fn height(set: &HeightSet, shop: &Instruments) -> Option<Outcome> {
    if !shop.is_sound() {
        return None;
    }
    let own = |u: f64| Input::normal(0.0, u);
    let inputs = [
        Input::normal(set.reference_mm.value, set.reference_mm.u),
        own(shop.laser_mm_per_m * set.laser_run_mm.abs() * 1e-3),
        own(shop.line_mm),
        own(shop.tape.of(set.offset_mm)),
        own(shop.tape.common()),
        Input::normal(set.floor_between_mm.value, set.floor_between_mm.u),
    ];
    propagate(
        |x| {
            let at = |which: usize| x.get(which).copied().unwrap_or_default();
            at(0) + at(1) + at(2) + set.offset_mm * (1.0 + at(4)) + at(3) - at(5)
        },
        &inputs,
        &[],
    )
}

/// How far up a target is seen from the sensor's own height, radians: both with their uncertainties, so far apart. `None` without a
/// distance.
///
/// ```
/// use baywright_survey::{budget::target::elevation, input::Figure};
/// let found = elevation(Figure { value: 525.0, u: 1.0 }, Figure { value: 520.0, u: 1.0 }, 2865.0).unwrap();
/// assert!((found.value.to_degrees() - 0.1).abs() < 1e-4 && (found.u.to_degrees() - 0.0283).abs() < 5e-5);
/// ```
pub fn elevation(target_mm: Figure, sensor_mm: Figure, distance_mm: f64) -> Option<Outcome> {
    if !(distance_mm > 0.0 && distance_mm.is_finite()) {
        return None;
    }
    let inputs = [target_mm, sensor_mm].map(|figure| Input::normal(figure.value, figure.u));
    let at = |x: &[f64], which: usize| x.get(which).copied().unwrap_or_default();
    propagate(|x| libm::atan((at(x, 0) - at(x, 1)) / distance_mm), &inputs, &[])
}

/// By what a face is set square to the axis.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum SquareBy {
    /// Two distances from a line that is square to the axis, at both ends of the face.
    TwoDistances {
        /// How far the ends are apart, mm.
        apart_mm: f64,
        /// How long each distance is, mm.
        distance_mm: f64,
    },
    /// The same at both ends of a bar that is laid on the face.
    Bar {
        /// How long it is, mm.
        length_mm: f64,
        /// How long each distance is, mm.
        distance_mm: f64,
        /// How parallel it lies to the face, radians.
        laid_rad: f64,
    },
    /// A laser that a mirror on the face sends back.
    Mirror {
        /// How far the laser is, mm.
        distance_mm: f64,
        /// How parallel the mirror lies to the face, radians.
        laid_rad: f64,
    },
}

/// How surely a face stands square then, radians: what the tape's scale adds is the same left and right, and cancels. `None` if a
/// figure is no number or a length is none.
///
/// Two distances prove little: half a millimetre at each end of 500 mm is 0.08°. A bar of 2 m is four times as sure.
///
/// ```
/// use baywright_survey::budget::{*, target::*};
/// let tape = Tape { read_mm: 0.5, ..Instruments::PERFECT.tape };
/// let shop = Instruments { tape, laser_mm_per_m: 0.1, ..Instruments::PERFECT };
/// let two = SquareBy::TwoDistances { apart_mm: 500.0, distance_mm: 3000.0 };
/// let bar = SquareBy::Bar { length_mm: 2000.0, distance_mm: 3000.0, laid_rad: 0.0 };
/// let u = |by| square(&by, &shop).unwrap();
/// assert!((u(two).to_degrees() - 0.0810).abs() < 5e-5);
/// assert!((u(two) / u(bar) - 4.0).abs() < 1e-6);
/// // 0.1 mm a metre there and back over 2.7 m is 0.54 mm, and half of its angle.
/// let mirror = SquareBy::Mirror { distance_mm: 2700.0, laid_rad: 0.0 };
/// assert!((u(mirror).to_degrees() - 0.00573).abs() < 1e-5);
/// ```
pub fn square(by: &SquareBy, shop: &Instruments) -> Option<f64> {
    if !shop.is_sound() {
        return None;
    }
    let read = |distance_mm: f64| libm::hypot(shop.tape.of(distance_mm), shop.line_mm);
    let (alone, laid) = match *by {
        SquareBy::TwoDistances { apart_mm, distance_mm } => {
            (face_turned(0.0, 0.0, apart_mm, read(distance_mm))?.u, 0.0)
        }
        SquareBy::Bar { length_mm, distance_mm, laid_rad } => {
            (face_turned(0.0, 0.0, length_mm, read(distance_mm))?.u, laid_rad)
        }
        SquareBy::Mirror { distance_mm, laid_rad } => {
            let beside = libm::hypot(shop.laser_mm_per_m * 2.0 * distance_mm * 1e-3, shop.line_mm);
            (turned_by_mirror(0.0, distance_mm, beside)?.u, laid_rad)
        }
    };
    let both = libm::hypot(alone, laid);
    (both.is_finite() && laid >= 0.0).then_some(both)
}

#[cfg(test)]
mod tests {
    use super::super::Tape;
    use super::*;

    /// By hand: 2 m of tape, 1e-4 of scale, are 0.2 mm, and the parts stand in their order.
    #[test]
    fn the_parts_of_a_height() {
        let shop = Instruments {
            tape: Tape { read_mm: 0.4, per_metre_mm: 0.1, scale: 1e-4, within_k: 0.0, per_k: 11.5e-6 },
            laser_mm_per_m: 0.3,
            line_mm: 0.7,
            ..Instruments::PERFECT
        };
        let set = HeightSet {
            reference_mm: Figure { value: 500.0, u: 0.9 },
            laser_run_mm: 4000.0,
            offset_mm: -2000.0,
            floor_between_mm: Figure { value: -3.0, u: 1.1 },
        };
        let found = height(&set, &shop).unwrap();
        let u: Vec<f64> = found.parts.iter().map(|part| part.u.abs()).collect();
        for (found, expected) in u.iter().zip([0.9, 1.2, 0.7, 0.6, 0.2, 1.1]) {
            assert!((found - expected).abs() < 1e-9, "{u:?}");
        }
        assert_eq!(u.len(), HeightFrom::ALL.len());
        assert!((found.value + 1497.0).abs() < 1e-9);
    }

    #[test]
    fn what_makes_no_sense_has_no_answer() {
        let shop = Instruments { line_mm: f64::NAN, ..Instruments::PERFECT };
        let exact = |value| Figure { value, u: 0.0 };
        let set = HeightSet {
            reference_mm: exact(1.0),
            laser_run_mm: 1.0,
            offset_mm: 1.0,
            floor_between_mm: exact(f64::NAN),
        };
        assert_eq!((height(&set, &shop), height(&set, &Instruments::PERFECT)), (None, None));
        assert_eq!(elevation(exact(1.0), exact(1.0), 0.0), None);
        let by = SquareBy::Mirror { distance_mm: 0.0, laid_rad: 0.0 };
        assert_eq!((square(&by, &shop), square(&by, &Instruments::PERFECT)), (None, None));
    }
}
