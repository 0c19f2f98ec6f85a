//! How even the floor is by itself: what a contractor is told.
//!
//! A profile runs along the car's middle and along its left and its right wheels, from behind the rear ones to the furthest target,
//! a level each quarter of a metre and abreast of each surveyed point beside it, as far as levels are known. Between surveyed points it is what the surface makes of them: a dip
//! narrower than the points are apart shows in none of it.

use baywright_geometry::DVec2;
use baywright_survey::SurveyedPoint;
use baywright_survey::floor::even::{
    Evenness, MOST_OF_PROFILE, dips, fall, largest_difference, straightedge_gap, worst_of,
};
use baywright_survey::input::Figure;

use super::Judged;
use crate::model::FloorSurvey;
use crate::scene::Scene;

/// What evenness a floor is held against: finished floors and screeds.
pub const EVENNESS: Evenness = Evenness::Row3;
/// How long the straightedge is, mm: two metres, as floor layers carry it (common practice, no source).
pub const STRAIGHTEDGE_MM: f64 = 2_000.0;
/// Between two levels of a profile, mm: a staff's foot is set down so (common practice, no source).
const STEP_MM: f64 = 250.0;
/// Two levels nearer than this are one, mm.
const SAME_MM: f64 = 1.0;
/// So much behind the rear wheels a profile begins, mm.
const BEHIND_MM: f64 = 500.0;
/// A dip or a bump of less is not told, mm: what a tape reads.
const DIP_FROM_MM: f64 = 1.0;
/// No more of them are told.
const MOST_DIPS: usize = 3;

/// How a floor falls as a whole.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fall {
    /// As a share: 0.01 is 10 mm a metre.
    pub share: Judged,
    /// Where to, bay frame, of length 1.
    pub towards: DVec2,
}

/// What lies under or over the line between two points of a profile, against DIN 18202.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Din {
    /// How far, either way, and what is allowed between points so far apart.
    pub off: Judged,
    /// How far they are apart, mm.
    pub apart_mm: f64,
}

/// A dip, or a bump, at one surveyed point.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Dip {
    /// Where, bay frame.
    pub at: DVec2,
    /// Its number among the surveyed points, from 1.
    pub number: usize,
    /// How far below its neighbours; negative above.
    pub below: Judged,
}

/// How even a floor is.
#[derive(Clone, Debug, PartialEq)]
pub struct Even {
    /// Highest less lowest of all that was surveyed.
    pub largest: Judged,
    /// The numbers of the lowest and of the highest point, from 1.
    pub between: [usize; 2],
    /// How it falls as a whole, if its points make a plane.
    pub fall: Option<Fall>,
    /// The largest gap under a straightedge of [`STRAIGHTEDGE_MM`] along the car, mm.
    pub gap: Option<Judged>,
    /// What is nearest to, or furthest beyond, [`EVENNESS`].
    pub din: Option<Din>,
    /// Dips and bumps that are seen, the largest first.
    pub dips: Vec<Dip>,
}

