//! Where in a text a field stands: a small walker over text that the reader has already accepted.

/// The line and column, both from 1, of a byte offset; columns count characters.
pub fn line_and_column(text: &str, offset: usize) -> (u32, u32) {
    let before = text.get(..offset).unwrap_or(text);
    let line = 1 + before.matches('\n').count();
    let column = 1 + before.rsplit('\n').next().unwrap_or_default().chars().count();
    // A file is far smaller than what a u32 counts.
    (u32::try_from(line).unwrap_or(u32::MAX), u32::try_from(column).unwrap_or(u32::MAX))
}

/// The byte offset of a line and column as above.
pub fn offset(text: &str, line: usize, column: usize) -> usize {
    let start: usize = text.split_inclusive('\n').take(line.saturating_sub(1)).map(str::len).sum();
    let rest = text.get(start..).unwrap_or_default();
    start + rest.chars().take(column.saturating_sub(1)).map(char::len_utf8).sum::<usize>()
}

/// The line and column of the value of a field such as `sensors[0].at_mm`, or of the deepest part of its path that is
/// there.
pub fn find(text: &str, path: &str) -> Option<(u32, u32)> {
    deepest_offset(text, path).map(|offset| line_and_column(text, offset))
}

/// The byte offset of the value of a field, or of the deepest part of its path that is there.
pub fn deepest_offset(text: &str, path: &str) -> Option<usize> {
    walk(text, path).map(|(offset, _)| offset)
}

/// The text of the value of a field, if exactly that field is there: for a short value, up to the next delimiter.
pub fn value<'t>(text: &'t str, path: &str) -> Option<&'t str> {
    let (offset, whole) = walk(text, path)?;
    let rest = text.get(offset..)?;
    let end = rest.find([',', ')', ']', '\n']).unwrap_or(rest.len());
    whole.then(|| rest.get(..end).map(str::trim)).flatten()
}

/// Whether the text has a comment.
pub fn has_comment(text: &str) -> bool {
    let mut walker = Walker { text, at: 0 };
    while walker.at < text.len() {
        if walker.comment() {
            return true;
        }
        walker.token();
    }
    false
}

/// The first text in double quotes that starts before a place and does not end on its own line. Names stand on one
/// line, so its closing quote is probably missing, and every later quote is taken for the wrong end of a text.
pub fn unclosed_text(text: &str, before: usize) -> Option<std::ops::Range<usize>> {
    let mut walker = Walker { text, at: 0 };
    while walker.at < text.len().min(before) {
        let start = walker.at;
        let is_text = walker.peek() == Some('"');
        walker.token();
        let whole = text.get(start..walker.at).unwrap_or_default();
        if is_text && whole.contains('\n') {
            return Some(start..walker.at);
        }
    }
    None
}

/// One step of a path.
#[derive(Debug)]
enum Step<'p> {
    Field(&'p str),
    Entry(usize),
}

fn steps(path: &str) -> Vec<Step<'_>> {
    let mut steps = Vec::new();
    for part in path.split('.') {
        let mut pieces = part.split('[');
        if let Some(name) = pieces.next().filter(|n| !n.is_empty()) {
            steps.push(Step::Field(name));
        }
        steps.extend(pieces.filter_map(|p| p.trim_end_matches(']').parse().ok()).map(Step::Entry));
    }
    steps
}

/// Walks down the path; the offset reached, and whether the whole path was there.
fn walk(text: &str, path: &str) -> Option<(usize, bool)> {
    let mut walker = Walker { text, at: 0 };
    walker.blanks();
    if walker.rest().is_empty() {
        return None;
    }
    let mut reached = walker.at;
    for step in steps(path) {
        if !walker.descend(&step) {
            return Some((reached, false));
        }
        reached = walker.at;
    }
    Some((reached, true))
}

struct Walker<'t> {
    text: &'t str,
    at: usize,
}

