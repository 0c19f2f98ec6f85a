//! The two views: where they lie, what is drawn in them, what the hand does there.
//!
//! A frame has three parts: [`Canvas::listen`] turns what the pointer did into commands, before anything is drawn, so
//! that a drag shows in the very frame of its event; [`Canvas::lay_out`] works out drawings; [`Canvas::show`] paints.

mod cache;
mod decides;
mod grip;
mod hand;
mod hatch;
mod lettered;
mod measure;
mod paint;
mod painted;
mod picture;
mod show;

use std::sync::Arc;

use baywright_drawing::{
    Axis, Drawing, Extents, Fit, FloorLevel, Lettering, LiveDimension, Projection, Turned, ViewState,
    view_after,
};
use baywright_planner::Subject;
use baywright_planner::geometry::{DVec2, DVec3, PlanPose};
use baywright_planner::hand::{Snap, gaps};
use baywright_planner::words::{Locale, Units};
use egui::{Id, Rect, Vec2};

use super::view::{Camera, Tool, Viewing};
use crate::session::answer::Answer;
pub(super) use cache::Fills;
use hand::Drag;
pub(super) use paint::Painter;
use painted::Painted;
pub(super) use picture::PictureLies;

/// Side of a square handle, px.
pub(super) const HANDLE_PX: f32 = 8.0;
/// Height of a view's title, px.
const TITLE_PX: f32 = 26.0;
/// Below this width margins are smaller, px.
const NARROW_PX: f32 = 860.0;
/// In an area lower than this, px, one view stands at a time: two would be too small for their letters.
const LEAST_BOTH_PX: f32 = 420.0;
/// The sensor's height is kept so far inside the side view's edge, px.
const SENSOR_IN_PX: f64 = 36.0;
/// So many distances are shown for what is in hand.
const MOST_GAPS: usize = 4;

/// The two views on the screen.
#[derive(Debug, Default)]
pub(super) struct Canvas {
    fills: Fills,
    painted_top: Painted,
    painted_side: Painted,
    drag: Option<Drag>,
    /// Both drawings as they were when something was taken in hand: places of what is written are kept.
    kept: Option<[Arc<Drawing>; 2]>,
    /// The finding whose marker the pointer is over.
    marker: Option<usize>,
    /// What was drawn last.
    drawn: Option<Drawn>,
    /// Whether the pointer is over one of the views.
    under_pointer: bool,
    /// What the thing in hand was drawn onto last.
    snaps: Vec<Snap>,
    /// The picture under the top view.
    pub underlay: Option<egui::Mesh>,
    /// Where it lies, if there is one.
    pub picture: Option<PictureLies>,
    /// The rectangle being drawn: two of its corners, bay frame, mm.
    area: Option<(DVec2, DVec2)>,
    /// The frame being drawn round what is to be chosen: two of its corners, px of the top view's paper.
    frame: Option<[DVec2; 2]>,
    /// Whether the last scroll came from fingers on a pad, not from a wheel.
    by_fingers: bool,
}

/// What was drawn, and from what.
#[derive(Clone, Debug)]
struct Drawn {
    top: Arc<Drawing>,
    side: Arc<Drawing>,
    /// Where the views' windows are on the screen; the same for both where one stands at a time.
    top_rect: Rect,
    side_rect: Rect,
    /// The area that they share, and how high each is of it, px.
    area: Rect,
    heights: [f32; 2],
    /// The only view that is seen, where there is room for one.
    alone: Option<Projection>,
    camera: Camera,
    one_axis: bool,
    along: Axis,
    /// Whether the side view is seen from the left of that.
    from_left: bool,
    /// How high the sensor is above the floor, mm.
    sensor_mm: f64,
    from: DrawnFrom,
}

/// Everything that the drawings are made from: as long as it is the same, so are they.
#[derive(Clone, Debug, PartialEq)]
struct DrawnFrom {
    generation: u64,
    state: ViewState,
    camera: Camera,
    sizes: [Vec2; 2],
    locale: baywright_planner::words::Locale,
}

/// The widget of one view.
fn id_of(side: Projection) -> Id {
    Id::unique(match side {
        Projection::Top => "top view",
        Projection::Side => "side view",
    })
}

