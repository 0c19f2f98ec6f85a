//! What is allowed.

use baywright_geometry::{Bounds, DVec2};

use super::{name, number, one_of};
use crate::model::fault::{Allowed, Choice, Syntax};
use crate::model::validate::limits::{self, Range, Unit};
use crate::words::Lengths;

/// What is allowed, as it stands in a sentence after "erlaubt:".
pub fn allowed(allowed: &Allowed, lengths: Lengths) -> String {
    let range = |within: &Range| range(within, lengths);
    let mm = |value: &f64| lengths.of(*value);
    match allowed {
        Allowed::In(within) => range(within),
        Allowed::NothingOr(within) => format!("0, oder {}", range(within)),
        Allowed::EachWay(within) => format!("{} in jeder Richtung", range(within)),
        Allowed::AboveBottom(within) => format!("{} über der Unterkante", range(within)),
        Allowed::AboveBottomAt { bottom, high } => {
            format!("über der Unterkante von {} und bis {}", mm(bottom), mm(high))
        }
        Allowed::Whole(low, high) => format!("{low} bis {high}"),
        Allowed::AtMost(most) => format!("höchstens {most}"),
        Allowed::AtMostCorners(most) => format!("höchstens {most} Ecken"),
        Allowed::Corners(least) => format!("mindestens {least} Ecken"),
        Allowed::TextUpTo(longest) => {
            format!("1 bis {longest} Zeichen in einer Zeile, ohne Leerzeichen an den Enden")
        }

        Allowed::OneOf(choice) => among(choice),
        Allowed::Field([], _) => "nichts, da es keines gibt".to_owned(),
        Allowed::Field(names, meant) => {
            let choice = Choice::near("", &names.iter().map(|&field| field.into()).collect::<Vec<_>>());
            format!("{}{}", listed(&choice), did_you_mean(*meant))
        }
        Allowed::Kind([], _) => "nichts".to_owned(),
        Allowed::Kind(names, meant) => {
            let names: Vec<String> = names.iter().map(|&kind| kind.to_owned()).collect();
            format!("{}{}", one_of(&names), did_you_mean(*meant))
        }
        Allowed::UsedOnce(first) => {
            format!("ein Name, der nur einmal vorkommt; so heißt schon {first}")
        }
        Allowed::OwnName => "ein eigener Name".to_owned(),
        Allowed::OneThatIsThere => "etwas, das es gibt".to_owned(),
        Allowed::WallOfRoom => "eine Wand des Raums".to_owned(),
        Allowed::AimingOfCar => "eine Einstellung des Fahrzeugs".to_owned(),
        Allowed::SensorOfAiming(id) => format!("der Sensor der Einstellung, {:?}", id.as_str()),
        Allowed::NameAndPart => {
            "der Name eines Sensors oder einer Einstellung dieses Fahrzeugs, ein Doppelpunkt und was davon angenommen wurde"
                .to_owned()
        }
        Allowed::SensorOfThisCar => "der Name eines Sensors dieses Fahrzeugs".to_owned(),
        Allowed::AimingOfThisCar => "der Name einer Einstellung dieses Fahrzeugs".to_owned(),
        Allowed::ZoneOfAiming => "der Name eines Freiraums dieser Einstellung dieses Fahrzeugs".to_owned(),
        Allowed::EarlierMarks => "Marken, die früher im Plan kommen".to_owned(),
        Allowed::SpotAtEachFrontTyre => {
            "ein Markenplan mit einem Punkt außen neben jedem Vorderreifen, oder eine andere Stelle, von der gemessen wird"
                .to_owned()
        }
        Allowed::AtLeastOne => "mindestens eines".to_owned(),
        Allowed::AtLeastOneOrNoSurvey => "mindestens eine, oder gar kein Aufmaß".to_owned(),
        Allowed::OtherMark => "eine andere Marke als die, von der aus gemessen wird".to_owned(),
        Allowed::OneForEachPlacement(count) => format!("einer für jedes der {count} Ziele"),
        Allowed::OneForEachCorner => "eine Wand für jede Ecke, in derselben Reihenfolge".to_owned(),
        Allowed::KindsOrNote => {
            "mindestens eine Art von Sensor, oder ein Vermerk, der sagt, warum keine".to_owned()
        }
        Allowed::EachKindOnce => "jede Art von Sensor einmal".to_owned(),
        Allowed::AimingOfVisit => "eine Einstellung dieses Werkstattbesuchs".to_owned(),
        Allowed::NoAiming => "keine Einstellung, denn dieser Schritt kommt im Besuch nur einmal vor".to_owned(),
        Allowed::AsFiguresSay => "was aus den Zahlen daneben folgt".to_owned(),
        Allowed::Sha256 => "ein SHA-256 aus 64 kleinen Hexadezimalziffern".to_owned(),
        Allowed::FileName => "der Name einer Datei, ohne Ordner".to_owned(),
        Allowed::EachWayOnce => "höchstens eine Richtung quer und eine nach oben oder unten".to_owned(),
        Allowed::Nothing => "nichts".to_owned(),
        Allowed::NoneAsSaid(field) => format!("nichts, wo {field} true ist"),

        Allowed::FromTaped(least, of) => {
            format!("wie eingemessen oder mehr: ab {}", with_unit(*least, *of, lengths))
        }
        Allowed::BelowLength(length) => format!("weniger als die Länge von {}", mm(length)),
        Allowed::BelowWidth(width) => format!("weniger als die Breite von {}", mm(width)),
        Allowed::BelowTrack(track) => format!("weniger als die Spurweite: unter {}", mm(track)),
        Allowed::BelowHeightAndWheelbase(least) => {
            format!("weniger als Höhe und Radstand: unter {}", mm(least))
        }
        Allowed::BelowHeight(height) => format!("weniger als die Höhe: unter {}", mm(height)),
        Allowed::FromWidth(width) => format!("mindestens die Breite von {}", mm(width)),
        Allowed::FromBase(height) => format!("mindestens die Höhe der Füße von {}", mm(height)),
        Allowed::UpToFrequency => "nicht mehr als die Frequenz".to_owned(),
        Allowed::LengthWithin(slack) => format!("eine Länge, die auf {} dieser Summe gleicht", mm(slack)),
        Allowed::SameLength => "in beiden Richtungen dieselbe Länge".to_owned(),
        Allowed::OutlineReaching { size, within } => {
            format!("einer, der {} reicht, wie die Werte des Fahrzeugs sagen, auf {}", reach(size), mm(within))
        }

        Allowed::FromFloor => "0 oder darüber: der Boden".to_owned(),
        Allowed::UpToCeiling(ceiling) => format!("höchstens die Höhe der Decke von {}", mm(ceiling)),
        Allowed::WithinWall(length) => format!("eine, die in der Wand von {} endet", mm(length)),
        Allowed::OpeningsApart => "Öffnungen nebeneinander oder übereinander".to_owned(),
        Allowed::CornerBeyond(corner) => {
            format!("eine Ecke mit größerem x und größerem y als {}, in Reichweite", point(*corner))
        }
        Allowed::EachCornerOnce => "jede Ecke einmal, die erste am Ende nicht wiederholt".to_owned(),
        Allowed::EdgesApart => "ein Umriss, dessen Kanten sich nur an den Ecken treffen".to_owned(),
        Allowed::SomeArea => "eine Form, die etwas Boden bedeckt".to_owned(),
        Allowed::HolesInside => "Löcher innerhalb des Umrisses".to_owned(),
        Allowed::HolesApart => "Löcher, die getrennt liegen".to_owned(),
        Allowed::NoHoles => "ein Umriss ohne Löcher".to_owned(),
        Allowed::TopAboveBottom => {
            format!("eine Oberkante über der Unterkante, beide innerhalb von {}", mm(&limits::PLACE.high))
        }

        Allowed::FloorForMat => "OnFloor für eine Matte, und nur für eine Matte".to_owned(),
        Allowed::OnlyForReflector => "0 für alles außer einem Winkelreflektor".to_owned(),

        Allowed::PointFor(number) => point_for(number),
        Allowed::Unspaced(number) => format!("{number}: keine Leerzeichen in Zahlen"),
        Allowed::Unitless(number) => format!("{number}: hier keine Einheit, sie steht im Namen des Feldes"),
        Allowed::Unquoted(word) => format!("eine Art ohne Anführungszeichen: {word}"),
        Allowed::Figures(count) => format!("eine Liste von Zahlen in ( und ) der Länge {count}"),
        Allowed::Time => "ein Tag und eine Uhrzeit, wie \"2025-03-17T09:30:00\"".to_owned(),
        Allowed::Day => "ein Tag, den es gibt, wie \"2025-03-17\"".to_owned(),
        Allowed::DayFrom(day) => format!("{day} oder später"),
        Allowed::Versions { oldest, newest, newer_can } => {
            let versions =
                if oldest == newest { newest.to_string() } else { format!("{oldest} bis {newest}") };
            let newer = if *newer_can { "; ein neueres Programm kann die Datei lesen" } else { "" };
            format!("{versions}{newer}")
        }
        Allowed::Syntax(syntax) => self::syntax(*syntax),
    }
}

