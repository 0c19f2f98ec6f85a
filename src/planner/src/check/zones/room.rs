//! What the room itself does to a zone: its walls, ceiling and floor, what comes through an opening, runways that carry no
//! car; and what else of the set-up does. A child of the check whose rule it is.

use baywright_geometry::clearance::{Clearance, clearance};
use baywright_geometry::distance::{Separation, distance_to_segment};
use baywright_geometry::{DVec2, Prism, Segment, Span};

use super::super::claim::{excludes_part, walls_bind};
use super::super::finding::{Basis, Facts, Finding, Quantity, Severity, Subject};
use super::super::light::panes;
use super::super::{Context, SPEAKS_FROM_MM, farthest_of, finding, middle_of_both, sway};
use super::InZone;
use crate::echoes::reflects_more;
use crate::model::{Bay, Exclusion, FloorFeature, FloorFeatureKind, HeightsFrom, Material, Metal, ZoneFrame};
use crate::scene::PlacedZone;

/// All that the room does to one zone.
pub(super) fn of_room(context: &Context<'_>, zone: &PlacedZone, findings: &mut Vec<Finding>) {
    if zone.excludes == Exclusion::Metal {
        hidden_metal(context, zone, findings);
    }
    // A runway that carries no car is steel like any other.
    let steel = (Material::Steel, Metal::All);
    findings.extend(context.idle_runways().filter_map(|(subject, prism)| {
        let judged = judged(context, zone, &prism, steel)?;
        solid_and_zone(context, zone, subject, &prism, judged)
    }));
    // Of one that carries the car it needs care as long as the zone's heights are given from the floor: they were
    // written for a car that stands on it, and the plane under its wheels was no steel then; only the procedure can
    // say. A zone whose heights are given from the wheels' plane and that reaches below it means what it says.
    findings.extend(context.carrying_steel().filter_map(|(subject, prism)| {
        let judged = judged(context, zone, &prism, steel)?;
        let carries = match zone.heights_from {
            HeightsFrom::Floor => Judged::Unknown,
            HeightsFrom::Wheels => judged,
        };
        solid_and_zone(context, zone, subject, &prism, carries)
    }));
    for feature in &context.arrangement.bay.floor_features {
        findings.extend(feature_and_zone(context, zone, feature));
    }
    companions(context, zone, findings);
    let over = zone.prism.span.top() - context.arrangement.bay.ceiling_mm;
    if walls_bind(zone.excludes) && over > SPEAKS_FROM_MM {
        findings.push(ceiling(context, zone, over));
    }
    if zone.excludes == Exclusion::Light {
        lights(context, zone, findings);
    }
}

/// How a solid of the building, or of the set-up, counts in a zone; `None` if it may be there.
fn judged(
    context: &Context<'_>,
    zone: &PlacedZone,
    prism: &Prism,
    (material, metal): (Material, Metal),
) -> Option<Judged> {
    let excluded = match zone.excludes {
        Exclusion::Reflecting(level) => {
            reflects_more(context.arrangement, context.scene, (prism, material, metal), level)
        }
        excludes => excludes_part(excludes, metal),
    };
    match excluded {
        Some(true) => Some(Judged::Excluded),
        Some(false) => None,
        None => Some(Judged::Unknown),
    }
}

/// What is known of a part of the building in a zone.
#[derive(Clone, Copy)]
enum Judged {
    /// The zone excludes it.
    Excluded,
    /// Nobody knows whether it does.
    Unknown,
}

fn procedure(context: &Context<'_>) -> Basis {
    Basis::Procedure(context.arrangement.aiming.provenance.clone())
}

/// A solid of the building in a zone.
fn solid_and_zone(
    context: &Context<'_>,
    zone: &PlacedZone,
    subject: Subject,
    prism: &Prism,
    judged: Judged,
) -> Option<Finding> {
    let Clearance::Intrudes(intrusion) = clearance(&zone.prism, prism) else { return None };
    let heights = intrusion.heights;
    let here = middle_of_both(&prism.outline.bounds(), &zone.bounds);
    let facts = InZone { excludes: zone.excludes, heights: Some(heights), area_mm2: intrusion.area };
    let (facts, severity) = match judged {
        Judged::Unknown => (Facts::ZoneUnjudged(facts), Severity::Care),
        Judged::Excluded => (Facts::ZoneObject(facts), Severity::Stops),
    };
    (intrusion.depth >= SPEAKS_FROM_MM).then(|| {
        finding(
            facts,
            severity,
            vec![subject, Subject::Zone(zone.id.clone())],
            here.extend((heights.bottom() + heights.top()) * 0.5),
            procedure(context),
        )
        .against(Quantity::Length(intrusion.depth), Quantity::Length(0.0))
    })
}

