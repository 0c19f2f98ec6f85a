//! What is claimed of chance, tried by chance: simulated networks and layouts, with fixed seeds. A sample each; full counts by the
//! environment: `BAYWRIGHT_SIMULATED=2000`, `BAYWRIGHT_SEARCHED=200`.

#![allow(clippy::unwrap_used, missing_docs)]

use baywright_geometry::DVec2;
use baywright_geometry::marks::{Construction, Givens, Reach, Wheel};
use baywright_survey::budget::{Budget, Instruments, Sought, Tape};
use baywright_survey::dice::Dice;
use baywright_survey::matrix::Matrix;
use baywright_survey::network::{self, Datum, Mark, Network, Rules, Scale, Taped, Verdict, adjust, judge};
use baywright_survey::next_tape::{Candidate, Known, Next, Stop, Wish};

fn count(name: &str, sample: u64) -> u64 {
    std::env::var(name).ok().and_then(|text| text.parse().ok()).unwrap_or(sample)
}

fn between(dice: &mut Dice, low: f64, high: f64) -> f64 {
    low + (high - low) * dice.uniform()
}

/// Four wheel points, held, and four to eight marks ahead; three of four possible distances, read without an error.
fn network(dice: &mut Dice) -> Network {
    let wheels = [(0., 780.), (0., -780.), (-2600., 780.), (-2600., -780.)].map(DVec2::from);
    let more = 4 + (dice.uniform() * 5.0) as usize;
    let mut marks: Vec<Mark> = wheels.map(|at| Mark { at, is_held: true }).to_vec();
    marks.extend((0..more).map(|_| Mark {
        at: DVec2::new(between(dice, 300.0, 4500.0), between(dice, -1600.0, 1600.0)),
        is_held: false,
    }));
    let mut taped = Vec::new();
    for from in 0..marks.len() {
        for to in (from + 1).max(4)..marks.len() {
            if dice.uniform() < 0.75 {
                let read_mm = marks[from].at.distance(marks[to].at);
                taped.push(Taped { from, to, read_mm, u_mm: between(dice, 0.8, 1.8), tape: 0 });
            }
        }
    }
    Network { marks, taped, tapes: vec![Scale::True], datum: Datum::Held }
}

