//! What the door checks: every invariant that the rest of the program relies on.
//!
//! Files and forms fill the model and then ask here; nothing is repaired, everything found is reported. The limits are
//! generous, and real: they refuse slips of the keyboard and nonsense, never an unusual shop. Where a limit is passed
//! the fault names the field by the path that it has in a file (`sensors[0].at_mm`), what was found and what is
//! allowed, in the file's units: millimetres, degrees, gigahertz.

mod aiming;
mod arrangement;
mod bay;
mod layout;
pub mod limits;
mod near;
mod vehicle;
mod visit;

use std::collections::BTreeMap;

use baywright_geometry::{DVec2, Outline, Polygon, ShapeFault, angle};

use super::{Arrangement, Id, Layout, Provenance, TriggerList, Vehicle};
use limits::Range;
pub use near::nearest;

/// One thing that breaks an invariant.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fault {
    /// The field by its path in a file, such as `sensors[0].at_mm`.
    pub field: String,
    /// What was found, such as `-5 mm`.
    pub found: String,
    /// What is allowed, such as `above 0 and up to 30000 mm`.
    pub allowed: String,
}

/// What is found where nothing was entered.
pub const EMPTY: &str = "an empty text";

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

/// Every fault of a list of what asks for aimings; none if it is sound.
pub fn trigger_list(list: &TriggerList) -> Vec<Fault> {
    let mut faults = Faults::default();
    visit::check(list, &mut faults);
    faults.list
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
    let at = |ring: usize, i: usize| match ring {
        0 => format!("{field}[{i}]"),
        hole => format!("hole {hole}, corner {i}"),
    };
    let of_ring = |ring: usize| if ring == 0 { String::new() } else { format!(" in hole {ring}") };
    let (field, found, allowed) = match *fault {
        ShapeFault::TooFewCorners { ring, corners } => {
            (field.to_owned(), format!("{corners} corners{}", of_ring(ring)), "3 corners or more".to_owned())
        }
        ShapeFault::TooManyCorners { ring, corners } => (
            field.to_owned(),
            format!("{corners} corners{}", of_ring(ring)),
            format!("at most {} corners", baywright_geometry::tolerance::MOST_CORNERS),
        ),
        ShapeFault::OutOfReach { ring, corner } => {
            let found = match corners.get(corner) {
                Some(p) if ring == 0 => format!("({}, {})", number(p.x), number(p.y)),
                _ => "a place without bounds".to_owned(),
            };
            (at(ring, corner), found, limits::PLACE.allowed())
        }
        ShapeFault::RepeatedCorner { ring, corner } => (
            at(ring, corner),
            "the same corner twice in a row".to_owned(),
            "each corner once, the first not repeated at the end".to_owned(),
        ),
        ShapeFault::SelfCrossing { ring, first, second } => (
            field.to_owned(),
            format!(
                "that the edge from {} crosses or touches the edge from {}",
                at(ring, first),
                at(ring, second)
            ),
            "an outline whose edges meet only at its corners".to_owned(),
        ),
        ShapeFault::NoArea { .. } => {
            (field.to_owned(), "a shape without area".to_owned(), "a shape that covers some floor".to_owned())
        }
        ShapeFault::HoleOutside { ring } => (
            field.to_owned(),
            format!("that hole {ring} lies outside the outline or crosses it"),
            "holes inside the outline".to_owned(),
        ),
        ShapeFault::HolesOverlap { first, second } => (
            field.to_owned(),
            format!("that holes {first} and {second} overlap"),
            "holes that lie apart".to_owned(),
        ),
        ShapeFault::NoRadius { radius } => {
            (field.to_owned(), format!("{} mm", number(radius * 2.0)), limits::SIZE.allowed())
        }
        ShapeFault::NoHeight { bottom, top } => (
            field.to_owned(),
            format!("a bottom at {} mm and a top at {} mm", number(bottom), number(top)),
            "a top above the bottom, both within 10000000 mm".to_owned(),
        ),
    };
    Fault { field, found, allowed }
}

