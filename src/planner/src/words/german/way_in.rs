//! German of the same: see `words/way_in.rs`.

use super::names::the;
use super::{About, Language, listed};
use crate::assessment::Subject;
use crate::way_in::{Driven, TooSmall, Turns, Way};
use crate::words::way_in::WayTexts;

/// The fixed texts.
pub const TEXTS: WayTexts = WayTexts {
    language: Language::German,
    where_it_stands: "Wo das Fahrzeug jetzt steht",
    looking: "Die Wege hinein werden gesucht \u{2026}",
    taken_as_free: "Was vor einem Tor liegt, gilt als frei und eben; ein geschlossenes wird dafür geöffnet. Ziele und Ständer werden erst aufgestellt, wenn das Fahrzeug steht.",
    beside_it: "Jemand neben dem Fahrzeug behält seine Ecken im Auge.",
    in_the_drawing: "getönt: hier fährt das Fahrzeug; Punkt: am engsten",
};

impl About<'_> {
    /// How the car comes there.
    pub fn way(&self, way: &Way) -> String {
        match way {
            Way::Driven(own) => self.driven(own),
            Way::Pushed { .. } => {
                "Kein Fahrweg gefunden: Es ist zu schieben oder auf Rangierrollern zu drehen.".to_owned()
            }
            Way::Barred { door, by } if by.is_empty() => {
                format!("Kein Fahrweg gefunden, auch keiner gerade hinein durch {}.", the(door))
            }
            Way::Barred { door, by } => {
                let verb = if by.len() == 1 { "steht" } else { "stehen" };
                format!("Kein Fahrweg gefunden: Gleich hinter {} {verb} {}.", the(door), self.all_of(by))
            }
            Way::Taken { by } if by.is_empty() => {
                "Kein Fahrweg gefunden: kaum Platz, wo es stehen würde.".to_owned()
            }
            Way::Taken { by } => {
                let verb = if by.len() == 1 { "steht" } else { "stehen" };
                format!("Kein Fahrweg: Wo es stehen würde, {verb} {}.", self.all_of(by))
            }
            Way::NoDoorLetsIn { door, of, mm, is_only } => {
                let lacks = match of {
                    TooSmall::Narrow => format!("ist {} zu schmal", self.length(*mm)),
                    TooSmall::Low => format!("ist {} zu niedrig", self.length(*mm)),
                    TooSmall::Sill => format!("hat eine {} zu hohe Schwelle", self.length(*mm)),
                    TooSmall::NoGround => "hat keinen Boden".to_owned(),
                };
                if *is_only {
                    format!("Das einzige Tor, {}, {lacks}.", the(door))
                } else {
                    format!("Kein Tor lässt es herein: {} {lacks}.", the(door))
                }
            }
            Way::NoDoor => "Kein Tor ist eingegeben, durch das es käme.".to_owned(),
            Way::NoCar => "Was vom Fahrzeug eingegeben ist, sagt nicht, wie es lenkt.".to_owned(),
            Way::Stopped => "Der Weg hinein ist nicht zu Ende gesucht.".to_owned(),
        }
    }

    fn all_of(&self, all: &[Subject]) -> String {
        listed(&all.iter().map(|own| self.subject(own)).collect::<Vec<_>>())
    }

    fn driven(&self, own: &Driven) -> String {
        let mut line = format!("Durch {}", the(&own.door));
        if own.is_opened {
            line.push_str(", dafür geöffnet");
        }
        line.push_str(if own.nose_first { ", Bug voran" } else { ", rückwärts hinein" });
        match own.changes {
            0 => {}
            1 => line.push_str(", ein Richtungswechsel"),
            all => line.push_str(&format!(", {all} Richtungswechsel")),
        }
        if own.mirrors_folded {
            line.push_str(", Spiegel angeklappt");
        }
        if let Some(least) = &own.least {
            let to = self.dative(&least.to);
            line.push_str(&format!("; engste Stelle {} bei {to}", self.length(least.mm)));
            if least.known_mm >= least.mm {
                line.push_str(&format!(", dessen Ort auf ± {} bekannt ist", self.length(least.known_mm)));
            }
        }
        line.push('.');
        if !own.aside.is_empty() {
            line.push_str(&format!(" Vorher beiseite rollen: {}.", self.all_of(&own.aside)));
        }
        line
    }

    /// How tight it turns.
    pub fn turning(&self, turns: &Turns) -> String {
        let circle = self.length(turns.circle_mm);
        if turns.is_assumed {
            format!(
                "Wendekreis {circle} zwischen Bordsteinen: für ein solches Fahrzeug angenommen. Den wirklichen bei dem eingeben, was an diesem Fahrzeug gemessen ist."
            )
        } else {
            format!("Wendekreis {circle} zwischen Bordsteinen, wie für dieses Fahrzeug eingegeben.")
        }
    }
}
