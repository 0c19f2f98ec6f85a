//! All cars that there are, with search by name, class, sensor and source.

use baywright_files::Profile;
use egui::{RichText, Ui};

use crate::screen::command::{Begin, Command, OfBay, OfCar};
use crate::screen::look::{self, size};
use crate::screen::{Desk, widgets};

impl Desk {
    pub(super) fn cars_page(
        &self,
        ui: &mut Ui,
        sought: &mut String,
        focus: &mut bool,
        out: &mut Vec<Command>,
    ) {
        let texts = self.texts();
        let forms = self.view.locale.language.forms();
        let label = ui.label(widgets::soft(ui, texts.search));
        let id = egui::Id::unique("sought car");
        widgets::field(ui, id, sought, f32::INFINITY, std::mem::take(focus)).labelled_by(label.id);
        ui.add_space(6.0);
        let mut any = false;
        for car in self.document.cars() {
            let about = self.about(car);
            if !widgets::is_like(sought, &format!("{} {about}", car.vehicle.name)) {
                continue;
            }
            any = true;
            let name = &car.vehicle.name;
            ui.label(RichText::new(name).font(look::bold(size::BODY)));
            ui.add(egui::Label::new(widgets::soft(ui, about)).wrap());
            ui.horizontal(|ui| {
                let id = car.vehicle.id.clone();
                let choose = widgets::offer(ui, self.view.theme, texts.choose_it);
                if choose.accessible_name(texts.of(texts.choose_it, name)).clicked() {
                    out.push(Command::Bay(OfBay::ChooseCar(id.clone())));
                    out.push(Command::Page(None));
                }
                for (how, text) in [(Begin::Change, forms.change_it), (Begin::Copy, forms.copy_it)] {
                    if widgets::lesser(ui, text).accessible_name(texts.of(text, name)).clicked() {
                        out.push(Command::Bay(OfBay::ChooseCar(id.clone())));
                        out.push(Command::Page(None));
                        out.push(Command::Car(OfCar::Begin(how)));
                    }
                }
            });
            ui.add_space(8.0);
        }
        if !any {
            ui.label(texts.no_car_found);
        }
        for fault in self.document.car_faults() {
            let sentence = self.view.locale.language.file_fault(fault);
            ui.add(egui::Label::new(widgets::soft(ui, sentence)).wrap());
        }
    }

    /// Class, sensors, aimings and source of a car, in words.
    fn about(&self, car: &Profile) -> String {
        let forms = self.view.locale.language.forms();
        let words = self.words();
        let own = &car.vehicle;
        let sensors: Vec<&str> = own.sensors.iter().map(|sensor| sensor.id.as_str()).collect();
        let aimings: Vec<&str> = own.aimings.iter().map(|aiming| aiming.name.as_str()).collect();
        let source = words.provenance_sentence(&own.provenance);
        forms.about_car(own.class, &sensors, &aimings, &source, &car.file)
    }
}
