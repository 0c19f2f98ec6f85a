//! What a mark plan is good for before it is laid: how surely target and marks will be where they are meant, from the shop's
//! instruments, by the law of propagation, with all that is common to several marks kept common.
//!
//! A step goes wrong in its own two directions, along and across what is measured; the wheels' points, their camber and the tape's
//! scale are one input each, whichever steps they enter. All is in the vehicle frame, from above: mm, radians, standard
//! uncertainties.
//! What each step's error is made of is common practice, no source.

mod errors;
mod instruments;
mod side_by_side;
mod sought;
pub mod target;

use baywright_geometry::marks::{Construction, Givens, MarkFault, lay};
use baywright_geometry::{DVec2, angle};

use crate::input::Input;
use crate::matrix::{Matrix, dot};
use crate::propagate::{Outcome, outcome, propagate_all};

use errors::Errors;
pub use errors::Origin;
pub use instruments::{CheckTape, Instruments, STEEL_PER_K, Tape};
pub use side_by_side::DrawnPlan;
pub use sought::Sought;

/// So many steps a plan may have.
pub const MOST_STEPS: usize = 100;

/// A mark plan and what may go wrong with it.
#[derive(Clone, Debug)]
pub struct Budget {
    givens: Givens,
    errors: Errors,
    places: Vec<DVec2>,
    expected: Vec<DVec2>,
    follows: Matrix,
    covariance: Matrix,
    check_tapes: Vec<CheckTape>,
}

/// Why there is no budget.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum BudgetFault {
    /// A mark cannot be found.
    NoMark {
        /// Which one.
        mark: usize,
        /// Why.
        fault: MarkFault,
    },
    /// An instrument's figure is no number or negative.
    NoFigure,
    /// A mark could not be found if something were off by its uncertainty: two lines that hardly cross, tapes that hardly meet.
    TooUnsure,
    /// More than [`MOST_STEPS`].
    TooMany,
}

/// What one input adds, and where it comes from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cost {
    /// Where it comes from.
    pub origin: Origin,
    /// What it adds to the sought figure, with its sign, in the sought figure's unit.
    pub u: f64,
    /// Its share of the variance.
    pub share: f64,
}

impl Budget {
    /// The budget of a plan.
    ///
    /// # Errors
    /// Why there is none.
    ///
    /// The line through the rear and the front wheel on each side, prolonged by 3.6 m, and their middle: wheels found to 1 mm
    /// sideways and nothing else off make it 1.976 mm unsure, 0.0400° from a sensor 2.83 m away.
    ///
    /// ```
    /// use baywright_geometry::{DVec2, marks::{Construction, Givens, Reach, Wheel}};
    /// use baywright_survey::budget::*;
    /// let wheels = [(0., 780.), (0., -780.), (-2550., 780.), (-2550., -780.)].map(DVec2::from);
    /// let givens = Givens::new(wheels, DVec2::X, [205.0; 4], vec![], vec![]).unwrap();
    /// let wheel = |wheel| Construction::WheelPoint { wheel };
    /// let ahead = |from, through| Construction::Prolong { from, through, reach: Reach::Length(3600.0) };
    /// let mut plan: Vec<Construction> = Wheel::ALL.map(wheel).to_vec();
    /// plan.extend([ahead(2, 0), ahead(3, 1), Construction::Middle { first: 4, second: 5 }]);
    /// let shop = Instruments { wheel_aside_mm: 1.0, ..Instruments::PERFECT };
    /// let budget = Budget::of(&plan, &givens, &shop).unwrap();
    /// assert!((budget.ellipse(6).unwrap().long_mm - 1.976).abs() < 5e-4);
    /// let seen = budget.outcome(&Sought::Bearing { mark: 6, from: (770.0, 0.0).into() }).unwrap();
    /// assert!((seen.u.to_degrees() - 0.0400).abs() < 5e-5);
    /// ```
    pub fn of(plan: &[Construction], givens: &Givens, shop: &Instruments) -> Result<Self, BudgetFault> {
        Self::of_cambered(plan, givens, shop, &[None; 4])
    }

