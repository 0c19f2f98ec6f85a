//! Hatches: small tiles, repeated over the paper. Each material has its own.

use baywright_planner::Severity;
use baywright_planner::model::Material;

use super::{Colour, Palette};

/// A line of a tile, from, to, px.
pub type HatchLine = [f64; 4];
/// A dot of a tile: its middle and radius, px.
pub type HatchDot = [f64; 3];

/// A pattern: one tile, repeated.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hatch {
    /// Its name: one word, no other pattern of the theme has it.
    pub name: &'static str,
    /// What lies under the lines.
    pub ground: Option<Colour>,
    /// Width and height of a tile, px.
    pub tile: [f64; 2],
    /// By how many degrees the tiles are turned, clockwise as seen.
    pub turned: f64,
    /// Lines.
    pub lines: &'static [HatchLine],
    /// Their width, px.
    pub width: f64,
    /// Dots.
    pub dots: &'static [HatchDot],
    /// The colour of lines and dots.
    pub ink: Colour,
}

impl Hatch {
    const fn new(name: &'static str, tile: [f64; 2], turned: f64) -> Self {
        Self { name, ground: None, tile, turned, lines: &[], width: 1.0, dots: &[], ink: Colour::hex(0) }
    }

    const fn lines(self, lines: &'static [HatchLine], width: f64) -> Self {
        Self { lines, width, ..self }
    }

    const fn dots(self, dots: &'static [HatchDot]) -> Self {
        Self { dots, ..self }
    }

    pub(super) const fn on(self, ground: Option<Colour>, ink: Colour) -> Self {
        Self { ground, ink, ..self }
    }
}

/// The pattern of a material, without its colours. Metals are full slanted lines, minerals are grains and courses, light
/// stuff is thin: what a workshop calls "metal" looks like one family.
const fn pattern(material: Material) -> Hatch {
    match material {
        Material::Steel => Hatch::new("steel", [7.0, 7.0], 45.0).lines(&[[0.0, 0.0, 0.0, 7.0]], 1.3),
        Material::Aluminium => Hatch::new("aluminium", [10.0, 10.0], 45.0)
            .lines(&[[2.0, 0.0, 2.0, 10.0], [5.0, 0.0, 5.0, 10.0]], 1.0),
        Material::Mesh => {
            Hatch::new("mesh", [7.0, 7.0], 45.0).lines(&[[0.0, 0.0, 0.0, 7.0], [0.0, 0.0, 7.0, 0.0]], 1.1)
        }
        Material::CarBody => Hatch::new("carbody", [16.0, 16.0], 45.0).lines(&[[0.0, 0.0, 0.0, 16.0]], 0.9),
        Material::Foil => Hatch::new("foil", [8.0, 8.0], 45.0)
            .lines(&[[0.0, 0.0, 0.0, 8.0]], 2.2)
            .dots(&[[4.0, 2.0, 0.8], [4.0, 6.0, 0.8]]),
        Material::Concrete => Hatch::new("concrete", [16.0, 14.0], 0.0)
            .lines(&[[2.0, 9.0, 5.0, 9.0], [5.0, 9.0, 3.5, 6.5], [3.5, 6.5, 2.0, 9.0]], 0.9)
            .dots(&[[9.0, 3.0, 0.8], [13.0, 8.0, 0.8], [11.0, 12.0, 0.8], [6.0, 1.5, 0.6], [15.0, 1.5, 0.6]]),
        Material::Brick => Hatch::new("brick", [14.0, 14.0], 0.0).lines(
            &[[0.0, 0.5, 14.0, 0.5], [0.0, 7.5, 14.0, 7.5], [3.5, 0.5, 3.5, 7.5], [10.5, 7.5, 10.5, 14.0]],
            1.0,
        ),
        Material::Plasterboard => {
            Hatch::new("plasterboard", [11.0, 11.0], 0.0).dots(&[[3.0, 3.0, 0.8], [8.5, 8.5, 0.8]])
        }
        Material::Wood => Hatch::new("wood", [26.0, 9.0], 0.0).lines(
            &[
                [0.0, 2.0, 26.0, 2.0],
                [0.0, 6.5, 9.0, 6.5],
                [9.0, 6.5, 13.0, 5.0],
                [13.0, 5.0, 17.0, 6.5],
                [17.0, 6.5, 26.0, 6.5],
            ],
            0.9,
        ),
        Material::Glass => Hatch::new("glass", [22.0, 22.0], 45.0)
            .lines(&[[4.0, 2.0, 4.0, 11.0], [8.0, 5.0, 8.0, 17.0], [12.0, 8.0, 12.0, 16.0]], 0.8),
        Material::Plastic => Hatch::new("plastic", [9.0, 9.0], -45.0).lines(&[[0.0, 0.0, 0.0, 9.0]], 0.9),
        Material::Rubber => Hatch::new("rubber", [6.0, 6.0], 0.0).dots(&[[1.5, 1.5, 1.2], [4.5, 4.5, 1.2]]),
        Material::Cloth => {
            Hatch::new("cloth", [8.0, 8.0], 0.0).lines(&[[1.0, 2.0, 4.0, 2.0], [6.5, 4.5, 6.5, 7.5]], 0.9)
        }
        Material::Person => Hatch::new("person", [5.0, 5.0], 0.0).dots(&[[2.5, 2.5, 0.7]]),
        Material::Unknown => Hatch::new("unknown", [14.0, 14.0], 0.0)
            .lines(&[[4.0, 7.0, 10.0, 7.0], [7.0, 4.0, 7.0, 10.0]], 0.9),
    }
}

