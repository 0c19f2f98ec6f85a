//! While something is in hand nothing jumps: what is written keeps its place beside what it names, whatever else would be
//! better now. Places are found anew on release.

use std::collections::{BTreeMap, BTreeSet};

use baywright_planner::Subject;
use baywright_planner::geometry::{Bounds, DVec2};

use crate::list::{Drawing, Item, Shape, Text};
use crate::role::Role;
use crate::view::pen::text_boxes;

/// A dimension that spans the same within this keeps its line and its text, mm.
const SAME_MM: f64 = 1e-6;
/// So much of the room around two texts may touch, px.
const MAY_TOUCH_PX: f64 = 2.0;

pub(super) const fn is_name(role: Role) -> bool {
    matches!(role, Role::Label | Role::LabelSoft | Role::LabelZone)
}

/// Whether it is a name, or the line that leads from one to what it names.
fn is_written(item: &Item) -> bool {
    item.role == Role::NameLeader || is_name(item.role)
}

/// Where a finding's flag stands and where it points, view frame, mm.
struct Flag {
    tip: DVec2,
    at: DVec2,
}

impl Drawing {
    /// Puts names, flags and dimensions where they stood in an earlier drawing of the same view, shifted with what they belong
    /// to. What was not there then stands where it was put now; what was there, had no room for its name and stays where it is
    /// goes on without one. A flag is the same if its letter is.
    pub fn keep_places_of(&mut self, before: &Self) {
        if self.projection != before.projection || self.px_per_mm != before.px_per_mm {
            return;
        }
        let shifts = self.shifts_since(before);
        let shift = |subject: &Option<Subject>| {
            subject.as_ref().and_then(|own| shifts.get(own)).copied().unwrap_or(DVec2::ZERO)
        };
        let named = |item: &&Item| is_name(item.role) && matches!(item.shape, Shape::Text(_));
        let mut names: BTreeMap<&Subject, Vec<&Item>> = BTreeMap::new();
        for item in before.items.iter().filter(named) {
            if let Some(subject) = &item.subject {
                names.entry(subject).or_default().push(item);
            }
        }
        // A name that keeps its place keeps the line that leads to it, or goes on without one.
        let kept = |item: &Item| item.subject.as_ref().is_some_and(|own| names.contains_key(own));
        // A name that comes only now would have another place in each frame. What the paper brings in sight gets its own.
        let is_still = self.view_point(DVec2::ZERO) == before.view_point(DVec2::ZERO);
        let comes_now = |item: &Item| {
            if !is_still || !is_written(item) || kept(item) {
                return false;
            }
            item.subject.as_ref().is_some_and(|own| shifts.get(own) == Some(&DVec2::ZERO))
        };
        self.items.retain(|item| !comes_now(item));
        self.items.retain(|item| item.role != Role::NameLeader || !kept(item));
        let mut seen: BTreeMap<Subject, usize> = BTreeMap::new();
        for item in self.items.iter_mut().filter(|item| is_name(item.role)) {
            let (Some(subject), Shape::Text(text)) = (&item.subject, &mut item.shape) else { continue };
            let nth = seen.entry(subject.clone()).or_insert(0);
            let old = names.get(subject).and_then(|all| all.get(*nth));
            *nth += 1;
            if let Some(Item { shape: Shape::Text(old), .. }) = old {
                (text.align, text.angle) = (old.align, old.angle);
                text.at = old.at + shift(&item.subject);
                if text.style == old.style {
                    (text.text, text.width) = (old.text.clone(), old.width);
                }
            }
        }
        let leaders = before.items.iter().filter(|item| item.role == Role::NameLeader && kept(item));
        let leaders: Vec<Item> = leaders
            .map(|item| {
                let mut item = item.clone();
                if let Shape::Line(points) = &mut item.shape {
                    points.iter_mut().for_each(|p| *p += shift(&item.subject));
                }
                item
            })
            .collect();
        self.items.extend(leaders);
        self.keep_dimensions(before);
        self.keep_flags(before);
        self.give_way();
        self.items.sort_by_key(|item| item.role.layer());
    }

