//! Straight tape and laser runs between marks.
//!
//! Rule: nothing stands in a run at its height, and it passes through no wall. A tape lies on the floor; a line laser
//! lights the floor from a low tripod. The car's own tyres are not looked at: a mark plan that runs along the wheel
//! points is done with strings beside them.
//! Limit: see [`top_of_run`].

use baywright_geometry::distance::{Separation, distance_to_segment};
use baywright_geometry::marks::{Run, Tool};
use baywright_geometry::predicate::{Meeting, meeting};
use baywright_geometry::{Bounds, Segment};

use super::{Context, finding, thing_subject, wall_id};
use crate::assessment::{Basis, Code, Finding, Severity, Subject};
use crate::model::Id;
use crate::scene::PlacedRun;

/// How high above the floor a run must be free: a tape lies flat (20 mm over a joint or a cable); a line laser on a low
/// tripod lights the floor from 100 mm (common practice, no source).
pub(crate) const fn top_of_run(tool: Tool) -> f64 {
    match tool {
        Tool::PlumbLine | Tool::Tape | Tool::TapeAndSquare => 20.0,
        Tool::LineLaser => 100.0,
    }
}

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for placed in &context.scene.runs {
        let segment = Segment::new(placed.run.from, placed.run.to);
        let Some(bounds) = Bounds::around([segment.from, segment.to]) else { continue };
        for seen in context.things_near(bounds) {
            let prism = &seen.placed.prism;
            if prism.span.bottom() < top_of_run(placed.run.tool)
                && distance_to_segment(&prism.outline, &segment) == Separation::Overlapping
            {
                let nearest = segment.nearest(seen.placed.bounds.centre());
                blocked(context, thing_subject(&seen.thing.id), placed, nearest, findings);
            }
        }
        if context.is_whole() {
            through_walls(context, placed, &segment, findings);
        }
    }
}

fn through_walls(context: &Context<'_>, placed: &PlacedRun, run: &Segment, findings: &mut Vec<Finding>) {
    for (edge, wall) in context.scene.room.edges().enumerate() {
        if meeting(run, &wall) != Meeting::Cross {
            continue;
        }
        // A run that ends outside the room is the mark's own finding; here both ends are inside.
        let ends_inside = [run.from, run.to].iter().all(|&end| {
            use baywright_geometry::contain::{Place, locate};
            locate(&context.scene.room.clone().into(), end) != Place::Outside
        });
        if let (true, Some(id)) = (ends_inside, wall_id(context.arrangement, edge)) {
            blocked(context, Subject::Wall(id.into_owned()), placed, wall.at(0.5), findings);
        }
    }
}

fn blocked(
    context: &Context<'_>,
    by: Subject,
    placed: &PlacedRun,
    at: baywright_geometry::DVec2,
    findings: &mut Vec<Finding>,
) {
    let Some((from, to)) = ends(context, &placed.run) else { return };
    let subjects = vec![by, Subject::Run(from, to)];
    // Two runs of one step may share their ends.
    if findings.iter().any(|f| f.code == Code::RunBlocked && f.subjects == subjects) {
        return;
    }
    findings.push(finding(
        Code::RunBlocked,
        Severity::Stops,
        subjects,
        at.extend(0.0),
        Basis::CommonPractice,
    ));
}

/// The marks at the two ends of a run.
fn ends(context: &Context<'_>, run: &Run) -> Option<(Id, Id)> {
    let named = |p| {
        let mark = context.scene.marks.iter().find(|mark| mark.at == Ok(p))?;
        Some(mark.id.clone())
    };
    Some((named(run.from)?, named(run.to)?))
}
