//! What is typed is kept as it was typed: cars of one's own, distances, walls, names of files.

use std::path::{Path, PathBuf};

use baywright_desk::screen::Desk;
use baywright_desk::screen::command::{Begin, Command, OfBay, OfCar, OfFile, OfView};
use baywright_desk::screen::page::{Leaving, NewBay, Page, Question};
use baywright_planner::Subject;
use baywright_planner::model::assumed::BodyPart;
use baywright_planner::model::{Provenance, Vehicle};
use baywright_planner::words::Units;
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;

use crate::own::enter_car;
use crate::sessions::{after_the_end, ask, change_list, home, nothing_is_offered_after, press, start};
use crate::support::{demo, type_into, usual};

fn change(screen: &mut Harness<'_, Desk>, change: impl FnOnce(&mut Vehicle)) {
    let mut car = Vehicle::clone(screen.state().document().draft().unwrap().car());
    change(&mut car);
    ask(screen, Command::Car(OfCar::Change(Box::new(car))));
}

#[test]
fn a_car_whose_file_someone_else_changed_is_not_replaced() {
    let home = home("car-changed");
    let mut screen = start(&home);
    enter_car(&mut screen);
    let id = screen.state().answer().arrangement.vehicle.id.clone();
    let path = home.join(format!("vehicle-profiles/{id}.ron"));
    ask(&mut screen, Command::Car(OfCar::Begin(Begin::Change)));
    change(&mut screen, |car| car.name = "Mine".into());
    // Somebody mends a figure meanwhile.
    let theirs = std::fs::read_to_string(&path).unwrap().replace("4300", "4310");
    assert!(theirs.contains("4310"));
    std::fs::write(&path, &theirs).unwrap();
    ask(&mut screen, Command::Car(OfCar::Keep));
    assert!(screen.query_by_label_contains("someone else changed").is_some());
    assert_eq!(std::fs::read_to_string(&path).unwrap(), theirs);
    // The way out that the sentence names.
    change(&mut screen, |car| car.id = "mine".into());
    ask(&mut screen, Command::Car(OfCar::Keep));
    assert!(screen.state().document().draft().is_none());
    assert_eq!(std::fs::read_to_string(&path).unwrap(), theirs);
    assert_eq!(screen.state().answer().arrangement.vehicle.name, "Mine");
    crate::support::clear(home);
}

/// A car whose file somebody removed: what stands on it stays, it is said, and one press writes it again.
#[test]
fn a_car_whose_file_is_gone_is_said_to_be_gone() {
    let home = home("car-gone");
    let mut screen = start(&home);
    enter_car(&mut screen);
    let id = screen.state().answer().arrangement.vehicle.id.clone();
    let path = home.join(format!("vehicle-profiles/{id}.ron"));
    let before = screen.state().answer().assessment.clone();
    // The whole folder is.
    std::fs::remove_dir_all(path.parent().unwrap()).unwrap();
    screen.event(egui::Event::WindowFocused(true));
    screen.run();
    screen.get_by_label_contains(
        "is not there any more: it was removed, moved or renamed. What is here still has",
    );
    assert_eq!(screen.state().answer().assessment, before);
    // The bay is saved, and says what is not found from there.
    let bay = home.join("bay-layouts/bay.ron");
    std::fs::create_dir_all(home.join("bay-layouts")).unwrap();
    ask(&mut screen, Command::File(OfFile::SaveAs(bay.clone(), false)));
    screen.get_by_label_contains("is not found");
    assert!(bay.exists());
    // It goes by its own name still, and is not taken for a shipped one.
    ask(&mut screen, Command::Car(OfCar::Begin(Begin::Change)));
    assert_eq!(screen.state().document().draft().unwrap().car().id, id);
    change(&mut screen, |car| car.name = "Mine".into());
    ask(&mut screen, Command::Car(OfCar::Keep));
    screen.get_by_label_contains(&format!("{} is not there any more", path.display()));
    assert!(screen.query_by_label_contains("Someone else").is_none() && !path.exists());
    press(&mut screen, "Go on entering it");
    assert!(screen.state().document().draft().is_some());
    press(&mut screen, "Keep this car");
    press(&mut screen, "Save it there again");
    assert!(screen.state().document().draft().is_none() && path.exists());
    assert_eq!(screen.state().answer().arrangement.vehicle.name, "Mine");
    assert_eq!(screen.state().answer().arrangement.vehicle.id, id);
    // Somebody else's figures are told as well.
    let theirs = std::fs::read_to_string(&path).unwrap().replace("4300", "4310");
    std::fs::write(&path, theirs).unwrap();
    screen.event(egui::Event::WindowFocused(true));
    screen.run();
    screen.get_by_label_contains("Someone else changed the file of the car “Mine”");
    crate::support::clear(home);
}

