//! What was measured on one very car, and what follows from it.

use baywright_geometry::{DVec2, DVec3, angle, thrust_heading};

use super::sheet::{AlignmentSheet, Inward, SheetUnit, Side, Told, Typed};
use super::{Id, Wheel};

/// What was measured on this very car; it overrides the profile, and shows.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct OnThisCar {
    /// The sensor's place as built, vehicle frame.
    pub sensor_at: Option<DVec3>,
    /// Toe of the rear wheels in degrees by a sign, as files up to version 10 have it; what the sheet says of a wheel goes before it.
    pub rear_toe: RearToe,
    /// How far the right front wheel stands further back than the left one, mm; negative: the left one does. As those files have
    /// it; what the sheet says goes before it.
    pub set_back_mm: Option<f64>,
    /// The turning circle between kerbs, its diameter, mm.
    pub turning_circle_mm: Option<f64>,
    /// The wheels as this car stands, vehicle frame, in [`Wheel::ALL`]'s order: four feet, no trapezium; which point of each wheel
    /// is said by `wheels_at`.
    pub wheels: Option<[DVec2; 4]>,
    /// Which point of a wheel `wheels` are.
    pub wheels_at: WheelsAt,
    /// The alignment sheet, as typed; boxed, since it is larger than all the rest together.
    pub sheet: Box<AlignmentSheet>,
    /// The edge of each wheel arch above the wheel's middle, mm, in [`Wheel::ALL`]'s order, as far as they were taped.
    pub arches_mm: [Option<f64>; 4],
    /// Named points of the body where they were plumbed to the floor, vehicle frame; the others are where the profile has them.
    pub body_points: Vec<(Id, DVec2)>,
    /// Distances between floor and car that show whether it moved since the marks were laid.
    pub stood: Vec<Stood>,
}

/// Which point of each wheel was brought to the floor.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum WheelsAt {
    /// The one under the tyre's middle, which is the wheel point that everything is counted from.
    #[default]
    TyreMiddle,
    /// The one plumbed from the hub: with a known camber it lies R·sin γ outboard of the tyre's middle.
    Hub,
}

/// A distance from the floor to the car, taped when the marks were laid and once more at the end.
#[derive(Clone, Debug, PartialEq)]
pub struct Stood {
    /// From this point of the floor.
    pub from: Id,
    /// To this one of the car.
    pub to: Id,
    /// What the tape read at the start, mm.
    pub start_mm: f64,
    /// What it read at the end, mm; `None` until it was held there again.
    pub end_mm: Option<f64>,
}

impl Stood {
    /// How much more it reads at the end than at the start, mm; `None` until it was taped again.
    pub fn moved_mm(&self) -> Option<f64> {
        Some(self.end_mm? - self.start_mm)
    }
}

/// So many of them one set-up may have.
pub const MOST_STOOD: usize = 20;

/// Toe of the rear wheels, as far as it is known, positive toe-in. What nobody entered of one wheel is not nothing: where the
/// wheels push the car is known once both are.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct RearToe {
    /// Of the left wheel, radians.
    pub left_rad: Option<f64>,
    /// Of the right wheel, radians.
    pub right_rad: Option<f64>,
}

impl RearToe {
    /// Of both wheels, radians.
    pub const fn of(left_rad: f64, right_rad: f64) -> Self {
        Self { left_rad: Some(left_rad), right_rad: Some(right_rad) }
    }

    /// Of the left and the right wheel, radians; `None` while either is not known.
    pub fn both_rad(self) -> Option<(f64, f64)> {
        self.left_rad.zip(self.right_rad)
    }
}

impl OnThisCar {
    /// The toe of both rear wheels as far as it is known.
    pub fn told_rear_toe(&self) -> RearToe {
        RearToe {
            left_rad: self.sheet.toe_rad(Wheel::RearLeft).or(self.rear_toe.left_rad),
            right_rad: self.sheet.toe_rad(Wheel::RearRight).or(self.rear_toe.right_rad),
        }
    }

    /// The thrust angle worked out from both rear toes, radians, positive to the left; `None` while either is not known.
    pub fn worked_thrust_rad(&self) -> Option<f64> {
        self.told_rear_toe().both_rad().map(|(left, right)| thrust_heading(left, right))
    }

    /// Where the rear wheels push the car, radians, positive to the left: worked out from their toes, else as the sheet prints it.
    pub fn thrust_rad(&self) -> Option<f64> {
        self.worked_thrust_rad().or_else(|| self.sheet.printed_thrust_rad())
    }

    /// Whether the toe of one rear wheel alone is known, and the sheet prints no thrust angle that stands in for both.
    pub fn is_half_read(&self) -> bool {
        let toe = self.told_rear_toe();
        toe.left_rad.is_some() != toe.right_rad.is_some() && self.thrust_rad().is_none()
    }

