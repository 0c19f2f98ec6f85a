//! A bay layout as saved: the bay and the arrangements made in it.

use baywright_geometry::{DVec2, PlanPose};

use super::fault::{Allowed, Fault, Found, Quote};
use super::{
    Arrangement, Bay, Building, Chosen, Id, Instrument, InstrumentKind, InstrumentList, JudgedBy, Loading,
    MarkTaped, OnThisCar, OwnerFigures, ParkedKnown, Place, Shop, StandRead, StandSet, Thing, Vehicle,
    chosen, levelled_with,
};

/// A thing that stands elsewhere in one arrangement than in the bay.
#[derive(Clone, Debug, PartialEq)]
pub struct Moved {
    /// Which thing.
    pub thing: Id,
    /// Where it stands now, and how well that is known.
    pub place: Place,
}

/// One saved arrangement: which car, which aiming, what differs from the bay.
#[derive(Clone, Debug, PartialEq)]
pub struct SavedArrangement {
    /// Its name, unique in the layout.
    pub id: Id,
    /// The car's profile, by id.
    pub vehicle: Id,
    /// The profile's fingerprint when the arrangement was saved, if it was remembered.
    pub vehicle_fingerprint: Option<String>,
    /// The aiming, by id.
    pub aiming: Id,
    /// Where the car stands: bay from vehicle.
    pub parked: PlanPose,
    /// How well that is known.
    pub parked_known: ParkedKnown,
    /// The runways that carry it; empty on the floor.
    pub on_runways: Vec<Id>,
    /// The bay of the hall that it is made in; `None` where the room is one bay, or none was chosen.
    pub in_bay: Option<Id>,
    /// Other bays of the hall that are kept empty while this is aimed.
    pub kept_empty: Vec<Id>,
    /// Doors that are kept shut, and locked where they are no way out, while this is aimed; of one that stands open it says nothing.
    pub kept_shut: Vec<Id>,
    /// Other set-ups that are done at the same time, in other bays of the hall; it counts both ways, whichever names the other.
    pub at_once: Vec<Id>,
    /// What was measured on this very car.
    pub on_this_car: OnThisCar,
    /// What the tape read between the marks that were laid for it, in the order in which they were taped.
    pub marks_taped: Vec<MarkTaped>,
    /// What it read between them when they were laid the first time, if they were laid twice.
    pub laid_before: Vec<MarkTaped>,
    /// What was read of the stands as they were set for it, one for each placement at most.
    pub stands_read: Vec<StandRead>,
    /// Its own building, if it is not in the bay's; what follows is said of the things, doors and runways of that.
    pub building: Option<Box<Building>>,
    /// Where the stands are, one for each placement of the aiming; missing ones are on their marks.
    pub stands: Vec<(Id, StandSet)>,
    /// Things that stand elsewhere.
    pub moved: Vec<Moved>,
    /// Things that were taken out of the bay.
    pub away: Vec<Id>,
    /// Things that are there only in this arrangement.
    pub added: Vec<Thing>,
    /// Doors that are open or shut, other than the bay says.
    pub shut: Vec<(Id, bool)>,
    /// The aimings of this car that are done in one visit, in their order; empty if none was planned.
    pub visit: Vec<Id>,
}

/// A picture under the plan, such as a photographed drawing of the building.
#[derive(Clone, Debug, PartialEq)]
pub struct Underlay {
    /// The picture's file, seen from the layout's own.
    pub picture: String,
    /// How much of the bay one pixel covers, mm.
    pub mm_per_px: f64,
    /// Where its lower left corner lies in the bay.
    pub at: DVec2,
    /// How it is turned about that corner, radians anticlockwise.
    pub turned_rad: f64,
    /// How faded it is: 0 as it is, 1 not seen at all.
    pub faded: f64,
}

/// How faded an underlay is if nothing else is said: half, so that the plan stands out.
pub const UNDERLAY_FADED: f64 = 0.5;

/// How the room was taped, wall after wall, so that its closing error can be shown again.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct TapedRoom {
    /// Where the first wall runs, radians anticlockwise from the bay's x.
    pub start_turned_rad: f64,
    /// The walls in the order in which they were taped.
    pub walls: Vec<TapedWall>,
}

/// One wall as taped.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct TapedWall {
    /// Its length, mm.
    pub length_mm: f64,
    /// How the next wall turns off at its end, radians anticlockwise.
    pub turn_rad: f64,
    /// Its name, if it was given one.
    pub name: Option<Id>,
}

/// A bay with its saved arrangements.
#[derive(Clone, Debug, PartialEq)]
pub struct Layout {
    /// The bay.
    pub bay: Bay,
    /// The arrangements, in the file's order.
    pub arrangements: Vec<SavedArrangement>,
    /// A picture under the plan, if there is one.
    pub underlay: Option<Underlay>,
    /// How the room was taped, if it was.
    pub taped: Option<TapedRoom>,
    /// What the owner says that no check asks.
    pub owner: OwnerFigures,
    /// The mark of the shop's settings by which it was judged when it was saved ([`super::Shop::fingerprint`]), if it was
    /// remembered.
    pub shop_fingerprint: Option<String>,
}

