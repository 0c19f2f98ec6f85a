//! Shapes biased to trouble: collinear corners, shared edges, dents, holes, tiny and huge, turned by odd angles, far from
//! the origin; and pairs of them that touch, nest or coincide.

// A generator that makes no shape is a mistake in the tests: it may stop them.
#![allow(clippy::unwrap_used)]

use baywright_geometry::{Circle, DVec2, Outline, PlanPose, Polygon};
use proptest::prelude::*;

/// Sizes in mm: the unit that the generators draw in is one of these.
const UNITS: [f64; 5] = [1e-3, 1.0, 1.0, 100.0, 1e5];

fn ring(points: &[(f64, f64)]) -> Vec<DVec2> {
    points.iter().map(|&p| p.into()).collect()
}

/// A star round the origin whose corners lie on a grid of halves: often convex, often dented, often collinear.
fn star() -> impl Strategy<Value = Polygon> {
    prop::collection::vec((0.0..1.0_f64, 1.0..6.0_f64), 3..12).prop_filter_map("no polygon", |spokes| {
        let mut spokes = spokes;
        spokes.sort_by(|a, b| a.0.total_cmp(&b.0));
        let corners = spokes.iter().map(|&(turn, reach)| {
            let (sin, cos) = libm::sincos(turn * std::f64::consts::TAU);
            (DVec2::new(cos, sin) * reach * 2.0).round() * 0.5
        });
        Polygon::simple(corners.collect()).ok()
    })
}

/// Corners anywhere, not on a grid.
fn loose_star() -> impl Strategy<Value = Polygon> {
    prop::collection::vec((0.0..1.0_f64, 0.2..6.0_f64), 3..10).prop_filter_map("no polygon", |spokes| {
        let mut spokes = spokes;
        spokes.sort_by(|a, b| a.0.total_cmp(&b.0));
        let corners = spokes.iter().map(|&(turn, reach)| {
            let (sin, cos) = libm::sincos(turn * std::f64::consts::TAU);
            DVec2::new(cos, sin) * reach
        });
        Polygon::simple(corners.collect()).ok()
    })
}

/// Shapes of a workshop, on a grid: rectangle, L, C, comb, thin strip, ring, ring with two touching holes, a rectangle
/// with corners on its straight sides.
fn workshop() -> impl Strategy<Value = Polygon> {
    (0..8_u8, 1..5_i32, 1..5_i32).prop_filter_map("no polygon", |(kind, w, h)| {
        let (w, h) = (f64::from(w), f64::from(h));
        let square: &[(f64, f64)] = &[(0., 0.), (8., 0.), (8., 8.), (0., 8.)];
        match kind {
            0 => Polygon::rectangle(DVec2::ZERO, DVec2::new(w, h)),
            1 => Polygon::simple(ring(&[
                (0., 0.),
                (w + 1., 0.),
                (w + 1., 1.),
                (1., 1.),
                (1., h + 1.),
                (0., h + 1.),
            ])),
            2 => Polygon::simple(ring(&[
                (0., 0.),
                (4., 0.),
                (4., 1.),
                (1., 1.),
                (1., 1. + h),
                (4., 1. + h),
                (4., 2. + h),
                (0., 2. + h),
            ])),
            3 => Polygon::simple(ring(&[
                (0., 0.),
                (7., 0.),
                (7., 4.),
                (6., 4.),
                (6., 1.),
                (5., 1.),
                (5., h),
                (4., h),
                (3.5, 0.5),
                (1., 4.),
                (0., 4.),
            ])),
            4 => Polygon::rectangle(DVec2::ZERO, DVec2::new(w * 3.0, 0.01)),
            5 => Polygon::new(ring(square), vec![ring(&[(1., 1.), (1. + w, 1.), (1. + w, 7.), (1., 7.)])]),
            6 => Polygon::new(
                ring(square),
                vec![
                    ring(&[(1., 1.), (4., 1.), (4., 4.), (1., 4.)]),
                    ring(&[(4., 4.), (7., 4.), (7., 7.), (4., 7.)]),
                ],
            ),
            _ => Polygon::simple(ring(&[
                (0., 0.),
                (w, 0.),
                (2. * w, 0.),
                (2. * w, h),
                (2. * w, 2. * h),
                (0., 2. * h),
                (0., h),
            ])),
        }
        .ok()
    })
}

/// A polygon about the origin, a few units large.
pub fn polygon() -> impl Strategy<Value = Polygon> {
    prop_oneof![star(), loose_star(), workshop()]
}

