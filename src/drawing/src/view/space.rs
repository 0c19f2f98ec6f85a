//! What is taken on the paper, so that texts and flags find a free place.
//!
//! Boxes in a net of square cells: a question looks only at the cells that it touches. Everything here is px, y down.

use std::cell::Cell;

use baywright_planner::geometry::{Bounds, DVec2};

/// How bad it is to cover something.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Taken {
    /// Where a zone reaches out of the room: a wall's name keeps off.
    Reach,
    /// What local rules want free: its hatch is to be seen.
    Free,
    /// Bodies, hatches: a name on one seems to be its own.
    Body,
    /// Lines that must be followed by eye.
    Line,
    /// The way of something that is to be moved: an arrow.
    Way,
    /// Where something is to go: nothing is written there.
    There,
    /// Lines from a flag or a name to what it is about: a text on one would cut it in two.
    Led,
    /// Walls: a name across one seems to belong to neither side. Sight lines: what the drawing is about.
    Wall,
    /// The car: a name on it seems to be the car's. A flag may stand on it.
    Car,
    /// What lies beyond the end walls and the ceiling in the side view: a name there names nothing of the room.
    Outside,
    /// Beside a flag: the next flag keeps a little off, so that their lines can be told apart.
    Halo,
    /// A ring around what is pointed out: no other text, and hardly a flag.
    Ringed,
    /// A thing that a finding blames: no other text. A flag may stand on it, rather beside it.
    Blamed,
    /// Where a flag points.
    Tip,
    /// The face of a target: never, and no line to a flag of something else runs over it.
    Face,
    /// Signs, targets: never.
    Firm,
    /// Texts and flags: never, and no line to something else runs over one.
    Read,
}

impl Taken {
    pub const fn cost(self) -> f64 {
        match self {
            Self::Halo => 0.0,
            Self::Reach => 16.0,
            Self::Free => 90.0,
            Self::Body => 120.0,
            Self::Line => 14.0,
            Self::Led => 90.0,
            Self::Way => 60.0,
            Self::There => 150.0,
            Self::Wall => 130.0,
            Self::Car => 200.0,
            Self::Outside => 400.0,
            Self::Ringed | Self::Blamed | Self::Tip | Self::Face | Self::Firm | Self::Read => FIRM,
        }
    }

    const fn cost_for_flag(self) -> f64 {
        match self {
            Self::Body | Self::Car => 6.0,
            // A line is a chain of boxes, and a flag touches three of them.
            Self::Line => 5.0,
            Self::Led | Self::Free => 10.0,
            Self::Way => 30.0,
            Self::There => 40.0,
            Self::Wall | Self::Outside => 14.0,
            Self::Halo => 8.0,
            Self::Reach => 0.0,
            Self::Blamed => 20.0,
            Self::Tip => 60.0,
            Self::Ringed => 220.0,
            Self::Face | Self::Firm | Self::Read => FIRM,
        }
    }

    /// How bad it is that a flag's line runs over it: one through a target seems to be about that.
    const fn cost_across_for_flag(self) -> f64 {
        match self {
            Self::Face => 200.0,
            other => other.cost_across(),
        }
    }

    /// How bad it is that a line which leads to something else runs over it.
    const fn cost_across(self) -> f64 {
        match self {
            Self::Ringed | Self::Blamed | Self::Tip | Self::Face | Self::Firm => 40.0,
            Self::Read => 260.0,
            Self::Car => 12.0,
            _ => 0.0,
        }
    }
}

/// From this cost on a place covers something that must stay seen.
pub(crate) const FIRM: f64 = 10_000.0;

/// As large as a flag: most questions touch one to four cells.
const CELL_PX: f64 = 28.0;
/// A net of more cells than this in one direction is made coarser: paper the size of a hall stays cheap. A cell's number
/// is kept in a byte.
const MOST_CELLS: f64 = 128.0;

/// How far apart a line is looked at for what it runs over, px: about half a text's height, so that no corner of one is missed.
const ACROSS_STEP_PX: f64 = 5.0;

/// So many boxes are looked at for one drawing; the shipped bays look at less than a tenth of that. When they are used up
/// what is still to be placed goes to its first place, or, where it may, is left out.
const MOST_LOOKS: u64 = 20_000_000;

pub(crate) struct Space {
    /// How many boxes may still be looked at.
    looks_left: Cell<u64>,
    area: Bounds,
    cells_per_px: DVec2,
    columns: usize,
    rows: usize,
    /// Each box in every cell that it touches: a search reads one cell from its start to its end.
    cells: Vec<Vec<TakenBox>>,
}

