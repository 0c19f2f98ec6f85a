//! Whether what this check finds stops the aiming wherever the car stands within so far of where it does: the same figures, each
//! with by how much it changes at most on a floor that is nowhere steeper than thereabouts.

use baywright_geometry::locate::locate_in;
use baywright_geometry::{DVec2, Located, Polygon, hull};

use super::target_height::{height_limit, over_plane};
use super::target_plumb::offs;
use super::tilt::{Figure, SPEAKS_FROM_RAD, Wheels};
use crate::check::finding::Basis;
use crate::check::{Context, SPEAKS_FROM_MM};
use crate::ground::spots::{Spot, Spots};
use crate::model::{Arrangement, FloorSurvey, LevelPoint, Levels};
use crate::scene::Scene;

/// What the levels of a floor do anywhere near a place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Levelled {
    /// They stop the aiming wherever there.
    Stops,
    /// They stop it nowhere there.
    Never,
    /// Neither is sure.
    Perhaps,
}

/// What of the surveys is the same wherever the car stands.
#[derive(Clone, Debug)]
pub(crate) struct Surveyed {
    /// The floor, then the runways that carry the car, as [`Spots`] has them; `None` where nothing was surveyed.
    grounds: Vec<Option<Own>>,
    /// Whether levels differ anywhere.
    is_uneven: bool,
}

/// What of one survey is.
#[derive(Clone, Debug)]
struct Own {
    points: Levels,
    /// How its levels lie to one plane that is taken away from all grounds: how steep these are says how unevenly the floor falls.
    evened: Levels,
    around: Option<Polygon>,
    /// How much its levels differ.
    range_mm: f64,
}

impl Surveyed {
    /// Of the floor and the runways that carry the car.
    pub(crate) fn of(arrangement: &Arrangement) -> Self {
        let carries = arrangement.bay.runways.iter().filter(|own| arrangement.on_runways.contains(&own.id));
        let carrying: Vec<_> = carries.collect();
        let floor = arrangement.bay.survey.as_ref();
        let surveys: Vec<Option<&FloorSurvey>> =
            std::iter::once(floor).chain(carrying.iter().map(|own| own.survey.as_ref())).collect();
        let falls = floor.map_or(DVec2::ZERO, |own| falls(&own.points));
        let own = |survey: &FloorSurvey| {
            let at: Vec<DVec2> = survey.points.iter().map(|own| own.at).collect();
            let even = |own: &LevelPoint| LevelPoint { level_mm: own.level_mm - falls.dot(own.at), ..*own };
            Own {
                points: survey.points.clone(),
                evened: survey.points.iter().map(even).collect(),
                around: hull(&at),
                range_mm: range_mm(survey.points.iter().map(|own| own.level_mm)),
            }
        };
        let tops = std::iter::once(0.0).chain(carrying.iter().map(|own| own.top_mm));
        let highest = carrying.iter().map(|own| own.top_mm).fold(0.0, f64::max);
        let raised = tops.enumerate().map(|(nth, top)| if nth == 0 { 0.0 } else { top - highest });
        let levels = surveys.iter().zip(raised).filter_map(|(own, raised)| Some(((*own)?, raised)));
        let levels = levels.flat_map(|(own, raised)| own.points.iter().map(move |p| raised + p.level_mm));
        let levels: Vec<f64> = levels.collect();
        Self {
            is_uneven: range_mm(levels.iter().copied()) > 0.0,
            grounds: surveys.iter().map(|survey| survey.map(own)).collect(),
        }
    }

    fn ground(&self, spot: &Spot) -> Option<&Own> {
        self.grounds.get(spot.ground)?.as_ref()
    }

    /// How much higher or lower a spot may be if it is so far elsewhere, mm: no more than all that was surveyed differs.
    fn moved_mm(&self, spot: &Spot, by: &Moved) -> f64 {
        let far = by.far_mm();
        self.ground(spot).map_or(0.0, |own| (own.points.steepest_near(spot.at, far) * far).min(own.range_mm))
    }

    /// The same against what a plane that falls as the floor does would make of the shift: that is the same for all spots, and of
    /// what all do alike no figure tells.
    fn moved_unlike_mm(&self, spot: &Spot, by: &Moved) -> f64 {
        let far = by.far_mm();
        self.ground(spot).map_or(0.0, |own| {
            let turned = own.points.steepest_near(spot.at, far) * by.turn_mm;
            own.evened.steepest_near(spot.at, far) * by.shift_mm + turned
        })
    }

    /// Whether levels are known all round a spot so far, or nowhere there.
    fn covers(&self, spot: &Spot, far_mm: f64) -> Covers {
        let Some(own) = self.ground(spot) else { return Covers::None };
        let Some(around) = &own.around else {
            let is_near = own.points.iter().any(|own| own.at.distance(spot.at) <= far_mm);
            return if is_near { Covers::Some } else { Covers::None };
        };
        let edge = around.edges().map(|own| own.distance_to(spot.at)).fold(f64::INFINITY, f64::min);
        match (edge > far_mm, locate_in(around, spot.at)) {
            (false, _) => Covers::Some,
            (true, Located::Outside) => Covers::None,
            (true, _) => Covers::All,
        }
    }
}

