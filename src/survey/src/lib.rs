//! What surveyed levels say: how high the floor is at a place and how surely, and the plane that carries four wheels.
//!
//! Lengths are in millimetres, angles in radians, slopes are a rise over a run. Plain figures in, plain figures out:
//! nothing here knows files, words, clocks or screens, and nothing can fail. Figures that are not finite, or beyond
//! [`surface::BEYOND_MM`], are as if they had not been given.

pub mod plane;
pub mod surface;

pub use plane::{Plane, Stance, stance};
pub use surface::{Level, LevelSurface, SurveyedPoint};