/// Over many networks a blunder of the least size that is to be found in 80 % of them is found in 80 ± 3 %, and a good network is
/// called bad in no more than the chance says of all its readings.
#[test]
fn a_blunder_of_the_least_size_is_found_in_four_of_five() {
    let runs = count("BAYWRIGHT_SIMULATED", 2000);
    let (mut found, mut named, mut open, mut false_alarms, mut readings) =
        (0_u64, 0_u64, 0_u64, 0_u64, 0_u64);
    let (mut misread_alone, mut misread_wrongly, mut misread_open) = (0_u64, 0_u64, 0_u64);
    let (mut left_out, mut misread_lost) = (0_u64, 0_u64);
    let mut dice = Dice::of(20, 26);
    let mut done = 0;
    while done < runs {
        let mut own = network(&mut dice);
        let Ok(exact) = adjust(&own) else { continue };
        let wrong = (dice.uniform() * own.taped.len() as f64) as usize;
        if exact.residuals[wrong].redundancy < 0.1 {
            continue;
        }
        let least = judge(&exact, &Rules::default()).found_from_mm[wrong].unwrap();
        for taped in &mut own.taped {
            taped.read_mm += dice.normal() * taped.u_mm;
        }
        let mut wrongly_read = own.clone();
        wrongly_read.taped[wrong].read_mm += if dice.uniform() < 0.5 { least } else { -least };
        let (Ok(good), Ok(bad)) = (adjust(&own), adjust(&wrongly_read)) else {
            // Circles that barely meet need not meet any more: the mark lies on the line, and is not determined.
            left_out += 1;
            continue;
        };
        done += 1;
        let good = judge(&good, &Rules::default());
        false_alarms += good.tests.iter().flatten().filter(|w| w.abs() > good.limit).count() as u64;
        readings += good.tests.iter().flatten().count() as u64;
        own = wrongly_read;
        let judged = judge(&bad, &Rules::default());
        found += u64::from(judged.tests[wrong].unwrap().abs() > judged.limit);
        match &judged.verdict {
            Verdict::OneDoesNotFit(doubt) => named += u64::from(doubt.taped == wrong),
            Verdict::CannotTell(doubts) => open += u64::from(doubts.iter().any(|doubt| doubt.taped == wrong)),
            Verdict::Fits | Verdict::Unchecked => {}
        }
        // The same reading misread by 12 mm instead.
        let sign = (own.taped[wrong].read_mm
            - exact.marks[own.taped[wrong].from].distance(exact.marks[own.taped[wrong].to]))
        .signum();
        own.taped[wrong].read_mm += sign * (12.0 - least);
        let Ok(misread) = adjust(&own) else {
            misread_lost += 1;
            continue;
        };
        match judge(&misread, &Rules::default()).verdict {
            Verdict::OneDoesNotFit(doubt) if doubt.taped == wrong => misread_alone += 1,
            Verdict::OneDoesNotFit(_) => misread_wrongly += 1,
            Verdict::CannotTell(doubts) => {
                misread_open += u64::from(doubts.iter().any(|doubt| doubt.taped == wrong))
            }
            Verdict::Fits | Verdict::Unchecked => {}
        }
    }
    let share = |of: u64, all: u64| of as f64 / all as f64;
    println!(
        "{runs} networks ({left_out} more left out, and {misread_lost} of those misread): found {:.3}, named alone \
         {:.3}, among some {:.3}, good readings called bad {:.5}",
        share(found, runs),
        share(named, runs),
        share(open, runs),
        share(false_alarms, readings)
    );
    println!(
        "misread by 12 mm: named alone {:.3}, among some {:.3}, another named alone {:.4}",
        share(misread_alone, runs),
        share(misread_open, runs),
        share(misread_wrongly, runs)
    );
    assert!(left_out + misread_lost < runs / 100, "{left_out} {misread_lost}");
    assert!(share(misread_alone + misread_open, runs) > 0.9 && share(misread_wrongly, runs) < 0.01);
    assert!((share(found, runs) - 0.80).abs() < 0.03, "{}", share(found, runs));
    // Whoever is named alone is it, or it is among those that are told.
    assert!(share(named + open, runs) > 0.77, "{}", share(named + open, runs));
    assert!(share(false_alarms, readings) < 0.002, "{}", share(false_alarms, readings));
}

/// A saloon, its wheel points, both lines ahead, their middle; a shop's instruments. All drawn anew.
fn plan(dice: &mut Dice) -> (Vec<Construction>, Givens, Instruments) {
    let (half, base) = (between(dice, 740.0, 800.0), between(dice, 2450.0, 2850.0));
    let wheels = [(0., half), (0., -half), (-base, half), (-base, -half)].map(DVec2::from);
    let givens = Givens::new(wheels, DVec2::X, [205.0; 4], vec![], vec![]).unwrap();
    let length = between(dice, 2500.0, 4500.0);
    let mut plan: Vec<Construction> =
        Wheel::ALL.map(|wheel| Construction::Outboard { wheel, distance: 150.0 }).to_vec();
    let ahead = |from, through, length| Construction::Prolong { from, through, reach: Reach::Length(length) };
    plan.extend([
        ahead(2, 0, length),
        ahead(3, 1, length),
        Construction::Middle { first: 4, second: 5 },
        ahead(2, 0, 0.5 * length),
        ahead(3, 1, 0.5 * length),
    ]);
    let shop = Instruments {
        tape: Tape {
            read_mm: between(dice, 0.3, 0.8),
            per_metre_mm: 0.1,
            scale: between(dice, 0.0, 3e-4),
            within_k: 10.0,
            per_k: 11.5e-6,
        },
        laser_mm_per_m: between(dice, 0.1, 0.4),
        line_mm: between(dice, 0.2, 0.7),
        plumb_mm: 0.5,
        wheel_aside_mm: between(dice, 0.5, 1.5),
        wheel_along_mm: 1.5,
        camber_rad: 0.003,
        hub_height_mm: 310.0,
        square_rad: 0.001,
        angle_rad: 0.003,
    };
    (plan, givens, shop)
}

