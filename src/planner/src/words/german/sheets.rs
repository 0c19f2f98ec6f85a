//! German of the same: see `words/sheets.rs`.

use super::{About, Language, Units, sentence_start};
use baywright_geometry::marks::{Construction, Wheel};

use super::marks::wheel_name;
use crate::assessment::{Finding, Step, Subject};
use crate::model::{Placement, TargetKind};
use crate::words::sheets::SheetTexts;

/// The fixed texts.
pub const TEXTS: SheetTexts = SheetTexts {
    language: Language::German,
    marks: "Markenblatt",
    blank: "Markenblatt zum Ausfüllen",
    findings: "Befundblatt",
    customer: "Was diese Arbeit braucht",
    sheet: "Blatt",
    shop: "Werkstatt",
    bay: "Messplatz",
    car: "Fahrzeug",
    aiming: "Einstellung",
    procedure: "Anleitung",
    file: "Datei",
    day: "Datum",
    revision: "Fassung",
    record: "Protokoll",
    page: "Seite",
    on_examples: "Manche Werte sind erfundene Beispiele: nach diesem Blatt nie ein wirkliches Fahrzeug einstellen.",
    before_start: "Vor dem Beginn",
    move_first: "Zuerst umräumen",
    lay: "Die Marken legen, in dieser Reihenfolge",
    set_targets: "Die Ziele aufstellen",
    from_to: "Marken",
    must_read: "Soll",
    was_read: "Ist",
    read_by: "Name",
    read_at: "Tag, Uhrzeit",
    running: "Die Maße am Rand zählen ab 0: nie addieren.",
    sketch: "Skizze",
    sketch_about: "Von oben: Fahrzeug (vorn ist rechts), Ziele, Marken mit Nummern. Was ein Kästchen misst, legen Sie fest.",
    marks_by_hand: "Die Marken",
    mark: "Marke",
    ahead: "Vor der hintersten Marke",
    aside: "Links oder rechts der Mittellinie",
    laid: "Liegt",
    height_by_hand: "Mitte der Zielfläche über dem Boden",
    before: "Heute",
    after: "Wenn wir Platz gemacht haben",
    no_promise: "Hier geht es nur um den Boden und was darauf steht. Ob am Wagen sonst etwas fehlt und was die Arbeit kostet, steht \
                 hier nicht.",
    measure_bar: "Diesen Balken messen: Sind es nicht 100 mm, hier nichts abgreifen; nur Maße für das Bandmaß gelten.",
    both_cautions: "Die Anleitung des Herstellers entscheidet. Räder verkeilen und bremsen wie dort verlangt, bevor sich jemand neben das \
                    Fahrzeug legt. Laser unter Augenhöhe halten, weg von blanken Flächen; nicht hineinblicken.",
};

pub fn in_bay(bay: &str, set_up: &str) -> String {
    format!("{bay}, {set_up}")
}

pub fn for_car(car: &str, shop: &str) -> String {
    if shop.is_empty() { format!("Für: {car}") } else { format!("Für: {car}. Von: {shop}") }
}

pub fn page_of(at: usize, all: usize) -> String {
    format!("{at} von {all}")
}

pub fn between(from: &str, to: &str) -> String {
    if from == to { format!("{from}, zweimal gelegt") } else { format!("{from} \u{2013} {to}") }
}

pub fn read_tape_in(units: Units) -> String {
    let unit = match units {
        Units::Millimetres => ", in Millimetern",
        Units::Metres => ", in Metern",
        Units::FeetInches => "",
    };
    format!("Mit dem Bandmaß gemessen{unit}")
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
    format!("{which}: {rests_on}; an diesem Fahrzeug nachmessen.")
}

pub fn verdict_of(name: &str, verdict: &str) -> String {
    format!("{name}: {verdict}")
}

pub fn page_title(sheet: &str, set_up: &str, (at, all): (usize, usize)) -> String {
    let of = if set_up.is_empty() { sheet.to_owned() } else { format!("{sheet}: {set_up}") };
    if all > 1 { format!("{of}, Seite {at} von {all}") } else { of }
}

impl About<'_> {
    /// One thing to do, as a sentence.
    pub fn step_sentence(&self, step: &Step) -> String {
        format!("{}.", sentence_start(&self.step(step)))
    }

    /// How high the middle of a target's face is set.
    pub fn set_height(&self, placement: &Placement, height_mm: f64) -> String {
        let name = self.alone(&Subject::Target(placement.id.clone()));
        let lays = if placement.target.kind == TargetKind::Mat { "auslegen" } else { "aufstellen" };
        format!("{name} {lays}: die Mitte der Zielfläche {} über einem ebenen Boden.", self.length(height_mm))
    }

    /// How several marks are laid that are laid alike, each at a wheel of its own.
    pub fn laid_at_wheels(&self, construction: &Construction) -> Option<String> {
        match construction {
            Construction::Outboard { distance, .. } => Some(format!(
                "An jedem dieser Räder {} außen neben dem Reifen, rechtwinklig zum Fahrzeug, auf Höhe der Radmitte:",
                self.length(*distance)
            )),
            Construction::WheelPoint { .. } => Some(
                "An jedem dieser Räder die Reifenmitte auf den Boden loten, von Nabe oder Felge aus, nicht von der Reifenflanke:"
                    .to_owned(),
            ),
            _ => None,
        }
    }

    /// Which mark is laid so at which wheel.
    pub fn mark_at_wheel(&self, id: &str, wheel: Wheel) -> String {
        format!("Marke {id}: {}", wheel_name(wheel))
    }

    /// What is wrong and by how much.
    pub fn short_line(&self, finding: &Finding) -> String {
        let title = self.title(finding);
        self.measure(finding).map_or_else(|| format!("{title}."), |measure| format!("{title}: {measure}."))
    }
}
