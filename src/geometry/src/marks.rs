//! Mark plans: floor marks built one from another, as a person does with tape, plumb line and laser.
//!
//! All points lie in one frame (the vehicle frame, as a rule), seen from above; lengths are in millimetres, angles in
//! radians. Each construction
//! names the [`Tool`] and the straight [`Run`]s it takes, the check distances it makes possible, and fails with a
//! reason.

mod carry;
mod construct;
mod tapes;

use glam::DVec2;

pub use carry::{MayBeOff, Sought, may_be_off};
pub use construct::{lay, lay_next};
pub use tapes::{TAPES_MEET_MM, TapeFault, two_distances};

/// One of the four wheels.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Wheel {
    /// Front left.
    FrontLeft,
    /// Front right.
    FrontRight,
    /// Rear left.
    RearLeft,
    /// Rear right.
    RearRight,
}

impl Wheel {
    /// All four, front left first: the order of every array of wheels.
    pub const ALL: [Self; 4] = [Self::FrontLeft, Self::FrontRight, Self::RearLeft, Self::RearRight];

    /// Whether it is on the car's left.
    pub const fn is_left(self) -> bool {
        matches!(self, Self::FrontLeft | Self::RearLeft)
    }

    /// Whether it is on the front axle.
    pub const fn is_front(self) -> bool {
        matches!(self, Self::FrontLeft | Self::FrontRight)
    }
}

/// How far to prolong a line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Reach {
    /// By this length, mm; negative goes back.
    Length(f64),
    /// Until square abreast of a target's face, by the target's position in [`Givens`].
    AbreastOf(usize),
}

/// On which side of the line from its first mark to its second.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WhichSide {
    /// Left, looking from the first to the second.
    Left,
    /// Right.
    Right,
}

/// How one mark is found. Other marks are named by their position in the plan; they must come earlier.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Construction {
    /// The point of the floor under the middle of a tyre.
    WheelPoint {
        /// Which wheel.
        wheel: Wheel,
    },
    /// A spot outboard of a tyre's outer side, square to the centreline.
    Outboard {
        /// Which wheel.
        wheel: Wheel,
        /// From the tyre's outer side, mm.
        distance: f64,
    },
    /// A named point of the body, plumbed to the floor, by its position in [`Givens`].
    BodyPoint {
        /// Which point.
        point: usize,
    },
    /// On the line from `from` through `through`, prolonged beyond `through`.
    Prolong {
        /// Where the line starts.
        from: usize,
        /// The mark it passes.
        through: usize,
        /// How far beyond.
        reach: Reach,
    },
    /// Half way between two marks.
    Middle {
        /// One mark.
        first: usize,
        /// The other.
        second: usize,
    },
    /// The foot of the perpendicular from a mark on the line through two others.
    Foot {
        /// From here.
        of: usize,
        /// On the line from here ...
        from: usize,
        /// ... through here.
        to: usize,
    },
    /// From `from` towards `to` by `along`, then square to it by `aside` (positive left).
    AlongAside {
        /// Where to start.
        from: usize,
        /// Which way.
        to: usize,
        /// How far along, mm.
        along: f64,
        /// How far to the left, mm; negative right.
        aside: f64,
    },
    /// From `at`, at an angle from the line `at` → `towards`, by a distance.
    AtAngle {
        /// Where to start.
        at: usize,
        /// The line's other mark.
        towards: usize,
        /// Anticlockwise from that line, radians.
        angle: f64,
        /// How far, mm.
        distance: f64,
    },
    /// Where two lines cross.
    Crossing {
        /// Two marks on the first line.
        first: (usize, usize),
        /// Two marks on the second.
        second: (usize, usize),
    },
    /// At two distances from two marks.
    TwoDistances {
        /// One mark.
        first: usize,
        /// From it, mm.
        from_first: f64,
        /// The other mark.
        second: usize,
        /// From it, mm.
        from_second: f64,
        /// On which side of the line first → second.
        side: WhichSide,
    },
}

/// What the car and the procedure give a mark plan to start from. One frame, mm.
///
/// Invariants, held by the constructor: the centreline's direction is a unit vector, no tyre has a negative width. A place
/// that is no number is refused by the marks that use it ([`MarkFault::OutOfReach`]).
#[derive(Clone, Debug, PartialEq)]
pub struct Givens {
    wheels: [DVec2; 4],
    centreline: DVec2,
    tyre_widths: [f64; 4],
    body_points: Vec<DVec2>,
    targets: Vec<DVec2>,
}

/// Why a mark plan cannot start from what is given.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum GivensFault {
    /// A direction that is not as long as a unit vector.
    NoUnit {
        /// Its length; no number if it has none.
        length: f64,
    },
    /// A width that is negative, infinite or no number.
    NoWidth {
        /// What was given, mm.
        width: f64,
    },
}

