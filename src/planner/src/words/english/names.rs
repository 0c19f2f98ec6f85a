//! What things are called.

use super::About;
use crate::assessment::{Subject, Verdict};
use crate::model::{
    BesidePart, Effort, Exclusion, Id, Known, Material, Metal, Other, ParkedKnown, SensorKind, TargetKind,
    ThingKind,
};

/// A name with its article, unless it was typed with one.
pub(super) fn the(id: &Id) -> String {
    let name = id.as_str();
    // "Wall 3" and "trolley 2" are names already.
    let numbered = name.rsplit_once(' ').is_some_and(|(_, last)| last.chars().all(|c| c.is_ascii_digit()));
    if numbered || name.to_lowercase().starts_with("the ") { name.to_owned() } else { format!("the {name}") }
}

impl About<'_> {
    /// The verdict: of the space, never of the car or the sensor.
    pub const fn verdict(&self, verdict: Verdict) -> &'static str {
        match verdict {
            Verdict::Ready => "Space ready",
            Verdict::ReadyWithCare => "Space ready with care",
            Verdict::NotReady => "Space not ready",
        }
    }

    /// What a finding is about, as it stands within a sentence: "the tool cabinet".
    pub fn subject(&self, subject: &Subject) -> String {
        match subject {
            Subject::Car => "the car".to_owned(),
            Subject::Thing(id) => self.named_thing(id),
            Subject::Wall(id)
            | Subject::Opening(id)
            | Subject::FloorFeature(id)
            | Subject::Runway(id)
            | Subject::KeepFree(id)
            | Subject::HallBay(id) => the(id),
            Subject::Dimension(id) => id.to_string(),
            Subject::Zone(id) => Self::zone(id),
            Subject::Target(id) => self.target(id),
            Subject::Stand(id) => self.stand(id),
            Subject::Sensor => format!("the {}", self.sensor()),
            Subject::Mark(id) => format!("mark {id}"),
            Subject::Run(from, to) => format!("the straight run from mark {from} to mark {to}"),
            Subject::Ceiling => "the ceiling".to_owned(),
            Subject::Floor => "the floor".to_owned(),
            Subject::Figures => "the figures".to_owned(),
        }
    }

    /// A thing of the bay, or a part of a set-up that is done at the same time.
    fn named_thing(&self, id: &Id) -> String {
        let Some((beside, part)) = self.arrangement.part_beside(id) else { return the(id) };
        let asks = beside.other == Other::Asks;
        let what = match part {
            // Said of the other set-up where this one is told what it does there.
            BesidePart::Car if asks => return "this car".to_owned(),
            BesidePart::Stand(_) if asks => return "this target stand".to_owned(),
            BesidePart::Thing(id) if asks => return the(id),
            BesidePart::Car => "the car".to_owned(),
            BesidePart::Stand(_) => "the target stand".to_owned(),
            BesidePart::Thing(id) => the(id),
        };
        format!("{what} of “{}”", beside.set_up)
    }

    /// The sensor's kind, as a workshop says it.
    pub fn sensor(&self) -> &'static str {
        match self.arrangement.sensor.kind {
            SensorKind::ForwardRadar(_) => "forward radar",
            SensorKind::CornerRadar(_) => "corner radar",
            SensorKind::ForwardCamera(_) => "forward camera",
            SensorKind::SurroundCamera(_) => "surround camera",
            SensorKind::Lidar => "lidar",
        }
    }

    /// By its name, also where it is the only one: so it is called in the list and in the form.
    fn zone(id: &Id) -> String {
        format!("the keep-clear zone “{id}”")
    }

    fn target_kind(&self, id: &Id) -> &'static str {
        let placement = self.arrangement.aiming.placements.iter().find(|p| p.id == *id);
        match placement.map(|placement| placement.target.kind) {
            Some(TargetKind::CornerReflector) => "corner reflector",
            Some(TargetKind::Plate) => "plate",
            Some(TargetKind::Board) => "board",
            Some(TargetKind::Mat) => "mat",
            Some(TargetKind::ActiveDevice) => "active device",
            None => "target",
        }
    }

    fn target(&self, id: &Id) -> String {
        if self.arrangement.aiming.placements.len() > 1 {
            format!("the {} “{id}”", self.target_kind(id))
        } else {
            format!("the {}", self.target_kind(id))
        }
    }

    fn stand(&self, id: &Id) -> String {
        let lies = self.arrangement.aiming.placements.iter().any(|p| p.id == *id && p.target.stand.is_none());
        if lies {
            self.target(id)
        } else if self.arrangement.aiming.placements.len() > 1 {
            format!("the target stand “{id}”")
        } else {
            "the target stand".to_owned()
        }
    }

    /// What a zone is kept clear of.
    pub fn keeps_clear_of(&self, excludes: Exclusion) -> String {
        match excludes {
            Exclusion::Anything => "anything".to_owned(),
            Exclusion::Metal => "metal".to_owned(),
            Exclusion::Reflecting(level) => {
                let [level, area] = self.echo(level);
                format!("anything with a radar echo above {level} dBsm (that of {area} m²)")
            }
            Exclusion::People => "people".to_owned(),
            Exclusion::Light => "lamps and other light".to_owned(),
        }
    }

    /// A material, as a workshop says it.
    pub const fn material(&self, material: Material) -> &'static str {
        match material {
            Material::Steel => "steel",
            Material::Aluminium => "aluminium",
            Material::Mesh => "wire mesh",
            Material::CarBody => "car body",
            Material::Foil => "foil-backed board",
            Material::Concrete => "concrete",
            Material::Brick => "brick",
            Material::Plasterboard => "plasterboard",
            Material::Wood => "wood",
            Material::Glass => "glass",
            Material::Plastic => "plastic",
            Material::Rubber => "rubber",
            Material::Cloth => "cloth or cardboard",
            Material::Person => "person",
            Material::Unknown => "material not known",
        }
    }

    /// How much metal something holds.
    pub const fn metal(&self, metal: Metal) -> &'static str {
        match metal {
            Metal::None => "none",
            Metal::Frame => "a frame or studs",
            Metal::All => "all of it",
            Metal::Unknown => "not known",
        }
    }

    /// A kind of thing, as a workshop says it.
    pub const fn kind_of_thing(&self, kind: ThingKind) -> &'static str {
        match kind {
            ThingKind::Cabinet => "cabinet",
            ThingKind::ToolChest => "tool chest",
            ThingKind::Bench => "bench",
            ThingKind::Shelf => "shelf",
            ThingKind::Trolley => "trolley",
            ThingKind::Column => "column",
            ThingKind::LiftPost => "lift post",
            ThingKind::LiftArm => "lift arm",
            ThingKind::Drum => "drum",
            ThingKind::ParkedCar => "parked car",
            ThingKind::Fence => "mesh fence",
            ThingKind::Bin => "bin",
            ThingKind::Person => "person",
            ThingKind::Lamp => "lamp",
            ThingKind::Heater => "heater or duct",
            ThingKind::DoorTrack => "door track overhead",
            ThingKind::Beam => "beam or pipe overhead",
            ThingKind::Other => "something else",
        }
    }

    /// What it takes to move a thing.
    pub const fn effort(&self, effort: Effort) -> &'static str {
        match effort {
            Effort::OnePerson => "one person",
            Effort::TwoPeople => "two people",
            Effort::ForkLift => "a fork lift",
            Effort::Fixed => "fixed",
        }
    }

    /// How well it is known where the car stands.
    pub fn how_parked(&self, known: ParkedKnown) -> String {
        let (mm, rad) = self.arrangement.shop.parked_within(known);
        let within = format!("± {}, ± {}", self.length(mm), self.margin_of_angle(rad));
        match known {
            ParkedKnown::Planned => format!("planned, {within}"),
            ParkedKnown::Taped => format!("taped, {within}"),
            ParkedKnown::Within { .. } => within,
        }
    }

    /// How well the place of a thing is known.
    pub fn how_known(&self, known: Known) -> String {
        let within = self.length(self.arrangement.shop.within(known));
        match known {
            Known::Taped => format!("taped, ± {within}"),
            Known::ByEye => format!("by eye, ± {within}"),
            Known::ByEyeOlder => format!("by eye under an older rule, ± {within}"),
            Known::Within(_) => format!("± {within}"),
        }
    }
}