const PAIRS: [(usize, usize); 8] = [(4, 5), (0, 5), (1, 4), (7, 8), (0, 8), (1, 7), (4, 8), (5, 7)];

/// The stated 95 % interval of the target's bearing holds the truth in 93 to 97 %: as laid by the budget, after four readings
/// of a tape whose scale is off, and by the adjustment of eight distances with wheel points that are not where they were found.
#[test]
fn stated_intervals_hold_the_truth() {
    let runs = count("BAYWRIGHT_SIMULATED", 600);
    let mut dice = Dice::of(95, 1);
    let mut held = [0_u64; 3];
    for _ in 0..runs {
        let (plan, givens, shop) = plan(&mut dice);
        let budget = Budget::of(&plan, &givens, &shop).unwrap();
        let off: Vec<f64> = budget
            .inputs()
            .iter()
            .map(|input| match input.shape {
                baywright_survey::input::Shape::Rectangular => {
                    input.u * 3.0_f64.sqrt() * (2.0 * dice.uniform() - 1.0)
                }
                _ => input.u * dice.normal(),
            })
            .collect();
        let truth = budget.laid(&off);
        let longer: f64 = budget
            .origins()
            .iter()
            .zip(&off)
            .filter(|(origin, _)| origin.is_scale())
            .map(|(_, off)| off)
            .sum();
        let sought = Sought::Bearing { mark: 6, from: DVec2::new(750.0, 120.0) };
        let (true_value, _) = sought.of(&truth).unwrap();
        let mut hit = |way: usize, value: f64, u: f64| {
            held[way] += u64::from((value - true_value).abs() <= 1.959964 * u);
        };
        let laid = budget.outcome(&sought).unwrap();
        hit(0, laid.value, laid.u);
        let read = |dice: &mut Dice, (from, to): (usize, usize), u: f64| {
            truth[from].distance(truth[to]) * (1.0 - longer) + dice.normal() * u
        };
        let mut known = Known::as_laid(&budget);
        for (from, to) in &PAIRS[..4] {
            let u_mm = shop.tape.of(3000.0);
            let candidate = Candidate { from: *from, to: *to, u_mm, tape: 0 };
            let read = read(&mut dice, (*from, *to), u_mm);
            known = known.once_read(&candidate, read).unwrap();
        }
        let (value, u) = known.value(&sought).unwrap();
        hit(1, value, u);
        // Held: the four spots at the tyres, where the plan has them, though they are not quite there.
        let marks = budget.places().iter().enumerate().map(|(mark, at)| Mark { at: *at, is_held: mark < 4 });
        let every = PAIRS.into_iter().chain([
            (0, 4),
            (1, 5),
            (2, 4),
            (3, 5),
            (4, 6),
            (5, 6),
            (0, 6),
            (1, 6),
            (0, 7),
            (1, 8),
        ]);
        let taped = every.map(|(from, to)| Taped {
            from,
            to,
            read_mm: read(&mut dice, (from, to), shop.tape.of(3000.0)),
            u_mm: shop.tape.of(3000.0),
            tape: 0,
        });
        let network = Network {
            marks: marks.collect(),
            taped: taped.collect(),
            tapes: vec![Scale::Common(shop.tape.common())],
            datum: Datum::Held,
        };
        let adjusted = adjust(&network).unwrap();
        let (value, slope) = sought.of(&adjusted.marks).unwrap();
        let size = 2 * adjusted.marks.len();
        let of_held = Matrix::of(size, size, |row, column| {
            if row < 8 && column < 8 { budget.covariance().at(row, column) } else { 0.0 }
        });
        let variance = adjusted.with_held_unsure(&of_held).between(&slope, &slope);
        hit(2, value, variance.sqrt());
    }
    let shares = held.map(|held| held as f64 / runs as f64);
    println!("{runs} layouts: {shares:?} held");
    // With fewer runs chance itself spreads: two of its standard deviations more.
    let more = if runs < 2000 { 0.01 } else { 0.0 };
    assert!(shares.iter().all(|share| (0.93 - more..=0.97 + more).contains(share)), "{shares:?}");
}

