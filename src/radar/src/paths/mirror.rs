//! A flat face that mirrors, and what a mirror does to a place.

use baywright_geometry::tolerance::TOUCH_MM;
use baywright_geometry::{DVec3, Face};

/// A flat rectangle that mirrors.
#[derive(Clone, Debug, PartialEq)]
pub struct Mirror {
    /// The rectangle, in the bay's frame, mm.
    pub face: Face,
    /// Whether its back mirrors too: a sheet or a door leaf. The back of a cabinet's face, or of a wall, never does.
    pub on_both_sides: bool,
}

impl Mirror {
    /// A face of something solid: only its front mirrors.
    pub const fn front(face: Face) -> Self {
        Self { face, on_both_sides: false }
    }

    /// A sheet.
    pub const fn sheet(face: Face) -> Self {
        Self { face, on_both_sides: true }
    }

    /// How far a place lies before a side that mirrors, mm: positive before the front, negative before the back of a sheet. `None`
    /// in the mirror's plane, behind a face that has no back, or for a place that is no number: such a mirror shows nothing there.
    pub(crate) fn off(&self, p: DVec3) -> Option<f64> {
        let off = self.face.in_front(p);
        (off > TOUCH_MM || (self.on_both_sides && off < -TOUCH_MM)).then_some(off)
    }

    /// The mirror image of a place that lies so far off.
    pub(crate) fn image(&self, p: DVec3, off: f64) -> DVec3 {
        p - 2.0 * off * self.face.normal()
    }

    /// Whether some corner lies further than a touch on the side of `face`'s plane that `sign` names.
    pub(crate) fn reaches_before(&self, face: &Face, sign: f64) -> bool {
        let normal = face.normal();
        let reach = 0.5
            * (self.face.width() * self.face.left().dot(normal).abs()
                + self.face.height() * self.face.up().dot(normal).abs());
        face.in_front(self.face.centre()) * sign.signum() + reach > TOUCH_MM
    }

    /// Where the way from `a` to `b` touches it, each so far off on one side; `None` beside the rectangle.
    pub(crate) fn touched(&self, a: DVec3, a_off: f64, b: DVec3, b_off: f64) -> Option<DVec3> {
        let (foot, other) = (a - a_off * self.face.normal(), b - b_off * self.face.normal());
        let at = foot + (other - foot) * (a_off / (a_off + b_off));
        self.holds(at, TOUCH_MM).then_some(at)
    }

    /// Whether a place of its plane lies in the rectangle, widened by so much.
    pub(crate) fn holds(&self, at: DVec3, widened_mm: f64) -> bool {
        let own = at - self.face.centre();
        own.dot(self.face.left()).abs() <= 0.5 * self.face.width() + widened_mm
            && own.dot(self.face.up()).abs() <= 0.5 * self.face.height() + widened_mm
    }

    /// Whether the straight line passes through it, from one side to the other; ends nearer than `near_mm` to its plane do not.
    pub(crate) fn hides(&self, from: DVec3, to: DVec3, near_mm: f64) -> bool {
        let (a, b) = (self.face.in_front(from), self.face.in_front(to));
        if !(a.min(b) < -near_mm && a.max(b) > near_mm) {
            return false;
        }
        self.holds(from + (to - from) * (a / (a - b)), -TOUCH_MM)
    }
}
