//! German says all that English says, and nothing in English.

use std::collections::{BTreeMap, BTreeSet};
use std::ffi::OsString;
use std::fmt::Debug;
use std::path::Path;

use baywright_drawing::sheet::{About, Answered, Of, Paper, Sheet, Size, sheet};
use baywright_drawing::{Lettering, ViewState};
use baywright_planner::model::ShopFace;
use baywright_planner::words::{Language, Locale, Units};
use baywright_planner::{Code, assess};

use crate::bracketed::texts_of;
use crate::made::Typed;

/// Texts that are the same in both languages, by their table and name: signs, names of languages, words that both have.
const SAME: [&str; 17] = [
    "proof_file.pen_name",
    "screen.in_english",
    "screen.in_german",
    "screen.millimetres",
    "screen.metres",
    "screen.feet",
    "forms.name",
    "rooms.name",
    "command_line.a_name",
    "command_line.a_shell",
    "command_line.a_length",
    "floor_sheets.name",
    "sheet_command.a_text",
    "proof_file.sensor",
    "proof_file.sha256",
    "proof_file.u95",
    "proof_file.warm",
];

/// Words of English that German has not.
const ENGLISH: [&str; 40] = [
    "the", "is", "are", "of", "and", "to", "by", "it", "its", "with", "from", "not", "than", "where", "what",
    "which", "would", "may", "must", "this", "that", "there", "for", "car", "be", "mark", "limit", "wants",
    "left", "right", "no", "or", "if", "you", "has", "have", "their", "they", "at", "as",
];

fn english_in(text: &str) -> Option<&str> {
    text.split(|c: char| !c.is_alphabetic())
        .find(|word| ENGLISH.iter().any(|own| word.eq_ignore_ascii_case(own)))
}

/// The texts of a table by their names.
fn texts(table: &impl Debug) -> BTreeMap<String, String> {
    let all = format!("{table:#?}");
    let lines = all.lines().filter_map(|line| line.trim().trim_end_matches(',').split_once(": \""));
    lines.map(|(name, text)| (name.to_owned(), text.trim_end_matches('"').to_owned())).collect()
}

#[test]
fn every_fixed_text_is_german() {
    let (one, other) = (Language::English, Language::German);
    let tables = [
        ("screen", texts(one.screen()), texts(other.screen())),
        ("forms", texts(one.forms()), texts(other.forms())),
        ("rooms", texts(one.rooms()), texts(other.rooms())),
        ("shop", texts(one.shop()), texts(other.shop())),
        ("customer", texts(one.customer()), texts(other.customer())),
        ("hand", texts(one.hand()), texts(other.hand())),
        ("visits", texts(one.visits()), texts(other.visits())),
        ("command_line", texts(one.command_line()), texts(other.command_line())),
        ("sheets", texts(one.sheets()), texts(other.sheets())),
        ("floor_sheets", texts(one.floor_sheets()), texts(other.floor_sheets())),
        ("layers", texts(one.layers()), texts(other.layers())),
        ("sheet_command", texts(one.sheet_command()), texts(other.sheet_command())),
        ("never", texts(one.never()), texts(other.never())),
        ("plan", texts(one.plan()), texts(other.plan())),
        ("fits", texts(one.fits()), texts(other.fits())),
        ("owner_report", texts(one.owner_report()), texts(other.owner_report())),
        ("imports", texts(one.imports()), texts(other.imports())),
        ("record", texts(one.record()), texts(other.record())),
        ("record_command", texts(one.record_command()), texts(other.record_command())),
        ("proof_file", texts(one.proof_file()), texts(other.proof_file())),
        ("on_paper", texts(one.on_paper()), texts(other.on_paper())),
        ("permanent", texts(one.permanent()), texts(other.permanent())),
        ("clearing", texts(one.clearing()), texts(other.clearing())),
    ];
    let (mut found, mut seen) = (BTreeSet::new(), 0);
    for (table, english, german) in &tables {
        assert_eq!(english.keys().collect::<Vec<_>>(), german.keys().collect::<Vec<_>>());
        for (name, text) in german {
            seen += 1;
            let is_same = english[name] == *text && text.chars().any(char::is_alphabetic);
            let path = format!("{table}.{name}");
            if (is_same && !SAME.contains(&path.as_str())) || english_in(text).is_some() {
                found.insert(format!("{path}: {text}"));
            }
        }
    }
    assert!(seen > 800, "{seen}");
    let help = |language: Language| -> Vec<String> {
        let all = format!("{:#?}", language.help());
        all.lines().map(str::trim).filter(|line| line.starts_with('"')).map(str::to_owned).collect()
    };
    let (english, german) = (help(one), help(other));
    assert!(english.len() > 20 && english.len() == german.len(), "{} {}", english.len(), german.len());
    // The names of keys are the same.
    let is_said = |text: &String| text.split_whitespace().count() > 2;
    let is_left = |text: &String| english_in(text).is_some() || is_said(text) && english.contains(text);
    found.extend(german.into_iter().filter(is_left));
    for code in Code::ALL {
        if english_in(other.code(code)).is_some() {
            found.insert(other.code(code).to_owned());
        }
    }
    assert!(found.is_empty(), "{found:#?}");
}

fn said(line: &[&str]) -> String {
    let (mut out, mut errors) = (Vec::new(), Vec::new());
    let line = std::iter::once("baywright").chain(line.iter().copied()).map(OsString::from);
    baywright_desk::run_in(Language::English, None, line, &mut out, &mut errors);
    out.extend(errors);
    String::from_utf8(out).expect("text")
}

