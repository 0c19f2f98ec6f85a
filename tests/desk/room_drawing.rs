//! A drawing of another program in the window: seen with what comes of it, and taken.

use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

use baywright_desk::screen::Desk;
use baywright_desk::screen::command::{Command, OfBay, OfFile};
use baywright_desk::screen::page::{Leaving, Page, Question};
use baywright_planner::geometry::DVec2;
use baywright_planner::model::{Effort, ThingKind};
use egui::accesskit::Role;
use egui::{Key, Modifiers};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT, Queryable};

use crate::sessions::{ask, home, press, start};
use crate::support::{clear, demo, type_into, usual};

/// A drawing that another's writer wrote: see `src/files/tests/dxf/README.md`.
fn drawing(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("src/files/tests/dxf").join(name)
}

/// Until nothing is read, worked out or written any more.
pub fn settle(screen: &mut Harness<'_, Desk>) {
    let begun = Instant::now();
    for _ in 0..3 {
        screen.step();
    }
    while !screen.state().is_drawing_settled() {
        assert!(begun.elapsed() < Duration::from_secs(60), "it is still worked out");
        std::thread::sleep(Duration::from_millis(5));
        screen.step();
    }
    screen.run();
}

fn shown(screen: &mut Harness<'_, Desk>, path: &Path) {
    ask(screen, Command::File(OfFile::ReadDrawing(path.to_owned())));
    settle(screen);
    assert_eq!(screen.state().view().page(), Some(&Page::RoomDrawing));
}

/// Shows one of those drawings.
pub fn show(screen: &mut Harness<'_, Desk>, name: &str) {
    shown(screen, &drawing(name));
}

/// Types the path of another one, and does not read it.
pub fn type_path(screen: &mut Harness<'_, Desk>, path: &str) {
    screen.get_by_role_and_label(Role::TextInput, "Drawing (DXF)").click();
    screen.run();
    screen.key_press_modifiers(Modifiers::COMMAND, Key::A);
    screen.run();
    screen.event(egui::Event::Text(path.to_owned()));
    screen.run();
    screen.key_press(Key::Tab);
    screen.remove_cursor();
    screen.run();
}

/// Chooses what a layer becomes, by the keyboard: the picker is the only one that its name stands beside.
pub fn becomes(screen: &mut Harness<'_, Desk>, layer: &str, what: &str) {
    screen.get_by_role_and_label(Role::ComboBox, layer).focus();
    screen.step();
    screen.event(egui::Event::Text(what[..1].to_owned()));
    screen.step();
    settle(screen);
    let value = screen.get_by_role_and_label(Role::ComboBox, layer).value();
    assert_eq!(value.as_deref(), Some(what));
}

fn size(screen: &Harness<'_, Desk>) -> DVec2 {
    screen.state().document().bay().room.bounds().size()
}

/// 12 m by 6 m with an alcove of 1 m, drawn in metres; cabinets as blocks on a layer of their own.
#[test]
fn a_drawing_becomes_a_bay_of_its_own() {
    let mut screen = usual(demo());
    shown(&mut screen, &drawing("blocks-r2010.dxf"));
    // The room is found; what is on the other layers is told to be left out.
    let value = screen.get_by_role_and_label(Role::ComboBox, "A-WALL").value();
    assert_eq!(value.as_deref(), Some("room's outline"));
    screen.get_by_label_contains("Closed a gap of 6");
    screen.get_by_label_contains("Not used: what is on the layers F");
    screen.get_by_label_contains("of a block that is not in the file");
    becomes(&mut screen, "F", "things");
    screen.get_by_label_contains("What comes of the drawing: A room of 8 walls, with ");
    // What is typed and not read yet is about another one.
    type_path(&mut screen, "other.dxf");
    assert!(!screen.state().document().is_changed(), "nothing is taken yet");
    press(&mut screen, "Take it");
    assert_eq!(screen.state().view().page(), None);
    let document = screen.state().document();
    assert_eq!(document.layout().bay.name, "blocks-r2010");
    let (width, height) = (size(&screen).x, size(&screen).y);
    assert!((width - 12_000.0).abs() < 0.01 && (height - 7_000.0).abs() < 0.01, "{width} {height}");
    let bay = document.bay();
    assert!(!bay.things.is_empty() && bay.things.iter().all(|own| own.effort == Effort::TwoPeople));
    assert!(document.is_changed() && document.path().is_none(), "it has no file yet");
    screen.get_by_label_contains("Taken from the drawing: 8 walls, ");
}

