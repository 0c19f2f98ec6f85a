//! The shop's settings: what it says of itself, then every figure with its unit, its default and where that comes from, to be typed.

use baywright_planner::model::ShopFigure;
use baywright_planner::model::validate::limits::Unit;
use baywright_planner::words::shop::ShopTexts;
use egui::{RichText, Ui};

use crate::screen::command::{Command, OfShop};
use crate::screen::forms::field::{Fields, Row};
use crate::screen::forms::typed;
use crate::screen::forms::which::NotRead;
use crate::screen::look::{self, size};
use crate::screen::{Desk, widgets};
use crate::session::shop::{ShopDeed, ShopTrouble};

/// What belongs together: the heading, and the figures under it.
type Group = (fn(&ShopTexts) -> &'static str, &'static [ShopFigure]);

const GROUPS: [Group; 6] = [
    (
        |texts| texts.places,
        &[
            ShopFigure::ByEye,
            ShopFigure::Taped,
            ShopFigure::CarPlanned,
            ShopFigure::CarPlannedTurn,
            ShopFigure::CarTaped,
            ShopFigure::CarTapedTurn,
        ],
    ),
    (|texts| texts.floor, &[ShopFigure::SurveyAge, ShopFigure::LevelReach, ShopFigure::LevelRead]),
    (
        |texts| texts.room,
        &[
            ShopFigure::WorkingRoom,
            ShopFigure::StandRoom,
            ShopFigure::StepOver,
            ShopFigure::DuckUnder,
            ShopFigure::OverCar,
            ShopFigure::IntoWall,
            ShopFigure::DoorRoll,
        ],
    ),
    (
        |texts| texts.marks,
        &[
            ShopFigure::MarkLaid,
            ShopFigure::MarkAgrees,
            ShopFigure::OverMark,
            ShopFigure::TargetOff,
            ShopFigure::ToleranceShare,
        ],
    ),
    (
        |texts| texts.instruments,
        &[
            ShopFigure::TapeRead,
            ShopFigure::TapePerMetre,
            ShopFigure::TapeWithin,
            ShopFigure::LaserPerMetre,
            ShopFigure::LineFound,
            ShopFigure::PlumbFound,
            ShopFigure::WheelFound,
            ShopFigure::CamberKnown,
            ShopFigure::PoleRead,
            ShopFigure::OnFaceLaid,
            ShopFigure::SquareLaid,
            ShopFigure::AngleLaid,
        ],
    ),
    (
        |texts| texts.faults,
        &[
            ShopFigure::FloorUsual,
            ShopFigure::ThrustUsual,
            ShopFigure::CarCreeps,
            ShopFigure::BubbleSet,
            ShopFigure::BracketUsual,
            ShopFigure::FaultTimes,
        ],
    ),
];

/// Between one figure, with what is said of it, and the next, px.
const GAP_PX: f32 = 7.0;

impl Desk {
    pub(super) fn shop_page(&mut self, ui: &mut Ui, out: &mut Vec<Command>) {
        let texts = self.view.locale.language.shop();
        ui.add(egui::Label::new(texts.intro).wrap());
        self.shop_file(ui, texts);
        self.shop_trouble(ui, texts, out);
        if self.shop.is_unread() {
            return;
        }
        self.shop_steps(ui, texts, out);
        // Taken out while the page is drawn, as for every form.
        let mut fields = std::mem::take(&mut self.fields).leading_on(true);
        ui.spacing_mut().item_spacing.y = 2.0;
        self.shop_face(ui, &mut fields, out);
        for (heading, figures) in GROUPS {
            ui.add_space(8.0);
            ui.label(RichText::new(heading(texts)).font(look::bold(size::BODY)));
            for figure in figures {
                self.shop_figure(ui, &mut fields, *figure, out);
            }
        }
        self.shop_instruments(ui, &mut fields, out);
        self.fields = fields.leading_on(false);
    }

    fn shop_file(&self, ui: &mut Ui, texts: &ShopTexts) {
        if let Some(path) = self.shop.path() {
            let said = texts.kept_in(&path.display().to_string());
            ui.add(egui::Label::new(widgets::soft(ui, said)).wrap());
        }
    }

    /// Why they are not on disk as they are here, and what can be done about it.
    fn shop_trouble(&self, ui: &mut Ui, texts: &ShopTexts, out: &mut Vec<Command>) {
        let Some(trouble) = self.shop.trouble() else { return };
        let (said, ways): (Vec<String>, &[(&str, OfShop)]) = match trouble {
            ShopTrouble::Unread(faults) => {
                let mut said = vec![texts.not_read.to_owned()];
                said.extend(self.sentences(faults));
                (said, &[(texts.read_again, OfShop::ReadAgain)])
            }
            ShopTrouble::ChangedOnDisk => (
                vec![texts.changed_on_disk.to_owned()],
                &[(texts.take_theirs, OfShop::ReadAgain), (texts.save_over, OfShop::Save(true))],
            ),
            ShopTrouble::Gone => (
                vec![texts.gone_from_disk.to_owned()],
                &[(texts.save_there_again, OfShop::Save(true)), (texts.drop_them, OfShop::ReadAgain)],
            ),
            ShopTrouble::NotSaved(faults) => (
                vec![texts.not_saved(&self.first_sentence(faults))],
                &[(texts.save_again, OfShop::Save(false)), (texts.drop_them, OfShop::ReadAgain)],
            ),
            ShopTrouble::NoPlace => (vec![texts.nowhere.to_owned()], &[(texts.drop_them, OfShop::ReadAgain)]),
        };
        let colour = look::colour(self.view.theme.palette().stops);
        for sentence in said {
            ui.add(egui::Label::new(RichText::new(widgets::unbroken(sentence)).color(colour)).wrap());
        }
        ui.horizontal(|ui| {
            for (text, asked) in ways {
                if widgets::press(ui, self.view.theme, *text).clicked() {
                    out.push(Command::Shop(asked.clone()));
                }
            }
        });
    }

