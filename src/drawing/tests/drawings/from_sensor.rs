//! What stands before a sensor, as it would be seen from there: against rays that are sent out by hand, one by one.

use baywright_drawing::sheet::{Paper, Sheet, Size};
use baywright_drawing::{
    Drawing, Lettering, LookedAt, Page, Role, Shape, ViewState, on_top, sensor_view, told_view,
};
use baywright_planner::customer::{Idea, ideas};
use baywright_planner::echoes::{Echo, With, seen};
use baywright_planner::geometry::{DVec2, DVec3, Outline, PlanPose, Pose, Prism, angle};
use baywright_planner::model::{
    Arrangement, Camera, Id, Known, Material, Opening, OpeningKind, Place, SensorKind, Shape as ThingShape,
    ShopFace, TargetKind, Thing, ThingKind,
};
use baywright_planner::scene::{Scene, TargetPart};
use baywright_planner::words::{Language, Locale, Words};
use baywright_planner::{Subject, judge};
use proptest::prelude::*;

use super::bay;
use super::sheets::made_in;

const WIDTH: f64 = 720.0;

fn drawn_of(
    arrangement: &Arrangement,
    state: &ViewState,
    echoes: &[&Echo],
    locale: Locale,
) -> Option<Drawing> {
    let assessment = judge(arrangement);
    let target: Id = "target".into();
    let own = seen(arrangement, &assessment.scene, With::OneMirror).into_iter().find_map(|own| own.own.ok());
    let of = LookedAt { target: &target, own: own.map(|own| own.at), echoes, is_numbered: true };
    let lettering = Lettering { locale, ..Lettering::default() };
    sensor_view(&of, arrangement, &assessment, state, WIDTH, &lettering)
}

fn drawn(arrangement: &Arrangement) -> Option<Drawing> {
    drawn_of(arrangement, &ViewState::default(), &[], Locale::default())
}

/// Whether a place of the floor lies in a ring, by the sum of the angles that it is gone round by.
fn in_ring(ring: &[DVec2], p: DVec2) -> bool {
    let next = ring.iter().cycle().skip(1);
    let around: f64 =
        ring.iter().zip(next).map(|(&a, &b)| (a - p).perp_dot(b - p).atan2((a - p).dot(b - p))).sum();
    around.abs() > 3.0
}

fn ring_of(outline: &Outline) -> Option<Vec<DVec2>> {
    match outline {
        Outline::Polygon(polygon) => Some(polygon.outer().to_vec()),
        Outline::Circle(_) => None,
    }
}

/// How far along a ray from outside it meets a solid.
fn meets(prism: &Prism, from: DVec3, way: DVec3) -> Option<f64> {
    let (low, high) = (prism.span.bottom(), prism.span.top());
    let mut hits = Vec::new();
    let inside = |p: DVec2| match &prism.outline {
        Outline::Polygon(polygon) => in_ring(polygon.outer(), p),
        Outline::Circle(circle) => p.distance(circle.centre()) < circle.radius(),
    };
    for height in [low, high] {
        let t = (height - from.z) / way.z;
        if t.is_finite() && t > 0.0 && inside((from + way * t).truncate()) {
            hits.push(t);
        }
    }
    let between = |t: f64| t > 0.0 && (low..=high).contains(&(from.z + way.z * t));
    match ring_of(&prism.outline) {
        Some(ring) => {
            for (&a, &b) in ring.iter().zip(ring.iter().cycle().skip(1)) {
                // from + way t = a + (b - a) s.
                let (edge, off) = (b - a, a - from.truncate());
                let across = way.truncate().perp_dot(edge);
                let (t, s) = (off.perp_dot(edge) / across, off.perp_dot(way.truncate()) / across);
                if t.is_finite() && (0.0..=1.0).contains(&s) && between(t) {
                    hits.push(t);
                }
            }
        }
        None => {
            let Outline::Circle(circle) = &prism.outline else { return None };
            let (off, along) = (from.truncate() - circle.centre(), way.truncate());
            let (a, b) = (along.length_squared(), off.dot(along));
            let under = b * b - a * (off.length_squared() - circle.radius().powi(2));
            if under >= 0.0 {
                hits.extend(
                    [-1.0, 1.0]
                        .map(|sign| (-b + sign * under.sqrt()) / a)
                        .into_iter()
                        .filter(|&t| between(t)),
                );
            }
        }
    }
    hits.into_iter().reduce(f64::min)
}

