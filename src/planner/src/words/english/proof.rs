//! English of the same: see `words/proof.rs`.

use baywright_survey::decide::Said;

use super::marks::wheel_name;
use super::{About, Language, listed, sentence_start};
use crate::assessment::Subject;
use crate::model::Id;
use crate::proof::{Doubt, Figure, FigureOf, MadeOf, NextTape, Off, Origin};
use crate::words::proof::{BadTape, ProofTexts, stuck_and_open};
use crate::words::screen::cut;

/// The fixed texts.
pub const TEXTS: ProofTexts = ProofTexts {
    language: Language::English,
    title: "Tape check",
    as_measured: "As measured",
    read: "Read",
    should_read: "Should read",
    allowance: "±",
    says_nothing_of_sensor: "Measured from these wheels as they stand; floor and stand count as far as they were measured. It says nothing about the sensor.",
    rule: "Inside only if all of the 95 % range is; outside only if none of it is (JCGM 106, guarded acceptance).",
    read_file: "Read file \u{2026}",
    read_file_why: "Takes readings from a text or CSV file: mark, mark, what the tape read, a line each. Undo brings back what was there",
    lay_anew: "Marks laid anew",
    lay_anew_why: "Takes all readings away: other marks, other readings. Undo brings them back.",
    squareness_open: "No two marks give its squareness: set it by the stand; it is not proven here.",
    details: "Details",
    test: "Test",
    costs: "What makes it unsure",
    enough: "Enough: all is inside.",
    nothing_helps: "No other tape makes it surer.",
    fits: "All readings fit.",
    unread: "Nothing read yet.",
};

pub fn strange(count: usize) -> String {
    match count {
        1 => "One reading is of marks that this plan does not have, or that no tape reaches.".to_owned(),
        _ => format!("{count} readings are of marks that this plan does not have, or that no tape reaches."),
    }
}

pub fn should(from: &str, to: &str, length: &str, allowance: &str) -> String {
    format!("{from}\u{2013}{to}: {length} ± {allowance}")
}

pub fn again_within(mark: &str, within: &str) -> String {
    format!("Mark {mark} laid twice: ≤ {within} apart")
}

pub fn box_of_again(mark: &str) -> String {
    format!("How far mark {mark}, laid a second time, lies from the first")
}

pub fn box_of(from: &str, to: &str) -> String {
    format!("Read from mark {from} to mark {to}")
}

pub fn draw_as_laid(times: usize) -> String {
    format!("Draw how the marks lie, {times} times larger")
}

pub fn bad_tape_in(file: &str, number: usize, what: BadTape<'_>) -> String {
    let what = match what {
        BadTape::Columns(1) => "it has one column".to_owned(),
        BadTape::Columns(count) => format!("it has {count} columns"),
        BadTape::NoMark(name) => format!("no mark of this plan is called “{}”", cut(name)),
        BadTape::OneMark => "both ends are one mark".to_owned(),
        BadTape::NoMoment(text) => format!("“{}” is no day and time", cut(text)),
        BadTape::NoTemperature(text) => format!("“{}” is no temperature", cut(text)),
        BadTape::NoLength(text) => format!("“{}” is no length", cut(text)),
    };
    format!("{file}, line {number}: {what}. Nothing of the file was taken. {HOW}")
}

const HOW: &str = "Three columns a line: mark, mark, what the tape read; or four more: by whom, with what, when (2026-03-17T08:30), °C.";

pub fn so_many_tapes_in(file: &str, found: usize, most: usize) -> String {
    match found {
        0 => format!("{file}: found no reading. Nothing was changed. {HOW}"),
        _ => format!(
            "{file}: found {found} readings; allowed are at most {most}. Nothing of the file was taken."
        ),
    }
}

pub fn tapes_read(file: &str, count: usize) -> String {
    let read = if count == 1 { "One reading".to_owned() } else { format!("{count} readings") };
    format!("{read} taken from {file}")
}

pub fn so_many(read: usize, of: usize) -> String {
    format!("{read} of {of} read")
}

