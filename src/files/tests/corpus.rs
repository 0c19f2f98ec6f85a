//! Files made by hand to be nasty, files that fuzzing found interesting, and the shipped files with a few thousand slips of a
//! finger: each is answered, none with a panic. Asked of them is what the fuzz targets ask, which are so compiled here.

#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test that cannot set itself up has failed")]

use std::path::{Path, PathBuf};

use baywright_files::{EMBEDDED_LAYOUTS, EMBEDDED_PROFILES, shop_text};
use baywright_planner::model::{Shop, ShopFigure};

#[path = "../fuzz/bodies/dxf.rs"]
mod dxf;
#[path = "../fuzz/bodies/journal.rs"]
mod journal;
#[path = "../fuzz/bodies/layout.rs"]
mod layout;
#[path = "../fuzz/bodies/picture.rs"]
mod picture;
#[path = "../fuzz/bodies/profile.rs"]
mod profile;
#[path = "../fuzz/bodies/record.rs"]
mod record;
#[path = "../fuzz/bodies/shop.rs"]
mod shop;
#[path = "../fuzz/bodies/triggers.rs"]
mod triggers;

fn corpus(kind: &str) -> Vec<Vec<u8>> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/corpus").join(kind);
    let mut paths: Vec<PathBuf> = std::fs::read_dir(folder).unwrap().map(|e| e.unwrap().path()).collect();
    paths.sort();
    assert!(paths.len() >= 20, "{kind}: only {} files", paths.len());
    paths.iter().map(|path| std::fs::read(path).unwrap()).collect()
}

/// Asks of each file; so many of them at least are sound.
fn answered(kind: &str, ask: impl Fn(&[u8]) -> bool, least: usize) {
    let sound = corpus(kind).iter().filter(|bytes| ask(bytes)).count();
    assert!(sound >= least, "{kind}: only {sound} files are sound");
}

#[test]
fn layouts_are_answered() {
    answered("layout", layout::ask, 3);
}

#[test]
fn profiles_are_answered() {
    answered("profile", profile::ask, 3);
}

#[test]
fn trigger_lists_are_answered() {
    answered("triggers", triggers::ask, 3);
}

#[test]
fn shop_settings_are_answered() {
    answered("shop", shop::ask, 6);
}

#[test]
fn records_are_answered() {
    answered("record", record::ask, 6);
}

#[test]
fn pictures_are_answered() {
    answered("picture", picture::ask, 3);
}

/// The drawings that another's writer wrote.
fn drawings() -> Vec<Vec<u8>> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/dxf");
    let mut paths: Vec<PathBuf> = std::fs::read_dir(folder).unwrap().map(|e| e.unwrap().path()).collect();
    paths.retain(|path| path.extension().is_some_and(|own| own == "dxf"));
    paths.sort();
    assert!(paths.len() >= 4, "{paths:?}");
    paths.iter().map(|path| std::fs::read(path).unwrap()).collect()
}

#[test]
fn drawings_are_answered() {
    assert!(drawings().iter().all(|own| dxf::ask(own)));
    answered("dxf", dxf::ask, 8);
}

#[test]
fn journals_are_answered() {
    answered("journal", journal::ask, 8);
}

/// Small, fixed pseudo-random numbers (splitmix64).
struct Dice(u64);

impl Dice {
    fn below(&mut self, count: usize) -> usize {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        (z ^ (z >> 31)) as usize % count.max(1)
    }

    fn one<'a, T: ?Sized>(&mut self, of: &[&'a T]) -> &'a T {
        of[self.below(of.len())]
    }
}

/// What is put in the place of a number or a word.
const FIGURES: [&str; 16] = [
    "0",
    "-1",
    "1",
    "0.001",
    "90",
    "-180",
    "360.0",
    "1e4",
    "99999",
    "1e7",
    "1e300",
    "-1e300",
    "NaN",
    "inf",
    "1e-300",
    "18446744073709551616",
];

/// The runs of letters and digits of a text, as from where to where.
fn words(text: &str) -> Vec<(usize, usize)> {
    let mut all = Vec::new();
    let mut start = None;
    for (at, letter) in text.char_indices().chain([(text.len(), ' ')]) {
        let is_in = letter.is_alphanumeric() || matches!(letter, '.' | '-' | '_');
        match (is_in, start) {
            (true, None) => start = Some(at),
            (false, Some(from)) => {
                all.push((from, at));
                start = None;
            }
            _ => {}
        }
    }
    all
}

