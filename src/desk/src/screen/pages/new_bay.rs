//! A new bay: a rectangle in two numbers, or wall by wall as a person tapes it.

use baywright_planner::entry::first_layout;
use baywright_planner::geometry::{DVec2, Polygon, angle};
use baywright_planner::model::validate;
use baywright_planner::model::{Bay, Layout, TapedRoom, TapedWall};
use baywright_planner::room::{Leg, Slip, TURN_SLACK, Walk, slips, spread, walk};
use baywright_planner::words::sentence_start;
use egui::{Align2, Color32, Pos2, RichText, Sense, Shape, Stroke, Ui, Vec2};

use crate::screen::command::{Command, OfFile};
use crate::screen::forms::typed;
use crate::screen::forms::which::NotRead;
use crate::screen::look::{self, size};
use crate::screen::page::{Column, NewBay};
use crate::screen::{Desk, widgets};
use crate::session::document::{Document, NotMade};
use crate::session::room_draft::{MOST_WALLS, RoomDraft, TypedIn, WallTyped};

/// A gap up to this is the tape's own, mm: it is spread, and no wall is blamed. Above, nothing is spread unasked, since that
/// could hide a wall that was misread.
const TAPE_MM: f64 = 30.0;
/// More than this share of the way round is no error of a tape.
const CLOSING_SHARE: f64 = 0.1;
/// What is left open below this cannot be read on a tape, mm.
const CLOSED_MM: f64 = 0.5;

/// What the typed figures give so far.
struct Typed {
    /// The ends of the walls one after another; the last is the first where they close.
    walls: Vec<DVec2>,
    /// Whether they come near to where they began; else there are more to come.
    closing: bool,
    /// The bay, where nothing is left to be decided.
    made: Option<Made>,
}

/// A bay that can be made.
struct Made {
    corners: Vec<DVec2>,
    names: Vec<String>,
    ceiling: f64,
    taped: Option<TapedRoom>,
}

impl Desk {
    pub(super) fn new_bay_page(&self, ui: &mut Ui, page: &mut NewBay, out: &mut Vec<Command>) {
        let texts = self.view.locale.language.rooms();
        page.room.type_in(self.view.locale.units.into());
        field(ui, texts.name_of_bay, &mut page.room.name, &mut page.focus);
        ui.horizontal(|ui| {
            for (taped, name) in [(false, texts.rectangle), (true, texts.taped)] {
                if ui.add(egui::Button::selectable(page.room.taped == taped, name)).clicked() {
                    page.room.taped = taped;
                    page.next = taped.then_some((0, Column::Length));
                }
            }
        });
        ui.add_space(4.0);
        let mut typed = None;
        ui.horizontal_top(|ui| {
            ui.vertical(|ui| {
                ui.set_width(f32::min(FORM_PX, ui.available_width()));
                typed = Some(if page.room.taped { self.taped(ui, page) } else { self.rectangle(ui, page) });
            });
            self.sketch(ui, typed.as_ref().and_then(|typed| typed.as_ref().ok()));
        });
        ui.add_space(8.0);
        let (made, why) = match typed {
            Some(Ok(Typed { made: Some(made), .. })) => match self.sound_bay(page.room.name.trim(), made) {
                Ok(layout) => (Some(layout), None),
                Err(why) => (None, Some(wrong(ui, &why))),
            },
            Some(Ok(Typed { closing: false, .. })) => (None, Some(widgets::soft(ui, texts.go_on))),
            Some(Ok(_)) => (None, Some(wrong(ui, texts.decide))),
            Some(Err(why)) => (None, Some(wrong(ui, &why))),
            None => (None, None),
        };
        let ready = made.is_some();
        let led_on = std::mem::take(&mut page.focus);
        let (press, anew) = ui
            .horizontal(|ui| {
                let make = |ui: &mut Ui| widgets::press(ui, self.view.theme, texts.make_it);
                let press = ui.add_enabled_ui(ready, make).inner;
                let typed = page.room.is_begun(texts.my_bay);
                (press, typed && widgets::lesser(ui, texts.begin_anew).clicked())
            })
            .inner;
        // From the last figure Enter leads to what they are for; not in the frame of that Enter, which would press it.
        if led_on && ready {
            press.request_focus();
        }
        // Below what is pressed, which so stays where it is.
        if let Some(why) = why {
            ui.add(egui::Label::new(why).wrap());
        }
        if anew {
            *page = NewBay::of(RoomDraft {
                taped: page.room.taped,
                ..RoomDraft::new(texts.my_bay, page.room.typed_in)
            });
        }
        if let Some(layout) = made
            && press.clicked()
        {
            out.push(Command::File(OfFile::NewBay(Box::new(layout))));
        }
    }

