//! What the views are drawn with: collects items and knows what is taken on the paper.

use baywright_planner::Subject;
use baywright_planner::geometry::{Bounds, DVec2, Outline, PlanPose, Polygon, angle};

use super::bodies::Bodies;
use super::boxes::text_boxes;
use super::fit::Window;
use super::keep::{Keeps, Kept, is_name};
use super::space::{Space, Taken};
use crate::lettering::{Lettering, size};
use crate::list::{Dimension, Drawing, Item, Placing, Projection, Shape, Sign, Text};
use crate::role::Role;
use crate::sign::SignKind;
use crate::text::{Align, Fitted, TextStyle, Weight, clean};

/// Reach of a flag, px before it is enlarged.
pub(crate) const FLAG_PX: f64 = 9.5;
/// Reach of a floor mark.
pub(crate) const MARK_PX: f64 = 5.0;

pub(crate) struct Pen<'a> {
    pub lettering: &'a Lettering<'a>,
    /// All of the paper that the view knows, px.
    pub window: Bounds,
    /// How the view lies on the paper.
    placing: Placing,
    /// px for each mm.
    pub scale: f64,
    /// How much larger than usual texts and signs are.
    pub enlarged: f64,
    pub items: Vec<Item>,
    /// What is taken, px.
    pub space: Space,
    /// Whose places of the paper seem to be.
    pub bodies: Bodies,
    /// Where things are written in earlier drawings, while something is in hand.
    pub kept: Kept<'a>,
}

impl<'a> Pen<'a> {
    pub fn new(lettering: &'a Lettering<'a>, window: Window) -> Self {
        let Window { area: window, placing } = window;
        Self {
            lettering,
            window,
            placing,
            scale: placing.px_per_mm,
            enlarged: lettering.enlarged(),
            items: Vec::with_capacity(512),
            space: Space::new(window.grown(-2.0)),
            bodies: Bodies::new(window),
            kept: Kept::default(),
        }
    }

