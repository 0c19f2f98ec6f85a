//! The bar at the top: which car, aiming, bay, arrangement; undo; how things are shown.

use std::path::PathBuf;

use baywright_drawing::Theme;
use baywright_drawing::sign::SignKind;
use baywright_planner::edit::Edit;
use baywright_planner::model::{Id, SavedArrangement};
use baywright_planner::words::screen::Screen;
use baywright_planner::words::sentence_start;
use baywright_planner::words::{Language, Units};
use egui::{Align, Button, Layout, RichText, ScrollArea, Ui};

use super::command::{Begin, Command, OfBay, OfCar, OfFile, OfView};
use super::look::{self, size};
use super::of_record::OfRecord;
use super::page::{Compare, OpenPage, Page, SavePage};
use super::view::{Letters, Measuring, Tool};
use super::{Desk, in_sight, widgets};
use crate::session::job::Progress;

/// What is chosen takes this width at least, if its name is so long and the bar is on one line, px.
const PICKED_PX: f32 = 220.0;
/// The tools on the right, the steps as arrows alone, and the star of what was changed behind a name, px.
const TOOLS_PX: f32 = 340.0;
const CHANGED_PX: f32 = 14.0;
/// What stands round the words of a picker: its arrow and its edges, px.
const BESIDE_PICKED_PX: f32 = 34.0;
/// Both steps with what they undo and do again take no more, px.
const NAMED_STEPS_PX: f32 = 350.0;

impl Desk {
    /// On one line; on two where the window is narrow for its letters, so that names stay readable.
    pub(super) fn bar(&self, ui: &mut Ui, wide: bool, out: &mut Vec<Command>) {
        let tools = |ui: &mut Ui, out: &mut Vec<Command>| {
            ui.with_layout(Layout::right_to_left(Align::Center), |ui| self.tools(ui, out));
        };
        ui.spacing_mut().item_spacing.x = 4.0;
        if wide {
            ui.horizontal(|ui| {
                let most = self.most_picked(ui, ui.available_width() - TOOLS_PX).max(PICKED_PX);
                self.pickers(ui, most, out);
                tools(ui, out);
            });
            return;
        }
        let most = self.most_picked(ui, ui.available_width());
        ui.horizontal(|ui| self.pickers(ui, most, out));
        ui.horizontal(|ui| {
            self.list_press(ui, out);
            self.example_figures(ui, out);
            tools(ui, out);
        });
    }

    /// How wide each name that is chosen may be so that all four stand in so much room: what a short one leaves is the long ones'.
    fn most_picked(&self, ui: &Ui, room: f32) -> f32 {
        let arrangement = &self.answer.arrangement;
        let names = [
            arrangement.vehicle.name.as_str(),
            arrangement.aiming.name.as_str(),
            arrangement.bay.name.as_str(),
            self.document.shown().as_str(),
        ];
        let wide = |name: &str| {
            let font = look::bold(size::BODY);
            ui.painter().layout_no_wrap(name.to_owned(), font, egui::Color32::BLACK).size().x + CHANGED_PX
        };
        let mut widths = names.map(wide);
        widths.sort_by(f32::total_cmp);
        let mut left = room - 3.0 * ui.spacing().item_spacing.x - 4.0 * BESIDE_PICKED_PX;
        let mut most = 0.0;
        for (width, others) in widths.into_iter().zip([4.0, 3.0, 2.0, 1.0]) {
            most = width.min(left / others);
            left -= most;
        }
        most.max(0.0)
    }

    /// Opens and closes the list of what is in the bay, where there is no room for it all the time.
    fn list_press(&self, ui: &mut Ui, out: &mut Vec<Command>) {
        if self.document.draft().is_some() {
            return;
        }
        let is_hall = !self.answer.arrangement.bay.bays.is_empty();
        let rooms = self.view.locale.language.rooms();
        let name = if is_hall { rooms.in_this_hall } else { self.texts().in_this_bay };
        let open = self.view.list_open;
        let text = RichText::new(name).font(look::bold(size::SMALL));
        if ui.add(Button::selectable(open, text).frame_when_inactive(true)).clicked() {
            out.push(Command::View(OfView::List(!open)));
        }
    }

