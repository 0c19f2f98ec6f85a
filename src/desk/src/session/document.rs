//! The work in hand: a layout with its history, its file, the cars that there are, and a car that is being entered. Each of
//! them is looked after in a file of its own; here they are joined.

mod cars;
mod file;
mod layout;
mod refused;
mod standing;

use std::borrow::Cow;
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use baywright_files::{DiskMark, FileFault, Library, Profile, Saved, whole_path};
use baywright_planner::edit::{Deed, Edit};
use baywright_planner::entry::CarDeed;
use baywright_planner::model::fault::FileTrouble;
use baywright_planner::model::{
    Arrangement, Bay, Id, JudgedBy, Layout, SavedArrangement, Thing, Vehicle, validate,
};
use jiff::civil::Date;

use crate::session::draft::Draft;
pub use cars::Astray;
use cars::Cars;
pub(crate) use cars::made;
use file::LayoutFile;
use layout::EditedLayout;
pub use refused::{CarNotKept, NotMade, NotSaved, Refused, Shut};
use standing::standing;

/// A layout that is being worked on.
#[derive(Debug)]
pub struct Document {
    layout: EditedLayout,
    file: LayoutFile,
    cars: Cars,
    /// The layout as it was when it was opened, made or taken up.
    opened: Arc<Layout>,
    /// A car that is being entered.
    draft: Option<Draft>,
    /// The day and the shop's settings by which everything is judged.
    by: JudgedBy,
}

