//! Line of sight from the sensor to each target.
//!
//! Rule: the sensor sees the whole target, from its mounting point, past every thing, runway and wall, and past the targets and
//! stands of placements that stand together with its own. The target's own stand never hides it. The car's own body hides it
//! from a camera, not from a sensor behind the bumper; where its outline is assumed that needs care. Grazing does not hide.
//! Limit: nothing hidden; what is hidden cannot be seen.

mod own_body;

use baywright_geometry::share::{Share, target_share};
use baywright_geometry::sight::sight_shadow_plan;
use baywright_geometry::{Bounds, DVec3, Prism, Span};

use super::claim::{Claim, Volume};
use super::finding::{Basis, Code, Facts, Finding, Quantity, Severity, Subject};
use super::{Check, Context, Remedy, finding, middle_of_both, thing_subject, wall_id};
use crate::model::Arrangement;
use crate::scene::{PlacedTarget, Scene};

/// A hidden share below this, one part in a hundred thousand of the target, is rounding: on a plate of 500 mm it is a
/// strip of 0.005 mm.
pub(crate) const HIDDEN_FROM: f64 = 1e-5;

pub(super) const CHECK: Check =
    Check { codes: &[Code::SightBlocked], things, whole, claims, remedy: Remedy::of_obstacle, ..Check::NONE };

/// Why a target is not wholly seen.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum InSight {
    /// Something hides part of it.
    Hides {
        /// What all things together hide, as a share: not less than what the culprit hides alone.
        total: f64,
    },
    /// The sensor is inside something.
    CoversSensor,
    /// The target looks elsewhere.
    FacesAway,
    /// A wall stands between.
    Wall,
    /// The car's own body does, as seen by a camera.
    OwnBody {
        /// Whether its outline is assumed from the class.
        assumed: bool,
    },
}

/// Nothing may be where it would hide part of a target.
fn claims(_: &Arrangement, scene: &Scene, claims: &mut Vec<Claim>) {
    claims.extend(scene.targets.iter().filter_map(|target| {
        let volume = Volume::Sight { eye: scene.sensor(), face: target.face.clone()? };
        let of = Subject::Target(target.id.clone());
        Some(Claim::with_car(of, volume, Code::SightBlocked, Severity::Stops))
    }));
}

fn things(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for target in &context.scene.targets {
        past_things(context, target, findings);
    }
}

fn whole(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for target in &context.scene.targets {
        faces_away(context, target, findings);
        past_walls(context, target, findings);
        own_body::hides(context, target, findings);
    }
}

fn faces_away(context: &Context<'_>, target: &PlacedTarget, findings: &mut Vec<Finding>) {
    let Some(face) = &target.face else { return };
    if matches!(target_share(context.scene.sensor(), face, &[]), Share::Behind) {
        findings.push(
            finding(
                Facts::SightBlocked(InSight::FacesAway),
                Severity::Stops,
                vec![Subject::Target(target.id.clone())],
                target.centre(),
                Basis::Geometry,
            )
            .against(Quantity::Share(1.0), Quantity::Share(0.0)),
        );
    }
}

/// The box in plan around the sensor and the target.
pub(super) fn sight_bounds(context: &Context<'_>, target: &PlacedTarget) -> Option<Bounds> {
    let corners = target.face.as_ref()?.corners().map(|corner| corner.truncate());
    Bounds::around(corners.into_iter().chain([context.scene.sensor().truncate()]))
}

/// Whether a solid hides more of a target than is rounding, or covers the sensor.
pub(super) fn is_hidden_by(sensor: DVec3, target: &PlacedTarget, solid: &Prism) -> bool {
    target.face.as_ref().is_some_and(|face| match target_share(sensor, face, &[solid]) {
        Share::Seen(seen) => seen.hidden_by.iter().any(|hider| hider.share > HIDDEN_FROM),
        Share::EyeInside { .. } => true,
        Share::Behind => false,
    })
}