/// What a ray from the sensor meets first.
fn first_met(arrangement: &Arrangement, scene: &Scene, way: DVec3) -> Option<Subject> {
    let from = scene.sensor();
    let mut hits: Vec<(f64, Option<Subject>)> = Vec::new();
    let ends = [0.0, arrangement.bay.ceiling_mm].map(|height| (height - from.z) / way.z);
    hits.extend(ends.into_iter().filter(|t| *t > 0.0).map(|t| (t, None)));
    for (thing, placed) in arrangement.bay.things.iter().zip(&scene.things) {
        hits.extend(meets(&placed.prism, from, way).map(|t| (t, Some(Subject::Thing(thing.id.clone())))));
    }
    for placed in &scene.targets {
        for (part, solid) in placed.parts.iter().zip(&placed.solids) {
            let of = match part {
                TargetPart::Body => Subject::Target(placed.id.clone()),
                _ => Subject::Stand(placed.id.clone()),
            };
            hits.extend(meets(solid, from, way).map(|t| (t, Some(of))));
        }
    }
    for (nth, (edge, wall)) in scene.room.walls().edges().zip(&arrangement.bay.walls).enumerate() {
        let (along, off) = (edge.to - edge.from, edge.from - from.truncate());
        let across = way.truncate().perp_dot(along);
        let (t, s) = (off.perp_dot(along) / across, off.perp_dot(way.truncate()) / across);
        let height = from.z + way.z * t;
        if !(t.is_finite()
            && t > 0.0
            && (0.0..=1.0).contains(&s)
            && (0.0..=arrangement.bay.ceiling_mm).contains(&height))
        {
            continue;
        }
        let mm = s * along.length();
        let opening = arrangement.bay.openings.iter().filter(|own| own.wall == nth).find(|own| {
            (own.from_mm..own.from_mm + own.width_mm).contains(&mm)
                && own.span.bottom() <= height
                && height <= own.span.top()
        });
        match opening {
            Some(own) if own.is_open() => {}
            Some(own) => hits.push((t, Some(Subject::Opening(own.id.clone())))),
            None => hits.push((t, Some(Subject::Wall(wall.id.clone())))),
        }
    }
    hits.into_iter().min_by(|a, b| a.0.total_cmp(&b.0)).and_then(|(_, of)| of)
}

/// Spherical coordinates by hand: so many degrees to the right of the axis and above it.
fn ray(pose: &Pose, at: DVec2) -> DVec3 {
    let (azimuth, elevation) = (-at.x.to_radians(), at.y.to_radians());
    pose.forward() * (elevation.cos() * azimuth.cos())
        + pose.left() * (elevation.cos() * azimuth.sin())
        + pose.up() * elevation.sin()
}

/// Everywhere in the picture what is on top is what a ray meets first; places at an edge are not asked. How many were.
fn check(arrangement: &Arrangement) -> Option<usize> {
    let drawing = drawn(arrangement)?;
    for item in &drawing.items {
        item.shape.each_point(|p| assert!(p.is_finite(), "{item:?}"));
    }
    let layers: Vec<u8> = drawing.items.iter().map(|item| item.role.layer()).collect();
    assert!(layers.is_sorted(), "paint order");
    let scene = Scene::of(arrangement);
    let mut asked = 0;
    for (i, j) in (0..47).flat_map(|i| (0..27).map(move |j| (i, j))) {
        let px = DVec2::new((f64::from(i) + 0.41) / 47.0, (f64::from(j) + 0.37) / 27.0) * drawing.size;
        let at = drawing.view_point(px);
        let met = |off: DVec2| first_met(arrangement, &scene, ray(&scene.bay_from_sensor, at + off));
        let own = met(DVec2::ZERO);
        // Rings are drawn in chords, round things with sides, a plate with a rim of 4 mm.
        let near = [(0.35, 0.35), (-0.35, 0.35), (0.35, -0.35), (-0.35, -0.35)];
        if near.into_iter().any(|(x, y)| met(DVec2::new(x, y)) != own) {
            continue;
        }
        asked += 1;
        assert_eq!(on_top(&drawing, px).cloned(), own, "at {at}");
    }
    Some(asked)
}

