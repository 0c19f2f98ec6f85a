//! What a shop measures with: its own list, in the shop's own document.

use std::sync::Arc;

use baywright_geometry::angle;
use jiff::civil::{Date, DateTime};

use super::validate::limits::{Range, Unit};
use super::{Id, Shop, ShopFigure};

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

impl InstrumentKind {
    /// Which figure of the shop stands in for one of an instrument of this kind; `None` where it has none. What is a turn in the shop is
    /// mm over a metre on an instrument.
    pub const fn asked_for(self, figure: InstrumentFigure) -> Option<ShopFigure> {
        use InstrumentFigure::{PerMetre, Reading, Warmth};
        match (self, figure) {
            (Self::SteelTape | Self::DistanceMeter | Self::Other, Reading) => Some(ShopFigure::TapeRead),
            (Self::SteelTape | Self::DistanceMeter | Self::Other, PerMetre) => Some(ShopFigure::TapePerMetre),
            (Self::LineLaser, Reading) => Some(ShopFigure::LineFound),
            (Self::LineLaser, PerMetre) => Some(ShopFigure::LaserPerMetre),
            (Self::PlumbLine, Reading) => Some(ShopFigure::PlumbFound),
            (Self::LevelLaser, Reading) => Some(ShopFigure::LevelRead),
            (Self::LevelLaser, PerMetre) => Some(ShopFigure::LaserPerMetre),
            (Self::DigitalLevel, PerMetre) => Some(ShopFigure::PoleRead),
            (Self::Bubble, PerMetre) => Some(ShopFigure::BubbleSet),
            (Self::Square, PerMetre) => Some(ShopFigure::SquareLaid),
            (Self::PlumbLine, PerMetre)
            | (Self::DigitalLevel | Self::Bubble | Self::Square, Reading)
            | (_, Warmth) => None,
        }
    }

    /// Whether an instrument of this kind has such a figure.
    pub const fn has(self, figure: InstrumentFigure) -> bool {
        self.asked_for(figure).is_some()
            || (matches!(figure, InstrumentFigure::Warmth) && self.reads_distances())
    }
}

/// A turn in degrees as mm over a metre.
fn per_metre(degrees: f64) -> f64 {
    1e3 * libm::tan(angle::radians(degrees))
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

    /// A figure as it counts: as it was entered, or what stands in for it; 0 where an instrument of its kind has none.
    pub fn counts(&self, figure: InstrumentFigure, shop: &Shop) -> f64 {
        self.figure(figure).unwrap_or_else(|| match (figure, self.kind.asked_for(figure)) {
            (_, Some(own)) => {
                let value = shop.get(own);
                if own.range().unit == Unit::Degrees { per_metre(value) } else { value }
            }
            (InstrumentFigure::Warmth, None) if self.kind == InstrumentKind::SteelTape => STEEL_PPM_PER_K,
            (_, None) => 0.0,
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

/// Which instrument of a kind something is done with.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Chosen<'a> {
    /// This one: it was named, or is the only one of its kind.
    One(&'a Instrument),
    /// There are so many of its kind, and none was named: the shop's own figures count.
    Several(usize),
    /// None is listed: the shop's own figures count.
    None,
}

impl Instrument {
    /// Whether any figure of it was entered that its kind has.
    pub fn has_figures(&self) -> bool {
        InstrumentFigure::ALL.iter().any(|figure| self.kind.has(*figure) && self.figure(*figure).is_some())
    }
}

/// The one rule by which an instrument is chosen: the one that is named, else the only one of its kind in the list, else none, and the
/// shop's own figures count.
pub fn chosen<'a>(list: &'a [Instrument], kind: InstrumentKind, name: Option<&Id>) -> Chosen<'a> {
    if let Some(own) = name.and_then(|name| named(list, name)).filter(|own| own.kind == kind) {
        return Chosen::One(own);
    }
    let mut all = list.iter().filter(|own| own.kind == kind);
    match (all.next(), all.count()) {
        (None, _) => Chosen::None,
        (Some(own), 0) => Chosen::One(own),
        (Some(_), more) => Chosen::Several(more + 1),
    }
}

impl Chosen<'_> {
    /// A figure of it, if it was entered.
    fn figure(self, figure: InstrumentFigure) -> Option<f64> {
        match self {
            Self::One(own) => own.figure(figure),
            Self::Several(_) | Self::None => None,
        }
    }
}

/// What is laid and set with instruments that no reading names, each with the figures that it has: line laser, plumb line, square,
/// digital level, bubble.
pub const UNNAMED: [InstrumentKind; 5] = [
    InstrumentKind::LineLaser,
    InstrumentKind::PlumbLine,
    InstrumentKind::Square,
    InstrumentKind::DigitalLevel,
    InstrumentKind::Bubble,
];

impl Shop {
    /// The same settings with the figures of the instruments that marks are laid and stands are set with, as far as they are known: of
    /// each kind by [`chosen`]. A plumb line finds a wheel's point as it finds a point of the body. Tapes, and what levels are taken
    /// with, are of each reading and stay out of it.
    #[must_use]
    pub fn with_instruments(self, list: &[Instrument]) -> Self {
        let mut own = self;
        // A pole is plumbed by a bubble where no digital level is listed.
        let by_bubble = matches!(chosen(list, InstrumentKind::DigitalLevel, None), Chosen::None);
        for kind in UNNAMED {
            let one = chosen(list, kind, None);
            for figure in InstrumentFigure::ALL {
                let Some((asked, value)) = kind.asked_for(figure).zip(one.figure(figure)) else { continue };
                let is_turn = asked.range().unit == Unit::Degrees;
                // As the settings have it, to a millionth of a degree.
                let turn = |mm: f64| (angle::degrees(libm::atan(mm * 1e-3)) * 1e6).round() / 1e6;
                let counts = if is_turn { turn(value) } else { value };
                own = own.with(asked, counts);
                if asked == ShopFigure::BubbleSet && by_bubble {
                    own = own.with(ShopFigure::PoleRead, counts);
                }
                if asked == ShopFigure::PlumbFound {
                    own = own.with(ShopFigure::WheelFound, value);
                }
            }
        }
        own
    }
}

/// The instrument of a list with which levels were taken: the one of this name, whatever kind it is, else the only rotating laser or
/// water level; if it says how far off one reading may be.
pub fn levelled_with<'a>(list: &'a [Instrument], with: Option<&str>) -> Option<&'a Instrument> {
    let by_name = with.and_then(|with| named(list, &with.into()));
    let only = || match chosen(list, InstrumentKind::LevelLaser, None) {
        Chosen::One(own) => Some(own),
        Chosen::Several(_) | Chosen::None => None,
    };
    by_name.or_else(only).filter(|own| own.reading_mm.is_some())
}

