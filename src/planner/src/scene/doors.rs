//! The room and what open doors add to it: each lets through only what fits under its lintel and over its sill.

use baywright_geometry::{Polygon, Span, boolean};

use crate::model::Arrangement;

/// So far the ground beyond a door reaches back into the room, mm, so that rounding never parts the two: a tenth of what is spoken
/// of, and no tape shows it.
const JOINS_MM: f64 = 1e-3;

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
                let out = -(line.to - line.from).normalize_or_zero().perp();
                let (back, far) = (out * -JOINS_MM, out * opening.free_beyond_mm);
                let corners = vec![line.from + back, line.from + far, line.to + far, line.to + back];
                let beyond = Polygon::simple(corners);
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
    // The ground beyond a door reaches into the room along the whole door: together they are one piece, the largest.
    let pieces = boolean::union(&all).into_iter();
    pieces.max_by(|a, b| a.area().total_cmp(&b.area())).unwrap_or_else(|| room.clone())
}

#[cfg(test)]
mod tests {
    use crate::check::testing::*;
    use crate::scene::Scene;

    /// A door of 3 m in the far wall, 2 m of ground beyond it: 6 m² more, whichever way the bay lies.
    #[test]
    fn the_ground_beyond_a_door_is_not_lost_in_a_bay_at_an_angle() {
        for degrees in 0..180 {
            let at = DVec2::new(-7_321.4, 1_987.6 + f64::from(degrees));
            let turn = PlanPose::new(at, angle::radians(f64::from(degrees) + 0.37));
            let mut arrangement = clear();
            arrangement.bay.room = arrangement.bay.room.placed(&turn);
            arrangement.bay.openings = vec![Opening {
                id: "door".into(),
                kind: OpeningKind::RollerDoor,
                wall: 1,
                from_mm: 1_500.0,
                width_mm: 3_000.0,
                span: span(0.0, 2_500.0),
                material: Material::Steel,
                shut: false,
                free_beyond_mm: 2_000.0,
                is_exit: false,
            }];
            let room = Scene::of(&arrangement).room;
            let more = room.with_open_doors().area() - room.walls().area();
            assert!((more - 6e6).abs() < 1.0, "{degrees}: {more}");
        }
    }
}
