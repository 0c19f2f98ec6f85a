//! What the door checks: every invariant that the rest of the program relies on.
//!
//! Files and forms fill the model and then ask here; nothing is repaired, everything found is reported. The limits are
//! generous, and real: they refuse slips of the keyboard and nonsense, never an unusual shop. Where a limit is passed
//! the fault names the field by the path that it has in a file (`sensors[0].at_mm`), what was found and what is
//! allowed, in the file's units: millimetres, degrees, gigahertz. These are values; `words` makes the sentence.

mod aiming;
mod arrangement;
mod bay;
mod instrument;
mod layout;
mod letters;
pub mod limits;
mod near;
mod on_car;
mod record;
mod screws;
mod shop;
mod stand_read;
mod vehicle;
mod visit;

use std::borrow::Cow;
use std::collections::BTreeMap;

use baywright_geometry::{DVec2, Outline, Polygon, ShapeFault, angle};

pub use super::fault::Fault;
use super::fault::{Allowed, Counted, Found, Quote};
use super::record::{Begun, Entry, VisitRecord};
use super::{
    Arrangement, Id, Instrument, JudgedBy, Layout, Provenance, SavedArrangement, Shop, ShopDocument,
    ShopFace, TriggerList, Vehicle,
};
use limits::{Range, Unit};
pub use near::nearest;

/// Every fault of a vehicle profile; none if it is sound.
pub fn vehicle(vehicle: &Vehicle) -> Vec<Fault> {
    let mut faults = Faults::default();
    vehicle::check(vehicle, &mut faults);
    faults.list
}

/// Every fault of a bay layout; none if it is sound. That the cars and aimings it names exist is checked when it is
/// resolved against their profiles.
pub fn layout(layout: &Layout) -> Vec<Fault> {
    let mut faults = Faults::default();
    layout::check(layout, &mut faults);
    faults.list
}

/// Every fault of an arrangement; none if it is sound. Paths start with `bay.`, `vehicle.` or the arrangement's own
/// field.
pub fn arrangement(arrangement: &Arrangement) -> Vec<Fault> {
    let mut faults = Faults::default();
    arrangement::check(arrangement, &mut faults);
    faults.list
}

/// Everything for which a saved arrangement of a layout cannot be opened with its car; none if it can. Paths start with `bay.`,
/// `vehicle.` or the arrangement's own field. `by` is what it is judged by.
pub fn with_car(
    layout: &Layout,
    saved: &SavedArrangement,
    car: &Vehicle,
    by: impl Into<JudgedBy>,
) -> Vec<Fault> {
    match layout.resolve(saved, car, "", by) {
        Ok(made) => arrangement(&made),
        Err(fault) => vec![fault.into()],
    }
}

/// Every fault of a list of what asks for aimings; none if it is sound.
pub fn trigger_list(list: &TriggerList) -> Vec<Fault> {
    let mut faults = Faults::default();
    visit::check(list, &mut faults);
    faults.list
}

/// Every fault of a shop's settings; none if they are sound.
pub fn shop(shop: &Shop) -> Vec<Fault> {
    let mut faults = Faults::default();
    shop::check(shop, &mut faults);
    faults.list
}

/// Every fault of what a shop says of itself; none if it is sound.
pub fn shop_face(face: &ShopFace) -> Vec<Fault> {
    let mut faults = Faults::default();
    shop::check_face(face, &mut faults);
    faults.list
}

/// Every fault of a shop's list of instruments; none if it is sound.
pub fn instruments(list: &[Instrument]) -> Vec<Fault> {
    let mut faults = Faults::default();
    instrument::check(list, &mut faults);
    faults.list
}

/// Every fault of a shop's document; none if it is sound.
pub fn shop_document(document: &ShopDocument) -> Vec<Fault> {
    let mut faults = shop(&document.shop);
    faults.extend(shop_face(&document.face));
    faults.extend(instruments(&document.instruments));
    faults
}

