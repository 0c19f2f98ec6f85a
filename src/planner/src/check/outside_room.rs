//! Parts of the set-up outside the room.
//!
//! Rule: every keep-clear zone that keeps things out, every target and every stand lies inside the room, at every
//! height; a shut door is a wall, an open one lets through what fits under its lintel, as far as the ground beyond is
//! known to be free. A zone that keeps out only people or light ends at a wall by itself.
//! What runs out through an open door, though it may, needs care: traffic, slope, light and weather are out there, for the car
//! and its marks as well. Of a zone that keeps out people that is so however far the ground beyond is free.
//! Limit: the walls; what is out there is not known.

use std::cell::OnceCell;

use baywright_geometry::distance::{Separation, distance_to_segment};
use baywright_geometry::locate::{Located, locate};
use baywright_geometry::overlap::overlap_region;
use baywright_geometry::protrude::{self, Protrusion};
use baywright_geometry::{Bounds, DVec2, Outline, Polygon, Prism, Segment, boolean};

use super::claim::walls_bind;
use super::finding::{Basis, Code, Facts, Finding, Quantity, Severity, Subject};
use super::{Check, Context, Remedy, SPEAKS_FROM_MM, finding, wall_id};
use crate::model::{Exclusion, Id, Opening, OpeningKind};
use crate::scene::TargetPart;

pub(super) const CHECK: Check = Check {
    codes: &[Code::OutsideRoom, Code::BeyondDoor],
    whole,
    remedy,
    depths: &[Code::OutsideRoom],
    ..Check::NONE
};

/// The set-up takes more than the room gives, so that no move along or across the car's axis makes it fit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum TooLarge {
    /// Along the car's axis, mm.
    Long {
        /// Needed.
        needs_mm: f64,
        /// There.
        there_mm: f64,
    },
    /// Across it, mm.
    Wide {
        /// Needed.
        needs_mm: f64,
        /// There.
        there_mm: f64,
    },
}

impl TooLarge {
    /// How much of the room is missing, mm.
    pub const fn missing_mm(self) -> f64 {
        match self {
            Self::Long { needs_mm, there_mm } | Self::Wide { needs_mm, there_mm } => needs_mm - there_mm,
        }
    }
}

fn remedy(finding: &Finding) -> Remedy {
    match finding.subjects.get(1) {
        Some(Subject::Wall(_) | Subject::Opening(_)) => Remedy::IntoRoom,
        _ => Remedy::None,
    }
}

fn whole(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for zone in context.scene.zones.iter().filter(|zone| walls_bind(zone.excludes)) {
        let height = (zone.prism.span.bottom() + zone.prism.span.top()) * 0.5;
        part(context, &Subject::Zone(zone.id.clone()), None, &zone.prism, height, findings);
    }
    for target in &context.scene.targets {
        for (&own, solid) in target.parts.iter().zip(&target.solids) {
            let (subject, height) = match own {
                TargetPart::Body => (Subject::Target(target.id.clone()), target.set.height_mm),
                TargetPart::Feet | TargetPart::Mast => (Subject::Stand(target.id.clone()), middle_of(solid)),
            };
            part(context, &subject, Some(own), solid, height, findings);
        }
    }
    for door in context.arrangement.bay.openings.iter().filter(|own| own.is_open()) {
        beyond_door(context, door, findings);
    }
}

/// Half way between what is lowest and highest of a solid.
fn middle_of(solid: &Prism) -> f64 {
    (solid.span.bottom() + solid.span.top()) * 0.5
}

/// A ground beyond a door without an end, mm.
const ENDLESS_MM: f64 = 1e5;

