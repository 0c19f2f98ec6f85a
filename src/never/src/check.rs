//! Who checks a proof: it shares no code with who made it. Shown is: each solid is convex; at a place outside of the box of
//! places a corner of the set-up lies out of the room's box; the cells cover the box and the whole circle; in each the pair that
//! it names overlaps at every pose: two convex outlines are apart only if they are so across a side of one of them, and across no
//! side they are.

use crate::{Area, Cell, Proof, ROUND_UDEG, Solid};

/// Two solids that meet are in one another by so much at least, in plan and in height, µm: more than figures are rounded by.
pub const MARGIN_UM: i64 = 100;
/// A proof of more cells than this is none.
pub const MOST_CELLS: usize = 100_000;
/// Farther than this nothing is, µm: all is whole in a float.
const FAR_UM: i64 = 1_000_000_000_000;
/// So many corners a solid may have.
const MOST_CORNERS: usize = 256;
/// So often, a cell, cells may be asked whether they cover what is left.
const MOST_STEPS: usize = 400;

/// Why a proof is refused.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Refused {
    /// A part of the set-up, by position, is no convex solid.
    Part(usize),
    /// Something that stands is none.
    Stands(usize),
    /// There is no set-up, or the box of places leaves out places in the room.
    Places,
    /// A cell, by position, is none: it is empty or names what is not there.
    NoCell(usize),
    /// In a cell the two that it names need not meet.
    NotBarred(usize),
    /// No cell covers this place (µm) and heading (millionths of a degree), or too much would have to be asked to see it.
    Uncovered([i64; 3]),
    /// There are too many cells.
    TooMany,
}

/// Whether a proof proves that the set-up fits nowhere.
///
/// # Errors
/// The first thing that is wrong with it.
pub fn check(proof: &Proof) -> Result<(), Refused> {
    let bad = |all: &[Solid]| all.iter().position(|own| !is_solid(own));
    bad(&proof.set_up).map_or(Ok(()), |nth| Err(Refused::Part(nth)))?;
    bad(&proof.stands).map_or(Ok(()), |nth| Err(Refused::Stands(nth)))?;
    if proof.cells.len() > MOST_CELLS {
        return Err(Refused::TooMany);
    }
    let far = |p: &[i64; 2]| libm::hypot(p[0] as f64, p[1] as f64) as i64 + 1 + MARGIN_UM;
    let corners = proof.set_up.iter().flat_map(|own| &own.ring);
    let nearest = corners.map(far).min().ok_or(Refused::Places)?;
    let is_far = |own: [i64; 2]| own[0] >= own[1] || own.iter().any(|at| !(-FAR_UM..=FAR_UM).contains(at));
    let reaches = |room: [i64; 2], places: [i64; 2]| {
        !is_far(room) && !is_far(places) && places[0] <= room[0] - nearest && places[1] >= room[1] + nearest
    };
    if !reaches(proof.room.x, proof.places.x) || !reaches(proof.room.y, proof.places.y) {
        return Err(Refused::Places);
    }
    for (nth, cell) in proof.cells.iter().enumerate() {
        let is_empty = [cell.places.x, cell.places.y, cell.headings].into_iter().any(is_far);
        let is_round = 0 <= cell.headings[0] && cell.headings[1] <= ROUND_UDEG;
        let pair = proof.set_up.get(cell.part).zip(proof.stands.get(cell.against));
        let (part, stands) = pair.filter(|_| is_round && !is_empty).ok_or(Refused::NoCell(nth))?;
        if !is_barred(part, stands, cell) {
            return Err(Refused::NotBarred(nth));
        }
    }
    let all: Vec<Block> = proof.cells.iter().map(|own| [own.places.x, own.places.y, own.headings]).collect();
    covered([proof.places.x, proof.places.y, [0, ROUND_UDEG]], &all)
}

/// A convex ring, anticlockwise: no corner lies right of a side, and not all lie on it.
fn is_solid(own: &Solid) -> bool {
    let ring = &own.ring;
    let within = |at: &i64| (-FAR_UM..=FAR_UM).contains(at);
    let turn = |a: &[i64; 2], b: &[i64; 2], c: &[i64; 2]| {
        let by = |p: &[i64; 2], q: &[i64; 2], axis: usize| i128::from(q[axis]) - i128::from(p[axis]);
        by(a, b, 0) * by(a, c, 1) - by(a, b, 1) * by(a, c, 0)
    };
    let is_side = |(a, b): (&[i64; 2], &[i64; 2])| {
        let left = ring.iter().map(|c| turn(a, b, c));
        left.clone().all(|own| own >= 0) && left.max() > Some(0)
    };
    (3..=MOST_CORNERS).contains(&ring.len())
        && ring.iter().flatten().chain(&own.heights).all(within)
        && own.heights[0] < own.heights[1]
        && sides(ring).all(is_side)
}

fn sides(ring: &[[i64; 2]]) -> impl Iterator<Item = (&[i64; 2], &[i64; 2])> {
    ring.iter().zip(ring.iter().cycle().skip(1))
}

