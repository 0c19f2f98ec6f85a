//! What a finding is about, as a sentence on it needs it: what it is made of, how well its place is known, why a mark cannot be
//! found.

use baywright_geometry::marks::MarkFault;

use super::{About, sentence_start};
use crate::assessment::{Finding, Subject};
use crate::model::{Known, Material, Metal};

impl About<'_> {
    pub(super) fn made_of(&self, finding: &Finding) -> String {
        if let Some(stand @ Subject::Stand(_)) = finding.subjects.first() {
            return self.alone(stand);
        }
        let Some(thing) = self.thing(finding) else {
            // A runway is of steel.
            return self.material(self.part_material(finding).unwrap_or(Material::Steel)).to_owned();
        };
        let face = self.material(thing.material);
        match (thing.metal_content(), thing.material.metal()) {
            (Metal::Frame, _) => format!("{face} mit Metall darin"),
            (Metal::All, Metal::None | Metal::Frame | Metal::Unknown) => format!("{face} auf Metall"),
            (Metal::Unknown, Metal::None | Metal::Frame | Metal::All) => {
                format!("{face}, vielleicht mit Metall darin")
            }
            _ => face.to_owned(),
        }
    }

    pub(super) fn known(&self, finding: &Finding) -> String {
        let Some(thing) = self.thing(finding) else {
            let within = self.length(self.arrangement.shop.within(self.arrangement.bay.walls_known));
            return format!("Die Lage der Wände ist auf ± {within} bekannt.");
        };
        let within = self.length(self.arrangement.shop.within(thing.place.known));
        match thing.place.known {
            Known::Taped => format!("Die Lage ist eingemessen und damit auf ± {within} bekannt."),
            Known::ByEye => format!("Nach Augenmaß aufgestellt: Die Lage ist auf ± {within} bekannt."),
            Known::ByEyeOlder => {
                format!(
                    "Nach Augenmaß und älterer Regel aufgestellt: Die Lage gilt als auf ± {within} bekannt."
                )
            }
            Known::Within(_) => format!("Die Lage ist auf ± {within} bekannt."),
        }
    }

    pub(super) fn fault(&self, fault: MarkFault) -> String {
        let mark = |index: usize| {
            self.arrangement
                .aiming
                .mark_plan
                .get(index)
                .map_or_else(|| "Marke ?".to_owned(), |step| format!("Marke {}", step.id))
        };
        match fault {
            MarkFault::NoSuch { .. } => "Sie wird aus etwas gebildet, das es nicht gibt.".to_owned(),
            MarkFault::Missing { mark: index } => {
                format!("Sie wird aus {} gebildet, die nicht zu finden ist.", mark(index))
            }
            MarkFault::NoDirection { first, second } => {
                format!(
                    "{} liegt auf {}: Zusammen geben sie keine Linie.",
                    sentence_start(&mark(first)),
                    mark(second)
                )
            }
            MarkFault::Parallel { angle } => {
                format!(
                    "Die beiden Linien kreuzen sich nur unter {}: zu flach für eine Marke.",
                    self.degrees(angle)
                )
            }
            MarkFault::TooFarApart { gap } => {
                format!("Die beiden Strecken sind {} zu kurz, um sich zu treffen.", self.length(gap))
            }
            MarkFault::Nested { excess } => {
                format!("Eine Strecke ist {} zu lang, um die andere zu treffen.", self.length(excess))
            }
            MarkFault::OutOfReach => "Sie läge weiter weg, als ein Messplatz lang ist.".to_owned(),
        }
    }
}
