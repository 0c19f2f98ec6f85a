//! The layout in hand with its history, and which of its arrangements is shown.

use std::sync::Arc;

use baywright_planner::edit::{Deed, Edit, EditFault};
use baywright_planner::model::{FloorSurvey, Id, Layout, Runway, SavedArrangement};

use crate::session::history::History;

/// A layout that is being changed.
#[derive(Debug)]
pub(super) struct EditedLayout {
    history: History<Layout, Deed>,
    shown: Id,
}

impl EditedLayout {
    /// The history begins here; `None` if there is no arrangement to show.
    pub fn of(layout: Layout) -> Option<Self> {
        let shown = layout.arrangements.first()?.id.clone();
        Some(Self { history: History::new(layout, weight), shown })
    }

    /// The layout as it is now.
    pub const fn now(&self) -> &Arc<Layout> {
        self.history.now()
    }

    /// The layout without what is in hand.
    pub fn settled(&self) -> &Arc<Layout> {
        self.history.base()
    }

    /// The name of the arrangement that is shown.
    pub const fn shown(&self) -> &Id {
        &self.shown
    }

    /// The arrangement that is shown, as it is saved.
    pub fn arrangement(&self) -> Option<&SavedArrangement> {
        self.now().arrangements.iter().find(|own| own.id == self.shown)
    }

    /// Shows another arrangement; nothing happens if there is none of that name. A change in hand is dropped.
    pub fn show(&mut self, arrangement: &Id) {
        if self.is_there(arrangement) {
            self.history.abandon();
            self.shown = arrangement.clone();
        }
    }

    fn is_there(&self, arrangement: &Id) -> bool {
        self.now().arrangements.iter().any(|own| own.id == *arrangement)
    }

    /// What an edit would make of it.
    pub fn after(&self, edit: &Edit) -> Result<Layout, EditFault> {
        edit.apply(self.now(), &self.shown)
    }

    /// An edit, in one go: what [`Self::after`] gave.
    pub fn change(&mut self, edit: &Edit, after: Layout) {
        self.history.change(edit.deed(self.now(), &self.shown), after);
        match edit {
            Edit::Duplicate(id) | Edit::Apart { name: id, .. } | Edit::NameArrangement(id) => {
                self.shown = id.clone();
            }
            _ => self.show_what_is_there(),
        }
    }

    /// Shows edits that are no step yet: the pointer is still down. All start from what was there before.
    pub fn preview(&mut self, edits: &[Edit]) -> Result<(), EditFault> {
        let mut after = Layout::clone(self.history.base());
        for edit in edits {
            edit.apply_in(&mut after, &self.shown)?;
        }
        self.history.preview(after);
        Ok(())
    }

    /// The pointer is up: what was shown becomes one step, this edit's.
    pub fn settle(&mut self, edit: &Edit) {
        let deed = edit.deed(self.history.base(), &self.shown);
        self.history.settle(deed);
    }

    /// Drops what is in hand.
    pub fn abandon(&mut self) {
        self.history.abandon();
    }

    /// Whether something is in hand.
    pub const fn is_held(&self) -> bool {
        self.history.is_held()
    }

    /// What would be undone.
    pub fn undoes(&self) -> Option<&Deed> {
        self.history.undoes()
    }

    /// What would be done again.
    pub fn redoes(&self) -> Option<&Deed> {
        self.history.redoes()
    }

    /// One step back.
    pub fn undo(&mut self) {
        let before = Arc::clone(self.now());
        self.history.undo();
        self.show_what_came(&before);
    }

    /// One step forth.
    pub fn redo(&mut self) {
        let before = Arc::clone(self.now());
        self.history.redo();
        self.show_what_came(&before);
    }

    /// After a step: an arrangement that came is shown, whose name the shown one got, or the one that a copy was made from.
    fn show_what_came(&mut self, before: &Layout) {
        let place = before.arrangements.iter().position(|own| own.id == self.shown).unwrap_or(0);
        let (was, now) = (&before.arrangements, &self.now().arrangements);
        let came = || now.iter().find(|own| !was.iter().any(|was| was.id == own.id));
        let shown = if now.len() > was.len() {
            came()
        } else if self.is_there(&self.shown) {
            None
        } else if now.len() < was.len() {
            now.get(place.saturating_sub(1))
        } else {
            now.get(place)
        };
        if let Some(shown) = shown.map(|own| own.id.clone()) {
            self.shown = shown;
        }
    }

