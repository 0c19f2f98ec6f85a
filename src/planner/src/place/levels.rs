//! Where the floor's levels stop the aiming: no polygons, but a floor rises no faster than it is steep, so that a square is decided
//! by its middle if its limits are further off than that; else it is cut in four, down to [`LEAST_MM`].

use baywright_geometry::{Bounds, DVec2, PlanPose, Region};

use super::stood::{carry, stood};
use super::sweep::Sweep;
use crate::check::{Levelled, Surveyed, levelled_within};
use crate::model::{Arrangement, FloorSurvey};
use crate::scene::Scene;

/// A square of half this side that is not decided is left so, mm: a whole number.
const LEAST_MM: f64 = 24.0;
/// So many squares are asked about for one heading; what is left then is undecided.
const MOST_ASKED: usize = 3_000;

/// What of an arrangement its levels depend on.
#[derive(Clone, Debug)]
pub(super) struct Levels {
    /// Without things, openings, what is in the floor, and what of the set-up stands on no level.
    bare: Arrangement,
    surveyed: Surveyed,
}

/// Squares, as rings.
#[derive(Default)]
struct Squares {
    stop: Vec<Vec<DVec2>>,
    undecided: Vec<Vec<DVec2>>,
}

impl Levels {
    /// `None` where no level is known that anything could stop for.
    pub(super) fn of(arrangement: &Arrangement) -> Option<Self> {
        let carries = arrangement.bay.runways.iter().filter(|own| arrangement.on_runways.contains(&own.id));
        let surveys: Vec<&FloorSurvey> =
            arrangement.bay.survey.iter().chain(carries.filter_map(|own| own.survey.as_ref())).collect();
        let levels = || surveys.iter().flat_map(|own| &own.points).map(|point| point.level_mm);
        let range = levels().fold(f64::NEG_INFINITY, f64::max) - levels().fold(f64::INFINITY, f64::min);
        let is_uneven = arrangement.on_runways.len() > 1 && !surveys.is_empty();
        if range.is_nan() || (range <= 0.0 && !is_uneven) || surveys.is_empty() {
            return None;
        }
        let mut bare = arrangement.clone();
        bare.bay.things.clear();
        bare.bay.openings.clear();
        bare.bay.floor_features.clear();
        bare.bay.keep_free.clear();
        bare.bay.dimensions.clear();
        bare.bay.bays.clear();
        bare.aiming.zones.clear();
        bare.aiming.mark_plan.clear();
        bare.vehicle.body = Vec::new().into();
        Some(Self { surveyed: Surveyed::of(&bare), bare })
    }

    /// What fits and what is undecided of it, with what the levels say.
    pub(super) fn refined(&self, sweep: &Sweep, fits: Region, undecided: Region) -> (Region, Region) {
        let Some(around) = fits.bounds().into_iter().chain(undecided.bounds()).reduce(Bounds::union) else {
            return (fits, undecided);
        };
        let squares = self.squares(sweep, &around, |middle, reach| {
            let is_in = |own: &Region| own.holds(middle) || own.to_edge(middle) < reach;
            is_in(&fits) || is_in(&undecided)
        });
        if squares.stop.is_empty() && squares.undecided.is_empty() {
            return (fits, undecided);
        }
        let rings = |own: &Region| own.rings().map(<[DVec2]>::to_vec).collect::<Vec<_>>();
        let still = Region::left(&rings(&undecided), &squares.stop);
        let new = Region::common(&rings(&fits), &squares.undecided);
        let taken: Vec<Vec<DVec2>> = squares.stop.into_iter().chain(squares.undecided).collect();
        (Region::left(&rings(&fits), &taken), still.beside(new))
    }

    fn squares(&self, sweep: &Sweep, around: &Bounds, is_asked: impl Fn(DVec2, f64) -> bool) -> Squares {
        let mut squares = Squares::default();
        let (turn_rad, by_mm) = sweep.reach();
        // Of one lattice, so that the same squares are asked about wherever it is looked; whole millimetres, halved to whole ones:
        // squares side by side leave nothing between them.
        let mut half = LEAST_MM;
        while half < around.size().max_element() * 0.5 {
            half *= 2.0;
        }
        let nth = |at: DVec2| (at / (2.0 * half)).floor();
        let (first, last) = (nth(around.low), nth(around.high));
        let mut open = Vec::new();
        for x in first.x as i64..=last.x as i64 {
            for y in first.y as i64..=last.y as i64 {
                open.push(((DVec2::new(x as f64, y as f64) * 2.0 + DVec2::ONE) * half, half));
            }
        }
        // Parked anew once, and carried from square to square.
        let mut here = stood(&self.bare, PlanPose::new(around.centre(), sweep.heading_rad()));
        let mut asked = 0;
        while let Some((middle, half)) = open.pop() {
            let corner = half * std::f64::consts::SQRT_2;
            if !is_asked(middle, corner) {
                continue;
            }
            asked += 1;
            let ring = || {
                let corners = [(-half, -half), (half, -half), (half, half), (-half, half)];
                corners.map(|off| middle + DVec2::from(off)).to_vec()
            };
            carry(&mut here, PlanPose::new(middle, sweep.heading_rad()));
            let reach = corner + by_mm * std::f64::consts::SQRT_2;
            match levelled_within(&here, &Scene::of(&here), &self.surveyed, reach, turn_rad) {
                Levelled::Stops => squares.stop.push(ring()),
                Levelled::Never => {}
                Levelled::Perhaps if half < 2.0 * LEAST_MM || asked >= MOST_ASKED => {
                    squares.undecided.push(ring());
                }
                Levelled::Perhaps => {
                    let half = half * 0.5;
                    let corners = [(-half, -half), (half, -half), (half, half), (-half, half)];
                    open.extend(corners.map(|off| (middle + DVec2::from(off), half)));
                }
            }
        }
        squares
    }
}
