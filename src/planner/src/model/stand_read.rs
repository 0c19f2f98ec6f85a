//! What was read of a target's stand as it was set.

use super::Id;

/// From where the height of the reference line was read.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum LineOver {
    /// From the point of the sensor that the target's height counts from: the line is level, so that no floor comes in.
    #[default]
    Sensor,
    /// From the floor where the stand is.
    Floor,
}

impl LineOver {
    /// Both.
    pub const ALL: [Self; 2] = [Self::Sensor, Self::Floor];
}

/// How it was read whether a face stands square to its axis.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum SquareBy {
    /// Two distances from a line that is square to the axis, to the left and the right end of the face.
    #[default]
    Distances,
    /// The same to both ends of a long bar that is laid on the face.
    Bar,
    /// A laser along the axis that a mirror on the face sends back.
    Mirror,
}

impl SquareBy {
    /// All.
    pub const ALL: [Self; 3] = [Self::Distances, Self::Bar, Self::Mirror];
}

/// What was read of the stand of one placement; what nobody read is `None`. Left and right are those of who looks from the sensor
/// at the target.
#[derive(Clone, Debug, PartialEq)]
pub struct StandRead {
    /// Which placement's.
    pub placement: Id,
    /// From where the reference line's height was read.
    pub line_over: LineOver,
    /// The reference line's height over that, mm; negative below it.
    pub line_mm: Option<f64>,
    /// How far the middle of the target's face is over the line, mm; negative below it.
    pub offset_mm: Option<f64>,
    /// How squareness was read.
    pub square_by: SquareBy,
    /// From the line that is square to the axis to the left end, mm.
    pub left_mm: Option<f64>,
    /// The same to the right end, mm.
    pub right_mm: Option<f64>,
    /// How far the two ends are apart, mm.
    pub apart_mm: Option<f64>,
    /// How far to the left of where it went out the laser comes back, mm; negative to the right.
    pub beside_mm: Option<f64>,
    /// How far the mirror is from there, mm.
    pub mirror_mm: Option<f64>,
    /// How far the pole leans away from the sensor, radians; negative towards it.
    pub leans_away_rad: Option<f64>,
    /// How far it leans to the left, radians; negative to the right.
    pub leans_left_rad: Option<f64>,
}

impl StandRead {
    /// Nothing read yet.
    pub const fn of(placement: Id) -> Self {
        Self {
            placement,
            line_over: LineOver::Sensor,
            line_mm: None,
            offset_mm: None,
            square_by: SquareBy::Distances,
            left_mm: None,
            right_mm: None,
            apart_mm: None,
            beside_mm: None,
            mirror_mm: None,
            leans_away_rad: None,
            leans_left_rad: None,
        }
    }

    /// Whether nothing at all was read.
    pub fn is_empty(&self) -> bool {
        let all = [
            self.line_mm,
            self.offset_mm,
            self.left_mm,
            self.right_mm,
            self.apart_mm,
            self.beside_mm,
            self.mirror_mm,
            self.leans_away_rad,
            self.leans_left_rad,
        ];
        all.iter().all(Option::is_none)
    }
}