/// A text with a few slips: figures and words changed, lines left out, given twice or swapped, bytes cut off or put in.
fn slipped(text: &str, dice: &mut Dice) -> Vec<u8> {
    let mut text = text.to_owned();
    for _ in 0..=dice.below(3) {
        match dice.below(6) {
            0..=2 => {
                let all = words(&text);
                let is_number = |own: &&(usize, usize)| text[own.0..own.1].parse::<f64>().is_ok();
                let numbers: Vec<&(usize, usize)> = all.iter().filter(is_number).collect();
                if all.is_empty() {
                    break;
                }
                let &(from, to) = if dice.below(4) > 0 && !numbers.is_empty() {
                    dice.one(&numbers)
                } else {
                    &all[dice.below(all.len())]
                };
                let other = all[dice.below(all.len())];
                let new = match dice.below(4) {
                    0 => text[other.0..other.1].to_owned(),
                    1 => dice.one(&FIGURES).to_owned(),
                    _ => match text[from..to].parse::<f64>() {
                        Ok(number) => format!("{}", number * (dice.below(2_001) as f64 / 1_000.0)),
                        Err(_) => dice.one(&FIGURES).to_owned(),
                    },
                };
                text.replace_range(from..to, &new);
            }
            3 | 4 => {
                let mut lines: Vec<&str> = text.lines().collect();
                let (at, other) = (dice.below(lines.len()), dice.below(lines.len()));
                match dice.below(3) {
                    0 => drop(lines.remove(at)),
                    1 => lines.insert(other, lines[at]),
                    _ => lines.swap(at, other),
                }
                text = lines.join("\n");
            }
            _ => {
                let mut bytes = text.into_bytes();
                let at = dice.below(bytes.len());
                match dice.below(3) {
                    0 => bytes.truncate(at),
                    1 => bytes.insert(at, dice.below(256) as u8),
                    _ => bytes[at] = b"()[]{},:\"-+.e/*\n"[dice.below(16)],
                }
                text = String::from_utf8_lossy(&bytes).into_owned();
            }
        }
        if text.trim().is_empty() {
            break;
        }
    }
    text.into_bytes()
}

/// How many slips each kind of file is tried with: a sample, or as many as the environment says.
fn slips(sample: u64) -> u64 {
    std::env::var("BAYWRIGHT_SLIPS").ok().and_then(|count| count.parse().ok()).unwrap_or(sample)
}

/// Asks of so many texts with slips in them; both sound and refused ones are among them.
fn slips_are_answered(kind: &str, texts: &[String], count: u64, ask: impl Fn(&[u8]) -> bool) {
    let mut sound = 0;
    for seed in 0..count {
        let mut dice = Dice(seed.wrapping_mul(0xd134_2543_de82_ef95));
        let bytes = slipped(&texts[dice.below(texts.len())], &mut dice);
        let asked = std::panic::catch_unwind(std::panic::AssertUnwindSafe(|| ask(&bytes)));
        assert!(asked.is_ok(), "{kind}, slip {seed}:\n{}", String::from_utf8_lossy(&bytes));
        sound += u64::from(asked.is_ok_and(|is_sound| is_sound));
    }
    assert!(sound * 20 >= count && sound * 20 <= 19 * count, "{kind}: {sound} of {count} are sound");
}

#[test]
fn shipped_files_with_slips_are_answered() {
    let layouts: Vec<String> = EMBEDDED_LAYOUTS.iter().map(|own| own.text.to_owned()).collect();
    slips_are_answered("layout", &layouts, slips(300), layout::ask);
    let profiles: Vec<String> = EMBEDDED_PROFILES.iter().map(|own| own.text.to_owned()).collect();
    slips_are_answered("profile", &profiles, slips(300), profile::ask);
    let own = |by: f64| {
        let shop = Shop::default();
        // To three places, days to whole ones.
        let figure = |own: f64| if own > 300.0 { own.round() } else { (own * 1e3).round() / 1e3 };
        let with = |shop: Shop, own: &ShopFigure| shop.with(*own, figure(shop.get(*own) * by));
        shop_text(&ShopFigure::ALL.iter().fold(shop, with).into()).unwrap()
    };
    slips_are_answered("shop", &[own(1.0), own(0.9), own(1.1)], slips(300), shop::ask);
    let lists: Vec<String> = corpus("triggers")
        .into_iter()
        .filter(|bytes| triggers::ask(bytes))
        .map(|bytes| String::from_utf8_lossy(&bytes).into_owned())
        .collect();
    slips_are_answered("triggers", &lists, slips(300), triggers::ask);
    let drawings: Vec<String> = drawings().into_iter().map(|own| String::from_utf8(own).unwrap()).collect();
    slips_are_answered("dxf", &drawings, slips(150), dxf::ask);
}
