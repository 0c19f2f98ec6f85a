//! From an empty start: one's own car from a sheet of paper, its aiming, a room of six walls with a door and five things,
//! and the verdict; and that nothing of it is lost.

use std::path::PathBuf;

use baywright_desk::screen::Desk;
use baywright_desk::screen::command::{Begin, Command, OfBay, OfCar, OfFile, OfView};
use baywright_desk::screen::page::Page;
use baywright_desk::session::document::Document;
use baywright_planner::entry::CarDeed;
use baywright_planner::model::assumed::{AimingPart, BodyPart};
use baywright_planner::model::{Known, OpeningKind, Provenance, ThingKind};
use baywright_planner::{Severity, Subject};
use egui::Key;
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;

use crate::support::{demo, type_into, usual, verdict};

pub fn home(name: &str) -> PathBuf {
    let home = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(format!("own-{}-{name}", std::process::id()));
    let _ = std::fs::remove_dir_all(&home);
    std::fs::create_dir_all(&home).unwrap();
    home
}

/// The demo, as it opens for someone who has nothing yet, with a home of its own.
pub fn start(home: &std::path::Path) -> Harness<'static, Desk> {
    let mut desk = demo();
    desk.live_in(home.to_owned());
    desk.keep_everything();
    usual(desk)
}

/// The next start, once the session that died is seen to be dead: it offers what was left.
pub fn after_the_end(home: &std::path::Path) -> Harness<'static, Desk> {
    for _ in 0..100 {
        let screen = start(home);
        if matches!(screen.state().view().page, Some(Page::LeftBehind)) {
            return screen;
        }
        std::thread::sleep(std::time::Duration::from_millis(20));
    }
    panic!("nothing is offered");
}

/// Once everything is on the disk and the session is dead, the next start offers nothing.
pub fn nothing_is_offered_after(mut screen: Harness<'static, Desk>, home: PathBuf) {
    screen.state_mut().wait_until_kept();
    drop(screen);
    std::thread::sleep(std::time::Duration::from_millis(200));
    assert!(start(&home).state().view().page.is_none());
    crate::support::clear(home);
}

pub fn press(screen: &mut Harness<'_, Desk>, label: &str) {
    screen.get_by_label(label).click();
    screen.run();
}

pub fn ask(screen: &mut Harness<'_, Desk>, command: Command) {
    let ctx = screen.ctx.clone();
    screen.state_mut().ask(&ctx, command);
    screen.run();
}

/// The nine figures of the sheet, field by field as they stand in the form.
const SHEET: [(&str, &str); 9] = [
    ("Length", "4300"),
    ("Width", "1,79 m"),
    ("Wheelbase", "2640"),
    ("Front overhang", "860"),
    ("Radar above ground", "545"),
    ("Radar left of centreline", "-120"),
    ("Stand-off", "3200"),
    ("Tolerance, left and right", "0.2"),
    ("Kept clear each side", "1400"),
];

pub fn enter_car(screen: &mut Harness<'_, Desk>) {
    screen.get_by_label_contains("Car: ").click();
    screen.run();
    press(screen, "Enter a new car …");
    type_into(screen, "Name of the car", "Van of the flower shop");
    for (label, typed) in SHEET {
        screen.get_by_label(label).scroll_to_me();
        screen.run();
        type_into(screen, label, typed);
    }
    press(screen, "Keep this car");
}

