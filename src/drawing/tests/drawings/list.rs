//! What every drawing list keeps to.

use baywright_drawing::{
    Axis, Dimension, Drawing, Extents, Fit, Item, Lettering, LiveDimension, Projection, Role, Shape, Turned,
    ViewState, flagged, picture, pinned, side_view, top_view,
};
use baywright_planner::geometry::{Bounds, DVec2, PlanPose};
use baywright_planner::model::Arrangement;
use baywright_planner::{Assessment, Subject, assess};

use super::bay;

pub fn views(
    arrangement: &Arrangement,
    assessment: &Assessment,
    state: &ViewState,
    fit: Fit,
    lettering: &Lettering<'_>,
) -> [Drawing; 2] {
    [top_view, side_view].map(|view| view(arrangement, assessment, state, fit, lettering))
}

/// Sorted, finite, nothing that stands around a view, every finding flagged, no flag on another or out of the window,
/// every thing there.
pub fn check(arrangement: &Arrangement, assessment: &Assessment, drawing: &Drawing) {
    let layers: Vec<u8> = drawing.items.iter().map(|item| item.role.layer()).collect();
    assert!(layers.is_sorted(), "paint order");
    for item in &drawing.items {
        item.shape.each_point(|p| assert!(p.is_finite(), "{item:?}"));
        assert!(!item.role.is_furniture(), "{item:?}");
        if let Shape::Text(text) = &item.shape {
            assert!(
                text.width.is_finite() && text.width >= 0.0 && text.style.size >= Lettering::LEAST_TEXT,
                "{item:?}"
            );
        }
    }
    assert!(drawing.size.is_finite() && drawing.size.min_element() > 0.0 && drawing.px_per_mm > 0.0);

    let flags: Vec<(usize, DVec2, f64)> = drawing.items.iter().filter_map(flag).collect();
    let numbers: Vec<usize> = flags.iter().map(|(number, ..)| *number).collect();
    let told: Vec<usize> = pinned(assessment).map(|told| told.number).collect();
    assert_eq!(numbers, told, "one flag for each finding that is about a place");
    for (i, (_, at, reach)) in flags.iter().enumerate() {
        let at = drawing.paper_point(*at);
        let inside = [at - *reach, at + *reach].iter().all(|&p| drawing.window().holds(p));
        assert!(inside, "flag {} out of the window: {at}", i + 1);
        for (_, other, _) in &flags[..i] {
            let apart = drawing.paper_point(*other).distance(at);
            assert!(apart >= 2.0 * reach, "flag {} on another, {apart} px apart", i + 1);
        }
    }
    for thing in &arrangement.bay.things {
        let subject = Subject::Thing(thing.id.clone());
        // The side view leaves out what no finding is about and what stands far off its axis.
        let blamed = flagged(assessment).any(|told| told.finding.subjects.contains(&subject));
        if drawing.projection == Projection::Side && !blamed {
            continue;
        }
        assert!(drawing.showing(&subject).next().is_some(), "{} is not drawn", thing.id);
    }
}

/// A = 1 ... Z = 26, AA = 27 ...
fn number_of(letters: &str) -> Option<usize> {
    letters.bytes().try_fold(0, |sum, letter| {
        letter.is_ascii_uppercase().then(|| sum * 26 + usize::from(letter - b'A') + 1)
    })
}

fn flag(item: &Item) -> Option<(usize, DVec2, f64)> {
    match (&item.shape, item.role) {
        (Shape::Sign(sign), Role::Flag(_)) => Some((number_of(&sign.text)?, sign.at, sign.reach)),
        _ => None,
    }
}

fn dimensions(drawing: &Drawing) -> impl Iterator<Item = &Dimension> {
    drawing.items.iter().filter_map(|item| match &item.shape {
        Shape::Dimension(d) => Some(d),
        _ => None,
    })
}

/// The millimetres that a dimension's text begins with.
fn told(text: &str) -> f64 {
    let digits: String =
        text.chars().take_while(|c| c.is_ascii_digit() || matches!(c, '\u{202f}' | '.')).collect();
    digits.replace('\u{202f}', "").parse().unwrap()
}

