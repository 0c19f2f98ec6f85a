//! The budget of a plan without the linear law: drawn again and again, and held against it (JCGM 101, clause 8).

use baywright_geometry::angle;
use baywright_survey::budget::{Budget, Sought};
use baywright_survey::monte_carlo::{Drawn, Enough, Sampler};

use super::{FigureOf, K, Standing};
use crate::model::Arrangement;
use crate::scene::Scene;

/// Always the same draws, so that the same plan has the same answer on every machine.
const SEED: u64 = 20_080_101;

/// A plan to be drawn, and what of it: as much as a thread needs.
#[derive(Clone, Debug)]
pub struct ToDraw {
    budget: Budget,
    sampler: Sampler,
    sought: Sought,
    of: FigureOf,
    per_unit: f64,
    /// The value and its standard uncertainty by the linear law, in the sought unit.
    linear: (f64, f64),
}

/// Both, in the unit of the figure: radians or mm.
#[derive(Clone, Debug, PartialEq)]
pub struct Checked {
    /// What of the target it is.
    pub of: FigureOf,
    /// Standard uncertainty by the linear law.
    pub linear_u: f64,
    /// The same as drawn.
    pub drawn_u: f64,
    /// Where 95 of 100 draws lie, from what is meant: half of them that are outside on either side.
    pub low: f64,
    /// Its other end.
    pub high: f64,
    /// How far the ends of both intervals may differ to count as the same: half a unit of the first figure of the uncertainty.
    pub within: f64,
    /// Whether they do not differ by more, at either end.
    pub agree: bool,
    /// The larger of both half widths of 95 %: what is on the safe side.
    pub u95: f64,
    /// How many draws it rests on.
    pub draws: usize,
    /// How many could not be laid at all: if any, the drawn figures flatter.
    pub lost: usize,
    /// Whether it was drawn until the figures were steady to two places.
    pub is_settled: bool,
}

impl ToDraw {
    /// The first figure of a set-up's plan, as laid and before anything is taped; `None` where there is none.
    pub fn of(arrangement: &Arrangement, scene: &Scene) -> Option<Self> {
        let untaped = Arrangement { marks_taped: Vec::new(), ..arrangement.clone() };
        let Standing { budget, figures, .. } = Standing::of(&untaped, scene)?;
        let figure = figures.into_iter().next()?;
        let outcome = budget.outcome(&figure.sought)?;
        let sampler = Sampler::of(budget.inputs(), &[]).ok()?;
        Some(Self {
            sampler,
            sought: figure.sought,
            of: figure.of,
            per_unit: figure.per_unit,
            linear: (outcome.value, outcome.u),
            budget,
        })
    }

    /// Until when to draw: two places of the uncertainty, ten times finer than what both are held to.
    pub const fn enough() -> Enough {
        Enough { coverage: 0.95, digits: 2, most_blocks: 400 }
    }

    /// The draws of the block of this number; whoever makes them, they are the same.
    pub fn block(&self, nth: u64) -> Vec<f64> {
        self.sampler.block(SEED, nth, &mut self.budget.drawn(&self.sought))
    }

    /// Both beside each other. The drawn interval is about what is meant, as the linear one is.
    pub fn held_against(&self, drawn: &Drawn) -> Checked {
        let (value, u) = self.linear;
        let in_unit = |of: f64| of / self.per_unit;
        let (low, high) = (drawn.low - value, drawn.high - value);
        // By the figures that are said: of degrees, of millimetres.
        let said = if self.of.is_angle() { angle::degrees(1.0) } else { 1.0 } / self.per_unit;
        let within = tolerance(u * said) / said;
        // With draws that were lost nothing is confirmed.
        let agree = (low + K * u).abs() <= within && (high - K * u).abs() <= within && drawn.lost == 0;
        Checked {
            of: self.of,
            linear_u: in_unit(u),
            drawn_u: in_unit(drawn.u),
            low: in_unit(low),
            high: in_unit(high),
            within: in_unit(within),
            agree,
            u95: in_unit((K * u).max(high).max(-low)),
            draws: drawn.draws,
            lost: drawn.lost,
            is_settled: drawn.is_settled,
        }
    }
}

/// Half a unit of the first figure of an uncertainty (JCGM 101, 7.9.2).
fn tolerance(u: f64) -> f64 {
    if u > 0.0 { 0.5 * libm::exp10(libm::floor(libm::log10(u))) } else { 0.0 }
}

#[cfg(test)]
mod tests {
    use baywright_survey::monte_carlo::Gathered;

    use super::*;
    use crate::check::testing::clear;
    use crate::model::AimError;

    /// A plan of metres and millimetres is as good as linear: both say the same, however the blocks are made.
    #[test]
    fn a_plan_as_they_are_is_linear() {
        for error in [AimError::PLACE, AimError::SQUARENESS] {
            let mut arrangement = clear();
            arrangement.aiming.placements[0].target.error = error;
            let to_draw = ToDraw::of(&arrangement, &Scene::of(&arrangement)).unwrap();
            let mut gathered = Gathered::new(ToDraw::enough());
            for nth in 0..ToDraw::enough().most_blocks {
                if gathered.is_settled() {
                    break;
                }
                gathered.take(to_draw.block(nth));
            }
            assert_eq!(to_draw.block(3), to_draw.block(3));
            let found = to_draw.held_against(&gathered.finish().unwrap());
            assert!(found.agree && found.is_settled && found.lost == 0, "{found:?}");
            assert!((found.drawn_u / found.linear_u - 1.0).abs() < 0.02, "{found:?}");
            assert!(found.u95 >= K * found.linear_u - 1e-15 && found.u95 < 2.1 * found.linear_u);
        }
    }

    /// One that is wide, or beside: the larger is the one to go by, and that they differ is said.
    #[test]
    fn what_differs_is_said_and_the_larger_counts() {
        let arrangement = clear();
        let to_draw = ToDraw::of(&arrangement, &Scene::of(&arrangement)).unwrap();
        let (value, u) = to_draw.linear;
        let drawn = |low: f64, high: f64, lost: usize| Drawn {
            mean: value,
            u: u * high / 1.96,
            low: value + low * u,
            high: value + high * u,
            shortest: (value + low * u, value + high * u),
            draws: 20_000,
            lost,
            is_settled: true,
        };
        let near = |found: f64, expected: f64| (found - expected).abs() < 1e-9 * expected;
        assert!(to_draw.held_against(&drawn(-1.96, 1.96, 0)).agree);
        assert!(!to_draw.held_against(&drawn(-1.96, 1.96, 3)).agree);
        let wide = to_draw.held_against(&drawn(-2.0, 4.0, 0));
        assert!(!wide.agree && near(wide.u95, 4.0 * u) && near(wide.high, 4.0 * u));
        // What is drawn narrower does not make it surer.
        let narrow = to_draw.held_against(&drawn(-1.0, 1.0, 0));
        assert!(!narrow.agree && near(narrow.u95, K * u));
    }
}
