//! What was found.

use baywright_geometry::DVec2;

use super::{name, number, quoted};
use crate::model::fault::{Counted, Fault, Found, Listed};
use crate::words::Lengths;

/// What was found, as it stands in a sentence after "found".
pub fn found(fault: &Fault, lengths: Lengths) -> String {
    let mm = |value: &f64| lengths.of(*value);
    match &fault.found {
        Found::Number(value, unit) if value.is_finite() => super::allowed::with_unit(*value, *unit, lengths),
        Found::Number(value, _) => number(*value),
        Found::Whole(value) => value.to_string(),
        Found::Point(at) => super::allowed::point(*at),
        Found::OutsideBody(value) => format!("{}, outside the body", mm(value)),
        Found::Count(count, of) => counted(*count, *of),
        Found::WallsForCorners { walls, corners } => format!("{walls} walls for {corners} corners"),
        Found::Position(Listed::BodyPoint, at) => format!("body point number {at}"),
        Found::Position(Listed::Placement, at) => format!("placement number {at}"),
        Found::Position(Listed::Wall, at) => format!("wall number {at}"),
        Found::LaterMark(at) => format!("a use of mark number {at} in the plan"),

        Found::NeededBy(aiming) => {
            format!("nothing, and the aiming {} counts a height from it", name(aiming.as_str()))
        }
        Found::FrontSpots => {
            "the line through the front spots without both spots in the mark plan".to_owned()
        }
        Found::EmptyText => "an empty text".to_owned(),
        Found::EmptyList => "an empty list".to_owned(),
        Found::NoPlacement => "no placement".to_owned(),
        Found::NoLevel => "no level".to_owned(),
        Found::NoField(field) => format!("no {field}"),
        Found::FieldTwice(field) => format!("{field} again"),
        Found::FieldNamed(field) => format!("a field named {}", quoted(field)),

        Found::Word(word) => quoted(word),
        Found::Text(text) => format!("the text {}", quoted(text)),
        Found::Saying(text) => format!("the string {}", quoted(text)),
        Found::Again(word) => format!("{} again", quoted(word)),
        Found::TakenInBay(word) => format!("{}, which the bay has already", quoted(word)),
        Found::NoProfile(car) => format!("{}, of which there is no profile", quoted(car)),
        Found::NotAsInProfile(id) => format!("{:?}, not as the profile has it", id.as_str()),
        Found::Name(id) => format!("{:?}", id.as_str()),
        Found::KindAgain => "a kind of sensor again".to_owned(),
        Found::TextOf(chars) => format!("a text of {chars} characters"),
        Found::ControlCharacter => "a text with a line break or another control character".to_owned(),
        Found::HiddenCharacter(hidden) => format!(
            "a text with a hidden character that turns or breaks its line (U+{:04X})",
            u32::from(*hidden)
        ),
        Found::NothingSeen => "a text of which nothing is seen".to_owned(),
        Found::BlankAtEnds(text) => format!("{}, which starts or ends with a blank", quoted(text)),
        Found::TextToLine(last) => format!("a text that goes on to line {last}"),

        Found::RoomOf(size) => format!("a room of {}", by(*size, lengths)),
        Found::AreaOf(size) => format!("an area of {}", by(*size, lengths)),
        Found::ShapeOf(size) => format!("a shape {} long", mm(size)),
        Found::BottomAndTop { bottom, top } => {
            format!("a bottom at {} and a top at {}", mm(bottom), mm(top))
        }
        Found::AlongWall { from, to } => {
            format!("an opening from {} to {} along its wall", lengths.bare(*from), mm(to))
        }
        Found::OpeningsOverlap(one, other) => {
            format!("that {} overlaps {}", name(one.as_str()), name(other.as_str()))
        }
        Found::OutlineReaches(size) => format!("an outline that reaches {}", super::allowed::reach(size)),
        Found::LengthAndParts { length, wheelbase, front, rear } => format!(
            "{}, while wheelbase and overhangs ({} + {} + {}) make {}",
            mm(length),
            lengths.bare(*wheelbase),
            lengths.bare(*front),
            lengths.bare(*rear),
            mm(&(wheelbase + front + rear))
        ),
        Found::LengthAndSum { length, sum } => {
            format!("{}, while wheelbase and overhangs make {}", mm(length), mm(sum))
        }

        Found::NoPlace => "a place without bounds".to_owned(),
        Found::CornerTwice => "the same corner twice in a row".to_owned(),
        Found::EdgesMeet { hole, first, second } => {
            let corner = |i: &usize| match hole {
                None => format!("{}[{i}]", fault.field),
                Some(hole) => format!("hole {hole}, corner {i}"),
            };
            format!(
                "that the edge from {} crosses or touches the edge from {}",
                corner(first),
                corner(second)
            )
        }
        Found::NoArea => "a shape without area".to_owned(),
        Found::HoleOutside(hole) => format!("that hole {hole} lies outside the outline or crosses it"),
        Found::HolesOverlap(one, other) => format!("that holes {one} and {other} overlap"),

        Found::StandingOnFloor => "a standing target on the floor".to_owned(),
        Found::MatAtHeight => "a mat at a height".to_owned(),
        Found::StandUnderMat => "a stand under a mat".to_owned(),

        Found::WithComma(number) => format!("{number} with a comma"),
        Found::Written(number) => number.clone(),
        Found::EndOfFile => "the end of the file".to_owned(),
        Found::TooDeep => "records nested too deep".to_owned(),
        Found::NoVersion => "no version".to_owned(),
        Found::Version(version) => format!("version {version}"),
        Found::NewerVersion(version) => format!("version {version}, made by a newer program"),
        Found::VersionNamed(text) => format!("the version {}", quoted(text)),
    }
}

fn counted(count: usize, of: Counted) -> String {
    match of {
        Counted::Entries if count == 1 => "1 entry".to_owned(),
        Counted::Entries => format!("{count} entries"),
        Counted::Values => format!("{count} values"),
        Counted::Points => format!("{count} points"),
        Counted::Corners => format!("{count} corners"),
        Counted::CornersInAll => format!("{count} corners in all"),
        Counted::CornersOfHole(hole) => format!("{count} corners in hole {hole}"),
        Counted::Placed => format!("{count} things and pieces of floor, counted once for each set-up"),
        Counted::Holes => format!("{count} holes"),
        Counted::Stands => format!("{count} stands"),
    }
}

fn by(size: DVec2, lengths: Lengths) -> String {
    format!("{} by {}", lengths.bare(size.x), lengths.of(size.y))
}
