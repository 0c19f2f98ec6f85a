//! Why a network is not determined: which marks can move without any distance changing.

use super::system::Unknowns;
use crate::matrix::{Matrix, eigen};

/// A direction in which the distances change by less than this share of what they change in others is one that they do not see.
const UNSEEN: f64 = 1e-9;
/// A mark that moves by less than this share of those that move most stays.
const STAYS: f64 = 1e-4;

/// The marks and the tapes whose unknowns the normal equations do not determine, from the equations with ones on their diagonal.
pub(super) fn not_determined(normal: &Matrix, unknowns: &Unknowns) -> (Vec<usize>, Vec<usize>) {
    let size = normal.rows();
    let own = |at: usize| normal.at(at, at).max(0.0).sqrt();
    let scaled = Matrix::of(size, size, |row, column| {
        let by = own(row) * own(column);
        if by > 0.0 { normal.at(row, column) / by } else { 0.0 }
    });
    let found = eigen(&scaled);
    let most = found.values.last().copied().unwrap_or_default().max(f64::MIN_POSITIVE);
    let mut moves = vec![0.0_f64; size];
    for (_, vector) in found.values.iter().zip(&found.vectors).filter(|(value, _)| **value <= UNSEEN * most) {
        moves.iter_mut().zip(vector).for_each(|(moved, by)| *moved = moved.max(by.abs()));
    }
    let least = STAYS * moves.iter().copied().fold(0.0, f64::max);
    let free = |unknown: usize| moves.get(unknown).is_some_and(|moved| *moved > least);
    let marks = unknowns.ways.iter().enumerate();
    let marks = marks.filter(|(_, ways)| ways.iter().any(|(unknown, _)| free(*unknown)));
    let tapes = unknowns.scales.iter().enumerate().filter(|(_, scale)| scale.is_some_and(free));
    (marks.map(|(mark, _)| mark).collect(), tapes.map(|(tape, _)| tape).collect())
}
