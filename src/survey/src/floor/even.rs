//! How even a floor is: its largest difference, its fall, the gap under a straightedge, what DIN 18202 allows, and its dips.
//!
//! The limits of DIN 18202:2019-07, table 3, rows 2 to 4, are read in a public handbook of the screed trade, not in the standard
//! itself; between its distances they are interpolated.

use baywright_geometry::{DVec2, angle};

use crate::input::Figure;
use crate::surface::SurveyedPoint;

/// So many points of a profile are looked at in all their pairs.
pub const MOST_OF_PROFILE: usize = 200;
/// A dip is asked about against so many of its nearest neighbours.
const NEIGHBOURS: usize = 8;

/// What lies between two points of a list.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Between {
    /// The lower or the first one, by its position.
    pub from: usize,
    /// The higher or the last one.
    pub to: usize,
    /// How much, mm.
    pub mm: Figure,
}

/// How a floor falls as a whole.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fall {
    /// How much over a run, as a share: 0.01 is 10 mm a metre.
    pub share: Figure,
    /// Where to, radians anticlockwise from x.
    pub towards_rad: f64,
}

/// The largest difference of two levels that are each known to `u_mm`; `None` of less than two points or of no numbers.
pub fn largest_difference(points: &[SurveyedPoint], u_mm: f64) -> Option<Between> {
    let level = |at: &usize| points.get(*at).map_or(f64::NAN, |point| point.level_mm);
    let sound: Vec<usize> = (0..points.len()).filter(|at| level(at).is_finite()).collect();
    let by_level = |a: &&usize, b: &&usize| level(a).total_cmp(&level(b)).then(a.cmp(b));
    let (from, to) = (**sound.iter().min_by(by_level).as_ref()?, **sound.iter().max_by(by_level).as_ref()?);
    let mm = Figure { value: level(&to) - level(&from), u: std::f64::consts::SQRT_2 * u_mm };
    (from != to && mm.is_sound()).then_some(Between { from, to, mm })
}

/// How a floor falls as a whole, by the plane through its points (least squares); `None` if they make none. Fall to a drain is
/// wanted in many workshops: it is told, not judged.
///
/// ```
/// use baywright_survey::{SurveyedPoint, floor::even::fall};
/// let point = |x: f64, y: f64| SurveyedPoint { at: (x, y).into(), level_mm: -0.01 * y };
/// let found = fall(&[point(0., 0.), point(4000., 0.), point(0., 3000.), point(4000., 3000.)], 1.0).unwrap();
/// assert!((found.share.value - 0.01).abs() < 1e-12 && (found.towards_rad.to_degrees() - 90.0).abs() < 1e-9);
/// // Two rows 3 m apart, each the mean of two levels.
/// assert!((found.share.u - 1.0 / 3000.0).abs() < 1e-9);
/// ```
pub fn fall(points: &[SurveyedPoint], u_mm: f64) -> Option<Fall> {
    let placed: Vec<_> = points.iter().map(|point| point.at.extend(point.level_mm)).collect();
    let plane = crate::Plane::through(&placed)?;
    let down = -plane.slope;
    // Along x where it does not fall at all.
    let way = down.try_normalize().unwrap_or(DVec2::X);
    let [mut xx, mut xy, mut yy] = [0.0; 3];
    for point in points {
        let off = point.at - plane.middle;
        let (along, aside) = (off.dot(way), off.perp_dot(way));
        (xx, xy, yy) = (xx + along * along, xy + along * aside, yy + aside * aside);
    }
    let share = Figure { value: down.length(), u: u_mm * (yy / (xx * yy - xy * xy)).sqrt() };
    share.is_sound().then_some(Fall { share, towards_rad: angle::heading(way) })
}

/// The largest gap under a straightedge.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gap {
    /// Where it rests, by the position in the profile.
    pub from: usize,
    /// Where else.
    pub to: usize,
    /// Where the gap is.
    pub at: usize,
    /// How wide it is, mm.
    pub mm: Figure,
}

