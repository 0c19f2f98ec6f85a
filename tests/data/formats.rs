//! The examples of the formats in DEVELOPERS.md load as they stand.

use std::path::Path;

use baywright_files::{parse_layout, parse_profile};

/// The fenced blocks that follow a line with just this label.
fn blocks(text: &str, label: &str) -> Vec<(usize, String)> {
    let lines: Vec<&str> = text.lines().collect();
    let mut found = Vec::new();
    for (i, _) in lines.iter().enumerate().filter(|(_, line)| line.trim() == label) {
        let rest = lines.iter().skip(i + 1).skip_while(|line| line.trim().is_empty());
        let mut rest = rest.copied();
        assert_eq!(rest.next(), Some("```ron"), "line {} is followed by a block", i + 1);
        let block: Vec<&str> = rest.take_while(|line| *line != "```").collect();
        found.push((i + 2, block.join("\n")));
    }
    found
}

#[test]
fn the_documented_examples_load() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("DEVELOPERS.md");
    let text = std::fs::read_to_string(path).unwrap();
    let profiles = blocks(&text, "profile example");
    let layouts = blocks(&text, "layout example");
    assert!(profiles.len() >= 2 && !layouts.is_empty(), "{} and {} examples", profiles.len(), layouts.len());
    for (line, block) in &profiles {
        let profile = parse_profile(&format!("DEVELOPERS.md at line {line}"), "example", block);
        assert!(profile.is_ok(), "{:?}", profile.unwrap_err()[0]);
    }
    for (line, block) in &layouts {
        let layout = parse_layout(&format!("DEVELOPERS.md at line {line}"), "example", block);
        assert!(layout.is_ok(), "{:?}", layout.unwrap_err()[0]);
    }
}

#[test]
fn a_block_is_found_and_a_missing_one_is_noticed() {
    let text = "x\n\nprofile example\n\n```ron\n(a: 1)\n```\nlayout example, not\n";
    assert_eq!(blocks(text, "profile example"), [(4, "(a: 1)".to_owned())]);
    assert_eq!(blocks(text, "layout example"), []);
}
