//! What an eye sees of a room with things in it: the visibility polygon.
//!
//! Only edges that face the eye can bound its view. Followed along a ring, facing edges make runs that turn one way
//! about the eye; the nearest edge in every direction is found by merging the runs two at a time, as in a merge sort.
//! Merging looks at two edges over one sector at a time, so edges that touch, overlap or cross need no preparation.
//! Directions are ordered exactly ([`crate::predicate::turn`]), so that corners in line with the eye leave no gap.

mod direction;
mod envelope;
mod gather;

use glam::DVec2;

use crate::outline::Outline;
use crate::polygon::Polygon;
use crate::tolerance::TOUCH_MM;

use envelope::Piece;
use gather::Scene;

/// What an eye sees of a room.
#[derive(Clone, Debug, PartialEq)]
pub enum Visibility {
    /// The eye is not in the room.
    EyeOutside,
    /// The eye lies inside a thing.
    EyeInside {
        /// The lowest index of such a thing.
        thing: usize,
    },
    /// The region that it sees: a ring, anticlockwise, star-shaped about the eye, not closed. Parts without width
    /// (needles) are left out. Empty if the eye is shut in between things that touch it on every side.
    Sees(Vec<DVec2>),
}

/// The region of `room` that `eye` sees past `things`, in plan.
///
/// An eye on the room's boundary counts as in the room; one on a thing's boundary as outside the thing; both within
/// [`TOUCH_MM`]. Things may touch and overlap one another and the room's walls, and stick out of the room. A round thing
/// hides up to [`crate::tolerance::SAGITTA_MM`] more than it should.
///
/// Half a bay is hidden behind a partition that reaches to its middle, seen from the corner beside it:
///
/// ```rust
/// # use baywright_geometry::*;
/// let room = Polygon::rectangle(DVec2::ZERO, DVec2::new(8000.0, 4000.0))?;
/// let partition = Outline::from(Polygon::rectangle(DVec2::new(4000.0, 0.0), DVec2::new(4100.0, 2000.0))?);
/// let Visibility::Sees(ring) = visibility(DVec2::ZERO, &room, &[&partition]) else { unreachable!() };
/// let area = polygon::signed_area(&ring);
/// // The room's left half, and beyond it what is seen over the partition's end.
/// assert!((area - (16e6 + 4e6)).abs() < 1e-3, "{area}");
/// # Ok::<(), ShapeFault>(())
/// ```
pub fn visibility(eye: DVec2, room: &Polygon, things: &[&Outline]) -> Visibility {
    let mut scene = Scene::new(eye);
    if !scene.add(room, true) {
        return Visibility::EyeOutside;
    }
    for (thing, outline) in things.iter().enumerate() {
        let stays_out = match outline {
            Outline::Polygon(polygon) => scene.add(polygon, false),
            // An eye beside the disc is outside its stand-in too.
            Outline::Circle(circle) => scene.add(&circle.circumscribed_towards(eye), false),
        };
        if !stays_out {
            return Visibility::EyeInside { thing };
        }
    }
    let Scene { directions, edges, pieces, runs, .. } = scene;
    let mut envelope = envelope::Envelope { directions, edges };
    let nearest = envelope.nearest(pieces, runs);
    Visibility::Sees(ring(&envelope, &nearest))
}

/// The corners of the region, from the nearest edges in order of direction.
fn ring(envelope: &envelope::Envelope, nearest: &[Piece]) -> Vec<DVec2> {
    let eye = envelope.directions.eye();
    let mut ring: Vec<DVec2> = Vec::with_capacity(2 * nearest.len());
    let mut push = |p: DVec2| {
        if ring.last().is_none_or(|last| last.distance_squared(p) > TOUCH_MM * TOUCH_MM) {
            ring.push(p);
        }
    };
    // An edge that crosses the direction in which the circle of directions starts was cut there: no corner.
    let joined = match (nearest.first(), nearest.last()) {
        (Some(first), Some(last)) => {
            nearest.len() > 1 && first.edge == last.edge && first.starts_circle() && last.ends_circle()
        }
        _ => false,
    };
    for (i, piece) in nearest.iter().enumerate() {
        let from = envelope.on_edge(piece.edge, piece.from);
        let to = envelope.on_edge(piece.edge, piece.to);
        let (a, b) = (from - eye, to - eye);
        let far = a.length().max(b.length());
        if piece.is_eye() {
            push(eye);
            continue;
        }
        // A view narrower than a touch is a needle, or an edge seen end on.
        if a.perp_dot(b) <= TOUCH_MM * far && !piece.is_wide() {
            continue;
        }
        if !(joined && i == 0) {
            push(from);
        }
        if !(joined && i + 1 == nearest.len()) {
            push(to);
        }
    }
    while ring.len() > 1
        && let (Some(first), Some(last)) = (ring.first(), ring.last())
        && first.distance_squared(*last) <= TOUCH_MM * TOUCH_MM
    {
        ring.pop();
    }
    if ring.len() < 3 { Vec::new() } else { ring }
}

#[cfg(test)]
mod tests;
