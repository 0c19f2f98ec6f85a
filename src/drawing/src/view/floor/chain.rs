//! Running dimensions along the four sides of a plan, and its size: what stands along a side is told from one origin, because a
//! chain of rounded distances adds up to what nobody tapes. ISO 129-1 (from memory) calls it superimposed running dimensioning:
//! the origin is a ring, all else a slanted tick.

use baywright_planner::geometry::{Bounds, DVec2, PlanPose, Segment};

use super::Shell;
use crate::lettering::{Lettering, size};
use crate::list::{Shape, Sign};
use crate::role::Role;
use crate::sign::SignKind;
use crate::text::{Align, Weight};
use crate::view::fit::WALL_PX;
use crate::view::pen::Pen;
use crate::view::space::Taken;

/// Figures nearer to one another than this, mm, are one.
const ONE_MM: f64 = 0.5;
/// Between the wall and the line of figures, where the names of walls and openings stand, px before it is enlarged.
const NAMES_PX: f64 = 20.0;
/// From the line to its first row of figures, and beyond the last row, px.
const ROW_OFF_PX: f64 = 4.0;
const BEYOND_PX: f64 = 3.0;
/// Half a tick, and the ring of an origin, px.
const TICK_PX: f64 = 3.2;
/// Between two figures of a row, px.
const APART_PX: f64 = 5.0;
/// More rows than this are not read.
const MOST_ROWS: usize = 4;
/// Columns and the like have figures along the sides if there are no more of them.
const MOST_STANDING: usize = 12;
/// What begins no higher stands on the floor, mm.
const STANDS_MM: f64 = 50.0;
/// Past what it belongs to an extension line begins, px.
const EXTENSION_PX: f64 = 3.0;

/// A side of the plan.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Way {
    Below,
    Above,
    Left,
    Right,
}

impl Way {
    const ALL: [Self; 4] = [Self::Below, Self::Above, Self::Left, Self::Right];

    const fn runs_across(self) -> bool {
        matches!(self, Self::Below | Self::Above)
    }

    /// Where it looks, y up.
    const fn out(self) -> DVec2 {
        match self {
            Self::Below => DVec2::NEG_Y,
            Self::Above => DVec2::Y,
            Self::Left => DVec2::NEG_X,
            Self::Right => DVec2::X,
        }
    }

    /// The part of a place that runs along it.
    const fn along(self, p: DVec2) -> f64 {
        if self.runs_across() { p.x } else { p.y }
    }

    /// The side that a wall looks out to.
    fn of(edge: &Segment) -> Self {
        let out = -(edge.to - edge.from).perp();
        match (out.x.abs() > out.y.abs(), out.x > 0.0, out.y > 0.0) {
            (true, true, _) => Self::Right,
            (true, false, _) => Self::Left,
            (false, _, true) => Self::Above,
            (false, _, false) => Self::Below,
        }
    }
}

/// A figure: where, mm of the view's frame along its side; the place that it is of; what it says.
#[derive(Clone, Debug)]
struct Figure {
    place: DVec2,
    text: String,
    width: f64,
    row: usize,
    is_origin: bool,
}

#[derive(Clone, Debug)]
struct Side {
    way: Way,
    figures: Vec<Figure>,
    rows: usize,
    /// The whole length or width, if this side has it.
    whole: Option<String>,
    /// From the room's box to the outermost of it, px.
    deep: f64,
}

/// The figures of all four sides.
#[derive(Clone, Debug)]
pub(super) struct Chains {
    sides: Vec<Side>,
    row: f64,
    names: f64,
    by: f64,
    /// How many have no room.
    pub left_out: usize,
}

