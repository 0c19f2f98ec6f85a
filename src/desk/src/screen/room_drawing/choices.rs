//! What is chosen of a drawing: which file, what it becomes, its unit, its layers, and whether its size is right.

use std::path::PathBuf;
use std::sync::Arc;

use baywright_files::{DxfDrawing, DxfUnit};
use baywright_planner::geometry::DVec2;
use baywright_planner::words::room_drawing::RoomDrawing;
use egui::{Align, IdSalt, Label, Layout, RichText, TextEdit, Ui};

use super::{DrawingPage, TakenAs};
use crate::screen::command::{Command, OfFile};
use crate::screen::forms::Picker;
use crate::screen::forms::field::{Fields, Row};
use crate::screen::forms::which::NotRead;
use crate::screen::look::{self, size};
use crate::screen::{Desk, widgets};
use crate::session::drawn_in::{Becomes, CEILING_MM, left_out};

/// Width of what a layer becomes, px.
const BECOMES_PX: f32 = 140.0;
/// So many layers are listed: those that hold most.
const MOST_LAYERS: usize = 200;
/// So many lines are told of what could not be read.
const MOST_TOLD: usize = 20;
/// What its fields go by.
const OF: &str = "drawing";
/// How far a length that is known may be from the drawn one: more is a wrong unit.
const MOST_TIMES: f64 = 10_000.0;

impl Desk {
    pub(super) fn drawing_choices(
        &self,
        ui: &mut Ui,
        page: &mut DrawingPage,
        fields: &mut Fields,
        out: &mut Vec<Command>,
    ) {
        let texts = self.view.locale.language.room_drawing();
        ui.spacing_mut().item_spacing.y = 5.0;
        ui.horizontal(|ui| {
            let title = texts.title.trim_end_matches(['\u{2026}', ' ']);
            ui.add(Label::new(RichText::new(title).font(look::bold(18.0))).wrap());
            ui.with_layout(Layout::right_to_left(Align::Min), |ui| {
                if widgets::lesser(ui, texts.leave).clicked() {
                    out.push(Command::Page(None));
                }
            });
        });
        self.which_drawing(ui, page, out);
        let Some(drawing) = page.drawing.clone() else { return };
        heading(ui, texts.becomes);
        for (own, name, why) in [
            (TakenAs::NewBay, texts.new_bay, texts.new_bay_why),
            (TakenAs::ThisRoom, texts.this_room, texts.this_room_why),
            (TakenAs::UnderPlan, texts.under_plan, texts.under_plan_why),
        ] {
            ui.radio_value(&mut page.taken_as, own, RichText::new(name).size(size::BODY)).on_hover_text(why);
        }
        self.unit_of_drawing(ui, page, &drawing);
        self.layers_of_drawing(ui, page, &drawing);
        if page.taken_as != TakenAs::UnderPlan {
            self.outline_of_room(ui, page, &drawing);
            self.figures_of_drawing(ui, page, fields);
            self.known_length(ui, page, fields);
            self.comes_of_it(ui, page);
        }
        let told = left_out(&drawing, self.view.locale.language.imports());
        if !told.is_empty() {
            heading(ui, texts.not_read);
            told.iter().take(MOST_TOLD).for_each(|own| line(ui, own));
            if told.len() > MOST_TOLD {
                line(ui, &texts.and_more(told.len() - MOST_TOLD));
            }
        }
    }

