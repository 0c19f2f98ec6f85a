//! What a car's body says beside its wheels: how it hangs on its springs, and where its middle is.

use baywright_geometry::{DVec2, angle};

use super::footing;
use crate::input::{Figure, Input};
use crate::propagate::propagate_all;

/// How a body hangs, against how it is meant to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ride {
    /// What each arch is above its nominal height, mm; negative is low.
    pub off_mm: [Figure; 4],
    /// How far the whole body is above it, mm.
    pub higher_mm: Figure,
    /// Nose down more than nominal, radians.
    pub pitch_rad: Figure,
    /// Left side up more than nominal, radians.
    pub roll_rad: Figure,
}

/// How a body hangs by the heights at its four arches (front left, front right, rear left, rear right), each read to `u_mm`,
/// against the nominal ones, mm. `None` if a figure is no number or the wheels are not apart.
///
/// By hand: 10 mm low in front over 2 550 mm is 0.225° nose down; each reading to 1 mm makes it 1/2550 unsure.
///
/// ```
/// use baywright_survey::alignment::body::ride;
/// let found = ride([670., 670., 685., 685.], [680., 680., 685., 685.], 1.0, (2550.0, 1560.0)).unwrap();
/// assert!((found.pitch_rad.value.to_degrees() - 0.225).abs() < 5e-4);
/// assert!((found.pitch_rad.u * 2550.0 - 1.0).abs() < 1e-3 && found.higher_mm.value == -5.0);
/// ```
pub fn ride(
    heights_mm: [f64; 4],
    nominal_mm: [f64; 4],
    u_mm: f64,
    (wheelbase_mm, track_mm): (f64, f64),
) -> Option<Ride> {
    let apart = |mm: f64| mm > 0.0 && mm.is_finite();
    if !(apart(wheelbase_mm) && apart(track_mm)) {
        return None;
    }
    let mut off = heights_mm;
    off.iter_mut().zip(nominal_mm).for_each(|(own, nominal)| *own -= nominal);
    let model = |x: &[f64]| {
        let at = |which: usize| x.get(which).copied().unwrap_or_default();
        let [front, rear] = [0.5 * (at(0) + at(1)), 0.5 * (at(2) + at(3))];
        let [left, right] = [0.5 * (at(0) + at(2)), 0.5 * (at(1) + at(3))];
        vec![
            0.5 * (front + rear),
            libm::atan((rear - front) / wheelbase_mm),
            libm::atan((left - right) / track_mm),
        ]
    };
    let all = propagate_all(model, &off.map(|off| Input::normal(off, u_mm)), &[])?;
    let figure = |at: usize| Figure {
        value: all.values.get(at).copied().unwrap_or_default(),
        u: all.covariance.at(at, at).max(0.0).sqrt(),
    };
    Some(Ride {
        off_mm: off.map(|value| Figure { value, u: u_mm }),
        higher_mm: figure(0),
        pitch_rad: figure(1),
        roll_rad: figure(2),
    })
}

/// What separates two centrelines.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Apart {
    /// How far the second is turned from the first, radians anticlockwise.
    pub turned_rad: Figure,
    /// How far to its left it passes where the target is, mm.
    pub aside_mm: Figure,
}

