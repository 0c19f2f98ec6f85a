//! Lines of one level, and how far they lie apart; the floor's profile, and how much higher it is drawn.

use baywright_planner::geometry::DVec2;
use baywright_planner::model::{Contour, Levels};
use baywright_planner::words::{Locale, Units};

/// So far apart, mm, the smallest that makes no more lines than this.
const INTERVALS_MM: [f64; 10] = [0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0];
const MOST_LINES: f64 = 10.0;
/// A profile is drawn so many times as high, the most that makes its highest no further from its lowest than this, mm of the view.
const TIMES: [usize; 8] = [200, 100, 50, 20, 10, 5, 2, 1];
const PROFILE_MM: f64 = 400.0;

/// The lines of a floor, and how far their levels are apart, mm; none of a floor that is level or not surveyed.
pub(crate) fn of(levels: &Levels) -> Option<(f64, Vec<Contour>)> {
    let all = || levels.iter().map(|own| own.level_mm);
    let range = all().fold(f64::NEG_INFINITY, f64::max) - all().fold(f64::INFINITY, f64::min);
    let interval = INTERVALS_MM.into_iter().find(|own| range / own <= MOST_LINES)?;
    let lines = levels.contours(interval)?;
    (!lines.is_empty()).then_some((interval, lines))
}

/// How far a floor's lines lie apart, as a sentence; `None` of a floor that has none.
pub(crate) fn interval(levels: &Levels, locale: Locale) -> Option<String> {
    of(levels).map(|(interval, _)| told(locale, interval))
}

/// The same of a known interval, mm: whatever units are shown, levels are in millimetres.
pub(crate) fn told(locale: Locale, interval: f64) -> String {
    let own = Locale { units: Units::Millimetres, ..locale };
    locale.language.ground().contours(&own.length(interval))
}

/// How many times as high levels are drawn of which the highest is so far over the lowest, mm.
pub(crate) fn times_higher(range_mm: f64) -> usize {
    TIMES.into_iter().find(|times| range_mm * *times as f64 <= PROFILE_MM).unwrap_or(1)
}

/// Where a figure may stand on a part of a line: its middle first, then a quarter, an eighth from either end.
pub(crate) type Parts = [DVec2; 5];

/// The part of a line that lies in a box, and how long it is; `None` if none does.
pub(crate) fn parts_in(
    [from, to]: [DVec2; 2],
    window: &baywright_planner::geometry::Bounds,
) -> Option<(Parts, f64)> {
    let (from, to) = crate::clip::segment_in_box(from, to, window)?;
    Some(([0.5, 0.25, 0.75, 0.125, 0.875].map(|share| from.lerp(to, share)), from.distance(to)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use baywright_planner::model::LevelPoint;

    fn floor(high: f64) -> Levels {
        let point = |x: f64, y: f64, level_mm| LevelPoint { at: DVec2::new(x, y), level_mm };
        vec![point(0., 0., 0.), point(4_000., 0., high), point(0., 3_000., 0.), point(4_000., 3_000., high)]
            .into()
    }

    #[test]
    fn no_more_lines_than_are_read() {
        for (high, interval) in [(0.9, 0.5), (7.0, 1.0), (18.0, 2.0), (55.0, 10.0), (2_000.0, 200.0)] {
            let (found, lines) = of(&floor(high)).unwrap();
            assert_eq!(found, interval, "{high}");
            let levels: std::collections::BTreeSet<i64> =
                lines.iter().map(|own| (own.level_mm * 10.0).round() as i64).collect();
            assert!(levels.len() <= 11, "{levels:?}");
        }
        assert_eq!(of(&floor(0.0)).map(|own| own.1.len()), of(&Levels::default()).map(|own| own.1.len()));
    }

    #[test]
    fn a_profile_is_as_high_as_has_room() {
        assert_eq!(
            (times_higher(1.3), times_higher(5.0), times_higher(55.0), times_higher(900.0)),
            (200, 50, 5, 1)
        );
    }
}
