//! What a shape sends back, the same for every shape.

use baywright_geometry::DVec3;

use crate::level::Band;

/// What an ideal conductor of some shape sends back to the sensor.
#[derive(Clone, Debug, PartialEq)]
pub struct Seen {
    /// The distance, mm, with which the echo areas go: to `at`.
    pub range_mm: f64,
    /// From where most of it comes: the mirror spot, or where there is none on the shape, its nearest point. In the frame in which
    /// shape and sensor were given, mm.
    pub at: DVec3,
    /// Whether the wave comes straight back: the mirror spot is on the shape, or the sensor looks into the corner.
    pub is_spot_on: bool,
    /// The angle between ray and normal at each reflection, radians, 0 to π/2: one, two or three of them.
    pub incidences: Vec<f64>,
    /// The echo area by the shape's formula, dBsm (dB over one square metre).
    pub ideal_dbsm: f64,
    /// What it may be, dBsm: as far as the formula is known to hold.
    pub sigma_dbsm: Band,
}
