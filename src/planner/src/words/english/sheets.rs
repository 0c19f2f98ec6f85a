//! English of the same: see `words/sheets.rs`.

use super::{About, Language, Units, sentence_start};
use baywright_geometry::marks::{Construction, Wheel};

use super::marks::wheel_name;
use crate::assessment::{Finding, Step};
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
    bay: "Bay, set-up",
    car: "Car",
    aiming: "Aiming",
    procedure: "Procedure",
    file: "File",
    day: "Date",
    revision: "Revision",
    record: "Record",
    page: "Page",
    on_examples: "Some figures are examples, made up to show how it works: never aim a real car by this sheet.",
    before_start: "Before you start",
    move_first: "Move first",
    lay: "Lay the marks, in this order",
    set_targets: "Set the targets",
    from_to: "Marks",
    must_read: "Must be",
    was_read: "Read",
    read_by: "Read by",
    read_at: "Date, time",
    running: "Figures along an edge run on from 0: never add.",
    sketch: "Sketch",
    sketch_about: "Draw the car from above, its nose to the right, the targets and the numbered marks. One square is what you make it.",
    marks_by_hand: "The marks",
    mark: "Mark",
    ahead: "Ahead of the rearmost mark",
    aside: "Left or right of the middle line",
    laid: "Laid",
    height_by_hand: "Middle of the target's face above the floor",
    before: "Today",
    after: "When we have cleared it",
    no_promise: "This sheet is about the floor and what stands on it. It does not say that the car has no other fault, or \
                 what the job will cost.",
    measure_bar: "Measure this bar: if it is not 100 mm, scale nothing off this sheet; tape figures only.",
    both_cautions: "The vehicle maker's procedure decides. Chock the wheels and set the brake as told, before anyone lies down near the \
                    car. Keep the laser below eye level and off shiny panels; look away from it.",
};

pub fn in_bay(bay: &str, set_up: &str) -> String {
    format!("{bay}, {set_up}")
}

pub fn for_car(car: &str, shop: &str) -> String {
    if shop.is_empty() { format!("For: {car}") } else { format!("For: {car}. From: {shop}") }
}

pub fn page_of(at: usize, all: usize) -> String {
    format!("{at} of {all}")
}

pub fn between(from: &str, to: &str) -> String {
    if from == to { format!("{from}, laid twice") } else { format!("{from} \u{2013} {to}") }
}

pub fn read_tape_in(units: Units) -> String {
    let unit = match units {
        Units::Millimetres => ", in millimetres",
        Units::Metres => ", in metres",
        Units::FeetInches => "",
    };
    format!("Read with the tape{unit}")
}

pub fn numbered(number: &str, said: &str) -> String {
    format!("({number}) {said}")
}

pub fn within(figure: &str, allowance: &str) -> String {
    format!("{figure} ± {allowance}")
}

pub fn starred(figure: &str) -> String {
    format!("{figure} *")
}

pub fn rests(which: &str, rests_on: &str) -> String {
    format!("{which}: {rests_on}; measure that on this car.")
}

pub fn verdict_of(name: &str, verdict: &str) -> String {
    format!("{name}: {verdict}")
}

pub fn page_title(sheet: &str, set_up: &str, (at, all): (usize, usize)) -> String {
    let of = if set_up.is_empty() { sheet.to_owned() } else { format!("{sheet}: {set_up}") };
    if all > 1 { format!("{of}, page {at} of {all}") } else { of }
}

impl About<'_> {
    /// One thing to do, as a sentence.
    pub fn step_sentence(&self, step: &Step) -> String {
        format!("{}.", sentence_start(&self.step(step)))
    }

    /// How high the middle of a target's face is set.
    pub fn set_height(&self, placement: &Placement, height_mm: f64) -> String {
        let name = self.target_named(placement.target.kind, placement.id.as_str());
        format!("Set the {name}: the middle of its face {} over a level floor.", self.length(height_mm))
    }

    /// How several marks are laid that are laid alike, each at a wheel of its own.
    pub fn laid_at_wheels(&self, construction: &Construction) -> Option<String> {
        match construction {
            Construction::Outboard { distance, .. } => Some(format!(
                "At each of these wheels, {} outboard of the tyre's outer side, square to the car, level with the wheel's middle:",
                self.length(*distance)
            )),
            Construction::WheelPoint { .. } => Some(
                "At each of these wheels, bring the middle of the tyre to the floor with the plumb line, from hub or rim, not from the \
                 sidewall:"
                    .to_owned(),
            ),
            _ => None,
        }
    }

    /// Which mark is laid so at which wheel.
    pub fn mark_at_wheel(&self, id: &str, wheel: Wheel) -> String {
        format!("Mark {id}: {}", wheel_name(wheel))
    }

    /// What is wrong and by how much.
    pub fn short_line(&self, finding: &Finding) -> String {
        let title = self.title(finding);
        self.measure(finding).map_or_else(|| format!("{title}."), |measure| format!("{title}: {measure}."))
    }
}
