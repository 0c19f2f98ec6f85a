//! The answer for what is shown: worked out anew whenever that changes, kept when it cannot be.
//!
//! The answer itself is fast: it is there in the frame that asks for it. What takes longer hangs on it as a [`SlowPart`].

use std::sync::Arc;

use baywright_planner::Assessment;
use baywright_planner::cure::Further;
use baywright_planner::model::{Arrangement, Id, JudgedBy, Layout, Vehicle};

use crate::session::caught::caught;
use crate::session::document::Document;
use crate::session::job::{Tell, Wake};
use crate::session::letters::Letters;
use crate::session::slow::{Shown, Slow};

/// How an answer is worked out.
pub type Assess = fn(&Arrangement) -> Assessment;

/// A part of the answer that takes longer than a frame: worked out off it, of the answer of one generation.
pub type SlowPart<T> = Slow<u64, T>;

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
    /// What it was judged by.
    by: JudgedBy,
    /// Whether the layout was judged by other settings of the shop when it was saved.
    judged_by_others: bool,
    /// The car that is being entered, and which of its aimings is shown.
    draft: Option<(Arc<Vehicle>, Option<Id>)>,
    assess: Assess,
    letters: Letters,
    /// Whether the hand held something.
    is_held: bool,
}

impl Answer {
    /// The answer for a document; `None` if its arrangement cannot be made or judged.
    pub fn of(document: &Document, assess: Assess) -> Option<Self> {
        let arrangement = Arc::new(document.arrangement()?);
        let assessment = Arc::new(judged(assess, &arrangement)?);
        let mut letters = Letters::default();
        letters.follow((&arrangement.bay.id, &arrangement.id), &assessment, false);
        Some(Self {
            is_held: document.is_held(),
            letters,
            judged: Arc::clone(&arrangement),
            arrangement,
            assessment,
            stale: false,
            generation: 1,
            layout: Arc::clone(document.layout()),
            shown: document.shown().clone(),
            by: document.by().clone(),
            judged_by_others: document.was_judged_by_others(),
            draft: drafted(document),
            assess,
        })
    }

    /// The letter by which a finding goes, by position: see [`Letters`]. `None` for a note.
    pub fn letter(&self, finding: usize) -> Option<String> {
        self.letters.letter(finding)
    }

    /// Those of all findings.
    pub const fn letters(&self) -> &Letters {
        &self.letters
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
        let same_by = self.by == *document.by() && self.judged_by_others == document.was_judged_by_others();
        let same_layout = Arc::ptr_eq(&self.layout, document.layout()) && self.shown == *document.shown();
        let was_held = std::mem::replace(&mut self.is_held, document.is_held());
        if same_car && same_by && same_layout {
            // Let go of where it was drawn to: nothing is worked out anew, but the letters are in their order again.
            return was_held && !self.is_held && self.letter_anew();
        }
        self.by = document.by().clone();
        self.judged_by_others = document.was_judged_by_others();
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
                let of = (&self.arrangement.bay.id, &self.arrangement.id);
                self.letters.follow(of, &assessment, self.is_held);
                self.assessment = Arc::new(assessment);
                self.judged = Arc::clone(&self.arrangement);
                self.stale = false;
            }
            None => self.stale = true,
        }
        true
    }

    /// Puts the letters into the order of the findings; whether that changed any.
    fn letter_anew(&mut self) -> bool {
        let before = self.letters.clone();
        let of = (&self.judged.bay.id, &self.judged.id);
        self.letters.follow(of, &self.assessment, false);
        self.letters != before
    }

    /// Has a slow part worked out of what was judged, unless it is or is being: in a thread of this name, in so many steps.
    pub fn work_out<T: Send + 'static>(
        &self,
        part: &mut SlowPart<T>,
        how: (&str, usize),
        wake: &Wake,
        work: impl FnOnce(&Arrangement, &Assessment, &Tell<T>) -> T + Send + 'static,
    ) {
        let (judged, assessment) = (Arc::clone(&self.judged), Arc::clone(&self.assessment));
        part.ask(self.generation, how, wake, move |tell| work(&judged, &assessment, tell));
    }

    /// What is known now that other ways were looked for too.
    pub fn take(&mut self, further: Further) {
        let is_known = self.assessment.promise == further.promise
            && further.cures.iter().all(|(at, cure)| {
                self.assessment.findings.get(*at).is_none_or(|own| own.cure.as_ref() == Some(cure))
            });
        if !is_known {
            Arc::make_mut(&mut self.assessment).take(further);
        }
    }

    /// What is there of a slow part: older as long as it is of an earlier answer, or this answer itself is of one.
    pub fn shown_of<'a, T: Send + 'static>(&self, part: &'a SlowPart<T>) -> Option<Shown<'a, T>> {
        let shown = part.shown(&self.generation)?;
        Some(Shown { is_older: shown.is_older || self.stale, ..shown })
    }
}

fn drafted(document: &Document) -> Option<(Arc<Vehicle>, Option<Id>)> {
    document.draft().map(|draft| (Arc::clone(draft.car()), draft.aiming().cloned()))
}