#[test]
fn an_aiming_that_another_arrangement_needs_is_not_renamed_away() {
    let home = home("car-needed");
    let mut screen = start(&home);
    enter_car(&mut screen);
    // Both arrangements show the car from now on.
    ask(&mut screen, Command::Bay(OfBay::Duplicate));
    std::fs::create_dir_all(home.join("bay-layouts")).unwrap();
    let bay = home.join("bay-layouts/bay.ron");
    ask(&mut screen, Command::File(OfFile::SaveAs(bay.clone(), false)));
    let aiming = screen.state().answer().arrangement.aiming.id.clone();
    ask(&mut screen, Command::Car(OfCar::Begin(Begin::Change)));
    change(&mut screen, |car| car.rename_aiming(0, "after a new radar".into()));
    ask(&mut screen, Command::Car(OfCar::Keep));
    assert!(screen.state().document().draft().is_some());
    assert!(screen.query_by_label_contains(&format!("needs “{aiming}” of this car")).is_some());
    assert!(crate::support::desk(&bay, None).answer().arrangement.aiming.id == aiming, "it still opens");
    crate::support::clear(home);
}

#[test]
fn the_source_of_the_short_form_is_that_of_all_its_figures() {
    let home = home("car-source");
    let mut screen = start(&home);
    ask(&mut screen, Command::Car(OfCar::Begin(Begin::New)));
    screen.get_by_label("Where these figures come from").click();
    screen.run();
    press(&mut screen, "measured");
    type_into(&mut screen, "Measured by", "the front desk");
    for (label, typed) in [("Length", "4850"), ("Wheelbase", "3100"), ("Front overhang", "905")] {
        type_into(&mut screen, label, typed);
    }
    press(&mut screen, "Keep this car");
    let arrangement = &screen.state().answer().arrangement;
    let measured = Provenance::Measured { by: "the front desk".into(), date: None };
    assert_eq!(arrangement.vehicle.provenance, measured);
    assert_eq!((&arrangement.sensor.provenance, &arrangement.aiming.provenance), (&measured, &measured));
    // What follows from what was entered is not called assumed.
    assert_eq!(arrangement.vehicle.overhang_rear_mm, 845.0);
    let assumed = arrangement.vehicle.guessed();
    assert!(!assumed.iter().any(|figure| *figure == BodyPart::OverhangRear.into()), "{assumed:?}");
    assert!(assumed.iter().any(|figure| *figure == BodyPart::Width.into()));
    crate::support::clear(home);
}

#[test]
fn a_typed_distance_stays_that_of_its_wall_and_enter_leads_on() {
    let mut screen = usual(demo());
    ask(&mut screen, Command::View(OfView::Select(Some(Subject::Thing("waste bin".into())))));
    let (first, second) = ("from neighbour's wall", "from office wall");
    type_into(&mut screen, first, "4900");
    // Nearer to the wall across by now, it is still told from this one; the keyboard stands in the next field.
    screen.get_by_label(first);
    screen.event(egui::Event::Text("8000".into()));
    screen.step();
    screen.key_press(egui::Key::Enter);
    screen.run();
    screen.get_by_label(second);
    let bay = &screen.state().answer().arrangement.bay;
    let bin = bay.things.iter().find(|own| own.id.as_str() == "waste bin").unwrap().prism().outline.bounds();
    let room = bay.room.bounds();
    assert!((room.high.x - bin.high.x - 8_000.0).abs() < 1e-6, "{bin:?}");
    assert!((room.high.y - bin.high.y - 4_900.0).abs() < 1e-6, "{bin:?}");
}

