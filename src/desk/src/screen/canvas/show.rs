//! Paints both views, with what lies over the drawing: handles, guides, measurements, the place that is shown.

use std::collections::BTreeSet;

use baywright_drawing::list::Shape as Listed;
use baywright_drawing::{Drawing, Projection, Role, Theme, Turned};
use baywright_planner::geometry::{Bounds, DVec2, PlanPose};
use baywright_planner::{Step, Subject};
use egui::{Color32, Pos2, Rect, Sense, Stroke, StrokeKind, Ui, Vec2, WidgetInfo};

use super::grip::{self, Grip};
use super::paint::Painter;
use super::picture::PictureLies;
use super::{Canvas, Drawn, TITLE_PX, id_of, measure};
use crate::screen::command::{Command, OfView};
use crate::screen::look::{self, size};
use crate::screen::page::Page;
use crate::screen::view::{Tool, Viewing};
use crate::screen::whole;
use crate::screen::{space, widgets};
use crate::session::answer::Answer;

/// The ring around a place that is shown, px.
const RING_PX: f32 = 17.0;

impl Canvas {
    /// Paints what was laid out.
    pub fn show(&mut self, ui: &mut Ui, answer: &Answer, view: &Viewing, out: &mut Vec<Command>) {
        self.fills.next_frame();
        let Some(drawn) = self.drawn.clone() else { return };
        // The ground is the window's own, cleared to the paper's colour.
        for &side in drawn.seen() {
            title(ui, &drawn, side, answer, view, out);
            self.view(ui, &drawn, side, answer, view, out);
        }
    }

    fn view(
        &mut self,
        ui: &mut Ui,
        drawn: &Drawn,
        side: Projection,
        answer: &Answer,
        view: &Viewing,
        out: &mut Vec<Command>,
    ) {
        let rect = drawn.rect(side);
        let drawing = drawn.drawing(side);
        let words = baywright_planner::words::Words::new(&answer.judged, view.locale);
        let response = ui.interact(rect, id_of(side), Sense::click_and_drag());
        let name = match side {
            Projection::Top => words.top_view(),
            Projection::Side => words.side_view(),
        };
        response.widget_info(|| WidgetInfo::labeled(egui::Role::Canvas, true, name));

        let window =
            Bounds { low: DVec2::ZERO, high: DVec2::new(f64::from(rect.width()), f64::from(rect.height())) };
        let mut painter = Painter {
            ctx: ui.ctx(),
            theme: view.theme,
            origin: rect.min,
            window,
            fills: &mut self.fills,
            out: Vec::with_capacity(drawing.items.len() * 2),
        };
        let picture = if side == Projection::Top { self.underlay.take() } else { None };
        match side {
            Projection::Top => self.painted_top.paint(&mut painter, drawing, picture),
            Projection::Side => self.painted_side.paint(&mut painter, drawing, picture),
        }
        let handles =
            if self.drag.is_none() { grip::handles(answer, view, side, drawing) } else { Vec::new() };
        let shapes = std::mem::take(&mut painter.out);
        let mut clipped = ui.painter_at(rect);
        clipped.set_clip_rect(rect.intersect(ui.clip_rect()));
        clipped.extend(shapes);
        self.over(&clipped, drawn, side, answer, view);
        let mut painter = Painter {
            ctx: ui.ctx(),
            theme: view.theme,
            origin: rect.min,
            window,
            fills: &mut self.fills,
            out: Vec::new(),
        };
        let beam = look::colour(view.theme.palette().beam);
        let ground = look::colour(view.theme.palette().sheet);
        for handle in &handles {
            let at = on_screen(rect, handle.at);
            match (handle.grip, handle.arm) {
                (Grip::Turn, Some(arm)) => {
                    painter
                        .out
                        .push(egui::Shape::line_segment([on_screen(rect, arm), at], Stroke::new(1.2, beam)));
                    painter.out.push(egui::Shape::circle_filled(at, 5.0, ground));
                    painter.out.push(egui::Shape::circle_stroke(at, 5.0, Stroke::new(1.6, beam)));
                }
                _ => {
                    // One that stands aside is tied to what it moves.
                    let of = on_screen(rect, handle.of);
                    if of.distance(at) > 10.0 {
                        painter.out.push(egui::Shape::line_segment([of, at], Stroke::new(1.0, beam)));
                    }
                    painter.handle(at, beam, ground);
                }
            }
        }
        clipped.extend(painter.out);
        cursor(ui, &response, drawn, side, answer, view, self.drag.is_some());
        self.names(ui, drawn, side, answer, view, out);
        if let (Some(picture), Tool::MovePicture, Projection::Top) = (&self.picture, view.tool, side) {
            for (place, name) in picture.named(drawing, view.locale.language) {
                let [low, high] = [place.low, place.high].map(|px| on_screen(rect, px));
                let own = Rect::from_two_pos(low, high).intersect(rect);
                if own.is_positive() {
                    // The canvas takes the drag; by the keyboard all of it is typed in its form.
                    let response = ui.interact(own, id_of(side).with(name), Sense::hover());
                    response.widget_info(|| WidgetInfo::labeled(egui::Role::GraphicsObject, true, name));
                }
            }
        }
    }