/// How a plane through some levels falls, as a share along x and y: the one with the least squares, or level if they fix none.
fn falls(points: &Levels) -> DVec2 {
    let count = points.len().max(1) as f64;
    let middle = points.iter().map(|own| own.at).sum::<DVec2>() / count;
    let level = points.iter().map(|own| own.level_mm).sum::<f64>() / count;
    let (mut xx, mut xy, mut yy, mut z) = (0.0, 0.0, 0.0, DVec2::ZERO);
    for own in points {
        let off = own.at - middle;
        (xx, xy, yy) = (xx + off.x * off.x, xy + off.x * off.y, yy + off.y * off.y);
        z += off * (own.level_mm - level);
    }
    let fixed = xx * yy - xy * xy;
    let falls = DVec2::new(z.x * yy - z.y * xy, z.y * xx - z.x * xy) / fixed;
    if falls.is_finite() && fixed > 1e-6 * xx * yy { falls } else { DVec2::ZERO }
}

/// How far a spot goes at most, mm.
struct Moved {
    /// With all others.
    shift_mm: f64,
    /// As the car turns.
    turn_mm: f64,
}

impl Moved {
    fn far_mm(&self) -> f64 {
        self.shift_mm + self.turn_mm
    }
}

/// How known levels of a survey are about a place.
#[derive(Clone, Copy, PartialEq)]
enum Covers {
    All,
    None,
    Some,
}

/// What the levels do with the car within so many mm of where it stands, and within so many radians of its heading.
pub(crate) fn levelled_within(
    arrangement: &Arrangement,
    scene: &Scene,
    surveyed: &Surveyed,
    within_mm: f64,
    within_rad: f64,
) -> Levelled {
    let context = Context::new(arrangement, scene);
    let mut spots = Spots::of(arrangement, scene);
    let origin = scene.bay_from_vehicle.origin();
    let moved = |at: DVec2| Moved { shift_mm: within_mm, turn_mm: within_rad * at.distance(origin) };
    let all_of = |of: fn(&Surveyed, &Spot, &Moved) -> f64| {
        spots.standing().map(|spot| of(surveyed, spot, &moved(spot.at))).collect::<Vec<f64>>()
    };
    // Both bounds hold of all spots together, the one or the other.
    let (plain, unlike) = (all_of(Surveyed::moved_mm), all_of(Surveyed::moved_unlike_mm));
    let is_less = unlike.iter().sum::<f64>() < plain.iter().sum::<f64>();
    let bounds = if is_less { unlike } else { plain };
    // Beside its runway a wheel has no level here, and may have one near by.
    let mut unsure = spots.wheels.len() < scene.wheels.len();
    let Spots { wheels, targets, feet, .. } = &mut spots;
    let standing = wheels.iter_mut().chain(targets.iter_mut()).chain(feet.iter_mut());
    for (spot, moved_mm) in standing.zip(bounds) {
        spot.moved_mm = moved_mm;
        match surveyed.covers(spot, moved(spot.at).far_mm()) {
            Covers::All => {}
            Covers::None => spot.level = None,
            Covers::Some => unsure = true,
        }
    }
    let mut all = Levelled::Never;
    let mut say = |figure: Figure, limit: f64| {
        let turned = 2.0 * within_rad * (figure.value.abs() + figure.moved);
        let moved = figure.moved * 1.01 + turned;
        if figure.value.abs() - moved > limit {
            all = Levelled::Stops;
        } else if figure.value.abs() + moved > limit && all == Levelled::Never {
            all = Levelled::Perhaps;
        }
    };
    if let Some(floor) = arrangement.aiming.floor {
        let known = || spots.standing().filter_map(|spot| Some((spot.level?.level_mm, spot.moved_mm)));
        let most =
            |by: f64| known().map(|(level, moved)| level + by * moved).fold(f64::NEG_INFINITY, f64::max);
        let least = |by: f64| known().map(|(level, moved)| level - by * moved).fold(f64::INFINITY, f64::min);
        if most(0.0) > f64::NEG_INFINITY {
            let (low, high) = (most(-1.0) - least(-1.0), most(1.0) - least(1.0));
            let (value, moved) = ((low + high) * 0.5, (high - low) * 0.5);
            say(Figure { value, within: 0.0, moved }, floor.level_mm + SPEAKS_FROM_MM);
        }
    }
    if let Some(wheels) = Wheels::of(&context, &spots) {
        if let Some(floor) = arrangement.aiming.floor {
            let tilts = [
                (floor.pitch_rad, wheels.figure(|stance| stance.pitch_rad)),
                (floor.roll_rad, wheels.figure(|stance| stance.roll_rad)),
            ];
            for (limit, figure) in tilts {
                if let Some(limit) = limit {
                    say(figure, limit + SPEAKS_FROM_RAD);
                }
            }
        }
        for (index, target) in spots.targets.iter().enumerate() {
            let lies = scene.targets.get(index).is_some_and(|own| own.lies);
            let limit = height_limit(&context, index).filter(|(_, basis)| *basis != Basis::CommonPractice);
            if let (true, false, Some((limit, _)), Some(level)) =
                (lies, context.is_raised(), limit, target.level)
            {
                let plane = over_plane(&wheels, target);
                let figure = Figure {
                    value: level.level_mm - plane.value,
                    within: 0.0,
                    moved: plane.moved + target.moved_mm,
                };
                say(figure, limit + SPEAKS_FROM_MM);
            }
            for off in offs(&context, &wheels, index).into_iter().flatten().filter(|off| off.stops) {
                let figure = Figure { value: off.value, within: 0.0, moved: off.moved };
                say(figure, off.limit + off.slack());
            }
        }
    }
    // Where something may be known or not, what is known of it there may stop, or what stops here may not be known.
    match all {
        Levelled::Never | Levelled::Stops if unsure && surveyed.is_uneven => Levelled::Perhaps,
        sure => sure,
    }
}

fn range_mm(levels: impl Iterator<Item = f64> + Clone) -> f64 {
    let most = levels.clone().fold(f64::NEG_INFINITY, f64::max);
    (most - levels.fold(f64::INFINITY, f64::min)).max(0.0)
}