#[test]
fn the_first_five_minutes_from_an_empty_start() {
    let home = home("path");
    let mut screen = start(&home);
    // The car from its sheet of paper, and the aiming.
    enter_car(&mut screen);
    let car = screen.state().answer().arrangement.vehicle.clone();
    assert_eq!(car.name, "Van of the flower shop");
    assert_eq!(
        (car.length_mm, car.width_mm, car.wheelbase_mm, car.overhang_front_mm),
        (4_300.0, 1_790.0, 2_640.0, 860.0)
    );
    assert!((car.overhang_rear_mm - 800.0).abs() < 1e-6, "what the length leaves");
    assert_eq!((car.sensors[0].at.y, car.sensors[0].at.z), (-120.0, 545.0));
    let aiming = &car.aimings[0];
    assert_eq!(aiming.placements[0].stand_off.distance_mm, 3_200.0);
    assert_eq!(aiming.zones[0].outline.bounds().high.y, 1_400.0);
    assert!((aiming.tolerance.azimuth_rad.to_degrees() - 0.2).abs() < 1e-9);
    // What was not entered says so, in the answer too.
    assert!(car.is_assumed(BodyPart::Height) && !car.is_assumed(BodyPart::Width));
    let codes: Vec<&str> =
        screen.state().answer().assessment.findings.iter().map(|finding| finding.code().as_str()).collect();
    assert!(codes.contains(&"assumed-figures") && codes.contains(&"example-figures"), "{codes:?}");
    let file = home.join("vehicle-profiles/van-of-the-flower-shop.ron");
    assert!(std::fs::read_to_string(&file).unwrap().contains("wheelbase_mm: 2640"));

    // The room: six walls as they were taped, an L; the tape is 40 mm out.
    screen.get_by_label_contains("Bay: ").click();
    screen.run();
    press(&mut screen, "Draw a new bay …");
    press(&mut screen, "Wall by wall");
    for _ in 0..2 {
        press(&mut screen, "One more wall");
    }
    let walls =
        [("9000", "90"), ("4000", "90"), ("3000", "-90"), ("3000", "90"), ("5960", "90"), ("7000", "90")];
    for (i, (length, turn)) in walls.iter().enumerate() {
        type_into(&mut screen, &format!("Wall {}, Length", i + 1), length);
        type_into(&mut screen, &format!("Wall {}, turn left, °", i + 1), turn);
    }
    type_into(&mut screen, "Wall 1, name", "street wall");
    screen.get_by_label_contains("The last wall ends 40 mm from where you began: 1 in 799");
    // Nothing is spread unasked: it could hide a wall that was misread.
    press(&mut screen, "Make this bay");
    assert!(screen.state().view().page.is_some(), "not made yet");
    press(
        &mut screen,
        "Use it: Street wall alone would explain it: 8\u{202f}960 mm instead of 9\u{202f}000 mm.",
    );
    screen.get_by_label("It closes.");
    // A press beside the page loses nothing; nor does closing it.
    let beside = egui::pos2(20.0, 880.0);
    screen.hover_at(beside);
    screen.drag_at(beside);
    screen.drop_at(beside);
    screen.run();
    press(&mut screen, "Close");
    ask(&mut screen, Command::File(OfFile::BeginBay));
    screen.get_by_label("It closes.");
    type_into(&mut screen, "Wall 1, Length", "9000");
    press(&mut screen, "Spread what is left over all walls, by their lengths");
    press(&mut screen, "Make this bay");
    let bay = screen.state().document().layout().bay.clone();
    assert_eq!((bay.walls.len(), bay.walls[0].id.as_str()), (6, "street wall"));
    assert!(screen.state().document().is_changed(), "it is on no disk yet");
    let closed: f64 =
        screen.state().document().layout().taped.as_ref().unwrap().walls.iter().map(|w| w.length_mm).sum();
    assert!((closed - 31_960.0).abs() < 1e-6, "as it was taped");

    // A door in the street wall and five things.
    ask(&mut screen, Command::View(OfView::Select(Some(Subject::Wall("street wall".into())))));
    press(&mut screen, "+ Add");
    press(&mut screen, "roller door");
    let bay = &screen.state().document().layout().bay;
    assert_eq!((bay.openings[0].kind, bay.openings[0].wall), (OpeningKind::RollerDoor, 0));
    type_into(&mut screen, "from wall 6", "500");
    assert_eq!(screen.state().document().layout().bay.openings[0].from_mm, 500.0);
    for (kind, wall, far) in [
        ("cabinet", "from street wall", "300"),
        ("bench", "from street wall", "200"),
        ("trolley", "from street wall", "400"),
        ("bin", "from street wall", "250"),
        ("drum", "from street wall", "350"),
    ] {
        press(&mut screen, "+ Add");
        press(&mut screen, kind);
        if screen.query_by_label(wall).is_some() {
            type_into(&mut screen, wall, far);
        }
    }
    let things = &screen.state().answer().arrangement.bay.things;
    assert_eq!(things.len(), 5);
    assert!(things.iter().all(|thing| thing.place.known != Known::Taped), "one typed distance of two");
    // The verdict, in words and with what is in the way.
    let words = ["Space ready", "Space ready with care", "Space not ready"];
    assert!(words.iter().any(|word| screen.query_by_label(word).is_some()));
    let told = verdict(&screen);
    let path = home.join("mine.ron");
    ask(&mut screen, Command::File(OfFile::SaveAs(path.clone(), false)));
    assert!(!screen.state().document().is_changed());

    // Opened again by someone else, with the car beside it in the user's own folder, it says the same.
    let folder = home.join("vehicle-profiles");
    let library = baywright_files::Library::folders(vec![folder]);
    let layout = baywright_files::load_layout(&path).unwrap();
    let document = Document::of(layout, Some(path), None, &library, crate::support::today()).unwrap();
    let again = baywright_planner::assess(&document.arrangement().unwrap());
    assert_eq!(again.verdict, told);
    assert_eq!(again.count(Severity::Stops), screen.state().answer().assessment.count(Severity::Stops));
    crate::support::clear(home);
}

