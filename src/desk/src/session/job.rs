//! Work off the frame: in a thread of its own, on a snapshot, so that no frame waits for it.
//!
//! What must not be lost is no job: the [`keeper`](super::keeper) has every record written in its turn, where a job that is
//! started anew drops what went before.

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::{Receiver, Sender, TryRecvError, channel};

use crate::session::caught::caught;

/// Wakes whoever waits for news, as a screen that rests; called in the job's thread.
pub type Wake = Arc<dyn Fn() + Send + Sync>;

/// How far a job is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Progress {
    /// So many steps are done.
    pub done: usize,
    /// Of so many.
    pub all: usize,
}

/// What comes of a job.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum News<T> {
    /// The result so far.
    SoFar(T),
    /// The result.
    Done(T),
    /// It met a fault of the program, or could not be started: in what words.
    Failed(String),
}

/// What a job's work is given: whether it is still wanted, and a way to tell how far it is.
pub struct Tell<T> {
    stopped: Arc<AtomicBool>,
    send: Sender<Told<T>>,
    wake: Wake,
}

enum Told<T> {
    Steps(usize),
    News(News<T>),
}

impl<T> Tell<T> {
    /// Whether nobody waits for it any more. Work of many steps asks before each: only it can end itself.
    pub fn is_stopped(&self) -> bool {
        self.stopped.load(Ordering::Relaxed)
    }

    /// So many of the steps are done.
    pub fn steps(&self, done: usize) {
        self.say(Told::Steps(done));
    }

    /// The result so far.
    pub fn so_far(&self, found: T) {
        self.say(Told::News(News::SoFar(found)));
    }

    fn say(&self, told: Told<T>) {
        // Nobody listens any more after another start, or at the program's end.
        if self.send.send(told).is_ok() {
            (self.wake)();
        }
    }
}

/// One kind of work, done once at a time. A new start stops the run before, and nothing that this one still tells is heard:
/// each run is a generation with a way of its own to tell.
#[derive(Debug)]
pub struct Job<T> {
    running: Option<Running<T>>,
}

#[derive(Debug)]
struct Running<T> {
    told: Receiver<Told<T>>,
    stopped: Arc<AtomicBool>,
    progress: Progress,
}

impl<T> Default for Job<T> {
    fn default() -> Self {
        Self { running: None }
    }
}

impl<T> Drop for Running<T> {
    fn drop(&mut self) {
        self.stopped.store(true, Ordering::Relaxed);
    }
}

impl<T: Send + 'static> Job<T> {
    /// Starts work of so many steps in a thread of this name; what ran before is stopped.
    pub fn start(
        &mut self,
        name: &str,
        steps: usize,
        wake: &Wake,
        work: impl FnOnce(&Tell<T>) -> T + Send + 'static,
    ) {
        self.stop();
        let (send, told) = channel();
        let stopped = Arc::new(AtomicBool::new(false));
        let tell = Tell { stopped: Arc::clone(&stopped), send: send.clone(), wake: Arc::clone(wake) };
        let started = std::thread::Builder::new().name(name.to_owned()).spawn(move || {
            let end = caught(|| work(&tell)).map_or_else(News::Failed, News::Done);
            tell.say(Told::News(end));
        });
        if let Err(why) = started {
            // Told like any other end; it is heard, since the other side of this is kept below.
            let _ = send.send(Told::News(News::Failed(why.to_string())));
        }
        self.running = Some(Running { told, stopped, progress: Progress { done: 0, all: steps } });
    }

    /// Stops it: nothing more is heard of this run.
    pub fn stop(&mut self) {
        self.running = None;
    }

    /// Whether it runs.
    pub const fn is_running(&self) -> bool {
        self.running.is_some()
    }

    /// How far it is, while it runs.
    pub fn progress(&self) -> Option<Progress> {
        self.running.as_ref().map(|running| running.progress)
    }

    /// What came since it was asked last, in its order.
    pub fn news(&mut self) -> Vec<News<T>> {
        let mut news = Vec::new();
        let Some(running) = &mut self.running else { return news };
        loop {
            match running.told.try_recv() {
                Ok(Told::Steps(done)) => running.progress.done = done,
                Ok(Told::News(News::SoFar(found))) => news.push(News::SoFar(found)),
                Ok(Told::News(end)) => {
                    news.push(end);
                    break;
                }
                Err(TryRecvError::Empty) => return news,
                Err(TryRecvError::Disconnected) => break,
            }
        }
        self.running = None;
        news
    }
}

#[cfg(test)]
mod tests {
    use std::sync::atomic::AtomicUsize;
    use std::time::{Duration, Instant};

    use super::*;

    fn all_news<T: Send + 'static>(job: &mut Job<T>) -> Vec<News<T>> {
        let start = Instant::now();
        let mut news = Vec::new();
        while job.is_running() && start.elapsed() < Duration::from_secs(60) {
            news.extend(job.news());
            std::thread::yield_now();
        }
        news
    }

    #[test]
    fn parts_and_the_end_come_in_their_order_and_wake() {
        let woken = Arc::new(AtomicUsize::new(0));
        let count = Arc::clone(&woken);
        let wake: Wake = Arc::new(move || {
            count.fetch_add(1, Ordering::Relaxed);
        });
        let mut job = Job::default();
        let (go, wait) = channel::<()>();
        job.start("test", 2, &wake, move |tell| {
            tell.steps(1);
            tell.so_far(1);
            wait.recv().unwrap();
            2
        });
        let start = Instant::now();
        let mut news = Vec::new();
        while news.is_empty() && start.elapsed() < Duration::from_secs(60) {
            news = job.news();
        }
        assert_eq!(news, [News::SoFar(1)]);
        assert_eq!(job.progress(), Some(Progress { done: 1, all: 2 }));
        go.send(()).unwrap();
        assert_eq!(all_news(&mut job), [News::Done(2)]);
        assert_eq!(job.progress(), None);
        assert_eq!(woken.load(Ordering::Relaxed), 3);
    }

    #[test]
    fn a_fault_is_said_and_a_job_that_was_stopped_is_not_heard() {
        let wake: Wake = Arc::new(|| {});
        let mut job = Job::default();
        job.start("test", 1, &wake, |_| -> u8 { panic!("planted") });
        assert_eq!(all_news(&mut job), [News::Failed("planted".to_owned())]);
        // The first run goes on until it sees that it was stopped; only the second is heard.
        let (ended, end) = channel();
        job.start("test", 1, &wake, move |tell| {
            while !tell.is_stopped() {
                std::thread::yield_now();
            }
            ended.send(()).unwrap();
            1
        });
        job.start("test", 1, &wake, |_| 2);
        assert_eq!(all_news(&mut job), [News::Done(2)]);
        end.recv_timeout(Duration::from_secs(60)).unwrap();
    }
}
