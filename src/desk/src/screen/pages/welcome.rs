//! The first start: this is an invented shop, and where one's own begins.

use egui::{Label, RichText, Ui};

use crate::screen::command::{Begin, Command, OfCar, OfFile};
use crate::screen::look::{self, size};
use crate::screen::page::{OpenPage, Page};
use crate::screen::{Desk, widgets};

impl Desk {
    pub(super) fn welcome_page(&self, ui: &mut Ui, out: &mut Vec<Command>) {
        let texts = self.texts();
        ui.add(Label::new(texts.welcome_about).wrap());
        let draw_bay = (texts.draw_my_bay, Command::File(OfFile::BeginBay));
        let enter_car = (texts.enter_my_car, Command::Car(OfCar::Begin(Begin::New)));
        let open_bay = (
            texts.open_my_bay,
            Command::Page(Some(Page::Open(OpenPage { focus: true, ..OpenPage::default() }))),
        );
        let look_round = (texts.look_round, Command::Page(None));
        for (who, about, ways) in [
            (texts.who_aims, texts.who_aims_how, vec![enter_car, open_bay]),
            (texts.who_plans, texts.who_plans_how, vec![draw_bay]),
            (texts.who_shows, texts.who_shows_how, vec![look_round]),
        ] {
            ui.add_space(10.0);
            ui.label(RichText::new(who).font(look::bold(size::LEAD)));
            ui.add(Label::new(about).wrap());
            ui.horizontal_wrapped(|ui| {
                for (text, leads_to) in ways {
                    if widgets::offer(ui, self.view.theme, text).clicked() {
                        out.push(Command::Page(None));
                        out.push(leads_to);
                    }
                }
            });
        }
    }
}
