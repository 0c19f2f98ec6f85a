//! Figures to type: of what is chosen, of a car, of the room.

mod as_shown;
pub mod car;
pub(in crate::screen) mod car_rows;
mod dimension;
pub(in crate::screen) mod field;
mod hall;
mod picked;
pub mod room;
pub mod rows;
mod several;
mod sheet_typed;
pub(in crate::screen) mod steady;
mod step;
mod this_car;
pub mod typed;
pub(in crate::screen) mod which;

pub(in crate::screen) use picked::{Picker, chosen_by_keys};
