//! How strong an echo is beside the target's: one law, and what the sensor itself adds to it.
//!
//! Levels are decibels, a level against the target's above nothing where the echo is the stronger. What a profile does not state is
//! a [`Band`] over what is usual, and a level is a band in its turn. Figures of ideal shapes; real sensors filter.

mod antenna;
mod band;
mod law;
mod sensor;
mod window;

pub use antenna::{Beams, Bearing, Cut, Pattern, PatternFault, Table};
pub use band::Band;
pub use law::{Received, against, mirrored_m2, polarised_db};
pub use sensor::{Figure, Known, Sensor, SensorFault};
pub use window::Window;
