//! What a finding is about, as a sentence on it needs it: what it is made of, how well its place is known, why a mark cannot be
//! found.

use baywright_geometry::marks::MarkFault;

use super::{About, sentence_start};
use crate::assessment::{Finding, Subject};
use crate::model::{Known, Material, Metal};

impl About<'_> {
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
