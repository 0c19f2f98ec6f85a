//! How far what is in hand stands from the walls, as a person tapes it: square to the wall, to the nearest part.

use baywright_geometry::{DVec2, Outline, Prism};

use super::solids;
use crate::assessment::Subject;
use crate::model::{Arrangement, Id};
use crate::scene::Scene;

/// A distance from a wall.
#[derive(Clone, Debug, PartialEq)]
pub struct WallGap {
    /// The wall, by position.
    pub wall: usize,
    /// Its name.
    pub id: Id,
    /// From the wall's inner face to the nearest part, square to the wall, mm; negative for what reaches through it.
    pub gap: f64,
    /// Into the room, square to the wall, of length 1.
    pub inward: DVec2,
}

/// Walls are not parallel from this sine of the angle between them on: 30°.
const APART: f64 = 0.5;

/// The nearest wall abreast of which it stands, and the nearest one that is not parallel to that: what a person would tape
/// from. At most two.
pub fn wall_gaps(arrangement: &Arrangement, scene: &Scene, subject: &Subject) -> Vec<WallGap> {
    let own = solids(arrangement, scene, subject);
    let mut all: Vec<(bool, WallGap)> = (0..arrangement.bay.walls.len())
        .filter_map(|wall| Some((!abreast(arrangement, &own, wall), gap(arrangement, &own, wall)?)))
        .collect();
    // Those abreast first; among them the nearest.
    all.sort_by(|(a, x), (b, y)| a.cmp(b).then(x.gap.abs().total_cmp(&y.gap.abs())));
    let mut gaps = all.into_iter().map(|(_, gap)| gap);
    let Some(first) = gaps.next() else { return Vec::new() };
    let second = gaps.find(|other| other.inward.perp_dot(first.inward).abs() >= APART);
    std::iter::once(first).chain(second).collect()
}

/// The distance from one wall, by position; `None` if there is no such wall, or nothing to measure to.
pub fn gap_to_wall(
    arrangement: &Arrangement,
    scene: &Scene,
    subject: &Subject,
    wall: usize,
) -> Option<WallGap> {
    gap(arrangement, &solids(arrangement, scene, subject), wall)
}

fn gap(arrangement: &Arrangement, own: &[Prism], wall: usize) -> Option<WallGap> {
    let edge = arrangement.bay.room.edges().nth(wall)?;
    let id = arrangement.bay.walls.get(wall)?.id.clone();
    // The room's corners run anticlockwise: its inside is on the left.
    let inward = (edge.to - edge.from).try_normalize()?.perp();
    let depth = |p: DVec2| (p - edge.from).dot(inward);
    let nearest = own.iter().map(|solid| least(&solid.outline, depth)).reduce(f64::min)?;
    Some(WallGap { wall, id, gap: nearest, inward })
}

/// The least depth of any part of an outline.
fn least(outline: &Outline, depth: impl Fn(DVec2) -> f64) -> f64 {
    match outline {
        Outline::Circle(circle) => depth(circle.centre()) - circle.radius(),
        Outline::Polygon(polygon) => polygon.outer().iter().map(|&p| depth(p)).fold(f64::INFINITY, f64::min),
    }
}

/// Whether the middle of what is in hand lies between the two ends of a wall, seen square to it.
fn abreast(arrangement: &Arrangement, own: &[Prism], wall: usize) -> bool {
    let Some(edge) = arrangement.bay.room.edges().nth(wall) else { return false };
    let along = edge.to - edge.from;
    let bounds = own.iter().map(|solid| solid.outline.bounds()).reduce(baywright_geometry::Bounds::union);
    bounds.is_some_and(|bounds| {
        let at = (bounds.centre() - edge.from).dot(along);
        (0.0..=along.length_squared()).contains(&at)
    })
}
