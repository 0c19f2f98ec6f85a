//! What a finding is about, as a sentence on it needs it: what it is made of, whether it is a door, a pit or a mat, how well its
//! place is known, why a mark cannot be found.

use baywright_geometry::marks::MarkFault;

use super::{About, sentence_start};
use crate::assessment::{Finding, Subject};
use crate::model::{FloorFeatureKind, Id, Known, Material, Metal, TargetHeight, Thing, ThingKind};

impl About<'_> {
    pub(super) fn thing(&self, finding: &Finding) -> Option<&Thing> {
        let id = finding.culprit()?;
        self.arrangement.bay.things.iter().find(|thing| thing.id == *id)
    }

    pub(super) fn made_of(&self, finding: &Finding) -> String {
        if let Some(stand @ Subject::Stand(_)) = finding.subjects.first() {
            return self.bare_subject(stand);
        }
        let Some(thing) = self.thing(finding) else {
            return match self.part_material(finding) {
                Some(Material::Unknown) => "something of unknown material".to_owned(),
                Some(material) => self.material(material).to_owned(),
                // A runway.
                None => self.material(Material::Steel).to_owned(),
            };
        };
        let face = match thing.material {
            Material::Unknown => "a thing of unknown material".to_owned(),
            material => self.material(material).to_owned(),
        };
        match (thing.metal_content(), thing.material.metal()) {
            (Metal::Frame, _) => format!("{face} with metal in it"),
            (Metal::All, Metal::None | Metal::Frame | Metal::Unknown) => format!("{face} over metal"),
            (Metal::Unknown, Metal::None | Metal::Frame | Metal::All) => {
                format!("{face} that may hold metal")
            }
            _ => face,
        }
    }

    /// What a wall, an opening or a feature of the floor is made of, that a finding is about first.
    pub(super) fn part_material(&self, finding: &Finding) -> Option<Material> {
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
    pub(super) fn is_parked_car(&self, id: &Id) -> bool {
        self.arrangement.bay.things.iter().any(|own| own.id == *id && own.kind == ThingKind::ParkedCar)
    }

    /// Whether the rear toe of one wheel alone is known.
    pub(super) fn is_half_read(&self) -> bool {
        let toe = &self.arrangement.on_this_car.rear_toe;
        toe.left_rad.is_some() != toe.right_rad.is_some()
    }

    /// Whether a thing is a lamp.
    pub(super) fn is_lamp(&self, id: &Id) -> bool {
        self.arrangement.bay.things.iter().any(|own| own.id == *id && own.kind == ThingKind::Lamp)
    }

    /// Whether a thing is of glass.
    pub(super) fn is_of_glass(&self, id: &Id) -> bool {
        self.arrangement.bay.things.iter().any(|own| own.id == *id && own.material == Material::Glass)
    }

    /// Whether a target lies on the floor.
    pub(super) fn is_mat(&self, id: &Id) -> bool {
        let own = self.arrangement.aiming.placements.iter().find(|own| own.id == *id);
        own.is_some_and(|own| own.height == TargetHeight::OnFloor)
    }

    /// Whether a thing is a person.
    pub(super) fn is_someone(&self, id: &Id) -> bool {
        self.arrangement.bay.things.iter().any(|own| own.id == *id && own.is_person())
    }

    /// Whether a place in the floor is an open pit.
    pub(super) fn is_pit(&self, id: &Id) -> bool {
        let own = self.arrangement.bay.floor_features.iter().find(|own| own.id == *id);
        own.is_some_and(|own| own.kind == FloorFeatureKind::Pit)
    }

    /// Whether what is to be kept free is the way to a door.
    pub(super) fn is_door(&self, id: &Id) -> bool {
        self.arrangement.bay.openings.iter().any(|opening| opening.id == *id)
    }

    /// Whether a finding is about an opening first of which nobody knows whether light comes through it.
    pub(super) fn may_only_be_clear(&self, finding: &Finding) -> bool {
        let Some(Subject::Opening(id)) = finding.subjects.first() else { return false };
        let own = self.arrangement.bay.openings.iter().find(|own| own.id == *id);
        own.is_some_and(|own| own.lets_light_in().is_none())
    }

    pub(super) fn known(&self, finding: &Finding) -> String {
        let Some(thing) = self.thing(finding) else {
            let within = self.length(self.arrangement.shop.within(self.arrangement.bay.walls_known));
            return format!("The walls' places are known to ± {within}.");
        };
        let within = self.length(self.arrangement.shop.within(thing.place.known));
        match thing.place.known {
            Known::Taped => format!("Its place was taped, so it is known to ± {within}."),
            Known::ByEye => format!("Placed by eye, so its place is known to ± {within}."),
            Known::ByEyeOlder => {
                format!("Placed by eye under an older rule, so its place counts as known to ± {within}.")
            }
            Known::Within(_) => format!("Its place is known to ± {within}."),
        }
    }

    pub(super) fn fault(&self, fault: MarkFault) -> String {
        let mark = |index: usize| {
            self.arrangement
                .aiming
                .mark_plan
                .get(index)
                .map_or_else(|| "another mark".to_owned(), |step| format!("mark {}", step.id))
        };
        match fault {
            MarkFault::NoSuch { .. } => "It is built from something that is not there.".to_owned(),
            MarkFault::Missing { mark: index } => {
                format!("It is built from {}, which cannot be found.", mark(index))
            }
            MarkFault::NoDirection { first, second } => {
                format!(
                    "{} and {} lie on each other and give no line.",
                    sentence_start(&mark(first)),
                    mark(second)
                )
            }
            MarkFault::Parallel { angle } => {
                format!("The two lines cross at only {}: too flat for a mark.", self.degrees(angle))
            }
            MarkFault::TooFarApart { gap } => {
                format!("The two distances are {} too short to meet.", self.length(gap))
            }
            MarkFault::Nested { excess } => {
                format!("One distance is {} too long to meet the other.", self.length(excess))
            }
            MarkFault::OutOfReach => "It would lie further away than any bay is long.".to_owned(),
        }
    }
}