    /// The same for a car whose cambers are known, of each wheel in [`Wheel::ALL`]'s order with its standard uncertainty, radians,
    /// positive with the top outwards; of a wheel of which nothing is known it is 0 as well as `shop` knows it. A mark under a
    /// wheel is plumbed from its hub: it comes to lie R·sin γ outboard of the tyre's middle, where it is meant, and what is built
    /// from it lies off accordingly ([`Budget::expected`]).
    ///
    /// # Errors
    /// Why there is none.
    ///
    /// Cambers of 2° left and 1° right in front and at the rear, R 310: the middle between the wheels is shifted by 2.70 mm to the
    /// left, and so is what lies ahead of it.
    ///
    /// ```
    /// use baywright_geometry::{DVec2, marks::{Construction, Givens, Reach, Wheel}};
    /// use baywright_survey::budget::*;
    /// let wheels = [(0., 780.), (0., -780.), (-2550., 780.), (-2550., -780.)].map(DVec2::from);
    /// let givens = Givens::new(wheels, DVec2::X, [205.0; 4], vec![], vec![]).unwrap();
    /// let wheel = |wheel| Construction::WheelPoint { wheel };
    /// let ahead = |from, through| Construction::Prolong { from, through, reach: Reach::Length(3600.0) };
    /// let mut plan: Vec<Construction> = Wheel::ALL.map(wheel).to_vec();
    /// plan.extend([ahead(2, 0), ahead(3, 1), Construction::Middle { first: 4, second: 5 }]);
    /// let shop = Instruments { camber_rad: 0.003, ..Instruments::PERFECT };
    /// let [left, right] = [2.0_f64, 1.0].map(|own| Some((own.to_radians(), 0.0005)));
    /// let budget = Budget::of_cambered(&plan, &givens, &shop, &[left, right, left, right]).unwrap();
    /// assert!((budget.expected()[6].y - 2.70).abs() < 0.005 && budget.places()[6].y.abs() < 1e-9);
    /// // It is known: what is left of it is smaller than where nothing was.
    /// let unknown = Budget::of(&plan, &givens, &shop).unwrap();
    /// assert!(budget.ellipse(6).unwrap().long_mm < 0.2 * unknown.ellipse(6).unwrap().long_mm);
    /// ```
    pub fn of_cambered(
        plan: &[Construction],
        givens: &Givens,
        shop: &Instruments,
        cambers: &[Option<(f64, f64)>; 4],
    ) -> Result<Self, BudgetFault> {
        if plan.len() > MOST_STEPS {
            return Err(BudgetFault::TooMany);
        }
        let known = |(is, u): &(f64, f64)| is.abs() < 1.0 && (0.0..f64::INFINITY).contains(u);
        if !shop.is_sound() || !cambers.iter().flatten().all(known) {
            return Err(BudgetFault::NoFigure);
        }
        let mut places = Vec::with_capacity(plan.len());
        for (mark, place) in lay(plan, givens).into_iter().enumerate() {
            places.push(place.map_err(|fault| BudgetFault::NoMark { mark, fault })?);
        }
        let errors = Errors::of(plan, &places, shop, cambers);
        let flat = |off: &[f64]| {
            let mut laid = Vec::with_capacity(plan.len());
            errors.lay(givens, off, &mut laid);
            (0..plan.len()).flat_map(|mark| among(&laid, mark).to_array()).collect::<Vec<f64>>()
        };
        let found = propagate_all(flat, errors.inputs(), &[]).ok_or(BudgetFault::TooUnsure)?;
        let (follows, covariance) = (found.follows, found.covariance);
        let mut laid = Vec::with_capacity(plan.len());
        let means: Vec<f64> = errors.inputs().iter().map(|own| own.at).collect();
        errors.lay(givens, &means, &mut laid);
        let expected: Vec<DVec2> = (0..plan.len()).map(|mark| among(&laid, mark)).collect();
        let check_tapes = Vec::new();
        Ok(Self { givens: givens.clone(), errors, places, expected, follows, covariance, check_tapes })
    }

