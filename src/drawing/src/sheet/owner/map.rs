//! How many of the list each place serves: the room to scale, its shades with their numbers, and how much floor each is.

use baywright_planner::geometry::DVec2;
use baywright_planner::judge;
use baywright_planner::place::stood;

use super::{Report, WITH_MM};
use crate::list::PX_PER_PAPER_MM;
use crate::sheet::bar::bar;
use crate::sheet::flow::{Flow, px};
use crate::sheet::plan::in_views;
use crate::sheet::scale::largest_scale;
use crate::sheet::table::{Cell, Column};
use crate::view::{TOLD_MARGIN_PX, fit_map_to_scale};

/// At most so much of a page is taken by the map.
const MAP: f64 = 0.55;
/// The bar and a line below the map, mm.
const BELOW_MM: f64 = 20.0;
impl Report<'_> {
    pub(super) fn map(&self, flow: &mut Flow<'_>) {
        let found = self.of.found;
        let (Some(map), Some(first)) = (&found.map, found.lines.first()) else {
            flow.heading(self.texts.map, WITH_MM);
            flow.read(self.texts.not_looked, None);
            return;
        };
        let best =
            found.best.as_ref().and_then(|own| Some((own.pose, found.lines.get(own.serves.first()?.0)?)));
        let line = best.map_or(first, |own| own.1);
        let own = stood(&line.arrangement, best.map_or(line.arrangement.parked, |own| own.0));
        let said = judge(&own);
        let letters = in_views(flow.lettering);
        let room = DVec2::new(flow.width(), flow.height() * MAP) - DVec2::splat(2.0 * TOLD_MARGIN_PX);
        let scale = |held: DVec2| largest_scale(held, room.max(DVec2::ONE) / PX_PER_PAPER_MM);
        let (drawing, one_to) = fit_map_to_scale(map, (&own, &said), best.is_some(), scale, &letters);
        flow.heading(self.texts.map, drawing.size.y / px(1.0) + BELOW_MM);
        flow.view(drawing);
        bar(flow, &self.words(line), one_to);
        flow.gap(1.0);
        flow.read(self.fits.map_told, None);
        let steps = map.steps();
        if steps.is_empty() {
            flow.read(self.fits.none_served, None);
            return;
        }
        flow.gap(1.0);
        let columns = vec![
            Column::new(self.texts.least, 2.0),
            Column::new(self.texts.floor, 1.0).ends_right(),
            Column::new(self.texts.share, 1.0).ends_right(),
        ];
        let all = own.bay.room.area().max(1.0);
        let rows = steps.iter().rev().map(|(least, region)| {
            let served = self.texts.at_least(usize::from(*least), map.of);
            let share = format!("{} %", self.locale.region.number(region.area() / all * 100.0, 1));
            vec![Cell::Strong(served), Cell::Text(self.area(region.area())), Cell::Text(share)]
        });
        self.table(flow, columns, rows.collect());
    }
}
