//! A floor between surveyed points.
//!
//! The points are joined to triangles (Delaunay); triangles whose corners lie on one circle, as in a survey on a grid, are
//! one cell, since which of the ways of cutting it up a computer takes is chance. Within a cell the level is a weighted mean of its
//! corners' (`weights`), which on its edges is the straight line between them and follows a plane exactly. Outside all
//! cells nothing is known.
//!
//! **How surely**: the floor between the points may bend. A weighted mean with weights w of corners v that follows planes
//! exactly is off at a place p by at most ½ κ Σ w |v − p|², κ being the floor's greatest bend (how much its slope changes
//! over a length): S. Waldron, "The error in linear interpolation at the vertices of a simplex", SIAM J. Numer. Anal. 35
//! (1998), from memory, whose ½ κ (R² − d²) this is for corners on a circle. The bend is taken from the survey itself:
//! the change of slope to the neighbouring cells over the distance of their middles, or the cell's own twist. That is an
//! estimate, no bound: a dip narrower than the points are apart shows in no survey. Who asks must therefore also ask how
//! far the nearest point is.

mod cells;
mod contours;
mod groups;
mod nearby;
mod spots;
mod weights;

use baywright_geometry::DVec2;

use cells::Cell;
use nearby::Nearby;

pub use contours::{Contour, MOST_CONTOURS};
pub use spots::{BEYOND_MM, SAME_PLACE_MM};

/// How far outside a cell a place still counts as on its edge, mm: twice as flat as a triangle that is left out.
const EDGE_MM: f64 = 2.0 * cells::FLAT_MM;

/// A place nearer than this to two cells is in both: far below what a tape reads.
const BOTH_MM: f64 = 1e-3;
/// A place so deep in one cell is in no other, mm.
const DEEP_MM: f64 = 2.0 * EDGE_MM;

/// One level as surveyed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SurveyedPoint {
    /// Where.
    pub at: DVec2,
    /// How high, mm.
    pub level_mm: f64,
}

/// What is known of the level at a place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Level {
    /// How high, mm.
    pub level_mm: f64,
    /// How surely, mm either way; what the instrument adds is not in it.
    pub within_mm: f64,
    /// How far the nearest surveyed point is, mm.
    pub nearest_mm: f64,
}

/// A floor between surveyed points.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct LevelSurface {
    taken: Vec<SurveyedPoint>,
    cells: Vec<Cell>,
    nearby: Nearby,
}

impl LevelSurface {
    /// Joins the points. Points within [`SAME_PLACE_MM`] of one another are one in their middle, whose level is half way between
    /// the highest and the lowest.
    ///
    /// ```
    /// use baywright_survey::{LevelSurface, SurveyedPoint};
    /// let point = |x: f64, y: f64, level_mm| SurveyedPoint { at: (x, y).into(), level_mm };
    /// let floor = LevelSurface::through(&[point(0.0, 0.0, 0.0), point(2000.0, 0.0, 4.0), point(0.0, 2000.0, 0.0)]);
    /// assert_eq!(floor.at((500.0, 500.0).into()).unwrap().level_mm, 1.0);
    /// assert!(floor.at((1500.0, 1500.0).into()).is_none());
    /// ```
    pub fn through(points: &[SurveyedPoint]) -> Self {
        let taken = spots::taken(points);
        let cells = cells::of(&spots::of(&taken));
        Self { nearby: Nearby::of(&cells), taken, cells }
    }

    /// How steep the floor is, as a share, wherever it is as near to a place as this, mm; 0 where nothing is known.
    ///
    /// ```
    /// use baywright_survey::{LevelSurface, SurveyedPoint};
    /// let point = |x: f64, y: f64, level_mm| SurveyedPoint { at: (x, y).into(), level_mm };
    /// let floor = LevelSurface::through(&[point(0.0, 0.0, 0.0), point(2000.0, 0.0, 4.0), point(0.0, 2000.0, 0.0)]);
    /// assert!((floor.steepest_near((500.0, 500.0).into(), 30.0) - 0.002).abs() < 1e-12);
    /// ```
    pub fn steepest_near(&self, place: DVec2, within_mm: f64) -> f64 {
        self.steepest_against(place, within_mm, DVec2::ZERO)[0]
    }

