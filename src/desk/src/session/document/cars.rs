//! The cars that can be chosen: where they are looked up, what was found there and what could not be read; keeping one that
//! was entered.

use std::path::{Path, PathBuf};

use baywright_files::{
    DiskMark, FileFault, Library, Profile, Saved, is_taken, load_profile, save_new_profile,
};
use baywright_planner::at_once;
use baywright_planner::model::fault::{Allowed, Fault, Found, Quote};
use baywright_planner::model::{Arrangement, Id, JudgedBy, Layout, SavedArrangement, Vehicle, validate};

use super::refused::{CarNotKept, Shut};

/// What was found in a library.
#[derive(Debug)]
pub(super) struct Cars {
    library: Library,
    found: Vec<Profile>,
    faults: Vec<FileFault>,
}

/// A car whose own file is not as it was read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Astray {
    /// The car's name.
    pub name: String,
    /// Whether the file is gone; else it says something else, or cannot be read.
    pub is_gone: bool,
}

/// Where a car that was entered is to be written.
#[derive(Debug, PartialEq, Eq)]
pub(super) struct Destination {
    pub path: PathBuf,
    /// Whether it changes the file that it was read from.
    pub is_own: bool,
}

impl Cars {
    /// Reads a library.
    pub fn of(library: Library) -> Self {
        let mut cars = Self { library, found: Vec::new(), faults: Vec::new() };
        cars.read();
        cars
    }

    fn read(&mut self) {
        self.found.clear();
        self.faults = self.library.unread();
        for name in self.library.names() {
            match self.library.find(&name) {
                Ok(car) => self.found.extend(car),
                Err(wrong) => {
                    // The folder as a whole is told once.
                    let new: Vec<_> = wrong.into_iter().filter(|own| !self.faults.contains(own)).collect();
                    self.faults.extend(new);
                }
            }
        }
    }

    /// Cars of this folder are offered too.
    pub fn also_in(&mut self, folder: PathBuf) {
        self.library.also(folder);
        self.read();
    }

    /// Cars of this folder are offered instead of those in the user's own.
    pub fn live_in(&mut self, folder: PathBuf) {
        self.library.live_in(folder);
        self.read();
    }

    /// Where they are looked up.
    pub const fn library(&self) -> &Library {
        &self.library
    }

    /// Every car that can be chosen.
    pub fn found(&self) -> &[Profile] {
        &self.found
    }

    /// Why some cannot.
    pub fn faults(&self) -> &[FileFault] {
        &self.faults
    }

    /// The car of this name.
    pub fn get(&self, name: &Id) -> Option<&Profile> {
        self.found.iter().find(|own| own.vehicle.id == *name)
    }

    /// The own file of the car of this name and what it holds; `None` if it has none, or somebody changed it since it was read.
    pub fn file_of(&self, name: &Id) -> Option<(PathBuf, DiskMark)> {
        let read = self.get(name)?;
        let path = read.own_file()?;
        let mark = DiskMark::of(path);
        let is_same = load_profile(path).is_ok_and(|now| now.fingerprint == read.fingerprint);
        is_same.then(|| (path.to_owned(), mark))
    }

    /// Why an arrangement of a layout cannot be opened with the cars that there are, `changed` in place of the one of its name;
    /// `None` if it can.
    pub fn why_not(
        &self,
        (layout, saved): (&Layout, &SavedArrangement),
        changed: Option<&Vehicle>,
        by: &JudgedBy,
    ) -> Option<Fault> {
        let changed = changed.filter(|car| car.id == saved.vehicle);
        let Some(car) = changed.or_else(|| self.get(&saved.vehicle).map(|own| &own.vehicle)) else {
            let name = saved.vehicle.as_str();
            let there = self.found.iter().map(|own| &own.vehicle.id);
            let (found, allowed) = (Found::NoProfile(Quote::of(name)), Allowed::one_of(name, there));
            return Some(Fault { field: "vehicle".to_owned(), found, allowed });
        };
        validate::with_car(layout, saved, car, by).into_iter().next()
    }

    /// Whether every arrangement that can be opened before a change can be after it; `changed` is a car that is changed with it.
    pub fn open(
        &self,
        before: &Layout,
        after: &Layout,
        changed: Option<&Vehicle>,
        by: &JudgedBy,
    ) -> Result<(), Shut> {
        let why_not = |layout: &Layout, own: &SavedArrangement, car: Option<&Vehicle>| {
            let fault = self.why_not((layout, own), car, by)?;
            Some(Shut { arrangement: own.id.clone(), fault: Box::new(fault) })
        };
        let same_bay = before.bay == after.bay;
        for own in &after.arrangements {
            let was = before.arrangements.iter().find(|was| was.id == own.id);
            if same_bay && was == Some(own) && changed.is_none_or(|car| car.id != own.vehicle) {
                continue;
            }
            if let Some(shut) = why_not(after, own, changed)
                // One that was shut already is no reason to refuse what may open it.
                && was.is_none_or(|was| why_not(before, was, None).is_none())
            {
                return Err(shut);
            }
        }
        // One that can be shown stays.
        let shut = |own: &SavedArrangement| why_not(after, own, changed);
        if after.arrangements.len() < before.arrangements.len()
            && let Some(first) = after.arrangements.first().and_then(shut)
            && after.arrangements.iter().all(|own| shut(own).is_some())
        {
            return Err(first);
        }
        Ok(())
    }

