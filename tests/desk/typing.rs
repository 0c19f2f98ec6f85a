//! What the hands do on the keyboard arrives where it belongs: real key events, one in a frame and many.

use baywright_desk::screen::Desk;
use baywright_desk::screen::command::{Command, OfCar, OfFile, OfView};
use baywright_desk::screen::unbroken;
use baywright_desk::screen::view::{Measuring, Tool};
use baywright_planner::Subject;
use baywright_planner::geometry::marks::Construction;
use baywright_planner::model::assumed::BodyPart;
use baywright_planner::model::{Provenance, Shape, TargetHeight, Vehicle};
use egui::{Event, Key, Modifiers, PointerButton, Pos2, Vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;

use crate::sessions::{ask, home, press, start};
use crate::support::{demo, middle, usual};

/// So many events come in one frame: a slow hand, a fast one, a slow machine, a pasted macro.
const PACES: [usize; 4] = [1, 3, 8, 1_000];

/// A key going down and up.
pub fn key(key: Key) -> Vec<Event> {
    key_with(Modifiers::NONE, key)
}

fn key_with(modifiers: Modifiers, key: Key) -> Vec<Event> {
    let event = |pressed| Event::Key { key, physical_key: None, pressed, repeat: false, modifiers };
    vec![event(true), event(false)]
}

/// A text as a keyboard gives it: each letter with its key.
pub fn letters(text: &str) -> Vec<Event> {
    let letter = |c: char| {
        let text = Event::Text(c.to_string());
        match Key::from_name(&c.to_string()) {
            Some(own) => {
                let [down, up] = key(own).try_into().unwrap();
                vec![down, text, up]
            }
            None => vec![text],
        }
    };
    text.chars().flat_map(letter).collect()
}

/// Lets events happen, `pace` of them in a frame.
pub fn happen(screen: &mut Harness<'_, Desk>, events: &[Event], pace: usize) {
    for frame in events.chunks(pace) {
        screen.input_mut().events.extend_from_slice(frame);
        screen.step();
    }
    // Each key that moves the keyboard takes a frame of its own: a whole sheet in one frame takes many.
    let is_still = (0..4).any(|_| screen.try_run().is_ok());
    assert!(is_still, "it comes to rest");
}

/// The form of a new car, with the keyboard in its first figure.
pub fn new_car(screen: &mut Harness<'_, Desk>) {
    screen.get_by_label_contains("Car: ").click();
    screen.run();
    press(screen, "Enter a new car …");
    screen.get_by_label("Length").click();
    screen.run();
}

pub fn car(screen: &Harness<'_, Desk>) -> Vehicle {
    Vehicle::clone(screen.state().document().draft().expect("a car is being entered").car())
}

/// The figures of the short form, in its order.
fn short_form(car: &Vehicle) -> [f64; FIGURES] {
    let (radar, aiming) = (&car.sensors[0], &car.aimings[0]);
    let (target, zone) = (&aiming.placements[0], &aiming.zones[0]);
    let TargetHeight::FromSensor { offset_mm: above, .. } = target.height else {
        panic!("{:?}", target.height)
    };
    let outboard = aiming.mark_plan.iter().map(|step| match step.construction {
        Construction::Outboard { distance, .. } => distance,
        _ => 0.0,
    });
    let degrees = |radians: f64| (radians.to_degrees() * 1e6).round() / 1e6;
    [
        car.length_mm,
        car.width_mm,
        car.wheelbase_mm,
        car.overhang_front_mm,
        car.track_front_mm,
        car.track_rear_mm,
        car.tyre_width_mm,
        radar.at.z,
        radar.at.y,
        target.stand_off.distance_mm,
        above,
        outboard.fold(0.0, f64::max),
        degrees(aiming.tolerance.azimuth_rad),
        degrees(aiming.tolerance.elevation_rad),
        aiming.floor.unwrap().level_mm,
        zone.outline.bounds().high.y,
        zone.span.top(),
        zone.outline.bounds().high.x - car.front(),
    ]
}

const FIGURES: usize = 18;
const SHEET: [&str; FIGURES] = [
    "4512", "1799", "2,71 m", "873", "1540", "1535,5", "205+10", "512", "-85", "3100", "-12", "2*75", "0.3",
    "0.4", "3", "1350", "1450", "4200",
];
const ENTERED: [f64; FIGURES] = [
    4_512.0, 1_799.0, 2_710.0, 873.0, 1_540.0, 1_535.5, 215.0, 512.0, -85.0, 3_100.0, -12.0, 150.0, 0.3, 0.4,
    3.0, 1_350.0, 1_450.0, 4_200.0,
];

/// What the keyboard does from the first figure to the last; `leave` leaves each of them.
fn the_sheet(leave: Key) -> Vec<Event> {
    let mut events = Vec::new();
    for (at, figure) in SHEET.into_iter().enumerate() {
        events.extend(letters(figure));
        events.extend(key(leave));
        // Where something is to be chosen both halt: the kind of target; from where and to where the stand-off is measured and from
        // where the height. Tab halts at what is assumed of them, too.
        let halts = match (at, leave) {
            (8, Key::Tab) => 2,
            (9, Key::Tab) => 4,
            (8, _) => 1,
            (9, _) => 3,
            _ => 0,
        };
        events.extend((0..halts).flat_map(|_| key(leave)));
    }
    events
}

/// Enter in so many pickers, as they stand: the class of the body, and where the figures come from.
fn past(pickers: usize) -> Vec<Event> {
    (0..pickers).flat_map(|_| key(Key::Enter)).collect()
}

#[test]
fn the_whole_short_form_is_typed_without_a_pointer() {
    for leave in [Key::Tab, Key::Enter] {
        for pace in PACES {
            let mut screen = usual(demo());
            new_car(&mut screen);
            happen(&mut screen, &the_sheet(leave), pace);
            assert_eq!(short_form(&car(&screen)), ENTERED, "{leave:?}, {pace} in a frame");
            let assumed = [BodyPart::Length, BodyPart::Width, BodyPart::Wheelbase, BodyPart::OverhangFront];
            assert!(!assumed.into_iter().any(|figure| car(&screen).is_assumed(figure)));
            // By Enter the keyboard has come to where the figures are from, and then to what the sheet was typed for; nothing was
            // pressed that nobody asked for.
            if leave == Key::Enter {
                let source = screen.get_by_label("Where these figures come from");
                assert!(source.is_focused(), "{pace} in a frame");
                happen(&mut screen, &key(Key::Enter), pace);
                assert!(screen.get_by_label("Keep this car").is_focused(), "{pace} in a frame");
            } else {
                happen(&mut screen, &key(Key::Enter), pace);
            }
            assert_eq!(screen.state().view().tool, Tool::WhichSide, "{leave:?}, {pace} in a frame");
            assert!(screen.state().document().draft().is_some());
        }
    }
}

/// Enter in the last figure leads to where they come from; what is typed right after it is that picker's, and no press of the
/// work.
#[test]
fn letters_right_after_enter_are_the_pickers_that_it_leads_to() {
    for pace in PACES {
        let mut screen = usual(demo());
        new_car(&mut screen);
        let things = screen.state().document().layout().bay.things.clone();
        let keys = [the_sheet(Key::Enter), letters("m")].concat();
        happen(&mut screen, &keys, pace);
        let source = car(&screen).provenance.clone();
        assert!(!matches!(source, Provenance::NotGiven), "{pace} in a frame");
        assert_eq!(screen.state().view().tool, Tool::WhichSide, "{pace} in a frame");
        // Removing, keeping and looking closer are no letters of it, and nothing else's either.
        happen(&mut screen, &[letters("k0"), key(Key::Delete)].concat(), pace);
        assert_eq!(car(&screen).provenance, source, "{pace} in a frame");
        assert_eq!(screen.state().document().layout().bay.things, things, "{pace} in a frame");
    }
}

#[test]
fn a_figure_that_is_said_to_be_right_by_a_key_leads_on_too() {
    for pace in PACES {
        let mut screen = usual(demo());
        new_car(&mut screen);
        let length = car(&screen).length_mm;
        // Past the length as it stands: Tab halts at "assumed", and Space says that it is right.
        let keys = [key(Key::Tab), key(Key::Space), letters("1799"), key(Key::Tab)].concat();
        happen(&mut screen, &keys, pace);
        let car = car(&screen);
        assert_eq!((car.length_mm, car.width_mm), (length, 1_799.0), "{pace} in a frame");
        assert!(!car.is_assumed(BodyPart::Length) && !car.is_assumed(BodyPart::Width));
    }
}

/// From the bar to the car in the bay without a pointer: its name, the sheet, and Enter on what the sheet was typed for.
#[test]
fn a_car_is_entered_from_the_bar_to_the_bay_by_keys_alone() {
    for pace in PACES {
        let home = home(&format!("by-keys-{pace}"));
        let mut screen = start(&home);
        screen.get_by_label_contains("Car: ").focus();
        screen.run();
        happen(&mut screen, &key(Key::Enter), pace);
        let mut tabs = 0;
        while !screen.get_by_label("Enter a new car …").is_focused() {
            happen(&mut screen, &key(Key::Tab), pace);
            tabs += 1;
            assert!(tabs < 60, "Tab comes to it");
        }
        let sheet =
            [key(Key::Enter), letters("Van"), key(Key::Enter), past(2), the_sheet(Key::Enter)].concat();
        happen(&mut screen, &sheet, pace);
        assert_eq!(
            (car(&screen).name.as_str(), short_form(&car(&screen))),
            ("Van", ENTERED),
            "{pace} in a frame"
        );
        // By what document it goes, and then it is kept.
        happen(&mut screen, &[key(Key::Enter), key(Key::Enter)].concat(), pace);
        assert!(screen.state().document().draft().is_none(), "{pace} in a frame: it is kept");
        let stands = &screen.state().answer().arrangement.vehicle;
        assert_eq!((stands.name.as_str(), short_form(stands)), ("Van", ENTERED));
        crate::support::clear(home);
    }
}

const BACK: (Modifiers, Key) = (Modifiers::SHIFT, Key::Tab);
const ON: (Modifiers, Key) = (Modifiers::NONE, Key::Tab);

/// What was mistyped is gone back to by Shift+Tab and typed over; the field that was left for it has what was typed there.
#[test]
fn what_was_mistyped_is_gone_back_to_by_keys() {
    for pace in PACES {
        let mut screen = usual(demo());
        new_car(&mut screen);
        let typed = [
            letters("5412"),
            keys(&[ON]),
            letters("1799"),
            keys(&[BACK]),
            letters("4512"),
            key(Key::Enter),
            letters("1801"),
            keys(&[ON]),
            letters("2,71 m"),
            keys(&[BACK, BACK, ON, ON]),
            keys(&[ON]),
            letters("873"),
            key(Key::Enter),
        ];
        happen(&mut screen, &typed.concat(), pace);
        let car = car(&screen);
        let figures = [car.length_mm, car.width_mm, car.wheelbase_mm, car.overhang_front_mm];
        assert_eq!(figures, [4_512.0, 1_801.0, 2_710.0, 873.0], "{pace} in a frame");
    }
}

/// Escape puts back what was there and takes nothing else away; the keyboard goes on from there.
#[test]
fn escape_in_a_field_puts_back_and_tab_goes_on_from_there() {
    for pace in PACES {
        let mut screen = usual(demo());
        new_car(&mut screen);
        let length = car(&screen).length_mm;
        happen(&mut screen, &[letters("99"), key(Key::Escape)].concat(), pace);
        assert_eq!(car(&screen).length_mm, length, "{pace} in a frame");
        assert!(screen.state().view().page().is_none() && car(&screen).is_assumed(BodyPart::Length));
        // Past "assumed" to the width, or right there.
        happen(&mut screen, &keys(&[ON, ON]), pace);
        happen(&mut screen, &[letters("1799"), key(Key::Enter)].concat(), pace);
        assert_eq!((car(&screen).length_mm, car(&screen).width_mm), (length, 1_799.0), "{pace} in a frame");
    }
}

/// In a field undo takes back letters; out of it, what was entered last.
#[test]
fn undo_of_letters_and_of_figures_while_a_car_is_entered() {
    for pace in PACES {
        let mut screen = usual(demo());
        new_car(&mut screen);
        let before = car(&screen);
        let typed =
            [letters("4512"), key(Key::Enter), letters("17"), keys(&[UNDO]), key(Key::Enter)].concat();
        happen(&mut screen, &typed, pace);
        let now = car(&screen);
        assert_eq!((now.length_mm, now.width_mm), (4_512.0, before.width_mm), "{pace} in a frame");
        happen(&mut screen, &keys(&[UNDO]), pace);
        assert_eq!(car(&screen).length_mm, before.length_mm, "{pace} in a frame");
    }
}

/// What is pasted is read as what is typed: with its unit, with what a sheet or a table had around it.
#[test]
fn figures_are_pasted_with_their_units() {
    let pasted = [
        ("3.6 m", 3_600.0),
        ("3,6 m", 3_600.0),
        ("11' 9 5/8\"", 3_597.275),
        ("11\u{2032}\u{a0}9\u{a0}\u{2075}\u{2044}\u{2088}\u{2033}", 3_597.275),
        ("3600\n", 3_600.0),
        ("\t3 600 mm\r\n", 3_600.0),
        ("360 cm", 3_600.0),
    ];
    for pace in PACES {
        for (text, mm) in pasted {
            let mut screen = usual(demo());
            new_car(&mut screen);
            let paste = vec![Event::Paste(text.to_owned())];
            let typed = [paste.clone(), keys(&[ON]), letters("1799"), keys(&[BACK])];
            happen(&mut screen, &typed.concat(), pace);
            let now = car(&screen);
            assert!((now.length_mm - mm).abs() < 1e-9, "{text:?}, {pace} in a frame: {}", now.length_mm);
            assert_eq!(now.width_mm, 1_799.0, "{text:?}, {pace} in a frame");
            // Over what is typed already: all of it is chosen where the keyboard comes.
            let again = [letters("4000"), keys(&[ON, BACK]), paste, key(Key::Enter)];
            happen(&mut screen, &again.concat(), pace);
            assert!((car(&screen).length_mm - mm).abs() < 1e-9, "{text:?} over it, {pace} in a frame");
        }
    }
}

/// The demo with its trolley in hand and the keyboard in a field of it.
fn trolley_at(label: &str) -> Harness<'static, Desk> {
    let mut screen = usual(demo());
    ask(&mut screen, Command::View(OfView::Select(Some(Subject::Thing("trolley".into())))));
    screen.get_by_label(label).click();
    screen.run();
    screen
}

