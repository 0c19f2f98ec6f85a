//! Things in keep-clear zones.
//!
//! Rule: nothing that a zone excludes shares volume with it (touching is allowed; what may be inside is the check
//! `place_unsure`). What is in a ceiling, or comes through a window, cannot be judged.
//! Limit: the aiming's own zones.

use baywright_geometry::clearance::{Clearance, clearance};
use baywright_geometry::distance::{Separation, distance_to_segment};
use baywright_geometry::{Prism, Segment, Span};

use super::claim::{Bars, Claim, MovesWith, Volume, excluded, walls_bind};
use super::finding::{Basis, Code, Facts, Finding, Quantity, Severity, Subject};
use super::{Check, Context, Remedy, SPEAKS_FROM_MM, Seen, finding, middle_of_both, thing_subject};
use crate::model::{Arrangement, Exclusion, OpeningKind};
use crate::scene::{PlacedZone, Scene};

pub(super) const CHECK: Check = Check {
    codes: &[Code::ZoneObject, Code::ZoneUnjudged],
    things,
    whole,
    claims,
    remedy,
    depths: &[Code::ZoneObject, Code::ZoneUnjudged],
};

/// What is known of something in a zone.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct InZone {
    /// What the zone excludes.
    pub excludes: Exclusion,
    /// The heights that zone and thing share, if they do.
    pub heights: Option<Span>,
    /// Shared area in plan, mm².
    pub area_mm2: f64,
}

fn remedy(finding: &Finding) -> Remedy {
    if finding.culprit().is_some() { Remedy::ThingOut } else { Remedy::None }
}

/// A zone bars what it excludes; one that keeps things out must lie inside the room.
fn claims(_: &Arrangement, scene: &Scene, claims: &mut Vec<Claim>) {
    claims.extend(scene.zones.iter().map(|zone| Claim {
        of: Subject::Zone(zone.id.clone()),
        volume: Volume::Prism(zone.prism.clone()),
        bars: Bars::Zone(zone.excludes),
        moves_with: MovesWith::Car,
        inside: walls_bind(zone.excludes),
        clears_car: true,
    }));
}

fn things(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for zone in &context.scene.zones {
        for seen in context.things() {
            if seen.placed.bounds.meets(&zone.bounds)
                && let Some(found) = thing_and_zone(context, zone, &seen)
            {
                findings.push(found);
            }
        }
    }
}

fn whole(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for zone in &context.scene.zones {
        if !matches!(zone.excludes, Exclusion::People | Exclusion::Light) {
            let intruding = context
                .idle_runways()
                .filter_map(|(subject, prism)| runway_and_zone(context, zone, subject, &prism));
            findings.extend(intruding);
        }
        let over = zone.prism.span.top() - context.arrangement.bay.ceiling_mm;
        if walls_bind(zone.excludes) && over > SPEAKS_FROM_MM {
            findings.push(ceiling(context, zone, over));
        }
        if zone.excludes == Exclusion::Light {
            findings.extend(windows(context, zone));
        }
    }
}

/// What is in a ceiling, and above it, the program is not told.
fn ceiling(context: &Context<'_>, zone: &PlacedZone, over: f64) -> Finding {
    finding(
        Facts::ZoneUnjudged(InZone { excludes: zone.excludes, heights: None, area_mm2: 0.0 }),
        Severity::Care,
        vec![Subject::Ceiling, Subject::Zone(zone.id.clone())],
        zone.bounds.centre().extend(context.arrangement.bay.ceiling_mm),
        Basis::Procedure(context.arrangement.aiming.provenance.clone()),
    )
    .against(Quantity::Length(over), Quantity::Length(0.0))
}

