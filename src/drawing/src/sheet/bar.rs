//! The bar of 100 mm by which a person sees whether a printer kept the scale.

use baywright_planner::geometry::DVec2;
use baywright_planner::words::{Locale, Units, Words};

use super::flow::{Flow, px};
use super::lines::{lines, pitch};
use crate::page::Content;
use crate::role::Role;
use crate::text::{Align, Weight};

/// How long it is, mm of the paper.
const BAR_MM: f64 = 100.0;
/// In how many parts, dark and light in turn.
const PARTS: u8 = 10;
/// Half its thickness, and between it and what stands beside it, mm.
const HALF_MM: f64 = 0.7;
const BESIDE_MM: f64 = 3.0;

/// The bar with its length, the scale of the view over it, and what to do with it.
pub(super) fn bar(flow: &mut Flow<'_>, words: &Words<'_>, one_to: f64) {
    bar_with(flow, words, one_to, "");
}

/// The same, and what else is to be known of the view's figures, below what to do with the bar.
pub(super) fn bar_with(flow: &mut Flow<'_>, words: &Words<'_>, one_to: f64, more: &str) {
    let texts = words.locale().language.sheets();
    let style = flow.style(flow.sizes.read, Weight::Regular);
    let strong = flow.style(flow.sizes.read, Weight::SemiBold);
    let each = pitch(style);
    let beside = px(BAR_MM + BESIDE_MM);
    let most = flow.width() - beside;
    let mut said = lines(texts.measure_bar, style, most, flow.lettering);
    said.extend(lines(more, style, most, flow.lettering));
    // In millimetres whatever is shown else: a ruler has them everywhere.
    let ruler = Locale { units: Units::Millimetres, ..words.locale() };
    let [length, scale] = [ruler.length(BAR_MM), words.scale(one_to)];
    // The bar and the line under it, or what is beside them if that is higher.
    let height = (each * 2.0 + px(1.0)).max(each * said.len() as f64) + px(0.8);
    flow.gap(1.2);
    flow.block(height, Content::ScaleBar, |setter| {
        let y = each * 0.5;
        let half = DVec2::new(0.0, px(HALF_MM));
        for part in 0..PARTS {
            let [from, to] =
                [part, part + 1].map(|at| DVec2::new(px(BAR_MM / f64::from(PARTS)) * f64::from(at), y));
            let role = if part % 2 == 0 { Role::ScaleDark } else { Role::ScaleLight };
            setter.ring(role, [from - half, to - half, to + half, from + half]);
        }
        let under = y + px(HALF_MM) + each * 0.62;
        setter.text(Role::Title, DVec2::new(0.0, under), &scale, strong, Align::Start, f64::INFINITY);
        setter.text(Role::Title, DVec2::new(px(BAR_MM), under), &length, strong, Align::End, f64::INFINITY);
        for (line, text) in said.iter().enumerate() {
            let at = DVec2::new(beside, each * (line as f64 + 0.5));
            setter.text(Role::Title, at, text, style, Align::Start, f64::INFINITY);
        }
    });
}
