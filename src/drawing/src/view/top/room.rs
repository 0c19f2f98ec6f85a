//! The room from above: floor, net of a metre, walls with their openings, what is in the floor.

use baywright_planner::Subject;
use baywright_planner::geometry::{DVec2, Polygon, Segment};
use baywright_planner::model::{Material, Opening, OpeningKind};

use super::{Top, bays};
use crate::clip;
use crate::lettering::size;
use crate::list::{Shape, Text};
use crate::role::Role;
use crate::sign::SignKind;
use crate::text::{Align, Weight, fitted};
use crate::view::fit::WALL_PX;
use crate::view::label::Wanted;
use crate::view::pen::{MARK_PX, Pen, area, readable};
use crate::view::space::Taken;

/// Lines of the net nearer than this merge into grey, px: then every second, fifth ... is drawn.
const NEAREST_GRID_PX: f64 = 18.0;

pub(super) fn draw(pen: &mut Pen<'_>, top: &Top<'_>) {
    let walls = top.scene.room.walls();
    pen.push(Role::Floor, Some(Subject::Floor), area(walls, &top.view_from_bay));
    grid(pen, top, walls);
    beyond(pen, top);
    on_floor(pen, top);
    masonry(pen, top, walls);
    for opening in &top.arrangement.bay.openings {
        if let Some(edge) = walls.edges().nth(opening.wall) {
            draw_opening(pen, top, opening, &edge);
        }
    }
}

fn grid(pen: &mut Pen<'_>, top: &Top<'_>, walls: &Polygon) {
    let step = grid_step(pen.scale);
    let bounds = walls.bounds();
    for (along, across, low, high) in
        [(DVec2::Y, DVec2::X, bounds.low.x, bounds.high.x), (DVec2::X, DVec2::Y, bounds.low.y, bounds.high.y)]
    {
        let first = libm::floor(low / step) + 1.0;
        let count = (libm::ceil(high / step) - first).clamp(0.0, 1000.0) as usize;
        for i in 0..count {
            let on = across * (step * (first + i as f64));
            for (from, to) in clip::line_in_polygon(walls, on, along) {
                let line = vec![top.at(on + along * from), top.at(on + along * to)];
                pen.line(Role::Grid, None, line);
            }
        }
    }
}

/// The net's step, mm: a metre, or more where a metre is too small on the paper.
pub(crate) fn grid_step(px_per_mm: f64) -> f64 {
    let steps = [1e3, 2e3, 5e3, 1e4, 2e4, 5e4, 1e5, 2e5, 5e5, 1e6];
    steps.into_iter().find(|step| step * px_per_mm >= NEAREST_GRID_PX).unwrap_or(1e7)
}

fn beyond(pen: &mut Pen<'_>, top: &Top<'_>) {
    for opening in &top.arrangement.bay.openings {
        let open = !opening.shut && opening.free_beyond_mm > 0.0 && opening.kind != OpeningKind::Window;
        let Some(edge) = top.scene.room.walls().edges().nth(opening.wall).filter(|_| open) else { continue };
        let [from, to] = ends(opening, &edge);
        let out = outwards(&edge) * opening.free_beyond_mm;
        let ring = [from, from + out, to + out, to].map(|p| top.at(p)).to_vec();
        pen.ring(Role::Beyond, Some(Subject::Opening(opening.id.clone())), ring);
    }
}

fn on_floor(pen: &mut Pen<'_>, top: &Top<'_>) {
    let bay = &top.arrangement.bay;
    bays::draw(pen, top);
    for keep in &bay.keep_free {
        pen.push(
            Role::KeepFree,
            Some(Subject::KeepFree(keep.id.clone())),
            area(&keep.outline, &top.view_from_bay),
        );
        let px = keep.outline.outer().iter().map(|&p| pen.px(top.at(p)));
        if let Some(place) = baywright_planner::geometry::Bounds::around(px) {
            pen.space.take(place, Taken::Free);
        }
    }
    for runway in &bay.runways {
        pen.push(
            Role::Runway,
            Some(Subject::Runway(runway.id.clone())),
            area(&runway.outline, &top.view_from_bay),
        );
    }
    for feature in &bay.floor_features {
        let role = Role::FloorFeature(feature.kind);
        pen.push(
            role,
            Some(Subject::FloorFeature(feature.id.clone())),
            area(&feature.outline, &top.view_from_bay),
        );
        let px = feature.outline.outer().iter().map(|&p| pen.px(top.at(p)));
        if let Some(place) = baywright_planner::geometry::Bounds::around(px) {
            pen.space.take(place, Taken::Body);
        }
    }
    for mark in &bay.marks {
        let at = top.at(mark.at);
        pen.sign(
            Role::PermanentMark,
            Some(Subject::Mark(mark.id.clone())),
            at,
            SignKind::BoxedCross,
            MARK_PX,
        );
    }
}

