//! The examples of JCGM 100 (annex H, G.4.1) and of JCGM 101 (clause 9), as published and as worked out unrounded by other
//! libraries.

use baywright_survey::chances::t_beyond;
use baywright_survey::input::{Correlation, Input, Shape};
use baywright_survey::monte_carlo::{BLOCK, Drawn, Enough, Gathered, Sampler, SamplerFault, adaptive};
use baywright_survey::propagate::{outcome, propagate, propagate_all, second_order};

use crate::near;

/// The end gauge: l = l_s + d − l_s·(δα·θ + α_s·δθ), nm and K.
fn end_gauge(x: &[f64]) -> f64 {
    let [l_s, d, d_alpha, theta, alpha_s, d_theta] = *x else { return f64::NAN };
    l_s + d - l_s * (d_alpha * theta + alpha_s * d_theta)
}

/// H.1: 50.000 838 mm; 25, 9.7, 2.9, 16.6 nm; u 32 nm; 16 degrees of freedom; U99 = 92.483 nm unrounded, 93 published; with the
/// second order 34 nm.
#[test]
fn gum_h1_the_end_gauge() {
    let l_s = Input { freedom: 18.0, ..Input::normal(50_000_623.0, 25.0) };
    let parts = [(5.8_f64, 24.0), (3.9, 5.0), (6.7, 8.0)];
    let u_d = parts.iter().map(|(u, _)| u * u).sum::<f64>().sqrt();
    let freedom_d = u_d.powi(4) / parts.iter().map(|(u, freedom)| u.powi(4) / freedom).sum::<f64>();
    near(u_d, 9.6819, 1e-4, "u(d)");
    near(freedom_d, 25.447, 1e-3, "ν(d), 25.6 published");
    let swing = Input::arc_sine(0.0, 0.5).u;
    let inputs = [
        l_s,
        Input { freedom: freedom_d, ..Input::normal(215.0, u_d) },
        Input { freedom: 50.0, ..Input::rectangular(0.0, 1e-6) },
        Input::normal(-0.1, libm::hypot(0.2, swing)),
        Input::rectangular(11.5e-6, 2e-6),
        Input { freedom: 2.0, ..Input::rectangular(0.0, 0.05) },
    ];
    let found = propagate(end_gauge, &inputs, &[]).unwrap();
    near(found.value, 50_000_838.0, 0.5, "l");
    for (part, expected) in [(0, 25.0), (1, 9.6819), (2, 2.8868), (5, 16.5990)] {
        near(found.parts[part].u.abs(), expected, 2e-3, "part");
    }
    near(found.u, 31.6639, 1e-3, "u");
    near(found.freedom, 16.7519, 1e-3, "ν");
    near(found.within(0.01), 92.483, 5e-3, "U99");
    near(found.parts.iter().map(|part| part.share).sum(), 1.0, 1e-12, "shares");
    let second = second_order(end_gauge, &inputs).unwrap();
    near(second.sqrt(), libm::hypot(11.726, 1.667), 0.02, "second order");
    near((found.u.powi(2) + second).sqrt(), 33.8065, 0.01, "u with it");
}

const H2: [[f64; 3]; 5] = [
    [5.007, 19.663, 1.0456],
    [4.994, 19.639, 1.0438],
    [5.005, 19.640, 1.0468],
    [4.990, 19.685, 1.0428],
    [4.999, 19.678, 1.0433],
];