/// What of the set-up is outside an open door. What may not be there is another finding.
fn beyond_door(context: &Context<'_>, door: &Opening, findings: &mut Vec<Finding>) {
    let bay = &context.arrangement.bay;
    let Some(line) = bay.opening_line(door) else { return };
    let out = -(line.to - line.from).normalize_or_zero().perp();
    let ground = |far: f64| {
        let far = out * far;
        let strip = Polygon::simple(vec![line.from, line.from + far, line.to + far, line.to]).ok()?;
        let pieces = boolean::difference(&strip, &bay.room).into_iter().map(Outline::from);
        // Another part of the room may lie behind it.
        pieces.into_iter().find(|own| !matches!(distance_to_segment(own, &line), Separation::Apart { .. }))
    };
    let free_mm = context.scene.room.free_beyond(&door.id).unwrap_or(door.free_beyond_mm);
    let (known_free, endless) = (OnceCell::new(), OnceCell::new());
    let ground = |binds: bool| match binds {
        true => known_free.get_or_init(|| ground(free_mm)).as_ref(),
        false => endless.get_or_init(|| ground(ENDLESS_MM)).as_ref(),
    };
    let past = |p: DVec2| ((p - line.from).dot(out), p);
    let furthest = |solid: &Prism, binds: bool| {
        solid.span.shared(&door.span)?;
        let Bounds { low, high } = solid.outline.bounds();
        let corners = [low, high, DVec2::new(low.x, high.y), DVec2::new(high.x, low.y)];
        corners.into_iter().find(|&p| past(p).0 > SPEAKS_FROM_MM)?;
        let pieces = overlap_region(&solid.outline, ground(binds)?);
        let corners = pieces.iter().flat_map(|piece| piece.outer().iter().copied());
        corners.map(past).max_by(|a, b| a.0.total_cmp(&b.0))
    };
    let mut tell = |subject: Subject, furthest: Option<(f64, DVec2)>, height: f64| {
        let Some((depth, at)) = furthest.filter(|own| own.0 > SPEAKS_FROM_MM) else { return };
        findings.push(
            finding(
                Facts::BeyondDoor,
                Severity::Care,
                vec![Subject::Opening(door.id.clone()), subject],
                at.extend(height),
                Basis::CommonPractice,
            )
            .against(Quantity::Length(depth), Quantity::Length(free_mm)),
        );
    };
    // What of a zone without light is out there is said of the door itself.
    for zone in context.scene.zones.iter().filter(|zone| zone.excludes != Exclusion::Light) {
        let furthest = furthest(&zone.prism, walls_bind(zone.excludes));
        tell(Subject::Zone(zone.id.clone()), furthest, middle_of(&zone.prism));
    }
    for target in &context.scene.targets {
        // The foremost part stands for them all.
        let reach = |own: &&Prism| (own.outline.bounds().centre() - line.from).dot(out);
        if let Some(solid) = target.solids.iter().max_by(|a, b| reach(a).total_cmp(&reach(b))) {
            tell(Subject::Target(target.id.clone()), furthest(solid, true), middle_of(solid));
        }
    }
    let of_car = context.scene.car.iter().filter_map(|solid| furthest(solid, true));
    tell(Subject::Car, of_car.max_by(|a, b| a.0.total_cmp(&b.0)), 0.0);
    // The farthest mark stands for them all.
    let is_out = |at: DVec2| {
        past(at).0 > SPEAKS_FROM_MM && ground(true).is_some_and(|own| locate(own, at) != Located::Outside)
    };
    let marks = context.scene.marks.iter().filter_map(|mark| Some((&mark.id, mark.at.ok()?)));
    let out_there = marks.filter(|(_, at)| is_out(*at)).map(|(id, at)| (id, past(at)));
    // Of marks as far out as each other rounding does not choose.
    let whole = |own: &(&Id, (f64, DVec2))| (own.1.0 / SPEAKS_FROM_MM).round();
    let furthest = out_there.max_by(|a, b| whole(a).total_cmp(&whole(b)).then_with(|| b.0.cmp(a.0)));
    if let Some((id, furthest)) = furthest {
        tell(Subject::Mark(id.clone()), Some(furthest), 0.0);
    }
}

