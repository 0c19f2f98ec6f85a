//! The solids that a car's body fills, from its two outlines.
//!
//! The outline from above is cut across into slabs; each slab is a convex prism from the lowest to the highest height
//! that the outline from the side has there, so that the bonnet is low and the roof high. The solids are never smaller
//! than the body and there are at most [`MOST_SOLIDS`] of them: a conflict is never missed, and questions stay quick.

use baywright_geometry::{Bounds, DVec2, Outline, Polygon, Prism, Span};

use super::{Mirrors, Wheel};

/// How many solids a body has at most: slabs, two mirrors, four wheels.
pub const MOST_SOLIDS: usize = 16;

/// Slabs at most: what is left of [`MOST_SOLIDS`] after mirrors and wheels.
const MOST_SLABS: usize = MOST_SOLIDS - 2 - 4;

/// Before slabs are joined, none is longer than this, so that a sloping windscreen is followed in steps.
const LONGEST_STEP_MM: f64 = 150.0;

/// Cuts nearer than this are one: far below what a tape reads.
const SAME_CUT_MM: f64 = 1e-6;

/// How thick a mirror is along the car and how tall, mm (our own invention: about a hand's span each way).
const MIRROR_LENGTH_MM: f64 = 180.0;
const MIRROR_HEIGHT_MM: f64 = 200.0;

/// What [`solids`] needs to know of a car. Vehicle frame, mm.
#[derive(Clone, Copy, Debug)]
pub struct Shell<'a> {
    /// Outline from above.
    pub top: &'a [DVec2],
    /// Outline from the side: x ahead of the front axle, y up from the ground.
    pub side: &'a [DVec2],
    /// Width of the body without mirrors.
    pub width: f64,
    /// The mirrors.
    pub mirrors: &'a Mirrors,
    /// The wheel points, in [`Wheel::ALL`]'s order.
    pub wheels: [DVec2; 4],
    /// Across a tyre.
    pub tyre_diameter: f64,
    /// Widths of the tyres, in the same order.
    pub tyre_widths: [f64; 4],
    /// Under the body.
    pub ground_clearance: f64,
}

/// The solids that a body fills, vehicle frame: never smaller than the body, each with a convex outline. Figures that
/// make no shape give none.
pub fn solids(shell: &Shell<'_>) -> Vec<Prism> {
    let mut solids: Vec<Prism> = slabs(shell.side)
        .iter()
        .filter_map(|slab| Some(Prism::new(across(shell.top, slab)?, Span::new(slab.low, slab.high).ok()?)))
        .collect();
    solids.extend(mirrors(shell));
    solids.extend(wheels(shell));
    solids
}

/// A stretch of the car's length and the heights that the body has there.
#[derive(Clone, Copy, Debug)]
struct Slab {
    from: f64,
    to: f64,
    low: f64,
    high: f64,
}

impl Slab {
    fn area(&self) -> f64 {
        (self.to - self.from) * (self.high - self.low)
    }

    fn joined(&self, next: &Self) -> Self {
        Self { from: self.from, to: next.to, low: self.low.min(next.low), high: self.high.max(next.high) }
    }
}

/// Cuts the side outline at its corners and at even steps, then joins the neighbours that cost least until few are left.
fn slabs(side: &[DVec2]) -> Vec<Slab> {
    let mut cuts: Vec<f64> = side.iter().map(|p| p.x).filter(|x| x.is_finite()).collect();
    cuts.sort_by(f64::total_cmp);
    cuts.dedup_by(|a, b| (*a - *b).abs() < SAME_CUT_MM);
    let mut slabs = Vec::new();
    for pair in cuts.windows(2) {
        let &[from, to] = pair else { continue };
        // A car is a few metres long; the bound keeps a nonsense figure from asking for millions of steps.
        let steps = libm::ceil((to - from) / LONGEST_STEP_MM).clamp(1.0, 200.0);
        let step = (to - from) / steps;
        for i in 0..steps as usize {
            let start = from + step * i as f64;
            let end = if i + 1 == steps as usize { to } else { start + step };
            if let Some((low, high)) = heights(side, start, end) {
                slabs.push(Slab { from: start, to: end, low, high });
            }
        }
    }
    while slabs.len() > MOST_SLABS {
        let cost = |pair: &[Slab]| match pair {
            [a, b] => a.joined(b).area() - a.area() - b.area(),
            _ => f64::INFINITY,
        };
        let cheapest = slabs.windows(2).map(cost).enumerate().min_by(|a, b| a.1.total_cmp(&b.1));
        let Some((i, _)) = cheapest else { break };
        let next = slabs.remove(i + 1);
        if let Some(slab) = slabs.get_mut(i) {
            *slab = slab.joined(&next);
        }
    }
    slabs
}

/// The lowest and highest y of a ring between two x.
fn heights(ring: &[DVec2], from: f64, to: f64) -> Option<(f64, f64)> {
    let within = clip(ring, from, to);
    let bounds = Bounds::around(within)?;
    Some((bounds.low.y, bounds.high.y))
}

