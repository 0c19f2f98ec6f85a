//! Whether what this check finds stops the aiming wherever the car stands within so far of a pose: the same figures, each
//! with by how much it changes at most on a floor that is nowhere steeper than thereabouts.
//!
//! All that stands goes along with the car, so that it is put in its place once, with the car at the bay's origin; for a pose only
//! the levels under it are looked up. What a figure is made of them is the check's own.

#[cfg(test)]
pub(crate) mod direct;

use baywright_geometry::locate::locate_in;
use baywright_geometry::{DVec2, DVec3, Located, Outline, PlanPose, Polygon, hull};

use super::target_height::{height_limit, over_plane};
use super::target_plumb::offs;
use super::tilt::{Figure, SPEAKS_FROM_RAD, Wheels};
use crate::check::finding::Basis;
use crate::check::{Context, SPEAKS_FROM_MM};
use crate::ground::spots::{Standing, carrying, feet, on_which};
use crate::model::{Arrangement, FloorSurvey, Levels};
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

/// What is the same wherever the car stands.
#[derive(Clone, Debug)]
pub(crate) struct Surveyed {
    /// With the car at the bay's origin, so that its bay frame is the vehicle frame.
    at_origin: Arrangement,
    scene: Scene,
    standing: Standing,
    /// The floor, then the runways that carry the car.
    grounds: Vec<Ground>,
    /// Whether levels differ anywhere.
    is_uneven: bool,
}

/// The floor or a runway.
#[derive(Clone, Debug)]
struct Ground {
    /// How much higher it lies than the plane from which everything on it is meant, mm.
    raised_mm: f64,
    survey: Option<Survey>,
}

/// What of one survey is.
#[derive(Clone, Debug)]
struct Survey {
    points: Levels,
    /// How the floor falls, as a share along x and y: how steep levels are against that plane, which is one for all grounds, says how
    /// unevenly they fall.
    falls: DVec2,
    around: Option<Polygon>,
    /// How much its levels differ.
    range_mm: f64,
}

impl Surveyed {
    /// Of the floor and the runways that carry the car, which stands at the bay's origin.
    pub(crate) fn of(at_origin: Arrangement) -> Self {
        let scene = Scene::of(&at_origin);
        let floor = at_origin.bay.survey.as_ref();
        let falls = floor.map_or(DVec2::ZERO, |own| falls(&own.points));
        let runways = carrying(&at_origin);
        let runways = runways.iter().map(|own| (own.survey.as_ref(), own.top_mm - scene.carried_at_mm));
        let grounds: Vec<Ground> = std::iter::once((floor, 0.0))
            .chain(runways)
            .map(|(survey, raised_mm)| Ground { raised_mm, survey: survey.map(|own| Survey::of(own, falls)) })
            .collect();
        let levels = grounds.iter().filter_map(|own| Some((own.survey.as_ref()?, own.raised_mm)));
        let levels = levels.flat_map(|(own, raised)| own.points.iter().map(move |p| raised + p.level_mm));
        let is_uneven = range_mm(levels) > 0.0;
        Self { standing: Standing::of(&at_origin, &scene), at_origin, scene, grounds, is_uneven }
    }

    /// To be asked of pose after pose.
    pub(crate) fn asked(&self) -> Asked<'_> {
        let context = Context::new(&self.at_origin, &self.scene);
        let heights = self.scene.targets.iter().enumerate().map(|(index, own)| {
            let (limit, basis) = height_limit(&context, index)?;
            (own.lies && !context.is_raised() && basis != Basis::CommonPractice).then_some(limit)
        });
        let lying = self.floor().filter(|_| !self.standing.mats.is_empty());
        let lying = lying.into_iter().flat_map(|own| &own.points);
        let lying = lying.filter_map(|own| Some((own.at, self.floor()?.points.level_mm(own.at)?)));
        Asked {
            heights: heights.collect(),
            lying: lying.collect(),
            runways: carrying(&self.at_origin).iter().map(|own| &own.outline).collect(),
            of: self,
            context,
        }
    }

    fn floor(&self) -> Option<&Survey> {
        self.grounds.first()?.survey.as_ref()
    }
}

impl Survey {
    fn of(survey: &FloorSurvey, falls: DVec2) -> Self {
        let at: Vec<DVec2> = survey.points.iter().map(|own| own.at).collect();
        Self {
            points: survey.points.clone(),
            falls,
            around: hull(&at),
            range_mm: range_mm(survey.points.iter().map(|own| own.level_mm)),
        }
    }

