//! What of each face is seen once all are painted over one another: a coarse net over the picture, each cell of which knows what is
//! on top in its middle. Names are put to what is seen, never to what is hidden.

use baywright_planner::Subject;
use baywright_planner::geometry::{Bounds, DVec2};

/// So many cells across, and so many from top to bottom.
const COLUMNS: usize = 192;
const ROWS: usize = 120;

/// The net.
pub(super) struct Cells<'a> {
    size: DVec2,
    on_top: Vec<Option<&'a Subject>>,
}

/// What is seen of a subject.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Seen {
    /// The box around that, px.
    pub around: Bounds,
    /// How much of the picture it is, px².
    pub area: f64,
}

impl<'a> Cells<'a> {
    /// Over a picture so large, px.
    pub fn new(size: DVec2) -> Self {
        Self { size, on_top: vec![None; COLUMNS * ROWS] }
    }

    fn cell(&self) -> DVec2 {
        self.size / DVec2::new(COLUMNS as f64, ROWS as f64)
    }

    /// Puts an area on top: rings in px, what an odd number of them surround is inside.
    pub fn paint(&mut self, rings: &[Vec<DVec2>], subject: &'a Subject) {
        let cell = self.cell();
        let Some(around) = Bounds::around(rings.iter().flatten().copied()) else { return };
        let row_of = |y: f64| (y / cell.y).clamp(0.0, ROWS as f64) as usize;
        let mut hits: Vec<f64> = Vec::new();
        for row in row_of(around.low.y)..ROWS.min(row_of(around.high.y) + 1) {
            let y = (row as f64 + 0.5) * cell.y;
            hits.clear();
            for ring in rings {
                let next = ring.iter().cycle().skip(1);
                let met = ring.iter().zip(next).filter(|(a, b)| (a.y > y) != (b.y > y));
                hits.extend(met.map(|(a, b)| a.x + (b.x - a.x) * ((y - a.y) / (b.y - a.y))));
            }
            hits.sort_by(f64::total_cmp);
            for pair in hits.chunks_exact(2) {
                let column = |x: f64| (x / cell.x + 0.5).floor().clamp(0.0, COLUMNS as f64) as usize;
                let (from, to) = match *pair {
                    [from, to] => (column(from), column(to)),
                    _ => continue,
                };
                if let Some(cells) = self.on_top.get_mut(row * COLUMNS + from..row * COLUMNS + to) {
                    cells.fill(Some(subject));
                }
            }
        }
    }

    /// What is seen of a subject; `None` if nothing is.
    pub fn seen(&self, subject: &Subject) -> Option<Seen> {
        let cell = self.cell();
        let own = self.on_top.iter().enumerate().filter(|(_, on_top)| **on_top == Some(subject));
        let (mut around, mut count) = (None::<Bounds>, 0_u32);
        for (at, _) in own {
            let low = DVec2::new((at % COLUMNS) as f64, (at / COLUMNS) as f64) * cell;
            let place = Bounds { low, high: low + cell };
            around = Some(around.map_or(place, |known| known.union(place)));
            count += 1;
        }
        around.map(|around| Seen { around, area: f64::from(count) * cell.element_product() })
    }
}
