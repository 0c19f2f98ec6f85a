//! What can be entered in a record.

use jiff::civil::{Date, DateTime};

use baywright_geometry::PlanPose;

use super::super::{AlignmentSheet, Id, Stood};
use super::decided::Decided;
use super::step::{StepId, ValueOf, Within};

/// One entry: who entered what, and when, by the shop's own clock.
#[derive(Clone, Debug, PartialEq)]
pub struct Entry {
    /// Who.
    pub by: String,
    /// When.
    pub at: DateTime,
    /// What.
    pub what: What,
}

/// What was entered.
#[derive(Clone, Debug, PartialEq)]
pub enum What {
    /// A step is done.
    StepDone {
        /// Which.
        step: StepId,
    },
    /// Somebody went on from a step that had not all that it must have: it is not done.
    GonePast {
        /// Which.
        step: StepId,
        /// How many figures were open then, one at least.
        open: usize,
    },
    /// A step that applies is left out.
    LeftOut {
        /// Which.
        step: StepId,
        /// Why.
        why: String,
    },
    /// A step does not apply.
    NotApplicable {
        /// Which.
        step: StepId,
        /// Why.
        why: String,
    },
    /// A step is open again: what was entered at it stays in the record.
    TakenBack {
        /// Which.
        step: StepId,
        /// Why; may be empty.
        why: String,
    },
    /// A figure that a step asks for.
    Value(Entered),
    /// A distance between two marks.
    Reading(Reading),
    /// A figure of a target, decided.
    Decided(Decided),
    /// The alignment sheet, as it was typed.
    Alignment(Box<AlignmentSheet>),
    /// A distance from the floor to the car.
    Stood(StoodRead),
    /// The car stands at another place than the one where it stood first.
    Parked(ParkedAt),
    /// Ride heights: the edge of each wheel arch above the wheel's middle, mm, in [`super::super::Wheel::ALL`]'s order.
    RideHeights {
        /// What was measured; `None` at a wheel where nothing was.
        heights_mm: [Option<f64>; 4],
    },
    /// The survey of the floor is looked at and holds.
    FloorConfirmed {
        /// The day on which the floor was surveyed.
        surveyed: Date,
        /// With what, if that is known.
        instrument: Option<Instrument>,
    },
    /// What the maker's routine said, as it was typed in.
    Routine {
        /// Of which aiming.
        aiming: Id,
        /// What.
        result: RoutineResult,
        /// What else the scan tool showed; may be empty.
        note: String,
    },
    /// The maker's document that an aiming was done by.
    Document(MakersDocument),
    /// A file that belongs to the visit.
    Attached(Attachment),
    /// An attachment counts no more. It stays where it lies.
    Withdrawn {
        /// Which, by its hash.
        sha256: String,
        /// Why.
        why: String,
    },
    /// Somebody goes on although something was found.
    Accepted(AcceptedFinding),
    /// Somebody, the one who enters it, signs.
    Signed {
        /// As what.
        role: String,
        /// How many things the record lacked then.
        lacking: usize,
        /// Why it was signed all the same; empty where nothing lacked, and only there.
        why: String,
    },
    /// An entry counts no more, as if it had not been entered. It stays where it stands.
    Struck {
        /// Which, from 0; one that stands before this.
        entry: usize,
        /// Why; may be empty.
        why: String,
    },
    /// A line of labour, in the shop's own words.
    Labour {
        /// What was done.
        work: String,
        /// How long, minutes.
        minutes: f64,
    },
    /// Nothing more is entered.
    Closed,
    /// Somebody goes on with a record of which something was changed after it was written.
    WentOn {
        /// The first entry that does not follow from what stands before it, from 0; `None`: how the record begins.
        entry: Option<usize>,
    },
    /// It is open again.
    Reopened {
        /// Why.
        why: String,
    },
}

impl What {
    /// Whether it can be struck out. What says of the record itself that it is closed, open or goes on stands, and so does what is
    /// attached: that is withdrawn, with a reason.
    pub const fn can_be_struck(&self) -> bool {
        !matches!(
            self,
            Self::Closed
                | Self::Reopened { .. }
                | Self::WentOn { .. }
                | Self::Attached(_)
                | Self::Withdrawn { .. }
        )
    }
}

/// A figure that was entered at a step.
#[derive(Clone, Debug, PartialEq)]
pub struct Entered {
    /// At which.
    pub step: StepId,
    /// Of what: with it goes the unit ([`ValueOf::unit`]).
    pub of: ValueOf,
    /// The figure.
    pub value: f64,
    /// What it was said to be allowed to be, when it was entered.
    pub allowed: Within,
}

impl Entered {
    /// Whether it is what it may be.
    pub fn is_in_range(&self) -> bool {
        self.allowed.holds(self.value)
    }
}