/// Marks with what is known of them before any tape: each by itself, and some of it in common.
fn layout(dice: &mut Dice) -> (Known, Vec<Candidate>, Wish) {
    let marks = 5 + (dice.uniform() * 3.0) as usize;
    let places: Vec<DVec2> = (0..marks)
        .map(|_| DVec2::new(between(dice, -500.0, 4500.0), between(dice, -1600.0, 1600.0)))
        .collect();
    let size = 2 * marks + 1;
    // Its own millimetres, and three errors that move all.
    let own = Matrix::diagonal(
        &(0..size).map(|at| if at + 1 == size { 4e-8 } else { between(dice, 0.2, 9.0) }).collect::<Vec<_>>(),
    );
    let common = Matrix::of(3, size, |_, _| 0.0);
    let common = (0..3 * size).fold(common, |mut all, at| {
        let spread = if at % size + 1 == size { 0.0 } else { 1.2 };
        all.set(at / size, at % size, spread * dice.normal());
        all
    });
    let known = Known::of(places.clone(), own.plus(&common.squared())).unwrap();
    let mut candidates = Vec::new();
    for from in 0..marks {
        for to in from + 1..marks {
            // Something stands between some.
            if dice.uniform() < 0.8 && places[from].distance(places[to]) > 300.0 {
                candidates.push(Candidate { from, to, u_mm: between(dice, 0.5, 1.2), tape: 0 });
            }
        }
    }
    let wish = if dice.uniform() < 0.7 {
        Wish::Target(Sought::Bearing { mark: marks - 1, from: DVec2::new(-1500.0, 0.0) })
    } else {
        Wish::Mark(marks - 1)
    };
    (known, candidates, wish)
}

/// The least uncertainty that any set of so many distances leaves.
fn best(known: &Known, candidates: &[Candidate], wish: &Wish, left: usize) -> f64 {
    if left == 0 {
        return known.u(wish).unwrap();
    }
    let each = candidates.iter().enumerate().filter_map(|(at, candidate)| {
        Some(best(&known.once_taped(candidate)?, &candidates[at + 1..], wish, left - 1))
    });
    each.fold(known.u(wish).unwrap(), f64::min)
}

/// A mark plan as it is laid, its budget, and fourteen of the distances that can be taped.
fn laid_plan(dice: &mut Dice) -> (Known, Vec<Candidate>, Wish) {
    let (plan, givens, shop) = plan(dice);
    let budget = Budget::of(&plan, &givens, &shop).unwrap();
    let places = budget.places();
    let mut candidates = Vec::new();
    for from in 0..places.len() {
        for to in from + 1..places.len() {
            let length = places[from].distance(places[to]);
            if length > 300.0 {
                candidates.push(Candidate { from, to, u_mm: shop.tape.of(length), tape: 0 });
            }
        }
    }
    while candidates.len() > 14 {
        candidates.swap_remove((dice.uniform() * candidates.len() as f64) as usize);
    }
    let wish = if dice.uniform() < 0.7 {
        Wish::Target(Sought::Bearing { mark: 6, from: DVec2::new(750.0, 120.0) })
    } else {
        Wish::Mark(4 + (dice.uniform() * 5.0) as usize)
    };
    (Known::as_laid(&budget), candidates, wish)
}