impl Drawn {
    fn drawing(&self, side: Projection) -> &Arc<Drawing> {
        match side {
            Projection::Top => &self.top,
            Projection::Side => &self.side,
        }
    }

    fn rect(&self, side: Projection) -> Rect {
        match side {
            Projection::Top => self.top_rect,
            Projection::Side => self.side_rect,
        }
    }

    /// The views that are seen.
    const fn seen(&self) -> &'static [Projection] {
        match self.alone {
            None => &[Projection::Top, Projection::Side],
            Some(Projection::Top) => &[Projection::Top],
            Some(Projection::Side) => &[Projection::Side],
        }
    }

    /// The eye moved up or down in the side view, by as little as brings the sensor's height into sight there.
    fn with_sensor(&self, mut camera: Camera) -> Camera {
        let half = f64::from(self.side_rect.height()) * 0.5 - SENSOR_IN_PX;
        let reach = half.max(0.0) / camera.px_per_mm;
        camera.side.y = camera.side.y.clamp(self.sensor_mm - reach, self.sensor_mm + reach);
        camera
    }

    /// A place of the screen on a view's paper, px.
    fn on_paper(&self, side: Projection, at: egui::Pos2) -> DVec2 {
        let p = at - self.rect(side).min;
        DVec2::new(f64::from(p.x), f64::from(p.y))
    }
}

/// The levels of the floor, or the runway, that is in hand.
fn levels(answer: &Answer, view: &Viewing) -> Vec<FloorLevel> {
    let bay = &answer.judged.bay;
    let survey = match &view.selected {
        // They would hide the picture that is drawn along under them.
        _ if view.tool == Tool::MovePicture => None,
        Some(Subject::Floor) => bay.survey.as_ref(),
        Some(Subject::Runway(id)) => {
            bay.runways.iter().find(|own| own.id == *id).and_then(|own| own.survey.as_ref())
        }
        _ => None,
    };
    // As they are listed, whatever units are shown: half a millimetre is nothing in sixteenths of an inch.
    let locale = Locale { units: Units::Millimetres, ..view.locale };
    let points = survey.into_iter().flat_map(|own| own.points.iter());
    points.map(|own| FloorLevel { at: own.at, text: locale.length(own.level_mm) }).collect()
}

impl Canvas {
    /// The top view and where it lies, if it is seen.
    pub fn top(&self) -> Option<(&Drawing, Rect)> {
        self.seen().find(|(drawing, _)| drawing.projection == Projection::Top)
    }

    /// The views that are seen and where their windows lie.
    pub fn seen(&self) -> impl Iterator<Item = (&Drawing, Rect)> {
        let drawn = self.drawn.as_ref().into_iter();
        drawn.flat_map(|drawn| drawn.seen().iter().map(|&side| (&**drawn.drawing(side), drawn.rect(side))))
    }

    /// The bay's frame from the top view's.
    pub fn bay_from_top(&self) -> PlanPose {
        self.drawn.as_ref().map_or(PlanPose::IDENTITY, |drawn| drawn.top.bay_from_view)
    }

    /// Whether the pointer was over one of the views when it was listened to.
    pub const fn is_under_pointer(&self) -> bool {
        self.under_pointer
    }

    /// The finding whose marker the pointer was over.
    pub const fn marker(&self) -> Option<usize> {
        self.marker
    }

    /// Where the eye is.
    pub fn camera(&self) -> Option<Camera> {
        self.drawn.as_ref().map(|drawn| drawn.camera)
    }

    /// px for each mm.
    pub fn px_per_mm(&self) -> f64 {
        self.drawn.as_ref().map_or(1.0, |drawn| drawn.camera.px_per_mm)
    }

    /// Where the pointer is over the top view, bay frame, mm.
    pub fn pointer_in_bay(&self, ctx: &egui::Context) -> Option<DVec2> {
        let drawn = self.drawn.as_ref()?;
        let at = ctx.pointer_latest_pos().filter(|&at| drawn.top_rect.contains(at))?;
        Some(drawn.top.bay_from_view * drawn.top.view_point(drawn.on_paper(Projection::Top, at)))
    }

