//! Pages as what is sent, shown and printed: one PDF of all, or a picture of each.

use std::path::{Path, PathBuf};
use std::sync::{Arc, LazyLock};

use baywright_drawing::font::{FAMILY, FONT_BOLD, FONT_REGULAR, FONT_SEMI_BOLD};
use baywright_drawing::{Page, Theme, to_pdf, to_svg};
use baywright_planner::words::Language;
use png::{BitDepth, ColorType, Encoder, PixelDimensions, Unit};
use resvg::tiny_skia::{Color, Pixmap, Transform};
use resvg::usvg::fontdb::Database;
use resvg::usvg::{Options, Tree};

/// A picture has no more pixels than this: a sheet of A1 at 300 dots to the inch.
const MOST_PX: u64 = 75_000_000;
/// px of our drawings to the inch.
const PX_PER_INCH: f64 = 96.0;
const MM_PER_INCH: f64 = 25.4;

/// Why pages did not become what they were to be.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum NotMade {
    /// So many pixels across and down, and as many as a picture may have.
    TooManyPixels([u64; 3]),
    /// The writer's words.
    NoPages(String),
}

/// What pages become.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Format {
    /// One file of all pages.
    Pdf,
    /// A file for each page.
    Svg,
    /// A file for each page, with so many dots to the inch.
    Png(u32),
}

impl Format {
    /// The one that the ending of a file's name stands for; pictures of dots with so many to the inch.
    pub(crate) fn of_ending(ending: &str, dpi: u32) -> Option<Self> {
        match ending.to_lowercase().as_str() {
            "pdf" => Some(Self::Pdf),
            "svg" => Some(Self::Svg),
            "png" => Some(Self::Png(dpi)),
            _ => None,
        }
    }
}

/// The pages as files.
///
/// # Errors
/// A picture would be too large, or a writer refused.
pub(crate) fn bytes(pages: &[Page], format: Format, language: Language) -> Result<Vec<Vec<u8>>, NotMade> {
    match format {
        Format::Svg => Ok(pages.iter().map(|page| to_svg(page, Theme::Print).into_bytes()).collect()),
        Format::Png(dpi) => pages.iter().map(|page| png(page, dpi)).collect(),
        Format::Pdf => {
            let pdf = to_pdf(pages, Theme::Print, language.tag());
            pdf.map(|own| vec![own]).map_err(|fault| NotMade::NoPages(fault.0))
        }
    }
}

/// The names of so many files: of several each has its number, "bay-01.png", with as many places as the last one has, so that they
/// are sorted as they are counted.
pub(crate) fn names(to: &Path, all: usize) -> Vec<PathBuf> {
    if all <= 1 {
        return vec![to.to_owned(); all];
    }
    let places = all.to_string().len();
    let stem = to.file_stem().unwrap_or_default().to_string_lossy();
    let ending = to.extension().unwrap_or_default().to_string_lossy();
    (1..=all).map(|at| to.with_file_name(format!("{stem}-{at:0places$}.{ending}"))).collect()
}

/// The drawings' own fonts.
static FONTS: LazyLock<Arc<Database>> = LazyLock::new(|| {
    let mut fonts = Database::new();
    [FONT_REGULAR, FONT_SEMI_BOLD, FONT_BOLD]
        .into_iter()
        .for_each(|file| fonts.load_font_data(file.to_vec()));
    fonts.set_sans_serif_family(FAMILY);
    Arc::new(fonts)
});

/// A page in dots, so many to the inch; it is opaque.
///
/// # Errors
/// There would be too many of them.
pub(crate) fn dots(page: &Page, dpi: f64) -> Result<Pixmap, NotMade> {
    let [width, height] = [page.size.x, page.size.y].map(|mm| (mm / MM_PER_INCH * dpi).round().max(1.0));
    if width * height > MOST_PX as f64 {
        return Err(NotMade::TooManyPixels([width as u64, height as u64, MOST_PX]));
    }
    let options =
        Options { fontdb: Arc::clone(&FONTS), font_family: FAMILY.to_owned(), ..Options::default() };
    let tree = Tree::from_str(&to_svg(page, Theme::Print), &options)
        .map_err(|error| NotMade::NoPages(error.to_string()))?;
    let mut picture = Pixmap::new(width as u32, height as u32)
        .ok_or_else(|| NotMade::NoPages(format!("{width} x {height}")))?;
    // The last row and column of dots may reach a little past the paper.
    picture.fill(Color::WHITE);
    let scale = (dpi / PX_PER_INCH) as f32;
    resvg::render(&tree, Transform::from_scale(scale, scale), &mut picture.as_mut());
    Ok(picture)
}

/// The page as a picture that knows how large it is to be printed.
fn png(page: &Page, dpi: u32) -> Result<Vec<u8>, NotMade> {
    let per_metre = f64::from(dpi) / MM_PER_INCH * 1000.0;
    encoded(&dots(page, f64::from(dpi))?, per_metre).map_err(|error| NotMade::NoPages(error.to_string()))
}

/// An opaque picture as PNG, so many dots to the metre.
///
/// # Errors
/// The writer refused.
pub(crate) fn encoded(picture: &Pixmap, per_metre: f64) -> Result<Vec<u8>, png::EncodingError> {
    let mut bytes = Vec::new();
    let mut encoder = Encoder::new(&mut bytes, picture.width(), picture.height());
    encoder.set_color(ColorType::Rgb);
    encoder.set_depth(BitDepth::Eight);
    let per_metre = per_metre.round().max(1.0) as u32;
    encoder.set_pixel_dims(Some(PixelDimensions { xppu: per_metre, yppu: per_metre, unit: Unit::Meter }));
    let mut writer = encoder.write_header()?;
    let rgb: Vec<u8> = picture.data().chunks_exact(4).flat_map(|own| own.iter().take(3).copied()).collect();
    writer.write_image_data(&rgb)?;
    writer.finish()?;
    Ok(bytes)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn several_files_are_numbered_as_they_are_sorted() {
        let to = Path::new("a/bay.png");
        assert_eq!(names(to, 0), Vec::<PathBuf>::new());
        assert_eq!(names(to, 1), [to]);
        let ten = names(to, 10);
        assert_eq!([&ten[0], &ten[9]], [Path::new("a/bay-01.png"), Path::new("a/bay-10.png")]);
        assert!(ten.is_sorted());
    }
}
