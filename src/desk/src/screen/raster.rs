//! Triangles filled on the processor, without any graphics library: a picture of what would be painted, the same on every machine.

use egui::epaint::{ColorImage, Mesh, Primitive, Vertex, WHITE_UV};
use egui::{ClippedPrimitive, Color32, Pos2, TextureId};

/// A picture that triangles take their colours from: letters, or a picture under the plan.
#[derive(Clone, Debug)]
pub struct Texture {
    width: usize,
    height: usize,
    texels: Vec<[u8; 4]>,
}

impl Texture {
    /// The whole of a picture.
    pub fn of(picture: &ColorImage) -> Self {
        let [width, height] = picture.size;
        Self { width, height, texels: picture.pixels.iter().map(Color32::to_array).collect() }
    }

    /// Puts a picture over a part of this one, its upper left corner at this column and row; it must fit.
    pub fn put(&mut self, [x, y]: [usize; 2], part: &ColorImage) {
        let [width, height] = part.size;
        let texels = Self::of(part).texels;
        for row in 0..height {
            self.texels[(y + row) * self.width + x..][..width]
                .copy_from_slice(&texels[row * width..][..width]);
        }
    }

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

/// The picture of what is to be painted, so many px wide and high, `scale` px for each point: rows from above, red, green, blue and
/// opacity, multiplied by the opacity. What takes its colours from a texture that `texture` does not know is left out.
pub fn paint<'a>(
    size: [usize; 2],
    scale: f32,
    primitives: &[ClippedPrimitive],
    texture: impl Fn(TextureId) -> Option<&'a Texture>,
) -> Vec<[u8; 4]> {
    let [width, height] = size;
    let clip = [0, width as i32, 0, height as i32];
    let mut canvas = Canvas { width, texels: vec![[0; 4]; width * height], scale, clip };
    for primitive in primitives {
        let Primitive::Mesh(mesh) = &primitive.primitive else { continue };
        let Some(texture) = texture(mesh.texture_id) else { continue };
        let clip = primitive.clip_rect;
        let within = |v: f32, most: usize| (v * scale).round().clamp(0.0, most as f32) as i32;
        canvas.clip = [
            within(clip.min.x, width),
            within(clip.max.x, width),
            within(clip.min.y, height),
            within(clip.max.y, height),
        ];
        fill(&mut canvas, mesh, texture);
    }
    canvas.texels
}

fn fill(canvas: &mut Canvas, mesh: &Mesh, texture: &Texture) {
    for corners in mesh.indices.chunks_exact(3) {
        canvas.triangle(std::array::from_fn(|i| mesh.vertices[corners[i] as usize]), texture);
    }
}
