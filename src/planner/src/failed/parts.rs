//! What may be out of a set-up, how far as a rule, what was read of it and what could be.
//!
//! How far each is out as a rule comes from the shop's own instruments where one of them sets it, and from what the shop says goes
//! wrong as a rule ([`crate::model::ShopFigure::is_of_faults`]): common practice, no source, until it says so itself.

use baywright_geometry::DVec2;
use baywright_geometry::locate::{Located, locate_in};
use baywright_survey::budget::Origin;
use baywright_survey::causes::{Cause, MOST_PARTS, Part, Probe};
use baywright_survey::next_tape::follows;

use super::sight::Sight;
use super::{Looked, Suspect, ToCheck};
use crate::model::{Arrangement, FloorSurvey, Id, Placement, ReferenceAxis, StandSet, Wheel};
use crate::proof::Taped;
use crate::scene::{PlacedTarget, Scene};

/// How surely a level of a survey is read, standard, mm, beside what the floor may do between its points.
const LEVEL_READ_MM: f64 = 0.7;
/// How surely an alignment sheet tells a thrust line, standard: 0.017°, a minute of arc.
const SHEET_RAD: f64 = 3e-4;
/// A pole is plumbed over this length, mm.
const PLUMBED_MM: f64 = 1_000.0;
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
    pub arrangement: &'a Arrangement,
    pub scene: &'a Scene,
    pub placement: &'a Placement,
    pub nth: usize,
    pub target: &'a PlacedTarget,
    pub sight: Sight,
    pub looked: &'a [Looked],
    pub sideways: f64,
    pub upright: f64,
}

