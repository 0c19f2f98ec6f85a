//! What the radar would see of the room: the one way to the crate [`baywright_radar`].
//!
//! For each target that an aiming puts up, the echoes of what stands around, beside the target's own: how far, in which direction, how
//! strong against the target's, whether the radar could tell the two apart, and what the echo may do to the aim. Smooth ideal
//! shapes; nothing bends round an edge but what a face's own sides send back. Nothing here changes a verdict: the maker's keep-clear
//! zones decide. The car itself, and the target's own stand, are no part of it.

mod around;
mod cures;
mod heard;
mod own;
mod picked;
mod strength;
mod stuff;
#[cfg(test)]
mod tests;
pub mod virtual_aims;
mod ways;

use baywright_geometry::{DVec3, Wavelength, wavelength};
use baywright_radar::echo::Eye;
use baywright_radar::level::{Figure, Sensor};
use baywright_radar::paths::Room;

use crate::assessment::Subject;
use crate::model::{Arrangement, Id};
use crate::scene::Scene;
use around::Around;

pub use cures::{Cure, Done};
pub(crate) use heard::together;
pub use heard::{Does, Heard};
pub use own::OwnEcho;
pub use picked::{May, Takes};
pub(crate) use strength::reflects_more;

/// Echoes so much weaker than the target's, dB, are not told: alone they draw the aim by a hundredth of what they lie aside.
pub const LEAST_DB: f64 = -40.0;

/// Why nothing is said of a target.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Untold {
    /// What it sends back is not known: a board, a mat, or a device that answers.
    Target,
    /// It lies out of what the figures hold for: too near, or hidden.
    OutOfReach,
    /// The sensor's figures make no radar.
    Sensor,
}

/// How an echo comes about.
#[derive(Clone, Debug, PartialEq)]
pub enum How {
    /// Straight from a face or a round thing, and back.
    Straight {
        /// What sends it back.
        of: Subject,
        /// Whether a mirror spot lies on it: it looks straight at the sensor.
        is_spot_on: bool,
    },
    /// From a corner of the room, by both its walls.
    Corner {
        /// One wall, and the other.
        of: [Subject; 2],
    },
    /// The target, seen by way of mirrors: out by these and back by those.
    TargetBy {
        /// On the way out.
        out: Vec<Subject>,
        /// On the way back.
        back: Vec<Subject>,
    },
    /// From the sensor by two mirrors back to itself.
    Round {
        /// The mirrors, in order.
        by: Vec<Subject>,
    },
}

impl How {
    /// What it comes from, or by way of.
    pub fn subjects(&self) -> impl Iterator<Item = &Subject> {
        let (all, more): (&[Subject], &[Subject]) = match self {
            Self::Straight { of, .. } => (std::slice::from_ref(of), &[]),
            Self::Corner { of } => (of, &[]),
            Self::TargetBy { out, back } => (out, back),
            Self::Round { by } => (by, &[]),
        };
        all.iter().chain(more)
    }
}

/// One echo beside the target's.
#[derive(Clone, Debug, PartialEq)]
pub struct Echo {
    /// How it comes about.
    pub how: How,
    /// Its way from the sensor and back to it, bay frame, mm: the first and last place are the sensor.
    pub way: Vec<DVec3>,
    /// What the sensor hears of it.
    pub heard: Heard,
    /// Whether what it is made of is known well enough to say how much of it comes back.
    pub is_stuff_known: bool,
    /// Whether the published figures of what it is made of end below the sensor's frequency and are prolonged.
    pub is_prolonged: bool,
    /// What takes it away, if it matters and is of a thing that can be moved; worked out with ways by two mirrors.
    pub cures: Vec<Cure>,
}

impl Echo {
    /// What a person would look at: the thing that sends it back, or the first of its mirrors. None of what only the even floor or the
    /// ceiling does, over and under which every procedure is made (common practice, no source).
    pub fn culprit(&self) -> Option<&Subject> {
        let is_there = |own: &&Subject| !matches!(own, Subject::Floor | Subject::Ceiling);
        match &self.how {
            How::Straight { of, .. } => Some(of).filter(is_there),
            How::Corner { of } => of.iter().find(is_there),
            How::TargetBy { out, back } => out.iter().chain(back).find(is_there),
            How::Round { by } => by.iter().find(is_there),
        }
    }
}

