//! German of the same: see `words/plan.rs`.

use super::names::the;
use super::{About, Language, sentence_start};
use crate::assessment::Verdict;
use crate::matrix::{BestPlace, Cell, Place, RoomSize, Stands};
use crate::place::Margin;
use crate::words::plan::PlanTexts;

/// The fixed texts.
pub const TEXTS: PlanTexts = PlanTexts {
    language: Language::German,
    plan: "Sagen, wo jedes Fahrzeug zum Einstellen stehen kann, welche Stelle den meisten dient und wie groß ein leerer Raum sein muss",
    arrangement: "Nur dieser Aufbau; für genannte Fahrzeuge ist der Raum so, wie dieser Aufbau ihn hat",
    cars: "Statt der Aufbauten: alle Einstellungen dieses Fahrzeugs; mehrmals möglich",
    all_cars: "Statt der Aufbauten: alle Einstellungen aller Fahrzeuge, die der Messplatz nennen kann",
    a_car: "FAHRZEUG",
    moves: "Auch sagen, was weg muss, damit jeder aufgehaltene Aufbau dort stehen kann, wo er steht, und jede Einstellung ohne Stelle irgendwo; dauert länger",
    csv: "Die Tabelle der Einstellungen und Stellen als CSV schreiben",
    json: "Alles als JSON schreiben",
    report: "Den Bericht für den Inhaber zum Drucken in diese Datei schreiben statt der Antwort als Text: .pdf, .svg oder .png",
    a_report: "BERICHT.pdf|.svg|.png",
    changes: "Auch sagen, was Änderungen am Gebäude bringen, irgendwo im Raum: jeder Gegenstand weg, jede Wand weiter außen, jedes Tor \
              offen mit freiem Boden davor oder zugemauert, und für die Summe des Messplatzes die mit einem Preis zusammen",
    further: "Wie viel weiter außen Wände stünden und der Boden vor Toren frei wäre, mm; ohne Angabe 1000",
    after: "Endestatus: 0 für jede Einstellung ist eine Stelle gefunden, 1 für manche keine, 2 etwas Genanntes war nicht zu lesen oder \
            zu finden, 3 etwas war nicht zu schreiben.\n\n\
            Dass keine gefunden ist, beweist nicht, dass es keine gibt. Nach der Vorschrift des Fahrzeugherstellers vorgehen. Nichts \
            hier sagt, dass ein Sensor eingestellt ist.",
    one_place: "Eine Stelle für die meisten",
    no_place_for_any: "Für keine ist eine Stelle gefunden.",
    not_served: "Dort nicht",
    empty_room: "Wie groß ein leerer Raum sein muss",
    never_so: "„Hier passt es nie“ ist für jede Stelle und Richtung bewiesen, allein aus Körpern: Fahrzeug und Ziel mit Ständer gegen \
               den Raum und was nicht weg kann; alles, was weg kann, gilt als weg.",
    no_size: "Eine von ihnen hält in jedem leeren Raum etwas auf: Keine Größe ist gefunden.",
    searched: "Angesehen in Richtungen, die ein Grad auseinander sind, alle Gegenstände, wo sie stehen. Wo keine Stelle gefunden ist, kann \
               dazwischen eine sein; --moves sagt, was weg muss.",
};

pub fn head(bay: &str, aimings: usize) -> String {
    match aimings {
        1 => format!("{bay}: wo eine Einstellung möglich ist"),
        n => format!("{bay}: wo {n} Einstellungen möglich sind"),
    }
}

pub fn so_far(done: usize, all: usize, line: &str) -> String {
    format!("{done} von {all}: {line}")
}

pub fn no_such_car(name: &str, there: &[&str], meant: Option<&str>) -> String {
    let meant = meant.map_or_else(String::new, |own| format!(" Ist „{own}“ gemeint?"));
    match there {
        [] => format!("Ein Fahrzeug „{name}“ gibt es nicht und auch kein anderes."),
        there => format!("Ein Fahrzeug „{name}“ gibt es nicht.{meant} Es gibt: {}.", there.join(", ")),
    }
}

