//! Everything that can be done to a layout: one [`Edit`] says what, one function does it, and what was done is known by its
//! [`Deed`]. Nothing is done in part: either the layout after it, or a fault.

mod arrangements;
mod at_once;
mod bay;
mod bay_deed;
mod building;
mod deed;
mod dimensions;
mod in_bay;
mod mark_checks;
mod of_building;
mod parked;
mod redrawn;
mod step;
#[cfg(test)]
mod testing;
mod things;

use baywright_geometry::{DVec2, PlanPose, Span};

use crate::assessment::Step;
use crate::model::{
    Bay, Effort, Id, KeptDimension, Known, Layout, Material, Metal, OnThisCar, OwnerFigures, ParkedKnown,
    Place, SavedArrangement, Shape, StandRead, StandSet, Taken, Thing, ThingKind, Underlay,
};

pub use bay_deed::{BayDeed, BayPart};
pub use building::lost_by_adopting;
pub use deed::Deed;
pub use in_bay::set_up_in;
pub use of_building::OfBuilding;
pub use redrawn::{Redrawn, redrawn};
pub use things::is_built;

/// One change of a layout, seen from one arrangement.
#[derive(Clone, Debug, PartialEq)]
pub enum Edit {
    /// A thing stands elsewhere in this arrangement, or turned, or its place is known better or worse.
    Place {
        /// Which.
        thing: Id,
        /// Where it stands, and how well that is known.
        place: Place,
    },
    /// A thing has another shape, wherever it stands.
    Reshape {
        /// Which.
        thing: Id,
        /// Its new shape.
        shape: Shape,
    },
    /// A thing has other heights.
    Heights {
        /// Which.
        thing: Id,
        /// From its underside to its top.
        span: Span,
    },
    /// What is known of a thing. What is a part of the building by it, and was not before, is there in every arrangement made in
    /// it from here on, where it stands in this one ([`Edit::of_building`] tells what that changes in others).
    Describe {
        /// Which.
        thing: Id,
        /// What it is.
        kind: ThingKind,
        /// What its face is made of.
        material: Material,
        /// How much metal it holds, if known otherwise.
        metal: Option<Metal>,
        /// How well its place is known.
        known: Known,
        /// What it takes to move it.
        effort: Effort,
        /// Whether the hand may move it.
        locked: bool,
    },
    /// A thing has another name.
    Rename {
        /// Which.
        thing: Id,
        /// Its new name.
        name: Id,
    },
    /// A new thing: what is a part of the building in every arrangement made in it, anything else in this one. Where there is one
    /// arrangement only, it is the bay's.
    Add(Thing),
    /// A thing leaves this arrangement; where there is no other, the bay. What is a part of the building leaves the bay, and so
    /// every arrangement made in it.
    Remove(Id),
    /// A thing that is in this arrangement only, or stands elsewhere in it, is so in every one that is made in its bay.
    InEvery(Id),
    /// A thing of the bay is in this arrangement only, as it stands in it.
    HereAlone(Id),
    /// The car stands elsewhere; targets that were put somewhere stay where they are.
    Park(PlanPose),
    /// A target stands elsewhere.
    Stand {
        /// Whose.
        placement: Id,
        /// Where.
        set: StandSet,
    },
    /// A door is open or shut in this arrangement.
    Door {
        /// Which.
        door: Id,
        /// Whether it is shut.
        shut: bool,
    },
    /// Another car stands there, for one of its aimings.
    Car {
        /// The profile's name.
        vehicle: Id,
        /// The aiming's name.
        aiming: Id,
        /// The profile's present fingerprint, to be remembered.
        fingerprint: String,
    },
    /// The car's figures as they are now are taken: this content of its profile is the one to remember.
    Remember(String),
    /// The bay that this arrangement is made in is another, and what has another name now. Where the arrangement has its own
    /// building, what is built is other in this arrangement only.
    Bay {
        /// The bay, with its things where they stand at home.
        bay: Box<Bay>,
        /// A door, runway or bay of the hall that has another name.
        renamed: Option<(Id, Id)>,
    },
    /// A corner of that bay's room elsewhere, bay frame, mm.
    Corner {
        /// Which corner.
        corner: usize,
        /// To here.
        to: DVec2,
        /// Whether right angles stay: the walls beside it move on parallel to themselves.
        square: bool,
    },
    /// This arrangement gets a building of its own, as the bay's is: what is built is changed here only from now on.
    PlanBuilding,
    /// This arrangement is in the bay's building again; its own is given up.
    GiveUpBuilding,
    /// This arrangement's own building becomes the bay's, for every arrangement that has none of its own.
    AdoptBuilding,
    /// Another arrangement like this one, under this name, after it.
    Duplicate(Id),
    /// Another arrangement like this one, under this name, after it, and these changes made there.
    Apart {
        /// The new one's name.
        name: Id,
        /// What is done there.
        edits: Vec<Edit>,
    },
    /// This arrangement has another name.
    NameArrangement(Id),
    /// This arrangement is taken away.
    RemoveArrangement,
    /// The aimings of one visit, in their order.
    Visit(Vec<Id>),
    /// The picture under the plan; none to take it away.
    Underlay(Option<Underlay>),
    /// What the owner says of the bay that no check asks.
    Owner(Box<OwnerFigures>),
    /// A dimension is kept with the bay.
    KeepDimension(KeptDimension),
    /// A kept dimension has another name.
    RenameDimension {
        /// Which.
        dimension: Id,
        /// Its new name.
        name: Id,
    },
    /// A kept dimension is taken away.
    RemoveDimension(Id),
    /// How well it is known where the car stands.
    ParkedKnown(ParkedKnown),
    /// What was measured on this very car.
    OnThisCar(OnThisCar),
    /// What a tape read between two marks, mm, in place of all that was read there; `None` to take that away.
    Tape {
        /// From this mark.
        from: Id,
        /// To this one.
        to: Id,
        /// What it read.
        read_mm: Option<f64>,
        /// By whom, when, with what.
        taken: Taken,
    },
    /// All readings between marks are taken away: the marks were laid anew.
    LayAnew,
    /// The marks were laid once more, from the wheels on: what was read is kept as that of the earlier laying.
    LayAgain,
    /// What was read of the stand of one placement, in place of all that was read of it; nothing to take that away.
    ReadStand(StandRead),
    /// The runways that carry the car; none for the floor.
    Carried(Vec<Id>),
    /// The bay of the hall that this arrangement is made in, and those that are kept empty for it.
    InBay {
        /// The bay; `None` for none of them.
        bay: Option<Id>,
        /// The others that are kept empty; its own is left out.
        kept_empty: Vec<Id>,
    },
    /// The set-ups that are done at the same time, in other bays of the hall; none where this is done alone.
    AtOnce(Vec<Id>),
    /// A door is kept shut while this is aimed, or may be opened again.
    KeepShut {
        /// Which.
        door: Id,
        /// Whether it is.
        kept: bool,
    },
    /// What a cure says.
    Do(Step),
    /// Several at once: one step to undo.
    All(Vec<Edit>),
}

