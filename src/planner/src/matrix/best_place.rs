//! How many of a list each place of the room serves, and the one place that serves the most.
//!
//! A place is where the middle of the front axle stands, bay frame, with a heading: all cars of the list are parked on the same
//! mark, looking the same way. A line is served where the regions say that nothing stops it; what they leave undecided counts as not
//! served, so that a map never promises. The place for the most is one at which the checks found nothing that stops for any of
//! the lines that are named.

use baywright_geometry::{Bounds, DVec2, PlanPose, Region};

use super::Line;
use crate::assessment::Verdict;
use crate::judge::judge;
use crate::model::Arrangement;
use crate::place::{ByTape, MOST_MM, Margin, Offer, Search, Slack, Spot, best_spots_of, in_whole_mm, stood};
use crate::scene::Scene;

/// Squares over a floor, row after row from its low corner.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Grid {
    /// The middle of the first square, bay frame, mm.
    pub first: DVec2,
    /// How wide a square is, mm.
    pub step_mm: f64,
    /// How many there are along x.
    pub columns: usize,
    /// How many there are along y.
    pub rows: usize,
}

/// So many squares a map has at most.
const MOST_SQUARES: f64 = 250_000.0;

impl Grid {
    /// Squares of so many mm, or as much larger as keeps them to a bounded number, over a box.
    pub fn over(bounds: Bounds, step_mm: f64) -> Self {
        let size = bounds.size();
        let least = (size.x * size.y / MOST_SQUARES).max(0.0).sqrt();
        let step_mm = step_mm.max(least).max(1.0);
        let count = (size / step_mm).ceil().max(DVec2::ONE);
        let first = bounds.low + DVec2::splat(step_mm * 0.5);
        Self { first, step_mm, columns: count.x as usize, rows: count.y as usize }
    }

    /// The middle of a square, by its position among all.
    pub fn at(&self, nth: usize) -> DVec2 {
        let (column, row) = (nth % self.columns, nth / self.columns);
        self.first + DVec2::new(column as f64, row as f64) * self.step_mm
    }

    /// Tells each square whose middle a region holds.
    fn inside(&self, region: &Region, tell: &mut impl FnMut(usize)) {
        let Some(bounds) = region.bounds() else { return };
        for row in 0..self.rows {
            let y = self.first.y + row as f64 * self.step_mm;
            if y < bounds.low.y || y > bounds.high.y {
                continue;
            }
            let mut crossings: Vec<f64> = Vec::new();
            for ring in region.rings() {
                for (from, to) in ring.iter().zip(ring.iter().cycle().skip(1)) {
                    if (from.y > y) != (to.y > y) {
                        crossings.push(from.x + (to.x - from.x) * ((y - from.y) / (to.y - from.y)));
                    }
                }
            }
            crossings.sort_by(f64::total_cmp);
            for pair in crossings.chunks_exact(2) {
                let [low, high] = [0, 1].map(|end| pair.get(end).copied().unwrap_or_default());
                let start = ((low - self.first.x) / self.step_mm).ceil().max(0.0) as usize;
                let end = ((high - self.first.x) / self.step_mm).floor();
                if end >= 0.0 {
                    let end = (end as usize).min(self.columns.saturating_sub(1));
                    (start..=end).for_each(|column| tell(row * self.columns + column));
                }
            }
        }
    }
}

/// What was found at one heading.
#[derive(Clone, Debug, PartialEq)]
pub struct Heard {
    /// The heading, radians.
    pub heading_rad: f64,
    /// How much of the list each square serves, by weight.
    served: Vec<f64>,
    /// How many of its lines.
    count: Vec<u16>,
    /// The lines that one place serves, and their weight: as much as was found at this heading.
    lines: Vec<usize>,
    weight: f64,
    /// Where these all fit.
    common: Region,
}

/// Asks of one heading, radians, where each of the lines fits. `searches` are of the lines, in their order.
pub fn heard(searches: &[Search], weights: &[f64], grid: &Grid, heading_rad: f64) -> Heard {
    let regions: Vec<Region> = searches.iter().map(|own| own.places(heading_rad).fits).collect();
    let all = grid.columns * grid.rows;
    let (mut served, mut count) = (vec![0.0_f64; all], vec![0_u16; all]);
    let weight = |nth: usize| weights.get(nth).copied().unwrap_or(1.0);
    for (nth, region) in regions.iter().enumerate() {
        grid.inside(region, &mut |square| {
            if let (Some(own), Some(lines)) = (served.get_mut(square), count.get_mut(square)) {
                *own += weight(nth);
                *lines = lines.saturating_add(1);
            }
        });
    }
    // The squares' middles, and what lies deepest in each shape: some are smaller than a square.
    let middle = (0..all).max_by(|&a, &b| {
        let at = |nth: usize| (served.get(nth).copied().unwrap_or_default(), std::cmp::Reverse(nth));
        let ((a, first), (b, second)) = (at(a), at(b));
        a.total_cmp(&b).then(first.cmp(&second))
    });
    let deepest = regions.iter().flat_map(|own| {
        (0..own.shapes().len())
            .filter_map(|nth| own.shape(nth).deepest(DEEP_MM, f64::INFINITY).map(|(at, _)| at))
    });
    let places: Vec<DVec2> = middle.map(|nth| grid.at(nth)).into_iter().chain(deepest).collect();
    let (mut lines, mut most, mut common) = (Vec::new(), 0.0, Region::default());
    for place in places {
        let here: Vec<usize> =
            regions.iter().enumerate().filter_map(|(nth, own)| own.holds(place).then_some(nth)).collect();
        let own: f64 = here.iter().map(|&nth| weight(nth)).sum();
        if own <= most {
            continue;
        }
        let (all, region) = grown(&regions, here, &weight);
        (most, lines, common) = (all.iter().map(|&nth| weight(nth)).sum(), all, region);
    }
    Heard { heading_rad, served, count, lines, weight: most, common }
}

