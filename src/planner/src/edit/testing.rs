//! A layout of two arrangements, made of the bay by which the checks are tested.

use super::things;
use crate::check::testing::{cabinet, clear};
use crate::model::{Id, Layout, Material, Opening, OpeningKind, OwnerFigures, Place, SavedArrangement};

/// The layout, and the name of its first arrangement: the bay with a cabinet and a door. The other one is like it.
pub(super) fn layout() -> (Layout, Id) {
    let arrangement = clear();
    let mut bay = arrangement.bay;
    bay.things = vec![cabinet("cabinet", (8_000.0, 5_000.0), 600.0, 400.0)];
    bay.openings = vec![Opening {
        id: "door".into(),
        kind: OpeningKind::RollerDoor,
        wall: 0,
        from_mm: 1_000.0,
        width_mm: 2_000.0,
        span: crate::geometry::Span::new(0.0, 2_500.0).unwrap(),
        material: Material::Steel,
        shut: true,
        free_beyond_mm: 0.0,
        is_exit: false,
    }];
    let here = Id::from("as found");
    let saved = SavedArrangement {
        id: here.clone(),
        vehicle: arrangement.vehicle.id.clone(),
        vehicle_fingerprint: None,
        aiming: arrangement.aiming.id.clone(),
        parked: arrangement.parked,
        parked_known: arrangement.parked_known,
        on_runways: Vec::new(),
        in_bay: None,
        kept_empty: Vec::new(),
        kept_shut: Vec::new(),
        at_once: Vec::new(),
        on_this_car: Default::default(),
        marks_taped: Vec::new(),
        laid_before: Vec::new(),
        stands_read: Vec::new(),
        building: None,
        stands: Vec::new(),
        moved: Vec::new(),
        away: Vec::new(),
        added: Vec::new(),
        shut: Vec::new(),
        visit: Vec::new(),
    };
    let other = SavedArrangement { id: "another one".into(), ..saved.clone() };
    (
        Layout {
            bay,
            arrangements: vec![saved, other],
            underlay: None,
            taped: None,
            owner: OwnerFigures::default(),
            shop_fingerprint: None,
        },
        here,
    )
}

/// Where a thing stands in an arrangement, if it is there.
pub(super) fn place_of(layout: &Layout, arrangement: &Id, thing: &str) -> Option<Place> {
    let at = layout.arrangements.iter().position(|own| own.id == *arrangement)?;
    let thing = Id::from(thing);
    if layout.arrangements[at].away.contains(&thing) {
        return None;
    }
    things::stands(layout, at, &thing).ok()
}
