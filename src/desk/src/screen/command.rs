//! What the screen asks for. Panels send commands; one function carries them out.

use std::path::PathBuf;

use baywright_drawing::{Axis, Theme};
use baywright_planner::Subject;
use baywright_planner::edit::Edit;
use baywright_planner::geometry::DVec2;
use baywright_planner::model::{Id, Layout, ThingKind, TriggerList, Vehicle};
use baywright_planner::words::Units;

use super::forms::car::Begin;
use super::forms::room::Part;
use super::pages::Page;
use super::view::{Camera, Drawn, Tab, Tool};

/// One thing asked for.
#[derive(Clone, Debug, PartialEq)]
pub enum Command {
    /// Change the layout.
    Edit(Edit),
    /// Show changes while the pointer is down.
    Preview(Vec<Edit>),
    /// The pointer is up: keep what was shown, under this edit's name.
    Settle(Edit),
    /// Drop what is in hand.
    Abandon,
    /// One step back.
    Undo,
    /// One step forth.
    Redo,
    /// Do what the cure of a finding says, or lead to where it can be done.
    Cure(usize),
    /// Do everything that the promise names.
    KeepPromise,
    /// Put a new thing of this kind where there is room, and take it in hand.
    Add(ThingKind),
    /// Put a door, a drain ... into the bay and take it in hand.
    AddPart(Part),
    /// Put a copy of this thing beside it.
    Copy(Id),
    /// Move what is in hand by so much on the paper, mm.
    Nudge(DVec2),
    /// Turn what is in hand by so much, anticlockwise, radians.
    Turn(f64),
    /// Take something in hand, or nothing.
    Select(Option<Subject>),
    /// The pointer is over this.
    Hover(Option<Subject>),
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
    /// Open or close the list of what is in the bay.
    List(bool),
    /// Light or dark.
    Theme(Theme),
    /// How lengths are shown.
    Units(Units),
    /// Large or usual size.
    BaySize(bool),
    /// The paper as the room lies, or turned to the car.
    ToRoom(bool),
    /// Along what the side view is taken.
    Along(Option<Axis>),
    /// Show another arrangement.
    Show(Id),
    /// Make another arrangement like this one, and show it.
    Duplicate,
    /// Choose another car: its first aiming, or the one of the same name.
    Car(Id),
    /// Choose another aiming of the same car.
    Aiming(Id),
    /// Begin a new bay, asking first if work would be lost.
    BeginBay,
    /// Begin it, whatever is lost.
    NewBayAnyway,
    /// Show a bay that was just made.
    NewBay(Box<Layout>),
    /// Save the shop's own list of work that asks for aimings.
    KeepTriggers(Box<TriggerList>),
    /// Choose what the car is in for.
    BeginVisit,
    /// Show what an earlier session left behind, by position.
    TakeUp(usize),
    /// Throw it away.
    ThrowAway(usize),
    /// Begin to enter or change a car.
    BeginCar(Begin),
    /// The car that is being entered becomes this.
    ChangeCar(Box<Vehicle>),
    /// Save the car that is being entered and choose it.
    KeepCar,
    /// Drop it, asking first if something was entered.
    DropCar,
    /// Drop it, whatever is lost.
    DropCarAnyway,
    /// Show the whole form of a car, or the short one.
    WholeForm(bool),
    /// A rectangle was drawn between these two corners, bay frame, mm.
    DrawnArea(Drawn, DVec2, DVec2),
    /// A point of the picture under the plan was pressed, bay frame, mm.
    ScalePoint(DVec2),
    /// The two points of the picture are so far apart, mm.
    ScalePicture(f64),
    /// A mark was picked, by its position in the plan.
    PickedMark(usize),
    /// Say that something went wrong.
    Say(String),
    /// Lay a page over the screen, or take it away.
    Page(Option<Page>),
    /// Open a layout, asking first if work would be lost.
    Open(PathBuf),
    /// Open a layout, whatever is lost.
    OpenAnyway(PathBuf),
    /// Ask the system for a file to open.
    AskOpen,
    /// Ask the system for a place to save.
    AskSave,
    /// Save; ask for a name if there is none.
    Save,
    /// Save, replacing what someone else wrote.
    SaveOver,
    /// Save under another name; whether a file that is there may be replaced.
    SaveAs(PathBuf, bool),
    /// Save first, then do what was asked.
    SaveThen(Box<Command>),
    /// Look at the verdicts of all arrangements.
    Survey,
    /// Stop looking.
    StopSurvey,
    /// Put versions, display and log on the clipboard.
    CopyDiagnostics,
    /// Close the program, asking first if work would be lost.
    Quit,
    /// Close it, whatever is lost.
    QuitAnyway,
}
