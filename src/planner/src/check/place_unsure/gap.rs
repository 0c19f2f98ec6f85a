//! How far something is from a region that a check claims: beside it, over it or under it.

use baywright_geometry::clearance::{Clearance, clearance};
use baywright_geometry::distance::{Separation, distance, distance_to_point, distance_to_segment};
use baywright_geometry::overlap::{overlaps, overlaps_by};
use baywright_geometry::share::{Share, target_share};
use baywright_geometry::{DVec2, DVec3, Located, Outline, Prism, Span, locate, locate_in};

use crate::check::claim::{Claim, Volume, anywhere, is_in_run, is_over_mark};
use crate::check::finding::Subject;
use crate::check::obstacle::{Obstacle, Shape};
use crate::check::sight::HIDDEN_FROM;
use crate::check::{Context, SPEAKS_FROM_MM, middle_of_both, outside_room};

/// How far an obstacle is from a claim, and whether it is in it by less than is spoken of.
pub(super) struct Gap {
    /// Between their nearest surfaces, mm; 0 if it is in it.
    pub mm: f64,
    /// Where, in the bay.
    pub at: DVec3,
    pub is_in: bool,
}

/// `None` if it passes over or under, or is in it so far that a check of its own speaks.
pub(super) fn gap(context: &Context<'_>, claim: &Claim, obstacle: &Obstacle<'_>) -> Option<Gap> {
    let heights = match &obstacle.shape {
        Shape::Thing(_, prism) => prism.span,
        Shape::Runway(prism) | Shape::Carrying(prism) | Shape::Proud(prism, _) => prism.span,
        Shape::Wall(wall, _) => return gap_to_wall(context, claim, obstacle, *wall),
        Shape::Ceiling(height, _) => return under_ceiling(claim, obstacle, *height),
    };
    let height = (heights.bottom() + heights.top()) * 0.5;
    let prism = match &obstacle.shape {
        Shape::Thing(_, prism) => prism,
        Shape::Runway(prism) | Shape::Carrying(prism) | Shape::Proud(prism, _) => prism,
        Shape::Wall(..) | Shape::Ceiling(..) => return None,
    };
    let outline = &prism.outline;
    match &claim.volume {
        Volume::Prism(own) if matches!(claim.of, Subject::Zone(_)) => in_space(own, prism),
        Volume::Prism(own) => {
            if own.span.shared(&heights).is_none() {
                return over_or_under(claim, obstacle, prism);
            }
            match distance(&own.outline, outline) {
                Separation::Overlapping => in_space(own, prism),
                apart => beside(apart, height),
            }
        }
        // Room to work in is never asked for here.
        Volume::Within { .. } => None,
        Volume::Line { line, free } if is_in_run(&heights, free) => {
            beside(distance_to_segment(outline, line), 0.0)
        }
        Volume::Spot { at, free } if is_over_mark(&heights, free) => {
            // What touches the edge of what is proud of the floor lies on it, and its own check says so.
            let is_said =
                matches!(obstacle.shape, Shape::Proud(..)) && locate(outline, *at) != Located::Outside;
            if is_said { None } else { beside(distance_to_point(outline, *at), 0.0) }
        }
        Volume::Line { .. } | Volume::Spot { .. } => None,
        Volume::Sight { eye, face } => {
            let Some(region) = claim.volume.at(&heights) else {
                return over_or_under(claim, obstacle, prism);
            };
            match distance(&region, outline) {
                Separation::Overlapping => {
                    let hides = match target_share(*eye, face, &[prism]) {
                        Share::Seen(seen) => 1.0 - seen.share > HIDDEN_FROM,
                        Share::EyeInside { .. } => true,
                        Share::Behind => return None,
                    };
                    let at = middle(&region, outline).extend(height);
                    (!hides).then_some(Gap { mm: 0.0, at, is_in: true })
                }
                apart => nearer(beside(apart, height), over_or_under(claim, obstacle, prism)),
            }
        }
        Volume::Picture(_) | Volume::Fresnel { .. } => {
            let Some(region) = claim.volume.at(&heights) else {
                return over_or_under(claim, obstacle, prism);
            };
            let apart = distance(&region, outline);
            let beside = beside(apart, height)?;
            nearer(Some(beside), over_or_under(claim, obstacle, prism))
        }
    }
}

fn nearer(a: Option<Gap>, b: Option<Gap>) -> Option<Gap> {
    match (a, b) {
        (Some(a), Some(b)) => Some(if b.mm < a.mm { b } else { a }),
        (a, b) => a.or(b),
    }
}

