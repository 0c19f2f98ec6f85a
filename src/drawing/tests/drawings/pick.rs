//! What is at a place of the paper.

use baywright_drawing::{
    Align, Drawing, Fit, Item, Lettering, Picked, Role, Shape, Turned, ViewState, side_view, top_view,
};
use baywright_planner::geometry::{Bounds, DVec2, DVec3, PlanPose};
use baywright_planner::model::{
    FloorFeature, FloorFeatureKind, Material, PermanentMark, Shape as ThingShape, StandSet, ThingKind,
};
use baywright_planner::{Subject, assess, judge};
use proptest::prelude::*;

use super::bay;
use super::list::views;
use super::trouble::any_thing;

const SLACK: f64 = 5.0;

fn canvas(arrangement: &baywright_planner::model::Arrangement) -> Drawing {
    let state = ViewState::default();
    top_view(arrangement, &assess(arrangement), &state, Fit::picture(1600.0), &Lettering::default())
}

fn at(drawing: &Drawing, x: f64, y: f64) -> Option<Subject> {
    let px = drawing.paper_point_of(DVec3::new(x, y, 0.0));
    drawing.pick(px, SLACK).and_then(|picked| picked.subject)
}

fn thing(name: &str) -> Option<Subject> {
    Some(Subject::Thing(name.into()))
}

#[test]
fn what_lies_where_in_the_crowded_bay() {
    let drawing = canvas(&bay::crowded());
    assert_eq!(at(&drawing, 2_800.0, 3_400.0), Some(Subject::Car));
    assert_eq!(at(&drawing, 6_550.0, 3_250.0), thing("trolley"));
    assert_eq!(at(&drawing, 6_300.0, 1_420.0), thing("column"));
    assert_eq!(at(&drawing, 7_450.0, 4_300.0), thing("tool cabinet"));
    assert_eq!(at(&drawing, 4_300.0 + 3_600.0, 3_150.0), Some(Subject::Target("target".into())));
    assert_eq!(at(&drawing, 4_300.0 + 3_900.0, 2_800.0), Some(Subject::Stand("target".into())));
    assert_eq!(at(&drawing, 4_300.0 + 870.0, 3_000.0), Some(Subject::Sensor));
    // Inside the zone nothing else is there; beside it only the floor.
    assert_eq!(at(&drawing, 8_900.0, 1_700.0), Some(Subject::Zone("metal-free area".into())));
    assert_eq!(at(&drawing, 11_000.0, 700.0), None);
    // The lamp hangs over the zone and is seen by its edge.
    assert_eq!(at(&drawing, 5_252.0, 4_302.0), thing("lamp"));
}

#[test]
fn a_flag_gives_its_finding() {
    let arrangement = bay::crowded();
    let assessment = assess(&arrangement);
    let mut flags = 0;
    for drawing in
        views(&arrangement, &assessment, &ViewState::default(), Fit::picture(1200.0), &Lettering::default())
    {
        for item in &drawing.items {
            let (Shape::Sign(sign), Role::Flag(_)) = (&item.shape, item.role) else { continue };
            let index = item.finding.unwrap();
            let picked = drawing.pick(drawing.paper_point(sign.at), SLACK).unwrap();
            let subject = assessment.findings[index].subjects.first().cloned();
            assert_eq!(picked, Picked { subject, finding: Some(index) });
            flags += 1;
        }
    }
    assert!(flags > 4);
}

#[test]
fn small_things_are_reached_through_large_ones() {
    let mut arrangement = bay::empty(false);
    let rectangle = |length: f64, width: f64| ThingShape::Rectangle { length_mm: length, width_mm: width };
    let mut add = |name: &str, shape: ThingShape, at: (f64, f64)| {
        arrangement.bay.things.push(bay::thing(name, ThingKind::Other, shape, at, (0.0, 500.0)));
    };
    add("small", rectangle(200.0, 200.0), (10_500.0, 4_800.0));
    add("large", rectangle(1_500.0, 1_000.0), (10_500.0, 4_800.0));
    add("tiny", ThingShape::Round { diameter_mm: 5.0 }, (10_500.0, 1_000.0));
    add("fence", rectangle(2_000.0, 5.0), (10_500.0, 2_000.0));
    let drawing = canvas(&arrangement);
    assert_eq!(at(&drawing, 10_520.0, 4_750.0), thing("small"));
    assert_eq!(at(&drawing, 10_700.0, 5_100.0), thing("large"));
    // A hand that is a few px off finds what is thin; beside what is large it finds nothing.
    let off = 4.0 / drawing.px_per_mm;
    assert_eq!(at(&drawing, 10_500.0 + off, 1_000.0), thing("tiny"));
    assert_eq!(at(&drawing, 10_000.0, 2_000.0 - off), thing("fence"));
    // Away from the name that stands in the middle below it.
    assert_eq!(at(&drawing, 9_900.0, 4_300.0 - off), None);
    assert_eq!(at(&drawing, 10_000.0, 2_000.0 - 2.0 * off), None);
}

