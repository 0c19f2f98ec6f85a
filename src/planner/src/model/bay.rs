//! A bay: the room and what belongs to it. The room may be a hall that holds several bays.

use baywright_geometry::{DVec2, Polygon, Prism, Span};
use jiff::civil::Date;

use super::{Id, KeptDimension, Known, Levels, MarkCheck, Material, Provenance, Thing};

/// One wall: the room's edge of the same position.
#[derive(Clone, Debug, PartialEq)]
pub struct Wall {
    /// Its name, such as "street wall".
    pub id: Id,
    /// What it is made of.
    pub material: Material,
}

impl Wall {
    /// Whether daylight comes through it. One of which nobody said what it is made of is taken for a wall as others are: who
    /// builds one of glass or mesh says so.
    pub fn lets_light_in(&self) -> bool {
        self.material.lets_light_through() == Some(true)
    }
}

/// What closes an opening.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum OpeningKind {
    /// A door that rolls up: a wall of its material when shut.
    RollerDoor,
    /// A door that swings.
    SwingDoor,
    /// A window: never open for the purposes of space, and a source of light.
    Window,
    /// Nothing closes it.
    Gap,
}

impl OpeningKind {
    /// Whether it can be opened and shut.
    pub const fn is_door(self) -> bool {
        match self {
            Self::RollerDoor | Self::SwingDoor => true,
            Self::Window | Self::Gap => false,
        }
    }
}

/// An opening in a wall.
#[derive(Clone, Debug, PartialEq)]
pub struct Opening {
    /// Its name.
    pub id: Id,
    /// What closes it.
    pub kind: OpeningKind,
    /// The wall it is in, by position.
    pub wall: usize,
    /// From the wall's first corner to where the opening starts.
    pub from_mm: f64,
    /// Its width along the wall.
    pub width_mm: f64,
    /// Its heights above the floor.
    pub span: Span,
    /// What it is made of.
    pub material: Material,
    /// Whether it is shut.
    pub shut: bool,
    /// How far the ground beyond is known to be free and level, square to the wall; zero if not known.
    pub free_beyond_mm: f64,
    /// Whether it is a way out in an emergency.
    pub is_exit: bool,
}

impl Opening {
    /// Whether what has these heights, mm over the floor, fits between its sill and its lintel.
    pub fn lets_through(&self, heights: &Span) -> bool {
        self.span.bottom() <= heights.bottom() && heights.top() <= self.span.top()
    }

    /// Whether nothing closes it now: a window always is closed, a gap never, whatever `shut` says.
    pub const fn is_open(&self) -> bool {
        match self.kind {
            OpeningKind::RollerDoor | OpeningKind::SwingDoor => !self.shut,
            OpeningKind::Window => false,
            OpeningKind::Gap => true,
        }
    }

    /// Whether daylight comes through it: `None` if that is not known of what closes it. A window always lets it in.
    pub fn lets_light_in(&self) -> Option<bool> {
        if self.kind == OpeningKind::Window || self.is_open() {
            return Some(true);
        }
        self.material.lets_light_through()
    }
}

/// What a spot of the floor is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FloorFeatureKind {
    /// A drain with a grate.
    Drain,
    /// A pit.
    Pit,
    /// A joint, step or lip.
    Joint,
}

/// A place in the floor where no mark can be and no stand may rest.
#[derive(Clone, Debug, PartialEq)]
pub struct FloorFeature {
    /// Its name.
    pub id: Id,
    /// What it is.
    pub kind: FloorFeatureKind,
    /// Where it is, bay frame.
    pub outline: Polygon,
    /// What it is made of.
    pub material: Material,
    /// How far it stands proud of the floor, mm; zero if it is flush with it or below.
    pub proud_mm: f64,
}

impl FloorFeature {
    /// What of it stands proud of the floor; `None` if it is flush.
    pub fn solid(&self) -> Option<Prism> {
        let span = Span::new(0.0, self.proud_mm).ok()?;
        Some(Prism::new(self.outline.clone().into(), span))
    }
}

/// One raised runway that a wheel track rests on.
#[derive(Clone, Debug, PartialEq)]
pub struct Runway {
    /// Its name.
    pub id: Id,
    /// Where it is, bay frame.
    pub outline: Polygon,
    /// Its top above the bay's zero, at the height at which it is aimed.
    pub top_mm: f64,
    /// The levels of its top, against `top_mm`, if surveyed at that height. A survey of the floor says nothing of them.
    pub survey: Option<FloorSurvey>,
}

