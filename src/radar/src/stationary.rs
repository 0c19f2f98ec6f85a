//! Integrals with a stationary phase, by their critical points.
