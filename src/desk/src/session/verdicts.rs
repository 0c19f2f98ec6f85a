//! The verdicts of all arrangements of a bay, worked out in the background from a snapshot.

use std::sync::Arc;

use baywright_planner::model::{Id, JudgedBy, Layout};
use baywright_planner::{Verdict, judge};

use crate::session::caught::caught;
use crate::session::document::{Document, made};
use crate::session::job::{Progress, Wake};
use crate::session::slow::Slow;

/// What is known of the arrangements so far.
#[derive(Debug, Default)]
pub(crate) struct Verdicts {
    verdicts: Slow<Of, Vec<(Id, Option<Verdict>)>>,
}

/// The layout that the verdicts are of, the very state and not one that says the same, and what it is judged by.
#[derive(Clone, Debug)]
pub(crate) struct Of(pub Arc<Layout>, pub JudgedBy);

impl Of {
    /// What a document has now.
    pub fn now(document: &Document) -> Self {
        Self(Arc::clone(document.layout()), document.by().clone())
    }
}

impl PartialEq for Of {
    fn eq(&self, other: &Self) -> bool {
        Arc::ptr_eq(&self.0, &other.0) && self.1 == other.1
    }
}

impl Verdicts {
    /// Looks at all arrangements of a document, unless that was done or is being done.
    pub fn start(&mut self, wake: &Wake, document: &Document) {
        let layout = Arc::clone(document.layout());
        let (cars, by) = (document.cars().to_vec(), document.by().clone());
        let how = ("verdicts", layout.arrangements.len());
        self.verdicts.ask(Of(Arc::clone(&layout), by.clone()), how, wake, move |tell| {
            let mut verdicts = Vec::with_capacity(layout.arrangements.len());
            for own in &layout.arrangements {
                if tell.is_stopped() {
                    break;
                }
                // One that cannot be made, or that brings the program's sums to a fall, has no verdict.
                let verdict = caught(|| {
                    let arrangement = made(&layout, &own.id, &cars, &by)?;
                    Some(judge(&arrangement).verdict)
                });
                verdicts.push((own.id.clone(), verdict.unwrap_or_default()));
                tell.steps(verdicts.len());
                tell.so_far(verdicts.clone());
            }
            verdicts
        });
    }

    /// Stops looking; what is known stays.
    pub fn stop(&mut self) {
        self.verdicts.stop();
    }

    /// Another document: nothing is known of it.
    pub fn forget(&mut self) {
        self.verdicts.forget();
    }

    /// Takes in what was worked out since the last frame.
    ///
    /// # Errors
    /// The work met a fault of the program: in what words.
    pub fn collect(&mut self) -> Result<(), String> {
        self.verdicts.collect()
    }

    /// The verdict of an arrangement, if it is known; a verdict of a layout that has changed since is not.
    pub fn verdict(&self, document: &Document, arrangement: &Id) -> Option<Verdict> {
        let shown = self
            .verdicts
            .shown(&Of(Arc::clone(document.layout()), document.by().clone()))
            .filter(|shown| !shown.is_older)?;
        shown.found.iter().find(|(own, _)| own == arrangement)?.1
    }

    /// How many of how many were looked at, while it runs.
    pub fn progress(&self) -> Option<Progress> {
        self.verdicts.progress()
    }
}

#[cfg(test)]
mod tests {
    use std::path::Path;
    use std::time::{Duration, Instant};

    use baywright_planner::edit::Edit;
    use baywright_planner::geometry::{DVec2, PlanPose};

    use super::*;

    fn wake() -> Wake {
        Arc::new(|| {})
    }

    fn finish(verdicts: &mut Verdicts) {
        let start = Instant::now();
        while verdicts.progress().is_some() && start.elapsed() < Duration::from_secs(60) {
            verdicts.collect().unwrap();
            std::thread::sleep(Duration::from_millis(1));
        }
    }

    #[test]
    fn all_arrangements_get_the_verdict_of_check() {
        let document = Document::open(Path::new("crowded-bay"), None).unwrap();
        let mut verdicts = Verdicts::default();
        verdicts.start(&wake(), &document);
        finish(&mut verdicts);
        for own in &document.layout().arrangements {
            let arrangement = made(document.layout(), &own.id, document.cars(), document.by()).unwrap();
            let expected = baywright_planner::assess(&arrangement).verdict;
            assert_eq!(verdicts.verdict(&document, &own.id), Some(expected), "{}", own.id);
        }
    }

    #[test]
    fn stale_verdicts_are_not_shown_and_stopping_stops() {
        let mut document = Document::open(Path::new("crowded-bay"), None).unwrap();
        let mut verdicts = Verdicts::default();
        verdicts.start(&wake(), &document);
        finish(&mut verdicts);
        let shown = document.shown().clone();
        document.edit(&Edit::Park(PlanPose::new(DVec2::new(4_000.0, 3_000.0), 0.0))).unwrap();
        assert_eq!(verdicts.verdict(&document, &shown), None);
        verdicts.start(&wake(), &document);
        verdicts.stop();
        verdicts.collect().unwrap();
        assert_eq!(verdicts.progress(), None);
        // Asked again, it begins anew.
        verdicts.start(&wake(), &document);
        finish(&mut verdicts);
        assert!(verdicts.verdict(&document, &shown).is_some());
    }
}
