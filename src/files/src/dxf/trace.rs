//! Closed outlines out of loose lines: where lines cross or touch they are parted, ends that all but meet are joined, and what is
//! enclosed is walked round.
//!
//! Plain geometry in millimetres. What would take too long is refused: see [`MOST_CHORDS`], [`MOST_PAIRS`], [`MOST_PARTS`].

use std::cmp::Ordering;
use std::collections::{BTreeMap, BTreeSet};

use baywright_planner::geometry::DVec2;

/// Ends nearer than this are one, mm: what a drawing program rounds, and no tape shows.
const JOIN_MM: f64 = 0.05;
/// More straight pieces are not looked through.
pub const MOST_CHORDS: usize = 50_000;
/// More pairs of pieces are not compared.
const MOST_PAIRS: usize = 10_000_000;
/// More places at which pieces are parted are not counted.
const MOST_PARTS: usize = 200_000;
/// Of more loose ends the two that are nearest to one another are not told.
const MOST_LOOSE_TOLD: usize = 2_000;
/// An outline that is smaller than this each way is a crossing that was drawn a little too far, mm.
const LEAST_MM: f64 = 20.0;

/// Two ends that do not meet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gap {
    pub from: DVec2,
    pub to: DVec2,
}

impl Gap {
    pub fn size(&self) -> f64 {
        self.from.distance(self.to)
    }
}

/// What came of some lines.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Traced {
    /// Closed outlines, corners anticlockwise, the largest first.
    pub outlines: Vec<Vec<DVec2>>,
    /// The gaps that were closed.
    pub closed: Vec<Gap>,
    /// Pieces that belong to no outline.
    pub open: Vec<[DVec2; 2]>,
    /// The smallest gap that was left open.
    pub left: Option<Gap>,
}

/// Too many pieces, or crossings among them.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct TooTangled;

/// The closed outlines that straight pieces enclose, gaps of up to `gap_mm` between loose ends closed.
pub fn trace(pieces: &[[DVec2; 2]], gap_mm: f64) -> Result<Traced, TooTangled> {
    if pieces.len() > MOST_CHORDS {
        return Err(TooTangled);
    }
    let mut net = Net::of(&parted(pieces)?);
    net.cut_stubs(gap_mm);
    let closed = net.close(gap_mm)?;
    let loose = net.loose();
    let left = if loose.len() <= MOST_LOOSE_TOLD { net.nearest(&loose) } else { None };
    let open = net.prune();
    let mut outlines = net.walk();
    outlines.sort_by(|a, b| area(b).total_cmp(&area(a)));
    Ok(Traced { outlines, closed, open, left })
}

/// The area inside corners, positive if they go anticlockwise.
pub fn area(corners: &[DVec2]) -> f64 {
    // From the first corner, so that far from the origin nothing is lost.
    let first = corners.first().copied().unwrap_or_default();
    let next = corners.iter().cycle().skip(1);
    corners.iter().zip(next).map(|(a, b)| (*a - first).perp_dot(*b - first)).sum::<f64>() * 0.5
}

/// The same corners without those that lie on the line between their neighbours.
pub fn without_straight_corners(corners: &[DVec2]) -> Vec<DVec2> {
    let count = corners.len();
    let mut kept: Vec<DVec2> = Vec::with_capacity(count);
    for (i, &own) in corners.iter().enumerate() {
        let before = kept.last().or(corners.last()).copied().unwrap_or(own);
        let after = corners.get((i + 1) % count).copied().unwrap_or(own);
        let span = after - before;
        let off = span.perp_dot(own - before).abs();
        if off > JOIN_MM * span.length() || span.dot(own - before) < 0.0 || span.dot(after - own) < 0.0 {
            kept.push(own);
        }
    }
    kept
}