#[test]
fn what_is_on_top_is_what_a_ray_meets_first() {
    let asked = check(&bay::crowded()).unwrap();
    assert!(asked > 900, "{asked}");
    // A corner radar that looks into the corner of the room, past things and through a door that stands open.
    let mut corner = bay::empty(true);
    corner.bay.things = bay::crowded().bay.things;
    corner.bay.openings.push(Opening {
        id: "gate".into(),
        kind: OpeningKind::SwingDoor,
        wall: 2,
        from_mm: 2_000.0,
        width_mm: 2_500.0,
        span: baywright_planner::geometry::Span::new(0.0, 2_200.0).unwrap(),
        material: Material::Wood,
        shut: false,
        free_beyond_mm: 3_000.0,
        is_exit: false,
    });
    assert!(check(&corner).unwrap() > 800);
}

fn any_thing(nth: usize) -> impl Strategy<Value = Thing> {
    let shape = prop_oneof![
        (200.0_f64..1500.0, 100.0_f64..900.0)
            .prop_map(|(length_mm, width_mm)| ThingShape::Rectangle { length_mm, width_mm }),
        (100.0_f64..900.0).prop_map(|diameter_mm| ThingShape::Round { diameter_mm }),
        Just(ThingShape::Outline(
            [(0., 0.), (900., 0.), (900., 300.), (300., 300.), (300., 800.), (0., 800.)]
                .map(DVec2::from)
                .to_vec()
        )),
    ];
    (shape, 5400.0_f64..11_000.0, 700.0_f64..5300.0, -3.1_f64..3.1, 0.0_f64..1500.0, 100.0_f64..1400.0)
        .prop_map(move |(shape, x, y, heading, low, high)| Thing {
            place: Place { at: PlanPose::new(DVec2::new(x, y), heading), known: Known::Taped },
            ..bay::thing(&format!("thing {nth}"), ThingKind::Other, shape, (x, y), (low, low + high))
        })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, ..ProptestConfig::default() })]

    /// The same of things anywhere, seen by a sensor that looks anywhere. What runs through another thing has no right order and is
    /// left out.
    #[test]
    fn nearer_things_are_painted_over_farther_ones(
        things in (any_thing(0), any_thing(1), any_thing(2), any_thing(3), any_thing(4)),
        azimuth in -0.6_f64..0.6, elevation in -0.25_f64..0.25, heading in -0.15_f64..0.15,
    ) {
        let mut arrangement = bay::empty(false);
        arrangement.sensor.azimuth_rad = azimuth;
        arrangement.sensor.elevation_rad = elevation;
        arrangement.parked = PlanPose::new(DVec2::new(4300.0, 3000.0), heading);
        let (a, b, c, d, e) = things;
        let scene = Scene::of(&arrangement);
        let mut solids: Vec<Prism> = scene.targets.iter().flat_map(|own| own.solids.clone()).collect();
        for thing in [a, b, c, d, e] {
            let prism = thing.prism();
            let holds = scene.room.walls().outer();
            let ring = prism.outline.as_polygon().outer().to_vec();
            let is_in = ring.iter().all(|&p| in_ring(holds, p));
            let apart = |own: &Prism| {
                own.span.shared(&prism.span).is_none()
                    || !baywright_planner::geometry::overlaps(&own.outline, &prism.outline)
            };
            if is_in && solids.iter().all(apart) {
                solids.push(prism);
                arrangement.bay.things.push(thing);
            }
        }
        if let Some(asked) = check(&arrangement) {
            prop_assert!(asked > 400, "{}", asked);
        }
    }
}