#[test]
fn a_bay_that_is_saved_by_a_bare_name_lies_beside_the_open_one_and_opens_by_it() {
    let home = home("bare");
    let mut screen = start(&home);
    ask(&mut screen, Command::File(OfFile::SaveAs(home.join("first.ron"), false)));
    ask(&mut screen, Command::File(OfFile::SaveAs("Back bay".into(), false)));
    assert_eq!(screen.state().document().path(), Some(home.join("Back bay.ron").as_path()));
    ask(&mut screen, Command::File(OfFile::Open("first".into())));
    assert_eq!(screen.state().document().path(), Some(home.join("first.ron").as_path()));
    ask(&mut screen, Command::File(OfFile::Open("Back bay".into())));
    assert_eq!(screen.state().document().path(), Some(home.join("Back bay.ron").as_path()));
    crate::support::clear(home);
}

#[test]
fn escape_closes_a_menu_and_nothing_else() {
    let mut screen = usual(demo());
    ask(&mut screen, Command::View(OfView::Select(Some(Subject::Car))));
    screen.get_by_label_contains("Bay: ").click();
    screen.run();
    screen.get_by_label("Draw a new bay …");
    screen.key_press(egui::Key::Escape);
    screen.run();
    assert!(screen.query_by_label("Draw a new bay …").is_none());
    assert_eq!(screen.state().view().selected, Some(Subject::Car));
}

#[test]
fn walls_are_typed_as_they_are_called_out() {
    let mut screen = usual(demo());
    ask(&mut screen, Command::File(OfFile::BeginBay));
    press(&mut screen, "Wall by wall");
    for typed in ["9000", "90", "4000", "90", "3000", "-90", "3000", "90", "6000", "90", "7000", ""] {
        if !typed.is_empty() {
            screen.event(egui::Event::Text(typed.into()));
            screen.step();
        }
        screen.key_press(egui::Key::Enter);
        screen.run();
    }
    screen.get_by_label("It closes.");
    press(&mut screen, "Make this bay");
    assert_eq!(screen.state().document().layout().bay.walls.len(), 6);
}

#[test]
fn a_room_that_is_half_typed_is_offered_after_a_crash() {
    let home = home("half-room");
    let mut screen = start(&home);
    ask(&mut screen, Command::File(OfFile::BeginBay));
    press(&mut screen, "Wall by wall");
    type_into(&mut screen, "Name of the bay", "Back bay");
    for (wall, length) in [(1, "11500"), (2, "6000")] {
        type_into(&mut screen, &format!("Wall {wall}, Length"), length);
    }
    screen.state_mut().wait_until_kept();
    // The program dies with its window.
    drop(screen);
    let mut screen = after_the_end(&home);
    press(&mut screen, "Open it again: A bay that was begun: Back bay");
    let Some(Page::NewBay(NewBay { room, .. })) = screen.state().view().page() else { panic!("not shown") };
    let lengths: Vec<&str> = room.walls.iter().map(|wall| wall.length.as_str()).collect();
    assert_eq!(
        (room.name.as_str(), room.taped, &lengths[..2]),
        ("Back bay", true, &["11\u{202f}500 mm", "6\u{202f}000 mm"][..])
    );
    // Emptied, it is nothing to be kept any more.
    press(&mut screen, "Begin anew");
    ask(&mut screen, Command::Page(None));
    nothing_is_offered_after(screen, home);
}

/// The program dies with work on a file in hand.
fn died_over(home: &Path) -> PathBuf {
    let mut screen = start(home);
    let path = home.join("mine.ron");
    ask(&mut screen, Command::File(OfFile::SaveAs(path.clone(), false)));
    ask(&mut screen, Command::View(OfView::Select(Some(Subject::Thing("waste bin".into())))));
    type_into(&mut screen, "from neighbour's wall", "4900");
    screen.state_mut().wait_until_kept();
    path
}

fn take_up_bay(home: &Path) -> Harness<'static, Desk> {
    let mut screen = after_the_end(home);
    screen.get_by_label_contains("Open it again: Bay: ").click();
    screen.run();
    screen
}

