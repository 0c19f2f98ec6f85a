//! The shop's settings in hand: with their history and their file. Every change is saved at once; what could not be saved is
//! told, and counts as changed until it is.

use std::path::{Path, PathBuf};

use baywright_files::{DiskMark, FileFault, ShopInUse, load_shop, save_shop, shop_in_use};
use baywright_planner::model::validate::Fault;
use baywright_planner::model::{
    Id, Instrument, InstrumentList, JudgedBy, Shop, ShopDocument, ShopFace, ShopFigure, WorkStep, validate,
};
use jiff::civil::Date;

use crate::session::history::History;

/// What was done to them.
#[derive(Clone, Debug, PartialEq)]
pub enum ShopDeed {
    /// A figure was set, to this in the file's unit.
    Set(ShopFigure, f64),
    /// All of them are the defaults again.
    SetBack,
    /// Something that the shop says of itself was changed.
    Say(FacePart),
    /// An instrument was added to its list, or changed.
    Instrument(Id),
    /// An instrument was taken off its list.
    NoInstrument(Id),
}

/// What a shop says of itself, in parts.
#[derive(Clone, Debug, PartialEq)]
pub enum FacePart {
    /// Its name, or none.
    Name(Option<String>),
    /// The file of its picture, or none.
    Picture(Option<String>),
    /// How long a step takes, minutes, or nothing said of it.
    Minutes(WorkStep, Option<f64>),
}

impl FacePart {
    fn put(self, face: &ShopFace) -> ShopFace {
        match self {
            Self::Name(name) => ShopFace { name, ..face.clone() },
            Self::Picture(picture) => ShopFace { picture, ..face.clone() },
            Self::Minutes(step, minutes) => face.clone().with_minutes(step, minutes),
        }
    }
}

/// Why they are not on disk as they are here.
#[derive(Clone, Debug, PartialEq)]
pub enum ShopTrouble {
    /// The file cannot be read: it stays, and the defaults stand in for it.
    Unread(Vec<FileFault>),
    /// Someone else changed the file since it was read or written.
    ChangedOnDisk,
    /// The file was removed, moved or renamed since it was read or written.
    Gone,
    /// They could not be written.
    NotSaved(Vec<FileFault>),
    /// There is no folder where they could lie.
    NoPlace,
}

/// The settings of a shop that are being worked with.
#[derive(Debug)]
pub struct ShopSettings {
    history: History<ShopDocument, ShopDeed>,
    /// Where they lie, or would.
    path: Option<PathBuf>,
    /// What lay there when they were read or written last.
    mark: Option<DiskMark>,
    saved: ShopDocument,
    trouble: Option<ShopTrouble>,
}

impl Default for ShopSettings {
    fn default() -> Self {
        Self::open(None)
    }
}

impl ShopSettings {
    /// Those of the document at `path`; the defaults if there is none. One that is there and cannot be read is told
    /// ([`Self::trouble`]).
    pub fn open(path: Option<&Path>) -> Self {
        // Taken before it is read: a change that comes in between is noticed later.
        let mark = path.map(DiskMark::of);
        let (document, trouble) = match shop_in_use(None, path) {
            Ok(used) => {
                let ShopInUse { shop, face, instruments, .. } = used;
                (ShopDocument { shop, face, instruments }, None)
            }
            Err(faults) => (ShopDocument::default(), Some(ShopTrouble::Unread(faults))),
        };
        let history = History::new(document.clone(), weight);
        Self { history, path: path.map(Path::to_owned), mark, saved: document, trouble }
    }

    /// The settings as they are now.
    pub fn shop(&self) -> Shop {
        self.document().shop
    }

    /// What the shop says of itself.
    pub fn face(&self) -> &ShopFace {
        &self.document().face
    }

    /// What it measures with.
    pub fn instruments(&self) -> &InstrumentList {
        &self.document().instruments
    }

    /// All of it, as it is now.
    pub fn document(&self) -> &ShopDocument {
        self.history.now()
    }

    /// What everything is judged by.
    pub fn judged_by(&self, today: Option<Date>) -> JudgedBy {
        JudgedBy {
            today,
            shop: self.shop(),
            shop_unread: self.is_unread(),
            instruments: InstrumentList::clone(self.instruments()),
        }
    }

    /// Where they lie, or would.
    pub fn path(&self) -> Option<&Path> {
        self.path.as_deref()
    }

    /// What lay there when they were read or written last.
    pub const fn mark(&self) -> Option<DiskMark> {
        self.mark
    }

    /// Why they are not on disk as they are here; `None` if they are.
    pub const fn trouble(&self) -> Option<&ShopTrouble> {
        self.trouble.as_ref()
    }

