//! A visit in the bay for tests: its steps, what may be entered, what holds, the one answer for all aimings.

use jiff::civil::{DateTime, date};
use proptest::prelude::*;

use super::{Told, *};
use crate::assessment::{Code, Severity, Step, Verdict};
use crate::check::testing::{DVec2, angle, cabinet, clear, column, with};
use crate::judge::judge;
use crate::model::record::{
    Decided, Decision, DecisionRule, Entered, Entry, Instrument, ProvenFigure, Reading, RoutineResult,
    StepId, StepKind, StoodRead, ValueOf, VisitRecord, What, Within,
};
use crate::model::sheet::{Inward, SheetLacks, SheetPart, Typed};
use crate::model::*;
use crate::scene::Scene;

fn at(minute: i8) -> DateTime {
    date(2026, 11, 20).at(9, minute, 0, 0)
}

fn by_hand() -> BeginWith {
    BeginWith {
        job: "17".into(),
        car: "grey estate".into(),
        plate: None,
        by: "A".into(),
        at: at(0),
        layout: None,
    }
}

/// The clear set-up for an aiming of this name, which is otherwise the same.
fn aiming(name: &str) -> Arrangement {
    let mut own = clear();
    own.aiming.id = name.into();
    own.aiming.name = format!("Aiming {name}");
    own
}

fn record_of(visit: &[Arrangement]) -> VisitRecord {
    begin(&by_hand(), visit, &[], None).unwrap()
}

fn enter(record: &mut VisitRecord, what: What) -> Result<Told, Refused> {
    let minute = i8::try_from(record.entries.len() % 59).unwrap();
    append(record, Entry { by: "A".into(), at: at(minute), what })
}

fn of(kind: StepKind) -> StepId {
    if kind.is_of_aiming() { StepId::of_aiming(kind, "a".into()) } else { StepId::of_visit(kind) }
}

/// The steps of a record with the set-ups that it was begun with.
fn steps_of(record: &VisitRecord, visit: &[Arrangement]) -> Vec<VisitStep> {
    let answers: Vec<Assessment> = visit.iter().map(crate::assess).collect();
    let parts: Vec<Part<'_>> = visit
        .iter()
        .zip(&answers)
        .map(|(arrangement, assessment)| Part { arrangement, assessment })
        .collect();
    steps(record, &parts)
}

fn state_of(record: &VisitRecord, visit: &[Arrangement], kind: StepKind) -> StepState {
    let all = steps_of(record, visit);
    all.into_iter().find(|own| own.id == of(kind)).unwrap().state
}

#[test]
fn work_leads_to_the_aimings_that_it_asks_for() {
    let visit = [aiming("a"), aiming("b")];
    let source = Provenance::Measured { by: "our list".into(), date: None };
    let trigger = Trigger {
        id: "bumper".into(),
        title: "Bumper taken off".into(),
        asks: vec![SensorGroup::ForwardRadar],
        note: "Align first.".into(),
        provenance: source.clone(),
    };
    let list = TriggerList { name: "Ours".into(), triggers: vec![trigger], provenance: source };
    let lines = [VisitLine { aiming: "a".into(), because: vec!["bumper".into(), "gone".into()] }];
    let record = begin(&by_hand(), &visit, &lines, Some(&list)).unwrap();
    let [first, second] = record.begun.lines.as_slice() else { panic!() };
    assert_eq!(first.because.len(), 1);
    assert_eq!(first.because[0].work, "Bumper taken off");
    assert!(second.because.is_empty());
    let why = &steps_of(&record, &visit)[0];
    assert_eq!(
        why.tasks,
        [
            Task::WorkAsksFor { work: "Bumper taken off".into(), aiming: "Aiming a".into() },
            Task::AimingChosen("Aiming b".into()),
            Task::Mind("Align first.".into()),
        ]
    );
    assert!(begin(&by_hand(), &[], &[], None).is_err());
    assert!(begin(&by_hand(), &[aiming("a"), aiming("a")], &[], None).is_err());
    let nobody = BeginWith { by: " ".into(), ..by_hand() };
    assert_eq!(begin(&nobody, &visit, &[], None).unwrap_err()[0].field, "by");
}

