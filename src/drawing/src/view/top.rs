//! The top view.

mod aiming;
mod bays;
mod beside;
mod car;
mod contours;
mod dimensions;
mod echo;
pub(crate) mod fit_map;
pub(crate) mod floor;
pub(crate) mod laid;
mod levels;
mod places;
mod room;
mod staying;
mod stops;
mod things;
pub(crate) mod told;
mod way_in;

use std::collections::BTreeSet;

use baywright_planner::geometry::{DVec2, PlanPose};
use baywright_planner::model::{Arrangement, Id};
use baywright_planner::words::Words;
use baywright_planner::{Assessment, Scene, Severity, Subject};

use crate::finding::{blamed, hiding, pinned};
use crate::list::{Item, Projection, Shape};
use crate::role::Role;
use crate::view::Shown;
use crate::view::fit::Window;
use crate::view::pen::Pen;
use crate::view::state::ViewState;

pub(crate) use aiming::{ZONE_ROLES, off_place, reach_of_beam};
pub(crate) use echo::BELIEVED_PX;
pub(crate) use room::grid_step;
use things::Named;
pub(crate) use things::{CROWD, overlap_role};

/// What the parts of the top view are drawn from.
pub(crate) struct Top<'a> {
    pub arrangement: &'a Arrangement,
    pub assessment: &'a Assessment,
    pub scene: &'a Scene,
    pub state: &'a ViewState,
    pub words: &'a Words<'a>,
    pub view_from_bay: PlanPose,
    /// The things that findings are about.
    pub blamed: BTreeSet<&'a Id>,
    /// Whether things are drawn: what is not casts no shadow.
    pub has_things: bool,
}

impl Top<'_> {
    /// A place of the bay in the view.
    pub fn at(&self, p: DVec2) -> DVec2 {
        self.view_from_bay * p
    }

    /// What hides something of a target, or of any, as rings of the view.
    pub fn hiders(&self, target: Option<&Id>) -> Vec<Vec<DVec2>> {
        if !self.has_things {
            return Vec::new();
        }
        let hiding = hiding(self.arrangement, self.assessment, target);
        hiding.iter().map(|solid| self.ring(solid.outline.as_polygon().outer())).collect()
    }

    /// Places of the bay in the view.
    pub fn ring(&self, ring: &[DVec2]) -> Vec<DVec2> {
        ring.iter().map(|&p| self.view_from_bay * p).collect()
    }
}

