//! What was read of a target's stand, and what that proves: its height, how square its face is, how plumb its pole.
//!
//! Lengths are mm, angles radians: a face is turned anticlockwise, a pole leans away from the sensor and to the left, as seen along the
//! line from the sensor to the target. Uncertainties are of 95 % in what is told, standard ones in [`Figure`]. What each is made of is
//! common practice, no source; the law is [`baywright_survey::propagate`]'s.
//!
//! **Height.** From the sensor the reference line is level, so that no floor comes in unless the procedure goes by the plane of the
//! wheels; from the floor at the stand the levels must be known. **Square.** To the reading comes how surely the line or the laser lies
//! along the axis: by the wheels' points, and by a right angle that is laid. **Plumb.** A pole that leans shifts what is by its place
//! and tips what is by its squareness. Two errors are never taken to cancel.

use baywright_geometry::{DVec2, angle};
use baywright_survey::budget::Instruments;
use baywright_survey::budget::target::{self, HeightSet, SquareBy as Way};
use baywright_survey::decide::{Rule, Said, decide};
use baywright_survey::input::Figure;
use baywright_survey::stand::{chord_mm, face_turned, lean_moves, seen_as, turned_by_mirror};

use super::K;
use super::figures::{StandGives, instruments, joined_by};
use super::tapes::Tapes;
use crate::ground;
use crate::model::{
    Arrangement, Id, LineOver, Placement, SquareBy, StandRead, TargetHeight, VerticalReference,
    level_drift_mm,
};
use crate::scene::{PlacedTarget, Scene};

/// What is read of a stand.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum StandPart {
    /// How high the target hangs.
    Height,
    /// How square its face stands.
    Square,
    /// How plumb its pole is.
    Plumb,
}

/// What a reading of a stand comes to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum StandOf {
    /// How high the target hangs, mm, positive: too high.
    Height,
    /// How far up or down the sensor is aimed by its height and its tip, radians, not negative.
    UpDown,
    /// How far the face is turned, radians, positive to the left.
    Turn,
    /// How far the pole's lean moves the target aside, mm, positive: to the left.
    Aside,
    /// How far it is tipped, radians, positive: its face looks up.
    Tip,
}

/// One figure of a stand against what is allowed of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StandFigure {
    /// What.
    pub of: StandOf,
    /// How far off, mm or radians.
    pub off: f64,
    /// Its uncertainty, 95 %.
    pub u95: f64,
    /// How far off it may be, either way.
    pub allowed: f64,
    /// What that comes to (JCGM 106, guarded acceptance).
    pub said: Said,
}

/// A stand, as it is known.
#[derive(Clone, Debug, PartialEq)]
pub struct StandProof {
    /// Whose.
    pub placement: Id,
    /// What its readings come to.
    pub figures: Vec<StandFigure>,
    /// What of it matters for its kind of target and was not read.
    pub open: Vec<StandPart>,
    /// Whether a reading waits for levels: of the floor under wheels and stand.
    pub wants_levels: bool,
    /// How surely squareness is proven by each way of reading it, at this target's size and distance, 95 %, radians: two distances over its
    /// face, a bar of [`BAR_MM`], a mirror.
    pub proves: [f64; 3],
    /// The angle at which the target stands other than square to the car, if it does, and what two points
    /// [`CHORD_AT_MM`] from its mark are apart by it, mm.
    pub chord: Option<(f64, f64)>,
}

impl StandProof {
    /// The worst: outside before what cannot be said before inside.
    pub fn worst(&self) -> Option<&StandFigure> {
        let rank = |own: &&StandFigure| match own.said {
            Said::Outside { .. } => 0,
            Said::NoFigure => 1,
            Said::CannotSay { .. } => 2,
            Said::Inside { .. } => 3,
        };
        self.figures.iter().min_by_key(rank)
    }
}

/// A long bar, mm: as straight as an aluminium section of two metres is sold (common practice, no source).
pub const BAR_MM: f64 = 2_000.0;
/// An angle is laid by two distances at so much from the mark, mm (common practice, no source).
pub const CHORD_AT_MM: f64 = 1_500.0;
/// Turned by less it is square, radians: what no figure of a procedure means.
const TURNED_FROM_RAD: f64 = 1e-6;

