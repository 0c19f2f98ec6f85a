//! What was read of a target's stand, and what that proves: its height, how square its face is, how plumb its pole.
//!
//! Lengths are mm, angles radians: a face is turned anticlockwise, a pole leans away from the sensor and to the left, as seen along the
//! line from the sensor to the target. Uncertainties are of 95 % in what is told, standard ones in [`Figure`]. What each is made of is
//! common practice, no source; the law is [`baywright_survey::propagate`]'s.
//!
//! **Height.** From the sensor the reference line is level, so that no floor comes in unless the procedure goes by the plane of the
//! wheels; from the floor at the stand the levels must be known. **Square.** To the reading comes how surely the line or the laser lies
//! along the axis: by the wheels' points, and by a right angle that is laid. **Plumb.** A pole that leans shifts what is by its place
//! and tips what is by its squareness. What a target's place makes of the aim and what its tip does are never taken to cancel.
//!
//! **Against the car.** What counts is how the target stands against the car's own axes: a pole that leans as the car does is upright to
//! it, and one that leans the other way is off by both together. So the tilt of the plane of the wheels is taken off each lean, with its sign
//! and its uncertainty, whether the procedure goes by that plane or by the plumb line; of one that goes by the plumb line not where the
//! aiming has a limit of its own for that tilt, nor where the levels are not known: then nothing is said of it. Where somebody typed
//! that the target stands beside its place, that is added too.

use baywright_geometry::{DVec2, angle};
use baywright_survey::budget::Instruments;
use baywright_survey::budget::target::{self, HeightSet, SquareBy as Way};
use baywright_survey::decide::{Rule, Said, decide};
use baywright_survey::input::Figure;
use baywright_survey::stand::{chord_mm, face_turned, lean_moves, seen_as, turned_by_mirror};

use super::K;
use super::figures::{Moves, StandGives, instruments, joined_by};
use super::possible::{NotPossible, StandField, not_possible};
use super::tapes::Tapes;
use super::typed::{typed_beside, unless_nothing};
use crate::ground;
use crate::model::{
    Arrangement, FloorRequirement, Id, LineOver, Placement, SquareBy, StandRead, TargetHeight, TargetKind,
    VerticalReference, level_drift_mm,
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
    /// How far the pole's lean moves the target aside, against the car, mm, positive: to the left.
    Aside,
    /// How far it moves it off the sensor, against the car, mm, positive: further.
    Along,
    /// How far it is tipped against the car, radians, positive: its face looks up.
    Tip,
    /// How far a board hangs askew against the car, radians, positive: as a pole that leans to the left.
    Askew,
}

impl StandOf {
    /// Whether it is an angle, and not a length.
    pub const fn is_angle(self) -> bool {
        match self {
            Self::Height | Self::Aside | Self::Along => false,
            Self::UpDown | Self::Turn | Self::Tip | Self::Askew => true,
        }
    }
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
    /// What of it is the tilt of the plane of the wheels, in the same unit; `None` where that does not enter or is not known.
    pub floor: Option<f64>,
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
    /// What of its readings cannot be: it is not used.
    pub not_possible: Vec<NotPossible>,
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

/// What the stands give to place and aim of their targets beside the marks: as far as something was read of them, and by the floor.
pub(super) fn gives(arrangement: &Arrangement, scene: &Scene) -> Vec<(Id, StandGives)> {
    all(arrangement, scene).map(|own| (own.placement.id.clone(), own.gives())).collect()
}

/// What is known of one target's stand beforehand, for where it aims the sensor; of one that lies nothing.
pub(super) fn known(arrangement: &Arrangement, scene: &Scene, placement: &Id) -> StandKnown {
    let own = all(arrangement, scene).find(|own| own.placement.id == *placement);
    own.map_or_else(StandKnown::default, |own| own.known())
}

/// What was read and typed of a stand, and what the floor makes of it; standard uncertainties.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(crate) struct StandKnown {
    /// How far up it aims the sensor by all of that, radians.
    pub up: f64,
    /// How surely its height was read, mm.
    pub height_u_mm: Option<f64>,
    /// How far its face is turned as it was read, radians, positive to the left.
    pub turned: Option<Figure>,
    /// How surely its pole was read, radians.
    pub lean_u: Option<f64>,
}

