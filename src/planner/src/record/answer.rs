//! One answer for the whole visit: which of its aimings this one parking place serves, which need another, and in which order the moves
//! come.

use baywright_geometry::{DVec2, PlanPose};

use crate::assess::{assess, assess_fully};
use crate::assessment::{Step, Verdict};
use crate::cure::apply;
use crate::judge::judge;
use crate::model::{Arrangement, Id};

/// The answer for a visit.
#[derive(Clone, Debug, PartialEq)]
pub struct VisitAnswer {
    /// Where the car stands, one place after the other, with what is aimed there in its order. The first is where it stands now, if that
    /// serves any.
    pub places: Vec<PlaceAnswer>,
    /// The aimings for which no way is known in this bay, in the visit's order.
    pub no_way: Vec<Id>,
    /// What is done stands in another order than the visit's list, so that the car is parked no oftener than it must be: where the maker
    /// gives an order, that comes first.
    pub is_regrouped: bool,
    /// The worst of all after the moves: not ready if there is no way for one.
    pub verdict: Verdict,
}

/// One place where the car is parked.
#[derive(Clone, Debug, PartialEq)]
pub struct PlaceAnswer {
    /// How it comes there.
    pub way: Way,
    /// Bay from vehicle.
    pub parked: PlanPose,
    /// What is aimed there, in the order in which it is done.
    pub parts: Vec<PartAnswer>,
}

/// How the car comes to a place.
#[derive(Clone, Debug, PartialEq)]
pub enum Way {
    /// It stands there.
    StandsThere,
    /// It is parked so far from where it stood at first, bay frame, mm, pointing the same way: all marks are laid anew.
    Moved(DVec2),
    /// It is parked as a saved set-up has it, with the things where that has them.
    AsSetUp(Id),
}

/// One aiming at its place.
#[derive(Clone, Debug, PartialEq)]
pub struct PartAnswer {
    /// Which.
    pub aiming: Id,
    /// What is moved before it, after all that was moved for those before; none if nothing must be.
    pub before: Vec<Step>,
    /// What is said of it then.
    pub verdict: Verdict,
}

impl VisitAnswer {
    /// The aimings in the order in which they are done; those without a way are not among them.
    pub fn order(&self) -> impl Iterator<Item = &Id> {
        self.places.iter().flat_map(|place| &place.parts).map(|own| &own.aiming)
    }

    /// Whether all are done where the car stands.
    pub fn is_one_place(&self) -> bool {
        self.no_way.is_empty()
            && matches!(self.places.as_slice(), [PlaceAnswer { way: Way::StandsThere, .. }])
    }
}

/// The answer for a visit: a set-up for each aiming, all parked where the car stands, in the visit's order, which is the order of the list that
/// was made from the work (group after group, within one as the profile has them), or as the shop changed it. `elsewhere` are other saved
/// set-ups of the same car that may serve an aiming which has no way here. Each aiming is judged with all that was moved for those
/// before it. It takes as long as looking for a way for each does: it is for a job, not for a frame.
pub fn answer(visit: &[Arrangement], elsewhere: &[Arrangement]) -> VisitAnswer {
    let mut moved: Vec<Step> = Vec::new();
    let mut places: Vec<PlaceAnswer> = Vec::new();
    let mut later: Vec<Later> = Vec::new();
    let mut no_way = Vec::new();
    let mut here: Vec<PartAnswer> = Vec::new();
    for own in visit {
        let aiming = &own.aiming.id;
        match look(own, &moved) {
            Look::Here(part) => {
                moved.extend(part.before.iter().cloned());
                here.push(part);
            }
            Look::Moved { by, things } => later.push(Later { of: own, by, things }),
            Look::NoWay => match set_up_of(aiming, elsewhere) {
                Some((there, verdict)) => join(&mut places, there, aiming, verdict),
                None => no_way.push(aiming.clone()),
            },
        }
    }
    if let Some(first) = visit.first().filter(|_| !here.is_empty()) {
        let stands = PlaceAnswer { way: Way::StandsThere, parked: first.parked, parts: here };
        places.insert(0, stands);
    }
    let at = usize::from(places.first().is_some_and(|own| own.way == Way::StandsThere));
    let (by_moves, none) = elsewhere_by_moves(later, &mut moved);
    places.splice(at..at, by_moves);
    no_way.extend(none);
    no_way.sort_by_key(|own| visit.iter().position(|asked| asked.aiming.id == *own));
    let worst = places.iter().flat_map(|place| &place.parts).map(|own| own.verdict).max();
    let verdict = if no_way.is_empty() { worst.unwrap_or(Verdict::Ready) } else { Verdict::NotReady };
    let mut answer = VisitAnswer { places, no_way, is_regrouped: false, verdict };
    let asked = visit.iter().map(|own| &own.aiming.id).filter(|own| !answer.no_way.contains(own));
    answer.is_regrouped = !answer.order().eq(asked);
    answer
}

