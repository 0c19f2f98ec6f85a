//! What is wrong with data and with files.

mod allowed;
mod drawing;
mod file;
mod found;

pub use allowed::{allowed, range};
pub use file::file_fault;
pub use found::found;

use crate::model::fault::{Fault, Found, Quote};
use crate::model::validate;
use crate::words::Lengths;

/// What of an arrangement does not go with its car, as a clause.
pub fn against_car(fault: &Fault, lengths: Lengths) -> String {
    let (found, allowed) = (found(fault, lengths), allowed(&fault.allowed, lengths));
    let measured = fault.field.strip_prefix("on_this_car.").and_then(measured);
    match (&fault.found, measured) {
        (Found::Word(_) | Found::NoProfile(_), _) => format!("it names {found}; allowed is {allowed}"),
        (_, Some(figure)) => format!("{figure} is {found}; allowed is {allowed}"),
        (_, None) => format!("{} is {found}; allowed is {allowed}", fault.field),
    }
}

/// A figure that was measured on the car, by the path of its field.
fn measured(path: &str) -> Option<String> {
    let (what, axis) = path.strip_suffix(']')?.rsplit_once('[')?;
    let what = match what.strip_prefix("wheels_mm.") {
        Some(wheel) => format!("the {} wheel as measured", wheel.replace('_', " ")),
        None if what == "sensor_at_mm" => "the sensor as built".to_owned(),
        None => return None,
    };
    let along = match axis {
        "0" => "along the car",
        "1" => "across the car",
        _ => "in height",
    };
    Some(format!("{what}, {along},"))
}

/// A number for a sentence, to a millionth.
pub fn number(value: f64) -> String {
    let digits = validate::number(value);
    if value.is_nan() {
        format!("{digits} (not a number)")
    } else if value.is_infinite() {
        format!("{digits} (not a finite number)")
    } else {
        digits
    }
}

/// A piece of a file's own text: in quotes, control characters made visible, cut when long.
fn quoted(quote: &Quote) -> String {
    let more = if quote.is_cut() { "…" } else { "" };
    format!("{:?}", format!("{}{more}", quote.text()))
}

/// A name in quotes, cut when long.
fn name(text: &str) -> String {
    quoted(&Quote::of(text))
}

/// "a, b or c".
pub fn one_of(names: &[String]) -> String {
    match names {
        [] => String::new(),
        [only] => only.clone(),
        [rest @ .., last] => format!("{} or {last}", rest.join(", ")),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_read_well() {
        assert_eq!(number(0.1 + 0.2), "0.3");
        assert_eq!(number(f64::NAN), "NaN (not a number)");
        assert_eq!(number(f64::NEG_INFINITY), "-inf (not a finite number)");
    }

    #[test]
    fn long_texts_are_cut() {
        assert_eq!(name("a \"b\"\n"), "\"a \\\"b\\\"\\n\"");
        assert_eq!(name(&"x".repeat(61)), format!("\"{}…\"", "x".repeat(60)));
    }
}
