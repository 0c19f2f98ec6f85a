//! People who stand beside what is to be clear of them, or in a camera's picture.
//!
//! Rule: nobody stands within a step of a keep-clear zone that excludes them, nor of what lies between the sensor and a target,
//! nor in the picture of a camera that looks at an upright board, beside the board or behind it: people move, and whoever is not
//! asked to keep away may step in while it is aimed. A wall of the room between them is asked, things are not: one walks round
//! those. Of who is in a zone already `zones` says so, of who hides a target `sight`, and nothing is said here. Of each it is one,
//! since one act settles all: the picture that they are in, else the zone, else the sight.
//! Limit: the step of who comes in by a door ([`STEP_IN_MM`], common practice, no source) and as much more as the places of
//! person and car are uncertain by; the camera's field of view in the profile, grown by the same. It needs care: they leave.

use baywright_geometry::clearance::{Clearance, clearance};
use baywright_geometry::distance::{Separation, distance};
use baywright_geometry::overlap::overlaps;
use baywright_geometry::sight::sight_shadow_plan;
use baywright_geometry::{DVec2, Outline, Span, boolean, hull_grown};

use super::claim::{Bars, Claim, Volume, anywhere, excluded};
use super::finding::{Basis, Code, Facts, Finding, Quantity, Severity, Subject};
use super::walk_in::{PERSON_MM, STEP_IN_MM, sways};
use super::{
    Check, Context, Remedy, SPEAKS_FROM_MM, Seen, farthest_of, finding, middle_of_both, picture, sight, sway,
    thing_subject,
};
use crate::model::{Arrangement, Exclusion};
use crate::scene::{PlacedTarget, PlacedZone, Scene};

pub(super) const CHECK: Check =
    Check { codes: &[Code::PersonNear], things, claims, remedy: |_| Remedy::ThingOut, ..Check::NONE };

/// Whether a zone lies where a person who walks on the floor reaches it.
fn is_walked(zone: &PlacedZone) -> bool {
    Span::new(0.0, PERSON_MM).is_ok_and(|walking| zone.prism.span.shared(&walking).is_some())
}

/// A step round each zone that may exclude a person and round the sight of each target, and a camera's picture. All keep out
/// people only.
fn claims(arrangement: &Arrangement, scene: &Scene, claims: &mut Vec<Claim>) {
    let Some(span) = anywhere() else { return };
    let excludes_people =
        |zone: &&PlacedZone| !matches!(zone.excludes, Exclusion::Light | Exclusion::Reflecting(_));
    for zone in scene.zones.iter().filter(excludes_people).filter(|zone| is_walked(zone)) {
        let of = zone.prism.outline.as_polygon().outer().to_vec();
        let volume = Volume::Within { of, reach_mm: STEP_IN_MM, span };
        claims.push(Claim::new(Subject::Zone(zone.id.clone()), volume, Bars::Person(zone.excludes)));
    }
    for target in &scene.targets {
        if let Some(between) = before(scene, target) {
            let of = between.as_polygon().outer().to_vec();
            let volume = Volume::Within { of, reach_mm: STEP_IN_MM, span };
            claims.push(Claim::new(
                Subject::Target(target.id.clone()),
                volume,
                Bars::Person(Exclusion::People),
            ));
        }
    }
    let picture = picture::volume(arrangement, scene);
    claims.extend(picture.map(|own| Claim::new(Subject::Sensor, own, Bars::Person(Exclusion::People))));
}

fn things(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for seen in context.things().filter(|seen| seen.thing.is_person()) {
        // Who is to step out of one is out of the others: what is so is told before what may be.
        let (is_in, may_be_in) = match in_a_picture(context, &seen) {
            Some(own) if own.measured.is_none() => (Some(own), None),
            other => (None, other),
        };
        let found = is_in.or_else(|| beside_a_zone(context, &seen)).or(may_be_in);
        findings.extend(found.or_else(|| {
            let is_told = is_in_a_zone(context, &seen);
            (!is_told).then(|| beside_a_sight(context, &seen)).flatten()
        }));
    }
}

/// Where somebody stands between the sensor and a target, from above; `None` if its figures make no face, or all of it is
/// higher than people are.
fn before(scene: &Scene, target: &PlacedTarget) -> Option<Outline> {
    let walking = Span::new(0.0, PERSON_MM).ok()?;
    sight_shadow_plan(scene.sensor(), target.face.as_ref()?, &walking).map(Outline::from)
}

