//! The first Fresnel zone of a radar's path to its target.
//!
//! Rule: no thing, and no runway that carries no car, reaches into the first Fresnel zone: a path over its nearest point is at least half a wavelength
//! longer than the direct one. Nor does a wall. How far what does shifts the bearing is worked out for a straight thin edge so near the
//! path: it needs care, and where that is less than a tenth of what the aim may be out it is only told. What is that edge's worth of
//! something thick, or rounded, nobody knows better: it never stops. A thing that already hides part of the target is reported there,
//! not here.
//! Limit: ITU-R P.526, section 2.1 (line of sight: no obstacle within the first Fresnel ellipsoid). That diffraction begins to
//! cost from 60 % of its radius on (section 2.3, the wording from memory) is a link engineer's rule, and stops nothing here. The shift:
//! section 4.1 of it, by [`baywright_radar::knife_edge`].

use baywright_geometry::fresnel::{
    FresnelClearance, Wavelength, fresnel_clearance, fresnel_clearance_in_plan, wavelength, zone_radius,
};
use baywright_geometry::{Bounds, DVec3, Outline, Polygon};
use baywright_radar::knife_edge::{Edge, shift};

use super::claim::{Claim, Volume};
use super::finding::{Basis, Code, Facts, Finding, Quantity, Severity, Subject};
use super::sight::is_hidden_by;
use super::{Check, Context, Remedy, finding, thing_subject, wall_id};
use crate::model::Arrangement;
use crate::scene::{PlacedTarget, Scene};

/// How thick a wall counts, mm: its near side is what enters.
const WALL_MM: f64 = 1.0;

const SOURCE: &str = "ITU-R P.526, first Fresnel zone";

/// A shift less than this share of what the aim may be out is only told (common practice, no source): ten such reach the limit.
const LITTLE: f64 = 0.1;
/// The width of evenly lit antennas over the wavelength by their half-power beam, radians (from memory: 0.886).
const APERTURE_BY_BEAM: f64 = 0.886;

/// How far an edge beside the path shifts the bearing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Shifted {
    /// By how much at the most, radians.
    pub by_rad: f64,
    /// So much the aim may be out, radians.
    pub limit_rad: f64,
    /// Whether up or down rather than to a side.
    pub is_upright: bool,
}

pub(super) const CHECK: Check =
    Check { codes: &[Code::FresnelEntered], things, whole, claims, remedy, ..Check::NONE };

fn remedy(finding: &Finding) -> Remedy {
    if finding.culprit().is_some() { Remedy::ThingOut } else { Remedy::None }
}

/// The wavelength of a radar; other sensors have none. A validated frequency has one.
fn wave(arrangement: &Arrangement) -> Option<Wavelength> {
    wavelength(arrangement.sensor.kind.radar()?.frequency_hz).ok()
}

/// Farther than anything of the first zone of a path so long is from the straight path, mm: its radius half way by the usual
/// formula, and the quarter of a wavelength by which it reaches past both ends, and more.
fn widest(wavelength: Wavelength, path_mm: f64) -> f64 {
    zone_radius(wavelength, path_mm * 0.5, path_mm * 0.5, 1) + wavelength.mm()
}

/// A radar's paths to its upright targets keep things out of the first Fresnel zone.
fn claims(arrangement: &Arrangement, scene: &Scene, claims: &mut Vec<Claim>) {
    let Some(wavelength) = wave(arrangement) else { return };
    for target in scene.targets.iter().filter(|target| !target.lies) {
        let (eye, to) = (scene.sensor(), target.centre());
        let volume = Volume::Fresnel { eye, to, wavelength, share: 1.0 };
        let of = Subject::Target(target.id.clone());
        claims.push(Claim::with_car(of, volume, Code::FresnelEntered, Severity::Care));
    }
}

/// A corner of the room that reaches into the path's zone in plan; one that hides the target is the check `sight`.
fn whole(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let Some(wavelength) = wave(context.arrangement) else { return };
    let sensor = context.scene.sensor();
    for target in context.scene.targets.iter().filter(|target| !target.lies) {
        let (from, to) = (sensor.truncate(), target.centre().truncate());
        let widest = widest(wavelength, from.distance(to));
        let Some(near) = Bounds::around([from, to]).map(|path| path.grown(widest)) else { continue };
        for (edge, wall) in context.scene.room.walls().edges().enumerate() {
            if !Bounds::around([wall.from, wall.to]).is_some_and(|own| own.meets(&near)) {
                continue;
            }
            let out = -(wall.to - wall.from).normalize_or_zero().perp() * WALL_MM;
            let corners = vec![wall.from, wall.from + out, wall.to + out, wall.to];
            let Ok(solid) = Polygon::simple(corners).map(Outline::from) else { continue };
            let entered = fresnel_clearance_in_plan(from, to, wavelength, &solid);
            let FresnelClearance::Entered { ratio, at } = entered else { continue };
            let Some(id) = wall_id(context.arrangement, edge) else { continue };
            let subjects = vec![Subject::Wall(id.into_owned()), Subject::Target(target.id.clone())];
            findings.push(entered_by(context, target, ratio, at.extend(sensor.z), subjects));
        }
    }
}

