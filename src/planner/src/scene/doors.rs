//! The room and what open doors add to it: each lets through only what fits under its lintel and over its sill.

use baywright_geometry::{Polygon, Span, boolean};

use crate::model::Arrangement;

/// The room, alone and with the ground beyond its open doors.
#[derive(Clone, Debug, PartialEq)]
pub struct Room {
    alone: Polygon,
    /// Heights that a door lets through, and the ground beyond that is known to be free.
    doors: Vec<(Span, Polygon)>,
    /// The room with all of them.
    with_all: Polygon,
}

impl Room {
    pub(super) fn of(arrangement: &Arrangement) -> Self {
        let bay = &arrangement.bay;
        let open = bay.openings.iter().filter(|opening| opening.is_open() && opening.free_beyond_mm > 0.0);
        let doors: Vec<(Span, Polygon)> = open
            .filter_map(|opening| {
                let line = bay.opening_line(opening)?;
                // The inside lies left of a wall, so out is to the right.
                let out = -(line.to - line.from).normalize_or_zero().perp() * opening.free_beyond_mm;
                let beyond = Polygon::simple(vec![line.from, line.from + out, line.to + out, line.to]);
                Some((opening.span, beyond.ok()?))
            })
            .collect();
        let with_all = joined(&bay.room, doors.iter().map(|(_, beyond)| beyond));
        Self { alone: bay.room.clone(), doors, with_all }
    }

    /// The room alone: its edges are the walls, in the bay's order.
    pub const fn walls(&self) -> &Polygon {
        &self.alone
    }

    /// The room with the ground beyond every open door, whatever its height: what a person sees from above.
    pub const fn with_open_doors(&self) -> &Polygon {
        &self.with_all
    }

    /// Where something of these heights can be: a door lets through only what lies wholly between its sill and lintel.
    pub fn holding(&self, span: &Span) -> std::borrow::Cow<'_, Polygon> {
        let passes = |door: &Span| door.bottom() <= span.bottom() && span.top() <= door.top();
        let passed = || self.doors.iter().filter(|(door, _)| passes(door));
        match passed().count() {
            0 => std::borrow::Cow::Borrowed(&self.alone),
            all if all == self.doors.len() => std::borrow::Cow::Borrowed(&self.with_all),
            _ => std::borrow::Cow::Owned(joined(&self.alone, passed().map(|(_, beyond)| beyond))),
        }
    }
}

fn joined<'a>(room: &Polygon, beyond: impl Iterator<Item = &'a Polygon>) -> Polygon {
    let all: Vec<Polygon> = std::iter::once(room.clone()).chain(beyond.cloned()).collect();
    if all.len() == 1 {
        return room.clone();
    }
    // The ground beyond a door touches the room along the whole door: together they are one piece, the largest.
    let pieces = boolean::union(&all).into_iter();
    pieces.max_by(|a, b| a.area().total_cmp(&b.area())).unwrap_or_else(|| room.clone())
}
