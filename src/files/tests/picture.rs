//! A picture under the plan: read within bounds, upright, and every refusal a sentence.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test that cannot set itself up has failed")]

use std::io::Cursor;
use std::path::PathBuf;

use baywright_files::{
    LARGEST_PICTURE_FILE, MOST_PX_A_SIDE, MOST_PX_SHOWN, Picture, decode_picture, read_picture,
};
use baywright_planner::words::Language;
use image::codecs::jpeg::JpegEncoder;
use image::{DynamicImage, GrayImage, ImageFormat, Luma, Rgb, RgbImage};
use proptest::prelude::*;

fn folder(name: &str) -> PathBuf {
    let folder =
        PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(format!("picture-{}-{name}", std::process::id()));
    let _ = std::fs::remove_dir_all(&folder);
    std::fs::create_dir_all(&folder).unwrap();
    folder
}

/// Red to the right, green down, one blue corner at the upper left.
fn shades(width: u32, height: u32) -> RgbImage {
    RgbImage::from_fn(width, height, |x, y| {
        let share = |at: u32, of: u32| u8::try_from(at * 200 / of.max(1)).unwrap();
        let blue = if x < width / 3 && y < height / 3 { 250 } else { 0 };
        Rgb([share(x, width), share(y, height), blue])
    })
}

fn png(picture: &DynamicImage) -> Vec<u8> {
    let mut bytes = Cursor::new(Vec::new());
    picture.write_to(&mut bytes, ImageFormat::Png).unwrap();
    bytes.into_inner()
}

fn jpeg(picture: &RgbImage) -> Vec<u8> {
    let mut bytes = Vec::new();
    JpegEncoder::new_with_quality(&mut bytes, 95).encode_image(picture).unwrap();
    bytes
}

/// The same JPEG with a camera's note of how it was held, 1 to 8.
fn held(jpeg: &[u8], how: u8) -> Vec<u8> {
    let mut note = b"Exif\0\0MM\0*\0\0\0\x08\0\x01\x01\x12\0\x03\0\0\0\x01".to_vec();
    note.extend([0, how, 0, 0, 0, 0, 0, 0]);
    let length = u16::try_from(note.len() + 2).unwrap().to_be_bytes();
    [&jpeg[..2], &[0xff, 0xe1], &length, &note, &jpeg[2..]].concat()
}

fn pixel(picture: &Picture, x: u32, y: u32) -> [u8; 4] {
    let at = usize::try_from((y * picture.width + x) * 4).unwrap();
    picture.rgba[at..at + 4].try_into().unwrap()
}

fn refused(bytes: &[u8]) -> String {
    Language::English.file_fault(&decode_picture("plan.png", bytes).unwrap_err())
}

#[test]
fn a_png_is_read_to_the_pixel() {
    let folder = folder("png");
    let path = folder.join("plan.png");
    let sound = shades(30, 20);
    std::fs::write(&path, png(&sound.clone().into())).unwrap();
    let picture = read_picture(&path).unwrap();
    assert_eq!((picture.width, picture.height), (30, 20));
    assert_eq!((picture.original_width, picture.original_height), (30, 20));
    assert_eq!(picture.rgba, DynamicImage::from(sound).into_rgba8().into_raw());
    // Its first bytes say what it is, not its name.
    std::fs::write(folder.join("plan.jpg"), png(&shades(3, 3).into())).unwrap();
    assert_eq!(read_picture(&folder.join("plan.jpg")).unwrap().width, 3);
    std::fs::remove_dir_all(folder).unwrap();
}

#[test]
fn every_depth_of_a_png_is_read() {
    let sound = DynamicImage::from(shades(8, 6));
    for deep in [
        sound.to_luma8().into(),
        DynamicImage::from(sound.to_luma_alpha16()),
        sound.to_rgb16().into(),
        sound.to_rgba16().into(),
    ] {
        let picture = decode_picture("plan.png", &png(&deep)).unwrap();
        assert_eq!((picture.width, picture.height, picture.rgba.len()), (8, 6, 192));
        assert_eq!(pixel(&picture, 7, 5)[3], 255);
    }
}