/// An instrument, by what stands on it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Instrument {
    /// What it is called in the shop.
    pub name: String,
    /// Its serial number; may be empty.
    pub serial: String,
    /// The day by which it is to be checked again, if one is set.
    pub due: Option<Date>,
    /// Whether it is none of the shop's own list: nobody keeps its checks.
    pub is_unlisted: bool,
}

/// A distance that was taped between two marks.
#[derive(Clone, Debug, PartialEq)]
pub struct Reading {
    /// For which aiming.
    pub aiming: Id,
    /// From this mark.
    pub from: Id,
    /// To this one.
    pub to: Id,
    /// What the tape read, mm.
    pub read_mm: f64,
    /// With what, if it was said.
    pub instrument: Option<Instrument>,
    /// The temperature, °C, if it was noted.
    pub temperature_c: Option<f64>,
}

/// A distance from the floor to the car, as it was taped when the car was parked and again when a routine was through.
#[derive(Clone, Debug, PartialEq)]
pub struct StoodRead {
    /// At a step of which aiming: that for which the car was parked, or that of which the routine was through.
    pub aiming: Id,
    /// Which of them, from 1.
    pub nth: usize,
    /// What the tape read.
    pub stood: Stood,
    /// How far both readings may differ if the car stood still, mm; `None` where nobody says.
    pub within_mm: Option<f64>,
}

impl StoodRead {
    /// Whether the car moved: both readings differ by more than the tape explains.
    pub fn moved(&self) -> bool {
        self.stood.moved_mm().zip(self.within_mm).is_some_and(|(by, within)| by.abs() > within)
    }
}

/// Where the car was parked for some of the visit's aimings.
#[derive(Clone, Debug, PartialEq)]
pub struct ParkedAt {
    /// What is aimed there, in the order of work.
    pub aimings: Vec<Id>,
    /// The how-manieth place of the visit it is, from 1.
    pub place: usize,
    /// Bay from vehicle.
    pub parked: PlanPose,
    /// The set-up that it is parked as, with the things where that has them; `None`: as the record's own, but for the place.
    pub set_up: Option<Id>,
}

/// Which way the routine said that the sensor was out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Way {
    /// To the car's left.
    Left,
    /// To its right.
    Right,
    /// Upwards.
    Up,
    /// Downwards.
    Down,
}

/// How the routine said that the sensor was out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WayOut {
    /// Which way.
    pub way: Way,
    /// By how much, radians, above nothing; `None` if it only said which way.
    pub by_rad: Option<f64>,
}

/// What the maker's routine said.
#[derive(Clone, Debug, PartialEq)]
pub enum RoutineResult {
    /// That it went through.
    Passed,
    /// That it failed, and how it was out, if it said so.
    Failed {
        /// Each way once; empty if it only said that it failed.
        out: Vec<WayOut>,
    },
}

/// The document that an aiming was done by.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MakersDocument {
    /// Of which aiming.
    pub aiming: Id,
    /// Its title or number.
    pub document: String,
    /// Its edition; may be empty.
    pub edition: String,
    /// The date on it, if there is one.
    pub date: Option<Date>,
}

/// What an attached file shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AttachmentKind {
    /// A photograph.
    Photo,
    /// What a scan tool printed or saved.
    Scan,
    /// An alignment sheet.
    AlignmentSheet,
    /// Any other sheet.
    Sheet,
}

impl AttachmentKind {
    /// All of them.
    pub const ALL: [Self; 4] = [Self::Photo, Self::Scan, Self::AlignmentSheet, Self::Sheet];
}

/// A file that belongs to the visit; it lies beside the record, by its hash.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Attachment {
    /// Its own name, with its ending.
    pub file: String,
    /// The SHA-256 of what it holds: 64 small hexadecimal digits.
    pub sha256: String,
    /// How many bytes.
    pub bytes: u64,
    /// What it shows.
    pub kind: AttachmentKind,
    /// At which step it was taken, if it is of one.
    pub step: Option<StepId>,
}

/// A finding with which somebody goes on, as it stood then.
#[derive(Clone, Debug, PartialEq)]
pub struct AcceptedFinding {
    /// For which aiming.
    pub aiming: Id,
    /// What kind of finding: its code's own text, which never changes.
    pub code: String,
    /// What it is about, the culprit first: names.
    pub about: Vec<String>,
    /// What was measured, mm, degrees, a share, a ratio or days; `None` where nothing is.
    pub measured: Option<f64>,
    /// The sentence that was read, in English.
    pub in_english: String,
    /// The same in German: a record is read by people of both.
    pub in_german: String,
    /// Why it may stay so.
    pub why: String,
}
