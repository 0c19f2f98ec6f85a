//! The whole screen, driven without a window by the accessible names of its controls.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test fails by panicking")]

mod all_pages;
mod bracketed;
mod building;
mod by_hand;
mod compared;
mod customer;
mod dimensions;
mod drawn;
mod drive;
mod entry;
mod faults;
mod feet;
mod fields;
mod figures;
mod first;
mod first_hand;
mod fits;
mod foot;
mod forms;
mod hall;
mod hand;
mod in_sight;
mod keeping;
mod led;
mod legible;
mod levels;
mod looking;
#[path = "../shared/made.rs"]
mod made;
mod names;
mod opened;
mod own;
mod pictures;
mod promised;
mod remembered;
mod renderer;
mod saving;
mod sessions;
mod several;
mod sheet;
mod shelf;
mod shop;
mod sizes;
mod source;
mod steady;
mod support;
mod taken;
mod taped;
mod typing;
mod visits;
mod waiting;
mod walk;
mod whose;
mod zones;
