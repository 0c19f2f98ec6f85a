//! The runways that carry the car: each tyre, and each spot beside one, on one of them.

use baywright_geometry::convex::{hull, moves_to_meet, moves_within};
use baywright_geometry::{Bounds, DVec2, Polygon, Region, boolean};

use super::solids::SetUp;
use crate::check::{Context, beside_tyres};

/// Far enough past an edge, mm.
const PAST_MM: f64 = 100.0;

/// What must be on one of some runways.
#[derive(Clone, Debug)]
pub(super) struct OnRunways {
    runways: Vec<Runway>,
    /// Vehicle frame: treads, and spots outboard of tyres.
    parts: Vec<Vec<DVec2>>,
}

#[derive(Clone, Debug)]
struct Runway {
    hull: Vec<DVec2>,
    /// What of the hull is no runway, in convex pieces.
    notches: Vec<Vec<DVec2>>,
}

impl Runway {
    fn of(outline: &Polygon) -> Option<Self> {
        let hull = hull(outline.outer())?;
        let notches = boolean::difference(&hull, outline);
        let notches = notches.iter().flat_map(|own| own.pieces().map(<[DVec2]>::to_vec).collect::<Vec<_>>());
        Some(Self { hull: hull.outer().to_vec(), notches: notches.collect() })
    }
}

impl OnRunways {
    /// `None` of a car on the floor.
    pub(super) fn of(set_up: &SetUp<'_>) -> Option<Self> {
        let (arrangement, scene) = (set_up.arrangement, set_up.scene);
        if arrangement.on_runways.is_empty() {
            return None;
        }
        let context = Context::new(arrangement, scene);
        let runways = context.carrying_runways().filter_map(|(own, _)| Runway::of(&own.outline)).collect();
        let treads = scene.treads.iter().map(|own| own.outer().to_vec());
        let spots = beside_tyres(&context, &arrangement.aiming).map(|(_, at)| vec![at]);
        let spots = spots.filter(|_| scene.carried_at_mm > 0.0);
        Some(Self { runways, parts: treads.chain(spots).collect() })
    }

    /// The rings of all places, in a frame, where one of the parts is on none.
    pub(super) fn off(&self, frame: &[DVec2], turned: impl Fn(&[DVec2]) -> Vec<DVec2>) -> Vec<Vec<DVec2>> {
        // Past the frame's own edge, so that rounding leaves nothing between the two.
        let Some(Bounds { low, high }) = Bounds::around(frame.iter().copied()).map(|own| own.grown(PAST_MM))
        else {
            return Vec::new();
        };
        let around = vec![low, DVec2::new(high.x, low.y), high, DVec2::new(low.x, high.y)];
        let mut off = Vec::new();
        for part in &self.parts {
            let part = turned(part);
            let on = self.runways.iter().flat_map(|runway| {
                let within = moves_within(&runway.hull, &part);
                let notched = runway.notches.iter().map(|own| moves_to_meet(own, &part));
                let on = Region::left(&[within], &notched.collect::<Vec<_>>());
                on.rings().map(<[DVec2]>::to_vec).collect::<Vec<_>>()
            });
            let left = Region::left(std::slice::from_ref(&around), &on.collect::<Vec<_>>());
            off.extend(left.rings().map(<[DVec2]>::to_vec));
        }
        off
    }
}
