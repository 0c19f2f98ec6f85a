//! What a painter needs that knows only lines and dots: hatches and dashes worked out, on the paper.
//!
//! Everything here is px, y down. SVG has patterns and dashes of its own; a screen has not.

use baywright_planner::geometry::{Bounds, DVec2, angle};

use crate::clip::segment_in_box;
use crate::theme::Hatch;

/// The lines and dots of a hatch within an area, px.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Hatching {
    /// Straight pieces, from and to.
    pub lines: Vec<[DVec2; 2]>,
    /// Dots: middle and radius.
    pub dots: Vec<(DVec2, f64)>,
}

/// A hatch is not worked out over more tiles than this: paper the size of a hall stays cheap.
const MOST_TILES: f64 = 40_000.0;

/// The hatch inside an area (rings; what an odd number of them surround is inside), as far as it lies within a box.
/// The pattern is fixed to the paper, as SVG fixes it.
pub fn hatching(hatch: &Hatch, rings: &[Vec<DVec2>], within: &Bounds) -> Hatching {
    let mut out = Hatching::default();
    let Some(area) = Bounds::around(rings.iter().flatten().copied()) else { return out };
    let area = Bounds { low: area.low.max(within.low), high: area.high.min(within.high) };
    if !area.low.cmplt(area.high).all() {
        return out;
    }
    // The tiles' own frame: turned clockwise as seen, which is positive where y runs down.
    let (sin, cos) = angle::sin_cos(angle::radians(hatch.turned));
    let paper = |p: DVec2| DVec2::new(p.x * cos - p.y * sin, p.x * sin + p.y * cos);
    let tiles = |p: DVec2| DVec2::new(p.x * cos + p.y * sin, p.y * cos - p.x * sin);
    let corners =
        [area.low, DVec2::new(area.high.x, area.low.y), area.high, DVec2::new(area.low.x, area.high.y)];
    let Some(covered) = Bounds::around(corners.map(tiles)) else { return out };
    let [w, h] = hatch.tile;
    let (from, to) = (covered.low / DVec2::new(w, h), covered.high / DVec2::new(w, h));
    let (from, to) = (from.floor() - 1.0, to.ceil() + 1.0);
    let count = to - from;
    let tiles_all = count.x * count.y;
    if tiles_all.is_nan() || tiles_all > MOST_TILES {
        return out;
    }
    let own: Vec<Vec<DVec2>> = rings.iter().map(|ring| ring.iter().map(|&p| tiles(p)).collect()).collect();
    let mut piece = |a: DVec2, b: DVec2| {
        for (a, b) in inside(a, b, &own) {
            if let Some((a, b)) = segment_in_box(paper(a), paper(b), within) {
                out.lines.push([a, b]);
            }
        }
    };
    let columns = from.x as i64..to.x as i64;
    let rows = from.y as i64..to.y as i64;
    for &[x1, y1, x2, y2] in hatch.lines {
        // A line from edge to edge of its tile goes on in the next one: one line over the whole area.
        if x1 == x2 && (y2 - y1).abs() >= h {
            for column in columns.clone() {
                let x = x1 + column as f64 * w;
                piece(DVec2::new(x, covered.low.y - 1.0), DVec2::new(x, covered.high.y + 1.0));
            }
        } else if y1 == y2 && (x2 - x1).abs() >= w {
            for row in rows.clone() {
                let y = y1 + row as f64 * h;
                piece(DVec2::new(covered.low.x - 1.0, y), DVec2::new(covered.high.x + 1.0, y));
            }
        } else {
            for row in rows.clone() {
                for column in columns.clone() {
                    let shift = DVec2::new(column as f64 * w, row as f64 * h);
                    piece(DVec2::new(x1, y1) + shift, DVec2::new(x2, y2) + shift);
                }
            }
        }
    }
    for &[x, y, r] in hatch.dots {
        for row in rows.clone() {
            for column in columns.clone() {
                let at = DVec2::new(x + column as f64 * w, y + row as f64 * h);
                if odd(at, &own) {
                    let on_paper = paper(at);
                    if within.holds(on_paper) {
                        out.dots.push((on_paper, r));
                    }
                }
            }
        }
    }
    out
}

