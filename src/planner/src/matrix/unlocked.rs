//! What a change of the building would unlock: which lines of a list then fit at a place at which they do not now. What several do
//! together, `together` asks.
//!
//! What only needs care stops nothing: which lines that fit anyway have less of it to mind, with their cars where they stand, is told apart.
//! A door that has to stay is not walled up (`doors`).

use super::changes::{Change, OfChanges, changed, standing};
use super::doors::{DoorStays, shuts_out};
use super::{Cell, Line, Stands, row};
use crate::assessment::{Severity, Verdict};
use crate::judge::judge;
use crate::model::{Arrangement, Bay, Id, OpeningKind};

/// What a change would unlock.
#[derive(Clone, Debug, PartialEq)]
pub struct Unlocked {
    /// The change.
    pub change: Change,
    /// The lines that fit then and did not before, by their position.
    pub lines: Vec<usize>,
    /// The lines that fit now and have less to mind then, with their cars where they stand, by their position.
    pub eases: Vec<usize>,
    /// Whether it was stopped before all lines were looked at.
    pub is_partial: bool,
}

impl Unlocked {
    /// Whether it is of any use to the list.
    pub fn is_of_use(&self) -> bool {
        !self.lines.is_empty() || !self.eases.is_empty()
    }
}

/// What all changes do, each alone.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct EachAlone {
    /// Each, in the order in which they were asked about.
    pub all: Vec<Unlocked>,
    /// The openings of which it was not asked what they do walled up, each with why.
    pub stay: Vec<(Id, DoorStays)>,
}

impl EachAlone {
    /// Whether all of it was looked at.
    pub fn is_whole(&self) -> bool {
        !self.all.is_empty() && !self.all.iter().any(|own| own.is_partial)
    }
}

/// What a set of changes unlocks: which lines, by their position, and whether it was stopped before all lines were looked at.
pub type SetUnlocks = (Vec<usize>, bool);

/// All changes of a bay that are asked about: each wall of the room further out, each thing gone, each door open onto free ground, and each
/// opening walled up that need not stay.
pub fn changes_of(bay: &Bay, stay: &[(Id, DoorStays)]) -> Vec<Change> {
    let things = bay.things.iter().map(|own| Change::Without(own.id.clone()));
    let walls = bay.walls.iter().map(|own| Change::Further(own.id.clone()));
    let doors = bay.openings.iter().filter(|own| own.kind != OpeningKind::Window);
    let doors = doors.map(|own| Change::OpenOnto(own.id.clone()));
    let may_go = bay.openings.iter().filter(|own| !stay.iter().any(|(id, _)| *id == own.id));
    let walled_up = may_go.map(|own| Change::WalledUp(own.id.clone()));
    walls.chain(things).chain(doors).chain(walled_up).collect()
}

/// What a change unlocks: which lines that do not fit at the place now fit there then, and which of the others have less to mind.
pub fn unlocked(of: &OfChanges<'_>, change: &Change, is_stopped: &dyn Fn() -> bool) -> Unlocked {
    let (lines, is_partial) = unlocked_by_all(of, std::slice::from_ref(change), is_stopped);
    let eases = eased(of, change, is_stopped);
    Unlocked { change: change.clone(), lines, eases, is_partial: is_partial || is_stopped() }
}

/// The same after several changes, one after another: the lines, and whether it was stopped before all were looked at. Changes that leave
/// somebody no way in unlock nothing.
pub fn unlocked_by_all(of: &OfChanges<'_>, changes: &[Change], is_stopped: &dyn Fn() -> bool) -> SetUnlocks {
    let (mut found, mut is_partial) = (Vec::new(), false);
    if shuts_out(of, changes) {
        return (found, is_partial);
    }
    for (nth, line) in of.lines.iter().enumerate() {
        if of.now.get(nth).is_some_and(Option::is_some) {
            continue;
        }
        if is_stopped() {
            is_partial = true;
            break;
        }
        let after = |own: Arrangement, change: &Change| changed(&own, change, of.further_mm);
        let Some(arrangement) = changes.iter().try_fold(line.arrangement.clone(), after) else { continue };
        let line = Line { arrangement, ..line.clone() };
        let after = row(&line, std::slice::from_ref(of.place), of.margin, false, is_stopped);
        is_partial |= after.is_partial();
        if let Some(Some(Cell::Fits(own))) = after.cells.first()
            && own.meets_margin
        {
            found.push(nth);
        }
    }
    (found, is_partial)
}

/// The lines that fit now and have less to mind after a change, with their cars where they stand.
fn eased(of: &OfChanges<'_>, change: &Change, is_stopped: &dyn Fn() -> bool) -> Vec<usize> {
    let fitting = of.lines.iter().zip(of.now).enumerate();
    let fitting = fitting.filter_map(|(nth, (line, now))| Some((nth, line, now.as_ref()?)));
    let is_eased = |line: &Line, now: &Stands| {
        let Some(after) = changed(&line.arrangement, change, of.further_mm) else { return false };
        let judged = judge(&standing(&after, of.place, now.pose));
        judged.verdict != Verdict::NotReady && judged.count(Severity::Care) < now.care
    };
    let to_mind = fitting.filter(|(.., now)| now.care > 0).take_while(|_| !is_stopped());
    to_mind.filter(|(_, line, now)| is_eased(line, now)).map(|own| own.0).collect()
}

/// In which order changes are told: what unlocks most by weight first; where what they cost is known, of those that cost something, most
/// for the money first if that is asked; of what is alike what leaves less to mind, then what costs less, then as they stand.
pub fn ranked(
    all: &[Unlocked],
    weight: impl Fn(usize) -> f64,
    cost: impl Fn(&Change) -> Option<f64>,
    for_the_money: bool,
) -> Vec<usize> {
    let sum = |lines: &[usize]| lines.iter().map(|nth| weight(*nth)).sum::<f64>();
    let worth = |own: &Unlocked| sum(&own.lines);
    // What costs nothing is worth any money; what nobody has priced stands behind what is.
    let for_money = |own: &Unlocked| match cost(&own.change) {
        Some(price) if price > 0.0 => worth(own) / price,
        Some(_) if worth(own) > 0.0 => f64::INFINITY,
        _ => -1.0,
    };
    let key = |nth: usize| {
        let own = all.get(nth)?;
        let first = if for_the_money { for_money(own) } else { worth(own) };
        Some([first, worth(own), sum(&own.eases), -cost(&own.change).unwrap_or(f64::INFINITY)])
    };
    let mut order: Vec<usize> = (0..all.len()).collect();
    order.sort_by(|&a, &b| {
        let (a, b) = (key(a), key(b));
        let [Some(a), Some(b)] = [a, b] else { return std::cmp::Ordering::Equal };
        let each = b.iter().zip(&a).map(|(b, a)| b.total_cmp(a));
        each.fold(std::cmp::Ordering::Equal, std::cmp::Ordering::then)
    });
    order
}
