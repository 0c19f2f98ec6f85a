//! The distances that show while something is in hand.

use baywright_geometry::distance::{Separation, distance};
use baywright_geometry::{DVec2, Prism};

use super::straight::{Front, Gap, Walls};
use super::{Other, around, others, solids};
use crate::assessment::Subject;
use crate::check::SPEAKS_FROM_MM;
use crate::model::Arrangement;
use crate::scene::Scene;

/// The distances worth showing while something is in hand, the nearest first, at most `most`:
/// - ahead, to the left, behind and to the right of the car, how far it could go straight that way: to the wall, or to what
///   stands before the wall;
/// - the shortest distance to the nearest thing, car or stand.
///
/// All in plan, and only to what shares its heights; walls have every height. Each names something else. There is none to
/// what it touches or is in, nor past what it touches to what is behind.
pub fn gaps(arrangement: &Arrangement, scene: &Scene, subject: &Subject, most: usize) -> Vec<Gap> {
    let own = solids(arrangement, scene, subject);
    let Some(bounds) = around(own) else { return Vec::new() };
    let others: Vec<Other<'_>> = others(arrangement, scene, subject).collect();
    let mut all: Vec<Gap> = nearest(own, &bounds, &others).into_iter().collect();
    let walls = Walls::around(arrangement, own, &bounds);
    let (ahead, left) = (scene.bay_from_vehicle.forward(), scene.bay_from_vehicle.left());
    for way in [ahead, left, -ahead, -left] {
        all.extend(Front::of(own, way).and_then(|front| front.first(&walls, &others)));
    }
    all.retain(|gap| gap.distance_mm > SPEAKS_FROM_MM && gap.distance_mm.is_finite());
    all.sort_by(|a, b| a.distance_mm.total_cmp(&b.distance_mm));
    let mut told: Vec<Gap> = Vec::with_capacity(all.len());
    for gap in all {
        if told.len() < most && !told.iter().any(|known| known.what == gap.what) {
            told.push(gap);
        }
    }
    told
}

/// To the nearest of the others that it neither touches nor is in.
fn nearest(own: &[Prism], bounds: &baywright_geometry::Bounds, others: &[Other<'_>]) -> Option<Gap> {
    let mut best: Option<(f64, DVec2, DVec2, &Other<'_>)> = None;
    for other in others {
        let least = best.as_ref().map_or(f64::INFINITY, |best| best.0);
        if bounds.gap_squared(&other.bounds) >= least * least {
            continue;
        }
        if let Some((gap, from, to)) = apart(own, other.solids, least) {
            best = Some((gap, from, to, other));
        }
    }
    best.map(|(distance, from, to, other)| Gap {
        from,
        to,
        distance_mm: distance,
        what: other.what.subject(),
    })
}

/// The shortest distance in plan between two groups of solids where they share heights, if it is less than `least` and more
/// than a touch.
fn apart(own: &[Prism], others: &[Prism], least: f64) -> Option<(f64, DVec2, DVec2)> {
    let mut best = None;
    let mut least = least;
    for one in own {
        let bounds = one.outline.bounds();
        for other in others {
            let is_far = bounds.gap_squared(&other.outline.bounds()) >= least * least;
            if is_far || one.span.shared(&other.span).is_none() {
                continue;
            }
            match distance(&one.outline, &other.outline) {
                Separation::Apart { gap, .. } if gap <= SPEAKS_FROM_MM => return None,
                Separation::Apart { gap, from, to } if gap < least => {
                    (best, least) = (Some((gap, from, to)), gap);
                }
                Separation::Apart { .. } => {}
                Separation::Touching { .. } | Separation::Overlapping => return None,
            }
        }
    }
    best
}
