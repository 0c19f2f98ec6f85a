//! Draws of inputs.

use super::BLOCK;
use crate::dice::Dice;
use crate::input::{Correlation, Input, Shape, are_sound};
use crate::matrix::{Cholesky, Matrix, eigen};
use crate::propagate::covariance;

/// So many draws are made side by side: what they take stays in the processor's nearest memory.
const SIDE_BY_SIDE: usize = 50;

/// Inputs, made ready to be drawn.
#[derive(Clone, Debug)]
pub struct Sampler {
    inputs: Vec<Input>,
    /// Those that go together, by their positions, and how each is made of as many normal figures.
    together: Vec<usize>,
    mixed: Matrix,
}

/// Why inputs cannot be drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SamplerFault {
    /// A figure is none, or a correlation is of inputs that are not there or not between -1 and 1.
    NotSound,
    /// Inputs go together that are not normal.
    NotNormal,
    /// Correlations that cannot all be true.
    Contradicting,
}

impl Sampler {
    /// Makes inputs ready.
    ///
    /// # Errors
    /// What cannot be drawn.
    pub fn of(inputs: &[Input], correlations: &[Correlation]) -> Result<Self, SamplerFault> {
        if !are_sound(inputs, correlations) {
            return Err(SamplerFault::NotSound);
        }
        let mut together: Vec<usize> = correlations.iter().flat_map(|c| [c.first, c.second]).collect();
        together.sort_unstable();
        together.dedup();
        let of = |at: usize| inputs.get(at).copied().unwrap_or(Input::normal(0.0, 0.0));
        if together.iter().any(|at| of(*at).shape != Shape::Normal) {
            return Err(SamplerFault::NotNormal);
        }
        let all = covariance(inputs, correlations);
        let cell = |at: usize| together.get(at).copied().unwrap_or(usize::MAX);
        let count = together.len();
        let own = Matrix::of(count, count, |row, column| all.at(cell(row), cell(column)));
        let mixed = root(&own).ok_or(SamplerFault::Contradicting)?;
        Ok(Self { inputs: inputs.to_vec(), together, mixed })
    }

    /// What a model makes of the block with this number: [`BLOCK`] figures, in the order in which they were drawn.
    pub fn block(&self, seed: u64, nth: u64, model: impl Fn(&[f64]) -> f64) -> Vec<f64> {
        let mut dice = Dice::of(seed, nth);
        let width = self.inputs.len();
        let mut cells = vec![0.0; width * SIDE_BY_SIDE];
        let mut mixing = Vec::with_capacity(self.together.len());
        let mut found = Vec::with_capacity(BLOCK);
        for _ in 0..BLOCK / SIDE_BY_SIDE {
            for (at, input) in self.inputs.iter().enumerate() {
                let is_mixed = self.together.binary_search(&at).is_ok();
                draw(&mut dice, if is_mixed { &STANDARD } else { input }, &mut cells, at, width);
            }
            if width == 0 {
                found.extend(std::iter::repeat_n(model(&[]), SIDE_BY_SIDE));
                continue;
            }
            for row in cells.chunks_exact_mut(width) {
                if !self.together.is_empty() {
                    self.mix(row, &mut mixing);
                }
                found.push(model(row));
            }
        }
        found
    }

    fn mix(&self, row: &mut [f64], drawn: &mut Vec<f64>) {
        drawn.clear();
        drawn.extend(self.together.iter().map(|at| row.get(*at).copied().unwrap_or_default()));
        for (nth, at) in self.together.iter().enumerate() {
            let input = self.inputs.get(*at).map_or(0.0, |input| input.at);
            if let Some(cell) = row.get_mut(*at) {
                *cell = input + crate::matrix::dot(self.mixed.row(nth), drawn);
            }
        }
    }
}

const STANDARD: Input = Input::normal(0.0, 1.0);

/// M of M·Mᵀ: by Cholesky, or, where some go together wholly, by eigenvalues. `None` if one of these is below nothing.
fn root(of: &Matrix) -> Option<Matrix> {
    if let Some(parts) = Cholesky::of(of) {
        return Some(parts.lower().clone());
    }
    let found = eigen(of);
    let least = -1e-9 * found.values.last().copied().unwrap_or_default();
    if found.values.first().is_some_and(|value| *value < least) {
        return None;
    }
    let cell = |row: usize, column: usize| {
        let vector = found.vectors.get(column).and_then(|vector| vector.get(row));
        let value = found.values.get(column).copied().unwrap_or_default();
        vector.map_or(0.0, |vector| vector * value.max(0.0).sqrt())
    };
    Some(Matrix::of(of.rows(), of.rows(), cell))
}

/// Fills the column of one input.
fn draw(dice: &mut Dice, input: &Input, cells: &mut [f64], first: usize, step: usize) {
    let Input { at, u, freedom, shape } = *input;
    let mut each = |one: &mut dyn FnMut(&mut Dice) -> f64| {
        cells.iter_mut().skip(first).step_by(step.max(1)).for_each(|cell| *cell = one(dice));
    };
    match shape {
        Shape::Normal => dice.fill_normal(cells, first, step.max(1), |z| at + u * z),
        Shape::Rectangular => {
            let half = u * 3.0_f64.sqrt();
            each(&mut |dice| at + half * (2.0 * dice.uniform() - 1.0));
        }
        Shape::Triangular => {
            let half = u * 6.0_f64.sqrt();
            each(&mut |dice| at + half * (dice.uniform() + dice.uniform() - 1.0));
        }
        Shape::ArcSine => {
            let half = u * std::f64::consts::SQRT_2;
            each(&mut |dice| at + half * libm::sin(std::f64::consts::TAU * dice.uniform()));
        }
        Shape::T => each(&mut |dice| at + u * dice.t(freedom)),
    }
}