fn all<'a>(arrangement: &'a Arrangement, scene: &'a Scene) -> impl Iterator<Item = Set<'a>> {
    let shop = instruments(arrangement, Tapes::of(arrangement).laid());
    let placements = arrangement.aiming.placements.iter().zip(&scene.targets);
    placements.filter(|(_, target)| !target.lies).map(move |(placement, target)| {
        let read = arrangement.stands_read.iter().find(|own| own.placement == placement.id);
        let mut read = read.cloned().unwrap_or_else(|| StandRead::of(placement.id.clone()));
        let not_possible = not_possible(&arrangement.bay, placement, target, &read);
        not_possible.iter().for_each(|own| forget(&mut read, own.field));
        Set { arrangement, scene, placement, target, shop, read, not_possible }
    })
}

/// A target that stands, and what was read of its stand.
struct Set<'a> {
    arrangement: &'a Arrangement,
    scene: &'a Scene,
    placement: &'a Placement,
    target: &'a PlacedTarget,
    shop: Instruments,
    /// What of its readings can be.
    read: StandRead,
    /// What cannot.
    not_possible: Vec<NotPossible>,
}

/// What cannot be is as if nobody had read it.
const fn forget(read: &mut StandRead, field: StandField) {
    match field {
        StandField::Line => read.line_mm = None,
        StandField::Offset => read.offset_mm = None,
        StandField::Left => read.left_mm = None,
        StandField::Right => read.right_mm = None,
        StandField::Apart | StandField::Bar => read.apart_mm = None,
        StandField::Beside => read.beside_mm = None,
        StandField::Mirror => read.mirror_mm = None,
    }
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
            self.up_down(),
            self.turn_figure(turned),
            self.aside_figure(),
            self.along_figure(),
            self.tip_figure(),
            self.askew_figure(),
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
            not_possible: self.not_possible.clone(),
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

    /// How far too high the middle of the face hangs by the procedure's own upright, mm.
    fn height(&self) -> Option<Figure> {
        let found = self.height_by_gravity()?;
        // A height over the floor is held against what is to be set there, with all that is asked of it.
        if self.read.line_over == LineOver::Floor {
            return Some(found);
        }
        match self.placement.vertical {
            VerticalReference::Gravity => Some(found),
            // The plane of the wheels rises on the way to the target, or falls.
            VerticalReference::WheelsPlane => {
                let [along, _] = self.tilt()?;
                let away = self.away().length();
                Some(both(found, Figure { value: libm::tan(along.value) * away, u: along.u * away }))
            }
        }
    }

    /// The same as it was read: by the plumb line from the sensor, or by what is to be set over the floor there.
    fn height_by_gravity(&self) -> Option<Figure> {
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
        Some(both(found, Figure { value: -meant.value, u: meant.u }))
    }

    /// How far the normal of the plane of the wheels leans away from the sensor along its line to the target, and to the left of that.
    fn tilt(&self) -> Option<[Figure; 2]> {
        self.tilt_of([1.0, 1.0])
    }

    /// The same of so much of pitch and roll.
    fn tilt_of(&self, [of_pitch, of_roll]: [f64; 2]) -> Option<[Figure; 2]> {
        let [pitch, roll] = ground::tilt(self.arrangement, self.scene)?;
        let line = angle::direction(angle::heading(self.away()) - self.scene.bay_from_vehicle.heading());
        // Nose down it leans ahead, left side up to the right.
        let leans = DVec2::new(of_pitch * pitch.value, -of_roll * roll.value);
        let u = |way: DVec2| libm::hypot(way.x * of_pitch * pitch.u, way.y * of_roll * roll.u);
        Some([line, line.perp()].map(|way| Figure { value: leans.dot(way), u: u(way) }))
    }

    /// What of that tilt a target set by the plumb line is off by; nothing where the aiming has a limit of its own for it, which is the
    /// car's own affair then, or where the levels are not known.
    fn tilt_by_gravity(&self) -> Option<[Figure; 2]> {
        let asked = self.arrangement.aiming.floor;
        let counts = |of: fn(&FloorRequirement) -> Option<f64>| {
            if asked.as_ref().and_then(of).is_some() { 0.0 } else { 1.0 }
        };
        let of = [counts(|own| own.pitch_rad), counts(|own| own.roll_rad)];
        if of == [0.0, 0.0] { None } else { self.tilt_of(of) }
    }

    /// The tilt that enters how the target stands against the car; `Err` where it has to be known and is not.
    fn tilt_that_counts(&self) -> Result<Option<[Figure; 2]>, NoLevels> {
        match self.placement.vertical {
            VerticalReference::Gravity => Ok(self.tilt_by_gravity()),
            VerticalReference::WheelsPlane => self.tilt().map(Some).ok_or(NoLevels),
        }
    }

    /// How far the pole leans away from the sensor and to the left, by the plumb line, as it was read.
    fn lean_read(&self) -> Option<[Figure; 2]> {
        let u = standard(self.arrangement.shop.pole_read_rad);
        Some([self.read.leans_away_rad?, self.read.leans_left_rad?].map(|value| Figure { value, u }))
    }

    /// The same against the car, as far as its tilt enters.
    fn lean(&self) -> Option<[Figure; 2]> {
        let ([away, left], tilt) = (self.lean_read()?, self.tilt_that_counts().ok()?);
        let Some([a, b]) = tilt else { return Some([away, left]) };
        let off = |read, own: Figure| both(read, minus(own));
        Some([off(away, a), off(left, b)])
    }

    /// What all that is known but the marks makes of the target's place, further off and to the left, and of its face.
    fn gives(&self) -> StandGives {
        let read = self.lean_read();
        // A pole that nobody read is taken to be upright by what the procedure calls so.
        let tilt = match (read, self.placement.vertical) {
            (None, VerticalReference::WheelsPlane) => None,
            _ => self.tilt_that_counts().ok().flatten(),
        };
        let is_whole = read.is_some() && self.tilt_that_counts().is_ok();
        let pole = read.filter(|_| is_whole).map(|own| own.map(|lean| self.moved_by(lean)));
        let floor = tilt.map(|own| own.map(|lean| self.moved_by_tilt(lean)));
        let [further, left] = typed_beside(self.target, self.scene);
        let of = |which: usize, placed: f64| Moves {
            pole: pole.and_then(|own| own.get(which).copied()),
            floor: floor.and_then(|own| own.get(which).copied()),
            placed,
        };
        StandGives {
            turned: self.turned(),
            along: of(0, further),
            aside: of(1, left),
            placed_turn_rad: self.typed_turn(),
        }
    }

    /// How far the target is moved by a pole that leans so.
    fn moved_by(&self, lean: Figure) -> Figure {
        let height = self.target.set.height_mm;
        Figure { value: lean_moves(height, 0.0, lean.value).y, u: height * lean.u }
    }

    /// How far it stands off, over the plane of the wheels, by that plane's own tilt.
    fn moved_by_tilt(&self, tilt: Figure) -> Figure {
        let over = (self.target.set.height_mm - self.scene.carried_at_mm).abs();
        minus(Figure { value: lean_moves(over, 0.0, tilt.value).y, u: over * tilt.u })
    }

    /// How far it is turned by what was typed, radians, positive to the left.
    fn typed_turn(&self) -> f64 {
        let by = self.target.set.place.heading() - self.target.meant.place.heading();
        unless_nothing(angle::wrapped(by))
    }

    /// How far its face looks up by what was typed, radians.
    fn typed_tip(&self) -> f64 {
        unless_nothing(self.target.meant.pitch_rad - self.target.set.pitch_rad)
    }

    /// One way of its place by the pole, the tilt and what was typed, mm; `None` if its pole was not read.
    fn moved(&self, of: &Moves) -> Option<(Figure, Option<f64>)> {
        let pole = of.pole?;
        let floor = of.floor.unwrap_or_default();
        let all = both(both(pole, floor), Figure { value: of.placed, u: 0.0 });
        Some((all, of.floor.map(|own| own.value)))
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
        StandFigure { of, off: figure.value, u95, allowed, said, floor: None }
    }

    fn height_figure(&self, height: Option<Figure>) -> Option<StandFigure> {
        Some(Self::figure(StandOf::Height, height?, self.placement.tolerance.height_mm?))
    }

    fn known(&self) -> StandKnown {
        let error = self.placement.target.error;
        let (height, lean) = (self.height(), self.lean_read());
        let along = |tilt: Option<[Figure; 2]>| tilt.map_or(0.0, |[along, _]| along.value);
        // What was not read stands as the procedure has it: upright by its own measure, at the height that its floor wants.
        let (of_place, of_face) = match self.placement.vertical {
            VerticalReference::Gravity => (along(self.tilt_by_gravity()), along(self.tilt_by_gravity())),
            VerticalReference::WheelsPlane => (0.0, along(self.tilt().filter(|_| lean.is_some()))),
        };
        let typed_mm = unless_nothing(self.target.set.height_mm - self.target.meant.height_mm);
        let higher_mm = height.map_or(typed_mm, |own| own.value);
        let looks_up = lean.map_or(0.0, |[away, _]| away.value) - of_face + self.typed_tip();
        let seen = seen_as(higher_mm, self.away().length()).unwrap_or_default() + of_place;
        StandKnown {
            // A face that looks up is met squarely from above.
            up: error.by_place * seen - error.by_squareness * looks_up,
            height_u_mm: height.map(|own| own.u),
            turned: self.turned(),
            lean_u: lean.map(|[away, _]| away.u),
        }
    }

    /// Only once all that it is made of was read. A target over whose floor the car falls is seen higher by that fall, and tipped by it.
    fn up_down(&self) -> Option<StandFigure> {
        let error = self.placement.target.error;
        let away = self.away().length();
        let tilt = self.tilt_that_counts().ok()?;
        let [along, _] = tilt.unwrap_or_default();
        let (mut off, mut u, mut by_tilt, mut floor) = (0.0, 0.0, 0.0, 0.0);
        if error.by_place > 0.0 {
            let own = self.height_by_gravity()?;
            // What is to be set over the floor goes by the plane of the wheels already, where the procedure does.
            let is_in = self.read.line_over == LineOver::Floor
                && self.placement.vertical == VerticalReference::WheelsPlane;
            let tilt = if is_in { 0.0 } else { along.value };
            off += error.by_place * (seen_as(own.value, away)? + tilt).abs();
            u = libm::hypot(u, error.by_place * own.u / away);
            by_tilt += if is_in { 0.0 } else { error.by_place };
            floor += error.by_place * tilt;
        }
        if error.by_squareness > 0.0 {
            let [tip, _] = self.lean_read()?;
            let by = error.by_squareness;
            off += by * (tip.value - along.value + self.typed_tip()).abs();
            u = libm::hypot(u, by * tip.u);
            by_tilt += by;
            floor -= by * along.value;
        }
        let is_any = error.by_place > 0.0 || error.by_squareness > 0.0;
        let sum = Figure { value: off, u: libm::hypot(u, by_tilt * along.u) };
        let figure = Self::figure(StandOf::UpDown, sum, self.arrangement.aiming.tolerance.elevation_rad);
        is_any.then(|| StandFigure { floor: tilt.map(|_| floor), ..figure })
    }

    fn turn_figure(&self, turned: Option<Figure>) -> Option<StandFigure> {
        let by = self.placement.target.error.by_squareness;
        let aim = (by > 0.0).then(|| self.arrangement.aiming.tolerance.azimuth_rad / by);
        let allowed = least(aim, self.placement.tolerance.yaw_rad)?;
        Some(Self::figure(StandOf::Turn, turned?, allowed))
    }

    fn aside_figure(&self) -> Option<StandFigure> {
        let by = self.placement.target.error.by_place;
        let seen = (by > 0.0).then(|| (self.arrangement.aiming.tolerance.azimuth_rad / by).min(1.0));
        let aim = seen.map(|seen| self.away().length() * libm::tan(seen));
        let allowed = least(aim, self.placement.tolerance.across_mm)?;
        let (aside, floor) = self.moved(&self.gives().aside)?;
        Some(StandFigure { floor, ..Self::figure(StandOf::Aside, aside, allowed) })
    }

    fn along_figure(&self) -> Option<StandFigure> {
        let allowed = self.placement.tolerance.along_mm?;
        let (along, floor) = self.moved(&self.gives().along)?;
        Some(StandFigure { floor, ..Self::figure(StandOf::Along, along, allowed) })
    }

    fn tip_figure(&self) -> Option<StandFigure> {
        let allowed = self.placement.tolerance.pitch_rad?;
        let [tip, _] = self.lean()?;
        let tip = Figure { value: tip.value + self.typed_tip(), ..tip };
        Some(StandFigure { floor: self.floor_of(0), ..Self::figure(StandOf::Tip, tip, allowed) })
    }

    /// For a board's roll the aim's up/down tolerance stands in where it has none for its tip (common practice, no source).
    fn askew_figure(&self) -> Option<StandFigure> {
        let is_board = self.placement.target.kind == TargetKind::Board;
        let aim = self.arrangement.aiming.tolerance.elevation_rad;
        let allowed = self.placement.tolerance.pitch_rad.unwrap_or(aim);
        let [_, askew] = self.lean().filter(|_| is_board)?;
        Some(StandFigure { floor: self.floor_of(1), ..Self::figure(StandOf::Askew, askew, allowed) })
    }

    /// What of a lean is the tilt of the plane of the wheels.
    fn floor_of(&self, which: usize) -> Option<f64> {
        let tilt = self.tilt_that_counts().ok().flatten()?;
        tilt.get(which).map(|own| -own.value)
    }
}

/// Levels that have to be known are not.
struct NoLevels;

fn minus(own: Figure) -> Figure {
    Figure { value: -own.value, u: own.u }
}

fn least(a: Option<f64>, b: Option<f64>) -> Option<f64> {
    match (a, b) {
        (Some(a), Some(b)) => Some(a.min(b)),
        (a, b) => a.or(b),
    }
}
