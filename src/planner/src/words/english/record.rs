//! English of the same: see `words/record.rs`.

use jiff::civil::DateTime;

use super::faults;
use super::marks::wheel_name;
use super::record_open;
pub use super::record_open::{accepted, distance_to_car, gone_past, moved, must, stood, value};
use super::{About, Language, listed, sentence_start};
use crate::assessment::Assessment;
use crate::model::record::{
    Attachment, AttachmentKind, Begun, ChainBreak, Decided, Decision, Entered, Entry, HeadSaid, Instrument,
    ProvenFigure, RoutineResult, StepId, StepKind, ValueOf, ValueUnit, Way as Out, What, Within,
};
use crate::model::{TargetKind, Wheel};
use crate::record::{Caution, Lack, Need, PlaceAnswer, Refused, StepState, Task, VisitAnswer, Way};
use crate::words::record::{RecordTexts, decided_number, entered_length, title_of};
use crate::words::{Lengths, Locale};

/// The fixed texts.
pub const TEXTS: RecordTexts = RecordTexts {
    language: Language::English,
    title: "Record of a visit",
    job: "Job",
    car: "Car",
    plate: "Plate",
    by: "By",
    at: "When",
    bay: "Bay",
    set_up: "Set-up",
    profile: "Car profile",
    begun: "Begun",
    aimings: "Aimings",
    entries: "Entries",
    head: "Last hash",
    steps: "Steps",
    missing: "Still missing",
    without_set_ups: "The bay's file is not at hand: its set-ups, their marks and what is found there are not looked at.",
    nothing_missing: "Nothing is missing.",
    shows_an_edit: "The chain shows that something was changed, not by whom: whoever writes the whole file anew makes a new chain. \
                    Compare the last hash with the one on paper.",
    says_nothing_of_sensor: "This tells what was entered and worked out. It does not say that a sensor is aimed.",
    rule: "Inside: |b| + U is within T; outside: |b| − U is beyond T; else it cannot be said (JCGM 106, guarded acceptance, U of 95 %).",
    closed: "Closed: nothing more is entered.",
};

pub const fn step(kind: StepKind) -> &'static str {
    match kind {
        StepKind::Why => "Why, and which sensors",
        StepKind::Procedure => "Maker's procedure",
        StepKind::ScanBefore => "Scan before",
        StepKind::Sensor => "Sensor, bracket, cover",
        StepKind::TyresAndLoad => "Tyres and load",
        StepKind::RideHeights => "Ride heights",
        StepKind::Alignment => "Alignment sheet",
        StepKind::Floor => "Floor survey",
        StepKind::Park => "Park, settle, straighten",
        StepKind::Clear => "Clear the space",
        StepKind::Marks => "Marks",
        StepKind::CheckDistances => "Check distances",
        StepKind::Stand => "Target on its stand",
        StepKind::Routine => "Maker's routine",
        StepKind::Result => "Result of the routine",
        StepKind::ScanAfter => "Scan after",
        StepKind::Drive => "Drive, if asked",
        StepKind::Sign => "Look through and sign",
    }
}

pub fn step_of(begun: &Begun, own: &StepId) -> String {
    match &own.aiming {
        Some(aiming) => format!("{}: {}", step(own.kind), title_of(begun, aiming)),
        None => step(own.kind).to_owned(),
    }
}

pub fn state(state: &StepState) -> String {
    match state {
        StepState::Open => "Open".to_owned(),
        StepState::Done => "Done".to_owned(),
        StepState::GonePast(open) => sentence_start(&record_open::gone_past(*open)),
        StepState::LeftOut(why) => format!("Left out, because: {why}"),
        StepState::NotApplicable(why) => format!("Does not apply: {why}"),
        StepState::OutOfRange => "Out of range".to_owned(),
        StepState::TakenBack => "Taken back".to_owned(),
    }
}

const fn target(kind: TargetKind) -> &'static str {
    match kind {
        TargetKind::CornerReflector => "corner reflector",
        TargetKind::Plate => "plate",
        TargetKind::Board => "board",
        TargetKind::Mat => "mat",
        TargetKind::ActiveDevice => "active device",
    }
}