/// How the uncertainties after two, three and four distances that were proposed compare to what the best set of as many leaves,
/// found by exhaustive search; layout by layout the worst.
fn losses(seed: u64, layout: impl Fn(&mut Dice) -> (Known, Vec<Candidate>, Wish)) -> Vec<f64> {
    let mut dice = Dice::of(seed, 2026);
    let stop = Stop { at_u: 0.0, least_share: 0.0, ..Stop::default() };
    let one = |_| {
        let (known, mut candidates, wish) = layout(&mut dice);
        // Exhaustive search of four grows with the fourth power.
        candidates.truncate(14);
        let (mut now, mut worst) = (known.clone(), 1.0_f64);
        for taped in 1..=4_usize {
            if let Next::Tape { candidate, u_then, .. } = now.next(&candidates, &wish, &stop) {
                now = now.once_taped(&candidates[candidate]).unwrap();
                assert!((now.u(&wish).unwrap() - u_then).abs() < 1e-6 * u_then.max(1e-6));
            }
            if taped >= 2 {
                worst = worst.max(now.u(&wish).unwrap() / best(&known, &candidates, &wish, taped));
            }
        }
        worst
    };
    (0..count("BAYWRIGHT_SEARCHED", 12)).map(one).collect()
}

/// Of mark plans as they are laid the uncertainty after two, three and four proposed distances is within 5 % of what the best set
/// of as many leaves, in each.
#[test]
fn the_next_tape_is_nearly_the_best() {
    let losses = losses(4, laid_plan);
    let worst = losses.iter().copied().fold(1.0, f64::max);
    println!("{} mark plans: worst loss {worst:.4}", losses.len());
    assert!(worst <= 1.05, "{worst}");
}

/// The same of marks strewn at random, with errors at random: the best three need not be among the best four, and in 6 of 100 such
/// layouts no order of taping is within 5 % (by exhaustive search over all orders; the worst of 200 was 13 %).
#[test]
fn the_next_tape_of_marks_at_random() {
    let losses = losses(5, layout);
    let within = losses.iter().filter(|loss| **loss <= 1.05).count() as f64 / losses.len() as f64;
    let worst = losses.iter().copied().fold(1.0, f64::max);
    println!("{} layouts at random: within 5 % {within:.3}, worst loss {worst:.4}", losses.len());
    assert!(within >= 0.9 && worst <= 1.2, "{within} {worst}");
}

/// Stopping: as sure as asked; nothing helps; nothing there.
#[test]
fn it_says_when_it_is_enough() {
    let mut dice = Dice::of(9, 9);
    let (known, candidates, wish) = layout(&mut dice);
    let now = known.u(&wish).unwrap();
    let ask = |at_u: f64, least_share: f64, of: &[Candidate]| {
        known.next(of, &wish, &Stop { at_u, least_share, ..Stop::default() })
    };
    assert_eq!(ask(now, 0.0, &candidates), Next::Enough);
    assert_eq!(ask(0.0, 0.9999, &candidates), Next::NothingHelps);
    assert_eq!(ask(0.0, 0.0, &[]), Next::NothingHelps);
    assert!(matches!(ask(0.9 * now, 0.01, &candidates), Next::Tape { .. }));
    let bad = Candidate { from: 0, to: 0, u_mm: 1.0, tape: 0 };
    assert_eq!((known.expects(&bad), known.once_taped(&bad)), (None, None));
    assert_eq!(known.once_read(&candidates[0], f64::NAN), None);
    assert_eq!(known.u(&Wish::Mark(99)), None);
}

