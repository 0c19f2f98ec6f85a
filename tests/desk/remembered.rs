//! Files and the window, as people expect of any program: what is remembered, what is dropped, the usual keys.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use baywright_desk::screen::Desk;
use baywright_desk::screen::command::{Command, OfFile, OfView};
use baywright_desk::screen::page::{Leaving, Page, Question};
use baywright_desk::screen::view::Letters;
use baywright_drawing::Theme;
use baywright_files::MOST_RECENT;
use baywright_planner::Subject;
use baywright_planner::model::ThingKind;
use baywright_planner::words::{Language, Locale, Units};
use egui::{Event, Key, Modifiers, ViewportCommand, ViewportId};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT, Queryable};

use crate::first::{first, window};
use crate::sessions::{ask, home, press};
use crate::support::{demo, usual};

const CTRL: Modifiers = Modifiers::COMMAND;

fn key(screen: &mut Harness<'_, Desk>, modifiers: Modifiers, key: Key) {
    screen.key_combination_modifiers(modifiers, &[key]);
    screen.run();
}

/// A shipped file, copied under a name.
fn copied(of: &str, to: &Path) -> PathBuf {
    std::fs::create_dir_all(to.parent().unwrap()).unwrap();
    std::fs::copy(Path::new(env!("CARGO_MANIFEST_DIR")).join(of), to).unwrap();
    to.to_owned()
}

fn open(screen: &mut Harness<'_, Desk>, path: &Path) {
    ask(screen, Command::File(OfFile::Open(path.to_owned())));
    assert_eq!(screen.state().document().path(), Some(path));
}

#[derive(Debug)]
struct Dropped(PathBuf);

impl egui::DroppedFile for Dropped {
    fn path(&self) -> &Path {
        &self.0
    }

    fn bytes(&self) -> Result<Vec<u8>, String> {
        std::fs::read(&self.0).map_err(|error| error.to_string())
    }
}

fn drop_files(screen: &mut Harness<'_, Desk>, paths: &[&Path]) {
    for path in paths {
        screen.input_mut().dropped_files.push(Arc::new(Dropped(path.to_path_buf())));
    }
    screen.step();
    screen.run();
}

#[test]
fn how_it_was_shown_is_remembered() {
    let home = home("shown");
    let mut screen = window(&home, first(&home));
    press(&mut screen, "Look round the invented shop");
    for asked in [
        OfView::Language(Language::German),
        OfView::Units(Units::FeetInches),
        OfView::Theme(Theme::Dark),
        OfView::ToRoom(true),
    ] {
        ask(&mut screen, Command::View(asked));
    }
    key(&mut screen, CTRL, Key::Plus);
    drop(screen);
    let screen = window(&home, first(&home));
    let view = screen.state().view();
    assert_eq!((view.locale.units, view.theme, view.to_room), (Units::FeetInches, Theme::Dark, true));
    assert_eq!(view.locale, Locale::of(Language::German, Units::FeetInches));
    assert_eq!(view.letters.percent(), 115);
    assert!((screen.ctx.zoom_factor() - 1.15).abs() < 1e-6);
    crate::support::clear(home);
}

/// The paper that sheets are printed on, and which way it lies; nobody who chose none is held to any.
#[test]
fn the_paper_of_sheets_is_remembered() {
    let home = home("printed-on");
    let mut screen = window(&home, first(&home));
    press(&mut screen, "Look round the invented shop");
    let kept = || baywright_files::remembered(&home).unwrap().unwrap();
    assert_eq!((kept().printed_on, kept().printed_level), (None, None));
    key(&mut screen, CTRL, Key::P);
    press(&mut screen, "A3");
    press(&mut screen, "Level");
    drop(screen);
    assert_eq!((kept().printed_on.as_deref(), kept().printed_level), (Some("A3"), Some(true)));
    let mut screen = window(&home, first(&home));
    key(&mut screen, CTRL, Key::P);
    crate::on_paper::settle(&mut screen);
    crate::on_paper::type_path(&mut screen, &home.join("level.svg"));
    press(&mut screen, "Save");
    crate::on_paper::settle(&mut screen);
    let one = std::fs::read_dir(&home).unwrap().map(|own| own.unwrap().path());
    let one = one.into_iter().find(|own| own.extension().is_some_and(|own| own == "svg")).unwrap();
    let svg = std::fs::read_to_string(one).unwrap();
    // 420 by 297 mm, at 96 px to the inch.
    let sides = [420.0, 297.0].map(|mm: f64| (mm / 25.4 * 96.0 * 100.0).round() / 100.0);
    let [width, height] = sides;
    assert!(svg.contains(&format!("width=\"{width}\" height=\"{height}\"")), "{}", &svg[..300]);
    crate::support::clear(home);
}