impl std::fmt::Display for GivensFault {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{self:?}")
    }
}

impl std::error::Error for GivensFault {}

/// By how much the length of a unit vector may differ from one: a few roundings; over ten kilometres it is a hundredth of
/// a millimetre.
const UNIT_SLACK: f64 = 1e-9;

impl Givens {
    /// `wheels` are the wheel points in [`Wheel::ALL`]'s order, `centreline` its direction towards the front, `tyre_widths`
    /// those of their tyres, `body_points` and `targets` the named body points and the middles of the targets' faces, all
    /// plumbed down, the targets in the aiming's order.
    ///
    /// # Errors
    /// A direction that is not a unit vector, or a width that is none.
    pub fn new(
        wheels: [DVec2; 4],
        centreline: DVec2,
        tyre_widths: [f64; 4],
        body_points: Vec<DVec2>,
        targets: Vec<DVec2>,
    ) -> Result<Self, GivensFault> {
        let length = centreline.length();
        if length.is_nan() || (length - 1.0).abs() > UNIT_SLACK {
            return Err(GivensFault::NoUnit { length });
        }
        if let Some(width) = tyre_widths.into_iter().find(|width| !(*width >= 0.0 && width.is_finite())) {
            return Err(GivensFault::NoWidth { width });
        }
        Ok(Self { wheels, centreline, tyre_widths, body_points, targets })
    }

    /// How many figures a car may differ in that a plan can follow: both ways of each wheel point, each tyre's width, both ways of each
    /// body point, and which way the centreline runs.
    pub fn figures(&self) -> usize {
        13 + 2 * self.body_points.len()
    }

    /// The same with one of those figures ([`Givens::figures`]) larger: by so many mm, or, of the centreline, radians anticlockwise. Beyond
    /// the last it is the same.
    #[must_use]
    pub fn differing(&self, figure: usize, by: f64) -> Self {
        let mut own = self.clone();
        let way = |nth: usize| if nth.is_multiple_of(2) { DVec2::X } else { DVec2::Y };
        match figure {
            0..8 => {
                if let Some(wheel) = own.wheels.get_mut(figure / 2) {
                    *wheel += way(figure) * by;
                }
            }
            8..12 => {
                if let Some(width) = own.tyre_widths.get_mut(figure - 8) {
                    *width = (*width + by).max(0.0);
                }
            }
            12 => own.centreline = crate::angle::direction(by).rotate(own.centreline).normalize(),
            _ => {
                if let Some(point) = own.body_points.get_mut((figure - 13) / 2) {
                    *point += way(figure - 13) * by;
                }
            }
        }
        own
    }
}

/// Why a mark cannot be found.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum MarkFault {
    /// It uses a mark, body point or target that is not there, or not earlier in the plan.
    NoSuch {
        /// The position asked for.
        index: usize,
    },
    /// A mark that it uses could not be found itself.
    Missing {
        /// That mark.
        mark: usize,
    },
    /// Two marks that should give a direction lie on each other.
    NoDirection {
        /// One mark.
        first: usize,
        /// The other.
        second: usize,
    },
    /// Two lines are parallel, or so nearly that their crossing means nothing.
    Parallel {
        /// The angle between them, radians: 0 to [`FLATTEST_CROSSING_RAD`].
        angle: f64,
    },
    /// The two distances are too short to meet ([`TapeFault::TooFarApart`]).
    TooFarApart {
        /// What is missing, mm.
        gap: f64,
    },
    /// One distance is so much longer than the other that the circles lie in each other ([`TapeFault::Nested`]).
    Nested {
        /// What is too much, mm.
        excess: f64,
    },
    /// The mark would lie beyond the reach of any bay, or a figure is no number, or no distance where one is asked for.
    OutOfReach,
}

/// Below this angle, one degree in radians, a millimetre of error in a line moves the crossing by more than 57 mm: no mark.
pub const FLATTEST_CROSSING_RAD: f64 = std::f64::consts::PI / 180.0;

/// What a person takes in hand.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Tool {
    /// Plumb line, from the car to the floor.
    PlumbLine,
    /// Tape, flat on the floor.
    Tape,
    /// Line laser or string along a line through two marks.
    LineLaser,
    /// Tape and a square: 3-4-5, or two equal diagonals.
    TapeAndSquare,
}

/// A straight stretch that must be free while a mark is laid.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Run {
    /// From here.
    pub from: DVec2,
    /// To here.
    pub to: DVec2,
    /// With this.
    pub tool: Tool,
}

