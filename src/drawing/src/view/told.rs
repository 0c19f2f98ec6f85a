//! What a customer sees beside an idea: the bay from above, or a picture of why what stands about matters to a sensor.

mod sent_back;

use baywright_planner::customer::{Idea, Moves, Sense};
use baywright_planner::geometry::{Bounds, DVec2, PlanPose, angle};
use baywright_planner::model::{Arrangement, Material};
use baywright_planner::{Assessment, Severity, Subject};

use super::state::ViewState;
use super::top::told;
use super::{Fit, Shown, Window};
use crate::lettering::{Lettering, size};
use crate::list::{Drawing, Item, PX_PER_PAPER_MM, Placing, Projection, Text};
use crate::role::Role;
use crate::sign::SignKind;
use crate::text::{Align, Weight};
use crate::view::boxes::text_boxes;
use crate::view::fit::WALL_PX;
use crate::view::pen::Pen;

/// The drawing beside an idea of this set-up, in a box so wide and so high, px. What is moved is drawn as it is then.
pub fn told_view(
    idea: &Idea,
    arrangement: &Arrangement,
    assessment: &Assessment,
    (width, height): (f64, f64),
    lettering: &Lettering<'_>,
) -> Drawing {
    let size = DVec2::new(width, height);
    if let Idea::Why(sense) = idea {
        return why(*sense, size, lettering);
    }
    let strip = sent_back::strip(idea, lettering);
    let fit = |held| sent_back::over(largest(held, size - DVec2::Y * strip), strip);
    bay(idea, arrangement, assessment, fit, lettering)
}

/// The same to a scale, in a window as large as that needs: a millimetre of the paper is so many of the bay. The picture of why has
/// none and is as large as the box.
pub(crate) fn told_to_scale(
    idea: &Idea,
    arrangement: &Arrangement,
    assessment: &Assessment,
    (one_to, size): (f64, DVec2),
    lettering: &Lettering<'_>,
) -> Drawing {
    if let Idea::Why(sense) = idea {
        return why(*sense, size, lettering);
    }
    let px_per_mm = PX_PER_PAPER_MM / one_to;
    let fit = |held: Bounds| {
        let size = held.size() * px_per_mm + DVec2::splat(2.0 * TOLD_MARGIN_PX);
        let whole = Fit::Window { size, px_per_mm, middle: held.centre() };
        sent_back::over(whole, sent_back::strip(idea, lettering))
    };
    bay(idea, arrangement, assessment, fit, lettering)
}

fn bay(
    idea: &Idea,
    arrangement: &Arrangement,
    assessment: &Assessment,
    fit: impl Fn(Bounds) -> Fit,
    lettering: &Lettering<'_>,
) -> Drawing {
    let state = ViewState::default();
    let (now, said, before) = match idea {
        Idea::Moves(Moves::Known(after)) => {
            (&after.arrangement, &after.assessment, Some((arrangement, &assessment.scene)))
        }
        _ => (arrangement, assessment, None),
    };
    let shown = Shown::new(now, said, &state, lettering);
    // The same paper before and after, so that what was moved is seen to be.
    let shown = match before {
        Some((was, _)) => Shown { extents: super::Extents::of(was, assessment, &state), ..shown },
        None => shown,
    };
    let window = shown.window(Projection::Top, fit(shown.extents.top), DVec2::ZERO);
    let mut pen = told::draw(&shown, window, idea, before);
    if let Idea::SendsBack(own) = idea {
        sent_back::draw(&mut pen, own, &shown);
    }
    let Window { area, placing } = window;
    drawing(pen, area.size(), placing, shown.extents.bay_from_top, area.low)
}

/// As large as the walls let it be: nothing stands around them.
pub(super) fn largest(held: Bounds, size: DVec2) -> Fit {
    let room = (size - DVec2::splat(2.0 * TOLD_MARGIN_PX)).max(DVec2::ONE);
    let px_per_mm = (room / held.size().max(DVec2::ONE)).min_element();
    Fit::Window { size, px_per_mm, middle: held.centre() }
}

/// Between the room and the edge of the box, px: the walls, and a little more.
pub(crate) const TOLD_MARGIN_PX: f64 = WALL_PX + 6.0;

pub(super) fn drawing(
    pen: Pen<'_>,
    size: DVec2,
    Placing { origin, px_per_mm }: Placing,
    bay_from_view: PlanPose,
    low: DVec2,
) -> Drawing {
    let mut items: Vec<Item> = pen.items;
    // Stable: items of one layer keep the order in which they were drawn.
    items.sort_by_key(|item| item.role.layer());
    Drawing { projection: Projection::Top, size, px_per_mm, origin: origin - low, bay_from_view, items }
}

/// How large the picture of why is, mm of its own: the sensor at its left, the target at its right, a trolley nearer than that.
const WHY_MM: DVec2 = DVec2::new(5_000.0, 3_000.0);
const TARGET_AT: DVec2 = DVec2::new(3_900.0, 450.0);
const TROLLEY_AT: DVec2 = DVec2::new(2_500.0, -650.0);
/// Half of the target's width, and of the trolley's length and width.
const TARGET_HALF: f64 = 350.0;
const TROLLEY_HALF: DVec2 = DVec2::new(320.0, 230.0);
/// Rings of waves, how far from one to the next, and half the angle that they spread over, radians.
const RINGS: u8 = 9;
const RING_MM: f64 = 380.0;
const SPREAD: f64 = 0.55;
/// Half as many steps of a wave: short enough that it stops beside a text and not well before it.
const WAVE_STEPS: i32 = 48;

