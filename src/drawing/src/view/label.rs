//! Names find a free place: inside what they name if they fit, else beside it, else shorter, else not at all.

use baywright_planner::geometry::{Bounds, DVec2, angle};
use baywright_planner::{Severity, Subject};

use crate::role::Role;
use crate::text::{Align, Fitted, TextStyle, fitted};
use crate::view::bodies::Astray;
use crate::view::pen::Pen;
use crate::view::space::{FIRM, Taken};

/// Between a thing and its name, px.
const OFF_PX: f64 = 5.0;
/// A name on another body, or nearer to it than to its own, seems to be that one's; a line to its own says that it is not.
const ASTRAY: Astray = Astray { on_other: 150.0, nearer: 24.0, between: 30.0 };
const ASTRAY_LED: Astray = Astray { on_other: 150.0, nearer: 40.0, between: 0.0 };
/// The same of what hangs above, whose own place is less seen than what stands under it.
const ASTRAY_HANGING: Astray = Astray { on_other: 150.0, nearer: 110.0, between: 40.0 };
/// What each px costs by which a name at a corner is longer than what it names, and the most of it; so many places come first
/// that are under, over and beside.
const OVERHANG_COST: f64 = 0.2;
const MOST_OVERHANG: f64 = 20.0;
const CENTRED: u8 = 4;
/// What it costs that the line to a name begins under what is read.
const BEGINS_UNDER_COST: f64 = 260.0;
/// What it costs to say less, where that is known.
const BRIEF_COST: f64 = 9.0;
/// Up to this cost a whole name is not held against its brief form: it stands over, under or beside what it names.
const NEXT_TO_COST: f64 = OUTSIDE_COST + 2.0;
/// A name that costs no more is put down rather than left out, wherever there is a free place: what stops is never nameless.
pub(crate) const NEEDED: f64 = FIRM - 1.0;
/// A shortened name is worth less than a whole one in a worse place.
const SHORT_COST: f64 = 30.0;
/// A name that would cover as much as this is left out: what it names can still be pointed at.
pub(crate) const TOO_DEAR: f64 = 190.0;
/// A whole name may run over the edges of what it names by so much on each side, px, and what that costs: less than letters that
/// are missing.
const OVER_EDGE_PX: f64 = 7.0;
const OVER_EDGE_COST: f64 = 10.0;
/// How far off the middle of what it names a name may stand in it, as a share of the room that is left there.
const ASIDE: f64 = 0.35;
/// Outside of what it names is worth less than inside.
const OUTSIDE_COST: f64 = 4.0;

/// Nearer to what it is of than this a figure needs no line, px before it is enlarged.
const NEXT_TO_PX: f64 = 12.0;

/// A name looking for its place.
pub(crate) struct Wanted<'a> {
    pub text: &'a str,
    /// What is said where the whole has no room next to what it names.
    pub brief: Option<&'a str>,
    pub role: Role,
    pub subject: Option<Subject>,
    pub style: TextStyle,
    /// What it names, px.
    pub around: Bounds,
    /// The widest it may be, px.
    pub most_width: f64,
    /// Whether it is put down even where it covers something.
    pub must: bool,
    /// Whether it may stand inside what it names.
    pub inside: bool,
    /// As what its body is taken on the paper.
    pub body: Option<Taken>,
    /// Whether it stands further off with a line to it rather than not at all.
    pub led: bool,
    /// From this cost on it is left out.
    pub most_cost: f64,
    /// What it names stands on something, a floor: a name below it stands below that, px.
    pub under: Option<f64>,
}

/// A place for a name in what it names or next to it.
struct NextTo {
    cost: f64,
    at: DVec2,
    align: Align,
    text: Fitted,
}

