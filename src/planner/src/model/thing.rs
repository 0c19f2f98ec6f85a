//! Things that stand, hang or lie in a bay.

use baywright_geometry::{Circle, DVec2, Outline, PlanPose, Polygon, Prism, ShapeFault, Span};

use super::{Id, Material, Metal};

/// What kind of thing it is: decides how it is drawn and what it means to some keep-clear zones.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum ThingKind {
    /// A tall cabinet.
    Cabinet,
    /// A tool chest on castors.
    ToolChest,
    /// A work bench.
    Bench,
    /// A shelf or rack.
    Shelf,
    /// A trolley.
    Trolley,
    /// A column of the building.
    Column,
    /// The upright of a lift.
    LiftPost,
    /// An arm of a lift.
    LiftArm,
    /// A drum or barrel.
    Drum,
    /// Another car, parked.
    ParkedCar,
    /// A mesh fence.
    Fence,
    /// A bin.
    Bin,
    /// A person.
    Person,
    /// A lamp or other source of light.
    Lamp,
    /// A heater or duct.
    Heater,
    /// The tracks of a door overhead.
    DoorTrack,
    /// A beam or pipe overhead.
    Beam,
    /// Anything else.
    Other,
}

impl ThingKind {
    /// How much metal is in such a thing whatever its face is made of, if nobody says (common practice, no source): some are steel
    /// under any skin, some may well be.
    pub const fn metal(self) -> Metal {
        match self {
            Self::LiftPost | Self::LiftArm | Self::ParkedCar | Self::Heater | Self::DoorTrack => Metal::Frame,
            // Runners and drawers, a gear tray, the steel in concrete.
            Self::ToolChest | Self::Lamp | Self::Column => Metal::Unknown,
            Self::Cabinet
            | Self::Bench
            | Self::Shelf
            | Self::Trolley
            | Self::Drum
            | Self::Fence
            | Self::Bin
            | Self::Person
            | Self::Beam
            | Self::Other => Metal::None,
        }
    }

    /// Every kind.
    pub const ALL: [Self; 18] = [
        Self::Cabinet,
        Self::ToolChest,
        Self::Bench,
        Self::Shelf,
        Self::Trolley,
        Self::Column,
        Self::LiftPost,
        Self::LiftArm,
        Self::Drum,
        Self::ParkedCar,
        Self::Fence,
        Self::Bin,
        Self::Person,
        Self::Lamp,
        Self::Heater,
        Self::DoorTrack,
        Self::Beam,
        Self::Other,
    ];
}

/// Its shape from above, in its own frame: origin in the middle, x along its length.
#[derive(Clone, Debug, PartialEq)]
pub enum Shape {
    /// A rectangle, `length` along its own x, `width` along its own y.
    Rectangle {
        /// Along its own x.
        length_mm: f64,
        /// Along its own y.
        width_mm: f64,
    },
    /// Round.
    Round {
        /// Across.
        diameter_mm: f64,
    },
    /// Any outline, in its own frame.
    Outline(Vec<DVec2>),
}

impl Shape {
    /// The shape in its own frame.
    ///
    /// # Errors
    /// If the figures make no shape.
    pub fn outline(&self) -> Result<Outline, ShapeFault> {
        Ok(match self {
            Self::Rectangle { length_mm: length, width_mm: width } => {
                let half = DVec2::new(*length, *width) * 0.5;
                Polygon::rectangle(-half, half)?.into()
            }
            Self::Round { diameter_mm: diameter } => Circle::new(DVec2::ZERO, diameter * 0.5)?.into(),
            Self::Outline(corners) => Polygon::simple(corners.clone())?.into(),
        })
    }
}

/// A shape and the outline that it makes, in its own frame: the one is never without the other.
#[derive(Clone, Debug, PartialEq)]
pub struct Footprint {
    shape: Shape,
    outline: Outline,
}

impl Footprint {
    /// What a shape covers.
    ///
    /// # Errors
    /// If the figures make no shape.
    pub fn new(shape: Shape) -> Result<Self, ShapeFault> {
        Ok(Self { outline: shape.outline()?, shape })
    }

    /// The shape, as it was given.
    pub const fn shape(&self) -> &Shape {
        &self.shape
    }

    /// The outline that it makes.
    pub const fn outline(&self) -> &Outline {
        &self.outline
    }
}

/// How well its place is known; how much that is in figures, the shop's settings say ([`super::Shop::within`]).
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Known {
    /// Measured with a tape.
    Taped,
    /// Placed by eye: as well as this shop's settings say.
    ByEye,
    /// Placed by eye in a file of a time when that meant ± 50 mm to everybody; nobody looked at it since.
    ByEyeOlder,
    /// Within this many millimetres, as entered.
    Within(f64),
}

impl Known {
    /// ± 50 mm, a hand's breadth: what by eye meant in layouts up to version 3 (common practice, no source).
    pub const BY_EYE_OLDER_MM: f64 = 50.0;
}

/// Where something stands, and how well that is known.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Place {
    /// Bay from its own frame.
    pub at: PlanPose,
    /// How well that is known.
    pub known: Known,
}

impl Place {
    /// The same place, moved by so much, known as well as before.
    pub fn shifted(self, by: DVec2) -> Self {
        Self { at: self.at.shifted(by), ..self }
    }
}

/// What it takes to move it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Effort {
    /// One person pushes or carries it (or walks away).
    OnePerson,
    /// It takes two.
    TwoPeople,
    /// It takes a fork lift.
    ForkLift,
    /// It stays where it is.
    Fixed,
}

impl Effort {
    /// Every effort, the least first.
    pub const ALL: [Self; 4] = [Self::OnePerson, Self::TwoPeople, Self::ForkLift, Self::Fixed];
}

/// A thing in the bay.
#[derive(Clone, Debug, PartialEq)]
pub struct Thing {
    /// Its name, unique in the bay.
    pub id: Id,
    /// What it is.
    pub kind: ThingKind,
    /// What it covers, in its own frame.
    pub footprint: Footprint,
    /// Where it stands, and how well that is known.
    pub place: Place,
    /// From its underside to its top, mm above the floor.
    pub span: Span,
    /// What its face is made of.
    pub material: Material,
    /// How much metal it holds, if that is known otherwise than by its face; see [`Self::metal_content`].
    pub metal: Option<Metal>,
    /// What it takes to move it.
    pub effort: Effort,
    /// Whether the hand may move it on the screen.
    pub locked: bool,
}

impl Thing {
    /// The solid that it fills, in the bay.
    pub fn prism(&self) -> Prism {
        Prism::new(self.footprint.outline.placed(&self.place.at), self.span)
    }

    /// How much metal it holds: as was said, or as its face and its kind say, the more of the two. A face of metal is metal,
    /// whatever was said.
    pub const fn metal_content(&self) -> Metal {
        match (self.material.metal(), self.metal, self.kind.metal()) {
            (Metal::All, _, _) => Metal::All,
            (_, Some(said), _) => said,
            (_, None, Metal::All) => Metal::All,
            (Metal::Frame, None, _) | (_, None, Metal::Frame) => Metal::Frame,
            (Metal::Unknown, None, _) | (_, None, Metal::Unknown) => Metal::Unknown,
            (Metal::None, None, Metal::None) => Metal::None,
        }
    }

    /// Whether it is a person: by its kind or by its material, either.
    pub fn is_person(&self) -> bool {
        self.kind == ThingKind::Person || self.material == Material::Person
    }
}
