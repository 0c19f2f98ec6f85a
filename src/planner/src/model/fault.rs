//! What is wrong with data or with a file, as plain values: where, what was found, what is allowed. The sentences are made
//! from them in `words`, in each language's own room; no value here holds one. A text in a fault is what stands in a file,
//! a name, or a path.

mod allowed;
mod drawing;
mod file;
mod found;

pub use allowed::{Allowed, Choice, Syntax};
pub use drawing::{DrawingTrouble, LeftOut, TooMuch};
pub use file::{FileFault, FileKind, FileTrouble, Instead, PictureKind, Why, Wrong};
pub use found::{Counted, Found, Listed, Quote};

/// One value that breaks an invariant, or cannot be read.
#[derive(Clone, Debug, PartialEq)]
pub struct Fault {
    /// The field by its path in a file, such as `sensors[0].at_mm`; empty if it is no field.
    pub field: String,
    /// What was found there.
    pub found: Found,
    /// What is allowed there.
    pub allowed: Allowed,
}
