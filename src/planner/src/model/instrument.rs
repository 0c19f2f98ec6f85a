//! What a shop measures with: its own list, in the shop's own document.

use std::sync::Arc;

use jiff::civil::{Date, DateTime};

use super::validate::limits::{Range, Unit};
use super::{Id, Shop};

/// So many instruments a shop may list.
pub const MOST_INSTRUMENTS: usize = 100;

/// What kind of instrument it is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum InstrumentKind {
    /// A steel tape. Marks are laid with it, too.
    #[default]
    SteelTape,
    /// A laser distance meter.
    DistanceMeter,
    /// A line laser.
    LineLaser,
    /// A plumb line.
    PlumbLine,
    /// A digital level.
    DigitalLevel,
    /// A bubble.
    Bubble,
    /// A rotating laser or a water level.
    LevelLaser,
    /// A square.
    Square,
    /// Anything else.
    Other,
}

impl InstrumentKind {
    /// All of them, in the order in which they are offered.
    pub const ALL: [Self; 9] = [
        Self::SteelTape,
        Self::DistanceMeter,
        Self::LineLaser,
        Self::PlumbLine,
        Self::DigitalLevel,
        Self::Bubble,
        Self::LevelLaser,
        Self::Square,
        Self::Other,
    ];

    /// Whether a distance between two marks is read with it.
    pub const fn reads_distances(self) -> bool {
        matches!(self, Self::SteelTape | Self::DistanceMeter | Self::Other)
    }
}

/// One instrument of a shop. What is left out is not known of it, and what then stands in for it says each figure.
#[derive(Clone, Debug, PartialEq)]
pub struct Instrument {
    /// What the shop calls it; once in its list.
    pub name: Id,
    /// What kind it is.
    pub kind: InstrumentKind,
    /// Its class, as it is written on it.
    pub class: Option<String>,
    /// Its serial number.
    pub serial: Option<String>,
    /// The day on which it was last checked.
    pub checked: Option<Date>,
    /// The last day of that check: on the next day it is overdue.
    pub due: Option<Date>,
    /// How far off one reading may be by itself, laid on and read off, ± mm, 0.01 to 10, any value alike; else the shop's
    /// [`Shop::tape_read_mm`].
    pub reading_mm: Option<f64>,
    /// How much longer or shorter it may be than it says over each metre, ± mm, 0 to 5, any value alike, common to all that is read
    /// with it; else the shop's [`Shop::tape_per_metre_mm`].
    pub per_metre_mm: Option<f64>,
    /// How much it grows with warmth, millionths per kelvin, 0 to 100; else 11.5 of a steel tape (common practice, no source), and
    /// nothing of anything else.
    pub ppm_per_k: Option<f64>,
}

/// A shop's list, shared by all that is judged by it.
pub type InstrumentList = Arc<[Instrument]>;

/// A figure of an instrument that can be typed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum InstrumentFigure {
    /// See [`Instrument::reading_mm`].
    Reading,
    /// See [`Instrument::per_metre_mm`].
    PerMetre,
    /// See [`Instrument::ppm_per_k`].
    Warmth,
}

impl InstrumentFigure {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::Reading, Self::PerMetre, Self::Warmth];

    /// What is allowed.
    pub const fn range(self) -> Range {
        match self {
            Self::Reading => Range::from(0.01, 10.0, Unit::Millimetres),
            Self::PerMetre => Range::from(0.0, 5.0, Unit::Millimetres),
            Self::Warmth => Range::from(0.0, 100.0, Unit::None),
        }
    }

    /// Its field in a file.
    pub const fn field(self) -> &'static str {
        match self {
            Self::Reading => "reading_mm",
            Self::PerMetre => "per_metre_mm",
            Self::Warmth => "ppm_per_k",
        }
    }
}

/// How much steel grows, millionths per kelvin: common practice, no source.
pub const STEEL_PPM_PER_K: f64 = 11.5;

impl Instrument {
    /// One of which nothing but its name and kind is known.
    pub const fn new(name: Id, kind: InstrumentKind) -> Self {
        Self {
            name,
            kind,
            class: None,
            serial: None,
            checked: None,
            due: None,
            reading_mm: None,
            per_metre_mm: None,
            ppm_per_k: None,
        }
    }

