//! The surveyed points, without those that make no sense, each place once.

use std::collections::BTreeMap;

use baywright_geometry::DVec2;

use super::SurveyedPoint;
use super::groups::root;

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

/// The points that make sense, in an order that does not depend on that in which they were given.
pub(super) fn taken(points: &[SurveyedPoint]) -> Vec<SurveyedPoint> {
    let sound = |value: f64| value.abs() <= BEYOND_MM;
    let mut points: Vec<SurveyedPoint> =
        points.iter().filter(|p| sound(p.at.x) && sound(p.at.y) && sound(p.level_mm)).copied().collect();
    let order = |a: &DVec2, b: &DVec2| a.x.total_cmp(&b.x).then(a.y.total_cmp(&b.y));
    points.sort_by(|a, b| order(&a.at, &b.at).then(a.level_mm.total_cmp(&b.level_mm)));
    points
}

/// Each place once: points of which each is near another are one, in their middle, so that it is the same place however the bay
/// lies.
pub(super) fn of(taken: &[SurveyedPoint]) -> Vec<Spot> {
    let mut group: Vec<usize> = (0..taken.len()).collect();
    for (at, point) in taken.iter().enumerate() {
        // Sorted by x: what may be the same place stands right behind.
        let near = taken.iter().enumerate().skip(at + 1);
        let near = near.take_while(|(_, other)| other.at.x - point.at.x <= SAME_PLACE_MM);
        for (other, _) in near.filter(|(_, other)| other.at.distance(point.at) <= SAME_PLACE_MM) {
            let (one, other) = (root(&group, at), root(&group, other));
            group.get_mut(one.max(other)).into_iter().for_each(|own| *own = one.min(other));
        }
    }
    let mut places: BTreeMap<usize, Vec<&SurveyedPoint>> = BTreeMap::new();
    for (at, point) in taken.iter().enumerate() {
        places.entry(root(&group, at)).or_default().push(point);
    }
    places.values().map(|points| between(points)).collect()
}

fn between(points: &[&SurveyedPoint]) -> Spot {
    // From the first of them, so that one alone stays where it is to the last bit.
    let first = points.first().map_or(DVec2::ZERO, |point| point.at);
    let count = points.len() as f64;
    let at = points.iter().fold(first, |sum, point| sum + (point.at - first) / count);
    let (level_mm, within_mm) = half_way(points.iter().map(|point| point.level_mm));
    Spot { at, level_mm, within_mm }
}

/// Half way between the lowest and the highest, and how far these are from it.
pub(super) fn half_way(levels: impl Iterator<Item = f64>) -> (f64, f64) {
    let ends = levels
        .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), level| (low.min(level), high.max(level)));
    let half = (ends.1 - ends.0) * 0.5;
    (ends.0 + half, half)
}
