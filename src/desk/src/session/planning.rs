//! What fits where, worked out on all processors: rows as they come, then the map and the one place, then the room.

use std::sync::Arc;
use std::sync::mpsc;

use baywright_planner::clearing::{Asked, Cleared, Where, cleared};
use baywright_planner::matrix::{
    Cell, Curve, EachAlone, Grid, Heard, Line, Needs, OfChanges, Place, Planned, Purse, Row, SetUnlocks,
    Settled, Together, Unlocked, best_place, changes_of, doors_that_stay, fit_map, heard, needs, row,
    settled, together, unlocked, unlocked_by_all,
};
use baywright_planner::model::CostOf;
use baywright_planner::place::{Margin, Search, Slack, headings};
use baywright_planner::{Severity, judge};
use rayon::prelude::*;

/// So far out a wall is asked about before another figure is typed, mm.
pub const FURTHER_MM: f64 = 1_000.0;
/// And so far it may be, mm.
pub const FURTHER: std::ops::RangeInclusive<f64> = 1.0..=20_000.0;
/// How wide a square of the floor is in which aimings are counted, mm.
const SQUARE_MM: f64 = 100.0;

/// In how many steps a list of so many lines is worked out: a row each, its moves, the headings that the room invites, the room of each.
pub fn steps(lines: &[Line]) -> usize {
    3 * lines.len() + invited(lines).len()
}

/// Answers all of a list, as far as it is not stopped; `tell` hears what is there after each step, and how many steps are done. An empty
/// room keeps a strip of `store_mm` for what is in store.
pub fn planned(
    lines: &Arc<[Line]>,
    places: &Arc<[Place]>,
    (margin, store_mm): (Margin, f64),
    is_stopped: &(dyn Fn() -> bool + Sync),
    tell: &mut dyn FnMut(&Planned, usize),
) -> Planned {
    let mut all = Planned::begun(Arc::clone(lines), Arc::clone(places), margin);
    all.store_mm = store_mm;
    let mut done = 0;
    let rows = |nth: usize| Some(row(lines.get(nth)?, places, &margin, false, is_stopped));
    on_all(lines.len(), is_stopped, &rows, &mut |at, row: Row| {
        if let Some(own) = all.rows.get_mut(at) {
            *own = Some(Arc::new(row));
        }
        done += 1;
        tell(&all, done);
    });
    // Which moves would help takes longest of all that the table says.
    let so_far = all.rows.clone();
    let moves = |nth: usize| {
        let row = so_far.get(nth)?.as_deref()?.clone();
        Some(row.with_moves(lines.get(nth)?, places, is_stopped))
    };
    on_all(lines.len(), is_stopped, &moves, &mut |at, row: Row| {
        all.is_partial |= row.is_partial() || !row.has_moves;
        if let Some(own) = all.rows.get_mut(at) {
            *own = Some(Arc::new(row));
        }
        done += 1;
        tell(&all, done);
    });
    let invited = invited(lines);
    let mut heard_all: Option<Vec<Heard>> = None;
    if let (false, Some(first)) = (is_stopped(), lines.first()) {
        let searches: Vec<Search> = lines.par_iter().map(|own| Search::new(&own.arrangement)).collect();
        let weights: Vec<f64> = lines.iter().map(|own| own.weight).collect();
        let grid = Grid::over(first.arrangement.bay.room.bounds(), SQUARE_MM);
        let mut told: Vec<Option<Heard>> = vec![None; invited.len()];
        let hears = |nth: usize| Some(heard(&searches, &weights, &grid, *invited.get(nth)?));
        on_all(invited.len(), is_stopped, &hears, &mut |at, own| {
            if let Some(place) = told.get_mut(at) {
                *place = Some(own);
            }
            done += 1;
            tell(&all, done);
        });
        heard_all = told.into_iter().collect();
        if let Some(own) = &heard_all {
            all.map = Some(Arc::new(fit_map(grid, own, lines.len())));
            tell(&all, done);
        }
    }
    let slack = Slack { mm: margin.mm, rad: margin.rad };
    let mut needed: Vec<Option<Option<Needs>>> = vec![None; lines.len()];
    on_all(lines.len(), is_stopped, &|nth| Some(needs(lines.get(nth)?, &slack)), &mut |at, own| {
        if let Some(place) = needed.get_mut(at) {
            *place = Some(own);
        }
        done += 1;
        tell(&all, done);
    });
    let needed: Option<Vec<Option<Needs>>> = needed.into_iter().collect();
    match needed {
        Some(needed) if !lines.is_empty() => {
            all.room = Some(Arc::new(Curve::of(&needed, store_mm)));
            all.needs = needed.into();
            tell(&all, done);
        }
        _ => {}
    }
    // The longest, and of one thread, at the end.
    if let (false, Some(own)) = (is_stopped(), &heard_all) {
        all.best = best_place(lines, own, &margin).map(Arc::new);
        all.is_best_looked_for = true;
    }
    all.is_partial |= is_stopped();
    all
}

/// At how many changes of a room it looks at most: of openings that have to stay it does not.
pub fn most_changes(of: &OfChanges<'_>) -> usize {
    of.bay().map_or(0, |bay| changes_of(bay, &[]).len())
}

