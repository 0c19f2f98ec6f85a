//! What happened in this session, for whoever is asked for help: sentences of the program's own, no names of files or
//! people.

use std::collections::VecDeque;
use std::time::Instant;

/// So many lines are kept.
const MOST: usize = 200;

/// The last things that happened.
#[derive(Debug)]
pub struct Log {
    start: Instant,
    lines: VecDeque<(u64, String)>,
}

impl Default for Log {
    fn default() -> Self {
        Self { start: Instant::now(), lines: VecDeque::new() }
    }
}

impl Log {
    /// Notes a sentence; paths in it are left out.
    pub fn push(&mut self, sentence: &str) {
        self.lines.push_back((self.start.elapsed().as_secs(), without_paths(sentence)));
        if self.lines.len() > MOST {
            self.lines.pop_front();
        }
    }

    /// Everything that is kept, a line each: seconds since the start, and what happened.
    pub fn text(&self) -> String {
        self.lines.iter().map(|(at, line)| format!("{at:>6} s  {line}\n")).collect()
    }
}

/// A path tells who someone is: each word that is one becomes "(path)"; so does what stands before ".ron".
fn without_paths(sentence: &str) -> String {
    let is_path = |word: &str| word.contains(['/', '\\']) || word.contains(".ron");
    let mut out: Vec<&str> = Vec::new();
    for word in sentence.split(' ') {
        let word = if is_path(word) { "(path)" } else { word };
        if word != "(path)" || out.last() != Some(&"(path)") {
            out.push(word);
        }
    }
    out.join(" ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nobody_is_named_and_it_is_bounded() {
        let mut log = Log::default();
        log.push("/home/somebody/bays/mine.ron: this file cannot be written: the disk is full");
        assert!(
            log.text().contains("(path) this file cannot be written: the disk is full"),
            "{}",
            log.text()
        );
        assert!(!log.text().contains("somebody"));
        for i in 0..1_000 {
            log.push(&i.to_string());
        }
        assert_eq!(log.text().lines().count(), MOST);
    }
}