/// A number for a sentence, to a millionth.
pub fn number(value: f64) -> String {
    if !value.is_finite() {
        return if value.is_nan() {
            "NaN (not a number)".to_owned()
        } else {
            format!("{value} (not a finite number)")
        };
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
    fn add(&mut self, field: impl Into<String>, found: impl Into<String>, allowed: impl Into<String>) {
        self.list.push(Fault { field: field.into(), found: found.into(), allowed: allowed.into() });
    }

    /// A number must lie in a range; `value` is in the range's unit.
    fn number(&mut self, field: impl Into<String>, value: f64, range: &Range) {
        if !range.holds(value) {
            let unit = if value.is_finite() { range.unit } else { "" };
            self.add(field, format!("{}{unit}", number(value)), range.allowed());
        }
    }

    /// A number must be nothing or lie in a range.
    fn number_or_none(&mut self, field: impl Into<String>, value: f64, range: &Range) {
        let before = self.list.len();
        if value != 0.0 {
            self.number(field, value, range);
        }
        if let Some(fault) = self.list.get_mut(before) {
            fault.allowed = format!("0, or {}", fault.allowed);
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
            self.add(field, format!("{len} entries"), format!("at most {most}"));
        }
    }

    /// A name: something, not too much, on one line, without blanks at its ends.
    fn name(&mut self, field: impl Into<String>, name: &str) {
        self.text(field, name, limits::LONGEST_NAME);
    }

    fn text(&mut self, field: impl Into<String>, text: &str, longest: usize) {
        let chars = text.chars().count();
        let found = if chars == 0 {
            EMPTY.to_owned()
        } else if chars > longest {
            format!("a text of {chars} characters")
        } else if text.chars().any(char::is_control) {
            "a text with a line break or another control character".to_owned()
        } else if text.trim() != text {
            format!("{}, which starts or ends with a blank", quoted(text))
        } else {
            return;
        };
        self.add(field, found, format!("1 to {longest} characters on one line, without blanks at the ends"));
    }

    /// No name may be used twice. `names` come with the paths of their fields.
    fn unique<'a>(&mut self, names: impl IntoIterator<Item = (String, &'a Id)>) {
        let mut seen: BTreeMap<&Id, String> = BTreeMap::new();
        for (field, name) in names {
            match seen.get(name) {
                Some(first) => {
                    let allowed = format!("a name used only once; {first} has it already");
                    self.add(field, format!("{} again", quoted(name.as_str())), allowed);
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
            self.add(field, quoted(name.as_str()), one_of_near(name.as_str(), known));
        }
    }

    /// A polygon as a file can hold it: without holes.
    fn no_holes(&mut self, field: impl Into<String>, polygon: &Polygon) {
        if !polygon.holes().is_empty() {
            self.add(field, format!("{} holes", polygon.holes().len()), "an outline without holes");
        }
    }

    /// Where figures come from must say something.
    fn source(&mut self, field: &str, source: &Provenance) {
        let (part, text) = match source {
            Provenance::Example => return,
            Provenance::Maker { document, .. } => ("document", document),
            Provenance::Measured { by, .. } => ("by", by),
            Provenance::Published { source } => ("source", source),
        };
        self.text(format!("{field}.{part}"), text, limits::LONGEST_TEXT);
    }
}

/// A piece of a file's own text for a sentence: in quotes, control characters made visible, cut when long.
pub fn quoted(text: &str) -> String {
    /// The longest piece that a sentence repeats, in characters.
    const LONGEST: usize = 60;
    let mut short: String = text.chars().take(LONGEST).collect();
    if short.len() < text.len() {
        short.push('…');
    }
    format!("{short:?}")
}

/// Names for a sentence, cut when there are many.
pub fn one_of<'a>(names: impl IntoIterator<Item = &'a Id>) -> String {
    const MOST: usize = 12;
    let mut names: Vec<String> = names.into_iter().map(|id| quoted(id.as_str())).collect();
    let more = names.len().saturating_sub(MOST);
    names.truncate(MOST);
    if more > 0 {
        names.push(format!("{more} more"));
    }
    match names.split_last() {
        None => "none, since nothing of the kind is there".to_owned(),
        Some((only, [])) => only.clone(),
        Some((last, rest)) => format!("{} or {last}", rest.join(", ")),
    }
}

/// The same, with the one that was probably meant.
pub fn one_of_near<'a>(found: &str, names: impl IntoIterator<Item = &'a Id>) -> String {
    let names: Vec<&Id> = names.into_iter().collect();
    let meant = near::nearest(found, names.iter().map(|id| id.as_str()));
    let all = one_of(names);
    meant.map_or(all.clone(), |meant| format!("{all} (did you mean {}?)", quoted(meant)))
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
        assert!(number(f64::NAN).contains("NaN") && number(f64::INFINITY).contains("inf"));
    }

    #[test]
    fn names_are_checked() {
        let check = |name: &str| {
            let mut faults = Faults::default();
            faults.name("name", name);
            faults.list.len()
        };
        assert_eq!(check("street wall"), 0);
        for bad in ["", " ", " a", "a\n", "a\u{7}b", &"x".repeat(121)] {
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
        assert!(faults.list[0].allowed.contains("x[0]"));
    }
}
