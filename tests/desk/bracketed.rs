//! Every text on the screen is made by the words: in the language for tests each of them stands in brackets, and what stands
//! without them is a name that was typed, a figure with its unit, the letter of a finding or a path.

use std::collections::BTreeSet;
use std::path::Path;

use baywright_desk::screen::Desk;
use baywright_desk::screen::command::{Begin, Command, OfBay, OfCar, OfFile, OfShop, OfView};
use baywright_desk::screen::page::{Compare, Page, With};
use baywright_desk::screen::view::{Measuring, Tab, Tool};
use baywright_drawing::sheet::Size;
use baywright_planner::Subject;
use baywright_planner::geometry::DVec2;
use baywright_planner::model::{Id, ShopFigure};
use baywright_planner::words::{Language, Units};
use egui::accesskit::{Action, Role};
use egui_kittest::Harness;
use egui_kittest::kittest::NodeT;

use crate::all_pages::all_pages;
use crate::forms::unfold;
use crate::made::{Typed, must_be_empty};
use crate::sessions::ask;
use crate::support::{desk, usual};

/// What the screen shows that no words made; empty if all is well.
#[derive(Default)]
struct Walk {
    typed: Typed,
    found: BTreeSet<String>,
    seen: usize,
}

impl Walk {
    /// Built-in bays are offered by the names of their files.
    fn learn_built_in(&mut self) {
        let names = baywright_files::EMBEDDED_LAYOUTS.iter().map(|own| own.name.replace('-', " "));
        self.typed.0.extend(names);
    }

    /// Looks at all that is painted and all that a screen reader is told.
    fn look(&mut self, screen: &Harness<'_, Desk>, place: &str) {
        let document = screen.state().document();
        self.typed.learn(document.layout());
        self.typed.learn_arrangement(&screen.state().answer().arrangement);
        document.cars().iter().for_each(|car| self.typed.learn_car(&car.vehicle));
        if let Some(draft) = document.draft() {
            self.typed.learn_car(draft.car());
        }
        let mut texts = Vec::new();
        for node in screen.root().children_recursive() {
            let node = node.accesskit_node();
            // The lines of a text that can be chosen: the text itself is looked at as a whole.
            if node.role() == Role::TextRun {
                continue;
            }
            if matches!(node.role(), Role::TextInput | Role::MultilineTextInput) {
                // What stands in a field was typed, or is offered to be typed over.
                texts.extend(node.label());
                self.typed.0.extend(node.value());
                continue;
            }
            let told = [node.label(), node.value(), node.data().description().map(str::to_owned)];
            texts.extend(told.into_iter().flatten());
        }
        for clipped in &screen.output().shapes {
            painted(&clipped.shape, &mut texts);
        }
        for text in texts {
            self.seen += 1;
            if !self.typed.is_made(&text) {
                self.found.insert(format!("{place}: {text:?}"));
            }
        }
    }

    fn must_be_made(&self, least: usize) {
        must_be_empty(&self.found);
        assert!(self.seen >= least, "only {} texts were looked at", self.seen);
    }
}

fn painted(shape: &egui::Shape, texts: &mut Vec<String>) {
    match shape {
        egui::Shape::Text(text) => texts.push(text.galley.text().to_owned()),
        egui::Shape::Vec(shapes) => shapes.iter().for_each(|shape| painted(shape, texts)),
        _ => {}
    }
}

fn bracketed(layout: &str, arrangement: Option<&str>) -> Harness<'static, Desk> {
    let mut screen = usual(desk(Path::new(layout), arrangement));
    // The letters are cut to those that are used, and these brackets are not.
    screen.ctx.set_missing_glyph_policy(egui::MissingGlyphPolicy::Tofu);
    screen.ctx.all_styles_mut(|style| style.interaction.tooltip_delay = 0.0);
    screen.state_mut().view_mut().locale.language = Language::Bracketed;
    screen.run();
    screen
}

#[test]
fn every_shipped_bay() {
    let mut walk = Walk::default();
    for built_in in baywright_files::EMBEDDED_LAYOUTS {
        let first = desk(Path::new(built_in.name), None);
        for own in &first.document().layout().arrangements {
            let mut screen = bracketed(built_in.name, Some(own.id.as_str()));
            walk.look(&screen, built_in.name);
            let findings = screen.state().answer().assessment.findings.len();
            for at in 0..findings {
                ask(&mut screen, Command::View(OfView::Explain(at)));
            }
            screen.state_mut().view_mut().locale.units = Units::FeetInches;
            ask(&mut screen, Command::View(OfView::ToRoom(true)));
            walk.look(&screen, built_in.name);
            ask(&mut screen, Command::View(OfView::Tab(Tab::Marks)));
            walk.look(&screen, built_in.name);
        }
    }
    walk.must_be_made(2_000);
}

