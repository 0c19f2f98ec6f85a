//! The steps of a visit by name, and what is entered at them.

use super::super::validate::limits::{Range, Unit};
use super::super::{Id, Wheel};

/// What kind of step of a visit, in the order in which they are done.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum StepKind {
    /// Why the car is here, and which sensors are aimed again.
    Why,
    /// The maker's own procedure at hand: which document, which edition.
    Procedure,
    /// Faults read out before anything is done.
    ScanBefore,
    /// A sensor, its bracket, and what covers it.
    Sensor,
    /// Tyres, load, nobody aboard.
    TyresAndLoad,
    /// Ride heights at the four arches.
    RideHeights,
    /// The figures of the alignment sheet.
    Alignment,
    /// The floor's survey and its day.
    Floor,
    /// Parked, settled, straightened, chocked.
    Park,
    /// What is in the way put aside.
    Clear,
    /// The marks laid.
    Marks,
    /// Distances between them taped.
    CheckDistances,
    /// The target put on its stand and its mark.
    Stand,
    /// The maker's own routine, started by the scan tool, the car untouched.
    Routine,
    /// What the routine said, as it is typed in.
    Result,
    /// Faults read out again.
    ScanAfter,
    /// Driven, if the procedure asks for it.
    Drive,
    /// Looked through and signed.
    Sign,
}

impl StepKind {
    /// All of them, in their order.
    pub const ALL: [Self; 18] = [
        Self::Why,
        Self::Procedure,
        Self::ScanBefore,
        Self::Sensor,
        Self::TyresAndLoad,
        Self::RideHeights,
        Self::Alignment,
        Self::Floor,
        Self::Park,
        Self::Clear,
        Self::Marks,
        Self::CheckDistances,
        Self::Stand,
        Self::Routine,
        Self::Result,
        Self::ScanAfter,
        Self::Drive,
        Self::Sign,
    ];

    /// Whether there is one for an aiming; else there is one in the visit.
    pub const fn is_of_aiming(self) -> bool {
        match self {
            Self::Procedure
            | Self::Sensor
            | Self::Park
            | Self::Clear
            | Self::Marks
            | Self::CheckDistances
            | Self::Stand
            | Self::Routine
            | Self::Result => true,
            Self::Why
            | Self::ScanBefore
            | Self::TyresAndLoad
            | Self::RideHeights
            | Self::Alignment
            | Self::Floor
            | Self::ScanAfter
            | Self::Drive
            | Self::Sign => false,
        }
    }
}

/// A step of a visit. A place where the car is parked goes by the first aiming that is done there.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct StepId {
    /// Which kind.
    pub kind: StepKind,
    /// For which aiming; `None` of what is done once in a visit ([`StepKind::is_of_aiming`]).
    pub aiming: Option<Id>,
}

impl StepId {
    /// A step of the whole visit.
    pub const fn of_visit(kind: StepKind) -> Self {
        Self { kind, aiming: None }
    }

    /// A step of an aiming.
    pub const fn of_aiming(kind: StepKind, aiming: Id) -> Self {
        Self { kind, aiming: Some(aiming) }
    }
}

/// What a figure that is entered at a step is of.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ValueOf {
    /// How many faults the scan tool lists.
    Faults,
    /// The pressure of a tyre, bar.
    TyrePressure(Wheel),
    /// The middle of a target's face above its floor, mm: as it was set.
    TargetHeight(Id),
    /// How far it was driven, km.
    Driven,
}

/// The unit of a figure that is entered.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ValueUnit {
    /// A whole number of something.
    Count,
    /// Bar.
    Bar,
    /// Millimetres.
    Millimetres,
    /// Kilometres.
    Kilometres,
}

/// So many distances to the car are taped at least, at the start and at the end (common practice, no source).
pub const CAR_CHECKS: usize = 2;

impl ValueOf {
    /// The unit in which it is entered and kept.
    pub const fn unit(&self) -> ValueUnit {
        match self {
            Self::Faults => ValueUnit::Count,
            Self::TyrePressure(_) => ValueUnit::Bar,
            Self::TargetHeight(_) => ValueUnit::Millimetres,
            Self::Driven => ValueUnit::Kilometres,
        }
    }

    /// What such a figure ever is: what is typed beyond it is a slip (common practice, no source).
    pub const fn possible(&self) -> Range {
        match self {
            Self::Faults => Range::from(0.0, 999.0, Unit::None),
            Self::TyrePressure(_) => Range::from(0.0, 15.0, Unit::None),
            Self::TargetHeight(_) => Range::from(0.0, 1e5, Unit::Millimetres),
            Self::Driven => Range::from(0.0, 2_000.0, Unit::None),
        }
    }
}

/// What a figure may be; an end of which nothing is said is open.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Within {
    /// From.
    pub low: Option<f64>,
    /// Up to, allowed too.
    pub high: Option<f64>,
}

impl Within {
    /// From one figure to another.
    pub const fn range(low: f64, high: f64) -> Self {
        Self { low: Some(low), high: Some(high) }
    }

    /// Whether a figure is in it, within what files hold of figures (a millionth of the unit).
    pub fn holds(self, value: f64) -> bool {
        const HELD: f64 = 0.5e-6;
        value.is_finite()
            && self.low.is_none_or(|low| value >= low - HELD)
            && self.high.is_none_or(|high| value <= high + HELD)
    }

    /// Whether nothing is said of either end.
    pub const fn is_open(self) -> bool {
        self.low.is_none() && self.high.is_none()
    }
}
