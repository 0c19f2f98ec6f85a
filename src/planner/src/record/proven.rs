//! From what the marks prove to entries of the record: nobody types a decision.

use baywright_geometry::angle;

use crate::model::Arrangement;
use crate::model::record::{Decided, Decision, DecisionRule, ProvenFigure, What};
use crate::proof::{FigureOf, Proof};
use crate::scene::Scene;

/// What a set-up's marks prove, a figure each, as it is entered; none where it has no plan that can be found, or nothing was taped that can
/// be held against it. Figures are rounded as files hold them, away from "inside", and decided after that.
pub fn proven(arrangement: &Arrangement, scene: &Scene) -> Vec<What> {
    let Some(proof) = Proof::of(arrangement, scene).filter(|own| own.read() > 0) else { return Vec::new() };
    let taped = proof.read();
    let figures = proof.figures.iter().filter_map(|own| {
        let of = match own.of {
            FigureOf::Direction => ProvenFigure::Direction,
            FigureOf::Distance => ProvenFigure::Distance,
            FigureOf::Aside => ProvenFigure::Aside,
            FigureOf::Turn => ProvenFigure::Turn,
        };
        let unit = |value: f64| if of.is_angle() { angle::degrees(value) } else { value };
        let mut decided = Decided {
            aiming: arrangement.aiming.id.clone(),
            placement: own.placement.clone(),
            of,
            off: away(unit(own.off)),
            u95: away(unit(own.u95)),
            allowed: near(unit(own.allowed)),
            // Beyond any allowance there is no telling how much.
            unseen: Some(away(unit(own.unseen))).filter(|own| own.is_finite() && *own <= 1e5),
            taped,
            decision: Decision::CannotSay,
            rule: DecisionRule::GuardedAcceptance,
        };
        decided.decision = decided.follows()?;
        Some(What::Decided(decided))
    });
    figures.collect()
}

const STEPS: f64 = 1e6;

/// To a millionth, away from nothing.
fn away(value: f64) -> f64 {
    (value.abs() * STEPS - 1e-3).ceil().max(0.0).copysign(value) / STEPS
}

/// To a millionth.
fn near(value: f64) -> f64 {
    (value * STEPS).round() / STEPS
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_are_rounded_away_from_inside() {
        assert_eq!((away(0.030_000_4), away(-0.030_000_4)), (0.030_001, -0.030_001));
        assert_eq!((away(0.03), away(-0.1), away(0.0)), (0.03, -0.1, 0.0));
        assert!(away(f64::INFINITY).is_infinite());
    }
}