#[test]
fn ground_lines_and_marks() {
    let mut arrangement = bay::empty(false);
    let ring = |x: f64, y: f64| {
        baywright_planner::geometry::Polygon::rectangle(DVec2::new(x, y), DVec2::new(x + 900.0, y + 500.0))
            .unwrap()
    };
    arrangement.bay.floor_features = vec![FloorFeature {
        id: "drain".into(),
        kind: FloorFeatureKind::Drain,
        outline: ring(10_500.0, 600.0),
        material: Material::Steel,
        proud_mm: 0.0,
    }];
    arrangement.bay.marks = vec![PermanentMark::new("A".into(), DVec2::new(10_800.0, 850.0))];
    let drawing = canvas(&arrangement);
    assert_eq!(at(&drawing, 10_600.0, 700.0), Some(Subject::FloorFeature("drain".into())));
    assert_eq!(at(&drawing, 10_805.0, 852.0), Some(Subject::Mark("A".into())));
    // Mark 5, where the zone's inside lies too; mark 1 beside the rear left wheel.
    let mark = judge(&arrangement).scene.marks[0].at.unwrap();
    assert_eq!(at(&drawing, mark.x, mark.y), Some(Subject::Mark("1".into())));
    // The zone's front edge, at x = 4300 + 4800, and a little inside it.
    assert_eq!(at(&drawing, 9_102.0, 2_000.0), Some(Subject::Zone("metal-free area".into())));
    // In the masonry: a wall, and the door in it.
    let wall = 6.0 / drawing.px_per_mm;
    assert_eq!(at(&drawing, 6_000.0, -wall), Some(Subject::Wall("yard wall".into())));
    assert_eq!(at(&drawing, -wall, 3_000.0), Some(Subject::Opening("roller door".into())));
    // What is in hand is outlined over everything, and in no way.
    let state = ViewState {
        hovered: Some(Subject::FloorFeature("drain".into())),
        selected: Some(Subject::Zone("metal-free area".into())),
        ..ViewState::default()
    };
    let assessment = assess(&arrangement);
    let told = top_view(&arrangement, &assessment, &state, Fit::picture(1600.0), &Lettering::default());
    assert_eq!(at(&told, 10_805.0, 852.0), Some(Subject::Mark("A".into())));
    assert_eq!(at(&told, 8_300.0, 2_800.0), Some(Subject::Stand("target".into())));
}

#[test]
fn nothing_is_off_the_paper() {
    let drawing = canvas(&bay::crowded());
    for px in [DVec2::splat(-1.0), drawing.size + 1.0, DVec2::NAN, DVec2::INFINITY, DVec2::splat(-1e300)] {
        assert_eq!(drawing.pick(px, SLACK), None);
    }
    let car = drawing.paper_point_of(DVec3::new(2_800.0, 3_400.0, 0.0));
    for slack in [f64::NAN, -3.0, 0.0, f64::INFINITY] {
        assert_eq!(drawing.pick(car, slack).and_then(|picked| picked.subject), Some(Subject::Car));
    }
}

