//! German of the same: see `words/proof.rs`.

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
    language: Language::German,
    title: "Marken prüfen",
    as_measured: "Wie gemessen",
    read: "Gelesen",
    should_read: "Soll",
    allowance: "±",
    says_nothing_of_sensor: "Gemessen von diesen Rädern, wie sie stehen; Boden und Ständer zählen, soweit sie gemessen sind. Über den Sensor sagt es nichts.",
    rule: "Innerhalb nur, wenn der ganze 95-%-Bereich es ist; außerhalb nur, wenn nichts davon innen liegt (JCGM 106, Annahme mit Sicherheitsabstand).",
    read_file: "Datei lesen \u{2026}",
    read_file_why: "Liest Maße aus einer Text- oder CSV-Datei: Marke, Marke, was das Bandmaß zeigte, je Zeile. „Rückgängig“ holt Früheres zurück",
    lay_anew: "Marken neu gelegt",
    lay_anew_why: "Entfernt alle Ablesungen: andere Marken, andere Maße. „Rückgängig“ holt sie zurück.",
    squareness_open: "Keine zwei Marken geben seine Ausrichtung: am Ständer einstellen; hier nicht belegt.",
    details: "Einzelheiten",
    test: "Prüfwert",
    costs: "Was es unsicher macht",
    enough: "Genug: alles innerhalb.",
    nothing_helps: "Kein weiteres Maß macht es sicherer.",
    fits: "Alle Ablesungen passen.",
    unread: "Noch nichts abgelesen.",
};

pub fn strange(count: usize) -> String {
    match count {
        1 => {
            "Eine Ablesung gilt Marken, die dieser Plan nicht hat oder die kein Bandmaß erreicht.".to_owned()
        }
        _ => format!(
            "{count} Ablesungen gelten Marken, die dieser Plan nicht hat oder die kein Bandmaß erreicht."
        ),
    }
}

pub fn should(from: &str, to: &str, length: &str, allowance: &str) -> String {
    format!("{from}\u{2013}{to}: {length} ± {allowance}")
}

pub fn again_within(mark: &str, within: &str) -> String {
    format!("Marke {mark} zweimal gelegt: ≤ {within} auseinander")
}

pub fn box_of_again(mark: &str) -> String {
    format!("Wie weit Marke {mark}, ein zweites Mal gelegt, von der ersten liegt")
}

pub fn box_of(from: &str, to: &str) -> String {
    format!("Abgelesen von Marke {from} zu Marke {to}")
}

pub fn draw_as_laid(times: usize) -> String {
    format!("Zeichnen, wie die Marken liegen, {times}-fach vergrößert")
}

pub fn bad_tape_in(file: &str, number: usize, what: BadTape<'_>) -> String {
    let what = match what {
        BadTape::Columns(1) => "sie hat eine Spalte".to_owned(),
        BadTape::Columns(count) => format!("sie hat {count} Spalten"),
        BadTape::NoMark(name) => format!("keine Marke dieses Plans heißt „{}“", cut(name)),
        BadTape::OneMark => "beide Enden sind eine Marke".to_owned(),
        BadTape::NoMoment(text) => format!("„{}“ ist kein Tag mit Uhrzeit", cut(text)),
        BadTape::NoTemperature(text) => format!("„{}“ ist keine Temperatur", cut(text)),
        BadTape::NoLength(text) => format!("„{}“ ist keine Länge", cut(text)),
    };
    format!("{file}, Zeile {number}: {what}. Von der Datei wurde nichts übernommen. {HOW}")
}

const HOW: &str = "Drei Spalten je Zeile: Marke, Marke, was das Bandmaß zeigte; oder vier weitere: von wem, womit, wann (2026-03-17T08:30), °C.";

pub fn so_many_tapes_in(file: &str, found: usize, most: usize) -> String {
    match found {
        0 => format!("{file}: kein Maß gefunden. Nichts wurde geändert. {HOW}"),
        _ => format!(
            "{file}: {found} Maße gefunden; erlaubt: höchstens {most}. Von der Datei wurde nichts übernommen."
        ),
    }
}

pub fn tapes_read(file: &str, count: usize) -> String {
    let read = if count == 1 { "Ein Maß".to_owned() } else { format!("{count} Maße") };
    format!("{read} aus {file} übernommen")
}