    /// Whether levels are known all round a place so far, or nowhere there.
    fn covers(&self, place: DVec2, far_mm: f64) -> Covers {
        let Some(around) = &self.around else {
            let is_near = self.points.iter().any(|own| own.at.distance(place) <= far_mm);
            return if is_near { Covers::Some } else { Covers::None };
        };
        let edge = around.edges().map(|own| own.distance_to(place)).fold(f64::INFINITY, f64::min);
        match (edge > far_mm, locate_in(around, place)) {
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

/// How far something goes at most, mm.
#[derive(Clone, Copy)]
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

/// Something that stands somewhere.
#[derive(Clone, Copy)]
struct Stands {
    /// Where, vehicle frame.
    at: DVec2,
    /// The level there, if one is known.
    level_mm: Option<f64>,
    /// How much higher or lower it may be if it is so far elsewhere, mm: no more than all that was surveyed differs.
    moved_mm: f64,
    /// The same against what a plane that falls as the floor does would make of the shift: that is the same for all that stands, and
    /// of what all do alike no figure tells.
    unlike_mm: f64,
}

/// What is the same for all poses that are asked of one after the other.
pub(crate) struct Asked<'a> {
    of: &'a Surveyed,
    context: Context<'a>,
    /// How far off in height each target may be so that it does not stop; of others nothing.
    heights: Vec<Option<f64>>,
    /// The surveyed points of the floor that mats may come to lie on, with their levels.
    lying: Vec<(DVec2, f64)>,
    /// The outlines of the runways that carry the car.
    runways: Vec<&'a Polygon>,
}

impl Asked<'_> {
    /// What the levels do with the car within so many mm of a pose, and within so many radians of its heading.
    pub(crate) fn within(&self, pose: PlanPose, within_mm: f64, within_rad: f64) -> Levelled {
        let standing = &self.of.standing;
        let by = |at: DVec2| Moved { shift_mm: within_mm, turn_mm: within_rad * at.length() };
        let mut unsure = false;
        let mut on = |ground: usize, at: DVec2| {
            let (stands, covers) = self.stands(ground, at, pose * at, by(at));
            unsure |= covers == Covers::Some;
            stands
        };
        let mut wheels: Vec<Stands> = Vec::with_capacity(4);
        let mut is_beside = false;
        for &at in &standing.wheels {
            let runway = || on_which(self.runways.iter().copied(), pose * at).map(|nth| nth + 1);
            match if self.runways.is_empty() { Some(0) } else { runway() } {
                Some(ground) => wheels.push(on(ground, at)),
                None => is_beside = true,
            }
        }
        let mut targets: Vec<Stands> = standing.targets.iter().map(|(_, at)| on(0, *at)).collect();
        let rims = standing.mats.iter().flat_map(|(_, area)| feet(area));
        let feet = standing.feet.iter().map(|own| own.1).chain(rims);
        let mut feet: Vec<Stands> = feet.map(|at| on(0, at)).collect();
        // Beside its runway a wheel has no level here, and may have one near by.
        unsure |= is_beside;
        // Both bounds hold of all that stands together, the one or the other.
        let all = || wheels.iter().chain(&targets).chain(&feet);
        if all().map(|own| own.unlike_mm).sum::<f64>() < all().map(|own| own.moved_mm).sum::<f64>() {
            let all = wheels.iter_mut().chain(&mut targets).chain(&mut feet);
            all.for_each(|own| own.moved_mm = own.unlike_mm);
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
        let asked = self.of.at_origin.aiming.floor;
        if let Some(floor) = asked {
            let mut spread = Spread::NONE;
            for own in wheels.iter().chain(&targets).chain(&feet) {
                own.level_mm.into_iter().for_each(|level| spread.hear(level, own.moved_mm, true));
            }
            for (_, area) in &standing.mats {
                self.under(area, pose, by, &mut spread);
            }
            spread.figure().into_iter().for_each(|own| say(own, floor.level_mm + SPEAKS_FROM_MM));
        }
        if let Some(plane) = plane_of(&wheels) {
            if let Some(floor) = asked {
                let tilts = [
                    (floor.pitch_rad, plane.figure(|stance| stance.pitch_rad)),
                    (floor.roll_rad, plane.figure(|stance| stance.roll_rad)),
                ];
                for (limit, figure) in tilts {
                    limit.into_iter().for_each(|limit| say(figure, limit + SPEAKS_FROM_RAD));
                }
            }
            for (index, target) in targets.iter().enumerate() {
                let limit = self.heights.get(index).copied().flatten();
                if let (Some(limit), Some(level)) = (limit, target.level_mm) {
                    let over = over_plane(&plane, target.at);
                    let moved = over.moved + target.moved_mm;
                    say(Figure { value: level - over.value, within: 0.0, moved }, limit + SPEAKS_FROM_MM);
                }
                for off in offs(&self.context, &plane, index).into_iter().flatten().filter(|off| off.stops) {
                    let figure = Figure { value: off.value, within: 0.0, moved: off.moved };
                    say(figure, off.limit + off.slack());
                }
            }
        }
        // Where something may be known or not, what is known of it there may stop, or what stops here may not be known.
        match all {
            Levelled::Never | Levelled::Stops if unsure && self.of.is_uneven => Levelled::Perhaps,
            sure => sure,
        }
    }

    /// Something on the ground of this number, where it stands in the vehicle frame and in the bay.
    fn stands(&self, ground: usize, at: DVec2, place: DVec2, by: Moved) -> (Stands, Covers) {
        let mut stands = Stands { at, level_mm: None, moved_mm: 0.0, unlike_mm: 0.0 };
        let far = by.far_mm();
        let own = self.of.grounds.get(ground).and_then(|own| Some((own.raised_mm, own.survey.as_ref()?)));
        let own = own.map(|(raised, survey)| (raised, survey, survey.covers(place, far)));
        let Some((raised, survey, covers)) = own.filter(|own| own.2 != Covers::None) else {
            return (stands, Covers::None);
        };
        stands.level_mm = survey.points.level_mm(place).map(|level| level + raised);
        let [steep, unlike] = survey.points.steepest_against(place, far, survey.falls);
        stands.moved_mm = (steep * far).min(survey.range_mm);
        stands.unlike_mm = unlike * by.shift_mm + steep * by.turn_mm;
        (stands, covers)
    }

    /// The surveyed points under a mat, or that may be, with the car at a pose: their levels stay as they are.
    fn under(&self, area: &Outline, pose: PlanPose, by: impl Fn(DVec2) -> Moved, spread: &mut Spread) {
        let (bounds, bay) = (area.bounds(), pose.inverse());
        for (place, level) in &self.lying {
            let at = bay * *place;
            let far = by(at).far_mm();
            if bounds.grown(far).holds(at) {
                let (edge, is_inside) = match area {
                    Outline::Circle(own) => {
                        let off = own.centre().distance(at) - own.radius();
                        (off.abs(), off < 0.0)
                    }
                    Outline::Polygon(own) => {
                        let edge = own.edges().map(|own| own.distance_to(at)).fold(f64::INFINITY, f64::min);
                        (edge, locate_in(own, at) == Located::Inside)
                    }
                };
                // A turn takes a point a little further than along its chord.
                if is_inside || edge <= far * 1.01 {
                    spread.hear(*level, 0.0, edge > far * 1.01);
                }
            }
        }
    }
}

/// How the car stands on its wheels, as seen from it; `None` if not all levels under them are known.
fn plane_of(wheels: &[Stands]) -> Option<Wheels> {
    let known = |own: &Stands| Some((own.at.extend(own.level_mm?), 0.0, own.moved_mm));
    let known: Vec<(DVec3, f64, f64)> = wheels.iter().filter_map(known).collect();
    Wheels::on(known.try_into().ok()?, 0.0)
}

/// How far levels differ, surely and at most.
struct Spread {
    /// Of the highest, how high it is at least and at most, mm.
    highest: [f64; 2],
    /// Of the lowest, how low it is at most and at least.
    lowest: [f64; 2],
}

impl Spread {
    const NONE: Self = Self { highest: [f64::NEG_INFINITY; 2], lowest: [f64::INFINITY; 2] };

    /// A level that is there, surely or perhaps, and may be so much higher or lower, mm.
    fn hear(&mut self, level: f64, moved: f64, is_there: bool) {
        if is_there {
            self.highest[0] = self.highest[0].max(level - moved);
            self.lowest[0] = self.lowest[0].min(level + moved);
        }
        self.highest[1] = self.highest[1].max(level + moved);
        self.lowest[1] = self.lowest[1].min(level - moved);
    }

    fn figure(&self) -> Option<Figure> {
        let Self { highest, lowest } = self;
        let (low, high) = (highest[0] - lowest[0], highest[1] - lowest[1]);
        let (value, moved) = ((low + high) * 0.5, (high - low) * 0.5);
        low.is_finite().then_some(Figure { value, within: 0.0, moved })
    }
}

fn range_mm(levels: impl Iterator<Item = f64> + Clone) -> f64 {
    let most = levels.clone().fold(f64::NEG_INFINITY, f64::max);
    (most - levels.fold(f64::INFINITY, f64::min)).max(0.0)
}
