//! An alignment sheet as it was typed: in its own unit, with the way that each figure goes, never by a sign.
//!
//! What a figure says in radians or mm is worked out from that when it is asked for, so that it is shown back as it stands on the
//! sheet. A figure whose way nobody said is not used ([`AlignmentSheet::open`]); one that is nothing needs none.

use baywright_survey::alignment::{SheetFigure, turned};
use jiff::civil::Date;

use super::Wheel;

/// The unit that a figure of a sheet is in.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum SheetUnit {
    /// Decimal degrees.
    #[default]
    Degrees,
    /// Whole degrees and minutes.
    DegreesMinutes,
    /// Millimetres: of a toe, between a rim's front and rear edge; of a set-back, between the two front wheels.
    Millimetres,
    /// The same in inches.
    Inches,
}

impl SheetUnit {
    /// Every one.
    pub const ALL: [Self; 4] = [Self::Degrees, Self::DegreesMinutes, Self::Millimetres, Self::Inches];
    /// Those of angles alone.
    pub const ANGLES: [Self; 2] = [Self::Degrees, Self::DegreesMinutes];

    /// Whether it is a length.
    pub const fn is_length(self) -> bool {
        matches!(self, Self::Millimetres | Self::Inches)
    }
}

/// The diameter at which a sheet gives its toes, as it was typed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Rim {
    /// In millimetres.
    Millimetres(f64),
    /// In inches, as rims are named.
    Inches(f64),
}

impl Rim {
    /// mm.
    pub fn mm(self) -> f64 {
        match self {
            Self::Millimetres(mm) => mm,
            Self::Inches(inches) => inches * MM_PER_INCH,
        }
    }
}

/// Exactly, since 1959.
pub const MM_PER_INCH: f64 = 25.4;

/// A figure as it was typed, without a sign.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Typed {
    /// In its unit; of degrees and minutes the degrees.
    pub value: f64,
    /// The minutes of [`SheetUnit::DegreesMinutes`]; else 0.
    pub minutes: f64,
}

impl Typed {
    /// A figure of one number.
    pub const fn of(value: f64) -> Self {
        Self { value, minutes: 0.0 }
    }

    /// Whether it is nothing: which way does not matter then.
    pub fn is_nothing(self) -> bool {
        self.value == 0.0 && self.minutes == 0.0
    }

    /// The same digits where the unit turns out to be another one; degrees and their minutes are brought to the other form.
    #[must_use]
    pub fn reread(self, was: SheetUnit, now: SheetUnit) -> Self {
        match (was, now) {
            (SheetUnit::DegreesMinutes, SheetUnit::DegreesMinutes) => self,
            (SheetUnit::DegreesMinutes, _) => Self::of(self.value + self.minutes / 60.0),
            (SheetUnit::Degrees, SheetUnit::DegreesMinutes) => {
                let minutes = ((self.value - self.value.floor()) * 60.0 * 1e3).round() / 1e3;
                if minutes >= 60.0 {
                    Self::of(self.value.floor() + 1.0)
                } else {
                    Self { value: self.value.floor(), minutes }
                }
            }
            _ => self,
        }
    }
}

/// Which way a toe points or a camber leans: its front edge, or its top.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Inward {
    /// Towards the car's middle.
    In,
    /// Away from it.
    Out,
}

/// A side of the car: which way its thrust line points, or which front wheel stands back.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// The driver's left, looking ahead.
    Left,
    /// The other one.
    Right,
}

/// A figure of a sheet and which way it goes, as far as either was said.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Told<W> {
    /// What the sheet reads.
    pub reads: Option<Typed>,
    /// Which way.
    pub way: Option<W>,
}

impl<W> Default for Told<W> {
    fn default() -> Self {
        Self { reads: None, way: None }
    }
}

impl<W: Copy + PartialEq> Told<W> {
    /// A figure with its way.
    pub const fn of(reads: Typed, way: W) -> Self {
        Self { reads: Some(reads), way: Some(way) }
    }

