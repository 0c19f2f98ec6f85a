//! What takes away the echo of a thing that matters: turning it where it stands, or moving it.
//!
//! By how much is looked through on the shapes' own formulas ([`baywright_radar::clear`]), rounded up to what a person does, and tried:
//! a way is told only if, done, the checks find nothing more that stops, and no echo of that thing matters.

use baywright_geometry::{DVec2, PlanPose, angle};
use baywright_radar::clear::{Asked, Moving, Turning, move_by, turn_by};
use baywright_radar::level::{Band, Received};
use baywright_radar::seen::Seen as Shaped;

use super::own::OwnEcho;
use super::stuff::Reflected;
use super::{Echo, How, Look, With, seen};
use crate::assessment::{Severity, Subject};
use crate::judge::judge;
use crate::model::{Arrangement, Effort, Id, Thing};
use crate::scene::Scene;

/// Of so many things ways out are looked for.
const MOST_THINGS: usize = 12;
/// Nobody turns a thing further than that, radians: a quarter.
const MOST_TURN_RAD: f64 = std::f64::consts::FRAC_PI_2;
/// Turns are told in steps of this, radians, and hold for that much further.
const TURN_STEP_DEG: f64 = 1.0;
/// Nobody moves a thing further than that, mm: else it goes out.
const MOST_MOVE_MM: f64 = 3_000.0;
/// Moves are told in steps of this, mm, and hold for that much further.
const MOVE_STEP_MM: f64 = 20.0;

/// A way to take away the echo of a thing.
#[derive(Clone, Debug, PartialEq)]
pub struct Cure {
    /// The thing.
    pub thing: Id,
    /// What is done.
    pub how: Done,
    /// Where it stands then, bay from thing.
    pub at: PlanPose,
}

/// What is done to a thing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Done {
    /// Turned where it stands, radians, anticlockwise from above.
    Turned(f64),
    /// Moved away from the sensor, mm.
    Back(f64),
    /// Moved aside, away from the line from the sensor to the target, mm.
    Aside(f64),
}

impl Look<'_> {
    /// Gives the first echo that matters of each thing its ways out.
    pub(super) fn cure(&self, arrangement: &Arrangement, target: &Id, own: &OwnEcho, echoes: &mut [Echo]) {
        let mut seen_of: Vec<Id> = Vec::new();
        for echo in echoes {
            let How::Straight { of: Subject::Thing(id), .. } = &echo.how else { continue };
            if seen_of.len() >= MOST_THINGS || seen_of.contains(id) || !echo.matters() {
                continue;
            }
            seen_of.push(id.clone());
            echo.cures = self.cures(arrangement, echo, own, target);
        }
    }

    /// The ways, the least turn first; none of no thing that can be moved.
    fn cures(&self, arrangement: &Arrangement, echo: &Echo, own: &OwnEcho, target: &Id) -> Vec<Cure> {
        let How::Straight { of: Subject::Thing(id), .. } = &echo.how else { return Vec::new() };
        let thing = arrangement.bay.things.iter().find(|own| own.id == *id);
        let Some(thing) = thing.filter(|own| !own.is_person() && own.effort != Effort::Fixed) else {
            return Vec::new();
        };
        let flats = self.around.flats.iter().zip(&self.around.mirrors);
        let its: Vec<_> = flats.filter(|(flat, _)| flat.of == Subject::Thing(id.clone())).collect();
        let Some(stuff) = its.first().map(|(flat, _)| flat.stuff) else { return Vec::new() };
        let faces: Vec<_> = its.into_iter().map(|(_, mirror)| mirror.face.clone()).collect();
        let is_low = |shaped: &Shaped| {
            let made_of = shaped.incidences.iter().try_fold(Reflected::WHOLE, |sum, incidence| {
                sum.and(&super::stuff::reflected(stuff, *incidence, self.wave))
            });
            let lost = made_of.and_then(|own| own.lost_db());
            lost.and_then(|lost| self.would_matter(shaped, lost, own)).is_some_and(|matters| !matters)
        };
        let sensor = self.scene.sensor();
        let asked = Asked { faces: &faces, sensor, wave: self.wave, is_low: &is_low };
        let at = thing.place.at;
        let hold = angle::radians(TURN_STEP_DEG);
        let turns = turn_by(&asked, &Turning { about: at.origin(), limit: MOST_TURN_RAD, hold });
        let whole = |rad: f64| angle::radians((angle::degrees(rad) / TURN_STEP_DEG).ceil() * TURN_STEP_DEG);
        let mut turned: Vec<f64> = [(turns.left, 1.0), (turns.right, -1.0)]
            .into_iter()
            .filter_map(|(own, sign)| Some(sign * whole(own?)))
            .collect();
        turned.sort_by(|a, b| a.abs().total_cmp(&b.abs()));
        let away = (at.origin() - sensor.truncate()).normalize_or_zero();
        let line = (own.at - sensor).truncate().normalize_or_zero();
        let aside = line.perp() * line.perp().dot(at.origin() - sensor.truncate()).signum();
        let moved = |along: DVec2| {
            let how = Moving { along: along.extend(0.0), limit_mm: MOST_MOVE_MM, hold_mm: MOVE_STEP_MM };
            let mm = (move_by(&asked, &how)? / MOVE_STEP_MM).ceil() * MOVE_STEP_MM;
            Some((mm, along * mm))
        };
        let turned =
            turned.into_iter().map(|by| (Done::Turned(by), PlanPose::new(at.origin(), at.heading() + by)));
        let gone = |by: DVec2| PlanPose::new(at.origin() + by, at.heading());
        let back = moved(away).map(|(mm, by)| (Done::Back(mm), gone(by)));
        let beside = moved(aside).map(|(mm, by)| (Done::Aside(mm), gone(by)));
        let is_good = |pose: &PlanPose| holds(arrangement, thing, *pose, target);
        let turn = turned.into_iter().find(|(_, pose)| is_good(pose));
        let all =
            turn.into_iter().chain([back, beside].into_iter().flatten().filter(|(_, pose)| is_good(pose)));
        all.map(|(how, at)| Cure { thing: id.clone(), how, at }).collect()
    }

    /// Whether what a shape sends back would matter.
    fn would_matter(&self, shaped: &Shaped, lost_db: Band, own: &OwnEcho) -> Option<bool> {
        let towards = shaped.at - self.scene.sensor();
        let received = Received {
            sigma_dbsm: shaped.sigma_dbsm,
            out_mm: shaped.range_mm,
            back_mm: shaped.range_mm,
            departs: towards,
            comes_from: towards,
            lost_db,
            polarised_db: Band::NOTHING,
        };
        // What is not heard does not matter.
        Some(self.set_beside(&received, own).is_some_and(|echo| echo.matters()))
    }
}

/// Whether the checks find nothing more that stops with the thing there, and no echo of it matters then.
fn holds(arrangement: &Arrangement, thing: &Thing, pose: PlanPose, target: &Id) -> bool {
    let mut after = arrangement.clone();
    for own in after.bay.things.iter_mut().filter(|own| own.id == thing.id) {
        own.place.at = pose;
    }
    let stops = |own: &Arrangement| judge(own).count(Severity::Stops);
    if stops(&after) > stops(arrangement) {
        return false;
    }
    let of = Subject::Thing(thing.id.clone());
    let all = seen(&after, &Scene::of(&after), With::OneMirror);
    all.iter().filter(|own| own.target == *target).all(|own| {
        let is_its = |echo: &&Echo| matches!(&echo.how, How::Straight { of: own, .. } if *own == of);
        own.own.is_ok() && !own.echoes.iter().filter(is_its).any(Echo::matters)
    })
}
