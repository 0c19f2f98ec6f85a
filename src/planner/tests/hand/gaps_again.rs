//! Distances of what is in hand, against rays from many points and against moving it in small steps.

use baywright_planner::geometry::{
    Circle, DVec2, Outline, Prism, Segment, Separation, distance_to_point, distance_to_segment, overlap_area,
    overlaps,
};
use baywright_planner::hand::{Gap, gaps};
use baywright_planner::model::*;
use baywright_planner::{Scene, Subject};
use proptest::prelude::*;

use crate::awkward::{arrangement, boundary, config, movable, rim, slack};

/// The solids of a subject.
fn solids(arrangement: &Arrangement, scene: &Scene, subject: &Subject) -> Vec<Prism> {
    match subject {
        Subject::Car => scene.car.clone(),
        Subject::Thing(id) => {
            let at = arrangement.bay.things.iter().position(|own| own.id == *id).unwrap();
            vec![scene.things[at].prism.clone()]
        }
        Subject::Stand(_) | Subject::Target(_) => scene.targets[0].solids.clone(),
        other => panic!("{other:?}"),
    }
}

/// What is not in hand and does not go along.
fn others(arrangement: &Arrangement, subject: &Subject) -> Vec<Subject> {
    let goes_along = |other: &Subject| {
        other == subject
            || (*subject == Subject::Car
                && matches!(other, Subject::Stand(_))
                && arrangement.stands[0] == StandSet::OnMark)
    };
    movable(arrangement).into_iter().filter(|other| !goes_along(other)).collect()
}

fn walls(arrangement: &Arrangement) -> Vec<(Subject, Segment)> {
    let walls = arrangement.bay.walls.iter().map(|wall| Subject::Wall(wall.id.clone()));
    walls.zip(arrangement.bay.room.edges()).collect()
}

fn wall(arrangement: &Arrangement, subject: &Subject) -> Segment {
    walls(arrangement).into_iter().find(|(id, _)| id == subject).unwrap().1
}

fn any_overlap(a: &[Prism], b: &[Prism], by: DVec2, same_heights: bool) -> f64 {
    let mut most = 0.0_f64;
    for p in a {
        for q in b {
            if !same_heights || p.span.shared(&q.span).is_some() {
                most = most.max(overlap_area(&p.outline.moved(by), &q.outline));
            }
        }
    }
    most
}

fn touches(own: &[Prism], p: DVec2, slack: f64) -> bool {
    own.iter().any(|solid| match distance_to_point(&solid.outline, p) {
        Separation::Apart { gap, .. } => gap <= slack,
        Separation::Touching { .. } => true,
        // On its boundary within rounding.
        Separation::Overlapping => {
            boundary(&solid.outline).iter().any(|(a, b)| Segment::new(*a, *b).distance_to(p) <= slack)
        }
    })
}

proptest! {
    #![proptest_config(config(250))]

    #[test]
    fn each_runs_from_one_to_the_other_and_says_something_new(
        arrangement in arrangement(),
        most in 0..7_usize,
    ) {
        let scene = Scene::of(&arrangement);
        // A rim's pieces lie a little inside it.
        let slack = slack(&arrangement) * 100.0 + 0.01;
        for subject in movable(&arrangement) {
            let own = solids(&arrangement, &scene, &subject);
            let told = gaps(&arrangement, &scene, &subject, most);
            prop_assert!(told.len() <= most.min(5));
            prop_assert!(told.is_sorted_by(|a, b| a.distance_mm <= b.distance_mm));
            for (i, gap) in told.iter().enumerate() {
                prop_assert!(gap.distance_mm > 0.01 && gap.distance_mm.is_finite());
                prop_assert!((gap.from.distance(gap.to) - gap.distance_mm).abs() < 1e-6);
                prop_assert!(told[..i].iter().all(|other| other.what != gap.what));
                prop_assert!(touches(&own, gap.from, slack), "{gap:?}");
                match &gap.what {
                    Subject::Wall(_) => {
                        let wall = wall(&arrangement, &gap.what);
                        prop_assert!(wall.distance_to(gap.to) < slack, "{gap:?}");
                    }
                    other => {
                        let against = solids(&arrangement, &scene, other);
                        prop_assert!(touches(&against, gap.to, slack), "{gap:?}");
                    }
                }
            }
        }
    }

    /// So far it can be moved and no further.
    #[test]
    fn nothing_is_met_before(arrangement in arrangement()) {
        let scene = Scene::of(&arrangement);
        for subject in movable(&arrangement) {
            let own = solids(&arrangement, &scene, &subject);
            for gap in gaps(&arrangement, &scene, &subject, 9) {
                let way = (gap.to - gap.from) / gap.distance_mm;
                let along = scene.in_car_directions(way).abs();
                if along.min_element() > 1e-9 {
                    continue;
                }
                // The nearest of all runs straight too now and then, at whatever height.
                if nearest(&arrangement, &scene, &subject, &own).is_some_and(|(what, _)| what == gap.what) {
                    continue;
                }
                for step in 1..=30_u32 {
                    let by = way * (gap.distance_mm * f64::from(step) / 30.0 - 0.02);
                    for other in others(&arrangement, &subject) {
                        let against = solids(&arrangement, &scene, &other);
                        if any_overlap(&own, &against, DVec2::ZERO, true) > 0.0 {
                            continue;
                        }
                        let round: f64 =
                            own.iter().map(|s| s.outline.bounds().size().element_sum() * 2.0).sum();
                        let area = any_overlap(&own, &against, by, true);
                        prop_assert!(area <= 0.02 * round, "{gap:?}: {other:?} is met after {by}");
                    }
                }
                let meets = |after: DVec2| match &gap.what {
                    Subject::Wall(_) => {
                        let wall = wall(&arrangement, &gap.what);
                        let through = |outline: &Outline| distance_to_segment(&outline.moved(after), &wall);
                        own.iter().any(|s| through(&s.outline) == Separation::Overlapping)
                    }
                    other => any_overlap(&own, &solids(&arrangement, &scene, other), after, false) > 0.0,
                };
                // A tip that shares a hundredth of a millimetre of breadth is soon past.
                let meets = [1e-3, 5e-3, 0.02, 0.05].iter().any(|more| meets(way * (gap.distance_mm + more)));
                prop_assert!(meets, "{gap:?}");
            }
        }
    }

    /// The same list by rays and by trying every pair.
    #[test]
    fn the_slow_way_finds_the_same(arrangement in arrangement()) {
        let scene = Scene::of(&arrangement);
        for subject in movable(&arrangement) {
            let own = solids(&arrangement, &scene, &subject);
            let Some(expected) = slowly(&arrangement, &scene, &subject, &own) else { continue };
            let told = gaps(&arrangement, &scene, &subject, 9);
            let brief = |all: &[Gap]| all.iter().map(|g| (g.what.clone(), g.distance_mm)).collect::<Vec<_>>();
            let said = format!("{subject:?}: {:?} instead of {expected:?}", brief(&told));
            prop_assert_eq!(told.len(), expected.len(), "{}", said);
            for (what, distance) in &expected {
                let found = told.iter().find(|gap| gap.what == *what);
                prop_assert!(found.is_some_and(|gap| (gap.distance_mm - distance).abs() < 0.1), "{}", said);
            }
        }
    }
}

