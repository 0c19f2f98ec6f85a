//! What who paints the floor is told: the points that stay, this set-up's marks, lines and areas by their corners.

use baywright_planner::geometry::DVec2;
use baywright_planner::model::{Id, Thing};

use super::Floor;
use crate::sheet::flow::Flow;
use crate::sheet::table::Cell;
use crate::view::wall_to_wall;

/// More corners than this are a rounded edge, which nobody tapes.
const MOST_CORNERS: usize = 16;

impl Floor<'_> {
    pub(super) fn paint(&self, flow: &mut Flow<'_>) {
        self.points(flow);
        self.lines(flow);
        self.corners(flow);
        let texts = self.words.locale().language.floor_sheets();
        flow.gap(1.0);
        flow.read(texts.may_reach, None);
        flow.read(texts.colours, None);
        self.things(flow, texts.fixed, |_: &Thing| true);
    }

    fn points(&self, flow: &mut Flow<'_>) {
        let texts = self.words.locale().language.floor_sheets();
        let staying = self.words.locale().language.permanent();
        let marks = &self.shell.arrangement.bay.marks;
        let says_how_well = marks.iter().any(|own| own.laid_within_mm.is_some());
        let mut rows = Vec::new();
        let mut row = |number: String, name: String, at: DVec2, within_mm: Option<f64>| {
            let [a, b] = self.at(at);
            let mut cells = vec![Cell::Strong(number), Cell::Text(name), a, b];
            let within = within_mm.map(|mm| Cell::Text(self.words.locale().laid_within(mm)));
            cells.extend(says_how_well.then(|| within.unwrap_or(Cell::Nothing)));
            rows.push(cells);
        };
        for (own, number) in marks.iter().zip(1..) {
            row(texts.permanent(number), own.id.to_string(), own.at, own.laid_within_mm);
        }
        for (own, number) in self.shell.assessment.scene.marks.iter().zip(1..) {
            if let Ok(at) = own.at {
                row(number.to_string(), texts.mark(number), at, None);
            }
        }
        let [a, b] = self.wall_columns();
        let mut columns = vec![(texts.number.to_owned(), 0.5), (texts.name.to_owned(), 1.6), a, b];
        columns.extend(says_how_well.then(|| (staying.laid_within.to_owned(), 0.9)));
        flow.heading(texts.points, self.needs(flow, &columns, &rows));
        if rows.is_empty() {
            flow.read(texts.no_points, None);
        } else {
            self.table(flow, &columns, rows);
        }
        if says_how_well {
            flow.read(staying.within_about, None);
        }
    }

    /// The lines that go from one permanent point to another.
    fn lines(&self, flow: &mut Flow<'_>) {
        let (texts, staying) =
            (self.words.locale().language.floor_sheets(), self.words.locale().language.permanent());
        let bay = &self.shell.arrangement.bay;
        let named = |id: &Id| {
            let nth = bay.marks.iter().position(|own| own.id == *id).unwrap_or_default();
            format!("{} {id}", texts.permanent(nth + 1))
        };
        let rows: Vec<Vec<Cell>> = bay
            .floor_lines()
            .map(|(from, [a, b])| {
                let to = from.line_to.as_ref().map_or_else(String::new, named);
                let long = self.words.length(a.distance(b));
                vec![Cell::Text(named(&from.id)), Cell::Text(to), Cell::Text(long)]
            })
            .collect();
        if !rows.is_empty() {
            let columns = [(staying.from, 1.7), (staying.to, 1.7), (staying.long, 0.9)];
            let columns = columns.map(|(title, share)| (title.to_owned(), share));
            self.listed(flow, staying.floor_lines, &columns, rows);
        }
    }

    fn corners(&self, flow: &mut Flow<'_>) {
        let texts = self.words.locale().language.floor_sheets();
        let (bay, scene) = (&self.shell.arrangement.bay, &self.shell.assessment.scene);
        let mut rows = Vec::new();
        let mut more = 0;
        let mut row = |name: String, at: DVec2| {
            let [a, b] = self.at(at);
            rows.push(vec![Cell::Text(name), a, b]);
        };
        for (is_ahead, at) in
            wall_to_wall(scene).into_iter().flat_map(|ends| [false, true].into_iter().zip(ends))
        {
            row(texts.axis_end(is_ahead), at);
        }
        let halls = bay.bays.iter().map(|own| (&own.id, own.outline.outer().to_vec()));
        let free = bay.keep_free.iter().map(|own| (&own.id, own.outline.outer().to_vec()));
        let zones = scene.zones.iter().map(|own| (&own.id, own.prism.outline.as_polygon().outer().to_vec()));
        for (name, ring) in halls.chain(free).chain(zones) {
            more += ring.len().saturating_sub(MOST_CORNERS);
            for (at, number) in ring.into_iter().zip(1..=MOST_CORNERS) {
                row(texts.corner(name.as_str(), number), at);
            }
        }
        let [a, b] = self.wall_columns();
        self.listed(flow, texts.corners, &[(texts.what.to_owned(), 2.2), a, b], rows);
        if more > 0 {
            flow.read(&texts.more_corners(more), None);
        }
    }
}
