//! While something is in hand nothing jumps: what is written keeps its place beside what it names, whatever else would be
//! better now. Places are found anew on release.

use std::collections::{BTreeMap, BTreeSet};

use baywright_planner::Subject;
use baywright_planner::geometry::{Bounds, DVec2};

use crate::list::{Dimension, Drawing, Item, Placing, Projection, Shape, Text};
use crate::pick::{bodies, body_of};
use crate::role::Role;
use crate::text::{Align, Fitted, TextStyle};
use crate::view::boxes::text_boxes;

/// A dimension that spans the same within this keeps its line and its text, mm.
const SAME_MM: f64 = 1e-6;
/// So much of the room around two texts may touch, px.
const MAY_TOUCH_PX: f64 = 2.0;

pub(super) const fn is_name(role: Role) -> bool {
    matches!(role, Role::Label | Role::LabelSoft | Role::LabelZone)
}

/// Whether it is a figure of a stop or of what is in hand, which nothing may hide.
const fn is_loud(role: Role) -> bool {
    matches!(role, Role::LiveDimension | Role::DimensionStops)
}

/// Whether a text lies on one of some boxes, px.
fn lies_on(placing: Placing, text: &Text, boxes: &[Bounds]) -> bool {
    let own = text_boxes(placing.paper_point(text.at), text).map(|own| own.grown(-MAY_TOUCH_PX));
    own.into_iter().any(|own| boxes.iter().any(|other| other.meets(&own)))
}

/// What is written in earlier drawings of the same view, and where: while something is in hand a drawing keeps to it.
#[derive(Default)]
pub(crate) struct Kept<'a> {
    /// What comes first is kept to rather.
    earlier: Vec<Earlier<'a>>,
}

/// One of them.
struct Earlier<'a> {
    /// The names, by what they name, each with the line that leads to it.
    names: BTreeMap<&'a Subject, Named<'a>>,
    dimensions: Vec<(Role, Option<&'a Subject>, &'a Dimension)>,
    /// From where each flag points to where it stands, by its letter, view frame, mm.
    flags: BTreeMap<&'a str, DVec2>,
    /// The same of each figure of a stop that has no line to be measured along, by its flag's letter, and its part there.
    figures: BTreeMap<&'a str, (DVec2, Align)>,
    moved: Moved,
    /// Whether the paper lies as it did.
    is_still: bool,
}

/// What goes by one name in one view.
#[derive(Default)]
struct Named<'a> {
    text: Option<&'a Text>,
    lines: Vec<&'a [DVec2]>,
}

/// Where the name of something stands.
pub(crate) enum Keeps<'b> {
    /// Where a place is found for it now.
    Anew,
    /// Nowhere: what was there without one and stays where it is goes on without, for its place would be another in each frame.
    Nowhere,
    /// Where it stood.
    There(Stood<'b>),
}

/// A name where it stood, shifted with what it names.
pub(crate) struct Stood<'b> {
    named: &'b Named<'b>,
    by: DVec2,
}

impl Stood<'_> {
    /// The text as it stands there now: as it was, or in its new style what it says now.
    pub fn text(&self, style: TextStyle, now: impl FnOnce() -> Option<Fitted>) -> Option<Text> {
        let old = self.named.text?;
        let mut text = Text { at: old.at + self.by, ..old.clone() };
        if old.style != style {
            let Fitted { text: says, width } = now()?;
            (text.text, text.width, text.style) = (says, width, style);
        }
        Some(text)
    }

    /// The corners of the lines that lead to it.
    pub fn lines(&self) -> impl Iterator<Item = Vec<DVec2>> {
        self.named.lines.iter().map(|line| line.iter().map(|p| *p + self.by).collect())
    }
}

impl<'a> Kept<'a> {
    /// What a drawing keeps to of earlier ones; `drawn` is what there is of it: all bodies. None if its paper is of another
    /// scale.
    pub fn of(earlier: &[&'a Drawing], projection: Projection, placing: Placing, drawn: &[Item]) -> Self {
        let is_alike =
            |before: &&&Drawing| before.projection == projection && before.px_per_mm == placing.px_per_mm;
        let mut alike = earlier.iter().filter(is_alike).peekable();
        if alike.peek().is_none() {
            return Self::default();
        }
        let mut now: Vec<&Item> = drawn.iter().filter(|item| body_of(item).is_some()).collect();
        now.sort_by_key(|item| item.role.layer());
        Self { earlier: alike.map(|before| Earlier::of(before, placing, &now)).collect() }
    }

    /// Where the name of a subject stands.
    pub fn name(&self, subject: &Subject) -> Keeps<'_> {
        if self.earlier.iter().any(|own| own.goes_without(subject)) {
            return Keeps::Nowhere;
        }
        let stood = self
            .earlier
            .iter()
            .find_map(|own| Some(Stood { named: own.names.get(subject)?, by: own.moved.by(subject) }));
        stood.map_or(Keeps::Anew, Keeps::There)
    }

