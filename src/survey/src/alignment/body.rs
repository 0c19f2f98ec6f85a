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

/// So many points of a body are looked at.
pub const MOST_BODY_POINTS: usize = 30;

/// What separates the centreline by points of the body from a reference line by the wheels, abreast of a target so far ahead of the
/// middle of the front axle, mm. The reference starts in the middle of the rear wheels and is their centreline, turned by the
/// thrust angle where that is followed (radians, positive to the left; 0 for the centreline itself). Each point of the body is
/// where the car's drawing has it and where it was measured, both in one frame in which the drawing's own centreline is y = 0; the
/// body's line is that centreline under the turn and shift that bring the drawn points nearest to the measured ones (least squares
/// of a rigid body in the plane). `None` of fewer than two points or more than [`MOST_BODY_POINTS`], of points that lie on each
/// other, or if a figure is no number.
///
/// By hand: a front and a rear badge 4 m apart, the front one measured 4 mm to the left: turned by atan(4/4000), and 1 m ahead of
/// the front one 5 mm aside.
///
/// ```
/// use baywright_survey::alignment::body::body_line;
/// let wheels = [(0., 780.), (0., -780.), (-2600., 780.), (-2600., -780.)].map(|p| p.into());
/// let points = [((800., 0.).into(), (800., 4.).into()), ((-3200., 0.).into(), (-3200., 0.).into())];
/// let found = body_line((&wheels, 1.0), (&points, 1.0), 0.0, 1800.0).unwrap();
/// assert!((found.turned_rad.value - (4.0_f64 / 4000.0).atan()).abs() < 1e-9);
/// assert!((found.aside_mm.value - 5.0).abs() < 1e-5);
/// ```
pub fn body_line(
    (wheels, wheel_u_mm): (&[DVec2; 4], f64),
    (points, point_u_mm): (&[(DVec2, DVec2)], f64),
    thrust_rad: f64,
    ahead_mm: f64,
) -> Option<Apart> {
    if !(2..=MOST_BODY_POINTS).contains(&points.len()) || !thrust_rad.is_finite() || !ahead_mm.is_finite() {
        return None;
    }
    let cells = |at: DVec2, u: f64| at.to_array().map(|at| Input::normal(at, u));
    let mut inputs: Vec<Input> = wheels.iter().flat_map(|at| cells(*at, wheel_u_mm)).collect();
    inputs.extend(points.iter().flat_map(|(_, measured)| cells(*measured, point_u_mm)));
    let drawn: Vec<DVec2> = points.iter().map(|(drawn, _)| *drawn).collect();
    let model = |x: &[f64]| {
        let found = off_the_wheels(x, &drawn, thrust_rad, ahead_mm);
        found.map_or_else(|| vec![f64::NAN; 2], |own| own.to_vec())
    };
    let all = propagate_all(model, &inputs, &[])?;
    let figure = |at: usize| Figure {
        value: all.values.get(at).copied().unwrap_or_default(),
        u: all.covariance.at(at, at).max(0.0).sqrt(),
    };
    Some(Apart { turned_rad: figure(0), aside_mm: figure(1) })
}

