//! What must move: cases that are worked out by hand, and random rooms against all sets tried by the checks alone.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test fails by panicking")]

use baywright_planner::*;

#[path = "../../src/check/testing.rs"]
#[allow(dead_code, unused_imports)]
mod support;

mod by_hand;
#[path = "../checks/dice.rs"]
mod dice;
mod here;
mod money;
mod tried;