    /// The layout of a bay that was typed, if it can be opened; else why not.
    fn sound_bay(&self, name: &str, made: Made) -> Result<Layout, String> {
        let texts = self.view.locale.language.rooms();
        if name.is_empty() {
            return Err(self.texts().no_name.to_owned());
        }
        let layout = self.made_bay(name, made).ok_or_else(|| texts.no_room.to_owned())?;
        match validate::layout(&layout).first() {
            Some(fault) => Err(texts.not_made(fault, self.lengths())),
            None => Ok(layout),
        }
    }

    fn read(&self, text: &str) -> Result<f64, String> {
        match self.read_length(text) {
            Ok(mm) if mm > 0.0 => Ok(mm),
            Ok(_) => Err(self.texts().no_length(text)),
            Err(NotRead::Wrong(why)) => Err(why),
            Err(NotRead::Which(which)) => Err(which.question),
        }
    }

    fn wall_rows(&self, ui: &mut Ui, page: &mut NewBay) {
        let texts = self.view.locale.language.rooms();
        let cell = |ui: &mut Ui, column: usize, text: RichText| {
            widgets::name_column(ui, COLUMNS.get(column).copied().unwrap_or(60.0), text);
        };
        ui.horizontal(|ui| {
            for (column, title) in ["", texts.length, texts.turn, texts.wall_name].into_iter().enumerate() {
                let title = widgets::soft(ui, title);
                cell(ui, column, title);
            }
        });
        let mut next = page.next.take();
        let (typed_in, mut ended) = (page.room.typed_in, false);
        for (i, wall) in page.room.walls.iter_mut().enumerate() {
            let row = self.texts().numbered(texts.wall, i + 1);
            // Before its row, so that Tab goes from wall to wall.
            let length = self.texts().with(&row, texts.length);
            self.ask_which(ui, &length, wall_field(texts.length, i), &mut wall.length);
            ui.horizontal(|ui| {
                let name = widgets::soft(ui, &row);
                cell(ui, 0, name);
                let [_, widths @ ..] = COLUMNS;
                let fields = [
                    (Column::Length, texts.length, &mut wall.length),
                    (Column::Turn, texts.turn, &mut wall.turn),
                    (Column::Name, texts.wall_name, &mut wall.name),
                ];
                for ((column, title, text), width) in fields.into_iter().zip(widths) {
                    let id = wall_field(title, i);
                    let led = next.take_if(|next| *next == (i, column)).is_some();
                    let response = widgets::field(ui, id, text, width - 8.0, led)
                        .accessible_name(self.texts().with(&row, title));
                    let entered = response.lost_focus() && ui.input(|i| i.key_pressed(egui::Key::Enter));
                    if column == Column::Length && !response.has_focus() {
                        typed_in.named(text);
                    }
                    // Enter goes as the figures are called out: length, turn, length, turn; Tab goes through the names too. A
                    // length that is left empty ends them: what comes next is to make the bay.
                    if entered && column == Column::Length && text.trim().is_empty() {
                        ended = true;
                    } else if entered {
                        next = Some(if column == Column::Length {
                            (i, Column::Turn)
                        } else {
                            (i + 1, Column::Length)
                        });
                    }
                }
            });
        }
        page.next = next;
        page.focus |= ended;
        // There is always one more to go on with.
        let full = page.room.walls.last().is_none_or(|wall| !wall.length.trim().is_empty());
        if (full || widgets::lesser(ui, texts.add_wall).clicked()) && page.room.walls.len() < MOST_WALLS {
            page.room.walls.push(WallTyped { turn: "90".to_owned(), ..WallTyped::default() });
        }
    }

    /// Asks what a length says, if it may say two things; the answer goes into its field, and the keyboard with it. Not as
    /// long as one types there, nor in the frame in which the field is left: the keyboard goes on to the next one.
    fn ask_which(&self, ui: &mut Ui, name: &str, id: egui::Id, text: &mut String) {
        if ui.memory(|memory| memory.has_focus(id) || memory.had_focus_last_frame(id)) {
            return;
        }
        if let Err(NotRead::Which(which)) = self.read_length(text)
            && let Some(chosen) = which.ask(ui, name)
        {
            *text = chosen.typed;
            if chosen.by_key {
                ui.memory_mut(|memory| memory.request_focus(id));
            }
        }
    }

