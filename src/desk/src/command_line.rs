//! The headless commands: read from the command line, answered from the same assessment as the screen.

pub mod commands;
pub mod demo;
pub mod draw;
mod input;
mod json;
pub mod outcome;
pub mod page;
pub mod plain;
pub mod report;
mod visit;
