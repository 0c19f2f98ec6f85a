//! What a floor does to a car and to a target: how each tyre stands off the plane of all four, how high a target is set, what is
//! laid under the wheels; and how even it is. All by the levels of a survey, each figure with its own uncertainty.
//!
//! Levels and heights are in mm, z up; angles are radians, nose down and left side up; wheels are front left, front right, rear
//! left, rear right. The uncertainty of a level is a standard one, the same for all points of a survey and each on its own: what
//! lifts all of them alike changes nothing here.

pub mod even;

use baywright_geometry::{DVec2, DVec3};

use crate::input::{Figure, Input};
use crate::plane::{Stance, stance};
use crate::propagate::{Outcome, outcome, propagate_all};

/// How a car stands on a floor, and how surely.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Standing {
    /// What each tyre is above the plane of all four, mm.
    pub off_mm: [Figure; 4],
    /// Nose down.
    pub pitch_rad: Figure,
    /// Left side up.
    pub roll_rad: Figure,
    /// Roll of the front axle less that of the rear one.
    pub twist_rad: Figure,
}

/// How a car stands on the levels under its wheels, each known to `u_mm`; `ahead` is where its nose points, of length 1. `None` if
/// the wheels make no plane or a figure is no number.
///
/// By hand: levels known to 1 mm make the pitch over 2.5 m 1/2500 unsure (two axles, the mean of two levels each), and of what one
/// tyre is off, a quarter shows.
///
/// ```
/// use baywright_survey::floor::standing;
/// let wheels = [(0., 750., 4.), (0., -750., 0.), (-2500., 750., 0.), (-2500., -750., 0.)].map(|w| w.into());
/// let found = standing(&wheels, 1.0, (1.0, 0.0).into()).unwrap();
/// assert!((found.pitch_rad.u - 1.0 / 2500.0).abs() < 1e-8);
/// assert!((found.off_mm[0].value - 1.0).abs() < 1e-9 && (found.off_mm[0].u - 0.5).abs() < 1e-6);
/// ```
pub fn standing(wheels: &[DVec3; 4], u_mm: f64, ahead: DVec2) -> Option<Standing> {
    let levels = wheels.map(|wheel| Input::normal(wheel.z, u_mm));
    let all = propagate_all(
        |levels| {
            let wheels = with_levels(wheels, levels);
            let Some(Stance { plane, pitch_rad, roll_rad, twist_rad, .. }) = stance(&wheels, ahead) else {
                return vec![f64::NAN; 7];
            };
            let off = wheels.map(|wheel| wheel.z - plane.at(wheel.truncate()));
            off.into_iter().chain([pitch_rad, roll_rad, twist_rad]).collect()
        },
        &levels,
        &[],
    )?;
    let figure = |at: usize| Figure {
        value: all.values.get(at).copied().unwrap_or_default(),
        u: all.covariance.at(at, at).max(0.0).sqrt(),
    };
    Some(Standing {
        off_mm: [0, 1, 2, 3].map(figure),
        pitch_rad: figure(4),
        roll_rad: figure(5),
        twist_rad: figure(6),
    })
}

fn with_levels(wheels: &[DVec3; 4], levels: &[f64]) -> [DVec3; 4] {
    let mut with = *wheels;
    with.iter_mut().zip(levels).for_each(|(wheel, level)| wheel.z = *level);
    with
}

/// What "as high as" refers to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Upright {
    /// The plumb line: a level line from the sensor meets the target.
    Gravity,
    /// The plane of the wheels, wherever the floor goes behind it.
    WheelsPlane,
}

/// What a target's height over its own piece of floor rests on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ToSet {
    /// The levels under the wheels.
    pub wheels: [DVec3; 4],
    /// How surely each of them is known, mm.
    pub level_u_mm: f64,
    /// Where the sensor is, from above.
    pub sensor: DVec2,
    /// Its height over the plane of the wheels, mm.
    pub sensor_height_mm: Figure,
    /// Where the target is, from above.
    pub target: DVec2,
    /// How much higher than the sensor the procedure wants it, mm.
    pub higher_mm: f64,
    /// The floor's level where the stand is, mm.
    pub stand_level_mm: Figure,
    /// By what the heights go.
    pub upright: Upright,
}