/// Looks at all changes of a room; `tell` hears at how many it did.
pub fn unlocked_by(
    of: &OfChanges<'_>,
    is_stopped: &(dyn Fn() -> bool + Sync),
    tell: &mut dyn FnMut(usize),
) -> EachAlone {
    let Some(bay) = of.bay() else { return EachAlone::default() };
    let stay = doors_that_stay(of);
    let changes = changes_of(bay, &stay);
    let mut all: Vec<(usize, Unlocked)> = Vec::with_capacity(changes.len());
    let look = |nth: usize| Some(unlocked(of, changes.get(nth)?, is_stopped));
    on_all(changes.len(), is_stopped, &look, &mut |nth, own| {
        all.push((nth, own));
        tell(all.len());
    });
    // In the order in which they were asked about, whichever was done first.
    all.sort_by_key(|own| own.0);
    EachAlone { all: all.into_iter().map(|own| own.1).collect(), stay }
}

/// What must move for each line of a list: so that its car can stand where it stands, if it is a set-up and something stops it there;
/// and so that it can stand anywhere in the room, if no place was found in it. `tell` hears how many lines are done.
pub fn moves_of(
    found: &Planned,
    costs: &[CostOf],
    is_stopped: &(dyn Fn() -> bool + Sync),
    tell: &mut dyn FnMut(usize),
) -> Vec<Vec<Cleared>> {
    let room = found.places.iter().position(|own| *own == Place::Room);
    let look = |nth: usize| {
        let line = found.lines.get(nth)?;
        let own = &line.arrangement;
        let is_stopped_here = line.is_saved && judge(own).count(Severity::Stops) > 0;
        let fits_nowhere = matches!(room.and_then(|at| found.cell(nth, at)), Some(Cell::NoneFound(_)));
        let here = is_stopped_here.then_some(Where::Here(own.parked));
        let anywhere = fits_nowhere.then_some(Where::Anywhere);
        let all = headings(&own.bay.room);
        let asked = here.into_iter().chain(anywhere).map(|at| Asked { at, headings: &all, costs });
        Some(asked.map(|asked| cleared(own, &asked, is_stopped, &mut |_| {})).collect::<Vec<_>>())
    };
    let (mut all, mut done) = (vec![Vec::new(); found.lines.len()], 0);
    on_all(found.lines.len(), is_stopped, &look, &mut |at, own| {
        if let Some(place) = all.get_mut(at) {
            *place = own;
        }
        done += 1;
        tell(done);
    });
    all
}

/// Looks at which changes within a sum unlock the most together; `alone` is what each does by itself. `tell` hears how many sets are
/// looked at.
pub fn together_by(
    (purse, alone): (&Purse, &[Unlocked]),
    of: &OfChanges<'_>,
    is_stopped: &(dyn Fn() -> bool + Sync),
    tell: &mut dyn FnMut(usize),
) -> Together {
    let weight = |nth: usize| of.lines.get(nth).map_or(1.0, |own| own.weight);
    let mut done = 0;
    together(purse, alone, weight, &mut |sets| {
        let look = |nth: usize| {
            let changes = purse.changes(sets.get(nth)?);
            Some(unlocked_by_all(of, &changes, is_stopped))
        };
        let mut all: Vec<Option<SetUnlocks>> = vec![None; sets.len()];
        on_all(sets.len(), is_stopped, &look, &mut |nth, own| {
            if let Some(place) = all.get_mut(nth) {
                *place = Some(own);
            }
            done += 1;
            tell(done);
        });
        // What was stopped before it was looked at unlocks nothing that is known.
        all.into_iter().map(|own| own.unwrap_or((Vec::new(), true))).collect()
    })
}

/// Looks for a proof of each line for which no place of the room was found that there is none.
pub fn with_proofs(mut found: Planned, is_stopped: &(dyn Fn() -> bool + Sync)) -> Planned {
    let lines: Vec<usize> = (0..found.lines.len()).filter(|nth| found.is_found_nowhere(*nth)).collect();
    let own = Arc::clone(&found.lines);
    let look = |at: usize| Some(settled(own.get(*lines.get(at)?)?, is_stopped, &mut |_| {}));
    on_all(lines.len(), is_stopped, &look, &mut |at, settled| {
        if let (Settled::Never(proven), Some(nth)) = (settled, lines.get(at)) {
            found.proven.insert(*nth, proven);
        }
    });
    found
}

/// The headings that the room of a list invites, radians.
fn invited(lines: &[Line]) -> Vec<f64> {
    let all = lines.first().map(|own| headings(&own.arrangement.bay.room)).unwrap_or_default();
    all.into_iter().filter(|own| own.1).map(|own| own.0).collect()
}

/// Works something out of each of so many on all processors and hears of each as it comes; what is stopped comes no more.
fn on_all<T: Send>(
    count: usize,
    is_stopped: &(dyn Fn() -> bool + Sync),
    work: &(dyn Fn(usize) -> Option<T> + Sync),
    hear: &mut dyn FnMut(usize, T),
) {
    let (sender, receiver) = mpsc::channel();
    std::thread::scope(|scope| {
        scope.spawn(move || {
            (0..count).into_par_iter().for_each_with(sender, |sender, nth| {
                if let Some(own) = (!is_stopped()).then(|| work(nth)).flatten() {
                    // Whoever hears it is there until all are done.
                    let _ = sender.send((nth, own));
                }
            });
        });
        for (nth, own) in receiver {
            hear(nth, own);
        }
    });
}
