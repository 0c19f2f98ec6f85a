//! Which aimings fit where: a list of cars and aimings against the places of a layout.
//!
//! A place is where the car of a set-up stands, a bay of the hall, or all of the room. Each answer is one of the checks' own
//! ([`crate::judge`]) for the car at one pose. A search that found nothing found nothing at headings a degree apart, and that is what
//! is told; that a car never fits is said only where it is proven (`proven`).

mod best_place;
mod changes;
mod curve;
mod doors;
mod lines;
mod planned;
mod proven;
mod room_size;
mod there;
mod together;
mod unlocked;

use baywright_geometry::{DVec2, PlanPose, Polygon, Region, angle};

use crate::assess::assess;
use crate::assessment::{Finding, Severity, Step, Verdict};
use crate::judge::judge;
use crate::model::{Arrangement, Id, Layout};
use crate::place::{
    ByTape, Kept, Margin, Offer, Places, Search, Slack, Spot, best_spots_of, headings, in_whole_mm, invited,
    stood,
};
use crate::scene::Scene;

pub use best_place::{BestPlace, FitMap, Grid, Heard, MOST_STEPS, best_place, fit_map, heard};
pub use changes::{Change, OfChanges, changed, ground_mm};
pub use curve::Curve;
pub use doors::{DoorStays, doors_that_stay};
pub use lines::{Line, lines_of_car, lines_of_layout, lines_of_visit, weigh};
pub use planned::{FitThere, Planned};
pub use proven::{Proven, Settled, settled};
pub use room_size::{
    Along, Needs, RoomSize, Strip, in_empty_room, in_room, needs, smallest, smallest_for_width,
};
pub use there::{edits_there, there};
pub use together::{Purse, Together, together};
pub use unlocked::{EachAlone, SetUnlocks, Unlocked, changes_of, ranked, unlocked, unlocked_by_all};

/// A place without slack is tried well inside a shape of places: within so many mm of the deepest, the finer the narrower it is. A
/// strip that is narrower than twice the last is no place to park.
const WITHIN_MM: [f64; 3] = [5.0, 1.0, 0.2];
/// In so many shapes for each heading.
const MOST_TRIED: usize = 20;

/// What the place of a column is.
#[derive(Clone, Debug, PartialEq)]
pub enum Place {
    /// Where the car of a set-up stands.
    Parked {
        /// The set-up; of several at the same place the first.
        of: Id,
        /// Bay from vehicle.
        pose: PlanPose,
        /// The runways that carry the car there.
        on_runways: Vec<Id>,
        /// The bay of the hall that it is in.
        in_bay: Option<Id>,
    },
    /// Anywhere in a bay of the hall.
    Bay(Id),
    /// Anywhere in the room.
    Room,
}

/// The places of a layout: where the cars of its set-ups stand, each once, then its bays, then all of the room.
pub fn places_of(layout: &Layout) -> Vec<Place> {
    let mut places: Vec<Place> = Vec::new();
    for saved in &layout.arrangements {
        let place = Place::Parked {
            of: saved.id.clone(),
            pose: saved.parked,
            on_runways: saved.on_runways.clone(),
            in_bay: saved.in_bay.clone(),
        };
        if !places.iter().any(|own| is_same(own, &place)) {
            places.push(place);
        }
    }
    places.extend(layout.bay.bays.iter().map(|own| Place::Bay(own.id.clone())));
    places.push(Place::Room);
    places
}

/// Whether two set-ups' cars stand at the same place.
fn is_same(a: &Place, b: &Place) -> bool {
    match (a, b) {
        (
            Place::Parked { pose, on_runways, in_bay, .. },
            Place::Parked { pose: other, on_runways: runways, in_bay: bay, .. },
        ) => pose == other && on_runways == runways && in_bay == bay,
        _ => a == b,
    }
}

/// What is found of an aiming at a place.
#[derive(Clone, Debug, PartialEq)]
pub enum Cell {
    /// Nothing stops it there.
    Fits(Stands),
    /// Nothing stops it there once these moves are done.
    AfterMoves {
        /// Where the car stands, bay from vehicle.
        pose: PlanPose,
        /// What is done, in order; none of it moves the car.
        steps: Vec<Step>,
        /// What the verdict is then.
        verdict: Verdict,
    },
    /// Something stops it there, and nothing at another place of the room.
    Elsewhere(Stands),
    /// No place was found.
    NoneFound(NoneFound),
}

/// A place at which nothing stops an aiming.
#[derive(Clone, Debug, PartialEq)]
pub struct Stands {
    /// Bay from vehicle.
    pub pose: PlanPose,
    /// How far off it the car may stand so that nothing stops.
    pub slack: Slack,
    /// Whether that is as much as cars are parked off.
    pub meets_margin: bool,
    /// Ready, or with care.
    pub verdict: Verdict,
    /// How many findings need care there.
    pub care: usize,
}

