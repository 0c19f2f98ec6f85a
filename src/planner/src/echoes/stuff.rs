//! How much of a wave comes back from what a thing is made of.

use baywright_geometry::Wavelength;
use baywright_radar::level::Band;
use baywright_radar::material::{Building, Own, Reach, Surface};

use super::around::Stuff;
use crate::model::Material;

/// A board of a wall, mm: common practice, no source.
const BOARD_MM: f64 = 12.5;
/// A board of wood, mm: common practice, no source.
const WOOD_MM: f64 = 18.0;
/// A pane, mm: common practice, no source.
const PANE_MM: f64 = 6.0;
/// Plastic and rubber, of which no published row is at hand: of ε′ up to 4 a sheet reflects at most ((ε′ - 1)/(ε′ + 1))² = 0.36 of the
/// power, a quarter of a wave thick (Fresnel's formulas), and nothing at half a wave.
const PLASTIC_DB: f64 = -4.4;

/// What comes back, and how well that is known.
#[derive(Clone, Copy, Debug)]
pub(super) struct Reflected {
    /// dB against all of it, at most 0.
    pub db: Band,
    /// Whether it is known what it is made of.
    pub is_known: bool,
    /// Whether its figures were measured at the sensor's frequency.
    pub reach: Reach,
}

impl Reflected {
    /// All of it.
    const WHOLE: Self = Self { db: Band::NOTHING, is_known: true, reach: Reach::Covers };

    /// One after the other.
    fn and(&self, other: &Self) -> Option<Self> {
        Some(Self {
            db: self.db.plus(&other.db)?,
            is_known: self.is_known && other.is_known,
            reach: self.reach.max(other.reach),
        })
    }

    /// What all of these together send on, one after the other.
    pub fn all(mut each: impl Iterator<Item = Self>) -> Option<Self> {
        each.try_fold(Self::WHOLE, |sum, one| sum.and(&one))
    }

    /// What a wave loses by it, dB.
    pub fn lost_db(&self) -> Option<Band> {
        Band::between(-self.db.low(), -self.db.high())
    }
}

/// The surface of what published figures or our own estimates are of; `None` for the rest.
fn surface(stuff: Stuff) -> Option<Surface> {
    let metal_behind = stuff.metal.counts() != Some(false);
    let panel = |of, thick_mm| Surface::Panel { of, thick_mm, metal_behind };
    Some(match stuff.material {
        Material::Steel | Material::Aluminium | Material::Foil => Surface::Own(Own::PaintedMetal),
        Material::Mesh => Surface::Own(Own::Mesh),
        Material::CarBody => Surface::Own(Own::CarBody),
        Material::Person => Surface::Own(Own::Person),
        Material::Concrete => Surface::Thick(Building::Concrete),
        Material::Brick => Surface::Thick(Building::Brick),
        Material::Plasterboard => panel(Building::Plasterboard, BOARD_MM),
        Material::Wood => panel(Building::Wood, WOOD_MM),
        Material::Glass => panel(Building::Glass, PANE_MM),
        Material::Cloth if !metal_behind => Surface::Own(Own::Cloth),
        Material::Cloth | Material::Plastic | Material::Rubber | Material::Unknown => return None,
    })
}

/// What comes back at so many radians from the normal. Of what nobody knows anything up to all of it.
pub(super) fn reflected(stuff: Stuff, incidence: f64, wave: Wavelength) -> Reflected {
    let counts = stuff.metal.counts();
    // Whether there is metal behind a face of another kind decides most of what comes back.
    let is_known = stuff.material != Material::Unknown && counts.is_some();
    if let Some(found) = surface(stuff).and_then(|own| own.reflected(incidence, wave)) {
        return Reflected { db: found.db, is_known, reach: found.reach };
    }
    let most = match (stuff.material, counts) {
        (Material::Plastic | Material::Rubber, Some(false)) => PLASTIC_DB,
        _ => 0.0,
    };
    let db = Band::between(f64::NEG_INFINITY, most).unwrap_or(Band::NOTHING);
    Reflected { db, is_known, reach: Reach::Covers }
}
