//! What stands before a sensor, as it would be seen from there: left and right, up and down in degrees from its own axis, which is the
//! middle of the picture; with its field of view, its beam, and where it believes echoes to come from.
//!
//! The picture's own frame is degrees to the right and up, not mm. Nearer things are painted over farther ones. The car itself, behind
//! whose skin the sensor sits, is left out.

mod angles;
mod cells;
mod marks;
mod names;
mod order;
mod surfaces;

use std::collections::BTreeSet;

use baywright_planner::echoes::Echo;
use baywright_planner::geometry::{Bounds, DVec2, DVec3, PlanPose, angle};
use baywright_planner::model::{Arrangement, Id};
use baywright_planner::scene::{PlacedTarget, Scene};
use baywright_planner::words::Words;
use baywright_planner::{Assessment, Subject};

use super::pen::Pen;
use super::state::ViewState;
use super::top::emphasis;
use super::{Projection, Window};
use crate::finding::blamed;
use crate::ink::odd;
use crate::lettering::Lettering;
use crate::list::{Drawing, Placing, Shape};
use crate::role::Role;
use angles::{Frame, pictured};
use cells::Cells;
use order::farthest_first;
use surfaces::{Surface, surfaces};

/// So much is shown at least to either side and at most, unless the target lies beyond it; and up and down as a share of that.
const LEAST: f64 = 30.0;
const MOST: f64 = 60.0;
const UP: f64 = 0.56;
/// Around the target so much is shown, degrees, and no target is looked for further off the axis.
const ABOUT_TARGET: f64 = 8.0;
const FARTHEST: DVec2 = DVec2::new(72.0, 52.0);

/// What is looked at.
#[derive(Clone, Copy, Debug)]
pub struct LookedAt<'a> {
    /// The target that is up.
    pub target: &'a Id,
    /// From where its own echo comes, bay frame, mm, if it has one.
    pub own: Option<DVec3>,
    /// The echoes that are marked.
    pub echoes: &'a [&'a Echo],
    /// Whether they are numbered, from 1, in this order.
    pub is_numbered: bool,
}

/// What the parts of the picture are drawn from.
struct Look<'a> {
    of: &'a LookedAt<'a>,
    arrangement: &'a Arrangement,
    scene: &'a Scene,
    state: &'a ViewState,
    words: &'a Words<'a>,
    frame: &'a Frame,
    target: &'a PlacedTarget,
    blamed: BTreeSet<&'a Id>,
}

impl Look<'_> {
    /// Where a place of the bay is seen, degrees; `None` of what lies behind the sensor or beside the picture.
    fn at(&self, bay: DVec3) -> Option<DVec2> {
        let own = self.scene.bay_from_sensor.inverse() * bay;
        Some(pictured(own)).filter(|at| own.x > 0.0 && self.frame.shows(*at))
    }

    /// Whether something is drawn full: a finding is about it, it is in hand, or an echo that is marked comes by it.
    fn is_loud(&self, subject: &Subject) -> bool {
        let is_blamed = matches!(subject, Subject::Thing(id) if self.blamed.contains(id));
        is_blamed
            || self.state.selected.as_ref() == Some(subject)
            || self.of.echoes.iter().any(|own| own.how.subjects().any(|by| by == subject))
    }
}

/// What stands before the sensor while a target is up, in a window so wide, px, and as high as that needs; `None` where the target
/// lies so far off the sensor's axis that no such picture has it.
pub fn sensor_view(
    of: &LookedAt<'_>,
    arrangement: &Arrangement,
    assessment: &Assessment,
    state: &ViewState,
    width: f64,
    lettering: &Lettering<'_>,
) -> Option<Drawing> {
    let scene = &assessment.scene;
    let target = scene.targets.iter().find(|own| own.id == *of.target)?;
    let half = half_shown(arrangement, scene, target)?;
    let frame = Frame::new(half);
    let words = Words::new(arrangement, lettering.locale);
    let look = Look {
        of,
        arrangement,
        scene,
        state,
        words: &words,
        frame: &frame,
        target,
        blamed: blamed(assessment),
    };

    let px_per_degree = width.max(1.0) / (2.0 * half.x);
    let size = half * (2.0 * px_per_degree);
    let placing = Placing { origin: size * 0.5, px_per_mm: px_per_degree };
    let mut pen = Pen::new(lettering, Window { area: Bounds { low: DVec2::ZERO, high: size }, placing });
    marks::ground(&mut pen, &look);
    let mut faces: Vec<Option<Surface>> =
        surfaces(arrangement, scene, (&frame, of.target), &|own| look.is_loud(own))
            .into_iter()
            .map(Some)
            .collect();
    let flats: Vec<&[order::Flat]> = faces.iter().flatten().map(|own| own.flats.as_slice()).collect();
    let order = farthest_first(&flats);
    let in_order: Vec<Surface> = order.into_iter().filter_map(|at| faces.get_mut(at)?.take()).collect();
    let mut cells = Cells::new(size);
    for face in &in_order {
        let px = |rings: &[Vec<DVec2>]| {
            rings
                .iter()
                .map(|ring| ring.iter().map(|&p| placing.paper_point(p)).collect())
                .collect::<Vec<_>>()
        };
        cells.paint(&px(&face.rings), &face.subject);
        for own in &face.on_it {
            if let (Shape::Area(rings), Some(subject)) = (&own.shape, &own.subject) {
                cells.paint(&px(rings), subject);
            }
        }
        pen.push(face.role, Some(face.subject.clone()), Shape::Area(face.rings.clone()));
        for own in &face.on_it {
            pen.push(own.role, own.subject.clone(), own.shape.clone());
        }
    }
    marks::over(&mut pen, &look);
    names::draw(&mut pen, &look, &in_order, &cells);
    marks::edge(&mut pen, half);
    emphasis(&mut pen.items, state);
    let mut items = pen.items;
    // Stable: faces are of one layer and keep their order.
    items.sort_by_key(|item| item.role.layer());
    Some(Drawing {
        projection: Projection::Top,
        size,
        px_per_mm: px_per_degree,
        origin: placing.origin,
        bay_from_view: PlanPose::IDENTITY,
        items,
    })
}

/// How much is shown to either side, and up and down, degrees.
fn half_shown(arrangement: &Arrangement, scene: &Scene, target: &PlacedTarget) -> Option<DVec2> {
    let own = scene.bay_from_sensor.inverse() * target.centre();
    let at = pictured(own).abs();
    if own.x <= 0.0 || !at.cmple(FARTHEST).all() {
        return None;
    }
    let across = angle::degrees(arrangement.sensor.view.azimuth_half_rad).clamp(LEAST, MOST);
    let across = across.max(at.x + ABOUT_TARGET);
    Some(DVec2::new(across, (across * UP).max(at.y + ABOUT_TARGET)))
}

/// What is on top at a place of such a picture (px, y down), if that can be pointed at.
pub fn on_top(drawing: &Drawing, px: DVec2) -> Option<&Subject> {
    let at = drawing.view_point(px);
    let on = drawing.items.iter().rev().filter(|item| item.role.layer() == Role::ThingLine.layer());
    let mut on = on.filter(|item| matches!(&item.shape, Shape::Area(rings) if odd(at, rings)));
    on.find_map(|item| item.subject.as_ref())
}