    /// From where a flag points to where it stood, view frame, mm: the places to keep to, the first rather.
    pub fn flag<'b>(&'b self, letter: &'b str) -> impl Iterator<Item = DVec2> + 'b {
        self.earlier.iter().filter_map(move |own| own.flags.get(letter).copied())
    }

    /// From where a finding's flag points to where its figure stood a moment ago, view frame, mm, and its part there.
    pub fn figure(&self, letter: &str) -> Option<(DVec2, Align)> {
        self.earlier.iter().rev().find_map(|own| own.figures.get(letter).copied())
    }

    /// The dimension that spanned the same, as it stood a moment ago: what gave way does not go back.
    pub fn still(
        &self,
        role: Role,
        subject: Option<&Subject>,
        (from, to): (DVec2, DVec2),
    ) -> Option<&'a Dimension> {
        let is_same = |old: &&Dimension| old.from.distance(from) < SAME_MM && old.to.distance(to) < SAME_MM;
        self.earlier.iter().rev().find_map(|own| own.dimensions_of(role, subject).find(is_same))
    }

    /// The dimension of the same that spanned most nearly this, as it stood a moment ago.
    pub fn moving(
        &self,
        role: Role,
        subject: Option<&Subject>,
        (from, to): (DVec2, DVec2),
    ) -> Option<&'a Dimension> {
        let apart = |old: &Dimension| old.from.distance(from) + old.to.distance(to);
        let nearest =
            |own: &Earlier<'a>| own.dimensions_of(role, subject).min_by(|a, b| apart(a).total_cmp(&apart(b)));
        self.earlier.iter().rev().find_map(nearest)
    }
}

impl<'a> Earlier<'a> {
    fn of(before: &'a Drawing, placing: Placing, now: &[&Item]) -> Self {
        let mut own = Self {
            names: BTreeMap::new(),
            dimensions: Vec::new(),
            flags: BTreeMap::new(),
            figures: BTreeMap::new(),
            moved: Moved::since(before, now, placing),
            is_still: before.view_point(DVec2::ZERO) == placing.list_point(DVec2::ZERO),
        };
        let mut tips: BTreeMap<usize, DVec2> = BTreeMap::new();
        let mut figures: BTreeMap<usize, &Text> = BTreeMap::new();
        for item in &before.items {
            match (item.role, &item.shape, &item.subject) {
                (role, Shape::Text(text), Some(subject)) if is_name(role) => {
                    own.names.entry(subject).or_default().text = Some(text);
                }
                (Role::DimensionStops, Shape::Text(text), _) => {
                    if let Some(finding) = item.finding {
                        figures.insert(finding, text);
                    }
                }
                (Role::NameLeader, Shape::Line(line), Some(subject)) => {
                    own.names.entry(subject).or_default().lines.push(line);
                }
                (role, Shape::Dimension(dimension), subject) => {
                    own.dimensions.push((role, subject.as_ref(), dimension));
                }
                (Role::Leader(_), Shape::Line(points), _) => {
                    if let (Some(finding), Some(&tip)) = (item.finding, points.first()) {
                        tips.entry(finding).or_insert(tip);
                    }
                }
                (Role::Flag(_), Shape::Sign(sign), _) => {
                    // Lines and figures are painted before flags.
                    let Some(finding) = item.finding else { continue };
                    if let Some(tip) = tips.get(&finding) {
                        own.flags.insert(&sign.text, sign.at - *tip);
                        if let Some(text) = figures.get(&finding) {
                            own.figures.insert(&sign.text, (text.at - *tip, text.align));
                        }
                    }
                }
                _ => {}
            }
        }
        own.names.retain(|_, named| named.text.is_some());
        own
    }

    /// The dimensions of one role and subject.
    fn dimensions_of(&self, role: Role, subject: Option<&Subject>) -> impl Iterator<Item = &'a Dimension> {
        let own = self.dimensions.iter().filter(move |(own, of, _)| *own == role && *of == subject);
        own.map(|(.., dimension)| *dimension)
    }

    /// Whether a subject had no name and stays where it was. What the paper brings in sight gets its own.
    fn goes_without(&self, subject: &Subject) -> bool {
        self.is_still && !self.names.contains_key(subject) && !self.moved.holds(subject)
    }
}

/// What is drawn elsewhere than in an earlier drawing, or only now, and how far the middle of it has moved since, view frame, mm.
struct Moved(BTreeMap<Subject, DVec2>);

