//! The same steps as in [`Errors::lay`], for many draws side by side: plain loops over [`Lanes`], one for each step, in which
//! nothing branches and nothing is taken from memory anew. A mark that cannot be found is no number, and so is what is built on
//! it.

use baywright_geometry::marks::{
    Construction, FLATTEST_CROSSING_RAD, Givens, Reach, WhichSide, lay_next, two_distances,
};
use baywright_geometry::tolerance::{REACH_MM, TOUCH_MM};
use baywright_geometry::{DVec2, angle};

use super::errors::{Errors, Moved};
use super::sought::Sought;
use crate::dice::{Lanes, SIDE_BY_SIDE};
use crate::monte_carlo::Model;

/// A place for each draw.
#[derive(Clone, Copy, Debug)]
struct Places {
    x: Lanes,
    y: Lanes,
}

const NOWHERE: Places = Places { x: [f64::NAN; SIDE_BY_SIDE], y: [f64::NAN; SIDE_BY_SIDE] };

/// What is sought of a plan, as a model to draw from.
#[derive(Clone, Debug)]
pub struct DrawnPlan<'a> {
    errors: &'a Errors,
    givens: &'a Givens,
    sought: Sought,
    /// The direction about which it is turned, if it is one: as meant.
    about: DVec2,
    laid: Vec<Places>,
}

impl<'a> DrawnPlan<'a> {
    pub(super) fn of(errors: &'a Errors, givens: &'a Givens, meant: &[DVec2], sought: &Sought) -> Self {
        let place = |mark: usize| meant.get(mark).copied().unwrap_or(DVec2::NAN);
        let about = sought.direction(place).unwrap_or(DVec2::X);
        Self {
            errors,
            givens,
            sought: *sought,
            about: about.normalize_or(DVec2::X),
            laid: Vec::with_capacity(meant.len()),
        }
    }

    fn lay(&mut self, inputs: &[Lanes]) {
        let mut longer = [1.0; SIDE_BY_SIDE];
        for column in self.errors.scale().iter().filter_map(|scale| inputs.get(*scale)) {
            longer.iter_mut().zip(column).for_each(|(own, by)| *own += by);
        }
        self.laid.clear();
        for (meant, moved) in self.errors.steps() {
            let mut place = Among { laid: &self.laid, givens: self.givens, longer: &longer }.construct(meant);
            within_reach(&mut place);
            for Moved { input, by } in moved {
                let Some(column) = inputs.get(*input) else { continue };
                for (cells, by) in [(&mut place.x, by.x), (&mut place.y, by.y)] {
                    // Most move it along one of both only.
                    if by != 0.0 {
                        cells.iter_mut().zip(column).for_each(|(cell, off)| *cell += by * off);
                    }
                }
            }
            self.laid.push(place);
        }
    }
}

impl Model for DrawnPlan<'_> {
    fn values(&mut self, inputs: &[Lanes], found: &mut Lanes) {
        self.lay(inputs);
        let place = |mark: usize| self.laid.get(mark).unwrap_or(&NOWHERE);
        match self.sought {
            Sought::Bearing { mark, from } => {
                let Places { x, y } = place(mark);
                turned(self.about, |lane| (cell(x, lane) - from.x, cell(y, lane) - from.y), found);
            }
            Sought::Squareness { right, left } => {
                let (right, left) = (place(right), place(left));
                let span = |lane: usize| {
                    (cell(&left.x, lane) - cell(&right.x, lane), cell(&left.y, lane) - cell(&right.y, lane))
                };
                // Its own left is straight ahead of it.
                turned(
                    self.about,
                    |lane| {
                        let (x, y) = span(lane);
                        (y, -x)
                    },
                    found,
                );
            }
            Sought::Distance { mark, from } => {
                let Places { x, y } = place(mark);
                for ((found, x), y) in found.iter_mut().zip(x).zip(y) {
                    let (x, y) = (x - from.x, y - from.y);
                    *found = (x * x + y * y).sqrt();
                }
            }
            Sought::Aside { mark } => *found = place(mark).y,
        }
    }
}

#[inline]
fn cell(of: &Lanes, lane: usize) -> f64 {
    of.get(lane).copied().unwrap_or_default()
}

