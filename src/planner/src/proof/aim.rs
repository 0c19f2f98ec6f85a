//! What is known beforehand of where a target aims the sensor: by its marks as they were taped, by its stand as it was read.

use baywright_survey::budget::Sought;
use baywright_survey::next_tape::Wish;

use super::stand::{self, StandKnown};
use super::{FigureOf, Standing, direction_by};
use crate::model::{Arrangement, Placement};
use crate::scene::Scene;

/// What is known of one target's aim; angles are radians, uncertainties standard ones.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct AimKnown {
    /// How far to the left and how far up the sensor is aimed, as far as that is known already.
    pub off: [f64; 2],
    /// How surely the marks give it, to the left; `None` where no mark leads to the target, or there is no plan.
    pub marks_u: Option<f64>,
    /// What was read of its stand.
    pub stand: StandKnown,
}

/// Of one target of a set-up in its scene.
pub(crate) fn aim_known(arrangement: &Arrangement, scene: &Scene, placement: &Placement) -> AimKnown {
    let stand = stand::known(arrangement, scene, &placement.id);
    let face = stand.turned.map_or(0.0, |own| placement.target.error.by_squareness * own.value);
    let nothing = AimKnown { off: [face, stand.up], marks_u: None, stand };
    let Some(standing) = Standing::of(arrangement, scene) else { return nothing };
    let own =
        standing.figures.iter().find(|own| own.placement == placement.id && own.of == FigureOf::Direction);
    let sensor = scene.bay_from_vehicle.inverse() * scene.sensor().truncate();
    let soughts = direction_by(arrangement, &standing.budget, placement, sensor);
    // A face that was read itself is where it is, wherever its marks lie.
    let is_open = |sought: &Sought| stand.turned.is_none() || !matches!(sought, Sought::Squareness { .. });
    let asked = soughts.iter().filter(|(_, sought)| is_open(sought));
    // What they have in common is not told apart: both are taken to go together.
    let u = asked.map(|(share, sought)| Some(share * standing.found.known.u(&Wish::Target(*sought))?));
    AimKnown {
        off: [own.map_or(face, |own| own.off), stand.up],
        marks_u: u.sum::<Option<f64>>().filter(|_| placement.mark.is_some()),
        stand,
    }
}
