//! Which figures of a car were not entered but assumed.

use super::{Aiming, Id, Vehicle};

/// A figure that was not entered: what it belongs to, and which part of that.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Assumed {
    /// A figure of the body.
    Body(BodyPart),
    /// A figure of this sensor.
    Sensor(Id, SensorPart),
    /// A figure of this aiming.
    Aiming(Id, AimingPart),
    /// A figure of this aiming's zone of this name.
    Zone(Id, Id, ZonePart),
}

/// A list of parts: an enum, and all of them in the order in which they are named.
macro_rules! parts {
    ($(#[$about:meta])* $name:ident, $count:literal: $($(#[$what:meta])* $part:ident,)*) => {
        $(#[$about])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
        pub enum $name {
            $($(#[$what])* $part,)*
        }

        impl $name {
            /// All of them, in the order in which they are named.
            pub const ALL: [Self; $count] = [$(Self::$part),*];
        }
    };
}

parts! {
    /// A figure of the body that its class can give.
    BodyPart, 14:
    /// Overall length.
    Length,
    /// Width of the body.
    Width,
    /// Overall height.
    Height,
    /// Front axle to rear axle.
    Wheelbase,
    /// Front axle to foremost point.
    OverhangFront,
    /// Rear axle to rearmost point.
    OverhangRear,
    /// Tyre diameter.
    TyreDiameter,
    /// Tyre width.
    TyreWidth,
    /// Front track.
    TrackFront,
    /// Rear track.
    TrackRear,
    /// Ground clearance.
    GroundClearance,
    /// Door mirrors.
    Mirrors,
    /// Outline from above.
    OutlineTop,
    /// Outline from the side.
    OutlineSide,
}

parts! {
    /// What can be assumed of a sensor.
    SensorPart, 7:
    /// How far ahead of the front axle it sits.
    Ahead,
    /// How far to the left of the centreline it sits.
    Aside,
    /// How high it sits.
    Height,
    /// Where it looks.
    Boresight,
    /// What it sees.
    View,
    /// Frequency, bandwidth, beam; pixels.
    Kind,
    /// How its aim is set.
    Adjusted,
}

parts! {
    /// What can be assumed of an aiming.
    AimingPart, 13:
    /// The stand-off.
    StandOff,
    /// The target and its stand.
    Target,
    /// The target's height.
    TargetHeight,
    /// How near to its place the target must be.
    PlaceTolerance,
    /// The tolerance left and right.
    Azimuth,
    /// The tolerance up and down.
    Elevation,
    /// How far to each side must be kept clear.
    ClearAside,
    /// How far along must be kept clear.
    ClearAlong,
    /// What the floor must be.
    Floor,
    /// Room to work in.
    WorkingRoom,
    /// How the marks are laid.
    MarkPlan,
    /// What "straight ahead" means.
    Axis,
    /// How high must be kept clear.
    ClearHeight,
}

parts! {
    /// What can be assumed of a keep-clear zone that was added to an aiming.
    ZonePart, 2:
    /// How far it reaches, seen from above.
    Outline,
    /// From which height to which.
    Heights,
}

impl ZonePart {
    /// This figure of a zone of an aiming.
    pub fn of(self, aiming: &Id, zone: &Id) -> Assumed {
        Assumed::Zone(aiming.clone(), zone.clone(), self)
    }
}

impl SensorPart {
    /// This figure of a sensor.
    pub fn of(self, sensor: &Id) -> Assumed {
        Assumed::Sensor(sensor.clone(), self)
    }
}

impl AimingPart {
    /// This figure of an aiming.
    pub fn of(self, aiming: &Id) -> Assumed {
        Assumed::Aiming(aiming.clone(), self)
    }
}

impl From<BodyPart> for Assumed {
    fn from(part: BodyPart) -> Self {
        Self::Body(part)
    }
}

impl From<&Assumed> for Assumed {
    fn from(figure: &Assumed) -> Self {
        figure.clone()
    }
}

impl Vehicle {
    /// What was not entered and does not follow from what was: a rear overhang is what length, wheelbase and front overhang
    /// leave.
    pub fn guessed(&self) -> Vec<Assumed> {
        let makes_rear = [BodyPart::Length, BodyPart::Wheelbase, BodyPart::OverhangFront];
        let rear_follows = !makes_rear.iter().any(|part| self.is_assumed(*part));
        let follows = |figure: &&Assumed| rear_follows && **figure == BodyPart::OverhangRear.into();
        self.assumed.iter().filter(|figure| !follows(figure)).cloned().collect()
    }

    /// Whether a figure was not entered.
    pub fn is_assumed(&self, figure: impl Into<Assumed>) -> bool {
        self.assumed.contains(&figure.into())
    }

    /// Notes that a figure was entered; whether it was assumed before.
    pub fn enter(&mut self, figure: impl Into<Assumed>) -> bool {
        let (figure, before) = (figure.into(), self.assumed.len());
        self.assumed.retain(|own| *own != figure);
        self.assumed.len() < before
    }

    /// Notes that a figure is not known after all; what gives it gives it from then on.
    pub fn leave_open(&mut self, figure: impl Into<Assumed>) {
        let figure = figure.into();
        if !self.assumed.contains(&figure) {
            self.assumed.push(figure);
        }
    }

    /// Whether the car has what this figure belongs to.
    pub fn has_part(&self, figure: &Assumed) -> bool {
        match figure {
            Assumed::Body(_) => true,
            Assumed::Sensor(id, _) => self.sensors.iter().any(|own| own.id == *id),
            Assumed::Aiming(id, _) => self.aimings.iter().any(|own| own.id == *id),
            Assumed::Zone(id, zone, _) => {
                let has_zone = |own: &Aiming| own.zones.iter().any(|own| own.id == *zone);
                self.aimings.iter().any(|own| own.id == *id && has_zone(own))
            }
        }
    }

    /// A figure of what is no longer there is no longer assumed.
    pub fn forget_what_is_gone(&mut self) {
        let assumed = std::mem::take(&mut self.assumed);
        self.assumed = assumed.into_iter().filter(|figure| self.has_part(figure)).collect();
    }

    /// A sensor was copied: what is assumed of it is assumed of the copy.
    pub fn sensor_copied(&mut self, of: &Id, copy: &Id) {
        self.as_well(|figure| match figure {
            Assumed::Sensor(id, part) if id == of => Some(Assumed::Sensor(copy.clone(), *part)),
            _ => None,
        });
    }

    /// An aiming was copied, with its zones.
    pub fn aiming_copied(&mut self, of: &Id, copy: &Id) {
        self.as_well(|figure| match figure {
            Assumed::Aiming(id, part) if id == of => Some(Assumed::Aiming(copy.clone(), *part)),
            Assumed::Zone(id, zone, part) if id == of => {
                Some(Assumed::Zone(copy.clone(), zone.clone(), *part))
            }
            _ => None,
        });
    }

    /// Of what is assumed this is assumed as well.
    fn as_well(&mut self, copied: impl Fn(&Assumed) -> Option<Assumed>) {
        let copies: Vec<Assumed> = self.assumed.iter().filter_map(copied).collect();
        copies.into_iter().for_each(|figure| self.leave_open(figure));
    }

    /// A sensor has another name.
    pub(crate) fn sensor_renamed(&mut self, old: &Id, to: &Id) {
        for figure in &mut self.assumed {
            if let Assumed::Sensor(id, _) = figure
                && id == old
            {
                *id = to.clone();
            }
        }
    }

    /// An aiming has another name.
    pub(crate) fn aiming_renamed(&mut self, old: &Id, to: &Id) {
        for figure in &mut self.assumed {
            if let Assumed::Aiming(id, _) | Assumed::Zone(id, ..) = figure
                && id == old
            {
                *id = to.clone();
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::check::testing::vehicle;

    /// What nobody entered of a sensor or an aiming nobody entered of its copy.
    #[test]
    fn a_copy_is_no_better_known_than_what_it_was_copied_from() {
        let mut car = vehicle();
        let (sensor, aiming, zone, copy): (Id, Id, Id, Id) =
            ("radar".into(), "aiming".into(), "beam".into(), "copy".into());
        car.assumed = vec![
            Assumed::Sensor(sensor.clone(), SensorPart::Height),
            Assumed::Aiming(aiming.clone(), AimingPart::Target),
            Assumed::Zone(aiming.clone(), zone.clone(), ZonePart::ALL[0]),
            Assumed::Sensor("another".into(), SensorPart::Aside),
        ];
        let before = car.assumed.clone();
        car.sensor_copied(&sensor, &copy);
        assert_eq!(car.assumed[4..], [Assumed::Sensor(copy.clone(), SensorPart::Height)]);
        car.assumed.truncate(4);
        car.aiming_copied(&aiming, &copy);
        let of_copy = [
            Assumed::Aiming(copy.clone(), AimingPart::Target),
            Assumed::Zone(copy.clone(), zone, ZonePart::ALL[0]),
        ];
        assert_eq!(car.assumed[4..], of_copy);
        assert_eq!(car.assumed[..4], before);
    }
}
