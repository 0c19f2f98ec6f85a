//! The law of propagation of uncertainty (JCGM 100, clause 5) with every sensitivity, and how surely the outcome is known
//! (Welch-Satterthwaite, G.4.1).
//!
//! Sensitivities are differences over one standard uncertainty to either side and over half of that, put together so that the
//! third order drops out (Richardson): exact for polynomials of the fourth degree, and no derivative has to be written by hand.

use crate::chances::t_beyond;
use crate::input::{Correlation, Input, are_sound};
use crate::matrix::{Matrix, dot};

/// What one input adds.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Part {
    /// How much the outcome changes with the input, per unit.
    pub sensitivity: f64,
    /// That times its standard uncertainty: with its sign.
    pub u: f64,
    /// Its share of the variance. Of inputs that go together, with half of what is theirs in common; all add up to 1.
    pub share: f64,
}

/// An outcome with its uncertainty.
#[derive(Clone, Debug, PartialEq)]
pub struct Outcome {
    /// Its best estimate.
    pub value: f64,
    /// Standard uncertainty.
    pub u: f64,
    /// Effective degrees of freedom; infinite if all inputs' uncertainties are known.
    pub freedom: f64,
    /// What each input adds.
    pub parts: Vec<Part>,
}

impl Outcome {
    /// The half width of the interval that holds the value but for this chance (0.05 for 95 %), with the freedom cut down to a
    /// whole number, as G.6.4 has it.
    pub fn within(&self, but_for: f64) -> f64 {
        self.u
            * t_beyond(
                but_for,
                if self.freedom.is_finite() { self.freedom.floor().max(1.0) } else { self.freedom },
            )
    }
}

/// Some outcomes of the same inputs, and how they follow them.
#[derive(Clone, Debug, PartialEq)]
pub struct Outcomes {
    /// Best estimates.
    pub values: Vec<f64>,
    /// How each (rows) changes with each input (columns), per unit.
    pub follows: Matrix,
    /// Their covariance.
    pub covariance: Matrix,
}

/// The covariance of inputs.
pub fn covariance(inputs: &[Input], correlations: &[Correlation]) -> Matrix {
    let variances: Vec<f64> = inputs.iter().map(|input| input.u * input.u).collect();
    let mut made = Matrix::diagonal(&variances);
    let u = |at: usize| inputs.get(at).map_or(0.0, |input| input.u);
    for Correlation { first, second, r } in correlations {
        let both = r * u(*first) * u(*second);
        made.set(*first, *second, both);
        made.set(*second, *first, both);
    }
    made
}

/// All outcomes of a model. `None` if an input is not sound, or the model gives no number at the inputs or one standard
/// uncertainty beside them.
pub fn propagate_all(
    model: impl Fn(&[f64]) -> Vec<f64>,
    inputs: &[Input],
    correlations: &[Correlation],
) -> Option<Outcomes> {
    if !are_sound(inputs, correlations) {
        return None;
    }
    let mut at: Vec<f64> = inputs.iter().map(|input| input.at).collect();
    let values = model(&at);
    let mut follows = Matrix::zero(values.len(), inputs.len());
    for (column, input) in inputs.iter().enumerate().filter(|(_, input)| input.u > 0.0) {
        let mut slope = |step: f64| {
            let mut beside = |to: f64| {
                at.get_mut(column).into_iter().for_each(|own| *own = to);
                model(&at)
            };
            let (above, below) = (beside(input.at + step), beside(input.at - step));
            beside(input.at);
            // What the step came to, not what was asked: a figure may be too large to take it whole.
            let taken = (input.at + step) - (input.at - step);
            above.iter().zip(&below).map(|(above, below)| (above - below) / taken).collect::<Vec<f64>>()
        };
        let (whole, half) = (slope(input.u), slope(0.5 * input.u));
        for (row, (whole, half)) in whole.iter().zip(&half).enumerate() {
            follows.set(row, column, (4.0 * half - whole) / 3.0);
        }
    }
    let covariance = follows.carries(&covariance(inputs, correlations));
    let is_found = values.iter().all(|value| value.is_finite()) && covariance.is_finite();
    is_found.then_some(Outcomes { values, follows, covariance })
}

