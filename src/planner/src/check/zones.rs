//! Things in keep-clear zones, and so near one that they may be inside.
//!
//! Rule: nothing that a zone excludes shares volume with it (touching is allowed). A thing whose distance to the zone
//! is less than the uncertainty of its own place may be inside: that needs care, and a tape.
//! Limit: the aiming's own zones.

use baywright_geometry::clearance::{Clearance, clearance};
use baywright_geometry::distance::{Separation, distance_to_segment};
use baywright_geometry::{Prism, Segment};

use super::{Context, SPEAKS_FROM_MM, Seen, finding, middle_of_both, thing_subject};
use crate::assessment::{Basis, Code, Facts, Finding, Quantity, Severity, Step, Subject};
use crate::model::{Exclusion, OpeningKind, Thing, ThingKind};
use crate::scene::PlacedZone;

/// Whether a zone excludes a thing: `None` if that cannot be judged.
pub(crate) fn excluded(excludes: Exclusion, thing: &Thing) -> Option<bool> {
    match excludes {
        Exclusion::Anything => Some(true),
        Exclusion::Metal => thing.material.is_metal(),
        Exclusion::Reflecting(_) => None,
        Exclusion::People => Some(thing.kind == ThingKind::Person),
        Exclusion::Light => Some(thing.kind == ThingKind::Lamp),
    }
}

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for zone in &context.scene.zones {
        for seen in context.things() {
            if seen.placed.bounds.meets(&zone.bounds.grown(seen.placed.known))
                && let Some(found) = thing_and_zone(context, zone, &seen)
            {
                findings.push(found);
            }
        }
        if !matches!(zone.excludes, Exclusion::People | Exclusion::Light) {
            let intruding = context
                .idle_runways()
                .filter_map(|(subject, prism)| runway_and_zone(context, zone, subject, &prism));
            findings.extend(intruding);
        }
        let over = zone.prism.span.top() - context.arrangement.bay.ceiling;
        if super::walls_bind(zone.excludes) && context.is_whole() && over > SPEAKS_FROM_MM {
            findings.push(ceiling(context, zone, over));
        }
        if zone.excludes == Exclusion::Light && context.is_whole() {
            findings.extend(windows(context, zone));
        }
    }
}

/// What is in a ceiling, and above it, the program is not told.
fn ceiling(context: &Context<'_>, zone: &PlacedZone, over: f64) -> Finding {
    finding(
        Code::ZoneUnjudged,
        Severity::Care,
        vec![Subject::Ceiling, Subject::Zone(zone.id.clone())],
        zone.bounds.centre().extend(context.arrangement.bay.ceiling),
        Basis::Procedure(context.arrangement.aiming.provenance.clone()),
    )
    .against(Quantity::Length(over), Quantity::Length(0.0))
    .knowing(Facts::Zone { excludes: zone.excludes, heights: None, area: 0.0 })
}

/// A window in a zone that excludes light: whether it matters depends on the day, so that it needs care.
fn windows(context: &Context<'_>, zone: &PlacedZone) -> Vec<Finding> {
    let bay = &context.arrangement.bay;
    let windows = bay.openings.iter().filter(|opening| opening.kind == OpeningKind::Window);
    windows
        .filter_map(|window| {
            let wall = bay.room.edges().nth(window.wall)?;
            let along = (wall.to - wall.from).normalize_or_zero();
            let start = wall.from + along * window.from;
            let pane = Segment::new(start, start + along * window.width);
            let heights = zone.prism.span.shared(&window.span)?;
            let in_plan = distance_to_segment(&zone.prism.outline, &pane) == Separation::Overlapping;
            in_plan.then(|| {
                let middle = (heights.bottom() + heights.top()) * 0.5;
                finding(
                    Code::ZoneUnjudged,
                    Severity::Care,
                    vec![Subject::Opening(window.id.clone()), Subject::Zone(zone.id.clone())],
                    pane.at(0.5).extend(middle),
                    Basis::Procedure(context.arrangement.aiming.provenance.clone()),
                )
                .knowing(Facts::Zone {
                    excludes: zone.excludes,
                    heights: Some(heights),
                    area: 0.0,
                })
            })
        })
        .collect()
}

/// A runway that carries no car is steel like any other.
fn runway_and_zone(
    context: &Context<'_>,
    zone: &PlacedZone,
    subject: Subject,
    prism: &Prism,
) -> Option<Finding> {
    let Clearance::Intrudes(intrusion) = clearance(&zone.prism, prism) else { return None };
    let heights = intrusion.heights;
    let here = middle_of_both(&prism.outline.bounds(), &zone.bounds);
    let (code, severity) = match zone.excludes {
        Exclusion::Reflecting(_) => (Code::ZoneUnjudged, Severity::Care),
        _ => (Code::ZoneObject, Severity::Stops),
    };
    (intrusion.depth >= SPEAKS_FROM_MM).then(|| {
        finding(
            code,
            severity,
            vec![subject, Subject::Zone(zone.id.clone())],
            here.extend((heights.bottom() + heights.top()) * 0.5),
            Basis::Procedure(context.arrangement.aiming.provenance.clone()),
        )
        .against(Quantity::Length(intrusion.depth), Quantity::Length(0.0))
        .knowing(Facts::Zone {
            excludes: zone.excludes,
            heights: Some(heights),
            area: intrusion.area,
        })
    })
}

fn thing_and_zone(context: &Context<'_>, zone: &PlacedZone, seen: &Seen<'_>) -> Option<Finding> {
    let judged = excluded(zone.excludes, seen.thing);
    if judged == Some(false) {
        return None;
    }
    let procedure = Basis::Procedure(context.arrangement.aiming.provenance.clone());
    let subjects = vec![thing_subject(&seen.thing.id), Subject::Zone(zone.id.clone())];
    let here = middle_of_both(&seen.placed.bounds, &zone.bounds);
    let (gap, nearest) = match clearance(&zone.prism, &seen.placed.prism) {
        Clearance::Intrudes(intrusion) => {
            if intrusion.depth < SPEAKS_FROM_MM {
                return None;
            }
            let (code, severity) = match judged {
                Some(_) => (Code::ZoneObject, Severity::Stops),
                None => (Code::ZoneUnjudged, Severity::Care),
            };
            let heights = intrusion.heights;
            let middle = (heights.bottom() + heights.top()) * 0.5;
            return Some(
                finding(code, severity, subjects, here.extend(middle), procedure)
                    .against(Quantity::Length(intrusion.depth), Quantity::Length(0.0))
                    .knowing(Facts::Zone {
                        excludes: zone.excludes,
                        heights: Some(heights),
                        area: intrusion.area,
                    }),
            );
        }
        Clearance::Touching { at } => (0.0, at),
        Clearance::Clear { gap, to, .. } => (gap, to),
    };
    let known = seen.placed.known;
    // A thing that fills its whole uncertainty exactly is clear of the zone.
    (gap < known - SPEAKS_FROM_MM).then(|| {
        finding(Code::ZoneNear, Severity::Care, subjects, nearest, Basis::AsEntered)
            .against(Quantity::Length(gap), Quantity::Length(known))
            .knowing(Facts::Zone { excludes: zone.excludes, heights: None, area: 0.0 })
            .cured_by(Step::Tape { thing: seen.thing.id.clone() })
    })
}
