//! Whether the readings fit, and if one does not, which; or that this cannot be told.

use super::Adjusted;
use crate::chances::{chi_squared_beyond, found_from, normal_beyond, tau_beyond};

/// By what readings are judged.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rules {
    /// How often a good reading may be called bad: 0.001, by Baarda.
    pub chance: f64,
    /// How often a blunder of the least size is to be found: 0.8, by Baarda.
    pub power: f64,
    /// Whether the uncertainties are only known up to a common factor, which the residuals themselves then give: Pope's τ in
    /// place of w.
    pub factor_is_sought: bool,
    /// Two readings are told apart if that the other one is wrong would come out so seldom: one side, 0.05.
    pub apart_chance: f64,
}

impl Default for Rules {
    fn default() -> Self {
        Self { chance: 0.001, power: 0.8, factor_is_sought: false, apart_chance: 0.05 }
    }
}

/// A reading that may be wrong.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Doubt {
    /// Which one, by its position.
    pub taped: usize,
    /// By how much it reads too long, mm, as far as the others tell; negative too short.
    pub reads_long_mm: f64,
    /// Standard uncertainty of that, mm.
    pub u_mm: f64,
}

/// What there is to say.
#[derive(Clone, Debug, PartialEq)]
pub enum Verdict {
    /// Nothing is taped more often than needed: no reading is checked.
    Unchecked,
    /// No reading is out of what its uncertainty allows.
    Fits,
    /// This one is, and no other explains it as well.
    OneDoesNotFit(Doubt),
    /// Some are, and any of these explains it: the likeliest first.
    CannotTell(Vec<Doubt>),
}

/// The readings, judged.
#[derive(Clone, Debug, PartialEq)]
pub struct Judged {
    /// What there is to say.
    pub verdict: Verdict,
    /// Each reading's test figure, w or τ; `None` where nothing checks it.
    pub tests: Vec<Option<f64>>,
    /// What no test figure may be beyond.
    pub limit: f64,
    /// The least blunder of each reading that is found as often as `power` says, mm; `None` where none is.
    pub found_from_mm: Vec<Option<f64>>,
    /// Whether all residuals together are as large as the uncertainties say (χ², 5 %); not asked where the factor is sought.
    pub is_as_stated: bool,
}

/// Judges the readings of a network, one blunder at a time.
pub fn judge(adjusted: &Adjusted, rules: &Rules) -> Judged {
    let freedom = adjusted.freedom as f64;
    // With a sum of nothing all test figures are nothing.
    let factor =
        if rules.factor_is_sought { adjusted.factor().unwrap_or(1.0).max(f64::MIN_POSITIVE) } else { 1.0 };
    let limit =
        if rules.factor_is_sought { tau_beyond(rules.chance, freedom) } else { normal_beyond(rules.chance) };
    let tests: Vec<Option<f64>> =
        adjusted.residuals.iter().map(|residual| residual.w.map(|w| w / factor)).collect();
    let off = found_from(rules.chance, rules.power);
    let found_from_mm = adjusted
        .residuals
        .iter()
        .map(|residual| (residual.shows_per_mm > 0.0).then(|| off * factor / residual.shows_per_mm));
    let is_as_stated =
        rules.factor_is_sought || freedom == 0.0 || adjusted.chi_squared <= chi_squared_beyond(0.05, freedom);
    Judged {
        verdict: verdict(adjusted, rules, &tests, (limit, factor)),
        found_from_mm: found_from_mm.collect(),
        tests,
        limit,
        is_as_stated,
    }
}

fn verdict(
    adjusted: &Adjusted,
    rules: &Rules,
    tests: &[Option<f64>],
    (limit, factor): (f64, f64),
) -> Verdict {
    let mut by_size: Vec<(usize, f64)> =
        tests.iter().enumerate().filter_map(|(taped, test)| Some((taped, test.as_ref()?.abs()))).collect();
    by_size.sort_by(|a, b| b.1.total_cmp(&a.1).then(a.0.cmp(&b.0)));
    let Some((first, most)) = by_size.first().copied() else { return Verdict::Unchecked };
    // τ with one degree of freedom is 1 whatever was read: only what is beyond stands out.
    if most <= limit || limit.is_nan() {
        return Verdict::Fits;
    }
    let doubt = |taped: usize| {
        let residual = adjusted.residuals.get(taped);
        let (shows, w) = residual.map_or((1.0, 0.0), |r| (r.shows_per_mm, r.w.unwrap_or_default()));
        Doubt { taped, reads_long_mm: -w / shows, u_mm: factor / shows }
    };
    // If the first one is wrong, another's figure falls short of its by a normal figure of this spread.
    let apart = normal_beyond((2.0 * rules.apart_chance).min(1.0 - 1e-12));
    let as_well = by_size.iter().filter(|(taped, test)| {
        let together = adjusted.test_correlation.at(first, *taped).abs().min(1.0);
        *taped != first && most - test <= apart * (2.0 * (1.0 - together)).sqrt() + 1e-6 * most
    });
    let as_well: Vec<usize> = as_well.map(|(taped, _)| *taped).collect();
    if as_well.is_empty() {
        Verdict::OneDoesNotFit(doubt(first))
    } else {
        Verdict::CannotTell(std::iter::once(first).chain(as_well).map(doubt).collect())
    }
}