#[test]
fn work_taken_up_is_not_saved_over_what_someone_else_wrote_since() {
    let home = home("changed-since");
    let path = died_over(&home);
    let theirs = std::fs::read_to_string(&path).unwrap().replace("waste bin", "paper bin");
    std::fs::write(&path, &theirs).unwrap();
    let mut screen = take_up_bay(&home);
    ask(&mut screen, Command::File(OfFile::Save));
    assert_eq!(screen.state().view().page(), Some(&Page::Ask(Question::ChangedOnDisk)));
    assert_eq!(std::fs::read_to_string(&path).unwrap(), theirs);
    // Crashed and taken up once more, it is asked still.
    screen.state_mut().wait_until_kept();
    drop(screen);
    let mut screen = take_up_bay(&home);
    ask(&mut screen, Command::File(OfFile::Save));
    assert_eq!(screen.state().view().page(), Some(&Page::Ask(Question::ChangedOnDisk)));
    ask(&mut screen, Command::File(OfFile::SaveOver));
    assert!(!std::fs::read_to_string(&path).unwrap().contains("paper bin"));
    nothing_is_offered_after(screen, home);
}

#[test]
fn work_taken_up_is_saved_where_nobody_else_wrote() {
    let home = home("unchanged-since");
    let path = died_over(&home);
    let mut screen = take_up_bay(&home);
    ask(&mut screen, Command::File(OfFile::Save));
    assert!(screen.state().view().page().is_none() && !screen.state().document().is_changed());
    let saved = baywright_files::load_layout(&path).unwrap();
    assert_eq!(saved.arrangements, screen.state().document().layout().arrangements);
    nothing_is_offered_after(screen, home);
}

#[test]
fn a_damaged_journal_is_kept_and_said_with_where_it_lies() {
    let home = home("damaged");
    died_over(&home);
    let journals = home.join("journal");
    let journal = std::fs::read_dir(&journals)
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .find(|path| path.extension().is_some_and(|ending| ending == "journal"))
        .unwrap();
    let mut bytes = std::fs::read(&journal).unwrap();
    *bytes.last_mut().unwrap() ^= 1;
    std::fs::write(&journal, &bytes).unwrap();
    let screen = after_the_end(&home);
    screen.get_by_label_contains(
        "is damaged, or a later version of the program wrote it; it is kept as it is, in ",
    );
    let aside = std::fs::read_dir(&journals)
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .find(|path| path.extension().is_some_and(|ending| ending == "journal-aside"))
        .unwrap();
    screen.get_by_label_contains(&aside.display().to_string());
    assert_eq!(std::fs::read(aside).unwrap(), bytes);
    drop(screen);
    crate::support::clear(home);
}

#[test]
fn the_note_leads_to_each_of_the_figures_that_are_invented() {
    for row in ["The car's body: ", "Its sensor: ", "The aiming: "] {
        let mut screen = usual(demo());
        press(&mut screen, "on example figures");
        assert_eq!(screen.state().view().page(), Some(&Page::Examples));
        screen.get_by_label_contains(&format!("Enter your own: {row}")).click();
        screen.run();
        assert_eq!(screen.state().view().page(), None);
        assert!(screen.state().document().draft().is_some(), "{row}");
        assert!(screen.state().view().car.whole, "{row}");
        assert_eq!(screen.state().view().car.lead, None, "{row}: brought into sight");
    }
    let mut screen = usual(demo());
    press(&mut screen, "on example figures");
    screen.get_by_label_contains("Enter your own: The bay: Crowded bay").click();
    screen.run();
    assert_eq!(screen.state().view().selected, Some(Subject::Floor));
    screen.get_by_label_contains("Name of the bay");
}

#[test]
fn a_low_ceiling_is_put_in_and_its_underside_is_typed() {
    let mut screen = usual(demo());
    press(&mut screen, "+ Add");
    press(&mut screen, "low ceiling");
    let own =
        |screen: &Harness<'_, Desk>| screen.state().answer().arrangement.bay.things.last().unwrap().clone();
    let low = own(&screen);
    assert_eq!((low.id.as_str(), low.span.top()), ("low ceiling", 3_000.0));
    type_into(&mut screen, "underside", "400");
    assert_eq!(own(&screen).span.bottom(), 400.0);
    // So low, it would be in the way of the sight on the plate.
    assert!(crate::support::blames(&screen, "low ceiling", "sight-blocked"));
}

