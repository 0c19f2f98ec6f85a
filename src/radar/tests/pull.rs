//! The pull of an echo against an independent estimator: a simulated chirp received by an array, its range by a windowed Fourier
//! sum, its bearing by phase monopulse and by a beam scan. Nothing of the closed form is in it.
//!
//! Phase monopulse (two halves of an array compared in phase): S. M. Sherman, Monopulse Principles and Techniques; beam scan: M. S.
//! Bartlett's spectrum. Both from memory.

#![allow(clippy::unwrap_used, clippy::panic, missing_docs)]

use std::f64::consts::{PI, TAU};

use baywright_radar::level::Window;
use baywright_radar::pull::{Pull, Unresolved, alone, amplitude, at_phases, together};
use baywright_survey::dice::Dice;

const SAMPLES: usize = 64;
const ANTENNAS: usize = 8;
const LIGHT: f64 = 299_792_458.0;
const BANDWIDTH: f64 = 1e9;
const CARRIER: f64 = 77e9;

/// The width of the array's beam at half power, in sines: 0.886 λ / (N d) with d = λ/2.
const BEAM: f64 = 0.886 * 2.0 / ANTENNAS as f64;

/// A scatterer: distance in m, sine of its bearing, amplitude, and its own phase.
#[derive(Clone, Copy, Debug)]
struct Scatterer {
    range: f64,
    sine: f64,
    amplitude: f64,
    phase: f64,
}

/// What the array receives of a linear chirp after mixing: for each antenna the spectrum at one range, under a Hann window.
fn received(of: &[Scatterer], at_range: f64) -> [[f64; 2]; ANTENNAS] {
    let beat = |range: f64| 2.0 * BANDWIDTH * range / LIGHT;
    let mut spectrum = [[0.0; 2]; ANTENNAS];
    for one in of {
        for (antenna, cell) in spectrum.iter_mut().enumerate() {
            let steering = PI * (antenna as f64 - 0.5 * (ANTENNAS as f64 - 1.0)) * one.sine;
            for sample in 0..SAMPLES {
                let t = (sample as f64 + 0.5) / SAMPLES as f64;
                let window = 0.5 - 0.5 * (TAU * t).cos();
                // The carrier's own phase over the way and back is in `phase`; the chirp turns about its middle.
                let phase = TAU * (beat(one.range) - beat(at_range)) * (t - 0.5) + one.phase + steering;
                cell[0] += window * one.amplitude * phase.cos();
                cell[1] += window * one.amplitude * phase.sin();
            }
        }
    }
    spectrum
}

/// What an antenna receives, turned back by the phase that a wave from a bearing of this sine has there.
fn steered(spectrum: &[[f64; 2]; ANTENNAS], sine: f64) -> [[f64; 2]; ANTENNAS] {
    let mut turned = *spectrum;
    for (antenna, cell) in turned.iter_mut().enumerate() {
        let (sin, cos) = (-PI * (antenna as f64 - 0.5 * (ANTENNAS as f64 - 1.0)) * sine).sin_cos();
        *cell = [cell[0] * cos - cell[1] * sin, cell[0] * sin + cell[1] * cos];
    }
    turned
}

fn sum(cells: &[[f64; 2]]) -> [f64; 2] {
    cells.iter().fold([0.0, 0.0], |sum, cell| [sum[0] + cell[0], sum[1] + cell[1]])
}

/// The sine of the bearing by the difference in phase between both halves, which look where the target is thought to be: their own
/// pattern makes nothing of an echo aside stronger.
fn monopulse(spectrum: &[[f64; 2]; ANTENNAS], near: f64) -> f64 {
    let turned = steered(spectrum, near);
    let (a, b) = (sum(&turned[..ANTENNAS / 2]), sum(&turned[ANTENNAS / 2..]));
    let (re, im) = (a[0] * b[0] + a[1] * b[1], a[0] * b[1] - a[1] * b[0]);
    near + im.atan2(re) / (PI * (ANTENNAS / 2) as f64)
}

/// The sine of the bearing at which a beam finds the most, near a first guess.
fn beam_scan(spectrum: &[[f64; 2]; ANTENNAS], near: f64) -> f64 {
    let power = |sine: f64| {
        let [re, im] = sum(&steered(spectrum, sine));
        re * re + im * im
    };
    let steps = 80;
    let grid = (-steps..=steps).map(|step| near + BEAM * 0.9 * f64::from(step) / f64::from(steps));
    let best = grid.max_by(|a, b| power(*a).total_cmp(&power(*b))).unwrap();
    // Golden section within one step either way.
    let (mut low, mut high) = (best - BEAM / 80.0, best + BEAM / 80.0);
    while high - low > 1e-9 {
        let cut = 0.381_966_011_25 * (high - low);
        if power(low + cut) > power(high - cut) { high -= cut } else { low += cut }
    }
    0.5 * (low + high)
}

fn target(dice: &mut Dice, aside: f64) -> Scatterer {
    let range = 1.5 + 3.0 * dice.uniform();
    let sine = aside * (2.0 * dice.uniform() - 1.0);
    let phase = TAU * (2.0 * range * CARRIER / LIGHT).fract();
    Scatterer { range, sine, amplitude: 1.0, phase }
}