    fn pickers(&self, ui: &mut Ui, most: f32, out: &mut Vec<Command>) {
        let texts = self.texts();
        let arrangement = &self.answer.arrangement;
        let forms = self.view.locale.language.forms();
        picker(ui, texts, (texts.car, &arrangement.vehicle.name), most, |ui| {
            for (how, name) in [
                (Begin::New, forms.new_car),
                (Begin::Change, forms.change_car),
                (Begin::Copy, forms.copy_car),
            ] {
                if ui.add_enabled(self.document.draft().is_none(), Button::new(name)).clicked() {
                    out.push(Command::Car(OfCar::Begin(how)));
                }
            }
            if ui.button(texts.all_cars).clicked() {
                out.push(Command::Page(Some(Page::Cars(String::new(), true))));
            }
            ui.separator();
            for car in self.document.cars() {
                let chosen = car.vehicle.id == arrangement.vehicle.id;
                if ui.selectable_label(chosen, &car.vehicle.name).clicked() && !chosen {
                    out.push(Command::Bay(OfBay::ChooseCar(car.vehicle.id.clone())));
                }
            }
            for fault in self.document.car_faults() {
                ui.label(widgets::soft(ui, self.view.locale.language.file_fault(fault)));
            }
        });
        let visit = self.document.saved_arrangement().map_or(&[][..], |own| own.visit.as_slice());
        let place = visit.iter().position(|id| *id == arrangement.aiming.id);
        let title = match place {
            Some(place) => texts.aiming_of(place + 1, visit.len()),
            None => texts.aiming.to_owned(),
        };
        picker(ui, texts, (&title, &arrangement.aiming.name), most, |ui| {
            if ui.add_enabled(self.document.draft().is_none(), Button::new(texts.visit)).clicked() {
                out.push(Command::BeginVisit);
            }
            let failed = self.view.locale.language.failed();
            if ui.button(failed.ask).on_hover_text(failed.ask_why).clicked() {
                out.push(Command::Page(Some(self.routine_failed())));
            }
            let record = self.view.locale.language.record_page();
            if ui.button(record.page).on_hover_text(record.open_why).clicked() {
                out.push(Command::Record(OfRecord::Lay));
            }
            ui.separator();
            if !visit.is_empty() {
                ui.label(widgets::soft(ui, texts.in_for));
                for (id, number) in visit.iter().zip(1..) {
                    let Some(aiming) = arrangement.vehicle.aimings.iter().find(|own| own.id == *id) else {
                        continue;
                    };
                    let chosen = aiming.id == arrangement.aiming.id;
                    if ui.selectable_label(chosen, format!("{number}. {}", aiming.name)).clicked() && !chosen
                    {
                        out.push(Command::Car(OfCar::Aiming(aiming.id.clone())));
                    }
                }
                ui.separator();
                ui.label(widgets::soft(ui, texts.all_aimings));
            }
            for aiming in &arrangement.vehicle.aimings {
                let chosen = aiming.id == arrangement.aiming.id;
                if ui.selectable_label(chosen, &aiming.name).clicked() && !chosen {
                    out.push(Command::Car(OfCar::Aiming(aiming.id.clone())));
                }
            }
        });
        let changed = if self.document.is_changed() { " *" } else { "" };
        picker(ui, texts, (texts.bay, &format!("{}{changed}", arrangement.bay.name)), most, |ui| {
            self.bays(ui, out)
        });
        let looked = picker(ui, texts, (texts.arrangement, arrangement.id.as_str()), most, |ui| {
            self.arrangements(ui, out)
        });
        if looked {
            out.push(Command::View(OfView::JudgeAll));
        }
    }