/// A window in a zone that excludes light: whether it matters depends on the day, so that it needs care.
fn windows(context: &Context<'_>, zone: &PlacedZone) -> Vec<Finding> {
    let bay = &context.arrangement.bay;
    let windows = bay.openings.iter().filter(|opening| opening.kind == OpeningKind::Window);
    windows
        .filter_map(|window| {
            let wall = bay.room.edges().nth(window.wall)?;
            let along = (wall.to - wall.from).normalize_or_zero();
            let start = wall.from + along * window.from_mm;
            let pane = Segment::new(start, start + along * window.width_mm);
            let heights = zone.prism.span.shared(&window.span)?;
            let in_plan = distance_to_segment(&zone.prism.outline, &pane) == Separation::Overlapping;
            in_plan.then(|| {
                let middle = (heights.bottom() + heights.top()) * 0.5;
                let facts = InZone { excludes: zone.excludes, heights: Some(heights), area_mm2: 0.0 };
                finding(
                    Facts::ZoneUnjudged(facts),
                    Severity::Care,
                    vec![Subject::Opening(window.id.clone()), Subject::Zone(zone.id.clone())],
                    pane.at(0.5).extend(middle),
                    Basis::Procedure(context.arrangement.aiming.provenance.clone()),
                )
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
    let facts = InZone { excludes: zone.excludes, heights: Some(heights), area_mm2: intrusion.area };
    let (facts, severity) = match zone.excludes {
        Exclusion::Reflecting(_) => (Facts::ZoneUnjudged(facts), Severity::Care),
        _ => (Facts::ZoneObject(facts), Severity::Stops),
    };
    (intrusion.depth >= SPEAKS_FROM_MM).then(|| {
        finding(
            facts,
            severity,
            vec![subject, Subject::Zone(zone.id.clone())],
            here.extend((heights.bottom() + heights.top()) * 0.5),
            Basis::Procedure(context.arrangement.aiming.provenance.clone()),
        )
        .against(Quantity::Length(intrusion.depth), Quantity::Length(0.0))
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
    let Clearance::Intrudes(intrusion) = clearance(&zone.prism, &seen.placed.prism) else { return None };
    let heights = intrusion.heights;
    let facts = InZone { excludes: zone.excludes, heights: Some(heights), area_mm2: intrusion.area };
    let (facts, severity) = match judged {
        Some(_) => (Facts::ZoneObject(facts), Severity::Stops),
        None => (Facts::ZoneUnjudged(facts), Severity::Care),
    };
    let middle = (heights.bottom() + heights.top()) * 0.5;
    (intrusion.depth >= SPEAKS_FROM_MM).then(|| {
        finding(facts, severity, subjects, here.extend(middle), procedure)
            .against(Quantity::Length(intrusion.depth), Quantity::Length(0.0))
    })
}

#[cfg(test)]
mod tests {
    use crate::check::testing::*;

    /// The zone's left edge lies at y = 3000 + 1500. A cabinet 450 deep whose near side is at 4250 is 250 mm inside.
    #[test]
    fn a_cabinet_250_mm_inside() {
        let arrangement = with(vec![cabinet("cabinet", (8_000.0, 4_475.0), 900.0, 450.0)]);
        let found = check(&arrangement, Code::ZoneObject, Severity::Stops, Some(250.0));
        assert_eq!(found.subjects, [Subject::Thing("cabinet".into()), Subject::Zone("beam".into())]);
        let Facts::ZoneObject(InZone { heights: Some(heights), area_mm2: area, .. }) = found.facts else {
            panic!()
        };
        assert_eq!((heights.bottom(), heights.top()), (0.0, 1000.0));
        assert!((area - 900.0 * 250.0).abs() < 1e-3, "{area}");
        assert_eq!(assess(&arrangement).verdict, Verdict::NotReady);
    }

    #[test]
    fn touching_a_zone_is_not_a_conflict() {
        none(&with(vec![cabinet("cabinet", (8_000.0, 4_725.0), 900.0, 450.0)]), Code::ZoneObject);
        none(&with(vec![cabinet("cabinet", (8_000.0, 4_725.0), 900.0, 450.0)]), Code::ZoneNear);
    }

    #[test]
    fn above_a_zone_is_not_inside() {
        let mut heater = cabinet("heater", (8_000.0, 3_000.0), 900.0, 450.0);
        heater.span = span(1500.0, 1900.0);
        none(&with(vec![heater.clone()]), Code::ZoneObject);
        heater.span = span(1499.0, 1900.0);
        check(&with(vec![heater]), Code::ZoneObject, Severity::Stops, None);
    }

    #[test]
    fn wood_may_stand_where_metal_may_not() {
        let mut bench = cabinet("bench", (8_000.0, 4_475.0), 900.0, 450.0);
        bench.material = Material::Wood;
        none(&with(vec![bench.clone()]), Code::ZoneObject);
        bench.material = Material::Unknown;
        check(&with(vec![bench.clone()]), Code::ZoneUnjudged, Severity::Care, Some(250.0));
        let mut arrangement = with(vec![bench]);
        arrangement.aiming.zones[0].excludes = Exclusion::Reflecting(-10.0);
        check(&arrangement, Code::ZoneUnjudged, Severity::Care, Some(250.0));
    }

    #[test]
    fn people_and_lamps_have_their_own_zones() {
        let mut person = cabinet("colleague", (8_000.0, 4_475.0), 500.0, 450.0);
        person.material = Material::Person;
        person.kind = ThingKind::Person;
        let mut arrangement = with(vec![person]);
        none(&arrangement, Code::ZoneObject);
        arrangement.aiming.zones[0].excludes = Exclusion::People;
        check(&arrangement, Code::ZoneObject, Severity::Stops, Some(250.0));
        arrangement.aiming.zones[0].excludes = Exclusion::Light;
        none(&arrangement, Code::ZoneObject);
        arrangement.bay.things[0].kind = ThingKind::Lamp;
        check(&arrangement, Code::ZoneObject, Severity::Stops, Some(250.0));
    }

    /// A window in the far wall, into which the zone reaches: daylight cannot be judged.
    #[test]
    fn a_window_in_a_light_zone_needs_care() {
        let mut arrangement = clear();
        arrangement.bay.openings = vec![Opening {
            id: "window".into(),
            kind: OpeningKind::Window,
            wall: 1,
            from_mm: 2_000.0,
            width_mm: 1_000.0,
            span: span(1_000.0, 2_000.0),
            material: Material::Glass,
            shut: true,
            free_beyond_mm: 0.0,
            is_exit: false,
        }];
        arrangement.aiming.zones[0].excludes = Exclusion::Light;
        none(&arrangement, Code::ZoneUnjudged);
        arrangement.aiming.zones[0].outline = rectangle((900.0, -1_500.0), (9_000.0, 1_500.0)).into();
        check(&arrangement, Code::ZoneUnjudged, Severity::Care, None);
        arrangement.bay.openings[0].span = span(1_500.0, 2_000.0);
        none(&arrangement, Code::ZoneUnjudged);
    }

    /// A column of 120 mm whose near side is 20 mm from the zone, placed by eye (± 50 mm).
    #[test]
    fn a_column_known_by_eye_may_be_inside() {
        let mut arrangement = with(vec![column("column", (8_000.0, 4_580.0), 120.0)]);
        none(&arrangement, Code::ZoneNear);
        arrangement.bay.things[0].place.known = Known::ByEye;
        let found = check(&arrangement, Code::ZoneNear, Severity::Care, Some(20.0));
        assert_eq!(number(found.limit.unwrap()), 50.0);
        arrangement.bay.things[0].place.known = Known::Taped;
        none(&arrangement, Code::ZoneNear);
    }

    /// 5 mm from the wall, which is known to 20 mm.
    #[test]
    fn a_zone_that_may_reach_into_the_wall() {
        let mut arrangement = parked_at(6_195.0);
        none(&arrangement, Code::ZoneNear);
        arrangement.bay.walls_known = Known::Taped;
        let found = check(&arrangement, Code::ZoneNear, Severity::Care, Some(5.0));
        assert_eq!(found.subjects[0], Subject::Wall("far wall".into()));
        arrangement.parked = PlanPose::new(DVec2::new(6_180.0, 3_000.0), 0.0);
        none(&arrangement, Code::ZoneNear);
    }

    /// The same runways when the car stands on the floor between them: steel in the way of the car, the zone, the sight.
    #[test]
    fn runways_that_carry_nothing_are_steel() {
        let runway =
            |low, high, top| Runway { id: "runway".into(), outline: rectangle(low, high), top_mm: top };
        let mut arrangement = clear();
        arrangement.bay.runways = vec![runway((5_500.0, 4_300.0), (7_000.0, 4_800.0), 400.0)];
        check(&arrangement, Code::ZoneObject, Severity::Stops, Some(200.0));
        arrangement.bay.runways = vec![runway((2_000.0, 3_890.0), (4_000.0, 4_400.0), 400.0)];
        check(&arrangement, Code::CarClash, Severity::Stops, Some(10.0));
        arrangement.bay.runways = vec![runway((6_799.999, 2_000.0), (6_800.001, 4_000.0), 500.0)];
        let hidden = check(&arrangement, Code::SightBlocked, Severity::Stops, None);
        assert!((number(hidden.measured.unwrap()) - 0.5).abs() < 1e-4);
    }
}
