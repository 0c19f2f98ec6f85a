//! Things in keep-clear zones.
//!
//! Rule: nothing that a zone excludes shares volume with it (touching is allowed; what may be inside is the check
//! `place_unsure`). Whether a thing is metal goes by what it holds, not by its face. Runways are steel, also those that carry
//! the car. What is in a ceiling or in a wall of unknown content, or comes through a window, a pane or wall of glass or mesh or an
//! open door in a zone or bounding it, cannot be judged; a ceiling in a zone clear of anything can. What reflects more than a level is judged as it
//! stands, by smooth ideal shapes; what may, turned otherwise, or of what nobody knows what it is made of, needs care.
//! Limit: the aiming's own zones.

mod room;

use baywright_geometry::Span;
use baywright_geometry::clearance::{Clearance, clearance};

use super::claim::{Bars, Claim, Volume, excluded, walls_bind};
use super::finding::{Basis, Code, Facts, Finding, Quantity, Severity, Subject};
use super::{Check, Context, Remedy, SPEAKS_FROM_MM, Seen, finding, middle_of_both, thing_subject};
use crate::echoes::reflects_more;
use crate::model::{Arrangement, Exclusion};
use crate::scene::{PlacedZone, Scene};
pub(super) use room::counts_flush;

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
    claims.extend(scene.zones.iter().map(|zone| {
        let (of, volume) = (Subject::Zone(zone.id.clone()), Volume::Prism(zone.prism.clone()));
        Claim { inside: walls_bind(zone.excludes), ..Claim::new(of, volume, Bars::Zone(zone.excludes)) }
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
        room::of_room(context, zone, findings);
    }
}

fn thing_and_zone(context: &Context<'_>, zone: &PlacedZone, seen: &Seen<'_>) -> Option<Finding> {
    let judged = match zone.excludes {
        Exclusion::Reflecting(level) => {
            let of = (&seen.placed.prism, seen.thing.material, seen.thing.metal_content());
            reflects_more(context.arrangement, context.scene, of, level)
        }
        excludes => excluded(excludes, seen.thing),
    };
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

    /// Plastic outside, steel inside: the zone that is to be clear of metal does not go by the skin of what is known to hold some.
    #[test]
    fn what_a_thing_is_tells_what_it_holds() {
        let of_kind = |kind: ThingKind, said: Option<Metal>| {
            let mut arrangement = with(vec![cabinet("thing", (7_000.0, 4_000.0), 300.0, 300.0)]);
            arrangement.aiming.zones[0].excludes = Exclusion::Metal;
            let own = &mut arrangement.bay.things[0];
            (own.kind, own.material, own.metal) = (kind, Material::Plastic, said);
            arrangement
        };
        for kind in ThingKind::ALL {
            let (code, severity) = match kind.metal() {
                // What a person carries nobody knows until it is told.
                _ if kind == ThingKind::Person => (Code::ZoneUnjudged, Severity::Care),
                Metal::All | Metal::Frame => (Code::ZoneObject, Severity::Stops),
                Metal::Unknown => (Code::ZoneUnjudged, Severity::Care),
                Metal::None => {
                    none(&of_kind(kind, None), Code::ZoneUnjudged);
                    continue;
                }
            };
            check(&of_kind(kind, None), code, severity, None);
            none(&of_kind(kind, Some(Metal::None)), code);
        }
    }

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

    /// Whoever is of flesh and blood is a person, whatever kind was chosen, and so is who was entered as one.
    #[test]
    fn a_person_is_one_by_kind_or_by_material() {
        for (kind, material) in [(ThingKind::Person, Material::Cloth), (ThingKind::Other, Material::Person)] {
            let mut person = cabinet("colleague", (8_000.0, 4_475.0), 500.0, 450.0);
            (person.kind, person.material) = (kind, material);
            let mut arrangement = with(vec![person]);
            arrangement.aiming.zones[0].excludes = Exclusion::People;
            let found = check(&arrangement, Code::ZoneObject, Severity::Stops, Some(250.0));
            let leaves = Step::TakeAway { thing: "colleague".into() };
            assert_eq!(found.cure.map(|cure| cure.step), Some(leaves));
        }
    }

    /// A wooden bench on a steel frame is metal; a face of steel is, whatever was said; plasterboard hides nobody knows what.
    #[test]
    fn metal_is_what_a_thing_holds_not_its_face() {
        let says = |material: Material, metal: Option<Metal>| {
            let mut bench = cabinet("bench", (8_000.0, 4_475.0), 900.0, 450.0);
            (bench.material, bench.metal) = (material, metal);
            let assessment = assess(&with(vec![bench]));
            (of(&assessment, Code::ZoneObject).len(), of(&assessment, Code::ZoneUnjudged).len())
        };
        assert_eq!(says(Material::Wood, None), (0, 0));
        assert_eq!(says(Material::Wood, Some(Metal::Frame)), (1, 0));
        assert_eq!(says(Material::Wood, Some(Metal::Unknown)), (0, 1));
        assert_eq!(says(Material::Steel, Some(Metal::None)), (1, 0));
        assert_eq!(says(Material::Plasterboard, None), (0, 1));
        assert_eq!(says(Material::Plasterboard, Some(Metal::None)), (0, 0));
        assert_eq!(says(Material::Unknown, None), (0, 1));
        assert_eq!(says(Material::Unknown, Some(Metal::None)), (0, 0));
    }

    /// A grate across the zone's edge, 200 mm inside: flush it needs care, proud it is a thing.
    #[test]
    fn steel_in_the_floor_of_a_zone() {
        let mut arrangement = clear();
        arrangement.bay.floor_features = vec![FloorFeature {
            id: "gully".into(),
            kind: FloorFeatureKind::Drain,
            outline: rectangle((6_000.0, 4_300.0), (6_800.0, 4_800.0)),
            material: Material::Steel,
            proud_mm: 0.0,
        }];
        let found = check(&arrangement, Code::ZoneUnjudged, Severity::Care, Some(200.0));
        assert_eq!(found.subjects[0], Subject::FloorFeature("gully".into()));
        arrangement.bay.floor_features[0].material = Material::Unknown;
        check(&arrangement, Code::ZoneUnjudged, Severity::Care, Some(200.0));
        arrangement.bay.floor_features[0].material = Material::Concrete;
        none(&arrangement, Code::ZoneUnjudged);
        arrangement.aiming.zones[0].excludes = Exclusion::Reflecting(10.0);
        none(&arrangement, Code::ZoneUnjudged);
        arrangement.bay.floor_features[0].material = Material::Steel;
        check(&arrangement, Code::ZoneUnjudged, Severity::Care, Some(200.0));
        arrangement.aiming.zones[0].excludes = Exclusion::Anything;
        none(&arrangement, Code::ZoneUnjudged);
        arrangement.aiming.zones[0].excludes = Exclusion::Metal;
        arrangement.aiming.zones[0].span = span(5.0, 1_500.0);
        none(&arrangement, Code::ZoneUnjudged);
        arrangement.bay.floor_features[0].proud_mm = 8.0;
        check(&arrangement, Code::ZoneObject, Severity::Stops, Some(200.0));
        arrangement.bay.floor_features[0].material = Material::Unknown;
        check(&arrangement, Code::ZoneUnjudged, Severity::Care, Some(200.0));
        arrangement.bay.floor_features[0].proud_mm = 5.0;
        none(&arrangement, Code::ZoneUnjudged);
    }

    /// An open pit is not flush.
    #[test]
    fn a_pit_in_a_zone_lies_open() {
        let mut arrangement = clear();
        arrangement.aiming.zones[0].excludes = Exclusion::Anything;
        let (id, kind, material) = ("pit".into(), FloorFeatureKind::Pit, Material::Concrete);
        let outline = rectangle((6_000.0, 4_300.0), (6_800.0, 4_800.0));
        arrangement.bay.floor_features = vec![FloorFeature { id, kind, outline, material, proud_mm: 0.0 }];
        let found = check(&arrangement, Code::ZoneUnjudged, Severity::Care, Some(200.0));
        let line = words::Words::new(&arrangement, words::Locale::default()).line(&found);
        assert!(line.starts_with("Pit lies open in the floor of the keep-clear zone"), "{line}");
        assert!(line.contains("It is open there; the zone is to be clear of anything"), "{line}");
    }

    /// Beside the zone by 30 mm a grate may lie inside it, as far as the walls' places, or the car's, are known.
    #[test]
    fn steel_in_the_floor_beside_a_zone() {
        let grate = |material: Material| {
            let mut arrangement = clear();
            let (id, kind) = ("gully".into(), FloorFeatureKind::Drain);
            let outline = rectangle((6_000.0, 4_530.0), (6_800.0, 4_800.0));
            arrangement.bay.floor_features =
                vec![FloorFeature { id, kind, outline, material, proud_mm: 0.0 }];
            arrangement
        };
        let mut arrangement = grate(Material::Steel);
        none(&arrangement, Code::ZoneNear);
        arrangement.bay.walls_known = Known::Within(50.0);
        let found = check(&arrangement, Code::ZoneNear, Severity::Care, Some(30.0));
        assert_eq!(found.subjects, [Subject::FloorFeature("gully".into()), Subject::Zone("beam".into())]);
        arrangement.bay.walls_known = Known::Within(30.0);
        none(&arrangement, Code::ZoneNear);
        arrangement.parked_known = ParkedKnown::Within { mm: 10.0, rad: 0.0 };
        check(&arrangement, Code::CarPlace, Severity::Care, Some(30.0));
        let mut concrete = grate(Material::Concrete);
        concrete.bay.walls_known = Known::Within(50.0);
        none(&concrete, Code::ZoneNear);
    }

    /// What is proud of the floor is in the way of the sight and of a tape like any other thing of that height.
    #[test]
    fn what_is_proud_of_the_floor_is_in_the_way() {
        let mut arrangement = clear();
        arrangement.aiming.zones.clear();
        // Half way the sight is 250 mm high about 500: a lip of 300 mm does not reach 375. Lower the target.
        arrangement.aiming.placements[0].height = TargetHeight::Absolute(260.0);
        let outline = rectangle((6_700.0, 2_000.0), (6_900.0, 5_000.0));
        arrangement.bay.floor_features = vec![FloorFeature {
            id: "lip".into(),
            kind: FloorFeatureKind::Joint,
            outline,
            material: Material::Concrete,
            proud_mm: 300.0,
        }];
        let found = check(&arrangement, Code::SightBlocked, Severity::Stops, None);
        assert_eq!(found.subjects[0], Subject::FloorFeature("lip".into()));
        assert!(!of(&assess(&arrangement), Code::RunBlocked).is_empty());
        arrangement.bay.floor_features[0].proud_mm = 20.0;
        none(&arrangement, Code::RunBlocked);
        none(&arrangement, Code::SightBlocked);
    }

    /// A zone that goes with one target keeps out another that stands at the same time, not one whose turn it is not.
    #[test]
    fn another_target_in_a_targets_zone() {
        let mut arrangement = clear();
        arrangement.aiming.mark_plan.clear();
        arrangement.aiming.placements[0].mark = None;
        let mut aside = arrangement.aiming.placements[0].clone();
        aside.id = "aside".into();
        aside.stand_off.aside_mm = 1_000.0;
        arrangement.aiming.placements.push(aside);
        arrangement.stands.push(StandSet::OnMark);
        let zone = &mut arrangement.aiming.zones[0];
        zone.frame = ZoneFrame::Target("ahead".into());
        zone.outline = rectangle((-400.0, -900.0), (400.0, 900.0)).into();
        none(&arrangement, Code::ZoneObject);
        arrangement.aiming.placements[0].with = Some(vec!["aside".into()]);
        // The other's feet reach 300 mm to either side of 1000 mm, 200 mm into the zone.
        let found = check(&arrangement, Code::ZoneObject, Severity::Stops, Some(200.0));
        assert_eq!(found.subjects, [Subject::Stand("aside".into()), Subject::Zone("beam".into())]);
        arrangement.aiming.placements[1].target.kind = TargetKind::Board;
        check(&arrangement, Code::ZoneUnjudged, Severity::Care, Some(200.0));
    }

    /// The zone ends at the far wall: brick it may touch, plasterboard and what is not known may hold steel.
    #[test]
    fn a_wall_that_bounds_a_zone_may_hold_metal() {
        let mut arrangement = parked_at(6_200.0);
        none(&arrangement, Code::ZoneUnjudged);
        for material in [Material::Plasterboard, Material::Unknown] {
            arrangement.bay.walls[1].material = material;
            let found = check(&arrangement, Code::ZoneUnjudged, Severity::Care, None);
            assert_eq!(found.subjects[0], Subject::Wall("far wall".into()));
        }
        // 10 mm from it: only if the walls are known to more than that.
        arrangement.parked = PlanPose::new(DVec2::new(6_190.0, 3_000.0), 0.0);
        none(&arrangement, Code::ZoneUnjudged);
        arrangement.bay.walls_known = Known::Taped;
        check(&arrangement, Code::ZoneUnjudged, Severity::Care, None);
        // A window of the whole wall stands there instead, and then a shut door of nobody knows what.
        arrangement.bay.walls_known = Known::Within(0.0);
        arrangement.parked = PlanPose::new(DVec2::new(6_200.0, 3_000.0), 0.0);
        arrangement.bay.openings = vec![Opening {
            id: "door".into(),
            kind: OpeningKind::SwingDoor,
            wall: 1,
            from_mm: 1_000.0,
            width_mm: 4_000.0,
            span: span(0.0, 2_000.0),
            material: Material::Glass,
            shut: true,
            free_beyond_mm: 0.0,
            is_exit: false,
        }];
        none(&arrangement, Code::ZoneUnjudged);
        arrangement.bay.openings[0].material = Material::Unknown;
        let found = check(&arrangement, Code::ZoneUnjudged, Severity::Care, None);
        assert_eq!(found.subjects[0], Subject::Opening("door".into()));
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

    /// The same wall, to which the zone reaches: what lets light in there needs care, a shut door of steel does not.
    #[test]
    fn light_through_what_bounds_a_zone() {
        let mut arrangement = parked_at(6_200.0);
        arrangement.aiming.zones[0].excludes = Exclusion::Light;
        arrangement.bay.openings = vec![Opening {
            id: "door".into(),
            kind: OpeningKind::RollerDoor,
            wall: 1,
            from_mm: 1_000.0,
            width_mm: 4_000.0,
            span: span(0.0, 2_800.0),
            material: Material::Steel,
            shut: true,
            free_beyond_mm: 0.0,
            is_exit: false,
        }];
        none(&arrangement, Code::ZoneUnjudged);
        let lets = |kind, material, shut| {
            let mut own = arrangement.clone();
            let door = &mut own.bay.openings[0];
            (door.kind, door.material, door.shut) = (kind, material, shut);
            check(&own, Code::ZoneUnjudged, Severity::Care, None)
        };
        lets(OpeningKind::RollerDoor, Material::Steel, false);
        lets(OpeningKind::Gap, Material::Unknown, false);
        lets(OpeningKind::Window, Material::Glass, true);
        let found = lets(OpeningKind::SwingDoor, Material::Glass, true);
        assert_eq!(found.subjects[0], Subject::Opening("door".into()));
        lets(OpeningKind::SwingDoor, Material::Mesh, true);
        lets(OpeningKind::SwingDoor, Material::Unknown, true);
        arrangement.bay.openings[0].shut = false;
        arrangement.parked = PlanPose::new(DVec2::new(6_199.0, 3_000.0), 0.0);
        none(&arrangement, Code::ZoneUnjudged);
        // A millimetre, if the walls are known to two, or if the car may stand two ahead.
        arrangement.bay.walls_known = Known::Within(2.0);
        check(&arrangement, Code::ZoneUnjudged, Severity::Care, None);
        arrangement.bay.walls_known = Known::Within(0.0);
        arrangement.parked_known = ParkedKnown::Within { mm: 2.0, rad: 0.0 };
        check(&arrangement, Code::ZoneUnjudged, Severity::Care, None);
    }

    /// A wall of glass is a window as large as the wall; one of brick with a window in it is told by its window.
    #[test]
    fn light_through_a_glass_wall() {
        let mut arrangement = parked_at(6_200.0);
        arrangement.aiming.zones[0].excludes = Exclusion::Light;
        none(&arrangement, Code::ZoneUnjudged);
        for material in [Material::Glass, Material::Mesh] {
            arrangement.bay.walls[1].material = material;
            let found = check(&arrangement, Code::ZoneUnjudged, Severity::Care, None);
            assert_eq!(found.subjects[0], Subject::Wall("far wall".into()));
        }
    }

    /// A ceiling 100 mm inside a zone is in it: where nothing may be, that stops; what it is made of is not known.
    #[test]
    fn a_ceiling_in_a_zone() {
        let mut arrangement = clear();
        arrangement.bay.ceiling_mm = 2_400.0;
        arrangement.aiming.zones[0].span = span(0.0, 2_500.0);
        check(&arrangement, Code::ZoneUnjudged, Severity::Care, Some(100.0));
        arrangement.aiming.zones[0].excludes = Exclusion::Anything;
        let found = check(&arrangement, Code::ZoneObject, Severity::Stops, Some(100.0));
        assert_eq!(found.subjects, [Subject::Ceiling, Subject::Zone("beam".into())]);
        arrangement.bay.ceiling_mm = 2_500.0;
        none(&arrangement, Code::ZoneObject);
    }

    /// The same runways when the car stands on the floor between them: steel in the way of the car, the zone, the sight.
    #[test]
    fn runways_that_carry_nothing_are_steel() {
        let runway = |low, high, top| Runway {
            id: "runway".into(),
            outline: rectangle(low, high),
            top_mm: top,
            survey: None,
        };
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
