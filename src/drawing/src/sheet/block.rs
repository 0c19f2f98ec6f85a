//! The title block at the foot of each page of a sheet: what it is and what it is of. The fields are those of ISO 7200 (from memory)
//! that a workshop has.

use baywright_planner::geometry::{Bounds, DVec2};

use super::flow::px;
use super::lines::{READ_MM, lines, pitch, style};
use super::table::corners;
use crate::lettering::Lettering;
use crate::page::setter::Setter;
use crate::page::{Content, Frame};
use crate::role::Role;
use crate::text::{Align, Weight};

/// Beside and over what stands in a field, and between a field's name and what stands in it, mm.
const ASIDE_MM: f64 = 1.5;
const OVER_MM: f64 = 0.6;
const BETWEEN_MM: f64 = 1.8;

/// A field: its name and what stands in it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Field {
    pub name: String,
    pub value: String,
}

/// The fields, in two columns.
pub(super) struct Block<'a> {
    lettering: &'a Lettering<'a>,
    /// px.
    width: f64,
    columns: [Vec<Placed>; 2],
    /// Where values begin, from their column's edge, px.
    names: [f64; 2],
    height: f64,
}

/// A field broken into lines, and how high it is, px.
struct Placed {
    name: String,
    lines: Vec<String>,
    height: f64,
}

impl<'a> Block<'a> {
    pub fn of(columns: [Vec<Field>; 2], width: f64, lettering: &'a Lettering<'a>) -> Self {
        let (plain, strong) = styles(lettering);
        let half = width * 0.5;
        let name = |all: &Vec<Field>| {
            let widths = all.iter().map(|own| lettering.width_of(&own.name, plain));
            px(ASIDE_MM + BETWEEN_MM) + widths.fold(0.0, f64::max).min(half * 0.45)
        };
        let names = [name(&columns[0]), name(&columns[1])];
        let mut at = names.into_iter();
        let columns = columns.map(|all| {
            let from = at.next().unwrap_or(0.0);
            let place = |own: Field| {
                let lines = lines(&own.value, strong, half - from - px(ASIDE_MM), lettering);
                let height = pitch(strong) * lines.len().max(1) as f64 + px(2.0 * OVER_MM);
                Placed { name: own.name, lines, height }
            };
            all.into_iter().map(place).collect::<Vec<Placed>>()
        });
        let high = |all: &[Placed]| all.iter().map(|own| own.height).sum::<f64>();
        let height = high(&columns[0]).max(high(&columns[1]));
        Self { lettering, width, columns, names, height }
    }

    /// How high it is, px.
    pub const fn height(&self) -> f64 {
        self.height
    }

    /// It, its upper left corner at a place of the page, px.
    pub fn frame(&self, corner: DVec2) -> Frame {
        let size = DVec2::new(self.width, self.height);
        let mut setter = Setter::new(self.lettering, size);
        let (plain, strong) = styles(self.lettering);
        let half = size.x * 0.5;
        let outline = corners(&Bounds { low: DVec2::ZERO, high: size });
        setter.line(Role::RuleHeavy, outline.into_iter().chain([outline[0]]));
        setter.line(Role::Rule, [DVec2::new(half, 0.0), DVec2::new(half, size.y)]);
        for ((all, name), x) in self.columns.iter().zip(self.names).zip([0.0, half]) {
            // What one column is shorter than the other is shared by its fields.
            let high: f64 = all.iter().map(|own| own.height).sum();
            let more = (size.y - high) / all.len().max(1) as f64;
            let mut y = 0.0;
            for own in all {
                if y > 0.0 {
                    setter.line(Role::Rule, [DVec2::new(x, y), DVec2::new(x + half, y)]);
                }
                let height = own.height + more;
                let over = y + (height - pitch(strong) * own.lines.len().max(1) as f64) * 0.5;
                let first = over + pitch(strong) * 0.5;
                let at = DVec2::new(x + px(ASIDE_MM), first);
                setter.text(Role::TitleSoft, at, &own.name, plain, Align::Start, name - px(ASIDE_MM));
                for (line, text) in own.lines.iter().enumerate() {
                    let at = DVec2::new(x + name, first + pitch(strong) * line as f64);
                    setter.text(Role::Title, at, text, strong, Align::Start, f64::INFINITY);
                }
                y += height;
            }
        }
        setter.framed(corner, Content::TitleBlock)
    }
}

fn styles(lettering: &Lettering<'_>) -> (crate::text::TextStyle, crate::text::TextStyle) {
    (style(lettering, READ_MM, Weight::Regular), style(lettering, READ_MM, Weight::SemiBold))
}
