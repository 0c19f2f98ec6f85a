//! Where the floor's levels stop the aiming: no polygons, but a floor rises no faster than it is steep, so that a square is decided
//! by its middle if its limits are further off than that; else it is cut in four, down to [`LEAST_MM`].

#[cfg(test)]
mod tests;

use std::rc::Rc;
use std::sync::Arc;

use baywright_geometry::{Bounds, DVec2, PlanPose, Region, Segment};

use super::stood::stood;
use super::sweep::Sweep;
use crate::check::{Levelled, Surveyed};
use crate::model::{Arrangement, FloorSurvey};

/// A square of half this side that is not decided is left so, mm: a whole number.
const LEAST_MM: f64 = 24.0;
/// So many squares are asked about for one heading; what is left then is undecided.
const MOST_ASKED: usize = 3_000;

/// What of an arrangement its levels depend on.
#[derive(Clone, Debug)]
pub(super) struct Levels {
    /// Without things, openings, what is in the floor, and what of the set-up stands on no level.
    surveyed: Arc<Surveyed>,
}

/// Squares, or such side by side, as rings.
#[derive(Default)]
struct Squares {
    stop: Vec<Vec<DVec2>>,
    undecided: Vec<Vec<DVec2>>,
}

impl Squares {
    /// What still fits and what is undecided of some places.
    fn take_from(self, fits: Region, undecided: Region) -> (Region, Region) {
        if self.stop.is_empty() && self.undecided.is_empty() {
            return (fits, undecided);
        }
        let rings = |own: &Region| own.rings().map(<[DVec2]>::to_vec).collect::<Vec<_>>();
        let still = Region::left(&rings(&undecided), &self.stop);
        let new = Region::common(&rings(&fits), &self.undecided);
        let taken: Vec<Vec<DVec2>> = self.stop.into_iter().chain(self.undecided).collect();
        (Region::left(&rings(&fits), &taken), still.beside(new))
    }
}

/// A square that is to be asked about.
struct Open {
    middle: DVec2,
    half: f64,
    /// The edges of the places in question that may come near it; none if it lies within them.
    edges: Rc<[Segment]>,
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
        let at_origin = stood(&bare, PlanPose::IDENTITY);
        Some(Self { surveyed: Arc::new(Surveyed::of(at_origin)) })
    }

    /// What fits and what is undecided of it, with what the levels say.
    pub(super) fn refined(&self, sweep: &Sweep, fits: Region, undecided: Region) -> (Region, Region) {
        self.squares(sweep, &[&fits, &undecided]).take_from(fits, undecided)
    }

    /// The squares about some places that share no area.
    fn squares(&self, sweep: &Sweep, places: &[&Region]) -> Squares {
        let Some(around) = places.iter().filter_map(|own| own.bounds()).reduce(Bounds::union) else {
            return Squares::default();
        };
        let (mut stop, mut undecided) = (Vec::new(), Vec::new());
        let (turn_rad, by_mm) = sweep.reach();
        let is_box = turn_rad > 0.0 || by_mm > 0.0;
        let asks = self.surveyed.asked();
        let mut open = first(&around, places);
        let mut asked = 0;
        while let Some(Open { middle, half, edges }) = open.pop() {
            let corner = half * std::f64::consts::SQRT_2;
            let near = |own: &&Segment| own.distance_to(middle) < corner;
            let is_within = edges.is_empty();
            let edges: Rc<[Segment]> = edges.iter().filter(near).copied().collect();
            if !is_within && edges.is_empty() && !places.iter().any(|own| own.holds(middle)) {
                continue;
            }
            asked += 1;
            let own = Bounds { low: middle - half, high: middle + half };
            let here = asks.at(PlanPose::new(middle, sweep.heading_rad()));
            let is_least = half < 2.0 * LEAST_MM || asked >= MOST_ASKED;
            // What stops at a place itself stops all of a box about it: of a square with such a middle no box tells more than its own
            // places do.
            let told = match is_box && here.within(0.0, 0.0) == Levelled::Stops {
                true => here.within(corner, 0.0),
                false => here.within(corner + by_mm * std::f64::consts::SQRT_2, turn_rad),
            };
            match told {
                Levelled::Stops => stop.push(own),
                Levelled::Never => {}
                Levelled::Perhaps if is_least => undecided.push(own),
                Levelled::Perhaps => {
                    let half = half * 0.5;
                    let corners = [(-half, -half), (half, -half), (half, half), (-half, half)];
                    open.extend(corners.map(|off| {
                        let middle = middle + DVec2::from(off);
                        Open { middle, half, edges: Rc::clone(&edges) }
                    }));
                }
            }
        }
        Squares { stop: joined(stop), undecided: joined(undecided) }
    }
}

/// Squares that lie side by side as one ring each row, and rows of one width as one: few rings are cut sooner than many.
fn joined(mut all: Vec<Bounds>) -> Vec<Vec<DVec2>> {
    for along in [DVec2::X, DVec2::Y] {
        let across = along.perp();
        // Side by side: between the same two lines along, one after the other.
        let lines = |own: &Bounds| [across.dot(own.low), across.dot(own.high)];
        all.sort_by(|a, b| {
            let [one, other] = [lines(a), lines(b)];
            let first = one[0].total_cmp(&other[0]).then(one[1].total_cmp(&other[1]));
            first.then(along.dot(a.low).total_cmp(&along.dot(b.low)))
        });
        let mut rows: Vec<Bounds> = Vec::new();
        for own in all {
            match rows.last_mut() {
                Some(row) if lines(row) == lines(&own) && along.dot(row.high) == along.dot(own.low) => {
                    row.high = own.high;
                }
                _ => rows.push(own),
            }
        }
        all = rows;
    }
    all.iter().map(|own| super::corners_of(own).to_vec()).collect()
}

/// The largest squares about some places. They are of one lattice, so that the same are asked about wherever it is looked; whole
/// millimetres, halved to whole ones: squares side by side leave nothing between them.
fn first(around: &Bounds, places: &[&Region]) -> Vec<Open> {
    let mut half = LEAST_MM;
    while half < around.size().max_element() * 0.5 {
        half *= 2.0;
    }
    let edges = places.iter().flat_map(|own| own.rings()).flat_map(|ring| {
        let next = ring.iter().cycle().skip(1);
        ring.iter().zip(next).map(|(from, to)| Segment::new(*from, *to))
    });
    let edges: Rc<[Segment]> = edges.collect();
    let nth = |at: DVec2| (at / (2.0 * half)).floor();
    let (first, last) = (nth(around.low), nth(around.high));
    let columns = first.x as i64..=last.x as i64;
    let all = columns.flat_map(|x| (first.y as i64..=last.y as i64).map(move |y| (x, y)));
    let open = all.map(|(x, y)| Open {
        middle: (DVec2::new(x as f64, y as f64) * 2.0 + DVec2::ONE) * half,
        half,
        edges: Rc::clone(&edges),
    });
    open.collect()
}
