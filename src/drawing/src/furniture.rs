//! What stands around a view on a sheet: verdict, titles, key of the flags, scale bar, caution.

use baywright_planner::geometry::DVec2;
use baywright_planner::words::{Units, Words, letter};
use baywright_planner::{Assessment, Severity, Verdict};

use crate::finding::flagged;
use crate::list::{Shape, Sign};
use crate::paper::{Furniture, Paper};
use crate::role::Role;
use crate::sign::SignKind;
use crate::text::{Align, TextStyle, Weight, fitted};
use crate::view::pen::{Pen, size};

/// From the paper's edge, px.
const EDGE_PX: f64 = 24.0;
/// The line of the verdict, px below the paper's edge.
const VERDICT_PX: f64 = 32.0;
/// The first line below it, and from line to line.
const HEAD_PX: f64 = 62.0;
const LINE_PX: f64 = 20.0;
/// The sign beside the verdict.
const VERDICT_SIGN_PX: f64 = 15.0;

/// A scale bar of a round length.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ScaleBar {
    /// Its length, mm of the bay.
    pub mm: f64,
    /// The same on the paper, px.
    pub px: f64,
    /// In how many parts, dark and light in turn.
    pub parts: u8,
}

/// The longest round length that is no wider than `most_px` on the paper; round in feet where lengths are shown in feet.
pub fn scale_bar(px_per_mm: f64, most_px: f64, units: Units) -> ScaleBar {
    let unit = if units == Units::FeetInches { MM_PER_FOOT } else { 1.0 };
    let most = most_px / px_per_mm;
    let mut round = ScaleBar { mm: unit, px: unit * px_per_mm, parts: 4 };
    for decade in [1.0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6] {
        for (step, parts) in [(1.0, 4), (2.0, 4), (5.0, 5)] {
            let mm = decade * step * unit;
            if mm <= most {
                round = ScaleBar { mm, px: mm * px_per_mm, parts };
            }
        }
    }
    round
}

const MM_PER_FOOT: f64 = 304.8;

/// The texts around a view, broken into lines: the sheet's height depends on them.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Lines {
    /// Lines under the verdict: the summary, where it does not fit beside the verdict, and the arrangement's names,
    /// where they do not fit beside the view's title.
    pub head: Vec<String>,
    /// Whether the summary stands beside the verdict.
    pub beside_verdict: bool,
    /// The arrangement's names beside the view's title; empty where they stand in the head.
    pub names: String,
    /// The key: a flag where a new finding starts, and a line of text.
    pub key: Vec<(Option<(usize, Severity)>, String)>,
    /// The caution below the scale bar, where it does not fit beside it.
    pub caution: Vec<String>,
}

impl Lines {
    pub fn of(assessment: &Assessment, words: &Words<'_>, paper: &Paper<'_>, width: f64) -> Self {
        if paper.furniture == Furniture::Canvas {
            return Self::default();
        }
        let by = paper.enlarged();
        let across = width - 2.0 * EDGE_PX;
        let measured =
            |text: &str, size: f64| paper.width_of(text, TextStyle::new(size * by, Weight::Regular));
        let text_style = TextStyle::new(size::TITLE * by, Weight::Regular);

        let summary = words.summary(assessment);
        let pill = if assessment.on_example_figures { pill_width(paper, words) + 16.0 } else { 0.0 };
        let beside = width - EDGE_PX - end_of_verdict(paper, words, assessment.verdict) - 24.0 * by - pill;
        let beside_verdict = measured(&summary, size::LEAD) <= beside;
        let mut head =
            if beside_verdict { Vec::new() } else { wrapped(&summary, text_style, across, 3, paper) };

        let mut names = words.title_line();
        if measured(&names, size::SUBTITLE) > across - VIEW_TITLE_WIDTH_PX * by {
            head.extend(wrapped(&names, text_style, across, 2, paper));
            names = String::new();
        }

        let mut key = Vec::new();
        let mut more = 0_usize;
        let all = flagged(assessment).count();
        let shown = if all <= MOST_KEYS { all } else { MOST_KEYS - 1 };
        for told in flagged(assessment) {
            if told.number > shown {
                more += 1;
                continue;
            }
            let lines =
                wrapped(&words.key_line(told.finding), text_style, across - KEY_SIGN_PX * by, 2, paper);
            let signs =
                std::iter::once(Some((told.number, told.finding.severity))).chain(std::iter::repeat(None));
            key.extend(signs.zip(lines));
        }
        if more > 0 {
            key.push((None, words.key_more(more)));
        }

        let caution = words.caution();
        let fits = measured(caution, size::LABEL) <= across - SCALE_WIDTH_PX * by;
        let small = TextStyle::new(size::LABEL * by, Weight::Regular);
        let caution = if fits { Vec::new() } else { wrapped(caution, small, across, 4, paper) };
        Self { head, beside_verdict, names, key, caution }
    }
}