/// The hatch of a thing.
pub(super) const fn of_thing(p: &Palette, material: Material) -> Hatch {
    pattern(material).on(Some(p.stuff), p.soft)
}

/// The hatch of a wall, fainter than that of a thing.
pub(super) const fn of_wall(p: &Palette, material: Material) -> Hatch {
    let hatch = pattern(material).on(Some(p.stuff), p.masonry);
    Hatch { name: wall_name(material), ..hatch }
}

/// The hatch of a thing to the side of the axis, fainter too.
pub(super) const fn aside(p: &Palette, material: Material) -> Hatch {
    let hatch = pattern(material).on(Some(p.stuff.faded(0.55)), p.soft.faded(0.4));
    Hatch { name: aside_name(material), ..hatch }
}

/// The hatch of a thing in nobody's way: as dense, but pale.
pub(super) const fn quiet(p: &Palette, material: Material) -> Hatch {
    let hatch = pattern(material).on(Some(p.stuff), p.soft.faded(0.45));
    Hatch { name: quiet_name(material), ..hatch }
}

/// The hatch of a wall that is looked at: so much of it is seen that it only hints at what the wall is made of.
pub(super) const fn faced(p: &Palette, material: Material) -> Hatch {
    let hatch = pattern(material).on(Some(p.stuff.faded(0.4)), p.masonry.faded(0.4));
    Hatch { name: names(material)[3], ..hatch }
}

/// The light hatch of a keep-clear zone.
pub(super) const fn zone(p: &Palette) -> Hatch {
    Hatch::new("zone", [10.0, 10.0], -45.0).lines(&[[0.0, 0.0, 0.0, 10.0]], 1.0).on(None, p.beam.faded(0.24))
}

/// The light hatch of every other keep-clear zone: slanted the other way.
pub(super) const fn other_zone(p: &Palette) -> Hatch {
    Hatch::new("other-zone", [10.0, 10.0], 45.0)
        .lines(&[[0.0, 0.0, 0.0, 10.0]], 1.0)
        .on(None, p.beam.faded(0.24))
}

/// The hatch of an overlap: bolder and closer than any other.
pub(super) const fn overlap(p: &Palette, severity: Severity) -> Hatch {
    let colour = p.sign(severity);
    let (name, width) = match severity {
        Severity::Stops => ("overlap-stops", 2.2),
        Severity::Care => ("overlap-care", 1.2),
        Severity::Note => ("overlap-note", 0.8),
    };
    let ground = match severity {
        Severity::Care => p.care_sign.faded(0.4),
        _ => colour.faded(0.18),
    };
    Hatch::new(name, [6.0, 6.0], 45.0).lines(&[[0.0, 0.0, 0.0, 6.0]], width).on(Some(ground), colour)
}

/// The same to the side of the axis: thinner and clearer.
pub(super) const fn overlap_aside(p: &Palette, severity: Severity) -> Hatch {
    let colour = p.sign(severity);
    let name = match severity {
        Severity::Stops => "overlap-aside-stops",
        Severity::Care => "overlap-aside-care",
        Severity::Note => "overlap-aside-note",
    };
    Hatch::new(name, [9.0, 9.0], 45.0)
        .lines(&[[0.0, 0.0, 0.0, 9.0]], 1.1)
        .on(Some(colour.faded(0.07)), colour.faded(0.5))
}

/// The hatch of an area that local rules want free.
pub(super) const fn keep_free(p: &Palette) -> Hatch {
    Hatch::new("keepfree", [12.0, 12.0], 45.0)
        .lines(&[[0.0, 0.0, 0.0, 12.0]], 3.0)
        .on(None, p.ready.faded(0.16))
}