    /// Which of these cars have a file of their own that is not as it was read, whether it is gone or says something else.
    pub fn astray<'a>(&self, names: impl Iterator<Item = &'a Id>) -> Option<Astray> {
        let mut first: Option<Astray> = None;
        for read in names.filter_map(|name| self.get(name)) {
            let Some(path) = read.own_file() else { continue };
            let is_gone = !DiskMark::of(path).is_there();
            if first.as_ref().is_some_and(|own| own.is_gone >= is_gone)
                || load_profile(path).is_ok_and(|now| now.fingerprint == read.fingerprint)
            {
                continue;
            }
            first = Some(Astray { name: read.vehicle.name.clone(), is_gone });
        }
        first
    }

    /// Where a car is to be written that was entered to replace another, or as a new one in `folder`. One of the user's own is
    /// changed where it lies; a shipped one becomes one of the user's own. `again` says that one whose file is gone may be
    /// written there once more.
    pub fn place(
        &self,
        car: &Vehicle,
        replaces: Option<&Id>,
        folder: &Path,
        again: bool,
    ) -> Result<Destination, CarNotKept> {
        let read = replaces.and_then(|id| self.get(id)).filter(|read| read.vehicle.id == car.id);
        if let Some((read, path)) = read.and_then(|read| Some((read, read.own_file()?))) {
            let path = path.to_owned();
            let now = load_profile(&path);
            return if now.is_ok_and(|now| now.fingerprint == read.fingerprint) {
                Ok(Destination { path, is_own: true })
            } else if DiskMark::of(&path).is_there() {
                Err(CarNotKept::ChangedOnDisk(path))
            } else if again {
                Ok(Destination { path, is_own: true })
            } else {
                Err(CarNotKept::Gone(path))
            };
        }
        let path = folder.join(format!("{}.ron", car.id));
        if is_taken(&path) || self.get(&car.id).is_some() {
            return Err(CarNotKept::NameTaken(car.id.clone()));
        }
        Ok(Destination { path, is_own: false })
    }

    /// Writes a car and finds it from now on; only the file at its place is replaced.
    pub fn keep(&mut self, car: &Vehicle, place: &Destination, folder: &Path) -> Result<Saved, CarNotKept> {
        let saved = save_new_profile(&place.path, car).map_err(CarNotKept::Faults)?;
        let before = std::mem::take(&mut self.found);
        self.also_in(folder.to_owned());
        // One whose file somebody removed meanwhile is still at hand: set-ups stand on it.
        let gone = before.into_iter().filter(|own| self.get(&own.vehicle.id).is_none()).collect::<Vec<_>>();
        self.found.extend(gone);
        self.found.sort_by(|a, b| a.vehicle.id.cmp(&b.vehicle.id));
        Ok(saved)
    }
}

/// One arrangement of a layout, made with the cars that there are; `None` if it does not go with its car.
pub(crate) fn made(
    layout: &Layout,
    arrangement: &Id,
    cars: &[Profile],
    by: &JudgedBy,
) -> Option<Arrangement> {
    let made = alone(layout, arrangement, cars, by).filter(|made| validate::arrangement(made).is_empty())?;
    Some(together(layout, arrangement, made, cars, by))
}

/// The same, whether its figures go with its car or not: a change in hand may be anything.
pub(super) fn resolved(
    layout: &Layout,
    arrangement: &Id,
    cars: &[Profile],
    by: &JudgedBy,
) -> Option<Arrangement> {
    let made = alone(layout, arrangement, cars, by)?;
    Some(together(layout, arrangement, made, cars, by))
}

/// An arrangement with what is done at the same time beside it, made with the cars that there are.
pub(super) fn together(
    layout: &Layout,
    arrangement: &Id,
    made: Arrangement,
    cars: &[Profile],
    by: &JudgedBy,
) -> Arrangement {
    let saved = layout.arrangements.iter().find(|own| own.id == *arrangement);
    let is_sound = |made: &Arrangement| validate::arrangement(made).is_empty();
    let other = |other: &SavedArrangement| alone(layout, &other.id, cars, by).filter(is_sound);
    match saved {
        Some(saved) => at_once::beside(layout, saved, made, other),
        None => made,
    }
}

