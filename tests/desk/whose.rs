//! Whose a thing is: the bay's in every set-up, or one set-up's alone; and where what is added goes.

use std::path::Path;

use baywright_desk::screen::Desk;
use baywright_desk::screen::command::{Command, OfBay, OfView, Part};
use baywright_planner::Subject;
use baywright_planner::edit::Edit;
use baywright_planner::geometry::contain::holds;
use baywright_planner::geometry::overlap::overlaps;
use baywright_planner::geometry::{DVec2, Outline, PlanPose, Polygon};
use baywright_planner::model::{FloorFeatureKind, Id, Known, Layout, Opening, OpeningKind, Place, ThingKind};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;

use crate::sessions::{ask, press};
use crate::support::{demo, desk, usual};
use crate::typing::{happen, letters};

fn layout(screen: &Harness<'_, Desk>) -> Layout {
    Layout::clone(screen.state().document().layout())
}

fn at_home(layout: &Layout, name: &str) -> bool {
    layout.bay.things.iter().any(|own| own.id.as_str() == name)
}

fn add(screen: &mut Harness<'_, Desk>, name: &str) {
    press(screen, "+ Add");
    press(screen, name);
}

#[test]
fn a_pillar_is_the_bays_and_a_bench_is_the_set_ups() {
    let mut screen = usual(demo());
    assert!(layout(&screen).arrangements.len() > 1);
    let before = layout(&screen);
    add(&mut screen, "bench");
    let with = layout(&screen);
    let bench = with.arrangements[0].added.last().unwrap().id.clone();
    assert_eq!(with.bay.things, before.bay.things);
    screen.get_by_label("It is in this set-up alone.");
    // One press puts it into the bay, and one takes it back; each is a step.
    press(&mut screen, "In every set-up");
    assert!(at_home(&layout(&screen), bench.as_str()) && layout(&screen).arrangements[0].added.is_empty());
    let other = layout(&screen).arrangements[1].id.clone();
    ask(&mut screen, Command::Bay(OfBay::Show(other)));
    let there = &screen.state().answer().arrangement.bay.things;
    assert!(there.iter().any(|own| own.id == bench));
    let first = layout(&screen).arrangements[0].id.clone();
    ask(&mut screen, Command::Bay(OfBay::Show(first)));
    ask(&mut screen, Command::View(OfView::Select(Some(Subject::Thing(bench.clone())))));
    press(&mut screen, "In this set-up alone");
    assert_eq!(layout(&screen), with);
    for _ in 0..3 {
        ask(&mut screen, Command::Undo);
    }
    assert_eq!(layout(&screen), before);

    add(&mut screen, "column");
    let with = layout(&screen);
    let pillar = with.bay.things.last().unwrap().clone();
    assert_eq!(with.arrangements, before.arrangements);
    screen.get_by_label_contains("Part of the building: place, size and facts are the bay's");
    // Moved by the hand it is moved in every set-up.
    let place = Place { at: PlanPose::new(DVec2::new(700.0, 700.0), 0.0), known: Known::ByEye };
    ask(&mut screen, Command::Bay(OfBay::Edit(Edit::Place { thing: pillar.id.clone(), place })));
    let moved = layout(&screen);
    assert_eq!(moved.bay.things.last().unwrap().place, place);
    assert_eq!(moved.arrangements, before.arrangements);
}

#[test]
fn what_was_moved_in_one_set_up_is_moved_in_all_by_one_press() {
    let mut screen = usual(demo());
    let before = layout(&screen);
    let trolley = Id::from("trolley");
    ask(&mut screen, Command::View(OfView::Select(Some(Subject::Thing(trolley.clone())))));
    assert!(screen.query_by_label("In every set-up").is_none(), "it is the bay's");
    let place = Place { at: PlanPose::new(DVec2::new(900.0, 900.0), 0.0), known: Known::Taped };
    ask(&mut screen, Command::Bay(OfBay::Edit(Edit::Place { thing: trolley.clone(), place })));
    screen.get_by_label_contains("It stands here in this set-up alone");
    press(&mut screen, "In every set-up");
    let after = layout(&screen);
    assert_eq!(after.bay.things.iter().find(|own| own.id == trolley).unwrap().place, place);
    assert!(after.arrangements[0].moved.iter().all(|own| own.thing != trolley));
    ask(&mut screen, Command::Undo);
    ask(&mut screen, Command::Undo);
    assert_eq!(layout(&screen), before);
}

