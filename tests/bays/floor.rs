//! The floor's levels, between surveyed points by the triangles of which no other point lies in the circle (that is what makes
//! a triangle one of Delaunay's), found by trying all; where more than one holds a place, whatever lies between them.

use baywright_planner::geometry::DVec2;
use baywright_planner::model::{
    Arrangement, FloorSurvey, LevelPoint, Placement, TargetHeight, TargetKind, VerticalReference,
};

use crate::oracle::{Conflict, SURE_MM};
use crate::set_up::{SetUp, Sight, What};
use crate::shape::depth_of;

/// Points farther than this from a place make no triangle around it, on a grid of a metre with its points somewhat off.
const NEAR_MM: f64 = 1_900.0;
/// A place so far outside of a triangle is still on its edge, mm.
const EDGE_MM: f64 = 2.5;
/// Angles are told apart from here on.
const SURE_RAD: f64 = 2e-6;

/// What the level at a place is, from the lowest to the highest that it can be; `None` where nothing is known.
pub fn level(points: &[LevelPoint], at: DVec2) -> Option<(f64, f64)> {
    let near: Vec<&LevelPoint> = points.iter().filter(|own| own.at.distance(at) < NEAR_MM).collect();
    let around: Vec<&LevelPoint> = points.iter().filter(|own| own.at.distance(at) < 3.0 * NEAR_MM).collect();
    let mut found: Option<(f64, f64)> = None;
    for (i, a) in near.iter().enumerate() {
        for (j, b) in near.iter().enumerate().skip(i + 1) {
            for c in near.iter().skip(j + 1) {
                let Some(level) = of_triangle([a, b, c], &around, at) else { continue };
                let (low, high) = found.unwrap_or((level, level));
                found = Some((low.min(level), high.max(level)));
            }
        }
    }
    found
}

fn of_triangle(corners: [&LevelPoint; 3], around: &[&LevelPoint], at: DVec2) -> Option<f64> {
    let [a, b, c] = corners.map(|own| own.at);
    let twice = (b - a).perp_dot(c - a);
    let longest = a.distance(b).max(b.distance(c)).max(c.distance(a));
    if twice.abs() < longest {
        return None;
    }
    // How much of each corner there is in the place.
    let share = [(b - at).perp_dot(c - at), (c - at).perp_dot(a - at), (a - at).perp_dot(b - at)];
    let share = share.map(|own| own / twice);
    let edges = [b.distance(c), c.distance(a), a.distance(b)];
    let outside = share.iter().zip(edges).any(|(own, edge)| own * twice.abs() / edge < -EDGE_MM);
    if outside {
        return None;
    }
    let (p, q) = (b - a, c - a);
    let middle = DVec2::new(q.y * p.dot(p) - p.y * q.dot(q), p.x * q.dot(q) - q.x * p.dot(p)) / (2.0 * twice);
    let (middle, radius) = (a + middle, middle.length());
    // Who lies on the circle makes triangles of the same cell; a millimetre off is on it still.
    let holds = |own: &&LevelPoint| own.at.distance(middle) < radius - 1.0;
    if around.iter().any(holds) {
        return None;
    }
    Some(corners.iter().zip(share).map(|(own, share)| own.level_mm * share).sum())
}

/// Level, slope along x and along y of the plane that fits four places best, about their middle.
struct Plane {
    middle: DVec2,
    level: f64,
    slope: DVec2,
}

impl Plane {
    fn of(points: &[(DVec2, f64)]) -> Self {
        let count = points.len() as f64;
        let middle = points.iter().map(|own| own.0).sum::<DVec2>() / count;
        let level = points.iter().map(|own| own.1).sum::<f64>() / count;
        let sum = |of: &dyn Fn(DVec2, f64) -> f64| {
            points.iter().map(|(at, z)| of(*at - middle, z - level)).sum::<f64>()
        };
        let (xx, xy, yy) = (sum(&|p, _| p.x * p.x), sum(&|p, _| p.x * p.y), sum(&|p, _| p.y * p.y));
        let (xz, yz) = (sum(&|p, z| p.x * z), sum(&|p, z| p.y * z));
        let det = xx * yy - xy * xy;
        Self { middle, level, slope: DVec2::new((xz * yy - yz * xy) / det, (yz * xx - xz * xy) / det) }
    }

    fn at(&self, p: DVec2) -> f64 {
        self.level + self.slope.dot(p - self.middle)
    }
}

/// What stands on the floor or on runways, each with its level against the plane that it is meant to be on.
pub struct Standing {
    wheels: Vec<(DVec2, f64, f64)>,
    others: Vec<(DVec2, f64, f64)>,
    targets: Vec<Option<(f64, f64)>>,
}

