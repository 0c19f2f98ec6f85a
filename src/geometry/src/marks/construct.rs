//! The constructions themselves: plane trigonometry, each with its failure.

use glam::DVec2;

use super::{
    Construction, FLATTEST_CROSSING_RAD, Givens, MarkFault, Reach, TapeFault, WhichSide, two_distances,
};
use crate::angle;
use crate::tolerance::{REACH_MM, TOUCH_MM};

/// Lays a whole plan: one place, or one reason, for each step. A step that uses a mark that failed fails too, and the
/// others go on.
///
/// Spots 150 mm outboard of both front tyres, and their middle:
///
/// ```rust
/// # use baywright_geometry::{DVec2, marks::*};
/// let wheels = [(0.0, 780.0), (0.0, -780.0), (-2700.0, 770.0), (-2700.0, -770.0)].map(DVec2::from);
/// let givens = Givens::new(wheels, DVec2::X, [205.0; 4], Vec::new(), Vec::new())?;
/// let plan = [
///     Construction::Outboard { wheel: Wheel::FrontLeft, distance: 150.0 },
///     Construction::Outboard { wheel: Wheel::FrontRight, distance: 150.0 },
///     Construction::Middle { first: 0, second: 1 },
///     Construction::Middle { first: 0, second: 7 },
/// ];
/// let marks = lay(&plan, &givens);
/// assert_eq!(marks[0], Ok(DVec2::new(0.0, 780.0 + 102.5 + 150.0)));
/// assert_eq!(marks[2], Ok(DVec2::ZERO));
/// assert_eq!(marks[3], Err(MarkFault::NoSuch { index: 7 }));
/// # Ok::<(), GivensFault>(())
/// ```
pub fn lay(plan: &[Construction], givens: &Givens) -> Vec<Result<DVec2, MarkFault>> {
    let mut marks = Vec::with_capacity(plan.len());
    for step in plan {
        marks.push(lay_next(&marks, step, givens));
    }
    marks
}

/// Lays one step more, where those before it lie, which need not be where the plan meant them.
///
/// # Errors
/// Why the mark cannot be found.
///
/// ```rust
/// # use baywright_geometry::{DVec2, marks::*};
/// let givens = Givens::new([DVec2::ZERO; 4], DVec2::X, [205.0; 4], Vec::new(), Vec::new())?;
/// let laid = [Ok(DVec2::new(0.0, 1.0)), Ok(DVec2::new(1_000.0, 3.0))];
/// let middle = lay_next(&laid, &Construction::Middle { first: 0, second: 1 }, &givens);
/// assert_eq!(middle, Ok(DVec2::new(500.0, 2.0)));
/// # Ok::<(), GivensFault>(())
/// ```
pub fn lay_next(
    laid: &[Result<DVec2, MarkFault>],
    step: &Construction,
    givens: &Givens,
) -> Result<DVec2, MarkFault> {
    Laid { marks: laid, givens }.construct(step).and_then(within_reach)
}

/// Lays a step once more, where those before it lie now.
pub(super) fn lay_again(
    marks: &mut [Result<DVec2, MarkFault>],
    plan: &[Construction],
    givens: &Givens,
    index: usize,
) {
    let Some((laid, [own, ..])) = marks.split_at_mut_checked(index) else { return };
    if let Some(step) = plan.get(index) {
        *own = lay_next(laid, step, givens);
    }
}

/// Puts a mark so far off where it lies.
pub(super) fn shift(marks: &mut [Result<DVec2, MarkFault>], index: usize, off: DVec2) {
    if let Some(own) = marks.get_mut(index) {
        *own = own.and_then(|at| within_reach(at + off));
    }
}

fn within_reach(p: DVec2) -> Result<DVec2, MarkFault> {
    // A comparison with NaN is false, so a figure that is not a number ends here too.
    if p.abs().max_element() <= REACH_MM && p.is_finite() { Ok(p) } else { Err(MarkFault::OutOfReach) }
}

struct Laid<'a> {
    marks: &'a [Result<DVec2, MarkFault>],
    givens: &'a Givens,
}

