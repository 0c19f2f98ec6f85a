//! What was read of stands. Whether their placements exist is known with the profile.

use super::{Faults, limits};
use crate::model::StandRead;

pub(super) fn check(path: &str, all: &[StandRead], faults: &mut Faults) {
    faults.count(path, all.len(), limits::MOST_PARTS);
    for (i, own) in all.iter().take(limits::MOST_PARTS).enumerate() {
        let field = |name: &str| format!("{path}[{i}].{name}");
        faults.name(field("placement"), own.placement.as_str());
        for (name, mm, range) in [
            ("line_mm", own.line_mm, &limits::STAND_READ),
            ("offset_mm", own.offset_mm, &limits::STAND_READ),
            ("left_mm", own.left_mm, &limits::STAND_READ),
            ("right_mm", own.right_mm, &limits::STAND_READ),
            ("apart_mm", own.apart_mm, &limits::STAND_APART),
            ("beside_mm", own.beside_mm, &limits::STAND_READ),
            ("mirror_mm", own.mirror_mm, &limits::STAND_APART),
        ] {
            if let Some(mm) = mm {
                faults.number(field(name), mm, range);
            }
        }
        for (name, rad) in [("leans_away_deg", own.leans_away_rad), ("leans_left_deg", own.leans_left_rad)] {
            if let Some(rad) = rad {
                faults.angle(field(name), rad, &limits::LEAN);
            }
        }
    }
    let placements =
        all.iter().enumerate().map(|(i, own)| (format!("{path}[{i}].placement"), &own.placement));
    faults.unique(placements);
}
