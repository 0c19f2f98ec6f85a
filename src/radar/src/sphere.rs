//! Spheres.
