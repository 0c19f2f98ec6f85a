//! Marks that stay, in a layout's file.

#![allow(clippy::unwrap_used, reason = "a test that cannot set itself up has failed")]

use baywright_files::{EMBEDDED_LAYOUTS, layout_text, parse_layout};
use baywright_planner::words::Language;

/// What version 12 of layouts says of a mark that stays is kept, may be left out, and is refused by field where it cannot be.
#[test]
fn how_well_a_mark_is_laid_and_where_its_line_goes_is_kept() {
    let own = |text: &str| text.contains("arrangements:") && !text.contains(" marks: [");
    let file = EMBEDDED_LAYOUTS.iter().find(|e| own(e.text)).unwrap();
    let with = |added: &str| {
        let marks = format!(
            "marks: [(name: \"a\", at_mm: (100, 200){added}), (name: \"b\", at_mm: (900, 200))], arrangements:"
        );
        let text = file.text.replacen("arrangements:", &marks, 1);
        parse_layout("f.ron", "f", &text).map_err(|faults| Language::English.file_fault(&faults[0]))
    };
    let told = with(", laid_within_mm: 2.5, line_to: \"b\"").unwrap();
    assert_eq!(told.bay.marks[0].laid_within_mm, Some(2.5));
    assert_eq!(told.bay.floor_lines().count(), 1);
    let text = layout_text(&told).unwrap();
    assert_eq!(parse_layout("f.ron", "f", &text).unwrap().bay.marks, told.bay.marks);
    let bare = with("").unwrap();
    assert!(bare.bay.marks.iter().all(|own| own.laid_within_mm.is_none() && own.line_to.is_none()));
    // One of the version before opens as it was.
    let text = layout_text(&bare).unwrap();
    let before = parse_layout("f.ron", "f", &text.replacen("version: 12", "version: 11", 1)).unwrap();
    assert_eq!(before.bay, bare.bay);
    // A line to what is not there leaves none.
    assert_eq!(with(", line_to: \"gone\"").unwrap().bay.floor_lines().count(), 0);
    for (added, field) in [
        (", laid_within_mm: 0", "marks[0].laid_within_mm"),
        (", laid_within_mm: 10.1", "marks[0].laid_within_mm"),
        (", line_to: \"a\"", "marks[0].line_to"),
        (", line_to: \"\"", "marks[0].line_to"),
    ] {
        let fault = with(added).unwrap_err();
        assert!(fault.contains(field), "{fault}");
    }
}
