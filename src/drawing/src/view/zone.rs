//! Names of keep-clear zones, in both views: inside their own edge; else further off with a line to it; else not at all.
//!
//! Zones lie over one another and over things: a name that stands beside an edge, or across one, names nothing.

use baywright_planner::Subject;
use baywright_planner::geometry::{Bounds, DVec2};

use crate::ink::surrounds;
use crate::role::Role;
use crate::text::{Align, Fitted, TextStyle};
use crate::view::label::{LEADER_COST, LEADER_FAR_COST};
use crate::view::pen::Pen;
use crate::view::space::{FIRM, Taken, around};

/// A zone that is to be named.
pub(crate) struct ZoneNamed<'a> {
    pub subject: Subject,
    /// What it keeps clear, and up to where; or its name, and what it keeps clear.
    pub whole: &'a str,
    /// What it keeps clear; or its name.
    pub brief: &'a str,
    /// Its edge as far as it is on the paper, px. Its name stands rather at a later corner.
    pub ring: &'a [DVec2],
    /// The edges of the other zones, px.
    pub others: &'a [Vec<DVec2>],
    /// The floor that it stands on, px down the paper, if that is seen: no line leads through it.
    pub floor: Option<f64>,
    pub style: TextStyle,
}

/// A name in its place.
struct Put {
    cost: f64,
    at: DVec2,
    align: Align,
    text: Fitted,
    /// Where on the edge the line to it begins.
    led_from: Option<DVec2>,
}

/// Corners of a zone at which its name is tried at most.
const MOST_CORNERS: usize = 8;
/// What it costs to leave out the heights.
const BRIEF_COST: f64 = 12.0;
/// A name that would cost so much is left out: on the car, say, it would name nothing.
const MOST_COST: f64 = 190.0;
/// What it costs to stand in another zone as well, and to be led there.
const OF_TWO_COST: f64 = 10.0;
const LED_INTO_OTHER_COST: f64 = 60.0;
/// From the edge to a name that is led to it, px before they are enlarged.
const LED_PX: [f64; 8] = [14.0, 22.0, 32.0, 44.0, 58.0, 76.0, 98.0, 124.0];
/// How far the line leans, as a share of its length: straight out first.
const LEANING: [f64; 5] = [0.0, 0.5, -0.5, 1.2, -1.2];