    fn bays(&self, ui: &mut Ui, out: &mut Vec<Command>) {
        let texts = self.texts();
        if ui.button(self.view.locale.language.rooms().new_bay).clicked() {
            out.push(Command::File(OfFile::BeginBay));
        }
        if ui.button(texts.open).clicked() {
            out.push(Command::Page(Some(Page::Open(OpenPage { focus: true, ..OpenPage::default() }))));
        }
        let drawing = self.view.locale.language.room_drawing();
        if ui.button(drawing.title).on_hover_text(drawing.title_why).clicked() {
            out.push(Command::Page(Some(Page::RoomDrawing)));
        }
        if !self.left_behind.works.is_empty() && ui.button(texts.left_behind).clicked() {
            out.push(Command::Page(Some(Page::LeftBehind)));
        }
        if ui.button(texts.save).clicked() {
            out.push(Command::File(OfFile::Save));
        }
        if ui.button(texts.save_as).clicked() {
            let path = self.suggested().display().to_string();
            out.push(Command::Page(Some(Page::Save(SavePage { path, faults: Vec::new(), focus: true }))));
        }
        let on_paper = self.view.locale.language.on_paper();
        if ui.button(on_paper.title).on_hover_text(on_paper.title_why).clicked() {
            out.push(Command::Page(Some(Page::OnPaper)));
        }
        ui.separator();
        self.recent(ui, out, |ui, name, chosen| ui.selectable_label(chosen, name));
        let beside =
            self.bays_folder().map(|folder| baywright_files::layouts_in(&folder)).unwrap_or_default();
        if !beside.is_empty() {
            ui.label(widgets::soft(ui, texts.in_this_folder));
            for path in beside {
                let name =
                    path.file_stem().map(|stem| stem.to_string_lossy().into_owned()).unwrap_or_default();
                let chosen = Some(path.as_path()) == self.document.path();
                if ui.selectable_label(chosen, name).clicked() && !chosen {
                    out.push(Command::File(OfFile::Open(path)));
                }
            }
            ui.separator();
        }
        ui.label(widgets::soft(ui, texts.built_in));
        for built_in in baywright_files::EMBEDDED_LAYOUTS {
            let chosen =
                self.document.path().is_none() && self.document.layout().bay.id.as_str() == built_in.name;
            if ui.selectable_label(chosen, built_in.title()).clicked() && !chosen {
                out.push(Command::File(OfFile::Open(PathBuf::from(built_in.name))));
            }
        }
    }

    fn arrangements(&self, ui: &mut Ui, out: &mut Vec<Command>) {
        let texts = self.texts();
        let shown = self.document.shown().clone();
        if ui.button(texts.duplicate).on_hover_text(texts.duplicate_why).clicked() {
            out.push(Command::Bay(OfBay::Duplicate));
        }
        let several = self.document.layout().arrangements.len() > 1;
        if ui.button(texts.compare).on_hover_text(texts.compare_why).clicked() {
            out.push(Command::Page(Some(Page::Compare(Compare::default()))));
        }
        if ui.button(texts.name_arrangement).clicked() {
            let page = Page::Name(shown.to_string(), true);
            out.push(Command::Page(Some(page)));
        }
        if ui.add_enabled(several, Button::new(texts.remove_arrangement)).clicked() {
            out.push(Command::Bay(OfBay::Edit(Edit::RemoveArrangement)));
        }
        ui.separator();
        self.building_menu(ui, out);
        ui.separator();
        if let Some(Progress { done, all }) = self.verdicts.progress() {
            ui.horizontal(|ui| {
                ui.label(widgets::soft(ui, texts.looked_at(done, all)));
                if ui.button(texts.stop).clicked() {
                    out.push(Command::View(OfView::StopJudging));
                }
            });
        }
        let layout = self.document.layout();
        let mut bays: Vec<&Id> = layout.bay.bays.iter().map(|own| &own.id).collect();
        for bay in layout.arrangements.iter().filter_map(|own| own.in_bay.as_ref()) {
            if !bays.contains(&bay) {
                bays.push(bay);
            }
        }
        // By their bays where the hall has several.
        let heading = |ui: &mut Ui, name: &str| ui.label(widgets::soft(ui, name));
        let is_hall = !bays.is_empty();
        for bay in bays.into_iter().map(Some).chain([None]) {
            let mut own = layout.arrangements.iter().filter(|own| own.in_bay.as_ref() == bay).peekable();
            if is_hall && own.peek().is_some() {
                let none = self.view.locale.language.rooms().in_no_bay.to_owned();
                heading(ui, &bay.map_or(none, |bay| sentence_start(bay.as_str())));
            }
            for own in own {
                self.arrangement_row(ui, own, out);
            }
        }
    }