#[test]
fn every_part_of_a_bay_in_hand() {
    let mut walk = Walk::default();
    for layout in ["crowded-bay", "lift-bay", "hall"] {
        let mut screen = bracketed(layout, None);
        let bay = screen.state().answer().arrangement.bay.clone();
        let mut subjects = vec![Subject::Floor, Subject::Car];
        subjects.extend(bay.walls.iter().map(|own| Subject::Wall(own.id.clone())));
        subjects.extend(bay.openings.iter().map(|own| Subject::Opening(own.id.clone())));
        subjects.extend(bay.floor_features.iter().map(|own| Subject::FloorFeature(own.id.clone())));
        subjects.extend(bay.runways.iter().map(|own| Subject::Runway(own.id.clone())));
        subjects.extend(bay.keep_free.iter().map(|own| Subject::KeepFree(own.id.clone())));
        subjects.extend(bay.bays.iter().map(|own| Subject::HallBay(own.id.clone())));
        subjects.extend(bay.things.iter().map(|own| Subject::Thing(own.id.clone())));
        let placements = screen.state().answer().arrangement.aiming.placements.clone();
        subjects.extend(placements.iter().map(|own| Subject::Stand(own.id.clone())));
        for subject in subjects {
            let place = format!("{layout}, {subject:?}");
            ask(&mut screen, Command::View(OfView::Select(Some(subject))));
            unfold(&mut screen);
            walk.look(&screen, &place);
        }
    }
    walk.must_be_made(2_000);
}

/// A building as planned: its sign, its forms, what it differs in, the page that compares it.
#[test]
fn a_building_as_planned() {
    use baywright_planner::edit::Edit;
    let mut walk = Walk::default();
    for layout in ["crowded-bay", "lift-bay"] {
        let mut screen = bracketed(layout, None);
        let other = screen.state().document().shown().clone();
        ask(&mut screen, Command::Bay(OfBay::Duplicate));
        ask(&mut screen, Command::Bay(OfBay::Edit(Edit::PlanBuilding)));
        ask(&mut screen, Command::View(OfView::Select(Some(Subject::Floor))));
        walk.look(&screen, "as the bay's so far");
        let mut bay = screen.state().document().bay().into_owned();
        walk.typed.0.extend(bay.names().map(Id::to_string));
        bay.push_wall(1, -600.0).unwrap();
        bay.ceiling_mm += 300.0;
        bay.rename_wall(0, "front, new".into());
        bay.openings[0].width_mm -= 200.0;
        bay.openings[0].shut = !bay.openings[0].shut;
        bay.things[0].material = baywright_planner::model::Material::Wood;
        bay.things[0].place.known = baywright_planner::model::Known::ByEye;
        bay.things.pop();
        ask(&mut screen, Command::Bay(OfBay::Edit(Edit::Bay { bay: Box::new(bay), renamed: None })));
        walk.typed.learn_arrangement(&screen.state().answer().arrangement);
        walk.typed.0.insert("front, new".to_owned());
        walk.look(&screen, "as planned");
        ask(&mut screen, Command::Page(Some(Page::Compare(Compare { with: Some(With::Other(other)) }))));
        walk.look(&screen, "compared");
    }
    walk.must_be_made(200);
}

#[test]
fn the_forms_of_a_car() {
    let mut walk = Walk::default();
    for begin in [Begin::New, Begin::Change] {
        for whole in [false, true] {
            let mut screen = bracketed("crowded-bay", None);
            ask(&mut screen, Command::Car(OfCar::Begin(begin)));
            ask(&mut screen, Command::Car(OfCar::Whole(whole)));
            unfold(&mut screen);
            walk.look(&screen, &format!("{begin:?}"));
        }
    }
    walk.must_be_made(300);
}

