//! What a step of a record must have, and what looking at a step does not do.

use baywright_desk::screen::Desk;
use baywright_desk::screen::command::{Command, OfBay};
use baywright_desk::screen::page::Page;
use baywright_desk::screen::record::{OfRecord, Side};
use baywright_planner::edit::Edit;
use baywright_planner::model::record::{StepId, StepKind, What};
use baywright_planner::model::sheet::{Inward, Typed};
use baywright_planner::model::{Id, StandSet, Wheel};
use baywright_planner::record::Holds;
use egui::{Key, Modifiers};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;

use crate::record::{at, begun, on_to, pad, record, says, settle};
use crate::sessions::ask;

fn go(screen: &mut Harness<'_, Desk>, step: StepId) {
    ask(screen, Command::Record(OfRecord::Go(step)));
    screen.run_steps(4);
}

/// Enter goes on from a step without its figures; the step is gone past, never done, and what is open is told at the end.
#[test]
fn a_step_without_its_figures_is_gone_past() {
    let (folder, mut screen) = begun("gone-past", "clear-bay");
    on_to(&mut screen, StepKind::TyresAndLoad);
    assert!(says(&screen, "Not done without: tyre pressure"));
    pad(&mut screen, "2.4\n\n\n\n");
    assert_eq!(at(&screen).kind, StepKind::RideHeights, "it does not stand in the way");
    let own = record(&screen);
    let tyres = StepId::of_visit(StepKind::TyresAndLoad);
    assert!(matches!(Holds::of(&own).step(&tyres).unwrap().what, What::GonePast { open: 3, .. }));
    assert!(says(&screen, "gone past, 3 figures open"));
    ask(&mut screen, Command::Record(OfRecord::Side(Side::Close)));
    screen.run_steps(3);
    assert!(says(&screen, "Tyres and load: gone past without tyre pressure"));
    // With its figures it is done.
    go(&mut screen, tyres.clone());
    pad(&mut screen, "\n2.4\n2.2\n2.2\n");
    assert!(matches!(Holds::of(&record(&screen)).step(&tyres).unwrap().what, What::StepDone { .. }));
    // Left out, with a reason that a digit chooses: it is no more than that, and stays so when one goes through again.
    let scan = StepId::of_visit(StepKind::ScanAfter);
    go(&mut screen, scan.clone());
    pad(&mut screen, "+11\n");
    assert!(matches!(Holds::of(&record(&screen)).step(&scan).unwrap().what, What::LeftOut { .. }));
    go(&mut screen, scan.clone());
    pad(&mut screen, "\n\n");
    assert!(matches!(Holds::of(&record(&screen)).step(&scan).unwrap().what, What::LeftOut { .. }));
    assert!(says(&screen, "left out"));
    drop(screen);
    crate::support::clear(folder);
}

/// A toe without its way is entered, not used, and told; a sign is refused. The set-up's own sheet is what the box shows.
#[test]
fn a_toe_without_its_way_is_not_used() {
    let (folder, mut screen) = begun("way", "clear-bay");
    on_to(&mut screen, StepKind::Alignment);
    // The unit, passed over the rim, and on.
    pad(&mut screen, "3\n");
    pad(&mut screen, "\n2\n");
    let car = |screen: &Harness<'_, Desk>| {
        screen.state().document().saved_arrangement().unwrap().on_this_car.clone()
    };
    assert!(says(&screen, "At a diameter of"), "millimetres are at a rim");
    let toe = car(&screen).sheet.toe[2];
    assert_eq!((toe.reads, toe.way), (Some(Typed::of(2.0)), None));
    assert_eq!(car(&screen).sheet.toe_rad(Wheel::RearLeft), None);
    assert!(says(&screen, "Not used until you say which way"));
    // Which way by a digit, the rim after it.
    pad(&mut screen, "2\n");
    assert_eq!(car(&screen).sheet.toe[2].way, Some(Inward::Out));
    assert_eq!(car(&screen).sheet.toe_rad(Wheel::RearLeft), None, "at no rim");
    let own = record(&screen);
    assert_eq!(*Holds::of(&own).alignment().unwrap().what, *car(&screen).sheet);
    drop(screen);
    crate::support::clear(folder);
}

