//! What is where, whether that lets the aiming succeed, and why not.
//!
//! [`model`] is plain validated data; [`assess()`] turns an [`model::Arrangement`] into an [`Assessment`]: a pure,
//! total function, the same answer every time and on every machine. [`words`] is the only place that makes sentences.
//!
//! Lengths are millimetres, angles radians, frames as `model::frames` says.

pub mod model;
