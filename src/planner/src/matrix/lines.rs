//! The lines of a list: cars, each with one of its aimings, in the room that they are to stand in.

use crate::model::{
    Arrangement, Id, InstrumentList, JudgedBy, Layout, OnThisCar, OwnerFigures, SavedArrangement, Vehicle,
};

/// A car and one of its aimings, in the room with the things as they stand.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// The set-up; where its car stands does not matter to what is asked anywhere.
    pub arrangement: Arrangement,
    /// Whether it is a set-up of the layout; else it was made for the question.
    pub is_saved: bool,
    /// How often it comes in, a month say: never negative.
    pub weight: f64,
}

impl Line {
    /// Whether another line is of the same car and aiming: another set-up of what comes in once.
    pub fn is_same_job(&self, other: &Self) -> bool {
        let (own, other) = (&self.arrangement, &other.arrangement);
        (&own.vehicle.id, &own.aiming.id) == (&other.vehicle.id, &other.aiming.id)
    }
}

/// Gives each line of a list its weight: how often its aiming comes in, as the owner says; once where that is not said. What is several
/// lines, set-ups of one car and aiming, comes in no more often for that: they share it.
pub fn weigh(lines: &mut [Line], owner: &OwnerFigures) {
    let alike: Vec<usize> =
        lines.iter().map(|own| lines.iter().filter(|other| own.is_same_job(other)).count()).collect();
    for (line, alike) in lines.iter_mut().zip(alike) {
        let own = &line.arrangement;
        let a_month = owner.a_month(&own.vehicle.id, &own.aiming.id).unwrap_or(1.0);
        line.weight = a_month / alike.max(1) as f64;
    }
}

/// The set-ups of a layout, each as it is.
pub fn lines_of_layout<'a>(arrangements: impl IntoIterator<Item = &'a Arrangement>) -> Vec<Line> {
    let line = |own: &Arrangement| Line { arrangement: own.clone(), is_saved: true, weight: 1.0 };
    arrangements.into_iter().map(line).collect()
}

/// The aimings of the visit of a set-up, in their order, in its room: all with its car.
pub fn lines_of_visit(layout: &Layout, of: &Arrangement) -> Vec<Line> {
    let Some(saved) = layout.arrangements.iter().find(|own| own.id == of.id) else { return Vec::new() };
    let all = lines_of_car(layout, of, &of.vehicle);
    let of_aiming = |id: &Id| all.iter().find(|own| own.arrangement.aiming.id == *id).cloned();
    saved.visit.iter().filter_map(of_aiming).collect()
}

/// All aimings of a car, in the room of a set-up of the layout and where its car stands; nothing was measured of this one, and its
/// stands are on their marks. What cannot be made is left out.
pub fn lines_of_car(layout: &Layout, room_of: &Arrangement, vehicle: &Vehicle) -> Vec<Line> {
    let Some(saved) = layout.arrangements.iter().find(|own| own.id == room_of.id) else { return Vec::new() };
    let by = JudgedBy {
        today: room_of.today,
        shop: room_of.shop,
        shop_unread: room_of.loading.shop_unread,
        instruments: InstrumentList::clone(&room_of.instruments),
    };
    let made = vehicle.aimings.iter().filter_map(|aiming| {
        let saved = SavedArrangement {
            id: Id::from(vehicle.id.as_str()),
            vehicle: vehicle.id.clone(),
            vehicle_fingerprint: None,
            aiming: aiming.id.clone(),
            on_this_car: OnThisCar::default(),
            marks_taped: Vec::new(),
            laid_before: Vec::new(),
            stands_read: Vec::new(),
            stands: Vec::new(),
            visit: Vec::new(),
            parked_known: room_of.shop.parked_anew(saved.parked_known),
            ..saved.clone()
        };
        let arrangement = layout.resolve(&saved, vehicle, "", by.clone()).ok()?;
        let arrangement = arrangement.beside_as(room_of);
        Some(Line { arrangement, is_saved: false, weight: 1.0 })
    });
    made.collect()
}
