//! What of the sensor itself is drawn: its field of view, its beam, where it believes echoes to come from, and the degrees.

use baywright_planner::Subject;
use baywright_planner::echoes::{Echo, How};
use baywright_planner::geometry::{DVec2, DVec3, angle};
use baywright_planner::model::assumed::SensorPart;

use super::Look;
use super::angles::{arc, ring};
use crate::clip;
use crate::lettering::size;
use crate::list::Shape;
use crate::role::Role;
use crate::text::{Align, Weight};
use crate::view::pen::Pen;
use crate::view::space::{FIRM, Taken, around};

/// The net on the floor: a metre.
const NET_MM: f64 = 1000.0;
/// Of a larger room than this many metres the net is left out beyond.
const MOST_LINES: u32 = 200;
/// A ring where the sensor believes an echo of which nothing more is shown, px; one that is in hand is as large as in the other views.
const BELIEVED_PX: f64 = 4.0;
const IN_HAND_PX: f64 = 6.0;
/// Rings that lie nearer together than this share one number, px.
const TOGETHER_PX: f64 = 12.0;
/// Half of the cross at the axis, px, and a tick at the edge.
const AXIS_PX: f64 = 9.0;
const TICK_PX: f64 = 6.0;
/// From one tick to the next at least, px before it is enlarged; and the steps that are tried, degrees.
const STEP_PX: f64 = 64.0;
const STEPS: [f64; 5] = [5.0, 10.0, 15.0, 20.0, 30.0];
/// Sides of the beam's outline.
const SIDES: i32 = 72;

/// What lies under everything: the ground of the picture, the floor's net of metres, what is let into the floor.
pub(super) fn ground(pen: &mut Pen<'_>, look: &Look<'_>) {
    let half = look.frame.half;
    pen.ring(Role::Floor, None, rectangle(half * 1.1));
    let sensor_from_bay = look.scene.bay_from_sensor.inverse();
    let own = |p: DVec2| sensor_from_bay * p.extend(0.0);
    let seen = |points: &[DVec2]| {
        let cut = look.frame.cut(points.iter().map(|&p| own(p)).collect());
        (cut.len() >= 3).then(|| ring(&cut))
    };
    for (_, beyond) in look.scene.room.grounds() {
        if let Some(ring) = seen(beyond.outer()) {
            pen.ring(Role::Beyond, None, ring);
        }
    }
    for feature in &look.arrangement.bay.floor_features {
        if let Some(ring) = seen(feature.outline.outer()).filter(|_| feature.solid().is_none()) {
            pen.ring(Role::FloorFeature(feature.kind), Some(Subject::FloorFeature(feature.id.clone())), ring);
        }
    }
    let walls = look.scene.room.walls();
    let bounds = walls.bounds();
    for (along, across) in [(DVec2::X, DVec2::Y), (DVec2::Y, DVec2::X)] {
        let (from, to) = (bounds.low.dot(across), bounds.high.dot(across));
        let lines = (0..MOST_LINES).map(|i| ((from / NET_MM).floor() + 1.0 + f64::from(i)) * NET_MM);
        for at in lines.take_while(|at| *at < to) {
            let on = across * at;
            for (enter, leave) in clip::line_in_polygon(walls, on, along) {
                if let Some(cut) = look.frame.cut_line(own(on + along * enter), own(on + along * leave)) {
                    pen.line(Role::Grid, None, arc(&cut));
                }
            }
        }
    }
}

/// What is drawn over what is seen: field of view, beam, echoes; the target's place is kept free of names.
pub(super) fn over(pen: &mut Pen<'_>, look: &Look<'_>) {
    field(pen, look);
    let reach = pen.length(AXIS_PX);
    for by in [DVec2::X, DVec2::Y] {
        pen.line(Role::CentreLine, None, vec![by * -reach, by * reach]);
    }
    beam(pen, look);
    for (nth, echo) in look.of.echoes.iter().enumerate() {
        let is_in_hand = look.state.echo.as_ref().is_some_and(|own| **own == **echo);
        if !is_in_hand {
            believed(pen, look, echo, BELIEVED_PX);
        }
        let first = look.of.echoes.iter().take(nth).any(|other| near(pen, look, echo, other));
        if look.of.is_numbered && !first {
            number(pen, look, nth);
        }
    }
    if let Some(echo) = &look.state.echo {
        in_hand(pen, look, echo);
    }
}

