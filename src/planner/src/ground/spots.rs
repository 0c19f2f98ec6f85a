//! Where something stands whose level matters, and what its level is.

use baywright_geometry::locate::{Located, locate, locate_in};
use baywright_geometry::marks::Construction;
use baywright_geometry::{DVec2, Outline};
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

/// Where a stand's base rests: its corners, or the four quarters of a round one.
fn feet(base: &Outline) -> Vec<DVec2> {
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
        let carries = |own: &&Runway| arrangement.on_runways.contains(&own.id);
        let carrying: Vec<&Runway> = arrangement.bay.runways.iter().filter(carries).collect();
        grounds.extend(carrying.iter().map(|runway| Ground {
            of: On::Runway(runway.id.clone()),
            survey: runway.survey.as_ref(),
            height: runway.top_mm,
            raised: runway.top_mm - scene.carried_at_mm,
            place: runway.outline.bounds().centre(),
        }));
        let on_runway = |at: DVec2| {
            let holds = |own: &&Runway| locate_in(&own.outline, at) != Located::Outside;
            carrying.iter().position(holds).map(|index| index + 1)
        };
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
        let wheels = scene.wheels.iter().filter_map(|at| Some(spot(On::Car, ground_of(*at)?, *at)));
        let target = |id: &Id| On::Target(id.clone());
        let targets = scene.targets.iter().map(|own| spot(target(&own.id), 0, own.set.place.origin()));
        let stands = arrangement.aiming.placements.iter().zip(&scene.targets);
        let stands = stands.filter_map(|(placement, own)| Some((placement.target.stand.as_ref()?, own)));
        let feet_of_stands = stands.flat_map(|(stand, own)| {
            let at = feet(&stand.base.placed(&own.set.place));
            at.into_iter().map(|at| spot(On::Stand(own.id.clone()), 0, at)).collect::<Vec<_>>()
        });
        // A mat is as flat as what is under all of it: between surveyed points the floor is nowhere higher than at one of them.
        let mats = scene.targets.iter().filter(|own| own.lies).flat_map(|own| {
            let under = |area: &Outline| {
                let inside = |at: &DVec2| locate(area, *at) == Located::Inside;
                let surveyed = survey.into_iter().flat_map(|own| &own.points).map(|point| point.at);
                feet(area).into_iter().chain(surveyed.filter(inside)).collect::<Vec<_>>()
            };
            let at = own.solids.first().map(|solid| under(&solid.outline)).unwrap_or_default();
            at.into_iter().map(|at| spot(target(&own.id), 0, at)).collect::<Vec<_>>()
        });
        let feet = feet_of_stands.chain(mats);
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