impl<'t> Walker<'t> {
    fn rest(&self) -> &'t str {
        self.text.get(self.at..).unwrap_or_default()
    }

    fn peek(&self) -> Option<char> {
        self.rest().chars().next()
    }

    fn eat(&mut self, c: char) -> bool {
        let there = self.peek() == Some(c);
        if there {
            self.at += c.len_utf8();
        }
        there
    }

    /// Past a comment, if one starts here.
    fn comment(&mut self) -> bool {
        let rest = self.rest();
        if rest.starts_with("//") {
            self.at += rest.find('\n').unwrap_or(rest.len());
            return true;
        }
        if !rest.starts_with("/*") {
            return false;
        }
        let mut depth = 0_usize;
        loop {
            let rest = self.rest();
            if rest.starts_with("/*") {
                depth += 1;
                self.at += 2;
            } else if rest.starts_with("*/") {
                depth = depth.saturating_sub(1);
                self.at += 2;
                if depth == 0 {
                    return true;
                }
            } else if let Some(c) = rest.chars().next() {
                self.at += c.len_utf8();
            } else {
                return true;
            }
        }
    }

    /// Past blanks and comments.
    fn blanks(&mut self) {
        loop {
            let rest = self.rest();
            self.at += rest.len() - rest.trim_start().len();
            if !self.comment() {
                return;
            }
        }
    }

    fn word(&mut self) -> &'t str {
        let rest = self.rest();
        let end = rest.find(|c: char| !(c.is_alphanumeric() || c == '_')).unwrap_or(rest.len());
        self.at += end;
        rest.get(..end).unwrap_or_default()
    }

    /// Past one token: a text, a comment, or a single character.
    fn token(&mut self) {
        if self.comment() {
            return;
        }
        let rest = self.rest();
        if let Some(raw) = rest.strip_prefix('r')
            && raw.trim_start_matches('#').starts_with('"')
        {
            let hashes = raw.len() - raw.trim_start_matches('#').len();
            let close = format!("\"{}", "#".repeat(hashes));
            let body = hashes + 2;
            let end =
                rest.get(body..).and_then(|b| b.find(&close)).map_or(rest.len(), |i| body + i + close.len());
            self.at += end;
            return;
        }
        if self.eat('"') {
            while let Some(c) = self.peek() {
                self.at += c.len_utf8();
                match c {
                    '\\' => self.at += self.peek().map_or(0, char::len_utf8),
                    '"' => return,
                    _ => {}
                }
            }
            return;
        }
        // A word at once, so that an `r` inside one is not taken for the start of a raw text.
        if self.peek().is_some_and(|c| c.is_alphanumeric() || c == '_') {
            self.word();
        } else {
            self.at += self.peek().map_or(0, char::len_utf8);
        }
    }

    /// Past a whole value, to the comma or bracket after it.
    fn value(&mut self) {
        let mut depth = 0_usize;
        while let Some(c) = self.peek() {
            match c {
                '(' | '[' | '{' => depth += 1,
                ')' | ']' | '}' if depth == 0 => return,
                ')' | ']' | '}' => depth -= 1,
                ',' if depth == 0 => return,
                _ => {}
            }
            self.token();
        }
    }

    /// From the start of a value to the start of one of its parts; false, and anywhere, if it has no such part.
    fn descend(&mut self, step: &Step<'_>) -> bool {
        // The name of a kind, or `Some`, which adds no step of its own.
        let name = self.word();
        self.blanks();
        if name == "Some" && self.eat('(') {
            self.blanks();
            return self.descend(step);
        }
        if !(self.eat('(') || self.eat('[')) {
            return false;
        }
        let mut entry = 0;
        loop {
            self.blanks();
            if matches!(self.peek(), None | Some(')' | ']')) {
                return false;
            }
            let found = match step {
                Step::Entry(wanted) => entry == *wanted,
                Step::Field(wanted) => {
                    let name = self.word();
                    self.blanks();
                    let is_field = self.eat(':');
                    self.blanks();
                    is_field && name == *wanted
                }
            };
            if found {
                return true;
            }
            self.value();
            self.blanks();
            if !self.eat(',') {
                return false;
            }
            entry += 1;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const TEXT: &str = "// (version: 9)\n(\n  version: 1, /* a /* nested */ comment: 3 */\n  name: \"a (tricky], \\\" name\",\n  raw: r#\"x\"),\"#,\n  list: [ (a: 1, b: (2, 3)), Kind(c: Some((d: 4))), ],\n)\n";

    fn check(path: &str, expected: &str) {
        let offset = deepest_offset(TEXT, path).unwrap();
        assert!(TEXT[offset..].starts_with(expected), "{path}: {}", &TEXT[offset..]);
    }

    #[test]
    fn fields_are_found_past_comments_and_texts() {
        check("version", "1,");
        check("name", "\"a (tricky");
        check("raw", "r#");
        check("list[0].b[1]", "3)");
        check("list[1].c.d", "4)");
        check("list[1].c", "Some(");
    }

    #[test]
    fn what_is_missing_leads_to_what_holds_it() {
        check("list[0].none", "(a: 1");
        check("list[7]", "[ (a");
        check("nothing.at.all", "(\n  version");
        assert_eq!(find("", "a"), None);
        assert_eq!(find("((((", "a.b.c"), Some((1, 1)));
    }

    #[test]
    fn values_and_places() {
        assert_eq!(value(TEXT, "version"), Some("1"));
        assert_eq!(value(TEXT, "list[0].none"), None);
        assert_eq!(find(TEXT, "version"), Some((3, 12)));
        assert_eq!(line_and_column("äö\nüx", 7), (2, 2));
        assert_eq!(offset("äö\nüx", 2, 2), 7);
        assert_eq!(offset("a", 9, 9), 1);
    }

    #[test]
    fn a_text_that_is_not_closed_is_found() {
        let bad = "(a: \"x\", // \"\n b: \"y,\n c: \"z\")";
        let found = unclosed_text(bad, bad.len()).unwrap();
        assert_eq!(&bad[found.clone()], "\"y,\n c: \"");
        assert_eq!(unclosed_text(bad, found.start), None);
        assert_eq!(unclosed_text("(a: \"b, c)\n", 99), Some(4..11));
        assert_eq!(unclosed_text(TEXT, TEXT.len()), None);
    }

    #[test]
    fn comments_are_seen_and_texts_are_not() {
        assert!(has_comment(TEXT));
        assert!(!has_comment("(a: \"// not\", b: r\"/* nor this */\")"));
        assert!(has_comment("(a: \"\\\"\" /* but this */)"));
    }
}
