//! What surfaces reflect and let through.

mod building;
mod slab;
mod surface;

pub use building::{Building, Electric, Reach};
pub use slab::{Across, Polarised, half_space, slab};
pub use surface::{Own, Reflected, Surface};