/// Room for the view's title and what it adds, px.
const VIEW_TITLE_WIDTH_PX: f64 = 360.0;
/// Room for the scale bar and its texts, px.
const SCALE_WIDTH_PX: f64 = 340.0;
/// Room for a flag before a line of the key, px.
const KEY_SIGN_PX: f64 = 30.0;
/// Lines of the key at most; where there are more findings, the last one counts the rest.
const MOST_KEYS: usize = 12;

/// Breaks a text into lines; the last of `most_lines` ends in an ellipsis if there is more.
fn wrapped(text: &str, style: TextStyle, most: f64, most_lines: usize, paper: &Paper<'_>) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    let parts = unbroken(text);
    let mut words = parts.iter().map(String::as_str).peekable();
    while words.peek().is_some() && lines.len() + 1 < most_lines {
        let mut line = String::new();
        while let Some(word) = words.peek() {
            let longer = if line.is_empty() { (*word).to_owned() } else { format!("{line} {word}") };
            if !line.is_empty() && paper.width_of(&longer, style) > most {
                break;
            }
            line = longer;
            words.next();
        }
        lines.push(line);
    }
    let rest: Vec<&str> = words.collect();
    if !rest.is_empty() {
        lines.push(rest.join(" "));
    }
    lines.iter().filter_map(|line| Some(fitted(line, style, most, paper.measure)?.text)).collect()
}

/// Units that stay on the line of their number.
const UNITS: [&str; 8] = ["mm", "m", "cm", "ft", "in", "%", "dBsm", "\u{b0}"];

/// The words of a text; a number and its unit are one word.
fn unbroken(text: &str) -> Vec<String> {
    let mut parts: Vec<String> = Vec::new();
    for word in text.split(' ') {
        let unit = word.trim_end_matches([',', '.', ':', ';', ')', '?']);
        let number = |last: &String| last.ends_with(|c: char| c.is_ascii_digit());
        match parts.last_mut() {
            Some(last) if UNITS.contains(&unit) && number(last) => {
                last.push(' ');
                last.push_str(word);
            }
            _ => parts.push(word.to_owned()),
        }
    }
    parts
}

fn end_of_verdict(paper: &Paper<'_>, words: &Words<'_>, verdict: Verdict) -> f64 {
    let by = paper.enlarged();
    let style = TextStyle::new(size::VERDICT * by, Weight::Bold);
    EDGE_PX + (2.0 * VERDICT_SIGN_PX + 12.0) * by + paper.width_of(words.verdict(verdict), style)
}

fn pill_width(paper: &Paper<'_>, words: &Words<'_>) -> f64 {
    let by = paper.enlarged();
    let style = TextStyle::new(size::TITLE * by, Weight::SemiBold);
    paper.width_of(words.on_example_figures(), style) + 32.0 * by
}

/// Heights of the parts of a sheet around the view, px before texts are enlarged.
const HEADER_PX: f64 = 56.0;
const FOOTER_PX: f64 = 40.0;
/// A line of the key.
const KEY_LINE_PX: f64 = 22.0;

impl Lines {
    /// The height above the view and its title, px before texts are enlarged.
    pub fn above(&self) -> f64 {
        HEADER_PX + LINE_PX * self.head.len() as f64
    }

    /// The height below the view.
    pub fn below(&self) -> f64 {
        let key = if self.key.is_empty() { 0.0 } else { self.key.len() as f64 * KEY_LINE_PX + 8.0 };
        key + FOOTER_PX + LINE_PX * self.caution.len() as f64
    }
}

