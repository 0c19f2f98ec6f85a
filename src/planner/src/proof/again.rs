//! Marks that were laid a second time by themselves: what shows a mark that no distance between marks shows.
//!
//! A technician lays the mark once more by its own step, from the same marks and wheels, without a look at the first, and tapes
//! how far apart both lie: a reading from a mark to itself ([`MarkTaped::is_again`]). A pair that lies further apart than two good
//! layings do is a doubt; of one that does not, the first may still lie beside its place by what both together leave open.

use baywright_survey::budget::{Budget, Instruments};
use baywright_survey::laid::{Again, Chances};

use super::{Figure, Off, Row};
use crate::model::{Arrangement, Id};
use crate::scene::Scene;

/// One that was laid again.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct LaidAgain {
    pub id: Id,
    pub of: Again,
}

/// What was read of marks to themselves, of those that the plan has and whose step can go wrong at all.
pub(super) fn of(
    arrangement: &Arrangement,
    scene: &Scene,
    budget: &Budget,
    shop: &Instruments,
) -> Vec<LaidAgain> {
    let read = arrangement.marks_taped.iter().filter(|own| own.is_again());
    read.filter_map(|own| {
        let of = expected(scene, budget, shop, &own.from)?;
        Some(LaidAgain { id: own.from.clone(), of: Again { apart_mm: own.read_mm, ..of } })
    })
    .collect()
}

/// How far apart two layings of a mark may be; at no distance so far.
fn expected(scene: &Scene, budget: &Budget, shop: &Instruments, id: &Id) -> Option<Again> {
    let mark = scene.marks.iter().position(|own| own.id == *id)?;
    let u_mm = libm::hypot(budget.apart_u_mm(mark)?, shop.tape.read_mm);
    Some(Again { mark, apart_mm: 0.0, u_mm })
}

/// The first whose two layings do not lie on one another.
pub(super) fn doubt(all: &[LaidAgain]) -> Option<Off> {
    let chances = Chances::default();
    let own = all.iter().find(|own| !own.of.fits(&chances))?;
    Some(Off::Apart {
        mark: own.id.clone(),
        apart_mm: own.of.apart_mm,
        within_mm: own.of.within_mm(&chances),
    })
}

/// A row for each that was laid again, and for each mark that no distance shows where that counts.
pub(super) fn rows(
    scene: &Scene,
    (budget, shop): (&Budget, &Instruments),
    (read, figures): (&[LaidAgain], &[Figure]),
) -> Vec<Row> {
    let is_read = |id: &Id| read.iter().any(|own| own.id == *id);
    let is_asked =
        |id: &Id| figures.iter().any(|own| own.no_tape_shows && own.unseen_mark.as_ref() == Some(id));
    // What is asked next stands under what was read: no box moves away from the hand.
    let asked = scene.marks.iter().map(|mark| &mark.id).filter(|id| is_asked(id) && !is_read(id));
    let marks = read.iter().map(|own| &own.id).chain(asked);
    marks
        .filter_map(|id| {
            let of = expected(scene, budget, shop, id)?;
            let own = read.iter().find(|own| own.id == *id);
            Some(Row {
                from: id.clone(),
                to: id.clone(),
                should_mm: 0.0,
                allowance_mm: of.within_mm(&Chances::default()),
                read_mm: own.map(|own| own.of.apart_mm),
                test: None,
            })
        })
        .collect()
}
