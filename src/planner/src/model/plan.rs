//! Changing a mark plan: steps are added, moved and removed so that every mark still counts from the same marks.

use baywright_geometry::marks::{Construction, Reach};

use super::{Aiming, Datum, Id, MarkStep, ZoneFrame};

/// Why a step of a mark plan cannot be moved or removed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PlanFault {
    /// There is no such step, or nothing to change it with.
    NoSuch,
    /// It would come before a mark that it uses, or after one that uses it.
    OutOfOrder,
    /// Other marks, a target or a stand-off are found from it.
    Used,
}

impl Aiming {
    /// Swaps a step with the next one.
    ///
    /// # Errors
    /// The next one uses it, or there is none.
    pub fn swap_marks(&mut self, first: usize) -> Result<(), PlanFault> {
        let second = first + 1;
        let next = self.mark_plan.get(second).ok_or(PlanFault::NoSuch)?;
        if next.construction.uses().contains(&first) {
            return Err(PlanFault::OutOfOrder);
        }
        self.mark_plan.swap(first, second);
        let other = |mark: usize| match mark {
            mark if mark == first => second,
            mark if mark == second => first,
            mark => mark,
        };
        for step in &mut self.mark_plan {
            step.construction = step.construction.with_uses(|_, mark| other(mark));
        }
        Ok(())
    }

    /// Removes a step.
    ///
    /// # Errors
    /// Another mark, a target or a stand-off is found from it, or there is no such step.
    pub fn remove_mark(&mut self, at: usize) -> Result<(), PlanFault> {
        let step = self.mark_plan.get(at).ok_or(PlanFault::NoSuch)?;
        let of_mark = self.mark_plan.iter().any(|own| own.construction.uses().contains(&at));
        if of_mark || self.placements.iter().any(|own| own.mark.as_ref() == Some(&step.id)) {
            return Err(PlanFault::Used);
        }
        let counts = self.placements.iter().any(|own| own.stand_off.from == Datum::FrontSpots);
        if counts && self.front_spots().is_some_and(|spots| spots.contains(&at)) {
            return Err(PlanFault::Used);
        }
        self.mark_plan.remove(at);
        for step in &mut self.mark_plan {
            step.construction =
                step.construction.with_uses(|_, mark| if mark > at { mark - 1 } else { mark });
        }
        Ok(())
    }

    /// Gives a mark another name, and the targets over it; nothing happens if the name is taken or empty.
    pub fn rename_mark(&mut self, at: usize, to: Id) {
        if to.as_str().is_empty() || self.mark_plan.iter().any(|step| step.id == to) {
            return;
        }
        let Some(step) = self.mark_plan.get_mut(at) else { return };
        let old = std::mem::replace(&mut step.id, to.clone());
        for own in self.placements.iter_mut().filter(|own| own.mark.as_ref() == Some(&old)) {
            own.mark = Some(to.clone());
        }
    }

    /// Lets a step use another mark: the `nth` of [`crate::geometry::marks::Construction::uses`].
    ///
    /// # Errors
    /// The mark does not come before the step.
    pub fn use_mark(&mut self, at: usize, nth: usize, mark: usize) -> Result<(), PlanFault> {
        if mark >= at {
            return Err(PlanFault::OutOfOrder);
        }
        let step: &mut MarkStep = self.mark_plan.get_mut(at).ok_or(PlanFault::NoSuch)?;
        step.construction = step.construction.with_uses(|place, own| if place == nth { mark } else { own });
        Ok(())
    }
}

impl Aiming {
    /// Changes the order of two placements; marks that go abreast of one still do.
    pub fn swap_placements(&mut self, first: usize, second: usize) {
        if first >= self.placements.len() || second >= self.placements.len() {
            return;
        }
        self.placements.swap(first, second);
        for step in &mut self.mark_plan {
            if let Construction::Prolong { reach: Reach::AbreastOf(target), .. } = &mut step.construction {
                if *target == first {
                    *target = second;
                } else if *target == second {
                    *target = first;
                }
            }
        }
    }

    /// Gives a placement another name, everywhere in the aiming; whether it did: not one that another has.
    pub fn rename_placement(&mut self, at: usize, to: &Id) -> bool {
        let Some(was) = self.placements.get(at).map(|own| own.id.clone()) else { return false };
        if self.placements.iter().any(|other| other.id == *to) {
            return false;
        }
        for zone in self.zones.iter_mut().filter(|zone| zone.frame == ZoneFrame::Target(was.clone())) {
            zone.frame = ZoneFrame::Target(to.clone());
        }
        let named = self.placements.iter_mut().filter_map(|other| other.with.as_mut()).flatten();
        for id in named.filter(|id| **id == was) {
            id.clone_from(to);
        }
        if let Some(own) = self.placements.get_mut(at) {
            own.id = to.clone();
        }
        true
    }

    /// Removes a placement, unless it is the last one or a mark or a zone goes with it; whether it did.
    pub fn remove_placement(&mut self, at: usize) -> bool {
        let Some(own) = self.placements.get(at) else { return false };
        let frame = ZoneFrame::Target(own.id.clone());
        let abreast = |step: &MarkStep| matches!(step.construction, Construction::Prolong { reach: Reach::AbreastOf(target), .. } if target == at);
        if self.placements.len() < 2
            || self.mark_plan.iter().any(abreast)
            || self.zones.iter().any(|zone| zone.frame == frame)
        {
            return false;
        }
        let gone = self.placements.remove(at).id;
        for with in self.placements.iter_mut().filter_map(|other| other.with.as_mut()) {
            with.retain(|id| *id != gone);
        }
        for step in &mut self.mark_plan {
            if let Construction::Prolong { reach: Reach::AbreastOf(target), .. } = &mut step.construction
                && *target > at
            {
                *target -= 1;
            }
        }
        true
    }
}