#[derive(Clone, Copy)]
struct TakenBox {
    place: Bounds,
    how: Taken,
    /// The first cell that it touches: column, row.
    first: (u8, u8),
}

impl Space {
    /// Nothing taken in an area of paper.
    pub fn new(area: Bounds) -> Self {
        let size = area.size().max(DVec2::ONE);
        let count = (size / CELL_PX).ceil().clamp(DVec2::ONE, DVec2::splat(MOST_CELLS));
        let (columns, rows) = (count.x as usize, count.y as usize);
        let cells = vec![Vec::new(); columns * rows];
        Self { looks_left: Cell::new(MOST_LOOKS), area, cells_per_px: count / size, columns, rows, cells }
    }

    /// Whether no place can be searched for any more: what is asked then costs as much as what must stay seen.
    pub fn is_spent(&self) -> bool {
        self.looks_left.get() == 0
    }

    /// How many boxes were looked at.
    #[cfg(test)]
    pub fn looks(&self) -> u64 {
        MOST_LOOKS - self.looks_left.get()
    }

    /// Takes a box.
    pub fn take(&mut self, place: Bounds, how: Taken) {
        if !self.area.meets(&place) {
            return;
        }
        let (first, last) = (self.cell_of(place.low), self.cell_of(place.high));
        let taken = TakenBox { place, how, first: (first.0 as u8, first.1 as u8) };
        for row in first.1..=last.1 {
            for column in first.0..=last.0 {
                if let Some(cell) = self.cells.get_mut(row * self.columns + column) {
                    cell.push(taken);
                }
            }
        }
    }

    /// Takes a straight line, as a chain of small boxes.
    pub fn take_line(&mut self, from: DVec2, to: DVec2, how: Taken) {
        let Some((from, to)) = crate::clip::segment_in_box(from, to, &self.area) else { return };
        let steps = ((to - from).abs().max_element() / (CELL_PX * 0.5)).ceil().clamp(1.0, 512.0);
        let step = (to - from) / steps;
        for i in 0..steps as usize {
            let a = from + step * i as f64;
            let b = a + step;
            self.take(Bounds { low: a.min(b), high: a.max(b) }.grown(1.0), how);
        }
    }

    /// What it would cost to put a text there. Outside the paper costs as much as covering what must stay seen.
    pub fn cost(&self, place: Bounds) -> f64 {
        self.sum(place, f64::INFINITY, Taken::cost)
    }

    /// The same, but no longer summed once it is `most`: what is dearer is not wanted anyway.
    pub fn cost_up_to(&self, place: Bounds, most: f64) -> f64 {
        self.sum(place, most, Taken::cost)
    }

    /// The same for a flag.
    pub fn cost_for_flag_up_to(&self, place: Bounds, most: f64) -> f64 {
        self.sum(place, most, Taken::cost_for_flag)
    }

    /// What it costs that a line to something else, px, runs over what is read, over signs and over targets; no longer summed
    /// once it is `most`.
    pub fn cost_across_up_to(&self, from: DVec2, to: DVec2, most: f64) -> f64 {
        self.across(from, to, most, Taken::cost_across)
    }

    /// The same for the line to a flag.
    pub fn cost_across_for_flag_up_to(&self, from: DVec2, to: DVec2, most: f64) -> f64 {
        self.across(from, to, most, Taken::cost_across_for_flag)
    }

    /// The same of what is read alone: a line on its own body is seen, one under a text is not.
    pub fn cost_over_read(&self, from: DVec2, to: DVec2) -> f64 {
        let weight = |taken| if taken == Taken::Read { Taken::Read.cost_across() } else { 0.0 };
        self.across(from, to, FIRM, weight)
    }

    fn across(&self, from: DVec2, to: DVec2, most: f64, weight: impl Fn(Taken) -> f64) -> f64 {
        let steps = (from.distance(to) / ACROSS_STEP_PX) as usize;
        let on = |step: usize| around(from.lerp(to, step as f64 / steps as f64), DVec2::splat(2.0));
        let mut cost = 0.0;
        for step in 1..steps {
            if cost >= most {
                break;
            }
            cost += self.sum(on(step), most - cost, &weight);
        }
        cost
    }

    /// Whether something is read at a place, px.
    pub fn is_read_at(&self, at: DVec2) -> bool {
        let weight = |taken| if taken == Taken::Read { FIRM } else { 0.0 };
        // Off the paper nothing is.
        let place = around(at, DVec2::splat(2.0));
        self.area.holds(place.low) && self.area.holds(place.high) && self.sum(place, FIRM, weight) >= FIRM
    }

