//! The layout in hand: what it is now and was before, where it lies on disk, which cars there are.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use baywright_files::{DiskMark, FileFault, Library, Profile, save_layout};
use baywright_planner::model::{Arrangement, Id, Layout, SavedArrangement, Vehicle, validate};
use baywright_planner::words::{Language, Units, Words};
use jiff::civil::Date;

use crate::session::draft::Draft;
use crate::session::edit::{Edit, EditFault};
use crate::session::history::History;

/// A layout that is being worked on.
#[derive(Debug)]
pub struct Document {
    history: History<Layout>,
    /// The arrangement that is shown.
    shown: Id,
    /// Where it lies on disk; `None` for a built-in one, which is saved under a name of its own.
    path: Option<PathBuf>,
    /// What lay there when it was read or written last.
    mark: Option<DiskMark>,
    saved: Arc<Layout>,
    /// Every car that can be chosen, and why some cannot.
    cars: Vec<Profile>,
    car_faults: Vec<FileFault>,
    library: Library,
    today: Option<Date>,
    /// A car that is being entered.
    draft: Option<Draft>,
    /// Made here and never saved: it would be lost.
    is_new: bool,
}

/// Why a change was not made.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Refused {
    /// It names what is not there, or makes no shape.
    Edit(EditFault),
    /// The layout would not be sound: where, what was found, what is allowed.
    Unsound {
        /// What was found.
        found: String,
        /// What is allowed.
        allowed: String,
    },
}

/// Why a layout was not saved.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NotSaved {
    /// It has no place on disk yet.
    NoPlace,
    /// Someone else changed the file, or it is gone, since it was read or written.
    ChangedOnDisk,
    /// It could not be written.
    Faults(Vec<FileFault>),
}

/// Why a car that was entered was not kept.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum CarNotKept {
    /// It is not sound: the first thing that is wrong.
    Unsound(validate::Fault),
    /// There is another car of that name.
    NameTaken(Id),
    /// Someone else changed its file since it was read.
    ChangedOnDisk(PathBuf),
    /// Another arrangement of this layout needs what the car no longer has: it could not be opened any more.
    Needed {
        /// The arrangement.
        by: Id,
        /// The aiming, target or sensor that is gone.
        what: Id,
    },
    /// It could not be written.
    Faults(Vec<FileFault>),
}

impl Document {
    /// Opens a layout: a path, or the name of a built-in one. `today` dates the floor survey.
    ///
    /// # Errors
    /// Everything found wrong.
    pub fn open(name: &Path, today: Option<Date>) -> Result<Self, Vec<FileFault>> {
        // Taken before it is read: a change that comes in between is noticed later.
        let mark = DiskMark::of(name);
        let loaded = baywright_files::open(name, today)?;
        let library = loaded.path.as_deref().map_or_else(Library::built_in_first, Library::beside);
        let mark = loaded.path.is_some().then_some(mark);
        Self::of(loaded.layout, loaded.path, mark, &library, today)
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
        today: Option<Date>,
    ) -> Result<Self, Vec<FileFault>> {
        let Some(first) = layout.arrangements.first() else {
            let file = path.as_deref().map_or_else(|| layout.bay.id.to_string(), |p| p.display().to_string());
            return Err(vec![FileFault::whole(
                &file,
                "this layout has no arrangement to show; it needs one under `arrangements`",
            )]);
        };
        let shown = first.id.clone();
        let (cars, car_faults) = cars(library);
        let history = History::new(layout, weight);
        let saved = Arc::clone(history.now());
        let library = library.clone();
        Ok(Self {
            history,
            shown,
            path,
            mark,
            saved,
            cars,
            car_faults,
            library,
            today,
            draft: None,
            is_new: false,
        })
    }

    /// A bay that was just made, with the cars that another document has.
    ///
    /// # Errors
    /// It is not sound.
    pub fn new_bay(layout: Layout, beside: &Self) -> Result<Self, Vec<FileFault>> {
        let faults = validate::layout(&layout);
        if let Some(fault) = faults.into_iter().next() {
            let text = format!("{} is not possible; allowed is {}", fault.found, fault.allowed);
            return Err(vec![FileFault::whole(&fault.field, text)]);
        }
        let document = Self::of(layout, None, None, &beside.library, beside.today)?;
        Ok(Self { is_new: true, ..document })
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
        let library = path.as_deref().map_or_else(|| beside.library.clone(), Library::beside);
        let document = Self::of(layout, path, mark, &library, beside.today)?;
        Ok(Self { is_new: true, ..document })
    }

