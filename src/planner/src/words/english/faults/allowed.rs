//! What is allowed.

use baywright_geometry::{Bounds, DVec2};

use super::{name, number, one_of};
use crate::model::fault::{Allowed, Choice, Syntax};
use crate::model::validate::limits::{self, Range, Unit};
use crate::words::Lengths;

/// What is allowed, as it stands in a sentence after "allowed is".
pub fn allowed(allowed: &Allowed, lengths: Lengths) -> String {
    let range = |within: &Range| range(within, lengths);
    let mm = |value: &f64| lengths.of(*value);
    match allowed {
        Allowed::In(within) => range(within),
        Allowed::NothingOr(within) => format!("0, or {}", range(within)),
        Allowed::EachWay(within) => format!("{} each way", range(within)),
        Allowed::AboveBottom(within) => format!("{} above the bottom", range(within)),
        Allowed::AboveBottomAt { bottom, high } => {
            format!("above the bottom at {} and up to {}", mm(bottom), mm(high))
        }
        Allowed::Whole(low, high) => format!("{low} to {high}"),
        Allowed::AtMost(most) => format!("at most {most}"),
        Allowed::AtMostCorners(most) => format!("at most {most} corners"),
        Allowed::Corners(least) => format!("{least} corners or more"),
        Allowed::TextUpTo(longest) => {
            format!("1 to {longest} characters on one line, without blanks at the ends")
        }

        Allowed::OneOf(choice) => among(choice),
        Allowed::Field([], _) => "nothing, since there is none".to_owned(),
        Allowed::Field(names, meant) => {
            let choice = Choice::near("", &names.iter().map(|&field| field.into()).collect::<Vec<_>>());
            format!("{}{}", listed(&choice), did_you_mean(*meant))
        }
        Allowed::Kind([], _) => "nothing".to_owned(),
        Allowed::Kind(names, meant) => {
            let names: Vec<String> = names.iter().map(|&kind| kind.to_owned()).collect();
            format!("{}{}", one_of(&names), did_you_mean(*meant))
        }
        Allowed::UsedOnce(first) => format!("a name used only once; {first} has it already"),
        Allowed::OwnName => "a name of its own".to_owned(),
        Allowed::OneThatIsThere => "one that is there".to_owned(),
        Allowed::WallOfRoom => "a wall of the room".to_owned(),
        Allowed::AimingOfCar => "an aiming of the car".to_owned(),
        Allowed::SensorOfAiming(id) => format!("the aiming's own, {:?}", id.as_str()),
        Allowed::NameAndPart => {
            "the name of a sensor or an aiming of this car, a colon and what of it was assumed".to_owned()
        }
        Allowed::SensorOfThisCar => "the name of a sensor of this car".to_owned(),
        Allowed::AimingOfThisCar => "the name of an aiming of this car".to_owned(),
        Allowed::ZoneOfAiming => "the name of a zone of that aiming of this car".to_owned(),
        Allowed::EarlierMarks => "marks that come earlier in the plan".to_owned(),
        Allowed::SpotAtEachFrontTyre => {
            "a mark plan with a spot outboard of each front tyre, or another place to measure from".to_owned()
        }
        Allowed::AtLeastOne => "at least one".to_owned(),
        Allowed::AtLeastOneOrNoSurvey => "at least one, or no survey at all".to_owned(),
        Allowed::OtherMark => "another mark than the one it is taped from".to_owned(),
        Allowed::OneForEachPlacement(count) => format!("one for each of the {count} placements"),
        Allowed::OneForEachCorner => "one wall for each corner, in the same order".to_owned(),
        Allowed::KindsOrNote => "one kind of sensor or more, or a note that says why none".to_owned(),
        Allowed::EachKindOnce => "each kind of sensor once".to_owned(),
        Allowed::AimingOfVisit => "an aiming of this visit".to_owned(),
        Allowed::NoAiming => "no aiming, since this step is done once in a visit".to_owned(),
        Allowed::AsFiguresSay => "what follows from the figures beside it".to_owned(),
        Allowed::Sha256 => "a SHA-256 of 64 small hexadecimal digits".to_owned(),
        Allowed::FileName => "a file's name, without folders".to_owned(),
        Allowed::EachWayOnce => "one way across and one way up or down at most".to_owned(),
        Allowed::Nothing => "none".to_owned(),
        Allowed::NoneAsSaid(field) => format!("none where {field} is true"),

        Allowed::FromTaped(least, of) => {
            format!("what is taped or more: from {}", with_unit(*least, *of, lengths))
        }
        Allowed::BelowLength(length) => format!("less than the length of {}", mm(length)),
        Allowed::BelowWidth(width) => format!("less than the width of {}", mm(width)),
        Allowed::BelowTrack(track) => format!("less than the track: below {}", mm(track)),
        Allowed::BelowHeightAndWheelbase(least) => {
            format!("less than the height and the wheelbase: below {}", mm(least))
        }
        Allowed::BelowHeight(height) => format!("less than the height: below {}", mm(height)),
        Allowed::FromWidth(width) => format!("at least the width of {}", mm(width)),
        Allowed::FromBase(height) => format!("at least the base's height of {}", mm(height)),
        Allowed::UpToFrequency => "no more than the frequency".to_owned(),
        Allowed::LengthWithin(slack) => format!("a length within {} of that sum", mm(slack)),
        Allowed::SameLength => "the same length both ways".to_owned(),
        Allowed::OutlineReaching { size, within } => {
            format!("one that reaches {}, as the car's figures say, within {}", reach(size), mm(within))
        }

        Allowed::FromFloor => "0 or above: the floor".to_owned(),
        Allowed::UpToCeiling(ceiling) => format!("at most the ceiling's {}", mm(ceiling)),
        Allowed::WithinWall(length) => format!("one that ends within the wall's {}", mm(length)),
        Allowed::OpeningsApart => "openings side by side or one above the other".to_owned(),
        Allowed::CornerBeyond(corner) => {
            format!("a corner with larger x and larger y than {}, within reach", point(*corner))
        }
        Allowed::EachCornerOnce => "each corner once, the first not repeated at the end".to_owned(),
        Allowed::EdgesApart => "an outline whose edges meet only at its corners".to_owned(),
        Allowed::SomeArea => "a shape that covers some floor".to_owned(),
        Allowed::HolesInside => "holes inside the outline".to_owned(),
        Allowed::HolesApart => "holes that lie apart".to_owned(),
        Allowed::NoHoles => "an outline without holes".to_owned(),
        Allowed::TopAboveBottom => {
            format!("a top above the bottom, both within {}", mm(&limits::PLACE.high))
        }

        Allowed::FloorForMat => "OnFloor for a mat, and for a mat only".to_owned(),
        Allowed::OnlyForReflector => "0 for anything but a corner reflector".to_owned(),

        Allowed::PointFor(number) => point_for(number),
        Allowed::Unspaced(number) => format!("{number}: no spaces in numbers"),
        Allowed::Unitless(number) => format!("{number}: no unit here, the field's name has it"),
        Allowed::Unquoted(word) => format!("a kind without quotes: {word}"),
        Allowed::Figures(count) => format!("a list of figures in ( and ) of length {count}"),
        Allowed::Time => "a day and a time, as \"2025-03-17T09:30:00\"".to_owned(),
        Allowed::Day => "a day that exists, as \"2025-03-17\"".to_owned(),
        Allowed::DayFrom(day) => format!("{day} or later"),
        Allowed::Versions { oldest, newest, newer_can } => {
            let versions =
                if oldest == newest { newest.to_string() } else { format!("{oldest} to {newest}") };
            let newer = if *newer_can { "; a newer program can read the file" } else { "" };
            format!("{versions}{newer}")
        }
        Allowed::Syntax(syntax) => self::syntax(*syntax),
    }
}