pub fn no_aimings(car: &str) -> String {
    format!("Das Fahrzeug „{car}“ hat keine Einstellung zum Planen.")
}

impl About<'_> {
    /// A line of the list.
    pub fn plan_line(&self, is_saved: bool) -> String {
        let own = self.arrangement;
        let told = format!("{}, {}", own.vehicle.name, own.aiming.name);
        if is_saved { format!("{}: {told}", own.id) } else { told }
    }

    /// A place.
    pub fn plan_place(&self, place: &Place) -> String {
        match place {
            Place::Parked { of, .. } => format!("Wo das Fahrzeug von „{of}“ steht"),
            Place::Bay(bay) => format!("In {}", the(bay)),
            Place::Room => "Irgendwo im Raum".to_owned(),
        }
    }

    /// What is found at a place.
    pub fn plan_cell(&self, cell: &Cell, margin: &Margin) -> String {
        match cell {
            Cell::Fits(own) => format!("{} {}", self.plan_verdict(own), self.plan_stands(own, margin)),
            Cell::AfterMoves { steps, verdict, .. } => {
                let then = match verdict {
                    Verdict::Ready => "bereit",
                    Verdict::ReadyWithCare | Verdict::NotReady => "mit Vorsicht bereit",
                };
                format!("{}; dann ist es {then}.", sentence_start(&self.steps(steps)))
            }
            Cell::Elsewhere(own) => {
                format!(
                    "Nicht hier, aber anderswo im Raum. {} {}",
                    self.plan_verdict(own),
                    self.plan_stands(own, margin)
                )
            }
            Cell::NoneFound(own) => {
                let found = match (own.is_partial, own.is_everywhere) {
                    (true, _) => "Angehalten, bevor eine Stelle gefunden war.",
                    (false, true) => {
                        "Keine Stelle gefunden: Es wird aufgehalten, wo das Fahrzeug auch steht."
                    }
                    (false, false) => "Keine Stelle gefunden.",
                };
                let titles: Vec<String> =
                    own.stops.iter().take(3).map(|own| sentence_start(&self.title(own))).collect();
                match titles.as_slice() {
                    [] => found.to_owned(),
                    titles => format!("{found} {}.", titles.join("; ")),
                }
            }
        }
    }

    /// What the verdict is where a car stands.
    pub fn plan_verdict(&self, own: &Stands) -> String {
        match (own.verdict, own.care) {
            (Verdict::Ready, _) => "Bereit.".to_owned(),
            (_, 1) => "Mit Vorsicht bereit, auf eines ist zu achten.".to_owned(),
            (_, care) => format!("Mit Vorsicht bereit, auf {care} Dinge ist zu achten."),
        }
    }

    fn plan_stands(&self, own: &Stands, margin: &Margin) -> String {
        let offer = own.offer(self.arrangement);
        [self.spot(&offer), self.spot_slack(&own.slack), self.spot_margin(&offer, margin)].join(" ")
    }

    /// The place that serves the most.
    pub fn plan_best(&self, best: &BestPlace, of: usize, margin: &Margin) -> String {
        let offer = best.offer(self.arrangement);
        let told =
            [self.spot(&offer), self.spot_slack(&best.slack), self.spot_margin(&offer, margin)].join(" ");
        format!("{} von {of} hier. Mit {}: {told}", best.serves.len(), self.arrangement.vehicle.name)
    }

    /// The room's size.
    pub fn plan_room(&self, room: &RoomSize, margin: &Margin) -> String {
        let own = self.arrangement;
        format!(
            "{} mal {} mit sonst nichts darin und seinen Türen zu, so dass jedes Fahrzeug ± {} und ± {} daneben stehen darf; \
             entscheidend: {}, {}{}.",
            self.length(room.length_mm),
            self.length(room.width_mm),
            self.length(margin.mm),
            self.margin_of_angle(margin.rad),
            own.vehicle.name,
            own.aiming.name,
            self.in_store(room)
        )
    }
}
