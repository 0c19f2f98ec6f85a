//! What the tape read between the marks as they were laid for this car.
//!
//! Rule: as long as nothing was taped, nothing is asked: how surely a plan can be laid is [`super::mark_unsure`]'s. Once something
//! is, all that was read fits together with how surely the marks are laid, and what the marks then say of a target is inside what
//! is allowed, its whole uncertainty of 95 % with it (JCGM 106, guarded acceptance). What is outside by all of it stops; what cannot
//! be told needs care, and so does a reading or a mark that does not fit.
//! Limit: the aiming's tolerance, and the placement's of place.

use baywright_survey::decide::Said;

use super::finding::{Basis, Code, Facts, Finding, Quantity, Severity, Subject};
use super::{Check, Context, finding};
use crate::proof::{Doubt, Figure, FigureOf, Off, said};

pub(super) const CHECK: Check =
    Check { codes: &[Code::LaidOff, Code::LaidUnproven, Code::ReadingOff], whole, ..Check::NONE };

fn whole(context: &Context<'_>, findings: &mut Vec<Finding>) {
    if context.arrangement.marks_taped.is_empty() {
        return;
    }
    let Some((figures, doubt)) = said(context.arrangement, context.scene) else { return };
    // Of each target the worst is said, its direction first.
    let is_out = |own: &&Figure| matches!(own.said, Said::Outside { .. });
    for placement in &context.arrangement.aiming.placements {
        let own = || figures.iter().filter(|own| own.placement == placement.id);
        let worst = own().find(is_out).or_else(|| own().find(|own| !matches!(own.said, Said::Inside { .. })));
        findings.extend(worst.and_then(|figure| of_figure(context, figure)));
    }
    findings.extend(of_doubt(context, &doubt));
}

fn of_figure(context: &Context<'_>, figure: &Figure) -> Option<Finding> {
    let severity = match figure.said {
        Said::Inside { .. } => return None,
        Said::Outside { .. } => Severity::Stops,
        Said::CannotSay { .. } | Said::NoFigure => Severity::Care,
    };
    let of = vec![Subject::Target(figure.placement.clone()), Subject::Mark(figure.mark.clone())];
    let mark = context.scene.marks.iter().find(|own| own.id == figure.mark)?;
    let at = mark.at.ok()?.extend(mark.lies_mm);
    let basis = Basis::Procedure(context.arrangement.aiming.provenance.clone());
    let facts = match severity {
        Severity::Stops => Facts::LaidOff(figure.clone()),
        Severity::Care | Severity::Note => Facts::LaidUnproven(figure.clone()),
    };
    let (measured, limit) = match figure.of {
        FigureOf::Direction | FigureOf::Turn => {
            (Quantity::Angle(figure.off.abs()), Quantity::Angle(figure.allowed))
        }
        FigureOf::Distance | FigureOf::Aside => {
            (Quantity::Length(figure.off.abs()), Quantity::Length(figure.allowed))
        }
    };
    Some(finding(facts, severity, of, at, basis).against(measured, limit))
}

fn of_doubt(context: &Context<'_>, doubt: &Doubt) -> Option<Finding> {
    let first = match doubt {
        Doubt::Unread | Doubt::Fits => return None,
        Doubt::One(own) | Doubt::MoreThanOne(own) => own,
        Doubt::CannotTell(all) => all.first()?,
    };
    let (of, mark) = match first {
        Off::Reading { from, to, .. } => (Subject::Run(from.clone(), to.clone()), to),
        Off::Mark { mark, .. } | Off::Apart { mark, .. } => (Subject::Mark(mark.clone()), mark),
    };
    let mark = context.scene.marks.iter().find(|own| own.id == *mark)?;
    let at = mark.at.ok()?.extend(mark.lies_mm);
    let facts = Facts::ReadingOff(doubt.clone());
    Some(finding(facts, Severity::Care, vec![of], at, Basis::CommonPractice))
}

#[cfg(test)]
mod tests {
    use crate::check::testing::*;
    use crate::model::MarkTaped;

    /// All distances as they should read, to the millimetre, off by these.
    fn taped(off: impl Fn(&str, &str) -> f64) -> Arrangement {
        let mut arrangement = clear();
        arrangement.aiming.placements[0].target.error = AimError::PLACE;
        let readings = assess(&arrangement).scene.readings;
        arrangement.marks_taped = readings
            .into_iter()
            .map(|own| {
                let read_mm = (own.distance_mm + off(own.from.as_str(), own.to.as_str())).round();
                MarkTaped::new(own.from, own.to, read_mm)
            })
            .collect();
        arrangement
    }

    #[test]
    fn what_was_taped_as_meant_says_nothing() {
        let arrangement = taped(|_, _| 0.0);
        for code in [Code::LaidOff, Code::LaidUnproven, Code::ReadingOff] {
            none(&arrangement, code);
            none(&clear(), code);
        }
    }

    #[test]
    fn one_reading_alone_proves_nothing_yet() {
        let mut arrangement = taped(|_, _| 0.0);
        arrangement.marks_taped.truncate(1);
        arrangement.aiming.tolerance.azimuth_rad = angle::radians(0.03);
        check(&arrangement, Code::LaidUnproven, Severity::Care, Some(0.0));
    }

    #[test]
    fn a_misread_distance_needs_care() {
        let arrangement = taped(|from, to| if (from, to) == ("3", "6") { 12.0 } else { 0.0 });
        let found = check(&arrangement, Code::ReadingOff, Severity::Care, None);
        assert_eq!(found.subjects, [Subject::Run("3".into(), "6".into())]);
    }

    /// All marks ahead of the car 30 mm to its left, as a line taken from the wrong spot would lay them: 0.4° from the sensor.
    #[test]
    fn marks_that_lie_aside_stop() {
        let plain = taped(|_, _| 0.0);
        let scene = assess(&plain).scene;
        let mut arrangement = plain.clone();
        for own in &mut arrangement.marks_taped {
            let at = |id: &Id| {
                let mark = scene.marks.iter().find(|mark| mark.id == *id).unwrap();
                let aside = if ["5", "6", "T"].contains(&id.as_str()) { 30.0 } else { 0.0 };
                mark.at.unwrap() + scene.bay_from_vehicle.turned(DVec2::new(0.0, aside))
            };
            own.read_mm = at(&own.from).distance(at(&own.to)).round();
        }
        let found = check(&arrangement, Code::LaidOff, Severity::Stops, None);
        assert!(number(found.measured.unwrap()) > angle::radians(0.2), "{found:?}");
    }
}