#[test]
fn boxes_are_around_bodies() {
    let mut arrangement = bay::crowded();
    arrangement.stands = vec![StandSet::At {
        place: PlanPose::new(DVec2::new(8_400.0, 3_500.0), 3.0),
        height_mm: 520.0,
        pitch_rad: 0.0,
    }];
    let drawing = canvas(&arrangement);
    let px = |x: f64, y: f64| drawing.paper_point_of(DVec3::new(x, y, 0.0));
    let close = |a: Option<Bounds>, b: [DVec2; 2]| {
        let (a, b) = (a.unwrap(), Bounds::around(b).unwrap());
        assert!(a.low.distance(b.low) < 1e-6 && a.high.distance(b.high) < 1e-6, "{a:?} {b:?}");
    };
    close(drawing.box_of(&thing("tool cabinet").unwrap()), [px(7_000.0, 4_250.0), px(7_900.0, 4_700.0)]);
    close(drawing.box_of(&thing("column").unwrap()), [px(6_240.0, 1_360.0), px(6_360.0, 1_480.0)]);
    close(
        drawing.box_of(&Subject::Zone("metal-free area".into())),
        [px(5_250.0, 1_500.0), px(9_100.0, 4_500.0)],
    );
    // Where the target belongs is no part of where it is.
    let target = drawing.box_of(&Subject::Target("target".into())).unwrap();
    assert!(target.size().max_element() < 600.0 * drawing.px_per_mm, "{target:?}");
    assert_eq!(drawing.box_of(&Subject::Figures), None);
    assert_eq!(drawing.box_of(&Subject::Floor), None);
    let boxes = drawing.boxes();
    for (i, (subject, bounds)) in boxes.iter().enumerate() {
        assert_eq!(drawing.box_of(subject), Some(*bounds));
        assert!(boxes[..i].iter().all(|(other, _)| other != subject), "{subject:?} twice");
    }
    let shown = |subject: Subject| boxes.iter().any(|(own, _)| *own == subject);
    for thing in &arrangement.bay.things {
        assert!(shown(Subject::Thing(thing.id.clone())));
    }
    assert!(shown(Subject::Car) && shown(Subject::Sensor) && shown(Subject::Stand("target".into())));
    assert!(shown(Subject::Wall("street wall".into())) && shown(Subject::Opening("roller door".into())));
    // Ground first, as it is painted.
    let place = |subject: Subject| boxes.iter().position(|(own, _)| *own == subject).unwrap();
    assert!(place(Subject::Wall("street wall".into())) < place(Subject::Car));
    assert!(place(Subject::Car) < place(thing("trolley").unwrap()));
}

fn windows() -> [Drawing; 2] {
    let arrangement = bay::crowded();
    let assessment = assess(&arrangement);
    let window = |middle| Fit::Window { size: DVec2::new(900.0, 600.0), px_per_mm: 0.07, middle };
    let (state, lettering) = (ViewState::default(), Lettering::default());
    [
        top_view(&arrangement, &assessment, &state, window(DVec2::new(2_000.0, 0.0)), &lettering),
        side_view(&arrangement, &assessment, &state, window(DVec2::new(2_000.0, 1_500.0)), &lettering),
    ]
}

#[test]
fn the_middle_of_a_thing_is_that_thing() {
    let [top, side] = windows();
    for drawing in [&top, &side] {
        let mut things = 0;
        for item in &drawing.items {
            let (Role::Thing(_) | Role::QuietThing(_), Shape::Area(rings), Some(subject)) =
                (item.role, &item.shape, &item.subject)
            else {
                continue;
            };
            let middle = rings[0].iter().sum::<DVec2>() / rings[0].len() as f64;
            let picked = drawing.pick(drawing.paper_point(middle), 3.0).unwrap();
            // A flag may stand on it; what it blames is the thing.
            assert!(
                picked.subject.as_ref() == Some(subject) || picked.finding.is_some(),
                "{picked:?} {subject:?}"
            );
            things += 1;
        }
        assert!(things > 0);
    }
}

#[test]
fn a_flag_is_its_finding_and_the_empty_floor_is_nothing() {
    let [top, _] = windows();
    let mut flags = 0;
    for item in top.items.iter().filter(|item| matches!(item.role, Role::Flag(_))) {
        let Shape::Sign(sign) = &item.shape else { continue };
        let picked = top.pick(top.paper_point(sign.at), 3.0).unwrap();
        assert_eq!(picked.finding, item.finding);
        flags += 1;
    }
    assert!(flags > 0);
    assert_eq!(top.pick(DVec2::new(-50.0, -50.0), 3.0), None);
}

