//! English of the same: see `words/permanent.rs`.

use super::names::the;
use super::{About, Language, listed, sentence_start};
use crate::assessment::Subject;
use crate::model::Id;
use crate::permanent::{Direction, Point, PointOf, Stay, Target};
use crate::words::permanent::PermanentTexts;

/// The fixed texts.
pub const TEXTS: PermanentTexts = PermanentTexts {
    language: Language::English,
    open: "Lines that stay \u{2026}",
    open_why: "Proposes the fewest lines and points on the floor for all set-ups of this bay, each with two distances from walls",
    put_away: "Put them away",
    title: "Lines that stay",
    about: "For all set-ups of this bay, cars parked along the walls, with room enough for how cars are parked.",
    none: "No set-up of this bay has such a place: there is nothing to paint. Moving things is the next question.",
    partial: "Stopped before its end.",
    older: "Of the bay as it was before the last change.",
    fewest: "Fewer places to park do not serve as many, along the walls.",
    greedy: "Found one place after the other: there may be fewer.",
    points: "Points, square from two walls",
    how_laid: "\u{b1} is how far off a point may be laid. A line goes from its one end to the other. Nothing stops an aiming while lines and cars are off by no more than told.",
    targets: "Marks of targets",
    keep: "Keep them in the bay",
    kept: "All of it is in the bay.",
    keep_why: "They are marks that stay then: drawn, printed on the floor plan, moved by their figures. Undo takes them back.",
    is_kept: "in the bay",
    waits: "While a car is being entered the bay waits.",
    laid_within: "To be laid within \u{b1}",
    laid_within_hint: "Empty: as well as the shop lays marks",
    line_to: "Line to",
    no_line: "no line",
    floor_lines: "Lines between permanent points",
    from: "From",
    to: "To",
    long: "Length",
    within_about: "A point without a figure is laid as well as the shop lays marks.",
};

pub fn looked_at(done: usize, all: usize) -> String {
    format!("Looked at {done} of {all} set-ups")
}

pub fn place(number: usize) -> String {
    format!("Place {number}")
}

pub fn name(place: usize, of: PointOf) -> String {
    let what = match of {
        PointOf::LineEnd { is_ahead: false } => "line back".to_owned(),
        PointOf::LineEnd { is_ahead: true } => "line front".to_owned(),
        PointOf::AxleEnd { is_left: true } => "front axle left".to_owned(),
        PointOf::AxleEnd { is_left: false } => "front axle right".to_owned(),
        PointOf::RearAxle { wheelbase_mm } => format!("rear axle {wheelbase_mm:.0}"),
        PointOf::Target { nth } => format!("target {nth}"),
    };
    format!("Place {place}, {what}")
}

pub fn counted(places: usize, lines: usize, points: usize) -> String {
    let one = |count: usize, one: &str, many: &str| match count {
        1 => format!("1 {one}"),
        _ => format!("{count} {many}"),
    };
    format!(
        "{}, {}, {}.",
        one(places, "place to park", "places to park"),
        one(lines, "line", "lines"),
        one(points, "point", "points")
    )
}

pub fn serves(set_ups: &[String]) -> String {
    format!("Serves {}.", listed(set_ups))
}

pub fn so_often(set_up: &str, a_month: &str) -> String {
    format!("{set_up} ({a_month} a month)")
}

pub fn used(a_month: &str) -> String {
    format!("Used {a_month} a month, as the owner says how often what comes in.")
}

pub fn without(set_ups: &[String]) -> String {
    format!("No such place was found for {}.", listed(set_ups))
}

impl About<'_> {
    /// How far a point is from two walls.
    pub fn point_from_walls(&self, point: &Point) -> String {
        match &point.walls {
            Some([a, b]) => format!(
                "{} from {}, {} from {}",
                self.length(a.mm),
                the(&a.wall),
                self.length(b.mm),
                the(&b.wall)
            ),
            None => "no two walls can be taped to here: by the drawing".to_owned(),
        }
    }

    /// What lies or stands there.
    pub fn point_lies_on(&self, point: &Point) -> Option<String> {
        let there = point.lies_on.as_ref()?;
        Some(format!(
            "{} is in its place: lay it beside that and write down by how much.",
            sentence_start(&self.subject(there))
        ))
    }

    /// That its mark was moved.
    pub fn point_moved(&self, mark: &Id, by_mm: f64) -> String {
        format!("In the bay \"{mark}\" lies {} off: it does not serve this any more.", self.length(by_mm))
    }

    /// What of a target stays.
    pub fn target_stays(&self, target: &Target) -> String {
        let name = sentence_start(&self.subject(&Subject::Target(target.placement.clone())));
        let within = |mm: f64| self.locale.laid_within(mm);
        match target.stay {
            Stay::Stays { car_mm, direction } => {
                let while_so = format!(
                    "{name}: its mark can stay. It proves only while the middle of each axle is measured within {} of its line or point",
                    within(car_mm)
                );
                match direction {
                    Direction::NotAsked => format!("{while_so}."),
                    Direction::Stays => format!("{while_so}; two marks give its direction."),
                    Direction::FromWheels => {
                        format!(
                            "{while_so}; its direction is finer than tape and is laid from the wheels each time."
                        )
                    }
                }
            }
            Stay::TooFine { needs_mm } => format!(
                "{name}: cannot be laid permanently. A tape would have to be good to {}, the car on its lines included: lay its mark from the wheels each time.",
                within(needs_mm)
            ),
            Stay::ThrustLine => {
                format!(
                    "{name}: follows each car\u{2019}s own thrust line: lay its mark from the wheels each time."
                )
            }
            Stay::NoMark => format!("{name}: its mark cannot be found, so none can stay."),
        }
    }
}
