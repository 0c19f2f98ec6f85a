//! The shop's instruments, listed on its page; who reads with which of them, kept with each reading; marks laid twice.

use std::path::Path;

use baywright_desk::screen::Desk;
use baywright_desk::screen::command::{Command, OfBay, OfShop, OfView};
use baywright_desk::screen::page::Page;
use baywright_desk::screen::view::Tab;
use baywright_files::{SHOP_FILE, load_shop};
use baywright_planner::edit::Edit;
use baywright_planner::model::{Instrument, InstrumentKind, Taken};
use baywright_planner::proof::Proof;
use egui::{Key, Modifiers};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;
use jiff::civil::date;

use crate::sessions::{ask, home};
use crate::support::{desk, type_into, usual};

fn clear(home: &Path) -> Harness<'static, Desk> {
    let mut desk = desk(Path::new("clear-bay"), None);
    desk.live_in(home.to_owned());
    usual(desk)
}

fn finds(screen: &Harness<'_, Desk>, code: &str) -> bool {
    screen.state().answer().assessment.findings.iter().any(|own| own.code().as_str() == code)
}

fn by_key(screen: &mut Harness<'_, Desk>, label: &str) {
    screen.get_by_label(label).focus();
    screen.run();
    screen.key_press(Key::Space);
    screen.run();
}

/// The owner lists a tape, says when its check is over, and undoes all of it; what cannot be stays in its field with why.
#[test]
fn an_instrument_is_listed_saved_and_undone() {
    let home = home("instruments-listed");
    let file = home.join(SHOP_FILE);
    let mut screen = clear(&home);
    ask(&mut screen, Command::Page(Some(Page::Shop)));
    by_key(&mut screen, "Add an instrument");
    assert_eq!(load_shop(&file).unwrap().instruments.len(), 1);
    // Named by its kind once, and open: what it is comes next.
    screen.get_by_label("steel tape");
    for (label, typed) in [
        ("Name", "tape 1"),
        ("Last checked", "2026-01-10"),
        ("Check holds until", "2026-12-31"),
        ("One reading, ±", "0.5"),
    ] {
        screen.get_all_by_label(label).last().unwrap().scroll_to_me();
        screen.run();
        let field = screen.get_all_by_label(label).last().unwrap();
        field.focus();
        screen.run();
        screen.get_all_by_label(label).last().unwrap().type_text(typed);
        screen.step();
        screen.key_press(Key::Enter);
        screen.run();
    }
    let own = load_shop(&file).unwrap().instruments[0].clone();
    assert_eq!((own.name.as_str(), own.due, own.reading_mm), ("tape 1", Some(date(2026, 12, 31)), Some(0.5)));
    type_into(&mut screen, "Check holds until", "2025-01-01");
    screen.get_by_label_contains("2026-01-10 or later");
    assert_eq!(load_shop(&file).unwrap().instruments[0], own);
    ask(&mut screen, Command::Shop(OfShop::HaveNot("tape 1".into())));
    assert!(load_shop(&file).unwrap().instruments.is_empty());
    ask(&mut screen, Command::Shop(OfShop::Undo));
    assert_eq!(load_shop(&file).unwrap().instruments[0], own);
    std::fs::remove_dir_all(home).unwrap();
}

fn listed(screen: &mut Harness<'_, Desk>, own: Instrument) {
    ask(screen, Command::Shop(OfShop::Have { instead_of: None, own: Box::new(own) }));
}

/// What is said once above the boxes goes with each reading typed after it, with the time; an overdue tape is told at once.
#[test]
fn a_reading_keeps_who_read_it_with_what() {
    let home = home("instruments-read");
    let mut screen = clear(&home);
    let due = Some(date(2020, 1, 1));
    listed(&mut screen, Instrument { due, ..Instrument::new("tape 1".into(), InstrumentKind::SteelTape) });
    ask(&mut screen, Command::View(OfView::Tab(Tab::Marks)));
    by_key(&mut screen, "Taped by whom, with what?");
    type_into(&mut screen, "Taped by", "Ann");
    type_into(&mut screen, "Tape's warmth, °C", "hot");
    screen.get_by_label_contains("“hot” is no temperature");
    type_into(&mut screen, "Tape's warmth, °C", "35");
    screen.get_by_label("With").focus();
    screen.run();
    screen.key_press(Key::ArrowDown);
    screen.run();
    screen.get_by_label("Taped by Ann with tape 1 at 35 °C: its check is overdue");
    let answer = screen.state().answer();
    let proof = Proof::of(&answer.judged, &answer.assessment.scene).unwrap();
    let (row, locale) = (&proof.rows[0], screen.state().view().locale);
    let label = locale.language.proof().should(
        row.from.as_str(),
        row.to.as_str(),
        &locale.length(row.should_mm),
        &locale.bare(row.allowance_mm),
    );
    type_into(&mut screen, &label, &format!("{}", row.should_mm.round()));
    let own = screen.state().answer().judged.marks_taped[0].taken.clone();
    let expected =
        Taken { who: Some("Ann".into()), with: Some("tape 1".into()), temperature_c: Some(35.0), at: own.at };
    assert_eq!(own, expected);
    assert!(own.at.is_some(), "the desk knows the time");
    assert!(finds(&screen, "instrument-overdue") && !finds(&screen, "instrument-unlisted"));
    ask(&mut screen, Command::Shop(OfShop::HaveNot("tape 1".into())));
    assert!(finds(&screen, "instrument-unlisted") && !finds(&screen, "instrument-overdue"));
    std::fs::remove_dir_all(home).unwrap();
}