/// The pieces, parted wherever one crosses or touches another.
fn parted(pieces: &[[DVec2; 2]]) -> Result<Vec<[DVec2; 2]>, TooTangled> {
    let mut pieces: Vec<[DVec2; 2]> =
        pieces.iter().filter(|[from, to]| from.distance(*to) > JOIN_MM).copied().collect();
    let low = |own: &[DVec2; 2]| own[0].x.min(own[1].x);
    pieces.sort_by(|a, b| low(a).total_cmp(&low(b)));
    let mut cuts: Vec<Vec<DVec2>> = vec![Vec::new(); pieces.len()];
    let (mut pairs, mut parts) = (0, 0);
    for (i, one) in pieces.iter().enumerate() {
        let high = one[0].x.max(one[1].x) + JOIN_MM;
        for (j, other) in pieces.iter().enumerate().skip(i + 1) {
            if low(other) > high {
                break;
            }
            pairs += 1;
            if pairs > MOST_PAIRS {
                return Err(TooTangled);
            }
            for (whose, at) in meetings(one, other) {
                if let Some(cuts) = cuts.get_mut(if whose { i } else { j }) {
                    cuts.push(at);
                    parts += 1;
                }
            }
            if parts > MOST_PARTS {
                return Err(TooTangled);
            }
        }
    }
    let mut out = Vec::with_capacity(pieces.len() + parts);
    for ([from, to], mut cuts) in pieces.into_iter().zip(cuts) {
        cuts.sort_by(|a, b| from.distance_squared(*a).total_cmp(&from.distance_squared(*b)));
        let mut at = from;
        for cut in cuts.into_iter().chain([to]) {
            if cut.distance(at) > JOIN_MM {
                out.push([at, cut]);
                at = cut;
            }
        }
    }
    Ok(out)
}

/// Where two pieces meet inside of one or both: whether that is in the first, and where.
fn meetings(one: &[DVec2; 2], other: &[DVec2; 2]) -> Vec<(bool, DVec2)> {
    let mut found = Vec::new();
    let ([a, b], [c, d]) = (*one, *other);
    let (low, high) = (a.y.min(b.y) - JOIN_MM, a.y.max(b.y) + JOIN_MM);
    if c.y.max(d.y) < low || c.y.min(d.y) > high {
        return found;
    }
    // An end of one on the other: there, exactly.
    for (whose, [from, to], ends) in [(true, *one, [c, d]), (false, *other, [a, b])] {
        let along = to - from;
        let length = along.length();
        for end in ends {
            let share = (end - from).dot(along) / (length * length);
            let off = (along.perp_dot(end - from) / length).abs();
            let inside = end.distance(from) > JOIN_MM && end.distance(to) > JOIN_MM;
            if off <= JOIN_MM && inside && (0.0..=1.0).contains(&share) {
                found.push((whose, end));
            }
        }
    }
    if !found.is_empty() {
        return found;
    }
    let (along, across) = (b - a, d - c);
    let turn = along.perp_dot(across);
    if turn.abs() <= 1e-9 * along.length() * across.length() {
        return found;
    }
    let (s, t) = ((c - a).perp_dot(across) / turn, (c - a).perp_dot(along) / turn);
    let at = a + along * s;
    let is_end = [a, b, c, d].iter().any(|end| end.distance(at) <= JOIN_MM);
    if (0.0..=1.0).contains(&s) && (0.0..=1.0).contains(&t) && !is_end {
        found.extend([(true, at), (false, at)]);
    }
    found
}

/// Places, and the straight pieces between them.
struct Net {
    places: Vec<DVec2>,
    edges: BTreeSet<(usize, usize)>,
}

impl Net {
    fn of(pieces: &[[DVec2; 2]]) -> Self {
        let mut net = Self { places: Vec::new(), edges: BTreeSet::new() };
        let mut cells: BTreeMap<(i64, i64), Vec<usize>> = BTreeMap::new();
        for [from, to] in pieces {
            let ends = [*from, *to].map(|at| net.place(&mut cells, at));
            net.join(ends[0], ends[1]);
        }
        net
    }

    /// The place of a point, which is one that is there if it is near enough.
    fn place(&mut self, cells: &mut BTreeMap<(i64, i64), Vec<usize>>, at: DVec2) -> usize {
        // A number beyond the range becomes its end.
        let (x, y) = ((at.x / JOIN_MM).floor() as i64, (at.y / JOIN_MM).floor() as i64);
        for (dx, dy) in [(0, 0), (-1, 0), (1, 0), (0, -1), (0, 1), (-1, -1), (1, 1), (-1, 1), (1, -1)] {
            let near = cells.get(&(x.saturating_add(dx), y.saturating_add(dy)));
            let same = |own: &&usize| self.places.get(**own).is_some_and(|p| p.distance(at) <= JOIN_MM);
            if let Some(&own) = near.into_iter().flatten().find(same) {
                return own;
            }
        }
        self.places.push(at);
        let own = self.places.len() - 1;
        cells.entry((x, y)).or_default().push(own);
        own
    }

