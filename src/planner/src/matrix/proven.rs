//! Whether a line of which no place was found never fits in its room: proven of solids alone, with all that can be moved gone.

use std::sync::Arc;

use super::Line;
use crate::never::check;
use crate::place::never::{Given, Never, Short, Stays, never, short};

/// So many cells a proof of a line may have: what takes more stays open.
const MOST_CELLS: usize = 20_000;

/// What is missing where a line never fits, if two of what stands decide it.
pub type Proven = Option<Arc<Short>>;

/// What came of looking for a proof.
#[derive(Clone, Debug, PartialEq)]
pub enum Settled {
    /// It never fits; the proof was checked by who shares no code with the search.
    Never(Proven),
    /// No proof was found: it may fit or not.
    Open,
    /// It was stopped.
    Stopped,
}

/// Looks for a proof that a line fits nowhere in its room; `tell` hears how much of all places and headings is ruled out, from 0 to 1.
pub fn settled(line: &Line, is_stopped: &dyn Fn() -> bool, tell: &mut dyn FnMut(f64)) -> Settled {
    let given = Given::of(&line.arrangement, Stays::Fixed);
    match never(&given, MOST_CELLS, is_stopped, tell) {
        Never::Proven(proof) if check(&proof).is_ok() => {
            Settled::Never(short(&given, &proof, is_stopped).map(Arc::new))
        }
        Never::Stopped => Settled::Stopped,
        Never::Proven(_) | Never::Free(_) | Never::NotProven => Settled::Open,
    }
}
