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

/// What of an arrangement does not go with its car, between brackets.
pub fn against_car(fault: &Fault, lengths: Lengths) -> String {
    let (found, allowed) = (found(fault, lengths), allowed(&fault.allowed, lengths));
    let measured = fault.field.strip_prefix("on_this_car.").and_then(measured);
    match (&fault.found, measured) {
        (Found::Word(_) | Found::NoProfile(_), _) => format!("genannt: {found}; erlaubt: {allowed}"),
        (_, Some(figure)) => format!("{figure}: {found}; erlaubt: {allowed}"),
        (_, None) => format!("{}: {found}; erlaubt: {allowed}", fault.field),
    }
}

/// A figure that was measured on the car, by the path of its field.
fn measured(path: &str) -> Option<String> {
    let (what, axis) = path.strip_suffix(']')?.rsplit_once('[')?;
    let what = match what {
        "wheels_mm.front_left" => "Rad vorn links, gemessen",
        "wheels_mm.front_right" => "Rad vorn rechts, gemessen",
        "wheels_mm.rear_left" => "Rad hinten links, gemessen",
        "wheels_mm.rear_right" => "Rad hinten rechts, gemessen",
        "sensor_at_mm" => "Sensor wie verbaut",
        _ => return None,
    };
    let along = match axis {
        "0" => "längs zum Fahrzeug",
        "1" => "quer zum Fahrzeug",
        _ => "in der Höhe",
    };
    Some(format!("{what}, {along}"))
}

/// A number for a sentence, to a millionth.
pub fn number(value: f64) -> String {
    let digits = validate::number(value);
    if value.is_nan() {
        format!("{digits} (keine Zahl)")
    } else if value.is_infinite() {
        format!("{digits} (keine endliche Zahl)")
    } else {
        digits
    }
}

/// A piece of a file's own text: in the file's quotes, control characters made visible, cut when long.
fn quoted(quote: &Quote) -> String {
    let more = if quote.is_cut() { "…" } else { "" };
    format!("{:?}", format!("{}{more}", quote.text()))
}

/// A name in the file's quotes, cut when long.
fn name(text: &str) -> String {
    quoted(&Quote::of(text))
}

/// "a, b oder c".
pub fn one_of(names: &[String]) -> String {
    match names {
        [] => String::new(),
        [only] => only.clone(),
        [rest @ .., last] => format!("{} oder {last}", rest.join(", ")),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_read_well() {
        assert_eq!(number(0.1 + 0.2), "0.3");
        assert_eq!(number(f64::NAN), "NaN (keine Zahl)");
        assert_eq!(number(f64::NEG_INFINITY), "-inf (keine endliche Zahl)");
    }

    #[test]
    fn names_are_joined_by_or() {
        let names = ["a", "b", "c"].map(str::to_owned);
        assert_eq!(one_of(&names), "a, b oder c");
    }
}
