//! What the tape read between marks: a box each, what it proves beside it, undone and saved like any other change.

use std::path::Path;

use baywright_desk::screen::Desk;
use baywright_desk::screen::command::{Command, OfFile, OfView};
use baywright_desk::screen::view::Tab;
use baywright_planner::geometry::PlanPose;
use baywright_planner::proof::{Doubt, Off, Proof};
use baywright_planner::words::Language;
use baywright_planner::{Code, Verdict, edit::Edit};
use egui::{Key, Modifiers};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;

use crate::sessions::{ask, home};
use crate::support::{desk, usual, verdict};

fn clear_bay() -> Harness<'static, Desk> {
    let mut screen = usual(desk(Path::new("clear-bay"), None));
    ask(&mut screen, Command::View(OfView::Tab(Tab::Marks)));
    screen
}

/// What lies further down than is seen comes into sight with the keyboard.
fn by_key(screen: &mut Harness<'_, Desk>, label: &str) {
    screen.get_by_label(label).focus();
    screen.run();
    screen.key_press(Key::Space);
    screen.run();
}

fn proof(screen: &Harness<'_, Desk>) -> Proof {
    let answer = screen.state().answer();
    Proof::of(&answer.judged, &answer.assessment.scene).expect("a plan")
}

/// Types what the tape should read, to the millimetre, into one box after another, as Enter leads on; of one something else.
fn type_all(screen: &mut Harness<'_, Desk>, misread: Option<(usize, f64)>) {
    let rows = proof(screen).rows;
    let locale = screen.state().view().locale;
    let label = |nth: usize| {
        let row = &rows[nth];
        let texts = locale.language.proof();
        texts.should(
            row.from.as_str(),
            row.to.as_str(),
            &locale.length(row.should_mm),
            &locale.bare(row.allowance_mm),
        )
    };
    screen.get_by_label(&label(0)).click();
    screen.run();
    for (nth, row) in rows.iter().enumerate() {
        let off = misread.filter(|(own, _)| *own == nth).map_or(0.0, |(_, off)| off);
        let text = format!("{}", (row.should_mm + off).round());
        screen.get_by_label(&label(nth)).type_text(&text);
        screen.step();
        screen.key_press(Key::Enter);
        screen.run();
    }
}

#[test]
fn from_the_plan_to_inside_by_typing_alone() {
    let mut screen = clear_bay();
    assert_eq!(verdict(&screen), Verdict::Ready);
    screen.get_by_label_contains("Cannot say yet: Plate");
    screen.get_by_label_contains("out of place could go unseen");
    screen.get_by_label_contains("next: it settles most");
    type_all(&mut screen, None);
    let read = proof(&screen);
    assert_eq!((read.read(), &read.doubt), (read.rows.len(), &Doubt::Fits));
    screen.get_by_label_contains("inside,");
    screen.get_by_label_contains("Enough: all is inside");
    assert_eq!(verdict(&screen), Verdict::Ready);
}

/// One box of nineteen, 12 mm long: it is named beside its box and above, and the card in front says the same.
#[test]
fn a_misread_one_is_named_and_read_again() {
    let mut screen = clear_bay();
    type_all(&mut screen, Some((7, 12.0)));
    let own = proof(&screen);
    let row = &own.rows[7];
    let Doubt::One(Off::Reading { from, to, .. }) = &own.doubt else { panic!("{:?}", own.doubt) };
    assert_eq!((from, to), (&row.from, &row.to));
    screen.get_by_label_contains("does not fit: it reads");
    assert_eq!(verdict(&screen), Verdict::ReadyWithCare);
    let has = |screen: &Harness<'_, Desk>, code: Code| {
        screen.state().answer().assessment.findings.iter().any(|own| own.code() == code)
    };
    assert!(has(&screen, Code::ReadingOff));
    // Undone it is as if it had not been typed.
    let typed = screen.state().answer().judged.marks_taped.len();
    ask(&mut screen, Command::Undo);
    assert_eq!(screen.state().answer().judged.marks_taped.len(), typed - 1);
    ask(&mut screen, Command::Redo);
    let read_mm = Some(row.should_mm.round());
    let edit = Edit::Tape { from: from.clone(), to: to.clone(), read_mm, taken: Default::default() };
    ask(&mut screen, Command::Bay(baywright_desk::screen::command::OfBay::Edit(edit)));
    assert!(!has(&screen, Code::ReadingOff));
    assert_eq!(verdict(&screen), Verdict::Ready);
}

