//! What can lie over the screen, and what is typed there; `pages` draws it.

use std::path::PathBuf;

use baywright_planner::edit::Edit;
use baywright_planner::failed::{Looked, RoutineSaid};
use baywright_planner::model::{Id, TriggerList};

use crate::session::room_draft::RoomDraft;

/// A page over the screen.
#[derive(Clone, Debug, PartialEq)]
pub enum Page {
    /// What the program is for and the first steps in it.
    FirstSteps,
    /// The first start: what is shown is invented, and where one's own begins.
    Welcome,
    /// Keys, what is seen, what it does not do.
    Help,
    /// Licence texts.
    Licences,
    /// Which file to open.
    Open(OpenPage),
    /// Where to save.
    Save(SavePage),
    /// Where the proof that the car fits nowhere is kept.
    KeepProof(KeepProofPage),
    /// What the car is in for.
    Visit(Box<VisitPage>),
    /// All cars: what is sought, and whether the field is to be given the keyboard.
    Cars(String, bool),
    /// Two arrangements side by side.
    Compare(Compare),
    /// A name for the arrangement; whether the field is to be given the keyboard.
    Name(String, bool),
    /// What earlier sessions left behind.
    LeftBehind,
    /// A bay that is being made.
    NewBay(NewBay),
    /// Which figures are invented, and where one's own are entered.
    Examples,
    /// The shop's settings.
    Shop,
    /// The maker's routine failed: what it said, and what here could explain it.
    Failed(Box<FailedPage>),
    /// What a customer is told, by the place of the screen: it takes the whole window.
    Customer(usize),
    /// What is printed: it takes the whole window.
    OnPaper,
    /// A drawing of another program, on its way into the work: it takes the whole window.
    RoomDrawing,
    /// The record of a visit: it takes the whole window.
    Record,
    /// What fits where: it takes the whole window.
    Fits,
    /// Something to be decided first.
    Ask(Question),
}

/// What a routine said that failed. It is a question of the moment: put aside with the page, and not kept with the work.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct FailedPage {
    /// Of which set-up.
    pub of: Option<Id>,
    /// What it said, as far as it was typed.
    pub said: RoutineSaid,
    /// What was looked at since, and what was found.
    pub looked: Vec<Looked>,
}

/// A path being typed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct OpenPage {
    /// What was typed.
    pub path: String,
    /// What was wrong with it.
    pub faults: Vec<String>,
    /// Whether the field is to be given the keyboard.
    pub focus: bool,
}

/// A path being typed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct SavePage {
    /// What was typed.
    pub path: String,
    /// Why it could not be saved there.
    pub faults: Vec<String>,
    /// Whether the field is to be given the keyboard.
    pub focus: bool,
}

/// A path being typed for a proof.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct KeepProofPage {
    /// What was typed.
    pub path: String,
    /// Why it could not be written there.
    pub faults: Vec<String>,
    /// Whether the field is to be given the keyboard.
    pub focus: bool,
    /// Whether a file of that name is there, which a press replaces.
    pub is_there: bool,
}

/// Something to be decided.
#[derive(Clone, Debug, PartialEq)]
pub enum Question {
    /// A thing becomes smaller than its kind ever is: by this change, which is shown and not a step yet.
    TooSmall(Box<Edit>),
    /// Work would be lost by leaving.
    Unsaved(Leaving),
    /// The file was changed by someone else since it was read.
    ChangedOnDisk,
    /// Another window has the file open, and may save it too.
    OpenElsewhere,
    /// The file is not there any more.
    GoneFromDisk,
    /// The file of a car that was changed is not there any more.
    CarGone(PathBuf),
    /// A car that was entered would be dropped.
    DropCar,
    /// This, begun and put aside or not, would be lost by closing the program.
    DropBegun(Begun),
    /// There is a file of that name.
    Replace(PathBuf),
    /// The shown arrangement's building would become the bay's: what each of these other arrangements says of what is not in
    /// it would be forgotten.
    AdoptBuilding(Vec<(Id, Vec<Id>)>),
}

/// What is typed on a page and is nothing yet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Begun {
    /// A new bay.
    Bay,
    /// The list of work, changed.
    List,
}

/// What one is about to do.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Leaving {
    /// Open another layout.
    Open(PathBuf),
    /// Make a new bay.
    NewBay,
    /// Make one of a drawing.
    Drawing,
    /// Take up a bay that was left behind, by its place among what was.
    TakeUp(usize),
    /// Close the program.
    Quit,
}

impl Page {
    /// Whether it stays until it is answered by one of its presses: nothing leads back to it by chance.
    pub(super) const fn waits(&self) -> bool {
        matches!(self, Self::LeftBehind)
    }

    /// Whether it has fields as forms have them: Escape in one of them puts back what was there, and no more.
    pub(super) const fn has_fields(&self) -> bool {
        matches!(self, Self::Shop | Self::RoomDrawing | Self::Failed(_))
    }

    /// Whether something was typed in it that would be a pity to lose.
    pub(super) const fn is_typed_in(&self) -> bool {
        matches!(
            self,
            Self::NewBay(_)
                | Self::Visit(_)
                | Self::Save(_)
                | Self::KeepProof(_)
                | Self::Open(_)
                | Self::Name(..)
                | Self::Ask(_)
        )
    }
}

/// A bay that is being typed, and where the keyboard is to be.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NewBay {
    /// What was typed of it.
    pub room: RoomDraft,
    /// Whether the first field is to be given the keyboard.
    pub focus: bool,
    /// The field that is to be given it.
    pub next: Option<(usize, Column)>,
}

impl NewBay {
    /// The page of a room, begun or not.
    pub const fn of(room: RoomDraft) -> Self {
        Self { room, focus: true, next: None }
    }
}

/// What is typed of a wall.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Column {
    /// Its length.
    Length,
    /// The turn at its end.
    Turn,
    /// Its name.
    Name,
}

/// What the shown arrangement is compared with.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Compare {
    /// What; until it is chosen the same one as it was opened, if it was changed since, else the one before it.
    pub with: Option<With>,
}

/// One of two that are compared.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum With {
    /// The shown one, or the one that it was made from, as the bay was opened.
    Opened,
    /// Another one of the bay's.
    Other(Id),
}

/// The list, and what was chosen from it.
#[derive(Clone, Debug, PartialEq)]
pub struct VisitPage {
    /// The shop's own list, or the example.
    pub list: TriggerList,
    /// The work that was chosen, by name.
    pub chosen: Vec<Id>,
    /// Whether the list itself is being changed.
    pub changing: bool,
    /// The list as it was read, to tell whether it was changed.
    pub read: TriggerList,
    /// The car that is in for it.
    pub car: Id,
}

impl VisitPage {
    /// Whether the list itself was changed and is not saved.
    pub fn is_changed(&self) -> bool {
        self.list != self.read
    }
}
