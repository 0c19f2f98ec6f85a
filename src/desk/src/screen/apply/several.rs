//! What is in hand, one thing or several together: moved, turned, put in order, copied, cut and pasted, each as one step.

use baywright_files::{things_of, things_text};
use baywright_planner::Subject;
use baywright_planner::edit::{Edit, is_taken};
use baywright_planner::geometry::{Bounds, DVec2, PlanPose, Span};
use baywright_planner::hand::{self, Order, free_spot, ordered, turned_together};
use baywright_planner::model::{Footprint, Id, Known, Place, Shape, Thing, ThingKind};

use crate::screen::Desk;
use crate::screen::shelf::{Set, SetPart, set};

/// A copy stands so far beside what it was made from, mm, if there is room.
const BESIDE_MM: f64 = 100.0;

impl Desk {
    /// Everything that is in hand and can be moved, the one that leads first.
    fn in_hand(&self) -> Vec<Subject> {
        let (arrangement, scene) = (&self.answer.arrangement, &self.answer.assessment.scene);
        let is_there = |own: &&Subject| hand::pose_of(arrangement, scene, own).is_some();
        self.view.chosen().filter(is_there).cloned().collect()
    }

    /// The things in hand, in the bay's order.
    pub(in crate::screen) fn things_in_hand(&self) -> Vec<&Thing> {
        let things = self.answer.arrangement.bay.things.iter();
        things.filter(|own| self.view.is_chosen(&Subject::Thing(own.id.clone()))).collect()
    }

    /// Puts them where they are to be, as one step.
    fn put_there(&mut self, places: Vec<(Subject, PlanPose)>) {
        let edits = places.into_iter().filter_map(|(subject, pose)| self.placed(&subject, pose)).collect();
        self.do_all(edits);
    }

    fn do_all(&mut self, mut edits: Vec<Edit>) {
        match edits.len() {
            0 => {}
            1 => {
                if let Some(edit) = edits.pop() {
                    self.edit(&edit);
                }
            }
            _ => self.edit(&Edit::All(edits)),
        }
    }

    /// Moves what is in hand; `by` is along the paper's own directions, mm.
    pub(super) fn nudge(&mut self, by: DVec2) {
        let by = self.canvas.bay_from_top().turned(by);
        let (arrangement, scene) = (&self.answer.arrangement, &self.answer.assessment.scene);
        let moved = |subject: Subject| {
            let pose = hand::pose_of(arrangement, scene, &subject)?.shifted(by);
            Some((subject, pose))
        };
        let places = self.in_hand().into_iter().filter_map(moved).collect();
        self.put_there(places);
    }

    /// Turns what is in hand, radians anticlockwise: several as one, about their middle.
    pub(super) fn turn(&mut self, by: f64) {
        let (arrangement, scene) = (&self.answer.arrangement, &self.answer.assessment.scene);
        let places = turned_together(arrangement, scene, &self.in_hand(), by);
        self.put_there(places);
    }

    pub(super) fn arrange(&mut self, order: Order) {
        let (arrangement, scene) = (&self.answer.arrangement, &self.answer.assessment.scene);
        let places = ordered(arrangement, scene, &self.in_hand(), order);
        self.put_there(places);
    }

    /// Takes the things in hand out of this arrangement, or the dimension in hand away.
    pub(super) fn remove_chosen(&mut self) {
        if let Some(dimension) = self.dimension_in_hand() {
            self.edit(&Edit::RemoveDimension(dimension));
            self.view.choose(None);
            return;
        }
        let edits = self.things_in_hand().into_iter().map(|own| Edit::Remove(own.id.clone())).collect();
        self.do_all(edits);
        self.view.choose(None);
    }

    /// A set from the shelf, along the car, in nobody's way.
    pub(super) fn add_set(&mut self, of: Set) {
        let (texts, words) = (self.view.locale.language.hand(), self.words());
        let name = |part| {
            Id::from(match part {
                SetPart::Wall => texts.inner_wall,
                SetPart::Pillar => words.kind_of_thing(ThingKind::Column),
                SetPart::BoothWall => texts.booth_wall,
                SetPart::Post => words.kind_of_thing(ThingKind::LiftPost),
                SetPart::Arm => words.kind_of_thing(ThingKind::LiftArm),
            })
        };
        let ceiling = self.answer.arrangement.bay.ceiling_mm;
        let frame = PlanPose::new(self.middle_in_sight(), self.answer.arrangement.parked.heading());
        let things = set(of, frame, ceiling, name);
        let middle = box_of(&things).map_or(frame.origin(), |own| own.centre());
        self.put(things, middle);
    }