/// What the radar would see while one target is up.
#[derive(Clone, Debug, PartialEq)]
pub struct Seen {
    /// The target.
    pub target: Id,
    /// Its own echo, or why nothing is said.
    pub own: Result<OwnEcho, Untold>,
    /// The echoes beside it, the strongest first.
    pub echoes: Vec<Echo>,
    /// What all of them that the sensor may not tell from the target do together at the worst; `None` if there are none.
    pub together: Option<Does>,
    /// What a routine takes, by the rule by which it does.
    pub takes: Takes,
    /// The figures that are not the profile's but what is usual.
    pub assumed: Vec<Figure>,
}

/// Which ways are followed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum With {
    /// Of straight ones and those by one mirror out and one back only what is near enough to matter: what findings are made of, however
    /// large the hall is.
    WhatMatters,
    /// Straight ones, and those by one mirror out and one back: a matter of the frame.
    OneMirror,
    /// Those by two mirrors back to the sensor too, of which there are as many as pairs of faces.
    TwoMirrors,
}

/// What the radar would see, for each target that stands upright; nothing for a sensor that is no radar.
pub fn seen(arrangement: &Arrangement, scene: &Scene, with: With) -> Vec<Seen> {
    let Some(radar) = arrangement.sensor.kind.radar() else { return Vec::new() };
    let Ok(wave) = wavelength(radar.frequency_hz) else { return Vec::new() };
    let up = arrangement.aiming.placements.iter().zip(&scene.targets).filter(|(_, placed)| !placed.lies);
    up.map(|(placement, placed)| {
        let nothing = |why| Seen {
            target: placed.id.clone(),
            own: Err(why),
            echoes: Vec::new(),
            together: None,
            takes: Takes::default(),
            assumed: Vec::new(),
        };
        let Ok(sensor) = own::sensor(radar) else { return nothing(Untold::Sensor) };
        let around = Around::of(arrangement, scene, &placed.id);
        let limits = arrangement.aiming.tolerance;
        let limits = [limits.azimuth_rad, limits.elevation_rad];
        let solids: Vec<_> = around.solids.iter().collect();
        let room = Room { mirrors: &around.mirrors, blockers: &solids, longest_mm: f64::MAX };
        let beam_up_rad = radar.beam_elevation_rad;
        let look = Look { scene, limits, beam_up_rad, wave, sensor: &sensor, around: &around, room };
        match own::echo(placement, placed, &look) {
            Err(why) => nothing(why),
            Ok(own) => {
                let near = (with == With::WhatMatters)
                    .then(|| around.within(scene.sensor(), look.matters_within(&own)));
                let (of, blockers) = match &near {
                    Some(near) => (near, near.solids.iter().collect()),
                    None => (&around, solids.clone()),
                };
                let room = Room { mirrors: &of.mirrors, blockers: &blockers, longest_mm: f64::MAX };
                let look = Look { around: of, room, ..look };
                let mut echoes = look.echoes(&own, with);
                if with == With::TwoMirrors {
                    look.cure(arrangement, &placed.id, &own, &mut echoes);
                }
                let together = together(echoes.iter().map(|own| &own.heard), limits);
                let takes = look.takes(arrangement, &own, &echoes);
                Seen {
                    target: placed.id.clone(),
                    own: Ok(own),
                    echoes,
                    together,
                    takes,
                    assumed: sensor.assumed.clone(),
                }
            }
        }
    })
    .collect()
}

/// What every question shares.
struct Look<'a> {
    scene: &'a Scene,
    /// How far the aim may be out, radians: left or right, and up or down.
    limits: [f64; 2],
    /// How high the beam is, radians.
    beam_up_rad: f64,
    wave: Wavelength,
    sensor: &'a Sensor,
    around: &'a Around,
    /// The same as what mirrors and what hides.
    room: Room<'a>,
}

impl Look<'_> {
    /// The sensor as a wave knows it.
    fn eye(&self) -> Eye {
        Eye { bay_from_sensor: self.scene.bay_from_sensor, wave: self.wave, tilt: None }
    }
}
