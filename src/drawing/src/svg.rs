//! SVG: a page as text that any browser, printer or drawing program reads.
//!
//! Numbers are rounded to a hundredth of a px before they become text, so the bytes are the same on every machine.
//! Text stays text: in Inter where it is installed, else in another sans-serif squeezed or stretched to the measured
//! width.

mod escape;
mod shapes;

use std::collections::BTreeMap;
use std::fmt::Write;

use crate::font;
use crate::list::{PX_PER_PAPER_MM, Projection};
use crate::page::{Content, Frame, Page, in_order};
use crate::text::clean;
use crate::theme::{Fill, Hatch, Theme};
use escape::{Px, colour, escaped};

/// A page as SVG.
pub fn to_svg(page: &Page, theme: Theme) -> String {
    let mut out = String::with_capacity(1 << 16);
    write_page(&mut out, page, theme).map_or_else(|_| String::new(), |()| out)
}

fn write_page(out: &mut String, page: &Page, theme: Theme) -> std::fmt::Result {
    let size = page.size * PX_PER_PAPER_MM;
    let (w, h) = (Px(size.x), Px(size.y));
    writeln!(
        out,
        r#"<svg xmlns="http://www.w3.org/2000/svg" width="{w}" height="{h}" viewBox="0 0 {w} {h}" role="img" aria-labelledby="title desc" font-family="{}, sans-serif" style="font-variant-numeric:tabular-nums;font-kerning:none">"#,
        font::FAMILY
    )?;
    writeln!(out, r#"<title id="title">{}</title>"#, escaped(&clean(&page.title)))?;
    writeln!(out, r#"<desc id="desc">{}</desc>"#, escaped(&clean(&page.description)))?;
    definitions(out, page, theme)?;
    writeln!(out, r#"<rect width="{w}" height="{h}" fill="{}"/>"#, colour(theme.palette().paper).0)?;
    let mut views = 0;
    // A view by itself, and a picture; what stands around them together.
    for frames in page.frames.chunk_by(|a, b| !a.is_alone() && !b.is_alone()) {
        match frames {
            [Frame { content: Content::Photo(photo), place }] => {
                shapes::photo(out, photo, place)?;
                continue;
            }
            [Frame { content: Content::View(drawing), .. }] => {
                let name = match drawing.projection {
                    Projection::Top => "top",
                    Projection::Side => "side",
                };
                writeln!(out, r##"<g data-view="{name}" clip-path="url(#plan-{views})">"##)?;
                views += 1;
            }
            _ => writeln!(out, "<g>")?,
        }
        for painted in in_order(frames) {
            shapes::item(out, &painted.placing, painted.item, theme)?;
        }
        writeln!(out, "</g>")?;
    }
    writeln!(out, "</svg>")
}

/// Clips and the hatches that are used.
fn definitions(out: &mut String, page: &Page, theme: Theme) -> std::fmt::Result {
    writeln!(out, "<defs>")?;
    let mut used: BTreeMap<&str, Hatch> = BTreeMap::new();
    for item in page.frames.iter().flat_map(Frame::items) {
        if let Fill::Hatch(hatch) = theme.paint(item.role).fill {
            used.entry(hatch.name).or_insert(hatch);
        }
    }
    for hatch in used.values() {
        pattern(out, hatch)?;
    }
    for (i, frame) in page.frames.iter().filter(|frame| frame.is_view()).enumerate() {
        let (low, size) = (frame.place.low * PX_PER_PAPER_MM, frame.place.size() * PX_PER_PAPER_MM);
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
