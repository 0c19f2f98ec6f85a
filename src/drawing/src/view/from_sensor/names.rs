//! Names beside what is seen, where there is room: the target, what a finding or an echo is about, then the others by how much of
//! them is seen.

use std::collections::BTreeMap;

use baywright_planner::Subject;

use super::Look;
use super::cells::{Cells, Seen};
use super::surfaces::Surface;
use crate::lettering::size;
use crate::role::Role;
use crate::text::Weight;
use crate::thing_name::thing_name;
use crate::view::label::{NEEDED, TOO_DEAR, Wanted};
use crate::view::pen::Pen;
use crate::view::space::Taken;

/// Of which less is seen, px² before they are enlarged, has no name, unless it is loud.
const LEAST_PX2: f64 = 220.0;
/// From this cost on a name of lesser weight is left out, and the widest one, px before it is enlarged.
const NAME_COST: f64 = 100.0;
const MOST_WIDTH_PX: f64 = 130.0;
/// So many names of lesser weight at most.
const MOST_NAMES: usize = 24;

/// In what order names find their places.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Weighs {
    Target,
    Loud,
    Thing,
    Opening,
    Wall,
}

pub(super) fn draw(pen: &mut Pen<'_>, look: &Look<'_>, faces: &[Surface], cells: &Cells<'_>) {
    let details = faces.iter().flat_map(|face| &face.on_it).filter_map(|own| own.subject.as_ref());
    let all = faces.iter().map(|face| &face.subject).chain(details);
    let seen: BTreeMap<&Subject, Seen> =
        all.filter_map(|subject| Some((subject, cells.seen(subject)?))).collect();
    let mut wanted: Vec<(Weighs, &Subject, Seen)> = seen
        .into_iter()
        .filter_map(|(subject, seen)| Some((weighs(look, subject)?, subject, seen)))
        .collect();
    wanted.sort_by(|a, b| a.0.cmp(&b.0).then(b.2.area.total_cmp(&a.2.area)));
    for (weighs, subject, seen) in &wanted {
        if *weighs == Weighs::Target {
            pen.space.take(seen.around, Taken::Firm);
        } else if *weighs <= Weighs::Thing {
            pen.space.take(seen.around, if *weighs == Weighs::Loud { Taken::Blamed } else { Taken::Body });
        }
        if *weighs <= Weighs::Thing {
            pen.bodies.take(subject, seen.around);
        }
    }
    let least = LEAST_PX2 * pen.enlarged * pen.enlarged;
    let mut soft = 0;
    for (weighs, subject, seen) in wanted {
        let strongly = weighs <= Weighs::Loud;
        if !strongly && (seen.area < least || soft >= MOST_NAMES) {
            continue;
        }
        let Some(text) = name(look, subject) else { continue };
        soft += usize::from(!strongly);
        let (style, role) = if strongly {
            (pen.style(size::LABEL, Weight::SemiBold), Role::Label)
        } else {
            (pen.style(size::SMALL, Weight::Regular), Role::LabelSoft)
        };
        pen.name(Wanted {
            text: &text,
            brief: None,
            role,
            subject: Some(subject.clone()),
            style,
            around: seen.around,
            most_width: MOST_WIDTH_PX * pen.enlarged,
            must: false,
            inside: weighs != Weighs::Target,
            body: match weighs {
                Weighs::Loud => Some(Taken::Blamed),
                Weighs::Thing => Some(Taken::Body),
                _ => None,
            },
            led: strongly,
            most_cost: match weighs {
                Weighs::Target => NEEDED,
                Weighs::Loud => TOO_DEAR,
                _ => NAME_COST,
            },
            under: None,
        });
    }
}

fn weighs(look: &Look<'_>, subject: &Subject) -> Option<Weighs> {
    match subject {
        Subject::Target(id) if id == look.of.target => Some(Weighs::Target),
        Subject::Target(_) => Some(Weighs::Loud),
        Subject::Thing(_) | Subject::Runway(_) | Subject::FloorFeature(_) if look.is_loud(subject) => {
            Some(Weighs::Loud)
        }
        Subject::Thing(_) | Subject::Runway(_) | Subject::FloorFeature(_) => Some(Weighs::Thing),
        Subject::Opening(_) => Some(Weighs::Opening),
        Subject::Wall(_) => Some(Weighs::Wall),
        _ => None,
    }
}

fn name(look: &Look<'_>, subject: &Subject) -> Option<String> {
    match subject {
        Subject::Target(id) => {
            let placement = look.arrangement.aiming.placements.iter().find(|own| own.id == *id)?;
            let kind = placement.target.kind;
            Some(if look.arrangement.aiming.placements.len() > 1 {
                look.words.target_named(kind, id.as_str())
            } else {
                look.words.target_label(kind).to_owned()
            })
        }
        Subject::Thing(id) => {
            let thing = look.arrangement.bay.things.iter().find(|own| own.id == *id)?;
            thing_name(look.arrangement, look.words, thing).map(std::borrow::Cow::into_owned)
        }
        other => Some(look.words.bare_subject(other)),
    }
}