#[test]
fn enter_leads_from_field_to_field_and_undo_goes_back_through_the_form() {
    let home = home("enter");
    let mut screen = start(&home);
    screen.get_by_label_contains("Car: ").click();
    screen.run();
    press(&mut screen, "Enter a new car …");
    // One press into the first field; then only figures and Enter.
    screen.get_by_label("Length").click();
    screen.run();
    for (_, typed) in &SHEET[..4] {
        // A fast hand: figure and Enter come within one frame, and the next figure in the frame after.
        screen.event(egui::Event::Text((*typed).to_owned()));
        screen.key_press(Key::Enter);
        screen.step();
    }
    screen.run();
    let car = || screen.state().document().draft().unwrap().car().clone();
    assert_eq!(
        (car().length_mm, car().width_mm, car().wheelbase_mm, car().overhang_front_mm),
        (4_300.0, 1_790.0, 2_640.0, 860.0)
    );
    // The drawing followed, in the bay that is open.
    assert_eq!(screen.state().answer().arrangement.vehicle.wheelbase_mm, 2_640.0);
    ask(&mut screen, Command::Undo);
    let draft = screen.state().document().draft().unwrap();
    assert!(draft.car().is_assumed(BodyPart::OverhangFront));
    assert_eq!(draft.redoes(), Some(&CarDeed::Body(BodyPart::OverhangFront)));
    // The bay waits meanwhile.
    ask(&mut screen, Command::Bay(OfBay::KeepPromise));
    assert!(!screen.state().document().is_changed());
    // Leaving asks first.
    press(&mut screen, "Drop it");
    press(&mut screen, "Go on entering it");
    assert!(screen.state().document().draft().is_some());
    crate::support::clear(home);
}

#[test]
fn what_is_wrong_stands_beside_its_field_and_the_drawing_waits() {
    let home = home("wrong");
    let mut screen = start(&home);
    ask(&mut screen, Command::Car(OfCar::Begin(Begin::New)));
    ask(&mut screen, Command::Car(OfCar::Whole(true)));
    let width = screen.state().answer().arrangement.vehicle.width_mm;
    type_into(&mut screen, "Front track", "2500");
    assert!(screen.query_all_by_label_contains("less than the width").next().is_some());
    assert!(screen.state().answer().stale, "the drawing is of what was sound");
    press(&mut screen, "Keep this car");
    assert!(screen.state().document().draft().is_some(), "it cannot be kept");
    // What does not fit yet was typed all the same: after a crash it is there.
    screen.state_mut().wait_until_kept();
    let journals = std::fs::read_dir(home.join("journal")).unwrap().flatten();
    let mut kept = journals.map(|file| std::fs::read(file.path()).unwrap_or_default());
    assert!(kept.any(|bytes| String::from_utf8_lossy(&bytes).contains("track_front_mm: 2500")));
    ask(&mut screen, Command::Undo);
    assert!(!screen.state().answer().stale);
    assert_eq!(screen.state().answer().arrangement.vehicle.width_mm, width);
    // Unlikely is asked about, not refused.
    type_into(&mut screen, "Wheelbase", "1700");
    assert!(screen.query_all_by_label_contains("Is it right?").next().is_some());
    press(&mut screen, "Keep this car");
    assert!(screen.state().document().draft().is_none());
    crate::support::clear(home);
}