fn masonry(pen: &mut Pen<'_>, top: &Top<'_>, walls: &Polygon) {
    let inner = top.ring(walls.outer());
    let outer = clip::pushed_out(&inner, pen.length(WALL_PX));
    let around = |ring: &[DVec2]| ring.iter().copied().cycle().skip(1).take(ring.len()).collect::<Vec<_>>();
    let (inner_next, outer_next) = (around(&inner), around(&outer));
    let corners = inner.iter().zip(&outer).zip(inner_next.iter().zip(&outer_next));
    let named = top.arrangement.bay.walls.iter().map(Some).chain(std::iter::repeat(None));
    for (((&a, &b), (&c, &d)), wall) in corners.zip(named) {
        let material = wall.map_or(Material::Unknown, |w| w.material);
        pen.ring(Role::Wall(material), wall.map(|w| Subject::Wall(w.id.clone())), vec![a, b, d, c]);
    }
    for hole in walls.holes() {
        pen.ring(Role::Wall(Material::Concrete), None, top.ring(hole));
        pen.ring(Role::WallLine, None, top.ring(hole));
    }
    for ((&a, &b), (&c, &d)) in inner.iter().zip(&inner_next).zip(outer.iter().zip(&outer_next)) {
        pen.take_line(a, b, Taken::Wall);
        pen.take_line(c, d, Taken::Wall);
    }
    pen.ring(Role::WallLine, None, inner);
    pen.ring(Role::WallLine, None, outer);
}

/// The ends of an opening on the wall's inner face.
fn ends(opening: &Opening, edge: &Segment) -> [DVec2; 2] {
    let along = (edge.to - edge.from).normalize_or_zero();
    [edge.from + along * opening.from_mm, edge.from + along * (opening.from_mm + opening.width_mm)]
}

/// Out of the room: the inside lies left of an edge.
fn outwards(edge: &Segment) -> DVec2 {
    -(edge.to - edge.from).normalize_or_zero().perp()
}

fn draw_opening(pen: &mut Pen<'_>, top: &Top<'_>, opening: &Opening, edge: &Segment) {
    let subject = Some(Subject::Opening(opening.id.clone()));
    let [from, to] = ends(opening, edge).map(|p| top.at(p));
    let thick = top.view_from_bay.turned(outwards(edge)) * pen.length(WALL_PX);
    let line = |a: DVec2, b: DVec2, share: f64| vec![a + thick * share, b + thick * share];
    pen.ring(Role::Opening, subject.clone(), vec![from, from + thick, to + thick, to]);
    match opening.kind {
        OpeningKind::Gap => {}
        OpeningKind::Window => {
            for share in [0.36, 0.64] {
                pen.line(Role::DoorSwing, subject.clone(), line(from, to, share));
            }
        }
        OpeningKind::RollerDoor if opening.shut => pen.line(Role::OpeningLine, subject, line(from, to, 0.5)),
        OpeningKind::RollerDoor => {
            // Rolled up: only the ends of its tracks are left on the floor.
            let stub = (to - from).normalize_or_zero() * pen.length(6.0);
            pen.line(Role::OpeningLine, subject.clone(), line(from, from + stub, 0.5));
            pen.line(Role::OpeningLine, subject, line(to - stub, to, 0.5));
        }
        OpeningKind::SwingDoor => {
            let leaf = to - from;
            let inward = -thick.normalize_or_zero() * leaf.length();
            let arc: Vec<DVec2> = (0..=ARC_STEPS)
                .map(|i| {
                    let turn = std::f64::consts::FRAC_PI_2 * f64::from(i) / f64::from(ARC_STEPS);
                    let (sin, cos) = libm::sincos(turn);
                    from + leaf * cos + inward * sin
                })
                .collect();
            pen.line(Role::DoorSwing, subject.clone(), arc);
            let leaf_to = if opening.shut { to } else { from + inward };
            pen.line(Role::OpeningLine, subject, vec![from, leaf_to]);
        }
    }
}

/// A quarter turn in this many steps looks round at any zoom.
const ARC_STEPS: i32 = 12;

pub(super) fn names(pen: &mut Pen<'_>, top: &Top<'_>) {
    let bay = &top.arrangement.bay;
    bays::names(pen, top, false);
    for keep in &bay.keep_free {
        let text = top.words.keep_free(keep.id.as_str());
        let texts = (text.as_str(), Some(keep.id.as_str()));
        name_area(pen, top, texts, Subject::KeepFree(keep.id.clone()), &keep.outline);
    }
    for opening in &bay.openings {
        let Some(edge) = top.scene.room.walls().edges().nth(opening.wall) else { continue };
        let [from, to] = ends(opening, &edge);
        let subject = Subject::Opening(opening.id.clone());
        along_wall(pen, top, &top.words.opening(opening), subject, Segment::new(from, to), &edge);
    }
    for (wall, edge) in bay.walls.iter().zip(top.scene.room.walls().edges()) {
        let free = wall_without_openings(
            &edge,
            bay.openings.iter().filter(|o| bay.walls.get(o.wall).is_some_and(|w| w.id == wall.id)),
        );
        along_wall(pen, top, wall.id.as_str(), Subject::Wall(wall.id.clone()), free, &edge);
    }
    for feature in &bay.floor_features {
        let text = top.words.floor_feature(feature.id.as_str(), feature.kind);
        let subject = Subject::FloorFeature(feature.id.clone());
        name_area(pen, top, (&text, None), subject, &feature.outline);
    }
    for runway in &bay.runways {
        let subject = Subject::Runway(runway.id.clone());
        name_area(pen, top, (runway.id.as_str(), None), subject, &runway.outline);
    }
}