    /// Whether a figure stands there and nobody said which way it goes.
    pub fn wants_way(&self) -> bool {
        self.way.is_none() && self.reads.is_some_and(|own| !own.is_nothing())
    }

    /// With its sign, positive the way that is named; `None` while it is not known, or `of` makes nothing of it.
    fn signed(&self, positive: W, of: impl FnOnce(Typed) -> Option<f64>) -> Option<f64> {
        let reads = self.reads?;
        if reads.is_nothing() {
            return Some(0.0);
        }
        let value = of(reads)?;
        Some(if self.way? == positive { value } else { -value })
    }
}

/// A figure of a sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SheetPart {
    /// A wheel's toe.
    Toe(Wheel),
    /// A wheel's camber.
    Camber(Wheel),
    /// The front axle's set-back.
    SetBack,
    /// The thrust angle that the sheet prints.
    Thrust,
}

/// Why a figure that was typed is not used.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SheetLacks {
    /// Nobody said which way it goes.
    Way,
    /// It is a length between the edges of a rim of which no diameter is known.
    Rim,
}

/// What a sheet says of this very car. All of it may be left open.
#[derive(Clone, Debug, PartialEq)]
pub struct AlignmentSheet {
    /// The day on the sheet.
    pub taken: Option<Date>,
    /// Who measured.
    pub by: Option<String>,
    /// The unit of the toes.
    pub toe_unit: SheetUnit,
    /// At which diameter they are given, if they are lengths.
    pub rim: Option<Rim>,
    /// Of each wheel by itself, in [`Wheel::ALL`]'s order; in: its front edge towards the car's middle.
    pub toe: [Told<Inward>; 4],
    /// The unit of the cambers; an angle.
    pub camber_unit: SheetUnit,
    /// In the same order; in: its top towards the car's middle.
    pub camber: [Told<Inward>; 4],
    /// The unit of the set-back.
    pub set_back_unit: SheetUnit,
    /// Which front wheel stands back, and how far, or the axle how far turned.
    pub set_back: Told<Side>,
    /// The unit of the thrust angle; an angle.
    pub thrust_unit: SheetUnit,
    /// As printed; the side that it points to.
    pub thrust: Told<Side>,
}

impl Default for AlignmentSheet {
    /// Nothing is told; a set-back is a length as a rule, all else angles.
    fn default() -> Self {
        Self {
            taken: None,
            by: None,
            toe_unit: SheetUnit::Degrees,
            rim: None,
            toe: [Told::default(); 4],
            camber_unit: SheetUnit::Degrees,
            camber: [Told::default(); 4],
            set_back_unit: SET_BACK_UNIT,
            set_back: Told::default(),
            thrust_unit: SheetUnit::Degrees,
            thrust: Told::default(),
        }
    }
}

/// The unit of a set-back of which nothing is said.
pub const SET_BACK_UNIT: SheetUnit = SheetUnit::Millimetres;

impl AlignmentSheet {
    /// A wheel's toe, radians, positive in; `None` while figure, way or rim is not known.
    ///
    /// 2 mm at 406.4 mm (16 inches) is 0.282° (references: closed form asin(2/406.4)).
    pub fn toe_rad(&self, wheel: Wheel) -> Option<f64> {
        let told = self.toe.get(nth(wheel)?)?;
        told.signed(Inward::In, |typed| angle_of(self.toe_unit, typed, self.rim))
    }

    /// A wheel's camber, radians, positive with its top outwards; `None` while it is not known.
    pub fn camber_rad(&self, wheel: Wheel) -> Option<f64> {
        let told = self.camber.get(nth(wheel)?)?;
        told.signed(Inward::Out, |typed| angle_of(self.camber_unit, typed, None))
    }

    /// The thrust angle as printed, radians, positive to the left; `None` while it is not known.
    pub fn printed_thrust_rad(&self) -> Option<f64> {
        self.thrust.signed(Side::Left, |typed| angle_of(self.thrust_unit, typed, None))
    }

