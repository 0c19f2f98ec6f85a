//! Where something stands whose level matters, and what its level is.

use baywright_geometry::locate::{Located, locate, locate_in};
use baywright_geometry::marks::Construction;
use baywright_geometry::{DVec2, Outline, Polygon};
use baywright_survey::Level;

use super::LevelKnown;
use crate::model::{Arrangement, FloorSurvey, Id, Runway};
use crate::scene::Scene;

/// What stands on the floor, or what it stands on.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum On {
    /// The car.
    Car,
    /// A placement's target.
    Target(Id),
    /// Its stand.
    Stand(Id),
    /// A runway.
    Runway(Id),
    /// A floor mark.
    Mark(Id),
    /// The floor.
    Floor,
}

/// What something stands on, with its own survey: one of the floor says nothing of a runway.
pub(crate) struct Ground<'a> {
    pub(crate) of: On,
    pub(crate) survey: Option<&'a FloorSurvey>,
    /// How high it lies as entered.
    pub(crate) height: f64,
    /// How much higher that is than the plane from which everything on it is meant.
    pub(crate) raised: f64,
    pub(crate) place: DVec2,
}

/// Something whose level matters, on the ground of this number.
pub(crate) struct Spot {
    pub(crate) of: On,
    pub(crate) ground: usize,
    pub(crate) at: DVec2,
    pub(crate) level: Option<Level>,
    /// How much higher or lower it may be where it stands if the car, with all that is laid from it, stands elsewhere, mm.
    pub(crate) moved_mm: f64,
}

/// The runways that carry the car, in the bay's order.
pub(crate) fn carrying(arrangement: &Arrangement) -> Vec<&Runway> {
    let carries = |own: &&Runway| arrangement.on_runways.contains(&own.id);
    arrangement.bay.runways.iter().filter(carries).collect()
}

/// On which of some runways a place is, by position.
pub(crate) fn on_which<'a>(mut runways: impl Iterator<Item = &'a Polygon>, at: DVec2) -> Option<usize> {
    runways.position(|own| locate_in(own, at) != Located::Outside)
}

/// What stands on the ground, and where: the same in every bay if the scene's car stands at its origin.
#[derive(Clone, Debug)]
pub(crate) struct Standing {
    pub(crate) wheels: [DVec2; 4],
    /// Under the middle of each target's face.
    pub(crate) targets: Vec<(On, DVec2)>,
    /// Under the corners of each stand's base.
    pub(crate) feet: Vec<(On, DVec2)>,
    /// What each mat covers. It is as flat as what is under all of it: between surveyed points the floor is nowhere higher than at
    /// one of them.
    pub(crate) mats: Vec<(On, Outline)>,
}

impl Standing {
    pub(crate) fn of(arrangement: &Arrangement, scene: &Scene) -> Self {
        let target = |id: &Id| On::Target(id.clone());
        let targets = scene.targets.iter().map(|own| (target(&own.id), own.set.place.origin()));
        let stands = arrangement.aiming.placements.iter().zip(&scene.targets);
        let stands = stands.filter_map(|(placement, own)| Some((placement.target.stand.as_ref()?, own)));
        let feet = stands.flat_map(|(stand, own)| {
            let at = feet(&stand.base.placed(&own.set.place));
            at.into_iter().map(|at| (On::Stand(own.id.clone()), at)).collect::<Vec<_>>()
        });
        let mats = scene.targets.iter().filter(|own| own.lies);
        let mats = mats.filter_map(|own| Some((target(&own.id), own.solids.first()?.outline.clone())));
        Self { wheels: scene.wheels, targets: targets.collect(), feet: feet.collect(), mats: mats.collect() }
    }
}

/// Where a stand's base rests, or a mat's rim: its corners, or the four quarters of a round one.
pub(crate) fn feet(base: &Outline) -> Vec<DVec2> {
    match base {
        Outline::Polygon(polygon) => polygon.outer().to_vec(),
        Outline::Circle(circle) => {
            let out = [DVec2::X, DVec2::Y, DVec2::NEG_X, DVec2::NEG_Y];
            out.map(|out| circle.centre() + out * circle.radius()).to_vec()
        }
    }
}