    /// Guides, the measurement, the place that is shown.
    fn over(&mut self, on: &egui::Painter, drawn: &Drawn, side: Projection, answer: &Answer, view: &Viewing) {
        let rect = drawn.rect(side);
        let drawing = drawn.drawing(side);
        let palette = view.theme.palette();
        let beam = look::colour(palette.beam);
        if side == Projection::Top {
            let top_from_bay = drawing.bay_from_view.inverse();
            for snap in self.snaps() {
                let [a, b] =
                    [snap.from, snap.to].map(|p| on_screen(rect, drawing.paper_point(top_from_bay * p)));
                on.extend(egui::Shape::dashed_line(&[a, b], Stroke::new(1.2, beam), 5.0, 3.0));
                on.circle_filled(a, 2.5, beam);
                on.circle_filled(b, 2.5, beam);
            }
        }
        self.steps_to_do(on, drawn, side, view);
        if let (Some(spot), Projection::Top) = (view.spot, side) {
            self.parked_there(on, drawn, answer, view, spot);
        }
        if let (Some(decides), Projection::Top) = (&view.decides, side) {
            self.decided(on, drawn, answer, view, decides);
        }
        self.chosen(on, drawn, side, view);
        if side == Projection::Top {
            on_floor(on, rect, drawing, view, self.picture.as_ref());
        }
        if let Some(found) = view.pointed.and_then(|at| answer.assessment.findings.get(at)) {
            let at = on_screen(rect, drawing.paper_point_of(found.place));
            let ink = look::colour(view.theme.paint(Role::Flag(found.severity)).text);
            let colour = match view.theme.paint(Role::Leader(found.severity)).stroke {
                Some(stroke) => look::colour(stroke.colour),
                None => ink,
            };
            on.circle_stroke(at, RING_PX, Stroke::new(2.6, colour));
            on.circle_stroke(at, RING_PX + 5.0, Stroke::new(1.2, colour));
        }
        if let Some(lit) = view.lit {
            self.lit(on, drawn, side, answer, view, lit);
        }
        if let (Tool::Draw(drawn), Some((from, to)), Projection::Top) = (view.tool, self.area, side) {
            let frame = crate::screen::apply::frame_of(answer, drawn);
            let (a, b) = (frame.inverse() * from, frame.inverse() * to);
            let top_from_bay = drawing.bay_from_view.inverse();
            let ring: Vec<Pos2> = [a, DVec2::new(b.x, a.y), b, DVec2::new(a.x, b.y), a]
                .map(|p| on_screen(rect, drawing.paper_point(top_from_bay * (frame * p))))
                .to_vec();
            on.extend(egui::Shape::dashed_line(&ring, Stroke::new(1.8, beam), 8.0, 4.0));
            let extent = (b - a).abs();
            let words = baywright_planner::words::Words::new(&answer.judged, view.locale);
            let text = format!("{} \u{d7} {}", words.length(extent.x), words.length(extent.y));
            let corner = on_screen(rect, drawing.paper_point(top_from_bay * to)) + Vec2::new(12.0, -8.0);
            on.text(corner, egui::Align2::LEFT_BOTTOM, text, look::bold(size::SMALL), beam);
        }
        let Tool::Measure(measuring) = view.tool else { return };
        if (side == Projection::Side) != measuring.in_side_view {
            return;
        }
        let Some(from) = measuring.from else { return };
        let at = |p: DVec2| on_screen(rect, drawing.paper_point(measure::in_view(drawing, side, p)));
        let words = baywright_planner::words::Words::new(&answer.judged, view.locale);
        let pointer = on.ctx().pointer_latest_pos().filter(|&p| rect.contains(p));
        let to = measuring.to.or_else(|| {
            let px = drawn.on_paper(side, pointer?);
            Some(measure::point(side, drawing, px, answer, Some(from)))
        });
        on.circle_filled(at(from), 3.5, beam);
        let Some(to) = to else { return };
        on.circle_filled(at(to), 3.5, beam);
        let (distance, ..) = measure::values(answer, side, from, to);
        let dimension = measure::dimension(drawing, side, from, to, words.length(distance));
        let mut painter = Painter::of_all(drawing, (on.ctx(), view.theme), rect.min, &mut self.fills);
        painter.item_of(drawing, Role::LiveDimension, Listed::Dimension(dimension));
        on.extend(std::mem::take(&mut painter.out));
    }