/// Why a saved arrangement cannot be made: it names something that is not there.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ResolveFault {
    /// The arrangement.
    pub arrangement: Id,
    /// The field, such as `aiming` or `moved[2].thing`.
    pub field: String,
    /// What it names.
    pub found: Id,
    /// What it could name.
    pub allowed: Vec<Id>,
}

impl From<ResolveFault> for Fault {
    /// The same as a fault of the arrangement's field.
    fn from(fault: ResolveFault) -> Self {
        let name = fault.found.as_str();
        Self {
            found: Found::Word(Quote::of(name)),
            allowed: Allowed::one_of(name, &fault.allowed),
            field: fault.field,
        }
    }
}

impl Layout {
    /// The other aimings of the visit that an arrangement is in, in their order: the same car in the same place, each target on
    /// its mark. None if no visit was planned.
    pub fn others_of_visit(&self, of: &Arrangement) -> Vec<Arrangement> {
        let saved = self.arrangements.iter().find(|own| own.id == of.id);
        saved.map_or_else(Vec::new, |own| self.with_aimings(of, &own.visit))
    }

    /// The same set-up for other aimings of the car, in this order; its own is left out.
    pub fn with_aimings(&self, of: &Arrangement, aimings: &[Id]) -> Vec<Arrangement> {
        let Some(saved) = self.arrangements.iter().find(|own| own.id == of.id) else { return Vec::new() };
        let by = JudgedBy {
            today: of.today,
            shop: of.shop,
            shop_unread: of.loading.shop_unread,
            instruments: InstrumentList::clone(&of.instruments),
        };
        let others = aimings.iter().filter(|id| **id != of.aiming.id);
        let asked = others.map(|id| SavedArrangement {
            aiming: id.clone(),
            vehicle_fingerprint: None,
            stands: Vec::new(),
            ..saved.clone()
        });
        // One that cannot be made is a fault of the file, and was refused.
        let made = asked.filter_map(|own| self.resolve(&own, &of.vehicle, "", by.clone()).ok());
        made.map(|own| own.beside_as(of)).collect()
    }

    /// The mark of what its answers depend on beside itself: the shop's settings and, of its instruments, those with which something
    /// was read. A layout in which nothing was read with any has the settings' own ([`Shop::fingerprint`]).
    pub fn judged_mark(&self, shop: &Shop, instruments: &[Instrument]) -> String {
        let plain = shop.with_instruments(instruments).fingerprint();
        let taped = self.arrangements.iter().flat_map(|own| own.marks_taped.iter().chain(&own.laid_before));
        let taped = taped.filter_map(|own| own.taken.with.as_ref()).map(Id::as_str);
        // What names no tape counts with the only one that there is, if more is known of it than of any.
        let only = match chosen(instruments, InstrumentKind::SteelTape, None) {
            Chosen::One(own) if own.has_figures() => Some(own.name.as_str()),
            _ => None,
        };
        // How surely levels are known follows from it where their survey does not say.
        let surveys =
            self.bay.survey.iter().chain(self.bay.runways.iter().filter_map(|own| own.survey.as_ref()));
        let surveyed = surveys.filter(|own| own.how.within_mm.is_none()).filter_map(|own| {
            levelled_with(instruments, own.how.with.as_deref()).map(|own| own.name.as_str())
        });
        let mut named: Vec<&str> = taped.chain(only).chain(surveyed).collect();
        named.sort_unstable();
        named.dedup();
        let said: Vec<String> = instruments
            .iter()
            .filter(|own| named.binary_search(&own.name.as_str()).is_ok())
            .map(|own| own.said(shop))
            .collect();
        match said.as_slice() {
            [] => plain,
            said => format!("{:016x}", super::fnv1a(format!("{plain},{}", said.join(",")).as_bytes())),
        }
    }

