//! The panel on the left: what is in the bay, and the figures of what is in hand.

use baywright_planner::Subject;
use baywright_planner::words::Words;
use egui::{Button, CornerRadius, Rect, RichText, ScrollArea, Sense, Stroke, StrokeKind, Ui, Vec2};

use super::Desk;
use super::command::Command;
use super::look::{self, size};
use crate::shelf;

/// Height of a row, px.
const ROW_PX: f32 = 38.0;
/// The list takes at most this share of the panel while something is in hand.
const LIST_SHARE: f32 = 0.42;

/// One row: what it is, its name, what is said of it.
struct Entry {
    subject: Subject,
    name: String,
    note: String,
}

impl Desk {
    pub(super) fn list(&mut self, ui: &mut Ui, out: &mut Vec<Command>) {
        let texts = self.texts();
        let theme = self.view.theme;
        ui.horizontal(|ui| {
            ui.label(RichText::new(texts.in_this_bay).font(look::bold(size::BODY)));
            ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| {
                let beam = look::colour(theme.palette().beam);
                let text = RichText::new(texts.add).font(look::bold(size::SMALL)).color(beam);
                egui::containers::menu::MenuButton::from_button(Button::new(text).frame(false)).ui(
                    ui,
                    |ui| {
                        ScrollArea::vertical().max_height(420.0).show(ui, |ui| {
                            for kind in shelf::kinds() {
                                if ui.button(self.words().kind_of_thing(kind)).clicked() {
                                    out.push(Command::Add(kind));
                                    ui.close();
                                }
                            }
                        });
                    },
                );
            });
        });
        let entries = self.entries();
        let all = entries.len() as f32 * ROW_PX;
        let room = ui.available_height();
        let most = if self.view.selected.is_some() { room * LIST_SHARE } else { room };
        ScrollArea::vertical()
            .id_salt("in this bay")
            .max_height(most.min(all))
            .auto_shrink([false, false])
            .show_rows(ui, ROW_PX, entries.len(), |ui, rows| {
                ui.spacing_mut().item_spacing.y = 0.0;
                for entry in entries.get(rows).unwrap_or_default() {
                    self.row(ui, entry, out);
                }
            });
        if self.view.selected.is_some() {
            ui.add_space(4.0);
            ui.separator();
            ScrollArea::vertical()
                .id_salt("figures")
                .auto_shrink([false, false])
                .show(ui, |ui| self.form(ui, out));
        }
    }

    fn row(&self, ui: &mut Ui, entry: &Entry, out: &mut Vec<Command>) {
        let palette = self.view.theme.palette();
        let selected = self.view.selected.as_ref() == Some(&entry.subject);
        let hovered = self.view.hovered.as_ref() == Some(&entry.subject);
        let (rect, response) =
            ui.allocate_exact_size(Vec2::new(ui.available_width(), ROW_PX), Sense::click());
        let own = rect.shrink2(Vec2::new(0.0, 1.0));
        let radius = CornerRadius::same(3);
        if selected {
            ui.painter().rect(
                own,
                radius,
                look::colour(palette.sheet),
                Stroke::new(1.6, look::colour(palette.beam)),
                StrokeKind::Inside,
            );
        } else if hovered || response.hovered() {
            ui.painter().rect_filled(own, radius, look::colour(palette.beam.faded(0.1)));
        }
        if response.has_focus() {
            ui.painter().rect_stroke(
                own,
                radius,
                Stroke::new(2.0, look::colour(palette.beam)),
                StrokeKind::Inside,
            );
        }
        let inner = Rect::from_min_max(own.min + Vec2::new(8.0, 3.0), own.max - Vec2::new(6.0, 2.0));
        let line = |text: &str, size: f32, bold: bool, colour| {
            let font =
                if bold { look::bold(size) } else { look::letters(size, baywright_drawing::Weight::Regular) };
            let mut job = egui::text::LayoutJob::simple_singleline(text.to_owned(), font, colour);
            job.wrap = egui::text::TextWrapping::truncate_at_width(inner.width());
            ui.painter().layout_job(job)
        };
        let (ink, soft) = (look::colour(palette.ink), look::colour(palette.soft));
        let name = line(&entry.name, size::BODY, selected, ink);
        let note = line(&entry.note, size::LEAST, false, soft);
        let below = name.size().y;
        ui.painter().galley(inner.min, name, ink);
        ui.painter().galley(inner.min + Vec2::new(0.0, below), note, soft);
        response.widget_info(|| {
            let told = format!("{}, {}", entry.name, entry.note);
            egui::WidgetInfo::selected(egui::Role::ListBoxOption, true, selected, told)
        });
        if response.hovered() && !hovered {
            out.push(Command::Hover(Some(entry.subject.clone())));
        }
        if response.clicked() {
            out.push(Command::Select((!selected).then(|| entry.subject.clone())));
        }
    }

    /// Everything that can be pointed at, in one order: car, stands, things, doors, what belongs to floor and aiming.
    fn entries(&self) -> Vec<Entry> {
        let words = self.words();
        let arrangement = &self.answer.arrangement;
        let bay = &arrangement.bay;
        let units = words.units();
        let bare = |mm: f64| units.bare(mm);
        let car = Entry {
            subject: Subject::Car,
            name: self.texts().car.to_owned(),
            note: format!(
                "{} \u{d7} {}",
                bare(arrangement.vehicle.length),
                words.length(arrangement.vehicle.width)
            ),
        };
        let stands = arrangement.aiming.placements.iter().map(|placement| {
            let subject = Subject::Stand(placement.id.clone());
            Entry { name: capital(&words.bare_subject(&subject)), subject, note: words.stand_off(placement) }
        });
        let things = bay.things.iter().map(|thing| Entry {
            subject: Subject::Thing(thing.id.clone()),
            name: capital(thing.id.as_str()),
            note: thing_note(&words, thing),
        });
        let openings = bay.openings.iter().map(|opening| Entry {
            subject: Subject::Opening(opening.id.clone()),
            name: capital(opening.id.as_str()),
            note: self
                .texts()
                .opening_note(opening, bay.walls.get(opening.wall).map(|wall| wall.id.as_str())),
        });
        let features = bay.floor_features.iter().map(|feature| Entry {
            subject: Subject::FloorFeature(feature.id.clone()),
            name: capital(feature.id.as_str()),
            note: self.texts().floor_feature(feature.kind).to_owned(),
        });
        let runways = bay.runways.iter().map(|runway| Entry {
            subject: Subject::Runway(runway.id.clone()),
            name: capital(runway.id.as_str()),
            note: words.runway_height(runway.top),
        });
        let zones = arrangement.aiming.zones.iter().map(|zone| Entry {
            subject: Subject::Zone(zone.id.clone()),
            name: capital(zone.id.as_str()),
            note: words.keep_clear(zone.excludes, Some((zone.span.bottom(), zone.span.top()))),
        });
        let free = bay.keep_free.iter().map(|own| Entry {
            subject: Subject::KeepFree(own.id.clone()),
            name: capital(own.id.as_str()),
            note: self.texts().local_rules.to_owned(),
        });
        std::iter::once(car)
            .chain(stands)
            .chain(things)
            .chain(openings)
            .chain(features)
            .chain(runways)
            .chain(zones)
            .chain(free)
            .collect()
    }
}

/// Material and size of a thing.
fn thing_note(words: &Words<'_>, thing: &baywright_planner::model::Thing) -> String {
    use baywright_planner::model::Shape;
    let material = words.material(thing.material);
    let units = words.units();
    match &thing.shape {
        Shape::Rectangle { length, width } => {
            format!("{material}, {} \u{d7} {}", units.bare(*length), words.length(*width))
        }
        Shape::Round { diameter } => format!("{material}, \u{d8} {}", words.length(*diameter)),
        Shape::Outline(_) => {
            let size = thing.outline.bounds().size();
            format!("{material}, {} \u{d7} {}", units.bare(size.x), words.length(size.y))
        }
    }
}

pub(super) fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

#[cfg(test)]
mod tests {
    #[test]
    fn capitals() {
        assert_eq!(super::capital("tool cabinet"), "Tool cabinet");
        assert_eq!(super::capital(""), "");
        assert_eq!(super::capital("\u{448}каф"), "Шкаф");
    }
}