    /// The marker of a finding ringed, and what its press would do, as if it were done.
    fn lit(
        &mut self,
        on: &egui::Painter,
        drawn: &Drawn,
        side: Projection,
        answer: &Answer,
        view: &Viewing,
        lit: usize,
    ) {
        let (rect, drawing) = (drawn.rect(side), drawn.drawing(side));
        let Some(found) = answer.assessment.findings.get(lit) else { return };
        let marker = drawing.items.iter().find_map(|item| match (&item.shape, item.role) {
            (Listed::Sign(sign), Role::Flag(_)) if item.finding == Some(lit) => Some(sign),
            _ => None,
        });
        let beam = look::colour(view.theme.palette().beam);
        if let Some(sign) = marker {
            let at = on_screen(rect, drawing.paper_point(sign.at));
            on.circle_stroke(at, sign.reach as f32 + 5.0, Stroke::new(2.0, beam));
        }
        let (subject, by) = match found.cure.as_ref().map(|cure| &cure.step) {
            Some(Step::MoveThing { thing, by }) => (Subject::Thing(thing.clone()), *by),
            Some(Step::MoveCar { by }) => (Subject::Car, *by),
            Some(Step::TurnThing { thing, by_rad }) => {
                let own = answer.arrangement.bay.things.iter().find(|own| own.id == *thing);
                if let Some(own) = own.filter(|_| side == Projection::Top) {
                    let about = own.place.at.origin();
                    self.turned(on, drawn, view, &Subject::Thing(thing.clone()), (about, *by_rad));
                }
                return;
            }
            _ => return,
        };
        self.moved(on, drawn, side, view, &subject, by);
    }

    /// A thing, or the car, as it would stand moved by so much, bay frame, mm.
    fn moved(
        &mut self,
        on: &egui::Painter,
        drawn: &Drawn,
        side: Projection,
        view: &Viewing,
        subject: &Subject,
        by: DVec2,
    ) {
        let drawing = drawn.drawing(side);
        let by = drawing.bay_from_view.inverse().turned(by);
        let by = if side == Projection::Top { by } else { DVec2::new(by.x, 0.0) };
        // From the side a move across the axis is not seen: what would stand there stands there already.
        if by.length() * drawing.px_per_mm < 1.0 {
            return;
        }
        self.ghost(on, drawn, side, view, subject, |p| p + by);
    }

