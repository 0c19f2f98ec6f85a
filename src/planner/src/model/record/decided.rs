//! A figure that was decided, with all that the decision follows from.

use baywright_survey::decide::{Rule, Said, decide};

use super::super::Id;

/// Which figure of a target.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ProvenFigure {
    /// The direction in which the sensor is aimed by it: degrees, positive to the car's left.
    Direction,
    /// How far it is from the sensor: mm, positive: further.
    Distance,
    /// How far it is aside of its place: mm, positive: to the car's left.
    Aside,
    /// How far its face is turned by the marks that give it: degrees, positive to the car's left.
    Turn,
}

impl ProvenFigure {
    /// Whether it is in degrees; else in millimetres.
    pub const fn is_angle(self) -> bool {
        matches!(self, Self::Direction | Self::Turn)
    }
}

/// What a figure comes to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Decision {
    /// All of the 95 % interval is within what is allowed, and no single mark beside its place could put it out unseen.
    Inside,
    /// None of the interval is.
    Outside,
    /// Neither.
    CannotSay,
}

/// By which rule.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum DecisionRule {
    /// Guarded acceptance with the guard band U (JCGM 106, 8.3.2): inside when |b| + U ≤ T, outside when |b| − U > T.
    #[default]
    GuardedAcceptance,
}

/// A figure of a target as it was decided. Figures stand as they are written, in the unit that [`ProvenFigure`] says, so that the decision
/// follows from what is read.
#[derive(Clone, Debug, PartialEq)]
pub struct Decided {
    /// Of which aiming.
    pub aiming: Id,
    /// Of which of its placements.
    pub placement: Id,
    /// Which figure.
    pub of: ProvenFigure,
    /// How far off.
    pub off: f64,
    /// Its expanded uncertainty, 95 %, not negative.
    pub u95: f64,
    /// How far off it may be, either way.
    pub allowed: f64,
    /// How far off it may be by one mark beside its place that what was taped would not show; `None`: there is no end to it, since
    /// nothing checks a mark.
    pub unseen: Option<f64>,
    /// How many distances were taped for it.
    pub taped: usize,
    /// What it comes to.
    pub decision: Decision,
    /// By which rule.
    pub rule: DecisionRule,
}

/// Figures are compared as files hold them, to a millionth of their unit: then a sum that is exactly what is allowed is so in both.
const STEPS: f64 = 1e6;

impl Decided {
    /// What follows from its own figures; `None` if they make no sense (no number, or a negative uncertainty or allowance).
    pub fn follows(&self) -> Option<Decision> {
        let [off, u95, allowed] = [self.off, self.u95, self.allowed].map(|own| (own * STEPS).round());
        let is_unseen = self.unseen.is_none_or(|own| (own * STEPS).round() > allowed);
        let DecisionRule::GuardedAcceptance = self.rule;
        match decide(off, u95, allowed, Rule::Guarded) {
            Said::Inside { .. } if is_unseen => Some(Decision::CannotSay),
            Said::Inside { .. } => Some(Decision::Inside),
            Said::Outside { .. } => Some(Decision::Outside),
            Said::CannotSay { .. } => Some(Decision::CannotSay),
            Said::NoFigure => None,
        }
    }

    /// |b| + U against T: what is left of the allowance, negative if it is beyond; in its own unit.
    pub fn to_spare(&self) -> f64 {
        self.allowed - self.off.abs() - self.u95
    }
}
