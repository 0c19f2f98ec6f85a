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
        let from =
            if is_of_body { "Nach der Fahrzeugklasse angenommen" } else { "Angenommen, nicht eingetragen" };
        return format!("{from}: {}.", listed(&named(MOST)));
    }
    let told = named(MOST - 2);
    format!("Angenommen, nicht eingetragen: {} und {} weitere.", told.join(", "), figures.len() - told.len())
}

/// One figure, with what it belongs to.
pub(super) fn named(figure: &Assumed) -> String {
    match figure {
        Assumed::Body(part) => of_body(*part).to_owned(),
        Assumed::Sensor(id, part) => format!("„{id}“: {}", of_sensor(*part)),
        Assumed::Aiming(id, part) => format!("„{id}“: {}", of_aiming(*part)),
        Assumed::Zone(id, zone, part) => format!("„{id}“: {} von „{zone}“", of_zone(*part)),
    }
}

pub(super) const fn of_body(part: BodyPart) -> &'static str {
    match part {
        BodyPart::Length => "Länge",
        BodyPart::Width => "Breite",
        BodyPart::Height => "Höhe",
        BodyPart::Wheelbase => "Radstand",
        BodyPart::OverhangFront => "Überhang vorn",
        BodyPart::OverhangRear => "Überhang hinten",
        BodyPart::TyreDiameter => "Reifendurchmesser",
        BodyPart::TyreWidth => "Reifenbreite",
        BodyPart::TrackFront => "Spurweite vorn",
        BodyPart::TrackRear => "Spurweite hinten",
        BodyPart::GroundClearance => "Bodenfreiheit",
        BodyPart::Mirrors => "Spiegel",
        BodyPart::OutlineTop => "Umriss von oben",
        BodyPart::OutlineSide => "Umriss von der Seite",
    }
}

pub(super) const fn of_sensor(part: SensorPart) -> &'static str {
    match part {
        SensorPart::Ahead => "Lage vor der Vorderachse",
        SensorPart::Aside => "Lage neben der Mittellinie",
        SensorPart::Height => "Höhe",
        SensorPart::Boresight => "Blickrichtung",
        SensorPart::View => "Sichtfeld",
        SensorPart::Kind => "Bauart",
        SensorPart::Adjusted => "Art der Einstellung",
    }
}

pub(super) const fn of_aiming(part: AimingPart) -> &'static str {
    match part {
        AimingPart::StandOff => "Abstand",
        AimingPart::Target => "Ziel",
        AimingPart::TargetHeight => "Höhe des Ziels",
        AimingPart::PlaceTolerance => "Toleranz für den Platz des Ziels",
        AimingPart::Azimuth => "Toleranz seitlich",
        AimingPart::Elevation => "Toleranz in der Höhe",
        AimingPart::ClearAside => "Breite des Freiraums",
        AimingPart::ClearAlong => "Länge des Freiraums",
        AimingPart::ClearHeight => "Höhe des Freiraums",
        AimingPart::Floor => "Boden",
        AimingPart::WorkingRoom => "Arbeitsraum",
        AimingPart::MarkPlan => "Markenplan",
        AimingPart::Axis => "Bezugsachse",
    }
}

pub(super) const fn of_zone(part: ZonePart) -> &'static str {
    match part {
        ZonePart::Outline => "Ausdehnung",
        ZonePart::Heights => "Höhen",
    }
}
