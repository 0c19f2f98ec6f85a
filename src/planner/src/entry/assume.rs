//! Cars of which not everything is entered: what the class gives, worked out anew whenever something is typed.

use super::class::Figures;
use crate::model::assumed::BodyPart;
use crate::model::{BodySolids, Mirrors, Provenance, Vehicle, VehicleClass};

/// What a figure that was not entered may be rounded to without showing, mm.
const STEPS_PER_MM: f64 = 1e6;

/// A car's main sizes, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sizes {
    /// Overall length: what the other three make.
    pub length: f64,
    /// Width of the body without mirrors.
    pub width: f64,
    /// Overall height.
    pub height: f64,
    /// Front axle to rear axle.
    pub wheelbase: f64,
    /// Front axle to foremost point.
    pub overhang_front: f64,
    /// Rear axle to rearmost point.
    pub overhang_rear: f64,
}

impl VehicleClass {
    /// Main sizes of an ordinary car of the class: our own invention, to draw something until the figures are entered.
    pub const fn sizes(self) -> Sizes {
        let (width, height, wheelbase, overhang_front, overhang_rear) = match self {
            Self::SmallHatchback => (1_740.0, 1_470.0, 2_550.0, 820.0, 690.0),
            Self::Saloon | Self::Other => (1_830.0, 1_440.0, 2_780.0, 900.0, 1_060.0),
            Self::Estate => (1_830.0, 1_480.0, 2_780.0, 900.0, 1_080.0),
            Self::TallCar => (1_870.0, 1_660.0, 2_700.0, 900.0, 920.0),
            Self::Van => (1_990.0, 1_980.0, 3_200.0, 960.0, 1_100.0),
            Self::Pickup => (1_880.0, 1_820.0, 3_200.0, 920.0, 1_220.0),
            Self::PeopleCarrier => (1_850.0, 1_680.0, 2_850.0, 930.0, 900.0),
        };
        let length = wheelbase + overhang_front + overhang_rear;
        Sizes { length, width, height, wheelbase, overhang_front, overhang_rear }
    }
}

impl Vehicle {
    /// A car of a class of which nothing is entered yet: everything in it is assumed, and says so.
    pub fn of_class(class: VehicleClass) -> Self {
        let none = Mirrors { width_mm: 0.0, ahead_mm: 0.0, height_mm: 0.0 };
        let mut car = Self {
            id: "new-car".into(),
            name: "New car".to_owned(),
            class,
            length_mm: 0.0,
            width_mm: 0.0,
            mirrors: none,
            height_mm: 0.0,
            wheelbase_mm: 0.0,
            track_front_mm: 0.0,
            track_rear_mm: 0.0,
            overhang_front_mm: 0.0,
            overhang_rear_mm: 0.0,
            tyre_diameter_mm: 0.0,
            tyre_width_mm: 0.0,
            tyre_width_rear_mm: None,
            ground_clearance_mm: 0.0,
            ride_heights: None,
            ride_height_off_mm: None,
            outline_top: Vec::new(),
            outline_side: Vec::new(),
            assumed: BodyPart::ALL.map(Into::into).to_vec(),
            body_points: Vec::new(),
            sensors: Vec::new(),
            aimings: Vec::new(),
            provenance: Provenance::NotGiven,
            body: BodySolids::default(),
        };
        car.assume();
        car
    }

    /// Works out what was not entered from what was: the class's proportions, stretched. Figures that were entered stay
    /// as they are, sound or not; the solids follow the outlines.
    pub fn assume(&mut self) {
        let class = self.class;
        let open = |car: &Self, part: BodyPart| car.is_assumed(part);
        let usual = class.sizes();
        let mut set = |part: BodyPart, of: fn(&mut Self) -> &mut f64, value: f64| {
            if open(self, part) {
                *of(self) = rounded(value);
            }
        };
        set(BodyPart::Width, |car| &mut car.width_mm, usual.width);
        set(BodyPart::Height, |car| &mut car.height_mm, usual.height);
        self.assume_length(&usual);
        let (diameter, tyre) = class.tyre();
        let mut set = |part: BodyPart, of: fn(&mut Self) -> &mut f64, value: f64| {
            if open(self, part) {
                *of(self) = rounded(value);
            }
        };
        set(BodyPart::TyreDiameter, |car| &mut car.tyre_diameter_mm, diameter);
        set(BodyPart::TyreWidth, |car| &mut car.tyre_width_mm, tyre);
        set(BodyPart::GroundClearance, |car| &mut car.ground_clearance_mm, class.ground_clearance());
        let track = rounded(class.track(self.width_mm, self.tyre_width_mm));
        if open(self, BodyPart::TrackFront) {
            self.track_front_mm = track;
        }
        if open(self, BodyPart::TrackRear) {
            self.track_rear_mm = track;
        }
        let figures = Figures {
            width: self.width_mm,
            height: self.height_mm,
            wheelbase: self.wheelbase_mm,
            overhang_front: self.overhang_front_mm,
            overhang_rear: self.overhang_rear_mm,
            ground_clearance: self.ground_clearance_mm,
        };
        if open(self, BodyPart::Mirrors) {
            self.mirrors = class.mirrors(&figures);
        }
        if open(self, BodyPart::OutlineTop) {
            self.outline_top = class.outline_top(&figures);
        }
        if open(self, BodyPart::OutlineSide) {
            self.outline_side = class.outline_side(&figures);
        }
    }

    /// Wheelbase and overhangs make the length: what is open of them shares what the others leave, in the class's
    /// proportions.
    fn assume_length(&mut self, usual: &Sizes) {
        let parts = [
            (BodyPart::Wheelbase, self.wheelbase_mm, usual.wheelbase),
            (BodyPart::OverhangFront, self.overhang_front_mm, usual.overhang_front),
            (BodyPart::OverhangRear, self.overhang_rear_mm, usual.overhang_rear),
        ];
        let length_open = self.is_assumed(BodyPart::Length);
        let entered: f64 = parts.iter().filter(|part| !self.is_assumed(part.0)).map(|part| part.1).sum();
        let of_open: f64 = parts.iter().filter(|part| self.is_assumed(part.0)).map(|part| part.2).sum();
        let share = if length_open || of_open <= 0.0 {
            1.0
        } else {
            ((self.length_mm - entered) / of_open).max(LEAST_SHARE)
        };
        let value = |car: &Self, (part, own, usual): (BodyPart, f64, f64)| {
            if car.is_assumed(part) { rounded(usual * share) } else { own }
        };
        let [wheelbase, front, rear] = parts.map(|part| value(self, part));
        (self.wheelbase_mm, self.overhang_front_mm, self.overhang_rear_mm) = (wheelbase, front, rear);
        if length_open {
            self.length_mm = rounded(wheelbase + front + rear);
        }
    }
}

/// Where the entered parts leave nothing of the length, the open ones keep this share of the usual: the length is then
/// refused with its sum, not an overhang with no size.
const LEAST_SHARE: f64 = 0.05;

fn rounded(value: f64) -> f64 {
    (value * STEPS_PER_MM).round() / STEPS_PER_MM + 0.0
}