fn syntax(syntax: Syntax) -> String {
    match syntax {
        Syntax::Value => "ein Wert: Dieses Feld muss angegeben sein",
        Syntax::EachFieldOnce => "jedes Feld einmal",
        Syntax::Number => "eine Zahl",
        Syntax::WholeNumber => "eine ganze Zahl",
        Syntax::WholeNumberUpTo(most) => return format!("eine ganze Zahl von 0 bis {most}"),
        Syntax::TrueOrFalse => "true oder false",
        Syntax::Text => "ein Text in doppelten Anführungszeichen",
        Syntax::ClosedText => "ein Text, den ein doppeltes Anführungszeichen schließt",
        Syntax::TextOnOneLine => {
            "ein Text, der in seiner Zeile endet: wohl fehlt das schließende doppelte Anführungszeichen"
        }
        Syntax::List => "eine Liste in [ und ]",
        Syntax::EndOfList => "ein Komma oder ] am Ende der Liste",
        Syntax::Comma => "ein Komma zwischen zwei Einträgen",
        Syntax::Colon => "ein Doppelpunkt nach dem Namen des Feldes",
        Syntax::Record => "ein Datensatz in ( und )",
        Syntax::EndOfRecord => "ein Komma oder ) am Ende des Datensatzes",
        Syntax::FieldOrKind => "der Name eines Feldes oder einer Art",
        Syntax::KindAlone => "eine Art ohne Werte",
        Syntax::ClosedComment => "ein Kommentar, der geschlossen ist",
        Syntax::NoUnderscores => "eine Zahl ohne Unterstriche an den Enden",
        Syntax::Backslash => "ein umgekehrter Schrägstrich nur wie in \\\" oder \\\\",
        Syntax::NoSettings => "keine Zeile #![...]: keine ist nötig",
        Syntax::LessDeep => "Datensätze, wie die Formate sie beschreiben",
        Syntax::NothingMore => "nichts nach der letzten schließenden Klammer der Datei",
        Syntax::ClosedBrackets => "eine Datei, deren Klammern alle geschlossen sind",
        Syntax::AsDescribed => "ein Wert, wie ihn die mitgelieferten Dateien in diesem Feld haben",
        Syntax::WholeFile => {
            "eine Datei, die dieses Programm gespeichert hat, oder eine ebensolche: Alle Felder stehen in einem ( ... )"
        }
    }
    .to_owned()
}