/// The first distances that a technician tapes are proposed first: between the two ends of the front line and the rear one, and the
/// diagonals of the target's own quadrangle, before any from afar.
#[test]
fn a_rectangle_slid_lengthwise_shows_between_its_diagonals() {
    // By hand: 4.0 m by 1.6 m with one long side slid by 5 mm: the diagonals differ by 9.285 mm.
    let slid = |by: f64| DVec2::new(4000.0 + by, 1600.0).length() - DVec2::new(4000.0 - by, 1600.0).length();
    assert!((slid(5.0) - 9.285).abs() < 5e-4);
    let corners = [(0., 0.), (4000., 0.), (4000., 1600.), (0., 1600.)].map(DVec2::from);
    let mut covariance = Matrix::diagonal(&[1e-6, 1e-6, 1e-6, 1e-6, 1e-6, 1e-6, 1e-6, 1e-6, 0.0]);
    // Both corners of one long side go lengthwise together, by 5 mm or so.
    for (row, column) in [(4, 4), (4, 6), (6, 4), (6, 6)] {
        covariance.set(row, column, 25.0 + if row == column { 1e-6 } else { 0.0 });
    }
    let known = Known::of(corners.to_vec(), covariance).unwrap();
    let candidates: Vec<Candidate> = (0..4)
        .flat_map(|from| (from + 1..4).map(move |to| Candidate { from, to, u_mm: 0.5, tape: 0 }))
        .collect();
    match known.next(&candidates, &Wish::Mark(2), &Stop::default()) {
        Next::Tape { candidate, expected, .. } => {
            let Candidate { from, to, .. } = candidates[candidate];
            assert!([(0, 2), (1, 3)].contains(&(from, to)), "a diagonal: {from}-{to}");
            let share: f64 = 4000.0 / libm::hypot(4000.0, 1600.0);
            assert!((expected.u_mm - libm::hypot(5.0 * share, 0.5)).abs() < 1e-3);
            assert!((expected.read_mm - libm::hypot(4000.0, 1600.0)).abs() < 1e-9);
        }
        other => panic!("{other:?}"),
    }
}

/// Degenerate networks have their reasons; nothing is too awkward.
#[test]
fn what_is_not_determined_is_named() {
    let mark = |x: f64, y: f64, is_held| Mark { at: DVec2::new(x, y), is_held };
    let taped = |from, to, read_mm| Taped { from, to, read_mm, u_mm: 1.0, tape: 0 };
    let base = Network {
        marks: vec![
            mark(0.0, 0.0, true),
            mark(2000.0, 0.0, true),
            mark(1000.0, 1500.0, false),
            mark(1000.0, 0.0, false),
            mark(3000.0, 3000.0, false),
        ],
        taped: vec![
            taped(0, 2, 1802.8),
            taped(1, 2, 1802.8),
            taped(0, 3, 1000.0),
            taped(1, 3, 1000.0),
            taped(2, 4, 2500.0),
        ],
        tapes: vec![Scale::True],
        datum: Datum::Held,
    };
    let fault = |network: &Network| adjust(network).err();
    let open = |marks: &[usize], tapes: &[usize]| {
        Some(network::NetworkFault::NotDetermined { marks: marks.to_vec(), tapes: tapes.to_vec() })
    };
    // One lies on the line between those that hold it, another has one distance only.
    assert_eq!(fault(&base), open(&[3, 4], &[]));
    let mut none = base.clone();
    none.taped.retain(|taped| taped.to != 3);
    none.taped.push(taped(0, 4, 4242.0));
    assert_eq!(fault(&none), open(&[3], &[]));
    let mut sought = none.clone();
    sought.marks.remove(3);
    sought.taped = vec![taped(0, 2, 1802.8), taped(1, 2, 1802.8)];
    sought.marks.truncate(3);
    assert_eq!(fault(&sought), None);
    // Two distances and nothing more: nothing is checked.
    let found = adjust(&sought).unwrap();
    assert_eq!((found.freedom, judge(&found, &Rules::default()).verdict), (0, Verdict::Unchecked));
    assert!(found.residuals.iter().all(|residual| residual.w.is_none()));
    // A scale of which nothing is known, and no distance between marks that are held.
    sought.tapes = vec![Scale::Sought { u: f64::INFINITY }];
    assert_eq!(fault(&sought), open(&[2], &[0]));
    sought.tapes = vec![Scale::Sought { u: 1e-4 }];
    assert_eq!(fault(&sought), None);
    sought.datum = Datum::Inner;
    sought.tapes = vec![Scale::True];
    assert!(matches!(fault(&sought), Some(network::NetworkFault::NotDetermined { .. })));
    for spoil in [
        |n: &mut Network| n.taped[0].read_mm = f64::NAN,
        |n: &mut Network| n.taped[0].read_mm = 0.0,
        |n: &mut Network| n.taped[0].u_mm = 0.0,
        |n: &mut Network| n.marks[4].at.x = f64::INFINITY,
        |n: &mut Network| n.tapes[0] = Scale::Common(-1.0),
    ] {
        let mut bad = base.clone();
        spoil(&mut bad);
        assert_eq!(fault(&bad), Some(network::NetworkFault::NoFigure));
    }
    let mut bad = base.clone();
    bad.taped[1].to = 9;
    assert_eq!(fault(&bad), Some(network::NetworkFault::NoSuch { taped: Some(1) }));
    bad.taped[1] = taped(2, 2, 5.0);
    assert_eq!(fault(&bad), Some(network::NetworkFault::NoSuch { taped: Some(1) }));
    bad.taped[1] = taped(0, 1, 2000.0);
    bad.marks[2].at = DVec2::ZERO;
    assert_eq!(fault(&bad), Some(network::NetworkFault::OnePlace { taped: 0 }));
    bad.datum = Datum::Minimal { at: 0, towards: 0 };
    assert_eq!(fault(&bad), Some(network::NetworkFault::NoSuch { taped: None }));
    bad.marks = vec![mark(0.0, 0.0, true); 101];
    assert_eq!(fault(&bad), Some(network::NetworkFault::TooMany));
}