/// One arrangement, without what is done beside it.
fn alone(layout: &Layout, arrangement: &Id, cars: &[Profile], by: &JudgedBy) -> Option<Arrangement> {
    let saved = layout.arrangements.iter().find(|own| own.id == *arrangement)?;
    let car = cars.iter().find(|car| car.vehicle.id == saved.vehicle)?;
    layout.resolve(saved, &car.vehicle, &car.fingerprint, by).ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn folder(name: &str) -> PathBuf {
        let folder = std::env::temp_dir().join(format!("baywright-cars-{}-{name}", std::process::id()));
        let _ = std::fs::remove_dir_all(&folder);
        std::fs::create_dir_all(&folder).unwrap();
        folder
    }

    #[test]
    fn what_cannot_be_read_is_told_and_the_rest_is_there() {
        let folder = folder("faults");
        let shipped = Cars::of(Library::built_in());
        assert!(shipped.found().len() >= 7 && shipped.faults().is_empty());
        std::fs::write(folder.join("broken.ron"), "(version: 1").unwrap();
        let mut cars = Cars::of(Library::built_in());
        cars.also_in(folder.clone());
        assert_eq!(cars.found(), shipped.found());
        assert_eq!(cars.faults().len(), 1);
        std::fs::remove_dir_all(folder).unwrap();
    }

    #[test]
    fn a_shipped_car_becomes_ones_own_and_is_then_changed_where_it_lies() {
        let folder = folder("own");
        let mut cars = Cars::of(Library::built_in());
        let shipped = cars.found()[0].vehicle.clone();
        // Under its own name it would hide the shipped one.
        assert_eq!(
            cars.place(&shipped, Some(&shipped.id), &folder, false),
            Err(CarNotKept::NameTaken(shipped.id.clone()))
        );
        let mut car = Vehicle { id: "mine".into(), ..shipped.clone() };
        let place = cars.place(&car, Some(&shipped.id), &folder, false).unwrap();
        assert_eq!(place, Destination { path: folder.join("mine.ron"), is_own: false });
        cars.keep(&car, &place, &folder).unwrap();
        assert_eq!(cars.get(&car.id).unwrap().own_file(), Some(place.path.as_path()));
        // Now it is there: a new one of its name is refused, itself is changed.
        assert_eq!(cars.place(&car, None, &folder, false), Err(CarNotKept::NameTaken(car.id.clone())));
        assert!(cars.place(&car, Some(&car.id.clone()), &folder, false).unwrap().is_own);
        // Someone else changes it.
        car.name = "Theirs".into();
        baywright_files::save_profile(&place.path, &car).unwrap();
        let changed = cars.place(&car, Some(&car.id.clone()), &folder, false);
        assert_eq!(changed, Err(CarNotKept::ChangedOnDisk(place.path.clone())));
        let astray = |cars: &Cars, is_gone| {
            let name = cars.get(&"mine".into()).unwrap().vehicle.name.clone();
            assert_eq!(cars.astray([&"mine".into()].into_iter()), Some(Astray { name, is_gone }));
        };
        astray(&cars, false);
        // Gone is something else: nobody's work would be replaced. It is written there again if that is asked for, and what
        // stands on it has it until then, whatever else is kept.
        std::fs::remove_file(&place.path).unwrap();
        astray(&cars, true);
        let own = Some(&car.id);
        assert_eq!(cars.place(&car, own, &folder, false), Err(CarNotKept::Gone(place.path.clone())));
        let other = Vehicle { id: "other".into(), ..shipped };
        let beside = cars.place(&other, None, &folder, false).unwrap();
        cars.keep(&other, &beside, &folder).unwrap();
        assert_eq!(cars.place(&car, own, &folder, false), Err(CarNotKept::Gone(place.path.clone())));
        let again = cars.place(&car, own, &folder, true).unwrap();
        assert_eq!(again, Destination { path: place.path, is_own: true });
        cars.keep(&car, &again, &folder).unwrap();
        assert_eq!(cars.astray([&car.id].into_iter()), None);
        std::fs::remove_dir_all(folder).unwrap();
    }

    /// What is not there is no fault; what is there and cannot be read is said, once, and hides no car of another place.
    #[test]
    fn a_folder_that_cannot_be_read_is_said() {
        let folder = folder("no folder");
        let mut cars = Cars::of(Library::built_in());
        cars.also_in(folder.join("not there"));
        assert!(cars.faults().is_empty());
        let file = folder.join("vehicle-profiles");
        std::fs::write(&file, "").unwrap();
        cars.also_in(file.clone());
        assert_eq!(cars.faults().len(), 1, "{:?}", cars.faults());
        assert_eq!(cars.found(), Cars::of(Library::built_in()).found());
        // Beside a layout it may hide the very car that is meant: none of another place stands in for it.
        let beside = Cars::of(Library::beside(&folder.join("bay-layouts/bay.ron")));
        std::fs::create_dir(folder.join("bay-layouts")).unwrap();
        assert!(beside.found().len() >= 7, "where there is no such folder");
        let beside = Cars::of(Library::beside(&folder.join("bay-layouts/bay.ron")));
        assert!(beside.found().is_empty() && beside.faults().len() == 1, "{:?}", beside.faults());
        std::fs::remove_dir_all(folder).unwrap();
    }
}