/// The headings of vectors that lie near a direction: its own, and of what they are turned from it the arc tangent. Of less than a
/// twentieth its series is as exact as any other way; else it is asked for in full.
#[inline]
fn turned(about: DVec2, vector: impl Fn(usize) -> (f64, f64), found: &mut Lanes) {
    let heading = angle::heading(about);
    let mut is_near = true;
    for (lane, found) in found.iter_mut().enumerate() {
        let (x, y) = vector(lane);
        let ahead = about.x * x + about.y * y;
        let t = (about.x * y - about.y * x) / ahead;
        let s = t * t;
        let series =
            s * (-1.0 / 3.0 + s * (1.0 / 5.0 + s * (-1.0 / 7.0 + s * (1.0 / 9.0 - s * (1.0 / 11.0)))));
        is_near &= (s < 0.0025) & (ahead > 0.0);
        *found = heading + (t + t * series);
    }
    if !is_near {
        for (lane, found) in found.iter_mut().enumerate() {
            let (x, y) = vector(lane);
            let (ahead, left) = (about.x * x + about.y * y, about.x * y - about.y * x);
            *found = heading + libm::atan2(left, ahead);
        }
    }
}

/// No number where a place is beyond the reach of any bay.
#[inline]
fn within_reach(place: &mut Places) {
    let mut is_within = true;
    for (x, y) in place.x.iter().zip(&place.y) {
        is_within &= (x.abs() <= REACH_MM) & (y.abs() <= REACH_MM);
    }
    if is_within {
        return;
    }
    for (x, y) in place.x.iter_mut().zip(&mut place.y) {
        if !((x.abs() <= REACH_MM) & (y.abs() <= REACH_MM)) {
            (*x, *y) = (f64::NAN, f64::NAN);
        }
    }
}

struct Among<'a> {
    laid: &'a [Places],
    givens: &'a Givens,
    longer: &'a Lanes,
}

