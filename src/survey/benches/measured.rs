//! A network of 30 distances with all its statistics, as it follows typing (goal 0.15 ms), and a million draws of a mark plan with
//! 20 inputs by one thread, beside which `draws.py` does the same with vectorised numpy (goal: 3 times as fast).

// A bench may stop with a message.
#![allow(clippy::unwrap_used, missing_docs)]

use std::hint::black_box;

use baywright_geometry::DVec2;
use baywright_geometry::marks::{Construction, Givens, Reach, Wheel};
use baywright_survey::budget::{Budget, Instruments, Sought, Tape};
use baywright_survey::dice::Dice;
use baywright_survey::monte_carlo::{Enough, Gathered, Lanes, Model, Sampler};
use baywright_survey::network::{Datum, Mark, Network, Rules, Scale, Taped, adjust, judge};
use baywright_survey::next_tape::{Candidate, Known, Stop, Wish};
use criterion::{Criterion, criterion_group, criterion_main};

/// Four wheels, held, seven marks, thirty distances.
fn network(scale: Scale) -> Network {
    let mut dice = Dice::of(30, 0);
    let wheels = [(0., 780.), (0., -780.), (-2600., 780.), (-2600., -780.)];
    let marks = [
        (0., 1030.),
        (0., -1030.),
        (3600., 1030.),
        (3600., -1030.),
        (3600., 0.),
        (1800., 1030.),
        (1800., -1030.),
    ];
    let marks: Vec<Mark> = wheels
        .into_iter()
        .map(|at| Mark { at: at.into(), is_held: true })
        .chain(marks.into_iter().map(|at| Mark { at: at.into(), is_held: false }))
        .collect();
    let mut taped = Vec::new();
    for from in 0..marks.len() {
        for to in (from + 1).max(4)..marks.len() {
            let read_mm = marks[from].at.distance(marks[to].at) + dice.normal();
            taped.push(Taped { from, to, read_mm, u_mm: 1.0, tape: 0 });
        }
    }
    // Thirty of them, of near and far alike.
    while taped.len() > 30 {
        let out = (dice.uniform() * taped.len() as f64) as usize;
        taped.swap_remove(out);
    }
    Network { marks, taped, tapes: vec![scale], datum: Datum::Held }
}

/// The plan with its instruments: 20 inputs, as in `draws.py`.
fn plan() -> (Budget, Sought) {
    let wheels = [(0., 780.), (0., -780.), (-2550., 780.), (-2550., -780.)].map(DVec2::from);
    let givens = Givens::new(wheels, DVec2::X, [205.0; 4], vec![], vec![]).unwrap();
    let mut plan: Vec<Construction> = Wheel::ALL.map(|wheel| Construction::WheelPoint { wheel }).to_vec();
    let ahead = |from, through| Construction::Prolong { from, through, reach: Reach::Length(3600.0) };
    plan.extend([ahead(2, 0), ahead(3, 1), Construction::Middle { first: 4, second: 5 }]);
    let shop = Instruments {
        tape: Tape { read_mm: 0.5, per_metre_mm: 0.1, scale: 1e-4, within_k: 10.0, per_k: 11.5e-6 },
        laser_mm_per_m: 0.2,
        line_mm: 0.4,
        wheel_aside_mm: 1.0,
        wheel_along_mm: 1.5,
        camber_rad: 0.003,
        ..Instruments::PERFECT
    };
    let budget = Budget::of(&plan, &givens, &shop).unwrap();
    (budget, Sought::Bearing { mark: 6, from: DVec2::new(770.0, 120.0) })
}

struct OfColumns<F>(F);

impl<F: FnMut(&[Lanes], &mut Lanes)> Model for OfColumns<F> {
    fn values(&mut self, inputs: &[Lanes], found: &mut Lanes) {
        (self.0)(inputs, found);
    }
}

fn measured(criterion: &mut Criterion) {
    let (alone, together) = (network(Scale::True), network(Scale::Common(1e-4)));
    assert_eq!(alone.taped.len(), 30);
    for (name, network) in [("30 distances, all statistics", alone), ("the same, a common scale", together)] {
        criterion.bench_function(name, |bench| {
            bench.iter(|| judge(&adjust(black_box(&network)).unwrap(), &Rules::default()));
        });
    }
    let (budget, sought) = plan();
    assert_eq!(budget.inputs().len(), 20);
    let sampler = Sampler::of(budget.inputs(), &[]).unwrap();
    let mut group = criterion.benchmark_group("a plan of 20 inputs");
    group.sample_size(10);
    group.bench_function("a million draws, with mean, deviation, both intervals", |bench| {
        bench.iter(|| {
            let mut gathered = Gathered::new(Enough::default());
            let mut model = budget.drawn(&sought);
            (0..100).for_each(|nth| gathered.take(sampler.block(1, nth, &mut model)));
            gathered.finish().unwrap()
        });
    });
    group.bench_function("a million draws alone", |bench| {
        let mut model = budget.drawn(&sought);
        bench.iter(|| (0..100).map(|nth| sampler.block(1, nth, &mut model).len()).sum::<usize>());
    });
    group.bench_function("a million draws of the inputs alone", |bench| {
        let mut first = |inputs: &[Lanes], found: &mut Lanes| *found = inputs[0];
        bench.iter(|| {
            (0..100).map(|nth| sampler.block(1, nth, &mut OfColumns(&mut first)).len()).sum::<usize>()
        });
    });
    let known = Known::as_laid(&budget);
    let every =
        (0..7).flat_map(|from| (from + 1..7).map(move |to| Candidate { from, to, u_mm: 0.8, tape: 0 }));
    let candidates: Vec<Candidate> = every.collect();
    group.bench_function("the next tape of 21 distances", |bench| {
        bench.iter(|| known.next(black_box(&candidates), &Wish::Target(sought), &Stop::default()));
    });
    group.bench_function("the linear budget of it", |bench| {
        bench.iter(|| plan().0.outcome(&sought).unwrap().u)
    });
    group.finish();
}

criterion_group!(benches, measured);
criterion_main!(benches);