impl Laid<'_> {
    fn mark(&self, index: usize) -> Result<DVec2, MarkFault> {
        match self.marks.get(index) {
            None => Err(MarkFault::NoSuch { index }),
            Some(Err(_)) => Err(MarkFault::Missing { mark: index }),
            Some(Ok(p)) => Ok(*p),
        }
    }

    /// The unit vector from one mark to another.
    fn direction(&self, first: usize, second: usize) -> Result<DVec2, MarkFault> {
        let along = self.mark(second)? - self.mark(first)?;
        if along.length() > TOUCH_MM {
            Ok(along.normalize())
        } else {
            Err(MarkFault::NoDirection { first, second })
        }
    }

    fn of_wheel<T: Copy>(of: &[T; 4], wheel: super::Wheel) -> T {
        let [front_left, front_right, rear_left, rear_right] = *of;
        match wheel {
            super::Wheel::FrontLeft => front_left,
            super::Wheel::FrontRight => front_right,
            super::Wheel::RearLeft => rear_left,
            super::Wheel::RearRight => rear_right,
        }
    }

    fn wheel(&self, wheel: super::Wheel) -> DVec2 {
        Self::of_wheel(&self.givens.wheels, wheel)
    }

    fn construct(&self, step: &Construction) -> Result<DVec2, MarkFault> {
        match *step {
            Construction::WheelPoint { wheel } => Ok(self.wheel(wheel)),
            Construction::Outboard { wheel, distance } => {
                // Square to the centreline, not along a toed axle.
                let outward = if wheel.is_left() {
                    self.givens.centreline.perp()
                } else {
                    -self.givens.centreline.perp()
                };
                Ok(self.wheel(wheel)
                    + outward * (Self::of_wheel(&self.givens.tyre_widths, wheel) * 0.5 + distance))
            }
            Construction::BodyPoint { point } => {
                self.givens.body_points.get(point).copied().ok_or(MarkFault::NoSuch { index: point })
            }
            Construction::Prolong { from, through, reach } => {
                let way = self.direction(from, through)?;
                let start = self.mark(through)?;
                let length = match reach {
                    Reach::Length(length) => length,
                    Reach::AbreastOf(target) => {
                        let target =
                            self.givens.targets.get(target).ok_or(MarkFault::NoSuch { index: target })?;
                        (*target - start).dot(way)
                    }
                };
                Ok(start + way * length)
            }
            Construction::Middle { first, second } => Ok((self.mark(first)? + self.mark(second)?) * 0.5),
            Construction::Foot { of, from, to } => {
                let way = self.direction(from, to)?;
                let start = self.mark(from)?;
                Ok(start + way * (self.mark(of)? - start).dot(way))
            }
            Construction::AlongAside { from, to, along, aside } => {
                let way = self.direction(from, to)?;
                Ok(self.mark(from)? + way * along + way.perp() * aside)
            }
            Construction::AtAngle { at, towards, angle, distance } => {
                let way = self.direction(at, towards)?;
                Ok(self.mark(at)? + angle::direction(angle).rotate(way) * distance)
            }
            Construction::Crossing { first, second } => self.crossing(first, second),
            Construction::TwoDistances { first, from_first, second, from_second, side } => {
                self.two_distances((first, from_first), (second, from_second), side)
            }
        }
    }

    fn crossing(&self, first: (usize, usize), second: (usize, usize)) -> Result<DVec2, MarkFault> {
        let p = self.direction(first.0, first.1)?;
        let q = self.direction(second.0, second.1)?;
        let sine = p.perp_dot(q);
        let angle = libm::asin(sine.abs().min(1.0));
        if angle < FLATTEST_CROSSING_RAD {
            return Err(MarkFault::Parallel { angle });
        }
        let start = self.mark(first.0)?;
        Ok(start + p * ((self.mark(second.0)? - start).perp_dot(q) / sine))
    }

    fn two_distances(
        &self,
        (first, from_first): (usize, f64),
        (second, from_second): (usize, f64),
        side: WhichSide,
    ) -> Result<DVec2, MarkFault> {
        let found = two_distances(self.mark(first)?, from_first, self.mark(second)?, from_second);
        let [left, right] = found.map_err(|fault| match fault {
            TapeFault::NoPoint | TapeFault::NoDistance { .. } => MarkFault::OutOfReach,
            TapeFault::OnePoint => MarkFault::NoDirection { first, second },
            TapeFault::TooFarApart { gap } => MarkFault::TooFarApart { gap },
            TapeFault::Nested { excess } => MarkFault::Nested { excess },
        })?;
        Ok(match side {
            WhichSide::Left => left,
            WhichSide::Right => right,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::super::{GivensFault, Wheel};
    use super::*;

    /// A car with unequal tracks: wheelbase 2700, tracks 1560 and 1540, tyres 205 wide.
    fn car() -> Givens {
        standing_on([(0., 780.), (0., -780.), (-2700., 770.), (-2700., -770.)])
    }

    fn standing_on(wheels: [(f64, f64); 4]) -> Givens {
        let (body_points, targets) = (vec![DVec2::new(850.0, 0.0)], vec![DVec2::new(3600.0, 0.0)]);
        Givens::new(wheels.map(DVec2::from), DVec2::X, [205.0; 4], body_points, targets).unwrap()
    }

    fn lay_all(plan: &[Construction]) -> Vec<Result<DVec2, MarkFault>> {
        lay(plan, &car())
    }

    fn check(plan: &[Construction], expected: Result<DVec2, MarkFault>) {
        let last = lay_all(plan).pop().unwrap();
        match (last, expected) {
            (Ok(p), Ok(q)) => assert!(p.distance(q) < 1e-9, "{p} instead of {q}"),
            (p, q) => assert_eq!(p, q),
        }
    }

    const FL: Construction = Construction::WheelPoint { wheel: Wheel::FrontLeft };
    const FR: Construction = Construction::WheelPoint { wheel: Wheel::FrontRight };
    const RL: Construction = Construction::WheelPoint { wheel: Wheel::RearLeft };
    const RR: Construction = Construction::WheelPoint { wheel: Wheel::RearRight };

    fn at(x: f64, y: f64) -> Result<DVec2, MarkFault> {
        Ok(DVec2::new(x, y))
    }

    /// Closed forms of plane trigonometry, worked by hand beside each.
    #[test]
    fn closed_forms() {
        use Construction::*;
        check(&[FL], at(0.0, 780.0));
        check(&[Outboard { wheel: Wheel::RearRight, distance: 100.0 }], at(-2700.0, -770.0 - 102.5 - 100.0));
        check(&[BodyPoint { point: 0 }], at(850.0, 0.0));
        check(&[FL, FR, Middle { first: 0, second: 1 }], at(0.0, 0.0));
        // The rear-to-front line rises 10 mm in 2700: abreast of a target, measured along that line.
        let length = (2700.0_f64.powi(2) + 100.0).sqrt();
        let unit = DVec2::new(2700.0, 10.0) / length;
        let abreast = DVec2::new(0.0, 780.0) + unit * (DVec2::new(3600.0, -780.0).dot(unit));
        check(&[RL, FL, Prolong { from: 0, through: 1, reach: Reach::AbreastOf(0) }], Ok(abreast));
        check(&[RL, RR, Prolong { from: 0, through: 1, reach: Reach::Length(230.0) }], at(-2700.0, -1000.0));
        check(&[FL, FR, RL, Foot { of: 2, from: 0, to: 1 }], at(0.0, 770.0));
        // Looking from front left to front right, left is ahead.
        check(&[FL, FR, AlongAside { from: 0, to: 1, along: 780.0, aside: 3600.0 }], at(3600.0, 0.0));
        let angle = angle::radians(30.0);
        check(
            &[FR, FL, AtAngle { at: 0, towards: 1, angle, distance: 1000.0 }],
            at(-500.0, -780.0 + 750.0_f64.sqrt() * 1000.0_f64.sqrt()),
        );
        // The diagonals of a trapezium with sides 1560 and 1540 cross at 1560/(1560+1540) of the way from the front.
        check(
            &[FL, RR, FR, RL, Crossing { first: (0, 1), second: (2, 3) }],
            at(-2700.0 * 1560.0 / 3100.0, 0.0),
        );
        // 3-4-5.
        check(
            &[FL, AlongAside { from: 0, to: 0, along: 0.0, aside: 0.0 }],
            Err(MarkFault::NoDirection { first: 0, second: 0 }),
        );
        check(
            &[
                BodyPoint { point: 0 },
                FL,
                FR,
                Middle { first: 1, second: 2 },
                TwoDistances {
                    first: 3,
                    from_first: 850.0 * 0.6,
                    second: 0,
                    from_second: 850.0 * 0.8,
                    side: WhichSide::Left,
                },
            ],
            at(850.0 * 0.36, 850.0 * 0.48),
        );
    }

    /// A line prolonged backwards is still laid from both its marks.
    #[test]
    fn along_and_aside_is_walked_in_two_legs() {
        let marks = [DVec2::new(0.0, 0.0), DVec2::new(3_000.0, 4_000.0)];
        let way = |along: f64, aside: f64| {
            let own = Construction::AlongAside { from: 0, to: 1, along, aside };
            // Ahead is (0.6, 0.8), left of it (-0.8, 0.6).
            let at = DVec2::new(0.6 * along - 0.8 * aside, 0.8 * along + 0.6 * aside);
            own.runs(at, |i| marks.get(i).copied())
                .into_iter()
                .map(|run| (run.from, run.to))
                .collect::<Vec<_>>()
        };
        let near = |a: DVec2, b: (f64, f64)| a.distance(b.into()) < 1e-9;
        let legs = way(1_000.0, -500.0);
        assert_eq!(legs.len(), 2);
        assert!(near(legs[0].0, (0.0, 0.0)) && near(legs[0].1, (600.0, 800.0)), "{legs:?}");
        assert!(near(legs[1].0, (600.0, 800.0)) && near(legs[1].1, (1_000.0, 500.0)), "{legs:?}");
        assert_eq!(way(1_000.0, 0.0).len(), 1);
        let aside = way(0.0, 500.0);
        assert!(aside.len() == 1 && near(aside[0].0, (0.0, 0.0)) && near(aside[0].1, (-400.0, 300.0)));
    }

    #[test]
    fn a_line_prolonged_backwards_runs_over_both_marks() {
        let plan =
            |length| [RL, FL, Construction::Prolong { from: 0, through: 1, reach: Reach::Length(length) }];
        let ends = |length: f64| -> Vec<(DVec2, DVec2)> {
            let marks: Vec<DVec2> = lay_all(&plan(length)).into_iter().map(Result::unwrap).collect();
            let runs = plan(length)[2].runs(marks[2], |i| marks.get(i).copied());
            runs.into_iter().map(|run| (run.from, run.to)).collect()
        };
        let (rear, front) = (DVec2::new(-2700.0, 770.0), DVec2::new(0.0, 780.0));
        assert_eq!(ends(1000.0).len(), 1);
        assert_eq!(ends(-500.0)[0], (rear, front));
        assert_eq!(ends(-500.0)[1].0, front);
    }

    #[test]
    fn failures_have_reasons() {
        use Construction::*;
        let two = |from_first, from_second| TwoDistances {
            first: 0,
            from_first,
            second: 1,
            from_second,
            side: WhichSide::Left,
        };
        check(&[FL, FR, two(700.0, 800.0)], Err(MarkFault::TooFarApart { gap: 60.0 }));
        check(&[FL, FR, two(2000.0, 400.0)], Err(MarkFault::Nested { excess: 40.0 }));
        check(&[FL, FR, two(780.0, 780.0)], at(0.0, 0.0));
        // Too short by less than a tape shows.
        check(&[FL, FR, two(779.8, 779.8)], at(0.0, 0.0));
        check(&[FL, FR, two(-1.0, 1561.0)], Err(MarkFault::OutOfReach));
        check(&[FL, FR, two(f64::NAN, 780.0)], Err(MarkFault::OutOfReach));
        check(&[FL, FL, two(780.0, 780.0)], Err(MarkFault::NoDirection { first: 0, second: 1 }));
        let parallel = lay_all(&[FL, FR, RL, RR, Crossing { first: (0, 1), second: (2, 3) }]);
        assert_eq!(parallel[4], Err(MarkFault::Parallel { angle: 0.0 }));
        check(&[Middle { first: 0, second: 1 }], Err(MarkFault::NoSuch { index: 0 }));
        check(&[FL, FR, two(1.0, 1.0), Middle { first: 0, second: 2 }], Err(MarkFault::Missing { mark: 2 }));
        check(&[BodyPoint { point: 7 }], Err(MarkFault::NoSuch { index: 7 }));
        check(
            &[FL, FR, Prolong { from: 0, through: 1, reach: Reach::Length(1e9) }],
            Err(MarkFault::OutOfReach),
        );
        check(
            &[FL, FR, Prolong { from: 0, through: 1, reach: Reach::Length(f64::NAN) }],
            Err(MarkFault::OutOfReach),
        );
    }

    #[test]
    fn a_plan_starts_from_directions_and_widths_only() {
        let new = |centreline: DVec2, width: f64| {
            Givens::new([DVec2::ZERO; 4], centreline, [205.0, 205.0, 205.0, width], vec![], vec![])
        };
        assert!(new(DVec2::from_angle(0.3), 0.0).is_ok());
        for (centreline, length) in [(DVec2::ZERO, 0.0), (DVec2::new(3.0, 4.0), 5.0), (DVec2::X * 0.5, 0.5)] {
            assert_eq!(new(centreline, 205.0), Err(GivensFault::NoUnit { length }));
        }
        for centreline in [DVec2::NAN, DVec2::new(f64::INFINITY, 0.0)] {
            assert!(matches!(new(centreline, 205.0), Err(GivensFault::NoUnit { .. })));
        }
        for width in [-205.0, f64::INFINITY] {
            assert_eq!(new(DVec2::X, width), Err(GivensFault::NoWidth { width }));
        }
        assert!(matches!(new(DVec2::X, f64::NAN), Err(GivensFault::NoWidth { .. })));
    }

    /// A place that is no number costs the marks that use it, and no others.
    #[test]
    fn a_place_that_is_no_number_is_refused_where_it_is_used() {
        let wheels = [DVec2::NAN, DVec2::ZERO, DVec2::X, DVec2::Y];
        let givens = Givens::new(wheels, DVec2::X, [205.0; 4], vec![], vec![]).unwrap();
        let laid = lay(&[FL, FR, Construction::Middle { first: 0, second: 1 }], &givens);
        assert_eq!(laid, [Err(MarkFault::OutOfReach), Ok(DVec2::ZERO), Err(MarkFault::Missing { mark: 0 })]);
    }

    /// references.md §8: centreline through the axle middles of wheel points FL(2.70, 0.79) FR(2.70, -0.78)
    /// RL(0, 0.775) RR(0.005, -0.77) m: middles (2.7, 0.005) and (0.0025, 0.0025), yaw 0.0531008°.
    #[test]
    fn centreline_of_a_crooked_car() {
        let givens = standing_on([(2700., 790.), (2700., -780.), (0., 775.), (5., -770.)]);
        let plan = [
            FL,
            FR,
            RL,
            RR,
            Construction::Middle { first: 0, second: 1 },
            Construction::Middle { first: 2, second: 3 },
        ];
        let marks: Vec<DVec2> = lay(&plan, &givens).into_iter().map(Result::unwrap).collect();
        assert!(marks[4].distance(DVec2::new(2700.0, 5.0)) < 1e-9);
        assert!(marks[5].distance(DVec2::new(2.5, 2.5)) < 1e-9);
        assert!((angle::degrees(angle::heading(marks[4] - marks[5])) - 0.0531008).abs() < 1e-7);
    }
}