/// A search that found nothing.
#[derive(Clone, Debug, PartialEq)]
pub struct NoneFound {
    /// A pose that was looked at: the one with the fewest stops of the set-up's own and of those in the middle.
    pub pose: PlanPose,
    /// What stops there.
    pub stops: Vec<Finding>,
    /// Whether that stops wherever the car stands.
    pub is_everywhere: bool,
    /// Whether the search was stopped before its end.
    pub is_partial: bool,
}

/// The answers for a line, one for each place that was looked at.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// One for each place, in their order; `None` where the search was stopped before it.
    pub cells: Vec<Option<Cell>>,
    /// Whether moves were looked for wherever they may help; else no cell is [`Cell::AfterMoves`], which is no answer to that.
    pub has_moves: bool,
}

impl Row {
    /// Whether it was stopped before its end.
    pub fn is_partial(&self) -> bool {
        let stopped = |own: &Option<Cell>| match own {
            None => true,
            Some(Cell::NoneFound(none)) => none.is_partial,
            Some(_) => false,
        };
        self.cells.iter().any(stopped)
    }
}

/// The answers for a line at some places. Each is the same, whatever other places are asked. Moves are looked for if that is asked:
/// it takes much longer than the rest, and [`Row::with_moves`] does it later.
pub fn row(
    line: &Line,
    places: &[Place],
    margin: &Margin,
    with_moves: bool,
    is_stopped: &dyn Fn() -> bool,
) -> Row {
    let row = where_it_fits(line, places, margin, is_stopped);
    if with_moves { row.with_moves(line, places, is_stopped) } else { row }
}

impl Row {
    /// The same answers of a line at the same places, with the moves that clear what stops where it fits not.
    pub fn with_moves(mut self, line: &Line, places: &[Place], is_stopped: &dyn Fn() -> bool) -> Self {
        // A place is asked about once, however many cells speak of it.
        let mut known: Vec<(Arrangement, Option<Cell>)> = Vec::new();
        let mut ask = |there: Arrangement| match known.iter().find(|(own, _)| *own == there) {
            Some((_, moves)) => moves.clone(),
            None => {
                let moves = after_moves(&there);
                known.push((there, moves.clone()));
                moves
            }
        };
        for (cell, place) in self.cells.iter_mut().zip(places) {
            let own = &line.arrangement;
            let tried = match (&*cell, place) {
                (Some(Cell::Elsewhere(_) | Cell::NoneFound(_)), Place::Parked { .. }) => {
                    parked_at(own, place).into_iter().collect()
                }
                (Some(Cell::NoneFound(none)), Place::Room) if !none.is_partial => {
                    tried_in(own, &own.bay.room, true)
                }
                (Some(Cell::NoneFound(none)), Place::Bay(id)) if !none.is_partial => {
                    let (own, is_own) = in_that_bay(own, id);
                    let bay = own.bay.bays.iter().find(|bay| bay.id == *id);
                    let floor = bay.map_or_else(|| own.bay.room.clone(), |bay| bay.outline.clone());
                    tried_in(&own, &floor, is_own)
                }
                _ => Vec::new(),
            };
            for there in tried {
                if is_stopped() {
                    return self;
                }
                if let Some(moves) = ask(there) {
                    *cell = Some(moves);
                    break;
                }
            }
        }
        self.has_moves = true;
        self
    }
}

/// The answers without moves.
fn where_it_fits(line: &Line, places: &[Place], margin: &Margin, is_stopped: &dyn Fn() -> bool) -> Row {
    let search = Search::new(&line.arrangement);
    let mut in_room: Option<Cell> = None;
    let cells = places.iter().map(|place| {
        if is_stopped() {
            return None;
        }
        let anywhere = |in_room: &mut Option<Cell>| -> Cell {
            in_room.get_or_insert_with(|| in_all(line, &search, margin, is_stopped)).clone()
        };
        Some(match place {
            Place::Room => anywhere(&mut in_room),
            Place::Bay(id) => in_bay(line, &search, id, margin, is_stopped),
            Place::Parked { .. } => match at_place(line, &search, place, margin) {
                Cell::NoneFound(none) => match anywhere(&mut in_room) {
                    Cell::Fits(own) => Cell::Elsewhere(own),
                    Cell::NoneFound(NoneFound { is_partial, .. }) => {
                        Cell::NoneFound(NoneFound { is_partial, ..none })
                    }
                    _ => Cell::NoneFound(none),
                },
                told => told,
            },
        })
    });
    Row { cells: cells.collect(), has_moves: false }
}

