//! The drawing list: everything that is seen, in the order in which it is painted.

use baywright_planner::Subject;
use baywright_planner::geometry::{Bounds, DVec2, DVec3, PlanPose};

use crate::role::Role;
use crate::sign::SignKind;
use crate::text::{Align, TextStyle};

/// px for each mm of paper: 96 px to the inch, as CSS and SVG have it.
pub const PX_PER_PAPER_MM: f64 = 96.0 / 25.4;

/// How a list lies on paper.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Placing {
    /// Where its origin lies, px, y down.
    pub origin: DVec2,
    /// px for each of its mm.
    pub px_per_mm: f64,
}

impl Placing {
    /// A place of the list on the paper, px, y down.
    pub fn paper_point(&self, p: DVec2) -> DVec2 {
        self.origin + DVec2::new(p.x, -p.y) * self.px_per_mm
    }

    /// A place of the paper in the list, mm.
    pub fn list_point(&self, px: DVec2) -> DVec2 {
        let p = (px - self.origin) / self.px_per_mm;
        DVec2::new(p.x, -p.y)
    }
}

/// Which view.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum Projection {
    /// From above; y is up on the paper.
    #[default]
    Top,
    /// From the right of the axis; x along it, y up from the floor.
    Side,
}

/// A text in its place.
#[derive(Clone, Debug, PartialEq)]
pub struct Text {
    /// Where the part named by `align` stands, half way up the capitals; view frame, mm.
    pub at: DVec2,
    /// One line of text.
    pub text: String,
    /// Size and weight.
    pub style: TextStyle,
    /// Which part of it stands at `at`.
    pub align: Align,
    /// Turned anticlockwise as seen, radians.
    pub angle: f64,
    /// Its width as measured when the list was built, px.
    pub width: f64,
    /// Whether what lies under it is painted over first, so that it stays legible.
    pub masked: bool,
}

/// A distance shown as a line with oblique ticks between two extension lines.
#[derive(Clone, Debug, PartialEq)]
pub struct Dimension {
    /// One of the two points whose distance is shown; view frame, mm.
    pub from: DVec2,
    /// The other.
    pub to: DVec2,
    /// Where the dimension line starts: abreast of `from`.
    pub line_from: DVec2,
    /// Where it ends: abreast of `to`.
    pub line_to: DVec2,
    /// What it says.
    pub text: Text,
}

/// Half the length of a tick, px, along x and y.
const TICK_PX: f64 = 3.0;
/// How far an extension line stays off the point it belongs to, and how far it runs past the dimension line, px.
const EXTENSION_GAP_PX: f64 = 3.0;

/// The strokes of a dimension, view frame, mm.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct DimensionStrokes {
    /// The dimension line.
    pub line: Option<[DVec2; 2]>,
    /// The ticks: bolder.
    pub ticks: Vec<[DVec2; 2]>,
    /// The extension lines: lighter.
    pub extensions: Vec<[DVec2; 2]>,
}

impl Dimension {
    /// What to draw for it at a scale of so many px for each mm.
    pub fn strokes(&self, px_per_mm: f64) -> DimensionStrokes {
        let px = 1.0 / px_per_mm;
        let along = (self.line_to - self.line_from).normalize_or_zero();
        if along == DVec2::ZERO {
            return DimensionStrokes::default();
        }
        // Half way between the line's direction and square to it.
        let oblique = (along + along.perp()) * (TICK_PX * px);
        let ticks = [self.line_from, self.line_to].map(|end| [end - oblique, end + oblique]).to_vec();
        let extension = |point: DVec2, end: DVec2| {
            let off = end - point;
            let length = off.length();
            let gap = EXTENSION_GAP_PX * px;
            (length > 2.0 * gap).then(|| [point + off * (gap / length), end + off * (gap / length)])
        };
        let extensions = [extension(self.from, self.line_from), extension(self.to, self.line_to)];
        DimensionStrokes {
            line: Some([self.line_from, self.line_to]),
            ticks,
            extensions: extensions.into_iter().flatten().collect(),
        }
    }

    /// The distance that it spans along its line, mm.
    pub fn spans(&self) -> f64 {
        self.line_from.distance(self.line_to)
    }
}

