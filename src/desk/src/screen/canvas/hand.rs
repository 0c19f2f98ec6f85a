//! What the pointer does on the drawing, as commands.

use baywright_drawing::{Drawing, Projection};
use baywright_planner::Subject;
use baywright_planner::edit::Edit;
use baywright_planner::geometry::{Bounds, DVec2, PlanPose, Polygon, Span, angle};
use baywright_planner::hand::{Snap, pose_of, resized, snapped, squared};
use baywright_planner::model::{Place, Thing, validate::limits};
use egui::{Context, Event, MouseWheelSource, MouseWheelUnit, PointerButton, Pos2, Vec2};

use super::grip::{self, Grip, moved_by};
use super::picture::PictureLies;
use super::{Canvas, id_of};
use crate::screen::apply::placed;
use crate::screen::command::{Command, OfBay, OfCar, OfView};
use crate::screen::space;
use crate::screen::view::{Camera, Drawn, Tool, Viewing};
use crate::screen::whole;
use crate::session::answer::Answer;

/// Thin things are hit this far beside them, px.
const SLACK_PX: f64 = 5.0;
/// Something snaps from this far, px.
const SNAP_PX: f64 = 9.0;
/// A heading snaps from this far, degrees.
const SQUARE_DEG: f64 = 3.0;
/// A mark is picked from this far, px.
const MARK_REACH_PX: f64 = 16.0;
/// One notch of a wheel.
const WHEEL: f32 = 1.0 / 400.0;

/// Something in hand, from the press on.
#[derive(Clone, Debug)]
pub(super) struct Drag {
    side: Projection,
    grip: Grip,
    subject: Option<Subject>,
    /// Where the press was, px of the view's paper.
    press: DVec2,
    /// Where what is in hand stood: bay from its own frame.
    start: PlanPose,
    /// What it was.
    thing: Option<Thing>,
    /// The drawing that was there: the paper keeps still.
    drawing: std::sync::Arc<Drawing>,
    /// Bay from the top view's frame, while the hand moves.
    pub bay_from_top: PlanPose,
    pub one_axis: bool,
    pub camera: Camera,
    /// The camera was chosen by hand: it is put back over the same place of the room afterwards.
    chosen: bool,
    /// Where the eye was.
    before: Option<Camera>,
    /// Where the picture under the plan lay, if that is in hand.
    picture: Option<PictureLies>,
    /// What goes along with it, and where that stood.
    others: Vec<(Subject, PlanPose)>,
    /// What was asked for last; its name is the step's name.
    last: Option<Edit>,
}

/// Whether an event scrolls by fingers on a pad, as far as the system tells; `None` if it scrolls nothing.
const fn is_by_fingers(event: &Event) -> Option<bool> {
    match event {
        Event::MouseWheel { source: MouseWheelSource::Trackpad | MouseWheelSource::Momentum, .. } => {
            Some(true)
        }
        Event::MouseWheel { source: MouseWheelSource::Wheel, .. } => Some(false),
        Event::MouseWheel { unit, .. } => Some(matches!(unit, MouseWheelUnit::Point)),
        _ => None,
    }
}

/// Whether what is pressed is one more of several.
fn more(ctx: &Context) -> bool {
    ctx.input(|i| i.modifiers.shift || i.modifiers.command)
}

/// Where an edit parks the car.
fn parked_by(edit: &Edit) -> Option<PlanPose> {
    match edit {
        Edit::Park(pose) => Some(*pose),
        Edit::All(edits) => edits.iter().find_map(parked_by),
        _ => None,
    }
}

/// What can be moved and lies wholly within a frame on the paper of the top view, px.
fn framed(drawing: &Drawing, answer: &Answer, from: DVec2, to: DVec2) -> Vec<Subject> {
    let frame = Bounds { low: from.min(to), high: from.max(to) };
    let mut inside: Vec<Subject> = Vec::new();
    for (subject, bounds) in drawing.boxes() {
        let subject = whole(subject);
        let pose = pose_of(&answer.arrangement, &answer.assessment.scene, &subject);
        let is_movable = pose.is_some_and(|pose| placed(answer, &subject, pose).is_some());
        let is_inside = frame.holds(bounds.low) && frame.holds(bounds.high);
        if is_movable && is_inside && !inside.contains(&subject) {
            inside.push(subject);
        }
    }
    inside
}

