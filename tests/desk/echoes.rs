//! What the radar would see: told as the core has it, in both languages, first what may be taken for the target; the way of one drawn
//! while the keyboard is at it; nothing of it changes the verdict; a sensor that is no radar has none.

use std::path::Path;
use std::time::{Duration, Instant};

use baywright_desk::screen::Desk;
use baywright_desk::screen::command::{Command, OfView};
use baywright_desk::screen::unbroken;
use baywright_desk::screen::view::Tab;
use baywright_planner::Subject;
use baywright_planner::echoes::{Echo, Seen, With, seen};
use baywright_planner::words::{Language, Words};
use egui::Key;
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT, Queryable, by};

use crate::sessions::ask;
use crate::support::{desk, usual};

/// A bay with the tab open, all echoes there.
pub fn opened(bay: &str) -> Harness<'static, Desk> {
    let mut screen = usual(desk(Path::new(bay), None));
    ask(&mut screen, Command::View(OfView::Tab(Tab::Echoes)));
    screen.step();
    let wanted = of_core(&screen).iter().map(|own| own.echoes.len()).sum::<usize>();
    let start = Instant::now();
    // Those by two mirrors come from off the frame.
    while screen.state().echoes_heard() < wanted {
        assert!(start.elapsed() < Duration::from_secs(120), "they never came");
        std::thread::sleep(Duration::from_millis(10));
        screen.step();
    }
    screen.step();
    screen
}

/// What the core says.
pub fn of_core(screen: &Harness<'_, Desk>) -> Vec<Seen> {
    let answer = screen.state().answer();
    seen(&answer.judged, &answer.assessment.scene, With::TwoMirrors)
}

/// Has the way of an echo drawn by the keyboard; its name.
pub fn shown(screen: &mut Harness<'_, Desk>, echo: &Echo) -> String {
    let title = {
        let words = Words::new(&screen.state().answer().judged, screen.state().view().locale);
        words.echo_of(echo)
    };
    let own = screen
        .query_all(by().label_contains("Show its way"))
        .find(|own| own.accesskit_node().label().is_some_and(|label| label.contains(title.as_str())));
    own.expect("its way can be shown").focus();
    screen.step();
    screen.step();
    title
}

#[test]
fn what_the_radar_would_see_is_told_and_drawn() {
    let mut screen = opened("crowded-bay");
    let verdict = screen.state().answer().assessment.verdict;
    let core = of_core(&screen);
    let first: Vec<&Echo> =
        core.iter().flat_map(|own| &own.echoes).filter(|own| own.heard.matters()).collect();
    assert!(!first.is_empty(), "a crowded bay echoes");
    for language in [Language::English, Language::German] {
        ask(&mut screen, Command::View(OfView::Language(language)));
        screen.step();
        screen.step();
        let answer = screen.state().answer();
        let words = Words::new(&answer.judged, screen.state().view().locale);
        let texts = language.echoes();
        for text in first.iter().map(|own| words.echo_of(own)).chain([texts.decides.to_owned()]) {
            let text = unbroken(text);
            assert!(screen.query_all_by_label(&text).next().is_some(), "{text}");
        }
    }
    ask(&mut screen, Command::View(OfView::Language(Language::English)));
    screen.step();
    assert!(screen.state().view().echo.is_none(), "nothing is pointed at");
    let name = shown(&mut screen, first[0]);
    let drawn = screen.state().view().echo.clone().expect("the way of what has the keyboard is drawn");
    let words = Words::new(&screen.state().answer().judged, screen.state().view().locale);
    assert_eq!(words.echo_of(&drawn), name);
    assert_eq!(screen.state().answer().assessment.verdict, verdict);
    screen.key_press(Key::Escape);
    ask(&mut screen, Command::View(OfView::Tab(Tab::Marks)));
    screen.step();
    assert!(screen.state().view().echo.is_none(), "it is looked at no more");
}

#[test]
fn the_figures_behind_are_there_when_they_are_asked_for() {
    let mut screen = opened("crowded-bay");
    let texts = Language::English.echoes();
    assert!(screen.query_by_label(texts.graph).is_none());
    screen.query_by_label(texts.details).expect("details").focus();
    screen.step();
    screen.key_press(Key::Space);
    for _ in 0..20 {
        screen.step();
    }
    assert!(screen.query_by_label(texts.graph).is_some(), "the graph");
    let words = Words::new(&screen.state().answer().judged, screen.state().view().locale);
    let core = of_core(&screen);
    let own = core[0].own.as_ref().expect("a plate has an echo");
    let text = unbroken(words.own_echo(own));
    assert!(screen.query_by_label(&text).is_some(), "{text}");
}

/// What stands before the sensor is a picture: what the pointer is at in it lights up in the views, and it has a name that tells what is
/// seen.
#[test]
fn what_is_pointed_at_from_the_sensor_lights_up() {
    for language in [Language::English, Language::German] {
        let mut screen = opened("crowded-bay");
        ask(&mut screen, Command::View(OfView::Language(language)));
        screen.step();
        screen.step();
        let read = language.echoes().from_sensor_read(&[]);
        let picture = screen.get_by_label_contains(read.trim_end());
        let label = picture.accesskit_node().label().unwrap_or_default();
        let words = Words::new(&screen.state().answer().judged, screen.state().view().locale);
        let cabinet = words.subject(&Subject::Thing("tool cabinet".into()));
        assert!(label.contains(&cabinet), "{label}");
        let rect = picture.rect();
        let target = screen.state().answer().judged.aiming.placements[0].id.clone();
        // The plate stands in the middle; the stand goes with it.
        screen.hover_at(rect.center());
        screen.step();
        screen.step();
        assert_eq!(screen.state().view().hovered, Some(Subject::Stand(target)), "the middle of {rect:?}");
    }
    // A camera's target is seen too, a thing before it as well.
    let mut camera = usual(desk(Path::new("clear-bay"), None));
    ask(&mut camera, Command::View(OfView::Tab(Tab::Echoes)));
    camera.step();
    assert!(camera.query_by_label_contains("Seen from the sensor:").is_some());
}
