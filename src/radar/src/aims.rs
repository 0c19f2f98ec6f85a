//! Ten thousand virtual aims: where the sensor would be aimed in this room if the marks lay, the floor stood and the echoes fell as
//! they may, how much of that is by which cause, and the one cause that is worth fixing.
//!
//! Angles are radians: the sensor ends up aimed too far to the left, too far up. Causes have nothing to do with each other; what is
//! common to several marks is a cause of its own. What lies wrongly goes in linearly (a map from its own unit, normal, JCGM 101);
//! echoes are phasors with any phase alike, drawn together ([`crate::pull`]), each with a level anywhere in its band alike.
//!
//! Draws come from the program's own generator, the same on every machine, in steps, so that a screen can stop between two.

use std::f64::consts::TAU;

use baywright_survey::dice::Dice;
use baywright_survey::monte_carlo::{Drawn, Enough, Gathered};

use crate::level::Band;
use crate::pull::{MAY_TAKE_DB, amplitude};

/// So many aims are drawn if nothing else is said.
pub const AIMS: usize = 10_000;

/// The share of the aims that the intervals hold.
const COVERAGE: f64 = 0.95;

/// One figure that may be out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Part {
    /// How far to the left the sensor is aimed for each unit, radians.
    pub left_per_unit: f64,
    /// How far up, radians.
    pub up_per_unit: f64,
    /// Its standard uncertainty, in its unit, at least 0.
    pub u: f64,
}

/// Why an aim is out.
#[derive(Clone, Debug, PartialEq)]
pub enum Cause {
    /// Figures that may lie wrongly: those of one mark, of the floor, of the stand.
    Lies(Vec<Part>),
    /// An echo that the sensor cannot tell from the target.
    Echo {
        /// How strong it is against the target, dB.
        level_db: Band,
        /// How far to the left of the target it is, radians.
        left: f64,
        /// How far above it, radians.
        up: f64,
    },
}

/// Why aims cannot be drawn.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum AimsFault {
    /// A figure of this cause is none, or an uncertainty is below 0.
    NotSound {
        /// Its position.
        cause: usize,
    },
    /// These echoes may be taken for the target: the aim may be at one of them, and no spread says how far out that is.
    MayBeTaken {
        /// Their positions.
        causes: Vec<usize>,
    },
    /// All echoes together may cancel the target: there is no bound.
    NoBound,
}

/// A direction: to the left, and up.
type Both = [f64; 2];

/// What one cause adds to one aim.
#[derive(Clone, Copy)]
enum Drop {
    /// Radians.
    Lies(Both),
    /// A phasor, and how far aside it lies, radians.
    Echo { phasor: Both, apart: Both },
}

/// Sums of values and of their squares.
#[derive(Clone, Copy, Debug, Default)]
struct Sums {
    sum: Both,
    squares: Both,
}

impl Sums {
    fn take(&mut self, value: Both) {
        for ((sum, square), value) in self.sum.iter_mut().zip(&mut self.squares).zip(value) {
            *sum += value;
            *square += value * value;
        }
    }

    fn variance(&self, count: usize) -> Both {
        let count = count as f64;
        let of = |at: usize| {
            let (sum, square) = (self.sum.get(at).copied(), self.squares.get(at).copied());
            let (sum, square) = (sum.unwrap_or_default(), square.unwrap_or_default());
            ((square - sum * sum / count) / (count - 1.0)).max(0.0)
        };
        [of(0), of(1)]
    }
}

/// Aims, being drawn.
#[derive(Clone, Debug)]
pub struct Aims {
    causes: Vec<Cause>,
    dice: Dice,
    wanted: usize,
    done: usize,
    all: Sums,
    /// The same aims, with one cause switched off in each.
    without: Vec<Sums>,
    gathered: [Gathered; 2],
}

/// Where the sensor would be aimed.
#[derive(Clone, Debug, PartialEq)]
pub struct Spread {
    /// To the left, radians.
    pub left: Drawn,
    /// Up, radians.
    pub up: Drawn,
    /// What each cause does to it, in their order.
    pub by_cause: Vec<Share>,
}

/// The part of the variance that goes if one cause is switched off, as a share of all: to the left, and up. 0 if nothing goes, or
/// there is nothing. Of causes that lie wrongly the shares add up to 1; echoes also act on each other, so that theirs need not.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Share {
    /// Of the variance to the left.
    pub left: f64,
    /// Of the variance up.
    pub up: f64,
}

impl Aims {
    /// Makes ready to draw so many aims (at least 2) by this seed.
    ///
    /// # Errors
    /// What cannot be drawn.
    pub fn of(causes: Vec<Cause>, seed: u64, wanted: usize) -> Result<Self, AimsFault> {
        if let Some(cause) = causes.iter().position(|cause| !is_sound(cause)) {
            return Err(AimsFault::NotSound { cause });
        }
        let level = |cause: &Cause| match cause {
            Cause::Echo { level_db, .. } => level_db.high(),
            Cause::Lies(_) => f64::NEG_INFINITY,
        };
        let taken = causes.iter().enumerate().filter(|(_, cause)| level(cause) >= MAY_TAKE_DB);
        let taken: Vec<usize> = taken.map(|(nth, _)| nth).collect();
        if !taken.is_empty() {
            return Err(AimsFault::MayBeTaken { causes: taken });
        }
        if causes.iter().map(|cause| amplitude(level(cause))).sum::<f64>() >= 1.0 {
            return Err(AimsFault::NoBound);
        }
        let enough = Enough { coverage: COVERAGE, digits: 1, ..Enough::default() };
        let without = vec![Sums::default(); causes.len()];
        let gathered = [Gathered::new(enough), Gathered::new(enough)];
        let dice = Dice::of(seed, 0);
        Ok(Self { causes, dice, wanted: wanted.max(2), done: 0, all: Sums::default(), without, gathered })
    }

