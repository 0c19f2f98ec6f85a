//! What sentences about an arrangement are made from, in whatever language: the arrangement, how its figures are shown, and what
//! a sentence on it asks of it.

use baywright_geometry::{DVec2, angle};

use super::{Locale, Units};
use crate::assessment::{Assessment, Basis, Facts, Finding, Quantity, Shorter, Step, Subject, TooLarge};
use crate::clearing::Way;
use crate::failed::{Origin, Suspect};
use crate::model::validate::number;
use crate::model::{
    Arrangement, Effort, FloorFeatureKind, Id, Material, ShopFigure, TargetHeight, Thing, ThingKind,
};
use crate::place::Slack;
use crate::proof::FigureOf;

/// What shows of an angle at least, radians: a thousandth of a degree.
const LEAST_SHOWN_RAD: f64 = 0.001 * std::f64::consts::PI / 180.0;

/// A limit that a tape's marks would make so much wider is told by decimals.
const WIDER: f64 = 1.05;

/// As a tape in inches shows it, mm.
fn sixteenths(mm: f64) -> f64 {
    (mm / 25.4 * 16.0).round() / 16.0 * 25.4
}

/// No figure is shown to more places: a ten-thousandth of a millimetre is beyond all that is laid out.
const MOST_PLACES: usize = 5;

/// Two moves whose directions differ by less, rad, go the same way.
const SAME_WAY: f64 = 0.01;

/// What the sentences are about.
#[derive(Clone, Copy, Debug)]
pub struct Matter<'a> {
    /// The arrangement.
    pub arrangement: &'a Arrangement,
    /// The units and the region in use.
    pub locale: Locale,
}

