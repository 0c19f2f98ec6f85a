//! The plan region of a first Fresnel zone, or of a share of it, within a height range.

use glam::{DMat2, DVec2, DVec3};

use crate::fresnel::Wavelength;
use crate::polygon::Polygon;
use crate::prism::Span;
use crate::tolerance::TOUCH_MM;

/// How far the polygon may lie outside the region, mm: a scale's finest mark. What is nearer than that is looked at
/// with the exact clearance anyway.
const OUTSIDE_MM: f64 = 0.5;

/// Added to every tangent's distance, mm, so that no rounding lets the polygon cut into the region.
const MARGIN_MM: f64 = 1e-6;

/// No two neighbouring tangents are turned by less than about this, rad: below, their crossing has no digits left.
/// The corners of a stretch that flat lie far nearer than [`OUTSIDE_MM`].
const FINEST_RAD: f64 = 1e-7;

/// A convex polygon around the plan projection of a zone about the straight path `eye` → `target`, taken within the
/// heights of `span`: never inside it, and at most half a millimetre outside.
///
/// The zone is the ellipsoid of all points whose path is longer than the direct one by at most `share²` of half a
/// wavelength, so that `share` is its radius as a share of the first Fresnel zone's (ITU-R P.526 section 2): 1 for
/// the whole zone, 0.6 for the part that must stay clear. `None` if no part of it has such heights, or it has no
/// thickness.
///
/// ```rust
/// # use baywright_geometry::*;
/// let (eye, target) = (DVec3::new(0.0, 0.0, 500.0), DVec3::new(4000.0, 0.0, 500.0));
/// let region = fresnel_plan(eye, target, wavelength(77e9)?, 1.0, &Span::new(0.0, 2000.0)?);
/// // As wide as the zone half way: twice 62.4 mm.
/// assert!(region.is_some_and(|region| (region.bounds().size().y - 124.8).abs() < 0.1));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn fresnel_plan(
    eye: DVec3,
    target: DVec3,
    wavelength: Wavelength,
    share: f64,
    span: &Span,
) -> Option<Polygon> {
    let zone = Zone::new(eye, target, 0.5 * wavelength.mm() * share * share, span)?;
    // Four square tangents, then one more wherever two neighbours meet too far outside.
    let along = (target - eye).truncate().normalize_or(DVec2::X);
    let mut ring = Vec::new();
    let turns = [along, along.perp(), -along, -along.perp()];
    let mut first = zone.tangent(turns[0])?;
    for turn in [turns[1], turns[2], turns[3], turns[0]] {
        let next = zone.tangent(turn)?;
        corners(&zone, &first, &next, &mut ring);
        first = next;
    }
    ring.dedup_by(|a, b| a.distance_squared(*b) <= TOUCH_MM * TOUCH_MM);
    crate::convex::hull(&ring)
}

/// A tangent of the region: everything in it has `normal · p <= offset`.
struct Tangent {
    normal: DVec2,
    offset: f64,
    /// Where it touches.
    at: DVec2,
}

impl Tangent {
    fn meet(&self, other: &Self) -> DVec2 {
        let turned = self.normal.perp_dot(other.normal);
        DVec2::new(
            self.offset * other.normal.y - other.offset * self.normal.y,
            other.offset * self.normal.x - self.offset * other.normal.x,
        ) / turned
    }
}

/// The corner of two tangents, or more corners of tangents between them if that one lies too far outside.
fn corners(zone: &Zone, first: &Tangent, last: &Tangent, ring: &mut Vec<DVec2>) {
    let corner = first.meet(last);
    // The region holds the chord between the two points that they touch.
    let chord = crate::segment::Segment::new(first.at, last.at);
    let fine = first.normal.perp_dot(last.normal) < FINEST_RAD;
    if !fine
        && chord.distance_to(corner) > OUTSIDE_MM
        && let Some(between) = zone.tangent((first.normal + last.normal).normalize_or(first.normal.perp()))
    {
        corners(zone, first, &between, ring);
        corners(zone, &between, last, ring);
    } else {
        ring.push(corner);
    }
}

/// An ellipsoid between two heights. With `M` its shape, it is { c + x : xᵀ M⁻¹ x <= 1 }.
struct Zone {
    centre: DVec3,
    /// `M`'s plan block.
    plan: DMat2,
    /// `M`'s column of height against plan, and height against height.
    lean: DVec2,
    rise: f64,
    bottom: f64,
    top: f64,
}