impl Even {
    /// `within_mm` is how far each level may be off, either way.
    pub(super) fn of(survey: &FloorSurvey, scene: &Scene, within_mm: f64) -> Option<Self> {
        let u_mm = within_mm / 3.0_f64.sqrt();
        let points: Vec<SurveyedPoint> =
            survey.points.iter().map(|own| SurveyedPoint { at: own.at, level_mm: own.level_mm }).collect();
        let largest = largest_difference(&points, u_mm)?;
        let fall = fall(&points, u_mm).map(|own| Fall {
            share: Judged::of(own.share, None),
            towards: baywright_geometry::angle::direction(own.towards_rad),
        });
        let profiles = profiles(survey, scene, u_mm);
        let gaps = profiles.iter().filter_map(|(own, u)| straightedge_gap(own, STRAIGHTEDGE_MM, *u));
        let gap = gaps.max_by(|a, b| a.mm.value.total_cmp(&b.mm.value));
        let worst = profiles.iter().filter_map(|(own, u)| {
            let worst = worst_of(own, EVENNESS, *u)?;
            let along = |at: usize| own.get(at).map(|point| point.0);
            Some((worst, along(worst.gap.to)? - along(worst.gap.from)?))
        });
        let share = |of: &(baywright_survey::floor::even::Uneven, f64)| of.0.gap.mm.value / of.0.limit_mm;
        let din = worst.max_by(|a, b| share(a).total_cmp(&share(b)));
        Some(Self {
            largest: Judged::of(largest.mm, None),
            between: [largest.from + 1, largest.to + 1],
            fall,
            gap: gap.map(|own| Judged::of(own.mm, None)),
            din: din.map(|(own, apart_mm)| Din { off: Judged::of(own.gap.mm, Some(own.limit_mm)), apart_mm }),
            dips: seen_dips(&points, u_mm),
        })
    }
}

fn seen_dips(points: &[SurveyedPoint], u_mm: f64) -> Vec<Dip> {
    let all = points.iter().zip(dips(points, u_mm)).zip(1..);
    let all = all.filter_map(|((point, below), number)| {
        let below = Judged::of(below?, None);
        let is_told = below.is_seen() && below.value.abs() >= DIP_FROM_MM;
        is_told.then_some(Dip { at: point.at, number, below })
    });
    let mut all: Vec<Dip> = all.collect();
    all.sort_by(|a, b| b.below.value.abs().total_cmp(&a.below.value.abs()).then(a.number.cmp(&b.number)));
    all.truncate(MOST_DIPS);
    all
}

/// How far along, how high, of each level of a profile, and how surely the least sure of them is known.
type Profile = (Vec<(f64, f64)>, f64);

fn profiles(survey: &FloorSurvey, scene: &Scene, u_mm: f64) -> Vec<Profile> {
    let from_bay = scene.bay_from_vehicle.inverse();
    let [left, right] = [0, 1].map(|at| scene.wheels.get(at).map_or(0.0, |own| (from_bay * *own).y));
    let along = |of: DVec2| (from_bay * of).x;
    let begins = scene.wheels.iter().map(|own| along(*own)).fold(0.0, f64::min) - BEHIND_MM;
    let ends = scene.targets.iter().map(|own| along(own.set.place.origin())).fold(0.0, f64::max);
    // A target may stand anywhere; a profile has no more points than are looked at.
    let steps = (((ends - begins) / STEP_MM).ceil().max(0.0) as usize).min(MOST_OF_PROFILE - 1);
    let line = |aside: f64| {
        // Abreast of what was surveyed beside the line too: a dip there is not stepped over.
        let surveyed = survey.points.iter().map(|own| from_bay * own.at);
        let beside = surveyed.filter(|own| (own.y - aside).abs() <= 0.5 * STEP_MM).map(|own| own.x);
        let beside = beside.filter(|x| (begins..=ends).contains(x));
        let mut all: Vec<f64> = (0..=steps).map(|nth| begins + nth as f64 * STEP_MM).chain(beside).collect();
        all.sort_by(f64::total_cmp);
        all.dedup_by(|a, b| *a - *b < SAME_MM);
        all.truncate(MOST_OF_PROFILE);
        let known = all.into_iter().filter_map(|x| {
            let level = survey.points.at(scene.bay_from_vehicle * DVec2::new(x, aside))?;
            let u = libm::hypot(u_mm, level.within_mm / 3.0_f64.sqrt());
            Some((x, Figure { value: level.level_mm, u }))
        });
        let known: Vec<(f64, Figure)> = known.collect();
        let u = known.iter().map(|(_, own)| own.u).fold(0.0, f64::max);
        (known.into_iter().map(|(x, own)| (x, own.value)).collect(), u)
    };
    [0.0, left, right].map(line).into()
}
