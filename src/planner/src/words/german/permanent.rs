//! Deutsch dazu: siehe `words/permanent.rs`.

use super::names::the;
use super::{About, Language, listed, sentence_start};
use crate::assessment::Subject;
use crate::model::Id;
use crate::permanent::{Direction, Point, PointOf, Stay, Target};
use crate::words::permanent::PermanentTexts;

/// Die festen Texte.
pub const TEXTS: PermanentTexts = PermanentTexts {
    language: Language::German,
    open: "Bleibende Linien \u{2026}",
    open_why: "Schlägt die wenigsten Linien und Punkte am Boden für alle Aufstellungen dieses Messplatzes vor, jeden mit zwei Maßen von Wänden",
    put_away: "Ausblenden",
    title: "Bleibende Linien",
    about: "Für alle Aufstellungen dieses Messplatzes, Fahrzeuge längs der Wände geparkt, mit genug Spielraum zum Parken.",
    none: "Keine Aufstellung dieses Messplatzes hat so eine Stelle: Es gibt nichts zu malen. Was weichen muss, ist die nächste Frage.",
    partial: "Vor dem Ende angehalten.",
    older: "Vom Messplatz, wie er vor der letzten Änderung war.",
    fewest: "Mit weniger Stellen zum Parken wird längs der Wände nicht so viel bedient.",
    greedy: "Eine Stelle nach der anderen gefunden: Vielleicht geht es mit weniger.",
    points: "Punkte, rechtwinklig von zwei Wänden",
    how_laid: "\u{b1} sagt, wie weit daneben ein Punkt liegen darf. Eine Linie geht von ihrem einen Ende zum anderen. Nichts hindert, solange Linien und Fahrzeuge nicht weiter daneben liegen als gesagt.",
    targets: "Marken der Ziele",
    keep: "Am Messplatz behalten",
    kept: "Alles ist am Messplatz.",
    keep_why: "Dann sind es bleibende Marken: gezeichnet, auf dem Bodenplan gedruckt, nach Maß verschoben. Rückgängig nimmt sie zurück.",
    is_kept: "am Messplatz",
    waits: "Solange ein Fahrzeug eingegeben wird, wartet der Messplatz.",
    laid_within: "Zu legen auf \u{b1}",
    laid_within_hint: "Leer: so gut, wie die Werkstatt Marken legt",
    line_to: "Linie zu",
    no_line: "keine Linie",
    floor_lines: "Linien zwischen bleibenden Punkten",
    from: "Von",
    to: "Nach",
    long: "Länge",
    within_about: "Ein Punkt ohne Angabe wird so gut gelegt, wie die Werkstatt Marken legt.",
};

pub fn looked_at(done: usize, all: usize) -> String {
    format!("{done} von {all} Aufstellungen angesehen")
}

pub fn place(number: usize) -> String {
    format!("Stelle {number}")
}

pub fn name(place: usize, of: PointOf) -> String {
    let what = match of {
        PointOf::LineEnd { is_ahead: false } => "Linie hinten".to_owned(),
        PointOf::LineEnd { is_ahead: true } => "Linie vorn".to_owned(),
        PointOf::AxleEnd { is_left: true } => "Vorderachse links".to_owned(),
        PointOf::AxleEnd { is_left: false } => "Vorderachse rechts".to_owned(),
        PointOf::RearAxle { wheelbase_mm } => format!("Hinterachse {wheelbase_mm:.0}"),
        PointOf::Target { nth } => format!("Ziel {nth}"),
    };
    format!("Stelle {place}, {what}")
}

pub fn counted(places: usize, lines: usize, points: usize) -> String {
    let one = |count: usize, one: &str, many: &str| match count {
        1 => format!("1 {one}"),
        _ => format!("{count} {many}"),
    };
    format!(
        "{}, {}, {}.",
        one(places, "Stelle zum Parken", "Stellen zum Parken"),
        one(lines, "Linie", "Linien"),
        one(points, "Punkt", "Punkte")
    )
}

pub fn serves(set_ups: &[String]) -> String {
    format!("Dient für {}.", listed(&quoted(set_ups)))
}

pub fn so_often(set_up: &str, a_month: &str) -> String {
    format!("{set_up} ({a_month} im Monat)")
}

pub fn used(a_month: &str) -> String {
    format!("Benutzt {a_month} im Monat, so oft, wie der Inhaber sagt.")
}

pub fn without(set_ups: &[String]) -> String {
    format!("Keine solche Stelle gefunden für {}.", listed(&quoted(set_ups)))
}

fn quoted(names: &[String]) -> Vec<String> {
    names.iter().map(|own| format!("\u{201e}{own}\u{201c}")).collect()
}

impl About<'_> {
    /// Wie weit ein Punkt von zwei Wänden liegt.
    pub fn point_from_walls(&self, point: &Point) -> String {
        match &point.walls {
            Some([a, b]) => format!(
                "{} von {}, {} von {}",
                self.length(a.mm),
                the(&a.wall),
                self.length(b.mm),
                the(&b.wall)
            ),
            None => "nach der Zeichnung: Zu keinen zwei Wänden lässt sich hier messen".to_owned(),
        }
    }

    /// Was dort liegt oder steht.
    pub fn point_lies_on(&self, point: &Point) -> Option<String> {
        let there = point.lies_on.as_ref()?;
        Some(format!(
            "Hier liegt oder steht {}: daneben legen und den Abstand dazuschreiben.",
            self.subject(there)
        ))
    }

    /// Dass seine Marke verschoben wurde.
    pub fn point_moved(&self, mark: &Id, by_mm: f64) -> String {
        format!(
            "Am Messplatz liegt \u{201e}{mark}\u{201c} {} daneben: Dafür dient es nicht mehr.",
            self.length(by_mm)
        )
    }

    /// Was von einem Ziel bleibt.
    pub fn target_stays(&self, target: &Target) -> String {
        let name = sentence_start(&self.subject(&Subject::Target(target.placement.clone())));
        let within = |mm: f64| self.locale.laid_within(mm);
        match target.stay {
            Stay::Stays { car_mm, direction } => {
                let while_so = format!(
                    "{name}: Die Marke kann bleiben. Sie beweist nur etwas, solange die Mitte jeder Achse auf {} an ihrer Linie oder ihrem Punkt gemessen ist",
                    within(car_mm)
                );
                match direction {
                    Direction::NotAsked => format!("{while_so}."),
                    Direction::Stays => format!("{while_so}; zwei Marken geben die Richtung."),
                    Direction::FromWheels => format!(
                        "{while_so}; die Richtung ist feiner als ein Bandmaß und jedes Mal von den Rädern aus zu legen."
                    ),
                }
            }
            Stay::TooFine { needs_mm } => format!(
                "{name}: kann nicht bleibend gelegt werden. Ein Bandmaß müsste auf {} genau sein, auch für das Fahrzeug auf seinen Linien: die Marke jedes Mal von den Rädern aus legen.",
                within(needs_mm)
            ),
            Stay::ThrustLine => format!(
                "{name}: richtet sich nach der geometrischen Fahrachse jedes Fahrzeugs: die Marke jedes Mal von den Rädern aus legen."
            ),
            Stay::NoMark => format!("{name}: Die Marke ist nicht zu finden, also bleibt keine."),
        }
    }
}
