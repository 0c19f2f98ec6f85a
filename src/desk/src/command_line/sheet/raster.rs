//! A page as PNG, at so many dots to the inch.

use std::sync::{Arc, LazyLock};

use baywright_drawing::font::{FAMILY, FONT_BOLD, FONT_REGULAR, FONT_SEMI_BOLD};
use baywright_drawing::{Page, Theme, to_svg};
use png::{BitDepth, ColorType, Encoder, PixelDimensions, Unit};
use resvg::tiny_skia::{Color, Pixmap, Transform};
use resvg::usvg::fontdb::Database;
use resvg::usvg::{Options, Tree};

use crate::command_line::trouble::Trouble;

/// A picture has no more pixels than this: a sheet of A1 at 300 dots to the inch.
const MOST_PX: u64 = 75_000_000;
/// px of our drawings to the inch.
const PX_PER_INCH: f64 = 96.0;
const MM_PER_INCH: f64 = 25.4;

/// The drawings' own fonts.
static FONTS: LazyLock<Arc<Database>> = LazyLock::new(|| {
    let mut fonts = Database::new();
    [FONT_REGULAR, FONT_SEMI_BOLD, FONT_BOLD]
        .into_iter()
        .for_each(|file| fonts.load_font_data(file.to_vec()));
    fonts.set_sans_serif_family(FAMILY);
    Arc::new(fonts)
});

/// The page as a picture.
pub(super) fn png(page: &Page, dpi: u32) -> Result<Vec<u8>, Box<Trouble>> {
    let [width, height] =
        [page.size.x, page.size.y].map(|mm| (mm / MM_PER_INCH * f64::from(dpi)).round().max(1.0));
    let all = width * height;
    if all > MOST_PX as f64 {
        return Err(Box::new(Trouble::TooManyPixels([width as u64, height as u64, MOST_PX])));
    }
    let unmade = |why: String| Box::new(Trouble::NoPages(why));
    let options =
        Options { fontdb: Arc::clone(&FONTS), font_family: FAMILY.to_owned(), ..Options::default() };
    let tree =
        Tree::from_str(&to_svg(page, Theme::Print), &options).map_err(|error| unmade(error.to_string()))?;
    let mut picture =
        Pixmap::new(width as u32, height as u32).ok_or_else(|| unmade(format!("{width} x {height}")))?;
    // The last row and column of dots may reach a little past the paper.
    picture.fill(Color::WHITE);
    let scale = (f64::from(dpi) / PX_PER_INCH) as f32;
    resvg::render(&tree, Transform::from_scale(scale, scale), &mut picture.as_mut());
    encoded(&picture, dpi).map_err(|error| unmade(error.to_string()))
}

/// The picture with how large it is to be printed. The paper is opaque, so that it needs no transparency.
fn encoded(picture: &Pixmap, dpi: u32) -> Result<Vec<u8>, png::EncodingError> {
    let mut bytes = Vec::new();
    let mut encoder = Encoder::new(&mut bytes, picture.width(), picture.height());
    encoder.set_color(ColorType::Rgb);
    encoder.set_depth(BitDepth::Eight);
    let per_metre = (f64::from(dpi) / MM_PER_INCH * 1000.0).round() as u32;
    encoder.set_pixel_dims(Some(PixelDimensions { xppu: per_metre, yppu: per_metre, unit: Unit::Meter }));
    let mut writer = encoder.write_header()?;
    let rgb: Vec<u8> = picture.data().chunks_exact(4).flat_map(|own| own.iter().take(3).copied()).collect();
    writer.write_image_data(&rgb)?;
    writer.finish()?;
    Ok(bytes)
}