/// Every fault of a visit's record, each entry looked at by itself; none if it is sound. Paths are those of its file.
pub fn visit_record(record: &VisitRecord) -> Vec<Fault> {
    let mut faults = Faults::default();
    record::check(record, &mut faults);
    faults.list
}

/// Every fault of how a visit's record begins. Paths are those of its fields.
pub fn record_begun(begun: &Begun) -> Vec<Fault> {
    let mut faults = Faults::default();
    record::begun("", begun, &mut faults);
    faults.list
}

/// Every fault of one entry of a record that began so. Paths start with `by` or `what.`.
pub fn record_entry(begun: &Begun, entry: &Entry) -> Vec<Fault> {
    let mut faults = Faults::default();
    record::entry("", begun, entry, &mut faults);
    faults.list
}

/// Whether a text can be a name as it is.
pub fn is_name(text: &str) -> bool {
    let mut faults = Faults::default();
    faults.name("", text);
    faults.list.is_empty()
}

/// What is wrong with where an opening lies along its wall: mm from the wall's start as the file counts them, and the
/// wall's length, mm, if it is known. For files, which may go round a room the other way than the model does.
pub fn opening_along_wall(path: &str, from: f64, width: f64, wall: Option<f64>) -> Vec<Fault> {
    let mut faults = Faults::default();
    bay::along_wall(path, from, width, wall, &mut faults);
    faults.list
}

/// Why a shape was refused, as a fault of the field that holds its corners. `corners` are the outer ring's, for
/// saying what was found.
pub fn shape_fault(field: &str, corners: &[DVec2], fault: &ShapeFault) -> Fault {
    let counted = |ring: usize, count: usize| {
        Found::Count(count, if ring == 0 { Counted::Corners } else { Counted::CornersOfHole(ring) })
    };
    let whole = |found: Found, allowed: Allowed| Fault { field: field.to_owned(), found, allowed };
    let corner = |ring: usize, i: usize, found: Found, allowed: Allowed| {
        // Holes stand beside the corners of the outline.
        let field = match ring {
            0 => format!("{field}[{i}]"),
            hole => format!("{}holes_mm[{}][{i}]", field.trim_end_matches("corners_mm"), hole - 1),
        };
        Fault { field, found, allowed }
    };
    match *fault {
        ShapeFault::TooFewCorners { ring, corners } => whole(counted(ring, corners), Allowed::Corners(3)),
        ShapeFault::TooManyCorners { ring, corners } => {
            let most = baywright_geometry::tolerance::MOST_CORNERS;
            whole(counted(ring, corners), Allowed::AtMostCorners(most))
        }
        ShapeFault::OutOfReach { ring, corner: i } => {
            let at = corners.get(i).filter(|_| ring == 0);
            let found = at.map_or(Found::NoPlace, |at| Found::Point(*at));
            corner(ring, i, found, Allowed::In(limits::PLACE))
        }
        ShapeFault::RepeatedCorner { ring, corner: i } => {
            corner(ring, i, Found::CornerTwice, Allowed::EachCornerOnce)
        }
        ShapeFault::SelfCrossing { ring, first, second } => {
            let hole = (ring > 0).then_some(ring);
            whole(Found::EdgesMeet { hole, first, second }, Allowed::EdgesApart)
        }
        ShapeFault::NoArea { .. } => whole(Found::NoArea, Allowed::SomeArea),
        ShapeFault::HoleOutside { ring } => whole(Found::HoleOutside(ring), Allowed::HolesInside),
        ShapeFault::HolesOverlap { first, second } => {
            whole(Found::HolesOverlap(first, second), Allowed::HolesApart)
        }
        ShapeFault::NoRadius { radius } => {
            whole(Found::Number(radius * 2.0, Unit::Millimetres), Allowed::In(limits::SIZE))
        }
        ShapeFault::NoHeight { bottom, top } => {
            whole(Found::BottomAndTop { bottom, top }, Allowed::TopAboveBottom)
        }
    }
}

