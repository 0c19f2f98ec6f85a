//! The file form of a visit's record, version 1.

use serde::{Deserialize, Serialize};

use crate::aiming::WheelFile;
use crate::figure::{Clock, Day, Figure, Point};
use crate::layout::on_car::{SheetFile, StoodFile};
use crate::source::SourceFile;

/// A whole record.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RecordFile {
    pub version: u32,
    pub begun: Hashed<BegunFile>,
    pub entries: Vec<Hashed<EntryFile>>,
}

/// What was said, and its hash together with that of what was said before.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Hashed<T> {
    pub hash: String,
    pub said: T,
}

/// How it begins.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct BegunFile {
    pub job: String,
    pub car: String,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub plate: Option<String>,
    pub by: String,
    pub at: Clock,
    pub bay: String,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub layout: Option<String>,
    pub arrangement: String,
    pub vehicle: String,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub list: Option<WorkListFile>,
    pub lines: Vec<LineFile>,
}

/// The list of work.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct WorkListFile {
    pub name: String,
    pub source: SourceFile,
}

/// One aiming.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LineFile {
    pub aiming: String,
    pub title: String,
    pub sensor: String,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub because: Vec<BecauseFile>,
    pub source: SourceFile,
}

/// Work that asks for it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct BecauseFile {
    pub work: String,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
    pub source: SourceFile,
}

/// One entry.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct EntryFile {
    pub by: String,
    pub at: Clock,
    pub what: WhatFile,
}

/// What was entered.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub enum WhatFile {
    StepDone {
        step: StepFile,
    },
    GonePast {
        step: StepFile,
        open: u32,
    },
    LeftOut {
        step: StepFile,
        why: String,
    },
    NotApplicable {
        step: StepFile,
        why: String,
    },
    TakenBack {
        step: StepFile,
        #[serde(default, skip_serializing_if = "String::is_empty")]
        why: String,
    },
    Value {
        step: StepFile,
        of: ValueOfFile,
        value: Figure,
        #[serde(default, skip_serializing_if = "WithinFile::is_open")]
        allowed: WithinFile,
    },
    Reading {
        aiming: String,
        from: String,
        to: String,
        read_mm: Figure,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        instrument: Option<InstrumentFile>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        temperature_c: Option<Figure>,
    },
    Decided {
        aiming: String,
        placement: String,
        of: ProvenFile,
        off: Figure,
        u95: Figure,
        allowed: Figure,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        unseen: Option<Figure>,
        taped: u32,
        decision: DecisionFile,
        rule: RuleFile,
    },
    Alignment {
        sheet: Box<SheetFile>,
    },
    Stood {
        aiming: String,
        nth: u32,
        stood: StoodFile,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        within_mm: Option<Figure>,
    },
    Parked {
        aimings: Vec<String>,
        place: u32,
        at_mm: Point,
        heading_deg: Figure,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        set_up: Option<String>,
    },
    RideHeights {
        #[serde(default, skip_serializing_if = "Option::is_none")]
        front_left_mm: Option<Figure>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        front_right_mm: Option<Figure>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        rear_left_mm: Option<Figure>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        rear_right_mm: Option<Figure>,
    },
    FloorConfirmed {
        surveyed: Day,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        instrument: Option<InstrumentFile>,
    },
    Routine {
        aiming: String,
        result: ResultFile,
        #[serde(default, skip_serializing_if = "String::is_empty")]
        note: String,
    },
    Document {
        aiming: String,
        document: String,
        #[serde(default, skip_serializing_if = "String::is_empty")]
        edition: String,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        date: Option<Day>,
    },
    Attached {
        file: String,
        sha256: String,
        bytes: u64,
        kind: AttachmentKindFile,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        step: Option<StepFile>,
    },
    Withdrawn {
        sha256: String,
        why: String,
    },
    Accepted {
        aiming: String,
        code: String,
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        about: Vec<String>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        measured: Option<Figure>,
        in_english: String,
        in_german: String,
        why: String,
    },
    Signed {
        role: String,
        #[serde(default, skip_serializing_if = "is_nothing")]
        lacking: u32,
        #[serde(default, skip_serializing_if = "String::is_empty")]
        why: String,
    },
    Struck {
        entry: u32,
        #[serde(default, skip_serializing_if = "String::is_empty")]
        why: String,
    },
    Labour {
        work: String,
        minutes: Figure,
    },
    Closed,
    WentOn {
        #[serde(default, skip_serializing_if = "Option::is_none")]
        entry: Option<u32>,
    },
    Reopened {
        why: String,
    },
}

/// A step.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct StepFile {
    pub kind: StepKindFile,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub aiming: Option<String>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum StepKindFile {
    Why,
    Procedure,
    ScanBefore,
    Sensor,
    TyresAndLoad,
    RideHeights,
    Alignment,
    Floor,
    Park,
    Clear,
    Marks,
    CheckDistances,
    Stand,
    Routine,
    Result,
    ScanAfter,
    Drive,
    Sign,
}

/// What a figure is of; its unit goes with it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub enum ValueOfFile {
    Faults,
    TyrePressureBar { wheel: WheelFile },
    TargetHeightMm { placement: String },
    DrivenKm,
}

/// What it may be.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct WithinFile {
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub low: Option<Figure>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub high: Option<Figure>,
}

impl WithinFile {
    const fn is_open(&self) -> bool {
        self.low.is_none() && self.high.is_none()
    }
}

/// An instrument.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct InstrumentFile {
    pub name: String,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub serial: String,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub due: Option<Day>,
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub unlisted: bool,
}

const fn is_nothing(count: &u32) -> bool {
    *count == 0
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum ProvenFile {
    DirectionDeg,
    TurnDeg,
    DistanceMm,
    AsideMm,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum DecisionFile {
    Inside,
    Outside,
    CannotSay,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum RuleFile {
    GuardedAcceptance,
}

/// What the routine said.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub enum ResultFile {
    Passed,
    Failed {
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        out: Vec<WayOutFile>,
    },
}

#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct WayOutFile {
    pub way: WayFile,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub by_deg: Option<Figure>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum WayFile {
    Left,
    Right,
    Up,
    Down,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum AttachmentKindFile {
    Photo,
    Scan,
    AlignmentSheet,
    Sheet,
}