/// In the trade's order; what is done once is there once, and the car that stays is parked once.
#[test]
fn steps_come_in_the_order_of_work() {
    use StepKind::*;
    let visit = [aiming("a"), aiming("b")];
    let record = record_of(&visit);
    let all = steps_of(&record, &visit);
    let kinds: Vec<StepKind> = all.iter().map(|own| own.id.kind).collect();
    let once =
        [Why, Procedure, Procedure, ScanBefore, Sensor, Sensor, TyresAndLoad, RideHeights, Alignment, Floor];
    let each = [Marks, CheckDistances, Stand, Routine, Result];
    let expected: Vec<StepKind> = [&once[..], &[Park], &each, &each, &[ScanAfter, Drive, Sign]].concat();
    assert_eq!(kinds, expected);
    assert!(all.iter().all(|own| own.id.kind.is_of_aiming() == own.id.aiming.is_some()));
    // Parked elsewhere for the second one, it is parked again; something in its way is seen to before that.
    let mut other = aiming("b");
    other.parked = other.parked.shifted(DVec2::new(500.0, 0.0));
    other.bay.things = vec![cabinet("cabinet", (7_000.0, 3_000.0), 400.0, 400.0)];
    let visit = [aiming("a"), other];
    let kinds: Vec<StepKind> = steps_of(&record, &visit).iter().map(|own| own.id.kind).collect();
    let expected: Vec<StepKind> =
        [&once[..], &[Park], &each, &[Clear, Park], &each, &[ScanAfter, Drive, Sign]].concat();
    assert_eq!(kinds, expected);
    // Without a set-up at hand they are there too.
    let bare = steps(&record, &[]);
    assert_eq!(bare.iter().filter(|own| own.id.kind == Park).count(), 1);
    assert_eq!(bare.iter().filter(|own| own.id.kind == Marks).count(), 2);
}

#[test]
fn what_is_in_the_way_is_seen_to() {
    let mut own = with(vec![cabinet("cabinet", (7_000.0, 3_000.0), 400.0, 400.0)]);
    own.aiming.id = "a".into();
    let visit = [own];
    let record = record_of(&visit);
    let clear = steps_of(&record, &visit).into_iter().find(|own| own.id.kind == StepKind::Clear).unwrap();
    assert!(
        matches!(&clear.tasks[0], Task::Do(Step::MoveThing { thing, .. }) if thing.as_str() == "cabinet")
    );
    assert_eq!(clear.beside, Beside::TopView("a".into()));
}

#[test]
fn a_step_goes_to_and_fro_without_loss() {
    let visit = [aiming("a")];
    let mut record = record_of(&visit);
    let kind = StepKind::Marks;
    let state = |record: &VisitRecord| state_of(record, &visit, kind);
    assert_eq!(state(&record), StepState::Open);
    let taken_back = What::TakenBack { step: of(kind), why: String::new() };
    assert_eq!(enter(&mut record, taken_back.clone()), Err(Refused::NothingToTakeBack(of(kind))));
    enter(&mut record, What::StepDone { step: of(kind) }).unwrap();
    assert_eq!(state(&record), StepState::Done);
    enter(&mut record, taken_back).unwrap();
    assert_eq!(state(&record), StepState::TakenBack);
    enter(&mut record, What::NotApplicable { step: of(kind), why: "by hand".into() }).unwrap();
    assert_eq!(state(&record), StepState::NotApplicable("by hand".into()));
    enter(&mut record, What::StepDone { step: of(kind) }).unwrap();
    assert_eq!(state(&record), StepState::Done);
    assert_eq!(record.entries.len(), 4);
}

/// Out of range is kept and told; the same figure entered anew within it is what holds.
#[test]
fn a_figure_out_of_its_range_is_kept_and_told() {
    let visit = [aiming("a")];
    let mut record = record_of(&visit);
    let faults = |value: f64| {
        What::Value(Entered {
            step: of(StepKind::ScanAfter),
            of: ValueOf::Faults,
            value,
            allowed: Within::range(0.0, 0.0),
        })
    };
    assert_eq!(enter(&mut record, faults(2.0)), Ok(Told { out_of_range: true }));
    enter(&mut record, What::StepDone { step: of(StepKind::ScanAfter) }).unwrap();
    assert_eq!(state_of(&record, &visit, StepKind::ScanAfter), StepState::OutOfRange);
    assert_eq!(enter(&mut record, faults(0.0)), Ok(Told::default()));
    assert_eq!(state_of(&record, &visit, StepKind::ScanAfter), StepState::Done);
    assert!(matches!(enter(&mut record, faults(-1.0)), Err(Refused::NotSound(_))));
    assert!(matches!(enter(&mut record, faults(0.5)), Err(Refused::NotSound(_))));
    assert_eq!(record.entries.len(), 3);
}