/// One solid of the set-up: one finding for each wall that it passes.
fn part(
    context: &Context<'_>,
    subject: &Subject,
    part: Option<TargetPart>,
    solid: &Prism,
    height: f64,
    findings: &mut Vec<Finding>,
) {
    for (barrier, depth, deepest) in passed(context, [solid]) {
        let no_fit = context.arrangement.bay.openings.iter().any(|door| {
            let is_free = depth <= context.scene.room.free_beyond(&door.id).unwrap_or(0.0);
            barrier == Subject::Opening(door.id.clone()) && is_free && !door.lets_through(&solid.span)
        });
        findings.push(
            finding(
                Facts::OutsideRoom { part, no_fit, too_large: None },
                Severity::Stops,
                vec![subject.clone(), barrier],
                deepest.extend(height),
                Basis::Geometry,
            )
            .against(Quantity::Length(depth), Quantity::Length(0.0)),
        );
    }
}

/// The walls and doors that some solids pass, each with how deep and where the deepest of them does.
pub(super) fn passed<'a>(
    context: &Context<'_>,
    solids: impl IntoIterator<Item = &'a Prism>,
) -> Vec<(Subject, f64, DVec2)> {
    let mut passed: Vec<(Subject, f64, DVec2)> = Vec::new();
    for solid in solids {
        for protrusion in protruding(context, solid) {
            if protrusion.depth < SPEAKS_FROM_MM {
                continue;
            }
            let barrier = barrier_of_all(context, &front(context, solid, &protrusion));
            note(&mut passed, barrier, protrusion.depth, protrusion.deepest);
        }
        for (wall, depth, at) in context.scene.room.passed_behind_doors(solid) {
            let Some(id) = wall_id(context.arrangement, wall) else { continue };
            if depth > SPEAKS_FROM_MM {
                note(&mut passed, Subject::Wall(id.into_owned()), depth, at);
            }
        }
    }
    passed
}

fn note(passed: &mut Vec<(Subject, f64, DVec2)>, barrier: Subject, depth: f64, at: DVec2) {
    match passed.iter_mut().find(|(known, _, _)| *known == barrier) {
        Some(known) if known.1 >= depth => {}
        Some(known) => (known.1, known.2) = (depth, at),
        None => passed.push((barrier, depth, at)),
    }
}

/// What of a solid is outside the room, at its own heights: an open door lets through what fits.
pub(super) fn protruding(context: &Context<'_>, solid: &Prism) -> Vec<Protrusion> {
    let room = context.scene.room.holding(&solid.span);
    protrude::protrusions(&room, &solid.outline)
}

/// The same if it is more than so deep, mm, somewhere.
pub(super) fn protruding_deeper(context: &Context<'_>, solid: &Prism, than_mm: f64) -> Vec<Protrusion> {
    let room = context.scene.room.holding(&solid.span);
    protrude::protrusions_deeper(&room, &solid.outline, than_mm)
}

/// The wall nearest to a point, by position. Past a corner two walls are as near: then the one that the point is further
/// beyond; where even that is the same, as it is where something is deepest between two walls, the first by name, so that it is
/// the same however the walls are listed and the bay lies.
pub(super) fn nearest_wall(context: &Context<'_>, p: DVec2) -> Option<usize> {
    let walls = || context.scene.room.walls().edges().zip(&context.arrangement.bay.walls).enumerate();
    let least = walls().map(|(_, (edge, _))| edge.distance_to(p)).min_by(f64::total_cmp)?;
    let nearest = || walls().filter(|(_, (edge, _))| edge.distance_to(p) < least + SPEAKS_FROM_MM);
    // The inside lies left of a wall.
    let beyond = |edge: &Segment| (edge.to - edge.from).normalize_or_zero().perp_dot(edge.from - p);
    let most = nearest().map(|(_, (edge, _))| beyond(&edge)).max_by(f64::total_cmp)?;
    let passed = nearest().filter(|(_, (edge, _))| beyond(edge) > most - SPEAKS_FROM_MM);
    passed.min_by(|(_, (_, a)), (_, (_, b))| a.id.cmp(&b.id)).map(|(position, _)| position)
}

