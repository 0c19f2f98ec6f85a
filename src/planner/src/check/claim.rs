//! What a check claims of the plan: the regions that something must stay out of.
//!
//! One source for all that looks for a place: where a thing goes, where the car goes, where something new may stand.
//! A check states its claims beside its rule; nothing else says where a rule ends.

use baywright_geometry::face::Face;
use baywright_geometry::fresnel::{Wavelength, zone_radius};
use baywright_geometry::sight::{fresnel_plan, sight_shadow_plan};
use baywright_geometry::{
    Bounds, Circle, DVec2, DVec3, Outline, PlanPose, Polygon, Prism, Segment, Span, hull_grown,
};

use super::Picture;
use super::finding::{Code, Finding, Severity, Subject};
use crate::model::{Effort, Exclusion, Material, Metal, Thing, ThingKind};

/// Lower than anything in a bay, mm: a region without a floor of its own reaches down to it.
const LOWEST_MM: f64 = -1e7;
/// Half the width of the strip that a run of tape or light needs, and of the spot of a mark: a thing may touch it.
pub(super) const LINE_HALF_MM: f64 = 1.0;

/// A region that something must stay out of.
#[derive(Clone, Debug, PartialEq)]
pub struct Claim {
    /// What claims it.
    pub of: Subject,
    /// Where.
    pub volume: Volume,
    /// A box around it in plan, along the bay's axes.
    pub around: Bounds,
    /// What may not be in it.
    pub bars: Bars,
    /// What it moves with.
    pub moves_with: MovesWith,
    /// Whether it must lie inside the room.
    pub inside: bool,
}

/// All that is claimed, in the order of the checks.
#[derive(Clone, Debug, PartialEq)]
pub struct Claims {
    all: Vec<Claim>,
    /// The box around each, close together: most are asked for no more.
    boxes: Vec<Bounds>,
    around: Option<Bounds>,
}

impl Claims {
    pub(super) fn new(all: Vec<Claim>) -> Self {
        let boxes: Vec<Bounds> = all.iter().map(|claim| claim.around).collect();
        let around = boxes.iter().copied().reduce(Bounds::union);
        Self { all, boxes, around }
    }

    /// A box around all of them; `None` if nothing is claimed.
    pub const fn around(&self) -> Option<Bounds> {
        self.around
    }

    /// Those whose box in plan meets another, with their positions.
    pub fn near(&self, place: Bounds) -> impl Iterator<Item = (usize, &Claim)> {
        let boxes = self.boxes.iter().enumerate().filter(move |(_, own)| own.meets(&place));
        boxes.filter_map(|(index, _)| Some((index, self.all.get(index)?)))
    }
}

impl std::ops::Deref for Claims {
    type Target = [Claim];

    fn deref(&self) -> &[Claim] {
        &self.all
    }
}

/// The space of a claim.
#[derive(Clone, Debug, PartialEq)]
pub enum Volume {
    /// An outline between two heights.
    Prism(Prism),
    /// All that is within a distance of some points' hull, between two heights.
    Within {
        /// The points, bay frame.
        of: Vec<DVec2>,
        /// The distance, mm.
        reach_mm: f64,
        /// The heights.
        span: Span,
    },
    /// Over a line of the floor or of a runway, as far as a run of tape or light reaches.
    Line {
        /// The line, bay frame.
        line: Segment,
        /// The heights, from what it lies on.
        free: Span,
    },
    /// Over a spot of the floor or of a runway.
    Spot {
        /// Where, bay frame.
        at: DVec2,
        /// The heights, from what it lies on.
        free: Span,
    },
    /// What lies between an eye and a face.
    Sight {
        /// Where it is looked from.
        eye: DVec3,
        /// What is looked at.
        face: Face,
    },
    /// A share of the radius of the first Fresnel zone of a path.
    Fresnel {
        /// One end of the path.
        eye: DVec3,
        /// The other.
        to: DVec3,
        /// Of the radar.
        wavelength: Wavelength,
        /// Of the zone's radius.
        share: f64,
    },
    /// What a camera's flat picture shows.
    Picture(Picture),
}

/// What may not be in a claim, and what is said of it there.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Bars {
    /// Every thing.
    Everything(Code, Severity),
    /// What a keep-clear zone excludes.
    Zone(Exclusion),
    /// Lamps, what carries them and what they are mirrored in, out of a camera's picture.
    Lamps,
    /// People whom a zone that excludes this keeps out: from a step round it, or from a camera's picture.
    Person(Exclusion),
    /// What is so low that a tape goes over it, and lengthens the tape.
    Low,
    /// What can be carried away, out from under the car.
    Under,
}

