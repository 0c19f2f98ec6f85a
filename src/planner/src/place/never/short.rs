//! How much is missing, and between which two: proven from below, and found from above.

use baywright_geometry::DVec2;

use super::given::Given;
use super::{Never, met_at, never, um};
use crate::assessment::Subject;
use crate::never::{Area, Proof};

/// So many cells each try may take: less than a proof may.
const CELLS: usize = 20_000;
/// So many of the smallest cells are looked at for where it nearly fits.
const NEAREST: usize = 400;
/// More is not looked for, mm.
const MOST_MM: f64 = 5_000.0;
/// It is told to this, mm.
const WITHIN_MM: f64 = 1.0;
/// So many tries at most.
const TRIES: usize = 14;

/// What is missing between two of what stands.
#[derive(Clone, Debug, PartialEq)]
pub struct Short {
    /// The two: the second has to give way.
    pub between: [Subject; 2],
    /// As long as the second is not farther away by so much, it fits nowhere: proven, mm.
    pub at_least_mm: f64,
    /// With so much more there is a place at which no solid meets anything, mm; `None` if none was found.
    pub enough_mm: Option<f64>,
}

/// What is missing, if two things alone decide it: where they are where it fits best, on both sides of the set-up, and as soon as one of
/// them gives way enough it fits. `None` where that is not so, or not shown in bounded time.
pub fn short(given: &Given, proof: &Proof, is_stopped: &dyn Fn() -> bool) -> Option<Short> {
    let mut cells: Vec<&crate::never::Cell> = proof.cells.iter().collect();
    let size = |own: &crate::never::Cell| {
        let along = |[from, to]: [i64; 2]| (to - from) as f64;
        along(own.places.x) * along(own.places.y) * along(own.headings)
    };
    cells.sort_by(|a, b| size(a).total_cmp(&size(b)));
    let poses = cells
        .into_iter()
        .take(NEAREST)
        .map(|own| super::Boxed { places: own.places, headings: own.headings }.middle().pose());
    let met = poses.map(|pose| met_at(given, pose)).filter(|own| !own.is_empty());
    let depth = |own: &[(f64, DVec2, (usize, usize))]| own.first().map_or(f64::MAX, |own| own.0);
    let met = met.min_by(|a, b| depth(a).total_cmp(&depth(b)))?;
    let subject = |nth: usize| given.stands.get(nth).map(|own| &own.0);
    let &(_, away, (_, first)) = met.first()?;
    let first = subject(first)?;
    let second = met.iter().find(|own| own.1.dot(away) < -0.9 && subject(own.2.1) != Some(first))?;
    let other = subject(second.2.1)?;
    let both = [(first, other, -second.1), (other, first, -away)];
    both.into_iter().find_map(|(stays, gives, way)| between(given, [stays, gives], way, is_stopped))
}

fn between(
    given: &Given,
    [stays, gives]: [&Subject; 2],
    way: DVec2,
    is_stopped: &dyn Fn() -> bool,
) -> Option<Short> {
    let (mut low, mut high, mut enough): (f64, f64, Option<f64>) = (0.0, 64.0, None);
    let mut is_bounded = false;
    for _ in 0..TRIES {
        if is_bounded && high - low <= WITHIN_MM {
            break;
        }
        let by = if is_bounded { (low + high) * 0.5 } else { high };
        match never(&moved(given, gives, way * by), CELLS, is_stopped) {
            Never::Proven(_) => {
                low = by;
                if !is_bounded {
                    high = by * 2.0;
                    if high > MOST_MM {
                        return None;
                    }
                }
            }
            Never::Free(_) => (high, enough, is_bounded) = (by, Some(by), true),
            Never::NotProven => (high, is_bounded) = (by, true),
            Never::Stopped => return None,
        }
    }
    let short = Short { between: [stays.clone(), gives.clone()], at_least_mm: low, enough_mm: enough };
    (is_bounded && low > 0.0).then_some(short)
}

/// The same with one of what stands elsewhere.
fn moved(given: &Given, gives: &Subject, by: DVec2) -> Given {
    let mut after = given.clone();
    let by = [um(by.x), um(by.y)];
    for (_, solid) in after.stands.iter_mut().filter(|own| own.0 == *gives) {
        solid.ring.iter_mut().for_each(|p| *p = [p[0] + by[0], p[1] + by[1]]);
    }
    let most = by[0].abs().max(by[1].abs()) + 1;
    let grown = |[from, to]: [i64; 2]| [from - most, to + most];
    after.room = Area { x: grown(given.room.x), y: grown(given.room.y) };
    after
}