#[test]
fn lists_keep_to_the_rules() {
    for arrangement in [bay::empty(false), bay::empty(true), bay::crowded()] {
        let assessment = assess(&arrangement);
        for turned in [Turned::ToCar, Turned::ToRoom, Turned::ToSightLine] {
            for along in [None, Some(Axis::Centreline), Some(Axis::SightLine)] {
                let state = ViewState { turned, along, ..ViewState::default() };
                for drawing in
                    views(&arrangement, &assessment, &state, Fit::picture(1200.0), &Lettering::default())
                {
                    check(&arrangement, &assessment, &drawing);
                }
            }
        }
    }
}

#[test]
fn what_a_dimension_says_is_what_it_spans() {
    let mut stops = 0;
    for arrangement in [bay::crowded(), bay::empty(true)] {
        let assessment = assess(&arrangement);
        for drawing in views(
            &arrangement,
            &assessment,
            &ViewState::default(),
            Fit::picture(1200.0),
            &Lettering::default(),
        ) {
            let mut some = 0;
            for d in dimensions(&drawing) {
                assert!((told(&d.text.text) - d.spans()).abs() <= 0.5, "{} spans {}", d.text.text, d.spans());
                // The line's ends stand abreast of the points.
                let along = (d.line_to - d.line_from).normalize();
                assert!(
                    (d.line_from - d.from).dot(along).abs() < 1e-6
                        && (d.line_to - d.to).dot(along).abs() < 1e-6
                );
                assert!(d.text.masked, "a dimension's text stands on a mask");
                some += 1;
            }
            assert!(some >= 2, "room and stand-off, or room and height");
            stops += drawing.items.iter().filter(|item| item.role == Role::DimensionStops).count();
        }
    }
    assert!(stops > 0, "the cabinet is so far in");
}

#[test]
fn stand_off_and_depth_are_told() {
    let arrangement = bay::crowded();
    let assessment = assess(&arrangement);
    let [top, side] =
        views(&arrangement, &assessment, &ViewState::default(), Fit::picture(1200.0), &Lettering::default());
    let top: Vec<String> = dimensions(&top).map(|d| d.text.text.replace('\u{202f}', " ")).collect();
    // The cabinet's lower edge at 4250, the zone's upper edge at 4500.
    for wanted in ["3 600 front axle to plate face", "250 in", "12 000", "6 000"] {
        assert!(top.iter().any(|text| text.starts_with(wanted)), "{wanted} in {top:?}");
    }
    let side: Vec<String> = dimensions(&side).map(|d| d.text.text.replace('\u{202f}', " ")).collect();
    for wanted in ["520 sensor and plate", "3 000"] {
        assert!(side.iter().any(|text| text == wanted), "{wanted} in {side:?}");
    }
}

/// Where the room would lie slantwise in much more paper the top view is turned to the car, whatever the side view follows.
#[test]
fn no_room_lies_slantwise_for_a_sight_line() {
    for (heading, turned_to_line) in [(0.0, false), (0.1, false), (-0.75, true)] {
        let mut arrangement = bay::empty(true);
        arrangement.parked = PlanPose::new(DVec2::new(4300.0, 3000.0), heading);
        let assessment = assess(&arrangement);
        let (turned, extents) = Extents::of_both(&arrangement, &assessment, &ViewState::default());
        let wanted = if turned_to_line { Turned::ToSightLine } else { Turned::ToCar };
        assert_eq!((turned, extents.one_axis()), (wanted, turned_to_line), "{heading}");
    }
}

/// From where to where a drawing shows a subject along x.
fn along(drawing: &Drawing, subject: &Subject) -> Option<(f64, f64)> {
    let mut points = Vec::new();
    for item in drawing.showing(subject) {
        if matches!(
            item.role,
            Role::Thing(_) | Role::QuietThing(_) | Role::ThingAside(_) | Role::Overhead | Role::CarBody
        ) {
            item.shape.each_point(|p| points.push(p));
        }
    }
    let bounds = Bounds::around(points)?;
    Some((bounds.low.x, bounds.high.x))
}

