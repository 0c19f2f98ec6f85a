//! The answer for what is shown: worked out anew whenever that changes, kept when it cannot be.

use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::Arc;

use baywright_planner::Assessment;
use baywright_planner::model::{Arrangement, Id, Layout, Vehicle};

use crate::session::document::Document;

/// How an answer is worked out.
pub type Assess = fn(&Arrangement) -> Assessment;

/// The arrangement that is shown and what is said of it.
#[derive(Clone, Debug)]
pub struct Answer {
    /// The arrangement.
    pub arrangement: Arc<Arrangement>,
    /// What is said of it, or of an earlier one if `stale`.
    pub assessment: Arc<Assessment>,
    /// The arrangement that the assessment is of.
    pub judged: Arc<Arrangement>,
    /// Whether it could not be worked out for what is there now.
    pub stale: bool,
    /// Counts up with every change of what is shown.
    pub generation: u64,
    layout: Arc<Layout>,
    shown: Id,
    /// The car that is being entered, and which of its aimings is shown.
    draft: Option<(Arc<Vehicle>, Option<Id>)>,
    assess: Assess,
}

impl Answer {
    /// The answer for a document; `None` if its arrangement cannot be made or judged.
    pub fn of(document: &Document, assess: Assess) -> Option<Self> {
        let arrangement = Arc::new(document.arrangement()?);
        let assessment = Arc::new(judged(assess, &arrangement)?);
        Some(Self {
            judged: Arc::clone(&arrangement),
            arrangement,
            assessment,
            stale: false,
            generation: 1,
            layout: Arc::clone(document.layout()),
            shown: document.shown().clone(),
            draft: drafted(document),
            assess,
        })
    }

    /// Whether it is of a car that is being entered.
    pub const fn is_of_draft(&self) -> bool {
        self.draft.is_some()
    }

    /// Works it out again if the document shows something else than before. Whether anything changed.
    pub fn refresh(&mut self, document: &Document) -> bool {
        let same_car = match (&self.draft, document.draft()) {
            (None, None) => true,
            (Some((car, aiming)), Some(draft)) => {
                Arc::ptr_eq(car, draft.car()) && aiming.as_ref() == draft.aiming()
            }
            _ => false,
        };
        if same_car && Arc::ptr_eq(&self.layout, document.layout()) && self.shown == *document.shown() {
            return false;
        }
        self.draft = drafted(document);
        self.layout = Arc::clone(document.layout());
        self.shown = document.shown().clone();
        self.generation += 1;
        let Some(arrangement) = document.arrangement() else {
            self.stale = true;
            return true;
        };
        self.arrangement = Arc::new(arrangement);
        match judged(self.assess, &self.arrangement) {
            Some(assessment) => {
                self.assessment = Arc::new(assessment);
                self.judged = Arc::clone(&self.arrangement);
                self.stale = false;
            }
            None => self.stale = true,
        }
        true
    }
}

fn drafted(document: &Document) -> Option<(Arc<Vehicle>, Option<Id>)> {
    document.draft().map(|draft| (Arc::clone(draft.car()), draft.aiming().cloned()))
}

/// A fault in the program must not take the person's work with it.
fn judged(assess: Assess, arrangement: &Arrangement) -> Option<Assessment> {
    catch_unwind(AssertUnwindSafe(|| assess(arrangement))).ok()
}

#[cfg(test)]
mod tests {
    use std::path::Path;

    use baywright_planner::geometry::{DVec2, PlanPose};

    use super::*;
    use crate::session::edit::Edit;

    fn fragile(arrangement: &Arrangement) -> Assessment {
        assert!(arrangement.parked.origin().x < 5_000.0, "a fault planted for this test");
        baywright_planner::assess(arrangement)
    }

    #[test]
    fn an_answer_that_fails_keeps_the_last_one_and_says_so() {
        let mut document = Document::open(Path::new("crowded-bay"), None).unwrap();
        let mut answer = Answer::of(&document, fragile).unwrap();
        let first = Arc::clone(&answer.assessment);
        let park = |x: f64| Edit::Park(PlanPose::new(DVec2::new(x, 3_000.0), 0.0));
        document.edit(&park(6_000.0)).unwrap();
        assert!(answer.refresh(&document) && answer.stale);
        assert!(Arc::ptr_eq(&first, &answer.assessment));
        assert_eq!(answer.arrangement.parked.origin().x, 6_000.0);
        document.edit(&park(4_000.0)).unwrap();
        assert!(answer.refresh(&document) && !answer.stale);
        assert!(!answer.refresh(&document));
    }
}
