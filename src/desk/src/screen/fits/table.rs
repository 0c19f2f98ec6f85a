//! The list: a line for each aiming, a column for each place; each cell a sign of its own shape with a word.

use baywright_drawing::sign::SignKind;
use baywright_planner::Verdict;
use baywright_planner::matrix::{Cell, Line, Planned};
use baywright_planner::words::Words;
use egui::text::{LayoutJob, TextWrapping};
use egui::{
    Align2, Color32, CornerRadius, FontId, Pos2, Rect, Response, Role, ScrollArea, Sense, Stroke, StrokeKind,
    Ui, Vec2, WidgetInfo,
};

use super::{FitsPage, Side};
use crate::screen::look::{self, size};
use crate::screen::{Desk, in_sight, widgets};

/// Sizes of the table, px.
const CELL: Vec2 = Vec2::new(86.0, 46.0);
const HEAD_PX: f32 = 46.0;
const NAME_PX: f32 = 216.0;
const LEAST_NAME_PX: f32 = 130.0;
const SIGN_PX: f32 = 8.0;

/// The sign that stands in a cell.
struct Told {
    kind: SignKind,
    mark: &'static str,
    colours: (Color32, Color32),
}

impl Desk {
    /// The list, with its heads.
    pub(super) fn fits_table(&self, ui: &mut Ui, page: &mut FitsPage, found: &Planned) {
        let texts = self.view.locale.language.fits();
        let columns = found.places.len();
        let name_px = (ui.available_width() - CELL.x * columns as f32 - 16.0).clamp(LEAST_NAME_PX, NAME_PX);
        let width = name_px + CELL.x * columns as f32;
        let palette = self.view.theme.palette();
        let (ink, soft) = (look::colour(palette.ink), look::colour(palette.soft));
        let area = ScrollArea::horizontal().id_salt("places").auto_shrink([false, false]);
        area.show(ui, |ui| {
            ui.spacing_mut().item_spacing = Vec2::ZERO;
            ui.set_min_width(width);
            let clip = ui.clip_rect();
            let (head, _) = ui.allocate_exact_size(Vec2::new(width, HEAD_PX), Sense::hover());
            for (nth, place) in found.places.iter().enumerate() {
                let at = Rect::from_min_size(cell_corner(head, name_px, nth), Vec2::new(CELL.x, HEAD_PX));
                let text = self.words().fits_place(place);
                let wide = at.shrink2(Vec2::new(4.0, 2.0));
                put(ui, wide, &text, look::bold(size::SMALL), ink, (Align2::CENTER_BOTTOM, 3));
                // What is cut stands beside the pointer.
                let id = egui::Id::unique("head of what fits where").with(nth);
                ui.interact(at, id, Sense::hover()).on_hover_text(self.words().plan_place(place));
            }
            let name = name_rect(head, clip, name_px);
            ui.painter().rect_filled(name, 0.0, look::colour(palette.sheet));
            let own = name.shrink2(Vec2::new(4.0, 2.0));
            put(ui, own, texts.car_and_aiming, look::bold(size::SMALL), ink, (Align2::LEFT_BOTTOM, 2));
            line_below(ui, head, soft);
            // The last row, which says how many fit, stays in sight.
            let foot_px = size::BODY * 3.0;
            let most = ui.available_height() - foot_px;
            let rows = ScrollArea::vertical().id_salt("lines").auto_shrink([false, true]).max_height(most);
            rows.show_rows(ui, CELL.y, found.lines.len(), |ui, shown| {
                for nth in shown {
                    self.fits_row(ui, page, found, nth, (clip, name_px, width));
                }
                in_sight::follow(ui);
            });
            self.fits_foot(ui, found, (clip, name_px, Vec2::new(width, foot_px)));
        });
    }

