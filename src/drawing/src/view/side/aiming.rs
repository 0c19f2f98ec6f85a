//! What the aiming puts in the room, from the side: zones with their heights, target and stand, sight line and beam.

use baywright_planner::Subject;
use baywright_planner::geometry::{Bounds, DVec2, DVec3, Prism, angle, hull};
use baywright_planner::model::SensorPoint;
use baywright_planner::scene::{PlacedTarget, PlacedZone, sensor_point_height};

use super::{Side, rectangle, under_floor};
use crate::clip;
use crate::finding::{hiding, is_told};
use crate::lettering::size;
use crate::role::Role;
use crate::sign::SignKind;
use crate::text::Weight;
use crate::view::label::{TOO_DEAR, Wanted};
use crate::view::pen::Pen;
use crate::view::shade;
use crate::view::space::{Taken, around};
use crate::view::top::{ZONE_ROLES, off_place, reach_of_beam};
use crate::view::zone::ZoneNamed;

/// A face seen edge on is drawn at least this thick, px; feet at least this high.
const LEAST_FACE_PX: f64 = 4.5;
const LEAST_FEET_PX: f64 = 2.5;
/// A mat is drawn at least this high, px.
const LEAST_MAT_PX: f64 = 3.0;
/// A beam that runs more across the axis than this cosine is not drawn: from the side it says nothing.
const LEAST_AHEAD: f64 = 0.3;

pub(super) fn zones(pen: &mut Pen<'_>, side: &Side<'_>) {
    for (zone, (fill, edge)) in side.scene.zones.iter().zip(ZONE_ROLES.into_iter().cycle()) {
        let x = side.along(&zone.prism.outline);
        let y = (zone.prism.span.bottom(), zone.prism.span.top());
        let subject = Some(Subject::Zone(zone.id.clone()));
        let ring = rectangle(x, y);
        pen.ring(fill, subject.clone(), ring.clone());
        for corner in [(x.0, y.0, x.0, y.1), (x.1, y.0, x.1, y.1), (x.0, y.1, x.1, y.1)] {
            pen.take_line(DVec2::new(corner.0, corner.1), DVec2::new(corner.2, corner.3), Taken::Line);
        }
        pen.ring(edge, subject, ring);
    }
}

pub(super) fn draw(pen: &mut Pen<'_>, side: &Side<'_>) {
    let eye = side.at(side.scene.sensor());
    let hiders = |of| -> Vec<Vec<DVec2>> {
        let solids = hiding(side.arrangement, side.assessment, of);
        let flat =
            |solid: &Prism| rectangle(side.along(&solid.outline), (solid.span.bottom(), solid.span.top()));
        solids.iter().map(flat).collect()
    };
    let all = hiders(None);
    beam(pen, side, eye, &all);
    for target in &side.scene.targets {
        let subject = Some(Subject::Target(target.id.clone()));
        let to = side.at(target.centre());
        shade::sight_line(pen, &target.id, (eye, to), &all);
        stand(pen, side, target);
        if off_place(target) || (target.meant.height_mm - target.set.height_mm).abs() > OFF_HEIGHT_MM {
            let ring = body(pen, side, target, target.meant_centre());
            pen.ring(Role::TargetMeant, subject.clone(), ring);
        }
        let ring = body(pen, side, target, target.centre());
        if let Some(bounds) = Bounds::around(ring.iter().map(|&p| pen.px(p))) {
            pen.space.take(bounds.grown(3.0), Taken::Firm);
            pen.bodies.take(&Subject::Target(target.id.clone()), bounds);
        }
        pen.ring(if target.lies { Role::Mat } else { Role::Target }, subject, ring);
        let Some(face) = target.face.as_ref().filter(|_| !target.lies) else { continue };
        let half = face.height() * 0.5;
        let ends = [-half, half].map(|up| side.at(face.point(0.0, up)));
        shade::on_target(pen, &target.id, eye, ends, &hiders(Some(&target.id)));
    }
    edges(pen, side, eye);
    pen.sign(Role::Sensor, Some(Subject::Sensor), eye, SignKind::Dot, 3.2);
    let eye_px = pen.px(eye);
    pen.space.take(around(eye_px, DVec2::splat(8.0)), Taken::Firm);
}

/// Half as wide as the sensor's face is drawn from edge to edge, and as a line on it is long and thick, px.
const EDGE_PX: f64 = 1.6;
const LINE_PX: (f64, f64) = (4.5, 0.8);

/// The sensor's face from its lower edge to its upper one, as far as they are known, and the line that is marked on it.
fn edges(pen: &mut Pen<'_>, side: &Side<'_>, eye: DVec2) {
    let height = |point| sensor_point_height(side.arrangement, point);
    let ends = [height(SensorPoint::LowerEdge), height(SensorPoint::UpperEdge)];
    if ends.iter().any(Option::is_some) {
        let half = pen.length(EDGE_PX);
        let [low, high] = ends.map(|end| end.unwrap_or(eye.y));
        pen.ring(Role::Sensor, Some(Subject::Sensor), rectangle((eye.x - half, eye.x + half), (low, high)));
    }
    if let Some(line) = height(SensorPoint::Line) {
        let (long, thick) = (pen.length(LINE_PX.0), pen.length(LINE_PX.1));
        let ring = rectangle((eye.x - long, eye.x + long), (line - thick, line + thick));
        pen.ring(Role::Sensor, Some(Subject::Sensor), ring);
    }
}

/// A target less than this off its height is drawn there only, mm: less does not show.
const OFF_HEIGHT_MM: f64 = 2.0;

