//! The menu of what is in hand: on the right button, the Menu key, Shift+F10.

use baywright_planner::Subject;
use baywright_planner::edit::Edit;
use baywright_planner::geometry::angle;
use egui::{LayerId, Order, Popup, PopupAnchor, PopupKind, Ui};

use super::Desk;
use super::command::{Command, OfBay, OfView};

impl Desk {
    /// The menu, where it was asked for.
    pub(super) fn hand_menu(&mut self, ui: &Ui, out: &mut Vec<Command>) {
        let Some(at) = self.view.menu else { return };
        let ctx = ui.ctx();
        let mut open = true;
        let id = egui::Id::unique("menu of what is in hand");
        // The keyboard goes into it as it opens, and stays in it.
        let is_new = ctx.read_response(id).is_none();
        let layer = LayerId::new(Order::Foreground, id);
        let texts = self.view.locale.language.hand();
        Popup::new(id, ctx.clone(), PopupAnchor::Position(at), layer)
            .kind(PopupKind::Menu)
            .accessible_name(texts.menu)
            .layout(egui::Layout::top_down_justified(egui::Align::Min))
            .style(egui::containers::menu::menu_style)
            .open_bool(&mut open)
            .show(|ui| {
                ui.set_min_width(220.0);
                if is_new {
                    ui.memory_mut(|memory| {
                        if let Some(focused) = memory.focused() {
                            memory.surrender_focus(focused);
                        }
                    });
                }
                self.entries(ui, out);
            });
        if !open {
            out.push(Command::View(OfView::Menu(None)));
        }
    }

    fn entries(&self, ui: &mut Ui, out: &mut Vec<Command>) {
        let texts = self.view.locale.language.hand();
        let mut entry = |ui: &mut Ui, name: &str, asked: &mut dyn FnMut(&mut Vec<Command>)| {
            if ui.button(name).clicked() {
                asked(out);
                ui.close();
            }
        };
        let one = |command: Command| move |out: &mut Vec<Command>| out.push(command.clone());
        let things = self.things_in_hand();
        let is_movable = self.view.chosen().any(|own| {
            let (arrangement, scene) = (&self.answer.arrangement, &self.answer.assessment.scene);
            baywright_planner::hand::pose_of(arrangement, scene, own)
                .is_some_and(|pose| self.placed(own, pose).is_some())
        });
        if is_movable {
            for (name, by) in [(texts.turn_left, 90.0), (texts.turn_right, -90.0)] {
                entry(ui, name, &mut one(Command::Bay(OfBay::Turn(angle::radians(by)))));
            }
        }
        if !things.is_empty() {
            entry(ui, texts.copy_beside, &mut one(Command::Bay(OfBay::Copy)));
            entry(ui, texts.copy_out, &mut one(Command::Bay(OfBay::Clip { cut: false })));
            entry(ui, texts.cut, &mut one(Command::Bay(OfBay::Clip { cut: true })));
            entry(ui, texts.remove, &mut one(Command::Bay(OfBay::Remove)));
        }
        if let ([thing], false) = (things.as_slice(), self.view.are_several()) {
            let edit = Edit::Describe {
                thing: thing.id.clone(),
                kind: thing.kind,
                material: thing.material,
                metal: thing.metal,
                known: thing.place.known,
                effort: thing.effort,
                locked: !thing.locked,
            };
            entry(ui, texts.rename, &mut one(Command::View(OfView::ToFields)));
            let name = if thing.locked { texts.unlock } else { texts.lock };
            entry(ui, name, &mut one(Command::Bay(OfBay::Edit(edit))));
        }
        if !things.is_empty() || is_movable {
            ui.separator();
        }
        let all: Vec<Subject> =
            self.answer.arrangement.own_things().map(|own| Subject::Thing(own.id.clone())).collect();
        entry(ui, texts.choose_all, &mut one(Command::View(OfView::SelectAll(all))));
        entry(ui, texts.show_all, &mut one(Command::View(OfView::Camera(None))));
        ui.label(super::widgets::soft(ui, texts.paste_hint));
    }
}