#[test]
fn a_shipped_car_is_changed_into_ones_own_with_its_source() {
    let home = home("source");
    let mut screen = start(&home);
    ask(&mut screen, Command::Car(OfCar::Begin(Begin::Change)));
    let draft = screen.state().document().draft().unwrap();
    assert_eq!(draft.car().id.as_str(), "example-hatchback-small-2");
    let mut car = baywright_planner::model::Vehicle::clone(draft.car());
    let maker = Provenance::Maker { document: "Service sheet 12".into(), date: None };
    car.provenance = maker.clone();
    for sensor in &mut car.sensors {
        sensor.provenance = maker.clone();
    }
    for aiming in &mut car.aimings {
        aiming.provenance = maker.clone();
    }
    ask(&mut screen, Command::Car(OfCar::Change(Box::new(car))));
    ask(&mut screen, Command::Car(OfCar::Keep));
    let answer = screen.state().answer();
    assert_eq!(answer.arrangement.vehicle.provenance, maker);
    // The bay is still an example, and so the answer says so.
    assert!(answer.assessment.on_example_figures);
    assert!(screen.query_by_label_contains("on example figures").is_some());
    crate::support::clear(home);
}

#[test]
fn what_was_not_saved_is_offered_after_a_crash() {
    let home = home("crash");
    let mut screen = start(&home);
    press(&mut screen, "Do all of this");
    screen.state_mut().wait_until_kept();
    let moved = screen.state().document().saved_arrangement().unwrap().moved.clone();
    // The program dies with its window.
    drop(screen);
    let mut screen = after_the_end(&home);
    assert!(!screen.state().document().is_changed());
    press(&mut screen, "Open it again: Bay: Crowded bay");
    assert!(screen.state().document().is_changed(), "it is on no disk yet");
    assert_eq!(screen.state().document().saved_arrangement().unwrap().moved, moved);
    // Saved, it is offered no more.
    ask(&mut screen, Command::File(OfFile::SaveAs(home.join("bay.ron"), false)));
    nothing_is_offered_after(screen, home);
}

#[test]
fn a_second_window_on_one_file_is_told() {
    let home = home("two");
    let mut first = start(&home);
    ask(&mut first, Command::File(OfFile::SaveAs(home.join("bay.ron"), false)));
    let mut desk = crate::support::desk(&home.join("bay.ron"), None);
    desk.live_in(home.clone());
    desk.keep_everything();
    let second = usual(desk);
    assert!(second.query_by_label_contains("open in another window too").is_some());
    drop(first);
    drop(second);
    crate::support::clear(home);
}

/// What was changed where it stands is compared with what it was when the bay was opened, though nobody made a copy.
#[test]
fn as_opened_is_always_there_to_compare_with() {
    let mut screen = usual(demo());
    let found = screen.state().answer().assessment.findings.len();
    press(&mut screen, "Do all of this");
    ask(&mut screen, Command::Page(Some(Page::Compare(Default::default()))));
    screen.get_by_label("As opened");
    screen.get_by_label("Gone (3)");
    screen.get_by_label("2 things stop the aiming, 5 need care.");
    ask(&mut screen, Command::Page(None));
    // A copy of it was not there then: it comes from the one that it was made from.
    ask(&mut screen, Command::Bay(OfBay::Duplicate));
    let with = Some(baywright_desk::screen::page::With::Opened);
    ask(&mut screen, Command::Page(Some(Page::Compare(baywright_desk::screen::page::Compare { with }))));
    screen.get_by_label("As opened: As found");
    screen.get_by_label("Gone (3)");
    assert!(found > screen.state().answer().assessment.findings.len());
}

#[test]
fn before_and_after_moving_the_cabinet() {
    let mut screen = usual(demo());
    ask(&mut screen, Command::Bay(OfBay::Duplicate));
    assert_eq!(screen.state().document().shown().as_str(), "As found 2");
    press(&mut screen, "Do all of this");
    ask(&mut screen, Command::Page(Some(Page::Compare(Default::default()))));
    assert!(screen.query_by_label("Gone (3)").is_some());
    // The moves go past what the places of the things and of the car are uncertain by: nothing new is to be minded.
    assert!(screen.query_by_label("New (0)").is_some());
    assert!(screen.query_by_label("In both (5)").is_some());
    press(&mut screen, "Show this one");
    assert_eq!(screen.state().document().shown().as_str(), "As found");
    // Undone twice, the copy is gone and something is still shown.
    ask(&mut screen, Command::Bay(OfBay::Show("As found 2".into())));
    for _ in 0..2 {
        ask(&mut screen, Command::Undo);
    }
    assert_eq!(screen.state().document().shown().as_str(), "As found");
    assert!(!screen.state().document().is_changed() && !screen.state().answer().stale);
}

