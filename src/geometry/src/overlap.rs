//! Whether two plan shapes share area, how much, and which.

use glam::DVec2;

use crate::boolean::intersection;
use crate::circle::Circle;
use crate::convex::{clip, hull, parts, pieces, touch_within};
use crate::outline::Outline;
use crate::polygon::{Polygon, signed_area};

/// Whether the two share area. Reaching into each other by no more than [`crate::tolerance::TOUCH_MM`] is touching, not
/// overlapping.
///
/// ```rust
/// # use baywright_geometry::*;
/// let tile = Outline::from(Polygon::rectangle(DVec2::ZERO, DVec2::splat(300.0))?);
/// assert!(overlaps(&tile, &tile.moved(DVec2::new(299.0, 0.0))));
/// assert!(!overlaps(&tile, &tile.moved(DVec2::new(300.0, 0.0))));
/// # Ok::<(), ShapeFault>(())
/// ```
pub fn overlaps(a: &Outline, b: &Outline) -> bool {
    overlaps_by(a, b, 0.0)
}

/// Whether some convex part of the one is in one of the other by more than `depth_mm`, so that no move as short as that
/// parts them: quicker than to look for the shortest.
///
/// ```rust
/// # use baywright_geometry::*;
/// let tile = Outline::from(Polygon::rectangle(DVec2::ZERO, DVec2::splat(300.0))?);
/// assert!(overlaps_by(&tile, &tile.moved(DVec2::new(250.0, 0.0)), 49.0));
/// assert!(!overlaps_by(&tile, &tile.moved(DVec2::new(250.0, 0.0)), 51.0));
/// # Ok::<(), ShapeFault>(())
/// ```
pub fn overlaps_by(a: &Outline, b: &Outline, depth_mm: f64) -> bool {
    let (around_a, around_b) = (a.bounds(), b.bounds());
    if !around_a.meets(&around_b) {
        return false;
    }
    let slack = touch_within(&around_a, &around_b).max(depth_mm);
    // What is smaller than that is nowhere in by so much, for all that can be told quickly.
    let is_large = |outline: &Outline| !matches!(outline, Outline::Circle(c) if c.radius() <= depth_mm);
    is_large(a)
        && is_large(b)
        && parts(a)
            .filter(|p| p.bounds.meets(&around_b))
            .any(|p| parts(b).any(|q| p.bounds.meets(&q.bounds) && p.shares_area(&q, slack)))
}

/// As [`overlaps`], for a polygon that is not an outline yet.
pub(crate) fn polygon_overlaps(a: &Polygon, b: &Outline) -> bool {
    let slack = touch_within(&a.bounds(), &b.bounds());
    pieces(a).any(|p| parts(b).any(|q| p.shares_area(&q, slack)))
}

/// The area that both cover, mm²; 0 when they only touch. Circles by their own formulas, not by polygons.
///
/// ```rust
/// # use baywright_geometry::*;
/// let tile = Outline::from(Polygon::rectangle(DVec2::ZERO, DVec2::splat(300.0))?);
/// assert_eq!(overlap_area(&tile, &tile.moved(DVec2::new(290.0, 200.0))), 10.0 * 100.0);
/// # Ok::<(), ShapeFault>(())
/// ```
pub fn overlap_area(a: &Outline, b: &Outline) -> f64 {
    match (a, b) {
        _ if !a.bounds().meets(&b.bounds()) => 0.0,
        (Outline::Polygon(a), Outline::Polygon(b)) => polygon_polygon(a, b),
        _ if !overlaps(a, b) => 0.0,
        (Outline::Polygon(polygon), Outline::Circle(circle))
        | (Outline::Circle(circle), Outline::Polygon(polygon)) => circle_polygon(circle, polygon),
        (Outline::Circle(a), Outline::Circle(b)) => circle_circle(a, b),
    }
}

/// The region that both cover, for drawing: circles by polygons around them.
///
/// ```rust
/// # use baywright_geometry::*;
/// let tile = Outline::from(Polygon::rectangle(DVec2::ZERO, DVec2::splat(300.0))?);
/// let region = overlap_region(&tile, &tile.moved(DVec2::new(290.0, 200.0)));
/// assert_eq!(region[0].bounds(), Bounds { low: DVec2::new(290.0, 200.0), high: DVec2::splat(300.0) });
/// # Ok::<(), ShapeFault>(())
/// ```
pub fn overlap_region(a: &Outline, b: &Outline) -> Vec<Polygon> {
    if !overlaps(a, b) {
        return Vec::new();
    }
    let (a, b) = (a.as_polygon(), b.as_polygon());
    // Two convex shapes share one, and no sweep is needed to find it.
    let convex = (a.is_convex() && b.is_convex()).then(|| hull(&clip::common(a.outer(), b.outer())));
    convex.flatten().map_or_else(|| intersection(&a, &b), |both| vec![both])
}

/// The pieces of one polygon share no area among themselves, so their overlaps add up.
fn polygon_polygon(a: &Polygon, b: &Polygon) -> f64 {
    let (around_a, around_b) = (a.bounds(), b.bounds());
    let slack = touch_within(&around_a, &around_b);
    let mut area = 0.0;
    for p in pieces(a).filter(|p| p.bounds.meets(&around_b)) {
        for q in pieces(b).filter(|q| q.bounds.meets(&p.bounds)) {
            if p.shares_area(&q, slack) {
                area += signed_area(&clip::common(p.core, q.core)).max(0.0);
            }
        }
    }
    area
}