/// A tape of ± 0.7 mm, any value alike, reads the same distance twice within 1.96 · √2 · 0.7 / √3 = 1.12 mm in 95 of 100 cases.
#[test]
fn a_car_that_moved_is_noticed() {
    let visit = [aiming("a")];
    let mut record = record_of(&visit);
    let open = |record: &VisitRecord, kind| {
        let all = steps_of(record, &visit);
        all.into_iter().find(|own| own.id == of(kind)).unwrap().open
    };
    assert_eq!(open(&record, StepKind::Park), [Must::CarAtStart(1), Must::CarAtStart(2)]);
    assert_eq!(open(&record, StepKind::Result), [Must::Result], "nothing was taped at the start");
    let still_mm = crate::as_measured::still_within_mm(&visit[0]);
    assert!((still_mm - 1.12).abs() < 0.01);
    let within_mm = Some(still_mm);
    let read = |end_mm| {
        let stood = Stood { from: "cross 1".into(), to: "left front rim".into(), start_mm: 3_000.0, end_mm };
        What::Stood(StoodRead { aiming: "a".into(), nth: 1, stood, within_mm })
    };
    enter(&mut record, read(None)).unwrap();
    assert_eq!(open(&record, StepKind::Park), [Must::CarAtStart(2)]);
    assert_eq!(open(&record, StepKind::Result), [Must::Result, Must::CarAtEnd(1)]);
    assert_eq!(enter(&mut record, read(Some(3_001.0))), Ok(Told { out_of_range: false }));
    assert_eq!(open(&record, StepKind::Result), [Must::Result]);
    assert_eq!(enter(&mut record, read(Some(3_003.0))), Ok(Told { out_of_range: true }));
    assert_eq!(state_of(&record, &visit, StepKind::Result), StepState::OutOfRange);
}

/// A step without its figures is not done: it is gone past, and done once they are there; or it is left out, and why.
#[test]
fn a_step_without_its_figures_is_not_done() {
    let visit = [aiming("a")];
    let mut record = record_of(&visit);
    let tyres = of(StepKind::TyresAndLoad);
    enter(&mut record, What::StepDone { step: tyres.clone() }).unwrap();
    assert_eq!(state_of(&record, &visit, StepKind::TyresAndLoad), StepState::GonePast(4));
    for (nth, wheel) in Wheel::ALL.into_iter().enumerate() {
        let value = ValueOf::TyrePressure(wheel);
        let step = tyres.clone();
        let entered = Entered { step, of: value, value: 2.4, allowed: Within::default() };
        enter(&mut record, What::Value(entered)).unwrap();
        let left = 3 - nth;
        let expected = if left == 0 { StepState::Done } else { StepState::GonePast(left) };
        assert_eq!(state_of(&record, &visit, StepKind::TyresAndLoad), expected);
    }
    let past = What::GonePast { step: of(StepKind::ScanBefore), open: 1 };
    enter(&mut record, past).unwrap();
    let steps = steps_of(&record, &visit);
    let lacking = lacks(&record, &steps, &[]);
    let missing = Lack::GonePast(of(StepKind::ScanBefore), vec![Must::Value(ValueOf::Faults)]);
    assert!(lacking.contains(&missing), "{lacking:?}");
    enter(&mut record, What::LeftOut { step: of(StepKind::ScanBefore), why: "no tool".into() }).unwrap();
    let steps = steps_of(&record, &visit);
    let lacking = lacks_to_sign(&record, &steps, &[]);
    assert!(lacking.contains(&Lack::LeftOut(of(StepKind::ScanBefore), "no tool".into())), "{lacking:?}");
    assert!(!lacking.contains(&Lack::NotSigned));
    assert!(!lacking.contains(&Lack::StepOpen(of(StepKind::Sign))));
    // What is gone past has at least one figure open; a signature over what lacks says why, and one over nothing does not.
    let none = What::GonePast { step: of(StepKind::ScanBefore), open: 0 };
    assert!(matches!(enter(&mut record, none), Err(Refused::NotSound(_))));
    for (lacking, why) in [(2, ""), (0, "so it is")] {
        let role = "technician".to_owned();
        let silent = What::Signed { role, lacking, why: why.into() };
        assert!(matches!(enter(&mut record, silent), Err(Refused::NotSound(_))), "{lacking} {why}");
    }
}

