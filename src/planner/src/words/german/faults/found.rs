//! What was found.

use baywright_geometry::DVec2;

use super::{name, number, quoted};
use crate::model::fault::{Counted, Fault, Found, Listed};
use crate::words::Lengths;

/// What was found, as it stands in a sentence after "gefunden:".
pub fn found(fault: &Fault, lengths: Lengths) -> String {
    let mm = |value: &f64| lengths.of(*value);
    match &fault.found {
        Found::Number(value, unit) if value.is_finite() => super::allowed::with_unit(*value, *unit, lengths),
        Found::Number(value, _) => number(*value),
        Found::Whole(value) => value.to_string(),
        Found::Point(at) => super::allowed::point(*at),
        Found::OutsideBody(value) => format!("{}, außerhalb der Karosserie", mm(value)),
        Found::Count(count, of) => counted(*count, *of),
        Found::WallsForCorners { walls, corners } => format!("{walls} Wände für {corners} Ecken"),
        Found::Position(Listed::BodyPoint, at) => format!("Karosseriepunkt Nummer {at}"),
        Found::Position(Listed::Placement, at) => format!("Ziel Nummer {at}"),
        Found::Position(Listed::Wall, at) => format!("Wand Nummer {at}"),
        Found::LaterMark(at) => format!("ein Bezug auf Marke Nummer {at} des Plans"),

        Found::NeededBy(aiming) => {
            format!("nichts, und die Einstellung {} zählt eine Höhe davon", name(aiming.as_str()))
        }
        Found::FrontSpots => {
            "die Linie durch die vorderen Punkte, ohne dass beide Punkte im Markenplan sind".to_owned()
        }
        Found::EmptyText => "ein leerer Text".to_owned(),
        Found::EmptyList => "eine leere Liste".to_owned(),
        Found::NoPlacement => "kein Ziel".to_owned(),
        Found::NoLevel => "keine Höhe".to_owned(),
        Found::NoField(field) => format!("kein {field}"),
        Found::FieldTwice(field) => format!("{field} noch einmal"),
        Found::FieldNamed(field) => format!("ein Feld namens {}", quoted(field)),

        Found::Word(word) => quoted(word),
        Found::Text(text) => format!("der Text {}", quoted(text)),
        Found::Saying(text) => format!("die Zeichenfolge {}", quoted(text)),
        Found::Again(word) => format!("{} noch einmal", quoted(word)),
        Found::TakenInBay(word) => format!("{}, was es am Messplatz schon gibt", quoted(word)),
        Found::NoProfile(car) => format!("{}, wofür es kein Profil gibt", quoted(car)),
        Found::NotAsInProfile(id) => format!("{:?}, nicht wie im Profil", id.as_str()),
        Found::Name(id) => format!("{:?}", id.as_str()),
        Found::KindAgain => "eine Art von Sensor noch einmal".to_owned(),
        Found::TextOf(chars) => format!("ein Text von {chars} Zeichen"),
        Found::ControlCharacter => "ein Text mit einem Zeilenumbruch oder anderen Steuerzeichen".to_owned(),
        Found::HiddenCharacter(hidden) => format!(
            "ein Text mit einem unsichtbaren Zeichen, das die Zeile dreht oder umbricht (U+{:04X})",
            u32::from(*hidden)
        ),
        Found::NothingSeen => "ein Text, von dem nichts zu sehen ist".to_owned(),
        Found::BlankAtEnds(text) => {
            format!("{}, was mit einem Leerzeichen beginnt oder endet", quoted(text))
        }
        Found::TextToLine(last) => format!("ein Text, der bis Zeile {last} geht"),

        Found::RoomOf(size) => format!("ein Raum von {}", by(*size, lengths)),
        Found::AreaOf(size) => format!("eine Fläche von {}", by(*size, lengths)),
        Found::ShapeOf(size) => format!("eine Form von {} Länge", mm(size)),
        Found::BottomAndTop { bottom, top } => {
            format!("eine Unterkante bei {} und eine Oberkante bei {}", mm(bottom), mm(top))
        }
        Found::AlongWall { from, to } => {
            format!("eine Öffnung von {} bis {} entlang ihrer Wand", lengths.bare(*from), mm(to))
        }
        Found::OpeningsOverlap(one, other) => {
            format!("{} überdeckt {}", name(one.as_str()), name(other.as_str()))
        }
        Found::OutlineReaches(size) => format!("ein Umriss, der {} reicht", super::allowed::reach(size)),
        Found::LengthAndParts { length, wheelbase, front, rear } => format!(
            "{}, während Radstand und Überhänge ({} + {} + {}) {} ergeben",
            mm(length),
            lengths.bare(*wheelbase),
            lengths.bare(*front),
            lengths.bare(*rear),
            mm(&(wheelbase + front + rear))
        ),
        Found::LengthAndSum { length, sum } => {
            format!("{}, während Radstand und Überhänge {} ergeben", mm(length), mm(sum))
        }

        Found::NoPlace => "eine Stelle ohne Grenzen".to_owned(),
        Found::CornerTwice => "dieselbe Ecke zweimal nacheinander".to_owned(),
        Found::EdgesMeet { hole, first, second } => {
            let corner = |i: &usize| match hole {
                None => format!("{}[{i}]", fault.field),
                Some(hole) => format!("Loch {hole}, Ecke {i}"),
            };
            format!("die Kante ab {} kreuzt oder berührt die Kante ab {}", corner(first), corner(second))
        }
        Found::NoArea => "eine Form ohne Fläche".to_owned(),
        Found::HoleOutside(hole) => format!("Loch {hole} liegt außerhalb des Umrisses oder kreuzt ihn"),
        Found::HolesOverlap(one, other) => format!("die Löcher {one} und {other} überdecken sich"),

        Found::StandingOnFloor => "ein stehendes Ziel am Boden".to_owned(),
        Found::MatAtHeight => "eine Matte in einer Höhe".to_owned(),
        Found::StandUnderMat => "ein Ständer unter einer Matte".to_owned(),

        Found::WithComma(number) => format!("{number} mit einem Komma"),
        Found::Written(number) => number.clone(),
        Found::EndOfFile => "das Ende der Datei".to_owned(),
        Found::TooDeep => "zu tief geschachtelte Datensätze".to_owned(),
        Found::NoVersion => "keine Version".to_owned(),
        Found::Version(version) => format!("Version {version}"),
        Found::NewerVersion(version) => format!("Version {version}, von einem neueren Programm"),
        Found::VersionNamed(text) => format!("die Version {}", quoted(text)),
    }
}

fn counted(count: usize, of: Counted) -> String {
    match of {
        Counted::Entries if count == 1 => "1 Eintrag".to_owned(),
        Counted::Entries => format!("{count} Einträge"),
        Counted::Values => format!("{count} Werte"),
        Counted::Points => format!("{count} Punkte"),
        Counted::Corners => format!("{count} Ecken"),
        Counted::CornersInAll => format!("{count} Ecken insgesamt"),
        Counted::CornersOfHole(hole) => format!("{count} Ecken in Loch {hole}"),
        Counted::Placed => {
            format!("{count} Gegenstände und Stücke des Bodens, je Aufstellung einmal gezählt")
        }
        Counted::Holes => format!("{count} Löcher"),
        Counted::Stands => format!("{count} Ständer"),
    }
}

fn by(size: DVec2, lengths: Lengths) -> String {
    format!("{} mal {}", lengths.bare(size.x), lengths.of(size.y))
}
