//! The search: from lattice to finer lattice, each time with the best word to the goal tried from every place that is reached.

use std::cmp::Ordering;
use std::collections::BinaryHeap;
use std::f64::consts::TAU;

use glam::DVec2;

use crate::angle::wrapped;
use crate::bounds::Bounds;
use crate::frame::PlanPose;
use crate::way_in::drive::Piece;
use crate::way_in::far::Far;
use crate::way_in::solids::Solids;
use crate::way_in::words;

/// What a change between forwards and backwards costs, in mm of way: so much further is driven before it is done.
const CHANGE_COSTS: f64 = 3_000.0;

/// How far the car runs from one place of the lattice to the next, in turning radii; one search for each.
const STEPS: [f64; 3] = [1.0 / 6.0, 1.0 / 12.0, 1.0 / 24.0];

/// Cells of a lattice to a step, in place and in heading.
const CELLS_TO_A_STEP: f64 = 2.0;

/// How many words are tried from a place.
const TRIED: usize = 6;

/// A way is good enough if no other can cost less than its share of this.
const GOOD_ENOUGH: f64 = 0.75;

/// How many more places are looked at for a better way once there is one.
const AFTERWARDS: usize = 200;

/// A lattice has no more cells than this (32 MiB of marks): a larger one is made coarser.
const MOST_CELLS: f64 = 268_435_456.0;

/// With more changes than this allowed, how many there were does not tell places apart.
const COUNTED_CHANGES: usize = 7;

/// All in the goal's frame; poses are those of the rear axle.
pub(super) struct Task<'a> {
    pub rings: &'a [Vec<DVec2>],
    pub radius: f64,
    pub solids: &'a Solids,
    pub starts: &'a [PlanPose],
    pub goal: PlanPose,
    /// Of the vehicle's origin, that far in front of the rear axle's middle.
    pub wheelbase: f64,
    pub slack: (f64, f64),
    /// Of a disc about the rear axle's middle that the car needs room for, and the ring that it lies in.
    pub disc: (f64, usize),
    pub most_changes: usize,
    pub most_places: usize,
}

/// What came of it.
pub(super) enum Outcome {
    Found { start: usize, pieces: Vec<Piece> },
    NotFound { places: usize, whole: bool },
    Stopped,
}

struct Node {
    pose: PlanPose,
    /// The node before; none of a start, which is the one of that number.
    before: Option<usize>,
    piece: Piece,
    changes: usize,
    cost: f64,
}

/// What is to be looked at next: a place, or the goal by a word from a place.
struct Open {
    least: f64,
    order: usize,
    node: usize,
    word: Option<Vec<Piece>>,
}

impl PartialEq for Open {
    fn eq(&self, other: &Self) -> bool {
        self.cmp(other) == Ordering::Equal
    }
}

impl Eq for Open {}

impl PartialOrd for Open {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Open {
    /// The cheapest is the greatest; of equal ones the first.
    fn cmp(&self, other: &Self) -> Ordering {
        other.least.total_cmp(&self.least).then(other.order.cmp(&self.order))
    }
}

/// Looks for a way until one is found, the finest lattice is searched, the bounds are reached, or it is stopped.
pub(super) fn find(task: &Task<'_>, stop: &dyn Fn() -> bool) -> Outcome {
    let Some(within) = task.solids.bounds() else { return Outcome::NotFound { places: 0, whole: true } };
    let far = Far::from(task.goal.origin(), task.disc, within, task.solids);
    let mut places = 0;
    let mut whole = true;
    for (nth, step) in STEPS.iter().enumerate() {
        let lattice = Lattice::new(task, within, step * task.radius);
        // What one lattice did not use is left for the next.
        let budget = (task.most_places - places) / (STEPS.len() - nth);
        let mut search =
            Search { task, far: &far, lattice, nodes: Vec::new(), open: BinaryHeap::new(), pushed: 0 };
        match search.run(budget, stop) {
            Outcome::NotFound { places: own, whole: to_the_end } => {
                places += own;
                whole = to_the_end;
            }
            other => return other,
        }
    }
    Outcome::NotFound { places, whole }
}

struct Search<'a> {
    task: &'a Task<'a>,
    far: &'a Far,
    lattice: Lattice,
    nodes: Vec<Node>,
    open: BinaryHeap<Open>,
    pushed: usize,
}

