//! Dimensions that are kept with the bay.

use super::About;
use super::marks::wheel_name;
use super::names::the;
use crate::assessment::Subject;
use crate::model::{CarPoint, EndOn, ThingPoint};

impl About<'_> {
    /// On its line, short: one that does not follow any more is told from one that does.
    pub fn kept_dimension(&self, length: f64, is_loose: bool) -> String {
        let length = self.locale.bare(length);
        if is_loose { format!("{length} (loses Ende)") } else { length }
    }

    /// What an end lies on.
    pub fn dimension_end(&self, on: Option<&EndOn>) -> String {
        let Some(on) = on else { return "ein Punkt auf dem Boden".to_owned() };
        match on {
            EndOn::Corner(wall) => format!("die Ecke des Raums, an der {} beginnt", the(wall)),
            EndOn::Wall { wall, .. } => format!("ein Punkt auf {}", the(wall)),
            EndOn::SquareTo(wall) => format!("{}, rechtwinklig dazu", the(wall)),
            EndOn::Thing { thing, point } => match point {
                ThingPoint::Middle => format!("die Mitte von {}", the(thing)),
                ThingPoint::Corner(_) => format!("eine Ecke von {}", the(thing)),
                ThingPoint::Edge(_) => format!("die Mitte einer Seite von {}", the(thing)),
                ThingPoint::Rim(_) => format!("der Rand von {}", the(thing)),
            },
            EndOn::Mark(mark) | EndOn::LaidMark(mark) => format!("Marke {mark}"),
            EndOn::Car(point) => match point {
                CarPoint::Wheel(wheel) => format!("das Rad {} des Fahrzeugs", wheel_name(*wheel)),
                CarPoint::FrontAxle => "die Mitte der Vorderachse des Fahrzeugs".to_owned(),
                CarPoint::FrontBumper => "die Mitte des vorderen Stoßfängers".to_owned(),
                CarPoint::RearBumper => "die Mitte des hinteren Stoßfängers".to_owned(),
                CarPoint::Named(name) => format!("„{name}“ am Fahrzeug"),
            },
            EndOn::Sensor => self.subject(&Subject::Sensor),
            EndOn::Target(placement) => format!("das Ziel „{placement}“"),
        }
    }

    /// Why an end does not follow any more.
    pub fn dimension_end_gone(&self, on: &EndOn) -> String {
        let why = match on {
            EndOn::Corner(wall) | EndOn::Wall { wall, .. } | EndOn::SquareTo(wall) => {
                format!("{} gibt es zurzeit nicht", the(wall))
            }
            EndOn::Thing { thing, .. } => format!("{} gibt es zurzeit nicht", the(thing)),
            EndOn::Mark(mark) => format!("Marke {mark} gibt es zurzeit nicht"),
            // What goes with a car and its aiming is not there with another.
            EndOn::LaidMark(mark) => {
                format!("für Fahrzeug und Einstellung hier wird keine Marke {mark} gelegt")
            }
            EndOn::Target(placement) => format!("die Einstellung hier hat kein Ziel „{placement}“"),
            EndOn::Car(CarPoint::Named(name)) => format!("das Fahrzeug hier hat keinen Punkt „{name}“"),
            EndOn::Car(_) | EndOn::Sensor => {
                format!("{} gibt es zurzeit nicht", self.dimension_end(Some(on)))
            }
        };
        format!("Bleibt, wo es war: {why}.")
    }
}
