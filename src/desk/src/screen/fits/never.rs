//! Whether an aiming fits nowhere at all: asked when a cell is chosen of whose line no place of the room was found. It is worked out off
//! the frame, and what is proven changes the cell's word and sign.

use std::collections::BTreeMap;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

use baywright_planner::matrix::{Line, Planned, Proven, Settled, settled};
use baywright_planner::words::Words;
use egui::{Context, RichText, Ui};

use super::FitsPage;
use super::aside::say;
use crate::screen::look::{self, size};
use crate::screen::{Desk, waking, widgets};
use crate::session::job::Progress;
use crate::session::slow::Slow;

/// Of which line of a list.
#[derive(Clone, Debug)]
struct OfLine {
    lines: Arc<[Line]>,
    nth: usize,
}

impl PartialEq for OfLine {
    fn eq(&self, other: &Self) -> bool {
        Arc::ptr_eq(&self.lines, &other.lines) && self.nth == other.nth
    }
}

/// What is known of the lines of a list that were asked about.
#[derive(Debug, Default)]
pub(super) struct Nevers {
    looked: Slow<OfLine, Settled>,
    asked: Option<OfLine>,
    settled: BTreeMap<usize, Settled>,
    enough: Arc<AtomicBool>,
}

impl Nevers {
    /// Takes in what was worked out since the last frame.
    pub fn collect(&mut self) -> Result<(), String> {
        self.looked.collect()?;
        let Some(of) = &self.asked else { return Ok(()) };
        if let Some(own) = self.looked.shown(of).filter(|own| !own.is_older) {
            self.settled.insert(of.nth, own.found.clone());
            self.asked = None;
            self.looked.ask_again();
        }
        Ok(())
    }

    /// What was found is of another list.
    pub fn forget(&mut self) {
        *self = Self::default();
    }

    /// Whether nothing is being looked for.
    pub fn is_at_rest(&self) -> bool {
        self.asked.is_none()
    }

    /// The lines that never fit, as far as that is known.
    pub fn proven(&self) -> BTreeMap<usize, Proven> {
        let never = |own: &Settled| match own {
            Settled::Never(proven) => Some(proven.clone()),
            Settled::Open | Settled::Stopped => None,
        };
        self.settled.iter().filter_map(|(nth, own)| Some((*nth, never(own)?))).collect()
    }

    /// Has a proof looked for of a line, unless that is settled or being looked for.
    fn ask(&mut self, lines: &Arc<[Line]>, nth: usize, ctx: &Context) {
        let of = OfLine { lines: Arc::clone(lines), nth };
        if self.settled.contains_key(&nth) || self.asked.as_ref() == Some(&of) {
            return;
        }
        self.asked = Some(of.clone());
        self.enough = Arc::default();
        let enough = Arc::clone(&self.enough);
        self.looked.ask(of.clone(), ("never", 100), &waking(ctx), move |tell| {
            let is_stopped = || tell.is_stopped() || enough.load(Ordering::Relaxed);
            let mut before = 0;
            let Some(line) = of.lines.get(of.nth) else { return Settled::Open };
            settled(line, &is_stopped, &mut |share| {
                let now = (share * 100.0) as usize;
                if now > before {
                    before = now;
                    tell.steps(now);
                }
            })
        });
    }
}

impl Desk {
    /// Of the chosen line, where no place of the room was found for it: whether there is none.
    pub(super) fn fits_never(&self, ui: &mut Ui, page: &mut FitsPage, found: &Planned, nth: usize) {
        if !found.is_found_nowhere(nth) {
            return;
        }
        let Some(line) = found.lines.get(nth) else { return };
        let texts = self.view.locale.language.never();
        page.nevers.ask(&found.lines, nth, ui.ctx());
        if let (None, Some(Progress { done, all })) =
            (page.nevers.settled.get(&nth), page.nevers.looked.progress())
        {
            let text = if done < all { texts.ruled_out(done) } else { texts.weighing.to_owned() };
            if widgets::searching(ui, Progress { done, all }, text, self.texts().stop) {
                page.nevers.enough.store(true, Ordering::Relaxed);
            }
            return;
        }
        match page.nevers.settled.get(&nth) {
            Some(Settled::Never(short)) => {
                let told = Words::new(&line.arrangement, self.view.locale).never_fits(short.as_deref());
                say(ui, RichText::new(widgets::unbroken(told)).font(look::bold(size::BODY)));
                say(ui, widgets::soft(ui, texts.found_so));
            }
            Some(Settled::Open) => say(ui, widgets::soft(ui, texts.not_proven)),
            Some(Settled::Stopped) => {
                let again = widgets::lesser(ui, texts.ask).on_hover_text(texts.ask_why);
                if again.clicked() {
                    page.nevers.settled.remove(&nth);
                }
            }
            None => {}
        }
    }
}