fn near(pen: &Pen<'_>, look: &Look<'_>, echo: &Echo, other: &Echo) -> bool {
    match (look.at(echo.heard.believed), look.at(other.heard.believed)) {
        (Some(one), Some(other)) => one.distance(other) * pen.scale < TOGETHER_PX * pen.enlarged,
        _ => false,
    }
}

/// The numbers of an echo and of all that are believed where it is, beside its ring.
fn number(pen: &mut Pen<'_>, look: &Look<'_>, nth: usize) {
    let Some((echo, at)) = look.of.echoes.get(nth).and_then(|own| Some((own, look.at(own.heard.believed)?)))
    else {
        return;
    };
    let all = look.of.echoes.iter().enumerate().skip(nth);
    let all = all.filter(|(at, other)| *at == nth || near(pen, look, echo, other));
    let text = all.map(|(at, _)| (at + 1).to_string()).collect::<Vec<_>>().join(", ");
    let style = pen.style(size::LABEL, Weight::Bold);
    let text = pen.measured(&text, style);
    let places = Pen::round_about(pen.px(at), BELIEVED_PX * pen.enlarged + 3.0, style);
    if let Some((_, at, align)) = pen.cheapest(text.width, style, places) {
        pen.put_level(Role::DimensionCare, None, text, style, (at, align));
    }
}

fn believed(pen: &mut Pen<'_>, look: &Look<'_>, echo: &Echo, radius_px: f64) {
    let Some(centre) = look.at(echo.heard.believed) else { return };
    let radius = pen.length(radius_px * pen.enlarged);
    pen.push(Role::EchoBelieved, None, Shape::Disc { centre, radius });
    let px = pen.px(centre);
    pen.space.take(around(px, DVec2::splat(radius_px * pen.enlarged + 1.0)), Taken::Firm);
}

/// The echo that is in hand: its way between what sends it on, and, of the target seen once more, the target where it is believed.
fn in_hand(pen: &mut Pen<'_>, look: &Look<'_>, echo: &Echo) {
    let own = |p: DVec3| look.scene.bay_from_sensor.inverse() * p;
    // The first and the last leg are seen end on.
    let between = echo.way.get(1..echo.way.len().saturating_sub(1)).unwrap_or_default();
    for pair in between.windows(2) {
        if let [from, to] = *pair
            && let Some(cut) = look.frame.cut_line(own(from), own(to))
        {
            pen.line(Role::EchoWay, None, arc(&cut));
        }
    }
    if let (How::TargetBy { .. }, Some(from), Some(face)) = (&echo.how, look.of.own, &look.target.face) {
        let by = echo.heard.believed - from;
        let cut = look.frame.cut(face.corners().map(|corner| own(corner + by)).to_vec());
        pen.ring(Role::EchoGhost, None, ring(&cut));
    }
    believed(pen, look, echo, IN_HAND_PX);
}

fn rectangle(half: DVec2) -> Vec<DVec2> {
    [(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)].map(|(x, y)| half * DVec2::new(x, y)).to_vec()
}

/// The field of view, as far as the picture has it.
fn field(pen: &mut Pen<'_>, look: &Look<'_>) {
    let sensor = &look.arrangement.sensor;
    let half = [sensor.view.azimuth_half_rad, sensor.view.elevation_half_rad];
    let ring = if sensor.has_flat_picture() {
        // The corners of a flat picture a unit ahead, whose edges are straight.
        let [y, z] = half.map(libm::tan);
        ring(&[(y, z), (-y, z), (-y, -z), (y, -z)].map(|(y, z)| DVec3::new(1.0, y, z)))
    } else {
        rectangle(DVec2::from(half.map(angle::degrees)))
    };
    let top = ring.iter().map(|p| p.y).fold(f64::MIN, f64::max);
    let left = ring.iter().map(|p| p.x).fold(f64::MAX, f64::min).max(-look.frame.half.x);
    pen.line(Role::ViewEdge, Some(Subject::Sensor), ring.iter().chain(ring.first()).copied().collect());
    let texts = look.words.locale().language.echoes();
    if top < look.frame.half.y {
        beside(
            pen,
            texts.field,
            &[(DVec2::new(left, top), Align::Start, 1.0), (DVec2::new(left, -top), Align::Start, -1.0)],
        );
    }
}

