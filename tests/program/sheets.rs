//! `baywright sheet`, run as a program: files of every kind, folders, and what goes wrong.

use std::path::Path;
use std::process::Output;

use baywright_files::EMBEDDED_LAYOUTS;

use crate::run::{baywright, scratch};

fn run(arguments: &[&str]) -> Output {
    baywright(&[&["sheet"], arguments].concat())
}

fn text(bytes: &[u8]) -> String {
    String::from_utf8(bytes.to_vec()).expect("text")
}

fn path(of: &Path) -> &str {
    of.to_str().expect("text")
}

/// Pages of a PDF: their objects say so, and the writer packs none of them away.
fn is_pdf(file: &Path) -> bool {
    std::fs::read(file).is_ok_and(|bytes| bytes.starts_with(b"%PDF-") && bytes.len() > 10_000)
}

/// Every sheet of every shipped bay is made, a folder at a time; each goes by its layout's name.
#[test]
fn every_sheet_of_every_shipped_bay_is_made() {
    let folder = scratch("sheet", "shipped");
    let kinds = "marks,blank,findings,customer,floor,concrete,electric";
    let output = run(&["bay-layouts", "--kind", kinds, "--out", path(&folder)]);
    let errors = text(&output.stderr);
    assert_eq!(output.status.code(), Some(0), "{errors}");
    let all = EMBEDDED_LAYOUTS.len();
    assert_eq!(text(&output.stdout).lines().count(), all);
    for own in EMBEDDED_LAYOUTS {
        assert!(is_pdf(&folder.join(own.name).with_extension("pdf")), "{}", own.name);
    }
    // How far it is, one after another.
    let told: Vec<&str> = errors.lines().collect();
    assert_eq!(told.len(), all, "{errors}");
    for (at, line) in told.iter().enumerate() {
        assert!(line.starts_with(&format!("{} of {all}: ", at + 1)), "{line}");
    }
    std::fs::remove_dir_all(folder).expect("removed");
}

/// The floor plans of every shipped bay go on every paper that a workshop, or who prints for it, has.
#[test]
fn every_floor_plan_is_made_on_every_paper() {
    let folder = scratch("sheet", "floors");
    for paper in ["a4", "a3", "a1", "letter", "tabloid"] {
        let kinds = "floor,concrete,electric";
        let output = run(&["bay-layouts", "--kind", kinds, "--paper", paper, "--out", path(&folder)]);
        assert_eq!(output.status.code(), Some(0), "{paper}: {}", text(&output.stderr));
        for own in EMBEDDED_LAYOUTS {
            assert!(is_pdf(&folder.join(own.name).with_extension("pdf")), "{paper}: {}", own.name);
        }
    }
    std::fs::remove_dir_all(folder).expect("removed");
}

/// A PNG is as many dots as its paper at that resolution, and says how large it is to be printed (PNG, 11.3.4.3, from memory: a
/// `pHYs` chunk, dots a metre).
#[test]
fn a_picture_is_as_large_as_was_asked_for() {
    let folder = scratch("sheet", "png");
    let file = folder.join("blank.png");
    let output = run(&["clear-bay", "-k", "blank", "--paper", "a4", "--dpi", "100", "-o", path(&file)]);
    assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
    let bytes = std::fs::read(&file).expect("the picture");
    let picture = image::load_from_memory(&bytes).expect("a picture").to_rgb8();
    // 210 and 297 mm at 100 dots to 25.4 mm.
    assert_eq!(picture.dimensions(), (827, 1169));
    let at = bytes.windows(4).position(|own| own == b"pHYs").expect("how large it is");
    assert_eq!(bytes[at + 4..at + 8], 3937_u32.to_be_bytes());
    let dark = picture.pixels().filter(|own| own.0.iter().all(|level| *level < 64)).count();
    assert!(dark > 5_000, "something is written on it: {dark}");
    // Several pages are several pictures, numbered.
    let file = folder.join("all.svg");
    let output = run(&["clear-bay", "-k", "marks,blank", "-o", path(&file)]);
    let written = text(&output.stdout);
    assert!(written.lines().count() > 2, "{written}");
    for line in written.lines() {
        assert!(std::fs::read_to_string(line).expect("a picture").starts_with("<svg"), "{line}");
    }
    std::fs::remove_dir_all(folder).expect("removed");
}

/// One file goes to standard output, byte by byte the one that would be written.
#[test]
fn one_file_goes_to_standard_output() {
    let folder = scratch("sheet", "piped");
    let file = folder.join("sheet.pdf");
    let line = ["crowded-bay", "-k", "marks,findings", "-o"];
    let written = run(&[&line[..], &[path(&file)]].concat());
    assert_eq!(written.status.code(), Some(0), "{}", text(&written.stderr));
    let piped = run(&[&line[..], &["-"]].concat());
    assert_eq!(piped.status.code(), Some(0), "{}", text(&piped.stderr));
    assert!(piped.stdout == std::fs::read(&file).expect("the sheet"));
    let name =
        baywright_files::open(Path::new("crowded-bay"), None).expect("a bay").arrangements[0].0.to_string();
    let one = run(&["crowded-bay", "-a", &name, "-o", "-", "--format", "png", "--dpi", "60"]);
    assert!(one.stdout.starts_with(b"\x89PNG"), "{}", text(&one.stderr));
    std::fs::remove_dir_all(folder).expect("removed");
}

