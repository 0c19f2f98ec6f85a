//! What a page is about: verdict, summary, note on example figures; and the titles of its views.

use baywright_planner::Assessment;
use baywright_planner::geometry::DVec2;
use baywright_planner::words::Words;

use super::setter::{EDGE_PX, LINE_PX, Setter};
use super::wrap::wrapped;
use super::{Content, Frame};
use crate::lettering::{Lettering, size};
use crate::role::Role;
use crate::sign::SignKind;
use crate::text::{Align, TextStyle, Weight};

/// Its height without lines under the verdict, px before texts are enlarged; so are all heights here.
const HEAD_PX: f64 = 56.0;
/// The line of the verdict below the paper's edge.
const VERDICT_PX: f64 = 32.0;
/// The first line below it.
const FIRST_LINE_PX: f64 = 62.0;
/// The sign beside the verdict.
const VERDICT_SIGN_PX: f64 = 15.0;
/// Room for the view's title and what it adds.
const VIEW_TITLE_WIDTH_PX: f64 = 360.0;
/// Height of a view's title, and its line in it.
const VIEW_TITLE_PX: f64 = 26.0;
const VIEW_TITLE_LINE_PX: f64 = 17.0;
/// Between the title and what it adds: room for a wider sans-serif than ours.
const BESIDE_TITLE_PX: f64 = 24.0;

/// The head of a page, broken into lines: the page's height depends on them.
pub(super) struct Head<'a> {
    assessment: &'a Assessment,
    words: &'a Words<'a>,
    lettering: &'a Lettering<'a>,
    /// Lines under the verdict: the summary, never beside it, where a verdict in a wider sans-serif than ours would run into it; and
    /// the arrangement's names, where they do not fit beside the view's title.
    lines: Vec<String>,
    /// The arrangement's names beside the view's title; empty where they stand in the head.
    pub names: String,
}

impl<'a> Head<'a> {
    pub fn of(
        assessment: &'a Assessment,
        words: &'a Words<'a>,
        lettering: &'a Lettering<'a>,
        width: f64,
    ) -> Self {
        let by = lettering.enlarged();
        let across = width - 2.0 * EDGE_PX;
        let measured =
            |text: &str, size: f64| lettering.width_of(text, lettering.style(size, Weight::Regular));
        let style = lettering.style(size::TITLE, Weight::Regular);

        let mut lines = wrapped(&words.summary(assessment), style, across, 3, lettering);
        let mut names = words.title_line();
        if measured(&names, size::SUBTITLE) > across - VIEW_TITLE_WIDTH_PX * by {
            lines.extend(wrapped(&names, style, across, 2, lettering));
            names = String::new();
        }
        Self { assessment, words, lettering, lines, names }
    }

    /// Its height, px.
    pub fn height(&self) -> f64 {
        (HEAD_PX + LINE_PX * self.lines.len() as f64) * self.lettering.enlarged()
    }

    /// Verdict, summary, note on example figures.
    pub fn frame(&self, width: f64) -> Frame {
        let Self { assessment, words, lettering, .. } = *self;
        let mut setter = Setter::new(lettering, DVec2::new(width, self.height()));
        let by = lettering.enlarged();
        let y = VERDICT_PX * by;
        let kind = SignKind::of_verdict(assessment.verdict);
        let reach = VERDICT_SIGN_PX * by;
        let mark = if kind == SignKind::Tick { "" } else { "!" };
        let style = setter.style(20.0, Weight::Bold);
        let role = Role::VerdictSign(assessment.verdict);
        setter.sign(role, DVec2::new(EDGE_PX + reach, y), kind, reach, mark, style);
        let style = setter.style(size::VERDICT, Weight::Bold);
        let x = EDGE_PX + 2.0 * reach + 12.0 * by;
        let verdict = words.verdict(assessment.verdict);
        let most = width - x - EDGE_PX;
        setter.text(Role::Verdict, DVec2::new(x, y), verdict, style, Align::Start, most);

        if assessment.on_example_figures {
            let style = setter.style(size::TITLE, Weight::SemiBold);
            let wide = pill_width(lettering, words);
            let high = 26.0 * by;
            let right = width - EDGE_PX;
            setter
                .ring(Role::Example, pill(DVec2::new(right - wide, y - high * 0.5), DVec2::new(wide, high)));
            let middle = DVec2::new(right - wide * 0.5, y);
            let note = words.on_example_figures();
            setter.text(Role::ExampleText, middle, note, style, Align::Middle, wide);
        }
        let style = setter.style(size::TITLE, Weight::Regular);
        for (line, text) in self.lines.iter().enumerate() {
            let at = DVec2::new(EDGE_PX, (FIRST_LINE_PX + LINE_PX * line as f64) * by);
            setter.text(Role::Title, at, text, style, Align::Start, width - 2.0 * EDGE_PX);
        }
        setter.framed(DVec2::ZERO, Content::TitleBlock)
    }
}

/// The height of a view's title, px.
pub(super) fn view_title_height(lettering: &Lettering<'_>) -> f64 {
    VIEW_TITLE_PX * lettering.enlarged()
}

/// A view's title above it, with what it adds, and the arrangement's names on the right.
pub(super) fn view_title(
    lettering: &Lettering<'_>,
    (corner, width): (DVec2, f64),
    title: &str,
    adds: &str,
    names: &str,
) -> Frame {
    let mut setter = Setter::new(lettering, DVec2::new(width, view_title_height(lettering)));
    let y = VIEW_TITLE_LINE_PX * lettering.enlarged();
    let bold = setter.style(size::TITLE, Weight::Bold);
    let soft = setter.style(size::SUBTITLE, Weight::Regular);
    let mut x = EDGE_PX;
    x += setter.text(Role::Title, DVec2::new(x, y), title, bold, Align::Start, width) + BESIDE_TITLE_PX;
    let most = width - x - EDGE_PX;
    x += setter.text(Role::TitleSoft, DVec2::new(x, y), adds, soft, Align::Start, most) + 28.0;
    let right = width - EDGE_PX;
    setter.text(Role::TitleSoft, DVec2::new(right, y), names, soft, Align::End, right - x);
    setter.framed(corner, Content::Text)
}

fn pill_width(lettering: &Lettering<'_>, words: &Words<'_>) -> f64 {
    let style: TextStyle = lettering.style(size::TITLE, Weight::SemiBold);
    lettering.width_of(words.on_example_figures(), style) + 32.0 * lettering.enlarged()
}

/// A box with round ends, px.
fn pill(low: DVec2, size: DVec2) -> impl Iterator<Item = DVec2> {
    let r = size.y * 0.5;
    let arc = move |centre: DVec2, start: f64| {
        (0..=8).map(move |i| {
            let (sin, cos) = libm::sincos(start + std::f64::consts::PI * f64::from(i) / 8.0);
            centre + DVec2::new(cos, sin) * r
        })
    };
    let right = arc(low + DVec2::new(size.x - r, r), -std::f64::consts::FRAC_PI_2);
    right.chain(arc(low + DVec2::splat(r), std::f64::consts::FRAC_PI_2))
}
