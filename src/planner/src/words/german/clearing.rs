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
    ask_here: "Was muss weg, damit es hier steht?",
    ask_here_why: "Sucht, was mit dem wenigsten Aufwand zu verschieben ist, damit nichts die Einstellung aufhält, wenn das Fahrzeug genau hier steht, und wohin jeder Gegenstand kommt",
    title: "Was weg muss",
    title_here: "Was weg muss, damit es hier steht",
    looking: "Es wird versucht, wohin die Gegenstände können \u{2026}",
    then_park: "Dann parken:",
    stays_here: "Das Fahrzeug bleibt, wo es steht.",
    do_it: "Alles verschieben und dort parken",
    do_here: "Alles verschieben",
    proven: "Bewiesen: Nichts, was weniger Aufwand ist, lässt dem Fahrzeug eine Stelle, in keiner Richtung, Grad für Grad. Die Wege sind die kürzesten gefundenen.",
    proven_here: "Bewiesen: Nichts, was weniger Aufwand ist, macht diese Stelle bereit. Die Wege sind die kürzesten gefundenen.",
    proven_here_well: "Bewiesen: Nichts, was weniger Aufwand ist, macht diese Stelle mit so viel Spielraum bereit, wie das Parken braucht. Die Wege sind die kürzesten gefundenen.",
    best_found: "Das Beste, das gefunden ist. Dass weniger nicht reicht, ist nicht bewiesen.",
    cheapest: "Bewiesen: Nichts, was so wenige Hände braucht, kostet weniger.",
    maybe_cheaper: "Dass nichts anderes für so wenige Hände weniger kostet, ist nicht bewiesen.",
    no_hands_proven: "Das braucht eine Baufirma. Bewiesen: Was Hände verschieben können, schafft keinen Platz.",
    no_hands_found: "Das braucht eine Baufirma: Dass genug Platz wird, wenn nur verschoben wird, was Hände bewegen, ist nicht gefunden.",
    builder_proven: "Bewiesen: Nichts, was weniger kostet, schafft Platz, unter dem, wofür Kosten eingetragen sind und was Hände verschieben können.",
    builder_care: "Ob es weg darf und was es trägt, sagen zugelassene Fachleute und die örtlichen Bauvorschriften.",
    partial: "Angehalten, bevor alles versucht war: Weniger kann reichen.",
    nothing_goes: "Auf diesem Messplatz lässt sich nichts verschieben, und so, wie alles steht, passt das Fahrzeug in keiner angesehenen Richtung irgendwohin.",
    never: "Auch wenn alles weg ist, was sich verschieben lässt, passt das Fahrzeug in keiner angesehenen Richtung irgendwohin, Grad für Grad.",
    not_found: "Es ist kein Weg gefunden, etwas so zu verschieben, dass das Fahrzeug stehen kann. Das ist kein Beweis, dass es keinen gibt.",
    remains: "Auch wenn alles weg ist, was sich verschieben lässt, hält dies die Einstellung auf:",
    rule: "Am wenigsten ist, was die wenigsten Hände braucht: Eine Person zählt 1, zwei Personen 2, ein Gabelstapler 4, und ganz vom Messplatz das Doppelte. Verschoben wird ohne zu drehen, Tragarme bleiben, wie sie sind; wie etwas dorthin kommt, ob das Fahrzeug dorthin fahren kann und wem es in anderen Plätzen oder Aufbauten dann im Weg steht, ist nicht gefragt.",
    then_ready: "Dann hält nichts die Einstellung auf.",
    then_care: "Dann hält nichts die Einstellung auf; etwas braucht Vorsicht, das steht da, sobald es getan ist.",
    money_rule: "Kosten sind, was unter „Was wohin passt“ dafür eingetragen ist, dass ein Gegenstand weg ist; ohne Eintrag zählt er als kostenlos.",
    look_again: "Noch einmal versuchen",
    must_move: "Was weg muss",
    to_stand_here: "Damit es steht, wo es jetzt steht",
    to_stand_anywhere: "Damit es irgendwo im Raum steht",
    nothing_moves: "Nichts muss weg.",
};

/// How many headings were looked at.
pub fn looked_at(done: usize, all: usize) -> String {
    format!("{done} von {all} Richtungen ohne jeden Gegenstand angesehen")
}

/// How many things were looked at.
pub fn looked_at_here(done: usize, all: usize) -> String {
    format!("{done} von {all} Gegenständen angesehen, die sich verschieben lassen")
}

/// For how many lines it was answered.
pub fn lines_done(done: usize, all: usize) -> String {
    format!("Was weg muss: {done} von {all}")
}

/// What it takes to move something; nothing of what is fixed.
pub(super) const fn takes(effort: Effort) -> Option<&'static str> {
    match effort {
        Effort::ForkLift => Some("Dazu braucht es einen Gabelstapler."),
        Effort::TwoPeople => Some("Dazu braucht es zwei Personen."),
        Effort::OnePerson => Some("Eine Person kann das."),
        Effort::Fixed => None,
    }
}

impl About<'_> {
    /// One thing that goes.
    pub fn goes(&self, own: &Move) -> String {
        match &own.step {
            Step::TakeAway { thing } if own.needs_builder => {
                format!("{} von einer Baufirma entfernen lassen.", the(thing))
            }
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
        let Some(hands) = self.hardest(way).and_then(takes) else { return String::new() };
        if way.by_builder().next().is_some() {
            return format!("Das Übrige geht von Hand. {hands}");
        }
        match way.moves.len() {
            0 | 1 => hands.to_owned(),
            n => format!("{n} Gegenstände sind zu verschieben. {hands}"),
        }
    }

    /// What all of it costs.
    pub fn way_costs(&self, way: &Way) -> String {
        let Some(money) = way.money else { return String::new() };
        let sum = self.locale.region.money(money.sum);
        match (money.unsaid, way.moves.len()) {
            (0, 1) => format!("Es kostet {sum}, wie eingetragen."),
            (0, _) => format!("Zusammen kostet es {sum}, wie eingetragen."),
            (1, _) => {
                format!("Es kostet {sum}, wie eingetragen; für einen der Gegenstände ist nichts eingetragen.")
            }
            (n, _) => {
                format!("Es kostet {sum}, wie eingetragen; für {n} der Gegenstände ist nichts eingetragen.")
            }
        }
    }
}
