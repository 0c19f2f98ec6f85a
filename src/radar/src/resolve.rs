//! What a radar tells apart, and which echo a routine would take for the target's.
//!
//! Ranges are in mm, bearings the sensor's own, levels dB against the target's. What is not known of the sensor makes answers that
//! are not sure; none is sure by accident.

use crate::level::{Band, Bearing, Sensor};

/// Where something seems to be, as the sensor measures it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spot {
    /// Half of what the wave went, mm.
    pub range_mm: f64,
    /// Where it came from.
    pub bearing: Bearing,
}

/// Whether something is so, for every sensor that this one may be.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Surely {
    /// For none of them.
    No,
    /// For some.
    Perhaps,
    /// For all.
    Yes,
}

impl Surely {
    /// Whether a figure that is known within a band is at most another.
    fn at_most(figure: f64, band: &Band) -> Self {
        if figure <= band.low() {
            Self::Yes
        } else if figure > band.high() {
            Self::No
        } else {
            // A figure that is none is neither.
            Self::Perhaps
        }
    }

    /// Whether both are so.
    #[must_use]
    pub fn and(self, other: Self) -> Self {
        self.min(other)
    }
}

/// How two echoes lie to one another.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Beside {
    /// Whether they lie in one range cell as the window widens it: one hump of the spectrum.
    pub in_cell: Surely,
    /// Whether they lie in one beam: nearer in azimuth than its width at half power, and in elevation if the sensor tells that
    /// apart.
    pub in_beam: Surely,
    /// What of the echo shows at the target's range, dB to add to its level, at most 0.
    pub leak_db: Band,
}

impl Beside {
    /// Whether the sensor takes both for one thing, so that the echo pulls at the target's bearing.
    pub fn is_one(&self) -> Surely {
        self.in_cell.and(self.in_beam)
    }
}

/// How an echo lies to the target: in its range cell (c/2B; two equal echoes are told apart from the width of the window's main
/// lobe at -6 dB on, Harris 1978) and in its beam (the width at half power, Rayleigh's rule of thumb: common practice, no source).
pub fn beside(echo: &Spot, target: &Spot, sensor: &Sensor) -> Beside {
    let off_mm = (echo.range_mm - target.range_mm).abs();
    let aside = |one: f64, other: f64| baywright_geometry::angle::wrapped(one - other).abs();
    let in_azimuth =
        Surely::at_most(aside(echo.bearing.azimuth, target.bearing.azimuth), &sensor.beam_azimuth);
    let in_beam = match &sensor.beam_elevation {
        Some(beam) => {
            in_azimuth.and(Surely::at_most(aside(echo.bearing.elevation, target.bearing.elevation), beam))
        }
        None => in_azimuth,
    };
    // The further in cells, the less: the main lobes fall, and beyond them stands each window's own side lobe.
    let leaks = sensor.windows.iter().flat_map(|window| {
        [sensor.cell_mm.low(), sensor.cell_mm.high()].map(|cell| Band::of(window.leak_db(off_mm / cell)))
    });
    let leak_db = leaks.flatten().reduce(|all, one| all.around(&one)).unwrap_or(Band::NOTHING);
    Beside { in_cell: Surely::at_most(off_mm, &sensor.widened_cell_mm()), in_beam, leak_db }
}

/// Whether something lies so near that the sensor does not see it at all.
pub fn is_blind_to(range_mm: f64, sensor: &Sensor) -> Surely {
    // "At most" of the blind range itself: there it may be seen or not.
    if range_mm < sensor.blind_mm.low() {
        Surely::Yes
    } else if range_mm > sensor.blind_mm.high() || sensor.blind_mm.high() == 0.0 {
        Surely::No
    } else {
        Surely::Perhaps
    }
}

/// Where a routine looks for its target.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gate {
    /// From this range on, mm.
    pub near_mm: f64,
    /// Up to this range, mm.
    pub far_mm: f64,
    /// So far to either side of the sensor's own ahead, radians.
    pub aside: f64,
    /// So far up and down, radians; an endless one for a sensor that tells no elevations.
    pub up: f64,
}

impl Gate {
    fn holds(&self, spot: &Spot) -> bool {
        (self.near_mm..=self.far_mm).contains(&spot.range_mm)
            && spot.bearing.azimuth.abs() <= self.aside
            && spot.bearing.elevation.abs() <= self.up
    }
}

