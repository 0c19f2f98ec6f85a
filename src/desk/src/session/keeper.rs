//! Keeps what is not saved yet against a crash: every change goes to the recovery journal, in a thread of its own, so that
//! no frame waits for the disk.

use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::mpsc::{Receiver, Sender, TryRecvError, channel};
use std::thread::JoinHandle;
use std::time::{SystemTime, UNIX_EPOCH};

use baywright_files::{
    DiskMark, FileFault, Journal, LeftBehind, Record, SHOP_FILE, Work, draft_text, layout_text, shop_text,
    triggers_text, whole_path,
};
use baywright_planner::model::{Layout, ShopDocument, TriggerList, Vehicle};

use crate::session::caught::caught;
use crate::session::document::Document;
use crate::session::draft::Draft;
use crate::session::room_draft::RoomDraft;
use crate::session::shop::ShopSettings;

/// Follows a document and has its changes kept.
#[derive(Debug, Default)]
pub struct Keeper {
    session: Option<Session>,
    /// Counts the documents of this session.
    work: u32,
    layout: Option<Arc<Layout>>,
    car: Option<Arc<Vehicle>>,
    room: Option<RoomDraft>,
    shop: Option<ShopDocument>,
    list: Option<TriggerList>,
    /// What was recovered and is not in this session's journal yet.
    recovered: Option<LeftBehind>,
}

#[derive(Debug)]
struct Session {
    send: Sender<Asked>,
    told: Receiver<Result<Done, NotKept>>,
    thread: Option<JoinHandle<()>>,
    /// Why what was to be kept last is not; until something is kept again.
    failing: Option<NotKept>,
    asked: u64,
    done: u64,
}

enum Asked {
    Note(Box<Note>),
    Settled(u32),
    /// The session ends in order.
    Close,
}

struct Note {
    number: u32,
    what: What,
    file: Option<(PathBuf, Option<DiskMark>)>,
    at: u64,
    /// What may be forgotten once this is kept.
    instead_of: Option<LeftBehind>,
}

enum What {
    /// A layout, and the mark of the shop's settings by which it was judged when it was saved.
    Layout(Arc<Layout>, Option<String>),
    Car(Arc<Vehicle>),
    Room(RoomDraft),
    Shop(Box<ShopDocument>),
    List(TriggerList),
}

/// What came of something that was asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Done {
    /// It was written: the disk takes what it is given.
    Written,
    /// There was nothing to write.
    Nothing,
}

/// Why something could not be kept.
#[derive(Clone, Debug, PartialEq)]
pub enum NotKept {
    /// The disk refused it.
    Refused(FileFault),
    /// What was entered cannot be written as a text that would be read again.
    NoText,
    /// The program met a fault of its own: in what words.
    Fault(String),
    /// What keeps could not be started, or has ended: nothing is kept any more in this session.
    Ended,
}

/// How a note becomes a record; `None` of what could not be read again.
type Recorded = fn(&Note) -> Option<Record>;

/// The shop's settings are one work, whichever document is shown.
const OF_SHOP: u32 = u32::MAX;
/// And the list of work.
const OF_LIST: u32 = u32::MAX - 1;

/// The time, in seconds since 1970.
pub(crate) fn now() -> u64 {
    SystemTime::now().duration_since(UNIX_EPOCH).map_or(0, |since| since.as_secs())
}

impl Keeper {
    /// Starts to keep in a folder, which is made if it is not there.
    pub fn start(folder: &Path) -> Self {
        Self::with(folder, record)
    }

    fn with(folder: &Path, record: Recorded) -> Self {
        let (send, asked) = channel();
        let (tell, told) = channel();
        let folder = folder.to_owned();
        let thread = std::thread::Builder::new()
            .name("keeper".to_owned())
            .spawn(move || keep(&folder, &asked, &tell, record))
            .ok();
        let session = Session { send, told, thread, failing: None, asked: 0, done: 0 };
        Self { session: Some(session), ..Self::default() }
    }

    /// Whether anything is to be kept at all; whether it is, [`Self::failing`] says.
    pub const fn is_on(&self) -> bool {
        self.session.is_some()
    }

    /// Another document is shown: what the last one left is settled, saved or given up.
    pub fn next_work(&mut self) {
        self.settle();
        self.work += 1;
    }

