//! German of the same: see `words/shop.rs`.

use super::{About, Language, listed, sentence_start};
use crate::assessment::{Finding, Subject};
use crate::model::{Known, ShopFigure};
use crate::words::screen::cut;
use crate::words::shop::ShopTexts;

/// The fixed texts.
pub const TEXTS: ShopTexts = ShopTexts {
    language: Language::German,
    title: "Vorgaben der Werkstatt",
    intro: "Woran sich diese Werkstatt hält, wo niemand einen Wert veröffentlicht hat. Jeder Messplatz wird danach beurteilt.",
    places: "Wie genau Lagen bekannt sind",
    floor: "Bodenhöhen",
    room: "Raum um das Fahrzeug",
    marks: "Marken und Ziele",
    instruments: "Womit Marken gelegt und gemessen werden",
    faults: "Wenn eine Routine fehlschlug: was üblicherweise danebenliegt",
    to_default: "Üblich",
    all_to_default: "Alle auf üblich",
    nowhere: "Es gibt keinen Ordner dafür: Sie gelten, bis das Programm endet.",
    changed_on_disk: "Nicht gespeichert: Jemand anderes hat die Datei geändert, seit sie gelesen wurde.",
    gone_from_disk: "Nicht gespeichert: Die Datei ist nicht mehr da: gelöscht, verschoben oder umbenannt.",
    save_there_again: "Dort wieder speichern",
    take_theirs: "Die anderen nehmen",
    save_over: "Überschreiben",
    save_again: "Noch einmal speichern",
    drop_them: "Verwerfen",
    not_read: "Die Datei mit den Vorgaben der Werkstatt ist nicht lesbar. Dafür gelten die üblichen Werte, und die Datei bleibt, wie sie ist.",
    read_again: "Noch einmal lesen",
    undo: "Vorgabe zurücknehmen",
    redo: "Vorgabe wiederholen",
    change_it: "Vorgaben der Werkstatt …",
};

pub const fn label(figure: ShopFigure) -> &'static str {
    match figure {
        ShopFigure::ByEye => "Nach Augenmaß, ±",
        ShopFigure::Taped => "Eingemessen, ±",
        ShopFigure::CarPlanned => "Fahrzeug ungemessen, ±",
        ShopFigure::CarPlannedTurn => "Richtung, ungemessen, ±",
        ShopFigure::CarTaped => "Fahrzeug eingemessen, ±",
        ShopFigure::CarTapedTurn => "Richtung, eingemessen, ±",
        ShopFigure::SurveyAge => "Aufmaß gilt, Tage",
        ShopFigure::LevelReach => "Eine Höhe gilt bis",
        ShopFigure::LevelRead => "Eine Höhe, ±",
        ShopFigure::WorkingRoom => "Frei um das Fahrzeug",
        ShopFigure::StandRoom => "Frei neben dem Ständer",
        ShopFigure::StepOver => "Darübersteigen bis",
        ShopFigure::DuckUnder => "Darunter gehen ab",
        ShopFigure::OverCar => "Frei über dem Dach",
        ShopFigure::OverMark => "Frei über einer Marke",
        ShopFigure::MarkLaid => "Marke gelegt auf ±",
        ShopFigure::MarkAgrees => "Marke und Abstand auf",
        ShopFigure::TargetOff => "Ziel neben Marke bis",
        ShopFigure::ToleranceShare => "Anteil der Toleranz",
        ShopFigure::IntoWall => "Gegenstand in Wand bis",
        ShopFigure::DoorRoll => "Rollballen eines Rolltors",
        ShopFigure::PoleRead => "Neigung einer Stange, ±",
        ShopFigure::OnFaceLaid => "Auf die Fläche gelegt, ±",
        ShopFigure::TapeRead => "Eine Ablesung, ±",
        ShopFigure::TapePerMetre => "Bandmaß je Meter, ±",
        ShopFigure::TapeWithin => "Bandmaß um 20 °C auf, K",
        ShopFigure::LaserPerMetre => "Laserlinie je Meter, ±",
        ShopFigure::LineFound => "Mitte einer Linie, ±",
        ShopFigure::PlumbFound => "Zum Boden gelotet, ±",
        ShopFigure::WheelFound => "Radpunkt gefunden, ±",
        ShopFigure::CamberKnown => "Sturz bekannt auf ±",
        ShopFigure::SquareLaid => "Ein rechter Winkel, ±",
        ShopFigure::AngleLaid => "Ein anderer Winkel, ±",
        ShopFigure::FloorUsual => "Boden ohne Vermessung, ±",
        ShopFigure::ThrustUsual => "Fahrachse gegen ihr Protokoll, ±",
        ShopFigure::CarCreeps => "Ein gebremstes Auto kriecht, ±",
        ShopFigure::BubbleSet => "Ständer nach seiner Libelle, ±",
        ShopFigure::BracketUsual => "Sensor in heilem Halter, ±",
        ShopFigure::FaultTimes => "Ein Fehler: so oft das Erlaubte",
    }
}

