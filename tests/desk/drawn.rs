//! What is drawn, picked and dragged in the top view beside things and car: zones, marks, corners of the room.

use baywright_desk::screen::Desk;
use baywright_desk::screen::command::{Begin, Command, OfCar, OfView};
use baywright_desk::screen::view::{Drawn, Tool};
use baywright_planner::Subject;
use baywright_planner::model::assumed::AimingPart;
use egui::{Event, Modifiers, Vec2, pos2};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;

use crate::sessions::{ask, home, press, start};
use crate::support::{clear, demo, drag, middle, type_into, usual};

#[test]
fn a_zone_is_drawn_and_a_mark_is_picked_in_the_top_view() {
    let home = home("drawn");
    let mut screen = start(&home);
    ask(&mut screen, Command::Car(OfCar::Begin(Begin::New)));
    // A zone between two places of the drawing, in the car's own frame.
    let drawn = Drawn::Zone { aiming: 0, zone: 0 };
    ask(&mut screen, Command::View(OfView::Tool(Tool::Draw(drawn))));
    let [mark_5, mark_6] = ["mark 5, top view", "mark 6, top view"].map(|label| middle(&screen, label));
    drag(&mut screen, mark_5, mark_6 + Vec2::new(60.0, 0.0));
    let car = screen.state().document().draft().unwrap().car().clone();
    let bounds = car.aimings[0].zones[0].outline.bounds();
    let marks = &screen.state().answer().assessment.scene.marks;
    let from_car = screen.state().answer().arrangement.parked.inverse();
    let corner = from_car * marks[4].at.unwrap();
    assert!(
        (bounds.low.x - corner.x).abs() < 20.0 && (bounds.high.y - corner.y).abs() < 20.0,
        "{bounds:?} {corner}"
    );
    assert!(!car.is_assumed(AimingPart::ClearAside.of(&"forward radar aiming".into())));
    // Mark 7 is half way between 5 and 6; its first mark becomes 3, picked by a press.
    let tool = Tool::PickMark { aiming: 0, step: 6, nth: 0 };
    ask(&mut screen, Command::View(OfView::Tool(tool)));
    let mark_3 = middle(&screen, "mark 3, top view");
    screen.hover_at(mark_3);
    screen.step();
    screen.drag_at(mark_3);
    screen.step();
    screen.drop_at(mark_3);
    screen.run();
    let car = screen.state().document().draft().unwrap().car().clone();
    assert_eq!(car.aimings[0].mark_plan[6].construction.uses(), [2, 5]);
    clear(home);
}

#[test]
fn a_corner_of_the_room_is_dragged_and_an_alcove_is_built() {
    let mut screen = usual(demo());
    ask(&mut screen, Command::View(OfView::ToRoom(true)));
    ask(&mut screen, Command::View(OfView::Select(Some(Subject::Floor))));
    let room = |screen: &Harness<'_, Desk>| screen.state().document().layout().bay.room.clone();
    let before = room(&screen);
    // The corner at the upper right of the paper, found between the walls that meet there.
    let wall =
        |screen: &Harness<'_, Desk>, name: &str| screen.get_by_label(&format!("the {name}, top view")).rect();
    let (above, right) = (wall(&screen, "neighbour's wall"), wall(&screen, "office wall"));
    let corner = pos2(right.left(), above.bottom());
    // Right angles stay: the wall behind moves on with it. Held off by Alt, it is the corner alone.
    for (held, corners) in [(Modifiers::NONE, 2), (Modifiers::ALT, 1)] {
        screen.event(Event::ModifiersChanged(held));
        drag(&mut screen, corner, corner + Vec2::new(-40.0, 0.0));
        screen.event(Event::ModifiersChanged(Modifiers::NONE));
        let after = room(&screen);
        let moved = (0..4).filter(|&i| before.outer()[i].distance(after.outer()[i]) > 1.0).count();
        assert_eq!(moved, corners, "{after:?}");
        assert_eq!(screen.state().undoes().as_deref(), Some("Move a corner of the room"));
        ask(&mut screen, Command::Undo);
        assert_eq!(room(&screen), before);
    }
    // So it is when a wall's length is typed.
    ask(&mut screen, Command::View(OfView::Select(Some(Subject::Wall("yard wall".into())))));
    type_into(&mut screen, "Length", "11000");
    let square = |screen: &Harness<'_, Desk>| {
        let size = room(screen).bounds().size();
        (room(screen).area() - size.x * size.y).abs() < 1.0
    };
    assert!(square(&screen) && (room(&screen).bounds().size().x - 11_000.0).abs() < 1e-6);
    ask(&mut screen, Command::Undo);
    press(&mut screen, "Move only its corner: the next wall goes askew");
    type_into(&mut screen, "Length", "11000");
    assert!(!square(&screen));
    ask(&mut screen, Command::Undo);
    assert_eq!(room(&screen), before);
    // An alcove in the neighbour's wall, by the figures that stand there.
    ask(&mut screen, Command::View(OfView::Select(Some(Subject::Wall("neighbour's wall".into())))));
    press(&mut screen, "Alcove or pier");
    press(&mut screen, "Build it");
    assert_eq!(screen.state().document().layout().bay.walls.len(), 8);
    assert!(room(&screen).area() > before.area());
    ask(&mut screen, Command::Undo);
    assert_eq!(room(&screen), before);
}
