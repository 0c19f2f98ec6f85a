//! Every shipped set-up in small and large windows, with ordinary and large letters, in millimetres and feet: nothing that is
//! read lies on anything else that is read, and no figure of what stops the aiming is missing.
//!
//! Looks change colours only, never places: `looks_change_no_place` holds that, so one of them is walked.

use baywright_desk::screen::Desk;
use baywright_desk::screen::command::{Command, OfBay, OfFile, OfView};
use baywright_desk::screen::view::{Area, Drawn, Letters, Measuring, Tool};
use baywright_drawing::{Align, Drawing, Item, Projection, Role, Shape, Text, Theme, pinned};
use baywright_planner::geometry::{DVec2, angle};
use baywright_planner::words::Units;
use baywright_planner::{Code, Finding, Quantity, Severity, Subject};
use egui::Vec2;
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;

use crate::support::{demo, hold, middle, screen, usual};

const SIZES: [(f32, f32); 3] = [(1280.0, 720.0), (1440.0, 900.0), (2560.0, 1440.0)];
/// What two may share before it is seen, px: letters do not fill their boxes.
const SLACK_PX: f64 = 1.0;

/// A line runs through a text, or a text lies on a wall's face, in no more than one of so many set-ups: where letters are large and
/// the paper is small, something must give.
const SET_UPS_FOR_A_CROSSING: usize = 6;

/// Something that is read: a box on the paper, px, maybe slanted.
struct Read {
    what: String,
    middle: DVec2,
    half: DVec2,
    along: DVec2,
    is_marker: bool,
}

impl Read {
    fn corners(&self) -> [DVec2; 4] {
        let (a, b) = (self.along * self.half.x, self.along.perp() * self.half.y);
        [a + b, a - b, -a - b, b - a].map(|by| self.middle + by)
    }

    /// Whether two boxes share more than a hair: no line separates them.
    fn meets(&self, other: &Self) -> bool {
        [self.along, self.along.perp(), other.along, other.along.perp()].iter().all(|&way| {
            let reach = |read: &Self| {
                read.corners()
                    .iter()
                    .map(|c| c.dot(way))
                    .fold((f64::MAX, f64::MIN), |(low, high), at| (low.min(at), high.max(at)))
            };
            let (a, b) = (reach(self), reach(other));
            a.1.min(b.1) - a.0.max(b.0) > SLACK_PX
        })
    }
}

fn of_text(drawing: &Drawing, text: &Text) -> Read {
    let (sin, cos) = angle::sin_cos(text.angle);
    // On paper y runs down.
    let along = DVec2::new(cos, -sin);
    let by = match text.align {
        Align::Start => text.width * 0.5,
        Align::Middle => 0.0,
        Align::End => text.width * -0.5,
    };
    Read {
        what: text.text.clone(),
        middle: drawing.paper_point(text.at) + along * by,
        // From the top of a capital to the foot of a "g".
        half: DVec2::new(text.width, text.style.size * 0.95) * 0.5,
        along,
        is_marker: false,
    }
}

/// All that is read in a drawing, and which finding's figure it is.
fn read(drawing: &Drawing) -> Vec<(Read, Option<usize>)> {
    let items = drawing.items.iter().filter_map(|item| {
        let read = match &item.shape {
            Shape::Text(text) => of_text(drawing, text),
            Shape::Dimension(dimension) => of_text(drawing, &dimension.text),
            Shape::Sign(sign) if matches!(item.role, Role::Flag(_)) => Read {
                what: format!("marker {}", sign.text),
                middle: drawing.paper_point(sign.at),
                half: DVec2::splat(sign.reach),
                along: DVec2::X,
                is_marker: true,
            },
            _ => return None,
        };
        let figure = item.finding.filter(|_| item.role == Role::DimensionStops);
        Some((read, figure))
    });
    items.filter(|(read, _)| drawing.window().grown(20.0).holds(read.middle)).collect()
}

