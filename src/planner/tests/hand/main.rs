//! What is in hand: by figures worked out by hand, and against slower ways to the same answer in awkward rooms.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test fails by panicking")]

#[path = "../../src/check/testing.rs"]
#[allow(dead_code, unused_imports)]
mod support;

use baywright_planner::*;

mod awkward;
mod body;
mod gaps;
mod gaps_again;
mod measure;
mod size;
mod snap;
mod square;
mod walls;
