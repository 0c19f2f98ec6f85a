//! What may be out of a set-up, how far as a rule, what was read of it and what could be.
//!
//! How far each is out as a rule is `failed/usual.rs`'s; of the marks it is the plan's budget that says so.

use baywright_geometry::DVec2;
use baywright_survey::budget::Origin;
use baywright_survey::causes::{Cause, MOST_PARTS, Part, Probe};
use baywright_survey::next_tape::follows;

use super::usual::{At, Usual, usual};
use super::{Looked, Suspect, ToCheck};
use crate::proof::{Taped, standard};

/// A fault is never larger than this, standard, mm and radians.
const MOST_MM: f64 = 60.0;
const MOST_RAD: f64 = 0.05;
/// What cannot make this share of what is allowed, as far out as it ever is, explains nothing.
const LEAST_SHARE: f64 = 0.2;

/// All of it, each in the order of the other.
pub(super) struct Parts {
    pub parts: Vec<Part>,
    pub suspects: Vec<Suspect>,
    /// Which way each goes, of length 1, where it is a place of the mark plan.
    pub ways: Vec<Option<DVec2>>,
    pub read: Vec<(Probe, f64)>,
    pub probes: Vec<Probe>,
    pub checks: Vec<ToCheck>,
}

/// Of whom it is asked, and how far its aim may be off each way, radians.
pub(super) struct Of<'a> {
    pub at: &'a At<'a>,
    pub looked: &'a [Looked],
    pub sideways: f64,
    pub upright: f64,
}

impl Parts {
    pub fn of(of: &Of<'_>) -> Self {
        let mut made = Self {
            parts: Vec::new(),
            suspects: Vec::new(),
            ways: Vec::new(),
            read: Vec::new(),
            probes: Vec::new(),
            checks: Vec::new(),
        };
        usual(of.at).into_iter().for_each(|own| made.add(of, own));
        let bracket = standard(of.at.arrangement.shop.bracket_usual_rad);
        for suspect in [Suspect::BracketTurned, Suspect::BracketTilted] {
            made.add(of, Usual { suspect, usual: bracket, check_u: None, read: None });
        }
        if let Some(taped) = crate::proof::taped(of.at.arrangement, of.at.scene) {
            made.marks(of, &taped);
        }
        // As often a fault of one cause as of another, however many parts it has.
        let causes: Vec<Cause> =
            made.parts.iter().filter(|part| part.often > 0.0).map(|part| part.cause).collect();
        for part in made.parts.iter_mut().filter(|part| part.often > 0.0) {
            let count = causes.iter().filter(|cause| **cause == part.cause).count();
            part.often = 1.0 / count.max(1) as f64;
        }
        made
    }

    /// One of car, floor, stand, sensor.
    fn add(&mut self, of: &Of<'_>, Usual { suspect, usual, check_u, read }: Usual) {
        let (left, up) = of.at.sight.per_unit(suspect);
        let most = if suspect.is_angle() { MOST_RAD } else { MOST_MM };
        if let Some(part) = part(of, suspect.cause(), (left, up), usual, most) {
            self.parts.push(part);
            self.suspects.push(suspect);
            self.ways.push(None);
            let at = self.parts.len() - 1;
            if let Some((value, u)) = read {
                self.read.push((Probe::of_part(at, u), value));
            }
            let is_it =
                |own: &&Looked| own.at == suspect && (!suspect.is_of_target() || own.target == of.at.nth);
            let looked = of.looked.iter().filter(is_it);
            self.read.extend(looked.filter_map(|own| Some((Probe::of_part(at, check_u?), own.out))));
            if let Some(u) = check_u {
                self.probes.push(Probe::of_part(at, u));
                self.checks.push(ToCheck::Part { at: suspect, target: of.at.nth });
            }
        }
    }

