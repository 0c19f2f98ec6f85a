//! What comes of a drawing, to scale, with its names, its key and a bar of a known length.

use baywright_drawing::scale_bar;
use baywright_planner::geometry::DVec2;
use baywright_planner::model::Effort;
use egui::{
    Align2, Color32, Label, Painter, Pos2, Rect, RichText, Sense, Stroke, StrokeKind, Ui, Vec2, WidgetInfo,
};

use super::choices::becomes;
use super::{DrawingPage, TakenAs};
use crate::screen::look::{self, size};
use crate::screen::{Desk, widgets};
use crate::session::drawn_in::Becomes;
use crate::session::drawn_in::picture::{Lies, Sized};

/// Under the picture, for the key and the bar, px.
const KEY_PX: f32 = 30.0;
/// The bar is at most so long, px.
const BAR_PX: f64 = 140.0;
/// A name stands so far off its wall, px.
const OFF_PX: f32 = 11.0;
/// No texture is larger, dots.
const MOST_DOTS: f32 = 4_096.0;
/// Of more walls and things none is named.
const MOST_NAMED: usize = 300;

impl Desk {
    pub(super) fn drawing_preview(&self, ui: &mut Ui, page: &mut DrawingPage) {
        let texts = self.view.locale.language.room_drawing();
        self.drawing_said(ui, page);
        let all = ui.available_rect_before_wrap();
        let (seen, key) = all.split_top_bottom_at_y(all.bottom() - KEY_PX);
        let dots = ui.ctx().pixels_per_point();
        let size = [seen.width(), seen.height()].map(|own| (own * dots).clamp(1.0, MOST_DOTS) as u32);
        let sized = Some(Sized { size, dots, theme: self.view.theme });
        if page.drawing.is_some() && page.sized != sized {
            page.sized = sized;
            ui.ctx().request_repaint();
        }
        let response = ui.allocate_rect(seen, Sense::hover());
        let Some((texture, lies)) = &page.seen else { return };
        let things = page
            .made
            .as_ref()
            .map_or(0, |own| own.bay.things.len() - own.drawn_from.min(own.bay.things.len()));
        let walls = page.made.as_ref().map_or(0, |own| own.bay.walls.len());
        let made = self.view.locale.language.imports().made(walls, things);
        let name = self.texts().of(texts.preview, &made);
        response.widget_info(|| WidgetInfo::labeled(egui::Role::Image, true, &name));
        let whole = Rect::from_min_max(Pos2::ZERO, Pos2::new(1.0, 1.0));
        let on = ui.painter().with_clip_rect(seen);
        on.image(texture.id(), seen, whole, Color32::WHITE);
        let edge = Stroke::new(1.0, ui.visuals().weak_text_color());
        ui.painter().rect_stroke(seen, 0.0, edge, StrokeKind::Outside);
        // The picture may be of a window that was larger before.
        let on_screen = |at: DVec2| {
            let px = lies.px(at) * f64::from(1.0 / dots);
            seen.min + Vec2::new(px.x as f32, px.y as f32)
        };
        self.names_of_drawing(&on, page, on_screen);
        self.key_of_drawing(ui, key, page, lies, dots);
    }

    /// What is being done, what was said, and what is wrong.
    fn drawing_said(&self, ui: &mut Ui, page: &DrawingPage) {
        let texts = self.view.locale.language.room_drawing();
        let say = |ui: &mut Ui, text: &str, wrong: bool| {
            let colour = if wrong { ui.visuals().error_fg_color } else { ui.visuals().text_color() };
            let said = RichText::new(widgets::unbroken(text)).size(size::SMALL).color(colour);
            ui.add(Label::new(said).wrap());
        };
        if let Some(notice) = &self.view.notice {
            say(ui, &notice.text, notice.wrong);
        }
        if page.reading.is_running() {
            say(ui, texts.being_read, false);
        } else if let Some(fault) = page.fault.as_ref().filter(|_| !page.working.is_running()) {
            say(ui, fault, true);
        } else if page.drawing.is_none() {
            say(ui, texts.none_read, false);
        } else if page.working.is_running() || page.writing.is_running() {
            say(ui, texts.being_made, false);
        } else if let Some(made) = &page.made {
            let things = made.bay.things.len() - made.drawn_from.min(made.bay.things.len());
            say(ui, &self.view.locale.language.imports().made(made.bay.walls.len(), things), false);
        } else {
            // A line is kept for it, so that the picture does not move under the hand.
            say(ui, " ", false);
        }
    }

