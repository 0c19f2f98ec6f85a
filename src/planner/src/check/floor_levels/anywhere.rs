//! Whether what this check finds stops the aiming wherever the car stands within so far of a pose: the same figures, each
//! with by how much it changes at most on a floor that is nowhere steeper than thereabouts.
//!
//! All that stands goes along with the car, so that it is put in its place once, with the car at the bay's origin; for a pose only
//! the levels under it are looked up. What a figure is made of them is the check's own.

#[cfg(test)]
pub(crate) mod direct;

use baywright_geometry::locate::locate_in;
use baywright_geometry::{DVec2, DVec3, Located, Outline, PlanPose, Polygon, Segment, hull};

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
    /// The lines around it, anticlockwise; none where its points lie on one line.
    around: Vec<Segment>,
    /// How much its levels differ.
    range_mm: f64,
    /// How steep it is anywhere, and how steep against that plane.
    steepest: [f64; 2],
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
            rims: self.standing.mats.iter().flat_map(|own| feet(&own.1)).collect(),
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
        let around = hull(&at).map_or_else(Vec::new, |own| own.edges().collect());
        Self {
            points: survey.points.clone(),
            falls,
            around,
            range_mm: range_mm(survey.points.iter().map(|own| own.level_mm)),
            steepest: survey.points.steepest_against(DVec2::ZERO, f64::INFINITY, falls),
        }
    }

    /// How far a place lies within what was surveyed, mm; negative: how far outside of it.
    fn depth_mm(&self, place: DVec2) -> f64 {
        let within = |own: &Segment| {
            let along = own.to - own.from;
            along.perp_dot(place - own.from) / along.length()
        };
        let depth = self.around.iter().map(within).fold(f64::INFINITY, f64::min);
        if depth.is_finite() && depth >= 0.0 {
            return depth;
        }
        let edges = self.around.iter().map(|own| own.distance_to(place));
        let points = self.points.iter().filter(|_| self.around.is_empty()).map(|own| own.at.distance(place));
        -edges.chain(points).fold(f64::INFINITY, f64::min)
    }

    /// The level at a place that lies so deep within what was surveyed, mm; beside it the one at the nearest place of its edge, carried on
    /// as the floor falls.
    fn carried_on(&self, place: DVec2, depth_mm: f64) -> Option<f64> {
        if depth_mm >= 0.0 {
            return self.points.level_mm(place);
        }
        let edge = self.around.iter().map(|own| own.nearest(place));
        let edge = edge.min_by(|a, b| a.distance_squared(place).total_cmp(&b.distance_squared(place)))?;
        Some(self.points.level_mm(edge)? + self.falls.dot(place - edge))
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

/// Whether a level is known.
#[derive(Clone, Copy, PartialEq, Eq)]
enum IsKnown {
    Surely,
    Perhaps,
    Nowhere,
}

/// Something that stands somewhere.
#[derive(Clone, Copy)]
struct Stands<'a> {
    /// Where, vehicle frame.
    at: DVec2,
    /// Where, bay frame.
    place: DVec2,
    /// What it stands on, if that was surveyed.
    on: Option<&'a Survey>,
    /// How deep in that.
    depth_mm: f64,
    /// The level there; beside what was surveyed the one at its edge, carried on as the floor falls. `None` where that is not known.
    level_mm: Option<f64>,
}

impl Stands<'_> {
    /// How far it goes at most.
    fn by(&self, within_mm: f64, within_rad: f64) -> Moved {
        Moved { shift_mm: within_mm, turn_mm: within_rad * self.at.length() }
    }

    /// Whether a level is known wherever it may be if it is so far elsewhere, or only at some of those places, or at none.
    fn known(&self, by: Moved) -> IsKnown {
        match self.on {
            Some(_) if self.depth_mm.abs() <= by.far_mm() => IsKnown::Perhaps,
            Some(_) if self.depth_mm > 0.0 && self.level_mm.is_some() => IsKnown::Surely,
            Some(_) | None => IsKnown::Nowhere,
        }
    }

    /// How far it stands beside what was surveyed, mm: its level is the one at the edge then, carried on.
    fn outside_mm(&self) -> f64 {
        (-self.depth_mm).max(0.0)
    }

    /// How much higher or lower it may be if it is so far elsewhere, mm, on a floor that is so steep there and so steep against the
    /// plane that falls as the floor does: no more than all that was surveyed differs. And the same against what that plane would
    /// make of the shift: that is the same for all that stands, and of what all do alike no figure tells.
    fn moved_mm(&self, by: Moved, steepest: impl Fn(&Survey) -> [f64; 2]) -> [f64; 2] {
        let known = self.known(by);
        let is_any = self.level_mm.is_some() && known != IsKnown::Nowhere;
        let Some(own) = self.on.filter(|_| is_any) else { return [0.0; 2] };
        let ([steep, unlike], outside) = (steepest(own), self.outside_mm());
        // What is carried on from the edge may be off by that much more.
        let (carried, most) = (own.falls.length() * outside, own.range_mm);
        let plain = (steep * (by.far_mm() + outside)).min(most) + carried;
        let unlike = match known == IsKnown::Surely {
            true => unlike * by.shift_mm + steep * by.turn_mm,
            // Where the shift alone may lead out of what was surveyed, both are taken at once.
            false => unlike * (by.far_mm() + outside) + own.falls.length() * by.turn_mm,
        };
        [plain, unlike]
    }
}

