//! Windows small and large, display scales, long and foreign names, many findings, letters for arm's length.

use std::path::Path;

use baywright_desk::screen::command::{Command, OfBay};
use baywright_desk::screen::view::Letters;
use baywright_planner::edit::Edit;
use baywright_planner::geometry::{DVec2, PlanPose};
use baywright_planner::model::{Known, Place, ThingKind};
use baywright_planner::words::Language;
use egui::Vec2;
use egui_kittest::kittest::{NodeT, Queryable};

use crate::support::{demo, desk, screen, usual};

/// What must be in sight at any size: the verdict, both views, the first finding's cure.
#[test]
fn the_answer_is_in_sight_at_every_size() {
    for (size, scale) in [
        ((1280.0, 720.0), 1.0),
        ((1440.0, 900.0), 1.5),
        ((1920.0, 1080.0), 2.0),
        ((2560.0, 1440.0), 1.0),
        ((1024.0, 640.0), 1.0),
    ] {
        let size = Vec2::from(size);
        let screen = screen(demo(), size, scale);
        for label in ["Space not ready", "Top view", "Side view", "the trolley, side view"] {
            let rect = screen.get_all_by_label(label).next().unwrap().rect();
            assert!(
                rect.min.x >= 0.0 && rect.min.y >= 0.0 && rect.max.x <= size.x && rect.max.y <= size.y,
                "{label} at {rect} of {size} at {scale}"
            );
        }
        let cure = screen
            .get_by_label("Move it: Tool cabinet is inside the keep-clear zone “metal-free area”")
            .rect();
        assert!(cure.max.x <= size.x && cure.min.y < size.y, "{cure} {size}");
    }
}

#[test]
fn large_letters_set_nothing_under_18_px() {
    let mut screen = screen(demo(), Vec2::new(1920.0, 1080.0), 1.0);
    screen.state_mut().view_mut().letters = Letters::LARGE;
    screen.run();
    let zoom = screen.ctx.zoom_factor();
    let style = screen.ctx.global_style();
    for (name, font) in &style.text_styles {
        assert!(font.size * zoom >= 18.0, "{name:?} is {}", font.size * zoom);
    }
    assert!(baywright_drawing::Lettering::LEAST_TEXT as f32 * zoom >= 17.5);
}

/// Letters for arm's length in a small window: what is chosen, the tools and the answer's press lie beside each other.
#[test]
fn large_letters_in_a_small_window_overlap_nothing_at_the_top() {
    for size in [Vec2::new(1280.0, 720.0), Vec2::new(1024.0, 700.0)] {
        nothing_overlaps_at_the_top(size);
    }
}

fn nothing_overlaps_at_the_top(size: Vec2) {
    let mut screen = screen(demo(), size, 1.0);
    screen.state_mut().view_mut().letters = Letters::LARGE;
    for _ in 0..4 {
        screen.run();
    }
    let of = |label: &str| screen.get_by_label(label).rect();
    let names = [
        "Car: Example hatchback, small",
        "Aiming: Forward radar, plate target",
        "Bay: Crowded bay",
        "Set-up: As found",
        "on example figures",
        "Undo",
        "Do again",
        "Measure",
        "Do all of this",
        "What is in the way",
        "Marks",
        "Floor",
        Language::English.record_page().page,
    ];
    for (i, one) in names.iter().enumerate() {
        for other in names.iter().skip(i + 1) {
            let both = of(one).intersect(of(other));
            assert!(!both.is_positive(), "{one} at {} and {other} at {}", of(one), of(other));
        }
    }
}

#[test]
fn long_and_foreign_names_and_forty_findings_fit() {
    let mut screen = usual(demo());
    let ctx = screen.ctx.clone();
    let names = [
        "a name that goes on and on and on, as names of things in real workshops do when nobody cuts them short, and on",
        "ящик с инструментом у правой стены",
        "εργαλειοθήκη",
        "skříň na nářadí číslo čtyři",
    ];
    for i in 0..40 {
        screen.state_mut().ask(&ctx, Command::Bay(OfBay::Add(ThingKind::ToolChest)));
        let added = screen.state().answer().arrangement.bay.things.last().unwrap().id.clone();
        let at = PlanPose::new(DVec2::new(5_200.0 + 60.0 * f64::from(i), 2_200.0 + 37.0 * f64::from(i)), 0.3);
        screen.state_mut().ask(
            &ctx,
            Command::Bay(OfBay::Edit(Edit::Place {
                thing: added.clone(),
                place: Place { at, known: Known::ByEye },
            })),
        );
        let name = format!("{} {i}", names[i as usize % names.len()]);
        screen
            .state_mut()
            .ask(&ctx, Command::Bay(OfBay::Edit(Edit::Rename { thing: added, name: name.as_str().into() })));
    }
    screen.run();
    assert!(screen.state().answer().assessment.findings.len() > 40);
    let bounds = screen.ctx.content_rect();
    for node in screen.root().children_recursive() {
        let Some(rect) = node.accesskit_node().bounding_box() else { continue };
        assert!(
            rect.x1 <= f64::from(bounds.max.x) + 0.5,
            "{:?} reaches {rect:?}",
            node.accesskit_node().label()
        );
    }
}

#[test]
fn every_shipped_arrangement_is_shown() {
    for built_in in baywright_files::EMBEDDED_LAYOUTS {
        let first = desk(Path::new(built_in.name), None);
        let names: Vec<String> =
            first.document().layout().arrangements.iter().map(|a| a.id.to_string()).collect();
        for name in names {
            let screen = usual(desk(Path::new(built_in.name), Some(&name)));
            screen.get_by_label("the car, top view");
            screen.get_by_label("the car, side view");
        }
    }
}
