//! What may not share area: convex pieces of what stays, and convex pieces of what moves with the car.

use baywright_geometry::convex::common;
use baywright_geometry::polygon::signed_area;
use baywright_geometry::{Bounds, DVec2, Outline, Region, hull};

/// A polygon that stands for something round lies outside it by this at most, mm: of both it is less than [`super::BAND_MM`].
const ROUND_MM: f64 = 0.4;

/// The convex rings of an outline, a little outside of what is round.
pub(super) fn rings(outline: &Outline) -> Vec<Vec<DVec2>> {
    match outline {
        Outline::Circle(circle) => vec![circle.circumscribed_within(ROUND_MM).outer().to_vec()],
        Outline::Polygon(polygon) => polygon.pieces().map(<[DVec2]>::to_vec).collect(),
    }
}

/// A part of the set-up that may not meet something, vehicle frame.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Barred {
    /// A convex ring, a line of two points, or a point.
    pub ring: Vec<DVec2>,
    /// Whether it surely stops where the two share more than a hair; else it may.
    pub sure: bool,
}

impl Barred {
    /// Of an outline, all of its rings.
    pub(super) fn of(outline: &Outline) -> impl Iterator<Item = Self> {
        rings(outline).into_iter().map(|ring| Self { ring, sure: true })
    }
}

/// One convex ring that stays, bay frame, and one of the set-up.
#[derive(Clone, Copy, Debug)]
pub(super) struct Pair {
    /// Its position among those that stay.
    pub stays: usize,
    /// Its position among those that move.
    pub moves: usize,
    /// Whether it surely stops where they meet.
    pub sure: bool,
}

/// All of them, each ring once.
#[derive(Clone, Debug, Default)]
pub(super) struct Pairs {
    /// What stays, with a box around it.
    pub stays: Vec<(Vec<DVec2>, Bounds)>,
    /// What moves, vehicle frame.
    pub moves: Vec<Vec<DVec2>>,
    pub all: Vec<Pair>,
    /// What was made of bars: many things bar alike.
    known: Vec<(Vec<Barred>, Vec<Barred>)>,
}

impl Pairs {
    /// Something that stays, against all of the set-up that it bars.
    pub(super) fn add(&mut self, stays: &[Vec<DVec2>], bars: Vec<Barred>) {
        let kept = match self.known.iter().find(|(own, _)| *own == bars) {
            Some((_, kept)) => kept.clone(),
            None => {
                let kept = fewer(&bars);
                self.known.push((bars, kept.clone()));
                kept
            }
        };
        for ring in stays {
            let Some(bounds) = Bounds::around(ring.iter().copied()) else { continue };
            let stays = self.stays.len();
            self.stays.push((ring.clone(), bounds));
            for Barred { ring, sure } in &kept {
                let moves = self.interned(ring);
                self.all.push(Pair { stays, moves, sure: *sure });
            }
        }
    }

    fn interned(&mut self, ring: &Vec<DVec2>) -> usize {
        let known = self.moves.iter().position(|own| own == ring);
        known.unwrap_or_else(|| {
            self.moves.push(ring.clone());
            self.moves.len() - 1
        })
    }
}

/// Two convex rings of which a convex one is made if that adds no more than this, mm²: what rounding makes of a straight side.
const ADDED_MM2: f64 = 0.1;

/// As few parts as cover the same of the plan: what lies in others is left out, and what is convex together is one.
fn fewer(bars: &[Barred]) -> Vec<Barred> {
    let (areas, thin): (Vec<&Barred>, Vec<&Barred>) = bars.iter().partition(|own| own.ring.len() >= 3);
    let (sure, unsure): (Vec<&Barred>, Vec<&Barred>) = areas.into_iter().partition(|own| own.sure);
    let mut rings: Vec<Vec<DVec2>> = sure.into_iter().map(|own| own.ring.clone()).collect();
    while let Some((first, second, both)) = joinable(&rings) {
        rings.swap_remove(second);
        if let Some(own) = rings.get_mut(first) {
            *own = both;
        }
    }
    rings.sort_by(|a, b| signed_area(a).total_cmp(&signed_area(b)));
    let mut kept = Vec::new();
    for nth in 0..rings.len() {
        let others = rings.iter().skip(nth + 1).chain(&kept);
        if let Some(own) = rings.get(nth).filter(|own| !is_covered(own, others.clone())) {
            kept.push(own.clone());
        }
    }
    let mut all: Vec<Barred> = Vec::new();
    for own in unsure.into_iter().chain(thin) {
        let is_known = all.iter().any(|known| known.ring == own.ring && (known.sure || !own.sure));
        if !is_known && !is_covered(&own.ring, kept.iter()) {
            all.push(own.clone());
        }
    }
    kept.into_iter().map(|ring| Barred { ring, sure: true }).chain(all).collect()
}

/// The first two that are convex together, with the ring around both.
fn joinable(rings: &[Vec<DVec2>]) -> Option<(usize, usize, Vec<DVec2>)> {
    let pairs =
        (0..rings.len()).flat_map(|first| (first + 1..rings.len()).map(move |second| (first, second)));
    pairs.into_iter().find_map(|(first, second)| {
        let (a, b) = (rings.get(first)?, rings.get(second)?);
        let corners: Vec<DVec2> = a.iter().chain(b).copied().collect();
        let around = hull(&corners)?;
        let shared = signed_area(&common(a, b)).max(0.0);
        let added = around.area() - (signed_area(a) + signed_area(b) - shared);
        (added <= ADDED_MM2).then(|| (first, second, around.outer().to_vec()))
    })
}

/// Whether some convex rings cover a ring, a line or a point.
fn is_covered<'a>(own: &[DVec2], by: impl Iterator<Item = &'a Vec<DVec2>> + Clone) -> bool {
    match own {
        [] => true,
        [from, to] => {
            // From where to where along the line each of them holds it.
            let mut held: Vec<(f64, f64)> = by.filter_map(|ring| along(*from, *to, ring)).collect();
            held.sort_by(|a, b| a.0.total_cmp(&b.0));
            let reached =
                held.iter().fold(
                    0.0,
                    |reached: f64, (start, end)| {
                        if *start <= reached + 1e-12 { reached.max(*end) } else { reached }
                    },
                );
            reached >= 1.0
        }
        _ if by.clone().any(|ring| holds(ring, own)) => true,
        [_] => false,
        _ => {
            let others: Vec<Vec<DVec2>> = by.cloned().collect();
            Region::left(&[own.to_vec()], &others).is_empty()
        }
    }
}

/// The part of a line, as shares of it, that a convex ring holds.
fn along(from: DVec2, to: DVec2, ring: &[DVec2]) -> Option<(f64, f64)> {
    let (mut start, mut end) = (0.0_f64, 1.0_f64);
    for (&a, &b) in ring.iter().zip(ring.iter().cycle().skip(1)) {
        let side = |p: DVec2| (b - a).perp_dot(p - a);
        let (here, there) = (side(from), side(to));
        if here < 0.0 && there < 0.0 {
            return None;
        }
        let at = here / (here - there);
        if here < 0.0 {
            start = start.max(at);
        } else if there < 0.0 {
            end = end.min(at);
        }
    }
    (start < end).then_some((start, end))
}

/// Whether a convex ring holds all of another, or of a line or point.
fn holds(ring: &[DVec2], inner: &[DVec2]) -> bool {
    let sides = || ring.iter().zip(ring.iter().cycle().skip(1));
    ring.len() >= 3 && inner.iter().all(|p| sides().all(|(&a, &b)| (b - a).perp_dot(*p - a) >= 0.0))
}
