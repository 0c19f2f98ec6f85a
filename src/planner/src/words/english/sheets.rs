//! English of the same: see `words/sheets.rs`.

use super::{About, Language};
use crate::model::Placement;
use crate::words::sheets::SheetTexts;

/// The fixed texts.
pub const TEXTS: SheetTexts = SheetTexts {
    language: Language::English,
    marks: "Mark sheet",
    blank: "Mark sheet, to fill in",
    findings: "Findings report",
    customer: "What this job takes",
    sheet: "Sheet",
    shop: "Shop",
    bay: "Bay",
    set_up: "Set-up",
    car: "Car",
    aiming: "Aiming",
    procedure: "Procedure",
    file: "File",
    day: "Date",
    revision: "Revision",
    page: "Page",
    now: "Now",
    on_examples: "Some figures are examples, made up to show how it works: never aim a real car by this sheet.",
    measure_bar: "Measure this bar: if it is not 100 mm, scale nothing off this sheet; use the tape figures only.",
};

pub fn page_of(at: usize, all: usize) -> String {
    format!("{at} of {all}")
}

pub fn verdict_of(name: &str, verdict: &str) -> String {
    format!("{name}: {verdict}")
}

pub fn page_title(sheet: &str, set_up: &str, (at, all): (usize, usize)) -> String {
    let of = if set_up.is_empty() { sheet.to_owned() } else { format!("{sheet}: {set_up}") };
    if all > 1 { format!("{of}, page {at} of {all}") } else { of }
}

impl About<'_> {
    /// How high the middle of a target's face is set.
    pub fn set_height(&self, placement: &Placement, height_mm: f64) -> String {
        let name = self.target_named(placement.target.kind, placement.id.as_str());
        format!("Set the {name}: the middle of its face {} above the floor.", self.length(height_mm))
    }
}
