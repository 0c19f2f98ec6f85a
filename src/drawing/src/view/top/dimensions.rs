//! Distances on the top view: stand-offs with both ends named, the room's size, and whatever is in hand.

use baywright_planner::Subject;
use baywright_planner::geometry::{DVec2, angle};
use baywright_planner::hand::kept_ends;
use baywright_planner::model::{End, Placement};
use baywright_planner::scene::PlacedTarget;

use super::Top;
use crate::lettering::size;
use crate::list::Dimension;
use crate::role::Role;
use crate::text::Weight;
use crate::view::extents::drawn_box;
use crate::view::fit::WALL_PX;
use crate::view::label::TOO_DEAR;
use crate::view::pen::Pen;
use crate::view::space::{FIRM, Taken};

/// Ends of two stand-offs nearer than this are one, mm.
const AGREE_MM: f64 = 0.5;
/// From the walls out to the overall dimensions, px.
const ROOM_OFF_PX: f64 = 36.0;

/// Distances of what is in hand. One whose figure has no free place anywhere is a line alone: what is said of a stop is not covered.
pub(super) fn live(pen: &mut Pen<'_>, top: &Top<'_>) {
    for live in &top.state.live {
        let (from, to) = (top.at(live.from), top.at(live.to));
        let along = (to - from).normalize_or_zero();
        if along == DVec2::ZERO || !along.is_finite() {
            continue;
        }
        let (role, subject) = (Role::LiveDimension, &top.state.selected);
        let kept = pen.moving_dimension(role, subject.as_ref(), (from, to), along, &live.text);
        if let Some((_, kept)) = kept.as_ref().filter(|(cost, _)| *cost < TOO_DEAR) {
            pen.put_dimension(role, subject.clone(), kept.clone());
            continue;
        }
        let dimension = pen.dimension(from, to, along, from, &live.text);
        let (worse, freest) = pen.text_freest(dimension);
        let freest_cost = worse + pen.text_cost(&freest.text);
        let stays = kept.filter(|(cost, _)| *cost < freest_cost + STAYING_COST);
        let dimension = stays.map_or(freest, |(_, kept)| kept);
        put_if_free(pen, role, subject.clone(), (from, to), dimension);
    }
}

/// A figure that moves goes elsewhere only if that is so much cheaper: between two that are alike it would go to and fro.
const STAYING_COST: f64 = 130.0;

/// Puts a dimension that stands at its own line if its figure covers nothing that must stay seen; else its line alone.
fn put_if_free(
    pen: &mut Pen<'_>,
    role: Role,
    subject: Option<Subject>,
    (from, to): (DVec2, DVec2),
    dimension: Dimension,
) {
    if pen.text_cost(&dimension.text) < FIRM {
        pen.put_dimension(role, subject, dimension);
    } else {
        pen.take_line(from, to, Taken::Line);
        pen.line(role, subject, vec![from, to]);
    }
}

/// Dimensions that are kept with the bay, straight between their ends. One whose figure has no free place anywhere is a line
/// alone: the figure stands in the list.
pub(super) fn kept(pen: &mut Pen<'_>, top: &Top<'_>) {
    for own in &top.arrangement.bay.dimensions {
        let [a, b] = kept_ends(top.arrangement, top.scene, own);
        let (from, to) = (top.at(a.at), top.at(b.at));
        let along = (to - from).normalize_or_zero();
        if along == DVec2::ZERO || !along.is_finite() {
            continue;
        }
        let text = top.words.kept_dimension(a.at.distance(b.at), a.is_gone || b.is_gone);
        let (role, subject) = (Role::KeptDimension, Some(Subject::Dimension(own.id.clone())));
        if let Some(still) = pen.still_dimension(role, subject.as_ref(), (from, to), &[&text]) {
            pen.put_dimension(role, subject, still);
            continue;
        }
        let dimension = pen.dimension(from, to, along, from, &text);
        let (_, dimension) = pen.text_freest(dimension);
        put_if_free(pen, role, subject, (from, to), dimension);
    }
}