/// What is found of one aiming.
enum Look {
    /// It is done where the car stands.
    Here(PartAnswer),
    /// The car must be parked so far off, and these things moved too.
    Moved { by: DVec2, things: Vec<Step> },
    /// No way is known.
    NoWay,
}

/// One that needs another place.
struct Later<'a> {
    of: &'a Arrangement,
    by: DVec2,
    things: Vec<Step>,
}

fn after(own: &Arrangement, steps: &[Step]) -> Arrangement {
    steps.iter().fold(own.clone(), |after, step| apply(&after, step))
}

fn look(own: &Arrangement, moved: &[Step]) -> Look {
    let aiming = own.aiming.id.clone();
    let now = after(own, moved);
    let found = assess(&now);
    if found.verdict != Verdict::NotReady {
        return Look::Here(PartAnswer { aiming, before: Vec::new(), verdict: found.verdict });
    }
    let is_parked_anew = |step: &Step| matches!(step, Step::MoveCar { .. });
    if let Some(promise) = found.promise.filter(|own| !own.steps.iter().any(is_parked_anew)) {
        return Look::Here(PartAnswer { aiming, before: promise.steps, verdict: promise.verdict });
    }
    let Some(promise) = assess_fully(&now).promise else { return Look::NoWay };
    let (car, things): (Vec<Step>, Vec<Step>) = promise.steps.into_iter().partition(is_parked_anew);
    if car.is_empty() {
        return Look::Here(PartAnswer { aiming, before: things, verdict: promise.verdict });
    }
    let by = car.iter().map(|step| if let Step::MoveCar { by } = step { *by } else { DVec2::ZERO });
    Look::Moved { by: by.sum(), things }
}

/// The first saved set-up of the aiming in which it can be done.
fn set_up_of<'a>(aiming: &Id, elsewhere: &'a [Arrangement]) -> Option<(&'a Arrangement, Verdict)> {
    let of_it = elsewhere.iter().filter(|own| own.aiming.id == *aiming);
    let judged = of_it.map(|own| (own, judge(own).verdict));
    judged.into_iter().find(|(_, verdict)| *verdict != Verdict::NotReady)
}

/// Adds an aiming to the place of a saved set-up, if another one is done there already.
fn join(places: &mut Vec<PlaceAnswer>, there: &Arrangement, aiming: &Id, verdict: Verdict) {
    let part = PartAnswer { aiming: aiming.clone(), before: Vec::new(), verdict };
    match places.iter_mut().find(|own| own.way == Way::AsSetUp(there.id.clone())) {
        Some(place) => place.parts.push(part),
        None => places.push(PlaceAnswer {
            way: Way::AsSetUp(there.id.clone()),
            parked: there.parked,
            parts: vec![part],
        }),
    }
}

/// Places for those that need another one: as few as it comes to when each takes along what it also serves. And those whose way is gone
/// by what was moved for others.
fn elsewhere_by_moves(later: Vec<Later<'_>>, moved: &mut Vec<Step>) -> (Vec<PlaceAnswer>, Vec<Id>) {
    let (mut places, mut no_way) = (Vec::new(), Vec::new());
    let mut left = later;
    while !left.is_empty() {
        let first = left.remove(0);
        let step = Step::MoveCar { by: first.by };
        // With what was moved for others in the meantime it is judged once more.
        let there = apply(&after(&after(first.of, moved), &first.things), &step);
        let verdict = judge(&there).verdict;
        let aiming = first.of.aiming.id.clone();
        if verdict == Verdict::NotReady {
            no_way.push(aiming);
            continue;
        }
        moved.extend(first.things.iter().cloned());
        let mut parts = vec![PartAnswer { aiming, before: first.things, verdict }];
        let mut still = Vec::new();
        for own in left {
            let verdict = judge(&apply(&after(own.of, moved), &step)).verdict;
            if verdict == Verdict::NotReady {
                still.push(own);
            } else {
                parts.push(PartAnswer { aiming: own.of.aiming.id.clone(), before: Vec::new(), verdict });
            }
        }
        left = still;
        places.push(PlaceAnswer { way: Way::Moved(first.by), parked: there.parked, parts });
    }
    (places, no_way)
}
