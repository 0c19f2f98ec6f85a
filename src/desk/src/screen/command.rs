//! What the screen asks for, by what it touches. Panels send commands; one function carries them out.

use std::path::PathBuf;

use baywright_drawing::sheet::Sheet;
use baywright_drawing::{Axis, Projection, Theme};
use baywright_planner::Subject;
use baywright_planner::another_plan::PlanBuys;
use baywright_planner::clearing::Where;
use baywright_planner::edit::Edit;
use baywright_planner::geometry::DVec2;
use baywright_planner::hand::Order;
use baywright_planner::model::{
    Figures, FloorFeatureKind, Id, Instrument, KeepFreeKind, Layout, OpeningKind, Place, ShopFigure,
    ThingKind, TriggerList, Vehicle,
};
use baywright_planner::words::{Language, Units};

use super::of_record::OfRecord;
use super::page::{Begun, Page};
use super::shelf::Set;
use super::view::{Area, Camera, Letters, Tab, Tool};
use crate::session::shop::FacePart;

/// One thing asked for.
#[derive(Clone, Debug, PartialEq)]
pub enum Command {
    /// Of the bay and its arrangements.
    Bay(OfBay),
    /// Of the car that is being entered, and of the aiming that is shown.
    Car(OfCar),
    /// Of files.
    File(OfFile),
    /// Of the shop's settings.
    Shop(OfShop),
    /// Of the record of a visit.
    Record(OfRecord),
    /// Of what is seen and how.
    View(OfView),
    /// Lay a page over the screen, or take it away.
    Page(Option<Page>),
    /// Lay the page with what is printed, this sheet chosen.
    OnPaper(Sheet),
    /// The same with the owner's report of what fits where.
    ReportOnPaper,
    /// One step back: of the car, while one is being entered, else of the bay.
    Undo,
    /// One step forth.
    Redo,
    /// Drop what is in hand.
    Abandon,
    /// Choose what the car is in for.
    BeginVisit,
    /// Lead to where these figures are entered.
    EnterOwn(Figures),
    /// Lead to where the floor's levels are entered.
    EnterLevels,
    /// Put the drawing on the clipboard, as a picture.
    CopyPicture,
    /// Put versions, display and log on the clipboard.
    CopyDiagnostics,
    /// Say that something went wrong.
    Say(String),
    /// Say what is so.
    Tell(String),
    /// Close the program, asking first if work would be lost.
    Quit,
    /// Close it, whatever is lost.
    QuitAnyway,
}

/// What changes the bay or shows another arrangement of it. All of it waits while a car is being entered.
#[derive(Clone, Debug, PartialEq)]
pub enum OfBay {
    /// Make the shown arrangement's building the bay's, asking first if other arrangements lose something by it.
    AdoptBuilding,
    /// Change the layout.
    Edit(Edit),
    /// Show changes while the pointer is down.
    Preview(Vec<Edit>),
    /// The pointer is up: keep what was shown, under this edit's name.
    Settle(Edit),
    /// The same, though a thing becomes smaller than its kind ever is: that was asked.
    SettleAnyway(Edit),
    /// Give a thing another shape, as it was typed.
    Reshape(Edit),
    /// Do what the cure of a finding says, or lead to where it can be done.
    Cure(usize),
    /// Do everything that the promise names.
    KeepPromise,
    /// Put a new thing of this kind where there is room, and take it in hand.
    Add(ThingKind),
    /// Put things that come together where there is room, and take them in hand.
    AddSet(Set),
    /// Put a door, a drain ... into the bay and take it in hand.
    AddPart(Part),
    /// Put copies of the things in hand beside them.
    Copy,
    /// Take the things in hand out of this arrangement.
    Remove,
    /// Put the things in hand on the clipboard, as text; whether they leave the arrangement.
    Clip {
        /// Cut, not copied.
        cut: bool,
    },
    /// Put the things that this text holds there, bay frame, mm; in the middle of what is seen for `None`.
    Paste {
        /// Things as a layout's file has them.
        text: String,
        /// Where the pointer is.
        at: Option<DVec2>,
    },
    /// Put those that are in hand into an order.
    Arrange(Order),
    /// Put a thing where a distance that was typed has it, from a wall whose inner side looks this way (bay frame, of length 1).
    Tape {
        /// Which.
        thing: Id,
        /// Where it stands then.
        place: Place,
        /// Into the room, square to the wall.
        inward: DVec2,
    },
    /// Move what is in hand by so much on the paper, mm.
    Nudge(DVec2),
    /// Turn what is in hand by so much, anticlockwise, radians.
    Turn(f64),
    /// A rectangle was drawn on the floor between these two corners, bay frame, mm.
    DrawnArea(Area, DVec2, DVec2),
    /// A point of the picture under the plan was pressed, bay frame, mm.
    ScalePoint(DVec2),
    /// The two points of the picture are so far apart, mm.
    ScalePicture(f64),
    /// Take the levels of the floor, or of the runway of this name, out of a file.
    ReadLevels {
        /// The runway; `None` for the floor.
        of: Option<Id>,
        /// The file.
        path: PathBuf,
    },
    /// Take what a tape read between marks out of this file.
    ReadTapes(PathBuf),
    /// Keep what was just measured with the bay.
    KeepMeasured,
    /// Put this picture under the plan.
    Picture(PathBuf),
    /// Show another arrangement.
    Show(Id),
    /// Make a bay of the hall the one in hand: show the arrangement last shown that is made in it.
    ToBay(Id),
    /// Make another arrangement with the same car and aiming in a bay of the hall, and show it.
    SetUpIn(Id),
    /// Make another arrangement like this one, and show it.
    Duplicate,
    /// Do what the promise says in another arrangement like this one: one step.
    KeepPromiseApart,
    /// Choose another car: its first aiming, or the one of the same name.
    ChooseCar(Id),
    /// What the car is in for: these aimings, the first of them shown.
    Visit(Vec<Id>),
}