    /// A thing from above as it would stand turned about a place of the bay, mm, by so much, radians.
    fn turned(
        &mut self,
        on: &egui::Painter,
        drawn: &Drawn,
        view: &Viewing,
        subject: &Subject,
        (about, by_rad): (DVec2, f64),
    ) {
        let view_from_bay = drawn.drawing(Projection::Top).bay_from_view.inverse();
        let about = view_from_bay * about;
        let turn = DVec2::from_angle(by_rad);
        self.ghost(on, drawn, Projection::Top, view, subject, |p| about + turn.rotate(p - about));
    }

    /// The outlines of something, each place of them put elsewhere.
    fn ghost(
        &mut self,
        on: &egui::Painter,
        drawn: &Drawn,
        side: Projection,
        view: &Viewing,
        subject: &Subject,
        put: impl Fn(DVec2) -> DVec2,
    ) {
        let (rect, drawing) = (drawn.rect(side), drawn.drawing(side));
        let beam = look::colour(view.theme.palette().beam);
        let ghost = view.theme.palette().beam.faded(GHOST);
        let mut painter = Painter::of_all(drawing, (on.ctx(), view.theme), rect.min, &mut self.fills);
        for item in drawing.showing(subject).filter(|item| is_outline(item.role)) {
            let mut shape = item.shape.clone();
            match &mut shape {
                Listed::Area(rings) => rings.iter_mut().flatten().for_each(|p| *p = put(*p)),
                Listed::Disc { centre, .. } => *centre = put(*centre),
                _ => continue,
            }
            painter.ghost(drawing, &shape, look::colour(ghost), beam);
        }
        on.extend(std::mem::take(&mut painter.out));
    }

    /// What goes to make room: where it would stand, with a line from where it stands; what leaves the bay is crossed out.
    fn steps_to_do(&mut self, on: &egui::Painter, drawn: &Drawn, side: Projection, view: &Viewing) {
        for step in &view.to_do {
            let (Step::MoveThing { thing, .. } | Step::TakeAway { thing }) = step else { continue };
            let (rect, drawing) = (drawn.rect(side), drawn.drawing(side));
            let subject = Subject::Thing(thing.clone());
            let Some(seen) = drawing.box_of(&subject) else { continue };
            let stroke = Stroke::new(1.6, look::colour(view.theme.palette().beam));
            let on_paper = |x: f64, y: f64| on_screen(rect, DVec2::new(x, y));
            if let Step::MoveThing { by, .. } = step {
                self.moved(on, drawn, side, view, &subject, *by);
                let by = drawing.bay_from_view.inverse().turned(*by);
                let middle = (seen.low + seen.high) * 0.5;
                let to = middle + drawing.paper_point(by) - drawing.paper_point(DVec2::ZERO);
                if side == Projection::Top {
                    on.arrow(on_screen(rect, middle), on_screen(rect, to) - on_screen(rect, middle), stroke);
                }
            } else if side == Projection::Top {
                let (low, high) = (seen.low, seen.high);
                on.line_segment([on_paper(low.x, low.y), on_paper(high.x, high.y)], stroke);
                on.line_segment([on_paper(low.x, high.y), on_paper(high.x, low.y)], stroke);
            }
        }
    }

