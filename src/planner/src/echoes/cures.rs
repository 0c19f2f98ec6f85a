//! What takes away the echo of a thing that matters: turning it where it stands, moving it, or having it out of the bay.
//!
//! By how much is looked through on the shapes' own formulas ([`baywright_radar::clear`]), rounded up to what a person does, and tried:
//! a way is told only if, done, that thing stops nothing, nothing else new does, there is nothing new to mind of it, and no echo of it
//! matters.

use baywright_geometry::{DVec2, PlanPose, angle};
use baywright_radar::clear::{Asked, Moving, Turning, move_by, turn_by};
use baywright_radar::seen::Seen as Shaped;

use super::own::OwnEcho;
use super::{Echo, How, Look, Seen, With, seen};
use crate::assessment::{Finding, Severity, Step, Subject};
use crate::clearing::{hands, hands_within};
use crate::cure::leaves;
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

/// What mirrors the target is turned by so much, degrees, or moved aside by so much, mm.
const TURNS_DEG: [f64; 6] = [5.0, 10.0, 15.0, 20.0, 30.0, 45.0];
const MOVES_MM: [f64; 6] = [100.0, 200.0, 400.0, 600.0, 1_000.0, 1_500.0];

/// The thing that an echo is of, or that mirrors the target in it.
fn thing_of(how: &How) -> Option<&Id> {
    let of_thing = |own: &Subject| matches!(own, Subject::Thing(_));
    let of = match how {
        How::Straight { of, .. } => Some(of).filter(|own| of_thing(own)),
        How::TargetBy { out, back } => out.iter().chain(back).find(|own| of_thing(own)),
        How::Corner { .. } | How::Round { .. } => None,
    };
    match of {
        Some(Subject::Thing(id)) => Some(id),
        _ => None,
    }
}

/// A way to take away the echo of a thing.
#[derive(Clone, Debug, PartialEq)]
pub struct Cure {
    /// The thing.
    pub thing: Id,
    /// What is done.
    pub how: Done,
    /// What that takes.
    pub effort: Effort,
    /// How the thing stands then, bay from thing; `None` if it is gone.
    pub at: Option<PlanPose>,
}

impl Cure {
    /// The same as a step of the person's.
    pub fn step(&self, arrangement: &Arrangement) -> Option<Step> {
        let own = arrangement.bay.things.iter().find(|own| own.id == self.thing)?;
        let thing = self.thing.clone();
        Some(match (self.how, &self.at) {
            (Done::Turned(by_rad), _) => Step::TurnThing { thing, by_rad },
            (Done::Back(_) | Done::Aside(_), Some(at)) => {
                Step::MoveThing { thing, by: at.origin() - own.place.at.origin() }
            }
            (Done::Back(_) | Done::Aside(_) | Done::Out, _) => Step::TakeAway { thing },
        })
    }
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
    /// Out of the bay.
    Out,
}