/// How a routine picks the target among echoes. Makers do not say; both are told.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Rule {
    /// The strongest in its gate.
    Strongest,
    /// The nearest in its gate among those that are no weaker than so many dB against the target.
    Nearest {
        /// dB against the target, below 0 for weaker ones.
        from_db: f64,
    },
}

/// An echo to pick among.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Candidate {
    /// Where it seems to be.
    pub spot: Spot,
    /// How strong it is, dB against the target.
    pub level_db: Band,
}

/// Who was picked.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Picked {
    /// The target itself.
    Target,
    /// An echo, by its position in the list.
    Echo(usize),
}

/// What a rule picks.
#[derive(Clone, Debug, PartialEq)]
pub struct Choice {
    /// All that it may pick, in order; none if there is nothing in the gate.
    pub may: Vec<Picked>,
    /// Whether the sensor may see none of them.
    pub may_be_none: bool,
}

impl Choice {
    /// The one that it picks for sure.
    pub fn surely(&self) -> Option<Picked> {
        match self.may.as_slice() {
            [only] if !self.may_be_none => Some(*only),
            _ => None,
        }
    }
}

/// Which echo a routine picks by a rule: the target's, at 0 dB, or one of the others, each as strong as its band has it, seen from
/// the sensor's blind range on. An echo in the target's own cell and beam is a candidate too: to pick it is to take both for one.
pub fn pick(rule: Rule, target: &Spot, echoes: &[Candidate], gate: &Gate, sensor: &Sensor) -> Choice {
    let target = Candidate { spot: *target, level_db: Band::NOTHING };
    let all = std::iter::once((Picked::Target, &target))
        .chain(echoes.iter().enumerate().map(|(nth, echo)| (Picked::Echo(nth), echo)));
    let floor = match rule {
        Rule::Strongest => f64::NEG_INFINITY,
        Rule::Nearest { from_db } => from_db,
    };
    // Each that may be seen, and whether it surely is.
    let seen: Vec<(Picked, &Candidate, bool)> = all
        .filter(|(_, of)| {
            gate.holds(&of.spot) && of.level_db.high() >= floor && of.level_db.high() > f64::NEG_INFINITY
        })
        .map(|(who, of)| (who, of, is_blind_to(of.spot.range_mm, sensor), of.level_db.low() >= floor))
        .filter(|(_, _, blind, _)| *blind != Surely::Yes)
        .map(|(who, of, blind, is_above)| (who, of, blind == Surely::No && is_above))
        .collect();
    let sure = seen.iter().filter(|(_, _, is_sure)| *is_sure).map(|(_, of, _)| of);
    let may = |keep: &dyn Fn(&Candidate) -> bool| {
        seen.iter().filter(|(_, of, _)| keep(of)).map(|(who, ..)| *who).collect::<Vec<_>>()
    };
    let may_be_none = seen.iter().all(|(_, _, is_sure)| !is_sure);
    let may = match rule {
        Rule::Strongest => {
            let least = sure.map(|of| of.level_db.low()).fold(f64::NEG_INFINITY, f64::max);
            may(&|of| of.level_db.high() >= least)
        }
        Rule::Nearest { .. } => {
            let first = sure.map(|of| of.spot.range_mm).fold(f64::INFINITY, f64::min);
            may(&|of| of.spot.range_mm <= first)
        }
    };
    Choice { may, may_be_none }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::level::{Known, Window};

    fn known() -> Known {
        Known {
            bandwidth_hz: Some(1e9),
            window: Some(Window::Hann),
            blind_mm: Some(200.0),
            beam_azimuth: Some(0.1),
            ..Known::default()
        }
    }

    fn spot(range_mm: f64, azimuth: f64) -> Spot {
        Spot { range_mm, bearing: Bearing { azimuth, elevation: 0.0 } }
    }

    fn candidate(range_mm: f64, low: f64, high: f64) -> Candidate {
        Candidate { spot: spot(range_mm, 0.0), level_db: Band::between(low, high).unwrap() }
    }

    const GATE: Gate = Gate { near_mm: 1000.0, far_mm: 3000.0, aside: 0.3, up: f64::INFINITY };

    /// c/2B of 1 GHz is 149.9 mm (references); Hann's window makes 299.8 of it.
    #[test]
    fn what_is_told_apart() {
        let sensor = Sensor::of(&known()).unwrap();
        let target = spot(2000.0, 0.0);
        let found = beside(&spot(2299.0, 0.05), &target, &sensor);
        assert_eq!((found.in_cell, found.in_beam, found.is_one()), (Surely::Yes, Surely::Yes, Surely::Yes));
        assert_eq!(beside(&spot(2301.0, 0.05), &target, &sensor).in_cell, Surely::No);
        assert_eq!(beside(&spot(1900.0, -0.11), &target, &sensor).in_beam, Surely::No);
        // One cell off a Hann window is 6 dB down.
        let leak = beside(&spot(2149.896, 0.0), &target, &sensor).leak_db;
        assert!((leak.low() + 6.02).abs() < 0.01 && (leak.high() + 6.02).abs() < 0.01, "{leak:?}");
        // Elevation counts only if the sensor tells it.
        let above = Spot { bearing: Bearing { azimuth: 0.0, elevation: 0.5 }, ..target };
        assert_eq!(beside(&above, &target, &sensor).in_beam, Surely::Yes);
        let tells = Sensor::of(&Known { beam_elevation: Some(0.1), ..known() }).unwrap();
        assert_eq!(beside(&above, &target, &tells).in_beam, Surely::No);
        // Of a sensor of which nothing is known: cells of 37 to 300 mm, widened by 1.207 to 2.298.
        let any = Sensor::of(&Known::default()).unwrap();
        let at = |mm: f64| beside(&spot(2000.0 + mm, 0.0), &target, &any).in_cell;
        assert_eq!(
            [at(45.0), at(46.0), at(688.0), at(690.0)],
            [Surely::Yes, Surely::Perhaps, Surely::Perhaps, Surely::No]
        );
        assert_eq!(at(f64::NAN), Surely::Perhaps);
    }

    #[test]
    fn the_strongest_and_the_nearest() {
        let sensor = Sensor::of(&known()).unwrap();
        let target = spot(2000.0, 0.0);
        let pick = |rule, echoes: &[Candidate]| pick(rule, &target, echoes, &GATE, &sensor);
        let nearest = Rule::Nearest { from_db: -20.0 };
        let weak = candidate(1500.0, -16.0, -12.0);
        assert_eq!(pick(Rule::Strongest, &[weak]).surely(), Some(Picked::Target));
        assert_eq!(pick(nearest, &[weak]).surely(), Some(Picked::Echo(0)));
        let strong = candidate(2500.0, 3.0, 9.0);
        assert_eq!(pick(Rule::Strongest, &[weak, strong]).surely(), Some(Picked::Echo(1)));
        assert_eq!(pick(nearest, &[strong]).surely(), Some(Picked::Target));
        let perhaps = candidate(1500.0, -25.0, 5.0);
        for rule in [Rule::Strongest, nearest] {
            let found = pick(rule, &[perhaps]);
            assert_eq!(found.may, [Picked::Target, Picked::Echo(0)]);
            assert_eq!(found.surely(), None);
        }
        // Out of the gate, nothing at all, or too near to be seen.
        let far = candidate(3500.0, 30.0, 30.0);
        let nothing = candidate(1200.0, f64::NEG_INFINITY, f64::NEG_INFINITY);
        assert_eq!(pick(Rule::Strongest, &[far, nothing]).surely(), Some(Picked::Target));
        assert_eq!(pick(nearest, &[far, nothing]).surely(), Some(Picked::Target));
    }

    #[test]
    fn what_is_too_near_is_not_picked() {
        let gate = Gate { near_mm: 0.0, ..GATE };
        let target = spot(2000.0, 0.0);
        let close = candidate(150.0, 20.0, 20.0);
        let found = |blind: Option<f64>, gate: &Gate| {
            let sensor = Sensor::of(&Known { blind_mm: blind, ..known() }).unwrap();
            pick(Rule::Strongest, &target, &[close], gate, &sensor)
        };
        assert_eq!(found(Some(200.0), &gate).surely(), Some(Picked::Target));
        assert_eq!(found(Some(0.0), &gate).surely(), Some(Picked::Echo(0)));
        assert_eq!(found(None, &gate).may, [Picked::Target, Picked::Echo(0)]);
        let nowhere = Gate { far_mm: 10.0, near_mm: 5.0, ..GATE };
        let found = found(None, &nowhere);
        assert!(found.may.is_empty() && found.may_be_none && found.surely().is_none());
    }
}