/// Both ends of a stand-off in the bay, and its direction. The end is where the target belongs, by its procedure.
fn ends(top: &Top<'_>, placement: &Placement, target: &PlacedTarget) -> (DVec2, DVec2, DVec2) {
    let stand_off = &placement.stand_off;
    let meant = &target.meant.place;
    let away = angle::direction(top.scene.bay_from_axis.heading() + stand_off.bearing_rad);
    let behind = match stand_off.to {
        End::Face => 0.0,
        End::ReflectorCentre => placement.target.centre_behind_mm,
    };
    let end = meant.origin() - meant.forward() * behind;
    (target.starts_at, end, away)
}

/// A stand-off as it is told, bay frame.
struct StandOff<'a> {
    placement: &'a Placement,
    from: DVec2,
    to: DVec2,
    along: DVec2,
    text: String,
}

pub(super) fn stand_offs(pen: &mut Pen<'_>, top: &Top<'_>) {
    let mut told: Vec<StandOff<'_>> = Vec::new();
    for (placement, target) in top.arrangement.aiming.placements.iter().zip(&top.scene.targets) {
        let (from, to, along) = ends(top, placement, target);
        let same = |own: &StandOff<'_>| {
            let (df, dt) = (from - own.from, to - own.to);
            df.dot(along).abs() < AGREE_MM && dt.dot(along).abs() < AGREE_MM
        };
        // Two targets abreast need it told once.
        if !told.iter().any(same) {
            told.push(StandOff { placement, from, to, along, text: top.words.stand_off(placement) });
        }
    }
    for own in &told {
        // Of two that read alike each says whose it is.
        let alike = told.iter().filter(|other| other.text == own.text).count() > 1;
        let text = if alike { top.words.stand_off_of(own.placement) } else { own.text.clone() };
        let (from, to) = (top.at(own.from), top.at(own.to));
        let along = top.view_from_bay.turned(own.along);
        // Where all of it has no room the figure alone: the list names its ends.
        let bare = top.words.dimension((own.to - own.from).dot(own.along));
        let (role, subject) = (Role::Dimension, Some(Subject::Target(own.placement.id.clone())));
        if let Some(still) = pen.still_dimension(role, subject.as_ref(), (from, to), &[&text, &bare]) {
            pen.put_dimension(role, subject, still);
            continue;
        }
        // Beside the car and its marks, on whichever side and as near as it stands free.
        let straight_on =
            along.dot(top.view_from_bay.turned(top.scene.bay_from_axis.forward())).abs() > STRAIGHT_ON;
        let half = if straight_on { top.arrangement.vehicle.width_mm * 0.5 } else { pen.length(10.0) };
        let mut best: Option<(f64, Dimension)> = None;
        let said = [(0.0, text), (BARE_COST, bare)];
        let places = (0..STEPS).flat_map(|step| [-1.0, 1.0].map(|side| (step, side)));
        for ((brief, text), (step, side)) in
            said.iter().flat_map(|own| places.clone().map(move |at| (own, at)))
        {
            let off = half + pen.length((FIRST_OFF_PX + STEP_PX * f64::from(step)) * pen.enlarged);
            let through = from + along.perp() * (side * off);
            let extra = brief + f64::from(step) * STEP_COST + if side > 0.0 { LEFT_COST } else { 0.0 };
            if best.as_ref().is_some_and(|(least, _)| extra >= *least) {
                continue;
            }
            let dimension = pen.dimension(from, to, along, through, text);
            let (worse, dimension) = pen.text_freest(dimension);
            let cost = line_cost(pen, &dimension) + extra + worse;
            if best.as_ref().is_none_or(|(least, _)| cost < *least) {
                best = Some((cost, dimension));
            }
        }
        // Where it would lie on what is read already neither could be read; the list has it too.
        if let Some((_, dimension)) = best.filter(|(cost, _)| *cost < FIRM) {
            pen.put_dimension(role, subject, dimension);
        }
    }
}

/// Cosine above which a stand-off runs along the car, and its dimension stands beside the car.
const STRAIGHT_ON: f64 = 0.9;
/// How many places beside the car are tried on each side, how far the first is off the body and the next off it, px.
const STEPS: u8 = 14;
/// What a step further off costs, and to stand on the car's left: a mask over a line is better than a far dimension.
const STEP_COST: f64 = 12.0;
const LEFT_COST: f64 = 8.0;
/// What it costs to leave out what it is measured between: less than to lie on a wall or on the car.
const BARE_COST: f64 = 90.0;
const FIRST_OFF_PX: f64 = 26.0;
const STEP_PX: f64 = 14.0;