/// A shop's list of work is kept while it is changed, offered after the end, and settled when it is saved.
#[test]
fn the_list_of_work_survives_the_end_of_the_program() {
    let home = home("list of work");
    let mut screen = start(&home);
    change_list(&mut screen);
    drop(screen);
    let mut screen = after_the_end(&home);
    assert!(screen.query_all_by_label_contains("List of work: ").next().is_some());
    ask(&mut screen, Command::File(OfFile::TakeUp(0)));
    let Some(Page::Visit(page)) = screen.state().view().page() else { panic!() };
    assert!(page.changing && page.list.triggers[0].title == "Roof box taken off");
    let list = page.list.clone();
    ask(&mut screen, Command::File(OfFile::KeepTriggers(Box::new(list))));
    nothing_is_offered_after(screen, home);
}

/// What another window made of the list meanwhile is not replaced before that was told, and what was typed here stays.
#[test]
fn a_list_of_work_that_someone_else_changed_is_not_replaced_unseen() {
    let home = home("list-changed");
    let mut screen = start(&home);
    let begin = |screen: &mut Harness<'_, Desk>, title: &str| {
        ask(screen, Command::BeginVisit);
        let Some(Page::Visit(page)) = screen.state_mut().view_mut().page_mut() else { panic!() };
        page.changing = true;
        page.list.triggers[0].title = title.to_owned();
        page.list.clone()
    };
    let ours = begin(&mut screen, "Roof box taken off");
    let path = home.join("triggers.ron");
    let mut theirs = ours.clone();
    theirs.triggers[0].title = "Tow bar fitted".to_owned();
    baywright_files::save_triggers(&path, &theirs).unwrap();
    let there = || baywright_files::load_triggers(&path).unwrap();
    ask(&mut screen, Command::File(OfFile::KeepTriggers(Box::new(ours.clone()))));
    assert!(screen.query_by_label_contains("Someone else changed the shop's list of work").is_some());
    assert_eq!(there(), theirs);
    let Some(Page::Visit(page)) = screen.state().view().page() else { panic!() };
    assert!(page.changing && page.list == ours);
    ask(&mut screen, Command::File(OfFile::KeepTriggers(Box::new(ours.clone()))));
    assert_eq!(there(), ours);
    drop(screen);
    crate::support::clear(home);
}

#[test]
fn an_offered_bay_is_one_in_every_unit_and_what_was_typed_stays_what_it_was() {
    for (units, length) in
        [(Units::Millimetres, 12_000.0), (Units::Metres, 12_000.0), (Units::FeetInches, 40.0 * 304.8)]
    {
        let mut screen = usual(demo());
        ask(&mut screen, Command::View(OfView::Units(units)));
        ask(&mut screen, Command::File(OfFile::BeginBay));
        press(&mut screen, "Make this bay");
        let size = screen.state().document().layout().bay.room.bounds().size();
        assert!((size.x - length).abs() < 1e-6, "{units:?}: {size}");
    }
    let mut screen = usual(demo());
    ask(&mut screen, Command::File(OfFile::BeginBay));
    type_into(&mut screen, "Length", "13000");
    ask(&mut screen, Command::Page(None));
    ask(&mut screen, Command::View(OfView::Units(Units::Metres)));
    ask(&mut screen, Command::File(OfFile::BeginBay));
    press(&mut screen, "Make this bay");
    let size = screen.state().document().layout().bay.room.bounds().size();
    assert!((size.x - 13_000.0).abs() < 1e-6, "{size}");
}

#[test]
fn work_taken_up_knows_still_by_which_settings_it_was_judged() {
    let home = home("judged-by");
    let mut screen = start(&home);
    let path = home.join("mine.ron");
    ask(&mut screen, Command::File(OfFile::SaveAs(path.clone(), false)));
    let mine = baywright_files::load_layout(&path).unwrap().shop_fingerprint.unwrap();
    let theirs = std::fs::read_to_string(&path).unwrap().replace(&mine, "0123456789abcdef");
    std::fs::write(&path, theirs).unwrap();
    ask(&mut screen, Command::File(OfFile::Open(path)));
    assert!(screen.state().document().was_judged_by_others());
    ask(&mut screen, Command::View(OfView::Select(Some(Subject::Thing("waste bin".into())))));
    type_into(&mut screen, "from neighbour's wall", "4900");
    screen.state_mut().wait_until_kept();
    drop(screen);
    let screen = take_up_bay(&home);
    assert!(screen.state().document().was_judged_by_others());
    drop(screen);
    // What keeps may be at its last note still.
    crate::support::clear(home);
}