/// The nearest of all, by every pair of corners and edges; none that it touches or is in.
fn nearest(
    arrangement: &Arrangement,
    scene: &Scene,
    subject: &Subject,
    own: &[Prism],
) -> Option<(Subject, f64)> {
    let mut best: Option<(Subject, f64)> = None;
    for other in others(arrangement, subject) {
        let against = solids(arrangement, scene, &other);
        let least = pairs(own, &against);
        if least > 0.01 && least.is_finite() && best.as_ref().is_none_or(|(_, known)| least < *known) {
            best = Some((other, least));
        }
    }
    best
}

fn pairs(a: &[Prism], b: &[Prism]) -> f64 {
    let mut least = f64::INFINITY;
    for p in a {
        for q in b.iter().filter(|q| q.span.shared(&p.span).is_some()) {
            least = least.min(if overlaps(&p.outline, &q.outline) {
                0.0
            } else {
                between(&p.outline, &q.outline)
            });
        }
    }
    least
}

fn between(a: &Outline, b: &Outline) -> f64 {
    let core = |outline: &Outline| match outline {
        Outline::Polygon(_) => (boundary(outline), 0.0),
        Outline::Circle(circle) => (vec![(circle.centre(), circle.centre())], circle.radius()),
    };
    let ((edges_a, round_a), (edges_b, round_b)) = (core(a), core(b));
    let mut least = f64::INFINITY;
    for (p, q) in &edges_a {
        for (r, s) in &edges_b {
            let (e, f) = (Segment::new(*p, *q), Segment::new(*r, *s));
            least = least.min(e.distance_to(*r)).min(f.distance_to(*p));
        }
    }
    least - round_a - round_b
}

