//! The top view as a trade works by it: the room, what is in its floor, and what the trade is about; no car to be judged, and
//! nothing that is found.

use baywright_planner::Subject;
use baywright_planner::geometry::{Bounds, DVec2};

use super::aiming::ZONE_ROLES;
use super::things::Named;
use super::{Top, aiming, contours, levels, room, staying, things};
use crate::clip;
use crate::lettering::size;
use crate::list::Shape;
use crate::role::Role;
use crate::text::Weight;
use crate::view::Shown;
use crate::view::fit::Window;
use crate::view::pen::{MARK_PX, Pen};
use crate::view::space::{FIRM, Taken, around};
use crate::view::trade::Trade;

/// Draws it into a window; `sides` draws what stands around the room.
pub(crate) fn draw<'a>(
    shown: &Shown<'a>,
    window: Window,
    trade: Trade,
    sides: impl Fn(&mut Pen<'a>),
) -> Pen<'a> {
    let mut pen = Pen::new(shown.lettering, window);
    let top = Top {
        arrangement: shown.arrangement,
        assessment: shown.assessment,
        scene: &shown.assessment.scene,
        state: shown.state,
        words: &shown.words,
        view_from_bay: shown.extents.bay_from_top.inverse(),
        blamed: shown.arrangement.bay.things.iter().map(|own| &own.id).collect(),
        has_things: true,
    };
    room::draw(&mut pen, &top);
    let is_left_out = |role| matches!(role, Role::Grid | Role::Beyond);
    pen.items.retain(|item| !is_left_out(item.role));
    contours::lines(&mut pen, &top);
    sides(&mut pen);
    match trade {
        Trade::Paint => {
            zones(&mut pen, &top);
            car(&mut pen, &top);
            middle_line(&mut pen, &top);
            staying::kept(&mut pen, &top);
            aiming::marks(&mut pen, &top);
            keep_permanent(&mut pen, &top);
        }
        Trade::Concrete => {
            for tread in &top.scene.treads {
                pen.ring(Role::Tyre, Some(Subject::Car), top.ring(tread.outer()));
            }
            aiming::targets(&mut pen, &top);
            levels::points(&mut pen, &top);
        }
        // Lights and steel stay out of them too.
        Trade::Electric => zones(&mut pen, &top),
    }
    things::draw(&mut pen, &top);
    match trade {
        Trade::Paint => {
            aiming::mark_numbers(&mut pen, &top);
            permanent_numbers(&mut pen, &top);
        }
        Trade::Concrete => {
            // All is measured from walls by their names, and a line is one by its figure; a level's figure stands in the list too.
            room::names(&mut pen, &top);
            contours::figures(&mut pen, &top);
            levels::figures(&mut pen, &top);
            aiming::target_names(&mut pen, &top);
        }
        Trade::Electric => {}
    }
    things::names(&mut pen, &top, Named::Told);
    super::bays::names(&mut pen, &top, true);
    if trade != Trade::Concrete {
        aiming::names(&mut pen, &top);
        room::names(&mut pen, &top);
    }
    // Names beside walls stand over the lines of the figures.
    for item in &mut pen.items {
        if let (Role::LabelSoft, Shape::Text(text)) = (item.role, &mut item.shape) {
            text.masked = true;
        }
    }
    pen
}

/// The keep-clear zones as far as the room's box: beyond it stand figures.
fn zones(pen: &mut Pen<'_>, top: &Top<'_>) {
    let Some(inside) = Bounds::around(top.ring(top.scene.room.walls().outer())) else { return };
    for (zone, (fill, edge)) in top.scene.zones.iter().zip(ZONE_ROLES.into_iter().cycle()) {
        let subject = Some(Subject::Zone(zone.id.clone()));
        let ring = clip::ring_in_box(&top.ring(zone.prism.outline.as_polygon().outer()), &inside);
        pen.ring(fill, subject.clone(), ring.clone());
        for (&from, &to) in
            ring.iter().zip(ring.iter().cycle().skip(1)).step_by(ring.len().div_ceil(MOST_TAKEN).max(1))
        {
            pen.take_line(from, to, Taken::Line);
        }
        pen.ring(edge, subject, ring);
    }
}

/// Edges of a zone that names keep off.
const MOST_TAKEN: usize = 32;

/// Where the car stands as this set-up has it, as a thin outline.
fn car(pen: &mut Pen<'_>, top: &Top<'_>) {
    let outline = &top.arrangement.vehicle.outline_top;
    let place = |p: &DVec2| top.at(top.scene.bay_from_vehicle * *p);
    let ring: Vec<DVec2> = outline.iter().chain(outline.first()).map(place).collect();
    if ring.len() > 3 {
        pen.line(Role::CarLine, Some(Subject::Car), ring);
    }
    for tread in &top.scene.treads {
        pen.ring(Role::CarLine, Some(Subject::Car), top.ring(tread.outer()));
    }
}

/// Where the line straight ahead crosses the room, from wall to wall, bay frame, the end behind first.
pub(crate) fn wall_to_wall(scene: &baywright_planner::Scene) -> Option<[DVec2; 2]> {
    let (on, along) = (scene.bay_from_axis.origin(), scene.bay_from_axis.forward());
    let all = clip::line_in_polygon(scene.room.walls(), on, along);
    // The stretch that the front axle stands on, else the first.
    let (from, to) = all.iter().find(|(from, to)| *from <= 0.0 && 0.0 <= *to).or(all.first())?;
    Some([from, to].map(|far| on + along * *far))
}

fn middle_line(pen: &mut Pen<'_>, top: &Top<'_>) {
    if let Some([from, to]) = wall_to_wall(top.scene).map(|ends| ends.map(|p| top.at(p))) {
        pen.line(Role::CentreLine, None, vec![from, to]);
        pen.take_line(from, to, Taken::Line);
    }
}

fn keep_permanent(pen: &mut Pen<'_>, top: &Top<'_>) {
    for mark in &top.arrangement.bay.marks {
        let px = pen.px(top.at(mark.at));
        pen.space.take(around(px, DVec2::splat(2.0 * MARK_PX * pen.enlarged + 2.0)), Taken::Firm);
    }
}

/// The numbers of the marks that stay. One that has no free place is left out: the table has it.
fn permanent_numbers(pen: &mut Pen<'_>, top: &Top<'_>) {
    let style = pen.style(size::LABEL, Weight::SemiBold);
    let off = MARK_PX * pen.enlarged + 4.0;
    let texts = pen.lettering.locale.language.floor_sheets();
    for (mark, number) in top.arrangement.bay.marks.iter().zip(1..) {
        let text = pen.measured(&texts.permanent(number), style);
        let places = Pen::round_about(pen.px(top.at(mark.at)), off, style);
        if let Some((_, at, align)) =
            pen.cheapest(text.width, style, places).filter(|(cost, ..)| *cost < FIRM)
        {
            pen.put_level(Role::Label, Some(Subject::Mark(mark.id.clone())), text, style, (at, align));
        }
    }
}
