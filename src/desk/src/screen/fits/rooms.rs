//! How big an empty room must be: the curve of length against width, the room that is looked at with the car that decides it, what each
//! line adds, and what the floor costs.

use std::sync::Arc;

use baywright_planner::matrix::{Curve, Needs, Planned, RoomSize};
use baywright_planner::words::Words;
use egui::{Context, RichText, Ui, Vec2};
use egui_plot::{Line as PlotLine, MarkerShape, Plot, PlotPoints, Points};

use super::aside::say;
use super::owner::Figure;
use super::{FitsPage, Of, Side, store_mm};
use crate::screen::command::Command;
use crate::screen::look::{self, size};
use crate::screen::{Desk, waking, widgets};

/// The height of the curve, px.
const GRAPH_PX: f32 = 190.0;
/// The width of the field for a price, px.
const PRICE_PX: f32 = 110.0;

/// What rooms are worked out of once more: what each line needs, and how deep what is in store is, mm.
#[derive(Clone, Debug)]
pub(super) struct OfStore {
    pub needs: Arc<[Option<Needs>]>,
    pub store_mm: f64,
}

impl PartialEq for OfStore {
    fn eq(&self, other: &Self) -> bool {
        Arc::ptr_eq(&self.needs, &other.needs) && self.store_mm == other.store_mm
    }
}

impl FitsPage {
    /// Has the rooms worked out once more where another depth is to be in store than they were worked out with.
    pub(super) fn follow_store(&mut self, of: &Of, ctx: &Context) {
        let store_mm = store_mm(&of.layout);
        let Some(found) = self.answers.shown(of).filter(|own| !own.is_older).map(|own| own.found) else {
            return;
        };
        if found.room.is_some() && found.store_mm != store_mm {
            let of = OfStore { needs: Arc::clone(&found.needs), store_mm };
            let needs = Arc::clone(&of.needs);
            self.stored.ask(of, ("rooms with what is in store", 1), &waking(ctx), move |_| {
                Arc::new(Curve::of(&needs, store_mm))
            });
        }
    }
}

impl Desk {
    /// The curve and what goes with it.
    pub(super) fn fits_rooms(
        &self,
        ui: &mut Ui,
        page: &mut FitsPage,
        found: &Planned,
        out: &mut Vec<Command>,
    ) {
        let texts = self.view.locale.language.fits();
        let Some(curve) = &found.room else {
            self.fits_store(ui, page, out);
            ui.label(widgets::soft(ui, if found.is_partial { texts.not_looked } else { texts.waiting }));
            return;
        };
        let looked_at = page.width_mm.and_then(|width| curve.nearest(width)).or(curve.smallest.as_ref());
        let Some(room) = looked_at.cloned() else {
            say(ui, RichText::new(self.view.locale.language.plan().no_size).size(size::BODY));
            return;
        };
        if let Some(line) = found.lines.get(room.decides) {
            let words = Words::new(&line.arrangement, self.view.locale);
            let told = widgets::unbroken(words.fits_room(&room));
            say(ui, RichText::new(told).font(look::bold(size::BODY)));
        }
        self.fits_price(ui, page, &room, out);
        self.fits_store(ui, page, out);
        self.fits_curve(ui, page, curve, &room);
        say(ui, widgets::soft(ui, texts.rooms));
        let of_chosen =
            page.chosen.map(|own| own.0).filter(|nth| found.needs.get(*nth).is_some_and(Option::is_some));
        self.fits_in_room(ui, page, found, (of_chosen.unwrap_or(room.decides), &room));
        say(ui, widgets::soft(ui, texts.choose_line));
        ui.add_space(4.0);
        say(ui, RichText::new(texts.adds).font(look::bold(size::BODY)));
        for (nth, line) in found.lines.iter().enumerate() {
            let words = Words::new(&line.arrangement, self.view.locale);
            let own =
                curve.adds.get(nth).copied().flatten().zip(curve.alone.get(nth).and_then(Option::as_ref));
            let told =
                own.map_or_else(|| texts.no_room.to_owned(), |(adds, alone)| words.fits_adds(adds, alone));
            let told = format!("{}: {told}", words.plan_line(line.is_saved));
            say(ui, RichText::new(widgets::unbroken(told)).size(size::SMALL));
        }
    }