/// The list, or `None` where the answer hangs on a graze or on two that are as near.
fn slowly(
    arrangement: &Arrangement,
    scene: &Scene,
    subject: &Subject,
    own: &[Prism],
) -> Option<Vec<(Subject, f64)>> {
    let mut all: Vec<(Subject, f64)> = Vec::new();
    let mut near: Vec<(Subject, f64)> = others(arrangement, subject)
        .into_iter()
        .map(|other| (other.clone(), pairs(own, &solids(arrangement, scene, &other))))
        .filter(|(_, gap)| *gap > 0.01 && gap.is_finite())
        .collect();
    near.sort_by(|a, b| a.1.total_cmp(&b.1));
    if let [first, second, ..] = near.as_slice()
        && second.1 - first.1 < 0.1
    {
        return None;
    }
    all.extend(near.into_iter().next());
    let (ahead, left) = (scene.bay_from_vehicle.forward(), scene.bay_from_vehicle.left());
    for way in [ahead, left, -ahead, -left] {
        let mut hits: Vec<(Option<Subject>, f64)> = Vec::new();
        for (what, wall) in walls(arrangement) {
            let through =
                own.iter().any(|s| distance_to_segment(&s.outline, &wall) == Separation::Overlapping);
            let along = wall.to - wall.from;
            let from_inside = way.dot(along.perp()) < 0.0;
            // A wall that runs that way is met by nothing that is not through its prolongation already.
            if !through && way.perp_dot(along).abs() > 0.01 {
                for solid in own {
                    let piece = [(wall.from, wall.to)];
                    hits.extend(
                        first(&solid.outline, None, &piece, way)
                            .map(|d| (from_inside.then(|| what.clone()), d)),
                    );
                }
            }
        }
        for other in others(arrangement, subject) {
            let against = solids(arrangement, scene, &other);
            if any_overlap(own, &against, DVec2::ZERO, true) > 0.0 {
                continue;
            }
            for p in own {
                for q in against.iter().filter(|q| q.span.shared(&p.span).is_some()) {
                    let circle = if let Outline::Circle(circle) = &q.outline { Some(circle) } else { None };
                    let edges = if circle.is_some() { Vec::new() } else { boundary(&q.outline) };
                    hits.extend(first(&p.outline, circle, &edges, way).map(|d| (Some(other.clone()), d)));
                }
            }
        }
        hits.sort_by(|a, b| a.1.total_cmp(&b.1));
        let Some((what, distance)) = hits.first().cloned() else { continue };
        // Grazing, touching and ties: not for rays to say.
        let other = hits.iter().find(|(other, _)| *other != what);
        if distance < 0.1 || other.is_some_and(|(_, far)| far - distance < 0.1) {
            return None;
        }
        if grazes(own, arrangement, scene, subject, way) {
            return None;
        }
        if let Some(what) = what {
            all.push((what, distance));
        }
    }
    all.sort_by(|a, b| a.1.total_cmp(&b.1));
    let mut told: Vec<(Subject, f64)> = Vec::new();
    for (what, distance) in all {
        if !told.iter().any(|(known, _)| *known == what) {
            told.push((what, distance));
        }
    }
    Some(told)
}

/// Whether two outlines' extents across the way end within a few hundredths of a millimetre of one another.
fn grazes(own: &[Prism], arrangement: &Arrangement, scene: &Scene, subject: &Subject, way: DVec2) -> bool {
    let ends = |outline: &Outline| -> Vec<f64> {
        match outline {
            Outline::Circle(c) => [-1.0, 1.0].map(|s| c.centre().dot(way.perp()) + s * c.radius()).to_vec(),
            Outline::Polygon(p) => p.outer().iter().map(|p| p.dot(way.perp())).collect(),
        }
    };
    let mine: Vec<f64> = own.iter().flat_map(|s| ends(&s.outline)).collect();
    let mut theirs: Vec<f64> = arrangement.bay.room.outer().iter().map(|p| p.dot(way.perp())).collect();
    for other in others(arrangement, subject) {
        theirs.extend(solids(arrangement, scene, &other).iter().flat_map(|s| ends(&s.outline)));
    }
    mine.iter().any(|a| theirs.iter().any(|b| (a - b).abs() < 0.05))
}

/// How far an outline can go until one of its points meets one of the others, by rays both ways.
fn first(own: &Outline, circle: Option<&Circle>, edges: &[(DVec2, DVec2)], way: DVec2) -> Option<f64> {
    let mut least = f64::INFINITY;
    let from: Vec<DVec2> = match own {
        Outline::Polygon(polygon) => polygon.outer().to_vec(),
        Outline::Circle(circle) => rim(circle, 1_440),
    };
    for p in from {
        for (a, b) in edges {
            least = least.min(ray(p, way, *a, *b));
        }
        least = least.min(circle.map_or(f64::INFINITY, |circle| ray_to_disc(p, way, circle)));
    }
    let mut back: Vec<DVec2> = edges.iter().map(|(a, _)| *a).chain(edges.iter().map(|(_, b)| *b)).collect();
    back.extend(circle.map(|circle| rim(circle, 1_440)).unwrap_or_default());
    for p in back {
        match own {
            Outline::Polygon(_) => {
                for (a, b) in boundary(own) {
                    least = least.min(ray(p, -way, a, b));
                }
            }
            Outline::Circle(circle) => least = least.min(ray_to_disc(p, -way, circle)),
        }
    }
    (least < f64::INFINITY).then_some(least)
}

fn ray(from: DVec2, way: DVec2, a: DVec2, b: DVec2) -> f64 {
    let (along, off) = (b - a, a - from);
    let cross = way.perp_dot(along);
    if cross == 0.0 {
        return f64::INFINITY;
    }
    let (far, share) = (off.perp_dot(along) / cross, off.perp_dot(way) / cross);
    if far >= -1e-6 && (0.0..=1.0).contains(&share) { far.max(0.0) } else { f64::INFINITY }
}

fn ray_to_disc(from: DVec2, way: DVec2, circle: &Circle) -> f64 {
    let off = circle.centre() - from;
    let (along, aside) = (off.dot(way), off.perp_dot(way));
    let half = circle.radius().powi(2) - aside * aside;
    let far = along - half.max(0.0).sqrt();
    if half >= 0.0 && far >= -1e-6 { far.max(0.0) } else { f64::INFINITY }
}