/// The zones that are to be clear of who stands there.
fn asked<'a>(context: &'a Context<'_>, seen: &'a Seen<'_>) -> impl Iterator<Item = &'a PlacedZone> {
    let zones = context.scene.zones.iter();
    zones.filter(|own| is_walked(own) && excluded(own.excludes, seen.thing) == Some(true))
}

fn is_in_a_zone(context: &Context<'_>, seen: &Seen<'_>) -> bool {
    asked(context, seen).any(|zone| {
        matches!(clearance(&zone.prism, &seen.placed.prism),
            Clearance::Intrudes(own) if own.depth >= SPEAKS_FROM_MM)
    })
}

/// The target whose sight somebody is nearest to, within a step of it; none for one that they hide.
fn beside_a_sight(context: &Context<'_>, seen: &Seen<'_>) -> Option<Finding> {
    let sensor = context.scene.sensor();
    let near = context.scene.targets.iter().filter_map(|target| {
        let between = before(context.scene, target)?;
        if sight::is_hidden_by(sensor, target, &seen.placed.prism) {
            return None;
        }
        let unsure = seen.placed.known_mm + sways(context, &between);
        let (gap, at) = within_a_step(context, seen, &between, unsure)?;
        Some((gap, at, unsure, &target.id))
    });
    let whole = |gap: f64| (gap / SPEAKS_FROM_MM).round();
    let (gap, at, unsure, target) =
        near.min_by(|a, b| whole(a.0).total_cmp(&whole(b.0)).then_with(|| a.3.cmp(b.3)))?;
    Some(told(seen, Subject::Target(target.clone()), at).against(Quantity::Length(gap), wants(gap, unsure)))
}

/// How far who stands there is from an outline, and where, if that is within a step and what is unsure of both places.
fn within_a_step(
    context: &Context<'_>,
    seen: &Seen<'_>,
    outline: &Outline,
    unsure: f64,
) -> Option<(f64, DVec2)> {
    let own = &seen.placed.prism.outline;
    let reach = STEP_IN_MM + unsure;
    // Most is out of the question by that.
    if !seen.placed.bounds.grown(reach).meets(&outline.bounds()) {
        return None;
    }
    let (gap, at) = match distance(own, outline) {
        Separation::Apart { gap, to, .. } => (gap, to),
        Separation::Touching { at } => (0.0, at),
        Separation::Overlapping => (0.0, seen.placed.bounds.centre()),
    };
    (gap < reach && is_stepped_into(own, reach, outline, context)).then_some((gap, at))
}

/// What is wanted where that is missing: a step, and as much more as is unsure where a step alone is there.
const fn wants(gap: f64, unsure: f64) -> Quantity {
    Quantity::Length(if gap < STEP_IN_MM { STEP_IN_MM } else { STEP_IN_MM + unsure })
}

/// The zone that who stands there is nearest to, within a step of it; none if one is stood in.
fn beside_a_zone(context: &Context<'_>, seen: &Seen<'_>) -> Option<Finding> {
    if is_in_a_zone(context, seen) {
        return None;
    }
    let near = asked(context, seen).filter_map(|zone| {
        let unsure = seen.placed.known_mm + sways(context, &zone.prism.outline);
        let (gap, at) = within_a_step(context, seen, &zone.prism.outline, unsure)?;
        Some((gap, at, unsure, zone))
    });
    // Of zones as near as each other rounding and order do not choose.
    let whole = |gap: f64| (gap / SPEAKS_FROM_MM).round();
    let (gap, at, unsure, zone) =
        near.min_by(|a, b| whole(a.0).total_cmp(&whole(b.0)).then_with(|| a.3.id.cmp(&b.3.id)))?;
    Some(told(seen, Subject::Zone(zone.id.clone()), at).against(Quantity::Length(gap), wants(gap, unsure)))
}

/// Whether what is within reach of somebody, with no wall of the room between, is in an outline.
fn is_stepped_into(from: &Outline, reach: f64, outline: &Outline, context: &Context<'_>) -> bool {
    let Some(round) = hull_grown(from.as_polygon().outer(), reach) else { return true };
    let pieces = boolean::intersection(&round, &context.arrangement.bay.room);
    let own: Vec<Outline> = pieces.into_iter().map(Outline::from).filter(|own| overlaps(own, from)).collect();
    // Who is drawn outside of the room may stand anywhere beside it.
    own.is_empty() || own.iter().any(|piece| overlaps(piece, outline))
}