/// Why an edit was not done.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum EditFault {
    /// There is no such arrangement, thing, door or bay.
    NoSuch(Id),
    /// No arrangement stands there, or none would be left.
    NoArrangement,
    /// The name is taken.
    NameTaken(Id),
    /// The figures make no shape.
    NoShape,
}

impl Edit {
    /// The layout after this edit of the named arrangement.
    ///
    /// # Errors
    /// If it names something that is not there, a name that is taken, or figures that make no shape; the layout is
    /// then as it was.
    pub fn apply(&self, layout: &Layout, arrangement: &Id) -> Result<Layout, EditFault> {
        let mut after = layout.clone();
        self.apply_in(&mut after, arrangement)?;
        Ok(after)
    }

    /// The same on a layout of one's own.
    ///
    /// # Errors
    /// As [`Edit::apply`]; the layout may then be changed in part.
    pub fn apply_in(&self, layout: &mut Layout, arrangement: &Id) -> Result<(), EditFault> {
        let at = layout.arrangements.iter().position(|a| a.id == *arrangement);
        let at = at.ok_or_else(|| EditFault::NoSuch(arrangement.clone()))?;
        let ends = dimensions::places(layout, at);
        self.apply_to(layout, at)?;
        at_once::forget(layout);
        dimensions::remember(layout, at, &ends);
        Ok(())
    }