    fn rectangle(&self, ui: &mut Ui, page: &mut NewBay) -> Result<Typed, String> {
        let texts = self.view.locale.language.rooms();
        for (name, text) in [texts.length, texts.across, texts.ceiling].into_iter().zip(&mut page.room.sizes)
        {
            let id = sized_field(ui, name, text, page.room.typed_in, &mut page.focus);
            self.ask_which(ui, name, id, text);
        }
        let [length, width, ceiling] = page.room.sizes.each_ref().map(|text| self.read(text));
        let (length, width, ceiling) = (length?, width?, ceiling?);
        let corners = [(0.0, 0.0), (length, 0.0), (length, width), (0.0, width)];
        let corners = corners.map(|(x, y)| DVec2::new(x, y)).to_vec();
        let walls = corners.iter().chain(corners.first()).copied().collect();
        Ok(Typed {
            walls,
            closing: true,
            made: Some(Made { corners, names: Vec::new(), ceiling, taped: None }),
        })
    }

    fn taped(&self, ui: &mut Ui, page: &mut NewBay) -> Result<Typed, String> {
        let texts = self.view.locale.language.rooms();
        ui.add(egui::Label::new(widgets::soft(ui, texts.taped_about)).wrap());
        let [.., ceiling] = &mut page.room.sizes;
        let id = sized_field(ui, texts.ceiling, ceiling, page.room.typed_in, &mut page.focus);
        self.ask_which(ui, texts.ceiling, id, ceiling);
        if std::mem::take(&mut page.focus) {
            page.next = Some((0, Column::Length));
        }
        self.wall_rows(ui, page);
        let ceiling = page.room.sizes.last().map_or("", String::as_str);
        let ceiling = self.read(ceiling)?;
        // Rows that are empty so far are not walls yet.
        let filled: Vec<usize> = (0..page.room.walls.len())
            .filter(|&at| page.room.walls.get(at).is_some_and(|w| !w.length.trim().is_empty()))
            .collect();
        if filled.len() < 3 {
            return Err(texts.needs_three.to_owned());
        }
        let mut legs = Vec::with_capacity(filled.len());
        let mut names = Vec::with_capacity(filled.len());
        for wall in filled.iter().filter_map(|&at| page.room.walls.get(at)) {
            let turn = typed::degrees(&wall.turn).ok_or_else(|| self.texts().no_angle(&wall.turn))?;
            legs.push(Leg { length_mm: self.read(&wall.length)?, turn_rad: angle::radians(turn) });
            names.push(wall.name.trim().to_owned());
        }
        let walked = walk(0.0, &legs);
        if let Some(slip) = self.left_open(ui, page, &legs, &walked, &names) {
            self.put_right(page, &filled, slip);
        }
        let closing = is_closing(&walked);
        let small = walked.gap.length() <= TAPE_MM && walked.turn_gap_rad.abs() <= TURN_SLACK;
        let corners = (small || closing && page.room.spread).then(|| spread(0.0, &legs));
        let walls = legs.iter().zip(&names).map(|(leg, name)| TapedWall {
            length_mm: leg.length_mm,
            turn_rad: leg.turn_rad,
            name: (!name.is_empty()).then(|| name.as_str().into()),
        });
        let taped = Some(TapedRoom { start_turned_rad: 0.0, walls: walls.collect() });
        let walls = match &corners {
            Some(corners) => corners.iter().chain(corners.first()).copied().collect(),
            None => walked.places,
        };
        Ok(Typed { walls, closing, made: corners.map(|corners| Made { corners, names, ceiling, taped }) })
    }