impl Search<'_> {
    fn run(&mut self, budget: usize, stop: &dyn Fn() -> bool) -> Outcome {
        for (i, &pose) in self.task.starts.iter().enumerate() {
            let still = Piece { curvature: 0.0, length: 0.0 };
            self.nodes.push(Node { pose, before: None, piece: still, changes: 0, cost: 0.0 });
            self.push(i, self.left_from(&pose), None);
        }
        let mut places = 0;
        let mut found_at = None;
        let mut best: Option<(usize, Vec<Piece>)> = None;
        let mut cheapest = f64::INFINITY;
        while let Some(next) = self.open.pop() {
            if let Some(word) = next.word {
                best = Some((next.node, word));
                break;
            }
            let Some(node) = self.nodes.get(next.node) else { continue };
            if !self.lattice.mark(&node.pose, node.changes) {
                continue;
            }
            let afterwards =
                found_at.is_some_and(|at| places > at + AFTERWARDS) || next.least >= GOOD_ENOUGH * cheapest;
            if places >= budget || afterwards {
                // The cheapest way so far, which is the first of those that are open.
                best = self
                    .open
                    .drain()
                    .filter(|open| open.word.is_some())
                    .max()
                    .and_then(|open| Some((open.node, open.word?)));
                return self.told(best, places, false);
            }
            places += 1;
            if places % 32 == 0 && stop() {
                return Outcome::Stopped;
            }
            if let Some(cost) = self.try_words(next.node) {
                found_at.get_or_insert(places);
                cheapest = cheapest.min(cost);
            }
            self.step(next.node);
        }
        self.told(best, places, true)
    }

    fn told(&self, best: Option<(usize, Vec<Piece>)>, places: usize, whole: bool) -> Outcome {
        let Some((node, word)) = best else { return Outcome::NotFound { places, whole } };
        let mut pieces = word;
        pieces.reverse();
        let mut at = node;
        while let Some(Node { before: Some(before), piece, .. }) = self.nodes.get(at) {
            pieces.push(*piece);
            at = *before;
        }
        pieces.reverse();
        Outcome::Found { start: at, pieces: joined(&pieces) }
    }

    fn push(&mut self, node: usize, least: f64, word: Option<Vec<Piece>>) {
        if least.is_finite() {
            self.pushed += 1;
            self.open.push(Open { least, order: self.pushed, node, word });
        }
    }

    /// At least what is left to drive, as far as can be told quickly, mm.
    fn left_from(&self, pose: &PlanPose) -> f64 {
        let turn = wrapped(pose.heading() - self.task.goal.heading()).abs();
        self.far.at(pose.origin()).max(turn * self.task.radius)
    }

    /// Whether it goes on in another gear than it came.
    fn changes_gear(node: &Node, forwards: bool) -> bool {
        node.before.is_some() && node.piece.is_forwards() != forwards
    }

    /// Tries the cheapest words from a place to the goal; what the way by the first that is clear costs.
    fn try_words(&mut self, from: usize) -> Option<f64> {
        let (task, node) = (self.task, self.nodes.get(from)?);
        let (pose, cost) = (node.pose, node.cost);
        let front = pose * DVec2::new(task.wheelbase, 0.0);
        let goal = task.goal * DVec2::new(task.wheelbase, 0.0);
        let turn = wrapped(pose.heading() - task.goal.heading()).abs();
        if front.distance(goal) <= task.slack.0 && turn <= task.slack.1 {
            self.push(from, cost, Some(Vec::new()));
            return Some(cost);
        }
        let mut words: Vec<(f64, words::Word)> = Vec::new();
        for word in words::all(&pose, &task.goal, task.radius) {
            let changes = word.changes() + usize::from(Self::changes_gear(node, word.starts_forwards()));
            if node.changes + changes <= task.most_changes {
                words.push((word.length() + CHANGE_COSTS * changes as f64, word));
            }
        }
        words.sort_by(|a, b| a.0.total_cmp(&b.0));
        let driven = words.iter().filter_map(|(more, word)| Some((more, word.pieces(&pose, &task.goal)?)));
        let (more, pieces) = driven.take(TRIED).find(|(_, pieces)| self.drives_clear(&pose, pieces))?;
        let least = cost + more;
        self.push(from, least, Some(pieces));
        Some(least)
    }

    fn drives_clear(&self, from: &PlanPose, pieces: &[Piece]) -> bool {
        let mut at = *from;
        pieces.iter().all(|piece| {
            let start = at;
            at = piece.end(&at);
            self.task.solids.drives_clear(self.task.rings, &start, piece)
        })
    }

    /// On from a place by one step each way.
    fn step(&mut self, from: usize) {
        let task = self.task;
        let Some(node) = self.nodes.get(from) else { return };
        let (pose, cost, had) = (node.pose, node.cost, node.changes);
        let changing = [1.0, -1.0].map(|gear| (gear, Self::changes_gear(node, gear > 0.0)));
        for (gear, changed) in changing {
            let changes = had + usize::from(changed);
            if changes > task.most_changes {
                continue;
            }
            for steer in [0.0, 1.0, -1.0] {
                let piece = Piece { curvature: steer / task.radius, length: gear * self.lattice.step };
                let end = piece.end(&pose);
                if !self.lattice.is_new(&end, changes) {
                    continue;
                }
                let left = self.left_from(&end);
                if left.is_infinite() || !task.solids.drives_clear(task.rings, &pose, &piece) {
                    continue;
                }
                let cost = cost + self.lattice.step + if changed { CHANGE_COSTS } else { 0.0 };
                self.nodes.push(Node { pose: end, before: Some(from), piece, changes, cost });
                self.push(self.nodes.len() - 1, cost + left, None);
            }
        }
    }
}

