//! What the shop says of itself to a customer, to be typed: its name, its picture, how long each step takes it.

use baywright_planner::model::WorkStep;
use egui::{RichText, Ui};

use crate::screen::command::{Command, OfFile, OfShop};
use crate::screen::forms::field::{Fields, Row};
use crate::screen::forms::which::NotRead;
use crate::screen::look::{self, size};
use crate::screen::{Desk, widgets};
use crate::session::shop::FacePart;

impl Desk {
    pub(super) fn shop_face(&self, ui: &mut Ui, fields: &mut Fields, out: &mut Vec<Command>) {
        let texts = self.view.locale.language.customer();
        let face = self.shop.face();
        ui.add_space(8.0);
        ui.label(RichText::new(texts.face).font(look::bold(size::BODY)));
        ui.add(egui::Label::new(widgets::soft(ui, texts.face_about)).wrap());
        let mut row =
            |ui: &mut Ui, row: &Row<'_>, shown: &str, read: &dyn Fn(&str) -> Result<FacePart, NotRead>| {
                let checked = |text: &str| {
                    let part = read(text)?;
                    let forms = self.view.locale.language.forms();
                    self.shop
                        .may_say(part.clone())
                        .map_err(|fault| NotRead::Wrong(forms.wrong(&fault, self.lengths())))?;
                    Ok::<FacePart, NotRead>(part)
                };
                out.extend(fields.row(ui, row, shown, checked).map(|part| Command::Shop(OfShop::Say(part))));
            };
        let said = |text: &str| Some(text.trim().to_owned()).filter(|text| !text.is_empty());
        let of = "shop";
        let name = face.name.as_deref().unwrap_or_default();
        row(ui, &Row { label: texts.name, hint: "", of }, name, &|text| Ok(FacePart::Name(said(text))));
        let picture = face.picture.as_deref().unwrap_or_default();
        let label = Row { label: texts.picture, hint: texts.picture_hint, of };
        row(ui, &label, picture, &|text| Ok(FacePart::Picture(said(text))));
        let mut looks = false;
        ui.with_layout(egui::Layout::right_to_left(egui::Align::Min), |ui| {
            // Under the field's end, not under the bar that the page is scrolled by.
            ui.add_space(10.0);
            let look = self.view.locale.language.hand().look_for_picture;
            looks = !self.files.is_open() && widgets::lesser(ui, look).clicked();
        });
        for step in WorkStep::ALL {
            let shown = face
                .minutes(step)
                .map_or_else(String::new, |own| self.region().number(own, usize::from(own != own.round())));
            let label = Row { label: texts.minutes_of(step), hint: texts.minutes_hint, of };
            row(ui, &label, &shown, &|text| {
                let typed = text.trim().replace(',', ".");
                let minutes = match typed.as_str() {
                    "" => None,
                    typed => {
                        let read = typed.parse().ok().filter(|own: &f64| own.is_finite());
                        Some(read.ok_or_else(|| NotRead::Wrong(texts.no_minutes(text)))?)
                    }
                };
                Ok(FacePart::Minutes(step, minutes))
            });
        }
        if looks {
            out.push(Command::File(OfFile::AskShopPicture));
        }
    }

    /// What a part of it is called.
    pub(super) fn face_label(&self, part: &FacePart) -> &'static str {
        let texts = self.view.locale.language.customer();
        match part {
            FacePart::Name(_) => texts.name,
            FacePart::Picture(_) => texts.picture,
            FacePart::Minutes(step, _) => texts.minutes_of(*step),
        }
    }
}
