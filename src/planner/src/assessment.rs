//! The answer, as plain data. Sentences are made from it by [`crate::words`].

pub use crate::check::finding::{
    Basis, Code, Cure, Facts, Finding, OnCar, Quantity, Severity, Shorter, Step, Subject,
};
pub use crate::check::{
    AlignmentFigure, AtOnce, Beyond, CarSide, DoorPart, FloorFact, InSight, InZone, Lacks, LinesApart, Lit,
    MOST_LOSS_DB, MarkFor, MayBe, Meets, Misplaced, Off, OffBy, OffPlace, OnRunways, Open, Opened, Painted,
    Reaches, RideFact, StandOpen, StandReach, StandSide, Tilt, TooLarge, TooSmall, Under, Unlikely, Unused,
};
use crate::scene::Scene;

/// What is said of the space; never of the car or the sensor.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Verdict {
    /// Nothing found that stops the aiming or needs care.
    Ready,
    /// Nothing stops the aiming, something needs care.
    ReadyWithCare,
    /// Something stops the aiming.
    NotReady,
}

/// What all steps together lead to, known by assessing again with all of them done.
#[derive(Clone, Debug, PartialEq)]
pub struct Promise {
    /// The steps, in order.
    pub steps: Vec<Step>,
    /// What the verdict is then: never "not ready".
    pub verdict: Verdict,
}

/// The whole answer.
#[derive(Clone, Debug, PartialEq)]
pub struct Assessment {
    /// The space: ready or not.
    pub verdict: Verdict,
    /// Everything found: what stops first, each group in a fixed order.
    pub findings: Vec<Finding>,
    /// What to do to make it ready, if that is known.
    pub promise: Option<Promise>,
    /// Whether any figure that the answer rests on is an example.
    pub on_example_figures: bool,
    /// Everything in its place, bay frame.
    pub scene: Scene,
}

impl Assessment {
    /// How many findings are this bad.
    pub fn count(&self, severity: Severity) -> usize {
        self.findings.iter().filter(|f| f.severity == severity).count()
    }
}