/// The maker's document has its edition and its day; figures of the sheet have their way; the marks are decided after the last tape, and
/// read with a tape that is named.
#[test]
fn each_step_has_what_it_must_have() {
    let mut own = aiming("a");
    own.vehicle.ride_height_off_mm = None;
    own.vehicle.ride_heights = None;
    let open = |record: &VisitRecord, own: &Arrangement, kind| {
        let all = steps_of(record, std::slice::from_ref(own));
        all.into_iter().find(|own| own.id == of(kind)).unwrap().open
    };
    let mut record = record_of(std::slice::from_ref(&own));
    assert_eq!(open(&record, &own, StepKind::RideHeights), Wheel::ALL.map(Must::Arch), "nobody measured");
    own.vehicle.ride_heights = Some([380.0; 4]);
    assert_eq!(open(&record, &own, StepKind::RideHeights), Wheel::ALL.map(Must::Arch));
    enter(&mut record, What::RideHeights { heights_mm: [Some(380.0), None, Some(379.0), Some(381.0)] })
        .unwrap();
    assert_eq!(open(&record, &own, StepKind::RideHeights), [Must::Arch(Wheel::FrontRight)]);
    let document = |edition: &str, date| {
        What::Document(crate::model::record::MakersDocument {
            aiming: "a".into(),
            document: "sheet 7".into(),
            edition: edition.into(),
            date,
        })
    };
    let all = [Must::Document, Must::Edition, Must::Dated];
    assert_eq!(open(&record, &own, StepKind::Procedure), all);
    enter(&mut record, document("", None)).unwrap();
    assert_eq!(open(&record, &own, StepKind::Procedure), all[1..]);
    enter(&mut record, document("B", Some(date(2026, 1, 2)))).unwrap();
    assert_eq!(open(&record, &own, StepKind::Procedure), []);
    let toe = |wheel| Must::Sheet(SheetPart::Toe(wheel));
    assert_eq!(open(&record, &own, StepKind::Alignment), [toe(Wheel::RearLeft), toe(Wheel::RearRight)]);
    own.aiming.alignment.set_back_mm = Some(5.0);
    let mut sheet = AlignmentSheet::default();
    sheet.toe[2].reads = Some(Typed::of(0.1));
    sheet.toe[3] = crate::model::Told::of(Typed::of(0.1), Inward::In);
    enter(&mut record, What::Alignment(Box::new(sheet.clone()))).unwrap();
    let left = SheetPart::Toe(Wheel::RearLeft);
    let expected = [Must::Sheet(SheetPart::SetBack), Must::SheetOpen(left, SheetLacks::Way)];
    assert_eq!(open(&record, &own, StepKind::Alignment), expected, "without its way it is not used");
    sheet.toe[2].way = Some(Inward::Out);
    sheet.set_back = crate::model::Told::of(Typed::of(2.0), sheet::Side::Left);
    enter(&mut record, What::Alignment(Box::new(sheet))).unwrap();
    assert_eq!(open(&record, &own, StepKind::Alignment), []);
    assert_eq!(open(&record, &own, StepKind::CheckDistances), [Must::Decided]);
    let mut read = Reading {
        aiming: "a".into(),
        from: "1".into(),
        to: "2".into(),
        read_mm: 1_900.0,
        instrument: None,
        temperature_c: None,
    };
    enter(&mut record, What::Reading(read.clone())).unwrap();
    enter(&mut record, What::Decided(self::decided(0.03, 0.05, 0.1, Decision::Inside))).unwrap();
    assert_eq!(open(&record, &own, StepKind::CheckDistances), [Must::Instrument(1)]);
    read.instrument =
        Some(Instrument { name: "a tape".into(), serial: String::new(), due: None, is_unlisted: true });
    enter(&mut record, What::Reading(read)).unwrap();
    assert_eq!(open(&record, &own, StepKind::CheckDistances), [Must::Decided], "taped since");
    let steps = steps_of(&record, std::slice::from_ref(&own));
    assert!(lacks(&record, &steps, &[]).contains(&Lack::Unlisted("a tape".into())));
}

fn signed(role: &str) -> What {
    What::Signed { role: role.to_owned(), lacking: 0, why: String::new() }
}

fn decided(off: f64, u95: f64, allowed: f64, decision: Decision) -> Decided {
    Decided {
        aiming: "a".into(),
        placement: "ahead".into(),
        of: ProvenFigure::Direction,
        off,
        u95,
        allowed,
        unseen: Some(0.0),
        taped: 5,
        decision,
        rule: DecisionRule::GuardedAcceptance,
    }
}