impl Standing {
    /// `None` if there is no survey.
    pub fn of(arrangement: &Arrangement, placed: &SetUp) -> Option<Self> {
        let bay = &arrangement.bay;
        let floor = |at: DVec2| level(&bay.survey.as_ref()?.points, at);
        let carrying = || bay.runways.iter().filter(|own| arrangement.on_runways.contains(&own.id));
        let wheel = |at: DVec2| {
            if arrangement.on_runways.is_empty() {
                return floor(at);
            }
            let runway = carrying().find(|own| depth_of(own.outline.outer(), at) > 0.0)?;
            let (low, high) = level(&runway.survey.as_ref()?.points, at)?;
            let raised = runway.top_mm - placed.carried;
            Some((low + raised, high + raised))
        };
        let known = |at: DVec2, level: Option<(f64, f64)>| level.map(|(low, high)| (at, low, high));
        let wheels = placed.wheels.iter().filter_map(|&at| known(at, wheel(at))).collect();
        let under = |sight: &Sight| sight.centre.truncate();
        let targets: Vec<_> = placed.sights.iter().map(|sight| floor(under(sight))).collect();
        let middles = placed.sights.iter().zip(&targets).filter_map(|(own, level)| known(under(own), *level));
        let lies = |name: &str| placed.sights.iter().any(|own| own.name == name && own.lies);
        let feet = placed.parts.iter().filter(|own| own.what == What::Feet && !lies(&own.name));
        let corners = feet.flat_map(|own| &own.ring).filter_map(|&at| known(at, floor(at)));
        let others = middles.chain(corners).collect();
        bay.survey.as_ref()?;
        Some(Self { wheels, others, targets })
    }

    /// Highest less lowest of all that stands there, mm: at least.
    pub fn spread(&self) -> f64 {
        let all = || self.wheels.iter().chain(&self.others);
        let highest = all().map(|own| own.1).fold(f64::NEG_INFINITY, f64::max);
        highest - all().map(|own| own.2).fold(f64::INFINITY, f64::min)
    }
}

/// What of the floor is not as the aiming asks for: by how much the levels differ, how the car is tilted, how high its targets'
/// ground lies, and what the tilt makes of targets that are set by the plumb line.
pub fn uneven(arrangement: &Arrangement, placed: &SetUp, care_counts: bool, found: &mut Vec<Conflict>) {
    let Some(standing) = Standing::of(arrangement, placed) else { return };
    let mut add = |kind: &'static str, of: &str, by_mm: f64| {
        found.push(Conflict { kind, by: "floor".into(), of: of.to_owned(), by_mm });
    };
    let floor = arrangement.aiming.floor;
    // Two levels in two places, each off by as much on its own.
    let is_apart = standing.wheels.len() + standing.others.len() > 1;
    let unsure = if care_counts && is_apart { taken_within(arrangement) * 2.0_f64.sqrt() } else { 0.0 };
    if let Some(floor) = floor
        && standing.spread() + unsure > floor.level_mm + SURE_MM
    {
        add("uneven", "all", standing.spread() + unsure - floor.level_mm);
    }
    let wheels = &standing.wheels;
    // Where a level is not known to the last hundredth, nothing is said of tilts.
    if wheels.len() < 4 || wheels.iter().any(|own| own.2 - own.1 > 1e-6) {
        return;
    }
    let plane = Plane::of(&wheels.iter().map(|own| (own.0, own.1)).collect::<Vec<_>>());
    let [front_left, front_right, rear_left, rear_right] = placed.wheels[..] else { return };
    let ahead = placed.ahead.normalize();
    let left = DVec2::new(-ahead.y, ahead.x);
    debug_assert!((front_left + front_right - rear_left - rear_right).dot(ahead) > 0.0);
    let (pitch, roll) = (plane.slope.dot(ahead).atan(), plane.slope.dot(left).atan());
    let limits = [
        ("pitch", pitch, floor.and_then(|own| own.pitch_rad)),
        ("roll", roll, floor.and_then(|own| own.roll_rad)),
    ];
    for (kind, by, limit) in limits {
        if limit.is_some_and(|limit| by.abs() > limit + SURE_RAD) {
            add(kind, "car", by.abs());
        }
    }
    for ((sight, placement), level) in
        placed.sights.iter().zip(&arrangement.aiming.placements).zip(&standing.targets)
    {
        let Some((low, high)) = *level else { continue };
        let at = sight.centre.truncate();
        let off = (low - plane.at(at)).max(plane.at(at) - high);
        if let Some(limit) = height_limit(arrangement, placement, sight)
            && off > limit + SURE_MM
            // A stand is set higher or lower.
            && (care_counts || sight.lies)
            && !(sight.lies && placed.carried > 0.0)
        {
            add("target's floor", &sight.name, off);
        }
        plumb(arrangement, placement, sight, (&plane, placed.carried, ahead), care_counts, &mut add);
    }
}