fn things(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let Some(wavelength) = wave(context.arrangement) else { return };
    let sensor = context.scene.sensor();
    for target in context.scene.targets.iter().filter(|target| !target.lies) {
        let centre = target.centre();
        let widest = widest(wavelength, sensor.distance(centre));
        let Some(near) = super::sight::sight_bounds(context, target) else { continue };
        let things = context.things_near(near.grown(widest));
        let things = things.map(|seen| (thing_subject(&seen.thing.id), seen.placed.prism.clone()));
        let standing = context.fixtures().chain(context.companion_solids(&target.id));
        for (subject, solid) in things.chain(standing).chain(context.carrying_steel()) {
            let (ratio, at) = match fresnel_clearance(sensor, centre, wavelength, &solid) {
                FresnelClearance::Clear { .. } => continue,
                FresnelClearance::Entered { ratio, at } => (ratio, at),
                FresnelClearance::Crossed { at } => (0.0, at),
            };
            if is_hidden_by(sensor, target, &solid) {
                continue;
            }
            let subjects = vec![subject, Subject::Target(target.id.clone())];
            // Several parts of one stand are told once, by what comes nearest.
            let known =
                findings.iter().position(|f| f.code() == Code::FresnelEntered && f.subjects == subjects);
            match known.and_then(|at| Some((at, findings.get(at)?.measured?))) {
                Some((at, Quantity::Ratio(nearer))) if nearer > ratio => drop(findings.remove(at)),
                Some(_) => continue,
                None => {}
            }
            findings.push(entered_by(context, target, ratio, at, subjects));
        }
    }
}

/// What reaches into the zone so far, its nearest place there.
fn entered_by(
    context: &Context<'_>,
    target: &PlacedTarget,
    ratio: f64,
    at: DVec3,
    subjects: Vec<Subject>,
) -> Finding {
    let shift = shifted(context, target, ratio, at);
    let is_little = shift.is_some_and(|own| own.by_rad < LITTLE * own.limit_rad);
    let severity = if is_little { Severity::Note } else { Severity::Care };
    finding(Facts::FresnelEntered(shift), severity, subjects, at, Basis::Published(SOURCE))
        .against(Quantity::Ratio(ratio), Quantity::Ratio(1.0))
}

/// How far an edge there shifts the bearing; `None` for what crosses the path, or stands at one of its ends.
fn shifted(context: &Context<'_>, target: &PlacedTarget, ratio: f64, at: DVec3) -> Option<Shifted> {
    let radar = context.arrangement.sensor.kind.radar()?;
    let wave = wave(context.arrangement)?;
    let (sensor, to) = (context.scene.sensor(), target.centre());
    let along = (to - sensor).try_normalize()?;
    let sensor_mm = (at - sensor).dot(along);
    let source_mm = sensor.distance(to) - sensor_mm;
    let aside = at - (sensor + along * sensor_mm);
    if ratio <= 0.0 || sensor_mm <= 0.0 || source_mm <= 0.0 {
        return None;
    }
    let edge = Edge { over_mm: -ratio * zone_radius(wave, sensor_mm, source_mm, 1), sensor_mm, source_mm };
    // An upright edge shifts to a side, a level one up or down; one between both does both, no further than alone.
    let tolerance = context.arrangement.aiming.tolerance;
    let all = [
        (aside.truncate().length(), radar.beam_azimuth_rad, tolerance.azimuth_rad, false),
        (aside.z.abs(), radar.beam_elevation_rad, tolerance.elevation_rad, true),
    ];
    let whole = aside.length();
    let worst = all.into_iter().filter_map(|(part, beam_rad, limit_rad, is_upright)| {
        let found = shift(&edge, APERTURE_BY_BEAM * wave.mm() / beam_rad, wave)?;
        let share = if whole > 0.0 { part / whole } else { 1.0 };
        let by_rad = share * found.mean.abs().max(found.strongest.abs());
        Some(Shifted { by_rad, limit_rad, is_upright })
    });
    worst.max_by(|a, b| (a.by_rad * b.limit_rad).total_cmp(&(b.by_rad * a.limit_rad)))
}

#[cfg(test)]
mod tests {
    use crate::check::testing::*;

