//! Pictures of the screen without any graphics library: the screen's triangles, filled on the processor, the same on
//! every machine.

use std::collections::BTreeMap;

use egui::epaint::{ImageData, Mesh, Primitive, Vertex, WHITE_UV};
use egui::{ClippedPrimitive, Pos2, TextureId, TexturesDelta};
use image::RgbaImage;

/// Fills triangles.
#[derive(Default)]
pub struct Rasteriser {
    textures: BTreeMap<String, Texture>,
}

struct Texture {
    width: usize,
    height: usize,
    texels: Vec<[u8; 4]>,
}

impl Texture {
    fn texel(&self, x: f32, y: f32) -> [f32; 4] {
        let x = (x.max(0.0) as usize).min(self.width - 1);
        let y = (y.max(0.0) as usize).min(self.height - 1);
        self.texels[y * self.width + x].map(f32::from)
    }

    /// Between four texels, 0 to 1.
    fn sample(&self, u: f32, v: f32) -> [f32; 4] {
        let (x, y) = (u * self.width as f32 - 0.5, v * self.height as f32 - 0.5);
        let (x0, y0) = (x.floor(), y.floor());
        let (fx, fy) = (x - x0, y - y0);
        let [a, b, c, d] =
            [(0.0, 0.0), (1.0, 0.0), (0.0, 1.0), (1.0, 1.0)].map(|(i, j)| self.texel(x0 + i, y0 + j));
        std::array::from_fn(|i| {
            let top = a[i] * (1.0 - fx) + b[i] * fx;
            let bottom = c[i] * (1.0 - fx) + d[i] * fx;
            (top * (1.0 - fy) + bottom * fy) / 255.0
        })
    }
}

/// A picture being made.
struct Canvas {
    width: usize,
    texels: Vec<[u8; 4]>,
    /// px for each point.
    scale: f32,
    /// What may be painted: first and past the last column, first and past the last row.
    clip: [i32; 4],
}

/// A place in 256ths of a px.
type Fixed = (i64, i64);

fn edge(a: Fixed, b: Fixed, c: Fixed) -> i64 {
    (b.0 - a.0) * (c.1 - a.1) - (b.1 - a.1) * (c.0 - a.0)
}

/// An edge that belongs to the triangle on its one side only, so that no px is painted twice.
fn owns(a: Fixed, b: Fixed) -> i64 {
    let (dx, dy) = (b.0 - a.0, b.1 - a.1);
    i64::from(!((dy == 0 && dx > 0) || dy < 0))
}

impl Canvas {
    fn triangle(&mut self, mut corners: [Vertex; 3], texture: &Texture) {
        let fixed = |p: Pos2| {
            let at = |v: f32| (f64::from(v * self.scale) * 256.0).round() as i64;
            (at(p.x), at(p.y))
        };
        let mut p = corners.map(|v| fixed(v.pos));
        let mut area = edge(p[0], p[1], p[2]);
        if area == 0 {
            return;
        }
        if area < 0 {
            corners.swap(1, 2);
            p.swap(1, 2);
            area = -area;
        }
        let range = |of: [i64; 3], low: i32, high: i32| {
            let least = of.iter().min().map_or(0, |v| (v >> 8) as i32);
            let most = of.iter().max().map_or(0, |v| (v >> 8) as i32 + 1);
            least.max(low)..most.min(high)
        };
        let (columns, rows) = (
            range(p.map(|q| q.0), self.clip[0], self.clip[1]),
            range(p.map(|q| q.1), self.clip[2], self.clip[3]),
        );
        let bias = [owns(p[1], p[2]), owns(p[2], p[0]), owns(p[0], p[1])];
        let plain = corners.iter().all(|v| v.uv == WHITE_UV);
        for y in rows {
            for x in columns.clone() {
                let q = (i64::from(x) * 256 + 128, i64::from(y) * 256 + 128);
                let e = [edge(p[1], p[2], q), edge(p[2], p[0], q), edge(p[0], p[1], q)];
                if e.iter().zip(bias).any(|(e, bias)| *e < bias) {
                    continue;
                }
                let share = e.map(|e| (e as f64 / area as f64) as f32);
                let mixed = |of: &dyn Fn(&Vertex) -> f32| -> f32 {
                    corners.iter().zip(share).map(|(v, share)| of(v) * share).sum()
                };
                let mut colour: [f32; 4] =
                    std::array::from_fn(|i| mixed(&|v: &Vertex| f32::from(v.color.to_array()[i])));
                if !plain {
                    let texel = texture.sample(mixed(&|v: &Vertex| v.uv.x), mixed(&|v: &Vertex| v.uv.y));
                    for (c, t) in colour.iter_mut().zip(texel) {
                        *c *= t;
                    }
                }
                let under = &mut self.texels[y as usize * self.width + x as usize];
                let through = 1.0 - colour[3] / 255.0;
                for (u, c) in under.iter_mut().zip(colour) {
                    *u = (c + f32::from(*u) * through + 0.5).min(255.0) as u8;
                }
            }
        }
    }
}

impl Rasteriser {
    /// The picture of what the screen wants painted.
    fn paint(&self, size: [usize; 2], scale: f32, primitives: &[ClippedPrimitive]) -> Option<RgbaImage> {
        let [width, height] = size;
        let mut canvas = Canvas {
            width,
            texels: vec![[0; 4]; width * height],
            scale,
            clip: [0, width as i32, 0, height as i32],
        };
        for primitive in primitives {
            let Primitive::Mesh(mesh) = &primitive.primitive else { continue };
            let Some(texture) = self.textures.get(&name(mesh.texture_id)) else { continue };
            let clip = primitive.clip_rect;
            let within = |v: f32, most: usize| (v * scale).round().clamp(0.0, most as f32) as i32;
            canvas.clip = [
                within(clip.min.x, width),
                within(clip.max.x, width),
                within(clip.min.y, height),
                within(clip.max.y, height),
            ];
            self.mesh(&mut canvas, mesh, texture);
        }
        RgbaImage::from_raw(width as u32, height as u32, canvas.texels.concat())
    }

    fn mesh(&self, canvas: &mut Canvas, mesh: &Mesh, texture: &Texture) {
        for corners in mesh.indices.chunks_exact(3) {
            canvas.triangle(std::array::from_fn(|i| mesh.vertices[corners[i] as usize]), texture);
        }
    }
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
                let [width, height] = picture.size;
                let texels: Vec<[u8; 4]> = picture.pixels.iter().map(egui::Color32::to_array).collect();
                match (part.pos, self.textures.get_mut(&name(id))) {
                    (Some([x, y]), Some(whole)) => {
                        for row in 0..height {
                            whole.texels[(y + row) * whole.width + x..][..width]
                                .copy_from_slice(&texels[row * width..][..width]);
                        }
                    }
                    _ => {
                        self.textures.insert(name(id), Texture { width, height, texels });
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
        self.paint([size.x.round() as usize, size.y.round() as usize], scale, &primitives)
            .ok_or_else(|| "the picture has no size".to_owned())
    }
}