    /// The same plan, its marks checked with these tapes too. `None` if a figure of theirs is no number or negative.
    pub fn checked_with(self, check_tapes: Vec<CheckTape>) -> Option<Self> {
        let is_sound = |own: &CheckTape| {
            [own.scale, own.warmth].iter().all(|figure| (0.0..f64::INFINITY).contains(figure))
        };
        check_tapes.iter().all(is_sound).then_some(Self { check_tapes, ..self })
    }

    /// The tapes that its marks are checked with, besides the one that they are laid with.
    pub fn check_tapes(&self) -> &[CheckTape] {
        &self.check_tapes
    }

    /// Where the marks are meant to be.
    pub fn places(&self) -> &[DVec2] {
        &self.places
    }

    /// Where they come to lie as far as that is known beforehand: beside that place where hubs are plumbed whose camber is known.
    pub fn expected(&self) -> &[DVec2] {
        &self.expected
    }

    /// What may be off: the inputs, in their order.
    pub fn inputs(&self) -> &[Input] {
        self.errors.inputs()
    }

    /// Where each input comes from.
    pub fn origins(&self) -> &[Origin] {
        self.errors.origins()
    }

    /// How x and y of each mark in turn (rows) follow the inputs (columns).
    pub const fn follows(&self) -> &Matrix {
        &self.follows
    }

    /// The covariance of x and y of each mark in turn, mm².
    pub const fn covariance(&self) -> &Matrix {
        &self.covariance
    }

    /// The same with the tape's common scale as its last row, a ratio.
    pub fn with_scale(&self) -> Matrix {
        let size = 2 * self.places.len();
        let variance = |nth: usize| match (self.origins().get(nth), self.inputs().get(nth)) {
            (Some(origin), Some(input)) if origin.is_scale() => input.u * input.u,
            _ => 0.0,
        };
        let own: Vec<f64> = (0..self.inputs().len()).map(variance).collect();
        let with = |row: usize| dot(self.follows.row(row), &own);
        Matrix::of(size + 1, size + 1, |row, column| match (row == size, column == size) {
            (false, false) => self.covariance.at(row, column),
            (true, true) => own.iter().sum(),
            (true, false) => with(column),
            (false, true) => with(row),
        })
    }

    /// The same with the scales of the tapes that the marks are checked with after it ([`Budget::checked_with`]).
    pub(crate) fn with_scales(&self) -> Matrix {
        let laid = self.with_scale();
        let first = laid.rows();
        let size = first + self.check_tapes.len();
        // What of the scale is the tape's own, whatever its warmth, as each row follows it.
        let own = |nth: usize| match (self.origins().get(nth), self.inputs().get(nth)) {
            (Some(Origin::TapeScale), Some(input)) => input.u * input.u,
            _ => 0.0,
        };
        let own: Vec<f64> = (0..self.inputs().len()).map(own).collect();
        let variance: f64 = own.iter().sum();
        let with_own =
            |row: usize| if row + 1 == first { variance } else { dot(self.follows.row(row), &own) };
        let check = |at: usize| at.checked_sub(first).and_then(|nth| self.check_tapes.get(nth));
        let scale = |own: &CheckTape| if own.is == 0 { variance } else { own.scale * own.scale };
        Matrix::of(size, size, |row, column| match (check(row), check(column)) {
            (None, None) => laid.at(row, column),
            (Some(own), None) => {
                if own.is == 0 {
                    with_own(column)
                } else {
                    0.0
                }
            }
            (None, Some(own)) => {
                if own.is == 0 {
                    with_own(row)
                } else {
                    0.0
                }
            }
            (Some(own), Some(_)) if row == column => scale(own) + own.warmth * own.warmth,
            (Some(one), Some(other)) => {
                if one.is == other.is {
                    scale(one).min(scale(other))
                } else {
                    0.0
                }
            }
        })
    }