    /// Whether the file that is there cannot be read: then nothing is changed either.
    pub const fn is_unread(&self) -> bool {
        matches!(self.trouble, Some(ShopTrouble::Unread(_)))
    }

    /// Whether there is something that is not on disk.
    pub fn is_changed(&self) -> bool {
        *self.document() != self.saved
    }

    /// What would be undone, and done again.
    pub fn steps(&self) -> [Option<&ShopDeed>; 2] {
        [self.history.undoes(), self.history.redoes()]
    }

    /// Whether a figure may be so, in the file's unit.
    ///
    /// # Errors
    /// The first thing that would be wrong.
    pub fn may_be(&self, figure: ShopFigure, value: f64) -> Result<(), Fault> {
        validate::shop(&self.shop().with(figure, value)).into_iter().next().map_or(Ok(()), Err)
    }

    /// Sets a figure, in the file's unit, and saves. Nothing happens if it may not be so, or if the file cannot be read.
    pub fn set(&mut self, figure: ShopFigure, value: f64) {
        if self.may_be(figure, value).is_ok() {
            self.change_settings(ShopDeed::Set(figure, value), self.shop().with(figure, value));
        }
    }

    /// Whether the shop may say so of itself.
    ///
    /// # Errors
    /// The first thing that would be wrong.
    pub fn may_say(&self, part: FacePart) -> Result<(), Fault> {
        validate::shop_face(&part.put(self.face())).into_iter().next().map_or(Ok(()), Err)
    }

    /// Says something of the shop, and saves. Nothing happens if it may not be so, or if the file cannot be read.
    pub fn say(&mut self, part: FacePart) {
        if self.may_say(part.clone()).is_ok() {
            let face = part.clone().put(self.face());
            self.change(ShopDeed::Say(part), ShopDocument { face, ..self.document().clone() });
        }
    }

    /// Whether the shop may have this instrument in place of the one of that name, or besides the others.
    ///
    /// # Errors
    /// The first thing that would be wrong.
    pub fn may_have(&self, instead_of: Option<&Id>, own: Instrument) -> Result<(), Fault> {
        validate::instruments(&self.with_instrument(instead_of, own)).into_iter().next().map_or(Ok(()), Err)
    }

    /// Puts an instrument into the list, in place of the one of that name or at its end, and saves. Nothing happens if it may not
    /// be so, or if the file cannot be read.
    pub fn have(&mut self, instead_of: Option<&Id>, own: Instrument) {
        if self.may_have(instead_of, own.clone()).is_ok() {
            let deed = ShopDeed::Instrument(own.name.clone());
            let instruments = self.with_instrument(instead_of, own);
            self.change(deed, ShopDocument { instruments, ..self.document().clone() });
        }
    }

    /// Takes an instrument off the list, and saves; what was read with it keeps its name.
    pub fn have_not(&mut self, name: &Id) {
        let left = self.instruments().iter().filter(|own| own.name != *name).cloned().collect();
        self.change(
            ShopDeed::NoInstrument(name.clone()),
            ShopDocument { instruments: left, ..self.document().clone() },
        );
    }

    fn with_instrument(&self, instead_of: Option<&Id>, own: Instrument) -> InstrumentList {
        let mut list = self.instruments().to_vec();
        match list.iter_mut().find(|there| Some(&there.name) == instead_of) {
            Some(there) => *there = own,
            None => list.push(own),
        }
        list.into()
    }

    /// All figures are the defaults again.
    pub fn set_back(&mut self) {
        self.change_settings(ShopDeed::SetBack, Shop::default());
    }

    /// What an earlier session left, unsaved: it is set here, and saved where nobody else changed the file since.
    pub fn take_up(&mut self, document: &ShopDocument, unchanged: Option<DiskMark>) {
        if self.is_unread() {
            return;
        }
        // What lies there now is what was read when this session began; what the earlier one read is what counts.
        self.mark = unchanged.or(self.mark);
        for figure in ShopFigure::ALL {
            let value = document.shop.get(*figure);
            let shop = self.shop().with(*figure, value);
            let next = ShopDocument { shop, ..self.document().clone() };
            self.history.change(ShopDeed::Set(*figure, value), next);
        }
        let face = &document.face;
        let parts = [FacePart::Name(face.name.clone()), FacePart::Picture(face.picture.clone())];
        let minutes = WorkStep::ALL.map(|step| FacePart::Minutes(step, face.minutes(step)));
        for part in parts.into_iter().chain(minutes) {
            let next = ShopDocument { face: part.clone().put(self.face()), ..self.document().clone() };
            self.history.change(ShopDeed::Say(part), next);
        }
        // Those that are the same are no change.
        for own in document
            .instruments
            .iter()
            .filter(|own| !self.instruments().contains(own))
            .cloned()
            .collect::<Vec<_>>()
        {
            let (deed, name) = (ShopDeed::Instrument(own.name.clone()), own.name.clone());
            let next = ShopDocument {
                instruments: self.with_instrument(Some(&name), own),
                ..self.document().clone()
            };
            self.history.change(deed, next);
        }
        let gone: Vec<Id> = self.instruments().iter().map(|own| own.name.clone()).collect();
        for name in gone.into_iter().filter(|name| document.instruments.iter().all(|own| own.name != *name)) {
            let left = self.instruments().iter().filter(|own| own.name != name).cloned().collect();
            let next = ShopDocument { instruments: left, ..self.document().clone() };
            self.history.change(ShopDeed::NoInstrument(name), next);
        }
        self.save(false);
    }