/// How high the trolley is, and where its underside.
fn heights(screen: &Harness<'_, Desk>) -> (f64, f64) {
    let things = &screen.state().answer().arrangement.bay.things;
    let trolley = things.iter().find(|thing| thing.id.as_str() == "trolley").unwrap();
    (trolley.span.bottom(), trolley.span.top())
}

const UNDO: (Modifiers, Key) = (Modifiers::COMMAND, Key::Z);
const REDO: (Modifiers, Key) = (Modifiers::COMMAND, Key::Y);

fn keys(keys: &[(Modifiers, Key)]) -> Vec<Event> {
    keys.iter().flat_map(|&(modifiers, key)| key_with(modifiers, key)).collect()
}

#[test]
fn in_an_untouched_field_undo_is_of_the_work() {
    for pace in PACES {
        let mut screen = trolley_at("top");
        let before = heights(&screen);
        assert_ne!(before.1, 612.0);
        happen(&mut screen, &[letters("612"), key(Key::Enter)].concat(), pace);
        assert_eq!(heights(&screen).1, 612.0);
        // The keyboard is in the next field by now.
        happen(&mut screen, &keys(&[UNDO]), pace);
        assert_eq!(heights(&screen), before, "{pace} in a frame");
        happen(&mut screen, &keys(&[REDO]), pace);
        assert_eq!(heights(&screen).1, 612.0, "{pace} in a frame");
        let again = (Modifiers { shift: true, ..Modifiers::COMMAND }, Key::Z);
        happen(&mut screen, &keys(&[UNDO, again]), pace);
        assert_eq!(heights(&screen).1, 612.0, "{pace} in a frame");
        // The field follows what was undone: left again, it brings nothing back, and typing replaces all of it.
        screen.get_by_label("top").click();
        screen.run();
        happen(&mut screen, &keys(&[UNDO, (Modifiers::NONE, Key::Tab)]), pace);
        assert_eq!(heights(&screen), before, "{pace} in a frame");
        screen.get_by_label("top").click();
        screen.run();
        happen(&mut screen, &[keys(&[REDO]), letters("655"), key(Key::Enter)].concat(), pace);
        assert_eq!(heights(&screen).1, 655.0, "{pace} in a frame");
    }
}

