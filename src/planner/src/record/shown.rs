//! How an attachment stands in the file of proof: as a picture, or by its name with the reason.

use std::sync::Arc;

/// No more pictures are printed in one file of proof: two to a page, that is thirty pages.
pub const MOST_SHOWN: usize = 60;

/// An attachment as it is printed.
#[derive(Clone, Debug, PartialEq)]
pub enum Shown {
    /// The picture itself.
    Picture(Picture),
    /// It is of a kind that is told by its name.
    ByName,
    /// Nothing that can be read lies in its place.
    Lost,
    /// What lies there is not what was attached: its hash is another.
    Changed,
    /// It is called a picture and cannot be read as one.
    NotRead,
    /// It has more pixels than are read: across and down.
    TooLarge(u32, u32),
    /// As many pictures as are printed stand before it.
    TooMany,
}

/// How a picture's bytes are written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PictureForm {
    /// PNG.
    Png,
    /// JPEG, of grey or of red, green and blue.
    Jpeg,
}

/// A picture that was read once from end to end, so that whoever prints it can.
#[derive(Clone, PartialEq)]
pub struct Picture {
    /// How its bytes are written.
    pub form: PictureForm,
    /// The bytes: as they were attached, but for the note how the camera was held; or a smaller picture of it.
    pub bytes: Arc<[u8]>,
    /// Pixels across, as the bytes have them.
    pub width: u32,
    /// Pixels from top to bottom, as the bytes have them.
    pub height: u32,
    /// How it is turned to stand upright.
    pub turned: Turned,
    /// Whether it is a smaller picture of what was attached.
    pub is_smaller: bool,
}

impl std::fmt::Debug for Picture {
    /// Without the bytes, which nobody can read.
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "Picture({:?}, {} × {}, {:?})", self.form, self.width, self.height, self.turned)
    }
}

/// How a picture is turned to stand upright: first so many quarters of a turn clockwise, then left and right are changed or not.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Turned {
    /// 0 to 3.
    pub quarters: u8,
    /// Whether left and right are changed after that.
    pub is_mirrored: bool,
}

impl Picture {
    /// Pixels across and down as it stands upright.
    pub fn upright(&self) -> [f64; 2] {
        let [width, height] = [self.width, self.height].map(f64::from);
        if self.turned.quarters % 2 == 1 { [height, width] } else { [width, height] }
    }

    /// Where a place of the bytes' own picture, px from its upper left corner, lies once it stands upright: [a, b, c, d, e, f] for
    /// x' = a·x + c·y + e, y' = b·x + d·y + f.
    pub fn to_upright(&self) -> [f64; 6] {
        let [w, h] = [self.width, self.height].map(f64::from);
        let [a, b, c, d, e, f] = match self.turned.quarters % 4 {
            0 => [1.0, 0.0, 0.0, 1.0, 0.0, 0.0],
            1 => [0.0, 1.0, -1.0, 0.0, h, 0.0],
            2 => [-1.0, 0.0, 0.0, -1.0, w, h],
            _ => [0.0, -1.0, 1.0, 0.0, 0.0, w],
        };
        let [wide, _] = self.upright();
        if self.turned.is_mirrored { [-a, b, -c, d, wide - e, f] } else { [a, b, c, d, e, f] }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Wherever it is turned to, its corners are the corners of the upright picture, and the first pixel lies where it must.
    #[test]
    fn corners_come_to_corners() {
        let at = |own: &Picture, [x, y]: [f64; 2]| {
            let [a, b, c, d, e, f] = own.to_upright();
            [a * x + c * y + e, b * x + d * y + f]
        };
        let (w, h) = (4.0, 3.0);
        // Where the first pixel's corner lies, for the eight ways a camera is held (EXIF 2.3, table 6, from memory).
        let first = [
            (0, false, [0.0, 0.0]),
            (1, false, [h, 0.0]),
            (2, false, [w, h]),
            (3, false, [0.0, w]),
            (0, true, [w, 0.0]),
            (1, true, [0.0, 0.0]),
            (2, true, [0.0, h]),
            (3, true, [h, w]),
        ];
        for (quarters, is_mirrored, corner) in first {
            let own = Picture {
                form: PictureForm::Jpeg,
                bytes: Arc::from([]),
                width: 4,
                height: 3,
                turned: Turned { quarters, is_mirrored },
                is_smaller: false,
            };
            assert_eq!(at(&own, [0.0, 0.0]), corner, "{own:?}");
            let [wide, high] = own.upright();
            let mut corners = [[0.0, 0.0], [w, 0.0], [0.0, h], [w, h]].map(|own_at| at(&own, own_at));
            corners.sort_by(|one, other| one.partial_cmp(other).unwrap());
            assert_eq!(corners, [[0.0, 0.0], [0.0, high], [wide, 0.0], [wide, high]], "{own:?}");
        }
    }
}