/// The convex outline of a ring between two x.
fn across(ring: &[DVec2], slab: &Slab) -> Option<Outline> {
    Polygon::simple(hull(clip(ring, slab.from, slab.to))).ok().map(Outline::from)
}

/// Clips a ring to `from <= x <= to`. A ring that is not convex may leave edges that lie on a cut; only the extent and
/// the hull of the result are used, which these do not change.
fn clip(ring: &[DVec2], from: f64, to: f64) -> Vec<DVec2> {
    let ahead = half(ring, from, |p| p.x >= from);
    half(&ahead, to, |p| p.x <= to)
}

fn half(ring: &[DVec2], cut: f64, keep: impl Fn(&DVec2) -> bool) -> Vec<DVec2> {
    let next = ring.iter().cycle().skip(1);
    let mut kept = Vec::with_capacity(ring.len() + 2);
    for (a, b) in ring.iter().zip(next) {
        if keep(a) {
            kept.push(*a);
        }
        if keep(a) != keep(b) {
            // One end is strictly beyond the cut, so the two differ in x.
            let y = a.y + (cut - a.x) / (b.x - a.x) * (b.y - a.y);
            kept.push(DVec2::new(cut, y));
        }
    }
    kept
}

/// The convex hull, anticlockwise (Andrew's monotone chain).
fn hull(mut points: Vec<DVec2>) -> Vec<DVec2> {
    points.sort_by(|a, b| a.x.total_cmp(&b.x).then(a.y.total_cmp(&b.y)));
    points.dedup();
    let mut lower = chain(points.iter().copied());
    let mut upper = chain(points.iter().rev().copied());
    lower.pop();
    upper.pop();
    lower.append(&mut upper);
    lower
}

fn chain(points: impl Iterator<Item = DVec2>) -> Vec<DVec2> {
    let mut chain: Vec<DVec2> = Vec::new();
    for p in points {
        while let [.., a, b] = chain.as_slice()
            && (b - a).perp_dot(p - a) <= 0.0
        {
            chain.pop();
        }
        chain.push(p);
    }
    chain
}

fn mirrors(shell: &Shell<'_>) -> impl Iterator<Item = Prism> {
    let Mirrors { width_mm: width, ahead_mm: ahead, height_mm: height } = *shell.mirrors;
    let inner = shell.width * 0.5;
    let span = Span::new(height - MIRROR_HEIGHT_MM * 0.5, height + MIRROR_HEIGHT_MM * 0.5).ok();
    let (back, front) = (ahead - MIRROR_LENGTH_MM * 0.5, ahead + MIRROR_LENGTH_MM * 0.5);
    let left = Polygon::rectangle(DVec2::new(back, inner), DVec2::new(front, width * 0.5)).ok();
    let right = Polygon::rectangle(DVec2::new(back, -width * 0.5), DVec2::new(front, -inner)).ok();
    [left, right].into_iter().filter_map(move |outline| Some(Prism::new(outline?.into(), span?)))
}

/// The wheels, from the ground to where the body hides them; a wheel that stands out beyond the body is whole.
fn wheels(shell: &Shell<'_>) -> impl Iterator<Item = Prism> {
    let radius = shell.tyre_diameter * 0.5;
    let clearance = shell.ground_clearance;
    let wheels = shell.wheels.into_iter().zip(shell.tyre_widths).map(move |(at, width)| {
        let outside = at.y.abs() + width * 0.5 > shell.width * 0.5;
        let (half_length, top) = if outside || clearance >= radius {
            (radius, shell.tyre_diameter)
        } else {
            // The tyre is widest at the body's underside, so a box as long as it is there holds all of it below.
            let down = radius - clearance;
            ((radius * radius - down * down).max(0.0).sqrt(), clearance)
        };
        let half = DVec2::new(half_length, width * 0.5);
        Some(Prism::new(Polygon::rectangle(at - half, at + half).ok()?.into(), Span::new(0.0, top).ok()?))
    });
    wheels.flatten()
}

/// The solids that a car's body fills, as they were last made from its outlines; none before.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct BodySolids(Vec<Prism>);

/// A body whose solids are known otherwise.
impl From<Vec<Prism>> for BodySolids {
    fn from(solids: Vec<Prism>) -> Self {
        Self(solids)
    }
}

impl super::Vehicle {
    /// The solids that the body fills, vehicle frame, as they were last made.
    pub fn solids(&self) -> &[Prism] {
        &self.body.0
    }

    /// Forgets the solids of a body whose outlines make no shape.
    pub fn forget_solids(&mut self) {
        self.body = BodySolids::default();
    }

    /// Makes the solids anew from the outlines.
    pub fn make_solids(&mut self) {
        self.body = BodySolids(solids(&self.shell(Wheel::ALL.map(|wheel| self.wheel_point(wheel)))));
    }

    /// The tyres of a car whose wheel points, in [`Wheel::ALL`]'s order, are elsewhere than its profile has them: what they fill
    /// beside the body, vehicle frame.
    pub fn tyres_at(&self, wheels: [DVec2; 4]) -> Vec<Prism> {
        self::wheels(&self.shell(wheels)).collect()
    }

