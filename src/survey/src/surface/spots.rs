//! The surveyed points, without those that make no sense, each place once.

use baywright_geometry::DVec2;

use super::SurveyedPoint;

/// Points nearer than this are the same place taken twice: a staff's foot is wider. Common practice, no source.
pub const SAME_PLACE_MM: f64 = 1.0;

/// Figures beyond this are as if not given: a thousand kilometres.
pub const BEYOND_MM: f64 = 1e9;

/// A place and its level, as taken once or more.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Spot {
    pub(super) at: DVec2,
    pub(super) level_mm: f64,
    /// Half of highest less lowest of what was taken there.
    pub(super) within_mm: f64,
}

/// Each place once, in an order that does not depend on that of the points.
pub(super) fn of(points: &[SurveyedPoint]) -> Vec<Spot> {
    let sound = |value: f64| value.abs() <= BEYOND_MM;
    let mut points: Vec<&SurveyedPoint> =
        points.iter().filter(|p| sound(p.at.x) && sound(p.at.y) && sound(p.level_mm)).collect();
    let order = |a: &DVec2, b: &DVec2| a.x.total_cmp(&b.x).then(a.y.total_cmp(&b.y));
    points.sort_by(|a, b| order(&a.at, &b.at).then(a.level_mm.total_cmp(&b.level_mm)));
    let mut places: Vec<(DVec2, f64, f64)> = Vec::with_capacity(points.len());
    for point in points {
        // Sorted by x: what may be the same place stands at the end.
        let near = places.iter_mut().rev().take_while(|(at, ..)| point.at.x - at.x <= SAME_PLACE_MM);
        match near.into_iter().find(|(at, ..)| at.distance(point.at) <= SAME_PLACE_MM) {
            Some((_, low, high)) => {
                (*low, *high) = (low.min(point.level_mm), high.max(point.level_mm));
            }
            None => places.push((point.at, point.level_mm, point.level_mm)),
        }
    }
    let spot = |(at, low, high): (DVec2, f64, f64)| Spot {
        at,
        level_mm: low + (high - low) * 0.5,
        within_mm: (high - low) * 0.5,
    };
    places.into_iter().map(spot).collect()
}
