//! Ten thousand virtual aims: where the sensor would be aimed in this room, on this floor, by these marks, if all of them are out as they
//! may be and the echoes fall together at random. The one way to [`baywright_radar::aims`].
//!
//! For one target: within how much of where it is meant 95 of 100 aims lie, what each cause does to that, and the one cause that is
//! worth fixing. How far car, floor and stand are out as a rule is what a failed routine is weighed by too; how surely the marks lie is
//! their budget's, with what was taped; an echo that the sensor may not tell from the target has its level anywhere in its band and any
//! phase, each for itself. What was read or typed beside its place is no spread: it shifts them all.
//!
//! Angles are radians, too far to the left and too far up positive; intervals hold 95 of 100 draws. A prediction: nothing here
//! changes a verdict.

#[cfg(test)]
mod tests;

use baywright_radar::aims::{Aims, AimsFault, Cause, Part, Spread};
use baywright_radar::level::Band;
use baywright_radar::pull::MAY_TAKE_DB;
use baywright_radar::resolve::Surely;

use super::{Does, Echo, Seen, Untold};
use crate::failed::{At, Suspect, usual};
use crate::ground::sensor_u_mm;
use crate::model::{Arrangement, Id, TargetHeight};
use crate::proof::{AimKnown, aim_known};
use crate::scene::Scene;

pub use baywright_radar::aims::AIMS;

/// Always the same draws, so that the same set-up has the same answer on every machine.
const SEED: u64 = 20_081_012;
/// So many aims are drawn at a time.
const STEP: usize = 500;

/// So many steps a target takes.
pub const STEPS: usize = AIMS.div_ceil(STEP);

/// Why an aim may be out.
#[derive(Clone, Debug, PartialEq)]
pub enum Why {
    /// The mark under the target: wheels found, lines prolonged, distances taped.
    Mark,
    /// The stand beside its mark, or its pole not plumb to a side.
    StandPlace,
    /// How high the target is set, and how surely the sensor's own height is known.
    Height,
    /// How square its face stands, and how far it is tipped.
    Square,
    /// The levels under wheels and stand.
    Floor,
    /// The car, moved after it was measured.
    CarMoved,
    /// The thrust line, where the aiming goes by it.
    Thrust,
    /// An echo that the sensor may not tell from the target.
    Echo(Box<Echo>),
}

/// What one cause does to it: the part of the variance that goes without it, as a share of all.
#[derive(Clone, Debug, PartialEq)]
pub struct Share {
    /// The cause.
    pub why: Why,
    /// Of the variance to the left and right.
    pub left: f64,
    /// Of the variance up and down.
    pub up: f64,
    /// Of both, each measured by what is allowed. Of causes without echoes all add up to 1; echoes act on each other too.
    pub of_all: f64,
}

/// Where the sensor would be aimed.
#[derive(Clone, Debug, PartialEq)]
pub struct Aimed {
    /// By this target.
    pub target: Id,
    /// How many aims were drawn.
    pub draws: usize,
    /// How far off all of them are by what was read or typed already: to the left, and up.
    pub off: [f64; 2],
    /// Between which angles 95 of 100 lie: to the left, and up.
    pub between: [[f64; 2]; 2],
    /// Their standard deviation, to the left, and up.
    pub u: [f64; 2],
    /// How far off the aim may be, to a side, and up or down.
    pub allowed: [f64; 2],
    /// The causes, the one first that counts most: worth fixing, if one is.
    pub shares: Vec<Share>,
    /// Echoes that may be taken for the target: the aim may be at one of them, and these aims are without them.
    pub may_be_taken: Vec<Echo>,
    /// So many echoes as strong as that come from the target's own direction, and are left out: they change the aim by less than is
    /// allowed.
    pub in_line: usize,
}

impl Aimed {
    /// Within how much of where it is meant 95 of 100 lie: to a side, and up or down.
    pub fn within(&self) -> [f64; 2] {
        self.between.map(|[low, high]| high.max(-low))
    }

    /// The cause that counts most; `None` if no cause does anything.
    pub fn most(&self) -> Option<&Share> {
        self.shares.first().filter(|own| own.of_all > 0.0)
    }

