//! German of the same: see `words/place.rs`.

use super::marks::wheel_name;
use super::names::the;
use super::{About, Language, sentence_start};
use crate::place::{Margin, Offer, Slack, Tyres};
use crate::words::place::PlaceTexts;

/// The fixed texts.
pub const TEXTS: PlaceTexts = PlaceTexts {
    language: Language::German,
    tab: "Parken",
    title: "Wo kann es stehen?",
    title_why: "Tönt den Boden, wo das Fahrzeug stehen kann, Bug wie jetzt, und sucht die besten Stellen in allen Richtungen (P)",
    fits: "Getönt: Hier kann die Mitte der Vorderachse liegen, Bug wie jetzt",
    or_undecided: "Getönt: Hier kann die Mitte der Vorderachse liegen, Bug wie jetzt; schraffiert: nicht entschieden",
    fits_nowhere: "Mit dem Bug wie jetzt kann das Fahrzeug hier nirgends stehen",
    stops_everywhere: "Wo das Fahrzeug auch steht, das hält die Einstellung auf:",
    nowhere: "Keine Stelle dieses Raums in keiner der angesehenen Richtungen, Grad für Grad. Als Nächstes fragt sich, was zu verschieben ist.",
    nowhere_decided: "Keine Stelle dieses Raums passt sicher in einer der angesehenen Richtungen; manche ist nicht entschieden: das Fahrzeug dorthin ziehen, dann wird sie beurteilt. Als Nächstes fragt sich, was zu verschieben ist.",
    only_just: "Es gibt Stellen, an denen nichts aufhält, aber keine mit einem Millimeter Spielraum nach allen Seiten. Als Nächstes fragt sich, was zu verschieben ist.",
    nowhere_so_far: "In den bisher angesehenen Richtungen ist nichts gefunden.",
    partial: "Angehalten, bevor alle Richtungen angesehen waren: Es kann bessere Stellen geben.",
    older: "Vom Messplatz, wie er vor der letzten Änderung war.",
    weighing: "Die besten Stellen werden abgewogen \u{2026}",
    look_again: "Noch einmal suchen",
    park: "Dort parken",
    is_here: "Das Fahrzeug steht dort.",
    rule: "Die beste Stelle hat am meisten Spielraum längs, quer und gedreht, alles zugleich. Nirgends darin hält etwas die Einstellung auf; was Vorsicht braucht, steht da, sobald das Fahrzeug dort steht.",
    measured_so: "Gemessen wird bis zur Reifenmitte am Boden, im rechten Winkel zur Wand.",
    waits: "Solange ein Fahrzeug eingegeben wird, wartet der Messplatz.",
};

/// How many headings were looked at.
pub fn looked_at(done: usize, all: usize) -> String {
    format!("{done} von {all} Richtungen angesehen")
}

/// Which of the spots it is.
pub fn nth(nth: usize) -> String {
    match nth {
        0 => "Beste Stelle".to_owned(),
        1 => "Zweitbeste".to_owned(),
        2 => "Drittbeste".to_owned(),
        _ => format!("Stelle {}", nth + 1),
    }
}

impl About<'_> {
    /// How a person parks at a spot.
    pub fn spot(&self, offer: &Offer) -> String {
        let nose = offer.by_tape.nose.as_ref().map(|own| format!("Bug zu {}", self.dative(own)));
        let tyres = match &offer.by_tape.tyres {
            Some(Tyres { front, walls: [beside, across], rear }) => {
                let front = format!(
                    "Reifen {} {} von {} und {} von {}",
                    wheel_name(*front),
                    self.length(beside.mm),
                    the(&beside.wall),
                    self.length(across.mm),
                    the(&across.wall)
                );
                match rear {
                    Some((rear, mm)) => format!(
                        "{front}, Reifen {} {} von {}",
                        wheel_name(*rear),
                        self.length(*mm),
                        the(&beside.wall)
                    ),
                    None => front,
                }
            }
            None => "nach der Zeichnung: Zu keinen zwei Wänden lässt sich hier messen".to_owned(),
        };
        match nose {
            Some(nose) => format!("{nose}; {tyres}."),
            None => format!("{}.", sentence_start(&tyres)),
        }
    }

    /// How far off the car may be there.
    pub fn spot_slack(&self, slack: &Slack) -> String {
        let Some([mm, degrees]) = self.spare(slack) else {
            return "Kein Spielraum.".to_owned();
        };
        format!("Auf ± {mm} und ± {degrees} genau genügt.")
    }

    /// Whether that is as much as the shop parks a car.
    pub fn spot_margin(&self, offer: &Offer, margin: &Margin) -> String {
        let by = format!(
            "± {}, ± {}; Vorgabe der Werkstatt",
            self.length(margin.mm),
            self.margin_of_angle(margin.rad)
        );
        if offer.meets {
            format!("Genug Spielraum zum Parken ({by}).")
        } else {
            format!("Enger, als geparkt wird ({by}).")
        }
    }
}