/// How far a line drifts over a metre that is carried level from sensor to target, ± mm; `None` where the list does not say so.
pub fn level_drift_mm(list: &[Instrument]) -> Option<f64> {
    chosen(list, InstrumentKind::LevelLaser, None).figure(InstrumentFigure::PerMetre)
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

    /// One choice rule: the one that is named, the only one of its kind, the shop's own figure.
    #[test]
    fn what_is_named_counts_else_the_only_one_of_its_kind() {
        let laser = |name: &str, per_metre_mm: f64| Instrument {
            per_metre_mm: Some(per_metre_mm),
            ..Instrument::new(name.into(), InstrumentKind::LineLaser)
        };
        let (one, other) = (laser("a", 0.1), laser("b", 0.2));
        let both = [one.clone(), other.clone()];
        let kind = InstrumentKind::LineLaser;
        assert_eq!(chosen(&both, kind, Some(&"b".into())), Chosen::One(&other));
        assert_eq!(chosen(&both, kind, None), Chosen::Several(2));
        assert_eq!(chosen(&both, InstrumentKind::PlumbLine, Some(&"b".into())), Chosen::None);
        assert_eq!(chosen(&both[..1], kind, Some(&"gone".into())), Chosen::One(&one));
        let shop = Shop::default();
        assert_eq!(shop.with_instruments(&both), shop);
        assert_eq!(shop.with_instruments(&both[..1]).laser_per_metre_mm, 0.1);
        // What nobody entered of it is the shop's.
        assert_eq!(shop.with_instruments(&both[..1]).line_found_mm, shop.line_found_mm);
    }

    /// By hand: 1 mm over a metre is 0.0573°; a plumb line that finds a point within 0.6 mm finds a wheel's so, too.
    #[test]
    fn each_kind_gives_what_it_is_used_for() {
        let of = |kind, reading_mm, per_metre_mm| Instrument {
            reading_mm,
            per_metre_mm,
            ..Instrument::new(Id::from(format!("{kind:?}")), kind)
        };
        let list = [
            of(InstrumentKind::LineLaser, Some(0.4), Some(0.15)),
            of(InstrumentKind::PlumbLine, Some(0.6), None),
            of(InstrumentKind::Square, None, Some(1.0)),
            of(InstrumentKind::DigitalLevel, None, Some(2.0)),
            of(InstrumentKind::Bubble, None, Some(3.0)),
            of(InstrumentKind::LevelLaser, Some(0.8), Some(0.1)),
            of(InstrumentKind::SteelTape, Some(0.5), Some(0.1)),
        ];
        let (shop, own) = (Shop::default(), Shop::default().with_instruments(&list));
        let degrees = |rad: f64| (angle::degrees(rad) * 1e4).round() / 1e4;
        assert_eq!((own.line_found_mm, own.laser_per_metre_mm), (0.4, 0.15));
        assert_eq!((own.plumb_found_mm, own.wheel_found_mm), (0.6, 0.6));
        assert_eq!(
            [own.square_laid_rad, own.pole_read_rad, own.bubble_set_rad].map(degrees),
            [0.0573, 0.1146, 0.1719]
        );
        let by_bubble = shop.with_instruments(&list[4..]);
        assert_eq!(by_bubble.pole_read_rad, own.bubble_set_rad);
        // Tapes and levels are of each reading.
        assert_eq!((own.tape_read_mm, own.level_read_mm), (shop.tape_read_mm, shop.level_read_mm));
        let within_mm = |list, with| levelled_with(list, with).and_then(|own: &Instrument| own.reading_mm);
        assert_eq!(within_mm(&list, None), Some(0.8));
        assert_eq!(within_mm(&list, Some("LevelLaser")), Some(0.8));
        assert_eq!(within_mm(&list[..5], Some("LevelLaser")), None);
        assert_eq!(level_drift_mm(&list), Some(0.1));
        // And what stands in for what was left out is of the same kind.
        let bare = Instrument::new("level".into(), InstrumentKind::DigitalLevel);
        assert!((bare.counts(InstrumentFigure::PerMetre, &shop) - 1.7453).abs() < 1e-3);
        assert_eq!(bare.counts(InstrumentFigure::Reading, &shop), 0.0);
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