/// The outline of the beam at half power: of a radar, by its widths left to right and up and down.
fn beam(pen: &mut Pen<'_>, look: &Look<'_>) {
    let Some(radar) = look.arrangement.sensor.kind.radar() else { return };
    let half = DVec2::new(radar.beam_azimuth_rad, radar.beam_elevation_rad) * 0.5;
    let half = DVec2::new(angle::degrees(half.x), angle::degrees(half.y));
    let turn = |i: i32| angle::direction(std::f64::consts::TAU * f64::from(i) / f64::from(SIDES)) * half;
    pen.line(Role::BeamWidth, Some(Subject::Sensor), (0..=SIDES).map(turn).collect());
    let texts = look.words.locale().language.echoes();
    let is_assumed =
        look.arrangement.vehicle.assumed.contains(&SensorPart::Kind.of(&look.arrangement.sensor.id));
    let text = if is_assumed { texts.beam_assumed } else { texts.beam };
    let (top, foot) = (DVec2::new(0.0, half.y), DVec2::new(0.0, -half.y));
    beside(pen, text, &[(top, Align::Middle, 1.0), (foot, Align::Middle, -1.0)]);
}

/// What an outline is, over or under one of some places of it, each with the part of the text that stands there and which way is out.
fn beside(pen: &mut Pen<'_>, text: &str, places: &[(DVec2, Align, f64)]) {
    let style = pen.style(size::SMALL, Weight::SemiBold);
    let text = pen.measured(text, style);
    let off = style.line_height() * 0.5 + 2.0;
    let tried: Vec<_> = (0_u8..)
        .zip(places)
        .map(|(later, &(at, align, out))| {
            let inside = if align == Align::Start { DVec2::X * 6.0 } else { DVec2::ZERO };
            (f64::from(later) * 20.0, pen.px(at) + inside - DVec2::Y * (out * off), align)
        })
        .collect();
    if let Some((_, at, align)) =
        pen.cheapest(text.width, style, tried.into_iter()).filter(|(cost, ..)| *cost < FIRM)
    {
        pen.put_level(Role::LabelZone, None, text, style, (at, align));
    }
}

/// The edge of the picture with its degrees.
pub(super) fn edge(pen: &mut Pen<'_>, half: DVec2) {
    let inset = DVec2::splat(pen.length(0.5));
    let ring = rectangle(half - inset);
    pen.line(Role::Dimension, None, ring.iter().chain(ring.first()).copied().collect());
    let style = pen.style(size::SMALL, Weight::Regular);
    let texts = pen.lettering.locale.language.echoes();
    let tick = pen.length(TICK_PX);
    for (is_across, half_own) in [(true, half.x), (false, half.y)] {
        let wanted = if is_across { STEP_PX * 1.25 } else { STEP_PX * 0.8 } * pen.enlarged;
        let step = STEPS.into_iter().find(|step| step * pen.scale >= wanted).unwrap_or(45.0);
        let count = (half_own / step).floor().clamp(0.0, 20.0) as i32;
        for i in -count..=count {
            let at = step * f64::from(i);
            let (from, inward) = if is_across {
                (DVec2::new(at, -half.y), DVec2::Y)
            } else {
                (DVec2::new(-half.x, at), DVec2::X)
            };
            pen.line(Role::Dimension, None, vec![from, from + inward * tick]);
            let text = pen.measured(&texts.direction(at, is_across), style);
            let off = inward * tick
                + if is_across {
                    DVec2::Y * pen.length(style.line_height() * 0.5)
                } else {
                    DVec2::X * pen.length(4.0)
                };
            let align = if is_across { Align::Middle } else { Align::Start };
            let place = (pen.px(from + off), align);
            let taken = pen.level_box(place.0, align, text.width, style);
            let is_inside = pen.window.holds(taken.low) && pen.window.holds(taken.high);
            if is_inside && pen.space.cost(taken) < FIRM {
                pen.put_level(Role::LabelSoft, None, text, style, place);
            }
        }
    }
}