    /// How far the middle of everything that is named, then or now, and drawn both times, has moved since, view frame, mm.
    pub(super) fn shifts_since<'a>(&self, before: &'a Self) -> BTreeMap<&'a Subject, DVec2> {
        let written = before.items.iter().chain(&self.items).filter(|item| is_written(item));
        let named: BTreeSet<&Subject> = written.filter_map(|item| item.subject.as_ref()).collect();
        let is_named = |own: &Subject| named.contains(own);
        let now: BTreeMap<&Subject, Bounds> = self.bodies(is_named).into_iter().collect();
        let moved = before.bodies(is_named).into_iter().filter_map(|(subject, was)| {
            let is = self.view_point(now.get(subject)?.centre());
            Some((subject, is - before.view_point(was.centre())))
        });
        moved.collect()
    }

    /// A name that kept its place goes away, with its line, where a figure of a stop or of what is in hand comes to lie on it.
    fn give_way(&mut self) {
        let boxes = |text: &Text| -> Vec<Bounds> { text_boxes(self.paper_point(text.at), text).collect() };
        let figures: Vec<Bounds> = (self.items.iter())
            .filter(|item| matches!(item.role, Role::LiveDimension | Role::DimensionStops))
            .filter_map(|item| match &item.shape {
                Shape::Dimension(own) => Some(boxes(&own.text)),
                Shape::Text(own) => Some(boxes(own)),
                _ => None,
            })
            .flatten()
            .collect();
        let is_covered = |item: &Item| match &item.shape {
            Shape::Text(text) if is_name(item.role) => boxes(text)
                .iter()
                .any(|name| figures.iter().any(|figure| figure.meets(&name.grown(-MAY_TOUCH_PX)))),
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

    /// What spans the same as before is written where it was.
    fn keep_dimensions(&mut self, before: &Self) {
        let old: Vec<_> = (before.items.iter())
            .filter_map(|item| match &item.shape {
                Shape::Dimension(own) => Some((item.role, &item.subject, own)),
                _ => None,
            })
            .collect();
        for item in &mut self.items {
            let Shape::Dimension(own) = &mut item.shape else { continue };
            let same = old.iter().find(|(role, subject, old)| {
                *role == item.role
                    && **subject == item.subject
                    && old.from.distance(own.from) < SAME_MM
                    && old.to.distance(own.to) < SAME_MM
            });
            if let Some((.., same)) = same {
                own.clone_from(same);
            }
        }
    }

    fn keep_flags(&mut self, before: &Self) {
        let (then, now) = (before.flags(), self.flags());
        for (letter, (finding, new)) in &now {
            let Some((_, old)) = then.get(letter) else { continue };
            let at = new.tip + (old.at - old.tip);
            if !self.window().grown(-12.0).holds(self.paper_point(at)) {
                continue;
            }
            for item in self.items.iter_mut().filter(|item| item.finding == Some(*finding)) {
                match (item.role, &mut item.shape) {
                    (Role::Flag(_), Shape::Sign(sign)) => sign.at = at,
                    (Role::Leader(_), Shape::Line(points)) => *points = vec![new.tip, at],
                    _ => {}
                }
            }
        }
    }

    /// The flags by their letters, with the findings that they belong to.
    fn flags(&self) -> BTreeMap<String, (usize, Flag)> {
        let of = |finding: usize| self.items.iter().filter(move |item| item.finding == Some(finding));
        let flags = self.items.iter().filter_map(|item| match (item.role, &item.shape, item.finding) {
            (Role::Flag(_), Shape::Sign(sign), Some(finding)) => Some((sign, finding)),
            _ => None,
        });
        flags
            .filter_map(|(sign, finding)| {
                let tip = of(finding).find_map(|item| match (item.role, &item.shape) {
                    (Role::Leader(_), Shape::Line(points)) => points.first().copied(),
                    _ => None,
                })?;
                Some((sign.text.clone(), (finding, Flag { tip, at: sign.at })))
            })
            .collect()
    }
}
