//! The rows of what was measured on one very car, as the alignment sheet and the tape have it. They are the same wherever they are typed:
//! in the car's form, and on the page of a visit's record.

use baywright_planner::model::sheet::{AlignmentSheet, Inward, Rim, SheetPart, SheetUnit, Side, Told, Typed};
use baywright_planner::model::{Id, OnThisCar, Stood, Wheel};
use baywright_planner::words::this_car::ThisCarTexts;
use jiff::civil::Date;

use super::sheet_typed::{self, NoFigure};
use super::which::NotRead;
use crate::screen::Desk;

/// A row.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::screen) enum CarRow {
    /// The unit of toes.
    ToeUnit,
    /// The diameter at which they are given.
    Rim,
    /// A figure of the sheet, without a sign.
    Told(SheetPart),
    /// Which way it goes.
    Way(SheetPart),
    /// The unit of cambers and thrust angle.
    AngleUnit,
    /// The unit of a set-back.
    SetBackUnit,
    /// The day of the sheet.
    Day,
    /// Who measured.
    By,
    /// The edge of a wheel's arch above its middle.
    Arch(Wheel),
    /// A distance from floor to car at the start, from 0.
    Start(usize),
    /// The same at the end.
    End(usize),
    /// From which point of the floor.
    From(usize),
    /// To which one of the car.
    To(usize),
}

/// What a row shows.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(in crate::screen) struct CarShown {
    /// Its name.
    pub label: String,
    /// What it means.
    pub hint: String,
    /// What stands in its field.
    pub text: String,
    /// What is chosen from, where nothing is typed.
    pub options: Vec<String>,
    /// Which of them holds.
    pub chosen: usize,
}

fn nth(wheel: Wheel) -> usize {
    Wheel::ALL.iter().position(|own| *own == wheel).unwrap_or(0)
}

const UNITS: [SheetUnit; 4] = SheetUnit::ALL;

/// The unit of a figure, what was typed of it, and whether it says its way: 0 not, 1 and 2 one or the other.
fn told(sheet: &AlignmentSheet, part: SheetPart) -> (SheetUnit, Option<Typed>, usize) {
    let inward =
        |own: &Told<Inward>| (own.reads, own.way.map_or(0, |way| 1 + usize::from(way == Inward::Out)));
    let side = |own: &Told<Side>| (own.reads, own.way.map_or(0, |way| 1 + usize::from(way == Side::Right)));
    let (unit, (reads, way)) = match part {
        SheetPart::Toe(wheel) => (sheet.toe_unit, sheet.toe.get(nth(wheel)).map(inward).unwrap_or_default()),
        SheetPart::Camber(wheel) => {
            (sheet.camber_unit, sheet.camber.get(nth(wheel)).map(inward).unwrap_or_default())
        }
        SheetPart::SetBack => (sheet.set_back_unit, side(&sheet.set_back)),
        SheetPart::Thrust => (sheet.thrust_unit, side(&sheet.thrust)),
    };
    (unit, reads, way)
}

/// Sets a figure, or its way. What was rubbed out, or is nothing, has no way.
fn set(sheet: &mut AlignmentSheet, part: SheetPart, reads: Option<Typed>, way: usize) {
    let way = if reads.is_none_or(Typed::is_nothing) { 0 } else { way };
    let one = |one, other| match way {
        1 => Some(one),
        2 => Some(other),
        _ => None,
    };
    let inward = if way == 1 { Some(Inward::In) } else { (way == 2).then_some(Inward::Out) };
    let side = one(Side::Left, Side::Right);
    match part {
        SheetPart::Toe(wheel) => {
            sheet.toe.iter_mut().skip(nth(wheel)).take(1).for_each(|own| *own = Told { reads, way: inward });
        }
        SheetPart::Camber(wheel) => {
            sheet
                .camber
                .iter_mut()
                .skip(nth(wheel))
                .take(1)
                .for_each(|own| *own = Told { reads, way: inward });
        }
        SheetPart::SetBack => sheet.set_back = Told { reads, way: side },
        SheetPart::Thrust => sheet.thrust = Told { reads, way: side },
    }
}

impl CarRow {
    /// The rows of the sheet that every aiming asks for first; after each comes what [`Self::asks`].
    pub const OF_SHEET: [Self; 4] = [
        Self::ToeUnit,
        Self::Told(SheetPart::Toe(Wheel::RearLeft)),
        Self::Told(SheetPart::Toe(Wheel::RearRight)),
        Self::Told(SheetPart::SetBack),
    ];
    /// The rest of it.
    pub const OF_REST: [Self; 11] = [
        Self::Told(SheetPart::Toe(Wheel::FrontLeft)),
        Self::Told(SheetPart::Toe(Wheel::FrontRight)),
        Self::AngleUnit,
        Self::Told(SheetPart::Camber(Wheel::FrontLeft)),
        Self::Told(SheetPart::Camber(Wheel::FrontRight)),
        Self::Told(SheetPart::Camber(Wheel::RearLeft)),
        Self::Told(SheetPart::Camber(Wheel::RearRight)),
        Self::Told(SheetPart::Thrust),
        Self::SetBackUnit,
        Self::Day,
        Self::By,
    ];