pub fn need(need: &Need) -> String {
    match need {
        Need::MakersDocument => "The maker's procedure".to_owned(),
        Need::ScanTool => "Scan tool".to_owned(),
        Need::BatterySupport => "Battery support".to_owned(),
        Need::TyreGauge => "Tyre gauge".to_owned(),
        Need::TapeMeasure => "Tape measure".to_owned(),
        Need::AlignmentSheet => "Alignment sheet of this car".to_owned(),
        Need::CrossTape => "Masking tape, fine pen".to_owned(),
        Need::Chocks => "Chocks".to_owned(),
        Need::LayingTools => {
            "Tape measure, plumb line, line laser or string, masking tape, fine pen".to_owned()
        }
        Need::Target(id, kind) => format!("Target {id}: {}", target(*kind)),
        Need::Level => "Level".to_owned(),
        Need::OfProcedure(own) => sentence_start(own),
    }
}

pub const fn caution(caution: Caution) -> &'static str {
    match caution {
        Caution::MakerDecides => "The vehicle maker's procedure decides.",
        Caution::ChockFirst => "Brake and chock the wheels before lying down near the car.",
        Caution::NotOnAJack => "Nobody under a car that stands on a jack alone.",
        Caution::LookAwayFromLaser => {
            "Look away from the laser; keep it below eye level and off shiny panels."
        }
        Caution::RadarRadiates => {
            "A radar radiates while it is aimed: keep the distance that its maker asks."
        }
        Caution::TrainedPeople => "Airbags and high voltage behind bumpers: only by people trained for it.",
        Caution::TripAndExits => {
            "Mind cords and stand feet; keep exits, extinguishers and electrical panels free."
        }
        Caution::OnTheRoad => "On the road only by whoever may drive it, as law and maker say.",
        Caution::LocalCodes => "Floors and walls: local codes and licensed people decide.",
        Caution::SaysNothingOfSensor => "The record does not say that the sensor is aimed.",
    }
}

