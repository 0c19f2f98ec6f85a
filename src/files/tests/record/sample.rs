//! A visit of our own invention, with an entry of every kind.

use baywright_planner::geometry::{DVec2, PlanPose, angle};
use baywright_planner::model::record::{
    AcceptedFinding, Attachment, AttachmentKind, Because, Begun, Decided, Decision, DecisionRule, Entered,
    Entry, Instrument, MakersDocument, ParkedAt, ProvenFigure, Reading, RecordLine, RoutineResult, StepId,
    StepKind, StoodRead, ValueOf, VisitRecord, Way, WayOut, What, Within, WorkList,
};
use baywright_planner::model::sheet::{Inward, Side, Typed};
use baywright_planner::model::{AlignmentSheet, Provenance, SheetUnit, Stood, Told, Wheel};
use jiff::civil::{Date, DateTime, date};

pub fn begun() -> Begun {
    let list = || Provenance::Measured { by: "the shop's own list".into(), date: Some(date(2026, 1, 31)) };
    let line = |aiming: &str, title: &str, sensor: &str| RecordLine {
        aiming: aiming.into(),
        title: title.into(),
        sensor: sensor.into(),
        because: vec![Because {
            work: "Front bumper taken off".into(),
            note: "The wheels are aligned first.".into(),
            provenance: list(),
        }],
        provenance: Provenance::Maker { document: "made-up sheet 7".into(), date: Some(date(2026, 2, 1)) },
    };
    Begun {
        job: "2026-0117".into(),
        car: "grey estate, key 14".into(),
        plate: Some("MADE UP 1".into()),
        by: "A. Nyone".into(),
        at: at(8, 0),
        bay: "crowded bay".into(),
        layout: Some("crowded-bay.ron".into()),
        arrangement: "as found".into(),
        vehicle: "example-saloon".into(),
        list: Some(WorkList { name: "Our list".into(), provenance: list() }),
        lines: vec![
            line("forward-radar", "Forward radar", "front radar"),
            line("camera", "Forward camera", "front camera"),
        ],
    }
}

pub fn day() -> Date {
    date(2026, 11, 20)
}

pub fn at(hour: i8, minute: i8) -> DateTime {
    day().at(hour, minute, 0, 0)
}

pub fn radar(kind: StepKind) -> StepId {
    StepId::of_aiming(kind, "forward-radar".into())
}

pub fn tape() -> Instrument {
    Instrument {
        name: "steel tape 10 m".into(),
        serial: "T-3".into(),
        due: Some(date(2027, 3, 1)),
        is_unlisted: false,
    }
}

/// In its own units, each figure with its way, and one of which nobody said it.
fn sheet() -> AlignmentSheet {
    let mut sheet = AlignmentSheet {
        taken: Some(day()),
        by: Some("the alignment bay".into()),
        toe_unit: SheetUnit::DegreesMinutes,
        set_back: Told::of(Typed::of(2.5), Side::Left),
        thrust: Told { reads: Some(Typed::of(0.05)), way: None },
        ..AlignmentSheet::default()
    };
    sheet.toe[2] = Told::of(Typed { value: 0.0, minutes: 6.0 }, Inward::In);
    sheet.toe[3] = Told::of(Typed { value: 0.0, minutes: 2.0 }, Inward::Out);
    sheet
}

