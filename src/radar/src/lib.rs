//! What a radar in a bay would see of the things around it.
//!
//! Plain figures in, plain figures out: nothing here knows files, words, clocks or screens, and nothing can fail: what makes no
//! sense is a typed answer. Lengths are in mm, angles in radians, unless a name says otherwise.

pub mod aims;
pub mod clear;
pub mod cylinder;
pub mod dihedral;
pub mod echo;
pub mod face;
pub mod fresnel_integral;
pub mod knife_edge;
pub mod level;
pub mod material;
pub mod paths;
pub mod pull;
pub mod resolve;
pub mod seen;
pub mod sphere;
pub mod trihedral;
mod wave;
