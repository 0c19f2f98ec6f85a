//! What is asked of a target that marks can tell, and what they tell.

use baywright_geometry::marks::Construction;
use baywright_geometry::{DVec2, angle};
use baywright_survey::budget::{Budget, Instruments, Sought, Tape};
use baywright_survey::decide::{Rule, Said, decide};
use baywright_survey::input::Figure as Spread;
use baywright_survey::laid::{Chances, Laid, Shown, unseen, worst_unseen};
use baywright_survey::next_tape::{Candidate, Known, Wish};

use super::K;
use super::typed::{typed_beside, unless_nothing};
use crate::model::{Arrangement, Id, MarkStep, Placement, Wheel};
use crate::scene::{PlacedTarget, Scene};

/// What is asked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FigureOf {
    /// The direction in which the sensor is aimed by it, radians, positive to the left.
    Direction,
    /// How far it is from the sensor, mm, positive: further.
    Distance,
    /// How far it is aside of its place, mm, positive: to the left.
    Aside,
    /// How far its face is turned by the marks that give it, radians, positive to the left.
    Turn,
}

impl FigureOf {
    /// Whether it is an angle; else a length.
    pub const fn is_angle(self) -> bool {
        matches!(self, Self::Direction | Self::Turn)
    }
}

/// One figure of a target against what is allowed of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Figure {
    /// Whose.
    pub placement: Id,
    /// What.
    pub of: FigureOf,
    /// By what mark.
    pub mark: Id,
    /// How far off, mm or radians.
    pub off: f64,
    /// Uncertainty of that, 95 %.
    pub u95: f64,
    /// How far off it may be, either way.
    pub allowed: f64,
    /// How far off it may be by one mark beside its place that what was taped would not show, in the same unit: infinite as long as
    /// nothing checks a mark.
    pub unseen: f64,
    /// By which mark beside its place that is.
    pub unseen_mark: Option<Id>,
    /// Whether more than is allowed may go unseen even once every distance of the plan is taped: no tape settles it.
    pub no_tape_shows: bool,
    /// What that comes to: never inside while more than is allowed may go unseen.
    pub said: Said,
    /// What of the marks it mostly follows.
    pub sought: Sought,
    /// What of the sought one unit of this figure is.
    pub(super) per_unit: f64,
    /// Whether the target's squareness enters the aim and no join of two marks gives it, nor was it read of the stand: it is not proven here.
    pub squareness_open: bool,
    /// Whether more than one thing does not fit: it is the likeliest guess then, and how sure it is nobody knows.
    pub is_guess: bool,
    /// What it is made of, in the same unit, with signs: the marks first, then what else is known.
    pub made_of: Vec<(MadeOf, f64)>,
    /// What of its uncertainty is not the marks', standard, in the same unit: no tape makes that less.
    pub(super) others_u: f64,
}

impl Figure {
    /// What of the sought one unit of this figure is: radians for a millimetre aside.
    pub(super) const fn scale(&self) -> f64 {
        self.per_unit
    }

    /// Whether what may go unseen is told by how much: many times what is allowed is as good as anything.
    pub fn tells_unseen(&self) -> bool {
        const AS_GOOD_AS_ANYTHING: f64 = 20.0;
        self.unseen <= AS_GOOD_AS_ANYTHING * self.allowed
    }

    /// Whether what is not the marks' is worth a word: a twentieth of what is allowed.
    pub fn others_matter(&self) -> bool {
        let others = self.made_of.iter().filter(|(of, _)| *of != MadeOf::Marks);
        others.into_iter().any(|(_, by)| by.abs() * 20.0 >= self.allowed)
    }

    /// Whether it is inside but for what may go unseen.
    pub fn is_unchecked(&self) -> bool {
        matches!(self.said, Said::CannotSay { .. }) && self.off.abs() + self.u95 <= self.allowed
    }
}

/// Of what lies so far either way, any value alike (JCGM 100, 4.3.7).
pub(crate) fn standard(half: f64) -> f64 {
    half / 3.0_f64.sqrt()
}