/// What a claim moves with.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MovesWith {
    /// The car, its marks and its targets.
    Car,
    /// Nothing: it is the room's.
    Room,
}

impl Volume {
    /// A box around it in plan, in a frame that is given from the bay.
    pub(crate) fn bounds_from(&self, own_from_bay: &PlanPose) -> Bounds {
        let around = |points: &[DVec2]| {
            let none = Bounds { low: DVec2::ZERO, high: DVec2::ZERO };
            Bounds::around(points.iter().map(|&p| *own_from_bay * p)).unwrap_or(none)
        };
        match self {
            Self::Prism(prism) => prism.outline.bounds_from(own_from_bay),
            Self::Within { of, reach_mm, .. } => around(of).grown(*reach_mm),
            // As wide as their regions are.
            Self::Line { line, .. } => around(&[line.from, line.to]).grown(LINE_HALF_MM),
            Self::Spot { at, .. } => around(&[*at]).grown(LINE_HALF_MM),
            Self::Sight { eye, face } => {
                let corners = face.corners().map(|corner| corner.truncate());
                around(&corners).union(around(&[eye.truncate()]))
            }
            Self::Fresnel { eye, to, wavelength, .. } => {
                let half = eye.distance(*to) * 0.5;
                around(&[eye.truncate(), to.truncate()]).grown(zone_radius(*wavelength, half, half, 1))
            }
            Self::Picture(picture) => around(&picture.plan()),
        }
    }

    /// The heights that it takes; `None` if it has none, or every one.
    pub(super) fn heights(&self) -> Option<Span> {
        match self {
            Self::Prism(prism) => Some(prism.span),
            Self::Within { span, .. } => Some(*span),
            Self::Line { free, .. } | Self::Spot { free, .. } => Some(*free),
            Self::Sight { eye, face } => {
                let heights = face.corners().map(|corner| corner.z);
                let top = heights.into_iter().fold(eye.z, f64::max);
                Span::new(heights.into_iter().fold(eye.z, f64::min), top).ok()
            }
            Self::Fresnel { eye, to, wavelength, .. } => {
                let half = eye.distance(*to) * 0.5;
                let radius = zone_radius(*wavelength, half, half, 1);
                Span::new(eye.z.min(to.z) - radius, eye.z.max(to.z) + radius).ok()
            }
            // It widens without end.
            Self::Picture(_) => None,
        }
    }

    /// The region of the plan in which something of these heights is in it; `None` if it passes over or under.
    pub fn at(&self, heights: &Span) -> Option<Outline> {
        match self {
            Self::Prism(prism) => prism.span.shared(heights).map(|_| prism.outline.clone()),
            Self::Within { of, reach_mm, span } => {
                span.shared(heights).and_then(|_| hull_grown(of, *reach_mm)).map(Outline::from)
            }
            Self::Line { line, free } if is_in_run(heights, free) => {
                let along = (line.to - line.from).normalize_or_zero();
                let aside = along.perp() * LINE_HALF_MM;
                let corners = vec![line.from - aside, line.to - aside, line.to + aside, line.from + aside];
                Polygon::simple(corners).ok().map(Outline::from)
            }
            Self::Spot { at, free } if is_over_mark(heights, free) => {
                Circle::new(*at, LINE_HALF_MM).ok().map(Outline::from)
            }
            Self::Line { .. } | Self::Spot { .. } => None,
            Self::Sight { eye, face } => sight_shadow_plan(*eye, face, heights).map(Outline::from),
            Self::Fresnel { eye, to, wavelength, share } => {
                fresnel_plan(*eye, *to, *wavelength, *share, heights).map(Outline::from)
            }
            Self::Picture(picture) => picture.at(heights).map(Outline::from),
        }
    }
}

/// A tape goes over a lip or a cable as high as this, mm, and the light of a laser reaches behind it (common practice, no
/// source).
pub(crate) const GOES_OVER_MM: f64 = 20.0;

/// Whether something of these heights lies on the floor and is so low that a tape goes over it.
pub(super) fn lies_under_a_tape(heights: &Span) -> bool {
    heights.bottom() <= 0.0 && heights.top() > 0.0 && heights.top() <= GOES_OVER_MM
}