/// Who stands in a camera's picture, or may.
fn in_a_picture(context: &Context<'_>, seen: &Seen<'_>) -> Option<Finding> {
    let is_picture = |claim: &&Claim| matches!(claim.bars, Bars::Person(_)) && claim.of == Subject::Sensor;
    let picture = context.claims().iter().find(is_picture)?;
    let own = &seen.placed.prism;
    let axle = context.arrangement.parked.origin();
    let unsure = seen.placed.known_mm + sway(context.arrangement, farthest_of(&own.outline, axle));
    if !seen.placed.bounds.grown(unsure).meets(&picture.around) {
        return None;
    }
    let region = picture.volume.at(&own.span)?;
    let at = middle_of_both(&seen.placed.bounds, &picture.around);
    let found = told(seen, Subject::Sensor, at);
    match distance(&region, &own.outline) {
        Separation::Overlapping => Some(found),
        Separation::Apart { gap, .. } if gap < unsure - SPEAKS_FROM_MM => {
            Some(found.against(Quantity::Length(gap), Quantity::Length(unsure)))
        }
        Separation::Touching { .. } if unsure > SPEAKS_FROM_MM => {
            Some(found.against(Quantity::Length(0.0), Quantity::Length(unsure)))
        }
        Separation::Apart { .. } | Separation::Touching { .. } => None,
    }
}

fn told(seen: &Seen<'_>, of: Subject, at: DVec2) -> Finding {
    let subjects = vec![thing_subject(&seen.thing.id), of];
    let height = (seen.placed.prism.span.bottom() + seen.placed.prism.span.top()) * 0.5;
    finding(Facts::PersonNear, Severity::Care, subjects, at.extend(height), Basis::CommonPractice)
}

#[cfg(test)]
mod tests {
    use crate::check::testing::*;

    /// A zone from y = 1500 to y = 4500 that is to be clear of people, and somebody 400 mm across beside it, in its length.
    fn beside(gap: f64) -> Arrangement {
        let mut arrangement = clear();
        arrangement.bay.room = rectangle((0.0, 0.0), (12_000.0, 9_000.0));
        arrangement.aiming.zones[0].excludes = Exclusion::People;
        let mut person = cabinet("colleague", (7_000.0, 4_500.0 + gap + 200.0), 400.0, 400.0);
        (person.kind, person.material) = (ThingKind::Person, Material::Person);
        person.place.known = Known::Within(0.0);
        arrangement.bay.things = vec![person];
        arrangement
    }

    #[test]
    fn somebody_a_step_from_a_zone() {
        let near = beside(600.0);
        let found = check(&near, Code::PersonNear, Severity::Care, Some(600.0));
        assert_eq!(found.limit, Some(Quantity::Length(1_000.0)));
        assert_eq!(found.subjects, [Subject::Thing("colleague".into()), Subject::Zone("beam".into())]);
        let words = words::Words::new(&near, words::Locale::default());
        let line = words.line(&found).replace('\u{202f}', " ");
        assert_eq!(
            line,
            "Colleague may step into the keep-clear zone “beam”: 600 mm from it, wants 1 000 mm. People move: ask them to keep \
             away while it is aimed."
        );
        assert_eq!(words.cure(&found).as_deref(), Some("Ask the colleague to step out."));
        let away = crate::cure::apply(&near, &found.cure.unwrap().step);
        none(&away, Code::PersonNear);
        check(&beside(999.0), Code::PersonNear, Severity::Care, Some(999.0));
        check(&beside(0.0), Code::PersonNear, Severity::Care, Some(0.0));
        none(&beside(1_001.0), Code::PersonNear);
        // In it that is said, and not that they may come.
        check(&beside(-100.0), Code::ZoneObject, Severity::Stops, Some(100.0));
        none(&beside(-100.0), Code::PersonNear);
    }

    /// Somebody 400 mm across beside the sight of a lidar, with no zone near: 400 mm short of the face at x = 8800, where the sight,
    /// 4000 mm long, is 225 mm wide on each side and its edge runs 250 mm aside in 4000.
    fn beside_the_sight(gap: f64) -> Arrangement {
        let mut arrangement = beside(0.0);
        arrangement.sensor.kind = SensorKind::Lidar;
        arrangement.aiming.zones.clear();
        arrangement.aiming.names_no_zone = true;
        let cos = 4_000.0 / libm::hypot(4_000.0, 250.0);
        let corner = 250.0 * 3_800.0 / 4_000.0 + gap / cos;
        let place = DVec2::new(8_800.0 - 200.0 - 200.0, 3_000.0 + corner + 200.0);
        arrangement.bay.things[0].place.at = PlanPose::new(place, 0.0);
        arrangement
    }

