//! What was assumed of a car.

use super::listed;
use crate::model::assumed::{AimingPart, Assumed, BodyPart, SensorPart, ZonePart};

/// What was assumed, in one sentence: all of it if it is little, else the first of it and how much more.
pub(super) fn sentence(figures: &[Assumed]) -> String {
    /// So many figures are named.
    const MOST: usize = 6;
    let named = |count: usize| -> Vec<String> { figures.iter().take(count).map(named).collect() };
    if figures.len() <= MOST {
        // What a sensor or an aiming begins with is what is usual, whatever the body.
        let is_of_body = figures.iter().all(|figure| matches!(figure, Assumed::Body(_)));
        let from = if is_of_body { "Assumed from the body class" } else { "Assumed, not entered" };
        return format!("{from}: {}.", listed(&named(MOST)));
    }
    let told = named(MOST - 2);
    format!("Assumed, not entered: {} and {} more.", told.join(", "), figures.len() - told.len())
}

/// One figure, with what it belongs to.
pub(super) fn named(figure: &Assumed) -> String {
    match figure {
        Assumed::Body(part) => of_body(*part).to_owned(),
        Assumed::Sensor(id, part) => format!("{id}: {}", of_sensor(*part)),
        Assumed::Aiming(id, part) => format!("{id}: {}", of_aiming(*part)),
        Assumed::Zone(id, zone, part) => format!("{id}: {} of {zone}", of_zone(*part)),
    }
}

pub(super) const fn of_body(part: BodyPart) -> &'static str {
    match part {
        BodyPart::Length => "length",
        BodyPart::Width => "width",
        BodyPart::Height => "height",
        BodyPart::Wheelbase => "wheelbase",
        BodyPart::OverhangFront => "front overhang",
        BodyPart::OverhangRear => "rear overhang",
        BodyPart::TyreDiameter => "tyre diameter",
        BodyPart::TyreWidth => "tyre width",
        BodyPart::TrackFront => "front track",
        BodyPart::TrackRear => "rear track",
        BodyPart::GroundClearance => "ground clearance",
        BodyPart::Mirrors => "mirrors",
        BodyPart::OutlineTop => "outline from above",
        BodyPart::OutlineSide => "outline from the side",
    }
}

pub(super) const fn of_sensor(part: SensorPart) -> &'static str {
    match part {
        SensorPart::Ahead => "place ahead of the front axle",
        SensorPart::Aside => "place off the centreline",
        SensorPart::Height => "height",
        SensorPart::Boresight => "boresight",
        SensorPart::View => "field of view",
        SensorPart::Kind => "what it is made of",
        SensorPart::Adjusted => "how it is set",
    }
}

pub(super) const fn of_aiming(part: AimingPart) -> &'static str {
    match part {
        AimingPart::StandOff => "stand-off",
        AimingPart::Target => "target",
        AimingPart::TargetHeight => "target height",
        AimingPart::PlaceTolerance => "how near the target must be",
        AimingPart::Azimuth => "tolerance left and right",
        AimingPart::Elevation => "tolerance up and down",
        AimingPart::ClearAside => "keep-clear width",
        AimingPart::ClearAlong => "keep-clear length",
        AimingPart::ClearHeight => "keep-clear height",
        AimingPart::Floor => "floor",
        AimingPart::WorkingRoom => "working room",
        AimingPart::MarkPlan => "mark plan",
        AimingPart::Axis => "reference axis",
    }
}

pub(super) const fn of_zone(part: ZonePart) -> &'static str {
    match part {
        ZonePart::Outline => "reach",
        ZonePart::Heights => "heights",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_the_body_is_assumed_from_its_class() {
        let body = Assumed::Body(BodyPart::Mirrors);
        let floor = Assumed::Aiming("radar".into(), AimingPart::Floor);
        assert_eq!(sentence(std::slice::from_ref(&body)), "Assumed from the body class: mirrors.");
        assert_eq!(sentence(&[body, floor]), "Assumed, not entered: mirrors and radar: floor.");
    }
}
