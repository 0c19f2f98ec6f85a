//! What fits where: the list's answers are the core's, in words of their own for each kind; a press draws what was found, another shows
//! it in the bay and is undone; no frame waits for it.

use std::path::Path;
use std::time::{Duration, Instant};

use baywright_desk::screen::Desk;
use baywright_desk::screen::command::{Command, OfBay};
use baywright_desk::screen::page::Page;
use baywright_desk::screen::unbroken;
use baywright_planner::Verdict;
use baywright_planner::edit::Edit;
use baywright_planner::geometry::{DVec2, PlanPose};
use baywright_planner::matrix::{
    Cell, Change, DoorStays, Needs, OfChanges, Place, Purse, Settled, Unlocked, changes_of, doors_that_stay,
    row, settled, smallest, together, unlocked_by_all,
};
use baywright_planner::model::OwnerFigures;
use baywright_planner::words::Language;
use egui::Key;
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT, Queryable};

use crate::on_paper::{settle, type_path};
use crate::sessions::{ask, home};
use crate::support::{clear, desk, press, usual};

fn fits(layout: &str) -> Harness<'static, Desk> {
    let mut screen = usual(desk(Path::new(layout), None));
    screen.key_press(Key::F7);
    screen.step();
    screen.step();
    assert_eq!(screen.state().view().page(), Some(&Page::Fits));
    screen
}

fn until_found(screen: &mut Harness<'_, Desk>) {
    let start = Instant::now();
    while !screen.state().are_fits_found() {
        assert!(start.elapsed() < Duration::from_secs(240), "it never came");
        std::thread::sleep(Duration::from_millis(20));
        screen.step();
    }
    screen.step();
}

fn labels(screen: &Harness<'_, Desk>, part: &str) -> Vec<String> {
    let all = screen.query_all_by_label_contains(part);
    all.filter_map(|own| own.accesskit_node().label()).collect()
}

/// Each cell says what the core answers for its line at its place; below each column stands how many fit there.
#[test]
fn the_cells_are_the_answers_of_the_core() {
    let mut screen = fits("short-bay");
    until_found(&mut screen);
    let found = screen.state().fits_planned().unwrap().clone();
    assert!(!found.is_partial && found.lines.len() > 1);
    let texts = Language::English.fits();
    for (nth, line) in found.lines.iter().enumerate() {
        let own = row(line, &found.places, &found.margin, true, &|| false);
        assert_eq!(found.rows[nth].as_deref(), Some(&own), "{}", line.arrangement.id);
        for (cell, place) in own.cells.iter().zip(found.places.iter()) {
            let word = match cell.as_ref().unwrap() {
                Cell::Fits(own) if !own.meets_margin => texts.tight,
                Cell::Fits(own) if own.verdict == Verdict::Ready => texts.ready,
                Cell::Fits(_) => texts.with_care,
                Cell::AfterMoves { .. } => texts.after_moves,
                Cell::Elsewhere(_) => texts.elsewhere,
                Cell::NoneFound(own) if own.is_everywhere => texts.stopped,
                Cell::NoneFound(_) => texts.none_found,
            };
            let words = baywright_planner::words::Words::new(&line.arrangement, Default::default());
            let label = texts.cell(&words.plan_line(true), &words.fits_place(place), word);
            assert!(screen.query_by_label(&label).is_some(), "{label}");
        }
    }
}

