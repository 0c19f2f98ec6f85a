//! What the floor plans of all trades list in the same way.

use baywright_planner::geometry::{Bounds, DVec2, Outline};
use baywright_planner::model::Thing;

use super::Floor;
use crate::sheet::flow::{Flow, px};
use crate::sheet::lines::READ_MM;
use crate::sheet::table::{Cell, Column, Table};

/// A group of columns takes at least so much for each share of its width, mm, where several groups stand beside one another.
const SHARE_MM: f64 = 20.5;

impl Floor<'_> {
    /// The names of the two walls that all is measured from.
    pub(super) fn walls(&self) -> [String; 2] {
        let name = |at: usize| {
            self.shell.arrangement.bay.walls.get(at).map_or_else(String::new, |own| own.id.to_string())
        };
        self.shell.datum.walls.map(name)
    }

    /// Over the two columns of distances from them.
    pub(super) fn wall_columns(&self) -> [(String, f64); 2] {
        let texts = self.words.locale().language.floor_sheets();
        self.walls().map(|wall| (texts.from_wall(&wall), 1.2))
    }

    /// How far a place is from the two walls.
    pub(super) fn at(&self, p: DVec2) -> [Cell; 2] {
        self.shell.datum.off_walls(p).map(|mm| Cell::Text(self.words.length(mm)))
    }

    /// From how far to how far places are from the two walls, mm.
    pub(super) fn reach(&self, places: impl IntoIterator<Item = DVec2>) -> Option<Bounds> {
        Bounds::around(places.into_iter().map(|p| DVec2::from_array(self.shell.datum.off_walls(p))))
    }

    /// The same in words.
    pub(super) fn reach_cells(&self, places: impl IntoIterator<Item = DVec2>) -> [Cell; 2] {
        let texts = self.words.locale().language.floor_sheets();
        let Some(Bounds { low, high }) = self.reach(places) else { return [Cell::Nothing, Cell::Nothing] };
        let said =
            |from: f64, to: f64| Cell::Text(texts.from_to(&self.words.bare(from), &self.words.length(to)));
        [said(low.x, high.x), said(low.y, high.y)]
    }

    /// The places of an outline that reach furthest along the two walls.
    fn outermost(&self, of: &Outline) -> Vec<DVec2> {
        match of {
            Outline::Polygon(own) => own.outer().to_vec(),
            Outline::Circle(own) => {
                let pose = self.shell.datum.pose;
                let ways = [pose.forward(), -pose.forward(), pose.left(), -pose.left()];
                ways.map(|way| own.centre() + way * own.radius()).to_vec()
            }
        }
    }

    /// A level with its sign, to a tenth of a millimetre whatever is shown else: a sixteenth of an inch, or a whole millimetre, is half
    /// of what floors are asked for.
    pub(super) fn level(&self, mm: f64, bare: bool) -> String {
        let tenths = (mm * 10.0).round() / 10.0;
        let size = self.words.number(tenths.abs(), 1);
        let sign = match tenths {
            own if own > 0.0 => "+",
            own if own < 0.0 => "\u{2212}",
            _ => "",
        };
        if bare { format!("{sign}{size}") } else { format!("{sign}{size} mm") }
    }

    /// Rows of columns, several groups of them beside one another where there is room, read along each row.
    pub(super) fn table(&self, flow: &mut Flow<'_>, columns: &[(String, f64)], rows: Vec<Vec<Cell>>) {
        let shares: f64 = columns.iter().map(|(_, share)| share).sum();
        let most = self.groups(flow, columns);
        let groups = most.min(rows.len()).max(1);
        let mut all = Vec::new();
        for group in 0..groups {
            for (at, (title, share)) in columns.iter().enumerate() {
                let column = Column::new(title, *share);
                all.push(if group > 0 && at == 0 { column.divided() } else { column });
            }
        }
        // A few rows on wide paper are not drawn out over all of it.
        if most > groups {
            all.push(Column::new("", shares * (most - groups) as f64));
        }
        let rows = rows.chunks(groups).map(|row| {
            let missing = all.len() - row.len() * columns.len();
            row.iter().flatten().cloned().chain(std::iter::repeat_n(Cell::Nothing, missing)).collect()
        });
        let rows = rows.collect();
        Table { columns: all, rows, capitals_mm: READ_MM, least_row_mm: 0.0 }.set(flow);
    }

    /// A heading and a table under it, its first row on the same page, or that there is nothing to list.
    pub(super) fn listed(
        &self,
        flow: &mut Flow<'_>,
        heading: &str,
        columns: &[(String, f64)],
        rows: Vec<Vec<Cell>>,
    ) {
        flow.heading(heading, self.needs(flow, columns, &rows));
        if rows.is_empty() {
            flow.read(self.words.locale().language.floor_sheets().none, None);
        } else {
            self.table(flow, columns, rows);
        }
    }

    /// What the head of a table and its first row take, mm.
    pub(super) fn needs(&self, flow: &Flow<'_>, columns: &[(String, f64)], rows: &[Vec<Cell>]) -> f64 {
        let mut endless = self.on.endless(flow);
        let most = self.groups(flow, columns);
        self.table(&mut endless, columns, rows.iter().take(most).cloned().collect());
        endless.taken() / px(1.0)
    }

    /// How many groups of columns stand beside one another at most.
    fn groups(&self, flow: &Flow<'_>, columns: &[(String, f64)]) -> usize {
        let shares: f64 = columns.iter().map(|(_, share)| share).sum();
        let one = px(SHARE_MM) * shares * flow.lettering.enlarged();
        ((flow.width() / one.max(1.0)) as usize).max(1)
    }

    /// Things with their places and heights.
    pub(super) fn things(&self, flow: &mut Flow<'_>, heading: &str, shows: impl Fn(&Thing) -> bool) {
        let texts = self.words.locale().language.floor_sheets();
        let [a, b] = self.wall_columns();
        let columns = [
            (texts.name.to_owned(), 1.9),
            (texts.what.to_owned(), 1.2),
            a,
            b,
            (texts.bottom.to_owned(), 0.9),
            (texts.top.to_owned(), 0.9),
        ];
        let row = |own: &Thing| {
            let [a, b] = self.reach_cells(self.outermost(&own.footprint.outline().placed(&own.place.at)));
            let height = |mm: f64| Cell::Text(self.words.length(mm));
            vec![
                Cell::Strong(own.id.to_string()),
                Cell::Text(self.words.kind_of_thing(own.kind).to_owned()),
                a,
                b,
                height(own.span.bottom()),
                height(own.span.top()),
            ]
        };
        let things = self.shell.arrangement.bay.things.iter().filter(|own| shows(own));
        self.listed(flow, heading, &columns, things.map(row).collect());
    }

    /// Doors, windows and gaps: where along their wall, and how high.
    pub(super) fn openings(&self, flow: &mut Flow<'_>) {
        let language = self.words.locale().language;
        let (texts, rooms) = (language.floor_sheets(), language.rooms());
        let bay = &self.shell.arrangement.bay;
        let columns = [
            (texts.name, 1.9),
            (texts.what, 1.2),
            (texts.wall, 1.2),
            (texts.starts, 0.9),
            (texts.ends, 0.9),
            (texts.bottom, 0.9),
            (texts.top, 0.9),
        ];
        let columns = columns.map(|(title, share)| (title.to_owned(), share));
        let mut rows = Vec::new();
        for own in &bay.openings {
            let Some((from, to)) = bay.wall_ends(own.wall) else { continue };
            // Seen from inside a wall's first corner is its right end.
            let starts = from.distance(to) - own.from_mm - own.width_mm;
            let wall = bay.walls.get(own.wall).map_or_else(String::new, |wall| wall.id.to_string());
            let mut row = vec![
                Cell::Strong(own.id.to_string()),
                Cell::Text(rooms.opening_of(own.kind).to_owned()),
                Cell::Text(wall),
            ];
            let figures = [starts, starts + own.width_mm, own.span.bottom(), own.span.top()];
            row.extend(figures.map(|mm| Cell::Text(self.words.length(mm))));
            rows.push(row);
        }
        self.listed(flow, texts.openings, &columns, rows);
    }
}
