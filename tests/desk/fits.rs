//! Every page, form and menu in small and large windows, with ordinary and large letters, in millimetres and feet: no text is cut,
//! no text lies on another, and all that can be pressed or typed in is reached by scrolling.

use std::collections::BTreeSet;
use std::path::Path;

use baywright_desk::screen::Desk;
use baywright_desk::screen::command::{Begin, Command, OfBay, OfCar, OfShop, OfView};
use baywright_desk::screen::page::{Leaving, Page, Question};
use baywright_desk::screen::view::Tab;
use baywright_desk::session::shop::FacePart;
use baywright_planner::Subject;
use baywright_planner::edit::Edit;
use baywright_planner::geometry::DVec2;
use baywright_planner::model::Underlay;
use baywright_planner::words::{Language, Locale, Units};
use egui::accesskit::Role;
use egui::{Pos2, Rect, Shape, Vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT, Queryable};

use crate::all_pages::all_pages;
use crate::forms::unfold;
use crate::legible::letters;
use crate::sessions::ask;
use crate::support::{desk, screen};

/// Less is no cut and no overlap, px: letters keep to their boxes with room to spare.
const SLACK_PX: f32 = 2.0;

/// A text as it is painted, and what may be seen of it.
struct Painted {
    text: String,
    rect: Rect,
    clip: Rect,
    elided: bool,
}

impl Painted {
    fn seen(&self) -> Rect {
        self.rect.intersect(self.clip)
    }
}

/// The texts that are seen, without those of the drawings: what lies under a page or a menu is not.
fn painted(screen: &Harness<'_, Desk>) -> Vec<Painted> {
    fn collect(shape: &Shape, clip: Rect, window: Rect, all: &mut Vec<Painted>) {
        match shape {
            Shape::Text(text) if !text.galley.text().trim().is_empty() && text.angle == 0.0 => {
                let rect = text.visual_bounding_rect();
                let own =
                    Painted { text: text.galley.job.text.clone(), rect, clip, elided: text.galley.elided };
                if own.seen().is_positive() {
                    all.push(own);
                }
            }
            // The shade of what lies over the rest, and what darkens the rest behind a page.
            Shape::Rect(own)
                if own.blur_width > 0.0 || (own.fill.a() > 20 && own.rect.contains_rect(window)) =>
            {
                all.retain(|text| !text.seen().intersects(own.rect.shrink(own.blur_width)));
            }
            Shape::Vec(shapes) => shapes.iter().for_each(|own| collect(own, clip, window, all)),
            _ => {}
        }
    }
    let is_customers = matches!(screen.state().view().page(), Some(Page::Customer(_)));
    let paper: Vec<Rect> =
        screen.state().drawings().map(|(_, rect)| rect).filter(|_| !is_customers).collect();
    let window = screen.ctx.content_rect();
    let mut all = Vec::new();
    for clipped in screen.output().shapes.iter().filter(|own| !paper.contains(&own.clip_rect)) {
        collect(&clipped.shape, clipped.clip_rect, window, &mut all);
    }
    all
}

/// What was found in one state of the screen.
#[derive(Default)]
struct Looked {
    wrong: BTreeSet<String>,
    /// What can be pressed or typed in and was seen whole.
    reached: BTreeSet<u64>,
}

