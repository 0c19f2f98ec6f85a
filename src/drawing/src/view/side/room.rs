//! The room from the side: floor, ceiling, the end walls where the axis meets them, net of a metre.

use baywright_planner::Scene;
use baywright_planner::Subject;
use baywright_planner::geometry::{Bounds, DVec2, PlanPose, Segment};
use baywright_planner::model::{Material, Opening, OpeningKind};

use super::things::Shown;
use super::{Side, rectangle};
use crate::clip;
use crate::lettering::size;
use crate::list::Text;
use crate::role::Role;
use crate::text::{Align, Weight, fitted};
use crate::view::bodies::Astray;
use crate::view::boxes::text_boxes;
use crate::view::fit::WALL_PX;
use crate::view::pen::Pen;
use crate::view::space::{FIRM, Taken};
use crate::view::top::grid_step;

/// From the wall behind to the wall ahead of the car, along the axis.
pub(super) fn between_walls(scene: &Scene, bay_from_axis: &PlanPose) -> Option<(f64, f64)> {
    let stretches =
        clip::line_in_polygon(scene.room.walls(), bay_from_axis.origin(), bay_from_axis.forward());
    let off =
        |&(from, to): &(f64, f64)| if from <= 0.0 && 0.0 <= to { 0.0 } else { from.abs().min(to.abs()) };
    stretches.into_iter().min_by(|a, b| off(a).total_cmp(&off(b)))
}

pub(super) fn draw(pen: &mut Pen<'_>, side: &Side<'_>, shown: &[Shown]) {
    let ceiling = side.arrangement.bay.ceiling_mm;
    let (from, to) = side.room;
    pen.ring(Role::Floor, None, rectangle((from, to), (0.0, ceiling)));
    grid(pen, side, ceiling);

    let thick = pen.length(WALL_PX);
    // The floor also carries what stands in a part of the room that the axis does not cross, as far as it is shown.
    let walls = side.scene.room.walls().bounds().size().element_sum();
    let (least, most) = (from - walls, to + walls);
    let reach = shown
        .iter()
        .filter(|s| least <= s.along.0 && s.along.1 <= most)
        .fold((from, to), |reach, s| (reach.0.min(s.along.0), reach.1.max(s.along.1)));
    let floor = rectangle((reach.0 - thick, reach.1 + thick), (-thick, 0.0));
    pen.ring(Role::Wall(Material::Concrete), Some(Subject::Floor), floor.clone());
    pen.ring(Role::WallLine, None, floor);
    let above = rectangle((from - thick, to + thick), (ceiling, ceiling + thick));
    pen.ring(Role::Wall(Material::Concrete), Some(Subject::Ceiling), above.clone());
    pen.ring(Role::WallLine, None, above);
    // Names keep inside the room, or below its floor.
    let window = pen.window;
    let (floor_at, ceiling_at) = (pen.px(DVec2::new(from, 0.0)), pen.px(DVec2::new(to, ceiling)));
    let under = floor_at.y + WALL_PX;
    let outside = [
        // Nor across the floor: a name there seems to belong to neither side of it.
        Bounds { low: floor_at, high: DVec2::new(ceiling_at.x, under) },
        Bounds { low: window.low, high: DVec2::new(floor_at.x, under) },
        Bounds { low: DVec2::new(ceiling_at.x, window.low.y), high: DVec2::new(window.high.x, under) },
        Bounds { low: window.low, high: DVec2::new(window.high.x, ceiling_at.y) },
    ];
    for place in outside.iter().filter(|b| b.low.cmple(b.high).all()) {
        pen.space.take(*place, Taken::Outside);
    }
    for (at, outward) in [(from, -1.0), (to, 1.0)] {
        end_wall(pen, side, at, outward * thick, ceiling);
    }
    in_floor(pen, side, thick);
    runways(pen, side);
}

fn grid(pen: &mut Pen<'_>, side: &Side<'_>, ceiling: f64) {
    let step = grid_step(pen.scale);
    let (from, to) = side.room;
    for i in 1..=LINES_AT_MOST {
        let height = step * f64::from(i);
        if height >= ceiling {
            break;
        }
        pen.line(Role::Grid, None, vec![DVec2::new(from, height), DVec2::new(to, height)]);
    }
    let first = grid_start(side, step, from);
    for i in 0..LINES_AT_MOST {
        let x = first + step * f64::from(i);
        if x >= to {
            break;
        }
        if x > from {
            pen.line(Role::Grid, None, vec![DVec2::new(x, 0.0), DVec2::new(x, ceiling)]);
        }
    }
}

/// A net of more lines than this is a grey field.
const LINES_AT_MOST: u16 = 1000;

/// The first upright line of the net: under the top view's lines where the axis runs square to the bay, else counted
/// from the wall behind.
fn grid_start(side: &Side<'_>, step: f64, from: f64) -> f64 {
    let ahead = side.bay_from_axis.forward();
    let square = ahead.x.abs().min(ahead.y.abs()) < 1e-9;
    if !square {
        return from + step;
    }
    let origin = (side.axis_from_bay * DVec2::ZERO).x;
    origin + (libm::floor((from - origin) / step) + 1.0) * step
}