/// The target's middle stands where plane trigonometry has it: 2 730 mm ahead of the sensor and as high, so straight ahead; turned by
/// 5° to the left the sensor sees it 5° to the right.
#[test]
fn the_target_stands_where_it_is_seen() {
    let middle = |drawing: &Drawing| {
        let faces = drawing.items.iter().filter(|item| item.role == Role::TargetFace);
        let mut points = Vec::new();
        faces.for_each(|item| item.shape.each_point(|p| points.push(p)));
        let (low, high) =
            points.iter().fold((DVec2::MAX, DVec2::MIN), |(low, high), p| (low.min(*p), high.max(*p)));
        (low + high) * 0.5
    };
    let mut arrangement = bay::empty(false);
    let straight = middle(&drawn(&arrangement).unwrap());
    assert!(straight.length() < 0.01, "{straight}");
    arrangement.sensor.azimuth_rad = angle::radians(5.0);
    let aside = middle(&drawn(&arrangement).unwrap());
    // A face is a little nearer at one end, so that its middle on paper is not quite its own.
    assert!(aside.distance(DVec2::new(5.0, 0.0)) < 0.15, "{aside}");
    arrangement.sensor.azimuth_rad = 0.0;
    arrangement.sensor.elevation_rad = angle::radians(-4.0);
    let above = middle(&drawn(&arrangement).unwrap());
    assert!(above.distance(DVec2::new(0.0, 4.0)) < 0.15, "{above}");
}

#[test]
fn beam_and_view_are_as_wide_as_the_profile_says() {
    let arrangement = bay::empty(false);
    let drawing = drawn(&arrangement).unwrap();
    let reach = |role: Role| {
        let mut most = DVec2::ZERO;
        drawing.items.iter().filter(|item| item.role == role).for_each(|item| {
            item.shape.each_point(|p| most = most.max(p.abs()));
        });
        most
    };
    assert!(reach(Role::BeamWidth).distance(DVec2::new(9.0, 5.0)) < 1e-9, "half of 18° and 10°");
    assert!(reach(Role::ViewEdge).distance(DVec2::new(45.0, 10.0)) < 1e-9);
    let says = |text: &str| {
        drawing.items.iter().any(|item| matches!(&item.shape, Shape::Text(own) if own.text == text))
    };
    let texts = Language::English.echoes();
    assert!(says(texts.beam) && says(texts.field) && says("20° left") && says("20° right") && says("plate"));
}

/// An echo in hand is marked where the sensor believes it, and the target once more stands there.
#[test]
fn an_echo_in_hand_is_marked_where_it_is_believed() {
    let mut arrangement = bay::empty(false);
    arrangement.bay.things.push(bay::cabinet("cabinet", (7_000.0, 3_900.0)));
    let scene = Scene::of(&arrangement);
    let all = seen(&arrangement, &scene, With::OneMirror);
    let echoes: Vec<&Echo> = all.iter().flat_map(|own| &own.echoes).collect();
    let twice = echoes.iter().find(|own| own.way.len() == 4).unwrap();
    let state = ViewState { echo: Some(std::sync::Arc::new((**twice).clone())), ..ViewState::default() };
    let drawing = drawn_of(&arrangement, &state, &[], Locale::default()).unwrap();
    let rings: Vec<DVec2> = drawing
        .items
        .iter()
        .filter(|item| item.role == Role::EchoBelieved)
        .filter_map(|item| match item.shape {
            Shape::Disc { centre, .. } => Some(centre),
            _ => None,
        })
        .collect();
    let bearing = twice.heard.bearing;
    let wanted = DVec2::new(-bearing.azimuth.to_degrees(), bearing.elevation.to_degrees());
    assert!(rings.len() == 1 && rings[0].distance(wanted) < 1e-6, "{rings:?} {wanted}");
    assert!(drawing.items.iter().any(|item| item.role == Role::EchoGhost), "the target once more");
}

