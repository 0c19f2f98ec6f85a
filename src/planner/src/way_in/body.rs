//! What of the car may meet what: its hull, its mirrors, what of it is high or low, its wheels, each with its heights.

use baywright_geometry::convex::hull;
use baywright_geometry::way_in::{Car, Turning};
use baywright_geometry::{Bounds, DVec2, Prism, Span};

use super::turns::Turns;
use crate::model::Arrangement;

/// One convex ring of the car, vehicle frame, and its heights over the floor.
struct Part {
    ring: Vec<DVec2>,
    span: Span,
    kind: Kind,
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Kind {
    /// Around all of the body without its mirrors.
    Hull,
    /// From mirror to mirror.
    Mirrors,
    /// A slab of the body, within the hull.
    Slab,
    /// A tyre.
    Wheel {
        /// Within the hull.
        is_within: bool,
    },
}

/// The car as it is driven.
pub(super) struct Body {
    parts: Vec<Part>,
    /// As it turns.
    pub car: Car,
}

impl Body {
    /// With its mirrors out or folded; `None` if its figures make none that could be driven.
    pub fn of(arrangement: &Arrangement, turns: &Turns, folded: bool) -> Option<Self> {
        let vehicle = &arrangement.vehicle;
        let measured = arrangement.measured_wheels().map(|wheels| vehicle.tyres_at(wheels));
        let (wheels, body): (Vec<&Prism>, Vec<&Prism>) = (vehicle.solids().iter())
            .chain(measured.iter().flatten())
            .partition(|own| own.span.bottom() <= 0.0);
        let is_aside = |own: &&Prism| {
            let bounds = own.outline.bounds();
            bounds.low.y > 0.0 || bounds.high.y < 0.0
        };
        let (mirrors, slabs): (Vec<&Prism>, Vec<&Prism>) = body.into_iter().partition(is_aside);
        let mut parts = Vec::new();
        let around = joined(&slabs)?;
        let ring = around.0.clone();
        parts.push(Part { ring: around.0, span: around.1, kind: Kind::Hull });
        if let Some((ring, span)) = joined(&mirrors).filter(|_| !folded) {
            parts.push(Part { ring, span, kind: Kind::Mirrors });
        }
        let slab = |own: &&Prism| Some(Part { ring: corners(own), span: own.span, kind: Kind::Slab });
        parts.extend(slabs.iter().filter_map(slab));
        parts.extend(wheels.iter().map(|own| {
            let corners = corners(own);
            let kind = Kind::Wheel { is_within: corners.iter().all(|&p| is_in(&ring, p)) };
            Part { ring: corners, span: own.span, kind }
        }));
        let rings: Vec<Vec<DVec2>> = parts.iter().map(|own| own.ring.clone()).collect();
        let track = vehicle.track_front_mm + vehicle.tyre_width_mm;
        let turning = Turning::KerbToKerb { circle: turns.circle_mm, track };
        let car = Car::new(&rings, vehicle.wheelbase_mm, turning).ok()?;
        Some(Self { parts, car })
    }

    /// Whether it has mirrors that stand out.
    pub fn has_mirrors(&self) -> bool {
        self.parts.iter().any(|own| own.kind == Kind::Mirrors)
    }

    /// All its corners, vehicle frame.
    pub fn corners(&self) -> impl Iterator<Item = DVec2> + '_ {
        self.parts.iter().flat_map(|own| own.ring.iter().copied())
    }

    /// The box around it, vehicle frame.
    pub fn bounds(&self) -> Bounds {
        let none = Bounds { low: DVec2::ZERO, high: DVec2::ZERO };
        Bounds::around(self.corners()).unwrap_or(none)
    }

    /// How narrow it is at least, seen from any side, mm: no door that is narrower lets it through, however it is turned (the width
    /// of a convex outline; without its mirrors that is known of this car).
    pub fn least_width_mm(&self) -> f64 {
        let Some(hull) = self.parts.first().map(|own| &own.ring) else { return 0.0 };
        let sides = hull.iter().zip(hull.iter().cycle().skip(1));
        let widths = sides.map(|(a, b)| {
            let out = (b - a).perp().normalize_or_zero();
            hull.iter().map(|p| (p - a).dot(out)).fold(0.0, f64::max)
        });
        widths.fold(f64::INFINITY, f64::min)
    }

    /// How high it is, mm.
    pub fn top_mm(&self) -> f64 {
        self.parts.iter().map(|own| own.span.top()).fold(0.0, f64::max)
    }

    /// Which of its rings something of these heights is in the way of, bit by bit; those that lie within others that it meets too
    /// are left out.
    pub fn meets(&self, span: &Span) -> u64 {
        let shares = |own: &Part| own.span.shared(span).is_some();
        let whole = self.parts.iter().filter(|own| own.kind == Kind::Slab).all(shares);
        self.bits(|own| {
            shares(own)
                && match own.kind {
                    Kind::Hull => whole,
                    Kind::Slab | Kind::Wheel { is_within: true } => !whole,
                    Kind::Mirrors | Kind::Wheel { is_within: false } => true,
                }
        })
    }

    /// Those that a wall is in the way of.
    pub fn meets_walls(&self) -> u64 {
        let is_outer =
            |own: &Part| matches!(own.kind, Kind::Hull | Kind::Mirrors | Kind::Wheel { is_within: false });
        self.bits(is_outer)
    }

    /// Its wheels: those that a hole in the floor is in the way of.
    pub fn wheels(&self) -> u64 {
        self.bits(|own| matches!(own.kind, Kind::Wheel { .. }))
    }

    fn bits(&self, of: impl Fn(&Part) -> bool) -> u64 {
        let bits = self.parts.iter().take(64).zip(0_u32..).filter(|(own, _)| of(own));
        bits.map(|(_, nth)| 1 << nth).fold(0, |all, own: u64| all | own)
    }
}

fn corners(solid: &Prism) -> Vec<DVec2> {
    solid.outline.as_polygon().outer().to_vec()
}

/// Some solids together: the hull around them and all their heights.
fn joined(solids: &[&Prism]) -> Option<(Vec<DVec2>, Span)> {
    let points: Vec<DVec2> = solids.iter().flat_map(|own| corners(own)).collect();
    let around = hull(&points)?;
    let low = solids.iter().map(|own| own.span.bottom()).fold(f64::INFINITY, f64::min);
    let high = solids.iter().map(|own| own.span.top()).fold(f64::NEG_INFINITY, f64::max);
    Some((around.outer().to_vec(), Span::new(low, high).ok()?))
}

/// Whether a point lies in a convex ring or on its edge.
fn is_in(ring: &[DVec2], p: DVec2) -> bool {
    ring.iter().zip(ring.iter().cycle().skip(1)).all(|(a, b)| (b - a).perp_dot(p - a) >= 0.0)
}
