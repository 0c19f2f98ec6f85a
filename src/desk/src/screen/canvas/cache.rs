//! What is dear to work out and seldom changes: hatches and triangulations, kept by value.

use std::collections::BTreeMap;
use std::hash::{DefaultHasher, Hasher};
use std::sync::Arc;

use baywright_drawing::ink;
use baywright_drawing::theme::Hatch;
use baywright_planner::geometry::{Bounds, DVec2};
use egui::epaint::Mesh;

use super::hatch;
use crate::screen::look;

/// Fills of earlier frames. What a frame did not ask for is forgotten in the next but one.
#[derive(Debug, Default)]
pub(in crate::screen) struct Fills {
    hatches: Kept<Arc<Mesh>>,
    triangles: Kept<Arc<[u32]>>,
}

/// Values by what they were made from; a key is compared whole, its hash only finds it.
#[derive(Debug)]
struct Kept<T> {
    now: BTreeMap<u64, (Vec<u64>, T)>,
    before: BTreeMap<u64, (Vec<u64>, T)>,
}

impl<T> Default for Kept<T> {
    fn default() -> Self {
        Self { now: BTreeMap::new(), before: BTreeMap::new() }
    }
}

impl<T: Clone> Kept<T> {
    fn get(&mut self, key: Vec<u64>, make: impl FnOnce() -> T) -> T {
        let mut hasher = DefaultHasher::new();
        key.iter().for_each(|&part| hasher.write_u64(part));
        let hash = hasher.finish();
        if let Some((own, value)) = self.now.get(&hash)
            && *own == key
        {
            return value.clone();
        }
        let value = match self.before.remove(&hash) {
            Some((own, value)) if own == key => value,
            _ => make(),
        };
        self.now.insert(hash, (key, value.clone()));
        value
    }

    fn turn(&mut self) {
        self.before = std::mem::take(&mut self.now);
    }
}

impl Fills {
    /// A new frame begins.
    pub fn next_frame(&mut self) {
        self.hatches.turn();
        self.triangles.turn();
    }

    /// A hatch over an area, px of the paper.
    pub fn hatch(&mut self, hatch: &Hatch, rings: &[Vec<DVec2>], window: &Bounds) -> Arc<Mesh> {
        let colour = look::colour(hatch.ink);
        let mut key = corners(rings);
        // Names tell patterns apart within a theme, the colour tells themes apart.
        key.extend(hatch.name.bytes().map(u64::from));
        key.push(u64::from(u32::from_le_bytes(colour.to_array())));
        key.extend([window.low.x, window.low.y, window.high.x, window.high.y].map(f64::to_bits));
        self.hatches.get(key, || hatch::mesh(&ink::hatching(hatch, rings, window), hatch.width, colour))
    }

    /// The triangles that fill an area, as positions in all its corners one after another.
    pub fn triangles(&mut self, rings: &[Vec<DVec2>]) -> Arc<[u32]> {
        self.triangles.get(shape_of(rings), || {
            let flat: Vec<f64> = rings.iter().flatten().flat_map(|p| [p.x, p.y]).collect();
            let mut count = 0;
            let holes: Vec<usize> = rings
                .iter()
                .map(|ring| {
                    count += ring.len();
                    count
                })
                .take(rings.len().saturating_sub(1))
                .collect();
            let triangles = earcutr::earcut(&flat, &holes, 2).unwrap_or_default();
            triangles.into_iter().map(|i| i as u32).collect()
        })
    }
}

fn corners(rings: &[Vec<DVec2>]) -> Vec<u64> {
    rings
        .iter()
        .flat_map(|ring| ring.iter().flat_map(|p| [p.x.to_bits(), p.y.to_bits()]).chain([ring.len() as u64]))
        .collect()
}

/// Corners from the first one on, to a hundredth of a px: the same triangles wherever the shape lies.
fn shape_of(rings: &[Vec<DVec2>]) -> Vec<u64> {
    let first = rings.iter().flatten().next().copied().unwrap_or_default();
    let rounded = |v: f64| (v * 100.0).round().to_bits();
    rings
        .iter()
        .flat_map(|ring| {
            let own = ring.iter().flat_map(move |p| [rounded(p.x - first.x), rounded(p.y - first.y)]);
            own.chain([ring.len() as u64])
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn square(at: f64) -> Vec<Vec<DVec2>> {
        let ring = |size: f64, at: f64| {
            [(0.0, 0.0), (size, 0.0), (size, size), (0.0, size)]
                .map(|(x, y)| DVec2::new(x + at, y + at))
                .to_vec()
        };
        vec![ring(100.0, at), ring(50.0, at + 25.0)]
    }

    #[test]
    fn triangles_are_made_once_and_cover_the_area_between_the_rings() {
        let mut fills = Fills::default();
        let first = fills.triangles(&square(0.0));
        let moved = fills.triangles(&square(7.0));
        assert!(Arc::ptr_eq(&first, &moved));
        fills.next_frame();
        assert!(Arc::ptr_eq(&first, &fills.triangles(&square(3.0))));
        fills.next_frame();
        fills.next_frame();
        assert!(!Arc::ptr_eq(&first, &fills.triangles(&square(3.0))));
        let all: Vec<DVec2> = square(0.0).concat();
        let area: f64 = first
            .chunks_exact(3)
            .map(|t| {
                let [a, b, c] = [0, 1, 2].map(|i| all[t[i] as usize]);
                (b - a).perp_dot(c - a).abs() * 0.5
            })
            .sum();
        assert!((area - 7_500.0).abs() < 1e-9, "{area}");
    }
}
