//! What stands before the sensor, as it would be seen from there: a picture that folds away. What is pointed at in it lights up in the
//! views and the other way round, and the echo whose way is shown is marked in it where the sensor believes it.

use baywright_drawing::{Drawing, Lettering, LookedAt, ViewState, on_top, sensor_view};
use baywright_planner::Subject;
use baywright_planner::echoes::{Echo, Seen};
use baywright_planner::geometry::DVec2;
use baywright_planner::model::Id;
use baywright_planner::words::Locale;
use egui::{CollapsingHeader, Label, RichText, Sense, Ui, Vec2, WidgetInfo};

use crate::screen::canvas::{Fills, Painter};
use crate::screen::command::{Command, OfView};
use crate::screen::look::size;
use crate::screen::{Desk, whole, widgets};

/// What the pictures were drawn from.
#[derive(Debug, PartialEq)]
struct DrawnFrom {
    generation: u64,
    width: f32,
    state: ViewState,
    locale: Locale,
    echoes: usize,
}

/// The pictures, one for the targets that are up at a time, as long as they are of what is shown.
#[derive(Debug, Default)]
pub(super) struct Pictures {
    of: Option<DrawnFrom>,
    drawn: Vec<(Id, Option<Drawing>)>,
    fills: Fills,
}

impl Desk {
    /// The pictures.
    pub(super) fn view_from_sensor(&mut self, ui: &mut Ui, out: &mut Vec<Command>) {
        if self.answer.stale {
            return;
        }
        let texts = self.view.locale.language.echoes();
        let title = RichText::new(texts.from_sensor).size(size::BODY);
        let fold = CollapsingHeader::new(title).id_salt("from the sensor").default_open(true);
        fold.show(ui, |ui| {
            self.draw_from_sensor(ui.available_width());
            let mut pictures = std::mem::take(&mut self.echoes.pictures);
            pictures.fills.next_frame();
            let several = pictures.drawn.len() > 1;
            for (target, drawing) in &pictures.drawn {
                if several {
                    let name = self.words().subject(&Subject::Target(target.clone()));
                    ui.add(
                        Label::new(widgets::soft(ui, baywright_planner::words::sentence_start(&name))).wrap(),
                    );
                }
                match drawing {
                    Some(drawing) => self.one_from_sensor(ui, drawing, &mut pictures.fills, out),
                    None => {
                        ui.add(Label::new(widgets::soft(ui, texts.off_axis)).wrap());
                    }
                }
            }
            self.echoes.pictures = pictures;
            ui.add(Label::new(widgets::soft(ui, texts.from_sensor_about)).wrap());
        });
    }

    /// Draws the pictures anew if they are of something else.
    fn draw_from_sensor(&mut self, width: f32) {
        let heard = self.heard().unwrap_or_default();
        let state = ViewState {
            hovered: self.view.hovered.clone(),
            selected: self.view.selected.clone(),
            echo: self.echoes.lit.clone(),
            ..ViewState::default()
        };
        let echoes = heard.iter().map(|own| own.echoes.len()).sum();
        let from =
            DrawnFrom { generation: self.answer.generation, width, state, locale: self.view.locale, echoes };
        if self.echoes.pictures.of.as_ref() == Some(&from) {
            return;
        }
        let (arrangement, assessment) = (&self.answer.judged, &self.answer.assessment);
        let lettering = Lettering { locale: from.locale, ..Lettering::default() };
        let mut drawn: Vec<(Id, Option<Drawing>)> = Vec::new();
        let placements = &arrangement.aiming.placements;
        for placement in placements {
            let is_shown =
                |(id, _): &(Id, _)| placements.iter().any(|own| own.id == *id && own.stands_with(placement));
            if drawn.iter().any(is_shown) {
                continue;
            }
            let seen: Option<&Seen> = heard.iter().find(|own| own.target == placement.id);
            let own = seen.and_then(|own| own.own.as_ref().ok()).map(|own| own.at);
            let echoes = seen.map_or(&[][..], |own| own.echoes.as_slice());
            let marked: Vec<&Echo> = echoes.iter().filter(|own| own.heard.matters()).collect();
            let of = LookedAt { target: &placement.id, own, echoes: &marked, is_numbered: false };
            let drawing =
                sensor_view(&of, arrangement, assessment, &from.state, f64::from(width), &lettering);
            drawn.push((placement.id.clone(), drawing));
        }
        self.echoes.pictures.drawn = drawn;
        self.echoes.pictures.of = Some(from);
    }

    fn one_from_sensor(&self, ui: &mut Ui, drawing: &Drawing, fills: &mut Fills, out: &mut Vec<Command>) {
        let drawn = Vec2::new(drawing.size.x as f32, drawing.size.y as f32);
        let (rect, response) = ui.allocate_exact_size(drawn, Sense::hover());
        let texts = self.view.locale.language.echoes();
        let named = |own: &&Subject| !matches!(own, Subject::Stand(_) | Subject::Wall(_) | Subject::Sensor);
        let mut names: Vec<String> = Vec::new();
        for name in drawing.subjects().into_iter().filter(named).map(|own| self.words().subject(own)) {
            if !names.contains(&name) {
                names.push(name);
            }
        }
        let read = texts.from_sensor_read(&names);
        response.widget_info(|| WidgetInfo::labeled(egui::Role::Image, true, &read));
        if let Some(at) = response.hover_pos() {
            let off = at - rect.min;
            let under = on_top(drawing, DVec2::new(f64::from(off.x), f64::from(off.y))).cloned().map(whole);
            out.push(Command::View(OfView::Hover(under)));
        }
        let mut painter = Painter::of_all(drawing, (ui.ctx(), self.view.theme), rect.min, fills);
        painter.drawing(drawing);
        let shapes = std::mem::take(&mut painter.out);
        ui.painter().with_clip_rect(rect.intersect(ui.clip_rect())).extend(shapes);
    }
}