#[test]
fn in_a_field_that_is_being_edited_undo_is_the_fields() {
    for pace in PACES {
        let mut screen = trolley_at("top");
        happen(&mut screen, &[letters("612"), key(Key::Enter)].concat(), pace);
        screen.get_by_label("top").click();
        screen.run();
        // What was typed goes; then what the field says is what is there, and undo is of the work again.
        happen(&mut screen, &[letters("9"), keys(&[UNDO])].concat(), pace);
        assert_eq!(heights(&screen).1, 612.0, "{pace} in a frame");
        assert_eq!(screen.state().document().redoes(), None, "{pace} in a frame");
        happen(&mut screen, &keys(&[REDO, (Modifiers::NONE, Key::Enter)]), pace);
        assert_eq!(heights(&screen).1, 9.0, "typed, undone, done again, taken; {pace} in a frame");
    }
}

#[test]
fn while_a_car_is_entered_undo_is_of_the_car() {
    for pace in PACES {
        let mut screen = usual(demo());
        ask(&mut screen, Command::View(OfView::Select(Some(Subject::Thing("trolley".into())))));
        screen.get_by_label("top").click();
        screen.run();
        happen(&mut screen, &[letters("612"), key(Key::Enter)].concat(), 1);
        new_car(&mut screen);
        let (length, width) = (car(&screen).length_mm, car(&screen).width_mm);
        let typed = ["4512", "1799"].map(|figure| [letters(figure), key(Key::Enter)].concat()).concat();
        happen(&mut screen, &typed, pace);
        assert_eq!((car(&screen).length_mm, car(&screen).width_mm), (4_512.0, 1_799.0));
        happen(&mut screen, &keys(&[UNDO]), pace);
        assert_eq!((car(&screen).length_mm, car(&screen).width_mm), (4_512.0, width));
        // Back to where it began, and no further: the bay is not the car's to undo.
        happen(&mut screen, &keys(&[UNDO, UNDO, UNDO]), pace);
        assert_eq!((car(&screen).length_mm, car(&screen).width_mm), (length, width));
        happen(&mut screen, &keys(&[REDO]), pace);
        assert_eq!((car(&screen).length_mm, car(&screen).width_mm), (4_512.0, width));
        ask(&mut screen, Command::Car(OfCar::DropAnyway));
        assert_eq!(heights(&screen).1, 612.0, "{pace} in a frame");
    }
}

