//! Looking at the drawing with the habits that people bring.

use baywright_desk::screen::Desk;
use baywright_desk::screen::command::{Command, OfBay, OfView};
use baywright_desk::screen::view::Camera;
use baywright_planner::edit::Edit;
use baywright_planner::geometry::{DVec2, PlanPose};
use egui::{Event, Key, Modifiers, MouseWheelSource, MouseWheelUnit, PointerButton, Pos2, TouchPhase, Vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;

use crate::support::{demo, middle, usual};

fn over_the_drawing() -> (Harness<'static, Desk>, Pos2) {
    let mut screen = usual(demo());
    let at = middle(&screen, "the trolley, top view");
    screen.hover_at(at);
    screen.run();
    (screen, at)
}

fn camera(screen: &Harness<'_, Desk>) -> Option<Camera> {
    screen.state().view().camera
}

fn scroll(screen: &mut Harness<'_, Desk>, unit: MouseWheelUnit, delta: Vec2, modifiers: Modifiers) {
    screen.event(Event::ModifiersChanged(modifiers));
    let source = MouseWheelSource::Unknown;
    screen.event(Event::MouseWheel { unit, delta, phase: TouchPhase::Move, source, modifiers });
    screen.run();
    screen.event(Event::ModifiersChanged(Modifiers::NONE));
    screen.run();
}

#[test]
fn a_wheel_zooms_and_sideways_it_pans() {
    let (mut screen, _) = over_the_drawing();
    scroll(&mut screen, MouseWheelUnit::Line, Vec2::new(0.0, 1.0), Modifiers::NONE);
    let zoomed = camera(&screen).unwrap();
    scroll(&mut screen, MouseWheelUnit::Line, Vec2::new(2.0, 0.0), Modifiers::NONE);
    let panned = camera(&screen).unwrap();
    assert_eq!(panned.px_per_mm, zoomed.px_per_mm);
    // The paper goes to the right: what is in the middle lies further left.
    assert!(panned.top.x < zoomed.top.x && panned.top.y == zoomed.top.y, "{panned:?} {zoomed:?}");
    // With Shift a plain wheel goes sideways.
    scroll(&mut screen, MouseWheelUnit::Line, Vec2::new(0.0, 2.0), Modifiers::SHIFT);
    let shifted = camera(&screen).unwrap();
    assert!(shifted.top.x < panned.top.x && shifted.px_per_mm == panned.px_per_mm);
}

#[test]
fn two_fingers_pan_and_a_pinch_zooms() {
    let (mut screen, _) = over_the_drawing();
    scroll(&mut screen, MouseWheelUnit::Point, Vec2::new(30.0, 40.0), Modifiers::NONE);
    let panned = camera(&screen).unwrap();
    scroll(&mut screen, MouseWheelUnit::Point, Vec2::new(0.0, 40.0), Modifiers::NONE);
    let further = camera(&screen).unwrap();
    assert_eq!(further.px_per_mm, panned.px_per_mm);
    assert!(further.top.y > panned.top.y, "down with the fingers goes the paper");
    screen.event(Event::Zoom(1.5));
    screen.run();
    assert!(camera(&screen).unwrap().px_per_mm > 1.4 * panned.px_per_mm);
    // Ctrl makes zooming of it.
    let before = camera(&screen).unwrap();
    scroll(&mut screen, MouseWheelUnit::Point, Vec2::new(0.0, 40.0), Modifiers::COMMAND);
    assert!(camera(&screen).unwrap().px_per_mm > before.px_per_mm);
}

fn button(screen: &mut Harness<'_, Desk>, at: Pos2, button: PointerButton, pressed: bool) {
    screen.event(Event::PointerButton { pos: at, button, pressed, modifiers: Modifiers::NONE });
    screen.step();
}

#[test]
fn the_middle_button_and_the_right_one_pan_and_escape_puts_back() {
    for which in [PointerButton::Middle, PointerButton::Secondary] {
        let (mut screen, at) = over_the_drawing();
        let before = screen.state().document().layout().clone();
        button(&mut screen, at, which, true);
        screen.hover_at(at + Vec2::new(60.0, 30.0));
        screen.step();
        screen.hover_at(at + Vec2::new(120.0, 30.0));
        screen.step();
        assert!(camera(&screen).is_some(), "{which:?}");
        screen.key_press(Key::Escape);
        screen.step();
        assert_eq!(camera(&screen), None, "{which:?}: put back");
        button(&mut screen, at, which, false);
        screen.run();
        assert_eq!(camera(&screen), None);
        assert!(screen.state().view().menu.is_none(), "a drag is no press");
        assert_eq!(*screen.state().document().layout(), before);
    }
}

#[test]
fn a_double_press_on_empty_paper_and_ctrl_0_show_all() {
    let (mut screen, at) = over_the_drawing();
    scroll(&mut screen, MouseWheelUnit::Line, Vec2::new(0.0, -4.0), Modifiers::NONE);
    assert!(camera(&screen).is_some());
    screen.key_press_modifiers(Modifiers::COMMAND, Key::Num0);
    screen.run();
    assert_eq!(camera(&screen), None);
    scroll(&mut screen, MouseWheelUnit::Line, Vec2::new(0.0, -4.0), Modifiers::NONE);
    assert!(camera(&screen).is_some());
    // The corner of the top view: outside the room.
    let corner = Pos2::new(at.x.min(240.0), at.y.min(170.0));
    screen.hover_at(corner);
    screen.step();
    // A frame of these tests is a quarter of a second, a press and its end have one each: four are too slow for a double press.
    let begun = screen.ctx.input(|i| i.time);
    for (nth, pressed) in (1..).zip([true, false, true, false]) {
        let (button, modifiers) = (PointerButton::Primary, Modifiers::NONE);
        let event = Event::PointerButton { pos: corner, button, pressed, modifiers };
        screen.input_mut().time = Some(begun + 0.02 * f64::from(nth));
        screen.input_mut().events.push(event);
        screen.step();
    }
    screen.input_mut().time = None;
    screen.run();
    assert_eq!(camera(&screen), None, "{:?} at {corner}", screen.state().view().hovered);
}

/// Pressed again and again, a button that zooms stays under the pointer, and the side view keeps the sensor's line in sight.
#[test]
fn zoom_buttons_stay_where_they_are_and_the_sensor_stays_in_sight() {
    let mut screen = usual(demo());
    let place = |screen: &Harness<'_, Desk>, label: &str| screen.get_by_label(label).rect();
    let (larger, smaller) = ("Larger (+)", "Smaller (\u{2212})");
    let before = [place(&screen, larger), place(&screen, smaller)];
    for label in [[larger; 8], [smaller; 8]].concat() {
        screen.get_by_label(label).click();
        screen.run();
        assert_eq!([place(&screen, larger), place(&screen, smaller)], before);
        let height = screen.state().answer().assessment.scene.sensor();
        let (side, _) = screen.state().drawings().last().unwrap();
        let px = side.paper_point_of(height);
        assert!(px.y > 20.0 && px.y < side.size.y - 20.0, "{px} of {}", side.size);
    }
}

/// On a paper that lies as the room lies a car that stands the other way round is seen from its left: both views run one way,
/// and everything stands under itself.
#[test]
fn both_views_run_one_way_as_the_room_lies() {
    let mut screen = usual(demo());
    let ctx = screen.ctx.clone();
    let turned = PlanPose::new(DVec2::new(8_000.0, 3_000.0), std::f64::consts::PI);
    screen.state_mut().ask(&ctx, Command::Bay(OfBay::Edit(Edit::Park(turned))));
    screen.state_mut().ask(&ctx, Command::View(OfView::ToRoom(true)));
    screen.run();
    screen.get_by_label("from the car's left, along its centreline");
    let mut whole = 0;
    for name in ["the car", "the tool cabinet", "the column", "the parked car"] {
        let at = |view: &str| screen.get_by_label(&format!("{name}, {view} view")).rect().x_range();
        let (top, side) = (at("top"), at("side"));
        assert!(
            (top.min - side.min).abs() < 12.0 && (top.max - side.max).abs() < 12.0,
            "{name}: {top:?} {side:?}"
        );
        whole += 1;
    }
    assert_eq!(whole, 4);
    // The nose is to the left in both.
    let sensor = |view: usize| {
        let (drawing, _) = screen.state().drawings().nth(view).unwrap();
        drawing.paper_point_of(screen.state().answer().assessment.scene.sensor()).x
    };
    let car = screen.get_by_label("the car, side view").rect().center().x;
    assert!((sensor(0) - sensor(1)).abs() < 0.5, "{} {}", sensor(0), sensor(1));
    let left = screen.state().drawings().next().unwrap().1.min.x;
    assert!(left + (sensor(1) as f32) < car);
}