#[test]
fn the_pages() {
    let mut walk = Walk::default();
    let mut screen = bracketed("crowded-bay", None);
    let list = baywright_files::triggers(None).unwrap();
    for trigger in &list.triggers {
        walk.typed.0.extend([trigger.title.clone(), trigger.note.clone()]);
    }
    walk.learn_built_in();
    // Sizes of paper go by their names in every language.
    walk.typed.0.extend(Size::ALL.map(|own| own.name().to_owned()));
    ask(&mut screen, Command::Bay(OfBay::Duplicate));
    for page in all_pages(&screen) {
        let place = format!("{page:?}").chars().take(20).collect::<String>();
        screen.state_mut().lay(Some(page));
        screen.run();
        unfold(&mut screen);
        walk.look(&screen, &place);
    }
    // Settings of the shop's own, and each trouble with their file.
    ask(&mut screen, Command::Shop(OfShop::Set(ShopFigure::ByEye, 90.0)));
    screen.state_mut().lay(Some(Page::Shop));
    screen.run();
    walk.look(&screen, "settings that have no place");
    let home = std::env::temp_dir().join(format!("baywright-bracketed-{}", std::process::id()));
    std::fs::create_dir_all(&home).unwrap();
    let file = home.join(baywright_files::SHOP_FILE);
    walk.typed.0.insert(file.display().to_string());
    screen.state_mut().live_in(home.clone());
    std::fs::write(&file, "(version: 1)").unwrap();
    ask(&mut screen, Command::Shop(OfShop::Set(ShopFigure::ByEye, 90.0)));
    walk.look(&screen, "settings that someone else changed");
    std::fs::write(&file, "(version: 1, by_eye_mm: 0.1)").unwrap();
    ask(&mut screen, Command::Shop(OfShop::ReadAgain));
    walk.look(&screen, "settings that cannot be read");
    crate::support::clear(home);
    walk.must_be_made(1_000);
}

/// The bar is no higher than this, px.
const BAR_PX: f32 = 60.0;

/// What opens under the bar, what stands beside the pointer, what the foot says.
#[test]
fn menus_hints_and_the_foot() {
    let mut walk = Walk::default();
    walk.learn_built_in();
    let mut screen = bracketed("crowded-bay", None);
    // Menus, by what can be unfolded in the bar: pickers by their titles, others by their sign.
    let texts = Language::Bracketed.screen();
    let is_menu = |text: &str| {
        text.contains('\u{25bc}')
            || [texts.car, texts.aiming, texts.bay, texts.arrangement]
                .iter()
                .any(|title| text.contains(title))
    };
    let opens = |screen: &Harness<'_, Desk>| -> Vec<egui::Rect> {
        let nodes = screen.root().children_recursive();
        nodes
            .filter(|node| {
                let own = node.accesskit_node();
                own.data().supports_action(Action::Click)
                    && own.raw_bounds().is_some()
                    && own.label().or(own.value()).is_some_and(|text| is_menu(&text))
                    && node.rect().bottom() < BAR_PX
            })
            .map(|node| node.rect())
            .collect()
    };
    let menus = opens(&screen);
    assert!(menus.len() >= 5, "{menus:?}");
    for rect in menus {
        screen.hover_at(rect.center());
        screen.step();
        screen.drag_at(rect.center());
        screen.step();
        screen.drop_at(rect.center());
        // The menu of arrangements asks anew in each frame whether all are judged.
        screen.run_steps(6);
        walk.look(&screen, "a menu");
        screen.key_press(egui::Key::Escape);
        screen.run_steps(3);
    }
    let controls: Vec<egui::Rect> = {
        let nodes = screen.root().children_recursive();
        nodes.filter(|node| node.accesskit_node().raw_bounds().is_some()).map(|node| node.rect()).collect()
    };
    for rect in controls {
        screen.hover_at(rect.center());
        screen.step();
        screen.step();
        walk.look(&screen, "a hint");
    }
    let middle = DVec2::new(1_000.0, 1_000.0);
    for tool in [
        Tool::Measure(Measuring::default()),
        Tool::Measure(Measuring { from: Some(middle), ..Measuring::default() }),
        Tool::Measure(Measuring { from: Some(middle), to: Some(DVec2::ZERO), ..Measuring::default() }),
        Tool::ScalePicture { first: None },
        Tool::MovePicture,
    ] {
        ask(&mut screen, Command::View(OfView::Tool(tool)));
        walk.look(&screen, "the foot");
    }
    for command in [
        Command::Bay(OfBay::Cure(0)),
        Command::Bay(OfBay::KeepPromise),
        Command::Undo,
        Command::Bay(OfBay::Copy),
        Command::File(OfFile::Open("/no/such/file.ron".into())),
        Command::View(OfView::JudgeAll),
    ] {
        let place = format!("{command:?}");
        ask(&mut screen, command);
        walk.look(&screen, &place);
    }
    walk.must_be_made(5_000);
}
