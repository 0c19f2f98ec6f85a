//! What stands beside the list: the chosen cell with its drawing, the place for the most with the map, the room.

use std::sync::Arc;

use baywright_drawing::sign::SignKind;
use baywright_drawing::{Drawing, Fit, Lettering, Turned, ViewState, fit_map_view, top_view};
use baywright_planner::edit::Edit;
use baywright_planner::geometry::{Bounds, DVec2, PlanPose};
use baywright_planner::matrix::{BestPlace, Line, Planned, RoomSize, edits_there, in_room, there};
use baywright_planner::model::{Arrangement, Id};
use baywright_planner::place::stood;
use baywright_planner::words::Words;
use baywright_planner::{Assessment, Severity};
use egui::{Label, RichText, ScrollArea, Sense, Ui, Vec2};

use super::{FitsPage, Side, weight_of};
use crate::screen::canvas::{Fills, Painter};
use crate::screen::command::{Command, OfBay};
use crate::screen::look::{self, size};
use crate::screen::{Desk, in_sight, widgets};
use crate::session::letters::Letters;

/// The drawing beside the list, as long as nothing changes.
#[derive(Debug, Default)]
pub(super) struct Drawn {
    of: Option<(Arc<[Line]>, Wanted)>,
    made: Option<(Arc<Arrangement>, Arc<Assessment>)>,
    fills: Fills,
}

/// What is drawn.
#[derive(Clone, Debug, PartialEq)]
enum Wanted {
    /// A line at a place.
    At(usize, usize, PlanPose),
    /// A line where the most are served.
    Most(usize, PlanPose),
    /// A line in an empty room.
    Room(usize, RoomSize),
}

/// Around the room: names and the overall dimensions, px.
/// The width of the field for how often something comes in, px.
const WEIGHT_PX: f32 = 60.0;
const AROUND: DVec2 = DVec2::new(60.0, 56.0);
/// Height of a drawing, px: as much as its width lets the room fill, within these.
const DRAWN_PX: (f32, f32) = (150.0, 460.0);

impl Drawn {
    /// The set-up that is wanted and what is said of it; `make` makes it.
    fn of(
        &mut self,
        desk: &Desk,
        lines: &Arc<[Line]>,
        wanted: Wanted,
        make: impl FnOnce() -> Option<Arrangement>,
    ) -> Option<(Arc<Arrangement>, Arc<Assessment>)> {
        let is_same = self.of.as_ref().is_some_and(|(of, own)| Arc::ptr_eq(of, lines) && *own == wanted);
        if !is_same {
            self.made = make().map(|own| {
                let said = Arc::new((desk.assess)(&own));
                (Arc::new(own), said)
            });
            self.of = Some((Arc::clone(lines), wanted));
        }
        self.made.clone()
    }
}

impl Desk {
    /// All that stands beside the list.
    pub(super) fn fits_aside(
        &self,
        ui: &mut Ui,
        page: &mut FitsPage,
        found: &Planned,
        is_older: bool,
        out: &mut Vec<Command>,
    ) {
        let texts = self.view.locale.language.fits();
        ui.horizontal_wrapped(|ui| {
            for (side, name) in [
                (Side::One, texts.one),
                (Side::Most, texts.most),
                (Side::HowBig, texts.how_big),
                (Side::Buys, texts.buys),
            ] {
                if ui.selectable_label(page.side == side, name).clicked() {
                    page.side = side;
                }
            }
        });
        ui.add_space(4.0);
        let area = ScrollArea::vertical().id_salt(("beside the list", page.side as u8));
        area.auto_shrink([false, false]).show(ui, |ui| {
            ui.set_width(ui.available_width() - 8.0);
            match page.side {
                Side::One => self.fits_one(ui, page, found, is_older, out),
                Side::Most => self.fits_most(ui, page, found),
                Side::HowBig => self.fits_rooms(ui, page, found, out),
                Side::Buys => self.fits_buys(ui, page, found, out),
            }
            ui.add_space(6.0);
            ui.add(Label::new(widgets::soft(ui, texts.searched)).wrap());
            ui.add(Label::new(widgets::soft(ui, self.words().caution())).wrap());
            in_sight::follow(ui);
        });
    }