/// How deep in a shape a place is looked for, within so much, mm.
const DEEP_MM: f64 = 5.0;

/// Lines that fit at one place, with all others that leave them one, the weightiest first; and where they all fit.
fn grown(regions: &[Region], here: Vec<usize>, weight: &impl Fn(usize) -> f64) -> (Vec<usize>, Region) {
    let rings = |own: &Region| own.rings().map(<[DVec2]>::to_vec).collect::<Vec<_>>();
    let mut all = here;
    let mut common: Option<Region> = None;
    for own in all.iter().filter_map(|&nth| regions.get(nth)) {
        common = Some(match common {
            None => own.clone(),
            Some(so_far) => Region::common(&rings(&so_far), &rings(own)),
        });
    }
    let mut common = common.unwrap_or_default();
    let mut others: Vec<usize> = (0..regions.len()).filter(|nth| !all.contains(nth)).collect();
    others.sort_by(|&a, &b| weight(b).total_cmp(&weight(a)).then(a.cmp(&b)));
    for nth in others {
        let Some(own) = regions.get(nth).filter(|own| !own.is_empty()) else { continue };
        let both = Region::common(&rings(&common), &rings(own));
        if !both.is_empty() {
            all.push(nth);
            common = both;
        }
    }
    all.sort_unstable();
    (all, common)
}

/// How much of a list each place of the room serves, at whichever of the headings serves the most there.
#[derive(Clone, Debug, PartialEq)]
pub struct FitMap {
    /// The squares.
    pub grid: Grid,
    /// Of each square how many lines one heading serves there at most.
    pub count: Vec<u16>,
    /// The same by weight.
    pub served: Vec<f64>,
    /// Of how many lines.
    pub of: usize,
}

/// So many steps a map is shown in at most.
pub const MOST_STEPS: usize = 5;

impl FitMap {
    /// Where so many lines or more are served, in steps from the fewest to the most: each with its least count. No more steps than
    /// are told apart at a glance ([`MOST_STEPS`]); the last is that of the most.
    pub fn steps(&self) -> Vec<(u16, Region)> {
        let mut counts: Vec<u16> = self.count.iter().copied().filter(|own| *own > 0).collect();
        counts.sort_unstable();
        counts.dedup();
        let last = counts.len().saturating_sub(1);
        let shown = counts.len().min(MOST_STEPS);
        // The first and the last are always among them.
        let steps = (0..shown).filter_map(|step| counts.get(step * last / (shown - 1).max(1)).copied());
        steps.map(|least| (least, self.served_by(least))).collect()
    }

    /// The squares that serve so many lines or more.
    fn served_by(&self, least: u16) -> Region {
        let Grid { first, step_mm, columns, .. } = self.grid;
        let mut runs: Vec<Vec<DVec2>> = Vec::new();
        for (row, counts) in self.count.chunks(columns.max(1)).enumerate() {
            let mut from = None;
            for column in 0..=counts.len() {
                let is_in = counts.get(column).is_some_and(|own| *own >= least);
                match (from, is_in) {
                    (None, true) => from = Some(column),
                    (Some(start), false) => {
                        let corner = |column: usize, up: f64| {
                            first + DVec2::new(column as f64 - 0.5, row as f64 + up) * step_mm
                        };
                        let (low, high) = (-0.5, 0.5);
                        runs.push(vec![
                            corner(start, low),
                            corner(column, low),
                            corner(column, high),
                            corner(start, high),
                        ]);
                        from = None;
                    }
                    _ => {}
                }
            }
        }
        Region::left(&runs, &[])
    }

    /// How many lines a place serves, bay frame, mm; 0 outside the map.
    pub fn at(&self, place: DVec2) -> u16 {
        let Grid { first, step_mm, columns, rows } = self.grid;
        let square = ((place - first) / step_mm).round();
        let is_inside =
            square.cmpge(DVec2::ZERO).all() && square.x < columns as f64 && square.y < rows as f64;
        let nth = square.y.max(0.0) as usize * columns + square.x.max(0.0) as usize;
        if is_inside { self.count.get(nth).copied().unwrap_or_default() } else { 0 }
    }
}