/// What changes the car that is being entered.
#[derive(Clone, Debug, PartialEq)]
pub enum OfCar {
    /// Begin to enter or change a car.
    Begin(Begin),
    /// Take a car out of a file, asking first if one that is being entered would be lost.
    Read(PathBuf),
    /// Begin to change the chosen car: marks of the aiming that is shown are laid by this plan.
    Plan(Box<PlanBuys>),
    /// The car that is being entered becomes this.
    Change(Box<Vehicle>),
    /// A rectangle was drawn for a zone, given by position, between these two corners, bay frame, mm.
    DrawnZone {
        /// The aiming.
        aiming: usize,
        /// The zone.
        zone: usize,
        /// One corner.
        from: DVec2,
        /// The one across.
        to: DVec2,
    },
    /// A mark was picked, by its position in the plan.
    PickedMark(usize),
    /// Show the whole form of a car, or the short one.
    Whole(bool),
    /// Show another aiming: of the car that is being entered, else choose it for the bay.
    Aiming(Id),
    /// Save the car that is being entered and choose it.
    Keep,
    /// The same where its file is gone.
    KeepAgain,
    /// Drop it, asking first if something was entered.
    Drop,
    /// Drop it, whatever is lost.
    DropAnyway,
}

/// What opens, begins or saves.
#[derive(Clone, Debug, PartialEq)]
pub enum OfFile {
    /// Begin a new bay, asking first if work would be lost.
    BeginBay,
    /// Begin it, whatever is lost.
    BeginBayAnyway,
    /// Show a bay that was just made.
    NewBay(Box<Layout>),
    /// Drop what was begun on a page.
    DropBegun(Begun),
    /// Save the shop's own list of work that asks for aimings.
    KeepTriggers(Box<TriggerList>),
    /// Show what an earlier session left behind, by position, asking first if work would be lost.
    TakeUp(usize),
    /// The same without asking.
    TakeUpAnyway(usize),
    /// Throw it away.
    ThrowAway(usize),
    /// Open a layout, asking first if work would be lost.
    Open(PathBuf),
    /// Open a layout, whatever is lost.
    OpenAnyway(PathBuf),
    /// Ask the system for a file to open.
    AskOpen,
    /// Ask the system for a place to save.
    AskSave,
    /// Ask the system for a file of levels: of the floor, or of the runway of this name.
    AskLevels(Option<Id>),
    /// Ask for a file of distances that were taped between marks.
    AskTapes,
    /// Ask the system for a picture to lie under the plan.
    AskPicture,
    /// Ask the system for the shop's picture, shown to customers.
    AskShopPicture,
    /// Save; ask for a name if there is none.
    Save,
    /// Save, replacing what someone else wrote.
    SaveOver,
    /// Save it where it lies, though another window has it open.
    SaveThoughOpen,
    /// Save under another name; whether a file that is there may be replaced.
    SaveAs(PathBuf, bool),
    /// Write the proof that the car fits nowhere there; whether it may replace a file.
    KeepProof(PathBuf, bool),
    /// Ask the system where that is to be, suggesting a path.
    AskProof(PathBuf),
    /// Write the sheets that were chosen as PDF, and have the system open it.
    PrintSheets,
    /// Write them there, or what else the name's ending says; which files that are there may be replaced.
    SaveSheets(PathBuf, Over),
    /// Ask the system for a place for them, suggesting this one.
    AskSheets(PathBuf),
    /// Read a drawing of another program, and show what comes of it.
    ReadDrawing(PathBuf),
    /// Ask the system for such a drawing.
    AskDrawing,
    /// Take what comes of it, asking first if work would be lost, unless that was asked.
    TakeDrawing(bool),
    /// Save first, then do what was asked.
    SaveThen(Box<Command>),
}

