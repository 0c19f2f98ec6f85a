//! Flags: the finding's letter in the shape of its severity, near its place, with a line to it.
//!
//! A small search from near to far, the same every time: a flag never covers another flag, a mark, a target or a text,
//! and never leaves the paper.

use baywright_planner::geometry::{DVec2, angle};
use baywright_planner::words::letter;
use baywright_planner::{Severity, Subject};

use crate::finding::Flagged;
use crate::lettering::size;
use crate::list::{Item, Shape, Sign};
use crate::role::Role;
use crate::sign::SignKind;
use crate::text::Weight;
use crate::view::bodies::Astray;
use crate::view::pen::{FLAG_PX, Pen};
use crate::view::space::{FIRM, Taken, around};

/// Distances from the place at which a flag is tried, px before they are enlarged.
const DISTANCES: [f64; 10] = [20.0, 26.0, 34.0, 44.0, 56.0, 72.0, 92.0, 118.0, 150.0, 190.0];
/// Directions in which it is tried; up and to the left first, where sight lines and stand-offs seldom run.
const DIRECTIONS: usize = 16;
const FIRST_DIRECTION: f64 = 2.0;
/// A flag that costs less stands well; else places between those are tried, nearer by this share of half a step.
const GOOD: f64 = 150.0;
const BETWEEN: f64 = 0.24;
/// What a px of distance costs.
const FAR_COST: f64 = 0.8;
/// A flag on another body than its own, or nearer to it, seems to be about that one.
const ASTRAY: Astray = Astray { on_other: 200.0, nearer: 140.0, between: 0.0 };
/// A flag keeps its place while it stands so far inside the paper, px.
const KEPT_IN_PX: f64 = 12.0;
/// The dot at a flag's place, px.
const TIP_PX: f64 = 2.2;
/// The arrow of a flag whose place is off the paper, px.
const AWAY_PX: f64 = 7.0;
/// How much larger than the flag the box is that the next one rather keeps off.
const HALO: f64 = 1.7;
/// From here on a flag has two letters, or three, and is larger.
const TWO_LETTERS: usize = 27;
const THREE_LETTERS: usize = 26 + 26 * 26 + 1;