/// The bay that is open and not saved is asked about, and is there again when one stays.
#[test]
fn work_is_not_lost_by_a_drawing() {
    let mut screen = usual(demo());
    ask(&mut screen, Command::Bay(OfBay::Add(ThingKind::Trolley)));
    let before = screen.state().document().layout().clone();
    shown(&mut screen, &drawing("blocks-r2010.dxf"));
    press(&mut screen, "Take it");
    assert_eq!(screen.state().view().page(), Some(&Page::Ask(Question::Unsaved(Leaving::Drawing))));
    press(&mut screen, "Stay here");
    assert_eq!(screen.state().document().layout(), &before);
    ask(&mut screen, Command::Page(Some(Page::RoomDrawing)));
    settle(&mut screen);
    press(&mut screen, "Take it");
    press(&mut screen, "Do not save");
    assert_eq!(screen.state().document().layout().bay.name, "blocks-r2010");
}

/// Taken as the room of the bay that is open: one step, and one step back.
#[test]
fn the_room_of_this_bay_is_taken_and_undone_by_one_step() {
    let mut screen = usual(demo());
    ask(&mut screen, Command::Bay(OfBay::Add(ThingKind::Trolley)));
    let before = screen.state().document().layout().clone();
    shown(&mut screen, &drawing("blocks-r2010.dxf"));
    press(&mut screen, "The room of this bay");
    settle(&mut screen);
    becomes(&mut screen, "F", "things");
    press(&mut screen, "Take it");
    assert_eq!(screen.state().view().page(), None);
    let now = screen.state().document().layout();
    assert_eq!(now.bay.walls.len(), 8);
    assert_eq!(now.bay.ceiling_mm, before.bay.ceiling_mm, "a drawing tells no ceiling");
    for own in &before.bay.things {
        assert!(now.bay.things.contains(own), "{} stays", own.id);
    }
    assert!(now.bay.things.len() > before.bay.things.len());
    ask(&mut screen, Command::Undo);
    assert_eq!(screen.state().document().layout(), &before);
}

/// Both faces of a wall are drawn: which is the room is asked, and nothing can be taken before.
#[test]
fn of_several_outlines_one_is_chosen() {
    let mut screen = usual(demo());
    shown(&mut screen, &drawing("new-r2018.dxf"));
    assert!(screen.get_by_role_and_label(Role::Button, "Take it").accesskit_node().is_disabled());
    screen.get_by_label_contains("several outlines on layer");
    press(&mut screen, "2: 9\u{202f}000 by 5\u{202f}000 mm");
    settle(&mut screen);
    press(&mut screen, "Take it");
    assert!((size(&screen) - DVec2::new(9_000.0, 5_000.0)).length() < 0.01);
}

/// However long the sentence is that says what is wrong, and wherever it breaks, the work on it comes to an end.
#[test]
fn a_sentence_of_any_length_comes_to_rest() {
    let folder = home("drawing-names");
    std::fs::create_dir_all(&folder).unwrap();
    let mut screen = usual(demo());
    for long in (4..=104).step_by(10) {
        let path = folder.join("n".repeat(long)).with_extension("dxf");
        std::fs::copy(drawing("new-r2018.dxf"), &path).unwrap();
        shown(&mut screen, &path);
        screen.get_by_label_contains("several outlines on layer");
    }
    clear(folder);
}

