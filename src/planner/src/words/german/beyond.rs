//! What lies beyond its bay of a hall, in words.

use super::About;
use super::names::the;
use super::unsure::{NAMED, and_more};
use crate::assessment::{Beyond, Code, Finding, Reaches, Subject};

impl About<'_> {
    /// The title of what reaches into another bay or out of its own.
    pub(super) fn beyond_bay_title(&self, lies: Beyond, parts: &[Reaches], finding: &Finding) -> String {
        let name = |at: usize| finding.subjects.get(at).map_or_else(String::new, |own| self.subject(own));
        let verb = match parts.iter().any(|part| part.depth_mm.is_some()) {
            true => "reicht",
            false => "reicht vielleicht",
        };
        match (lies, finding.subjects.first()) {
            (Beyond::Bay, _) => format!("die Aufstellung {verb} in {}", name(0)),
            (Beyond::AtWork, Some(Subject::HallBay(_))) => {
                format!("die Aufstellung {verb} bis zu denen, die auf {} arbeiten", name(0))
            }
            (Beyond::AtWork, _) => {
                format!("die Aufstellung {verb} bis zu denen, die an einem anderen Fahrzeug arbeiten")
            }
            (Beyond::Hall, Some(Subject::HallBay(own))) => {
                format!("die Aufstellung {verb} über {} hinaus", the(own))
            }
            (Beyond::Hall, _) => format!("die Aufstellung {verb} in die Halle neben den Stellplätzen"),
            (Beyond::KeptEmpty, _) => format!("{} bei der Einstellung leer halten", name(0)),
            (Beyond::NotEmpty, _) => format!("{} soll leer bleiben, aber {} steht dort", name(1), name(0)),
            (Beyond::Overlap, _) => format!("{} und {} überdecken sich", name(0), name(1)),
            (Beyond::SameFloor, _) => format!("{} und {} sind dieselbe Fläche", name(0), name(1)),
        }
    }

    /// What lies there, and what to do about it.
    pub(super) fn beyond_bay(&self, lies: Beyond, parts: &[Reaches]) -> String {
        let said = match lies {
            Beyond::Bay => "Dort kann in der Zeit ein anderes Fahrzeug einfahren",
            Beyond::AtWork => {
                "Während der Einstellung tritt dort niemand hin, und nichts wird dort abgestellt"
            }
            Beyond::Hall => "Dort kommen Personen und Fahrzeuge vorbei: für die Zeit absperren",
            Beyond::NotEmpty => return "Vor der Einstellung hinausfahren.".to_owned(),
            Beyond::Overlap => {
                return "Was auf der gemeinsamen Fläche aufgestellt ist, ist auf beiden Stellplätzen."
                    .to_owned();
            }
            Beyond::SameFloor => {
                return "Getrennt zeichnen oder einen entfernen: Von zwei Stellplätzen an einem Ort lässt sich keiner für den anderen \
                        leer halten."
                    .to_owned();
            }
            Beyond::KeptEmpty if parts.is_empty() => {
                return "Nichts von dieser Aufstellung reicht hinein: Dafür muss der Stellplatz nicht leer bleiben."
                    .to_owned();
            }
            Beyond::KeptEmpty => "In der Zeit fährt kein Fahrzeug ein und niemand arbeitet dort",
        };
        let chosen = match (&self.arrangement.in_bay, lies) {
            (None, Beyond::Bay | Beyond::Hall) => {
                " Der Stellplatz, auf dem diese Aufstellung gemacht wird, ist nicht gewählt."
            }
            _ => "",
        };
        format!("{} {said}.{chosen}", self.lie_there(parts))
    }

    /// "Dort: der Freiraum „vorn“ und das Fahrzeug; vielleicht auch die Marke 4."
    fn lie_there(&self, parts: &[Reaches]) -> String {
        let named = |surely: bool| {
            let all: Vec<&Reaches> = parts.iter().filter(|part| part.depth_mm.is_some() == surely).collect();
            let named = all.iter().take(NAMED).map(|part| self.used(part)).collect();
            (all.len(), and_more(named, all.len()))
        };
        match (named(true), named(false)) {
            ((0, _), (_, may)) => format!("Vielleicht dort: {may}."),
            ((_, are), (0, _)) => format!("Dort: {are}."),
            ((_, are), (_, may)) => format!("Dort: {are}; vielleicht auch {may}."),
        }
    }

    /// A part of the set-up by what it uses the floor for.
    pub(super) fn used(&self, part: &Reaches) -> String {
        self.used_as(
            part,
            self.subject(&part.of),
            ["der Arbeitsraum", "der Platz", "die Sichtlinie", "der Weg"],
        )
    }

    pub(super) fn used_accusative(&self, part: &Reaches) -> String {
        self.used_as(
            part,
            self.accusative(&part.of),
            ["den Arbeitsraum", "den Platz", "die Sichtlinie", "den Weg"],
        )
    }

    pub(super) fn used_dative(&self, part: &Reaches) -> String {
        self.used_as(
            part,
            self.dative(&part.of),
            ["dem Arbeitsraum", "dem Platz", "der Sichtlinie", "dem Weg"],
        )
    }

    fn used_as(&self, part: &Reaches, itself: String, [work, room, sight, way]: [&str; 4]) -> String {
        let dative = self.dative(&part.of);
        match part.code {
            Code::WorkingRoom => format!("{work} um {}", self.accusative(&part.of)),
            Code::StandRoom => format!("{room} vor {dative}"),
            Code::SightBlocked => format!("{sight} {}", super::names::before("zu", &dative)),
            Code::FresnelEntered => format!("{way} des Radars {}", super::names::before("zu", &dative)),
            _ => itself,
        }
    }
}
