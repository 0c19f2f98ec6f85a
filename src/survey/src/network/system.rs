//! A network as linear equations: what stands for which unknown, and the rows of the distances.

use baywright_geometry::DVec2;

use super::{Datum, Network, NetworkFault, Scale};
use crate::matrix::{Cholesky, Matrix};

/// Two marks nearer than this have no direction, mm.
const ONE_PLACE: f64 = 1e-9;

/// Which unknown each thing is.
pub(super) struct Unknowns {
    /// Of each mark: the ways in which it may move, each with its unknown.
    pub ways: Vec<Vec<(usize, DVec2)>>,
    /// Of each tape.
    pub scales: Vec<Option<usize>>,
    pub count: usize,
}

impl Unknowns {
    pub fn of(network: &Network) -> Self {
        let mut count = 0;
        let mut next = || {
            count += 1;
            count - 1
        };
        let along = |at: usize, towards: usize| {
            let place = |mark: usize| network.marks.get(mark).map_or(DVec2::ZERO, |mark| mark.at);
            (place(towards) - place(at)).normalize_or_zero()
        };
        let ways = network.marks.iter().enumerate().map(|(own, mark)| match network.datum {
            Datum::Held if mark.is_held => Vec::new(),
            Datum::Minimal { at, .. } if at == own => Vec::new(),
            Datum::Minimal { at, towards } if towards == own => vec![(next(), along(at, towards))],
            _ => vec![(next(), DVec2::X), (next(), DVec2::Y)],
        });
        let ways = ways.collect();
        let scales = network.tapes.iter().map(|tape| matches!(tape, Scale::Sought { .. }).then(&mut next));
        let scales = scales.collect();
        Self { ways, scales, count }
    }

    /// All coordinates by the unknowns: how each follows.
    pub fn to_coordinates(&self) -> Matrix {
        let mut made = Matrix::zero(2 * self.ways.len(), self.count);
        for (mark, ways) in self.ways.iter().enumerate() {
            for (unknown, way) in ways {
                made.set(2 * mark, *unknown, way.x);
                made.set(2 * mark + 1, *unknown, way.y);
            }
        }
        made
    }
}

/// The rows at some state: how each reading, less what it should be, follows the unknowns. Rows of scales that are known
/// beforehand come last.
pub(super) struct Rows {
    /// Each over the unknowns.
    pub of: Matrix,
    /// Read less computed.
    pub misses: Vec<f64>,
    /// The unit vector along each distance.
    pub along: Vec<DVec2>,
}

/// The readings' own covariance, taken apart once.
pub(super) enum Weights {
    /// Each by itself: one over its standard uncertainty.
    Alone(Vec<f64>),
    /// Some go together.
    Together(Cholesky),
}

impl Weights {
    pub fn of(network: &Network) -> Option<Self> {
        let common = |tape: usize| match network.tapes.get(tape) {
            Some(Scale::Common(u)) => *u,
            _ => 0.0,
        };
        let known = network.tapes.iter().filter_map(|tape| match tape {
            Scale::Sought { u } if u.is_finite() => Some(*u),
            _ => None,
        });
        let own: Vec<f64> = network.taped.iter().map(|taped| taped.u_mm).chain(known).collect();
        if network.taped.iter().all(|taped| common(taped.tape) == 0.0) {
            return Some(Self::Alone(own.iter().map(|u| 1.0 / u).collect()));
        }
        let mut covariance = Matrix::diagonal(&own.iter().map(|u| u * u).collect::<Vec<_>>());
        for (row, one) in network.taped.iter().enumerate() {
            for (column, other) in network.taped.iter().enumerate().filter(|(_, o)| o.tape == one.tape) {
                let u = common(one.tape);
                covariance.add(row, column, u * u * one.read_mm * other.read_mm);
            }
        }
        Some(Self::Together(Cholesky::of(&covariance)?))
    }

    /// A column in units of its own uncertainty.
    pub fn whitened(&self, column: &[f64]) -> Vec<f64> {
        match self {
            Self::Alone(own) => column.iter().zip(own).map(|(cell, own)| cell * own).collect(),
            Self::Together(parts) => parts.forward(column),
        }
    }

    pub fn whitened_rows(&self, rows: &Matrix) -> Matrix {
        match self {
            Self::Alone(own) => {
                let weight = |row: usize| own.get(row).copied().unwrap_or_default();
                Matrix::of(rows.rows(), rows.columns(), |row, column| rows.at(row, column) * weight(row))
            }
            Self::Together(parts) => parts.whitens(rows),
        }
    }