/// One outcome of a model; `None` as in [`propagate_all`].
///
/// GUM H.3: b = y₁ + y₂·(30 − 20), the two coefficients of a line.
///
/// ```
/// use baywright_survey::{input::{Correlation, Input}, propagate::propagate};
/// let inputs = [Input::normal(-0.1712, 0.0029), Input::normal(0.00218, 0.00067)];
/// let together = [Correlation { first: 0, second: 1, r: -0.930 }];
/// let found = propagate(|x| x[0] + x[1] * 10.0, &inputs, &together).unwrap();
/// assert!((found.value - -0.1494).abs() < 1e-9 && (found.u - 0.004142).abs() < 1e-6);
/// ```
pub fn propagate(
    model: impl Fn(&[f64]) -> f64,
    inputs: &[Input],
    correlations: &[Correlation],
) -> Option<Outcome> {
    let all = propagate_all(|x| vec![model(x)], inputs, correlations)?;
    Some(outcome(*all.values.first()?, all.follows.row(0), inputs, correlations))
}

/// An outcome whose sensitivities are known.
pub fn outcome(value: f64, sensitivities: &[f64], inputs: &[Input], correlations: &[Correlation]) -> Outcome {
    let follows: Vec<f64> =
        sensitivities.iter().copied().chain(std::iter::repeat(0.0)).take(inputs.len()).collect();
    let own: Vec<f64> = follows.iter().zip(inputs).map(|(c, input)| c * input.u).collect();
    let common = covariance(inputs, correlations).times_column(&follows);
    let variance = dot(&common, &follows).max(0.0);
    let parts = follows.iter().zip(&own).zip(&common).map(|((c, own), common)| {
        let share = if variance > 0.0 { c * common / variance } else { 0.0 };
        Part { sensitivity: *c, u: *own, share }
    });
    let weak: f64 = own.iter().zip(inputs).map(|(own, input)| own.powi(4) / input.freedom).sum();
    let freedom = if weak > 0.0 { variance * variance / weak } else { f64::INFINITY };
    Outcome { value, u: variance.sqrt(), freedom, parts: parts.collect() }
}

/// What the terms of the next order add to the variance of inputs that do not go together (JCGM 100, 5.1.2, note): large beside
/// u² where the linear law is not enough. `None` as in [`propagate_all`].
pub fn second_order(model: impl Fn(&[f64]) -> f64, inputs: &[Input]) -> Option<f64> {
    if !are_sound(inputs, &[]) {
        return None;
    }
    // In steps of one standard uncertainty, so that all derivatives come in one unit.
    let at = |i: usize, di: f64, j: usize, dj: f64| {
        let beside = |which: usize| if which == i { di } else { 0.0 } + if which == j { dj } else { 0.0 };
        let off = inputs.iter().enumerate().map(|(which, input)| input.at + beside(which) * input.u);
        model(&off.collect::<Vec<f64>>())
    };
    let mut sum = 0.0;
    for i in 0..inputs.len() {
        for j in 0..inputs.len() {
            let f = |di: f64, dj: f64| at(i, di, j, dj);
            let (one, other) = (f(1.0, 0.0), f(-1.0, 0.0));
            let slope = 0.5 * (one - other);
            // The second derivative by both, and the third by the first and twice by the second.
            let (twice, third) = if i == j {
                (
                    one - 2.0 * f(0.0, 0.0) + other,
                    0.5 * (f(2.0, 0.0) - 2.0 * one + 2.0 * other - f(-2.0, 0.0)),
                )
            } else {
                let [pp, pm, mp, mm] = [f(1.0, 1.0), f(1.0, -1.0), f(-1.0, 1.0), f(-1.0, -1.0)];
                (0.25 * (pp - pm - mp + mm), 0.5 * ((pp - 2.0 * one + pm) - (mp - 2.0 * other + mm)))
            };
            sum += 0.5 * twice * twice + slope * third;
        }
    }
    sum.is_finite().then_some(sum)
}