/// The pointer moves to a place, is pressed, drawn along and let go.
fn drawn(from: Pos2, by: Vec2) -> Vec<Event> {
    let button = |pos, pressed| Event::PointerButton {
        pos,
        button: PointerButton::Primary,
        pressed,
        modifiers: Modifiers::NONE,
    };
    let mut events = vec![Event::PointerMoved(from), button(from, true)];
    events.extend([0.25, 0.5, 0.75, 1.0].map(|share| Event::PointerMoved(from + by * share)));
    events.push(button(from + by, false));
    events
}

fn with_space_held(events: Vec<Event>) -> Vec<Event> {
    let [down, up] = key(Key::Space).try_into().unwrap();
    let [down, up] = [vec![down], vec![up]];
    // Held keys repeat.
    let repeated = match down[0].clone() {
        Event::Key { key, physical_key, pressed, modifiers, .. } => {
            vec![Event::Key { key, physical_key, pressed, repeat: true, modifiers }]
        }
        _ => panic!(),
    };
    [down, repeated, events, up].concat()
}

#[test]
fn with_space_held_the_paper_is_drawn_along_whatever_is_under_the_pointer() {
    let by = Vec2::new(60.0, 35.0);
    for tool in [Tool::WhichSide, Tool::Measure(Measuring::default())] {
        for view in ["top view", "side view"] {
            let mut screen = usual(demo());
            ask(&mut screen, Command::View(OfView::Tool(tool)));
            let name = format!("the trolley, {view}");
            let from = middle(&screen, &name);
            happen(&mut screen, &with_space_held(drawn(from, by)), 1);
            assert!(!screen.state().document().is_changed(), "{tool:?}, {view}");
            assert_eq!(screen.state().view().tool, tool, "nothing was measured in the {view}");
            let moved = middle(&screen, &name) - from;
            assert!((moved - by).length() < 2.0, "{tool:?}, {view}: {moved}");
            assert_eq!(screen.state().view().selected, None, "{tool:?}, {view}");
            // A press without a move is the paper's too; let go, the hand takes things again.
            happen(&mut screen, &with_space_held(drawn(from + by, Vec2::ZERO)), 1);
            assert_eq!((screen.state().view().selected.clone(), screen.state().view().tool), (None, tool));
        }
    }
    let mut screen = usual(demo());
    let from = middle(&screen, "the trolley, top view");
    happen(&mut screen, &with_space_held(drawn(from, by)), 1);
    happen(&mut screen, &drawn(from + by, by), 1);
    assert_eq!(screen.state().undoes().as_deref(), Some("Move trolley"));
}