const fn reason(figure: ShopFigure) -> &'static str {
    match figure {
        ShopFigure::ByEye => "Eine Handlänge fällt nicht auf, wenn ein Schrank abgestellt wird.",
        ShopFigure::Taped => "Beide Enden am Bandmaß abgelesen, gegen eine Kante, die nicht scharf ist.",
        ShopFigure::CarPlanned => "Ein Fahrzeug wird hineingefahren und bewegt sich nicht seitwärts.",
        ShopFigure::CarPlannedTurn => "Ein Fahrzeug wird entlang einer Linie am Boden hineingefahren.",
        ShopFigure::CarTaped => "Drei Abstände von den Wänden zu abgeloteten Punkten.",
        ShopFigure::CarTapedTurn => "Zwei dieser Punkte liegen einen Radstand auseinander.",
        ShopFigure::SurveyAge => "Böden setzen sich; einmal im Jahr aufmessen.",
        ShopFigure::LevelRead => {
            "Wo eine Vermessung nichts sagt: ein Rotationslaser oder eine Schlauchwaage in einem Stellplatz."
        }
        ShopFigure::LevelReach => {
            "Zwei Schritte: Weiter weg von einem aufgemessenen Punkt kann der Boden alles tun."
        }
        ShopFigure::WorkingRoom => {
            "Eine Person mit Bandmaß hockt neben dem Fahrzeug. Der eigene Wert einer Einstellung geht vor."
        }
        ShopFigure::StandRoom => "Eine Person mit Bandmaß hockt vor dem Ziel und auf einer Seite davon.",
        ShopFigure::StepOver => "Was niedriger ist, steht einer Person nicht im Weg.",
        ShopFigure::DuckUnder => "Was höher hängt, ist einer Person nicht im Weg.",
        ShopFigure::OverCar => "Eine Hand: Weniger gibt leicht Kratzer.",
        ShopFigure::OverMark => "Eine Hand, ein Stift und ein Auge.",
        ShopFigure::MarkAgrees => {
            "So viel ergeben Werte, die je auf einen sechzehntel Zoll gerundet sind. Die eigene Toleranz eines Ziels geht vor."
        }
        ShopFigure::MarkLaid => "Ein Stiftstrich, und ein Bandmaß auf den Millimeter gelesen.",
        ShopFigure::TargetOff => "Wo die Anleitung keinen Grenzwert nennt.",
        ShopFigure::ToleranceShare => {
            "Von da an braucht es Vorsicht: Auch Marken und Sensor wollen ihren Teil."
        }
        ShopFigure::IntoWall => "Ein Wandpfeiler oder ein eingelassenes Regal ist kein Tippfehler.",
        ShopFigure::DoorRoll => "Wie weit er vor der Wand und über den Sturz vorsteht.",
        ShopFigure::PoleRead => "Eine digitale Wasserwaage daran gehalten.",
        ShopFigure::OnFaceLaid => {
            "Ein Spiegel oder ein Lineal an der Fläche: 0,4 mm unter einem Ende auf einem halben Meter."
        }
        ShopFigure::TapeRead => "Am einen Ende angelegt, am anderen auf den Millimeter gelesen.",
        ShopFigure::TapePerMetre => "Was Klasse II erlaubt; allen damit gemessenen Längen gemeinsam.",
        ShopFigure::TapeWithin => {
            "Eine Werkstatt im Winter und im Sommer; Stahl dehnt sich 11,5 Millionstel je Grad."
        }
        ShopFigure::LaserPerMetre => "Wie Linienlaser verkauft werden; an einer langen Schnur geprüft.",
        ShopFigure::LineFound => "Ein Stift auf einer Linie von zwei Millimetern.",
        ShopFigure::PlumbFound => "Ein Lot, das zur Ruhe gekommen ist, von der Mitte eines Zeichens.",
        ShopFigure::WheelFound => "Von der Nabenmitte, mit Lot und Winkel.",
        ShopFigure::CamberKnown => "Eine gelotete Nabe liegt um Radius mal Sturz außerhalb der Reifenmitte.",
        ShopFigure::SquareLaid => "Ein Winkel von einem halben Meter, auf einen Millimeter.",
        ShopFigure::AngleLaid => "Ein Winkelmesser am Boden. Zwei Längen sind besser.",
        ShopFigure::FloorUsual => "Unter einer Achse oder einem Ständer, wo niemand Höhen nahm.",
        ShopFigure::ThrustUsual => {
            "Protokolle werden auf eine Minute gedruckt; Autos setzen sich nach dem Messen."
        }
        ShopFigure::CarCreeps => "Auf der Bremse, während man daran arbeitet.",
        ShopFigure::BubbleSet => "Eine Libelle, mit dem Auge gelesen.",
        ShopFigure::BracketUsual => "Klammern und Schrauben haben etwas Spiel.",
        ShopFigure::FaultTimes => "Was schiefging, liegt selten um genau das Erlaubte daneben.",
    }
}