/// A zone is taken by its edge, or where nothing else is.
#[test]
fn what_lies_in_a_zone_is_picked_before_the_zone() {
    let [top, _] = windows();
    let Some(zone) = top.items.iter().find(|item| item.role == Role::ZoneEdge) else { panic!() };
    let Shape::Area(rings) = &zone.shape else { panic!() };
    let edge = (rings[0][0] + rings[0][1]) * 0.5;
    let picked = top.pick(top.paper_point(edge), 3.0).unwrap();
    assert!(
        matches!(picked.subject, Some(Subject::Zone(_) | Subject::Thing(_) | Subject::Car)),
        "{picked:?}"
    );
}

#[test]
fn every_body_has_one_box_and_it_holds_the_body() {
    for drawing in windows() {
        let boxes = drawing.boxes();
        for (i, (subject, bounds)) in boxes.iter().enumerate() {
            assert!(boxes[..i].iter().all(|(other, _)| other != subject), "{subject:?} twice");
            assert_eq!(drawing.box_of(subject), Some(*bounds));
        }
        assert!(boxes.iter().any(|(subject, _)| *subject == Subject::Car));
        assert_eq!(drawing.box_of(&Subject::Figures), None);
    }
}

/// When a part of an item is meant: the greater goes first.
fn rank(role: Role, edge: bool) -> Option<u8> {
    use Role::*;
    let body = matches!(
        role,
        Flag(_)
            | Label
            | LabelSoft
            | LabelZone
            | Mark
            | PermanentMark
            | Sensor
            | Target
            | Mat
            | Thing(_)
            | QuietThing(_)
            | ThingAside(_)
            | StandBase
            | StandMast
            | CarBody
            | CarGlass
            | Tyre
            | Rim
    );
    match (role, edge) {
        (Overhead, true) => Some(3),
        (Overhead, false) => Some(1),
        (ZoneEdge | OtherZoneEdge, true) => Some(2),
        (ZoneEdge | OtherZoneEdge, false) => Some(0),
        (
            TargetMeant | OtherBay | OwnBay | Run | SightLine | SightLineHidden | DoorSwing | OpeningLine,
            true,
        ) => Some(2),
        (KeepFree | Runway | FloorFeature(_) | Wall(_) | Opening, false) => Some(1),
        (_, false) if body => Some(3),
        _ => None,
    }
}

/// How far a place is inside (negative) or outside of what a shape covers, or of its edge, px.
fn off(drawing: &Drawing, shape: &Shape, px: DVec2, edge: bool) -> f64 {
    let rings: Vec<Vec<DVec2>> = match shape {
        Shape::Area(rings) => {
            rings.iter().map(|r| r.iter().map(|&p| drawing.paper_point(p)).collect()).collect()
        }
        Shape::Disc { centre, radius } => {
            let off = drawing.paper_point(*centre).distance(px) - radius * drawing.px_per_mm;
            return if edge { off.abs() } else { off };
        }
        Shape::Sign(sign) => return drawing.paper_point(sign.at).distance(px) - sign.reach,
        Shape::Line(points) => {
            let points: Vec<DVec2> = points.iter().map(|&p| drawing.paper_point(p)).collect();
            return points.windows(2).map(|w| to_piece(px, w[0], w[1])).fold(f64::INFINITY, f64::min);
        }
        Shape::Text(text) => {
            let own = PlanPose::new(drawing.paper_point(text.at), -text.angle).inverse() * px;
            let (from, to) = match text.align {
                Align::Start => (0.0, text.width),
                Align::Middle => (text.width * -0.5, text.width * 0.5),
                Align::End => (-text.width, 0.0),
            };
            return (from - own.x).max(own.x - to).max(own.y.abs() - text.style.line_height() * 0.5);
        }
        Shape::Dimension(_) => return f64::INFINITY,
    };
    let pieces = || rings.iter().flat_map(|r| r.iter().zip(r.iter().cycle().skip(1))).map(|(a, b)| (*a, *b));
    let least = pieces().map(|(a, b)| to_piece(px, a, b)).fold(f64::INFINITY, f64::min);
    // Turns about the place, each ring's own: odd ones are inside.
    let turns = |ring: &Vec<DVec2>| {
        let pieces = ring.iter().zip(ring.iter().cycle().skip(1));
        let turned: f64 = pieces.map(|(a, b)| (*a - px).angle_to(*b - px)).sum();
        (turned / std::f64::consts::TAU).round() as i64
    };
    let inside = rings.iter().map(turns).sum::<i64>().rem_euclid(2) == 1;
    if edge || !inside { least } else { -least }
}

