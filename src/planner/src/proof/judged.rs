//! What does not fit, by the names of marks.

use baywright_survey::laid::{Fit, Wrong};

use super::{Doubt, Off};
use crate::model::Id;
use crate::scene::Scene;

/// `held`: from, to and what was read, mm, in the readings' order.
pub(super) fn doubt(fit: &Fit, held: &[(&Id, &Id, f64)], scene: &Scene) -> Doubt {
    let off = |own: &Wrong| match own {
        Wrong::Reading { nth, reads_long_mm, .. } => {
            let (from, to, read_mm) = held.get(*nth)?;
            Some(Off::Reading {
                from: (*from).clone(),
                to: (*to).clone(),
                reads_long_mm: *reads_long_mm,
                likely_mm: read_mm - reads_long_mm,
            })
        }
        Wrong::Mark { mark, by, .. } => Some(Off::Mark { mark: scene.marks.get(*mark)?.id.clone(), by: *by }),
    };
    match fit {
        Fit::Unread => Doubt::Unread,
        Fit::Fits => Doubt::Fits,
        Fit::One(own) => off(own).map_or(Doubt::Fits, Doubt::One),
        Fit::MoreThanOne(own) => off(own).map_or(Doubt::Fits, Doubt::MoreThanOne),
        Fit::CannotTell(all) => Doubt::CannotTell(all.iter().filter_map(off).collect()),
    }
}
