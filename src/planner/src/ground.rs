//! The one way from a set-up on surveyed levels to [`baywright_survey::floor`]: how its car stands, how high each target is set over
//! its own piece of floor, what is laid under the wheels, and how even the floor is.
//!
//! Lengths and levels are mm, z up; angles radians, nose down and left side up positive; wheels in [`crate::model::Wheel::ALL`]'s
//! order. Uncertainties are of 95 %, two-sided, by the normal distribution: each level is off by what its survey says (else what
//! its instrument is good for, else the shop's own figure), by what the floor may bend between the points, and by what the car's place makes of it; any value of each alike
//! (JCGM 100, 4.3.7), each on its own. Levels on runways are against the height that the runway is entered with.
//!
//! Figures in, figures out: what of them stops an aiming is [`crate::check`]'s.

mod even;
mod height;
pub(crate) mod spots;

use baywright_geometry::{DVec2, DVec3, angle};
use baywright_survey::Level;
use baywright_survey::decide::{Rule, Said, decide};
use baywright_survey::floor::{self, Shims};
use baywright_survey::input::Figure;

use crate::model::{Arrangement, FloorSurvey, Id, levelled_with};
use crate::scene::Scene;
use spots::{On, Spot, Spots};

pub use even::{Din, Dip, EVENNESS, Even, Fall, STRAIGHTEDGE_MM};
pub use height::SetHeight;
pub(crate) use height::sensor_u_mm;

/// 95 of 100, either way.
const K: f64 = baywright_survey::chances::K95;

/// Shims come in whole millimetres: common practice, no source.
const SHIM_MM: f64 = 1.0;

/// A figure with its uncertainty, and what that comes to where something is asked of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Judged {
    /// The figure, mm or radians.
    pub value: f64,
    /// Its uncertainty, 95 %.
    pub u95: f64,
    /// How far it may be from nothing, either way; `None` where nothing is asked.
    pub allowed: Option<f64>,
    /// What that comes to (JCGM 106, guarded acceptance).
    pub said: Option<Said>,
}

impl Judged {
    fn of(figure: Figure, allowed: Option<f64>) -> Self {
        let u95 = K * figure.u;
        let said = allowed.map(|allowed| decide(figure.value, u95, allowed, Rule::Guarded));
        Self { value: figure.value, u95, allowed, said }
    }

    /// Whether it differs from nothing by more than its uncertainty.
    pub fn is_seen(&self) -> bool {
        self.value.abs() > self.u95
    }

    /// Whether it is inside what is allowed, or nothing is asked.
    pub fn is_inside(&self) -> bool {
        self.said.is_none_or(|said| matches!(said, Said::Inside { .. }))
    }
}

/// Who says how surely levels are known.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum KnownBy {
    /// The survey itself.
    Survey,
    /// The instrument of the shop's list that the survey names.
    Instrument(Id),
    /// Nobody: the shop's own figure stands in.
    Assumed,
}

/// How surely levels are known: the one source of it, for what is judged and for what is told.
#[derive(Clone, Debug, PartialEq)]
pub struct LevelKnown {
    /// How far one may be off, either way, mm.
    pub within_mm: f64,
    /// Who says so.
    pub by: KnownBy,
}

impl LevelKnown {
    /// Of a survey: as it states itself, else as the instrument is good for one reading that it was taken with ([`levelled_with`]), else the
    /// shop's own figure.
    pub(crate) fn of(survey: &FloorSurvey, arrangement: &Arrangement) -> Self {
        if let Some(within_mm) = survey.how.within_mm {
            return Self { within_mm, by: KnownBy::Survey };
        }
        let instrument = levelled_with(&arrangement.instruments, survey.how.with.as_deref());
        match instrument.and_then(|own| Some((own, own.reading_mm?))) {
            Some((own, within_mm)) => Self { within_mm, by: KnownBy::Instrument(own.name.clone()) },
            None => Self { within_mm: arrangement.shop.level_read_mm, by: KnownBy::Assumed },
        }
    }

    /// Of all that something of a set-up stands on, the worst; `None` where nothing of it was surveyed.
    pub fn worst(arrangement: &Arrangement) -> Option<Self> {
        let bay = &arrangement.bay;
        let runways = bay.runways.iter().filter(|own| arrangement.on_runways.contains(&own.id));
        let all = bay.survey.iter().chain(runways.filter_map(|own| own.survey.as_ref()));
        let all = all.map(|survey| Self::of(survey, arrangement));
        all.reduce(|a, b| if b.within_mm > a.within_mm { b } else { a })
    }
}

