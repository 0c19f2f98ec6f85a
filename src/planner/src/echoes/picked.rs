//! Which echo a routine would take: makers do not say by which rule theirs does, so that each rule is asked.

use baywright_radar::resolve::{Candidate, Gate, Picked, Rule, Spot, pick};

use super::own::OwnEcho;
use super::{Does, Echo, Look};
use crate::model::Arrangement;

/// A routine that takes the nearest minds what is no weaker than this against its target, dB: common practice, no source.
const NEAREST_FROM_DB: f64 = -10.0;

/// What the routines of each rule may take.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Takes {
    /// One that takes the strongest.
    pub strongest: May,
    /// One that takes the nearest of those that are not much weaker than the target.
    pub nearest: May,
}

/// What one routine may take.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct May {
    /// Whether the target, or what lies in its own direction within the aim's limits.
    pub target: bool,
    /// Echoes that lead elsewhere, by their positions, the strongest first.
    pub echoes: Vec<usize>,
}

impl Look<'_> {
    /// By each rule, of all that is heard within the sensor's field of view, whatever its distance.
    pub(super) fn takes(&self, arrangement: &Arrangement, own: &OwnEcho, echoes: &[Echo]) -> Takes {
        let view = arrangement.sensor.view;
        let gate = Gate {
            near_mm: 0.0,
            far_mm: f64::MAX,
            aside: view.azimuth_half_rad,
            up: view.elevation_half_rad,
        };
        let target = Spot { range_mm: own.range_mm, bearing: own.bearing };
        let candidates = echoes.iter().map(|echo| Candidate {
            spot: Spot { range_mm: echo.heard.range_mm, bearing: echo.heard.bearing },
            level_db: echo.heard.level_db,
        });
        let candidates: Vec<Candidate> = candidates.collect();
        let by = |rule: Rule| {
            let mut may = May::default();
            for picked in pick(rule, &target, &candidates, &gate, self.sensor).may {
                match picked {
                    Picked::Echo(nth)
                        if echoes.get(nth).is_some_and(|own| own.heard.does != Does::InLine) =>
                    {
                        may.echoes.push(nth);
                    }
                    Picked::Target | Picked::Echo(_) => may.target = true,
                }
            }
            may
        };
        Takes { strongest: by(Rule::Strongest), nearest: by(Rule::Nearest { from_db: NEAREST_FROM_DB }) }
    }
}
