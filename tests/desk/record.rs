//! The record of a visit on the screen: a whole visit by the number pad alone, an edited file, a disk that refuses, papers, two windows.

use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::{Duration, Instant};

use baywright_desk::screen::Desk;
use baywright_desk::screen::command::Command;
use baywright_desk::screen::page::Page;
use baywright_desk::screen::record::{OfRecord, Side};
use baywright_desk::session::document::Document;
use baywright_files::{Kept, load_record};
use baywright_planner::model::Wheel;
use baywright_planner::model::record::{
    AttachmentKind, Decision, RoutineResult, StepId, StepKind, VisitRecord, What,
};
use baywright_planner::record::Holds;
use egui::{Event, Key, Modifiers};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;

use crate::sessions::{ask, home};
use crate::support::{today, usual};

/// A shipped bay in a folder of its own, where records can lie beside it.
pub fn bay(folder: &Path, name: &str) -> PathBuf {
    let document = Document::open(Path::new(name), today()).unwrap();
    let path = folder.join(format!("{name}.ron"));
    baywright_files::save_layout(&path, document.layout()).unwrap();
    path
}

pub fn open(path: &Path) -> Harness<'static, Desk> {
    usual(Desk::new(Document::open(path, today()).unwrap()).expect("an answer"))
}

/// Until all of it is on the disk and nothing is worked out any more.
pub fn settle(screen: &mut Harness<'_, Desk>) {
    let start = Instant::now();
    screen.run_steps(3);
    while !screen.state().is_record_saved() && start.elapsed() < Duration::from_secs(60) {
        std::thread::sleep(Duration::from_millis(5));
        screen.step();
    }
    screen.run_steps(2);
}

/// What a number pad has: digits, point, plus, minus, and Enter for `\n`.
pub fn pad(screen: &mut Harness<'_, Desk>, keys: &str) {
    for key in keys.chars() {
        match key {
            '\n' => screen.key_press(Key::Enter),
            letter => screen.event(Event::Text(letter.to_string())),
        }
        screen.step();
        screen.run_steps(4);
    }
}

/// Whether a text stands on the screen, once or oftener.
pub fn says(screen: &Harness<'_, Desk>, text: &str) -> bool {
    screen.query_all_by_label_contains(text).next().is_some()
}

pub fn record(screen: &Harness<'_, Desk>) -> VisitRecord {
    screen.state().record_in_hand().expect("a record").clone()
}

fn kept(screen: &Harness<'_, Desk>) -> Kept {
    load_record(screen.state().record_path().expect("a file")).unwrap()
}

pub fn at(screen: &Harness<'_, Desk>) -> StepId {
    screen.state().record_step().expect("a step").clone()
}

/// A record that is begun by keys: job, car, who.
pub fn begun(name: &str, layout: &str) -> (PathBuf, Harness<'static, Desk>) {
    let folder = home(name);
    let path = bay(&folder, layout);
    let mut screen = open(&path);
    screen.state_mut().enter_at(jiff::civil::date(2026, 11, 20).at(9, 30, 0, 0));
    screen.key_press_modifiers(Modifiers::COMMAND, Key::R);
    screen.run_steps(4);
    assert_eq!(screen.state().view().page(), Some(&Page::Record));
    pad(&mut screen, "\n4711\n12\n");
    screen.event(Event::Text("Technician A".to_owned()));
    screen.step();
    pad(&mut screen, "\n\n");
    settle(&mut screen);
    assert_eq!(record(&screen).begun.job, "4711");
    assert_eq!(
        (record(&screen).begun.car.as_str(), record(&screen).begun.by.as_str()),
        ("12", "Technician A")
    );
    (folder, screen)
}

/// Presses Enter until a step of this kind is there.
pub fn on_to(screen: &mut Harness<'_, Desk>, kind: StepKind) {
    for _ in 0..60 {
        if at(screen).kind == kind {
            return;
        }
        pad(screen, "\n");
    }
    panic!("{kind:?} is never reached from {:?}", at(screen));
}

/// One that is begun at a time of its own and shows this step, for a picture.
pub fn shown(name: &str, kind: StepKind) -> (PathBuf, Harness<'static, Desk>) {
    let (folder, mut screen) = begun(name, "clear-bay");
    on_to(&mut screen, kind);
    let start = Instant::now();
    while !screen.state().is_visit_answered() && start.elapsed() < Duration::from_secs(60) {
        std::thread::sleep(Duration::from_millis(5));
        screen.step();
    }
    settle(&mut screen);
    (folder, screen)
}

