//! Ways by mirrors: against an independent ray tracer, published values, and for awkward rooms.

#![allow(clippy::unwrap_used, clippy::panic, missing_docs)]

mod awkward;
mod floor;
mod ghosts;
mod share;
mod traced;
