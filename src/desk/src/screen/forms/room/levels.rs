//! Levels as they are typed, pasted from a table or read off a sheet: a line each.

use baywright_planner::Scene;
use baywright_planner::geometry::{DVec2, Located, locate_in};
use baywright_planner::model::{Bay, Id, LevelPoint};
use baywright_planner::scene::PlacedMark;
use baywright_planner::words::Units;
use baywright_planner::words::hand::{BadLevel, LevelColumn};

use crate::screen::forms::typed::of_table;

/// A line that is no level: its number from 1, what stands there, and what of it is wrong.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::screen) struct BadLine<'a> {
    pub number: usize,
    pub line: &'a str,
    pub what: BadLevel<'a>,
}

/// The marks at which a level may be typed, by what they are called: the bay's own by their names, then those of the aiming by
/// their numbers on the drawing: all that lie on the floor, or on the top of this runway.
pub(super) fn marks_to_level(bay: &Bay, scene: &Scene, runway: Option<&Id>) -> Vec<(String, DVec2)> {
    let top = runway.and_then(|id| bay.runways.iter().find(|own| own.id == *id));
    let lies_there = |own: &PlacedMark, at: DVec2| match top {
        None => own.lies_mm == 0.0,
        Some(top) => own.lies_mm > 0.0 && locate_in(&top.outline, at) != Located::Outside,
    };
    let numbered = scene.marks.iter().zip(1..).filter_map(|(mark, number)| {
        let at = mark.at.ok().filter(|at| lies_there(mark, *at))?;
        Some((number.to_string(), at))
    });
    permanent_marks(bay).into_iter().chain(numbered).collect()
}

/// The bay's own marks alone: the numbers in a table that somebody brought are not those that the drawing happens to show.
pub(in crate::screen) fn permanent_marks(bay: &Bay) -> Vec<(String, DVec2)> {
    bay.marks.iter().map(|own| (own.id.to_string(), own.at)).collect()
}

/// Levels from what was typed: along, across, level in the unit that is shown or each with its own, parted by semicolons, tabs,
/// commas or spaces, in quotation marks or not, with a point or a comma in a number; before them there may be a name or a number of
/// the line, which says nothing. Or a floor mark, by its name or its number, and its level. Empty lines, and a head over the columns,
/// are passed over. A comma before
/// three figures may part thousands: it is a decimal comma only in metres, or where another figure of the table has one for certain.
/// A line that stands there as it was shown is what it was
/// shown for (`untouched`), finer than it is written.
///
/// # Errors
/// The first line that is none of that.
pub(in crate::screen) fn levels_of<'a>(
    text: &'a str,
    marks: &[(String, DVec2)],
    units: Units,
    mut untouched: impl FnMut(&str) -> Option<LevelPoint>,
) -> Result<Vec<LevelPoint>, BadLine<'a>> {
    let has_decimals =
        text.lines().map(str::trim).flat_map(columns_of).any(|part| comma_of(part) == Some(Comma::Decimal));
    let mut levels = Vec::new();
    let mut is_first = true;
    for (number, line) in text.lines().enumerate() {
        let line = line.trim();
        if line.is_empty() {
            continue;
        }
        let read = untouched(line).map_or_else(|| level_of(line, marks, has_decimals, units), Ok);
        match read {
            Ok(level) => levels.push(level),
            // Words and no number at all: what the columns are called.
            Err(_) if is_first && !line.chars().any(|c| c.is_ascii_digit()) && columns_of(line).len() > 1 => {
            }
            Err(what) => return Err(BadLine { number: number + 1, line, what }),
        }
        is_first = false;
    }
    Ok(levels)
}

/// What a comma in a figure does.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Comma {
    /// Tenths and what is smaller stand behind it.
    Decimal,
    /// Either that, or thousands stand before it.
    Either,
}

/// What the one comma in a bare figure does; `None` without one.
fn comma_of(part: &str) -> Option<Comma> {
    let figure = part.trim_start_matches(['-', '+', '\u{2212}']);
    let (before, after) = figure.split_once(',')?;
    let are_digits = |text: &str| !text.is_empty() && text.chars().all(|c| c.is_ascii_digit());
    if !are_digits(before) || !are_digits(after) {
        return None;
    }
    let is_group = after.len() == 3 && before.len() <= 3 && !before.starts_with('0');
    Some(if is_group { Comma::Either } else { Comma::Decimal })
}

