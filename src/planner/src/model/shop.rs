//! What a shop holds itself to where nobody published a figure: how well it places things by eye and by tape, how old a
//! survey may be, how much room it keeps. Each has a default, which is common practice without a source; whoever knows
//! better for a shop sets it once, and every answer goes by it.

use baywright_geometry::angle;
use jiff::civil::Date;

use super::validate::limits::{Range, Unit};
use super::{InstrumentList, Known, ParkedKnown};

/// The figures, once: from them the record, the list of its fields and the way from the one to the other are made.
macro_rules! figures {
    ($($(#[doc = $doc:literal])+ $figure:ident: $field:ident, $default:expr, $range:expr;)+) => {
        /// The settings of a shop. Lengths in millimetres, angles in radians, either way; the default of each is common
        /// practice, no source, where it names none.
        #[derive(Clone, Copy, Debug, PartialEq)]
        pub struct Shop {
            $($(#[doc = $doc])+ pub $field: f64,)+
        }

        /// One of the settings of a shop.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
        pub enum ShopFigure {
            $(#[doc = concat!("See [`Shop::", stringify!($field), "`].")] $figure,)+
        }

        impl ShopFigure {
            /// Every one, in the order in which they are listed.
            pub const ALL: &[Self] = &[$(Self::$figure),+];

            /// Its field in the model.
            const fn field(self) -> &'static str {
                match self { $(Self::$figure => stringify!($field)),+ }
            }

            /// What is allowed, in the file's unit.
            pub const fn range(self) -> Range {
                match self { $(Self::$figure => $range),+ }
            }
        }

        impl Shop {
            const DEFAULT: Self = Self { $($field: $default),+ };

            const fn field(&self, figure: ShopFigure) -> f64 {
                match figure { $(ShopFigure::$figure => self.$field),+ }
            }

            const fn field_mut(&mut self, figure: ShopFigure) -> &mut f64 {
                match figure { $(ShopFigure::$figure => &mut self.$field),+ }
            }
        }
    };
}

const MM: Unit = Unit::Millimetres;
const DEG: Unit = Unit::Degrees;
const RADIANS: f64 = std::f64::consts::PI / 180.0;

figures! {
    /// A place set by eye, ± mm, 10 to 1 000; not below a taped one. Default 150 mm: who sets a cabinet down by eye does not
    /// see a hand's length.
    ByEye: by_eye_mm, 150.0, Range::from(10.0, 1e3, MM);
    /// A place taped, ± mm, 1 to 200. Default 20 mm: two ends read off a tape against an edge that is not sharp.
    Taped: taped_mm, 20.0, Range::from(1.0, 200.0, MM);
    /// The middle of the front axle of a car that is parked without measuring, ± mm, 1 to 1 000; not below a taped one. Default
    /// 30 mm: a car is driven in and does not move sideways.
    CarPlanned: car_planned_mm, 30.0, Range::from(1.0, 1e3, MM);
    /// The heading of such a car, ± radians; in files degrees, above 0 to 10; not below a taped one. Default 0.5°.
    CarPlannedTurn: car_planned_rad, 0.5 * RADIANS, Range::above(0.0, 10.0, DEG);
    /// The middle of the front axle of a car whose place was taped, ± mm, 0.5 to 200. Default 5 mm: three distances read off a
    /// tape to plumbed points.
    CarTaped: car_taped_mm, 5.0, Range::from(0.5, 200.0, MM);
    /// The heading of such a car, ± radians; in files degrees, above 0 to 10. Default 0.15°: points some 2.6 m apart.
    CarTapedTurn: car_taped_rad, 0.15 * RADIANS, Range::above(0.0, 10.0, DEG);
    /// How old a survey of the floor may be, days, whole, 1 to 3 650. Default 365 days: surveyed once a year.
    SurveyAge: survey_age_days, 365.0, Range::from(1.0, 3_650.0, Unit::Days);
    /// How far from a surveyed point its level counts, mm, 100 to 20 000. Default 1 500 mm, two paces: between points further
    /// apart a floor may do anything.
    LevelReach: level_reach_mm, 1_500.0, Range::from(100.0, 2e4, MM);
    /// How far one level of a survey may be off where the survey does not say, ± mm, 0.05 to 20. Default 1 mm: a rotating laser or
    /// a water level over a bay.
    LevelRead: level_read_mm, 1.0, Range::from(0.05, 20.0, MM);
    /// Room to work round the car where the aiming says nothing, mm, 100 to 5 000. Default 600 mm: a person with a tape squats
    /// beside the car.
    WorkingRoom: working_room_mm, 600.0, Range::from(100.0, 5e3, MM);
    /// Room before a target and on one side of its stand, mm, 100 to 5 000. Default 600 mm: a person with a tape squats there.
    StandRoom: stand_room_mm, 600.0, Range::from(100.0, 5e3, MM);
    /// Over what is as low as this a person steps, mm above the floor, 0 to 900. Default 250 mm.
    StepOver: step_over_mm, 250.0, Range::from(0.0, 900.0, MM);
    /// Under what is as high as this a person ducks, mm above the floor, 1 000 to 3 000. Default 1 800 mm.
    DuckUnder: duck_under_mm, 1_800.0, Range::from(1e3, 3e3, MM);
    /// What is free over the car's roof, mm, 0 to 2 000. Default 100 mm, a hand: less invites scratches.
    OverCar: over_car_mm, 100.0, Range::from(0.0, 2e3, MM);
    /// The height that a hand, a pen and an eye need over a floor mark, mm, 50 to 2 000. Default 400 mm.
    OverMark: over_mark_mm, 400.0, Range::from(50.0, 2e3, MM);
    /// Within this the mark plan and the stand-off say the same place for a target, mm, 0.1 to 20; less where the placement
    /// allows less. Default 3 mm: figures that are each rounded to a sixteenth of an inch (± 0.8 mm) add up to it.
    MarkAgrees: mark_agrees_mm, 3.0, Range::from(0.1, 20.0, MM);
    /// How far off a mark is laid from those that it is built from, mm, 0.1 to 20. Default 1 mm: a line of a pen, a tape read to
    /// the millimetre.
    MarkLaid: mark_laid_mm, 1.0, Range::from(0.1, 20.0, MM);
    /// Further than this a target is not off its place unasked, where the procedure names no limit, mm, 0.1 to 100. Default
    /// 10 mm: a target's place is asked within 1 to 10 mm.
    TargetOff: target_off_mm, 10.0, Range::from(0.1, 100.0, MM);
    /// From this share of a tolerance on a target that is off its place needs care, 0.05 to 1. Default 0.5: laying the marks
    /// and setting the sensor want their share too.
    ToleranceShare: tolerance_share, 0.5, Range::from(0.05, 1.0, Unit::None);
    /// How far a thing may reach into a wall before its figures are doubted, mm, 0 to 500; its own place counts if it is known
    /// less well. Default 50 mm: a pilaster, or a shelf let in.
    IntoWall: into_wall_mm, 50.0, Range::from(0.0, 500.0, MM);
    /// How far the roll of a roller door stands out from its wall, and above the lintel, mm, 10 to 3 000. Default 500 mm.
    DoorRoll: door_roll_mm, 500.0, Range::from(10.0, 3e3, MM);
    /// How well one reading of a tape is laid on and read off, ± mm, 0.05 to 10. Default 0.7 mm: a tape read to the millimetre against
    /// a line.
    TapeRead: tape_read_mm, 0.7, Range::from(0.05, 10.0, MM);
    /// How much longer or shorter a tape may be than it says over each metre, ± mm, 0 to 5; common to all that is taped with it.
    /// Default 0.2 mm: what class II allows (references: Directive 2014/32/EU, annex X: ± (0.3 + 0.2 L) mm).
    TapePerMetre: tape_per_metre_mm, 0.2, Range::from(0.0, 5.0, MM);
    /// How far the tape may be from the 20 °C at which it is true, ± K, 0 to 60. Default 10 K: a workshop in winter and in summer.
    TapeWithin: tape_within_k, 10.0, Range::from(0.0, 60.0, Unit::None);
    /// How far a line laser or a string drifts aside over each metre, ± mm, 0 to 10. Default 0.3 mm, as such lasers are sold.
    LaserPerMetre: laser_per_metre_mm, 0.3, Range::from(0.0, 10.0, MM);
    /// How well the middle of a drawn or projected line is found, ± mm, 0 to 10. Default 0.5 mm.
    LineFound: line_found_mm, 0.5, Range::from(0.0, 10.0, MM);
    /// How well a point of the body is plumbed to the floor, ± mm, 0 to 20. Default 1 mm.
    PlumbFound: plumb_found_mm, 1.0, Range::from(0.0, 20.0, MM);
    /// How well a wheel's point is found on the floor, sideways and lengthwise, ± mm, 0 to 20. Default 1 mm: from the hub, with
    /// plumb line and square.
    WheelFound: wheel_found_mm, 1.0, Range::from(0.0, 20.0, MM);
    /// How well a pole's lean is read, ± radians; in files degrees, 0 to 5. Default 0.1°: a digital level held against it.
    PoleRead: pole_read_rad, 0.1 * RADIANS, Range::from(0.0, 5.0, DEG);
    /// How parallel to a target's face a mirror or a bar lies on it, ± radians; in files degrees, 0 to 5. Default 0.05°: 0.4 mm under one end
    /// of half a metre.
    OnFaceLaid: on_face_laid_rad, 0.05 * RADIANS, Range::from(0.0, 5.0, DEG);
    /// How well each wheel's camber is known, ± radians; in files degrees, 0 to 5. A plumbed hub stands R·sin γ outboard of the
    /// tyre's middle. Default 0.25°.
    CamberKnown: camber_known_rad, 0.25 * RADIANS, Range::from(0.0, 5.0, DEG);
    /// How well a right angle is laid, ± radians; in files degrees, 0 to 5. Default 0.1°: a builder's square of half a metre, within
    /// a millimetre.
    SquareLaid: square_laid_rad, 0.1 * RADIANS, Range::from(0.0, 5.0, DEG);
    /// How well any other angle is laid with a protractor, ± radians; in files degrees, 0 to 10. Default 0.5°.
    AngleLaid: angle_laid_rad, 0.5 * RADIANS, Range::from(0.0, 10.0, DEG);
    /// How far a floor that nobody surveyed is out under an axle or a stand as a rule, ± mm, 0 to 50. Default 3.5 mm. Like all that
    /// follow it counts only where one asks why a routine failed, or where the sensor would be aimed.
    FloorUsual: floor_usual_mm, 3.5, Range::from(0.0, 50.0, MM);
    /// How far a car's thrust line is from what its sheet says as a rule, ± radians; in files degrees, 0 to 5. Default 0.09°.
    ThrustUsual: thrust_usual_rad, 0.09 * RADIANS, Range::from(0.0, 5.0, DEG);
    /// How far a braked car creeps as a rule while one works on it, ± mm, 0 to 20. Default 0.5 mm.
    CarCreeps: car_creeps_mm, 0.5, Range::from(0.0, 20.0, MM);
    /// How well a stand is set plumb by its own bubble, ± radians; in files degrees, 0 to 5. Default 0.1°.
    BubbleSet: bubble_set_rad, 0.1 * RADIANS, Range::from(0.0, 5.0, DEG);
    /// How far a sensor sits turned in a bracket that is not bent, ± radians; in files degrees, 0 to 5. Default 0.04°.
    BracketUsual: bracket_usual_rad, 0.04 * RADIANS, Range::from(0.0, 5.0, DEG);
    /// How many times what is allowed something is out that went wrong, 1 to 20, standard. Default 3.
    FaultTimes: fault_times, 3.0, Range::from(1.0, 20.0, Unit::None);
}

/// What an arrangement is judged by beside what its files say.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct JudgedBy {
    /// The day on which it is asked, if known: dates the floor survey.
    pub today: Option<Date>,
    /// The shop's settings.
    pub shop: Shop,
    /// Whether there are settings of the shop's own that could not be read, so that these stand in for them.
    pub shop_unread: bool,
    /// The shop's own instruments.
    pub instruments: InstrumentList,
}

/// On this day, in a shop that set nothing of its own.
impl From<Option<Date>> for JudgedBy {
    fn from(today: Option<Date>) -> Self {
        Self { today, ..Self::default() }
    }
}

/// The same once more.
impl From<&Self> for JudgedBy {
    fn from(own: &Self) -> Self {
        own.clone()
    }
}

impl Default for Shop {
    fn default() -> Self {
        Self::DEFAULT
    }
}

impl ShopFigure {
    const fn is_angle(self) -> bool {
        matches!(self.range().unit, Unit::Degrees)
    }

    /// Its field in a file, which ends in its unit there.
    pub fn name(self) -> String {
        let field = self.field();
        field.strip_suffix("_rad").map_or_else(|| field.to_owned(), |stem| format!("{stem}_deg"))
    }

    /// Its default, in the file's unit.
    pub fn default_value(self) -> f64 {
        Shop::DEFAULT.get(self)
    }
}

impl Shop {
    /// A figure in the file's unit: millimetres, degrees, days.
    pub fn get(&self, figure: ShopFigure) -> f64 {
        let own = self.field(figure);
        // To a millionth, as files have it: 0.5° is 0.5°.
        if figure.is_angle() { (angle::degrees(own) * 1e6).round() / 1e6 } else { own }
    }

    /// The same settings with another figure, in the file's unit.
    #[must_use]
    pub fn with(mut self, figure: ShopFigure, value: f64) -> Self {
        *self.field_mut(figure) = match value == figure.default_value() {
            // To the last bit what it is unless somebody says otherwise.
            true => Self::DEFAULT.field(figure),
            false if figure.is_angle() => angle::radians(value),
            false => value,
        };
        self
    }

    /// Whether a figure is the shop's own choice, and not the default.
    pub fn is_own(&self, figure: ShopFigure) -> bool {
        self.get(figure) != figure.default_value()
    }

    /// Either way, mm: how well a place is known.
    pub const fn within(&self, known: Known) -> f64 {
        match known {
            Known::Taped => self.taped_mm,
            Known::ByEye => self.by_eye_mm,
            Known::ByEyeOlder => Known::BY_EYE_OLDER_MM,
            Known::Within(mm) => mm,
        }
    }

    /// Either way: the middle of the front axle, mm; the heading, radians.
    pub const fn parked_within(&self, known: ParkedKnown) -> (f64, f64) {
        match known {
            ParkedKnown::Planned => (self.car_planned_mm, self.car_planned_rad),
            ParkedKnown::Taped => (self.car_taped_mm, self.car_taped_rad),
            ParkedKnown::Within { mm, rad } => (mm, rad),
        }
    }

    /// What is known of a car's place once it is parked anew: nothing that was measured before, and never more than of any
    /// place that is planned.
    pub fn parked_anew(&self, known: ParkedKnown) -> ParkedKnown {
        let (planned_mm, planned_rad) = (self.car_planned_mm, self.car_planned_rad);
        match known {
            ParkedKnown::Within { mm, rad } if mm > planned_mm || rad > planned_rad => {
                ParkedKnown::Within { mm: mm.max(planned_mm), rad: rad.max(planned_rad) }
            }
            ParkedKnown::Planned | ParkedKnown::Taped | ParkedKnown::Within { .. } => ParkedKnown::Planned,
        }
    }

    /// What is known still of a place that somebody changed by hand without a tape: no more than by eye.
    pub fn by_hand(&self, known: Known) -> Known {
        if self.within(known) > self.by_eye_mm { known } else { Known::ByEye }
    }

    /// Sixteen hexadecimal digits made from every figure, to a millionth of its unit, by which a layout remembers what it was
    /// judged by. It guards against other settings, not against malice.
    pub fn fingerprint(&self) -> String {
        // What marks are taped with, and what goes wrong as a rule, was asked later: settings of the same figures keep their mark.
        let is_later = |own: ShopFigure| own.is_of_instruments() || own.is_of_faults();
        let figures = ShopFigure::ALL.iter().filter(|own| !is_later(**own) || self.is_own(**own));
        let said: Vec<String> = figures
            .map(|own| format!("{}:{}", own.name(), super::validate::number(self.get(*own))))
            .collect();
        format!("{:016x}", super::fnv1a(said.join(",").as_bytes()))
    }
}

impl ShopFigure {
    /// Which setting says how well a place is known; `None` if it was entered.
    pub const fn of_place(known: Known) -> Option<Self> {
        match known {
            Known::Taped => Some(Self::Taped),
            Known::ByEye => Some(Self::ByEye),
            Known::ByEyeOlder | Known::Within(_) => None,
        }
    }

    /// Whether it says what marks are laid and taped with.
    pub const fn is_of_instruments(self) -> bool {
        matches!(
            self,
            Self::TapeRead
                | Self::TapePerMetre
                | Self::TapeWithin
                | Self::LaserPerMetre
                | Self::LineFound
                | Self::PlumbFound
                | Self::WheelFound
                | Self::CamberKnown
                | Self::SquareLaid
                | Self::PoleRead
                | Self::OnFaceLaid
                | Self::AngleLaid
        )
    }

    /// Whether it says what goes wrong as a rule.
    pub const fn is_of_faults(self) -> bool {
        matches!(
            self,
            Self::FloorUsual
                | Self::ThrustUsual
                | Self::CarCreeps
                | Self::BubbleSet
                | Self::BracketUsual
                | Self::FaultTimes
        )
    }

    /// Whether it says how well a place is known.
    pub const fn is_of_place(self) -> bool {
        matches!(
            self,
            Self::ByEye
                | Self::Taped
                | Self::CarPlanned
                | Self::CarPlannedTurn
                | Self::CarTaped
                | Self::CarTapedTurn
        )
    }

    /// Which setting says how well a car's place is known; `None` if it was entered.
    pub const fn of_car(known: ParkedKnown) -> Option<Self> {
        match known {
            ParkedKnown::Planned => Some(Self::CarPlanned),
            ParkedKnown::Taped => Some(Self::CarTaped),
            ParkedKnown::Within { .. } => None,
        }
    }
}