/// Which files that are there may be replaced.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Over {
    /// None.
    Nothing,
    /// The one of the very name, for the system asked about that; not those of the same name with a number.
    Named,
    /// All of them.
    All,
}

/// What changes the shop's settings. They have a history of their own.
#[derive(Clone, Debug, PartialEq)]
pub enum OfShop {
    /// A figure is to be this, in the file's unit.
    Set(ShopFigure, f64),
    /// All figures are to be the defaults.
    SetBack,
    /// The shop says this of itself.
    Say(FacePart),
    /// The shop has this instrument, in place of the one of that name or besides the others.
    Have {
        /// The one that it takes the place of.
        instead_of: Option<Id>,
        /// The instrument.
        own: Box<Instrument>,
    },
    /// The shop has that instrument no more.
    HaveNot(Id),
    /// One step back.
    Undo,
    /// One step forth.
    Redo,
    /// Save what is not on disk; whether what someone else wrote may be replaced.
    Save(bool),
    /// Drop what is not on disk, and read what is there.
    ReadAgain,
}

/// What changes only what is seen.
#[derive(Clone, Debug, PartialEq)]
pub enum OfView {
    /// Take something in hand, or nothing.
    Select(Option<Subject>),
    /// Take it in hand with what is there already, or let go of it alone.
    SelectToo(Subject),
    /// Take all of these in hand; the last leads.
    SelectAll(Vec<Subject>),
    /// Open the menu of what is in hand there, px of the screen; `None` closes it.
    Menu(Option<egui::Pos2>),
    /// Open it where what is in hand is seen.
    MenuByKey,
    /// Lead the keyboard to the first field of what is in hand.
    ToFields,
    /// Give the keyboard to the first card of what was found.
    ToCards,
    /// The pointer is over this.
    Hover(Option<Subject>),
    /// The pointer is over a finding's card or its marker.
    Light(Option<usize>),
    /// Show the place of a finding.
    Point(usize),
    /// Explain the limit of a finding, or no longer.
    Explain(usize),
    /// Put the eye there; `None` shows all.
    Camera(Option<Camera>),
    /// See larger or smaller by this factor, about the middle.
    Zoom(f64),
    /// What a press does.
    Tool(Tool),
    /// What the right panel shows.
    Tab(Tab),
    /// Look where the car can stand, by a key: the keyboard is led there; back to what was found where that is seen.
    Parking,
    /// Have the search for the best spots tell what it found so far.
    StopLooking,
    /// Search once more.
    LookAgain,
    /// Show the lines that are proposed to stay on the floor, or put them away.
    StayingLines(bool),
    /// Have a proof looked for that the car fits nowhere.
    Prove,
    /// End that.
    StopProving,
    /// Draw ten thousand virtual aims among the echoes.
    DrawAims,
    /// End that: what was drawn so far is told.
    StopAims,
    /// Look for what must move so that the car can stand anywhere, or at this very place.
    WhatMoves(Where),
    /// Open or close the list of what is in the bay.
    List(bool),
    /// Search in the list.
    Search,
    /// Show all of it again.
    EndSearch,
    /// Light or dark.
    Theme(Theme),
    /// Light or dark as the system is, from now on.
    AsSystem,
    /// The language, with its way of writing numbers and days.
    Language(Language),
    /// How lengths are shown.
    Units(Units),
    /// How large letters are.
    Letters(Letters),
    /// One step larger or smaller.
    StepLetters(bool),
    /// Fill the whole screen, or be a window again.
    FullScreen,
    /// The paper as the room lies, or turned to the car.
    ToRoom(bool),
    /// Draw lines of one level and the floor's profile, or no longer.
    Contours(bool),
    /// Along what the side view is taken.
    Along(Option<Axis>),
    /// Which view is seen where there is room for one.
    Alone(Projection),
    /// Look at the verdicts of all arrangements.
    JudgeAll,
    /// Stop looking.
    StopJudging,
}