#[test]
fn every_sensor_that_looks_at_a_target_has_its_picture() {
    let mut camera = bay::crowded();
    camera.sensor.kind = SensorKind::ForwardCamera(Camera { pixels_across: 1280, pixels_down: 960 });
    let drawing = drawn(&camera).unwrap();
    assert!(!drawing.items.iter().any(|item| item.role == Role::BeamWidth), "a camera has no beam");
    assert!(check(&camera).unwrap() > 900);
    // One that looks back sees nothing of its target.
    let mut back = bay::empty(false);
    back.sensor.azimuth_rad = angle::radians(170.0);
    assert!(drawn(&back).is_none());
    // In both languages, and no text on another.
    for language in [Language::English, Language::German] {
        let locale = Locale { language, ..Locale::default() };
        let crowded = bay::crowded();
        let all = seen(&crowded, &Scene::of(&crowded), With::OneMirror);
        let echoes: Vec<&Echo> =
            all.iter().flat_map(|own| &own.echoes).filter(|own| own.heard.matters()).collect();
        let drawing = drawn_of(&crowded, &ViewState::default(), &echoes, locale).unwrap();
        let texts: Vec<_> = drawing
            .items
            .iter()
            .filter_map(|item| match &item.shape {
                Shape::Text(text) => Some(text),
                _ => None,
            })
            .collect();
        assert!(texts.len() > 8, "{texts:?}");
        for (i, one) in texts.iter().enumerate() {
            for other in &texts[..i] {
                let place = |own: &baywright_drawing::Text| {
                    let at = drawing.paper_point(own.at);
                    let from = at.x
                        - match own.align {
                            baywright_drawing::Align::Start => 0.0,
                            baywright_drawing::Align::Middle => own.width * 0.5,
                            baywright_drawing::Align::End => own.width,
                        };
                    (
                        DVec2::new(from, at.y - own.style.size * 0.35),
                        DVec2::new(from + own.width, at.y + own.style.size * 0.35),
                    )
                };
                let ((low, high), (its_low, its_high)) = (place(one), place(other));
                let is_on = low.cmplt(its_high).all() && its_low.cmplt(high).all();
                assert!(!is_on, "“{}” on “{}”", one.text, other.text);
            }
        }
    }
}

fn told(pages: &[Page]) -> String {
    let items = pages.iter().flat_map(|page| &page.frames).flat_map(|frame| frame.items());
    let texts = items.filter_map(|item| match &item.shape {
        Shape::Text(text) => Some(text.text.as_str()),
        _ => None,
    });
    texts.collect::<Vec<_>>().join(" ")
}

fn report(arrangement: &Arrangement, locale: Locale) -> Vec<Page> {
    made_in(Sheet::Findings, arrangement, Paper::portrait(Size::A4), locale)
}

/// The empty bay with a small reflector as its target.
fn reflector() -> Arrangement {
    let mut arrangement = bay::empty(false);
    let target = &mut arrangement.aiming.placements[0].target;
    target.kind = TargetKind::CornerReflector;
    (target.width_mm, target.height_mm, target.depth_mm) = (141.0, 141.0, 60.0);
    arrangement
}

/// A cabinet as far off as the target and 8° to the left of it, its face square to the ray.
fn facing(arrangement: &Arrangement) -> Thing {
    let (eye, ray) = (Scene::of(arrangement).sensor(), angle::radians(8.0));
    let middle = eye.truncate() + angle::direction(ray) * (2730.0 + 450.0);
    let mut cabinet = bay::cabinet("cabinet", (0.0, 0.0));
    cabinet.place.at = PlanPose::new(middle, ray);
    cabinet
}