/// The hatch of where it is not decided whether the car can stand.
pub(super) const fn place_open(p: &Palette) -> Hatch {
    Hatch::new("placeopen", [9.0, 9.0], -45.0)
        .lines(&[[0.0, 0.0, 0.0, 9.0]], 1.0)
        .on(None, p.ready.faded(0.55))
}

/// The hatch of a drain's grate.
pub(super) const fn grate(p: &Palette) -> Hatch {
    Hatch::new("grate", [4.0, 4.0], 0.0).lines(&[[0.0, 0.0, 0.0, 4.0]], 1.2).on(Some(p.stuff), p.soft)
}

/// The hatch of a pit.
pub(super) const fn pit(p: &Palette) -> Hatch {
    Hatch::new("pit", [8.0, 8.0], 45.0)
        .lines(&[[0.0, 0.0, 0.0, 8.0], [0.0, 0.0, 8.0, 0.0]], 0.8)
        .on(Some(p.stuff), p.masonry)
}

const fn wall_name(material: Material) -> &'static str {
    names(material)[0]
}

const fn aside_name(material: Material) -> &'static str {
    names(material)[1]
}

const fn quiet_name(material: Material) -> &'static str {
    names(material)[2]
}

/// Names of the fainter kinds: of walls, of things to the side, of things in nobody's way, of walls that are looked at.
const fn names(material: Material) -> [&'static str; 4] {
    match material {
        Material::Steel => ["wall-steel", "aside-steel", "quiet-steel", "faced-steel"],
        Material::Aluminium => ["wall-aluminium", "aside-aluminium", "quiet-aluminium", "faced-aluminium"],
        Material::Mesh => ["wall-mesh", "aside-mesh", "quiet-mesh", "faced-mesh"],
        Material::CarBody => ["wall-carbody", "aside-carbody", "quiet-carbody", "faced-carbody"],
        Material::Foil => ["wall-foil", "aside-foil", "quiet-foil", "faced-foil"],
        Material::Concrete => ["wall-concrete", "aside-concrete", "quiet-concrete", "faced-concrete"],
        Material::Brick => ["wall-brick", "aside-brick", "quiet-brick", "faced-brick"],
        Material::Plasterboard => {
            ["wall-plasterboard", "aside-plasterboard", "quiet-plasterboard", "faced-plasterboard"]
        }
        Material::Wood => ["wall-wood", "aside-wood", "quiet-wood", "faced-wood"],
        Material::Glass => ["wall-glass", "aside-glass", "quiet-glass", "faced-glass"],
        Material::Plastic => ["wall-plastic", "aside-plastic", "quiet-plastic", "faced-plastic"],
        Material::Rubber => ["wall-rubber", "aside-rubber", "quiet-rubber", "faced-rubber"],
        Material::Cloth => ["wall-cloth", "aside-cloth", "quiet-cloth", "faced-cloth"],
        Material::Person => ["wall-person", "aside-person", "quiet-person", "faced-person"],
        Material::Unknown => ["wall-unknown", "aside-unknown", "quiet-unknown", "faced-unknown"],
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::theme::Theme;

    #[test]
    fn no_two_materials_look_alike() {
        for (i, &a) in Material::ALL.iter().enumerate() {
            for &b in &Material::ALL[..i] {
                let (p, q) = (pattern(a), pattern(b));
                assert_ne!(p.name, q.name);
                assert_ne!(
                    (p.tile, p.turned, p.lines, p.dots),
                    (q.tile, q.turned, q.lines, q.dots),
                    "{a:?} {b:?}"
                );
            }
        }
    }

    #[test]
    fn every_line_and_dot_lies_in_its_tile() {
        let p = Theme::Light.palette();
        let overlaps =
            [Severity::Stops, Severity::Care, Severity::Note].map(|s| [overlap(p, s), overlap_aside(p, s)]);
        let others =
            [zone(p), keep_free(p), grate(p), pit(p)].into_iter().chain(overlaps.into_iter().flatten());
        for hatch in Material::ALL.iter().map(|&m| of_thing(p, m)).chain(others) {
            let inside =
                |x: f64, y: f64| (0.0..=hatch.tile[0]).contains(&x) && (0.0..=hatch.tile[1]).contains(&y);
            assert!(hatch.lines.iter().all(|l| inside(l[0], l[1]) && inside(l[2], l[3])), "{}", hatch.name);
            assert!(hatch.dots.iter().all(|d| inside(d[0], d[1])), "{}", hatch.name);
            assert!(!hatch.lines.is_empty() || !hatch.dots.is_empty(), "{}", hatch.name);
        }
    }
}
