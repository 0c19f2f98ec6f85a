//! The search itself: boxes of places and headings, of which the one where the least is in one another comes first, until each is
//! barred by a pair.

use std::collections::BinaryHeap;
use std::rc::Rc;

use baywright_geometry::PlanPose;

use super::boxes::{Boxed, Inside};
use super::solid::{Convex, Turned};
use super::{MEETS_MM, Never};
use crate::never::{Cell, Proof, ROUND_UDEG};

/// So many of the pairs that are deepest in one another at the middle of a box are asked about all of it.
const ASKED: usize = 8;
/// Headings are parted until a box has no more than so many, millionths of a degree: of more hardly anything can be said at once.
const MOST_UDEG: i64 = ROUND_UDEG / 64;
/// It is told how far it is each so many boxes.
const TOLD_EVERY: usize = 256;

/// A box that is not barred yet.
struct Open {
    own: Boxed,
    /// How deep the deepest are in one another at its middle, mm.
    depth: f64,
    /// The deepest there, the deepest first, after the one that was best for the box that it is a part of.
    asked: Vec<Pair>,
    /// All that may meet somewhere in it.
    near: Rc<[Pair]>,
}

/// A part of the set-up and what stands, by position.
type Pair = (u32, u32);

impl PartialEq for Open {
    fn eq(&self, other: &Self) -> bool {
        self.cmp(other).is_eq()
    }
}

impl Eq for Open {}

impl PartialOrd for Open {
    fn partial_cmp(&self, other: &Self) -> Option<std::cmp::Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Open {
    /// The one at whose middle the least is in one another is the greatest: there a place is found that is free, if there is one.
    fn cmp(&self, other: &Self) -> std::cmp::Ordering {
        other.depth.total_cmp(&self.depth)
    }
}

/// A part of a box, and the pair that meets by the most everywhere in it, with by how much, mm.
type Half = (Boxed, (f64, Pair));

/// What a box is, as far as its middle tells.
enum Looked {
    Free(PlanPose),
    Open(Open),
}

struct Search {
    parts: Vec<Convex>,
    others: Vec<Convex>,
}

/// Adds cells to a proof until they cover all of its places and headings.
pub(super) fn search(
    mut proof: Proof,
    most_cells: usize,
    is_stopped: &dyn Fn() -> bool,
    tell: &mut dyn FnMut(f64),
) -> Never {
    let own = Search {
        parts: proof.set_up.iter().map(Convex::of).collect(),
        others: proof.stands.iter().map(Convex::of).collect(),
    };
    let start = Boxed { places: proof.places, headings: [0, ROUND_UDEG] };
    let whole = start.size();
    let (mut open, mut barred, mut looked_at) = (BinaryHeap::new(), 0.0, 0_usize);
    match own.look(start, &own.all(), None) {
        Looked::Free(pose) => return Never::Free(pose),
        Looked::Open(first) => open.push(first),
    }
    while let Some(next) = open.pop() {
        if is_stopped() {
            return Never::Stopped;
        }
        if proof.cells.len() + open.len() >= most_cells {
            return Never::NotProven;
        }
        looked_at += 1;
        if looked_at % TOLD_EVERY == 0 {
            tell(barred / whole);
        }
        let inside = Inside::new(&next.own);
        let (by, pair) = own.best(&inside, &next.asked);
        if by >= MEETS_MM {
            barred += next.own.size();
            proof.cells.push(cell(&next.own, pair));
            continue;
        }
        let Some(halves) = own.parted(&next) else { return Never::NotProven };
        for (half, (by, pair)) in halves {
            if by >= MEETS_MM {
                barred += half.size();
                proof.cells.push(cell(&half, pair));
                continue;
            }
            match own.look(half, &next.near, Some(pair)) {
                Looked::Free(pose) => return Never::Free(pose),
                Looked::Open(half) => open.push(half),
            }
        }
    }
    Never::Proven(Box::new(proof))
}

fn cell(own: &Boxed, (part, against): Pair) -> Cell {
    Cell { places: own.places, headings: own.headings, part: part as usize, against: against as usize }
}

impl Search {
    /// All pairs that have heights in common.
    fn all(&self) -> Vec<Pair> {
        let numbered = |all: &[Convex]| 0..u32::try_from(all.len()).unwrap_or(u32::MAX);
        let pairs = numbered(&self.parts).flat_map(|a| numbered(&self.others).map(move |b| (a, b)));
        pairs.filter(|&own| self.both(own).is_some_and(|(a, b)| a.shares_height(b))).collect()
    }

    fn both(&self, (part, against): Pair) -> Option<(&Convex, &Convex)> {
        self.parts.get(part as usize).zip(self.others.get(against as usize))
    }

    /// What is in what at its middle, and what cannot be anywhere in it.
    fn look(&self, own: Boxed, near: &[Pair], before: Option<Pair>) -> Looked {
        let pose = own.middle().pose();
        let turned: Vec<Turned> = self.parts.iter().map(|part| part.turned(&pose)).collect();
        let mut met: Vec<(f64, Pair)> = Vec::new();
        let mut still = Vec::with_capacity(near.len());
        for &pair in near {
            let Some((part, other)) = self.both(pair) else { continue };
            let Some(turned) = turned.get(pair.0 as usize) else { continue };
            let moves = own.moves_by(part.reach);
            let depth = turned.depth_in(other, MEETS_MM - moves);
            if depth + moves >= MEETS_MM {
                still.push(pair);
            }
            if depth >= MEETS_MM {
                met.push((depth, pair));
            }
        }
        let many = met.len().min(ASKED);
        if many == 0 {
            return Looked::Free(pose);
        }
        let deeper = |a: &(f64, Pair), b: &(f64, Pair)| b.0.total_cmp(&a.0).then(a.1.cmp(&b.1));
        met.select_nth_unstable_by(many - 1, deeper);
        met.truncate(many);
        met.sort_by(deeper);
        let depth = met.first().map_or(0.0, |own| own.0);
        let asked = before.into_iter().chain(met.into_iter().map(|own| own.1));
        let mut once: Vec<Pair> = Vec::with_capacity(ASKED + 1);
        for pair in asked {
            if !once.contains(&pair) {
                once.push(pair);
            }
        }
        Looked::Open(Open { own, depth, asked: once, near: still.into() })
    }

    /// The pair of some that meets by the most everywhere in a box, and by how much.
    fn best(&self, inside: &Inside, asked: &[Pair]) -> (f64, Pair) {
        let mut best = (f64::MIN, (0, 0));
        for &pair in asked {
            let by = self.both(pair).map_or(f64::MIN, |(part, other)| inside.meets_by(part, other));
            if by > best.0 {
                best = (by, pair);
            }
            if by >= MEETS_MM {
                break;
            }
        }
        best
    }

    /// A box in two: so that the most of both is barred at once, else along what it is longest in, since along what the deepest
    /// pair gains the most by it would be sliced and never turned. For each part which pair is best there, and by how much.
    fn parted(&self, open: &Open) -> Option<[Half; 2]> {
        let [from, to] = open.own.headings;
        let first = if to - from > MOST_UDEG { 2 } else { 0 };
        let ways = (first..3).filter_map(|along| {
            let halves = open.own.halves(along)?;
            let halves = halves.map(|half| (half, self.best(&Inside::new(&half), &open.asked)));
            let barred = halves.iter().filter(|own| own.1.0 >= MEETS_MM).count();
            Some(((barred, open.own.extent(along)), halves))
        });
        let best = ways.max_by(|a, b| a.0.0.cmp(&b.0.0).then(a.0.1.total_cmp(&b.0.1)));
        best.map(|own| own.1)
    }
}