#[test]
fn a_tap_of_space_presses_what_has_the_keyboard_and_in_a_field_it_types() {
    let mut screen = usual(demo());
    screen.get_by_label("Measure").focus();
    screen.run();
    happen(&mut screen, &key(Key::Space), 1);
    assert!(matches!(screen.state().view().tool, Tool::Measure(_)), "tapped");
    // Held to draw the paper along it presses nothing.
    let from = middle(&screen, "the trolley, top view");
    screen.get_by_label("Measure").focus();
    screen.run();
    happen(&mut screen, &with_space_held(drawn(from, Vec2::new(60.0, 35.0))), 1);
    assert!(matches!(screen.state().view().tool, Tool::Measure(_)), "not pressed again");
    let mut screen = trolley_at("top");
    let blank = [key(Key::Space), vec![Event::Text(" ".to_owned())]].concat();
    happen(&mut screen, &[letters("1"), blank, letters("050"), key(Key::Enter)].concat(), 1);
    assert_eq!(heights(&screen).1, 1_050.0);
}

/// In every kind of form a length that may be thousands or thousandths is asked about.
#[test]
fn what_may_be_thousands_is_asked_about_and_changes_nothing_until_answered() {
    for (answer, mm) in [("1\u{202f}200 mm", 1_200.0), ("1.2 mm", 1.2)] {
        for typed in ["1,200", "1.200"] {
            let mut screen = trolley_at("top");
            ask(&mut screen, Command::View(OfView::Select(Some(Subject::Thing("trolley".into())))));
            let before = screen.state().document().layout().clone();
            let stops = crate::support::count(&screen, baywright_planner::Severity::Stops);
            screen.get_by_label("from office wall").click();
            screen.run();
            happen(&mut screen, &[letters(typed), key(Key::Tab)].concat(), 1);
            assert_eq!(*screen.state().document().layout(), before, "{typed}");
            assert_eq!(crate::support::count(&screen, baywright_planner::Severity::Stops), stops);
            screen.get_by_label(&unbroken("1\u{202f}200 mm or 1.2 mm?"));
            press(&mut screen, &format!("{answer}: from office wall"));
            assert!(screen.query_by_label(&unbroken("1\u{202f}200 mm or 1.2 mm?")).is_none());
            let gap = gap_to(&screen, "office wall");
            assert!((gap - mm).abs() < 1e-6, "{typed}, {answer}: {gap}");
        }
    }
}