impl Command {
    /// Whether it may change the work: what was said of that before need not hold any more.
    pub(super) const fn changes_work(&self) -> bool {
        match self {
            // Letting go ends what was begun: what was said since belongs to it.
            Self::Bay(OfBay::Settle(_) | OfBay::SettleAnyway(_)) => false,
            Self::Bay(_)
            | Self::Car(_)
            | Self::File(_)
            | Self::Shop(_)
            | Self::Undo
            | Self::Redo
            | Self::Abandon
            | Self::BeginVisit
            | Self::EnterLevels
            | Self::EnterOwn(_) => true,
            Self::Record(asked) => asked.enters(),
            Self::View(_)
            | Self::Page(_)
            | Self::OnPaper(_)
            | Self::ReportOnPaper
            | Self::CopyPicture
            | Self::CopyDiagnostics
            | Self::Say(_)
            | Self::Tell(_)
            | Self::Quit
            | Self::QuitAnyway => false,
        }
    }

    /// Whether a person did something by it, be it only to see other things or the same otherwise.
    pub(super) const fn is_an_act(&self) -> bool {
        match self {
            Self::View(asked) => asked.shows_another(),
            Self::Page(_) | Self::OnPaper(_) | Self::ReportOnPaper => true,
            asked => asked.changes_work(),
        }
    }
}

impl OfView {
    /// Whether other things are seen or in hand by it, or the same in other figures and letters. The pointer over something, the eye
    /// elsewhere and a menu that opens make nothing untrue.
    const fn shows_another(&self) -> bool {
        match self {
            Self::Select(_)
            | Self::SelectToo(_)
            | Self::SelectAll(_)
            | Self::Point(_)
            | Self::Tool(_)
            | Self::Tab(_)
            | Self::Parking
            | Self::Theme(_)
            | Self::AsSystem
            | Self::Language(_)
            | Self::Units(_)
            | Self::Letters(_)
            | Self::StepLetters(_)
            | Self::ToRoom(_)
            | Self::Contours(_)
            | Self::Along(_)
            | Self::Alone(_) => true,
            Self::Menu(_)
            | Self::MenuByKey
            | Self::ToFields
            | Self::ToCards
            | Self::Hover(_)
            | Self::Light(_)
            | Self::Explain(_)
            | Self::Camera(_)
            | Self::Zoom(_)
            | Self::List(_)
            | Self::StopLooking
            | Self::LookAgain
            | Self::StayingLines(_)
            | Self::Prove
            | Self::StopProving
            | Self::DrawAims
            | Self::StopAims
            | Self::WhatMoves(_)
            | Self::Search
            | Self::EndSearch
            | Self::FullScreen
            | Self::JudgeAll
            | Self::StopJudging => false,
        }
    }
}

/// How a car begins.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Begin {
    /// From nothing but a class, with a forward radar and its aiming.
    New,
    /// From a copy of the one that is shown.
    Copy,
    /// The one that is shown itself.
    Change,
}

/// What can be added to a bay beside things.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Part {
    /// A door, window or gap.
    Opening(OpeningKind),
    /// A drain, pit or joint.
    Feature(FloorFeatureKind),
    /// A raised runway.
    Runway,
    /// An area that local rules want free.
    KeepFree(KeepFreeKind),
    /// One of several bays of a hall.
    HallBay,
    /// A part of the ceiling that hangs lower than the rest.
    LowCeiling,
}

impl Part {
    /// All of them, in the order in which they are offered.
    pub const ALL: [Self; 13] = [
        Self::Opening(OpeningKind::RollerDoor),
        Self::Opening(OpeningKind::SwingDoor),
        Self::Opening(OpeningKind::Window),
        Self::Opening(OpeningKind::Gap),
        Self::Feature(FloorFeatureKind::Drain),
        Self::Feature(FloorFeatureKind::Pit),
        Self::Feature(FloorFeatureKind::Joint),
        Self::Runway,
        Self::KeepFree(KeepFreeKind::Exit),
        Self::KeepFree(KeepFreeKind::Panel),
        Self::KeepFree(KeepFreeKind::Extinguisher),
        Self::HallBay,
        Self::LowCeiling,
    ];
}
