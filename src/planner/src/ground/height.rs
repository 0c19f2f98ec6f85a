//! How high a target is set over its own piece of floor.

use baywright_survey::floor::{ToSet, Upright, height_to_set};
use baywright_survey::input::Figure;

use super::{Judged, Levels, OnWheels};
use crate::model::{Arrangement, Id, TargetHeight, VerticalReference};

/// How high the middle of a target's face is set over the floor where its stand is.
#[derive(Clone, Debug, PartialEq)]
pub struct SetHeight {
    /// Whose.
    pub placement: Id,
    /// How high. Its allowance is the placement's own of height, and what it comes to is whether the levels are known surely enough
    /// for that.
    pub height: Judged,
    /// How much more that is than over a level floor.
    pub more_mm: f64,
    /// The floor's level there, against the plane that the wheels are meant to stand on, less its height.
    pub level: Judged,
    /// By what heights go.
    pub vertical: VerticalReference,
    /// Whether it rests on the sensor's height as its profile has it, and not as it was measured on this car.
    pub by_profile: bool,
}

impl Levels<'_> {
    pub(super) fn heights(&self, wheels: &OnWheels) -> Vec<SetHeight> {
        let placements = self.arrangement.aiming.placements.iter();
        let all = placements.zip(&self.scene.targets).zip(&self.spots.targets);
        all.filter(|((_, target), _)| !target.lies)
            .filter_map(|((placement, target), spot)| {
                let stand = Self::figure(spot)?;
                let sensor = self.scene.sensor();
                let counts = matches!(placement.height, TargetHeight::FromSensor { .. });
                let height = target.meant.height_mm;
                let u = if counts { sensor_u_mm(self.arrangement) } else { 0.0 };
                let asked = ToSet {
                    wheels: wheels.at,
                    level_u_mm: wheels.u_mm,
                    sensor: sensor.truncate(),
                    sensor_height_mm: Figure { value: sensor.z, u },
                    target: target.set.place.origin(),
                    higher_mm: height - sensor.z,
                    stand_level_mm: stand,
                    upright: match placement.vertical {
                        VerticalReference::Gravity => Upright::Gravity,
                        VerticalReference::WheelsPlane => Upright::WheelsPlane,
                    },
                };
                let found = height_to_set(&asked)?;
                let allowed = placement.tolerance.height_mm;
                // How well it can be set is asked, not how high it is.
                let unsure = Judged::of(Figure { value: 0.0, u: found.u }, allowed);
                Some(SetHeight {
                    placement: target.id.clone(),
                    height: Judged { value: found.value, ..unsure },
                    more_mm: found.value - height,
                    level: Judged::of(stand, None),
                    vertical: placement.vertical,
                    by_profile: counts && self.arrangement.on_this_car.sensor_at.is_none(),
                })
            })
            .collect()
    }
}

/// How surely the sensor's height is known, as a standard uncertainty, mm: a point of the body that is found and taped. Of one that
/// nobody measured on this car nothing is known beyond its profile, and that is said.
pub(crate) fn sensor_u_mm(arrangement: &Arrangement) -> f64 {
    let shop = &arrangement.shop;
    match arrangement.on_this_car.sensor_at {
        Some(_) => libm::hypot(shop.plumb_found_mm, shop.tape_read_mm) / 3.0_f64.sqrt(),
        None => 0.0,
    }
}
