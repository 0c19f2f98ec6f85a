//! What a bay can hold: each as a solid with one straight side, at a place that a column says.

use super::support::*;

/// How well the place of a row is known, mm either way.
pub const KNOWN_MM: f64 = 50.0;

/// What there is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Row {
    /// A thing of a kind, on the floor or hanging, and what it is made of.
    Thing(ThingKind, Hangs, Made),
    /// A runway that carries no car.
    IdleRunway,
    /// A wall whose end reaches into the room.
    Wall(Material),
    /// A place in the floor, flush with it.
    Feature(FloorFeatureKind),
    /// A mark that stays on the floor.
    PermanentMark,
    /// The ceiling of the room.
    Ceiling,
    /// Another bay of the hall than that which it is made in, which is the whole room.
    OtherBay,
    /// A place in the floor, standing proud of the floor by a metre.
    Proud(FloorFeatureKind, Made),
}

/// Whether a thing stands or hangs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Hangs {
    /// It stands on the floor.
    No,
    /// It hangs, from 410 mm on.
    Yes,
}

/// What a thing is made of, as far as it matters.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Made {
    /// Of metal.
    Metal,
    /// Of none.
    NoMetal,
    /// Nobody knows.
    Unknown,
    /// Of glass.
    Glass,
}

impl Made {
    const fn material(self, kind: ThingKind) -> Material {
        match (kind, self) {
            (ThingKind::Person, _) => Material::Person,
            (_, Self::Metal) => Material::Steel,
            (_, Self::NoMetal) => Material::Wood,
            (_, Self::Unknown) => Material::Unknown,
            (_, Self::Glass) => Material::Glass,
        }
    }
}

impl Row {
    /// Every row.
    pub fn all() -> Vec<Self> {
        let mut all: Vec<Self> = Vec::new();
        for kind in ThingKind::ALL {
            for hangs in [Hangs::No, Hangs::Yes] {
                // People stand.
                if kind == ThingKind::Person && hangs == Hangs::Yes {
                    continue;
                }
                for made in [Made::Metal, Made::NoMetal, Made::Unknown] {
                    if kind == ThingKind::Person && made == Made::Metal {
                        continue;
                    }
                    all.push(Self::Thing(kind, hangs, made));
                }
            }
        }
        // A pane on its own, or a cabinet's doors.
        for kind in [ThingKind::Cabinet, ThingKind::Other] {
            all.extend([Hangs::No, Hangs::Yes].map(|hangs| Self::Thing(kind, hangs, Made::Glass)));
        }
        all.extend([Self::IdleRunway, Self::PermanentMark, Self::Ceiling, Self::OtherBay]);
        all.extend(Material::ALL.map(Self::Wall));
        for kind in [FloorFeatureKind::Drain, FloorFeatureKind::Pit, FloorFeatureKind::Joint] {
            all.push(Self::Feature(kind));
            all.extend([Made::Metal, Made::NoMetal, Made::Unknown].map(|made| Self::Proud(kind, made)));
        }
        all
    }

    /// Whether it stands for all others of its kind where who asks makes no difference to what it is.
    pub const fn is_typical(self) -> bool {
        match self {
            Self::Thing(kind, ..) => {
                matches!(kind, ThingKind::Cabinet | ThingKind::LiftArm | ThingKind::Lamp | ThingKind::Person)
            }
            Self::Wall(material) => matches!(material, Material::Brick | Material::Steel | Material::Unknown),
            Self::IdleRunway
            | Self::PermanentMark
            | Self::Ceiling
            | Self::OtherBay
            | Self::Feature(_)
            | Self::Proud(..) => true,
        }
    }

    /// Whether it hangs.
    pub const fn hangs(self) -> bool {
        matches!(self, Self::Thing(_, Hangs::Yes, _))
    }

    /// Whether a finding's subject is it.
    pub fn is(self, subject: &Subject) -> bool {
        match self {
            Self::Thing(..) => *subject == Subject::Thing("row".into()),
            Self::IdleRunway => *subject == Subject::Runway("row".into()),
            // It is named by the mark beside it.
            Self::PermanentMark => matches!(subject, Subject::Mark(_)),
            Self::Ceiling => *subject == Subject::Ceiling,
            Self::OtherBay => *subject == Subject::HallBay("row".into()),
            Self::Wall(_) => matches!(subject, Subject::Wall(id) if id.as_str().starts_with("row")),
            Self::Feature(_) | Self::Proud(..) => *subject == Subject::FloorFeature("row".into()),
        }
    }

