//! Pictures of the screen without any graphics library: the screen's triangles, filled on the processor, the same on
//! every machine.

use std::collections::BTreeMap;

use baywright_desk::screen::raster::{Texture, paint};
use egui::epaint::ImageData;
use egui::{TextureId, TexturesDelta};
use image::RgbaImage;

/// Fills triangles.
#[derive(Default)]
pub struct Rasteriser {
    textures: BTreeMap<String, Texture>,
}

/// Textures have no order of their own.
fn name(id: TextureId) -> String {
    format!("{id:?}")
}

impl egui_kittest::TestRenderer for Rasteriser {
    fn handle_delta(&mut self, delta: &mut TexturesDelta) {
        for (id, parts) in delta.set.drain() {
            for part in parts {
                let ImageData::Color(picture) = &part.image;
                match (part.pos, self.textures.get_mut(&name(id))) {
                    (Some(at), Some(whole)) => whole.put(at, picture),
                    _ => {
                        self.textures.insert(name(id), Texture::of(picture));
                    }
                }
            }
        }
        for id in delta.free.drain() {
            self.textures.remove(&name(id));
        }
    }

    fn render(&mut self, ctx: &egui::Context, output: &egui::FullOutput) -> Result<RgbaImage, String> {
        let scale = ctx.pixels_per_point();
        let size = ctx.content_rect().size() * scale;
        let primitives = ctx.tessellate(output.shapes.clone(), scale);
        let [width, height] = [size.x, size.y].map(|own| own.round() as usize);
        let texels = paint([width, height], scale, &primitives, |id| self.textures.get(&name(id)));
        RgbaImage::from_raw(width as u32, height as u32, texels.concat())
            .ok_or_else(|| "the picture has no size".to_owned())
    }
}