    /// What the floor costs at the owner's price.
    fn fits_price(&self, ui: &mut Ui, page: &mut FitsPage, room: &RoomSize, out: &mut Vec<Command>) {
        let texts = self.view.locale.language.fits();
        ui.horizontal_wrapped(|ui| {
            let named = (texts.price, texts.price, PRICE_PX);
            self.owner_field(ui, page, &Figure::SquareMetre, named, out);
            if let Some(price) = self.owner_says(&Figure::SquareMetre) {
                let sum = self.region().number(price * room.area() * 1e-6, 0);
                ui.label(RichText::new(texts.costs(&sum)).size(size::SMALL));
            }
        });
    }

    /// How deep a strip is kept for what is in store.
    fn fits_store(&self, ui: &mut Ui, page: &mut FitsPage, out: &mut Vec<Command>) {
        let texts = self.view.locale.language.fits();
        ui.horizontal_wrapped(|ui| {
            self.owner_field(ui, page, &Figure::Store, (texts.store, texts.store, PRICE_PX), out);
        });
        say(ui, widgets::soft(ui, texts.store_told));
    }

    /// Length against width; a press looks at the room of that width.
    fn fits_curve(&self, ui: &mut Ui, page: &mut FitsPage, curve: &Curve, room: &RoomSize) {
        let texts = self.view.locale.language.fits();
        let palette = self.view.theme.palette();
        let (ready, beam) = (look::colour(palette.ready), look::colour(palette.beam));
        let metres = |own: &RoomSize| [own.width_mm * 1e-3, own.length_mm * 1e-3];
        // Each width needs the length of the next narrower one until the next is enough: steps.
        let mut corners: Vec<[f64; 2]> = Vec::new();
        for own in &curve.rooms {
            let at = metres(own);
            if let Some(last) = corners.last().copied() {
                corners.push([at[0], last[1]]);
            }
            corners.push(at);
        }
        let locale = self.view.locale;
        let read: Vec<String> = curve
            .rooms
            .iter()
            .map(|own| texts.by(&locale.length(own.length_mm), &locale.length(own.width_mm)))
            .collect();
        let now = metres(room);
        let shown = Plot::new("curve of rooms")
            .height(GRAPH_PX)
            // Room beside the last figure along the foot.
            .set_margin_fraction(Vec2::new(0.08, 0.08))
            .allow_drag(false)
            .allow_zoom(false)
            .allow_scroll(false)
            .allow_boxed_zoom(false)
            .allow_double_click_reset(false)
            .show_x(false)
            .show_y(false)
            .x_axis_label(texts.wide)
            .y_axis_label(texts.long)
            .x_axis_formatter(move |mark, _| locale.length(mark.value * 1e3))
            .y_axis_formatter(move |mark, _| locale.length(mark.value * 1e3))
            .show(ui, |plot| {
                // Each step by itself: joined at so sharp corners the line is painted as wedges.
                for step in corners.windows(2) {
                    let line = PlotLine::new("", PlotPoints::from(step.to_vec()));
                    plot.line(line.color(ready).width(2.0).allow_hover(false));
                }
                let least = curve.smallest.iter().map(metres).collect::<PlotPoints<'_>>();
                plot.points(Points::new("", least).radius(4.0).color(ready).allow_hover(false));
                let here = Points::new("", PlotPoints::from(vec![now])).radius(6.0).color(beam);
                plot.points(here.shape(MarkerShape::Diamond).allow_hover(false));
                plot.response().clicked().then(|| plot.pointer_coordinate()).flatten()
            });
        shown.response.widget_info(|| {
            egui::WidgetInfo::labeled(egui::Role::Image, true, format!("{} {}", texts.rooms, read.join("; ")))
        });
        if let Some(at) = shown.inner {
            page.width_mm = Some(at.x * 1e3);
            page.side = Side::HowBig;
        }
        // By the keyboard, and for who does not aim well: one room narrower, one wider.
        let place = curve.rooms.iter().position(|own| own == room).unwrap_or_default();
        ui.horizontal(|ui| {
            for (name, next) in [(texts.narrower, place.checked_sub(1)), (texts.wider, Some(place + 1))] {
                let next = next.and_then(|own| curve.rooms.get(own));
                let press = ui.add_enabled_ui(next.is_some(), |ui| widgets::lesser(ui, name)).inner;
                if let (true, Some(own)) = (press.clicked(), next) {
                    page.width_mm = Some(own.width_mm);
                }
            }
        });
    }
}