    /// The car as it would stand at a spot.
    fn parked_there(
        &mut self,
        on: &egui::Painter,
        drawn: &Drawn,
        answer: &Answer,
        view: &Viewing,
        spot: PlanPose,
    ) {
        let drawing = drawn.drawing(Projection::Top);
        let there_from_view =
            drawing.bay_from_view.inverse() * spot * answer.judged.parked.inverse() * drawing.bay_from_view;
        let palette = view.theme.palette();
        let ghost = look::colour(palette.beam.faded(GHOST));
        let beam = look::colour(palette.beam);
        let origin = drawn.rect(Projection::Top).min;
        let mut painter = Painter::of_all(drawing, (on.ctx(), view.theme), origin, &mut self.fills);
        for item in drawing.showing(&Subject::Car).filter(|item| item.role == Role::CarBody) {
            let Listed::Area(rings) = &item.shape else { continue };
            let there = rings.iter().map(|ring| ring.iter().map(|&p| there_from_view * p).collect());
            painter.ghost(drawing, &Listed::Area(there.collect()), ghost, beam);
        }
        // Which way its nose looks.
        let vehicle = &answer.judged.vehicle;
        let at = |x: f64, y: f64| spot * DVec2::new(x, y);
        let (front, half) = (vehicle.front(), vehicle.width_mm * 0.5);
        let arrow =
            [at(front - half, half * 0.6), at(front - half * 0.3, 0.0), at(front - half, -half * 0.6)];
        let view_from_bay = drawing.bay_from_view.inverse();
        let arrow =
            arrow.map(|p| on_screen(drawn.rect(Projection::Top), drawing.paper_point(view_from_bay * p)));
        painter.out.push(egui::Shape::line(arrow.to_vec(), Stroke::new(2.0, beam)));
        on.extend(std::mem::take(&mut painter.out));
    }

    /// The edges of several in hand, and the frame that is drawn round more.
    fn chosen(&self, on: &egui::Painter, drawn: &Drawn, side: Projection, view: &Viewing) {
        let rect = drawn.rect(side);
        let drawing = drawn.drawing(side);
        let beam = look::colour(view.theme.palette().beam);
        for own in view.chosen().filter(|_| view.are_several()) {
            if let Some(seen) = drawing.box_of(own) {
                let edge =
                    Rect::from_two_pos(on_screen(rect, seen.low), on_screen(rect, seen.high)).expand(4.0);
                on.rect_stroke(edge, 2.0, Stroke::new(1.6, beam), StrokeKind::Middle);
            }
        }
        if let (Some([from, to]), Projection::Top) = (self.frame, side) {
            let edge = Rect::from_two_pos(on_screen(rect, from), on_screen(rect, to));
            on.rect_filled(edge, 0.0, look::colour(view.theme.palette().beam.faded(0.1)));
            on.rect_stroke(edge, 0.0, Stroke::new(1.2, beam), StrokeKind::Middle);
        }
    }

    /// Everything on the canvas has a name and can be reached by the keyboard.
    fn names(
        &self,
        ui: &Ui,
        drawn: &Drawn,
        side: Projection,
        answer: &Answer,
        view: &Viewing,
        out: &mut Vec<Command>,
    ) {
        let rect = drawn.rect(side);
        let drawing = drawn.drawing(side);
        let words = baywright_planner::words::Words::new(&answer.judged, view.locale);
        let texts = view.locale.language.screen();
        // What is in both views is a stop of the Tab key in one of them only.
        let elsewhere = if drawn.alone.is_none() && side == Projection::Side {
            drawn.drawing(Projection::Top).subjects()
        } else {
            BTreeSet::new()
        };
        for (subject, bounds) in drawing.boxes() {
            let own =
                Rect::from_two_pos(on_screen(rect, bounds.low), on_screen(rect, bounds.high)).intersect(rect);
            if !own.is_positive() {
                continue;
            }
            let id = id_of(side).with(key_of(&subject));
            let twice = elsewhere.contains(&subject);
            let sense = if twice { Sense::hover() } else { Sense::focusable_noninteractive() };
            let response = ui.interact(own, id, sense);
            response.widget_info(|| {
                let name = texts.on_canvas(&words.subject(&subject), side == Projection::Top);
                WidgetInfo::labeled(egui::Role::GraphicsObject, true, name)
            });
            if response.gained_focus() && view.selected.as_ref() != Some(&whole(subject.clone())) {
                out.push(Command::View(OfView::Select(Some(whole(subject.clone())))));
            }
            let pressed = ui.input(|i| i.has_accesskit_action_request(id, egui::accesskit::Action::Click));
            if pressed {
                out.push(Command::View(OfView::Select(Some(whole(subject)))));
            }
            if response.has_focus() {
                ui.data_mut(|data| data.insert_temp(super::focused_on_canvas(), id));
                ui.memory_mut(|memory| {
                    memory.set_focus_lock_filter(
                        id,
                        egui::EventFilter {
                            horizontal_arrows: true,
                            vertical_arrows: true,
                            ..Default::default()
                        },
                    );
                });
                let beam = look::colour(view.theme.palette().beam);
                ui.painter_at(rect).rect_stroke(
                    own.expand(3.0),
                    3.0,
                    Stroke::new(1.6, beam),
                    StrokeKind::Outside,
                );
            }
        }
    }
}

