//! The shipped data and the documented formats: everything opens, is right, and is plainly an example.

mod dense;
mod edits;
mod failed;
mod formats;
mod shipped;
mod sizes;
