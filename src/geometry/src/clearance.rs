//! A volume to be kept clear and a thing near or in it, as typed facts.

use glam::{DVec2, DVec3};

use crate::distance::{PrismSeparation, prism_distance};
use crate::overlap::overlap_area;
use crate::prism::{Prism, Span};
use crate::separate::{SeparatingMoves, separating_moves};

/// How a thing lies to a volume that is to be kept clear.
#[derive(Clone, Debug, PartialEq)]
pub enum Clearance {
    /// The thing is outside.
    Clear {
        /// The shortest distance in space, mm.
        gap: f64,
        /// The nearest point of the volume.
        from: DVec3,
        /// The nearest point of the thing.
        to: DVec3,
    },
    /// The thing touches the volume from outside, which is no conflict.
    Touching {
        /// One point where it does.
        at: DVec3,
    },
    /// The thing is in the volume.
    Intrudes(Intrusion),
}

/// How far a thing is in a volume, and which way it leaves soonest.
#[derive(Clone, Debug, PartialEq)]
pub struct Intrusion {
    /// The length of the shortest move in plan that clears the volume, mm; of intricate shapes that of their hulls, which is
    /// not less (see [`separating_moves`]).
    pub depth: f64,
    /// All moves of that length, by heading.
    pub moves: Vec<DVec2>,
    /// The area that both cover in plan, mm².
    pub area: f64,
    /// The heights that both have.
    pub heights: Span,
}

/// How `thing` lies to `zone`. The moves are moves of the thing.
///
/// ```rust
/// # use baywright_geometry::*;
/// let block = |low: DVec2, size: DVec2, heights: Span| -> Result<Prism, ShapeFault> {
///     Ok(Prism::new(Polygon::rectangle(low, low + size)?.into(), heights))
/// };
/// let zone = block(DVec2::ZERO, DVec2::new(2000.0, 1500.0), Span::new(300.0, 2000.0)?)?;
/// let cabinet = block(DVec2::new(1880.0, 200.0), DVec2::new(520.0, 600.0), Span::new(0.0, 1100.0)?)?;
/// let found = clearance(&zone, &cabinet);
/// assert!(matches!(found, Clearance::Intrudes(Intrusion { depth, .. }) if (depth - 120.0).abs() < 1e-6));
/// # Ok::<(), ShapeFault>(())
/// ```
pub fn clearance(zone: &Prism, thing: &Prism) -> Clearance {
    match prism_distance(zone, thing) {
        PrismSeparation::Apart { gap, from, to } => Clearance::Clear { gap, from, to },
        PrismSeparation::Touching { at } => Clearance::Touching { at },
        PrismSeparation::Overlapping => {
            let (depth, moves) = match separating_moves(&[&zone.outline], &thing.outline) {
                SeparatingMoves::AlreadyApart => (0.0, Vec::new()),
                SeparatingMoves::Moves { length, moves } => (length, moves),
            };
            Clearance::Intrudes(Intrusion {
                depth,
                moves,
                area: overlap_area(&zone.outline, &thing.outline),
                heights: zone.span.shared(&thing.span).unwrap_or(zone.span),
            })
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::outline::Outline;
    use crate::polygon::Polygon;

    fn block(low: (f64, f64), high: (f64, f64), heights: (f64, f64)) -> Prism {
        let outline: Outline = Polygon::rectangle(low.into(), high.into()).unwrap().into();
        Prism::new(outline, Span::new(heights.0, heights.1).unwrap())
    }

    #[test]
    fn a_cabinet_in_a_zone() {
        let zone = block((0., 0.), (2000., 1500.), (300., 2000.));
        let cabinet = block((1880., 200.), (2400., 800.), (0., 1100.));
        let Clearance::Intrudes(found) = clearance(&zone, &cabinet) else { panic!() };
        assert!((found.depth - 120.).abs() < 1e-9);
        assert_eq!(found.moves.len(), 1);
        assert!((found.area - 120. * 600.).abs() < 1e-6);
        assert_eq!((found.heights.bottom(), found.heights.top()), (300., 1100.));
        // Under the zone, on its edge, and beside it.
        let step = block((1880., 200.), (2400., 800.), (0., 250.));
        assert!(matches!(clearance(&zone, &step), Clearance::Clear { gap, .. } if (gap - 50.).abs() < 1e-9));
        let aside = cabinet.moved(found.moves[0]);
        assert!(matches!(clearance(&zone, &aside), Clearance::Touching { .. }));
    }
}