/// The lens of two discs.
fn circle_circle(a: &Circle, b: &Circle) -> f64 {
    let (r, s) = (a.radius(), b.radius());
    let d = a.centre().distance(b.centre());
    if d >= r + s {
        return 0.0;
    }
    if d <= (r - s).abs() {
        return std::f64::consts::PI * r.min(s).powi(2);
    }
    segment_area(r, (d * d + r * r - s * s) / (2.0 * d))
        + segment_area(s, (d * d + s * s - r * r) / (2.0 * d))
}

/// Area of the part of a disc of radius `r` beyond a chord at signed distance `h` from its middle.
fn segment_area(r: f64, h: f64) -> f64 {
    let half = ((r - h) * (r + h)).max(0.0).sqrt();
    (r * r * libm::atan2(half, h) - h * half).max(0.0)
}

/// The disc cut by the polygon: the sum over its edges of the signed area common to the disc and the triangle that the
/// edge makes with the disc's middle. Holes count negative by their direction.
fn circle_polygon(circle: &Circle, polygon: &Polygon) -> f64 {
    let area: f64 =
        polygon.edges().map(|e| fan(e.from - circle.centre(), e.to - circle.centre(), circle.radius())).sum();
    area.clamp(0.0, circle.area().min(polygon.area()))
}

/// Signed area common to the disc of radius `r` about the origin and the triangle origin, `a`, `b`.
fn fan(a: DVec2, b: DVec2, r: f64) -> f64 {
    let along = b - a;
    let length = along.length();
    if length == 0.0 {
        return 0.0;
    }
    let middle = -a.dot(along) / (length * length);
    let off = a.perp_dot(b) / length;
    let half = ((r - off) * (r + off)).max(0.0).sqrt() / length;
    let (enter, leave) = ((middle - half).clamp(0.0, 1.0), (middle + half).clamp(0.0, 1.0));
    if half == 0.0 || enter >= leave {
        return sector(a, b, r);
    }
    let (p, q) = (a + along * enter, a + along * leave);
    sector(a, p, r) + 0.5 * p.perp_dot(q) + sector(q, b, r)
}

fn sector(a: DVec2, b: DVec2, r: f64) -> f64 {
    if a == b { 0.0 } else { 0.5 * r * r * libm::atan2(a.perp_dot(b), a.dot(b)) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::f64::consts::PI;

    fn disc(x: f64, y: f64, r: f64) -> Outline {
        Circle::new(DVec2::new(x, y), r).unwrap().into()
    }

    fn rectangle(low: (f64, f64), high: (f64, f64)) -> Outline {
        Polygon::rectangle(low.into(), high.into()).unwrap().into()
    }

    fn check(a: &Outline, b: &Outline, area: f64) {
        for (a, b) in [(a, b), (b, a)] {
            let got = overlap_area(a, b);
            assert!((got - area).abs() <= 1e-12 * area.max(1.0), "{got} {area}");
            assert_eq!(overlaps(a, b), area > 0.0);
        }
    }

    /// Closed forms: the lens of two unit discs one radius apart is 2π/3 - √3/2; a half disc; a quarter disc; a disc
    /// cut at half its radius, r²(π/3 - √3/4).
    #[test]
    fn discs() {
        let unit = disc(0., 0., 1.);
        check(&unit, &disc(1., 0., 1.), 2. * PI / 3. - 3.0_f64.sqrt() / 2.);
        check(&unit, &disc(0.1, 0., 0.5), PI / 4.);
        check(&unit, &disc(2., 0., 1.), 0.);
        check(&unit, &unit, PI);
        check(&unit, &rectangle((0., -2.), (2., 2.)), PI / 2.);
        check(&unit, &rectangle((0., 0.), (2., 2.)), PI / 4.);
        check(&unit, &rectangle((0.5, -2.), (2., 2.)), PI / 3. - 3.0_f64.sqrt() / 4.);
        check(&unit, &rectangle((-2., -2.), (2., 2.)), PI);
        check(&unit, &rectangle((-0.1, -0.1), (0.1, 0.1)), 0.04);
        check(&unit, &rectangle((1., -1.), (2., 2.)), 0.);
        let corners =
            |(a, b): (f64, f64)| vec![(-b, -b).into(), (a, -b).into(), (a, a).into(), (-b, a).into()];
        let frame = Polygon::new(corners((2., 2.)), vec![corners((0.5, 0.5))]).unwrap();
        check(&unit, &frame.into(), PI - 1.);
    }

    #[test]
    fn regions_are_drawn() {
        let square = rectangle((0., 0.), (2., 2.));
        let region = overlap_region(&square, &rectangle((1., 1.), (3., 3.)));
        assert_eq!(region.len(), 1);
        assert_eq!(region[0].area(), 1.0);
        assert!(overlap_region(&square, &rectangle((2., 0.), (3., 3.))).is_empty());
    }

    /// Overlaps of a thousandth of a square millimetre in a hall 100 m long, which a grid of 32 bits would lose.
    #[test]
    fn slivers_in_a_large_hall() {
        let hall = rectangle((0., 0.), (1e5, 1e5));
        for share in [1e-3, 1e-4, 1e-6] {
            let beside = rectangle((1e5 - share, 1e5 - 1.), (1e5 + 50., 1e5 + 50.));
            let (area, drawn) = (overlap_area(&hall, &beside), overlap_region(&hall, &beside));
            assert!((area - share).abs() < 1e-10, "{area}");
            assert!((drawn[0].area() - share).abs() < 1e-9, "{}", drawn[0].area());
        }
    }
}