    /// A line of the list.
    fn fits_row(
        &self,
        ui: &mut Ui,
        page: &mut FitsPage,
        found: &Planned,
        nth: usize,
        (clip, name_px, width): (Rect, f32, f32),
    ) {
        let palette = self.view.theme.palette();
        let Some(line) = found.lines.get(nth) else { return };
        let (row, _) = ui.allocate_exact_size(Vec2::new(width, CELL.y), Sense::hover());
        for place in 0..found.places.len() {
            let at = Rect::from_min_size(cell_corner(row, name_px, place), CELL);
            let response = self.fits_cell(ui, page, found, (nth, place), at);
            if response.clicked() {
                page.chosen = Some((nth, place));
                if page.side == Side::Most {
                    page.side = Side::One;
                }
            }
        }
        let name = name_rect(row, clip, name_px);
        ui.painter().rect_filled(name, 0.0, look::colour(palette.sheet));
        let (ink, soft) = (look::colour(palette.ink), look::colour(palette.soft));
        let own = name.shrink2(Vec2::new(4.0, 3.0));
        let is_chosen = page.chosen.is_some_and(|own| own.0 == nth);
        let (car, aiming) = names(line);
        let font = if is_chosen {
            look::bold(size::BODY)
        } else {
            look::letters(size::BODY, baywright_drawing::Weight::Regular)
        };
        let first = put(ui, own, &car, font, ink, (Align2::LEFT_TOP, 1));
        let below = Rect::from_min_max(Pos2::new(own.left(), own.top() + first), own.max);
        let small = look::letters(size::LEAST, baywright_drawing::Weight::Regular);
        put(ui, below, &aiming, small, soft, (Align2::LEFT_TOP, 2));
        line_below(ui, row, soft.gamma_multiply(0.4));
    }

    fn fits_cell(
        &self,
        ui: &Ui,
        page: &FitsPage,
        found: &Planned,
        at: (usize, usize),
        rect: Rect,
    ) -> Response {
        let texts = self.view.locale.language.fits();
        let palette = self.view.theme.palette();
        let response =
            ui.interact(rect, egui::Id::unique("cell of what fits where").with(at), Sense::click());
        let cell = found.cell(at.0, at.1);
        let row = found.rows.get(at.0).and_then(Option::as_ref);
        let is_never = found.never(at.0, at.1).is_some();
        let told = cell.map(|own| self.sign_of(own, is_never));
        let word =
            if row.is_none() && !found.is_partial { texts.waiting } else { texts.word(found, at.0, at.1) };
        let own = rect.shrink(2.0);
        let is_chosen = page.chosen == Some(at);
        let beam = look::colour(palette.beam);
        if is_chosen {
            let edge = Stroke::new(2.0, beam);
            ui.painter().rect(
                own,
                CornerRadius::same(4),
                look::colour(palette.paper),
                edge,
                StrokeKind::Inside,
            );
        } else if response.hovered() {
            ui.painter().rect_filled(own, 4.0, look::colour(palette.beam.faded(0.1)));
        }
        if response.has_focus() {
            ui.painter().rect_stroke(own, 4.0, Stroke::new(2.0, beam), StrokeKind::Outside);
        }
        let top = Pos2::new(rect.center().x, rect.top() + 15.0);
        if let Some(told) = &told {
            widgets::paint_sign(ui.painter(), top, told.kind, SIGN_PX, told.mark, told.colours);
        }
        let small = look::letters(size::LEAST, baywright_drawing::Weight::Regular);
        let below = Rect::from_min_max(Pos2::new(rect.left() + 2.0, top.y + 9.0), rect.max);
        put(ui, below, word, small, look::colour(palette.ink), (Align2::CENTER_TOP, 1));
        let line = found.lines.get(at.0).map_or_else(String::new, |own| {
            Words::new(&own.arrangement, self.view.locale).plan_line(own.is_saved)
        });
        let place = found.places.get(at.1).map_or_else(String::new, |own| self.words().fits_place(own));
        response.widget_info(|| {
            WidgetInfo::selected(Role::Button, true, is_chosen, texts.cell(&line, &place, word))
        });
        response
    }