/// How far the trolley is from a wall.
fn gap_to(screen: &Harness<'_, Desk>, wall: &str) -> f64 {
    let answer = screen.state().answer();
    let trolley = Subject::Thing("trolley".into());
    let gaps = baywright_planner::hand::wall_gaps(&answer.arrangement, &answer.assessment.scene, &trolley);
    gaps.iter().find(|gap| gap.id.as_str() == wall).unwrap().gap_mm
}

/// How long and wide the trolley is.
fn size(screen: &Harness<'_, Desk>) -> (f64, f64) {
    let things = &screen.state().answer().arrangement.bay.things;
    let trolley = things.iter().find(|thing| thing.id.as_str() == "trolley").unwrap();
    let Shape::Rectangle { length_mm: length, width_mm: width } = *trolley.footprint.shape() else {
        panic!("another shape")
    };
    (length, width)
}

#[test]
fn the_question_is_answered_and_dropped_by_keys() {
    let back = (Modifiers::SHIFT, Key::Tab);
    let asked = &unbroken("1\u{202f}050 mm or 1.05 mm?");
    for pace in PACES {
        let mut screen = trolley_at("length");
        let before = size(&screen);
        // Enter leads on: what is typed after it is the next field's, and the question waits.
        let typed = [letters("1,050"), key(Key::Enter), letters("555"), key(Key::Enter)].concat();
        happen(&mut screen, &typed, pace);
        assert_eq!(size(&screen), (before.0, 555.0), "{pace} in a frame");
        screen.get_by_label(asked);
        // From the width back to the second answer, and to the first.
        screen.get_by_label("width").click();
        screen.run();
        happen(&mut screen, &[keys(&[back, back]), key(Key::Space)].concat(), pace);
        assert_eq!(size(&screen), (1_050.0, 555.0), "{pace} in a frame");
        assert!(screen.query_by_label(asked).is_none());
        happen(&mut screen, &keys(&[UNDO]), pace);
        assert_eq!(size(&screen), (before.0, 555.0), "{pace} in a frame: the keyboard is in a field again");

        // Escape puts back what was there, and takes nothing else away.
        screen.get_by_label("length").click();
        screen.run();
        happen(&mut screen, &[letters("1,050"), key(Key::Enter)].concat(), pace);
        screen.get_by_label(asked);
        happen(&mut screen, &key(Key::Escape), pace);
        assert!(screen.query_by_label(asked).is_none() && screen.query_by_label("length").is_some());
        assert_eq!(size(&screen), (before.0, 555.0), "{pace} in a frame");

        // Typing on drops it too; what is there by then is taken.
        screen.get_by_label("length").click();
        screen.run();
        happen(&mut screen, &[letters("1,050"), key(Key::Enter)].concat(), pace);
        screen.get_by_label("length").click();
        screen.run();
        screen.get_by_label(asked);
        happen(&mut screen, &letters("9"), pace);
        assert!(screen.query_by_label(asked).is_none());
        happen(&mut screen, &[letters("00"), key(Key::Enter)].concat(), pace);
        assert_eq!(size(&screen), (900.0, 555.0), "{pace} in a frame");
    }
}