/// What a shop lays with, beside its tape, as standard uncertainties.
pub(super) fn instruments(arrangement: &Arrangement, tape: Tape) -> Instruments {
    let shop = &arrangement.shop;
    Instruments {
        tape,
        laser_mm_per_m: standard(shop.laser_per_metre_mm),
        line_mm: standard(shop.line_found_mm),
        plumb_mm: standard(shop.plumb_found_mm),
        wheel_aside_mm: standard(shop.wheel_found_mm),
        wheel_along_mm: standard(shop.wheel_found_mm),
        camber_rad: standard(shop.camber_known_rad),
        hub_height_mm: arrangement.hub_height_mm(),
        square_rad: standard(shop.square_laid_rad),
        angle_rad: standard(shop.angle_laid_rad),
    }
}

/// How well a camber is known that a sheet gives, radians either way: sheets are printed to a minute or a twentieth of a degree
/// (common practice, no source). What a shop knows of it without one is its own figure.
const SHEET_CAMBER_RAD: f64 = 0.05 * std::f64::consts::PI / 180.0;

/// The camber of each wheel that the sheet tells, with its standard uncertainty, radians. A wheel's mark is meant under the middle
/// of the tyre ([`Arrangement::wheel_point`]) and is plumbed from the hub: the camber enters there, once, whether the wheels
/// themselves were measured at the hubs or at the tyres.
pub(super) fn cambers(arrangement: &Arrangement) -> [Option<(f64, f64)>; 4] {
    let u = SHEET_CAMBER_RAD.min(arrangement.shop.camber_known_rad) / 3.0_f64.sqrt();
    Wheel::ALL.map(|wheel| arrangement.on_this_car.sheet.camber_rad(wheel).map(|own| (own, u)))
}

/// What all but the marks gives to a target's place and aim, with standard uncertainties.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct StandGives {
    /// How far its face is turned from square as it was read, radians, positive to the left.
    pub turned: Option<Spread>,
    /// What moves it off the sensor.
    pub along: Moves,
    /// What moves it to the left.
    pub aside: Moves,
    /// How far it is turned by what was typed, radians, positive to the left.
    pub placed_turn_rad: f64,
}

/// What moves a target one way beside its mark, mm.
#[derive(Clone, Copy, Debug, PartialEq, Default)]
pub(super) struct Moves {
    /// A pole that leans, if that was read.
    pub pole: Option<Spread>,
    /// The tilt of the plane of the wheels, if that enters and is known.
    pub floor: Option<Spread>,
    /// What was typed of where it stands.
    pub placed: f64,
}

impl Moves {
    /// Its standard uncertainty.
    fn u(&self) -> f64 {
        let u = |own: Option<Spread>| own.map_or(0.0, |own| own.u);
        libm::hypot(u(self.pole), u(self.floor))
    }
}

/// What a figure of a target is made of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MadeOf {
    /// Where the marks lie.
    Marks,
    /// The pole, as it was read.
    Pole,
    /// The tilt of the plane of the wheels.
    Floor,
    /// Where the target was typed to stand, or its mark to lie, beside the target's place.
    Placed,
    /// Its face, as it was read.
    Face,
}

/// The two marks whose join gives a mark's target its direction, by their positions.
pub(super) fn joined_by(step: &MarkStep) -> Option<(usize, usize)> {
    match step.construction {
        Construction::Middle { first, second } => Some((first, second)),
        _ => None,
    }
}

/// What was read of a plan.
#[derive(Clone, Copy)]
pub(super) struct Read<'a> {
    pub found: &'a Laid,
    /// What shows a mark that lies beside its place.
    pub shown: Shown<'a>,
    /// Every distance that can be taped.
    pub all: &'a [Candidate],
    /// Whether more than one thing is wrong: what else is, nobody knows.
    pub is_in_doubt: bool,
    /// Whether a mark that was laid twice lies in two places: which is right nobody knows.
    pub is_apart: bool,
}