/// A cell's press tells all of it and draws it; shown in the bay its car stands where the cell said, in a set-up of its own where the car
/// stands elsewhere now; one step takes that back.
#[test]
fn a_cell_is_shown_in_the_bay_and_undone() {
    let mut screen = fits("hall");
    until_found(&mut screen);
    let found = screen.state().fits_planned().unwrap().clone();
    // Where the line's car does not stand now.
    let at = found.lines.iter().enumerate().find_map(|(nth, line)| {
        let cells = &found.rows[nth].as_ref()?.cells;
        let place = cells
            .iter()
            .position(|own| matches!(own, Some(Cell::Fits(own)) if own.pose != line.arrangement.parked))?;
        Some((nth, place))
    });
    let (nth, place) = at.unwrap();
    let line = &found.lines[nth];
    let Some(Cell::Fits(stands)) = &found.rows[nth].as_ref().unwrap().cells[place] else { unreachable!() };
    let words = baywright_planner::words::Words::new(&line.arrangement, Default::default());
    let start = format!("{}; {}:", words.plan_line(true), words.fits_place(&found.places[place]));
    let label = labels(&screen, &start).pop().unwrap();
    press(&mut screen, &label);
    let before = screen.state().document().layout().clone();
    press(&mut screen, "Show it in the bay");
    screen.step();
    let desk = screen.state();
    assert!(desk.view().page().is_none());
    assert_eq!(desk.answer().arrangement.parked, stands.pose);
    assert_eq!(desk.answer().arrangement.aiming.id, line.arrangement.aiming.id);
    assert_eq!(desk.answer().assessment.verdict, stands.verdict);
    assert_eq!(desk.document().layout().arrangements.len(), before.arrangements.len() + 1);
    ask(&mut screen, Command::Undo);
    screen.step();
    assert_eq!(**screen.state().document().layout(), *before);
}

/// The page is there in German, in a small window and in large letters; a stop leaves what was found, told as such.
#[test]
fn it_can_be_stopped_and_looked_at_once_more() {
    let mut screen = fits("hall");
    screen.step();
    if screen.query_by_label("Stop").is_some() {
        press(&mut screen, "Stop");
        until_found(&mut screen);
        if screen.state().fits_planned().unwrap().is_partial {
            assert!(screen.query_by_label("Stopped: not all was looked at.").is_some());
            press(&mut screen, "Look again");
            screen.step();
            press(&mut screen, "Stop");
        }
    }
    ask(&mut screen, Command::Page(None));
    screen.step();
    assert!(screen.state().view().page().is_none());
}

/// What was found is a report among the sheets: seen as it will be printed, saved with its table; once the bay is another there is none.
#[test]
fn what_was_found_goes_on_paper() {
    let folder = home("fits-on-paper");
    let mut screen = fits("hall");
    until_found(&mut screen);
    let found = screen.state().fits_planned().unwrap().clone();
    press(&mut screen, "On paper \u{2026}");
    assert_eq!(screen.state().view().page(), Some(&Page::OnPaper));
    settle(&mut screen);
    let pages = screen.state().pages_to_print().unwrap();
    assert!(pages > 1, "{pages}");
    assert!(!labels(&screen, "Owner's report").is_empty());
    let until_there = |screen: &mut Harness<'_, Desk>, file: &Path| {
        let start = Instant::now();
        while !(file.exists() && screen.state().is_paper_settled()) {
            assert!(start.elapsed() < Duration::from_secs(60), "{}", file.display());
            std::thread::sleep(Duration::from_millis(5));
            screen.step();
        }
    };
    let pdf = folder.join("report.pdf");
    type_path(&mut screen, &pdf);
    press(&mut screen, "Save");
    until_there(&mut screen, &pdf);
    assert_eq!(lopdf::Document::load(&pdf).unwrap().get_pages().len(), pages);
    press(&mut screen, "What fits where (CSV)");
    let csv = folder.join("report.csv");
    until_there(&mut screen, &csv);
    let table = std::fs::read_to_string(&csv).unwrap();
    assert!(table.starts_with("set_up,vehicle,aiming,place_kind,place,answer"), "{table}");
    assert!(table.lines().next().unwrap().ends_with(",stops,never"), "{table}");
    assert_eq!(table.lines().count(), 1 + found.lines.len() * found.places.len());
    // Of another bay nothing is found yet, and nothing older is printed for it.
    ask(&mut screen, Command::Page(None));
    let shown = screen.state().answer().arrangement.parked;
    let moved = PlanPose::new(shown.origin() + DVec2::new(10.0, 0.0), shown.heading());
    ask(&mut screen, Command::Bay(OfBay::Edit(Edit::Park(moved))));
    ask(&mut screen, Command::Page(Some(Page::OnPaper)));
    settle(&mut screen);
    assert_eq!(screen.state().pages_to_print(), Some(0));
    drop(screen);
    clear(folder);
}

