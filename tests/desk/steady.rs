//! What is pointed at, lit or in hand moves and hides nothing that is read.

use baywright_desk::screen::Desk;
use baywright_desk::screen::command::{Command, OfFile, OfView};
use baywright_drawing::{Drawing, Item, Role, Shape};
use baywright_planner::geometry::DVec2;
use baywright_planner::words::Units;
use baywright_planner::{Code, Subject};
use egui::{Pos2, Rect, Vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;

use crate::legible::{Read, letters, of_text, read, wrong};
use crate::support::{demo, hold, middle, screen, usual};
use crate::walk::SIZES;

/// What is in hand, pointed at or shown hides no figure of what stops the aiming, at any size of letters.
#[test]
fn nothing_in_hand_hides_what_stops() {
    const UNITS: [Units; 3] = [Units::Millimetres, Units::Metres, Units::FeetInches];
    let each = [false, true].into_iter().flat_map(|large| SIZES.map(|size| (large, size)));
    for (large, size, units) in each.flat_map(|(large, size)| UNITS.map(|units| (large, size, units))) {
        let mut screen = screen(demo(), Vec2::from(size), 1.0);
        let ctx = screen.ctx.clone();
        screen.state_mut().view_mut().letters = letters(large);
        screen.state_mut().view_mut().locale.units = units;
        let things: Vec<_> =
            screen.state().answer().arrangement.bay.things.iter().map(|t| t.id.clone()).collect();
        for thing in things {
            let subject = Some(Subject::Thing(thing.clone()));
            screen.state_mut().ask(&ctx, Command::View(OfView::Select(subject)));
            screen.run();
            let wrong = wrong(screen.state());
            assert!(wrong.is_empty(), "{size:?}, {units:?}, large {large}: {thing} in hand: {wrong:#?}");
        }
        for index in 0..3 {
            screen.state_mut().ask(&ctx, Command::View(OfView::Point(index)));
            screen.run();
            let wrong = wrong(screen.state());
            assert!(
                wrong.is_empty(),
                "{size:?}, {units:?}, large {large}: finding {index} shown: {wrong:#?}"
            );
        }
    }
}

/// Everything that is drawn but the outline of what is pointed at.
fn drawn(desk: &Desk) -> Vec<Vec<Item>> {
    let still = |item: &&Item| item.role != Role::Hovered;
    desk.drawings().map(|(drawing, _)| drawing.items.iter().filter(still).cloned().collect()).collect()
}

#[test]
fn the_pointer_over_something_moves_nothing() {
    let mut screen = usual(demo());
    let before = drawn(screen.state());
    for name in ["the column, top view", "the work bench, top view", "the car, side view", "mark 5, top view"]
    {
        screen.hover_at(middle(&screen, name));
        screen.run();
        assert!(screen.state().view().hovered.is_some(), "{name}");
        assert_eq!(drawn(screen.state()), before, "{name} pointed at");
    }
}

/// While the trolley is drawn through the bay, all that is written stays where it is beside what it names; what is written of
/// the trolley goes with it. On release places are found anew.
#[test]
fn nothing_jumps_while_something_is_in_hand() {
    let mut screen = usual(demo());
    let written = |screen: &Harness<'_, Desk>| -> Vec<(Option<Subject>, String, DVec2)> {
        let mut all = Vec::new();
        for (drawing, _) in screen.state().drawings() {
            all.extend(drawing.items.iter().filter_map(|item| {
                let (what, at) = match (&item.shape, item.role) {
                    (Shape::Text(text), Role::Label | Role::LabelSoft | Role::LabelZone) => {
                        (text.text.clone(), text.at)
                    }
                    (Shape::Sign(sign), Role::Flag(_)) => (sign.text.clone(), sign.at),
                    _ => return None,
                };
                let what = format!("{:?}: {what}", drawing.projection);
                Some((item.subject.clone(), what, drawing.paper_point(at)))
            }));
        }
        all
    };
    let from = middle(&screen, "the trolley, top view");
    // Taken in hand, and not yet moved.
    hold(&mut screen, from, from + Vec2::new(0.0, 8.0));
    let before = written(&screen);
    let mut compared = 0;
    for by in [30.0, 60.0, 110.0] {
        screen.hover_at(from + Vec2::new(40.0, by));
        screen.step();
        let trolley = Some(Subject::Thing("trolley".into()));
        for (subject, what, at) in written(&screen) {
            let Some((.., was)) =
                before.iter().find(|old| old.0 == subject && old.1 == what && old.2.distance(at) < 300.0)
            else {
                continue;
            };
            if subject != trolley {
                assert!(was.distance(at) < 0.01, "“{what}” of {subject:?} went from {was} to {at}");
                compared += 1;
            }
        }
    }
    assert!(compared > 60, "{compared}");
}