/// H.2: resistance, reactance, impedance from V, I, φ read together five times.
#[test]
fn gum_h2_three_outcomes_that_go_together() {
    let count = H2.len() as f64;
    let mean = |at: usize| H2.iter().map(|row| row[at]).sum::<f64>() / count;
    let covariance = |a: usize, b: usize| {
        H2.iter().map(|row| (row[a] - mean(a)) * (row[b] - mean(b))).sum::<f64>() / (count * (count - 1.0))
    };
    let u = |at: usize| covariance(at, at).sqrt();
    let r = |first: usize, second: usize| Correlation {
        first,
        second,
        r: covariance(first, second) / u(first) / u(second),
    };
    let inputs = [0, 1, 2].map(|at| Input::normal(mean(at), u(at)));
    let together = [r(0, 1), r(0, 2), r(1, 2)];
    for (found, expected) in together.iter().zip([-0.35531, 0.85762, -0.64511]) {
        near(found.r, expected, 1e-5, "r");
    }
    let model = |x: &[f64]| {
        let [v, i, phi] = *x else { return vec![f64::NAN] };
        let z = v / (i * 1e-3);
        vec![z * libm::cos(phi), z * libm::sin(phi), z]
    };
    let found = propagate_all(model, &inputs, &together).unwrap();
    let expected = [(127.732170, 0.071071), (219.846512, 0.295582), (254.259702, 0.236336)];
    for (at, (value, u)) in expected.into_iter().enumerate() {
        near(found.values[at], value, 1e-6, "value");
        near(found.covariance.at(at, at).sqrt(), u, 1e-6, "u");
    }
    for (a, b, expected) in [(0, 1, -0.58843), (0, 2, -0.48526), (1, 2, 0.99251)] {
        let both = (found.covariance.at(a, a) * found.covariance.at(b, b)).sqrt();
        near(found.covariance.at(a, b) / both, expected, 1e-5, "r");
    }
}

/// H.3: only u(y₂) = 0.00067 gives the published 0.0041; 0.000067, as misprinted in places, gives 0.0028.
#[test]
fn gum_h3_and_its_misprint() {
    let of = |u2: f64| {
        let inputs = [Input::normal(-0.1712, 0.0029), Input::normal(0.00218, u2)];
        let together = [Correlation { first: 0, second: 1, r: -0.930 }];
        propagate(|x| x[0] + x[1] * 10.0, &inputs, &together).unwrap()
    };
    near(of(0.00067).value, -0.1494, 1e-12, "b");
    near(of(0.00067).u, 0.004142487175598737, 1e-12, "u");
    assert!(of(0.000067).u < 0.003);
}

/// G.4.1: 0.25, 0.57, 0.82 % with 9, 4, 14 degrees of freedom: 1.03 %, 19.0. Table G.2: t95(16) = 2.12, t99(16) = 2.92.
#[test]
fn gum_g41_degrees_of_freedom() {
    let inputs = [(0.25, 9.0), (0.57, 4.0), (0.82, 14.0)]
        .map(|(u, freedom)| Input { freedom, ..Input::normal(0.0, u) });
    let found = outcome(0.0, &[1.0; 3], &inputs, &[]);
    near(found.u, 1.0294658809304948, 1e-12, "u");
    near(found.freedom, 18.998742314267954, 1e-9, "ν");
    let two = [Input { freedom: 9.0, ..Input::normal(0.0, 0.57) }, Input::normal(0.0, 0.25)];
    near(outcome(0.0, &[1.0; 2], &two, &[]).freedom, 12.79565, 1e-5, "ν");
    near(t_beyond(0.05, 16.0), 2.12, 0.005, "t95");
    near(t_beyond(0.0455, 16.0), 2.17, 0.005, "t95.45");
    near(t_beyond(0.01, 16.0), 2.92, 0.005, "t99");
    // The four divisors of 4.3.7 and 4.3.9, and H.1.3.4.
    near(Input::rectangular(0.0, 3.0_f64.sqrt()).u, 1.0, 1e-15, "rectangular");
    near(Input::triangular(0.0, 6.0_f64.sqrt()).u, 1.0, 1e-15, "triangular");
    near(Input::arc_sine(0.0, 2.0_f64.sqrt()).u, 1.0, 1e-15, "arc sine");
}