#[test]
fn letters_grow_and_shrink_by_keys_as_far_as_there_is_room() {
    let mut screen = usual(demo());
    let percent = |screen: &Harness<'_, Desk>| screen.state().view().letters.percent();
    key(&mut screen, CTRL, Key::Minus);
    assert_eq!(percent(&screen), 100);
    screen.get_by_label("Letters are at their usual size, the smallest there is.");
    for expected in [115, 130, 145, 160, 180] {
        // The plus of many keyboards is a shifted equals sign.
        let shift = Modifiers { shift: expected % 2 == 0, ..CTRL };
        key(&mut screen, shift, if expected < 140 { Key::Plus } else { Key::Equals });
        assert_eq!(percent(&screen), expected);
    }
    key(&mut screen, CTRL, Key::Plus);
    assert_eq!(percent(&screen), 180, "1440 points are too few for twice the size");
    screen.get_by_label("This window has no room for larger letters.");
    key(&mut screen, CTRL, Key::Minus);
    assert_eq!(screen.state().view().letters, Letters::LARGE);
    // The drawing is not meant by these keys.
    assert_eq!(screen.state().view().camera, None);
}

#[test]
fn dark_follows_the_system_when_it_is_asked_to() {
    let home = home("system");
    let mut screen = window(&home, first(&home));
    press(&mut screen, "Look round the invented shop");
    let says = |screen: &mut Harness<'_, Desk>, theme| {
        screen.input_mut().system_theme = Some(theme);
        screen.run_steps(2);
        screen.state().view().theme
    };
    assert_eq!(says(&mut screen, egui::Theme::Dark), Theme::Light, "not asked to");
    press(&mut screen, "Show");
    press(&mut screen, "As the system");
    assert_eq!(says(&mut screen, egui::Theme::Dark), Theme::Dark);
    assert_eq!(says(&mut screen, egui::Theme::Light), Theme::Light);
    drop(screen);
    let mut screen = window(&home, first(&home));
    assert_eq!(says(&mut screen, egui::Theme::Dark), Theme::Dark, "remembered");
    ask(&mut screen, Command::View(OfView::Theme(Theme::Light)));
    assert_eq!(says(&mut screen, egui::Theme::Dark), Theme::Light, "chosen");
    crate::support::clear(home);
}

#[test]
fn the_files_that_were_opened_last_are_offered() {
    let home = home("recent");
    let mut screen = window(&home, first(&home));
    press(&mut screen, "Look round the invented shop");
    let there: Vec<PathBuf> = (0..MOST_RECENT + 2)
        .map(|number| copied("bay-layouts/clear-bay.ron", &home.join(format!("bays/bay {number}.ron"))))
        .collect();
    for path in &there {
        open(&mut screen, path);
    }
    let same = copied("bay-layouts/short-bay.ron", &home.join("other/bay 5.ron"));
    open(&mut screen, &same);
    drop(screen);
    // The next start offers them, too; elsewhere, so that none of them stands "in this folder".
    let mut screen = window(&home, first(&home));
    screen.get_by_label_contains("Bay: ").click();
    screen.run();
    screen.get_by_label("Opened last");
    // Two of one name are told apart; one that is too long ago is gone.
    screen.get_by_label("bay 5, other");
    screen.get_by_label("bay 5, bays");
    assert!(screen.query_by_label("bay 2").is_none() && screen.query_by_label("bay 3").is_some());
    press(&mut screen, "bay 11");
    assert_eq!(screen.state().document().path(), Some(there[11].as_path()));
    // On the page "Open" as well.
    key(&mut screen, CTRL, Key::O);
    press(&mut screen, "bay 5, other");
    assert_eq!(screen.state().document().path(), Some(same.as_path()));
    crate::support::clear(home);
}

