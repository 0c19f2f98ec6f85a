//! The floor under the axis as it was surveyed, from its lowest place up, many times as high as it is, with the factor.

use baywright_planner::geometry::DVec2;

use super::{Side, under_floor};
use crate::lettering::size;
use crate::role::Role;
use crate::text::{Align, Weight};
use crate::view::contours::times_higher;
use crate::view::pen::Pen;
use crate::view::space::FIRM;

/// From level to level along the axis, mm, and px at least.
const STEP_MM: f64 = 100.0;
const STEP_PX: f64 = 2.0;
/// Between a place of the line and its figure, px.
const OFF_PX: f64 = 11.0;
/// No more places are asked about.
const MOST_STEPS: usize = 2_000;

/// The stretches along the axis whose levels are known: along it and how high, mm.
fn stretches(side: &Side<'_>, step: f64) -> Vec<Vec<DVec2>> {
    let Some(survey) = side.arrangement.bay.survey.as_ref() else { return Vec::new() };
    let (from, to) = side.room;
    let steps = (((to - from) / step).ceil().max(0.0) as usize).min(MOST_STEPS);
    let mut all = vec![Vec::new()];
    for nth in 0..=steps {
        let along = (from + nth as f64 * step).min(to);
        match (survey.points.at(side.bay_from_axis * DVec2::new(along, 0.0)), all.last_mut()) {
            (Some(level), Some(own)) => own.push(DVec2::new(along, level.level_mm)),
            (None, Some(own)) if !own.is_empty() => all.push(Vec::new()),
            _ => {}
        }
    }
    all.retain(|own| own.len() > 1);
    all
}

/// The line.
pub(super) fn line(pen: &mut Pen<'_>, side: &Side<'_>) {
    let Drawn { times, lowest, stretches } = drawn(pen, side);
    for stretch in stretches {
        let higher = stretch.into_iter().map(|p| DVec2::new(p.x, (p.y - lowest) * times as f64));
        pen.line(Role::Profile, None, higher.collect());
    }
}

/// The factor, and the highest and the lowest level, where they cover nothing that is read.
pub(super) fn figures(pen: &mut Pen<'_>, side: &Side<'_>) {
    let Drawn { times, lowest, stretches } = drawn(pen, side);
    let style = pen.style(size::SMALL, Weight::SemiBold);
    let by = |a: &&DVec2, b: &&DVec2| a.y.total_cmp(&b.y).then(b.x.total_cmp(&a.x));
    let flat = || stretches.iter().flatten();
    let (Some(&low), Some(&high)) = (flat().min_by(by), flat().max_by(by)) else { return };
    let higher = |p: DVec2| DVec2::new(p.x, (p.y - lowest) * times as f64);
    let ends = if low.y < high.y { vec![high, low] } else { vec![high] };
    for end in ends {
        let text = pen.measured(&side.words.locale().signed_tenths(end.y), style);
        let at = pen.px(higher(end));
        let off = OFF_PX * pen.enlarged;
        let places = [
            (0.0, -off, Align::Middle),
            (1.0, off, Align::Middle),
            (2.0, -off, Align::Start),
            (2.0, -off, Align::End),
        ];
        let places = places.map(|(extra, by, align)| (extra, at + DVec2::Y * by, align));
        put(pen, text, style, places.to_vec());
    }
    let text = pen.measured(&side.words.locale().language.ground().profile(times), style);
    let line = style.line_height();
    let under = under_floor(pen) + line;
    let places = flat().step_by(flat().count().div_ceil(12).max(1)).map(|p| pen.px(*p).x);
    let places: Vec<_> = places
        .flat_map(|x| [0.0, 1.0].map(|row| (row, DVec2::new(x, under + row * line), Align::Start)))
        .collect();
    put(pen, text, style, places);
}

fn put(
    pen: &mut Pen<'_>,
    text: crate::text::Fitted,
    style: crate::text::TextStyle,
    places: Vec<(f64, DVec2, Align)>,
) {
    let best = pen.cheapest(text.width, style, places.into_iter());
    if let Some((_, at, align)) = best.filter(|(cost, ..)| *cost < FIRM) {
        pen.put_level(Role::LabelSoft, None, text, style, (at, align));
    }
}

/// What is drawn: so many times as high, from this level up, mm.
struct Drawn {
    times: usize,
    lowest: f64,
    stretches: Vec<Vec<DVec2>>,
}

fn drawn(pen: &Pen<'_>, side: &Side<'_>) -> Drawn {
    let step = STEP_MM.max(pen.length(STEP_PX));
    let stretches = if side.state.contours { stretches(side, step) } else { Vec::new() };
    let all = || stretches.iter().flatten().map(|p| p.y);
    let (lowest, highest) = (all().fold(f64::INFINITY, f64::min), all().fold(f64::NEG_INFINITY, f64::max));
    Drawn { times: times_higher(highest - lowest), lowest, stretches }
}