    /// One step back or forth, and all the way back.
    fn shop_steps(&self, ui: &mut Ui, texts: &ShopTexts, out: &mut Vec<Command>) {
        ui.horizontal(|ui| {
            let steps = [(texts.undo, OfShop::Undo), (texts.redo, OfShop::Redo)];
            for ((text, asked), deed) in steps.into_iter().zip(self.shop.steps()) {
                let button = ui.add_enabled_ui(deed.is_some(), |ui| widgets::lesser(ui, text)).inner;
                let button = match deed {
                    Some(deed) => button.on_hover_text(self.shop_deed(texts, deed)),
                    None => button,
                };
                if button.clicked() {
                    out.push(Command::Shop(asked));
                }
            }
            let any = ShopFigure::ALL.iter().any(|own| self.shop.shop().is_own(*own));
            if ui.add_enabled_ui(any, |ui| widgets::lesser(ui, texts.all_to_default)).inner.clicked() {
                out.push(Command::Shop(OfShop::SetBack));
            }
        });
    }

    fn shop_deed(&self, texts: &ShopTexts, deed: &ShopDeed) -> String {
        match deed {
            ShopDeed::Set(figure, value) => texts.set(*figure, &self.view.locale.shop_value(*figure, *value)),
            ShopDeed::SetBack => texts.all_to_default.to_owned(),
            ShopDeed::Say(part) => self.face_label(part).to_owned(),
            ShopDeed::Instrument(name) => self.view.locale.language.instruments().set(name.as_str()),
            ShopDeed::NoInstrument(name) => self.view.locale.language.instruments().gone(name.as_str()),
        }
    }

    /// One figure: its field, and under it its reason and its source.
    fn shop_figure(&self, ui: &mut Ui, fields: &mut Fields, figure: ShopFigure, out: &mut Vec<Command>) {
        let texts = self.view.locale.language.shop();
        let shop = self.shop.shop();
        let shown = self.view.locale.shop_value(figure, shop.get(figure));
        let row = Row { label: texts.label(figure), hint: "", of: "shop" };
        let read = |text: &str| {
            let value = self.shop_read(figure, text)?;
            let forms = self.view.locale.language.forms();
            self.shop
                .may_be(figure, value)
                .map_err(|fault| NotRead::Wrong(forms.wrong(&fault, self.lengths())))?;
            Ok::<f64, NotRead>(value)
        };
        if let Some(value) = fields.row(ui, &row, &shown, read) {
            out.push(Command::Shop(OfShop::Set(figure, value)));
        }
        let is_own = shop.is_own(figure);
        let default = self.view.locale.shop_value(figure, figure.default_value());
        let about = texts.about(figure, is_own.then_some(default.as_str()));
        let text =
            RichText::new(widgets::unbroken(about)).size(size::LEAST).color(ui.visuals().weak_text_color());
        let about = egui::Label::new(text).wrap();
        if is_own {
            ui.horizontal(|ui| {
                let back = widgets::lesser(ui, texts.to_default);
                if back.accessible_name(texts.default_of(figure)).clicked() {
                    out.push(Command::Shop(OfShop::Set(figure, figure.default_value())));
                }
                ui.add(about);
            });
        } else {
            ui.add(about);
        }
        ui.add_space(GAP_PX);
    }

    /// What was typed, in the file's unit.
    fn shop_read(&self, figure: ShopFigure, text: &str) -> Result<f64, NotRead> {
        let wrong = |said: String| NotRead::Wrong(said);
        match figure.range().unit {
            Unit::Millimetres => self.read_length(text),
            Unit::Degrees => typed::degrees(text).ok_or_else(|| wrong(self.texts().no_angle(text))),
            // "1,000" days are a thousand.
            Unit::Days => typed::whole(text)
                .ok_or_else(|| wrong(self.view.locale.language.shop().no_whole_number(text))),
            Unit::None | Unit::Gigahertz | Unit::Dbsm => {
                let number = text.trim().replace(',', ".").parse().ok().filter(|own: &f64| own.is_finite());
                number.ok_or_else(|| wrong(self.view.locale.language.shop().no_number(text)))
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_figure_has_its_row() {
        let mut shown: Vec<ShopFigure> =
            GROUPS.iter().flat_map(|(_, figures)| figures.iter().copied()).collect();
        shown.sort();
        assert_eq!(shown, ShopFigure::ALL);
    }
}
