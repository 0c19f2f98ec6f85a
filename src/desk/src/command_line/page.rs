//! The paper that an answer is printed on: how wide it is, and whether it takes colours.

use std::borrow::Cow;
use std::io::{self, IsTerminal, Write};

use baywright_planner::words::stand_together;
use baywright_planner::{Severity, Verdict};

use crate::command_line::plain::{Plain, spelled};

/// What standard output is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Paper {
    /// So many letters go on a line; `None`: lines are as long as they are.
    width: Option<usize>,
    coloured: bool,
}

impl Paper {
    /// A file or a pipe: whoever reads it breaks lines, and nothing in it steers a terminal.
    pub(crate) const ENDLESS: Self = Self { width: None, coloured: false };

    /// As wide as the terminal, if it is one; in colour unless `NO_COLOR` says otherwise (no-color.org: set and not empty) or
    /// the terminal says that it knows none.
    pub(crate) fn of_standard_output() -> Self {
        let out = io::stdout();
        Self::of(out.is_terminal(), || terminal_size::terminal_size_of(&out))
    }

    /// The same of standard error.
    pub(crate) fn of_standard_error() -> Self {
        let errors = io::stderr();
        Self::of(errors.is_terminal(), || terminal_size::terminal_size_of(&errors))
    }

    fn of(
        is_terminal: bool,
        size: impl FnOnce() -> Option<(terminal_size::Width, terminal_size::Height)>,
    ) -> Self {
        if !is_terminal {
            return Self::ENDLESS;
        }
        let set = |name: &str| std::env::var_os(name).filter(|value| !value.is_empty());
        Self {
            width: size().map(|(width, _)| usize::from(width.0)),
            coloured: set("NO_COLOR").is_none() && set("TERM").is_some_and(|term| term != "dumb"),
        }
    }
}

/// What a colour says beside the word that says the same.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Tone {
    /// Nothing.
    Plain,
    /// The aiming is stopped.
    Stops,
    /// Care is needed.
    Care,
    /// All is well.
    Ready,
}

impl From<Severity> for Tone {
    fn from(severity: Severity) -> Self {
        match severity {
            Severity::Stops => Self::Stops,
            Severity::Care => Self::Care,
            Severity::Note => Self::Plain,
        }
    }
}

impl From<Verdict> for Tone {
    fn from(verdict: Verdict) -> Self {
        match verdict {
            Verdict::NotReady => Self::Stops,
            Verdict::ReadyWithCare => Self::Care,
            Verdict::Ready => Self::Ready,
        }
    }
}

impl Tone {
    /// What turns it on (ECMA-48, "select graphic rendition": bold, then one of the eight colours).
    const fn code(self) -> &'static str {
        match self {
            Self::Plain => "",
            Self::Stops => "\u{1b}[1;31m",
            Self::Care => "\u{1b}[1;33m",
            Self::Ready => "\u{1b}[1;32m",
        }
    }
}

/// What turns every tone off.
const OFF: &str = "\u{1b}[0m";
/// However narrow a terminal is, so many letters stand beside the indent.
const LEAST_BESIDE: usize = 20;

/// A writer of answers. What is written past its own ways (data, drawings) is passed on as [`Plain`] does it.
pub(crate) struct Page<'a> {
    out: Plain<'a>,
    paper: Paper,
}

impl<'a> Page<'a> {
    /// Prints to `out`, on this paper.
    pub(crate) fn new(out: &'a mut dyn Write, paper: Paper) -> Self {
        Self { out: Plain::new(out), paper }
    }

    /// So many letters go on a line, if there is an end to it.
    pub(crate) const fn width(&self) -> Option<usize> {
        self.paper.width
    }

    /// Writes a file that is no text, as it is; `None` to a terminal, which it would steer.
    pub(crate) fn file(&mut self, bytes: &[u8]) -> Option<io::Result<()>> {
        self.paper.width.is_none().then(|| self.out.raw(bytes))
    }

    /// A text of several lines; what of a line does not go on it stands under its beginning.
    pub(crate) fn lines(&mut self, text: &str) -> io::Result<()> {
        for line in text.lines() {
            let rest = line.trim_start_matches(' ');
            let (begin, rest) = line.split_at(line.len() - rest.len());
            self.entry(begin, rest)?;
        }
        Ok(())
    }

    /// One entry: what it begins with, and its text, whose further lines stand under the first.
    pub(crate) fn entry(&mut self, begin: &str, text: &str) -> io::Result<()> {
        self.toned(begin, "", Tone::Plain, text)
    }