impl Canvas {
    /// Whether something is in hand.
    pub fn is_dragging(&self) -> bool {
        self.drag.is_some()
    }

    /// What was snapped to while the hand moves.
    pub(super) fn snaps(&self) -> &[Snap] {
        if self.drag.is_some() { &self.snaps } else { &[] }
    }

    /// Turns what the pointer did since the last frame into commands.
    pub fn listen(&mut self, ctx: &Context, answer: &Answer, view: &Viewing, out: &mut Vec<Command>) {
        self.marker = None;
        if view.page().is_some() {
            return;
        }
        if self.drag.is_some() {
            self.carry_on(ctx, answer, view, out);
            return;
        }
        let Some(seen) = self.drawn.as_ref().map(super::Drawn::seen) else { return };
        let mut over = None;
        for &side in seen {
            let Some(response) = ctx.read_response(id_of(side)) else { continue };
            let press = ctx.input(|i| i.pointer.press_origin());
            for button in [PointerButton::Primary, PointerButton::Secondary, PointerButton::Middle] {
                if response.drag_started_by(button)
                    && let Some(press) = press
                {
                    let hand = button == PointerButton::Primary && !space::was_held_at_press(ctx);
                    self.take(side, press, hand, answer, view, out);
                }
            }
            if self.drag.is_some() {
                self.carry_on(ctx, answer, view, out);
                return;
            }
            let at = response.hover_pos().or(response.interact_pointer_pos());
            if let Some(at) = at.filter(|_| response.contains_pointer() || response.clicked()) {
                over = Some((side, at));
                if response.clicked() && !space::was_held_at_press(ctx) {
                    self.click(ctx, side, at, view, answer, out);
                }
                if response.double_clicked() && view.tool == Tool::WhichSide {
                    out.push(Command::View(match self.under(side, at) {
                        // Nothing that has figures: the paper, or what is drawn on it.
                        None | Some(Subject::Zone(_) | Subject::Floor) => OfView::Camera(None),
                        Some(_) => OfView::List(true),
                    }));
                }
                if response.secondary_clicked() && view.tool == Tool::WhichSide && !answer.is_of_draft() {
                    let under = self.under(side, at);
                    if under.as_ref().is_none_or(|under| !view.is_chosen(under)) {
                        out.push(Command::View(OfView::Select(under)));
                    }
                    out.push(Command::View(OfView::Menu(Some(at))));
                }
                self.wheel(ctx, side, at, out);
            }
        }
        let picked = over.and_then(|(side, at)| {
            let drawn = self.drawn.as_ref()?;
            let px = drawn.on_paper(side, at);
            drawn.drawing(side).pick(px, SLACK_PX)
        });
        let picked = picked.filter(|_| view.tool == Tool::WhichSide);
        self.marker = picked.as_ref().and_then(|picked| picked.finding);
        let hovered = picked.and_then(|picked| picked.subject).map(whole);
        self.under_pointer = over.is_some();
        if over.is_some() && hovered != view.hovered {
            out.push(Command::View(OfView::Hover(hovered)));
        }
    }

    /// What is seen at a place of the screen.
    fn under(&self, side: Projection, at: Pos2) -> Option<Subject> {
        let drawn = self.drawn.as_ref()?;
        let px = drawn.on_paper(side, at);
        drawn.drawing(side).pick(px, SLACK_PX)?.subject.map(whole)
    }

    fn click(
        &self,
        ctx: &Context,
        side: Projection,
        at: Pos2,
        view: &Viewing,
        answer: &Answer,
        out: &mut Vec<Command>,
    ) {
        let Some(drawn) = &self.drawn else { return };
        let px = drawn.on_paper(side, at);
        let drawing = drawn.drawing(side);
        if let Tool::PickMark { .. } = view.tool {
            if side == Projection::Top {
                out.extend(self.mark_at(px, answer).map(|asked| Command::Car(OfCar::PickedMark(asked))));
            }
            return;
        }
        if let Tool::ScalePicture { .. } = view.tool {
            if side == Projection::Top {
                out.push(Command::Bay(OfBay::ScalePoint(drawing.bay_from_view * drawing.view_point(px))));
            }
            return;
        }
        if let Tool::Draw(_) | Tool::MovePicture = view.tool {
            return;
        }
        if let Tool::Measure(measuring) = view.tool {
            out.push(Command::View(OfView::Tool(Tool::Measure(super::measure::next(
                measuring, side, drawing, px, answer,
            )))));
            return;
        }
        let picked = drawing.pick(px, SLACK_PX);
        if let Some(finding) = picked.as_ref().and_then(|picked| picked.finding) {
            out.push(Command::View(OfView::Point(finding)));
            return;
        }
        let under = picked.and_then(|picked| picked.subject).map(whole);
        match under {
            // One more, or one less; beside everything it lets go of nothing.
            Some(under) if more(ctx) => out.push(Command::View(OfView::SelectToo(under))),
            None if more(ctx) => {}
            under => out.push(Command::View(OfView::Select(under))),
        }
    }

