//! What comes back beside the target's own echo, as the sensor hears it, and what that does to the aim.

use baywright_geometry::{DVec3, angle};
use baywright_radar::level::{Band, Bearing, Received, against};
use baywright_radar::pull::{Effect, Pull, effect};
use baywright_radar::resolve::{Beside, Spot, Surely, beside};

use super::Look;
use super::own::OwnEcho;

/// An echo as the sensor hears it.
#[derive(Clone, Debug, PartialEq)]
pub struct Heard {
    /// The range that the sensor measures, mm.
    pub range_mm: f64,
    /// Where it seems to come from, in the sensor's frame.
    pub bearing: Bearing,
    /// Where the sensor believes something to be, bay frame, mm.
    pub believed: DVec3,
    /// How strong against the target's own, dB.
    pub level_db: Band,
    /// How far to the left of the target and above it, radians, as far as that counts: a bearing is taken within the beam, and what comes
    /// from beyond it draws no further than what comes from its edge.
    pub apart: [f64; 2],
    /// How it lies to the target.
    pub beside: Beside,
    /// What it does to the aim.
    pub does: Does,
}

/// What an echo does to the aim.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Does {
    /// It may be taken for the target.
    Takes,
    /// It lies in the target's own direction, within the aim's limits: taken for it or not, the aim stays.
    InLine,
    /// It draws the aim.
    Draws {
        /// By up to so much, radians.
        by: f64,
        /// So much is allowed, radians.
        limit: f64,
        /// Whether up or down rather than to a side.
        is_upright: bool,
    },
    /// The sensor surely tells it from the target.
    Apart {
        /// By its distance.
        by_distance: bool,
        /// By its direction.
        by_direction: bool,
        /// Whether a routine that takes the strongest takes it.
        is_stronger: Surely,
    },
}

impl Heard {
    /// Whether it is worth a look: it may be taken for the target, draw the aim beyond its limit, or be taken by a routine that takes
    /// the strongest.
    pub fn matters(&self) -> bool {
        match self.does {
            Does::Takes => true,
            Does::InLine => false,
            Does::Draws { by, limit, .. } => by > limit,
            Does::Apart { is_stronger, .. } => is_stronger != Surely::No,
        }
    }
}

impl Look<'_> {
    /// What comes back beside the target's own; `None` of what stands behind the sensor's own plane, where its car is, or has no level.
    pub(super) fn heard(&self, received: &Received, own: &OwnEcho) -> Option<Heard> {
        let pose = &self.scene.bay_from_sensor;
        if [received.departs, received.comes_from].into_iter().any(|own| own.dot(pose.forward()) <= 0.0) {
            return None;
        }
        let level_db = against(received, &own.received, self.sensor, pose)?;
        let range_mm = 0.5 * (received.out_mm + received.back_mm);
        let bearing = Bearing::of(received.comes_from, pose);
        let target = Spot { range_mm: own.range_mm, bearing: own.bearing };
        let beside = beside(&Spot { range_mm, bearing }, &target, self.sensor);
        let lies = apart(bearing, own.bearing);
        let [wide, high] = [self.sensor.beam_azimuth.high(), self.beam_up_rad];
        let counts = [lies[0].min(wide).max(-wide), lies[1].min(high).max(-high)];
        let does = self.does(level_db, &beside, lies, counts);
        let believed = self.scene.sensor() + received.comes_from.normalize_or_zero() * range_mm;
        Some(Heard { range_mm, bearing, believed, level_db, apart: counts, beside, does })
    }

    /// What an echo does that lies so far aside of the target and above it, radians, and so far as that counts.
    fn does(&self, level_db: Band, beside: &Beside, apart: [f64; 2], counts: [f64; 2]) -> Does {
        let [aside, up] = apart.map(f64::abs);
        if aside <= self.limits[0] && up <= self.limits[1] {
            return Does::InLine;
        }
        if beside.is_one() == Surely::No {
            return Does::Apart {
                by_distance: beside.in_cell == Surely::No,
                by_direction: beside.in_beam == Surely::No,
                is_stronger: match (level_db.low() > 0.0, level_db.high() > 0.0) {
                    (true, _) => Surely::Yes,
                    (false, true) => Surely::Perhaps,
                    (false, false) => Surely::No,
                },
            };
        }
        let far = libm::hypot(counts[0], counts[1]);
        let is_upright = up > aside;
        match effect(level_db, far) {
            Effect::MayBeTaken { .. } | Effect::Pulls(Pull::NoBound) => Does::Takes,
            Effect::Pulls(pull) => {
                Does::Draws { by: pull.worst(), limit: self.limits[usize::from(is_upright)], is_upright }
            }
        }
    }
}

/// How far one direction lies to the left of another and above it, radians.
pub(crate) fn apart(one: Bearing, other: Bearing) -> [f64; 2] {
    [angle::wrapped(one.azimuth - other.azimuth), one.elevation - other.elevation]
}