    /// The arrangement as it stands: the bay's things where this arrangement has them, this car, this aiming. What is done beside it at
    /// the same time is not in it yet: see [`crate::at_once::beside`].
    /// `fingerprint` is the profile's present one.
    ///
    /// # Errors
    /// If the arrangement names an aiming, sensor, thing, door, runway, bay or placement that is not there.
    pub fn resolve(
        &self,
        saved: &SavedArrangement,
        vehicle: &Vehicle,
        fingerprint: &str,
        by: impl Into<JudgedBy>,
    ) -> Result<Arrangement, ResolveFault> {
        let by = by.into();
        let fault = |field: String, found: &Id, allowed: Vec<Id>| ResolveFault {
            arrangement: saved.id.clone(),
            field,
            found: found.clone(),
            allowed,
        };
        let aiming = vehicle.aimings.iter().find(|a| a.id == saved.aiming).ok_or_else(|| {
            fault("aiming".into(), &saved.aiming, vehicle.aimings.iter().map(|a| a.id.clone()).collect())
        })?;
        if let Some((i, id)) =
            saved.visit.iter().enumerate().find(|(_, id)| !vehicle.aimings.iter().any(|a| a.id == **id))
        {
            let aimings = vehicle.aimings.iter().map(|a| a.id.clone()).collect();
            return Err(fault(format!("visit[{i}]"), id, aimings));
        }
        let sensor = vehicle.sensors.iter().find(|s| s.id == aiming.sensor).ok_or_else(|| {
            fault("sensor".into(), &aiming.sensor, vehicle.sensors.iter().map(|s| s.id.clone()).collect())
        })?;

        let mut bay = self.bay_of(saved).into_owned();
        let things: Vec<Id> = bay.things.iter().map(|t| t.id.clone()).collect();
        for (i, moved) in saved.moved.iter().enumerate() {
            let thing = bay.things.iter_mut().find(|t| t.id == moved.thing);
            let thing =
                thing.ok_or_else(|| fault(format!("moved[{i}].thing"), &moved.thing, things.clone()))?;
            thing.place = moved.place;
        }
        for (i, away) in saved.away.iter().enumerate() {
            if !things.contains(away) {
                return Err(fault(format!("away[{i}]"), away, things));
            }
        }
        bay.things.retain(|t| !saved.away.contains(&t.id));
        bay.things.extend(saved.added.iter().cloned());
        let doors: Vec<Id> = bay.openings.iter().map(|o| o.id.clone()).collect();
        for (i, (door, shut)) in saved.shut.iter().enumerate() {
            let opening = bay.openings.iter_mut().find(|o| o.id == *door);
            opening.ok_or_else(|| fault(format!("shut[{i}]"), door, doors.clone()))?.shut = *shut;
        }
        if let Some((i, id)) = saved.kept_shut.iter().enumerate().find(|(_, id)| !doors.contains(id)) {
            return Err(fault(format!("kept_shut[{i}]"), id, doors));
        }
        let runways: Vec<Id> = bay.runways.iter().map(|r| r.id.clone()).collect();
        if let Some((i, id)) = saved.on_runways.iter().enumerate().find(|(_, id)| !runways.contains(id)) {
            return Err(fault(format!("on_runways[{i}]"), id, runways));
        }
        let bays: Vec<Id> = bay.bays.iter().map(|own| own.id.clone()).collect();
        let kept = saved.kept_empty.iter().enumerate().map(|(i, id)| (format!("kept_empty[{i}]"), id));
        let named = saved.in_bay.iter().map(|id| ("in_bay".to_owned(), id)).chain(kept);
        if let Some((field, id)) = named.into_iter().find(|(_, id)| !bays.contains(id)) {
            return Err(fault(field, id, bays));
        }
        let placements: Vec<Id> = aiming.placements.iter().map(|p| p.id.clone()).collect();
        if let Some((i, (id, _))) =
            saved.stands.iter().enumerate().find(|(_, (id, _))| !placements.contains(id))
        {
            return Err(fault(format!("stands[{i}].placement"), id, placements));
        }
        let stands = placements
            .iter()
            .map(|id| {
                saved.stands.iter().find(|(named, _)| named == id).map_or(StandSet::OnMark, |(_, set)| *set)
            })
            .collect();

        let changed =
            saved.vehicle_fingerprint.as_deref().is_some_and(|remembered| remembered != fingerprint);
        let own_building = saved.building.is_some();
        let shop_changed = self
            .shop_fingerprint
            .as_ref()
            .is_some_and(|own| *own != self.judged_mark(&by.shop, &by.instruments));
        Ok(Arrangement {
            id: saved.id.clone(),
            bay,
            aiming: aiming.clone(),
            sensor: sensor.clone(),
            vehicle: vehicle.clone(),
            parked: saved.parked,
            parked_known: saved.parked_known,
            on_runways: saved.on_runways.clone(),
            in_bay: saved.in_bay.clone(),
            kept_empty: saved.kept_empty.clone(),
            kept_shut: saved.kept_shut.clone(),
            beside: Vec::new(),
            on_this_car: saved.on_this_car.clone(),
            marks_taped: saved.marks_taped.clone(),
            laid_before: saved.laid_before.clone(),
            stands_read: saved.stands_read.clone(),
            stands,
            today: by.today,
            shop: by.shop.with_instruments(&by.instruments),
            instruments: by.instruments,
            loading: Loading {
                profile_changed: changed,
                shop_changed,
                shop_unread: by.shop_unread,
                own_building,
            },
        })
    }
}