    /// An arrangement that is no longer there is not shown any more: the first one is.
    fn show_what_is_there(&mut self) {
        if !self.is_there(&self.shown)
            && let Some(first) = self.now().arrangements.first().map(|own| own.id.clone())
        {
            self.shown = first;
        }
    }
}

/// About how many bytes a layout takes: what grows without bound in it are things, corners, levels and arrangements, and the
/// buildings that these have of their own.
fn weight(layout: &Layout) -> usize {
    let arrangements: usize = layout
        .arrangements
        .iter()
        .map(|own| {
            let building = own.building.as_ref();
            size_of::<SavedArrangement>()
                + 64 * (own.moved.len() + own.away.len())
                + THING_BYTES * own.added.len()
                + building.map_or(0, |own| THING_BYTES * own.names().count() + levels(None, &own.runways))
        })
        .sum();
    let bay = &layout.bay;
    THING_BYTES * bay.names().count() + levels(bay.survey.as_ref(), &bay.runways) + arrangements
}

fn levels(floor: Option<&FloorSurvey>, runways: &[Runway]) -> usize {
    let surveys = floor.into_iter().chain(runways.iter().filter_map(|own| own.survey.as_ref()));
    32 * surveys.map(|survey| survey.points.len()).sum::<usize>()
}

/// A thing with its outline of a few corners, twice.
const THING_BYTES: usize = 800;

#[cfg(test)]
mod tests {
    use std::path::Path;

    use baywright_planner::geometry::{DVec2, PlanPose};

    use super::*;

    fn demo() -> EditedLayout {
        EditedLayout::of(baywright_files::open(Path::new("crowded-bay"), None).unwrap().layout).unwrap()
    }

    fn done(layout: &mut EditedLayout, edit: &Edit) {
        let after = layout.after(edit).unwrap();
        layout.change(edit, after);
    }

    #[test]
    fn what_is_undone_is_not_shown_any_more() {
        let mut layout = demo();
        let first = layout.shown().clone();
        done(&mut layout, &Edit::Duplicate("a second one".into()));
        assert_eq!(layout.shown().as_str(), "a second one");
        assert_eq!(layout.undoes(), Some(&Deed::Duplicate("a second one".into())));
        layout.undo();
        assert_eq!(
            (layout.shown(), layout.redoes()),
            (&first, Some(&Deed::Duplicate("a second one".into())))
        );
        layout.redo();
        assert_eq!(layout.shown().as_str(), "a second one", "as when it was made");
        layout.show(&first);
        layout.show(&"nowhere".into());
        assert_eq!(layout.shown(), &first, "nothing of that name is shown");
    }

    #[test]
    fn undo_shows_what_it_brings_back() {
        let mut layout = demo();
        let all: Vec<Id> = layout.now().arrangements.iter().map(|own| own.id.clone()).collect();
        assert!(all.len() > 2);
        // Renamed, and back.
        layout.show(&all[2]);
        done(&mut layout, &Edit::NameArrangement("another name".into()));
        assert_eq!(layout.shown().as_str(), "another name");
        layout.undo();
        assert_eq!(layout.shown(), &all[2]);
        layout.redo();
        assert_eq!(layout.shown().as_str(), "another name");
        layout.undo();
        // Copied, and the copy gone: the one that it was copied from.
        done(&mut layout, &Edit::Duplicate("a copy".into()));
        layout.undo();
        assert_eq!(layout.shown(), &all[2]);
        layout.redo();
        assert_eq!(layout.shown().as_str(), "a copy");
        layout.undo();
        // Removed, and there again.
        done(&mut layout, &Edit::RemoveArrangement);
        assert_ne!(layout.shown(), &all[2]);
        layout.undo();
        assert_eq!(layout.shown(), &all[2]);
        layout.redo();
        assert!(layout.arrangement().is_some());
    }

    #[test]
    fn what_is_in_hand_is_one_step_or_none() {
        let mut layout = demo();
        let before = Arc::clone(layout.now());
        for x in [4_100.0, 4_200.0] {
            layout.preview(&[Edit::Park(PlanPose::new(DVec2::new(x, 3_000.0), 0.0))]).unwrap();
        }
        assert!(layout.is_held());
        layout.abandon();
        assert!(Arc::ptr_eq(layout.now(), &before));
        layout.preview(&[Edit::Park(PlanPose::new(DVec2::new(4_300.0, 3_000.0), 0.0))]).unwrap();
        layout.settle(&Edit::Park(PlanPose::new(DVec2::new(4_300.0, 3_000.0), 0.0)));
        layout.undo();
        assert!(Arc::ptr_eq(layout.now(), &before) && layout.undoes().is_none());
    }
}