/// Each upright target's stand, in the aiming's order.
pub fn stands(arrangement: &Arrangement, scene: &Scene) -> Vec<StandProof> {
    all(arrangement, scene).map(|own| own.proof()).collect()
}

/// What the stands give to the aim of their targets, for those of which something was read.
pub(super) fn gives(arrangement: &Arrangement, scene: &Scene) -> Vec<(Id, StandGives)> {
    let read = all(arrangement, scene).filter(|own| !own.read.is_empty());
    read.map(|own| {
        let aside = own.lean().map(|[_, left]| own.aside(left));
        (own.placement.id.clone(), StandGives { turned: own.turned(), aside_mm: aside })
    })
    .collect()
}

fn all<'a>(arrangement: &'a Arrangement, scene: &'a Scene) -> impl Iterator<Item = Set<'a>> {
    let shop = instruments(arrangement, Tapes::of(arrangement).laid());
    let placements = arrangement.aiming.placements.iter().zip(&scene.targets);
    placements.filter(|(_, target)| !target.lies).map(move |(placement, target)| {
        let read = arrangement.stands_read.iter().find(|own| own.placement == placement.id);
        Set {
            arrangement,
            scene,
            placement,
            target,
            shop,
            read: read.cloned().unwrap_or_else(|| StandRead::of(placement.id.clone())),
        }
    })
}

/// A target that stands, and what was read of its stand.
struct Set<'a> {
    arrangement: &'a Arrangement,
    scene: &'a Scene,
    placement: &'a Placement,
    target: &'a PlacedTarget,
    shop: Instruments,
    read: StandRead,
}

fn standard(half: f64) -> f64 {
    half / 3.0_f64.sqrt()
}

fn both(a: Figure, b: Figure) -> Figure {
    Figure { value: a.value + b.value, u: libm::hypot(a.u, b.u) }
}