/// A bay, and the car that was being entered in it, are two works: both are taken up, one after the other.
#[test]
fn a_bay_and_the_car_that_was_entered_in_it_are_both_taken_up() {
    let home = home("two-works");
    let mut screen = start(&home);
    press(&mut screen, "Do all of this");
    ask(&mut screen, Command::Car(OfCar::Begin(Begin::New)));
    type_into(&mut screen, "Name of the car", "Van of the flower shop");
    screen.state_mut().wait_until_kept();
    let moved = screen.state().document().saved_arrangement().unwrap().moved.clone();
    drop(screen);
    let mut screen = after_the_end(&home);
    // The car first: the bay would take its place, and that is asked about.
    press(&mut screen, "Open it again: Car: Van of the flower shop");
    press(&mut screen, "Open it again: Bay: Crowded bay");
    assert_eq!(screen.state().view().page(), Some(&Page::Ask(Question::DropCar)));
    press(&mut screen, "Go on entering it");
    // The list is there again until it is closed.
    press(&mut screen, "Close");
    assert_eq!(screen.state().document().draft().unwrap().car().name, "Van of the flower shop");
    press(&mut screen, "Keep this car");
    // The page is come back to from the menu; what was changed in the bay meanwhile is asked about too.
    ask(&mut screen, Command::Bay(OfBay::Duplicate));
    screen.get_by_label_contains("Bay: ").click();
    screen.run();
    press(&mut screen, "Work that was not saved");
    press(&mut screen, "Open it again: Bay: Crowded bay");
    assert_eq!(screen.state().view().page(), Some(&Page::Ask(Question::Unsaved(Leaving::TakeUp(0)))));
    press(&mut screen, "Do not save");
    assert_eq!(screen.state().document().saved_arrangement().unwrap().moved, moved);
    assert!(screen.state().view().page().is_none(), "nothing is left");
    drop(screen);
    // What keeps may be at its last note still.
    crate::support::clear(home);
}

/// A car that is known by a short name of its own and was being changed when the program died is changed where it lies, unless
/// somebody else wrote to its file since: then it needs another name, and theirs stays.
#[test]
fn a_car_taken_up_is_changed_where_it_lies() {
    for is_theirs in [false, true] {
        let home = home(&format!("car-taken-up-{is_theirs}"));
        let mut screen = start(&home);
        enter_car(&mut screen);
        let id = screen.state().answer().arrangement.vehicle.id.clone();
        let path = home.join(format!("vehicle-profiles/{id}.ron"));
        ask(&mut screen, Command::Car(OfCar::Begin(Begin::Change)));
        change(&mut screen, |car| car.name = "A long name of mine".into());
        screen.state_mut().wait_until_kept();
        drop(screen);
        let was = std::fs::read_to_string(&path).unwrap();
        let theirs = was.replace("4300", "4310");
        assert!(theirs != was);
        if is_theirs {
            std::fs::write(&path, &theirs).unwrap();
        }
        let mut screen = after_the_end(&home);
        assert!(screen.query_by_label_contains(&path.display().to_string()).is_some(), "where it lies");
        press(&mut screen, "Open it again: Car: A long name of mine");
        let draft = screen.state().document().draft().unwrap();
        assert_eq!(draft.car().id, id);
        ask(&mut screen, Command::Car(OfCar::Keep));
        let now = std::fs::read_to_string(&path).unwrap();
        if is_theirs {
            assert!(screen.state().document().draft().is_some(), "it is still being entered");
            assert_eq!(now, theirs);
        } else {
            assert!(now.contains("A long name of mine"), "{now}");
        }
        let files = std::fs::read_dir(home.join("vehicle-profiles")).unwrap();
        assert_eq!(files.count(), 1, "no second file");
        drop(screen);
        crate::support::clear(home);
    }
}

