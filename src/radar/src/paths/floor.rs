//! The bounce off the floor between sensor and target.

use baywright_geometry::{DVec2, DVec3, Wavelength};

/// The way from the sensor to the target by the floor.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FloorBounce {
    /// Where it touches the floor, mm: what lies there (a wet patch, a grate, a drain) mirrors.
    pub at: DVec3,
    /// The straight way, mm.
    pub direct_mm: f64,
    /// The way by the floor, one way, mm.
    pub bounce_mm: f64,
    /// The angle between the way and the floor, radians, above 0 up to π/2.
    pub grazing: f64,
}

/// The piece of the floor that takes part in the bounce: an ellipse.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FloorZone {
    /// Its middle in plan, mm: not the place where the ray touches, but further from the end that is lower.
    pub middle: DVec2,
    /// The direction of its long axis in plan, from the sensor to the target: a unit vector.
    pub along: DVec2,
    /// Half its length along that, mm.
    pub half_along_mm: f64,
    /// Half its width across, mm.
    pub half_across_mm: f64,
}

/// The bounce off a level floor at the height `floor_mm` between a sensor and a target, by the exact lengths: √(D² + (h₁ − h₂)²)
/// and √(D² + (h₁ + h₂)²). The usual 2 h₁ h₂ / D for their difference is up to 12 % out at a bay's distances. `None` if either end
/// is not above the floor, or is no number.
///
/// Source: two-ray geometry (from memory); values computed with numpy in the tests.
pub fn floor_bounce(sensor: DVec3, target: DVec3, floor_mm: f64) -> Option<FloorBounce> {
    let (low, high) = (sensor.z - floor_mm, target.z - floor_mm);
    if !(low > 0.0 && high > 0.0 && sensor.is_finite() && target.is_finite() && floor_mm.is_finite()) {
        return None;
    }
    let plan = sensor.truncate() + (target - sensor).truncate() * (low / (low + high));
    let distance = sensor.truncate().distance(target.truncate());
    Some(FloorBounce {
        at: plan.extend(floor_mm),
        direct_mm: sensor.distance(target),
        bounce_mm: distance.hypot(low + high),
        grazing: libm::atan2(low + high, distance),
    })
}

impl FloorBounce {
    /// How much longer the way by the floor is, one way, mm.
    pub fn extra_mm(&self) -> f64 {
        self.bounce_mm - self.direct_mm
    }

    /// The piece of the floor inside the first Fresnel zone of the bounce: where the way over it is at most half a wavelength
    /// longer than by the ray (Recommendation ITU-R P.526, section 2, equation 1, with the target's image below the floor for one
    /// end). A patch smaller than that, or beside it, mirrors less than a whole floor of its kind. `None` straight above one
    /// another.
    pub fn zone(&self, sensor: DVec3, target: DVec3, wavelength: Wavelength) -> Option<FloorZone> {
        let along = (target - sensor).truncate().try_normalize()?;
        // The ellipsoid about sensor and image, cut by the floor: in coordinates along the ray from its middle, the place where
        // it touches lies `t` along.
        let (a, c) = (0.5 * self.bounce_mm + 0.25 * wavelength.mm(), 0.5 * self.bounce_mm);
        let (a2, b2) = (a * a, a * a - c * c);
        let t = sensor.distance(self.at) - c;
        let (sin, cos) = libm::sincos(self.grazing);
        let curve = cos * cos / a2 + sin * sin / b2;
        let slope = t * cos / a2;
        let left = 1.0 - t * t / a2 + slope * slope / curve;
        let middle = self.at.truncate() - along * (slope / curve);
        let zone = FloorZone {
            middle,
            along,
            half_along_mm: (left / curve).sqrt(),
            half_across_mm: (left * b2).sqrt(),
        };
        (zone.half_along_mm.is_finite() && zone.half_across_mm.is_finite()).then_some(zone)
    }
}

impl FloorZone {
    /// Whether a place in plan lies in it.
    pub fn holds(&self, at: DVec2) -> bool {
        let own = at - self.middle;
        let (along, across) =
            (own.dot(self.along) / self.half_along_mm, own.perp_dot(self.along) / self.half_across_mm);
        along * along + across * across <= 1.0
    }
}