/// Types into the field of that name, and leaves it.
fn entered(screen: &mut Harness<'_, Desk>, name: &str, text: &str) {
    screen.get_by_label(name).focus();
    screen.step();
    screen.key_press_modifiers(egui::Modifiers::COMMAND, Key::A);
    screen.step();
    screen.get_by_label(name).type_text(text);
    screen.step();
    screen.key_press(Key::Enter);
    screen.step();
    screen.step();
}

fn until_there(screen: &mut Harness<'_, Desk>, part: &str) {
    let start = Instant::now();
    while screen.query_all_by_label_contains(part).next().is_none() {
        assert!(start.elapsed() < Duration::from_secs(240), "it never came: {part}");
        std::thread::sleep(Duration::from_millis(20));
        screen.step();
    }
}

/// What changes unlock together for the sum is what the core finds; their prices can be entered where they unlock none alone; all of it
/// is undone step by step.
#[test]
fn what_can_be_spent_buys_what_the_core_finds() {
    let mut screen = fits("short-bay");
    until_found(&mut screen);
    let texts = Language::English.fits();
    press(&mut screen, texts.buys);
    press(&mut screen, texts.look);
    until_there(&mut screen, texts.only_one);
    assert!(screen.query_by_label(texts.together_needs).is_some(), "nothing is priced yet");
    crate::forms::unfold(&mut screen);
    let found = screen.state().fits_planned().unwrap();
    let at = found.places.len() - 1;
    assert_eq!(found.places[at], Place::Room);
    let now = found.fitting(at);
    let of = OfChanges {
        lines: &found.lines,
        now: &now,
        place: &Place::Room,
        further_mm: 1_000.0,
        margin: &found.margin,
    };
    let bay = &found.lines[0].arrangement.bay;
    let by = baywright_planner::words::Locale::default().length(1_000.0);
    let further = |wall: &str| texts.wall_further(wall, &by);
    let open_onto = |door: &str| texts.open_onto(door, &by);
    for (name, costs) in [
        (further("office wall"), "4000"),
        (further("yard wall"), "4500"),
        (further("street wall"), "500"),
        (texts.without("compressor"), "300"),
        (open_onto("roller door"), "1200"),
    ] {
        let label = Language::English.screen().of(texts.costs_name, &name);
        entered(&mut screen, &label, costs);
    }
    entered(&mut screen, texts.to_spend, "9000");
    let owner = screen.state().document().layout().owner.clone();
    assert_eq!((owner.to_spend, owner.further.len(), owner.without.len()), (Some(9_000.0), 3, 1));
    assert_eq!((owner.open_onto.len(), owner.walled_up.len()), (1, 0));
    // The car comes in by the roller door alone.
    let stays = unbroken(texts.door_stays("roller door", DoorStays::WayIn));
    assert!(screen.query_all_by_label_contains(&stays).next().is_some(), "{stays}");
    press(&mut screen, texts.together_look);
    let look = |changes: &[Change]| unlocked_by_all(&of, changes, &|| false);
    let alone: Vec<Unlocked> = changes_of(bay, &doors_that_stay(&of))
        .into_iter()
        .map(|change| {
            let (lines, is_partial) = look(std::slice::from_ref(&change));
            Unlocked { change, lines, eases: Vec::new(), is_partial }
        })
        .collect();
    let purse = Purse::of(&alone, &owner).unwrap();
    let weight = |nth: usize| found.lines[nth].weight;
    let best = together(&purse, &alone, weight, &mut |sets| {
        sets.iter().map(|set| look(&purse.changes(set))).collect()
    });
    let names: Vec<String> = best
        .changes
        .iter()
        .map(|change| match change {
            Change::Further(wall) => further(wall.as_str()),
            Change::Without(thing) => texts.without(thing.as_str()),
            Change::OpenOnto(door) => open_onto(door.as_str()),
            Change::WalledUp(door) => panic!("to wall up the {door} has no price"),
        })
        .collect();
    let lines: Vec<String> = best
        .lines
        .iter()
        .map(|nth| {
            let line = &found.lines[*nth];
            baywright_planner::words::Words::new(&line.arrangement, Default::default())
                .plan_line(line.is_saved)
        })
        .collect();
    let [names, lines] = [&names, &lines].map(|all| all.iter().map(String::as_str).collect::<Vec<&str>>());
    let wanted = match names.is_empty() {
        true => texts.together_none.to_owned(),
        false => texts.together_are(&names, &format!("{:.0}", best.costs), &lines),
    };
    let start = Instant::now();
    // Whichever spaces hold figures together.
    let unbroken = |text: &str| text.split_whitespace().collect::<String>();
    let is_there = |screen: &Harness<'_, Desk>| {
        let all = screen.query_all_by_label_contains("");
        let told =
            |own: egui_kittest::Node<'_>| own.accesskit_node().label().or(own.accesskit_node().value());
        all.filter_map(told).any(|own| unbroken(&own) == unbroken(&wanted))
    };
    while !is_there(&screen) {
        assert!(start.elapsed() < Duration::from_secs(240), "it never came: {wanted}");
        std::thread::sleep(Duration::from_millis(20));
        screen.step();
    }
    assert!(!best.is_partial && best.costs <= 9_000.0);
    ask(&mut screen, Command::Page(None));
    for _ in 0..6 {
        ask(&mut screen, Command::Undo);
    }
    assert_eq!(screen.state().document().layout().owner, OwnerFigures::default());
}