impl Moved {
    /// `now`: the bodies drawn, in the order in which they are painted.
    fn since(before: &Drawing, now: &[&Item], placing: Placing) -> Self {
        let then: Vec<&Item> = before.items.iter().filter(|item| body_of(item).is_some()).collect();
        let is_alike =
            then.len() == now.len() && then.iter().zip(now).all(|(then, now)| then.subject == now.subject);
        let moved: BTreeSet<&Subject> = if is_alike {
            let pairs = then.iter().zip(now).filter(|(then, now)| then.shape != now.shape);
            pairs.filter_map(|(_, now)| now.subject.as_ref()).collect()
        } else {
            // By the bodies as wholes: what is painted in another order did not move for that.
            let then: BTreeMap<&Subject, Vec<&Shape>> = shapes(&then);
            let differs = |(own, now): &(&Subject, Vec<&Shape>)| then.get(own) != Some(now);
            shapes(now).into_iter().filter(differs).map(|(own, _)| own).collect()
        };
        let (was, is) = (middles(&then, &moved, before.placing()), middles(now, &moved, placing));
        let by = |own: &Subject| Some(*is.get(own)? - *was.get(own)?);
        Self(moved.into_iter().map(|own| (own.clone(), by(own).unwrap_or(DVec2::ZERO))).collect())
    }

    fn by(&self, subject: &Subject) -> DVec2 {
        self.0.get(subject).copied().unwrap_or(DVec2::ZERO)
    }

    fn holds(&self, subject: &Subject) -> bool {
        self.0.contains_key(subject)
    }
}

/// The middle of some of what is drawn, view frame, mm.
fn middles<'b>(
    items: &[&'b Item],
    wanted: &BTreeSet<&Subject>,
    placing: Placing,
) -> BTreeMap<&'b Subject, DVec2> {
    let is_wanted = |item: &&Item| body_of(item).is_some_and(|own| wanted.contains(own));
    let boxes = bodies(items.iter().copied().filter(is_wanted), placing).into_iter();
    boxes.map(|(own, place)| (own, placing.list_point(place.centre()))).collect()
}

/// What the body of each is drawn with.
fn shapes<'b>(items: &[&'b Item]) -> BTreeMap<&'b Subject, Vec<&'b Shape>> {
    let mut shapes: BTreeMap<&Subject, Vec<&Shape>> = BTreeMap::new();
    for item in items {
        if let Some(subject) = body_of(item) {
            shapes.entry(subject).or_default().push(&item.shape);
        }
    }
    shapes
}

impl Drawing {
    /// Takes away names that came to lie under figures and markers. All that keeps its place was put there to begin with.
    pub(super) fn keep_places(&mut self, kept: &Kept<'_>) {
        if !kept.earlier.is_empty() {
            self.give_way();
        }
    }

    /// The boxes of the figures of stops and of what is in hand, px.
    fn loud(&self) -> Vec<Bounds> {
        let boxes = |text: &Text| text_boxes(self.paper_point(text.at), text).collect::<Vec<_>>();
        let loud = self.items.iter().filter(|item| is_loud(item.role));
        let boxes = loud.filter_map(|item| match &item.shape {
            Shape::Dimension(own) => Some(boxes(&own.text)),
            Shape::Text(own) => Some(boxes(own)),
            _ => None,
        });
        boxes.flatten().collect()
    }

    /// A name that kept its place goes away, with its line, where a loud figure or a marker comes to lie on it.
    fn give_way(&mut self) {
        let mut taken = self.loud();
        taken.extend(self.items.iter().filter_map(|item| match (item.role, &item.shape) {
            (Role::Flag(_), Shape::Sign(sign)) => {
                let at = self.paper_point(sign.at);
                Some(Bounds { low: at, high: at }.grown(sign.reach))
            }
            _ => None,
        }));
        let placing = self.placing();
        let is_covered = |item: &Item| match &item.shape {
            Shape::Text(text) => is_name(item.role) && lies_on(placing, text, &taken),
            _ => false,
        };
        let covered: Vec<bool> = self.items.iter().map(is_covered).collect();
        let nameless = self.items.iter().zip(&covered).filter(|(_, is_covered)| **is_covered);
        let nameless: BTreeSet<Subject> = nameless.filter_map(|(item, _)| item.subject.clone()).collect();
        let mut covered = covered.into_iter();
        self.items.retain(|item| {
            let leads = item.role == Role::NameLeader;
            let leads_to_none = leads && item.subject.as_ref().is_some_and(|own| nameless.contains(own));
            covered.next() != Some(true) && !leads_to_none
        });
    }
}