impl Set<'_> {
    fn proof(&self) -> StandProof {
        let height = self.height();
        let lean = self.lean();
        let turned = self.turned();
        let figures = [
            self.height_figure(height),
            self.up_down(height, lean),
            self.turn_figure(turned),
            self.aside_figure(lean),
            self.tip_figure(lean),
        ];
        let is_typed = |parts: [Option<f64>; 2]| parts.iter().all(Option::is_some);
        let waits_height = is_typed([self.read.line_mm, self.read.offset_mm]) && height.is_none();
        let waits_lean = is_typed([self.read.leans_away_rad, self.read.leans_left_rad]) && lean.is_none();
        let open = [
            (StandPart::Height, height.is_none() && self.height_matters()),
            (StandPart::Square, turned.is_none() && self.turn_matters()),
            (StandPart::Plumb, lean.is_none()),
        ];
        StandProof {
            placement: self.placement.id.clone(),
            figures: figures.into_iter().flatten().collect(),
            open: open.into_iter().filter(|(_, is_open)| *is_open).map(|(part, _)| part).collect(),
            wants_levels: waits_height || waits_lean,
            proves: self.proves(),
            chord: self.chord(),
        }
    }

    /// From the sensor to the target, from above.
    fn away(&self) -> DVec2 {
        self.target.centre().truncate() - self.scene.sensor().truncate()
    }

    fn height_matters(&self) -> bool {
        self.placement.target.error.by_place > 0.0 || self.placement.tolerance.height_mm.is_some()
    }

    /// Unless two marks that are joined give it.
    fn turn_matters(&self) -> bool {
        let error = self.placement.target.error.by_squareness;
        let is_joined = self.placement.mark.as_ref().is_some_and(|mark| {
            let plan = &self.arrangement.aiming.mark_plan;
            plan.iter().find(|step| step.id == *mark).is_some_and(|step| joined_by(step).is_some())
        });
        (error > 0.0 || self.placement.tolerance.yaw_rad.is_some()) && !is_joined
    }

    /// How far too high the middle of the face hangs, mm.
    fn height(&self) -> Option<Figure> {
        let (line_mm, offset_mm) = (self.read.line_mm?, self.read.offset_mm?);
        let floor = self.read.line_over == LineOver::Floor;
        let set = HeightSet {
            reference_mm: Figure { value: line_mm, u: self.shop.tape.of(line_mm) },
            laser_run_mm: if floor { 0.0 } else { self.away().length() },
            offset_mm,
            floor_between_mm: Figure::default(),
        };
        // A line that is carried level is the rotating laser's, where there is one.
        let drift = level_drift_mm(&self.arrangement.instruments);
        let carried = drift.map_or(self.shop.laser_mm_per_m, standard);
        let found = target::height(&set, &Instruments { laser_mm_per_m: carried, ..self.shop })?;
        let found = Figure { value: found.value, u: found.u };
        if floor {
            let to_set = ground::height_to_set(self.arrangement, self.scene, &self.placement.id)?;
            let to_set = Figure { value: -to_set.height.value, u: to_set.height.u95 / K };
            return Some(both(found, to_set));
        }
        let meant = match self.placement.height {
            TargetHeight::FromSensor { offset_mm, .. } => Figure { value: offset_mm, u: 0.0 },
            TargetHeight::Absolute(_) | TargetHeight::OnFloor => {
                let value = self.target.meant.height_mm - self.scene.sensor().z;
                Figure { value, u: ground::sensor_u_mm(self.arrangement) }
            }
        };
        let meant = match self.placement.vertical {
            VerticalReference::Gravity => meant,
            // The plane of the wheels rises on the way to the target, or falls.
            VerticalReference::WheelsPlane => {
                let [along, _] = self.tilt()?;
                let away = self.away().length();
                both(meant, Figure { value: -libm::tan(along.value) * away, u: along.u * away })
            }
        };
        Some(both(found, Figure { value: -meant.value, u: meant.u }))
    }

    /// How far the normal of the plane of the wheels leans away from the sensor along its line to the target, and to the left of that.
    fn tilt(&self) -> Option<[Figure; 2]> {
        let [pitch, roll] = ground::tilt(self.arrangement, self.scene)?;
        let line = angle::direction(angle::heading(self.away()) - self.scene.bay_from_vehicle.heading());
        // Nose down it leans ahead, left side up to the right.
        let leans = DVec2::new(pitch.value, -roll.value);
        let u = |way: DVec2| libm::hypot(way.x * pitch.u, way.y * roll.u);
        Some([line, line.perp()].map(|way| Figure { value: leans.dot(way), u: u(way) }))
    }

    /// How far the pole leans away from the sensor and to the left, against what is upright here.
    fn lean(&self) -> Option<[Figure; 2]> {
        let u = standard(self.arrangement.shop.pole_read_rad);
        let read = [self.read.leans_away_rad?, self.read.leans_left_rad?].map(|value| Figure { value, u });
        match self.placement.vertical {
            VerticalReference::Gravity => Some(read),
            VerticalReference::WheelsPlane => {
                let [a, b] = self.tilt()?;
                let off = |read, own: Figure| both(read, Figure { value: -own.value, u: own.u });
                let [away, left] = read;
                Some([off(away, a), off(left, b)])
            }
        }
    }

    fn aside(&self, left: Figure) -> Figure {
        let height = self.target.set.height_mm;
        Figure { value: lean_moves(height, 0.0, left.value).y, u: height * left.u }
    }

    /// How surely the axis itself lies, radians: a middle of two wheel points at each axle.
    fn axis_u_rad(&self) -> f64 {
        let side = libm::hypot(self.shop.wheel_aside_mm, self.shop.hub_height_mm * self.shop.camber_rad);
        side / self.arrangement.vehicle.wheelbase_mm
    }

    /// What a way of reading squareness leaves unsure, radians, with the axis.
    fn square_u_rad(&self, way: &Way) -> Option<f64> {
        let own = target::square(way, &self.shop)?;
        let laid = match way {
            Way::TwoDistances { .. } | Way::Bar { .. } => self.shop.square_rad,
            Way::Mirror { .. } => 0.0,
        };
        Some(libm::hypot(libm::hypot(own, laid), self.axis_u_rad()))
    }

    fn turned(&self) -> Option<Figure> {
        let laid_rad = standard(self.arrangement.shop.on_face_laid_rad);
        let (value, way) = match self.read.square_by {
            SquareBy::Distances | SquareBy::Bar => {
                let (left, right, apart) = (self.read.left_mm?, self.read.right_mm?, self.read.apart_mm?);
                let distance_mm = left.abs().max(right.abs());
                let way = match self.read.square_by {
                    SquareBy::Bar => Way::Bar { length_mm: apart, distance_mm, laid_rad },
                    SquareBy::Distances | SquareBy::Mirror => {
                        Way::TwoDistances { apart_mm: apart, distance_mm }
                    }
                };
                (face_turned(left, right, apart, 0.0)?.value, way)
            }
            SquareBy::Mirror => {
                let (beside, distance_mm) = (self.read.beside_mm?, self.read.mirror_mm?);
                // A face that is turned to the left sends the laser back to the right.
                let turned = turned_by_mirror(-beside, distance_mm, 0.0)?.value;
                (turned, Way::Mirror { distance_mm, laid_rad })
            }
        };
        Some(Figure { value, u: self.square_u_rad(&way)? })
    }

    fn proves(&self) -> [f64; 3] {
        let distance_mm = self.away().length();
        let laid_rad = standard(self.arrangement.shop.on_face_laid_rad);
        let ways = [
            Way::TwoDistances { apart_mm: self.placement.target.width_mm, distance_mm },
            Way::Bar { length_mm: BAR_MM, distance_mm, laid_rad },
            Way::Mirror { distance_mm, laid_rad },
        ];
        ways.map(|way| self.square_u_rad(&way).map_or(f64::INFINITY, |u| K * u))
    }

    fn chord(&self) -> Option<(f64, f64)> {
        let own = self.target.set.place.heading() - self.scene.bay_from_axis.heading();
        let turned = angle::wrapped(own + std::f64::consts::PI);
        let off_quarter = turned.abs().min((turned.abs() - std::f64::consts::PI).abs());
        (off_quarter > TURNED_FROM_RAD).then(|| (turned, chord_mm(CHORD_AT_MM, turned.abs())))
    }

    fn figure(of: StandOf, figure: Figure, allowed: f64) -> StandFigure {
        let u95 = K * figure.u;
        let said = decide(figure.value, u95, allowed, Rule::Guarded);
        StandFigure { of, off: figure.value, u95, allowed, said }
    }

    fn height_figure(&self, height: Option<Figure>) -> Option<StandFigure> {
        Some(Self::figure(StandOf::Height, height?, self.placement.tolerance.height_mm?))
    }

    /// Only once all that it is made of was read.
    fn up_down(&self, height: Option<Figure>, lean: Option<[Figure; 2]>) -> Option<StandFigure> {
        let error = self.placement.target.error;
        let away = self.away().length();
        let mut sum = Figure::default();
        if error.by_place > 0.0 {
            let own = height?;
            let seen = seen_as(own.value, away)?.abs();
            sum = both(sum, Figure { value: error.by_place * seen, u: error.by_place * own.u / away });
        }
        if error.by_squareness > 0.0 {
            let [tip, _] = lean?;
            let by = error.by_squareness;
            sum = both(sum, Figure { value: by * tip.value.abs(), u: by * tip.u });
        }
        let is_any = error.by_place > 0.0 || error.by_squareness > 0.0;
        is_any.then(|| Self::figure(StandOf::UpDown, sum, self.arrangement.aiming.tolerance.elevation_rad))
    }

    fn turn_figure(&self, turned: Option<Figure>) -> Option<StandFigure> {
        let by = self.placement.target.error.by_squareness;
        let aim = (by > 0.0).then(|| self.arrangement.aiming.tolerance.azimuth_rad / by);
        let allowed = least(aim, self.placement.tolerance.yaw_rad)?;
        Some(Self::figure(StandOf::Turn, turned?, allowed))
    }

    fn aside_figure(&self, lean: Option<[Figure; 2]>) -> Option<StandFigure> {
        let by = self.placement.target.error.by_place;
        let seen = (by > 0.0).then(|| (self.arrangement.aiming.tolerance.azimuth_rad / by).min(1.0));
        let aim = seen.map(|seen| self.away().length() * libm::tan(seen));
        let allowed = least(aim, self.placement.tolerance.across_mm)?;
        let [_, left] = lean?;
        Some(Self::figure(StandOf::Aside, self.aside(left), allowed))
    }

    fn tip_figure(&self, lean: Option<[Figure; 2]>) -> Option<StandFigure> {
        let allowed = self.placement.tolerance.pitch_rad?;
        let [tip, _] = lean?;
        Some(Self::figure(StandOf::Tip, tip, allowed))
    }
}

fn least(a: Option<f64>, b: Option<f64>) -> Option<f64> {
    match (a, b) {
        (Some(a), Some(b)) => Some(a.min(b)),
        (a, b) => a.or(b),
    }
}