/// What is in store makes the room larger by what the core says, is the layout's and undone by a step; nothing else is looked at anew.
#[test]
fn what_is_in_store_is_kept_and_undone() {
    let mut screen = fits("short-bay");
    until_found(&mut screen);
    let texts = Language::English.fits();
    press(&mut screen, texts.how_big);
    let before = screen.state().fits_planned().unwrap();
    entered(&mut screen, texts.store, "deep");
    assert_eq!(screen.state().document().layout().owner, OwnerFigures::default());
    entered(&mut screen, texts.store, "0.8 m");
    assert_eq!(screen.state().document().layout().owner.store_mm, Some(800.0));
    screen.step();
    until_found(&mut screen);
    let after = screen.state().fits_planned().unwrap();
    assert!(std::sync::Arc::ptr_eq(&before.lines, &after.lines));
    let needs: Vec<Needs> = after.needs.iter().flatten().cloned().collect();
    let area = |own: &baywright_planner::matrix::Planned| {
        own.room.as_ref().unwrap().smallest.as_ref().unwrap().area()
    };
    assert!((area(&after) - smallest(&needs, 800.0).unwrap().area()).abs() < 1.0);
    assert!(area(&after) > area(&before));
    assert!(!labels(&screen, "in store").is_empty());
    ask(&mut screen, Command::Undo);
    screen.step();
    until_found(&mut screen);
    assert_eq!(screen.state().document().layout().owner, OwnerFigures::default());
    assert_eq!(area(&screen.state().fits_planned().unwrap()), area(&before));
}

