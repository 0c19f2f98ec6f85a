//! What a change of the building would unlock: one thing taken away, or one wall further out, and which lines of a list then fit at a
//! place at which they do not now. What several do together, `together` asks.

use super::{Cell, Line, Place, row};
use crate::model::{Arrangement, Bay, Id, OwnerFigures, cost_of};
use crate::place::Margin;

/// A change of what is built or stands there.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Change {
    /// A thing is gone: a column, an inner wall, a cabinet.
    Without(Id),
    /// A wall of the room stands further out; what stands along it stays.
    Further(Id),
}

impl Change {
    /// What the owner says that it costs; `None` if that was not said.
    pub fn cost(&self, owner: &OwnerFigures) -> Option<f64> {
        match self {
            Self::Without(thing) => cost_of(&owner.without, thing),
            Self::Further(wall) => cost_of(&owner.further, wall),
        }
    }
}

/// What a change would unlock.
#[derive(Clone, Debug, PartialEq)]
pub struct Unlocked {
    /// The change.
    pub change: Change,
    /// The lines that fit then and did not before, by their position.
    pub lines: Vec<usize>,
    /// Whether it was stopped before all lines were looked at.
    pub is_partial: bool,
}

/// What a set of changes unlocks: which lines, by their position, and whether it was stopped before all lines were looked at.
pub type SetUnlocks = (Vec<usize>, bool);

/// All changes of a bay that are asked about: each thing gone, each wall of the room further out.
pub fn changes_of(bay: &Bay) -> Vec<Change> {
    let things = bay.things.iter().map(|own| Change::Without(own.id.clone()));
    let walls = bay.walls.iter().map(|own| Change::Further(own.id.clone()));
    walls.chain(things).collect()
}

/// A set-up after a change, its walls so much further out, mm; `None` where that makes no room, or there is nothing of that name.
pub fn changed(own: &Arrangement, change: &Change, further_mm: f64) -> Option<Arrangement> {
    let mut after = own.clone();
    match change {
        Change::Without(id) => {
            let before = after.bay.things.len();
            after.bay.things.retain(|thing| thing.id != *id);
            (after.bay.things.len() < before).then_some(after)
        }
        Change::Further(id) => {
            let wall = after.bay.walls.iter().position(|own| own.id == *id)?;
            after.bay.push_wall(wall, -further_mm).ok()?;
            Some(after)
        }
    }
}

/// Which lines of a list that do not fit at a place now fit there after a change. `fits_now` says of each line, by position, whether it does.
pub fn unlocked(
    lines: &[Line],
    fits_now: &[bool],
    place: &Place,
    (change, further_mm): (&Change, f64),
    margin: &Margin,
    is_stopped: &dyn Fn() -> bool,
) -> Unlocked {
    let (lines, is_partial) = unlocked_by_all(
        lines,
        fits_now,
        place,
        (std::slice::from_ref(change), further_mm),
        margin,
        is_stopped,
    );
    Unlocked { change: change.clone(), lines, is_partial }
}

/// The same after several changes, one after another: the lines, and whether it was stopped before all were looked at.
pub fn unlocked_by_all(
    lines: &[Line],
    fits_now: &[bool],
    place: &Place,
    (changes, further_mm): (&[Change], f64),
    margin: &Margin,
    is_stopped: &dyn Fn() -> bool,
) -> SetUnlocks {
    let (mut found, mut is_partial) = (Vec::new(), false);
    for (nth, line) in lines.iter().enumerate() {
        if fits_now.get(nth).copied().unwrap_or_default() {
            continue;
        }
        if is_stopped() {
            is_partial = true;
            break;
        }
        let after = |own: Arrangement, change: &Change| changed(&own, change, further_mm);
        let Some(arrangement) = changes.iter().try_fold(line.arrangement.clone(), after) else { continue };
        let after = row(
            &Line { arrangement, ..line.clone() },
            std::slice::from_ref(place),
            margin,
            false,
            is_stopped,
        );
        is_partial |= after.is_partial();
        if let Some(Some(Cell::Fits(own))) = after.cells.first()
            && own.meets_margin
        {
            found.push(nth);
        }
    }
    (found, is_partial)
}

/// In which order changes are told: what unlocks most by weight first; where what they cost is known, of those that cost something, most
/// for the money first if that is asked; of what is alike what costs less, then as they stand.
pub fn ranked(
    all: &[Unlocked],
    weight: impl Fn(usize) -> f64,
    cost: impl Fn(&Change) -> Option<f64>,
    for_the_money: bool,
) -> Vec<usize> {
    let worth = |own: &Unlocked| own.lines.iter().map(|nth| weight(*nth)).sum::<f64>();
    // What costs nothing is worth any money; what nobody has priced stands behind what is.
    let for_money = |own: &Unlocked| match cost(&own.change) {
        Some(price) if price > 0.0 => worth(own) / price,
        Some(_) if worth(own) > 0.0 => f64::INFINITY,
        _ => -1.0,
    };
    let key = |nth: usize| {
        let own = all.get(nth)?;
        let first = if for_the_money { for_money(own) } else { worth(own) };
        Some((first, worth(own), -cost(&own.change).unwrap_or(f64::INFINITY)))
    };
    let mut order: Vec<usize> = (0..all.len()).collect();
    order.sort_by(|&a, &b| {
        let (a, b) = (key(a), key(b));
        let [Some(a), Some(b)] = [a, b] else { return std::cmp::Ordering::Equal };
        b.0.total_cmp(&a.0).then(b.1.total_cmp(&a.1)).then(b.2.total_cmp(&a.2))
    });
    order
}
