//! The records that lie beside the layout: read off the frame.

use std::path::{Path, PathBuf};

use baywright_files::{load_record, records_in};
use baywright_planner::record::Holds;

use super::{Led, Listed, RecordPage, Side};
use crate::screen::Desk;
use crate::session::job::{News, Wake};

/// So many records of a bay are listed.
const MOST_LISTED: usize = 60;

impl Desk {
    /// Has them read; those that were read before stand there meanwhile.
    pub(super) fn list_records(&self, page: &mut RecordPage, wake: &Wake) {
        let Some(path) = self.document.path().map(Path::to_owned) else {
            page.listed.clear();
            return;
        };
        page.listing.start("records", 1, wake, move |_| listed(&path));
    }

    pub(super) fn hear_listed(&mut self, page: &mut RecordPage) {
        match page.listing.news().pop() {
            Some(News::Done(all) | News::SoFar(all)) => {
                page.listed = all;
                if page.side == Side::Records {
                    page.led = Some(Led::First);
                }
            }
            Some(News::Failed(words)) => self.say_wrong(self.texts().failed_beside(&words)),
            None => {}
        }
    }
}

/// The records of this layout, the newest first.
fn listed(layout: &Path) -> Vec<Listed> {
    let folder: PathBuf = layout.parent().map(Path::to_owned).unwrap_or_default();
    let name = layout.file_name().map(|own| own.to_string_lossy().into_owned());
    let read = |path: PathBuf| {
        let kept = load_record(&path).ok()?;
        let record = kept.record();
        (record.begun.layout == name).then(|| Listed {
            path,
            begun: record.begun.clone(),
            is_closed: Holds::of(record).is_closed(),
            people: record.entries.iter().map(|own| own.by.clone()).collect(),
        })
    };
    let mut all: Vec<Listed> = records_in(&folder).unwrap_or_default().into_iter().filter_map(read).collect();
    all.sort_by_key(|own| std::cmp::Reverse(own.begun.at));
    all.truncate(MOST_LISTED);
    all
}