#[test]
fn a_question_left_without_an_answer_is_said_to_have_changed_nothing() {
    let mut screen = trolley_at("top");
    let before = heights(&screen);
    happen(&mut screen, &[letters("1,050"), key(Key::Tab)].concat(), 1);
    // A press on another thing leaves the form.
    let cabinet = middle(&screen, "the tool cabinet, top view");
    happen(&mut screen, &drawn(cabinet, Vec2::ZERO), 1);
    assert_eq!(heights(&screen), before);
    screen.get_by_label_contains(&unbroken("“1,050” was not taken: 1\u{202f}050 mm or 1.05 mm?"));
}

#[test]
fn a_car_and_a_new_bay_ask_too_and_angles_do_not() {
    for pace in PACES {
        let mut screen = usual(demo());
        new_car(&mut screen);
        let figures = ["4,512", "1.799", "2,71 m"];
        let typed = figures.map(|figure| [letters(figure), key(Key::Tab)].concat()).concat();
        happen(&mut screen, &typed, pace);
        // Two wait for their answers, and are assumed until then; the third, in metres, is sure.
        assert!(car(&screen).is_assumed(BodyPart::Length) && car(&screen).is_assumed(BodyPart::Width));
        assert_eq!(car(&screen).wheelbase_mm, 2_710.0, "{pace} in a frame");
        press(&mut screen, "1\u{202f}799 mm: Width");
        press(&mut screen, "4\u{202f}512 mm: Length");
        assert_eq!((car(&screen).length_mm, car(&screen).width_mm), (4_512.0, 1_799.0));
        assert!(!car(&screen).is_assumed(BodyPart::Width));
        screen.get_by_label("Tolerance, left and right").click();
        screen.run();
        happen(&mut screen, &[letters("0.125"), key(Key::Enter)].concat(), pace);
        let azimuth = car(&screen).aimings[0].tolerance.azimuth_rad.to_degrees();
        assert!((azimuth - 0.125).abs() < 1e-9, "{azimuth}");
        ask(&mut screen, Command::Car(OfCar::DropAnyway));

        ask(&mut screen, Command::File(OfFile::BeginBay));
        screen.get_by_label("Length").click();
        screen.run();
        happen(
            &mut screen,
            &[letters("9,500"), key(Key::Tab), letters("5200"), key(Key::Tab)].concat(),
            pace,
        );
        press(&mut screen, "Make this bay");
        assert_eq!(screen.state().document().layout().bay.name, "Crowded bay", "not made yet");
        press(&mut screen, "9\u{202f}500 mm: Length");
        press(&mut screen, "Make this bay");
        let size = screen.state().document().layout().bay.room.bounds().size();
        assert_eq!((size.x, size.y), (9_500.0, 5_200.0), "{pace} in a frame");
    }
}

