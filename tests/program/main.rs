//! The whole program: how the house is built, and the commands run as a person runs them.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test fails by panicking")]

mod bracketed;
mod circles;
mod commands;
mod exchange;
mod german;
mod house;
mod itself;
mod licences;
#[path = "../shared/made.rs"]
mod made;
mod never;
mod package;
mod pipes;
mod plan;
mod record;
mod run;
mod scenarios;
mod schema;
mod sheets;
mod slips;
mod troubles;
