//! English of the same: see `words/instruments.rs`.

use jiff::civil::Date;

use super::{About, Language, listed};
use crate::history::Drift;
use crate::model::{InstrumentFigure, InstrumentKind, MarkTaped, Taken};
use crate::proof::{ENOUGH, Hand, by_the_shop, used};
use crate::words::instruments::{BadCheck, InstrumentTexts};
use crate::words::screen::cut;

/// The fixed texts.
pub const TEXTS: InstrumentTexts = InstrumentTexts {
    language: Language::English,
    heading: "Instruments of this shop",
    about: "A reading that names one counts with its figures; what is left empty is the figure above. Where no reading names one (steel tape, line laser, plumb line, square, level) the only one of its kind counts. An overdue one is told.",
    none_yet: "None listed: every reading counts with the figures above.",
    add: "Add an instrument",
    remove: "Remove",
    name: "Name",
    kind: "Kind",
    class: "Class",
    class_hint: "As it is written on it",
    serial: "Serial number",
    checked: "Last checked",
    due: "Check holds until",
    day_hint: "As 2026-03-17; empty if nobody said",
    not_a_day: "That is no day: type it as 2026-03-17.",
    taped_by: "Taped by",
    taped_by_hint: "Kept with each reading from here on",
    with: "With",
    with_any: "not named",
    celsius: "Tape's warmth, °C",
    celsius_hint: "Kept with each reading from here on, which is then worked out for 20 °C; empty if nobody looked",
    list_them: "List instruments \u{2026}",
    lay_again: "Laid again",
    lay_again_why: "You found the wheel points again and laid the same marks a second time: what was read stays as the first laying, \
                    and the boxes are empty for the second. The difference shows how well you lay marks. Undo brings it back.",
    marks_that_stay: "Marks that stay",
    no_marks_that_stay: "None on this floor.",
    add_mark: "Add a mark",
    remove_mark: "Remove mark",
    checks: "Checks",
    checks_hint: "A line each: day; wall or other mark; read; another wall or mark; read; by whom; with what",
    mark_x: "Along",
    mark_y: "Across",
};

pub const fn kind_of(kind: InstrumentKind) -> &'static str {
    match kind {
        InstrumentKind::SteelTape => "steel tape",
        InstrumentKind::DistanceMeter => "laser distance meter",
        InstrumentKind::LineLaser => "line laser",
        InstrumentKind::PlumbLine => "plumb line",
        InstrumentKind::DigitalLevel => "digital level",
        InstrumentKind::Bubble => "bubble",
        InstrumentKind::LevelLaser => "rotating laser or water level",
        InstrumentKind::Square => "square",
        InstrumentKind::Other => "other",
    }
}

pub const fn figure(kind: InstrumentKind, figure: InstrumentFigure) -> &'static str {
    match (figure, kind) {
        (InstrumentFigure::Reading, InstrumentKind::LineLaser) => "Middle of its line, ±",
        (InstrumentFigure::Reading, InstrumentKind::PlumbLine) => "A point plumbed, ±",
        (InstrumentFigure::Reading, InstrumentKind::LevelLaser) => "One level, ±",
        (InstrumentFigure::Reading, _) => "One reading, ±",
        (InstrumentFigure::PerMetre, InstrumentKind::LineLaser | InstrumentKind::LevelLaser) => {
            "Drift over a metre, ±"
        }
        (
            InstrumentFigure::PerMetre,
            InstrumentKind::DigitalLevel | InstrumentKind::Bubble | InstrumentKind::Square,
        ) => "Out over a metre, ±",
        (InstrumentFigure::PerMetre, _) => "Over a metre, ±",
        (InstrumentFigure::Warmth, _) => "Grows, ppm per K",
    }
}

pub fn stands_in(figure: InstrumentFigure, value: &str) -> String {
    match figure {
        InstrumentFigure::Reading | InstrumentFigure::PerMetre => format!("Empty: {value}, the shop's"),
        InstrumentFigure::Warmth => format!("Empty: {value}"),
    }
}

pub fn headed(name: &str, kind: InstrumentKind, overdue: bool) -> String {
    let late = if overdue { ": overdue" } else { "" };
    let kind = kind_of(kind);
    // One that goes by its kind needs it once.
    if name == kind { format!("{name}{late}") } else { format!("{name} ({kind}){late}") }
}

pub fn overdue_beside(line: &str) -> String {
    format!("{line}: its check is overdue")
}

pub fn set(name: &str) -> String {
    format!("Instrument {name}")
}

pub fn gone(name: &str) -> String {
    format!("Instrument {name} removed")
}

pub const fn new_name(kind: InstrumentKind) -> &'static str {
    kind_of(kind)
}

pub fn with_how(hint: &str, how: &str) -> String {
    format!("{hint}\n{how}")
}

pub fn no_temperature(text: &str) -> String {
    format!("“{}” is no temperature.", cut(text))
}