/// A set-up with its car where that of another stands; `None` of a place that is none of a car.
fn parked_at(own: &Arrangement, place: &Place) -> Option<Arrangement> {
    let Place::Parked { pose, on_runways, in_bay, .. } = place else { return None };
    let is_own = own.parked == *pose && own.on_runways == *on_runways && own.in_bay == *in_bay;
    // Where it stands already, what was measured of that place counts.
    let mut there = if is_own { own.clone() } else { stood(own, *pose) };
    there.on_runways.clone_from(on_runways);
    if there.in_bay != *in_bay {
        there.kept_empty.clear();
        there.in_bay.clone_from(in_bay);
    }
    Some(there)
}

/// A line with its car at the place of a set-up.
fn at_place(line: &Line, search: &Search, place: &Place, margin: &Margin) -> Cell {
    let own = &line.arrangement;
    let there = parked_at(own, place).unwrap_or_else(|| own.clone());
    let pose = there.parked;
    let judged = judge(&there);
    if judged.verdict != Verdict::NotReady {
        let carried = (there.on_runways != own.on_runways).then(|| Search::new(&there));
        let slack = carried.as_ref().unwrap_or(search).slack_at(pose);
        // What was read at the place itself may clear what a new place would leave open: it has no slack then.
        let slack = slack.unwrap_or(Slack { mm: 0.0, rad: 0.0 });
        let care = judged.count(Severity::Care);
        let meets_margin = slack.mm >= margin.mm && slack.rad >= margin.rad;
        return Cell::Fits(Stands { pose, slack, meets_margin, verdict: judged.verdict, care });
    }
    let stops = judged.findings.into_iter().filter(|own| own.severity == Severity::Stops).collect();
    let is_everywhere = !search.everywhere().is_empty();
    Cell::NoneFound(NoneFound { pose, stops, is_everywhere, is_partial: false })
}

/// The moves that clear all that stops, if the cures know some and none of them is of the car.
fn after_moves(there: &Arrangement) -> Option<Cell> {
    let promise = assess(there).promise?;
    let of_car = promise.steps.iter().any(|step| matches!(step, Step::MoveCar { .. }));
    (!of_car && promise.verdict != Verdict::NotReady).then_some(Cell::AfterMoves {
        pose: there.parked,
        steps: promise.steps,
        verdict: promise.verdict,
    })
}

/// A line anywhere in its room.
fn in_all(line: &Line, search: &Search, margin: &Margin, is_stopped: &dyn Fn() -> bool) -> Cell {
    let own = &line.arrangement;
    let (found, is_partial) = spots(search, own, margin, is_stopped);
    match best_of(own, &found, margin) {
        Some(stands) => Cell::Fits(stands),
        None => none_found(own, search, &own.bay.room, true, is_partial),
    }
}

/// A set-up in a bay of its hall, and whether it is its own.
fn in_that_bay(own: &Arrangement, id: &Id) -> (Arrangement, bool) {
    let mut own = own.clone();
    let is_own = own.in_bay.as_ref() == Some(id);
    if !is_own {
        own.kept_empty.clear();
        own.in_bay = Some(id.clone());
    }
    (own, is_own)
}

/// A line in a bay of its hall: with all that it uses in that bay if there is such a place, else with its car there.
fn in_bay(line: &Line, search: &Search, id: &Id, margin: &Margin, is_stopped: &dyn Fn() -> bool) -> Cell {
    let (own, is_own) = in_that_bay(&line.arrangement, id);
    let Some(bay) = own.bay.bays.iter().find(|bay| bay.id == *id).map(|bay| bay.outline.clone()) else {
        return none_found(&own, search, &own.bay.room, is_own, false);
    };
    let mut stopped = false;
    for kept in [Kept::All, Kept::Car] {
        let (found, is_partial) = spots(&search.kept_in(&bay, kept), &own, margin, is_stopped);
        stopped |= is_partial;
        if let Some(stands) = best_of(&own, &found, margin) {
            return Cell::Fits(stands);
        }
    }
    none_found(&own, search, &bay, is_own, stopped)
}

/// The best spots: at the headings that the room invites, and if there is none at all others. With whether it was stopped.
fn spots(
    search: &Search,
    own: &Arrangement,
    margin: &Margin,
    is_stopped: &dyn Fn() -> bool,
) -> (Vec<Spot>, bool) {
    let (first, others): (Vec<_>, Vec<_>) = headings(&own.bay.room).into_iter().partition(|own| own.1);
    let mut tight: Option<Spot> = None;
    for some in [&first, &others] {
        let found = best_spots_of(search, some, margin, is_stopped, &mut |_| {});
        if !found.spots.is_empty() || found.is_partial {
            return (found.spots, found.is_partial);
        }
        if tight.is_none() && (found.fits_somewhere || found.is_open_somewhere) {
            tight = without_slack(search, some);
        }
    }
    (tight.into_iter().collect(), false)
}