/// The floor's levels as surveyed.
#[derive(Clone, Debug, PartialEq)]
pub struct FloorSurvey {
    /// When it was taken.
    pub taken: Option<Date>,
    /// The levels.
    pub points: Levels,
    /// With what, by whom and how surely.
    pub how: LevelsTaken,
    /// Where they come from.
    pub provenance: Provenance,
}

/// How levels were taken; what nobody entered is `None`.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct LevelsTaken {
    /// The instrument, as the shop calls it.
    pub with: Option<String>,
    /// Who took them.
    pub by: Option<String>,
    /// How far each level may be off, mm either way; the shop's own figure stands in where it is not said.
    pub within_mm: Option<f64>,
}

/// What an area is to be kept free for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum KeepFreeKind {
    /// A way out.
    Exit,
    /// The working space of an electrical panel.
    Panel,
    /// An extinguisher.
    Extinguisher,
}

/// An area of floor that local rules want free.
#[derive(Clone, Debug, PartialEq)]
pub struct KeepFree {
    /// Its name.
    pub id: Id,
    /// What for.
    pub kind: KeepFreeKind,
    /// Where, bay frame.
    pub outline: Polygon,
}

/// One of several bays in one hall: a part of the room in which a car is aimed. Bays may overlap, as a long one does that lies
/// across two others.
#[derive(Clone, Debug, PartialEq)]
pub struct HallBay {
    /// Its name.
    pub id: Id,
    /// Where, bay frame, mm.
    pub outline: Polygon,
}

/// A mark that stays on the floor.
#[derive(Clone, Debug, PartialEq)]
pub struct PermanentMark {
    /// Its name.
    pub id: Id,
    /// Where, bay frame.
    pub at: DVec2,
    /// How far from there it may be laid, mm; `None`: as well as the shop lays marks.
    pub laid_within_mm: Option<f64>,
    /// The mark that a line on the floor goes to from here. One that is not there any more leaves no line.
    pub line_to: Option<Id>,
    /// What was measured whenever it was checked.
    pub checks: Vec<MarkCheck>,
}

impl PermanentMark {
    /// One that was not checked yet, of which nothing is asked and from which no line goes.
    pub const fn new(id: Id, at: DVec2) -> Self {
        Self { id, at, laid_within_mm: None, line_to: None, checks: Vec::new() }
    }
}

impl Bay {
    /// The lines on the floor that go from one mark that stays to another, bay frame, each with the mark that it starts at.
    pub fn floor_lines(&self) -> impl Iterator<Item = (&PermanentMark, [DVec2; 2])> {
        self.marks.iter().filter_map(|own| {
            let other = self.marks.iter().find(|other| own.line_to.as_ref() == Some(&other.id))?;
            (other.id != own.id).then_some((own, [own.at, other.at]))
        })
    }
}

/// A bay and all that belongs to it, whatever car is in it.
#[derive(Clone, Debug, PartialEq)]
pub struct Bay {
    /// The layout's name for files.
    pub id: Id,
    /// The name on the screen.
    pub name: String,
    /// The room from above, bay frame, corners anticlockwise.
    pub room: Polygon,
    /// One wall for each edge of the room's outer ring, in its order.
    pub walls: Vec<Wall>,
    /// How well the walls' places are known.
    pub walls_known: Known,
    /// Clear height under the ceiling.
    pub ceiling_mm: f64,
    /// Doors, windows, gaps.
    pub openings: Vec<Opening>,
    /// Drains, pits, joints.
    pub floor_features: Vec<FloorFeature>,
    /// Raised runways.
    pub runways: Vec<Runway>,
    /// What stands and hangs in it.
    pub things: Vec<Thing>,
    /// Areas that local rules want free.
    pub keep_free: Vec<KeepFree>,
    /// The bays in it, if it is a hall of several; none where all of the room is one bay.
    pub bays: Vec<HallBay>,
    /// The floor's levels, if surveyed.
    pub survey: Option<FloorSurvey>,
    /// Marks that stay.
    pub marks: Vec<PermanentMark>,
    /// Dimensions that were measured and kept.
    pub dimensions: Vec<KeptDimension>,
    /// Where the room's figures come from.
    pub provenance: Provenance,
}
