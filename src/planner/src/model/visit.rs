//! Which work on a car asks for which sensors to be aimed again, and what one visit of a car then holds.

use super::{Id, Provenance, Sensor, SensorKind, Vehicle};

/// Sensors that work on a car speaks of together. Their order is the order of work in a visit: what looks ahead and needs
/// the most floor first, while the car stands on its marks; then corner by corner; the mats of the surround cameras last,
/// since they lie where everything else is walked over (common practice, no source).
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum SensorGroup {
    /// Radars that look ahead.
    ForwardRadar,
    /// Lidars.
    Lidar,
    /// Cameras that look ahead through the windscreen.
    ForwardCamera,
    /// Radars in the front corners.
    FrontCornerRadar,
    /// Radars in the rear corners.
    RearCornerRadar,
    /// Cameras that together look all round.
    SurroundCamera,
}

impl SensorGroup {
    /// All of them, in the order of work.
    pub const ALL: [Self; 6] = [
        Self::ForwardRadar,
        Self::Lidar,
        Self::ForwardCamera,
        Self::FrontCornerRadar,
        Self::RearCornerRadar,
        Self::SurroundCamera,
    ];

    /// The group of a sensor of this car. A corner radar ahead of the front axle is in front and one behind the rear axle
    /// in the rear, since that is the bumper it comes off with. Between the axles it is where it looks; if it looks
    /// straight aside, the nearer axle decides.
    pub fn of(sensor: &Sensor, car: &Vehicle) -> Self {
        /// Less than a sine or cosine is off by rounding, for "straight aside".
        const ASIDE: f64 = 1e-9;
        match sensor.kind {
            SensorKind::ForwardRadar(_) => Self::ForwardRadar,
            SensorKind::Lidar => Self::Lidar,
            SensorKind::ForwardCamera(_) => Self::ForwardCamera,
            SensorKind::SurroundCamera(_) => Self::SurroundCamera,
            SensorKind::CornerRadar(_) => {
                let ahead = libm::cos(sensor.azimuth_rad);
                let between = (-car.wheelbase_mm..=0.0).contains(&sensor.at.x);
                let in_front = if between && ahead.abs() > ASIDE {
                    ahead > 0.0
                } else {
                    sensor.at.x >= -car.wheelbase_mm * 0.5
                };
                if in_front { Self::FrontCornerRadar } else { Self::RearCornerRadar }
            }
        }
    }
}

/// One kind of work, and what it asks for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Trigger {
    /// Its name within the list.
    pub id: Id,
    /// The name on the screen.
    pub title: String,
    /// Which sensors are to be aimed again after it, each once. None only if the note says why.
    pub asks: Vec<SensorGroup>,
    /// What else to mind, such as that the wheels are aligned first; empty if there is nothing.
    pub note: String,
    /// Where that comes from.
    pub provenance: Provenance,
}

/// Which work asks for which sensors: a shop's own list.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TriggerList {
    /// The name on the screen.
    pub name: String,
    /// The kinds of work, in the order in which they are shown.
    pub triggers: Vec<Trigger>,
    /// Where the list as a whole comes from.
    pub provenance: Provenance,
}

/// One aiming of a visit.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct VisitLine {
    /// The aiming, by its name in the profile.
    pub aiming: Id,
    /// The work that asks for it, in the list's order.
    pub because: Vec<Id>,
}

/// A sensor that is asked for and that the profile cannot aim.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Missing {
    /// Of which kind.
    pub group: SensorGroup,
    /// The sensor that has no aiming; `None` if the profile has no sensor of this kind at all, so that either the car has
    /// none or nobody entered it.
    pub sensor: Option<Id>,
    /// The work that asks for it, in the list's order.
    pub because: Vec<Id>,
}

/// What a visit holds.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Visit {
    /// The aimings, in the order of work.
    pub lines: Vec<VisitLine>,
    /// What is asked for and cannot be done with this profile, in the same order.
    pub missing: Vec<Missing>,
    /// What was chosen and is not in the list, each once, by name: a list that was changed in the meantime.
    pub unknown: Vec<Id>,
}

/// The aimings that the chosen work asks for on this car, each once: group after group in the order of [`SensorGroup`],
/// within a group in the profile's order. In which order the work was chosen, or how often, does not matter.
pub fn aimings_for(car: &Vehicle, list: &TriggerList, chosen: &[Id]) -> Visit {
    let taken: Vec<&Trigger> = list.triggers.iter().filter(|t| chosen.contains(&t.id)).collect();
    let mut unknown: Vec<Id> =
        chosen.iter().filter(|id| !list.triggers.iter().any(|t| t.id == **id)).cloned().collect();
    unknown.sort_unstable();
    unknown.dedup();
    let mut visit = Visit { unknown, ..Visit::default() };
    for group in SensorGroup::ALL {
        let because: Vec<Id> =
            taken.iter().filter(|t| t.asks.contains(&group)).map(|t| t.id.clone()).collect();
        if because.is_empty() {
            continue;
        }
        let sensors: Vec<&Sensor> = car.sensors.iter().filter(|s| SensorGroup::of(s, car) == group).collect();
        let aimings = car.aimings.iter().filter(|a| sensors.iter().any(|s| s.id == a.sensor));
        visit.lines.extend(aimings.map(|a| VisitLine { aiming: a.id.clone(), because: because.clone() }));
        let missing = |sensor: Option<Id>| Missing { group, sensor, because: because.clone() };
        if sensors.is_empty() {
            visit.missing.push(missing(None));
        }
        let without = sensors.iter().filter(|s| !car.aimings.iter().any(|a| a.sensor == s.id));
        visit.missing.extend(without.map(|s| missing(Some(s.id.clone()))));
    }
    visit
}