fn level_of<'a>(
    line: &'a str,
    marks: &[(String, DVec2)],
    has_decimals: bool,
    units: Units,
) -> Result<LevelPoint, BadLevel<'a>> {
    let parts = columns_of(line);
    let figure = |column: LevelColumn, part: &'a str| {
        // No bay is a thousand metres long.
        let may_part_thousands = units != Units::Metres && !has_decimals;
        if comma_of(part) == Some(Comma::Either) && may_part_thousands {
            return Err(BadLevel::Thousands(column, part));
        }
        of_table(part, units).ok_or(BadLevel::NoNumber(column, part))
    };
    match *parts.as_slice() {
        [x, y, level] | [_, x, y, level] => Ok(LevelPoint {
            at: DVec2::new(figure(LevelColumn::Along, x)?, figure(LevelColumn::Across, y)?),
            level_mm: figure(LevelColumn::Level, level)?,
        }),
        [mark, level] => {
            let mut named = marks.iter().filter(|(name, _)| name.eq_ignore_ascii_case(mark));
            // Two numbers are no mark and its level: a third one is missing.
            let missing =
                if of_table(mark, units).is_some() { BadLevel::Columns(2) } else { BadLevel::NoMark(mark) };
            let (_, at) = named.next().ok_or(missing)?;
            // One that stays on the floor, and one of the aiming: nobody knows which was meant.
            if named.any(|(_, other)| other != at) {
                return Err(BadLevel::TwoMarks(mark));
            }
            Ok(LevelPoint { at: *at, level_mm: figure(LevelColumn::Level, level)? })
        }
        _ => Err(BadLevel::Columns(parts.len())),
    }
}

/// The columns of a line. What parts them is the strongest sign that is there: a comma between digits may be in a number.
pub(in crate::screen) fn columns_of(line: &str) -> Vec<&str> {
    let by = |is: fn(char) -> bool| -> Vec<&str> {
        line.split(is)
            .map(|part| part.trim_matches(['(', ')', ' ']))
            .filter(|part| !part.is_empty())
            .collect()
    };
    if let Some(quoted) = quoted_parts(line) {
        quoted
    } else if line.contains(';') {
        by(|c| c == ';')
    } else if line.contains('\t') {
        by(|c| c == '\t')
    } else if line.contains(", ") || !line.contains(' ') {
        by(|c| c == ',')
    } else {
        by(char::is_whitespace)
    }
}

