//! Marks from taped distances: a plane network, adjusted by least squares, with what can be said of every mark and reading.
//!
//! The unknowns are the marks that are not held, and where asked for the scale of a tape; a reading of u mm weighs 1/u². What is
//! taped more often than needed is checked: each reading has a share of its error that shows (its *redundancy*), a residual
//! over its own standard deviation (Baarda's w), a least blunder that would be found. Lengths are in any one unit, by usage mm;
//! coordinates in one plane frame, as a rule the car's, with angles anticlockwise from its x.
//!
//! Sources: F. Krumm, *Geodetic Network Adjustment Examples* (2020), whose published figures the tests hold; W. Baarda, *A testing
//! procedure for use in geodetic networks* (1968), A. J. Pope, *The statistics of residuals* (1976), both from memory.

mod defect;
mod ellipse;
mod judge;
mod solve;
mod system;

use baywright_geometry::DVec2;

use crate::matrix::Matrix;

pub use ellipse::Ellipse;
pub use judge::{Doubt, Judged, Rules, Verdict, judge};
pub use solve::adjust;

/// So many marks a network may have, so that an answer comes in bounded time.
pub const MOST_MARKS: usize = 100;
/// So many distances.
pub const MOST_TAPED: usize = 500;
/// So many tapes.
pub const MOST_TAPES: usize = 20;

/// A mark: where it is meant to be, from which the search starts, and whether it stays there.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mark {
    /// Its place, mm.
    pub at: DVec2,
    /// Whether it is held: a wheel point, as a rule.
    pub is_held: bool,
}

/// A distance that was taped.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Taped {
    /// From this mark, by its position.
    pub from: usize,
    /// To this one.
    pub to: usize,
    /// What the tape read, mm.
    pub read_mm: f64,
    /// Standard uncertainty of this reading alone, mm: a + b·L of the instrument, without what is common to all its readings.
    pub u_mm: f64,
    /// With which tape, by its position.
    pub tape: usize,
}

/// What all readings of one tape have in common: it is longer or shorter than it says, by a share of each length.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Scale {
    /// Taken as true.
    True,
    /// Off by this standard uncertainty, a ratio (11.5e-6·15 for 15 K off a steel tape's 20 °C): all its readings go together.
    Common(f64),
    /// The same, but what it is off by is sought with the marks.
    Sought {
        /// What is known of it beforehand: standard uncertainty, a ratio; infinite if nothing.
        u: f64,
    },
}

/// What holds the network in its place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Datum {
    /// The marks that are held.
    Held,
    /// One mark stays, another may move only towards it or away: the least that holds a free network.
    Minimal {
        /// It stays.
        at: usize,
        /// It stays in line.
        towards: usize,
    },
    /// No mark stays: all together keep their middle and their direction (inner constraints).
    Inner,
}

/// A network as it was taped.
#[derive(Clone, Debug, PartialEq)]
pub struct Network {
    /// The marks.
    pub marks: Vec<Mark>,
    /// The distances.
    pub taped: Vec<Taped>,
    /// The tapes: [`Taped::tape`] is a position here.
    pub tapes: Vec<Scale>,
    /// What holds it.
    pub datum: Datum,
}

/// Why a network gives no marks.
#[derive(Clone, Debug, PartialEq)]
pub enum NetworkFault {
    /// More marks, distances or tapes than [`MOST_MARKS`], [`MOST_TAPED`], [`MOST_TAPES`].
    TooMany,
    /// A distance or the datum names a mark or a tape that is not there, or one mark twice. By the distance's position;
    /// `None` for the datum.
    NoSuch {
        /// Which distance.
        taped: Option<usize>,
    },
    /// A place, reading, uncertainty or scale that is no number, or not above nothing where it must be.
    NoFigure,
    /// Two marks of a distance lie on each other: it has no direction.
    OnePlace {
        /// Which distance.
        taped: usize,
    },
    /// Some marks can move without any distance changing.
    NotDetermined {
        /// Which marks, by their position.
        marks: Vec<usize>,
        /// Which tapes' scales.
        tapes: Vec<usize>,
    },
    /// The readings contradict each other, or the places where it starts, so much that no step leads to a rest.
    NoRest,
}

/// What a reading came to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Residual {
    /// Adjusted distance less what was read, mm; with a scale that was sought, less what that makes of it.
    pub residual_mm: f64,
    /// Standard deviation of the residual, mm.
    pub u_residual_mm: f64,
    /// Standard uncertainty of the adjusted distance, mm.
    pub u_adjusted_mm: f64,
    /// The share of an error of this reading that shows in its own residual: 0 nothing, 1 all. Where readings go together
    /// (a common scale) it may lie a little outside.
    pub redundancy: f64,
    /// Baarda's w: the residual over its standard deviation, in the weights of all. `None` where nothing checks the reading.
    pub w: Option<f64>,
    /// What an error of this reading, in mm, adds to its w: √(PQP); w/this is how much too short it likely reads.
    pub shows_per_mm: f64,
}

/// An adjusted network.
#[derive(Clone, Debug, PartialEq)]
pub struct Adjusted {
    /// Where each mark is.
    pub marks: Vec<DVec2>,
    /// Covariance of x and y of each mark in turn, mm², by the uncertainties that were given (σ₀ = 1). Held marks have none.
    pub covariance: Matrix,
    /// How each coordinate follows each coordinate of a held mark: held marks' own uncertainty enters through this.
    pub follows_held: Matrix,
    /// What each tape's scale is off by, as found, with its standard uncertainty; `None` where it was not sought.
    pub scales: Vec<Option<(f64, f64)>>,
    /// Each reading, in their order.
    pub residuals: Vec<Residual>,
    /// How each reading's test goes with each other's: 1 or -1 where they cannot be told apart.
    pub test_correlation: Matrix,
    /// How many distances are more than needed.
    pub freedom: usize,
    /// The weighted sum of squares of the residuals: about `freedom` if the uncertainties are true.
    pub chi_squared: f64,
    /// Steps that were taken.
    pub steps: usize,
}

impl Adjusted {
    /// What the residuals say of the uncertainties that were given: their common factor. `None` without redundancy.
    pub fn factor(&self) -> Option<f64> {
        (self.freedom > 0).then(|| (self.chi_squared / self.freedom as f64).sqrt())
    }

    /// The ellipse of a mark, of one standard uncertainty; `None` if there is no such mark.
    pub fn ellipse(&self, mark: usize) -> Option<Ellipse> {
        (mark < self.marks.len()).then(|| {
            let cell = |a, b| self.covariance.at(2 * mark + a, 2 * mark + b);
            Ellipse::of(cell(0, 0), cell(0, 1), cell(1, 1))
        })
    }

    /// The covariance of all coordinates if the held marks, too, are only known so well: `held` is theirs, by the same rows, mm²
    /// (rows of marks that are not held are not read).
    #[must_use]
    pub fn with_held_unsure(&self, held: &Matrix) -> Matrix {
        self.covariance.plus(&self.follows_held.carries(held))
    }
}
