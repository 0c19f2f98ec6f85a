//! One item as SVG.

use std::fmt::{Result, Write};

use base64::Engine;
use base64::engine::general_purpose::STANDARD as BASE64;
use baywright_planner::Subject;
use baywright_planner::geometry::{Bounds, DVec2, angle};
use baywright_planner::record::PictureForm;

use super::escape::{Px, colour, escaped, opacity};
use crate::list::{Dimension, Item, Placing, Shape, Sign, Text};
use crate::page::Photo;
use crate::role::Role;
use crate::text::{Align, Weight, clean};
use crate::theme::{Fill, Paint, Stroke, Theme};

/// Ticks and extension lines of a dimension, as shares of its line's width.
const TICK_WIDTH: f64 = 1.35;
const EXTENSION_WIDTH: f64 = 0.65;

/// A picture of dots, all of it in the text.
pub(super) fn photo(out: &mut String, photo: &Photo, place: &Bounds) -> Result {
    let kind = match photo.picture.form {
        PictureForm::Png => "png",
        PictureForm::Jpeg => "jpeg",
    };
    let at: Vec<String> = photo.on_paper(place).iter().map(|own| format!("{own:.6}")).collect();
    writeln!(
        out,
        r#"<image width="{}" height="{}" preserveAspectRatio="none" transform="matrix({})" href="data:image/{kind};base64,{}"><title>{}</title></image>"#,
        photo.picture.width,
        photo.picture.height,
        at.join(" "),
        BASE64.encode(&photo.picture.bytes),
        escaped(&clean(&photo.said))
    )
}