/// The examples of the decision as it is asked for: 0.03° ± 0.05° against 0.10° is inside, 0.06° ± 0.05° cannot be said; and 0.03 + 0.07 is
/// no more than 0.1, though sums of such figures are.
#[test]
fn a_decision_follows_from_its_own_figures() {
    use Decision::{CannotSay, Inside, Outside};
    let mut record = record_of(&[aiming("a")]);
    for (off, u95, expected) in [
        (0.03, 0.05, Inside),
        (0.06, 0.05, CannotSay),
        (-0.16, 0.05, Outside),
        (0.03, 0.07, Inside),
        (0.1, 0.2, CannotSay),
    ] {
        for said in [Inside, Outside, CannotSay] {
            let entered = enter(&mut record, What::Decided(decided(off, u95, 0.1, said)));
            let refused = Err(Refused::DoesNotFollow { said, follows: expected });
            assert_eq!(entered, if said == expected { Ok(Told::default()) } else { refused });
        }
    }
    // What one mark out of its place could do unseen is no part of the interval, and keeps it from being inside all the same.
    for unseen in [Some(0.2), None] {
        let own = Decided { unseen, ..decided(0.03, 0.05, 0.1, CannotSay) };
        assert_eq!(own.follows(), Some(CannotSay));
        assert!(enter(&mut record, What::Decided(own)).is_ok());
    }
    assert_eq!(decided(f64::NAN, 0.1, 0.1, Inside).follows(), None);
    assert!(enter(&mut record, What::Decided(decided(0.0, -0.1, 0.1, Inside))).is_err());
}

/// What the marks prove is entered as it is; after another tape it is to be decided anew.
#[test]
fn what_is_proven_is_entered_and_grows_old() {
    let mut own = aiming("a");
    own.aiming.placements[0].target.kind = TargetKind::CornerReflector;
    own.aiming.placements[0].target.error = AimError::PLACE;
    let scene = Scene::of(&own);
    assert!(proven(&own, &scene).is_empty(), "nothing was taped");
    own.marks_taped = scene
        .readings
        .iter()
        .map(|own| MarkTaped::new(own.from.clone(), own.to.clone(), own.distance_mm.round()))
        .collect();
    let all = proven(&own, &scene);
    assert_eq!(all.len(), 3);
    let mut record = record_of(&[own.clone()]);
    let read = |read_mm| {
        What::Reading(Reading {
            aiming: "a".into(),
            from: "1".into(),
            to: "2".into(),
            read_mm,
            instrument: None,
            temperature_c: None,
        })
    };
    enter(&mut record, read(1_900.0)).unwrap();
    all.into_iter().for_each(|what| assert_eq!(enter(&mut record, what), Ok(Told::default())));
    let now = Holds::of(&record);
    let decided = now.decided(&"a".into());
    assert!(decided.iter().all(|own| !own.is_older && own.held.what.taped == scene.readings.len()));
    assert_eq!(decided[0].held.what.decision, Decision::Inside);
    let known = crate::proof::Proof::of(&own, &scene).unwrap();
    assert!((decided[0].held.what.u95 - angle::degrees(known.figures[0].u95)).abs() < 2e-6);
    // The same two marks the other way round are the same distance.
    let again = Reading { from: "2".into(), to: "1".into(), ..reading_of(&read(1_901.0)) };
    enter(&mut record, What::Reading(again)).unwrap();
    let now = Holds::of(&record);
    let readings = now.readings(&"a".into());
    assert_eq!((readings.len(), readings[0].what.read_mm), (1, 1_901.0));
    assert!(now.decided(&"a".into()).iter().all(|own| own.is_older));
    let all = steps(&record, &[]);
    assert!(lacks(&record, &all, &[]).contains(&Lack::DecidedBefore("a".into())));
}

fn reading_of(what: &What) -> Reading {
    if let What::Reading(own) = what { own.clone() } else { panic!() }
}

#[test]
fn a_closed_record_takes_nothing_until_it_is_opened() {
    let mut record = record_of(&[aiming("a")]);
    let labour = || What::Labour { work: "aimed".into(), minutes: 50.0 };
    let open = || What::Reopened { why: "a sheet was missing".into() };
    assert_eq!(enter(&mut record, open()), Err(Refused::NotClosed));
    enter(&mut record, What::Closed).unwrap();
    assert_eq!(enter(&mut record, labour()), Err(Refused::Closed));
    assert_eq!(enter(&mut record, What::Closed), Err(Refused::Closed));
    enter(&mut record, open()).unwrap();
    enter(&mut record, labour()).unwrap();
    assert_eq!(record.entries.len(), 3);
}