/// An echo this far aside, in beams, within half a cell of the target's range.
fn echo(dice: &mut Dice, beside: &Scatterer, level_db: f64, beams: f64, phase: f64) -> Scatterer {
    let cell = LIGHT / (2.0 * BANDWIDTH);
    Scatterer {
        range: beside.range + cell * (dice.uniform() - 0.5),
        sine: beside.sine + beams * BEAM,
        amplitude: amplitude(level_db),
        phase: beside.phase + phase,
    }
}

fn unresolved(echo: &Scatterer, beside: &Scatterer) -> Unresolved {
    Unresolved { amplitude: echo.amplitude, apart: echo.sine - beside.sine }
}

/// Rounding of the estimators themselves, in sines.
const NOISE: f64 = 1e-6;

/// 2,000 scenes of one to three echoes, anywhere within half a beam and half a cell, weaker than -6 dB, at any phase: no pull
/// beyond the bound, of the exact form or of any of both estimators.
#[test]
fn no_simulated_pull_is_beyond_the_bound() {
    let mut dice = Dice::of(4711, 0);
    let (mut largest, mut of_three) = (0.0_f64, 0);
    for scene in 0..2000 {
        let target = target(&mut dice, 0.02);
        let count = 1 + scene % 3;
        let mut all = vec![target];
        let (mut echoes, mut phases) = (Vec::new(), Vec::new());
        for _ in 0..count {
            // Together they stay below the target.
            let level = -6.0 - 20.0 * (count as f64).log10() - 25.0 * dice.uniform();
            let (beams, phase) = (dice.uniform() - 0.5, TAU * dice.uniform());
            let one = echo(&mut dice, &target, level, beams, phase);
            echoes.push(unresolved(&one, &target));
            phases.push(phase);
            all.push(one);
        }
        let Pull::Within { least, most } = together(&echoes) else { panic!("scene {scene} has no bound") };
        let exact = at_phases(echoes.iter().copied().zip(phases)).unwrap();
        assert!((least - 1e-12..=most + 1e-12).contains(&exact), "scene {scene}: {exact} of {echoes:?}");
        let spectrum = received(&all, target.range);
        for found in [monopulse(&spectrum, target.sine), beam_scan(&spectrum, target.sine)] {
            let pull = found - target.sine;
            assert!(
                (least - NOISE..=most + NOISE).contains(&pull),
                "scene {scene}: {pull} beyond {least}..{most}: {all:?}"
            );
            largest = largest.max(pull.abs() / most.max(-least));
        }
        of_three += usize::from(count == 3);
    }
    // The bound is no wide berth: some scene comes near it.
    assert!(largest > 0.8 && of_three > 600, "{largest}");
}

/// At the worst phase, for separations of up to a tenth of the beam and levels of up to -6 dB, what is measured is the bound,
/// within 20 %, with the level as it shows at the target's range.
#[test]
fn at_the_worst_phase_it_is_the_bound() {
    let mut dice = Dice::of(815, 0);
    let cell = LIGHT / (2.0 * BANDWIDTH);
    for scene in 0..1000 {
        let target = target(&mut dice, 0.02);
        let level = -6.0 - 30.0 * dice.uniform();
        let beams = (0.005 + 0.095 * dice.uniform()) * if scene % 2 == 0 { 1.0 } else { -1.0 };
        let one = echo(&mut dice, &target, level, beams, PI);
        let leak = Window::Hann.leak_db((one.range - target.range) / cell);
        let shown = Unresolved { amplitude: one.amplitude * amplitude(leak), ..unresolved(&one, &target) };
        let Pull::Within { least, most } = alone(&shown) else { panic!("scene {scene} has no bound") };
        let worst = if beams > 0.0 { least } else { most };
        let spectrum = received(&[target, one], target.range);
        for found in [monopulse(&spectrum, target.sine), beam_scan(&spectrum, target.sine)] {
            let pull = found - target.sine;
            let share = pull / worst;
            assert!(
                (0.8..=1.0 + 1e-3).contains(&share),
                "scene {scene}: {pull} instead of {worst}, {level} dB, {beams} beams"
            );
        }
    }
}

/// Alone, the target is found where it is: the estimators themselves pull nothing.
#[test]
fn the_estimators_are_true() {
    let mut dice = Dice::of(12, 0);
    for _ in 0..50 {
        let target = target(&mut dice, 0.1);
        let spectrum = received(&[target], target.range);
        assert!((monopulse(&spectrum, target.sine + 0.02) - target.sine).abs() < 1e-9);
        assert!((beam_scan(&spectrum, target.sine + 0.02) - target.sine).abs() < NOISE);
    }
}

/// An echo of the target's own level or more is where the sensor looks: the pull has no bound there, and the beam scan finds the
/// echo.
#[test]
fn a_stronger_echo_is_taken_for_the_target() {
    let mut dice = Dice::of(99, 0);
    let target = target(&mut dice, 0.02);
    let one = Scatterer { range: target.range, ..echo(&mut dice, &target, 12.0, 1.5, 1.0) };
    assert_eq!(alone(&unresolved(&one, &target)), Pull::NoBound);
    let found = beam_scan(&received(&[target, one], target.range), one.sine);
    assert!((found - one.sine).abs() < 0.1 * (one.sine - target.sine).abs(), "{found} beside {one:?}");
}