fn past_things(context: &Context<'_>, target: &PlacedTarget, findings: &mut Vec<Finding>) {
    let (Some(face), Some(near)) = (&target.face, sight_bounds(context, target)) else { return };
    let sensor = context.scene.sensor();
    let things =
        context.things_near(near).map(|seen| (thing_subject(&seen.thing.id), seen.placed.prism.clone()));
    let standing = context.fixtures().chain(context.companion_solids(&target.id));
    let (mut subjects, mut solids): (Vec<Subject>, Vec<Prism>) =
        things.chain(standing).chain(context.carrying_steel()).unzip();
    let target_subject = Subject::Target(target.id.clone());
    let mut share = target_share(sensor, face, &solids.iter().collect::<Vec<_>>());
    // What covers the sensor is said for itself; the rest hide what they would hide without it.
    while let Share::EyeInside { thing } = share
        && thing < solids.len()
    {
        solids.remove(thing);
        findings.push(
            finding(
                Facts::SightBlocked(InSight::CoversSensor),
                Severity::Stops,
                vec![subjects.remove(thing), target_subject.clone()],
                sensor,
                Basis::Geometry,
            )
            .against(Quantity::Share(1.0), Quantity::Share(0.0)),
        );
        share = target_share(sensor, face, &solids.iter().collect::<Vec<_>>());
    }
    // A target that faces away is another finding.
    let Share::Seen(seen) = share else { return };
    let total = 1.0 - seen.share;
    // Several parts of one stand are told as one, by what the worst of them hides.
    let mut told: Vec<(&Subject, f64, &Prism)> = Vec::new();
    for hider in seen.hidden_by.iter().filter(|hider| hider.share > HIDDEN_FROM) {
        let (Some(subject), Some(solid)) = (subjects.get(hider.thing), solids.get(hider.thing)) else {
            continue;
        };
        match told.iter_mut().find(|own| own.0 == subject) {
            Some(own) if own.1 < hider.share => *own = (subject, hider.share, solid),
            Some(_) => {}
            None => told.push((subject, hider.share, solid)),
        }
    }
    for (subject, share, solid) in told {
        let here = middle_of_both(&solid.outline.bounds(), &near);
        let height = sensor.z.clamp(solid.span.bottom(), solid.span.top());
        findings.push(
            finding(
                Facts::SightBlocked(InSight::Hides { total }),
                Severity::Stops,
                vec![subject.clone(), target_subject.clone()],
                here.extend(height),
                Basis::Geometry,
            )
            .against(Quantity::Share(share), Quantity::Share(0.0)),
        );
    }
}

/// Walls bind at every height: where a corner of the room stands between sensor and target, it hides the target.
fn past_walls(context: &Context<'_>, target: &PlacedTarget, findings: &mut Vec<Finding>) {
    let Some(face) = &target.face else { return };
    // The heights that the sight takes, a hair more so that a level one has some.
    let corners = face.corners().map(|corner| corner.z);
    let ends = || corners.into_iter().chain([context.scene.sensor().z]);
    let low = ends().fold(f64::INFINITY, f64::min).max(0.0);
    let high = ends().fold(f64::NEG_INFINITY, f64::max).max(low + 1.0);
    let Ok(heights) = Span::new(low, high) else { return };
    let Some(between) = sight_shadow_plan(context.scene.sensor(), face, &heights) else { return };
    // A target that is itself outside the room is another finding.
    let outside = |body: &Prism| !super::outside_room::protruding(context, body).is_empty();
    if target.solids.first().is_some_and(outside) {
        return;
    }
    let between = Prism::new(between.into(), heights);
    let outside = super::outside_room::protruding(context, &between).into_iter().next();
    let outside = outside
        .filter(|own| own.depth > super::SPEAKS_FROM_MM)
        .map(|own| (super::outside_room::nearest_wall(context, own.deepest), own.depth, own.deepest));
    let behind_door = || context.scene.room.passed_behind_doors(&between).into_iter().next();
    let behind_door = || behind_door().map(|(wall, depth, at)| (Some(wall), depth, at));
    let Some((wall, depth, at)) = outside.or_else(behind_door) else { return };
    let subject = wall.and_then(|edge| wall_id(context.arrangement, edge));
    findings.push(
        finding(
            Facts::SightBlocked(InSight::Wall),
            Severity::Stops,
            subject
                .map(|id| Subject::Wall(id.into_owned()))
                .into_iter()
                .chain([Subject::Target(target.id.clone())])
                .collect(),
            at.extend(context.scene.sensor().z),
            Basis::Geometry,
        )
        .against(Quantity::Length(depth), Quantity::Length(0.0)),
    );
}

#[cfg(test)]
mod tests {
    use crate::check::testing::*;

    /// Half way to the target, the sight on a plate of 500 mm is 250 mm wide and 250 mm high, its middle 500 mm up. A
    /// trolley as high as 500 mm and wider than that hides the lower half of the plate.
    #[test]
    fn a_trolley_hides_half_the_plate() {
        let mut trolley = cabinet("trolley", (6_800.0, 3_000.0), 0.002, 600.0);
        trolley.span = span(0.0, 500.0);
        trolley.material = Material::Wood;
        let arrangement = with(vec![trolley]);
        let assessment = assess(&arrangement);
        let found = of(&assessment, Code::SightBlocked);
        assert_eq!(found.len(), 1);
        assert!((number(found[0].measured.unwrap()) - 0.5).abs() < 1e-4, "{:?}", found[0].measured);
    }