    /// The cell that is chosen.
    fn fits_one(
        &self,
        ui: &mut Ui,
        page: &mut FitsPage,
        found: &Planned,
        is_older: bool,
        out: &mut Vec<Command>,
    ) {
        let texts = self.view.locale.language.fits();
        let chosen = page.chosen.and_then(|at| {
            Some((at, found.lines.get(at.0)?, found.places.get(at.1)?, found.cell(at.0, at.1)?))
        });
        let Some((at, line, place, cell)) = chosen else {
            ui.add(Label::new(widgets::soft(ui, texts.choose)).wrap());
            return;
        };
        let words = Words::new(&line.arrangement, self.view.locale);
        say(ui, RichText::new(words.plan_line(line.is_saved)).font(look::bold(size::BODY)));
        say(ui, RichText::new(words.plan_place(place)).size(size::SMALL));
        say(ui, RichText::new(widgets::unbroken(words.plan_cell(cell, &found.margin))).size(size::BODY));
        self.fits_never(ui, page, found, at.0);
        ui.horizontal_wrapped(|ui| {
            let named = (texts.comes_in, texts.comes_in, WEIGHT_PX);
            self.owner_field(ui, page, &weight_of(line), named, out);
            ui.label(widgets::soft(ui, texts.weights_told));
        });
        let pose = cell.pose();
        // What is of an earlier bay need not be so in this one.
        let press = ui.add_enabled_ui(!is_older, |ui| widgets::press(ui, self.view.theme, texts.show_it));
        if press.inner.on_hover_text(texts.show_it_why).clicked() {
            let cars = self.document.cars();
            let car = cars.iter().find(|own| own.vehicle.id == line.arrangement.vehicle.id);
            let fingerprint = car.map_or("", |own| own.fingerprint.as_str());
            let edits = edits_there(line, place, pose, fingerprint);
            let base =
                if line.is_saved { line.arrangement.id.clone() } else { self.document.shown().clone() };
            out.push(Command::Page(None));
            out.push(Command::Bay(OfBay::Show(base.clone())));
            if !edits.is_empty() {
                let name = self.fits_name(&base);
                out.push(Command::Bay(OfBay::Edit(Edit::Apart { name, edits })));
            }
        }
        ui.add_space(4.0);
        let wanted = Wanted::At(at.0, at.1, pose);
        let drawn = page.drawn.of(self, &found.lines, wanted, || Some(there(line, place, pose)));
        if let Some((own, said)) = drawn {
            self.fits_found(ui, &own, &said);
            let drawing = self.fits_drawing(ui, &own, &said);
            self.fits_picture(ui, &mut page.drawn.fills, &drawing);
        }
    }

    /// What stops it there and what needs care, by the letters of the drawing.
    fn fits_found(&self, ui: &mut Ui, own: &Arrangement, said: &Assessment) {
        let words = Words::new(own, self.view.locale);
        let palette = self.view.theme.palette();
        let letters = Letters::read(said);
        for (finding, letter) in said.findings.iter().zip(&letters) {
            if finding.severity == Severity::Note {
                continue;
            }
            ui.horizontal_top(|ui| {
                let kind = SignKind::of_severity(finding.severity);
                widgets::sign(ui, kind, 8.0, letter, widgets::severity(palette, finding.severity));
                let line = RichText::new(widgets::unbroken(words.line(finding))).size(size::SMALL);
                ui.add(Label::new(line).wrap());
            });
        }
    }

    /// A name that no set-up of the bay has.
    fn fits_name(&self, base: &Id) -> Id {
        let wanted = self.view.locale.language.fits().parked_there(base.stem());
        let taken =
            |name: &str| self.document.layout().arrangements.iter().any(|own| own.id.as_str() == name);
        if taken(&wanted) { Id::free(&wanted, " ", taken) } else { wanted.as_str().into() }
    }

    /// The place that serves the most, over the map of all places.
    fn fits_most(&self, ui: &mut Ui, page: &mut FitsPage, found: &Planned) {
        let texts = self.view.locale.language.fits();
        let Some(map) = &found.map else {
            ui.label(widgets::soft(ui, if found.is_partial { texts.not_looked } else { texts.waiting }));
            return;
        };
        let first = found.best.as_ref().and_then(|own| Some((own, own.serves.first()?.0)));
        let best = first.and_then(|(own, nth)| Some((own, nth, found.lines.get(nth)?)));
        let none = match (found.is_best_looked_for, found.is_partial) {
            (true, _) => texts.none_served,
            (false, true) => texts.not_looked,
            (false, false) => texts.waiting,
        };
        match best {
            Some((best, _, line)) => self.fits_best(ui, found, best, line),
            None => say(ui, widgets::soft(ui, none)),
        }
        let (nth, line) = best.map_or((0, found.lines.first()), |(_, nth, line)| (nth, Some(line)));
        let Some(line) = line else { return };
        let pose = best.map_or(line.arrangement.parked, |own| own.0.pose);
        let make = || Some(stood(&line.arrangement, pose));
        if let Some((own, said)) = page.drawn.of(self, &found.lines, Wanted::Most(nth, pose), make) {
            let place = drawn_size(ui, own.bay.room.bounds(), DVec2::splat(30.0));
            let lettering = Lettering { locale: self.view.locale, ..Lettering::default() };
            let box_px = (f64::from(place.x), f64::from(place.y));
            let drawing = fit_map_view(map, (&own, &said), best.is_some(), box_px, &lettering);
            let pointed = self.fits_picture(ui, &mut page.drawn.fills, &drawing);
            let here = pointed.map(|at| texts.served_there(usize::from(map.at(at)), map.of));
            say(
                ui,
                RichText::new(here.unwrap_or_else(|| texts.point.to_owned())).font(look::bold(size::SMALL)),
            );
        }
        say(ui, widgets::soft(ui, texts.map_told));
        self.fits_fewest(ui, page, found);
    }