    /// One set-up of the menu, with its verdict if it is known.
    fn arrangement_row(&self, ui: &mut Ui, own: &SavedArrangement, out: &mut Vec<Command>) {
        let texts = self.texts();
        let words = self.words();
        let palette = self.view.theme.palette();
        let chosen = own.id == *self.document.shown();
        ui.horizontal(|ui| {
            let verdict = self.verdicts.verdict(&self.document, &own.id);
            match verdict {
                Some(verdict) => {
                    let kind = SignKind::of_verdict(verdict);
                    let mark = if kind == SignKind::Tick { "" } else { "!" };
                    let sign = widgets::sign(ui, kind, 7.0, mark, widgets::verdict(palette, verdict));
                    sign.on_hover_text(words.verdict(verdict));
                }
                None => {
                    ui.add_space(7.0 * 2.4 + ui.spacing().item_spacing.x);
                }
            }
            let name = match own.building {
                None => own.id.to_string(),
                Some(_) => texts.with(own.id.as_str(), words.own_building()),
            };
            let response = ui.selectable_label(chosen, &name);
            if let Some(verdict) = verdict {
                // Said, too, to who does not see the sign.
                response.widget_info(|| {
                    egui::WidgetInfo::selected(
                        egui::Role::Button,
                        true,
                        chosen,
                        texts.with(&name, words.verdict(verdict)),
                    )
                });
            }
            if response.clicked() && !chosen {
                out.push(Command::Bay(OfBay::Show(own.id.clone())));
                ui.close();
            }
        });
    }

    /// From right to left.
    fn tools(&self, ui: &mut Ui, out: &mut Vec<Command>) {
        let texts = self.texts();
        if ui.button("?").on_hover_text(texts.help).accessible_name(texts.help).clicked() {
            out.push(Command::Page(Some(Page::Help)));
        }
        ui.menu_button(texts.show, |ui| {
            let chosen = (!self.view.as_system).then_some(self.view.theme);
            for (theme, name) in [(Theme::Light, texts.light), (Theme::Dark, texts.dark)] {
                if ui.selectable_label(chosen == Some(theme), name).clicked() {
                    out.push(Command::View(OfView::Theme(theme)));
                }
            }
            let follows = ui.selectable_label(chosen.is_none(), texts.as_system);
            if follows.on_hover_text(texts.as_system_why).clicked() {
                out.push(Command::View(OfView::AsSystem));
            }
            ui.separator();
            let large = self.view.letters.is_large();
            if ui
                .selectable_label(large, texts.large_letters)
                .on_hover_text(texts.large_letters_why)
                .clicked()
            {
                let letters = if large { Letters::default() } else { Letters::LARGE };
                out.push(Command::View(OfView::Letters(letters)));
            }
            if ui.button(texts.full_screen).on_hover_text(texts.full_screen_why).clicked() {
                out.push(Command::View(OfView::FullScreen));
            }
            ui.separator();
            if ui.selectable_label(!self.view.to_room, texts.turn_to_car).clicked() {
                out.push(Command::View(OfView::ToRoom(false)));
            }
            if ui.selectable_label(self.view.to_room, texts.turn_to_room).clicked() {
                out.push(Command::View(OfView::ToRoom(true)));
            }
            let ground = self.view.locale.language.ground();
            let lines = ui.selectable_label(self.view.contours, ground.show);
            if lines.on_hover_text(ground.show_why).clicked() {
                out.push(Command::View(OfView::Contours(!self.view.contours)));
            }
            ui.separator();
            for (language, name) in
                [(Language::English, texts.in_english), (Language::German, texts.in_german)]
            {
                let choice = ui.selectable_label(self.view.locale.language == language, name);
                if choice.on_hover_text(texts.language_why).clicked() {
                    out.push(Command::View(OfView::Language(language)));
                }
            }
            ui.separator();
            if ui.button(self.view.locale.language.shop().change_it).clicked() {
                out.push(Command::Page(Some(Page::Shop)));
            }
            if ui.button(texts.first_steps).clicked() {
                out.push(Command::Page(Some(Page::FirstSteps)));
            }
            if ui.button(texts.copy_picture).on_hover_text(texts.copy_picture_why).clicked() {
                out.push(Command::CopyPicture);
            }
            if ui.button(texts.copy_diagnostics).clicked() {
                out.push(Command::CopyDiagnostics);
            }
        });
        let unit = match self.view.locale.units {
            Units::Millimetres => texts.millimetres,
            Units::Metres => texts.metres,
            Units::FeetInches => texts.feet,
        };
        ui.menu_button(format!("{unit} \u{25bc}"), |ui| {
            for (units, name) in [
                (Units::Millimetres, texts.millimetres_long),
                (Units::Metres, texts.metres_long),
                (Units::FeetInches, texts.feet_long),
            ] {
                if ui.selectable_label(self.view.locale.units == units, name).clicked() {
                    out.push(Command::View(OfView::Units(units)));
                }
            }
        })
        .response
        .on_hover_text(texts.units);
        let measuring = matches!(self.view.tool, Tool::Measure(_));
        // A distance between two points: a tool with its sign.
        let tool = Button::new(format!("\u{2194} {}", texts.measure)).selected(measuring);
        if ui.add(tool).on_hover_text(texts.measure_why).accessible_name(texts.measure).clicked() {
            let tool = if measuring { Tool::WhichSide } else { Tool::Measure(Measuring::default()) };
            out.push(Command::View(OfView::Tool(tool)));
        }
        // Beside pickers with long names the arrows alone; what they undo stands beside the pointer.
        let has_room = ui.available_width() >= NAMED_STEPS_PX;
        let step = |arrow: &str, name: Option<&str>, most: usize| match name.filter(|_| has_room) {
            Some(name) => format!("{arrow} {}", shortened(name, most)),
            None => arrow.to_owned(),
        };
        let redo = self.redoes();
        let button = Button::new(step("\u{21aa}", redo.as_deref(), 14));
        let response = ui.add_enabled(redo.is_some(), button).accessible_name(texts.redo);
        if response.on_hover_text(texts.redo_what(redo.as_deref())).clicked() {
            out.push(Command::Redo);
        }
        let undo = self.undoes();
        let button = Button::new(step("\u{21a9}", undo.as_deref(), 22));
        let response = ui.add_enabled(undo.is_some(), button).accessible_name(texts.undo);
        if response.on_hover_text(texts.undo_what(undo.as_deref())).clicked() {
            out.push(Command::Undo);
        }
    }
}