    /// What was recovered is shown: it is forgotten once this session keeps it.
    pub fn recovers(&mut self, left: LeftBehind) {
        self.recovered = Some(left);
    }

    /// Has a bay kept that is being typed and is no layout yet; `None` if none is, or it was made.
    pub fn follow_room(&mut self, room: Option<&RoomDraft>) {
        if self.room.as_ref() == room {
            return;
        }
        let [.., of_room] = self.numbers();
        match room {
            Some(room) => self.note(of_room, What::Room(room.clone()), None),
            None => self.ask(Asked::Settled(of_room)),
        }
        self.room = room.cloned();
    }

    /// Has the shop's settings kept as long as they are not on disk as they are.
    pub fn follow_shop(&mut self, settings: &ShopSettings) {
        let shop = settings.is_changed().then(|| settings.document().clone());
        if self.shop == shop {
            return;
        }
        match &shop {
            Some(shop) => {
                let file = settings.path().map(|path| (path.to_owned(), settings.mark()));
                self.note(OF_SHOP, What::Shop(Box::new(shop.clone())), file);
            }
            None => self.ask(Asked::Settled(OF_SHOP)),
        }
        self.shop = shop;
    }

    /// Has the list of work kept as long as it is being changed.
    pub fn follow_list(&mut self, list: Option<&TriggerList>) {
        if self.list.as_ref() == list {
            return;
        }
        match list {
            Some(list) => self.note(OF_LIST, What::List(list.clone()), None),
            None => self.ask(Asked::Settled(OF_LIST)),
        }
        self.list = list.cloned();
    }

    /// Has everything kept that changed since it was called last; a change in hand waits until the hand lets go.
    pub fn follow(&mut self, document: &Document) {
        if document.is_held() {
            return;
        }
        let [of_layout, of_car, _] = self.numbers();
        let layout = document.is_changed().then(|| Arc::clone(document.layout()));
        if !same(layout.as_ref(), self.layout.as_ref()) {
            match &layout {
                Some(layout) => {
                    let file = document.path().map(|path| (path.to_owned(), document.mark()));
                    // Taken up again, it is known still by which settings it was judged.
                    let judged_by = document.judged_by().map(str::to_owned);
                    self.note(of_layout, What::Layout(Arc::clone(layout), judged_by), file);
                }
                None => self.ask(Asked::Settled(of_layout)),
            }
            self.layout = layout;
        }
        let car = document.draft().filter(|draft| draft.is_changed()).map(|draft| Arc::clone(draft.car()));
        if !same(car.as_ref(), self.car.as_ref()) {
            match &car {
                Some(car) => {
                    let file = document.draft().and_then(Draft::file).cloned();
                    self.note(
                        of_car,
                        What::Car(Arc::clone(car)),
                        file.map(|(path, mark)| (path, Some(mark))),
                    );
                }
                None => self.ask(Asked::Settled(of_car)),
            }
            self.car = car;
        }
    }

    /// What could not be kept, told when it begins; `None` if all is well, or it was told.
    pub fn fault(&mut self) -> Option<NotKept> {
        let session = self.session.as_mut()?;
        let mut fault = None;
        loop {
            match session.told.try_recv() {
                Ok(told) => {
                    session.done += 1;
                    fault = session.hear(told).or(fault);
                }
                Err(TryRecvError::Empty) => return fault,
                // The thread lives as long as the session does: else it never came to be, or met its end.
                Err(TryRecvError::Disconnected) => return session.hear(Err(NotKept::Ended)).or(fault),
            }
        }
    }

    /// Why what is entered now is not kept; `None` while it is.
    pub fn failing(&self) -> Option<&NotKept> {
        self.session.as_ref()?.failing.as_ref()
    }

    /// Waits until everything that was asked for is on the disk: for tests, and before the program ends.
    pub fn wait(&mut self) {
        let Some(session) = self.session.as_mut() else { return };
        while session.done < session.asked
            && let Ok(told) = session.told.recv()
        {
            session.done += 1;
            session.hear(told);
        }
    }

    /// The session ends in order: everything was saved or given up.
    pub fn close(&mut self) {
        self.settle();
        if self.shop.take().is_some() {
            self.ask(Asked::Settled(OF_SHOP));
        }
        if self.list.take().is_some() {
            self.ask(Asked::Settled(OF_LIST));
        }
        self.ask(Asked::Close);
        if let Some(thread) = self.session.take().and_then(|mut session| session.thread.take()) {
            // It ends by itself; a fault in it has nothing more to lose.
            let _ = thread.join();
        }
    }

