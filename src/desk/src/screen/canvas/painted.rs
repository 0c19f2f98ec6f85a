//! What a drawing looked like in the frame before, item by item: lines and areas become triangles again only where an item is
//! another one, or is seen otherwise. Most of a drawing is what it was, also while something is in hand.
//!
//! Letters are not kept: where they lie in the picture of all letters may change at any time.

use std::sync::Arc;

use baywright_drawing::list::{Item, Placing};
use baywright_drawing::{Drawing, Role, Theme};
use baywright_planner::geometry::Bounds;
use egui::epaint::{Mesh, Tessellator};
use egui::{Pos2, Shape};

use super::paint::Painter;

/// So many items of the frame before are looked through for one: as many as ever come or go in one place.
const LOOK_AHEAD: usize = 48;

/// A drawing as it was painted last.
#[derive(Debug, Default)]
pub(in crate::screen) struct Painted {
    last: Option<Last>,
}

#[derive(Debug)]
struct Last {
    drawing: Arc<Drawing>,
    seen: Seen,
    /// What each of its items looks like, without letters.
    looks: Vec<Arc<[Shape]>>,
}

/// What beside the items decides how they look.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Seen {
    theme: Theme,
    origin: Pos2,
    window: Bounds,
    placing: Placing,
    pixels_per_point: f32,
}

impl Painted {
    /// Paints everything of a drawing in its order, with a picture over the floor and under everything that stands on it.
    pub fn paint(&mut self, painter: &mut Painter<'_>, drawing: &Arc<Drawing>, picture: Option<Mesh>) {
        let seen = Seen {
            theme: painter.theme,
            origin: painter.origin,
            window: painter.window,
            placing: drawing.placing(),
            pixels_per_point: painter.ctx.pixels_per_point(),
        };
        let last = self.last.take().filter(|last| last.seen == seen);
        let looks = match last {
            Some(last) if Arc::ptr_eq(&last.drawing, drawing) => last.looks,
            last => looks(painter, drawing, last.as_ref()),
        };
        let is_ground = |item: &&Item| item.role.layer() <= Role::Grid.layer();
        let ground = drawing.items.iter().take_while(is_ground).count();
        let mut picture = picture;
        for (i, (item, look)) in drawing.items.iter().zip(&looks).enumerate() {
            if i == ground {
                painter.out.extend(picture.take().map(Shape::mesh));
            }
            painter.out.extend(look.iter().cloned());
            painter.letters(drawing, item);
        }
        painter.out.extend(picture.map(Shape::mesh));
        self.last = Some(Last { drawing: Arc::clone(drawing), seen, looks });
    }
}

/// What each item looks like, taken from the frame before where it is the same.
fn looks(painter: &mut Painter<'_>, drawing: &Drawing, last: Option<&Last>) -> Vec<Arc<[Shape]>> {
    let known = last.map(|last| (last.drawing.items.as_slice(), last.looks.as_slice()));
    let (items, known) = known.unwrap_or_default();
    let mut next = 0;
    let mut triangles = None;
    let look = |item: &Item| {
        let ahead = items.iter().zip(known).skip(next).take(LOOK_AHEAD);
        let same = ahead.enumerate().find(|(_, (own, _))| own.role == item.role && own.shape == item.shape);
        if let Some((at, (_, look))) = same {
            next += at + 1;
            return Arc::clone(look);
        }
        let before = painter.out.len();
        painter.strokes(drawing, item);
        let shapes = painter.out.split_off(before);
        as_triangles(triangles.get_or_insert_with(|| tessellator(painter.ctx)), shapes)
    };
    drawing.items.iter().map(look).collect()
}

/// As the window's own would be, but for discs and letters, which are left to that.
fn tessellator(ctx: &egui::Context) -> Tessellator {
    let options = ctx.options(|options| options.tessellation_options);
    Tessellator::new(ctx.pixels_per_point(), options, [1, 1], Vec::new())
}