#[test]
fn the_usual_keys_begin_close_save_and_fill_the_screen() {
    let mut screen = usual(demo());
    key(&mut screen, CTRL, Key::N);
    assert!(matches!(screen.state().view().page(), Some(Page::NewBay(_))));
    key(&mut screen, CTRL, Key::W);
    assert_eq!(screen.state().view().page(), None);
    key(&mut screen, Modifiers { shift: true, ..CTRL }, Key::S);
    assert!(matches!(screen.state().view().page(), Some(Page::Save(_))));
    key(&mut screen, CTRL, Key::W);
    let sent = |screen: &mut Harness<'_, Desk>, modifiers, key| {
        // In one frame, whose commands are looked at.
        let down = Event::Key { key, physical_key: None, pressed: true, repeat: false, modifiers };
        screen.input_mut().events.push(down);
        screen.step();
        let output = &screen.output().viewport_output[&ViewportId::ROOT];
        output.commands.clone()
    };
    assert!(sent(&mut screen, Modifiers::NONE, Key::F11).contains(&ViewportCommand::Fullscreen(true)));
    screen.run();
    // Something is not saved: it asks first, then as now closes.
    ask(&mut screen, Command::Bay(baywright_desk::screen::command::OfBay::Add(ThingKind::Trolley)));
    assert!(!sent(&mut screen, CTRL, Key::W).contains(&ViewportCommand::Close));
    assert_eq!(screen.state().view().page(), Some(&Page::Ask(Question::Unsaved(Leaving::Quit))));
    let mut screen = usual(demo());
    assert!(sent(&mut screen, CTRL, Key::W).contains(&ViewportCommand::Close));
}

#[test]
fn what_is_sought_in_the_list_is_all_that_it_shows() {
    let mut screen = usual(demo());
    key(&mut screen, CTRL, Key::F);
    for letter in "steel 900".chars() {
        screen.event(Event::Text(letter.to_string()));
    }
    screen.run();
    let rows = |screen: &Harness<'_, Desk>| {
        let all = screen.query_all_by_role(egui::accesskit::Role::ListBoxOption);
        all.map(|row| row.accesskit_node().label().unwrap_or_default()).collect::<Vec<_>>()
    };
    assert!(matches!(&rows(&screen)[..], [only] if only.starts_with("Tool cabinet")), "{:?}", rows(&screen));
    screen.key_press(Key::Enter);
    screen.run();
    assert_eq!(screen.state().view().selected, Some(Subject::Thing("tool cabinet".into())));
    key(&mut screen, CTRL, Key::F);
    for letter in "zeppelin".chars() {
        screen.event(Event::Text(letter.to_string()));
    }
    screen.run();
    assert!(rows(&screen).is_empty());
    screen.get_by_label("Nothing here is like that.");
    screen.key_press(Key::Escape);
    screen.run();
    assert!(rows(&screen).len() > 5);
    // On the page of all cars the keys lead to its own search.
    ask(&mut screen, Command::Page(Some(Page::Cars(String::new(), false))));
    key(&mut screen, CTRL, Key::F);
    screen.event(Event::Text("van".to_owned()));
    screen.run();
    assert!(matches!(screen.state().view().page(), Some(Page::Cars(sought, _)) if sought == "van"));
}