    fn settle(&mut self) {
        let [of_layout, of_car, of_room] = self.numbers();
        if self.layout.take().is_some() {
            self.ask(Asked::Settled(of_layout));
        }
        if self.car.take().is_some() {
            self.ask(Asked::Settled(of_car));
        }
        if self.room.take().is_some() {
            self.ask(Asked::Settled(of_room));
        }
    }

    /// A document, the car that is entered beside it and the room that is typed are three works.
    const fn numbers(&self) -> [u32; 3] {
        [self.work * 3, self.work * 3 + 1, self.work * 3 + 2]
    }

    fn note(&mut self, number: u32, what: What, file: Option<(PathBuf, Option<DiskMark>)>) {
        let instead_of = self.recovered.take();
        self.ask(Asked::Note(Box::new(Note { number, what, file, at: now(), instead_of })));
    }

    fn ask(&mut self, asked: Asked) {
        if let Some(session) = &mut self.session
            && session.send.send(asked).is_ok()
        {
            session.asked += 1;
        }
    }
}

impl Session {
    /// Takes note of what came of something; the fault, if it is a new one.
    fn hear(&mut self, told: Result<Done, NotKept>) -> Option<NotKept> {
        match told {
            Ok(Done::Written) => self.failing = None,
            Ok(Done::Nothing) => {}
            Err(why) => {
                let is_new = self.failing.as_ref() != Some(&why);
                self.failing = Some(why.clone());
                return is_new.then_some(why);
            }
        }
        None
    }
}

fn same<T>(a: Option<&Arc<T>>, b: Option<&Arc<T>>) -> bool {
    match (a, b) {
        (None, None) => true,
        (Some(a), Some(b)) => Arc::ptr_eq(a, b),
        _ => false,
    }
}

/// The thread: one note after another, each on the disk before the next. A fault of the program in one takes no other along.
/// It ends with the desk, and then leaves its journal for the next start, unless the session was closed in order.
fn keep(folder: &Path, asked: &Receiver<Asked>, tell: &Sender<Result<Done, NotKept>>, record: Recorded) {
    let mut journal: Option<Journal> = None;
    while let Ok(asked) = asked.recv() {
        let ends = matches!(asked, Asked::Close);
        let done = match caught(|| done(folder, &mut journal, asked, record)) {
            Ok(done) => done,
            Err(words) => Err(NotKept::Fault(words)),
        };
        // If nobody listens any more, what else was asked for is kept all the same.
        let _ = tell.send(done);
        if ends {
            return;
        }
    }
}

/// Does one thing that was asked for; the journal is started with the first note.
fn done(
    folder: &Path,
    journal: &mut Option<Journal>,
    asked: Asked,
    record: Recorded,
) -> Result<Done, NotKept> {
    let written = |done: Result<(), FileFault>| done.map(|()| Done::Written).map_err(NotKept::Refused);
    match asked {
        Asked::Close => {
            // What cannot be removed is empty and swept at the next start.
            let _ = journal.take().map(Journal::close);
            Ok(Done::Nothing)
        }
        Asked::Settled(number) => match journal {
            Some(journal) => written(journal.settled(number)),
            None => Ok(Done::Nothing),
        },
        Asked::Note(note) => {
            let journal = match journal {
                Some(journal) => journal,
                None => journal.insert(Journal::start(folder).map_err(NotKept::Refused)?),
            };
            // What could not be read again is not kept, and that is said: what was kept before is there still.
            let record = record(&note).ok_or(NotKept::NoText)?;
            written(journal.note(&record))?;
            // Only now is what was left behind no longer needed. If it cannot be forgotten it is offered once more.
            written(note.instead_of.map_or(Ok(()), |left| left.forget()))
        }
    }
}

