//! Attachments as they are printed: read, held against their hashes, and made small enough for paper.

use std::io::Cursor;
use std::path::Path;
use std::sync::Arc;

use baywright_planner::model::fault::{FileTrouble, Wrong};
use baywright_planner::model::record::{Attachment, VisitRecord};
use baywright_planner::record::{Holds, MOST_SHOWN, Picture, PictureForm, Shown, Turned};
use image::codecs::jpeg::{JpegDecoder, JpegEncoder};
use image::codecs::png::PngDecoder;
use image::metadata::Orientation;
use image::{DynamicImage, ImageDecoder, RgbImage, RgbaImage};

use super::attach::{attached_path, read_attached};
use crate::picture::{Kind, Picture as Read, decode_picture, kind_of};

/// A file is printed as it is up to so many bytes, and so many pixels; a larger one by a smaller picture of it.
const LARGEST_AS_IT_IS: usize = 8 * 1024 * 1024;
const MOST_PX_AS_IT_IS: u64 = 16_000_000;
/// Nor are more bytes than this printed as they are in all.
const MOST_AS_THEY_ARE: usize = 64 * 1024 * 1024;
/// A smaller picture has so many pixels on its longer side: 340 dots to the inch across A4.
const SMALLER_PX: u32 = 2_400;
/// How well it is written, of 100.
const SMALLER_QUALITY: u8 = 88;

/// The attachments of a record that count, in their order ([`Holds::attachments`]), as they are printed. Bounded in bytes, pixels and number;
/// what is wrong with one is told in its place.
pub fn shown_attachments(record: &Path, of: &VisitRecord) -> Vec<Shown> {
    let (mut shown, mut as_they_are) = (0, 0);
    let all = Holds::of(of).attachments().into_iter().map(|own| {
        let own = shown_one(record, own.what, (shown, as_they_are));
        if let Shown::Picture(picture) = &own {
            shown += 1;
            as_they_are += if picture.is_smaller { 0 } else { picture.bytes.len() };
        }
        own
    });
    all.collect()
}

/// One, after so many pictures and so many bytes of pictures as they are.
fn shown_one(record: &Path, own: &Attachment, (shown, as_they_are): (usize, usize)) -> Shown {
    let Some(bytes) = read_attached(record, own) else {
        let is_there = attached_path(record, own).is_file();
        return if is_there { Shown::Changed } else { Shown::Lost };
    };
    let form = match kind_of(&bytes) {
        Kind::Png => PictureForm::Png,
        Kind::Jpeg => PictureForm::Jpeg,
        Kind::Other(_) => {
            let ending = own.file.rsplit_once('.').map(|(_, ending)| ending.to_lowercase());
            let is_picture = matches!(ending.as_deref(), Some("png" | "jpg" | "jpeg"));
            return if is_picture { Shown::NotRead } else { Shown::ByName };
        }
    };
    if shown >= MOST_SHOWN {
        return Shown::TooMany;
    }
    match decode_picture(&own.file, &bytes) {
        Ok(read) => printed(form, bytes, &read, as_they_are).map_or(Shown::NotRead, Shown::Picture),
        Err(fault) => match *fault.wrong {
            Wrong::Whole(FileTrouble::TooManyPixels { width, height, .. }) => Shown::TooLarge(width, height),
            _ => Shown::NotRead,
        },
    }
}

/// As it is where it is small enough; else a smaller picture of what was read.
fn printed(form: PictureForm, bytes: Vec<u8>, read: &Read, as_they_are: usize) -> Option<Picture> {
    let orientation = match form {
        PictureForm::Png => PngDecoder::new(Cursor::new(&bytes)).ok()?.orientation(),
        PictureForm::Jpeg => JpegDecoder::new(Cursor::new(&bytes)).ok()?.orientation(),
    };
    let turned = turned(orientation.unwrap_or(Orientation::NoTransforms));
    let px = u64::from(read.original_width) * u64::from(read.original_height);
    let is_small = bytes.len() <= LARGEST_AS_IT_IS
        && px <= MOST_PX_AS_IT_IS
        && as_they_are + bytes.len() <= MOST_AS_THEY_ARE;
    let is_turned = turned != Turned::default();
    let as_it_is = match form {
        _ if !is_small => None,
        // A note in a PNG is followed by some programs and not by others.
        PictureForm::Png => (!is_turned).then_some(bytes),
        PictureForm::Jpeg => as_jpeg(bytes, is_turned),
    };
    let Some(bytes) = as_it_is else { return smaller(read) };
    let (width, height) = match turned.quarters % 2 {
        0 => (read.original_width, read.original_height),
        _ => (read.original_height, read.original_width),
    };
    Some(Picture { form, bytes: bytes.into(), width, height, turned, is_smaller: false })
}

const fn turned(of: Orientation) -> Turned {
    let (quarters, is_mirrored) = match of {
        Orientation::NoTransforms => (0, false),
        Orientation::Rotate90 => (1, false),
        Orientation::Rotate180 => (2, false),
        Orientation::Rotate270 => (3, false),
        Orientation::FlipHorizontal => (0, true),
        Orientation::Rotate90FlipH => (1, true),
        Orientation::FlipVertical => (2, true),
        Orientation::Rotate270FlipH => (3, true),
    };
    Turned { quarters, is_mirrored }
}

