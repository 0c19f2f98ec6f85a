//! What is worked out off the frame and shown as soon as it is there: until then, what was found last, marked as older.

use crate::session::job::{Job, News, Progress, Tell, Wake};

/// Something worked out by a job, and of what; `K` tells one thing that it can be of from another.
#[derive(Debug)]
pub struct Slow<K, T> {
    job: Job<T>,
    /// What it is being worked out of, or was.
    asked: Option<K>,
    found: Option<(K, T)>,
}

/// What is there to be shown.
#[derive(Debug, PartialEq, Eq)]
pub struct Shown<'a, T> {
    /// What was found.
    pub found: &'a T,
    /// Whether it is of something else than what is there now.
    pub is_older: bool,
}

impl<K, T> Default for Slow<K, T> {
    fn default() -> Self {
        Self { job: Job::default(), asked: None, found: None }
    }
}

impl<K: Clone + PartialEq, T: Send + 'static> Slow<K, T> {
    /// Has it worked out of something, unless it is or is being: in a thread of this name, in so many steps. What was found
    /// of something else stays there, older, until something comes of this.
    pub fn ask(
        &mut self,
        of: K,
        (name, steps): (&str, usize),
        wake: &Wake,
        work: impl FnOnce(&Tell<T>) -> T + Send + 'static,
    ) {
        if self.asked.as_ref() != Some(&of) {
            self.asked = Some(of);
            self.job.start(name, steps, wake, work);
        }
    }

    /// Whether it is being worked out of something, or was and failed.
    pub fn is_asked(&self, of: &K) -> bool {
        self.asked.as_ref() == Some(of)
    }

    /// Takes in what came since the last frame.
    ///
    /// # Errors
    /// The work met a fault of the program: in what words. It is not tried again of the same.
    pub fn collect(&mut self) -> Result<(), String> {
        for news in self.job.news() {
            match (news, &self.asked) {
                (News::SoFar(found) | News::Done(found), Some(of)) => self.found = Some((of.clone(), found)),
                (News::Failed(words), _) => return Err(words),
                _ => {}
            }
        }
        Ok(())
    }

    /// What is there, where it should be of `now`.
    pub fn shown(&self, now: &K) -> Option<Shown<'_, T>> {
        self.found.as_ref().map(|(of, found)| Shown { found, is_older: of != now })
    }

    /// How far it is, while it is being worked out.
    pub fn progress(&self) -> Option<Progress> {
        self.job.progress()
    }

    /// Stops working; what was found stays, and the rest can be asked for again.
    pub fn stop(&mut self) {
        if self.job.is_running() {
            self.job.stop();
            self.asked = None;
        }
    }

    /// Has the same worked out once more when it is asked for; what was found stays until then.
    pub fn ask_again(&mut self) {
        self.asked = None;
    }

    /// Nothing is known any more.
    pub fn forget(&mut self) {
        *self = Self::default();
    }
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;
    use std::time::{Duration, Instant};

    use super::*;

    fn end(slow: &mut Slow<u8, u8>) -> Result<(), String> {
        let start = Instant::now();
        while slow.progress().is_some() && start.elapsed() < Duration::from_secs(60) {
            slow.collect()?;
            std::thread::yield_now();
        }
        Ok(())
    }

    #[test]
    fn what_was_found_stays_until_there_is_something_newer() {
        let wake: Wake = Arc::new(|| {});
        let how = ("test", 1);
        let mut slow = Slow::default();
        slow.ask(1, how, &wake, |_| 10);
        assert_eq!(end(&mut slow), Ok(()));
        assert_eq!(slow.shown(&1), Some(Shown { found: &10, is_older: false }));
        // A fault is told, once, and not tried again of the same.
        slow.ask(2, how, &wake, |_| panic!("planted"));
        assert_eq!(end(&mut slow), Err("planted".to_owned()));
        assert_eq!(slow.collect(), Ok(()));
        slow.ask(2, how, &wake, |_| 20);
        assert_eq!(slow.progress(), None);
        assert_eq!(slow.shown(&2), Some(Shown { found: &10, is_older: true }));
        // What was stopped can be asked for again.
        slow.ask(3, how, &wake, |tell| {
            while !tell.is_stopped() {
                std::thread::yield_now();
            }
            31
        });
        slow.stop();
        assert_eq!((slow.progress(), slow.shown(&3)), (None, Some(Shown { found: &10, is_older: true })));
        slow.ask(3, how, &wake, |_| 30);
        assert_eq!(end(&mut slow), Ok(()));
        assert_eq!(slow.shown(&3), Some(Shown { found: &30, is_older: false }));
        slow.forget();
        assert_eq!(slow.shown(&3), None);
    }
}
