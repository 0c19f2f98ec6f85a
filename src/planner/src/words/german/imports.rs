//! German of the same: see `words/imports.rs`.

use super::Language;
use crate::geometry::DVec2;
use crate::model::fault::LeftOut;
use crate::words::Lengths;
use crate::words::imports::{Imports, own, tenth};

/// The fixed texts.
pub const TEXTS: Imports = Imports {
    language: Language::German,
    unit_mm: "Millimetern",
    unit_cm: "Zentimetern",
    unit_m: "Metern",
    unit_in: "Zoll",
    unit_ft: "Fuß",
    choose_layers: "Um daraus einen Messplatz zu machen: die Ebene mit dem Umriss des Raums mit --room angeben, die der inneren Wände \
                    mit --walls, die der Gegenstände mit --things, und die Datei, in die geschrieben wird, mit -o.",
    solid_and_by_eye: "Wände und Gegenstände gelten als massiv vom Boden bis zur Decke, Material nicht bekannt, nach Augenmaß \
                       aufgestellt. Einmessen, worauf es ankommt; Türen, Höhen und Materialien eintragen; dann prüfen.",
    no_layers: "Darin ist nichts gezeichnet, was gelesen wird.",
    set_up: "Wie gezeichnet",
};

pub fn drawn_in(file: &str, unit: Option<&str>) -> String {
    match unit {
        Some(unit) => format!("{file}: in {unit} gezeichnet."),
        None => {
            format!("{file}: Sie sagt nicht, in welcher Einheit gezeichnet ist; mit --units angeben.")
        }
    }
}

pub fn layer(lines: usize, notes: usize, reach: Option<(DVec2, DVec2)>, is_hidden: bool) -> String {
    let mut parts = vec![counted(lines, "Linie oder Bogen", "Linien und Bögen")];
    if notes > 0 {
        parts.push(counted(notes, "Beschriftung", "Beschriftungen"));
    }
    if let Some((low, high)) = reach {
        let size = high - low;
        parts.push(format!(
            "{} mal {}, ab {} längs, {} quer",
            own(size.x),
            own(size.y),
            own(low.x),
            own(low.y)
        ));
    }
    if is_hidden {
        parts.push("in der Zeichnung ausgeschaltet".to_owned());
    }
    parts.join(", ")
}

fn counted(count: usize, one: &str, more: &str) -> String {
    if count == 1 { format!("1 {one}") } else { format!("{count} {more}") }
}

pub fn left_out(kind: Option<&str>, why: LeftOut, count: usize, lines: &[u32]) -> String {
    let kind = kind.unwrap_or("andere");
    let why = match why {
        LeftOut::Kind => "eine Art, die nicht gelesen wird",
        LeftOut::OnPaper => "auf einem Papierblatt, nicht im Gebäude",
        LeftOut::Tilted => "in einer Ebene, die nicht waagerecht ist",
        LeftOut::NoBlock => "aus einem Block, der nicht in der Datei ist",
        LeftOut::TooDeep => "aus Blöcken, die zu tief ineinander oder in sich selbst liegen",
        LeftOut::Damaged => "mit einem Wert, der fehlt oder keine Zahl ist",
    };
    let told: Vec<String> = lines.iter().map(ToString::to_string).collect();
    let places = match (told.len(), count > told.len()) {
        (1, true) => format!("das erste in Zeile {}", told.join(", ")),
        (_, true) => format!("die ersten in den Zeilen {}", told.join(", ")),
        (1, false) => format!("Zeile {}", told.join(", ")),
        (_, false) => format!("Zeilen {}", told.join(", ")),
    };
    format!("Nicht gelesen: {count} × {kind}, {why} ({places}).")
}

pub fn made(walls: usize, things: usize) -> String {
    format!(
        "Ein Raum aus {}, darin {}.",
        counted(walls, "Wand", "Wänden"),
        counted(things, "innere Wand oder Gegenstand", "innere Wände und Gegenstände")
    )
}

fn at(place: DVec2, lengths: Lengths) -> String {
    format!("{} längs, {} quer", tenth(place.x, lengths), tenth(place.y, lengths))
}

pub fn closed(size_mm: f64, place: DVec2, lengths: Lengths) -> String {
    format!("Eine Lücke von {} geschlossen: bei {}.", tenth(size_mm, lengths), at(place, lengths))
}

pub fn closed_more(count: usize) -> String {
    let gaps = counted(count, "weitere Lücke", "weitere Lücken");
    format!("{gaps} geschlossen, keine größer als erlaubt.")
}

pub fn moved(by: DVec2, lengths: Lengths) -> String {
    format!(
        "Der Raum liegt weit vom Nullpunkt der Zeichnung: alles wurde verschoben, um {}.",
        at(by, lengths)
    )
}

pub fn other_unit(asked: &str, own: &str) -> String {
    format!("Nach eigener Angabe ist in {own} gezeichnet; gelesen wird in {asked}, wie verlangt.")
}

pub fn ceiling_taken(height: f64, lengths: Lengths) -> String {
    format!(
        "Eine Zeichnung von oben sagt nichts über die Decke: {} angenommen; messen und mit --ceiling angeben.",
        tenth(height, lengths)
    )
}

pub fn thickened(count: usize, thickness: f64, lengths: Lengths) -> String {
    format!(
        "{} als eine Linie gezeichnet, mit {} Dicke angenommen.",
        counted(count, "Stück innere Wand ist", "Stücke innerer Wände sind"),
        tenth(thickness, lengths)
    )
}

pub fn by_hull(count: usize) -> String {
    let go = counted(
        count,
        "Block umschließt nichts; er gilt mit allem, was rings um ihn gezeichnet ist",
        "Blöcke umschließen nichts; sie gelten mit allem, was rings um sie gezeichnet ist",
    );
    format!("{go}.")
}

pub fn inside_others(count: usize) -> String {
    format!("Weggelassen: {} in anderen.", counted(count, "Umriss", "Umrisse"))
}

pub fn outside(count: usize) -> String {
    format!("Weggelassen: {} außerhalb des Raums.", counted(count, "Umriss", "Umrisse"))
}

pub fn unclosed(count: usize) -> String {
    format!(
        "Weggelassen: {} von Gegenständen; nachsehen, ob etwas fehlt.",
        counted(count, "Linie, die nichts umschließt,", "Linien, die nichts umschließen,")
    )
}

pub fn not_used(layers: &[&str]) -> String {
    format!(
        "Nicht benutzt: was auf diesen Ebenen ist: {}. Nachsehen, ob etwas davon im Raum steht.",
        layers.join(", ")
    )
}

pub fn set_up_with(car: &str, aiming: &str) -> String {
    format!("Die erste Aufstellung ist mit „{car}“, „{aiming}“: eigene wählen.")
}

pub fn inner_wall(number: usize) -> String {
    format!("innere Wand {number}")
}

pub fn thing(number: usize) -> String {
    format!("Gegenstand {number}")
}
