//! What happened in this session, for whoever is asked for help: sentences of the program's own. What is copied for others names
//! no files and no people; the file that is kept on this machine names paths as the sentences do.

use std::collections::VecDeque;
use std::time::Instant;

use baywright_files::LogFile;

/// So many lines are kept.
const MOST: usize = 200;

/// The last things that happened.
#[derive(Debug)]
pub struct Log {
    start: Instant,
    lines: VecDeque<(u64, String)>,
    /// Where they are kept beyond the session, if they are.
    file: Option<LogFile>,
    /// The file says which program this is.
    is_headed: bool,
}

impl Default for Log {
    fn default() -> Self {
        Self { start: Instant::now(), lines: VecDeque::new(), file: None, is_headed: false }
    }
}

impl Log {
    /// From now on everything is kept in this file too. It is made when there is something to keep.
    pub fn keep_in(&mut self, file: LogFile) {
        self.file = Some(file);
    }

    /// Notes a sentence; for others paths in it are left out.
    pub fn push(&mut self, sentence: &str) {
        self.lines.push_back((self.start.elapsed().as_secs(), without_paths(sentence)));
        if self.lines.len() > MOST {
            self.lines.pop_front();
        }
        // A disk that refuses a line is not asked in every frame.
        if self.write_down(sentence).is_none() {
            self.file = None;
        }
    }

    fn write_down(&mut self, sentence: &str) -> Option<()> {
        let file = self.file.as_ref()?;
        if !self.is_headed {
            let [system, machine] = [std::env::consts::OS, std::env::consts::ARCH];
            file.add(&now(), &format!("baywright {} {system} {machine}", env!("CARGO_PKG_VERSION"))).ok()?;
            self.is_headed = true;
        }
        file.add(&now(), sentence).ok()
    }

    /// Everything that is kept in memory, a line each: seconds since the start, and what happened.
    pub fn text(&self) -> String {
        self.lines.iter().map(|(at, line)| format!("{at:>6} s  {line}\n")).collect()
    }
}

/// The time, to a second, in UTC: where somebody lives is nobody's business.
fn now() -> String {
    jiff::Timestamp::now().strftime("%Y-%m-%dT%H:%M:%SZ").to_string()
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
    #[test]
    fn the_file_tells_when_which_program_and_what() {
        let folder = std::env::temp_dir().join(format!("baywright-log-{}", std::process::id()));
        let mut log = Log::default();
        log.keep_in(LogFile::in_folder(folder.clone()));
        log.push("/a/b.ron: this file cannot be read here: permission is refused.");
        log.push("Second.");
        let text = std::fs::read_to_string(folder.join("log.txt")).unwrap();
        let lines: Vec<&str> = text.lines().collect();
        assert_eq!(lines.len(), 3, "{text}");
        assert!(lines[0].contains("baywright ") && lines[0].ends_with(std::env::consts::ARCH), "{text}");
        assert!(lines[1].ends_with("Z  /a/b.ron: this file cannot be read here: permission is refused."));
        assert!(lines[1].starts_with("20") && lines[2].ends_with("Z  Second."), "{text}");
        std::fs::remove_dir_all(folder).unwrap();
    }
}
