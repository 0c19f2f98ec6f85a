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
        format!("Marke {} bis Marke {}: {}", reading.from, reading.to, self.length(reading.distance_mm))
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
        format!("beruht auf Angenommenem: {}", listed(&parts))
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
                "{how} Ein Ende liegt {} höher: das Bandmaß dort waagerecht halten und abloten; am Gefälle entlang zeigt es {}.",
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
                "Marke {id}: die Mitte des Reifens {} auf den Boden loten, von Nabe oder Felge aus, nicht von der Reifenflanke.",
                wheel_name(wheel)
            ),
            Construction::Outboard { wheel, distance } => format!(
                "Marke {id}: {} außen neben dem Reifen {}, rechtwinklig zum Fahrzeug, auf Höhe der Radmitte.",
                self.length(distance),
                wheel_name(wheel)
            ),
            Construction::BodyPoint { point } => match self.arrangement.vehicle.body_points.get(point) {
                Some(point) => format!("Marke {id}: „{}“ auf den Boden loten.", point.id),
                None => format!("Marke {id}: den Karosseriepunkt auf den Boden loten."),
            },
            Construction::Prolong { from, through, reach: by } => {
                let distance = match by {
                    Reach::Length(length) => length,
                    Reach::AbreastOf(_) => reach.unwrap_or(0.0),
                };
                let (first, second) = (mark(from), mark(through));
                let line = format!("Linienlaser oder Schnur durch die Marken {first} und {second}, dann");
                if distance >= 0.0 {
                    format!("Marke {id}: {line} {} über Marke {second} hinaus messen.", self.length(distance))
                } else {
                    format!("Marke {id}: {line} {} von Marke {second} zurück messen.", self.length(-distance))
                }
            }
            Construction::Middle { first, second } => {
                format!(
                    "Marke {id}: in der Mitte zwischen den Marken {} und {}; von beiden aus nachmessen.",
                    mark(first),
                    mark(second)
                )
            }
            Construction::Foot { of, from, to } => format!(
                "Marke {id}: auf der Linie durch die Marken {} und {}, rechtwinklig gegenüber von Marke {}.",
                mark(from),
                mark(to),
                mark(of)
            ),
            Construction::AlongAside { from, to, along, aside } => {
                let (first, second) = (mark(from), mark(to));
                let start = if along == 0.0 {
                    format!("von Marke {first} aus")
                } else if along > 0.0 {
                    format!("von Marke {first} zu Marke {second} hin {} messen", self.length(along))
                } else {
                    format!(
                        "{} messen, von Marke {first} aus und von Marke {second} weg",
                        self.length(-along)
                    )
                };
                if self.length(aside.abs()) == self.length(0.0) {
                    return match along == 0.0 {
                        true => format!("Marke {id}: auf Marke {first}."),
                        false => format!("Marke {id}: {start}, auf der Linie durch beide."),
                    };
                }
                let then = if along == 0.0 { "" } else { ", dann" };
                let side = if aside > 0.0 { "links" } else { "rechts" };
                format!(
                    "Marke {id}: {start}{then} {} rechtwinklig zur Linie nach {side}, mit Blick von Marke {first} zu Marke {second} \
                     (3-4-5 oder zwei gleiche Diagonalen).",
                    self.length(aside.abs())
                )
            }
            Construction::AtAngle { at, towards, angle: turn, distance }
                if self.degrees(angle::wrapped(turn).abs()) == self.degrees(0.0) =>
            {
                format!(
                    "Marke {id}: von Marke {} zu Marke {} hin {} messen.",
                    mark(at),
                    mark(towards),
                    self.length(distance)
                )
            }
            Construction::AtAngle { at, towards, angle: turn, distance } => format!(
                "Marke {id}: {} nach {} von der Linie von Marke {first} zu Marke {}, {} von Marke {first} entfernt.",
                self.degrees(angle::wrapped(turn).abs()),
                if angle::wrapped(turn) >= 0.0 { "links" } else { "rechts" },
                mark(towards),
                self.length(distance),
                first = mark(at)
            ),
            Construction::Crossing { first, second } => format!(
                "Marke {id}: wo die Linie durch die Marken {} und {} die Linie durch die Marken {} und {} kreuzt.",
                mark(first.0),
                mark(first.1),
                mark(second.0),
                mark(second.1)
            ),
            Construction::TwoDistances { first, from_first, second, from_second, side } => format!(
                "Marke {id}: {} von Marke {} und {} von Marke {}, {} mit Blick von der ersten zur zweiten.",
                self.length(from_first),
                mark(first),
                self.length(from_second),
                mark(second),
                match side {
                    WhichSide::Left => "links",
                    WhichSide::Right => "rechts",
                }
            ),
        }
    }
}

/// Which wheel, behind its noun: "das Rad vorn links".
pub(super) const fn wheel_name(wheel: Wheel) -> &'static str {
    match wheel {
        Wheel::FrontLeft => "vorn links",
        Wheel::FrontRight => "vorn rechts",
        Wheel::RearLeft => "hinten links",
        Wheel::RearRight => "hinten rechts",
    }
}