/// Whether something of these heights is in a run that is to be free there: a tape goes over what is low.
pub(crate) fn is_in_run(heights: &Span, free: &Span) -> bool {
    heights.bottom() < free.top() && heights.top() > free.bottom() + GOES_OVER_MM
}

/// Whether something of these heights is in the way of a hand that marks the spot under it, which wants this room.
pub(super) fn is_over_mark(heights: &Span, free: &Span) -> bool {
    heights.bottom() < free.top() && heights.top() > free.bottom()
}

impl Claim {
    /// A region that moves with the car.
    pub(super) fn new(of: Subject, volume: Volume, bars: Bars) -> Self {
        let around = volume.bounds_from(&PlanPose::IDENTITY);
        Self { of, volume, around, bars, moves_with: MovesWith::Car, inside: false }
    }

    /// One that bars every thing.
    pub(super) fn with_car(of: Subject, volume: Volume, code: Code, severity: Severity) -> Self {
        Self::new(of, volume, Bars::Everything(code, severity))
    }

    /// A solid of the set-up: two things cannot be in one place.
    pub(super) fn solid(of: Subject, prism: &Prism, code: Code) -> Self {
        let claim = Self::with_car(of, Volume::Prism(prism.clone()), code, Severity::Stops);
        Self { inside: true, ..claim }
    }

    /// Whether it is a solid: nothing else can be there at all.
    pub const fn is_solid(&self) -> bool {
        matches!(self.bars, Bars::Everything(Code::CarClash | Code::StandClash, _))
    }

    /// What is said of a thing in it; `None` if it may be there.
    pub fn says(&self, thing: &Thing) -> Option<(Code, Severity)> {
        match self.bars {
            Bars::Everything(code, severity) => Some((code, severity)),
            Bars::Zone(excludes) => match excluded(excludes, thing) {
                Some(true) => Some((Code::ZoneObject, Severity::Stops)),
                None => Some((Code::ZoneUnjudged, Severity::Care)),
                Some(false) => None,
            },
            Bars::Lamps => shines(thing).then_some((Code::LightInPicture, Severity::Care)),
            Bars::Person(excludes) => (thing.is_person() && excluded(excludes, thing) == Some(true))
                .then_some((Code::PersonNear, Severity::Care)),
            Bars::Under => may_be_under(thing).then_some((Code::UnderCar, Severity::Care)),
            Bars::Low => lies_under_a_tape(&thing.span).then_some((Code::TapeOver, Severity::Care)),
        }
    }

    /// Whether a thing may stop the aiming in it: it does, or how much it sends back decides that, which depends on where it stands.
    pub(crate) fn may_stop(&self, thing: &Thing) -> bool {
        let is_by_level = matches!(self.bars, Bars::Zone(Exclusion::Reflecting(_)));
        self.says(thing).is_some_and(|(_, severity)| severity == Severity::Stops || is_by_level)
    }

    /// What it is kept free for, by what would be found of what stands there; `None` where people, lamps, what lies low or what can be
    /// carried away are asked of alone.
    pub(crate) const fn code(&self) -> Option<Code> {
        match self.bars {
            Bars::Everything(code, _) => Some(code),
            Bars::Zone(_) => Some(Code::ZoneObject),
            Bars::Lamps | Bars::Person(_) | Bars::Low | Bars::Under => None,
        }
    }

    /// What is said of something in it that is no thing and is made of this.
    pub(super) fn says_of(&self, material: Material) -> Option<Code> {
        match self.bars {
            Bars::Everything(code, _) => Some(code),
            Bars::Zone(excludes) => {
                (excludes_part(excludes, material.metal()) != Some(false)).then_some(Code::ZoneObject)
            }
            Bars::Lamps | Bars::Person(_) | Bars::Low | Bars::Under => None,
        }
    }

    /// What is said of a wall in it: one that keeps out only people or light ends at a wall by itself.
    pub(super) fn says_of_wall(&self) -> Option<Code> {
        match self.bars {
            Bars::Everything(code, _) => Some(code),
            Bars::Zone(excludes) => walls_bind(excludes).then_some(Code::ZoneObject),
            Bars::Lamps | Bars::Person(_) | Bars::Low | Bars::Under => None,
        }
    }
}

/// Whether it is a lamp, or has lamps that somebody may leave on, or is of glass, in which the lamps of the room are seen.
pub(super) const fn shines(thing: &Thing) -> bool {
    matches!(thing.kind, ThingKind::Lamp | ThingKind::ParkedCar) || matches!(thing.material, Material::Glass)
}