impl Looked {
    /// Looks at what is seen now; what can be pressed or typed in and is not seen whole is handed back, from above to below.
    fn look(&mut self, screen: &mut Harness<'_, Desk>, told: &mut BTreeSet<String>) -> Vec<(u64, Rect)> {
        let all = painted(screen);
        let fields: Vec<Rect> = [Role::TextInput, Role::MultilineTextInput]
            .into_iter()
            .flat_map(|role| {
                screen.query_all_by_role(role).map(|own| own.rect().expand(6.0)).collect::<Vec<_>>()
            })
            .collect();
        for (i, one) in all.iter().enumerate() {
            // What is typed runs along in its field.
            let is_typed = fields.iter().any(|field| field.contains_rect(one.seen()));
            let cut = one.rect.left() < one.clip.left() - SLACK_PX
                || one.rect.right() > one.clip.right() + SLACK_PX;
            if cut && !is_typed {
                self.wrong.insert(format!("cut: {:?} at {} of {}", one.text, one.rect, one.clip));
            }
            for other in &all[i + 1..] {
                let both = one.seen().intersect(other.seen());
                if both.width() > SLACK_PX && both.height() > SLACK_PX {
                    self.wrong.insert(format!("{:?} on {:?} at {both}", one.text, other.text));
                }
            }
        }
        for own in all.iter().filter(|own| own.elided && told.insert(own.text.clone())) {
            screen.hover_at(own.seen().center());
            screen.run_steps(8);
            if !painted(screen).iter().any(|shown| shown.text.contains(&own.text) && !shown.elided) {
                self.wrong.insert(format!("shortened, and nothing tells the whole: {:?}", own.text));
            }
            screen.hover_at(Pos2::new(screen.ctx.content_rect().width() * 0.5, 1.0));
            screen.run_steps(2);
        }
        let window = screen.ctx.content_rect().expand(SLACK_PX);
        let has_page = screen.state().view().page().is_some();
        let mut hidden = Vec::new();
        screen.ctx.viewport(|viewport| {
            for (layer, widgets) in viewport.prev_pass.widgets.layers() {
                if has_page && layer.order == egui::Order::Background {
                    continue;
                }
                for own in widgets.iter().filter(|own| own.sense.is_focusable() && own.enabled) {
                    // Bars that scroll are sized by what they scroll; what has no room at all is not there yet.
                    let whole = own.interact_rect.expand(SLACK_PX).contains_rect(own.rect);
                    // A field of many lines may be higher than its place, and scrolls in itself.
                    let high = own.rect.height() > 90.0 && own.interact_rect.height() > 60.0;
                    if high || whole && window.contains_rect(own.rect) {
                        self.reached.insert(own.id.value());
                    } else if own.rect.is_positive() && own.rect.height() < window.height() * 0.7 {
                        hidden.push((own.id.value(), own.rect));
                    }
                }
            }
        });
        hidden.sort_by(|a, b| a.1.top().total_cmp(&b.1.top()));
        hidden
    }
}

/// Looks at all of it: what is out of sight is brought into it as a screen reader asks for it.
fn look(screen: &mut Harness<'_, Desk>, place: &str, told: &mut BTreeSet<String>, found: &mut Vec<String>) {
    let mut looked = Looked::default();
    let mut asked = BTreeSet::new();
    let mut hidden = looked.look(screen, told);
    while let Some((id, rect)) =
        hidden.iter().find(|(id, _)| !looked.reached.contains(id) && asked.insert(*id)).copied()
    {
        screen.event(egui::Event::AccessKitActionRequest(egui::accesskit::ActionRequest {
            action: egui::accesskit::Action::ScrollIntoView,
            target_tree: egui::accesskit::TreeId::ROOT,
            target_node: egui::accesskit::NodeId(id),
            data: None,
        }));
        screen.run_steps(3);
        hidden = looked.look(screen, told);
        // What is drawn anew as it scrolls may go by another name then.
        if hidden.iter().any(|own| own.0 == id) && !looked.reached.contains(&id) {
            looked.wrong.insert(format!("never reached: {id:x} at {rect}"));
        }
    }
    found.extend(looked.wrong.into_iter().map(|wrong| format!("{place}: {wrong}")));
}

/// One of each kind that has a form of its own.
fn subjects(screen: &Harness<'_, Desk>) -> Vec<Subject> {
    let shown = &screen.state().answer().arrangement;
    let bay = &shown.bay;
    let mut subjects = vec![Subject::Floor, Subject::Car];
    subjects.extend(bay.walls.iter().map(|own| Subject::Wall(own.id.clone())).take(1));
    subjects.extend(bay.openings.iter().map(|own| Subject::Opening(own.id.clone())).take(2));
    subjects.extend(bay.floor_features.iter().map(|own| Subject::FloorFeature(own.id.clone())).take(1));
    subjects.extend(bay.runways.iter().map(|own| Subject::Runway(own.id.clone())).take(1));
    subjects.extend(bay.keep_free.iter().map(|own| Subject::KeepFree(own.id.clone())).take(1));
    subjects.extend(bay.bays.iter().map(|own| Subject::HallBay(own.id.clone())).take(1));
    subjects.extend(bay.dimensions.iter().map(|own| Subject::Dimension(own.id.clone())).take(1));
    subjects.extend(bay.things.iter().map(|own| Subject::Thing(own.id.clone())).take(2));
    subjects.extend(shown.aiming.placements.iter().map(|own| Subject::Stand(own.id.clone())).take(1));
    subjects.extend(shown.aiming.zones.iter().map(|own| Subject::Zone(own.id.clone())).take(1));
    subjects
}

