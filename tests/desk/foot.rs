//! What stands at the foot is never cut.

use baywright_desk::screen::Desk;
use baywright_desk::screen::command::{Command, OfView};
use baywright_desk::screen::view::{Area, Drawn, Letters, Measuring, Notice, Tool};
use baywright_planner::Subject;
use baywright_planner::geometry::DVec2;
use baywright_planner::words::Words;
use egui::Vec2;
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;

use crate::support::{demo, screen};

/// What the hand can do now is never cut at the foot: in a small window with large letters it is said shorter.
#[test]
fn no_hint_is_cut_at_the_foot() {
    let mut screen = screen(demo(), Vec2::new(1280.0, 720.0), 1.0);
    let ctx = screen.ctx.clone();
    screen.state_mut().view_mut().letters = Letters::LARGE;
    let tools = [
        Tool::WhichSide,
        Tool::Measure(Measuring::default()),
        Tool::Measure(Measuring { from: Some(DVec2::ZERO), ..Measuring::default() }),
        Tool::Draw(Drawn::Area(Area::KeepFree(0))),
        Tool::MovePicture,
        Tool::ScalePicture { first: None },
        Tool::PickMark { aiming: 0, step: 0, nth: 0 },
    ];
    for tool in tools {
        screen.state_mut().view_mut().tool = tool;
        screen.run();
        let cut = cut_off(&screen);
        assert!(cut.is_empty(), "{tool:?}: {cut:?}");
    }
    screen.state_mut().view_mut().tool = Tool::WhichSide;
    for subject in [Subject::Thing("trolley".into()), Subject::Car, Subject::Floor, Subject::Sensor] {
        screen.state_mut().ask(&ctx, Command::View(OfView::Select(Some(subject.clone()))));
        screen.run();
        let cut = cut_off(&screen);
        assert!(cut.is_empty(), "{subject:?}: {cut:?}");
    }
}

/// Texts at the foot that are cut.
fn cut_off(screen: &Harness<'_, Desk>) -> Vec<String> {
    fn cut(shape: &egui::Shape, all: &mut Vec<(f32, String)>) {
        match shape {
            egui::Shape::Text(text) if text.galley.elided => {
                all.push((text.pos.y, text.galley.text().to_owned()));
            }
            egui::Shape::Vec(shapes) => shapes.iter().for_each(|own| cut(own, all)),
            _ => {}
        }
    }
    let mut all = Vec::new();
    screen.output().shapes.iter().for_each(|own| cut(&own.shape, &mut all));
    let foot = screen.ctx.content_rect().bottom() - 40.0;
    all.into_iter().filter(|(y, _)| *y > foot).map(|(_, text)| text).collect()
}

/// A notice that is longer than the foot stands whole beside the drawing, and one that fits stands in the foot; the paper stays where it
/// is, and nothing lies over it.
#[test]
fn a_long_notice_is_read_whole() {
    for large in [false, true] {
        let mut screen = screen(demo(), Vec2::new(1280.0, 720.0), 1.0);
        if large {
            screen.state_mut().view_mut().letters = Letters::LARGE;
        }
        screen.run();
        let paper =
            |screen: &Harness<'_, Desk>| screen.state().drawings().map(|(_, rect)| rect).collect::<Vec<_>>();
        let before = paper(&screen);
        let long = "The file could not be kept where it was, for its folder is gone. ".repeat(6);
        for text in [long.trim().to_owned(), "Kept.".to_owned()] {
            screen.state_mut().view_mut().notice = Some(Notice { text: text.clone(), wrong: true });
            screen.run();
            assert!(cut_off(&screen).is_empty(), "{:?}", cut_off(&screen));
            let (clip, place) = shown(&screen, &text).expect("it is shown");
            assert!(clip.contains_rect(place), "{place:?} in {clip:?}");
            assert!(screen.ctx.content_rect().contains_rect(place), "{place:?}");
            assert_eq!(paper(&screen), before);
            let covered = before.iter().find(|paper| paper.intersects(place));
            assert_eq!(covered, None, "{place:?}");
        }
    }
}

/// What was said goes before the whole caution: as long as the short one fits beside it, it stands in the foot.
#[test]
fn what_was_said_goes_before_the_whole_caution() {
    for large in [false, true] {
        let mut screen = screen(demo(), Vec2::new(1280.0, 720.0), 1.0);
        if large {
            screen.state_mut().view_mut().letters = Letters::LARGE;
        }
        screen.run();
        let foot = screen.ctx.content_rect().bottom() - 40.0;
        let mut was_short = 0;
        let whole = Words::new(&screen.state().answer().arrangement, screen.state().view().locale).caution();
        let mut is_beside = false;
        for words in 1..60 {
            let text = "kept ".repeat(words).trim().to_owned();
            screen.state_mut().view_mut().notice = Some(Notice { text: text.clone(), wrong: false });
            screen.run();
            screen.run();
            let (_, place) = shown(&screen, &text).expect("it is shown");
            let in_foot = place.top() > foot;
            assert!(!(in_foot && is_beside), "a longer one is no more in the foot");
            is_beside = !in_foot;
            if in_foot {
                assert!(cut_off(&screen).is_empty(), "{:?}", cut_off(&screen));
                was_short += usize::from(shown(&screen, whole).is_none_or(|(_, own)| own.top() < foot));
            }
        }
        assert!(is_beside && was_short > 3, "large {large}: {was_short} beside the short caution");
    }
}

/// The longest notice leaves half of the panel to what is found, and is scrolled by the wheel and by keys to its end.
#[test]
fn a_very_long_notice_leaves_room_for_what_is_found() {
    for large in [false, true] {
        let mut screen = screen(demo(), Vec2::new(1280.0, 720.0), 1.0);
        if large {
            screen.state_mut().view_mut().letters = Letters::LARGE;
        }
        screen.run();
        let text = "The file could not be kept where it was, for its folder is gone. ".repeat(40);
        let text = text.trim().to_owned();
        screen.state_mut().view_mut().notice = Some(Notice { text: text.clone(), wrong: true });
        screen.run();
        screen.run();
        let height = screen.ctx.content_rect().height();
        let (clip, place) = shown(&screen, &text).expect("it is shown");
        assert!(place.height() > clip.height() && clip.height() <= height * 0.5, "{place:?} in {clip:?}");
        let cards =
            screen.query_all_by_label_contains("is inside the keep-clear zone").map(|card| card.rect());
        let first = cards.min_by(|a, b| a.top().total_cmp(&b.top())).expect("what is found has its room");
        assert!(first.top() + 40.0 < clip.top(), "{first:?}, {clip:?}");
        screen.get_by_label("Message, to scroll with the arrow keys").focus();
        screen.run();
        screen.key_press(egui::Key::End);
        screen.run();
        let (clip, place) = shown(&screen, &text).expect("it is shown");
        assert!(place.bottom() <= clip.bottom() + 4.0, "{place:?} in {clip:?}");
    }
}

/// Where a text is shown, and what it is cut off by.
fn shown(screen: &Harness<'_, Desk>, wanted: &str) -> Option<(egui::Rect, egui::Rect)> {
    fn place(shape: &egui::Shape, wanted: &str) -> Option<egui::Rect> {
        match shape {
            egui::Shape::Text(text) if text.galley.text() == wanted => Some(text.visual_bounding_rect()),
            egui::Shape::Vec(shapes) => shapes.iter().find_map(|own| place(own, wanted)),
            _ => None,
        }
    }
    screen.output().shapes.iter().find_map(|own| Some((own.clip_rect, place(&own.shape, wanted)?)))
}
