//! A bay out of the layers that were chosen: the room, inner walls, things.
//!
//! What a drawing does not tell is taken so that nothing is called clear that is not: walls and things are solid from the floor to
//! the ceiling, of a material that is not known, their places known by eye.

use std::cell::Cell;
use std::collections::{BTreeMap, BTreeSet};

use baywright_planner::geometry::{DVec2, Outline, PlanPose, Polygon, Span, difference, hull, overlaps};
use baywright_planner::model::fault::{Choice, DrawingTrouble, TooMuch};
use baywright_planner::model::validate;
use baywright_planner::model::validate::limits::{MOST_THINGS, MOST_WALLS};
use baywright_planner::model::{
    Bay, Effort, Footprint, Id, Known, Material, Place, Provenance, Shape, Thing, ThingKind,
};

use super::placed::{Drawn, Note, Placed};
use super::shape::Piece;
use super::trace::{self, Gap, area, trace, without_straight_corners};

/// How near chords keep to their arc, mm.
const CHORD_MM: f64 = 1.0;
/// An outline that encloses at least this share of the largest one may be the room as well: the outer face of a wall encloses not
/// much more than its inner face.
const MAY_BE_ROOM: f64 = 0.5;
/// Corners are the same within this, mm.
const SAME_MM: f64 = 0.05;
/// A drawing whose room lies further than this from its origin is moved there, mm.
const FAR_MM: f64 = 1e6;
/// A thing with more corners goes by its hull, and one whose hull has more by the box around it.
const MOST_CORNERS: usize = 200;
/// More points of lines and arcs are not looked at, of all chosen layers together.
pub const MOST_POINTS: usize = 1_000_000;
/// More outlines are not sorted by which lies in which.
const MOST_OUTLINES: usize = 10_000;
/// Outlines with more corners are not asked whether they lie in one another, or are the same.
const MOST_COMPARED: usize = 200;
/// Of more outlines around one it is not asked whether it lies in them.
const MOST_LOOKS: usize = 8;
/// So many pairs of a thing's and the room's edges are compared; what is left then counts as inside if the boxes around both meet.
const MOST_EDGES: usize = 50_000_000;
/// More notes are not looked at for names.
const MOST_NOTES: usize = 20_000;
/// So many outlines are told.
const MOST_TOLD: usize = 9;
/// What is smaller each way, or thinner, is a line of a drawing, and no thing, mm: as in the limits of a layout.
const LEAST_THING_MM: f64 = 5.0;
const THINNEST_MM: f64 = 1.0;

/// What is to become what.
#[derive(Clone, Debug, PartialEq)]
pub struct DxfChoice {
    /// The layer of the room's outline.
    pub room: String,
    /// Which of its outlines, from 1, the largest first; `None`: there is only one that may be it.
    pub outline: Option<usize>,
    /// Layers of inner walls.
    pub walls: Vec<String>,
    /// Layers of things.
    pub things: Vec<String>,
    /// One unit of the drawing, mm.
    pub mm_per_unit: f64,
    /// Gaps up to this are closed, mm.
    pub gap_mm: f64,
    /// An inner wall that is drawn as one line is so thick, mm.
    pub wall_mm: f64,
    /// Clear height under the ceiling, mm.
    pub ceiling_mm: f64,
    /// Where the lower left corner of all that is on the room's layer is to lie, mm; `None`: as it is drawn.
    pub low_at: Option<DVec2>,
}

/// How what has no name of its own is called, by its number from 1.
pub struct DxfNames<'a> {
    /// A wall of the room.
    pub room_wall: &'a dyn Fn(usize) -> String,
    /// An inner wall.
    pub inner_wall: &'a dyn Fn(usize) -> String,
    /// A thing.
    pub thing: &'a dyn Fn(usize) -> String,
}

/// A gap that was closed, mm of the bay's frame.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ClosedGap {
    /// How large it was.
    pub size_mm: f64,
    /// Where.
    pub at: DVec2,
}

