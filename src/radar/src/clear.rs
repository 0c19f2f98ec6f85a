//! By how much a thing must be turned or moved so that its echo is low enough.
//!
//! Looked through on the shapes' own formulas, never by a rule of thumb: a face loses its mirror spot where the foot of the
//! perpendicular leaves it, and turning a thing that stands aside can bring the spot *on*. Turning or moving the thing is the
//! sensor turned or moved the other way about it, so that every shape can be asked.

use baywright_geometry::{DVec2, DVec3, Face, Wavelength};

use crate::face;
use crate::seen::Seen;

/// A turn or a move is looked through in steps that change no way to the thing's pieces by more than this share of a wave.
const SHARE: f64 = 0.04;
/// No more steps than that: a bay's things need some thousands.
const MOST_STEPS: f64 = 100_000.0;

/// The thing and what is asked of it.
pub struct Asked<'a> {
    /// Its faces, in the bay's frame.
    pub faces: &'a [Face],
    /// The sensor, mm.
    pub sensor: DVec3,
    /// Its wavelength.
    pub wave: Wavelength,
    /// Whether an echo is low enough: mind the band's high end.
    pub is_low: &'a dyn Fn(&Seen) -> bool,
}

/// How a thing may be turned about an upright axis.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Turning {
    /// About which place in plan, mm.
    pub about: DVec2,
    /// No further than this, radians, either way.
    pub limit: f64,
    /// The echo must stay low for that much further: nobody turns a cabinet to a tenth of a degree.
    pub hold: f64,
}

/// The least turns that do, radians, both positive: the careful answer where the echo is low, and stays low for the hold.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Turns {
    /// Anticlockwise from above; `None` if none within the limit does.
    pub left: Option<f64>,
    /// Clockwise.
    pub right: Option<f64>,
}

/// How a thing may be moved.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Moving {
    /// In which direction, of any length but none.
    pub along: DVec3,
    /// No further than this, mm.
    pub limit_mm: f64,
    /// The echo must stay low for that much further, mm.
    pub hold_mm: f64,
}

/// By how much to turn the thing each way. 0 if nothing needs to be done. The echo is low at the turn named and at every step of
/// the hold beyond it; steps are so small that between two of them no lobe rises by more than half a dB. All faces are asked, also
/// those that a turn brings into view. `None` both ways for a limit or a hold that is negative or no number.
pub fn turn_by(asked: &Asked<'_>, how: &Turning) -> Turns {
    let reach = asked.faces.iter().flat_map(Face::corners).map(|p| p.truncate().distance(how.about));
    let step = SHARE * asked.wave.mm() / reach.fold(asked.wave.mm(), f64::max);
    let one_way = |sign: f64| {
        first_low(how.limit, how.hold, step, |turn| asked.is_low_seen(&|p| turned(p, how.about, sign * turn)))
    };
    Turns { left: one_way(1.0), right: one_way(-1.0) }
}

/// By how much to move the thing, mm, as [`turn_by`]; `None` also for no direction.
pub fn move_by(asked: &Asked<'_>, how: &Moving) -> Option<f64> {
    let along = how.along.try_normalize()?;
    let step = SHARE * asked.wave.mm();
    first_low(how.limit_mm, how.hold_mm, step, |mm| asked.is_low_seen(&|p| p + along * mm))
}

impl Asked<'_> {
    /// Whether all faces are low once the thing was put elsewhere.
    fn is_low_seen(&self, put: &dyn Fn(DVec3) -> DVec3) -> bool {
        // The way back of a turn or a move: where the origin and the axes go is all there is to it.
        let origin = put(DVec3::ZERO);
        let axes = [DVec3::X, DVec3::Y, DVec3::Z].map(|axis| put(axis) - origin);
        let own = self.sensor - origin;
        let sensor = DVec3::from_array(axes.map(|axis| axis.dot(own)));
        self.faces.iter().all(|face| match face::echo(face, sensor, self.wave) {
            Some(seen) => (self.is_low)(&Seen { at: put(seen.at), ..seen }),
            // Not to be seen from in front, or the sensor stands in it.
            None => face.in_front(sensor) <= 0.0 || is_clear_of(face, sensor, self.wave),
        })
    }
}

/// Whether a face that gives no figure gives none for lying edge on, and not because it is too near for one.
fn is_clear_of(face: &Face, sensor: DVec3, wave: Wavelength) -> bool {
    let own = sensor - face.centre();
    let beyond =
        (own.dot(face.left()).abs() - 0.5 * face.width()).max(own.dot(face.up()).abs() - 0.5 * face.height());
    beyond > crate::wave::LEAST_WAVES * wave.mm()
}

fn turned(p: DVec3, about: DVec2, turn: f64) -> DVec3 {
    let (sin, cos) = libm::sincos(turn);
    let own = p.truncate() - about;
    (about + DVec2::new(own.x * cos - own.y * sin, own.x * sin + own.y * cos)).extend(p.z)
}

/// The first place from 0 on from which on it is low for as long as the hold.
fn first_low(limit: f64, hold: f64, step: f64, is_low: impl Fn(f64) -> bool) -> Option<f64> {
    let steps = ((limit + hold) / step).ceil();
    if !(limit >= 0.0 && hold >= 0.0 && steps <= MOST_STEPS) {
        return None;
    }
    let mut begins = None;
    for nth in 0..=(steps as u32 + 1) {
        let at = f64::from(nth) * step;
        if !is_low(at) {
            begins = None;
        } else if begins.is_none() {
            begins = Some(at);
        }
        match begins {
            Some(first) if at - first >= hold => return (first <= limit).then_some(first),
            None if at > limit => return None,
            _ => {}
        }
    }
    None
}