    /// What is left open, and what alone would explain it: that which one wants to use.
    fn left_open(
        &self,
        ui: &mut Ui,
        page: &mut NewBay,
        legs: &[Leg],
        walked: &Walk,
        names: &[String],
    ) -> Option<Slip> {
        let texts = self.view.locale.language.rooms();
        let words = self.words();
        let gap = walked.gap.length();
        let care = look::colour(self.view.theme.palette().care);
        let turns_open = walked.turn_gap_rad.abs() > TURN_SLACK;
        let closing = is_closing(walked);
        if turns_open && closing {
            let sum = self.region().degrees_to_type(angle::degrees(walked.turn_gap_rad));
            let text = texts.turns_make(&sum);
            ui.add(
                egui::Label::new(RichText::new(widgets::unbroken(text)).size(size::SMALL).color(care)).wrap(),
            );
        }
        if gap < CLOSED_MM {
            ui.label(widgets::soft(ui, texts.closes));
        } else {
            let text = if closing {
                texts.gap_of(&words.length(gap), walked.perimeter_mm / gap)
            } else {
                texts.still_open(&words.length(gap))
            };
            let text = RichText::new(widgets::unbroken(text)).font(look::bold(size::SMALL));
            let text = if gap > TAPE_MM && closing { text.color(care) } else { text };
            ui.add(egui::Label::new(text).wrap());
        }
        if gap <= TAPE_MM && !turns_open {
            if gap >= CLOSED_MM {
                ui.add(egui::Label::new(widgets::soft(ui, texts.within_tape)).wrap());
            }
            return None;
        }
        let mut used = None;
        for own in slips(0.0, legs, TAPE_MM).into_iter().take(MOST_SLIPS) {
            let wall = |at: usize| match names.get(at) {
                Some(name) if !name.is_empty() => sentence_start(name),
                _ => self.texts().numbered(texts.wall, at + 1),
            };
            let text = match own.slip {
                Slip::Length { wall: at, would_be } => {
                    let taped = legs.get(at).map_or(0.0, |leg| leg.length_mm);
                    texts.explains(&wall(at), &words.length(taped), &words.length(would_be))
                }
                Slip::Turn { wall: at, would_be } => {
                    texts.explains_turn(&wall(at), &self.region().degrees_to_type(angle::degrees(would_be)))
                }
            };
            ui.horizontal(|ui| {
                let take = widgets::lesser(ui, texts.use_it);
                if take.accessible_name(self.texts().of(texts.use_it, &text)).clicked() {
                    used = Some(own.slip);
                }
                ui.add(egui::Label::new(widgets::soft(ui, &text)).wrap());
            });
        }
        if closing {
            ui.checkbox(&mut page.room.spread, RichText::new(texts.spread).size(size::SMALL))
                .on_hover_text(texts.spread_why);
        }
        used
    }

    /// What would explain the gap is taken into its field.
    fn put_right(&self, page: &mut NewBay, filled: &[usize], slip: Slip) {
        let (Slip::Length { wall, .. } | Slip::Turn { wall, .. }) = slip;
        let Some(row) = filled.get(wall).and_then(|&at| page.room.walls.get_mut(at)) else { return };
        match slip {
            Slip::Length { would_be, .. } => row.length = self.words().length(would_be),
            Slip::Turn { would_be, .. } => row.turn = self.region().degrees_to_type(angle::degrees(would_be)),
        }
        // What was to be spread is no longer there.
        page.room.spread = false;
    }

    /// The walls as typed, small: numbers outside, the start, what is left open.
    /// It takes the same room whatever is typed, so that nothing around it moves.
    fn sketch(&self, ui: &mut Ui, typed: Option<&Typed>) {
        // What makes the bay stays in sight below it.
        let seen = ui.clip_rect().bottom() - ui.cursor().top() - BELOW_SKETCH_PX;
        let height = seen.clamp(LEAST_SKETCH_PX, SKETCH_PX);
        let (rect, _) = ui.allocate_exact_size(Vec2::new(ui.available_width(), height), Sense::hover());
        let Some(Typed { walls, .. }) = typed else { return };
        let low = walls.iter().copied().reduce(DVec2::min).unwrap_or_default();
        let high = walls.iter().copied().reduce(DVec2::max).unwrap_or_default();
        let extent = (high - low).max(DVec2::ONE);
        let inner = rect.shrink(26.0);
        let by = (f64::from(inner.width()) / extent.x).min(f64::from(inner.height()) / extent.y);
        let middle = (low + high) * 0.5;
        let at = |p: DVec2| -> Pos2 {
            let p = (p - middle) * by;
            inner.center() + Vec2::new(p.x as f32, -p.y as f32)
        };
        let palette = self.view.theme.palette();
        let (ink, soft) = (look::colour(palette.ink), ui.visuals().weak_text_color());
        let (beam, care) = (look::colour(palette.beam), look::colour(palette.care));
        let line: Vec<Pos2> = walls.iter().map(|&p| at(p)).collect();
        ui.painter().add(Shape::line(line, Stroke::new(2.0, ink)));
        let font = look::letters(size::SMALL, baywright_drawing::Weight::Regular);
        let write = |at: Pos2, text: &str, colour: Color32| {
            ui.painter().text(at, Align2::CENTER_CENTER, text, font.clone(), colour);
        };
        for ((from, to), number) in walls.iter().zip(walls.iter().skip(1)).zip(1..) {
            // The room is on the left of the way.
            let out = (*to - *from).normalize_or_zero();
            let out = Vec2::new(out.y as f32, out.x as f32) * 13.0;
            write(at((*from + *to) * 0.5) + out, &format!("{number}"), soft);
        }
        let (Some(&first), Some(&last)) = (walls.first(), walls.last()) else { return };
        if first.distance(last) >= CLOSED_MM {
            ui.painter().add(Shape::dashed_line(&[at(last), at(first)], Stroke::new(2.0, care), 5.0, 4.0));
            ui.painter().circle_filled(at(last), 3.5, care);
        }
        ui.painter().circle_filled(at(first), 4.5, beam);
        write(at(first) + Vec2::new(0.0, 15.0), self.view.locale.language.rooms().begin_here, beam);
    }