    fn change_settings(&mut self, deed: ShopDeed, shop: Shop) {
        self.change(deed, ShopDocument { shop, ..self.document().clone() });
    }

    fn change(&mut self, deed: ShopDeed, document: ShopDocument) {
        if !self.is_unread() {
            self.history.change(deed, document);
            self.save(false);
        }
    }

    /// One step back.
    pub fn undo(&mut self) {
        self.history.undo();
        self.save(false);
    }

    /// One step forth.
    pub fn redo(&mut self) {
        self.history.redo();
        self.save(false);
    }

    /// Saves what is not on disk; `over` says that a file which someone else changed may be replaced.
    pub fn save(&mut self, over: bool) {
        if self.is_unread() || (!self.is_changed() && !over) {
            // Undone to what is saved: there is nothing to save any more.
            if !self.is_unread() && !self.is_changed() {
                self.trouble = None;
            }
            return;
        }
        let document = self.document().clone();
        self.trouble = match &self.path {
            None => Some(ShopTrouble::NoPlace),
            Some(path) if !over && self.mark.is_some_and(|mark| mark != DiskMark::of(path)) => {
                let was_there = self.mark.is_some_and(DiskMark::is_there);
                Some(if was_there && !DiskMark::of(path).is_there() {
                    ShopTrouble::Gone
                } else {
                    ShopTrouble::ChangedOnDisk
                })
            }
            Some(path) => match save_shop(path, &document) {
                Ok(_) => {
                    self.mark = Some(DiskMark::of(path));
                    self.saved = document;
                    None
                }
                Err(faults) => Some(ShopTrouble::NotSaved(faults)),
            },
        };
    }

    /// Drops what is not on disk, and reads what is there: another window, or another person, may have changed it.
    pub fn read_again(&mut self) {
        *self = Self::open(self.path.clone().as_deref());
    }

    /// Reads what someone else wrote since, unless something here is not saved yet.
    pub fn look_again(&mut self) {
        let elsewhere =
            || self.path.as_deref().zip(self.mark).is_some_and(|(path, mark)| mark != DiskMark::of(path));
        if self.is_changed() || !elsewhere() {
            return;
        }
        let path = self.path.clone();
        match path.as_deref().map(|path| (DiskMark::of(path), load_shop(path))) {
            // The same said again: the steps here lead on from it.
            Some((mark, Ok(document))) if document == *self.document() && !self.is_unread() => {
                self.mark = Some(mark)
            }
            _ => self.read_again(),
        }
    }
}

/// About how much of memory a state of them takes.
fn weight(own: &ShopDocument) -> usize {
    size_of::<ShopDocument>() + own.instruments.len() * size_of::<Instrument>()
}

#[cfg(test)]
mod tests {
    use baywright_planner::model::fault::Allowed;

    use super::*;

    fn folder(name: &str) -> PathBuf {
        let folder = std::env::temp_dir().join(format!("baywright-shop-{}-{name}", std::process::id()));
        let _ = std::fs::remove_dir_all(&folder);
        folder
    }

    #[test]
    fn what_is_set_is_saved_and_can_be_undone() {
        let folder = folder("set");
        let path = folder.join("shop.ron");
        let mut own = ShopSettings::open(Some(&path));
        assert_eq!((own.shop(), own.trouble(), own.is_changed()), (Shop::default(), None, false));
        own.set(ShopFigure::ByEye, 80.0);
        assert_eq!((own.trouble(), own.is_changed()), (None, false));
        assert_eq!(load_shop(&path).unwrap().shop.by_eye_mm, 80.0);
        assert_eq!(own.steps(), [Some(&ShopDeed::Set(ShopFigure::ByEye, 80.0)), None]);
        // What may not be is not.
        let refused = own.may_be(ShopFigure::ByEye, 10.0).unwrap_err();
        assert!(matches!(refused.allowed, Allowed::FromTaped(..)), "{refused:?}");
        own.set(ShopFigure::ByEye, f64::NAN);
        assert_eq!(own.shop().by_eye_mm, 80.0);
        own.undo();
        assert_eq!(load_shop(&path).unwrap().shop, Shop::default());
        own.redo();
        assert_eq!(load_shop(&path).unwrap().shop.by_eye_mm, 80.0);
        own.set_back();
        assert_eq!(load_shop(&path).unwrap().shop, Shop::default());
        std::fs::remove_dir_all(folder).unwrap();
    }