/// The largest gap under a straightedge of a length, mm (infinite for one as long as the profile), that is laid anywhere on a
/// profile: how far along, rising, and how high, mm, each level known to `u_mm`. It rests on the highest points, never on the
/// lowest. The first [`MOST_OF_PROFILE`] points count. `None` of less than three points, or of none between two.
///
/// ```
/// use baywright_survey::floor::even::straightedge_gap;
/// let profile = [0., -1.5, -2., -0.5, 1., 0., -2.5, -1., 0.5].iter().enumerate();
/// let profile: Vec<(f64, f64)> = profile.map(|(nth, level)| (nth as f64 * 250.0, *level)).collect();
/// let found = straightedge_gap(&profile, f64::INFINITY, 0.2).unwrap();
/// assert_eq!((found.from, found.to, found.at, found.mm.value), (4, 8, 6, 3.25));
/// ```
pub fn straightedge_gap(profile: &[(f64, f64)], length_mm: f64, u_mm: f64) -> Option<Gap> {
    let profile = sound_profile(profile)?;
    let mut worst: Option<Gap> = None;
    for first in 0..profile.len() {
        let reach =
            |(along, _): &(f64, f64)| profile.get(first).is_some_and(|(from, _)| along - from <= length_mm);
        let under = profile.get(first..).unwrap_or_default();
        let under = under.get(..under.iter().take_while(|point| reach(point)).count()).unwrap_or_default();
        let rests = upper_hull(under);
        for (from, to) in rests.iter().zip(rests.iter().skip(1)) {
            for at in from + 1..*to {
                let Some(mm) = below(under, (*from, *to), at, u_mm) else { continue };
                if worst.is_none_or(|worst| mm.value > worst.mm.value) {
                    worst = Some(Gap { from: first + from, to: first + to, at: first + at, mm });
                }
            }
        }
    }
    worst.filter(|gap| gap.mm.is_sound())
}

fn sound_profile(profile: &[(f64, f64)]) -> Option<&[(f64, f64)]> {
    let profile = profile.get(..profile.len().min(MOST_OF_PROFILE))?;
    let rising = profile.iter().zip(profile.iter().skip(1)).all(|(a, b)| a.0 < b.0);
    (rising && profile.iter().all(|(along, level)| along.is_finite() && level.is_finite())).then_some(profile)
}

/// How far a point of a profile lies below the line between two others.
fn below(profile: &[(f64, f64)], (from, to): (usize, usize), at: usize, u_mm: f64) -> Option<Figure> {
    let ((a, low), (b, high), (p, own)) = (*profile.get(from)?, *profile.get(to)?, *profile.get(at)?);
    let share = (p - a) / (b - a);
    let u = u_mm * (1.0 + (1.0 - share).powi(2) + share * share).sqrt();
    Some(Figure { value: low + (high - low) * share - own, u })
}

/// Where a straightedge over a profile rests.
fn upper_hull(profile: &[(f64, f64)]) -> Vec<usize> {
    let place = |at: usize| profile.get(at).copied().map_or(DVec2::NAN, DVec2::from);
    let mut hull: Vec<usize> = Vec::new();
    for at in 0..profile.len() {
        while let [.., a, b] = *hull.as_slice() {
            if (place(b) - place(a)).perp_dot(place(at) - place(a)) < 0.0 {
                break;
            }
            hull.pop();
        }
        hull.push(at);
    }
    hull
}

/// What evenness is asked for: rows of table 3 of DIN 18202.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Evenness {
    /// Row 2: unfinished floors with raised requirements, simple finished ones.
    Row2,
    /// Row 3: finished floors, screeds.
    Row3,
    /// Row 4: the same with raised requirements.
    Row4,
}

impl Evenness {
    /// What may be under a line between two points so far apart, mm: of the table, between its distances in line, below its first
    /// and beyond its last as there.
    ///
    /// ```
    /// use baywright_survey::floor::even::Evenness::Row3;
    /// assert_eq!((Row3.limit_mm(4000.0), Row3.limit_mm(2500.0), Row3.limit_mm(9e9)), (10.0, 7.0, 15.0));
    /// ```
    pub fn limit_mm(self, apart_mm: f64) -> f64 {
        const APART_MM: [f64; 5] = [100.0, 1_000.0, 4_000.0, 10_000.0, 15_000.0];
        let limits = match self {
            Self::Row2 => [5.0, 8.0, 12.0, 15.0, 20.0],
            Self::Row3 => [2.0, 4.0, 10.0, 12.0, 15.0],
            Self::Row4 => [1.0, 3.0, 9.0, 12.0, 15.0],
        };
        let known = || APART_MM.into_iter().zip(limits);
        let [first, ..] = limits;
        let mut before = (0.0, first);
        for (apart, limit) in known() {
            if apart_mm <= apart {
                let share = ((apart_mm - before.0) / (apart - before.0)).clamp(0.0, 1.0);
                return before.1 + (limit - before.1) * share;
            }
            before = (apart, limit);
        }
        before.1
    }