    /// The sheet as it can be typed on: with what an older file says by a sign brought into it, in degrees and mm, where nothing
    /// else stands in its place.
    pub fn sheet_to_type(&self) -> AlignmentSheet {
        let mut sheet = AlignmentSheet::clone(&self.sheet);
        let way = |positive: bool| if positive { Inward::In } else { Inward::Out };
        for (nth, old) in [(2, self.rear_toe.left_rad), (3, self.rear_toe.right_rad)] {
            if let (Some(own), Some(rad)) = (sheet.toe.get_mut(nth), old)
                && own.reads.is_none()
                && self.sheet.toe_unit == SheetUnit::Degrees
            {
                *own = Told::of(Typed::of(millionths(angle::degrees(rad.abs()))), way(rad >= 0.0));
            }
        }
        if let (None, Some(mm)) = (self.sheet.set_back.reads, self.set_back_mm) {
            sheet.set_back_unit = SheetUnit::Millimetres;
            let side = if mm >= 0.0 { Side::Right } else { Side::Left };
            sheet.set_back = Told::of(Typed::of(millionths(mm.abs())), side);
        }
        sheet
    }

    /// Takes toes and set-back that came with a sign, positive toe-in and with the right wheel further back, from somewhere else
    /// than the sheet: what differs from what the sheet says takes its place there, the rest of it stays.
    pub fn take_signed(&mut self, rear_toe: RearToe, set_back_mm: Option<f64>) {
        let is = |one: Option<f64>, other: Option<f64>| match (one, other) {
            (Some(one), Some(other)) => (one - other).abs() < 1e-9,
            (one, other) => one == other,
        };
        let told = self.told_rear_toe();
        for (nth, (said, now)) in
            [(2, (told.left_rad, rear_toe.left_rad)), (3, (told.right_rad, rear_toe.right_rad))]
        {
            if !is(said, now)
                && let Some(own) = self.sheet.toe.get_mut(nth)
            {
                *own = Told::default();
            }
        }
        self.rear_toe = rear_toe;
        self.sheet.set_back = Told::default();
        self.set_back_mm = set_back_mm;
    }

    /// The sheet as it was typed now, what an older file said by a sign included.
    pub fn take_sheet(&mut self, sheet: AlignmentSheet) {
        if self.sheet.toe_unit == SheetUnit::Degrees {
            self.rear_toe = RearToe::default();
        }
        self.set_back_mm = None;
        *self.sheet = sheet;
    }
}

/// As files write it.
fn millionths(value: f64) -> f64 {
    (value * 1e6).round() / 1e6
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What an older file says is shown as a sheet has it, and says the same once it was typed on.
    #[test]
    fn older_figures_become_a_sheet() {
        let mut own = OnThisCar {
            rear_toe: RearToe { left_rad: Some(angle::radians(0.3)), right_rad: Some(angle::radians(-0.1)) },
            set_back_mm: Some(-4.0),
            ..OnThisCar::default()
        };
        let before = (own.told_rear_toe(), own.thrust_rad());
        let sheet = own.sheet_to_type();
        assert_eq!(sheet.toe[2], Told::of(Typed::of(0.3), Inward::In));
        assert_eq!(sheet.toe[3], Told::of(Typed::of(0.1), Inward::Out));
        assert_eq!(sheet.set_back, Told::of(Typed::of(4.0), Side::Left));
        own.take_sheet(sheet);
        assert_eq!((own.rear_toe, own.set_back_mm), (RearToe::default(), None));
        let near = |a: Option<f64>, b: Option<f64>| (a.unwrap() - b.unwrap()).abs() < 1e-12;
        assert!(near(own.told_rear_toe().left_rad, before.0.left_rad) && near(own.thrust_rad(), before.1));
        assert_eq!(own.sheet.set_back_mm(1500.0), Some(-4.0));
    }

    /// A printed thrust angle stands in for toes that are not there; it gives way to those that are.
    #[test]
    fn the_thrust_angle_is_worked_out_where_it_can_be() {
        let mut own = OnThisCar::default();
        own.sheet.thrust = Told::of(Typed::of(0.05), Side::Right);
        assert!((own.thrust_rad().unwrap().to_degrees() + 0.05).abs() < 1e-12);
        own.sheet.toe[2] = Told::of(Typed::of(0.0), Inward::In);
        assert!(!own.is_half_read() && own.worked_thrust_rad().is_none());
        own.sheet.toe[3] = Told::of(Typed::of(0.2), Inward::In);
        assert!((own.thrust_rad().unwrap().to_degrees() - 0.1).abs() < 1e-12);
        own.sheet.thrust = Told::default();
        own.sheet.toe[3] = Told::default();
        assert!(own.is_half_read());
    }
}
