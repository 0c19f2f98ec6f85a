//! German of the same: see `words/instruments.rs`.

use jiff::civil::Date;

use super::{About, Language, listed};
use crate::history::Drift;
use crate::model::{InstrumentFigure, InstrumentKind, MarkTaped, Taken};
use crate::proof::{ENOUGH, Hand, by_the_shop, used};
use crate::words::instruments::{BadCheck, InstrumentTexts};
use crate::words::screen::cut;

/// The fixed texts.
pub const TEXTS: InstrumentTexts = InstrumentTexts {
    language: Language::German,
    heading: "Messgeräte dieser Werkstatt",
    about: "Ein Maß, das eines nennt, zählt mit dessen Werten; was leer bleibt, ist der Wert oben. Ist eine Prüfung überfällig, wird es gesagt. Wo keine Ablesung eines nennt (Stahlbandmaß, Linienlaser, Lot, Winkel, Wasserwaage), zählt das einzige seiner Art.",
    none_yet: "Keines eingetragen: jedes Maß zählt mit den Werten oben.",
    add: "Messgerät hinzufügen",
    remove: "Entfernen",
    name: "Name",
    kind: "Art",
    class: "Klasse",
    class_hint: "Wie es darauf steht",
    serial: "Seriennummer",
    checked: "Zuletzt geprüft",
    due: "Prüfung gilt bis",
    day_hint: "Wie 2026-03-17; leer, wenn es niemand gesagt hat",
    not_a_day: "Das ist kein Tag: eingeben wie 2026-03-17.",
    taped_by: "Gemessen von",
    taped_by_hint: "Wird von hier an mit jedem Maß behalten",
    with: "Mit",
    with_any: "nicht genannt",
    celsius: "Wärme des Bands, °C",
    celsius_hint: "Wird von hier an mit jedem Maß behalten, das dann auf 20 °C umgerechnet wird; leer, wenn niemand nachsah",
    list_them: "Messgeräte eintragen \u{2026}",
    lay_again: "Noch einmal gelegt",
    lay_again_why: "Die Radpunkte wurden neu gesucht und dieselben Marken ein zweites Mal gelegt: Was gemessen ist, bleibt als erstes Mal \
                    stehen, die Felder sind leer für das zweite. Der Unterschied zeigt, wie genau hier Marken gelegt werden. \
                    „Rückgängig“ holt es zurück.",
    marks_that_stay: "Bleibende Marken",
    no_marks_that_stay: "Keine auf diesem Boden.",
    add_mark: "Marke hinzufügen",
    remove_mark: "Marke entfernen",
    checks: "Prüfungen",
    checks_hint: "Je Zeile: Tag; Wand oder andere Marke; Maß; noch eine Wand oder Marke; Maß; von wem; womit",
    mark_x: "Längs",
    mark_y: "Quer",
};

pub const fn kind_of(kind: InstrumentKind) -> &'static str {
    match kind {
        InstrumentKind::SteelTape => "Stahlbandmaß",
        InstrumentKind::DistanceMeter => "Laser-Entfernungsmesser",
        InstrumentKind::LineLaser => "Linienlaser",
        InstrumentKind::PlumbLine => "Lot",
        InstrumentKind::DigitalLevel => "digitale Wasserwaage",
        InstrumentKind::Bubble => "Libelle",
        InstrumentKind::LevelLaser => "Rotationslaser oder Schlauchwaage",
        InstrumentKind::Square => "Winkel",
        InstrumentKind::Other => "anderes",
    }
}

