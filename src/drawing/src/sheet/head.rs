//! What stands at the head of a sheet: its name, what it is of, and the verdict.

use baywright_planner::Assessment;
use baywright_planner::geometry::{Bounds, DVec2};
use baywright_planner::words::Words;

use super::flow::{Flow, Said, px};
use super::lines::{READ_MM, TITLE_MM, WORK_MM, lines, pitch};
use super::table::corners;
use crate::page::Content;
use crate::role::Role;
use crate::sign::SignKind;
use crate::text::{Align, Weight};

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
    let (strong, plain) = (flow.style(WORK_MM, Weight::Bold), flow.style(READ_MM, Weight::Regular));
    let by = flow.lettering.enlarged();
    let from = px(INSIDE_MM + BESIDE_MM) + 2.0 * px(SIGN_MM) * by;
    let most = flow.width() - from - px(INSIDE_MM);
    let verdict = match name {
        Some(name) => words.locale().language.sheets().verdict_of(name, words.verdict(assessment.verdict)),
        None => words.verdict(assessment.verdict).to_owned(),
    };
    let mut said = vec![(lines(&verdict, strong, most, flow.lettering), strong)];
    let summary = if is_brief { words.counted(assessment) } else { words.summary(assessment) };
    said.push((lines(&summary, plain, most, flow.lettering), plain));
    if assessment.on_example_figures {
        let note = words.locale().language.sheets().on_examples;
        said.push((lines(note, plain, most, flow.lettering), plain));
    }
    let high: f64 = said.iter().map(|(lines, style)| pitch(*style) * lines.len() as f64).sum();
    let height = high + 2.0 * px(INSIDE_MM);
    flow.gap(1.5);
    flow.block(height, Content::TitleBlock, |setter| {
        let all = Bounds { low: DVec2::ZERO, high: setter.size };
        let ring = corners(&all);
        setter.line(Role::RuleHeavy, ring.into_iter().chain([ring[0]]));
        let kind = SignKind::of_verdict(assessment.verdict);
        let mark = if kind == SignKind::Tick { "" } else { "!" };
        let reach = px(SIGN_MM) * by;
        let at = DVec2::new(px(INSIDE_MM) + reach, px(INSIDE_MM) + pitch(strong) * 0.6);
        setter.sign(Role::VerdictSign(assessment.verdict), at, kind, reach, mark, strong);
        let mut y = px(INSIDE_MM);
        for (texts, style) in &said {
            for text in texts {
                let at = DVec2::new(from, y + pitch(*style) * 0.5);
                setter.text(Role::Title, at, text, *style, Align::Start, f64::INFINITY);
                y += pitch(*style);
            }
        }
    });
    flow.gap(1.0);
}
