//! What the checks of a mark that stays say of it: where each puts it, and how far it drifted.

use baywright_geometry::DVec2;
use baywright_survey::network::Ellipse;
use jiff::civil::Date;

use crate::model::{
    Bay, CheckFrom, CheckedAt, Instrument, InstrumentFigure, MarkCheck, PermanentMark, Shop, checked_at,
    named,
};

/// A plane's figures stay within so many standard uncertainties with 95 %: the root of χ² with two degrees of freedom, √5.991.
const K_OF_PLANE: f64 = 2.447_746_83;

/// How far a mark went from one check to another.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Drift {
    /// From this check.
    pub from: Date,
    /// To this one.
    pub to: Date,
    /// How far and which way, bay frame, mm.
    pub by: DVec2,
    /// By how much two checks of a mark that did not move may differ in 95 of 100 cases, the way in which that is most, mm.
    pub u95_mm: f64,
}

/// A mark's checks in the order of their days, each with where it puts the mark.
pub fn checks<'a>(bay: &Bay, mark: &'a PermanentMark) -> Vec<(&'a MarkCheck, Option<CheckedAt>)> {
    let mut all: Vec<_> = mark.checks.iter().map(|own| (own, checked_at(bay, mark, own))).collect();
    all.sort_by_key(|(own, _)| own.on);
    all
}

/// How far a mark went from its earlier checks to its last one: of those checked from the same things the one that is furthest
/// beyond what the readings allow for. `None` with fewer than two such.
pub fn drift(bay: &Bay, mark: &PermanentMark, shop: &Shop, instruments: &[Instrument]) -> Option<Drift> {
    let all = checks(bay, mark);
    let ((last, now), before) = all.split_last()?;
    let now = (*now)?;
    let beyond = |own: &Drift| own.by.length() - own.u95_mm;
    before
        .iter()
        .filter(|(own, _)| from(own) == from(last))
        .filter_map(|(own, then)| {
            let spread =
                |check: &MarkCheck, at: &CheckedAt| covariance(at, reading(check, shop, instruments));
            let then = (*then)?;
            let [a, b] = [spread(own, &then), spread(last, &now)];
            let ellipse = Ellipse::of(a[0] + b[0], a[1] + b[1], a[2] + b[2]);
            let u95_mm = ellipse.long_mm * K_OF_PLANE;
            Some(Drift { from: own.on, to: last.on, by: now.at - then.at, u95_mm })
        })
        .max_by(|a, b| beyond(a).total_cmp(&beyond(b)))
}

/// Within what of the place that a check gives a mark lies in 95 of 100 cases by the readings alone, the way in which that is most, mm.
pub(crate) fn spread_mm(check: &MarkCheck, at: &CheckedAt, shop: &Shop, instruments: &[Instrument]) -> f64 {
    let [xx, xy, yy] = covariance(at, reading(check, shop, instruments));
    Ellipse::of(xx, xy, yy).long_mm * K_OF_PLANE
}

/// What a check was measured from.
fn from(check: &MarkCheck) -> [&CheckFrom; 2] {
    check.read.each_ref().map(|own| &own.from)
}

/// Of one reading of a check, standard, mm.
fn reading(check: &MarkCheck, shop: &Shop, instruments: &[Instrument]) -> f64 {
    let own = check.with.as_ref().and_then(|name| named(instruments, name));
    let half = own.map_or(shop.tape_read_mm, |own| own.counts(InstrumentFigure::Reading, shop));
    half / 3.0_f64.sqrt()
}

/// Of where it puts the mark: xx, xy, yy, mm². The distances grow along two directions: the place follows their inverse.
fn covariance(at: &CheckedAt, u: f64) -> [f64; 3] {
    let [n, m] = at.grows;
    let sine = n.perp_dot(m);
    // A millimetre more of the first distance alone goes along the second one's line.
    let (first, second) = (-m.perp() / sine, n.perp() / sine);
    let sum = |a: DVec2, b: DVec2| u * u * (a.x * b.x + a.y * b.y);
    let (x, y) = (DVec2::new(first.x, second.x), DVec2::new(first.y, second.y));
    [sum(x, x), sum(x, y), sum(y, y)]
}

#[cfg(test)]
mod tests {
    use super::*;
    use baywright_geometry::angle;

    /// Two distances that cross under an angle γ: the semi-axes follow u/sin γ · √(1 ± cos γ) (plane trigonometry, by hand).
    #[test]
    fn flat_crossings_know_less() {
        for degrees in [90.0_f64, 60.0, 30.0, 10.0] {
            let gamma = angle::radians(degrees);
            let at = CheckedAt { at: DVec2::ZERO, grows: [DVec2::X, angle::direction(gamma)] };
            let [xx, xy, yy] = covariance(&at, 0.5);
            let own = Ellipse::of(xx, xy, yy);
            let (sin, cos) = libm::sincos(gamma);
            let long = 0.5 / sin * (1.0 + cos).sqrt();
            assert!((own.long_mm - long).abs() < 1e-9, "{degrees}");
        }
    }
}
