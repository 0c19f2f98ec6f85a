//! German of the same: see `words/clearing.rs`.

use super::names::the;
use super::{About, Language, listed, sentence_start};
use crate::assessment::Step;
use crate::clearing::{Move, Way};
use crate::model::Effort;
use crate::words::clearing::ClearingTexts;

/// The fixed texts.
pub const TEXTS: ClearingTexts = ClearingTexts {
    language: Language::German,
    ask: "Was muss weg?",
    ask_why: "Sucht, was mit dem wenigsten Aufwand zu verschieben ist, damit das Fahrzeug stehen kann, wohin jeder Gegenstand kommt und wo das Fahrzeug dann parkt",
    title: "Was weg muss",
    looking: "Es wird versucht, wohin die Gegenstände können \u{2026}",
    then_park: "Dann parken:",
    do_it: "Alles verschieben und dort parken",
    proven: "Bewiesen: Nichts, was weniger Aufwand ist, lässt dem Fahrzeug eine Stelle, in keiner Richtung, Grad für Grad. Die Wege sind die kürzesten gefundenen.",
    best_found: "Das Beste, das gefunden ist. Dass weniger nicht reicht, ist nicht bewiesen.",
    partial: "Angehalten, bevor alles versucht war: Weniger kann reichen.",
    nothing_goes: "Auf diesem Messplatz lässt sich nichts verschieben, und so, wie alles steht, passt das Fahrzeug in keiner angesehenen Richtung irgendwohin.",
    never: "Auch wenn alles weg ist, was sich verschieben lässt, passt das Fahrzeug in keiner angesehenen Richtung irgendwohin, Grad für Grad.",
    not_found: "Es ist kein Weg gefunden, etwas so zu verschieben, dass das Fahrzeug stehen kann. Das ist kein Beweis, dass es keinen gibt.",
    rule: "Am wenigsten ist, was die wenigsten Hände braucht: Eine Person zählt 1, zwei Personen 2, ein Gabelstapler 4, und ganz vom Messplatz das Doppelte. Verschoben wird ohne zu drehen, Tragarme bleiben, wie sie sind; wie etwas dorthin kommt, ob das Fahrzeug dorthin fahren kann und wem es in anderen Plätzen oder Aufbauten dann im Weg steht, ist nicht gefragt.",
    then_ready: "Dann hält nichts die Einstellung auf.",
    then_care: "Dann hält nichts die Einstellung auf; etwas braucht Vorsicht, das steht da, sobald es getan ist.",
    look_again: "Noch einmal versuchen",
};

/// How many headings were looked at.
pub fn looked_at(done: usize, all: usize) -> String {
    format!("{done} von {all} Richtungen ohne jeden Gegenstand angesehen")
}

impl About<'_> {
    /// One thing that goes.
    pub fn goes(&self, own: &Move) -> String {
        match &own.step {
            Step::MoveThing { thing, .. } if !own.towards.is_empty() => {
                let parts = own.towards.iter();
                let parts =
                    parts.map(|part| format!("{} in Richtung {}", self.at_least(part.mm), the(&part.wall)));
                let parts: Vec<String> = parts.collect();
                format!("{} {} schieben.", the(thing), listed(&parts))
            }
            step => format!("{}.", sentence_start(&self.step(step))),
        }
    }

    /// What all of it takes.
    pub fn way_takes(&self, way: &Way) -> String {
        let hands = match self.hardest(way) {
            Some(Effort::ForkLift) => "Dazu braucht es einen Gabelstapler.",
            Some(Effort::TwoPeople) => "Dazu braucht es zwei Personen.",
            Some(Effort::OnePerson) => "Eine Person kann das.",
            Some(Effort::Fixed) | None => return String::new(),
        };
        match way.moves.len() {
            0 | 1 => hands.to_owned(),
            n => format!("{n} Gegenstände sind zu verschieben. {hands}"),
        }
    }
}
