//! German of the same: see `words/owner_report.rs`.

use super::{About, Language};
use crate::assessment::Finding;
use crate::matrix::{Along, Strip};
use crate::place::Margin;
use crate::words::owner_report::OwnerReport;

/// The fixed texts.
pub const TEXTS: OwnerReport = OwnerReport {
    language: Language::German,
    title: "Bericht für den Inhaber",
    bay: "Messplatz",
    list: "Liste",
    partial: "Nicht alles ist angesehen: Was hier fehlt, ist keine Antwort.",
    in_short: "In Kürze",
    in_room: "In diesem Raum",
    not_looked: "Nicht angesehen.",
    which_where: "Welche Einstellung wohin passt",
    number: "Nr.",
    place: "Stelle",
    found: "Gefunden",
    by_tape: "Mit dem Bandmaß; was verschoben wird; was aufhält",
    each_place: "Jede Einstellung an ihrer besten Stelle",
    as_above: "Die beste Stelle ist, wo sie bereit ist, mit dem wenigsten, worauf zu achten ist, dann mit dem meisten Spielraum. Gemessen \
               wird bis zur Mitte eines Reifens am Boden, rechtwinklig zur Wand.",
    map: "Wie vielen jede Stelle dient",
    least: "Dort möglich",
    floor: "Boden",
    share: "Vom Raum",
    wider_or_longer: "Andere leere Räume, die derselben Liste dienen, jeder so kurz, wie seine Breite erlaubt",
    area: "Fläche",
    decides: "Entscheidend",
    drawn: "Gezeichnet: die entscheidende Einstellung im kleinsten Raum.",
    changes: "Änderungen am Gebäude, die wertvollste zuerst",
    change: "Änderung",
    unlocks: "Bringt",
    which: "Welche",
    eases: "Weniger zu beachten",
    costs: "Kostet",
    not_asked: "Was nicht gefragt ist",
    care_is_counted: "Was Vorsicht braucht, ist hier genannt: Wie viel und was zu tun ist, sagt das Befundblatt eines Aufbaus.",
    no_proof: "Dass keine Stelle gefunden ist, beweist nicht, dass es keine gibt, wenn nicht „nie“ dasteht.",
    never_so: "„Nie“ ist für jede Stelle und Richtung bewiesen, allein aus Körpern: Fahrzeug und Ziel mit Ständer gegen den Raum und was \
               nicht weg kann; alles, was weg kann, gilt als weg.",
    together: "Zusammen, für das, was auszugeben ist",
    way: "Ob ein Fahrzeug an seine Stelle gefahren werden kann und durch welches Tor, ist nicht gefragt.",
    empty_is_empty: "Die Größe eines leeren Raums lässt Türen, Stützen, alles, was darin steht oder hängt, und die Ebenheit des Bodens weg.",
    entered: "Kosten sind so, wie der Inhaber sie eingegeben hat; nichts hier ist ein Angebot.",
    who_decides: "Ob eine Wand, eine Tür, eine Stütze oder ein Boden geändert werden darf, sagen die Erbauer und dafür zugelassene Leute \
                  nach den örtlichen Bau-, Brandschutz- und Elektrovorschriften.",
};

pub fn of_list(bay: &str, aimings: usize, places: usize) -> String {
    format!("{bay}: {}", counted(aimings, places))
}

pub fn counted(aimings: usize, places: usize) -> String {
    let aimings = if aimings == 1 { "1 Einstellung".to_owned() } else { format!("{aimings} Einstellungen") };
    let places = if places == 1 { "1 Stelle".to_owned() } else { format!("{places} Stellen") };
    format!("{aimings}, {places}")
}

pub fn somewhere([fit, tight, moves, none, open]: [usize; 5], all: usize) -> String {
    let mut told = format!("{fit} von {all} sind möglich, wie es ist");
    if tight > 0 {
        told.push_str(&format!(
            ", {tight} weitere, wenn das Fahrzeug genauer steht, als die Werkstatt es abstellt"
        ));
    }
    if moves > 0 {
        told.push_str(&format!(", {moves} weitere, wenn umgeräumt ist"));
    }
    if none > 0 {
        told.push_str(&format!("; für {none} ist keine Stelle gefunden"));
    }
    if open > 0 {
        told.push_str(&format!("; {open} nicht zu Ende angesehen"));
    }
    told.push('.');
    told
}

