//! What of a laid plan is sought.

use baywright_geometry::{DVec2, angle};

/// What is sought. Angles are radians, positive to the left of the car's axis.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Sought {
    /// The direction in which a mark is seen from a place on the car.
    Bearing {
        /// The mark.
        mark: usize,
        /// From here.
        from: DVec2,
    },
    /// How far a mark is from a place on the car, mm.
    Distance {
        /// The mark.
        mark: usize,
        /// From here.
        from: DVec2,
    },
    /// How far the line from one mark to another is turned from square to the axis: nothing if the second is straight to the left
    /// of the first.
    Squareness {
        /// The right end.
        right: usize,
        /// The left end.
        left: usize,
    },
    /// How far to the left of the axis a mark is, mm.
    Aside {
        /// The mark.
        mark: usize,
    },
}

impl Sought {
    /// Its value where the marks are, and how it follows x and y of each in turn. `None` without a mark or a value.
    pub fn of(&self, places: &[DVec2]) -> Option<(f64, Vec<f64>)> {
        let place = |mark: usize| places.get(mark).copied();
        let value = self.value(|mark| place(mark).unwrap_or(DVec2::NAN));
        let mut slope = vec![0.0; 2 * places.len()];
        let mut follow = |mark: usize, by: DVec2| {
            for (cell, by) in slope.iter_mut().skip(2 * mark).zip(by.to_array()) {
                *cell += by;
            }
        };
        match *self {
            Self::Bearing { mark, from } => {
                let seen = place(mark)? - from;
                follow(mark, seen.perp() / seen.length_squared());
            }
            Self::Distance { mark, from } => follow(mark, (place(mark)? - from).try_normalize()?),
            Self::Squareness { right, left } => {
                let line = place(left)? - place(right)?;
                let by = line.perp() / line.length_squared();
                follow(left, by);
                follow(right, -by);
            }
            Self::Aside { mark } => {
                place(mark)?;
                follow(mark, DVec2::Y);
            }
        }
        (value.is_finite() && slope.iter().all(|cell| cell.is_finite())).then_some((value, slope))
    }

    /// Its value by where each mark is; no number if a mark's place is none.
    pub fn value(&self, place: impl Fn(usize) -> DVec2) -> f64 {
        match *self {
            Self::Bearing { .. } | Self::Squareness { .. } => {
                angle::heading(self.direction(place).unwrap_or(DVec2::NAN))
            }
            Self::Distance { mark, from } => place(mark).distance(from),
            Self::Aside { mark } => place(mark).y,
        }
    }

    /// The vector whose heading it is, if it is one.
    pub(super) fn direction(&self, place: impl Fn(usize) -> DVec2) -> Option<DVec2> {
        match *self {
            Self::Bearing { mark, from } => Some(place(mark) - from),
            // Its own left is straight ahead of it.
            Self::Squareness { right, left } => Some(-(place(left) - place(right)).perp()),
            Self::Distance { .. } | Self::Aside { .. } => None,
        }
    }
}
