//! A straight edge that reaches into a beam.
