//! What lies over the screen. There is one door to it, [`Desk::lay`], with all that goes with laying a page and taking it away.

use super::{Tool, Viewing};
use crate::screen::Desk;
use crate::screen::page::{Page, Question};

impl Viewing {
    /// What lies over the screen.
    pub const fn page(&self) -> Option<&Page> {
        self.page.as_ref()
    }

    /// The same, to type in it.
    pub const fn page_mut(&mut self) -> Option<&mut Page> {
        self.page.as_mut()
    }

    /// Takes it off while it is drawn, for what it shows is drawn from the rest of the desk; it is to be put back.
    pub(in crate::screen) const fn lift_page(&mut self) -> Option<Page> {
        self.page.take()
    }

    /// Puts back what was lifted.
    pub(in crate::screen) fn put_page_back(&mut self, page: Page) {
        self.page = Some(page);
    }
}

impl Desk {
    /// Lays a page over the screen, or takes away what lies there. What was typed in that and is not done yet is put aside, and
    /// there again when one comes back to it. Where a page is taken away and the list of what was left behind waits, that is there
    /// again, as long as something is left.
    pub fn lay(&mut self, page: Option<Page>) {
        // What is printed is laid over the record or the page for a customer, and leaves them where they were.
        let is_printed = |own: Option<&Page>| matches!(own, Some(Page::OnPaper));
        match (&page, self.view.page()) {
            (Some(Page::OnPaper), Some(under @ (Page::Record | Page::Customer(_)))) => {
                self.view.under_paper = Some(under.clone());
            }
            (Some(Page::OnPaper | Page::Ask(_) | Page::Save(_)), _) => {}
            (Some(_), _) => self.view.under_paper = None,
            (None, now) if !is_printed(now) => self.view.under_paper = None,
            (None, _) => {}
        }
        let page = page.or_else(|| self.view.under_paper.take());
        let waits = self.view.awaits_left_behind && !self.left_behind.works.is_empty();
        let page = page.or_else(|| waits.then_some(Page::LeftBehind));
        // Only a question, or the name that is asked for, leads on to what was to be done once the work is saved: all else is a
        // step back from it.
        if !matches!(page, Some(Page::Ask(_) | Page::Save(_))) {
            self.after_save = None;
        }
        // Who goes elsewhere has done with it: it would wait behind the page for a press that means something else.
        if page.is_some() {
            self.view.tool = Tool::WhichSide;
        }
        match page {
            Some(Page::Shop) => self.look_at_shop_again(),
            Some(Page::LeftBehind) => self.view.awaits_left_behind = true,
            _ => {}
        }
        match std::mem::replace(&mut self.view.page, page) {
            Some(Page::NewBay(begun)) => self.view.bay_begun = Some(begun.room),
            Some(Page::Visit(begun)) if begun.is_changed() || !begun.chosen.is_empty() => {
                self.view.list_begun = Some(begun);
            }
            Some(Page::Failed(begun)) => self.view.routine_said = Some(begun),
            // A question that was not answered with yes was answered with no.
            Some(Page::Ask(Question::TooSmall(_))) => self.document.abandon(),
            _ => {}
        }
    }

    /// A person closes what lies there: the list of what was left behind, by that alone, waits no longer.
    pub(in crate::screen) fn close_page(&mut self) {
        if self.view.page == Some(Page::LeftBehind) {
            self.view.awaits_left_behind = false;
        }
        self.lay(None);
    }
}