/// Everything whose level matters, each with its level as surveyed. Levels on runways are those above the plane that
/// carries the wheels, on the floor those above the bay's zero: what both are meant to be differs by the runways' height.
pub(crate) struct Spots<'a> {
    /// The floor first, then the runways that carry the car.
    pub(crate) grounds: Vec<Ground<'a>>,
    pub(crate) wheels: Vec<Spot>,
    /// Under the middle of each target's face.
    pub(crate) targets: Vec<Spot>,
    /// Under the corners of each stand's base, and under all of a mat.
    pub(crate) feet: Vec<Spot>,
    pub(crate) marks: Vec<Spot>,
}

impl<'a> Spots<'a> {
    pub(crate) fn of(arrangement: &'a Arrangement, scene: &Scene) -> Self {
        let survey = arrangement.bay.survey.as_ref();
        let place = scene.bay_from_vehicle.origin();
        let mut grounds = vec![Ground { of: On::Floor, survey, height: 0.0, raised: 0.0, place }];
        let carrying = carrying(arrangement);
        grounds.extend(carrying.iter().map(|runway| Ground {
            of: On::Runway(runway.id.clone()),
            survey: runway.survey.as_ref(),
            height: runway.top_mm,
            raised: runway.top_mm - scene.carried_at_mm,
            place: runway.outline.bounds().centre(),
        }));
        let on_runway = |at: DVec2| on_which(carrying.iter().map(|own| &own.outline), at).map(|nth| nth + 1);
        let spot = |of: On, ground: usize, at: DVec2| {
            let own = grounds.get(ground);
            let survey = own.and_then(|own| own.survey);
            let raised = own.map_or(0.0, |own| own.raised);
            let level = survey.and_then(|survey| survey.points.at(at));
            // How surely each of them was taken is on top of how the floor bends between them.
            let taken = survey.map_or(0.0, |own| LevelKnown::of(own, arrangement).within_mm);
            let level = level.map(|level| Level {
                level_mm: level.level_mm + raised,
                within_mm: libm::hypot(level.within_mm, taken),
                ..level
            });
            let off = arrangement.sway_mm(place.distance(at));
            let steep = survey.filter(|_| off > 0.0).map_or(0.0, |own| own.points.steepest_near(at, off));
            Spot { of, ground, at, level, moved_mm: steep * off }
        };
        // A wheel that no runway holds is found by another check.
        let ground_of = |at: DVec2| if carrying.is_empty() { Some(0) } else { on_runway(at) };
        let standing = Standing::of(arrangement, scene);
        let wheels = standing.wheels.iter().filter_map(|at| Some(spot(On::Car, ground_of(*at)?, *at)));
        let on_floor = |(of, at): (On, DVec2)| spot(of, 0, at);
        let targets = standing.targets.into_iter().map(on_floor);
        let mats = standing.mats.into_iter().flat_map(|(of, area)| {
            let inside = |at: &DVec2| locate(&area, *at) == Located::Inside;
            let surveyed = survey.into_iter().flat_map(|own| &own.points).map(|point| point.at);
            let under = feet(&area).into_iter().chain(surveyed.filter(inside));
            under.map(|at| (of.clone(), at)).collect::<Vec<_>>()
        });
        let feet = standing.feet.into_iter().chain(mats).map(on_floor);
        let made = arrangement.aiming.mark_plan.iter().zip(&scene.marks);
        let made = made.filter(|(step, _)| !matches!(step.construction, Construction::WheelPoint { .. }));
        let marks = made.filter_map(|(_, mark)| {
            let at = mark.at.ok()?;
            Some(spot(On::Mark(mark.id.clone()), on_runway(at).unwrap_or(0), at))
        });
        let (wheels, targets) = (wheels.collect(), targets.collect());
        let (feet, marks) = (feet.collect(), marks.collect());
        Self { wheels, targets, feet, marks, grounds }
    }

    /// What stands there: all but the marks.
    pub(crate) fn standing(&self) -> impl Iterator<Item = &Spot> {
        self.wheels.iter().chain(&self.targets).chain(&self.feet)
    }

    pub(crate) fn on(&self, ground: usize) -> impl Iterator<Item = &Spot> {
        self.standing().chain(&self.marks).filter(move |spot| spot.ground == ground)
    }
}