    /// A mark's ellipse of one standard uncertainty; `None` if there is no such mark.
    pub fn ellipse(&self, mark: usize) -> Option<crate::network::Ellipse> {
        (mark < self.places.len()).then(|| {
            let cell = |a, b| self.covariance.at(2 * mark + a, 2 * mark + b);
            crate::network::Ellipse::of(cell(0, 0), cell(0, 1), cell(1, 1))
        })
    }

    /// How far apart two layings of a mark by its own step come to lie, from the same marks before it, with the wheel's point found
    /// anew: standard, mm, of the larger way. What both have in common (the tape's scale and warmth, the camber) is left out. `None`
    /// if there is no such mark; nothing where its step goes wrong by nothing.
    pub fn apart_u_mm(&self, mark: usize) -> Option<f64> {
        let (_, moved) = self.errors.steps().nth(mark)?;
        let (mut xx, mut xy, mut yy) = (0.0, 0.0, 0.0);
        for own in moved
            .iter()
            .filter(|own| !matches!(self.origins().get(own.input), None | Some(Origin::Camber(_))))
        {
            let by = own.by * self.inputs().get(own.input).map_or(0.0, |input| input.u);
            (xx, xy, yy) = (xx + by.x * by.x, xy + by.x * by.y, yy + by.y * by.y);
        }
        Some(crate::network::Ellipse::of(xx, xy, yy).long_mm * std::f64::consts::SQRT_2)
    }

    /// What is sought, with its uncertainty and what each input adds. `None` if it names a mark that is not there, or has no value.
    pub fn outcome(&self, sought: &Sought) -> Option<Outcome> {
        let (value, slope) = sought.of(&self.expected)?;
        let sensitivities = self.follows.transposed().times_column(&slope);
        Some(outcome(value, &sensitivities, self.inputs(), &[]))
    }

    /// What each input costs, the dearest first.
    pub fn costs(&self, sought: &Sought) -> Option<Vec<Cost>> {
        let outcome = self.outcome(sought)?;
        let parts = outcome.parts.iter().zip(self.origins());
        let mut all: Vec<Cost> =
            parts.map(|(part, origin)| Cost { origin: *origin, u: part.u, share: part.share }).collect();
        all.sort_by(|a, b| b.share.total_cmp(&a.share).then(a.origin.cmp(&b.origin)));
        Some(all)
    }

    /// What is sought by what the inputs are off, without the linear law: a model to draw from, one for each thread. No number if a
    /// mark that it is built on could not be found.
    pub fn drawn(&self, sought: &Sought) -> DrawnPlan<'_> {
        DrawnPlan::of(&self.errors, &self.givens, &self.places, sought)
    }

    /// Where the marks come to lie if the inputs are off by these: up to the first that cannot be found.
    pub fn laid(&self, off: &[f64]) -> Vec<DVec2> {
        let mut laid = Vec::with_capacity(self.places.len());
        self.errors.lay(&self.givens, off, &mut laid);
        laid.into_iter().map_while(Result::ok).collect()
    }
}

fn among(laid: &[Result<DVec2, MarkFault>], mark: usize) -> DVec2 {
    laid.get(mark).and_then(|place| place.ok()).unwrap_or(DVec2::NAN)
}

/// How far a steel tape is out over a length, mm, away from the temperature at which it is true.
///
/// 5 m, 15 K, 11.5 ppm:
///
/// ```
/// assert!((baywright_survey::budget::warmth_mm(5000.0, 15.0, 11.5e-6) - 0.86).abs() < 0.005);
/// ```
pub fn warmth_mm(length_mm: f64, off_k: f64, per_k: f64) -> f64 {
    length_mm * off_k * per_k
}

/// The unit vector along a line, or along x where there is none.
fn along(from: DVec2, to: DVec2) -> DVec2 {
    (to - from).try_normalize().unwrap_or_else(|| angle::direction(0.0))
}
