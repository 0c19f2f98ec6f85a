//! What the aiming puts on the floor: zones, beam, axis, marks and runs, targets and their stands.

use baywright_planner::geometry::{Bounds, DVec2, angle};
use baywright_planner::model::{Datum, Placement, SensorKind, TargetKind};
use baywright_planner::scene::{PlacedTarget, PlacedZone, TargetPose};
use baywright_planner::{Scene, Subject};

use super::Top;
use crate::clip;
use crate::finding::is_told;
use crate::lettering::size;
use crate::role::Role;
use crate::sign::SignKind;
use crate::text::{Align, Weight};
use crate::view::label::{TOO_DEAR, Wanted};
use crate::view::pen::{MARK_PX, Pen};
use crate::view::shade;
use crate::view::space::{FIRM, Taken, around};
use crate::view::zone::ZoneNamed;

/// A face seen edge on is drawn at least this thick, px.
const LEAST_FACE_PX: f64 = 4.5;
/// The beam is drawn to this far behind the farthest target, mm.
const BEYOND_TARGET_MM: f64 = 600.0;
/// The axis is drawn to this far behind the car and ahead of the target, mm.
const AXIS_BEYOND_MM: f64 = 400.0;
/// A target nearer than this to where it belongs is drawn there only, mm: less does not show.
const OFF_PLACE_MM: f64 = 2.0;
/// The same for its heading, radians: a tenth of a degree.
const TURNED: f64 = 0.001_745;

pub(super) fn draw(pen: &mut Pen<'_>, top: &Top<'_>) {
    zones(pen, top);
    beam(pen, top);
    axis(pen, top);
    runs(pen, top);
    targets(pen, top);
    marks(pen, top);
}

/// Zones in turn look one way and the other.
pub(crate) const ZONE_ROLES: [(Role, Role); 2] =
    [(Role::ZoneFill, Role::ZoneEdge), (Role::OtherZoneFill, Role::OtherZoneEdge)];

pub(super) fn zones(pen: &mut Pen<'_>, top: &Top<'_>) {
    for (zone, (fill, edge)) in top.scene.zones.iter().zip(ZONE_ROLES.into_iter().cycle()) {
        let subject = Some(Subject::Zone(zone.id.clone()));
        let shape = pen.outline(&zone.prism.outline, &top.view_from_bay);
        pen.push(fill, subject.clone(), shape.clone());
        pen.push(edge, subject, shape);
        let ring = zone.prism.outline.as_polygon();
        let ring: Vec<DVec2> = ring.outer().iter().map(|&p| top.at(p)).collect();
        let ring: Vec<DVec2> = ring.iter().step_by(ring.len().div_ceil(MOST_TAKEN).max(1)).copied().collect();
        for (&from, &to) in ring.iter().zip(ring.iter().cycle().skip(1)) {
            pen.take_line(from, to, Taken::Line);
        }
    }
}

/// Edges of an outline that names and flags keep off; a round zone has hundreds of corners.
const MOST_TAKEN: usize = 32;

/// Half the angle that the sensor lights up or sees from left to right, radians.
fn half_angle(sensor: &SensorKind, view: f64) -> f64 {
    sensor.radar().map_or(view, |radar| radar.beam_azimuth_rad * 0.5).clamp(0.0, std::f64::consts::PI)
}

pub(super) fn beam(pen: &mut Pen<'_>, top: &Top<'_>) {
    let sensor = top.scene.sensor().truncate();
    let reach = reach_of_beam(top.scene);
    let heading = angle::heading(top.scene.bay_from_sensor.forward().truncate());
    let half = half_angle(&top.arrangement.sensor.kind, top.arrangement.sensor.view.azimuth_half_rad);
    let eye = top.at(sensor);
    let hiders = top.hiders(None);
    let ahead = angle::heading(top.view_from_bay.turned(angle::direction(heading)));
    let fan = shade::fan(eye, ahead, half, reach, &hiders);
    for end in [fan.get(1), fan.last()].into_iter().flatten() {
        pen.line(Role::BeamEdge, Some(Subject::Sensor), vec![eye, *end]);
    }
    pen.ring(Role::BeamFill, Some(Subject::Sensor), fan);
    for target in &top.scene.targets {
        let to = top.at(target.centre().truncate());
        shade::sight_line(pen, &target.id, (eye, to), &hiders);
    }
    pen.sign(Role::Sensor, Some(Subject::Sensor), eye, SignKind::Dot, 3.2);
    let eye_px = pen.px(eye);
    pen.space.take(around(eye_px, DVec2::splat(8.0)), Taken::Firm);
}