/// A thing that is fixed is removed from every set-up by one press, which is said, and comes back by one undo.
#[test]
fn what_is_fixed_is_removed_from_every_set_up_by_one_press() {
    let mut screen = usual(demo());
    add(&mut screen, "column");
    let with = layout(&screen);
    let pillar = with.bay.things.last().unwrap().id.clone();
    screen.key_press(egui::Key::Delete);
    screen.run();
    let without = layout(&screen);
    assert!(!at_home(&without, pillar.as_str()));
    assert_eq!(without.arrangements, with.arrangements, "it is away from none of them: it is gone");
    let said = screen.state().view().notice.as_ref().expect("it is said").text.clone();
    assert!(said.to_lowercase().contains(pillar.as_str()) && said.contains("every set-up"), "{said}");
    ask(&mut screen, Command::Undo);
    assert_eq!(layout(&screen), with);
}

/// What is made fixed is in every set-up from there on, as one step, and what another had otherwise is told.
#[test]
fn what_is_made_fixed_is_in_every_set_up_by_one_press() {
    let mut screen = usual(demo());
    add(&mut screen, "bench");
    let with = layout(&screen);
    let bench = with.arrangements[0].added.last().unwrap().id.clone();
    let fix = |screen: &mut Harness<'_, Desk>| {
        screen.get_by_label("to move it").focus();
        screen.run();
        happen(screen, &letters("f"), 1);
        screen.run();
    };
    fix(&mut screen);
    let built = layout(&screen);
    assert!(at_home(&built, bench.as_str()) && built.arrangements[0].added.is_empty());
    screen.get_by_label_contains("Part of the building: place, size and facts are the bay's");
    let said = screen.state().view().notice.as_ref().expect("it is said").text.clone();
    assert!(said.to_lowercase().contains(bench.as_str()) && said.contains("every set-up"), "{said}");
    let other = built.arrangements[1].id.clone();
    ask(&mut screen, Command::Bay(OfBay::Show(other.clone())));
    assert!(screen.state().answer().arrangement.bay.things.iter().any(|own| own.id == bench));
    let first = built.arrangements[0].id.clone();
    ask(&mut screen, Command::Bay(OfBay::Show(first.clone())));
    ask(&mut screen, Command::Undo);
    assert_eq!(layout(&screen), with);
    // One that is away in another set-up is there again, and that is told.
    let trolley = Id::from("trolley");
    ask(&mut screen, Command::Bay(OfBay::Show(other.clone())));
    ask(&mut screen, Command::Bay(OfBay::Edit(Edit::Remove(trolley.clone()))));
    ask(&mut screen, Command::Bay(OfBay::Show(first)));
    let before = layout(&screen);
    ask(&mut screen, Command::View(OfView::Select(Some(Subject::Thing(trolley.clone())))));
    screen.run();
    fix(&mut screen);
    assert!(layout(&screen).arrangements.iter().all(|own| !own.away.contains(&trolley)));
    let said = screen.state().view().notice.as_ref().expect("it is said").text.clone();
    assert!(said.contains(other.as_str()), "{said}");
    ask(&mut screen, Command::Undo);
    assert_eq!(layout(&screen), before);
}

/// In a room that lies aslant bays lie in it, on whole millimetres, and on no other one as long as there is floor for that.
#[test]
fn bays_lie_in_a_room_that_lies_aslant() {
    let mut screen = usual(demo());
    let mut bay = layout(&screen).bay;
    let middle = bay.room.bounds().centre();
    let turned = PlanPose::new(middle, 0.6);
    let corners = bay.room.outer().iter().map(|own| turned * (*own - middle)).collect();
    bay.room = Polygon::new(corners, Vec::new()).unwrap();
    assert!(bay.bays.is_empty());
    ask(&mut screen, Command::Bay(OfBay::Edit(Edit::Bay { bay: Box::new(bay.clone()), renamed: None })));
    assert_eq!(layout(&screen).bay.room, bay.room, "{:?}", screen.state().view().notice);
    let mut on_another = 0;
    for nth in 1..=30 {
        ask(&mut screen, Command::Bay(OfBay::AddPart(Part::HallBay)));
        let bays = layout(&screen).bay.bays;
        assert_eq!(bays.len(), nth);
        let (own, others) = bays.split_last().unwrap();
        for corner in own.outline.outer() {
            assert_eq!(*corner, corner.round());
        }
        let outline = Outline::from(own.outline.clone());
        assert!(holds(&bay.room, &outline), "{nth}: {outline:?}");
        let lies_on = others.iter().any(|other| overlaps(&other.outline.clone().into(), &outline));
        on_another += usize::from(lies_on);
        assert!(lies_on || on_another == 0, "{nth}: there was floor");
        assert!(nth > 3 || !lies_on, "{nth}");
        if on_another > 1 {
            return;
        }
    }
    panic!("the room was never full");
}