/// One of each kind, and something \"awkward\" in the texts.
pub fn whats() -> Vec<What> {
    let sha256 = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad".to_owned();
    let decided = Decided {
        aiming: "forward-radar".into(),
        placement: "reflector".into(),
        of: ProvenFigure::Direction,
        off: -0.03,
        u95: 0.05,
        allowed: 0.1,
        unseen: Some(0.07),
        taped: 7,
        decision: Decision::Inside,
        rule: DecisionRule::GuardedAcceptance,
    };
    vec![
        What::StepDone { step: StepId::of_visit(StepKind::Why) },
        What::Document(MakersDocument {
            aiming: "forward-radar".into(),
            document: "made-up sheet 7, \"aiming\"".into(),
            edition: "B".into(),
            date: Some(date(2026, 2, 1)),
        }),
        What::Value(Entered {
            step: StepId::of_visit(StepKind::ScanBefore),
            of: ValueOf::Faults,
            value: 2.0,
            allowed: Within::default(),
        }),
        What::Value(Entered {
            step: StepId::of_visit(StepKind::TyresAndLoad),
            of: ValueOf::TyrePressure(Wheel::RearLeft),
            value: 2.4,
            allowed: Within { low: Some(2.2), high: None },
        }),
        What::RideHeights { heights_mm: [Some(381.0), Some(379.5), None, Some(383.0)] },
        What::Alignment(Box::new(sheet())),
        What::Stood(StoodRead {
            aiming: "forward-radar".into(),
            nth: 1,
            stood: Stood {
                from: "cross 1".into(),
                to: "left front rim".into(),
                start_mm: 1_203.0,
                end_mm: Some(1_203.5),
            },
            within_mm: Some(1.12),
        }),
        What::Parked(ParkedAt {
            aimings: vec!["camera".into()],
            place: 2,
            parked: PlanPose::new(DVec2::new(5_200.0, 3_000.0), angle::radians(1.5)),
            set_up: Some("turned".into()),
        }),
        What::GonePast { step: StepId::of_visit(StepKind::ScanBefore), open: 1 },
        What::LeftOut { step: StepId::of_visit(StepKind::ScanAfter), why: "no scan tool today".into() },
        What::FloorConfirmed { surveyed: date(2026, 10, 2), instrument: Some(tape()) },
        What::NotApplicable {
            step: radar(StepKind::Clear),
            why: "done last night – \\ /*no*/ // comment".into(),
        },
        What::TakenBack { step: radar(StepKind::Clear), why: String::new() },
        What::Value(Entered {
            step: radar(StepKind::Stand),
            of: ValueOf::TargetHeight("reflector".into()),
            value: 611.5,
            allowed: Within::range(598.0, 602.0),
        }),
        What::Reading(Reading {
            aiming: "forward-radar".into(),
            from: "1".into(),
            to: "2".into(),
            read_mm: 1_932.5,
            instrument: Some(tape()),
            temperature_c: Some(14.0),
        }),
        What::Decided(decided.clone()),
        What::Decided(Decided {
            of: ProvenFigure::Distance,
            off: 2.0,
            u95: 1.0,
            allowed: 5.0,
            unseen: None,
            decision: Decision::CannotSay,
            ..decided
        }),
        What::Routine {
            aiming: "forward-radar".into(),
            result: RoutineResult::Failed {
                out: vec![
                    WayOut { way: Way::Left, by_rad: Some(angle::radians(1.2)) },
                    WayOut { way: Way::Up, by_rad: None },
                ],
            },
            note: "second try".into(),
        },
        What::Routine { aiming: "forward-radar".into(), result: RoutineResult::Passed, note: String::new() },
        What::Attached(Attachment {
            file: "stand.jpg".into(),
            sha256: sha256.clone(),
            bytes: 3,
            kind: AttachmentKind::Photo,
            step: Some(radar(StepKind::Stand)),
        }),
        What::Withdrawn { sha256, why: "blurred".into() },
        What::Accepted(AcceptedFinding {
            aiming: "forward-radar".into(),
            code: "floor-levels".into(),
            about: vec!["floor".into()],
            measured: None,
            in_english: "The floor was surveyed too long ago".into(),
            in_german: "Der Boden wurde vor zu langer Zeit vermessen".into(),
            why: "surveyed again next week".into(),
        }),
        What::Labour { work: "Radar aimed".into(), minutes: 54.0 },
        What::Reading(Reading {
            aiming: "forward-radar".into(),
            from: "2".into(),
            to: "3".into(),
            read_mm: 2_550.0,
            instrument: Some(Instrument {
                name: "borrowed".into(),
                serial: String::new(),
                due: None,
                is_unlisted: true,
            }),
            temperature_c: None,
        }),
        What::Signed { role: "technician".into(), lacking: 2, why: "the car is fetched today".into() },
        What::Signed { role: "owner".into(), lacking: 0, why: String::new() },
        What::Closed,
        What::Reopened { why: "a print-out was missing".into() },
    ]
}

pub fn entry(nth: usize, what: What) -> Entry {
    let minute = i8::try_from(nth % 60).unwrap_or_default();
    Entry { by: "A. Nyone".into(), at: at(9, minute), what }
}

pub fn record() -> VisitRecord {
    let entries = whats().into_iter().enumerate().map(|(nth, what)| entry(nth, what));
    VisitRecord { begun: begun(), entries: entries.collect() }
}
