//! How sure a plan is, to hold one plan against another.

use super::{Cost, FigureOf, Origin, Standing};
use crate::model::{Arrangement, Id};
use crate::scene::Scene;

/// How sure a set-up's plan is before anything is taped, or as far as it was.
#[derive(Clone, Debug)]
pub(crate) struct Sure {
    /// Each figure of a target, its direction first.
    figures: Vec<Each>,
    /// What the first one's uncertainty is most made of.
    pub dearest: Option<Cost>,
    /// What that figure moves by for a millimetre of each wheel's spot lengthwise, in its unit.
    pub by_spot: Vec<f64>,
}

/// A figure and how sure it is.
#[derive(Clone, Debug, PartialEq)]
struct Each {
    placement: Id,
    of: FigureOf,
    squareness_open: bool,
    u95: f64,
}

/// As sure as before, within this share.
const AS_SURE: f64 = 1.001;

impl Sure {
    /// `None` where there is no plan, or no figure that follows it.
    pub fn of(arrangement: &Arrangement, scene: &Scene) -> Option<Self> {
        let own = Standing::of(arrangement, scene)?;
        let first = own.figures.first()?;
        let outcome = own.budget.outcome(&first.sought)?;
        let parts = outcome.parts.iter().zip(own.budget.origins());
        let of_spot = parts.filter(|(_, origin)| matches!(origin, Origin::WheelAlong(_)));
        let by_spot = of_spot.map(|(part, _)| part.sensitivity / first.scale()).collect();
        let dearest = own.budget.costs(&first.sought).and_then(|costs| costs.into_iter().next());
        let figures = own.figures.iter().map(|own| Each {
            placement: own.placement.clone(),
            of: own.of,
            squareness_open: own.squareness_open,
            u95: own.u95,
        });
        Some(Self { figures: figures.collect(), dearest, by_spot })
    }

    /// Of the first figure, 95 %, in its unit.
    pub fn u95(&self) -> f64 {
        self.figures.first().map_or(f64::NAN, |own| own.u95)
    }

    /// Whether it says the same of targets, and nothing less surely.
    pub fn is_no_worse_than(&self, other: &Self) -> bool {
        self.figures.len() == other.figures.len()
            && self.figures.iter().zip(&other.figures).all(|(own, other)| {
                own.placement == other.placement
                    && own.of == other.of
                    && own.squareness_open == other.squareness_open
                    && own.u95 <= other.u95 * AS_SURE
            })
    }
}