/// The deepest place of a solid past a wall, and its other corners out there that are as deep: of a side that runs along the
/// wall the one is no deeper than the other.
fn front(context: &Context<'_>, solid: &Prism, protrusion: &Protrusion) -> Vec<DVec2> {
    let mut front = vec![protrusion.deepest];
    let wall = nearest_wall(context, protrusion.deepest);
    let edge = wall.and_then(|wall| context.scene.room.walls().edges().nth(wall));
    if let (Some(edge), Outline::Polygon(outline)) = (edge, &solid.outline) {
        let room = context.scene.room.holding(&solid.span);
        let pieces = boolean::difference(outline, &room);
        let corners = pieces.iter().flat_map(|piece| piece.outer().iter().copied());
        let along = (edge.to - edge.from).normalize_or_zero();
        let beyond = |p: DVec2| along.perp_dot(edge.from - p);
        let is_as_deep = |p: &DVec2| (beyond(*p) - beyond(protrusion.deepest)).abs() < SPEAKS_FROM_MM;
        // A side that goes on past the wall's end is looked at as far as the wall goes.
        let abreast = |p: DVec2| {
            let far = (p - edge.from).dot(along);
            p + along * (far.clamp(0.0, edge.length()) - far)
        };
        front.extend(corners.filter(is_as_deep).map(abreast));
    }
    front
}

/// What a part that reaches `p` passes through: the shut door abreast of it, or the wall.
pub(super) fn barrier(context: &Context<'_>, p: DVec2) -> Subject {
    barrier_of_all(context, &[p])
}

