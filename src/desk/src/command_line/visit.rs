//! What else a car is in for: a bay that is ready for one aiming of a visit may not be for the next.

use baywright_planner::model::{Arrangement, Layout};
use baywright_planner::{Verdict, judge};

/// The other aimings of the visit that an arrangement is in, and what the space is to each.
pub(crate) fn others_of_visit(layout: &Layout, of: &Arrangement) -> Vec<(String, Verdict)> {
    let others = layout.others_of_visit(of).into_iter();
    others.map(|own| (own.aiming.name.clone(), judge(&own).verdict)).collect()
}