    fn sum(&self, place: Bounds, most: f64, weight: impl Fn(Taken) -> f64) -> f64 {
        if self.is_spent() {
            return FIRM;
        }
        let (low, high) = (self.area.low, self.area.high);
        let inside = low.cmple(place.low).all() && place.high.cmple(high).all();
        let mut cost = if inside { 0.0 } else { FIRM };
        let (first, last) = (self.cell_of(place.low), self.cell_of(place.high));
        for row in first.1..=last.1 {
            for column in first.0..=last.0 {
                if cost >= most {
                    return cost;
                }
                let Some(cell) = self.cells.get(row * self.columns + column) else { continue };
                self.looks_left.set(self.looks_left.get().saturating_sub(1 + cell.len() as u64));
                for taken in cell {
                    let weight = weight(taken.how);
                    if weight == 0.0 {
                        continue;
                    }
                    // A box that lies in several cells counts in the first one that both touch.
                    let counts_here =
                        (usize::from(taken.first.0).max(first.0), usize::from(taken.first.1).max(first.1))
                            == (column, row);
                    if counts_here && overlap(&taken.place, &place) {
                        cost += weight;
                    }
                }
            }
        }
        cost
    }

    fn cell_of(&self, p: DVec2) -> (usize, usize) {
        let p = (p - self.area.low) * self.cells_per_px;
        // Cut off towards zero; what lies before the first cell or behind the last belongs to them.
        let within = |v: f64, n: usize| (v as usize).min(n.saturating_sub(1));
        (within(p.x, self.columns), within(p.y, self.rows))
    }
}

/// Whether two boxes share area.
fn overlap(a: &Bounds, b: &Bounds) -> bool {
    a.low.cmplt(b.high).all() && b.low.cmplt(a.high).all()
}

/// The box of a given size around a middle.
pub(crate) fn around(middle: DVec2, size: DVec2) -> Bounds {
    Bounds { low: middle - size * 0.5, high: middle + size * 0.5 }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn area() -> Bounds {
        Bounds { low: DVec2::ZERO, high: DVec2::new(400.0, 300.0) }
    }

    #[test]
    fn a_box_over_many_cells_counts_once() {
        let mut space = Space::new(area());
        space.take(Bounds { low: DVec2::splat(10.0), high: DVec2::splat(200.0) }, Taken::Body);
        assert_eq!(space.cost(around(DVec2::splat(100.0), DVec2::splat(90.0))), Taken::Body.cost());
        assert_eq!(space.cost(around(DVec2::new(300.0, 100.0), DVec2::splat(20.0))), 0.0);
        space.take(Bounds { low: DVec2::splat(50.0), high: DVec2::splat(60.0) }, Taken::Firm);
        assert_eq!(space.cost(around(DVec2::splat(50.0), DVec2::splat(90.0))), Taken::Body.cost() + FIRM);
    }

    #[test]
    fn off_the_paper_is_never_free() {
        let space = Space::new(area());
        assert!(space.cost(around(DVec2::new(2.0, 100.0), DVec2::splat(20.0))) >= FIRM);
    }

    #[test]
    fn a_line_is_taken_along_its_whole_length() {
        let mut space = Space::new(area());
        space.take_line(DVec2::new(-500.0, 20.0), DVec2::new(390.0, 290.0), Taken::Line);
        for t in [0.6, 0.7, 0.8, 0.9, 1.0] {
            let p = DVec2::new(-500.0, 20.0).lerp(DVec2::new(390.0, 290.0), t);
            if area().holds(p) {
                assert!(space.cost(around(p, DVec2::splat(4.0))) > 0.0, "{p}");
            }
        }
    }

    /// A hundred thousand boxes in one place, asked about again and again: not for ever.
    #[test]
    fn the_search_for_places_ends() {
        let mut space = Space::new(area());
        let here = around(DVec2::splat(100.0), DVec2::splat(20.0));
        for _ in 0..100_000 {
            space.take(here, Taken::Halo);
        }
        let asked = (1..=10_000).find(|_| {
            space.cost_for_flag_up_to(here, f64::INFINITY);
            space.is_spent()
        });
        assert!(asked.is_some_and(|asked| asked > 20), "{asked:?}");
        assert_eq!(space.looks(), MOST_LOOKS);
        // Then nothing is free: nobody is told that a place is.
        assert_eq!(space.cost(around(DVec2::splat(300.0), DVec2::splat(2.0))), FIRM);
    }
}
