//! Where what is in hand can be taken hold of: by its body, to turn it, to size it.

use baywright_drawing::{Drawing, Projection};
use baywright_planner::Subject;
use baywright_planner::geometry::{Bounds, DVec2};
use baywright_planner::hand::{own_outlines, pose_of};
use baywright_planner::model::{Shape, Thing};

use super::lettered::Lettered;
use super::picture::PictureHold;

use crate::screen::view::{Drawn, Tool, Viewing};
use crate::session::answer::Answer;

/// A handle is hit this far from its middle, px.
const REACH_PX: f64 = 9.0;
/// From the edge of what is in hand to the handle that turns it, px.
const ARM_PX: f64 = 24.0;
/// Handles stand on sides only if there is this much room for them, px.
const ROOM_PX: f64 = 30.0;
/// What is smaller than this can be pressed anywhere to be moved: its handles stand outside it, px.
const SMALL_PX: f64 = 40.0;
/// So far outside: further than a handle is hit from, px.
const OUTSIDE_PX: f64 = 14.0;
/// A handle that would cover letters or figures is moved out by steps of so many px, and so often; then it is left away.
const ASIDE_PX: f64 = 8.0;
const MOST_ASIDE: usize = 4;
/// Half the side of a handle as it is painted, with its edge, px.
const OWN_PX: f64 = 5.5;

/// What the hand holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Grip {
    /// The paper itself.
    Paper,
    /// A frame on the floor: what lies in it is chosen.
    Frame,
    /// The whole thing.
    Body,
    /// What turns it.
    Turn,
    /// A corner or a side: along its own x and y.
    Size(i8, i8),
    /// Its underside, in the side view.
    Bottom,
    /// Its top, in the side view.
    Top,
    /// A corner of the room.
    Corner(usize),
    /// A corner of a rectangle that is being drawn.
    Draw(Drawn),
    /// The picture under the plan.
    Picture(PictureHold),
}

/// A handle on the paper.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Handle {
    pub grip: Grip,
    /// Its middle, px.
    pub at: DVec2,
    /// What it moves stands here, px: the corner or the side itself.
    pub of: DVec2,
    /// From where its arm comes, px: only for turning.
    pub arm: Option<DVec2>,
}

/// What is smaller than this in one direction and than that in the other has one handle that sizes it: more would crowd its
/// figures, and a corner sizes it both ways. px.
const ONE_HANDLE_PX: (f64, f64) = (30.0, 60.0);
/// The handles of what is in hand, in one view.
pub(super) fn handles(answer: &Answer, view: &Viewing, side: Projection, drawing: &Drawing) -> Vec<Handle> {
    let Some(subject) = view.selected.as_ref().filter(|_| view.tool == Tool::WhichSide && !answer.stale)
    else {
        return Vec::new();
    };
    // Several are moved together; each alone is sized and turned by its own handles.
    if !view.also.is_empty() {
        return Vec::new();
    }
    match side {
        Projection::Top => on_top(answer, subject, drawing),
        Projection::Side => on_side(answer, subject, drawing),
    }
}

/// Where what a handle moves stood, px of the view's paper, while its thing was as given: nothing for what has no handles of
/// that kind. A hand that takes the handle beside it keeps that distance.
pub(super) fn moved_by(thing: &Thing, grip: Grip, side: Projection, drawing: &Drawing) -> Option<DVec2> {
    let view_from_bay = drawing.bay_from_view.inverse();
    match (grip, side) {
        (Grip::Size(x, y), Projection::Top) => {
            let own = thing.footprint.outline().bounds();
            let corner = own.centre() + own.size() * 0.5 * DVec2::new(f64::from(x), f64::from(y));
            Some(drawing.paper_point(view_from_bay * (thing.place.at * corner)))
        }
        (Grip::Top | Grip::Bottom, Projection::Side) => {
            let middle = view_from_bay * thing.prism().outline.bounds().centre();
            let height = if grip == Grip::Top { thing.span.top() } else { thing.span.bottom() };
            Some(drawing.paper_point(DVec2::new(middle.x, height)))
        }
        _ => None,
    }
}

/// So far beyond its edge a handle of something stands that is so large on the paper, px.
fn outside(size: f64) -> f64 {
    if size < SMALL_PX { OUTSIDE_PX } else { 0.0 }
}

/// A handle where it covers no letters, moved on from its place along a direction; `None` if there is no such place near.
fn clear_of(lettered: &Lettered, at: DVec2, out: DVec2) -> Option<DVec2> {
    let places = (0..=MOST_ASIDE).map(|steps| at + out * (ASIDE_PX * steps as f64));
    places.into_iter().find(|&place| !lettered.covers(place, OWN_PX))
}

/// The handle at a place of the paper.
pub(super) fn at(
    answer: &Answer,
    view: &Viewing,
    side: Projection,
    drawing: &Drawing,
    px: DVec2,
) -> Option<Grip> {
    let near = |handle: &Handle| handle.at.distance(px);
    let mut all = handles(answer, view, side, drawing);
    all.retain(|handle| near(handle) <= REACH_PX);
    all.into_iter().min_by(|a, b| near(a).total_cmp(&near(b))).map(|handle| handle.grip)
}

