//! The live drawing beside a step: the same list as on the screen and on paper, of the set-up that the step is of.

use std::sync::Arc;

use baywright_drawing::{Drawing, Extents, Fit, Lettering, Projection, ViewState, side_view, top_view};
use baywright_planner::geometry::{Bounds, DVec2};
use baywright_planner::model::Arrangement;
use baywright_planner::words::{Locale, Words};
use baywright_planner::{Assessment, record};
use egui::{Rect, Sense, Ui, Vec2, WidgetInfo};

use super::RecordPage;
use crate::screen::Desk;
use crate::screen::canvas::{Fills, Painter};

/// The drawing's smallest text, px: it is read from an arm's length.
const TEXT_PX: f64 = 13.0;
/// Around the marks and the car, mm.
const AROUND_MM: f64 = 700.0;

/// The drawing, as long as it is of the same.
#[derive(Default)]
pub(super) struct Beside {
    of: Option<Of>,
    drawing: Option<Arc<Drawing>>,
    fills: Fills,
}

/// What it is of.
#[derive(Clone, Debug)]
struct Of {
    arrangement: Arc<Arrangement>,
    assessment: Arc<Assessment>,
    kind: Kind,
    size: Vec2,
    locale: Locale,
}

/// Which drawing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Kind {
    Bay,
    Marks,
    Stand,
}

impl Of {
    fn is(&self, other: &Self) -> bool {
        Arc::ptr_eq(&self.arrangement, &other.arrangement)
            && Arc::ptr_eq(&self.assessment, &other.assessment)
            && (self.kind, self.size, self.locale) == (other.kind, other.size, other.locale)
    }

    fn draw(&self) -> Drawing {
        let (arrangement, assessment, state) = (&*self.arrangement, &*self.assessment, ViewState::default());
        let lettering = Lettering { locale: self.locale, least_text: TEXT_PX, ..Lettering::default() };
        let (width, height) = (f64::from(self.size.x), f64::from(self.size.y));
        let whole = Fit::Whole { width, most_height: height };
        match self.kind {
            Kind::Bay => top_view(arrangement, assessment, &state, whole, &lettering),
            Kind::Stand => side_view(arrangement, assessment, &state, whole, &lettering),
            Kind::Marks => {
                let fit =
                    about_marks(arrangement, assessment, &state, DVec2::new(width, height)).unwrap_or(whole);
                top_view(arrangement, assessment, &state, fit, &lettering)
            }
        }
    }
}

/// A window about the marks and the wheels, as large as they let it be.
fn about_marks(
    arrangement: &Arrangement,
    assessment: &Assessment,
    state: &ViewState,
    size: DVec2,
) -> Option<Fit> {
    let scene = &assessment.scene;
    let from_bay = Extents::of(arrangement, assessment, state).bay_from_top.inverse();
    let marks = scene.marks.iter().filter_map(|own| own.at.as_ref().ok().copied());
    let mut points = marks.chain(scene.wheels).map(|own| from_bay * own);
    let first = points.next()?;
    let held = points.fold(Bounds { low: first, high: first }, |held, own| Bounds {
        low: held.low.min(own),
        high: held.high.max(own),
    });
    let held = held.grown(AROUND_MM);
    let px_per_mm = (size / held.size().max(DVec2::ONE)).min_element();
    Some(Fit::Window { size, px_per_mm, middle: held.centre() })
}

/// A drawing that stands below its step is so high as a share of its width, and at most so high, px.
const BELOW: f32 = 0.7;
const BELOW_PX: f32 = 420.0;

impl Desk {
    /// The drawing below the step, where there is no room beside it.
    pub(super) fn drawn_below(&self, ui: &mut Ui, page: &mut RecordPage) {
        let has = page.step().is_some_and(|own| own.beside != record::Beside::Nothing);
        if !page.is_drawn_below || page.side != super::Side::Step || !has {
            return;
        }
        ui.add_space(8.0);
        let width = ui.available_width();
        let (rect, _) =
            ui.allocate_exact_size(Vec2::new(width, (width * BELOW).min(BELOW_PX)), Sense::hover());
        self.record_drawing(ui, page, rect);
    }

    pub(super) fn record_drawing(&self, ui: &mut Ui, page: &mut RecordPage, rect: Rect) {
        let step = page.step();
        let kind = match step.map(|own| &own.beside) {
            Some(record::Beside::MarkPlan(_)) => Kind::Marks,
            Some(record::Beside::Stand(_)) => Kind::Stand,
            Some(record::Beside::TopView(_) | record::Beside::Nothing) | None => Kind::Bay,
        };
        let aiming = step.and_then(|own| own.id.aiming.as_ref());
        let part = aiming.and_then(|own| page.parts.part(own)).or_else(|| page.parts.all().first());
        let Some(part) = part else { return };
        let now = Of {
            arrangement: Arc::clone(&part.arrangement),
            assessment: Arc::clone(&part.assessment),
            kind,
            size: rect.size(),
            locale: self.view.locale,
        };
        if !page.drawing.of.as_ref().is_some_and(|own| own.is(&now)) {
            page.drawing.drawing = Some(Arc::new(now.draw()));
            page.drawing.of = Some(now.clone());
        }
        let Some(drawing) = page.drawing.drawing.clone() else { return };
        page.drawing.fills.next_frame();
        let drawn = Vec2::new(drawing.size.x as f32, drawing.size.y as f32).min(rect.size());
        let own = Rect::from_min_size(rect.min, drawn);
        let words = Words::new(&now.arrangement, self.view.locale);
        let name = match drawing.projection {
            Projection::Top => words.top_view(),
            Projection::Side => words.side_view(),
        };
        let response = ui.interact(own, egui::Id::unique("record's drawing"), Sense::hover());
        response.widget_info(|| WidgetInfo::labeled(egui::Role::Image, true, name));
        let mut painter =
            Painter::of_all(&drawing, (ui.ctx(), self.view.theme), own.min, &mut page.drawing.fills);
        painter.drawing(&drawing);
        let shapes = std::mem::take(&mut painter.out);
        ui.painter().with_clip_rect(own.intersect(ui.clip_rect())).extend(shapes);
    }
}