/// The columns of a line of which one begins with a quotation mark, as RFC 4180 has it: what parts them may stand within the marks.
/// A mark behind a figure is one of inches. `None` for any other line.
fn quoted_parts(line: &str) -> Option<Vec<&str>> {
    let begins = |parts: &char| {
        let mark = |text: String| line.contains(&text);
        mark(format!("{parts}\"")) || line.starts_with('"') && mark(format!("\"{parts}"))
    };
    let parts_by = [';', '\t', ','].into_iter().find(begins)?;
    let (mut rest, mut cells) = (line, Vec::new());
    loop {
        let (cell, after) = match rest.strip_prefix('"') {
            Some(quoted) => {
                let (cell, after) = quoted.split_once('"')?;
                (cell, after.trim_start_matches(' '))
            }
            None => rest.split_at(rest.find(parts_by).unwrap_or(rest.len())),
        };
        cells.push(cell.trim_matches(' '));
        match after.strip_prefix(parts_by) {
            Some(more) => rest = more.trim_start_matches(' '),
            None => return after.is_empty().then_some(cells),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn levels_are_read_however_they_come() {
        let one = LevelPoint { at: DVec2::new(850.0, 1_500.0), level_mm: -2.5 };
        let marks = [("A1".to_owned(), one.at)];
        for text in [
            "850, 1500, -2.5",
            "850,1500,-2.5",
            "850 1500 -2,5",
            "850; 1500; -2,5\n",
            "850;1500;-2.5",
            "850\t1500\t-2,5",
            "(850, 1500, -2.5)",
            "850,0; 1500,0; \u{2212}2,5",
            "x;y;level\n850;1500;-2,5",
            "Along, across, level\n\n850, 1500, -2.5",
            "P1;850;1500;-2,5",
            "7\t850\t1500\t-2.5",
            "\"along\",\"across\",\"level\"\n\"850,0\",\"1500,0\",\"-2,5\"",
            "\"P1\";850;1500;\"-2,5\"",
            "A1; -2,5",
            "a1\t-2.5",
            "mark;level\nA1;-2,5",
        ] {
            assert_eq!(levels_of(text, &marks, Units::Millimetres, |_| None), Ok(vec![one]), "{text}");
        }
        assert_eq!(levels_of("", &marks, Units::Millimetres, |_| None), Ok(Vec::new()));
        // In feet and inches, and mixed.
        let inches = LevelPoint { at: DVec2::new(2_286.0, 1_384.3), level_mm: -3.175 };
        for text in
            ["7' 6\"; 4' 6 1/2\"; -1/8\"", "7 ft 6 in, 54.5 in, -1/8 in", "2286\t4'-6 1/2\"\t-3.175 mm"]
        {
            let read = levels_of(text, &[], Units::Millimetres, |_| None).unwrap();
            let [read] = read.as_slice() else { panic!("{text}") };
            assert!(read.at.distance(inches.at) < 1e-9 && (read.level_mm + 3.175).abs() < 1e-9, "{text}");
        }
    }

    /// A bare number is one of the unit that is shown, as in every field; what has its unit stays what it is.
    #[test]
    fn a_bare_number_is_in_the_unit_that_is_shown() {
        for (text, units) in [
            ("90; 54 1/2; -1/8", Units::FeetInches),
            ("90, 54.5, -0.125", Units::FeetInches),
            ("2286 mm; 4' 6 1/2\"; -3.175 mm", Units::FeetInches),
            ("2.286; 1.3843; -0.003175", Units::Metres),
        ] {
            let read = levels_of(text, &[], units, |_| None).unwrap();
            let [read] = read.as_slice() else { panic!("{text}") };
            let meant = DVec2::new(2_286.0, 1_384.3);
            assert!(
                read.at.distance(meant) < 1e-6 && (read.level_mm + 3.175).abs() < 1e-6,
                "{text}: {read:?}"
            );
        }
    }

    /// "1,200" is a thousand and two hundred in one country, and one and a fifth in another.
    #[test]
    fn a_comma_that_may_part_thousands_is_asked_about() {
        let bad = |column, text| {
            Err(BadLine { number: 1, line: "1,200;3,400;-2", what: BadLevel::Thousands(column, text) })
        };
        assert_eq!(
            levels_of("1,200;3,400;-2", &[], Units::Millimetres, |_| None),
            bad(LevelColumn::Along, "1,200")
        );
        let one = LevelPoint { at: DVec2::new(850.0, 1_500.0), level_mm: -2.5 };
        // Four figures before it, or a figure elsewhere in the table with two behind it, leave no doubt.
        let in_metres = LevelPoint { at: DVec2::new(1_250.0, 3_400.0), level_mm: 0.44 };
        let read = levels_of("1,250;3,400;0,00044", &[], Units::Metres, |_| None);
        assert_eq!(read, Ok(vec![in_metres]));
        assert_eq!(levels_of("1,250;3,400;0", &[], Units::Metres, |_| None).map(|all| all.len()), Ok(1));
        assert_eq!(levels_of("850,000;1500,000;-2,500", &[], Units::Millimetres, |_| None), Ok(vec![one]));
        assert_eq!(levels_of("850,000\t1500\t-2,50", &[], Units::Millimetres, |_| None), Ok(vec![one]));
        assert_eq!(levels_of("850.000;1500.000;-2.500", &[], Units::Millimetres, |_| None), Ok(vec![one]));
    }

    #[test]
    fn the_line_that_is_no_level_is_named() {
        let bad = |number, line, what| Err(BadLine { number, line, what });
        let (columns, no_level) = (BadLevel::Columns, |text| BadLevel::NoNumber(LevelColumn::Level, text));
        assert_eq!(
            levels_of("850, 1500", &[], Units::Millimetres, |_| None),
            bad(1, "850, 1500", columns(2))
        );
        assert_eq!(
            levels_of("850;1500;1\n\n900;1500;lots", &[], Units::Millimetres, |_| None),
            bad(3, "900;1500;lots", no_level("lots"))
        );
        assert_eq!(
            levels_of("1, 2, inf", &[], Units::Millimetres, |_| None),
            bad(1, "1, 2, inf", no_level("inf"))
        );
        let across = BadLevel::NoNumber(LevelColumn::Along, "along");
        assert_eq!(
            levels_of("x;y;z\nalong;across;level", &[], Units::Millimetres, |_| None),
            bad(2, "along;across;level", across)
        );
        // A fraction without its unit is none of millimetres.
        assert_eq!(
            levels_of("1; 2; 1/8", &[], Units::Millimetres, |_| None),
            bad(1, "1; 2; 1/8", no_level("1/8"))
        );
        assert_eq!(
            levels_of("nowhere; 3", &[], Units::Millimetres, |_| None),
            bad(1, "nowhere; 3", BadLevel::NoMark("nowhere"))
        );
        // One that stays on the floor and one of the aiming go by the same number: neither is taken.
        let two = [("5".to_owned(), DVec2::new(1.0, 2.0)), ("5".to_owned(), DVec2::new(3.0, 4.0))];
        assert_eq!(
            levels_of("5; 3", &two, Units::Millimetres, |_| None),
            bad(1, "5; 3", BadLevel::TwoMarks("5"))
        );
        let at_one_place = [two[0].clone(), two[0].clone()];
        assert!(levels_of("5; 3", &at_one_place, Units::Millimetres, |_| None).is_ok());
        assert_eq!(
            levels_of("1;2;3;4;5", &[], Units::Millimetres, |_| None),
            bad(1, "1;2;3;4;5", columns(5))
        );
    }
}
