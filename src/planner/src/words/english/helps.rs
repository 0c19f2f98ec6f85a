//! English of the same: see `words/helps.rs`.

use super::{About, Language, sentence_start};
use crate::model::Id;
use crate::proof::{Buys, Checked, Help, Helps};
use crate::words::helps::HelpsTexts;

/// The fixed texts.
pub const TEXTS: HelpsTexts = HelpsTexts {
    language: Language::English,
    shares: "Share of each step",
    shares_read: "Bars: how much of what is unsure before taping comes from each step, the largest above",
    tests: "Test of each reading",
    tests_read: "Points: the test of each reading in its order; beyond 3.29 either way it does not fit",
    limit_line: "Beyond the lines of 3.29 it does not fit what else was taped.",
    course: "How sure after each reading (95 %)",
    course_read: "Line: the uncertainty of the target's first figure after each reading, falling towards enough",
    course_across: "Readings taken",
    enough_line: "enough",
    would_help: "What would help, before laying",
    no_base: "A longer base is not among it: the line starts at the wheels.",
    draw: "Try it thousands of times",
    draw_why: "Lays the plan by chance, many thousand times, and holds the outcome against the figures above (JCGM 101). Always the same chances: the same plan has the same answer",
    stop: "Stop",
    unsettled: "The figures are not steady after all these trials.",
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
    format!("Trying \u{2026} {times} thousand times")
}

pub fn others(count: usize) -> String {
    if count == 1 { "one more".to_owned() } else { format!("{count} more") }
}

impl About<'_> {
    /// What one thing buys: "Class I tape: ± 0.062° → ± 0.058°".
    pub fn buys(&self, helps: &Helps, own: &Buys) -> String {
        let help = match own.help {
            Help::ClassOneTape => "class I tape instead of II",
            Help::SteadierLaser => "line laser that drifts half as much",
            Help::WheelsFound => "wheel points found twice as well",
            Help::CamberKnown => "camber known twice as well",
            Help::LaidTwice => "all laid twice, the middle taken",
        };
        let [before, after] = [helps.u95, own.u95].map(|u95| self.finely(helps.of, u95));
        let help = sentence_start(help);
        if before == after {
            return format!("{help}: nothing gained");
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
                format!("{of}, as laid: ± {now} (95 %). Dearest: {origin}, {share} %.")
            }
            None => format!("{of}, as laid: ± {now} (95 %)."),
        }
    }

    /// What drawing said beside the linear law.
    pub fn checked(&self, found: &Checked) -> String {
        let said = |value: f64| self.finely(found.of, value);
        let signed =
            |value: f64| format!("{}{}", if value < 0.0 { "\u{2212}" } else { "+" }, said(value.abs()));
        let draws = self.locale.region.number(found.draws as f64 * 1e-3, 0);
        let both = format!(
            "Standard uncertainty {} by the linear law, {} as tried {draws} thousand times; 95 % of these from {} to {}.",
            said(found.linear_u),
            said(found.drawn_u),
            signed(found.low),
            signed(found.high)
        );
        let lost = match found.lost {
            0 => String::new(),
            lost => format!(" {} could not be laid at all.", self.locale.region.number(lost as f64, 0)),
        };
        let u95 = said(found.u95);
        let verdict = if found.agree {
            format!("They agree within ± {} (JCGM 101, clause 8): ± {u95} stands.", said(found.within))
        } else {
            format!("They differ: what was tried is the truer. To be safe, count with the larger, ± {u95}.")
        };
        format!("{both}{lost} {verdict}")
    }
}