#[test]
fn a_signature_covers_what_was_there() {
    let mut record = record_of(&[aiming("a")]);
    let sign = || signed("technician");
    enter(&mut record, sign()).unwrap();
    assert_eq!(enter(&mut record, sign()), Err(Refused::SignedAlready));
    assert_eq!(Holds::of(&record).signed().len(), 1);
    enter(&mut record, signed("owner")).unwrap();
    assert_eq!(Holds::of(&record).signed().len(), 2);
    enter(&mut record, What::Labour { work: "aimed".into(), minutes: 50.0 }).unwrap();
    assert!(Holds::of(&record).signed().is_empty());
    enter(&mut record, sign()).unwrap();
    assert_eq!(Holds::of(&record).signed().len(), 1);
}

/// A finding that somebody goes on with is accepted as it is now: worse, or about something else, it is open again.
#[test]
fn what_is_accepted_is_accepted_as_it_is() {
    let own = with(vec![cabinet("cabinet", (7_000.0, 4_000.0), 400.0, 400.0)]);
    let found = judge(&own);
    let record = record_of(std::slice::from_ref(&own));
    let part = [Part { arrangement: &own, assessment: &found }];
    let open = open_findings(&record, &part);
    assert!(open.iter().all(|own| own.accepted.is_none() && own.finding.severity != Severity::Note));
    let stops = open.iter().find(|own| own.finding.code() == Code::ZoneObject).unwrap().finding;
    let mut accepted = record.clone();
    let said = ["Cabinet is inside", "Schrank steht darin"].map(str::to_owned);
    enter(&mut accepted, accept(&own, stops, said, "it is wood")).unwrap();
    let nth = |record: &VisitRecord, part: &[Part<'_>]| {
        let open = open_findings(record, part);
        open.iter().find(|own| own.finding.code() == Code::ZoneObject).map(|own| own.accepted.is_some())
    };
    assert_eq!(nth(&accepted, &part), Some(true));
    // It stands deeper in the zone now.
    let worse = with(vec![cabinet("cabinet", (7_000.0, 3_900.0), 400.0, 400.0)]);
    let found = judge(&worse);
    assert_eq!(nth(&accepted, &[Part { arrangement: &worse, assessment: &found }]), Some(false));
    let other = with(vec![cabinet("chest", (7_000.0, 4_000.0), 400.0, 400.0)]);
    let found = judge(&other);
    assert_eq!(nth(&accepted, &[Part { arrangement: &other, assessment: &found }]), Some(false));
}

#[test]
fn an_instrument_is_overdue_after_its_day() {
    let due =
        |day| Instrument { name: "tape".into(), serial: "1".into(), due: Some(day), is_unlisted: false };
    let used = date(2026, 11, 20);
    assert!(!is_overdue(&due(used), used));
    assert!(is_overdue(&due(date(2026, 11, 19)), used));
    assert!(!is_overdue(&Instrument { due: None, ..due(used) }, used));
    let mut record = record_of(&[aiming("a")]);
    let read = What::Reading(Reading {
        aiming: "a".into(),
        from: "1".into(),
        to: "2".into(),
        read_mm: 1_900.0,
        instrument: Some(due(date(2026, 11, 19))),
        temperature_c: None,
    });
    enter(&mut record, read).unwrap();
    let lacking = lacks(&record, &steps(&record, &[]), &[]);
    assert!(lacking.contains(&Lack::Overdue("tape".into(), "1".into())));
}

