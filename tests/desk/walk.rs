//! Every shipped set-up in small and large windows, with ordinary and large letters, in millimetres and feet: nothing that is
//! read lies on anything else that is read, and no figure of what stops the aiming is missing.
//!
//! Looks change colours only, never places: `looks_change_no_place` holds that, so one of them is walked.

use baywright_desk::screen::Desk;
use baywright_desk::screen::command::{Command, OfBay, OfFile, OfView};
use baywright_desk::screen::view::Letters;
use baywright_drawing::{Drawing, Projection, Theme};
use baywright_planner::words::{Language, Locale, Units};
use egui::Vec2;
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;

use crate::legible::{MOST_FAR_PX, astray, crossed, far_figures, letters, read, texts_on_texts, wrong};
use crate::support::{demo, screen};

pub const SIZES: [(f32, f32); 3] = [(1280.0, 720.0), (1440.0, 900.0), (2560.0, 1440.0)];
/// A line runs through a text, or a text lies on a wall's face, in no more than one of so many set-ups: where letters are large and
/// the paper is small, something must give.
const SET_UPS_FOR_A_CROSSING: usize = 39;
/// A marker or a name is read as another's in no more than one of so many set-ups.
const SET_UPS_FOR_A_MISREADING: usize = 7;
/// The same of large letters.
const LARGE_SET_UPS_FOR_A_MISREADING: usize = 5;
/// The figure of a stop stands far from what it is of in no more than one of so many set-ups.
const SET_UPS_FOR_A_FAR_FIGURE: usize = 39;

/// The same in German, whose words are longer: crossings, and misreadings of ordinary and of large letters.
const GERMAN_SET_UPS_FOR_ONE: [usize; 3] = [39, 6, 5];

fn walk(large: bool, language: Language, units: Units) {
    let (mut found, mut crossings, mut misread) = (Vec::new(), Vec::new(), Vec::new());
    let mut far: Vec<String> = Vec::new();
    let most_far = if large { MOST_FAR_PX * 1.6 } else { MOST_FAR_PX };
    let mut seen = 0;
    for size in SIZES {
        let mut screen = screen(demo(), Vec2::from(size), 1.0);
        let ctx = screen.ctx.clone();
        screen.state_mut().view_mut().letters = letters(large);
        screen.state_mut().view_mut().locale = Locale::of(language, units);
        for built_in in baywright_files::EMBEDDED_LAYOUTS {
            screen.state_mut().ask(&ctx, Command::File(OfFile::Open(built_in.name.into())));
            let names: Vec<_> =
                screen.state().document().layout().arrangements.iter().map(|own| own.id.clone()).collect();
            for name in names {
                screen.state_mut().ask(&ctx, Command::Bay(OfBay::Show(name.clone())));
                // Large letters in a small window have one view at a time, and a list that opens beside it.
                let small = large && size.0 < 1300.0;
                let each = [(Projection::Top, false), (Projection::Side, false), (Projection::Top, true)];
                for (alone, list) in each.into_iter().take(if small { 3 } else { 2 }) {
                    screen.state_mut().ask(&ctx, Command::View(OfView::Alone(alone)));
                    screen.state_mut().ask(&ctx, Command::View(OfView::List(list)));
                    for _ in 0..3 {
                        screen.step();
                    }
                    let own = wrong(screen.state()).into_iter().chain(texts_on_texts(&screen));
                    let list = if list { "list open, " } else { "" };
                    let place = format!("{} × {}, {list}{}, {name}, ", size.0, size.1, built_in.name);
                    found.extend(own.map(|wrong| format!("{place}{wrong}")));
                    let drawings = screen.state().drawings();
                    let own = drawings.flat_map(|(drawing, _)| crossed(drawing, &read(drawing)));
                    crossings.extend(own.map(|wrong| format!("{place}{wrong}")));
                    let assessment = &screen.state().answer().assessment;
                    let drawings = screen.state().drawings();
                    let own = drawings.flat_map(|(drawing, _)| astray(drawing, assessment));
                    misread.extend(own.map(|wrong| format!("{place}{wrong}")));
                    let drawings = screen.state().drawings();
                    let own = drawings.flat_map(|(drawing, _)| far_figures(drawing, assessment, most_far));
                    far.extend(own.map(|wrong| format!("{place}{wrong}")));
                    seen += 1;
                    if screen.state().drawings().count() == 2 {
                        break;
                    }
                }
            }
        }
    }
    assert!(seen >= 3 * 30, "{seen} set-ups in sizes");
    assert!(found.is_empty(), "{} of {seen}:\n{}", found.len(), found.join("\n"));
    assert!(far.len() <= seen / SET_UPS_FOR_A_FAR_FIGURE, "{} of {seen}:\n{}", far.len(), far.join("\n"));
    let [for_a_crossing, ordinary, of_large] = match language {
        Language::German => GERMAN_SET_UPS_FOR_ONE,
        _ => [SET_UPS_FOR_A_CROSSING, SET_UPS_FOR_A_MISREADING, LARGE_SET_UPS_FOR_A_MISREADING],
    };
    let for_a_misreading = if large { of_large } else { ordinary };
    let (few, fewer) = (seen / for_a_crossing, seen / for_a_misreading);
    assert!(
        crossings.len() <= few && misread.len() <= fewer,
        "{} and {} of {seen}:\n{}\n{}",
        crossings.len(),
        misread.len(),
        crossings.join("\n"),
        misread.join("\n")
    );
}