/// What separates the centreline by body points from that by the wheels, abreast of a target so far ahead of the middle of the
/// front axle, mm: both by four points, front left, front right, rear left, rear right, in one frame, each found so well, mm.
/// `None` if points lie on each other or a figure is no number.
///
/// By hand: body points 3 mm to the left in front over 2 m and none behind are atan(3/2000), and 3 + 3·1.8 mm aside at 3.6 m.
///
/// ```
/// use baywright_survey::alignment::body::between_centrelines;
/// let four = |base: f64, left: f64| [(0., 700. + left), (0., -700. + left), (-base, 700.), (-base, -700.)].map(|p| p.into());
/// let found = between_centrelines((&four(2600.0, 0.0), 1.0), (&four(2000.0, 3.0), 1.0), 3600.0).unwrap();
/// assert!((found.turned_rad.value - (3.0_f64 / 2000.0).atan()).abs() < 1e-12);
/// assert!((found.aside_mm.value - 8.4).abs() < 1e-3);
/// ```
pub fn between_centrelines(
    (wheels, wheel_u_mm): (&[DVec2; 4], f64),
    (body, body_u_mm): (&[DVec2; 4], f64),
    ahead_mm: f64,
) -> Option<Apart> {
    let cells = |of: &[DVec2; 4], u: f64| {
        of.iter().flat_map(|at| at.to_array()).map(|at| Input::normal(at, u)).collect::<Vec<_>>()
    };
    let inputs: Vec<Input> = cells(wheels, wheel_u_mm).into_iter().chain(cells(body, body_u_mm)).collect();
    let model = |x: &[f64]| apart(x, ahead_mm).map_or_else(|| vec![f64::NAN; 2], |apart| apart.to_vec());
    let all = propagate_all(model, &inputs, &[])?;
    let figure = |at: usize| Figure {
        value: all.values.get(at).copied().unwrap_or_default(),
        u: all.covariance.at(at, at).max(0.0).sqrt(),
    };
    Some(Apart { turned_rad: figure(0), aside_mm: figure(1) })
}

fn apart(x: &[f64], ahead_mm: f64) -> Option<[f64; 2]> {
    let at = |which: usize| x.get(which).copied().unwrap_or_default();
    let four = |from: usize| [0, 1, 2, 3].map(|nth| DVec2::new(at(from + 2 * nth), at(from + 2 * nth + 1)));
    let (wheels, body) = (four(0), four(8));
    let (one, other) = (footing(&wheels)?, footing(&body)?);
    let [front_left, front_right, ..] = wheels;
    let way = angle::direction(one.centreline_rad);
    let abreast = (front_left + front_right) * 0.5 + way * ahead_mm;
    let turned = angle::wrapped(other.centreline_rad - one.centreline_rad);
    // Where the other line is abreast of the target, seen from the first one.
    let own = angle::direction(other.centreline_rad);
    let along = (abreast - other.rear_middle).dot(way) / own.dot(way);
    let aside = way.perp_dot(other.rear_middle + own * along - abreast);
    Some([turned, aside])
}

#[cfg(test)]
mod tests {
    use super::*;

    /// As [`super::super::centreline_unsure`] has it, by the closed form: only the wheels are unsure.
    #[test]
    fn a_centreline_is_as_unsure_as_the_closed_form_says() {
        let four = [(0., 780.), (0., -780.), (-2550., 780.), (-2550., -780.)].map(DVec2::from);
        let found = between_centrelines((&four, 1.0), (&four, 0.0), 3600.0).unwrap();
        assert!((found.aside_mm.u - 1.976).abs() < 5e-4, "{found:?}");
        assert!((found.turned_rad.u - 1.0 / 2550.0).abs() < 1e-8);
        // However the car stands on the floor.
        let ahead = angle::direction(0.7);
        let turned = four.map(|at| ahead.rotate(at) + DVec2::new(4000.0, -900.0));
        let there = between_centrelines((&turned, 1.0), (&turned, 0.0), 3600.0).unwrap();
        assert!((there.aside_mm.u - found.aside_mm.u).abs() < 1e-6 && there.aside_mm.value.abs() < 1e-9);
    }

    #[test]
    fn low_on_the_left() {
        let found = ride([640., 655., 640., 655.], [650.; 4], 0.5, (2600.0, 1500.0)).unwrap();
        assert!(
            (found.roll_rad.value + libm::atan(0.01)).abs() < 1e-12 && found.pitch_rad.value.abs() < 1e-12
        );
        assert_eq!(found.off_mm[0], Figure { value: -10.0, u: 0.5 });
        assert!((found.higher_mm.u - 0.25).abs() < 1e-9);
    }

    #[test]
    fn what_makes_no_sense_has_no_answer() {
        assert_eq!(ride([0.0; 4], [0.0; 4], 1.0, (0.0, 1.0)), None);
        assert_eq!(ride([f64::NAN; 4], [0.0; 4], 1.0, (2000.0, 1500.0)), None);
        let one = [DVec2::ZERO; 4];
        assert_eq!(between_centrelines((&one, 1.0), (&one, 1.0), 1000.0), None);
    }
}
