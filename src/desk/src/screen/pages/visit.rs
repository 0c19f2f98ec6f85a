//! What a car is in for: the work that is done on it, by the shop's own list, and the aimings that follow.

use baywright_files::TRIGGERS_FILE;
use baywright_planner::model::{Id, Provenance, SensorGroup, Trigger, TriggerList, aimings_for};
use egui::{RichText, Ui};

use crate::screen::command::{Command, OfBay, OfFile};
use crate::screen::look::{self, size};
use crate::screen::of_record::OfRecord;
use crate::screen::page::{Page, VisitPage};
use crate::screen::{Desk, widgets};

impl Desk {
    /// Opens the page with the shop's list.
    pub(in crate::screen) fn begin_visit(&mut self) {
        self.lay(None);
        let car = self.answer.arrangement.vehicle.id.clone();
        let begun = self.view.list_begun.take().map(|mut begun| {
            // Another car is in for something else.
            if begun.car != car {
                begun.chosen.clear();
            }
            begun.car.clone_from(&car);
            begun
        });
        let chosen = match begun {
            Some(begun) if begun.is_changed() => {
                self.lay(Some(Page::Visit(begun)));
                return;
            }
            begun => begun.map(|own| own.chosen).unwrap_or_default(),
        };
        match baywright_files::triggers(self.data_folder().as_deref()) {
            Ok(list) => {
                let is_there = |id: &Id| list.triggers.iter().any(|own| own.id == *id);
                let chosen = chosen.into_iter().filter(is_there).collect();
                let page = VisitPage { read: list.clone(), list, chosen, changing: false, car };
                self.lay(Some(Page::Visit(Box::new(page))));
            }
            Err(faults) => self.say_wrong(self.first_sentence(&faults)),
        }
    }

    pub(super) fn visit_page(&self, ui: &mut Ui, page: &mut VisitPage, out: &mut Vec<Command>) {
        let texts = self.texts();
        let words = self.words();
        let car = &self.answer.arrangement.vehicle;
        ui.label(RichText::new(&car.name).font(look::bold(size::LEAD)));
        let source = texts.list_from(&page.list.name, &words.provenance_sentence(&page.list.provenance));
        ui.add(egui::Label::new(widgets::soft(ui, source)).wrap());
        if page.changing {
            self.change_list(ui, page, out);
            return;
        }
        if widgets::lesser(ui, texts.change_list).on_hover_text(texts.change_list_why).clicked() {
            page.changing = true;
        }
        ui.add_space(6.0);
        ui.label(RichText::new(texts.work_done).font(look::bold(size::BODY)));
        for trigger in &page.list.triggers {
            let mut on = page.chosen.contains(&trigger.id);
            let tick = ui.checkbox(&mut on, RichText::new(&trigger.title).size(size::BODY));
            let tick = tick.on_hover_text(words.provenance_sentence(&trigger.provenance));
            if tick.changed() {
                page.chosen.retain(|id| *id != trigger.id);
                if on {
                    page.chosen.push(trigger.id.clone());
                }
            }
            // Ticked or not: the next tick stays where it is seen.
            if !trigger.note.is_empty() {
                ui.add(egui::Label::new(widgets::soft(ui, &trigger.note)).wrap());
            }
        }
        ui.add_space(8.0);
        let visit = aimings_for(car, &page.list, &page.chosen);
        let titles = |because: &[Id]| {
            let titles = because.iter().filter_map(|id| page.list.triggers.iter().find(|own| own.id == *id));
            titles.map(|own| own.title.to_lowercase()).collect::<Vec<_>>()
        };
        let heading = match (page.chosen.is_empty(), visit.lines.is_empty(), visit.missing.is_empty()) {
            (true, ..) => texts.nothing_chosen.to_owned(),
            // What is not entered is not what need not be done.
            (false, true, false) => texts.none_entered.to_owned(),
            (false, ..) => texts.to_be_aimed(visit.lines.len()),
        };
        ui.label(RichText::new(heading).font(look::bold(size::BODY)));
        for (line, number) in visit.lines.iter().zip(1..) {
            let aiming = car.aimings.iter().find(|own| own.id == line.aiming);
            let name = aiming.map_or(line.aiming.as_str(), |own| own.name.as_str());
            let text = self.view.locale.language.visits().line(number, name, &titles(&line.because));
            ui.add(egui::Label::new(text).wrap());
        }
        let care = look::colour(self.view.theme.palette().care);
        for missing in &visit.missing {
            let text = self.view.locale.language.visits().missing(missing, &page.list);
            let text = RichText::new(widgets::unbroken(text)).size(size::SMALL).color(care);
            ui.add(egui::Label::new(text).wrap());
        }
        ui.add(egui::Label::new(widgets::soft(ui, texts.maker_decides)).wrap());
        ui.add_space(6.0);
        let aimings: Vec<Id> = visit.lines.iter().map(|line| line.aiming.clone()).collect();
        let some = !aimings.is_empty();
        let take = ui.add_enabled_ui(some, |ui| widgets::press(ui, self.view.theme, texts.take_visit)).inner;
        if take.clicked() {
            // Done: the next visit begins with nothing ticked.
            page.chosen.clear();
            // A record that is begun says by which work each was asked for.
            let because = OfRecord::Because(car.id.clone(), visit.lines, Box::new(page.list.clone()));
            out.push(Command::Record(because));
            out.push(Command::Bay(OfBay::Visit(aimings)));
            out.push(Command::Page(None));
        }
    }

