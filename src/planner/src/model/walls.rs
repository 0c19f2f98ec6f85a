//! Making and changing a room's walls. Corners go anticlockwise; wall `i` runs from corner `i` to the next one; openings
//! stay in their walls.

use baywright_geometry::{DVec2, Polygon, Segment, ShapeFault};

use super::{Bay, Id, Known, Material, Opening, Provenance, Wall};

/// Why a room was not made.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum RoomFault {
    /// The corners make no shape.
    Shape(ShapeFault),
    /// There is no such wall or corner.
    NoSuch,
    /// The corners go round the room the other way, or begin at another one: names, openings and materials would go to
    /// other walls.
    OtherOrder,
    /// It does not fit into the wall, which is so long, mm.
    TooLong {
        /// The wall's length.
        wall: f64,
    },
}

/// The walls of an alcove, in the room's order, and what is left of the wall behind it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AlcovePart {
    /// The first side.
    Side,
    /// The back.
    Back,
    /// The other side.
    OtherSide,
    /// The wall's second part.
    Beyond,
}

impl AlcovePart {
    /// All of them, in the room's order.
    pub const ALL: [Self; 4] = [Self::Side, Self::Back, Self::OtherSide, Self::Beyond];
}

impl Bay {
    /// An empty bay with these corners, mm in the bay's frame, `ceiling` mm high; names for the walls in their order, and what a
    /// wall is called, by its number from 1, that got none; who measured it.
    ///
    /// # Errors
    /// The corners make no shape.
    pub fn of_corners(
        id: Id,
        name: String,
        corners: Vec<DVec2>,
        (names, unnamed): (&[String], impl Fn(usize) -> String),
        ceiling: f64,
        provenance: Provenance,
    ) -> Result<Self, RoomFault> {
        let (corners, names) = anticlockwise(corners, names);
        let walls = (0..corners.len())
            .map(|i| {
                let given = names.get(i).map(|name| name.trim()).filter(|name| !name.is_empty());
                Wall {
                    id: given.map_or_else(|| unnamed(i + 1), str::to_owned).into(),
                    material: Material::Unknown,
                }
            })
            .collect();
        let room = Polygon::simple(corners).map_err(RoomFault::Shape)?;
        let mut bay = Self {
            id,
            name,
            room,
            walls,
            walls_known: Known::Taped,
            ceiling_mm: ceiling,
            openings: Vec::new(),
            floor_features: Vec::new(),
            runways: Vec::new(),
            things: Vec::new(),
            keep_free: Vec::new(),
            bays: Vec::new(),
            survey: None,
            marks: Vec::new(),
            dimensions: Vec::new(),
            provenance,
        };
        bay.name_walls_apart();
        Ok(bay)
    }

    /// No two walls have one name: the later ones get a number.
    fn name_walls_apart(&mut self) {
        for i in 0..self.walls.len() {
            let Some(own) = self.walls.get(i).map(|wall| wall.id.to_string()) else { continue };
            let before = |name: &str| self.walls.iter().take(i).any(|wall| wall.id.as_str() == name);
            let free = Id::free(&own, " ", before);
            if let Some(wall) = self.walls.get_mut(i) {
                wall.id = free;
            }
        }
    }

    /// The two ends of a wall.
    pub fn wall_ends(&self, wall: usize) -> Option<(DVec2, DVec2)> {
        let corners = self.room.outer();
        let from = *corners.get(wall)?;
        let to = *corners.get((wall + 1) % corners.len())?;
        Some((from, to))
    }

    /// The line of the wall that an opening takes, from its start, with the inside on its left; `None` if there is no such
    /// wall.
    pub fn opening_line(&self, opening: &Opening) -> Option<Segment> {
        let (from, to) = self.wall_ends(opening.wall)?;
        let along = (to - from).normalize_or_zero();
        let start = from + along * opening.from_mm;
        Some(Segment::new(start, start + along * opening.width_mm))
    }

    /// Puts a corner elsewhere; openings keep their distance from their wall's first corner.
    ///
    /// # Errors
    /// The walls would cross, or there is no such corner.
    pub fn move_corner(&mut self, corner: usize, to: DVec2) -> Result<(), RoomFault> {
        let mut corners = self.room.outer().to_vec();
        *corners.get_mut(corner).ok_or(RoomFault::NoSuch)? = to;
        self.set_corners(corners)
    }