#[test]
fn a_visit_is_chosen_from_the_work_that_is_done() {
    let home = home("visit");
    let mut screen = start(&home);
    ask(&mut screen, Command::Bay(OfBay::ChooseCar("example-saloon".into())));
    ask(&mut screen, Command::BeginVisit);
    assert!(screen.query_by_label("Nothing is ticked yet.").is_some());
    // The list itself is changed without a text editor, and kept as the shop's own.
    press(&mut screen, "Change this list");
    type_into(&mut screen, "Work 1, name", "Glass fitted");
    let Some(Page::Visit(page)) = screen.state_mut().view_mut().page.as_mut() else { panic!("no page") };
    page.list.triggers.truncate(4);
    screen.run();
    press(&mut screen, "Keep as the shop's own list");
    let kept = baywright_files::triggers(Some(&home)).unwrap();
    assert_eq!((kept.triggers.len(), kept.triggers[0].title.as_str()), (4, "Glass fitted"));
    assert_eq!(kept.name, "The shop's own list");
    let Some(Page::Visit(page)) = screen.state().view().page.clone() else { panic!("no page") };
    // The first few of the list: whatever this car has of it is to be aimed, each once.
    for trigger in page.list.triggers.iter().take(3) {
        screen.get_by_label(&trigger.title).click();
        screen.run();
    }
    press(&mut screen, "Aim these, in this order");
    let visit = screen.state().document().saved_arrangement().unwrap().visit.clone();
    let car = &screen.state().answer().arrangement.vehicle;
    assert!(!visit.is_empty() && visit.len() <= car.aimings.len());
    assert_eq!(screen.state().answer().arrangement.aiming.id, visit[0]);
    let place = format!("Aiming 1 of {}", visit.len());
    assert!(screen.query_all_by_label_contains(&place).next().is_some(), "{place}");
    // A car that lacks what the work asks for: that is said, and not that nothing is to be done.
    ask(&mut screen, Command::Bay(OfBay::ChooseCar("example-hatchback-small".into())));
    ask(&mut screen, Command::BeginVisit);
    press(&mut screen, "Glass fitted");
    assert!(screen.query_by_label_contains("none of them is entered for this car").is_some());
    assert!(screen.query_by_label_contains("nothing is to be aimed").is_none());
    ask(&mut screen, Command::Page(None));
    // Another car is not in for it.
    ask(&mut screen, Command::Bay(OfBay::ChooseCar("example-van".into())));
    assert!(screen.state().document().saved_arrangement().unwrap().visit.is_empty());
    crate::support::clear(home);
}

/// What is taped from the car is in the bay where the car is, no better known than that.
#[test]
fn a_thing_that_is_placed_from_a_wheel_is_known_as_the_car_is() {
    let mut screen = usual(demo());
    ask(&mut screen, Command::View(OfView::Select(Some(Subject::Thing("trolley".into())))));
    press(&mut screen, "Place it by tape");
    screen.query_all_by_label("Place it by tape").last().unwrap().click();
    screen.run();
    press(&mut screen, "from a wheel");
    type_into(&mut screen, "Ahead", "1500");
    type_into(&mut screen, "Aside", "1000");
    press(&mut screen, "Put it there");
    let arrangement = &screen.state().answer().arrangement;
    let place = arrangement.bay.things.iter().find(|own| own.id.as_str() == "trolley").unwrap().place;
    let (mm, rad) = arrangement.shop.parked_within(arrangement.parked_known);
    let far = place.at.origin().distance(arrangement.parked.origin());
    let within = mm + rad * far + arrangement.shop.within(Known::Taped);
    assert!(matches!(place.known, Known::Within(own) if own >= within && own < within + 1.0), "{place:?}");
}