    fn which_drawing(&self, ui: &mut Ui, page: &mut DrawingPage, out: &mut Vec<Command>) {
        let texts = self.view.locale.language.room_drawing();
        let named = ui.label(widgets::soft(ui, texts.file)).id;
        let field = ui
            .add(TextEdit::singleline(&mut page.path).desired_width(f32::INFINITY))
            .labelled_by(named)
            .on_hover_text(texts.file_hint);
        let is_typed = !page.path.trim().is_empty();
        let entered = field.lost_focus() && ui.input(|i| i.key_pressed(egui::Key::Enter));
        ui.horizontal_wrapped(|ui| {
            let read = ui.add_enabled_ui(is_typed, |ui| widgets::lesser(ui, texts.read)).inner;
            if is_typed && (read.clicked() || entered) {
                out.push(Command::File(OfFile::ReadDrawing(PathBuf::from(page.path.trim()))));
            }
            let look =
                ui.add_enabled_ui(!self.files.is_open(), |ui| widgets::lesser(ui, texts.look_for)).inner;
            if look.clicked() {
                out.push(Command::File(OfFile::AskDrawing));
            }
        });
    }

    fn unit_of_drawing(&self, ui: &mut Ui, page: &mut DrawingPage, drawing: &DxfDrawing) {
        let texts = self.view.locale.language.room_drawing();
        heading(ui, texts.unit);
        ui.horizontal_wrapped(|ui| {
            if let Some(own) = drawing.unit {
                let name = texts.as_file_says(short(own, texts));
                if ui.selectable_label(page.chosen.unit.is_none(), name).clicked() {
                    page.chosen.unit = None;
                }
            }
            for own in DxfUnit::ALL.into_iter().filter(|own| Some(*own) != drawing.unit) {
                ui.selectable_value(&mut page.chosen.unit, Some(own), short(own, texts));
            }
        });
        let reach = drawing.layers.iter().filter_map(|own| own.reach);
        let all = reach.reduce(|one, other| (one.0.min(other.0), one.1.max(other.1)));
        match (page.chosen.mm_per_unit(drawing), all) {
            (Some(mm), Some((low, high))) => {
                let size = (high - low) * mm;
                line(ui, &texts.size(size.x, size.y, self.view.locale));
            }
            (None, _) => wrong(ui, texts.no_unit),
            (Some(_), None) => line(ui, self.view.locale.language.imports().no_layers),
        }
    }

    fn layers_of_drawing(&self, ui: &mut Ui, page: &mut DrawingPage, drawing: &DxfDrawing) {
        let texts = self.view.locale.language.room_drawing();
        let mut layers: Vec<_> = drawing.layers.iter().filter(|own| own.lines > 0).collect();
        if layers.len() > MOST_LAYERS {
            layers.sort_by_key(|own| std::cmp::Reverse(own.lines));
        }
        let more = layers.len().saturating_sub(MOST_LAYERS);
        heading(ui, texts.layers);
        line(ui, texts.layers_hint);
        for own in layers.into_iter().take(MOST_LAYERS) {
            let name = RichText::new(&own.name).font(look::bold(size::SMALL));
            let named = ui.add(Label::new(name).truncate()).id;
            ui.horizontal(|ui| {
                let picker = Picker {
                    salt: IdSalt::new(("layer", &own.name)),
                    path: "",
                    named,
                    width: BECOMES_PX,
                    letters: size::SMALL,
                };
                if page.taken_as == TakenAs::UnderPlan {
                    let is_drawn = !page.hidden.contains(&own.name);
                    let name =
                        |is_drawn: &bool| if *is_drawn { texts.drawn } else { texts.left_out }.to_owned();
                    match picker.show(ui, None, &is_drawn, &[true, false], name).chosen {
                        Some(true) => drop(page.hidden.remove(&own.name)),
                        Some(false) => drop(page.hidden.insert(own.name.clone())),
                        None => {}
                    }
                } else {
                    let now = page.chosen.of(&own.name);
                    let name = |own: &Becomes| becomes(*own, texts).to_owned();
                    if let Some(chosen) = picker.show(ui, None, &now, &Becomes::ALL, name).chosen {
                        page.chosen.set(&own.name, chosen);
                    }
                }
                let held = texts.on_layer(own.lines, own.notes, own.is_hidden);
                ui.add(Label::new(widgets::soft(ui, held)).wrap());
            });
        }
        if more > 0 {
            line(ui, &texts.and_more(more));
        }
        if page.taken_as != TakenAs::UnderPlan && page.chosen.room().is_none() {
            wrong(ui, texts.no_room_layer);
        }
    }

