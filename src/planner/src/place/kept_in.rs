//! A search that is kept in a part of the floor, such as a bay of a hall.

use baywright_geometry::convex::hull;
use baywright_geometry::{DVec2, PlanPose, Polygon, boolean};

use super::Search;
use super::pairs::{Barred, rings};
use super::stood::stood;
use super::walls::Held;
use crate::check::{Context, used_floor};
use crate::model::Arrangement;
use crate::scene::Scene;

/// What of a set-up is kept in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kept {
    /// All that its aimings use of the floor ([`crate::Code::BeyondBay`] has nothing to say then), with how far it may be from where it
    /// is drawn.
    All,
    /// The car's own outline; its zones, targets and marks may lie beyond.
    Car,
}

impl Search {
    /// The same search, with the set-up kept in a part of the floor, bay frame, mm. A place that is left out by that may be without
    /// anything that stops: reaching into another bay needs care.
    pub fn kept_in(&self, floor: &Polygon, what: Kept) -> Self {
        let mut own = self.clone();
        let Some(around) = hull(floor.outer()) else { return own };
        let mut parts: Vec<Vec<DVec2>> = Vec::new();
        for arrangement in &self.arrangements {
            match what {
                Kept::All => parts.extend(used(arrangement)),
                Kept::Car => {
                    parts.extend(hull(&arrangement.vehicle.outline_top).map(|own| own.outer().to_vec()))
                }
            }
        }
        for notch in boolean::difference(&around, floor) {
            let pieces: Vec<Vec<DVec2>> = notch.pieces().map(<[DVec2]>::to_vec).collect();
            let bars = parts.iter().map(|ring| Barred { ring: ring.clone(), sure: true });
            own.pairs.add(&pieces, bars.collect());
        }
        let corners: Vec<DVec2> = parts.into_iter().flatten().collect();
        let moves = hull(&corners).map_or(corners, |own| own.outer().to_vec());
        own.held.push(Held { ring: around.outer().to_vec(), moves });
        own
    }
}

/// All that an aiming uses of the floor, vehicle frame, a little larger than it is and than it may lie.
fn used(arrangement: &Arrangement) -> Vec<Vec<DVec2>> {
    let at_origin = stood(arrangement, PlanPose::IDENTITY);
    let scene = Scene::of(&at_origin);
    let all = used_floor(&Context::new(&at_origin, &scene));
    let grown = all.into_iter().flat_map(|(outline, sway_mm)| {
        // What is within a hair of the line is not in doubt.
        let by = sway_mm + super::BAND_MM;
        rings(&outline).into_iter().map(move |ring| {
            let corners = [(by, by), (-by, by), (-by, -by), (by, -by)].map(DVec2::from);
            let corners: Vec<DVec2> = ring.iter().flat_map(|&p| corners.map(|off| p + off)).collect();
            hull(&corners).map_or(ring, |own| own.outer().to_vec())
        })
    });
    grown.collect()
}

/// How far all of a set-up that must lie in the room reaches in the vehicle frame, mm: the low and the high corner.
pub fn reach(arrangement: &Arrangement) -> (DVec2, DVec2) {
    let at_origin = stood(arrangement, PlanPose::IDENTITY);
    let scene = Scene::of(&at_origin);
    let set_up = super::solids::SetUp::new(&at_origin, &scene);
    let rings = set_up.inside().into_iter().flat_map(|(rings, _)| rings).flatten();
    let all: Vec<DVec2> = rings.chain(set_up.on_floor()).collect();
    let low = all.iter().copied().reduce(DVec2::min).unwrap_or_default();
    let high = all.iter().copied().reduce(DVec2::max).unwrap_or_default();
    (low, high)
}