#[test]
fn everything_stands_under_itself() {
    let mut arrangement = bay::crowded();
    let mut whole = 0;
    for (corner, heading) in [(false, 0.0), (false, 0.04), (true, -0.78), (true, -0.7)] {
        if corner {
            let things = std::mem::take(&mut arrangement.bay.things);
            arrangement = bay::empty(true);
            arrangement.bay.things = things;
        }
        arrangement.parked = PlanPose::new(DVec2::new(4300.0, 3000.0), heading);
        let assessment = assess(&arrangement);
        let page = picture(
            &arrangement,
            &assessment,
            &ViewState::default(),
            &[Projection::Top, Projection::Side],
            Fit::picture(1200.0),
            &Lettering::default(),
        );
        let views: Vec<&Drawing> = page.views().collect();
        let [top_view, side_view] = views[..] else { panic!("{} views", views.len()) };
        assert_eq!(top_view.px_per_mm, side_view.px_per_mm);
        assert_eq!(top_view.origin.x, side_view.origin.x);
        assert_eq!(top_view.bay_from_view, side_view.bay_from_view);
        for thing in &arrangement.bay.things {
            let subject = Subject::Thing(thing.id.clone());
            let top = along(top_view, &subject).unwrap();
            // Left out from the side, or cut off at an end wall, or exactly under itself.
            let Some(side) = along(side_view, &subject) else { continue };
            assert!(top.0 - 1e-6 <= side.0 && side.1 <= top.1 + 1e-6, "{} {heading}", thing.id);
            whole += usize::from((top.0 - side.0).abs() < 1e-6 && (top.1 - side.1).abs() < 1e-6);
        }
        // The mirrors stick out to the side, not beyond the body's ends.
        if !corner {
            let (top, side) =
                (along(top_view, &Subject::Car).unwrap(), along(side_view, &Subject::Car).unwrap());
            assert!((top.0 - side.0).abs() < 1e-6 && (top.1 - side.1).abs() < 1e-6, "car: {top:?} {side:?}");
        }
    }
    assert!(whole >= 6, "{whole} things stand exactly under themselves");
}

#[test]
fn a_corner_radar_is_seen_along_its_sight_line() {
    let arrangement = bay::empty(true);
    let assessment = assess(&arrangement);
    let side = side_view(
        &arrangement,
        &assessment,
        &ViewState::default(),
        Fit::picture(1200.0),
        &Lettering::default(),
    );
    let (sensor, target) = (assessment.scene.sensor(), assessment.scene.targets[0].centre());
    let ahead = (target - sensor).truncate().normalize();
    assert!(side.bay_from_view.forward().distance(ahead) < 1e-9);
    // Seen at true length: the sight line is as long as the way from sensor to target.
    let line = side.items.iter().find(|item| item.role == Role::SightLine).unwrap();
    let Shape::Line(points) = &line.shape else { panic!("{line:?}") };
    assert!((points[0].distance(points[1]) - sensor.distance(target)).abs() < 1e-6);
}

#[test]
fn what_is_in_hand_is_outlined_named_and_measured() {
    let arrangement = bay::crowded();
    let assessment = assess(&arrangement);
    let subject = Subject::Thing("tool cabinet".into());
    let (from, to) = (DVec2::new(7450.0, 4700.0), DVec2::new(7450.0, 6000.0));
    let state = ViewState {
        hovered: Some(Subject::Thing("trolley".into())),
        selected: Some(subject.clone()),
        live: vec![LiveDimension { from, to, text: "1\u{202f}300".into() }],
        ..ViewState::default()
    };
    let [top, side] = views(&arrangement, &assessment, &state, Fit::picture(1200.0), &Lettering::default());
    for drawing in [&top, &side] {
        check(&arrangement, &assessment, drawing);
        assert!(drawing.showing(&subject).any(|item| item.role == Role::Selected));
        assert!(drawing.items.iter().any(|item| item.role == Role::Hovered));
        let named = |item: &Item| matches!(&item.shape, Shape::Text(text) if text.text == "tool cabinet");
        assert!(drawing.showing(&subject).any(named));
    }
    let live = top.items.iter().find(|item| item.role == Role::LiveDimension).unwrap();
    let Shape::Dimension(d) = &live.shape else { panic!("{live:?}") };
    assert!((d.spans() - 1300.0).abs() < 1e-9);
}

#[test]
fn the_paper_and_the_screen_agree() {
    let arrangement = bay::crowded();
    let assessment = assess(&arrangement);
    let (picture, lettering) = (Fit::picture(1200.0), Lettering::default());
    let window =
        Fit::Window { size: DVec2::new(900.0, 600.0), px_per_mm: 0.3, middle: DVec2::new(1500.0, 0.0) };
    let [on_paper, _] = views(&arrangement, &assessment, &ViewState::default(), picture, &lettering);
    let [on_screen, _] = views(&arrangement, &assessment, &ViewState::default(), window, &lettering);
    check(&arrangement, &assessment, &on_screen);
    assert_eq!(on_screen.paper_point(DVec2::new(1500.0, 0.0)), DVec2::new(450.0, 300.0));
    let bodies = |drawing: &Drawing| -> Vec<Shape> {
        drawing
            .items
            .iter()
            .filter(|i| matches!(i.role, Role::Thing(_) | Role::QuietThing(_) | Role::CarBody))
            .map(|i| i.shape.clone())
            .collect()
    };
    assert_eq!(bodies(&on_paper), bodies(&on_screen), "geometry is in mm and does not know the scale");
}

