//! A shop's settings on disk: what is saved reads back, what is wrong is said, nothing stands in for a file unseen.

#![allow(clippy::unwrap_used, reason = "a test that cannot set itself up has failed")]

use std::path::PathBuf;

use baywright_files::{SHOP_FILE, SHOP_VERSION, load_shop, parse_shop, save_shop, shop_in_use, shop_text};
use baywright_planner::model::validate::limits::Unit;
use baywright_planner::model::{
    Known, ParkedKnown, Shop, ShopDocument, ShopFace, ShopFigure, WorkStep, validate,
};
use baywright_planner::words::Language;
use proptest::prelude::*;

fn folder(name: &str) -> PathBuf {
    let folder =
        PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(format!("shop-{}-{name}", std::process::id()));
    let _ = std::fs::remove_dir_all(&folder);
    folder
}

fn refused(text: &str) -> String {
    let faults = parse_shop(SHOP_FILE, text).unwrap_err();
    assert_eq!(faults.len(), 1, "{faults:?}");
    Language::English.file_fault(&faults[0])
}

/// Any settings that are sound: each figure anywhere in its range, to a thousandth of its unit.
fn any_shop() -> impl Strategy<Value = Shop> {
    let shares = proptest::collection::vec(0.0..=1.0_f64, ShopFigure::ALL.len());
    shares.prop_map(|shares| {
        let mut shop = Shop::default();
        for (figure, share) in ShopFigure::ALL.iter().zip(shares) {
            let range = figure.range();
            let low = if range.above { range.low + 0.001 } else { range.low };
            let value = low + (range.high - low) * share;
            let steps = if range.unit == Unit::Days { 1.0 } else { 1_000.0 };
            shop = shop.with(*figure, (value * steps).round() / steps);
        }
        // By eye is no better than by tape.
        for (rough, taped) in [
            (ShopFigure::ByEye, ShopFigure::Taped),
            (ShopFigure::CarPlanned, ShopFigure::CarTaped),
            (ShopFigure::CarPlannedTurn, ShopFigure::CarTapedTurn),
        ] {
            shop = shop.with(rough, shop.get(rough).max(shop.get(taped)));
        }
        shop
    })
}

proptest! {
    #[test]
    fn what_is_saved_reads_back(shop in any_shop()) {
        prop_assert!(validate::shop(&shop).is_empty());
        let again = parse_shop("again", &shop_text(&shop.into()).unwrap()).unwrap().shop;
        prop_assert_eq!(again, shop);
        prop_assert_eq!(again.fingerprint(), shop.fingerprint());
    }

    /// One figure more or less is another mark.
    #[test]
    fn other_settings_have_another_mark(shop in any_shop(), which in 0..ShopFigure::ALL.len()) {
        let figure = ShopFigure::ALL[which];
        let other = shop.with(figure, shop.get(figure) + 0.001);
        prop_assert_ne!(other.fingerprint(), shop.fingerprint());
    }
}

#[test]
fn the_defaults_are_sound_and_what_is_left_out_is_the_default() {
    assert!(validate::shop(&Shop::default()).is_empty());
    assert_eq!(parse_shop("f", "(version: 1)").unwrap(), ShopDocument::default());
    let shop = parse_shop("f", "(version: 1, by_eye_mm: 80, car_planned_deg: 1)").unwrap().shop;
    assert_eq!((shop.by_eye_mm, shop.get(ShopFigure::CarPlannedTurn)), (80.0, 1.0));
    assert_eq!((shop.within(Known::ByEye), shop.within(Known::ByEyeOlder)), (80.0, 50.0));
    assert!((shop.parked_within(ParkedKnown::Planned).1 - 1_f64.to_radians()).abs() < 1e-15);
    let own: Vec<&ShopFigure> = ShopFigure::ALL.iter().filter(|own| shop.is_own(**own)).collect();
    assert_eq!(own, [&ShopFigure::ByEye, &ShopFigure::CarPlannedTurn]);
    // Every figure is written: a later program with other defaults reads the same.
    let text = shop_text(&ShopDocument::default()).unwrap();
    for figure in ShopFigure::ALL {
        assert!(text.contains(&format!("{}: ", figure.name())), "{}", figure.name());
    }
}

/// What a shop says of itself is kept to the last letter, changes no mark, and is not asked of an older file.
#[test]
fn what_a_shop_says_of_itself_reads_back() {
    let face = ShopFace {
        name: Some("Example workshop \u{201c}North\u{201d}".to_owned()),
        picture: Some("our front.png".to_owned()),
        ..ShopFace::default()
    };
    let face = face.with_minutes(WorkStep::Lay, Some(12.5)).with_minutes(WorkStep::PutBack, Some(0.0));
    let document = ShopDocument { face, ..ShopDocument::default() };
    let text = shop_text(&document).unwrap();
    let again = parse_shop("again", &text).unwrap();
    assert_eq!(again, document);
    assert_eq!(again.shop.fingerprint(), Shop::default().fingerprint());
    assert!(!shop_text(&ShopDocument::default()).unwrap().contains("minutes"), "nothing is said for a shop");
    assert_eq!(parse_shop("old", "(version: 1, taped_mm: 10)").unwrap().face, ShopFace::default());
}