pub(super) fn item(out: &mut String, on: &Placing, item: &Item, theme: Theme) -> Result {
    let paint = theme.paint(item.role);
    let mut data = String::new();
    if let Some(subject) = &item.subject {
        write!(data, r#" data-subject="{}""#, escaped(&subject_name(subject)))?;
    }
    if let Some(finding) = item.finding {
        write!(data, r#" data-finding="{finding}""#)?;
    }
    // What outlines something keeps its inside as it was.
    let fill = if matches!(item.role, Role::Hovered | Role::Selected) { Fill::None } else { paint.fill };
    let painted = format!("{}{}{data}", fill_attributes(fill), stroke_attributes(paint.stroke));
    match &item.shape {
        Shape::Area(rings) => {
            write!(out, r#"<path d=""#)?;
            for ring in rings {
                path(out, ring.iter().map(|&p| on.paper_point(p)))?;
                write!(out, "Z")?;
            }
            let rule = if rings.len() > 1 { r#" fill-rule="evenodd""# } else { "" };
            writeln!(out, r#""{rule}{painted} stroke-linejoin="round"/>"#)
        }
        Shape::Disc { centre, radius } => {
            let p = on.paper_point(*centre);
            let r = Px(radius * on.px_per_mm);
            writeln!(out, r#"<circle cx="{}" cy="{}" r="{r}"{painted}/>"#, Px(p.x), Px(p.y))
        }
        Shape::Line(points) => {
            write!(out, r#"<path d=""#)?;
            path(out, points.iter().map(|&p| on.paper_point(p)))?;
            let stroke = stroke_attributes(paint.stroke);
            writeln!(out, r#"" fill="none"{stroke}{data} stroke-linejoin="round"/>"#)
        }
        Shape::Dimension(d) => dimension(out, on, d, &paint, &data),
        Shape::Sign(s) => sign(out, on, s, &paint, &data),
        Shape::Text(t) => text(out, on, t, &paint, &data),
    }
}

fn path(out: &mut String, points: impl Iterator<Item = DVec2>) -> Result {
    for (i, p) in points.enumerate() {
        let letter = if i == 0 { "M" } else { "L" };
        write!(out, "{letter}{} {}", Px(p.x), Px(p.y))?;
    }
    Ok(())
}

fn dimension(out: &mut String, on: &Placing, d: &Dimension, paint: &Paint, data: &str) -> Result {
    let strokes = d.strokes(on.px_per_mm);
    let Some(stroke) = paint.stroke else { return Ok(()) };
    writeln!(out, "<g{data}>")?;
    let parts = [
        (strokes.extensions, EXTENSION_WIDTH),
        (strokes.line.into_iter().collect(), 1.0),
        (strokes.ticks, TICK_WIDTH),
    ];
    for (lines, share) in parts {
        if lines.is_empty() {
            continue;
        }
        write!(out, r#"<path d=""#)?;
        for line in &lines {
            path(out, line.iter().map(|&p| on.paper_point(p)))?;
        }
        let stroke = stroke_attributes(Some(Stroke { width: stroke.width * share, ..stroke }));
        writeln!(out, r#"" fill="none"{stroke}/>"#)?;
    }
    text(out, on, &d.text, paint, "")?;
    writeln!(out, "</g>")
}

fn sign(out: &mut String, on: &Placing, sign: &Sign, paint: &Paint, data: &str) -> Result {
    let at = on.paper_point(sign.at);
    let place = |p: DVec2| at + p * sign.reach;
    let parts = sign.kind.parts();
    let painted = format!("{}{}", fill_attributes(paint.fill), stroke_attributes(paint.stroke));
    let lines = format!(r#" fill="none"{}"#, stroke_attributes(paint.stroke));
    writeln!(out, "<g{data}>")?;
    if !parts.area.is_empty() {
        write!(out, r#"<path d=""#)?;
        path(out, parts.area.iter().map(|&p| place(p)))?;
        writeln!(out, r#"Z"{painted} stroke-linejoin="round"/>"#)?;
    }
    for (radius, painted) in
        parts.disc.map(|r| (r, &painted)).into_iter().chain(parts.ring.map(|r| (r, &lines)))
    {
        writeln!(
            out,
            r#"<circle cx="{}" cy="{}" r="{}"{painted}/>"#,
            Px(at.x),
            Px(at.y),
            Px(radius * sign.reach)
        )?;
    }
    for line in parts.lines {
        write!(out, r#"<path d=""#)?;
        path(out, line.iter().map(|&p| place(p)))?;
        writeln!(out, r#""{lines} stroke-linecap="round" stroke-linejoin="round"/>"#)?;
    }
    if !sign.text.is_empty() {
        let (rgb, _) = colour(paint.text);
        let y = at.y + sign.style.baseline_below_middle() + sign.kind.text_below() * sign.reach;
        writeln!(
            out,
            r#"<text x="{}" y="{}" font-size="{}" font-weight="{}" text-anchor="middle" fill="{rgb}">{}</text>"#,
            Px(at.x),
            Px(y),
            Px(sign.style.size),
            weight(sign.style.weight),
            escaped(&sign.text)
        )?;
    }
    writeln!(out, "</g>")
}

fn text(out: &mut String, on: &Placing, text: &Text, paint: &Paint, data: &str) -> Result {
    let at = on.paper_point(text.at);
    // Anticlockwise as seen is negative on paper, where y runs down.
    let turn = -angle::degrees(text.angle);
    let turned = if turn == 0.0 {
        String::new()
    } else {
        format!(r#" transform="rotate({} {} {})""#, Px(turn), Px(at.x), Px(at.y))
    };
    let (anchor, shift) = match text.align {
        Align::Start => ("start", 0.0),
        Align::Middle => ("middle", 0.5),
        Align::End => ("end", 1.0),
    };
    if text.masked {
        let (rgb, mask_opacity) = colour(paint.mask);
        let high = text.style.line_height();
        writeln!(
            out,
            r#"<rect x="{}" y="{}" width="{}" height="{}" rx="2" fill="{rgb}"{}{turned}/>"#,
            Px(at.x - text.width * shift - 2.5),
            Px(at.y - high * 0.5),
            Px(text.width + 5.0),
            Px(high),
            opacity("fill", mask_opacity)
        )?;
    }
    let (rgb, _) = colour(paint.text);
    // A text of one letter has no gaps to stretch.
    let length = if text.text.chars().nth(1).is_some() {
        format!(r#" textLength="{}" lengthAdjust="spacingAndGlyphs""#, Px(text.width))
    } else {
        String::new()
    };
    writeln!(
        out,
        r#"<text x="{}" y="{}" font-size="{}" font-weight="{}" text-anchor="{anchor}" fill="{rgb}"{length}{turned}{data}>{}</text>"#,
        Px(at.x),
        Px(at.y + text.style.baseline_below_middle()),
        Px(text.style.size),
        weight(text.style.weight),
        escaped(&text.text)
    )
}

const fn weight(weight: Weight) -> u16 {
    match weight {
        Weight::Regular => 400,
        Weight::SemiBold => 600,
        Weight::Bold => 700,
    }
}

fn fill_attributes(fill: Fill) -> String {
    match fill {
        Fill::None => r#" fill="none""#.to_owned(),
        Fill::Solid(solid) => {
            let (rgb, seen) = colour(solid);
            format!(r#" fill="{rgb}"{}"#, opacity("fill", seen))
        }
        Fill::Hatch(hatch) => format!(r##" fill="url(#hatch-{})""##, hatch.name),
    }
}

fn stroke_attributes(stroke: Option<Stroke>) -> String {
    let Some(stroke) = stroke else { return String::new() };
    let (rgb, seen) = colour(stroke.colour);
    let mut text =
        format!(r#" stroke="{rgb}" stroke-width="{}"{}"#, Px(stroke.width), opacity("stroke", seen));
    if !stroke.dash.is_empty() {
        let dash: Vec<String> = stroke.dash.iter().map(|&d| Px(d).to_string()).collect();
        text = format!(r#"{text} stroke-dasharray="{}""#, dash.join(" "));
    }
    text
}

/// What an item shows, as one word and a name.
fn subject_name(subject: &Subject) -> String {
    match subject {
        Subject::Car => "car".to_owned(),
        Subject::Thing(id) => format!("thing:{id}"),
        Subject::Zone(id) => format!("zone:{id}"),
        Subject::Target(id) => format!("target:{id}"),
        Subject::Stand(id) => format!("stand:{id}"),
        Subject::Sensor => "sensor".to_owned(),
        Subject::Wall(id) => format!("wall:{id}"),
        Subject::Opening(id) => format!("opening:{id}"),
        Subject::FloorFeature(id) => format!("floor-feature:{id}"),
        Subject::Runway(id) => format!("runway:{id}"),
        Subject::KeepFree(id) => format!("keep-free:{id}"),
        Subject::HallBay(id) => format!("bay:{id}"),
        Subject::Mark(id) => format!("mark:{id}"),
        Subject::Dimension(id) => format!("dimension:{id}"),
        Subject::Run(from, to) => format!("run:{from}:{to}"),
        Subject::Ceiling => "ceiling".to_owned(),
        Subject::Floor => "floor".to_owned(),
        Subject::Figures => "figures".to_owned(),
    }
}
