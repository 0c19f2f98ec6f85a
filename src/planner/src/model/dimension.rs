//! Dimensions that a person measured and keeps with the bay: each end follows what it was laid on.

use baywright_geometry::{DVec2, Outline, PlanPose};

use super::{Bay, Footprint, Id, Wheel};

/// A dimension that is kept: the straight distance on the floor between two ends.
#[derive(Clone, Debug, PartialEq)]
pub struct KeptDimension {
    /// Its name, unique among the bay's dimensions.
    pub id: Id,
    /// Its two ends, in the order in which they were laid.
    pub ends: [DimensionEnd; 2],
}

/// One end of a dimension.
#[derive(Clone, Debug, PartialEq)]
pub struct DimensionEnd {
    /// What it lies on and follows; `None` for a place on the floor.
    pub on: Option<EndOn>,
    /// Where it lies on the floor, bay frame, mm; for one that follows something, where it lay last: it stays there when that
    /// is gone.
    pub at: DVec2,
}

/// What an end lies on. It may name what is not there any more, or not in every arrangement.
#[derive(Clone, Debug, PartialEq)]
pub enum EndOn {
    /// The corner of the room at which this wall starts.
    Corner(Id),
    /// A place of a wall.
    Wall {
        /// Which wall.
        wall: Id,
        /// From the corner at which it starts, mm.
        along_mm: f64,
    },
    /// Where a line from the other end, square to this wall, meets the line of it.
    SquareTo(Id),
    /// A point of a thing.
    Thing {
        /// Which thing.
        thing: Id,
        /// Which point.
        point: ThingPoint,
    },
    /// A mark that stays on the floor.
    Mark(Id),
    /// A mark of the aiming's plan.
    LaidMark(Id),
    /// A point of the car.
    Car(CarPoint),
    /// The floor under the sensor.
    Sensor,
    /// The floor under the middle of a target's face, by its placement.
    Target(Id),
}

/// A point of a thing from above; corners and edges are counted from 0, anticlockwise in its own frame.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ThingPoint {
    /// The middle of the box around it, in its own frame.
    Middle,
    /// A corner.
    Corner(usize),
    /// The middle of the edge that starts at this corner.
    Edge(usize),
    /// The rim of a round one: ahead, left, behind, right in its own frame.
    Rim(usize),
}

/// A point of the car on the floor.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum CarPoint {
    /// Under a tyre's middle.
    Wheel(Wheel),
    /// The middle of the front axle.
    FrontAxle,
    /// The middle of the front bumper.
    FrontBumper,
    /// The middle of the rear bumper.
    RearBumper,
    /// A named point of the body.
    Named(Id),
}

impl ThingPoint {
    /// Every point of a thing of this shape.
    pub fn all(footprint: &Footprint) -> impl Iterator<Item = Self> + use<> {
        let (corners, rim) = match footprint.outline() {
            Outline::Polygon(polygon) => (polygon.outer().len(), 0),
            Outline::Circle(_) => (0, RIM.len()),
        };
        let corners = (0..corners).flat_map(|i| [Self::Corner(i), Self::Edge(i)]);
        corners.chain(std::iter::once(Self::Middle)).chain((0..rim).map(Self::Rim))
    }

    /// Where it is on a thing of this shape in this place, bay frame, mm; `None` if that shape has none.
    pub fn place(self, footprint: &Footprint, bay_from_own: &PlanPose) -> Option<DVec2> {
        let outline = footprint.outline();
        let own = match (self, outline) {
            (Self::Middle, _) => outline.bounds().centre(),
            (Self::Corner(i), Outline::Polygon(polygon)) => *polygon.outer().get(i)?,
            (Self::Edge(i), Outline::Polygon(polygon)) => {
                let corners = polygon.outer();
                let (from, to) = (corners.get(i)?, corners.get((i + 1) % corners.len())?);
                (*from + *to) * 0.5
            }
            (Self::Rim(i), Outline::Circle(circle)) => circle.centre() + *RIM.get(i)? * circle.radius(),
            (Self::Corner(_) | Self::Edge(_), Outline::Circle(_)) | (Self::Rim(_), Outline::Polygon(_)) => {
                return None;
            }
        };
        Some(*bay_from_own * own)
    }
}

/// Where the rim of a round thing is measured from, its own frame.
const RIM: [DVec2; 4] = [DVec2::X, DVec2::Y, DVec2::NEG_X, DVec2::NEG_Y];

impl EndOn {
    /// Where it lies, as far as walls and the marks that stay say, bay frame, mm. `other` is the dimension's other end. `None` for
    /// what they do not say, or what is not there.
    pub fn on_room(&self, bay: &Bay, other: DVec2) -> Option<DVec2> {
        let wall = |id: &Id| bay.wall_ends(bay.walls.iter().position(|own| own.id == *id)?);
        match self {
            Self::Corner(id) => wall(id).map(|(from, _)| from),
            Self::Wall { wall: id, along_mm } => {
                let (from, to) = wall(id)?;
                Some(from + (to - from).try_normalize()? * *along_mm)
            }
            Self::SquareTo(id) => {
                let (from, to) = wall(id)?;
                let along = (to - from).try_normalize()?;
                Some(from + along * (other - from).dot(along))
            }
            Self::Mark(id) => bay.marks.iter().find(|own| own.id == *id).map(|own| own.at),
            Self::Thing { .. } | Self::LaidMark(_) | Self::Car(_) | Self::Sensor | Self::Target(_) => None,
        }
    }
}

impl KeptDimension {
    /// Both ends where `locate` finds them, given what an end lies on and where the other end is; `None` for one that lies on
    /// what is not there. An end square to a wall is looked for from where the other one is now.
    pub fn located(&self, locate: impl Fn(&EndOn, DVec2) -> Option<DVec2>) -> [Option<DVec2>; 2] {
        let [from, to] = &self.ends;
        let find = |end: &DimensionEnd, other: DVec2| match &end.on {
            None => Some(end.at),
            Some(on) => locate(on, other),
        };
        let is_square = |end: &DimensionEnd| matches!(end.on, Some(EndOn::SquareTo(_)));
        if is_square(from) {
            // Two that are each square from the other have no place of their own: this one counts from where that one lay.
            let second = if is_square(to) { Some(to.at) } else { find(to, from.at) };
            let first = find(from, second.unwrap_or(to.at));
            let second = if is_square(to) { find(to, first.unwrap_or(from.at)) } else { second };
            [first, second]
        } else {
            let first = find(from, to.at);
            [first, find(to, first.unwrap_or(from.at))]
        }
    }
}