    /// Where what is in hand is seen, px of the screen; the middle of the top view, if it is not.
    pub fn place_in_hand(&self, view: &Viewing) -> Option<egui::Pos2> {
        let drawn = self.drawn.as_ref()?;
        let seen = view.selected.as_ref().and_then(|subject| drawn.top.box_of(subject));
        let seen = seen.map(|own| own.centre()).filter(|&at| drawn.top.window().holds(at));
        let at = |px: DVec2| drawn.top_rect.min + Vec2::new(px.x as f32, px.y as f32);
        Some(seen.map_or(drawn.top_rect.center(), at))
    }

    /// What lies in the middle of the top view, bay frame.
    pub fn middle_in_bay(&self) -> Option<DVec2> {
        let drawn = self.drawn.as_ref()?;
        Some(drawn.top.bay_from_view * drawn.camera.top)
    }

    /// The same eye with the sensor's height in sight in the side view: what the aiming is about.
    pub fn with_sensor(&self, camera: Camera) -> Camera {
        self.drawn.as_ref().map_or(camera, |drawn| drawn.with_sensor(camera))
    }

    /// The same eye moved so that a place is seen in both views; `None` if it is seen already, or all is seen.
    pub fn camera_on(&self, place: DVec3, camera: Option<Camera>) -> Option<Camera> {
        let (drawn, mut camera) = (self.drawn.as_ref()?, camera?);
        let mut moved = false;
        for &side in drawn.seen() {
            let drawing = drawn.drawing(side);
            let px = drawing.paper_point_of(place);
            let room = drawing.window().grown(-24.0);
            if !room.holds(px) {
                let to = drawing.view_point(px);
                match side {
                    Projection::Top => camera.top = to,
                    Projection::Side => camera.side = to,
                }
                moved = true;
            }
        }
        if moved && drawn.one_axis {
            camera.side.x = camera.top.x;
        }
        moved.then_some(camera)
    }

    /// Works out what is seen in an area of the screen.
    pub fn lay_out(&mut self, area: Rect, answer: &Answer, view: &Viewing) {
        let alone = (area.height() < LEAST_BOTH_PX).then_some(view.alone);
        let titles = if alone.is_some() { TITLE_PX } else { 2.0 * TITLE_PX };
        let room = DVec2::new(f64::from(area.width()), f64::from((area.height() - titles).max(40.0)));
        let mut state = self.state(answer, view);
        let lettering = || Lettering { locale: view.locale, ..Lettering::default() };
        let (arrangement, assessment) = (&*answer.judged, &*answer.assessment);
        let laid;
        (state.turned, laid) = Extents::of_both(arrangement, assessment, &state);
        let windows = laid.windows(room, area.width() < NARROW_PX, alone, &lettering());
        let all = Camera { px_per_mm: windows.px_per_mm, top: windows.top_middle, side: windows.side_middle };
        let camera = match &self.drag {
            Some(drag) => self.held_camera(drag, &laid),
            None => view.camera.unwrap_or(all),
        };
        // While something is in hand the windows keep still too, whatever the room's extent becomes.
        let held =
            self.drawn.as_ref().filter(|own| self.drag.is_some() && (own.area, own.alone) == (area, alone));
        let heights =
            held.map_or([windows.top_height as f32, windows.side_height as f32], |drawn| drawn.heights);
        let [top_height, side_height] = heights;
        let top_rect =
            Rect::from_min_size(area.min + Vec2::new(0.0, TITLE_PX), Vec2::new(area.width(), top_height));
        let side_top = if alone.is_some() { top_rect.min.y } else { top_rect.max.y + TITLE_PX };
        let side_rect =
            Rect::from_min_size(egui::pos2(area.min.x, side_top), Vec2::new(area.width(), side_height));
        let from = DrawnFrom {
            generation: answer.generation,
            state,
            camera,
            sizes: [top_rect.size(), side_rect.size()],
            locale: view.locale,
        };
        if let Some(drawn) = &mut self.drawn
            && drawn.from == from
        {
            (drawn.top_rect, drawn.side_rect, drawn.alone) = (top_rect, side_rect, alone);
            (drawn.area, drawn.heights) = (area, heights);
            return;
        }
        let window = |rect: Rect, middle: DVec2| Fit::Window {
            size: DVec2::new(f64::from(rect.width()), f64::from(rect.height())),
            px_per_mm: camera.px_per_mm,
            middle,
        };
        let state = &from.state;
        if self.drag.is_none() {
            self.kept = None;
        }
        // What was there from the start stays where it was then; what came since, where it came.
        let (kept, last) = (self.kept.as_ref(), self.drawn.as_ref().filter(|_| self.kept.is_some()));
        let [top_before, side_before] = [Projection::Top, Projection::Side].map(|side| {
            let kept =
                kept.map(|[top, from_side]| if side == Projection::Top { &**top } else { &**from_side });
            kept.into_iter().chain(last.map(|last| &**last.drawing(side))).collect::<Vec<_>>()
        });
        let drawn = |before: &[&Drawing], side: Projection, window: Fit| {
            view_after(before, side, arrangement, assessment, state, window, &lettering())
        };
        // Two drawings of the same answer: each on a core of its own.
        let (top, side) = std::thread::scope(|scope| {
            let side = scope.spawn(|| drawn(&side_before, Projection::Side, window(side_rect, camera.side)));
            let top = drawn(&top_before, Projection::Top, window(top_rect, camera.top));
            // A fault over there is a fault here: it is caught at the frame's edge.
            (top, side.join().unwrap_or_else(|fault| std::panic::resume_unwind(fault)))
        });
        self.drawn = Some(Drawn {
            top: Arc::new(top),
            side: Arc::new(side),
            top_rect,
            side_rect,
            area,
            heights,
            alone,
            camera,
            one_axis: laid.one_axis(),
            along: laid.along,
            from_left: laid.from_left,
            sensor_mm: assessment.scene.sensor().z,
            from,
        });
    }

