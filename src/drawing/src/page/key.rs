//! The key: what the flags' letters stand for.

use baywright_planner::geometry::DVec2;
use baywright_planner::words::{Words, letter};
use baywright_planner::{Assessment, Severity};

use super::setter::{EDGE_PX, Setter};
use super::wrap::wrapped;
use super::{Content, Frame};
use crate::finding::flagged;
use crate::lettering::{Lettering, size};
use crate::role::Role;
use crate::sign::SignKind;
use crate::text::{Align, Weight};

/// Room for a flag before a line of the key, px before texts are enlarged; so are all lengths here.
const SIGN_PX: f64 = 30.0;
/// The first line below the view, and from line to line.
const FIRST_LINE_PX: f64 = 16.0;
const LINE_PX: f64 = 22.0;
/// Below the last line.
const BELOW_PX: f64 = 8.0;
/// Lines at most; where there are more findings, the last one counts the rest.
const MOST_KEYS: usize = 12;

/// The key, broken into lines.
pub(super) struct Key<'a> {
    lettering: &'a Lettering<'a>,
    /// A flag where a new finding starts, and a line of text.
    lines: Vec<(Option<(usize, Severity)>, String)>,
}

impl<'a> Key<'a> {
    pub fn of(assessment: &Assessment, words: &Words<'_>, lettering: &'a Lettering<'a>, width: f64) -> Self {
        let style = lettering.style(size::TITLE, Weight::Regular);
        let across = width - 2.0 * EDGE_PX - SIGN_PX * lettering.enlarged();
        let mut lines = Vec::new();
        let mut more = 0_usize;
        let all = flagged(assessment).count();
        let shown = if all <= MOST_KEYS { all } else { MOST_KEYS - 1 };
        for told in flagged(assessment) {
            if told.number > shown {
                more += 1;
                continue;
            }
            let texts = wrapped(&words.key_line(told.finding), style, across, 2, lettering);
            let signs =
                std::iter::once(Some((told.number, told.finding.severity))).chain(std::iter::repeat(None));
            lines.extend(signs.zip(texts));
        }
        if more > 0 {
            lines.push((None, words.key_more(more)));
        }
        Self { lettering, lines }
    }

    /// Its height, px.
    pub fn height(&self) -> f64 {
        let high = if self.lines.is_empty() { 0.0 } else { self.lines.len() as f64 * LINE_PX + BELOW_PX };
        high * self.lettering.enlarged()
    }

    pub fn frame(&self, corner: DVec2, width: f64) -> Frame {
        let mut setter = Setter::new(self.lettering, DVec2::new(width, self.height()));
        let by = self.lettering.enlarged();
        let mut y = FIRST_LINE_PX * by;
        let style = setter.style(size::TITLE, Weight::Regular);
        let number = setter.style(size::SMALL, Weight::Bold);
        let x = EDGE_PX + SIGN_PX * by;
        for (sign, text) in &self.lines {
            if let Some((told, severity)) = *sign {
                let at = DVec2::new(EDGE_PX + 9.5 * by, y);
                let kind = SignKind::of_severity(severity);
                setter.sign(Role::KeySign(severity), at, kind, 7.8 * by, &letter(told), number);
            }
            setter.text(Role::Title, DVec2::new(x, y), text, style, Align::Start, width - x - EDGE_PX);
            y += LINE_PX * by;
        }
        setter.framed(corner, Content::Table)
    }
}