impl Matter<'_> {
    /// A length with its unit.
    pub fn length(&self, mm: f64) -> String {
        self.locale.length(mm)
    }

    /// A length with its unit that is never shown shorter than it is.
    pub fn at_least(&self, mm: f64) -> String {
        self.locale.at_least(mm)
    }

    /// How far off a spot a car may be: a length and an angle, neither shown larger than it is; `None` where that is next to nothing.
    pub fn spare(&self, slack: &Slack) -> Option<[String; 2]> {
        let shown_mm = match self.locale.units {
            Units::Millimetres | Units::Metres => 1.0,
            Units::FeetInches => 25.4 / 16.0,
        };
        // What is just so much is not shown less for its last bits.
        let down = |value: f64, step: f64| (value / step + 1e-6).floor() * step;
        let (mm, degrees) = (down(slack.mm, shown_mm), down(angle::degrees(slack.rad), 0.1));
        (mm > 0.0 && degrees > 0.0)
            .then(|| [self.length(mm), format!("{}°", self.locale.region.number(degrees, 1))])
    }

    /// A length without its unit.
    pub fn bare(&self, mm: f64) -> String {
        self.locale.bare(mm)
    }

    /// An angle in degrees.
    pub fn degrees(&self, radians: f64) -> String {
        self.locale.region.degrees(radians)
    }

    /// A figure of a target, without its sign's way: a direction to a hundredth of a degree, else a length.
    pub fn of_target(&self, of: FigureOf, value: f64) -> String {
        match of {
            FigureOf::Direction | FigureOf::Turn => {
                format!("{}°", self.locale.region.number(angle::degrees(value), 2))
            }
            FigureOf::Distance | FigureOf::Aside => self.length(value),
        }
    }

    /// The same to one place more: what small differences are told by.
    pub fn finely(&self, of: FigureOf, value: f64) -> String {
        match of {
            FigureOf::Direction | FigureOf::Turn => {
                format!("{}°", self.locale.region.number(angle::degrees(value), 3))
            }
            FigureOf::Distance | FigureOf::Aside => match self.locale.units {
                Units::FeetInches => self.length(value),
                Units::Millimetres | Units::Metres => {
                    format!("{} mm", self.locale.region.number(value, 2))
                }
            },
        }
    }

    /// How far something was found out, without its way: a turn to a hundredth of a degree, else a length.
    pub fn read_of(&self, suspect: Suspect, value: f64) -> String {
        self.of_target(if suspect.is_angle() { FigureOf::Direction } else { FigureOf::Aside }, value)
    }

    /// How far out it is supposed to be: no more certain than to a millimetre.
    pub fn size_of(&self, suspect: Suspect, value: f64) -> String {
        self.read_of(suspect, if suspect.is_angle() { value } else { value.max(1.0).round() })
    }

    /// The name of the mark whose laying is suspected; empty of anything else.
    pub fn mark_of(&self, suspect: Suspect) -> String {
        let Suspect::Laid(Origin::Along(step) | Origin::Across(step)) = suspect else {
            return String::new();
        };
        self.arrangement.aiming.mark_plan.get(step).map_or_else(String::new, |own| own.id.to_string())
    }

    /// A vector of the bay's frame in the car's own: x ahead, y to the left.
    pub fn in_car_directions(&self, by: DVec2) -> DVec2 {
        self.arrangement.parked.inverse().turned(by)
    }

    /// A vector of the car's own frame in the bay's.
    pub fn of_car(&self, by: DVec2) -> DVec2 {
        self.arrangement.parked.turned(by)
    }

    /// What was measured and its limit, so that the two never look alike when they are not, and what is not nothing never
    /// looks like nothing: with as many more places as that takes, up to [`MOST_PLACES`]. `said` is how the language says a value.
    pub fn against(
        &self,
        measured: Quantity,
        limit: Quantity,
        said: impl Fn(Quantity) -> String,
    ) -> [String; 2] {
        let plain = [said(measured), said(limit)];
        let Some([value, bound]) = numbers(measured, limit) else { return plain };
        let [first, second] = &plain;
        let looks_alike = first == second && value != bound;
        let looks_like_nothing = value != 0.0 && *first == said(of_kind(measured, 0.0));
        if let (Units::FeetInches, Quantity::Length(mm)) = (self.locale.units, limit)
            && sixteenths(mm) > mm * WIDER
        {
            // 4 mm are no ³⁄₁₆ of an inch: a limit is not told wider than it is.
            let exact = |own| self.with_places(own, 2);
            if let (Some(value), Some(bound)) = (exact(measured), exact(limit)) {
                return [value, bound];
            }
        }
        if !looks_alike && !looks_like_nothing {
            return plain;
        }
        (1..=MOST_PLACES)
            .filter_map(|places| {
                Some([self.with_places(measured, places)?, self.with_places(limit, places)?])
            })
            .find(|[first, second]| {
                (value == bound || first != second) && (value == 0.0 || !is_all_noughts(first))
            })
            .unwrap_or(plain)
    }

    /// A value with its unit to so many places; lengths in whole units of the smallest part that is asked for. `None` of days,
    /// which have none.
    fn with_places(&self, quantity: Quantity, places: usize) -> Option<String> {
        let region = self.locale.region;
        Some(match quantity {
            Quantity::Length(mm) => match self.locale.units {
                Units::Millimetres => format!("{} mm", region.number(mm, places)),
                Units::Metres => format!("{} m", region.number(mm / 1000.0, places + 3)),
                Units::FeetInches => format!("{} in", region.number(mm / 25.4, places + 1)),
            },
            Quantity::Angle(radians) => format!("{}°", region.number(angle::degrees(radians), places)),
            Quantity::Share(share) => format!("{} %", region.number(share * 100.0, places)),
            Quantity::Ratio(ratio) => region.number(ratio, places),
            Quantity::Days(_) => return None,
        })
    }

    /// Whether a shorter move goes the same way as the step that is told.
    pub fn same_way(&self, step: &Step, shorter: Shorter) -> bool {
        let way = DVec2::normalize_or_zero;
        match step {
            Step::MoveThing { by, .. } | Step::MoveCar { by } => {
                way(shorter.by()).distance(way(*by)) < SAME_WAY
            }
            _ => false,
        }
    }

    /// How an echo that is limited is told: the level in dBsm, and the area in m² that throws back as much.
    pub fn echo(&self, level: f64) -> [String; 2] {
        // Decibels over one square metre: 10 dBsm is the echo of 10 m², 13 dBsm that of 20 m².
        let places = match level {
            10.0.. => 0,
            0.0.. => 1,
            _ => (-level / 10.0).ceil() as usize,
        };
        let area = self.locale.region.number(libm::pow(10.0, level / 10.0), places);
        // To a tenth where it is no whole number, and never "-0".
        let tenths = (level * 10.0).round() / 10.0 + 0.0;
        let level = self.locale.region.number(tenths, usize::from(tenths.fract() != 0.0));
        [level.replace('-', "\u{2212}"), area]
    }

    /// By how much the room is too small this way round, if that was found.
    pub fn too_small_by(&self, assessment: &Assessment) -> Option<TooLarge> {
        assessment.findings.iter().find_map(|finding| match finding.facts {
            Facts::OutsideRoom { too_large, .. } => too_large,
            _ => None,
        })
    }

    /// The thing that a finding is about, if it is one.
    pub fn thing(&self, finding: &Finding) -> Option<&Thing> {
        let id = finding.culprit()?;
        self.arrangement.bay.things.iter().find(|thing| thing.id == *id)
    }

    /// Whether nobody knows what that is made of, or what it holds, that a finding is about first.
    pub fn is_of_unknown(&self, finding: &Finding) -> bool {
        let of_thing = self.thing(finding).map(|own| (own.material, own.metal_content()));
        let made_of = of_thing.or_else(|| self.part_material(finding).map(|own| (own, own.metal())));
        made_of.is_some_and(|(material, metal)| material == Material::Unknown || metal.counts().is_none())
    }

    /// What a wall, an opening or a feature of the floor is made of, that a finding is about first.
    pub fn part_material(&self, finding: &Finding) -> Option<Material> {
        let bay = &self.arrangement.bay;
        match finding.subjects.first()? {
            Subject::Wall(id) => bay.walls.iter().find(|own| own.id == *id).map(|own| own.material),
            Subject::Opening(id) => bay.openings.iter().find(|own| own.id == *id).map(|own| own.material),
            Subject::FloorFeature(id) => {
                bay.floor_features.iter().find(|own| own.id == *id).map(|own| own.material)
            }
            _ => None,
        }
    }

    /// Whether it is a car that is parked there.
    pub fn is_parked_car(&self, id: &Id) -> bool {
        self.arrangement.bay.things.iter().any(|own| own.id == *id && own.kind == ThingKind::ParkedCar)
    }

    /// Whether the rear toe of one wheel alone is known.
    pub fn is_half_read(&self) -> bool {
        self.arrangement.on_this_car.is_half_read()
    }

    /// Whether a thing is a lamp.
    pub fn is_lamp(&self, id: &Id) -> bool {
        self.arrangement.bay.things.iter().any(|own| own.id == *id && own.kind == ThingKind::Lamp)
    }

    /// Whether a thing is of glass.
    pub fn is_of_glass(&self, id: &Id) -> bool {
        self.arrangement.bay.things.iter().any(|own| own.id == *id && own.material == Material::Glass)
    }

    /// Whether a target lies on the floor.
    pub fn is_mat(&self, id: &Id) -> bool {
        let own = self.arrangement.aiming.placements.iter().find(|own| own.id == *id);
        own.is_some_and(|own| own.height == TargetHeight::OnFloor)
    }

    /// Whether a thing is a person.
    pub fn is_someone(&self, id: &Id) -> bool {
        self.arrangement.bay.things.iter().any(|own| own.id == *id && own.is_person())
    }

    /// Whether a place in the floor is an open pit.
    pub fn is_pit(&self, id: &Id) -> bool {
        let own = self.arrangement.bay.floor_features.iter().find(|own| own.id == *id);
        own.is_some_and(|own| own.kind == FloorFeatureKind::Pit)
    }

    /// Whether what is to be kept free is the way to a door.
    pub fn is_door(&self, id: &Id) -> bool {
        self.arrangement.bay.openings.iter().any(|opening| opening.id == *id)
    }

    /// Whether a finding is about an opening first of which nobody knows whether light comes through it.
    pub fn may_only_be_clear(&self, finding: &Finding) -> bool {
        let Some(Subject::Opening(id)) = finding.subjects.first() else { return false };
        let own = self.arrangement.bay.openings.iter().find(|own| own.id == *id);
        own.is_some_and(|own| own.lets_light_in().is_none())
    }

    /// Whether nobody moves a thing.
    pub fn is_fixed(&self, id: &Id) -> bool {
        self.arrangement.bay.things.iter().any(|own| own.id == *id && own.effort == Effort::Fixed)
    }

    /// Whether the place of a thing is known as well as a tape tells it.
    pub fn is_taped(&self, thing: &Id) -> bool {
        let own = self.arrangement.bay.things.iter().find(|own| own.id == *thing);
        let shop = &self.arrangement.shop;
        own.is_some_and(|own| shop.within(own.place.known) <= shop.taped_mm)
    }

    /// What kind of thing it is; what is of flesh and blood is a person, whatever kind was entered.
    pub fn kind(&self, thing: &Id) -> Option<ThingKind> {
        let own = self.arrangement.bay.things.iter().find(|own| own.id == *thing)?;
        Some(if own.is_person() { ThingKind::Person } else { own.kind })
    }

    /// How hard the hardest of all is that hands move to make room.
    pub fn hardest(&self, way: &Way) -> Option<Effort> {
        let of = |id: &Id| self.arrangement.bay.things.iter().find(|own| own.id == *id).map(|own| own.effort);
        let by_hand = way.moves.iter().filter(|own| !own.needs_builder);
        let all = by_hand.filter_map(|own| match &own.step {
            Step::MoveThing { thing, .. } | Step::TurnThing { thing, .. } | Step::TakeAway { thing } => {
                of(thing)
            }
            _ => None,
        });
        all.max()
    }

    /// At which height the middle of a standing target belongs.
    pub fn meant_height(&self, placement: &Id) -> Option<f64> {
        let own = self.arrangement.aiming.placements.iter().find(|own| own.id == *placement)?;
        (own.height != TargetHeight::OnFloor).then(|| crate::scene::meant_height(self.arrangement, own))
    }

    /// The procedure's own words, with the sizes in it that are those of the aiming's targets in the unit that is shown. What else it
    /// names, such as a tape by its length, stays as it was entered.
    pub fn in_units(&self, text: &str) -> String {
        let mut text = text.to_owned();
        for target in self.arrangement.aiming.placements.iter().map(|own| &own.target) {
            let (wide, high) = (target.width_mm, target.height_mm);
            for (a, b) in [(wide, high), (high, wide)] {
                let own = format!("{} × {} mm", number(a), number(b));
                text = replaced(&text, &own, &format!("{} × {}", self.bare(a), self.length(b)));
            }
        }
        text
    }

    /// How surely a direction is known, radians, without the ±: what is nothing is said as that, and what is less than shows is
    /// never said as nothing.
    pub fn margin_of_angle(&self, rad: f64) -> String {
        if rad == 0.0 { "0°".to_owned() } else { self.degrees(rad.max(LEAST_SHOWN_RAD)) }
    }
}