fn syntax(syntax: Syntax) -> String {
    match syntax {
        Syntax::Value => "a value: this field must be given",
        Syntax::EachFieldOnce => "each field once",
        Syntax::Number => "a number",
        Syntax::WholeNumber => "a whole number",
        Syntax::WholeNumberUpTo(most) => return format!("a whole number from 0 to {most}"),
        Syntax::TrueOrFalse => "true or false",
        Syntax::Text => "a text in double quotes",
        Syntax::ClosedText => "a text closed by a double quote",
        Syntax::TextOnOneLine => "a text that ends on its line: its closing double quote is probably missing",
        Syntax::List => "a list in [ and ]",
        Syntax::EndOfList => "a comma or ] at the end of the list",
        Syntax::Comma => "a comma between two entries",
        Syntax::Colon => "a colon after the field's name",
        Syntax::Record => "a record in ( and )",
        Syntax::EndOfRecord => "a comma or ) at the end of the record",
        Syntax::FieldOrKind => "the name of a field or of a kind",
        Syntax::KindAlone => "a kind without figures",
        Syntax::ClosedComment => "a comment that is closed",
        Syntax::NoUnderscores => "a number without underscores at its ends",
        Syntax::Backslash => "a backslash only as in \\\" or \\\\",
        Syntax::NoSettings => "no #![...] line: none is needed",
        Syntax::LessDeep => "records as the formats describe them",
        Syntax::NothingMore => "nothing after the file's last closing bracket",
        Syntax::ClosedBrackets => "a file whose brackets are all closed",
        Syntax::AsDescribed => "a value such as the shipped files have in this field",
        Syntax::WholeFile => {
            "a file that was saved by this program, or one like it: all its fields stand in one ( ... )"
        }
    }
    .to_owned()
}