impl Pen<'_> {
    /// Puts the name of a zone.
    pub fn name_zone(&mut self, zone: &ZoneNamed<'_>) {
        if self.space.is_spent() || zone.ring.len() < 3 {
            return;
        }
        let whole = |pen: &Self| Some(pen.measured(zone.whole, zone.style));
        if self.name_kept(Role::LabelZone, Some(&zone.subject), zone.style, whole).is_some() {
            return;
        }
        let mut best: Option<Put> = None;
        for (worse, text) in [(0.0, zone.whole), (BRIEF_COST, zone.brief)] {
            let text = self.measured(text, zone.style);
            let least = best.as_ref().map_or(MOST_COST, |own| own.cost);
            best = self.inside_zone(zone, &text, worse, least).or(best);
        }
        let least = best.as_ref().map_or(MOST_COST, |own| own.cost);
        if least > LEADER_COST + BRIEF_COST {
            let text = self.measured(zone.brief, zone.style);
            best = self.led_to_zone(zone, &text, least).or(best);
        }
        let Some(Put { at, align, text, led_from, .. }) = best else { return };
        if let Some(from) = led_from {
            let Bounds { low, high } = self.level_box(at, align, text.width, zone.style);
            let to = from.clamp(low, high);
            self.space.take_line(from, to, Taken::Led);
            let line = vec![self.mm(from), self.mm(to)];
            self.line(Role::NameLeader, Some(zone.subject.clone()), line);
        }
        self.put_level(Role::LabelZone, Some(zone.subject.clone()), text, zone.style, (at, align));
    }

    /// The best place wholly inside, if one costs less than `least`: at corners, at the middles of edges, then anywhere in it.
    fn inside_zone(&self, zone: &ZoneNamed<'_>, text: &Fitted, worse: f64, least: f64) -> Option<Put> {
        let ring = zone.ring;
        let all = Bounds::around(ring.iter().copied())?;
        if text.width + 4.0 > all.size().x || zone.style.line_height() > all.size().y {
            return None;
        }
        let off = zone.style.line_height() * 0.5 + 3.0;
        let step = ring.len().div_ceil(MOST_CORNERS).max(1);
        let middles = ring.iter().zip(ring.iter().cycle().skip(1)).map(|(a, b)| (*a + *b) * 0.5);
        let spots = ring.iter().rev().copied().step_by(step).chain(middles.step_by(step));
        let sides = [
            (DVec2::new(-4.0, -off), Align::End),
            (DVec2::new(-4.0, off), Align::End),
            (DVec2::new(4.0, -off), Align::Start),
            (DVec2::new(4.0, off), Align::Start),
        ];
        let at_corners = spots.flat_map(|spot| sides.map(|(by, align)| (spot + by, align)));
        let shares = [0.1, 0.3, 0.5, 0.7, 0.9];
        let within = shares.iter().flat_map(|&y| shares.map(|x| all.low + all.size() * DVec2::new(x, y)));
        let places = at_corners.chain(within.map(|spot| (spot, Align::Middle)));
        let beside = |place: &Bounds| {
            let of_two = || zone.others.iter().filter(|other| surrounds(other, place.centre())).count();
            holds_box(ring, place).then(|| OF_TWO_COST * of_two() as f64)
        };
        let (cost, at, align) =
            self.cheapest_below(least - worse, (text.width, zone.style), places, beside)?;
        Some(Put { cost: worse + cost, at, align, text: text.clone(), led_from: None })
    }

    /// The best place outside from which a line leads to the edge, if one costs less than `least`.
    fn led_to_zone(&self, zone: &ZoneNamed<'_>, text: &Fitted, least: f64) -> Option<Put> {
        let ring = zone.ring;
        let step = ring.len().div_ceil(MOST_CORNERS).max(1);
        let edges = ring.iter().zip(ring.iter().cycle().skip(1)).step_by(step);
        let paper = self.window.grown(-3.0);
        let mut best: Option<Put> = None;
        for (&a, &b) in edges {
            let along = (b - a).normalize_or_zero();
            for share in [0.5, 0.2, 0.8] {
                let from = a.lerp(b, share);
                let out =
                    if surrounds(ring, from + along.perp() * 2.0) { -along.perp() } else { along.perp() };
                // Where the paper cuts it off there is no edge, and on the floor none is told from another.
                let is_taken = || self.space.cost(around(from, DVec2::splat(2.0))) >= FIRM;
                if is_taken() || !paper.holds(from) || zone.floor.is_some_and(|floor| from.y > floor - 2.0) {
                    continue;
                }
                for distance in LED_PX.map(|d| d * self.enlarged) {
                    for lean in LEANING {
                        let least = best.as_ref().map_or(least, |own| own.cost);
                        let way = (out + along * lean).normalize_or_zero();
                        let at = from + way * distance;
                        let align = Align::led(way);
                        let far = LEADER_COST + BRIEF_COST + distance * LEADER_FAR_COST;
                        if far >= least {
                            continue;
                        }
                        let place = self.level_box(at, align, text.width, zone.style);
                        // What is dear to ask is asked last.
                        let mut cost = far + self.space.cost_up_to(place, least - far);
                        let is_under = zone.floor.is_some_and(|floor| place.high.y > floor);
                        if cost >= least || is_under || meets_ring(ring, &place) {
                            continue;
                        }
                        let into = zone.others.iter().filter(|other| meets_ring(other, &place)).count();
                        cost += LED_INTO_OTHER_COST * into as f64;
                        if cost < least {
                            let to = from.clamp(place.low, place.high);
                            cost += self.space.cost_across_up_to(from, to, least - cost);
                        }
                        if cost < least {
                            best = Some(Put { cost, at, align, text: text.clone(), led_from: Some(from) });
                        }
                    }
                }
            }
        }
        best
    }
}

/// Whether a box lies wholly in a ring: its corners and the middles of its long sides do.
fn holds_box(ring: &[DVec2], place: &Bounds) -> bool {
    points(place).into_iter().all(|p| surrounds(ring, p))
}

/// Whether some of a box lies in a ring.
fn meets_ring(ring: &[DVec2], place: &Bounds) -> bool {
    points(place).into_iter().any(|p| surrounds(ring, p)) || ring.iter().any(|&p| place.holds(p))
}

fn points(place: &Bounds) -> [DVec2; 8] {
    let Bounds { low, high } = *place;
    let middle = place.centre();
    [
        low,
        DVec2::new(middle.x, low.y),
        DVec2::new(high.x, low.y),
        DVec2::new(high.x, middle.y),
        high,
        DVec2::new(middle.x, high.y),
        DVec2::new(low.x, high.y),
        DVec2::new(low.x, middle.y),
    ]
}