#[test]
fn nothing_lies_on_anything_in_ordinary_letters() {
    walk(false, Language::English, Units::Millimetres);
}

#[test]
fn nothing_lies_on_anything_in_large_letters() {
    walk(true, Language::English, Units::Millimetres);
}

#[test]
fn nothing_lies_on_anything_in_feet() {
    walk(false, Language::English, Units::FeetInches);
}

#[test]
fn nothing_lies_on_anything_in_metres() {
    walk(false, Language::English, Units::Metres);
}

#[test]
fn nothing_lies_on_anything_in_large_letters_and_feet() {
    walk(true, Language::English, Units::FeetInches);
}

#[test]
fn nothing_lies_on_anything_in_german() {
    walk(false, Language::German, Units::Millimetres);
}

#[test]
fn nothing_lies_on_anything_in_german_in_large_letters() {
    walk(true, Language::German, Units::Millimetres);
}

#[test]
fn looks_change_no_place() {
    let mut screen = screen(demo(), Vec2::new(1280.0, 720.0), 1.0);
    let light: Vec<Drawing> = screen.state().drawings().map(|(drawing, _)| drawing.clone()).collect();
    screen.state_mut().view_mut().theme = Theme::Dark;
    screen.run();
    let dark: Vec<Drawing> = screen.state().drawings().map(|(drawing, _)| drawing.clone()).collect();
    assert_eq!(light, dark);
}

/// Large letters in a small window: one view at a time, and a press changes to the other.
#[test]
fn one_view_at_a_time_where_there_is_room_for_one() {
    let mut screen = screen(demo(), Vec2::new(1280.0, 720.0), 1.0);
    assert_eq!(screen.state().drawings().count(), 2);
    screen.state_mut().view_mut().letters = Letters::LARGE;
    screen.run();
    let seen = |screen: &Harness<'_, Desk>| -> Vec<Projection> {
        screen.state().drawings().map(|(drawing, _)| drawing.projection).collect()
    };
    assert_eq!(seen(&screen), [Projection::Top]);
    screen.get_by_label("the trolley, top view");
    assert!(screen.query_by_label("the trolley, side view").is_none());
    screen.get_all_by_label("Side view").last().unwrap().click();
    screen.run();
    assert_eq!(seen(&screen), [Projection::Side]);
    screen.get_by_label("the trolley, side view");
    screen.get_all_by_label("Top view").last().unwrap().click();
    screen.run();
    assert_eq!(seen(&screen), [Projection::Top]);
}

/// Where there is no room for the list all the time a press opens it, and closes it again.
#[test]
fn the_list_is_opened_by_a_press_where_it_has_no_room() {
    let mut screen = screen(demo(), Vec2::new(1280.0, 720.0), 1.0);
    screen.get_by_label("+ Add");
    screen.state_mut().view_mut().letters = Letters::LARGE;
    screen.run();
    assert!(screen.query_by_label("+ Add").is_none());
    screen.get_by_label("In this bay").click();
    screen.run();
    screen.get_by_label("+ Add");
    screen.get_all_by_label("In this bay").next().unwrap().click();
    screen.run();
    assert!(screen.query_by_label("+ Add").is_none());
}

/// A small laptop whose screen is shown at 1.75 of its size.
#[test]
fn nothing_lies_on_anything_on_a_small_screen_shown_large() {
    let mut screen = screen(demo(), Vec2::new(1280.0, 720.0) / 1.75, 1.75);
    let ctx = screen.ctx.clone();
    for alone in [Projection::Top, Projection::Side] {
        screen.state_mut().ask(&ctx, Command::View(OfView::Alone(alone)));
        screen.run();
        let found: Vec<String> = wrong(screen.state()).into_iter().chain(texts_on_texts(&screen)).collect();
        assert!(found.is_empty(), "{alone:?}: {found:#?}");
    }
}
