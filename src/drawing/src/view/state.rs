//! What the hand and the eye do: comes in as data, so that the drawing stays a function of its input.

use std::sync::Arc;

use baywright_planner::Subject;
use baywright_planner::echoes::Echo;
use baywright_planner::geometry::{DVec2, PlanPose};
use baywright_planner::permanent::OnFloor;
use baywright_planner::place::Places;
use baywright_planner::way_in::Driven;

use crate::finding::Flagged;

/// How the paper of the top view lies.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Turned {
    /// The nose to the right, so that it stands over the side view along the centreline.
    #[default]
    ToCar,
    /// As the bay's own axes lie.
    ToRoom,
    /// The sight line to the right, so that it stands over the side view along the sight line.
    ToSightLine,
}

/// Along what the side view is taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Axis {
    /// The car's centreline.
    Centreline,
    /// The line from the sensor to the first target, in plan.
    SightLine,
}

/// A distance shown for what is in hand.
#[derive(Clone, Debug, PartialEq)]
pub struct LiveDimension {
    /// From here, bay frame, mm.
    pub from: DVec2,
    /// To here, bay frame, mm.
    pub to: DVec2,
    /// What it says.
    pub text: String,
}

/// A level shown for the floor that is in hand.
#[derive(Clone, Debug, PartialEq)]
pub struct FloorLevel {
    /// Where it was taken, bay frame, mm.
    pub at: DVec2,
    /// What it says.
    pub text: String,
}

/// What is pointed at, what is in hand, how the paper lies.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ViewState {
    /// What the pointer is over.
    pub hovered: Option<Subject>,
    /// What is in hand.
    pub selected: Option<Subject>,
    /// Its distances, shown in the top view.
    pub live: Vec<LiveDimension>,
    /// Its levels, if it is a floor, shown in the top view.
    pub levels: Vec<FloorLevel>,
    /// Whether lines of one level are drawn in the top view, and the floor's profile in the side view.
    pub contours: bool,
    /// Where the car can stand, its nose as it is now, shown on the floor of the top view if it is asked for.
    pub places: Option<Arc<Places>>,
    /// Lines and points that are proposed to stay on the floor, shown in the top view.
    pub staying: Option<Arc<OnFloor>>,
    /// How the car comes to a spot, shown in the top view.
    pub way_in: Option<Arc<Driven>>,
    /// The way of an echo, shown in both views.
    pub echo: Option<Arc<Echo>>,
    /// Whether other moves are shown over the drawing than the cures of what is found: those are left out then.
    pub other_moves: bool,
    /// What else is pointed out in the top view: named as what is in hand, and covered by no other name.
    pub told: Vec<Subject>,
    /// How the paper of the top view lies.
    pub turned: Turned,
    /// Along what the side view is taken; `None`: as suits the sensor (a corner radar looks along its sight line, all
    /// others along the centreline).
    pub along: Option<Axis>,
    /// The top view's frame in the bay while something is in hand: the paper keeps still under the hand, whatever
    /// `turned` would make of what is moved. `None` otherwise.
    pub held: Option<PlanPose>,
    /// The numbers by which findings go, by their position in the assessment's list, from 1; empty: as they are counted.
    pub numbers: Arc<[Option<usize>]>,
}

impl ViewState {
    /// A finding by the number that it goes by.
    pub(crate) fn numbered<'a>(&self, told: Flagged<'a>) -> Flagged<'a> {
        let number = self.numbers.get(told.index).copied().flatten();
        Flagged { number: number.unwrap_or(told.number), ..told }
    }
}