impl About<'_> {
    /// How far off, and which way.
    fn off_of(&self, figure: &Figure) -> String {
        self.off_by(figure.of, figure.off)
    }

    fn off_by(&self, of: FigureOf, off: f64) -> String {
        let value = self.of_target(of, off.abs());
        if value == self.of_target(of, 0.0) {
            return value;
        }
        let way = match (of, off > 0.0) {
            (FigureOf::Direction | FigureOf::Aside | FigureOf::Turn, true) => "left",
            (FigureOf::Direction | FigureOf::Aside | FigureOf::Turn, false) => "right",
            (FigureOf::Distance, true) => "too far",
            (FigureOf::Distance, false) => "too near",
        };
        format!("{value} {way}")
    }

    /// Where an uncertainty comes from.
    pub fn origin(&self, origin: &Origin) -> String {
        let mark = |step: usize| {
            self.arrangement.aiming.mark_plan.get(step).map_or_else(String::new, |own| own.id.to_string())
        };
        match origin {
            Origin::WheelAside(wheel) => {
                let wheel = wheel_name(*wheel);
                format!("wheel point sideways, {wheel}")
            }
            Origin::WheelAlong(wheel) => {
                let wheel = wheel_name(*wheel);
                format!("wheel point lengthwise, {wheel}")
            }
            Origin::Camber(wheel) => {
                let wheel = wheel_name(*wheel);
                format!("camber, {wheel}")
            }
            Origin::TapeScale => "the tape itself".to_owned(),
            Origin::TapeWarmth => "the tape's warmth".to_owned(),
            Origin::Along(step) => {
                let mark = mark(*step);
                format!("mark {mark}: tape or plumb line")
            }
            Origin::Across(step) => {
                let mark = mark(*step);
                format!("mark {mark}: line, laser or square")
            }
        }
    }

    /// What of a target is asked.
    pub fn asked_of_target(&self, of: FigureOf) -> &'static str {
        match of {
            FigureOf::Direction => "direction",
            FigureOf::Distance => "distance",
            FigureOf::Aside => "sideways",
            FigureOf::Turn => "face by its marks",
        }
    }

    /// "0.03° left ± 0.05° (95 %), allowed ± 0.10°".
    pub(super) fn off_against(&self, figure: &Figure) -> String {
        if figure.is_guess {
            return format!(
                "likeliest {}, but more than one thing does not fit; allowed ± {}",
                self.off_of(figure),
                self.of_target(figure.of, figure.allowed)
            );
        }
        let parts = self.parts_of(figure);
        format!(
            "{}{parts} ± {} (95 %), allowed ± {}",
            self.off_of(figure),
            self.of_target(figure.of, figure.u95),
            self.of_target(figure.of, figure.allowed)
        )
    }

    /// " (marks 2.2 mm left, pole 2.9 mm left)", where more than the marks is seen in its last place.
    fn parts_of(&self, figure: &Figure) -> String {
        let nothing = self.of_target(figure.of, 0.0);
        let seen = |by: f64| self.of_target(figure.of, by.abs()) != nothing;
        let others =
            figure.others_matter() && figure.made_of.iter().any(|(of, by)| *of != MadeOf::Marks && seen(*by));
        if !others {
            return String::new();
        }
        let all = figure.made_of.iter().filter(|(_, by)| seen(*by)).map(|(of, by)| {
            let what = match of {
                MadeOf::Marks => "marks",
                MadeOf::Pole => "pole",
                MadeOf::Floor => "floor's tilt",
                MadeOf::Placed => "where it is to stand",
                MadeOf::Face => "face",
            };
            format!("{what} {}", self.off_by(figure.of, *by))
        });
        format!(" ({})", all.collect::<Vec<_>>().join(", "))
    }

    /// What a figure of a target comes to.
    pub fn laid(&self, figure: &Figure) -> String {
        let target = sentence_start(&self.bare_subject(&Subject::Target(figure.placement.clone())));
        let against = self.off_against(figure);
        let asked = self.asked_of_target(figure.of);
        match figure.said {
            Said::Inside { to_spare } => {
                format!(
                    "{target}, {asked}: {against}: inside, {} to spare.",
                    self.of_target(figure.of, to_spare)
                )
            }
            Said::Outside { by } => {
                format!("{target}, {asked}: {against}: outside, {} too much.", self.of_target(figure.of, by))
            }
            Said::CannotSay { .. } if figure.is_unchecked() => {
                format!("Cannot say yet: {target}, {asked}: {against}: {}.", self.goes_unseen(figure))
            }
            Said::CannotSay { .. } | Said::NoFigure => {
                format!("Cannot say yet: {target}, {asked}: {against}.")
            }
        }
    }

    /// Which mark out of place could go unseen, and what that would make of a figure.
    fn goes_unseen(&self, figure: &Figure) -> String {
        let mark = figure.unseen_mark.as_ref();
        let mark = mark.map_or_else(|| "a mark".to_owned(), |own| format!("mark {own}"));
        let by = self.of_target(figure.of, figure.unseen);
        match (figure.no_tape_shows, figure.tells_unseen()) {
            (false, true) => format!("{mark} out of place could go unseen, and put it out by {by}"),
            (false, false) => format!("{mark} out of place could go unseen, nothing taped so far shows it"),
            (true, true) => format!(
                "{mark} out of place could go unseen, and put it out by {by}; no distance between the marks of this plan shows more"
            ),
            (true, false) => {
                format!(
                    "{mark} out of place could go unseen, no distance between the marks of this plan shows it"
                )
            }
        }
    }

    /// What is done about a figure of the marks that cannot be told.
    pub(super) fn to_prove(&self, figure: &Figure) -> String {
        if !figure.no_tape_shows {
            return "Go on taping as the tape check says; if all is taped, lay the marks anew.".to_owned();
        }
        let mark =
            figure.unseen_mark.as_ref().map_or_else(|| "the mark".to_owned(), |own| format!("mark {own}"));
        format!(
            "More tape does not settle it: {}. Lay {mark} a second time by itself, without a look at the first, and enter on the tab \
             of marks how far apart they lie.",
            self.goes_unseen(figure)
        )
    }

    /// A mark that was laid twice.
    fn twice(&self, mark: &Id, apart_mm: f64, within_mm: f64) -> String {
        let (apart, within) = (self.length(apart_mm), self.length(within_mm));
        format!("mark {mark}, laid twice, lies {apart} apart, at most {within} is good")
    }

    /// The same as a sentence.
    pub fn laid_twice(&self, mark: &Id, apart_mm: f64, within_mm: f64) -> String {
        format!("{}.", sentence_start(&self.twice(mark, apart_mm, within_mm)))
    }

    /// What a mark or a reading is off by.
    pub fn off_by_tape(&self, off: &Off) -> String {
        match off {
            Off::Reading { from, to, reads_long_mm, .. } => {
                let way = if *reads_long_mm > 0.0 { "long" } else { "short" };
                format!("{from}\u{2013}{to} reads {} {way}", self.length(reads_long_mm.abs()))
            }
            Off::Apart { mark, apart_mm, within_mm } => self.twice(mark, *apart_mm, *within_mm),
            Off::Mark { mark, by } => format!("mark {mark} lies {}", self.towards(self.of_car(*by))),
        }
    }

    /// What does not fit.
    pub fn doubt(&self, doubt: &Doubt) -> Option<String> {
        Some(match doubt {
            Doubt::Unread | Doubt::Fits => return None,
            Doubt::One(Off::Reading { from, to, reads_long_mm, likely_mm }) => {
                let way = if *reads_long_mm > 0.0 { "long" } else { "short" };
                format!(
                    "{from}\u{2013}{to} does not fit: it reads {} {way}, likely {}. Tape it again.",
                    self.length(reads_long_mm.abs()),
                    self.length(*likely_mm)
                )
            }
            Doubt::One(Off::Mark { mark, by }) => {
                format!(
                    "Mark {mark} does not lie where it is meant: shift it by {}.",
                    self.towards(self.of_car(-*by))
                )
            }
            Doubt::One(own @ Off::Apart { .. }) => {
                format!(
                    "{}. Lay it a third time: the one that lies apart is wrong.",
                    sentence_start(&self.off_by_tape(own))
                )
            }
            Doubt::CannotTell(all) => {
                let all: Vec<String> = all.iter().take(4).map(|own| self.off_by_tape(own)).collect();
                format!("Something does not fit, and which cannot be told: {}.", any_of(&all))
            }
            Doubt::MoreThanOne(own) => {
                format!(
                    "More than one thing does not fit; likeliest: {}. Tape again from the wheels on.",
                    self.off_by_tape(own)
                )
            }
        })
    }

    /// What to tape next.
    pub fn next_tape(&self, next: &NextTape) -> String {
        match next {
            NextTape::Tape { from, to } => format!("Tape {from}\u{2013}{to} next: it settles most."),
            NextTape::Again { from, to } => format!("Tape {from}\u{2013}{to} again."),
            NextTape::LayAgain(mark) => format!(
                "Lay mark {mark} a second time by itself, without a look at the first, and tape how far apart they lie: no distance shows it."
            ),
            NextTape::Enough => TEXTS.enough.to_owned(),
            NextTape::NothingHelps => TEXTS.nothing_helps.to_owned(),
        }
    }

    /// The same where figures stand beside it: of which it speaks, and which no distance between marks settles.
    pub fn next_tape_of(&self, next: &NextTape, figures: &[Figure]) -> String {
        let said = self.next_tape(next);
        let is_taped = matches!(next, NextTape::Tape { .. } | NextTape::Again { .. });
        let [stuck, open] = stuck_and_open(figures).map(|all| {
            let named = all.iter().map(|own| format!("{}: {}", own.placement, self.asked_of_target(own.of)));
            named.collect::<Vec<_>>()
        });
        match (is_taped && !stuck.is_empty(), open.is_empty()) {
            (false, _) => said,
            (true, false) => {
                format!("{said} That is for {}; no distance settles {}.", listed(&open), listed(&stuck))
            }
            (true, true) => {
                format!("{said} That makes figures surer; no distance settles {}.", listed(&stuck))
            }
        }
    }

    /// The title of a finding of it, with its figures.
    pub(super) fn reading_off(&self, doubt: &Doubt) -> String {
        let own = |off: &Off| match off {
            Off::Reading { from, to, .. } => format!("{from}\u{2013}{to} does not fit what else was taped"),
            Off::Apart { mark, .. } => format!("mark {mark}, laid twice, lies in two places"),
            Off::Mark { mark, .. } => format!("mark {mark} lies beside its place by what was taped"),
        };
        match doubt {
            Doubt::One(off) => own(off),
            Doubt::MoreThanOne(_) => "more than one taped distance does not fit".to_owned(),
            Doubt::CannotTell(_) | Doubt::Unread | Doubt::Fits => {
                "what was taped between marks does not fit together".to_owned()
            }
        }
    }
}

/// "a, b or c".
fn any_of(all: &[String]) -> String {
    match all {
        [] => String::new(),
        [one] => one.clone(),
        [first @ .., last] => format!("{} or {last}", listed_by_commas(first)),
    }
}

fn listed_by_commas(all: &[String]) -> String {
    if all.len() == 1 { listed(all) } else { all.join(", ") }
}
