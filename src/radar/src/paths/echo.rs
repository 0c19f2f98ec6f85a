//! What comes back to the sensor by mirrors, and where the sensor takes it to be.

use baywright_geometry::DVec3;

use super::way::Way;

/// A ghost is of at most so many mirrors, out and back together: each takes some of the level.
const MOST_BOUNCES: usize = 2;

/// What a wave did before it came back.
#[derive(Clone, Debug, PartialEq)]
pub enum Round {
    /// To the target and back, by mirrors on one of both ways at least.
    Target {
        /// From the sensor to the target.
        out: Way,
        /// From the target to the sensor.
        back: Way,
    },
    /// By mirrors alone, from the sensor to itself.
    Mirrors {
        /// The whole of it.
        around: Way,
    },
}

/// What comes back by mirrors.
#[derive(Clone, Debug, PartialEq)]
pub struct Ghost {
    /// The way that it took.
    pub round: Round,
    /// The range that the sensor measures, mm: half of what the wave went.
    pub range_mm: f64,
    /// The direction in which the wave left, a unit vector of the bay's frame.
    pub departs: DVec3,
    /// The direction from the sensor to where the wave came from, a unit vector of the bay's frame.
    pub comes_from: DVec3,
    /// Where the sensor believes the thing to be, in the bay's frame, mm: at that range, in the direction from which the wave
    /// *came*.
    ///
    /// That holds for a sensor that takes bearings with what it receives by. One that also sends from several antennas may see what
    /// left in another direction than it came from between the two, weaker and blurred.
    pub believed: DVec3,
}

impl Ghost {
    fn new(sensor: DVec3, round: Round) -> Self {
        let (length, departs, comes_from) = match &round {
            Round::Target { out, back } => (out.length_mm + back.length_mm, out.departs, back.comes_from),
            Round::Mirrors { around } => (around.length_mm, around.departs, around.comes_from),
        };
        let range_mm = 0.5 * length;
        Self { round, range_mm, departs, comes_from, believed: sensor + comes_from * range_mm }
    }

    /// How much further than a thing at `distance_mm` the sensor measures it, mm; negative if nearer.
    pub fn extra_mm(&self, distance_mm: f64) -> f64 {
        self.range_mm - distance_mm
    }

    /// How many mirrors it went by, each time counted.
    pub fn bounces(&self) -> usize {
        match &self.round {
            Round::Target { out, back } => out.bounces.len() + back.bounces.len(),
            Round::Mirrors { around } => around.bounces.len(),
        }
    }
}

/// The target's ghosts: every way out with every way back, by one or two mirrors in all. Ways are from the sensor to the target
/// ([`crate::paths::Room::direct`], `singles` and `doubles`); out by one and back by the other, and the other way round, are two
/// ghosts, as the sensor believes them in two places.
pub fn target_ghosts(sensor: DVec3, ways: &[Way]) -> Vec<Ghost> {
    let mut found = Vec::new();
    for out in ways {
        for back in ways {
            if (1..=MOST_BOUNCES).contains(&(out.bounces.len() + back.bounces.len())) {
                let round = Round::Target { out: out.clone(), back: back.reversed() };
                found.push(Ghost::new(sensor, round));
            }
        }
    }
    found
}

/// What mirrors alone send back: ways from the sensor to itself.
pub fn mirror_ghosts(sensor: DVec3, ways: &[Way]) -> Vec<Ghost> {
    let around = |way: &Way| Ghost::new(sensor, Round::Mirrors { around: way.clone() });
    ways.iter().filter(|way| !way.bounces.is_empty()).map(around).collect()
}
