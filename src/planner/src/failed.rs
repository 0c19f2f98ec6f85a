//! When a routine failed: what of a set-up could explain it, the likeliest first, and what to check first.
//!
//! The one way to [`baywright_survey::causes`]: what may be out is made from the set-up, the shop's instruments and what was taped
//! (`failed/parts.rs`), what each does to the aim is worked out in space (`failed/sight.rs`) and, of the marks, by the plan's
//! budget. Lengths are mm, angles radians. Things that echo are not weighed, nor faults of the car or of the scan tool; of the
//! sensor itself nothing is said.

mod parts;
mod sight;
mod usual;

use baywright_geometry::DVec2;
use baywright_survey::causes::{self, Ranking, Routine, Told};
use baywright_survey::input::Figure;

use crate::model::{AimError, Arrangement, Id};
use crate::scene::Scene;
use parts::{Of, Parts};

pub(crate) use usual::{At, usual};

pub use baywright_survey::budget::Origin;
pub use baywright_survey::causes::Cause;

/// Whose direction the routine tells.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Whose {
    /// Where the sensor looks.
    Sensor,
    /// Where the target is seen.
    Target,
}

/// Which way it was out, in one of both directions.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub enum Way {
    /// It does not say.
    #[default]
    NotSaid,
    /// It is fine.
    Fine,
    /// Out to the left, or up; how far, radians, if it says.
    Above(Option<f64>),
    /// Out to the right, or down; how far, radians and positive, if it says.
    Below(Option<f64>),
}

/// What the routine said.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct RoutineSaid {
    /// Whose direction; it has to be known as soon as one is told.
    pub whose: Option<Whose>,
    /// Left and right.
    pub sideways: Way,
    /// Up and down.
    pub upright: Way,
    /// Its own limit either way, radians; `None`: what the aiming allows.
    pub limit_rad: Option<f64>,
    /// At which target of the aiming it failed, by its position; `None`: it does not say.
    pub at: Option<usize>,
}

/// One thing that may be out. Lengths are mm, turns radians; to the left, up and ahead positive.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Suspect {
    /// A step of the mark plan.
    Laid(Origin),
    /// The floor under the front axle.
    FrontLevel,
    /// Under the rear axle.
    RearLevel,
    /// Under the stand.
    StandLevel,
    /// The car's thrust line.
    Thrust,
    /// The car's front, moved aside.
    CarFront,
    /// Its rear.
    CarRear,
    /// The stand beside its mark, as seen from the sensor.
    StandAside,
    /// The target too high.
    StandHeight,
    /// The face turned from square, anticlockwise from above.
    StandTurned,
    /// The face looking down.
    StandTipped,
    /// The pole leaning to the left, as seen from the sensor.
    StandLeans,
    /// The sensor turned in its bracket.
    BracketTurned,
    /// The sensor tilted up in its bracket.
    BracketTilted,
}

impl Suspect {
    /// Which cause it belongs to.
    pub const fn cause(self) -> Cause {
        match self {
            Self::Laid(_) => Cause::Mark,
            Self::FrontLevel | Self::RearLevel | Self::StandLevel => Cause::Floor,
            Self::Thrust => Cause::ThrustLine,
            Self::CarFront | Self::CarRear => Cause::CarMoved,
            Self::StandAside
            | Self::StandHeight
            | Self::StandTurned
            | Self::StandTipped
            | Self::StandLeans => Cause::Stand,
            Self::BracketTurned | Self::BracketTilted => Cause::Bracket,
        }
    }

    /// Whether it is of one target and its stand, else of car, floor, marks or sensor.
    pub const fn is_of_target(self) -> bool {
        matches!(
            self,
            Self::StandLevel
                | Self::StandAside
                | Self::StandHeight
                | Self::StandTurned
                | Self::StandTipped
                | Self::StandLeans
        )
    }

    /// Whether it is a turn; else it is a length.
    pub const fn is_angle(self) -> bool {
        match self {
            Self::Laid(origin) => matches!(origin, Origin::Camber(_)),
            Self::Thrust
            | Self::StandTurned
            | Self::StandTipped
            | Self::StandLeans
            | Self::BracketTurned
            | Self::BracketTilted => true,
            Self::FrontLevel
            | Self::RearLevel
            | Self::StandLevel
            | Self::CarFront
            | Self::CarRear
            | Self::StandAside
            | Self::StandHeight => false,
        }
    }
}

/// What can be checked.
#[derive(Clone, Debug, PartialEq)]
pub enum ToCheck {
    /// A distance between two marks.
    Tape {
        /// From this mark.
        from: Id,
        /// To this one.
        to: Id,
        /// Whether it was taped before.
        again: bool,
    },
    /// One thing by itself.
    Part {
        /// Which.
        at: Suspect,
        /// Of which target, by its position, where it is of one.
        target: usize,
    },
}

