//! People who may walk into a zone that is to be clear of them.
//!
//! Rule: no door and no gap through which a person fits opens into such a zone, or so near it that who comes in stands in it after
//! a step, shut or not: whoever opens it from the other side does not know what goes on. Nor does a way out that is to stay free
//! lead through it. What stands between door and zone is not asked: one walks round it; a wall of the room is. Of a zone that
//! runs out through a door that stands open, `outside_room` says so.
//! A door that is kept shut while this is aimed lets nobody in; `shut_door` tells that it is.
//! Limit: [`STEP_IN_MM`], common practice, no source, and as much more as the places of wall and car are uncertain by. It needs
//! care: a person is told, or kept out.

use baywright_geometry::clearance::{Clearance, clearance};
use baywright_geometry::distance::{Separation, distance, distance_to_segment};
use baywright_geometry::overlap::{overlap_region, overlaps};
use baywright_geometry::{DVec2, Outline, Polygon, Prism, Segment, Span, boolean, hull_grown};

use super::finding::{Basis, Code, Facts, Finding, Quantity, Severity, Step, Subject};
use super::{Check, Context, SPEAKS_FROM_MM, farthest_of, finding, middle_of_both, sway};
use crate::model::{Exclusion, KeepFreeKind, Opening, OpeningKind};
use crate::scene::PlacedZone;

/// So far into the room who comes in steps before looking round, and so far whoever stands by, mm (common practice, no source).
pub(crate) const STEP_IN_MM: f64 = 1_000.0;
/// Through what is narrower nobody walks, mm (common practice, no source).
const NARROWEST_MM: f64 = 400.0;
/// Nor through what is lower, mm (common practice, no source).
const LOWEST_MM: f64 = 1_000.0;
/// More than what the floor within reach of a door is drawn too large by round its corners, mm.
pub(super) const FURTHER_MM: f64 = 1.0;
/// As tall as a person is taken to be: 6 ft 8 in, mm.
pub(super) const PERSON_MM: f64 = 2_032.0;

pub(super) const CHECK: Check = Check { codes: &[Code::WalkIn], whole, ..Check::NONE };

fn whole(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let Ok(walking) = Span::new(0.0, PERSON_MM) else { return };
    let bay = &context.arrangement.bay;
    for zone in context.scene.zones.iter().filter(|zone| is_asked(zone)) {
        for door in bay.openings.iter().filter(|door| lets_people_in(context, door)) {
            let found = through(context, door, zone);
            let is_shut = door.shut && door.kind.is_door();
            findings.extend(match is_shut {
                true => found.map(|own| own.cured_by(Step::KeepShut { door: door.id.clone() })),
                false => found,
            });
        }
        for way in bay.keep_free.iter().filter(|way| way.kind == KeepFreeKind::Exit) {
            let of = Subject::KeepFree(way.id.clone());
            findings.extend(along(context, of, &Prism::new(way.outline.clone().into(), walking), zone));
        }
    }
}

/// Whether a person may come in by it while this is aimed.
fn lets_people_in(context: &Context<'_>, door: &Opening) -> bool {
    is_walked_through(context, door) && !is_kept_shut(context, door)
}

/// Whether a door is kept shut while this is aimed.
pub(super) fn is_kept_shut(context: &Context<'_>, door: &Opening) -> bool {
    door.shut && door.kind.is_door() && context.arrangement.kept_shut.contains(&door.id)
}

/// The zones that are to be clear of people and that a door lets them into, kept shut or not.
pub(super) fn zones_behind(context: &Context<'_>, door: &Opening) -> Vec<Subject> {
    if !is_walked_through(context, door) {
        return Vec::new();
    }
    let behind = context.scene.zones.iter().filter(|zone| is_asked(zone));
    let behind = behind.filter(|zone| through(context, door, zone).is_some());
    behind.map(|zone| Subject::Zone(zone.id.clone())).collect()
}

/// The floor on which somebody stands who came in by a door with a step; `None` if nobody gets in by it.
pub(super) fn floor_behind(context: &Context<'_>, door: &Opening) -> Option<Outline> {
    let bay = &context.arrangement.bay;
    let line = bay.opening_line(door).filter(|_| is_walked_through(context, door))?;
    stepped_in(&line, STEP_IN_MM, &bay.room)
}

/// Whether a zone is to be clear of people, where they walk.
fn is_asked(zone: &PlacedZone) -> bool {
    let walking = Span::new(0.0, PERSON_MM);
    zone.excludes == Exclusion::People && walking.is_ok_and(|own| zone.prism.span.shared(&own).is_some())
}

/// Whether a person gets in by it, over its sill and under its lintel.
fn is_walked_through(context: &Context<'_>, door: &Opening) -> bool {
    let shop = &context.arrangement.shop;
    door.kind != OpeningKind::Window
        && door.width_mm >= NARROWEST_MM
        && door.span.bottom() <= shop.step_over_mm
        && door.span.top() >= LOWEST_MM
}