/// NIST Handbook 44, 5.52, tolerances of metal tapes by the interval from zero, in inches and mm, and what any value alike makes of each.
#[test]
fn tolerances_of_metal_tapes() {
    const INCH_MM: f64 = 25.4;
    let rows = [
        (1.0 / 32.0, 0.7937, 0.4583),
        (1.0 / 16.0, 1.5875, 0.9165),
        (1.0 / 8.0, 3.1750, 1.8331),
        (3.0 / 16.0, 4.7625, 2.7496),
        (1.0 / 4.0, 6.3500, 3.6662),
    ];
    for (inches, mm, u) in rows {
        near(inches * INCH_MM, mm, 5.1e-5, "mm");
        near(Input::rectangular(0.0, inches * INCH_MM).u, u, 5.1e-5, "u");
    }
}

/// So many blocks in `cargo test`; more by the environment.
fn blocks() -> u64 {
    std::env::var("BAYWRIGHT_BLOCKS").ok().and_then(|text| text.parse().ok()).unwrap_or(100)
}

fn drawn(inputs: &[Input], together: &[Correlation], coverage: f64, model: impl Fn(&[f64]) -> f64) -> Drawn {
    let sampler = Sampler::of(inputs, together).unwrap();
    let mut gathered = Gathered::new(Enough { coverage, ..Enough::default() });
    (0..blocks()).for_each(|nth| gathered.take(sampler.block(101, nth, &mut &model)));
    gathered.finish().unwrap()
}

fn sum(x: &[f64]) -> f64 {
    x.iter().sum()
}

/// 9.2.2 to 9.2.4: sums of four. Exact ends: ±3.919928, Irwin-Hall ±3.879406, ±17.015814; the linear law says ±19.89 of the last.
#[test]
fn supplement_92_sums() {
    let unit = Input::rectangular(0.0, 3.0_f64.sqrt());
    let wide = Input::rectangular(0.0, 10.0 * 3.0_f64.sqrt());
    for (inputs, u, end, within) in [
        ([Input::normal(0.0, 1.0); 4], 2.0, 3.919928, 0.02),
        ([unit; 4], 2.0, 3.87940674, 0.02),
        ([unit, unit, unit, wide], 10.148892, 17.015814, 0.04),
    ] {
        let found = drawn(&inputs, &[], 0.95, sum);
        near(found.mean, 0.0, 0.005 * u, "mean");
        near(found.u, u, 0.003 * u, "u");
        near(found.low, -end, within, "low");
        near(found.high, end, within, "high");
        assert_eq!((found.draws as u64, found.lost), (blocks() * BLOCK as u64, 0));
    }
}

/// 9.3, mass: published 1.2341, 0.0754, [1.0834, 1.3825] mg; exact mean 1.2340, u 0.0754797, symmetric [1.0844, 1.3836]. The linear
/// law says 0.0539, with its second order 0.0750.
#[test]
fn supplement_93_mass() {
    let inputs = [
        Input::normal(100_000.0, 0.050),
        Input::normal(1.234, 0.020),
        Input::rectangular(1.20, 0.10),
        Input::rectangular(8000.0, 1000.0),
        Input::rectangular(8000.0, 50.0),
    ];
    let model = |x: &[f64]| {
        let [m, dm, air, w, r] = *x else { return f64::NAN };
        (m + dm) * (1.0 + (air - 1.2) * (1.0 / w - 1.0 / r)) - 100_000.0
    };
    let linear = propagate(model, &inputs, &[]).unwrap();
    near(linear.u, 0.0538516, 1e-6, "linear");
    near((linear.u.powi(2) + second_order(model, &inputs).unwrap()).sqrt(), 0.0749635, 3e-4, "second order");
    let found = drawn(&inputs, &[], 0.95, model);
    near(found.mean, 1.2340, 4e-4, "mean");
    near(found.u, 0.0754797, 2e-4, "u");
    near(found.low, 1.0844, 0.0015, "low");
    near(found.high, 1.3836, 0.0015, "high");
    near(found.shortest.1 - found.shortest.0, 1.3834 - 1.0842, 0.0015, "shortest");
}