#[test]
fn of_one_set_up_all_is_the_bays() {
    let mut screen = usual(demo());
    while layout(&screen).arrangements.len() > 1 {
        ask(&mut screen, Command::Bay(OfBay::Edit(Edit::RemoveArrangement)));
    }
    let before = layout(&screen);
    add(&mut screen, "bench");
    let with = layout(&screen);
    assert_eq!(
        (with.bay.things.len(), &with.arrangements),
        (before.bay.things.len() + 1, &before.arrangements)
    );
    assert!(screen.query_by_label("In every set-up").is_none(), "there is no other");
    assert!(screen.query_by_label("In this set-up alone").is_none());
    ask(&mut screen, Command::Bay(OfBay::Remove));
    assert_eq!(layout(&screen), before);
}

/// A steel drain lies in no zone that is to be clear of metal, and on no other drain.
#[test]
fn a_drain_is_put_where_it_is_in_nobodys_way() {
    for bay in ["crowded-bay", "clear-bay"] {
        let mut screen = usual(desk(Path::new(bay), None));
        let before = screen.state().answer().assessment.findings.len();
        for _ in 0..2 {
            ask(&mut screen, Command::Bay(OfBay::AddPart(Part::Feature(FloorFeatureKind::Drain))));
        }
        let findings = &screen.state().answer().assessment.findings;
        assert_eq!(findings.len(), before, "{bay}: {findings:?}");
        let features = layout(&screen).bay.floor_features;
        let drains: Vec<Outline> = features.iter().map(|own| own.outline.clone().into()).collect();
        let [.., first, second] = drains.as_slice() else { panic!() };
        assert!(!overlaps(first, second), "{bay}");
    }
}

#[test]
fn a_second_bay_of_a_hall_lies_beside_the_first() {
    let mut screen = usual(demo());
    for _ in 0..3 {
        ask(&mut screen, Command::Bay(OfBay::AddPart(Part::HallBay)));
    }
    let bays: Vec<Outline> = layout(&screen).bay.bays.iter().map(|own| own.outline.clone().into()).collect();
    assert_eq!(bays.len(), 3);
    for (i, one) in bays.iter().enumerate() {
        assert!(bays.iter().take(i).all(|other| !overlaps(one, other)), "{bays:?}");
    }
}

/// What is added where the middle of what is seen is a door's way goes beside it, and a second door beside the first.
#[test]
fn nothing_is_put_before_a_door() {
    let mut screen = usual(demo());
    let doors = layout(&screen).bay;
    for kind in [ThingKind::Bench, ThingKind::Cabinet, ThingKind::Shelf] {
        ask(&mut screen, Command::Bay(OfBay::Add(kind)));
        let bay = screen.state().answer().arrangement.bay.clone();
        let own = bay.things.last().unwrap().prism().outline;
        for door in doors.openings.iter().filter(|own| own.kind != OpeningKind::Window) {
            let (from, to) = bay.wall_ends(door.wall).unwrap();
            let along = (to - from).normalize();
            let (start, end) = (from + along * door.from_mm, from + along * (door.from_mm + door.width_mm));
            let inward = along.perp() * 600.0;
            let before = vec![start, end, end + inward, start + inward];
            let before = baywright_planner::geometry::Polygon::new(before, Vec::new()).unwrap();
            assert!(!overlaps(&own, &before.into()), "{kind:?} before {}", door.id);
        }
    }
    for _ in 0..2 {
        ask(&mut screen, Command::Bay(OfBay::AddPart(Part::Opening(OpeningKind::SwingDoor))));
    }
    let all = layout(&screen).bay.openings;
    assert_eq!(all.len(), doors.openings.len() + 2);
    for (i, one) in all.iter().enumerate() {
        let beside = |other: &&Opening| {
            other.wall != one.wall
                || other.from_mm + other.width_mm <= one.from_mm
                || one.from_mm + one.width_mm <= other.from_mm
        };
        assert!(all.iter().take(i).all(|other| beside(&other)), "{} lies on another", one.id);
    }
}