/// How far the beam is drawn: a little past the farthest target, mm.
pub(crate) fn reach_of_beam(scene: &Scene) -> f64 {
    let sensor = scene.sensor().truncate();
    let reach = scene.targets.iter().map(|t| t.centre().truncate().distance(sensor)).fold(0.0, f64::max);
    if reach > 0.0 { reach + BEYOND_TARGET_MM } else { NO_TARGET_REACH_MM }
}

/// How far a sensor without a target is drawn to look, mm.
const NO_TARGET_REACH_MM: f64 = 3000.0;

pub(super) fn axis(pen: &mut Pen<'_>, top: &Top<'_>) {
    let axis = top.scene.bay_from_axis;
    let vehicle = &top.arrangement.vehicle;
    let to_axis = axis.inverse();
    let targets = top.scene.targets.iter().map(|t| (to_axis * t.set.place.origin()).x);
    let ahead = targets.fold(vehicle.front(), f64::max) + AXIS_BEYOND_MM;
    let (from, to) = (DVec2::new(vehicle.rear() - AXIS_BEYOND_MM, 0.0), DVec2::new(ahead, 0.0));
    let (from, to) = (top.at(axis * from), top.at(axis * to));
    pen.line(Role::CentreLine, None, vec![from, to]);
    pen.take_line(from, to, Taken::Line);
    // The other line that a stand-off may start at, where one does: through the spots outboard of the front tyres.
    let aiming = &top.arrangement.aiming;
    if !aiming.placements.iter().any(|own| own.stand_off.from == Datum::FrontSpots) {
        return;
    }
    let spot = |at: usize| top.scene.marks.get(at)?.at.ok();
    if let Some([Some(left), Some(right)]) = aiming.front_spots().map(|spots| spots.map(spot)) {
        pen.line(Role::CentreLine, None, vec![top.at(left), top.at(right)]);
        pen.take_line(top.at(left), top.at(right), Taken::Line);
    }
}

pub(super) fn runs(pen: &mut Pen<'_>, top: &Top<'_>) {
    let plan = &top.arrangement.aiming.mark_plan;
    for placed in &top.scene.runs {
        let subject = plan.get(placed.mark).map(|step| Subject::Mark(step.id.clone()));
        let (from, to) = (top.at(placed.run.from), top.at(placed.run.to));
        pen.line(Role::Run, subject, vec![from, to]);
        pen.take_line(from, to, Taken::Line);
    }
}

pub(super) fn targets(pen: &mut Pen<'_>, top: &Top<'_>) {
    for (target, placement) in top.scene.targets.iter().zip(&top.arrangement.aiming.placements) {
        let stand = Some(Subject::Stand(target.id.clone()));
        for (i, solid) in target.solids.iter().enumerate().skip(1) {
            let role = if i == 1 { Role::StandBase } else { Role::StandMast };
            let shape = pen.outline(&solid.outline, &top.view_from_bay);
            pen.push(role, stand.clone(), shape);
        }
        let subject = Some(Subject::Target(target.id.clone()));
        if let (Some(subject), Some(around)) = (&subject, around_target(pen, top, target)) {
            pen.bodies.take(subject, around);
        }
        if off_place(target) {
            let ring = face(pen, top, placement, &target.meant, target.lies);
            pen.ring(Role::TargetMeant, subject.clone(), ring);
        }
        let ring = face(pen, top, placement, &target.set, target.lies);
        if let Some(bounds) = Bounds::around(ring.iter().map(|&p| pen.px(p))) {
            pen.space.take(bounds.grown(3.0), Taken::Face);
        }
        pen.ring(if target.lies { Role::Mat } else { Role::Target }, subject, ring);
        let Some(face) = target.face.as_ref().filter(|_| !target.lies) else { continue };
        let hiders = top.hiders(Some(&target.id));
        let half = face.width() * 0.5;
        let ends = [-half, half].map(|aside| top.at(face.point(aside, 0.0).truncate()));
        shade::on_target(pen, &target.id, top.at(top.scene.sensor().truncate()), ends, &hiders);
    }
}