    /// Puts a corner elsewhere and keeps right angles: where both its walls stand square to one another and to what follows
    /// them, they move on parallel to themselves, and those that follow become longer or shorter. Where they do not, it is the
    /// corner alone that moves.
    ///
    /// # Errors
    /// The walls would cross, or there is no such corner.
    pub fn move_corner_square(&mut self, corner: usize, to: DVec2) -> Result<(), RoomFault> {
        let mut corners = self.room.outer().to_vec();
        let count = corners.len();
        let by = to - *corners.get(corner).ok_or(RoomFault::NoSuch)?;
        let (before, after) = ((corner + count - 1) % count, (corner + 1) % count);
        let way = |wall: usize| {
            self.wall_ends(wall % count).map_or(DVec2::ZERO, |(from, to)| (to - from).normalize_or_zero())
        };
        let (own, next) = (way(before), way(corner));
        let is_square = square(own, next) && square(own, way(before + count - 1)) && square(next, way(after));
        if !is_square || count < 4 {
            return self.move_corner(corner, to);
        }
        for (at, shift) in [(corner, by), (before, next * by.dot(next)), (after, own * by.dot(own))] {
            if let Some(place) = corners.get_mut(at) {
                *place += shift;
            }
        }
        self.set_corners(corners)
    }

    /// Makes a wall so long, mm, by moving its second corner along it. Where the next wall stands square to it, that moves
    /// on parallel to itself, and the angles stay; else, and for `corner_only`, it is the corner alone that moves.
    ///
    /// # Errors
    /// The walls would cross, or there is no such wall.
    pub fn stretch_wall(&mut self, wall: usize, length: f64, corner_only: bool) -> Result<(), RoomFault> {
        let (from, to) = self.wall_ends(wall).ok_or(RoomFault::NoSuch)?;
        let mut corners = self.room.outer().to_vec();
        let (next, after) = ((wall + 1) % corners.len(), (wall + 2) % corners.len());
        let way = (to - from).normalize_or_zero();
        let beyond = self.wall_ends(next).map_or(DVec2::ZERO, |(from, to)| (to - from).normalize_or_zero());
        let moves_on = !corner_only && corners.len() > 3 && square(way, beyond);
        let by = from + way * length - to;
        for at in [Some(next), moves_on.then_some(after)].into_iter().flatten() {
            if let Some(corner) = corners.get_mut(at) {
                *corner += by;
            }
        }
        self.set_corners(corners)
    }

    /// Moves a wall square to itself by so much into the room (negative: outwards), with both its corners, as far as the
    /// neighbours run square to it.
    ///
    /// # Errors
    /// The walls would cross, or there is no such wall.
    pub fn push_wall(&mut self, wall: usize, by: f64) -> Result<(), RoomFault> {
        let (from, to) = self.wall_ends(wall).ok_or(RoomFault::NoSuch)?;
        let inward = (to - from).normalize_or_zero().perp();
        let mut corners = self.room.outer().to_vec();
        let next = (wall + 1) % corners.len();
        for at in [wall, next] {
            if let Some(corner) = corners.get_mut(at) {
                *corner += inward * by;
            }
        }
        self.set_corners(corners)
    }

    /// The room gets other corners, as many as before and in the same order: wall `i` stays wall `i`, with its name, its
    /// material and its openings.
    ///
    /// # Errors
    /// There are more or fewer of them, they make no room, or they go round it in another order.
    pub fn replace_corners(&mut self, corners: Vec<DVec2>) -> Result<(), RoomFault> {
        let was = self.room.outer();
        if corners.len() != was.len() {
            return Err(RoomFault::NoSuch);
        }
        // The same corners from another one on are meant to be the same room, and would not be.
        let same_from = |first: usize| {
            let turned = was.iter().cycle().skip(first);
            corners.iter().zip(turned).all(|(now, was)| now.distance(*was) < SAME_MM)
        };
        if (1..was.len()).any(same_from) {
            return Err(RoomFault::OtherOrder);
        }
        self.set_corners(corners)
    }