    #[test]
    fn somebody_beside_the_line_of_sight() {
        let near = beside_the_sight(600.0);
        let found = check(&near, Code::PersonNear, Severity::Care, Some(600.0));
        assert_eq!(found.subjects, [Subject::Thing("colleague".into()), Subject::Target("ahead".into())]);
        assert_eq!(found.limit, Some(Quantity::Length(1_000.0)));
        let words = words::Words::new(&near, words::Locale::default());
        assert_eq!(words.title(&found), "Colleague may step into the line of sight to the plate");
        assert_eq!(words.cure(&found).as_deref(), Some("Ask the colleague to step out."));
        none(&crate::cure::apply(&near, &found.cure.unwrap().step), Code::PersonNear);
        none(&beside_the_sight(1_001.0), Code::PersonNear);
        check(&beside_the_sight(0.0), Code::PersonNear, Severity::Care, Some(0.0));
        // Who hides the target is told as that.
        check(&beside_the_sight(-50.0), Code::SightBlocked, Severity::Stops, None);
        none(&beside_the_sight(-50.0), Code::PersonNear);
        // Nobody else walks, and what is uncertain counts.
        let mut cabinet = near;
        (cabinet.bay.things[0].kind, cabinet.bay.things[0].material) = (ThingKind::Cabinet, Material::Steel);
        none(&cabinet, Code::PersonNear);
        let mut unsure = beside_the_sight(1_010.0);
        none(&unsure, Code::PersonNear);
        unsure.bay.things[0].place.known = Known::Within(15.0);
        let found = check(&unsure, Code::PersonNear, Severity::Care, Some(1_010.0));
        assert_eq!(found.limit, Some(Quantity::Length(1_015.0)));
    }

    /// Of zone and sight it is the zone that is told, once; and a radar's sight is asked as a lidar's is.
    #[test]
    fn one_step_out_is_told_once() {
        let mut both = beside_the_sight(600.0);
        both.sensor.kind = clear().sensor.kind;
        check(&both, Code::PersonNear, Severity::Care, Some(600.0));
        both.aiming.zones = beside(0.0).aiming.zones;
        both.aiming.zones[0].outline = rectangle((800.0, -500.0), (5_000.0, 500.0)).into();
        let found = check(&both, Code::PersonNear, Severity::Care, None);
        assert_eq!(found.subjects[1], Subject::Zone("beam".into()));
    }

    /// Of two zones that end in one line it is the first by name, however they are listed.
    #[test]
    fn zones_as_near_are_told_by_name() {
        let mut near = beside(600.0);
        let mut other = near.aiming.zones[0].clone();
        other.id = "area".into();
        near.aiming.zones.push(other);
        for _ in 0..2 {
            let found = check(&near, Code::PersonNear, Severity::Care, Some(600.0));
            assert_eq!(found.subjects[1], Subject::Zone("area".into()));
            near.aiming.zones.reverse();
        }
    }

    /// By kind or by what it is made of; of a zone that is to be clear of anything too. Nobody else moves by themselves, and a
    /// zone that people may be in asks nothing of them.
    #[test]
    fn who_is_a_person_and_what_keeps_them_out() {
        let mut by_material = beside(600.0);
        by_material.bay.things[0].kind = ThingKind::Other;
        let found = check(&by_material, Code::PersonNear, Severity::Care, Some(600.0));
        let words = words::Words::new(&by_material, words::Locale::default());
        assert_eq!(words.cure(&found).as_deref(), Some("Ask the colleague to step out."));
        let mut by_kind = beside(600.0);
        by_kind.bay.things[0].material = Material::Unknown;
        check(&by_kind, Code::PersonNear, Severity::Care, Some(600.0));
        by_kind.bay.things[0].kind = ThingKind::Trolley;
        none(&by_kind, Code::PersonNear);
        for (excludes, is_asked) in [
            (Exclusion::Anything, true),
            (Exclusion::Metal, false),
            (Exclusion::Light, false),
            (Exclusion::Reflecting(0.0), false),
        ] {
            let mut own = beside(600.0);
            own.aiming.zones[0].excludes = excludes;
            let found = assess(&own).findings.iter().any(|f| f.code() == Code::PersonNear);
            assert_eq!(found, is_asked, "{excludes:?}");
        }
        let mut high = beside(600.0);
        high.aiming.zones[0].span = span(2_100.0, 2_500.0);
        none(&high, Code::PersonNear);
    }