/// Whatever holds a free network, its shape, its residuals and its test figures are the same; and a scale that all readings of a
/// tape have in common is the same as one that is sought and known beforehand.
#[test]
fn datums_and_ways_of_a_scale_agree() {
    let mut dice = Dice::of(31, 1);
    for _ in 0..20 {
        let mut free = network(&mut dice);
        free.taped.extend([(0, 1), (0, 2), (1, 3), (2, 3), (0, 3)].map(|(from, to)| Taped {
            from,
            to,
            read_mm: free.marks[from].at.distance(free.marks[to].at),
            u_mm: 1.0,
            tape: 0,
        }));
        for taped in &mut free.taped {
            taped.read_mm += dice.normal() * taped.u_mm;
        }
        free.datum = Datum::Inner;
        let Ok(inner) = adjust(&free) else { continue };
        free.datum = Datum::Minimal { at: 0, towards: 1 };
        let minimal = adjust(&free).unwrap();
        assert_eq!(minimal.marks[0], free.marks[0].at);
        assert!(minimal.marks[1].y.abs() > 0.0 && (minimal.marks[1].x - free.marks[1].at.x).abs() < 1e-9);
        let trace = |of: &Matrix| (0..of.rows()).map(|at| of.at(at, at)).sum::<f64>();
        assert!(trace(&inner.covariance) < trace(&minimal.covariance), "inner constraints leave the least");
        assert_eq!(inner.freedom, minimal.freedom);
        for (a, b) in inner.residuals.iter().zip(&minimal.residuals) {
            assert!(
                (a.residual_mm - b.residual_mm).abs() < 1e-6 && (a.redundancy - b.redundancy).abs() < 1e-7
            );
        }
        free.datum = Datum::Held;
        free.taped.retain(|taped| taped.to >= 4);
        free.tapes = vec![Scale::Common(3e-4)];
        let Ok(common) = adjust(&free) else { continue };
        free.tapes = vec![Scale::Sought { u: 3e-4 }];
        let sought = adjust(&free).unwrap();
        // Read and adjusted distances differ by a millionth of their length: so do the two ways.
        for (mark, (a, b)) in common.marks.iter().zip(&sought.marks).enumerate() {
            let within = 5e-3 + 0.01 * common.ellipse(mark).unwrap().long_mm;
            assert!(a.distance(*b) < within, "{a} {b} {within}");
        }
        let (a, b) = (trace(&common.covariance), trace(&sought.covariance));
        assert!((a / b - 1.0).abs() < 1e-2, "{a} {b}");
        assert_eq!(common.freedom, sought.freedom);
        assert!(sought.scales[0].is_some_and(|(_, u)| u < 3e-4) && common.scales == [None]);
    }
}