/// How the car stands.
#[derive(Clone, Debug, PartialEq)]
pub struct CarStands {
    /// Nose down.
    pub pitch: Judged,
    /// Left side up.
    pub roll: Judged,
    /// Roll of the front axle less that of the rear one.
    pub twist: Judged,
    /// What each tyre is above the plane of all four.
    pub tyres: [Judged; 4],
    /// The levels under them.
    pub levels: [f64; 4],
    /// What is laid under the wheels so that pitch and roll are within the aiming's limits (level where it has none) and all four
    /// tyres in one plane; `None` only of levels that are no numbers.
    pub shims: Option<Shims>,
    /// Whether the levels are those of runways.
    pub on_runways: bool,
}

impl CarStands {
    /// Whether shims are worth laying: the car is not within its limits, or a tyre is seen to stand off the others.
    pub fn wants_shims(&self) -> bool {
        !(self.pitch.is_inside() && self.roll.is_inside()) || self.tyres.iter().any(Judged::is_seen)
    }

    /// The tyre that stands lowest against the plane of all four, by its position, if that is seen.
    pub fn lowest(&self) -> Option<(usize, Judged)> {
        let all = self.tyres.iter().copied().enumerate();
        all.min_by(|a, b| a.1.value.total_cmp(&b.1.value)).filter(|(_, own)| own.value < 0.0 && own.is_seen())
    }
}

/// The level at a mark.
#[derive(Clone, Debug, PartialEq)]
pub struct MarkLevel {
    /// Which.
    pub mark: Id,
    /// Its level against the plane that everything on its ground is meant from.
    pub level: Judged,
}

/// What surveyed levels say of a set-up.
#[derive(Clone, Debug, PartialEq)]
pub struct Ground {
    /// How surely one level is known: the worst of the surveys that something stands on.
    pub known: LevelKnown,
    /// How the car stands; `None` where a level under a wheel is not known.
    pub car: Option<CarStands>,
    /// Highest less lowest of all that stands there: wheels, targets, feet of stands, against what the aiming allows.
    pub spread: Option<Judged>,
    /// How high each target is set that stands, in the aiming's order; those whose levels are known.
    pub heights: Vec<SetHeight>,
    /// The marks whose levels are known, in the plan's order.
    pub marks: Vec<MarkLevel>,
    /// How even the floor is by itself.
    pub even: Option<Even>,
}

impl Ground {
    /// Of a set-up in its scene; `None` where neither the floor nor a runway that carries the car was surveyed.
    pub fn of(arrangement: &Arrangement, scene: &Scene) -> Option<Self> {
        let spots = Spots::of(arrangement, scene);
        let known = LevelKnown::worst(arrangement)?;
        let at = Levels { arrangement, scene, spots: &spots };
        let wheels = at.wheels();
        let asked = arrangement.aiming.floor;
        let floor = arrangement.bay.survey.as_ref();
        Some(Self {
            known,
            car: wheels.and_then(|wheels| at.car(&wheels)),
            spread: at.spread(asked.map(|own| own.level_mm)).map(|own| own.judged),
            heights: wheels.map_or_else(Vec::new, |wheels| at.heights(&wheels)),
            marks: at.marks(),
            even: floor.and_then(|survey| {
                let of = LevelKnown::of(survey, arrangement);
                Even::of(survey, scene, of.within_mm)
            }),
        })
    }
}

/// A target's height as it is to be set, without all else; `None` of one that lies, and where levels are not known.
pub fn height_to_set(arrangement: &Arrangement, scene: &Scene, placement: &Id) -> Option<SetHeight> {
    let spots = Spots::of(arrangement, scene);
    let at = Levels { arrangement, scene, spots: &spots };
    at.heights(&at.wheels()?).into_iter().find(|own| own.placement == *placement)
}

/// How the plane of the wheels lies: nose down and left side up, with their standard uncertainties; `None` where a level under a wheel
/// is not known.
pub(crate) fn tilt(arrangement: &Arrangement, scene: &Scene) -> Option<[Figure; 2]> {
    let spots = Spots::of(arrangement, scene);
    let at = Levels { arrangement, scene, spots: &spots };
    let wheels = at.wheels()?;
    let found = floor::standing(&wheels.at, wheels.u_mm, at.ahead())?;
    Some([found.pitch_rad, found.roll_rad])
}