/// A name that keeps its place while something is in hand goes away where a figure of it, or of a stop, comes to lie on it.
#[test]
fn no_figure_lies_on_a_name_while_the_car_is_in_hand() {
    let mut screen = usual(demo());
    let ctx = screen.ctx.clone();
    let mut compared = 0;
    for bay in ["clear-bay", "crowded-bay", "drain-bay"] {
        screen.state_mut().ask(&ctx, Command::File(OfFile::Open(bay.into())));
        screen.run();
        let from = middle(&screen, "the car, top view");
        hold(&mut screen, from, from + Vec2::new(0.0, 8.0));
        for step in 1..40_u8 {
            let step = f32::from(step);
            screen.hover_at(from + Vec2::new(step * 4.0, (step * 0.7).sin() * 60.0));
            screen.step();
            for (drawing, _) in screen.state().drawings() {
                let texts = drawing.items.iter().filter_map(|item| match &item.shape {
                    Shape::Text(text) => Some((item.role, of_text(drawing, text))),
                    Shape::Dimension(own) => Some((item.role, of_text(drawing, &own.text))),
                    _ => None,
                });
                let texts: Vec<(Role, Read)> = texts.collect();
                let of = |roles: &[Role]| -> Vec<&Read> {
                    texts.iter().filter(|(role, _)| roles.contains(role)).map(|(_, read)| read).collect()
                };
                // Nor on a figure of the aiming.
                let names = of(&[Role::Label, Role::LabelSoft, Role::LabelZone, Role::Dimension]);
                for figure in of(&[Role::LiveDimension, Role::DimensionStops]) {
                    compared += names.len();
                    let on = names.iter().find(|name| name.meets(figure));
                    assert!(on.is_none(), "{bay}: “{}” on “{}”", figure.what, on.unwrap().what);
                }
            }
        }
        screen.key_press(egui::Key::Escape);
        screen.run();
    }
    assert!(compared > 5_000, "{compared}");
}

/// While a thing is in hand nothing is written under a figure of it or of a stop, and neither a name nor a figure under a marker.
#[test]
fn nothing_is_written_under_what_moves_with_a_thing() {
    let mut screen = screen(demo(), Vec2::new(1_280.0, 720.0), 1.0);
    let mut compared = 0;
    for (name, way) in WAYS {
        let from = middle(&screen, &format!("the {name}, top view"));
        hold(&mut screen, from, from + Vec2::new(0.0, -8.0));
        for step in 1..25_u8 {
            screen.hover_at(from + Vec2::from(way) * f32::from(step));
            screen.step();
            for (drawing, _) in screen.state().drawings() {
                let is_name = |role| matches!(role, Role::Label | Role::LabelSoft | Role::LabelZone);
                let loud = texts(drawing, is_loud);
                let names = texts(drawing, is_name);
                let others = texts(drawing, |role| role == Role::Dimension);
                let figures = texts(drawing, |role| role == Role::Dimension || is_loud(role));
                let markers: Vec<Read> =
                    read(drawing).into_iter().map(|(own, _)| own).filter(|own| own.is_marker).collect();
                let over_names = loud.iter().chain(&markers).map(|over| (over, &names));
                let over_others = loud.iter().map(|over| (over, &others));
                let over_figures = markers.iter().map(|over| (over, &figures));
                for (over, under) in over_names.chain(over_others).chain(over_figures) {
                    compared += under.len();
                    let on = under.iter().find(|own| own.meets(over)).map(|own| &own.what);
                    assert!(on.is_none(), "{name} {way:?} {step}: “{}” on “{}”", over.what, on.unwrap());
                }
                for (i, one) in loud.iter().enumerate() {
                    let on = loud.iter().skip(i + 1).find(|own| own.meets(one)).map(|own| &own.what);
                    assert!(on.is_none(), "{name} {way:?} {step}: “{}” on “{}”", one.what, on.unwrap());
                }
            }
        }
        screen.key_press(egui::Key::Escape);
        screen.run();
    }
    assert!(compared > 5_000, "{compared}");
}

/// What is drawn through the bay in these tests, and which way, px a step.
const WAYS: [(&str, (f32, f32)); 5] = [
    ("trolley", (1.0, -3.0)),
    ("trolley", (2.0, 1.0)),
    ("trolley", (-1.0, -4.0)),
    ("tool cabinet", (-2.0, 1.0)),
    ("tool cabinet", (-1.0, 3.0)),
];