    #[test]
    fn what_is_uncertain_counts() {
        let mut person = beside(1_010.0);
        none(&person, Code::PersonNear);
        person.bay.things[0].place.known = Known::Within(15.0);
        let found = check(&person, Code::PersonNear, Severity::Care, Some(1_010.0));
        assert_eq!(found.limit, Some(Quantity::Length(1_015.0)));
        let mut car = beside(1_010.0);
        car.parked_known = ParkedKnown::Within { mm: 15.0, rad: 0.0 };
        check(&car, Code::PersonNear, Severity::Care, Some(1_010.0));
        // So near that nobody knows whether they are in it: they leave, and nothing is taped.
        let mut near = beside(10.0);
        near.bay.things[0].place.known = Known::Within(15.0);
        let found = check(&near, Code::ZoneNear, Severity::Care, Some(10.0));
        assert_eq!(found.cure.map(|cure| cure.step), Some(Step::TakeAway { thing: "colleague".into() }));
    }

    /// A wall 100 mm thick between the two, which are 600 mm apart.
    #[test]
    fn through_a_wall_nobody_steps() {
        let mut arrangement = beside(600.0);
        let corners = [
            (0.0, 0.0),
            (12_000.0, 0.0),
            (12_000.0, 9_000.0),
            (0.0, 9_000.0),
            (0.0, 4_900.0),
            (11_000.0, 4_900.0),
            (11_000.0, 4_800.0),
            (0.0, 4_800.0),
        ];
        arrangement.bay.room = Polygon::simple(corners.map(DVec2::from).to_vec()).unwrap();
        let wall = |i: usize| Wall { id: format!("wall {i}").as_str().into(), material: Material::Brick };
        arrangement.bay.walls = (0..8).map(wall).collect();
        none(&arrangement, Code::PersonNear);
    }

    /// A camera 800 mm ahead of the axle at (4000, 3000) with a picture of 60° by 40°: 4000 mm ahead it reaches
    /// 4000 · tan 30° = 2309.4 mm aside.
    fn seen(at: (f64, f64)) -> Arrangement {
        let mut arrangement = beside(0.0);
        arrangement.aiming.zones.clear();
        arrangement.aiming.placements[0].target.kind = TargetKind::Board;
        arrangement.sensor.kind = SensorKind::ForwardCamera(Camera { pixels_across: 1280, pixels_down: 960 });
        arrangement.sensor.at.z = 1_200.0;
        arrangement.sensor.view.azimuth_half_rad = angle::radians(30.0);
        arrangement.sensor.view.elevation_half_rad = angle::radians(20.0);
        arrangement.bay.things[0].place.at = PlanPose::new(at.into(), 0.0);
        arrangement
    }

    #[test]
    fn somebody_in_a_picture() {
        let beside = seen((8_800.0, 5_000.0));
        let found = check(&beside, Code::PersonNear, Severity::Care, None);
        assert_eq!(found.subjects, [Subject::Thing("colleague".into()), Subject::Sensor]);
        assert_eq!(found.cure.map(|cure| cure.step), Some(Step::TakeAway { thing: "colleague".into() }));
        // Behind the board.
        check(&seen((11_000.0, 3_000.0)), Code::PersonNear, Severity::Care, None);
        // Behind the lens, and aside of the picture.
        for at in [(2_000.0, 5_000.0), (7_000.0, 5_000.0)] {
            none(&seen(at), Code::PersonNear);
        }
        let mut radar = seen((8_800.0, 5_000.0));
        radar.sensor.kind = clear().sensor.kind;
        none(&radar, Code::PersonNear);
        let mut cabinet = seen((8_800.0, 5_000.0));
        (cabinet.bay.things[0].kind, cabinet.bay.things[0].material) = (ThingKind::Cabinet, Material::Steel);
        none(&cabinet, Code::PersonNear);
    }

    /// The corner that is farthest ahead and nearest to the middle comes nearest to the picture's edge, a line at 30°.
    #[test]
    fn somebody_just_outside_the_picture() {
        let aside = |gap: f64| {
            let corner = 4_200.0 * libm::tan(angle::radians(30.0)) + gap / libm::cos(angle::radians(30.0));
            seen((8_800.0, 3_000.0 + corner + 200.0))
        };
        none(&aside(15.0), Code::PersonNear);
        let mut unsure = aside(15.0);
        unsure.bay.things[0].place.known = Known::Within(20.0);
        let found = check(&unsure, Code::PersonNear, Severity::Care, Some(15.0));
        let words = words::Words::new(&unsure, words::Locale::default());
        let title = words.title(&found);
        assert_eq!(title, "Colleague may stand in the picture of the forward camera");
        let mut car = aside(15.0);
        car.parked_known = ParkedKnown::Within { mm: 20.0, rad: 0.0 };
        check(&car, Code::PersonNear, Severity::Care, Some(15.0));
        check(&aside(-15.0), Code::PersonNear, Severity::Care, None);
    }
}