/// The findings report tells the echoes that matter in the tab's own words, with a picture that numbers them, and what the profile leaves
/// open; one line where none matters, and nothing of a sensor that is no radar.
#[test]
fn the_report_tells_what_the_radar_would_see() {
    for language in [Language::English, Language::German] {
        let locale = Locale { language, ..Locale::default() };
        let texts = language.echoes();
        let mut crowded = reflector();
        crowded.bay.things = bay::crowded().bay.things.split_off(2);
        crowded.bay.things.push(facing(&crowded));
        let all = seen(&crowded, &Scene::of(&crowded), With::TwoMirrors);
        let first = all[0].echoes.iter().find(|own| own.heard.matters()).unwrap();
        let words = Words::new(&crowded, locale);
        let pages = report(&crowded, locale);
        let text = told(&pages);
        for wanted in [words.echo_of(first), words.echo_lies(first), words.echoes_assume(&all[0])] {
            assert!(!wanted.is_empty() && text.contains(&wanted), "{wanted}: {text}");
        }
        let rings = |page: &Page| {
            page.views().flat_map(|view| &view.items).filter(|item| item.role == Role::EchoBelieved).count()
        };
        assert!(pages.iter().map(rings).sum::<usize>() > 0, "the picture");
        let mut camera = crowded.clone();
        camera.sensor.kind = SensorKind::ForwardCamera(Camera { pixels_across: 1280, pixels_down: 960 });
        assert!(!told(&report(&camera, locale)).contains(texts.title));
        // A board of which nobody knows what it sends back: one line.
        let mut board = crowded.clone();
        board.aiming.placements[0].target.kind = TargetKind::Board;
        let pages = report(&board, locale);
        assert!(told(&pages).contains(texts.title) && !told(&pages).contains(texts.rests_on));
        assert_eq!(pages.iter().map(rings).sum::<usize>(), 0);
    }
}

/// A customer is shown the strongest thing that sends back what matters, as discs whose areas are as what comes back; only if there is one.
#[test]
fn a_customer_is_shown_what_a_thing_sends_back() {
    let mut arrangement = reflector();
    let idea = |own: &Arrangement| {
        let all = ideas(own, &judge(own), &ShopFace::default());
        all.into_iter().find_map(|idea| if let Idea::SendsBack(sent) = idea { Some(sent) } else { None })
    };
    assert_eq!(idea(&arrangement), None, "nothing stands here");
    arrangement.bay.things.push(facing(&arrangement));
    let sent = idea(&arrangement).unwrap();
    assert_eq!(sent.thing.as_str(), "cabinet");
    let all = seen(&arrangement, &Scene::of(&arrangement), With::OneMirror);
    let levels = all.iter().flat_map(|own| &own.echoes).map(|own| own.heard.level_db.high());
    assert!(levels.clone().any(|own| own == sent.level_db), "{sent:?}");
    let own = Idea::SendsBack(sent.clone());
    for language in [Language::English, Language::German] {
        let locale = Locale { language, ..Locale::default() };
        let lettering = Lettering { locale, ..Lettering::default() };
        let drawing = told_view(&own, &arrangement, &judge(&arrangement), (900.0, 600.0), &lettering);
        let radius = |wanted: Role| {
            let found = drawing.items.iter().find_map(|item| match item.shape {
                Shape::Disc { radius, .. } if item.role == wanted => Some(radius),
                _ => None,
            });
            found.unwrap()
        };
        let areas = (radius(Role::Thing(Material::Steel)) / radius(Role::Target)).powi(2);
        let wanted = 10.0_f64.powf(sent.level_db / 10.0);
        assert!((areas / wanted - 1.0).abs() < 1e-6, "{areas} {wanted}");
        let lines = Words::new(&arrangement, locale).idea_lines(&own, &judge(&arrangement));
        assert!(lines.len() == 3 && lines.iter().all(|line| line.ends_with('.')), "{lines:?}");
    }
}
