//! Moving one thing out of everything that it stops.

use baywright_geometry::clearance::{Clearance, clearance};
use baywright_geometry::overlap::{overlaps, overlaps_by};
use baywright_geometry::protrude::protrusions;
use baywright_geometry::separate::{by_length_then_heading, exits};
use baywright_geometry::tolerance::SAGITTA_MM;
use baywright_geometry::{Bounds, DVec2, Outline, Polygon, Prism, Segment, Span, convex};

use super::{Case, WHOLE_MM, blames, caused, grown};
use crate::assessment::{Code, Cure, Finding, Quantity, Severity, Step};
use crate::check::{self, Context, SPEAKS_FROM_MM, claim};
use crate::model::{Arrangement, Effort, FloorFeatureKind, Id, Opening, OpeningKind, Thing, ThingKind};
use crate::scene::Scene;

/// How many ways out are tried: the first few are the short ones, and a person takes no detour of many.
const MOST_TRIED: usize = 8;
/// A way that causes nothing may be this much longer than one that needs care: a person prefers it.
const DETOUR: f64 = 2.0;
/// Ways are whole millimetres long: of two that differ by less, rounding does not choose.
const SAME_LENGTH_MM: f64 = 0.5 * WHOLE_MM;
/// For what only needs care nobody carries a thing further than this (common practice, no source).
const FAR_FOR_CARE_MM: f64 = 1500.0;
/// How far around a thing others are looked at as being in its way.
const AROUND_MM: f64 = 3000.0;
/// How many whole millimetres from the end of a pocket a place is looked for, each way: a pocket too narrow for that is
/// none that a person hits.
const POCKET_STEPS: i32 = 2;
/// What stands over an open pit, as high up as nothing passes under, mm.
const OVER_A_PIT_MM: f64 = 1.0;
/// How thick a wall counts: thicker than a move is ever rounded, thin enough not to reach the next room.
const WALL_MM: f64 = 100.0;

/// The shortest move that clears every stop of a thing, moves no further than it must, stays in the room and hits
/// nothing else; or taking it out of the bay. `None` if it cannot be moved.
///
/// With `care` the move also clears what the thing is blamed for that only needs care.
pub(super) fn cure(case: &Case<'_>, id: &Id, care: bool) -> Option<Cure> {
    let Case { arrangement, scene, before, claims, .. } = case;
    let index = arrangement.bay.things.iter().position(|thing| thing.id == *id)?;
    let thing = arrangement.bay.things.get(index)?;
    if thing.effort == Effort::Fixed || (care && thing.kind == ThingKind::LiftArm) {
        return None;
    }
    if thing.is_person() || thing.kind == ThingKind::ParkedCar {
        return leaves(arrangement, thing);
    }
    let placed = scene.things.get(index)?;
    let of_thing: Vec<Finding> = before.iter().filter(|f| blames(f, id)).cloned().collect();
    let mut blamed = claim::stops(claims, thing, &of_thing);
    if care {
        blamed.extend(claim::blamed(claims, thing, &of_thing));
    }
    let mut second_best: Option<Cure> = None;
    // First the way out of what it is blamed for: nothing shorter can do, and often it is enough. If that leads into
    // something else, the way round everything; if there is none, it may stay as deep in what it is in as it is now.
    let around = in_its_way(case, index);
    let is_in = |region: &&Outline| overlaps(region, &placed.prism.outline);
    let apart: Vec<&Outline> = around.iter().filter(|region| !is_in(region)).collect();
    let straight: Vec<&Outline> = blamed.iter().filter(is_in).collect();
    let round_all: Vec<&Outline> = blamed.iter().chain(&around).collect();
    let round_others = (apart.len() < around.len()).then(|| blamed.iter().chain(apart).collect());
    for (round, obstacles) in
        [(false, straight), (true, round_all)].into_iter().chain(round_others.map(|o| (true, o)))
    {
        for exit in exits(&obstacles, &placed.prism.outline).into_iter().take(MOST_TRIED) {
            let left = if care { Severity::Care } else { Severity::Stops };
            let clears = |by: DVec2| {
                let after = after_move(case, index, by)?;
                let is_left = |f: &Finding| f.severity <= left && !f.is_only_unsure();
                let is_far = care && by.length() > FAR_FOR_CARE_MM + SAME_LENGTH_MM;
                (!is_far && !after.iter().any(is_left) && fits(case, index, by)).then_some((by, after))
            };
            let Some((by, after)) = clears(rounded_up(exit)).or_else(|| in_a_pocket(scene, exit, clears))
            else {
                if round {
                    continue;
                }
                // The way round what this one leads into may be shorter than the next way out.
                break;
            };
            let sure = surely(case, index, by, care, &after);
            let cure = Cure {
                step: Step::MoveThing { thing: id.clone(), by },
                effort: Some(thing.effort),
                at_least: None,
                causes: caused(&of_thing, &after),
            }
            .further(sure.map(|(by, after)| (by, caused(&of_thing, &after))));
            // The shortest way is taken even if it needs care, unless a way not much longer causes nothing at all.
            let tolerable = second_best
                .as_ref()
                .is_none_or(|known| length(&cure) < length(known) * DETOUR - SAME_LENGTH_MM);
            if cure.causes.iter().all(is_only_near) && tolerable {
                return Some(cure);
            }
            if second_best.as_ref().is_none_or(|known| length(&cure) < length(known) - SAME_LENGTH_MM) {
                second_best = Some(cure);
            }
        }
    }
    second_best.or_else(|| if care { None } else { leaves(arrangement, thing) })
}

