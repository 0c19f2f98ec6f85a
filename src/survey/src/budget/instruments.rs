//! What a shop measures with, as standard uncertainties.

/// How much steel grows, per kelvin: 11.5e-6, as tapes of class II are made (common practice, no source).
pub const STEEL_PER_K: f64 = 11.5e-6;

/// A tape.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tape {
    /// What each reading adds by itself, mm: laying on, reading off.
    pub read_mm: f64,
    /// What it adds for each metre, mm: sag, bends.
    pub per_metre_mm: f64,
    /// The error of its scale, a ratio: half of its class's allowance over √3, as a rule. Common to all its readings.
    pub scale: f64,
    /// How far its temperature may be from what was allowed for, half a width, K. Common to all its readings.
    pub within_k: f64,
    /// How much it grows, per K.
    pub per_k: f64,
}

impl Tape {
    /// What one reading adds by itself, mm: a + b·L.
    pub fn of(&self, length_mm: f64) -> f64 {
        self.read_mm + self.per_metre_mm * length_mm.abs() * 1e-3
    }

    /// What is common to all its readings, a ratio.
    pub fn common(&self) -> f64 {
        libm::hypot(self.scale, self.within_k / 3.0_f64.sqrt() * self.per_k)
    }
}

/// All that a mark plan is laid with. Standard uncertainties.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Instruments {
    /// The tape.
    pub tape: Tape,
    /// Drift of a line laser or string, mm aside per metre.
    pub laser_mm_per_m: f64,
    /// Finding the middle of a drawn or projected line, mm.
    pub line_mm: f64,
    /// Plumbing a point of the body to the floor, mm either way.
    pub plumb_mm: f64,
    /// Finding a wheel's point on the floor sideways, mm, as long as its camber is allowed for.
    pub wheel_aside_mm: f64,
    /// Finding it lengthwise, mm.
    pub wheel_along_mm: f64,
    /// How well each wheel's camber is known, radians: a plumbed hub lies R·sin γ outboard of the tyre's middle.
    pub camber_rad: f64,
    /// How high a hub is, mm.
    pub hub_height_mm: f64,
    /// How square a square is, radians.
    pub square_rad: f64,
    /// How well an angle is laid, radians.
    pub angle_rad: f64,
}

impl Instruments {
    /// Nothing is off.
    pub const PERFECT: Self = Self {
        tape: Tape { read_mm: 0.0, per_metre_mm: 0.0, scale: 0.0, within_k: 0.0, per_k: STEEL_PER_K },
        laser_mm_per_m: 0.0,
        line_mm: 0.0,
        plumb_mm: 0.0,
        wheel_aside_mm: 0.0,
        wheel_along_mm: 0.0,
        camber_rad: 0.0,
        hub_height_mm: 310.0,
        square_rad: 0.0,
        angle_rad: 0.0,
    };

    pub(super) fn is_sound(&self) -> bool {
        let Self { tape, .. } = self;
        [
            tape.read_mm,
            tape.per_metre_mm,
            tape.scale,
            tape.within_k,
            tape.per_k,
            self.laser_mm_per_m,
            self.line_mm,
            self.plumb_mm,
            self.wheel_aside_mm,
            self.wheel_along_mm,
            self.camber_rad,
            self.hub_height_mm,
            self.square_rad,
            self.angle_rad,
        ]
        .iter()
        .all(|figure| (0.0..f64::INFINITY).contains(figure))
    }
}

/// A tape by which laid marks are checked, as far as its error is common to all that it reads. Two entries may be one tape that is
/// read under other circumstances: what it is out by itself is theirs together then, its warmth is each one's own.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CheckTape {
    /// Which tape it is: 0 for the one that the marks are laid with, any other number for another one.
    pub is: usize,
    /// The error of its scale, a ratio, standard; of the tape that the marks are laid with the budget's own counts.
    pub scale: f64,
    /// What its warmth adds, a ratio, standard.
    pub warmth: f64,
}
