//! The building: what of a bay is built, with what stands in it. An arrangement may have one of its own, as it is planned;
//! the floor's levels and the marks that stay on it are measured, and the bay's in every arrangement.

use std::borrow::Cow;

use baywright_geometry::Polygon;

use super::{
    Bay, FloorFeature, FloorSurvey, HallBay, Id, KeepFree, KeptDimension, Known, Layout, Opening,
    PermanentMark, Provenance, Runway, SavedArrangement, Thing, Wall,
};

/// The part of a bay that an arrangement may have otherwise; each field means what the field of that name of a [`Bay`] does.
#[derive(Clone, Debug, PartialEq)]
pub struct Building {
    /// The room from above, bay frame, corners anticlockwise.
    pub room: Polygon,
    /// One wall for each edge of the room's outer ring, in its order.
    pub walls: Vec<Wall>,
    /// How well the walls' places are known.
    pub walls_known: Known,
    /// Clear height under the ceiling, mm.
    pub ceiling_mm: f64,
    /// Doors, windows, gaps, each in one of these walls.
    pub openings: Vec<Opening>,
    /// Drains, pits, joints.
    pub floor_features: Vec<FloorFeature>,
    /// Raised runways.
    pub runways: Vec<Runway>,
    /// What stands and hangs in it.
    pub things: Vec<Thing>,
    /// Areas that local rules want free.
    pub keep_free: Vec<KeepFree>,
    /// The bays in it, if it is a hall of several.
    pub bays: Vec<HallBay>,
    /// Where the room's figures come from.
    pub provenance: Provenance,
}

/// The part that every arrangement shares with the bay: its names, and what was measured on its floor.
#[derive(Clone, Debug, PartialEq)]
pub struct Ground {
    /// The layout's name for files.
    pub id: Id,
    /// The name on the screen.
    pub name: String,
    /// The floor's levels, if surveyed.
    pub survey: Option<FloorSurvey>,
    /// Marks that stay.
    pub marks: Vec<PermanentMark>,
    /// Dimensions that were measured and kept.
    pub dimensions: Vec<KeptDimension>,
}

impl Bay {
    /// The two parts of a bay.
    pub fn into_parts(self) -> (Ground, Building) {
        let Self {
            id,
            name,
            room,
            walls,
            walls_known,
            ceiling_mm,
            openings,
            floor_features,
            runways,
            things,
            keep_free,
            bays,
            survey,
            marks,
            dimensions,
            provenance,
        } = self;
        let building = Building {
            room,
            walls,
            walls_known,
            ceiling_mm,
            openings,
            floor_features,
            runways,
            things,
            keep_free,
            bays,
            provenance,
        };
        (Ground { id, name, survey, marks, dimensions }, building)
    }

    /// The bay of two parts.
    pub fn of_parts(ground: Ground, building: Building) -> Self {
        let Ground { id, name, survey, marks, dimensions } = ground;
        let Building {
            room,
            walls,
            walls_known,
            ceiling_mm,
            openings,
            floor_features,
            runways,
            things,
            keep_free,
            bays,
            provenance,
        } = building;
        Self {
            id,
            name,
            room,
            walls,
            walls_known,
            ceiling_mm,
            openings,
            floor_features,
            runways,
            things,
            keep_free,
            bays,
            survey,
            marks,
            dimensions,
            provenance,
        }
    }

    /// The names of all that findings speak of; permanent marks have their own numbers.
    pub fn names(&self) -> impl Iterator<Item = &Id> {
        let Self { walls, openings, floor_features, runways, things, keep_free, bays, .. } = self;
        names((walls, openings, floor_features, runways, things, keep_free, bays))
    }

    fn ground(&self) -> Ground {
        let Self { id, name, survey, marks, dimensions, .. } = self;
        Ground {
            id: id.clone(),
            name: name.clone(),
            survey: survey.clone(),
            marks: marks.clone(),
            dimensions: dimensions.clone(),
        }
    }
}

impl Building {
    /// The names of all that findings speak of.
    pub fn names(&self) -> impl Iterator<Item = &Id> {
        let Self { walls, openings, floor_features, runways, things, keep_free, bays, .. } = self;
        names((walls, openings, floor_features, runways, things, keep_free, bays))
    }
}

type Named<'a> =
    (&'a [Wall], &'a [Opening], &'a [FloorFeature], &'a [Runway], &'a [Thing], &'a [KeepFree], &'a [HallBay]);

fn names<'a>(
    (walls, openings, features, runways, things, areas, bays): Named<'a>,
) -> impl Iterator<Item = &'a Id> {
    let walls = walls.iter().map(|own| &own.id);
    let built = walls.chain(openings.iter().map(|own| &own.id)).chain(features.iter().map(|own| &own.id));
    let placed = runways.iter().map(|own| &own.id).chain(things.iter().map(|own| &own.id));
    let parts = areas.iter().map(|own| &own.id).chain(bays.iter().map(|own| &own.id));
    built.chain(placed).chain(parts)
}

impl Layout {
    /// The bay that an arrangement is made in: with its own building, if it has one; its things at home, its doors as they
    /// are there.
    pub fn bay_of(&self, saved: &SavedArrangement) -> Cow<'_, Bay> {
        match &saved.building {
            None => Cow::Borrowed(&self.bay),
            Some(own) => Cow::Owned(Bay::of_parts(self.bay.ground(), Building::clone(own))),
        }
    }

    /// Makes this the bay that the arrangement at this position is made in. Where it has its own building, only that
    /// becomes another; the floor's levels, marks, dimensions and names become the bay's everywhere.
    pub fn set_bay_of(&mut self, arrangement: usize, bay: Bay) {
        match self.arrangements.get_mut(arrangement).and_then(|own| own.building.as_mut()) {
            None => self.bay = bay,
            Some(own) => {
                let (ground, building) = bay.into_parts();
                **own = building;
                let Ground { id, name, survey, marks, dimensions } = ground;
                (self.bay.id, self.bay.name, self.bay.survey, self.bay.marks) = (id, name, survey, marks);
                self.bay.dimensions = dimensions;
            }
        }
    }

    /// The things at home, in the bay that the arrangement at this position is made in.
    pub fn things_of(&self, arrangement: usize) -> &[Thing] {
        let own = self.arrangements.get(arrangement).and_then(|own| own.building.as_ref());
        own.map_or(&self.bay.things, |own| &own.things)
    }

    /// The same, to change them.
    pub fn things_of_mut(&mut self, arrangement: usize) -> &mut Vec<Thing> {
        match self.arrangements.get_mut(arrangement).and_then(|own| own.building.as_mut()) {
            Some(own) => &mut own.things,
            None => &mut self.bay.things,
        }
    }

    /// The arrangements that are made in the same bay as the one at this position, that one among them: all without a building
    /// of their own, or it alone.
    pub fn in_same_bay(&mut self, arrangement: usize) -> impl Iterator<Item = &mut SavedArrangement> {
        let is_alone = self.arrangements.get(arrangement).is_some_and(|own| own.building.is_some());
        let all = self.arrangements.iter_mut().enumerate();
        all.filter(move |(at, own)| if is_alone { *at == arrangement } else { own.building.is_none() })
            .map(|(_, own)| own)
    }
}
