//! The two walls that everything on a floor plan is measured from, square to each.

use baywright_planner::geometry::{DVec2, PlanPose, Segment, angle};
use baywright_planner::model::Bay;

/// A corner that lies no further behind a wall's line than this does not lie behind it, mm.
const BEHIND_MM: f64 = 1.0;
/// Walls whose directions' product is no more are square to one another: a thousandth, as a tape can tell.
const SQUARE: f64 = 1e-3;

/// The two walls, and the frame in which the plan lies.
#[derive(Clone, Debug, PartialEq)]
pub struct Datum {
    /// Both, by their position.
    pub walls: [usize; 2],
    lines: [Segment; 2],
    /// Bay from that frame: x along the first wall with the room to its left; origin where the second wall's line crosses it, if
    /// that is square to it, else abreast of the room's rearmost corner.
    pub pose: PlanPose,
}

impl Datum {
    /// The longest wall with all of the room before it, and the longest such wall that is square to it and runs towards it; where
    /// there is none of that kind, the next best. Nothing depends on how the paper lies: the same two for every trade.
    pub fn of(bay: &Bay) -> Self {
        let edges: Vec<Segment> = bay.room.edges().take(bay.room.outer().len()).collect();
        let corners = bay.room.outer();
        let holds_all = |edge: &Segment| corners.iter().all(|&p| before(edge, p) > -BEHIND_MM);
        let first = best(&edges, |edge| (holds_all(edge), 0.0));
        let nothing = Segment::new(DVec2::ZERO, DVec2::X);
        let along =
            |at: usize| edges.get(at).map_or(DVec2::X, |own| (own.to - own.from).normalize_or(DVec2::X));
        let ahead = along(first);
        let towards_it = -ahead.perp();
        let second = best(&edges, |edge| {
            let way = (edge.to - edge.from).normalize_or_zero();
            let towards = way.dot(towards_it);
            let is_square = way.dot(ahead).abs() < SQUARE && towards > 0.0;
            (is_square && holds_all(edge), if is_square { 2.0 } else { towards })
        });
        let lines = [first, second].map(|at| edges.get(at).copied().unwrap_or(nothing));
        let is_square = along(second).dot(ahead).abs() < SQUARE;
        let rearmost = corners.iter().map(|p| (*p - lines[0].from).dot(ahead)).fold(f64::INFINITY, f64::min);
        let from = if is_square { (lines[1].to - lines[0].from).dot(ahead) } else { rearmost };
        let origin = lines[0].from + ahead * if from.is_finite() { from } else { 0.0 };
        Self { walls: [first, second], lines, pose: PlanPose::new(origin, angle::heading(ahead)) }
    }

    /// How far a place is from the two walls, square to each, mm; negative behind one.
    pub fn off_walls(&self, p: DVec2) -> [f64; 2] {
        self.lines.map(|line| before(&line, p))
    }
}

/// How far before a wall a place is: the room lies to the left of its walls.
fn before(wall: &Segment, p: DVec2) -> f64 {
    (wall.to - wall.from).normalize_or_zero().perp().dot(p - wall.from)
}

/// The best by what is asked, of equal ones the longest, of those the first.
fn best(edges: &[Segment], rank: impl Fn(&Segment) -> (bool, f64)) -> usize {
    let mut found = (0, (false, f64::NEG_INFINITY, 0.0));
    for (at, edge) in edges.iter().enumerate() {
        let (is_best, more) = rank(edge);
        let own = (is_best, more, edge.length());
        if at == 0 || is_before(found.1, own) {
            found = (at, own);
        }
    }
    found.0
}

fn is_before(a: (bool, f64, f64), b: (bool, f64, f64)) -> bool {
    /// Lengths and directions nearer than this are one.
    const HAIR: f64 = 1e-6;
    if a.0 != b.0 {
        return b.0;
    }
    if (a.1 - b.1).abs() > HAIR {
        return b.1 > a.1;
    }
    b.2 > a.2 + HAIR
}

#[cfg(test)]
mod tests {
    use baywright_planner::model::{Bay, Provenance};

    use super::*;

    fn bay(corners: &[(f64, f64)]) -> Bay {
        let corners = corners.iter().map(|&p| p.into()).collect();
        let names = (&[][..], |number: usize| format!("wall {number}"));
        Bay::of_corners("x".into(), "x".into(), corners, names, 3_000.0, Provenance::Example).unwrap()
    }

    #[test]
    fn a_room_is_measured_from_its_long_wall_and_the_one_at_its_left_end() {
        let datum = Datum::of(&bay(&[(0.0, 0.0), (8_000.0, 0.0), (8_000.0, 5_000.0), (0.0, 5_000.0)]));
        assert_eq!(datum.walls, [0, 3]);
        let [a, b] = datum.off_walls(DVec2::new(1_200.0, 700.0));
        assert!((a - 700.0).abs() < 1e-9 && (b - 1_200.0).abs() < 1e-9, "{a} {b}");
        assert!(datum.pose.origin().length() < 1e-9);
    }

    /// Of an L the walls that have all of it before them, though a longer one may lie inside.
    #[test]
    fn an_l_is_measured_from_its_outer_walls() {
        let l = [
            (0.0, 0.0),
            (6_000.0, 0.0),
            (6_000.0, 9_000.0),
            (4_000.0, 9_000.0),
            (4_000.0, 3_000.0),
            (0.0, 3_000.0),
        ];
        let datum = Datum::of(&bay(&l));
        assert_eq!(datum.walls, [1, 0], "the wall at x = 6 000, and the one at y = 0 that runs towards it");
        for p in l {
            assert!(datum.off_walls(p.into()).iter().all(|mm| *mm > -1e-6), "{p:?}");
        }
    }

    /// Where no wall is square to the first, all is still square from two walls, and nothing lies left of the frame's origin.
    #[test]
    fn a_room_askew_has_its_two_walls_too() {
        let corners = [(0.0, 0.0), (9_000.0, 0.0), (7_000.0, 4_000.0), (2_000.0, 5_000.0)];
        let datum = Datum::of(&bay(&corners));
        assert_eq!(datum.walls, [0, 3]);
        for p in corners {
            assert!((datum.pose.inverse() * DVec2::from(p)).x > -1e-9);
        }
    }
}