/// What was done: to the bay, or to the car that is being entered.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Done<'a> {
    /// To the bay.
    Bay(&'a Deed),
    /// To the car.
    Car(&'a CarDeed),
}

impl Document {
    /// Opens a layout: a path, or the name of a built-in one. `by` is what it is judged by. Arrangements that do not go with
    /// their cars are kept, and not shown.
    ///
    /// # Errors
    /// Everything found wrong in the layout itself, or with all of its arrangements.
    pub fn open(name: &Path, by: impl Into<JudgedBy>) -> Result<Self, Vec<FileFault>> {
        let by = by.into();
        // Taken before it is read: a change that comes in between is noticed later.
        let mark = DiskMark::of(name);
        let (loaded, _) = baywright_files::open_in_part(name, &by)?;
        let library = loaded.path.as_deref().map_or_else(Library::built_in_first, Library::beside);
        let mark = loaded.path.is_some().then_some(mark);
        Self::of(loaded.layout, loaded.path, mark, &library, by)
    }

    /// A layout in hand; `path` is where it lies, if it does.
    ///
    /// # Errors
    /// It has no arrangement to show, or one that cannot be made.
    pub fn of(
        layout: Layout,
        path: Option<PathBuf>,
        mark: Option<DiskMark>,
        library: &Library,
        by: impl Into<JudgedBy>,
    ) -> Result<Self, Vec<FileFault>> {
        let name = path.as_deref().map_or_else(|| layout.bay.id.to_string(), |p| p.display().to_string());
        let (layout, judged_by) = file::without_shop(layout);
        let Some(layout) = EditedLayout::of(layout) else {
            return Err(vec![FileFault::whole(name, FileTrouble::NoArrangement)]);
        };
        let file = LayoutFile::of(Arc::clone(layout.now()), path, mark).judged_by(judged_by);
        let opened = Arc::clone(layout.now());
        let cars = Cars::of(library.clone());
        let mut document = Self { layout, file, cars, opened, draft: None, by: by.into() };
        document.show_what_opens();
        Ok(document)
    }

    /// Shows the first arrangement that goes with its car, if the one that is shown does not.
    fn show_what_opens(&mut self) {
        if self.why_not(self.shown()).is_some() {
            let all = self.layout().arrangements.iter().map(|own| &own.id);
            if let Some(sound) = all.clone().find(|id| self.why_not(id).is_none()).cloned() {
                self.layout.show(&sound);
            }
        }
    }

    /// Why an arrangement cannot be opened with the cars that there are; `None` if it can.
    fn why_not(&self, arrangement: &Id) -> Option<Shut> {
        let layout = self.layout();
        let saved = layout.arrangements.iter().find(|own| own.id == *arrangement)?;
        let fault = self.cars.why_not((layout, saved), None, &self.by)?;
        Some(Shut { arrangement: arrangement.clone(), fault: Box::new(fault) })
    }

    /// The arrangements that are kept and cannot be shown.
    pub fn shut(&self) -> Vec<Shut> {
        self.layout().arrangements.iter().filter_map(|own| self.why_not(&own.id)).collect()
    }

    fn never_saved(self) -> Self {
        Self { file: self.file.never_saved(), ..self }
    }

    /// A bay that was just made, with the cars that another document has.
    ///
    /// # Errors
    /// It is not sound.
    pub fn new_bay(layout: Layout, beside: &Self) -> Result<Self, NotMade> {
        if let Some(fault) = validate::layout(&layout).into_iter().next() {
            return Err(NotMade::Unsound(fault));
        }
        let document = Self::of(layout, None, None, beside.cars.library(), &beside.by);
        document.map(Self::never_saved).map_err(NotMade::Faults)
    }

    /// Work that an earlier session left: as it was, not saved yet; `path` is where it lay, `mark` what lies there if nobody
    /// else changed it since.
    ///
    /// # Errors
    /// It is not sound any more.
    pub fn taken_up(
        layout: Layout,
        path: Option<PathBuf>,
        mark: Option<DiskMark>,
        beside: &Self,
    ) -> Result<Self, Vec<FileFault>> {
        let library = path.as_deref().map_or_else(|| beside.cars.library().clone(), Library::beside);
        Ok(Self::of(layout, path, mark, &library, &beside.by)?.never_saved())
    }

    /// Whether someone else changed its file since it was read or written.
    pub fn is_changed_on_disk(&self) -> bool {
        self.file.is_changed_on_disk()
    }

    /// Whether nothing lies any more where it was read or written.
    pub fn is_gone_from_disk(&self) -> bool {
        self.file.is_gone()
    }

    /// The first car of the layout whose own file is not as it was read: what is gone before what says something else.
    pub fn car_astray(&self) -> Option<Astray> {
        let names: BTreeSet<&Id> = self.layout().arrangements.iter().map(|own| &own.vehicle).collect();
        self.cars.astray(names.into_iter())
    }

    /// The layout as it is now.
    pub const fn layout(&self) -> &Arc<Layout> {
        self.layout.now()
    }

    /// The layout as it was when it was opened, made or taken up.
    pub const fn opened(&self) -> &Arc<Layout> {
        &self.opened
    }

    /// The arrangement of that layout which the shown one comes from: of its name, else the nearest before it that was there
    /// then, which a copy is made from.
    pub fn opened_as(&self) -> Option<&Id> {
        let all = &self.layout().arrangements;
        let place = all.iter().position(|own| own.id == *self.shown()).unwrap_or(0);
        let was_there = |own: &&SavedArrangement| self.opened.arrangements.iter().any(|was| was.id == own.id);
        let before = all.get(..=place).into_iter().flatten().rev().find(was_there);
        before.map(|own| &own.id).or_else(|| self.opened.arrangements.first().map(|own| &own.id))
    }

    /// The bay that the arrangement which is shown is made in: what a change of walls, openings ... starts from. Things stand
    /// at home in it, doors as they are there.
    pub fn bay(&self) -> Cow<'_, Bay> {
        let layout = self.layout();
        self.saved_arrangement().map_or(Cow::Borrowed(&layout.bay), |own| layout.bay_of(own))
    }

    /// The name of the arrangement that is shown.
    pub const fn shown(&self) -> &Id {
        self.layout.shown()
    }

    /// Where it lies on disk.
    pub fn path(&self) -> Option<&Path> {
        self.file.path()
    }

    /// What lay there when it was read or written last.
    pub const fn mark(&self) -> Option<DiskMark> {
        self.file.mark()
    }

    /// Every car that can be chosen.
    pub fn cars(&self) -> &[Profile] {
        self.cars.found()
    }

    /// Why some cars cannot.
    pub fn car_faults(&self) -> &[FileFault] {
        self.cars.faults()
    }

    /// The day by which a floor survey is dated.
    pub const fn today(&self) -> Option<Date> {
        self.by.today
    }

    /// The day and the shop's settings by which everything is judged.
    pub const fn by(&self) -> &JudgedBy {
        &self.by
    }

    /// Whether the layout was judged by other settings of the shop when it was saved.
    pub fn was_judged_by_others(&self) -> bool {
        self.file.was_judged_by_others(self.layout.settled(), &self.by)
    }

    /// The mark of the shop's settings by which it was judged when it was saved, if that was remembered.
    pub fn judged_by(&self) -> Option<&str> {
        self.file.judged_by_mark()
    }

    /// From here on everything is judged by this.
    pub fn judge_by(&mut self, by: JudgedBy) {
        self.by = by;
    }

    /// Whether there is something that is not on disk.
    pub fn is_changed(&self) -> bool {
        !self.file.holds(self.layout.now())
    }

    /// Whether saving would put anything on disk that is not there: the work, or by which settings of the shop it is judged. What
    /// somebody else changed or removed there is to be asked about.
    pub fn has_to_be_saved(&self) -> bool {
        let is_there = self.path().is_some() && !self.is_changed_on_disk();
        !is_there || self.is_changed() || self.was_judged_by_others()
    }

    /// Shows another arrangement; nothing happens if there is none of that name. A change in hand is dropped.
    ///
    /// # Errors
    /// It does not go with its car; what was shown stays.
    pub fn show(&mut self, arrangement: &Id) -> Result<(), Shut> {
        if let Some(shut) = self.why_not(arrangement) {
            return Err(shut);
        }
        self.layout.show(arrangement);
        Ok(())
    }

    /// The arrangement that is shown, as it is saved.
    pub fn saved_arrangement(&self) -> Option<&SavedArrangement> {
        self.layout.arrangement()
    }

    /// The arrangement that is shown, made: with the car that is being entered, if one is.
    pub fn arrangement(&self) -> Option<Arrangement> {
        let Some(draft) = &self.draft else {
            return self.made(self.layout());
        };
        if !draft.faults().is_empty() {
            return None;
        }
        let car = draft.car();
        let saved = self.saved_arrangement()?;
        let same = saved.vehicle == car.id && draft.aiming() == Some(&saved.aiming);
        let saved = SavedArrangement {
            vehicle: car.id.clone(),
            vehicle_fingerprint: None,
            aiming: draft.aiming()?.clone(),
            on_this_car: if same { saved.on_this_car.clone() } else { Default::default() },
            marks_taped: Vec::new(),
            laid_before: Vec::new(),
            stands_read: Vec::new(),
            stands: Vec::new(),
            // The aimings of the car may have other names by now.
            visit: Vec::new(),
            ..saved.clone()
        };
        let made = self.layout().resolve(&saved, car, "", &self.by).ok()?;
        Some(cars::together(self.layout(), &saved.id, made, self.cars(), &self.by))
    }

    /// The things of the arrangement that is shown, without what is in hand.
    pub fn things_before_hand(&self) -> Option<Vec<Thing>> {
        Some(self.made(self.layout.settled())?.bay.things)
    }

    /// The car that is being entered.
    pub const fn draft(&self) -> Option<&Draft> {
        self.draft.as_ref()
    }

    /// The same, to change it.
    pub const fn draft_mut(&mut self) -> Option<&mut Draft> {
        self.draft.as_mut()
    }

    /// Begins to enter a car, or to change one; it stands in the bay meanwhile.
    pub fn begin_car(&mut self, mut draft: Draft) {
        self.layout.abandon();
        draft.begun_from(draft.replaces().and_then(|id| self.cars.file_of(id)));
        self.draft = Some(draft);
    }

    /// The profile that a car which an earlier session left behind changes in its place: the one of its name, if its file is
    /// where it was and nobody wrote to it since.
    pub fn still_replaces(&self, id: &Id, file: &Path, mark: DiskMark) -> Option<Id> {
        let (own, own_mark) = self.cars.file_of(id)?;
        // However either is written: work that was left behind says it from the root.
        let is_same = own_mark == mark && whole_path(&own).is_some_and(|own| Some(own) == whole_path(file));
        is_same.then(|| id.clone())
    }

    /// Drops the car that is being entered.
    pub fn drop_car(&mut self) {
        self.draft = None;
    }

    /// Saves the car that is being entered and chooses it: where its own file lies, or as a new one in `folder`, under its own
    /// name. Only the file that it changes is replaced; `again` writes it once more where it is gone. Gives that file; `None` if no
    /// car is being entered.
    ///
    /// # Errors
    /// It is not sound, there is another profile of its name, someone else changed its file, another arrangement needs
    /// what was removed, or it cannot be written. It is still being entered then.
    pub fn keep_car(&mut self, folder: &Path, again: bool) -> Result<Option<PathBuf>, CarNotKept> {
        let Some(draft) = &self.draft else { return Ok(None) };
        if let Some(fault) = draft.faults().into_iter().next() {
            return Err(CarNotKept::Unsound(fault));
        }
        let car = Vehicle::clone(draft.car());
        let place = self.cars.place(&car, draft.replaces(), folder, again)?;
        let aiming = draft.aiming().cloned();
        let edit =
            |fingerprint: &str| Some(standing(self.saved_arrangement(), &car, aiming.as_ref()?, fingerprint));
        // Before anything is written: what was opened can be opened with it too.
        let after = edit("").map(|edit| self.layout.after(&edit));
        let after = after.and_then(Result::ok).unwrap_or_else(|| Layout::clone(self.layout()));
        self.cars.open(self.layout(), &after, Some(&car), &self.by).map_err(CarNotKept::Shut)?;
        // In a shipped bay that was not touched nothing is lost that is not on the disk: the car is.
        let untouched = self.path().is_none() && !self.is_changed();
        self.cars.keep(&car, &place, folder)?;
        let edit = self.cars.get(&car.id).and_then(|own| {
            Some(standing(self.saved_arrangement(), &own.vehicle, aiming.as_ref()?, &own.fingerprint))
        });
        self.draft = None;
        if let Some(edit) = edit {
            // It was asked about before.
            let _ = self.edit(&edit);
        }
        if untouched {
            self.file.counts_as_saved(self.layout.now());
        }
        Ok(Some(place.path))
    }

    /// Cars of this folder are offered instead of those in the user's own.
    pub fn keep_cars_in(&mut self, folder: PathBuf) {
        self.cars.live_in(folder);
    }

    /// Makes a change.
    ///
    /// # Errors
    /// It cannot be made; the layout is as it was.
    pub fn edit(&mut self, edit: &Edit) -> Result<(), Refused> {
        self.layout.abandon();
        let after = self.layout.after(edit).map_err(Refused::Edit)?;
        self.sound(self.layout(), &after)?;
        self.layout.change(edit, after);
        self.show_what_opens();
        Ok(())
    }

    /// Whether a change can be made, though it is not made yet.
    ///
    /// # Errors
    /// It cannot.
    pub fn could(&self, edit: &Edit) -> Result<(), Refused> {
        let after = self.layout.after(edit).map_err(Refused::Edit)?;
        self.sound(self.layout(), &after)
    }

    /// Shows changes that are not a step yet: the pointer is still down. All start from what was there before.
    ///
    /// # Errors
    /// They cannot be made; what was shown last stays.
    pub fn preview(&mut self, edits: &[Edit]) -> Result<(), Refused> {
        self.layout.preview(edits).map_err(Refused::Edit)
    }

    /// The pointer is up: what was shown becomes one step under the name of `edit`.
    ///
    /// # Errors
    /// What was shown is not sound; the layout is as it was before.
    pub fn settle(&mut self, edit: &Edit) -> Result<(), Refused> {
        if let Err(refused) = self.sound(self.layout.settled(), self.layout()) {
            self.layout.abandon();
            return Err(refused);
        }
        self.layout.settle(edit);
        Ok(())
    }

    /// Drops what is in hand.
    pub fn abandon(&mut self) {
        self.layout.abandon();
    }

    /// Whether something is in hand.
    pub const fn is_held(&self) -> bool {
        self.layout.is_held()
    }

    /// What would be undone.
    pub fn undoes(&self) -> Option<Done<'_>> {
        let bay = || self.layout.undoes().map(Done::Bay);
        self.draft.as_ref().map_or_else(bay, |draft| draft.undoes().map(Done::Car))
    }

    /// What would be done again.
    pub fn redoes(&self) -> Option<Done<'_>> {
        let bay = || self.layout.redoes().map(Done::Bay);
        self.draft.as_ref().map_or_else(bay, |draft| draft.redoes().map(Done::Car))
    }

    /// One step back.
    ///
    /// # Errors
    /// What was there before does not go with a car that was changed since; all stays.
    pub fn undo(&mut self) -> Result<(), Refused> {
        match &mut self.draft {
            Some(draft) => draft.undo(),
            None => return self.step(EditedLayout::undo, EditedLayout::redo),
        }
        Ok(())
    }

    /// One step forth.
    ///
    /// # Errors
    /// As [`Self::undo`].
    pub fn redo(&mut self) -> Result<(), Refused> {
        match &mut self.draft {
            Some(draft) => draft.redo(),
            None => return self.step(EditedLayout::redo, EditedLayout::undo),
        }
        Ok(())
    }

    fn step(&mut self, step: fn(&mut EditedLayout), back: fn(&mut EditedLayout)) -> Result<(), Refused> {
        let was_held = self.layout.is_held();
        let before = Arc::clone(self.layout.settled());
        step(&mut self.layout);
        // Dropping what is in hand leads to what was there.
        if !was_held && let Err(shut) = self.cars.open(&before, self.layout(), None, &self.by) {
            back(&mut self.layout);
            return Err(Refused::Shut(shut));
        }
        self.show_what_opens();
        Ok(())
    }

    /// Saves where it lies; `over` says that a file which someone else changed may be replaced.
    ///
    /// # Errors
    /// It has no place, the file was changed by someone else, or it cannot be written. What is in hand stays.
    pub fn save(&mut self, over: bool) -> Result<Saved, NotSaved> {
        let saved = self.file.save(self.layout.settled(), &self.by, over)?;
        self.layout.abandon();
        Ok(saved)
    }

    /// Saves under another name, which it then goes by; `over` says that a file which is there may be replaced.
    ///
    /// # Errors
    /// There is a file of that name and it may not be replaced, or it cannot be written.
    pub fn save_as(&mut self, path: &Path, over: bool) -> Result<Saved, NotSaved> {
        let saved = self.file.save_as(self.layout.settled(), path, &self.by, over)?;
        self.layout.abandon();
        Ok(saved)
    }

    /// Whether what a change leads to can be opened again.
    fn sound(&self, before: &Layout, after: &Layout) -> Result<(), Refused> {
        if let Some(fault) = validate::layout(after).into_iter().next() {
            return Err(Refused::Unsound(fault));
        }
        self.cars.open(before, after, None, &self.by).map_err(Refused::Shut)
    }

    /// The arrangement that is shown, in this layout, with the cars that there are.
    fn made(&self, layout: &Layout) -> Option<Arrangement> {
        let mut made = cars::resolved(layout, self.shown(), self.cars(), &self.by)?;
        made.loading.shop_changed = self.was_judged_by_others();
        Some(made)
    }
}