pub(super) fn of(
    arrangement: &Arrangement,
    scene: &Scene,
    budget: &Budget,
    Read { found, shown, all, is_in_doubt, is_apart }: Read<'_>,
    stands: &[(Id, StandGives)],
) -> Vec<Figure> {
    let known = &found.known;
    let placements = arrangement.aiming.placements.iter().zip(&scene.targets);
    placements
        .filter_map(|(placement, target)| {
            let id = placement.mark.as_ref()?;
            let mark = scene.marks.iter().position(|own| own.id == *id)?;
            let stand = stands.iter().find(|(own, _)| *own == placement.id).map(|(_, own)| *own);
            let asked = Asked {
                arrangement,
                scene,
                budget,
                known,
                shown,
                all,
                is_in_doubt,
                is_apart,
                placement,
                target,
                mark,
                stand,
            };
            Some(
                [asked.direction(), asked.turn(), asked.aside(), asked.distance()]
                    .into_iter()
                    .flatten()
                    .collect::<Vec<_>>(),
            )
        })
        .flatten()
        .collect()
}

struct Asked<'a> {
    arrangement: &'a Arrangement,
    scene: &'a Scene,
    budget: &'a Budget,
    known: &'a Known,
    shown: Shown<'a>,
    /// Every distance that can be taped.
    all: &'a [Candidate],
    /// Whether more than one thing is wrong: what else is, nobody knows.
    is_in_doubt: bool,
    /// Whether a mark that was laid twice lies in two places.
    is_apart: bool,
    placement: &'a Placement,
    target: &'a PlacedTarget,
    mark: usize,
    /// What was read of its stand.
    stand: Option<StandGives>,
}