    /// The floor mark nearest to a place of the top view, if one is near, by its position in the plan.
    fn mark_at(&self, px: DVec2, answer: &Answer) -> Option<usize> {
        let drawing = &self.drawn.as_ref()?.top;
        let view_from_bay = drawing.bay_from_view.inverse();
        let near = answer.assessment.scene.marks.iter().enumerate().filter_map(|(i, mark)| {
            let at = drawing.paper_point(view_from_bay * mark.at.ok()?);
            Some((at.distance(px), i)).filter(|(off, _)| *off <= MARK_REACH_PX)
        });
        near.min_by(|a, b| a.0.total_cmp(&b.0)).map(|(_, i)| i)
    }

    /// A wheel zooms, and sideways it pans; two fingers pan; pinched, and with Ctrl held, either zooms.
    fn wheel(&mut self, ctx: &Context, side: Projection, at: Pos2, out: &mut Vec<Command>) {
        let (scroll, pinch, fingers) = ctx.input(|i| {
            (i.smooth_scroll_delta(), i.zoom_delta(), i.events.iter().rev().find_map(is_by_fingers))
        });
        // The scroll goes on for some frames after its event.
        self.by_fingers = fingers.unwrap_or(self.by_fingers);
        let zooms = if self.by_fingers { 0.0 } else { scroll.y };
        let pans = Vec2::new(scroll.x, scroll.y - zooms);
        let by = f64::from(pinch) * f64::from(zooms * WHEEL).exp();
        let Some(drawn) = &self.drawn else { return };
        if (by - 1.0).abs() > 1e-6 {
            out.push(Command::View(OfView::Camera(Some(drawn.zoomed(side, at, by)))));
        } else if pans != Vec2::ZERO {
            let by = DVec2::new(f64::from(pans.x), f64::from(pans.y)) / drawn.camera.px_per_mm;
            out.push(Command::View(OfView::Camera(Some(drawn.panned(side, drawn.camera, by)))));
        }
    }

