//! The headless commands: read from the command line, answered from the same assessment as the screen.

pub(crate) mod changes;
pub mod commands;
pub mod demo;
pub mod draw;
mod grammar;
pub mod import;
mod input;
pub(crate) mod json;
pub(crate) mod kind;
pub mod marks;
mod misread;
pub(crate) mod never;
pub mod outcome;
pub mod page;
pub mod plain;
pub mod plan;
pub mod print;
pub mod record;
pub mod report;
pub mod sheet;
pub mod trouble;
mod visit;
mod visit_set_ups;
mod written;
