//! What helps a person to enter a car: what a class gives, sensors and aimings to start from, what is assumed and
//! follows from what was entered, what is unlikely, what was done. The model knows nothing of it.

mod assume;
pub mod class;
mod deed;
mod first_layout;
pub mod plausible;
mod rests;
pub mod starter;
pub mod zones;

pub use assume::Sizes;
pub use deed::{AimingDeed, CarDeed, SensorDeed};
pub use first_layout::first_layout;
pub use rests::readings_rest_on;
