//! Lines of one level.

use baywright_geometry::DVec2;

use super::LevelSurface;

/// So many levels are drawn at most: of more no eye tells them apart.
pub const MOST_CONTOURS: usize = 200;

/// A piece of a line of one level, the higher floor to its left.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Contour {
    /// Which level, mm.
    pub level_mm: f64,
    /// From here.
    pub from: DVec2,
    /// To here.
    pub to: DVec2,
}

impl LevelSurface {
    /// The lines of every whole multiple of an interval, mm, in straight pieces across each triangle; a cell of more corners is cut
    /// into triangles from its middle. `None` if the interval is none, or makes more than [`MOST_CONTOURS`] levels.
    ///
    /// ```
    /// use baywright_survey::{LevelSurface, SurveyedPoint};
    /// let point = |x: f64, y: f64, level_mm| SurveyedPoint { at: (x, y).into(), level_mm };
    /// let floor = LevelSurface::through(&[point(0.0, 0.0, 0.0), point(2000.0, 0.0, 4.0), point(0.0, 2000.0, 0.0)]);
    /// let lines = floor.contours(3.0).unwrap();
    /// assert_eq!(lines.iter().filter(|line| line.level_mm == 3.0).count(), 1);
    /// assert!(lines.iter().all(|line| line.level_mm == 0.0 || (line.from.x, line.to.x) == (1500.0, 1500.0)));
    /// ```
    pub fn contours(&self, interval_mm: f64) -> Option<Vec<Contour>> {
        if !(interval_mm > 0.0 && interval_mm.is_finite()) {
            return None;
        }
        let levels = self.taken.iter().map(|point| point.level_mm);
        let (low, high) = levels
            .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), level| (low.min(level), high.max(level)));
        if (high - low) / interval_mm > MOST_CONTOURS as f64 {
            return None;
        }
        let mut lines = Vec::new();
        for triangle in self.cells.iter().flat_map(super::Cell::triangles) {
            let own = triangle.map(|(_, level)| level / interval_mm);
            let (low, high) =
                own.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), o| (l.min(*o), h.max(*o)));
            let mut nth = libm::ceil(low);
            while nth <= high {
                lines.extend(across(&triangle, nth * interval_mm));
                nth += 1.0;
            }
        }
        Some(lines)
    }
}

/// Levels nearer than this are one, mm: of a level floor the middle of a cell is as high as its corners but for rounding.
const SAME_MM: f64 = 1e-6;

/// Where a level runs through a triangle. A corner at just that level counts as above it, so that no line is drawn twice.
fn across(triangle: &[(DVec2, f64); 3], level_mm: f64) -> Option<Contour> {
    let [a, b, c] = *triangle;
    let (mut from, mut to) = (None, None);
    for ((p, low), (q, high)) in [(a, b), (b, c), (c, a)] {
        let at = || p + (q - p) * ((level_mm - low) / (high - low)).clamp(0.0, 1.0);
        let is_up = |own: f64| own >= level_mm - SAME_MM;
        match (is_up(low), is_up(high)) {
            // The corners run anticlockwise: where it falls the line ends that has the higher floor to its left.
            (true, false) => from = Some(at()),
            (false, true) => to = Some(at()),
            _ => {}
        }
    }
    Some(Contour { level_mm, from: from?, to: to? }).filter(|line| line.from != line.to)
}

#[cfg(test)]
mod tests {
    use super::super::SurveyedPoint;
    use super::*;

    fn grid(level: impl Fn(DVec2) -> f64) -> LevelSurface {
        let places = (0..30).map(|i| DVec2::new(f64::from(i % 6), f64::from(i / 6)) * 1000.0);
        LevelSurface::through(&places.map(|at| SurveyedPoint { at, level_mm: level(at) }).collect::<Vec<_>>())
    }

    /// Of a plane that falls by 3 mm a metre towards the right the lines are straight, a third of a metre apart, as long as the
    /// floor is wide, and higher on their left.
    #[test]
    fn of_a_plane_they_are_straight() {
        let lines = grid(|p| 20.0 - p.x * 0.003).contours(1.0).unwrap();
        let mut lengths = std::collections::BTreeMap::new();
        for line in &lines {
            let x = (20.0 - line.level_mm) / 0.003;
            assert!((line.from.x - x).abs() < 1e-6 && (line.to.x - x).abs() < 1e-6, "{line:?}");
            // Higher to the left, which is towards smaller x: it runs up.
            assert!(line.to.y > line.from.y, "{line:?}");
            *lengths.entry(line.level_mm as i64).or_insert(0.0) += line.from.distance(line.to);
        }
        for level in 6..=19 {
            assert!((lengths[&level] - 4000.0).abs() < 1e-6, "{level}: {lengths:?}");
        }
    }

    /// A plateau just at a level is bounded by its line and not crossed by it.
    #[test]
    fn a_level_floor_at_a_lines_own_level_has_none() {
        let floor = grid(|p| if p.x > 2_500.0 { 60.0 } else { 60.0 - 0.1 * (2_500.0 - p.x).min(100.0) });
        let lines = floor.contours(10.0).unwrap();
        assert!(
            lines.iter().all(|own| own.from.x <= 3_000.0 + 1e-6 && own.to.x <= 3_000.0 + 1e-6),
            "{lines:?}"
        );
        assert_eq!(grid(|_| 60.1 - 0.1).contours(10.0), Some(vec![]));
    }

    /// Wherever it is drawn the floor has that level, but for what a cell bends between its middle and its corners.
    #[test]
    fn they_lie_at_their_level() {
        let floor = grid(|p| 8.0 * libm::sin(p.x / 900.0) * libm::sin(p.y / 1100.0));
        let lines = floor.contours(0.5).unwrap();
        assert!(lines.len() > 100);
        for line in lines {
            for end in [line.from, line.to] {
                let level = floor.at(end).unwrap().level_mm;
                assert!((level - line.level_mm).abs() < 1.0, "{level} {line:?}");
            }
        }
        assert_eq!((floor.contours(0.0), floor.contours(f64::NAN), floor.contours(0.01)), (None, None, None));
        assert_eq!(LevelSurface::default().contours(1.0), Some(vec![]));
    }
}