    /// The same, and how steep it is there against a plane that rises so much along x and y, as shares: how unevenly a floor falls
    /// that falls as that plane does.
    pub fn steepest_against(&self, place: DVec2, within_mm: f64, plane: DVec2) -> [f64; 2] {
        let reach = within_mm + EDGE_MM;
        let near = self.nearby.about(place - reach, place + reach).filter_map(|nth| self.cells.get(nth));
        near.fold([0.0; 2], |[plain, unlike], cell| {
            let own = [cell.steepest(DVec2::ZERO), cell.steepest(plane)];
            // How far it is costs more than how steep.
            let is_steeper = own[0] > plain || own[1] > unlike;
            match is_steeper && cell.is_near(place, reach) {
                true => [plain.max(own[0]), unlike.max(own[1])],
                false => [plain, unlike],
            }
        })
    }

    /// The level at a place; `None` outside the triangles, where nothing is known. Of points that make no triangle only
    /// the points themselves are known.
    pub fn at(&self, place: DVec2) -> Option<Level> {
        let squared = |point: &SurveyedPoint| point.at.distance_squared(place);
        let nearest = self.taken.iter().min_by(|a, b| squared(a).total_cmp(&squared(b)))?;
        let nearest_mm = nearest.at.distance(place);
        Some(Level { nearest_mm, ..self.known(place)? })
    }

    /// The level alone, as [`Self::at`] has it, which also looks how far the nearest point is: told sooner.
    ///
    /// ```
    /// use baywright_survey::{LevelSurface, SurveyedPoint};
    /// let point = |x: f64, y: f64, level_mm| SurveyedPoint { at: (x, y).into(), level_mm };
    /// let floor = LevelSurface::through(&[point(0.0, 0.0, 0.0), point(2000.0, 0.0, 4.0), point(0.0, 2000.0, 0.0)]);
    /// assert_eq!(floor.level_mm((500.0, 500.0).into()), Some(1.0));
    /// ```
    pub fn level_mm(&self, place: DVec2) -> Option<f64> {
        self.known(place).map(|level| level.level_mm)
    }

    /// The level at a place, without how far the nearest point is.
    fn known(&self, place: DVec2) -> Option<Level> {
        // All that was taken here, not only the nearest: of two points as near as each other chance would choose. They are
        // sorted by x.
        let first = self.taken.partition_point(|point| point.at.x < place.x - SAME_PLACE_MM);
        let column = self.taken.iter().skip(first).take_while(|point| point.at.x <= place.x + SAME_PLACE_MM);
        let mut here = column.filter(|point| point.at.distance(place) <= SAME_PLACE_MM).peekable();
        if here.peek().is_some() {
            let (level_mm, within_mm) = spots::half_way(here.map(|point| point.level_mm));
            return Some(Level { level_mm, within_mm, nearest_mm: 0.0 });
        }
        let near =
            |cell: &&Cell| place.cmpge(cell.low - EDGE_MM).all() && place.cmple(cell.high + EDGE_MM).all();
        let mut found: Vec<(&Cell, f64)> = Vec::new();
        for cell in self.nearby.at(place).iter().filter_map(|nth| self.cells.get(*nth)).filter(near) {
            let depth = cell.depth(place);
            // Cells share no more than their edges.
            if depth > DEEP_MM {
                return Some(cell.level(place, depth));
            }
            if depth >= -EDGE_MM {
                found.push((cell, depth));
            }
        }
        let deepest = found.iter().map(|(_, depth)| *depth).reduce(f64::max)?;
        let [mut level, mut within, mut count] = [0.0; 3];
        for (cell, depth) in found.iter().filter(|(_, depth)| *depth >= deepest.min(0.0) - BOTH_MM) {
            let own = cell.level(place, *depth);
            (level, within, count) = (level + own.level_mm, own.within_mm.max(within), count + 1.0);
        }
        Some(Level { level_mm: level / count, within_mm: within, nearest_mm: 0.0 })
    }
}
