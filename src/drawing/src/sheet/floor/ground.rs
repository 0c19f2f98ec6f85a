//! What the surveyed levels come to, for who levels the floor: what is asked and what is there, how even it is, what is laid under the
//! wheels meanwhile, and how high targets are set by it.

use baywright_planner::ground::Ground;

use super::Floor;
use crate::sheet::flow::{Flow, Lead};

impl Floor<'_> {
    pub(super) fn ground(&self, flow: &mut Flow<'_>) {
        let now = self.of.now;
        let Some(ground) = Ground::of(now.arrangement, &now.assessment.scene) else { return };
        let (words, texts) = (self.words, self.words.locale().language.ground());
        let listed =
            |flow: &mut Flow<'_>, text: &str| flow.read(text, Some(Lead::Text("\u{2013}".to_owned())));
        flow.heading(texts.of_the_levels, 20.0);
        flow.work(&words.for_contractor(&ground), None);
        flow.read(&words.levels_known(&ground.known, now.arrangement.bay.survey.as_ref()), None);
        flow.read(texts.drain, None);
        if let Some(even) = &ground.even {
            words.evenness(even).iter().for_each(|text| listed(flow, text));
        }
        if let Some(car) = &ground.car {
            listed(flow, &words.pitch(car));
            listed(flow, &words.roll(car));
            if let Some(shims) = words.shims(car) {
                listed(flow, &shims);
            }
        }
        for height in &ground.heights {
            listed(flow, &words.height_to_set(height));
        }
        flow.read(texts.rule, None);
    }
}