impl Zone {
    fn new(from: DVec3, to: DVec3, excess: f64, span: &Span) -> Option<Self> {
        let apart = from.distance(to);
        let long = 0.5 * (apart + excess);
        // long² - (apart/2)², without the difference of two large numbers.
        let short_squared = 0.25 * excess * (2.0 * apart + excess);
        if !(excess > 0.0 && short_squared > 0.0 && long.is_finite()) {
            return None;
        }
        let unit = (to - from).normalize_or(DVec3::X);
        // M = long² uuᵀ + short² (1 - uuᵀ); long² - short² = (apart/2)².
        let more = 0.25 * apart * apart;
        let flat = unit.truncate();
        let plan = DMat2::from_cols(
            flat * (more * flat.x) + DVec2::X * short_squared,
            flat * (more * flat.y) + DVec2::Y * short_squared,
        );
        let rise = more * unit.z * unit.z + short_squared;
        let centre = from.midpoint(to);
        let (bottom, top) = (span.bottom() - centre.z, span.top() - centre.z);
        let half = rise.sqrt();
        (bottom < half - TOUCH_MM && top > TOUCH_MM - half).then_some(Self {
            centre,
            plan,
            lean: flat * (more * unit.z),
            rise,
            bottom,
            top,
        })
    }

    /// The tangent with that outward normal (a unit vector): the furthest point of the ellipsoid, or, if that lies too
    /// high or low, of its section at the nearer of the two heights.
    fn tangent(&self, normal: DVec2) -> Option<Tangent> {
        let reach = (self.plan * normal).dot(normal).sqrt();
        let height = self.lean.dot(normal) / reach;
        let off = if (self.bottom..=self.top).contains(&height) {
            self.plan * normal / reach
        } else {
            let height = height.clamp(self.bottom, self.top);
            let left = 1.0 - height * height / self.rise;
            let section = self.plan
                - DMat2::from_cols(self.lean * self.lean.x, self.lean * self.lean.y) * (1.0 / self.rise);
            let reach = (section * normal).dot(normal).max(0.0).sqrt();
            let out =
                if reach > 0.0 { section * normal * (left.max(0.0).sqrt() / reach) } else { DVec2::ZERO };
            self.lean * (height / self.rise) + out
        };
        let at = self.centre.truncate() + off;
        let offset = normal.dot(at) + MARGIN_MM;
        offset.is_finite().then_some(Tangent { normal, offset, at })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fresnel::{wavelength, zone_radius};

    #[test]
    fn a_level_path_is_as_wide_as_its_radius() {
        let (a, b) = (DVec3::new(0.0, 0.0, 500.0), DVec3::new(4000.0, 0.0, 500.0));
        let lambda = wavelength(77e9).unwrap();
        for share in [1.0, 0.6] {
            let plan = fresnel_plan(a, b, lambda, share, &Span::new(0.0, 2000.0).unwrap()).unwrap();
            let half = 0.5 * plan.bounds().size().y;
            // Equation 2 is the first term of a series, right to 3e-4 here.
            let expected = share * zone_radius(lambda, 2000.0, 2000.0, 1);
            assert!((half / expected - 1.0).abs() < 5e-4, "{half} {expected}");
            // An ellipse: π a b.
            let ellipse = std::f64::consts::PI * half * 0.5 * plan.bounds().size().x;
            assert!(
                plan.area() >= ellipse * 0.9999 && plan.area() < ellipse * 1.01,
                "{}",
                plan.outer().len()
            );
        }
    }

    #[test]
    fn heights_out_of_the_zone_have_no_region() {
        let (a, b) = (DVec3::new(0.0, 0.0, 500.0), DVec3::new(4000.0, 0.0, 500.0));
        let lambda = Wavelength::new(4.0).unwrap();
        let plan = |bottom, top| fresnel_plan(a, b, lambda, 1.0, &Span::new(bottom, top).unwrap());
        assert!(plan(0.0, 430.0).is_none() && plan(570.0, 900.0).is_none());
        let low = plan(0.0, 450.0).unwrap();
        assert!(low.area() < plan(0.0, 900.0).unwrap().area());
        for share in [0.0, f64::NAN] {
            assert!(fresnel_plan(a, b, lambda, share, &Span::new(0.0, 900.0).unwrap()).is_none());
        }
    }
}
