//! Where what is in hand can be taken hold of: by its body, to turn it, to size it.

use baywright_drawing::{Drawing, Projection};
use baywright_planner::Subject;
use baywright_planner::geometry::{Bounds, DVec2};
use baywright_planner::hand::{own_outlines, pose_of};
use baywright_planner::model::Shape;

use crate::screen::view::{Drawn, Tool, Viewing};
use crate::session::answer::Answer;

/// A handle is hit this far from its middle, px.
const REACH_PX: f64 = 9.0;
/// From the edge of what is in hand to the handle that turns it, px.
const ARM_PX: f64 = 24.0;
/// Handles stand on sides only if there is this much room for them, px.
const ROOM_PX: f64 = 30.0;

/// What the hand holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Grip {
    /// The paper itself.
    Paper,
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
}

/// A handle on the paper.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Handle {
    pub grip: Grip,
    /// Its middle, px.
    pub at: DVec2,
    /// From where its arm comes, px: only for turning.
    pub arm: Option<DVec2>,
}

/// The handles of what is in hand, in one view.
pub(super) fn handles(answer: &Answer, view: &Viewing, side: Projection, drawing: &Drawing) -> Vec<Handle> {
    let Some(subject) = view.selected.as_ref().filter(|_| view.tool == Tool::WhichSide && !answer.stale)
    else {
        return Vec::new();
    };
    match side {
        Projection::Top => on_top(answer, subject, drawing),
        Projection::Side => on_side(answer, subject, drawing),
    }
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
            .map(|(i, &p)| Handle {
                grip: Grip::Corner(i),
                at: drawing.paper_point(view_from_bay * p),
                arm: None,
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
    let (middle, half) = (own.centre(), own.size() * 0.5);
    let corner = |x: i8, y: i8| px(middle + half * DVec2::new(f64::from(x), f64::from(y)));
    // The arm goes out from the corner that is highest and furthest right on the paper: distances to the walls start at
    // the middles of the sides.
    let height = |p: &DVec2| px(middle + half * *p).dot(DVec2::new(1.0, -1.0));
    let out = [DVec2::new(1.0, 1.0), DVec2::new(-1.0, 1.0), DVec2::new(1.0, -1.0), DVec2::new(-1.0, -1.0)]
        .into_iter()
        .max_by(|a, b| height(a).total_cmp(&height(b)))
        .unwrap_or(DVec2::ONE);
    let edge = px(middle + half * out);
    let mut all = vec![Handle {
        grip: Grip::Turn,
        at: edge + DVec2::new(1.0, -1.0).normalize() * ARM_PX,
        arm: Some(edge),
    }];
    match thing.map(|thing| thing.footprint.shape()) {
        Some(Shape::Rectangle { .. }) => {
            let size = half * 2.0 * drawing.px_per_mm;
            for (x, y) in [(-1, -1), (1, -1), (1, 1), (-1, 1), (1, 0), (-1, 0), (0, 1), (0, -1)] {
                let on_side = x == 0 || y == 0;
                let along = if x == 0 { size.x } else { size.y };
                if !on_side || along >= ROOM_PX {
                    all.push(Handle { grip: Grip::Size(x, y), at: corner(x, y), arm: None });
                }
            }
        }
        Some(Shape::Round { .. }) => {
            for (x, y) in [(1, 0), (-1, 0), (0, 1), (0, -1)] {
                all.push(Handle { grip: Grip::Size(x, y), at: corner(x, y), arm: None });
            }
            // What is round looks the same whichever way it is turned.
            all.retain(|handle| handle.grip != Grip::Turn);
        }
        _ => {}
    }
    all
}

fn on_side(answer: &Answer, subject: &Subject, drawing: &Drawing) -> Vec<Handle> {
    let Subject::Thing(id) = subject else { return Vec::new() };
    let thing = answer.arrangement.bay.things.iter().find(|own| own.id == *id);
    let Some(thing) = thing.filter(|thing| !thing.locked) else { return Vec::new() };
    let axis_from_bay = drawing.bay_from_view.inverse();
    let middle = axis_from_bay * thing.prism().outline.bounds().centre();
    let at = |height: f64| drawing.paper_point(DVec2::new(middle.x, height));
    vec![
        Handle { grip: Grip::Top, at: at(thing.span.top()), arm: None },
        Handle { grip: Grip::Bottom, at: at(thing.span.bottom()), arm: None },
    ]
}
