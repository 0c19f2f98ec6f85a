//! What is told apart by its looks, and what is alike in two drawings side by side.

use std::collections::BTreeMap;

use baywright_drawing::theme::Fill;
use baywright_drawing::{
    Drawing, Fit, Lettering, Role, Shape, Theme, Turned, ViewState, told_view, top_view,
};
use baywright_planner::customer::{Idea, Sense, ideas};
use baywright_planner::geometry::{DVec2, PlanPose};
use baywright_planner::model::{Arrangement, Shape as Footprint, ShopFace, ThingKind};
use baywright_planner::{Subject, assess};

use super::bay;

/// By more than a colour: each line has dashes of its own, and only where something is to go has a ground.
#[test]
fn where_something_goes_hangs_or_must_be_clear_looks_apart() {
    let roles = [Role::OutOfTheWay, Role::Overhead, Role::ZoneEdge, Role::OtherZoneEdge, Role::KeepFree];
    for theme in [Theme::Light, Theme::Dark] {
        for (i, &one) in roles.iter().enumerate() {
            for &other in &roles[..i] {
                let dash = |role| theme.paint(role).stroke.unwrap().dash;
                assert_ne!(dash(one), dash(other), "{one:?} {other:?}");
            }
            let is_filled = matches!(theme.paint(one).fill, Fill::Solid(_));
            assert_eq!(is_filled, one == Role::OutOfTheWay, "{one:?}");
        }
    }
}

fn seen(arrangement: &Arrangement) -> Drawing {
    let state = ViewState { turned: Turned::ToRoom, ..ViewState::default() };
    let fit = Fit::Window {
        size: DVec2::new(700.0, 420.0),
        px_per_mm: 0.05,
        middle: arrangement.bay.room.bounds().centre(),
    };
    top_view(arrangement, &assess(arrangement), &state, fit, &Lettering::default())
}

/// What hangs above says how high, by its name or without it, and is crossed where there is room.
#[test]
fn what_hangs_above_says_how_high() {
    let mut arrangement = bay::crowded();
    let shape = Footprint::Rectangle { length_mm: 1200.0, width_mm: 900.0 };
    arrangement.bay.things.push(bay::thing(
        "heater",
        ThingKind::Heater,
        shape,
        (7200.0, 1500.0),
        (2500.0, 2800.0),
    ));
    let drawing = seen(&arrangement);
    let own = Some(Subject::Thing("heater".into()));
    let of_it = || drawing.items.iter().filter(|item| item.subject == own);
    let texts: Vec<&str> = of_it()
        .filter_map(|item| if let Shape::Text(text) = &item.shape { Some(text.text.as_str()) } else { None })
        .collect();
    assert!(texts.iter().any(|text| text.contains("2\u{202f}500 mm")), "{texts:?}");
    assert_eq!(of_it().filter(|item| item.role == Role::OverheadLine).count(), 2);
}

/// The names of a drawing and where they stand.
fn names(drawing: &Drawing) -> BTreeMap<Subject, (String, DVec2)> {
    let names = drawing.items.iter().filter_map(|item| match (&item.shape, item.role) {
        (Shape::Text(text), Role::Label | Role::LabelSoft | Role::LabelZone) => {
            Some((item.subject.clone()?, (text.text.clone(), text.at)))
        }
        _ => None,
    });
    names.collect()
}

#[test]
fn what_did_not_move_goes_by_the_same_name_in_both() {
    let before = bay::crowded();
    let mut after = before.clone();
    let moved = after.bay.things[0].id.clone();
    let place = &mut after.bay.things[0].place.at;
    *place = PlanPose::new(place.origin() + DVec2::new(350.0, 500.0), place.heading());
    let (mut first, mut second) = (seen(&before), seen(&after));
    // As the page beside each other does: a figure of what stops stands by its line, and what stood there before gives way in both.
    second.name_as(&first);
    first.name_as(&second);
    let (there, here) = (names(&first), names(&second));
    assert!(here.len() > 5, "{here:?}");
    let still = here.iter().filter(|(own, _)| **own != Subject::Thing(moved.clone()));
    for (subject, name) in still {
        assert_eq!(there.get(subject), Some(name), "{subject:?}");
    }
}