/// Whether a target visibly stands elsewhere than it belongs.
pub(crate) fn off_place(target: &PlacedTarget) -> bool {
    let (meant, set) = (&target.meant.place, &target.set.place);
    meant.origin().distance(set.origin()) > OFF_PLACE_MM
        || angle::wrapped(meant.heading() - set.heading()).abs() > TURNED
}

/// The target from above, as thick as it takes to be seen.
fn face(pen: &Pen<'_>, top: &Top<'_>, placement: &Placement, pose: &TargetPose, lies: bool) -> Vec<DVec2> {
    let target = &placement.target;
    let half = target.width_mm * 0.5;
    let own = if lies {
        let long = target.height_mm * 0.5;
        vec![
            DVec2::new(-long, -half),
            DVec2::new(long, -half),
            DVec2::new(long, half),
            DVec2::new(-long, half),
        ]
    } else if target.kind == TargetKind::CornerReflector {
        // Its mouth towards the sensor, its corner behind.
        let deep = target.depth_mm.max(target.centre_behind_mm).max(pen.length(LEAST_FACE_PX + 2.0));
        vec![DVec2::new(0.0, -half), DVec2::new(0.0, half), DVec2::new(-deep, 0.0)]
    } else {
        let thick = target.depth_mm.max(pen.length(LEAST_FACE_PX));
        vec![
            DVec2::new(-thick, -half),
            DVec2::new(0.0, -half),
            DVec2::new(0.0, half),
            DVec2::new(-thick, half),
        ]
    };
    own.into_iter().map(|p| top.at(pose.place * p)).collect()
}

pub(super) fn marks(pen: &mut Pen<'_>, top: &Top<'_>) {
    for mark in &top.scene.marks {
        let Ok(at) = mark.at else { continue };
        let at = top.at(at);
        pen.sign(Role::Mark, Some(Subject::Mark(mark.id.clone())), at, SignKind::Cross, MARK_PX);
        let px = pen.px(at);
        pen.space.take(around(px, DVec2::splat(2.0 * MARK_PX * pen.enlarged + 2.0)), Taken::Firm);
    }
}

/// A mark this near to the middle of a mat lies on it, mm.
const ON_MAT_MM: f64 = 50.0;