/// A spot of which no slack can be shown: where it just fits, or where the regions leave it undecided and the checks find nothing
/// that stops.
fn without_slack(search: &Search, headings: &[(f64, bool)]) -> Option<Spot> {
    headings.iter().find_map(|&(heading, is_invited)| {
        let Places { fits, undecided, .. } = search.places(heading);
        let shapes = [fits, undecided];
        let all = shapes.iter().flat_map(|own| (0..own.shapes().len()).map(|nth| own.shape(nth)));
        let poses = all.take(MOST_TRIED).filter_map(|own| {
            let at = inside(&own)?;
            Some(PlanPose::new(at, heading))
        });
        let pose = poses.into_iter().find(|pose| search.settle(*pose))?;
        Some(Spot { pose, slack: Slack { mm: 0.0, rad: 0.0 }, is_invited })
    })
}

/// A place inside a shape of places, if it is no sliver.
fn inside(shape: &Region) -> Option<DVec2> {
    WITHIN_MM.into_iter().find_map(|within| shape.deepest(within, f64::INFINITY)).map(|(at, _)| at)
}

/// Of some spots the first that is ready; else the first that nothing stops.
fn best_of(own: &Arrangement, spots: &[Spot], margin: &Margin) -> Option<Stands> {
    let mut best: Option<Stands> = None;
    for spot in spots {
        // As a tape has it.
        let spot = in_whole_mm(spot, (own.vehicle.length_mm * 0.5).max(1.0));
        let judged = judge(&stood(own, spot.pose));
        let stands = Stands {
            pose: spot.pose,
            slack: spot.slack,
            meets_margin: spot.meets(margin),
            verdict: judged.verdict,
            care: judged.count(Severity::Care),
        };
        // A spot in which a car can really be put goes before one that is ready by a hair.
        let rank = |own: &Stands| (!own.meets_margin, own.verdict != Verdict::Ready);
        let is_better = best.as_ref().is_none_or(|best| rank(&stands) < rank(best));
        if judged.verdict != Verdict::NotReady && is_better {
            best = Some(stands);
        }
    }
    best
}

/// What is tried where no place was found: where it stands, if that is asked, and the middle of a floor.
fn tried_in(own: &Arrangement, floor: &Polygon, with_own: bool) -> Vec<Arrangement> {
    let standing = with_own.then(|| own.clone());
    let middle = in_the_middle(own, floor).into_iter().map(|pose| stood(own, pose));
    standing.into_iter().chain(middle).collect()
}

/// What stops where it stands, or in the middle of a floor: at the pose with the fewest stops.
fn none_found(own: &Arrangement, search: &Search, floor: &Polygon, with_own: bool, is_partial: bool) -> Cell {
    let mut fewest: Option<(PlanPose, Vec<Finding>)> = None;
    for there in tried_in(own, floor, with_own) {
        let stops: Vec<Finding> =
            judge(&there).findings.into_iter().filter(|own| own.severity == Severity::Stops).collect();
        if fewest.as_ref().is_none_or(|own| stops.len() < own.1.len()) {
            fewest = Some((there.parked, stops));
        }
    }
    let (pose, stops) = fewest.unwrap_or((own.parked, Vec::new()));
    let everywhere = search.everywhere();
    let is_everywhere = !everywhere.is_empty();
    let stops = if is_everywhere { everywhere.to_vec() } else { stops };
    Cell::NoneFound(NoneFound { pose, stops, is_everywhere, is_partial })
}

/// The set-up in the middle of a floor, at each of the four headings that the room invites.
fn in_the_middle(own: &Arrangement, floor: &Polygon) -> Vec<PlanPose> {
    let bounds = floor.bounds();
    let middle = (bounds.low + bounds.high) * 0.5;
    let at = |heading: f64| {
        let (low, high) = crate::place::reach(own);
        let off = PlanPose::new(DVec2::ZERO, heading).turned((low + high) * 0.5);
        PlanPose::new(middle - off, angle::wrapped(heading))
    };
    invited(&own.bay.room).map(at).to_vec()
}

impl Stands {
    /// How a person parks there, the car of this arrangement.
    pub fn offer(&self, own: &Arrangement) -> Offer {
        offer(own, self.pose, self.slack, self.meets_margin)
    }
}

/// How a person parks at a pose: from the walls, with what may be there to spare.
fn offer(own: &Arrangement, pose: PlanPose, slack: Slack, meets: bool) -> Offer {
    let spot = Spot { pose, slack, is_invited: true };
    Offer { spot, by_tape: ByTape::of(own, &Scene::of(own), pose), meets }
}