    fn apply_to(&self, layout: &mut Layout, at: usize) -> Result<(), EditFault> {
        match self {
            Self::Place { thing, place } => things::place(layout, at, thing, *place),
            Self::Reshape { thing, shape } => things::reshape(layout, at, thing, shape),
            Self::Heights { thing, span } => things::change(layout, at, thing, |own| own.span = *span),
            Self::Describe { thing, kind, material, metal, known, effort, locked } => {
                things::describe(layout, at, thing, *known, |own| {
                    (own.kind, own.material, own.metal) = (*kind, *material, *metal);
                    (own.effort, own.locked) = (*effort, *locked);
                })
            }
            Self::Rename { thing, name } => things::rename(layout, at, thing, name)
                .map(|()| dimensions::follow_thing(layout, thing, name)),
            Self::Add(thing) => things::add(layout, at, thing),
            Self::Remove(thing) => things::remove(layout, at, thing),
            Self::InEvery(thing) => things::in_every(layout, at, thing),
            Self::HereAlone(thing) => things::here_alone(layout, at, thing),
            Self::Park(pose) => here(layout, at, |own| parked::park(own, *pose)),
            Self::ParkedKnown(known) => here(layout, at, |own| own.parked_known = *known),
            Self::Stand { placement, set } => here(layout, at, |own| parked::stand(own, placement, *set)),
            Self::Car { vehicle, aiming, fingerprint } => {
                here(layout, at, |own| parked::car(own, vehicle, aiming, fingerprint))
            }
            Self::Remember(fingerprint) => {
                here(layout, at, |own| own.vehicle_fingerprint = Some(fingerprint.clone()))
            }
            Self::OnThisCar(measured) => here(layout, at, |own| own.on_this_car.clone_from(measured)),
            Self::Tape { from, to, read_mm, taken } => {
                here(layout, at, |own| parked::tape(own, (from, to), *read_mm, taken))
            }
            Self::LayAnew => here(layout, at, parked::lay_anew),
            Self::LayAgain => here(layout, at, parked::lay_again),
            Self::ReadStand(read) => here(layout, at, |own| parked::read_stand(own, read)),
            Self::Visit(aimings) => here(layout, at, |own| own.visit.clone_from(aimings)),
            Self::Carried(runways) => here(layout, at, |own| own.on_runways.clone_from(runways)),
            Self::InBay { bay, kept_empty } => in_bay::choose(layout, at, bay.as_ref(), kept_empty),
            Self::AtOnce(others) => at_once::choose(layout, at, others),
            Self::Door { door, shut } => bay::door(layout, at, door, *shut),
            Self::KeepShut { door, kept } => bay::keep_shut(layout, at, door, *kept),
            Self::Bay { bay, renamed } => {
                bay::replace(layout, at, bay, renamed.as_ref());
                Ok(())
            }
            Self::Corner { corner, to, square } => bay::corner(layout, at, *corner, *to, *square),
            Self::PlanBuilding => building::plan(layout, at),
            Self::GiveUpBuilding => building::give_up(layout, at),
            Self::AdoptBuilding => building::adopt(layout, at),
            Self::Owner(own) => {
                layout.owner.clone_from(own);
                Ok(())
            }
            Self::Underlay(picture) => {
                layout.underlay.clone_from(picture);
                Ok(())
            }
            Self::KeepDimension(own) => dimensions::keep(layout, own),
            Self::RenameDimension { dimension, name } => dimensions::rename(layout, dimension, name),
            Self::RemoveDimension(id) => dimensions::remove(layout, id),
            Self::Duplicate(name) => arrangements::duplicate(layout, at, name),
            Self::Apart { name, edits } => {
                arrangements::duplicate(layout, at, name)?;
                edits.iter().try_for_each(|edit| edit.apply_to(layout, at + 1))
            }
            Self::NameArrangement(name) => arrangements::rename(layout, at, name),
            Self::RemoveArrangement => arrangements::remove(layout, at),
            Self::Do(step) => {
                step::edits(step, layout, at)?.iter().try_for_each(|edit| edit.apply_to(layout, at))
            }
            Self::All(edits) => edits.iter().try_for_each(|edit| edit.apply_to(layout, at)),
        }
    }
}

/// Whether something in the bay, in one of its arrangements or in a building of theirs goes by this name.
pub fn is_taken(layout: &Layout, name: &Id) -> bool {
    let in_arrangement = |own: &SavedArrangement| {
        own.added.iter().any(|thing| thing.id == *name)
            || own.building.iter().any(|own| own.names().any(|id| id == name))
    };
    layout.bay.names().any(|id| id == name) || layout.arrangements.iter().any(in_arrangement)
}

fn saved(layout: &mut Layout, at: usize) -> Result<&mut SavedArrangement, EditFault> {
    layout.arrangements.get_mut(at).ok_or(EditFault::NoArrangement)
}

/// A change of the arrangement alone.
fn here(layout: &mut Layout, at: usize, change: impl FnOnce(&mut SavedArrangement)) -> Result<(), EditFault> {
    saved(layout, at).map(change)
}