    fn join(&mut self, a: usize, b: usize) {
        if a != b {
            self.edges.insert((a.min(b), a.max(b)));
        }
    }

    fn at(&self, place: usize) -> DVec2 {
        self.places.get(place).copied().unwrap_or_default()
    }

    /// For each place those that it is joined to.
    fn neighbours(&self) -> Vec<Vec<usize>> {
        let mut all = vec![Vec::new(); self.places.len()];
        for &(a, b) in &self.edges {
            for (of, to) in [(a, b), (b, a)] {
                if let Some(own) = all.get_mut(of) {
                    own.push(to);
                }
            }
        }
        all
    }

    /// Places at which one piece ends alone, each with its other end.
    fn loose(&self) -> Vec<(usize, usize)> {
        let all = self.neighbours().into_iter().enumerate();
        all.filter_map(|(at, own)| match own[..] {
            [other] => Some((at, other)),
            _ => None,
        })
        .collect()
    }

    /// Takes away what was drawn a little beyond a crossing.
    fn cut_stubs(&mut self, gap_mm: f64) {
        let all = self.neighbours();
        for (at, other) in self.loose() {
            let ends_at_crossing = all.get(other).is_some_and(|own| own.len() > 2);
            if ends_at_crossing && self.at(at).distance(self.at(other)) <= gap_mm {
                self.edges.remove(&(at.min(other), at.max(other)));
            }
        }
    }

    /// Closes gaps, the smallest first: where both lines lead to one point near both ends they go on to it, else a straight piece
    /// joins the ends.
    fn close(&mut self, gap_mm: f64) -> Result<Vec<Gap>, TooTangled> {
        let mut loose = self.loose();
        loose.sort_by(|a, b| self.at(a.0).x.total_cmp(&self.at(b.0).x));
        let (mut near, mut pairs) = (Vec::new(), 0);
        for (i, &one) in loose.iter().enumerate() {
            for &other in loose.iter().skip(i + 1) {
                pairs += 1;
                if pairs > MOST_PAIRS {
                    return Err(TooTangled);
                }
                if self.at(other.0).x - self.at(one.0).x > gap_mm {
                    break;
                }
                let size = self.at(one.0).distance(self.at(other.0));
                if size <= gap_mm && one.1 != other.0 {
                    near.push((size, one, other));
                }
            }
        }
        near.sort_by(|a, b| a.0.total_cmp(&b.0));
        let mut used = BTreeSet::new();
        let mut one_with: BTreeMap<usize, usize> = BTreeMap::new();
        let mut closed = Vec::new();
        for (_, one, other) in near {
            if used.contains(&one.0) || used.contains(&other.0) {
                continue;
            }
            used.extend([one.0, other.0]);
            closed.push(Gap { from: self.at(one.0), to: self.at(other.0) });
            match self.corner(one, other, gap_mm) {
                Some(corner) => {
                    for end in [one.0, other.0] {
                        if let Some(place) = self.places.get_mut(end) {
                            *place = corner;
                        }
                    }
                    one_with.insert(other.0, one.0);
                }
                None => self.join(one.0, other.0),
            }
        }
        // Ends that went on to one corner are one place.
        let same = |at: usize| one_with.get(&at).copied().unwrap_or(at);
        for (a, b) in std::mem::take(&mut self.edges) {
            self.join(same(a), same(b));
        }
        Ok(closed)
    }

    /// The point to which two loose pieces lead, if it lies near both their ends, and beyond neither's other end.
    fn corner(&self, one: (usize, usize), other: (usize, usize), gap_mm: f64) -> Option<DVec2> {
        let (a, c) = (self.at(one.0), self.at(other.0));
        let (along, across) = (a - self.at(one.1), c - self.at(other.1));
        let turn = along.perp_dot(across);
        // Nearly in line there is no corner to lead to.
        if turn.abs() <= 1e-3 * along.length() * across.length() {
            return None;
        }
        let at = a + along * ((c - a).perp_dot(across) / turn);
        let leads = (at - self.at(one.1)).dot(along) > 0.0 && (at - self.at(other.1)).dot(across) > 0.0;
        (leads && at.distance(a) <= gap_mm && at.distance(c) <= gap_mm).then_some(at)
    }