pub fn bad_check(number: usize, what: BadCheck<'_>) -> String {
    let what = match what {
        BadCheck::Columns(1) => "it has one column; five to seven, parted by ;".to_owned(),
        BadCheck::Columns(count) => format!("it has {count} columns; five to seven, parted by ;"),
        BadCheck::NoDay(text) => format!("“{}” is no day as 2026-03-17", cut(text)),
        BadCheck::NoSource(name) => format!("no wall and no other mark that stays is called “{}”", cut(name)),
        BadCheck::OneSource => "it is measured twice from the same".to_owned(),
        BadCheck::NoLength(text) => format!("“{}” is no length", cut(text)),
        BadCheck::TooMany => "that is more than 100 checks".to_owned(),
    };
    format!("Line {number}: {what}.")
}

pub const fn new_mark() -> &'static str {
    "mark"
}

impl About<'_> {
    fn celsius(&self, celsius: f64) -> String {
        format!("{} °C", self.locale.region.number(celsius, usize::from(celsius != celsius.round())))
    }

    /// How the next readings are taken.
    pub fn next_taken(&self, taken: &Taken) -> String {
        if taken.is_unknown() {
            return "Taped by whom, with what?".to_owned();
        }
        let who = taken.who.as_ref().map_or_else(String::new, |who| format!(" by {who}"));
        let with = taken.with.as_ref().map_or_else(String::new, |with| format!(" with {with}"));
        let at = taken.temperature_c.map_or_else(String::new, |own| format!(" at {}", self.celsius(own)));
        format!("Taped{who}{with}{at}")
    }

    /// How a reading was taken.
    pub fn taken(&self, taped: &MarkTaped, warmth_mm: Option<f64>) -> Option<String> {
        let own = &taped.taken;
        if own.is_unknown() {
            return None;
        }
        let mut said = self.next_taken(&Taken { at: None, ..own.clone() });
        if own.who.is_none() && own.with.is_none() && own.temperature_c.is_none() {
            "Taped".clone_into(&mut said);
        }
        if let Some(at) = own.at {
            said.push_str(&format!(
                ", {} {:02}:{:02}",
                self.locale.region.day(at.date()),
                at.hour(),
                at.minute()
            ));
        }
        if let Some(warmth) = warmth_mm {
            said.push_str(&format!(": {} at 20 °C", self.locale.length_to_type(taped.read_mm + warmth)));
        }
        Some(said)
    }

    /// What two layings show.
    pub fn hand(&self, hand: &Hand) -> String {
        let Hand { distances, differ_mm, assumed_mm, flattered, counts } = *hand;
        let many = if distances == 1 {
            "one distance differs".to_owned()
        } else {
            format!("{distances} distances differ")
        };
        let differ = format!(
            "Laid twice: {many} by {} where {} was to be expected",
            self.length(differ_mm),
            self.length(assumed_mm)
        );
        match (counts, flattered) {
            (Some(_), true) => {
                format!("{differ}: the assumed figures flatter this hand; its own count now.")
            }
            (Some(_), false) => format!("{differ}: this hand's own figures count now."),
            (None, _) => format!("{differ}. From {ENOUGH} distances on this hand's own figures count."),
        }
    }

    /// With what marks are laid and stands are set, and where the shop's own figures count.
    pub fn laid_with(&self) -> String {
        let named = used(self.arrangement).into_iter().filter(|own| own.lays);
        let named: Vec<String> =
            named.map(|own| format!("{} “{}”", kind_of(own.own.kind), own.own.name)).collect();
        let rest = by_the_shop(self.arrangement).into_iter().map(|(kind, count)| match count {
            0 => kind_of(kind).to_owned(),
            count => format!("{} ({count} listed, none named)", kind_of(kind)),
        });
        let rest: Vec<String> = rest.collect();
        let with = match named.as_slice() {
            [] => String::new(),
            named => format!("Laid and set with {}. ", listed(named)),
        };
        match rest.as_slice() {
            [] => with.trim_end().to_owned(),
            rest => format!("{with}The shop's settings count for: {}.", listed(rest)),
        }
    }

    /// What a tape that is not at 20 °C reads of a distance.
    pub fn reads_warm(&self, taken: &Taken, reads_mm: f64) -> Option<String> {
        let celsius = self.celsius(taken.temperature_c?);
        let tape = taken.with.as_ref().map_or_else(|| "the tape".to_owned(), |own| format!("“{own}”"));
        Some(format!("At {celsius} {tape} should read {}.", self.locale.length_to_type(reads_mm)))
    }

    fn between(&self, drift: &Drift) -> String {
        let day = |own: Date| self.locale.region.day(own);
        format!("between {} and {}", day(drift.from), day(drift.to))
    }

    /// How far a mark drifted.
    pub fn drifted(&self, drift: &Drift) -> String {
        format!(
            "It moved {} {}. Measure it once more; if it moved, paint it anew and do not lay from it meanwhile.",
            self.towards(drift.by),
            self.between(drift)
        )
    }

    /// The same as a note.
    pub fn drift_note(&self, drift: &Drift) -> String {
        format!(
            "{} {}; the readings alone may differ by {}.",
            super::sentence_start(&self.length(drift.by.length())),
            self.between(drift),
            self.length(drift.u95_mm)
        )
    }

    /// A check that says nowhere.
    pub fn check_says_nothing(&self, day: Date) -> String {
        let day = self.locale.region.day(day);
        format!("{day}: what was read meets nowhere, or too flat, or what it was read from is gone.")
    }
}