pub fn task(locale: Locale, task: &Task) -> String {
    match task {
        Task::WorkAsksFor { work, aiming } => format!("{work}: {aiming}"),
        Task::AimingChosen(aiming) => format!("{aiming}: chosen without a line of work"),
        Task::Mind(note) => note.clone(),
        Task::OpenProcedure(Some((document, Some(date)))) => {
            format!("Open the maker's procedure: {document}, {}.", locale.region.day(*date))
        }
        Task::OpenProcedure(Some((document, None))) => format!("Open the maker's procedure: {document}."),
        Task::OpenProcedure(None) => {
            "Open the maker's procedure: the profile names none, so look it up.".to_owned()
        }
        Task::NoteDocument => "Write down its title, edition and date.".to_owned(),
        Task::ReadFaults => "Read out all faults and keep the print-out.".to_owned(),
        Task::MendOtherFaults => "Mend other faults first.".to_owned(),
        Task::LookAtSensor(sensor) => {
            format!("Look at “{sensor}”: seat tight, bracket not bent, nothing broken.")
        }
        Task::LookAtCover => {
            "Look at what covers it: no thick filler, metal tape, sticker or plate before it.".to_owned()
        }
        Task::SetTyres => "Tyres of one size, at their pressures.".to_owned(),
        Task::EmptyCar => "Boot empty, nobody aboard, fuel as the maker says.".to_owned(),
        Task::Meet(condition) => sentence_start(condition),
        Task::MeasureArches => "Measure from each wheel's middle up to the edge of its arch.".to_owned(),
        Task::EnterAlignment => {
            "Enter rear toe and set-back as the sheet has them, and which way each goes.".to_owned()
        }
        Task::AlignmentLimits { thrust_rad, set_back_mm } => {
            let thrust = thrust_rad.map(|own| format!("thrust angle within ±{}", locale.region.degrees(own)));
            let back = set_back_mm.map(|own| format!("set-back within ±{}", locale.length(own)));
            let limits: Vec<String> = thrust.into_iter().chain(back).collect();
            format!("{}: else the alignment comes first.", sentence_start(&listed(&limits)))
        }
        Task::ConfirmSurvey(taken) => {
            let day = locale.region.day(*taken);
            format!("The floor was surveyed on {day}: confirm that nothing was changed since.")
        }
        Task::SurveyTooOld(days) => format!("That is {days} days ago, longer than the shop lets one be."),
        Task::SurveyFloor => "No dated survey: survey the floor.".to_owned(),
        Task::Do(_) | Task::LookAt(_) => "See to what is in the way.".to_owned(),
        Task::Park => "Park as the set-up shows.".to_owned(),
        Task::Settle => "Roll the car in straight and let the springs settle.".to_owned(),
        Task::Straighten => "Wheels straight ahead; brake and chocks.".to_owned(),
        Task::LayCrosses => record_open::LAY_CROSSES.to_owned(),
        Task::TapeCar => {
            "Tape from each cross to its rim: that shows later whether the car moved.".to_owned()
        }
        Task::LayMarks(1) => "Lay one mark, as the plan says.".to_owned(),
        Task::LayMarks(count) => format!("Lay {count} marks, as the plan says."),
        Task::TapeMarks(count) => {
            format!("Tape between the marks until it is enough; there are {count} distances.")
        }
        Task::SetTarget { placement, mark, height_mm, by_levels_mm } => {
            let on = mark.as_ref().map_or_else(|| "in its place".to_owned(), |own| format!("on mark {own}"));
            match height_mm {
                Some(height) => {
                    let over = by_levels_mm.map_or_else(
                        || format!("{} over a level floor", locale.length(*height)),
                        |by| {
                            format!(
                                "{} over the floor there (± {})",
                                locale.height(*height),
                                locale.tenths(by)
                            )
                        },
                    );
                    format!("Target {placement}: {on}, middle of its face {over}.")
                }
                None => format!("Target {placement}: flat on the floor, {on}."),
            }
        }
        Task::SquareAndPlumb => "Face square as the procedure says, pole plumb both ways.".to_owned(),
        Task::StartRoutine => "Start the maker's routine by the scan tool.".to_owned(),
        Task::KeepOff => "Do not touch the car; nobody walks before the sensor while it runs.".to_owned(),
        Task::TypeResult => "Enter what the routine said.".to_owned(),
        Task::TapeCarAgain => "Tape the two distances to the car again.".to_owned(),
        Task::DriveIfAsked => "Drive, if the procedure asks for it.".to_owned(),
        Task::GatherPapers => "Put everything back, gather print-outs and photographs.".to_owned(),
        Task::LookThroughAndSign => "Look through the record and sign.".to_owned(),
    }
}

pub fn figure(locale: Locale, of: &ValueOf, value: f64) -> String {
    match of.unit() {
        ValueUnit::Count => locale.region.number(value, 0),
        ValueUnit::Bar => format!("{} bar", locale.region.number(value, 2)),
        ValueUnit::Millimetres => entered_length(locale, value),
        ValueUnit::Kilometres => format!("{} km", locale.region.number(value, 1)),
    }
}

pub fn within(locale: Locale, of: &ValueOf, within: Within) -> String {
    let text = |own: f64| figure(locale, of, own);
    match (within.low, within.high) {
        (None, None) => String::new(),
        (Some(low), Some(high)) if text(low) == text(high) => text(low),
        (Some(low), Some(high)) => format!("{} to {}", text(low), text(high)),
        (Some(low), None) => format!("{} or more", text(low)),
        (None, Some(high)) => format!("{} or less", text(high)),
    }
}

pub fn out_of_range(locale: Locale, own: &Entered) -> String {
    format!(
        "{}: {}, where {} is allowed. It is kept as out of range.",
        value(&own.of),
        figure(locale, &own.of, own.value),
        within(locale, &own.of, own.allowed)
    )
}