/// Beside an idea in which nothing stands about there is no shadow of anything, though something hides the target.
#[test]
fn what_is_not_drawn_casts_no_shadow() {
    let mut arrangement = bay::empty(false);
    let shape = Footprint::Rectangle { length_mm: 400.0, width_mm: 300.0 };
    let (sensor, target) = {
        let scene = assess(&arrangement).scene;
        (scene.sensor(), scene.targets[0].centre())
    };
    let between = (sensor + target) * 0.5;
    let at = (between.x, between.y);
    arrangement.bay.things.push(bay::thing("trolley", ThingKind::Trolley, shape, at, (0.0, 1200.0)));
    let assessment = assess(&arrangement);
    let shadows = |idea: &Idea| {
        let drawing = told_view(idea, &arrangement, &assessment, (900.0, 560.0), &Lettering::default());
        let is_shadow = |role| matches!(role, Role::Shadow | Role::ShadowOnTarget | Role::SightLineHidden);
        drawing.items.iter().filter(|item| is_shadow(item.role)).count()
    };
    let ideas = ideas(&arrangement, &assessment, &ShopFace::default());
    assert!(ideas.len() >= 6, "{ideas:?}");
    for idea in &ideas {
        match idea {
            Idea::OnlyTarget | Idea::EmptyFloor(_) | Idea::Work(_) => {
                assert_eq!(shadows(idea), 0, "{idea:?}")
            }
            Idea::StandsIn(_) => assert!(shadows(idea) > 0, "it hides the target"),
            _ => {}
        }
    }
}

/// A name that is a little wider than its thing stands in it whole.
#[test]
fn a_name_a_little_too_wide_is_not_cut() {
    for width_px in [58.0, 62.0, 66.0, 70.0] {
        let mut arrangement = bay::empty(false);
        let long = width_px / 0.05;
        let shape = Footprint::Rectangle { length_mm: long, width_mm: 900.0 };
        arrangement.bay.things.push(bay::thing(
            "tool cabinet",
            ThingKind::Cabinet,
            shape,
            (1500.0, 900.0),
            (0.0, 900.0),
        ));
        let drawing = seen(&arrangement);
        let (name, _) = names(&drawing).remove(&Subject::Thing("tool cabinet".into())).unwrap();
        assert_eq!(name, "tool cabinet", "{width_px} px");
    }
}

/// What is written of a sensor lies on none of its waves.
#[test]
fn no_wave_runs_through_what_is_written() {
    let arrangement = bay::empty(false);
    let assessment = assess(&arrangement);
    for sense in [Sense::Radar, Sense::LaserLight] {
        let drawing =
            told_view(&Idea::Why(sense), &arrangement, &assessment, (900.0, 560.0), &Lettering::default());
        let of = |role: Role| drawing.items.iter().filter(move |item| item.role == role);
        let mut texts = 0;
        for item in of(Role::Label) {
            let Shape::Text(text) = &item.shape else { continue };
            texts += 1;
            let half = DVec2::new(text.width, text.style.size) * 0.5;
            let at = drawing.paper_point(text.at);
            for wave in of(Role::BeamEdge) {
                let Shape::Line(points) = &wave.shape else { panic!("{wave:?}") };
                for ends in points.windows(2) {
                    let ends = [ends[0], ends[1]].map(|p| drawing.paper_point(p));
                    for share in [0.0, 0.25, 0.5, 0.75, 1.0] {
                        let off = (ends[0].lerp(ends[1], share) - at).abs();
                        assert!(
                            off.x > half.x || off.y > half.y,
                            "{sense:?}: a wave through “{}”",
                            text.text
                        );
                    }
                }
            }
        }
        assert_eq!(texts, 3);
        assert!(of(Role::BeamEdge).count() >= 9);
    }
}