/// The map of what was heard at some headings.
pub fn fit_map(grid: Grid, heard: &[Heard], of: usize) -> FitMap {
    let all = grid.columns * grid.rows;
    let mut map = FitMap { grid, count: vec![0; all], served: vec![0.0; all], of };
    for own in heard {
        for (most, here) in map.count.iter_mut().zip(&own.count) {
            *most = (*most).max(*here);
        }
        for (most, here) in map.served.iter_mut().zip(&own.served) {
            *most = most.max(*here);
        }
    }
    map
}

/// One place to park that serves the most of a list that was found.
#[derive(Clone, Debug, PartialEq)]
pub struct BestPlace {
    /// Bay from vehicle.
    pub pose: PlanPose,
    /// How far off it each of the cars may stand.
    pub slack: Slack,
    /// Whether that is as much as cars are parked off.
    pub meets_margin: bool,
    /// The lines that it serves, by their position, each with what the checks say there.
    pub serves: Vec<(usize, Verdict)>,
    /// Their weight.
    pub weight: f64,
    /// The weight of all.
    pub of_weight: f64,
}

impl BestPlace {
    /// How a person parks there, the car of one of the lines.
    pub fn offer(&self, own: &Arrangement) -> Offer {
        let spot = Spot { pose: self.pose, slack: self.slack, is_invited: true };
        Offer { spot, by_tape: ByTape::of(own, &Scene::of(own), self.pose), meets: self.meets_margin }
    }
}

/// The best place of what was heard: most weight, then most slack. `None` if no line fits at any of the headings.
pub fn best_place(lines: &[Line], heard: &[Heard], margin: &Margin) -> Option<BestPlace> {
    let of_weight = lines.iter().map(|own| own.weight).sum();
    let mut ranked: Vec<&Heard> = heard.iter().filter(|own| !own.lines.is_empty()).collect();
    ranked.sort_by(|a, b| b.weight.total_cmp(&a.weight));
    let mut best: Option<BestPlace> = None;
    for own in ranked {
        // What weighs less is no better, and of what weighs the same the slack decides.
        if best.as_ref().is_some_and(|best| own.weight < best.weight) {
            break;
        }
        // No place has more slack than it lies from the edge of where all of them fit; nor is more of it looked for than so much.
        let slack_mm = best.as_ref().map_or(-1.0, |best| best.slack.mm);
        if slack_mm >= MOST_MM - ROUNDED_MM || most_slack(&own.common) <= slack_mm {
            continue;
        }
        let Some(found) = confirmed(lines, own, margin, of_weight) else { continue };
        let rank = |own: &BestPlace| (own.weight, own.slack.mm);
        if best.as_ref().is_none_or(|best| rank(&found) > rank(best)) {
            best = Some(found);
        }
    }
    best
}

/// What a spot loses of its slack by being told in whole millimetres, mm.
const ROUNDED_MM: f64 = 2.0;

/// How much slack a place of a region has at most, mm: as far as it lies from the edge.
fn most_slack(common: &Region) -> f64 {
    let deepest = |nth: usize| common.shape(nth).deepest(DEEP_MM, MOST_MM).map_or(0.0, |own| own.1);
    (0..common.shapes().len()).map(deepest).fold(0.0, f64::max) + DEEP_MM
}

/// The place at one heading, with the lines of which the checks find nothing that stops.
fn confirmed(lines: &[Line], heard: &Heard, margin: &Margin, of_weight: f64) -> Option<BestPlace> {
    let own: Vec<_> = heard.lines.iter().filter_map(|&nth| lines.get(nth)).collect();
    let arrangements: Vec<_> = own.iter().map(|own| own.arrangement.clone()).collect();
    let all = Search::of_all(&arrangements);
    let headings = [(heard.heading_rad, true)];
    let spot = best_spots_of(&all, &headings, margin, &|| false, &mut |_| {}).spots.first().copied();
    let spot = spot.or_else(|| {
        // Room for a millimetre of slack there is not.
        let shapes = (0..heard.common.shapes().len()).map(|nth| heard.common.shape(nth));
        let largest = shapes.max_by(|a, b| a.area().total_cmp(&b.area()))?;
        let at = [DEEP_MM, 1.0, 0.2].into_iter().find_map(|within| largest.deepest(within, f64::INFINITY))?.0;
        let slack = Slack { mm: 0.0, rad: 0.0 };
        Some(Spot { pose: PlanPose::new(at, heard.heading_rad), slack, is_invited: true })
    })?;
    let spot = in_whole_mm(&spot, all.lever_mm());
    let mut serves = Vec::new();
    let mut weight = 0.0;
    for &nth in &heard.lines {
        let Some(line) = lines.get(nth) else { continue };
        let verdict = judge(&stood(&line.arrangement, spot.pose)).verdict;
        if verdict != Verdict::NotReady {
            serves.push((nth, verdict));
            weight += line.weight;
        }
    }
    let meets_margin = spot.meets(margin);
    let told = BestPlace { pose: spot.pose, slack: spot.slack, meets_margin, serves, weight, of_weight };
    (!told.serves.is_empty()).then_some(told)
}