/// A wall that the axis meets, with the opening that it meets it in.
fn end_wall(pen: &mut Pen<'_>, side: &Side<'_>, at: f64, thick: f64, ceiling: f64) {
    let hit = side.bay_from_axis.origin() + side.bay_from_axis.forward() * at;
    let edges = side.scene.room.walls().edges().enumerate().take(side.arrangement.bay.walls.len());
    let nearest = edges.min_by(|a, b| a.1.distance_to(hit).total_cmp(&b.1.distance_to(hit)));
    let wall = nearest.and_then(|(i, _)| side.arrangement.bay.walls.get(i));
    let material = wall.map_or(Material::Unknown, |w| w.material);
    let x = (at.min(at + thick), at.max(at + thick));
    pen.ring(Role::Wall(material), wall.map(|w| Subject::Wall(w.id.clone())), rectangle(x, (0.0, ceiling)));
    pen.ring(Role::WallLine, None, rectangle(x, (0.0, ceiling)));
    let Some((index, edge)) = nearest else { return };
    let along = edge.nearest_share(hit) * edge.length();
    let met = |o: &&Opening| o.wall == index && o.from_mm <= along && along <= o.from_mm + o.width_mm;
    for opening in side.arrangement.bay.openings.iter().filter(met) {
        draw_opening(pen, opening, x, ceiling);
    }
}

fn draw_opening(pen: &mut Pen<'_>, opening: &Opening, x: (f64, f64), ceiling: f64) {
    let subject = Some(Subject::Opening(opening.id.clone()));
    let y = (opening.span.bottom().clamp(0.0, ceiling), opening.span.top().clamp(0.0, ceiling));
    pen.ring(Role::Opening, subject.clone(), rectangle(x, y));
    let upright = |share: f64| {
        let at = x.0 + (x.1 - x.0) * share;
        vec![DVec2::new(at, y.0), DVec2::new(at, y.1)]
    };
    match opening.kind {
        OpeningKind::Window => {
            for share in [0.36, 0.64] {
                pen.line(Role::DoorSwing, subject.clone(), upright(share));
            }
        }
        OpeningKind::RollerDoor | OpeningKind::SwingDoor if opening.shut => {
            pen.line(Role::OpeningLine, subject, upright(0.5));
        }
        _ => {}
    }
}

/// Drains, pits and joints that lie under the car's width, as notches in the floor.
fn in_floor(pen: &mut Pen<'_>, side: &Side<'_>, thick: f64) {
    let half = side.arrangement.vehicle.width_mm * 0.5;
    for feature in &side.arrangement.bay.floor_features {
        let extent = side.extent(&feature.outline.clone().into());
        if extent.low.y <= half && -half <= extent.high.y {
            let x = (extent.low.x, extent.high.x);
            let subject = Some(Subject::FloorFeature(feature.id.clone()));
            // Over the floor's hatch: as an opening in it.
            pen.ring(Role::Opening, subject, rectangle(x, (-0.6 * thick, 0.0)));
        }
    }
}

/// Thickness of a runway as drawn, mm: only for looks; what is known of it is its top.
const RUNWAY_MM: f64 = 120.0;

fn runways(pen: &mut Pen<'_>, side: &Side<'_>) {
    for runway in &side.arrangement.bay.runways {
        let x = side.along(&runway.outline.clone().into());
        let y = ((runway.top_mm - RUNWAY_MM).max(0.0), runway.top_mm);
        pen.ring(Role::Runway, Some(Subject::Runway(runway.id.clone())), rectangle(x, y));
    }
}

/// A wall's name on a thing would be the thing's; and what it costs to stand elsewhere than half way up.
const ON_BODY: Astray = Astray { on_other: 120.0, nearer: 0.0, between: 0.0 };
const LATER_COST: f64 = 6.0;

pub(super) fn names(pen: &mut Pen<'_>, side: &Side<'_>) {
    let style = pen.style(size::SMALL, Weight::Regular);
    let ceiling = side.arrangement.bay.ceiling_mm;
    // Names of the end walls, inside and upright along them.
    for (at, inward) in [(side.room.0, 1.0), (side.room.1, -1.0)] {
        let hit = side.bay_from_axis.origin() + side.bay_from_axis.forward() * at;
        let edges = side.scene.room.walls().edges().zip(&side.arrangement.bay.walls);
        let by_distance =
            |a: &(Segment, _), b: &(Segment, _)| a.0.distance_to(hit).total_cmp(&b.0.distance_to(hit));
        let Some((_, wall)) = edges.min_by(by_distance) else { continue };
        let most = ceiling * pen.scale - 8.0;
        let subject = Subject::Wall(wall.id.clone());
        let text = |pen: &Pen<'_>| fitted(wall.id.as_str(), style, most, pen.lettering.measure);
        if pen.name_kept(Role::LabelSoft, Some(&subject), style, text).is_some() {
            continue;
        }
        let Some(text) = text(pen) else { continue };
        let off = inward * pen.length(style.line_height() * 0.5 + 4.0);
        let half = pen.length(text.width * 0.5 + 4.0);
        let mut best: Option<(f64, Text)> = None;
        for (later, share) in (0_u8..).zip([0.5, 0.72, 0.28, 0.86]) {
            let up = (ceiling * share).clamp(half, (ceiling - half).max(half));
            let mut label = pen.text(DVec2::new(at + off, up), &text.text, style, Align::Middle);
            label.angle = std::f64::consts::FRAC_PI_2;
            label.masked = true;
            let on_bodies: f64 = text_boxes(pen.px(label.at), &label)
                .map(|place| pen.bodies.cost(None, None, &place, ON_BODY))
                .sum();
            let cost = f64::from(later) * LATER_COST + on_bodies + pen.text_cost(&label);
            if best.as_ref().is_none_or(|(least, _)| cost < *least) {
                best = Some((cost, label));
            }
        }
        if let Some((_, label)) = best.filter(|(cost, _)| *cost < FIRM) {
            pen.put_text(Role::LabelSoft, Some(subject), label);
        }
    }
    let (from, to) = side.room;
    pen.take_line(DVec2::new(from, 0.0), DVec2::new(to, 0.0), Taken::Line);
}