/// Of what was read, on white; as JPEG, which photographs need.
fn smaller(read: &Read) -> Option<Picture> {
    let all = RgbaImage::from_raw(read.width, read.height, read.rgba.clone())?;
    let longer = read.width.max(read.height);
    let all = if longer > SMALLER_PX {
        DynamicImage::ImageRgba8(all).thumbnail(SMALLER_PX, SMALLER_PX).into_rgba8()
    } else {
        all
    };
    let mut on_white = RgbImage::new(all.width(), all.height());
    for (to, from) in on_white.pixels_mut().zip(all.pixels()) {
        let [red, green, blue, opacity] = from.0.map(u32::from);
        let over = |ink: u32| u8::try_from((ink * opacity + 255 * (255 - opacity)) / 255).unwrap_or(u8::MAX);
        to.0 = [over(red), over(green), over(blue)];
    }
    let mut bytes = Vec::new();
    JpegEncoder::new_with_quality(&mut bytes, SMALLER_QUALITY).encode_image(&on_white).ok()?;
    Some(Picture {
        form: PictureForm::Jpeg,
        bytes: Arc::from(bytes),
        width: on_white.width(),
        height: on_white.height(),
        turned: Turned::default(),
        is_smaller: true,
    })
}

/// A JPEG as it is, without its note how the camera was held where that is followed here: some programs follow it too, some do not. `None`
/// for one of four inks, which each program prints in its own way.
fn as_jpeg(bytes: Vec<u8>, is_turned: bool) -> Option<Vec<u8>> {
    const START_OF_SCAN: u8 = 0xda;
    const EXIF: u8 = 0xe1;
    let mut kept = bytes.get(..2)?.to_vec();
    let mut at = 2;
    loop {
        let &[0xff, marker, high, low] = bytes.get(at..at + 4)? else { return None };
        if marker == 0xff {
            at += 1;
            continue;
        }
        if marker == START_OF_SCAN {
            break;
        }
        let end = at + 2 + usize::from(u16::from_be_bytes([high, low]));
        let segment = bytes.get(at..end)?;
        // A frame's head, but for tables and for what only looks like one: its inks stand in the tenth byte.
        let is_frame = matches!(marker, 0xc0..=0xcf) && !matches!(marker, 0xc4 | 0xc8 | 0xcc);
        if is_frame && !matches!(segment.get(9), Some(1 | 3)) {
            return None;
        }
        let is_note = marker == EXIF && segment.get(4..).is_some_and(|own| own.starts_with(b"Exif\0"));
        if !is_note {
            kept.extend_from_slice(segment);
        }
        at = end;
    }
    if !is_turned {
        return Some(bytes);
    }
    kept.extend_from_slice(bytes.get(at..)?);
    Some(kept)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn jpeg(width: u32, height: u32) -> Vec<u8> {
        let all = RgbImage::from_fn(width, height, |x, y| {
            image::Rgb([(x * 9 % 256) as u8, (y * 7 % 256) as u8, 80])
        });
        let mut bytes = Vec::new();
        JpegEncoder::new_with_quality(&mut bytes, 90).encode_image(&all).unwrap();
        bytes
    }

    /// With a note that the camera was held so (EXIF 2.3, tag 0x0112).
    fn held(bytes: &[u8], orientation: u8) -> Vec<u8> {
        let mut note = b"Exif\0\0MM\0*\0\0\0\x08\0\x01\x01\x12\0\x03\0\0\0\x01\0".to_vec();
        note.extend([orientation, 0, 0, 0, 0, 0, 0]);
        let length = u16::try_from(note.len() + 2).unwrap().to_be_bytes();
        [&bytes[..2], &[0xff, 0xe1], &length, &note, &bytes[2..]].concat()
    }

    fn taken(bytes: &[u8], as_they_are: usize) -> Option<Picture> {
        let read = decode_picture("a.jpg", bytes).unwrap();
        printed(PictureForm::Jpeg, bytes.to_vec(), &read, as_they_are)
    }

    #[test]
    fn a_photograph_is_printed_byte_by_byte_and_turned_by_who_prints_it() {
        let plain = jpeg(40, 20);
        let own = taken(&plain, 0).unwrap();
        assert_eq!((&*own.bytes, own.width, own.height), (plain.as_slice(), 40, 20));
        assert_eq!((own.turned, own.is_smaller), (Turned::default(), false));
        let own = taken(&held(&plain, 6), 0).unwrap();
        // Turned once: by us, since the note is gone.
        assert_eq!((&*own.bytes, own.width, own.height), (plain.as_slice(), 40, 20));
        assert_eq!(own.turned, Turned { quarters: 1, is_mirrored: false });
        assert_eq!(own.upright(), [20.0, 40.0]);
    }

    #[test]
    fn what_is_too_much_is_printed_smaller() {
        let own = taken(&held(&jpeg(3_000, 1_000), 6), MOST_AS_THEY_ARE).unwrap();
        assert!(own.is_smaller);
        assert_eq!((own.width, own.height, own.turned), (800, 2_400, Turned::default()));
        assert!(decode_picture("a.jpg", &own.bytes).is_ok());
    }

    /// Whatever bytes there are, nothing panics.
    #[test]
    fn bad_bytes_are_no_picture() {
        let plain = jpeg(40, 20);
        for cut in 0..plain.len() {
            as_jpeg(plain[..cut].to_vec(), true);
            let mut other = plain.clone();
            other[cut] ^= 0xff;
            if let Ok(read) = decode_picture("a.jpg", &other) {
                printed(PictureForm::Jpeg, other.clone(), &read, 0);
            }
            as_jpeg(other, true);
        }
    }
}