    /// How far the right front wheel stands further back than the left one, mm, negative: the left one does; of an angle with the
    /// front track, mm. `None` while it is not known.
    pub fn set_back_mm(&self, front_track_mm: f64) -> Option<f64> {
        self.set_back.signed(Side::Right, |typed| match self.set_back_unit {
            SheetUnit::Millimetres => Some(typed.value),
            SheetUnit::Inches => Some(typed.value * MM_PER_INCH),
            unit => Some(front_track_mm * libm::tan(angle_of(unit, typed, None)?)),
        })
    }

    /// What was typed and is not used, and why: toes first, as they are listed on a sheet.
    pub fn open(&self) -> Vec<(SheetPart, SheetLacks)> {
        let is_typed = |told: &Told<Inward>| told.reads.is_some_and(|own| !own.is_nothing());
        let toes = Wheel::ALL.into_iter().zip(&self.toe).filter_map(|(wheel, told)| {
            let part = SheetPart::Toe(wheel);
            if told.wants_way() {
                Some((part, SheetLacks::Way))
            } else if self.toe_unit.is_length() && self.rim.is_none() && is_typed(told) {
                Some((part, SheetLacks::Rim))
            } else {
                None
            }
        });
        let cambers = Wheel::ALL.into_iter().zip(&self.camber);
        let cambers = cambers.filter(|(_, told)| told.wants_way());
        let cambers = cambers.map(|(wheel, _)| (SheetPart::Camber(wheel), SheetLacks::Way));
        let rest =
            [(SheetPart::SetBack, self.set_back.wants_way()), (SheetPart::Thrust, self.thrust.wants_way())];
        let rest = rest.into_iter().filter(|(_, wants)| *wants).map(|(part, _)| (part, SheetLacks::Way));
        toes.chain(cambers).chain(rest).collect()
    }

    /// The unit of the toes is another one: their digits stay, read in that.
    pub fn set_toe_unit(&mut self, unit: SheetUnit) {
        reread(&mut self.toe, self.toe_unit, unit);
        self.toe_unit = unit;
    }

    /// The same of cambers and thrust angle.
    pub fn set_angle_unit(&mut self, unit: SheetUnit) {
        reread(&mut self.camber, self.camber_unit, unit);
        reread(std::slice::from_mut(&mut self.thrust), self.thrust_unit, unit);
        (self.camber_unit, self.thrust_unit) = (unit, unit);
    }

    /// The same of the set-back.
    pub fn set_set_back_unit(&mut self, unit: SheetUnit) {
        reread(std::slice::from_mut(&mut self.set_back), self.set_back_unit, unit);
        self.set_back_unit = unit;
    }
}

fn reread<W>(all: &mut [Told<W>], was: SheetUnit, now: SheetUnit) {
    for own in all {
        own.reads = own.reads.map(|typed| typed.reread(was, now));
    }
}

fn nth(wheel: Wheel) -> Option<usize> {
    Wheel::ALL.iter().position(|own| *own == wheel)
}