/// The same of several places past the wall that is nearest to the first: a door that all of them are abreast of, or the wall.
fn barrier_of_all(context: &Context<'_>, all: &[DVec2]) -> Subject {
    let bay = &context.arrangement.bay;
    let wall = all.first().and_then(|&first| nearest_wall(context, first));
    let Some(wall) = wall else { return Subject::Floor };
    let door = bay.room.edges().nth(wall).and_then(|edge| {
        let along = (edge.to - edge.from).normalize_or_zero();
        let is_abreast = |o: &Opening, p: DVec2| {
            let abreast = (p - edge.from).dot(along);
            // What ends at its jamb ends there, but for rounding.
            (o.from_mm - SPEAKS_FROM_MM..=o.from_mm + o.width_mm + SPEAKS_FROM_MM).contains(&abreast)
        };
        let is_here = |o: &&Opening| {
            o.wall == wall && o.kind != OpeningKind::Window && all.iter().all(|&p| is_abreast(o, p))
        };
        bay.openings.iter().find(is_here)
    });
    match door {
        Some(door) => Subject::Opening(door.id.clone()),
        None => {
            wall_id(context.arrangement, wall).map_or(Subject::Floor, |id| Subject::Wall(id.into_owned()))
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::check::Context;
    use crate::check::testing::*;
    use crate::scene::Scene;

    /// The zone ends 5800 mm ahead of the axle, the room at 12 000.
    #[test]
    fn a_zone_through_the_wall() {
        none(&parked_at(6_200.0), Code::OutsideRoom);
        let found = check(&parked_at(6_300.0), Code::OutsideRoom, Severity::Stops, Some(100.0));
        assert_eq!(found.subjects, [Subject::Zone("beam".into()), Subject::Wall("far wall".into())]);
        assert_eq!(found.cure.unwrap().step, Step::MoveCar { by: DVec2::new(-100.0, 0.0) });
    }

    /// The zone's front right corner lies 200 mm past the far wall and 300 mm past the right one, beyond the room's corner:
    /// two walls are as near to it. Whichever wall is listed first, it is the right one that it is further beyond.
    #[test]
    fn past_a_corner_it_is_the_wall_that_is_passed_further() {
        for first in 0..4 {
            let mut arrangement = clear();
            arrangement.parked = PlanPose::new(DVec2::new(6_400.0, 1_200.0), 0.0);
            let mut corners = arrangement.bay.room.outer().to_vec();
            corners.rotate_left(first);
            arrangement.bay.room = Polygon::simple(corners).unwrap();
            arrangement.bay.walls.rotate_left(first);
            let scene = Scene::of(&arrangement);
            let past = DVec2::new(6_400.0 + 5_800.0, 1_200.0 - 1_500.0);
            let barrier = super::barrier(&Context::new(&arrangement, &scene), past);
            assert_eq!(barrier, Subject::Wall("right wall".into()), "{first}");
            // As far past both: the first by name.
            let between = super::barrier(&Context::new(&arrangement, &scene), DVec2::new(12_300.0, -300.0));
            assert_eq!(between, Subject::Wall("far wall".into()), "{first}");
        }
    }

    /// The zone is 1500 mm high. Through an open door whose lintel is at 1400 it does not fit, though 5 m of ground are free
    /// beyond; where the lintel is high enough, it is the ground that may not do.
    #[test]
    fn a_lintel_is_not_ground_that_ends() {
        let title = |lintel: f64, free: f64| {
            let mut arrangement = parked_at(6_300.0);
            let door = Opening { span: span(0.0, lintel), ..open_door(1, 1_000.0, 4_000.0, free) };
            arrangement.bay.openings = vec![door];
            let found = check(&arrangement, Code::OutsideRoom, Severity::Stops, None);
            words::Words::new(&arrangement, words::Locale::default()).title(&found)
        };
        assert_eq!(title(1_400.0, 5_000.0), "Keep-clear zone “beam” does not fit through the roller door");
        let ends =
            "Keep-clear zone “beam” would reach further through the roller door than is known to be free";
        assert_eq!(title(2_500.0, 60.0), ends);
        assert_eq!(title(1_400.0, 0.0), ends);
    }

    /// The car's tail, square through the near wall from y = 2100 to 3900: past a shut door that ends at 3500 and the wall beside
    /// it, it is the wall that is passed, whichever way the bay is walked round; a door as wide as the tail is told.
    #[test]
    fn a_side_that_passes_door_and_wall_passes_the_wall() {
        let through = |from_mm: f64, width_mm: f64| {
            let mut arrangement = parked_at(3_390.0);
            let door = open_door(3, from_mm, width_mm, 0.0);
            arrangement.bay.openings = vec![Opening { shut: true, ..door }];
            check(&arrangement, Code::CarClash, Severity::Stops, Some(10.0)).subjects[0].clone()
        };
        // The near wall runs from y = 6000 to 0.
        let wall = Subject::Wall("near wall".into());
        assert_eq!(through(2_500.0, 2_000.0), wall);
        assert_eq!(through(1_500.0, 2_000.0), wall);
        assert_eq!(through(2_000.0, 2_000.0), Subject::Opening("roller door".into()));
    }

    /// The car's tail and the rear marks stand out through a door in the near wall; a mark of the stand does not.
    #[test]
    fn a_car_that_stands_half_outside() {
        let mut arrangement = parked_at(2_000.0);
        arrangement.bay.openings = vec![open_door(3, 1_500.0, 3_000.0, 3_000.0)];
        let assessment = assess(&arrangement);
        let out: Vec<_> = assessment.findings.iter().filter(|f| f.code() == Code::BeyondDoor).collect();
        let subjects: Vec<_> = out.iter().map(|f| f.subjects[1].clone()).collect();
        assert_eq!(subjects, [Subject::Car, Subject::Mark("1".into())], "{out:#?}");
        // 3400 mm behind the axle, and 2600.
        let lengths = [1_400.0, 600.0].map(Quantity::Length);
        assert_eq!([out[0].measured, out[1].measured], lengths.map(Some));
        assert!(out.iter().all(|f| f.severity == Severity::Care));
    }

    #[test]
    fn a_people_zone_ends_at_the_wall() {
        let mut arrangement = parked_at(6_300.0);
        arrangement.aiming.zones[0].excludes = Exclusion::People;
        none(&arrangement, Code::OutsideRoom);
    }

    #[test]
    fn a_door_is_a_wall_while_it_is_shut() {
        let mut arrangement = parked_at(6_300.0);
        arrangement.bay.openings = vec![Opening {
            id: "roller door".into(),
            kind: OpeningKind::RollerDoor,
            wall: 1,
            from_mm: 1_000.0,
            width_mm: 4_000.0,
            span: span(0.0, 2_800.0),
            material: Material::Steel,
            shut: true,
            free_beyond_mm: 2_000.0,
            is_exit: false,
        }];
        let found = check(&arrangement, Code::OutsideRoom, Severity::Stops, Some(100.0));
        assert_eq!(found.subjects[1], Subject::Opening("roller door".into()));
        assert_eq!(found.cure.unwrap().step, Step::OpenDoor { door: "roller door".into() });
        arrangement.bay.openings[0].shut = false;
        none(&arrangement, Code::OutsideRoom);
        let found = check(&arrangement, Code::BeyondDoor, Severity::Care, Some(100.0));
        let zone = Subject::Zone("beam".into());
        assert_eq!(found.subjects, [Subject::Opening("roller door".into()), zone]);
        arrangement.bay.openings[0].free_beyond_mm = 60.0;
        check(&arrangement, Code::OutsideRoom, Severity::Stops, Some(40.0));
    }

    /// The plate's body is 20 mm deep, its feet reach 500 mm behind the face, the mast 85 mm: each with its own figure, and the
    /// plate itself is not told for its feet.
    #[test]
    fn a_stand_through_a_wall_is_told_by_its_parts() {
        let at = |x: f64| {
            let mut arrangement = parked_at(x);
            arrangement.aiming.zones.clear();
            let assessment = assess(&arrangement);
            let all = of(&assessment, Code::OutsideRoom);
            let told = all.iter().map(|f| (f.subjects[0].clone(), number(f.measured.unwrap()).round()));
            let titles: Vec<String> = all
                .iter()
                .map(|f| words::Words::new(&arrangement, words::Locale::default()).title(f))
                .collect();
            (told.collect::<Vec<_>>(), titles)
        };
        // The face stands 4800 mm ahead of the axle.
        let (feet, titles) = at(6_990.0);
        assert_eq!(feet, [(Subject::Stand("ahead".into()), 290.0)]);
        assert_eq!(titles, ["The feet of the target stand would go through the far wall"]);
        let (all, titles) = at(7_190.0);
        let (plate, stand) = (Subject::Target("ahead".into()), Subject::Stand("ahead".into()));
        assert_eq!(all, [(plate, 10.0), (stand.clone(), 490.0), (stand, 75.0)]);
        assert_eq!(titles[2], "The mast of the target stand would go through the far wall");
        assert_eq!(titles[0], "Plate would go through the far wall");
    }

    /// Who walks past an open door walks through a zone that keeps out people, whatever the ground there is like.
    #[test]
    fn people_pass_an_open_door() {
        let mut arrangement = parked_at(6_300.0);
        arrangement.aiming.zones[0].excludes = Exclusion::People;
        arrangement.bay.openings = vec![Opening {
            id: "gap".into(),
            kind: OpeningKind::Gap,
            wall: 1,
            from_mm: 2_000.0,
            width_mm: 1_000.0,
            span: span(0.0, 2_000.0),
            material: Material::Unknown,
            shut: false,
            free_beyond_mm: 0.0,
            is_exit: false,
        }];
        check(&arrangement, Code::BeyondDoor, Severity::Care, Some(100.0));
        arrangement.parked = PlanPose::new(DVec2::new(6_200.0, 3_000.0), 0.0);
        none(&arrangement, Code::BeyondDoor);
        arrangement.parked = PlanPose::new(DVec2::new(6_300.0, 3_000.0), 0.0);
        // A gap that is said to be shut is open; a door is not.
        arrangement.bay.openings[0].shut = true;
        check(&arrangement, Code::BeyondDoor, Severity::Care, Some(100.0));
        arrangement.bay.openings[0].kind = OpeningKind::SwingDoor;
        none(&arrangement, Code::BeyondDoor);
    }

    #[test]
    fn a_bay_that_is_too_short_says_so() {
        let mut arrangement = clear();
        arrangement.bay.room = rectangle((0.0, 0.0), (9_000.0, 6_000.0));
        let assessment = assess(&arrangement);
        let found = of(&assessment, Code::OutsideRoom);
        // 3400 behind the axle, 5800 ahead of it.
        assert!(
            found.iter().any(|f| f.facts
                == Facts::OutsideRoom {
                    part: None,
                    no_fit: false,
                    too_large: Some(crate::TooLarge::Long { needs_mm: 9_200.0, there_mm: 9_000.0 })
                }),
            "{found:#?}"
        );
        assert!(assessment.promise.is_none());
    }
}