    /// A press that became a drag: what is under it is taken in hand, or the paper; `hand` is whether anything else than the
    /// paper may be.
    fn take(
        &mut self,
        side: Projection,
        press: Pos2,
        hand: bool,
        answer: &Answer,
        view: &Viewing,
        out: &mut Vec<Command>,
    ) {
        let Some(drawn) = &self.drawn else { return };
        let px = drawn.on_paper(side, press);
        let drawing = drawn.drawing(side);
        let scene = &answer.assessment.scene;
        let things = hand && view.tool == Tool::WhichSide && !answer.stale && !answer.is_of_draft();
        let gripped = if things { grip::at(answer, view, side, drawing, px) } else { None };
        let (grip, subject) = match gripped {
            Some(grip) => (grip, view.selected.clone()),
            None if things => (Grip::Body, self.under(side, press)),
            None => (Grip::Paper, None),
        };
        let start = subject.as_ref().and_then(|subject| pose_of(&answer.arrangement, scene, subject));
        let movable =
            start.filter(|&start| subject.as_ref().is_some_and(|s| placed(answer, s, start).is_some()));
        let (grip, start) = match movable {
            Some(start) => (grip, start),
            None if matches!(grip, Grip::Corner(_)) => (grip, PlanPose::IDENTITY),
            // On the floor, beside what can be moved, a frame is drawn.
            None if things && side == Projection::Top => (Grip::Frame, PlanPose::IDENTITY),
            None => (Grip::Paper, PlanPose::IDENTITY),
        };
        // What is in hand with it goes along.
        let with = view.chosen().filter(|own| Some(*own) != subject.as_ref());
        let with = with.filter_map(|own| Some((own.clone(), pose_of(&answer.arrangement, scene, own)?)));
        let is_chosen = subject.as_ref().is_some_and(|subject| view.is_chosen(subject));
        let others = if grip == Grip::Body && is_chosen { with.collect() } else { Vec::new() };
        let thing = match &subject {
            Some(Subject::Thing(id)) => {
                answer.arrangement.bay.things.iter().find(|own| own.id.as_str() == id.as_str()).cloned()
            }
            _ => None,
        };
        let grip = match view.tool {
            Tool::Draw(drawn) if side == Projection::Top && hand => Grip::Draw(drawn),
            Tool::MovePicture if side == Projection::Top && hand && !answer.is_of_draft() => {
                let own = self.picture.as_ref();
                own.map_or(grip, |own| Grip::Picture(own.hold_at(drawing, px)))
            }
            _ => grip,
        };
        let picture = self.picture.clone().filter(|_| matches!(grip, Grip::Picture(_)));
        self.kept = Some([drawn.top.clone(), drawn.side.clone()]);
        self.drag = Some(Drag {
            side,
            press: px,
            start,
            thing,
            drawing: drawing.clone(),
            bay_from_top: drawn.top.bay_from_view,
            one_axis: drawn.one_axis,
            camera: drawn.camera,
            chosen: view.camera.is_some(),
            before: view.camera,
            last: None,
            picture,
            subject: subject.clone().filter(|_| !matches!(grip, Grip::Paper | Grip::Frame)),
            others,
            grip,
        });
        // What is being drawn stays in hand.
        let leaves_choice = matches!(grip, Grip::Paper | Grip::Frame | Grip::Picture(_) | Grip::Draw(_));
        if !leaves_choice && !is_chosen {
            out.push(Command::View(OfView::Select(subject)));
        }
    }

    /// The hand moves on, or lets go.
    fn carry_on(&mut self, ctx: &Context, answer: &Answer, view: &Viewing, out: &mut Vec<Command>) {
        let Some(mut drag) = self.drag.take() else { return };
        if ctx.input(|i| i.key_pressed(egui::Key::Escape)) {
            self.area = None;
            if drag.grip == Grip::Paper {
                out.push(Command::View(OfView::Camera(drag.before)));
            }
            out.push(Command::Abandon);
            ctx.stop_dragging();
            return;
        }
        let Some(drawn) = &self.drawn else { return };
        let (pointer, down, moved, free) = ctx.input(|i| {
            (
                i.pointer.latest_pos(),
                i.pointer.any_down(),
                i.pointer.delta(),
                i.modifiers.command || i.modifiers.alt,
            )
        });
        if drag.grip == Grip::Paper {
            if down {
                let by = DVec2::new(f64::from(moved.x), f64::from(moved.y)) / drag.camera.px_per_mm;
                drag.camera = drawn.panned(drag.side, drag.camera, by);
                if by != DVec2::ZERO {
                    out.push(Command::View(OfView::Camera(Some(drag.camera))));
                }
                self.drag = Some(drag);
            }
            return;
        }
        if let Grip::Draw(asked) = drag.grip {
            let in_bay = |px: DVec2| drawn.top.bay_from_view * drawn.top.view_point(px);
            self.area =
                pointer.map(|at| (in_bay(drag.press), in_bay(drawn.on_paper(drag.side, at)))).or(self.area);
            if down {
                self.drag = Some(drag);
            } else if let Some((from, to)) = self.area.take() {
                out.push(match asked {
                    Drawn::Area(area) => Command::Bay(OfBay::DrawnArea(area, from, to)),
                    Drawn::Zone { aiming, zone } => Command::Car(OfCar::DrawnZone { aiming, zone, from, to }),
                });
            }
            return;
        }
        if drag.grip == Grip::Frame {
            self.frame = pointer.map(|at| [drag.press, drawn.on_paper(drag.side, at)]).or(self.frame);
            if down {
                self.drag = Some(drag);
            } else if let Some([from, to]) = self.frame.take() {
                let inside = framed(&drag.drawing, answer, from, to);
                let kept = view.chosen().filter(|own| more(ctx) && !inside.contains(own)).cloned();
                let all: Vec<Subject> = kept.chain(inside.iter().cloned()).collect();
                out.push(Command::View(OfView::SelectAll(all)));
            }
            return;
        }
        if let Some(at) = pointer {
            let px = drawn.on_paper(drag.side, at);
            let mut snaps = Vec::new();
            let edits = drag.edits(answer, px, free, &mut snaps);
            let last = match edits.as_slice() {
                _ if drag.others.is_empty() => edits.last().cloned(),
                [] => None,
                several => Some(Edit::All(several.to_vec())),
            };
            if last.is_some() && drag.last != last {
                drag.last = last;
                out.push(Command::Bay(OfBay::Preview(edits)));
            }
            self.snaps = snaps;
        }
        if down {
            self.drag = Some(drag);
            return;
        }
        if let Some(last) = &drag.last {
            out.push(Command::Bay(OfBay::Settle(last.clone())));
        }
        // The paper turns to the car again: the eye stays over the same place of the room.
        if drag.chosen
            && !view.to_room
            && let Some(parked) = drag.last.as_ref().and_then(parked_by)
        {
            let top = parked.inverse() * (drag.bay_from_top * drag.camera.top);
            let side = DVec2::new(if drag.one_axis { top.x } else { drag.camera.side.x }, drag.camera.side.y);
            out.push(Command::View(OfView::Camera(Some(Camera { top, side, ..drag.camera }))));
        }
    }
}