/// One press keeps what was read as the first laying; undone by one; once five distances are read again it says what that shows.
#[test]
fn marks_are_laid_again_by_one_press() {
    let mut screen = usual(desk(Path::new("clear-bay"), None));
    let read = |screen: &mut Harness<'_, Desk>, off: f64| {
        let readings = screen.state().answer().assessment.scene.readings.clone();
        let edits = readings.iter().map(|own| Edit::Tape {
            from: own.from.clone(),
            to: own.to.clone(),
            read_mm: Some(own.distance_mm.round() + off),
            taken: Taken::default(),
        });
        ask(screen, Command::Bay(OfBay::Edit(Edit::All(edits.collect()))));
    };
    read(&mut screen, 0.0);
    ask(&mut screen, Command::View(OfView::Tab(Tab::Marks)));
    let taped = screen.state().answer().judged.marks_taped.clone();
    by_key(&mut screen, "Laid again");
    let judged = || screen.state().answer().judged.clone();
    assert_eq!((judged().marks_taped.len(), &judged().laid_before), (0, &taped));
    screen.key_press_modifiers(Modifiers::COMMAND, Key::Z);
    screen.run();
    let judged = screen.state().answer().judged.clone();
    assert_eq!((&judged.marks_taped, judged.laid_before.len()), (&taped, 0));
    by_key(&mut screen, "Laid again");
    read(&mut screen, 0.0);
    screen.get_by_label_contains("this hand's own figures count now");
}

/// The only line laser counts without being named, and behind the details it is said; two leave the shop's figure, and that is said too.
#[test]
fn the_only_line_laser_counts_and_is_named_behind_the_details() {
    let home = home("instruments-laser");
    let mut screen = clear(&home);
    // A reflector aims by its place, which prolonged lines give.
    ask(&mut screen, Command::Bay(OfBay::Show("Saloon, forward radar".into())));
    let u95 = |screen: &Harness<'_, Desk>| {
        let answer = screen.state().answer();
        Proof::of(&answer.judged, &answer.assessment.scene).unwrap().figures[0].u95
    };
    let before = u95(&screen);
    let laser = |name: &str| Instrument {
        per_metre_mm: Some(0.05),
        ..Instrument::new(name.into(), InstrumentKind::LineLaser)
    };
    listed(&mut screen, laser("green line"));
    assert!(u95(&screen) < before);
    ask(&mut screen, Command::View(OfView::Tab(Tab::Marks)));
    by_key(&mut screen, "Details");
    screen.get_by_label_contains("Laid and set with line laser “green line”");
    listed(&mut screen, laser("red line"));
    assert_eq!(u95(&screen), before);
    screen.get_by_label_contains("line laser (2 listed, none named)");
    std::fs::remove_dir_all(home).unwrap();
}

/// A tape that is cold is short and reads more: what it should read there stands beside each distance.
#[test]
fn what_a_cold_tape_should_read_is_said() {
    let home = home("instruments-cold");
    let mut screen = clear(&home);
    ask(&mut screen, Command::View(OfView::Tab(Tab::Marks)));
    by_key(&mut screen, "Taped by whom, with what?");
    assert!(screen.query_by_label_contains("the tape should read").is_none());
    type_into(&mut screen, "Tape's warmth, °C", "0");
    assert!(screen.query_all_by_label_contains("At 0 °C the tape should read").count() >= 1);
    type_into(&mut screen, "Tape's warmth, °C", "20");
    assert!(screen.query_by_label_contains("the tape should read").is_none());
    std::fs::remove_dir_all(home).unwrap();
}