fn to_piece(p: DVec2, a: DVec2, b: DVec2) -> f64 {
    let along = b - a;
    let share = if along.length_squared() > 0.0 {
        ((p - a).dot(along) / along.length_squared()).clamp(0.0, 1.0)
    } else {
        0.0
    };
    p.distance(a + along * share)
}

fn layer(item: &Item) -> u8 {
    item.role.layer()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn the_pick_is_the_topmost_of_what_is_there(
        things in prop::collection::vec(any_thing(), 0..12),
        parked in (-1000.0..13_000.0_f64, -1000.0..7_000.0_f64),
        heading in -7.0..7.0_f64,
        turned in prop::sample::select(vec![Turned::ToCar, Turned::ToRoom]),
        zoom in prop::option::of((0.005..0.5_f64, 0.0..12_000.0_f64, 0.0..6_000.0_f64)),
        places in prop::collection::vec((0.0..1.0_f64, 0.0..1.0_f64), 60),
        slack in prop_oneof![Just(0.0), Just(5.0), 0.0..20.0_f64],
    ) {
        let mut arrangement = bay::crowded();
        arrangement.bay.things.extend(things);
        arrangement.parked = PlanPose::new(parked.into(), heading);
        let assessment = judge(&arrangement);
        let state = ViewState { turned, ..ViewState::default() };
        let fit = zoom.map_or(Fit::picture(900.0), |(px_per_mm, x, y)| {
            Fit::Window { size: DVec2::new(900.0, 500.0), px_per_mm, middle: DVec2::new(x, y) }
        });
        for drawing in views(&arrangement, &assessment, &state, fit, &Lettering::default()) {
            // Anywhere, and at the middles of what is small.
            let anywhere = places.iter().map(|&(x, y)| drawing.size * DVec2::new(x, y));
            let small = drawing.boxes().into_iter().map(|(_, bounds)| bounds.centre());
            for px in anywhere.chain(small) {
                let picked = drawing.pick(px, slack);
                if !drawing.window().holds(px) {
                    prop_assert_eq!(picked, None);
                    continue;
                }
                // Every item with how surely it is hit: within its own shape, or only by slack.
                let mut sure: Vec<(u8, u8, &Item)> = Vec::new();
                let mut maybe: Vec<(u8, u8, &Item)> = Vec::new();
                let shows = |item: &&Item| item.subject.as_ref().is_some_and(|s| *s != Subject::Floor);
                for item in drawing.items.iter().filter(shows) {
                    for edge in [true, false] {
                        let Some(rank) = rank(item.role, edge) else { continue };
                        let off = off(&drawing, &item.shape, px, edge);
                        if off < if edge { slack } else { 0.0 } - 1e-6 {
                            sure.push((rank, layer(item), item));
                        }
                        if off <= slack + 1e-6 {
                            maybe.push((rank, layer(item), item));
                        }
                    }
                }
                let top = sure.iter().map(|hit| (hit.0, hit.1)).max();
                let found = picked.as_ref().and_then(|picked| picked.subject.as_ref());
                let shows = |hit: &&(u8, u8, &Item)| hit.2.subject.as_ref() == found;
                match top {
                    None => prop_assert!(found.is_none() || maybe.iter().any(|hit| shows(&hit))),
                    Some(top) => {
                        let meant = maybe.iter().filter(|hit| (hit.0, hit.1) >= top).any(|hit| shows(&hit));
                        let brief = |hit: &(u8, u8, &Item)| (hit.0, hit.2.role, hit.2.subject.clone());
                        let sure: Vec<_> = sure.iter().map(brief).collect();
                        prop_assert!(meant, "{px}: {found:?} instead of {sure:?}");
                    }
                }
                if let Some(finding) = picked.and_then(|picked| picked.finding) {
                    let flags = |item: &Item| matches!(item.role, Role::Flag(_)).then_some(item.finding);
                    let is_flag = |item: &Item| flags(item) == Some(Some(finding));
                    prop_assert!(maybe.iter().any(|hit| is_flag(hit.2)));
                }
            }
        }
    }
}
