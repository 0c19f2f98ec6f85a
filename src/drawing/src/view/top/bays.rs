//! The bays of a hall from above: their outlines, as painted lines, and their names at an edge.

use baywright_planner::Subject;
use baywright_planner::geometry::{Bounds, DVec2, Located, locate_in};
use baywright_planner::model::HallBay;

use super::Top;
use crate::finding::is_told;
use crate::lettering::size;
use crate::list::Text;
use crate::role::Role;
use crate::text::{Align, Weight, fitted};
use crate::view::label::{TOO_DEAR, Wanted};
use crate::view::pen::{Pen, area, readable};
use crate::view::space::{Taken, around};

/// From this cost on a bay's name is left out: on a thing it would name that. The own bay's and one's that a finding speaks of is
/// led there then.
const NAME_COST: f64 = 60.0;
/// What a radian costs by which a name is not level.
const STEEP_COST: f64 = 4.0;
/// Between a bay's line and its name, px.
const OFF_PX: f64 = 4.0;

fn is_own(top: &Top<'_>, bay: &HallBay) -> bool {
    top.arrangement.in_bay.as_ref() == Some(&bay.id)
}

/// The one that the set-up is made in last, over the others' lines.
fn in_order<'a>(top: &Top<'a>) -> impl Iterator<Item = (&'a HallBay, bool)> + use<'a> {
    let own = top.arrangement.in_bay.as_ref();
    let all = top.arrangement.bay.bays.iter();
    let others = all.clone().filter(move |bay| own != Some(&bay.id)).map(|bay| (bay, false));
    others.chain(all.filter(move |bay| own == Some(&bay.id)).map(|bay| (bay, true)))
}

pub(super) fn draw(pen: &mut Pen<'_>, top: &Top<'_>) {
    for (bay, own) in in_order(top) {
        let role = if own { Role::OwnBay } else { Role::OtherBay };
        pen.push(role, Some(Subject::HallBay(bay.id.clone())), area(&bay.outline, &top.view_from_bay));
        for edge in bay.outline.edges() {
            pen.take_line(top.at(edge.from), top.at(edge.to), Taken::Line);
        }
    }
}

/// The names of the own bay and of those that findings speak of, or of all others.
pub(super) fn names(pen: &mut Pen<'_>, top: &Top<'_>, told: bool) {
    for bay in &top.arrangement.bay.bays {
        let is_told = is_own(top, bay) || is_told(top.assessment, &Subject::HallBay(bay.id.clone()));
        if is_told == told && !name(pen, top, bay) && told {
            led(pen, top, bay);
        }
    }
}

/// From further off to the edge that has the most room beside it.
fn led(pen: &mut Pen<'_>, top: &Top<'_>, bay: &HallBay) {
    let style = pen.style(size::SMALL, Weight::SemiBold);
    let mut edges: Vec<DVec2> = bay.outline.edges().map(|edge| pen.px(top.at(edge.at(0.5)))).collect();
    edges.retain(|at| pen.window.holds(*at));
    edges.sort_by(|a, b| pen.space.cost(around(*a, FREE_PX)).total_cmp(&pen.space.cost(around(*b, FREE_PX))));
    let Some(&at) = edges.first() else { return };
    pen.name(Wanted {
        text: bay.id.as_str(),
        brief: None,
        role: if is_own(top, bay) { Role::Label } else { Role::LabelSoft },
        subject: Some(Subject::HallBay(bay.id.clone())),
        style,
        around: Bounds { low: at, high: at }.grown(1.0),
        most_width: 240.0 * pen.enlarged,
        must: false,
        inside: false,
        body: None,
        led: true,
        most_cost: TOO_DEAR,
        under: None,
    });
}

/// So much is looked at around the middle of an edge, px.
const FREE_PX: DVec2 = DVec2::new(120.0, 60.0);

/// Inside, along one of its edges, rather one that is level: where it covers least. Whether it was put.
fn name(pen: &mut Pen<'_>, top: &Top<'_>, bay: &HallBay) -> bool {
    let own = is_own(top, bay);
    let (role, weight) =
        if own { (Role::Label, Weight::SemiBold) } else { (Role::LabelSoft, Weight::Regular) };
    let style = pen.style(size::SMALL, weight);
    let subject = Subject::HallBay(bay.id.clone());
    let whole = |pen: &Pen<'_>| Some(pen.measured(bay.id.as_str(), style));
    if let Some(is_put) = pen.name_kept(role, Some(&subject), style, whole) {
        return is_put;
    }
    let mut best: Option<(f64, Text)> = None;
    for edge in bay.outline.edges() {
        let (from, to) = (top.at(edge.from), top.at(edge.to));
        let length = from.distance(to) * pen.scale - 2.0 * OFF_PX;
        let Some(text) = fitted(bay.id.as_str(), style, length.max(0.0), pen.lettering.measure) else {
            continue;
        };
        let along = (to - from).normalize_or_zero();
        let half = pen.length(text.width * 0.5 + OFF_PX);
        let angle = readable(along);
        // A slanted text is taken to fill small level boxes, which are as much wider across its line.
        let across = along.x.abs() + along.y.abs();
        let off = pen.length(style.line_height() * 0.5 * across * across + OFF_PX);
        for (step, share) in (0_u8..).zip([1.0, 0.0, 0.5, 0.25, 0.75, 0.12, 0.88, 0.37, 0.63]) {
            // The inside lies left of an edge.
            let far = half + share * (from.distance(to) - 2.0 * half);
            let at = from + along * far + along.perp() * off;
            let is_inside = locate_in(&bay.outline, top.view_from_bay.inverse() * at) != Located::Outside;
            if !is_inside || !pen.window.holds(pen.px(at)) {
                continue;
            }
            let mut label = pen.text(at, &text.text, style, Align::Middle);
            (label.angle, label.masked) = (angle, true);
            let cost = f64::from(step) + STEEP_COST * angle.abs() + pen.text_cost(&label);
            if best.as_ref().is_none_or(|(least, _)| cost < *least) {
                best = Some((cost, label));
            }
        }
    }
    let Some((_, label)) = best.filter(|(cost, _)| *cost < NAME_COST) else { return false };
    pen.put_text(role, Some(subject), label);
    true
}