    /// What hand and eye do, for the drawing.
    fn state(&self, answer: &Answer, view: &Viewing) -> ViewState {
        let known = |subject: &Option<Subject>| subject.clone();
        let live = view.selected.as_ref().map(|subject| {
            let words = baywright_planner::words::Words::new(&answer.judged, view.locale);
            gaps(&answer.judged, &answer.assessment.scene, subject, MOST_GAPS)
                .into_iter()
                .map(|gap| LiveDimension {
                    from: gap.from,
                    to: gap.to,
                    text: words.dimension(gap.distance_mm),
                })
                .collect::<Vec<_>>()
        });
        ViewState {
            hovered: known(&view.hovered),
            selected: known(&view.selected),
            live: live.into_iter().flatten().chain(view.as_laid.iter().cloned()).collect(),
            levels: levels(answer, view),
            contours: view.contours,
            places: view.places.clone(),
            staying: view.staying.clone(),
            way_in: view.way_in.clone(),
            echo: view.echo.clone(),
            other_moves: !view.to_do.is_empty(),
            told: Vec::new(),
            turned: if view.to_room { Turned::ToRoom } else { Turned::ToCar },
            along: view.along,
            held: self.drag.as_ref().map(|drag| drag.bay_from_top),
            numbers: answer.letters().numbers(),
        }
    }

    /// While something is in hand the paper keeps still, whatever the room's extent becomes; the side view follows its
    /// own axis, so that it stays under the top view.
    fn held_camera(&self, drag: &Drag, laid: &Extents) -> Camera {
        let mut camera = drag.camera;
        if drag.one_axis {
            let middle = laid.bay_from_side.inverse() * (drag.bay_from_top * camera.top);
            camera.side.x = middle.x;
        }
        camera
    }
}

/// What was measured between two points: straight, and in its two directions, mm.
pub(super) fn measured(answer: &Answer, in_side_view: bool, from: DVec2, to: DVec2) -> (f64, f64, f64) {
    measure::values(answer, if in_side_view { Projection::Side } else { Projection::Top }, from, to)
}

/// Whether a widget is something on the canvas that the keyboard has reached.
pub(super) fn is_on_canvas(ctx: &egui::Context, id: Id) -> bool {
    ctx.data(|data| data.get_temp(focused_on_canvas())) == Some(id)
}

fn focused_on_canvas() -> Id {
    Id::unique("focused on the canvas")
}