/// A picture of no bay: what a sensor sends out, or sees, and what a trolley does to that.
fn why(sense: Sense, size: DVec2, lettering: &Lettering<'_>) -> Drawing {
    let px_per_mm = (size / WHY_MM).min_element().max(1e-3);
    let middle = DVec2::new(WHY_MM.x * 0.5 - 500.0, 0.0);
    let placing = Placing { origin: size * 0.5 - DVec2::new(middle.x, -middle.y) * px_per_mm, px_per_mm };
    let window = Window { area: Bounds { low: DVec2::ZERO, high: size }, placing };
    let mut pen = Pen::new(lettering, window);
    // What is seen stands straight before the sensor where the trolley is to hide it.
    let trolley = if sense == Sense::Radar { TROLLEY_AT } else { DVec2::new(2_300.0, 60.0) };
    let target = TARGET_AT;
    let face = [target - DVec2::Y * TARGET_HALF, target + DVec2::Y * TARGET_HALF];
    let (sensor, (at_target, at_trolley)) = lettering.locale.language.customer().why_names(sense);
    let style = pen.style(size::LEAD, Weight::SemiBold);
    let below = pen.length(style.line_height());
    let texts: Vec<Text> = [
        (sensor, DVec2::new(0.0, -below)),
        (at_target, face[0] - DVec2::Y * below),
        (at_trolley, trolley - DVec2::Y * (TROLLEY_HALF.y + below)),
    ]
    .into_iter()
    .map(|(text, at)| pen.text(at, text, style, Align::Middle))
    .collect();
    // No wave runs through what is written.
    let written: Vec<Bounds> = texts
        .iter()
        .flat_map(|text| text_boxes(pen.px(text.at), text))
        .map(|place| place.grown(3.0))
        .collect();
    match sense {
        Sense::Radar | Sense::LaserLight => {
            for ring in 1..=RINGS {
                let radius = RING_MM * f64::from(ring);
                let arc = (-WAVE_STEPS..=WAVE_STEPS)
                    .map(|i| angle::direction(SPREAD * f64::from(i) / f64::from(WAVE_STEPS)) * radius);
                let arc: Vec<DVec2> = arc.collect();
                let is_free = |p: &DVec2| !written.iter().any(|place| place.holds(pen.px(*p)));
                let pieces: Vec<Vec<DVec2>> = arc
                    .chunk_by(|a, b| is_free(a) == is_free(b))
                    .filter(|piece| piece.len() > 1 && piece.first().is_some_and(is_free))
                    .map(<[DVec2]>::to_vec)
                    .collect();
                pieces.into_iter().for_each(|piece| pen.line(Role::BeamEdge, None, piece));
            }
        }
        Sense::Picture => pen.ring(Role::BeamFill, None, vec![DVec2::ZERO, face[0], face[1]]),
    }
    let board = vec![face[0], face[1], face[1] + DVec2::X * 60.0, face[0] + DVec2::X * 60.0];
    pen.ring(Role::Target, None, board);
    let corners = [(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)];
    let body: Vec<DVec2> = corners.iter().map(|&(x, y)| trolley + TROLLEY_HALF * DVec2::new(x, y)).collect();
    match sense {
        Sense::Radar => {
            pen.line(Role::SightLine, None, vec![DVec2::ZERO, target]);
            back(&mut pen, target, Role::SightLine);
            let edge = trolley + DVec2::new(-TROLLEY_HALF.x, TROLLEY_HALF.y * 0.5);
            pen.line(Role::Leader(Severity::Stops), None, vec![DVec2::ZERO, edge]);
            back(&mut pen, edge, Role::Leader(Severity::Stops));
        }
        Sense::LaserLight | Sense::Picture => {
            let edge = trolley - DVec2::X * TROLLEY_HALF.x;
            // What of the face lies behind the trolley, as seen from the sensor.
            let behind = |y: f64| {
                let at = (edge.y + y) / edge.x * target.x;
                DVec2::new(target.x, at.clamp(face[0].y, face[1].y))
            };
            let (low, high) = (behind(-TROLLEY_HALF.y), behind(TROLLEY_HALF.y));
            let shadow = vec![edge - DVec2::Y * TROLLEY_HALF.y, low, high, edge + DVec2::Y * TROLLEY_HALF.y];
            pen.ring(Role::Overlap(Severity::Stops), None, shadow);
            if sense == Sense::LaserLight {
                pen.line(Role::Leader(Severity::Stops), None, vec![DVec2::ZERO, edge]);
                back(&mut pen, edge, Role::Leader(Severity::Stops));
            }
        }
    }
    pen.ring(Role::Thing(Material::Steel), None, body);
    pen.sign(Role::Sensor, Some(Subject::Sensor), DVec2::ZERO, SignKind::Dot, 6.0);
    for text in texts {
        pen.put_text(Role::Label, None, text);
    }
    drawing(pen, size, placing, PlanPose::IDENTITY, DVec2::ZERO)
}

/// A head at the sensor's end of what comes back from there.
fn back(pen: &mut Pen<'_>, from: DVec2, role: Role) {
    const HEAD_MM: f64 = 170.0;
    let way = from.normalize_or(DVec2::X);
    let tip = way * HEAD_MM;
    let aside = way.perp() * (HEAD_MM * 0.45);
    let base = way * (HEAD_MM * 2.0);
    pen.line(role, None, vec![base + aside, tip, base - aside]);
}