impl Chains {
    pub fn of(shell: &Shell, bay_from_view: &PlanPose, px_per_mm: f64, lettering: &Lettering<'_>) -> Self {
        let bay = &shell.arrangement.bay;
        let view_from_bay = bay_from_view.inverse();
        let style = lettering.style(size::LABEL, Weight::SemiBold);
        let by = lettering.enlarged();
        let (row, names) = (style.line_height(), NAMES_PX * by);
        let origin = view_from_bay * shell.datum.pose.origin();
        // Along which way of the view figures grow: away from the two walls.
        let grows = view_from_bay.turned(shell.datum.pose.forward() + shell.datum.pose.left());
        let bounds = Bounds::around(bay.room.outer().iter().map(|&p| view_from_bay * p));
        let mut left_out = 0;
        let mut sides = Vec::new();
        for way in Way::ALL {
            let mut places = places(shell, &view_from_bay, way);
            let value = |p: &DVec2| (way.along(*p) - way.along(origin)) * way.along(grows).signum();
            places.sort_by(|a, b| value(a).total_cmp(&value(b)));
            places.dedup_by(|b, a| {
                let is_one = (value(b) - value(a)).abs() < ONE_MM;
                // Of several the one that is nearest to the side.
                if is_one && b.dot(way.out()) > a.dot(way.out()) {
                    *a = *b;
                }
                is_one
            });
            let mut ends: Vec<f64> = Vec::new();
            let mut figures = Vec::new();
            for place in places {
                let mm = value(&place);
                let text = lettering.locale.bare(mm);
                let width = lettering.width_of(&text, style);
                let (at, half) = (value(&place) * px_per_mm, (width + APART_PX) * 0.5);
                let row = ends.iter().position(|end| at - half > *end).unwrap_or(ends.len());
                if row >= MOST_ROWS {
                    left_out += 1;
                    continue;
                }
                match ends.get_mut(row) {
                    Some(end) => *end = at + half,
                    None => ends.push(at + half),
                }
                figures.push(Figure { place, text, width, row, is_origin: mm.abs() < ONE_MM });
            }
            let rows = ends.len();
            let is_first = matches!(way, Way::Below | Way::Left);
            let whole = bounds.filter(|_| is_first).map(|own| lettering.locale.bare(way.along(own.size())));
            let chain = if rows > 0 { ROW_OFF_PX + TICK_PX + rows as f64 * row } else { 0.0 };
            let total = if whole.is_some() { row + TICK_PX + ROW_OFF_PX } else { 0.0 };
            let deep = WALL_PX + names + chain + total + BEYOND_PX;
            sides.push(Side { way, figures, rows, whole, deep });
        }
        Self { sides, row, names, by, left_out }
    }

    fn deep(&self, way: Way) -> f64 {
        self.sides.iter().find(|own| own.way == way).map_or(0.0, |own| own.deep)
    }

    /// How much wider and higher the plan is for them, px.
    pub fn around(&self) -> DVec2 {
        DVec2::new(
            self.deep(Way::Left) + self.deep(Way::Right),
            self.deep(Way::Below) + self.deep(Way::Above),
        )
    }

    /// From the middle of the room's box to the middle of the plan, px, y up.
    pub fn off_middle(&self) -> DVec2 {
        let [below, above, left, right] = Way::ALL.map(|way| self.deep(way));
        DVec2::new(right - left, above - below) * 0.5
    }

    /// Draws them around the room's box.
    pub fn draw(&self, pen: &mut Pen<'_>, held: &Bounds) {
        for side in &self.sides {
            self.side(pen, side, held);
        }
    }

