//! Every check, through the public function, against figures worked out by hand.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test fails by panicking")]

mod support;

mod cures;
mod hand;
mod room;
mod set_up;
mod things;
mod totality;
mod words;