/// Where no place was found, choosing the cell has a proof looked for; what is proven changes the word of all cells of the line without a
/// place, and no other's.
#[test]
fn a_chosen_cell_is_told_never_where_that_is_proven() {
    let mut screen = fits("short-bay");
    until_found(&mut screen);
    let found = screen.state().fits_planned().unwrap();
    assert!(found.proven.is_empty(), "nobody asked");
    let texts = Language::English.fits();
    let at = found.places.len() - 1;
    let proven = (0..found.lines.len()).filter(|nth| found.is_found_nowhere(*nth)).find_map(|nth| {
        match settled(&found.lines[nth], &|| false, &mut |_| {}) {
            Settled::Never(short) => Some((nth, short)),
            _ => None,
        }
    });
    let (nth, short) = proven.expect("something never fits in the short bay");
    let words = baywright_planner::words::Words::new(&found.lines[nth].arrangement, Default::default());
    let start = format!("{}; {}:", words.plan_line(true), words.fits_place(&found.places[at]));
    let label = labels(&screen, &start).pop().unwrap();
    press(&mut screen, &label);
    until_found(&mut screen);
    let after = screen.state().fits_planned().unwrap();
    assert_eq!(after.proven.get(&nth), Some(&short));
    let told = words.never_fits(short.as_deref());
    until_there(&mut screen, "It never fits here");
    assert!(told.starts_with("It never fits here"));
    for (line, own) in found.lines.iter().enumerate() {
        for (place, at) in found.places.iter().enumerate() {
            let words = baywright_planner::words::Words::new(&own.arrangement, Default::default());
            let label = texts.cell(&words.plan_line(true), &words.fits_place(at), texts.never);
            assert_eq!(
                screen.query_by_label(&label).is_some(),
                after.never(line, place).is_some(),
                "{label}"
            );
        }
    }
    assert!(after.never(nth, at).is_some());
}

/// What the owner says is the layout's: it weighs the list, is undone by a step, and no check looks at it; what is no number changes nothing.
#[test]
fn what_the_owner_says_is_kept_undone_and_weighs() {
    let mut screen = fits("short-bay");
    until_found(&mut screen);
    let found = screen.state().fits_planned().unwrap().clone();
    let line = &found.lines[0];
    let words = baywright_planner::words::Words::new(&line.arrangement, Default::default());
    let start = format!("{}; {}:", words.plan_line(true), words.fits_place(&found.places[0]));
    let label = labels(&screen, &start).pop().unwrap();
    press(&mut screen, &label);
    let verdict = screen.state().answer().assessment.verdict;
    entered(&mut screen, "comes in so often a month", "many");
    assert_eq!(screen.state().document().layout().owner, OwnerFigures::default());
    entered(&mut screen, "comes in so often a month", "12");
    let own = screen.state().document().layout().owner.clone();
    let arrangement = &line.arrangement;
    assert_eq!(own.a_month(&arrangement.vehicle.id, &arrangement.aiming.id), Some(12.0));
    assert_eq!(screen.state().answer().assessment.verdict, verdict);
    until_found(&mut screen);
    let weighed = screen.state().fits_planned().unwrap();
    // What is several set-ups comes in no more often for that.
    let same = weighed.lines.iter().filter(|own| own.is_same_job(line));
    assert!((same.map(|own| own.weight).sum::<f64>() - 12.0).abs() < 1e-9);
    assert!(weighed.is_weighted() && !found.is_weighted());
    assert_eq!(weighed.rows, found.rows, "what fits where does not hang on it");
    press(&mut screen, "How big a room");
    // A price changes no answer: nothing is looked at anew for it.
    let before = weighed_lines(&screen);
    entered(&mut screen, "Price of a square metre", "900");
    assert!(screen.state().are_fits_found());
    assert!(std::sync::Arc::ptr_eq(&before, &weighed_lines(&screen)));
    let room = screen.state().fits_planned().unwrap().room.clone().unwrap();
    if let Some(room) = &room.smallest {
        let sum = format!("It costs {:.0} at that price.", 900.0 * room.area() * 1e-6);
        assert!(screen.query_by_label(&sum).is_some(), "{sum}");
    }
    ask(&mut screen, Command::Page(None));
    assert!(screen.state().undoes().is_some());
    ask(&mut screen, Command::Undo);
    ask(&mut screen, Command::Undo);
    assert_eq!(screen.state().document().layout().owner, OwnerFigures::default());
}

fn weighed_lines(screen: &Harness<'_, Desk>) -> std::sync::Arc<[baywright_planner::matrix::Line]> {
    std::sync::Arc::clone(&screen.state().fits_planned().unwrap().lines)
}
