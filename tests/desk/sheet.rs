//! A sheet that does not go by the sensor's centre and the front axle, typed as it stands there: real keys only.

use std::path::Path;

use baywright_desk::screen::Desk;
use baywright_desk::screen::command::{Begin, Command, OfCar, OfView};
use baywright_planner::Subject;
use baywright_planner::model::assumed::{AimingPart, SensorPart};
use baywright_planner::model::{Adjusted, Datum, SensorPoint, TargetHeight};
use egui::{Event, Key};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT, Queryable};

use crate::sessions::{ask, home, press, start};
use crate::support::{demo, desk, type_into, usual};
use crate::typing::{car, happen, key, letters, new_car};

/// Figures with a key that leaves each.
fn figures(typed: &[&str], leave: Key) -> Vec<Event> {
    typed.iter().flat_map(|figure| [letters(figure), key(leave)].concat()).collect()
}

/// A choice in the list that has the keyboard, so many further down than what is chosen.
fn choose(further: usize) -> Vec<Event> {
    let arrows = (0..further).flat_map(|_| key(Key::ArrowDown));
    key(Key::Enter).into_iter().chain(arrows).chain(key(Key::Enter)).collect()
}

fn tabs(count: usize) -> Vec<Event> {
    (0..count).flat_map(|_| key(Key::Tab)).collect()
}

#[test]
fn a_sheet_by_the_lower_edge_and_the_front_spots_is_typed_by_keys() {
    let mut screen = usual(demo());
    new_car(&mut screen);
    let body = ["4780", "1850", "2840", "920", "1585", "1580", "225", "480", "0"];
    let keys = [
        figures(&body, Key::Tab),
        // Past the kind of target.
        tabs(2),
        figures(&["3600"], Key::Tab),
        // Measured from the front spots, to the face; the height from the lower edge.
        choose(1),
        tabs(2),
        choose(1),
    ];
    happen(&mut screen, &keys.concat(), 1);
    let now = car(&screen);
    let aiming = &now.aimings[0];
    assert_eq!(aiming.placements[0].stand_off.from, Datum::FrontSpots);
    let lower = |offset_mm| TargetHeight::FromSensor { point: SensorPoint::LowerEdge, offset_mm };
    assert_eq!(aiming.placements[0].height, lower(0.0));
    // How far above the edge is not said yet, nor where the edge is: neither is taken for entered, and the drawing waits.
    assert!(now.is_assumed(AimingPart::TargetHeight.of(&aiming.id)));
    screen.get_by_label("Still to be typed: forward radar, Lower edge below the centre.");
    assert!(screen.state().answer().stale);
    // The keyboard is where it is typed.
    happen(
        &mut screen,
        &figures(&["45", "45", "200", "0.25", "0.3", "4", "1400", "2000", "3880"], Key::Enter),
        1,
    );
    let now = car(&screen);
    let aiming = &now.aimings[0];
    assert_eq!(aiming.placements[0].height, lower(45.0));
    assert_eq!(now.sensors[0].edges.lower_below_mm, Some(45.0));
    assert!(!now.is_assumed(AimingPart::TargetHeight.of(&aiming.id)));
    assert_eq!((aiming.zones[0].span.top(), aiming.floor.unwrap().level_mm), (2_000.0, 4.0));
    assert!(screen.query_by_label_contains("Still to be typed").is_none());
    // The middle of the face belongs 480 - 45 + 45 mm up, 3600 mm before the front axle of this square car.
    let answer = screen.state().answer();
    assert!(!answer.stale);
    let scene = &answer.assessment.scene;
    assert_eq!(scene.targets[0].meant.height_mm, 480.0);
    let ahead = scene.bay_from_vehicle.inverse() * scene.targets[0].meant.place.origin();
    assert!((ahead.x - 3_600.0).abs() < 1e-9 && ahead.y.abs() < 1e-9, "{ahead}");
    // Each is a step of its own.
    for undone in [None, Some(lower(45.0)), Some(lower(0.0)), Some(TargetHeight::from_centre(0.0))] {
        let Some(height) = undone else {
            // From the reach back to the spots: seven figures.
            (0..7).for_each(|_| ask(&mut screen, Command::Undo));
            continue;
        };
        assert_eq!(car(&screen).aimings[0].placements[0].height, height);
        ask(&mut screen, Command::Undo);
        if height == lower(45.0) {
            assert_eq!(car(&screen).sensors[0].edges.lower_below_mm, None);
            ask(&mut screen, Command::Undo);
        }
    }
}

