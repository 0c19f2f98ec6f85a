//! What is asked of a target that marks can tell, and what they tell.

use baywright_geometry::marks::Construction;
use baywright_geometry::{DVec2, angle};
use baywright_survey::budget::{Budget, Instruments, Sought, Tape};
use baywright_survey::decide::{Rule, Said, decide};
use baywright_survey::input::Figure as Spread;
use baywright_survey::laid::{Chances, Fit, Laid, unseen};
use baywright_survey::next_tape::{Candidate, Known, Wish};

use super::K;
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
}

impl Figure {
    /// What of the sought one unit of this figure is: radians for a millimetre aside.
    pub(super) const fn scale(&self) -> f64 {
        self.per_unit
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

/// What was read of a target's stand gives to its aim, with standard uncertainties.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct StandGives {
    /// How far its face is turned from square, radians, positive to the left.
    pub turned: Option<Spread>,
    /// How far its pole's lean moves it to the left, mm.
    pub aside_mm: Option<Spread>,
}

/// The two marks whose join gives a mark's target its direction, by their positions.
pub(super) fn joined_by(step: &MarkStep) -> Option<(usize, usize)> {
    match step.construction {
        Construction::Middle { first, second } => Some((first, second)),
        _ => None,
    }
}

pub(super) fn of(
    arrangement: &Arrangement,
    scene: &Scene,
    budget: &Budget,
    found: &Laid,
    taped: &[Candidate],
    stands: &[(Id, StandGives)],
) -> Vec<Figure> {
    let known = &found.known;
    let is_in_doubt = matches!(found.fit, Fit::MoreThanOne(_));
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
                taped,
                is_in_doubt,
                placement,
                target,
                mark,
                stand,
            };
            Some(
                [asked.direction(), asked.aside(), asked.distance()]
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
    taped: &'a [Candidate],
    /// Whether more than one thing is wrong: what else is, nobody knows.
    is_in_doubt: bool,
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

    /// The same of the direction to a target whose pole leans.
    fn leaning(&self, (off, u): (f64, f64), aside_mm: Option<Spread>) -> (f64, f64) {
        let away = self.target.centre().truncate().distance(self.scene.sensor().truncate());
        let Some(aside) = aside_mm.filter(|_| away > 0.0) else { return (off, u) };
        (off + libm::atan(aside.value / away), libm::hypot(u, aside.u / away))
    }

    /// What one mark that is not found makes of it; anything, where more than one thing does not fit already.
    fn unseen(&self, sought: &Sought) -> f64 {
        if self.is_in_doubt {
            return f64::INFINITY;
        }
        unseen(self.budget, self.taped, sought, &Chances::default()).unwrap_or(f64::INFINITY)
    }

    fn figure(
        &self,
        of: FigureOf,
        sought: Sought,
        [off, u, unseen]: [f64; 3],
        allowed: f64,
    ) -> Option<Figure> {
        let mark = self.scene.marks.get(self.mark)?.id.clone();
        let u95 = K * u;
        let said = match decide(off, u95, allowed, Rule::Guarded) {
            Said::Inside { .. } if unseen > allowed => Said::CannotSay { less_u: None },
            said => said,
        };
        let placement = self.target.id.clone();
        Some(Figure {
            placement,
            of,
            mark,
            off,
            u95,
            allowed,
            unseen,
            said,
            sought,
            per_unit: 1.0,
            squareness_open: false,
            is_guess: self.is_in_doubt,
        })
    }

    /// What its place and its turn make of the aim.
    fn direction(&self) -> Option<Figure> {
        let error = self.placement.target.error;
        let bearing = Sought::Bearing { mark: self.mark, from: self.sensor() };
        let lean = self.stand.and_then(|own| own.aside_mm);
        let by_place =
            if error.by_place > 0.0 { Some(self.leaning(self.off(&bearing)?, lean)) } else { None };
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
        // What they have in common is not told apart: both are taken to go together.
        let mut all = [0.0; 3];
        let by_place_of = by_place.map(|own| (bearing, own));
        for (share, part) in [(error.by_place, by_place_of), (error.by_squareness, by_turn)] {
            let Some((sought, (by, of))) = part else { continue };
            for (sum, own) in all.iter_mut().zip([angle::wrapped(by), of, self.unseen(&sought)]) {
                *sum += share * own;
            }
        }
        // Marks say nothing of what is by its face alone, where no join gives that.
        let sought = match (by_place, by_turn) {
            (None, None) => return None,
            (None, Some((sought, _))) => sought,
            (Some(_), None) => bearing,
            (Some((_, place)), Some((sought, (_, turn)))) => {
                if error.by_place * place < error.by_squareness * turn { sought } else { bearing }
            }
        };
        if let (Some(read), [off, u, _]) = (read.filter(|_| error.by_squareness > 0.0), &mut all) {
            // Two errors are never taken to cancel, nor what they have in common.
            *off += libm::copysign(error.by_squareness * read.value, *off);
            *u += error.by_squareness * read.u;
        }
        let figure = self.figure(FigureOf::Direction, sought, all, allowed)?;
        Some(Figure { squareness_open: open, ..figure })
    }

    fn aside(&self) -> Option<Figure> {
        let allowed = self.placement.tolerance.across_mm?;
        let bearing = Sought::Bearing { mark: self.mark, from: self.sensor() };
        let away = self.budget.places().get(self.mark)?.distance(self.sensor());
        let (off, u) = self.off(&bearing)?;
        let all = [angle::wrapped(off) * away, u * away, self.unseen(&bearing) * away];
        let figure = self.figure(FigureOf::Aside, bearing, all, allowed)?;
        Some(Figure { per_unit: away.recip(), ..figure })
    }

    fn distance(&self) -> Option<Figure> {
        let allowed = self.placement.tolerance.along_mm?;
        let sought = Sought::Distance { mark: self.mark, from: self.sensor() };
        let (off, u) = self.off(&sought)?;
        self.figure(FigureOf::Distance, sought, [off, u, self.unseen(&sought)], allowed)
    }

    /// The sensor from above, vehicle frame.
    fn sensor(&self) -> DVec2 {
        self.scene.bay_from_vehicle.inverse() * self.scene.sensor().truncate()
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