/// What came of a check of one thing by itself.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Looked {
    /// What was looked at.
    pub at: Suspect,
    /// Of which target of the aiming, by its position; of what is of no target any.
    pub target: usize,
    /// How far out it was found, mm or radians, with the sign of its suspect.
    pub out: f64,
}

/// A cause in its place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Explains {
    /// What of it is the likeliest.
    pub suspect: Suspect,
    /// Of which target, by its position, where it is of one; else at which it makes itself felt.
    pub target: usize,
    /// How far that is out then, mm or radians; standard uncertainty.
    pub out: Figure,
    /// Of a mark and of a wheel's point: which way it lies off, mm, vehicle frame.
    pub by: Option<DVec2>,
    /// How likely the cause is, of all that was weighed: 0 to 1.
    pub chance: f64,
    /// Whether anything on this visit was read of it, or it is only assumed.
    pub is_measured: bool,
}

/// What there is to say.
#[derive(Clone, Debug, PartialEq)]
pub struct Explained {
    /// The causes, the likeliest first, one for each [`Cause`] that has a part in this set-up.
    pub causes: Vec<Explains>,
    /// Whether the first is likely enough to be named alone.
    pub is_clear: bool,
    /// What separates the first two best; `None` where nothing here does.
    pub check: Option<ToCheck>,
    /// How far the aim may be off, left and right, up and down, radians: by what it was weighed.
    pub allowed: [f64; 2],
}

/// Why there is nothing to say.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unexplained {
    /// A way is told, and not whose: the sensor's or the target's, which are each other's opposite.
    WhoseWay,
    /// It is fine both ways: nothing that is weighed here makes a routine fail then.
    BothFine,
    /// No target here aims a sensor.
    NoTarget,
    /// Nothing that may be out here explains it, or a figure makes no sense.
    Nothing,
}

/// A routine tells how far it is out to this share of what it allows, standard: common practice, no source.
const ROUTINE_SHARE: f64 = 0.2;

/// The targets that a routine may have failed at, by their positions: those that aim a sensor.
pub fn may_fail_at(arrangement: &Arrangement) -> Vec<usize> {
    let aims = |error: AimError| error.by_place > 0.0 || error.by_squareness > 0.0;
    let placements = arrangement.aiming.placements.iter().enumerate();
    placements.filter(|(_, own)| aims(own.target.error)).map(|(nth, _)| nth).collect()
}

/// What could explain it, by what is known of the set-up and by what was looked at since. Where the routine does not say at which
/// target it failed, each that aims the sensor counts by how well it would explain what was said.
///
/// # Errors
/// Why there is nothing to say.
pub fn explain(
    arrangement: &Arrangement,
    scene: &Scene,
    said: &RoutineSaid,
    looked: &[Looked],
) -> Result<Explained, Unexplained> {
    explain_while(arrangement, scene, said, looked, &|| true)
}

/// The same as long as somebody waits for it: `wanted` is asked before each target.
///
/// # Errors
/// As [`explain`]; nothing too once nobody waits any more.
pub fn explain_while(
    arrangement: &Arrangement,
    scene: &Scene,
    said: &RoutineSaid,
    looked: &[Looked],
    wanted: &dyn Fn() -> bool,
) -> Result<Explained, Unexplained> {
    let is_out = |way: Way| matches!(way, Way::Above(_) | Way::Below(_));
    if said.whose.is_none() && (is_out(said.sideways) || is_out(said.upright)) {
        return Err(Unexplained::WhoseWay);
    }
    if (said.sideways, said.upright) == (Way::Fine, Way::Fine) {
        return Err(Unexplained::BothFine);
    }
    let all = may_fail_at(arrangement);
    let asked: Vec<usize> = all.into_iter().filter(|nth| said.at.is_none_or(|at| at == *nth)).collect();
    if asked.is_empty() {
        return Err(Unexplained::NoTarget);
    }
    let tolerance = arrangement.aiming.tolerance;
    let sideways = said.limit_rad.unwrap_or(tolerance.azimuth_rad);
    let upright = said.limit_rad.unwrap_or(tolerance.elevation_rad);
    if !(sideways > 0.0 && upright > 0.0) {
        return Err(Unexplained::Nothing);
    }
    let asks =
        Asks { arrangement, scene, looked, sideways, upright, routine: routine(said, sideways, upright) };
    let each: Vec<AtTarget> =
        asked.into_iter().filter(|_| wanted()).filter_map(|nth| asks.at_target(nth)).collect();
    together(&each, [sideways, upright]).ok_or(Unexplained::Nothing)
}