fn beam(pen: &mut Pen<'_>, side: &Side<'_>, eye: DVec2, hiders: &[Vec<DVec2>]) {
    let boresight = side.scene.bay_from_sensor.forward();
    let ahead = boresight.truncate().dot(side.bay_from_axis.forward());
    if ahead.abs() < LEAST_AHEAD {
        return;
    }
    let sensor = &side.arrangement.sensor;
    let half =
        sensor.kind.radar().map_or(sensor.view.elevation_half_rad, |radar| radar.beam_elevation_rad * 0.5);
    let half = half.clamp(0.0, std::f64::consts::FRAC_PI_2);
    let up = angle::heading(DVec2::new(ahead, boresight.z));
    let reach = reach_of_beam(side.scene);
    let fan = shade::fan(eye, up, half, reach, hiders);
    let (from, to) = if ahead > 0.0 {
        (eye.x - reach, side.room.1.max(eye.x))
    } else {
        (side.room.0.min(eye.x), eye.x + reach)
    };
    let area = Bounds { low: DVec2::new(from, 0.0), high: DVec2::new(to, side.arrangement.bay.ceiling_mm) };
    pen.ring(Role::BeamFill, Some(Subject::Sensor), clip::ring_in_box(&fan, &area));
    for &end in [fan.get(1), fan.last()].into_iter().flatten() {
        if let Some((from, to)) = clip::segment_in_box(eye, end, &area) {
            pen.line(Role::BeamEdge, Some(Subject::Sensor), vec![from, to]);
        }
    }
}

/// The target's body with the middle of its face at `centre`: seen edge on, at a slant, or as it lies.
fn body(pen: &Pen<'_>, side: &Side<'_>, target: &PlacedTarget, centre: DVec3) -> Vec<DVec2> {
    let Some(face) = &target.face else { return Vec::new() };
    if target.lies {
        let (from, to) = target.solids.first().map_or((0.0, 0.0), |solid| side.along(&solid.outline));
        return rectangle((from, to), (0.0, target.set.height_mm.max(pen.length(LEAST_MAT_PX))));
    }
    let by = centre - face.centre();
    let depth = target.solids.first().map_or(0.0, |solid| {
        let placed = solid.outline.placed(&target.set.place.inverse()).bounds();
        placed.size().x
    });
    let back = face.normal() * -depth.max(pen.length(LEAST_FACE_PX));
    let corners = face.corners().map(|corner| corner + by);
    let points = corners.iter().flat_map(|&corner| [side.at(corner), side.at(corner + back)]);
    hull(&points.collect::<Vec<_>>()).map_or_else(Vec::new, |hull| hull.outer().to_vec())
}

fn stand(pen: &mut Pen<'_>, side: &Side<'_>, target: &PlacedTarget) {
    let subject = Some(Subject::Stand(target.id.clone()));
    for (i, solid) in target.solids.iter().enumerate().skip(1) {
        let x = side.along(&solid.outline);
        let feet = i == 1;
        let top = if feet { solid.span.top().max(pen.length(LEAST_FEET_PX)) } else { solid.span.top() };
        let role = if feet { Role::StandBase } else { Role::StandMast };
        pen.ring(role, subject.clone(), rectangle(x, (solid.span.bottom(), top)));
    }
}

pub(super) fn names(pen: &mut Pen<'_>, side: &Side<'_>) {
    let style = pen.style(size::LABEL, Weight::SemiBold);
    let zone_style = pen.style(size::SMALL, Weight::SemiBold);
    for (target, placement) in side.scene.targets.iter().zip(&side.arrangement.aiming.placements) {
        let ring = body(pen, side, target, target.centre());
        let Some(around) = Bounds::around(ring.iter().map(|&p| pen.px(p))) else { continue };
        let kind = placement.target.kind;
        let several;
        let text = if side.scene.targets.len() > 1 {
            several = side.words.target_named(kind, target.id.as_str());
            several.as_str()
        } else {
            side.words.target_label(kind)
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
            led: false,
            most_cost: TOO_DEAR,
            under: Some(under_floor(pen)),
        });
    }
    let paper = pen.window.grown(-2.0);
    // As far as it is in the room, its upper right corner last.
    let ring = |pen: &Pen<'_>, zone: &PlacedZone| -> Vec<DVec2> {
        let (from, to) = side.along(&zone.prism.outline);
        let x = (from.clamp(side.room.0, side.room.1), to.clamp(side.room.0, side.room.1));
        let span = zone.prism.span;
        let mut ring = rectangle(x, (span.bottom().max(0.0), span.top())).to_vec();
        ring.rotate_right(1);
        ring.iter().map(|&p| pen.px(p)).collect()
    };
    for zone in &side.scene.zones {
        let others = side.scene.zones.iter().filter(|other| other.id != zone.id);
        let others: Vec<Vec<DVec2>> = others.map(|other| ring(pen, other)).collect();
        let span = zone.prism.span;
        let subject = Subject::Zone(zone.id.clone());
        // What findings speak of goes by the name that they give it.
        let (whole, brief) = if is_told(side.assessment, &subject) {
            (side.words.zone_named(zone.id.as_str(), zone.excludes), zone.id.to_string())
        } else {
            let from_to = (span.bottom(), span.top());
            (side.words.keep_clear(zone.excludes, Some(from_to)), side.words.keep_clear(zone.excludes, None))
        };
        pen.name_zone(&ZoneNamed {
            subject,
            whole: &whole,
            brief: &brief,
            ring: &clip::ring_in_box(&ring(pen, zone), &paper),
            others: &others,
            floor: Some(pen.px(DVec2::ZERO).y),
            style: zone_style,
        });
    }
}