    /// Where a layer has several outlines that may be the room: which one is it.
    fn outline_of_room(&self, ui: &mut Ui, page: &mut DrawingPage, drawing: &Arc<DxfDrawing>) {
        let texts = self.view.locale.language.room_drawing();
        let room = page.chosen.room();
        let Some((of, sizes)) = &page.outlines else { return };
        let Some(mm) = page.chosen.mm_per_unit(drawing).filter(|_| room.as_ref() == Some(of)) else { return };
        let sizes: Vec<DVec2> = sizes.iter().map(|own| *own * mm).collect();
        heading(ui, texts.outline);
        line(ui, texts.outline_hint);
        for (size, number) in sizes.iter().zip(1..) {
            let name = texts.outline_of(number, size.x, size.y, self.view.locale);
            if ui.radio(page.chosen.outline == Some(number), name).clicked() {
                page.chosen.outline = Some(number);
            }
        }
    }

    fn figures_of_drawing(&self, ui: &mut Ui, page: &mut DrawingPage, fields: &mut Fields) {
        let texts = self.view.locale.language.room_drawing();
        ui.add_space(4.0);
        let chosen = &mut page.chosen;
        for (label, hint, mm, range) in [
            (texts.gap, texts.gap_hint, &mut chosen.gap_mm, (0.0, 5_000.0)),
            (texts.wall_thick, texts.wall_thick_hint, &mut chosen.wall_mm, (10.0, 1_000.0)),
        ] {
            *mm = self.drawing_length(ui, fields, (label, hint), *mm, range).unwrap_or(*mm);
        }
        let usual =
            if page.taken_as == TakenAs::ThisRoom { self.document.bay().ceiling_mm } else { CEILING_MM };
        let row = (texts.ceiling, texts.ceiling_hint);
        let now = chosen.ceiling_mm.unwrap_or(usual);
        chosen.ceiling_mm =
            self.drawing_length(ui, fields, row, now, (1_000.0, 100_000.0)).or(chosen.ceiling_mm);
        if chosen.ceiling_mm.is_none() && page.taken_as == TakenAs::NewBay {
            line(ui, &texts.ceiling_taken(usual, self.view.locale));
        }
    }

    /// A row with a length; what is not within its range is refused beside it.
    fn drawing_length(
        &self,
        ui: &mut Ui,
        fields: &mut Fields,
        (label, hint): (&str, &str),
        mm: f64,
        (least, most): (f64, f64),
    ) -> Option<f64> {
        let row = Row { label, hint, of: OF };
        let shown = self.view.locale.length_to_type(mm);
        let texts = self.view.locale.language.room_drawing();
        fields.row(ui, &row, &shown, |text| {
            let read = self.read_length(text)?;
            if (least..=most).contains(&read) {
                Ok(read)
            } else {
                Err(NotRead::Wrong(texts.from_to(least, most, self.view.locale)))
            }
        })
    }