/// A number as a file has it, to a millionth.
pub fn number(value: f64) -> String {
    if !value.is_finite() {
        return format!("{value}");
    }
    let rounded = (value * 1e6).round() / 1e6;
    if rounded.abs() >= 1e15 || (rounded == 0.0 && value != 0.0) {
        format!("{value:e}")
    } else {
        format!("{rounded}")
    }
}

/// The faults found so far.
#[derive(Default)]
struct Faults {
    list: Vec<Fault>,
}

impl Faults {
    fn add(&mut self, field: impl Into<String>, found: Found, allowed: Allowed) {
        self.list.push(Fault { field: field.into(), found, allowed });
    }

    /// A length that is allowed by itself and not beside another.
    fn length(&mut self, field: impl Into<String>, mm: f64, allowed: Allowed) {
        self.add(field, Found::Number(mm, Unit::Millimetres), allowed);
    }

    /// A number must lie in a range; `value` is in the range's unit.
    fn number(&mut self, field: impl Into<String>, value: f64, range: &Range) {
        if !range.holds(value) {
            self.add(field, Found::Number(value, range.unit), Allowed::In(*range));
        }
    }

    /// A number must be nothing or lie in a range.
    fn number_or_none(&mut self, field: impl Into<String>, value: f64, range: &Range) {
        if value != 0.0 && !range.holds(value) {
            self.add(field, Found::Number(value, range.unit), Allowed::NothingOr(*range));
        }
    }

    /// An angle in radians must lie in a range of degrees.
    fn angle(&mut self, field: impl Into<String>, radians: f64, range: &Range) {
        // A limit typed in degrees comes back within rounding: judged to a millionth of a degree.
        let degrees = angle::degrees(radians);
        let steps = (degrees * 1e6).round() / 1e6;
        self.number(field, if degrees.is_finite() { steps } else { degrees }, range);
    }

    /// A place must lie within reach.
    fn place(&mut self, field: &str, p: DVec2) {
        for (i, value) in [p.x, p.y].into_iter().enumerate() {
            self.number(format!("{field}[{i}]"), value, &limits::PLACE);
        }
    }

    /// A list must not be longer than `most`.
    fn count(&mut self, field: &str, len: usize, most: usize) {
        if len > most {
            self.add(field, Found::Count(len, Counted::Entries), Allowed::AtMost(most));
        }
    }