/// A way out that ends in a pocket may leave no room to round it up in its own direction. Then it is a place near its
/// end, on whole millimetres along and across the car, the shortest way first. `None` if the end itself is not clear.
fn in_a_pocket<T>(scene: &Scene, exit: DVec2, clears: impl Fn(DVec2) -> Option<T>) -> Option<T> {
    clears(exit)?;
    let end = scene.in_car_directions(exit);
    let whole = |v: f64, by: i32| ((v / WHOLE_MM).round() + f64::from(by)) * WHOLE_MM;
    let beside = -POCKET_STEPS..=POCKET_STEPS;
    let mut moves: Vec<DVec2> = beside
        .clone()
        .flat_map(|i| beside.clone().map(move |j| DVec2::new(whole(end.x, i), whole(end.y, j))))
        .collect();
    for by in &mut moves {
        *by = scene.bay_from_vehicle.turned(*by);
    }
    by_length_then_heading(&mut moves);
    moves.into_iter().find_map(clears)
}

/// Out of the bay, if it can leave, by a way that is entered, or where none is.
pub(crate) fn leaves(arrangement: &Arrangement, thing: &Thing) -> Option<Cure> {
    let size = thing.footprint.outline().bounds().size();
    let height = thing.span.top() - thing.span.bottom();
    let lets_out = |door: &Opening| {
        door.width_mm >= size.min_element() && door.span.top() - door.span.bottom() >= height
    };
    let mut doors = arrangement.bay.openings.iter().filter(|own| own.kind != OpeningKind::Window).peekable();
    let is_let_out = doors.peek().is_none() || doors.any(lets_out);
    (can_leave(thing.kind) && is_let_out).then(|| Cure {
        step: Step::TakeAway { thing: thing.id.clone() },
        effort: Some(thing.effort),
        at_least: None,
        causes: Vec::new(),
    })
}

/// A thing that may be in the way: if even a tape could not settle it, it is moved clear by what its place is uncertain by.
/// `None` if it is to be taped, or cannot be moved.
pub(super) fn further(case: &Case<'_>, unsure: &Finding) -> Option<Cure> {
    let arrangement = case.arrangement;
    let id = unsure.culprit()?;
    let Some(Quantity::Length(gap)) = unsure.measured else { return None };
    let index = arrangement.bay.things.iter().position(|thing| thing.id == *id)?;
    let thing = arrangement.bay.things.get(index)?;
    // Nobody tapes where somebody stands.
    if thing.is_person() {
        return leaves(arrangement, thing);
    }
    if gap >= arrangement.shop.taped_mm || thing.effort == Effort::Fixed || thing.kind == ThingKind::LiftArm {
        return None;
    }
    let now: Vec<Finding> = case.before.iter().filter(|f| blames(f, id)).cloned().collect();
    let (by, _) = margins(case, index, DVec2::ZERO)?
        .find_map(|margin| margin.tried(case, index, margin.shortest(case, index)?, &now))?;
    Some(Cure {
        step: Step::MoveThing { thing: id.clone(), by },
        effort: Some(thing.effort),
        at_least: None,
        causes: Vec::new(),
    })
}