pub fn refused(begun: &Begun, refused: &Refused) -> String {
    match refused {
        Refused::Closed => "The record is closed: open it again first, and say why.".to_owned(),
        Refused::NotClosed => "The record is open.".to_owned(),
        Refused::Full(most) => format!("The record has {most} entries, as many as it may."),
        Refused::FullOfAttachments(most) => {
            format!("The record has {most} attachments, as many as it may.")
        }
        Refused::NotSound(all) => {
            let said = all.iter().map(|own| {
                format!(
                    "{}: found {}; allowed is {}.",
                    own.field,
                    faults::found(own, Lengths::InFile),
                    faults::allowed(&own.allowed, Lengths::InFile)
                )
            });
            said.collect::<Vec<_>>().join(" ")
        }
        Refused::DoesNotFollow { said, follows } => format!(
            "The figures come to “{}”, not to “{}”.",
            decision(*follows).to_lowercase(),
            decision(*said).to_lowercase()
        ),
        Refused::AttachedAlready(file) => format!("This file is attached already, as {file}."),
        Refused::NotAttached(hash) => format!("No attachment has the hash {hash}."),
        Refused::NothingToTakeBack(own) => format!("“{}” is open already.", step_of(begun, own)),
        Refused::NothingToStrike(nth) => record_open::nothing_to_strike(*nth),
        Refused::SignedAlready => "That is signed already, and nothing was entered since.".to_owned(),
    }
}

pub fn lack(begun: &Begun, lack: &Lack) -> String {
    match lack {
        Lack::StepOpen(own) => format!("Open: {}.", step_of(begun, own)),
        Lack::GonePast(own, open) => {
            format!("{}: gone past without {}.", step_of(begun, own), record_open::all_open(open))
        }
        Lack::LeftOut(own, why) => format!("{}: left out, because: {why}", step_of(begun, own)),
        Lack::OpenToo(own, open) => {
            format!("{}: open too: {}.", step_of(begun, own), record_open::all_open(open))
        }
        Lack::Unlisted(name) => format!("{name} is none of the shop's list: nobody keeps its checks."),
        Lack::StepOutOfRange(own) => format!("Out of range: {}.", step_of(begun, own)),
        Lack::NoDocument(own) => format!("{}: no document of the maker is named.", title_of(begun, own)),
        Lack::NotDecided(own) => {
            format!("{}: nothing was taped that proves the marks.", title_of(begun, own))
        }
        Lack::NotInside(own, 1) => format!("{}: one figure is not inside.", title_of(begun, own)),
        Lack::NotInside(own, count) => format!("{}: {count} figures are not inside.", title_of(begun, own)),
        Lack::DecidedBefore(own) => {
            format!("{}: something was taped since the figures were decided.", title_of(begun, own))
        }
        Lack::RoutineFailed(own) => format!("{}: the routine failed.", title_of(begun, own)),
        Lack::NoResult(own) => format!("{}: no result of the routine.", title_of(begun, own)),
        Lack::FindingsOpen { aiming, stop, care } => {
            let stops = (*stop > 0).then(|| match stop {
                1 => "one finding stops it".to_owned(),
                _ => format!("{stop} findings stop it"),
            });
            let cares = (*care > 0).then(|| match care {
                1 => "one needs care".to_owned(),
                _ => format!("{care} need care"),
            });
            let parts: Vec<String> = stops.into_iter().chain(cares).collect();
            format!("{}: {}, and nobody has accepted that.", title_of(begun, aiming), listed(&parts))
        }
        Lack::Overdue(name, serial) if serial.is_empty() => {
            format!("{name} was to be checked before it was used.")
        }
        Lack::Overdue(name, serial) => format!("{name} {serial} was to be checked before it was used."),
        Lack::NotSigned => "Nobody has signed what stands here now.".to_owned(),
    }
}

