//! What the radar may hear beside its target.
//!
//! Rule: no echo of what stands around may be taken for the target by a radar that cannot tell the two apart, or by a routine that takes
//! the strongest; none draws the aim further than the aiming allows, alone or together with the others. Straight echoes, and those by
//! one mirror out and one back; what two mirrors send round is told beside the drawing only. The target seen again by the even floor or
//! the ceiling is no finding: every procedure is made over a floor (common practice, no source). By a grate, a cover or a drain it is one.
//! Limit: the aim's own tolerance; from about -6 dB on an echo may be taken for the target (common practice, no source). Ideal shapes, by
//! published formulas ([`baywright_radar`]): it needs care and never stops, and makes nothing ready that is not.

use baywright_radar::pull::MAY_TAKE_DB;

use super::finding::{Basis, Code, Facts, Finding, Quantity, Severity, Subject};
use super::{Check, Context, Remedy, finding};
use crate::echoes::{Does, Echo, Seen, With, seen, together};
use crate::model::Id;

/// Of so many things that together draw the aim the names are told.
const MOST_NAMED: usize = 3;

pub(super) const CHECK: Check =
    Check { codes: &[Code::EchoTaken, Code::EchoDraws, Code::EchoesTogether], whole, remedy, ..Check::NONE };

/// What takes an echo away is looked for beside the frame: see [`crate::echoes::Cure`].
const fn remedy(_: &Finding) -> Remedy {
    Remedy::None
}

fn whole(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let limits = context.arrangement.aiming.tolerance;
    let limits = [limits.azimuth_rad, limits.elevation_rad];
    for own in seen(context.arrangement, context.scene, With::WhatMatters) {
        of_target(context, &own, limits, findings);
    }
}

/// What is heard beside one target: each culprit once, by the worst of its echoes.
fn of_target(context: &Context<'_>, seen: &Seen, limits: [f64; 2], findings: &mut Vec<Finding>) {
    let told: Vec<&Echo> = seen.echoes.iter().filter(|own| own.culprit().is_some()).collect();
    let mut found: Vec<Finding> = Vec::new();
    for echo in told.iter().filter(|own| own.heard.matters()) {
        let Some(of) = echo.culprit() else { continue };
        let subjects = vec![of.clone(), Subject::Target(seen.target.clone())];
        let own = alone(context, echo, subjects);
        match found.iter_mut().find(|known| known.subjects == own.subjects) {
            Some(known) if is_worse(&own, known) => *known = own,
            Some(_) => {}
            None => found.push(own),
        }
    }
    if found.is_empty() {
        found.extend(all_together(context, &seen.target, &told, limits));
    }
    findings.append(&mut found);
}

/// What no echo does alone, all of them may do together.
fn all_together(context: &Context<'_>, target: &Id, told: &[&Echo], limits: [f64; 2]) -> Option<Finding> {
    let (by, limit) = match together(told.iter().map(|own| &own.heard), limits)? {
        Does::Draws { by, limit, .. } if by > limit => (by, limit),
        Does::Takes => (f64::INFINITY, 0.0),
        _ => return None,
    };
    let draw = || told.iter().filter(|own| matches!(own.heard.does, Does::Takes | Does::Draws { .. }));
    let strongest = draw().next()?;
    let mut subjects = vec![Subject::Target(target.clone())];
    for of in draw().filter_map(|own| own.culprit()) {
        if !subjects.contains(of) {
            subjects.push(of.clone());
        }
    }
    subjects.truncate(MOST_NAMED + 1);
    let place = strongest.way.get(1).copied().unwrap_or(strongest.heard.believed);
    let found = finding(Facts::EchoesTogether, Severity::Care, subjects, place, aims(context));
    Some(if by.is_finite() { found.against(Quantity::Angle(by), Quantity::Angle(limit)) } else { found })
}

/// The aiming's own figures.
fn aims(context: &Context<'_>) -> Basis {
    Basis::Procedure(context.arrangement.aiming.provenance.clone())
}

fn alone(context: &Context<'_>, echo: &Echo, subjects: Vec<Subject>) -> Finding {
    let (heard, place) = (&echo.heard, echo.way.get(1).copied().unwrap_or(echo.heard.believed));
    let power = |db: f64| Quantity::Ratio(libm::pow(10.0, db / 10.0));
    let (facts, measured, limit, basis) = match heard.does {
        Does::Draws { by, limit, .. } => {
            let facts = Facts::EchoDraws(Box::new(echo.clone()));
            (facts, Quantity::Angle(by), Quantity::Angle(limit), aims(context))
        }
        does => {
            let limit_db = if matches!(does, Does::Apart { .. }) { 0.0 } else { MAY_TAKE_DB };
            let facts = Facts::EchoTaken(Box::new(echo.clone()));
            (facts, power(heard.level_db.high()), power(limit_db), Basis::CommonPractice)
        }
    };
    finding(facts, Severity::Care, subjects, place, basis).against(measured, limit)
}

/// Of two findings of one culprit: what may be taken for the target is worse than what draws, then what is more.
fn is_worse(own: &Finding, known: &Finding) -> bool {
    let rank = |of: &Finding| match of.measured {
        Some(Quantity::Ratio(more)) => (true, more),
        Some(Quantity::Angle(more)) => (false, more),
        _ => (false, 0.0),
    };
    let (own, known) = (rank(own), rank(known));
    own.0.cmp(&known.0).then(own.1.total_cmp(&known.1)).is_gt()
}