fn record(note: &Note) -> Option<Record> {
    let id = match &note.what {
        What::Car(car) => Some(car.id.to_string()),
        What::Layout(..) | What::Room(_) | What::Shop(_) | What::List(_) => None,
    };
    let (kind, name, text) = match &note.what {
        What::Layout(layout, judged_by) => {
            let whole = Layout { shop_fingerprint: judged_by.clone(), ..Layout::clone(layout) };
            (Work::Layout, layout.bay.name.clone(), layout_text(&whole).ok()?)
        }
        What::Room(room) => (Work::Room, room.name.clone(), room.text()?),
        What::Shop(shop) => (Work::Shop, SHOP_FILE.to_owned(), shop_text(shop).ok()?),
        What::List(list) => (Work::Triggers, list.name.clone(), triggers_text(list).ok()?),
        What::Car(car) => (Work::Profile, car.name.clone(), draft_text(car).ok()?),
    };
    // The next session may begin in another folder.
    let whole = |path: PathBuf| whole_path(&path).map_or(path, PathBuf::from);
    let (path, mark) = note.file.clone().map_or((None, None), |(path, mark)| (Some(whole(path)), mark));
    Some(Record { number: note.number, kind, path, mark, name, id, text, at: note.at })
}

#[cfg(test)]
mod tests {
    use baywright_files::left_behind;
    use baywright_planner::edit::Edit;
    use baywright_planner::geometry::{DVec2, PlanPose};
    use baywright_planner::words::Language;

    use super::*;

    fn folder(name: &str) -> PathBuf {
        let folder = std::env::temp_dir().join(format!("baywright-keeper-{}-{name}", std::process::id()));
        let _ = std::fs::remove_dir_all(&folder);
        folder
    }

    fn park(x: f64) -> Edit {
        Edit::Park(PlanPose::new(DVec2::new(x, 3_000.0), 0.0))
    }

    #[test]
    fn what_is_not_saved_is_found_after_the_end_and_what_is_settled_is_not() {
        let folder = folder("found");
        let mut document = Document::open(Path::new("crowded-bay"), None).unwrap();
        let mut keeper = Keeper::start(&folder);
        keeper.follow(&document);
        for x in [4_100.0, 4_200.0, 4_300.0] {
            document.edit(&park(x)).unwrap();
            keeper.follow(&document);
        }
        keeper.wait();
        assert_eq!(keeper.fault(), None);
        assert!(left_behind(&folder).works.is_empty(), "its session lives");
        // The program dies: nothing is closed in order.
        drop(keeper);
        let mut left = Vec::new();
        for _ in 0..100 {
            left = left_behind(&folder).works;
            if !left.is_empty() {
                break;
            }
            std::thread::sleep(std::time::Duration::from_millis(20));
        }
        assert_eq!(left.len(), 1);
        assert!(left[0].record.text.contains("4300"), "the last change");
        // The next session takes it over; only then is the old one forgotten.
        let mut keeper = Keeper::start(&folder);
        keeper.recovers(left.remove(0));
        document.edit(&park(4_400.0)).unwrap();
        keeper.follow(&document);
        keeper.wait();
        // Undone to what is saved, or saved: nothing is left.
        while document.undoes().is_some() {
            document.undo().unwrap();
        }
        keeper.follow(&document);
        keeper.close();
        assert!(left_behind(&folder).works.is_empty());
        std::fs::remove_dir_all(folder).unwrap();
    }

    /// Whatever folder the program was started in, and is started in next.
    #[test]
    fn where_work_lies_is_noted_from_the_root() {
        let folder = folder("relative");
        std::fs::create_dir_all(&folder).unwrap();
        let file = folder.join("mine.ron");
        std::fs::write(&file, baywright_files::EMBEDDED_LAYOUTS[0].text).unwrap();
        let up = std::env::current_dir().unwrap().components().count() - 1;
        let relative = PathBuf::from("../".repeat(up)).join(file.strip_prefix("/").unwrap());
        let mut document = Document::open(&relative, None).unwrap();
        assert!(document.path().is_some_and(Path::is_relative));
        let at = document.saved_arrangement().unwrap().parked;
        document.edit(&Edit::Park(PlanPose::new(at.origin() + DVec2::new(10.0, 0.0), at.heading()))).unwrap();
        let mut keeper = Keeper::with(&folder.join("journal"), |note| {
            let record = record(note)?;
            assert!(record.path.as_ref().is_some_and(|path| path.is_absolute()), "{:?}", record.path);
            Some(record)
        });
        keeper.follow(&document);
        keeper.wait();
        assert_eq!(keeper.fault(), None);
        keeper.close();
        std::fs::remove_dir_all(folder).unwrap();
    }