/// A name over what is chosen; a press opens what can be chosen. Whether it is open.
fn picker(
    ui: &mut Ui,
    texts: &Screen,
    (title, chosen): (&str, &str),
    most: f32,
    content: impl FnOnce(&mut Ui),
) -> bool {
    let text =
        RichText::new(format!("{} \u{25bc}", widgets::fitted(ui, chosen, most))).font(look::bold(size::BODY));
    let mut open = false;
    ui.vertical(|ui| {
        ui.spacing_mut().item_spacing.y = 0.0;
        ui.horizontal(|ui| {
            // As low as its letters: the bar is no higher than it must be.
            ui.set_max_height(14.0);
            ui.spacing_mut().interact_size.y = 14.0;
            ui.add_space(8.0);
            ui.label(RichText::new(title).size(size::LEAST).color(ui.visuals().weak_text_color()));
        });
        let menu =
            egui::containers::menu::MenuButton::from_button(Button::new(text).frame_when_inactive(false));
        let (response, inner) = menu.ui(ui, |ui| {
            ui.set_min_width(200.0);
            let most = in_sight::menu_height(ui);
            ScrollArea::vertical().max_height(most).min_scrolled_height(most).show(ui, |ui| {
                content(ui);
                in_sight::follow(ui);
            });
        });
        open = inner.is_some();
        let name = texts.of(title, chosen);
        response.on_hover_text(chosen).accessible_name(name);
    });
    open
}

fn shortened(text: &str, most: usize) -> String {
    if text.chars().count() <= most {
        return text.to_owned();
    }
    let cut: String = text.chars().take(most.saturating_sub(1)).collect();
    format!("{}\u{2026}", cut.trim_end())
}