/// Nothing that sheets are made from is replaced by them, nor what belongs to it.
#[test]
fn no_sheet_replaces_what_it_is_made_from() {
    let folder = scratch("sheet", "inputs");
    let [shop, face, bay, under] =
        ["shop.ron", "face.png", "bay.ron", "under.png"].map(|name| folder.join(name));
    std::fs::write(&shop, "(version: 2, picture: \"face.png\")").expect("written");
    let layout = std::fs::read_to_string("bay-layouts/clear-bay.ron").expect("a layout");
    let opens = layout.find('(').expect("a layout") + 1;
    let (begins, rest) = layout.split_at(opens);
    let under_it = "\n    underlay: (picture: \"under.png\", at_mm: (0, 0), mm_per_px: 10),";
    std::fs::write(&bay, format!("{begins}{under_it}{rest}")).expect("written");
    std::fs::create_dir_all(folder.join("vehicle-profiles")).expect("a folder");
    for car in std::fs::read_dir("vehicle-profiles").expect("cars").flatten() {
        std::fs::copy(car.path(), folder.join("vehicle-profiles").join(car.file_name())).expect("copied");
    }
    for own in [&face, &under] {
        std::fs::write(own, "mine").expect("written");
    }
    for own in [&face, &under] {
        let output = run(&[path(&bay), "--shop", path(&shop), "-k", "blank", "-o", path(own)]);
        let errors = text(&output.stderr);
        assert_eq!(output.status.code(), Some(3), "{errors}");
        assert!(errors.contains("it is what this is made from"), "{errors}");
        assert_eq!(std::fs::read_to_string(own).expect("there"), "mine");
    }
    std::fs::remove_dir_all(folder).expect("removed");
}

/// More layouts than can be answered for are refused before any is read.
#[test]
fn a_folder_is_limited() {
    let folder = scratch("sheet", "many");
    for at in 0..=baywright_files::MOST_LAYOUTS {
        std::fs::write(folder.join(format!("{at}.ron")), "(version: 1").expect("written");
    }
    let output = run(&[path(&folder), "-o", path(&folder.join("out"))]);
    assert_eq!(output.status.code(), Some(2));
    let errors = text(&output.stderr);
    assert!(errors.contains("More than 1000 bay layouts are too many at once"), "{errors}");
    assert!(!folder.join("out").exists());
    std::fs::remove_dir_all(folder).expect("removed");
}

#[test]
fn what_goes_wrong_is_named() {
    let folder = scratch("sheet", "wrong");
    let [bays, out] = ["bays", "out"].map(|name| folder.join(name));
    std::fs::create_dir_all(&bays).expect("a folder");
    std::fs::copy("bay-layouts/clear-bay.ron", bays.join("good.ron")).expect("copied");
    std::fs::write(bays.join("broken.ron"), "(version: 1").expect("written");
    for car in std::fs::read_dir("vehicle-profiles").expect("cars").flatten() {
        std::fs::create_dir_all(bays.join("vehicle-profiles")).expect("a folder");
        std::fs::copy(car.path(), bays.join("vehicle-profiles").join(car.file_name())).expect("copied");
    }
    let output = run(&[path(&bays), "-o", path(&out)]);
    let errors = text(&output.stderr);
    assert_eq!(output.status.code(), Some(2), "{errors}");
    assert!(errors.contains("No sheets of 1 of 2: ") && errors.contains("broken.ron"), "{errors}");
    assert!(is_pdf(&out.join("good.pdf")) && !out.join("broken.pdf").exists());
    let json = run(&[path(&bays), "-o", path(&out), "--json", "-q"]);
    let data: serde_json::Value = serde_json::from_slice(&json.stderr).expect("data");
    assert_eq!(data["format"], "baywright-errors");
    for (line, said) in [
        (&["clear-bay", "-o", "sheet.txt"][..], "give a name that ends in .pdf, .svg or .png"),
        (&["clear-bay", "-o", "-", "--format", "svg"], "Standard output takes one file"),
        (&["clear-bay", "-a", "no such", "-o", "sheet.pdf"], "found no set-up \"no such\""),
        (&["clear-bay", "--before", "no such", "-o", "sheet.pdf"], "found no set-up \"no such\""),
        (&["clear-bay", "--paper", "a1", "--dpi", "600", "-o", "sheet.png"], "is too large"),
        (&["vehicle-profiles", "-o", "sheets"], "found no bay layout in this folder"),
        (&["clear-bay", "--kind", "mark", "-o", "sheet.pdf"], "'marks'"),
    ] {
        let output = run(line);
        let errors = text(&output.stderr);
        assert!(output.status.code() > Some(1), "{line:?}");
        assert!(errors.contains(said), "{line:?}: {errors}");
    }
    assert!(!Path::new("sheet.pdf").exists() && !Path::new("sheets").exists());
    std::fs::remove_dir_all(folder).expect("removed");
}
