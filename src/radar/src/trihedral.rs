//! Corner reflectors of three faces.
