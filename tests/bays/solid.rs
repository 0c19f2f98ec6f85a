//! What fills part of the room, and what it must keep out of.

use baywright_planner::geometry::DVec2;
use baywright_planner::model::{
    Exclusion, FloorFeature, Material, Metal, Opening, Runway, Shop, Thing, ThingKind,
};

use crate::oracle::TOUCH_MM;
use crate::people::{PERSON_MM, STEP_MM, from_targets};
use crate::set_up::{Part, SetUp, What, ring_of};
use crate::shape::{Frame, Ring, box_gap, depth, depth_of, gap, gap_to_line, round};

/// Over what is as low a tape goes, and light reaches behind it.
const LIP_MM: f64 = 20.0;

/// A solid of the room.
pub struct Solid {
    pub name: String,
    pub ring: Ring,
    pub low: f64,
    pub high: f64,
    pub known: f64,
    metal: Option<bool>,
    pub is_person: bool,
    is_lamp: bool,
    pub is: Is,
}

/// What kind of solid.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Is {
    Thing,
    /// A runway that carries no car.
    Idle,
    /// One that does.
    Carrying,
    /// What stands proud of the floor.
    Proud,
}

/// Whether a material is metal by its face; `None` if nobody can tell.
fn metal_of(material: Material) -> Option<bool> {
    match material {
        Material::Steel | Material::Aluminium | Material::Mesh | Material::CarBody | Material::Foil => {
            Some(true)
        }
        Material::Plasterboard | Material::Unknown => None,
        _ => Some(false),
    }
}

impl Solid {
    pub fn of(thing: &Thing, shop: &Shop) -> Self {
        let frame = Frame::new(thing.place.at.origin(), thing.place.at.heading());
        let metal = match (metal_of(thing.material), thing.metal) {
            (Some(true), _) | (_, Some(Metal::All | Metal::Frame)) => Some(true),
            (_, Some(Metal::Unknown)) => None,
            (_, Some(Metal::None)) => Some(false),
            (face, None) => match thing.kind {
                ThingKind::LiftPost
                | ThingKind::LiftArm
                | ThingKind::ParkedCar
                | ThingKind::Heater
                | ThingKind::DoorTrack => Some(true),
                ThingKind::ToolChest | ThingKind::Lamp | ThingKind::Column => None,
                _ => face,
            },
        };
        Self {
            name: thing.id.to_string(),
            ring: frame.ring(&ring_of(thing.footprint.outline())),
            low: thing.span.bottom(),
            high: thing.span.top(),
            known: shop.within(thing.place.known),
            metal,
            is_person: thing.kind == ThingKind::Person || thing.material == Material::Person,
            is_lamp: thing.kind == ThingKind::Lamp,
            is: Is::Thing,
        }
    }

    /// What stands proud of the floor; it is known as the walls are.
    pub fn proud(feature: &FloorFeature, known: f64) -> Self {
        Self {
            name: feature.id.to_string(),
            ring: feature.outline.outer().to_vec(),
            low: 0.0,
            high: feature.proud_mm,
            known,
            metal: metal_of(feature.material),
            is_person: false,
            is_lamp: false,
            is: Is::Proud,
        }
    }

    /// The leaf of a door, wherever it stands open.
    pub fn leaf(door: &Opening) -> Self {
        Self {
            name: door.id.to_string(),
            ring: Vec::new(),
            low: door.span.bottom(),
            high: door.span.top(),
            known: 0.0,
            metal: metal_of(door.material),
            is_person: false,
            is_lamp: false,
            is: Is::Thing,
        }
    }

    pub fn runway(runway: &Runway, known: f64, carries: bool) -> Self {
        Self {
            name: runway.id.to_string(),
            ring: runway.outline.outer().to_vec(),
            low: 0.0,
            high: runway.top_mm,
            known,
            metal: Some(true),
            is_person: false,
            is_lamp: false,
            is: if carries { Is::Carrying } else { Is::Idle },
        }
    }

    /// Whether it is in the way of a tape or light from there to there, if it is on the way.
    pub fn is_in_run(&self, from: DVec2, to: DVec2) -> bool {
        match self.is {
            Is::Idle => true,
            // What carries the car carries marks, too; beside it they lie on the floor.
            Is::Carrying => depth_of(&self.ring, from) < 0.0 && depth_of(&self.ring, to) < 0.0,
            Is::Thing | Is::Proud => self.high > LIP_MM,
        }
    }

