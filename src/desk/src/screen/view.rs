//! What is seen and how: everything on the screen that is not the document.

mod laid;

use std::sync::Arc;

use baywright_drawing::{Axis, Projection, Theme};
use baywright_planner::geometry::{DVec2, PlanPose};
use baywright_planner::model::{Figures, Id, TriggerList};
use baywright_planner::permanent::OnFloor;
use baywright_planner::place::Places;
use baywright_planner::place::never::{Document, Short};
use baywright_planner::words::Locale;
use baywright_planner::{Step, Subject};

use super::page::{Begun, FailedPage, Page, VisitPage};
use crate::session::room_draft::RoomDraft;

/// Where the eye is: both views have one scale.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Camera {
    /// px for each mm.
    pub px_per_mm: f64,
    /// What lies in the middle of the top view's window, its own frame, mm.
    pub top: DVec2,
    /// What lies in the middle of the side view's window: along its axis, above the floor, mm.
    pub side: DVec2,
}

/// What decides that the car never fits.
#[derive(Clone, Debug)]
pub struct Decides {
    /// The proof: of its solids is what is drawn.
    pub proof: Arc<Document>,
    /// What is missing, between which two.
    pub short: Arc<Short>,
}

/// What a press on the drawing does.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub enum Tool {
    /// Takes things in hand.
    #[default]
    WhichSide,
    /// Measures between two points.
    Measure(Measuring),
    /// Draws a rectangle in the top view.
    Draw(Drawn),
    /// Moves, turns and sizes the picture under the plan.
    MovePicture,
    /// Takes two points of the picture under the plan; the first one, px of its file, once it was pressed.
    ScalePicture {
        /// The first point.
        first: Option<DVec2>,
    },
    /// Picks a floor mark for a step of a mark plan, by their positions.
    PickMark {
        /// The aiming.
        aiming: usize,
        /// The step.
        step: usize,
        /// Which of the marks that it uses.
        nth: usize,
    },
}

/// What a rectangle is drawn for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Drawn {
    /// A keep-clear zone of the car that is being entered, by position.
    Zone {
        /// The aiming.
        aiming: usize,
        /// The zone.
        zone: usize,
    },
    /// An area of the bay's floor.
    Area(Area),
}

/// An area of the bay's floor, by position.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Area {
    /// A drain, pit or joint.
    Feature(usize),
    /// A runway.
    Runway(usize),
    /// What local rules want free.
    KeepFree(usize),
    /// One of the bays of a hall.
    HallBay(usize),
}

/// A measurement being made, or made.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Measuring {
    /// Whether it is made in the side view.
    pub in_side_view: bool,
    /// From here: in the bay for the top view; along the axis and above the floor for the side view.
    pub from: Option<DVec2>,
    /// To here.
    pub to: Option<DVec2>,
    /// Whether an end lies on nothing that has a place of its own: it is where the pointer was.
    pub free_end: bool,
}

/// What the panel on the right shows.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Tab {
    /// What was found.
    #[default]
    Findings,
    /// How the marks are laid.
    Marks,
    /// What the floor's levels say.
    Floor,
    /// Where the car can stand.
    Parking,
    /// What the radar would see.
    Echoes,
}

/// Which form is open, and what is picked in it.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct CarView {
    /// Everything, instead of the short form.
    pub whole: bool,
    /// The part that is to be unfolded and brought into sight.
    pub lead: Option<Figures>,
    /// The zone or target of the shown aiming that is to be; of the figures, all of its zones.
    pub part: Option<Subject>,
}

/// One sentence at the foot of the screen.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Notice {
    /// The sentence.
    pub text: String,
    /// Whether something went wrong.
    pub wrong: bool,
}

/// How large letters are, and everything with them, in steps.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub struct Letters(usize);

impl Letters {
    /// Each about a sixth larger than the one before, percent of the usual size.
    const PERCENT: [u32; 7] = [100, 115, 130, 145, 160, 180, 200];
    /// For reading at arm's length: the smallest text is then 18 px and more.
    pub const LARGE: Self = Self(4);

