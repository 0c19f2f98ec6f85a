//! How big an empty room must be: the smallest rectangle in which each aiming of a list has a place with a slack.
//!
//! At a heading the set-up reaches so far along and so far across; in an empty rectangular room it fits if and only if the
//! room is as long and as wide as that. So each heading is a pair of lengths, and a list needs, for each of its lines, one of
//! the line's pairs to lie in the room. What stands in the room, its doors and how level it is are left out; what is proud of the
//! floor or hangs low is another question. Figures are rounded up to [`TO_MM`], so that they are never too small.
//!
//! What is in store takes a strip along one wall, be it along the room's length or its width, that nothing of a set-up reaches into: what is
//! left is such a rectangle again.

use std::borrow::Borrow;

use baywright_geometry::{DVec2, PlanPose, Span, angle};

use super::Line;
use crate::model::{
    Arrangement, Bay, Effort, Footprint, Id, Known, Material, Metal, Place, Shape, Thing, ThingKind,
};
use crate::place::{Search, Slack};

/// Rooms are told to so many mm, never smaller than they must be.
pub const TO_MM: f64 = 10.0;
/// A room so large that each set-up has a place in it, mm.
const VAST_MM: f64 = 200_000.0;
/// Headings that are looked at are so far apart, degrees; a quarter turn of them is all, the others only change which side is which.
const APART_DEG: f64 = 1.0;

/// What one line needs of a room.
#[derive(Clone, Debug, PartialEq)]
pub struct Needs {
    /// Of the headings that were looked at those that need less width than all that are as short, the narrowest first.
    at: Vec<At>,
}

/// What is needed at a heading.
#[derive(Clone, Copy, Debug, PartialEq)]
struct At {
    /// Radians.
    heading_rad: f64,
    /// How long along x and how wide along y the room must be, mm.
    size: DVec2,
    /// Where the vehicle frame's origin lies at least from the walls along y and along x, mm.
    low: DVec2,
}

/// A rectangular room.
#[derive(Clone, Debug, PartialEq)]
pub struct RoomSize {
    /// Along x, mm.
    pub length_mm: f64,
    /// Along y, mm.
    pub width_mm: f64,
    /// The line for which it must be so long; its position in the list.
    pub decides: usize,
    /// What of it is kept for what is in store.
    pub strip: Option<Strip>,
}

/// A strip of a room along one of its walls.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Strip {
    /// How deep it is, mm.
    pub depth_mm: f64,
    /// Along which walls it lies.
    pub along: Along,
}

/// Which way a strip lies in a rectangular room.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Along {
    /// As long as the room: it takes of the width.
    Length,
    /// As long as the room is wide: it takes of the length.
    Width,
}

impl RoomSize {
    /// Its area, mm².
    pub fn area(&self) -> f64 {
        self.length_mm * self.width_mm
    }

    /// How long along x and how wide along y it is without what is in store, which lies at the far end of either, mm.
    pub fn free(&self) -> DVec2 {
        let all = DVec2::new(self.length_mm, self.width_mm);
        all - match self.strip {
            None => DVec2::ZERO,
            Some(Strip { depth_mm, along: Along::Length }) => DVec2::new(0.0, depth_mm),
            Some(Strip { depth_mm, along: Along::Width }) => DVec2::new(depth_mm, 0.0),
        }
    }

    /// The corners of what is in store, low and high, mm.
    pub fn in_store(&self) -> Option<[DVec2; 2]> {
        let free = self.free();
        let low = match self.strip?.along {
            Along::Length => DVec2::new(0.0, free.y),
            Along::Width => DVec2::new(free.x, 0.0),
        };
        Some([low, DVec2::new(self.length_mm, self.width_mm)])
    }
}

/// What an aiming needs of an empty rectangular room so that its car may be so far off; `None` if it fits in no empty room, because
/// something else stops it everywhere.
pub fn needs(line: &Line, slack: &Slack) -> Option<Needs> {
    let own = in_empty_room(&line.arrangement, VAST_MM, VAST_MM)?;
    let search = Search::new(&own);
    if !search.everywhere().is_empty() {
        return None;
    }
    let count = (360.0 / APART_DEG) as u32;
    let at = (0..count).filter_map(|nth| {
        let heading = angle::radians(APART_DEG * f64::from(nth));
        let clear = search.clear_places(heading, slack)?;
        let clear = clear.bounds()?;
        Some(At { heading_rad: heading, size: DVec2::splat(VAST_MM) - clear.size(), low: clear.low })
    });
    let mut all: Vec<At> = at.collect();
    all.sort_by(|a, b| a.size.y.total_cmp(&b.size.y).then(a.size.x.total_cmp(&b.size.x)));
    let mut at: Vec<At> = Vec::new();
    for own in all {
        if at.last().is_none_or(|last| own.size.x < last.size.x) {
            at.push(own);
        }
    }
    (!at.is_empty()).then_some(Needs { at })
}

impl Needs {
    /// The least length with a width, both mm; infinite if no length is enough.
    pub fn length_for(&self, width_mm: f64) -> f64 {
        self.with_width(width_mm).map_or(f64::INFINITY, |own| own.size.x)
    }

    /// The least width of any.
    pub fn least_width(&self) -> f64 {
        self.at.first().map_or(f64::INFINITY, |own| own.size.y)
    }

