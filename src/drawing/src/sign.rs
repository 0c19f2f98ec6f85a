//! The outlines of small signs: each severity has its own shape, so that nothing is told by colour alone.

use baywright_planner::geometry::DVec2;
use baywright_planner::{Severity, Verdict};

/// A small figure.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum SignKind {
    /// Stops.
    Octagon,
    /// Needs care.
    Triangle,
    /// A note: a ring.
    Ring,
    /// Ready: a disc with a tick.
    Tick,
    /// A floor mark: a cross through a small ring.
    Cross,
    /// A mark that stays: a square cross in a square.
    BoxedCross,
    /// A full dot.
    Dot,
}

impl SignKind {
    /// The sign of a severity.
    pub const fn of_severity(severity: Severity) -> Self {
        match severity {
            Severity::Stops => Self::Octagon,
            Severity::Care => Self::Triangle,
            Severity::Note => Self::Ring,
        }
    }

    /// The sign of a verdict.
    pub const fn of_verdict(verdict: Verdict) -> Self {
        match verdict {
            Verdict::NotReady => Self::Octagon,
            Verdict::ReadyWithCare => Self::Triangle,
            Verdict::Ready => Self::Tick,
        }
    }

    /// How far below its middle a text in it stands, as a share of its reach: a triangle is wide only low down.
    pub const fn text_below(self) -> f64 {
        match self {
            Self::Triangle => 0.2,
            _ => 0.0,
        }
    }

    /// What to paint for it, px from its middle, y down, for a reach of 1.
    pub const fn parts(self) -> SignParts {
        match self {
            Self::Octagon => SignParts { area: &OCTAGON, lines: &[], disc: None, ring: None },
            Self::Triangle => SignParts { area: &TRIANGLE, lines: &[], disc: None, ring: None },
            Self::Ring => SignParts { area: &[], lines: &[], disc: None, ring: Some(0.9) },
            Self::Tick => SignParts { area: &[], lines: &[&TICK], disc: Some(1.0), ring: None },
            Self::Cross => SignParts { area: &[], lines: &[&ACROSS, &DOWN], disc: None, ring: Some(0.62) },
            Self::BoxedCross => {
                SignParts { area: &[], lines: &[&ACROSS, &DOWN, &BOX], disc: None, ring: None }
            }
            Self::Dot => SignParts { area: &[], lines: &[], disc: Some(1.0), ring: None },
        }
    }
}

/// What a sign is made of; all in shares of its reach, y down.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SignParts {
    /// A filled area.
    pub area: &'static [DVec2],
    /// Lines on it.
    pub lines: &'static [&'static [DVec2]],
    /// A filled disc of this radius.
    pub disc: Option<f64>,
    /// An unfilled ring of this radius.
    pub ring: Option<f64>,
}

/// tan(π/8): half the side of an octagon whose sides lie at distance 1.
const EIGHTH: f64 = 0.414_213_562_373_095_03;

const fn at(x: f64, y: f64) -> DVec2 {
    DVec2::new(x, y)
}

const OCTAGON: [DVec2; 8] = [
    at(1.0, EIGHTH),
    at(EIGHTH, 1.0),
    at(-EIGHTH, 1.0),
    at(-1.0, EIGHTH),
    at(-1.0, -EIGHTH),
    at(-EIGHTH, -1.0),
    at(EIGHTH, -1.0),
    at(1.0, -EIGHTH),
];
/// Its middle of mass a little below the middle, where its number stands.
const TRIANGLE: [DVec2; 3] = [at(0.0, -1.24), at(1.22, 0.86), at(-1.22, 0.86)];
const TICK: [DVec2; 3] = [at(-0.45, 0.02), at(-0.12, 0.36), at(0.48, -0.34)];
const ACROSS: [DVec2; 2] = [at(-1.0, 0.0), at(1.0, 0.0)];
const DOWN: [DVec2; 2] = [at(0.0, -1.0), at(0.0, 1.0)];
const BOX: [DVec2; 5] = [at(-0.7, -0.7), at(0.7, -0.7), at(0.7, 0.7), at(-0.7, 0.7), at(-0.7, -0.7)];