pub const fn figure(kind: InstrumentKind, figure: InstrumentFigure) -> &'static str {
    match (figure, kind) {
        (InstrumentFigure::Reading, InstrumentKind::LineLaser) => "Mitte seiner Linie, ±",
        (InstrumentFigure::Reading, InstrumentKind::PlumbLine) => "Ein Punkt gelotet, ±",
        (InstrumentFigure::Reading, InstrumentKind::LevelLaser) => "Eine Höhe, ±",
        (InstrumentFigure::Reading, _) => "Eine Ablesung, ±",
        (InstrumentFigure::PerMetre, InstrumentKind::LineLaser | InstrumentKind::LevelLaser) => {
            "Drift auf einem Meter, ±"
        }
        (
            InstrumentFigure::PerMetre,
            InstrumentKind::DigitalLevel | InstrumentKind::Bubble | InstrumentKind::Square,
        ) => "Daneben auf einem Meter, ±",
        (InstrumentFigure::PerMetre, _) => "Auf einen Meter, ±",
        (InstrumentFigure::Warmth, _) => "Dehnung, ppm je K",
    }
}

pub fn stands_in(figure: InstrumentFigure, value: &str) -> String {
    match figure {
        InstrumentFigure::Reading | InstrumentFigure::PerMetre => format!("Leer: {value}, wie oben"),
        InstrumentFigure::Warmth => format!("Leer: {value}"),
    }
}

pub fn headed(name: &str, kind: InstrumentKind, overdue: bool) -> String {
    let late = if overdue { ": Prüfung überfällig" } else { "" };
    let kind = kind_of(kind);
    // One that goes by its kind needs it once.
    if name == kind { format!("{name}{late}") } else { format!("{name} ({kind}){late}") }
}

pub fn overdue_beside(line: &str) -> String {
    format!("{line}: seine Prüfung ist überfällig")
}

pub fn set(name: &str) -> String {
    format!("Messgerät „{name}“")
}

pub fn gone(name: &str) -> String {
    format!("Messgerät „{name}“ entfernt")
}

pub const fn new_name(kind: InstrumentKind) -> &'static str {
    kind_of(kind)
}

pub fn with_how(hint: &str, how: &str) -> String {
    format!("{hint}\n{how}")
}

pub fn no_temperature(text: &str) -> String {
    format!("„{}“ ist keine Temperatur.", cut(text))
}

pub fn bad_check(number: usize, what: BadCheck<'_>) -> String {
    let what = match what {
        BadCheck::Columns(1) => "sie hat eine Spalte; fünf bis sieben, getrennt durch ;".to_owned(),
        BadCheck::Columns(count) => format!("sie hat {count} Spalten; fünf bis sieben, getrennt durch ;"),
        BadCheck::NoDay(text) => format!("„{}“ ist kein Tag wie 2026-03-17", cut(text)),
        BadCheck::NoSource(name) => {
            format!("keine Wand und keine andere bleibende Marke heißt „{}“", cut(name))
        }
        BadCheck::OneSource => "es wurde zweimal vom selben aus gemessen".to_owned(),
        BadCheck::NoLength(text) => format!("„{}“ ist keine Länge", cut(text)),
        BadCheck::TooMany => "das sind mehr als 100 Prüfungen".to_owned(),
    };
    format!("Zeile {number}: {what}.")
}

pub const fn new_mark() -> &'static str {
    "Marke"
}

