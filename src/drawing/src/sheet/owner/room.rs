//! How big an empty room must be for the list: the smallest with the aiming that decides it, others that do as well, what each line adds.

use baywright_planner::geometry::DVec2;
use baywright_planner::matrix::{Curve, RoomSize, in_room};
use baywright_planner::{Assessment, judge};

use super::{Report, WITH_MM};
use crate::sheet::bar::bar;
use crate::sheet::flow::{Flow, px};
use crate::sheet::plan::{in_views, plan, whole_bay};
use crate::sheet::table::{Cell, Column};
use crate::view::ViewState;

/// At most so much of a page is taken by the drawing.
const VIEW: f64 = 0.4;
/// The bar below the drawing, mm.
const BAR_MM: f64 = 13.0;
/// So many rooms of the curve are told.
const ROOMS: usize = 8;

impl Report<'_> {
    pub(super) fn room(&self, flow: &mut Flow<'_>) {
        let found = self.of.found;
        flow.heading(self.plan.empty_room, WITH_MM);
        let Some(curve) = &found.room else {
            flow.read(self.texts.not_looked, None);
            return;
        };
        let Some(smallest) = &curve.smallest else {
            flow.read(self.plan.no_size, None);
            return;
        };
        if let Some(line) = found.lines.get(smallest.decides) {
            let words = self.words(line);
            flow.work(&words.fits_room(smallest), None);
            flow.read(&words.plan_room(smallest, &found.margin), None);
        }
        if let Some(price) = self.of.price {
            let sum = self.locale.region.number(price * smallest.area() * 1e-6, 0);
            flow.read(&self.fits.costs(&sum), None);
        }
        self.drawn(flow, smallest);
        self.rooms(flow, curve, smallest);
        self.adds(flow, curve);
    }

    /// The aiming that decides, in that room.
    fn drawn(&self, flow: &mut Flow<'_>, room: &RoomSize) {
        let found = self.of.found;
        let made = || {
            let (line, needs) = (found.lines.get(room.decides)?, found.needs.get(room.decides)?);
            in_room(line, needs.as_ref()?, room, self.fits.in_store)
        };
        let Some(own) = made() else { return };
        // What it asks for is drawn; what is found of it, a floor without levels for one, is not told here.
        let said = Assessment { findings: Vec::new(), ..judge(&own) };
        let letters = in_views(flow.lettering);
        let high = DVec2::new(flow.width(), flow.height() * VIEW);
        let lies = whole_bay(&own, &said, &ViewState::default(), high, &letters);
        let size = lies.size(&letters).min(high);
        flow.gap(1.5);
        let words = found.lines.get(room.decides).map(|own| self.words(own));
        let in_store = words.zip(room.strip.as_ref()).map(|(words, strip)| words.report_store(strip));
        let told: Vec<&str> = std::iter::once(self.texts.drawn).chain(in_store.as_deref()).collect();
        let told_high: f64 = told.iter().map(|own| flow.height_read(own)).sum();
        flow.ensure(size.y + px(BAR_MM) + told_high);
        for own in told {
            flow.read(own, None);
        }
        flow.view(plan(&own, &said, &lies, size, flow.lettering));
        if let Some(line) = found.lines.get(room.decides) {
            bar(flow, &self.words(line), lies.one_to);
        }
    }

    /// Rooms that serve the same list.
    fn rooms(&self, flow: &mut Flow<'_>, curve: &Curve, smallest: &RoomSize) {
        let told = some_of(&curve.rooms, smallest);
        if told.len() < 2 {
            return;
        }
        flow.gap(2.0);
        flow.ensure(px(WITH_MM));
        self.strong(flow, self.texts.wider_or_longer);
        let columns = vec![
            Column::new(self.fits.wide, 1.0).ends_right(),
            Column::new(self.fits.long, 1.0).ends_right(),
            Column::new(self.texts.area, 0.8).ends_right(),
            Column::new(self.texts.decides, 3.0),
        ];
        let rows = told.into_iter().map(|own| {
            let decides = format!("{}  {}", own.decides + 1, self.line(own.decides));
            let figures =
                [self.locale.length(own.width_mm), self.locale.length(own.length_mm), self.area(own.area())];
            let cell = |text: String| if own == smallest { Cell::Strong(text) } else { Cell::Text(text) };
            figures.into_iter().chain([decides]).map(cell).collect()
        });
        self.table(flow, columns, rows.collect());
    }

    /// What each line adds to the smallest.
    fn adds(&self, flow: &mut Flow<'_>, curve: &Curve) {
        flow.gap(2.0);
        flow.ensure(px(WITH_MM));
        let columns = vec![
            Column::new(self.texts.number, 0.5),
            Column::new(self.fits.car_and_aiming, 4.0),
            Column::new(self.fits.adds, 4.0),
        ];
        let rows = self.of.found.lines.iter().enumerate().map(|(nth, line)| {
            let own =
                curve.adds.get(nth).copied().flatten().zip(curve.alone.get(nth).and_then(Option::as_ref));
            let told = own.map_or_else(
                || self.fits.no_room.to_owned(),
                |(adds, alone)| self.words(line).fits_adds(adds, alone),
            );
            vec![Cell::Text((nth + 1).to_string()), Cell::Text(self.line(nth)), Cell::Text(told)]
        });
        self.table(flow, columns, rows.collect());
    }
}

/// A few of the rooms of a curve, the first and the last and the smallest among them, in their order.
fn some_of<'c>(rooms: &'c [RoomSize], smallest: &RoomSize) -> Vec<&'c RoomSize> {
    let last = rooms.len().saturating_sub(1);
    let count = rooms.len().min(ROOMS);
    let mut picked: Vec<usize> = (0..count).map(|step| step * last / (count - 1).max(1)).collect();
    picked.extend(rooms.iter().position(|own| own == smallest));
    picked.sort_unstable();
    picked.dedup();
    picked.into_iter().filter_map(|nth| rooms.get(nth)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_first_the_last_and_the_smallest_are_told() {
        let room = |nth: usize| RoomSize {
            length_mm: 9_000.0 - 100.0 * nth as f64,
            width_mm: 4_000.0 + 100.0 * nth as f64,
            decides: 0,
            strip: None,
        };
        let rooms: Vec<RoomSize> = (0..30).map(room).collect();
        let told = some_of(&rooms, &rooms[7]);
        assert_eq!((told[0], told[told.len() - 1]), (&rooms[0], &rooms[29]));
        assert!(told.contains(&&rooms[7]) && told.len() <= ROOMS + 1);
        assert!(told.windows(2).all(|pair| pair[0].width_mm < pair[1].width_mm));
        assert_eq!(some_of(&rooms[..1], &rooms[0]), [&rooms[0]]);
        assert!(some_of(&[], &rooms[0]).is_empty());
    }
}