/// The marks' numbers: their positions in the plan, counted from 1, as the tape instructions count them.
pub(super) fn mark_numbers(pen: &mut Pen<'_>, top: &Top<'_>) {
    let style = pen.style(size::LABEL, Weight::SemiBold);
    let off = MARK_PX * pen.enlarged + 4.0;
    for (mark, number) in top.scene.marks.iter().zip(1..) {
        let Ok(mark_at) = mark.at else { continue };
        let px = pen.px(top.at(mark_at));
        let number = number.to_string();
        let subject = Subject::Mark(mark.id.clone());
        let whole = |pen: &Pen<'_>| Some(pen.measured(&number, style));
        if pen.name_kept(Role::Label, Some(&subject), style, whole).is_some() {
            continue;
        }
        let places = Pen::round_about(px, off, style);
        let text = pen.measured(&number, style);
        if let Some((cost, mut at, mut align)) = pen.cheapest(text.width, style, places) {
            let subject = Some(subject);
            // Off a thing that hides the mark, or a wall across which its number would lie, with a line to it; a mark on a mat keeps its number beside it.
            let on_mat = top
                .scene
                .targets
                .iter()
                .any(|t| t.lies && t.set.place.origin().distance(mark_at) < ON_MAT_MM);
            if cost >= Taken::Wall.cost() && !on_mat {
                let ways = (1_u8..=5).flat_map(|ring| (0_u8..16).map(move |way| (ring, way)));
                let places = ways.map(|(ring, way)| {
                    let turn = angle::direction(std::f64::consts::TAU * f64::from(way) / 16.0);
                    let far = (10.0 + 12.0 * f64::from(ring)) * pen.enlarged;
                    let at = px + turn * far;
                    (far + pen.space.cost_across_up_to(px + turn * off, at, f64::INFINITY), at, Align::Middle)
                });
                if let Some((_, far, middle)) =
                    pen.cheapest(text.width, style, places).filter(|(led, ..)| *led < cost.min(FIRM))
                {
                    (at, align) = (far, middle);
                    let Bounds { low, high } = pen.level_box(far, middle, text.width, style);
                    let line = vec![pen.mm(px), pen.mm(px.clamp(low, high))];
                    pen.line(Role::NameLeader, subject.clone(), line);
                }
            }
            pen.put_level(Role::Label, subject, text, style, (at, align));
        }
    }
}

pub(super) fn names(pen: &mut Pen<'_>, top: &Top<'_>) {
    let style = pen.style(size::SMALL, Weight::SemiBold);
    let paper = pen.window.grown(-2.0);
    let ring = |pen: &Pen<'_>, zone: &PlacedZone| -> Vec<DVec2> {
        zone.prism.outline.as_polygon().outer().iter().map(|&p| pen.px(top.at(p))).collect()
    };
    for zone in &top.scene.zones {
        let others = top.scene.zones.iter().filter(|other| other.id != zone.id);
        let others: Vec<Vec<DVec2>> = others.map(|other| ring(pen, other)).collect();
        let span = zone.prism.span;
        let subject = Subject::Zone(zone.id.clone());
        // What findings speak of goes by the name that they give it.
        let (whole, brief) = if is_told(top.assessment, &subject) {
            (top.words.zone_named(zone.id.as_str(), zone.excludes), zone.id.to_string())
        } else {
            let from_to = (span.bottom(), span.top());
            (top.words.keep_clear(zone.excludes, Some(from_to)), top.words.keep_clear(zone.excludes, None))
        };
        pen.name_zone(&ZoneNamed {
            subject,
            whole: &whole,
            brief: &brief,
            ring: &clip::ring_in_box(&ring(pen, zone), &paper),
            others: &others,
            floor: None,
            style,
        });
    }
}

/// The box around a target and its stand on the paper, px.
fn around_target(pen: &Pen<'_>, top: &Top<'_>, target: &PlacedTarget) -> Option<Bounds> {
    let bounds = target.solids.iter().map(|s| s.outline.bounds()).reduce(Bounds::union)?;
    let Bounds { low, high } = bounds;
    let corners = [low, DVec2::new(high.x, low.y), high, DVec2::new(low.x, high.y)];
    Bounds::around(corners.map(|p| pen.px(top.at(p))))
}

pub(super) fn target_names(pen: &mut Pen<'_>, top: &Top<'_>) {
    let style = pen.style(size::LABEL, Weight::SemiBold);
    for (target, placement) in top.scene.targets.iter().zip(&top.arrangement.aiming.placements) {
        let Some(around) = around_target(pen, top, target) else { continue };
        let kind = placement.target.kind;
        let several;
        let text = if top.scene.targets.len() > 1 {
            several = top.words.target_named(kind, target.id.as_str());
            several.as_str()
        } else {
            top.words.target_label(kind)
        };
        pen.name(Wanted {
            text,
            brief: None,
            role: Role::Label,
            subject: Some(Subject::Target(target.id.clone())),
            style,
            around,
            most_width: 120.0 * pen.enlarged,
            must: false,
            inside: false,
            body: None,
            led: true,
            most_cost: TOO_DEAR,
            under: None,
        });
    }
}