/// How far the body's line is turned and aside: of the wheels' and the measured points' coordinates, in turn.
fn off_the_wheels(x: &[f64], drawn: &[DVec2], thrust_rad: f64, ahead_mm: f64) -> Option<[f64; 2]> {
    let at = |which: usize| x.get(which).copied().unwrap_or_default();
    let point = |nth: usize| DVec2::new(at(2 * nth), at(2 * nth + 1));
    let wheels = [0, 1, 2, 3].map(point);
    let reference = footing(&wheels)?;
    let measured: Vec<DVec2> = (0..drawn.len()).map(|nth| point(nth + 4)).collect();
    let middle = |of: &[DVec2]| of.iter().copied().sum::<DVec2>() / of.len() as f64;
    let (drawn_middle, middle) = (middle(drawn), middle(&measured));
    let (mut across, mut along) = (0.0, 0.0);
    for (from, to) in drawn.iter().zip(&measured) {
        let (from, to) = (*from - drawn_middle, *to - middle);
        across += from.perp_dot(to);
        along += from.dot(to);
    }
    if libm::hypot(across, along) < 1.0 {
        return None;
    }
    let body = libm::atan2(across, along);
    let way = angle::direction(reference.centreline_rad + thrust_rad);
    let [front_left, front_right, ..] = wheels;
    let front = (front_left + front_right) * 0.5;
    // Abreast of the target on the reference line, square to it.
    let far = (front - reference.rear_middle).dot(way) + ahead_mm;
    let abreast = reference.rear_middle + way * far;
    let own = angle::direction(body);
    // The drawing's own origin, as the body carries it.
    let on_body = middle - own.rotate(drawn_middle);
    let reach = own.dot(way);
    if reach.abs() < 1e-9 {
        return None;
    }
    let on = on_body + own * ((abreast - on_body).dot(way) / reach);
    Some([angle::wrapped(body - reference.centreline_rad - thrust_rad), way.perp_dot(on - abreast)])
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

    /// Four points of a body that is a rectangle are as the two axles' middles have it; turned as a whole nothing changes; and what
    /// is measured against the thrust line lies off by the thrust angle about the rear axle's middle.
    #[test]
    fn a_body_by_its_points_is_as_by_two_lines() {
        let wheels = [(0., 780.), (0., -780.), (-2600., 780.), (-2600., -780.)].map(DVec2::from);
        let drawn = [(0., 700.), (0., -700.), (-2000., 700.), (-2000., -700.)].map(DVec2::from);
        let turn = DVec2::from_angle(0.002);
        let measured = drawn.map(|at| turn.rotate(at) + DVec2::new(0.0, 3.0));
        let points: Vec<_> = drawn.into_iter().zip(measured).collect();
        let found = body_line((&wheels, 1.0), (&points, 1.0), 0.0, 3600.0).unwrap();
        let lines = between_centrelines((&wheels, 1.0), (&measured, 1.0), 3600.0).unwrap();
        assert!((found.turned_rad.value - 0.002).abs() < 1e-9, "{found:?}");
        assert!((found.turned_rad.value - lines.turned_rad.value).abs() < 1e-9);
        assert!((found.aside_mm.value - lines.aside_mm.value).abs() < 1e-6);
        // All four points hold its heading, not only what they lie aside: it is surer, and never less sure than the wheels' own.
        assert!(found.aside_mm.u < lines.aside_mm.u && found.aside_mm.u > 1.976);
        let thrust = body_line((&wheels, 1.0), (&points, 1.0), 0.001, 3600.0).unwrap();
        assert!((thrust.turned_rad.value - 0.001).abs() < 1e-9);
        let off = found.aside_mm.value - 6200.0 * libm::tan(0.001);
        assert!((thrust.aside_mm.value - off).abs() < 0.02, "{thrust:?} {off}");
        let ahead = angle::direction(-1.1);
        let there = |at: DVec2| ahead.rotate(at) + DVec2::new(900.0, 50.0);
        let far: Vec<_> = points.iter().map(|(drawn, at)| (*drawn, there(*at))).collect();
        let again = body_line((&wheels.map(there), 1.0), (&far, 1.0), 0.0, 3600.0).unwrap();
        assert!((again.aside_mm.value - found.aside_mm.value).abs() < 1e-6);
        assert_eq!(body_line((&wheels, 1.0), (&points[..1], 1.0), 0.0, 3600.0), None);
        let one = [points[0], points[0]];
        assert_eq!(body_line((&wheels, 1.0), (&one, 1.0), 0.0, 3600.0), None);
        assert_eq!(body_line((&wheels, 1.0), (&points, 1.0), f64::NAN, 3600.0), None);
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
