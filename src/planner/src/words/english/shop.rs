//! English of the same: see `words/shop.rs`.

use super::{About, Language, listed, sentence_start};
use crate::assessment::{Finding, Subject};
use crate::model::{Known, ShopFigure};
use crate::words::screen::cut;
use crate::words::shop::ShopTexts;

/// The fixed texts.
pub const TEXTS: ShopTexts = ShopTexts {
    language: Language::English,
    title: "Shop settings",
    intro: "What this shop holds itself to where nobody published a figure. Every bay is judged by it.",
    places: "How well places are known",
    floor: "Floor levels",
    room: "Room around the car",
    marks: "Marks and targets",
    instruments: "What marks are laid and taped with",
    faults: "When a routine failed: what goes wrong as a rule",
    to_default: "Default",
    all_to_default: "All to default",
    nowhere: "There is no folder to keep them in: they hold until the program ends.",
    changed_on_disk: "Not saved: someone else changed the file since it was read.",
    gone_from_disk: "Not saved: the file is not there any more; it was removed, moved or renamed.",
    save_there_again: "Save it there again",
    take_theirs: "Take theirs",
    save_over: "Save over it",
    save_again: "Save again",
    drop_them: "Drop them",
    not_read: "The file of the shop's settings cannot be read. The defaults stand in for it, and it stays as it is.",
    read_again: "Read it again",
    undo: "Undo setting",
    redo: "Redo setting",
    change_it: "Shop settings \u{2026}",
};

pub const fn label(figure: ShopFigure) -> &'static str {
    match figure {
        ShopFigure::ByEye => "Placed by eye, ±",
        ShopFigure::Taped => "Taped, ±",
        ShopFigure::CarPlanned => "Car parked unmeasured, ±",
        ShopFigure::CarPlannedTurn => "Its heading, unmeasured, ±",
        ShopFigure::CarTaped => "Car's place taped, ±",
        ShopFigure::CarTapedTurn => "Its heading, taped, ±",
        ShopFigure::SurveyAge => "A survey holds, days",
        ShopFigure::LevelReach => "A level reaches",
        ShopFigure::LevelRead => "One level, ±",
        ShopFigure::WorkingRoom => "Free round the car",
        ShopFigure::StandRoom => "Free beside a stand",
        ShopFigure::StepOver => "Stepped over up to",
        ShopFigure::DuckUnder => "Ducked under from",
        ShopFigure::OverCar => "Free over the roof",
        ShopFigure::OverMark => "Free over a mark",
        ShopFigure::MarkLaid => "A mark is laid, ±",
        ShopFigure::MarkAgrees => "Mark and stand-off within",
        ShopFigure::TargetOff => "Target off its place up to",
        ShopFigure::ToleranceShare => "Share of a tolerance",
        ShopFigure::IntoWall => "A thing into a wall up to",
        ShopFigure::DoorRoll => "Roll of a roller door",
        ShopFigure::PoleRead => "A pole's lean, ±",
        ShopFigure::OnFaceLaid => "Laid on a face, ±",
        ShopFigure::TapeRead => "A reading, ±",
        ShopFigure::TapePerMetre => "Tape over a metre, ±",
        ShopFigure::TapeWithin => "Tape from 20 °C within, K",
        ShopFigure::LaserPerMetre => "Laser line over a metre, ±",
        ShopFigure::LineFound => "Middle of a line, ±",
        ShopFigure::PlumbFound => "Plumbed to the floor, ±",
        ShopFigure::WheelFound => "Wheel point found, ±",
        ShopFigure::CamberKnown => "Camber known, ±",
        ShopFigure::SquareLaid => "A right angle, ±",
        ShopFigure::AngleLaid => "Another angle, ±",
        ShopFigure::FloorUsual => "Floor not surveyed, ±",
        ShopFigure::ThrustUsual => "Thrust line from its sheet, ±",
        ShopFigure::CarCreeps => "A braked car creeps, ±",
        ShopFigure::BubbleSet => "Stand set by its bubble, ±",
        ShopFigure::BracketUsual => "Sensor in a sound bracket, ±",
        ShopFigure::FaultTimes => "A fault, times what is allowed",
    }
}