    /// What is asked after it: the diameter of toes that are lengths, which way a figure goes that is something.
    pub fn asks(self, car: &OnThisCar) -> Option<Self> {
        let sheet = car.sheet_to_type();
        match self {
            Self::ToeUnit if sheet.toe_unit.is_length() => Some(Self::Rim),
            Self::Told(part) => {
                let (_, reads, _) = told(&sheet, part);
                reads.is_some_and(|own| !own.is_nothing()).then_some(Self::Way(part))
            }
            _ => None,
        }
    }

    /// What may be asked after it, whatever is typed in it.
    pub const fn may_ask(self) -> Option<Self> {
        match self {
            Self::ToeUnit => Some(Self::Rim),
            Self::Told(part) => Some(Self::Way(part)),
            _ => None,
        }
    }

    /// Whether it is of the sheet.
    pub const fn is_of_sheet(self) -> bool {
        !matches!(self, Self::Arch(_) | Self::Start(_) | Self::End(_) | Self::From(_) | Self::To(_))
    }

    /// Which distance to the car it is of, from 0.
    pub const fn stood(self) -> Option<usize> {
        match self {
            Self::Start(at) | Self::End(at) | Self::From(at) | Self::To(at) => Some(at),
            _ => None,
        }
    }

    /// Whether words are typed in it, no figures.
    pub const fn is_words(self) -> bool {
        matches!(self, Self::Day | Self::By | Self::From(_) | Self::To(_))
    }
}