    /// The same in whole millimetres, a half up, as the handbook has it.
    pub fn whole_limit_mm(self, apart_mm: f64) -> f64 {
        libm::floor(self.limit_mm(apart_mm) + 0.5)
    }
}

/// Where a profile is nearest to, or furthest beyond, what is allowed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Uneven {
    /// Between which two points, and how far the point lies off their line, mm, either way.
    pub gap: Gap,
    /// What may be there, mm.
    pub limit_mm: f64,
}

/// The worst of a profile against what is allowed between any two of its points; `None` of less than three points. The first
/// [`MOST_OF_PROFILE`] count.
pub fn worst_of(profile: &[(f64, f64)], asked: Evenness, u_mm: f64) -> Option<Uneven> {
    let profile = sound_profile(profile)?;
    let mut worst: Option<(f64, Uneven)> = None;
    for from in 0..profile.len() {
        for to in from + 2..profile.len() {
            let apart = profile.get(to)?.0 - profile.get(from)?.0;
            let limit_mm = asked.limit_mm(apart);
            for at in from + 1..to {
                let Figure { value, u } = below(profile, (from, to), at, u_mm)?;
                let mm = Figure { value: value.abs(), u };
                if worst.is_none_or(|(share, _)| mm.value / limit_mm > share) {
                    worst = Some((mm.value / limit_mm, Uneven { gap: Gap { from, to, at, mm }, limit_mm }));
                }
            }
        }
    }
    worst.map(|(_, uneven)| uneven).filter(|uneven| uneven.gap.mm.is_sound())
}