/// Standard, of what lies anywhere within so much either way.
fn standard(half: f64) -> f64 {
    half / 3.0_f64.sqrt()
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
        made.floor(of);
        made.thrust(of);
        made.car(of);
        made.stand(of);
        let bracket = standard(of.arrangement.shop.bracket_usual_rad);
        made.add(of, Suspect::BracketTurned, bracket, None, None);
        made.add(of, Suspect::BracketTilted, bracket, None, None);
        if let Some(taped) = crate::proof::taped(of.arrangement, of.scene) {
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

    /// One of car, floor, stand, sensor: how far it is out as a rule; how surely a check would read it; what was read and how
    /// surely.
    fn add(
        &mut self,
        of: &Of<'_>,
        suspect: Suspect,
        usual: f64,
        check_u: Option<f64>,
        read: Option<(f64, f64)>,
    ) {
        let (left, up) = of.sight.per_unit(suspect);
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
                |own: &&Looked| own.at == suspect && (!suspect.is_of_target() || own.target == of.nth);
            let looked = of.looked.iter().filter(is_it);
            self.read.extend(looked.filter_map(|own| Some((Probe::of_part(at, check_u?), own.out))));
            if let Some(u) = check_u {
                self.probes.push(Probe::of_part(at, u));
                self.checks.push(ToCheck::Part { at: suspect, target: of.nth });
            }
        }
    }

    /// Levels as surveyed, over their own middle: what is common to all moves nothing.
    fn floor(&mut self, of: &Of<'_>) {
        let (arrangement, scene) = (of.arrangement, of.scene);
        let level = |survey: Option<&FloorSurvey>, at| survey?.points.at(at);
        let wheel = |wheel: Wheel| {
            let nth = Wheel::ALL.iter().position(|own| *own == wheel)?;
            let at = *scene.wheels.get(nth)?;
            if arrangement.on_runways.is_empty() {
                return level(arrangement.bay.survey.as_ref(), at);
            }
            let carries = |id: &Id| arrangement.on_runways.contains(id);
            let mut under = arrangement.bay.runways.iter().filter(|own| carries(&own.id));
            let runway = under.find(|own| locate_in(&own.outline, at) != Located::Outside)?;
            level(runway.survey.as_ref(), at)
        };
        let axle = |wheels: [Wheel; 2]| {
            let [one, other] = wheels.map(wheel);
            let (one, other) = (one?, other?);
            let u = libm::hypot(standard(one.within_mm), standard(other.within_mm)) * 0.5;
            Some(((one.level_mm + other.level_mm) * 0.5, u))
        };
        let stand = level(arrangement.bay.survey.as_ref(), of.target.set.place.origin());
        let all = [
            (Suspect::FrontLevel, axle([Wheel::FrontLeft, Wheel::FrontRight])),
            (Suspect::RearLevel, axle([Wheel::RearLeft, Wheel::RearRight])),
            (Suspect::StandLevel, stand.map(|own| (own.level_mm, standard(own.within_mm)))),
        ];
        let known: Vec<f64> = all.iter().filter_map(|(_, own)| own.map(|(mm, _)| mm)).collect();
        let middle = known.iter().sum::<f64>() / known.len().max(1) as f64;
        // One level alone is over nothing.
        let is_known = known.len() == all.len();
        for (suspect, own) in all {
            let read = own.filter(|_| is_known).map(|(mm, u)| (mm - middle, libm::hypot(u, LEVEL_READ_MM)));
            self.add(of, suspect, standard(arrangement.shop.floor_usual_mm), Some(LEVEL_READ_MM), read);
        }
    }

    /// Only where the aiming goes by it.
    fn thrust(&mut self, of: &Of<'_>) {
        if of.arrangement.aiming.axis == ReferenceAxis::ThrustLine {
            let sheet = of.arrangement.on_this_car.rear_toe.both_rad().map(|_| (0.0, SHEET_RAD));
            let usual = standard(of.arrangement.shop.thrust_usual_rad);
            self.add(of, Suspect::Thrust, usual, Some(SHEET_RAD), sheet);
        }
    }

    fn car(&mut self, of: &Of<'_>) {
        let shop = &of.arrangement.shop;
        let u = standard(libm::hypot(shop.tape_read_mm, shop.wheel_found_mm));
        self.add(of, Suspect::CarFront, standard(shop.car_creeps_mm), Some(u), None);
        self.add(of, Suspect::CarRear, standard(shop.car_creeps_mm), Some(u), None);
    }

    fn stand(&mut self, of: &Of<'_>) {
        let shop = &of.arrangement.shop;
        let tape = standard(libm::hypot(shop.tape_read_mm, shop.line_found_mm));
        let plumbed = standard(libm::hypot(shop.plumb_found_mm, shop.line_found_mm));
        let laser = standard(shop.laser_per_metre_mm) * of.sight.distance_mm() * 1e-3;
        let height = libm::hypot(laser, tape);
        // Two distances at both ends of the face.
        let square = tape * std::f64::consts::SQRT_2 / of.placement.target.width_mm.max(1.0);
        let leans = standard(shop.plumb_found_mm) / PLUMBED_MM;
        let bubble = standard(shop.bubble_set_rad);
        // Where it was found: over what is meant.
        let meant = of.target.meant;
        let off = |unit: fn(&PlacedTarget) -> f64| of.target_off().then(|| unit(of.target));
        let aside =
            off(|own| own.meant.place.inverse().turned(own.set.place.origin() - own.meant.place.origin()).y)
                // Its left is the sensor's right.
                .map(|mm| -mm);
        let turned = off(|own| {
            baywright_geometry::angle::wrapped(own.set.place.heading() - own.meant.place.heading())
        });
        let tipped = off(|own| own.set.pitch_rad - own.meant.pitch_rad);
        let higher = of.target_off().then_some(of.target.set.height_mm - meant.height_mm);
        let with = |value: Option<f64>, u: f64| value.map(|value| (value, u));
        self.add(of, Suspect::StandAside, plumbed, Some(plumbed), with(aside, plumbed));
        if of.target.lies {
            return;
        }
        self.add(of, Suspect::StandHeight, height, Some(height), with(higher, height));
        self.add(of, Suspect::StandTurned, square, Some(square), with(turned, square));
        self.add(of, Suspect::StandTipped, bubble, Some(leans), with(tipped, bubble));
        self.add(of, Suspect::StandLeans, bubble, Some(leans), None);
    }

    /// The steps of the mark plan, with all that was taped between what they laid.
    fn marks(&mut self, of: &Of<'_>, taped: &Taped) {
        let first = self.parts.len();
        let soughts =
            crate::proof::direction_by(of.arrangement, &taped.budget, of.placement, of.sight.sensor());
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
        for (reading, candidate) in of.scene.readings.iter().zip(&taped.candidates) {
            if let Some(probe) = candidate.as_ref().and_then(probe) {
                let again = taped.read.iter().any(|read| Some(read.of) == *candidate);
                self.probes.push(probe);
                self.checks.push(ToCheck::Tape { from: reading.from.clone(), to: reading.to.clone(), again });
            }
        }
    }
}

impl Of<'_> {
    /// Whether the stand was found or put elsewhere than it belongs.
    fn target_off(&self) -> bool {
        matches!(self.arrangement.stands.get(self.nth), Some(StandSet::At { .. }))
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
    let wrong = (of.arrangement.shop.fault_times * of.sideways / makes).min(most);
    Some(Part { cause, left_per_unit: left, up_per_unit: up, usual, wrong, often: 1.0 })
}
