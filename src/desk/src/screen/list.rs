//! The panel on the left: what is in the bay, and the figures of what is in hand.

use baywright_planner::Subject;
use baywright_planner::hand::kept_ends;
use baywright_planner::words::screen::Screen;
use baywright_planner::words::{Words, sentence_start};
use egui::{Button, CornerRadius, Key, Rect, RichText, ScrollArea, Sense, Stroke, StrokeKind, Ui, Vec2};

use super::command::{Command, OfBay, OfView, Part};
use super::look::{self, size};
use super::{Desk, in_sight, widgets};
use crate::screen::shelf;

/// Height of a row, px.
const ROW_PX: f32 = 38.0;
/// The list takes at most this share of the panel while something is in hand, and what its figures leave over.
const LIST_SHARE: f32 = 0.42;

/// What the figures of what is in hand leave of the panel's room for the list, px.
#[derive(Clone, Copy, Debug)]
struct Left {
    of_room: f32,
    height: f32,
}

fn left_over() -> egui::Id {
    egui::Id::unique("left over for the list")
}

/// So much is left free below the figures, px: a message beside a field moves nothing.
const UNFOLDS_PX: f32 = 48.0;

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
            let is_hall = !self.answer.arrangement.bay.bays.is_empty();
            let rooms = self.view.locale.language.rooms();
            let where_it_is = if is_hall { rooms.in_this_hall } else { texts.in_this_bay };
            ui.label(RichText::new(where_it_is).font(look::bold(size::BODY)));
            ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| {
                let beam = look::colour(theme.palette().beam);
                let text = RichText::new(texts.add).font(look::bold(size::SMALL)).color(beam);
                let add = egui::containers::menu::MenuButton::from_button(Button::new(text).frame(false));
                let (add, _) = add.ui(ui, |ui| {
                    let most = in_sight::menu_height(ui);
                    let area = ScrollArea::vertical().max_height(most).min_scrolled_height(most);
                    area.show(ui, |ui| {
                        ui.horizontal_top(|ui| {
                            let kinds = shelf::kinds()
                                .map(|kind| (self.words().kind_of_thing(kind), OfBay::Add(kind)));
                            column(ui, kinds.collect(), out);
                            column(ui, self.parts(), out);
                            column(ui, self.sets(), out);
                        });
                        in_sight::follow(ui);
                    });
                });
                widgets::ringed(ui, add);
            });
        });
        self.bays_in_hall(ui, out);
        self.search_field(ui, out);
        let subjects = self.sought();
        let all = subjects.len() as f32 * ROW_PX;
        let room = ui.available_height();
        let share = room * LIST_SHARE;
        // Before the area is measured: it counts so many rows and what lies between them.
        let between = std::mem::take(&mut ui.spacing_mut().item_spacing.y);
        let is_new = self.is_newly_chosen(ui);
        if is_new {
            ui.data_mut(|data| data.remove::<Left>(left_over()));
        }
        // It grows once, when the figures' height is known, and gives back what they come to need.
        let left: Option<Left> = ui.data(|data| data.get_temp(left_over()));
        let left = left.filter(|left| left.of_room == room).map(|left| left.height);
        let most = if self.view.selected.is_some() { left.unwrap_or(share).max(share) } else { room };
        let own = self.view.selected.as_ref().filter(|_| is_new);
        let chosen = own.and_then(|chosen| subjects.iter().position(|own| own == chosen));
        let area = ScrollArea::vertical().id_salt("in this bay").max_height(most.min(all));
        area.auto_shrink([false, false]).show_rows(ui, ROW_PX, subjects.len(), |ui, rows| {
            // The list makes room for the figures of what came in hand; its row stays in sight.
            if let Some(at) = chosen {
                let first = ui.max_rect().top() + (at as f32 - rows.start as f32) * ROW_PX;
                let row = Rect::from_x_y_ranges(ui.max_rect().x_range(), first..=first + ROW_PX);
                ui.scroll_to_rect_animation(row, None, egui::style::ScrollAnimation::none());
            }
            // Only what is seen gets its words.
            for entry in subjects.get(rows).unwrap_or_default().iter().filter_map(|s| self.entry(s)) {
                self.row(ui, &entry, out);
            }
            in_sight::follow(ui);
        });
        ui.spacing_mut().item_spacing.y = between;
        if subjects.is_empty() {
            ui.label(widgets::soft(ui, texts.nothing_like_that));
        }
        if self.view.selected.is_some() {
            ui.add_space(4.0);
            ui.separator();
            let mut area = ScrollArea::vertical().id_salt("figures").auto_shrink([false, false]);
            // However far that of what was in hand before was scrolled, this one begins at its beginning.
            if is_new {
                area = area.vertical_scroll_offset(0.0);
            }
            let form = area.show(ui, |ui| {
                self.form(ui, out);
                in_sight::follow(ui);
            });
            let needed = form.content_size.y + UNFOLDS_PX;
            let spare = form.inner_rect.height() - needed;
            let height = (most.min(all) + spare).clamp(share.min(all), all);
            let is_more = spare > 0.0;
            if left.is_none() || (!is_more && height < most.min(all)) {
                let is_other = (height - most.min(all)).abs() > 1.0;
                ui.data_mut(|data| data.insert_temp(left_over(), Left { of_room: room, height }));
                if is_other {
                    ui.ctx().request_discard("the list takes what the figures leave over");
                }
            }
        }
    }

    /// Whether what is in hand came there in the frame before.
    fn is_newly_chosen(&self, ui: &Ui) -> bool {
        let key = egui::Id::unique("chosen in the list");
        let before: Option<Option<Subject>> = ui.data(|data| data.get_temp(key));
        if before.as_ref() == Some(&self.view.selected) {
            return false;
        }
        ui.data_mut(|data| data.insert_temp(key, self.view.selected.clone()));
        true
    }

    /// The field for what is sought, while something is. Enter takes the first that is found in hand.
    fn search_field(&mut self, ui: &mut Ui, out: &mut Vec<Command>) {
        let hint = self.texts().search_list;
        let Some((text, focus)) = &mut self.view.sought else { return };
        let id = egui::Id::unique("sought in this bay");
        let response = widgets::field(ui, id, text, f32::INFINITY, std::mem::take(focus));
        response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::TextInput, true, hint));
        let response = response.on_hover_text(hint);
        if response.has_focus() || response.lost_focus() {
            let enter = ui.input(|i| i.key_pressed(Key::Enter));
            if enter && let Some(first) = self.sought().into_iter().next() {
                out.push(Command::View(OfView::Select(Some(first))));
            }
        }
        ui.add_space(2.0);
    }

    /// What the list shows: all there is, or what is sought of it.
    fn sought(&self) -> Vec<Subject> {
        let mut subjects = self.subjects();
        if let Some((text, _)) = self.view.sought.as_ref().filter(|(text, _)| !text.trim().is_empty()) {
            subjects.retain(|subject| {
                let entry = self.entry(subject);
                entry.is_some_and(|own| widgets::is_like(text, &format!("{} {}", own.name, own.note)))
            });
        }
        subjects
    }

    /// Things that come together.
    fn sets(&self) -> Vec<(&'static str, OfBay)> {
        let texts = self.view.locale.language.hand();
        let name = |of: &shelf::Set| match of {
            shelf::Set::InnerWall => texts.inner_wall,
            shelf::Set::PillarRow => texts.pillar_row,
            shelf::Set::Booth => texts.booth,
            shelf::Set::Lift => texts.lift,
        };
        shelf::Set::ALL.into_iter().map(|of| (name(&of), OfBay::AddSet(of))).collect()
    }

    /// What belongs to the room itself.
    fn parts(&self) -> Vec<(&'static str, OfBay)> {
        let rooms = self.view.locale.language.rooms();
        let name = |part: &Part| match *part {
            Part::Opening(kind) => rooms.opening_of(kind),
            Part::Feature(kind) => rooms.feature_of(kind),
            Part::Runway => rooms.runway,
            Part::KeepFree(kind) => rooms.kept_free(kind),
            Part::HallBay => rooms.hall_bay,
            Part::LowCeiling => rooms.low_ceiling,
        };
        Part::ALL.into_iter().map(|part| (name(&part), OfBay::AddPart(part))).collect()
    }

    fn row(&self, ui: &mut Ui, entry: &Entry, out: &mut Vec<Command>) {
        let palette = self.view.theme.palette();
        let selected = self.view.is_chosen(&entry.subject);
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
        ui.painter().galley(inner.min, name.clone(), ink);
        ui.painter().galley(inner.min + Vec2::new(0.0, below), note.clone(), soft);
        response.widget_info(|| {
            let told = self.texts().with(&entry.name, &entry.note);
            egui::WidgetInfo::selected(egui::Role::ListBoxOption, true, selected, told)
        });
        if response.hovered() {
            out.push(Command::View(OfView::Hover(Some(entry.subject.clone()))));
        }
        let is_cut = [&name, &note].iter().any(|own| own.elided);
        let response = if is_cut {
            response.on_hover_text(self.texts().with(&entry.name, &entry.note))
        } else {
            response
        };
        if response.clicked() {
            // From here on arrows move what was chosen, and Tab leads to its fields.
            response.request_focus();
            let more = ui.input(|i| i.modifiers.shift || i.modifiers.command);
            let subject = entry.subject.clone();
            out.push(Command::View(if more {
                OfView::SelectToo(subject)
            } else {
                OfView::Select(Some(subject))
            }));
        }
        if response.secondary_clicked() {
            if !selected {
                out.push(Command::View(OfView::Select(Some(entry.subject.clone()))));
            }
            out.push(Command::View(OfView::Menu(response.interact_pointer_pos())));
        }
        if response.has_focus() {
            // While it is in hand, arrows are its own; else they walk through the list.
            let filter = egui::EventFilter {
                horizontal_arrows: selected,
                vertical_arrows: selected,
                ..Default::default()
            };
            ui.memory_mut(|memory| memory.set_focus_lock_filter(response.id, filter));
            let in_hand = selected.then_some(response.id);
            ui.data_mut(|data| data.insert_temp(row_in_hand(), in_hand));
        }
    }

    /// Everything that can be pointed at, in one order: car, stands, things, doors, what belongs to floor and aiming.
    fn subjects(&self) -> Vec<Subject> {
        let arrangement = &self.answer.arrangement;
        let bay = &arrangement.bay;
        let stands = arrangement.aiming.placements.iter().map(|own| Subject::Stand(own.id.clone()));
        let things = arrangement.own_things().map(|own| Subject::Thing(own.id.clone()));
        let openings = bay.openings.iter().map(|own| Subject::Opening(own.id.clone()));
        let features = bay.floor_features.iter().map(|own| Subject::FloorFeature(own.id.clone()));
        let runways = bay.runways.iter().map(|own| Subject::Runway(own.id.clone()));
        let zones = arrangement.aiming.zones.iter().map(|own| Subject::Zone(own.id.clone()));
        let walls = bay.walls.iter().map(|own| Subject::Wall(own.id.clone()));
        let free = bay.keep_free.iter().map(|own| Subject::KeepFree(own.id.clone()));
        let bays = bay.bays.iter().map(|own| Subject::HallBay(own.id.clone()));
        let dimensions = bay.dimensions.iter().map(|own| Subject::Dimension(own.id.clone()));
        std::iter::once(Subject::Car)
            .chain(stands)
            .chain(things)
            .chain(openings)
            .chain(features)
            .chain(runways)
            .chain(zones)
            .chain(free)
            .chain(bays)
            .chain(std::iter::once(Subject::Floor))
            .chain(walls)
            .chain(dimensions)
            .collect()
    }

    /// The words of one row.
    fn entry(&self, subject: &Subject) -> Option<Entry> {
        let words = self.words();
        let texts = self.texts();
        let arrangement = &self.answer.arrangement;
        let bay = &arrangement.bay;
        let note = match subject {
            Subject::Car => {
                let vehicle = &arrangement.vehicle;
                size_of(&words, vehicle.length_mm, vehicle.width_mm)
            }
            Subject::Stand(id) => {
                words.stand_off(arrangement.aiming.placements.iter().find(|own| own.id == *id)?)
            }
            Subject::Thing(id) => thing_note(&words, texts, bay.things.iter().find(|own| own.id == *id)?),
            Subject::Opening(id) => {
                let opening = bay.openings.iter().find(|own| own.id == *id)?;
                texts.opening_note(opening, bay.walls.get(opening.wall).map(|wall| wall.id.as_str()))
            }
            Subject::FloorFeature(id) => {
                texts.floor_feature(bay.floor_features.iter().find(|own| own.id == *id)?.kind).to_owned()
            }
            Subject::Runway(id) => words.runway_height(bay.runways.iter().find(|own| own.id == *id)?.top_mm),
            Subject::Zone(id) => {
                let zone = arrangement.aiming.zones.iter().find(|own| own.id == *id)?;
                words.keep_clear_note(zone.excludes, (zone.span.bottom(), zone.span.top()))
            }
            Subject::Wall(id) => {
                let wall = bay.walls.iter().position(|own| own.id == *id)?;
                let (from, to) = bay.wall_ends(wall)?;
                texts.with(words.material(bay.walls.get(wall)?.material), &words.length(from.distance(to)))
            }
            Subject::HallBay(id) => {
                let size = bay.bays.iter().find(|own| own.id == *id)?.outline.bounds().size();
                size_of(&words, size.x, size.y)
            }
            Subject::Floor => {
                let size = bay.room.bounds().size();
                size_of(&words, size.x, size.y)
            }
            Subject::Dimension(id) => {
                let own = bay.dimensions.iter().find(|own| own.id == *id)?;
                let [from, to] = kept_ends(arrangement, &self.answer.assessment.scene, own);
                let hand = self.view.locale.language.hand();
                let length = words.length(from.at.distance(to.at));
                let is_loose = from.is_gone || to.is_gone;
                let length = if is_loose { texts.with(&length, hand.loose_end) } else { length };
                texts.with(hand.kept_dimension, &length)
            }
            _ => texts.local_rules.to_owned(),
        };
        let name = match subject {
            Subject::Car => texts.car.to_owned(),
            Subject::Stand(_) => sentence_start(&words.bare_subject(subject)),
            Subject::Thing(id)
            | Subject::Opening(id)
            | Subject::FloorFeature(id)
            | Subject::Runway(id)
            | Subject::Zone(id)
            | Subject::Wall(id)
            | Subject::KeepFree(id)
            | Subject::HallBay(id)
            | Subject::Dimension(id) => sentence_start(id.as_str()),
            Subject::Floor => self.view.locale.language.rooms().room.to_owned(),
            _ => return None,
        };
        Some(Entry { subject: subject.clone(), name, note })
    }
}

