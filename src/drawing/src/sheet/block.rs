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

/// The fields, in columns.
pub(super) struct Block<'a> {
    lettering: &'a Lettering<'a>,
    /// px.
    width: f64,
    columns: Vec<Held>,
    height: f64,
}

/// A column of fields.
struct Held {
    fields: Vec<Placed>,
    /// px.
    width: f64,
    /// Where values begin, from the column's edge, px.
    name: f64,
}

/// A field broken into lines, and how high it is, px.
struct Placed {
    name: String,
    lines: Vec<String>,
    height: f64,
}

impl<'a> Block<'a> {
    /// In three columns where each field has room on one line there, else in two.
    pub fn of(fields: Vec<Field>, width: f64, lettering: &'a Lettering<'a>) -> Self {
        let (plain, strong) = styles(lettering);
        let wide = |all: &[Field]| {
            let of = |text: fn(&Field) -> &str, style| {
                all.iter().map(|own| lettering.width_of(text(own), style)).fold(0.0, f64::max)
            };
            let name = px(ASIDE_MM + BETWEEN_MM) + of(|own| &own.name, plain);
            (name, name + of(|own| &own.value, strong) + px(2.0 * ASIDE_MM))
        };
        let cut = |columns: usize| -> Vec<Vec<Field>> {
            fields.chunks(fields.len().div_ceil(columns).max(1)).map(<[Field]>::to_vec).collect()
        };
        let three = cut(3);
        let needs: Vec<f64> = three.iter().map(|own| wide(own).1).collect();
        let spare = width - needs.iter().sum::<f64>();
        let (cut, widths) = if spare >= 0.0 {
            let each = spare / needs.len().max(1) as f64;
            (three, needs.into_iter().map(|own| own + each).collect())
        } else {
            (cut(2), vec![width * 0.5; 2])
        };
        let hold = |(all, width): (Vec<Field>, f64)| {
            let name = wide(&all).0.min(width * 0.5);
            let place = |own: Field| {
                let lines = lines(&own.value, strong, width - name - px(ASIDE_MM), lettering);
                let height = pitch(strong) * lines.len().max(1) as f64 + px(2.0 * OVER_MM);
                Placed { name: own.name, lines, height }
            };
            Held { fields: all.into_iter().map(place).collect(), width, name }
        };
        let columns: Vec<Held> = cut.into_iter().zip(widths).map(hold).collect();
        let height = columns.iter().map(Held::height).fold(0.0, f64::max);
        Self { lettering, width, columns, height }
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
        let outline = corners(&Bounds { low: DVec2::ZERO, high: size });
        setter.line(Role::RuleHeavy, outline.into_iter().chain([outline[0]]));
        let mut x = 0.0;
        for column in &self.columns {
            if x > 0.0 {
                setter.line(Role::Rule, [DVec2::new(x, 0.0), DVec2::new(x, size.y)]);
            }
            let Held { fields, width, name } = column;
            // What one column is shorter than another is shared by its fields.
            let more = (size.y - column.height()) / fields.len().max(1) as f64;
            let mut y = 0.0;
            for own in fields {
                if y > 0.0 {
                    setter.line(Role::Rule, [DVec2::new(x, y), DVec2::new(x + width, y)]);
                }
                let height = own.height + more;
                let over = y + (height - pitch(strong) * own.lines.len().max(1) as f64) * 0.5;
                let first = over + pitch(strong) * 0.5;
                let at = DVec2::new(x + px(ASIDE_MM), first);
                setter.text(Role::TitleSoft, at, &own.name, plain, Align::Start, f64::INFINITY);
                for (line, text) in own.lines.iter().enumerate() {
                    let at = DVec2::new(x + name, first + pitch(strong) * line as f64);
                    setter.text(Role::Title, at, text, strong, Align::Start, f64::INFINITY);
                }
                y += height;
            }
            x += width;
        }
        setter.framed(corner, Content::TitleBlock)
    }
}

impl Held {
    fn height(&self) -> f64 {
        self.fields.iter().map(|own| own.height).sum()
    }
}

fn styles(lettering: &Lettering<'_>) -> (crate::text::TextStyle, crate::text::TextStyle) {
    (style(lettering, READ_MM, Weight::Regular), style(lettering, READ_MM, Weight::SemiBold))
}