#[test]
fn a_jpeg_is_turned_as_its_camera_was_held() {
    let plain = jpeg(&shades(30, 18));
    // Where the blue corner comes to lie: 1 as it is, 3 upside down, 6 held upright one way, 8 the other; the rest
    // mirrored.
    let corners = [(0, 0), (1, 0), (1, 1), (0, 1), (0, 0), (1, 0), (1, 1), (0, 1)];
    for (how, (right, down)) in (1..=8).zip(corners) {
        let picture = decode_picture("plan.jpg", &held(&plain, how)).unwrap();
        let size = if how < 5 { (30, 18) } else { (18, 30) };
        assert_eq!((picture.width, picture.height), size, "{how}");
        assert_eq!((picture.original_width, picture.original_height), size, "{how}");
        for (x, y) in [(0, 0), (1, 0), (0, 1), (1, 1)] {
            let [_, _, blue, _] = pixel(&picture, x * (picture.width - 1), y * (picture.height - 1));
            assert_eq!(blue > 150, (x, y) == (right, down), "{how}: {x} {y} has {blue}");
        }
    }
    // A note that says nothing known is none.
    let odd = decode_picture("plan.jpg", &held(&plain, 77)).unwrap();
    assert_eq!(odd, decode_picture("plan.jpg", &plain).unwrap());
}

#[test]
fn a_large_picture_is_shown_smaller_and_keeps_its_own_size() {
    let wide = GrayImage::from_fn(MOST_PX_A_SIDE, 600, |x, _| Luma([if x < 6_000 { 0 } else { 255 }]));
    let picture = decode_picture("plan.png", &png(&wide.into())).unwrap();
    assert_eq!((picture.original_width, picture.original_height), (MOST_PX_A_SIDE, 600));
    // 600 × 4 096 / 12 000 = 204.8.
    assert_eq!((picture.width, picture.height), (MOST_PX_SHOWN, 205));
    assert_eq!(pixel(&picture, 2_000, 100), [0, 0, 0, 255]);
    assert_eq!(pixel(&picture, 2_100, 100), [255; 4]);
    let line = decode_picture("plan.png", &png(&GrayImage::new(1, 9_000).into())).unwrap();
    assert_eq!((line.width, line.height), (1, MOST_PX_SHOWN), "never thinner than a pixel");
}

/// A PNG that says it has so many pixels, and has none.
fn says(width: u32, height: u32) -> Vec<u8> {
    let mut head = b"IHDR".to_vec();
    head.extend([width.to_be_bytes(), height.to_be_bytes()].concat());
    head.extend([8, 2, 0, 0, 0]);
    let sum = crc(&head).to_be_bytes();
    [b"\x89PNG\r\n\x1a\n", &[0, 0, 0, 13][..], &head, &sum].concat()
}

/// The checksum of a PNG's parts, by its definition.
fn crc(bytes: &[u8]) -> u32 {
    !bytes.iter().fold(u32::MAX, |crc, byte| {
        (0..8).fold(crc ^ u32::from(*byte), |crc, _| (crc >> 1) ^ (0xedb8_8320 * (crc & 1)))
    })
}

#[test]
fn what_is_too_large_is_refused_before_it_is_decoded() {
    for (width, height) in [(12_001, 1), (1, 12_001), (7_000, 6_000), (u32::MAX, u32::MAX)] {
        let said = refused(&says(width, height));
        let part =
            format!("this picture has {width} by {height} pixels; at most 12000 a side and 40 million");
        assert!(said.contains(&part), "{said}");
    }
    // A JPEG says its size after FF C0, length and depth.
    let mut large = jpeg(&shades(8, 8));
    let at = large.windows(2).position(|pair| pair == [0xff, 0xc0]).unwrap() + 5;
    large[at..at + 4].copy_from_slice(&[0x20, 0, 0x20, 0]);
    assert!(refused(&large).contains("8192 by 8192 pixels"), "{}", refused(&large));
    let bytes = vec![0; usize::try_from(LARGEST_PICTURE_FILE).unwrap() + 1];
    assert!(refused(&bytes).contains("67108865 bytes; a picture of at most 67108864 bytes"));
}