/// What is part of the building stays in the bay, even if it swings.
const fn can_leave(kind: ThingKind) -> bool {
    !matches!(
        kind,
        ThingKind::Column
            | ThingKind::LiftPost
            | ThingKind::LiftArm
            | ThingKind::Heater
            | ThingKind::DoorTrack
            | ThingKind::Beam
    )
}

/// How far a cure moves a thing at least.
fn length(cure: &Cure) -> f64 {
    match (&cure.step, cure.at_least) {
        (_, Some(shorter)) => shorter.by().length(),
        (Step::MoveThing { by, .. }, None) => by.length(),
        _ => f64::INFINITY,
    }
}

/// What is built into the floor, so that nothing may be moved there: runways, what stands proud, and open pits.
pub(crate) fn built(arrangement: &Arrangement) -> impl Iterator<Item = (Prism, Bounds)> {
    let runways = arrangement.bay.runways.iter().filter_map(|runway| {
        Some(Prism::new(runway.outline.clone().into(), Span::new(0.0, runway.top_mm).ok()?))
    });
    let features = arrangement.bay.floor_features.iter().filter_map(|own| {
        let over_pit = || {
            let heights = Span::new(0.0, OVER_A_PIT_MM).ok().filter(|_| own.kind == FloorFeatureKind::Pit)?;
            Some(Prism::new(own.outline.clone().into(), heights))
        };
        own.solid().or_else(over_pit)
    });
    runways.chain(features).map(|solid| {
        let bounds = solid.outline.bounds();
        (solid, bounds)
    })
}

/// The walls, as thick as keeps a move from ending in them.
pub(super) fn walls(scene: &Scene) -> impl Iterator<Item = Outline> {
    scene.room.walls().edges().filter_map(|wall| {
        // The inside lies left of an edge, so out is to the right.
        let out = -(wall.to - wall.from).normalize_or_zero().perp() * WALL_MM;
        let along = (wall.to - wall.from).normalize_or_zero() * WALL_MM;
        let (from, to) = (wall.from - along, wall.to + along);
        Polygon::simple(vec![from, from + out, to + out, to]).ok().map(Outline::from)
    })
}

/// Other things at its heights, what is built into the floor, and the walls, as thick as keeps a move from ending in them.
fn in_its_way(case: &Case<'_>, index: usize) -> Vec<Outline> {
    let scene = case.scene;
    let Some(own) = scene.things.get(index) else { return Vec::new() };
    // By circles round them, so that it does not matter how the bay lies.
    let around = |outline: &Outline| {
        let corners = match outline {
            Outline::Circle(circle) => &[circle.centre()][..],
            Outline::Polygon(polygon) => polygon.outer(),
        };
        let middle = corners.iter().sum::<DVec2>() / corners.len() as f64;
        (middle, check::farthest_of(outline, middle))
    };
    let (middle, radius) = around(&own.prism.outline);
    let is_near = |other: &Outline| {
        let (there, its) = around(other);
        middle.distance(there) <= radius + its + AROUND_MM
    };
    let things = scene
        .things
        .iter()
        .enumerate()
        .filter(|(other, placed)| {
            // The middle is in the box, and no corner further from it than the box is long: most are out of the question by that.
            let most = radius + AROUND_MM + placed.bounds.size().length() * 1.5;
            *other != index
                && placed.bounds.centre().distance(middle) <= most
                && is_near(&placed.prism.outline)
                && placed.prism.span.shared(&own.prism.span).is_some()
        })
        .map(|(_, placed)| placed.prism.outline.clone());
    let reach = Bounds { low: middle, high: middle }.grown(radius + AROUND_MM);
    let built = case.built.iter().filter(|(solid, bounds)| {
        bounds.meets(&reach) && is_near(&solid.outline) && solid.span.shared(&own.prism.span).is_some()
    });
    things.chain(built.map(|(solid, _)| solid.outline.clone())).chain(case.walls.iter().cloned()).collect()
}

/// That a thing then stands beside a zone within its own uncertainty is not held against a move that could be no surer.
fn is_only_near(caused: &Finding) -> bool {
    caused.is_only_unsure()
}

/// The findings about one thing if it stood elsewhere.
fn after_move(case: &Case<'_>, index: usize, by: DVec2) -> Option<Vec<Finding>> {
    let context = Context::with_thing_moved(case.arrangement, case.scene, &case.claims, index, by)?;
    let mut findings = Vec::new();
    for check in check::ALL {
        (check.things)(&context, &mut findings);
    }
    Some(findings)
}