/// 9.4, comparison loss, in millionths: exact means and deviations; upper ends as drawn 10⁷ times by numpy; the end for nothing is
/// −50·ln 0.05 = 149.787.
#[test]
fn supplement_94_comparison_loss() {
    for (x1, r, mean, u, (low, high)) in [
        (0.0, 0.0, 50.0, 50.0, (0.0, 149.787)),
        (0.01, 0.0, 150.0, 111.803, (0.0, 366.0)),
        (0.05, 0.0, 2550.0, 502.494, (1592.1, 3546.6)),
        (0.0, 0.9, 50.0, 67.268, (0.0, 185.0)),
        (0.01, 0.9, 150.0, 120.520, (12.9, 397.8)),
        (0.05, 0.9, 2550.0, 504.505, (1626.8, 3556.0)),
    ] {
        let inputs = [Input::normal(x1, 0.005), Input::normal(0.0, 0.005)];
        let together = [Correlation { first: 0, second: 1, r }];
        let together = if r == 0.0 { &[][..] } else { &together[..] };
        let found = drawn(&inputs, together, 0.95, |x| 1e6 * (x[0] * x[0] + x[1] * x[1]));
        near(found.mean, mean, 0.004 * u, "mean");
        near(found.u, u, 0.01 * u, "u");
        // The shortest interval is sought on a flat: its ends wander.
        near(found.shortest.0, low, 0.04 * u, "low");
        near(found.shortest.1, high, 0.04 * u, "high");
    }
}

/// 9.5, gauge block, 99 %: published 838, 36, [745, 932] nm; numpy 837.999, 35.793, symmetric 744.4 to 931.5. With t, arc sine and
/// rectangles whose own limits are unsure.
#[test]
fn supplement_95_gauge_block() {
    let t = Input::t;
    let unit = Input::rectangular(0.0, 1.0);
    let inputs = [
        t(50_000_623.0, 25.0, 18.0),
        t(215.0, 5.8, 24.0),
        t(0.0, 3.9, 5.0),
        t(0.0, 6.7, 8.0),
        Input::rectangular(11.5e-6, 2e-6),
        Input::normal(-0.1, 0.2),
        Input::arc_sine(0.0, 0.5),
        unit,
        unit,
        unit,
        unit,
    ];
    let found = drawn(&inputs, &[], 0.99, |x| {
        let [l_s, d, d1, d2, alpha_s, theta, swing, a, b, c, e] = *x else { return f64::NAN };
        let d_alpha = (1e-6 + 0.1e-6 * a) * b;
        let d_theta = (0.05 + 0.025 * c) * e;
        // Nominal 50 mm: what is told is the deviation from it.
        let l_s_off = l_s - 50_000_000.0;
        l_s_off + d + d1 + d2 - l_s * (d_alpha * (theta + swing) + alpha_s * d_theta)
    });
    near(found.mean, 838.0, 0.15, "mean");
    near(found.u, 35.793, 0.25, "u");
    near(found.low, 744.4, 0.8, "low");
    near(found.high, 931.5, 0.8, "high");
}

/// A logarithm over a wide rectangle (NPL, DEM-ES-011, 9.2): the linear law says −0.511 and 0.481; exact mean −0.664900, shortest
/// interval ln 0.15 to ln 1.1.
#[test]
fn where_the_linear_law_is_not_enough() {
    let input = [Input::rectangular(0.6, 0.5)];
    let linear =
        propagate(|x| libm::log(x[0]), &[Input { u: 0.5 / 3.0_f64.sqrt(), ..input[0] }], &[]).unwrap();
    near(linear.value, -0.511, 1e-3, "linear");
    near(linear.u, 0.481, 0.02, "linear u, by differences");
    let found = drawn(&input, &[], 0.95, |x| libm::log(x[0]));
    near(found.mean, -0.664900, 0.003, "mean");
    near(found.u, 0.606, 0.003, "u");
    near(found.shortest.0, libm::log(0.15), 0.02, "low");
    near(found.shortest.1, libm::log(1.1), 0.002, "high");
}