    /// A wall that somebody taped tells whether the drawing's size is right, and sets it right.
    fn known_length(&self, ui: &mut Ui, page: &mut DrawingPage, fields: &mut Fields) {
        let texts = self.view.locale.language.room_drawing();
        let Some(made) = &page.made else { return };
        heading(ui, texts.known_length);
        line(ui, texts.known_length_why);
        let all: Vec<Option<usize>> =
            std::iter::once(None).chain((0..made.bay.walls.len()).map(Some)).collect();
        let name = |own: &Option<usize>| {
            let wall = own.and_then(|own| made.bay.walls.get(own));
            wall.map_or_else(|| texts.none.to_owned(), |own| own.id.to_string())
        };
        let wall = ui
            .horizontal(|ui| {
                let label = widgets::soft(ui, texts.which_wall);
                let named = widgets::name_column(ui, ui.available_width() * 0.4, label).id;
                let width = ui.available_width() - 10.0;
                let salt = IdSalt::new("wall of known length");
                let picker = Picker { salt, path: "", named, width, letters: size::SMALL };
                picker.show(ui, None, &page.wall, &all, name).chosen
            })
            .inner;
        page.wall = wall.unwrap_or(page.wall);
        if let Some((from, to)) = page.wall.and_then(|own| made.bay.wall_ends(own)) {
            let drawn = from.distance(to);
            let row = Row { label: texts.is_long, hint: texts.known_length_why, of: OF };
            let by = page.chosen.by;
            let typed = fields.row(ui, &row, &self.view.locale.length_to_type(drawn), |text| {
                let read = self.read_length(text)?;
                let times = by * read / drawn;
                if read > 0.0 && (1.0 / MOST_TIMES..=MOST_TIMES).contains(&times) {
                    Ok(times)
                } else {
                    Err(NotRead::Wrong(texts.no_size.to_owned()))
                }
            });
            page.chosen.by = typed.unwrap_or(by);
        }
        if page.chosen.by != 1.0 {
            line(ui, &texts.scaled(&self.region().number(page.chosen.by, 4)));
            if widgets::lesser(ui, texts.as_drawn).clicked() {
                page.chosen.by = 1.0;
            }
        }
    }

    fn comes_of_it(&self, ui: &mut Ui, page: &DrawingPage) {
        let (texts, imports) =
            (self.view.locale.language.room_drawing(), self.view.locale.language.imports());
        let Some(made) = &page.made else { return };
        heading(ui, texts.comes_of_it);
        let things = made.bay.things.len() - made.drawn_from.min(made.bay.things.len());
        line(ui, &imports.made(made.bay.walls.len(), things));
        if made.to_bay {
            line(ui, &texts.moved_to_bay());
        }
        if !made.lost.is_empty() {
            let lost: Vec<&str> = made.lost.iter().map(|own| own.as_str()).collect();
            wrong(ui, &texts.doors_lost(&lost));
        }
        made.told.iter().for_each(|own| line(ui, own));
        line(ui, imports.solid_and_by_eye);
    }

    /// The main press, which is always in sight.
    pub(super) fn drawing_foot(&self, ui: &mut Ui, page: &DrawingPage, out: &mut Vec<Command>) {
        if page.drawing.is_none() {
            return;
        }
        let texts = self.view.locale.language.room_drawing();
        ui.add_space(8.0);
        let can = self.can_take(page);
        let take = ui.add_enabled_ui(can, |ui| widgets::press(ui, self.view.theme, texts.take)).inner;
        if take.clicked() {
            out.push(Command::File(OfFile::TakeDrawing(false)));
        }
    }
}

pub(super) const fn becomes(own: Becomes, texts: &RoomDrawing) -> &'static str {
    match own {
        Becomes::Room => texts.as_room,
        Becomes::Walls => texts.as_walls,
        Becomes::Things => texts.as_things,
        Becomes::LeftOut => texts.left_out,
    }
}

const fn short(unit: DxfUnit, texts: &RoomDrawing) -> &'static str {
    match unit {
        DxfUnit::Millimetres => texts.mm,
        DxfUnit::Centimetres => texts.cm,
        DxfUnit::Metres => texts.m,
        DxfUnit::Inches => texts.inch,
        DxfUnit::Feet => texts.foot,
    }
}

fn heading(ui: &mut Ui, text: &str) {
    ui.add_space(6.0);
    ui.label(RichText::new(text).font(look::bold(size::BODY)));
}

fn line(ui: &mut Ui, text: &str) {
    ui.add(Label::new(widgets::soft(ui, text)).wrap());
}

fn wrong(ui: &mut Ui, text: &str) {
    let colour = ui.visuals().error_fg_color;
    ui.add(Label::new(RichText::new(widgets::unbroken(text)).size(size::SMALL).color(colour)).wrap());
}