/// Whether a thing fits where it would go: inside the room and in no other thing, or at least no deeper in a wall or a thing
/// than it is entered now.
fn fits(case: &Case<'_>, index: usize, by: DVec2) -> bool {
    let scene = case.scene;
    let Some(placed) = scene.things.get(index) else { return false };
    let moved = placed.prism.moved(by);
    let bounds = placed.bounds.moved(by);
    let no_deeper = |then: f64, now: f64| then <= now + SPEAKS_FROM_MM;
    let past_walls = |outline: &Outline| {
        protrusions(scene.room.walls(), outline).first().map_or(0.0, |deepest| deepest.depth)
    };
    let (walls, now) = (past_walls(&moved.outline), past_walls(&placed.prism.outline));
    if walls > SPEAKS_FROM_MM && !no_deeper(walls, now) {
        return false;
    }
    // Nor is it carried through a wall on its way; an angled thing may stand round a corner at either end. Where no wall is
    // near, what ends inside the room is inside it all the way.
    let passes = passes_within(&placed.prism.outline, by);
    let is_by_a_wall = || scene.room.walls().edges().any(|wall| around(&wall).meets(&passes));
    if walls > SPEAKS_FROM_MM || is_by_a_wall() {
        let past = |way: Option<Outline>| way.map_or(0.0, |way| past_walls(&way));
        let on_the_way = past(way(&placed.prism.outline, by));
        let at_its_ends =
            || past(way(&placed.prism.outline, DVec2::ZERO)).max(past(way(&moved.outline, DVec2::ZERO)));
        if on_the_way > SPEAKS_FROM_MM && !no_deeper(on_the_way, at_its_ends()) {
            return false;
        }
    }
    let into = |solid: &Prism, other: &Prism| match clearance(solid, other) {
        Clearance::Intrudes(intrusion) => intrusion.depth,
        Clearance::Touching { .. } | Clearance::Clear { .. } => 0.0,
    };
    let fits_beside = |other: &Prism, around: Bounds| {
        if !around.meets(&bounds)
            || other.span.shared(&moved.span).is_none()
            || !overlaps(&other.outline, &moved.outline)
        {
            return true;
        }
        let now = into(&placed.prism, other);
        now > 0.0 && no_deeper(into(&moved, other), now)
    };
    let mut others = scene.things.iter().enumerate().filter(|(other, _)| *other != index);
    others.all(|(_, other)| fits_beside(&other.prism, other.bounds))
        && case.built.iter().all(|(solid, bounds)| fits_beside(solid, *bounds))
        && is_free_of_what_is_fixed(case, index, by)
}

/// Whether a thing is moved past nothing that stays: no fixed thing, no runway, no open pit lies on its straight way, but
/// what it is entered in already.
fn is_free_of_what_is_fixed(case: &Case<'_>, index: usize, by: DVec2) -> bool {
    let Some(placed) = case.scene.things.get(index) else { return false };
    let passes = passes_within(&placed.prism.outline, by);
    let is_near = |other: &Prism, bounds: &Bounds| {
        passes.meets(bounds) && other.span.shared(&placed.prism.span).is_some()
    };
    let things = case.arrangement.bay.things.iter().zip(&case.scene.things).enumerate();
    let fixed = things.filter(|(other, (thing, _))| *other != index && thing.effort == Effort::Fixed);
    let fixed = fixed.map(|(_, (_, other))| (&other.prism, &other.bounds));
    let built = case.built.iter().map(|(solid, bounds)| (solid, bounds));
    let mut near = fixed.chain(built).filter(|(other, bounds)| is_near(other, bounds)).peekable();
    if near.peek().is_none() {
        return true;
    }
    let Some(way) = way(&placed.prism.outline, by) else { return true };
    near.all(|(other, _)| {
        !overlaps_by(&other.outline, &way, SPEAKS_FROM_MM) || overlaps(&other.outline, &placed.prism.outline)
    })
}

/// A box around all that a thing passes over on a straight way: most others are out of the question by that.
fn passes_within(outline: &Outline, by: DVec2) -> Bounds {
    let from = match outline {
        Outline::Polygon(polygon) => polygon.bounds(),
        // Its polygon lies round it.
        Outline::Circle(circle) => circle.bounds().grown(SAGITTA_MM),
    };
    let to = from.moved(by);
    Bounds { low: from.low.min(to.low), high: from.high.max(to.high) }
}