    #[test]
    fn a_fault_in_one_note_is_said_and_takes_no_other_along() {
        let folder = folder("fault");
        let mut document = Document::open(Path::new("crowded-bay"), None).unwrap();
        let mut keeper = Keeper::with(&folder, |note| {
            let record = record(note)?;
            assert!(!record.text.contains("4200"), "planted");
            Some(record)
        });
        let mut said = Vec::new();
        for x in [4_100.0, 4_200.0, 4_300.0] {
            document.edit(&park(x)).unwrap();
            keeper.follow(&document);
            for _ in 0..200 {
                said.extend(keeper.fault());
                std::thread::sleep(std::time::Duration::from_millis(1));
            }
        }
        assert_eq!(said, [NotKept::Fault("planted".to_owned())]);
        keeper.wait();
        drop(keeper);
        let mut left = Vec::new();
        for _ in 0..100 {
            left = left_behind(&folder).works;
            if !left.is_empty() {
                break;
            }
            std::thread::sleep(std::time::Duration::from_millis(20));
        }
        assert!(left[0].record.text.contains("4300"), "what came after it");
        std::fs::remove_dir_all(folder).unwrap();
    }

    #[test]
    fn that_nothing_is_kept_any_more_is_told_once_and_lasts() {
        let folder = folder("ended");
        let mut document = Document::open(Path::new("crowded-bay"), None).unwrap();
        let mut keeper = Keeper::start(&folder);
        assert_eq!((keeper.fault(), keeper.failing()), (None, None));
        // The thread is gone, as if it had never been started.
        keeper.ask(Asked::Close);
        let mut told = Vec::new();
        for x in [4_100.0, 4_200.0] {
            document.edit(&park(x)).unwrap();
            keeper.follow(&document);
            for _ in 0..200 {
                told.extend(keeper.fault());
                std::thread::sleep(std::time::Duration::from_millis(1));
            }
        }
        assert_eq!(told, [NotKept::Ended]);
        assert_eq!(keeper.failing(), Some(&NotKept::Ended));
        keeper.wait();
        keeper.close();
        let _ = std::fs::remove_dir_all(folder);
    }

    #[test]
    fn a_disk_that_refuses_is_told_once() {
        let folder = folder("refuses");
        std::fs::write(&folder, "a file where the folder should be").unwrap();
        let mut document = Document::open(Path::new("crowded-bay"), None).unwrap();
        let mut keeper = Keeper::start(&folder);
        let mut told = 0;
        for x in [4_100.0, 4_200.0] {
            document.edit(&park(x)).unwrap();
            keeper.follow(&document);
            for _ in 0..200 {
                match keeper.fault() {
                    Some(NotKept::Refused(why)) => {
                        let why = Language::English.file_fault(&why);
                        assert!(why.contains("cannot be kept"), "{why}");
                        told += 1;
                    }
                    Some(other) => panic!("{other:?}"),
                    None => {}
                }
                std::thread::sleep(std::time::Duration::from_millis(1));
            }
        }
        assert_eq!(told, 1);
        assert!(matches!(keeper.failing(), Some(NotKept::Refused(_))), "it lasts");
        // It works again: nothing is said any more.
        std::fs::remove_file(&folder).unwrap();
        document.edit(&park(4_300.0)).unwrap();
        keeper.follow(&document);
        keeper.wait();
        assert_eq!(keeper.failing(), None);
        keeper.close();
        std::fs::remove_dir_all(folder).unwrap();
    }

    #[test]
    fn what_cannot_be_written_is_said_and_not_dropped() {
        let folder = folder("no-text");
        let mut document = Document::open(Path::new("crowded-bay"), None).unwrap();
        let mut keeper = Keeper::with(&folder, |note| {
            let record = record(note)?;
            (!record.text.contains("4200")).then_some(record)
        });
        for (x, failing) in [(4_100.0, None), (4_200.0, Some(NotKept::NoText)), (4_300.0, None)] {
            document.edit(&park(x)).unwrap();
            keeper.follow(&document);
            keeper.wait();
            assert_eq!(keeper.failing(), failing.as_ref(), "{x}");
        }
        keeper.close();
        std::fs::remove_dir_all(folder).unwrap();
    }
}