/// How much lower something that hangs would have to hang, or how much higher something would have to stand, to be in a claim:
/// heights are known as well as the place is, and what is low is no more than as high again. `None` if that is more than is
/// uncertain.
fn over_or_under(claim: &Claim, obstacle: &Obstacle<'_>, prism: &Prism) -> Option<Gap> {
    let known_mm = match obstacle.shape {
        Shape::Thing(..) => obstacle.known_mm,
        Shape::Runway(_) | Shape::Proud(..) => obstacle.known_mm.min(prism.span.top()),
        Shape::Carrying(_) | Shape::Wall(..) | Shape::Ceiling(..) => return None,
    };
    let is_in = |by: f64| {
        let bottom = prism.span.bottom();
        let bottom = if bottom > 0.0 { bottom - by } else { bottom };
        let span = Span::new(bottom, prism.span.top() + by).ok()?;
        claim.volume.at(&span).filter(|region| overlaps(region, &prism.outline)).map(|_| span)
    };
    // Of an upright solid it is plain by how much.
    let (mut out, mut within) = match &claim.volume {
        Volume::Prism(own) => {
            let apart = prism.span.bottom().max(own.span.bottom()) - prism.span.top().min(own.span.top());
            (apart, (apart + SPEAKS_FROM_MM).min(known_mm))
        }
        _ => (0.0, known_mm),
    };
    let mut heights = is_in(within)?;
    while within - out > SPEAKS_FROM_MM {
        let middle = (out + within) * 0.5;
        match is_in(middle) {
            Some(span) => (within, heights) = (middle, span),
            None => out = middle,
        }
    }
    let hangs_lower = heights.bottom() < prism.span.bottom() && prism.span.bottom() > 0.0;
    let height = if hangs_lower { prism.span.bottom() } else { prism.span.top() };
    Some(Gap {
        mm: if out > 0.0 { out } else { within },
        at: prism.outline.bounds().centre().extend(height),
        is_in: false,
    })
}

/// How much is left over what must be inside, if that is less than the ceiling's height is known to.
fn under_ceiling(claim: &Claim, obstacle: &Obstacle<'_>, ceiling: f64) -> Option<Gap> {
    let left = ceiling - claim.volume.heights()?.top();
    let at = claim.around.centre().extend(ceiling);
    let is_near = -SPEAKS_FROM_MM < left && left < obstacle.known_mm;
    is_near.then_some(Gap { mm: left.max(0.0), at, is_in: left < 0.0 })
}

/// The same of a wall, which lets through what fits under the lintel of an open door: then it is about the jambs, about where
/// the ground beyond ends, and about the lintel.
fn gap_to_wall(context: &Context<'_>, claim: &Claim, obstacle: &Obstacle<'_>, wall: usize) -> Option<Gap> {
    let heights = claim.volume.heights()?;
    let region = claim.volume.at(&anywhere()?)?;
    let room = &context.scene.room;
    let held = room.holding(&heights);
    let height = (heights.bottom().max(0.0) + heights.top()) * 0.5;
    // What lies wholly beyond the wall is another check's.
    let is_beyond = |p: DVec2| {
        locate_in(&held, p) == Located::Outside && !overlaps(&region, &held.clone().into_owned().into())
    };
    let mut nearest = None;
    for piece in room.wall_at(wall, &heights).iter().chain(&room.ground_ends_at(wall, &heights)) {
        let gap = match distance_to_segment(&region, piece) {
            // That it reaches past by less than is spoken of is all that is left to say.
            Separation::Overlapping => return past_wall(context, region, heights),
            Separation::Apart { from, .. } if is_beyond(from) => continue,
            Separation::Apart { gap, to, .. } => Gap { mm: gap, at: to.extend(height), is_in: false },
            Separation::Touching { at } => Gap { mm: 0.0, at: at.extend(height), is_in: false },
        };
        nearest = nearer(nearest, Some(gap));
    }
    // How high a lintel is, is known as well as where its wall is.
    let lintels = room.just_under(wall, &heights, obstacle.known_mm);
    let over = lintels.filter(|(line, _)| distance_to_segment(&region, line) == Separation::Overlapping);
    let over =
        over.map(|(line, left)| Gap { mm: left, at: line.at(0.5).extend(heights.top()), is_in: false });
    over.fold(nearest, |nearest, own| nearer(nearest, Some(own)))
}

/// A region that reaches past a wall by less than is spoken of. Through an open door it reaches past none.
fn past_wall(context: &Context<'_>, region: Outline, span: Span) -> Option<Gap> {
    let past = outside_room::protruding(context, &Prism::new(region, span));
    let deepest = past.first().filter(|deepest| deepest.depth < SPEAKS_FROM_MM)?;
    Some(Gap { mm: 0.0, at: deepest.deepest.extend(span.bottom().max(0.0)), is_in: true })
}

fn middle(a: &Outline, b: &Outline) -> DVec2 {
    middle_of_both(&a.bounds(), &b.bounds())
}

fn beside(apart: Separation, height: f64) -> Option<Gap> {
    match apart {
        Separation::Apart { gap, to, .. } => Some(Gap { mm: gap, at: to.extend(height), is_in: false }),
        Separation::Touching { at } => Some(Gap { mm: 0.0, at: at.extend(height), is_in: false }),
        Separation::Overlapping => None,
    }
}

fn in_space(own: &Prism, prism: &Prism) -> Option<Gap> {
    // Most of what is in something is in it by far.
    let is_far_in = || overlaps_by(&own.outline, &prism.outline, SPEAKS_FROM_MM);
    if own.span.shared(&prism.span).is_some() && is_far_in() {
        return None;
    }
    match clearance(own, prism) {
        Clearance::Clear { gap, to, .. } => Some(Gap { mm: gap, at: to, is_in: false }),
        Clearance::Touching { at } => Some(Gap { mm: 0.0, at, is_in: false }),
        Clearance::Intrudes(intrusion) => (intrusion.depth < SPEAKS_FROM_MM).then(|| {
            let at = middle(&own.outline, &prism.outline).extend(intrusion.heights.bottom());
            Gap { mm: 0.0, at, is_in: true }
        }),
    }
}
