//! Paper as it is bought, and how much of it is drawn on.

use baywright_planner::geometry::DVec2;

/// A size of paper.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum Size {
    /// 210 by 297 mm: the usual one of an office outside North America.
    #[default]
    A4,
    /// 297 by 420 mm.
    A3,
    /// 420 by 594 mm.
    A2,
    /// 594 by 841 mm.
    A1,
    /// 8½ by 11 inches: the usual one of an office in North America.
    Letter,
    /// 8½ by 14 inches.
    Legal,
    /// 11 by 17 inches.
    Tabloid,
}

/// A sheet of paper, one way up or the other.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub struct Paper {
    /// Its size.
    pub size: Size,
    /// Whether its long side lies level.
    pub is_landscape: bool,
}

impl Size {
    /// All of them.
    pub const ALL: [Self; 7] =
        [Self::A4, Self::A3, Self::A2, Self::A1, Self::Letter, Self::Legal, Self::Tabloid];

    /// Its name, in every language.
    pub const fn name(self) -> &'static str {
        match self {
            Self::A4 => "A4",
            Self::A3 => "A3",
            Self::A2 => "A2",
            Self::A1 => "A1",
            Self::Letter => "Letter",
            Self::Legal => "Legal",
            Self::Tabloid => "Tabloid",
        }
    }

    /// The size of that name, however its letters are written.
    pub fn of_name(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|own| own.name().eq_ignore_ascii_case(name))
    }

    /// Short side and long side, mm: ISO 216 (from memory); Letter and Tabloid are ANSI/ASME Y14.1's A and B (from memory), Legal
    /// is common practice, no source. An inch is 25.4 mm.
    const fn sides_mm(self) -> (f64, f64) {
        const INCH: f64 = 25.4;
        match self {
            Self::A4 => (210.0, 297.0),
            Self::A3 => (297.0, 420.0),
            Self::A2 => (420.0, 594.0),
            Self::A1 => (594.0, 841.0),
            Self::Letter => (8.5 * INCH, 11.0 * INCH),
            Self::Legal => (8.5 * INCH, 14.0 * INCH),
            Self::Tabloid => (11.0 * INCH, 17.0 * INCH),
        }
    }
}

impl Paper {
    /// Its long side upright.
    pub const fn portrait(size: Size) -> Self {
        Self { size, is_landscape: false }
    }

    /// Its long side level.
    pub const fn landscape(size: Size) -> Self {
        Self { size, is_landscape: true }
    }

    /// Width and height, mm.
    pub const fn size_mm(self) -> DVec2 {
        let (short, long) = self.size.sides_mm();
        if self.is_landscape { DVec2::new(long, short) } else { DVec2::new(short, long) }
    }

    /// How much larger all is lettered than on the paper of an office: a large sheet is read from further off. A step of ISO 3098
    /// (from memory) for the largest, half of it for the next.
    pub const fn letters(self) -> f64 {
        match self.size {
            Size::A1 => std::f64::consts::SQRT_2,
            Size::A2 => 1.2,
            Size::A4 | Size::A3 | Size::Letter | Size::Legal | Size::Tabloid => 1.0,
        }
    }

    /// What is left free along each edge, mm: no office printer prints nearer to it than 5 mm or so (common practice, no source).
    pub const fn margin_mm(self) -> f64 {
        match self.size {
            Size::A4 | Size::Letter | Size::Legal => 10.0,
            Size::A3 | Size::Tabloid => 12.0,
            Size::A2 | Size::A1 => 15.0,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Each size of the A series is the one before it cut in half, to the millimetre below: ISO 216 (from memory).
    #[test]
    fn each_of_the_a_series_is_half_of_the_next() {
        for (larger, smaller) in [(Size::A1, Size::A2), (Size::A2, Size::A3), (Size::A3, Size::A4)] {
            let ((short, long), half) = (larger.sides_mm(), smaller.sides_mm());
            assert_eq!(half, ((long * 0.5).floor(), short));
        }
    }

    #[test]
    fn names_lead_back() {
        for size in Size::ALL {
            assert_eq!(Size::of_name(&size.name().to_lowercase()), Some(size));
        }
        assert_eq!(Size::of_name("A5"), None);
    }
}