pub fn entry(locale: Locale, begun: &Begun, entry: &Entry) -> String {
    let day = |own: jiff::civil::Date| locale.region.day(own);
    match &entry.what {
        What::StepDone { step } => format!("Done: {}.", step_of(begun, step)),
        What::GonePast { step, open } => {
            format!("{}: {}.", sentence_start(&record_open::gone_past(*open)), step_of(begun, step))
        }
        What::LeftOut { step, why } => format!("Left out: {} ({why}).", step_of(begun, step)),
        What::NotApplicable { step, why } => format!("Does not apply: {} ({why}).", step_of(begun, step)),
        What::TakenBack { step, why } if why.is_empty() => format!("Taken back: {}.", step_of(begun, step)),
        What::TakenBack { step, why } => format!("Taken back: {} ({why}).", step_of(begun, step)),
        What::Struck { entry, why } => record_open::struck(*entry, why),
        What::Value(own) => {
            let allowed = within(locale, &own.of, own.allowed);
            let against = match (own.is_in_range(), allowed.is_empty()) {
                (_, true) => String::new(),
                (true, false) => format!(", allowed {allowed}"),
                (false, false) => format!(", allowed {allowed}: out of range"),
            };
            format!("{}: {}{against}.", value(&own.of), figure(locale, &own.of, own.value))
        }
        What::Reading(own) => {
            let title = title_of(begun, &own.aiming);
            let with = own.instrument.as_ref().map(|own| format!(", {}", instrument(locale, own)));
            let warm = own.temperature_c.map(|own| format!(", {} °C", locale.region.number(own, 1)));
            let read = locale.region.number(own.read_mm, 1);
            let (with, warm) = (with.unwrap_or_default(), warm.unwrap_or_default());
            let (from, to) = (&own.from, &own.to);
            if from == to {
                return format!("{title}: mark {from}, laid twice, lies {read} mm apart{with}{warm}.");
            }
            format!("{title}: mark {from} to mark {to} reads {read} mm{with}{warm}.")
        }
        What::Decided(own) => {
            format!("{}, target {}: {}", title_of(begun, &own.aiming), own.placement, decided(locale, own))
        }
        What::Alignment(own) => record_open::sheet(locale, own),
        What::Stood(own) => record_open::stood(locale, begun, own),
        What::Parked(own) => record_open::parked(locale, begun, own),
        What::RideHeights { heights_mm } => {
            let at = Wheel::ALL.into_iter().zip(heights_mm);
            let said = at
                .filter_map(|(wheel, own)| Some(format!("{} {}", wheel_name(wheel), locale.length((*own)?))));
            format!("Ride heights: {}.", said.collect::<Vec<_>>().join(", "))
        }
        What::FloorConfirmed { surveyed, instrument: with } => {
            let with = with.as_ref().map(|own| format!(", {}", instrument(locale, own)));
            format!("Floor survey of {} confirmed{}.", day(*surveyed), with.unwrap_or_default())
        }
        What::Routine { aiming, result, note } => {
            let note = if note.is_empty() { String::new() } else { format!(" {note}") };
            format!("{}: {}{note}", title_of(begun, aiming), routine(locale, result))
        }
        What::Document(own) => {
            let edition =
                if own.edition.is_empty() { String::new() } else { format!(", edition {}", own.edition) };
            let date = own.date.map(|own| format!(", {}", day(own))).unwrap_or_default();
            format!("{}: by {}{edition}{date}.", title_of(begun, &own.aiming), own.document)
        }
        What::Attached(Attachment { file, kind, sha256, .. }) => {
            format!("Attached: {file} ({}), SHA-256 {sha256}.", attachment_kind(*kind))
        }
        What::Withdrawn { sha256, why } => format!("Withdrawn: attachment {sha256} ({why})."),
        What::Accepted(own) => {
            format!(
                "{}: goes on with “{}”, because: {}",
                title_of(begun, &own.aiming),
                own.in_english,
                own.why
            )
        }
        What::Signed { role, lacking, why } => record_open::signed(role, *lacking, why),
        What::Labour { work, minutes } => {
            format!("Labour: {work}, {} min.", locale.region.number(*minutes, 0))
        }
        What::Closed => "Closed.".to_owned(),
        What::WentOn { entry: Some(nth) } => {
            format!("Goes on although entry {} was changed since it was written.", nth + 1)
        }
        What::WentOn { entry: None } => {
            "Goes on although how the record begins was changed since it was written.".to_owned()
        }
        What::Reopened { why } => format!("Opened again ({why})."),
    }
}

pub fn decided_figure(locale: Locale, own: &Decided, value: f64) -> String {
    let unit = if own.of.is_angle() { "°" } else { " mm" };
    format!("{}{unit}", decided_number(locale, own, value))
}

