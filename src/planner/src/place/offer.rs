//! What is offered to whoever parks the car: the best spots to the millimetre, as a tape has them; where there is none, what is known.

use baywright_geometry::{DVec2, PlanPose};

use super::by_tape::ByTape;
use super::spot::{Found, Margin, Slack, Spot, best_spots};
use super::{Search, headings};
use crate::assessment::Finding;
use crate::model::{Arrangement, ParkedKnown};
use crate::scene::Scene;

/// A place that is moved to the next whole mm along both axes is moved by less than this, mm: half a diagonal.
const MOVED_MM: f64 = 1.0;

/// A spot, and how a person parks there.
#[derive(Clone, Debug, PartialEq)]
pub struct Offer {
    /// The spot, its place in whole mm of the bay frame.
    pub spot: Spot,
    /// How it is parked there.
    pub by_tape: ByTape,
    /// Whether the car may be as far off as the shop parks one.
    pub meets: bool,
}

/// What a search for spots has to say.
#[derive(Clone, Debug, PartialEq)]
pub struct Offered {
    /// The best first.
    pub offers: Vec<Offer>,
    /// What stops the aiming wherever the car stands.
    pub everywhere: Vec<Finding>,
    /// How far off the shop parks a car.
    pub margin: Margin,
    /// What of the headings was looked at.
    pub found: Found,
}

/// How many headings are looked at in a bay.
pub fn all_headings(arrangement: &Arrangement) -> usize {
    headings(&arrangement.bay.room).len()
}

/// Looks for the best spots in all headings; `tell` hears how many of them are done.
pub fn offered(
    arrangement: &Arrangement,
    is_stopped: &dyn Fn() -> bool,
    tell: &mut dyn FnMut(usize),
) -> Offered {
    let search = Search::new(arrangement);
    let (mm, rad) = arrangement.shop.parked_within(ParkedKnown::Planned);
    let margin = Margin { mm, rad };
    let found = if search.everywhere().is_empty() {
        best_spots(&search, &margin, is_stopped, tell)
    } else {
        Found::default()
    };
    let scene = Scene::of(arrangement);
    let offers = found.spots.iter().map(|spot| {
        let spot = in_whole_mm(spot, search.lever_mm());
        Offer { by_tape: ByTape::of(arrangement, &scene, spot.pose), meets: spot.meets(&margin), spot }
    });
    Offered { offers: offers.collect(), everywhere: search.everywhere().to_vec(), margin, found }
}

/// The same spot at the next place of whole mm. Its slack is less by what that moves it, so that its box lies inside the one that
/// was looked at.
pub(crate) fn in_whole_mm(spot: &Spot, lever_mm: f64) -> Spot {
    let at: DVec2 = spot.pose.origin().round();
    let mm = spot.slack.mm - MOVED_MM;
    if mm < 0.0 {
        return *spot;
    }
    let slack = Slack { mm, rad: spot.slack.rad.min(mm / lever_mm.max(1.0)) };
    Spot { pose: PlanPose::new(at, spot.pose.heading()), slack, ..*spot }
}
