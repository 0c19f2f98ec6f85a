//! The drawing list and its SVG, on arrangements made by hand.

mod bay;
mod list;
mod svg;
mod trouble;
