//! Every sentence of an answer and every text on a drawing is made by the words: in the language for tests it stands in brackets.

use std::collections::BTreeSet;
use std::ffi::OsString;
use std::path::Path;

use baywright_drawing::sheet::{About, Answered, Of, Paper, Sheet, Size, sheet};
use baywright_drawing::{Fit, Item, Lettering, Projection, Shape, Theme, ViewState, picture, to_svg};
use baywright_planner::assess;
use baywright_planner::model::ShopFace;
use baywright_planner::words::{Language, Locale, Units};

use crate::made::{Typed, must_be_empty};

fn today() -> Option<jiff::civil::Date> {
    Some(jiff::civil::date(2026, 11, 20))
}

/// Runs a command in the language for tests; what it says.
fn said(line: &[&str]) -> String {
    let (mut out, mut errors) = (Vec::new(), Vec::new());
    let line = std::iter::once("baywright").chain(line.iter().copied()).map(OsString::from);
    baywright_desk::run_in(Language::Bracketed, None, line, &mut out, &mut errors);
    out.extend(errors);
    String::from_utf8(out).expect("text")
}

#[test]
fn every_sentence_of_an_answer() {
    let mut found = BTreeSet::new();
    for built_in in baywright_files::EMBEDDED_LAYOUTS {
        let loaded = baywright_files::open(Path::new(built_in.name), today()).expect("a shipped layout");
        let mut typed = Typed::default();
        typed.learn(&loaded.layout);
        for units in ["mm", "ft"] {
            let text = said(&["check", built_in.name, "--marks", "--date", "2026-11-20", "--units", units]);
            let lines: Vec<&str> = text.lines().filter(|line| !line.is_empty()).collect();
            assert!(lines.len() > 10, "{text}");
            found.extend(lines.into_iter().filter(|line| !typed.is_made(line)).map(str::to_owned));
        }
        let json = said(&["check", built_in.name, "--json", "--date", "2026-11-20"]);
        let json: serde_json::Value = serde_json::from_str(&json).expect("data");
        let mut seen = 0;
        sentences(&json, &mut |sentence| {
            seen += 1;
            if !typed.is_made(sentence) {
                found.insert(sentence.to_owned());
            }
        });
        assert!(seen > 10, "{seen}");
    }
    must_be_empty(&found);
}

/// The answer of the command that plans, as text and as data.
#[test]
fn every_sentence_of_a_plan() {
    let mut found = BTreeSet::new();
    for name in ["crowded-bay", "hall"] {
        let loaded = baywright_files::open(Path::new(name), today()).expect("a shipped layout");
        let mut typed = Typed::default();
        typed.learn(&loaded.layout);
        loaded.arrangements.iter().for_each(|(_, own)| typed.learn_arrangement(own));
        let text = said(&["plan", name, "--date", "2026-11-20"]);
        let lines: Vec<&str> = text.lines().filter(|line| !line.is_empty()).collect();
        assert!(lines.len() > 8, "{text}");
        found.extend(lines.into_iter().filter(|line| !typed.is_made(line)).map(str::to_owned));
        let json: serde_json::Value =
            serde_json::from_str(&said(&["plan", name, "--json", "--date", "2026-11-20"])).expect("data");
        sentences(&json, &mut |sentence| {
            if !typed.is_made(sentence) {
                found.insert(sentence.to_owned());
            }
        });
    }
    must_be_empty(&found);
}

/// The parts of data that are for a person; the rest is for programs.
fn sentences(data: &serde_json::Value, tell: &mut impl FnMut(&str)) {
    match data {
        serde_json::Value::Array(all) => all.iter().for_each(|own| sentences(own, tell)),
        serde_json::Value::Object(all) => {
            for (key, own) in all {
                match own.as_str() {
                    Some(text) if ["sentence", "why", "instruction"].contains(&key.as_str()) => tell(text),
                    _ => sentences(own, tell),
                }
            }
        }
        _ => {}
    }
}

#[test]
fn what_cannot_be_done() {
    let typed = Typed::default();
    let mut found = BTreeSet::new();
    for line in [
        &["check", "crowded-bay", "-a", "no such"][..],
        &["draw", "crowded-bay", "--view", "top", "-o", "/no/such/picture.png"],
        &["draw", "crowded-bay", "--view", "top", "-a", "no such", "-o", "/no/such/picture.svg"],
        &["draw", "crowded-bay", "--view", "top", "-o", "/no/such/picture.svg"],
        &["check", "/no/such/file.ron"],
        &["sheet", "crowded-bay", "-o", "/no/such/sheet.txt"],
        &["sheet", "crowded-bay", "-a", "no such", "-o", "/no/such/sheet.pdf"],
        &["sheet", "crowded-bay", "--paper", "a1", "--dpi", "600", "-o", "/no/such/sheet.png"],
        &["sheet", "src", "-o", "/no/such"],
        &["plan", "crowded-bay", "-a", "no such"],
        &["plan", "crowded-bay", "--car", "no such"],
    ] {
        let text = said(line);
        // A path alone would be let through: these are sentences.
        found.extend(
            text.lines().filter(|line| !line.starts_with('⟦') || !typed.is_made(line)).map(str::to_owned),
        );
    }
    must_be_empty(&found);
}