    /// Below each column how many of the list can be aimed there as it is.
    fn fits_foot(&self, ui: &mut Ui, found: &Planned, (clip, name_px, size): (Rect, f32, Vec2)) {
        let texts = self.view.locale.language.fits();
        let palette = self.view.theme.palette();
        let ink = look::colour(palette.ink);
        let (foot, _) = ui.allocate_exact_size(size, Sense::hover());
        let is_weighted = found.is_weighted();
        let small = look::letters(self::size::LEAST, baywright_drawing::Weight::Regular);
        let number = |value: f64| self.region().number(value, usize::from(value.fract().abs() > 1e-9));
        for nth in 0..found.places.len() {
            let there = found.fit_there(nth);
            let at = Rect::from_min_size(cell_corner(foot, name_px, nth), Vec2::new(CELL.x, size.y));
            let text = texts.of_all(&there.lines.to_string(), &there.of.to_string());
            let centre = at.shrink2(Vec2::new(2.0, 4.0));
            let below = put(ui, centre, &text, look::bold(self::size::BODY), ink, (Align2::CENTER_TOP, 1));
            if is_weighted {
                let text = texts.of_all(&number(there.a_month), &number(there.of_a_month));
                let rest = Rect::from_min_max(Pos2::new(centre.left(), centre.top() + below), centre.max);
                put(ui, rest, &text, small.clone(), ink, (Align2::CENTER_TOP, 1));
            }
        }
        let name = name_rect(foot, clip, name_px);
        ui.painter().rect_filled(name, 0.0, look::colour(palette.sheet));
        let own = name.shrink2(Vec2::new(4.0, 4.0));
        let below = put(ui, own, texts.fit_here, look::bold(self::size::BODY), ink, (Align2::LEFT_TOP, 1));
        if is_weighted {
            let rest = Rect::from_min_max(Pos2::new(own.left(), own.top() + below), own.max);
            put(ui, rest, texts.a_month, small, ink, (Align2::LEFT_TOP, 1));
        }
    }

    /// The sign of a cell, of which it may be proven that it never fits.
    fn sign_of(&self, cell: &Cell, is_never: bool) -> Told {
        let palette = self.view.theme.palette();
        let of = |verdict| widgets::verdict(palette, verdict);
        let note = (look::colour(palette.soft), look::colour(palette.on_sign));
        // A place where nobody parks so exactly does not count: no sign of one that does.
        let tight = (look::colour(palette.care), look::colour(palette.on_sign));
        // Not there as it is, be there a way or not: the word says which.
        let not = of(Verdict::NotReady);
        let (kind, mark, colours) = match cell {
            Cell::Fits(own) if !own.meets_margin => (SignKind::Ring, "\u{b1}", tight),
            Cell::Fits(own) => {
                let kind = SignKind::of_verdict(own.verdict);
                (kind, if kind == SignKind::Tick { "" } else { "!" }, of(own.verdict))
            }
            Cell::AfterMoves { .. } => (SignKind::Octagon, "\u{2192}", not),
            Cell::Elsewhere(_) => (SignKind::Octagon, "", not),
            Cell::NoneFound(_) if is_never => (SignKind::Octagon, "\u{d7}", not),
            Cell::NoneFound(own) if own.is_partial => (SignKind::Ring, "?", note),
            Cell::NoneFound(_) => (SignKind::Octagon, "!", not),
        };
        Told { kind, mark, colours }
    }
}

/// A line's car, and its aiming with the set-up that it is.
fn names(line: &Line) -> (String, String) {
    let own = &line.arrangement;
    let aiming = if line.is_saved {
        format!("{} \u{b7} {}", own.aiming.name, own.id)
    } else {
        own.aiming.name.to_string()
    };
    (own.vehicle.name.to_string(), aiming)
}

/// The upper left corner of a cell of a row.
fn cell_corner(row: Rect, name_px: f32, nth: usize) -> Pos2 {
    row.min + Vec2::new(name_px + CELL.x * nth as f32, 0.0)
}

/// Where the name of a row stands: at its left, and in sight however far it is scrolled.
fn name_rect(row: Rect, clip: Rect, name_px: f32) -> Rect {
    let left = row.left().max(clip.left());
    Rect::from_min_size(Pos2::new(left, row.top()), Vec2::new(name_px, row.height()))
}

fn line_below(ui: &Ui, row: Rect, colour: Color32) {
    ui.painter().hline(row.x_range(), row.bottom(), Stroke::new(1.0, colour));
}

/// A text in a box, on so many lines at most; its height.
fn put(ui: &Ui, rect: Rect, text: &str, font: FontId, ink: Color32, (align, lines): (Align2, usize)) -> f32 {
    let mut job = LayoutJob::simple(widgets::unbroken(text), font, ink, rect.width());
    job.wrap = TextWrapping { max_width: rect.width(), max_rows: lines, ..TextWrapping::default() };
    job.halign = align.x();
    let galley = ui.painter().layout_job(job);
    let size = galley.size();
    let at = Pos2::new(
        match align.x() {
            egui::Align::Min => rect.left(),
            egui::Align::Center => rect.center().x,
            egui::Align::Max => rect.right(),
        },
        match align.y() {
            egui::Align::Max => rect.bottom() - size.y,
            _ => rect.top(),
        },
    );
    ui.painter().galley(at, galley, ink);
    size.y
}