/// Other targets that stand at the same time, in a zone that goes with one target: one finding each, with the deepest part.
fn companions(context: &Context<'_>, zone: &PlacedZone, findings: &mut Vec<Finding>) {
    let own = context.arrangement.aiming.zones.iter().find(|own| own.id == zone.id);
    let Some(ZoneFrame::Target(target)) = own.map(|own| &own.frame) else { return };
    for (placement, placed) in context.companions(target) {
        let made_of = (Material::Unknown, placement.target.kind.metal());
        let subject = Subject::Stand(placement.id.clone());
        let parts = placed.solids.iter();
        let found = parts.filter_map(|part| {
            solid_and_zone(context, zone, subject.clone(), part, judged(context, zone, part, made_of)?)
        });
        let depth = |found: &Finding| match found.measured {
            Some(Quantity::Length(mm)) => mm,
            _ => 0.0,
        };
        findings.extend(found.max_by(|a, b| depth(a).total_cmp(&depth(b))));
    }
}

/// A grate, a lip or a cover in the floor: proud of it, it is a thing of that height; flush with the floor of a zone, it
/// needs care if it is metal, or may be, since it is in the zone's lower face and sends a wave back like any other.
fn feature_and_zone(context: &Context<'_>, zone: &PlacedZone, feature: &FloorFeature) -> Option<Finding> {
    let subject = Subject::FloorFeature(feature.id.clone());
    if let Some(prism) = feature.solid() {
        let judged = judged(context, zone, &prism, (feature.material, feature.material.metal()))?;
        return solid_and_zone(context, zone, subject, &prism, judged);
    }
    if !counts_flush(zone, feature) {
        return None;
    }
    let flat = Span::new(0.0, 1.0).ok()?;
    let (over, own) =
        (Prism::new(zone.prism.outline.clone(), flat), Prism::new(feature.outline.clone().into(), flat));
    let Clearance::Intrudes(intrusion) = clearance(&over, &own) else { return None };
    let facts = InZone { excludes: zone.excludes, heights: None, area_mm2: intrusion.area };
    let found = finding(
        Facts::ZoneUnjudged(facts),
        Severity::Care,
        vec![subject, Subject::Zone(zone.id.clone())],
        middle_of_both(&feature.outline.bounds(), &zone.bounds).extend(0.0),
        procedure(context),
    );
    Some(found.against(Quantity::Length(intrusion.depth), Quantity::Length(0.0)))
}

/// Whether what lies flush in the floor, or is a hole in it, is asked about in a zone.
pub(in super::super) fn counts_flush(zone: &PlacedZone, feature: &FloorFeature) -> bool {
    // The floor itself, and what is of concrete in it, is no thing; a hole in what is to be empty floor is asked about.
    let is_floor = zone.excludes == Exclusion::Anything || feature.material.metal().counts() == Some(false);
    let is_hole = zone.excludes == Exclusion::Anything && feature.kind == FloorFeatureKind::Pit;
    let is_asked = excludes_part(zone.excludes, feature.material.metal()) != Some(false);
    feature.proud_mm <= 0.0
        && is_asked
        && (is_hole || !is_floor)
        && zone.prism.span.bottom() <= SPEAKS_FROM_MM
}

/// A wall, or what closes an opening in it, that bounds a zone without metal or may reach into it, and of which nobody knows
/// whether it holds metal: plasterboard hides studs, which may be steel.
fn hidden_metal(context: &Context<'_>, zone: &PlacedZone, findings: &mut Vec<Finding>) {
    let bay = &context.arrangement.bay;
    let known = context.arrangement.shop.within(bay.walls_known);
    let heights = &zone.prism.span;
    let walls = bay.walls.iter().enumerate().filter(|(_, wall)| wall.material.metal().counts().is_none());
    let walls = walls.flat_map(|(edge, wall)| {
        stretches(bay, edge, heights).into_iter().map(move |own| (Subject::Wall(wall.id.clone()), own))
    });
    let closed = bay.openings.iter().filter(|own| {
        !own.is_open() && own.material.metal().counts().is_none() && own.span.shared(heights).is_some()
    });
    let closed = closed.filter_map(|own| Some((Subject::Opening(own.id.clone()), bay.opening_line(own)?)));
    let mut told: Vec<(Subject, f64, DVec2)> = Vec::new();
    for (subject, line) in walls.chain(closed) {
        let (gap, at) = match distance_to_segment(&zone.prism.outline, &line) {
            Separation::Apart { gap, to, .. } => (gap, to),
            Separation::Touching { at } => (0.0, at),
            // Through it: the set-up is not in the room.
            Separation::Overlapping => continue,
        };
        if gap > 0.0 && gap >= known - SPEAKS_FROM_MM {
            continue;
        }
        match told.iter_mut().find(|(own, ..)| *own == subject) {
            Some((_, nearest, place)) if *nearest > gap => (*nearest, *place) = (gap, at),
            Some(_) => {}
            None => told.push((subject, gap, at)),
        }
    }
    let height = (heights.bottom() + heights.top()) * 0.5;
    findings.extend(told.into_iter().map(|(subject, _, at)| {
        let facts = InZone { excludes: zone.excludes, heights: None, area_mm2: 0.0 };
        let subjects = vec![subject, Subject::Zone(zone.id.clone())];
        finding(Facts::ZoneUnjudged(facts), Severity::Care, subjects, at.extend(height), procedure(context))
    }));
}