#[test]
fn every_text_on_a_drawing() {
    let mut found = BTreeSet::new();
    let mut seen = 0;
    for built_in in baywright_files::EMBEDDED_LAYOUTS {
        let loaded = baywright_files::open(Path::new(built_in.name), today()).expect("a shipped layout");
        let mut typed = Typed::default();
        typed.learn(&loaded.layout);
        for (_, arrangement) in &loaded.arrangements {
            typed.learn_arrangement(arrangement);
            let assessment = assess(arrangement);
            for units in [Units::Millimetres, Units::Metres, Units::FeetInches] {
                let locale = Locale { language: Language::Bracketed, units, ..Locale::default() };
                let lettering = Lettering { locale, ..Lettering::default() };
                let state = ViewState::default();
                for views in
                    [&[Projection::Top][..], &[Projection::Side], &[Projection::Top, Projection::Side]]
                {
                    let fit = Fit::picture(1_100.0);
                    let page = picture(arrangement, &assessment, &state, views, fit, &lettering);
                    let mut listed: Vec<String> =
                        page.frames.iter().flat_map(|frame| texts_of(frame.items())).collect();
                    let written = written(&to_svg(&page, Theme::Light));
                    listed.extend([page.title.clone(), page.description.clone()]);
                    for text in joined(listed, &typed).into_iter().chain(joined(written, &typed)) {
                        seen += 1;
                        if !typed.is_made(&text) {
                            found.insert(format!("{}: {text:?}", built_in.name));
                        }
                    }
                }
            }
        }
    }
    must_be_empty(&found);
    assert!(seen > 1_000, "{seen}");
}

#[test]
fn every_text_on_a_sheet() {
    let mut found = BTreeSet::new();
    let mut seen = 0;
    for built_in in baywright_files::EMBEDDED_LAYOUTS {
        let loaded = baywright_files::open(Path::new(built_in.name), today()).expect("a shipped layout");
        let mut typed = Typed::default();
        typed.learn(&loaded.layout);
        for (_, arrangement) in &loaded.arrangements {
            typed.learn_arrangement(arrangement);
            let assessment = assess(arrangement);
            let locale = Locale { language: Language::Bracketed, ..Locale::default() };
            let lettering = Lettering { locale, ..Lettering::default() };
            let (state, face) = (ViewState::default(), ShopFace::default());
            let now = Answered { arrangement, assessment: &assessment, name: arrangement.id.as_str() };
            let of = Of { now, before: None, state: &state, face: &face };
            for kind in Sheet::ALL {
                for page in sheet(kind, &of, Paper::landscape(Size::A1), &About::default(), &lettering) {
                    let listed: Vec<String> =
                        page.frames.iter().flat_map(|frame| texts_of(frame.items())).collect();
                    for text in joined(listed, &typed) {
                        seen += 1;
                        if !typed.is_made(&text) {
                            found.insert(format!("{} {kind:?}: {text:?}", built_in.name));
                        }
                    }
                }
            }
        }
    }
    must_be_empty(&found);
    assert!(seen > 1_000, "{seen}");
}

pub(crate) fn texts_of(items: &[Item]) -> Vec<String> {
    let texts = items.iter().filter_map(|item| match &item.shape {
        Shape::Text(text) => Some(text.text.clone()),
        Shape::Dimension(dimension) => Some(dimension.text.text.clone()),
        Shape::Sign(sign) => Some(sign.text.clone()),
        _ => None,
    });
    texts.collect()
}

/// The texts of a picture, in their order.
fn written(svg: &str) -> Vec<String> {
    let texts =
        svg.split('<').filter(|part| ["text ", "title ", "desc "].iter().any(|tag| part.starts_with(tag)));
    let plain = |text: &str| {
        text.replace("&lt;", "<")
            .replace("&gt;", ">")
            .replace("&quot;", "\"")
            .replace("&#39;", "'")
            .replace("&amp;", "&")
    };
    texts.filter_map(|part| part.split_once('>')).map(|(_, text)| plain(text)).collect()
}

/// Texts that were broken into lines are one again: a line begins in brackets, those after it end them; or it begins a name, and the
/// next one goes on with it.
fn joined(lines: Vec<String>, typed: &Typed) -> Vec<String> {
    let mut texts: Vec<String> = Vec::new();
    let open = |text: &String| text.matches('⟦').count() > text.matches('⟧').count() && !text.ends_with('…');
    let begins = |text: String| typed.0.iter().any(|name| name.starts_with(&text));
    for line in lines {
        match texts.last_mut() {
            Some(last) if open(last) || begins(format!("{last} {line}")) => *last = format!("{last} {line}"),
            _ => texts.push(line),
        }
    }
    texts
}