    /// The heights that it fills.
    pub fn span(self) -> Span {
        match self {
            Self::Thing(_, Hangs::Yes, _) => span(410.0, 700.0),
            Self::Thing(_, Hangs::No, _) | Self::IdleRunway | Self::Proud(..) => span(0.0, 1_000.0),
            Self::Wall(_) | Self::Ceiling | Self::OtherBay => span(0.0, 3_000.0),
            Self::Feature(_) | Self::PermanentMark => span(0.0, 0.001),
        }
    }

    /// What stands on the floor or proud of it is no higher than this, mm.
    pub fn lie_low(self, arrangement: &mut Arrangement, top_mm: f64) {
        match self {
            Self::Thing(_, Hangs::No, _) => {
                arrangement.bay.things.iter_mut().for_each(|own| own.span = span(0.0, top_mm));
            }
            Self::Proud(..) => {
                arrangement.bay.floor_features.iter_mut().for_each(|own| own.proud_mm = top_mm);
            }
            Self::Thing(_, Hangs::Yes, _)
            | Self::IdleRunway
            | Self::Wall(_)
            | Self::Feature(_)
            | Self::PermanentMark
            | Self::OtherBay
            | Self::Ceiling => {}
        }
    }

    /// Puts it into a bay: its straight side faces right, at this place, and it reaches `width` to the left.
    pub fn put(self, arrangement: &mut Arrangement, at: DVec2, length: f64, width: f64) {
        let (low, high) = (at - DVec2::new(length * 0.5, 0.0), at + DVec2::new(length * 0.5, width));
        match self {
            Self::Thing(kind, _, made) => {
                let middle = (low + high) * 0.5;
                let mut thing = cabinet("row", middle.into(), length, width);
                (thing.kind, thing.material, thing.span) = (kind, made.material(kind), self.span());
                // What a kind holds under any skin is said otherwise here.
                thing.metal = match made {
                    Made::Metal => None,
                    Made::NoMetal | Made::Glass => Some(Metal::None),
                    Made::Unknown => Some(Metal::Unknown),
                };
                thing.place.known = Known::Within(KNOWN_MM);
                arrangement.bay.things.push(thing);
            }
            Self::IdleRunway => {
                let outline = Polygon::rectangle(low, high).unwrap();
                arrangement.bay.runways.push(Runway {
                    id: "row".into(),
                    outline,
                    top_mm: 1_000.0,
                    survey: None,
                });
                arrangement.bay.walls_known = Known::Within(KNOWN_MM);
            }
            // It is put by its height.
            Self::Ceiling => {}
            Self::OtherBay => {
                let outline = Polygon::rectangle(low, high).unwrap();
                let own = HallBay { id: "own".into(), outline: arrangement.bay.room.clone() };
                arrangement.bay.bays = vec![own, HallBay { id: "row".into(), outline }];
                arrangement.in_bay = Some("own".into());
            }
            Self::PermanentMark => {
                arrangement.bay.marks.push(PermanentMark::new("row".into(), at));
            }
            Self::Wall(material) => {
                let half = length * 0.5;
                let tip = [
                    (at.x + half, 6_000.0),
                    (at.x + half, at.y),
                    (at.x - half, at.y),
                    (at.x - half, 6_000.0),
                ];
                let corners = [(0.0, 0.0), (12_000.0, 0.0), (12_000.0, 6_000.0)]
                    .into_iter()
                    .chain(tip)
                    .chain([(0.0, 6_000.0)]);
                arrangement.bay.room = Polygon::simple(corners.map(DVec2::from).collect()).unwrap();
                let name =
                    |i: usize| if (3..6).contains(&i) { format!("row {i}") } else { format!("wall {i}") };
                let wall = |i: usize| Wall { id: name(i).as_str().into(), material };
                arrangement.bay.walls = (0..8).map(wall).collect();
                arrangement.bay.walls_known = Known::Within(KNOWN_MM);
            }
            Self::Feature(kind) | Self::Proud(kind, _) => {
                let outline = Polygon::rectangle(low, high).unwrap();
                let (material, proud_mm) = match self {
                    Self::Proud(_, made) => (made.material(ThingKind::Other), self.span().top()),
                    _ => (Material::Steel, 0.0),
                };
                let id = "row".into();
                arrangement.bay.floor_features.push(FloorFeature { id, kind, outline, material, proud_mm });
                arrangement.bay.walls_known = Known::Within(KNOWN_MM);
            }
        }
    }
}