#[test]
fn what_was_not_saved_is_offered_after_a_crash() {
    let home = home("crash");
    let mut screen = start(&home);
    press(&mut screen, "Do all of this");
    screen.state_mut().wait_until_kept();
    let moved = screen.state().document().saved_arrangement().unwrap().moved.clone();
    // The program dies with its window.
    drop(screen);
    let mut screen = after_the_end(&home);
    assert!(!screen.state().document().is_changed());
    press(&mut screen, "Open it again: Bay: Crowded bay");
    assert!(screen.state().document().is_changed(), "it is on no disk yet");
    assert_eq!(screen.state().document().saved_arrangement().unwrap().moved, moved);
    // Saved, it is offered no more.
    ask(&mut screen, Command::File(OfFile::SaveAs(home.join("bay.ron"), false)));
    nothing_is_offered_after(screen, home);
}

#[test]
fn a_second_window_on_one_file_is_told() {
    let home = home("two");
    let mut first = start(&home);
    ask(&mut first, Command::File(OfFile::SaveAs(home.join("bay.ron"), false)));
    let mut desk = crate::support::desk(&home.join("bay.ron"), None);
    desk.live_in(home.clone());
    desk.keep_everything();
    let second = usual(desk);
    assert!(second.query_by_label_contains("open in another window too").is_some());
    drop(first);
    drop(second);
    crate::support::clear(home);
}

/// A page of its own over what is typed on another one, and closing the page, put aside what was typed there: a bay that was begun,
/// a list of work that was changed.
#[test]
fn what_is_typed_on_a_page_is_put_aside_and_not_dropped() {
    let home = home("put-aside");
    let mut screen = start(&home);
    press(&mut screen, "Do all of this");
    assert!(screen.state().document().is_changed());
    ask(&mut screen, Command::File(OfFile::BeginBayAnyway));
    type_into(&mut screen, "Name of the bay", "Back bay");
    // The window is asked to close: a question lies over the page then.
    ask(&mut screen, Command::Quit);
    press(&mut screen, "Go on with it");
    let name = |screen: &Harness<'_, Desk>| match screen.state().view().page() {
        Some(Page::NewBay(open)) => Some(open.room.name.clone()),
        _ => None,
    };
    assert_eq!(name(&screen).as_deref(), Some("Back bay"));
    ask(&mut screen, Command::Page(None));
    ask(&mut screen, Command::BeginVisit);
    let changed = |screen: &Harness<'_, Desk>| match screen.state().view().page() {
        Some(Page::Visit(open)) => open.list.triggers[0].title == "Roof box taken off",
        _ => false,
    };
    press(&mut screen, "Change this list");
    type_into(&mut screen, "Work 1, name", "Roof box taken off");
    ask(&mut screen, Command::Page(None));
    ask(&mut screen, Command::BeginVisit);
    assert!(changed(&screen), "the list that was changed is there again");
    ask(&mut screen, Command::Page(None));
    // Both are asked about before the program closes, the bay that is open last.
    ask(&mut screen, Command::Quit);
    screen.get_by_label_contains("the list of work is not kept yet");
    press(&mut screen, "Close without it");
    screen.get_by_label_contains("The bay that was begun is not made yet");
    press(&mut screen, "Close without it");
    press(&mut screen, "Stay here");
    assert!(screen.state().document().is_changed());
    ask(&mut screen, Command::File(OfFile::BeginBayAnyway));
    assert_ne!(name(&screen).as_deref(), Some("Back bay"), "it was dropped");
    crate::support::clear(home);
}

/// A bay with a car that lies beside it, saved in another place, cannot be opened there without that car: that is said.
#[test]
fn a_bay_that_is_saved_away_from_its_car_says_so() {
    let home = home("away-from-its-car");
    let layout = with_car_beside(&home);
    let mut desk = crate::support::desk(&layout, None);
    desk.live_in(home.clone());
    let mut screen = usual(desk);
    let told = |screen: &Harness<'_, Desk>| screen.state().view().notice.clone().unwrap();
    ask(&mut screen, Command::File(OfFile::SaveAs(layout.with_file_name("other.ron"), false)));
    assert!(!told(&screen).wrong, "{:?}", told(&screen));
    std::fs::create_dir_all(home.join("elsewhere/bays")).unwrap();
    let away = home.join("elsewhere/bays/mine.ron");
    ask(&mut screen, Command::File(OfFile::SaveAs(away.clone(), false)));
    assert!(told(&screen).wrong && told(&screen).text.contains("“our-car”"), "{:?}", told(&screen));
    assert!(baywright_files::open(&away, crate::support::today()).is_err(), "so it is");
    // Put where it is looked for, it is found, and nothing is said.
    std::fs::create_dir_all(home.join("elsewhere/vehicle-profiles")).unwrap();
    let car = Path::new("vehicle-profiles/our-car.ron");
    std::fs::copy(home.join("shop").join(car), home.join("elsewhere").join(car)).unwrap();
    ask(&mut screen, Command::File(OfFile::Save));
    assert!(!told(&screen).wrong, "{:?}", told(&screen));
    crate::support::clear(home);
}