    fn set_corners(&mut self, corners: Vec<DVec2>) -> Result<(), RoomFault> {
        let (room, same_way) =
            (Polygon::simple(corners.clone()).map_err(RoomFault::Shape)?, signed(&corners) > 0.0);
        if !same_way {
            // The walls would have changed sides.
            return Err(RoomFault::OtherOrder);
        }
        self.room = room;
        Ok(())
    }

    /// Builds an alcove out of a wall (negative depth: a pier into the room): from so far along the wall, so wide, so
    /// deep, all mm. Three new walls; what was in the wall behind it is now in the wall's second part. `name` says what each of
    /// the four is called.
    ///
    /// # Errors
    /// It does not fit into the wall, or walls would cross.
    pub fn alcove(
        &mut self,
        wall: usize,
        (from, width, depth): (f64, f64, f64),
        name: impl Fn(AlcovePart) -> String,
    ) -> Result<(), RoomFault> {
        let (a, b) = self.wall_ends(wall).ok_or(RoomFault::NoSuch)?;
        let length = a.distance(b);
        if from <= 0.0 || width <= 0.0 || from + width >= length {
            return Err(RoomFault::TooLong { wall: length });
        }
        let way = (b - a) / length;
        let out = -way.perp() * depth;
        let (start, end) = (a + way * from, a + way * (from + width));
        let mut corners = self.room.outer().to_vec();
        corners.splice(wall + 1..wall + 1, [start, start + out, end + out, end]);
        let before = self.clone();
        self.set_corners(corners)?;
        let own = self.walls.get(wall).cloned().ok_or(RoomFault::NoSuch)?;
        let parts = AlcovePart::ALL.map(|part| Wall { id: name(part).into(), material: own.material });
        self.walls.splice(wall + 1..wall + 1, parts);
        self.name_walls_apart();
        for opening in &mut self.openings {
            if opening.wall > wall {
                opening.wall += 4;
            } else if opening.wall == wall && opening.from_mm >= from + width - SAME_MM {
                opening.wall += 4;
                opening.from_mm -= from + width;
            } else if opening.wall == wall && opening.from_mm + opening.width_mm > from + SAME_MM {
                *self = before;
                return Err(RoomFault::TooLong { wall: length });
            }
        }
        Ok(())
    }

    /// Takes a corner away: two walls become one, under the first one's name.
    ///
    /// # Errors
    /// An opening is in the wall that goes, or what is left makes no room.
    pub fn remove_corner(&mut self, corner: usize) -> Result<(), RoomFault> {
        let mut corners = self.room.outer().to_vec();
        let count = corners.len();
        if corner >= count || count < 4 {
            return Err(RoomFault::NoSuch);
        }
        if self.openings.iter().any(|opening| opening.wall == corner) {
            return Err(RoomFault::TooLong { wall: 0.0 });
        }
        corners.remove(corner);
        self.set_corners(corners)?;
        self.walls.remove(corner);
        for opening in self.openings.iter_mut().filter(|opening| opening.wall > corner) {
            opening.wall -= 1;
        }
        Ok(())
    }

    /// Gives a wall another name.
    pub fn rename_wall(&mut self, wall: usize, to: Id) {
        let taken = to.as_str().is_empty() || self.walls.iter().any(|own| own.id == to);
        if let Some(own) = self.walls.get_mut(wall).filter(|_| !taken) {
            own.id = to;
        }
    }
}

/// Places that lie within this of one another are the same, mm: an opening that ends where an alcove begins is beside it.
const SAME_MM: f64 = 0.01;

/// Whether two directions of length 1 are square to one another, as nearly as a tape can tell: within a thousandth.
fn square(a: DVec2, b: DVec2) -> bool {
    a.dot(b).abs() < 1e-3 && a != DVec2::ZERO && b != DVec2::ZERO
}

/// Twice the area, positive if the corners go anticlockwise.
fn signed(corners: &[DVec2]) -> f64 {
    let next = corners.iter().cycle().skip(1);
    corners.iter().zip(next).map(|(a, b)| a.perp_dot(*b)).sum()
}

