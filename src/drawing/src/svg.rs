//! SVG: the drawing list as text that any browser, printer or drawing program reads.
//!
//! Numbers are rounded to a hundredth of a px before they become text, so the bytes are the same on every machine.
//! Text stays text: in Inter where it is installed, else in another sans-serif squeezed or stretched to the measured
//! width.

mod escape;
mod shapes;

use std::collections::BTreeMap;
use std::fmt::Write;

use baywright_planner::geometry::DVec2;

use crate::font;
use crate::furniture::PX_PER_PAPER_MM;
use crate::list::Drawing;
use crate::text::clean;
use crate::theme::{Fill, Hatch, Theme};
use crate::view::Sheet;
use escape::{Px, colour, escaped};

/// One view as SVG.
pub fn to_svg(drawing: &Drawing, theme: Theme) -> String {
    document(drawing.size, &[drawing], theme)
}

/// Both views as one SVG.
pub fn sheet_to_svg(sheet: &Sheet, theme: Theme) -> String {
    document(sheet.size, &[&sheet.top, &sheet.side], theme)
}

fn document(size: DVec2, drawings: &[&Drawing], theme: Theme) -> String {
    let mut out = String::with_capacity(1 << 16);
    write_document(&mut out, size, drawings, theme).map_or_else(|_| String::new(), |()| out)
}

fn write_document(out: &mut String, size: DVec2, drawings: &[&Drawing], theme: Theme) -> std::fmt::Result {
    let (w, h) = (Px(size.x), Px(size.y));
    writeln!(
        out,
        r#"<svg xmlns="http://www.w3.org/2000/svg" width="{w}" height="{h}" viewBox="0 0 {w} {h}" role="img" aria-labelledby="title desc" font-family="{}, sans-serif" style="font-variant-numeric:tabular-nums;font-kerning:none">"#,
        font::FAMILY
    )?;
    if let Some(first) = drawings.first() {
        let scale = libm::round(PX_PER_PAPER_MM / first.px_per_mm);
        writeln!(out, r#"<title id="title">{}</title>"#, escaped(&clean(&first.title)))?;
        writeln!(
            out,
            r#"<desc id="desc">{} Scale 1 : {scale:.0} at 96 px to the inch.</desc>"#,
            escaped(&clean(&first.description))
        )?;
    }
    definitions(out, drawings, theme)?;
    writeln!(out, r#"<rect width="{w}" height="{h}" fill="{}"/>"#, colour(theme.palette().paper).0)?;
    for (i, drawing) in drawings.iter().enumerate() {
        let name = match drawing.projection {
            crate::list::Projection::Top => "top",
            crate::list::Projection::Side => "side",
        };
        let (inside, around): (Vec<_>, Vec<_>) =
            drawing.items.iter().partition(|item| !item.role.is_furniture());
        writeln!(out, r##"<g data-view="{name}" clip-path="url(#plan-{i})">"##)?;
        for item in inside {
            shapes::item(out, drawing, item, theme)?;
        }
        writeln!(out, "</g>")?;
        writeln!(out, "<g>")?;
        for item in around {
            shapes::item(out, drawing, item, theme)?;
        }
        writeln!(out, "</g>")?;
    }
    writeln!(out, "</svg>")
}

/// Clips and the hatches that are used.
fn definitions(out: &mut String, drawings: &[&Drawing], theme: Theme) -> std::fmt::Result {
    writeln!(out, "<defs>")?;
    let mut used: BTreeMap<&str, Hatch> = BTreeMap::new();
    for item in drawings.iter().flat_map(|drawing| &drawing.items) {
        if let Fill::Hatch(hatch) = theme.paint(item.role).fill {
            used.entry(hatch.name).or_insert(hatch);
        }
    }
    for hatch in used.values() {
        pattern(out, hatch)?;
    }
    for (i, drawing) in drawings.iter().enumerate() {
        let (low, size) = (drawing.plan.low, drawing.plan.size());
        writeln!(
            out,
            r#"<clipPath id="plan-{i}"><rect x="{}" y="{}" width="{}" height="{}"/></clipPath>"#,
            Px(low.x),
            Px(low.y),
            Px(size.x),
            Px(size.y)
        )?;
    }
    writeln!(out, "</defs>")
}

fn pattern(out: &mut String, hatch: &Hatch) -> std::fmt::Result {
    let [w, h] = hatch.tile.map(Px);
    write!(
        out,
        r#"<pattern id="hatch-{}" width="{w}" height="{h}" patternUnits="userSpaceOnUse""#,
        hatch.name
    )?;
    if hatch.turned != 0.0 {
        write!(out, r#" patternTransform="rotate({})""#, Px(hatch.turned))?;
    }
    write!(out, ">")?;
    if let Some(ground) = hatch.ground {
        let (rgb, opacity) = colour(ground);
        write!(out, r#"<rect width="{w}" height="{h}" fill="{rgb}"{}/>"#, escape::opacity("fill", opacity))?;
    }
    let (rgb, opacity) = colour(hatch.ink);
    for [x1, y1, x2, y2] in hatch.lines {
        // A line on a tile's left or upper edge is cut in half by it: the other half is drawn on the opposite edge.
        let mut shifts = vec![(0.0, 0.0)];
        if *x1 == 0.0 && *x2 == 0.0 {
            shifts.push((hatch.tile[0], 0.0));
        }
        if *y1 == 0.0 && *y2 == 0.0 {
            shifts.push((0.0, hatch.tile[1]));
        }
        for (dx, dy) in shifts {
            write!(
                out,
                r#"<line x1="{}" y1="{}" x2="{}" y2="{}" stroke="{rgb}" stroke-width="{}"{}/>"#,
                Px(x1 + dx),
                Px(y1 + dy),
                Px(x2 + dx),
                Px(y2 + dy),
                Px(hatch.width),
                escape::opacity("stroke", opacity)
            )?;
        }
    }
    for [x, y, r] in hatch.dots {
        write!(
            out,
            r#"<circle cx="{}" cy="{}" r="{}" fill="{rgb}"{}/>"#,
            Px(*x),
            Px(*y),
            Px(*r),
            escape::opacity("fill", opacity)
        )?;
    }
    writeln!(out, "</pattern>")
}
