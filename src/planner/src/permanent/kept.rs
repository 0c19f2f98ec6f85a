//! What of a proposal is in the bay: as marks that stay, each line from one to another.

use baywright_geometry::DVec2;

use super::floor::{OnFloor, Point};
use crate::model::{Bay, Id, PermanentMark};

/// Marks that lie on one another are one, mm: a tape reads to a millimetre (common practice, no source).
const ONE_MM: f64 = 1.0;

/// Whether a point is in the bay.
#[derive(Clone, Debug, PartialEq)]
pub enum Kept {
    /// It is not.
    No,
    /// This mark is it, near enough.
    As(Id),
    /// The mark that goes by its name lies so far off that it does not serve any more.
    Moved {
        /// The mark.
        mark: Id,
        /// How far off and which way, bay frame, mm.
        by: DVec2,
    },
}

/// Whether a point is in the bay; `names` are those that it may have been kept by. One that lies there by another name is it before one
/// of its name that lies elsewhere: places are numbered anew as it changes how often what comes in.
pub fn is_kept(bay: &Bay, point: &Point, names: &[Id]) -> Kept {
    let off = |own: &PermanentMark| own.at - point.at;
    let named = bay.marks.iter().find(|own| names.contains(&own.id));
    if let Some(own) = named.filter(|own| off(own).length() <= point.within_mm) {
        return Kept::As(own.id.clone());
    }
    let near = bay.marks.iter().filter(|own| off(own).length() <= ONE_MM.min(point.within_mm));
    let nearest = near.min_by(|a, b| off(a).length().total_cmp(&off(b).length()));
    match (nearest, named) {
        (Some(own), _) => Kept::As(own.id.clone()),
        (None, Some(own)) => Kept::Moved { mark: own.id.clone(), by: off(own) },
        (None, None) => Kept::No,
    }
}

/// The bay with all of it: a mark that goes by a point's name is put there, one that lies there already serves for it, any other point is
/// a mark of its own. `names` are those of the points, in their order, the one that it gets first.
pub fn kept_in(bay: &Bay, floor: &OnFloor, names: &[Vec<Id>]) -> Bay {
    let mut after = bay.clone();
    let mut marks: Vec<Id> = Vec::new();
    for (point, names) in floor.points.iter().zip(names) {
        let kept = is_kept(&after, point, names);
        let id = match kept {
            Kept::As(id) | Kept::Moved { mark: id, .. } => id,
            Kept::No => {
                let is_taken = |name: &str| after.marks.iter().any(|own| own.id.as_str() == name);
                let name = names.first().map_or("", Id::as_str);
                let id = Id::free(name, " ", is_taken);
                after.marks.push(PermanentMark::new(id.clone(), point.at));
                id
            }
        };
        if let Some(own) = after.marks.iter_mut().find(|own| own.id == id) {
            if names.contains(&id) || own.laid_within_mm.is_none() {
                own.laid_within_mm = Some(point.within_mm);
            }
            if names.contains(&id) {
                own.at = point.at;
            }
        }
        marks.push(id);
    }
    for line in &floor.lines {
        let [from, to] = line.ends.map(|end| marks.get(end).cloned());
        if let (Some(from), Some(to)) = (from, to)
            && from != to
            && let Some(own) = after.marks.iter_mut().find(|own| own.id == from)
        {
            own.line_to = Some(to);
        }
    }
    after
}