    /// Whether someone else changed its file since it was read or written.
    pub fn is_changed_on_disk(&self) -> bool {
        self.path.as_deref().zip(self.mark).is_some_and(|(path, mark)| mark != DiskMark::of(path))
    }

    /// The layout as it is now.
    pub const fn layout(&self) -> &Arc<Layout> {
        self.history.now()
    }

    /// The name of the arrangement that is shown.
    pub const fn shown(&self) -> &Id {
        &self.shown
    }

    /// Where it lies on disk.
    pub fn path(&self) -> Option<&Path> {
        self.path.as_deref()
    }

    /// What lay there when it was read or written last.
    pub const fn mark(&self) -> Option<DiskMark> {
        self.mark
    }

    /// Every car that can be chosen.
    pub fn cars(&self) -> &[Profile] {
        &self.cars
    }

    /// Why some cars cannot.
    pub fn car_faults(&self) -> &[FileFault] {
        &self.car_faults
    }

    /// The day by which a floor survey is dated.
    pub const fn today(&self) -> Option<Date> {
        self.today
    }

    /// Whether there is something that is not on disk.
    pub fn is_changed(&self) -> bool {
        let now = self.history.now();
        self.is_new || !Arc::ptr_eq(now, &self.saved) && **now != *self.saved
    }

    /// Shows another arrangement; nothing happens if there is none of that name. A change in hand is dropped.
    pub fn show(&mut self, arrangement: &Id) {
        if self.layout().arrangements.iter().any(|own| own.id == *arrangement) {
            self.history.abandon();
            self.shown = arrangement.clone();
        }
    }

    /// The arrangement that is shown, as it is saved.
    pub fn saved_arrangement(&self) -> Option<&SavedArrangement> {
        self.layout().arrangements.iter().find(|own| own.id == self.shown)
    }