impl Among<'_> {
    fn mark(&self, mark: usize) -> &Places {
        self.laid.get(mark).unwrap_or(&NOWHERE)
    }

    /// The unit vectors from one mark to another; no number where they lie on each other.
    #[inline]
    fn direction(&self, from: usize, to: usize) -> Places {
        let (from, to) = (self.mark(from), self.mark(to));
        let mut way = *to;
        way.x.iter_mut().zip(&from.x).for_each(|(x, from)| *x -= from);
        way.y.iter_mut().zip(&from.y).for_each(|(y, from)| *y -= from);
        for (x, y) in way.x.iter_mut().zip(&mut way.y) {
            let squared = *x * *x + *y * *y;
            let by = 1.0 / if squared > TOUCH_MM * TOUCH_MM { squared } else { f64::NAN }.sqrt();
            (*x, *y) = (*x * by, *y * by);
        }
        way
    }

    /// Start, and so far along and to the left of a way.
    #[inline]
    fn from(
        &self,
        start: usize,
        way: &Places,
        along: impl Fn(usize) -> f64,
        aside: impl Fn(usize) -> f64,
    ) -> Places {
        let start = self.mark(start);
        let mut place = NOWHERE;
        for lane in 0..SIDE_BY_SIDE {
            let (along, aside) = (along(lane), aside(lane));
            let (wx, wy) = (cell(&way.x, lane), cell(&way.y, lane));
            let x = cell(&start.x, lane) + wx * along - wy * aside;
            put(&mut place, lane, x, cell(&start.y, lane) + wy * along + wx * aside);
        }
        place
    }

    /// Where a step comes to lie, before its own errors.
    fn construct(&self, step: &Construction) -> Places {
        let longer = |lane: usize| cell(self.longer, lane);
        let given = |step: &Construction| lay_next(&[], step, self.givens).unwrap_or(DVec2::NAN);
        let on_line = |of: usize, start: usize, way: &Places, lane: usize| {
            let (of, start) = (self.mark(of), self.mark(start));
            let (x, y) = (cell(&of.x, lane) - cell(&start.x, lane), cell(&of.y, lane) - cell(&start.y, lane));
            (x, y, cell(&way.x, lane), cell(&way.y, lane))
        };
        match *step {
            Construction::WheelPoint { .. } | Construction::BodyPoint { .. } => {
                let at = given(step);
                Places { x: [at.x; SIDE_BY_SIDE], y: [at.y; SIDE_BY_SIDE] }
            }
            Construction::Outboard { wheel, distance } => {
                let at = |distance: f64| given(&Construction::Outboard { wheel, distance });
                let (tyre, read) = (at(0.0), at(distance) - at(0.0));
                let mut place = NOWHERE;
                for lane in 0..SIDE_BY_SIDE {
                    put(&mut place, lane, tyre.x + read.x * longer(lane), tyre.y + read.y * longer(lane));
                }
                place
            }
            Construction::Prolong { from, through, reach: Reach::Length(length) } => {
                let way = self.direction(from, through);
                self.from(through, &way, |lane| length * longer(lane), |_| 0.0)
            }
            // A plan that is judged has the length that a person is told instead.
            Construction::Prolong { reach: Reach::AbreastOf(_), .. } => NOWHERE,
            Construction::Middle { first, second } => {
                let (first, second) = (self.mark(first), self.mark(second));
                let mut place = NOWHERE;
                for lane in 0..SIDE_BY_SIDE {
                    let x = 0.5 * (cell(&first.x, lane) + cell(&second.x, lane));
                    put(&mut place, lane, x, 0.5 * (cell(&first.y, lane) + cell(&second.y, lane)));
                }
                place
            }
            Construction::Foot { of, from, to } => {
                let way = self.direction(from, to);
                let along = |lane: usize| {
                    let (x, y, wx, wy) = on_line(of, from, &way, lane);
                    x * wx + y * wy
                };
                self.from(from, &way, along, |_| 0.0)
            }
            Construction::AlongAside { from, to, along, aside } => {
                let way = self.direction(from, to);
                self.from(from, &way, |lane| along * longer(lane), |lane| aside * longer(lane))
            }
            Construction::AtAngle { at, towards, angle, distance } => {
                let way = self.direction(at, towards);
                let turned = angle::direction(angle) * distance;
                self.from(at, &way, |lane| turned.x * longer(lane), |lane| turned.y * longer(lane))
            }
            Construction::Crossing { first, second } => {
                let (p, q) = (self.direction(first.0, first.1), self.direction(second.0, second.1));
                let flattest = libm::sin(FLATTEST_CROSSING_RAD);
                let along = |lane: usize| {
                    let (x, y, qx, qy) = on_line(second.0, first.0, &q, lane);
                    let sine = cell(&p.x, lane) * qy - cell(&p.y, lane) * qx;
                    if sine.abs() >= flattest { (x * qy - y * qx) / sine } else { f64::NAN }
                };
                self.from(first.0, &p, along, |_| 0.0)
            }
            Construction::TwoDistances { first, from_first, second, from_second, side } => {
                let (first, second) = (self.mark(first), self.mark(second));
                let mut place = NOWHERE;
                for lane in 0..SIDE_BY_SIDE {
                    let at = |of: &Places| DVec2::new(cell(&of.x, lane), cell(&of.y, lane));
                    let longer = longer(lane);
                    let found =
                        two_distances(at(first), from_first * longer, at(second), from_second * longer);
                    let Ok([left, right]) = found else { continue };
                    let at = if side == WhichSide::Left { left } else { right };
                    put(&mut place, lane, at.x, at.y);
                }
                place
            }
        }
    }
}

#[inline]
fn put(place: &mut Places, lane: usize, x: f64, y: f64) {
    place.x.get_mut(lane).into_iter().for_each(|own| *own = x);
    place.y.get_mut(lane).into_iter().for_each(|own| *own = y);
}

#[cfg(test)]
mod tests {
    use baywright_geometry::marks::Wheel;

    use super::super::{Budget, Instruments, Tape};
    use super::*;
    use crate::dice::Dice;

