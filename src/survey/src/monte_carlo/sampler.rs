//! Draws of inputs.

use super::BLOCK;
use crate::dice::{Dozens, Lanes, SIDE_BY_SIDE};
use crate::input::{Correlation, Input, Shape, are_sound};
use crate::matrix::{Cholesky, Matrix, eigen};
use crate::propagate::covariance;

/// What is made of inputs, many draws side by side. Any function of a row of inputs is one.
pub trait Model {
    /// Fills in the value of each draw: the first of its inputs is in the first lane of each column.
    fn values(&mut self, inputs: &[Lanes], found: &mut Lanes);
}

impl<F: Fn(&[f64]) -> f64> Model for F {
    fn values(&mut self, inputs: &[Lanes], found: &mut Lanes) {
        let mut row = vec![0.0; inputs.len()];
        for (lane, found) in found.iter_mut().enumerate() {
            for (cell, column) in row.iter_mut().zip(inputs) {
                column.get(lane).into_iter().for_each(|drawn| *cell = *drawn);
            }
            *found = self(&row);
        }
    }
}

/// Inputs, made ready to be drawn.
#[derive(Clone, Debug)]
pub struct Sampler {
    inputs: Vec<Input>,
    /// What is drawn for each: itself, or a standard figure where some go together.
    drawn: Vec<Input>,
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
        let mut drawn = inputs.to_vec();
        for at in &together {
            drawn.get_mut(*at).into_iter().for_each(|own| *own = Input::normal(0.0, 1.0));
        }
        Ok(Self { inputs: inputs.to_vec(), drawn, together, mixed })
    }

    /// What a model makes of the block with this number: [`BLOCK`] figures, in the order in which they were drawn.
    pub fn block(&self, seed: u64, nth: u64, model: &mut impl Model) -> Vec<f64> {
        let mut dice = Dozens::of(seed, nth);
        let mut columns = vec![[0.0; SIDE_BY_SIDE]; self.inputs.len()];
        let mut own = vec![[0.0; SIDE_BY_SIDE]; self.together.len()];
        let mut found = Vec::with_capacity(BLOCK);
        let mut lanes = [0.0; SIDE_BY_SIDE];
        for _ in 0..BLOCK / SIDE_BY_SIDE {
            for (column, input) in columns.iter_mut().zip(&self.drawn) {
                draw(&mut dice, input, column);
            }
            self.mix(&mut columns, &mut own);
            model.values(&columns, &mut lanes);
            found.extend_from_slice(&lanes);
        }
        found
    }

    /// Makes those that go together of the standard ones that were drawn in their places.
    fn mix(&self, columns: &mut [Lanes], own: &mut [Lanes]) {
        for (own, at) in own.iter_mut().zip(&self.together) {
            columns.get(*at).into_iter().for_each(|column| *own = *column);
        }
        for (nth, at) in self.together.iter().enumerate() {
            let Some((column, input)) = columns.get_mut(*at).zip(self.inputs.get(*at)) else { continue };
            *column = [input.at; SIDE_BY_SIDE];
            for (own, share) in own.iter().zip(self.mixed.row(nth)) {
                column.iter_mut().zip(own).for_each(|(cell, own)| *cell += share * own);
            }
        }
    }
}

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

/// Draws one input.
fn draw(dice: &mut Dozens, input: &Input, lanes: &mut Lanes) {
    let Input { at, u, freedom, shape } = *input;
    match shape {
        Shape::Normal => dice.normal(at, u, lanes),
        Shape::Rectangular => {
            let half = u * 3.0_f64.sqrt();
            dice.uniform(lanes, |share| at + half * (2.0 * share - 1.0));
        }
        Shape::Triangular => {
            let half = u * 6.0_f64.sqrt();
            let mut other = [0.0; SIDE_BY_SIDE];
            dice.uniform(&mut other, |share| share);
            dice.uniform(lanes, |share| share);
            lanes.iter_mut().zip(&other).for_each(|(own, other)| *own = at + half * (*own + other - 1.0));
        }
        Shape::ArcSine => {
            let half = u * std::f64::consts::SQRT_2;
            dice.uniform(lanes, |share| at + half * libm::sin(std::f64::consts::TAU * share));
        }
        Shape::T => lanes.iter_mut().for_each(|lane| *lane = at + u * dice.one.t(freedom)),
    }
}