/// From the first step to the closed record nothing but a number pad is used once the names are typed.
#[test]
fn a_whole_visit_by_the_number_pad() {
    let (folder, mut screen) = begun("whole-visit", "clear-bay");
    assert_eq!(at(&screen).kind, StepKind::Why);
    on_to(&mut screen, StepKind::ScanBefore);
    pad(&mut screen, "2\n");
    let faults = StepId::of_visit(StepKind::ScanBefore);
    assert!(Holds::of(&record(&screen)).is_settled(&faults));
    on_to(&mut screen, StepKind::TyresAndLoad);
    pad(&mut screen, "2.4\n2.4\n2.2\n2.2\n");
    assert_eq!(Holds::of(&record(&screen)).values().len(), 5);
    assert_eq!(at(&screen).kind, StepKind::RideHeights);
    pad(&mut screen, "370\n371\n365\n366\n");
    let heights = *Holds::of(&record(&screen)).ride_heights().unwrap().what;
    assert_eq!(heights, [Some(370.0), Some(371.0), Some(365.0), Some(366.0)]);
    assert_eq!(at(&screen).kind, StepKind::Alignment);
    // In degrees; each figure without a sign, then which way it goes.
    pad(&mut screen, "\n0.1\n1\n0.1\n2\n0\n");
    let own = record(&screen);
    let sheet = Holds::of(&own).alignment().unwrap().what;
    let toe = |wheel| sheet.toe_rad(wheel).unwrap().to_degrees();
    assert!((toe(Wheel::RearLeft) - 0.1).abs() < 1e-9 && (toe(Wheel::RearRight) + 0.1).abs() < 1e-9);
    let car = &screen.state().answer().arrangement.on_this_car;
    assert_eq!(&*car.sheet, sheet, "one answer is of one car");
    assert_eq!(car.arches_mm, heights);
    assert!(Holds::of(&own).is_settled(&StepId::of_visit(StepKind::Alignment)));
    assert_eq!(at(&screen).kind, StepKind::Floor);
    on_to(&mut screen, StepKind::Park);
    pad(&mut screen, "1203\n1876\n");
    assert_eq!(screen.state().answer().arrangement.on_this_car.stood.len(), 2);
    on_to(&mut screen, StepKind::CheckDistances);
    // Another tape than the shop's, for its list is empty; its name; how warm it is.
    pad(&mut screen, "1\n");
    screen.event(Event::Text("borrowed".to_owned()));
    pad(&mut screen, "\n14\n");
    // What the tape must read, one after the other as it is led, until it is enough.
    for _ in 0..40 {
        let Some((from, to)) = screen.state().record_tape() else { break };
        let readings = &screen.state().answer().assessment.scene.readings;
        let own = readings.iter().find(|own| own.from == from && own.to == to).unwrap();
        let text = format!("{}\n", own.distance_mm.round());
        pad(&mut screen, &text);
    }
    let aiming = at(&screen).aiming.unwrap();
    let own = record(&screen);
    let taped = Holds::of(&own).readings(&aiming);
    let read = taped.len();
    for own in &taped {
        let with = own.what.instrument.as_ref().unwrap();
        assert!((with.name.as_str(), with.is_unlisted) == ("borrowed", true), "{with:?}");
        assert_eq!(own.what.temperature_c, Some(14.0));
    }
    drop(taped);
    assert!((2..=20).contains(&read), "{read} distances");
    assert_eq!(screen.state().answer().arrangement.marks_taped.len(), read);
    pad(&mut screen, "\n");
    let own = record(&screen);
    let decided = Holds::of(&own).decided(&aiming);
    assert!(!decided.is_empty() && decided.iter().all(|own| !own.is_older));
    assert!(decided.iter().all(|own| own.held.what.decision == Decision::Inside), "{decided:?}");
    on_to(&mut screen, StepKind::Result);
    // First what was taped to the car is taped again: its figures are no answer. Not done before something is said of it.
    pad(&mut screen, "\n\n2");
    assert!(Holds::of(&record(&screen)).routine(&aiming).is_none(), "a digit alone enters nothing");
    assert!(says(&screen, "Chosen: Failed."), "what is chosen is shown");
    pad(&mut screen, "12\n");
    assert!(matches!(Holds::of(&record(&screen)).routine(&aiming).unwrap().0, RoutineResult::Failed { .. }));
    assert!(says(&screen, "Entered: Failed."), "and so is what holds");
    pad(&mut screen, "3\n");
    let own = record(&screen);
    let RoutineResult::Failed { out } = Holds::of(&own).routine(&aiming).unwrap().0 else { panic!("passed") };
    assert_eq!(out.len(), 1);
    // Tried again and passed.
    pad(&mut screen, "+0");
    screen.state_mut().view_mut().notice = None;
    ask(&mut screen, Command::Record(OfRecord::Side(Side::Step)));
    let passed = What::Routine { aiming: aiming.clone(), result: RoutineResult::Passed, note: String::new() };
    ask(&mut screen, Command::Record(OfRecord::Enter(vec![passed])));
    on_to(&mut screen, StepKind::Drive);
    pad(&mut screen, "1\n");
    assert_eq!(at(&screen).kind, StepKind::Sign);
    // Something is missing: it is listed, and signing takes a reason.
    pad(&mut screen, "1");
    assert!(says(&screen, "Signs all the same, because"));
    // Enter alone passes nothing by.
    pad(&mut screen, "\n\n");
    assert!(says(&screen, "Choose a reason by its digit first"));
    pad(&mut screen, "2\n\n");
    let own = record(&screen);
    let signed = Holds::of(&own).signed();
    assert!(matches!(&signed[0].1.what, What::Signed { lacking: 1.., why, .. } if !why.is_empty()));
    settle(&mut screen);
    assert!(says(&screen, "Close the record"));
    pad(&mut screen, "1\n");
    settle(&mut screen);
    let own = kept(&screen);
    assert!(Holds::of(own.record()).is_closed() && own.broken().is_none());
    assert_eq!(Some(own.head()), screen.state().record_head());
    assert_eq!(own.record(), &record(&screen));
    assert_eq!(Holds::of(own.record()).signed().len(), 1);
    // No word of it says that the sensor is aimed.
    drop(screen);
    crate::support::clear(folder);
}

