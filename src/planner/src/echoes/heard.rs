//! What comes back beside the target's own echo, as the sensor hears it, and what that does to the aim.

use baywright_geometry::{DVec3, angle};
use baywright_radar::level::{Band, Bearing, Received, against};
use baywright_radar::pull::{self, Effect, Pull, Unresolved, amplitude, effect};
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
    /// How much further than the target's own, mm.
    pub beyond_mm: f64,
    /// How far to the left of the target it lies, and how far above it, radians.
    pub apart: [f64; 2],
    /// The same as far as it counts: a bearing is taken within the beam, and what comes from beyond it draws no further than what comes
    /// from its edge.
    pub draws_from: [f64; 2],
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
        let apart = apart(bearing, own.bearing);
        let does = self.does(level_db, &beside, apart.map(f64::abs));
        let draws_from = self.within_beam(apart);
        let beyond_mm = range_mm - own.range_mm;
        let believed = self.scene.sensor() + received.comes_from.normalize_or_zero() * range_mm;
        Some(Heard { range_mm, bearing, believed, level_db, beyond_mm, apart, draws_from, beside, does })
    }

    /// What an echo does that lies so far aside of the target and so far above or below it, radians.
    fn does(&self, level_db: Band, beside: &Beside, apart: [f64; 2]) -> Does {
        let [aside, up] = apart;
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
        let pulls = self.within_beam(apart).map(|far| match effect(level_db, far) {
            Effect::MayBeTaken { .. } | Effect::Pulls(Pull::NoBound) => None,
            Effect::Pulls(pull) => Some(pull.worst()),
        });
        let [Some(to_a_side), Some(upright)] = pulls else { return Does::Takes };
        draws([to_a_side, upright], self.limits)
    }

    /// Further from the sensor than this, mm, nothing matters: it is told from the target by its distance, and no face is as strong as the
    /// target any more. That sends back πR² at most, R away, so that it is as strong up to R₀² √(π/σ), the target's own R₀ and σ; with
    /// 6 dB more for what of the target the beam leaves out.
    pub(super) fn matters_within(&self, own: &OwnEcho) -> f64 {
        let sigma_m2 = libm::pow(10.0, own.received.sigma_dbsm.low() / 10.0);
        let range_m = own.range_mm / 1_000.0;
        let as_strong_m = 2.0 * range_m * range_m * libm::sqrt(std::f64::consts::PI / sigma_m2);
        own.cell_mm.1.max(as_strong_m * 1_000.0)
    }

    /// A bearing is taken within the beam: what comes from beyond it draws no further than what comes from its edge.
    fn within_beam(&self, [aside, up]: [f64; 2]) -> [f64; 2] {
        let [wide, high] = [self.sensor.beam_azimuth.high(), self.beam_up_rad];
        [aside.min(wide).max(-wide), up.min(high).max(-high)]
    }
}

/// A pull to a side and one up or down: each has its own limit, and what is worse against it is told.
fn draws(pulls: [f64; 2], limits: [f64; 2]) -> Does {
    let is_upright = pulls[1] * limits[0] > pulls[0] * limits[1];
    let nth = usize::from(is_upright);
    Does::Draws { by: pulls[nth], limit: limits[nth], is_upright }
}

/// What several echoes that the sensor may not tell from the target do to the aim at the worst of all their phases; `None` if there are
/// none. Limits as the aim has them, radians: to a side, and up or down.
pub(crate) fn together<'a>(echoes: impl IntoIterator<Item = &'a Heard>, limits: [f64; 2]) -> Option<Does> {
    let one = echoes.into_iter().filter(|own| matches!(own.does, Does::Takes | Does::Draws { .. }));
    let one: Vec<&Heard> = one.collect();
    if one.is_empty() {
        return None;
    }
    let pulls = [0, 1].map(|axis: usize| {
        let all = one.iter().map(|own| Unresolved {
            amplitude: amplitude(own.level_db.high()),
            apart: own.draws_from.get(axis).copied().unwrap_or_default(),
        });
        pull::together(&all.collect::<Vec<_>>())
    });
    Some(match pulls {
        [to_a_side @ Pull::Within { .. }, upright @ Pull::Within { .. }] => {
            draws([to_a_side.worst(), upright.worst()], limits)
        }
        _ => Does::Takes,
    })
}

/// How far one direction lies to the left of another and above it, radians.
fn apart(one: Bearing, other: Bearing) -> [f64; 2] {
    [angle::wrapped(one.azimuth - other.azimuth), one.elevation - other.elevation]
}
