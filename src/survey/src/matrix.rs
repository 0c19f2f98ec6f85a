//! Small dense matrices: what a network of some tens of marks needs, in plain loops of our own, so that the same bits come out on
//! every machine (libraries pick other instructions, and so other roundings, by the processor that they run on).

mod eigen;

pub use eigen::{Eigen, eigen};

/// A pivot below this share of its diagonal counts as none.
const NO_PIVOT: f64 = 1e-10;

/// A matrix by rows. What lies outside of it reads as 0 and is written nowhere.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Matrix {
    rows: usize,
    columns: usize,
    cells: Vec<f64>,
}

impl Matrix {
    /// All noughts.
    pub fn zero(rows: usize, columns: usize) -> Self {
        Self { rows, columns, cells: vec![0.0; rows * columns] }
    }

    /// Each cell by its row and column.
    pub fn of(rows: usize, columns: usize, cell: impl Fn(usize, usize) -> f64) -> Self {
        let cells = (0..rows * columns).map(|at| cell(at / columns, at % columns)).collect();
        Self { rows, columns, cells }
    }

    /// These on the diagonal, nought elsewhere.
    pub fn diagonal(cells: &[f64]) -> Self {
        let mut made = Self::zero(cells.len(), cells.len());
        cells.iter().enumerate().for_each(|(at, cell)| made.set(at, at, *cell));
        made
    }

    /// How many rows.
    pub const fn rows(&self) -> usize {
        self.rows
    }

    /// How many columns.
    pub const fn columns(&self) -> usize {
        self.columns
    }

    /// A cell.
    pub fn at(&self, row: usize, column: usize) -> f64 {
        if column >= self.columns {
            return 0.0;
        }
        self.cells.get(row * self.columns + column).copied().unwrap_or(0.0)
    }

    /// Changes a cell.
    pub fn set(&mut self, row: usize, column: usize, to: f64) {
        if column < self.columns
            && let Some(cell) = self.cells.get_mut(row * self.columns + column)
        {
            *cell = to;
        }
    }

    /// Adds to a cell.
    pub fn add(&mut self, row: usize, column: usize, by: f64) {
        self.set(row, column, self.at(row, column) + by);
    }

    /// A row.
    pub fn row(&self, row: usize) -> &[f64] {
        self.cells.get(row * self.columns..(row + 1) * self.columns).unwrap_or_default()
    }

    fn row_mut(&mut self, row: usize) -> &mut [f64] {
        self.cells.get_mut(row * self.columns..(row + 1) * self.columns).unwrap_or_default()
    }

    /// Whether every cell is a number.
    pub fn is_finite(&self) -> bool {
        self.cells.iter().all(|cell| cell.is_finite())
    }

    /// Rows and columns changed about.
    #[must_use]
    pub fn transposed(&self) -> Self {
        Self::of(self.columns, self.rows, |row, column| self.at(column, row))
    }

    /// This times another.
    #[must_use]
    pub fn times(&self, other: &Self) -> Self {
        let mut product = Self::zero(self.rows, other.columns);
        for row in 0..self.rows {
            for (at, factor) in self.row(row).iter().enumerate().filter(|(_, factor)| **factor != 0.0) {
                for (sum, cell) in product.row_mut(row).iter_mut().zip(other.row(at)) {
                    *sum += factor * cell;
                }
            }
        }
        product
    }

    /// This times a column.
    pub fn times_column(&self, column: &[f64]) -> Vec<f64> {
        (0..self.rows).map(|row| dot(self.row(row), column)).collect()
    }

    /// This, turned about, times itself: symmetric.
    #[must_use]
    pub fn squared(&self) -> Self {
        let mut square = Self::zero(self.columns, self.columns);
        for row in 0..self.rows {
            let cells = self.row(row);
            for (at, factor) in cells.iter().enumerate().filter(|(_, factor)| **factor != 0.0) {
                for (sum, cell) in square.row_mut(at).iter_mut().zip(cells) {
                    *sum += factor * cell;
                }
            }
        }
        square
    }

    /// Spreads from a covariance: this times it times this turned about.
    #[must_use]
    pub fn carries(&self, covariance: &Self) -> Self {
        self.times(covariance).times(&self.transposed())
    }

    /// a·M·b.
    pub fn between(&self, a: &[f64], b: &[f64]) -> f64 {
        a.iter().enumerate().map(|(row, factor)| factor * dot(self.row(row), b)).sum()
    }

    /// Sum of both, cell by cell.
    #[must_use]
    pub fn plus(&self, other: &Self) -> Self {
        Self::of(self.rows, self.columns, |row, column| self.at(row, column) + other.at(row, column))
    }
}

/// The sum of the products, one by one.
pub fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}

/// The lower triangle L of a symmetric positive definite matrix L·Lᵀ.
#[derive(Clone, Debug, PartialEq)]
pub struct Cholesky {
    lower: Matrix,
}

