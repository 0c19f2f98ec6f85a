//! What of car, floor and stand may be out, how far as a rule, and what was read of it.
//!
//! How far each is out as a rule comes from the shop's own instruments where one of them sets it, and from what the shop says goes
//! wrong as a rule ([`crate::model::ShopFigure::is_of_faults`]): common practice, no source, until it says so itself.

use baywright_geometry::locate::{Located, locate_in};

use super::Suspect;
use super::sight::Sight;
use crate::model::{Arrangement, FloorSurvey, Id, Placement, ReferenceAxis, StandSet, Wheel};
use crate::proof::standard;
use crate::scene::{PlacedTarget, Scene};

/// How surely a level of a survey is read, standard, mm, beside what the floor may do between its points.
const LEVEL_READ_MM: f64 = 0.7;
/// How surely an alignment sheet tells a thrust line, standard: 0.017°, a minute of arc.
const SHEET_RAD: f64 = 3e-4;
/// A pole is plumbed over this length, mm.
const PLUMBED_MM: f64 = 1_000.0;

/// A set-up, and which of its targets is looked at.
pub(crate) struct At<'a> {
    pub arrangement: &'a Arrangement,
    pub scene: &'a Scene,
    pub placement: &'a Placement,
    pub nth: usize,
    pub target: &'a PlacedTarget,
    pub sight: Sight,
}

/// One thing of car, floor or stand that may be out. Lengths are mm, turns radians, uncertainties standard ones.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Usual {
    pub suspect: Suspect,
    /// How far it is out as a rule.
    pub usual: f64,
    /// How surely a check of it by itself would read it; `None` where there is none.
    pub check_u: Option<f64>,
    /// How far out it was read, and how surely.
    pub read: Option<(f64, f64)>,
}

/// All of it, but for the marks and the sensor's own bracket.
pub(crate) fn usual(at: &At<'_>) -> Vec<Usual> {
    let mut made = Made { all: Vec::new() };
    made.floor(at);
    made.thrust(at);
    made.car(at);
    made.stand(at);
    made.all
}

struct Made {
    all: Vec<Usual>,
}

impl Made {
    fn add(&mut self, suspect: Suspect, usual: f64, check_u: Option<f64>, read: Option<(f64, f64)>) {
        self.all.push(Usual { suspect, usual, check_u, read });
    }

    /// Levels as surveyed, over their own middle: what is common to all moves nothing.
    fn floor(&mut self, at: &At<'_>) {
        let (arrangement, scene) = (at.arrangement, at.scene);
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
        let stand = level(arrangement.bay.survey.as_ref(), at.target.set.place.origin());
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
            self.add(suspect, standard(arrangement.shop.floor_usual_mm), Some(LEVEL_READ_MM), read);
        }
    }

    /// Only where the aiming goes by it.
    fn thrust(&mut self, at: &At<'_>) {
        if at.arrangement.aiming.axis == ReferenceAxis::ThrustLine {
            let sheet = at.arrangement.on_this_car.rear_toe.both_rad().map(|_| (0.0, SHEET_RAD));
            let usual = standard(at.arrangement.shop.thrust_usual_rad);
            self.add(Suspect::Thrust, usual, Some(SHEET_RAD), sheet);
        }
    }

    fn car(&mut self, at: &At<'_>) {
        let shop = &at.arrangement.shop;
        let u = standard(libm::hypot(shop.tape_read_mm, shop.wheel_found_mm));
        self.add(Suspect::CarFront, standard(shop.car_creeps_mm), Some(u), None);
        self.add(Suspect::CarRear, standard(shop.car_creeps_mm), Some(u), None);
    }

    fn stand(&mut self, at: &At<'_>) {
        let shop = &at.arrangement.shop;
        let tape = standard(libm::hypot(shop.tape_read_mm, shop.line_found_mm));
        let plumbed = standard(libm::hypot(shop.plumb_found_mm, shop.line_found_mm));
        let laser = standard(shop.laser_per_metre_mm) * at.sight.distance_mm() * 1e-3;
        let height = libm::hypot(laser, tape);
        // Two distances at both ends of the face.
        let square = tape * std::f64::consts::SQRT_2 / at.placement.target.width_mm.max(1.0);
        let leans = standard(shop.plumb_found_mm) / PLUMBED_MM;
        let bubble = standard(shop.bubble_set_rad);
        // Where it was found: over what is meant.
        let meant = at.target.meant;
        let off = |unit: fn(&PlacedTarget) -> f64| at.target_off().then(|| unit(at.target));
        let aside =
            off(|own| own.meant.place.inverse().turned(own.set.place.origin() - own.meant.place.origin()).y)
                // Its left is the sensor's right.
                .map(|mm| -mm);
        let turned = off(|own| {
            baywright_geometry::angle::wrapped(own.set.place.heading() - own.meant.place.heading())
        });
        let tipped = off(|own| own.set.pitch_rad - own.meant.pitch_rad);
        let higher = at.target_off().then_some(at.target.set.height_mm - meant.height_mm);
        let with = |value: Option<f64>, u: f64| value.map(|value| (value, u));
        self.add(Suspect::StandAside, plumbed, Some(plumbed), with(aside, plumbed));
        if at.target.lies {
            return;
        }
        self.add(Suspect::StandHeight, height, Some(height), with(higher, height));
        self.add(Suspect::StandTurned, square, Some(square), with(turned, square));
        self.add(Suspect::StandTipped, bubble, Some(leans), with(tipped, bubble));
        self.add(Suspect::StandLeans, bubble, Some(leans), None);
    }
}

impl<'a> At<'a> {
    /// A target by its position; `None` if there is none.
    pub fn of(arrangement: &'a Arrangement, scene: &'a Scene, nth: usize) -> Option<Self> {
        let (placement, target) = (arrangement.aiming.placements.get(nth)?, scene.targets.get(nth)?);
        let sight = Sight::of(arrangement, scene, placement, target);
        Some(Self { arrangement, scene, placement, nth, target, sight })
    }

    /// Whether the stand was found or put elsewhere than it belongs.
    fn target_off(&self) -> bool {
        matches!(self.arrangement.stands.get(self.nth), Some(StandSet::At { .. }))
    }
}