/// A car that is parked elsewhere has no marks yet; what was taped comes back with it by undo, and is saved with the set-up.
#[test]
fn readings_go_with_the_car_and_are_saved() {
    let mut screen = clear_bay();
    type_all(&mut screen, None);
    let file = home("tapes").with_extension("ron");
    ask(&mut screen, Command::File(OfFile::SaveAs(file.clone(), true)));
    let again = desk(&file, None);
    assert_eq!(again.answer().judged.marks_taped, screen.state().answer().judged.marks_taped);
    let parked = screen.state().answer().judged.parked;
    let moved =
        PlanPose::new(parked.origin() + baywright_planner::geometry::DVec2::new(30.0, 0.0), parked.heading());
    ask(&mut screen, Command::Bay(baywright_desk::screen::command::OfBay::Edit(Edit::Park(moved))));
    assert!(screen.state().answer().judged.marks_taped.is_empty());
    ask(&mut screen, Command::Undo);
    assert!(!screen.state().answer().judged.marks_taped.is_empty());
    by_key(&mut screen, "Marks laid anew");
    assert!(screen.state().answer().judged.marks_taped.is_empty());
    std::fs::remove_file(file).unwrap();
}

/// What is no length stays in its box with a sentence; an emptied box takes its reading away.
#[test]
fn boxes_take_lengths_or_nothing() {
    let mut screen = clear_bay();
    let row = &proof(&screen).rows[0];
    let locale = screen.state().view().locale;
    let label = locale.language.proof().should(
        row.from.as_str(),
        row.to.as_str(),
        &locale.length(row.should_mm),
        &locale.bare(row.allowance_mm),
    );
    crate::support::type_into(&mut screen, &label, &format!("{}", row.should_mm.round()));
    crate::support::type_into(&mut screen, &label, "two");
    screen.get_by_label_contains("“two”");
    let before = screen.state().answer().judged.marks_taped.len();
    screen.get_by_label(&label).click();
    screen.run();
    screen.key_combination_modifiers(Modifiers::COMMAND, &[Key::A]);
    screen.step();
    screen.key_press(Key::Delete);
    screen.step();
    screen.key_press(Key::Enter);
    screen.run();
    assert_eq!(screen.state().answer().judged.marks_taped.len(), before - 1);
}

#[test]
fn in_german_the_same_is_said() {
    let mut screen = clear_bay();
    ask(&mut screen, Command::View(OfView::Language(Language::German)));
    screen.get_by_label_contains("Noch nicht zu sagen");
    type_all(&mut screen, Some((7, 12.0)));
    screen.get_by_label_contains("passt nicht");
}

/// Mark 5 laid 14 mm aside: on request it is drawn where it lies, so many times further off as is said, and not when the tab is left.
#[test]
fn how_the_marks_lie_is_drawn_larger_on_request() {
    let mut screen = clear_bay();
    let scene = screen.state().answer().assessment.scene.clone();
    let at = |id: &baywright_planner::model::Id| {
        let mark = scene.marks.iter().find(|mark| mark.id == *id).unwrap().at.unwrap();
        let aside = if id.as_str() == "5" { 14.0 } else { 0.0 };
        mark + scene.bay_from_vehicle.turned(baywright_planner::geometry::DVec2::new(0.0, aside))
    };
    let edits = scene.readings.iter().map(|own| Edit::Tape {
        from: own.from.clone(),
        to: own.to.clone(),
        read_mm: Some(at(&own.from).distance(at(&own.to)).round()),
        taken: Default::default(),
    });
    let all = Edit::All(edits.collect());
    ask(&mut screen, Command::Bay(baywright_desk::screen::command::OfBay::Edit(all)));
    assert!(screen.state().view().as_laid.is_empty());
    by_key(&mut screen, "Draw how the marks lie, 50 times larger");
    let drawn = screen.state().view().as_laid.clone();
    let largest = drawn.iter().map(|own| own.from.distance(own.to)).fold(0.0, f64::max);
    assert!((largest - 14.0 * 50.0).abs() < 4.0 * 50.0, "{largest}");
    assert!(drawn.iter().any(|own| own.text.starts_with("14")), "{drawn:?}");
    ask(&mut screen, Command::View(OfView::Tab(Tab::Findings)));
    assert!(screen.state().view().as_laid.is_empty());
}