/// Shapes in one piece, as far as they are next to each other.
fn as_triangles(triangles: &mut Tessellator, shapes: Vec<Shape>) -> Arc<[Shape]> {
    let mut out: Vec<Shape> = Vec::new();
    let mut mesh = Mesh::default();
    for shape in shapes {
        match shape {
            // The window has discs ready in its picture of letters.
            Shape::Circle(_) => {
                let done = std::mem::take(&mut mesh);
                out.extend((!done.is_empty()).then(|| Shape::mesh(done)));
                out.push(shape);
            }
            shape => triangles.tessellate_shape(shape, &mut mesh),
        }
    }
    out.extend((!mesh.is_empty()).then(|| Shape::mesh(mesh)));
    out.into()
}

#[cfg(test)]
mod tests {
    use std::path::Path;

    use baywright_drawing::{Fit, Lettering, ViewState, top_view};
    use baywright_files::Library;
    use baywright_planner::assess;
    use baywright_planner::geometry::{DVec2, PlanPose};

    use super::super::cache::Fills;
    use super::*;
    use crate::screen::Desk;
    use crate::session::document::Document;

    /// The crowded bay with its second thing so far ahead of where it stands.
    fn drawn(by_mm: f64) -> Arc<Drawing> {
        let mut layout = baywright_files::open(Path::new("crowded-bay"), None).unwrap().layout;
        let place = &mut layout.bay.things[1].place.at;
        *place = PlanPose::new(place.origin() + DVec2::new(by_mm, 0.0), place.heading());
        let document = Document::of(layout, None, None, &Library::built_in(), None).unwrap();
        let arrangement = document.arrangement().unwrap();
        let fit =
            Fit::Window { size: DVec2::new(700.0, 400.0), px_per_mm: 0.07, middle: DVec2::new(3_000.0, 0.0) };
        let (state, lettering) = (ViewState::default(), Lettering::default());
        Arc::new(top_view(&arrangement, &assess(&arrangement), &state, fit, &lettering))
    }

    fn shapes(
        ctx: &egui::Context,
        painted: &mut Painted,
        drawing: &Arc<Drawing>,
        theme: Theme,
    ) -> Vec<Shape> {
        let mut fills = Fills::default();
        let mut painter = Painter::of_all(drawing, (ctx, theme), Pos2::new(20.0, 30.0), &mut fills);
        painted.paint(&mut painter, drawing, None);
        painter.out
    }

    /// Whatever was painted before, what comes is as it would be afresh; and what is the same is not made again.
    #[test]
    fn what_is_kept_is_as_it_would_be_afresh() {
        let ctx = egui::Context::default();
        Desk::install(&ctx);
        let mut output = ctx.run_ui(egui::RawInput::default(), |ui| {
            let ctx = ui.ctx();
            let mut painted = Painted::default();
            let drawings = [drawn(0.0), drawn(150.0), drawn(150.0), drawn(-40.0)];
            for (theme, drawing) in
                drawings.iter().map(|own| (Theme::Light, own)).chain([(Theme::Dark, &drawings[3])])
            {
                let kept = painted.last.as_ref().map_or_else(Vec::new, |last| last.looks.clone());
                let seen = shapes(ctx, &mut painted, drawing, theme);
                assert!(seen == shapes(ctx, &mut Painted::default(), drawing, theme));
                let looks = &painted.last.as_ref().unwrap().looks;
                let is_kept = |look: &&Arc<[Shape]>| kept.iter().any(|own| Arc::ptr_eq(own, look));
                let count = looks.iter().filter(is_kept).count();
                let most = looks.len() * 3 / 4;
                assert_eq!(
                    count > most,
                    !kept.is_empty() && theme == Theme::Light,
                    "{count} of {}",
                    looks.len()
                );
            }
        });
        // No graphics card here takes the letters.
        output.textures_delta.clear();
    }
}