    /// From here on places are kept to; all bodies are drawn.
    pub fn keep_to(&mut self, earlier: &[&'a Drawing], projection: Projection) {
        self.kept = Kept::of(earlier, projection, self.placing, &self.items);
    }

    /// Puts a name where it stood, if it is kept there. Whether it has a name; nothing if a place is to be found.
    pub fn name_kept(
        &mut self,
        role: Role,
        subject: Option<&Subject>,
        style: TextStyle,
        now: impl FnOnce(&Self) -> Option<Fitted>,
    ) -> Option<bool> {
        let subject = subject.filter(|_| is_name(role))?;
        let (text, lines): (_, Vec<_>) = match self.kept.name(subject) {
            Keeps::Anew => return None,
            Keeps::Nowhere => return Some(false),
            Keeps::There(stood) => (stood.text(style, || now(self))?, stood.lines().collect()),
        };
        for line in lines {
            if let [from, .., to] = *line.as_slice() {
                self.take_line(from, to, Taken::Led);
            }
            self.line(Role::NameLeader, Some(subject.clone()), line);
        }
        self.put_text(role, Some(subject.clone()), text);
        Some(true)
    }

    /// A place of the view on the paper, px.
    pub fn px(&self, p: DVec2) -> DVec2 {
        self.placing.paper_point(p)
    }

    /// A place of the paper in the view, mm.
    pub fn mm(&self, px: DVec2) -> DVec2 {
        self.placing.list_point(px)
    }

    /// So many px of paper, mm of the view.
    pub fn length(&self, px: f64) -> f64 {
        px / self.scale
    }

    /// A style, enlarged as wished.
    pub fn style(&self, size: f64, weight: Weight) -> TextStyle {
        self.lettering.style(size, weight)
    }

    pub fn push(&mut self, role: Role, subject: Option<Subject>, shape: Shape) {
        self.items.push(Item { role, subject, finding: None, shape });
    }

    pub fn ring(&mut self, role: Role, subject: Option<Subject>, ring: Vec<DVec2>) {
        if ring.len() >= 3 {
            self.push(role, subject, Shape::Area(vec![ring]));
        }
    }

    pub fn line(&mut self, role: Role, subject: Option<Subject>, points: Vec<DVec2>) {
        self.push(role, subject, Shape::Line(points));
    }

    /// An outline of the bay in the view.
    pub fn outline(&self, outline: &Outline, view_from_bay: &PlanPose) -> Shape {
        match outline {
            Outline::Polygon(polygon) => area(polygon, view_from_bay),
            Outline::Circle(circle) => {
                Shape::Disc { centre: *view_from_bay * circle.centre(), radius: circle.radius() }
            }
        }
    }

    pub fn sign(&mut self, role: Role, subject: Option<Subject>, at: DVec2, kind: SignKind, reach: f64) {
        let style = self.style(size::LABEL, Weight::Bold);
        let sign = Sign { at, kind, reach: reach * self.enlarged, text: String::new(), style };
        self.push(role, subject, Shape::Sign(sign));
    }

    /// A text as an item's shape; `at` in mm.
    pub fn text(&self, at: DVec2, text: &str, style: TextStyle, align: Align) -> Text {
        let text = clean(text);
        let width = self.lettering.width_of(&text, style);
        Text { at, text, style, align, angle: 0.0, width, masked: false }
    }

    /// The box that a level text takes on the paper, px: its place, its part there, its width.
    pub fn level_box(&self, at: DVec2, align: Align, width: f64, style: TextStyle) -> Bounds {
        let half = DVec2::new(width * 0.5 + 2.0, style.line_height() * 0.5);
        let middle = match align {
            Align::Start => at + DVec2::X * (width * 0.5),
            Align::Middle => at,
            Align::End => at - DVec2::X * (width * 0.5),
        };
        Bounds { low: middle - half, high: middle + half }
    }

    /// The cheapest of some places (px) for a level text, each with what it costs beside what it covers.
    pub fn cheapest(
        &self,
        width: f64,
        style: TextStyle,
        places: impl Iterator<Item = (f64, DVec2, Align)>,
    ) -> Option<(f64, DVec2, Align)> {
        let mut best: Option<(f64, DVec2, Align)> = None;
        for (extra, at, align) in places {
            let least = best.map_or(f64::INFINITY, |(cost, ..)| cost);
            if extra >= least {
                continue;
            }
            let place = self.level_box(at, align, width, style);
            let cost = extra + self.space.cost_up_to(place, least - extra);
            if cost < least {
                best = Some((cost, at, align));
            }
        }
        best
    }

    /// The cheapest of some places (px) for a level text that costs less than `least`, each with what its box costs beside what
    /// it covers, if it is one at all: that is asked only where it may matter.
    pub fn cheapest_below(
        &self,
        least: f64,
        (width, style): (f64, TextStyle),
        places: impl Iterator<Item = (DVec2, Align)>,
        beside: impl Fn(&Bounds) -> Option<f64>,
    ) -> Option<(f64, DVec2, Align)> {
        let mut best: Option<(f64, DVec2, Align)> = None;
        for (at, align) in places {
            let least = best.map_or(least, |(cost, ..)| cost);
            if least <= 0.0 {
                break;
            }
            let place = self.level_box(at, align, width, style);
            let covers = self.space.cost_up_to(place, least);
            if covers >= least {
                continue;
            }
            let Some(beside) = beside(&place) else { continue };
            let cost = covers + beside;
            if cost < least {
                best = Some((cost, at, align));
            }
        }
        best
    }

    /// What it would cost to put a text there.
    pub fn text_cost(&self, text: &Text) -> f64 {
        text_boxes(self.px(text.at), text).map(|place| self.space.cost(place)).sum()
    }

    fn take_text(&mut self, text: &Text) {
        for place in text_boxes(self.px(text.at), text) {
            self.space.take(place, Taken::Read);
        }
    }

    /// Puts a level text on a mask down at a place of the paper, px, and takes its place.
    pub fn put_level(
        &mut self,
        role: Role,
        subject: Option<Subject>,
        text: Fitted,
        style: TextStyle,
        (at, align): (DVec2, Align),
    ) {
        let Fitted { text, width } = text;
        let text = Text { at: self.mm(at), text, style, align, angle: 0.0, width, masked: true };
        self.put_text(role, subject, text);
    }

    /// A text made fit to be shown, and its width.
    pub fn measured(&self, text: &str, style: TextStyle) -> Fitted {
        let text = clean(text);
        let width = self.lettering.width_of(&text, style);
        Fitted { text, width }
    }

    /// Puts a text down and takes its place.
    pub fn put_text(&mut self, role: Role, subject: Option<Subject>, text: Text) {
        self.take_text(&text);
        self.push(role, subject, Shape::Text(text));
    }

    /// Puts a dimension down and takes its place.
    pub fn put_dimension(&mut self, role: Role, subject: Option<Subject>, dimension: Dimension) {
        self.take_text(&dimension.text);
        let (from, to) = (self.px(dimension.line_from), self.px(dimension.line_to));
        self.space.take_line(from, to, Taken::Line);
        self.push(role, subject, Shape::Dimension(dimension));
    }

    /// A dimension of the distance from `from` to `to` along `along` (a unit vector), its line through `through`.
    pub fn dimension(&self, from: DVec2, to: DVec2, along: DVec2, through: DVec2, text: &str) -> Dimension {
        let abreast = |p: DVec2| through + along * (p - through).dot(along);
        let (line_from, line_to) = (abreast(from), abreast(to));
        let style = self.style(size::LABEL, Weight::SemiBold);
        let mut text = self.text((line_from + line_to) * 0.5, text, style, Align::Middle);
        text.masked = true;
        let length = line_from.distance(line_to) * self.scale;
        let angle = readable(along);
        text.angle = angle;
        if length < text.width + 10.0 {
            if length > text.width * SHORT_LINE && angle.abs() < UPRIGHT {
                // Beside the line, on the side away from what is measured.
                let off = (line_from - from).reject_from_normalized(along).normalize_or(along.perp());
                text.at += off * self.length(style.line_height() * 0.5 + 4.0);
            } else if angle.abs() < UPRIGHT {
                // Beyond the line's end, in its direction.
                let (low, high) =
                    if line_from.x <= line_to.x { (line_from, line_to) } else { (line_to, line_from) };
                text.align = Align::Start;
                text.at = high + (high - low).normalize_or(DVec2::X) * self.length(7.0);
            } else {
                text.angle = 0.0;
                text.align = Align::Start;
                text.at += DVec2::X * self.length(7.0);
            }
        }
        Dimension { from, to, line_from, line_to, text }
    }

    /// A dimension with its text where it covers least: where it stands, along its line, beside its ends, over it or under it. And what it costs to stand elsewhere.
    pub fn text_freest(&self, dimension: Dimension) -> (f64, Dimension) {
        let here = self.text_cost(&dimension.text);
        if here <= Taken::Line.cost() {
            return (0.0, dimension);
        }
        let Dimension { line_from, line_to, .. } = dimension;
        let steep = dimension.text.angle.abs() >= UPRIGHT || (line_to - line_from).x.abs() < self.length(4.0);
        let middle = (line_from + line_to) * 0.5;
        let (left, right) = match (steep, line_from.x <= line_to.x) {
            (true, _) => (middle, middle),
            (false, true) => (line_from, line_to),
            (false, false) => (line_to, line_from),
        };
        let mut best = (here, dimension.text.clone());
        // Along its own line first, as far as it is carried by it.
        let spare = line_from.distance(line_to) * self.scale - dimension.text.width - 10.0;
        if spare > 0.0 && dimension.text.align == Align::Middle {
            let way = (line_to - line_from).normalize_or_zero() * self.length(spare);
            for (slid, share) in (1_u8..).zip([0.2, -0.2, 0.35, -0.35, 0.5, -0.5]) {
                let text = Text { at: dimension.text.at + way * share, ..dimension.text.clone() };
                let cost = self.text_cost(&text) + SLID_COST * f64::from(slid);
                if cost < best.0 {
                    best = (cost, text);
                }
            }
            if best.0 < ELSEWHERE_COST {
                return (SLID_COST, Dimension { text: best.1, ..dimension });
            }
        }
        let off = DVec2::X * self.length(7.0);
        let mut tries = vec![(right + off, Align::Start, 0.0), (left - off, Align::End, 0.0)];
        if steep {
            // Beside the line higher and lower, then at its ends.
            let (low, high) =
                if line_from.y <= line_to.y { (line_from, line_to) } else { (line_to, line_from) };
            for share in BESIDE_STEEP {
                let at = low.lerp(high, share);
                tries.extend([(at + off, Align::Start, 0.0), (at - off, Align::End, 0.0)]);
            }
            let over = DVec2::Y * self.length(dimension.text.style.line_height() * 0.5 + 4.0);
            for (end, by) in [(high, over), (low, -over)] {
                let at = end + by;
                tries.extend([
                    (at, Align::Middle, 0.0),
                    (at - off, Align::Start, 0.0),
                    (at + off, Align::End, 0.0),
                ]);
            }
        } else {
            // Over the line and under it.
            let along = (right - left).normalize_or(DVec2::X);
            let over = along.perp() * self.length(dimension.text.style.line_height() * 0.5 + 4.0);
            let turned = readable(along);
            tries.extend([over, -over].map(|by| (middle + by, Align::Middle, turned)));
        }
        // A line that is long enough carries its figure, if that can be read there at all.
        let off_line =
            if spare > 0.0 && steep { ELSEWHERE_COST + OFF_LONG_LINE_COST } else { ELSEWHERE_COST };
        for (at, align, angle) in tries {
            let text = Text { at, align, angle, ..dimension.text.clone() };
            let cost = self.text_cost(&text) + off_line;
            if cost < best.0 {
                best = (cost, text);
            }
        }
        let worse = if best.1 == dimension.text { 0.0 } else { ELSEWHERE_COST };
        (worse, Dimension { text: best.1, ..dimension })
    }

    /// Places round about a point of the paper for its figure, px, `off` beside it and over it, the better first, each with what it
    /// costs to stand there.
    pub fn round_about(at: DVec2, off: f64, style: TextStyle) -> impl Iterator<Item = (f64, DVec2, Align)> {
        let (dx, dy) = (off, off + style.size * 0.2);
        let places = [
            (dx, -dy),
            (-dx, -dy),
            (dx, dy),
            (-dx, dy),
            (dx + 2.0, 0.0),
            (-dx - 2.0, 0.0),
            (0.0, -dy - 3.0),
            (0.0, dy + 3.0),
        ];
        (0_u8..).zip(places).map(move |(i, (x, y))| {
            let align = if x > 0.0 {
                Align::Start
            } else if x < 0.0 {
                Align::End
            } else {
                Align::Middle
            };
            (f64::from(i), at + DVec2::new(x, y), align)
        })
    }

    /// Takes the place of a line of the view.
    pub fn take_line(&mut self, from: DVec2, to: DVec2, how: Taken) {
        let (from, to) = (self.px(from), self.px(to));
        self.space.take_line(from, to, how);
    }

    /// Puts the body of a subject down: a box of the view.
    pub fn take_body(&mut self, subject: &Subject, b: &Bounds) {
        let (p, q) = (self.px(b.low), self.px(b.high));
        self.bodies.take(subject, Bounds { low: p.min(q), high: p.max(q) });
    }

    /// Takes the place of a box of the view.
    pub fn take_box(&mut self, b: &Bounds, how: Taken) {
        let (p, q) = (self.px(b.low), self.px(b.high));
        self.space.take(Bounds { low: p.min(q), high: p.max(q) }, how);
    }
}

/// What a step along its line costs a dimension's text.
const SLID_COST: f64 = 4.0;
/// What it costs a dimension's text to stand elsewhere than on its line.
const ELSEWHERE_COST: f64 = 55.0;
/// Where along a steep line, as shares of it, its text is tried beside it once its middle is not free.
const BESIDE_STEEP: [f64; 6] = [0.7, 0.3, 0.85, 0.15, 1.0, 0.0];
/// And beside a steep line that is long enough to carry it.
const OFF_LONG_LINE_COST: f64 = 40.0;
/// A steeper line than this carries a text that is too long for it level beside it, radians.
const UPRIGHT: f64 = 1.2;
/// A dimension line longer than this share of its text carries the text along it, even if that is longer.
const SHORT_LINE: f64 = 0.35;

/// A polygon of the bay in the view.
pub(crate) fn area(polygon: &Polygon, view_from_bay: &PlanPose) -> Shape {
    Shape::Area(polygon.rings().map(|ring| ring.iter().map(|&p| *view_from_bay * p).collect()).collect())
}

/// The angle of a text along a direction, so that it is read from below or from the right, radians.
pub(crate) fn readable(along: DVec2) -> f64 {
    let heading = angle::heading(along);
    let quarter = std::f64::consts::FRAC_PI_2;
    // A hair of slack, so that an upright line always reads from the right.
    if heading > quarter + 1e-6 {
        heading - 2.0 * quarter
    } else if heading <= -quarter + 1e-6 {
        heading + 2.0 * quarter
    } else {
        heading
    }
}