impl Construction {
    /// What a person takes in hand for it.
    pub const fn tool(&self) -> Tool {
        match self {
            Self::WheelPoint { .. } | Self::BodyPoint { .. } => Tool::PlumbLine,
            Self::Outboard { .. } | Self::Middle { .. } | Self::TwoDistances { .. } => Tool::Tape,
            Self::Prolong { .. } | Self::Crossing { .. } => Tool::LineLaser,
            Self::Foot { .. } | Self::AlongAside { .. } | Self::AtAngle { .. } => Tool::TapeAndSquare,
        }
    }

    /// The earlier marks that it uses.
    pub fn uses(&self) -> Vec<usize> {
        match *self {
            Self::WheelPoint { .. } | Self::Outboard { .. } | Self::BodyPoint { .. } => Vec::new(),
            Self::Prolong { from, through, .. } => vec![from, through],
            Self::Middle { first, second } | Self::TwoDistances { first, second, .. } => vec![first, second],
            Self::Foot { of, from, to } => vec![of, from, to],
            Self::AlongAside { from, to, .. } => vec![from, to],
            Self::AtAngle { at, towards, .. } => vec![at, towards],
            Self::Crossing { first, second } => vec![first.0, first.1, second.0, second.1],
        }
    }

    /// The same with every mark that it uses replaced: `to` is given the place in [`Construction::uses`] and the mark.
    #[must_use]
    pub fn with_uses(self, to: impl Fn(usize, usize) -> usize) -> Self {
        match self {
            Self::WheelPoint { .. } | Self::Outboard { .. } | Self::BodyPoint { .. } => self,
            Self::Prolong { from, through, reach } => {
                Self::Prolong { from: to(0, from), through: to(1, through), reach }
            }
            Self::Middle { first, second } => Self::Middle { first: to(0, first), second: to(1, second) },
            Self::Foot { of, from, to: end } => {
                Self::Foot { of: to(0, of), from: to(1, from), to: to(2, end) }
            }
            Self::AlongAside { from, to: end, along, aside } => {
                Self::AlongAside { from: to(0, from), to: to(1, end), along, aside }
            }
            Self::AtAngle { at, towards, angle, distance } => {
                Self::AtAngle { at: to(0, at), towards: to(1, towards), angle, distance }
            }
            Self::Crossing { first, second } => Self::Crossing {
                first: (to(0, first.0), to(1, first.1)),
                second: (to(2, second.0), to(3, second.1)),
            },
            Self::TwoDistances { first, from_first, second, from_second, side } => Self::TwoDistances {
                first: to(0, first),
                from_first,
                second: to(1, second),
                from_second,
                side,
            },
        }
    }

    /// The straight stretches that must be free for it as a person walks it, given where the marks are; `own` is where this
    /// one is. A stretch may end at a corner that is no mark: along a line, then square to it.
    pub fn runs(&self, own: DVec2, mark: impl Fn(usize) -> Option<DVec2>) -> Vec<Run> {
        let tool = self.tool();
        let run = |from: Option<DVec2>, to: Option<DVec2>, tool| Some(Run { from: from?, to: to?, tool });
        let here = Some(own);
        let runs = match *self {
            Self::WheelPoint { .. } | Self::Outboard { .. } | Self::BodyPoint { .. } => vec![],
            // The laser lights the line from its first mark to the new one, and at least as far as the mark that gives
            // the line its direction; the tape gives the length beyond.
            Self::Prolong { from, through, .. } => {
                let back = |start: DVec2, middle: DVec2| (own - middle).dot(middle - start) < 0.0;
                if mark(from).zip(mark(through)).is_some_and(|(start, middle)| back(start, middle)) {
                    vec![run(mark(from), mark(through), tool), run(mark(through), here, tool)]
                } else {
                    vec![run(mark(from), here, tool)]
                }
            }
            Self::Middle { first, second } => vec![run(mark(first), mark(second), tool)],
            Self::Foot { of, from, .. } => {
                vec![run(mark(from), here, Tool::LineLaser), run(mark(of), here, tool)]
            }
            // Along the line, then square to it: nobody lays a tape straight across.
            Self::AlongAside { from, to, along, aside } => {
                let line = mark(from).zip(mark(to)).map(|(start, end)| (end - start).normalize_or_zero());
                let corner = line.map(|line| own - line.perp() * aside);
                let first = (along != 0.0).then(|| run(mark(from), corner, tool));
                let second = (aside != 0.0).then(|| run(corner, here, tool));
                first.into_iter().chain(second).collect()
            }
            Self::AtAngle { at, .. } => vec![run(mark(at), here, tool)],
            Self::Crossing { first, second } => {
                vec![run(mark(first.0), here, tool), run(mark(second.0), here, tool)]
            }
            Self::TwoDistances { first, second, .. } => {
                vec![run(mark(first), here, tool), run(mark(second), here, tool)]
            }
        };
        runs.into_iter().flatten().collect()
    }
}