    /// The two loose ends that are nearest to one another, but for both ends of one piece.
    fn nearest(&self, loose: &[(usize, usize)]) -> Option<Gap> {
        let pairs =
            loose.iter().enumerate().flat_map(|(i, one)| loose.iter().skip(i + 1).map(move |two| (one, two)));
        let gaps = pairs
            .filter(|(one, two)| one.1 != two.0)
            .map(|(one, two)| Gap { from: self.at(one.0), to: self.at(two.0) });
        gaps.min_by(|a, b| a.size().total_cmp(&b.size()))
    }

    /// Takes away what leads nowhere, again and again; what that was.
    fn prune(&mut self) -> Vec<[DVec2; 2]> {
        let mut all: Vec<BTreeSet<usize>> =
            self.neighbours().into_iter().map(|own| own.into_iter().collect()).collect();
        let mut loose: Vec<usize> =
            (0..all.len()).filter(|&at| all.get(at).is_some_and(|own| own.len() == 1)).collect();
        let mut open = Vec::new();
        while let Some(at) = loose.pop() {
            let Some(other) = all.get_mut(at).and_then(BTreeSet::pop_first) else { continue };
            open.push([self.at(at), self.at(other)]);
            self.edges.remove(&(at.min(other), at.max(other)));
            if let Some(own) = all.get_mut(other) {
                own.remove(&at);
                if own.len() == 1 {
                    loose.push(other);
                }
            }
        }
        open
    }

    /// Every outline that encloses something, walked round with the inside on the left.
    fn walk(&self) -> Vec<Vec<DVec2>> {
        let mut around = self.neighbours();
        for (at, own) in around.iter_mut().enumerate() {
            let from = self.at(at);
            own.sort_by(|a, b| turning(self.at(*a) - from, self.at(*b) - from));
        }
        // Where one comes in, one goes out by the next way to the right of it.
        let mut next: BTreeMap<(usize, usize), usize> = BTreeMap::new();
        for (at, own) in around.iter().enumerate() {
            let before = own.iter().cycle().skip(own.len().saturating_sub(1));
            for (came_from, goes_to) in own.iter().zip(before) {
                next.insert((*came_from, at), *goes_to);
            }
        }
        let mut walked: BTreeSet<(usize, usize)> = BTreeSet::new();
        let mut outlines = Vec::new();
        for &start in next.keys() {
            let (mut way, mut corners) = (start, Vec::new());
            while walked.insert(way) {
                corners.push(self.at(way.0));
                let Some(&to) = next.get(&way) else { break };
                way = (way.1, to);
            }
            let corners = without_straight_corners(&corners);
            if corners.len() > 2 && area(&corners) > 0.0 && is_larger(&corners) {
                outlines.push(corners);
            }
        }
        outlines
    }
}

fn is_larger(corners: &[DVec2]) -> bool {
    let low = corners.iter().copied().reduce(DVec2::min).unwrap_or_default();
    let high = corners.iter().copied().reduce(DVec2::max).unwrap_or_default();
    (high - low).max_element() >= LEAST_MM
}

/// The order of directions anticlockwise, from straight ahead along x; the same on every machine.
fn turning(a: DVec2, b: DVec2) -> Ordering {
    let half = |own: DVec2| own.y < 0.0 || (own.y == 0.0 && own.x < 0.0);
    half(a).cmp(&half(b)).then_with(|| 0.0_f64.total_cmp(&a.perp_dot(b)))
}

#[cfg(test)]
mod tests {
    use super::*;

    type End = (f64, f64);

    fn lines(all: &[(End, End)]) -> Vec<[DVec2; 2]> {
        all.iter().map(|(from, to)| [DVec2::from(*from), DVec2::from(*to)]).collect()
    }

    fn areas(traced: &Traced) -> Vec<f64> {
        traced.outlines.iter().map(|own| area(own).round()).collect()
    }

    const HALL: [(End, End); 4] = [
        ((0.0, 0.0), (8_000.0, 0.0)),
        ((8_000.0, 5_000.0), (8_000.0, 0.0)),
        ((8_000.0, 5_000.0), (0.0, 5_000.0)),
        ((0.0, 0.0), (0.0, 5_000.0)),
    ];

