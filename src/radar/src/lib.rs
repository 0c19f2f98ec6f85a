//! What a radar in a bay would see of the things around it: how strong an echo is at the distance at which the thing stands.
//!
//! Plain figures in, plain figures out: nothing here knows files, words, clocks or screens, and nothing can fail: what makes no
//! sense is a typed answer. Lengths are in mm, angles in radians, frequencies in Hz, unless a name says otherwise. Echo areas σ
//! are in m², as the unit dBsm (decibels over one square metre) has it. Fields go as e^(+jωt), so that a path r turns a phase by
//! e^(−jkr), k = 2π/λ.
//!
//! Everything is for smooth ideal shapes. σ belongs to the distance that is stated with it: bays lie in the near field of almost
//! everything in them, where σ changes with distance.

pub mod complex;
pub mod cylinder;
pub mod dihedral;
pub mod echo;
pub mod face;
pub mod fresnel_integral;
pub mod knife_edge;
pub mod material;
pub mod sigma;
pub mod sphere;
pub mod stationary;
pub mod trihedral;