#[test]
fn a_thing_is_placed_from_two_corners_and_is_taped_then() {
    let mut screen = usual(demo());
    ask(&mut screen, Command::View(OfView::Select(Some(Subject::Thing("trolley".into())))));
    press(&mut screen, "Place it by tape");
    let before = screen.state().answer().arrangement.bay.things[0].clone();
    assert_eq!(before.id.as_str(), "trolley");
    // 3-4-5 from the corner at the bay's origin: 4 000 along, 3 000 across, seen from (0, 0) and (12 000, 0).
    type_into(&mut screen, "Distance 1", "5000");
    type_into(&mut screen, "Distance 2", "8544.004");
    press(&mut screen, "Put it there");
    let after = screen.state().answer().arrangement.bay.things[0].clone();
    let at = after.place.at.origin();
    assert!((at.x - 4_000.0).abs() < 0.01 && (at.y - 3_000.0).abs() < 0.01, "{at}");
    assert_eq!(after.place.known, Known::Taped);
    // Dragged, it is known by eye again; undone, it is taped.
    let from = crate::support::middle(&screen, "the trolley, top view");
    crate::support::drag(&mut screen, from, from + egui::Vec2::new(30.0, 0.0));
    assert_eq!(screen.state().answer().arrangement.bay.things[0].place.known, Known::ByEye);
    ask(&mut screen, Command::Undo);
    assert_eq!(screen.state().answer().arrangement.bay.things[0].place.known, Known::Taped);
    // Tapes that do not meet say so.
    type_into(&mut screen, "Distance 2", "1000");
    assert!(screen.query_by_label_contains("do not meet").is_some());
}

#[test]
fn a_zone_is_drawn_and_a_mark_is_picked_in_the_top_view() {
    let home = home("drawn");
    let mut screen = start(&home);
    ask(&mut screen, Command::Car(OfCar::Begin(Begin::New)));
    // A zone between two places of the drawing, in the car's own frame.
    let drawn = baywright_desk::screen::view::Drawn::Zone { aiming: 0, zone: 0 };
    ask(&mut screen, Command::View(OfView::Tool(baywright_desk::screen::view::Tool::Draw(drawn))));
    let [mark_5, mark_6] =
        ["mark 5, top view", "mark 6, top view"].map(|label| crate::support::middle(&screen, label));
    crate::support::drag(&mut screen, mark_5, mark_6 + egui::Vec2::new(60.0, 0.0));
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
    let tool = baywright_desk::screen::view::Tool::PickMark { aiming: 0, step: 6, nth: 0 };
    ask(&mut screen, Command::View(OfView::Tool(tool)));
    let mark_3 = crate::support::middle(&screen, "mark 3, top view");
    screen.hover_at(mark_3);
    screen.step();
    screen.drag_at(mark_3);
    screen.step();
    screen.drop_at(mark_3);
    screen.run();
    let car = screen.state().document().draft().unwrap().car().clone();
    assert_eq!(car.aimings[0].mark_plan[6].construction.uses(), [2, 5]);
    crate::support::clear(home);
}

