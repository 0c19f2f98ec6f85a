//! While a car is being entered undo is of the car, and the bay waits, whatever is asked of it and by which way.

use baywright_desk::screen::Desk;
use baywright_desk::screen::command::{Begin, Command, OfBay, OfCar, OfView, Part};
use baywright_desk::screen::view::{Area, Drawn, Tool};
use baywright_planner::edit::Edit;
use baywright_planner::geometry::{DVec2, PlanPose};
use baywright_planner::model::{FloorFeatureKind, Layout, ThingKind};
use egui::Vec2;
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;

use crate::sessions::{ask, press};
use crate::support::{demo, drag, middle, type_into, usual};

fn layout(screen: &Harness<'_, Desk>) -> Layout {
    Layout::clone(screen.state().document().layout())
}

fn begin_car(screen: &mut Harness<'_, Desk>) {
    ask(screen, Command::Car(OfCar::Begin(Begin::New)));
}

/// The bay is as it was, and that it waits is said.
fn waits(screen: &Harness<'_, Desk>, before: &Layout, after: &str) {
    assert_eq!(layout(screen), *before, "{after}");
    assert!(screen.query_by_label_contains("the bay waits").is_some(), "{after}");
    assert!(!screen.state().document().draft().unwrap().is_changed(), "{after}");
}

#[test]
fn an_area_that_is_drawn_waits() {
    let mut screen = usual(demo());
    let before = layout(&screen);
    assert!(!before.bay.floor_features.is_empty());
    let draw = Command::View(OfView::Tool(Tool::Draw(Drawn::Area(Area::Feature(0)))));
    ask(&mut screen, draw.clone());
    begin_car(&mut screen);
    assert_eq!(screen.state().view().tool, Tool::WhichSide, "who goes elsewhere has laid it down");
    ask(&mut screen, draw.clone());
    let [from, to] = ["mark 5, top view", "mark 6, top view"].map(|label| middle(&screen, label));
    drag(&mut screen, from, to + Vec2::new(60.0, 0.0));
    waits(&screen, &before, "drawn");
    // Once the car is dropped it can be drawn.
    press(&mut screen, "Drop it");
    ask(&mut screen, draw);
    drag(&mut screen, from, to + Vec2::new(60.0, 0.0));
    assert_ne!(layout(&screen), before);
}

#[test]
fn a_picture_that_is_scaled_waits() {
    let home = crate::sessions::home("picture-waits");
    let mut screen = crate::by_hand::with_a_picture(&home);
    ask(&mut screen, Command::View(OfView::Tool(Tool::ScalePicture { first: None })));
    for along in [0.0, 1_000.0] {
        ask(&mut screen, Command::Bay(OfBay::ScalePoint(DVec2::new(along, 0.0))));
    }
    let before = layout(&screen);
    let mm_per_px = before.underlay.as_ref().unwrap().mm_per_px;
    begin_car(&mut screen);
    ask(&mut screen, Command::Bay(OfBay::ScalePicture(2_000.0)));
    waits(&screen, &before, "scaled");
    ask(&mut screen, Command::Car(OfCar::DropAnyway));
    ask(&mut screen, Command::Bay(OfBay::ScalePicture(2_000.0)));
    assert!((layout(&screen).underlay.unwrap().mm_per_px - 2.0 * mm_per_px).abs() < 1e-9);
}

#[test]
fn whatever_is_asked_of_the_bay_waits() {
    let other = layout(&usual(demo())).arrangements.last().unwrap().id.clone();
    let away = Edit::Park(PlanPose::new(DVec2::new(4_000.0, 3_000.0), 0.1));
    let asked = [
        OfBay::Edit(away.clone()),
        OfBay::Preview(vec![away.clone()]),
        OfBay::Settle(away),
        OfBay::Cure(0),
        OfBay::KeepPromise,
        OfBay::Add(ThingKind::Trolley),
        OfBay::AddPart(Part::Feature(FloorFeatureKind::Drain)),
        OfBay::Copy,
        OfBay::Nudge(DVec2::X),
        OfBay::Turn(0.1),
        OfBay::DrawnArea(Area::Feature(0), DVec2::ZERO, DVec2::splat(900.0)),
        OfBay::ScalePoint(DVec2::ZERO),
        OfBay::ScalePicture(2_000.0),
        OfBay::Show(other),
        OfBay::Duplicate,
        OfBay::ChooseCar("example-van".into()),
    ];
    for asked in asked {
        let mut screen = usual(demo());
        let (before, shown) = (layout(&screen), screen.state().document().shown().clone());
        begin_car(&mut screen);
        let said = format!("{asked:?}");
        ask(&mut screen, Command::Bay(asked));
        waits(&screen, &before, &said);
        assert_eq!(*screen.state().document().shown(), shown, "{said}");
        // The car goes on meanwhile.
        type_into(&mut screen, "Length", "4300");
        assert_eq!(screen.state().document().draft().unwrap().car().length_mm, 4_300.0, "{said}");
    }
}