impl Pen<'_> {
    fn put(&mut self, role: Role, px: DVec2, text: &str, style: TextStyle, align: Align, most: f64) -> f64 {
        let Some(text) = fitted(text, style, most, self.paper.measure) else { return 0.0 };
        let text = self.text(self.mm(px), &text.text, style, align);
        let width = text.width;
        self.push(role, None, Shape::Text(text));
        width
    }

    fn figure(&mut self, role: Role, px: DVec2, kind: SignKind, reach: f64, text: &str, style: TextStyle) {
        let sign = Sign { at: self.mm(px), kind, reach, text: text.to_owned(), style };
        self.push(role, None, Shape::Sign(sign));
    }

    /// Verdict, summary, note on example figures.
    pub fn header(&mut self, assessment: &Assessment, words: &Words<'_>, lines: &Lines) {
        let by = self.enlarged;
        let width = self.placed.size.x;
        let y = VERDICT_PX * by;
        let kind = SignKind::of_verdict(assessment.verdict);
        let reach = VERDICT_SIGN_PX * by;
        let mark = if kind == SignKind::Tick { "" } else { "!" };
        let mark_style = self.style(20.0, Weight::Bold);
        self.figure(
            Role::VerdictSign(assessment.verdict),
            DVec2::new(EDGE_PX + reach, y),
            kind,
            reach,
            mark,
            mark_style,
        );
        let verdict = self.style(size::VERDICT, Weight::Bold);
        let x = EDGE_PX + 2.0 * reach + 12.0 * by;
        let told = words.verdict(assessment.verdict);
        let verdict_width =
            self.put(Role::Verdict, DVec2::new(x, y), told, verdict, Align::Start, width - x - EDGE_PX);

        let mut right = width - EDGE_PX;
        if assessment.on_example_figures {
            let style = self.style(size::TITLE, Weight::SemiBold);
            let wide = pill_width(self.paper, words);
            let high = 26.0 * by;
            let ring = pill(DVec2::new(right - wide, y - high * 0.5), DVec2::new(wide, high));
            let ring = ring.into_iter().map(|p| self.mm(p)).collect();
            self.ring(Role::Example, None, ring);
            let middle = DVec2::new(right - wide * 0.5, y);
            self.put(Role::ExampleText, middle, words.on_example_figures(), style, Align::Middle, wide);
            right -= wide + 16.0;
        }
        if lines.beside_verdict {
            let style = self.style(size::LEAD, Weight::Regular);
            let x = x + verdict_width + 14.0 * by;
            let summary = words.summary(assessment);
            self.put(Role::TitleSoft, DVec2::new(x, y + 2.0 * by), &summary, style, Align::Start, right - x);
        }
        let style = self.style(size::TITLE, Weight::Regular);
        for (line, text) in lines.head.iter().enumerate() {
            let at = DVec2::new(EDGE_PX, (HEAD_PX + LINE_PX * line as f64) * by);
            self.put(Role::Title, at, text, style, Align::Start, width - 2.0 * EDGE_PX);
        }
    }

    /// The view's title above its plan, with what it adds, and the arrangement's names on the right.
    pub fn view_title(&mut self, title: &str, adds: &str, names: &str) {
        let y = self.placed.plan.low.y - 9.0 * self.enlarged;
        let (bold, soft) =
            (self.style(size::TITLE, Weight::Bold), self.style(size::SUBTITLE, Weight::Regular));
        let width = self.placed.size.x;
        let mut x = EDGE_PX;
        x += self.put(Role::Title, DVec2::new(x, y), title, bold, Align::Start, width) + 12.0;
        x +=
            self.put(Role::TitleSoft, DVec2::new(x, y), adds, soft, Align::Start, width - x - EDGE_PX) + 28.0;
        let most = width - EDGE_PX - x;
        self.put(Role::TitleSoft, DVec2::new(width - EDGE_PX, y), names, soft, Align::End, most);
    }

    /// What the flags' numbers stand for.
    pub fn key(&mut self, lines: &Lines) {
        let by = self.enlarged;
        let width = self.placed.size.x;
        let mut y = self.placed.plan.high.y + 16.0 * by;
        let style = self.style(size::TITLE, Weight::Regular);
        let number = self.style(size::SMALL, Weight::Bold);
        let x = EDGE_PX + KEY_SIGN_PX * by;
        for (sign, text) in &lines.key {
            if let Some((told, severity)) = *sign {
                let at = DVec2::new(EDGE_PX + 9.5 * by, y);
                let kind = SignKind::of_severity(severity);
                self.figure(Role::KeySign(severity), at, kind, 9.0 * by, &letter(told), number);
            }
            self.put(Role::Title, DVec2::new(x, y), text, style, Align::Start, width - x - EDGE_PX);
            y += KEY_LINE_PX * by;
        }
    }

    /// Scale bar, scale, caution.
    pub fn footer(&mut self, words: &Words<'_>, lines: &Lines) {
        let by = self.enlarged;
        let caution_lines = lines.caution.len() as f64;
        let y = self.placed.size.y - (20.0 + LINE_PX * caution_lines) * by;
        let style = self.style(size::LABEL, Weight::Regular);
        let bar = scale_bar(self.scale, 170.0 * by, self.paper.units);
        let part = bar.px / f64::from(bar.parts);
        let half = DVec2::new(0.0, 2.5 * by);
        for i in 0..bar.parts {
            let from = DVec2::new(EDGE_PX + part * f64::from(i), y);
            let to = from + DVec2::new(part, 0.0);
            let ring = [from - half, to - half, to + half, from + half].map(|p| self.mm(p)).to_vec();
            self.ring(if i % 2 == 0 { Role::ScaleDark } else { Role::ScaleLight }, None, ring);
        }
        let mut x = EDGE_PX + bar.px + 10.0;
        let width = self.placed.size.x;
        x +=
            self.put(Role::Title, DVec2::new(x, y), &words.length(bar.mm), style, Align::Start, width) + 18.0;
        let scale = words.scale(libm::round(PX_PER_PAPER_MM / self.scale));
        x += self.put(Role::TitleSoft, DVec2::new(x, y), &scale, style, Align::Start, width) + 28.0;
        if lines.caution.is_empty() {
            let most = width - EDGE_PX - x;
            let at = DVec2::new(width - EDGE_PX, y);
            self.put(Role::TitleSoft, at, words.caution(), style, Align::End, most);
        }
        for (line, text) in lines.caution.iter().enumerate() {
            let at = DVec2::new(EDGE_PX, y + LINE_PX * (line + 1) as f64 * by);
            self.put(Role::TitleSoft, at, text, style, Align::Start, width - 2.0 * EDGE_PX);
        }
    }
}