/// The step of another aiming is looked at, taped and decided; the bay, its set-up, its stands and its undo steps are as they were.
#[test]
fn looking_at_another_aiming_changes_nothing_of_the_bay() {
    let (folder, mut screen) = begun_with_two("other-aiming");
    let placement = screen.state().answer().arrangement.aiming.placements[0].id.clone();
    let by_hand =
        screen.state().answer().assessment.scene.targets[0].meant.place.shifted((200.0, 0.0).into());
    let set = StandSet::At { place: by_hand, height_mm: 600.0, pitch_rad: 0.0 };
    ask(&mut screen, Command::Bay(OfBay::Edit(Edit::Stand { placement, set })));
    screen.run_steps(3);
    let before = screen.state().document().layout().clone();
    let shown = screen.state().answer().arrangement.aiming.id.clone();
    let other: Id =
        record(&screen).begun.lines.iter().map(|own| own.aiming.clone()).find(|own| *own != shown).unwrap();
    for kind in [StepKind::Park, StepKind::Stand, StepKind::CheckDistances] {
        go(&mut screen, StepId::of_aiming(kind, other.clone()));
    }
    let undoes = screen.state().undoes();
    if screen.state().record_tape().is_none() {
        pad(&mut screen, "1\n\n\n");
    }
    let (from, to) = screen.state().record_tape().expect("the tape that settles most");
    pad(&mut screen, "2500\n");
    let own = record(&screen);
    let readings = Holds::of(&own).readings(&other);
    assert_eq!(readings.len(), 1, "{from} {to}");
    assert_eq!(*screen.state().document().layout(), before);
    assert_eq!(screen.state().undoes(), undoes);
    assert_eq!(screen.state().answer().arrangement.aiming.id, shown);
    drop(screen);
    crate::support::clear(folder);
}

/// The file of proof is printed by Ctrl+P while a record is open.
#[test]
fn the_file_of_proof_is_among_the_sheets() {
    let (folder, mut screen) = begun("proof-sheet", "clear-bay");
    screen.key_press_modifiers(Modifiers::COMMAND, Key::P);
    screen.run_steps(4);
    assert_eq!(screen.state().view().page(), Some(&Page::OnPaper));
    let start = std::time::Instant::now();
    while !screen.state().is_paper_settled() && start.elapsed().as_secs() < 60 {
        std::thread::sleep(std::time::Duration::from_millis(5));
        screen.step();
    }
    assert!(screen.state().pages_to_print().is_some_and(|pages| pages > 1));
    assert!(screen.query_by_label("File of proof").is_some());
    drop(screen);
    crate::support::clear(folder);
}

/// Where there is no room beside the step the drawing stands below it.
#[test]
fn the_drawing_stands_below_on_a_narrow_window() {
    let (folder, mut screen) = begun("narrow", "clear-bay");
    on_to(&mut screen, StepKind::Park);
    let drawing = |screen: &Harness<'_, Desk>| screen.query_all_by_label_contains("Top view").count();
    let beside = drawing(&screen);
    assert!(beside > 0);
    screen.set_size(egui::vec2(900.0, 700.0));
    screen.run_steps(4);
    assert_eq!(drawing(&screen), beside);
    drop(screen);
    crate::support::clear(folder);
}

/// A record of a visit of two aimings.
fn begun_with_two(name: &str) -> (std::path::PathBuf, Harness<'static, Desk>) {
    let (folder, mut screen) = begun(name, "clear-bay");
    ask(&mut screen, Command::Record(OfRecord::PutAway));
    ask(&mut screen, Command::Bay(OfBay::Show("Saloon, forward radar".into())));
    screen.run_steps(4);
    let aimings = &screen.state().answer().arrangement.vehicle.aimings;
    let aimings: Vec<Id> = aimings.iter().map(|own| own.id.clone()).collect();
    assert!(aimings.len() > 1, "{aimings:?}");
    ask(&mut screen, Command::Bay(OfBay::Edit(Edit::Visit(aimings.into_iter().take(2).collect()))));
    settle(&mut screen);
    ask(&mut screen, Command::Record(OfRecord::Side(Side::Begin)));
    screen.run_steps(4);
    pad(&mut screen, "4712\n13\n\n\n");
    settle(&mut screen);
    assert_eq!(record(&screen).begun.lines.len(), 2);
    (folder, screen)
}