/// Out of a file: by names or numbers of marks, with a head or none; all of it or nothing, with the line that is wrong.
#[test]
fn readings_come_out_of_a_file() {
    let mut screen = clear_bay();
    let file = home("tapes-file").with_extension("csv");
    let read = |screen: &mut Harness<'_, Desk>, text: &str| {
        std::fs::write(&file, text).unwrap();
        ask(screen, Command::Bay(baywright_desk::screen::command::OfBay::ReadTapes(file.clone())));
        let said = screen.state().view().notice.clone().expect("it is said");
        (said.wrong, said.text.clone(), screen.state().answer().judged.marks_taped.len())
    };
    let (wrong, said, count) = read(&mut screen, "from;to;read\n1;3;2550\n3;6;4118,5\n");
    assert!(!wrong && count == 2, "{said}");
    let own = screen.state().answer().judged.marks_taped.clone();
    assert!((own[1].read_mm - 4_118.5).abs() < 1e-9, "{own:?}");
    for (text, expected) in [
        ("1;3;2550\n1;99;2000", "line 2: no mark of this plan is called “99”"),
        ("1;3;2550\n1;1;2000", "line 2: both ends are one mark"),
        ("1;3;2550\n1;4", "line 2: it has 2 columns"),
        ("1;3;2550\n1;4;two", "line 2: “two” is no length"),
        ("from;to;read\n", "found no reading"),
    ] {
        let (wrong, said, count) = read(&mut screen, text);
        assert!(wrong && said.contains(expected) && count == 2, "{said}");
    }
    let how = "from;to;read;by;with;when;warm\n1;3;2550;Ann;tape 1;2026-03-17T08:30;18,5\n";
    let (wrong, said, count) = read(&mut screen, how);
    assert!(!wrong && count == 2, "{said}");
    let taken = screen.state().answer().judged.marks_taped[0].taken.clone();
    assert_eq!(
        (taken.who, taken.with, taken.temperature_c),
        (Some("Ann".into()), Some("tape 1".into()), Some(18.5))
    );
    assert_eq!(taken.at, Some(jiff::civil::date(2026, 3, 17).at(8, 30, 0, 0)));
    for (text, expected) in [
        ("1;3;2550;Ann;tape 1;yesterday;18", "line 1: “yesterday” is no day and time"),
        ("1;3;2550;Ann;tape 1;2026-03-17T08:30;hot", "line 1: “hot” is no temperature"),
    ] {
        let (wrong, said, _) = read(&mut screen, text);
        assert!(wrong && said.contains(expected), "{said}");
    }
    ask(&mut screen, Command::Undo);
    // The same once more, in one step back.
    read(&mut screen, "1\t3\t2551\n2\t4\t2550");
    assert_eq!(screen.state().answer().judged.marks_taped.len(), 3);
    ask(&mut screen, Command::Undo);
    assert_eq!(screen.state().answer().judged.marks_taped, own);
    std::fs::remove_file(file).unwrap();
}

/// A window that is left open overnight judges by the new day; what is read is of the day by which is judged.
#[test]
fn the_day_goes_on_unless_it_was_named() {
    let mut screen = clear_bay();
    let named = screen.state().document().today().unwrap();
    type_all(&mut screen, None);
    let read = &screen.state().answer().judged.marks_taped;
    assert!(read.iter().all(|own| own.taken.at.unwrap().date() == named));
    screen.state_mut().let_days_go_on(true);
    screen.run();
    let now = screen.state().document().today().unwrap();
    assert!(now != named && screen.state().answer().judged.today == Some(now));
    let has = |code: Code| screen.state().answer().assessment.findings.iter().any(|own| own.code() == code);
    assert!(has(Code::ReadingDay));
}
