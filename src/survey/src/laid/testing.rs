//! A plan to try things on.

use baywright_geometry::DVec2;
use baywright_geometry::marks::{Construction, Givens, Reach, Wheel};

use super::Read;
use crate::budget::{Budget, Instruments, Tape};
use crate::next_tape::Candidate;

pub const SHOP: Instruments = Instruments {
    tape: Tape { read_mm: 0.5, per_metre_mm: 0.1, scale: 1e-4, within_k: 5.0, per_k: 11.5e-6 },
    laser_mm_per_m: 0.2,
    line_mm: 0.3,
    plumb_mm: 0.7,
    wheel_aside_mm: 0.7,
    wheel_along_mm: 0.7,
    camber_rad: 0.003,
    hub_height_mm: 310.0,
    square_rad: 0.001,
    angle_rad: 0.003,
};

/// Four spots outboard of the tyres, both lines prolonged, the middle of their ends: marks 1 to 7.
pub fn plan() -> Budget {
    let wheels = [(0., 780.), (0., -780.), (-2550., 780.), (-2550., -780.)].map(DVec2::from);
    let givens = Givens::new(wheels, DVec2::X, [205.0; 4], vec![], vec![]).unwrap();
    let spot = |wheel| Construction::Outboard { wheel, distance: 150.0 };
    let ahead = |from, through| Construction::Prolong { from, through, reach: Reach::Length(3600.0) };
    let mut plan: Vec<Construction> =
        [Wheel::ALL[2], Wheel::ALL[3], Wheel::ALL[0], Wheel::ALL[1]].map(spot).to_vec();
    plan.extend([ahead(0, 2), ahead(1, 3), Construction::Middle { first: 4, second: 5 }]);
    Budget::of(&plan, &givens, &SHOP).unwrap()
}

pub const TAPED: [(usize, usize); 12] =
    [(0, 1), (2, 3), (0, 3), (1, 2), (0, 2), (1, 3), (2, 5), (3, 4), (4, 5), (2, 4), (3, 5), (0, 5)];

pub fn read(places: &[DVec2], off: impl Fn(usize) -> f64) -> Vec<Read> {
    let all = TAPED.iter().enumerate();
    all.map(|(nth, (from, to))| {
        let mm = places[*from].distance(places[*to]);
        let of = Candidate { from: *from, to: *to, u_mm: SHOP.tape.of(mm), tape: 0 };
        Read { of, read_mm: (mm + off(nth)).round() }
    })
    .collect()
}
