//! What is said about an arrangement: findings, cures, the answer, names, marks. Each language says it in its own room.

use baywright_geometry::DVec2;

use super::Words;
use crate::assessment::{Assessment, Finding, Quantity, Severity, Step, Subject, Verdict};
use crate::model::assumed::Assumed;
use crate::model::{Effort, EndOn, Exclusion, Known, Material, Metal, ParkedKnown, Provenance, ThingKind};
use crate::scene::{Reading, Scene};

impl Words<'_> {
    sentences! { about:
        // The answer.
        /// What is asked: the bay, the arrangement in it, its car and its aiming.
        asked(bay: &str) -> String;
        /// The verdict and how it comes about.
        answer(assessment: &Assessment) -> String;
        /// The verdict: of the space, never of the car or the sensor.
        verdict(verdict: Verdict) -> &'static str;
        /// How many findings of which kind, and what would make the space ready.
        summary(assessment: &Assessment) -> String;
        /// How many findings of which kind, alone.
        counted(assessment: &Assessment) -> String;
        /// The usual cautions.
        caution() -> &'static str;
        /// The heading over all findings of one severity.
        heading(severity: Severity) -> &'static str;

        // A finding and what to do about it.
        /// How bad, in words.
        severity(severity: Severity) -> &'static str;
        /// What is wrong, in one short sentence without its full stop: "Tool cabinet is inside the keep-clear zone".
        title(finding: &Finding) -> String;
        /// The number against its limit: "0.9° turned, limit 0.2°". `None` where there is no number.
        measure(finding: &Finding) -> Option<String>;
        /// What else to know about it, in one sentence; empty if there is nothing.
        detail(finding: &Finding) -> String;
        /// Where the limit comes from.
        why(finding: &Finding) -> String;
        /// Where figures come from.
        provenance(provenance: &Provenance) -> String;
        /// The same as a sentence.
        provenance_sentence(provenance: &Provenance) -> String;
        /// The whole finding as one line of text.
        line(finding: &Finding) -> String;
        /// A subject without its article, for the start of a title and after "the".
        bare_subject(subject: &Subject) -> String;
        /// What to do about a finding, with what that would cause; `None` if nothing is known.
        cure(finding: &Finding) -> Option<String>;
        /// One thing to do, without capital and full stop: "move the trolley 300 mm towards the car's right".
        step(step: &Step) -> String;
        /// Several things to do, in one line: "move the trolley and the tool cabinet".
        steps(steps: &[Step]) -> String;

        // What things are called.
        /// What a finding is about, as it stands within a sentence: "the tool cabinet".
        subject(subject: &Subject) -> String;
        /// The sensor's kind, as a workshop says it.
        sensor() -> &'static str;
        /// What a zone is kept clear of.
        keeps_clear_of(excludes: Exclusion) -> String;
        /// A material, as a workshop says it.
        material(material: Material) -> &'static str;
        /// How much metal something holds.
        metal(metal: Metal) -> &'static str;
        /// A kind of thing, as a workshop says it.
        kind_of_thing(kind: ThingKind) -> &'static str;
        /// What it takes to move a thing.
        effort(effort: Effort) -> &'static str;
        /// How well the place of a thing is known.
        how_known(known: Known) -> String;
        /// How well it is known where the car stands.
        how_parked(known: ParkedKnown) -> String;

        // Values.
        /// Any value with its unit.
        quantity(quantity: Quantity) -> String;
        /// A move of the bay as seen from the car: "250 mm towards the car's left".
        towards(by: DVec2) -> String;

        // Marks.
        /// What the tape must read between two marks.
        reading(reading: &Reading) -> String;
        /// That a distance rests on these figures, which were assumed.
        rests_on(figures: &[Assumed]) -> String;
        /// A figure that was assumed, with what it belongs to.
        assumed_figure(figure: &Assumed) -> String;
        /// The instruction for one step of the mark plan; `reach` is what [`crate::Scene::tape`] gives for it: how far a
        /// line is to be prolonged where the plan says only how far it must reach.
        instruction(step: usize, scene: &Scene) -> String;
        /// What an end of a dimension lies on.
        dimension_end(on: Option<&EndOn>) -> String;
        /// That an end of a dimension stays where it was: what it lay on is not there.
        dimension_end_gone(on: &EndOn) -> String;
    }
}