#[test]
fn the_walls_of_a_taped_room_ask_too() {
    let mut screen = usual(demo());
    ask(&mut screen, Command::File(OfFile::BeginBay));
    press(&mut screen, "Wall by wall");
    screen.get_by_label("Wall 1, Length").click();
    screen.run();
    // By Tab through lengths, turns and names, without a look at the screen.
    let walls = ["9,000", "6000", "9000", "6,000"];
    let tabs = keys(&[(Modifiers::NONE, Key::Tab); 3]);
    happen(&mut screen, &walls.map(|wall| [letters(wall), tabs.clone()].concat()).concat(), 1);
    press(&mut screen, "9\u{202f}000 mm: Wall 1, Length");
    press(&mut screen, "6\u{202f}000 mm: Wall 4, Length");
    screen.get_by_label("It closes.");
    press(&mut screen, "Make this bay");
    let size = screen.state().document().layout().bay.room.bounds().size();
    assert_eq!((size.x, size.y), (9_000.0, 6_000.0));
}

/// The last figure and the press on what it is for, however fast: what was typed is taken before the press takes the keyboard.
#[test]
fn a_press_comes_after_the_letters_before_it() {
    for pace in PACES {
        let mut screen = usual(demo());
        ask(&mut screen, Command::File(OfFile::BeginBay));
        screen.get_by_label("Length").click();
        screen.run();
        let all = |text: &str| [key_with(Modifiers::COMMAND, Key::A), letters(text)].concat();
        let make = middle(&screen, "Make this bay");
        let button = |pressed| Event::PointerButton {
            pos: make,
            button: PointerButton::Primary,
            pressed,
            modifiers: Modifiers::NONE,
        };
        let press = vec![Event::PointerMoved(make), button(true), button(false)];
        let typed = [all("9000"), key(Key::Tab), all("5200"), key(Key::Tab), all("3100"), press].concat();
        happen(&mut screen, &typed, pace);
        let bay = &screen.state().document().layout().bay;
        let size = bay.room.bounds().size();
        assert_eq!((size.x, size.y, bay.ceiling_mm), (9_000.0, 5_200.0, 3_100.0), "{pace}");
    }
}