/// The box around a wall.
fn around(wall: &Segment) -> Bounds {
    Bounds { low: wall.from.min(wall.to), high: wall.from.max(wall.to) }
}

/// What a thing passes over on a straight way: all that lies between where it stands and where it goes.
fn way(outline: &Outline, by: DVec2) -> Option<Outline> {
    let there = outline.moved(by);
    let corners = [outline, &there].into_iter().flat_map(|own| own.as_polygon().outer().to_vec());
    convex::hull(&corners.collect::<Vec<_>>()).map(Outline::from)
}

/// A move that is sure, past what the thing's place and where the car stands are uncertain by, with what is found then:
/// nothing that is not found after the shorter move. The same way further if that does; else the shortest that leaves all of it clear.
fn surely(
    case: &Case<'_>,
    index: usize,
    by: DVec2,
    care: bool,
    after: &[Finding],
) -> Option<(DVec2, Vec<Finding>)> {
    // What only needs care is out of a way of the room, or of the room to work in, that no parking changes.
    margins(case, index, by)?.filter(|margin| !(care && margin.with_car)).find_map(|margin| {
        let straight = rounded_up(by + by.normalize_or_zero() * margin.mm);
        // Nobody goes far out of the way for that.
        let farthest = (by.length() + margin.mm) * DETOUR;
        let tried =
            |by: DVec2| (by.length() <= farthest).then(|| margin.tried(case, index, by, after)).flatten();
        tried(straight).or_else(|| tried(margin.shortest(case, index)?))
    })
}

/// How far past what it clears a move goes.
struct Margin {
    mm: f64,
    /// Whether it reckons with a car that stands elsewhere.
    with_car: bool,
}

/// The margins that are worth trying for a thing that goes so far, the surest first. `None` if there is no such thing.
fn margins(case: &Case<'_>, index: usize, by: DVec2) -> Option<impl Iterator<Item = Margin>> {
    let placed = case.scene.things.get(index)?;
    let known = placed.known_mm;
    let with_car = super::margin(case, placed, by, case.arrangement.parked_known);
    let all = [Margin { mm: with_car, with_car: true }, Margin { mm: known, with_car: false }];
    Some(all.into_iter().filter(|margin| margin.mm > 0.0))
}

impl Margin {
    /// A move, with what is found of the thing then, if that is nothing unsure, and nothing that is not found without it.
    fn tried(
        &self,
        case: &Case<'_>,
        index: usize,
        by: DVec2,
        without: &[Finding],
    ) -> Option<(DVec2, Vec<Finding>)> {
        let left = after_move(case, index, by)?;
        // Whether the car stands where it is drawn is asked only of a move that reckons with it.
        let is_asked = |f: &Finding| self.with_car || f.code() != Code::CarPlace;
        let is_minded = |f: &Finding| super::may_be_in_the_way(f) && is_asked(f);
        let is_worse = caused(without, &left).iter().any(is_asked);
        let is_sure = !is_worse && !left.iter().any(is_minded) && fits(case, index, by);
        is_sure.then_some((by, left))
    }

    /// The shortest move after which the thing is clear of everything by as much.
    fn shortest(&self, case: &Case<'_>, index: usize) -> Option<DVec2> {
        let (thing, placed) = (case.arrangement.bay.things.get(index)?, case.scene.things.get(index)?);
        let regions = claim::in_the_way(&case.claims, thing);
        let regions: Vec<&Outline> = regions.iter().collect();
        let shortest =
            exits(&regions, &grown(&placed.prism.outline, self.mm, case.arrangement.parked.heading())?)
                .into_iter()
                .next();
        shortest.map(rounded_up)
    }
}

/// The same direction, whole millimetres, never shorter. A length within a thousandth of a whole millimetre is that.
fn rounded_up(by: DVec2) -> DVec2 {
    let length = by.length();
    let whole = (length / WHOLE_MM - 1e-3).ceil().max(1.0) * WHOLE_MM;
    // Plane directions off by rounding only are made straight, so that a tape can follow them.
    let unit = by.normalize_or_zero();
    let straight = DVec2::new(snapped(unit.x), snapped(unit.y));
    // A hair more than the exact length: what is only rounded must not still overlap.
    straight * whole.max(length)
}

fn snapped(share: f64) -> f64 {
    const STRAIGHT: f64 = 1e-9;
    if share.abs() < STRAIGHT {
        0.0
    } else if (share.abs() - 1.0).abs() < STRAIGHT {
        share.signum()
    } else {
        share
    }
}