/// How strong the ground of a ghost is.
const GHOST: f32 = 0.3;

/// Whether an item is the outline of a thing or of the car, which can be shown elsewhere.
const fn is_outline(role: Role) -> bool {
    matches!(
        role,
        Role::Thing(_) | Role::QuietThing(_) | Role::ThingAside(_) | Role::Overhead | Role::CarBody
    )
}

/// Points on the floor of the picture that is scaled.
fn on_floor(
    on: &egui::Painter,
    rect: Rect,
    drawing: &Drawing,
    view: &Viewing,
    picture: Option<&PictureLies>,
) {
    let palette = view.theme.palette();
    let beam = look::colour(palette.beam);
    let top_from_bay = drawing.bay_from_view.inverse();
    let at = |p: DVec2| on_screen(rect, drawing.paper_point(top_from_bay * p));
    let first = if let Tool::ScalePicture { first } = view.tool { first } else { None };
    if let Some(picture) = picture {
        if view.tool == Tool::MovePicture {
            picture_edges(on, picture.corners().map(at), beam, look::colour(palette.sheet));
        }
        let points = first.into_iter().chain(view.scale.into_iter().flatten());
        for point in points.map(|px| at(picture.bay(px))) {
            on.circle_stroke(point, 7.0, Stroke::new(2.0, beam));
            on.circle_filled(point, 2.0, beam);
        }
    }
    if let (Some(picture), Some(scale)) = (picture, view.scale) {
        let [from, to] = scale.map(|px| picture.bay(px));
        on.extend(egui::Shape::dashed_line(&[at(from), at(to)], Stroke::new(1.4, beam), 6.0, 4.0));
    }
}

/// The edges of the picture in hand, with the handles that turn and size it.
fn picture_edges(on: &egui::Painter, corners: [Pos2; 4], beam: egui::Color32, ground: egui::Color32) {
    let [first, turn, sizes, _] = corners;
    let ring: Vec<Pos2> = corners.into_iter().chain([first]).collect();
    on.extend(egui::Shape::dashed_line(&ring, Stroke::new(1.4, beam), 8.0, 5.0));
    on.circle_filled(first, 3.0, beam);
    on.circle_filled(turn, 6.0, ground);
    on.circle_stroke(turn, 6.0, Stroke::new(1.8, beam));
    let square = Rect::from_center_size(sizes, Vec2::splat(10.0));
    on.rect_filled(square, 0.0, ground);
    on.rect_stroke(square, 0.0, Stroke::new(1.8, beam), StrokeKind::Middle);
}

