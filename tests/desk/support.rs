//! A screen without a window, and what tests ask of it.

use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

use baywright_desk::screen::Desk;
use baywright_desk::session::document::Document;
use baywright_planner::{Severity, Verdict};
use egui::{Key, Pos2, Vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;

use crate::renderer::Rasteriser;

/// The day by which the shipped floor surveys are judged in tests.
pub fn today() -> Option<jiff::civil::Date> {
    Some(jiff::civil::date(2026, 11, 20))
}

/// A screen showing an arrangement of a layout.
pub fn desk(layout: &Path, arrangement: Option<&str>) -> Desk {
    let mut document = Document::open(layout, today()).unwrap_or_else(|faults| panic!("{faults:?}"));
    if let Some(arrangement) = arrangement {
        document.show(&arrangement.into()).unwrap();
        assert_eq!(document.shown().as_str(), arrangement, "no such arrangement");
    }
    Desk::new(document).expect("an answer")
}

/// Takes a test's folder away. What is journalled is written by a thread of its own, which may not have ended yet.
pub fn clear(folder: PathBuf) {
    let gone = (0..200).any(|_| {
        std::thread::sleep(std::time::Duration::from_millis(5));
        std::fs::remove_dir_all(&folder).is_ok() || !folder.exists()
    });
    assert!(gone, "{} stays", folder.display());
}

/// The demo.
pub fn demo() -> Desk {
    desk(Path::new("crowded-bay"), None)
}

/// A screen of a size, drawn twice so that everything has found its place.
pub fn screen(desk: Desk, size: Vec2, scale: f32) -> Harness<'static, Desk> {
    let mut harness = Harness::builder()
        .with_size(size)
        .with_pixels_per_point(scale)
        .with_max_steps(30)
        .renderer(Rasteriser::default())
        .with_context_setup(Desk::install)
        .build_ui_state(|ui, desk: &mut Desk| whole(ui, |ui| desk.frame(ui)), desk);
    harness.run();
    harness
}

/// The window gives the screen all of itself; the harness leaves a margin.
pub fn whole(ui: &mut egui::Ui, draw: impl FnOnce(&mut egui::Ui)) {
    let all = ui.ctx().content_rect();
    // As the window is cleared.
    ui.painter().rect_filled(all, 0.0, ui.visuals().faint_bg_color);
    ui.scope_builder(egui::UiBuilder::new().max_rect(all), draw);
}

/// The usual size.
pub fn usual(desk: Desk) -> Harness<'static, Desk> {
    screen(desk, Vec2::new(1440.0, 900.0), 1.0)
}

/// The verdict on the screen.
pub fn verdict(harness: &Harness<'_, Desk>) -> Verdict {
    harness.state().answer().assessment.verdict
}

/// How many findings of a severity are on the screen.
pub fn count(harness: &Harness<'_, Desk>, severity: Severity) -> usize {
    harness.state().answer().assessment.count(severity)
}

/// Whether a finding about this thing, of this code, is on the screen.
pub fn blames(harness: &Harness<'_, Desk>, thing: &str, code: &str) -> bool {
    let findings = &harness.state().answer().assessment.findings;
    findings.iter().any(|f| f.code().as_str() == code && f.culprit().is_some_and(|id| id.as_str() == thing))
}

/// The middle of something on the canvas.
pub fn middle(harness: &Harness<'_, Desk>, label: &str) -> Pos2 {
    harness.get_by_label(label).rect().center()
}

/// Presses at one place, moves to another in steps and lets go.
pub fn drag(harness: &mut Harness<'_, Desk>, from: Pos2, to: Pos2) {
    hold(harness, from, to);
    harness.drop_at(to);
    harness.step();
    harness.run();
}

/// The same without letting go.
pub fn hold(harness: &mut Harness<'_, Desk>, from: Pos2, to: Pos2) {
    harness.hover_at(from);
    harness.step();
    harness.drag_at(from);
    harness.step();
    for share in [0.25, 0.5, 0.75, 1.0] {
        harness.hover_at(from + (to - from) * share);
        harness.step();
    }
}

/// Opens what is folded away under a name, led there by the keyboard, so that it is in sight wherever it stands.
pub fn unfold(harness: &mut Harness<'_, Desk>, label: &str) {
    harness.get_by_label(label).focus();
    harness.run();
    harness.key_press(egui::Key::Space);
    harness.run();
}

/// The same as [`type_into`] for a field that may be out of sight.
pub fn lead_and_type(harness: &mut Harness<'_, Desk>, label: &str, text: &str) {
    harness.get_by_label(label).focus();
    harness.run();
    type_into(harness, label, text);
}

/// Types a text into a field that is found by its name, and presses Enter.
pub fn type_into(harness: &mut Harness<'_, Desk>, label: &str, text: &str) {
    harness.get_by_label(label).click();
    harness.run();
    harness.key_combination_modifiers(egui::Modifiers::COMMAND, &[egui::Key::A]);
    harness.step();
    harness.get_by_label(label).type_text(text);
    harness.step();
    harness.key_press(egui::Key::Enter);
    harness.run();
}

/// Turns the wheel over a place by so many notches; up is positive.
pub fn wheel(harness: &mut Harness<'_, Desk>, at: Pos2, notches: f32) {
    harness.hover_at(at);
    harness.event(egui::Event::MouseWheel {
        unit: egui::MouseWheelUnit::Line,
        delta: Vec2::new(0.0, notches),
        phase: egui::TouchPhase::Move,
        source: egui::MouseWheelSource::Unknown,
        modifiers: egui::Modifiers::NONE,
    });
    harness.run();
}

/// Pastes a text over what stands in a field of many lines, and leaves it.
pub fn paste_over(harness: &mut Harness<'_, Desk>, label: &str, text: &str) {
    let role = egui::accesskit::Role::MultilineTextInput;
    harness.get_by_role_and_label(role, label).scroll_to_me();
    harness.run();
    harness.get_by_role_and_label(role, label).click();
    harness.run();
    harness.key_press_modifiers(egui::Modifiers::COMMAND, egui::Key::A);
    harness.run();
    harness.event(egui::Event::Paste(text.to_owned()));
    harness.run();
    harness.key_press(egui::Key::Tab);
    harness.run();
}

/// Presses what has this name by the keyboard, in sight or not.
pub fn press(screen: &mut Harness<'_, Desk>, label: &str) {
    screen.get_by_label(label).focus();
    screen.step();
    screen.step();
    screen.key_press(Key::Space);
    screen.step();
    screen.step();
}

/// Frames until nothing that can be stopped is searched any more.
pub fn until_searched(screen: &mut Harness<'_, Desk>) {
    let start = Instant::now();
    screen.step();
    while screen.query_by_label("Stop").is_some() {
        assert!(start.elapsed() < Duration::from_secs(120), "it never came");
        std::thread::sleep(Duration::from_millis(10));
        screen.step();
    }
    screen.step();
}
