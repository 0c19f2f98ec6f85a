//! Photographs and sheets: copied beside the record off the frame, one after the other, and entered once they lie there.

use std::path::Path;

use baywright_files::{attach, kind_of};
use baywright_planner::model::fault::FileKind;
use baywright_planner::model::record::{AttachmentKind, StepKind, What};

use super::{OfRecord, RecordPage};
use crate::screen::Desk;
use crate::screen::command::Command;
use crate::session::job::{News, Wake};

impl Desk {
    /// Takes in what was copied, and has the next one copied.
    pub(super) fn hear_attached(&mut self, page: &mut RecordPage, wake: &Wake, out: &mut Vec<Command>) {
        match page.attaching.news().pop() {
            Some(News::Done(Ok(own)) | News::SoFar(Ok(own))) => {
                let said = self.view.locale.language.record_page().attached(&own.file);
                out.push(Command::Record(OfRecord::Enter(vec![What::Attached(own)])));
                out.push(Command::Tell(said));
            }
            Some(News::Done(Err(fault)) | News::SoFar(Err(fault))) => {
                self.say_wrong(self.view.locale.language.file_fault(&fault));
            }
            Some(News::Failed(words)) => self.say_wrong(self.texts().failed_beside(&words)),
            None => {}
        }
        if page.attaching.is_running() || page.to_attach.is_empty() {
            return;
        }
        let (from, kind) = page.to_attach.remove(0);
        let Some(in_hand) = &page.in_hand else { return };
        let (record, step) = (in_hand.path().to_owned(), page.at.clone());
        page.attaching.start("attach", 1, wake, move |_| attach(&record, &from, kind, step));
    }

    /// What a file that is dropped on the page shows, as far as its ending and the step tell.
    pub(in crate::screen) fn paper_kind(&self, path: &Path) -> AttachmentKind {
        let ending = path.extension().map(|own| own.to_string_lossy().to_lowercase()).unwrap_or_default();
        let step = self.record.at.as_ref().map(|own| own.kind);
        match step {
            _ if matches!(ending.as_str(), "heic" | "webp" | "tif" | "tiff") => AttachmentKind::Photo,
            _ if kind_of(path) == FileKind::Picture => AttachmentKind::Photo,
            Some(StepKind::ScanBefore | StepKind::ScanAfter) => AttachmentKind::Scan,
            Some(StepKind::Alignment) => AttachmentKind::AlignmentSheet,
            _ => AttachmentKind::Sheet,
        }
    }

    /// Whether files that are dropped are attached.
    pub(in crate::screen) fn takes_papers(&self) -> bool {
        self.is_recording() && self.can_enter(&self.record)
    }
}