/// Adaptive (7.9.4): steady to two figures, in more blocks if more figures are asked; the same each time, and whoever works the
/// blocks out.
#[test]
fn adaptive_repeatable_and_the_same_by_any_number_of_hands() {
    let inputs = [Input::normal(0.0, 1.0), Input::rectangular(0.0, 2.0), Input::triangular(1.0, 1.0)];
    let together = [];
    let sampler = Sampler::of(&inputs, &together).unwrap();
    let run = |seed, digits| {
        adaptive(&sampler, sum, seed, &Enough { digits, ..Enough::default() }, || true).unwrap()
    };
    let (one, two) = (run(5, 1), run(5, 3));
    assert!(one.is_settled && two.is_settled && one.draws < two.draws, "{one:?} {two:?}");
    assert_eq!(two, run(5, 3));
    assert_ne!(two.mean, run(6, 3).mean);
    for hands in [1_u64, 2, 5] {
        let shared: Vec<Vec<Vec<f64>>> = std::thread::scope(|scope| {
            let hand = |own: u64| {
                let sampler = &sampler;
                move || {
                    (0..400)
                        .filter(|nth| nth % hands == own)
                        .map(|nth| sampler.block(5, nth, &mut sum))
                        .collect()
                }
            };
            let all: Vec<_> = (0..hands).map(|own| scope.spawn(hand(own))).collect();
            all.into_iter().map(|one| one.join().unwrap()).collect()
        });
        let mut gathered = Gathered::new(Enough { digits: 3, ..Enough::default() });
        for nth in 0..400_usize {
            if gathered.is_settled() {
                break;
            }
            gathered.take(shared[nth % hands as usize][nth / hands as usize].clone());
        }
        assert_eq!(gathered.finish().unwrap(), two, "{hands}");
    }
}

#[test]
fn what_cannot_be_drawn_says_why() {
    let normal = Input::normal(0.0, 1.0);
    let together = |r| Correlation { first: 0, second: 1, r };
    let of = |inputs: &[Input], together: &[Correlation]| Sampler::of(inputs, together).err();
    assert_eq!(of(&[normal; 2], &[together(1.0)]), None, "wholly together");
    assert_eq!(of(&[normal; 2], &[together(1.1)]), Some(SamplerFault::NotSound));
    assert_eq!(of(&[normal], &[together(0.5)]), Some(SamplerFault::NotSound));
    assert_eq!(of(&[Input::normal(f64::NAN, 1.0)], &[]), Some(SamplerFault::NotSound));
    let flat = Input { shape: Shape::Rectangular, ..normal };
    assert_eq!(of(&[normal, flat], &[together(0.5)]), Some(SamplerFault::NotNormal));
    let three =
        [(0, 1, 0.9), (1, 2, 0.9), (0, 2, -0.9)].map(|(first, second, r)| Correlation { first, second, r });
    assert_eq!(of(&[normal; 3], &three), Some(SamplerFault::Contradicting));
    let sampler = Sampler::of(&[], &[]).unwrap();
    let nothing = adaptive(&sampler, |_: &[f64]| 1.0, 1, &Enough::default(), || true).unwrap();
    assert_eq!(
        (nothing.mean, nothing.u, nothing.low, nothing.high, nothing.is_settled),
        (1.0, 0.0, 1.0, 1.0, true)
    );
    assert_eq!(adaptive(&sampler, |_: &[f64]| f64::NAN, 1, &Enough::default(), || true), None);
    assert_eq!(adaptive(&sampler, |_: &[f64]| 1.0, 1, &Enough::default(), || false), None);
    let half = Sampler::of(&[normal], &[]).unwrap();
    let lost = adaptive(&half, |x: &[f64]| libm::sqrt(x[0]), 1, &Enough::default(), || true).unwrap();
    near(lost.lost as f64 / (lost.lost + lost.draws) as f64, 0.5, 0.02, "lost");
    assert_eq!(propagate(|x| x[0], &[Input::normal(f64::NAN, 1.0)], &[]), None);
    assert_eq!(propagate(|_| f64::NAN, &[normal], &[]), None);
}