/// What is wrong with what is shown now.
pub fn wrong(desk: &Desk) -> Vec<String> {
    let mut wrong = Vec::new();
    let assessment = &desk.answer().assessment;
    for (drawing, _) in desk.drawings() {
        let all = read(drawing);
        for (i, (one, _)) in all.iter().enumerate() {
            for (other, _) in all.iter().skip(i + 1) {
                if (!one.is_marker || !other.is_marker) && one.meets(other) {
                    wrong.push(format!("{:?}: “{}” on “{}”", drawing.projection, one.what, other.what));
                }
            }
        }
        wrong.extend(zones_named_elsewhere(drawing));
        if drawing.projection == Projection::Side {
            let floor = drawing.paper_point(DVec2::ZERO).y;
            let across = |read: &&Read| {
                let (low, high) = (read.middle.y - read.half.y, read.middle.y + read.half.y);
                !read.is_marker && read.along.x > 0.99 && low < floor - SLACK_PX && high > floor + SLACK_PX
            };
            let names = all.iter().map(|(read, _)| read).filter(across);
            wrong.extend(names.map(|read| format!("Side: “{}” across the floor", read.what)));
            continue;
        }
        let stops = pinned(assessment)
            .filter(|told| told.finding.severity == Severity::Stops && told.finding.measured.is_some());
        for told in stops {
            // What goes furthest through a wall tells it for all that goes through it.
            let tells = |index: usize| {
                assessment
                    .findings
                    .get(index)
                    .is_some_and(|own| index == told.index || is_told_by(told.finding, own))
            };
            let figure = all.iter().find(|(_, figure)| figure.is_some_and(tells));
            let seen =
                figure.is_some_and(|(read, _)| read.corners().iter().all(|&p| drawing.window().holds(p)));
            if !seen {
                wrong.push(format!("no figure of {:?} {:?}", told.finding.code(), told.finding.subjects));
            }
        }
    }
    wrong
}

/// Whether a straight line on the paper runs through a box that is read.
fn runs_through(read: &Read, from: DVec2, to: DVec2) -> bool {
    let half = read.half - DVec2::splat(SLACK_PX);
    let within = |p: DVec2| {
        let by = p - read.middle;
        by.dot(read.along).abs() < half.x && by.dot(read.along.perp()).abs() < half.y
    };
    (0..=200_u16).any(|step| within(from.lerp(to, f64::from(step) / 200.0)))
}

/// The lines of an item on the paper, px.
fn lines(drawing: &Drawing, item: &Item) -> Vec<(DVec2, DVec2)> {
    let rings = match &item.shape {
        Shape::Line(points) => vec![points.clone()],
        Shape::Area(rings) => {
            rings.iter().map(|ring| ring.iter().chain(ring.first()).copied().collect()).collect()
        }
        _ => return Vec::new(),
    };
    rings
        .iter()
        .flat_map(|points| {
            points.windows(2).map(|two| (drawing.paper_point(two[0]), drawing.paper_point(two[1])))
        })
        .collect()
}

/// Texts that a line to something else runs through, and texts on a wall's face.
fn crossed(drawing: &Drawing, all: &[(Read, Option<usize>)]) -> Vec<String> {
    let mut wrong = Vec::new();
    for item in &drawing.items {
        let what = match item.role {
            Role::Leader(_) | Role::NameLeader => "a leader",
            Role::WallLine => "a wall",
            _ => continue,
        };
        for (from, to) in lines(drawing, item) {
            let texts = all.iter().filter(|(read, _)| !read.is_marker && runs_through(read, from, to));
            wrong.extend(texts.map(|(read, _)| {
                format!("{:?}: {what} of {:?} through “{}”", drawing.projection, item.subject, read.what)
            }));
        }
    }
    wrong
}

/// Names of zones that stand neither inside their own zone nor are led to it.
fn zones_named_elsewhere(drawing: &Drawing) -> Vec<String> {
    let mut wrong = Vec::new();
    for item in drawing.items.iter().filter(|item| item.role == Role::LabelZone) {
        let Shape::Text(text) = &item.shape else { continue };
        let own = |other: &&Item| other.subject == item.subject;
        if drawing.items.iter().filter(own).any(|other| other.role == Role::NameLeader) {
            continue;
        }
        let edges: Vec<(DVec2, DVec2)> = (drawing.items.iter().filter(own))
            .filter(|other| matches!(other.role, Role::ZoneEdge | Role::OtherZoneEdge))
            .flat_map(|other| lines(drawing, other))
            .collect();
        let holds = |p: &DVec2| {
            edges.iter().fold(false, |inside, (a, b)| {
                let crosses =
                    (a.y > p.y) != (b.y > p.y) && p.x < a.x + (p.y - a.y) / (b.y - a.y) * (b.x - a.x);
                inside != crosses
            })
        };
        let mut read = of_text(drawing, text);
        read.half -= DVec2::splat(SLACK_PX);
        if !read.corners().iter().all(holds) {
            wrong.push(format!("{:?}: “{}” is not inside its own zone", drawing.projection, read.what));
        }
    }
    wrong
}

/// How many figures of kept dimensions can be read.
pub fn kept_figures(desk: &Desk) -> usize {
    let items = desk.drawings().flat_map(|(drawing, _)| &drawing.items);
    items.filter(|item| item.role == Role::KeptDimension && matches!(item.shape, Shape::Dimension(_))).count()
}