    /// The place for the most, in words, and what it does not serve.
    fn fits_best(&self, ui: &mut Ui, found: &Planned, best: &BestPlace, line: &Line) {
        let words = Words::new(&line.arrangement, self.view.locale);
        let told = words.plan_best(best, found.lines.len(), &found.margin);
        say(ui, RichText::new(widgets::unbroken(told)).size(size::BODY));
        let not: Vec<String> = (0..found.lines.len())
            .filter(|nth| !best.serves.iter().any(|own| own.0 == *nth))
            .filter_map(|nth| {
                let own = found.lines.get(nth)?;
                Some(Words::new(&own.arrangement, self.view.locale).plan_line(own.is_saved))
            })
            .collect();
        if !not.is_empty() {
            let not_served = self.view.locale.language.plan().not_served;
            say(ui, RichText::new(format!("{not_served}: {}.", not.join("; "))).size(size::SMALL));
        }
    }

    /// The deciding line, or the chosen one, in an empty room.
    pub(super) fn fits_in_room(
        &self,
        ui: &mut Ui,
        page: &mut FitsPage,
        found: &Planned,
        (nth, room): (usize, &RoomSize),
    ) {
        let in_store = self.view.locale.language.fits().in_store;
        let make = || in_room(found.lines.get(nth)?, found.needs.get(nth)?.as_ref()?, room, in_store);
        if let Some((own, said)) = page.drawn.of(self, &found.lines, Wanted::Room(nth, room.clone()), make) {
            let drawing = self.fits_drawing(ui, &own, &said);
            self.fits_picture(ui, &mut page.drawn.fills, &drawing);
        }
    }

    /// A set-up from above, as its room lies.
    fn fits_drawing(&self, ui: &Ui, own: &Arrangement, said: &Assessment) -> Drawing {
        let room = own.bay.room.bounds();
        let place = drawn_size(ui, room, AROUND);
        let size = DVec2::new(f64::from(place.x), f64::from(place.y));
        let px_per_mm = ((size - AROUND) / room.size().max(DVec2::ONE)).min_element();
        let fit = Fit::Window { size, px_per_mm, middle: room.centre() };
        let lettering = Lettering { locale: self.view.locale, ..Lettering::default() };
        let state = ViewState { turned: Turned::ToRoom, ..ViewState::default() };
        top_view(own, said, &state, fit, &lettering)
    }

    /// Draws it; the place of the bay that the pointer is over, mm.
    fn fits_picture(&self, ui: &mut Ui, fills: &mut Fills, drawing: &Drawing) -> Option<DVec2> {
        fills.next_frame();
        let place = Vec2::new(ui.available_width(), drawing.size.y as f32);
        let (rect, response) = ui.allocate_exact_size(place, Sense::hover());
        let mut painter = Painter::of_all(drawing, (ui.ctx(), self.view.theme), rect.min, fills);
        painter.drawing(drawing);
        let shapes = std::mem::take(&mut painter.out);
        ui.painter().rect_filled(rect, 4.0, look::colour(self.view.theme.palette().paper));
        let on = ui.painter().with_clip_rect(rect.intersect(ui.clip_rect()));
        on.extend(shapes);
        let over = response.hover_pos()? - rect.min;
        Some(drawing.bay_from_view * drawing.view_point(DVec2::new(f64::from(over.x), f64::from(over.y))))
    }
}

/// So much room a drawing of a room has, px: its width, and as high as it fills then.
fn drawn_size(ui: &Ui, room: Bounds, around: DVec2) -> Vec2 {
    let size = room.size().max(DVec2::ONE);
    let width = ui.available_width();
    let filled = (f64::from(width) - around.x).max(1.0) * size.y / size.x + around.y;
    Vec2::new(width, (filled as f32).clamp(DRAWN_PX.0, DRAWN_PX.1))
}

/// A sentence.
pub(super) fn say(ui: &mut Ui, text: RichText) {
    ui.add(Label::new(text).wrap().selectable(true));
}
