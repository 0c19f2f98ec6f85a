//! How much of a target an eye sees past things: by area in space, by length along a line in plan.
//!
//! Each prism is taken in its convex pieces. What lies between the eye and the target's plane throws a convex
//! shadow on the target; the shadows are taken away from the target one after the other, and what remains is seen.
//! A thing that only touches the view hides nothing of it.

mod remains;
mod shadow;
mod stretch;

use glam::{DVec2, DVec3};

use crate::blocker::depth;
use crate::face::Face;
use crate::polygon::signed_area;
use crate::prism::Prism;
use crate::tolerance::TOUCH_MM;

pub use stretch::{SegmentHider, SegmentShare, Stretch, VisibleSegment, segment_share};

use remains::Remains;
use shadow::EyeFrame;

/// The answer of [`target_share`].
#[derive(Clone, Debug, PartialEq)]
pub enum Share {
    /// The eye lies inside a thing: the question has no answer.
    EyeInside {
        /// The lowest index of such a thing.
        thing: usize,
    },
    /// The eye lies on or behind the plane of the face.
    Behind,
    /// What it sees.
    Seen(VisibleFace),
}

/// What an eye sees of a face.
#[derive(Clone, Debug, PartialEq)]
pub struct VisibleFace {
    /// The share of the face's area that is seen, 0 to 1; exactly 1 if nothing hides any of it.
    pub share: f64,
    /// Convex rings, anticlockwise, in the face's own coordinates (mm), that together are seen and share no area.
    pub visible: Vec<Vec<DVec2>>,
    /// Each thing that hides some of the face: the one that hides most first, equal ones by index.
    pub hidden_by: Vec<Hider>,
}

/// A thing that hides some of a face.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hider {
    /// Its index.
    pub thing: usize,
    /// The share of the face's area that it hides alone, 0 to 1.
    pub share: f64,
}

/// The share of `face` that `eye` sees past `things`. A thing on or behind the face's plane hides nothing.
///
/// Straight edges are exact but for the rounding of `f64`; a round thing is at most
/// [`crate::tolerance::SAGITTA_MM`] too thick.
///
/// A cabinet half way to a board hides its half at the eye's left:
///
/// ```rust
/// # use baywright_geometry::*;
/// let eye = DVec3::new(0.0, 0.0, 500.0);
/// let board = Face::new(DVec3::new(4000.0, 0.0, 500.0), std::f64::consts::PI, 0.0, 400.0, 200.0)?;
/// let outline = Polygon::rectangle(DVec2::new(2000.0, 0.0), DVec2::new(2100.0, 500.0))?;
/// let cabinet = Prism::new(outline.into(), Span::new(0.0, 2000.0)?);
/// let Share::Seen(seen) = target_share(eye, &board, &[&cabinet]) else { unreachable!() };
/// assert_eq!(seen.share, 0.5);
/// assert_eq!(seen.hidden_by, [Hider { thing: 0, share: 0.5 }]);
/// # Ok::<(), ShapeFault>(())
/// ```
pub fn target_share(eye: DVec3, face: &Face, things: &[&Prism]) -> Share {
    if let Some(thing) = things.iter().position(|thing| depth(&thing.outline, &thing.span, eye) > TOUCH_MM) {
        return Share::EyeInside { thing };
    }
    let Some(view) = EyeFrame::new(eye, face) else { return Share::Behind };
    let whole = face.area();
    let sliver = sliver_area(face);
    let mut hidden_by = Vec::new();
    let mut all = Vec::new();
    for (thing, solid) in things.iter().enumerate() {
        let mut shadows = view.shadows(solid);
        let hidden = match shadows.as_slice() {
            [] => continue,
            [one] => signed_area(one),
            several => {
                let mut alone = Remains::of(&face.own_ring(), sliver);
                several.iter().for_each(|shadow| alone.subtract(shadow));
                whole - alone.area()
            }
        };
        if hidden > sliver {
            hidden_by.push(Hider { thing, share: (hidden / whole).clamp(0.0, 1.0) });
            all.append(&mut shadows);
        }
    }
    hidden_by.sort_by(|a, b| b.share.total_cmp(&a.share).then(a.thing.cmp(&b.thing)));
    let remains = past(face, all, sliver);
    let share = if hidden_by.is_empty() { 1.0 } else { (remains.area() / whole).clamp(0.0, 1.0) };
    Share::Seen(VisibleFace { share, visible: remains.into_rings(), hidden_by })
}

/// What is left of the face. The largest shadows are taken away first: then the small ones often find nothing more to
/// hide, and make no pieces.
fn past(face: &Face, shadows: Vec<Vec<DVec2>>, sliver: f64) -> Remains {
    let mut sized: Vec<(f64, Vec<DVec2>)> =
        shadows.into_iter().map(|shadow| (signed_area(&shadow), shadow)).collect();
    sized.sort_by(|a, b| b.0.total_cmp(&a.0));
    let mut remains = Remains::of(&face.own_ring(), sliver);
    sized.iter().for_each(|(_, shadow)| remains.subtract(shadow));
    remains
}

/// An area on the face that counts as none: a strip as wide as a touch along two of its sides. It is what rounding
/// leaves between the shadows of two things that stand flush.
fn sliver_area(face: &Face) -> f64 {
    TOUCH_MM * (face.width() + face.height())
}

#[cfg(test)]
mod tests;