    /// The cause that is worth fixing first: the one that counts most of those that somebody can do something about, which is not the
    /// floor as a mirror.
    pub fn worth_fixing(&self) -> Option<&Share> {
        let can_be = |own: &&Share| match &own.why {
            Why::Echo(echo) => echo.culprit().is_some(),
            _ => true,
        };
        self.shares.iter().find(can_be).filter(|own| own.of_all > 0.0)
    }
}

/// Why there is nothing to draw.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoAims {
    /// Nothing is said of the target's own echo.
    Untold(Untold),
    /// It aims no sensor.
    AimsNothing,
    /// How its place on the floor is found is not told, or a mark of the plan is not found.
    NoMark,
    /// All echoes together may cancel the target: there is no bound.
    NoBound,
    /// A figure makes no sense.
    NotSound,
}

/// Aims by one target, being drawn.
#[derive(Clone, Debug)]
pub struct VirtualAims {
    aims: Aims,
    whys: Vec<Why>,
    target: Id,
    off: [f64; 2],
    allowed: [f64; 2],
    may_be_taken: Vec<Echo>,
    in_line: usize,
}

impl VirtualAims {
    /// Makes ready to draw, for one target with all that the radar would see beside it.
    ///
    /// # Errors
    /// Why there is nothing to draw.
    pub fn of(arrangement: &Arrangement, scene: &Scene, seen: &Seen) -> Result<Self, NoAims> {
        seen.own.as_ref().map_err(|why| NoAims::Untold(*why))?;
        let nth = scene.targets.iter().position(|own| own.id == seen.target).ok_or(NoAims::AimsNothing)?;
        let at = At::of(arrangement, scene, nth).ok_or(NoAims::AimsNothing)?;
        let error = at.placement.target.error;
        let tolerance = arrangement.aiming.tolerance;
        let allowed = [tolerance.azimuth_rad, tolerance.elevation_rad];
        if error.by_place <= 0.0 && error.by_squareness <= 0.0 {
            return Err(NoAims::AimsNothing);
        }
        let known = aim_known(arrangement, scene, at.placement);
        if known.marks_u.is_none() && error.by_place > 0.0 {
            return Err(NoAims::NoMark);
        }
        let mut causes = Causes { at: &at, known: &known, all: Vec::new() };
        causes.laid();
        let (mut causes, mut may_be_taken, mut in_line) = (causes.all, Vec::new(), 0);
        for echo in seen.echoes.iter().filter(|own| own.heard.beside.is_one() != Surely::No) {
            let heard = &echo.heard;
            let is_strong = heard.level_db.high() >= MAY_TAKE_DB;
            match heard.does {
                Does::InLine if is_strong => in_line += 1,
                _ if is_strong => may_be_taken.push(echo.clone()),
                _ => causes
                    .push((Why::Echo(Box::new(echo.clone())), echo_of(heard.level_db, heard.draws_from))),
            }
        }
        let (whys, causes) = causes.into_iter().unzip();
        let aims = Aims::of(causes, SEED, AIMS).map_err(|fault| match fault {
            AimsFault::NoBound | AimsFault::MayBeTaken { .. } => NoAims::NoBound,
            AimsFault::NotSound { .. } => NoAims::NotSound,
        })?;
        Ok(Self { aims, whys, target: seen.target.clone(), off: known.off, allowed, may_be_taken, in_line })
    }

    /// How many steps are done.
    pub fn steps(&self) -> usize {
        self.aims.so_far().0.div_ceil(STEP)
    }

    /// Draws some more; `true` if those were the last.
    pub fn step(&mut self) -> bool {
        self.aims.step(STEP)
    }

