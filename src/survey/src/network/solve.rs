//! The adjustment itself: Gauss-Newton, with steps that are halved until they lead down.

use baywright_geometry::DVec2;

use super::defect::not_determined;
use super::system::{Rows, Unknowns, Weights, free_moves};
use super::{Adjusted, Datum, MOST_MARKS, MOST_TAPED, MOST_TAPES, Network, NetworkFault, Residual, Scale};
use crate::matrix::{Cholesky, Matrix, dot};

/// So many steps at most; a sound network takes three to six.
const MOST_STEPS: usize = 60;
/// So often a step is halved at most.
const MOST_HALVINGS: usize = 30;
/// At rest when no step is longer than this share of the least uncertainty, or of the largest coordinate: steps fall so fast that
/// the next one would be none.
const AT_REST: f64 = 1e-7;
const AT_REST_OF_PLACE: f64 = 1e-13;
/// A sum of squares that is larger by no more than this share is the same but for rounding.
const SAME_SUM: f64 = 1e-9;
/// A reading of which less than this share shows is checked by nothing.
const UNCHECKED: f64 = 1e-7;

/// The marks from the distances.
///
/// # Errors
/// What is not sound or does not determine the marks ([`NetworkFault`]).
///
/// A rectangle of 4 m by 3 m: two corners held, its sides and diagonals taped, one diagonal 2 mm too long.
///
/// ```
/// use baywright_survey::network::*;
/// let mark = |x: f64, y: f64, is_held| Mark { at: (x, y).into(), is_held };
/// let taped = |from, to, read_mm| Taped { from, to, read_mm, u_mm: 1.0, tape: 0 };
/// let network = Network {
///     marks: vec![mark(0., 0., true), mark(0., 3000., true), mark(4010., 0., false), mark(3990., 3000., false)],
///     taped: vec![
///         taped(0, 2, 4000.0), taped(1, 3, 4000.0), taped(2, 3, 3000.0), taped(0, 3, 5002.0), taped(1, 2, 5000.0),
///     ],
///     tapes: vec![Scale::True],
///     datum: Datum::Held,
/// };
/// let found = adjust(&network).unwrap();
/// assert_eq!(found.freedom, 1);
/// assert!(found.marks[2].distance((4000.0, 0.0).into()) < 4.0);
/// // One too many: something may not fit, but never which.
/// assert!((found.residuals[0].w.unwrap().abs() - found.residuals[3].w.unwrap().abs()).abs() < 1e-3);
/// ```
pub fn adjust(network: &Network) -> Result<Adjusted, NetworkFault> {
    sound(network)?;
    let weights = Weights::of(network).ok_or(NetworkFault::NoFigure)?;
    let unknowns = Unknowns::of(network);
    let mut places: Vec<DVec2> = network.marks.iter().map(|mark| mark.at).collect();
    let mut scales = vec![0.0; network.tapes.len()];
    let least_u = network.taped.iter().map(|taped| taped.u_mm).fold(f64::INFINITY, f64::min);
    let far = places.iter().map(|place| place.abs().max_element()).fold(0.0, f64::max);
    let rest = (AT_REST * least_u).max(AT_REST_OF_PLACE * far);
    let sum = |misses: &[f64]| {
        let white = weights.whitened(misses);
        dot(&white, &white)
    };
    let mut rows = Rows::at(network, &unknowns, &places, &scales)?;
    let mut cost = sum(&rows.misses);
    for step in 1..=MOST_STEPS {
        let white = weights.whitened_rows(&rows.of);
        let parts = Normal::of(network, &unknowns, &places, &white)?;
        let by = parts.solve(&white.transposed().times_column(&weights.whitened(&rows.misses)));
        let moved = |share: f64| {
            let places: Vec<DVec2> = places
                .iter()
                .zip(&unknowns.ways)
                .map(|(place, ways)| {
                    ways.iter().fold(*place, |at, (unknown, way)| at + *way * (share * cell(&by, *unknown)))
                })
                .collect();
            let scales: Vec<f64> = scales
                .iter()
                .zip(&unknowns.scales)
                .map(|(scale, unknown)| scale + unknown.map_or(0.0, |unknown| share * cell(&by, unknown)))
                .collect();
            (places, scales)
        };
        let whole = moved(1.0);
        let longest = whole.0.iter().zip(&places).map(|(to, from)| to.distance(*from)).fold(0.0, f64::max);
        let turned = whole.1.iter().zip(&scales).map(|(to, from)| (to - from).abs()).fold(0.0, f64::max);
        if longest <= rest && turned * far.max(1.0) <= rest {
            return Ok(finish(network, &unknowns, &weights, (places, scales), &rows, &parts, step));
        }
        let mut share = 1.0;
        let mut is_lower = false;
        for _ in 0..MOST_HALVINGS {
            let (to, scaled) = moved(share);
            let there = Rows::at(network, &unknowns, &to, &scaled);
            if let Ok(there) = there {
                let then = sum(&there.misses);
                if then <= cost * (1.0 + SAME_SUM) + SAME_SUM {
                    (places, scales, rows, cost, is_lower) = (to, scaled, there, then, true);
                    break;
                }
            }
            share *= 0.5;
        }
        if !is_lower {
            return Err(NetworkFault::NoRest);
        }
    }
    Err(NetworkFault::NoRest)
}