/// What is the same for all poses that are asked of one after the other.
pub(crate) struct Asked<'a> {
    of: &'a Surveyed,
    context: Context<'a>,
    /// How far off in height each target may be so that it does not stop; of others nothing.
    heights: Vec<Option<f64>>,
    /// The surveyed points of the floor that mats may come to lie on, with their levels.
    lying: Vec<(DVec2, f64)>,
    /// The corners of mats, vehicle frame.
    rims: Vec<DVec2>,
    /// The outlines of the runways that carry the car.
    runways: Vec<&'a Polygon>,
}

impl Asked<'_> {
    /// All that stands, with the car at a pose.
    pub(crate) fn at(&self, pose: PlanPose) -> At<'_> {
        let standing = &self.of.standing;
        let ground = |at: DVec2| match self.runways.is_empty() {
            true => Some(0),
            false => on_which(self.runways.iter().copied(), pose * at).map(|nth| nth + 1),
        };
        let stands = |ground: usize, at: DVec2| {
            let place = pose * at;
            let own = self.of.grounds.get(ground);
            let on = own.and_then(|own| own.survey.as_ref());
            let depth_mm = on.map_or(f64::NEG_INFINITY, |own| own.depth_mm(place));
            let level = on.and_then(|own| own.carried_on(place, depth_mm));
            let level_mm = level.zip(own).map(|(level, own)| level + own.raised_mm);
            Stands { at, place, on, depth_mm, level_mm }
        };
        let wheels: Vec<Stands<'_>> =
            standing.wheels.iter().filter_map(|at| Some(stands(ground(*at)?, *at))).collect();
        let rims = self.rims.iter().copied();
        let feet = standing.feet.iter().map(|own| own.1).chain(rims).map(|at| stands(0, at));
        At {
            asked: self,
            pose,
            wheels,
            targets: standing.targets.iter().map(|own| stands(0, own.1)).collect(),
            feet: feet.collect(),
        }
    }
}

/// All that stands, with the car at a pose, and its levels.
pub(crate) struct At<'a> {
    asked: &'a Asked<'a>,
    pose: PlanPose,
    wheels: Vec<Stands<'a>>,
    targets: Vec<Stands<'a>>,
    feet: Vec<Stands<'a>>,
}