/// What came of a drawing.
#[derive(Clone, Debug, PartialEq)]
pub struct DxfBay {
    /// The bay.
    pub bay: Bay,
    /// The gaps that were closed in what became of it.
    pub closed: Vec<ClosedGap>,
    /// How far it was moved towards the origin, mm.
    pub moved: DVec2,
    /// Inner walls that were drawn as one line, and got a thickness.
    pub thickened: usize,
    /// Things whose lines do not close, which go by what is drawn round all of them.
    pub by_hull: usize,
    /// Outlines inside others of the same layers.
    pub inside_others: usize,
    /// What of the chosen layers lies outside of the room.
    pub outside: usize,
    /// Lines of things that close nothing and belong to no block.
    pub unclosed: usize,
}

/// An outline of a thing or a wall, and what it may be called.
struct Body {
    outline: Vec<DVec2>,
    /// Its centre and radius, if it is round.
    round: Option<(DVec2, f64)>,
    block: Option<String>,
}

/// Makes the bay; `source` says where its figures come from.
pub fn bay_of(
    placed: &Placed,
    choice: &DxfChoice,
    names: &DxfNames<'_>,
    (id, name, source): (Id, String, String),
) -> Result<DxfBay, DrawingTrouble> {
    let mut plan = Plan { placed, choice, points: Cell::new(0), moved: DVec2::ZERO };
    let room_layer = plan.layer(&choice.room)?;
    plan.moved = plan.towards_origin(room_layer);
    let (plan, moved) = (&plan, plan.moved);
    let walls: Vec<usize> = choice.walls.iter().map(|own| plan.layer(own)).collect::<Result<_, _>>()?;
    let things: Vec<usize> = choice.things.iter().map(|own| plan.layer(own)).collect::<Result<_, _>>()?;

    let mut made = Made::default();
    let (room, others) = plan.room(room_layer, &mut made)?;
    let no_room = || DrawingTrouble::NoRoom(choice.room.clone());
    if room.len() > MOST_WALLS {
        return Err(DrawingTrouble::TooMuch(TooMuch::Tangled(MOST_WALLS)));
    }
    let mut wall_bodies = others;
    plan.walls(&walls, &mut wall_bodies, &mut made)?;
    let mut thing_bodies = Vec::new();
    plan.things(&things, &mut thing_bodies, &mut made)?;

    let provenance = Provenance::Published { source };
    let unnamed = (&[][..], names.room_wall);
    let bay = Bay::of_corners(id, name, room, unnamed, choice.ceiling_mm, provenance);
    let mut bay = bay.map_err(|_| no_room())?;
    bay.walls_known = Known::ByEye;
    let (edges, room): (usize, Outline) = (bay.room.outer().len(), bay.room.clone().into());
    let around = room.bounds();
    let mut taken: BTreeSet<String> = bay.names().map(ToString::to_string).collect();
    let mut compared = 0_usize;
    let mut put = |bodies: Vec<Body>, layers: &[usize], unnamed: &dyn Fn(usize) -> String, effort: Effort| {
        let notes: Vec<&Note> =
            placed.notes.iter().filter(|own| layers.contains(&own.layer)).take(MOST_NOTES).collect();
        for body in bodies {
            let (low, high) = reach(&body.outline);
            let is_near = low.cmplt(around.high).all() && high.cmpgt(around.low).all();
            compared = compared.saturating_add(body.outline.len().saturating_mul(edges));
            let Some((footprint, at)) = footprint(&body).filter(|(own, at)| {
                is_near && (compared > MOST_EDGES || overlaps(&own.outline().placed(at), &room))
            }) else {
                made.outside += 1;
                continue;
            };
            let noted = plan.noted(&notes, (low, high));
            let number = bay.things.len() + 1;
            if number > MOST_THINGS {
                return Err(DrawingTrouble::TooMuch(TooMuch::Things(MOST_THINGS)));
            }
            let wanted = noted.or(body.block).filter(|name| is_name(name)).unwrap_or_else(|| unnamed(number));
            let Ok(span) = Span::new(0.0, choice.ceiling_mm) else { continue };
            let thing = Thing {
                id: Id::free(&wanted, " ", |name| taken.contains(name)),
                kind: ThingKind::Other,
                footprint,
                place: Place { at, known: Known::ByEye },
                span,
                material: Material::Unknown,
                metal: None,
                effort,
                locked: false,
            };
            taken.insert(thing.id.to_string());
            bay.things.push(thing);
        }
        Ok(())
    };
    put(wall_bodies, &walls, names.inner_wall, Effort::Fixed)?;
    put(thing_bodies, &things, names.thing, Effort::TwoPeople)?;
    let gap = |own: &Gap| ClosedGap { size_mm: own.size(), at: (own.from + own.to) * 0.5 };
    Ok(DxfBay {
        bay,
        closed: made.closed.iter().map(gap).collect(),
        moved,
        thickened: made.thickened,
        by_hull: made.by_hull,
        inside_others: made.inside_others,
        outside: made.outside,
        unclosed: made.unclosed,
    })
}