    /// Weight times a column.
    pub fn weighted(&self, column: &[f64]) -> Vec<f64> {
        match self {
            Self::Alone(own) => column.iter().zip(own).map(|(cell, own)| cell * own * own).collect(),
            Self::Together(parts) => parts.solve(column),
        }
    }

    /// Weight times each column of some rows.
    pub fn weighted_rows(&self, rows: &Matrix) -> Matrix {
        match self {
            Self::Alone(own) => {
                let weight = |row: usize| own.get(row).map_or(0.0, |own| own * own);
                Matrix::of(rows.rows(), rows.columns(), |row, column| rows.at(row, column) * weight(row))
            }
            Self::Together(parts) => {
                let columns = rows.transposed();
                let weighted: Vec<Vec<f64>> =
                    (0..columns.rows()).map(|column| parts.solve(columns.row(column))).collect();
                Matrix::of(rows.rows(), rows.columns(), |row, column| {
                    weighted.get(column).and_then(|of| of.get(row)).copied().unwrap_or_default()
                })
            }
        }
    }

    /// The weights themselves: the inverse of the readings' covariance.
    pub fn matrix(&self) -> Matrix {
        match self {
            Self::Alone(own) => Matrix::diagonal(&own.iter().map(|own| own * own).collect::<Vec<_>>()),
            Self::Together(parts) => parts.inverse(),
        }
    }

    /// The readings' covariance itself, cell by cell.
    pub fn covariance(&self, row: usize, column: usize) -> f64 {
        match self {
            Self::Alone(own) if row == column => own.get(row).map_or(0.0, |own| 1.0 / (own * own)),
            Self::Alone(_) => 0.0,
            Self::Together(parts) => crate::matrix::dot(parts.lower().row(row), parts.lower().row(column)),
        }
    }
}

impl Rows {
    pub fn at(
        network: &Network,
        unknowns: &Unknowns,
        places: &[DVec2],
        scales: &[f64],
    ) -> Result<Self, NetworkFault> {
        let known = |tape: &(usize, &Scale)| matches!(tape.1, Scale::Sought { u } if u.is_finite());
        let extra: Vec<usize> =
            network.tapes.iter().enumerate().filter(known).map(|(tape, _)| tape).collect();
        let mut of = Matrix::zero(network.taped.len() + extra.len(), unknowns.count);
        let (mut misses, mut along) = (Vec::with_capacity(of.rows()), Vec::with_capacity(of.rows()));
        for (row, taped) in network.taped.iter().enumerate() {
            let place = |mark: usize| places.get(mark).copied().unwrap_or_default();
            let span = place(taped.to) - place(taped.from);
            let length = span.length();
            if length.is_nan() || length <= ONE_PLACE {
                return Err(NetworkFault::OnePlace { taped: row });
            }
            let way = span / length;
            let scale = scales.get(taped.tape).copied().unwrap_or_default();
            for (mark, sign) in [(taped.from, -1.0), (taped.to, 1.0)] {
                for (unknown, own) in unknowns.ways.get(mark).into_iter().flatten() {
                    of.add(row, *unknown, sign * way.dot(*own) * (1.0 + scale));
                }
            }
            if let Some(Some(unknown)) = unknowns.scales.get(taped.tape) {
                of.add(row, *unknown, length);
            }
            misses.push(taped.read_mm - length * (1.0 + scale));
            along.push(way * (1.0 + scale));
        }
        for (nth, tape) in extra.iter().enumerate() {
            if let Some(Some(unknown)) = unknowns.scales.get(*tape) {
                of.set(network.taped.len() + nth, *unknown, 1.0);
            }
            misses.push(-scales.get(*tape).copied().unwrap_or_default());
        }
        Ok(Self { of, misses, along })
    }
}

/// What a free network may do without changing a distance: shift along x and y, and turn. As columns of length 1 that stand
/// square to each other.
pub(super) fn free_moves(unknowns: &Unknowns, places: &[DVec2]) -> Vec<Vec<f64>> {
    let count = places.len().max(1) as f64;
    let middle = places.iter().fold(DVec2::ZERO, |sum, place| sum + *place / count);
    let moved = |by: &dyn Fn(DVec2) -> DVec2| {
        let mut column = vec![0.0; unknowns.count];
        for (place, ways) in places.iter().zip(&unknowns.ways) {
            for (unknown, way) in ways {
                if let Some(cell) = column.get_mut(*unknown) {
                    *cell = way.dot(by(*place - middle));
                }
            }
        }
        let length = crate::matrix::dot(&column, &column).sqrt();
        column.iter().map(|cell| if length > 0.0 { cell / length } else { 0.0 }).collect()
    };
    vec![moved(&|_| DVec2::X), moved(&|_| DVec2::Y), moved(&|from| from.perp())]
}