/// The longest stretch of a wall that no opening takes.
fn wall_without_openings<'o>(edge: &Segment, openings: impl Iterator<Item = &'o Opening>) -> Segment {
    let length = edge.length();
    let mut taken: Vec<(f64, f64)> = openings.map(|o| (o.from_mm, o.from_mm + o.width_mm)).collect();
    taken.sort_by(|a, b| a.0.total_cmp(&b.0));
    taken.push((length, length));
    let (mut at, mut best) = (0.0, (0.0, 0.0));
    for (from, to) in taken {
        if from - at > best.1 - best.0 {
            best = (at, from);
        }
        at = f64::max(at, to);
    }
    let share = |d: f64| if length > 0.0 { d / length } else { 0.0 };
    Segment::new(edge.at(share(best.0)), edge.at(share(best.1)))
}

/// A name outside a wall, along it: at the middle of a stretch, or beside that where it is taken.
fn along_wall(
    pen: &mut Pen<'_>,
    top: &Top<'_>,
    text: &str,
    subject: Subject,
    stretch: Segment,
    edge: &Segment,
) {
    let style = pen.style(size::SMALL, Weight::Regular);
    let wall = edge.length() * pen.scale;
    let text = |pen: &Pen<'_>| fitted(text, style, (wall - 4.0).max(0.0), pen.lettering.measure);
    if pen.name_kept(Role::LabelSoft, Some(&subject), style, text).is_some() {
        return;
    }
    let Some(text) = text(pen) else { return };
    let out = top.view_from_bay.turned(outwards(edge));
    let off = out * pen.length(WALL_PX + 3.0 + style.line_height() * 0.5);
    let angle = readable(top.view_from_bay.turned(edge.to - edge.from));
    // It may be longer than the stretch, but does not run past the wall's ends.
    let half = (text.width * 0.5 + 2.0).min(wall * 0.5);
    let on_wall = |share: f64| {
        let along = edge.nearest_share(stretch.at(share)) * wall;
        edge.at(along.clamp(half, wall - half) / wall.max(1.0))
    };
    let mut best: Option<(f64, Text)> = None;
    // Outside; inside only where the set-up reaches out along the whole wall.
    for (side, extra) in [(1.0, 0.0), (-1.0, INSIDE_COST)] {
        for (step, share) in (0_u8..).zip([0.5, 0.25, 0.75, 0.1, 0.9, 0.0, 1.0]) {
            let extra = extra + f64::from(step);
            if best.as_ref().is_some_and(|(least, _)| extra >= *least) {
                break;
            }
            let foot = top.at(on_wall(share));
            let at = if side > 0.0 {
                foot + off
            } else {
                foot - out * pen.length(4.0 + style.line_height() * 0.5)
            };
            let mut label = pen.text(at, &text.text, style, Align::Middle);
            label.angle = angle;
            label.masked = side < 0.0;
            let cost = extra + pen.text_cost(&label);
            if best.as_ref().is_none_or(|(least, _)| cost < *least) {
                best = Some((cost, label));
            }
        }
    }
    if let Some((cost, label)) = best
        && cost < WALL_NAME_COST
    {
        pen.put_text(Role::LabelSoft, Some(subject), label);
    }
}

/// From this cost on the name of a spot of the floor is left out: across a wall or on a thing it would name nothing.
const AREA_NAME_COST: f64 = 100.0;
/// From this cost on a wall's name is left out: along a dimension's line, say, neither could be read.
const WALL_NAME_COST: f64 = 50.0;
/// What it costs a wall's name to stand inside the room.
const INSIDE_COST: f64 = 30.0;

fn name_area(
    pen: &mut Pen<'_>,
    top: &Top<'_>,
    (text, brief): (&str, Option<&str>),
    subject: Subject,
    outline: &Polygon,
) {
    let Shape::Area(rings) = area(outline, &top.view_from_bay) else { return };
    let px = rings.iter().flatten().map(|&p| pen.px(p));
    let Some(around) = baywright_planner::geometry::Bounds::around(px) else { return };
    // What is off the paper is not named on it.
    if !pen.window.meets(&around) {
        return;
    }
    let style = pen.style(size::SMALL, Weight::Regular);
    // What is to stay free is empty: it has room for its name.
    let inside = matches!(subject, Subject::KeepFree(_));
    pen.name(Wanted {
        text,
        brief,
        role: Role::LabelSoft,
        subject: Some(subject),
        style,
        around,
        most_width: 250.0 * pen.enlarged,
        must: false,
        inside,
        body: inside.then_some(Taken::Free),
        led: inside,
        most_cost: AREA_NAME_COST,
        under: None,
    });
}
