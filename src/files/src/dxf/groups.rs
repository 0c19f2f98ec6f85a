//! The lowest layer of a DXF file: groups of a code and a value, a line each.

use baywright_planner::model::fault::{DrawingTrouble, Quote};

/// A longer text of a value is cut, in letters: names and notes are not so long.
const LONGEST_TEXT: usize = 250;

/// One group.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Group<'a> {
    /// What the value is.
    pub code: i32,
    /// The value as it stands there, without its end of line.
    pub value: &'a [u8],
    /// The line of the code, from 1.
    pub line: u32,
}

impl Group<'_> {
    /// Whether it is this code with this word.
    pub fn is(&self, code: i32, word: &[u8]) -> bool {
        self.code == code && self.value.trim_ascii() == word
    }

    /// Its value as a number that is one; `None` for anything else.
    pub fn number(&self) -> Option<f64> {
        let text = std::str::from_utf8(self.value.trim_ascii()).ok()?;
        text.parse().ok().filter(|number: &f64| number.is_finite())
    }

    /// Its value as a whole number.
    pub fn whole(&self) -> Option<i64> {
        std::str::from_utf8(self.value.trim_ascii()).ok()?.parse().ok()
    }
}

/// The groups of a file, in their order.
#[derive(Clone, Debug)]
pub struct Groups<'a> {
    rest: &'a [u8],
    line: u32,
}

impl<'a> Groups<'a> {
    pub const fn of(bytes: &'a [u8]) -> Self {
        Self { rest: bytes, line: 0 }
    }

    /// The next group that is no comment.
    ///
    /// # Errors
    /// No code stands where one should, or the file ends before its end; with the line.
    pub fn read(&mut self) -> Result<Group<'a>, (u32, DrawingTrouble)> {
        const COMMENT: i32 = 999;
        loop {
            let code = self.next_line()?;
            let line = self.line;
            let number = std::str::from_utf8(code.trim_ascii()).ok().and_then(|text| text.parse().ok());
            let Some(code) = number else {
                return Err((line, DrawingTrouble::NoCode(Quote::of(&decoded(code)))));
            };
            let value = self.next_line()?;
            if code != COMMENT {
                return Ok(Group { code, value, line });
            }
        }
    }

    fn next_line(&mut self) -> Result<&'a [u8], (u32, DrawingTrouble)> {
        if self.rest.is_empty() {
            return Err((self.line.max(1), DrawingTrouble::Cut));
        }
        let end = self.rest.iter().position(|&byte| byte == b'\n').unwrap_or(self.rest.len());
        let (line, rest) = self.rest.split_at(end);
        self.rest = rest.get(1..).unwrap_or_default();
        self.line = self.line.saturating_add(1);
        Ok(line.strip_suffix(b"\r").unwrap_or(line))
    }
}

/// A text: UTF-8, as files from release 2007 on have it, else letter by letter as Western systems did before; letters that are
/// written as their code are letters again, control characters blanks.
pub fn decoded(value: &[u8]) -> String {
    let text = match std::str::from_utf8(value) {
        Ok(text) => text.chars().take(LONGEST_TEXT * 7).collect(),
        Err(_) => value.iter().take(LONGEST_TEXT * 7).map(|&byte| char::from(byte)).collect::<String>(),
    };
    let mut out = String::with_capacity(text.len());
    let mut rest = text.as_str();
    while let Some(letter) = rest.chars().next() {
        let own = coded(rest).or_else(|| short(rest));
        let (letter, length) = own.unwrap_or((letter, letter.len_utf8()));
        out.push(if letter.is_control() { ' ' } else { letter });
        rest = rest.get(length..).unwrap_or_default();
    }
    let out: String = out.chars().take(LONGEST_TEXT).collect();
    out.trim().to_owned()
}

/// The letter that a text begins with as its code, and how many bytes that takes.
fn coded(text: &str) -> Option<(char, usize)> {
    let digits = text.strip_prefix("\\U+")?.get(..4)?;
    let number = u32::from_str_radix(digits, 16).ok()?;
    Some((char::from_u32(number)?, 7))
}

/// The signs that have a short form in texts.
fn short(text: &str) -> Option<(char, usize)> {
    let letter = match text.get(..3)?.to_ascii_lowercase().as_str() {
        "%%d" => '\u{b0}',
        "%%p" => '\u{b1}',
        "%%c" => '\u{2300}',
        _ => return None,
    };
    Some((letter, 3))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn groups_are_read_with_their_lines_whatever_ends_them() {
        let mut groups = Groups::of(b"999\nmade by hand\r\n  0\r\nSECTION\r\n2\nHEADER\n10\n 1.5 \n70\n");
        let read: Vec<_> = std::iter::from_fn(|| groups.read().ok()).collect();
        assert_eq!(
            read.iter().map(|own| (own.code, own.line)).collect::<Vec<_>>(),
            [(0, 3), (2, 5), (10, 7)]
        );
        assert!(read[0].is(0, b"SECTION") && read[2].number() == Some(1.5));
        assert_eq!(groups.read(), Err((9, DrawingTrouble::Cut)));
        assert!(matches!(Groups::of(b"x\ny\n").read(), Err((1, DrawingTrouble::NoCode(_)))));
        for no_number in [&b"inf"[..], b"nan", b"1,5", b"", b"1e999"] {
            assert_eq!(Group { code: 10, value: no_number, line: 1 }.number(), None);
        }
    }

    #[test]
    fn letters_of_every_kind_of_file_are_read() {
        assert_eq!(decoded("W\u{e4}nde".as_bytes()), "W\u{e4}nde");
        assert_eq!(decoded(b"W\xe4nde"), "W\u{e4}nde");
        assert_eq!(decoded(b" W\\U+00E4nde\t1 \\U+zz %%d"), "W\u{e4}nde 1 \\U+zz \u{b0}");
        assert_eq!(decoded(&[b'a'; 9_999]).len(), LONGEST_TEXT);
    }
}
