//! The drawing as a picture on the clipboard: both views as they are drawn, whole, without what lies around and over them on
//! the screen.

use baywright_drawing::{Fit, Lettering, Projection, Turned, ViewState, side_view, top_view};
use egui::epaint::{ClippedShape, ColorImage};
use egui::{ClippedPrimitive, Context, Rect, Shape, TextureId, Vec2};

use super::canvas::{Fills, Painter};
use super::look;
use super::raster::{Texture, paint};
use super::{Desk, waking};
use crate::session::job::News;

/// The picture's width, points, and the most height of each of its views.
const WIDTH: f64 = 1_600.0;
const MOST_HEIGHT: f64 = 1_100.0;

impl Desk {
    /// Puts the drawing on the clipboard as soon as its picture is made, which takes longer than a frame.
    pub(super) fn copy_picture(&mut self, ctx: &Context) {
        let picture = self.picture(ctx);
        self.copying.start("picture for the clipboard", 1, &waking(ctx), move |_| picture.painted());
        self.say(self.texts().picture_being_made);
    }

    /// Whether it is made by now.
    pub(super) fn hear_copied(&mut self, ctx: &Context) {
        match self.copying.news().pop() {
            Some(News::Done(picture) | News::SoFar(picture)) => {
                ctx.copy_image(picture);
                self.say(self.texts().picture_copied);
            }
            Some(News::Failed(words)) => self.say_wrong(self.texts().failed_beside(&words)),
            None => {}
        }
    }

    /// The drawing as triangles, in as many px for each point as the screen has.
    fn picture(&self, ctx: &Context) -> Triangles {
        let turned = if self.view.to_room { Turned::ToRoom } else { Turned::ToCar };
        let state = ViewState {
            turned,
            along: self.view.along,
            contours: self.view.contours,
            places: self.view.places.clone(),
            staying: self.view.staying.clone(),
            way_in: self.view.way_in.clone(),
            echo: self.view.echo.clone(),
            other_moves: !self.view.to_do.is_empty(),
            ..ViewState::default()
        };
        let lettering = Lettering { locale: self.view.locale, ..Lettering::default() };
        let fit = Fit::Whole { width: WIDTH, most_height: MOST_HEIGHT };
        let (arrangement, assessment) = (&*self.answer.judged, &*self.answer.assessment);
        let views = [Projection::Top, Projection::Side].map(|side| match side {
            Projection::Top => top_view(arrangement, assessment, &state, fit, &lettering),
            Projection::Side => side_view(arrangement, assessment, &state, fit, &lettering),
        });
        let size = views.iter().fold(Vec2::ZERO, |all, view| {
            Vec2::new(all.x.max(view.size.x as f32), all.y + view.size.y as f32)
        });
        let whole = Rect::from_min_size(egui::Pos2::ZERO, size);
        let paper = look::colour(self.view.theme.palette().paper);
        let clipped = |clip_rect: Rect, shape: Shape| ClippedShape {
            clip_rect,
            shape,
            transform_after_tessellation: Default::default(),
        };
        let mut shapes = vec![clipped(whole, Shape::rect_filled(whole, 0.0, paper))];
        let mut fills = Fills::default();
        let mut top = 0.0;
        for view in &views {
            let own =
                Rect::from_min_size(egui::pos2(0.0, top), Vec2::new(view.size.x as f32, view.size.y as f32));
            let mut painter = Painter::of_all(view, (ctx, self.view.theme), own.min, &mut fills);
            painter.drawing(view);
            shapes.extend(std::mem::take(&mut painter.out).into_iter().map(|shape| clipped(own, shape)));
            top = own.max.y;
        }
        let scale = ctx.pixels_per_point();
        let primitives = ctx.tessellate(shapes, scale);
        let letters = Texture::of(&ctx.fonts(|fonts| fonts.image()));
        let px = [size.x, size.y].map(|own| (own * scale).round().max(1.0) as usize);
        Triangles { px, scale, primitives, letters }
    }
}

/// A drawing that is still to be painted.
struct Triangles {
    px: [usize; 2],
    scale: f32,
    primitives: Vec<ClippedPrimitive>,
    letters: Texture,
}

impl Triangles {
    fn painted(&self) -> ColorImage {
        let letters = |id| (id == TextureId::default()).then_some(&self.letters);
        let texels = paint(self.px, self.scale, &self.primitives, letters);
        ColorImage::from_rgba_premultiplied(self.px, &texels.concat())
    }
}