    /// The steps of the mark plan, with all that was taped between what they laid.
    fn marks(&mut self, of: &Of<'_>, taped: &Taped) {
        let first = self.parts.len();
        let soughts = crate::proof::direction_by(
            of.at.arrangement,
            &taped.budget,
            of.at.placement,
            of.at.sight.sensor(),
        );
        let outcomes: Vec<(f64, Vec<f64>)> = soughts
            .iter()
            .filter_map(|(share, sought)| {
                let parts = taped.budget.outcome(sought)?.parts;
                Some((*share, parts.into_iter().map(|part| part.sensitivity).collect()))
            })
            .collect();
        let inputs = taped.budget.inputs().iter().zip(taped.budget.origins()).enumerate();
        let inputs: Vec<_> = inputs.take(MOST_PARTS.saturating_sub(first)).collect();
        // What a unit of an input is in its own unit, mm or radians: a step's own is one standard uncertainty.
        let mut units: Vec<f64> = Vec::new();
        for (nth, (input, origin)) in &inputs {
            let (unit, way) = match origin {
                Origin::Along(step) | Origin::Across(step) => {
                    let follows = taped.budget.follows();
                    let by = DVec2::new(follows.at(2 * step, *nth), follows.at(2 * step + 1, *nth));
                    (by.length().max(1e-9), by.try_normalize())
                }
                Origin::WheelAside(_) => (1.0, Some(DVec2::Y)),
                Origin::WheelAlong(_) => (1.0, Some(DVec2::X)),
                Origin::Camber(_) | Origin::TapeScale | Origin::TapeWarmth => (1.0, None),
            };
            units.push(unit);
            let per = |(share, all): &(f64, Vec<f64>)| share * all.get(*nth).copied().unwrap_or_default();
            let left = outcomes.iter().map(per).sum::<f64>() / unit;
            let suspect = Suspect::Laid(**origin);
            let most = if suspect.is_angle() { MOST_RAD } else { MOST_MM };
            let usual = input.u * unit;
            let none = Part {
                cause: Cause::Mark,
                left_per_unit: left,
                up_per_unit: 0.0,
                usual,
                wrong: 0.0,
                often: 0.0,
            };
            // What of the tape is common to all is no step that goes wrong.
            let own = part(of, Cause::Mark, (left, 0.0), usual, most).filter(|_| !origin.is_scale());
            self.parts.push(own.unwrap_or(none));
            self.ways.push(way);
            self.suspects.push(suspect);
        }
        let probe = |candidate| {
            let by = follows(&taped.budget, candidate)?;
            let own = by.iter().zip(&units).enumerate().filter(|(_, (by, _))| **by != 0.0);
            let own = own.map(|(nth, (by, unit))| (first + nth, by / unit)).collect();
            // A plan that is too long is weighed without what was taped of it.
            (by.len() == inputs.len()).then_some(Probe { of: own, u: candidate.u_mm })
        };
        for read in &taped.read {
            let expected = taped.expected_mm(&read.of);
            if let Some((probe, expected)) = probe(&read.of).zip(expected) {
                self.read.push((probe, read.read_mm - expected));
            }
        }
        for (reading, candidate) in of.at.scene.readings.iter().zip(&taped.candidates) {
            if let Some(probe) = candidate.as_ref().and_then(probe) {
                let again = taped.read.iter().any(|read| Some(read.of) == *candidate);
                self.probes.push(probe);
                self.checks.push(ToCheck::Tape { from: reading.from.clone(), to: reading.to.clone(), again });
            }
        }
    }
}

/// A part, in the routine's own measure: up and down counts as much as its limit is to the one sideways. `None` where it explains
/// nothing.
fn part(of: &Of<'_>, cause: Cause, (left, up): (f64, f64), usual: f64, most: f64) -> Option<Part> {
    let up = up * of.sideways / of.upright;
    let makes = left.abs().max(up.abs());
    if makes * most < LEAST_SHARE * of.sideways {
        return None;
    }
    let wrong = (of.at.arrangement.shop.fault_times * of.sideways / makes).min(most);
    Some(Part { cause, left_per_unit: left, up_per_unit: up, usual, wrong, often: 1.0 })
}