pub fn decided_off(locale: Locale, own: &Decided) -> String {
    let off = decided_figure(locale, own, own.off.abs());
    if off == decided_figure(locale, own, 0.0) {
        return off;
    }
    let way = match (own.of, own.off > 0.0) {
        (ProvenFigure::Direction | ProvenFigure::Aside | ProvenFigure::Turn, true) => "left",
        (ProvenFigure::Direction | ProvenFigure::Aside | ProvenFigure::Turn, false) => "right",
        (ProvenFigure::Distance, true) => "too far",
        (ProvenFigure::Distance, false) => "too near",
    };
    format!("{off} {way}")
}

pub fn decided(locale: Locale, own: &Decided) -> String {
    let figure = |value: f64| decided_figure(locale, own, value);
    let against = format!(
        "{}: {} ± {} (95 %), allowed ± {}",
        proven(own.of),
        decided_off(locale, own),
        figure(own.u95),
        figure(own.allowed)
    );
    match own.decision {
        Decision::Inside => format!("{against}: inside, {} to spare.", figure(own.to_spare())),
        Decision::Outside => format!("{against}: outside."),
        Decision::CannotSay if own.to_spare() >= 0.0 => {
            format!("{against}: cannot say, a mark out of place could go unseen.")
        }
        Decision::CannotSay => format!("{against}: cannot say."),
    }
}

pub const fn decision(decision: Decision) -> &'static str {
    match decision {
        Decision::Inside => "Inside",
        Decision::Outside => "Outside",
        Decision::CannotSay => "Cannot say",
    }
}

pub const fn proven(of: ProvenFigure) -> &'static str {
    match of {
        ProvenFigure::Direction => "direction",
        ProvenFigure::Distance => "distance",
        ProvenFigure::Aside => "place sideways",
        ProvenFigure::Turn => "turn of the face by its marks",
    }
}

pub fn routine(locale: Locale, result: &RoutineResult) -> String {
    match result {
        RoutineResult::Passed => "The routine said: passed.".to_owned(),
        RoutineResult::Failed { out } if out.is_empty() => "The routine said: failed.".to_owned(),
        RoutineResult::Failed { out } => {
            let ways: Vec<String> = out
                .iter()
                .map(|own| {
                    let way = match own.way {
                        Out::Left => "to the left",
                        Out::Right => "to the right",
                        Out::Up => "upwards",
                        Out::Down => "downwards",
                    };
                    own.by_rad
                        .map_or_else(|| way.to_owned(), |by| format!("{} {way}", locale.region.degrees(by)))
                })
                .collect();
            format!("The routine said: failed, out {}.", listed(&ways))
        }
    }
}

pub fn instrument(locale: Locale, own: &Instrument) -> String {
    let serial = if own.serial.is_empty() { String::new() } else { format!(" {}", own.serial) };
    let due = own.due.map(|own| format!(" (check due {})", locale.region.day(own)));
    let unlisted = if own.is_unlisted { " (not in the shop's list)" } else { "" };
    format!("{}{serial}{}{unlisted}", own.name, due.unwrap_or_default())
}

pub const fn attachment_kind(kind: AttachmentKind) -> &'static str {
    match kind {
        AttachmentKind::Photo => "photograph",
        AttachmentKind::Scan => "scan",
        AttachmentKind::AlignmentSheet => "alignment sheet",
        AttachmentKind::Sheet => "sheet",
    }
}

fn entries(count: usize) -> String {
    match count {
        0 => "no entry yet".to_owned(),
        1 => "one entry".to_owned(),
        n => format!("{n} entries"),
    }
}

pub fn chain(job: &str, count: usize, head: &str, broken: Option<ChainBreak>) -> String {
    match broken {
        None => {
            format!("Job {job}: {}, each follows from the one before. Last hash: {head}", entries(count))
        }
        Some(ChainBreak { nth, line }) => {
            let line = line.map(|own| format!(", line {own}")).unwrap_or_default();
            match nth {
                None => format!("Job {job}: how it begins{line} was changed since it was written."),
                Some(nth) => {
                    let entry = nth + 1;
                    format!(
                        "Job {job}: entry {entry} of {count}{line} does not follow from what stands before it: it was changed, or one \
                         before it was taken out, put in or moved."
                    )
                }
            }
        }
    }
}