#[test]
fn what_is_dropped_on_the_window_opens_as_what_it_is() {
    let home = home("dropped");
    let mut screen = usual(demo());
    let bay = copied("bay-layouts/clear-bay.ron", &home.join("bays/mine.ron"));
    // Nothing is lost by it.
    ask(&mut screen, Command::Bay(baywright_desk::screen::command::OfBay::Add(ThingKind::Trolley)));
    drop_files(&mut screen, &[&bay]);
    assert_eq!(screen.state().view().page(), Some(&Page::Ask(Question::Unsaved(Leaving::Open(bay.clone())))));
    // Behind a question nothing opens unseen.
    drop_files(&mut screen, &[&bay]);
    screen.get_by_label("Close this page first, then drop the file again.");
    press(&mut screen, "Do not save");
    assert_eq!(screen.state().document().path(), Some(bay.as_path()));

    // A drawing of another program is shown with what comes of it; another one may be dropped on that.
    for _ in 0..2 {
        let drawing = copied("src/files/tests/dxf/blocks-r2010.dxf", &home.join("bays/hall.DXF"));
        drop_files(&mut screen, &[&drawing]);
        assert_eq!(screen.state().view().page(), Some(&Page::RoomDrawing));
    }
    key(&mut screen, Modifiers::NONE, Key::Escape);
    assert!(!screen.state().document().is_changed());

    // A picture lies under the plan, by its name alone where it lies beside the layout.
    let picture = home.join("bays/hall.PNG");
    image::RgbaImage::new(40, 30).save_with_format(&picture, image::ImageFormat::Png).unwrap();
    drop_files(&mut screen, &[&picture]);
    let underlay = |screen: &Harness<'_, Desk>| {
        screen.state().document().layout().underlay.as_ref().map(|own| own.picture.clone())
    };
    assert_eq!(underlay(&screen).as_deref(), Some("hall.PNG"));
    let elsewhere = home.join("hall.png");
    std::fs::copy(&picture, &elsewhere).unwrap();
    drop_files(&mut screen, &[&elsewhere]);
    assert_eq!(underlay(&screen), Some(elsewhere.display().to_string()));

    // A car that can be chosen is chosen; another one is entered, so that it can be kept.
    let car = copied("vehicle-profiles/example-van.ron", &home.join("example-van.ron"));
    drop_files(&mut screen, &[&car]);
    assert_eq!(screen.state().answer().arrangement.vehicle.id.as_str(), "example-van");
    assert!(screen.state().document().draft().is_none());
    let other = std::fs::read_to_string(&car).unwrap().replacen("name: \"", "name: \"Our ", 1);
    std::fs::write(&car, other).unwrap();
    drop_files(&mut screen, &[&car, &bay]);
    let draft = screen.state().document().draft().expect("a car is being entered").car();
    assert!(
        draft.name.starts_with("Our ") && draft.id.as_str() != "example-van",
        "{} {}",
        draft.name,
        draft.id
    );
    screen.get_by_label("Several files were dropped; only the first one was looked at.");
    // It is not lost by the next one.
    drop_files(&mut screen, &[&bay]);
    assert_eq!(screen.state().view().page(), Some(&Page::Ask(Question::DropCar)));
    key(&mut screen, Modifiers::NONE, Key::Escape);

    let note = home.join("note.txt");
    std::fs::write(&note, "Dear customer").unwrap();
    drop_files(&mut screen, &[&note]);
    screen.get_by_label("This file is no bay, no car, no picture and no drawing (DXF); nothing was opened.");
    // What is wrong with a bay is said where it is opened.
    ask(&mut screen, Command::Car(baywright_desk::screen::command::OfCar::DropAnyway));
    ask(&mut screen, Command::Undo);
    std::fs::write(&bay, "(version: 6, name: \"Mine\", room: (corners_mm: []))").unwrap();
    drop_files(&mut screen, &[&bay]);
    assert!(matches!(screen.state().view().page(), Some(Page::Open(page)) if !page.faults.is_empty()));
    crate::support::clear(home);
}
