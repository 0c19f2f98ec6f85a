//! What the window begins with.

use std::path::Path;

use baywright_files::{FileFault, LastOpen, Remembered, remembered};
use baywright_planner::model::JudgedBy;
use baywright_planner::model::fault::FileTrouble;

use crate::session::answer::Answer;
use crate::session::document::Document;

/// What is shown first, and why.
#[derive(Debug)]
pub struct First {
    /// The document.
    pub document: Document,
    /// What is remembered of earlier starts.
    pub remembered: Remembered,
    /// Nothing is remembered: the demo is shown to somebody who may not know it.
    pub is_new: bool,
    /// What could not be read, so that something else is shown.
    pub why_not: Vec<FileFault>,
}

impl First {
    /// The layout that was `asked` for; else what was in hand last, as it is remembered in `folder`; else the demo. What is
    /// remembered and cannot be opened any more is told.
    ///
    /// # Errors
    /// What was asked for cannot be opened, or the demo cannot.
    pub fn of(
        folder: Option<&Path>,
        asked: Option<&Path>,
        demo: &Path,
        by: JudgedBy,
    ) -> Result<Self, Vec<FileFault>> {
        let (remembered, mut why_not) = match folder.map_or(Ok(None), remembered) {
            Ok(remembered) => (remembered, Vec::new()),
            Err(fault) => (None, vec![fault]),
        };
        let is_new = asked.is_none() && remembered.is_none() && why_not.is_empty();
        let remembered = remembered.unwrap_or_default();
        if let Some(asked) = asked {
            return Ok(Self { document: Document::open(asked, &by)?, remembered, is_new, why_not });
        }
        let last = remembered.last.as_ref().map(|last| open_last(last, &by));
        let document = match last {
            Some(Ok(document)) => document,
            Some(Err(faults)) => {
                why_not.extend(faults);
                Document::open(demo, &by)?
            }
            None => Document::open(demo, &by)?,
        };
        Ok(Self { document, remembered, is_new, why_not })
    }
}

fn open_last(last: &LastOpen, by: &JudgedBy) -> Result<Document, Vec<FileFault>> {
    let mut document = Document::open(Path::new(&last.layout), by)?;
    // If it is gone, or does not go with its car any more: the first that can be shown.
    let _ = document.show(&last.arrangement.as_str().into());
    match Answer::of(&document, baywright_planner::assess) {
        Some(_) => Ok(document),
        None => Err(vec![FileFault::whole(last.layout.clone(), FileTrouble::CannotBeJudged)]),
    }
}
