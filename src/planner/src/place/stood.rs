//! The set-up with the car somewhere else.

use baywright_geometry::PlanPose;

use crate::model::{Arrangement, StandSet};

/// The arrangement with the car parked anew at a pose (bay from vehicle), as [`crate::edit::Edit`] parks it: marks are laid anew, so
/// that what was taped between them and read of stands and of the car's place says nothing; a stand that was put somewhere is
/// carried along; how well the place is known is what the shop knows of a planned one.
pub fn stood(arrangement: &Arrangement, pose: PlanPose) -> Arrangement {
    let mut after = arrangement.clone();
    carry(&mut after, pose);
    after.parked_known = after.shop.parked_anew(after.parked_known);
    after.marks_taped.clear();
    after.laid_before.clear();
    after.stands_read.clear();
    after.on_this_car.stood.clear();
    after
}

/// Carries the car of an arrangement, and stands that were put somewhere, to a pose.
fn carry(arrangement: &mut Arrangement, pose: PlanPose) {
    let bay_from_old = pose * arrangement.parked.inverse();
    arrangement.parked = pose;
    for set in &mut arrangement.stands {
        if let StandSet::At { place, .. } = set {
            *place = bay_from_old * *place;
        }
    }
}