#[test]
fn larger_texts_are_larger() {
    let arrangement = bay::crowded();
    let assessment = assess(&arrangement);
    let lettering = Lettering { least_text: Lettering::BAY_SIZE_TEXT, ..Lettering::default() };
    for drawing in views(&arrangement, &assessment, &ViewState::default(), Fit::picture(1600.0), &lettering) {
        check(&arrangement, &assessment, &drawing);
        for item in &drawing.items {
            let size = match &item.shape {
                Shape::Text(text) => text.style.size,
                Shape::Dimension(d) => d.text.style.size,
                Shape::Sign(sign) if !sign.text.is_empty() => sign.style.size,
                _ => continue,
            };
            assert!(size >= Lettering::BAY_SIZE_TEXT - 1e-9, "{item:?}");
        }
    }
}

#[test]
fn names_do_not_cover_names_flags_or_marks() {
    let arrangement = bay::crowded();
    let assessment = assess(&arrangement);
    for drawing in
        views(&arrangement, &assessment, &ViewState::default(), Fit::picture(1200.0), &Lettering::default())
    {
        let mut boxes: Vec<(Bounds, String)> = Vec::new();
        for item in &drawing.items {
            let (at, half, what) = match &item.shape {
                // Upright texts stand in the margins, apart from the others.
                Shape::Text(t) if t.angle == 0.0 => {
                    let shift = match t.align {
                        baywright_drawing::Align::Start => 0.5,
                        baywright_drawing::Align::Middle => 0.0,
                        baywright_drawing::Align::End => -0.5,
                    };
                    let middle = drawing.paper_point(t.at) + DVec2::new(t.width * shift, 0.0);
                    (middle, DVec2::new(t.width, t.style.size * 0.7) * 0.5, t.text.clone())
                }
                Shape::Sign(s) if matches!(item.role, Role::Flag(_) | Role::Mark) => {
                    (drawing.paper_point(s.at), DVec2::splat(s.reach), format!("sign {}", s.text))
                }
                _ => continue,
            };
            let own = Bounds { low: at - half, high: at + half };
            for (other, other_what) in &boxes {
                let apart = own.low.cmpge(other.high) | other.low.cmpge(own.high);
                assert!(apart.any(), "{:?}: {what} covers {other_what}", drawing.projection);
            }
            boxes.push((own, what));
        }
        assert!(boxes.len() >= 8, "{boxes:?}");
    }
}

/// However the car stands on the paper, its left is named on its left, or not at all; never over another text.
#[test]
fn the_cars_left_is_named_on_its_left() {
    for arrangement in [bay::empty(false), bay::empty(true), bay::crowded()] {
        let assessment = assess(&arrangement);
        let words =
            baywright_planner::words::Words::new(&arrangement, baywright_planner::words::Locale::default());
        for turned in [Turned::ToCar, Turned::ToRoom, Turned::ToSightLine] {
            let state = ViewState { turned, ..ViewState::default() };
            let [top, side] =
                views(&arrangement, &assessment, &state, Fit::picture(1200.0), &Lettering::default());
            let named = |drawing: &Drawing| {
                let texts = drawing.items.iter().filter_map(|item| match &item.shape {
                    Shape::Text(text) if text.text == words.cars_left() => Some(text.clone()),
                    _ => None,
                });
                texts.collect::<Vec<_>>()
            };
            assert!(named(&side).is_empty());
            let all = named(&top);
            assert!(
                all.len() <= 1
                    && (turned != Turned::ToCar || !arrangement.bay.things.is_empty() || all.len() == 1),
                "{turned:?}: {all:?}"
            );
            for text in all {
                let own = assessment.scene.bay_from_vehicle.inverse() * (top.bay_from_view * text.at);
                let half = arrangement.vehicle.width_mm * 0.5;
                assert!(own.y > half, "{turned:?}: {own}");
            }
        }
    }
}