impl Asked<'_> {
    /// How far off what is sought is, and its standard uncertainty.
    fn off(&self, sought: &Sought) -> Option<(f64, f64)> {
        let meant = sought.of(self.budget.places())?.0;
        let is = sought.of(self.known.places())?.0;
        Some((is - meant, self.known.u(&Wish::Target(*sought))?))
    }

    /// What moves it further off and to the left beside its mark, mm: by pole and floor, and by where it was typed to stand; where nobody
    /// did, by what the plan's mark lies beside its place.
    fn moves(&self) -> Option<[Moves; 2]> {
        let [further, left] = if self.target.set == self.target.meant {
            let mark = self.scene.marks.get(self.mark)?.at.ok()?;
            let meant = self.target.meant.place.origin();
            let way = (meant - self.scene.sensor().truncate()).normalize_or_zero();
            [way.dot(mark - meant), way.perp_dot(mark - meant)].map(unless_nothing)
        } else {
            typed_beside(self.target, self.scene)
        };
        let [along, aside] = self.stand.map_or_else(Default::default, |own| [own.along, own.aside]);
        Some([Moves { placed: further, ..along }, Moves { placed: left, ..aside }])
    }

    /// What one mark that is not found makes of it; anything, where more than one thing does not fit already, or one mark lies in two places.
    fn unseen(&self, sought: &Sought) -> f64 {
        if self.is_in_doubt || self.is_apart {
            return f64::INFINITY;
        }
        unseen(self.budget, self.shown, sought, &Chances::default()).unwrap_or(f64::INFINITY)
    }

    /// By which mark that is, and whether no distance of the plan shows it, for so much of the figure as one of the sought is.
    fn unseen_by(&self, sought: &Sought, per_unit: f64, allowed: f64) -> (Option<Id>, bool) {
        let of = |taped: &[Candidate]| {
            worst_unseen(self.budget, Shown { taped, ..self.shown }, sought, &Chances::default())
        };
        let mark =
            of(self.shown.taped).and_then(|(mark, _)| self.scene.marks.get(mark)).map(|own| own.id.clone());
        let left = of(self.all).map_or(0.0, |(_, left)| left);
        (mark, left * per_unit > allowed)
    }

    fn figure(&self, of: FigureOf, sought: Sought, sum: Sum, allowed: f64) -> Option<Figure> {
        let mark = self.scene.marks.get(self.mark)?.id.clone();
        let (off, u95) = (sum.off, K * libm::hypot(sum.marks_u, sum.others_u));
        let said = match decide(off, u95, allowed, Rule::Guarded) {
            Said::Inside { .. } if sum.unseen > allowed => Said::CannotSay { less_u: None },
            said => said,
        };
        let placement = self.target.id.clone();
        let (unseen_mark, no_tape_shows) = match said {
            Said::CannotSay { .. } if sum.unseen > allowed => {
                self.unseen_by(&sought, sum.per_sought, allowed)
            }
            _ => (None, false),
        };
        Some(Figure {
            placement,
            of,
            mark,
            off,
            u95,
            allowed,
            unseen: sum.unseen,
            unseen_mark,
            no_tape_shows,
            said,
            sought,
            per_unit: 1.0,
            squareness_open: false,
            is_guess: self.is_in_doubt,
            made_of: sum.made_of,
            others_u: sum.others_u,
        })
    }

    /// What its place and its turn make of the aim.
    fn direction(&self) -> Option<Figure> {
        let error = self.placement.target.error;
        let bearing = Sought::Bearing { mark: self.mark, from: self.sensor() };
        let by_place = if error.by_place > 0.0 { Some(self.off(&bearing)?) } else { None };
        // A face that was read itself is where it is, wherever its marks lie.
        let read = self.stand.and_then(|own| own.turned);
        let turned = if error.by_squareness > 0.0 && read.is_none() {
            join(self.arrangement, self.budget, self.mark)
        } else {
            None
        };
        let by_turn = turned.and_then(|sought| Some((sought, self.off(&sought)?)));
        let allowed = self.arrangement.aiming.tolerance.azimuth_rad;
        let open = error.by_squareness > 0.0 && by_turn.is_none() && read.is_none();
        // Marks say nothing of what is by its face alone, where no join gives that.
        let sought = match (by_place, by_turn) {
            (None, None) => return None,
            (None, Some((sought, _))) => sought,
            (Some(_), None) => bearing,
            (Some((_, place)), Some((sought, (_, turn)))) => {
                if error.by_place * place < error.by_squareness * turn { sought } else { bearing }
            }
        };
        // What they have in common is not told apart: both are taken to go together.
        let mut sum = Sum::default();
        let by_place_of = by_place.map(|own| (bearing, own));
        for (share, part) in [(error.by_place, by_place_of), (error.by_squareness, by_turn)] {
            let Some((sought, (by, of))) = part else { continue };
            sum.marks(share * angle::wrapped(by), share * of, share * self.unseen(&sought));
        }
        let of_turn = Some(sought) == by_turn.map(|(turn, _)| turn);
        sum.per_sought = if of_turn { error.by_squareness } else { error.by_place };
        if by_place.is_some() {
            let [_, moves] = self.moves()?;
            let away = self.target.centre().truncate().distance(self.scene.sensor().truncate());
            if away > 0.0 {
                sum.moved(&moves, |mm| error.by_place * libm::atan(mm / away), error.by_place / away);
            }
        }
        let typed = self.stand.map_or(0.0, |own| own.placed_turn_rad);
        if by_turn.is_some() && typed != 0.0 {
            sum.add(MadeOf::Placed, error.by_squareness * typed);
        }
        if let Some(read) = read.filter(|_| error.by_squareness > 0.0) {
            // Place and face are never taken to cancel, nor what they have in common.
            sum.add(MadeOf::Face, libm::copysign(error.by_squareness * read.value, sum.off));
            sum.others_u += error.by_squareness * read.u;
            sum.go_together();
        }
        let figure = self.figure(FigureOf::Direction, sought, sum, allowed)?;
        Some(Figure { squareness_open: open, ..figure })
    }

    /// How far the marks turn its face, where they give it, nobody read it, and the placement says how far it may be turned.
    fn turn(&self) -> Option<Figure> {
        let allowed = self.placement.tolerance.yaw_rad?;
        if self.stand.is_some_and(|own| own.turned.is_some()) {
            return None;
        }
        let sought = join(self.arrangement, self.budget, self.mark)?;
        let (off, u) = self.off(&sought)?;
        let mut sum = Sum::default();
        sum.marks(angle::wrapped(off), u, self.unseen(&sought));
        sum.per_sought = 1.0;
        let typed = self.stand.map_or(0.0, |own| own.placed_turn_rad);
        if typed != 0.0 {
            sum.add(MadeOf::Placed, typed);
        }
        self.figure(FigureOf::Turn, sought, sum, allowed)
    }

    fn aside(&self) -> Option<Figure> {
        let allowed = self.placement.tolerance.across_mm?;
        let bearing = Sought::Bearing { mark: self.mark, from: self.sensor() };
        let away = self.budget.places().get(self.mark)?.distance(self.sensor());
        let (off, u) = self.off(&bearing)?;
        let mut sum = Sum::default();
        sum.marks(angle::wrapped(off) * away, u * away, self.unseen(&bearing) * away);
        sum.per_sought = away;
        let [_, moves] = self.moves()?;
        sum.moved(&moves, |mm| mm, 1.0);
        let figure = self.figure(FigureOf::Aside, bearing, sum, allowed)?;
        Some(Figure { per_unit: away.recip(), ..figure })
    }

    fn distance(&self) -> Option<Figure> {
        let allowed = self.placement.tolerance.along_mm?;
        let sought = Sought::Distance { mark: self.mark, from: self.sensor() };
        let (off, u) = self.off(&sought)?;
        let mut sum = Sum::default();
        sum.marks(off, u, self.unseen(&sought));
        sum.per_sought = 1.0;
        let [moves, _] = self.moves()?;
        sum.moved(&moves, |mm| mm, 1.0);
        self.figure(FigureOf::Distance, sought, sum, allowed)
    }

    /// The sensor from above, vehicle frame.
    fn sensor(&self) -> DVec2 {
        self.scene.bay_from_vehicle.inverse() * self.scene.sensor().truncate()
    }
}