    #[test]
    fn loose_lines_in_any_order_and_direction_enclose_a_room() {
        let traced = trace(&lines(&HALL), 10.0).unwrap();
        assert_eq!(areas(&traced), [40e6]);
        assert_eq!(traced.outlines[0].len(), 4);
        assert_eq!((traced.closed.len(), traced.open.len(), traced.left), (0, 0, None));
        // Drawn twice it is the same room.
        let twice = [lines(&HALL), lines(&HALL)].concat();
        assert_eq!(trace(&twice, 10.0).unwrap().outlines, traced.outlines);
    }

    /// 7 mm short of the corner, 4 mm beyond it, and a piece of wall in two parts 6 mm apart in line.
    #[test]
    fn gaps_are_closed_and_told_and_what_goes_too_far_is_cut() {
        let traced = trace(
            &lines(&[
                ((0.0, 0.0), (7_993.0, 0.0)),
                ((8_000.0, 0.0), (8_000.0, 5_004.0)),
                ((8_004.0, 5_000.0), (3_006.0, 5_000.0)),
                ((3_000.0, 5_000.0), (0.0, 5_000.0)),
                ((0.0, 5_000.0), (0.0, 0.0)),
            ]),
            10.0,
        )
        .unwrap();
        assert_eq!(areas(&traced), [40e6]);
        assert_eq!(traced.outlines[0].len(), 4, "{:?}", traced.outlines);
        let sizes: Vec<f64> = traced.closed.iter().map(|own| own.size().round()).collect();
        assert_eq!(sizes, [6.0, 7.0]);
        // With less allowed it stays open, and the smallest that is left is told.
        let open = trace(&lines(&[HALL[0], HALL[1], HALL[2], ((0.0, 12.0), (0.0, 5_000.0))]), 10.0).unwrap();
        assert_eq!(open.outlines.len(), 0);
        assert_eq!(open.left.map(|own| own.size()), Some(12.0));
        assert_eq!(open.open.len(), 4);
    }

    #[test]
    fn rooms_that_share_a_wall_and_an_island_are_outlines_of_their_own() {
        let island = [
            ((1_000.0, 1_000.0), (1_500.0, 1_000.0)),
            ((1_500.0, 1_000.0), (1_500.0, 1_500.0)),
            ((1_500.0, 1_500.0), (1_000.0, 1_500.0)),
            ((1_000.0, 1_500.0), (1_000.0, 1_000.0)),
        ];
        let wall = [((3_000.0, 0.0), (3_000.0, 5_000.0)), ((5_000.0, 2_000.0), (6_000.0, 2_000.0))];
        let all = [lines(&HALL), lines(&island), lines(&wall)].concat();
        let traced = trace(&all, 10.0).unwrap();
        assert_eq!(areas(&traced), [25e6, 15e6, 250_000.0]);
        assert_eq!(traced.open.len(), 1);
        assert_eq!(traced.open[0].map(|end| end.y), [2_000.0; 2]);
    }

    #[test]
    fn far_from_the_origin_and_turned_it_is_the_same() {
        for step in 0..60 {
            let (sin, cos) = (f64::from(step) * 0.1).sin_cos();
            let at = DVec2::new(4.5e9, -2.7e8);
            let moved: Vec<[DVec2; 2]> = lines(&HALL)
                .into_iter()
                .map(|own| own.map(|p| at + DVec2::new(cos, sin).rotate(p)))
                .collect();
            let traced = trace(&moved, 10.0).unwrap();
            assert_eq!(traced.outlines.len(), 1, "{step}");
            assert!((area(&traced.outlines[0]) - 40e6).abs() < 100.0, "{step}");
        }
    }

    #[test]
    fn what_would_take_too_long_is_refused() {
        let many = vec![[DVec2::ZERO, DVec2::X]; MOST_CHORDS + 1];
        assert_eq!(trace(&many, 10.0), Err(TooTangled));
        let net: Vec<[DVec2; 2]> = (0..600)
            .flat_map(|i| {
                let at = f64::from(i) * 10.0;
                [[DVec2::new(at, -1.0), DVec2::new(at, 6e3)], [DVec2::new(-1.0, at), DVec2::new(6e3, at)]]
            })
            .collect();
        assert_eq!(trace(&net, 10.0), Err(TooTangled));
    }
}