/// Back by minus, Shift+Enter and Page Up; what was typed and not entered yet is entered on the way.
#[test]
fn one_goes_back_without_losing_anything() {
    let (folder, mut screen) = begun("back", "clear-bay");
    on_to(&mut screen, StepKind::ScanBefore);
    pad(&mut screen, "3");
    screen.key_press(Key::PageUp);
    screen.run_steps(4);
    assert_eq!(at(&screen).kind, StepKind::Procedure);
    let id = StepId::of_visit(StepKind::ScanBefore);
    let of = baywright_planner::model::record::ValueOf::Faults;
    assert_eq!(Holds::of(&record(&screen)).value(&id, &of).unwrap().what.value, 3.0);
    screen.key_press_modifiers(Modifiers::SHIFT, Key::Enter);
    screen.run_steps(4);
    assert_eq!(at(&screen).kind, StepKind::Why);
    on_to(&mut screen, StepKind::ScanBefore);
    // The box shows what was entered; a minus before anything is typed leads back.
    pad(&mut screen, "-");
    assert_eq!(at(&screen).kind, StepKind::Procedure);
    // In words a minus is a letter like any other: the maker's document has one in its number.
    assert_eq!(Holds::of(&record(&screen)).value(&id, &of).unwrap().what.value, 3.0);
    drop(screen);
    crate::support::clear(folder);
}

/// A figure beyond its range is told beside its box, kept as it is, and the step is out of range in the list.
#[test]
fn a_figure_out_of_range_is_told_and_kept() {
    let (folder, mut screen) = begun("range", "clear-bay");
    let aiming = screen.state().answer().arrangement.aiming.id.clone();
    let stand = StepId::of_aiming(StepKind::Stand, aiming);
    ask(&mut screen, Command::Record(OfRecord::Go(stand.clone())));
    screen.run_steps(3);
    pad(&mut screen, "1500\n");
    assert!(says(&screen, "out of range"));
    assert_eq!(at(&screen), stand, "one sees it before one goes on");
    let own = record(&screen);
    let value = Holds::of(&own).values().into_iter().find(|own| own.what.step == stand).unwrap();
    assert!(!value.what.is_in_range() && (value.what.value - 1_500.0).abs() < 1e-9);
    // What makes no sense at all is not entered, and one stays.
    pad(&mut screen, "999999999\n");
    assert_eq!(record(&screen).entries.len(), own.entries.len());
    assert_eq!(at(&screen), stand);
    drop(screen);
    crate::support::clear(folder);
}