    fn shell(&self, wheels: [DVec2; 4]) -> Shell<'_> {
        Shell {
            top: &self.outline_top,
            side: &self.outline_side,
            width: self.width_mm,
            mirrors: &self.mirrors,
            wheels,
            tyre_diameter: self.tyre_diameter_mm,
            tyre_widths: Wheel::ALL.map(|wheel| self.tyre_width(wheel)),
            ground_clearance: self.ground_clearance_mm,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::VehicleClass;
    use super::*;
    use crate::entry::class::Figures;

    struct Car {
        top: Vec<DVec2>,
        side: Vec<DVec2>,
        mirrors: Mirrors,
    }

    fn car(class: VehicleClass) -> Car {
        let of = Figures {
            width: 1800.0,
            height: 1500.0,
            wheelbase: 2700.0,
            overhang_front: 900.0,
            overhang_rear: 1000.0,
            ground_clearance: 140.0,
        };
        Car { top: class.outline_top(&of), side: class.outline_side(&of), mirrors: class.mirrors(&of) }
    }

    fn solids_of(car: &Car) -> Vec<Prism> {
        solids(&Shell {
            top: &car.top,
            side: &car.side,
            width: 1800.0,
            mirrors: &car.mirrors,
            wheels: [(0., 780.), (0., -780.), (-2700., 780.), (-2700., -780.)].map(DVec2::from),
            tyre_diameter: 640.0,
            tyre_widths: [205.0; 4],
            ground_clearance: 140.0,
        })
    }

    fn holds(solids: &[Prism], p: DVec2, z: f64) -> bool {
        solids.iter().any(|s| {
            let outline = s.outline.as_polygon();
            let ring = outline.outer();
            let next = ring.iter().cycle().skip(1);
            // Convex and anticlockwise: never right of an edge.
            ring.iter().zip(next).all(|(a, b)| (b - a).perp_dot(p - a) >= -1e-6)
                && s.span.bottom() <= z + 1e-6
                && z <= s.span.top() + 1e-6
        })
    }

    #[test]
    fn few_convex_solids_that_hold_the_whole_body() {
        for class in VehicleClass::ALL {
            let car = car(class);
            let solids = solids_of(&car);
            assert!(solids.len() <= MOST_SOLIDS, "{class:?}: {}", solids.len());
            assert!(solids.iter().all(|s| s.outline.as_polygon().is_convex()), "{class:?}");
            // Every point of the body: inside the outline from above at an x, at a height of the side outline there.
            for step in 0..=460 {
                let x = -3700.0 + 10.0 * f64::from(step);
                let Some((low, high)) = heights(&car.side, x, x) else { continue };
                let Some((right, left)) = heights(&car.top, x, x) else { continue };
                for share in [0.0, 0.25, 0.5, 0.75, 1.0] {
                    let p = DVec2::new(x, right + (left - right) * share);
                    for z in [low, (low + high) * 0.5, high] {
                        assert!(holds(&solids, p, z), "{class:?} at {p} height {z}");
                    }
                }
            }
        }
    }

    #[test]
    fn the_bonnet_is_low_and_the_roof_high() {
        let solids = solids_of(&car(VehicleClass::Saloon));
        assert!(!holds(&solids, DVec2::new(600.0, 0.0), 1100.0), "over the bonnet");
        assert!(holds(&solids, DVec2::new(-1900.0, 0.0), 1499.0), "in the roof");
        assert!(!holds(&solids, DVec2::new(-1350.0, 0.0), 100.0), "under the sill");
        assert!(holds(&solids, DVec2::new(0.0, 780.0), 0.0), "a wheel stands on the ground");
        assert!(!holds(&solids, DVec2::new(600.0, 780.0), 0.0), "no wheel ahead of the wheel");
    }

    #[test]
    fn a_dented_outline_is_held_too() {
        let mut dented = car(VehicleClass::Saloon);
        // A waist behind the doors, on both sides.
        dented.top.insert(5, DVec2::new(-1500.0, -820.0));
        let solids = solids_of(&dented);
        assert!(solids.iter().all(|s| s.outline.as_polygon().is_convex()));
        assert!(holds(&solids, DVec2::new(-1500.0, -820.0), 700.0));
    }

    #[test]
    fn nonsense_gives_no_solids_and_no_panic() {
        let nothing = Car {
            top: vec![],
            side: vec![],
            mirrors: Mirrors { width_mm: f64::NAN, ahead_mm: 0.0, height_mm: 0.0 },
        };
        // Only the wheels are left.
        assert_eq!(solids_of(&nothing).len(), 4);
        let nan = Car {
            top: vec![DVec2::NAN; 4],
            side: vec![DVec2::new(f64::INFINITY, 1.0), DVec2::NAN, DVec2::ZERO, DVec2::ONE * 1e300],
            mirrors: Mirrors { width_mm: 2000.0, ahead_mm: f64::INFINITY, height_mm: 900.0 },
        };
        assert!(solids_of(&nan).len() <= MOST_SOLIDS);
    }
}
