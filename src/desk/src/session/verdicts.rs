//! The verdicts of all arrangements of a bay, worked out in the background from a snapshot.

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::{Receiver, Sender, channel};

use baywright_files::Profile;
use baywright_planner::model::{Id, Layout};
use baywright_planner::{Verdict, judge};
use jiff::civil::Date;

use crate::session::document::{Document, made};

/// What is known of the arrangements so far.
#[derive(Debug, Default)]
pub(crate) struct Survey {
    /// Counts up with every start: what an older run still sends is dropped.
    generation: u64,
    /// The layout that the verdicts are of.
    of: Option<Arc<Layout>>,
    verdicts: Vec<(Id, Option<Verdict>)>,
    running: Option<Running>,
}

#[derive(Debug)]
struct Running {
    receive: Receiver<Told>,
    stop: Arc<AtomicBool>,
    all: usize,
}

#[derive(Debug)]
struct Told {
    generation: u64,
    arrangement: Id,
    verdict: Option<Verdict>,
}

/// Everything that the work needs, apart from the screen.
struct Work {
    layout: Arc<Layout>,
    cars: Vec<Profile>,
    today: Option<Date>,
    generation: u64,
    stop: Arc<AtomicBool>,
    send: Sender<Told>,
}

impl Survey {
    /// Looks at all arrangements of a document, unless that was done or is being done.
    pub fn start(&mut self, ctx: &egui::Context, document: &Document) {
        if self.of.as_ref().is_some_and(|of| Arc::ptr_eq(of, document.layout())) {
            return;
        }
        self.stop();
        self.generation += 1;
        self.of = Some(Arc::clone(document.layout()));
        self.verdicts.clear();
        let (send, receive) = channel();
        let stop = Arc::new(AtomicBool::new(false));
        let work = Work {
            layout: Arc::clone(document.layout()),
            cars: document.cars().to_vec(),
            today: document.today(),
            generation: self.generation,
            stop: Arc::clone(&stop),
            send,
        };
        let all = work.layout.arrangements.len();
        let ctx = ctx.clone();
        let started = std::thread::Builder::new().name("survey".into()).spawn(move || {
            work.run(&ctx);
        });
        if started.is_ok() {
            self.running = Some(Running { receive, stop, all });
        }
    }

    /// Stops looking; what is known stays.
    pub fn stop(&mut self) {
        if let Some(running) = self.running.take() {
            running.stop.store(true, Ordering::Relaxed);
            // What was not looked at can be asked for again.
            self.of = None;
        }
    }

    /// Another document: nothing is known of it.
    pub fn forget(&mut self) {
        self.stop();
        self.of = None;
        self.verdicts.clear();
    }

    /// Takes in what was worked out since the last frame.
    pub fn collect(&mut self) {
        let Some(running) = &self.running else { return };
        for told in running.receive.try_iter() {
            if told.generation == self.generation {
                self.verdicts.push((told.arrangement, told.verdict));
            }
        }
        if self.verdicts.len() >= running.all {
            self.running = None;
        }
    }

    /// The verdict of an arrangement, if it is known; a verdict of a layout that has changed since is not.
    pub fn verdict(&self, document: &Document, arrangement: &Id) -> Option<Verdict> {
        self.of.as_ref().filter(|of| Arc::ptr_eq(of, document.layout()))?;
        self.verdicts.iter().find(|(own, _)| own == arrangement)?.1
    }

    /// How many of how many were looked at, while it runs.
    pub fn progress(&self) -> Option<(usize, usize)> {
        self.running.as_ref().map(|running| (self.verdicts.len(), running.all))
    }
}

impl Work {
    fn run(self, ctx: &egui::Context) {
        for own in &self.layout.arrangements {
            if self.stop.load(Ordering::Relaxed) {
                return;
            }
            // One that cannot be made, or that brings the program's sums to a fall, has no verdict.
            let verdict = std::panic::catch_unwind(std::panic::AssertUnwindSafe(|| {
                made(&self.layout, &own.id, &self.cars, self.today)
                    .map(|arrangement| judge(&arrangement).verdict)
            }));
            let told = Told {
                generation: self.generation,
                arrangement: own.id.clone(),
                verdict: verdict.unwrap_or_default(),
            };
            if self.send.send(told).is_err() {
                return;
            }
            ctx.request_repaint();
        }
    }
}

#[cfg(test)]
mod tests {
    use std::path::Path;
    use std::time::{Duration, Instant};

    use baywright_planner::geometry::{DVec2, PlanPose};

    use super::*;
    use crate::session::edit::Edit;

    fn finish(survey: &mut Survey) {
        let start = Instant::now();
        while survey.progress().is_some() && start.elapsed() < Duration::from_secs(60) {
            survey.collect();
            std::thread::sleep(Duration::from_millis(1));
        }
    }

    #[test]
    fn all_arrangements_get_the_verdict_of_check() {
        let document = Document::open(Path::new("crowded-bay"), None).unwrap();
        let mut survey = Survey::default();
        survey.start(&egui::Context::default(), &document);
        finish(&mut survey);
        for own in &document.layout().arrangements {
            let arrangement = made(document.layout(), &own.id, document.cars(), None).unwrap();
            let expected = baywright_planner::assess(&arrangement).verdict;
            assert_eq!(survey.verdict(&document, &own.id), Some(expected), "{}", own.id);
        }
    }

    #[test]
    fn stale_verdicts_are_not_shown_and_stopping_stops() {
        let mut document = Document::open(Path::new("crowded-bay"), None).unwrap();
        let mut survey = Survey::default();
        let ctx = egui::Context::default();
        survey.start(&ctx, &document);
        finish(&mut survey);
        let shown = document.shown().clone();
        document.edit(&Edit::Park(PlanPose::new(DVec2::new(4_000.0, 3_000.0), 0.0))).unwrap();
        assert_eq!(survey.verdict(&document, &shown), None);
        survey.start(&ctx, &document);
        survey.stop();
        survey.collect();
        assert_eq!(survey.progress(), None);
        // Asked again, it begins anew.
        survey.start(&ctx, &document);
        finish(&mut survey);
        assert!(survey.verdict(&document, &shown).is_some());
    }
}