    /// Steps of every kind.
    fn plan() -> (Vec<Construction>, Givens) {
        use Construction::*;
        let wheels = [(0., 780.), (0., -780.), (-2550., 770.), (-2550., -770.)].map(DVec2::from);
        let points = vec![DVec2::new(850.0, 10.0)];
        let targets = vec![DVec2::new(3600.0, 0.0)];
        let givens = Givens::new(wheels, DVec2::X, [205.0; 4], points, targets).unwrap();
        let mut plan: Vec<Construction> = Wheel::ALL.map(|wheel| WheelPoint { wheel }).to_vec();
        plan.extend([
            Prolong { from: 2, through: 0, reach: Reach::Length(3600.0) },
            Prolong { from: 3, through: 1, reach: Reach::AbreastOf(0) },
            Middle { first: 4, second: 5 },
            Outboard { wheel: Wheel::RearRight, distance: 150.0 },
            BodyPoint { point: 0 },
            Foot { of: 8, from: 2, to: 0 },
            AlongAside { from: 0, to: 1, along: 700.0, aside: 2500.0 },
            AtAngle { at: 6, towards: 8, angle: 0.6, distance: 900.0 },
            Crossing { first: (0, 5), second: (1, 4) },
            TwoDistances {
                first: 4,
                from_first: 1200.0,
                second: 5,
                from_second: 1300.0,
                side: WhichSide::Left,
            },
            TwoDistances {
                first: 4,
                from_first: 1200.0,
                second: 5,
                from_second: 1300.0,
                side: WhichSide::Right,
            },
        ]);
        (plan, givens)
    }

    fn shop() -> Instruments {
        Instruments {
            tape: Tape { read_mm: 0.5, per_metre_mm: 0.1, scale: 2e-4, within_k: 10.0, per_k: 11.5e-6 },
            laser_mm_per_m: 0.2,
            line_mm: 0.4,
            plumb_mm: 0.5,
            wheel_aside_mm: 1.0,
            wheel_along_mm: 1.5,
            camber_rad: 0.003,
            square_rad: 0.001,
            angle_rad: 0.002,
            ..Instruments::PERFECT
        }
    }

    /// Draws as they come, and a hundred times as wide, so that directions leave their series.
    #[test]
    fn side_by_side_is_one_after_another() {
        let (plan, givens) = plan();
        let budget = Budget::of(&plan, &givens, &shop()).unwrap();
        let mut dice = Dice::of(8, 0);
        let from = DVec2::new(770.0, 120.0);
        let of_mark =
            |mark| [Sought::Bearing { mark, from }, Sought::Distance { mark, from }, Sought::Aside { mark }];
        let mut all: Vec<Sought> = (0..plan.len()).flat_map(of_mark).collect();
        all.extend([Sought::Squareness { right: 5, left: 4 }, Sought::Squareness { right: 12, left: 13 }]);
        let (mut compared, mut lost) = (0, 0);
        for wide in [1.0, 100.0] {
            let columns: Vec<Lanes> = budget
                .inputs()
                .iter()
                .map(|input| std::array::from_fn(|_| wide * input.u * dice.normal()))
                .collect();
            for sought in &all {
                let mut found = [0.0; SIDE_BY_SIDE];
                budget.drawn(sought).values(&columns, &mut found);
                for (lane, found) in found.into_iter().enumerate() {
                    let row: Vec<f64> = columns.iter().map(|column| column[lane]).collect();
                    let laid = budget.laid(&row);
                    match sought.of(&laid).map(|(value, _)| value) {
                        Some(expected) => {
                            let off = (found - expected).abs();
                            let off = off.min((off - std::f64::consts::TAU).abs());
                            assert!(off < 1e-9 * (1.0 + expected.abs()), "{sought:?}: {found} {expected}");
                            compared += 1;
                        }
                        // One after another ends at the first mark that cannot be found, needed or not.
                        None => lost += 1,
                    }
                }
            }
        }
        assert!(compared > 6_000 && lost < 1_500, "{compared} {lost}");
    }

    /// Tapes that do not meet give no number, and only where they do not.
    #[test]
    fn what_cannot_be_found_is_no_number() {
        let (plan, givens) = plan();
        let budget = Budget::of(&plan, &givens, &shop()).unwrap();
        let own = Sought::Aside { mark: 13 };
        let at = budget.origins().iter().position(|origin| origin.is_scale()).unwrap();
        let mut columns = vec![[0.0; SIDE_BY_SIDE]; budget.inputs().len()];
        columns[at][3] = -0.6;
        let mut found = [0.0; SIDE_BY_SIDE];
        budget.drawn(&own).values(&columns, &mut found);
        for (lane, found) in found.into_iter().enumerate() {
            assert_eq!(found.is_nan(), lane == 3, "{lane}");
        }
    }
}