impl Drag {
    /// Where the hand has what its handle moves, in the view's frame: as far from the pointer as it was at the press.
    fn held(&self, px: DVec2) -> DVec2 {
        let of = self.thing.as_ref().and_then(|thing| moved_by(thing, self.grip, self.side, &self.drawing));
        self.drawing.view_point(px + of.map_or(DVec2::ZERO, |of| of - self.press))
    }

    /// What the hand asks for now; all edits start from what was there at the press. `free` holds snapping off.
    fn edits(&self, answer: &Answer, px: DVec2, free: bool, snaps: &mut Vec<Snap>) -> Vec<Edit> {
        if let (Grip::Picture(hold), Some(own)) = (self.grip, &self.picture) {
            let [from, to] =
                [self.press, px].map(|p| self.drawing.bay_from_view * self.drawing.view_point(p));
            return vec![Edit::Underlay(Some(own.held(hold, from, to)))];
        }
        let Some(subject) = &self.subject else { return Vec::new() };
        let (arrangement, scene) = (&answer.arrangement, &answer.assessment.scene);
        let (from, to) = (self.drawing.view_point(self.press), self.drawing.view_point(px));
        let in_bay = self.drawing.bay_from_view * to;
        let reach = if free { 0.0 } else { SNAP_PX / self.drawing.px_per_mm };
        let one = |edit: Option<Edit>| edit.into_iter().collect::<Vec<_>>();
        match self.grip {
            Grip::Paper | Grip::Frame | Grip::Draw(_) | Grip::Picture(_) => Vec::new(),
            Grip::Corner(corner) => {
                // To a centimetre, unless snapping is held off; in line with the neighbours where they are near.
                let to = if free { in_bay.round() } else { (in_bay / 10.0).round() * 10.0 };
                let to = in_line(&arrangement.bay.room, corner, to, reach);
                // Held off, the corner alone moves.
                vec![Edit::Corner { corner, to, square: !free }]
            }
            Grip::Body => {
                let mut by = to - from;
                if self.side == Projection::Side {
                    by.y = 0.0;
                }
                let by = self.drawing.bay_from_view.turned(by);
                let at = (self.start.origin() + by).round();
                let wanted = PlanPose::new(at, self.start.heading());
                // Several keep their places to one another: what one of them is drawn onto is not the others'.
                if !self.others.is_empty() {
                    let by = at - self.start.origin();
                    let others = self.others.iter().map(|(own, pose)| (own, pose.shifted(by)));
                    let all = std::iter::once((subject, wanted)).chain(others);
                    return all.filter_map(|(own, pose)| placed(answer, own, pose)).collect();
                }
                let snap = snapped(arrangement, scene, subject, wanted, reach);
                // From the side nothing is moved across the axis, not even by a little.
                let across = self.drawing.bay_from_view.left().dot(snap.place.origin() - wanted.origin());
                if self.side == Projection::Side && across.abs() > 1e-6 {
                    return one(placed(answer, subject, wanted));
                }
                *snaps = snap.onto;
                one(placed(answer, subject, snap.place))
            }
            Grip::Turn => {
                let arm = |p: DVec2| angle::heading(p - self.start.origin());
                let by = arm(in_bay) - arm(self.drawing.bay_from_view * from);
                // To a tenth of a degree, so that it can be read and typed.
                let wanted = angle::degrees(self.start.heading() + by);
                let wanted = angle::wrapped(angle::radians((wanted * 10.0).round() / 10.0));
                let reach = if free { 0.0 } else { angle::radians(SQUARE_DEG) };
                let heading = squared(arrangement, scene, subject, wanted, reach);
                one(placed(answer, subject, PlanPose::new(self.start.origin(), heading)))
            }
            Grip::Size(x, y) => {
                let Some(thing) = &self.thing else { return Vec::new() };
                let held = self.drawing.bay_from_view * self.held(px);
                let Some((shape, place)) = resized(thing, (x, y), held) else { return Vec::new() };
                let id = thing.id.clone();
                // Where its sides are now nobody has taped.
                let is_same = place == thing.place.at && shape == *thing.footprint.shape();
                let known =
                    if is_same { thing.place.known } else { arrangement.shop.by_hand(thing.place.known) };
                // Named after the last one: the size.
                vec![
                    Edit::Place { thing: id.clone(), place: Place { at: place, known } },
                    Edit::Reshape { thing: id, shape },
                ]
            }
            Grip::Bottom | Grip::Top => {
                let Some(thing) = &self.thing else { return Vec::new() };
                let least = limits::THICKNESS.low;
                let height = (self.held(px).y / 10.0).round() * 10.0;
                let (bottom, top) = (thing.span.bottom(), thing.span.top());
                let span = match self.grip {
                    Grip::Bottom => Span::new(height.clamp(0.0, (top - least).max(0.0)), top),
                    _ => Span::new(bottom, height.max(bottom + least).min(limits::HEIGHT.high)),
                };
                one(span.ok().map(|span| Edit::Heights { thing: thing.id.clone(), span }))
            }
        }
    }
}