    /// No outline of a list has too many corners, nor do all together. `field` is the list's, `part` an outline's below its
    /// entry.
    fn corners<'a>(
        &mut self,
        (field, part): (&str, &str),
        outlines: impl Iterator<Item = Cow<'a, Outline>>,
        most: usize,
    ) {
        let mut in_all = 0;
        for (i, outline) in outlines.enumerate() {
            let corners = match outline.as_ref() {
                Outline::Polygon(polygon) => polygon.rings().map(<[DVec2]>::len).sum(),
                Outline::Circle(_) => 1,
            };
            in_all += corners;
            if corners > limits::MOST_CORNERS {
                let allowed = Allowed::AtMostCorners(limits::MOST_CORNERS);
                self.add(format!("{field}[{i}].{part}"), Found::Count(corners, Counted::Corners), allowed);
            }
        }
        if in_all > most {
            self.add(field, Found::Count(in_all, Counted::CornersInAll), Allowed::AtMostCorners(most));
        }
    }

    /// A name: something, not too much, on one line, without blanks at its ends.
    fn name(&mut self, field: impl Into<String>, name: &str) {
        self.text(field, name, limits::LONGEST_NAME);
    }

    fn text(&mut self, field: impl Into<String>, text: &str, longest: usize) {
        let chars = text.chars().count();
        let found = if chars == 0 {
            Found::EmptyText
        } else if chars > longest {
            Found::TextOf(chars)
        } else if text.chars().any(char::is_control) {
            Found::ControlCharacter
        } else if let Some(hidden) = text.chars().find(|&c| letters::reorders_or_breaks(c)) {
            Found::HiddenCharacter(hidden)
        } else if !letters::is_seen(text) {
            Found::NothingSeen
        } else if text.trim() != text {
            Found::BlankAtEnds(Quote::of(text))
        } else {
            return;
        };
        self.add(field, found, Allowed::TextUpTo(longest));
    }

    /// No name may be used twice. `names` come with the paths of their fields.
    fn unique<'a>(&mut self, names: impl IntoIterator<Item = (String, &'a Id)>) {
        let mut seen: BTreeMap<&Id, String> = BTreeMap::new();
        for (field, name) in names {
            match seen.get(name) {
                Some(first) => {
                    let first = Allowed::UsedOnce(first.clone());
                    self.add(field, Found::Again(Quote::of(name.as_str())), first);
                }
                None => {
                    seen.insert(name, field);
                }
            }
        }
    }

    /// A name must be one of those that exist.
    fn known<'a>(&mut self, field: impl Into<String>, name: &Id, known: impl IntoIterator<Item = &'a Id>) {
        let known: Vec<&Id> = known.into_iter().collect();
        if !known.contains(&name) {
            let allowed = Allowed::one_of(name.as_str(), known);
            self.add(field, Found::Word(Quote::of(name.as_str())), allowed);
        }
    }

    /// A polygon as a file can hold it: without holes.
    fn no_holes(&mut self, field: impl Into<String>, polygon: &Polygon) {
        if !polygon.holes().is_empty() {
            let found = Found::Count(polygon.holes().len(), Counted::Holes);
            self.add(field, found, Allowed::NoHoles);
        }
    }

    /// Where figures come from must say something.
    fn source(&mut self, field: &str, source: &Provenance) {
        let (part, text) = match source {
            Provenance::Example | Provenance::NotGiven => return,
            Provenance::Maker { document, .. } => ("document", document),
            Provenance::Measured { by, .. } => ("by", by),
            Provenance::Published { source } => ("source", source),
        };
        self.text(format!("{field}.{part}"), text, limits::LONGEST_TEXT);
    }
}

/// The size of an outline's box.
fn extent(outline: &Outline) -> DVec2 {
    outline.bounds().size()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_read_well() {
        assert_eq!(number(0.1 + 0.2), "0.3");
        assert_eq!(number(-1820.0), "-1820");
        assert_eq!(number(1e300), "1e300");
        assert_eq!(number(1e-300), "1e-300");
        assert_eq!((number(f64::NAN), number(f64::INFINITY)), ("NaN".to_owned(), "inf".to_owned()));
    }

    #[test]
    fn names_are_checked() {
        let check = |name: &str| {
            let mut faults = Faults::default();
            faults.name("name", name);
            faults.list.len()
        };
        assert_eq!(check("street wall"), 0);
        assert_eq!(check("می\u{200c}خواهم"), 0, "a joiner between letters");
        for bad in [
            "",
            " ",
            " a",
            "a\n",
            "a\u{7}b",
            "a\u{202e}b",
            "a\u{2028}b",
            "\u{200b}",
            "\u{2060}\u{200d}",
            &"x".repeat(121),
        ] {
            assert_eq!(check(bad), 1, "{bad:?}");
        }
    }

    #[test]
    fn names_are_unique() {
        let (a, b) = (Id::from("a"), Id::from("b"));
        let mut faults = Faults::default();
        faults.unique([("x[0]".into(), &a), ("x[1]".into(), &b), ("y[0]".into(), &a)]);
        assert_eq!(faults.list.len(), 1);
        assert_eq!(faults.list[0].field, "y[0]");
        assert_eq!(faults.list[0].allowed, Allowed::UsedOnce("x[0]".to_owned()));
    }
}