#[test]
fn what_is_no_picture_is_said_to_be_none() {
    for (bytes, part) in [
        (&b""[..], "this is an empty file, which is not read here; save the picture as PNG or JPEG."),
        (b"hello", "this is no picture"),
        (b"GIF89a....", "a GIF picture"),
        (b"RIFF\x10\0\0\0WEBPVP8 ", "a WebP picture"),
        (b"\0\0\0\x18ftypheic", "a HEIC picture"),
        (b"II*\0\x08\0\0\0", "a TIFF picture"),
        (b"BM\x46\0\0\0\0\0\0\0", "a BMP picture"),
        (b"%PDF-1.7", "a PDF document"),
        (b"<svg xmlns", "an SVG or another XML file"),
    ] {
        let said = refused(bytes);
        assert!(said.starts_with("plan.png: ") && said.contains(part) && said.ends_with('.'), "{said}");
    }
    for bytes in [says(10, 10), says(0, 10), b"\x89PNG\r\n\x1a\n".to_vec(), vec![0xff, 0xd8, 0xff]] {
        let said = refused(&bytes);
        assert!(
            said.contains("this picture is damaged and cannot be read to its end; copy it again"),
            "{said}"
        );
    }
}

#[test]
fn half_a_picture_is_never_shown_as_a_whole_one() {
    let (png, jpeg) = (png(&shades(60, 40).into()), jpeg(&shades(60, 40)));
    for cut in [jpeg.len() / 2, jpeg.len() - 2, jpeg.len() - 1, 700] {
        assert!(refused(&jpeg[..cut]).contains("is damaged"), "{cut}");
    }
    for cut in [png.len() / 2, 40, png.len() - 20] {
        assert!(refused(&png[..cut]).contains("is damaged"), "{cut}");
    }
}

#[test]
fn what_cannot_be_opened_is_said_in_plain_words() {
    let folder = folder("none");
    let said = |path: PathBuf| Language::English.file_fault(&read_picture(&path).unwrap_err());
    assert!(
        said(folder.join("plan.png"))
            .contains("a picture cannot be read here: there is no file of that name")
    );
    assert!(said(folder.clone()).contains("this is a folder; name the file of a picture in it"));
    #[cfg(unix)]
    assert!(said(PathBuf::from("/dev/null")).contains("this is no plain file"));
    std::fs::File::create(folder.join("big.png")).unwrap().set_len(LARGEST_PICTURE_FILE + 1).unwrap();
    assert!(said(folder.join("big.png")).contains("make it smaller"));
    std::fs::remove_dir_all(folder).unwrap();
}

/// A picture within bounds or one sentence.
fn answered(bytes: &[u8]) {
    match decode_picture("plan.png", bytes) {
        Ok(picture) => {
            assert!(picture.width.max(picture.height) <= MOST_PX_SHOWN);
            assert_eq!(picture.rgba.len() as u64, u64::from(picture.width) * u64::from(picture.height) * 4);
        }
        Err(fault) => {
            let said = Language::English.file_fault(&fault);
            assert!(said.ends_with('.') && !said.contains('\n') && said.len() < 300, "{said}");
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn damage_is_answered(
        size in (1..40_u32, 1..40_u32), as_jpeg: bool, note in prop::option::of(0..=255_u8),
        cut in prop::option::of(0.0..1.0), flips in prop::collection::vec((0.0..1.0, 0..8_u8), 0..12)
    ) {
        let sound = shades(size.0, size.1);
        let mut bytes = if as_jpeg { jpeg(&sound) } else { png(&sound.into()) };
        if let (true, Some(how)) = (as_jpeg, note) {
            bytes = held(&bytes, how);
        }
        let place = |share: f64, len: usize| (share * len as f64) as usize;
        for (share, bit) in flips {
            let at = place(share, bytes.len());
            bytes[at] ^= 1 << bit;
        }
        if let Some(share) = cut {
            bytes.truncate(place(share, bytes.len()));
        }
        answered(&bytes);
    }
}