const fn is_loud(role: Role) -> bool {
    matches!(role, Role::LiveDimension | Role::DimensionStops)
}

/// The texts of some roles, figures of dimensions too.
fn texts(drawing: &Drawing, wanted: impl Fn(Role) -> bool) -> Vec<Read> {
    let texts = drawing.items.iter().filter(|item| wanted(item.role));
    let texts = texts.filter_map(|item| match &item.shape {
        Shape::Text(text) => Some(of_text(drawing, text)),
        Shape::Dimension(own) => Some(of_text(drawing, &own.text)),
        _ => None,
    });
    texts.collect()
}

/// A figure that moves with a thing keeps its place beside its line from one frame to the next, but where it would lie on something
/// that is read, or off the paper.
#[test]
fn a_figure_that_moves_does_not_jump_to_and_fro() {
    let mut screen = screen(demo(), Vec2::new(1_280.0, 720.0), 1.0);
    let (mut compared, mut jumps) = (0, Vec::new());
    for (name, way) in WAYS {
        let from = middle(&screen, &format!("the {name}, top view"));
        hold(&mut screen, from, from + Vec2::new(0.0, -8.0));
        let lines = |screen: &Harness<'_, Desk>| -> Vec<(DVec2, Read)> {
            let (top, _) = screen.state().drawings().next().unwrap();
            let live = top.items.iter().filter(|item| item.role == Role::LiveDimension);
            let live = live.filter_map(|item| match &item.shape {
                Shape::Dimension(own) => {
                    let ends = [own.line_from, own.line_to].map(|p| top.paper_point(p));
                    Some(((ends[1] + ends[0]) * 0.5, of_text(top, &own.text)))
                }
                _ => None,
            });
            live.collect()
        };
        let mut last = lines(&screen);
        for step in 1..60_u8 {
            screen.hover_at(from + Vec2::from(way) * f32::from(step) * 0.4);
            screen.step();
            let now = lines(&screen);
            let (top, _) = screen.state().drawings().next().unwrap();
            for (middle, read_now) in &now {
                let was = last
                    .iter()
                    .filter(|(was, own)| was.distance(*middle) < 6.0 && own.along.dot(read_now.along) > 0.9);
                let Some((was, read_was)) =
                    was.min_by(|a, b| a.0.distance(*middle).total_cmp(&b.0.distance(*middle)))
                else {
                    continue;
                };
                compared += 1;
                let by = (read_now.middle - middle) - (read_was.middle - was);
                if by.length() < 8.0 {
                    continue;
                }
                // Where it would stand, had it stayed.
                let stayed = Read {
                    what: read_now.what.clone(),
                    middle: read_now.middle - by,
                    half: read_now.half + 3.0,
                    along: read_now.along,
                    is_marker: false,
                };
                let is_other = |own: &Read| own.what != read_now.what;
                let is_forced = read(top).iter().any(|(own, _)| is_other(own) && own.meets(&stayed));
                if !is_forced && top.window().grown(-20.0).holds(stayed.middle) {
                    jumps.push(format!("{name} {way:?} {step}: “{}” by {by:.0}", read_now.what));
                }
            }
            last = now;
        }
        screen.key_press(egui::Key::Escape);
        screen.run();
    }
    assert!(compared > 300, "{compared}");
    assert!(jumps.len() * MOVES_FOR_A_JUMP <= compared, "{} of {compared}: {jumps:#?}", jumps.len());
}

/// A figure that moves goes elsewhere, though nothing is read where it would come to stand, no more than once in so many frames: a
/// wall, another body or a line too short for it may force it too.
const MOVES_FOR_A_JUMP: usize = 40;

/// Over a card its marker is lit, over a marker its card.
#[test]
fn card_and_marker_light_one_another() {
    let mut screen = usual(demo());
    assert_eq!(screen.state().view().lit, None);
    let card = screen.get_by_label("Show: Trolley is in the way of the plate").rect();
    screen.hover_at(card.center());
    screen.run();
    let lit = screen.state().view().lit.unwrap();
    assert_eq!(screen.state().answer().assessment.findings[lit].code(), Code::SightBlocked);
    let (marker, cabinet) = {
        let (top, rect) = screen.state().drawings().next().unwrap();
        let flag = top
            .items
            .iter()
            .find(|item| matches!(item.role, Role::Flag(_)) && item.finding != Some(lit))
            .unwrap();
        let Shape::Sign(sign) = &flag.shape else { panic!() };
        let px = top.paper_point(sign.at);
        (rect.min + Vec2::new(px.x as f32, px.y as f32), flag.finding)
    };
    screen.hover_at(marker);
    screen.run();
    assert_eq!(screen.state().view().lit, cabinet);
    screen.hover_at(Pos2::new(500.0, 20.0));
    screen.run();
    assert_eq!(screen.state().view().lit, None);
}

