//! What goes to a terminal: names from files, paths and arguments may hold characters that steer it, or that turn the line
//! they stand on. They arrive as `\u001b`, which is also how JSON writes them.

use std::borrow::Cow;
use std::io::{self, Write};

/// A writer that passes text on with such characters spelled out.
pub(crate) struct Plain<'a> {
    out: &'a mut dyn Write,
    /// The beginning of a letter whose other bytes come with the next call.
    begun: Vec<u8>,
}

impl<'a> Plain<'a> {
    /// Passes on to `out`.
    pub(crate) fn new(out: &'a mut dyn Write) -> Self {
        Self { out, begun: Vec::new() }
    }

    fn pass(&mut self, text: &str) -> io::Result<()> {
        self.out.write_all(spelled(text).as_bytes())
    }

    /// Passes on a file that is no text, as it is: never to a terminal.
    pub(crate) fn raw(&mut self, bytes: &[u8]) -> io::Result<()> {
        self.out.write_all(bytes)?;
        self.out.flush()
    }

    /// Passes on what is to steer: never anything but the program's own constants.
    pub(crate) fn steer(&mut self, code: &'static str) -> io::Result<()> {
        self.out.write_all(code.as_bytes())
    }
}

impl Write for Plain<'_> {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        let all = [std::mem::take(&mut self.begun).as_slice(), bytes].concat();
        let mut rest = all.as_slice();
        loop {
            match std::str::from_utf8(rest) {
                Ok(text) => {
                    self.pass(text)?;
                    break;
                }
                Err(error) => {
                    let (good, from) = rest.split_at(error.valid_up_to());
                    self.pass(std::str::from_utf8(good).unwrap_or_default())?;
                    let Some(bad) = error.error_len() else {
                        self.begun = from.to_vec();
                        break;
                    };
                    self.pass("\u{fffd}")?;
                    rest = from.get(bad..).unwrap_or_default();
                }
            }
        }
        Ok(bytes.len())
    }

    fn flush(&mut self) -> io::Result<()> {
        self.out.flush()
    }
}

/// A text with such characters spelled out.
pub(crate) fn spelled(text: &str) -> Cow<'_, str> {
    if !text.contains(steers) {
        return Cow::Borrowed(text);
    }
    let mut out = String::new();
    for c in text.chars() {
        if steers(c) {
            out += &format!("\\u{:04x}", u32::from(c));
        } else {
            out.push(c);
        }
    }
    Cow::Owned(out)
}

/// Whether a character steers a terminal or turns its line: controls but the line's end and the tab, and the controls of the
/// direction of writing with the separators of lines and paragraphs (Unicode Standard, UAX #9).
fn steers(c: char) -> bool {
    match c {
        '\n' | '\t' => false,
        '\u{61c}' | '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}' => true,
        '\u{2028}' | '\u{2029}' => true,
        _ => c.is_control(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_steers_a_terminal_is_spelled_out() {
        let mut out = Vec::new();
        let mut plain = Plain::new(&mut out);
        write!(plain, "a\u{1b}[2Jb\u{9b}c\u{202e}d\r\n\té – 名").unwrap();
        // A letter in two parts, and bytes that are no text.
        for part in [&[0xc3][..], &[0xa9], &[0xff, b'!'], &[0xe2, 0x80], &[0xae]] {
            plain.write_all(part).unwrap();
        }
        let said = String::from_utf8(out).unwrap();
        assert_eq!(said, "a\\u001b[2Jb\\u009bc\\u202ed\\u000d\n\té – 名é\u{fffd}!\\u202e");
    }

    #[test]
    fn an_answer_as_data_means_the_same() {
        let data = serde_json::json!({ "name": "a\u{202e}b\u{7f}\u{1b}" });
        let mut out = Vec::new();
        serde_json::to_writer(Plain::new(&mut out), &data).unwrap();
        assert!(out.is_ascii(), "{}", String::from_utf8_lossy(&out));
        assert_eq!(serde_json::from_slice::<serde_json::Value>(&out).unwrap(), data);
    }
}