/// A range in words.
pub fn range(range: &Range, lengths: Lengths) -> String {
    if range.unit == Unit::Millimetres && lengths != Lengths::InFile {
        let (low, high) = lengths.within(range.low, range.high);
        return if range.above { format!("über {low} und bis {high}") } else { format!("{low} bis {high}") };
    }
    let (low, high, unit) = (number(range.low), number(range.high), unit(range.unit));
    if range.above { format!("über {low} und bis {high}{unit}") } else { format!("{low} bis {high}{unit}") }
}

/// A number with its unit.
pub fn with_unit(value: f64, of: Unit, lengths: Lengths) -> String {
    match of {
        Unit::Millimetres if value.is_finite() => lengths.of(value),
        _ => format!("{}{}", number(value), unit(of)),
    }
}

/// A unit as it stands behind its number.
const fn unit(unit: Unit) -> &'static str {
    match unit {
        Unit::None => "",
        Unit::Millimetres => " mm",
        Unit::Degrees => "°",
        Unit::Gigahertz => " GHz",
        Unit::Dbsm => " dBsm",
        Unit::Days => " Tage",
    }
}

/// "von (1, 2) bis (3, 4)".
pub fn reach(size: &Bounds) -> String {
    format!("von {} bis {}", point(size.low), point(size.high))
}

/// Names, and the one that was probably meant.
fn among(choice: &Choice) -> String {
    if choice.names.is_empty() {
        return "nichts, da es nichts dergleichen gibt".to_owned();
    }
    let meant = choice.meant.as_ref().map(|id| name(id.as_str()));
    format!("{}{}", listed(choice), did_you_mean(meant.as_deref()))
}

/// "\"a\", \"b\" oder 3 weitere".
pub fn listed(choice: &Choice) -> String {
    let more = (choice.more > 0)
        .then(|| if choice.more == 1 { "1 weiterer".to_owned() } else { format!("{} weitere", choice.more) });
    let names: Vec<String> = choice.names.iter().map(|id| name(id.as_str())).chain(more).collect();
    one_of(&names)
}

pub fn did_you_mean(meant: Option<&str>) -> String {
    meant.map(|meant| format!(" (ist {meant} gemeint?)")).unwrap_or_default()
}

/// A number with a comma: a point, or no comma at all where it may stand between thousands.
fn point_for(number: &str) -> String {
    let thousands = number.rsplit(',').next().is_some_and(|rest| rest.len() == 3);
    let or =
        if thousands { format!(", oder kein Komma: {}", number.replace(',', "")) } else { String::new() };
    format!("ein Dezimalpunkt: {}{or}", number.replace(',', "."))
}

/// "(4, 5)", as a file has it.
pub fn point(at: DVec2) -> String {
    format!("({}, {})", number(at.x), number(at.y))
}