/// Texts of the panels that lie on one another, as far as they are seen.
fn texts_on_texts(screen: &Harness<'_, Desk>) -> Vec<String> {
    fn texts(shape: &egui::Shape, clip: egui::Rect, all: &mut Vec<(String, egui::Rect)>) {
        match shape {
            egui::Shape::Text(text) => {
                let seen = text.visual_bounding_rect().intersect(clip);
                if seen.is_positive() && !text.galley.text().trim().is_empty() {
                    all.push((text.galley.text().to_owned(), seen));
                }
            }
            egui::Shape::Vec(shapes) => shapes.iter().for_each(|own| texts(own, clip, all)),
            _ => {}
        }
    }
    let paper: Vec<egui::Rect> = screen.state().drawings().map(|(_, rect)| rect).collect();
    let mut all = Vec::new();
    for clipped in screen.output().shapes.iter().filter(|own| !paper.contains(&own.clip_rect)) {
        texts(&clipped.shape, clipped.clip_rect, &mut all);
    }
    let mut wrong = Vec::new();
    for (i, (one, a)) in all.iter().enumerate() {
        for (other, b) in all.iter().skip(i + 1) {
            let both = a.intersect(*b);
            if both.width() > SLACK_PX as f32 && both.height() > SLACK_PX as f32 {
                wrong.push(format!("“{one}” on “{other}”"));
            }
        }
    }
    assert!(all.len() > 20, "{} texts", all.len());
    wrong
}

/// Whether the other goes through the same wall, and as far.
fn is_told_by(finding: &Finding, other: &Finding) -> bool {
    let depth = |own: &Finding| match own.measured {
        Some(Quantity::Length(depth)) => depth,
        _ => 0.0,
    };
    [finding, other].iter().all(|own| own.code() == Code::OutsideRoom)
        && matches!(finding.subjects.get(1), Some(Subject::Wall(_) | Subject::Opening(_)))
        && finding.subjects.get(1) == other.subjects.get(1)
        && depth(other) >= depth(finding)
}

pub fn letters(large: bool) -> Letters {
    if large { Letters::LARGE } else { Letters::default() }
}

fn walk(large: bool, units: Units) {
    let (mut found, mut crossings) = (Vec::new(), Vec::new());
    let mut seen = 0;
    for size in SIZES {
        let mut screen = screen(demo(), Vec2::from(size), 1.0);
        let ctx = screen.ctx.clone();
        screen.state_mut().view_mut().letters = letters(large);
        screen.state_mut().view_mut().locale.units = units;
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
    let few = seen / SET_UPS_FOR_A_CROSSING;
    assert!(crossings.len() <= few, "{} of {seen}:\n{}", crossings.len(), crossings.join("\n"));
}

#[test]
fn nothing_lies_on_anything_in_ordinary_letters() {
    walk(false, Units::Millimetres);
}

#[test]
fn nothing_lies_on_anything_in_large_letters() {
    walk(true, Units::Millimetres);
}

#[test]
fn nothing_lies_on_anything_in_feet() {
    walk(false, Units::FeetInches);
}

#[test]
fn nothing_lies_on_anything_in_metres() {
    walk(false, Units::Metres);
}

#[test]
fn nothing_lies_on_anything_in_large_letters_and_feet() {
    walk(true, Units::FeetInches);
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
                let names = of(&[Role::Label, Role::LabelSoft, Role::LabelZone]);
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
    screen.hover_at(egui::Pos2::new(500.0, 20.0));
    screen.run();
    assert_eq!(screen.state().view().lit, None);
}

/// All that is promised is done in a copy by one press; what was there stays to be compared with.
#[test]
fn what_is_promised_is_done_in_a_set_up_of_its_own() {
    let mut screen = usual(demo());
    let before = screen.state().document().layout().arrangements.len();
    screen.get_by_label("In a new set-up").click();
    screen.run();
    let layout = screen.state().document().layout();
    assert_eq!(layout.arrangements.len(), before + 1);
    assert_eq!(screen.state().answer().assessment.count(Severity::Stops), 0);
    assert_ne!(screen.state().document().shown().as_str(), "As found");
    let ctx = screen.ctx.clone();
    screen.state_mut().ask(&ctx, Command::Bay(OfBay::Show("As found".into())));
    screen.run();
    assert!(screen.state().answer().assessment.count(Severity::Stops) > 0);
    // One step: undone once, nothing of it is there.
    screen.state_mut().ask(&ctx, Command::Undo);
    screen.run();
    assert_eq!(screen.state().document().layout().arrangements.len(), before);
    assert!(!screen.state().document().is_changed());
}

/// In every window it is one press.
#[test]
fn a_set_up_of_its_own_is_one_press_in_small_windows_too() {
    for (size, large) in [((1280.0, 720.0), true), ((730.0, 411.0), false)] {
        let mut screen = screen(demo(), Vec2::from(size), 1.0);
        screen.state_mut().view_mut().letters = letters(large);
        screen.run();
        screen.get_by_label("In a new set-up").click();
        screen.run();
        assert_eq!(screen.state().document().shown().as_str(), "As found 2", "{size:?}");
        assert_eq!(screen.state().answer().assessment.count(Severity::Stops), 0, "{size:?}");
    }
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
