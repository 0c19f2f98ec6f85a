//! The whole screen, driven without a window by the accessible names of its controls.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test fails by panicking")]

mod bracketed;
mod building;
mod by_hand;
mod customer;
mod dimensions;
mod drive;
mod entry;
mod faults;
mod feet;
mod fields;
mod figures;
mod first;
mod forms;
mod hall;
mod hand;
mod in_sight;
mod keeping;
mod looking;
#[path = "../shared/made.rs"]
mod made;
mod names;
mod opened;
mod own;
mod pictures;
mod remembered;
mod renderer;
mod several;
mod sheet;
mod shelf;
mod shop;
mod sizes;
mod support;
mod typing;
mod waiting;
mod walk;