#[test]
fn a_picture_of_a_plan_lies_under_the_drawing_and_is_scaled_by_two_points() {
    let home = home("picture");
    let picture = image::RgbaImage::from_fn(300, 200, |x, y| {
        if x % 100 == 0 || y % 100 == 0 {
            image::Rgba([0, 0, 0, 255])
        } else {
            image::Rgba([230, 240, 255, 255])
        }
    });
    picture.save(home.join("plan.png")).unwrap();
    let mut screen = start(&home);
    ask(&mut screen, Command::File(OfFile::SaveAs(home.join("bay.ron"), false)));
    ask(&mut screen, Command::View(OfView::Select(Some(Subject::Floor))));
    press(&mut screen, "Picture of a plan");
    type_into(&mut screen, "Picture", "plan.png");
    for _ in 0..200 {
        if screen.query_by_label_contains("is being read").is_none() {
            break;
        }
        std::thread::sleep(std::time::Duration::from_millis(10));
        screen.run();
    }
    let underlay = |screen: &Harness<'_, Desk>| screen.state().document().layout().underlay.clone().unwrap();
    assert_eq!(underlay(&screen).mm_per_px, 10.0);
    assert_eq!(underlay(&screen).at, screen.state().document().layout().bay.room.bounds().low);
    // 100 px of it are 2 m: from the corner at the bay's origin to 1 000 mm along.
    let corner = underlay(&screen).at;
    let scale = baywright_desk::screen::view::Tool::ScalePicture { first: None };
    let two_points = |screen: &mut Harness<'_, Desk>| {
        ask(screen, Command::View(OfView::Tool(scale)));
        for along in [0.0, 1_000.0] {
            let at = corner + baywright_planner::geometry::DVec2::new(along, 0.0);
            ask(screen, Command::Bay(OfBay::ScalePoint(at)));
        }
        screen.get_by_label("They are apart").scroll_to_me();
        screen.run();
    };
    two_points(&mut screen);
    type_into(&mut screen, "They are apart", "2 m");
    assert!((underlay(&screen).mm_per_px - 20.0).abs() < 1e-9);
    assert!(underlay(&screen).at.distance(corner) < 1e-6, "the first point stays");
    // Left by Tab it is taken as well, and no field after it takes it back.
    ask(&mut screen, Command::Undo);
    assert_eq!(underlay(&screen).mm_per_px, 10.0);
    two_points(&mut screen);
    screen.get_by_label("They are apart").click();
    screen.run();
    screen.get_by_label("They are apart").type_text("2 m");
    screen.run();
    for _ in 0..4 {
        screen.key_press(egui::Key::Tab);
        screen.run();
        assert!((underlay(&screen).mm_per_px - 20.0).abs() < 1e-9, "{:?}", underlay(&screen));
    }
    // Named by its whole path, it is kept as it is named from the layout's own folder.
    let whole = home.join("plan.png").display().to_string();
    type_into(&mut screen, "Picture", &whole);
    assert_eq!(underlay(&screen).picture, "plan.png");
    // It is saved and read again; a picture that is not there is said and nothing else happens.
    ask(&mut screen, Command::File(OfFile::Save));
    assert_eq!(
        baywright_files::load_layout(&home.join("bay.ron")).unwrap().underlay,
        Some(underlay(&screen))
    );
    type_into(&mut screen, "Picture", "nothing.png");
    // At the foot of the screen, whatever form is open.
    let told = |screen: &Harness<'_, Desk>| {
        let notice = screen.state().view().notice.as_ref();
        notice.is_some_and(|notice| notice.wrong && notice.text.contains("nothing.png"))
    };
    for _ in 0..200 {
        if told(&screen) {
            break;
        }
        std::thread::sleep(std::time::Duration::from_millis(10));
        screen.run();
    }
    assert!(told(&screen));
    crate::support::clear(home);
}

/// Leaving while a car is being entered: saving the bay must not lose the car.
#[test]
fn leaving_with_a_car_half_entered_asks_about_the_car() {
    let home = home("leaving");
    let mut screen = start(&home);
    ask(&mut screen, Command::Car(OfCar::Begin(Begin::New)));
    type_into(&mut screen, "Length", "4300");
    ask(&mut screen, Command::Quit);
    press(&mut screen, "Go on entering it");
    assert_eq!(screen.state().document().draft().unwrap().car().length_mm, 4_300.0);
    ask(&mut screen, Command::File(OfFile::Open("clear-bay".into())));
    press(&mut screen, "Drop the car");
    assert!(screen.state().document().draft().is_none());
    crate::support::clear(home);
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
    let corner = egui::pos2(right.left(), above.bottom());
    // Right angles stay: the wall behind moves on with it. Held off by Alt, it is the corner alone.
    for (held, corners) in [(egui::Modifiers::NONE, 2), (egui::Modifiers::ALT, 1)] {
        screen.event(egui::Event::ModifiersChanged(held));
        crate::support::drag(&mut screen, corner, corner + egui::Vec2::new(-40.0, 0.0));
        screen.event(egui::Event::ModifiersChanged(egui::Modifiers::NONE));
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

#[test]
fn what_comes_from_the_shelf_stands_in_nobodys_way() {
    // There is no room for a second parked car.
    let kinds = ThingKind::ALL.into_iter().filter(|kind| *kind != ThingKind::ParkedCar);
    for kind in kinds {
        let mut screen = usual(demo());
        let before = screen.state().answer().assessment.findings.clone();
        ask(&mut screen, Command::Bay(OfBay::Add(kind)));
        let answer = screen.state().answer();
        let new = answer.arrangement.bay.things.last().unwrap().id.clone();
        let blamed: Vec<_> =
            answer.assessment.findings.iter().filter(|f| f.culprit() == Some(&new)).collect();
        assert!(blamed.is_empty(), "{kind:?}: {blamed:?}");
        assert_eq!(answer.assessment.findings.len(), before.len(), "{kind:?}");
    }
}