    /// Where the car stands in a room that it fits in, in the middle of what it may; `None` if it does not.
    pub fn pose_in(&self, room: &RoomSize) -> Option<PlanPose> {
        let free = room.free();
        let own = self.with_width(free.y)?;
        let spare = free - own.size;
        (spare.min_element() >= -HAIR_MM).then(|| PlanPose::new(own.low + spare * 0.5, own.heading_rad))
    }

    /// What is shortest of what is no wider.
    fn with_width(&self, width_mm: f64) -> Option<&At> {
        let narrow = self.at.partition_point(|own| own.size.y <= width_mm + HAIR_MM);
        self.at.get(narrow.checked_sub(1)?)
    }

    /// The widths that say something new for some lines, mm: for each of them just enough, with what is in store beside it or not, and
    /// enough for all at least.
    pub(super) fn widths<N: Borrow<Self>>(all: &[N], store_mm: f64) -> Vec<f64> {
        let least = all.iter().map(|own| own.borrow().least_width()).fold(0.0, f64::max);
        let own = all.iter().flat_map(|own| own.borrow().at.iter().map(|own| own.size.y));
        let widths = own.flat_map(|own| [up(own), up(own + store_mm)]);
        let mut widths: Vec<f64> = widths.filter(|own| *own + HAIR_MM >= least).collect();
        widths.sort_by(f64::total_cmp);
        widths.dedup();
        widths
    }
}

/// Rounding of lengths that are the same.
const HAIR_MM: f64 = 1e-6;

/// Rounded up to what rooms are told to.
fn up(mm: f64) -> f64 {
    ((mm - HAIR_MM) / TO_MM).ceil() * TO_MM
}

/// The shortest room of this width that serves all lines, with a strip so deep for what is in store along the wall that leaves it the
/// shortest; `None` if none of this width does.
pub fn smallest_for_width<N: Borrow<Needs>>(all: &[N], width_mm: f64, store_mm: f64) -> Option<RoomSize> {
    let is_stored = store_mm > 0.0;
    let room = |along: Along| {
        let (wide, more) = match along {
            Along::Length => (width_mm - store_mm, 0.0),
            Along::Width => (width_mm, store_mm),
        };
        let longest = all.iter().enumerate().map(|(nth, own)| (nth, own.borrow().length_for(wide)));
        let (decides, length) = longest.reduce(|a, b| if b.1 > a.1 { b } else { a })?;
        let strip = is_stored.then_some(Strip { depth_mm: store_mm, along });
        length.is_finite().then(|| RoomSize { length_mm: up(length + more), width_mm, decides, strip })
    };
    let shortest = [room(Along::Length), if is_stored { room(Along::Width) } else { None }];
    shortest.into_iter().flatten().reduce(|best, own| if own.length_mm < best.length_mm { own } else { best })
}

/// The room of the least area that serves all lines; of several alike the narrowest.
pub fn smallest<N: Borrow<Needs>>(all: &[N], store_mm: f64) -> Option<RoomSize> {
    // The area can only be least where the width is just enough for one of the pairs.
    let widths = Needs::widths(all, store_mm).into_iter();
    let sizes = widths.filter_map(|width| smallest_for_width(all, width, store_mm));
    sizes.reduce(|best, own| if own.area() < best.area() - 0.5 { own } else { best })
}

/// How high what is in store is drawn, mm: what stands in a shelf, common practice, no source. No answer hangs on it.
const IN_STORE_MM: f64 = 2_000.0;

/// The set-up in an empty room of that size with its car where it may stand, and what is in store along its wall under that name.
pub fn in_room(line: &Line, needs: &Needs, room: &RoomSize, in_store: &str) -> Option<Arrangement> {
    let mut own = in_empty_room(&line.arrangement, room.length_mm, room.width_mm)?;
    own.parked = needs.pose_in(room)?;
    if let Some([low, high]) = room.in_store() {
        let size = high - low;
        let shape = Shape::Rectangle { length_mm: size.x, width_mm: size.y };
        own.bay.things.push(Thing {
            id: Id::from(in_store),
            kind: ThingKind::Shelf,
            footprint: Footprint::new(shape).ok()?,
            place: Place { at: PlanPose::new((low + high) * 0.5, 0.0), known: Known::Taped },
            span: Span::new(0.0, IN_STORE_MM).ok()?,
            material: Material::Wood,
            metal: Some(Metal::None),
            effort: Effort::Fixed,
            locked: true,
        });
    }
    Some(own)
}

/// The set-up in an empty rectangular room with nothing in it, on a floor whose levels are not asked.
pub fn in_empty_room(of: &Arrangement, length_mm: f64, width_mm: f64) -> Option<Arrangement> {
    let corners = [(0.0, 0.0), (length_mm, 0.0), (length_mm, width_mm), (0.0, width_mm)].map(DVec2::from);
    let mut own = of.clone();
    let was = &of.bay;
    let names = (&[][..], |nth: usize| nth.to_string());
    let (id, name, provenance) = (was.id.clone(), was.name.clone(), was.provenance.clone());
    own.bay = Bay::of_corners(id, name, corners.into(), names, was.ceiling_mm, provenance).ok()?;
    own.bay.walls_known = was.walls_known;
    // What walls are of is another question.
    own.bay.walls.iter_mut().for_each(|wall| wall.material = Material::Brick);
    own.on_runways.clear();
    own.in_bay = None;
    own.kept_empty.clear();
    own.kept_shut.clear();
    own = own.alone();
    own.parked = PlanPose::new(DVec2::new(length_mm, width_mm) * 0.5, 0.0);
    Some(own)
}