    /// A figure as it was entered.
    pub const fn figure(&self, figure: InstrumentFigure) -> Option<f64> {
        match figure {
            InstrumentFigure::Reading => self.reading_mm,
            InstrumentFigure::PerMetre => self.per_metre_mm,
            InstrumentFigure::Warmth => self.ppm_per_k,
        }
    }

    /// The same with another figure.
    #[must_use]
    pub fn with(mut self, figure: InstrumentFigure, value: Option<f64>) -> Self {
        *match figure {
            InstrumentFigure::Reading => &mut self.reading_mm,
            InstrumentFigure::PerMetre => &mut self.per_metre_mm,
            InstrumentFigure::Warmth => &mut self.ppm_per_k,
        } = value;
        self
    }

    /// A figure as it counts: as it was entered, or what stands in for it.
    pub fn counts(&self, figure: InstrumentFigure, shop: &Shop) -> f64 {
        self.figure(figure).unwrap_or(match figure {
            InstrumentFigure::Reading => shop.tape_read_mm,
            InstrumentFigure::PerMetre => shop.tape_per_metre_mm,
            InstrumentFigure::Warmth if self.kind == InstrumentKind::SteelTape => STEEL_PPM_PER_K,
            InstrumentFigure::Warmth => 0.0,
        })
    }

    /// All of it that an answer depends on, as a text: what counts and when its check is over.
    pub(super) fn said(&self, shop: &Shop) -> String {
        let figures = InstrumentFigure::ALL.map(|own| super::validate::number(self.counts(own, shop)));
        let due = self.due.map_or_else(String::new, |own| own.to_string());
        format!("{}:{:?}:{}:{due}", self.name, self.kind, figures.join(":"))
    }

    /// By how many days its check was over on a day; `None` if it was not, or no day is known.
    pub fn overdue_on(&self, day: Date) -> Option<i64> {
        let days = day.since((jiff::Unit::Day, self.due?)).ok()?.get_days();
        (days > 0).then_some(i64::from(days))
    }
}

/// The instrument of a list that goes by a name.
pub fn named<'a>(list: &'a [Instrument], name: &Id) -> Option<&'a Instrument> {
    list.iter().find(|own| own.name == *name)
}

/// How a reading was taken; each may be unknown.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Taken {
    /// With which instrument of the shop, by its name.
    pub with: Option<Id>,
    /// By whom.
    pub who: Option<Id>,
    /// When, by the clock on the wall.
    pub at: Option<DateTime>,
    /// How warm the instrument was, °C, -30 to 60.
    pub temperature_c: Option<f64>,
}

impl Taken {
    /// How warm it may have been.
    pub const TEMPERATURE: Range = Range::from(-30.0, 60.0, Unit::None);

    /// Whether nothing is known of it.
    pub fn is_unknown(&self) -> bool {
        *self == Self::default()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use jiff::civil::date;

    #[test]
    fn what_is_not_known_of_it_is_the_shops() {
        let shop = Shop::default();
        let bare = Instrument::new("tape".into(), InstrumentKind::SteelTape);
        let tape = Instrument { per_metre_mm: Some(0.1), ..bare };
        let counts = InstrumentFigure::ALL.map(|own| tape.counts(own, &shop));
        assert_eq!(counts, [shop.tape_read_mm, 0.1, STEEL_PPM_PER_K]);
        let meter = Instrument { kind: InstrumentKind::DistanceMeter, ..tape };
        assert_eq!(meter.counts(InstrumentFigure::Warmth, &shop), 0.0);
        let own = InstrumentFigure::ALL.iter().fold(meter, |own, figure| own.with(*figure, Some(1.5)));
        assert_eq!(InstrumentFigure::ALL.map(|figure| own.figure(figure)), [Some(1.5); 3]);
    }

    #[test]
    fn it_is_overdue_from_the_day_after() {
        let bare = Instrument::new("tape".into(), InstrumentKind::SteelTape);
        let own = Instrument { due: Some(date(2026, 3, 31)), ..bare.clone() };
        assert_eq!(own.overdue_on(date(2026, 3, 31)), None);
        assert_eq!(own.overdue_on(date(2026, 4, 1)), Some(1));
        assert_eq!(own.overdue_on(date(2027, 3, 31)), Some(365));
        assert_eq!(bare.overdue_on(date(2026, 4, 1)), None);
    }
}
