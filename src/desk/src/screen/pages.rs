//! What lies over the screen: open, save as, questions, help.

mod cars;
mod compare;
mod files;
mod help;
mod new_bay;
mod question;
mod visit;

use std::path::PathBuf;

use egui::{Align, Align2, Id, Layout, Modal, RichText, ScrollArea, Ui};

pub use compare::Compare;
pub(super) use compare::Compared;
pub use new_bay::NewBay;
pub use visit::VisitPage;

use super::Desk;
use super::command::Command;
use super::look::{self, size};

/// A page over the screen.
#[derive(Clone, Debug, PartialEq)]
pub enum Page {
    /// What the program is for and the first steps in it.
    FirstSteps,
    /// Keys, what is seen, what it does not do.
    Help,
    /// Licence texts.
    Licences,
    /// Which file to open.
    Open(OpenPage),
    /// Where to save.
    Save(SavePage),
    /// What the car is in for.
    Visit(Box<VisitPage>),
    /// All cars: what is sought, and whether the field is to be given the keyboard.
    Cars(String, bool),
    /// Two arrangements side by side.
    Compare(Compare),
    /// A name for the arrangement; whether the field is to be given the keyboard.
    Name(String, bool),
    /// What earlier sessions left behind.
    LeftBehind,
    /// A bay that is being made.
    NewBay(NewBay),
    /// Something to be decided first.
    Ask(Question),
}

/// A path being typed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct OpenPage {
    /// What was typed.
    pub path: String,
    /// What was wrong with it.
    pub faults: Vec<String>,
    /// Whether the field is to be given the keyboard.
    pub focus: bool,
}

/// A path being typed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct SavePage {
    /// What was typed.
    pub path: String,
    /// Why it could not be saved there.
    pub faults: Vec<String>,
    /// Whether the field is to be given the keyboard.
    pub focus: bool,
}

/// Something to be decided.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Question {
    /// Work would be lost by leaving.
    Unsaved(Leaving),
    /// The file was changed by someone else since it was read.
    ChangedOnDisk,
    /// A car that was entered would be dropped.
    DropCar,
    /// There is a file of that name.
    Replace(PathBuf),
}

impl Page {
    const fn is_typed_in(&self) -> bool {
        matches!(
            self,
            Self::NewBay(_) | Self::Visit(_) | Self::Save(_) | Self::Open(_) | Self::Name(..) | Self::Ask(_)
        )
    }
}

/// What one is about to do.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Leaving {
    /// Open another layout.
    Open(PathBuf),
    /// Make a new bay.
    NewBay,
    /// Close the program.
    Quit,
}

impl Desk {
    pub(super) fn pages(&mut self, ui: &Ui, out: &mut Vec<Command>) {
        let Some(mut page) = self.view.page.take() else { return };
        let texts = self.texts();
        let (title, width) = match &page {
            Page::FirstSteps => (texts.first_steps, 720.0),
            Page::Help => (texts.help, 720.0),
            Page::Licences => (texts.licences, 720.0),
            Page::Open(_) => (texts.open, 560.0),
            Page::Save(_) => (texts.save_as, 560.0),
            Page::Visit(_) => (texts.visit, 620.0),
            Page::Cars(..) => (texts.all_cars, 640.0),
            Page::Compare(_) => (texts.compare_title, 1_200.0),
            Page::Name(..) => (texts.name_arrangement, 420.0),
            Page::LeftBehind => (texts.left_behind, 560.0),
            Page::NewBay(_) => (self.view.language.rooms().new_bay_title, 900.0),
            Page::Ask(_) => (texts.question, 480.0),
        };
        let screen = ui.ctx().content_rect();
        let frame = egui::Frame::window(ui.style()).inner_margin(egui::Margin::same(18));
        // From one height down: what is pressed stays under the hand when the page grows.
        let top = (screen.height() * 0.09).round();
        let area = Modal::default_area(Id::unique("page")).anchor(Align2::CENTER_TOP, [0.0, top]);
        let modal = Modal::new(Id::unique("page")).area(area).frame(frame).show(ui.ctx(), |ui| {
            ui.set_width(f32::min(width, screen.width() - 60.0));
            ui.horizontal(|ui| {
                ui.label(RichText::new(title.trim_end_matches(['\u{2026}', ' '])).font(look::bold(18.0)));
                ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
                    if ui.button(texts.close).clicked() {
                        out.push(Command::Page(None));
                    }
                });
            });
            ui.add_space(6.0);
            let most = screen.height() - top - 100.0;
            ScrollArea::vertical().max_height(most).min_scrolled_height(most).show(ui, |ui| {
                ui.set_width(ui.available_width());
                match &mut page {
                    Page::FirstSteps => self.first_steps(ui, out),
                    Page::Help => self.help(ui, out),
                    Page::Licences => licences(ui),
                    Page::Open(open) => self.open_page(ui, open, out),
                    Page::Save(save) => self.save_page(ui, save, out),
                    Page::Visit(visit) => self.visit_page(ui, visit, out),
                    Page::Cars(sought, focus) => self.cars_page(ui, sought, focus, out),
                    Page::Compare(compare) => self.compare_page(ui, compare, out),
                    Page::Name(name, focus) => self.name_page(ui, name, focus, out),
                    Page::LeftBehind => self.left_behind_page(ui, out),
                    Page::NewBay(bay) => self.new_bay_page(ui, bay, out),
                    Page::Ask(question) => self.question(ui, question, out),
                }
            });
        });
        // A press beside a page closes it, unless something was typed in it.
        let closes = modal.should_close();
        if closes && !(modal.backdrop_response.clicked() && page.is_typed_in()) {
            out.push(Command::Page(None));
        }
        self.view.page = Some(page);
    }
}

fn licences(ui: &mut Ui) {
    ui.add(egui::Label::new(RichText::new(crate::licences::text()).size(size::SMALL)).wrap());
}
