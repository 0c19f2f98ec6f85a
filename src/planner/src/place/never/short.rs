//! How much is missing, and between which two: proven from below, and found from above.

use baywright_geometry::{DVec2, PlanPose, angle};

use super::boxes::Boxed;
use super::given::Given;
use super::{Meeting, Met, Never, never, um};
use crate::assessment::Subject;
use crate::never::{Area, Cell, Proof};

/// So many cells each try may take: less than a proof may.
const CELLS: usize = 20_000;
/// So many of the smallest cells are looked at for where it nearly fits.
const NEAREST: usize = 400;
/// From so many of the best of them it is looked farther.
const STARTS: usize = 8;
/// The first step of that, and the one that ends it, mm.
const STEP_MM: f64 = 512.0;
const LEAST_STEP_MM: f64 = 0.2;
/// A turn by a step moves what is so far off by that much, mm.
const LEVER_MM: f64 = 4_000.0;
/// Less than this is no gain, mm.
const SAME_MM: f64 = 1e-3;
/// More is not looked for, mm.
const MOST_MM: f64 = 5_000.0;
/// It is told to this, mm.
const WITHIN_MM: f64 = 1.0;
/// So many tries at most.
const TRIES: usize = 24;

/// What is missing between two of what stands.
#[derive(Clone, Debug, PartialEq)]
pub struct Short {
    /// The two: the second has to give way.
    pub between: [Subject; 2],
    /// As long as the second is not farther away by so much, it fits nowhere: proven, mm.
    pub at_least_mm: f64,
    /// With so much more there is a place at which no solid meets anything, mm; `None` if none was found.
    pub enough_mm: Option<f64>,
    /// Where it would fit with the second out of the way by enough, or, where no such place is known, where the least is in one
    /// another (bay from vehicle).
    pub pose: PlanPose,
    /// What is missing as a line: from the face of the second as far as it has to give way, bay frame, mm.
    pub line: [DVec2; 2],
}

/// What is missing, if two things alone decide it: where they are where it fits best, on both sides of the set-up, and as soon as
/// one of them gives way enough it fits. `None` where that is not so, or not shown in bounded time.
pub fn short(given: &Given, proof: &Proof, is_stopped: &dyn Fn() -> bool) -> Option<Short> {
    let meeting = Meeting::of(given);
    let best = best_pose(&meeting, proof, is_stopped)?;
    let met = meeting.at(&best);
    let subject = |nth: usize| given.stands.get(nth).map(|own| &own.0);
    let first = met.first()?;
    let second =
        met.iter().find(|own| own.1.dot(first.1) < -0.9 && subject(own.2.1) != subject(first.2.1))?;
    // Sooner the one that stands by itself is told to be in the way of the other than the room.
    let is_room = |own: &&Met| !matches!(subject(own.2.1), Some(Subject::Thing(_) | Subject::Runway(_)));
    let mut both = [first, second];
    both.sort_by_key(|own| !is_room(own));
    [[both[0], both[1]], [both[1], both[0]]].into_iter().find_map(|[stays, gives]| {
        let subjects = [subject(stays.2.1)?, subject(gives.2.1)?];
        let (at_least_mm, enough) = between(given, subjects[1], -gives.1, is_stopped)?;
        let pose = enough.map_or(best, |own| own.1);
        // There mostly another part of the set-up is the deepest in it.
        let met = meeting.at(&pose);
        let deepest =
            met.iter().find(|own| subject(own.2.1) == Some(subjects[1])).map_or(gives.2, |own| own.2);
        let face = meeting.face(&pose, deepest).unwrap_or(pose.origin());
        let line = [face, face - gives.1 * at_least_mm];
        let enough_mm = enough.map(|own| own.0);
        Some(Short { between: subjects.map(Subject::clone), at_least_mm, enough_mm, pose, line })
    })
}