/// What a dimension would cover: its text, and marks or texts under its line.
pub(super) fn line_cost(pen: &Pen<'_>, dimension: &Dimension) -> f64 {
    let mut cost = pen.text_cost(&dimension.text);
    let (from, to) = (pen.px(dimension.line_from), pen.px(dimension.line_to));
    let steps = (from.distance(to) / 16.0).clamp(1.0, 64.0) as usize;
    for i in 0..=steps {
        let p = from.lerp(to, i as f64 / steps as f64);
        if pen.space.cost(crate::view::space::around(p, DVec2::splat(6.0))) >= FIRM {
            cost += FIRM * 0.01;
        }
    }
    cost
}

/// The room's length and width, outside its walls.
pub(super) fn room(pen: &mut Pen<'_>, top: &Top<'_>) {
    let bounds = top.scene.room.walls().bounds();
    let off = pen.length(WALL_PX + (ROOM_OFF_PX - WALL_PX) * pen.enlarged);
    let (low, high) = (bounds.low, bounds.high);
    // Of the two sides that each could stand on, the one further down or further left on the paper.
    let down = |p: DVec2| top.view_from_bay.turned(p);
    let upright = down(DVec2::NEG_Y).y.abs() > down(DVec2::NEG_X).y.abs();
    let below_is_low = down(DVec2::NEG_Y).y <= 0.0;
    let aside_is_low = if upright { down(DVec2::NEG_X).x <= 0.0 } else { down(DVec2::NEG_X).y <= 0.0 };
    // Beyond whatever reaches out of the room there; on the other side if less does.
    let all = drawn_box(top.scene);
    let out_low = (low - all.low).max(DVec2::ZERO);
    let out_high = (all.high - high).max(DVec2::ZERO);
    let side = |wanted_low: bool, low: f64, high: f64, out_low: f64, out_high: f64| {
        let at_low = if wanted_low { out_low <= out_high } else { out_low < out_high };
        if at_low { (low, low - out_low - off) } else { (high, high + out_high + off) }
    };
    let (wall_y, line_y) = side(below_is_low, low.y, high.y, out_low.y, out_high.y);
    let (wall_x, line_x) = side(aside_is_low, low.x, high.x, out_low.x, out_high.x);
    let long = (DVec2::new(low.x, wall_y), DVec2::new(high.x, wall_y), DVec2::X, DVec2::new(low.x, line_y));
    let wide = (DVec2::new(wall_x, low.y), DVec2::new(wall_x, high.y), DVec2::Y, DVec2::new(line_x, low.y));
    for (from, to, along, through) in [long, wide] {
        let text = top.words.dimension((to - from).dot(along));
        let (from, to, through) = (top.at(from), top.at(to), top.at(through));
        if let Some(still) = pen.still_dimension(Role::Dimension, None, (from, to), &[&text]) {
            pen.put_dimension(Role::Dimension, None, still);
            continue;
        }
        let through = on_paper(pen, from, through);
        let dimension = pen.dimension(from, to, top.view_from_bay.turned(along), through, &text);
        let (_, dimension) = pen.text_freest(dimension);
        pen.put_dimension(Role::Dimension, None, dimension);
    }
}

/// Where the line of an overall dimension runs, view frame, mm: as near to the wall as it must so that its figure is wholly on
/// the paper, and never nearer than a figure needs.
fn on_paper(pen: &Pen<'_>, wall: DVec2, through: DVec2) -> DVec2 {
    let half = pen.style(size::LABEL, Weight::SemiBold).line_height() * 0.5;
    let paper = pen.window.grown(-(half + 5.0));
    let (at, edge) = (pen.px(through), pen.px(wall));
    let nearer = at.clamp(paper.low, paper.high.max(paper.low));
    let out = at - edge;
    // A slanted line does not run along the paper's edge.
    if out.abs().min_element() > 1.0 {
        return through;
    }
    // Only square to the wall, and not onto it.
    let by = (nearer - at) * if out.x.abs() > out.y.abs() { DVec2::X } else { DVec2::Y };
    let least = WALL_PX + half + 3.0;
    if (out + by).length() < least || (out + by).dot(out) < 0.0 { through } else { pen.mm(at + by) }
}