/// What adds up to one figure of a target, with signs.
#[derive(Default)]
struct Sum {
    off: f64,
    marks_u: f64,
    others_u: f64,
    unseen: f64,
    /// How much of it one of what is sought is.
    per_sought: f64,
    made_of: Vec<(MadeOf, f64)>,
}

impl Sum {
    fn add(&mut self, of: MadeOf, by: f64) {
        self.off += by;
        match self.made_of.iter_mut().find(|(own, _)| *own == of) {
            Some((_, sum)) => *sum += by,
            None => self.made_of.push((of, by)),
        }
    }

    fn marks(&mut self, by: f64, u: f64, unseen: f64) {
        self.add(MadeOf::Marks, by);
        self.marks_u += u;
        self.unseen += unseen;
    }

    /// What moves it, in the figure's unit: `per_mm` of it for a millimetre of uncertainty.
    fn moved(&mut self, moves: &Moves, of_mm: impl Fn(f64) -> f64, per_mm: f64) {
        let parts = [(MadeOf::Pole, moves.pole), (MadeOf::Floor, moves.floor)];
        for (of, spread) in parts {
            if let Some(own) = spread {
                self.add(of, of_mm(own.value));
            }
        }
        if moves.placed != 0.0 {
            self.add(MadeOf::Placed, of_mm(moves.placed));
        }
        self.others_u = libm::hypot(self.others_u, per_mm * moves.u());
    }

    /// What is not told apart goes together: uncertainties are added as they are.
    fn go_together(&mut self) {
        self.marks_u += self.others_u;
        self.others_u = 0.0;
    }
}

/// The join of two marks that gives a target its direction, if its mark is their middle.
fn join(arrangement: &Arrangement, budget: &Budget, mark: usize) -> Option<Sought> {
    let (first, second) = joined_by(arrangement.aiming.mark_plan.get(mark)?)?;
    let (one, other) = (budget.places().get(first)?, budget.places().get(second)?);
    let (right, left) = if one.y < other.y { (first, second) } else { (second, first) };
    Some(Sought::Squareness { right, left })
}

/// What of the marks the aim by a target follows, and by what share; nothing where no mark lies under it. `sensor`: from above,
/// vehicle frame.
pub(crate) fn direction_by(
    arrangement: &Arrangement,
    budget: &Budget,
    placement: &Placement,
    sensor: DVec2,
) -> Vec<(f64, Sought)> {
    let own = |id: &Id| arrangement.aiming.mark_plan.iter().position(|step| step.id == *id);
    let Some(mark) = placement.mark.as_ref().and_then(own) else { return Vec::new() };
    let error = placement.target.error;
    let place = (error.by_place, Some(Sought::Bearing { mark, from: sensor }));
    let turn = (error.by_squareness, join(arrangement, budget, mark));
    let all = [place, turn].into_iter();
    all.filter_map(|(share, sought)| Some((share, sought?))).filter(|(share, _)| *share > 0.0).collect()
}
