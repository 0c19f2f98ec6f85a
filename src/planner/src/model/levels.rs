//! Levels as surveyed, and the surface through them.

use std::ops::Deref;
use std::sync::{Arc, OnceLock};

use baywright_geometry::DVec2;
pub use baywright_survey::surface::Contour;
use baywright_survey::{Level, LevelSurface, SurveyedPoint};

/// One surveyed level.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LevelPoint {
    /// Where, bay frame.
    pub at: DVec2,
    /// The level above the bay's zero, mm; on a runway above the height that it is entered with.
    pub level_mm: f64,
}

/// Surveyed levels, read as a list. The surface through them is made when it is first asked for; copies share it, so that
/// it is not made anew for each arrangement and each picture. Two are equal if their points are.
#[derive(Clone, Debug, Default)]
pub struct Levels {
    points: Vec<LevelPoint>,
    surface: Arc<OnceLock<LevelSurface>>,
}

impl Levels {
    /// The level between the points, as [`LevelSurface::at`] has it; `None` where nothing is known.
    pub fn at(&self, place: DVec2) -> Option<Level> {
        self.surface().at(place)
    }

    /// The level alone, mm: [`LevelSurface::level_mm`].
    pub fn level_mm(&self, place: DVec2) -> Option<f64> {
        self.surface().level_mm(place)
    }

    /// How steep it is anywhere as near to a place as this, mm: [`LevelSurface::steepest_near`].
    pub fn steepest_near(&self, place: DVec2, within_mm: f64) -> f64 {
        self.surface().steepest_near(place, within_mm)
    }

    /// The same, and that against a plane: [`LevelSurface::steepest_against`].
    pub fn steepest_against(&self, place: DVec2, within_mm: f64, plane: DVec2) -> [f64; 2] {
        self.surface().steepest_against(place, within_mm, plane)
    }

    /// The lines of every whole multiple of an interval, mm: [`LevelSurface::contours`].
    pub fn contours(&self, interval_mm: f64) -> Option<Vec<Contour>> {
        self.surface().contours(interval_mm)
    }

    fn surface(&self) -> &LevelSurface {
        let surveyed = |point: &LevelPoint| SurveyedPoint { at: point.at, level_mm: point.level_mm };
        let made = || LevelSurface::through(&self.points.iter().map(surveyed).collect::<Vec<_>>());
        self.surface.get_or_init(made)
    }

    /// Changes the points; the surface of before is forgotten.
    pub fn change<T>(&mut self, how: impl FnOnce(&mut Vec<LevelPoint>) -> T) -> T {
        self.surface = Arc::default();
        how(&mut self.points)
    }
}

impl From<Vec<LevelPoint>> for Levels {
    fn from(points: Vec<LevelPoint>) -> Self {
        Self { points, surface: Arc::default() }
    }
}

impl FromIterator<LevelPoint> for Levels {
    fn from_iter<I: IntoIterator<Item = LevelPoint>>(points: I) -> Self {
        points.into_iter().collect::<Vec<_>>().into()
    }
}

impl Deref for Levels {
    type Target = [LevelPoint];
    fn deref(&self) -> &[LevelPoint] {
        &self.points
    }
}

impl<'a> IntoIterator for &'a Levels {
    type Item = &'a LevelPoint;
    type IntoIter = std::slice::Iter<'a, LevelPoint>;
    fn into_iter(self) -> Self::IntoIter {
        self.points.iter()
    }
}

impl PartialEq for Levels {
    fn eq(&self, other: &Self) -> bool {
        self.points == other.points
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What was changed is asked anew, also of a copy that was made before.
    #[test]
    fn no_surface_outlives_its_points() {
        let point = |x: f64, y: f64| LevelPoint { at: DVec2::new(x, y), level_mm: 1.0 };
        let levels: Levels = [point(0., 0.), point(900., 0.), point(0., 900.)].into_iter().collect();
        let mut other = levels.clone();
        let level = |levels: &Levels| levels.at(DVec2::new(300.0, 300.0)).unwrap().level_mm;
        assert_eq!((level(&levels), level(&other)), (1.0, 1.0));
        other.change(|points| points.iter_mut().for_each(|point| point.level_mm = 2.0));
        assert_eq!((level(&levels), level(&other)), (1.0, 2.0));
        assert_ne!(levels, other);
    }
}