    /// What was drawn so far comes to this; `None` if nothing was, or the aiming says no limits.
    pub fn finish(self) -> Option<Aimed> {
        let draws = self.aims.so_far().0;
        let Spread { left, up, by_cause } = self.aims.finish()?;
        let u = [left.u, up.u];
        let [aside, upright] = [0, 1].map(|at| squared(u[at] / self.allowed[at]));
        let all = aside + upright;
        if !all.is_finite() {
            return None;
        }
        let shares = self.whys.into_iter().zip(by_cause).map(|(why, own)| {
            let of_all = own.left * aside + own.up * upright;
            Share { why, left: own.left, up: own.up, of_all: if all > 0.0 { of_all / all } else { 0.0 } }
        });
        let mut shares: Vec<Share> = shares.collect();
        shares.sort_by(|a, b| b.of_all.total_cmp(&a.of_all));
        let [to_left, to_up] = self.off;
        Some(Aimed {
            target: self.target,
            draws,
            off: self.off,
            between: [[left.low + to_left, left.high + to_left], [up.low + to_up, up.high + to_up]],
            u,
            allowed: self.allowed,
            shares,
            may_be_taken: self.may_be_taken,
            in_line: self.in_line,
        })
    }
}

fn squared(of: f64) -> f64 {
    of * of
}

fn echo_of(level_db: Band, [left, up]: [f64; 2]) -> Cause {
    Cause::Echo { level_db, left, up }
}

/// What may lie wrongly, being gathered.
struct Causes<'a> {
    at: &'a At<'a>,
    known: &'a AimKnown,
    all: Vec<(Why, Cause)>,
}

impl Causes<'_> {
    /// All but the echoes: what does nothing to the aim is left out.
    fn laid(&mut self) {
        let mark = Part { left_per_unit: 1.0, up_per_unit: 0.0, u: self.known.marks_u.unwrap_or_default() };
        self.add(Why::Mark, mark);
        for own in usual(self.at) {
            let Some(why) = why(own.suspect) else { continue };
            let stand = &self.known.stand;
            let read = match own.suspect {
                Suspect::StandHeight => stand.height_u_mm,
                Suspect::StandTurned => stand.turned.map(|own| own.u),
                Suspect::StandTipped | Suspect::StandLeans => stand.lean_u,
                // What was read of a height has its floor in it.
                Suspect::StandLevel => stand.height_u_mm.map(|_| 0.0),
                _ => None,
            };
            let u = read.or(own.read.map(|(_, u)| u)).unwrap_or(own.usual);
            self.add(why, self.part(own.suspect, u));
        }
        let is_absolute = !matches!(self.at.placement.height, TargetHeight::FromSensor { .. });
        if is_absolute && self.known.stand.height_u_mm.is_none() {
            self.add(Why::Height, self.part(Suspect::StandHeight, sensor_u_mm(self.at.arrangement)));
        }
    }

    fn part(&self, suspect: Suspect, u: f64) -> Part {
        let (left_per_unit, up_per_unit) = self.at.sight.per_unit(suspect);
        Part { left_per_unit, up_per_unit, u }
    }

    fn add(&mut self, why: Why, part: Part) {
        let does = part.u * part.left_per_unit.abs().max(part.up_per_unit.abs());
        if does < NOTHING_RAD {
            return;
        }
        match self.all.iter_mut().find(|(own, _)| *own == why) {
            Some((_, Cause::Lies(parts))) => parts.push(part),
            _ => self.all.push((why, Cause::Lies(vec![part]))),
        }
    }
}

/// What aims off by less does nothing, radians: a thousandth of what the finest procedure asks.
const NOTHING_RAD: f64 = 1e-7;

/// Of what cause something is; `None` of the sensor's own, which is what is aimed.
const fn why(suspect: Suspect) -> Option<Why> {
    Some(match suspect {
        Suspect::Laid(_) => Why::Mark,
        Suspect::FrontLevel | Suspect::RearLevel | Suspect::StandLevel => Why::Floor,
        Suspect::Thrust => Why::Thrust,
        Suspect::CarFront | Suspect::CarRear => Why::CarMoved,
        Suspect::StandAside | Suspect::StandLeans => Why::StandPlace,
        Suspect::StandHeight => Why::Height,
        Suspect::StandTurned | Suspect::StandTipped => Why::Square,
        Suspect::BracketTurned | Suspect::BracketTilted => return None,
    })
}