/// What is left of a wall beside the openings that reach over all these heights above the floor.
fn stretches(bay: &Bay, edge: usize, heights: &Span) -> Vec<Segment> {
    let Some((from, to)) = bay.wall_ends(edge) else { return Vec::new() };
    let along = (to - from).normalize_or_zero();
    let over_all = |own: &Span| own.bottom() <= heights.bottom().max(0.0) && heights.top() <= own.top();
    let openings = bay.openings.iter().filter(|own| own.wall == edge && over_all(&own.span));
    let mut gaps: Vec<(f64, f64)> = openings.map(|own| (own.from_mm, own.from_mm + own.width_mm)).collect();
    gaps.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut left = Vec::new();
    let mut start = 0.0;
    let length = from.distance(to);
    for (begins, ends) in gaps.into_iter().chain([(length, length)]) {
        if begins - start > SPEAKS_FROM_MM {
            left.push(Segment::new(from + along * start, from + along * begins));
        }
        start = f64::max(start, ends);
    }
    left
}

/// What is in a ceiling, and above it, the program is not told; that it is something, it knows.
fn ceiling(context: &Context<'_>, zone: &PlacedZone, over: f64) -> Finding {
    let facts = InZone { excludes: zone.excludes, heights: None, area_mm2: 0.0 };
    let (facts, severity) = match zone.excludes {
        Exclusion::Anything => (Facts::ZoneObject(facts), Severity::Stops),
        Exclusion::Metal | Exclusion::Reflecting(_) | Exclusion::People | Exclusion::Light => {
            (Facts::ZoneUnjudged(facts), Severity::Care)
        }
    };
    let place = zone.bounds.centre().extend(context.arrangement.bay.ceiling_mm);
    let subjects = vec![Subject::Ceiling, Subject::Zone(zone.id.clone())];
    finding(facts, severity, subjects, place, procedure(context))
        .against(Quantity::Length(over), Quantity::Length(0.0))
}

/// What lets daylight into a zone that excludes light, or bounds it, or may do so as far as the places of walls and car are
/// known: whether it matters depends on the day, so that it needs care. Heights are known as well as places are.
fn lights(context: &Context<'_>, zone: &PlacedZone, findings: &mut Vec<Finding>) {
    let arrangement = context.arrangement;
    let known = arrangement.shop.within(arrangement.bay.walls_known);
    let far = farthest_of(&zone.prism.outline, arrangement.parked.origin());
    let reach = known + sway(arrangement, far);
    let mut told: Vec<Subject> = Vec::new();
    for pane in panes(&arrangement.bay) {
        let up_and_down = Span::new(pane.span.bottom() - known, pane.span.top() + known).ok();
        let Some(heights) = up_and_down.and_then(|own| zone.prism.span.shared(&own)) else { continue };
        let is_near = match distance_to_segment(&zone.prism.outline, &pane.line) {
            Separation::Apart { gap, .. } => gap < reach - SPEAKS_FROM_MM,
            Separation::Touching { .. } | Separation::Overlapping => true,
        };
        if !is_near || told.contains(&pane.subject) {
            continue;
        }
        told.push(pane.subject.clone());
        let middle = (heights.bottom() + heights.top()) * 0.5;
        let facts = InZone { excludes: zone.excludes, heights: Some(heights), area_mm2: 0.0 };
        let subjects = vec![pane.subject, Subject::Zone(zone.id.clone())];
        let place = pane.line.at(0.5).extend(middle);
        findings.push(finding(
            Facts::ZoneUnjudged(facts),
            Severity::Care,
            subjects,
            place,
            procedure(context),
        ));
    }
}