#[derive(Default)]
struct Made {
    closed: Vec<Gap>,
    thickened: usize,
    by_hull: usize,
    inside_others: usize,
    outside: usize,
    unclosed: usize,
}

struct Plan<'a> {
    placed: &'a Placed,
    choice: &'a DxfChoice,
    /// So many points were looked at.
    points: Cell<usize>,
    /// All is moved by this, mm.
    moved: DVec2,
}

impl Plan<'_> {
    /// The layer of a name, as it is written, or else in large and small letters alike.
    fn layer(&self, name: &str) -> Result<usize, DrawingTrouble> {
        let layers = || self.placed.layers.iter().map(|(own, _)| own);
        let exact = layers().position(|own| own == name);
        exact.or_else(|| layers().position(|own| own.eq_ignore_ascii_case(name))).ok_or_else(|| {
            let there: Vec<Id> = layers().map(|own| Id::from(own.as_str())).collect();
            let there = Box::new(Choice::near(name, &there));
            DrawingTrouble::NoLayer { name: name.to_owned(), there }
        })
    }

    /// By how much a drawing is moved that is to lie elsewhere, or whose room lies far from its origin, mm.
    fn towards_origin(&self, layer: usize) -> DVec2 {
        let by = self.choice.mm_per_unit;
        let held = self.placed.layers.get(layer).and_then(|(_, held)| held.bounds);
        let Some((low, high)) = held.map(|own| (own.low * by, own.high * by)) else { return DVec2::ZERO };
        if let Some(at) = self.choice.low_at {
            return at - low;
        }
        if low.abs().max(high.abs()).max_element() > FAR_MM { -low.round() } else { DVec2::ZERO }
    }

    fn of(&self, layers: &[usize]) -> impl Iterator<Item = &Drawn> {
        self.placed.drawn.iter().filter(move |own| layers.contains(&own.layer))
    }

    /// Points of some pieces from end to end, mm.
    fn points(&self, pieces: &[Piece]) -> Result<Vec<DVec2>, DrawingTrouble> {
        let by = self.choice.mm_per_unit;
        let mut points: Vec<DVec2> = Vec::new();
        for piece in pieces {
            let own = piece.points(CHORD_MM / by);
            self.points.set(self.points.get().saturating_add(own.len()));
            if self.points.get() > MOST_POINTS {
                return Err(DrawingTrouble::TooMuch(TooMuch::Tangled(MOST_POINTS)));
            }
            for own in own.into_iter().map(|own| own * by + self.moved) {
                if points.last().is_none_or(|last| last.distance(own) > SAME_MM) {
                    points.push(own);
                }
            }
        }
        Ok(points)
    }

    /// The corners of what is closed by itself, anticlockwise.
    fn ring(&self, drawn: &Drawn) -> Result<Vec<DVec2>, DrawingTrouble> {
        let mut points = self.points(&drawn.pieces)?;
        if points.len() > 1
            && points.first().zip(points.last()).is_some_and(|(a, b)| a.distance(*b) <= SAME_MM)
        {
            points.pop();
        }
        if area(&points) < 0.0 {
            points.reverse();
        }
        Ok(without_straight_corners(&points))
    }

    /// What of the layers is closed by itself, and the straight pieces of all else.
    fn sorted<'a>(
        &self,
        all: impl Iterator<Item = &'a Drawn>,
    ) -> Result<(Vec<&'a Drawn>, Vec<[DVec2; 2]>), DrawingTrouble> {
        let (closed, open): (Vec<&Drawn>, Vec<&Drawn>) = all.partition(|own| own.closed);
        let mut chords = Vec::new();
        for own in open {
            let points = self.points(&own.pieces)?;
            chords.extend(points.iter().zip(points.iter().skip(1)).map(|(from, to)| [*from, *to]));
            if chords.len() > trace::MOST_CHORDS {
                return Err(DrawingTrouble::TooMuch(TooMuch::Tangled(trace::MOST_CHORDS)));
            }
        }
        Ok((closed, chords))
    }

    /// The room's corners, and what else is enclosed on its layer inside of it: that is in the way.
    fn room(&self, layer: usize, made: &mut Made) -> Result<(Vec<DVec2>, Vec<Body>), DrawingTrouble> {
        let (closed, chords) = self.sorted(self.of(&[layer]))?;
        let traced = self.traced(&chords)?;
        let mut outlines: Vec<Vec<DVec2>> =
            closed.iter().map(|own| self.ring(own)).collect::<Result<_, _>>()?;
        outlines.extend(traced.outlines);
        outlines.retain(|own| own.len() > 2 && area(own) > 0.0);
        outlines.sort_by(|a, b| area(b).total_cmp(&area(a)));
        outlines.dedup_by(|a, b| same(a, b));
        let layer = || self.choice.room.clone();
        let Some(largest) = outlines.first().map(|own| area(own)) else {
            let gap = traced.left.map(|own| (own.size(), (own.from + own.to) * 0.5 - self.moved));
            return Err(DrawingTrouble::NoOutline { layer: layer(), gap });
        };
        let may_be = outlines.iter().filter(|own| area(own) >= largest * MAY_BE_ROOM).count();
        let number = match self.choice.outline {
            Some(number) if (1..=outlines.len()).contains(&number) => number - 1,
            Some(number) => return Err(DrawingTrouble::NoSuchOutline { number, count: outlines.len() }),
            None if may_be == 1 => 0,
            None => {
                let told = outlines
                    .iter()
                    .take(may_be.min(MOST_TOLD))
                    .map(|own| reach(own))
                    .map(|(low, high)| (high - low, low - self.moved));
                return Err(DrawingTrouble::SeveralOutlines { layer: layer(), outlines: told.collect() });
            }
        };
        made.closed.extend(traced.closed);
        let room = outlines.remove(number);
        // What encloses the room is the outer face of its walls, and in nobody's way.
        let inside = |own: &Vec<DVec2>| area(own) < area(&room);
        let others =
            outlines.into_iter().filter(inside).map(|outline| Body { outline, round: None, block: None });
        let others = self.outermost(others.collect(), made)?;
        Ok((room, others))
    }

    fn traced(&self, chords: &[[DVec2; 2]]) -> Result<trace::Traced, DrawingTrouble> {
        trace(chords, self.choice.gap_mm)
            .map_err(|_| DrawingTrouble::TooMuch(TooMuch::Tangled(trace::MOST_CHORDS)))
    }

    /// Inner walls: what is enclosed is one; a line alone is one of the thickness that was said.
    fn walls(&self, layers: &[usize], bodies: &mut Vec<Body>, made: &mut Made) -> Result<(), DrawingTrouble> {
        let (closed, chords) = self.sorted(self.of(layers))?;
        let traced = self.traced(&chords)?;
        let mut all: Vec<Body> = closed.into_iter().map(|own| self.body(own)).collect::<Result<_, _>>()?;
        all.extend(traced.outlines.into_iter().map(|outline| Body { outline, round: None, block: None }));
        bodies.extend(self.outermost(all, made)?);
        let half = self.choice.wall_mm * 0.5;
        for [from, to] in traced.open {
            let Some(along) = (to - from).try_normalize() else { continue };
            if from.distance(to) < LEAST_THING_MM {
                continue;
            }
            let aside = along.perp() * half;
            let outline = vec![from - aside, to - aside, to + aside, from + aside];
            bodies.push(Body { outline, round: None, block: None });
            made.thickened += 1;
        }
        made.closed.extend(traced.closed);
        Ok(())
    }

    /// Things: what is closed by itself; of a block, and of loose lines, what they enclose; of a block that encloses nothing all that
    /// is drawn of it, by its hull.
    fn things(
        &self,
        layers: &[usize],
        bodies: &mut Vec<Body>,
        made: &mut Made,
    ) -> Result<(), DrawingTrouble> {
        let mut groups: BTreeMap<usize, Vec<&Drawn>> = BTreeMap::new();
        for own in self.of(layers) {
            groups.entry(own.group).or_default().push(own);
        }
        for (group, drawn) in groups {
            let (closed, chords) = self.sorted(drawn.iter().copied())?;
            let traced = self.traced(&chords)?;
            let mut all: Vec<Body> =
                closed.into_iter().map(|own| self.body(own)).collect::<Result<_, _>>()?;
            all.extend(traced.outlines.into_iter().map(|outline| Body { outline, round: None, block: None }));
            made.closed.extend(traced.closed);
            if group == 0 {
                made.unclosed += traced.open.len();
            } else if all.is_empty() {
                let mut points = Vec::new();
                for own in &drawn {
                    points.extend(self.points(&own.pieces)?);
                }
                if let Some(hull) = hull(&points) {
                    made.by_hull += 1;
                    all.push(Body { outline: hull.outer().to_vec(), round: None, block: None });
                } else {
                    made.unclosed += traced.open.len();
                }
            } else {
                // What is drawn beside the outlines of a block is in nobody's reckoning.
                let boxes: Vec<(DVec2, DVec2)> = all.iter().map(|own| reach(&own.outline)).collect();
                let beside = |end: &DVec2| {
                    boxes.iter().all(|(low, high)| {
                        end.cmplt(*low - SAME_MM).any() || end.cmpgt(*high + SAME_MM).any()
                    })
                };
                made.unclosed += traced.open.iter().filter(|own| own.iter().any(beside)).count();
            }
            let block = group.checked_sub(1).and_then(|at| self.placed.groups.get(at));
            let named = self.outermost(all, made)?.into_iter();
            bodies.extend(named.map(|own| Body { block: block.cloned(), ..own }));
        }
        Ok(())
    }

    fn body(&self, drawn: &Drawn) -> Result<Body, DrawingTrouble> {
        let round = match drawn.pieces[..] {
            [Piece::Arc(arc)] => {
                let by = self.choice.mm_per_unit;
                arc.whole_circle().map(|radius| (arc.centre * by + self.moved, radius * by))
            }
            _ => None,
        };
        Ok(Body { outline: self.ring(drawn)?, round, block: None })
    }

    /// Those that lie in no other one.
    fn outermost(&self, mut bodies: Vec<Body>, made: &mut Made) -> Result<Vec<Body>, DrawingTrouble> {
        bodies.retain(|own| own.outline.len() > 2);
        if bodies.len() > MOST_OUTLINES {
            return Err(DrawingTrouble::TooMuch(TooMuch::Things(MOST_OUTLINES)));
        }
        bodies.sort_by(|a, b| area(&b.outline).total_cmp(&area(&a.outline)));
        let mut kept: Vec<(Body, Option<Polygon>, (DVec2, DVec2))> = Vec::new();
        for own in bodies {
            let (low, high) = reach(&own.outline);
            let around = kept.iter().filter(|(_, _, (own_low, own_high))| {
                own_low.cmple(low + SAME_MM).all() && own_high.cmpge(high - SAME_MM).all()
            });
            let few = own.outline.len() <= MOST_COMPARED;
            let shape = if few { Polygon::simple(own.outline.clone()).ok() } else { None };
            let is_in = |other: &Polygon| {
                shape.as_ref().is_some_and(|own| {
                    let rest: f64 = difference(own, other).iter().map(Polygon::area).sum();
                    rest <= own.area() * 1e-3
                })
            };
            if around.filter_map(|(_, shape, _)| shape.as_ref()).take(MOST_LOOKS).any(is_in) {
                made.inside_others += 1;
            } else {
                kept.push((own, shape, (low, high)));
            }
        }
        Ok(kept.into_iter().map(|(own, ..)| own).collect())
    }

    /// The first note that stands in a box.
    fn noted(&self, notes: &[&Note], (low, high): (DVec2, DVec2)) -> Option<String> {
        let is_in = |own: &&&Note| {
            let at = own.at * self.choice.mm_per_unit + self.moved;
            at.cmpge(low).all() && at.cmple(high).all()
        };
        notes.iter().find(is_in).map(|own| own.text.clone())
    }
}