/// Where it fits best, as far as is seen from the smallest cells: the pose at which the deepest two are in one another the least.
/// It need not be the best there is; what is said of it is proven apart.
fn best_pose(meeting: &Meeting, proof: &Proof, is_stopped: &dyn Fn() -> bool) -> Option<PlanPose> {
    let mut cells: Vec<&Cell> = proof.cells.iter().collect();
    let size = |own: &Cell| {
        let along = |[from, to]: [i64; 2]| (to - from) as f64;
        along(own.places.x) * along(own.places.y) * along(own.headings)
    };
    cells.sort_by(|a, b| size(a).total_cmp(&size(b)));
    let middle = |own: &Cell| Boxed { places: own.places, headings: own.headings }.middle().pose();
    let mut starts: Vec<(f64, PlanPose)> = cells
        .into_iter()
        .take(NEAREST)
        .map(middle)
        .take_while(|_| !is_stopped())
        .map(|pose| (meeting.deepest_at(&pose), pose))
        .collect();
    starts.sort_by(|a, b| a.0.total_cmp(&b.0));
    let ends = starts.into_iter().take(STARTS).take_while(|_| !is_stopped());
    ends.map(|start| eased(meeting, start)).min_by(|a, b| a.0.total_cmp(&b.0)).map(|own| own.1)
}

/// From a pose to one near it at which less is in one another: a step along x, y or in heading as long as that helps, then
/// smaller steps.
fn eased(meeting: &Meeting, start: (f64, PlanPose)) -> (f64, PlanPose) {
    let (mut best, mut step) = (start, STEP_MM);
    while step > LEAST_STEP_MM {
        let (at, heading) = (best.1.origin(), best.1.heading());
        let ways =
            [DVec2::X, -DVec2::X, DVec2::Y, -DVec2::Y].map(|way| PlanPose::new(at + way * step, heading));
        let turns = [1.0, -1.0].map(|way| PlanPose::new(at, angle::wrapped(heading + way * step / LEVER_MM)));
        let tried = ways.into_iter().chain(turns).map(|pose| (meeting.deepest_at(&pose), pose));
        match tried.min_by(|a, b| a.0.total_cmp(&b.0)).filter(|own| own.0 < best.0 - SAME_MM) {
            Some(better) => best = better,
            None => step *= 0.5,
        }
    }
    best
}

/// How far one of what stands may give way, mm, and it is proven still; and the least from which on it is known to fit, with where.
fn between(
    given: &Given,
    gives: &Subject,
    way: DVec2,
    is_stopped: &dyn Fn() -> bool,
) -> Option<(f64, Option<(f64, PlanPose)>)> {
    let (mut low, mut high, mut enough) = (0.0, 64.0, None);
    let mut is_bounded = false;
    for _ in 0..TRIES {
        if is_bounded && high - low <= WITHIN_MM {
            break;
        }
        let by = if is_bounded { (low + high) * 0.5 } else { high };
        match never(&moved(given, gives, way * by), CELLS, is_stopped, &mut |_| {}) {
            Never::Proven(_) => {
                low = by;
                if !is_bounded {
                    high = by * 2.0;
                    if high > MOST_MM {
                        return None;
                    }
                }
            }
            Never::Free(pose) => (high, enough, is_bounded) = (by, Some((by, pose)), true),
            Never::NotProven => (high, is_bounded) = (by, true),
            Never::Stopped => return None,
        }
    }
    (is_bounded && low > 0.0).then_some((low, enough))
}

/// The same with one of what stands elsewhere.
fn moved(given: &Given, gives: &Subject, by: DVec2) -> Given {
    let mut after = given.clone();
    let by = [um(by.x), um(by.y)];
    for (_, solid) in after.stands.iter_mut().filter(|own| own.0 == *gives) {
        solid.ring.iter_mut().for_each(|p| *p = [p[0] + by[0], p[1] + by[1]]);
    }
    let most = by[0].abs().max(by[1].abs()) + 1;
    let grown = |[from, to]: [i64; 2]| [from - most, to + most];
    after.room = Area { x: grown(given.room.x), y: grown(given.room.y) };
    after
}