/// What was said of saving is there still when what was to follow it is done.
#[test]
fn a_warning_of_saving_is_read_after_another_bay_was_opened() {
    let home = home("warned-on-the-way");
    let layout = with_car_beside(&home);
    let mut desk = crate::support::desk(&layout, None);
    desk.live_in(home.clone());
    let mut screen = usual(desk);
    press(&mut screen, "Do all of this");
    std::fs::create_dir_all(home.join("elsewhere/bays")).unwrap();
    let other = Path::new(env!("CARGO_MANIFEST_DIR")).join("bay-layouts/crowded-bay.ron");
    let said = |screen: &Harness<'_, Desk>| screen.state().view().notice.clone();
    ask(&mut screen, Command::File(OfFile::Open(other.clone())));
    // Its car is gone from beside it: what is saved cannot be opened without.
    std::fs::remove_dir_all(home.join("shop/vehicle-profiles")).unwrap();
    press(&mut screen, "Save first");
    assert_eq!(screen.state().document().path(), Some(other.as_path()), "what followed is done");
    let told = said(&screen).unwrap();
    assert!(told.wrong && told.text.contains("“our-car”"), "{told:?}");
    screen.get_by_label_contains("“our-car”");
    // It goes with the next change of the work, as everything that was said does.
    press(&mut screen, "Do all of this");
    assert_eq!(said(&screen), None);
    // Work that was left is said to be saved, and that is said still once the next bay is open.
    ask(&mut screen, Command::File(OfFile::SaveAs(home.join("mine.ron"), false)));
    press(&mut screen, "Undo");
    ask(&mut screen, Command::File(OfFile::Open(other)));
    press(&mut screen, "Save first");
    assert!(
        said(&screen).is_some_and(|told| !told.wrong && told.text.contains("mine.ron")),
        "{:?}",
        said(&screen)
    );
    crate::support::clear(home);
}

/// The demo bay in a folder of its own, its first set-up with a car, "our-car", whose file lies beside it.
fn with_car_beside(home: &Path) -> PathBuf {
    let beside = home.join("shop/vehicle-profiles");
    std::fs::create_dir_all(home.join("shop/bay-layouts")).unwrap();
    std::fs::create_dir_all(&beside).unwrap();
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let car = root.join("vehicle-profiles/example-hatchback-small.ron");
    std::fs::copy(car, beside.join("our-car.ron")).unwrap();
    let bay = std::fs::read_to_string(root.join("bay-layouts/crowded-bay.ron")).unwrap();
    let layout = home.join("shop/bay-layouts/mine.ron");
    std::fs::write(&layout, bay.replace("\"example-hatchback-small\"", "\"our-car\"")).unwrap();
    layout
}

/// A car whose file lies beside the layout is changed there, and that is where it is said to be kept.
#[test]
fn a_car_is_said_to_be_kept_where_its_file_lies() {
    let home = home("kept-where");
    let layout = with_car_beside(&home);
    let mut desk = crate::support::desk(&layout, None);
    desk.live_in(home.clone());
    let mut screen = crate::support::usual(desk);
    ask(&mut screen, Command::Car(OfCar::Begin(Begin::Change)));
    change(&mut screen, |car| car.name = "Another name".to_owned());
    ask(&mut screen, Command::Car(OfCar::Keep));
    assert!(screen.state().document().draft().is_none());
    let id = screen.state().answer().arrangement.vehicle.id.clone();
    let told = screen.state().view().notice.clone().unwrap().text;
    let file = told.split_once(": ").map(|(_, file)| PathBuf::from(file)).unwrap();
    assert_eq!(file.file_stem().unwrap().to_str(), Some(id.as_str()));
    assert!(std::fs::read_to_string(&file).unwrap().contains("Another name"), "{told}");
    crate::support::clear(home);
}
