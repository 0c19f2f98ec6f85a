//! What a mark sheet tells: what is met and moved first, and what is done with tape, plumb line and laser.

use baywright_planner::assessment::Facts;
use baywright_planner::geometry::marks::{Construction, Wheel};
use baywright_planner::ground::height_to_set;
use baywright_planner::words::Words;
use baywright_planner::{Severity, Verdict};

use crate::sheet::flow::{Flow, Lead};
use crate::sheet::lines::READ_MM;
use crate::sheet::of::Of;

/// So many points that need care are told here; all of them stand in the findings report.
const MOST_CARE: usize = 12;

/// What is met and moved before anything is laid, and what needs care: in short, or with all there is to know of it.
pub(super) fn first(flow: &mut Flow<'_>, of: &Of<'_>, words: &Words<'_>, in_short: bool) {
    let texts = words.locale().language.sheets();
    let assessment = of.now.assessment;
    let steps: Vec<String> = match &assessment.promise {
        Some(promise) => promise.steps.iter().map(|step| words.step_sentence(step)).collect(),
        None => {
            let stops = assessment.findings.iter().filter(|own| own.severity == Severity::Stops);
            stops.map(|own| words.cure(own).unwrap_or_else(|| words.line(own))).collect()
        }
    };
    if assessment.verdict == Verdict::NotReady && !steps.is_empty() {
        flow.heading(texts.move_first, 8.0);
        steps.iter().for_each(|own| flow.work(own, Some(Lead::Tick)));
    }
    let is_asked = |facts: &Facts| matches!(facts, Facts::Condition(_) | Facts::HaveReady(_));
    let asked: Vec<String> =
        assessment.findings.iter().filter(|own| is_asked(&own.facts)).map(|own| words.line(own)).collect();
    if !asked.is_empty() {
        flow.heading(texts.before_start, 8.0);
        flow.ticked(&asked, flow.sizes.read);
    }
    // What needs care is not to be missed by who has only this sheet.
    let care = crate::finding::flagged(assessment).filter(|own| own.finding.severity == Severity::Care);
    let said = |own| match in_short {
        true if flow.sizes.read < READ_MM => words.title(own),
        true => words.short_line(own),
        false => words.line(own),
    };
    let care: Vec<(String, String)> =
        care.map(|own| (of.letter_of(own.index, own.number), said(own.finding))).collect();
    if !care.is_empty() {
        flow.heading(words.heading(Severity::Care), 8.0);
        let more = care.len().saturating_sub(MOST_CARE);
        for (letter, line) in care.into_iter().take(MOST_CARE) {
            flow.read(&line, Some(Lead::Sign(letter, Severity::Care)));
            flow.gap(0.5);
        }
        if more > 0 {
            flow.read(&words.key_more(more), None);
        }
    }
}

/// How the marks are laid and the targets set.
pub(super) fn lay(flow: &mut Flow<'_>, of: &Of<'_>, words: &Words<'_>) {
    let texts = words.locale().language.sheets();
    let (arrangement, scene) = (of.now.arrangement, &of.now.assessment.scene);
    if arrangement.aiming.mark_plan.is_empty() {
        flow.heading(texts.lay, 8.0);
        flow.work(words.locale().language.screen().no_marks, None);
    } else {
        flow.heading(texts.lay, 14.0);
        marks(flow, of, words);
        // By so much each plumbed hub lies beside its tyre, where a sheet gave the camber.
        let hubs = words.hubs_off().filter(|_| arrangement.aiming.plumbs_hubs());
        hubs.iter().for_each(|own| flow.work(own, None));
    }
    let standing: Vec<String> = arrangement
        .aiming
        .placements
        .iter()
        .zip(&scene.targets)
        .filter(|(_, target)| !target.lies)
        .map(|(placement, target)| match height_to_set(arrangement, scene, &placement.id) {
            // What the surveyed floor makes of it, as the sheet for concrete has it.
            Some(height) => words.height_to_set(&height),
            None => words.set_height(placement, target.meant.height_mm),
        })
        .collect();
    if !standing.is_empty() {
        flow.heading(texts.set_targets, 8.0);
        standing.iter().for_each(|own| flow.work(own, Some(Lead::Tick)));
    }
}

/// Step by step; what is done in the same way at several wheels, one after another, is said once.
fn marks(flow: &mut Flow<'_>, of: &Of<'_>, words: &Words<'_>) {
    let texts = words.locale().language.sheets();
    let (arrangement, scene) = (of.now.arrangement, &of.now.assessment.scene);
    // A mark that has a name goes by its number on the drawing too.
    let named = |step: usize, said: String| {
        let number = (step + 1).to_string();
        let is_its_name = arrangement.aiming.mark_plan.get(step).is_none_or(|own| own.id.as_str() == number);
        if is_its_name { said } else { texts.numbered(&number, &said) }
    };
    let steps: Vec<(usize, &Construction)> =
        arrangement.aiming.mark_plan.iter().map(|own| &own.construction).enumerate().collect();
    let alike = |a: &(usize, &Construction), b: &(usize, &Construction)| {
        let is_level = |step: usize| scene.slope(step, arrangement).is_none();
        is_level(a.0) && is_level(b.0) && is_alike(a.1, b.1)
    };
    for group in steps.chunk_by(alike) {
        let together = match group {
            [(_, one), _, ..] => words.laid_at_wheels(one),
            _ => None,
        };
        match together {
            Some(said) => {
                flow.work(&said, None);
                let at = group.iter().filter_map(|(step, own)| {
                    let id = arrangement.aiming.mark_plan.get(*step)?.id.as_str();
                    Some(named(*step, words.mark_at_wheel(id, wheel_of(own)?)))
                });
                flow.ticked(&at.collect::<Vec<String>>(), flow.sizes.work);
            }
            None => {
                for (step, _) in group {
                    flow.work(&named(*step, words.instruction(*step, scene)), Some(Lead::Tick));
                }
            }
        }
    }
}

/// Whether two marks are laid in the same way, each at its own wheel.
fn is_alike(a: &Construction, b: &Construction) -> bool {
    match (a, b) {
        (Construction::Outboard { distance: a, .. }, Construction::Outboard { distance: b, .. }) => a == b,
        (Construction::WheelPoint { .. }, Construction::WheelPoint { .. }) => true,
        _ => false,
    }
}

const fn wheel_of(own: &Construction) -> Option<Wheel> {
    match own {
        Construction::Outboard { wheel, .. } | Construction::WheelPoint { wheel } => Some(*wheel),
        _ => None,
    }
}