fn cell(column: &[f64], at: usize) -> f64 {
    column.get(at).copied().unwrap_or_default()
}

fn sound(network: &Network) -> Result<(), NetworkFault> {
    let Network { marks, taped, tapes, datum } = network;
    if marks.len() > MOST_MARKS || taped.len() > MOST_TAPED || tapes.len() > MOST_TAPES {
        return Err(NetworkFault::TooMany);
    }
    for (at, one) in taped.iter().enumerate() {
        let is_there = [one.from, one.to].iter().all(|mark| *mark < marks.len());
        if !is_there || one.from == one.to || one.tape >= tapes.len() {
            return Err(NetworkFault::NoSuch { taped: Some(at) });
        }
    }
    if let Datum::Minimal { at, towards } = datum {
        let place = |mark: &usize| marks.get(*mark).map(|mark| mark.at);
        match place(at).zip(place(towards)) {
            Some((a, b)) if a != b => {}
            _ => return Err(NetworkFault::NoSuch { taped: None }),
        }
    }
    let above = |figure: f64| figure > 0.0 && figure.is_finite();
    let are_numbers = marks.iter().all(|mark| mark.at.is_finite())
        && taped
            .iter()
            .all(|one| above(one.read_mm) && above(one.u_mm) && above(1.0 / (one.u_mm * one.u_mm)))
        && tapes.iter().all(|tape| match tape {
            Scale::True => true,
            Scale::Common(u) => *u >= 0.0 && u.is_finite(),
            Scale::Sought { u } => *u > 0.0,
        });
    if are_numbers { Ok(()) } else { Err(NetworkFault::NoFigure) }
}

/// The normal equations, taken apart.
struct Normal {
    parts: Cholesky,
    /// What was added for a free network: its moves, and their weight.
    free: Vec<Vec<f64>>,
    weight: f64,
}

impl Normal {
    fn of(
        network: &Network,
        unknowns: &Unknowns,
        places: &[DVec2],
        white: &Matrix,
    ) -> Result<Self, NetworkFault> {
        let mut normal = white.squared();
        let free = match network.datum {
            Datum::Inner => free_moves(unknowns, places),
            _ => Vec::new(),
        };
        // As heavy as the distances, so that the equations stay well put.
        let coordinates = 2 * places.len();
        let weight = (0..coordinates).map(|at| normal.at(at, at)).sum::<f64>() / coordinates.max(1) as f64;
        for column in &free {
            for row in 0..unknowns.count {
                for other in 0..unknowns.count {
                    normal.add(row, other, weight * cell(column, row) * cell(column, other));
                }
            }
        }
        match Cholesky::of(&normal) {
            Some(parts) => Ok(Self { parts, free, weight }),
            None if !normal.is_finite() => Err(NetworkFault::NoRest),
            None => {
                let (marks, tapes) = not_determined(&normal, unknowns);
                Err(NetworkFault::NotDetermined { marks, tapes })
            }
        }
    }

    fn solve(&self, column: &[f64]) -> Vec<f64> {
        self.parts.solve(column)
    }

    /// The covariance of the unknowns: what was added for the free moves taken off again.
    fn covariance(&self) -> Matrix {
        let mut covariance = self.parts.inverse();
        for column in &self.free {
            for row in 0..covariance.rows() {
                for other in 0..covariance.columns() {
                    covariance.add(row, other, -cell(column, row) * cell(column, other) / self.weight);
                }
            }
        }
        covariance
    }
}