/// Whether something is asked of under a car: what can be carried away, a lift's arm, and people.
pub(super) fn may_be_under(thing: &Thing) -> bool {
    thing.effort != Effort::Fixed || thing.kind == ThingKind::LiftArm || thing.is_person()
}

/// Whether walls bound a zone: one that keeps out only people or light ends at a wall by itself.
pub(super) const fn walls_bind(excludes: Exclusion) -> bool {
    matches!(excludes, Exclusion::Anything | Exclusion::Metal | Exclusion::Reflecting(_))
}

/// Whether a zone excludes a thing: `None` if that cannot be judged.
pub(crate) fn excluded(excludes: Exclusion, thing: &Thing) -> Option<bool> {
    match excludes {
        Exclusion::Anything => Some(true),
        // What somebody carries, and has on the feet, is told or not known.
        Exclusion::Metal if thing.is_person() && thing.metal.is_none() => {
            thing.metal_content().counts().filter(|counts| *counts)
        }
        Exclusion::Metal => thing.metal_content().counts(),
        Exclusion::Reflecting(_) => None,
        Exclusion::People => Some(thing.is_person()),
        Exclusion::Light => Some(thing.kind == ThingKind::Lamp),
    }
}

/// The same of a part of the building: it is no person and gives no light.
pub(crate) const fn excludes_part(excludes: Exclusion, metal: Metal) -> Option<bool> {
    match excludes {
        Exclusion::Anything => Some(true),
        Exclusion::Metal => metal.counts(),
        Exclusion::Reflecting(_) => None,
        Exclusion::People | Exclusion::Light => Some(false),
    }
}

/// Every height that something in a bay can have.
pub(super) fn anywhere() -> Option<Span> {
    Span::new(LOWEST_MM, -LOWEST_MM).ok()
}

/// Whether what is found so is never in the way of the aiming itself: it needs care at most, and says so of what is drawn.
pub(super) const fn is_care_at_most(code: Code) -> bool {
    matches!(code, Code::WorkingRoom | Code::KeepFree | Code::TapeOver | Code::PersonNear | Code::UnderCar)
}

/// Every region of the plan where a thing, at its heights, would stop the aiming; of those where how much it sends back decides that, the
/// ones in which it is found to.
pub(crate) fn stops(claims: &[Claim], thing: &Thing, found: &[Finding]) -> Vec<Outline> {
    let stopping = claims.iter().filter(|claim| {
        let is_found =
            || found.iter().any(|f| f.code() == Code::ZoneObject && f.subjects.get(1) == Some(&claim.of));
        claim.says(thing).is_some_and(|(_, severity)| severity == Severity::Stops)
            || claim.may_stop(thing) && is_found()
    });
    stopping.filter_map(|claim| claim.volume.at(&thing.span)).collect()
}

/// Every region where a thing would be in the way of the aiming, whether that stops or needs care.
pub(crate) fn in_the_way(claims: &[Claim], thing: &Thing) -> Vec<Outline> {
    regions(claims, thing, |code, _| !is_care_at_most(code))
}

/// Every region where it would need care, of the kinds for which it is blamed now.
pub(crate) fn blamed(claims: &[Claim], thing: &Thing, blames: &[Finding]) -> Vec<Outline> {
    regions(claims, thing, |code, severity| {
        severity == Severity::Care && blames.iter().any(|finding| finding.code() == code)
    })
}

fn regions(claims: &[Claim], thing: &Thing, counts: impl Fn(Code, Severity) -> bool) -> Vec<Outline> {
    let counting = claims.iter().filter(|claim| claim.says(thing).is_some_and(|(c, s)| counts(c, s)));
    counting.filter_map(|claim| claim.volume.at(&thing.span)).collect()
}

/// Every claim that moves with the car and in which a thing would be in the way, with its region at the thing's heights.
pub(crate) fn of_car<'a>(claims: &'a [Claim], thing: &Thing) -> impl Iterator<Item = (&'a Claim, Outline)> {
    let of_car = claims.iter().filter(move |claim| {
        claim.moves_with == MovesWith::Car
            && claim.says(thing).is_some_and(|(code, _)| !is_care_at_most(code))
    });
    of_car.filter_map(|claim| Some((claim, claim.volume.at(&thing.span)?)))
}