    /// What hides so little that it is not spoken of is still judged by the first Fresnel zone: every thing in the way is
    /// reported by one of the two.
    #[test]
    fn a_sliver_is_left_to_the_fresnel_zone() {
        // Half way, a target of 20 mm leaves the sight 10 mm wide: the box reaches 0.00001 mm into it.
        let mut arrangement = with(vec![cabinet("box", (6_800.0, 3_105.0 - 1e-5), 0.002, 200.0)]);
        arrangement.bay.things[0].material = Material::Wood;
        arrangement.aiming.placements[0].target.width_mm = 20.0;
        none(&arrangement, Code::SightBlocked);
        check(&arrangement, Code::FresnelEntered, Severity::Care, None);
    }

    /// ITU-R P.526 through references.md §1: at 77 GHz, 2 m from both ends, the first zone's radius is 62.3972 mm. A narrow
    /// target leaves the sight thin there, so that a thing beside it enters the zone and hides nothing.
    #[test]
    fn the_first_fresnel_zone() {
        let beside = |gap: f64| {
            let mut arrangement = with(vec![cabinet("box", (6_800.0, 3_000.0 + gap + 100.0), 0.002, 200.0)]);
            arrangement.bay.things[0].material = Material::Wood;
            arrangement.aiming.placements[0].target.width_mm = 20.0;
            arrangement
        };
        none(&beside(62.5), Code::FresnelEntered);
        check(&beside(62.3), Code::FresnelEntered, Severity::Care, None);
        check(&beside(0.601 * 62.3972), Code::FresnelEntered, Severity::Care, None);
        let found = check(&beside(0.599 * 62.3972), Code::FresnelEntered, Severity::Care, None);
        assert!((number(found.measured.unwrap()) - 0.599).abs() < 1e-3, "{:?}", found.measured);
    }

    /// The room's far part is narrower: the corner of its wall stands 40 mm beside the path's middle.
    #[test]
    fn a_corner_of_the_room_in_the_zone() {
        let mut arrangement = clear();
        arrangement.aiming.zones.clear();
        arrangement.aiming.placements[0].target.width_mm = 20.0;
        let corners = [
            (0.0, 0.0),
            (12_000.0, 0.0),
            (12_000.0, 6_000.0),
            (6_800.1, 6_000.0),
            (6_800.1, 3_040.0),
            (6_799.9, 3_040.0),
            (6_799.9, 6_000.0),
            (0.0, 6_000.0),
        ];
        arrangement.bay.room = Polygon::simple(corners.map(DVec2::from).into()).unwrap();
        arrangement.bay.walls = (0..8)
            .map(|i| Wall { id: format!("wall {i}").as_str().into(), material: Material::Brick })
            .collect();
        let assessment = assess(&arrangement);
        let found = of(&assessment, Code::FresnelEntered);
        assert!(!found.is_empty() && found.iter().all(|f| f.severity == Severity::Care));
        let ratio = found.iter().map(|f| number(f.measured.unwrap())).fold(1.0, f64::min);
        assert!((ratio - 40.0 / 62.3972).abs() < 1e-3, "{ratio}");
        none(&clear(), Code::FresnelEntered);
    }

    #[test]
    fn a_camera_has_no_fresnel_zone() {
        let mut arrangement = with(vec![cabinet("box", (6_800.0, 3_130.0), 10.0, 200.0)]);
        arrangement.bay.things[0].material = Material::Wood;
        arrangement.aiming.placements[0].target.width_mm = 20.0;
        assert!(!of(&assess(&arrangement), Code::FresnelEntered).is_empty());
        arrangement.sensor.kind = SensorKind::ForwardCamera(Camera { pixels_across: 1280, pixels_down: 960 });
        none(&arrangement, Code::FresnelEntered);
    }

    /// Half way to the target the first zone's radius is 62.4 mm at 77 GHz: an idle runway whose top is 40 mm under the line
    /// of sight enters it, though it hides nothing of a target that is only 20 mm high.
    #[test]
    fn an_idle_runway_in_the_first_fresnel_zone() {
        let mut arrangement = clear();
        arrangement.aiming.zones.clear();
        arrangement.aiming.placements[0].target.height_mm = 20.0;
        let outline = rectangle((6_300.0, 2_700.0), (7_300.0, 3_300.0));
        arrangement.bay.runways = vec![Runway { id: "runway".into(), outline, top_mm: 460.0, survey: None }];
        let found = check(&arrangement, Code::FresnelEntered, Severity::Care, None);
        assert_eq!(found.subjects[0], Subject::Runway("runway".into()));
        assert!((number(found.measured.unwrap()) - 40.0 / 62.3972).abs() < 1e-3, "{:?}", found.measured);
    }
}
