//! The drawing list and its SVG, on arrangements made by hand.

// A failing expectation is how a test speaks.
#![allow(clippy::unwrap_used, clippy::panic)]

mod apart;
mod bay;
mod counted;
mod dxf;
mod floor_sheets;
mod from_sensor;
mod list;
mod owner_report;
mod page;
mod pdf;
mod pdf_tree;
mod pick;
mod proof_file;
mod sheets;
mod svg;
mod trouble;