    fn side(&self, pen: &mut Pen<'_>, side: &Side, held: &Bounds) {
        let (way, out) = (side.way, side.way.out());
        let edge = if out.x + out.y > 0.0 { held.high } else { held.low };
        // A place abreast of another, so many px off the room's box.
        let abreast = |pen: &Pen<'_>, p: DVec2, off: f64| {
            let on = if way.runs_across() { DVec2::new(p.x, edge.y) } else { DVec2::new(edge.x, p.y) };
            on + out * pen.length(off)
        };
        let line_off = WALL_PX + self.names;
        let style = pen.style(size::LABEL, Weight::SemiBold);
        let turned = if way.runs_across() { 0.0 } else { std::f64::consts::FRAC_PI_2 };
        for own in &side.figures {
            let on = abreast(pen, own.place, line_off);
            let from = own.place + out * pen.length(EXTENSION_PX + WALL_PX);
            let tip = abreast(pen, own.place, line_off + TICK_PX + own.row as f64 * self.row);
            if (tip - from).dot(out) > 0.0 {
                pen.line(Role::Dimension, None, vec![from, tip]);
            }
            self.marker(pen, on, own.is_origin);
        }
        // Over the lines of figures further out, which run on under them.
        for own in &side.figures {
            let off = line_off + TICK_PX + ROW_OFF_PX + self.row * (own.row as f64 + 0.5);
            let mut text = pen.text(abreast(pen, own.place, off), &own.text, style, Align::Middle);
            (text.angle, text.masked, text.width) = (turned, true, own.width);
            pen.put_text(Role::Dimension, None, text);
        }
        if let [first, .., last] = side.figures.as_slice() {
            let ends = [first, last].map(|own| abreast(pen, own.place, line_off));
            pen.line(Role::Dimension, None, ends.to_vec());
            pen.take_line(ends[0], ends[1], Taken::Line);
        }
        let Some(whole) = &side.whole else { return };
        let off = side.deep - BEYOND_PX - self.row * 0.5;
        let ends = [held.low, held.high].map(|p| abreast(pen, p, off));
        pen.line(Role::Dimension, None, ends.to_vec());
        for (end, corner) in ends.into_iter().zip([held.low, held.high]) {
            self.marker(pen, end, false);
            let chain = TICK_PX + ROW_OFF_PX + side.rows as f64 * self.row;
            let from = abreast(pen, corner, line_off + if side.rows > 0 { chain } else { 0.0 });
            pen.line(Role::Dimension, None, vec![from, end + out * pen.length(TICK_PX)]);
        }
        let mut text = pen.text((ends[0] + ends[1]) * 0.5, whole, style, Align::Middle);
        (text.angle, text.masked) = (turned, true);
        pen.put_text(Role::Dimension, None, text);
    }

    fn marker(&self, pen: &mut Pen<'_>, at: DVec2, is_origin: bool) {
        if is_origin {
            let style = pen.style(size::LABEL, Weight::SemiBold);
            let sign =
                Sign { at, kind: SignKind::Ring, reach: TICK_PX * self.by, text: String::new(), style };
            pen.push(Role::Mark, None, Shape::Sign(sign));
        } else {
            let half = DVec2::splat(pen.length(TICK_PX * self.by));
            pen.line(Role::Mark, None, vec![at - half, at + half]);
        }
    }
}

/// What has a figure along a side: corners of the walls that look out to it and the jambs in them; along the two first sides what
/// stands in the room.
fn places(shell: &Shell, view_from_bay: &PlanPose, way: Way) -> Vec<DVec2> {
    let bay = &shell.arrangement.bay;
    let in_view = |edge: &Segment| Segment::new(*view_from_bay * edge.from, *view_from_bay * edge.to);
    let mut all = Vec::new();
    for (at, edge) in bay.room.edges().take(bay.room.outer().len()).enumerate() {
        let own = in_view(&edge);
        if Way::of(&own) != way {
            continue;
        }
        all.extend([own.from, own.to]);
        for opening in bay.openings.iter().filter(|opening| opening.wall == at) {
            if let Some(line) = bay.opening_line(opening) {
                let line = in_view(&line);
                all.extend([line.from, line.to]);
            }
        }
    }
    if !matches!(way, Way::Below | Way::Left) {
        return all;
    }
    let holes =
        bay.room.holes().iter().filter_map(|ring| Bounds::around(ring.iter().map(|&p| *view_from_bay * p)));
    let standing = bay.things.iter().filter(|thing| thing.span.bottom() < STANDS_MM);
    let standing =
        standing.map(|thing| thing.footprint.outline().bounds_from(&(*view_from_bay * thing.place.at)));
    let inner: Vec<Bounds> = holes.chain(standing).collect();
    if inner.len() <= MOST_STANDING {
        all.extend(inner.iter().flat_map(|own| {
            let far = if way.runs_across() {
                DVec2::new(own.high.x, own.low.y)
            } else {
                DVec2::new(own.low.x, own.high.y)
            };
            [own.low, far]
        }));
    }
    all
}