    /// The layout of a bay that was typed: the car that is shown stands in it, nose along its length.
    fn made_bay(&self, name: &str, made: Made) -> Option<Layout> {
        let texts = self.view.locale.language.rooms();
        Polygon::simple(made.corners.clone()).ok()?;
        let id = crate::screen::forms::car::file_name(name, texts.my_bay);
        let bay = Bay::of_corners(
            id.into(),
            name.to_owned(),
            made.corners,
            (&made.names, |n| texts.nth_wall(n)),
            made.ceiling,
            self.by_this_shop(),
        )
        .ok()?;
        let shown = self.document.saved_arrangement()?;
        let car = &self.answer.arrangement.vehicle;
        let profile = self.document.cars().iter().find(|own| own.vehicle.id == shown.vehicle);
        let fingerprint = profile.map(|own| own.fingerprint.clone());
        let name = texts.first_arrangement.into();
        let layout = first_layout(bay, name, car, fingerprint, shown.aiming.clone());
        Some(Layout { taped: made.taped, ..layout })
    }

    /// Shows a bay that was just typed.
    pub(in crate::screen) fn new_bay(&mut self, layout: Layout) {
        if self.show_new_bay(layout) {
            // It is made: nothing of it is begun any more.
            self.view.bay_begun = None;
        }
    }

    /// Shows a bay that was just made; whether it can be.
    pub(in crate::screen) fn show_new_bay(&mut self, layout: Layout) -> bool {
        let why = match Document::new_bay(layout, &self.document) {
            Ok(document) => match self.show_document(document) {
                Ok(()) => return true,
                Err(why) => why,
            },
            Err(NotMade::Faults(faults)) => self.first_sentence(&faults),
            Err(NotMade::Unsound(fault)) => {
                self.view.locale.language.rooms().not_made(&fault, self.lengths())
            }
        };
        self.say_wrong(why);
        false
    }
}

/// Width of the fields, and height of the sketch beside them, px.
const FORM_PX: f32 = 500.0;
const SKETCH_PX: f32 = 260.0;
/// The least that it shrinks to in a small window, and what is kept below it for the button and what it waits for.
const LEAST_SKETCH_PX: f32 = 120.0;
const BELOW_SKETCH_PX: f32 = 62.0;
/// So many explanations of a gap are told.
const MOST_SLIPS: usize = 4;

/// Widths of the columns of the walls, px: number, length, turn, name.
const COLUMNS: [f32; 4] = [60.0, 130.0, 80.0, 180.0];

/// The widget's own name of a field of a wall.
fn wall_field(title: &str, wall: usize) -> egui::Id {
    egui::Id::unique("wall").with(title).with(wall)
}

/// Whether the walls that were walked so far come near to the start; a room with more left open is not finished, and is never
/// closed by spreading.
fn is_closing(walked: &Walk) -> bool {
    walked.gap.length() <= walked.perimeter_mm * CLOSING_SHARE
}

fn wrong(ui: &Ui, why: &str) -> RichText {
    RichText::new(why).size(size::SMALL).color(ui.visuals().error_fg_color)
}

/// A field of a length: what is typed without a unit gets the one that it is in once the field is left.
fn sized_field(ui: &mut Ui, name: &str, text: &mut String, typed_in: TypedIn, focus: &mut bool) -> egui::Id {
    let id = field(ui, name, text, focus);
    if !ui.memory(|memory| memory.has_focus(id)) {
        typed_in.named(text);
    }
    id
}

/// A field with its name; the widget's own name. With `focus` it is given the keyboard; left by Enter it hands that on to what is
/// drawn next.
fn field(ui: &mut Ui, name: &str, text: &mut String, focus: &mut bool) -> egui::Id {
    let id = egui::Id::unique("new bay").with(name);
    ui.horizontal(|ui| {
        let named = widgets::soft(ui, name);
        let label = widgets::name_column(ui, 150.0, named);
        let own = widgets::field(ui, id, text, 200.0, std::mem::take(focus)).labelled_by(label.id);
        *focus = own.lost_focus() && ui.input(|i| i.key_pressed(egui::Key::Enter));
    });
    id
}
