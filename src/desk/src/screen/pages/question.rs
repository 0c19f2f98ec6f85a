//! Questions before work would be lost.

use std::path::Path;

use baywright_files::free_beside;
use baywright_planner::edit::Edit;
use baywright_planner::hand::least_size;
use baywright_planner::model::Id;
use egui::{Label, RichText, Ui};

use crate::screen::command::{Command, OfBay, OfCar, OfFile};
use crate::screen::look::size;
use crate::screen::page::{Begun, Leaving, Page, Question, SavePage};
use crate::screen::{Desk, widgets};

impl Desk {
    pub(super) fn question(&self, ui: &mut Ui, question: &Question, out: &mut Vec<Command>) {
        let texts = self.texts();
        let ask = |ui: &mut Ui, text: &str| {
            ui.add(Label::new(RichText::new(widgets::unbroken(text)).size(size::LEAD)).wrap());
            ui.add_space(8.0);
        };
        let bay = &self.document().layout().bay.name;
        match question {
            Question::Unsaved(leaving) => {
                ask(ui, &texts.unsaved(bay));
                let (then, anyway) = match leaving {
                    Leaving::Open(path) => (
                        Command::File(OfFile::OpenAnyway(path.clone())),
                        Command::File(OfFile::OpenAnyway(path.clone())),
                    ),
                    Leaving::NewBay => {
                        (Command::File(OfFile::BeginBayAnyway), Command::File(OfFile::BeginBayAnyway))
                    }
                    Leaving::Drawing => {
                        (Command::File(OfFile::TakeDrawing(true)), Command::File(OfFile::TakeDrawing(true)))
                    }
                    Leaving::TakeUp(at) => {
                        (Command::File(OfFile::TakeUpAnyway(*at)), Command::File(OfFile::TakeUpAnyway(*at)))
                    }
                    Leaving::Quit => (Command::QuitAnyway, Command::QuitAnyway),
                };
                ui.horizontal(|ui| {
                    if widgets::default_press(ui, self.view.theme, texts.save_first).clicked() {
                        out.push(Command::File(OfFile::SaveThen(Box::new(then))));
                    }
                    if widgets::lesser(ui, texts.do_not_save).clicked() {
                        out.push(Command::Page(None));
                        out.push(anyway);
                    }
                    if widgets::lesser(ui, texts.stay).clicked() {
                        out.push(Command::Page(None));
                    }
                });
            }
            Question::ChangedOnDisk => {
                ask(ui, texts.changed_on_disk);
                ui.horizontal(|ui| {
                    if widgets::default_press(ui, self.view.theme, texts.save_as).clicked() {
                        out.push(self.save_beside());
                    }
                    if widgets::lesser(ui, texts.replace_it).clicked() {
                        out.push(Command::File(OfFile::SaveOver));
                    }
                    if let Some(path) = self.document().path()
                        && widgets::lesser(ui, texts.open_theirs).clicked()
                    {
                        out.push(Command::Page(None));
                        out.push(Command::File(OfFile::Open(path.to_owned())));
                    }
                    if widgets::lesser(ui, texts.stay).clicked() {
                        out.push(Command::Page(None));
                    }
                });
            }
            Question::OpenElsewhere => {
                ask(ui, texts.save_open_elsewhere);
                ui.horizontal(|ui| {
                    if widgets::default_press(ui, self.view.theme, texts.save_as).clicked() {
                        out.push(self.save_beside());
                    }
                    if widgets::lesser(ui, texts.save_all_the_same).clicked() {
                        out.push(Command::File(OfFile::SaveThoughOpen));
                    }
                    if widgets::lesser(ui, texts.stay).clicked() {
                        out.push(Command::Page(None));
                    }
                });
            }
            Question::GoneFromDisk => {
                let path = self.document().path().map_or_else(String::new, |p| p.display().to_string());
                ask(ui, &texts.file_is_gone(&path));
                ui.horizontal(|ui| {
                    if widgets::default_press(ui, self.view.theme, texts.save_there_again).clicked() {
                        out.push(Command::File(OfFile::SaveOver));
                    }
                    if widgets::lesser(ui, texts.save_as).clicked() {
                        let page = SavePage { path, faults: Vec::new(), focus: true };
                        out.push(Command::Page(Some(Page::Save(page))));
                    }
                    if widgets::lesser(ui, texts.stay).clicked() {
                        out.push(Command::Page(None));
                    }
                });
            }
            Question::CarGone(path) => {
                ask(ui, &texts.file_is_gone(&path.display().to_string()));
                ui.horizontal(|ui| {
                    if widgets::default_press(ui, self.view.theme, texts.save_there_again).clicked() {
                        out.push(Command::Page(None));
                        out.push(Command::Car(OfCar::KeepAgain));
                    }
                    if widgets::lesser(ui, texts.go_on_entering).clicked() {
                        out.push(Command::Page(None));
                    }
                });
            }
            Question::DropCar => {
                ask(ui, texts.drop_car_question);
                ui.horizontal(|ui| {
                    if widgets::default_press(ui, self.view.theme, texts.go_on_entering).clicked() {
                        out.push(Command::Page(None));
                    }
                    if widgets::lesser(ui, texts.drop_it).clicked() {
                        out.push(Command::Page(None));
                        out.push(Command::Car(OfCar::DropAnyway));
                    }
                });
            }
            Question::DropBegun(begun) => {
                let (question, back) = match begun {
                    Begun::Bay => (texts.drop_bay_question, Command::File(OfFile::BeginBayAnyway)),
                    Begun::List => (texts.drop_list_question, Command::BeginVisit),
                };
                ask(ui, question);
                ui.horizontal(|ui| {
                    if widgets::default_press(ui, self.view.theme, texts.go_on_with_it).clicked() {
                        out.push(back);
                    }
                    if widgets::lesser(ui, texts.quit_without_it).clicked() {
                        out.push(Command::File(OfFile::DropBegun(*begun)));
                        out.push(Command::Quit);
                    }
                });
            }
            Question::AdoptBuilding(lost) => {
                let rooms = self.view.locale.language.rooms();
                ask(ui, rooms.adopting_forgets);
                for (arrangement, of) in lost {
                    let of: Vec<&str> = of.iter().map(Id::as_str).collect();
                    let line = texts.of(arrangement.as_str(), &of.join(", "));
                    ui.add(Label::new(RichText::new(widgets::unbroken(line)).size(size::SMALL)).wrap());
                }
                ui.add_space(8.0);
                ui.horizontal(|ui| {
                    if widgets::default_press(ui, self.view.theme, texts.stay).clicked() {
                        out.push(Command::Page(None));
                    }
                    if widgets::lesser(ui, rooms.adopt_building).clicked() {
                        out.push(Command::Page(None));
                        out.push(Command::Bay(OfBay::Edit(Edit::AdoptBuilding)));
                    }
                });
            }
            Question::TooSmall(edit) => {
                let hand = self.view.locale.language.hand();
                let Edit::Reshape { thing, .. } = &**edit else { return };
                let own = self.answer.arrangement.bay.things.iter().find(|own| own.id == *thing);
                let Some(own) = own else { return };
                let words = self.words();
                let size = own.footprint.outline().bounds().size();
                let size = format!("{} \u{d7} {}", words.bare(size.x), words.length(size.y));
                let least = words.length(least_size(own.kind));
                ask(ui, &hand.too_small(thing.as_str(), &size, words.kind_of_thing(own.kind), &least));
                ui.horizontal(|ui| {
                    if widgets::default_press(ui, self.view.theme, hand.put_size_back).clicked() {
                        out.push(Command::Page(None));
                    }
                    if widgets::lesser(ui, hand.it_is_so_small).clicked() {
                        out.push(Command::Bay(OfBay::SettleAnyway(Edit::clone(edit))));
                        out.push(Command::Page(None));
                    }
                });
            }
            Question::Replace(path) => {
                ask(ui, &texts.file_is_there(&path.display().to_string()));
                ui.horizontal(|ui| {
                    if widgets::default_press(ui, self.view.theme, texts.other_name).clicked() {
                        out.push(save_page(&free_beside(path)));
                    }
                    if widgets::lesser(ui, texts.replace_it).clicked() {
                        out.push(Command::File(OfFile::SaveAs(path.clone(), true)));
                    }
                    if widgets::lesser(ui, texts.stay).clicked() {
                        out.push(Command::Page(None));
                    }
                });
            }
        }
    }

    /// The page that asks for a name, with one beside the open file that is free: under its own somebody else's work lies.
    fn save_beside(&self) -> Command {
        save_page(&free_beside(&self.suggested()))
    }
}

fn save_page(path: &Path) -> Command {
    let page = SavePage { path: path.display().to_string(), faults: Vec::new(), focus: true };
    Command::Page(Some(Page::Save(page)))
}
