//! Which aimings fit where, against closed forms and brute force.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test fails by panicking")]

use baywright_planner::*;

#[path = "../../src/check/testing.rs"]
#[allow(dead_code, unused_imports)]
mod support;

mod best_place;
mod cells;
mod changes;
mod made;
mod proven;
mod room_size;
mod together;