/// A polygon or a disc.
pub fn outline() -> impl Strategy<Value = Outline> {
    prop_oneof![
        4 => polygon().prop_map(Outline::Polygon),
        1 => (0.25..4.0_f64).prop_map(|r| Outline::Circle(Circle::new(DVec2::ZERO, r).unwrap())),
        1 => (1..5_i32).prop_map(|r| Outline::Circle(Circle::new(DVec2::ZERO, f64::from(r)).unwrap())),
    ]
}

/// The same shape, its unit `k` mm instead of one.
fn scaled(outline: &Outline, k: f64) -> Outline {
    let all = |ring: &[DVec2]| ring.iter().map(|&p| p * k).collect::<Vec<_>>();
    match outline {
        Outline::Polygon(p) => {
            let holes = p.holes().iter().map(|hole| all(hole)).collect();
            Polygon::new(all(p.outer()), holes).unwrap().into()
        }
        Outline::Circle(c) => Circle::new(c.centre() * k, c.radius() * k).unwrap().into(),
    }
}

/// Two shapes and the unit, mm, in which they are a few large.
#[derive(Clone)]
pub struct Pair {
    pub a: Outline,
    pub b: Outline,
    pub unit: f64,
}

impl std::fmt::Debug for Pair {
    /// Short enough to paste into a test.
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        for outline in [&self.a, &self.b] {
            match outline {
                Outline::Circle(c) => writeln!(f, "circle {:?} {:?}", c.centre(), c.radius())?,
                Outline::Polygon(p) => {
                    for ring in p.rings() {
                        let corners: Vec<_> = ring.iter().map(|p| (p.x, p.y)).collect();
                        writeln!(f, "ring {corners:?}")?;
                    }
                }
            }
        }
        write!(f, "unit {}", self.unit)
    }
}

/// So many cases, unless the environment asks for another number; a failure is printed, not filed.
pub fn config(cases: u32) -> ProptestConfig {
    let wanted = std::env::var("PROPTEST_CASES").ok().and_then(|n| n.parse().ok());
    ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(wanted.unwrap_or(cases)) }
}

/// How the second shape is put to the first, before both are turned and carried off together.
#[derive(Clone, Debug)]
enum Put {
    /// On the grid: shared edges, corners on edges, exact fits.
    Grid(i32, i32, i32),
    /// Anywhere.
    Loose(f64, f64, f64),
    /// The same shape again.
    Twin,
}

/// Awkward pairs.
pub fn pair() -> impl Strategy<Value = Pair> {
    let put = prop_oneof![
        (-8..9_i32, -8..9_i32, 0..4_i32).prop_map(|(x, y, q)| Put::Grid(x, y, q)),
        (-6.0..6.0_f64, -6.0..6.0_f64, -3.0..3.0_f64).prop_map(|(x, y, h)| Put::Loose(x, y, h)),
        Just(Put::Twin),
    ];
    let turned = prop_oneof![Just(0.0), Just(0.5), -3.0..3.0_f64];
    let carried = prop_oneof![Just(0.0), Just(37.0), -1e3..1e3_f64];
    let unit = prop::sample::select(&UNITS);
    (outline(), outline(), put, unit, turned, carried).prop_map(|(a, b, put, unit, turned, carried)| {
        let b = match put {
            Put::Grid(x, y, q) => b.placed(&PlanPose::new(
                DVec2::new(f64::from(x), f64::from(y)),
                f64::from(q) * std::f64::consts::FRAC_PI_2,
            )),
            Put::Loose(x, y, heading) => b.placed(&PlanPose::new(DVec2::new(x, y), heading)),
            Put::Twin => a.clone(),
        };
        // A few kilometres at most: within reach.
        let far = (carried * unit).clamp(-4e6, 4e6);
        let pose = PlanPose::new(DVec2::new(far, -0.3 * far), turned);
        Pair { a: scaled(&a, unit).placed(&pose), b: scaled(&b, unit).placed(&pose), unit }
    })
}

impl Pair {
    /// What rounding may do to a length: the touching tolerance, and the last places of the largest coordinate.
    pub fn length_slack(&self) -> f64 {
        let furthest = [self.a.bounds(), self.b.bounds()]
            .iter()
            .map(|b| b.low.abs().max(b.high.abs()).max_element())
            .fold(0.0, f64::max);
        2e-9_f64.max(1e-14 * furthest)
    }
}