impl Cholesky {
    /// Of a matrix of which the lower triangle is read. `None` if it is not positive definite, or so nearly not that nothing it
    /// gives would mean anything: each pivot is held against its own diagonal.
    ///
    /// ```
    /// use baywright_survey::matrix::{Cholesky, Matrix};
    /// let two = Matrix::of(2, 2, |row, column| if row == column { 2.0 } else { 1.0 });
    /// let found = Cholesky::of(&two).unwrap().solve(&[3.0, 3.0]);
    /// assert!((found[0] - 1.0).abs() < 1e-12 && (found[1] - 1.0).abs() < 1e-12);
    /// assert!(Cholesky::of(&Matrix::of(2, 2, |_, _| 1.0)).is_none());
    /// ```
    pub fn of(matrix: &Matrix) -> Option<Self> {
        let size = matrix.rows();
        let mut lower = Matrix::zero(size, size);
        for row in 0..size {
            for column in 0..row {
                let pivot = lower.at(column, column);
                let (done, above) = (lower.row(row), lower.row(column));
                let (done, above) = (done.get(..column)?, above.get(..column)?);
                let rest = matrix.at(row, column) - dot(done, above);
                lower.set(row, column, rest / pivot);
            }
            let done = lower.row(row).get(..row)?;
            let own = matrix.at(row, row);
            let rest = own - dot(done, done);
            // A comparison with no number is false.
            if !(rest > NO_PIVOT * own && rest.is_finite()) {
                return None;
            }
            lower.set(row, row, rest.sqrt());
        }
        Some(Self { lower })
    }

    /// L.
    pub const fn lower(&self) -> &Matrix {
        &self.lower
    }

    /// x of L·x = b.
    pub fn forward(&self, b: &[f64]) -> Vec<f64> {
        let mut x: Vec<f64> = Vec::with_capacity(b.len());
        for (row, b) in b.iter().enumerate() {
            let rest = b - dot(self.lower.row(row), &x);
            x.push(rest / self.lower.at(row, row));
        }
        x
    }

    /// x of L·Lᵀ·x = b.
    pub fn solve(&self, b: &[f64]) -> Vec<f64> {
        let mut x = self.forward(b);
        for at in (0..x.len()).rev() {
            let (before, rest) = x.split_at_mut(at);
            if let Some(own) = rest.first_mut() {
                *own /= self.lower.at(at, at);
                // What is known now is taken from all that stand before it.
                for (other, cell) in before.iter_mut().zip(self.lower.row(at)) {
                    *other -= cell * *own;
                }
            }
        }
        x
    }

    /// The inverse of the whole: that of L, turned about, times itself.
    pub fn inverse(&self) -> Matrix {
        let size = self.lower.rows();
        let mut of_lower = Matrix::zero(size, size);
        for row in 0..size {
            let mut own = vec![0.0; row + 1];
            for (at, factor) in self.lower.row(row).iter().enumerate().take(row) {
                own.iter_mut().zip(of_lower.row(at)).for_each(|(own, cell)| *own -= factor * cell);
            }
            let pivot = self.lower.at(row, row);
            if let Some(last) = own.last_mut() {
                *last = 1.0;
            }
            of_lower.row_mut(row).iter_mut().zip(own).for_each(|(cell, own)| *cell = own / pivot);
        }
        of_lower.squared()
    }

    /// L⁻¹·M.
    pub fn whitens(&self, matrix: &Matrix) -> Matrix {
        let mut made = matrix.clone();
        for row in 0..matrix.rows() {
            let mut own = made.row(row).to_vec();
            for (at, factor) in self.lower.row(row).iter().enumerate().take(row) {
                own.iter_mut().zip(made.row(at)).for_each(|(own, cell)| *own -= factor * cell);
            }
            let pivot = self.lower.at(row, row);
            made.row_mut(row).iter_mut().zip(own).for_each(|(cell, own)| *cell = own / pivot);
        }
        made
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        /// Definition: what is multiplied back is what was there.
        #[test]
        fn inverse_and_solution_multiply_back(
            cells in prop::collection::vec(-3.0..3.0f64, 36), b in prop::collection::vec(-3.0..3.0f64, 6),
        ) {
            let any = Matrix::of(6, 6, |row, column| cells[row * 6 + column]);
            let definite = any.squared().plus(&Matrix::diagonal(&[1.0; 6]));
            let parts = Cholesky::of(&definite).unwrap();
            let one = definite.times(&parts.inverse());
            for (row, column) in (0..6).flat_map(|row| (0..6).map(move |column| (row, column))) {
                let expected = f64::from(u8::from(row == column));
                prop_assert!((one.at(row, column) - expected).abs() < 1e-9);
            }
            let back = definite.times_column(&parts.solve(&b));
            prop_assert!(back.iter().zip(&b).all(|(back, b)| (back - b).abs() < 1e-9));
            let white = parts.whitens(&definite);
            let turned = parts.lower().transposed();
            let same = |row: usize| (0..6).all(|column| (white.at(row, column) - turned.at(row, column)).abs() < 1e-9);
            prop_assert!((0..6).all(same));
            let found = eigen(&definite);
            for (value, vector) in found.values.iter().zip(&found.vectors) {
                let turned = definite.times_column(vector);
                prop_assert!(turned.iter().zip(vector).all(|(turned, own)| (turned - value * own).abs() < 1e-8));
            }
            prop_assert!(found.values.is_sorted());
        }
    }

    #[test]
    fn what_is_outside_is_nought() {
        let mut one = Matrix::diagonal(&[1.0]);
        one.set(0, 5, 3.0);
        one.set(7, 0, 3.0);
        assert_eq!((one.at(0, 5), one.at(7, 0), one.at(0, 0)), (0.0, 0.0, 1.0));
        assert!(Cholesky::of(&Matrix::diagonal(&[f64::NAN])).is_none());
        assert!(Cholesky::of(&Matrix::diagonal(&[f64::INFINITY])).is_none());
    }
}
