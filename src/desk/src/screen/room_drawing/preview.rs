//! What comes of a drawing, to scale, with its names, its key and a bar of a known length.

use std::sync::Arc;

use baywright_drawing::scale_bar;
use baywright_planner::geometry::DVec2;
use baywright_planner::model::Effort;
use egui::{
    Align2, Color32, Galley, Label, Painter, Pos2, Rect, RichText, Sense, Stroke, StrokeKind, Ui, Vec2,
    WidgetInfo,
};

use super::choices::becomes;
use super::{DrawingPage, TakenAs};
use crate::screen::look::{self, size};
use crate::screen::{Desk, widgets};
use crate::session::drawn_in::Becomes;
use crate::session::drawn_in::picture::{Lies, Sized};

/// Under the picture: a row of the key, what is drawn before each of its words, and the room of the bar, px.
const ROW_PX: f32 = 22.0;
const SWATCH_PX: f32 = 26.0;
const AFTER_BAR_PX: f32 = 230.0;
/// The bar is at most so long, px.
const BAR_PX: f64 = 140.0;
/// A name stands so far off its wall, px.
const OFF_PX: f32 = 11.0;
/// Of more walls and things none is named.
const MOST_NAMED: usize = 300;

impl Desk {
    pub(super) fn drawing_preview(&self, ui: &mut Ui, page: &mut DrawingPage) {
        let texts = self.view.locale.language.room_drawing();
        self.drawing_said(ui, page);
        let all = ui.available_rect_before_wrap();
        let (entries, rows) = in_rows(ui, self.entries_of_key(page), all.width());
        let (seen, key) = all.split_top_bottom_at_y(all.bottom() - ROW_PX * rows - 6.0);
        let dots = ui.ctx().pixels_per_point();
        let most = ui.input(|i| i.max_texture_side) as f32;
        // No texture is larger; the picture is then a little coarser than the screen.
        let dots = dots.min(most / seen.width().max(seen.height()).max(1.0));
        let size = [seen.width(), seen.height()].map(|own| (own * dots).clamp(1.0, most) as u32);
        let sized = Some(Sized { size, dots, theme: self.view.theme });
        if page.drawing.is_some() && page.sized != sized {
            page.sized = sized;
            ui.ctx().request_repaint();
        }
        let response = ui.allocate_rect(seen, Sense::hover());
        let Some((texture, lies)) = &page.seen else {
            self.being_made(ui, page, seen);
            return;
        };
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
        self.key_of_drawing(ui, key, &entries, lies, dots);
        self.being_made(ui, page, seen);
    }