fn on_top(answer: &Answer, subject: &Subject, drawing: &Drawing) -> Vec<Handle> {
    let (arrangement, scene) = (&*answer.arrangement, &answer.assessment.scene);
    if *subject == Subject::Floor && !answer.is_of_draft() {
        let view_from_bay = drawing.bay_from_view.inverse();
        let corners = arrangement.bay.room.outer().iter().enumerate();
        return corners
            .map(|(i, &p)| {
                let at = drawing.paper_point(view_from_bay * p);
                Handle { grip: Grip::Corner(i), at, of: at, arm: None }
            })
            .collect();
    }
    let Some(pose) = pose_of(arrangement, scene, subject) else { return Vec::new() };
    let outlines = own_outlines(arrangement, scene, subject);
    let Some(own) = outlines.iter().map(|outline| outline.bounds()).reduce(Bounds::union) else {
        return Vec::new();
    };
    let thing = match subject {
        Subject::Thing(id) => arrangement.bay.things.iter().find(|own| own.id == *id),
        _ => None,
    };
    if thing.is_some_and(|thing| thing.locked) {
        return Vec::new();
    }
    let view_from_own = drawing.bay_from_view.inverse() * pose;
    let px = |p: DVec2| drawing.paper_point(view_from_own * p);
    let lettered = Lettered::of(drawing);
    let (middle, half) = (own.centre(), own.size() * 0.5);
    let size = half * 2.0 * drawing.px_per_mm;
    let aside = DVec2::new(outside(size.x), outside(size.y)) / drawing.px_per_mm;
    // A handle of the corner or the side that lies this way, and how far it stands from that.
    let handle = |x: i8, y: i8| {
        let way = DVec2::new(f64::from(x), f64::from(y));
        let of = px(middle + half * way);
        let out = (px(middle + way) - px(middle)).normalize_or_zero();
        let at = clear_of(&lettered, px(middle + (half + aside) * way), out)?;
        Some(Handle { grip: Grip::Size(x, y), at, of, arm: None })
    };
    let mut all: Vec<Handle> = match thing.map(|thing| thing.footprint.shape()) {
        Some(Shape::Rectangle { .. }) => {
            let ways = [(-1, -1), (1, -1), (1, 1), (-1, 1), (1, 0), (-1, 0), (0, 1), (0, -1)];
            let has_room = |&(x, y): &(i8, i8)| match (x, y) {
                (0, _) => size.x >= ROOM_PX,
                (_, 0) => size.y >= ROOM_PX,
                _ => true,
            };
            let all = ways.into_iter().filter(has_room).filter_map(|(x, y)| handle(x, y)).collect();
            few_of_small(all, size)
        }
        Some(Shape::Round { .. }) => {
            // What is round looks the same whichever way it is turned, and has one size: one handle, however large it is.
            let ways = [(1, 0), (-1, 0), (0, 1), (0, -1)];
            return few_of_small(ways.into_iter().filter_map(|(x, y)| handle(x, y)).collect(), DVec2::ZERO);
        }
        _ => Vec::new(),
    };
    // The arm goes out from the corner that is highest and furthest right on the paper, where it covers no letters:
    // distances to the walls start at the middles of the sides.
    let mut corners =
        [DVec2::new(1.0, 1.0), DVec2::new(-1.0, 1.0), DVec2::new(1.0, -1.0), DVec2::new(-1.0, -1.0)];
    let height = |p: &DVec2| px(middle + half * *p).dot(DVec2::new(1.0, -1.0));
    corners.sort_by(|a, b| height(b).total_cmp(&height(a)));
    let arms = corners.map(|corner| {
        let (edge, centre) = (px(middle + half * corner), px(middle));
        let out = (edge - centre) * DVec2::new(1.0, 1.0);
        let out = DVec2::new(out.x.signum(), out.y.signum()).normalize();
        let far = px(middle + (half + aside) * corner) + out * ARM_PX;
        Handle { grip: Grip::Turn, at: far, of: edge, arm: Some(edge) }
    });
    let is_free = |own: &Handle| !lettered.covers(own.at, OWN_PX);
    all.extend(arms.iter().find(|own| is_free(own)).or(arms.first()).copied());
    all
}

/// The handles of something of this size on the paper, px: all of them, or of what is small the one that stands nearest to what it
/// moves, the lower right one among equals.
fn few_of_small(mut all: Vec<Handle>, size: DVec2) -> Vec<Handle> {
    if size.min_element() < ONE_HANDLE_PX.0 && size.max_element() < ONE_HANDLE_PX.1 {
        // Of a corner before a side, where distances are written.
        let of_side = |own: &Handle| matches!(own.grip, Grip::Size(0, _) | Grip::Size(_, 0));
        if all.iter().any(|own| !of_side(own)) {
            all.retain(|own| !of_side(own));
        }
        let off = |own: &Handle| (own.at.distance(own.of), -own.at.element_sum());
        let first = |a: &Handle, b: &Handle| {
            let ((near, low), (other_near, other_low)) = (off(a), off(b));
            let apart = if (near - other_near).abs() < 1.0 { 0.0 } else { near - other_near };
            apart.total_cmp(&0.0).then(low.total_cmp(&other_low))
        };
        let one = all.iter().copied().min_by(first);
        all = one.into_iter().collect();
    }
    all
}

fn on_side(answer: &Answer, subject: &Subject, drawing: &Drawing) -> Vec<Handle> {
    let Subject::Thing(id) = subject else { return Vec::new() };
    let thing = answer.arrangement.bay.things.iter().find(|own| own.id == *id);
    let Some(thing) = thing.filter(|thing| !thing.locked) else { return Vec::new() };
    let lettered = Lettered::of(drawing);
    let aside = outside((thing.span.top() - thing.span.bottom()) * drawing.px_per_mm);
    let handle = |grip: Grip, out: DVec2| {
        let of = moved_by(thing, grip, Projection::Side, drawing)?;
        let at = clear_of(&lettered, of + out * aside, out)?;
        Some(Handle { grip, at, of, arm: None })
    };
    let both = [handle(Grip::Top, DVec2::NEG_Y), handle(Grip::Bottom, DVec2::Y)];
    both.into_iter().flatten().collect()
}