/// A plan without both spots has no line through them: that is said beside the choice, and the car is not kept like that.
#[test]
fn a_stand_off_from_spots_that_are_not_laid_is_told_beside_its_field() {
    let mut screen = usual(demo());
    new_car(&mut screen);
    let mut own = car(&screen);
    own.aimings[0].placements[0].stand_off.from = Datum::FrontSpots;
    own.aimings[0].mark_plan.clear();
    own.aimings[0].placements[0].mark = None;
    ask(&mut screen, Command::Car(OfCar::Change(Box::new(own))));
    let said = "without both spots in the mark plan is not possible; allowed is a mark plan with a spot outboard of each";
    assert_eq!(screen.query_all_by_label_contains(said).count(), 2, "beside the field and under the form");
    assert!(screen.query_all_by_label_contains("Measured from").count() >= 2);
    press(&mut screen, "Keep this car");
    assert!(screen.state().document().draft().is_some(), "it cannot be kept");
}

/// A row may lie further down than the panel is high.
fn measure(screen: &mut Harness<'_, Desk>, label: &str, typed: &str) {
    screen.get_by_label(label).scroll_to_me();
    screen.run();
    type_into(screen, label, typed);
}

/// What a tape is held to on this car is the edge that the sheet goes by; the sensor's centre follows.
#[test]
fn an_edge_is_measured_on_this_car_and_the_centre_follows() {
    let home = home("edge");
    let mut screen = start(&home);
    ask(&mut screen, Command::Car(OfCar::Begin(Begin::New)));
    let mut own = car(&screen);
    own.enter(SensorPart::Height.of(&own.sensors[0].id.clone()));
    own.sensors[0].at.z = 480.0;
    own.sensors[0].edges.lower_below_mm = Some(45.0);
    own.aimings[0].placements[0].height =
        TargetHeight::FromSensor { point: SensorPoint::LowerEdge, offset_mm: 30.0 };
    ask(&mut screen, Command::Car(OfCar::Change(Box::new(own))));
    press(&mut screen, "Keep this car");
    ask(&mut screen, Command::View(OfView::Select(Some(Subject::Car))));
    press(&mut screen, "The sensor's place as built");
    let shown = |screen: &Harness<'_, Desk>| {
        screen.get_by_label("Lower edge above ground").accesskit_node().value().unwrap_or_default()
    };
    assert_eq!(shown(&screen), "435 mm");
    measure(&mut screen, "Lower edge above ground", "412");
    let arrangement = &screen.state().answer().arrangement;
    assert_eq!(arrangement.on_this_car.sensor_at.unwrap().z, 457.0);
    assert_eq!(screen.state().answer().assessment.scene.targets[0].meant.height_mm, 442.0);
    // The other way round: the edge follows the centre.
    measure(&mut screen, "Above ground", "480");
    assert_eq!(shown(&screen), "435 mm");
    ask(&mut screen, Command::Undo);
    ask(&mut screen, Command::Undo);
    assert_eq!(screen.state().answer().assessment.scene.targets[0].meant.height_mm, 465.0);
    crate::support::clear(home);
}

/// A card that asks for something of the car leads to where it is entered: to the zone's own rows.
#[test]
fn a_card_leads_to_the_zone_that_it_asks_of() {
    let mut screen = usual(desk(Path::new("lift-bay"), None));
    let card =
        "Heights given from the floor: the keep-clear zone “metal-free area” and the keep-clear zone “beam”";
    press(&mut screen, &format!("Enter which: {card}"));
    screen.run();
    assert!(screen.state().document().draft().is_some());
    let rows = screen.get_all_by_label("Heights from").count();
    assert!(rows > 0, "the zone is unfolded");
}

/// The screws of a sensor that is set by screws: each figure in its field, which way by its list; one step each. Of one that is set
/// otherwise there are no such rows.
#[test]
fn the_screws_of_a_sensor_are_typed() {
    let mut screen = usual(demo());
    ask(&mut screen, Command::Car(OfCar::Begin(Begin::New)));
    ask(&mut screen, Command::Car(OfCar::Whole(true)));
    type_into(&mut screen, "Search", "up and down");
    assert!(screen.query_by_label("Up and down: pitch").is_none(), "set by software");
    let mut own = car(&screen);
    own.sensors[0].adjusted = Adjusted::Screw;
    ask(&mut screen, Command::Car(OfCar::Change(Box::new(own))));
    measure(&mut screen, "Up and down: pitch", "1.25");
    measure(&mut screen, "Up and down: screw to pivot", "62");
    let up_down = car(&screen).sensors[0].screws.up_down;
    assert_eq!((up_down.pitch_mm, up_down.arm_mm, up_down.clockwise), (Some(1.25), Some(62.0), None));
    ask(&mut screen, Command::Undo);
    assert_eq!(car(&screen).sensors[0].screws.up_down.arm_mm, None);
}