    /// The list itself: what each work is called, what it asks for, what else to mind.
    fn change_list(&self, ui: &mut Ui, page: &mut VisitPage, out: &mut Vec<Command>) {
        let texts = self.texts();
        let mut gone = None;
        for (i, trigger) in page.list.triggers.iter_mut().enumerate() {
            let row = texts.numbered(texts.work, i + 1);
            let id = |what: &str| egui::Id::unique("work").with(what).with(i);
            let title = widgets::field(ui, id("title"), &mut trigger.title, f32::INFINITY, false);
            title.accessible_name(texts.with(&row, texts.name));
            ui.horizontal_wrapped(|ui| {
                for group in SensorGroup::ALL {
                    let mut on = trigger.asks.contains(&group);
                    let name = self.view.locale.language.visits().group(group);
                    if ui.checkbox(&mut on, RichText::new(name).size(size::SMALL)).changed() {
                        trigger.asks.retain(|own| *own != group);
                        if on {
                            trigger.asks.push(group);
                        }
                    }
                }
            });
            ui.horizontal(|ui| {
                ui.label(widgets::soft(ui, texts.to_mind));
                let note = widgets::field(ui, id("note"), &mut trigger.note, 360.0, false);
                note.accessible_name(texts.with(&row, texts.to_mind));
                let remove = widgets::lesser(ui, texts.remove).accessible_name(texts.of(texts.remove, &row));
                if remove.clicked() {
                    gone = Some(i);
                }
            });
            ui.separator();
        }
        if let Some(i) = gone {
            page.list.triggers.remove(i);
        }
        ui.horizontal(|ui| {
            if widgets::lesser(ui, texts.more_work).clicked() {
                let taken = |id: &str| page.list.triggers.iter().any(|own| own.id.as_str() == id);
                let id = (1..).map(|n: usize| format!("work {n}")).find(|id| !taken(id)).unwrap_or_default();
                page.list.triggers.push(Trigger {
                    id: id.into(),
                    title: texts.work.to_owned(),
                    asks: vec![SensorGroup::ForwardRadar],
                    note: String::new(),
                    provenance: self.by_this_shop(),
                });
            }
            if widgets::press(ui, self.view.theme, texts.keep_list).clicked() {
                page.list.name = texts.shop_list.to_owned();
                page.list.provenance = self.by_this_shop();
                page.chosen.clear();
                page.changing = false;
                out.push(Command::File(OfFile::KeepTriggers(Box::new(page.list.clone()))));
            }
        });
    }

    /// What is entered here is the shop's own word.
    pub(in crate::screen) fn by_this_shop(&self) -> Provenance {
        Provenance::Measured { by: self.texts().this_shop.to_owned(), date: self.document.today() }
    }

    /// The list of an earlier session, as it was being changed.
    pub(in crate::screen) fn take_up_list(&mut self, text: &str, name: &str) -> Result<(), String> {
        if self.view.list_changed().is_some() {
            return Err(self.texts().finish_list.to_owned());
        }
        let said = |faults: Vec<baywright_files::FileFault>| self.first_sentence(&faults);
        let list = baywright_files::parse_triggers(name, text).map_err(said)?;
        let read = baywright_files::triggers(self.data_folder().as_deref()).map_err(said)?;
        let car = self.answer.arrangement.vehicle.id.clone();
        let page = VisitPage { list, chosen: Vec::new(), changing: true, read, car };
        self.lay(Some(Page::Visit(Box::new(page))));
        Ok(())
    }

    /// Saves the shop's own list, if it is still as it was read: what someone else made of it meanwhile is replaced only by who
    /// was told of that.
    pub(in crate::screen) fn keep_triggers(&mut self, list: &TriggerList) {
        let Some(folder) = self.data_folder() else {
            self.say_wrong(self.texts().no_home);
            return;
        };
        let path = folder.join(TRIGGERS_FILE);
        let kept = match (baywright_files::triggers(Some(&folder)), self.view.page_mut()) {
            (Err(faults), _) => Err(self.first_sentence(&faults)),
            (Ok(there), Some(Page::Visit(page))) if there != page.read => {
                // Once it is told, it is known.
                page.read = there;
                Err(self.texts().list_changed_meanwhile.to_owned())
            }
            (Ok(_), _) => {
                baywright_files::save_triggers(&path, list).map_err(|faults| self.first_sentence(&faults))
            }
        };
        match kept {
            Ok(_) => {
                if let Some(Page::Visit(page)) = self.view.page_mut() {
                    page.read = list.clone();
                }
                self.say(self.texts().saved(&path.display().to_string()));
            }
            Err(why) => {
                if let Some(Page::Visit(page)) = self.view.page_mut() {
                    page.changing = true;
                }
                self.say_wrong(why);
            }
        }
    }
}
