//! Where a car can stand, against closed forms and against the checks themselves.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test fails by panicking")]

use baywright_planner::*;

#[path = "../../src/check/testing.rs"]
#[allow(dead_code, unused_imports)]
mod support;

mod areas;
mod closed;
#[path = "../checks/dice.rs"]
mod dice;
mod never;
mod random;
mod spots;
mod told;
mod way_in;
