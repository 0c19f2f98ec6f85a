//! Eigenvalues of a symmetric matrix by Jacobi's rotations: sure, and quick enough where it is asked for (why a network is not
//! determined).

use super::Matrix;

/// Rounds over all cells; each squares what is left, so that a dozen would do.
const MOST_ROUNDS: usize = 60;

/// Eigenvalues, rising, and to each its vector of length 1.
#[derive(Clone, Debug, PartialEq)]
pub struct Eigen {
    /// The values, rising.
    pub values: Vec<f64>,
    /// Their vectors.
    pub vectors: Vec<Vec<f64>>,
}

/// Of a symmetric matrix whose cells are numbers.
pub fn eigen(matrix: &Matrix) -> Eigen {
    let size = matrix.rows();
    let mut left = matrix.clone();
    let mut turned = Matrix::diagonal(&vec![1.0; size]);
    for _ in 0..MOST_ROUNDS {
        let mut is_done = true;
        for p in 0..size {
            for q in p + 1..size {
                let off = left.at(p, q);
                let least = f64::EPSILON * 1e-2 * (left.at(p, p) * left.at(q, q)).abs().sqrt();
                if off.abs() <= least.max(f64::MIN_POSITIVE) {
                    continue;
                }
                is_done = false;
                let theta = (left.at(q, q) - left.at(p, p)) / (2.0 * off);
                let t = theta.signum() / (theta.abs() + (theta * theta + 1.0).sqrt());
                let c = 1.0 / (t * t + 1.0).sqrt();
                let s = t * c;
                for k in 0..size {
                    let (a, b) = (left.at(k, p), left.at(k, q));
                    left.set(k, p, c * a - s * b);
                    left.set(k, q, s * a + c * b);
                }
                for k in 0..size {
                    let (a, b) = (left.at(p, k), left.at(q, k));
                    left.set(p, k, c * a - s * b);
                    left.set(q, k, s * a + c * b);
                    let (a, b) = (turned.at(k, p), turned.at(k, q));
                    turned.set(k, p, c * a - s * b);
                    turned.set(k, q, s * a + c * b);
                }
            }
        }
        if is_done {
            break;
        }
    }
    let mut order: Vec<usize> = (0..size).collect();
    order.sort_by(|a, b| left.at(*a, *a).total_cmp(&left.at(*b, *b)));
    Eigen {
        values: order.iter().map(|at| left.at(*at, *at)).collect(),
        vectors: order.iter().map(|at| (0..size).map(|row| turned.at(row, *at)).collect()).collect(),
    }
}