    /// Copies stand beside what they were made from, towards the bottom of the paper, where they are seen not to be the same
    /// and are in nobody's way.
    pub(super) fn copy(&mut self) {
        let things: Vec<Thing> = self.things_in_hand().into_iter().cloned().collect();
        let Some(around) = box_of(&things) else { return };
        let least = around.size().min_element() + BESIDE_MM;
        let aside = self.canvas.bay_from_top().turned(DVec2::NEG_Y) * least;
        self.put(things, around.centre() + aside);
    }

    /// The things in hand as text on the clipboard; whether they leave this arrangement.
    pub(super) fn clip(&mut self, ctx: &egui::Context, cut: bool) {
        let things: Vec<Thing> = self.things_in_hand().into_iter().cloned().collect();
        if things.is_empty() {
            return;
        }
        ctx.copy_text(things_text(&things));
        self.say(self.view.locale.language.hand().on_clipboard(things.len()));
        // What is cut out of the other set-ups too is said instead.
        if cut {
            self.remove_chosen();
        }
    }

    /// The things of a text, where the pointer is and in nobody's way.
    pub(super) fn paste(&mut self, text: &str, at: Option<DVec2>) {
        match things_of(text) {
            Some(things) => self.put(things, at.unwrap_or_else(|| self.middle_in_sight())),
            None => self.say_wrong(self.view.locale.language.hand().not_things),
        }
    }

    /// Puts new things there, as they stand to one another, their middle as near to `wanted` as they are in nobody's way;
    /// and takes them in hand. Nobody has taped where they stand.
    fn put(&mut self, things: Vec<Thing>, wanted: DVec2) {
        let Some(around) = box_of(&things) else { return };
        let (arrangement, scene) = (&self.answer.arrangement, &self.answer.assessment.scene);
        let by = match things.as_slice() {
            // Its own outline, which may take less room than the box around it.
            [one] => {
                let off = one.place.at.origin() - around.centre();
                free_spot(arrangement, scene, one, wanted + off) - one.place.at.origin()
            }
            _ => {
                let Some(all) = as_one(&things, &around) else { return };
                free_spot(arrangement, scene, &all, wanted) - around.centre()
            }
        };
        let mut taken: Vec<Id> = Vec::new();
        let mut edits = Vec::new();
        for mut thing in things {
            let layout = self.document.layout();
            let is_used = |name: &str| {
                let name = Id::from(name);
                taken.contains(&name) || is_taken(layout, &name)
            };
            let id = Id::free(thing.id.stem(), " ", is_used);
            taken.push(id.clone());
            thing.id = id;
            thing.locked = false;
            thing.place = thing.place.shifted(by.round());
            thing.place.known = self.document.by().shop.by_hand(thing.place.known);
            edits.push(Edit::Add(thing));
        }
        self.do_all(edits);
        let is_there = |id: &Id| {
            self.document.arrangement().is_some_and(|own| own.bay.things.iter().any(|thing| thing.id == *id))
        };
        // What was refused is said, and nothing is in hand that is not there.
        if taken.first().is_some_and(is_there) {
            self.view.choose_all(taken.into_iter().map(Subject::Thing).collect());
            self.view.list_open = true;
        }
    }
}

/// The box around some things, bay frame; `None` if there are none.
fn box_of(things: &[Thing]) -> Option<Bounds> {
    things.iter().map(|own| own.prism().outline.bounds()).reduce(Bounds::union)
}

/// One thing as large as all of them together, and known no better than the least known of them.
fn as_one(things: &[Thing], around: &Bounds) -> Option<Thing> {
    let first = things.first()?;
    let size = around.size();
    let bottom = things.iter().map(|own| own.span.bottom()).fold(f64::INFINITY, f64::min);
    let top = things.iter().map(|own| own.span.top()).fold(f64::NEG_INFINITY, f64::max);
    let shape = Shape::Rectangle { length_mm: size.x, width_mm: size.y };
    Some(Thing {
        footprint: Footprint::new(shape).ok()?,
        place: Place { at: PlanPose::new(around.centre(), 0.0), known: Known::ByEye },
        span: Span::new(bottom, top).ok()?,
        ..first.clone()
    })
}
