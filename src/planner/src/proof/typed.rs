//! Where a target was typed to stand, beside its place.

use crate::scene::{PlacedTarget, Scene};

/// How far beside its place a target stands by what was typed, further off and to the left, mm.
pub(super) fn typed_beside(target: &PlacedTarget, scene: &Scene) -> [f64; 2] {
    let shift = target.set.place.origin() - target.meant.place.origin();
    let away = target.meant.place.origin() - scene.sensor().truncate();
    let way = away.normalize_or(-target.meant.place.forward());
    [shift.dot(way), way.perp_dot(shift)].map(unless_nothing)
}

/// What rounding leaves is nothing: a millionth of a millimetre, or of a radian.
pub(super) fn unless_nothing(value: f64) -> f64 {
    if value.abs() < 1e-6 { 0.0 } else { value }
}
