//! Every check, through the public function, against figures worked out by hand.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test fails by panicking")]

// The same made-up car and bay as the tests beside the checks, seen from outside.
use baywright_planner::*;

#[path = "../../src/check/testing.rs"]
#[allow(dead_code, unused_imports)]
mod support;

mod cures;
mod dice;
mod hand;
mod promises;
mod totality;
mod words;