/// Where the names of zones stand on the paper of each view, px, and where its window lies on the screen.
fn zones(screen: &Harness<'_, Desk>) -> (Vec<(String, DVec2)>, Vec<Rect>) {
    let mut names = Vec::new();
    for (drawing, _) in screen.state().drawings() {
        names.extend(drawing.items.iter().filter_map(|item| match (&item.shape, &item.subject, item.role) {
            (Shape::Text(text), Some(Subject::Zone(id)), Role::LabelZone) => {
                Some((format!("{:?}: {id}", drawing.projection), drawing.paper_point(text.at)))
            }
            _ => None,
        }));
    }
    (names, screen.state().drawings().map(|(_, window)| window).collect())
}

/// Whatever is drawn out of the room, or a corner of it further out: the paper keeps still in its window, and on it the name of
/// each zone, which none of that moves. A name may give way, and none comes.
#[test]
fn names_of_zones_keep_their_places_while_the_room_grows() {
    // Of each bay and what was drawn out of it: names that were looked at again.
    let mut compared: Vec<(String, usize)> = Vec::new();
    let mut others = Vec::new();
    for bay in ["clear-bay", "crowded-bay", "drain-bay"] {
        let mut screen = usual(demo());
        let ctx = screen.ctx.clone();
        screen.state_mut().ask(&ctx, Command::File(OfFile::Open(bay.into())));
        screen.state_mut().ask(&ctx, Command::View(OfView::Select(Some(Subject::Floor))));
        screen.run();
        let mut grips: Vec<(String, Pos2)> = Vec::new();
        for thing in &screen.state().answer().arrangement.bay.things {
            let name = format!("the {}", thing.id);
            if let Some(node) = screen.query_by_label(&format!("{name}, top view")) {
                grips.push((name, node.rect().center()));
            }
        }
        let (top, window) = screen.state().drawings().next().unwrap();
        let (view_from_bay, middle) = (top.bay_from_view.inverse(), window.center());
        for (i, corner) in screen.state().answer().arrangement.bay.room.outer().iter().enumerate() {
            let px = top.paper_point(view_from_bay * *corner);
            grips.push((format!("corner {i}"), window.min + Vec2::new(px.x as f32, px.y as f32)));
        }
        for (what, from) in grips {
            screen.state_mut().ask(&ctx, Command::View(OfView::Select(Some(Subject::Floor))));
            screen.run();
            let out = (from - middle).normalized();
            hold(&mut screen, from, from + out * 3.0);
            // In hand from the first frame on; a target that was pressed instead takes its zones along.
            let is_other =
                matches!(screen.state().view().selected, Some(Subject::Target(_) | Subject::Stand(_)));
            let (names, windows) = zones(&screen);
            let mut of_this = 0;
            for step in 1..16_u8 {
                screen.hover_at(from + out * (f32::from(step) * 9.0));
                screen.step();
                let (now, windows_now) = zones(&screen);
                assert_eq!(windows_now, windows, "{bay}, {what}, {step}");
                for (name, at) in now.iter().filter(|_| !is_other) {
                    let was = names.iter().find(|(own, _)| own == name);
                    let (_, was) = was.unwrap_or_else(|| panic!("{bay}, {what}, {step}: {name} came"));
                    assert!(
                        was.distance(*at) < 0.01,
                        "{bay}, {what}, {step}: {name} went from {was} to {at}"
                    );
                    of_this += 1;
                }
            }
            if is_other {
                others.push(format!("{bay}, {what}"));
            } else {
                compared.push((format!("{bay}, {what}"), of_this));
            }
            screen.key_press(egui::Key::Escape);
            screen.run();
        }
    }
    // In each there are names to look at, whatever is drawn.
    let vain: Vec<_> = compared.iter().filter(|(_, count)| *count == 0).collect();
    assert!(vain.is_empty(), "nothing was compared: {vain:?}");
    assert!(others.len() <= MOST_TARGETS_IN_THE_WAY, "{others:?}");
    assert!(compared.iter().map(|(_, count)| count).sum::<usize>() > 1_000, "{compared:?}");
}

/// A target lies under the pointer instead of what is to be drawn at most so often in the three bays.
const MOST_TARGETS_IN_THE_WAY: usize = 1;