    /// 100 is the usual size.
    pub fn percent(self) -> u32 {
        Self::PERCENT.get(self.0).copied().unwrap_or(100)
    }

    /// The largest step that is no larger; the usual size if there is none.
    pub fn of_percent(percent: u32) -> Self {
        Self(Self::PERCENT.iter().rposition(|own| *own <= percent).unwrap_or(0))
    }

    /// How much larger than usual.
    pub fn factor(self) -> f32 {
        self.percent() as f32 / 100.0
    }

    /// Whether they can be read at arm's length.
    pub fn is_large(self) -> bool {
        self >= Self::LARGE
    }

    /// One step larger or smaller; `None` if there is none.
    pub fn step(self, larger: bool) -> Option<Self> {
        let next = if larger { self.0 + 1 } else { self.0.checked_sub(1)? };
        (next < Self::PERCENT.len()).then_some(Self(next))
    }
}

/// What is seen and how.
#[derive(Clone, Debug, Default)]
pub struct Viewing {
    /// Light or dark.
    pub theme: Theme,
    /// Whether that follows the system.
    pub as_system: bool,
    /// The language, and how lengths and numbers are shown.
    pub locale: Locale,
    /// How large everything is.
    pub letters: Letters,
    /// The paper as the room lies, instead of turned to the car.
    pub to_room: bool,
    /// Along what the side view is taken, if it was chosen.
    pub along: Option<Axis>,
    /// Which view is seen where there is room for one only.
    pub alone: Projection,
    /// Where the eye is; `None`: all is seen.
    pub camera: Option<Camera>,
    /// What the pointer is over.
    pub hovered: Option<Subject>,
    /// The finding whose card or marker the pointer is over, by position: both are lit, and what its press would do is shown.
    pub lit: Option<usize>,
    /// What is in hand; of several the one whose figures are shown and changed.
    pub selected: Option<Subject>,
    /// What is in hand together with it: what can be moved, and nothing twice.
    pub also: Vec<Subject>,
    /// Where the menu of what is in hand is open, px of the screen.
    pub menu: Option<egui::Pos2>,
    /// The finding whose place is shown, by position.
    pub pointed: Option<usize>,
    /// The findings whose limit is explained, by position.
    pub explained: Option<usize>,
    /// How the form of a car is open.
    pub car: CarView,
    /// Two points of the picture under the plan whose distance is asked for, px of its file: they go with it.
    pub scale: Option<[DVec2; 2]>,
    /// The distance of a thing to a wall that was typed last: with another one it makes a place.
    pub typed_gap: Option<TypedGap>,
    /// What a press does.
    pub tool: Tool,
    /// What the right panel shows.
    pub tab: Tab,
    /// How far beside their places the marks lie, drawn larger.
    pub as_laid: Vec<baywright_drawing::LiveDimension>,
    /// Where the car can stand, its nose as it is now; drawn while that is looked at.
    pub places: Option<Arc<Places>>,
    /// Lines and points that are proposed to stay on the floor; drawn while that is looked at.
    pub staying: Option<Arc<OnFloor>>,
    /// The way in that the pointer or the keyboard is at, drawn while that is looked at.
    pub way_in: Option<Arc<baywright_planner::way_in::Driven>>,
    /// The echo whose way is drawn while that is looked at.
    pub echo: Option<Arc<baywright_planner::echoes::Echo>>,
    /// The spot that the pointer or the keyboard is at: the car is drawn there too, bay from vehicle.
    pub spot: Option<PlanPose>,
    /// What decides that the car never fits, while that is told: it is drawn.
    pub decides: Option<Decides>,
    /// What would be done to make room: things are drawn where they go too.
    pub to_do: Vec<Step>,
    /// Whether lines of one level and the floor's profile are drawn.
    pub contours: bool,
    /// Whether the panel on the left is open where there is little room.
    pub list_open: bool,
    /// What is sought in that list, if anything; whether the field is to be given the keyboard.
    pub sought: Option<(String, bool)>,
    /// What lies over the screen: laid and taken away by `Desk::lay` alone.
    page: Option<Page>,
    /// Whether the list of what was left behind was laid and not closed by a person since: it is there again whenever what it led to
    /// is done.
    awaits_left_behind: bool,
    /// Over what the page of what is printed was laid: one goes back there.
    under_paper: Option<Page>,
    /// A bay that was begun and put aside.
    pub bay_begun: Option<RoomDraft>,
    /// The list of work, changed and not saved, or with something ticked, put aside with its page.
    pub list_begun: Option<Box<VisitPage>>,
    /// What a routine said that failed, put aside with its page while something is checked.
    pub routine_said: Option<Box<FailedPage>>,
    /// The arrangements that were shown before, the last one at the end: who comes back to a bay of a hall finds its own.
    pub shown_before: Vec<Id>,
    /// What was said last.
    pub notice: Option<Notice>,
}

