//! How a mark is laid, in words: what a person does with tape, plumb line and laser.

use baywright_geometry::angle;
use baywright_geometry::marks::{Construction, Reach, Wheel, WhichSide};

use super::assumed::{of_aiming, of_body, of_sensor, of_zone};
use super::{About, listed};
use crate::model::assumed::Assumed;
use crate::scene::{Reading, Scene, Slope};

impl About<'_> {
    /// What the tape must read between two marks.
    pub fn reading(&self, reading: &Reading) -> String {
        format!("mark {} to mark {}: {}", reading.from, reading.to, self.length(reading.distance_mm))
    }

    /// That a distance rests on these figures, which were assumed.
    pub fn rests_on(&self, figures: &[Assumed]) -> String {
        let part = |figure: &Assumed| match figure {
            Assumed::Body(part) => of_body(*part),
            Assumed::Sensor(_, part) => of_sensor(*part),
            Assumed::Aiming(_, part) => of_aiming(*part),
            Assumed::Zone(_, _, part) => of_zone(*part),
        };
        let parts: Vec<String> = figures.iter().map(|figure| part(figure).to_owned()).collect();
        format!("rests on the assumed {}", listed(&parts))
    }

    /// A figure that was assumed, with what it belongs to.
    pub fn assumed_figure(&self, figure: &Assumed) -> String {
        super::assumed::named(figure)
    }

    /// The instruction for one step of the mark plan, as it is laid in a scene.
    pub fn instruction(&self, step: usize, scene: &Scene) -> String {
        let how = self.construction(step, scene.tape(step, self.arrangement));
        match scene.slope(step, self.arrangement) {
            None => how,
            Some(Slope { height_mm, reads_mm }) => format!(
                "{how} One end lies {} higher: hold the tape level there and plumb down; along the slope it reads {}.",
                self.length(height_mm),
                self.length(reads_mm)
            ),
        }
    }

    /// How the mark is constructed; `reach` is how far a line is to be prolonged where the plan says only how far it must reach.
    fn construction(&self, step: usize, reach: Option<f64>) -> String {
        let plan = &self.arrangement.aiming.mark_plan;
        let Some(own) = plan.get(step) else { return String::new() };
        let mark = |index: usize| plan.get(index).map_or_else(|| "?".to_owned(), |step| step.id.to_string());
        let id = &own.id;
        match own.construction {
            Construction::WheelPoint { wheel } => format!(
                "Mark {id}: bring the middle of the {} tyre to the floor with the plumb line, from hub or rim, not from \
                 the sidewall.",
                wheel_name(wheel)
            ),
            Construction::Outboard { wheel, distance } => format!(
                "Mark {id}: {} outboard of the {} tyre's outer side, square to the car, level with the wheel's middle.",
                self.length(distance),
                wheel_name(wheel)
            ),
            Construction::BodyPoint { point } => {
                let name = self
                    .arrangement
                    .vehicle
                    .body_points
                    .get(point)
                    .map_or_else(|| "body point".to_owned(), |point| point.id.to_string());
                format!("Mark {id}: plumb the {name} down to the floor.")
            }
            Construction::Prolong { from, through, reach: by } => {
                let distance = match by {
                    Reach::Length(length) => length,
                    Reach::AbreastOf(_) => reach.unwrap_or(0.0),
                };
                let (first, second) = (mark(from), mark(through));
                let line = format!("line laser or string through marks {first} and {second}, then tape");
                if distance >= 0.0 {
                    format!("Mark {id}: {line} {} on beyond mark {second}.", self.length(distance))
                } else {
                    format!("Mark {id}: {line} {} back from mark {second}.", self.length(-distance))
                }
            }
            Construction::Middle { first, second } => {
                format!(
                    "Mark {id}: half way between marks {} and {}; check it from both.",
                    mark(first),
                    mark(second)
                )
            }
            Construction::Foot { of, from, to } => format!(
                "Mark {id}: on the line through marks {} and {}, square across from mark {}.",
                mark(from),
                mark(to),
                mark(of)
            ),
            Construction::AlongAside { from, to, along, aside } => {
                let (first, second) = (mark(from), mark(to));
                let start = if along == 0.0 {
                    format!("from mark {first}")
                } else if along > 0.0 {
                    format!("from mark {first} towards mark {second} tape {}, then", self.length(along))
                } else {
                    format!("from mark {first} away from mark {second} tape {}, then", self.length(-along))
                };
                if self.length(aside.abs()) == self.length(0.0) {
                    return match along == 0.0 {
                        true => format!("Mark {id}: on mark {first}."),
                        false => {
                            let start = start.trim_end_matches(", then");
                            format!("Mark {id}: {start}, on the line through both.")
                        }
                    };
                }
                let side = if aside > 0.0 { "left" } else { "right" };
                format!(
                    "Mark {id}: {start} {} square to the line, on its {side} looking from mark {first} to mark {second} \
                     (3-4-5, or two equal diagonals).",
                    self.length(aside.abs())
                )
            }
            Construction::AtAngle { at, towards, angle: turn, distance }
                if self.degrees(angle::wrapped(turn).abs()) == self.degrees(0.0) =>
            {
                format!(
                    "Mark {id}: from mark {} towards mark {} tape {}.",
                    mark(at),
                    mark(towards),
                    self.length(distance)
                )
            }
            Construction::AtAngle { at, towards, angle: turn, distance } => format!(
                "Mark {id}: at mark {}, {} to the {} of the line to mark {}, {} away.",
                mark(at),
                self.degrees(angle::wrapped(turn).abs()),
                if angle::wrapped(turn) >= 0.0 { "left" } else { "right" },
                mark(towards),
                self.length(distance)
            ),
            Construction::Crossing { first, second } => format!(
                "Mark {id}: where the line through marks {} and {} crosses the line through marks {} and {}.",
                mark(first.0),
                mark(first.1),
                mark(second.0),
                mark(second.1)
            ),
            Construction::TwoDistances { first, from_first, second, from_second, side } => format!(
                "Mark {id}: {} from mark {} and {} from mark {}, on the {} looking from the first to the second.",
                self.length(from_first),
                mark(first),
                self.length(from_second),
                mark(second),
                match side {
                    WhichSide::Left => "left",
                    WhichSide::Right => "right",
                }
            ),
        }
    }
}

pub(super) const fn wheel_name(wheel: Wheel) -> &'static str {
    match wheel {
        Wheel::FrontLeft => "front left",
        Wheel::FrontRight => "front right",
        Wheel::RearLeft => "rear left",
        Wheel::RearRight => "rear right",
    }
}