/// How far what is uncertain of the car may bring a zone or a sight elsewhere, mm.
pub(super) fn sways(context: &Context<'_>, outline: &Outline) -> f64 {
    let arrangement = context.arrangement;
    sway(arrangement, farthest_of(outline, arrangement.parked.origin()))
}

fn through(context: &Context<'_>, door: &Opening, zone: &PlacedZone) -> Option<Finding> {
    let bay = &context.arrangement.bay;
    let line = bay.opening_line(door)?;
    if door.is_open() && zone.prism.span.shared(&door.span).is_some() && runs_out(&line, &zone.prism.outline)
    {
        return None;
    }
    let unsure = context.arrangement.shop.within(bay.walls_known) + sways(context, &zone.prism.outline);
    let (gap, at) = match distance_to_segment(&zone.prism.outline, &line) {
        Separation::Apart { gap, to, .. } => (gap, to),
        Separation::Touching { at } => (0.0, at),
        Separation::Overlapping => (0.0, line.at(0.5)),
    };
    // Most doors are out of the question by that: what lies round the other walls is dear.
    if gap > STEP_IN_MM + unsure + FURTHER_MM {
        return None;
    }
    let stepped = stepped_in(&line, STEP_IN_MM + unsure, &bay.room)?;
    if !overlaps(&stepped, &zone.prism.outline) {
        return None;
    }
    let wants = if gap < STEP_IN_MM { STEP_IN_MM } else { STEP_IN_MM + unsure };
    let found = told(Subject::Opening(door.id.clone()), zone, at);
    Some(found.against(Quantity::Length(gap), Quantity::Length(wants)))
}

/// Whether a zone lies on both sides of a door.
fn runs_out(line: &Segment, zone: &Outline) -> bool {
    let out = -(line.to - line.from).normalize_or_zero().perp();
    let far = out * STEP_IN_MM;
    let beyond = Polygon::simple(vec![line.from, line.from + far, line.to + far, line.to]);
    let pieces = beyond.map_or_else(|_| Vec::new(), |beyond| overlap_region(zone, &beyond.into()));
    let mut corners = pieces.iter().flat_map(|piece| piece.outer().iter());
    corners.any(|&p| (p - line.from).dot(out) > SPEAKS_FROM_MM)
}

/// The floor of the room that is within reach of a door, without what lies behind another wall.
fn stepped_in(line: &Segment, reach: f64, room: &Polygon) -> Option<Outline> {
    let along = (line.to - line.from).normalize_or_zero();
    let (aside, inward) = (along * reach, along.perp() * reach);
    // As thick as a wall's paint: a line alone has no hull.
    let thin = along.perp() * SPEAKS_FROM_MM;
    let round = hull_grown(&[line.from, line.to, line.to + thin, line.from + thin], reach)?;
    let inside = Polygon::simple(vec![
        line.from - aside,
        line.to + aside,
        line.to + aside + inward * 2.0,
        line.from - aside + inward * 2.0,
    ]);
    let half = boolean::intersection(&round, &inside.ok()?).into_iter().next()?;
    let pieces = boolean::intersection(&half, room).into_iter().map(Outline::from);
    let near = |piece: &Outline| distance_to_segment(piece, line).gap();
    pieces.min_by(|a, b| near(a).total_cmp(&near(b)))
}

/// A way out that is to stay free, and a zone across it.
fn along(context: &Context<'_>, of: Subject, way: &Prism, zone: &PlacedZone) -> Option<Finding> {
    if let Clearance::Intrudes(intrusion) = clearance(&zone.prism, way)
        && intrusion.depth > SPEAKS_FROM_MM
    {
        let at = middle_of_both(&way.outline.bounds(), &zone.bounds);
        let found = told(of, zone, at);
        return Some(found.against(Quantity::Length(intrusion.depth), Quantity::Length(0.0)));
    }
    let at = match distance(&way.outline, &zone.prism.outline) {
        Separation::Apart { gap, to, .. } if gap < sways(context, &zone.prism.outline) - SPEAKS_FROM_MM => to,
        Separation::Touching { at } if sways(context, &zone.prism.outline) > SPEAKS_FROM_MM => at,
        Separation::Apart { .. } | Separation::Touching { .. } | Separation::Overlapping => return None,
    };
    Some(told(of, zone, at))
}

fn told(of: Subject, zone: &PlacedZone, at: DVec2) -> Finding {
    let subjects = vec![of, Subject::Zone(zone.id.clone())];
    finding(Facts::WalkIn, Severity::Care, subjects, at.extend(0.0), Basis::CommonPractice)
}

#[cfg(test)]
mod tests {
    use crate::check::testing::*;