    /// Whether it may not be in a zone; `None` if nobody can tell.
    pub fn barred(&self, by: Exclusion) -> Option<bool> {
        match by {
            Exclusion::Anything => Some(true),
            Exclusion::Metal => self.metal,
            Exclusion::Reflecting(_) => None,
            Exclusion::People => Some(self.is_person),
            Exclusion::Light => Some(self.is_lamp),
        }
    }

    /// Whether it must keep out of a part of the set-up: `None` if nobody can tell.
    pub fn keeps_out(&self, part: &Part) -> Option<bool> {
        if self.high.min(part.high) - self.low.max(part.low) <= TOUCH_MM {
            return Some(false);
        }
        match (&part.what, self.is) {
            // A zone that was written for a car on the floor says nothing of what lifts it.
            (What::Zone(excludes), Is::Carrying) if !part.with_wheels => {
                if self.barred(*excludes) == Some(false) { Some(false) } else { None }
            }
            (What::Zone(excludes), _) => self.barred(*excludes),
            (What::Car | What::Wheel, Is::Carrying) => Some(false),
            // What a tyre stands on is asked apart.
            (What::Wheel, Is::Proud) => Some(false),
            _ => Some(true),
        }
    }

    pub fn moved(&self, by: DVec2) -> Ring {
        self.ring.iter().map(|&p| p + by).collect()
    }
}

impl Part {
    /// Whether it is a zone that somebody who walks there is kept out of.
    pub fn is_kept_from(&self, person: &Solid) -> bool {
        matches!(self.what, What::Zone(own) if person.barred(own) == Some(true)) && self.low < PERSON_MM
    }
}

/// What a thing could meet, for those who put it somewhere: how far it is from all of a set-up that it must keep out of,
/// in one frame, mm; lines of sight are taken as wide as a first Fresnel zone.
pub fn spare(placed: &SetUp, solid: &Solid) -> f64 {
    let fresnel = 90.0;
    let mut least = f64::INFINITY;
    for part in placed.parts.iter().filter(|part| solid.keeps_out(part) != Some(false)) {
        if box_gap(&solid.ring, &part.ring) < least {
            least = least.min(gap(&solid.ring, &part.ring));
        }
    }
    // Nothing over or under the car, and what hangs low is not where people work.
    let hangs_low = solid.low > 0.0 && solid.low < 2_100.0;
    for part in placed.parts.iter().filter(|part| !matches!(part.what, What::Zone(_))) {
        let room = placed.working_room + 20.0;
        if (part.what == What::Car || hangs_low) && box_gap(&solid.ring, &part.ring) - room < least {
            least = least.min(gap(&solid.ring, &part.ring) - room);
        }
    }
    // People move: a step more.
    let zones = placed.parts.iter().filter(|part| solid.is_person && part.is_kept_from(solid));
    for zone in zones {
        if box_gap(&solid.ring, &zone.ring) - STEP_MM < least {
            least = least.min(gap(&solid.ring, &zone.ring) - STEP_MM);
        }
    }
    for sight in placed.sights.iter().filter(|_| solid.is_person) {
        least = least.min(gap(&solid.ring, &sight.ring()) - STEP_MM);
    }
    if placed.round_targets > 0.0 {
        least = least.min(from_targets(placed, &solid.ring) - placed.round_targets);
    }
    for (_, at) in placed.marks.iter().filter(|_| solid.low < placed.over_mark) {
        least = least.min(-depth_of(&solid.ring, *at));
    }
    for run in placed.runs.iter().filter(|run| solid.is_in_run(run.from, run.to) && solid.low < run.top) {
        least = least.min(gap_to_line(&solid.ring, run.from, run.to));
    }
    for sight in &placed.sights {
        let heights = [-1.0, 1.0].map(|v| sight.point(0.0, v).z);
        let low = heights[0].min(heights[1]).min(sight.eye.z) - fresnel;
        let high = heights[0].max(heights[1]).max(sight.eye.z) + fresnel;
        if solid.low < high && solid.high > low {
            let across =
                [sight.eye.truncate(), sight.point(-1.0, 1.0).truncate(), sight.point(1.0, 1.0).truncate()];
            let back =
                [sight.eye.truncate(), sight.point(-1.0, -1.0).truncate(), sight.point(1.0, -1.0).truncate()];
            let least_gap = gap(&solid.ring, &across).min(gap(&solid.ring, &back));
            let disc = round(sight.eye.truncate(), fresnel);
            least = least.min(least_gap - fresnel).min(gap(&solid.ring, &disc));
        }
    }
    least
}

/// Two solids in one place, deeper than a margin, mm.
pub fn stacked(a: &Solid, b: &Solid, margin: f64) -> bool {
    a.high.min(b.high) - a.low.max(b.low) > margin && depth(&a.ring, &b.ring) > margin
}
