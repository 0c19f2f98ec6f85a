//! For whom a floor plan is, and what belongs on it.

use baywright_planner::model::{Effort, KeepFreeKind, Thing, ThingKind};

/// Who works by a floor plan.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Trade {
    /// Who owns the bay, and who paints its floor.
    Paint,
    /// Who pours or levels the floor.
    Concrete,
    /// Who wires it.
    Electric,
}

impl Trade {
    /// Whether a thing belongs on the plan: what stays, and for who wires what hangs.
    pub fn shows(self, thing: &Thing) -> bool {
        let hangs = matches!(
            thing.kind,
            ThingKind::Lamp | ThingKind::Heater | ThingKind::DoorTrack | ThingKind::Beam
        );
        match self {
            Self::Electric => hangs || stays(thing),
            Self::Paint | Self::Concrete => !hangs && stays(thing),
        }
    }

    /// Whether an area that is kept free belongs on it.
    pub const fn shows_free(self, kind: KeepFreeKind) -> bool {
        match self {
            Self::Paint => true,
            Self::Concrete => false,
            Self::Electric => matches!(kind, KeepFreeKind::Panel),
        }
    }
}

/// Whether a thing is part of the building or fixed to it.
fn stays(thing: &Thing) -> bool {
    thing.effort == Effort::Fixed || matches!(thing.kind, ThingKind::Column | ThingKind::LiftPost)
}