/// A visit with everything in it lacks nothing; each thing that is not is named.
#[test]
fn what_is_missing_is_named() {
    let visit = [aiming("a")];
    let mut record = record_of(&visit);
    let lacking = |record: &VisitRecord| lacks(record, &steps_of(record, &visit), &[]);
    let before = lacking(&record);
    for own in [Lack::NotSigned, Lack::NoDocument("a".into()), Lack::NoResult("a".into())] {
        assert!(before.contains(&own), "{own:?}");
    }
    let routine = |result| What::Routine { aiming: "a".into(), result, note: String::new() };
    enter(&mut record, routine(RoutineResult::Failed { out: Vec::new() })).unwrap();
    assert!(lacking(&record).contains(&Lack::RoutineFailed("a".into())));
    assert_eq!(state_of(&record, &visit, StepKind::Result), StepState::OutOfRange);
    enter(&mut record, routine(RoutineResult::Passed)).unwrap();
    enter(&mut record, What::Decided(decided(0.03, 0.05, 0.1, Decision::Inside))).unwrap();
    let document = crate::model::record::MakersDocument {
        aiming: "a".into(),
        document: "sheet 7".into(),
        edition: "B".into(),
        date: Some(date(2026, 1, 2)),
    };
    enter(&mut record, What::Document(document)).unwrap();
    let mut sheet = AlignmentSheet::default();
    (sheet.toe[2], sheet.toe[3]) = (
        crate::model::Told::of(Typed::of(0.1), Inward::In),
        crate::model::Told::of(Typed::of(0.1), Inward::In),
    );
    enter(&mut record, What::Alignment(Box::new(sheet))).unwrap();
    enter(&mut record, What::FloorConfirmed { surveyed: date(2026, 10, 1), instrument: None }).unwrap();
    enter(&mut record, What::RideHeights { heights_mm: [Some(380.0); 4] }).unwrap();
    for nth in 1..=crate::model::record::CAR_CHECKS {
        let (from, to) = ("cross".into(), "rim".into());
        let stood = Stood { from, to, start_mm: 900.0, end_mm: Some(900.5) };
        enter(&mut record, What::Stood(StoodRead { aiming: "a".into(), nth, stood, within_mm: Some(1.1) }))
            .unwrap();
    }
    for step in steps_of(&record, &visit) {
        for own in &step.values {
            let value = own.allowed.low.unwrap_or(2.0);
            let entered = Entered { step: step.id.clone(), of: own.of.clone(), value, allowed: own.allowed };
            enter(&mut record, What::Value(entered)).unwrap();
        }
    }
    for step in steps_of(&record, &visit) {
        enter(&mut record, What::StepDone { step: step.id }).unwrap();
    }
    assert_eq!(lacks_to_sign(&record, &steps_of(&record, &visit), &[]), []);
    let sign = of(StepKind::Sign);
    assert_eq!(lacking(&record), [Lack::GonePast(sign, vec![Must::Signature]), Lack::NotSigned]);
    enter(&mut record, signed("technician")).unwrap();
    assert_eq!(lacking(&record), []);
}

/// One place serves all where nothing is in the way; what is moved for one is moved for those after it too.
#[test]
fn one_answer_for_the_whole_visit() {
    let one = answer(&[aiming("a"), aiming("b")], &[]);
    assert!(one.is_one_place() && !one.is_regrouped);
    assert_eq!(one.verdict, Verdict::Ready);
    let blocked = |name: &str| {
        let mut own = aiming(name);
        own.bay.things = vec![cabinet("cabinet", (7_000.0, 3_000.0), 400.0, 400.0)];
        own
    };
    let two = answer(&[blocked("a"), blocked("b")], &[]);
    let parts = &two.places[0].parts;
    assert!(two.is_one_place() && two.verdict != Verdict::NotReady);
    assert!(!parts[0].before.is_empty() && parts[1].before.is_empty(), "{two:?}");
    assert!(two.order().map(Id::as_str).eq(["a", "b"]));
    assert!(answer(&[], &[]).places.is_empty());
}

/// A column that cannot go: the car must. What another set-up of the same car has room for is done there; what has none is said.
#[test]
fn what_this_place_does_not_serve_needs_another() {
    let mut stopped = aiming("a");
    // The zone begins 900 mm ahead of the front axle, 2 500 mm before the column; on the left there is no way past.
    stopped.bay.things = vec![column("column", (7_400.0, 3_000.0), 300.0)];
    let mut free = aiming("b");
    free.aiming.zones.clear();
    free.aiming.names_no_zone = true;
    let own = answer(&[stopped.clone(), aiming("b")], &[]);
    let other = own.places.iter().find(|own| own.way != Way::StandsThere);
    match other {
        Some(place) => {
            assert!(own.is_regrouped && own.no_way.is_empty());
            assert!(place.parts.iter().any(|own| own.aiming.as_str() == "a"));
            assert!(place.parts.iter().all(|own| own.verdict != Verdict::NotReady));
        }
        None => assert_eq!(own.no_way, [Id::from("a")]),
    }
    // Walled in, no place serves it; a set-up elsewhere does.
    let mut walled = stopped;
    walled.bay.things = (0..9)
        .map(|n| column(&format!("column {n}"), (7_000.0 + 300.0 * f64::from(n), 3_000.0), 290.0))
        .collect();
    walled.bay.things.extend(
        (0..9).map(|n| column(&format!("post {n}"), (7_000.0 + 300.0 * f64::from(n), 1_200.0), 290.0)),
    );
    walled.bay.things.extend(
        (0..9).map(|n| column(&format!("pillar {n}"), (7_000.0 + 300.0 * f64::from(n), 4_800.0), 290.0)),
    );
    let none = answer(std::slice::from_ref(&walled), &[]);
    assert_eq!((none.no_way.as_slice(), none.verdict), (&[Id::from("a")][..], Verdict::NotReady));
    let mut elsewhere = aiming("a");
    elsewhere.id = "other bay".into();
    let there = answer(std::slice::from_ref(&walled), &[elsewhere]);
    assert_eq!(there.places[0].way, Way::AsSetUp("other bay".into()));
    assert!(there.no_way.is_empty() && there.verdict == Verdict::Ready);
}