pub fn places_of(from: usize, to: usize, all: usize) -> String {
    if from == to { format!("Stelle {from} von {all}") } else { format!("Stellen {from} bis {to} von {all}") }
}

pub fn not_there(numbers: &str) -> String {
    format!("Dort nicht: {numbers}.")
}

pub fn square_metres(figure: &str) -> String {
    format!("{figure} m²")
}

pub fn at_least(count: usize, all: usize) -> String {
    if count == all { format!("{count} von {all}") } else { format!("{count} von {all} oder mehr") }
}

pub fn first_change(change: &str, count: usize) -> String {
    format!("Von den einzeln gefragten Änderungen steht diese vorn: {change}. Sie bringt {count}.")
}

pub fn changes_at(place: &str, fit: usize, all: usize, further: &str) -> String {
    format!(
        "{place}: {fit} von {all} passen jetzt. Gefragt ist jeder Gegenstand weg, jede Wand des Raums {further} weiter außen, jedes Tor offen \
         mit um so viel mehr freiem Boden davor, jede Tür und jedes Fenster zugemauert, immer nur eines."
    )
}

pub fn together_for(sum: &str, changes: &[&str], costs: &str, count: usize, which: &str) -> String {
    let they = if changes.len() == 1 { ["Das kostet", "bringt"] } else { ["Sie kosten", "bringen"] };
    format!(
        "Für höchstens {sum}: {}. {} {costs} und {} {count}: {which}.",
        changes.join(" + "),
        they[0],
        they[1]
    )
}

pub fn together_none(sum: &str) -> String {
    format!("Für höchstens {sum} bringt nichts mit einem Preis eine.")
}

pub fn others_unlock_none(count: usize) -> String {
    if count == 1 {
        "1 andere Änderung bringt keine.".to_owned()
    } else {
        format!("{count} andere Änderungen bringen keine.")
    }
}

pub fn beyond(cost: &str) -> String {
    format!("{cost}, mehr, als auszugeben ist")
}

pub fn described(bay: &str, aimings: usize) -> String {
    match aimings {
        1 => format!("{bay} von oben mit den Stellen, an denen die Einstellung möglich ist"),
        _ => {
            format!(
                "{bay} von oben, wie vielen von {aimings} Einstellungen jede Stelle dient; dazu der kleinste leere Raum"
            )
        }
    }
}

impl About<'_> {
    /// What the words in the cells say.
    pub fn report_words(&self, margin: &Margin) -> String {
        format!(
            "Bereit: Nichts hält sie dort auf. Mit Vorsicht: Nichts hält sie auf, auf etwas ist zu achten. Knapp: Das Fahrzeug müsste genauer \
             stehen als auf ± {} und ± {}, den eigenen Spielraum der Werkstatt. Umräumen: wenn umgeräumt ist. Woanders: nicht dort, aber \
             anderswo im Raum. Nicht gefunden: Keine Stelle ist gefunden. Nie: Es ist bewiesen, dass es keine gibt. Gesperrt: Etwas hält sie \
             auf, wo das Fahrzeug auch steht.",
            self.length(margin.mm),
            self.margin_of_angle(margin.rad)
        )
    }

    /// What the strip is.
    pub fn report_store(&self, strip: &Strip) -> String {
        let along = match strip.along {
            Along::Length => "der Länge",
            Along::Width => "der Breite",
        };
        let depth = self.length(strip.depth_mm);
        format!("Der schraffierte Streifen entlang {along} des Raums, {depth} tief, ist das Lager.")
    }

    /// What is to be minded.
    pub fn report_care(&self, care: &[&Finding]) -> String {
        let mut titles: Vec<String> = Vec::new();
        for title in care.iter().map(|own| self.title(own)) {
            if !titles.contains(&title) {
                titles.push(title);
            }
        }
        format!("Zu beachten: {}.", titles.join("; "))
    }
}