impl Look<'_> {
    /// Gives the first echo that matters of each thing its ways out.
    pub(super) fn cure(&self, arrangement: &Arrangement, target: &Id, own: &OwnEcho, echoes: &mut [Echo]) {
        let mut seen_of: Vec<Id> = Vec::new();
        for echo in echoes {
            let Some(id) = thing_of(&echo.how) else { continue };
            if seen_of.len() >= MOST_THINGS || seen_of.contains(id) || !echo.heard.matters() {
                continue;
            }
            seen_of.push(id.clone());
            echo.cures = self.cures(arrangement, echo, own, target);
        }
    }

    /// The ways: the least turn, moves, out of the bay. What is fixed or hinged has none, and what goes by itself only leaves.
    fn cures(&self, arrangement: &Arrangement, echo: &Echo, own: &OwnEcho, target: &Id) -> Vec<Cure> {
        let thing =
            thing_of(&echo.how).and_then(|id| arrangement.bay.things.iter().find(|own| own.id == *id));
        let Some(thing) = thing else { return Vec::new() };
        let is_straight = matches!(echo.how, How::Straight { .. });
        let mut tried: Vec<(Done, Option<PlanPose>)> = Vec::new();
        if hands_within(thing).is_some() {
            let shifted = if is_straight { self.shifted(thing, own) } else { self.by_steps(thing, own) };
            tried.extend(shifted.into_iter().map(|(how, at)| (how, Some(at))));
        }
        if hands(thing.effort).is_some() && leaves(arrangement, thing).is_some() {
            tried.push((Done::Out, None));
        }
        let before = Before { findings: judge(arrangement).findings, seen: one_mirror(arrangement, target) };
        let mut found = Vec::new();
        for (how, at) in tried {
            let is_known = found
                .iter()
                .any(|own: &Cure| std::mem::discriminant(&own.how) == std::mem::discriminant(&how));
            if is_known || !before.holds(arrangement, thing, at, (target, is_straight)) {
                continue;
            }
            found.push(Cure { thing: thing.id.clone(), how, effort: thing.effort, at });
        }
        found
    }

    /// Turns and moves of what mirrors the target, the least first: which of them does only trying tells.
    fn by_steps(&self, thing: &Thing, own: &OwnEcho) -> Vec<(Done, PlanPose)> {
        let at = thing.place.at;
        let sensor = self.scene.sensor();
        let turns = TURNS_DEG.iter().flat_map(|deg| [*deg, -deg]).map(|deg| {
            let by = angle::radians(deg);
            (Done::Turned(by), PlanPose::new(at.origin(), at.heading() + by))
        });
        let across = (own.at - sensor).truncate().normalize_or_zero().perp();
        let aside = across * across.dot(at.origin() - sensor.truncate()).signum();
        let moves = MOVES_MM
            .iter()
            .map(|mm| (Done::Aside(*mm), PlanPose::new(at.origin() + aside * *mm, at.heading())));
        turns.chain(moves).collect()
    }

    /// Turns and moves that do by the shapes' own formulas, rounded up, the least turn first.
    fn shifted(&self, thing: &Thing, own: &OwnEcho) -> Vec<(Done, PlanPose)> {
        let of = Subject::Thing(thing.id.clone());
        let flats = self.around.flats.iter().zip(&self.around.mirrors);
        let its: Vec<_> = flats.filter(|(flat, _)| flat.of == of).collect();
        let Some(stuff) = its.first().map(|(flat, _)| flat.stuff) else { return Vec::new() };
        let faces: Vec<_> = its.into_iter().map(|(_, mirror)| mirror.face.clone()).collect();
        // What is not heard does not matter.
        let is_low = |shaped: &Shaped| {
            self.received(stuff, shaped)
                .is_some_and(|(_, received)| !self.heard(&received, own).is_some_and(|own| own.matters()))
        };
        let sensor = self.scene.sensor();
        let asked = Asked { faces: &faces, sensor, wave: self.wave, is_low: &is_low };
        let at = thing.place.at;
        let hold = angle::radians(TURN_STEP_DEG);
        let turns = turn_by(&asked, &Turning { about: at.origin(), limit: MOST_TURN_RAD, hold });
        let whole = |rad: f64| angle::radians((angle::degrees(rad) / TURN_STEP_DEG).ceil() * TURN_STEP_DEG);
        let turned = [(turns.left, 1.0), (turns.right, -1.0)].into_iter();
        let mut turned: Vec<f64> = turned.filter_map(|(own, sign)| Some(sign * whole(own?))).collect();
        turned.sort_by(|a, b| a.abs().total_cmp(&b.abs()));
        let beside = at.origin() - sensor.truncate();
        let across = (own.at - sensor).truncate().normalize_or_zero().perp();
        let moved = |along: DVec2| {
            let how = Moving { along: along.extend(0.0), limit_mm: MOST_MOVE_MM, hold_mm: MOVE_STEP_MM };
            let mm = (move_by(&asked, &how)? / MOVE_STEP_MM).ceil() * MOVE_STEP_MM;
            Some((mm, PlanPose::new(at.origin() + along * mm, at.heading())))
        };
        let turned =
            turned.into_iter().map(|by| (Done::Turned(by), PlanPose::new(at.origin(), at.heading() + by)));
        let back = moved(beside.normalize_or_zero()).map(|(mm, at)| (Done::Back(mm), at));
        let aside = moved(across * across.dot(beside).signum()).map(|(mm, at)| (Done::Aside(mm), at));
        turned.chain(back).chain(aside).collect()
    }
}

/// What is found and heard as it stands.
struct Before {
    findings: Vec<Finding>,
    seen: Option<Seen>,
}

/// What is heard of one target by one mirror at most.
fn one_mirror(arrangement: &Arrangement, target: &Id) -> Option<Seen> {
    let all = seen(arrangement, &Scene::of(arrangement), With::OneMirror);
    all.into_iter().find(|own| own.target == *target)
}

impl Before {
    /// Whether, with the thing there or gone, the checks find nothing of it that stops, nothing else new that does and nothing new to mind
    /// of it, and no echo of it matters, nor one by way of it, unless that was there before and a straight one is looked at.
    fn holds(
        &self,
        arrangement: &Arrangement,
        thing: &Thing,
        at: Option<PlanPose>,
        (target, is_straight): (&Id, bool),
    ) -> bool {
        let mut after = arrangement.clone();
        match at {
            Some(at) => {
                after.bay.things.iter_mut().filter(|own| own.id == thing.id).for_each(|own| own.place.at = at)
            }
            None => after.bay.things.retain(|own| own.id != thing.id),
        }
        let of = Subject::Thing(thing.id.clone());
        let is_worse = |own: &Finding| {
            let is_its = own.subjects.contains(&of);
            if own.severity == Severity::Stops && is_its {
                // A keep-clear zone always wins: nothing is told that leaves the thing in one.
                return true;
            }
            let is_told = own.severity == Severity::Stops || own.severity == Severity::Care && is_its;
            let is_known = |old: &Finding| {
                old.code() == own.code() && old.subjects == own.subjects && old.severity >= own.severity
            };
            is_told && !self.findings.iter().any(is_known)
        };
        if judge(&after).findings.iter().any(is_worse) {
            return false;
        }
        let Some(then) = one_mirror(&after, target).filter(|own| own.own.is_ok()) else { return false };
        let was = |echo: &Echo| {
            let before = self.seen.iter().flat_map(|own| &own.echoes);
            before.into_iter().any(|own| own.how == echo.how && own.heard.matters())
        };
        then.echoes.iter().filter(|own| own.heard.matters()).all(|echo| match &echo.how {
            How::Straight { of: own, .. } => *own != of,
            How::TargetBy { out, back } => {
                !out.iter().chain(back).any(|own| *own == of) || is_straight && was(echo)
            }
            How::Corner { .. } | How::Round { .. } => true,
        })
    }
}
