//! From an empty start: one's own car from a sheet of paper, its aiming, a room of six walls with a door and five things,
//! and the verdict; and that nothing of it is lost.

use baywright_desk::screen::Desk;
use baywright_desk::screen::command::{Begin, Command, OfBay, OfCar, OfFile, OfView};
use baywright_desk::screen::unbroken;
use baywright_desk::session::document::Document;
use baywright_planner::entry::CarDeed;
use baywright_planner::model::assumed::BodyPart;
use baywright_planner::model::{Known, OpeningKind, Provenance};
use baywright_planner::{Severity, Subject};
use egui::Key;
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;

use crate::sessions::{ask, home, press, start};
use crate::support::{type_into, verdict};

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
    screen.get_by_label_contains(&unbroken("The last wall ends 40 mm from where you began: 1 in 799"));
    // Nothing is spread unasked: it could hide a wall that was misread.
    press(&mut screen, "Make this bay");
    assert!(screen.state().view().page().is_some(), "not made yet");
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
