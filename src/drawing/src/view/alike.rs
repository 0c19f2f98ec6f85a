//! Two drawings of one bay, side by side: what did not move goes by the same name in the same place in both, as far as each can
//! be read.

use std::collections::BTreeMap;

use baywright_planner::Subject;
use baywright_planner::geometry::{Bounds, DVec2};

use crate::list::{Drawing, Item, Shape};
use crate::role::Role;
use crate::view::boxes::text_boxes;
use crate::view::keep::is_name;
use crate::view::space::around;

/// What stands within this of where it was did not move, mm.
const STILL_MM: f64 = 0.5;
/// So much of the room around two texts may touch, px.
const MAY_TOUCH_PX: f64 = 2.0;
/// How far apart a line is looked at for what it runs through, px.
const STEP_PX: f64 = 4.0;

/// A name and the line that leads to it.
#[derive(Clone, Default)]
struct Named {
    texts: Vec<Item>,
    lines: Vec<Item>,
}

impl Drawing {
    /// Puts the names of what stands where it stood in another drawing of the same view where they stand there, each where that
    /// lies on nothing that is read here. What has no name there has none here.
    pub fn name_as(&mut self, other: &Self) {
        let is_one_paper = self.projection == other.projection
            && self.px_per_mm == other.px_per_mm
            && self.view_point(DVec2::ZERO) == other.view_point(DVec2::ZERO);
        if !is_one_paper {
            return;
        }
        let was: BTreeMap<Subject, Bounds> = other.boxes().into_iter().collect();
        let is_still = |(own, place): &(Subject, Bounds)| {
            was.get(own).is_some_and(|was| was.centre().distance(place.centre()) < STILL_MM * self.px_per_mm)
        };
        let still: Vec<Subject> = self.boxes().into_iter().filter(is_still).map(|(own, _)| own).collect();
        let there = names(other);
        let unnamed = |item: &Item| {
            let is_still = |own: &Subject| still.contains(own) && !there.contains_key(own);
            is_written(item) && item.subject.as_ref().is_some_and(is_still)
        };
        self.items.retain(|item| !unnamed(item));
        // What one makes free another may need.
        for _ in 0..2 {
            for (subject, named) in still.iter().filter_map(|own| Some((own, there.get(own)?))) {
                if self.has_room_for(subject, named) {
                    self.items.retain(|item| !(is_written(item) && item.subject.as_ref() == Some(subject)));
                    self.items.extend(named.texts.iter().chain(&named.lines).cloned());
                }
            }
        }
        self.items.sort_by_key(|item| item.role.layer());
    }

    /// Whether a name would lie on nothing that is read but its own, and no line through another or through it.
    fn has_room_for(&self, subject: &Subject, named: &Named) -> bool {
        let is_own = |item: &Item| is_written(item) && item.subject.as_ref() == Some(subject);
        let others = || self.items.iter().filter(|item| !is_own(item));
        let read: Vec<Bounds> = others().flat_map(|item| self.read(item)).collect();
        let texts: Vec<Bounds> = named.texts.iter().flat_map(|item| self.read(item)).collect();
        let is_free = |text: &Bounds| !read.iter().any(|other| other.meets(&text.grown(-MAY_TOUCH_PX)));
        let runs_through = |item: &Item, boxes: &[Bounds]| {
            let Shape::Line(points) = &item.shape else { return false };
            points.windows(2).any(|ends| match *ends {
                [from, to] => {
                    let (from, to) = (self.paper_point(from), self.paper_point(to));
                    let steps = (from.distance(to) / STEP_PX).ceil().clamp(1.0, 512.0);
                    let at = |step: u32| around(from.lerp(to, f64::from(step) / steps), DVec2::ONE);
                    (1..steps as u32).any(|step| boxes.iter().any(|own| own.grown(-1.0).meets(&at(step))))
                }
                _ => false,
            })
        };
        let leads = |item: &&Item| matches!(item.role, Role::Leader(_) | Role::NameLeader);
        texts.iter().all(is_free)
            && !named.lines.iter().any(|line| runs_through(line, &read))
            && !others().filter(leads).any(|line| runs_through(line, &texts))
    }

    /// The boxes of what is read of an item, px.
    fn read(&self, item: &Item) -> Vec<Bounds> {
        match (&item.shape, item.role) {
            (Shape::Text(own), _) => text_boxes(self.paper_point(own.at), own).collect(),
            (Shape::Dimension(own), _) => text_boxes(self.paper_point(own.text.at), &own.text).collect(),
            (Shape::Sign(own), Role::Flag(_) | Role::Mark) => {
                let at = self.paper_point(own.at);
                vec![Bounds { low: at, high: at }.grown(own.reach)]
            }
            _ => Vec::new(),
        }
    }
}

fn is_written(item: &Item) -> bool {
    item.role == Role::NameLeader || (is_name(item.role) && matches!(item.shape, Shape::Text(_)))
}

/// The names of a drawing, with their lines, by what they name.
fn names(of: &Drawing) -> BTreeMap<&Subject, Named> {
    let mut names: BTreeMap<&Subject, Named> = BTreeMap::new();
    for item in of.items.iter().filter(|item| is_written(item)) {
        let Some(subject) = &item.subject else { continue };
        let named = names.entry(subject).or_default();
        let list = if item.role == Role::NameLeader { &mut named.lines } else { &mut named.texts };
        list.push(item.clone());
    }
    names.retain(|_, named| !named.texts.is_empty());
    names
}