/// Without a sign, radians.
fn angle_of(unit: SheetUnit, typed: Typed, rim: Option<Rim>) -> Option<f64> {
    turned(match unit {
        SheetUnit::Degrees => SheetFigure::Degrees(typed.value),
        SheetUnit::DegreesMinutes => SheetFigure::DegreesMinutes(typed.value, typed.minutes),
        SheetUnit::Millimetres => SheetFigure::AtRim { mm: typed.value, rim_mm: rim?.mm() },
        SheetUnit::Inches => {
            SheetFigure::AtRimInches { inches: typed.value, rim_inches: rim?.mm() / MM_PER_INCH }
        }
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Closed forms: asin(2/406.4) is 0.282°, and so is 0.0787 inches at 16 inches; 17 minutes are 0.283°.
    #[test]
    fn one_toe_in_every_unit() {
        let mut sheet = AlignmentSheet { toe_unit: SheetUnit::Millimetres, ..AlignmentSheet::default() };
        sheet.toe[2] = Told::of(Typed::of(2.0), Inward::Out);
        assert_eq!(sheet.toe_rad(Wheel::RearLeft), None, "at no rim");
        assert_eq!(sheet.open(), [(SheetPart::Toe(Wheel::RearLeft), SheetLacks::Rim)]);
        for rim in [Rim::Millimetres(406.4), Rim::Inches(16.0)] {
            sheet.rim = Some(rim);
            assert!((sheet.toe_rad(Wheel::RearLeft).unwrap().to_degrees() + 0.282).abs() < 5e-4);
        }
        assert!(sheet.open().is_empty());
        sheet.toe_unit = SheetUnit::Inches;
        sheet.toe[2] = Told::of(Typed::of(2.0 / 25.4), Inward::In);
        assert!((sheet.toe_rad(Wheel::RearLeft).unwrap().to_degrees() - 0.282).abs() < 5e-4);
        sheet.toe_unit = SheetUnit::DegreesMinutes;
        sheet.toe[2] = Told::of(Typed { value: 0.0, minutes: 17.0 }, Inward::In);
        assert!((sheet.toe_rad(Wheel::RearLeft).unwrap().to_degrees() - 17.0 / 60.0).abs() < 1e-12);
    }

    /// Which way is never taken from a sign, nor from nothing said; what is nothing needs no way.
    #[test]
    fn a_figure_without_its_way_is_not_used() {
        let mut sheet = AlignmentSheet::default();
        sheet.toe[3].reads = Some(Typed::of(0.2));
        sheet.camber[0].reads = Some(Typed::of(1.0));
        sheet.set_back.reads = Some(Typed::of(0.0));
        sheet.thrust.reads = Some(Typed::of(0.1));
        assert_eq!((sheet.toe_rad(Wheel::RearRight), sheet.camber_rad(Wheel::FrontLeft)), (None, None));
        assert_eq!((sheet.set_back_mm(1500.0), sheet.printed_thrust_rad()), (Some(0.0), None));
        let open = [SheetPart::Toe(Wheel::RearRight), SheetPart::Camber(Wheel::FrontLeft), SheetPart::Thrust];
        assert_eq!(sheet.open(), open.map(|part| (part, SheetLacks::Way)));
        sheet.camber[0].way = Some(Inward::In);
        assert!((sheet.camber_rad(Wheel::FrontLeft).unwrap().to_degrees() + 1.0).abs() < 1e-12);
        sheet.thrust.way = Some(Side::Right);
        assert!((sheet.printed_thrust_rad().unwrap().to_degrees() + 0.1).abs() < 1e-12);
    }

    /// A set-back of 0.2° over a track of 1 500 mm is 1500·tan 0.2° = 5.236 mm.
    #[test]
    fn a_set_back_as_an_angle() {
        let mut sheet = AlignmentSheet {
            set_back: Told::of(Typed::of(0.2), Side::Left),
            set_back_unit: SheetUnit::Degrees,
            ..AlignmentSheet::default()
        };
        assert!((sheet.set_back_mm(1500.0).unwrap() + 5.236).abs() < 5e-4);
        sheet.set_set_back_unit(SheetUnit::Inches);
        assert!((sheet.set_back_mm(1500.0).unwrap() + 5.08).abs() < 1e-9);
    }

    #[test]
    fn another_unit_keeps_the_digits() {
        let mut sheet = AlignmentSheet::default();
        sheet.toe[0] = Told::of(Typed::of(0.25), Inward::In);
        sheet.set_toe_unit(SheetUnit::DegreesMinutes);
        assert_eq!(sheet.toe[0].reads, Some(Typed { value: 0.0, minutes: 15.0 }));
        sheet.set_toe_unit(SheetUnit::Degrees);
        assert_eq!(sheet.toe[0].reads, Some(Typed::of(0.25)));
        sheet.set_toe_unit(SheetUnit::Millimetres);
        assert_eq!(sheet.toe[0].reads, Some(Typed::of(0.25)));
        assert_eq!(
            Typed::of(0.999_999_9).reread(SheetUnit::Degrees, SheetUnit::DegreesMinutes),
            Typed::of(1.0)
        );
    }
}