/// A range in words.
pub fn range(range: &Range, lengths: Lengths) -> String {
    if range.unit == Unit::Millimetres && lengths != Lengths::InFile {
        let (low, high) = lengths.within(range.low, range.high);
        return if range.above {
            format!("above {low} and up to {high}")
        } else {
            format!("{low} to {high}")
        };
    }
    let (low, high, unit) = (number(range.low), number(range.high), unit(range.unit));
    if range.above { format!("above {low} and up to {high}{unit}") } else { format!("{low} to {high}{unit}") }
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
        Unit::Days => " days",
    }
}

/// "from (1, 2) to (3, 4)".
pub fn reach(size: &Bounds) -> String {
    format!("from {} to {}", point(size.low), point(size.high))
}

/// Names, and the one that was probably meant.
fn among(choice: &Choice) -> String {
    if choice.names.is_empty() {
        return "none, since nothing of the kind is there".to_owned();
    }
    let meant = choice.meant.as_ref().map(|id| name(id.as_str()));
    format!("{}{}", listed(choice), did_you_mean(meant.as_deref()))
}

/// "\"a\", \"b\" or 3 more".
pub fn listed(choice: &Choice) -> String {
    let more = (choice.more > 0).then(|| format!("{} more", choice.more));
    let names: Vec<String> = choice.names.iter().map(|id| name(id.as_str())).chain(more).collect();
    one_of(&names)
}

pub fn did_you_mean(meant: Option<&str>) -> String {
    meant.map(|meant| format!(" (did you mean {meant}?)")).unwrap_or_default()
}

/// A number with a comma: a point, or no comma at all where it may stand between thousands.
fn point_for(number: &str) -> String {
    let thousands = number.rsplit(',').next().is_some_and(|rest| rest.len() == 3);
    let or = if thousands { format!(", or no comma: {}", number.replace(',', "")) } else { String::new() };
    format!("a decimal point: {}{or}", number.replace(',', "."))
}

/// "(4, 5)".
pub fn point(at: DVec2) -> String {
    format!("({}, {})", number(at.x), number(at.y))
}
