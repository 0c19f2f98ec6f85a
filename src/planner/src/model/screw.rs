//! The screws by which a sensor's aim is set, as far as its maker's service information gives them.
//!
//! Each turns the sensor about a pivot in one direction. Nothing is known of a screw before all three figures of it are entered;
//! nothing stands in for one.

use baywright_survey::stand::turns_of_screw;

use super::sheet::Side;

/// Which way a beam goes, up or down.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Upright {
    /// Up.
    Up,
    /// Down.
    Down,
}

/// An adjusting screw, as far as it is known. `W` says which way the beam goes when it is turned clockwise, seen from the head.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Screw<W> {
    /// How far one turn moves it lengthwise, mm.
    pub pitch_mm: Option<f64>,
    /// How far from the pivot it acts, mm.
    pub arm_mm: Option<f64>,
    /// Which way the beam goes when it is turned clockwise.
    pub clockwise: Option<W>,
}

impl<W> Default for Screw<W> {
    fn default() -> Self {
        Self { pitch_mm: None, arm_mm: None, clockwise: None }
    }
}

impl<W: Copy> Screw<W> {
    /// How often it is turned for an angle, radians, without a sign, and which way a turn clockwise moves the beam; `None` while any
    /// of it is not known.
    ///
    /// Arm · tan(angle) / pitch (closed form): a tenth of a degree at 60 mm and 1 mm are 0.105 turns.
    pub fn turns(&self, angle_rad: f64) -> Option<(f64, W)> {
        Some((turns_of_screw(angle_rad.abs(), self.arm_mm?, self.pitch_mm?)?, self.clockwise?))
    }
}

/// A sensor's screws.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Screws {
    /// The one that turns it up and down.
    pub up_down: Screw<Upright>,
    /// The one that turns it left and right, as the driver sees it.
    pub left_right: Screw<Side>,
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: 60 · tan 0.1° = 0.10472 mm.
    #[test]
    fn turns_by_hand() {
        let tenth = 0.1_f64.to_radians();
        let whole = Screw { pitch_mm: Some(1.0), arm_mm: Some(60.0), clockwise: Some(Upright::Down) };
        let (turns, way) = whole.turns(-tenth).unwrap();
        assert!((turns - 0.10472).abs() < 1e-5 && way == Upright::Down);
        let half = Screw { pitch_mm: Some(0.5), ..whole };
        assert!((half.turns(tenth).unwrap().0 - 2.0 * turns).abs() < 1e-12);
        let lacking = [
            Screw { pitch_mm: None, ..whole },
            Screw { arm_mm: None, ..whole },
            Screw { clockwise: None, ..whole },
            Screw::default(),
        ];
        assert!(lacking.iter().all(|own| own.turns(tenth).is_none()));
    }
}