/// The parts of a straight line inside rings.
fn inside(a: DVec2, b: DVec2, rings: &[Vec<DVec2>]) -> Vec<(DVec2, DVec2)> {
    let along = b - a;
    let mut cuts: Vec<f64> = Vec::new();
    for ring in rings {
        let next = ring.iter().cycle().skip(1);
        for (&p, &q) in ring.iter().zip(next) {
            let (dp, dq) = (along.perp_dot(p - a), along.perp_dot(q - a));
            if (dp < 0.0) != (dq < 0.0) {
                let on = p + (q - p) * (dp / (dp - dq));
                cuts.push((on - a).dot(along) / along.length_squared());
            }
        }
    }
    cuts.sort_by(f64::total_cmp);
    cuts.chunks_exact(2)
        .filter_map(|pair| {
            let (from, to) = (pair.first()?.max(0.0), pair.get(1)?.min(1.0));
            (from < to).then(|| (a + along * from, a + along * to))
        })
        .collect()
}

/// Whether a point is surrounded by an odd number of rings.
pub(crate) fn odd(p: DVec2, rings: &[Vec<DVec2>]) -> bool {
    rings.iter().filter(|ring| surrounds(ring, p)).count() % 2 == 1
}

/// Whether a ring goes round a point, by counting crossings; the edge may go either way.
pub(crate) fn surrounds(ring: &[DVec2], p: DVec2) -> bool {
    let next = ring.iter().cycle().skip(1);
    ring.iter().zip(next).fold(false, |inside, (a, b)| {
        let crosses = (a.y > p.y) != (b.y > p.y) && p.x < a.x + (b.x - a.x) * ((p.y - a.y) / (b.y - a.y));
        inside != crosses
    })
}

/// The dashes of a line through points, as far as they lie within a box; the pattern is lengths of dash and gap in turn.
/// A line without a pattern comes back in its pieces.
pub fn dashes(points: &[DVec2], pattern: &[f64], within: &Bounds) -> Vec<[DVec2; 2]> {
    let mut out = Vec::new();
    let whole: f64 = pattern.iter().sum();
    let mut gone = 0.0;
    for pair in points.windows(2) {
        let &[from, to] = pair else { continue };
        let length = from.distance(to);
        if let Some((a, b)) = segment_in_box(from, to, within) {
            if whole > 0.0 {
                let way = (to - from) / length.max(f64::MIN_POSITIVE);
                let (start, end) = (from.distance(a), from.distance(b));
                dash(from, way, (start, end), gone, (pattern, whole), &mut out);
            } else {
                out.push([a, b]);
            }
        }
        gone += length;
    }
    out
}

/// The dashes of one straight piece between two distances from its beginning, `gone` into the pattern.
fn dash(
    from: DVec2,
    way: DVec2,
    (start, end): (f64, f64),
    gone: f64,
    (pattern, whole): (&[f64], f64),
    out: &mut Vec<[DVec2; 2]>,
) {
    // Where the pattern that covers the beginning starts, as a distance from the piece's beginning.
    let mut at = start - (gone + start).rem_euclid(whole);
    while at < end {
        for (i, &part) in pattern.iter().enumerate() {
            let (low, high) = (at.max(start), (at + part).min(end));
            if i % 2 == 0 && low < high {
                out.push([from + way * low, from + way * high]);
            }
            at += part;
        }
    }
}