    /// How many are drawn, and how many are to be.
    pub const fn so_far(&self) -> (usize, usize) {
        (self.done, self.wanted)
    }

    /// Draws at most so many more; `true` if that was all. It costs some multiplications for each aim and cause. What comes out
    /// does not depend on the size of the steps, but for the figure that says how steady it is.
    pub fn step(&mut self, most: usize) -> bool {
        let count = most.min(self.wanted - self.done);
        let (mut left, mut up) = (Vec::with_capacity(count), Vec::with_capacity(count));
        let mut drops = Vec::with_capacity(self.causes.len());
        for _ in 0..count {
            drops.clear();
            drops.extend(self.causes.iter().map(|cause| drop_of(cause, &mut self.dice)));
            let together = Together::of(&drops);
            let aim = together.aim();
            self.all.take(aim);
            for (drop, without) in drops.iter().zip(&mut self.without) {
                without.take(together.less(drop).aim());
            }
            let [to_left, to_up] = aim;
            left.push(to_left);
            up.push(to_up);
        }
        self.done += count;
        let [all_left, all_up] = &mut self.gathered;
        all_left.take(left);
        all_up.take(up);
        self.done == self.wanted
    }

    /// What was drawn so far came to this; `None` if fewer than two were.
    pub fn finish(self) -> Option<Spread> {
        let [left, up] = self.gathered;
        let all = self.all.variance(self.done);
        let by_cause = self.without.iter().map(|without| {
            let [left, up] = without.variance(self.done);
            Share { left: gone(all[0], left), up: gone(all[1], up) }
        });
        let by_cause = by_cause.collect();
        Some(Spread { left: left.finish()?, up: up.finish()?, by_cause })
    }
}

impl Spread {
    /// The one cause that is worth fixing: whose variance counts the most against the tolerances to the left and up (radians, above
    /// 0; their ratio counts), by its position. `None` if no cause does anything, or a tolerance is none.
    pub fn worth_fixing(&self, tolerance: [f64; 2]) -> Option<usize> {
        if !tolerance.iter().all(|of| *of > 0.0 && of.is_finite()) {
            return None;
        }
        let [left, up] = [self.left.u / tolerance[0], self.up.u / tolerance[1]];
        let weight = |share: &Share| share.left * left * left + share.up * up * up;
        let most = self.by_cause.iter().map(weight).enumerate().max_by(|a, b| a.1.total_cmp(&b.1))?;
        (most.1 > 0.0).then_some(most.0)
    }
}

fn gone(all: f64, without: f64) -> f64 {
    if all > 0.0 { ((all - without) / all).max(0.0) } else { 0.0 }
}

fn is_sound(cause: &Cause) -> bool {
    match cause {
        Cause::Lies(parts) => parts.iter().all(|part| {
            [part.left_per_unit, part.up_per_unit, part.u].iter().all(|of| of.is_finite()) && part.u >= 0.0
        }),
        Cause::Echo { left, up, .. } => left.is_finite() && up.is_finite(),
    }
}

fn drop_of(cause: &Cause, dice: &mut Dice) -> Drop {
    match cause {
        Cause::Lies(parts) => {
            let mut lies = [0.0, 0.0];
            for part in parts {
                let out = part.u * dice.normal();
                lies = [lies[0] + part.left_per_unit * out, lies[1] + part.up_per_unit * out];
            }
            Drop::Lies(lies)
        }
        Cause::Echo { level_db, left, up } => {
            let share = dice.uniform();
            let (sin, cos) = libm::sincos(TAU * dice.uniform());
            // A band that begins with nothing at all is drawn by amplitude, others by their decibels.
            let size = if level_db.low() == f64::NEG_INFINITY {
                share * amplitude(level_db.high())
            } else {
                amplitude(level_db.low() + share * (level_db.high() - level_db.low()))
            };
            Drop::Echo { phasor: [size * cos, size * sin], apart: [*left, *up] }
        }
    }
}

/// All that one aim is made of.
#[derive(Clone, Copy)]
struct Together {
    lies: Both,
    sum: Both,
    /// The phasors times how far to the left, and times how far up, they lie.
    drawn: [Both; 2],
}

impl Together {
    fn of(drops: &[Drop]) -> Self {
        let nothing = Self { lies: [0.0; 2], sum: [1.0, 0.0], drawn: [[0.0; 2]; 2] };
        drops.iter().fold(nothing, |all, drop| all.with(drop, 1.0))
    }

    fn less(&self, drop: &Drop) -> Self {
        self.with(drop, -1.0)
    }

    fn with(self, drop: &Drop, by: f64) -> Self {
        let plus = |a: Both, b: Both, times: f64| [a[0] + times * b[0], a[1] + times * b[1]];
        match drop {
            Drop::Lies(lies) => Self { lies: plus(self.lies, *lies, by), ..self },
            Drop::Echo { phasor, apart } => Self {
                sum: plus(self.sum, *phasor, by),
                drawn: [
                    plus(self.drawn[0], *phasor, by * apart[0]),
                    plus(self.drawn[1], *phasor, by * apart[1]),
                ],
                ..self
            },
        }
    }

    fn aim(&self) -> Both {
        let power = self.sum[0] * self.sum[0] + self.sum[1] * self.sum[1];
        let pull = |drawn: Both| (drawn[0] * self.sum[0] + drawn[1] * self.sum[1]) / power;
        [self.lies[0] + pull(self.drawn[0]), self.lies[1] + pull(self.drawn[1])]
    }
}