/// How far what stands on the ground differs in level, and what of it is highest and lowest.
pub(crate) struct Spread {
    pub(crate) judged: Judged,
    /// The highest and the lowest, where they stand.
    pub(crate) ends: [(On, DVec2); 2],
}

/// The same against a limit, mm, as the tab tells it; `None` of no known level.
pub(crate) fn spread(
    arrangement: &Arrangement,
    scene: &Scene,
    spots: &Spots<'_>,
    limit_mm: f64,
) -> Option<Spread> {
    Levels { arrangement, scene, spots }.spread(Some(limit_mm))
}

/// How the car is pitched and rolled against the aiming's limits, as the tab tells it; `None` where a level under a wheel is not
/// known.
pub(crate) fn tilted(arrangement: &Arrangement, scene: &Scene, spots: &Spots<'_>) -> Option<[Judged; 2]> {
    let at = Levels { arrangement, scene, spots };
    let car = at.car(&at.wheels()?)?;
    Some([car.pitch, car.roll])
}

/// The four wheels with their levels, and how surely each of them is known, as a standard uncertainty.
#[derive(Clone, Copy, Debug)]
struct OnWheels {
    at: [DVec3; 4],
    u_mm: f64,
}

struct Levels<'a> {
    arrangement: &'a Arrangement,
    scene: &'a Scene,
    spots: &'a Spots<'a>,
}

impl Levels<'_> {
    /// A level with its standard uncertainty: how surely it was taken is in `within_mm` already.
    fn figure(spot: &Spot) -> Option<Figure> {
        let Level { level_mm, within_mm, .. } = spot.level?;
        let half = libm::hypot(within_mm, spot.moved_mm);
        Some(Figure { value: level_mm, u: half / 3.0_f64.sqrt() })
    }

    fn wheels(&self) -> Option<OnWheels> {
        let known = self.spots.wheels.iter().filter_map(|spot| Some((spot.at, Self::figure(spot)?)));
        let known: [(DVec2, Figure); 4] = known.collect::<Vec<_>>().try_into().ok()?;
        // The least sure of them stands for all.
        let u_mm = known.iter().map(|(_, own)| own.u).fold(0.0, f64::max);
        Some(OnWheels { at: known.map(|(at, own)| at.extend(own.value)), u_mm })
    }

    fn ahead(&self) -> DVec2 {
        angle::direction(self.scene.bay_from_vehicle.heading())
    }

    fn car(&self, wheels: &OnWheels) -> Option<CarStands> {
        let found = floor::standing(&wheels.at, wheels.u_mm, self.ahead())?;
        let asked = self.arrangement.aiming.floor;
        let [pitch, roll] = [asked.and_then(|own| own.pitch_rad), asked.and_then(|own| own.roll_rad)];
        // One limit for both: the tighter one; level, where one of them is not limited.
        let limit = pitch.zip(roll).map_or(0.0, |(pitch, roll)| pitch.min(roll));
        let told = |figure: Figure| Judged::of(figure, None);
        Some(CarStands {
            pitch: Judged::of(found.pitch_rad, pitch),
            roll: Judged::of(found.roll_rad, roll),
            twist: told(found.twist_rad),
            tyres: found.off_mm.map(told),
            levels: wheels.at.map(|own| own.z),
            shims: floor::shims(&wheels.at, self.ahead(), limit, SHIM_MM),
            on_runways: !self.arrangement.on_runways.is_empty(),
        })
    }

    fn spread(&self, allowed: Option<f64>) -> Option<Spread> {
        let all = self.spots.standing().filter_map(|spot| Some((spot, Self::figure(spot)?)));
        let all: Vec<(&Spot, Figure)> = all.collect();
        let by = |a: &&(&Spot, Figure), b: &&(&Spot, Figure)| a.1.value.total_cmp(&b.1.value);
        let (low, high) = (all.iter().min_by(by)?, all.iter().max_by(by)?);
        let figure = Figure { value: high.1.value - low.1.value, u: libm::hypot(high.1.u, low.1.u) };
        let end = |of: &(&Spot, Figure)| (of.0.of.clone(), of.0.at);
        Some(Spread { judged: Judged::of(figure, allowed), ends: [end(high), end(low)] })
    }

    fn marks(&self) -> Vec<MarkLevel> {
        let mark = |spot: &Spot| match &spot.of {
            On::Mark(id) => {
                Some(MarkLevel { mark: id.clone(), level: Judged::of(Self::figure(spot)?, None) })
            }
            _ => None,
        };
        self.spots.marks.iter().filter_map(mark).collect()
    }
}

#[cfg(test)]
mod tests;