    /// The same with a part of the text's first line in a tone.
    pub(crate) fn toned(&mut self, begin: &str, part: &str, tone: Tone, text: &str) -> io::Result<()> {
        let (text, part) = (spelled(text), spelled(part));
        let beside =
            self.paper.width.map(|width| width.saturating_sub(begin.chars().count()).max(LEAST_BESIDE));
        for (row, line) in rows(&text, beside).into_iter().enumerate() {
            match row {
                0 => self.out.write_all(begin.as_bytes())?,
                _ => self.out.write_all(" ".repeat(begin.chars().count()).as_bytes())?,
            }
            let toned = row == 0 && self.paper.coloured && tone != Tone::Plain && !part.is_empty();
            match line.split_once(&*part).filter(|_| toned) {
                Some((before, after)) => {
                    self.out.write_all(before.as_bytes())?;
                    self.out.steer(tone.code())?;
                    self.out.write_all(part.as_bytes())?;
                    self.out.steer(OFF)?;
                    self.out.write_all(after.as_bytes())?;
                }
                None => self.out.write_all(line.as_bytes())?,
            }
            self.out.write_all(b"\n")?;
        }
        Ok(())
    }
}

/// A text in rows of at most so many letters, broken at spaces but not within a figure; what is longer has a row of its own.
fn rows(text: &str, most: Option<usize>) -> Vec<Cow<'_, str>> {
    let Some(most) = most else { return vec![Cow::Borrowed(text)] };
    let mut rows: Vec<String> = vec![String::new()];
    let mut long = 0;
    let mut parts: Vec<String> = Vec::new();
    for word in text.split(' ') {
        match parts.last_mut() {
            Some(last) if stand_together(last, word) => {
                last.push(' ');
                last.push_str(word);
            }
            _ => parts.push(word.to_owned()),
        }
    }
    for word in parts {
        let letters = word.chars().count();
        match rows.last_mut() {
            Some(row) if row.is_empty() || long + 1 + letters <= most => {
                if !row.is_empty() {
                    row.push(' ');
                    long += 1;
                }
                row.push_str(&word);
                long += letters;
            }
            _ => {
                rows.push(word);
                long = letters;
            }
        }
    }
    rows.into_iter().map(Cow::Owned).collect()
}

impl Write for Page<'_> {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        self.out.write(bytes)
    }

    fn flush(&mut self) -> io::Result<()> {
        self.out.flush()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn printed(paper: Paper, print: impl FnOnce(&mut Page<'_>) -> io::Result<()>) -> String {
        let mut out = Vec::new();
        print(&mut Page::new(&mut out, paper)).unwrap();
        String::from_utf8(out).unwrap()
    }

    const NARROW: Paper = Paper { width: Some(32), coloured: true };

    #[test]
    fn lines_are_as_wide_as_the_paper_and_stand_under_their_beginning() {
        let text = "Trolley is in the way of the plate: 1\u{202f}440 mm hidden, a-word-that-is-longer-than-the-line ends.";
        let said = printed(NARROW, |page| page.entry("   A. ", text));
        let expected = "   A. Trolley is in the way of\n      the plate: 1\u{202f}440 mm\n      hidden,\n      \
                        a-word-that-is-longer-than-the-line\n      ends.\n";
        assert_eq!(said, expected);
        assert_eq!(printed(Paper::ENDLESS, |page| page.entry("   A. ", text)), format!("   A. {text}\n"));
        // However narrow it is.
        let said =
            printed(Paper { width: Some(3), coloured: false }, |page| page.entry("      ", "one two three"));
        assert_eq!(said, "      one two three\n");
    }

    #[test]
    fn lines_of_a_text_keep_their_indent() {
        let text =
            "error: nothing of that name is there at all\n\n  tip: a similar argument exists: '--json'";
        let said = printed(NARROW, |page| page.lines(text));
        let expected =
            "error: nothing of that name is\nthere at all\n\n  tip: a similar argument\n  exists: '--json'\n";
        assert_eq!(said, expected);
        assert_eq!(printed(Paper::ENDLESS, |page| page.lines(text)), format!("{text}\n"));
    }

    #[test]
    fn colours_are_the_programs_own_and_only_where_they_are_taken() {
        let print = |page: &mut Page<'_>| page.toned("  ", "Not ready", Tone::Stops, "Not ready: \u{1b}[2J");
        let coloured = printed(NARROW, print);
        assert_eq!(coloured, "  \u{1b}[1;31mNot ready\u{1b}[0m: \\u001b[2J\n");
        let plain = printed(Paper { coloured: false, ..NARROW }, print);
        assert_eq!(plain, "  Not ready: \\u001b[2J\n");
        assert_eq!(printed(Paper::ENDLESS, print), plain);
        // What was toned is what it is without the tones.
        assert_eq!(coloured.replace("\u{1b}[1;31m", "").replace(OFF, ""), plain);
    }
}