/// A fault in the program must not take the person's work with it.
fn judged(assess: Assess, arrangement: &Arrangement) -> Option<Assessment> {
    caught(|| assess(arrangement)).ok()
}

#[cfg(test)]
mod tests {
    use std::path::Path;
    use std::sync::atomic::{AtomicBool, Ordering};
    use std::time::{Duration, Instant};

    use baywright_planner::edit::Edit;
    use baywright_planner::geometry::{DVec2, PlanPose};

    use super::*;

    fn fragile(arrangement: &Arrangement) -> Assessment {
        assert!(arrangement.parked.origin().x < 5_000.0, "a fault planted for this test");
        baywright_planner::assess(arrangement)
    }

    /// While the cabinet is drawn out of the way the trolley's letters stay what they were; let go, and undone, the list reads from A on.
    #[test]
    fn a_finding_keeps_its_letter_while_something_is_held() {
        let mut document = Document::open(Path::new("crowded-bay"), None).unwrap();
        let mut answer = Answer::of(&document, baywright_planner::assess).unwrap();
        let letters = |answer: &Answer| -> Vec<(String, String)> {
            let all = answer.assessment.findings.iter().enumerate();
            all.filter_map(|(i, own)| {
                Some((format!("{:?} {:?}", own.code(), own.subjects), answer.letter(i)?))
            })
            .collect()
        };
        let before = letters(&answer);
        let place = |x: f64, y: f64| Edit::Place {
            thing: "tool cabinet".into(),
            place: baywright_planner::model::Place {
                at: PlanPose::new(DVec2::new(x, y), 0.0),
                known: baywright_planner::model::Known::Taped,
            },
        };
        let first = before.iter().find(|own| own.0.contains("tool cabinet")).unwrap().clone();
        assert_eq!(first.1, "A");
        let was = document
            .layout()
            .bay
            .things
            .iter()
            .find(|own| own.id.as_str() == "tool cabinet")
            .unwrap()
            .place
            .at;
        let out = place(was.origin().x, was.origin().y + 400.0);
        document.preview(std::slice::from_ref(&out)).unwrap();
        answer.refresh(&document);
        let after = letters(&answer);
        assert!(after.len() < before.len(), "{after:?}");
        for own in &after {
            assert!(before.contains(own), "{own:?} of {before:?}");
        }
        let in_order = |answer: &Answer| {
            let all: Vec<String> = letters(answer).into_iter().map(|(_, letter)| letter).collect();
            let order: Vec<String> = (1..=all.len()).map(baywright_planner::words::letter).collect();
            assert_eq!(all, order);
        };
        document.settle(&out).unwrap();
        assert!(answer.refresh(&document));
        in_order(&answer);
        // As it was before, by the same letters.
        document.undo().unwrap();
        answer.refresh(&document);
        assert_eq!(letters(&answer), before);
        assert!(letters(&answer).contains(&first));
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

    /// The slow part is made up here; how it comes is what every real one does.
    #[test]
    fn a_slow_part_is_older_until_it_is_worked_out_anew() {
        let park = |x: f64| Edit::Park(PlanPose::new(DVec2::new(x, 3_000.0), 0.0));
        let mut document = Document::open(Path::new("crowded-bay"), None).unwrap();
        let mut answer = Answer::of(&document, baywright_planner::assess).unwrap();
        let wake: Wake = Arc::new(|| {});
        let mut part: SlowPart<f64> = SlowPart::default();
        let open = Arc::new(AtomicBool::new(false));
        let work_out = |answer: &Answer, part: &mut SlowPart<f64>| {
            let open = Arc::clone(&open);
            answer.work_out(part, ("test", 1), &wake, move |arrangement, _, tell| {
                while !tell.is_stopped() && !open.load(Ordering::Relaxed) {
                    std::thread::yield_now();
                }
                arrangement.parked.origin().x
            });
        };
        let end = |part: &mut SlowPart<f64>| {
            let start = Instant::now();
            while part.progress().is_some() && start.elapsed() < Duration::from_secs(60) {
                part.collect().unwrap();
                std::thread::yield_now();
            }
        };
        document.edit(&park(4_000.0)).unwrap();
        answer.refresh(&document);
        work_out(&answer, &mut part);
        assert_eq!(answer.shown_of(&part), None, "nothing is there yet");
        open.store(true, Ordering::Relaxed);
        end(&mut part);
        open.store(false, Ordering::Relaxed);
        assert_eq!(answer.shown_of(&part), Some(Shown { found: &4_000.0, is_older: false }));
        // Two changes: what was found stays meanwhile, and what is worked out of the first is never shown.
        for x in [4_100.0, 4_200.0] {
            document.edit(&park(x)).unwrap();
            answer.refresh(&document);
            work_out(&answer, &mut part);
            assert_eq!(answer.shown_of(&part), Some(Shown { found: &4_000.0, is_older: true }));
        }
        open.store(true, Ordering::Relaxed);
        end(&mut part);
        assert_eq!(answer.shown_of(&part), Some(Shown { found: &4_200.0, is_older: false }));
        // Asked again for the same answer, nothing is worked out.
        work_out(&answer, &mut part);
        assert_eq!(part.progress(), None);
    }
}