/// Without what was typed: names, and the procedure's own words.
fn ours(text: &str, typed: &Typed) -> String {
    let mut names: Vec<&String> = typed.0.iter().filter(|name| name.len() > 1).collect();
    names.sort_by_key(|name| std::cmp::Reverse(name.len()));
    names.into_iter().fold(text.to_owned(), |rest, name| rest.replace(name.as_str(), " "))
}

#[test]
fn every_answer_is_german() {
    let mut found = BTreeSet::new();
    for built_in in baywright_files::EMBEDDED_LAYOUTS {
        let day = Some(jiff::civil::date(2026, 11, 20));
        let loaded = baywright_files::open(Path::new(built_in.name), day).expect("a shipped layout");
        let mut typed = Typed::default();
        typed.learn(&loaded.layout);
        for (_, arrangement) in &loaded.arrangements {
            typed.learn_arrangement(arrangement);
        }
        let text = said(&[
            "check",
            built_in.name,
            "--marks",
            "--language",
            "de",
            "--date",
            "2026-11-20",
            "--units",
            "m",
        ]);
        assert!(text.contains("Platz "), "{text}");
        // What is to be had ready is the procedure's own words, with its sizes as they are shown.
        let told = || text.lines().filter(|line| !line.contains("Bereithalten: "));
        for line in told() {
            let own = ours(line, &typed);
            if let Some(word) = english_in(&own) {
                found.insert(format!("{}: {word:?} in {line}", built_in.name));
            }
        }
        // With a comma, as it is written where German is spoken.
        let numbers = told().map(|line| ours(line, &typed)).collect::<String>();
        for word in numbers.split_whitespace().filter(|own| has_point(own)) {
            found.insert(format!("{}: {word}", built_in.name));
        }
    }
    assert!(found.is_empty(), "{found:#?}");
}

/// Every sheet of every shipped bay, on paper so large that hardly a line is broken.
#[test]
fn every_sheet_is_german() {
    let (mut found, mut seen) = (BTreeSet::new(), 0);
    for built_in in baywright_files::EMBEDDED_LAYOUTS {
        let day = Some(jiff::civil::date(2026, 11, 20));
        let loaded = baywright_files::open(Path::new(built_in.name), day).expect("a shipped layout");
        let mut typed = Typed::default();
        typed.learn(&loaded.layout);
        for (_, arrangement) in &loaded.arrangements {
            typed.learn_arrangement(arrangement);
            let assessment = assess(arrangement);
            let locale = Locale::of(Language::German, Units::Metres);
            let lettering = Lettering { locale, ..Lettering::default() };
            let (state, face) = (ViewState::default(), ShopFace::default());
            let now = Answered { arrangement, assessment: &assessment, name: arrangement.id.as_str() };
            let of = Of { now, before: None, state: &state, face: &face };
            for kind in Sheet::ALL {
                for page in sheet(kind, &of, Paper::landscape(Size::A1), &About::default(), &lettering) {
                    // Names may be broken between lines; one that a view had no room for is cut, and no name any more.
                    let listed: Vec<String> = page
                        .frames
                        .iter()
                        .flat_map(|frame| texts_of(frame.items()))
                        .filter(|text| !text.contains("Bereithalten: ") && !text.ends_with('…'))
                        .collect();
                    seen += listed.len();
                    let text = ours(&format!("{} {}", page.title, listed.join(" ")), &typed);
                    if let Some(word) = english_in(&text) {
                        found.insert(format!("{} {kind:?}: {word:?} in {text}", built_in.name));
                    }
                    let of_numbers = text.split_whitespace().filter(|own| has_point(own));
                    found.extend(of_numbers.map(|own| format!("{} {kind:?}: {own}", built_in.name)));
                }
            }
        }
    }
    assert!(found.is_empty(), "{found:#?}");
    assert!(seen > 1_000, "{seen}");
}

/// The command makes sheets with the language's own way of writing days.
#[test]
fn a_sheet_has_the_day_as_germans_write_it() {
    let folder = std::env::temp_dir().join(format!("baywright-german-{}", std::process::id()));
    std::fs::create_dir_all(&folder).expect("a scratch folder");
    let path = folder.join("blatt.svg");
    let path = path.to_str().expect("text");
    let day = ["--language", "de", "--date", "2026-11-20"];
    let told = said(&[&["sheet", "clear-bay", "--kind", "marks", "--out", path], &day[..]].concat());
    let made = std::fs::read_dir(&folder).expect("a folder").filter_map(Result::ok);
    let all: String = made.filter_map(|own| std::fs::read_to_string(own.path()).ok()).collect();
    assert!(all.contains("20.11.2026") && !all.contains("2026-11-20"), "{told}");
    assert!(all.contains("Markenblatt"), "{told}");
    std::fs::remove_dir_all(folder).expect("removed");
}

/// A number with a point, as English has it.
fn has_point(word: &str) -> bool {
    let digit = |c: Option<char>| c.is_some_and(|c| c.is_ascii_digit());
    word.matches('.').count() == 1
        && word.split_once('.').is_some_and(|(a, b)| digit(a.chars().last()) && digit(b.chars().next()))
}

#[test]
fn the_language_is_asked_for_before_anything_is_read() {
    for line in [
        &["--language", "de", "--help"][..],
        &["--language=de", "check", "--help"],
        &["check", "--help", "--language", "de"],
    ] {
        let text = said(line);
        assert!(text.contains("Sprache"), "{text}");
    }
    assert!(said(&["--help"]).contains("The language"), "{}", said(&["--help"]));
    // What there is not is told, with what there is.
    let wrong = said(&["check", "crowded-bay", "--language", "xy"]);
    assert!(wrong.contains("xy") && wrong.contains("de"), "{wrong}");
    let in_german = said(&["--language", "de", "check", "crowded-bay", "-a", "gibt es nicht"]);
    assert!(in_german.contains("keine Aufstellung"), "{in_german}");
}