/// All that is said of a network at rest.
fn finish(
    network: &Network,
    unknowns: &Unknowns,
    weights: &Weights,
    (places, scales): (Vec<DVec2>, Vec<f64>),
    rows: &Rows,
    parts: &Normal,
    steps: usize,
) -> Adjusted {
    let covariance = parts.covariance();
    let spread = unknowns.to_coordinates();
    let count = rows.of.rows();
    // Residuals' covariance Q is C - A·Qx·Aᵀ, and seen by the weights P - P·A·Qx·(P·A)ᵀ.
    let carried = rows.of.times(&covariance);
    let seen_rows = weights.weighted_rows(&rows.of);
    let seen_carried = seen_rows.times(&covariance);
    let inverse = weights.matrix();
    let both = |row: usize, column: usize| {
        inverse.at(row, column) - dot(seen_carried.row(row), seen_rows.row(column))
    };
    let adjusted = |row: usize| dot(carried.row(row), rows.of.row(row)).max(0.0);
    let residuals: Vec<f64> = rows.misses.iter().map(|miss| -miss).collect();
    let tested = weights.weighted(&residuals);
    let shown = |row: usize| {
        let own = both(row, row).max(0.0);
        // Against the weight that it has: what is checked by nothing shows nothing but rounding.
        let share = own * weights.covariance(row, row);
        if share > UNCHECKED { own.sqrt() } else { 0.0 }
    };
    let shows: Vec<f64> = (0..network.taped.len()).map(shown).collect();
    let told = (0..network.taped.len()).map(|row| {
        let shows = cell(&shows, row);
        Residual {
            residual_mm: cell(&residuals, row),
            u_residual_mm: (weights.covariance(row, row) - adjusted(row)).max(0.0).sqrt(),
            u_adjusted_mm: adjusted(row).sqrt(),
            redundancy: 1.0 - dot(carried.row(row), seen_rows.row(row)),
            w: (shows > 0.0).then(|| cell(&tested, row) / shows),
            shows_per_mm: shows,
        }
    });
    let told: Vec<Residual> = told.collect();
    let test_correlation = Matrix::of(network.taped.len(), network.taped.len(), |row, column| {
        let by = cell(&shows, row) * cell(&shows, column);
        if by > 0.0 { both(row, column) / by } else { 0.0 }
    });
    let chi_squared = {
        let white = weights.whitened(&residuals);
        dot(&white, &white)
    };
    let defect = parts.free.len();
    let coordinates = spread.carries(&covariance);
    let scales = scales.iter().zip(&unknowns.scales);
    let scales =
        scales.map(|(scale, unknown)| unknown.map(|at| (*scale, covariance.at(at, at).max(0.0).sqrt())));
    Adjusted {
        follows_held: follows_held(network, weights, rows, &covariance, &spread),
        covariance: coordinates,
        scales: scales.collect(),
        residuals: told,
        test_correlation,
        freedom: (count + defect).saturating_sub(unknowns.count),
        chi_squared,
        steps,
        marks: places,
    }
}

/// How all coordinates follow those of the held marks: -Q·Aᵀ·P·A of the held ones; held marks follow themselves.
fn follows_held(
    network: &Network,
    weights: &Weights,
    rows: &Rows,
    covariance: &Matrix,
    spread: &Matrix,
) -> Matrix {
    let size = 2 * network.marks.len();
    let mut follows = Matrix::zero(size, size);
    if network.datum != Datum::Held {
        return follows;
    }
    for (held, _) in network.marks.iter().enumerate().filter(|(_, mark)| mark.is_held) {
        for (axis, way) in [DVec2::X, DVec2::Y].into_iter().enumerate() {
            let mut column = vec![0.0; rows.of.rows()];
            for ((cell, taped), along) in column.iter_mut().zip(&network.taped).zip(&rows.along) {
                let sign = f64::from(i8::from(taped.to == held) - i8::from(taped.from == held));
                *cell = sign * along.dot(way);
            }
            let pulls = rows.of.transposed().times_column(&weights.weighted(&column));
            let moved = spread.times_column(&covariance.times_column(&pulls));
            moved.iter().enumerate().for_each(|(row, by)| follows.set(row, 2 * held + axis, -by));
            follows.set(2 * held + axis, 2 * held + axis, 1.0);
        }
    }
    follows
}
