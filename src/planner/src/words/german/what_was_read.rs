//! German of the same: see `words/english/what_was_read.rs`.

use super::About;
use crate::assessment::{Facts, Finding, Unused};

impl About<'_> {
    pub(super) fn read_title(&self, finding: &Finding) -> String {
        let mark = finding.subjects.first().map_or_else(String::new, |own| self.subject(own));
        match &finding.facts {
            Facts::ReadingUnused { all: 1, first: Unused::NoBodyPoint(of) } => {
                format!("was von {of} gelotet ist, zählt nicht")
            }
            Facts::ReadingUnused { all: 1, first: Unused::NoTarget(of) } => {
                format!("was vom Ständer {of} abgelesen ist, zählt nicht")
            }
            Facts::ReadingUnused {
                all: 1,
                first: Unused::NoMark { from, to } | Unused::NoRun { from, to },
            } => {
                format!("das Maß von {from} nach {to} zählt nicht")
            }
            Facts::ReadingUnused { all, .. } => format!("{all} Ablesungen zählen nicht"),
            Facts::ReadingDay { is_to_come: true } => "eine Ablesung hat ein künftiges Datum".to_owned(),
            Facts::ReadingDay { is_to_come: false } => {
                "die Marken wurden an einem anderen Tag gemessen".to_owned()
            }
            Facts::MarkElsewhere { .. } => format!("{mark} liegt nicht, wo sie eingetragen ist"),
            _ => format!("eine Prüfung zählt nicht: {mark}"),
        }
    }

    pub(super) fn read_detail(&self, finding: &Finding) -> String {
        match &finding.facts {
            Facts::ReadingUnused { first, .. } => {
                let why = match first {
                    Unused::NoMark { from, to } => {
                        format!("Dieser Markenplan hat {from} und {to} nicht beide.")
                    }
                    Unused::NoRun { from, to } => {
                        format!("Von {from} nach {to} lässt sich kein Band gerade halten: vom Auto steht etwas dazwischen.")
                    }
                    Unused::NoTarget(of) => format!("Diese Einmessung hat kein Ziel {of}."),
                    Unused::NoBodyPoint(of) => format!("Das Profil dieses Autos hat keinen Karosseriepunkt {of}."),
                };
                format!("{why} Dort eintragen, wo es hingehört, oder herausnehmen: nichts von der Antwort ruht darauf.")
            }
            Facts::ReadingDay { is_to_come: true } => {
                "Das Datum berichtigen oder die Uhr dieses Rechners.".to_owned()
            }
            Facts::ReadingDay { is_to_come: false } => "Die Marken sind von den Rädern gelegt, wie das Auto damals stand. Mit zwei Maßen zum \
                 Auto, damals und jetzt gemessen, zeigen, dass es nicht bewegt wurde, oder die Marken neu messen."
                .to_owned(),
            Facts::MarkElsewhere { by, on } => format!(
                "Nach der Prüfung vom {} liegt sie daneben: {}. Noch einmal prüfen; dann eintragen, wo sie liegt, oder neu anzeichnen.",
                self.locale.region.day(*on),
                self.towards(*by)
            ),
            Facts::MarkCheckUnused { on, is_to_come: true } => {
                format!("Ihr Tag, {}, kommt erst noch: berichtigen.", self.locale.region.day(*on))
            }
            Facts::MarkCheckUnused { on, .. } => self.check_says_nothing(*on),
            _ => String::new(),
        }
    }

    /// So many days from today.
    pub(super) fn days_away(&self, value: &str, is_to_come: bool) -> String {
        if is_to_come { format!("{value} nach heute") } else { format!("{value} vor heute") }
    }
}
