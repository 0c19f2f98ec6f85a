//! The room from above with how many of a list each place serves: the more, the darker, and each shade has its number.

use std::collections::BTreeSet;

use baywright_planner::geometry::Region;
use baywright_planner::matrix::FitMap;

use super::things::Named;
use super::{Top, car, room, things};
use crate::lettering::size;
use crate::list::Shape;
use crate::role::Role;
use crate::text::{Align, Weight};
use crate::view::Shown;
use crate::view::fit::Window;
use crate::view::pen::Pen;
use crate::view::space::FIRM;

/// How deep in a shade its number is looked for, within so much, mm.
const DEEP_MM: f64 = 20.0;
/// Shapes of a shade that get a number, the largest first.
const MOST_NUMBERS: usize = 4;

/// Draws it into a window.
pub(crate) fn draw<'a>(shown: &Shown<'a>, window: Window, map: &FitMap, has_car: bool) -> Pen<'a> {
    let mut pen = Pen::new(shown.lettering, window);
    let top = Top {
        arrangement: shown.arrangement,
        assessment: shown.assessment,
        scene: &shown.assessment.scene,
        state: shown.state,
        words: &shown.words,
        view_from_bay: shown.extents.bay_from_top.inverse(),
        blamed: BTreeSet::new(),
        has_things: true,
    };
    room::draw(&mut pen, &top);
    let steps = map.steps();
    for (_, region) in &steps {
        for shape in region.shapes() {
            pen.push(Role::Served, None, Shape::Area(shape.iter().map(|ring| top.ring(ring)).collect()));
        }
        for ring in region.rings() {
            let closed = ring.iter().chain(ring.first()).map(|&p| top.at(p));
            pen.line(Role::ServedEdge, None, closed.collect());
        }
    }
    if has_car {
        car::draw(&mut pen, &top);
    }
    things::draw(&mut pen, &top);
    // The most first: a number that has no room is one of fewer.
    for nth in (0..steps.len()).rev() {
        let Some((least, region)) = steps.get(nth) else { continue };
        let next = steps.get(nth + 1).map(|own| &own.1);
        numbers(&mut pen, &top, *least, &alone(region, next));
    }
    things::names(&mut pen, &top, Named::Rest);
    room::names(&mut pen, &top);
    pen
}

/// What of a shade no darker one covers.
fn alone(region: &Region, darker: Option<&Region>) -> Region {
    let rings = |own: &Region| own.rings().map(<[_]>::to_vec).collect::<Vec<_>>();
    darker.map_or_else(|| region.clone(), |own| Region::left(&rings(region), &rings(own)))
}

/// How many are served, in the midst of the largest shapes of a shade.
fn numbers(pen: &mut Pen<'_>, top: &Top<'_>, least: u16, region: &Region) {
    let style = pen.style(size::TITLE, Weight::Bold);
    let mut shapes: Vec<Region> = (0..region.shapes().len()).map(|nth| region.shape(nth)).collect();
    shapes.sort_by(|a, b| b.area().total_cmp(&a.area()));
    let text = pen.measured(&least.to_string(), style);
    for shape in shapes.iter().take(MOST_NUMBERS) {
        let Some((at, depth)) = shape.deepest(DEEP_MM, f64::INFINITY) else { continue };
        // A number that is wider than its shade would be read as that of the one beside.
        if pen.length(text.width * 0.5) > depth {
            continue;
        }
        let place = std::iter::once((0.0, pen.px(top.at(at)), Align::Middle));
        if let Some((_, at, align)) = pen.cheapest(text.width, style, place).filter(|(cost, ..)| *cost < FIRM)
        {
            pen.put_level(Role::Label, None, text.clone(), style, (at, align));
        }
    }
}
