//! The echo of a shape as a sensor meets it.
