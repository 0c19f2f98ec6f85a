//! Rooms of 4 to 10 corners around a set-up.

use baywright_planner::geometry::{DVec2, Polygon};

use crate::dice::Dice;
use crate::shape::{Ring, rectangle};

/// A room around a box, its corners cut or stepped back until it has 4 to 10; `holds` says whether it is still large enough.
pub fn room(dice: &mut Dice, low: DVec2, high: DVec2, holds: impl Fn(&[DVec2]) -> bool) -> Ring {
    let wanted = dice.count(4, 10);
    let mut ring = rectangle(low, high);
    for _ in 0..20 {
        if ring.len() >= wanted {
            break;
        }
        let at = dice.count(0, ring.len() - 1);
        let (before, corner) = (ring[(at + ring.len() - 1) % ring.len()], ring[at]);
        let after = ring[(at + 1) % ring.len()];
        let cut = |dice: &mut Dice, end: DVec2| {
            let far = corner.distance(end);
            corner + (end - corner) / far * dice.within(0.05, 0.4) * far
        };
        let (back, on) = (cut(dice, before), cut(dice, after));
        let mut next = ring.clone();
        if dice.often(0.5) || ring.len() + 2 > wanted {
            next.splice(at..=at, [back, on]);
        } else {
            next.splice(at..=at, [back, back + on - corner, on]);
        }
        if Polygon::simple(next.clone()).is_ok() && holds(&next) {
            ring = next;
        }
    }
    ring
}
