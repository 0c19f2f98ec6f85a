//! Whether what this check finds stops the aiming wherever the car stands within so far of where it does: the same figures, each
//! with by how much it changes at most on a floor that is nowhere steeper than thereabouts.

use baywright_geometry::{DVec2, Located, hull, locate};

use super::target_height::{height_limit, over_plane};
use super::target_plumb::offs;
use super::tilt::{Figure, SPEAKS_FROM_RAD, Wheels};
use crate::check::finding::Basis;
use crate::check::{Context, SPEAKS_FROM_MM};
use crate::ground::spots::{Ground, Spot, Spots};
use crate::model::Arrangement;
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
    within_mm: f64,
    within_rad: f64,
) -> Levelled {
    let context = Context::new(arrangement, scene);
    let mut spots = Spots::of(arrangement, scene);
    let origin = scene.bay_from_vehicle.origin();
    let reach = |at: DVec2| within_mm + within_rad * at.distance(origin);
    let Spots { grounds, wheels, targets, feet, .. } = &mut spots;
    // Beside its runway a wheel has no level here, and may have one near by.
    let mut unsure = wheels.len() < scene.wheels.len();
    for spot in wheels.iter_mut().chain(targets.iter_mut()).chain(feet.iter_mut()) {
        let far = reach(spot.at);
        spot.moved_mm = moved_mm(grounds, spot, far);
        match covers(grounds, spot, far) {
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
        Levelled::Never | Levelled::Stops if unsure && is_uneven(&spots.grounds) => Levelled::Perhaps,
        sure => sure,
    }
}

/// How much higher or lower a spot may be if it is so far elsewhere, mm: no more than all that was surveyed differs.
fn moved_mm(grounds: &[Ground<'_>], spot: &Spot, far_mm: f64) -> f64 {
    let Some(survey) = grounds.get(spot.ground).and_then(|own| own.survey) else { return 0.0 };
    let range = range_mm(survey.points.iter().map(|own| own.level_mm));
    (survey.points.steepest_near(spot.at, far_mm) * far_mm).min(range)
}

fn range_mm(levels: impl Iterator<Item = f64> + Clone) -> f64 {
    let most = levels.clone().fold(f64::NEG_INFINITY, f64::max);
    (most - levels.fold(f64::INFINITY, f64::min)).max(0.0)
}

fn is_uneven(grounds: &[Ground<'_>]) -> bool {
    let surveyed = grounds.iter().filter_map(|own| Some((own.raised, own.survey?)));
    let levels =
        surveyed.flat_map(|(raised, own)| own.points.iter().map(move |point| raised + point.level_mm));
    let levels: Vec<f64> = levels.collect();
    range_mm(levels.iter().copied()) > 0.0
}

/// Whether levels are known all round a spot so far, or nowhere there.
fn covers(grounds: &[Ground<'_>], spot: &Spot, far_mm: f64) -> Covers {
    let Some(survey) = grounds.get(spot.ground).and_then(|own| own.survey) else { return Covers::None };
    let points: Vec<DVec2> = survey.points.iter().map(|own| own.at).collect();
    let Some(around) = hull(&points) else {
        let is_near = points.iter().any(|own| own.distance(spot.at) <= far_mm);
        return if is_near { Covers::Some } else { Covers::None };
    };
    let edge = around.edges().map(|own| own.distance_to(spot.at)).fold(f64::INFINITY, f64::min);
    match (edge > far_mm, locate(&around.into(), spot.at)) {
        (false, _) => Covers::Some,
        (true, Located::Outside) => Covers::None,
        (true, _) => Covers::All,
    }
}