/// How high a target is set over the floor where it stands, mm. The parts of its uncertainty are the four levels in their order,
/// the sensor's height, the level at the stand. `None` if the wheels make no plane or a figure is no number.
///
/// By hand: the car stands on a floor that falls by 10 mm a metre towards the target, which is 4 m ahead of the sensor. A level
/// line meets it 40 mm further up over the floor there; by the plane of the wheels nothing changes.
///
/// ```
/// use baywright_survey::{floor::*, input::Figure};
/// let level = |x: f64| -0.01 * x;
/// let wheel = |x: f64, y: f64| [x, y, level(x)].into();
/// let mut asked = ToSet {
///     wheels: [wheel(0., 750.), wheel(0., -750.), wheel(-2500., 750.), wheel(-2500., -750.)],
///     level_u_mm: 0.5,
///     sensor: (800.0, 0.0).into(),
///     sensor_height_mm: Figure { value: 520.0, u: 1.0 },
///     target: (4800.0, 0.0).into(),
///     higher_mm: 0.0,
///     stand_level_mm: Figure { value: level(4800.0), u: 0.5 },
///     upright: Upright::Gravity,
/// };
/// assert!((height_to_set(&asked).unwrap().value - 560.0).abs() < 1e-9);
/// asked.upright = Upright::WheelsPlane;
/// assert!((height_to_set(&asked).unwrap().value - 520.0).abs() < 1e-9);
/// ```
pub fn height_to_set(asked: &ToSet) -> Option<Outcome> {
    let ToSet { wheels, sensor, target, higher_mm, upright, .. } = *asked;
    let figure = |figure: Figure| Input::normal(figure.value, figure.u);
    let mut inputs: Vec<Input> =
        wheels.iter().map(|wheel| Input::normal(wheel.z, asked.level_u_mm)).collect();
    inputs.extend([figure(asked.sensor_height_mm), figure(asked.stand_level_mm)]);
    let place = match upright {
        Upright::Gravity => sensor,
        Upright::WheelsPlane => target,
    };
    let model = |x: &[f64]| {
        let plane = crate::Plane::through(&with_levels(&wheels, x));
        let at = |which: usize| x.get(which).copied().unwrap_or_default();
        vec![plane.map_or(f64::NAN, |plane| plane.at(place)) + at(4) + higher_mm - at(5)]
    };
    let all = propagate_all(model, &inputs, &[])?;
    Some(outcome(*all.values.first()?, all.follows.row(0), &inputs, &[]))
}

/// What is laid under the wheels, and how the car stands on it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Shims {
    /// Under each wheel, mm, not negative.
    pub under_mm: [f64; 4],
    /// Nose down, then.
    pub pitch_rad: f64,
    /// Left side up, then.
    pub roll_rad: f64,
    /// Highest less lowest of the four about their plane, then, mm: what the thickness of a shim leaves.
    pub spread_mm: f64,
    /// Whether pitch and roll are within the limit then.
    pub is_within: bool,
}

/// The least that is laid under the wheels so that pitch and roll are no more than a limit, radians, and all four are in one
/// plane, in shims of a thickness, mm (0 for any). `None` if the wheels make no plane or a figure is no number.
///
/// By hand: the right side is 12 mm low over a track of 1.5 m; level is 12 mm under both right wheels.
///
/// ```
/// use baywright_survey::floor::shims;
/// let wheels = [(0., 750., 12.), (0., -750., 0.), (-2500., 750., 12.), (-2500., -750., 0.)].map(|w| w.into());
/// let laid = shims(&wheels, (1.0, 0.0).into(), 0.0, 1.0).unwrap();
/// assert_eq!(laid.under_mm, [0.0, 12.0, 0.0, 12.0]);
/// let within = shims(&wheels, (1.0, 0.0).into(), 0.1_f64.to_radians(), 0.0).unwrap();
/// assert!((within.under_mm[1] - (12.0 - 1500.0 * 0.1_f64.to_radians().tan())).abs() < 1e-9);
/// ```
pub fn shims(wheels: &[DVec3; 4], ahead: DVec2, limit_rad: f64, step_mm: f64) -> Option<Shims> {
    let as_it_is = stance(wheels, ahead)?;
    if !((0.0..1.0).contains(&limit_rad) && (0.0..f64::INFINITY).contains(&step_mm)) {
        return None;
    }
    // What rounding adds may be too much: then no tilt is left standing.
    let tries = [limit_rad, 0.0].map(|limit| laid(wheels, ahead, &as_it_is, (limit, limit_rad), step_mm));
    let [one, other] = tries;
    one.filter(|laid| laid.is_within).or(other)
}