impl About<'_> {
    fn celsius(&self, celsius: f64) -> String {
        format!("{} °C", self.locale.region.number(celsius, usize::from(celsius != celsius.round())))
    }

    /// How the next readings are taken.
    pub fn next_taken(&self, taken: &Taken) -> String {
        if taken.is_unknown() {
            return "Von wem gemessen, womit?".to_owned();
        }
        let who = taken.who.as_ref().map_or_else(String::new, |who| format!(" von „{who}“"));
        let with = taken.with.as_ref().map_or_else(String::new, |with| format!(" mit „{with}“"));
        let at = taken.temperature_c.map_or_else(String::new, |own| format!(" bei {}", self.celsius(own)));
        format!("Gemessen{who}{with}{at}")
    }

    /// How a reading was taken.
    pub fn taken(&self, taped: &MarkTaped, warmth_mm: Option<f64>) -> Option<String> {
        let own = &taped.taken;
        if own.is_unknown() {
            return None;
        }
        let mut said = self.next_taken(&Taken { at: None, ..own.clone() });
        if own.who.is_none() && own.with.is_none() && own.temperature_c.is_none() {
            "Gemessen".clone_into(&mut said);
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
            said.push_str(&format!(": {} bei 20 °C", self.locale.length_to_type(taped.read_mm + warmth)));
        }
        Some(said)
    }

    /// What two layings show.
    pub fn hand(&self, hand: &Hand) -> String {
        let Hand { distances, differ_mm, assumed_mm, flattered, counts } = *hand;
        let many =
            if distances == 1 { "ein Maß weicht".to_owned() } else { format!("{distances} Maße weichen") };
        let differ = format!(
            "Zweimal gelegt: {many} um {} ab, zu erwarten war {}",
            self.length(differ_mm),
            self.length(assumed_mm)
        );
        match (counts, flattered) {
            (Some(_), true) => {
                format!(
                    "{differ}: die angenommenen Werte schmeicheln dieser Hand; jetzt zählen ihre eigenen."
                )
            }
            (Some(_), false) => format!("{differ}: jetzt zählen die eigenen Werte dieser Hand."),
            (None, _) => format!("{differ}. Ab {ENOUGH} Maßen zählen die eigenen Werte dieser Hand."),
        }
    }

    /// With what marks are laid and stands are set, and where the shop's own figures count.
    pub fn laid_with(&self) -> String {
        let named = used(self.arrangement).into_iter().filter(|own| own.lays);
        let named: Vec<String> =
            named.map(|own| format!("{} „{}“", kind_of(own.own.kind), own.own.name)).collect();
        let rest = by_the_shop(self.arrangement).into_iter().map(|(kind, count)| match count {
            0 => kind_of(kind).to_owned(),
            count => format!("{} ({count} in der Liste, keines genannt)", kind_of(kind)),
        });
        let rest: Vec<String> = rest.collect();
        let with = match named.as_slice() {
            [] => String::new(),
            named => format!("Gelegt und gestellt mit: {}. ", listed(named)),
        };
        match rest.as_slice() {
            [] => with.trim_end().to_owned(),
            rest => format!("{with}Die Vorgaben der Werkstatt zählen für: {}.", listed(rest)),
        }
    }

    /// What a tape that is not at 20 °C reads of a distance.
    pub fn reads_warm(&self, taken: &Taken, reads_mm: f64) -> Option<String> {
        let celsius = self.celsius(taken.temperature_c?);
        let tape = taken.with.as_ref().map_or_else(|| "das Bandmaß".to_owned(), |own| format!("„{own}“"));
        Some(format!("Bei {celsius} soll {tape} {} zeigen.", self.locale.length_to_type(reads_mm)))
    }

    fn between(&self, drift: &Drift) -> String {
        let day = |own: Date| self.locale.region.day(own);
        format!("zwischen {} und {}", day(drift.from), day(drift.to))
    }

    /// How far a mark drifted.
    pub fn drifted(&self, drift: &Drift) -> String {
        format!(
            "Gewandert {}: {}. Noch einmal messen; liegt sie anders, neu anzeichnen und bis dahin nicht von ihr aus legen.",
            self.between(drift),
            self.towards(drift.by)
        )
    }

    /// The same as a note.
    pub fn drift_note(&self, drift: &Drift) -> String {
        format!(
            "{} {}; allein die Ablesungen dürfen um {} abweichen.",
            self.length(drift.by.length()),
            self.between(drift),
            self.length(drift.u95_mm)
        )
    }

    /// A check that says nowhere.
    pub fn check_says_nothing(&self, day: Date) -> String {
        let day = self.locale.region.day(day);
        format!(
            "{day}: Die Maße treffen sich nirgends oder zu flach, oder wovon gemessen wurde, ist nicht mehr da."
        )
    }
}