/// The same room with its corners anticlockwise, and the names still with their walls.
fn anticlockwise(corners: Vec<DVec2>, names: &[String]) -> (Vec<DVec2>, Vec<String>) {
    if signed(&corners) >= 0.0 || corners.is_empty() {
        return (corners, names.to_vec());
    }
    let count = corners.len();
    let mut turned = corners;
    turned.reverse();
    // Wall i ran from corner i to i + 1; it now runs from the place of i + 1 to that of i.
    let names = (0..count).map(|i| names.get((2 * count - 2 - i) % count).cloned().unwrap_or_default());
    (turned, names.collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn bay(corners: &[(f64, f64)]) -> Bay {
        let corners = corners.iter().map(|&(x, y)| DVec2::new(x, y)).collect();
        let names = (&[][..], |number: usize| format!("wall {number}"));
        Bay::of_corners("x".into(), "x".into(), corners, names, 3_000.0, Provenance::Example).unwrap()
    }

    fn corners(bay: &Bay) -> Vec<(f64, f64)> {
        bay.room.outer().iter().map(|p| (p.x, p.y)).collect()
    }

    const HALL: [(f64, f64); 4] = [(0.0, 0.0), (8_000.0, 0.0), (8_000.0, 5_000.0), (0.0, 5_000.0)];

    #[test]
    fn a_longer_wall_moves_the_next_one_on_and_no_angle_changes() {
        let mut hall = bay(&HALL);
        hall.stretch_wall(0, 9_000.0, false).unwrap();
        assert_eq!(corners(&hall), [(0.0, 0.0), (9_000.0, 0.0), (9_000.0, 5_000.0), (0.0, 5_000.0)]);
        hall.stretch_wall(2, 7_500.0, false).unwrap();
        assert_eq!(corners(&hall), [(1_500.0, 0.0), (9_000.0, 0.0), (9_000.0, 5_000.0), (1_500.0, 5_000.0)]);
        // Asked for, it is the corner alone.
        let mut skewed = bay(&HALL);
        skewed.stretch_wall(0, 9_000.0, true).unwrap();
        assert_eq!(corners(&skewed), [(0.0, 0.0), (9_000.0, 0.0), (8_000.0, 5_000.0), (0.0, 5_000.0)]);
        // A room that has no right angle there keeps its other corners.
        let mut askew = bay(&[(0.0, 0.0), (8_000.0, 0.0), (7_000.0, 5_000.0), (0.0, 5_000.0)]);
        askew.stretch_wall(0, 9_000.0, false).unwrap();
        assert_eq!(corners(&askew), [(0.0, 0.0), (9_000.0, 0.0), (7_000.0, 5_000.0), (0.0, 5_000.0)]);
        assert!(bay(&HALL).stretch_wall(9, 1_000.0, false).is_err());
    }

    #[test]
    fn a_corner_that_is_drawn_keeps_the_right_angles() {
        let mut hall = bay(&HALL);
        hall.move_corner_square(2, DVec2::new(9_000.0, 6_000.0)).unwrap();
        assert_eq!(corners(&hall), [(0.0, 0.0), (9_000.0, 0.0), (9_000.0, 6_000.0), (0.0, 6_000.0)]);
        // In a room of six corners the others stay.
        let mut ell = bay(&[
            (0.0, 0.0),
            (8_000.0, 0.0),
            (8_000.0, 3_000.0),
            (5_000.0, 3_000.0),
            (5_000.0, 5_000.0),
            (0.0, 5_000.0),
        ]);
        ell.move_corner_square(3, DVec2::new(4_000.0, 2_500.0)).unwrap();
        let wanted = [
            (0.0, 0.0),
            (8_000.0, 0.0),
            (8_000.0, 2_500.0),
            (4_000.0, 2_500.0),
            (4_000.0, 5_000.0),
            (0.0, 5_000.0),
        ];
        assert_eq!(corners(&ell), wanted);
        let mut askew = bay(&[(0.0, 0.0), (8_000.0, 0.0), (7_000.0, 5_000.0), (0.0, 5_000.0)]);
        askew.move_corner_square(2, DVec2::new(7_500.0, 5_500.0)).unwrap();
        assert_eq!(corners(&askew), [(0.0, 0.0), (8_000.0, 0.0), (7_500.0, 5_500.0), (0.0, 5_000.0)]);
    }
}