/// What tells a subject apart, for the widget's own name.
fn key_of(subject: &Subject) -> (u8, &str, &str) {
    match subject {
        Subject::Car => (0, "", ""),
        Subject::Thing(id) => (1, id.as_str(), ""),
        Subject::Zone(id) => (2, id.as_str(), ""),
        Subject::Target(id) => (3, id.as_str(), ""),
        Subject::Stand(id) => (4, id.as_str(), ""),
        Subject::Sensor => (5, "", ""),
        Subject::Wall(id) => (6, id.as_str(), ""),
        Subject::Opening(id) => (7, id.as_str(), ""),
        Subject::FloorFeature(id) => (8, id.as_str(), ""),
        Subject::Runway(id) => (9, id.as_str(), ""),
        Subject::KeepFree(id) => (10, id.as_str(), ""),
        Subject::Mark(id) => (11, id.as_str(), ""),
        Subject::HallBay(id) => (17, id.as_str(), ""),
        Subject::Dimension(id) => (16, id.as_str(), ""),
        Subject::Run(from, to) => (12, from.as_str(), to.as_str()),
        Subject::Ceiling => (13, "", ""),
        Subject::Floor => (14, "", ""),
        Subject::Figures => (15, "", ""),
    }
}

pub(super) fn on_screen(rect: Rect, px: DVec2) -> Pos2 {
    rect.min + Vec2::new(px.x as f32, px.y as f32)
}

/// The pointer says what a press would do.
fn cursor(
    ui: &Ui,
    response: &egui::Response,
    drawn: &Drawn,
    side: Projection,
    answer: &Answer,
    view: &Viewing,
    dragging: bool,
) {
    if !response.contains_pointer() && !dragging {
        return;
    }
    let Some(at) = ui.ctx().pointer_latest_pos().filter(|&p| drawn.rect(side).contains(p)) else { return };
    let icon = match view.tool {
        _ if dragging => egui::CursorIcon::Grabbing,
        _ if space::is_held(ui.ctx()) => egui::CursorIcon::Grab,
        Tool::Measure(_) | Tool::Draw(_) | Tool::PickMark { .. } | Tool::ScalePicture { .. } => {
            egui::CursorIcon::Crosshair
        }
        Tool::MovePicture => egui::CursorIcon::Grab,
        Tool::WhichSide => {
            let drawing = drawn.drawing(side);
            match grip::at(answer, view, side, drawing, drawn.on_paper(side, at)) {
                Some(Grip::Turn) => egui::CursorIcon::Alias,
                Some(Grip::Bottom | Grip::Top) => egui::CursorIcon::ResizeVertical,
                Some(_) => egui::CursorIcon::Crosshair,
                None => {
                    let movable = !answer.is_of_draft()
                        && view.hovered.as_ref().is_some_and(|subject| {
                            baywright_planner::hand::pose_of(
                                &answer.arrangement,
                                &answer.assessment.scene,
                                subject,
                            )
                            .and_then(|pose| crate::screen::apply::placed(answer, subject, pose))
                            .is_some()
                        });
                    if movable { egui::CursorIcon::Grab } else { egui::CursorIcon::Default }
                }
            }
        }
    };
    ui.ctx().set_cursor_icon(icon);
}

