//! What things and walls are made of, as far as it matters to a sensor's surroundings.

/// What something is made of, in a workshop's words.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Material {
    /// Sheet or solid steel, painted or not.
    Steel,
    /// Aluminium.
    Aluminium,
    /// Wire mesh or expanded metal.
    Mesh,
    /// The body of a car: mostly sheet metal.
    CarBody,
    /// Foil-backed board or insulation.
    Foil,
    /// Concrete.
    Concrete,
    /// Brick or block.
    Brick,
    /// Plasterboard on studs (the studs may be steel).
    Plasterboard,
    /// Wood or wood-based board.
    Wood,
    /// Glass.
    Glass,
    /// Plastic.
    Plastic,
    /// Rubber.
    Rubber,
    /// Cloth or cardboard.
    Cloth,
    /// A person.
    Person,
    /// Not known.
    Unknown,
}

impl Material {
    /// Every material, in the order in which a list shows them.
    pub const ALL: [Self; 15] = [
        Self::Steel,
        Self::Aluminium,
        Self::Mesh,
        Self::CarBody,
        Self::Foil,
        Self::Concrete,
        Self::Brick,
        Self::Plasterboard,
        Self::Wood,
        Self::Glass,
        Self::Plastic,
        Self::Rubber,
        Self::Cloth,
        Self::Person,
        Self::Unknown,
    ];

    /// How much metal what is made of it holds, if nothing more is known: plasterboard hides studs, which may be steel.
    pub const fn metal(self) -> Metal {
        match self {
            Self::Steel | Self::Aluminium | Self::Mesh | Self::CarBody | Self::Foil => Metal::All,
            Self::Plasterboard | Self::Unknown => Metal::Unknown,
            Self::Concrete
            | Self::Brick
            | Self::Wood
            | Self::Glass
            | Self::Plastic
            | Self::Rubber
            | Self::Cloth
            | Self::Person => Metal::None,
        }
    }

    /// Whether daylight comes through a sheet of it: `None` if that is not known. Mesh is mostly holes; plastic may be clear, as
    /// that of a strip curtain is.
    pub const fn lets_light_through(self) -> Option<bool> {
        match self {
            Self::Glass | Self::Mesh => Some(true),
            Self::Plastic | Self::Unknown => None,
            Self::Steel
            | Self::Aluminium
            | Self::CarBody
            | Self::Foil
            | Self::Concrete
            | Self::Brick
            | Self::Plasterboard
            | Self::Wood
            | Self::Rubber
            | Self::Cloth
            | Self::Person => Some(false),
        }
    }
}

/// How much metal something holds, whatever its face is made of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Metal {
    /// None, but for screws and hinges.
    None,
    /// A frame, studs, legs or fittings of metal behind or under another face.
    Frame,
    /// It is of metal.
    All,
    /// Not known.
    Unknown,
}

impl Metal {
    /// Every content, in the order in which a list shows them.
    pub const ALL: [Self; 4] = [Self::None, Self::Frame, Self::All, Self::Unknown];

    /// Whether it counts where metal may not be: `None` if that is not known.
    pub const fn counts(self) -> Option<bool> {
        match self {
            Self::None => Some(false),
            Self::Frame | Self::All => Some(true),
            Self::Unknown => None,
        }
    }
}