    #[test]
    fn under_the_sight_nothing_is_hidden() {
        let mut trolley = cabinet("trolley", (6_800.0, 3_000.0), 400.0, 600.0);
        trolley.material = Material::Wood;
        // The sight's lower edge at the trolley's far end, 2200 mm from the sensor: 500 - 250 · 2200 / 4000.
        trolley.span = span(0.0, 500.0 - 250.0 * 2200.0 / 4000.0);
        none(&with(vec![trolley.clone()]), Code::SightBlocked);
        trolley.span = span(0.0, 500.0 - 250.0 * 2200.0 / 4000.0 + 1.0);
        check(&with(vec![trolley]), Code::SightBlocked, Severity::Stops, None);
    }

    #[test]
    fn a_thing_over_the_sensor() {
        let mut cover = cabinet("cover", (4_830.0, 3_000.0), 100.0, 300.0);
        cover.material = Material::Plastic;
        let found = check(&with(vec![cover]), Code::SightBlocked, Severity::Stops, Some(1.0));
        assert_eq!(found.facts, Facts::SightBlocked(InSight::CoversSensor));
    }

    /// What covers the sensor does not keep quiet about what else is in the way: each stops the aiming by itself.
    #[test]
    fn a_thing_over_the_sensor_and_one_on_the_way() {
        let mut cover = cabinet("cover", (4_830.0, 3_000.0), 100.0, 300.0);
        let mut second = cabinet("second cover", (4_810.0, 3_000.0), 100.0, 300.0);
        let mut wall = cabinet("on the way", (6_800.0, 3_000.0), 100.0, 2_000.0);
        for thing in [&mut cover, &mut second, &mut wall] {
            thing.material = Material::Plastic;
        }
        let assessment = assess(&with(vec![cover, second, wall]));
        let found = of(&assessment, Code::SightBlocked);
        let mut inside = 0;
        for found in &found {
            assert!((number(found.measured.unwrap()) - 1.0).abs() < 1e-9);
            inside += usize::from(found.facts == Facts::SightBlocked(InSight::CoversSensor));
        }
        assert_eq!((found.len(), inside), (3, 2), "{found:#?}");
    }

    #[test]
    fn a_target_turned_away() {
        let arrangement = off(TargetKind::Plate, AimError::SQUARENESS, [0.0, 0.0, 0.0, 180.0, 0.0]);
        let assessment = assess(&arrangement);
        assert_eq!(of(&assessment, Code::SightBlocked)[0].facts, Facts::SightBlocked(InSight::FacesAway));
    }

    /// An L-shaped room: the inner corner at (6000, 3100) stands between sensor and target.
    #[test]
    fn a_corner_of_the_room_hides_the_target() {
        let mut arrangement = clear();
        let corners = [
            (0.0, 0.0),
            (12_000.0, 0.0),
            (12_000.0, 6_000.0),
            (7_000.0, 6_000.0),
            (7_000.0, 3_050.0),
            (6_000.0, 3_050.0),
            (6_000.0, 6_000.0),
            (0.0, 6_000.0),
        ];
        arrangement.bay.room = Polygon::simple(corners.map(DVec2::from).into()).unwrap();
        let wall = |i: usize| Wall { id: format!("wall {i}").into(), material: Material::Brick };
        arrangement.bay.walls = (0..corners.len()).map(wall).collect();
        let assessment = assess(&arrangement);
        assert!(
            of(&assessment, Code::SightBlocked).iter().any(|f| matches!(f.subjects[0], Subject::Wall(_)))
        );
    }

    /// Two boards that stand at the same time: the nearer one hides the farther. In turn neither does.
    #[test]
    fn those_that_stand_together_hide_each_other() {
        let mut arrangement = clear();
        arrangement.aiming.zones.clear();
        arrangement.aiming.mark_plan.clear();
        arrangement.aiming.placements[0].mark = None;
        let mut near = arrangement.aiming.placements[0].clone();
        near.id = "near".into();
        near.stand_off.distance_mm = 2_000.0;
        arrangement.aiming.placements.push(near);
        arrangement.stands.push(StandSet::OnMark);
        none(&arrangement, Code::SightBlocked);
        arrangement.aiming.placements[1].with = Some(vec!["ahead".into()]);
        let found = check(&arrangement, Code::SightBlocked, Severity::Stops, Some(1.0));
        assert_eq!(found.subjects, [Subject::Stand("near".into()), Subject::Target("ahead".into())]);
        none(&arrangement, Code::StandClash);
        // 150 mm apart the one stands in the other's feet.
        arrangement.aiming.placements[1].stand_off.distance_mm = 3_850.0;
        assert!(!of(&assess(&arrangement), Code::StandClash).is_empty());
        arrangement.aiming.placements[1].with = Some(Vec::new());
        none(&arrangement, Code::StandClash);
    }
}