/// 96 px to the inch, as CSS and SVG have it.
pub(crate) const PX_PER_PAPER_MM: f64 = 96.0 / 25.4;

/// A box with round ends, px.
fn pill(low: DVec2, size: DVec2) -> Vec<DVec2> {
    let r = size.y * 0.5;
    let arc = |centre: DVec2, start: f64| {
        (0..=8).map(move |i| {
            let (sin, cos) = libm::sincos(start + std::f64::consts::PI * f64::from(i) / 8.0);
            centre + DVec2::new(cos, sin) * r
        })
    };
    let right = arc(low + DVec2::new(size.x - r, r), -std::f64::consts::FRAC_PI_2);
    right.chain(arc(low + DVec2::splat(r), std::f64::consts::FRAC_PI_2)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_number_keeps_its_unit() {
        assert_eq!(unbroken("by 250 mm, limit 0 %"), ["by", "250 mm,", "limit", "0 %"]);
        assert_eq!(unbroken("2 m of 12 things in it"), ["2 m", "of", "12", "things", "in", "it"]);
        let paper = Paper::picture(1000.0);
        let style = TextStyle::new(13.0, Weight::Regular);
        for most in 60..300 {
            let lines =
                wrapped("Move it by 250 mm to 1 200 mm, 30 % of it", style, f64::from(most), 9, &paper);
            assert!(lines.iter().skip(1).all(|l| !l.starts_with("mm") && !l.starts_with('%')), "{lines:?}");
        }
    }

    #[test]
    fn scale_bars_are_round_and_fit() {
        for (scale, mm) in [(0.09, 1000.0), (0.065, 2000.0), (0.02, 5000.0), (1.0, 100.0)] {
            let bar = scale_bar(scale, 170.0, Units::Millimetres);
            assert_eq!(bar.mm, mm, "{scale}");
            assert!(bar.px <= 170.0 && (bar.px - bar.mm * scale).abs() < 1e-9);
        }
        let feet = scale_bar(0.09, 170.0, Units::FeetInches);
        assert_eq!(feet.mm, 5.0 * 304.8);
    }
}
