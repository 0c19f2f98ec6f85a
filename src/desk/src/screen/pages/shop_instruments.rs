//! The shop's own instruments, to be listed: what each is, when its check is over, what its readings count for.

use baywright_planner::model::{Id, Instrument, InstrumentFigure, InstrumentKind, MOST_INSTRUMENTS};
use baywright_planner::words::instruments::InstrumentTexts;
use egui::{RichText, Ui};
use jiff::civil::Date;

use crate::screen::command::{Command, OfShop};
use crate::screen::forms::car::car_form::part;
use crate::screen::forms::field::{Fields, Row};
use crate::screen::forms::rows::choice_of;
use crate::screen::forms::typed;
use crate::screen::forms::which::NotRead;
use crate::screen::look::{self, size};
use crate::screen::{Desk, widgets};

impl Desk {
    pub(super) fn shop_instruments(&self, ui: &mut Ui, fields: &mut Fields, out: &mut Vec<Command>) {
        let texts = self.view.locale.language.instruments();
        let list = self.shop.instruments();
        ui.add_space(8.0);
        ui.label(RichText::new(texts.heading).font(look::bold(size::BODY)));
        let about = if list.is_empty() { texts.none_yet } else { texts.about };
        ui.add(egui::Label::new(widgets::soft(ui, about)).wrap());
        for (nth, own) in list.iter().enumerate() {
            let is_overdue = self.document.today().is_some_and(|day| own.overdue_on(day).is_some());
            let head = texts.headed(own.name.as_str(), own.kind, is_overdue);
            // By its place: a name that is typed anew folds nothing away.
            // One of which nothing was said yet is open: what it is comes next.
            let is_new = *own == Instrument::new(own.name.clone(), own.kind);
            part(ui, &head, &format!("instrument {nth}"), is_new, |ui| {
                self.shop_instrument(ui, fields, own, out);
            });
        }
        let has_room = list.len() < MOST_INSTRUMENTS;
        if ui.add_enabled_ui(has_room, |ui| widgets::lesser(ui, texts.add)).inner.clicked() {
            let kind = InstrumentKind::SteelTape;
            let is_taken = |name: &str| list.iter().any(|own| own.name.as_str() == name);
            let name = Id::free(texts.new_name(kind), " ", is_taken);
            let own = Box::new(Instrument::new(name, kind));
            out.push(Command::Shop(OfShop::Have { instead_of: None, own }));
        }
    }

    fn shop_instrument(&self, ui: &mut Ui, fields: &mut Fields, own: &Instrument, out: &mut Vec<Command>) {
        let texts = self.view.locale.language.instruments();
        let of = format!("instrument {}", own.name);
        let mut now = own.clone();
        // First what it is: what else is asked of it follows.
        let kinds = InstrumentKind::ALL;
        if let Some(kind) = choice_of(ui, fields, (texts.kind, &of), &own.kind, &kinds, |kind| {
            texts.kind_of(*kind).to_owned()
        }) {
            now = self.of_kind(own, kind);
        }
        let mut row = |ui: &mut Ui,
                       (label, hint): (&str, &str),
                       shown: &str,
                       read: &dyn Fn(&str) -> Result<Instrument, NotRead>| {
            let checked = |text: &str| {
                let read = read(text)?;
                let forms = self.view.locale.language.forms();
                let may_be = self.shop.may_have(Some(&own.name), read.clone());
                may_be.map_err(|fault| NotRead::Wrong(forms.wrong(&fault, self.lengths())))?;
                Ok::<Instrument, NotRead>(read)
            };
            if let Some(read) = fields.row(ui, &Row { label, hint, of: &of }, shown, checked) {
                now = read;
            }
        };
        row(ui, (texts.name, ""), own.name.as_str(), &|text| {
            Ok(Instrument { name: Id::from(text.trim()), ..own.clone() })
        });
        let said = |text: &str| Some(text.trim().to_owned()).filter(|text| !text.is_empty());
        row(ui, (texts.class, texts.class_hint), own.class.as_deref().unwrap_or_default(), &|text| {
            Ok(Instrument { class: said(text), ..own.clone() })
        });
        row(ui, (texts.serial, ""), own.serial.as_deref().unwrap_or_default(), &|text| {
            Ok(Instrument { serial: said(text), ..own.clone() })
        });
        let day = |own: Option<Date>| own.map_or_else(String::new, |own| own.to_string());
        row(ui, (texts.checked, texts.day_hint), &day(own.checked), &|text| {
            Ok(Instrument { checked: read_day(texts, text)?, ..own.clone() })
        });
        row(ui, (texts.due, texts.day_hint), &day(own.due), &|text| {
            Ok(Instrument { due: read_day(texts, text)?, ..own.clone() })
        });
        let figures = InstrumentFigure::ALL.into_iter().filter(|figure| own.kind.has(*figure));
        for figure in figures {
            let shown =
                own.figure(figure).map_or_else(String::new, |value| self.instrument_value(figure, value));
            let bare = own.clone().with(figure, None).counts(figure, &self.shop.shop());
            let hint = texts.stands_in(figure, &self.instrument_value(figure, bare));
            row(ui, (texts.figure(own.kind, figure), &hint), &shown, &|text| {
                let value = match text.trim() {
                    "" => None,
                    text => Some(self.read_instrument_value(figure, text)?),
                };
                Ok(own.clone().with(figure, value))
            });
            let soft = RichText::new(widgets::unbroken(hint)).size(size::LEAST);
            ui.label(soft.color(ui.visuals().weak_text_color()));
        }
        if now != *own {
            let instead_of = Some(own.name.clone());
            out.push(Command::Shop(OfShop::Have { instead_of, own: Box::new(now) }));
        }
        if widgets::lesser(ui, texts.remove).clicked() {
            out.push(Command::Shop(OfShop::HaveNot(own.name.clone())));
        }
    }

    /// The same of another kind. One that nobody gave a name goes by that of its kind.
    fn of_kind(&self, own: &Instrument, kind: InstrumentKind) -> Instrument {
        let texts = self.view.locale.language.instruments();
        let list = self.shop.instruments();
        let is_taken = |name: &str| list.iter().any(|own| own.name.as_str() == name);
        let is_unnamed = own.name.stem() == texts.new_name(own.kind);
        let name = if is_unnamed { Id::free(texts.new_name(kind), " ", is_taken) } else { own.name.clone() };
        Instrument { name, kind, ..own.clone() }
    }

    fn instrument_value(&self, figure: InstrumentFigure, value: f64) -> String {
        match figure {
            InstrumentFigure::Reading | InstrumentFigure::PerMetre => self.view.locale.length_to_type(value),
            InstrumentFigure::Warmth => self.region().number(value, usize::from(value != value.round())),
        }
    }

    fn read_instrument_value(&self, figure: InstrumentFigure, text: &str) -> Result<f64, NotRead> {
        match figure {
            InstrumentFigure::Reading | InstrumentFigure::PerMetre => self.read_length(text),
            InstrumentFigure::Warmth => typed::bare_number(text)
                .ok_or_else(|| NotRead::Wrong(self.view.locale.language.shop().no_number(text))),
        }
    }
}

/// A day, or none.
fn read_day(texts: &InstrumentTexts, text: &str) -> Result<Option<Date>, NotRead> {
    match text.trim() {
        "" => Ok(None),
        text => text.parse().map(Some).map_err(|_| NotRead::Wrong(texts.not_a_day.to_owned())),
    }
}