impl At<'_> {
    /// What the levels do with the car within so many mm of the pose, and within so many radians of its heading.
    pub(crate) fn within(&self, within_mm: f64, within_rad: f64) -> Levelled {
        // Beside its runway a wheel has no level here, and may have one near by.
        let is_beside = self.wheels.len() < self.asked.of.standing.wheels.len();
        let is_open = |own: &Stands<'_>| {
            own.level_mm.is_none() && own.known(own.by(within_mm, within_rad)) == IsKnown::Perhaps
        };
        if self.asked.of.is_uneven && (is_beside || self.all().any(is_open)) {
            return Levelled::Perhaps;
        }
        if within_mm <= 0.0 && within_rad <= 0.0 {
            return self.moved(&vec![0.0; self.all().count()], 0.0, 0.0);
        }
        let by = |own: &Stands<'_>| own.by(within_mm, within_rad);
        // Most is decided by how steep the floor is anywhere, which costs nothing.
        let anywhere = self.bounds(|own| own.moved_mm(by(own), |survey| survey.steepest));
        let told = self.moved(&anywhere, within_mm, within_rad);
        if told != Levelled::Perhaps {
            return told;
        }
        let near = |own: &Stands<'_>| {
            let far = by(own).far_mm();
            own.moved_mm(by(own), |survey| survey.points.steepest_against(own.place, far, survey.falls))
        };
        self.moved(&self.bounds(near), within_mm, within_rad)
    }

    fn all(&self) -> impl Iterator<Item = &Stands<'_>> {
        self.wheels.iter().chain(&self.targets).chain(&self.feet)
    }

    /// By how much each of what stands may be higher or lower, mm, in the order wheels, targets, feet. Both bounds hold of all of them
    /// together, the one or the other.
    fn bounds(&self, of: impl Fn(&Stands<'_>) -> [f64; 2]) -> Vec<f64> {
        let (plain, unlike): (Vec<f64>, Vec<f64>) = self.all().map(|own| of(own).into()).unzip();
        if unlike.iter().sum::<f64>() < plain.iter().sum::<f64>() { unlike } else { plain }
    }

    /// What the levels do if each may be so much higher or lower, mm: of the order of [`Self::bounds`].
    fn moved(&self, bounds: &[f64], within_mm: f64, within_rad: f64) -> Levelled {
        let Self { asked, pose, .. } = self;
        // Where nothing was surveyed near by, no level is known.
        let known = |(own, moved): (&Stands<'_>, &f64)| {
            let known = own.known(own.by(within_mm, within_rad));
            let level = own.level_mm.filter(|_| known != IsKnown::Nowhere)?;
            Some(Level { at: own.at, level, moved: *moved, is_sure: known == IsKnown::Surely })
        };
        let all = || self.all().zip(bounds).map(known);
        let mut told = Levelled::Never;
        // What is known only perhaps stops at most perhaps.
        let say = |told: &mut Levelled, figure: Figure, limit: f64, is_sure: bool| {
            let turned = 2.0 * within_rad * (figure.value.abs() + figure.moved);
            let moved = figure.moved * 1.01 + turned;
            if is_sure && figure.value.abs() - moved > limit {
                *told = Levelled::Stops;
            } else if figure.value.abs() + moved > limit && *told == Levelled::Never {
                *told = Levelled::Perhaps;
            }
        };
        let floor = asked.of.at_origin.aiming.floor;
        if let Some(floor) = floor {
            let mut spread = Spread::NONE;
            all().flatten().for_each(|own| spread.hear(own.level, own.moved, own.is_sure));
            for (_, area) in &asked.of.standing.mats {
                let far = |at: DVec2| within_mm + within_rad * at.length();
                asked.under(area, *pose, far, &mut spread);
            }
            let limit = floor.level_mm + SPEAKS_FROM_MM;
            spread.figure().into_iter().for_each(|own| say(&mut told, own, limit, true));
        }
        if told == Levelled::Stops {
            return told;
        }
        let Some((plane, is_sure)) = plane_of(all().take(self.wheels.len())) else { return told };
        if let Some(floor) = floor {
            let tilts = [
                (floor.pitch_rad, plane.figure(|stance| stance.pitch_rad)),
                (floor.roll_rad, plane.figure(|stance| stance.roll_rad)),
            ];
            for (limit, figure) in tilts {
                limit.into_iter().for_each(|limit| say(&mut told, figure, limit + SPEAKS_FROM_RAD, is_sure));
            }
        }
        for (index, target) in all().skip(self.wheels.len()).take(self.targets.len()).enumerate() {
            let limit = asked.heights.get(index).copied().flatten();
            if let (Some(limit), Some(own)) = (limit, target) {
                let over = over_plane(&plane, own.at);
                let figure =
                    Figure { value: own.level - over.value, within: 0.0, moved: over.moved + own.moved };
                say(&mut told, figure, limit + SPEAKS_FROM_MM, is_sure && own.is_sure);
            }
            for off in offs(&asked.context, &plane, index).into_iter().flatten().filter(|off| off.stops) {
                let figure = Figure { value: off.value, within: 0.0, moved: off.moved };
                say(&mut told, figure, off.limit + off.slack(), is_sure);
            }
        }
        told
    }
}

impl Asked<'_> {
    /// The surveyed points under a mat, or that may be, with the car at a pose: their levels stay as they are.
    fn under(&self, area: &Outline, pose: PlanPose, far_mm: impl Fn(DVec2) -> f64, spread: &mut Spread) {
        let (bounds, bay) = (area.bounds(), pose.inverse());
        for (place, level) in &self.lying {
            let at = bay * *place;
            // A turn takes a point a little further than along its chord.
            let far = far_mm(at) * 1.01;
            let is_near = at.cmpge(bounds.low - far).all() && at.cmple(bounds.high + far).all();
            if !is_near {
                continue;
            }
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
            if is_inside || edge <= far {
                spread.hear(*level, 0.0, is_inside && edge > far);
            }
        }
    }
}

/// A level under something, vehicle frame.
struct Level {
    at: DVec2,
    /// Its level, and by how much that may be higher or lower, mm.
    level: f64,
    moved: f64,
    /// Whether one is known wherever it may stand; else perhaps.
    is_sure: bool,
}

/// How the car stands on its wheels, as seen from it, and whether it surely does; `None` if not all levels under them are known.
fn plane_of(wheels: impl Iterator<Item = Option<Level>>) -> Option<(Wheels, bool)> {
    let mut known = [(DVec3::ZERO, 0.0, 0.0); 4];
    let (mut count, mut is_sure) = (0, true);
    for (own, wheel) in known.iter_mut().zip(wheels) {
        let wheel = wheel?;
        *own = (wheel.at.extend(wheel.level), 0.0, wheel.moved);
        (count, is_sure) = (count + 1, is_sure && wheel.is_sure);
    }
    (count == known.len()).then(|| Wheels::on(known, 0.0)).flatten().map(|own| (own, is_sure))
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
        // Where none is there surely, they may differ by nothing.
        let low = if low.is_finite() { low } else { 0.0 };
        let (value, moved) = ((low + high) * 0.5, (high - low) * 0.5);
        high.is_finite().then_some(Figure { value, within: 0.0, moved })
    }
}

fn range_mm(levels: impl Iterator<Item = f64> + Clone) -> f64 {
    let most = levels.clone().fold(f64::NEG_INFINITY, f64::max);
    (most - levels.fold(f64::INFINITY, f64::min)).max(0.0)
}
