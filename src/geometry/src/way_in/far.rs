//! How far it is to the goal round what stands there: for a disc within the car, which needs less room than the car.

use std::cmp::Reverse;
use std::collections::BinaryHeap;

use glam::DVec2;

use crate::bounds::Bounds;
use crate::way_in::solids::Solids;

/// The side of a square of the grid, mm; larger if there would be too many.
const SQUARE: f64 = 200.0;

/// No more squares than this: a hall of 40 by 40 m.
const MOST_SQUARES: f64 = 40_000.0;

/// Of each square of a grid how far it is to the goal.
pub(super) struct Far {
    low: DVec2,
    square: f64,
    columns: usize,
    rows: usize,
    far: Vec<f64>,
}

impl Far {
    /// Measured from the goal, for a disc of a radius about the middle of the rear axle that lies in a ring of the car.
    pub fn from(goal: DVec2, (radius, ring): (f64, usize), within: Bounds, solids: &Solids) -> Self {
        let size = within.size();
        let square = SQUARE.max(libm::sqrt(size.x * size.y / MOST_SQUARES));
        let (columns, rows) = ((size.x / square) as usize + 1, (size.y / square) as usize + 1);
        let mut grid =
            Self { low: within.low, square, columns, rows, far: vec![f64::INFINITY; columns * rows] };
        // A square is shut only if the disc fits about no point of it.
        let least = radius - square * std::f64::consts::FRAC_1_SQRT_2;
        let open: Vec<bool> =
            (0..columns * rows).map(|i| solids.room_at(grid.middle(i), ring) >= least.max(0.0)).collect();
        let mut next = BinaryHeap::new();
        if let Some(first) = grid.index(goal) {
            grid.set(first, 0.0);
            next.push((Reverse(0_u64), first));
        }
        while let Some((Reverse(key), at)) = next.pop() {
            let here = f64::from_bits(key);
            if here > grid.of(at) {
                continue;
            }
            let (x, y) = ((at % columns) as i64, (at / columns) as i64);
            for (dx, dy) in (-1..=1).flat_map(|dx| (-1..=1).map(move |dy| (dx, dy))) {
                let Some(to) = grid.nth(x + dx, y + dy).filter(|&to| open.get(to) == Some(&true)) else {
                    continue;
                };
                let far = here + square * libm::sqrt((dx * dx + dy * dy) as f64);
                if far < grid.of(to) {
                    grid.set(to, far);
                    // What is not negative is ordered as its bits are.
                    next.push((Reverse(far.to_bits()), to));
                }
            }
        }
        grid
    }

    /// From a point, mm; infinite if no disc comes from there to the goal.
    pub fn at(&self, p: DVec2) -> f64 {
        self.index(p).map_or(f64::INFINITY, |i| self.of(i))
    }

    fn of(&self, i: usize) -> f64 {
        self.far.get(i).copied().unwrap_or(f64::INFINITY)
    }

    fn set(&mut self, i: usize, far: f64) {
        if let Some(own) = self.far.get_mut(i) {
            *own = far;
        }
    }

    fn middle(&self, i: usize) -> DVec2 {
        let at = DVec2::new((i % self.columns) as f64, (i / self.columns) as f64);
        self.low + (at + DVec2::splat(0.5)) * self.square
    }

    fn index(&self, p: DVec2) -> Option<usize> {
        let at = ((p - self.low) / self.square).floor();
        self.nth(at.x as i64, at.y as i64)
    }

    fn nth(&self, x: i64, y: i64) -> Option<usize> {
        let (x, y) = (usize::try_from(x).ok()?, usize::try_from(y).ok()?);
        (x < self.columns && y < self.rows).then_some(y * self.columns + x)
    }
}