/// Whatever is said of a visit: no aiming is lost, none is ready that is not, and every one of a place is judged so when it is done.
#[test]
fn the_answer_holds_when_it_is_carried_out() {
    for x in [5_600.0, 6_200.0, 7_000.0, 8_400.0] {
        for y in [1_700.0, 2_600.0, 3_000.0, 4_300.0] {
            let visit = ["a", "b"].map(|name| {
                let mut own = aiming(name);
                own.bay.things = vec![
                    cabinet("cabinet", (x, y), 500.0, 500.0),
                    column("column", (x + 900.0, 6_000.0 - y), 250.0),
                ];
                own
            });
            let own = answer(&visit, &[]);
            assert_eq!(own.order().count() + own.no_way.len(), 2, "{x} {y}");
            let mut done: Vec<Step> = Vec::new();
            for place in &own.places {
                for part in &place.parts {
                    done.extend(part.before.iter().cloned());
                    let asked = visit.iter().find(|own| own.aiming.id == part.aiming).unwrap();
                    let mut then =
                        done.iter().fold(asked.clone(), |then, step| crate::cure::apply(&then, step));
                    if let Way::Moved(by) = place.way {
                        then = crate::cure::apply(&then, &Step::MoveCar { by });
                    }
                    assert_eq!(judge(&then).verdict, part.verdict, "{x} {y} {place:?}");
                    assert_ne!(part.verdict, Verdict::NotReady, "{x} {y}");
                }
            }
        }
    }
}

proptest! {
    /// Inside is said of a figure only if the whole interval, and what may go unseen, is within what is allowed.
    #[test]
    fn inside_is_inside(off in -2.0..2.0_f64, u95 in 0.0..1.0_f64, allowed in 0.0..2.0_f64, unseen in 0.0..2.0_f64) {
        let own = Decided { unseen: Some(unseen), ..decided(off, u95, allowed, Decision::CannotSay) };
        let slack = 2e-6;
        match own.follows() {
            Some(Decision::Inside) => {
                prop_assert!(off.abs() + u95 <= allowed + slack && unseen <= allowed + slack);
            }
            Some(Decision::Outside) => prop_assert!(off.abs() - u95 > allowed - slack),
            Some(Decision::CannotSay) => prop_assert!(
                off.abs() + u95 > allowed - slack || unseen > allowed - slack
            ),
            None => prop_assert!(false),
        }
    }

    /// However entries come: what is refused leaves the record as it was, what is taken is at its end, nothing before it changes.
    #[test]
    fn a_record_only_grows(kinds in proptest::collection::vec((0_usize..18, 0_u8..9), 1..40)) {
        let visit = [aiming("a")];
        let mut record = record_of(&visit);
        for (kind, deed) in kinds {
            let step = of(StepKind::ALL[kind]);
            let what = match deed {
                0 => What::StepDone { step },
                1 => What::NotApplicable { step, why: "no".into() },
                2 => What::TakenBack { step, why: String::new() },
                3 => What::Closed,
                4 => What::Reopened { why: "more".into() },
                5 => signed("technician"),
                6 => What::Struck { entry: kind, why: String::new() },
                7 => What::Withdrawn { sha256: "0".repeat(64), why: "blurred".into() },
                _ => What::Labour { work: "aimed".into(), minutes: 5.0 },
            };
            let before = record.clone();
            let taken = enter(&mut record, what).is_ok();
            prop_assert_eq!(record.entries.len(), before.entries.len() + usize::from(taken));
            prop_assert_eq!(&record.entries[..before.entries.len()], &before.entries[..]);
            let _ = lacks(&record, &steps(&record, &[]), &[]);
        }
        prop_assert!(validate::visit_record(&record).is_empty());
    }
}
