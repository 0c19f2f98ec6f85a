//! Figures of an alignment sheet as people type them: without a sign, in the sheet's own unit.

use baywright_planner::model::sheet::{Rim, SheetUnit, Typed};

/// Why a text is no figure of a sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoFigure {
    /// It has a sign: which way is said by words, beside it.
    Sign,
    /// It is no angle in degrees and minutes.
    Minutes,
    /// It is no number.
    Number,
}

/// A figure in its unit; a unit that is typed with it must be that one. `None` for an empty text.
pub fn figure(text: &str, unit: SheetUnit) -> Result<Option<Typed>, NoFigure> {
    let text =
        text.trim().to_lowercase().replace(',', ".").replace(['\u{2032}', '\u{2019}', '\u{2018}'], "'");
    let text = text.replace(['\u{a0}', '\u{202f}', '\u{2009}'], " ");
    if text.is_empty() {
        return Ok(None);
    }
    if text.starts_with(['-', '+', '\u{2212}']) {
        return Err(NoFigure::Sign);
    }
    let with = |units: &[&str]| {
        let bare = units.iter().find_map(|own| text.strip_suffix(own)).unwrap_or(&text);
        number(bare).map(Typed::of).ok_or(NoFigure::Number)
    };
    match unit {
        SheetUnit::Degrees => with(&["°", "deg"]),
        SheetUnit::DegreesMinutes => minutes(&text).ok_or(NoFigure::Minutes),
        SheetUnit::Millimetres => with(&["mm"]),
        SheetUnit::Inches => with(&["\"", "\u{2033}", "inches", "inch", "in", "zoll"]),
    }
    .map(Some)
}

/// `0 15`, `0° 15'`, `0:15`, `15'`, `1°`; a bare number would be one or the other, but for nothing.
fn minutes(text: &str) -> Option<Typed> {
    let of_minutes = |text: &str| number(text.trim().trim_end_matches('\''));
    let (degrees, minutes) = match text.split_once(['°', ':']).or_else(|| text.split_once(' ')) {
        Some((degrees, minutes)) if minutes.trim().is_empty() => (number(degrees)?, 0.0),
        Some((degrees, minutes)) => (number(degrees)?, of_minutes(minutes)?),
        None if text.ends_with('\'') || text == "0" => (0.0, of_minutes(text)?),
        None => return None,
    };
    (degrees.fract() == 0.0 && minutes < 60.0).then_some(Typed { value: degrees, minutes })
}

/// A number without a sign.
fn number(text: &str) -> Option<f64> {
    let text = text.trim();
    let is_plain = text.chars().all(|own| own.is_ascii_digit() || own == '.');
    if is_plain { text.parse().ok().filter(|value: &f64| value.is_finite()) } else { None }
}

/// The diameter at which a sheet gives its toes: with its unit, or in that of the toes. `None` if it is none.
pub fn rim(text: &str, unit: SheetUnit) -> Option<Rim> {
    let text = text.trim().to_lowercase().replace(',', ".");
    let inches = ["\"", "\u{2033}", "inches", "inch", "in", "zoll"];
    if let Some(bare) = text.strip_suffix("mm") {
        return number(bare).map(Rim::Millimetres);
    }
    if let Some(bare) = inches.iter().find_map(|own| text.strip_suffix(own)) {
        return number(bare).map(Rim::Inches);
    }
    number(&text)
        .map(|value| if unit == SheetUnit::Inches { Rim::Inches(value) } else { Rim::Millimetres(value) })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_figure_is_read_in_its_unit() {
        let of = |value: f64| Ok(Some(Typed::of(value)));
        assert_eq!(figure(" 0,25° ", SheetUnit::Degrees), of(0.25));
        assert_eq!(figure("2 mm", SheetUnit::Millimetres), of(2.0));
        assert_eq!(figure("0.08\u{2033}", SheetUnit::Inches), of(0.08));
        assert_eq!(figure("", SheetUnit::Degrees), Ok(None));
        for text in ["-0.1", "\u{2212}0,1", "+2"] {
            assert_eq!(figure(text, SheetUnit::Degrees), Err(NoFigure::Sign));
        }
        for text in ["2 mm", "1.2.3", "x", "0.1 0.2"] {
            assert_eq!(figure(text, SheetUnit::Degrees), Err(NoFigure::Number), "{text}");
        }
    }

    #[test]
    fn degrees_and_minutes() {
        let read = |text| figure(text, SheetUnit::DegreesMinutes);
        let of = |value: f64, minutes: f64| Ok(Some(Typed { value, minutes }));
        for text in ["0 15", "0°15'", "0° 15\u{2032}", "0:15", "15'"] {
            assert_eq!(read(text), of(0.0, 15.0), "{text}");
        }
        assert_eq!(read("1°"), of(1.0, 0.0));
        assert_eq!(read("1° 7.5'"), of(1.0, 7.5));
        assert_eq!(read("0"), of(0.0, 0.0));
        // One number alone would be degrees or minutes, and sixty minutes are a degree.
        for text in ["15", "0 60", "0.5 10", "a b"] {
            assert_eq!(read(text), Err(NoFigure::Minutes), "{text}");
        }
    }

    #[test]
    fn a_rim_has_its_own_unit() {
        assert_eq!(rim("406,4", SheetUnit::Millimetres), Some(Rim::Millimetres(406.4)));
        assert_eq!(rim("16 in", SheetUnit::Millimetres), Some(Rim::Inches(16.0)));
        assert_eq!(rim("16\"", SheetUnit::Millimetres), Some(Rim::Inches(16.0)));
        assert_eq!(rim("16 Zoll", SheetUnit::Millimetres), Some(Rim::Inches(16.0)));
        assert_eq!(rim("16", SheetUnit::Inches), Some(Rim::Inches(16.0)));
        assert_eq!(rim("406.4 mm", SheetUnit::Inches), Some(Rim::Millimetres(406.4)));
        assert_eq!(rim("wide", SheetUnit::Inches), None);
    }
}