/// A text with each place of a figure in another unit; not where it is the end of a longer one.
fn replaced(text: &str, figure: &str, by: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut rest = text;
    while let Some((before, after)) = rest.split_once(figure) {
        let is_whole = !before.ends_with(|c: char| c.is_alphanumeric() || ".,".contains(c))
            && !before.ends_with("× ")
            && !after.starts_with(char::is_alphanumeric);
        out.push_str(before);
        out.push_str(if is_whole { by } else { figure });
        rest = after;
    }
    out + rest
}

/// The numbers of two values of one kind; `None` of days, which are whole.
const fn numbers(one: Quantity, other: Quantity) -> Option<[f64; 2]> {
    match (one, other) {
        (Quantity::Length(a), Quantity::Length(b))
        | (Quantity::Angle(a), Quantity::Angle(b))
        | (Quantity::Share(a), Quantity::Share(b))
        | (Quantity::Ratio(a), Quantity::Ratio(b)) => Some([a, b]),
        _ => None,
    }
}

/// Another value of the same kind.
const fn of_kind(kind: Quantity, value: f64) -> Quantity {
    match kind {
        Quantity::Length(_) => Quantity::Length(value),
        Quantity::Angle(_) => Quantity::Angle(value),
        Quantity::Share(_) => Quantity::Share(value),
        Quantity::Ratio(_) => Quantity::Ratio(value),
        Quantity::Days(_) => kind,
    }
}

/// Whether a limit is nought.
pub fn is_nought(quantity: Quantity) -> bool {
    numbers(quantity, quantity).is_some_and(|[value, _]| value == 0.0)
}

fn is_all_noughts(text: &str) -> bool {
    !text.chars().any(|c| ('1'..='9').contains(&c))
}

/// Whether a limit is said to be the shop's own where it stands; how well a place is known, the next sentence says.
pub const fn is_said_with_limit(basis: &Basis) -> bool {
    match basis {
        // How large a roll is counted is no limit.
        Basis::Shop(figure) => !figure.is_of_place() && !matches!(figure, ShopFigure::DoorRoll),
        _ => false,
    }
}
