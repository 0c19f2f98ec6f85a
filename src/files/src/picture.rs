//! A picture under the plan: read within bounds, turned upright, and made small enough for a screen.

use std::io::{Cursor, ErrorKind, Read};
use std::path::Path;

use baywright_planner::model::fault::{FileFault, FileKind, FileTrouble, PictureKind};
use image::codecs::jpeg::JpegDecoder;
use image::codecs::png::PngDecoder;
use image::metadata::Orientation;
use image::{DynamicImage, ImageDecoder, ImageError, Limits};

use crate::text::not_read;

/// No file of a picture may be larger.
pub const LARGEST_PICTURE_FILE: u64 = 64 * 1024 * 1024;
/// No picture may have more pixels a side. A sheet of the largest drawing size at 250 dots an inch has 11 700.
pub const MOST_PX_A_SIDE: u32 = 12_000;
/// Nor more in all: at 8 bytes each, as deep as a PNG goes, they take 320 MB while they are read.
pub const MOST_PX: u64 = 40_000_000;
/// A larger picture is made smaller: what every graphics driver takes.
pub const MOST_PX_SHOWN: u32 = 4_096;
/// What a decoder may take for everything but the pixels: its rows, and texts that unpack to a thousand times their size.
const MOST_BESIDE_PIXELS: u64 = 64 * 1024 * 1024;

/// A picture, upright, ready to be shown.
#[derive(Clone, PartialEq, Eq)]
pub struct Picture {
    /// Pixels across, as shown.
    pub width: u32,
    /// Pixels from top to bottom, as shown.
    pub height: u32,
    /// Pixels across, as the file has them once the picture is upright: `mm_per_px` of a layout counts these.
    pub original_width: u32,
    /// Pixels from top to bottom, as the file has them once the picture is upright.
    pub original_height: u32,
    /// Red, green, blue, opacity of each pixel, not premultiplied; row after row from the upper left corner.
    pub rgba: Vec<u8>,
}

impl std::fmt::Debug for Picture {
    /// Without the pixels, which nobody can read.
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let (width, height) = (self.original_width, self.original_height);
        write!(f, "Picture({width} × {height}, shown {} × {})", self.width, self.height)
    }
}

/// Reads a picture, PNG or JPEG. Bounded before it is decoded; turned upright if its camera noted how it was held.
///
/// # Errors
/// Not there, no plain file, too large, a kind that is not read, damaged. A JPEG whose bytes were changed may be read with
/// wrong colours: the format has no checksum.
pub fn read_picture(path: &Path) -> Result<Picture, FileFault> {
    let file = path.display().to_string();
    let io = |error: std::io::Error| FileFault::whole(&file, not_read(FileKind::Picture, &error));
    let about = std::fs::metadata(path).map_err(io)?;
    if about.is_dir() {
        return Err(FileFault::whole(file, FileTrouble::IsFolder(FileKind::Picture)));
    }
    if !about.is_file() {
        return Err(FileFault::whole(file, FileTrouble::NoPlainFile(FileKind::Picture)));
    }
    if about.len() > LARGEST_PICTURE_FILE {
        return Err(file_too_large(&file, about.len()));
    }
    let mut bytes = Vec::new();
    // One byte more than allowed shows a file that grew in the meantime.
    let opened = std::fs::File::open(path).map_err(io)?;
    opened.take(LARGEST_PICTURE_FILE + 1).read_to_end(&mut bytes).map_err(io)?;
    decode_picture(&file, &bytes)
}

/// A picture from bytes in hand; `file` names it in sentences.
///
/// # Errors
/// As [`read_picture`].
pub fn decode_picture(file: &str, bytes: &[u8]) -> Result<Picture, FileFault> {
    if bytes.len() as u64 > LARGEST_PICTURE_FILE {
        return Err(file_too_large(file, bytes.len() as u64));
    }
    let fault = |error: ImageError| decoder_fault(file, &error);
    match kind_of(bytes) {
        Kind::Png => {
            // Asked before the decoder takes anything for them.
            if let Some(&[a, b, c, d, e, f, g, h]) = bytes.get(16..24) {
                within_bounds(file, u32::from_be_bytes([a, b, c, d]), u32::from_be_bytes([e, f, g, h]))?;
            }
            let decoder = PngDecoder::with_limits(Cursor::new(bytes), limits()).map_err(fault)?;
            decoded(file, decoder)
        }
        Kind::Jpeg if is_cut(bytes) => Err(damaged(file)),
        Kind::Jpeg => decoded(file, JpegDecoder::new(Cursor::new(bytes)).map_err(fault)?),
        Kind::Other(kind) => Err(FileFault::whole(file, FileTrouble::PictureKind(kind))),
    }
}

fn limits() -> Limits {
    let mut limits = Limits::no_limits();
    limits.max_image_width = Some(MOST_PX_A_SIDE);
    limits.max_image_height = Some(MOST_PX_A_SIDE);
    limits.max_alloc = Some(MOST_BESIDE_PIXELS);
    limits
}

