//! What of the readings of a stand cannot be: a slip of the hand or of the unit. It is told with what is possible, and not used.
//!
//! Bounds are generous, so that nothing that can be is refused: what is read as a length can be no longer than from the target to the
//! farthest corner of its room, a height no more than the room's, a distance along a face no more than that face.

use baywright_geometry::Polygon;

use crate::model::{Bay, LineOver, Placement, SquareBy, StandRead};
use crate::scene::PlacedTarget;

/// Which figure of a stand.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum StandField {
    /// The reference line's height.
    Line,
    /// The face over the line.
    Offset,
    /// The distance to the left end.
    Left,
    /// To the right one.
    Right,
    /// How far both are apart on the face.
    Apart,
    /// A bar's length.
    Bar,
    /// How far beside the laser comes back.
    Beside,
    /// How far the mirror is.
    Mirror,
}

/// What bounds it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Bound {
    /// The room, from where the target stands.
    Room,
    /// The room's height.
    Ceiling,
    /// The width of the target's face.
    Face,
    /// The height of its stand, and of the face on it.
    Stand,
    /// The longest bar.
    Bar,
    /// What a straight face that is turned by no more than 45° makes of the two ends.
    Ends,
}

/// A figure of a stand that cannot be.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NotPossible {
    /// Which.
    pub field: StandField,
    /// What was read, mm.
    pub read_mm: f64,
    /// The least that is possible, mm; what is measured as a distance is more than nothing.
    pub least_mm: f64,
    /// The most, mm.
    pub most_mm: f64,
    /// By what.
    pub by: Bound,
}

/// Bars and straight sections are sold no longer, mm (common practice, no source).
const LONGEST_BAR_MM: f64 = 6_000.0;
/// A tape between two ends of a face may be held so far beyond them: edges and frames, mm (common practice, no source).
const BEYOND_FACE_MM: f64 = 20.0;

/// What of a stand's readings cannot be, in the order in which it is typed.
pub(super) fn not_possible(
    bay: &Bay,
    placement: &Placement,
    target: &PlacedTarget,
    read: &StandRead,
) -> Vec<NotPossible> {
    let room = farthest_mm(&bay.room, target);
    let stand = placement.target.stand.as_ref();
    let reaches = stand.map_or(0.0, |own| own.top_mm.max(own.highest_mm.unwrap_or_default()));
    let face_top = target.set.height_mm + 0.5 * placement.target.height_mm;
    let stand = reaches.max(face_top).min(bay.ceiling_mm);
    let line_from = match read.line_over {
        LineOver::Floor => 0.0,
        LineOver::Sensor => -bay.ceiling_mm,
    };
    let bar = read.square_by == SquareBy::Bar;
    let is_mirror = read.square_by == SquareBy::Mirror;
    let along = |value: Option<f64>| value.filter(|_| !is_mirror);
    let (apart, field, by) = match bar {
        true => (LONGEST_BAR_MM.min(2.0 * room), StandField::Bar, Bound::Bar),
        false => (placement.target.width_mm + BEYOND_FACE_MM, StandField::Apart, Bound::Face),
    };
    let mirrored = |value: Option<f64>| value.filter(|_| is_mirror);
    let all = [
        (StandField::Line, read.line_mm, line_from, bay.ceiling_mm, Bound::Ceiling),
        (StandField::Offset, read.offset_mm, -stand, stand, Bound::Stand),
        (StandField::Left, along(read.left_mm), 0.0, room, Bound::Room),
        (StandField::Right, along(read.right_mm), 0.0, room, Bound::Room),
        (field, along(read.apart_mm), 0.0, apart, by),
        (StandField::Beside, mirrored(read.beside_mm), -room, room, Bound::Room),
        (StandField::Mirror, mirrored(read.mirror_mm), 0.0, room, Bound::Room),
    ];
    let is_distance =
        |field: StandField| !matches!(field, StandField::Line | StandField::Offset | StandField::Beside);
    let found = all.into_iter().filter_map(|(field, read, least_mm, most_mm, by)| {
        let read_mm = read?;
        let is_sound = (least_mm..=most_mm).contains(&read_mm) && !(is_distance(field) && read_mm <= 0.0);
        (!is_sound).then_some(NotPossible { field, read_mm, least_mm, most_mm, by })
    });
    let found: Vec<NotPossible> = found.collect();
    if found.is_empty() { ends_askew(read).into_iter().collect() } else { found }
}

/// Two ends of a straight face differ by no more than they are apart; by more than that times the sine of 45° nobody sets a face.
fn ends_askew(read: &StandRead) -> Option<NotPossible> {
    if read.square_by == SquareBy::Mirror {
        return None;
    }
    let (left, right, apart) = (read.left_mm?, read.right_mm?, read.apart_mm?);
    let most = apart * std::f64::consts::FRAC_1_SQRT_2;
    ((left - right).abs() > most).then_some(NotPossible {
        field: StandField::Right,
        read_mm: right,
        least_mm: (left - most).max(0.0),
        most_mm: left + most,
        by: Bound::Ends,
    })
}

/// From the target to the farthest corner of its room.
fn farthest_mm(room: &Polygon, target: &PlacedTarget) -> f64 {
    let at = target.set.place.origin();
    room.outer().iter().map(|corner| corner.distance(at)).fold(0.0, f64::max)
}