#[cfg(test)]
mod tests {
    use baywright_planner::geometry::{DVec2, PlanPose};

    use super::*;

    fn demo() -> Document {
        Document::open(Path::new("crowded-bay"), None).unwrap()
    }

    fn park(x: f64) -> Edit {
        Edit::Park(PlanPose::new(DVec2::new(x, 3_000.0), 0.0))
    }

    #[test]
    fn a_built_in_bay_is_saved_under_a_name_of_its_own() {
        let mut document = demo();
        assert!(!document.is_changed());
        assert_eq!(document.save(false), Err(NotSaved::NoPlace));
        document.edit(&park(4_150.0)).unwrap();
        assert!(document.is_changed());
        let folder = std::env::temp_dir().join(format!("baywright-document-{}", std::process::id()));
        std::fs::create_dir_all(&folder).unwrap();
        let path = folder.join("mine.ron");
        document.save_as(&path, false).unwrap();
        assert!(!document.is_changed());
        // A file that is there is not replaced without a word, nor one that someone else changed.
        assert_eq!(demo().save_as(&path, false), Err(NotSaved::ChangedOnDisk));
        std::fs::write(&path, "(version: 1)").unwrap();
        document.edit(&park(4_200.0)).unwrap();
        assert_eq!(document.save(false), Err(NotSaved::ChangedOnDisk));
        document.save(true).unwrap();
        assert_eq!(document.save(false), Ok(Default::default()));
        let again = Document::open(&path, None).unwrap();
        assert_eq!(again.layout().arrangements, document.layout().arrangements);
        std::fs::remove_dir_all(folder).unwrap();
    }

    #[test]
    fn undone_is_unchanged_again() {
        let mut document = demo();
        document.edit(&park(4_150.0)).unwrap();
        assert_eq!(document.undoes(), Some(Done::Bay(&Deed::Park)));
        document.undo().unwrap();
        assert!(!document.is_changed());
        document.redo().unwrap();
        assert!(document.is_changed());
    }

    #[test]
    fn what_is_not_sound_is_refused_and_said() {
        let mut document = demo();
        let far = PlanPose::new(DVec2::new(4e7, 0.0), 0.0);
        let before = Arc::clone(document.layout());
        assert!(matches!(document.edit(&Edit::Park(far)), Err(Refused::Unsound(_))));
        document.preview(&[Edit::Park(far)]).unwrap();
        assert!(document.settle(&Edit::Park(far)).is_err());
        assert_eq!(*document.layout(), before);
    }

    #[test]
    fn all_cars_can_be_chosen() {
        let document = demo();
        assert!(document.cars().len() >= 7 && document.car_faults().is_empty());
    }
}
