//! What the antennas see in which direction.

use baywright_geometry::{DVec3, Pose};

/// A direction as the sensor names it: its own x ahead, y to the left, z up.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bearing {
    /// Radians from ahead, positive to the left, within (-π, π].
    pub azimuth: f64,
    /// Radians from the sensor's own level, positive up, within [-π/2, π/2].
    pub elevation: f64,
}

impl Bearing {
    /// Straight ahead.
    pub const AHEAD: Self = Self { azimuth: 0.0, elevation: 0.0 };

    /// A direction of the bay's frame, of any length, as a sensor that stands and looks so names it; ahead for no direction at all.
    pub fn of(direction: DVec3, bay_from_sensor: &Pose) -> Self {
        let own = bay_from_sensor.inverse().turned(direction);
        let level = own.truncate().length();
        Self { azimuth: libm::atan2(own.y, own.x), elevation: libm::atan2(own.z, level) }
    }
}

/// How much less the antennas see in some direction than in their best one, one way: sending or receiving.
#[derive(Clone, Debug, PartialEq)]
pub enum Pattern {
    /// By beam widths.
    Beams(Beams),
    /// By the sensor's own table.
    Table(Table),
}

/// A pattern by its beam widths: positive, finite.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Beams {
    azimuth: f64,
    elevation: f64,
    floor_db: f64,
}

/// A pattern by one cut in azimuth and one in elevation.
#[derive(Clone, Debug, PartialEq)]
pub struct Table {
    azimuth: Cut,
    elevation: Cut,
    floor_db: f64,
}

/// A cut through a pattern: angles in order, decibels at each.
#[derive(Clone, Debug, PartialEq)]
pub struct Cut(Vec<(f64, f64)>);

/// Why there is no such pattern.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum PatternFault {
    /// A beam width that is not above 0, or no number.
    Width {
        /// What was given, radians.
        rad: f64,
    },
    /// A floor that is no number, or above 0 dB.
    Floor {
        /// What was given, dB.
        db: f64,
    },
    /// A table with nothing in it.
    Empty,
    /// A row whose angle is not above the one before, or whose figures are no numbers.
    Row {
        /// Which, from 0.
        row: usize,
    },
}

impl std::fmt::Display for PatternFault {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{self:?}")
    }
}

impl std::error::Error for PatternFault {}

impl Cut {
    /// Angles (radians, rising, as [`Bearing`] counts them) with what is seen there, dB one way. Levels are against the highest of
    /// them, so that any reference will do.
    ///
    /// # Errors
    /// The first row that makes no sense.
    pub fn new(mut rows: Vec<(f64, f64)>) -> Result<Self, PatternFault> {
        let best = rows.iter().map(|row| row.1).fold(f64::NEG_INFINITY, f64::max);
        let mut before = f64::NEG_INFINITY;
        for (row, (angle, db)) in rows.iter_mut().enumerate() {
            if !(angle.is_finite() && db.is_finite() && *angle > before) {
                return Err(PatternFault::Row { row });
            }
            before = *angle;
            *db -= best;
        }
        if rows.is_empty() { Err(PatternFault::Empty) } else { Ok(Self(rows)) }
    }

    /// Straight between the rows; `None` beyond the first and the last.
    fn at(&self, angle: f64) -> Option<f64> {
        if let [(only, db)] = self.0.as_slice() {
            return (*only == angle).then_some(*db);
        }
        let pair = self.0.windows(2).find(|pair| matches!(pair, [a, b] if (a.0..=b.0).contains(&angle)))?;
        let [a, b] = pair else { return None };
        Some(a.1 + (b.1 - a.1) * ((angle - a.0) / (b.0 - a.0)))
    }
}

impl Pattern {
    /// By the full widths in azimuth and elevation between the two directions where half the power is left (-3 dB one way),
    /// radians, and a floor that side lobes are taken to reach everywhere else, dB below the best, at most 0.
    ///
    /// # Errors
    /// A width or a floor that makes no sense.
    pub fn beams(azimuth: f64, elevation: f64, floor_db: f64) -> Result<Self, PatternFault> {
        let width = [azimuth, elevation].into_iter().find(|rad| !(*rad > 0.0 && rad.is_finite()));
        match width {
            Some(rad) => Err(PatternFault::Width { rad }),
            None => Ok(Self::Beams(Beams { azimuth, elevation, floor_db: floor(floor_db)? })),
        }
    }

    /// By the sensor's own table. Beyond its ends the floor is taken, never a prolonged line.
    ///
    /// # Errors
    /// A floor that makes no sense.
    pub fn table(azimuth: Cut, elevation: Cut, floor_db: f64) -> Result<Self, PatternFault> {
        Ok(Self::Table(Table { azimuth, elevation, floor_db: floor(floor_db)? }))
    }