fn laid(
    wheels: &[DVec3; 4],
    ahead: DVec2,
    as_it_is: &Stance,
    (kept_rad, limit_rad): (f64, f64),
    step_mm: f64,
) -> Option<Shims> {
    let kept = |tilt: f64| libm::tan(tilt.clamp(-kept_rad, kept_rad));
    let slope = ahead * -kept(as_it_is.pitch_rad) + ahead.perp() * kept(as_it_is.roll_rad);
    // From one of the wheels, so that what is far from zero rounds no worse.
    let [first, ..] = *wheels;
    let missing = wheels.map(|wheel| slope.dot((wheel - first).truncate()) - (wheel.z - first.z));
    let least = missing.into_iter().fold(f64::INFINITY, f64::min);
    let whole = |mm: f64| if step_mm > 0.0 { libm::round(mm / step_mm) * step_mm } else { mm };
    let under_mm = missing.map(|mm| whole(mm - least));
    let mut raised = *wheels;
    raised.iter_mut().zip(under_mm).for_each(|(wheel, under)| wheel.z += under);
    let Stance { pitch_rad, roll_rad, spread_mm, .. } = stance(&raised, ahead)?;
    let is_within = [pitch_rad, roll_rad].iter().all(|tilt| tilt.abs() <= limit_rad + 1e-9);
    Some(Shims { under_mm, pitch_rad, roll_rad, spread_mm, is_within })
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn wheels(levels: [f64; 4]) -> [DVec3; 4] {
        let [a, b, c, d] = levels;
        [(0., 750., a), (0., -750., b), (-2500., 750., c), (-2500., -750., d)].map(DVec3::from)
    }

    proptest! {
        /// Nothing is negative, one wheel has none, the car is within the limit and flat, and without rounding no lower set does.
        #[test]
        fn shims_bring_it_within(
            levels in prop::array::uniform4(-30.0..30.0f64), limit in 0.0..0.01f64,
            step in prop::sample::select(vec![0.0, 0.5, 1.0]), turned in -3.0..3.0f64,
        ) {
            let ahead = baywright_geometry::angle::direction(turned);
            let wheels = wheels(levels).map(|w| ahead.rotate(w.truncate()).extend(w.z));
            let laid = shims(&wheels, ahead, limit, step).unwrap();
            prop_assert!(laid.under_mm.iter().all(|mm| *mm >= 0.0), "{laid:?}");
            prop_assert!(laid.under_mm.iter().any(|mm| *mm <= 0.5 * step + 1e-9), "{laid:?}");
            prop_assert!(laid.spread_mm <= 2.0 * step + 1e-6, "{laid:?}");
            prop_assert!(step > 0.0 || laid.is_within, "{laid:?}");
            prop_assert!(laid.pitch_rad.abs() <= limit + step / 2500.0 + 1e-9);
            prop_assert!(laid.roll_rad.abs() <= limit + step / 1500.0 + 1e-9);
        }
    }

    /// Both axles' levels alike: what the car stands on, known to u, is u/√2 at the middle of an axle; further out more, by similar
    /// triangles.
    #[test]
    fn a_height_ahead_of_the_car_is_less_sure() {
        let mut asked = ToSet {
            wheels: wheels([0.0; 4]),
            level_u_mm: 1.0,
            sensor: DVec2::ZERO,
            sensor_height_mm: Figure { value: 500.0, u: 0.0 },
            target: DVec2::new(3750.0, 0.0),
            higher_mm: 20.0,
            stand_level_mm: Figure { value: 3.0, u: 0.0 },
            upright: Upright::Gravity,
        };
        let found = height_to_set(&asked).unwrap();
        assert!((found.value - 517.0).abs() < 1e-9 && (found.u - 0.5_f64.sqrt()).abs() < 1e-6);
        asked.upright = Upright::WheelsPlane;
        // 1.5 wheelbases ahead: 2.5 of the front axle less 1.5 of the rear one, each u/√2.
        let expected = (0.5 * (2.5_f64.powi(2) + 1.5 * 1.5)).sqrt();
        assert!((height_to_set(&asked).unwrap().u - expected).abs() < 1e-6);
        asked.stand_level_mm.u = 2.0;
        assert!((height_to_set(&asked).unwrap().u - libm::hypot(expected, 2.0)).abs() < 1e-6);
    }

    #[test]
    fn what_makes_no_sense_has_no_answer() {
        let line = [0.0, 1.0, 2.0, 3.0].map(|x| DVec3::new(x * 100.0, 0.0, 0.0));
        assert_eq!(standing(&line, 1.0, DVec2::X), None);
        assert_eq!(standing(&wheels([0.0; 4]), f64::NAN, DVec2::X), None);
        assert_eq!(shims(&line, DVec2::X, 0.0, 1.0), None);
        assert_eq!(shims(&wheels([0.0; 4]), DVec2::X, -1.0, 1.0), None);
    }
}