/// A line across a side, outwards, one long; and how far along it the side lies.
fn outwards((a, b): (&[i64; 2], &[i64; 2])) -> ([f64; 2], f64) {
    let (x, y) = ((b[0] - a[0]) as f64, (b[1] - a[1]) as f64);
    let long = libm::hypot(x, y);
    let out = [y / long, -x / long];
    (out, out[0] * a[0] as f64 + out[1] * a[1] as f64)
}

/// Whether two are in one another at every pose of a cell: a corner of one is inside of the other, or across each side of either a
/// corner of the other is.
fn is_barred(part: &Solid, stands: &Solid, cell: &Cell) -> bool {
    let shared = part.heights[1].min(stands.heights[1]) - part.heights[0].max(stands.heights[0]);
    let turns = Turns::of(cell.headings);
    let Area { x, y } = cell.places;
    let corners = [[x[0], y[0]], [x[1], y[0]], [x[0], y[1]], [x[1], y[1]]];
    let of_stands = |side, v: &[i64; 2]| {
        let (out, lies) = outwards(side);
        let moved = corners.iter().map(|t| out[0] * t[0] as f64 + out[1] * t[1] as f64);
        // out · R v = cos (out · v) + sin (out × R90 v).
        let [vx, vy] = v.map(|at| at as f64);
        let reach = turns.most(out[0] * vx + out[1] * vy, out[1] * vx - out[0] * vy);
        lies - moved.fold(f64::MIN, f64::max) - reach >= MARGIN_UM as f64
    };
    let of_part = |side, q: &[i64; 2]| {
        let (out, lies) = outwards(side);
        // out · R⁻¹ (q - t), at the worst corner of the box.
        let reach = corners.iter().map(|t| {
            let [wx, wy] = [(q[0] - t[0]) as f64, (q[1] - t[1]) as f64];
            turns.most(out[0] * wx + out[1] * wy, out[0] * wy - out[1] * wx)
        });
        lies - reach.fold(f64::MIN, f64::max) >= MARGIN_UM as f64
    };
    let (own, other) = (&part.ring, &stands.ring);
    shared >= MARGIN_UM
        && (own.iter().any(|v| sides(other).all(|side| of_stands(side, v)))
            || other.iter().any(|q| sides(own).all(|side| of_part(side, q)))
            || sides(other).all(|side| own.iter().any(|v| of_stands(side, v)))
                && sides(own).all(|side| other.iter().any(|q| of_part(side, q))))
}

/// The headings of a cell: cosine and sine of both ends.
struct Turns {
    from: [f64; 2],
    to: [f64; 2],
    is_half: bool,
}

impl Turns {
    fn of([from, to]: [i64; 2]) -> Self {
        let at = |own: i64| {
            let (sin, cos) = libm::sincos(own as f64 * (std::f64::consts::PI / 180e6));
            [cos, sin]
        };
        Self { from: at(from), to: at(to), is_half: to - from >= ROUND_UDEG / 2 }
    }

    /// The most of `a cos + b sin` over them: at one of the ends, or where that points.
    fn most(&self, a: f64, b: f64) -> f64 {
        let [from, to] = [self.from, self.to];
        let is_between = from[0] * b - from[1] * a >= 0.0 && a * to[1] - b * to[0] >= 0.0;
        if self.is_half || is_between {
            return libm::hypot(a, b);
        }
        (a * from[0] + b * from[1]).max(a * to[0] + b * to[1])
    }
}

/// A box in x, y and heading.
type Block = [[i64; 2]; 3];

/// Whether some cells cover a box: one of them all of it, or, parted along a face of one, they cover both parts.
fn covered(all: Block, cells: &[Block]) -> Result<(), Refused> {
    let meets = |own: &Block, nth: usize| {
        (0..3).all(|k| cells[nth][k][0] < own[k][1] && own[k][0] < cells[nth][k][1])
    };
    let mut open: Vec<(Block, Vec<usize>)> = vec![(all, (0..cells.len()).collect())];
    let mut steps = MOST_STEPS * (cells.len() + 1);
    while let Some((own, mut near)) = open.pop() {
        near.retain(|&nth| meets(&own, nth));
        if near
            .iter()
            .any(|&nth| (0..3).all(|k| cells[nth][k][0] <= own[k][0] && own[k][1] <= cells[nth][k][1]))
        {
            continue;
        }
        // Of the faces nearest to the middle the one that cuts the fewest cells.
        let is_cut = |k: usize, at: i64| move |own: &Block| own[k][0] < at && at < own[k][1];
        let faces =
            |k: usize| near.iter().flat_map(move |&nth| cells[nth][k]).filter(move |&at| is_cut(k, at)(&own));
        let middle = |k: usize| faces(k).min_by_key(|at| (2 * at - own[k][0] - own[k][1]).abs());
        let cuts = |&(k, at): &(usize, i64)| near.iter().filter(|&&nth| is_cut(k, at)(&cells[nth])).count();
        let face = (0..3).filter_map(|k| Some((k, middle(k)?))).min_by_key(cuts);
        let Some((k, at)) = face.filter(|_| steps >= near.len()) else {
            return Err(Refused::Uncovered(own.map(|[from, to]| from + (to - from) / 2)));
        };
        steps -= near.len();
        for half in [[own[k][0], at], [at, own[k][1]]] {
            let mut part = own;
            part[k] = half;
            open.push((part, near.clone()));
        }
    }
    Ok(())
}