/// How far each point lies below the plane of its nearest neighbours, mm, negative above: where it is more than its uncertainty
/// lets it, the floor has a dip there or a bump. `None` where the neighbours make no plane.
pub fn dips(points: &[SurveyedPoint], u_mm: f64) -> Vec<Option<Figure>> {
    let each = points.iter().enumerate();
    each.map(|(nth, point)| {
        let mut others: Vec<&SurveyedPoint> =
            points.iter().enumerate().filter(|(other, _)| *other != nth).map(|(_, other)| other).collect();
        let far = |other: &&SurveyedPoint| other.at.distance_squared(point.at);
        others.sort_by(|a, b| far(a).total_cmp(&far(b)).then(a.level_mm.total_cmp(&b.level_mm)));
        others.truncate(NEIGHBOURS);
        let placed: Vec<_> = others.iter().map(|other| other.at.extend(other.level_mm)).collect();
        let plane = crate::Plane::through(&placed)?;
        let [mut xx, mut xy, mut yy] = [0.0; 3];
        for other in &others {
            let off = other.at - plane.middle;
            (xx, xy, yy) = (xx + off.x * off.x, xy + off.x * off.y, yy + off.y * off.y);
        }
        let off = point.at - plane.middle;
        let turned =
            (off.x * off.x * yy - 2.0 * off.x * off.y * xy + off.y * off.y * xx) / (xx * yy - xy * xy);
        let figure = Figure {
            value: plane.at(point.at) - point.level_mm,
            u: u_mm * (1.0 + 1.0 / placed.len() as f64 + turned).sqrt(),
        };
        figure.is_sound().then_some(figure)
    })
    .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The handbook's own whole figures of rows 3 and 4, and the standard's distances of row 2.
    #[test]
    fn limits_as_the_handbook_has_them() {
        for (metres, row3, row4) in [
            (0.1, 2.0, 1.0),
            (0.5, 3.0, 2.0),
            (0.6, 3.0, 2.0),
            (1.0, 4.0, 3.0),
            (1.5, 5.0, 4.0),
            (2.0, 6.0, 5.0),
            (2.5, 7.0, 6.0),
            (3.0, 8.0, 7.0),
            (3.5, 9.0, 8.0),
            (4.0, 10.0, 9.0),
            (5.0, 10.0, 10.0),
            (6.0, 11.0, 10.0),
            (8.0, 11.0, 11.0),
            (10.0, 12.0, 12.0),
            (12.0, 13.0, 13.0),
            (15.0, 15.0, 15.0),
        ] {
            let mm = metres * 1000.0;
            assert_eq!(Evenness::Row3.whole_limit_mm(mm), row3, "{metres}");
            assert_eq!(Evenness::Row4.whole_limit_mm(mm), row4, "{metres}");
        }
        assert!((Evenness::Row3.limit_mm(500.0) - 2.8889).abs() < 5e-5);
        assert_eq!(Evenness::Row2.limit_mm(10_000.0), 15.0);
        assert_eq!(Evenness::Row4.limit_mm(0.0), 1.0);
    }

    /// Exact fractions (sympy): slopes of 7/6 and -13/18 mm a metre, 0.1372121 % at -31.75948° up.
    #[test]
    fn a_floor_that_falls() {
        let levels = [0., 3., 4., -2., 1., 3., -5., -1., 0.];
        let points: Vec<SurveyedPoint> = (0..9)
            .map(|i| SurveyedPoint {
                at: DVec2::new(f64::from(i % 3) * 2000.0, f64::from(i / 3) * 3000.0),
                level_mm: levels[i as usize],
            })
            .collect();
        let found = fall(&points, 1.0).unwrap();
        assert!((found.share.value - 0.001372121).abs() < 1e-9);
        assert!((found.towards_rad.to_degrees() - (180.0 - 31.75948)).abs() < 1e-5);
        let difference = largest_difference(&points, 1.0).unwrap();
        assert_eq!((difference.from, difference.to, difference.mm.value), (6, 2, 9.0));
        assert!((difference.mm.u - 2.0_f64.sqrt()).abs() < 1e-12);
    }

    /// A hollow of 4 mm in the middle of a 2 m line: half way its line is the mean of both ends.
    #[test]
    fn a_hollow_against_what_is_allowed() {
        let profile = [(0.0, 0.0), (1000.0, -7.0), (2000.0, 0.0), (3000.0, 0.0)];
        let worst = worst_of(&profile, Evenness::Row3, 0.5).unwrap();
        assert_eq!((worst.gap.from, worst.gap.to, worst.gap.at), (0, 2, 1));
        assert_eq!((worst.gap.mm.value, worst.limit_mm), (7.0, 6.0));
        assert!((worst.gap.mm.u - 0.5 * 1.5_f64.sqrt()).abs() < 1e-12);
        // A short straightedge finds no more than what is under it.
        let short = straightedge_gap(&profile, 1500.0, 0.5);
        assert_eq!(short, None);
        assert_eq!(straightedge_gap(&profile, 2000.0, 0.5).unwrap().mm.value, 7.0);
    }

    /// A grid with one point 5 mm low: that one is the dip, by 5 mm with √(1 + 1/8) of a level's uncertainty.
    #[test]
    fn a_dip_is_where_it_is() {
        let place = |i: u32| DVec2::new(f64::from(i % 5), f64::from(i / 5)) * 1000.0;
        let points: Vec<SurveyedPoint> = (0..25)
            .map(|i| SurveyedPoint {
                at: place(i),
                level_mm: place(i).x * 0.01 - if i == 12 { 5.0 } else { 0.0 },
            })
            .collect();
        let found = dips(&points, 1.0);
        let deep = found[12].unwrap();
        assert!((deep.value - 5.0).abs() < 1e-9 && (deep.u - 1.125_f64.sqrt()).abs() < 1e-9);
        // Its neighbours look a little high, and those at the edge, which lie beyond theirs, are less sure.
        let stands_out = |dip: &Option<Figure>| dip.unwrap().value.abs() / dip.unwrap().u;
        let most = found.iter().enumerate().filter(|(nth, _)| *nth != 12).map(|(_, dip)| stands_out(dip));
        assert!(most.fold(0.0, f64::max) < 0.5 * stands_out(&found[12]));
        assert_eq!(dips(&points[..3], 1.0), [None; 3]);
    }

    #[test]
    fn what_makes_no_sense_has_no_answer() {
        let point = |x: f64, level_mm| SurveyedPoint { at: DVec2::new(x, 0.0), level_mm };
        assert_eq!(largest_difference(&[point(0.0, 1.0)], 1.0), None);
        assert_eq!(largest_difference(&[point(0.0, 1.0), point(1.0, 2.0)], f64::NAN), None);
        assert_eq!(fall(&[point(0.0, 1.0), point(1.0, 2.0), point(2.0, 2.0)], 1.0), None);
        for bad in [vec![], vec![(0.0, 0.0), (1.0, 0.0)], vec![(0.0, 0.0), (0.0, 1.0), (1.0, 0.0)]] {
            assert_eq!(straightedge_gap(&bad, 2000.0, 1.0), None);
            assert_eq!(worst_of(&bad, Evenness::Row2, 1.0), None);
        }
        assert_eq!(straightedge_gap(&[(0.0, 0.0), (1.0, f64::NAN), (2.0, 0.0)], 2000.0, 1.0), None);
    }
}
