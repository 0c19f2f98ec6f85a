//! Which cells lie about a place: the plan in squares, each with those that reach into it.

use baywright_geometry::DVec2;

use super::EDGE_MM;
use super::cells::Cell;

/// No more squares than this along either side: a survey is a few hundred points.
const MOST_ACROSS: f64 = 64.0;

/// The plan in squares of one size.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Nearby {
    low: DVec2,
    side_mm: f64,
    /// How many along x, then along y.
    count: [usize; 2],
    /// Row by row; of each the positions of its cells, in their order.
    squares: Vec<Vec<usize>>,
}

impl Nearby {
    /// About as many squares as cells.
    pub(super) fn of(cells: &[Cell]) -> Self {
        let low = cells.iter().fold(DVec2::INFINITY, |low, own| low.min(own.low)) - EDGE_MM;
        let high = cells.iter().fold(DVec2::NEG_INFINITY, |high, own| high.max(own.high)) + EDGE_MM;
        let size = high - low;
        if cells.is_empty() || !(size.is_finite() && size.min_element() > 0.0) {
            return Self::default();
        }
        let side_mm =
            (size.x * size.y / cells.len() as f64).sqrt().max(size.max_element() / MOST_ACROSS).max(EDGE_MM);
        let count = [size.x, size.y].map(|own| (own / side_mm) as usize + 1);
        let squares = vec![Vec::new(); count[0] * count[1]];
        let mut all = Self { low, side_mm, count, squares };
        for (nth, cell) in cells.iter().enumerate() {
            let reached: Vec<usize> = all.between(cell.low - EDGE_MM, cell.high + EDGE_MM).collect();
            for at in reached {
                if let Some(own) = all.squares.get_mut(at) {
                    own.push(nth);
                }
            }
        }
        all
    }

    /// The cells that may be within a hair of a place.
    pub(super) fn at(&self, place: DVec2) -> &[usize] {
        self.between(place, place).next().and_then(|own| self.squares.get(own)).map_or(&[], Vec::as_slice)
    }

    /// The cells that may be within a hair of a box, some of them more than once.
    pub(super) fn about(&self, low: DVec2, high: DVec2) -> impl Iterator<Item = usize> {
        self.between(low, high).filter_map(|own| self.squares.get(own)).flatten().copied()
    }

    /// The positions of the squares that a box meets.
    fn between(&self, low: DVec2, high: DVec2) -> impl Iterator<Item = usize> + use<> {
        let [across, up] = self.count;
        let (from, to) = ((low - self.low) / self.side_mm, (high - self.low) / self.side_mm);
        let is_met = from.x < across as f64 && from.y < up as f64 && to.x >= 0.0 && to.y >= 0.0;
        // What is not met has no rows; what reaches past the squares is cut off by the conversion, or at the last.
        let rows = if is_met { from.y as usize..(to.y as usize).saturating_add(1).min(up) } else { 0..0 };
        let columns = from.x as usize..(to.x as usize).saturating_add(1).min(across);
        rows.flat_map(move |row| columns.clone().map(move |column| row * across + column))
    }
}

#[cfg(test)]
mod tests {
    use super::super::cells;
    use super::super::spots::Spot;
    use super::*;
    use proptest::prelude::*;

    proptest! {
        /// Each cell that is within a hair of a box is among those about it, wherever the points lie.
        #[test]
        fn none_is_passed_over(
            points in prop::collection::vec((-9e3..9e3f64, -4e3..4e3f64), 3..40),
            low in (-1e4..1e4f64, -5e3..5e3f64), size in (0.0..3e3f64, 0.0..3e3f64), scale in prop::sample::select(vec![1.0, 1e-2, 1e3]),
        ) {
            let spot = |at: &(f64, f64)| Spot { at: DVec2::from(*at) * scale, level_mm: 0.0, within_mm: 0.0 };
            let cells = cells::of(&points.iter().map(spot).collect::<Vec<_>>());
            let nearby = Nearby::of(&cells);
            let low = DVec2::from(low) * scale;
            for high in [low, low + DVec2::from(size) * scale] {
                let about: Vec<usize> = nearby.about(low, high).collect();
                for (nth, cell) in cells.iter().enumerate() {
                    let is_met = (low - EDGE_MM).cmple(cell.high).all() && (high + EDGE_MM).cmpge(cell.low).all();
                    prop_assert!(!is_met || about.contains(&nth), "{nth} of {cells:?}");
                    prop_assert!(!is_met || low != high || nearby.at(low).contains(&nth));
                }
            }
        }
    }

    #[test]
    fn without_cells_or_far_away_there_are_none() {
        let none = Nearby::of(&[]);
        assert_eq!(none.at(DVec2::ZERO), [0_usize; 0]);
        let spot = |x: f64, y: f64| Spot { at: DVec2::new(x, y), level_mm: 0.0, within_mm: 0.0 };
        let one = Nearby::of(&cells::of(&[spot(0.0, 0.0), spot(900.0, 0.0), spot(0.0, 900.0)]));
        assert_eq!(one.at(DVec2::new(100.0, 100.0)), [0]);
        for far in [DVec2::splat(1e12), DVec2::splat(-1e12), DVec2::INFINITY, DVec2::NAN] {
            assert_eq!(one.at(far), [0_usize; 0]);
        }
        assert!(one.about(DVec2::NEG_INFINITY, DVec2::INFINITY).count() > 0);
    }
}