impl Pen<'_> {
    /// Puts a name near what it names. Whether it was put.
    pub fn name(&mut self, wanted: Wanted<'_>) -> bool {
        if self.space.is_spent() && !wanted.must {
            return false;
        }
        let whole = |pen: &Self| fitted(wanted.text, wanted.style, wanted.most_width, pen.lettering.measure);
        if let Some(is_put) = self.name_kept(wanted.role, wanted.subject.as_ref(), wanted.style, whole) {
            return is_put;
        }
        let Some(whole) = whole(self) else { return false };
        let mut best = self.next_to(&wanted, wanted.text, &whole);
        let mut far = whole;
        if best.as_ref().is_none_or(|put| put.cost > NEXT_TO_COST)
            && let Some(brief) = wanted.brief
            && let Some(text) = fitted(brief, wanted.style, wanted.most_width, self.lettering.measure)
        {
            let put = self.next_to(&wanted, brief, &text);
            let put = put.map(|put| NextTo { cost: put.cost + BRIEF_COST, ..put });
            if put.as_ref().is_some_and(|put| best.as_ref().is_none_or(|best| put.cost < best.cost)) {
                best = put;
            }
            far = text;
        }
        if wanted.led && best.as_ref().is_none_or(|put| put.cost >= LEADER_COST) {
            // A name stands nowhere dearer for being led there.
            let most = if wanted.must { FIRM } else { (wanted.most_cost + LEADER_COST).min(FIRM) };
            let least = best.as_ref().map_or(most, |put| put.cost).min(most);
            if let Some((at, align)) = self.far_place(&wanted, far.width, least) {
                self.put_by(&wanted, far, (at, align), true);
                return true;
            }
        }
        match best {
            Some(NextTo { cost, at, align, text }) if cost < wanted.most_cost || wanted.must => {
                self.put_by(&wanted, text, (at, align), false);
                true
            }
            _ => false,
        }
    }

    /// Puts a figure of a finding where it stood a moment ago beside what the finding's flag points at (view frame, mm), if it is free
    /// there. Whether it was put.
    pub fn figure_kept(&mut self, wanted: &Wanted<'_>, letter: &str, tip_mm: DVec2) -> bool {
        let Some((off, align)) = self.kept.figure(letter) else { return false };
        let text = self.measured(wanted.text, wanted.style);
        let at = self.px(tip_mm + off);
        let place = self.level_box(at, align, text.width, wanted.style);
        let (from, to) = line_between(&wanted.around, &place);
        let (own, about) = self.whose(wanted);
        let mut cost = self.space.cost_up_to(place, TOO_DEAR);
        if cost < TOO_DEAR {
            cost += self.space.cost_over_read(from, to) + self.bodies.cost(own, about, &place, ASTRAY_LED);
        }
        if cost >= TOO_DEAR || from.distance(to) > MUST_FAR_PX * self.enlarged {
            return false;
        }
        self.put_by(wanted, text, (at, align), from.distance(to) > NEXT_TO_PX * self.enlarged);
        true
    }

    /// The best place in what it names or right next to it, and what it costs there.
    fn next_to(&self, wanted: &Wanted<'_>, name: &str, whole: &Fitted) -> Option<NextTo> {
        let (own, about) = self.whose(wanted);
        let astray = if about.is_some() { ASTRAY_HANGING } else { ASTRAY };
        let height = wanted.style.line_height();
        let Bounds { low, high } = wanted.around;
        let middle = wanted.around.centre();
        let room = wanted.around.size();
        let mut best: Option<NextTo> = None;
        if wanted.inside && room.y >= height + 2.0 {
            let inside = if whole.width + 8.0 <= room.x {
                Some((0.0, whole.clone()))
            } else if whole.width <= room.x + 2.0 * OVER_EDGE_PX {
                Some((OVER_EDGE_COST, whole.clone()))
            } else {
                let short = fitted(name, wanted.style, room.x - 8.0, self.lettering.measure);
                let letters = whole.text.chars().count();
                // A name cut short is told better beside the thing, unless nearly all of it is there.
                short
                    .filter(|short| 4 * short.text.chars().count() > 3 * letters)
                    .map(|short| (SHORT_COST, short))
            };
            if let Some((extra, text)) = inside {
                // The body that it covers is its own.
                let body = wanted.body.map_or(0.0, Taken::cost);
                let spare = (room - DVec2::new(text.width + 8.0, height + 2.0)).max(DVec2::ZERO) * ASIDE;
                let ways = [(0.0, 0.0), (0.0, -1.0), (0.0, 1.0), (1.0, 0.0), (-1.0, 0.0)];
                let corners = [(1.0, -1.0), (1.0, 1.0), (-1.0, -1.0), (-1.0, 1.0)];
                for (aside, (x, y)) in (0_u8..).zip(ways.into_iter().chain(corners)) {
                    let at = middle + spare * DVec2::new(x, y);
                    let place = self.level_box(at, Align::Middle, text.width, wanted.style);
                    let extra = extra + f64::from(aside) * 0.25;
                    let cost = (extra + self.space.cost(place) - body).max(extra);
                    if best.as_ref().is_none_or(|put| cost < put.cost) {
                        best = Some(NextTo { cost, at, align: Align::Middle, text: text.clone() });
                    }
                    // Off its middle only if something is there.
                    if cost <= OUTSIDE_COST {
                        break;
                    }
                }
            }
        }
        let off = height * 0.5 + 3.0;
        let foot = wanted.under.map_or(high.y, |under| high.y.max(under));
        let places = [
            (DVec2::new(middle.x, foot + off), Align::Middle),
            (DVec2::new(middle.x, low.y - off), Align::Middle),
            (DVec2::new(high.x + OFF_PX, middle.y), Align::Start),
            (DVec2::new(low.x - OFF_PX, middle.y), Align::End),
            (DVec2::new(low.x, foot + off), Align::Start),
            (DVec2::new(high.x, foot + off), Align::End),
            (DVec2::new(low.x, low.y - off), Align::Start),
            (DVec2::new(high.x, low.y - off), Align::End),
            (DVec2::new(high.x + OFF_PX, high.y - 6.0), Align::Start),
            (DVec2::new(low.x - OFF_PX, high.y - 6.0), Align::End),
            (DVec2::new(high.x + OFF_PX, low.y + 6.0), Align::Start),
            (DVec2::new(low.x - OFF_PX, low.y + 6.0), Align::End),
            (DVec2::new(low.x + 4.0, foot + off), Align::End),
            (DVec2::new(high.x - 4.0, foot + off), Align::Start),
            (DVec2::new(low.x + 4.0, low.y - off), Align::End),
            (DVec2::new(high.x - 4.0, low.y - off), Align::Start),
            // A little further off: a line that runs along an edge stays seen.
            (DVec2::new(middle.x, foot + off + OFF_PX), Align::Middle),
            (DVec2::new(middle.x, low.y - off - OFF_PX), Align::Middle),
        ];
        let least = best.as_ref().map_or(f64::INFINITY, |put| put.cost);
        if least <= OUTSIDE_COST {
            return best;
        }
        // At a corner much of a long name stands away from what it names.
        let over = ((whole.width - room.x).max(0.0) * OVERHANG_COST).min(MOST_OVERHANG);
        let extras =
            (0_u8..).map(|i| OUTSIDE_COST + 0.5 * f64::from(i) + if i < CENTRED { 0.0 } else { over });
        let mut least = least;
        for (extra, (at, align)) in extras.zip(places) {
            let place = self.level_box(at, align, whole.width, wanted.style);
            let mut cost = extra + self.space.cost_up_to(place, least - extra);
            if cost < least {
                cost += self.bodies.cost(own, about, &place, astray);
            }
            if cost < least {
                least = cost;
                best = Some(NextTo { cost, at, align, text: whole.clone() });
            }
        }
        if wanted.most_cost < NEEDED || least <= SLID_FROM {
            return best;
        }
        // What must be read is tried all along the edges too.
        let (half, slid) = (whole.width * 0.5, SLID_STEP_PX * self.enlarged);
        // Of a thing larger than the paper only what of its edges is on it.
        let paper = self.window.grown(whole.width);
        let along =
            |from: f64, to: f64| (0..=((to - from) / slid) as u32).map(move |i| from + f64::from(i) * slid);
        let over = along((low.x - half).max(paper.low.x), (high.x + half).min(paper.high.x))
            .flat_map(|x| [foot + off, low.y - off].map(|y| (DVec2::new(x, y), Align::Middle)));
        let beside = along((low.y - off).max(paper.low.y), (foot + off).min(paper.high.y)).flat_map(|y| {
            [(high.x + OFF_PX, Align::Start), (low.x - OFF_PX, Align::End)]
                .map(|(x, align)| (DVec2::new(x, y), align))
        });
        for (at, align) in over.chain(beside) {
            let place = self.level_box(at, align, whole.width, wanted.style);
            let aside = (place.centre() - middle).abs().min_element() * SLID_FAR_COST;
            let extra = OUTSIDE_COST + SLID_COST + aside;
            let mut cost = extra + self.space.cost_up_to(place, least - extra);
            if cost < least {
                cost += self.bodies.cost(own, about, &place, astray);
            }
            if cost < least {
                least = cost;
                best = Some(NextTo { cost, at, align, text: whole.clone() });
            }
        }
        best
    }

    /// What it costs that the line to a name runs over what is read, over signs and over targets; no longer summed once it is `most`.
    fn led_across(&self, (from, to): (DVec2, DVec2), hangs: bool, most: f64) -> f64 {
        if hangs {
            self.space.cost_across_for_flag_up_to(from, to, most)
        } else {
            self.space.cost_across_up_to(from, to, most)
        }
    }

    /// The body that a name is of, by its number; or what it is of if that is seen through and is no body.
    fn whose<'b>(&self, wanted: &'b Wanted<'_>) -> (Option<u32>, Option<&'b Bounds>) {
        let own = self.bodies.number(wanted.subject.as_ref());
        let is_thing = matches!(wanted.subject, Some(Subject::Thing(_)));
        (own, Some(&wanted.around).filter(|_| own.is_none() && is_thing))
    }

    /// A place further off for a blamed thing's name, if one costs less than `least`: from near to far all around, then
    /// anywhere on the paper.
    fn far_place(&self, wanted: &Wanted<'_>, width: f64, least: f64) -> Option<(DVec2, Align)> {
        let half = wanted.around.size() * 0.5;
        let middle = wanted.around.centre();
        let mut best: Option<(f64, DVec2, Align)> = None;
        let needed = wanted.must || wanted.most_cost >= NEEDED;
        let most = if needed { MUST_FAR_PX } else { FAR_PX } * self.enlarged;
        let far_cost = if needed { MUST_FAR_COST } else { LEADER_FAR_COST };
        // Between those directions only if none of them is good.
        for between in [0.0, 0.5] {
            if best.is_some_and(|(cost, ..)| cost < GOOD_LED) {
                break;
            }
            for distance in LEADERS_PX
                .map(|d| d * self.enlarged * (1.0 - BETWEEN * between))
                .into_iter()
                .filter(|own| *own <= most)
            {
                let far = LEADER_COST + distance * far_cost;
                if far >= best.map_or(least, |(cost, ..)| cost) {
                    break;
                }
                for i in 0..LEADER_WAYS {
                    let turn = (f64::from(i) + between) / f64::from(LEADER_WAYS);
                    let way = angle::direction(std::f64::consts::TAU * turn);
                    // From the edge of the box around the thing.
                    let reach = (half / way.abs().max(DVec2::splat(1e-6))).min_element();
                    let edge = middle + way * reach;
                    let at = edge + way * distance;
                    let align = Align::led(way);
                    let least = best.map_or(least, |(cost, ..)| cost);
                    let cost = far + self.led_cost(wanted, width, (at, align), least - far);
                    if cost < least {
                        best = Some((cost, at, align));
                    }
                }
            }
        }
        // Between all of those directions, and right across the paper, only what must be read.
        if needed && best.is_none_or(|(cost, ..)| cost > POOR_LED) {
            let middle = wanted.around.centre();
            for at in self.paper_over(width, wanted.style) {
                let least = best.map_or(least, |(cost, ..)| cost);
                let far = LEADER_COST + at.distance(middle) * far_cost;
                if far < least {
                    let cost = far + self.led_cost(wanted, width, (at, Align::Middle), least - far);
                    if cost < least {
                        best = Some((cost, at, Align::Middle));
                    }
                }
            }
        }
        best.map(|(_, at, align)| (at, align))
    }

    /// What a place for a name that is led there costs, but for the distance; no longer summed once it is `most`.
    fn led_cost(&self, wanted: &Wanted<'_>, width: f64, (at, align): (DVec2, Align), most: f64) -> f64 {
        let (own, about) = self.whose(wanted);
        let astray = if about.is_some() { ASTRAY_HANGING } else { ASTRAY_LED };
        let place = self.level_box(at, align, width, wanted.style);
        let (from, to) = line_between(&wanted.around, &place);
        let mut cost = self.space.cost_up_to(place, most);
        if cost < most {
            cost += self.led_across((from, to), about.is_some(), most - cost);
        }
        // What is read over an edge hides where the line begins.
        if cost < most && self.space.is_read_at(from) {
            cost += BEGINS_UNDER_COST;
        }
        if cost < most {
            cost += self.bodies.cost(own, about, &place, astray);
        }
        cost
    }

    /// Places all over the paper for a text so wide, row by row, px.
    fn paper_over(&self, width: f64, style: TextStyle) -> impl Iterator<Item = DVec2> + use<> {
        let window = self.window.grown(-4.0);
        let one = DVec2::new(width + 4.0, style.line_height() + 2.0);
        let count =
            (window.size() / one * DVec2::new(2.0, 1.0)).floor().clamp(DVec2::ZERO, DVec2::splat(64.0));
        let step = window.size() / count.max(DVec2::ONE);
        let places =
            (0..count.y as u32).flat_map(move |row| (0..count.x as u32).map(move |column| (column, row)));
        places.map(move |(column, row)| {
            window.low + step * DVec2::new(f64::from(column) + 0.5, f64::from(row) + 0.5)
        })
    }

    /// Puts a name down, with a line to what it names where it is led.
    fn put_by(&mut self, wanted: &Wanted<'_>, text: Fitted, (at, align): (DVec2, Align), is_led: bool) {
        let place = self.level_box(at, align, text.width, wanted.style);
        let (from, to) = line_between(&wanted.around, &place);
        // On what it names itself, if that is seen through, no line leads to it.
        if is_led && from != to {
            self.space.take_line(from, to, Taken::Led);
            let line = vec![self.mm(from), self.mm(to)];
            let role = match wanted.role {
                Role::DimensionStops => Role::Leader(Severity::Stops),
                _ => Role::NameLeader,
            };
            self.line(role, wanted.subject.clone(), line);
        }
        self.put_level(wanted.role, wanted.subject.clone(), text, wanted.style, (at, align));
    }
}