impl Pen<'_> {
    /// Puts the flag of a finding near `place` (view frame, mm).
    pub fn flag(&mut self, flagged: &Flagged<'_>, place: DVec2) {
        let severity = flagged.finding.severity;
        let subject = flagged.finding.subjects.first().cloned();
        let (reach, box_size) = self.flag_size(flagged);
        let tip = self.tip_of(place, box_size);
        let own = self.bodies.number(subject.as_ref());
        let text = letter(flagged.number);
        let tip_mm = self.mm(tip);
        let (spot, spot_mm) = match self.kept_spot(&text, tip_mm) {
            // Taken already.
            Some(stood) => stood,
            None => {
                let spot = self.free_spot(tip, box_size, own);
                self.space.take(around(spot, box_size), Taken::Read);
                (spot, self.mm(spot))
            }
        };
        self.space.take(around(spot, box_size * HALO), Taken::Halo);
        self.space.take_line(tip, spot, Taken::Led);
        self.flag_item(Role::Leader(severity), &subject, flagged, Shape::Line(vec![tip_mm, spot_mm]));
        let style = self.style(size::SMALL, Weight::Bold);
        // What lies off the paper is pointed to at its edge.
        let away = self.px(place) - tip;
        if away.length() > box_size.x {
            let way = away.normalize_or(DVec2::X) * (AWAY_PX * self.enlarged);
            let head = tip + way;
            let barbs = [way.perp(), -way.perp()].map(|aside| self.mm(tip + aside * 0.6));
            let arrow = Shape::Area(vec![vec![self.mm(head), barbs[0], barbs[1]]]);
            self.flag_item(Role::Leader(severity), &subject, flagged, arrow);
        }
        let dot = Sign {
            at: tip_mm,
            kind: SignKind::Dot,
            reach: TIP_PX * self.enlarged,
            text: String::new(),
            style,
        };
        self.flag_item(Role::Leader(severity), &subject, flagged, Shape::Sign(dot));
        let kind = SignKind::of_severity(severity);
        let sign = Sign { at: spot_mm, kind, reach, text, style };
        self.flag_item(Role::Flag(severity), &subject, flagged, Shape::Sign(sign));
    }

    /// Takes the place of a flag that keeps its place (`place` is what it points at, view frame, mm), before any figure is put there.
    pub fn keep_flag(&mut self, flagged: &Flagged<'_>, place: DVec2) {
        let (_, box_size) = self.flag_size(flagged);
        let tip = self.tip_of(place, box_size);
        if let Some((spot, _)) = self.kept_spot(&letter(flagged.number), self.mm(tip)) {
            self.space.take(around(spot, box_size), Taken::Read);
        }
    }

    /// Where a flag keeps its place while something is in hand, px and view frame, mm. A flag is the same if its letter is.
    fn kept_spot(&self, letter: &str, tip_mm: DVec2) -> Option<(DVec2, DVec2)> {
        let inside = self.window.grown(-KEPT_IN_PX);
        let stood = self.kept.flag(letter).map(|off| tip_mm + off);
        stood.map(|at| (self.px(at), at)).find(|(px, _)| inside.holds(*px))
    }

    /// Where the flag of a finding points, view frame, mm: its place, or the window's edge nearest to it.
    pub fn tip_mm(&self, flagged: &Flagged<'_>, place: DVec2) -> DVec2 {
        let (_, box_size) = self.flag_size(flagged);
        self.mm(self.tip_of(place, box_size))
    }

    /// Reach of a flag and the box that it takes, px.
    fn flag_size(&self, flagged: &Flagged<'_>) -> (f64, DVec2) {
        let number = flagged.number;
        let larger = if number < TWO_LETTERS {
            1.0
        } else if number < THREE_LETTERS {
            1.25
        } else {
            1.6
        };
        let reach = self.enlarged * FLAG_PX * larger;
        // With its white edge and a little air; the triangle is the widest sign.
        let wide = if flagged.finding.severity == Severity::Stops { 1.08 } else { 1.24 };
        (reach, DVec2::splat(2.0 * (reach * wide + 2.5)))
    }

    /// Where a flag of this size points, px: its place, or the window's edge nearest to it.
    fn tip_of(&self, place: DVec2, box_size: DVec2) -> DVec2 {
        let window = self.window.grown(-4.0 - box_size.x * 0.5);
        self.px(place).max(window.low).min(window.high.max(window.low))
    }

    /// Keeps the place that a flag will point at (view frame, mm) free of texts.
    pub fn keep_tip(&mut self, flagged: &Flagged<'_>, place: DVec2) {
        let (_, box_size) = self.flag_size(flagged);
        let tip = self.tip_of(place, box_size);
        self.space.take(around(tip, DVec2::splat(2.0 * TIP_PX * self.enlarged + 1.0)), Taken::Tip);
    }

    fn flag_item(&mut self, role: Role, subject: &Option<Subject>, flagged: &Flagged<'_>, shape: Shape) {
        self.items.push(Item { role, subject: subject.clone(), finding: Some(flagged.index), shape });
    }

    /// The cheapest place for a box of this size near a tip, px. From near to far, until nothing further can be cheaper.
    fn free_spot(&self, tip: DVec2, box_size: DVec2, own: Option<u32>) -> DVec2 {
        let mut best = (f64::INFINITY, tip);
        if self.space.is_spent() {
            let way = angle::direction(FIRST_DIRECTION);
            let first = DISTANCES.first().map_or(0.0, |d| d * self.enlarged);
            return tip + DVec2::new(way.x, -way.y) * first;
        }
        let turn = std::f64::consts::TAU / DIRECTIONS as f64;
        // Between those places only if none of them is good.
        for between in [0.0, 0.5] {
            if best.0 < GOOD {
                break;
            }
            let ways: [DVec2; DIRECTIONS] =
                std::array::from_fn(|i| angle::direction(FIRST_DIRECTION + turn * (i as f64 + between)));
            for distance in DISTANCES.map(|d| d * self.enlarged * (1.0 - BETWEEN * between)) {
                let far = distance * FAR_COST;
                if far >= best.0 {
                    break;
                }
                for way in ways {
                    let spot = tip + DVec2::new(way.x, -way.y) * distance;
                    let place = around(spot, box_size);
                    let mut cost = far + self.space.cost_for_flag_up_to(place, best.0 - far);
                    // The line to it should not run over texts or other signs.
                    if cost < best.0 {
                        cost += self.space.cost_across_for_flag_up_to(tip, spot, best.0 - cost);
                    }
                    if cost < best.0 {
                        cost += self.bodies.cost(own, None, &place, ASTRAY);
                    }
                    if cost < best.0 {
                        best = (cost, spot);
                    }
                }
            }
        }
        if best.0 < FIRM || self.space.is_spent() {
            best.1
        } else {
            self.anywhere(tip, box_size, own).unwrap_or(best.1)
        }
    }

    /// Nothing near is free: the nearest free place of the whole paper, row by row.
    fn anywhere(&self, tip: DVec2, box_size: DVec2, own: Option<u32>) -> Option<DVec2> {
        let window = self.window.grown(-4.0);
        let count = (window.size() / box_size).floor().max(DVec2::ZERO).min(DVec2::splat(MOST_SPOTS));
        let mut best: Option<(f64, DVec2)> = None;
        for row in 0..count.y as usize {
            for column in 0..count.x as usize {
                let spot = window.low + box_size * DVec2::new(column as f64 + 0.5, row as f64 + 0.5);
                let far = spot.distance(tip) * FAR_COST;
                let least = best.map_or(f64::INFINITY, |(least, _)| least);
                let place = around(spot, box_size);
                let mut cost = self.space.cost_for_flag_up_to(place, least - far) + far;
                if cost < least {
                    cost += self.space.cost_across_for_flag_up_to(tip, spot, least - cost);
                }
                if cost < least {
                    cost += self.bodies.cost(own, None, &place, ASTRAY);
                }
                if cost < least {
                    best = Some((cost, spot));
                }
            }
        }
        best.map(|(_, spot)| spot)
    }
}

/// Places tried along each side of the paper when nothing near is free.
const MOST_SPOTS: f64 = 64.0;