/// The shop's instruments read back whole; what is wrong of one is said with its place.
#[test]
fn instruments_are_listed_and_read_back() {
    let text = "(
  version: 4,
  instruments: [
    (name: \"tape 1\", kind: SteelTape, class: \"II\", serial: \"A-1\", checked: \"2026-01-10\", due: \"2027-01-10\",
     reading_mm: 0.5, per_metre_mm: 0.1, ppm_per_k: 11.5),
    (name: \"line\", kind: LineLaser),
  ])";
    let document = parse_shop("shop.ron", text).unwrap();
    assert_eq!(document.instruments.len(), 2);
    assert_eq!(document.instruments[0].due, Some(jiff::civil::date(2027, 1, 10)));
    assert_eq!(parse_shop("again", &shop_text(&document).unwrap()).unwrap(), document);
    assert_eq!(document.shop.fingerprint(), Shop::default().fingerprint());
    assert!(
        !shop_text(&ShopDocument::default()).unwrap().contains("instruments"),
        "none is listed for a shop"
    );
    for (wrong, right, said) in [
        ("name: \"line\"", "name: \"tape 1\"", "instruments[1].name"),
        ("reading_mm: 0.5", "reading_mm: 50", "line 5, column 18, instruments[0].reading_mm: found 50 mm"),
        ("due: \"2027-01-10\"", "due: \"2025-01-10\"", "allowed is 2026-01-10 or later"),
        ("checked: \"2026-01-10\"", "checked: \"2026-02-30\"", "a day that exists"),
        ("kind: LineLaser", "kind: Laser", "LineLaser"),
        ("class: \"II\"", "class: \"\"", "instruments[0].class"),
    ] {
        let faults = parse_shop("shop.ron", &text.replace(wrong, right)).unwrap_err();
        let all: Vec<String> = faults.iter().map(|own| Language::English.file_fault(own)).collect();
        assert!(all.iter().any(|own| own.contains(said)), "{all:?}");
    }
}

#[test]
fn what_is_wrong_is_said_with_its_place() {
    for (text, part) in [
        (
            "(\n  version: 1,\n  by_eye_mm: 0.15)",
            "shop.ron, line 3, column 14, by_eye_mm: found 0.15 mm; allowed is 10 to 1000 mm",
        ),
        (
            "(version: 1, by_eye_mm: 15)",
            "by_eye_mm: found 15 mm; allowed is what is taped or more: from 20 mm",
        ),
        ("(version: 1, survey_age_days: 30.5)", "survey_age_days: found 30.5 days; allowed is 1 to 3650"),
        ("(version: 1, car_taped_deg: 0)", "car_taped_deg: found 0°; allowed is above 0 and up to 10°"),
        ("(version: 1, taped_mm: NaN)", "taped_mm"),
        ("(version: 1, by_eye: 80)", "by_eye"),
        ("(version: 5)", "found version 5, made by a newer program"),
        ("(version: 2, name: \" \")", "name"),
        ("(version: 2, minutes: (park_min: -1))", "minutes.park_min: found -1; allowed is 0 to 1440"),
        ("(version: 2, minutes: (nap_min: 5))", "nap_min"),
        ("(by_eye_mm: 80)", "no version"),
        ("(version: 1, by_eye_mm: \"80\")", "by_eye_mm"),
    ] {
        let said = refused(text);
        assert!(said.contains(part), "{text}: {said}");
    }
}

#[test]
fn a_document_is_saved_whole_and_never_replaced_by_defaults() {
    let folder = folder("saved");
    let path = folder.join("data").join(SHOP_FILE);
    assert_eq!(shop_in_use(None, Some(&path)).unwrap(), Default::default());
    let shop = Shop::default().with(ShopFigure::ByEye, 90.0);
    // The first file of its folder.
    save_shop(&path, &shop.into()).unwrap();
    let used = shop_in_use(None, Some(&path)).unwrap();
    assert_eq!((used.shop, used.path), (shop, Some(path.clone())));
    assert_eq!(load_shop(&path).unwrap(), shop.into());
    // One that is named goes first; it must be there.
    let other = folder.join("other.ron");
    assert!(shop_in_use(Some(&other), Some(&path)).is_err());
    std::fs::write(&other, format!("(version: {SHOP_VERSION}) // mine")).unwrap();
    assert_eq!(shop_in_use(Some(&other), Some(&path)).unwrap().shop, Shop::default());
    // A comment is kept in a copy.
    let saved = save_shop(&other, &shop.into()).unwrap();
    assert_eq!(saved.backup, Some(folder.join("other.ron.bak")));
    // What cannot be read is an error, not the defaults; what is not sound is not written.
    std::fs::write(&path, "(version: 1, by_eye_mm: )").unwrap();
    assert!(shop_in_use(None, Some(&path)).is_err());
    assert!(save_shop(&other, &Shop { by_eye_mm: f64::NAN, ..shop }.into()).is_err());
    assert_eq!(load_shop(&other).unwrap(), shop.into());
    std::fs::remove_dir_all(folder).unwrap();
}