pub fn so_many(read: usize, of: usize) -> String {
    format!("{read} von {of} abgelesen")
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
            (FigureOf::Direction | FigureOf::Aside | FigureOf::Turn, true) => "links",
            (FigureOf::Direction | FigureOf::Aside | FigureOf::Turn, false) => "rechts",
            (FigureOf::Distance, true) => "zu weit",
            (FigureOf::Distance, false) => "zu nah",
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
                format!("Radpunkt seitlich, {wheel}")
            }
            Origin::WheelAlong(wheel) => {
                let wheel = wheel_name(*wheel);
                format!("Radpunkt längs, {wheel}")
            }
            Origin::Camber(wheel) => {
                let wheel = wheel_name(*wheel);
                format!("Sturz, {wheel}")
            }
            Origin::TapeScale => "das Bandmaß selbst".to_owned(),
            Origin::TapeWarmth => "Wärme des Bandmaßes".to_owned(),
            Origin::Along(step) => {
                let mark = mark(*step);
                format!("Marke {mark}: Bandmaß oder Lot")
            }
            Origin::Across(step) => {
                let mark = mark(*step);
                format!("Marke {mark}: Linie, Laser oder Winkel")
            }
        }
    }

    /// What of a target is asked.
    pub fn asked_of_target(&self, of: FigureOf) -> &'static str {
        match of {
            FigureOf::Direction => "Richtung",
            FigureOf::Distance => "Abstand",
            FigureOf::Aside => "seitlich",
            FigureOf::Turn => "Fläche nach ihren Marken",
        }
    }

    /// "0,03° links ± 0,05° (95 %), erlaubt ± 0,10°".
    pub(super) fn off_against(&self, figure: &Figure) -> String {
        if figure.is_guess {
            return format!(
                "am ehesten {}, doch mehr als eines passt nicht; erlaubt ± {}",
                self.off_of(figure),
                self.of_target(figure.of, figure.allowed)
            );
        }
        let parts = self.parts_of(figure);
        format!(
            "{}{parts} ± {} (95 %), erlaubt ± {}",
            self.off_of(figure),
            self.of_target(figure.of, figure.u95),
            self.of_target(figure.of, figure.allowed)
        )
    }

    /// " (Marken 2,2 mm links, Stange 2,9 mm links)", where more than the marks is seen in its last place.
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
                MadeOf::Marks => "Marken",
                MadeOf::Pole => "Stange",
                MadeOf::Floor => "Neigung des Bodens",
                MadeOf::Placed => "wo es stehen soll",
                MadeOf::Face => "Fläche",
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
                    "{target}, {asked}: {against}: innerhalb, {} Reserve.",
                    self.of_target(figure.of, to_spare)
                )
            }
            Said::Outside { by } => {
                format!("{target}, {asked}: {against}: außerhalb, {} zu viel.", self.of_target(figure.of, by))
            }
            Said::CannotSay { .. } if figure.is_unchecked() => {
                format!("Noch nicht zu sagen: {target}, {asked}: {against}: {}.", self.goes_unseen(figure))
            }
            Said::CannotSay { .. } | Said::NoFigure => {
                format!("Noch nicht zu sagen: {target}, {asked}: {against}.")
            }
        }
    }

    /// Which mark out of place could go unseen, and what that would make of a figure.
    fn goes_unseen(&self, figure: &Figure) -> String {
        let mark = figure.unseen_mark.as_ref();
        let mark = mark.map_or_else(|| "eine Marke".to_owned(), |own| format!("Marke {own}"));
        let by = self.of_target(figure.of, figure.unseen);
        match (figure.no_tape_shows, figure.tells_unseen()) {
            (false, true) => format!("läge {mark} falsch, könnte das unbemerkt bleiben und {by} ausmachen"),
            (false, false) => format!("nichts bisher Gemessenes würde zeigen, ob {mark} falsch liegt"),
            (true, true) => format!(
                "läge {mark} falsch, könnte das unbemerkt bleiben und {by} ausmachen; kein Abstand zwischen Marken dieses Plans zeigt mehr"
            ),
            (true, false) => {
                format!("kein Abstand zwischen Marken dieses Plans würde zeigen, ob {mark} falsch liegt")
            }
        }
    }

    /// What is done about a figure of the marks that cannot be told.
    pub(super) fn to_prove(&self, figure: &Figure) -> String {
        if !figure.no_tape_shows {
            return "Weiter messen, wie die Markenprüfung sagt; ist alles gemessen, die Marken neu legen."
                .to_owned();
        }
        let mark =
            figure.unseen_mark.as_ref().map_or_else(|| "Die Marke".to_owned(), |own| format!("Marke {own}"));
        format!(
            "Mehr Messen klärt es nicht: {}. {mark} für sich ein zweites Mal legen, ohne auf die erste zu sehen, und bei den Marken \
             eintragen, wie weit beide auseinander liegen.",
            self.goes_unseen(figure)
        )
    }

    /// A mark that was laid twice.
    fn twice(&self, mark: &Id, apart_mm: f64, within_mm: f64) -> String {
        let (apart, within) = (self.length(apart_mm), self.length(within_mm));
        format!("Marke {mark} liegt, zweimal gelegt, {apart} auseinander, gut ist höchstens {within}")
    }

    /// The same as a sentence.
    pub fn laid_twice(&self, mark: &Id, apart_mm: f64, within_mm: f64) -> String {
        format!("{}.", self.twice(mark, apart_mm, within_mm))
    }

    /// What a mark or a reading is off by.
    pub fn off_by_tape(&self, off: &Off) -> String {
        match off {
            Off::Reading { from, to, reads_long_mm, .. } => {
                let way = if *reads_long_mm > 0.0 { "zu lang" } else { "zu kurz" };
                format!("{from}\u{2013}{to} ist {} {way}", self.length(reads_long_mm.abs()))
            }
            Off::Apart { mark, apart_mm, within_mm } => self.twice(mark, *apart_mm, *within_mm),
            Off::Mark { mark, by } => {
                format!("Marke {mark} liegt {} daneben", self.towards(self.of_car(*by)))
            }
        }
    }

    /// What does not fit.
    pub fn doubt(&self, doubt: &Doubt) -> Option<String> {
        Some(match doubt {
            Doubt::Unread | Doubt::Fits => return None,
            Doubt::One(Off::Reading { from, to, reads_long_mm, likely_mm }) => {
                let way = if *reads_long_mm > 0.0 { "zu lang" } else { "zu kurz" };
                format!(
                    "{from}\u{2013}{to} passt nicht: {} {way}, wohl {}. Noch einmal messen.",
                    self.length(reads_long_mm.abs()),
                    self.length(*likely_mm)
                )
            }
            Doubt::One(Off::Mark { mark, by }) => {
                format!(
                    "Marke {mark} liegt nicht, wo sie soll: verschieben um {}.",
                    self.towards(self.of_car(-*by))
                )
            }
            Doubt::One(own @ Off::Apart { .. }) => {
                format!("{}. Ein drittes Mal legen: die abseits liegende ist falsch.", self.off_by_tape(own))
            }
            Doubt::CannotTell(all) => {
                let all: Vec<String> = all.iter().take(4).map(|own| self.off_by_tape(own)).collect();
                format!("Etwas passt nicht, und was, lässt sich nicht sagen: {}.", all.join(" oder "))
            }
            Doubt::MoreThanOne(own) => {
                format!(
                    "Mehr als eines passt nicht; am ehesten: {}. Von den Rädern an neu messen.",
                    self.off_by_tape(own)
                )
            }
        })
    }

    /// What to tape next.
    pub fn next_tape(&self, next: &NextTape) -> String {
        match next {
            NextTape::Tape { from, to } => {
                format!("Als Nächstes {from}\u{2013}{to} messen: das klärt am meisten.")
            }
            NextTape::Again { from, to } => format!("{from}\u{2013}{to} noch einmal messen."),
            NextTape::LayAgain(mark) => format!(
                "Marke {mark} für sich ein zweites Mal legen, ohne auf die erste zu sehen, und messen, wie weit beide auseinander liegen: kein Abstand zeigt es."
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
                format!("{said} Das gilt für {}; kein Maß klärt {}.", listed(&open), listed(&stuck))
            }
            (true, true) => format!("{said} Das macht Werte sicherer; kein Maß klärt {}.", listed(&stuck)),
        }
    }

    /// The title of a finding of it, with its figures.
    pub(super) fn reading_off(&self, doubt: &Doubt) -> String {
        let own = |off: &Off| match off {
            Off::Reading { from, to, .. } => format!("{from}\u{2013}{to} passt nicht zu den anderen Maßen"),
            Off::Apart { mark, .. } => format!("Marke {mark} liegt, zweimal gelegt, an zwei Stellen"),
            Off::Mark { mark, .. } => format!("Marke {mark} liegt nach den Maßen neben ihrer Stelle"),
        };
        match doubt {
            Doubt::One(off) => own(off),
            Doubt::MoreThanOne(_) => "mehr als ein Maß zwischen Marken passt nicht".to_owned(),
            Doubt::CannotTell(_) | Doubt::Unread | Doubt::Fits => {
                "die Maße zwischen den Marken passen nicht zusammen".to_owned()
            }
        }
    }
}