    /// A zone that ends 1500 mm left of the car's middle and is to be clear of people, and a door in the left wall.
    fn beside(y: f64) -> Arrangement {
        let mut arrangement = clear();
        arrangement.parked = PlanPose::new(DVec2::new(4_000.0, y), 0.0);
        arrangement.aiming.zones[0].excludes = Exclusion::People;
        arrangement.bay.openings = vec![side_door()];
        arrangement
    }

    #[test]
    fn a_door_into_a_zone_that_is_to_be_clear_of_people() {
        none(&beside(3_490.0), Code::WalkIn);
        let near = beside(3_700.0);
        let found = check(&near, Code::WalkIn, Severity::Care, Some(800.0));
        assert_eq!(found.limit, Some(Quantity::Length(1_000.0)));
        let title = words::Words::new(&near, words::Locale::default()).title(&found);
        assert_eq!(title, "Side door may let people in beside the keep-clear zone “beam”");
        // Into it.
        check(&beside(4_600.0), Code::WalkIn, Severity::Care, Some(0.0));
        for change in [
            |door: &mut Opening| door.kind = OpeningKind::Window,
            |door: &mut Opening| door.width_mm = 300.0,
            |door: &mut Opening| door.span = span(0.0, 900.0),
            |door: &mut Opening| door.span = span(300.0, 2_000.0),
        ] {
            let mut other = near.clone();
            change(&mut other.bay.openings[0]);
            none(&other, Code::WalkIn);
        }
        let mut metal = near;
        metal.aiming.zones[0].excludes = Exclusion::Metal;
        none(&metal, Code::WalkIn);
    }

    /// What is known of walls and car counts: 1010 mm are a step if the wall may stand 15 mm elsewhere.
    #[test]
    fn what_is_uncertain_counts() {
        let mut walls = beside(3_490.0);
        walls.bay.walls_known = Known::Within(15.0);
        let found = check(&walls, Code::WalkIn, Severity::Care, Some(1_010.0));
        assert_eq!(found.limit, Some(Quantity::Length(1_015.0)));
        let mut car = beside(3_490.0);
        car.parked_known = ParkedKnown::Within { mm: 15.0, rad: 0.0 };
        check(&car, Code::WalkIn, Severity::Care, Some(1_010.0));
    }

    /// A zone that runs out through an open gap is said once.
    #[test]
    fn a_zone_that_runs_out_is_said_once() {
        let mut arrangement = beside(4_600.0);
        arrangement.bay.openings[0].kind = OpeningKind::Gap;
        none(&arrangement, Code::WalkIn);
        check(&arrangement, Code::BeyondDoor, Severity::Care, Some(100.0));
        // One that only reaches it is not out there.
        arrangement.parked = PlanPose::new(DVec2::new(4_000.0, 4_500.0), 0.0);
        check(&arrangement, Code::WalkIn, Severity::Care, Some(0.0));
    }

    /// A room with a wall 100 mm thick between the door and the zone, which is 800 mm away.
    #[test]
    fn through_a_wall_nobody_steps() {
        let mut arrangement = beside(3_700.0);
        let corners = [
            (0.0, 0.0),
            (12_000.0, 0.0),
            (12_000.0, 6_000.0),
            (0.0, 6_000.0),
            (0.0, 5_500.0),
            (11_000.0, 5_500.0),
            (11_000.0, 5_400.0),
            (0.0, 5_400.0),
        ];
        arrangement.bay.room = Polygon::simple(corners.map(DVec2::from).to_vec()).unwrap();
        let wall = |i: usize| Wall { id: format!("wall {i}").as_str().into(), material: Material::Brick };
        arrangement.bay.walls = (0..8).map(wall).collect();
        none(&arrangement, Code::WalkIn);
    }

    /// Past the car's own left the zone reaches 1500 mm; a way out along it.
    #[test]
    fn a_way_out_through_a_zone() {
        let mut arrangement = beside(3_000.0);
        arrangement.bay.openings.clear();
        let way = |low: f64| KeepFree {
            id: "way out".into(),
            kind: KeepFreeKind::Exit,
            outline: rectangle((6_000.0, low), (12_000.0, 5_500.0)),
        };
        arrangement.bay.keep_free = vec![way(4_500.0)];
        none(&arrangement, Code::WalkIn);
        arrangement.bay.keep_free = vec![way(4_300.0)];
        let found = check(&arrangement, Code::WalkIn, Severity::Care, Some(200.0));
        let words = words::Words::new(&arrangement, words::Locale::default()).title(&found);
        assert_eq!(words, "Way out leads through the keep-clear zone “beam”");
        arrangement.bay.keep_free = vec![way(4_510.0)];
        arrangement.parked_known = ParkedKnown::Within { mm: 15.0, rad: 0.0 };
        check(&arrangement, Code::WalkIn, Severity::Care, None);
        arrangement.bay.keep_free[0].kind = KeepFreeKind::Panel;
        none(&arrangement, Code::WalkIn);
    }
}