    /// What is seen in a direction, dB one way against the best, at most 0: the losses of both cuts together, and no less than the
    /// floor.
    ///
    /// Beams: -12 (θ/θ₃)² dB in each cut, as 3GPP TR 38.901, table 7.3-1 has it for an antenna element (read second hand: the
    /// documentation of two open channel simulators), with the widths of the sensor. An approximation within the main lobe, where
    /// it is that of a Gaussian beam; outside of it the floor stands for all side lobes.
    pub fn one_way_db(&self, to: Bearing) -> f64 {
        match self {
            Self::Beams(of) => {
                let (a, e) = (to.azimuth / of.azimuth, to.elevation / of.elevation);
                (-12.0 * (a * a + e * e)).max(of.floor_db)
            }
            Self::Table(of) => match (of.azimuth.at(to.azimuth), of.elevation.at(to.elevation)) {
                (Some(a), Some(e)) => (a + e).max(of.floor_db),
                _ => of.floor_db,
            },
        }
    }

    /// What is seen of a wave that leaves one way and comes back another: once the direction, twice for an echo that comes back
    /// where it was sent to.
    pub fn two_way_db(&self, departs: Bearing, comes_from: Bearing) -> f64 {
        self.one_way_db(departs) + self.one_way_db(comes_from)
    }
}

fn floor(db: f64) -> Result<f64, PatternFault> {
    if db <= 0.0 && db.is_finite() { Ok(db) } else { Err(PatternFault::Floor { db }) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use baywright_geometry::angle::radians;

    /// By definition half the power is left at half the width; the factor 12 of the standard gives -3.0 dB there.
    #[test]
    fn half_power_at_half_the_width() {
        let pattern = Pattern::beams(radians(20.0), radians(8.0), -25.0).unwrap();
        let at = |azimuth, elevation| {
            pattern.one_way_db(Bearing { azimuth: radians(azimuth), elevation: radians(elevation) })
        };
        assert_eq!(at(0.0, 0.0), 0.0);
        assert!((at(10.0, 0.0) + 3.0).abs() < 1e-12 && (at(0.0, -4.0) + 3.0).abs() < 1e-12);
        assert!((at(-10.0, 4.0) + 6.0).abs() < 1e-12);
        assert_eq!(at(90.0, 0.0), -25.0);
    }

    #[test]
    fn a_table_is_read_between_its_rows_and_never_beyond() {
        let cut = |rows: &[(f64, f64)]| Cut::new(rows.iter().map(|(a, db)| (radians(*a), *db)).collect());
        let azimuth = cut(&[(-40.0, 2.0), (0.0, 12.0), (20.0, 8.0)]).unwrap();
        let elevation = cut(&[(-5.0, -3.0), (0.0, 0.0), (5.0, -3.0)]).unwrap();
        let pattern = Pattern::table(azimuth, elevation, -28.0).unwrap();
        let at = |azimuth, elevation| {
            pattern.one_way_db(Bearing { azimuth: radians(azimuth), elevation: radians(elevation) })
        };
        assert!((at(-20.0, 0.0) + 5.0).abs() < 1e-9 && (at(10.0, 2.5) + 3.5).abs() < 1e-9);
        assert_eq!((at(0.0, 0.0), at(21.0, 0.0), at(0.0, 6.0)), (0.0, -28.0, -28.0));
        assert_eq!(cut(&[(0.0, 1.0), (0.0, 2.0)]), Err(PatternFault::Row { row: 1 }));
        assert_eq!(cut(&[(0.0, f64::NAN)]), Err(PatternFault::Row { row: 0 }));
        assert_eq!(cut(&[]), Err(PatternFault::Empty));
        assert_eq!(Pattern::beams(0.1, 0.0, -20.0), Err(PatternFault::Width { rad: 0.0 }));
        assert_eq!(Pattern::beams(0.1, 0.1, 3.0), Err(PatternFault::Floor { db: 3.0 }));
    }

    /// A sensor turned to the left and tipped up sees what is ahead of the bay to its right and below.
    #[test]
    fn bearings_are_the_sensors_own() {
        let pose = Pose::looking(DVec3::new(1.0, 2.0, 3.0), radians(30.0), radians(5.0));
        let found = Bearing::of(DVec3::X, &pose);
        assert!(found.azimuth < radians(-29.0) && found.elevation < radians(-4.0), "{found:?}");
        let ahead = Bearing::of(pose.forward() * 7.0, &pose);
        assert!(ahead.azimuth.abs() < 1e-12 && ahead.elevation.abs() < 1e-12);
        assert_eq!(Bearing::of(DVec3::ZERO, &pose), Bearing::AHEAD);
    }
}