    /// Walls by name, outside of the room; things by name where there is room in them; the wall whose length is known, heavy.
    fn names_of_drawing(&self, on: &Painter, page: &DrawingPage, at: impl Fn(DVec2) -> Pos2) {
        let Some(made) = &page.made else { return };
        let palette = self.view.theme.palette();
        let (ink, soft) = (look::colour(palette.ink), look::colour(palette.soft));
        if let Some((from, to)) = page.wall.and_then(|own| made.bay.wall_ends(own)) {
            on.line_segment([at(from), at(to)], Stroke::new(5.0, look::colour(palette.beam)));
        }
        if made.bay.walls.len() + made.bay.things.len() > MOST_NAMED {
            return;
        }
        let mut taken: Vec<Rect> = Vec::new();
        let mut write = |place: Pos2, text: &str, colour: Color32, most: f32, anchor: Align2| {
            let font = look::letters(size::LEAST, baywright_drawing::Weight::Regular);
            let galley = on.layout_no_wrap(text.to_owned(), font, colour);
            let own = anchor.anchor_size(place, galley.size());
            if galley.size().x <= most && taken.iter().all(|other| !other.intersects(own)) {
                taken.push(own);
                on.galley(own.min, galley, colour);
            }
        };
        for (wall, number) in made.bay.walls.iter().zip(0..) {
            let Some((from, to)) = made.bay.wall_ends(number) else { continue };
            let (from, to) = (at(from), at(to));
            let way = (to - from).normalized();
            // The room lies on the left of its walls; on the screen y points down.
            let out = Vec2::new(-way.y, way.x);
            let anchor = if out.x.abs() < 0.3 {
                Align2::CENTER_CENTER
            } else if out.x > 0.0 {
                Align2::LEFT_CENTER
            } else {
                Align2::RIGHT_CENTER
            };
            let colour = if page.wall == Some(number) { look::colour(palette.beam) } else { soft };
            write(from + (to - from) * 0.5 + out * OFF_PX, wall.id.as_str(), colour, f32::INFINITY, anchor);
        }
        for (thing, number) in made.bay.things.iter().zip(0..) {
            if number >= made.drawn_from && thing.effort == Effort::Fixed {
                continue;
            }
            let bounds = thing.footprint.outline().bounds_from(&thing.place.at);
            let width = at(bounds.high).x - at(bounds.low).x;
            write(at(bounds.centre()), thing.id.as_str(), ink, width, Align2::CENTER_CENTER);
        }
    }

    /// What lines and grounds mean, and the bar.
    fn key_of_drawing(&self, ui: &Ui, rect: Rect, page: &DrawingPage, lies: &Lies, dots: f32) {
        let texts = self.view.locale.language.room_drawing();
        let palette = self.view.theme.palette();
        let (ink, soft) = (look::colour(palette.ink), look::colour(palette.soft));
        let on = ui.painter();
        let font = look::letters(size::LEAST, baywright_drawing::Weight::Regular);
        let bar = scale_bar(lies.px_per_mm / f64::from(dots), BAR_PX, self.view.locale.units);
        let middle = rect.bottom() - KEY_PX * 0.4;
        let (from, to) = (rect.left() + 2.0, rect.left() + 2.0 + bar.px as f32);
        on.hline(from..=to, middle, Stroke::new(1.5, ink));
        for x in [from, to] {
            on.vline(x, middle - 4.0..=middle + 4.0, Stroke::new(1.5, ink));
        }
        let said = on.text(
            Pos2::new(to + 6.0, middle),
            Align2::LEFT_CENTER,
            self.view.locale.length(bar.mm),
            font.clone(),
            ink,
        );
        let Some(made) = page.made.as_ref().filter(|_| page.taken_as != TakenAs::UnderPlan) else { return };
        let mut x = said.right() + 24.0;
        let mut entry = |paint: &dyn Fn(Rect), text: &str| {
            let galley = on.layout_no_wrap(text.to_owned(), font.clone(), ink);
            if x + 26.0 + galley.size().x > rect.right() {
                return;
            }
            paint(Rect::from_center_size(Pos2::new(x + 10.0, middle), Vec2::new(20.0, 11.0)));
            on.galley(Pos2::new(x + 26.0, middle - galley.size().y * 0.5), galley.clone(), ink);
            x += 26.0 + galley.size().x + 16.0;
        };
        let line = |own: Rect, stroke: Stroke| {
            on.line_segment([own.left_center(), own.right_center()], stroke);
        };
        let framed = |own: Rect, stroke: Stroke| {
            on.rect_stroke(own, 0.0, stroke, StrokeKind::Inside);
        };
        let filled = |own: Rect, colour: Color32| {
            on.rect_filled(own, 0.0, colour);
        };
        let light = look::colour(palette.soft.faded(0.35));
        entry(&|own| line(own, Stroke::new(3.0, ink)), becomes(Becomes::Room, texts));
        entry(&|own| filled(own, ink), becomes(Becomes::Walls, texts));
        let thing = |own: Rect| {
            filled(own, light);
            framed(own, Stroke::new(1.2, ink));
        };
        entry(&thing, becomes(Becomes::Things, texts));
        if made.drawn_from > 0 {
            let beam = look::colour(palette.beam);
            entry(&|own| framed(own, Stroke::new(1.2, beam)), texts.stays);
        }
        entry(&|own| line(own, Stroke::new(1.0, soft)), becomes(Becomes::LeftOut, texts));
        if !made.closed.is_empty() {
            let stops = look::colour(palette.stops);
            let ring = |own: Rect| {
                on.circle_stroke(own.center(), 5.0, Stroke::new(2.0, stops));
            };
            entry(&ring, texts.closed);
        }
    }
}
