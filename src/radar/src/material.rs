//! How much a surface throws back.
