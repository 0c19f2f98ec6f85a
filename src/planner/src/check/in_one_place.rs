//! Two solids in one place: how far they are from not being so.

use baywright_geometry::clearance::{Clearance, clearance};
use baywright_geometry::{Prism, Span};

use super::SPEAKS_FROM_MM;

/// What two solids that are in one place lack.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Lacks {
    /// Room beside one another.
    Room,
    /// Height: one of them hangs too low over the other, or reaches too high under it.
    Height,
}

/// How far two solids are in one another.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Depth {
    /// The shortest move that parts them, mm: in plan, or straight up of what hangs over the other.
    pub mm: f64,
    /// Which of the two it is.
    pub lacks: Lacks,
    /// The heights that both have.
    pub heights: Span,
}

/// How far two solids are in one another; `None` if they only touch, or share less of the plan than is spoken of.
pub(super) fn depth(one: &Prism, other: &Prism) -> Option<Depth> {
    let Clearance::Intrudes(found) = clearance(one, other) else { return None };
    if found.depth <= SPEAKS_FROM_MM {
        return None;
    }
    // What stands on the same ground does not hang over the other: no height parts the two.
    let over = |upper: &Span, lower: &Span| {
        (upper.bottom() > lower.bottom() + SPEAKS_FROM_MM).then(|| lower.top() - upper.bottom())
    };
    let height = over(&one.span, &other.span).or_else(|| over(&other.span, &one.span));
    let (mm, lacks) = match height {
        Some(height) if height < found.depth => (height, Lacks::Height),
        _ => (found.depth, Lacks::Room),
    };
    Some(Depth { mm, lacks, heights: found.heights })
}