fn decoded(file: &str, mut decoder: impl ImageDecoder) -> Result<Picture, FileFault> {
    let fault = |error: ImageError| decoder_fault(file, &error);
    let (width, height) = decoder.dimensions();
    within_bounds(file, width, height)?;
    decoder.set_limits(limits()).map_err(fault)?;
    // A note that cannot be read is none.
    let orientation = decoder.orientation().unwrap_or(Orientation::NoTransforms);
    let mut picture = DynamicImage::from_decoder(decoder).map_err(fault)?;
    let longer = width.max(height);
    if longer > MOST_PX_SHOWN {
        let shown = |side: u32| {
            let rounded =
                (u64::from(side) * u64::from(MOST_PX_SHOWN) + u64::from(longer) / 2) / u64::from(longer);
            u32::try_from(rounded).unwrap_or(MOST_PX_SHOWN).max(1)
        };
        picture = picture.thumbnail_exact(shown(width), shown(height));
    }
    use Orientation::{Rotate90, Rotate90FlipH, Rotate270, Rotate270FlipH};
    let on_its_side = matches!(orientation, Rotate90 | Rotate270 | Rotate90FlipH | Rotate270FlipH);
    let (original_width, original_height) = if on_its_side { (height, width) } else { (width, height) };
    picture.apply_orientation(orientation);
    let rgba = picture.into_rgba8();
    Ok(Picture {
        width: rgba.width(),
        height: rgba.height(),
        original_width,
        original_height,
        rgba: rgba.into_raw(),
    })
}

fn within_bounds(file: &str, width: u32, height: u32) -> Result<(), FileFault> {
    if width == 0 || height == 0 {
        return Err(damaged(file));
    }
    if width.max(height) <= MOST_PX_A_SIDE && u64::from(width) * u64::from(height) <= MOST_PX {
        return Ok(());
    }
    let (most_a_side, most) = (MOST_PX_A_SIDE, MOST_PX);
    Err(FileFault::whole(file, FileTrouble::TooManyPixels { width, height, most_a_side, most }))
}

/// What a file is by its first bytes, whatever its name says.
pub(crate) enum Kind {
    Png,
    Jpeg,
    Other(PictureKind),
}

pub(crate) fn kind_of(bytes: &[u8]) -> Kind {
    let starts = |mark: &[u8]| bytes.starts_with(mark);
    let at = |from: usize, mark: &[u8]| bytes.get(from..).is_some_and(|rest| rest.starts_with(mark));
    if starts(b"\x89PNG\r\n\x1a\n") {
        return Kind::Png;
    }
    if starts(&[0xff, 0xd8, 0xff]) {
        return Kind::Jpeg;
    }
    Kind::Other(if bytes.is_empty() {
        PictureKind::Empty
    } else if starts(b"GIF8") {
        PictureKind::Gif
    } else if starts(b"BM") && at(6, &[0; 4]) {
        PictureKind::Bmp
    } else if starts(b"II*\0") || starts(b"MM\0*") {
        PictureKind::Tiff
    } else if starts(b"RIFF") && at(8, b"WEBP") {
        PictureKind::WebP
    } else if at(4, b"ftypheic") || at(4, b"ftypheix") || at(4, b"ftypmif1") {
        PictureKind::Heic
    } else if at(4, b"ftypavif") {
        PictureKind::Avif
    } else if starts(b"%PDF") {
        PictureKind::Pdf
    } else if starts(b"AC10") {
        PictureKind::Dwg
    } else if starts(b"<svg") || starts(b"<?xml") {
        PictureKind::Xml
    } else {
        PictureKind::None
    })
}

/// Whether a JPEG has no end: the decoder fills what is missing with grey, and half a plan is worse than none.
fn is_cut(bytes: &[u8]) -> bool {
    const START_OF_SCAN: u8 = 0xda;
    const END: [u8; 2] = [0xff, 0xd9];
    // Over the segments before the pixels, which may hold a whole small JPEG of their own.
    let mut at = 2;
    while let Some(&[0xff, marker, high, low]) = bytes.get(at..at + 4) {
        if marker == START_OF_SCAN {
            break;
        }
        // A marker may be led by any number of these.
        at += if marker == 0xff { 1 } else { 2 + usize::from(u16::from_be_bytes([high, low])) };
    }
    !bytes.get(at..).is_some_and(|rest| rest.windows(2).any(|pair| pair == END))
}

fn decoder_fault(file: &str, error: &ImageError) -> FileFault {
    match error {
        ImageError::Limits(_) | ImageError::Unsupported(_) => {
            FileFault::whole(file, FileTrouble::PictureManner)
        }
        ImageError::IoError(error) if error.kind() == ErrorKind::OutOfMemory => {
            FileFault::whole(file, FileTrouble::PictureMemory)
        }
        _ => damaged(file),
    }
}

fn damaged(file: &str) -> FileFault {
    FileFault::whole(file, FileTrouble::PictureDamaged)
}

fn file_too_large(file: &str, bytes: u64) -> FileFault {
    let (kind, most) = (FileKind::Picture, LARGEST_PICTURE_FILE);
    FileFault::whole(file, FileTrouble::TooLarge { kind, bytes, most })
}
