//! The findings report: what is found, before and now, with the letters of the screen.

use baywright_planner::difference::{Found, between_arrangements, found};
use baywright_planner::geometry::DVec2;
use baywright_planner::words::{Words, letter};
use baywright_planner::{Assessment, Finding, Severity};

use super::bar::bar;
use super::flow::{Flow, Lead};
use super::frame::Sheeted;
use super::head;
use super::of::{Answered, Of};
use super::plan::{Lies, in_views, plan, whole_bay};
use crate::finding::flagged;
use crate::page::Page;

/// At most so much of a page is taken by its views.
const VIEWS: f64 = 0.62;

/// The pages of the report.
pub(super) fn pages(of: &Of<'_>, on: &Sheeted<'_>) -> Vec<Page> {
    let (now, words) = (&of.now, on.words);
    let mut flow = on.flow();
    head::title(&mut flow, on.title, &words.title_line());
    let texts = words.locale().language.sheets();
    if let Some(before) = &of.before {
        let was = Words::new(before.arrangement, words.locale());
        head::verdict(&mut flow, &was, before.assessment, Some(&before.name));
    }
    let name = of.before.is_some().then_some(texts.now);
    head::verdict(&mut flow, words, now.assessment, name);
    let one_to = views(&mut flow, of, on);
    bar(&mut flow, words, one_to);
    let found = of.before.as_ref().map(|before| found(now.assessment, before.assessment));
    for severity in [Severity::Stops, Severity::Care] {
        let mut all = flagged(now.assessment).filter(|own| own.finding.severity == severity).peekable();
        if all.peek().is_some() {
            flow.heading(words.heading(severity), 12.0);
        }
        for own in all {
            one(&mut flow, words, own.finding, of.letter_of(own.index, own.number));
        }
    }
    if let (Some(before), Some(found)) = (&of.before, &found) {
        compared(&mut flow, of, before, found, words);
    }
    let notes: Vec<&Finding> =
        now.assessment.findings.iter().filter(|own| own.severity == Severity::Note).collect();
    if !notes.is_empty() {
        flow.heading(words.heading(Severity::Note), 8.0);
        notes.iter().for_each(|own| flow.read(&words.line(own), Some(Lead::Text("\u{2013}".to_owned()))));
    }
    flow.gap(2.0);
    flow.read(words.caution(), None);
    on.pages(flow, &words.picture_description(now.assessment, Some(one_to)))
}

/// A finding with its letter, and what to do about it.
fn one(flow: &mut Flow<'_>, words: &Words<'_>, finding: &Finding, letter: String) {
    flow.read(&words.line(finding), Some(Lead::Sign(letter, finding.severity)));
    if let Some(cure) = words.cure(finding) {
        flow.read(&cure, Some(Lead::Text("\u{2192}".to_owned())));
    }
    flow.gap(0.6);
}

/// The bay as it is, and beside it as it was, to one scale; gives that scale.
fn views(flow: &mut Flow<'_>, of: &Of<'_>, on: &Sheeted<'_>) -> f64 {
    let own = in_views(on.lettering);
    let lies = |of: &Answered<'_>, state: &crate::view::ViewState, room: DVec2| -> Lies {
        whole_bay(of.arrangement, of.assessment, state, room, &own)
    };
    let room = DVec2::new(flow.width(), flow.height() * VIEWS);
    let Some(before) = &of.before else {
        let lies = lies(&of.now, of.state, room);
        let size = lies.size(&own);
        flow.view(plan(of.now.arrangement, of.now.assessment, &lies, size, on.lettering));
        return lies.one_to;
    };
    // Side by side or over one another, whichever lets them be drawn larger.
    let halves = [DVec2::new(room.x * 0.49, room.y), DVec2::new(room.x, room.y * 0.5)];
    let asked = halves.map(|half| {
        let (was, is) =
            (lies(before, &crate::view::ViewState::default(), half), lies(&of.now, of.state, half));
        (was.one_to.max(is.one_to), was, is)
    });
    let [beside, over] = asked;
    let is_beside = beside.0 <= over.0;
    let (one_to, was, is) = if is_beside { beside } else { over };
    // One paper for both, so that what was moved is seen to be.
    let held = is.held;
    let pair = [(before, was), (&of.now, is)].map(|(of, lies)| {
        let lies = Lies { one_to, held, ..lies };
        plan(of.arrangement, of.assessment, &lies, lies.size(&own), on.lettering)
    });
    if is_beside {
        flow.views(pair);
    } else {
        pair.into_iter().for_each(|view| flow.view(view));
    }
    one_to
}

/// What is different, what is gone, what is new.
fn compared(flow: &mut Flow<'_>, of: &Of<'_>, before: &Answered<'_>, found: &Found, words: &Words<'_>) {
    let texts = words.locale().language.screen();
    let differences = between_arrangements(before.arrangement, of.now.arrangement);
    flow.heading(&texts.counted(texts.different, differences.len()), 8.0);
    for difference in &differences {
        flow.read(&words.difference(difference), Some(Lead::Text("\u{2013}".to_owned())));
    }
    let was = Words::new(before.arrangement, words.locale());
    let gone = baywright_planner::difference::found(before.assessment, of.now.assessment).alone;
    let listed = |flow: &mut Flow<'_>, title: &str, all: Vec<(&Finding, String)>, words: &Words<'_>| {
        flow.heading(&texts.counted(title, all.len()), 8.0);
        for (finding, letter) in all {
            flow.read(&words.line(finding), Some(Lead::Sign(letter, finding.severity)));
        }
    };
    listed(flow, texts.gone, told(before.assessment, &gone, |own, number| (own, letter(number))), &was);
    let new = told(of.now.assessment, &found.alone, |own, number| (own, letter(number)));
    listed(flow, texts.new_here, new, words);
}

/// Findings by position, with the numbers by which they go.
fn told<'a>(
    of: &'a Assessment,
    positions: &[usize],
    each: impl Fn(&'a Finding, usize) -> (&'a Finding, String),
) -> Vec<(&'a Finding, String)> {
    let all = flagged(of).filter(|own| positions.contains(&own.index));
    all.map(|own| each(own.finding, own.number)).collect()
}