fn reach(corners: &[DVec2]) -> (DVec2, DVec2) {
    let low = corners.iter().copied().reduce(DVec2::min).unwrap_or_default();
    let high = corners.iter().copied().reduce(DVec2::max).unwrap_or_default();
    (low, high)
}

/// Whether two outlines are one that was drawn twice.
fn same(a: &[DVec2], b: &[DVec2]) -> bool {
    let near = |p: &DVec2| b.iter().any(|own| own.distance(*p) <= SAME_MM);
    a.len() == b.len() && a.len() <= MOST_COMPARED && a.iter().all(near)
}

/// Whether a text of a drawing can be a name; a star begins what a program named for itself.
fn is_name(text: &str) -> bool {
    !text.starts_with('*') && text.chars().count() <= LONGEST_NAME && validate::is_name(text)
}

/// A longer note is none of a thing's name: names have room for a number behind them.
const LONGEST_NAME: usize = 100;

/// The shape of a body about its middle, and where that is.
fn footprint(body: &Body) -> Option<(Footprint, PlanPose)> {
    let (low, high) = reach(&body.outline);
    let middle = (low + high) * 0.5;
    let at = PlanPose::new(middle, 0.0);
    if (high - low).max_element() < LEAST_THING_MM || (high - low).min_element() < THINNEST_MM {
        return None;
    }
    if let Some((centre, radius)) = body.round {
        let footprint = Footprint::new(Shape::Round { diameter_mm: radius * 2.0 }).ok()?;
        return Some((footprint, PlanPose::new(centre, 0.0)));
    }
    if let Some(turned) = rectangle(&body.outline) {
        return Some(turned);
    }
    let own = |corners: &[DVec2]| Shape::Outline(corners.iter().map(|own| *own - middle).collect());
    let few = |corners: &[DVec2]| corners.len() <= MOST_CORNERS;
    let plain =
        Some(&body.outline[..]).filter(|own| few(own)).and_then(|corners| Footprint::new(own(corners)).ok());
    let around = || hull(&body.outline).filter(|hull| few(hull.outer()));
    let hulled = || Footprint::new(own(around()?.outer())).ok();
    let boxed =
        || Footprint::new(Shape::Rectangle { length_mm: high.x - low.x, width_mm: high.y - low.y }).ok();
    Some((plain.or_else(hulled).or_else(boxed)?, at))
}

/// A rectangle as one, turned as it stands.
fn rectangle(outline: &[DVec2]) -> Option<(Footprint, PlanPose)> {
    let &[a, b, c, d] = outline else { return None };
    let (along, across) = (b - a, d - a);
    let square = along.dot(across).abs() <= 1e-6 * along.length() * across.length();
    if !square || (a + c).distance(b + d) > SAME_MM {
        return None;
    }
    let (length_mm, width_mm) = (along.length(), across.length());
    let footprint = Footprint::new(Shape::Rectangle { length_mm, width_mm }).ok()?;
    Some((footprint, PlanPose::facing((a + c) * 0.5, (a + c) * 0.5 + along)))
}
