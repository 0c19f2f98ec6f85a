//! The findings report: what is found, before and now, with the letters of the screen.

mod echoes;

use baywright_planner::difference::{Found, between_arrangements, found};
use baywright_planner::geometry::DVec2;
use baywright_planner::words::{Words, letter};
use baywright_planner::{Finding, Severity};

use super::bar::bar;
use super::flow::{Flow, Lead, px};
use super::frame::Sheeted;
use super::head;
use super::of::{Answered, Of};
use super::plan::{in_views, plan, whole_bay};
use crate::finding::{Flagged, flagged};
use crate::page::Page;
use crate::view::ViewState;

/// At most so much of a page is taken by a view.
const VIEW: f64 = 0.6;
/// A view that would be lower than this goes on to the next page, mm.
const LEAST_VIEW_MM: f64 = 70.0;
/// A state begins on a page where so much is left, mm: its verdict, its view and what it stops by stay together.
const STATE_MM: f64 = 165.0;
/// The bar below it, mm.
const BAR_MM: f64 = 13.0;

/// The pages of the report: as it was, with what was found then; as it is; what is different.
pub(super) fn pages(of: &Of<'_>, on: &Sheeted<'_>) -> Vec<Page> {
    let (now, words) = (&of.now, on.words);
    let mut flow = on.flow();
    head::title(&mut flow, on.title, &words.title_line());
    let plain = ViewState::default();
    if let Some(before) = &of.before {
        let was = Words::new(before.arrangement, words.locale());
        let own = Of { now: *before, before: None, state: &plain, face: of.face };
        state(&mut flow, &own, &was, on, true);
        flow.gap(4.0);
        flow.ensure(px(STATE_MM));
    }
    let one_to = state(&mut flow, of, words, on, of.before.is_some());
    if let Some(before) = &of.before {
        compared(&mut flow, of, before, words);
    }
    echoes::told(&mut flow, now, words, on.lettering);
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

/// The bay in one state: verdict, view, findings by their letters; gives the view's scale.
fn state(flow: &mut Flow<'_>, of: &Of<'_>, words: &Words<'_>, on: &Sheeted<'_>, named: bool) -> f64 {
    let now = &of.now;
    head::verdict(flow, words, now.assessment, (named.then_some(now.name), false));
    let own = in_views(on.lettering);
    if flow.left() < px(LEAST_VIEW_MM) {
        flow.next_page();
    }
    let high = (flow.left() - px(BAR_MM)).min(flow.height() * VIEW);
    let room = DVec2::new(flow.width(), high);
    let lies = whole_bay(now.arrangement, now.assessment, of.state, room, &own);
    let size = lies.size(&own).min(room);
    flow.view(plan(now.arrangement, now.assessment, &lies, size, on.lettering));
    bar(flow, words, lies.one_to);
    for severity in [Severity::Stops, Severity::Care] {
        let mut all = flagged(now.assessment).filter(|own| own.finding.severity == severity).peekable();
        if let Some(first) = all.peek() {
            // With the whole of the first one, so that no heading stands alone at the foot of a page.
            let whole = high_of(flow, words, first.finding).min(flow.height() * 0.5);
            flow.heading(words.heading(severity), whole / px(1.0));
        }
        for own in all {
            one(flow, words, own.finding, of.letter_of(own.index, own.number));
        }
    }
    lies.one_to
}

/// How high a finding is with what to do about it, px.
fn high_of(flow: &Flow<'_>, words: &Words<'_>, finding: &Finding) -> f64 {
    let cure = words.cure(finding).map_or(0.0, |own| flow.height_read(&own));
    flow.height_read(&words.line(finding)) + cure
}

/// A finding with its letter, and what to do about it.
fn one(flow: &mut Flow<'_>, words: &Words<'_>, finding: &Finding, letter: String) {
    let (line, cure) = (words.line(finding), words.cure(finding));
    // What is wrong and what to do about it stand on one page.
    let high = high_of(flow, words, finding);
    if high < flow.height() {
        flow.ensure(high);
    }
    flow.read(&line, Some(Lead::Sign(letter, finding.severity)));
    if let Some(cure) = cure {
        flow.read(&cure, Some(Lead::Text("\u{2192}".to_owned())));
    }
    flow.gap(0.6);
}

/// What is different, what is gone, what is new.
fn compared(flow: &mut Flow<'_>, of: &Of<'_>, before: &Answered<'_>, words: &Words<'_>) {
    let texts = words.locale().language.screen();
    let differences = between_arrangements(before.arrangement, of.now.arrangement);
    flow.heading(&texts.counted(texts.different, differences.len()), 8.0);
    for difference in &differences {
        flow.read(&words.difference(difference), Some(Lead::Text("\u{2013}".to_owned())));
    }
    let (now, was) = (of.now.assessment, before.assessment);
    let mut listed = |title: &str, told: Vec<(&Finding, String)>, words: &Words<'_>| {
        flow.heading(&texts.counted(title, told.len()), 8.0);
        for (finding, letter) in told {
            flow.read(&words.line(finding), Some(Lead::Sign(letter, finding.severity)));
        }
    };
    let is_gone = |own: &Flagged<'_>, among: &Found| among.alone.contains(&own.index);
    let (gone, new) = (found(was, now), found(now, was));
    let gone = flagged(was).filter(|own| is_gone(own, &gone)).map(|own| (own.finding, letter(own.number)));
    let words_then = Words::new(before.arrangement, words.locale());
    listed(texts.gone, gone.collect(), &words_then);
    let new = flagged(now).filter(|own| is_gone(own, &new));
    let new = new.map(|own| (own.finding, of.letter_of(own.index, own.number)));
    listed(texts.new_here, new.collect(), words);
}
