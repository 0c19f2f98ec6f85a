//! Several things in hand together: put in order, turned as one.

use baywright_geometry::{Bounds, DVec2, PlanPose};

use super::{own_outlines, pose_of};
use crate::assessment::Subject;
use crate::model::Arrangement;
use crate::scene::Scene;

/// Between things that are put in a row, mm: a hand goes between (common practice, no source).
const ROW_GAP_MM: f64 = 50.0;

/// An order into which several things are put. Directions are the car's, as everywhere.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Order {
    /// Their foremost edges in line.
    Fronts,
    /// Their rearmost edges in line.
    Rears,
    /// Their left edges in line.
    Lefts,
    /// Their right edges in line.
    Rights,
    /// Their middles on one line along the car: the line of the one that leads.
    AlongCar,
    /// Their middles on one line across the car: the line of the one that leads.
    AcrossCar,
    /// The same gap between each and the next, in the direction in which they lie further apart; the outermost stay.
    SpacedOut,
    /// One beside the other, [`ROW_GAP_MM`] apart, from the first of them on, their middles on the line of the one that leads.
    Row,
}

impl Order {
    /// All of them, in the order in which they are offered.
    pub const ALL: [Self; 8] = [
        Self::Fronts,
        Self::Rears,
        Self::Lefts,
        Self::Rights,
        Self::AlongCar,
        Self::AcrossCar,
        Self::SpacedOut,
        Self::Row,
    ];
}

/// One of them: where it stands (bay from its own frame), and the box around it in the car's directions, mm.
struct Own {
    subject: Subject,
    pose: PlanPose,
    around: Bounds,
}

fn all(arrangement: &Arrangement, scene: &Scene, subjects: &[Subject]) -> Vec<Own> {
    let car_from_bay = scene.bay_from_vehicle.inverse();
    let own = |subject: &Subject| {
        let pose = pose_of(arrangement, scene, subject)?;
        let outlines = own_outlines(arrangement, scene, subject);
        let boxes = outlines.iter().map(|outline| outline.placed(&(car_from_bay * pose)).bounds());
        Some(Own { subject: subject.clone(), pose, around: boxes.reduce(Bounds::union)? })
    };
    subjects.iter().filter_map(own).collect()
}

/// Where each of these things stands once they are put into an order, the first one leading: bay from its own frame, whole
/// millimetres. What cannot be moved, or is not there, is left out. Nothing for an order that so few do not make.
pub fn ordered(
    arrangement: &Arrangement,
    scene: &Scene,
    subjects: &[Subject],
    order: Order,
) -> Vec<(Subject, PlanPose)> {
    let mut all = all(arrangement, scene, subjects);
    let least = if order == Order::SpacedOut { 3 } else { 2 };
    let Some(whole) = all.iter().map(|own| own.around).reduce(Bounds::union).filter(|_| all.len() >= least)
    else {
        return Vec::new();
    };
    let Some(lead) = all.first().map(|own| own.around.centre()) else { return Vec::new() };
    let (x, y) = (|x: f64| DVec2::new(x, 0.0), |y: f64| DVec2::new(0.0, y));
    let one_by_one = |shift: &dyn Fn(&Bounds) -> DVec2| all.iter().map(|own| shift(&own.around)).collect();
    let shifts: Vec<DVec2> = match order {
        Order::Fronts => one_by_one(&|own| x(whole.high.x - own.high.x)),
        Order::Rears => one_by_one(&|own| x(whole.low.x - own.low.x)),
        Order::Lefts => one_by_one(&|own| y(whole.high.y - own.high.y)),
        Order::Rights => one_by_one(&|own| y(whole.low.y - own.low.y)),
        Order::AlongCar => one_by_one(&|own| y(lead.y - own.centre().y)),
        Order::AcrossCar => one_by_one(&|own| x(lead.x - own.centre().x)),
        Order::SpacedOut | Order::Row => {
            let centres = Bounds::around(all.iter().map(|own| own.around.centre()));
            let apart = centres.map_or(DVec2::ZERO, |own| own.size());
            let axis = if apart.x >= apart.y { DVec2::X } else { DVec2::Y };
            all.sort_by(|a, b| axis.dot(a.around.centre()).total_cmp(&axis.dot(b.around.centre())));
            one_after_another(&all, axis, (order == Order::Row).then_some(lead), &whole)
        }
    };
    let to = |own: Own, shift: DVec2| {
        let at = own.pose.origin() + scene.bay_from_vehicle.turned(shift);
        (own.subject, PlanPose::new(at.round(), own.pose.heading()))
    };
    all.into_iter().zip(shifts).map(|(own, shift)| to(own, shift)).collect()
}

/// Shifts that put them one after another along an axis: in a row whose middles lie on the line through `lead`, else with
/// equal gaps from one end of the whole to the other.
fn one_after_another(all: &[Own], axis: DVec2, lead: Option<DVec2>, whole: &Bounds) -> Vec<DVec2> {
    let length = |own: &Bounds| axis.dot(own.size());
    let taken: f64 = all.iter().map(|own| length(&own.around)).sum();
    let gap = match lead {
        Some(_) => ROW_GAP_MM,
        None => (length(whole) - taken) / (all.len().saturating_sub(1).max(1)) as f64,
    };
    let mut next = all.first().map_or(0.0, |own| axis.dot(own.around.low));
    let across = axis.perp();
    let shift = |own: &Own| {
        let along = next - axis.dot(own.around.low);
        next += length(&own.around) + gap;
        let aside = lead.map_or(0.0, |lead| across.dot(lead - own.around.centre()));
        axis * along + across * aside
    };
    all.iter().map(shift).collect()
}

/// Where each of these things stands after all were turned together by so much, radians anticlockwise, about the middle of the
/// box around them: bay from its own frame. One alone is turned about its own origin.
pub fn turned_together(
    arrangement: &Arrangement,
    scene: &Scene,
    subjects: &[Subject],
    by: f64,
) -> Vec<(Subject, PlanPose)> {
    let all = all(arrangement, scene, subjects);
    let whole = all.iter().map(|own| own.around).reduce(Bounds::union);
    let about = match (all.as_slice(), whole) {
        ([one], _) => one.pose.origin(),
        (_, Some(whole)) => scene.bay_from_vehicle * whole.centre(),
        _ => return Vec::new(),
    };
    let turn = PlanPose::new(DVec2::ZERO, by);
    let turned = |own: Own| {
        let at = about + turn.turned(own.pose.origin() - about);
        // One alone stays exactly where it is.
        let at = if at.distance(own.pose.origin()) < 1e-6 { own.pose.origin() } else { at.round() };
        (own.subject, PlanPose::new(at, baywright_geometry::angle::wrapped(own.pose.heading() + by)))
    };
    all.into_iter().map(turned).collect()
}
