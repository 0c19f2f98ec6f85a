//! Awkward texts in every field of every form: an answer, never a fault of the program; what is taken is sound, what was typed
//! can be kept, and undo leads back to where it began.

use baywright_desk::screen::Desk;
use baywright_desk::screen::command::{Begin, Command, OfCar, OfView};
use baywright_desk::screen::page::{NewBay, Page, VisitPage};
use baywright_desk::session::room_draft::{RoomDraft, TypedIn};
use baywright_planner::Subject;
use baywright_planner::model::{Layout, Vehicle, validate};
use egui::accesskit::Role;
use egui_kittest::Harness;
use egui_kittest::kittest::NodeT;
use proptest::collection::vec;
use proptest::prelude::*;
use proptest::test_runner::{RngAlgorithm, TestRng, TestRunner};

use crate::sessions::ask;
use crate::support::{demo, desk, usual};

/// What people and pasted cells put into a field that asks for something else.
fn awkward() -> impl Strategy<Value = String> {
    let known = [
        "",
        " ",
        "0",
        "-0",
        "-1",
        "1",
        "90",
        "360",
        "-1e9",
        "1e308",
        "1e-308",
        "nan",
        "inf",
        "-inf",
        "12,5",
        "12.5.7",
        "1 000",
        "1'000",
        "3' 4 1/2\"",
        "1/0\"",
        "0.1 mm",
        "12 m",
        "99999999999999999999999999",
        "０１２",
        "½",
        "−5",
        "a: b",
        "../../x",
        "CON",
        "\"",
        "(",
        "\\",
        "\u{202e}abc",
        "e\u{301}",
        "工具",
        "🙂",
        "\t5\t",
        "0,0",
        "1000, 0",
        "0 0; 1 1; 2 2",
        "0, 0, 0",
        "wall 1",
        "1",
        "2026-02-30",
        "0001-01-01",
    ];
    prop_oneof![
        8 => prop::sample::select(known.to_vec()).prop_map(str::to_owned),
        2 => (-3e4..3e4_f64).prop_map(|n| format!("{n:.1}")),
        1 => "[-0-9., '/\"meE()]{0,12}",
        1 => "\\PC{0,24}",
        1 => Just("x".repeat(400)),
    ]
}

/// Opens everything that is folded away.
pub fn unfold(screen: &mut Harness<'_, Desk>) {
    for _ in 0..60 {
        let folded = screen.root().children_recursive().find_map(|node| {
            let own = node.accesskit_node();
            let closed = own.data().is_expanded() == Some(false) && own.role() != Role::ComboBox;
            closed.then(|| node.click_accesskit())
        });
        if folded.is_none() {
            return;
        }
        screen.run();
    }
}

fn is_field(role: Role) -> bool {
    matches!(role, Role::TextInput | Role::MultilineTextInput)
}

/// Types a text into one of the fields that there are; whether there is any.
fn type_somewhere(screen: &mut Harness<'_, Desk>, at: usize, text: &str) -> Option<String> {
    let fields =
        screen.root().children_recursive().filter(|node| is_field(node.accesskit_node().role())).count();
    let mut there = screen.root().children_recursive().filter(|node| is_field(node.accesskit_node().role()));
    let field = there.nth(at % fields.max(1))?;
    let name = field.accesskit_node().labelled_by().next().and_then(|label| label.label().or(label.value()));
    let name = name.or(field.accesskit_node().label()).unwrap_or_default();
    field.focus();
    drop(there);
    screen.run();
    screen.key_combination_modifiers(egui::Modifiers::COMMAND, &[egui::Key::A]);
    screen.step();
    screen.event(egui::Event::Text(text.to_owned()));
    screen.step();
    screen.key_press(egui::Key::Enter);
    screen.run();
    // A field of several lines is left for the next one.
    screen.key_press(egui::Key::Tab);
    screen.run();
    Some(name)
}

fn must_hold(screen: &Harness<'_, Desk>, after: &str) -> Result<(), TestCaseError> {
    let document = screen.state().document();
    let faults = validate::layout(document.layout());
    prop_assert!(faults.is_empty(), "{after}: {:?}", faults.first());
    prop_assert!(baywright_files::layout_text(document.layout()).is_ok(), "{after}: cannot be written");
    match document.draft() {
        None => prop_assert!(!screen.state().answer().stale, "{after}: no answer"),
        Some(draft) => {
            // What was typed survives a crash, whether it fits yet or not.
            let text = baywright_files::draft_text(draft.car());
            let text =
                text.map_err(|f| TestCaseError::fail(format!("{after}: cannot be kept: {:?}", f[0])))?;
            let again = baywright_files::parse_draft("f.ron", draft.car().id.as_str(), &text).unwrap();
            prop_assert!(near(&again, draft.car()), "{after}: kept otherwise");
            let sound = draft.faults().is_empty();
            prop_assert!(sound != screen.state().answer().stale, "{after}: the drawing is of something else");
            prop_assert!(!sound || baywright_files::profile_text(draft.car()).is_ok(), "{after}");
        }
    }
    Ok(())
}

/// The same but for what a file rounds away.
fn near(a: &Vehicle, b: &Vehicle) -> bool {
    let text = |car: &Vehicle| baywright_files::draft_text(car).unwrap();
    text(a) == text(b)
}

