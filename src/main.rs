//! The program: everything is in the crates below `src/`.
fn main() {}
