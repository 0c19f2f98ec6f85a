//! German says all that English says, and nothing in English.

use std::collections::{BTreeMap, BTreeSet};
use std::ffi::OsString;
use std::fmt::Debug;
use std::path::Path;

use baywright_planner::Code;
use baywright_planner::words::Language;

use crate::made::Typed;

/// Texts that are the same in both languages, by their table and name: signs, names of languages, words that both have.
const SAME: [&str; 12] = [
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
        ("imports", texts(one.imports()), texts(other.imports())),
        ("on_paper", texts(one.on_paper()), texts(other.on_paper())),
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
        let has_point = |word: &str| {
            let digit = |c: Option<char>| c.is_some_and(|c| c.is_ascii_digit());
            word.split_once('.').is_some_and(|(a, b)| digit(a.chars().last()) && digit(b.chars().next()))
        };
        let numbers = told().map(|line| ours(line, &typed)).collect::<String>();
        for word in numbers.split_whitespace().filter(|own| own.matches('.').count() == 1 && has_point(own)) {
            found.insert(format!("{}: {word}", built_in.name));
        }
    }
    assert!(found.is_empty(), "{found:#?}");
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