/// What a routine said, as it is weighed: both ways in the measure of the one sideways.
fn routine(said: &RoutineSaid, sideways: f64, upright: f64) -> Routine {
    // The sensor that looks to the left sees the target to the right.
    let sign = if said.whose == Some(Whose::Sensor) { -1.0 } else { 1.0 };
    let u = ROUTINE_SHARE * sideways;
    let told = |way: Way, scale: f64| match way {
        Way::NotSaid => Told::Nothing,
        Way::Fine => Told::Fine,
        Way::Above(Some(by)) => Told::By(Figure { value: sign * by.abs() * scale, u }),
        Way::Below(Some(by)) => Told::By(Figure { value: -sign * by.abs() * scale, u }),
        Way::Above(None) if sign > 0.0 => Told::Above,
        Way::Below(None) if sign < 0.0 => Told::Above,
        Way::Above(None) | Way::Below(None) => Told::Below,
    };
    Routine {
        sideways: told(said.sideways, 1.0),
        upright: told(said.upright, sideways / upright),
        allowed: sideways,
    }
}

/// Of whom it is asked.
struct Asks<'a> {
    arrangement: &'a Arrangement,
    scene: &'a Scene,
    looked: &'a [Looked],
    sideways: f64,
    upright: f64,
    routine: Routine,
}

/// What explains it if it failed at one target.
struct AtTarget {
    nth: usize,
    parts: Parts,
    found: Ranking,
    routine: Routine,
}

impl Asks<'_> {
    fn at_target(&self, nth: usize) -> Option<AtTarget> {
        let Self { arrangement, scene, looked, sideways, upright, routine } = *self;
        let at = At::of(arrangement, scene, nth)?;
        let parts = Parts::of(&Of { at: &at, looked, sideways, upright });
        let found = causes::rank(&parts.parts, &parts.read, &parts.probes, &routine)?;
        Some(AtTarget { nth, parts, found, routine })
    }
}

impl AtTarget {
    fn explains(&self, ranked: &causes::Ranked, chance: f64) -> Option<Explains> {
        Some(Explains {
            suspect: *self.parts.suspects.get(ranked.part)?,
            target: self.nth,
            out: ranked.out,
            by: self.parts.ways.get(ranked.part).copied().flatten().map(|way| way * ranked.out.value),
            chance,
            is_measured: ranked.is_measured,
        })
    }

    /// The check that tells these two causes apart best, as far as both have a part in it.
    fn separates(&self, [first, second]: [Cause; 2]) -> Option<ToCheck> {
        let part = |of: Cause| self.found.causes.iter().find(|own| own.cause == of).map(|own| own.part);
        let Parts { parts, read, probes, checks, .. } = &self.parts;
        let check = causes::separates(parts, read, probes, &self.routine, [part(first)?, part(second)?])?;
        checks.get(check.nth).cloned()
    }
}

/// All targets at once: each as likely as it fits what was said.
fn together(each: &[AtTarget], allowed: [f64; 2]) -> Option<Explained> {
    let most = each.iter().map(|own| own.found.log_fits).fold(f64::NEG_INFINITY, f64::max);
    let fits = |own: &AtTarget| libm::exp(own.found.log_fits - most);
    let total: f64 = each.iter().map(fits).sum();
    if total.is_nan() || total <= 0.0 {
        return None;
    }
    // Of each cause: the sum, and the likeliest part with how likely that target has it.
    let mut causes: Vec<(f64, Explains)> = Vec::new();
    for own in each {
        for ranked in &own.found.causes {
            let chance = ranked.chance * fits(own) / total;
            let explains = own.explains(ranked, chance)?;
            match causes.iter_mut().find(|(_, there)| there.suspect.cause() == ranked.cause) {
                Some((best, there)) => {
                    let sum = there.chance + chance;
                    if chance > *best {
                        (*best, *there) = (chance, explains);
                    }
                    there.chance = sum;
                }
                None => causes.push((chance, explains)),
            }
        }
    }
    let mut causes: Vec<Explains> = causes.into_iter().map(|(_, own)| own).collect();
    let order = |own: &Explains| own.suspect.cause();
    causes.sort_by(|a, b| b.chance.total_cmp(&a.chance).then(order(a).cmp(&order(b))));
    let check = match causes.as_slice() {
        // Looked for at the target of the first; where that has no part in the second, at the second's.
        [first, second, ..] => [first.target, second.target]
            .iter()
            .filter_map(|nth| each.iter().find(|own| own.nth == *nth))
            .find_map(|own| own.separates([order(first), order(second)])),
        _ => None,
    };
    let is_clear = causes.first().is_some_and(|first| first.chance >= causes::SURE_FROM);
    Some(Explained { causes, is_clear, check, allowed })
}

#[cfg(test)]
mod tests;