/// Whether this is the row of something that is in hand, and has the keyboard.
pub(super) fn is_row_in_hand(ctx: &egui::Context, id: egui::Id) -> bool {
    ctx.data(|data| data.get_temp::<Option<egui::Id>>(row_in_hand())).flatten() == Some(id)
}

fn row_in_hand() -> egui::Id {
    egui::Id::unique("row in hand")
}

/// Material and size of a thing.
fn thing_note(words: &Words<'_>, texts: &Screen, thing: &baywright_planner::model::Thing) -> String {
    use baywright_planner::model::Shape;
    let size = match thing.footprint.shape() {
        Shape::Rectangle { length_mm: length, width_mm: width } => size_of(words, *length, *width),
        Shape::Round { diameter_mm: diameter } => format!("\u{d8} {}", words.length(*diameter)),
        Shape::Outline(_) => {
            let size = thing.footprint.outline().bounds().size();
            size_of(words, size.x, size.y)
        }
    };
    texts.with(words.material(thing.material), &size)
}

fn size_of(words: &Words<'_>, length: f64, width: f64) -> String {
    format!("{} \u{d7} {}", words.bare(length), words.length(width))
}

/// A column of a menu. Each entry is as wide as the widest: a press beside a short word is one of it, and is not lost.
fn column(ui: &mut Ui, entries: Vec<(&str, OfBay)>, out: &mut Vec<Command>) {
    let font = egui::TextStyle::Button.resolve(ui.style());
    let wide = |text: &str| {
        ui.painter().layout_no_wrap(text.to_owned(), font.clone(), egui::Color32::BLACK).size().x
    };
    let most = entries.iter().map(|(name, _)| wide(name)).fold(0.0, f32::max);
    let room = Vec2::new(most + 2.0 * ui.spacing().button_padding.x + 4.0, 0.0);
    ui.allocate_ui_with_layout(room, egui::Layout::top_down_justified(egui::Align::LEFT), |ui| {
        for (name, asked) in entries {
            if ui.button(name).clicked() {
                out.push(Command::Bay(asked));
                ui.close();
            }
        }
    });
}
