//! The ways that a wave takes by mirrors in a room: from the sensor by one or two flat faces to the target or back to itself, and
//! where the sensor then believes a thing to be that is not there.
//!
//! Places are in the bay's frame (x, y on the floor, z up), lengths in millimetres, angles in radians. Faces are ideal mirrors:
//! smooth, flat, with the angle of incidence that of reflection (method of images). That holds where a face is many wavelengths
//! wide and its roughness far below one; what narrow ones send on is [`Way::share`].
//!
//! Published values: the wall ghost and the floor bounce of references computed with numpy, and the paths of a general-purpose ray
//! tracer (`tests/data/paths.json`).

mod echo;
mod floor;
mod mirror;
mod room;
mod share;
mod way;

pub use echo::{Ghost, Round, mirror_ghosts, target_ghosts};
pub use floor::{FloorBounce, FloorZone, floor_bounce};
pub use mirror::Mirror;
pub use room::Room;
pub use way::{Bounce, Way};
