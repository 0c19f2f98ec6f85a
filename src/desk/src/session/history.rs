//! What was done, as values: shared snapshots of the document, so that everything can be undone.

use std::collections::VecDeque;
use std::sync::Arc;

/// How many steps are kept; the oldest are forgotten first.
pub const MOST_STEPS: usize = 200;
/// How much all kept states may weigh together; beyond it the oldest are forgotten, however few there are.
pub const MOST_BYTES: usize = 256 << 20;

/// The present state and the ways back and forth from it.
#[derive(Clone, Debug)]
pub struct History<T, D> {
    /// About how many bytes a state takes.
    weigh: fn(&T) -> usize,
    now: Arc<T>,
    /// Each earlier state with the deed that changed it.
    past: VecDeque<(D, Arc<T>)>,
    /// Each later state with the deed that led to it, the next one last.
    future: Vec<(D, Arc<T>)>,
    /// The state before the change in hand, while the hand still moves.
    held: Option<Arc<T>>,
}

impl<T: PartialEq, D: Clone> History<T, D> {
    /// A history that begins here; `weigh` says about how many bytes a state takes.
    pub fn new(state: T, weigh: fn(&T) -> usize) -> Self {
        Self { weigh, now: Arc::new(state), past: VecDeque::new(), future: Vec::new(), held: None }
    }

    /// The present state, cheap to share.
    pub const fn now(&self) -> &Arc<T> {
        &self.now
    }

    /// The state that a change in hand began from: the present one, if nothing is in hand.
    pub fn base(&self) -> &Arc<T> {
        self.held.as_ref().unwrap_or(&self.now)
    }

    /// Whether a change is in hand.
    pub const fn is_held(&self) -> bool {
        self.held.is_some()
    }

    /// Shows a state that is not a step yet: the pointer is still down.
    pub fn preview(&mut self, state: T) {
        if self.held.is_none() {
            self.held = Some(Arc::clone(&self.now));
        }
        self.now = Arc::new(state);
    }

    /// The pointer is up: what was shown becomes one step, unless nothing changed.
    pub fn settle(&mut self, deed: D) {
        let Some(before) = self.held.take() else { return };
        if *before != *self.now {
            self.step(deed, before);
        }
    }

    /// The hand lets go without wanting it: back to the state before.
    pub fn abandon(&mut self) {
        if let Some(before) = self.held.take() {
            self.now = before;
        }
    }

    /// A change in one go. Nothing happens if nothing changed.
    pub fn change(&mut self, deed: D, state: T) {
        self.settle(deed.clone());
        if state != *self.now {
            let before = std::mem::replace(&mut self.now, Arc::new(state));
            self.step(deed, before);
        }
    }

    fn step(&mut self, deed: D, before: Arc<T>) {
        self.future.clear();
        self.past.push_back((deed, before));
        let mut bytes: usize = self.past.iter().map(|(_, state)| (self.weigh)(state)).sum();
        while self.past.len() > 1 && (self.past.len() > MOST_STEPS || bytes > MOST_BYTES) {
            let Some((_, oldest)) = self.past.pop_front() else { break };
            bytes -= (self.weigh)(&oldest);
        }
    }

    /// What would be undone.
    pub fn undoes(&self) -> Option<&D> {
        self.past.back().map(|(deed, _)| deed)
    }

    /// What would be done again.
    pub fn redoes(&self) -> Option<&D> {
        self.future.last().map(|(deed, _)| deed)
    }

    /// One step back; a change in hand is dropped first, and that is all.
    pub fn undo(&mut self) {
        if self.held.is_some() {
            self.abandon();
        } else if let Some((deed, before)) = self.past.pop_back() {
            let after = std::mem::replace(&mut self.now, before);
            self.future.push((deed, after));
        }
    }

    /// One step forth.
    pub fn redo(&mut self) {
        self.abandon();
        if let Some((deed, after)) = self.future.pop() {
            let before = std::mem::replace(&mut self.now, after);
            self.past.push_back((deed, before));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn back_and_forth_by_name() {
        let mut history = History::new(0, |_| 1);
        history.change("one", 1);
        history.change("nothing", 1);
        history.change("two", 2);
        assert_eq!((history.undoes(), history.redoes()), (Some(&"two"), None));
        history.undo();
        assert_eq!((**history.now(), history.undoes(), history.redoes()), (1, Some(&"one"), Some(&"two")));
        history.redo();
        assert_eq!(**history.now(), 2);
        history.undo();
        history.change("three", 3);
        assert_eq!((history.undoes(), history.redoes()), (Some(&"three"), None));
        history.undo();
        history.undo();
        history.undo();
        assert_eq!((**history.now(), history.undoes()), (0, None));
    }

    #[test]
    fn a_drag_is_one_step() {
        let mut history = History::new(0, |_| 1);
        for shown in 1..50 {
            history.preview(shown);
            assert_eq!(history.undoes(), None);
        }
        history.settle("drag");
        assert_eq!((**history.now(), history.undoes()), (49, Some(&"drag")));
        history.undo();
        assert_eq!(**history.now(), 0);
        // Out and back is no step; letting go without wanting it is none either.
        history.preview(5);
        history.preview(0);
        history.settle("drag");
        history.preview(7);
        history.abandon();
        assert_eq!((**history.now(), history.undoes(), history.redoes()), (0, None, Some(&"drag")));
        // Undo in the middle of a drag only drops the drag.
        history.redo();
        history.preview(60);
        history.undo();
        assert_eq!((**history.now(), history.undoes()), (49, Some(&"drag")));
    }

    #[test]
    fn it_is_bounded() {
        let mut history = History::new(0, |_| 1);
        for i in 1..1_000 {
            history.change("step", i);
        }
        let mut back = 0;
        while history.undoes().is_some() {
            history.undo();
            back += 1;
        }
        assert_eq!((back, **history.now()), (MOST_STEPS, 999 - MOST_STEPS as i32));
        // Heavy states: fewer of them, but never none.
        for (bytes, kept) in [(MOST_BYTES / 10, 10), (MOST_BYTES * 2, 1)] {
            let weigh: fn(&(usize, i32)) -> usize = |state| state.0;
            let mut heavy = History::new((bytes, 0), weigh);
            for i in 1..50 {
                heavy.change("step", (bytes, i));
            }
            let mut back = 0;
            while heavy.undoes().is_some() {
                heavy.undo();
                back += 1;
            }
            assert_eq!(back, kept);
        }
    }
}
