//! Which figures of a keep-clear zone may be assumed, and what becomes of their marks when the zone gets another name, a copy, or
//! goes.

use super::starter::CLEAR_AREA;
use crate::model::assumed::{AimingPart, Assumed, ZonePart};
use crate::model::{Id, Vehicle};

/// The figures of one zone. The area that an aiming starts with is told by the aiming, along and aside by themselves; any other
/// zone has one figure for its outline.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ZoneFigures {
    /// How far it reaches along.
    pub along: Assumed,
    /// How far it reaches to the sides.
    pub aside: Assumed,
    /// From which height to which.
    pub heights: Assumed,
}

impl ZoneFigures {
    /// Those of this aiming's zone of this name.
    pub fn of(aiming: &Id, zone: &Id) -> Self {
        if zone.as_str() == CLEAR_AREA {
            let [along, aside, heights] =
                [AimingPart::ClearAlong, AimingPart::ClearAside, AimingPart::ClearHeight]
                    .map(|part| part.of(aiming));
            Self { along, aside, heights }
        } else {
            let outline = ZonePart::Outline.of(aiming, zone);
            Self { along: outline.clone(), aside: outline, heights: ZonePart::Heights.of(aiming, zone) }
        }
    }

    const fn all(&self) -> [&Assumed; 3] {
        [&self.along, &self.aside, &self.heights]
    }
}

impl Vehicle {
    /// A zone was added whose figures nobody typed.
    pub fn zone_added(&mut self, aiming: &Id, zone: &Id) {
        for figure in ZoneFigures::of(aiming, zone).all() {
            self.leave_open(figure);
        }
    }

    /// A zone was copied: what is assumed of it is assumed of the copy.
    pub fn zone_copied(&mut self, aiming: &Id, of: &Id, copy: &Id) {
        let (old, new) = (ZoneFigures::of(aiming, of), ZoneFigures::of(aiming, copy));
        for (old, new) in old.all().into_iter().zip(new.all()) {
            if self.is_assumed(old) {
                self.leave_open(new);
            }
        }
    }

    /// A zone has another name.
    pub fn zone_renamed(&mut self, aiming: &Id, old: &Id, to: &Id) {
        self.zone_copied(aiming, old, to);
        self.zone_gone(aiming, old);
    }

    /// A zone was taken away, or drawn and typed as a whole: nothing of it is assumed.
    pub fn zone_gone(&mut self, aiming: &Id, zone: &Id) {
        for figure in ZoneFigures::of(aiming, zone).all() {
            self.enter(figure);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::entry::starter::StartKind;
    use crate::model::VehicleClass;

    #[test]
    fn marks_go_with_their_zone() {
        let mut car = Vehicle::of_class(VehicleClass::Saloon);
        car.start_sensor(StartKind::ForwardRadar, "radar".into());
        let aiming = Id::from("radar aiming");
        car.start_aiming(&"radar".into(), aiming.clone());
        let of = |zone: &str| ZoneFigures::of(&aiming, &zone.into());
        let marks = |car: &Vehicle, zone: &str| of(zone).all().map(|own| car.is_assumed(own));
        assert_eq!(marks(&car, CLEAR_AREA), [true; 3]);
        car.enter(&of(CLEAR_AREA).heights);
        assert_eq!(marks(&car, CLEAR_AREA), [true, true, false], "each has its own mark");
        // A copy of it is as well known as it is.
        car.zone_copied(&aiming, &CLEAR_AREA.into(), &"copy".into());
        assert_eq!(marks(&car, "copy"), [true, true, false]);
        car.zone_renamed(&aiming, &CLEAR_AREA.into(), &"free floor".into());
        assert_eq!((marks(&car, CLEAR_AREA), marks(&car, "free floor")), ([false; 3], [true, true, false]));
        car.zone_gone(&aiming, &"copy".into());
        assert_eq!((marks(&car, "copy"), marks(&car, "free floor")), ([false; 3], [true, true, false]));
        car.zone_added(&aiming, &"another".into());
        assert_eq!(marks(&car, "another"), [true; 3]);
        // The aiming's own name goes along.
        car.aimings[0].zones[0].id = "another".into();
        car.rename_aiming(0, "other".into());
        assert!(car.is_assumed(ZonePart::Heights.of(&"other".into(), &"another".into())));
        car.forget_what_is_gone();
        assert!(!car.is_assumed(ZonePart::Outline.of(&"other".into(), &"free floor".into())));
        assert!(car.is_assumed(ZonePart::Outline.of(&"other".into(), &"another".into())));
    }
}