/// How far each level may be off, mm: as its survey says, else the shop's own figure; of several surveys the surest.
fn taken_within(arrangement: &Arrangement) -> f64 {
    let bay = &arrangement.bay;
    let all = bay.survey.iter().chain(bay.runways.iter().filter_map(|own| own.survey.as_ref()));
    let within = all.map(|own| own.how.within_mm.unwrap_or(arrangement.shop.level_read_mm));
    within.fold(f64::INFINITY, f64::min)
}

fn height_limit(arrangement: &Arrangement, placement: &Placement, sight: &Sight) -> Option<f64> {
    if placement.tolerance.height_mm.is_some() {
        return placement.tolerance.height_mm;
    }
    let share = placement.target.error.by_place;
    if share <= 0.0 || placement.height == TargetHeight::OnFloor {
        return None;
    }
    let away = sight.eye.truncate().distance(sight.centre.truncate());
    Some(away * (arrangement.aiming.tolerance.elevation_rad / share).min(1.0).tan())
}

/// What is upright by the plumb line leans for a car that stands tilted.
fn plumb(
    arrangement: &Arrangement,
    placement: &Placement,
    sight: &Sight,
    (plane, carried, ahead): (&Plane, f64, DVec2),
    care_counts: bool,
    add: &mut impl FnMut(&'static str, &str, f64),
) {
    if placement.vertical != VerticalReference::Gravity || sight.lies {
        return;
    }
    let floor = arrangement.aiming.floor;
    let left = DVec2::new(-ahead.y, ahead.x);
    // A tilt that has a limit of its own is that limit's affair.
    let counts = |limit: Option<f64>, slope: f64| if limit.is_some() { 0.0 } else { slope };
    let along = counts(floor.and_then(|own| own.pitch_rad), plane.slope.dot(ahead));
    let across = counts(floor.and_then(|own| own.roll_rad), plane.slope.dot(left));
    let line = sight.centre.truncate() - sight.eye.truncate();
    let way = line.normalize();
    let slope = ahead * along + left * across;
    let (tip, lean) = (slope.dot(way).abs(), slope.perp_dot(way).abs());
    let over = (sight.centre.z - carried).abs();
    let (own, aim, rule) = (&placement.tolerance, &arrangement.aiming.tolerance, &placement.target.error);
    let is_board = placement.target.kind == TargetKind::Board;
    let askew = (care_counts && is_board).then(|| own.pitch_rad.unwrap_or(aim.elevation_rad));
    let all = [
        ("tipped", tip, own.pitch_rad, SURE_RAD),
        ("tipped along", over * tip, own.along_mm, SURE_MM),
        ("tipped aside", over * lean, own.across_mm, SURE_MM),
        ("aims up or down", rule.by_squareness * tip, Some(aim.elevation_rad), SURE_RAD),
        ("aims aside", rule.by_place * (over * lean / line.length()).atan(), Some(aim.azimuth_rad), SURE_RAD),
        ("askew", lean, askew, SURE_RAD),
    ];
    for (kind, by, limit, sure) in all {
        // A slope of a few hundredths is its own angle to a thousandth.
        if let Some(limit) = limit
            && by > limit * 1.001 + sure
        {
            add(kind, &sight.name, by);
        }
    }
}

/// What of the floor is not known though something stands there.
pub fn unknown(arrangement: &Arrangement, placed: &SetUp, found: &mut Vec<Conflict>) {
    let mut add = |of: &str| {
        found.push(Conflict { kind: "level unknown", by: "floor".into(), of: of.to_owned(), by_mm: 0.0 });
    };
    let Some(survey) = &arrangement.bay.survey else { return add("all") };
    let reach = arrangement.shop.level_reach_mm;
    let is_known = |survey: &FloorSurvey, at: DVec2| {
        let near = survey.points.iter().any(|own| own.at.distance(at) <= reach + SURE_MM);
        near && level(&survey.points, at).is_some()
    };
    let carrying = || arrangement.bay.runways.iter().filter(|own| arrangement.on_runways.contains(&own.id));
    for &at in &placed.wheels {
        let ground = if arrangement.on_runways.is_empty() {
            Some(survey)
        } else {
            let under = carrying().find(|own| depth_of(own.outline.outer(), at) > 0.0);
            under.and_then(|own| own.survey.as_ref())
        };
        if !ground.is_some_and(|survey| is_known(survey, at)) {
            add("wheel");
        }
    }
    for sight in placed.sights.iter().filter(|own| !is_known(survey, own.centre.truncate())) {
        add(&sight.name);
    }
    let taken = survey.taken.zip(arrangement.today);
    let days = taken
        .map(|(taken, today)| today.since(taken).map_or(f64::INFINITY, |span| f64::from(span.get_days())));
    if !days.is_some_and(|days| (0.0..=arrangement.shop.survey_age_days).contains(&days)) {
        add("its day");
    }
}