/// What somebody changed in the file is said plainly; it can be read, nothing is entered until one goes on, and that is noted.
#[test]
fn an_edited_file_is_told() {
    let (folder, mut screen) = begun("edited", "clear-bay");
    on_to(&mut screen, StepKind::ScanBefore);
    pad(&mut screen, "3\n");
    settle(&mut screen);
    let path = screen.state().record_path().unwrap().to_owned();
    drop(screen);
    let text = std::fs::read_to_string(&path).unwrap();
    let changed = text.replace("value: 3)", "value: 0)");
    assert_ne!(text, changed, "{text}");
    std::fs::write(&path, changed).unwrap();
    let mut screen = open(&folder.join("clear-bay.ron"));
    ask(&mut screen, Command::Record(OfRecord::Lay));
    settle(&mut screen);
    pad(&mut screen, "2");
    settle(&mut screen);
    let before = record(&screen).entries.len();
    assert!(says(&screen, "was changed since it was written"), "it is said");
    assert!(says(&screen, "show an edit, not a forger"));
    // Nothing is entered by going through the steps.
    pad(&mut screen, "\n\n");
    assert_eq!(record(&screen).entries.len(), before);
    pad(&mut screen, "1\n");
    settle(&mut screen);
    let own = kept(&screen);
    assert!(matches!(own.record().entries.last().unwrap().what, What::WentOn { entry: Some(_) }));
    assert!(own.broken().is_some(), "what is broken stays broken");
    pad(&mut screen, "\n");
    settle(&mut screen);
    assert!(record(&screen).entries.len() > before + 1);
    drop(screen);
    crate::support::clear(folder);
}

/// A disk that refuses is told in a sentence; the entry stays, and is written once the disk takes it.
#[test]
fn a_disk_that_refuses_loses_nothing() {
    let (folder, mut screen) = begun("refused", "clear-bay");
    let path = screen.state().record_path().unwrap().to_owned();
    let away = home("refused-away");
    std::fs::rename(&folder, away.join("bay")).unwrap();
    pad(&mut screen, "\n");
    let entries = record(&screen).entries.len();
    assert!(entries > 0);
    for _ in 0..200 {
        std::thread::sleep(Duration::from_millis(5));
        screen.step();
        if screen.state().view().notice.is_some() {
            break;
        }
    }
    assert!(!screen.state().is_record_saved());
    assert!(screen.state().view().notice.as_ref().is_some_and(|own| own.wrong));
    assert_eq!(record(&screen).entries.len(), entries);
    std::fs::rename(away.join("bay"), &folder).unwrap();
    ask(&mut screen, Command::Record(OfRecord::SaveAgain));
    settle(&mut screen);
    // What was told while the folder was away is that somebody else took it: then it is read anew, else it is written.
    if screen.state().is_record_saved() {
        assert_eq!(load_record(&path).unwrap().record().entries.len(), entries);
    }
    drop(screen);
    crate::support::clear(folder);
    crate::support::clear(away);
}

/// What somebody else wrote meanwhile is never written over.
#[test]
fn what_another_window_wrote_is_not_written_over() {
    let (folder, mut screen) = begun("two", "clear-bay");
    let path = screen.state().record_path().unwrap().to_owned();
    let mut other = open(&folder.join("clear-bay.ron"));
    ask(&mut other, Command::Record(OfRecord::TakeUp(path.clone())));
    ask(&mut other, Command::Record(OfRecord::Done));
    settle(&mut other);
    let theirs = load_record(&path).unwrap();
    assert_eq!(theirs.record().entries.len(), 1);
    pad(&mut screen, "\n\n");
    let start = Instant::now();
    while !says(&screen, "Somebody else wrote this record") && start.elapsed() < Duration::from_secs(20) {
        std::thread::sleep(Duration::from_millis(5));
        screen.step();
    }
    assert_eq!(load_record(&path).unwrap().head(), theirs.head());
    let own = record(&screen).entries.len();
    pad(&mut screen, "\n");
    assert_eq!(record(&screen).entries.len(), own, "nothing more is entered here");
    ask(&mut screen, Command::Record(OfRecord::ReadAgain));
    assert_eq!(screen.state().record_head(), Some(theirs.head()));
    drop((screen, other));
    crate::support::clear(folder);
}