/// A small figure of a fixed size on the paper.
#[derive(Clone, Debug, PartialEq)]
pub struct Sign {
    /// Its middle; view frame, mm.
    pub at: DVec2,
    /// Which figure.
    pub kind: SignKind,
    /// From its middle to its edge, px.
    pub reach: f64,
    /// What stands in it, centred; empty for nothing.
    pub text: String,
    /// How that is set.
    pub style: TextStyle,
}

/// What is seen.
#[derive(Clone, Debug, PartialEq)]
pub enum Shape {
    /// An area: rings, not closed by repeating the first corner; what an odd number of rings surround is inside.
    Area(Vec<Vec<DVec2>>),
    /// A disc.
    Disc {
        /// Its middle.
        centre: DVec2,
        /// Its radius, mm.
        radius: f64,
    },
    /// A line through points.
    Line(Vec<DVec2>),
    /// A distance.
    Dimension(Dimension),
    /// A small figure.
    Sign(Sign),
    /// A text.
    Text(Text),
}

/// One thing painted.
#[derive(Clone, Debug, PartialEq)]
pub struct Item {
    /// What it is: decides its colours, strokes and when it is painted.
    pub role: Role,
    /// What it shows, if it is something that can be pointed at.
    pub subject: Option<Subject>,
    /// The finding it belongs to, by position in [`baywright_planner::Assessment::findings`].
    pub finding: Option<usize>,
    /// Its shape.
    pub shape: Shape,
}

/// A view, drawn: it knows its own frame, scale and window, and nothing of what may stand around it.
#[derive(Clone, Debug, PartialEq)]
pub struct Drawing {
    /// Which view.
    pub projection: Projection,
    /// The size of its window, px; what reaches further is cut off.
    pub size: DVec2,
    /// px for each mm.
    pub px_per_mm: f64,
    /// Where the view's origin lies in the window, px, y down.
    pub origin: DVec2,
    /// The view's plan frame in the bay: for the top view its own x and y axes, for the side view its x axis.
    pub bay_from_view: PlanPose,
    /// Everything painted, in order.
    pub items: Vec<Item>,
}

impl Drawing {
    /// Its window, px.
    pub fn window(&self) -> Bounds {
        Bounds { low: DVec2::ZERO, high: self.size }
    }

    /// How it lies in its window.
    pub const fn placing(&self) -> Placing {
        Placing { origin: self.origin, px_per_mm: self.px_per_mm }
    }

    /// A millimetre of paper is so many of the bay.
    pub fn one_to(&self) -> f64 {
        PX_PER_PAPER_MM / self.px_per_mm
    }

    /// A place of the view on the paper of its window, px, y down.
    pub fn paper_point(&self, p: DVec2) -> DVec2 {
        self.placing().paper_point(p)
    }

    /// A place of that paper in the view, mm.
    pub fn view_point(&self, px: DVec2) -> DVec2 {
        self.placing().list_point(px)
    }

    /// A place of the bay, with its height, on the paper, px, y down.
    pub fn paper_point_of(&self, at: DVec3) -> DVec2 {
        let own = self.bay_from_view.inverse() * at.truncate();
        self.paper_point(match self.projection {
            Projection::Top => own,
            Projection::Side => DVec2::new(own.x, at.z),
        })
    }

    /// The items that show a subject.
    pub fn showing<'a>(&'a self, subject: &'a Subject) -> impl Iterator<Item = &'a Item> {
        self.items.iter().filter(move |item| item.subject.as_ref() == Some(subject))
    }
}

impl Shape {
    /// Calls `f` with every place of the shape, view frame, mm.
    pub fn each_point(&self, mut f: impl FnMut(DVec2)) {
        match self {
            Self::Area(rings) => rings.iter().flatten().for_each(|&p| f(p)),
            Self::Disc { centre, radius } => {
                f(*centre - DVec2::splat(*radius));
                f(*centre + DVec2::splat(*radius));
            }
            Self::Line(points) => points.iter().for_each(|&p| f(p)),
            Self::Dimension(d) => [d.from, d.to, d.line_from, d.line_to, d.text.at].into_iter().for_each(f),
            Self::Sign(sign) => f(sign.at),
            Self::Text(text) => f(text.at),
        }
    }
}