/// Pieces one after another with the same steering and in the same gear as one.
fn joined(pieces: &[Piece]) -> Vec<Piece> {
    let mut all: Vec<Piece> = Vec::new();
    for piece in pieces {
        match all.last_mut() {
            Some(last) if last.curvature == piece.curvature && last.is_forwards() == piece.is_forwards() => {
                last.length += piece.length;
            }
            _ => all.push(*piece),
        }
    }
    all
}

/// Which places were looked at: one of each cell.
struct Lattice {
    step: f64,
    cell: f64,
    low: (i64, i64),
    columns: usize,
    rows: usize,
    headings: usize,
    layers: usize,
    marks: Vec<u64>,
}

impl Lattice {
    fn new(task: &Task<'_>, within: Bounds, step: f64) -> Self {
        let layers = if task.most_changes <= COUNTED_CHANGES { task.most_changes + 1 } else { 1 };
        let size = within.size();
        let cells = |step: f64| {
            let cell = step / CELLS_TO_A_STEP;
            size.x * size.y / (cell * cell) * (TAU * task.radius / cell) * layers as f64
        };
        let step = step * libm::cbrt((cells(step) / MOST_CELLS).max(1.0));
        let cell = step / CELLS_TO_A_STEP;
        let low = within.low / cell;
        let headings = libm::ceil(TAU * task.radius / cell).max(8.0) as usize;
        let (columns, rows) = ((size.x / cell) as usize + 3, (size.y / cell) as usize + 3);
        let marks = vec![0; (columns * rows * headings * layers).div_ceil(64)];
        let low = (libm::round(low.x) as i64 - 1, libm::round(low.y) as i64 - 1);
        Self { step, cell, low, columns, rows, headings, layers, marks }
    }

    /// Which word and which bit of it.
    fn place(&self, pose: &PlanPose, changes: usize) -> Option<(usize, u64)> {
        let at = pose.origin() / self.cell;
        let x = usize::try_from(libm::round(at.x) as i64 - self.low.0).ok().filter(|&x| x < self.columns)?;
        let y = usize::try_from(libm::round(at.y) as i64 - self.low.1).ok().filter(|&y| y < self.rows)?;
        let turn = libm::round(pose.heading() / TAU * self.headings as f64) as i64;
        let turn = turn.rem_euclid(self.headings as i64) as usize;
        let layer = if self.layers > 1 { changes.min(self.layers - 1) } else { 0 };
        let nth = ((layer * self.headings + turn) * self.rows + y) * self.columns + x;
        Some((nth / 64, 1 << (nth % 64)))
    }

    fn is_new(&self, pose: &PlanPose, changes: usize) -> bool {
        let marked = |(word, bit): (usize, u64)| self.marks.get(word).is_some_and(|own| own & bit != 0);
        self.place(pose, changes).is_some_and(|place| !marked(place))
    }

    /// Marks it; whether it was new.
    fn mark(&mut self, pose: &PlanPose, changes: usize) -> bool {
        let Some((word, bit)) = self.place(pose, changes) else { return false };
        let Some(own) = self.marks.get_mut(word) else { return false };
        let new = *own & bit == 0;
        *own |= bit;
        new
    }
}
