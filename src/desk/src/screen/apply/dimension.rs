//! Dimensions that are kept with the bay.

use baywright_planner::Subject;
use baywright_planner::edit::Edit;
use baywright_planner::hand::kept;
use baywright_planner::model::Id;

use crate::screen::Desk;
use crate::screen::view::{Measuring, Tool};

impl Desk {
    /// Keeps what was just measured in the top view, under a free name.
    pub(super) fn keep_measured(&mut self) {
        let texts = self.view.locale.language.hand();
        let Tool::Measure(Measuring { in_side_view, from: Some(from), to: Some(to), .. }) = self.view.tool
        else {
            self.say_wrong(texts.nothing_measured);
            return;
        };
        if in_side_view {
            self.say_wrong(texts.not_kept_from_side);
            return;
        }
        let all = &self.document.layout().bay.dimensions;
        let name = (1..).map(|i| Id::from(texts.numbered_dimension(i)));
        let name = name.take(all.len() + 1).find(|name| !all.iter().any(|own| own.id == *name));
        let Some(name) = name else { return };
        let (arrangement, scene) = (&self.answer.arrangement, &self.answer.assessment.scene);
        let dimension = kept(arrangement, scene, name.clone(), from, to);
        let done = self.document.edit(&Edit::KeepDimension(dimension));
        if done.is_ok() {
            self.view.tool = Tool::Measure(Measuring::default());
            self.say(texts.kept_as(name.as_str()));
        } else {
            self.say_refused(done);
        }
    }

    /// The name of the dimension in hand, if one is.
    pub(super) fn dimension_in_hand(&self) -> Option<Id> {
        match &self.view.selected {
            Some(Subject::Dimension(id)) => Some(id.clone()),
            _ => None,
        }
    }
}