/// The title of a view, and beside it how its paper lies, to be changed by a press.
fn title(
    ui: &mut Ui,
    drawn: &Drawn,
    side: Projection,
    answer: &Answer,
    view: &Viewing,
    out: &mut Vec<Command>,
) {
    let rect = drawn.rect(side);
    let line =
        Rect::from_min_max(Pos2::new(rect.min.x, rect.min.y - TITLE_PX), Pos2::new(rect.max.x, rect.min.y))
            .shrink2(Vec2::new(14.0, 0.0));
    let words = baywright_planner::words::Words::new(&answer.judged, view.locale);
    let texts = view.locale.language.screen();
    let along_sight = drawn.along == baywright_drawing::Axis::SightLine;
    let name = match side {
        Projection::Top => words.top_view(),
        Projection::Side => words.side_view(),
    };
    ui.scope_builder(
        egui::UiBuilder::new().max_rect(line).layout(egui::Layout::left_to_right(egui::Align::Center)),
        |ui| {
            match drawn.alone {
                None => {
                    ui.label(egui::RichText::new(name).font(look::bold(size::BODY)));
                }
                Some(_) => which_view(ui, side, &words, out),
            }
            match side {
                Projection::Top => {
                    let lies = match drawn.from.state.turned {
                        Turned::ToRoom => texts.paper_as_room,
                        Turned::ToSightLine => texts.paper_to_sight_line,
                        Turned::ToCar => texts.paper_to_car,
                    };
                    let customer = view.locale.language.customer();
                    let font = look::letters(size::SMALL, baywright_drawing::Weight::Regular);
                    let kept = ui.painter().layout_no_wrap(customer.show.to_owned(), font, Color32::BLACK);
                    let room = ui.available_width() - kept.size().x - 2.0 * ui.spacing().item_spacing.x;
                    // Whole or not at all: it is in the menu "Show" too.
                    let font = look::letters(size::SMALL, baywright_drawing::Weight::Regular);
                    let whole = ui.painter().layout_no_wrap(lies.to_owned(), font, Color32::BLACK).size().x;
                    if whole <= room
                        && let Some(link) = link_in(ui, view.theme, lies, room)
                        && link.on_hover_text(texts.turn_paper).clicked()
                    {
                        out.push(Command::View(OfView::ToRoom(!view.to_room)));
                    }
                    // F5 leads there too.
                    let has_room = ui.available_width() > kept.size().x + ui.spacing().item_spacing.x;
                    ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| {
                        if !has_room {
                            return;
                        }
                        let show = link(ui, view.theme, customer.show).on_hover_text(customer.show_why);
                        if show.clicked() {
                            out.push(Command::Page(Some(Page::Customer(0))));
                        }
                    });
                }
                Projection::Side => {
                    let text = words.side_view_along(along_sight, drawn.from_left);
                    let room = ui.available_width();
                    if let Some(link) = link_in(ui, view.theme, text, room)
                        && link.on_hover_text(texts.change_axis).clicked()
                    {
                        let other = if along_sight {
                            baywright_drawing::Axis::Centreline
                        } else {
                            baywright_drawing::Axis::SightLine
                        };
                        out.push(Command::View(OfView::Along(Some(other))));
                    }
                }
            }
        },
    );
}

/// The names of both views where one stands at a time: a press changes to the other.
fn which_view(
    ui: &mut Ui,
    seen: Projection,
    words: &baywright_planner::words::Words<'_>,
    out: &mut Vec<Command>,
) {
    for (side, name) in [(Projection::Top, words.top_view()), (Projection::Side, words.side_view())] {
        let text = egui::RichText::new(name).font(look::bold(size::BODY));
        if ui.add(egui::Button::selectable(side == seen, text)).clicked() && side != seen {
            out.push(Command::View(OfView::Alone(side)));
        }
    }
}

/// The same where there is this much room for it, px: cut short, or left away where hardly anything would be left of it.
fn link_in(ui: &mut Ui, theme: Theme, text: &str, room: f32) -> Option<egui::Response> {
    const LEAST_PX: f32 = 60.0;
    (room >= LEAST_PX).then(|| {
        let soft = look::colour(theme.palette().soft);
        let text = egui::RichText::new(text).size(size::SMALL).color(soft);
        ui.scope(|ui| {
            ui.set_max_width(room);
            let response = ui.add(egui::Button::new(text).frame(false).truncate());
            widgets::ringed(ui, response)
        })
        .inner
    })
}

/// A quiet text that can be pressed.
fn link(ui: &mut Ui, theme: Theme, text: &str) -> egui::Response {
    let soft = look::colour(theme.palette().soft);
    let text = egui::RichText::new(text).size(size::SMALL).color(soft);
    let response = ui.add(egui::Button::new(text).frame(false));
    widgets::ringed(ui, response)
}