/// Whether a ring turns one way only, so that it can be filled without being cut up.
pub fn is_convex(ring: &[DVec2]) -> bool {
    let after = |n: usize| ring.iter().cycle().skip(n);
    let (mut left, mut right) = (false, false);
    for ((&a, &b), &c) in ring.iter().zip(after(1)).zip(after(2)) {
        let turn = (b - a).perp_dot(c - b);
        left |= turn > 0.0;
        right |= turn < 0.0;
    }
    !(left && right)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Role;
    use crate::theme::{Fill, Theme};
    use baywright_planner::model::Material;
    use proptest::prelude::*;

    fn window() -> Bounds {
        Bounds { low: DVec2::ZERO, high: DVec2::new(400.0, 300.0) }
    }

    fn hatches() -> Vec<Hatch> {
        let roles = Material::ALL
            .iter()
            .flat_map(|&m| [Role::Thing(m), Role::QuietThing(m), Role::Wall(m)])
            .chain([Role::ZoneFill, Role::OtherZoneFill]);
        roles
            .filter_map(|role| match Theme::Light.paint(role).fill {
                Fill::Hatch(hatch) => Some(hatch),
                _ => None,
            })
            .collect()
    }

    /// Summed length of steel lines in a square: lines 7 px apart cover area / 7 of length.
    #[test]
    fn lines_are_as_dense_as_the_pattern_says() {
        let Some(steel) = hatches().into_iter().find(|h| h.name == "steel") else { panic!() };
        let ring =
            [(20.0, 30.0), (220.0, 30.0), (220.0, 230.0), (20.0, 230.0)].map(|(x, y)| DVec2::new(x, y));
        let drawn = hatching(&steel, &[ring.to_vec()], &window());
        let length: f64 = drawn.lines.iter().map(|[a, b]| a.distance(*b)).sum();
        assert!((length / (200.0 * 200.0 / 7.0) - 1.0).abs() < 0.02, "{length}");
        // Slanted down to the left: turned by 45° clockwise from upright.
        assert!(drawn.lines.iter().all(|[a, b]| ((b.x - a.x) + (b.y - a.y)).abs() < 1e-9));
    }

    #[test]
    fn dashes_keep_their_pattern_round_corners_and_off_the_window() {
        let line = [DVec2::new(-1000.0, 10.0), DVec2::new(100.0, 10.0), DVec2::new(100.0, 60.0)];
        let drawn = dashes(&line, &[6.0, 4.0], &window());
        let length: f64 = drawn.iter().map(|[a, b]| a.distance(*b)).sum();
        assert!((length - 150.0 * 0.6).abs() < 6.0, "{length}");
        assert!(drawn.iter().all(|[a, b]| a.distance(*b) <= 6.0 + 1e-9));
        assert_eq!(dashes(&line, &[], &window()).len(), 2);
        assert!(dashes(&[DVec2::ZERO, DVec2::ZERO], &[3.0, 3.0], &window()).len() <= 1);
    }

    #[test]
    fn convex_or_not() {
        let ring = |points: &[(f64, f64)]| points.iter().map(|&(x, y)| DVec2::new(x, y)).collect::<Vec<_>>();
        assert!(is_convex(&ring(&[(0.0, 0.0), (2.0, 0.0), (2.0, 2.0), (1.0, 2.0), (0.0, 2.0)])));
        assert!(!is_convex(&ring(&[(0.0, 0.0), (2.0, 0.0), (1.0, 1.0), (2.0, 2.0), (0.0, 2.0)])));
    }

    proptest! {
        /// Every piece and every dot lies inside the area and the window.
        #[test]
        fn a_hatch_stays_inside(
            points in prop::collection::vec((-100.0_f64..500.0, -100.0_f64..400.0), 3..9),
        ) {
            let ring: Vec<DVec2> = points.into_iter().map(|(x, y)| DVec2::new(x, y)).collect();
            for hatch in hatches() {
                let drawn = hatching(&hatch, std::slice::from_ref(&ring), &window());
                let grown = window().grown(1e-6);
                for [a, b] in &drawn.lines {
                    prop_assert!(grown.holds(*a) && grown.holds(*b));
                    // The middle of a piece that is not a hair lies inside.
                    if a.distance(*b) > 1e-6 {
                        prop_assert!(odd((*a + *b) * 0.5, std::slice::from_ref(&ring)), "{} {a} {b}", hatch.name);
                    }
                }
                for (at, _) in &drawn.dots {
                    let near = [DVec2::ZERO, DVec2::X, DVec2::Y, -DVec2::X, -DVec2::Y];
                    prop_assert!(near.iter().any(|&by| odd(*at + by * 1e-6, std::slice::from_ref(&ring))));
                }
            }
        }
    }
}