/// A corner of the room square to its neighbours, where the hand is near to that.
fn in_line(room: &Polygon, corner: usize, to: DVec2, reach: f64) -> DVec2 {
    let corners = room.outer();
    let count = corners.len();
    let neighbours = [corners.get((corner + count - 1) % count), corners.get((corner + 1) % count)];
    let mut to = to;
    for own in neighbours.into_iter().flatten() {
        if (own.x - to.x).abs() <= reach {
            to.x = own.x;
        }
        if (own.y - to.y).abs() <= reach {
            to.y = own.y;
        }
    }
    to
}

impl super::Drawn {
    /// The eye nearer or further, about a place of the screen.
    fn zoomed(&self, side: Projection, at: Pos2, by: f64) -> Camera {
        let px_per_mm = (self.camera.px_per_mm * by).clamp(1e-3, 4.0);
        let fixed = self.drawing(side).view_point(self.on_paper(side, at));
        let share = 1.0 - self.camera.px_per_mm / px_per_mm;
        let mut camera = Camera { px_per_mm, ..self.camera };
        let other = match side {
            Projection::Top => {
                camera.top = camera.top + (fixed - camera.top) * share;
                &mut camera.side
            }
            Projection::Side => {
                camera.side = camera.side + (fixed - camera.side) * share;
                &mut camera.top
            }
        };
        if self.one_axis {
            other.x += (fixed.x - other.x) * share;
        }
        // Where the side view goes along it shows what the aiming is about.
        if side == Projection::Top { self.with_sensor(camera) } else { camera }
    }

    /// The eye shifted by px on the paper, given in mm.
    fn panned(&self, side: Projection, mut camera: Camera, by: DVec2) -> Camera {
        let shift = DVec2::new(-by.x, by.y);
        match side {
            Projection::Top => camera.top += shift,
            Projection::Side => camera.side += shift,
        }
        if self.one_axis {
            match side {
                Projection::Top => camera.side.x += shift.x,
                Projection::Side => camera.top.x += shift.x,
            }
        }
        camera
    }
}
