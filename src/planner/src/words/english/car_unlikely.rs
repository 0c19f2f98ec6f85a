//! What hardly any car has, in words.

use super::marks::wheel_name;
use crate::assessment::Unlikely;

const fn axle(is_front: bool) -> &'static str {
    if is_front { "front" } else { "rear" }
}

pub(super) fn title(own: &Unlikely) -> String {
    match own {
        Unlikely::Toe(wheel) => format!("hardly any car has such a {} toe", wheel_name(*wheel)),
        Unlikely::Camber(wheel) => format!("hardly any car has such a {} camber", wheel_name(*wheel)),
        Unlikely::CambersApart { is_front } => {
            format!("the two {} cambers are far apart", axle(*is_front))
        }
        Unlikely::RearBack(wheel) => format!("the {} wheel stands back", wheel_name(*wheel)),
        Unlikely::Track { is_front } => {
            format!("the {} track is not the profile's", axle(*is_front))
        }
        Unlikely::Turned => "the centreline by the wheels is turned from the profile's".to_owned(),
        Unlikely::Arch(wheel) => format!("hardly any car's {} arch is so high or low", wheel_name(*wheel)),
        Unlikely::BodyPoint(id) => format!("{id} lies far from where the profile has it"),
        Unlikely::SheetAhead => "the alignment sheet's day is still to come".to_owned(),
        Unlikely::SheetOld => "the alignment sheet is not of this visit".to_owned(),
    }
}

pub(super) fn measure(own: &Unlikely, value: &str, limit: &str) -> String {
    match own {
        Unlikely::SheetAhead => format!("in {value}"),
        Unlikely::SheetOld => format!("{value} old, usual up to {limit}"),
        Unlikely::Arch(_) => format!("{value} off the tyre's top, usual up to {limit}"),
        Unlikely::Track { .. } | Unlikely::Turned | Unlikely::BodyPoint(_) => {
            format!("{value} off, usual up to {limit}")
        }
        Unlikely::CambersApart { .. } => format!("{value} apart, usual up to {limit}"),
        Unlikely::Toe(_) | Unlikely::Camber(_) | Unlikely::RearBack(_) => {
            format!("{value}, usual up to {limit}")
        }
    }
}

pub(super) const fn detail(own: &Unlikely) -> &'static str {
    match own {
        Unlikely::Toe(_) => {
            "Look whether unit and diameter are the sheet's own. If they are, the wheel wants its alignment before anything is aimed."
        }
        Unlikely::Camber(_) | Unlikely::CambersApart { .. } => {
            "Look whether unit and way are the sheet's own. If they are, a part is bent, and a hub that is plumbed lies far from its \
             tyre's middle: have the car put right first."
        }
        Unlikely::RearBack(_) => {
            "Measure the four wheels again. If it stays, an axle sits askew: have the car put right first. A few cars are built so; \
             their maker's figures say it."
        }
        Unlikely::Track { .. } => {
            "Measure the wheels again. Other rims or spacers change the track; ask what the procedure says of them."
        }
        Unlikely::Turned => {
            "The sensor is counted from the profile's centreline, the marks from the wheels'. Measure the wheels again; if it stays, the \
             body sits askew on its axles."
        }
        Unlikely::Arch(_) => "Tape from the wheel's middle, not from the floor, up to the arch's edge.",
        Unlikely::BodyPoint(_) => {
            "Plumb it again, and look at its sign and from where it was taped. Whatever counts from it is off by as much."
        }
        Unlikely::SheetAhead => "Look at its date.",
        Unlikely::SheetOld => {
            "Aiming goes by the alignment as it is now: measure it again, or enter the day of the sheet that holds."
        }
    }
}