const fn reason(figure: ShopFigure) -> &'static str {
    match figure {
        ShopFigure::ByEye => "A hand's length is not seen when a cabinet is set down.",
        ShopFigure::Taped => "Two ends read off a tape against an edge that is not sharp.",
        ShopFigure::CarPlanned => "A car is driven in and does not move sideways.",
        ShopFigure::CarPlannedTurn => "A car is driven in along a line on the floor.",
        ShopFigure::CarTaped => "Three distances from the walls to plumbed points.",
        ShopFigure::CarTapedTurn => "Two of these points are a wheelbase apart.",
        ShopFigure::SurveyAge => "Floors settle; surveyed once a year.",
        ShopFigure::LevelRead => "Where a survey does not say: a rotating laser or a water level over a bay.",
        ShopFigure::LevelReach => "Two paces: further from a surveyed point a floor may do anything.",
        ShopFigure::WorkingRoom => {
            "A person with a tape squats beside the car. An aiming's own figure goes first."
        }
        ShopFigure::StandRoom => "A person with a tape squats before the target and on one side of it.",
        ShopFigure::StepOver => "What is lower is not in the way of a person.",
        ShopFigure::DuckUnder => "What hangs higher is not in the way of a person.",
        ShopFigure::OverCar => "A hand: less invites scratches.",
        ShopFigure::OverMark => "A hand, a pen and an eye.",
        ShopFigure::MarkAgrees => {
            "Figures each rounded to a sixteenth of an inch add up to it. A placement's own tolerance goes first."
        }
        ShopFigure::MarkLaid => "A line of a pen, and a tape read to the millimetre.",
        ShopFigure::TargetOff => "Where the procedure names no limit.",
        ShopFigure::ToleranceShare => "From there on it needs care: marks and sensor want their share too.",
        ShopFigure::IntoWall => "A pilaster, or a shelf let in, is no slip of typing.",
        ShopFigure::DoorRoll => "How far it stands out from the wall, and above the lintel.",
        ShopFigure::PoleRead => "A digital level held against it.",
        ShopFigure::OnFaceLaid => "A mirror or a bar against the face: 0.4 mm under one end of half a metre.",
        ShopFigure::TapeRead => "Laid on at one end, read to the millimetre at the other.",
        ShopFigure::TapePerMetre => "What class II allows; common to all distances taped with it.",
        ShopFigure::TapeWithin => "A workshop in winter and in summer; steel grows 11.5 millionths a degree.",
        ShopFigure::LaserPerMetre => "As line lasers are sold; checked against a long string.",
        ShopFigure::LineFound => "A pen on a line that is two millimetres wide.",
        ShopFigure::PlumbFound => "A line that has come to rest, from the middle of a badge.",
        ShopFigure::WheelFound => "From the middle of the hub, with plumb line and square.",
        ShopFigure::CamberKnown => "A plumbed hub lies outboard of the tyre's middle by radius times camber.",
        ShopFigure::SquareLaid => "A square of half a metre, within a millimetre.",
        ShopFigure::AngleLaid => "A protractor on the floor. Two distances do better.",
        ShopFigure::FloorUsual => "Under an axle or a stand, where nobody took levels.",
        ShopFigure::ThrustUsual => "Sheets are printed to a minute; cars settle after they are measured.",
        ShopFigure::CarCreeps => "On its brake, while one works on it.",
        ShopFigure::BubbleSet => "A bubble read by eye.",
        ShopFigure::BracketUsual => "Clips and screws have some play.",
        ShopFigure::FaultTimes => "What went wrong is seldom out by just what is allowed.",
    }
}

/// Where a figure comes from: the default, or the shop with this default.
fn source(figure: ShopFigure, own: Option<&str>) -> String {
    match own {
        None if figure == ShopFigure::TapePerMetre => "Directive 2014/32/EU, annex X (class II).".to_owned(),
        Some(default) if figure == ShopFigure::TapePerMetre => {
            format!("Set in this shop; the default is {default}: Directive 2014/32/EU, annex X (class II).")
        }
        None => "Common practice, no source.".to_owned(),
        Some(default) => format!("Set in this shop; the default is {default}: common practice, no source."),
    }
}

pub fn about(figure: ShopFigure, own: Option<&str>) -> String {
    format!("{} {}", reason(figure), source(figure, own))
}

pub fn default_of(figure: ShopFigure) -> String {
    format!("Default: {}", label(figure))
}

pub fn kept_in(file: &str) -> String {
    format!("Kept in {file}.")
}

pub fn set(figure: ShopFigure, value: &str) -> String {
    format!("{} {value}", label(figure))
}

pub fn no_number(text: &str) -> String {
    format!("“{}” is no number.", cut(text))
}

pub fn no_whole_number(text: &str) -> String {
    format!("“{}” is no whole number.", cut(text))
}

pub fn not_saved(why: &str) -> String {
    format!("Not saved: {why}")
}

impl About<'_> {
    /// A setting of the shop, with its value and where that comes from.
    pub(super) fn of_shop(&self, figure: ShopFigure) -> String {
        let shop = &self.arrangement.shop;
        let set = self.locale.shop_value(figure, shop.get(figure));
        let label = label(figure);
        let default = self.locale.shop_value(figure, figure.default_value());
        let from = source(figure, shop.is_own(figure).then_some(default.as_str()));
        format!("The shop's own setting. {label} {set}. {from}")
    }

    /// Which places were set by eye under an older rule, and what to do.
    pub(super) fn older_by_eye(&self, finding: &Finding) -> String {
        let names = finding.subjects.iter().map(|subject| match subject {
            Subject::Floor => "the walls".to_owned(),
            other => self.subject(other),
        });
        let older = self.length(Known::BY_EYE_OLDER_MM);
        format!(
            "{} count as known to ± {older}, as the file meant it; by eye is ± {} now. Tape them, or say again how they are \
             known.",
            sentence_start(&listed(&names.collect::<Vec<_>>())),
            self.length(self.arrangement.shop.by_eye_mm)
        )
    }
}
