//! What surveyed levels and taped distances say: how high the floor is at a place, how a car stands, where marks are, and how
//! surely.
//!
//! Lengths are in millimetres, angles in radians, slopes are a rise over a run, uncertainties are standard ones (one σ) unless
//! said otherwise. Plain figures in, plain figures out: nothing here knows files, words, clocks or screens, and nothing can fail:
//! what makes no sense is a typed answer. Levels that are not finite, or beyond [`surface::BEYOND_MM`], are as if they had not been
//! given.

pub mod alignment;
pub mod budget;
pub mod causes;
pub mod chances;
pub mod decide;
pub mod dice;
pub mod floor;
pub mod input;
pub mod laid;
pub mod matrix;
pub mod monte_carlo;
pub mod network;
pub mod next_tape;
pub mod plane;
pub mod propagate;
pub mod repeat;
pub mod stand;
pub mod surface;

pub use plane::{Plane, Stance, stance};
pub use surface::{Level, LevelSurface, SurveyedPoint};