    /// The arrangement that is shown, made: with the car that is being entered, if one is.
    pub fn arrangement(&self) -> Option<Arrangement> {
        let Some(draft) = &self.draft else {
            return made(self.layout(), &self.shown, &self.cars, self.today);
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
            on_this_car: if same { saved.on_this_car } else { Default::default() },
            stands: Vec::new(),
            // The aimings of the car may have other names by now.
            visit: Vec::new(),
            ..saved.clone()
        };
        self.layout().resolve(&saved, car, "", self.today).ok()
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
    pub fn begin_car(&mut self, draft: Draft) {
        self.history.abandon();
        self.draft = Some(draft);
    }

    /// Drops the car that is being entered.
    pub fn drop_car(&mut self) {
        self.draft = None;
    }

    /// Saves the car that is being entered as a profile in `folder`, under its own name, and chooses it. Only the file that
    /// it changes is replaced.
    ///
    /// # Errors
    /// It is not sound, there is another profile of its name, someone else changed its file, another arrangement needs
    /// what was removed, or it cannot be written. It is still being entered then.
    pub fn keep_car(&mut self, folder: &Path) -> Result<baywright_files::Saved, CarNotKept> {
        let Some(draft) = &self.draft else { return Ok(baywright_files::Saved::default()) };
        if let Some(fault) = draft.faults().into_iter().next() {
            return Err(CarNotKept::Unsound(fault));
        }
        let car = Vehicle::clone(draft.car());
        // One of the user's own is changed where it lies; a shipped one becomes one of the user's own.
        let own = draft.replaces().and_then(|id| self.cars.iter().find(|car| car.vehicle.id == *id));
        let own = own.filter(|profile| profile.vehicle.id == car.id && Path::new(&profile.file).is_file());
        let path = own
            .map_or_else(|| folder.join(format!("{}.ron", car.id)), |profile| PathBuf::from(&profile.file));
        match own {
            Some(read) => {
                let now = baywright_files::load_profile(&path);
                if now.is_ok_and(|now| now.fingerprint == read.fingerprint) {
                    self.still_opens_with(&car)?;
                } else {
                    return Err(CarNotKept::ChangedOnDisk(path));
                }
            }
            None if path.exists() || self.cars.iter().any(|other| other.vehicle.id == car.id) => {
                return Err(CarNotKept::NameTaken(car.id));
            }
            None => {}
        }
        let aiming = draft.aiming().cloned();
        // In a shipped bay that was not touched nothing is lost that is not on the disk: the car is.
        let untouched = self.path.is_none() && !self.is_changed();
        let saved = baywright_files::save_new_profile(&path, &car).map_err(CarNotKept::Faults)?;
        self.draft = None;
        self.library.also(folder.to_owned());
        (self.cars, self.car_faults) = cars(&self.library);
        let fingerprint =
            self.cars.iter().find(|own| own.vehicle.id == car.id).map(|own| own.fingerprint.clone());
        if let Some((fingerprint, aiming)) = fingerprint.zip(aiming) {
            // The same car and aiming with other figures: only what is remembered of it changes.
            let same = self.saved_arrangement().filter(|own| own.vehicle == car.id && own.aiming == aiming);
            // The visit keeps those of its aimings that are still there.
            let there = |id: &Id| car.aimings.iter().any(|own| own.id == *id);
            let same = same.map(|own| SavedArrangement {
                visit: own.visit.iter().filter(|id| there(id)).cloned().collect(),
                ..own.clone()
            });
            // A stand whose target is gone would not be found.
            let same = same.filter(|own| self.layout().resolve(own, &car, "", self.today).is_ok());
            let edit = match same {
                Some(own) => Edit::All(vec![Edit::Visit(own.visit), Edit::Remember(fingerprint)]),
                None => Edit::Car { vehicle: car.id, aiming, fingerprint },
            };
            // What it names is there, and it was shown like this before.
            let _ = self.edit(&edit);
        }
        if untouched {
            self.saved = Arc::clone(self.history.now());
        }
        Ok(saved)
    }

    /// Whether the arrangements that are not shown can be made with the changed car; the shown one goes with it.
    fn still_opens_with(&self, car: &Vehicle) -> Result<(), CarNotKept> {
        let others = self.layout().arrangements.iter();
        for other in others.filter(|own| own.id != self.shown && own.vehicle == car.id) {
            if let Err(fault) = self.layout().resolve(other, car, "", self.today) {
                return Err(CarNotKept::Needed { by: fault.arrangement, what: fault.found });
            }
        }
        Ok(())
    }

    /// Cars of a folder of one's own are offered too.
    pub fn also_cars_in(&mut self, folder: PathBuf) {
        self.library.also(folder);
        (self.cars, self.car_faults) = cars(&self.library);
    }

    /// Makes a change.
    ///
    /// # Errors
    /// It cannot be made; the layout is as it was.
    pub fn edit(&mut self, edit: &Edit) -> Result<(), Refused> {
        self.history.abandon();
        let after = edit.apply(self.layout(), &self.shown).map_err(Refused::Edit)?;
        self.sound(&after)?;
        let name = self.name_of(edit);
        self.history.change(&name, after);
        match edit {
            Edit::Duplicate(id) | Edit::NameArrangement(id) => self.shown = id.clone(),
            _ => self.show_what_is_there(),
        }
        Ok(())
    }

    /// Shows changes that are not a step yet: the pointer is still down. All start from what was there before.
    ///
    /// # Errors
    /// They cannot be made; what was shown last stays.
    pub fn preview(&mut self, edits: &[Edit]) -> Result<(), Refused> {
        let mut after = Layout::clone(self.history.base());
        for edit in edits {
            edit.apply_in(&mut after, &self.shown).map_err(Refused::Edit)?;
        }
        self.history.preview(after);
        Ok(())
    }

    /// The pointer is up: what was shown becomes one step under the name of `edit`.
    ///
    /// # Errors
    /// What was shown is not sound; the layout is as it was before.
    pub fn settle(&mut self, edit: &Edit) -> Result<(), Refused> {
        if let Err(refused) = self.sound(self.layout()) {
            self.history.abandon();
            return Err(refused);
        }
        let name = self.name_of(edit);
        self.history.settle(&name);
        Ok(())
    }

    /// Drops what is in hand.
    pub fn abandon(&mut self) {
        self.history.abandon();
    }

    /// Whether something is in hand.
    pub const fn is_held(&self) -> bool {
        self.history.is_held()
    }

    /// The name of what would be undone.
    pub fn undoes(&self) -> Option<&str> {
        self.draft.as_ref().map_or_else(|| self.history.undoes(), Draft::undoes)
    }

    /// The name of what would be done again.
    pub fn redoes(&self) -> Option<&str> {
        self.draft.as_ref().map_or_else(|| self.history.redoes(), Draft::redoes)
    }

    /// One step back.
    pub fn undo(&mut self) {
        match &mut self.draft {
            Some(draft) => draft.undo(),
            None => self.history.undo(),
        }
        self.show_what_is_there();
    }

    /// One step forth.
    pub fn redo(&mut self) {
        match &mut self.draft {
            Some(draft) => draft.redo(),
            None => self.history.redo(),
        }
        self.show_what_is_there();
    }

    /// An arrangement that is no longer there is not shown any more: the first one is.
    fn show_what_is_there(&mut self) {
        let there = |id: &Id| self.layout().arrangements.iter().any(|own| own.id == *id);
        if !there(&self.shown)
            && let Some(first) = self.layout().arrangements.first().map(|own| own.id.clone())
        {
            self.shown = first;
        }
    }

    /// Saves where it lies; `over` says that a file which someone else changed may be replaced.
    ///
    /// # Errors
    /// It has no place, the file was changed by someone else, or it cannot be written. What is in hand stays.
    pub fn save(&mut self, over: bool) -> Result<baywright_files::Saved, NotSaved> {
        let path = self.path.clone().ok_or(NotSaved::NoPlace)?;
        if !over && self.is_changed_on_disk() {
            return Err(NotSaved::ChangedOnDisk);
        }
        self.write(&path)
    }

    /// Saves under another name, which it then goes by; `over` says that a file which is there may be replaced.
    ///
    /// # Errors
    /// There is a file of that name and it may not be replaced, or it cannot be written.
    pub fn save_as(&mut self, path: &Path, over: bool) -> Result<baywright_files::Saved, NotSaved> {
        if !over && DiskMark::of(path).is_there() {
            return Err(NotSaved::ChangedOnDisk);
        }
        self.write(path)
    }

    fn write(&mut self, path: &Path) -> Result<baywright_files::Saved, NotSaved> {
        self.history.abandon();
        let now = Arc::clone(self.history.now());
        let saved = save_layout(path, &now).map_err(NotSaved::Faults)?;
        self.mark = Some(DiskMark::of(path));
        self.path = Some(path.to_owned());
        self.saved = now;
        self.is_new = false;
        Ok(saved)
    }

    fn sound(&self, layout: &Layout) -> Result<(), Refused> {
        let in_layout = validate::layout(layout).into_iter().next();
        let fault = in_layout.or_else(|| {
            let arrangement = made(layout, &self.shown, &self.cars, self.today)?;
            validate::arrangement(&arrangement).into_iter().next()
        });
        match fault {
            None => Ok(()),
            Some(fault) => Err(Refused::Unsound { found: fault.found, allowed: fault.allowed }),
        }
    }

    fn name_of(&self, edit: &Edit) -> String {
        self.arrangement().map_or_else(String::new, |arrangement| {
            edit.name(&Words::new(&arrangement, Units::Millimetres, Language::English))
        })
    }
}

/// One arrangement of a layout, made with the cars that there are.
pub(crate) fn made(
    layout: &Layout,
    arrangement: &Id,
    cars: &[Profile],
    today: Option<Date>,
) -> Option<Arrangement> {
    let saved = layout.arrangements.iter().find(|own| own.id == *arrangement)?;
    let car = cars.iter().find(|car| car.vehicle.id == saved.vehicle)?;
    layout.resolve(saved, &car.vehicle, &car.fingerprint, today).ok()
}

fn cars(library: &Library) -> (Vec<Profile>, Vec<FileFault>) {
    let (mut cars, mut faults) = (Vec::new(), Vec::new());
    for name in library.names() {
        match library.find(&name) {
            Ok(car) => cars.extend(car),
            Err(mut wrong) => faults.append(&mut wrong),
        }
    }
    (cars, faults)
}

/// About how many bytes a layout takes: what grows without bound in it are things, corners and arrangements.
fn weight(layout: &Layout) -> usize {
    let arrangements: usize = layout
        .arrangements
        .iter()
        .map(|own| {
            size_of::<SavedArrangement>()
                + 64 * (own.moved.len() + own.away.len())
                + THING_BYTES * own.added.len()
        })
        .sum();
    let bay = &layout.bay;
    let fixtures = bay.openings.len() + bay.floor_features.len() + bay.runways.len() + bay.keep_free.len();
    let levels = bay.survey.as_ref().map_or(0, |survey| survey.points.len());
    THING_BYTES * (bay.things.len() + fixtures + bay.walls.len()) + 32 * levels + arrangements
}

/// A thing with its outline of a few corners, twice.
const THING_BYTES: usize = 800;

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
        assert_eq!(document.undoes(), Some("Park the car"));
        document.undo();
        assert!(!document.is_changed());
        document.redo();
        assert!(document.is_changed());
    }

    #[test]
    fn what_is_not_sound_is_refused_and_said() {
        let mut document = demo();
        let far = PlanPose::new(DVec2::new(4e7, 0.0), 0.0);
        let before = Arc::clone(document.layout());
        assert!(matches!(document.edit(&Edit::Park(far)), Err(Refused::Unsound { .. })));
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
