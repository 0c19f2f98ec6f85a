//! German of the same: see `words/never.rs`.

use super::{About, Language};
use crate::never::{MOST_CELLS, Refused};
use crate::place::never::Short;
use crate::words::never::NeverTexts;

/// The fixed texts.
pub const TEXTS: NeverTexts = NeverTexts {
    language: Language::German,
    proof: "Einen Beweis prüfen, dass eine Aufstellung nirgends an einen Messplatz passt",
    check: "Sagen, ob ein Beweis gilt: seine Zellen lassen keinen Ort und keine Richtung aus, und in jeder stehen zwei Körper ineinander",
    prove: "Statt zu planen: einen Beweis suchen, dass die Aufstellung nirgends passt, auch wenn alles Bewegliche weg ist, und ihn in diese \
            Datei schreiben; Rückgabewert 0 er wurde geschrieben, 1 es wurde keiner gefunden",
    file: "Der Beweis",
    a_proof: "BEWEIS.ron",
    of: "Der Plan, von dem er sein soll: dessen Körper werden neu berechnet und verglichen, auf 0,01 mm",
    after: "Rückgabewert: 0 er gilt, 1 er gilt nicht oder ist von einem anderen Plan, 2 etwas Angegebenes ließ sich nicht lesen oder \
            finden, 3 etwas ließ sich nicht schreiben.\n\n\
            Ein Beweis beruht auf Körper gegen Körper und auf dem Raum. Ob ein Sensor eingestellt werden kann, ist eine andere Frage.",
    by_itself: "Er wurde nur für sich geprüft; ob seine Körper die eines Plans sind, ist nicht gesagt. Dazu den Plan angeben.",
    is_of: "Seine Körper sind die des Plans.",
    larger_room: "Er ist nicht von diesem Plan: Der Raum ist größer.",
    rests_on: "Er beruht nur auf Körper gegen Körper und auf dem Raum, die Türen so, wie sie sind: Freihaltezonen, Sichtlinien, Marken, Höhen und was aus dem Boden \
               ragt, sind ausgelassen.",
    not_proven: "Dass es hier nie passt, ist nicht bewiesen: Es kann passen oder nicht.",
    free: "Dass es hier nie passt, ist nicht bewiesen: Es gibt einen Ort, an dem kein Körper davon auf etwas trifft, das bleibt.",
    ask: "Geht es wirklich nicht?",
    ask_why: "Sucht einen Beweis, dass dieses Fahrzeug mit seinem Ziel nirgends in diesen Raum passt, auch wenn alles Bewegliche \
              weg ist",
    found_so: "Bewiesen für jeden Ort und jede Richtung und von einer zweiten Rechnung geprüft. Es gilt nur für Körper: das Fahrzeug \
               und sein Ziel mit Ständer gegen den Raum, die Türen offen oder zu wie jetzt, und gegen das, was sich nicht bewegen \
               lässt, dort, wo es jetzt steht; alles Bewegliche zählt als weg. Sichtlinien, Freihaltezonen, Marken und Höhen sind \
               ausgelassen: Sie verlangen nur mehr Platz.",
    weighing: "Es passt hier nie; was fehlt, wird ausgerechnet \u{2026}",
    not_said: "Das sagt weder, dass es passt, noch, dass es nicht passt.",
    free_drawn: "Das Fahrzeug ist dort gezeichnet. Ob dort eingestellt werden kann, ist nicht gesagt: wegrücken, was \
                 im Weg ist, und noch einmal suchen.",
    keep: "Beweis aufheben\u{2026}",
    keep_why: "Schreibt ihn in eine Datei, die jeder mit dem Befehl baywright proof check prüfen lassen kann",
    path: "Pfad des Beweises",
    is_there: "Eine Datei dieses Namens gibt es schon.",
    replace: "Diese Datei ersetzen",
    gone: "Der Beweis war von dem Messplatz, wie er vorher war: Bitte noch einmal suchen.",
};

pub fn ruled_out(percent: usize) -> String {
    format!("{percent} % aller Orte und Richtungen ausgeschlossen")
}

pub fn kept(path: &str) -> String {
    format!("Der Beweis liegt in {path}.")
}

pub fn holds(cells: usize) -> String {
    match cells {
        1 => "Der Beweis gilt: An jedem Ort und in jeder Richtung stehen zwei Körper ineinander.".to_owned(),
        _ => format!(
            "Der Beweis gilt: Seine {cells} Zellen lassen keinen Ort und keine Richtung aus, und in jeder stehen zwei Körper ineinander."
        ),
    }
}

pub fn refused(why: Refused) -> String {
    let why = match why {
        Refused::Part(nth) => {
            format!("Körper {} der Aufstellung ist nicht konvex oder hat keine Größe", nth + 1)
        }
        Refused::Stands(nth) => {
            format!("Körper {} von dem, was steht, ist nicht konvex oder hat keine Größe", nth + 1)
        }
        Refused::Places => "Er lässt Orte im Raum aus oder hat keine Aufstellung".to_owned(),
        Refused::NoCell(nth) => format!("Zelle {} ist leer oder nennt, was es nicht gibt", nth + 1),
        Refused::NotBarred(nth) => {
            format!("In Zelle {} müssen die beiden, die sie nennt, sich nicht treffen", nth + 1)
        }
        Refused::Uncovered([x, y, heading]) => format!(
            "Keine Zelle deckt den Ort {} / {} mm mit der Richtung {}° ab",
            x / 1_000,
            y / 1_000,
            heading / 1_000_000
        ),
        Refused::TooMany => format!("Er hat mehr als {MOST_CELLS} Zellen"),
    };
    format!("Der Beweis gilt nicht. {why}.")
}

pub fn not_of(solid: &str) -> String {
    format!("Er ist nicht von diesem Plan: „{solid}“ ist dort nicht so, wie der Beweis es hat.")
}

impl About<'_> {
    pub fn never_fits(&self, short: Option<&Short>) -> String {
        let Some(own) = short else { return "Es passt hier nie.".to_owned() };
        let [one, other] = [&own.between[0], &own.between[1]].map(|of| self.dative(of));
        let missing = self.length(own.at_least_mm.floor());
        format!("Es passt hier nie: Zwischen {one} und {other} fehlen mindestens {missing}.")
    }
}