pub fn head_said(said: HeadSaid, count: usize) -> String {
    match said {
        HeadSaid::Same => "It has the hash that was named: nothing was entered since.".to_owned(),
        HeadSaid::Earlier { entries: then, since } => {
            let then = entries(then);
            let since = if since == 1 { "one was".to_owned() } else { format!("{since} were") };
            format!("The hash that was named is that of this record with {then}; {since} entered since.")
        }
        HeadSaid::Unknown => {
            let count = entries(count);
            format!(
                "The hash that was named is none of this record's, which has {count}: it is another record, or was written anew."
            )
        }
    }
}

pub fn attachment_lost(file: &str, is_changed: bool) -> String {
    if is_changed {
        format!("Attached: what lies beside the record as {file} is not what was attached.")
    } else {
        format!("Attached: {file} is not beside the record.")
    }
}

pub fn clock(locale: Locale, at: DateTime) -> String {
    format!("{} {:02}:{:02}", locale.region.day(at.date()), at.hour(), at.minute())
}

pub fn visit_answer(answer: &VisitAnswer) -> String {
    let here = |place: &PlaceAnswer| place.way == Way::StandsThere;
    let count = |is_here: bool| {
        let places = answer.places.iter().filter(|own| here(own) == is_here);
        places.map(|own| own.parts.len()).sum::<usize>()
    };
    let (stay, elsewhere, none) = (count(true), count(false), answer.no_way.len());
    if elsewhere == 0 && none == 0 {
        return match stay {
            0 => "No aiming is asked for.".to_owned(),
            1 => "The aiming is done where the car stands.".to_owned(),
            n => format!("All {n} aimings are done where the car stands."),
        };
    }
    let all = stay + elsewhere + none;
    let mut parts = vec![match stay {
        0 => format!("None of {all} is done where the car stands"),
        n => format!("{n} of {all} {} done where the car stands", if n == 1 { "is" } else { "are" }),
    }];
    if elsewhere > 0 {
        let places = answer.places.iter().filter(|own| !here(own)).count();
        let needs = if elsewhere == 1 { "1 needs" } else { "the others need" };
        let needs = if elsewhere > 1 && none > 0 { format!("{elsewhere} need") } else { needs.to_owned() };
        parts.push(match places {
            1 => format!("{needs} another parking place"),
            n => format!("{needs} {n} other parking places"),
        });
    }
    if none > 0 {
        parts.push(format!("for {none} no way is known in this bay"));
    }
    format!("{}.", parts.join("; "))
}

pub const fn regrouped() -> &'static str {
    "Those of one parking place stand together, so the order is another than the list's: an order of the maker comes first."
}

pub fn no_way(aimings: &[String]) -> String {
    format!("No way is known in this bay for {}.", listed(aimings))
}

impl About<'_> {
    /// Something to do at a step of a visit.
    pub fn visit_task(&self, own: &Task, found: &Assessment) -> String {
        match own {
            Task::Do(step) => format!("{}.", sentence_start(&self.step(step))),
            Task::LookAt(nth) => match found.findings.get(*nth) {
                Some(finding) => {
                    let title = sentence_start(&self.title(finding));
                    self.cure(finding).map_or_else(|| format!("{title}."), |cure| format!("{title}. {cure}"))
                }
                None => task(self.locale, own),
            },
            _ => task(self.locale, own),
        }
    }

    /// Where the car is parked, what is aimed there, and what is moved before each.
    pub fn visit_place(&self, begun: &Begun, nth: usize, place: &PlaceAnswer) -> Vec<String> {
        let way = match &place.way {
            Way::StandsThere => format!("Place {nth}: where the car stands."),
            Way::Moved(by) => {
                format!("Place {nth}: park it {} and lay the marks anew.", self.towards(*by))
            }
            Way::AsSetUp(id) => format!("Place {nth}: park as in the set-up “{id}”, things as it has them."),
        };
        let parts = place.parts.iter().map(|own| {
            let title = title_of(begun, &own.aiming);
            let verdict = self.verdict(own.verdict).to_lowercase();
            if own.before.is_empty() {
                return format!("{title}: {verdict}.");
            }
            let steps: Vec<String> = own.before.iter().map(|step| self.step(step)).collect();
            format!("{title}: first {}; then {verdict}.", listed(&steps))
        });
        std::iter::once(way).chain(parts).collect()
    }
}
