//! Lines and points that stay on the floor, against closed forms, by property, and kept in a bay.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test fails by panicking")]

use baywright_planner::*;

#[path = "../../src/check/testing.rs"]
#[allow(dead_code, unused_imports)]
mod support;

#[path = "../matrix/made.rs"]
#[allow(dead_code)]
mod made;

mod closed;
mod kept;
mod parked;
