//! How much a thing sends back beside the target: two discs below the bay, as large as what comes back.

use baywright_planner::customer::{Idea, SendsBack};
use baywright_planner::geometry::DVec2;
use baywright_planner::model::Material;

use crate::lettering::{Lettering, size};
use crate::list::Shape;
use crate::role::Role;
use crate::text::{Align, Weight};
use crate::thing_name::thing_name;
use crate::view::pen::Pen;
use crate::view::{Fit, Shown};

/// How high the strip of the discs is, px before it is enlarged; and the smallest one, so that it is seen.
const STRIP_PX: f64 = 118.0;
const LEAST_PX: f64 = 1.5;
/// From the strip's edges, px.
const GAP_PX: f64 = 5.0;
/// Where the two stand, as shares of the width.
const STAND: [f64; 2] = [0.3, 0.7];

/// How high a strip an idea needs below the bay, px.
pub(super) fn strip(idea: &Idea, lettering: &Lettering<'_>) -> f64 {
    if matches!(idea, Idea::SendsBack(_)) { STRIP_PX * lettering.enlarged() } else { 0.0 }
}

/// A window with so much more paper below what it shows, px.
pub(super) fn over(fit: Fit, strip: f64) -> Fit {
    match fit {
        Fit::Window { size, px_per_mm, middle } => Fit::Window {
            size: size + DVec2::Y * strip,
            px_per_mm,
            middle: middle - DVec2::Y * (0.5 * strip / px_per_mm),
        },
        other => other,
    }
}

/// The radii of the target's disc and of the thing's: discs whose areas are as what comes back, the larger one so large.
fn radii(level_db: f64, largest: f64) -> [f64; 2] {
    let ratio = libm::pow(10.0, level_db / 20.0);
    let [target, thing] = if ratio > 1.0 { [1.0 / ratio, 1.0] } else { [1.0, ratio] };
    [target, thing].map(|own| (own * largest).max(LEAST_PX))
}

/// The discs with their names.
pub(super) fn draw(pen: &mut Pen<'_>, own: &SendsBack, shown: &Shown<'_>) {
    let strip = STRIP_PX * pen.enlarged;
    let (style, soft) = (pen.style(size::LABEL, Weight::SemiBold), pen.style(size::SMALL, Weight::Regular));
    let (low, high) = (pen.window.low, pen.window.high);
    let top = high.y - strip;
    let over = shown.words.locale().language.customer().sent_back_over;
    let at = pen.mm(DVec2::new(low.x + (high.x - low.x) * 0.5, top + GAP_PX + soft.line_height() * 0.5));
    let text = pen.text(at, over, soft, Align::Middle);
    pen.put_text(Role::LabelSoft, None, text);
    let (from, to) = (top + 2.0 * GAP_PX + soft.line_height(), high.y - 2.0 * GAP_PX - style.line_height());
    let (middle, largest) = ((from + to) * 0.5, ((to - from) * 0.5).max(LEAST_PX));
    let thing = shown.arrangement.bay.things.iter().find(|thing| thing.id == own.thing);
    let material = thing.map_or(Material::Unknown, |thing| thing.material);
    let name = thing.and_then(|thing| thing_name(shown.arrangement, &shown.words, thing));
    let kind =
        shown.arrangement.aiming.placements.first().map(|own| shown.words.target_label(own.target.kind));
    let [of_target, of_thing] = radii(own.level_db, largest);
    let both = [
        (of_target, Role::Target, kind.unwrap_or_default()),
        (of_thing, Role::Thing(material), name.as_deref().unwrap_or_default()),
    ];
    for (share, (radius, role, name)) in STAND.into_iter().zip(both) {
        let x = low.x + (high.x - low.x) * share;
        let (centre, radius) = (pen.mm(DVec2::new(x, middle)), pen.length(radius));
        pen.push(role, None, Shape::Disc { centre, radius });
        let at = pen.mm(DVec2::new(x, high.y - GAP_PX - style.line_height() * 0.5));
        let text = pen.text(at, name, style, Align::Middle);
        pen.put_text(Role::Label, None, text);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Eight times as much (9.03 dB) is a disc of eight times the area; a fourth (-6.02 dB) of a fourth.
    #[test]
    fn areas_are_as_what_comes_back() {
        let [target, thing] = radii(10.0 * 8.0_f64.log10(), 40.0);
        assert!(thing == 40.0 && ((thing / target).powi(2) - 8.0).abs() < 1e-9, "{target} {thing}");
        let [target, thing] = radii(10.0 * 0.25_f64.log10(), 40.0);
        assert!(target == 40.0 && ((thing / target).powi(2) - 0.25).abs() < 1e-9, "{target} {thing}");
        assert_eq!(radii(f64::NEG_INFINITY, 40.0), [40.0, LEAST_PX]);
    }
}