/// R12 says no unit: it is asked for. Then a wall that was taped sets the size right.
#[test]
fn the_unit_is_asked_for_and_a_known_length_scales() {
    let mut screen = usual(demo());
    shown(&mut screen, &drawing("old-r12.dxf"));
    screen.get_by_label_contains("does not say its unit");
    press(&mut screen, "cm");
    settle(&mut screen);
    screen.get_by_label_contains("the smallest gap that was left open");
    press(&mut screen, "mm");
    settle(&mut screen);
    assert!(screen.query_by_label_contains("the smallest gap that was left open").is_none());
    let wall = screen.get_by_role_and_label(Role::ComboBox, "Wall");
    wall.scroll_to_me();
    wall.focus();
    screen.step();
    screen.key_press(Key::ArrowDown);
    screen.step();
    settle(&mut screen);
    type_into(&mut screen, "Its length", "6.030 m");
    settle(&mut screen);
    screen.get_by_label_contains("1.005");
    press(&mut screen, "Take it");
    assert!((size(&screen).x - 12_060.0).abs() < 0.1, "{}", size(&screen));
}

/// The lines of a drawing, as a picture to scale under the plan: where a wall is drawn, the picture is dark.
#[test]
fn a_drawing_lies_under_the_plan_to_scale() {
    let home = home("drawing-under");
    let mut screen = start(&home);
    ask(&mut screen, Command::File(OfFile::SaveAs(home.join("bay.ron"), false)));
    // What lies there under its name is not replaced.
    std::fs::write(home.join("blocks-r2010.png"), "mine").unwrap();
    let before = screen.state().document().layout().clone();
    shown(&mut screen, &drawing("blocks-r2010.dxf"));
    press(&mut screen, "A picture under the plan");
    settle(&mut screen);
    becomes(&mut screen, "F", "left out");
    press(&mut screen, "Take it");
    settle(&mut screen);
    assert_eq!(screen.state().view().page(), None);
    let now = screen.state().document().layout().clone();
    let underlay = now.underlay.clone().expect("a picture");
    assert_eq!(underlay.picture, "blocks-r2010 2.png");
    assert_eq!(std::fs::read(home.join("blocks-r2010.png")).unwrap(), b"mine");
    let picture = image::open(home.join(&underlay.picture)).unwrap().to_luma8();
    let map = underlay.bay_from_px(f64::from(picture.height()));
    let at = |bay: DVec2| {
        let px = map.px(bay);
        picture.get_pixel(px.x as u32, px.y as u32).0[0]
    };
    // A wall, the alcove's; and where a cabinet is that was left out, and the middle of the floor.
    for dark in [(6_000.0, 0.0), (0.0, 3_000.0), (7_000.0, 7_000.0), (12_000.0, 5_000.0)] {
        assert!(at(DVec2::new(dark.0, dark.1)) < 100, "{dark:?}");
    }
    for light in [(1_450.0, 1_000.0), (6_000.0, 3_000.0)] {
        assert!(at(DVec2::new(light.0, light.1)) > 200, "{light:?}");
    }
    assert_eq!(now.bay, before.bay);
    ask(&mut screen, Command::Undo);
    assert_eq!(screen.state().document().layout(), &before);
    drop(screen);
    clear(home);
}

/// What cannot be read gives its sentence; the work stays as it is, and the page is left by Escape.
#[test]
fn a_drawing_that_cannot_be_read_is_said() {
    let home = home("no-drawing");
    let mut screen = usual(demo());
    let before = screen.state().document().layout().clone();
    for (name, text, said) in [
        ("a.dxf", "Dear customer", "this is no DXF drawing"),
        ("b.dwg", "AC1032", "this is a DWG drawing, which is not read here"),
    ] {
        let path = home.join(name);
        std::fs::write(&path, text).unwrap();
        ask(&mut screen, Command::File(OfFile::Open(path.clone())));
        settle(&mut screen);
        screen.get_by_label_contains(said);
        assert!(screen.query_by_label("Take it").is_none());
    }
    screen.key_press(Key::Escape);
    screen.run();
    assert_eq!(screen.state().view().page(), None);
    assert_eq!(screen.state().document().layout(), &before);
    clear(home);
}
