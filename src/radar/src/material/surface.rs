//! What a thing's surface is taken to reflect.

use baywright_geometry::Wavelength;
use baywright_geometry::fresnel::LIGHT_MM_PER_S;
use num_complex::Complex64;

use super::building::{Building, Reach};
use super::slab::{Polarised, half_space, slab};
use crate::level::Band;

/// Panels differ from their thickness by that share either way: common practice, no source.
const GIVE: f64 = 0.03;
/// A band over thicknesses is looked through in so many steps for each half wave in it, at least.
const STEPS: f64 = 16.0;

/// A surface of which nobody publishes figures: estimates of our own, all `common practice, no source`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Own {
    /// Painted sheet metal: the paint is thin beside the wave. -0.5 to 0 dB.
    PaintedMetal,
    /// Metal mesh or expanded metal with openings below half a wave up to some waves: -15 to 0 dB.
    Mesh,
    /// Cloth, curtains, tarpaulins without metal: -35 to -10 dB.
    Cloth,
    /// Outer skin of a car, of sheet metal or of plastic: -15 to 0 dB.
    CarBody,
    /// A person in clothes: -12 to -3 dB.
    Person,
}

impl Own {
    /// All of them.
    pub const ALL: [Self; 5] = [Self::PaintedMetal, Self::Mesh, Self::Cloth, Self::CarBody, Self::Person];

    fn band(self) -> Option<Band> {
        match self {
            Self::PaintedMetal => Band::between(-0.5, 0.0),
            Self::Mesh | Self::CarBody => Band::between(-15.0, 0.0),
            Self::Cloth => Band::between(-35.0, -10.0),
            Self::Person => Band::between(-12.0, -3.0),
        }
    }
}

/// What a surface is of.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Surface {
    /// Bare metal: all comes back.
    Metal,
    /// So thick that nothing comes back from behind: a floor, a wall of concrete.
    Thick(Building),
    /// A panel.
    Panel {
        /// Of what.
        of: Building,
        /// Its thickness, mm, above 0.
        thick_mm: f64,
        /// Whether there are studs, foil, pipes or another piece of metal behind it, anywhere: what goes through may come back.
        metal_behind: bool,
    },
    /// One of our own estimates.
    Own(Own),
    /// Nobody knows.
    Unknown,
}

/// What comes back of the power.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reflected {
    /// dB against all of it, at most 0: over both polarisations, and over the thicknesses that a panel may have.
    pub db: Band,
    /// Whether the material's figures were measured at this frequency.
    pub reach: Reach,
    /// Whether it is an estimate of our own.
    pub is_estimate: bool,
}

impl Surface {
    /// What it reflects at `incidence` radians from the normal. The band goes over TE and TM, as how a wave is polarised to a
    /// surface that may be turned any way is seldom known; over a panel's thickness ±3 %, by which thin ones swing by many dB; and,
    /// with metal behind, over every phase in which what went through comes back in.
    ///
    /// `None` for an unknown surface (whether it matters is not known), a thickness that is not above 0, or an angle outside 0 to
    /// π/2.
    pub fn reflected(&self, incidence: f64, wave: Wavelength) -> Option<Reflected> {
        let certain = |db: Band| Reflected { db, reach: Reach::Covers, is_estimate: false };
        let hz = LIGHT_MM_PER_S / wave.mm();
        match *self {
            Self::Metal => Some(certain(Band::NOTHING)),
            Self::Own(own) => Some(Reflected { is_estimate: true, ..certain(own.band()?) }),
            Self::Thick(of) => {
                let electric = of.at(hz)?;
                let db = between(half_space(electric.eta, incidence)?.powers().into_iter())?;
                Some(Reflected { reach: electric.reach, ..certain(db) })
            }
            Self::Panel { of, thick_mm, metal_behind } => {
                let electric = of.at(hz)?;
                let db = panel(electric.eta, thick_mm, metal_behind, incidence, wave)?;
                Some(Reflected { reach: electric.reach, ..certain(db) })
            }
            Self::Unknown => None,
        }
    }
}

fn panel(eta: Complex64, thick_mm: f64, metal_behind: bool, angle: f64, wave: Wavelength) -> Option<Band> {
    if !(thick_mm > 0.0 && thick_mm.is_finite()) {
        return None;
    }
    let halves = 2.0 * GIVE * thick_mm * eta.norm().sqrt() / (0.5 * wave.mm());
    // A panel so thick that its band holds many half waves swings through all of it in any of them.
    let steps = (STEPS * halves.min(4.0)).ceil().max(2.0) as u32;
    let mut powers = Vec::new();
    for step in 0..=steps {
        let share = 1.0 - GIVE + 2.0 * GIVE * f64::from(step) / f64::from(steps);
        let across = slab(eta, thick_mm * share, angle, wave)?;
        let Polarised { te, tm } = across.reflected;
        for (back, through) in [(te, across.through.te), (tm, across.through.tm)] {
            powers.push(back.norm_sqr());
            if metal_behind {
                // r + t²m/(1 - r m) of a piece that sends back m: at most all of its phase alike, at least against it.
                let (r, t2) = (back.norm(), through.norm_sqr());
                let most = if r < 1.0 { r + t2 / (1.0 - r) } else { 1.0 };
                let least = (r - t2 / (1.0 + r)).max(0.0);
                powers.extend([most.min(1.0), least].map(|amplitude| amplitude * amplitude));
            }
        }
    }
    between(powers.into_iter())
}

/// dB of the least and the most of shares of power, at most 0.
fn between(powers: impl Iterator<Item = f64>) -> Option<Band> {
    let db = powers.map(|power| Band::of((10.0 * libm::log10(power)).min(0.0)));
    db.flatten().reduce(|all, one| all.around(&one))
}