    #[test]
    fn what_the_shop_says_of_itself_is_saved_beside_its_settings() {
        let folder = folder("face");
        let path = folder.join("shop.ron");
        let mut own = ShopSettings::open(Some(&path));
        own.say(FacePart::Name(Some("Example workshop".to_owned())));
        own.say(FacePart::Minutes(WorkStep::Lay, Some(20.0)));
        own.set(ShopFigure::ByEye, 80.0);
        own.say(FacePart::Minutes(WorkStep::Aim, Some(f64::NAN)));
        let read = load_shop(&path).unwrap();
        assert_eq!(
            (read.face.name.as_deref(), read.face.minutes(WorkStep::Lay)),
            (Some("Example workshop"), Some(20.0))
        );
        assert_eq!((read.face.minutes(WorkStep::Aim), read.shop.by_eye_mm), (None, 80.0));
        // The defaults of the figures are not the shop's name.
        own.set_back();
        assert_eq!(load_shop(&path).unwrap().face, read.face);
        own.undo();
        own.undo();
        own.undo();
        assert_eq!(load_shop(&path).unwrap().face.minutes(WorkStep::Lay), None);
        std::fs::remove_dir_all(folder).unwrap();
    }

    #[test]
    fn what_someone_else_wrote_is_not_replaced_unasked() {
        let folder = folder("else");
        let path = folder.join("shop.ron");
        let mut own = ShopSettings::open(Some(&path));
        own.set(ShopFigure::ByEye, 80.0);
        let theirs = Shop { by_eye_mm: 90.0, ..Shop::default() };
        save_shop(&path, &theirs.into()).unwrap();
        own.set(ShopFigure::Taped, 10.0);
        assert_eq!(own.trouble(), Some(&ShopTrouble::ChangedOnDisk));
        assert!(own.is_changed() && load_shop(&path).unwrap().shop == theirs);
        own.save(true);
        assert_eq!((own.trouble(), load_shop(&path).unwrap().shop.taped_mm), (None, 10.0));
        // Nobody's figures are replaced where there is no file any more, and that is said.
        std::fs::remove_file(&path).unwrap();
        own.set(ShopFigure::Taped, 12.0);
        assert_eq!(own.trouble(), Some(&ShopTrouble::Gone));
        own.save(true);
        assert_eq!((own.trouble(), load_shop(&path).unwrap().shop.taped_mm), (None, 12.0));
        // With nothing unsaved, theirs is taken.
        save_shop(&path, &theirs.into()).unwrap();
        own.look_again();
        assert_eq!((own.shop(), own.trouble()), (theirs, None));
        std::fs::remove_dir_all(folder).unwrap();
    }

    #[test]
    fn what_cannot_be_read_or_written_is_told_and_nothing_is_lost() {
        let folder = folder("trouble");
        std::fs::create_dir_all(&folder).unwrap();
        let path = folder.join("shop.ron");
        std::fs::write(&path, "(version: 1, by_eye_mm: ?)").unwrap();
        let mut own = ShopSettings::open(Some(&path));
        assert!(own.is_unread() && own.judged_by(None).shop_unread);
        own.set(ShopFigure::ByEye, 80.0);
        own.set_back();
        own.save(true);
        assert_eq!(std::fs::read_to_string(&path).unwrap(), "(version: 1, by_eye_mm: ?)");
        // Corrected by hand, it is read.
        std::fs::write(&path, "(version: 1, by_eye_mm: 70)").unwrap();
        own.look_again();
        assert_eq!((own.shop().by_eye_mm, own.trouble()), (70.0, None));
        // Where it would lie there is a folder: it is kept here, told, and saved when it can be.
        std::fs::remove_file(&path).unwrap();
        own.read_again();
        assert_eq!(own.shop(), Shop::default());
        let mut nowhere = ShopSettings::open(None);
        nowhere.set(ShopFigure::ByEye, 80.0);
        assert_eq!((nowhere.trouble(), nowhere.is_changed()), (Some(&ShopTrouble::NoPlace), true));
        nowhere.undo();
        assert_eq!((nowhere.trouble(), nowhere.is_changed()), (None, false));
        std::fs::remove_dir_all(folder).unwrap();
    }
}