impl Desk {
    fn car_texts(&self) -> &'static ThisCarTexts {
        self.view.locale.language.this_car()
    }

    /// What a row shows of a car.
    pub(in crate::screen) fn car_row(&self, row: CarRow, car: &OnThisCar) -> CarShown {
        let (own, texts) = (self.car_texts(), self.texts());
        let locale = self.view.locale;
        let sheet = car.sheet_to_type();
        let length = |mm: Option<f64>| mm.map_or_else(String::new, |mm| locale.length_to_type(mm));
        let field = |label: String, hint: &str, text: String| CarShown {
            label,
            hint: hint.to_owned(),
            text,
            ..CarShown::default()
        };
        let unit = |label: &str, all: &[SheetUnit], now: SheetUnit| CarShown {
            label: label.to_owned(),
            options: all.iter().map(|unit| own.unit(*unit).to_owned()).collect(),
            chosen: all.iter().position(|unit| *unit == now).unwrap_or(0),
            ..CarShown::default()
        };
        let stood = |at: usize| car.stood.get(at);
        match row {
            CarRow::ToeUnit => unit(own.toe_in, &UNITS, sheet.toe_unit),
            CarRow::AngleUnit => unit(own.angles_in, &SheetUnit::ANGLES, sheet.camber_unit),
            CarRow::SetBackUnit => unit(own.set_back_in, &UNITS, sheet.set_back_unit),
            CarRow::Rim => {
                let text = sheet.rim.map_or_else(String::new, |rim| {
                    let (unit, value) = match rim {
                        Rim::Millimetres(mm) => (SheetUnit::Millimetres, mm),
                        Rim::Inches(inches) => (SheetUnit::Inches, inches),
                    };
                    locale.sheet_figure(unit, Typed::of(value))
                });
                field(own.rim.to_owned(), own.rim_hint, text)
            }
            CarRow::Told(part) => {
                let (unit, reads, _) = told(&sheet, part);
                let (label, hint) = match part {
                    SheetPart::Toe(_) => (own.part(part), own.toe_hint),
                    SheetPart::Camber(_) => (own.part(part), own.camber_hint),
                    SheetPart::SetBack => (texts.set_back.to_owned(), texts.set_back_hint),
                    SheetPart::Thrust => (own.thrust.to_owned(), own.thrust_hint),
                };
                let text = reads.map_or_else(String::new, |typed| locale.sheet_figure(unit, typed));
                field(label, hint, text)
            }
            CarRow::Way(part) => {
                let both = match part {
                    SheetPart::Toe(_) => [Inward::In, Inward::Out].map(|way| own.toe_way(way)),
                    SheetPart::Camber(_) => [Inward::In, Inward::Out].map(|way| own.camber_way(way)),
                    SheetPart::SetBack => [Side::Left, Side::Right].map(|way| own.back_way(way)),
                    SheetPart::Thrust => [Side::Left, Side::Right].map(|way| own.thrust_way(way)),
                };
                CarShown {
                    label: own.way_of(part),
                    options: std::iter::once(own.not_said).chain(both).map(str::to_owned).collect(),
                    chosen: told(&sheet, part).2,
                    ..CarShown::default()
                }
            }
            CarRow::Day => {
                let text = sheet.taken.map_or_else(String::new, |day| day.to_string());
                field(own.date.to_owned(), own.date_hint, text)
            }
            CarRow::By => field(own.by.to_owned(), own.by_hint, sheet.by.unwrap_or_default()),
            CarRow::Arch(wheel) => {
                let mm = car.arches_mm.get(nth(wheel)).copied().flatten();
                field(own.arch_of(wheel), own.arches_hint, length(mm))
            }
            CarRow::Start(at) => {
                let mm = stood(at).map(|own| own.start_mm);
                field(own.nth(at + 1, own.at_start), own.stood_why, length(mm))
            }
            CarRow::End(at) => {
                let mm = stood(at).and_then(|own| own.end_mm);
                field(own.nth(at + 1, own.at_end), own.stood_why, length(mm))
            }
            CarRow::From(at) => {
                let name = stood(at).map_or_else(|| own.usual_floor(at + 1), |own| own.from.to_string());
                field(own.nth(at + 1, own.floor_point), own.floor_point_hint, name)
            }
            CarRow::To(at) => {
                let name = stood(at).map_or_else(|| own.usual_car(at + 1), |own| own.to.to_string());
                field(own.nth(at + 1, own.car_point), own.car_point_hint, name)
            }
        }
    }

    /// The car with what was typed in a row.
    ///
    /// # Errors
    /// It could not be read.
    pub(in crate::screen) fn car_row_typed(
        &self,
        row: CarRow,
        car: &OnThisCar,
        text: &str,
    ) -> Result<OnThisCar, NotRead> {
        let own = self.car_texts();
        let text = text.trim();
        let (mut car, mut sheet) = (car.clone(), car.sheet_to_type());
        let length = || -> Result<Option<f64>, NotRead> {
            if text.is_empty() { Ok(None) } else { self.read_length(text).map(Some) }
        };
        match row {
            CarRow::Rim => {
                sheet.rim = match text {
                    "" => None,
                    text => {
                        let rim = sheet_typed::rim(text, sheet.toe_unit);
                        Some(rim.ok_or_else(|| NotRead::Wrong(own.no_rim.to_owned()))?)
                    }
                };
            }
            CarRow::Told(part) => {
                let (unit, _, way) = told(&sheet, part);
                let reads = sheet_typed::figure(text, unit).map_err(|why| {
                    NotRead::Wrong(match why {
                        NoFigure::Sign => own.no_sign.to_owned(),
                        NoFigure::Minutes => own.no_minutes.to_owned(),
                        NoFigure::Number => own.no_figure(text),
                    })
                })?;
                set(&mut sheet, part, reads, way);
            }
            CarRow::Day => {
                sheet.taken = match text {
                    "" => None,
                    text => {
                        let day = text.parse::<Date>().map_err(|_| NotRead::Wrong(own.no_day.to_owned()))?;
                        Some(day)
                    }
                };
            }
            CarRow::By => sheet.by = (!text.is_empty()).then(|| text.to_owned()),
            CarRow::Arch(wheel) => {
                let mm = length()?;
                car.arches_mm.iter_mut().skip(nth(wheel)).take(1).for_each(|own| *own = mm);
            }
            CarRow::Start(at) => match (length()?, car.stood.get_mut(at)) {
                (Some(mm), Some(stood)) => stood.start_mm = mm,
                (Some(start_mm), None) => car.stood.push(Stood {
                    from: own.usual_floor(at + 1).into(),
                    to: own.usual_car(at + 1).into(),
                    start_mm,
                    end_mm: None,
                }),
                (None, _) => {}
            },
            CarRow::End(at) => {
                let mm = length()?;
                if let Some(stood) = car.stood.get_mut(at) {
                    stood.end_mm = mm;
                }
            }
            CarRow::From(at) | CarRow::To(at) => {
                if text.is_empty() {
                    return Err(NotRead::Wrong(self.texts().no_name.to_owned()));
                }
                if let Some(stood) = car.stood.get_mut(at) {
                    let name = if matches!(row, CarRow::From(_)) { &mut stood.from } else { &mut stood.to };
                    *name = Id::from(text);
                }
            }
            CarRow::ToeUnit | CarRow::AngleUnit | CarRow::SetBackUnit | CarRow::Way(_) => {}
        }
        if row.is_of_sheet() && sheet != car.sheet_to_type() {
            car.take_sheet(sheet);
        }
        Ok(car)
    }
}

/// The car with another option of a row chosen.
pub(in crate::screen) fn car_row_chosen(row: CarRow, car: &OnThisCar, option: usize) -> OnThisCar {
    let (mut car, mut sheet) = (car.clone(), car.sheet_to_type());
    let before = sheet.clone();
    match row {
        CarRow::ToeUnit => UNITS.get(option).into_iter().for_each(|unit| sheet.set_toe_unit(*unit)),
        CarRow::AngleUnit => {
            SheetUnit::ANGLES.get(option).into_iter().for_each(|unit| sheet.set_angle_unit(*unit));
        }
        CarRow::SetBackUnit => UNITS.get(option).into_iter().for_each(|unit| sheet.set_set_back_unit(*unit)),
        CarRow::Way(part) => {
            let (_, reads, _) = told(&sheet, part);
            set(&mut sheet, part, reads, option);
        }
        _ => {}
    }
    if sheet != before {
        car.take_sheet(sheet);
    }
    car
}