/// Tries a form: some fields one after another, and back. `BAYWRIGHT_FORM_RUNS` makes it more than a few times.
fn try_form(open: impl Fn() -> Harness<'static, Desk>) -> usize {
    let asked = std::env::var("BAYWRIGHT_FORM_RUNS").ok().and_then(|runs| runs.parse().ok());
    let taken = std::cell::Cell::new(0);
    let cases = asked.unwrap_or(3);
    let config = ProptestConfig { cases, failure_persistence: None, ..Default::default() };
    let mut runner = match asked {
        Some(_) => TestRunner::new(config),
        // Few of them are the same ones each time.
        None => TestRunner::new_with_rng(config, TestRng::deterministic_rng(RngAlgorithm::ChaCha)),
    };
    let typed = vec((any::<u16>(), awkward()), 6..14);
    let done = runner.run(&typed, |typed| {
        let mut screen = open();
        unfold(&mut screen);
        let began = start_of(&screen);
        for (at, text) in typed {
            let Some(name) = type_somewhere(&mut screen, at.into(), &text) else { break };
            must_hold(&screen, &format!("{text:?} in “{name}”"))?;
        }
        let way_back = |screen: &Harness<'_, Desk>| screen.state().document().undoes().is_some();
        while way_back(&screen) {
            taken.set(taken.get() + 1);
            ask(&mut screen, Command::Undo);
        }
        prop_assert!(start_of(&screen) == began, "undo leads elsewhere");
        Ok(())
    });
    done.unwrap_or_else(|fault| panic!("{fault}"));
    taken.get()
}

fn start_of(screen: &Harness<'_, Desk>) -> (Layout, Option<Vehicle>) {
    let document = screen.state().document();
    (Layout::clone(document.layout()), document.draft().map(|draft| Vehicle::clone(draft.car())))
}

fn blank(desk: Desk) -> Harness<'static, Desk> {
    let screen = usual(desk);
    // As the window does: letters that no font here has are boxes.
    screen.ctx.set_missing_glyph_policy(egui::MissingGlyphPolicy::Tofu);
    screen
}

fn of_car(begin: Begin, whole: bool) -> Harness<'static, Desk> {
    let mut screen = blank(demo());
    ask(&mut screen, Command::Car(OfCar::Begin(begin)));
    ask(&mut screen, Command::Car(OfCar::Whole(whole)));
    screen
}

#[test]
fn the_short_form_of_a_car() {
    assert!(try_form(|| of_car(Begin::New, false)) > 0, "something of it was taken");
}

#[test]
fn the_whole_form_of_a_car() {
    let screen = {
        let mut screen = of_car(Begin::Change, true);
        unfold(&mut screen);
        screen
    };
    let fields =
        screen.root().children_recursive().filter(|node| is_field(node.accesskit_node().role())).count();
    assert!(fields > 60, "the whole form is tried: {fields}");
    assert!(try_form(|| of_car(Begin::Change, true)) > 0, "something of it was taken");
}

#[test]
fn every_part_of_a_bay() {
    let layouts = ["crowded-bay", "lift-bay", "hall"];
    let mut taken = 0;
    for layout in layouts {
        let open = move || blank(desk(std::path::Path::new(layout), None));
        let bay = open().state().answer().arrangement.bay.clone();
        let subjects = [Subject::Floor, Subject::Car].into_iter();
        let subjects = subjects.chain(bay.walls.first().map(|own| Subject::Wall(own.id.clone())));
        let subjects = subjects.chain(bay.openings.first().map(|own| Subject::Opening(own.id.clone())));
        let subjects =
            subjects.chain(bay.floor_features.first().map(|own| Subject::FloorFeature(own.id.clone())));
        let subjects = subjects.chain(bay.runways.first().map(|own| Subject::Runway(own.id.clone())));
        let subjects = subjects.chain(bay.keep_free.first().map(|own| Subject::KeepFree(own.id.clone())));
        let subjects = subjects.chain(bay.bays.first().map(|own| Subject::HallBay(own.id.clone())));
        let subjects = subjects.chain(bay.things.first().map(|own| Subject::Thing(own.id.clone())));
        for subject in subjects {
            taken += try_form(|| {
                let mut screen = open();
                ask(&mut screen, Command::View(OfView::Select(Some(subject.clone()))));
                screen
            });
        }
    }
    assert!(taken > 0, "something of it was taken");
}

#[test]
fn the_pages_that_are_typed_in() {
    let room = RoomDraft::new("My bay", TypedIn::Millimetres);
    let taped = NewBay::of(RoomDraft { taped: true, ..room.clone() });
    let list = baywright_files::triggers(None).unwrap();
    let visit =
        VisitPage { read: list.clone(), list, chosen: Vec::new(), changing: true, car: "a car".into() };
    for page in [
        Page::NewBay(NewBay::of(room)),
        Page::NewBay(taped),
        Page::Visit(Box::new(visit)),
        Page::Cars(String::new(), true),
        Page::Name("As found".into(), true),
        Page::Shop,
    ] {
        try_form(|| {
            let mut screen = blank(demo());
            screen.state_mut().lay(Some(page.clone()));
            screen.run();
            screen
        });
    }
}