/// Where a figure comes from: the default, or the shop with this default.
fn source(figure: ShopFigure, own: Option<&str>) -> String {
    match own {
        None if figure == ShopFigure::TapePerMetre => {
            "Richtlinie 2014/32/EU, Anhang X (Klasse II).".to_owned()
        }
        Some(default) if figure == ShopFigure::TapePerMetre => {
            format!(
                "In dieser Werkstatt festgelegt; sonst {default}: Richtlinie 2014/32/EU, Anhang X (Klasse II)."
            )
        }
        None => "Übliche Praxis, ohne Quelle.".to_owned(),
        Some(default) => {
            format!("In dieser Werkstatt festgelegt; sonst {default}: übliche Praxis, ohne Quelle.")
        }
    }
}

pub fn about(figure: ShopFigure, own: Option<&str>) -> String {
    format!("{} {}", reason(figure), source(figure, own))
}

pub fn default_of(figure: ShopFigure) -> String {
    format!("Üblicher Wert: {}", label(figure))
}

pub fn kept_in(file: &str) -> String {
    format!("Gespeichert in {file}.")
}

pub fn set(figure: ShopFigure, value: &str) -> String {
    format!("{} {value}", label(figure))
}

pub fn no_number(text: &str) -> String {
    format!("„{}“ ist keine Zahl.", cut(text))
}

pub fn no_whole_number(text: &str) -> String {
    format!("„{}“ ist keine ganze Zahl.", cut(text))
}

pub fn not_saved(why: &str) -> String {
    format!("Nicht gespeichert: {why}")
}

impl About<'_> {
    /// A setting of the shop, with its value and where that comes from.
    pub(super) fn of_shop(&self, figure: ShopFigure) -> String {
        let shop = &self.arrangement.shop;
        let set = self.locale.shop_value(figure, shop.get(figure));
        let label = label(figure);
        let default = self.locale.shop_value(figure, figure.default_value());
        let from = source(figure, shop.is_own(figure).then_some(default.as_str()));
        format!("Vorgabe der Werkstatt. {label} {set}. {from}")
    }

    /// Which places were set by eye under an older rule, and what to do.
    pub(super) fn older_by_eye(&self, finding: &Finding) -> String {
        let names = finding.subjects.iter().map(|subject| match subject {
            Subject::Floor => "Wände".to_owned(),
            other => self.alone(other),
        });
        let older = self.length(Known::BY_EYE_OLDER_MM);
        format!(
            "Auf ± {older} bekannt, wie die Datei es meinte: {}. Nach Augenmaß heißt jetzt ± {}. Einmessen, oder neu angeben, wie \
             genau die Lage bekannt ist.",
            sentence_start(&listed(&names.collect::<Vec<_>>())),
            self.length(self.arrangement.shop.by_eye_mm)
        )
    }
}