/// The line that leads from what is named to its name.
fn line_between(named: &Bounds, name: &Bounds) -> (DVec2, DVec2) {
    let from = name.centre().clamp(named.low, named.high);
    (from, from.clamp(name.low, name.high))
}

/// A name that is led for more than this stands badly: then all of the paper is looked at.
const POOR_LED: f64 = LEADER_COST + 90.0;
/// A name that is led for less than this stands well; else directions between those are tried.
const GOOD_LED: f64 = LEADER_COST + 40.0;
/// Those stand nearer by this share of half a step.
const BETWEEN: f64 = 0.24;
/// From this cost on what must be read is tried all along the edges of what it names, so far from one place to the next, px before
/// they are enlarged; what that costs, and what a px costs by which it stands off a middle.
const SLID_FROM: f64 = 30.0;
const SLID_STEP_PX: f64 = 5.0;
const SLID_COST: f64 = 8.0;
const SLID_FAR_COST: f64 = 0.1;

/// Distances at which a name with a line to its thing is tried, px before they are enlarged, and in how many directions.
const LEADERS_PX: [f64; 9] = [18.0, 28.0, 40.0, 56.0, 76.0, 100.0, 130.0, 170.0, 220.0];
const LEADER_WAYS: u8 = 16;
/// The longest line of a name, and of what must be read, px before they are enlarged: a longer one is harder to follow than the
/// name is worth, and what is found goes by its letter too.
const FAR_PX: f64 = 110.0;
const MUST_FAR_PX: f64 = 220.0;
/// What the line costs, and what a px of it costs.
pub(crate) const LEADER_COST: f64 = 60.0;
pub(crate) const LEADER_FAR_COST: f64 = 0.3;
/// The same of what must be read, which stands at what it tells of if there is a place at all.
const MUST_FAR_COST: f64 = 0.6;
