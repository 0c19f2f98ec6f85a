//! The next start begins where this one was: with the bay, the car and the set-up in hand.

use baywright_files::{EMBEDDED_LAYOUTS, FileFault, LastOpen, Remembered, remember, whole_path};

use super::Desk;
use super::page::Page;

impl Desk {
    /// Before the first frame: what earlier starts left, whether they left nothing, and what of it could not be read.
    pub fn begin_with(&mut self, remembered: Remembered, is_new: bool, why_not: &[FileFault]) {
        self.remembered = remembered;
        if is_new {
            self.view.page = Some(Page::Welcome);
        }
        // The first is at the foot of the screen, all are in the log.
        for sentence in self.sentences(why_not).into_iter().rev() {
            self.say_wrong(sentence);
        }
    }

    /// Remembers which layout is open and which arrangement of it is shown, once they are others than before. A bay that was
    /// never saved can be opened nowhere: what was remembered before stays.
    pub(super) fn remember(&mut self) {
        // Without a window of its own nothing is written into the user's folders.
        if !self.keeper.is_on() {
            return;
        }
        let Some(open) = self.open_now().filter(|open| self.remembered.last.as_ref() != Some(open)) else {
            return;
        };
        let Some(folder) = self.data_folder() else { return };
        let is_file = self.document.path().is_some();
        match remember(&folder, |own| own.opened(open.clone(), is_file)) {
            Ok(now) => self.remembered = now,
            // No work is lost by it: it is in the log only, and not tried again in every frame.
            Err(fault) => {
                self.log.push(&self.view.locale.language.file_fault(&fault));
                self.remembered.opened(open, is_file);
            }
        }
    }

    fn open_now(&self) -> Option<LastOpen> {
        let arrangement = self.document.shown().to_string();
        let layout = match self.document.path() {
            Some(path) => whole_path(path)?,
            None => {
                let name = self.document.layout().bay.id.as_str();
                let is_built_in =
                    !self.document.is_changed() && EMBEDDED_LAYOUTS.iter().any(|own| own.name == name);
                is_built_in.then(|| name.to_owned())?
            }
        };
        Some(LastOpen { layout, arrangement })
    }
}
