//! German of the same: see `words/helps.rs`.

use super::{About, Language, sentence_start};
use crate::model::Id;
use crate::proof::{Buys, Checked, Help, Helps};
use crate::words::helps::HelpsTexts;

/// The fixed texts.
pub const TEXTS: HelpsTexts = HelpsTexts {
    language: Language::German,
    shares: "Anteil jedes Schritts",
    shares_read: "Balken: wie viel der Unsicherheit vor dem Messen aus jedem Schritt kommt, das Größte oben",
    tests: "Prüfwert jeder Ablesung",
    tests_read: "Punkte: der Prüfwert jeder Ablesung der Reihe nach; jenseits von 3,29 passt sie nicht",
    limit_line: "Jenseits der Linien von 3,29 passt es nicht zum Übrigen.",
    course: "Wie sicher nach jeder Ablesung (95 %)",
    course_read: "Linie: die Unsicherheit der ersten Größe des Ziels nach jeder Ablesung, fallend gegen genug",
    course_across: "Ablesungen",
    enough_line: "genug",
    would_help: "Was vor dem Legen helfen würde",
    no_base: "Eine längere Basis ist nicht dabei: die Linie beginnt an den Rädern.",
    draw: "Tausende Male ausprobieren",
    draw_why: "Legt den Plan viele tausend Mal nach Zufall und hält das Ergebnis gegen die Zahlen oben (JCGM 101). Immer derselbe Zufall: derselbe Plan hat dieselbe Antwort",
    stop: "Anhalten",
    unsettled: "Die Zahlen sind nach all diesen Versuchen nicht ruhig.",
};

pub fn figure(name: &str, figure: &str) -> String {
    format!("{name}: {figure}")
}

pub fn share(percent: &str) -> String {
    format!("{percent} %")
}

pub fn graph(what: &str, figures: &[String]) -> String {
    format!("{what} {}", figures.join("; "))
}

pub fn run(from: &Id, to: &Id) -> String {
    format!("{from}\u{2013}{to}")
}

pub fn drawing(times: &str) -> String {
    format!("Probiert \u{2026} {times} Tausend Mal")
}

pub fn others(count: usize) -> String {
    if count == 1 { "ein weiterer".to_owned() } else { format!("{count} weitere") }
}

impl About<'_> {
    /// What one thing buys: "Bandmaß der Klasse I: ± 0,062° → ± 0,058°".
    pub fn buys(&self, helps: &Helps, own: &Buys) -> String {
        let help = match own.help {
            Help::ClassOneTape => "Bandmaß der Klasse I statt II",
            Help::SteadierLaser => "Linienlaser mit halber Drift",
            Help::WheelsFound => "Radpunkte doppelt so gut gefunden",
            Help::CamberKnown => "Sturz doppelt so gut bekannt",
            Help::LaidTwice => "alles zweimal gelegt, die Mitte genommen",
        };
        let [before, after] = [helps.u95, own.u95].map(|u95| self.finely(helps.of, u95));
        let help = sentence_start(help);
        if before == after {
            return format!("{help}: kein Gewinn");
        }
        format!("{help}: ±\u{a0}{before} \u{2192} ±\u{a0}{after}")
    }

    /// What it is about, and how surely it is laid now.
    pub fn laid_now(&self, helps: &Helps) -> String {
        let of = sentence_start(self.asked_of_target(helps.of));
        let now = self.finely(helps.of, helps.u95);
        match &helps.dearest {
            Some(cost) => {
                let origin = self.origin(&cost.origin);
                let share = self.locale.region.number(100.0 * cost.share, 0);
                format!("{of}, wie gelegt: ± {now} (95 %). Am teuersten: {origin}, {share} %.")
            }
            None => format!("{of}, wie gelegt: ± {now} (95 %)."),
        }
    }

    /// What drawing said beside the linear law.
    pub fn checked(&self, found: &Checked) -> String {
        let said = |value: f64| self.finely(found.of, value);
        let signed =
            |value: f64| format!("{}{}", if value < 0.0 { "\u{2212}" } else { "+" }, said(value.abs()));
        let draws = self.locale.region.number(found.draws as f64 * 1e-3, 0);
        let both = format!(
            "Standardunsicherheit {} nach dem linearen Gesetz, {} bei {draws} Tausend Versuchen; 95 % davon von {} bis {}.",
            said(found.linear_u),
            said(found.drawn_u),
            signed(found.low),
            signed(found.high)
        );
        let lost = match found.lost {
            0 => String::new(),
            lost => format!(" {} ließen sich gar nicht legen.", self.locale.region.number(lost as f64, 0)),
        };
        let u95 = said(found.u95);
        let verdict = if found.agree {
            format!("Sie stimmen auf ± {} überein (JCGM 101, Abschnitt 8): ± {u95} gilt.", said(found.within))
        } else {
            format!(
                "Sie weichen ab: die der Versuche ist die wahrere. Sicherheitshalber mit der größeren rechnen, ± {u95}."
            )
        };
        format!("{both}{lost} {verdict}")
    }
}
