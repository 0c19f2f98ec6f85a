//! Which doors are not walled up for any worth: a way out, the only way in for a car of the list, what an aiming stands out of now.

use baywright_geometry::distance::distance_to_segment;

use super::changes::{Change, OfChanges, changed, standing};
use crate::assessment::Verdict;
use crate::check::lets_in;
use crate::judge::judge;
use crate::model::{Arrangement, Bay, Id, KeepFree, KeepFreeKind, Opening, OpeningKind};

/// A way that is to stay free leads to a door if it ends so near to it, mm: whoever draws it does not meet the wall's line (our own choice).
const LEADS_TO_MM: f64 = 500.0;

/// Why a door, a gap or a window stays.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DoorStays {
    /// It is a way out in an emergency, or such a way leads to it.
    Exit,
    /// There is no other for people, or for a car of the list.
    WayIn,
    /// An aiming of the list that fits now does not without it, where its car stands: it stands out of it.
    Used,
}

/// The openings of the room of a list that are not walled up, each with why.
pub fn doors_that_stay(of: &OfChanges<'_>) -> Vec<(Id, DoorStays)> {
    let Some(bay) = of.bay() else { return Vec::new() };
    bay.openings.iter().filter_map(|own| Some((own.id.clone(), stays(of, bay, own)?))).collect()
}

fn stays(of: &OfChanges<'_>, bay: &Bay, opening: &Opening) -> Option<DoorStays> {
    let walled = [Change::WalledUp(opening.id.clone())];
    if is_way_out(bay, opening) {
        Some(DoorStays::Exit)
    } else if shuts_out(of, &walled) {
        Some(DoorStays::WayIn)
    } else if is_used(of, &walled[0]) {
        Some(DoorStays::Used)
    } else {
        None
    }
}

fn is_way_out(bay: &Bay, opening: &Opening) -> bool {
    let line = bay.opening_line(opening).filter(|_| opening.kind != OpeningKind::Window);
    let leads_to = |way: &KeepFree| {
        let outline = way.outline.clone().into();
        line.is_some_and(|line| distance_to_segment(&outline, &line).gap() <= LEADS_TO_MM)
    };
    let mut ways = bay.keep_free.iter().filter(|own| own.kind == KeepFreeKind::Exit);
    opening.is_exit || ways.any(leads_to)
}

/// Whether some changes leave people, or a car of the list, no way in that is there now.
pub(super) fn shuts_out(of: &OfChanges<'_>, changes: &[Change]) -> bool {
    if !changes.iter().any(|own| matches!(own, Change::WalledUp(_))) {
        return false;
    }
    let has_way = |own: &Arrangement| own.bay.openings.iter().any(|own| own.kind != OpeningKind::Window);
    of.lines.iter().any(|line| {
        let now = &line.arrangement;
        // A wall further out takes its doors along: what is asked is which of them are left.
        let walled = changes.iter().filter(|own| matches!(own, Change::WalledUp(_)));
        let after = walled.fold(now.clone(), |own, change| changed(&own, change, 0.0).unwrap_or(own));
        (has_way(now) && !has_way(&after)) || (!lets_in(now).is_empty() && lets_in(&after).is_empty())
    })
}

/// Whether a line that fits now does not any more after a change, with its car where it is.
fn is_used(of: &OfChanges<'_>, change: &Change) -> bool {
    let mut fitting = of.lines.iter().zip(of.now).filter_map(|(line, now)| Some((line, now.as_ref()?)));
    fitting.any(|(line, now)| {
        let after = changed(&line.arrangement, change, 0.0);
        after.is_some_and(|own| judge(&standing(&own, of.place, now.pose)).verdict == Verdict::NotReady)
    })
}