    /// What was said, what came of it, or what is wrong. It stays while that is worked out anew: the picture is as large as it leaves
    /// room, and a sentence that came and went with the work would have it worked out for another size again and again.
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
        } else if let Some(fault) = &page.fault {
            say(ui, fault, true);
        } else if page.drawing.is_none() {
            say(ui, texts.none_read, false);
        } else if let Some(made) = &page.made {
            let things = made.bay.things.len() - made.drawn_from.min(made.bay.things.len());
            say(ui, &self.view.locale.language.imports().made(made.bay.walls.len(), things), false);
        } else {
            // A line is kept for it, so that the picture does not move under the hand.
            say(ui, " ", false);
        }
    }

    /// That it is worked out or written, over a corner of the picture: it takes no room.
    fn being_made(&self, ui: &mut Ui, page: &DrawingPage, seen: Rect) {
        if page.working.is_running() || page.writing.is_running() {
            let corner =
                Rect::from_min_size(seen.min + Vec2::splat(8.0), Vec2::new(seen.width() - 16.0, ROW_PX));
            let text = self.view.locale.language.room_drawing().being_made;
            ui.put(corner, Label::new(widgets::soft(ui, text)).halign(egui::Align::Min));
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
        let ground = look::colour(palette.sheet.faded(0.8));
        // At the first of these places that is free and within the picture.
        let mut write = |places: &[(Pos2, Align2)], text: &str, colour: Color32, most: f32| {
            let font = look::letters(size::LEAST, baywright_drawing::Weight::Regular);
            let galley = on.layout_no_wrap(text.to_owned(), font, colour);
            if galley.size().x > most {
                return;
            }
            let own =
                places.iter().map(|(place, anchor)| anchor.anchor_size(*place, galley.size())).find(|own| {
                    on.clip_rect().contains_rect(*own) && taken.iter().all(|other| !other.intersects(*own))
                });
            if let Some(own) = own {
                taken.push(own);
                on.rect_filled(own.expand(1.0), 2.0, ground);
                on.galley(own.min, galley, colour);
            }
        };
        for (wall, number) in made.bay.walls.iter().zip(0..) {
            let Some((from, to)) = made.bay.wall_ends(number) else { continue };
            let (from, to) = (at(from), at(to));
            let way = (to - from).normalized();
            // The room lies on the left of its walls; on the screen y points down.
            let out = Vec2::new(-way.y, way.x);
            let anchor = |out: Vec2| match out.x {
                x if x.abs() < 0.3 => Align2::CENTER_CENTER,
                x if x > 0.0 => Align2::LEFT_CENTER,
                _ => Align2::RIGHT_CENTER,
            };
            let middle = from + (to - from) * 0.5;
            let places = [out, -out].map(|own| (middle + own * OFF_PX, anchor(own)));
            let colour = if page.wall == Some(number) { look::colour(palette.beam) } else { soft };
            write(&places, wall.id.as_str(), colour, f32::INFINITY);
        }
        for (thing, number) in made.bay.things.iter().zip(0..) {
            if number >= made.drawn_from && thing.effort == Effort::Fixed {
                continue;
            }
            let bounds = thing.footprint.outline().bounds_from(&thing.place.at);
            let width = at(bounds.high).x - at(bounds.low).x;
            write(&[(at(bounds.centre()), Align2::CENTER_CENTER)], thing.id.as_str(), ink, width);
        }
    }

    /// What lines and grounds mean, each with how it is drawn: what there is of it in the picture.
    fn entries_of_key(&self, page: &DrawingPage) -> Vec<(Swatch, &'static str)> {
        let texts = self.view.locale.language.room_drawing();
        let palette = self.view.theme.palette();
        let (ink, soft) = (look::colour(palette.ink), look::colour(palette.soft));
        let Some(made) = page.made.as_ref().filter(|_| page.taken_as != TakenAs::UnderPlan) else {
            return Vec::new();
        };
        let light = look::colour(palette.soft.faded(0.35));
        let mut all = vec![
            (Swatch::Line(Stroke::new(3.0, ink)), becomes(Becomes::Room, texts)),
            (Swatch::Box(ink, Stroke::NONE), becomes(Becomes::Walls, texts)),
            (Swatch::Box(light, Stroke::new(1.2, ink)), becomes(Becomes::Things, texts)),
        ];
        if made.drawn_from > 0 {
            let edge = Stroke::new(1.2, look::colour(palette.beam));
            all.push((Swatch::Box(Color32::TRANSPARENT, edge), texts.stays));
        }
        all.push((Swatch::Line(Stroke::new(1.0, soft)), becomes(Becomes::LeftOut, texts)));
        if !made.closed.is_empty() {
            all.push((Swatch::Ring(Stroke::new(2.0, look::colour(palette.stops))), texts.closed));
        }
        all
    }

    /// The key, and the bar before it.
    fn key_of_drawing(&self, ui: &Ui, rect: Rect, entries: &[Entry], lies: &Lies, dots: f32) {
        let ink = look::colour(self.view.theme.palette().ink);
        let on = ui.painter();
        let bar = scale_bar(lies.px_per_mm / f64::from(dots), BAR_PX, self.view.locale.units);
        let middle = rect.top() + ROW_PX * 0.7;
        let (from, to) = (rect.left() + 2.0, rect.left() + 2.0 + bar.px as f32);
        on.hline(from..=to, middle, Stroke::new(1.5, ink));
        for x in [from, to] {
            on.vline(x, middle - 4.0..=middle + 4.0, Stroke::new(1.5, ink));
        }
        let font = look::letters(size::LEAST, baywright_drawing::Weight::Regular);
        let length = self.view.locale.length(bar.mm);
        on.text(Pos2::new(to + 6.0, middle), Align2::LEFT_CENTER, length, font, ink);
        for own in entries {
            let at = rect.min + own.at;
            let swatch = Rect::from_center_size(at + Vec2::new(10.0, 0.0), Vec2::new(20.0, 11.0));
            match own.swatch {
                Swatch::Line(stroke) => {
                    on.line_segment([swatch.left_center(), swatch.right_center()], stroke);
                }
                Swatch::Box(fill, edge) => {
                    on.rect(swatch, 0.0, fill, edge, StrokeKind::Inside);
                }
                Swatch::Ring(stroke) => {
                    on.circle_stroke(swatch.center(), 5.0, stroke);
                }
            }
            let text = at + Vec2::new(SWATCH_PX, -own.galley.size().y * 0.5);
            on.galley(text, Arc::clone(&own.galley), ink);
        }
    }
}

/// How something is drawn, in the key.
#[derive(Clone, Copy)]
enum Swatch {
    Line(Stroke),
    Box(Color32, Stroke),
    Ring(Stroke),
}

/// Something in the key, and where it stands from its upper left corner.
struct Entry {
    swatch: Swatch,
    galley: Arc<Galley>,
    at: Vec2,
}

/// The entries in rows of so much width, after the bar in the first; and how many rows there are.
fn in_rows(ui: &Ui, entries: Vec<(Swatch, &'static str)>, width: f32) -> (Vec<Entry>, f32) {
    let font = look::letters(size::LEAST, baywright_drawing::Weight::Regular);
    let ink = ui.visuals().text_color();
    let (mut x, mut rows) = (AFTER_BAR_PX, 1.0);
    let mut out = Vec::with_capacity(entries.len());
    for (swatch, text) in entries {
        let galley = ui.painter().layout_no_wrap(text.to_owned(), font.clone(), ink);
        let wide = SWATCH_PX + galley.size().x;
        if x + wide > width && x > 2.0 {
            (x, rows) = (2.0, rows + 1.0);
        }
        out.push(Entry { swatch, galley, at: Vec2::new(x, ROW_PX * (rows - 0.3)) });
        x += wide + 16.0;
    }
    (out, rows)
}
