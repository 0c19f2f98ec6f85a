//! English of the same: see `words/aims.rs`.

use super::numbers::percent;
use super::{About, Language, listed, sentence_start};
use crate::assessment::Subject;
use crate::echoes::How;
use crate::echoes::virtual_aims::{Aimed, NoAims, Share, Why};
use crate::words::aims::{AimsTexts, NAMED_FROM, OFF_FROM_RAD};

/// The fixed texts.
pub const TEXTS: AimsTexts = AimsTexts {
    language: Language::English,
    press: "Draw ten thousand aims",
    press_why: "Where the sensor would be aimed here if marks, stand and floor are out as they may be and the echoes fall together at random, and what most of that comes from",
    causes: "What of it would go without each cause, left and right and up and down, by what is allowed; echoes act on one another, so that this need not add up to 100 %:",
    stopped: "Stopped before the last of them.",
    rests_on: "A prediction for ideal shapes, by the shop’s own figures of what is out as a rule; a real radar filters echoes. The vehicle maker’s procedure decides: no prediction makes a space ready.",
};

/// How far it is.
pub fn drawn(done: &str, all: &str) -> String {
    format!("{done} of {all} aims drawn")
}

/// Why there is nothing to draw.
pub const fn none(why: NoAims) -> &'static str {
    match why {
        NoAims::Untold(why) => super::echoes::untold(why),
        NoAims::AimsNothing => "This target aims no sensor.",
        NoAims::NoMark => {
            "How the target’s place on the floor is found is not told, or a mark is not found: no aims can be drawn."
        }
        NoAims::NoBound => {
            "All echoes here together may cancel the target’s: where the sensor would be aimed then has no bound. Take away the strongest first."
        }
        NoAims::NotSound => "A figure makes no sense: no aims can be drawn.",
    }
}

impl About<'_> {
    fn both_ways(&self, [aside, upright]: [f64; 2]) -> String {
        let [aside, upright] = [aside, upright].map(|own| self.locale.region.degrees(own));
        format!("{aside} to a side and {upright} up or down")
    }

    /// Within how much.
    pub fn aims_lie(&self, aimed: &Aimed) -> String {
        let draws = self.locale.region.grouped(aimed.draws as f64);
        let [aside, upright] = aimed.allowed.map(|own| self.locale.region.degrees(own));
        let allowed = match aside == upright {
            true => format!("{aside} is allowed"),
            false => format!("{} are allowed", self.both_ways(aimed.allowed)),
        };
        let within = self.both_ways(aimed.within());
        format!("{draws} aims in this room: 95 of 100 lie within {within}; {allowed}.")
    }

    /// The causes.
    pub fn aims_come_from(&self, aimed: &Aimed) -> String {
        let Some(first) = aimed.most() else { return "Nothing here makes them differ.".to_owned() };
        let told = |own: &Share| format!("{} ({})", self.cause(&own.why), self.aims_share(own.of_all));
        let next: Vec<String> =
            aimed.shares.iter().skip(1).take(2).filter(|own| own.of_all >= NAMED_FROM).map(told).collect();
        let next = if next.is_empty() { String::new() } else { format!("; next {}", listed(&next)) };
        let all = format!("Most comes from {}{next}.", told(first));
        let is_out = aimed.within().iter().zip(aimed.allowed).any(|(own, allowed)| *own > allowed);
        match aimed.worth_fixing().filter(|_| is_out) {
            Some(own) => format!("{all} Worth fixing first: {}.", self.cause(&own.why)),
            None => all,
        }
    }

    /// What shifts all.
    pub fn aims_are_off(&self, aimed: &Aimed) -> String {
        let ways = [("to the left", "to the right"), ("up", "down")];
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
        format!("All of them are off by {}, by what was read and typed; that is in it.", listed(&told))
    }

    /// What is left out.
    pub fn aims_leave_out(&self, aimed: &Aimed) -> String {
        let mut told = Vec::new();
        if !aimed.may_be_taken.is_empty() {
            let mut all: Vec<String> = aimed.may_be_taken.iter().map(|own| self.echo_by(&own.how)).collect();
            all.dedup();
            told.push(format!(
                "The radar may take this for the target, and the sensor would be aimed at it: {}. These aims are without it.",
                all.join("; ")
            ));
        }
        if aimed.in_line > 0 {
            told.push(
                "Strong echoes from the target’s own direction are left out: they move the aim by less than is allowed."
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
            Why::Mark => "how surely the mark under the target is laid",
            Why::StandPlace => "how the stand is put on its mark",
            Why::Height => "how the target’s height is set",
            Why::Square => "how square the target’s face is set",
            Why::Floor => "what is known of the floor’s levels",
            Why::CarMoved => "the car, which moves a little after it was measured",
            Why::Thrust => "what is known of the thrust line",
            Why::Echo(echo) => return self.echo_by(&echo.how),
        };
        fixed.to_owned()
    }

    fn echo_by(&self, how: &How) -> String {
        let all = |own: &[Subject]| listed(&own.iter().map(|own| self.subject(own)).collect::<Vec<_>>());
        match how {
            How::Straight { of, .. } => format!("the echo of {}", self.subject(of)),
            How::Corner { of } => format!("the echo from the corner of {}", all(of)),
            How::TargetBy { out, back } => {
                let mut by: Vec<Subject> = out.iter().chain(back).cloned().collect();
                by.dedup();
                format!("the target once more, by way of {}", all(&by))
            }
            How::Round { by } => format!("the echo by way of {}", all(by)),
        }
    }
}
