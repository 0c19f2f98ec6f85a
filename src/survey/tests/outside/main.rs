//! Against tables of independent libraries and published examples. The scripts that made the tables lie beside them.

#![allow(clippy::unwrap_used, clippy::panic, missing_docs)]

mod floors;
mod networks;
mod plans;
mod uncertainty;

/// A table that lies beside this file.
fn table(text: &str) -> Vec<serde_json::Value> {
    serde_json::from_str(text).unwrap()
}

fn number(value: &serde_json::Value) -> f64 {
    value.as_f64().unwrap_or_else(|| panic!("{value} is no number"))
}

fn numbers(value: &serde_json::Value) -> Vec<f64> {
    value.as_array().unwrap().iter().map(number).collect()
}

#[track_caller]
fn near(found: f64, expected: f64, within: f64, what: &str) {
    assert!((found - expected).abs() <= within, "{what}: {found} instead of {expected} ± {within}");
}