/// A distance of a thing to a wall that was typed.
#[derive(Clone, Debug, PartialEq)]
pub struct TypedGap {
    /// The thing.
    pub thing: Id,
    /// Where it stood then, bay from its own frame.
    pub at: PlanPose,
    /// Into the room, square to the wall, of length 1; bay frame.
    pub inward: DVec2,
}

impl Viewing {
    /// Takes one thing in hand, or nothing, and lets go of all else.
    pub(super) fn choose(&mut self, subject: Option<Subject>) {
        self.selected = subject;
        self.also.clear();
    }

    /// Takes several in hand; the last of them leads.
    pub(super) fn choose_all(&mut self, mut subjects: Vec<Subject>) {
        self.selected = subjects.pop();
        self.also = subjects;
    }

    /// All that is in hand, the one that leads first.
    pub(super) fn chosen(&self) -> impl Iterator<Item = &Subject> {
        self.selected.iter().chain(&self.also)
    }

    /// Whether it is in hand, alone or with others.
    pub(super) fn is_chosen(&self, subject: &Subject) -> bool {
        self.chosen().any(|own| own == subject)
    }

    /// Whether more than one is in hand.
    pub(super) const fn are_several(&self) -> bool {
        !self.also.is_empty()
    }

    /// Takes it in hand with what is there already, or lets go of it alone.
    pub(super) fn choose_too(&mut self, subject: Subject) {
        let mut all: Vec<Subject> = self.chosen().cloned().collect();
        // The one that leads comes first, and is to be the last.
        if !all.is_empty() {
            all.rotate_left(1);
        }
        match all.iter().position(|own| *own == subject) {
            Some(at) => {
                all.remove(at);
            }
            None => all.push(subject),
        }
        self.choose_all(all);
    }

    /// How it starts, shown in the same way: nothing of what was only seen is kept. The list of what was left behind is then found in
    /// the menu: what failed may be the drawing of it.
    pub(super) fn anew(&self) -> Self {
        let Self { theme, as_system, locale, letters, to_room, .. } = *self;
        Self { theme, as_system, locale, letters, to_room, ..Self::default() }
    }

    /// The list of work, as long as it is changed and not saved, on its page or put aside.
    pub(super) fn list_changed(&self) -> Option<&TriggerList> {
        let open = match &self.page {
            Some(Page::Visit(open)) => Some(open),
            _ => self.list_begun.as_ref(),
        };
        open.filter(|open| open.is_changed()).map(|open| &open.list)
    }

    /// What is typed on a page and would be lost by closing the program.
    pub(super) fn begun(&self) -> Option<Begun> {
        let of_list = self.list_changed().map(|_| Begun::List);
        of_list.or_else(|| self.room_begun().map(|_| Begun::Bay))
    }

    /// A bay that is being typed, or was put aside; `None` if nothing was typed yet.
    pub(super) fn room_begun(&self) -> Option<&RoomDraft> {
        let open = match &self.page {
            Some(Page::NewBay(open)) => Some(&open.room),
            _ => self.bay_begun.as_ref(),
        };
        open.filter(|room| room.is_begun(self.locale.language.rooms().my_bay))
    }
}
