//! What stands at the head of a sheet: its name, what it is of, and the verdict.

use baywright_planner::geometry::{Bounds, DVec2};
use baywright_planner::words::Words;
use baywright_planner::{Assessment, Verdict};

use super::flow::{Flow, Said, px};
use super::lines::{READ_MM, TITLE_MM, WORK_MM, lines, pitch};
use super::table::corners;
use crate::page::Content;
use crate::page::setter::Setter;
use crate::role::Role;
use crate::sign::SignKind;
use crate::text::{Align, TextStyle, Weight};

/// The sheet's name, and under it what it is of.
pub(super) fn title(flow: &mut Flow<'_>, title: &str, of: &str) {
    let style = flow.style(TITLE_MM, Weight::Bold);
    flow.said(&Said { text: title, style, role: Role::Title, lead: None });
    let style = flow.style(READ_MM, Weight::Regular);
    if !of.is_empty() {
        flow.said(&Said { text: of, style, role: Role::Title, lead: None });
    }
}

/// Half of the verdict's sign, and between it and the verdict, mm.
const SIGN_MM: f64 = 3.2;
const BESIDE_MM: f64 = 2.5;
/// The sheet's name takes at most such a share of the width where the verdict stands beside it.
const LEFT: f64 = 0.45;
/// From a framed verdict's edge, mm.
const INSIDE_MM: f64 = 2.0;

/// The verdict with its sign, in a frame, and what it comes from; that figures are examples, where they are.
/// `is_brief` leaves out what is to be moved.
pub(super) fn verdict(
    flow: &mut Flow<'_>,
    words: &Words<'_>,
    assessment: &Assessment,
    (name, is_brief): (Option<&str>, bool),
) {
    let on_examples = assessment.on_example_figures;
    let framed = Framed::of(flow, words, assessment, (name, is_brief), (flow.width(), on_examples));
    flow.gap(1.5);
    flow.block(framed.height, Content::TitleBlock, |setter| framed.put(setter, 0.0));
    flow.gap(1.0);
}

/// The sheet's name at the left, the verdict at the right of it: a head that leaves the page to what is below it. It does not say
/// that figures are examples.
pub(super) fn beside(
    flow: &mut Flow<'_>,
    title: &str,
    words: &Words<'_>,
    assessment: &Assessment,
    is_brief: bool,
) {
    let style = flow.style(TITLE_MM, Weight::Bold);
    let left = (flow.lettering.width_of(title, style) + px(2.0 * BESIDE_MM)).min(flow.width() * LEFT);
    let titles = lines(title, style, left - px(BESIDE_MM), flow.lettering);
    let framed = Framed::of(flow, words, assessment, (None, is_brief), (flow.width() - left, false));
    let high = pitch(style) * titles.len() as f64;
    flow.block(framed.height.max(high), Content::TitleBlock, |setter| {
        for (line, text) in titles.iter().enumerate() {
            let at = DVec2::new(0.0, pitch(style) * (line as f64 + 0.5));
            setter.text(Role::Title, at, text, style, Align::Start, f64::INFINITY);
        }
        framed.put(setter, left);
    });
    flow.gap(1.0);
}

/// A framed verdict: its lines in their styles, px.
struct Framed {
    verdict: Verdict,
    said: Vec<(Vec<String>, TextStyle)>,
    /// What stands beside the verdict's own line, and how far from where that begins.
    beside: Option<(String, TextStyle, f64)>,
    strong: TextStyle,
    /// Where its texts begin.
    from: f64,
    width: f64,
    height: f64,
}

impl Framed {
    fn of(
        flow: &Flow<'_>,
        words: &Words<'_>,
        assessment: &Assessment,
        (name, is_brief): (Option<&str>, bool),
        (width, on_examples): (f64, bool),
    ) -> Self {
        let (strong, plain) =
            (flow.style(WORK_MM, Weight::Bold), flow.style(flow.sizes.read, Weight::Regular));
        let from = px(INSIDE_MM + BESIDE_MM) + 2.0 * px(SIGN_MM) * flow.lettering.enlarged();
        let most = width - from - px(INSIDE_MM);
        let verdict = match name {
            Some(name) => {
                words.locale().language.sheets().verdict_of(name, words.verdict(assessment.verdict))
            }
            None => words.verdict(assessment.verdict).to_owned(),
        };
        let mut said = vec![(lines(&verdict, strong, most, flow.lettering), strong)];
        let summary = if is_brief { words.counted(assessment) } else { words.summary(assessment) };
        let (verdict, beside) =
            (flow.lettering.width_of(&verdict, strong), flow.lettering.width_of(&summary, plain));
        let is_beside = !on_examples && verdict + px(2.0 * BESIDE_MM) + beside <= most;
        let beside = is_beside.then(|| (summary.clone(), plain, verdict + px(2.0 * BESIDE_MM)));
        if !is_beside {
            said.push((lines(&summary, plain, most, flow.lettering), plain));
        }
        if on_examples {
            let note = words.locale().language.sheets().on_examples;
            said.push((lines(note, plain, most, flow.lettering), plain));
        }
        let high: f64 = said.iter().map(|(lines, style)| pitch(*style) * lines.len() as f64).sum();
        Self {
            verdict: assessment.verdict,
            said,
            beside,
            strong,
            from,
            width,
            height: high + 2.0 * px(INSIDE_MM),
        }
    }

    /// Sets it so far from the left edge.
    fn put(&self, setter: &mut Setter<'_>, left: f64) {
        let by = setter.lettering.enlarged();
        let low = DVec2::X * left;
        let ring = corners(&Bounds { low, high: low + DVec2::new(self.width, self.height) });
        setter.line(Role::RuleHeavy, ring.into_iter().chain([ring[0]]));
        let kind = SignKind::of_verdict(self.verdict);
        let mark = if kind == SignKind::Tick { "" } else { "!" };
        let reach = px(SIGN_MM) * by;
        let at = low + DVec2::new(px(INSIDE_MM) + reach, px(INSIDE_MM) + pitch(self.strong) * 0.6);
        setter.sign(Role::VerdictSign(self.verdict), at, kind, reach, mark, self.strong);
        let mut y = px(INSIDE_MM);
        for (texts, style) in &self.said {
            for text in texts {
                let at = low + DVec2::new(self.from, y + pitch(*style) * 0.5);
                setter.text(Role::Title, at, text, *style, Align::Start, f64::INFINITY);
                y += pitch(*style);
            }
        }
        if let Some((text, style, x)) = &self.beside {
            let at = low + DVec2::new(self.from + x, px(INSIDE_MM) + pitch(self.strong) * 0.5);
            setter.text(Role::Title, at, text, *style, Align::Start, f64::INFINITY);
        }
    }
}