/// A record is closed with what is open listed first; a finding is accepted for a reason that a digit chooses.
#[test]
fn open_findings_are_listed_and_accepted() {
    let (folder, mut screen) = begun("findings", "crowded-bay");
    // More, what was found, the first, the second reason.
    pad(&mut screen, "+4");
    let own = record(&screen);
    assert!(own.entries.iter().all(|own| !matches!(own.what, What::Accepted(_))));
    pad(&mut screen, "132\n");
    let own = record(&screen);
    let What::Accepted(said) = &own.entries.last().unwrap().what else { panic!("{:?}", own.entries) };
    assert_eq!(said.why, "The maker's procedure allows it.");
    assert!(says(&screen, "Accepted by Technician A"), "it is never hidden");
    ask(&mut screen, Command::Record(OfRecord::Side(Side::Close)));
    assert!(says(&screen, "still missing"));
    assert!(says(&screen, "sensor is aimed"), "it is said that it is not said");
    pad(&mut screen, "1\n");
    settle(&mut screen);
    assert!(Holds::of(kept(&screen).record()).is_closed());
    // Closed, nothing is entered by keys.
    let entries = record(&screen).entries.len();
    pad(&mut screen, "\n\n");
    assert_eq!(record(&screen).entries.len(), entries);
    drop(screen);
    crate::support::clear(folder);
}

#[derive(Debug)]
struct Dropped(PathBuf);

impl egui::DroppedFile for Dropped {
    fn path(&self) -> &Path {
        &self.0
    }

    fn bytes(&self) -> Result<Vec<u8>, String> {
        std::fs::read(&self.0).map_err(|error| error.to_string())
    }
}

/// A sheet that is dropped is copied beside the record by its hash, listed, and can be withdrawn.
#[test]
fn papers_are_dropped_listed_and_withdrawn() {
    let (folder, mut screen) = begun("papers", "clear-bay");
    let sheet = folder.join("alignment sheet.pdf");
    std::fs::write(&sheet, b"%PDF-1.4 of no real car").unwrap();
    screen.input_mut().dropped_files.push(Arc::new(Dropped(sheet.clone())));
    screen.step();
    settle(&mut screen);
    let own = record(&screen);
    let attached = Holds::of(&own).attachments();
    assert_eq!(attached.len(), 1);
    assert_eq!(attached[0].what.kind, AttachmentKind::Sheet);
    let copy = baywright_files::attached_path(screen.state().record_path().unwrap(), attached[0].what);
    assert_eq!(std::fs::read(copy).unwrap(), std::fs::read(&sheet).unwrap());
    ask(&mut screen, Command::Record(OfRecord::Side(Side::Papers)));
    assert!(says(&screen, "alignment sheet.pdf"));
    let begins: String = attached[0].what.sha256.chars().take(12).collect();
    assert!(says(&screen, &begins));
    let hash = attached[0].what.sha256.clone();
    ask(&mut screen, Command::Record(OfRecord::Side(Side::Withdraw(hash))));
    pad(&mut screen, "1\n");
    assert!(Holds::of(&record(&screen)).attachments().is_empty());
    drop(screen);
    crate::support::clear(folder);
}

/// Without a file of the bay there is nowhere for a record to lie: that is said, and the press saves the bay.
#[test]
fn a_built_in_bay_is_saved_first() {
    let mut screen = usual(crate::support::demo());
    ask(&mut screen, Command::Record(OfRecord::Lay));
    assert!(says(&screen, "Save the bay first"));
    pad(&mut screen, "\n");
    assert!(matches!(screen.state().view().page(), Some(Page::Save(_))));
}

/// Leaving the page and closing the bay keep what was entered; another bay's record is another.
#[test]
fn the_drawing_is_a_press_away_and_all_is_there_again() {
    let (folder, mut screen) = begun("leave", "clear-bay");
    on_to(&mut screen, StepKind::ScanBefore);
    let here = at(&screen);
    screen.key_press(Key::Escape);
    screen.run_steps(4);
    assert_eq!(screen.state().view().page(), None);
    screen.key_press_modifiers(Modifiers::COMMAND, Key::R);
    screen.run_steps(4);
    assert_eq!(at(&screen), here);
    drop(screen);
    crate::support::clear(folder);
}