/// Draws the top view into a window.
pub(crate) fn draw<'a>(shown: &Shown<'a>, window: Window) -> Pen<'a> {
    let Shown { arrangement, assessment, state, ref words, ref extents, .. } = *shown;
    let mut pen = Pen::new(shown.lettering, window);
    let top = Top {
        arrangement,
        assessment,
        scene: &assessment.scene,
        state,
        words,
        view_from_bay: extents.bay_from_top.inverse(),
        blamed: blamed(assessment),
        has_things: true,
    };
    room::draw(&mut pen, &top);
    contours::lines(&mut pen, &top);
    places::draw(&mut pen, &top);
    staying::kept(&mut pen, &top);
    staying::proposed(&mut pen, &top);
    way_in::draw(&mut pen, &top);
    aiming::draw(&mut pen, &top);
    car::draw(&mut pen, &top);
    things::draw(&mut pen, &top);
    for told in pinned(assessment).map(|told| state.numbered(told)) {
        pen.keep_tip(&told, top.at(told.finding.place.truncate()));
    }
    echo::draw(&mut pen, &top);
    levels::points(&mut pen, &top);
    things::overlaps(&mut pen, &top);
    things::keep_ways_out(&mut pen, &top);
    pen.keep_to(shown.earlier, Projection::Top);
    for told in pinned(assessment).map(|told| state.numbered(told)) {
        pen.keep_flag(&told, top.at(told.finding.place.truncate()));
    }
    // From here on places are searched for, in order of precedence: by how much the aiming is stopped, which nothing else may
    // hide or push out; what is in hand, whose figures are read while it moves; the names of what stops it; dimensions of the aiming,
    // the markers of what stops it and the names of its targets; the other markers; the names of what findings are about; how high
    // hangs what hangs above; all other names.
    stops::figures(&mut pen, &top);
    dimensions::live(&mut pen, &top);
    staying::numbers(&mut pen, &top);
    things::names(&mut pen, &top, Named::Stopping);
    dimensions::room(&mut pen, &top);
    dimensions::stand_offs(&mut pen, &top);
    stops::into_other_bays(&mut pen, &top);
    aiming::mark_numbers(&mut pen, &top);
    dimensions::kept(&mut pen, &top);
    flags(&mut pen, &top, true);
    aiming::target_names(&mut pen, &top);
    flags(&mut pen, &top, false);
    things::names(&mut pen, &top, Named::Told);
    things::names(&mut pen, &top, Named::Hanging);
    things::ways_out(&mut pen, &top);
    bays::names(&mut pen, &top, true);
    aiming::names(&mut pen, &top);
    things::names(&mut pen, &top, Named::Rest);
    room::names(&mut pen, &top);
    car::left(&mut pen, &top);
    levels::figures(&mut pen, &top);
    contours::figures(&mut pen, &top);
    contours::interval(&mut pen, &top);
    // Of the two what is pointed at.
    echo::told(&mut pen, &top);
    if state.way_in.is_none() && state.echo.is_none() {
        places::told(&mut pen, &top);
    }
    way_in::told(&mut pen, &top);
    emphasis(&mut pen.items, state);
    pen
}

/// The markers of what stops the aiming, or those of what needs care.
fn flags(pen: &mut Pen<'_>, top: &Top<'_>, stops: bool) {
    for told in pinned(top.assessment).map(|told| top.state.numbered(told)) {
        if (told.finding.severity == Severity::Stops) == stops {
            pen.flag(&told, top.at(told.finding.place.truncate()));
        }
    }
}

/// Outlines of what is pointed at and of what is in hand.
pub(crate) fn emphasis(items: &mut Vec<Item>, state: &ViewState) {
    let mut outlined: Vec<Item> = Vec::new();
    let mut outline = |subject: &Option<Subject>, role: Role| {
        let Some(subject) = subject else { return };
        let shown = items.iter().filter(|item| item.subject.as_ref() == Some(subject) && has_outline(item));
        outlined.extend(shown.map(|item| {
            let shape = match &item.shape {
                Shape::Dimension(own) => Shape::Line(vec![own.line_from, own.line_to]),
                shape => shape.clone(),
            };
            Item { role, finding: None, shape, subject: item.subject.clone() }
        }));
    };
    outline(&state.hovered.clone().filter(|hovered| Some(hovered) != state.selected.as_ref()), Role::Hovered);
    outline(&state.selected, Role::Selected);
    items.append(&mut outlined);
}

/// Whether an item is the body of what it shows, and not a name, a flag or an inner line.
fn has_outline(item: &Item) -> bool {
    let body = matches!(
        item.role,
        Role::Thing(_)
            | Role::QuietThing(_)
            | Role::ThingAside(_)
            | Role::Overhead
            | Role::CarBody
            | Role::WallFaced(_)
            | Role::OpeningFaced
            | Role::StandFaced
            | Role::TargetFace
            | Role::StandBase
            | Role::Target
            | Role::Mat
            | Role::ZoneEdge
            | Role::OtherZoneEdge
            | Role::Opening
            | Role::FloorFeature(_)
            | Role::Runway
            | Role::KeepFree
            | Role::OtherBay
            | Role::OwnBay
            | Role::Mark
            | Role::Wall(_)
            | Role::KeptDimension
    );
    body && item.finding.is_none() && !matches!(item.shape, Shape::Text(_))
}
