//! German of the same: see `words/aims.rs`.

use super::numbers::percent;
use super::{About, Language, listed, sentence_start};
use crate::assessment::Subject;
use crate::echoes::How;
use crate::echoes::virtual_aims::{Aimed, NoAims, Share, Why};
use crate::words::aims::{AimsTexts, NAMED_FROM, OFF_FROM_RAD};

/// The fixed texts.
pub const TEXTS: AimsTexts = AimsTexts {
    language: Language::German,
    press: "Zehntausend Einstellungen ziehen",
    press_why: "Wohin der Sensor hier eingestellt würde, wenn Marken, Ständer und Boden abweichen, wie sie können, und die Echos zufällig zusammenfallen, und woher das meiste davon kommt",
    causes: "Was ohne jede Ursache davon wegfiele, seitlich und in der Höhe, gemessen am Erlaubten; Echos wirken aufeinander, so dass es zusammen nicht 100 % sein müssen:",
    stopped: "Vor der letzten angehalten.",
    rests_on: "Eine Vorhersage für ideale Formen, nach den Zahlen des Betriebs dafür, was in der Regel abweicht; ein wirkliches Radar filtert Echos. Das Verfahren des Fahrzeugherstellers entscheidet: Keine Vorhersage macht einen Platz bereit.",
};

/// How far it is.
pub fn drawn(done: &str, all: &str) -> String {
    format!("{done} von {all} Einstellungen gezogen")
}

/// Why there is nothing to draw.
pub const fn none(why: NoAims) -> &'static str {
    match why {
        NoAims::Untold(why) => super::echoes::untold(why),
        NoAims::AimsNothing => "Dieses Ziel stellt keinen Sensor ein.",
        NoAims::NoMark => {
            "Wie der Ort des Ziels auf dem Boden gefunden wird, ist nicht gesagt, oder eine Marke ist nicht zu finden: Nichts lässt sich ziehen."
        }
        NoAims::NoBound => {
            "Alle Echos hier zusammen können das des Ziels auslöschen: Wohin der Sensor dann eingestellt würde, hat keine Grenze. Zuerst das stärkste wegnehmen."
        }
        NoAims::NotSound => "Eine Zahl ergibt keinen Sinn: Nichts lässt sich ziehen.",
    }
}

impl About<'_> {
    fn both_ways(&self, [aside, upright]: [f64; 2]) -> String {
        let [aside, upright] = [aside, upright].map(|own| self.locale.region.degrees(own));
        format!("{aside} zur Seite und {upright} nach oben oder unten")
    }

    /// Within how much.
    pub fn aims_lie(&self, aimed: &Aimed) -> String {
        let draws = self.locale.region.grouped(aimed.draws as f64);
        let [aside, upright] = aimed.allowed.map(|own| self.locale.region.degrees(own));
        let allowed = match aside == upright {
            true => format!("erlaubt sind {aside}"),
            false => format!("erlaubt sind {}", self.both_ways(aimed.allowed)),
        };
        let within = self.both_ways(aimed.within());
        format!("{draws} Einstellungen in diesem Raum: 95 von 100 liegen innerhalb von {within}; {allowed}.")
    }

    /// The causes.
    pub fn aims_come_from(&self, aimed: &Aimed) -> String {
        let Some(first) = aimed.most() else {
            return "Nichts hier lässt sie auseinanderliegen.".to_owned();
        };
        let told = |own: &Share| format!("{} ({})", self.cause(&own.why), self.aims_share(own.of_all));
        let next: Vec<String> =
            aimed.shares.iter().skip(1).take(2).filter(|own| own.of_all >= NAMED_FROM).map(told).collect();
        let next = if next.is_empty() { String::new() } else { format!("; danach {}", listed(&next)) };
        let all = format!("Am meisten macht aus: {}{next}.", told(first));
        let is_out = aimed.within().iter().zip(aimed.allowed).any(|(own, allowed)| *own > allowed);
        match aimed.worth_fixing().filter(|_| is_out) {
            Some(own) => format!("{all} Zuerst zu beheben: {}.", self.cause(&own.why)),
            None => all,
        }
    }

    /// What shifts all.
    pub fn aims_are_off(&self, aimed: &Aimed) -> String {
        let ways = [("nach links", "nach rechts"), ("nach oben", "nach unten")];
        let told = aimed.off.iter().zip(ways).filter(|(own, _)| own.abs() >= OFF_FROM_RAD);
        let told: Vec<String> = told
            .map(|(own, (one, other))| {
                let way = if *own > 0.0 { one } else { other };
                format!("{} {way}", self.locale.region.degrees(own.abs()))
            })
            .collect();
        if told.is_empty() {
            return String::new();
        }
        format!(
            "Alle weichen um {} ab, nach dem, was abgelesen und eingegeben wurde; das ist darin enthalten.",
            listed(&told)
        )
    }

    /// What is left out.
    pub fn aims_leave_out(&self, aimed: &Aimed) -> String {
        let mut told = Vec::new();
        if !aimed.may_be_taken.is_empty() {
            let mut all: Vec<String> = aimed.may_be_taken.iter().map(|own| self.echo_by(&own.how)).collect();
            all.dedup();
            told.push(format!(
                "Das Radar kann dies für das Ziel halten, und der Sensor würde darauf eingestellt: {}. Diese Einstellungen sind ohne das.",
                all.join("; ")
            ));
        }
        if aimed.in_line > 0 {
            told.push(
                "Starke Echos aus der Richtung des Ziels selbst sind weggelassen: Sie verschieben die Einstellung um weniger als das Erlaubte."
                    .to_owned(),
            );
        }
        told.join(" ")
    }

    /// A cause.
    pub fn why_off(&self, why: &Why) -> String {
        sentence_start(&self.cause(why))
    }

    /// A share.
    pub fn aims_share(&self, share: f64) -> String {
        percent(share, self.locale.region)
    }

    fn cause(&self, why: &Why) -> String {
        let fixed = match why {
            Why::Mark => "wie sicher die Marke unter dem Ziel liegt",
            Why::StandPlace => "wie der Ständer auf seiner Marke steht",
            Why::Height => "wie die Höhe des Ziels eingestellt ist",
            Why::Square => "wie rechtwinklig die Fläche des Ziels steht",
            Why::Floor => "was von den Höhen des Bodens bekannt ist",
            Why::CarMoved => "das Fahrzeug, das sich nach dem Messen etwas bewegt",
            Why::Thrust => "was von der geometrischen Fahrachse bekannt ist",
            Why::Echo(echo) => return self.echo_by(&echo.how),
        };
        fixed.to_owned()
    }

    fn echo_by(&self, how: &How) -> String {
        let all = |own: &[Subject]| listed(&own.iter().map(|own| self.alone(own)).collect::<Vec<_>>());
        match how {
            How::Straight { of, .. } => format!("Echo von {}", self.dative(of)),
            How::Corner { of } => format!("Echo aus der Ecke von {}", all(of)),
            How::TargetBy { out, back } => {
                let mut by: Vec<Subject> = out.iter().chain(back).cloned().collect();
                by.dedup();
                format!("noch einmal das Ziel, auf dem Weg über {}", all(&by))
            }
            How::Round { by } => format!("Echo auf dem Weg über {}", all(by)),
        }
    }
}
