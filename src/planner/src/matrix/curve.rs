//! How wide an empty room must be for its length, for a list of aimings: the curve from the narrowest to the shortest, and what each
//! line of the list adds to the smallest.

use super::room_size::{Needs, RoomSize, smallest, smallest_for_width};

/// Of a curve so many rooms are given at most.
const MOST: usize = 120;

/// How big an empty room must be for a list.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Curve {
    /// Rooms that serve all lines that fit in any empty room, the narrowest first: no wider one of them is as long.
    pub rooms: Vec<RoomSize>,
    /// The one of the least area.
    pub smallest: Option<RoomSize>,
    /// For each line of the list, by how much the area of the smallest room would be less without it, mm²; `None` of one that fits in
    /// no empty room.
    pub adds: Vec<Option<f64>>,
    /// For each line, the smallest room that serves it alone.
    pub alone: Vec<Option<RoomSize>>,
}

impl Curve {
    /// Of what each line needs; `None` of one that fits in no empty room, which the others' rooms then do not serve. A strip of so many
    /// mm along one wall is kept for what is in store, in each room; 0 for none.
    pub fn of(needs: &[Option<Needs>], store_mm: f64) -> Self {
        let fit: Vec<(usize, &Needs)> =
            needs.iter().enumerate().filter_map(|(nth, own)| Some((nth, own.as_ref()?))).collect();
        // Which line decides is told by its position in the whole list.
        let placed = |own: RoomSize, of: &[(usize, &Needs)]| {
            let decides = of.get(own.decides).map_or(own.decides, |own| own.0);
            RoomSize { decides, ..own }
        };
        let smallest_of = |of: &[(usize, &Needs)]| {
            let all: Vec<&Needs> = of.iter().map(|own| own.1).collect();
            smallest(&all, store_mm).map(|own| placed(own, of))
        };
        let least = smallest_of(&fit);
        let area = least.as_ref().map_or(0.0, RoomSize::area);
        let without = |nth: usize| {
            let rest: Vec<(usize, &Needs)> = fit.iter().copied().filter(|own| own.0 != nth).collect();
            // Who is not among those that decide adds nothing.
            area - smallest_of(&rest).map_or(0.0, |own| own.area())
        };
        let adds = needs.iter().enumerate().map(|(nth, own)| own.as_ref().map(|_| without(nth))).collect();
        let alone = needs.iter().enumerate();
        let alone = alone.map(|(nth, own)| smallest_of(&[(nth, own.as_ref()?)])).collect();
        let all: Vec<&Needs> = fit.iter().map(|own| own.1).collect();
        Self { rooms: rooms(&all, store_mm, |own| placed(own, &fit)), smallest: least, adds, alone }
    }

    /// The room of the curve whose width is nearest to one, mm.
    pub fn nearest(&self, width_mm: f64) -> Option<&RoomSize> {
        let off = |own: &&RoomSize| (own.width_mm - width_mm).abs();
        self.rooms.iter().min_by(|a, b| off(a).total_cmp(&off(b)))
    }
}

/// The rooms of a curve: each as short as its width allows, and none that is as long as a narrower one.
fn rooms(all: &[&Needs], store_mm: f64, placed: impl Fn(RoomSize) -> RoomSize) -> Vec<RoomSize> {
    let mut rooms: Vec<RoomSize> = Vec::new();
    for width in Needs::widths(all, store_mm) {
        let Some(own) = smallest_for_width(all, width, store_mm) else { continue };
        if rooms.last().is_none_or(|last| own.length_mm < last.length_mm) {
            rooms.push(placed(own));
        }
    }
    let every = rooms.len().div_ceil(MOST).max(1);
    let last = rooms.len().saturating_sub(1);
    rooms
        .into_iter()
        .enumerate()
        .filter(|(nth, _)| nth % every == 0 || *nth == last)
        .map(|own| own.1)
        .collect()
}