const LONG: &str = "a name that goes on and on, as names of things in real workshops do when nobody cuts them short, and on and on";

/// Names as long as they may be: of a thing, a wall, the bay, the set-up, the shop.
fn name_at_length(screen: &mut Harness<'_, Desk>) {
    let rename = Edit::Rename { thing: "trolley".into(), name: LONG.into() };
    ask(screen, Command::Bay(OfBay::Edit(rename)));
    let mut bay = screen.state().document().bay().into_owned();
    bay.rename_wall(0, format!("w{LONG}").as_str().into());
    bay.name = LONG.to_owned();
    ask(screen, Command::Bay(OfBay::Edit(Edit::Bay { bay: Box::new(bay), renamed: None })));
    ask(screen, Command::Bay(OfBay::Edit(Edit::NameArrangement(LONG.into()))));
    ask(screen, Command::Shop(OfShop::Say(FacePart::Name(Some(LONG.to_owned())))));
    let shown = &screen.state().answer().arrangement;
    let things = shown.bay.things.iter().filter(|own| own.id.as_str() == LONG).count();
    assert_eq!((things, shown.bay.name.as_str(), shown.id.as_str()), (1, LONG, LONG));
}

fn fits(size: (f32, f32), large: bool, language: Language, units: Units) {
    let (mut found, mut told) = (Vec::new(), BTreeSet::new());
    let mut seen = 0;
    for layout in ["crowded-bay", "lift-bay", "hall"] {
        let mut screen = screen(desk(Path::new(layout), None), Vec2::from(size), 1.0);
        screen.state_mut().view_mut().letters = letters(large);
        screen.state_mut().view_mut().locale = Locale::of(language, units);
        screen.run();
        let mut at = |screen: &mut Harness<'_, Desk>, place: &str| {
            look(screen, &format!("{layout}, {place}"), &mut told, &mut found);
            seen += 1;
        };
        at(&mut screen, "as it opens");
        ask(&mut screen, Command::View(OfView::Tab(Tab::Marks)));
        at(&mut screen, "marks");
        ask(&mut screen, Command::View(OfView::Tab(Tab::Findings)));
        ask(&mut screen, Command::View(OfView::List(true)));
        for subject in subjects(&screen) {
            let place = format!("{subject:?}");
            ask(&mut screen, Command::View(OfView::Select(Some(subject))));
            unfold(&mut screen);
            at(&mut screen, &place);
        }
        ask(&mut screen, Command::View(OfView::Select(None)));
        if layout != "crowded-bay" {
            continue;
        }
        for page in all_pages(&screen) {
            let place = format!("{page:?}").chars().take(24).collect::<String>();
            if page == Page::RoomDrawing {
                crate::room_drawing::show(&mut screen, "blocks-r2010.dxf");
            } else {
                let is_paper = page == Page::OnPaper;
                screen.state_mut().lay(Some(page));
                screen.run();
                while is_paper && !screen.state().is_paper_settled() {
                    std::thread::sleep(std::time::Duration::from_millis(5));
                    screen.step();
                }
            }
            screen.run();
            unfold(&mut screen);
            at(&mut screen, &place);
        }
        screen.state_mut().lay(None);
        screen.run();
        for begin in [Begin::New, Begin::Change] {
            for whole in [false, true] {
                ask(&mut screen, Command::Car(OfCar::Begin(begin)));
                ask(&mut screen, Command::Car(OfCar::Whole(whole)));
                unfold(&mut screen);
                at(&mut screen, &format!("car, {begin:?}, whole {whole}"));
                ask(&mut screen, Command::Car(OfCar::DropAnyway));
            }
        }
        let texts = language.screen();
        let picked = [texts.car, texts.aiming, texts.bay, texts.arrangement].map(|own| format!("{own}: "));
        for menu in picked.into_iter().chain([texts.show, texts.add].map(str::to_owned)) {
            let opens = |own: &egui_kittest::Node<'_>| {
                let name = own.accesskit_node().label().or(own.accesskit_node().value());
                name.is_some_and(|name| name == menu || menu.ends_with(' ') && name.starts_with(&menu))
            };
            let button = screen.query_all_by_role(Role::Button).find(opens);
            button.unwrap_or_else(|| panic!("no {menu}")).click();
            // That of the set-ups asks anew in each frame whether all are judged.
            screen.run_steps(6);
            at(&mut screen, &format!("the menu {menu}"));
            screen.key_press(egui::Key::Escape);
            screen.run_steps(3);
        }
        ask(&mut screen, Command::View(OfView::Select(Some(Subject::Thing("trolley".into())))));
        ask(&mut screen, Command::View(OfView::SelectToo(Subject::Thing("tool cabinet".into()))));
        at(&mut screen, "two in hand");
        ask(&mut screen, Command::View(OfView::MenuByKey));
        at(&mut screen, "the menu of what is in hand");
        ask(&mut screen, Command::View(OfView::Menu(None)));
        ask(&mut screen, Command::View(OfView::Select(None)));
        let underlay = Underlay {
            picture: "plan of the hall, second floor.png".to_owned(),
            mm_per_px: 12.5,
            at: DVec2::ZERO,
            turned_rad: 0.01,
            faded: 0.5,
        };
        ask(&mut screen, Command::Bay(OfBay::Edit(Edit::Underlay(Some(underlay)))));
        ask(&mut screen, Command::View(OfView::Select(Some(Subject::Floor))));
        unfold(&mut screen);
        at(&mut screen, "a picture under the plan");
        ask(&mut screen, Command::View(OfView::Select(None)));
        name_at_length(&mut screen);
        at(&mut screen, "long names");
        for own in
            [Subject::Thing(LONG.into()), Subject::Wall(format!("w{LONG}").as_str().into()), Subject::Car]
        {
            ask(&mut screen, Command::View(OfView::Select(Some(own))));
            unfold(&mut screen);
            at(&mut screen, "long names, a form");
        }
        ask(&mut screen, Command::View(OfView::Select(None)));
        for page in [Page::Customer(0), Page::Customer(1), Page::Ask(Question::Unsaved(Leaving::Quit))] {
            screen.state_mut().lay(Some(page));
            screen.run();
            at(&mut screen, "long names, a page");
        }
        screen.state_mut().lay(None);
        screen.run();
        ask(&mut screen, Command::Bay(OfBay::Duplicate));
        at(&mut screen, "another set-up");
    }
    assert!(seen > 60, "{seen} states were looked at");
    assert!(found.is_empty(), "{} of {seen}:\n{}", found.len(), found.join("\n"));
}

#[test]
fn in_a_small_window_in_large_letters() {
    fits((1280.0, 720.0), true, Language::English, Units::Millimetres);
}

#[test]
fn in_a_small_window_in_large_letters_and_feet() {
    fits((1280.0, 720.0), true, Language::English, Units::FeetInches);
}

#[test]
fn in_a_small_window() {
    fits((1280.0, 720.0), false, Language::English, Units::Millimetres);
}

#[test]
fn in_a_small_window_in_feet() {
    fits((1280.0, 720.0), false, Language::English, Units::FeetInches);
}

#[test]
fn in_a_large_window() {
    fits((2560.0, 1440.0), false, Language::English, Units::Millimetres);
}

#[test]
fn in_a_large_window_in_large_letters_and_feet() {
    fits((2560.0, 1440.0), true, Language::English, Units::FeetInches);
}

#[test]
fn in_a_small_window_in_german() {
    fits((1280.0, 720.0), false, Language::German, Units::Millimetres);
}

#[test]
fn in_a_small_window_in_german_in_large_letters() {
    fits((1280.0, 720.0), true, Language::German, Units::Metres);
}

#[test]
fn in_a_large_window_in_german() {
    fits((2560.0, 1440.0), false, Language::German, Units::Millimetres);
}
