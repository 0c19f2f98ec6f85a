//! What every part of the form is made of: rows with a sketch, a field, what is wrong or unlikely, whether it is assumed.

use baywright_planner::geometry::{Bounds, DVec2, Polygon, Span, angle};
use baywright_planner::model::assumed::Assumed;
use baywright_planner::model::validate::Fault;
use baywright_planner::model::{Figures, Id, Vehicle};
use baywright_planner::words::forms::Forms;
use egui::{Align, Button, IdSalt, RichText, Ui, Vec2};

use super::sketch::{self, Sketch};
use super::way;
use crate::screen::forms::field::{Fields, Row};
use crate::screen::forms::picked::Picker;
use crate::screen::forms::step::Stepped;
use crate::screen::forms::typed;
use crate::screen::forms::which::NotRead;
use crate::screen::look::{self, size};
use crate::screen::{Desk, widgets};
use crate::session::draft::is_to_type;

/// Room for the word "assumed" at the end of a row, px.
const TAG_PX: f32 = 58.0;
/// Room for a sketch at its start.
const SKETCH_PX: f32 = 50.0;

/// The form while it is drawn: a copy of the car that its fields change.
pub(in crate::screen) struct CarForm<'a> {
    pub desk: &'a Desk,
    pub texts: &'static Forms,
    pub fields: Fields,
    pub car: Vehicle,
    pub faults: Vec<Fault>,
    unlikely: Vec<Fault>,
    /// Room for the word "assumed" at the end of a row, px.
    tag: f32,
    /// What is sought in the form, in small letters; empty for nothing.
    pub sought: String,
    /// Whether something was changed.
    pub changed: bool,
    /// The part that is to be unfolded and brought into sight, until it is.
    pub lead: Option<Figures>,
    /// The press that keeps the car, if it can be kept.
    pub keep: Option<egui::Id>,
    /// Whether what was picked last was chosen in the open list, by Enter or the pointer: that is meant, then.
    pub from_list: bool,
}

/// One row: its name, what that means, the field's path, the figure that may be assumed, a sketch.
#[derive(Clone, Copy, Default)]
pub(in crate::screen) struct Line<'a> {
    pub label: &'a str,
    pub hint: &'a str,
    pub path: &'a str,
    pub figure: Option<&'a Assumed>,
    pub sketch: Option<Sketch>,
}

/// How a number is read and shown.
#[derive(Clone, Copy)]
pub(in crate::screen) enum Of {
    /// mm.
    Length,
    /// Radians; shown in degrees.
    Angle,
    /// A bare number, by what it is multiplied for showing.
    Number(f64),
}

impl<'a> CarForm<'a> {
    pub fn new(
        desk: &'a Desk,
        fields: Fields,
        car: Vehicle,
        faults: Vec<Fault>,
        unlikely: Vec<Fault>,
    ) -> Self {
        let fields = fields.leading_on(true);
        Self {
            desk,
            texts: desk.view.locale.language.forms(),
            fields,
            car,
            faults,
            unlikely,
            tag: TAG_PX,
            sought: String::new(),
            changed: false,
            lead: None,
            keep: None,
            from_list: false,
        }
    }

    /// The same for a narrow panel where nothing is assumed: a bay's. The car is only looked at.
    pub fn narrow(self) -> Self {
        Self { tag: 0.0, ..self }
    }

    /// Brings what comes next into sight, if it is what one was led to.
    pub fn led_to(&mut self, ui: &Ui, figures: Figures) {
        if self.lead == Some(figures) {
            ui.scroll_to_cursor(Some(Align::TOP));
            self.lead = None;
        }
    }

    /// Whether a row of this name is to be seen: nothing is sought, or its name holds it.
    pub fn is_sought(&self, label: &str) -> bool {
        self.sought.is_empty() || label.to_lowercase().contains(&self.sought)
    }

    /// Notes that something was changed.
    pub fn did(&mut self) {
        self.changed = true;
    }

    /// A row with a number; `Some` if another one was typed.
    pub fn number(&mut self, ui: &mut Ui, line: Line<'_>, of: Of, value: f64) -> Option<f64> {
        let shown = self.shown(of, value);
        let desk = self.desk;
        let texts = self.texts;
        self.step(of, value);
        self.typed(ui, line, &shown, |text| read(desk, texts, of, text))
    }

    /// The same, where not every number goes with what stands beside it: `wrong` says why one does not. It stays in its field
    /// with the reason, then.
    pub fn number_unless(
        &mut self,
        ui: &mut Ui,
        line: Line<'_>,
        of: Of,
        value: f64,
        wrong: impl Fn(f64) -> Option<&'static str>,
    ) -> Option<f64> {
        let shown = self.shown(of, value);
        let desk = self.desk;
        let texts = self.texts;
        self.step(of, value);
        self.typed(ui, line, &shown, |text| {
            let typed = read(desk, texts, of, text)?;
            wrong(typed).map_or(Ok(typed), |why| Err(NotRead::Wrong(why.to_owned())))
        })
    }

    /// Two rows with the heights of something, each with its path: from its underside to its top.
    pub fn heights(&mut self, ui: &mut Ui, [lower, upper]: [Line<'_>; 2], span: Span) -> Option<Span> {
        let upside_down = self.desk.texts().upside_down;
        let (bottom, top) = (span.bottom(), span.top());
        let wrong = |bottom: f64, top: f64| Span::new(bottom, top).is_err().then_some(upside_down);
        let low = self.number_unless(ui, lower, Of::Length, bottom, |bottom| wrong(bottom, top));
        let high = self.number_unless(ui, upper, Of::Length, top, |top| wrong(bottom, top));
        (low.is_some() || high.is_some())
            .then(|| Span::new(low.unwrap_or(bottom), high.unwrap_or(top)).ok())
            .flatten()
    }

    /// Four rows with the sides of a rectangle: from and to along, from and to across.
    pub fn sides(&mut self, ui: &mut Ui, lines: [Line<'_>; 4], bounds: Bounds) -> Option<Polygon> {
        let meet = self.texts.sides_meet;
        let mut sides = [bounds.low.x, bounds.high.x, bounds.low.y, bounds.high.y];
        let mut typed = false;
        for (i, line) in lines.into_iter().enumerate() {
            // The side across from it.
            let (Some(&own), Some(&other)) = (sides.get(i), sides.get(i ^ 1)) else { continue };
            let wrong = |side: f64| {
                let size = DVec2::splat((side - other).abs());
                Polygon::rectangle(DVec2::ZERO, size).is_err().then_some(meet)
            };
            if let Some(side) = self.number_unless(ui, line, Of::Length, own, wrong)
                && let Some(own) = sides.get_mut(i)
            {
                *own = side;
                typed = true;
            }
        }
        let [left, right, near, far] = sides;
        let (a, b) = (DVec2::new(left, near), DVec2::new(right, far));
        typed.then(|| Polygon::rectangle(a.min(b), a.max(b)).ok()).flatten()
    }

    /// The same, where the field may be left empty.
    pub fn number_or_none(
        &mut self,
        ui: &mut Ui,
        line: Line<'_>,
        of: Of,
        value: Option<f64>,
    ) -> Option<Option<f64>> {
        let shown = value.map_or_else(String::new, |value| self.shown(of, value));
        let desk = self.desk;
        let texts = self.texts;
        self.typed(ui, line, &shown, |text| {
            if text.trim().is_empty() { Ok(None) } else { read(desk, texts, of, text).map(Some) }
        })
    }

    /// Up and Down step the figure of the next row.
    fn step(&mut self, of: Of, value: f64) {
        match of {
            Of::Length => self.fields.stepping(Stepped::Length(value)),
            Of::Angle => self.fields.stepping(Stepped::Degrees(angle::degrees(value))),
            // What one more means differs from number to number.
            Of::Number(_) => {}
        }
    }

    fn shown(&self, of: Of, value: f64) -> String {
        match of {
            Of::Length => self.desk.view.locale.length_to_type(value),
            Of::Angle => self.desk.region().degrees_to_type(angle::degrees(value)),
            Of::Number(by) => baywright_planner::model::validate::number(value * by),
        }
    }

    /// A row with anything that can be read from a text.
    pub fn typed<T, E: Into<NotRead>>(
        &mut self,
        ui: &mut Ui,
        line: Line<'_>,
        shown: &str,
        read: impl Fn(&str) -> Result<T, E>,
    ) -> Option<T> {
        if !self.is_sought(line.label) {
            // Its figure is not the next row's.
            self.fields.pass_over();
            return None;
        }
        let assumed = line.figure.is_some_and(|figure| self.car.is_assumed(figure));
        let mut taken = None;
        let mut right = false;
        ui.horizontal(|ui| {
            if let Some(sketch) = line.sketch {
                sketch::show(ui, self.desk.view.theme, sketch, Vec2::new(SKETCH_PX, 24.0));
            }
            let width = ui.available_width() - self.room_for_tag(ui);
            ui.allocate_ui(Vec2::new(width, 24.0), |ui| {
                ui.set_width(width);
                ui.vertical(|ui| {
                    let row = Row { label: line.label, hint: line.hint, of: line.path };
                    taken = self.fields.row(ui, &row, shown, read);
                });
            });
            // From a field in which something was typed the keyboard goes on to the next one, not to a tag that is about to go.
            if assumed && !self.fields.was_left_edited() {
                right = self.tag(ui, line.label);
            }
        });
        self.told(ui, line.path);
        if taken.is_some() || right {
            if let Some(figure) = line.figure {
                self.car.enter(figure);
            }
            self.did();
        }
        taken
    }

    /// Room for that word with what parts it from the field: a language may have a longer one. None where nothing is assumed.
    fn room_for_tag(&self, ui: &Ui) -> f32 {
        if self.tag <= 0.0 {
            return 0.0;
        }
        let font = egui::FontId::proportional(size::LEAST);
        let text = self.texts.assumed.to_owned();
        let width = ui.painter().layout_no_wrap(text, font, egui::Color32::PLACEHOLDER).size().x;
        self.tag.max(width + ui.spacing().item_spacing.x)
    }

    /// The word "assumed" at the end of a row; whether it was pressed: what stands there is right.
    fn tag(&mut self, ui: &mut Ui, label: &str) -> bool {
        let care = look::colour(self.desk.view.theme.palette().care);
        let text = RichText::new(self.texts.assumed).size(size::LEAST).color(care);
        let tag = ui.add(Button::new(text).frame(false));
        let tag = widgets::ringed(ui, tag);
        let name = self.desk.texts().of(self.texts.assumed, label);
        let tag = tag.on_hover_text(self.texts.assumed_why).accessible_name(name);
        let right = tag.clicked();
        if right && tag.has_focus() {
            self.fields.lead_on();
        }
        right
    }

    /// What is wrong or unlikely about a field.
    pub fn told(&self, ui: &mut Ui, path: &str) {
        let theme = self.desk.view.theme;
        for fault in self.faults.iter().filter(|fault| fault.field == path && !is_to_type(fault)) {
            let colour = ui.visuals().error_fg_color;
            let text = RichText::new(widgets::unbroken(self.texts.wrong(fault, self.desk.lengths())))
                .size(size::LEAST)
                .color(colour);
            ui.add(egui::Label::new(text).wrap());
        }
        // What is not possible is not asked about as well.
        let is_wrong = self.faults.iter().any(|fault| fault.field == path && !is_to_type(fault));
        for fault in self.unlikely.iter().filter(|fault| fault.field == path && !is_wrong) {
            let colour = look::colour(theme.palette().care);
            let text = RichText::new(widgets::unbroken(self.texts.unlikely(fault, self.desk.lengths())))
                .size(size::LEAST)
                .color(colour);
            ui.add(egui::Label::new(text).wrap());
        }
    }

    /// A row with a text that must say something; `Some` if another one was typed.
    pub fn text(
        &mut self,
        ui: &mut Ui,
        (label, hint): (&str, &str),
        path: &str,
        value: &str,
    ) -> Option<String> {
        let empty = self.texts.no_text;
        let line = Line { label, hint, path, ..Line::default() };
        self.typed(ui, line, value, |text| {
            let text = text.trim();
            if text.is_empty() { Err(empty.to_owned()) } else { Ok(text.to_owned()) }
        })
    }

    /// A row with a name of a part among others; `Some` if another one was typed that none of them has.
    pub fn own_id<'i>(
        &mut self,
        ui: &mut Ui,
        label: &str,
        path: &str,
        value: &Id,
        others: impl Iterator<Item = &'i Id> + Clone,
    ) -> Option<Id> {
        let (empty, screen) = (self.texts.no_text, self.desk.texts());
        let line = Line { label, path, ..Line::default() };
        self.typed(ui, line, value.as_str(), |text| {
            let id = Id::from(text.trim());
            if id.as_str().is_empty() {
                Err(empty.to_owned())
            } else if id != *value && others.clone().any(|own| *own == id) {
                Err(screen.name_taken(&id))
            } else {
                Ok(id)
            }
        })
    }

    /// A row with a name of a part; `Some` if another one was typed.
    pub fn id(&mut self, ui: &mut Ui, label: &str, path: &str, value: &Id) -> Option<Id> {
        self.text(ui, (label, ""), path, value.as_str()).map(Id::from)
    }

    /// A choice among a few values; `Some` if another one was chosen.
    pub fn pick<T: PartialEq + Clone>(
        &mut self,
        ui: &mut Ui,
        label: &str,
        path: &str,
        now: &T,
        all: &[T],
        name: impl Fn(&T) -> String,
    ) -> Option<T> {
        self.pick_of(ui, Line { label, path, ..Line::default() }, now, all, name)
    }

    /// The same of a figure that may be assumed, which is said at the end of its row: choosing enters it.
    pub fn pick_of<T: PartialEq + Clone>(
        &mut self,
        ui: &mut Ui,
        line: Line<'_>,
        now: &T,
        all: &[T],
        name: impl Fn(&T) -> String,
    ) -> Option<T> {
        let Line { label, path, .. } = line;
        if !self.is_sought(label) {
            // The keyboard would come to it when nobody expects it any more.
            self.fields.leads_to_picker(path);
            self.from_list = false;
            return None;
        }
        let assumed = line.figure.is_some_and(|figure| self.car.is_assumed(figure));
        let (picked, right) = ui
            .horizontal(|ui| {
                let width = ui.available_width() - self.room_for_tag(ui);
                let text = widgets::soft(ui, label);
                let named = widgets::name_column(ui, width * 0.4, text).id;
                let width = width * 0.6 - 12.0;
                let salt = IdSalt::new(("car", path));
                let picker = Picker { salt, path, named, width, letters: size::SMALL };
                let picked = picker.show(ui, Some(&mut self.fields), now, all, name);
                (picked, assumed && self.tag(ui, label))
            })
            .inner;
        self.told(ui, path);
        self.from_list = picked.from_list;
        if right || picked.chosen.is_some() {
            if let Some(figure) = line.figure {
                self.car.enter(figure);
            }
            self.did();
        }
        picked.chosen
    }

    /// A field of several lines; `Some` if another text was typed.
    pub fn lines<T, E: Into<NotRead>>(
        &mut self,
        ui: &mut Ui,
        line: Line<'_>,
        shown: &str,
        read: impl Fn(&str) -> Result<T, E>,
    ) -> Option<T> {
        if !self.is_sought(line.label) {
            return None;
        }
        let row = Row { label: line.label, hint: line.hint, of: line.path };
        let taken = self.fields.lines(ui, &row, shown, read);
        self.told(ui, line.path);
        if taken.is_some() {
            if let Some(figure) = line.figure {
                self.car.enter(figure);
            }
            self.did();
        }
        taken
    }

    /// Buttons that move or remove an entry of a list; what was pressed.
    pub fn order(&mut self, ui: &mut Ui, name: &str, at: usize, count: usize) -> Option<Order> {
        let (texts, screen) = (self.texts, self.desk.texts());
        let mut asked = None;
        ui.horizontal(|ui| {
            let mut press = |ui: &mut Ui, text: &str, enabled: bool, order: Order| {
                let button = Button::new(RichText::new(text).size(size::LEAST)).small();
                let response = ui.add_enabled(enabled, button).accessible_name(screen.of(text, name));
                if response.clicked() {
                    asked = Some(order);
                }
            };
            press(ui, texts.up, at > 0, Order::Up);
            press(ui, texts.down, at + 1 < count, Order::Down);
            press(ui, texts.copy, true, Order::Copy);
            press(ui, texts.remove, true, Order::Remove);
        });
        asked
    }
}

/// What is asked of an entry of a list.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::screen) enum Order {
    Up,
    Down,
    Copy,
    Remove,
}

/// A heading that folds what is under it.
pub(in crate::screen) fn part(ui: &mut Ui, name: &str, key: &str, open: bool, content: impl FnOnce(&mut Ui)) {
    part_led(ui, name, key, (open, false), content);
}

/// The same; whether it is open at first, and whether it is to be open now, however it was left.
pub(in crate::screen) fn part_led(
    ui: &mut Ui,
    name: &str,
    key: &str,
    (open, led): (bool, bool),
    content: impl FnOnce(&mut Ui),
) {
    // A name that is wider than the form would make all that is in it as wide.
    let shown = widgets::fitted(ui, name, ui.available_width() - FOLD_PX);
    let text = RichText::new(&shown).font(look::bold(size::BODY));
    // What is sought is not folded away.
    if ui.data(|data| data.get_temp(seeking())) == Some(true) {
        ui.label(text);
        content(ui);
        return;
    }
    let led = led || way::opens(ui, key);
    way::arrive(ui, key);
    let header = egui::CollapsingHeader::new(text).id_salt(("car", key)).default_open(open);
    let head = header.open(led.then_some(true)).show(ui, |ui| {
        ui.spacing_mut().item_spacing.y = 3.0;
        content(ui);
    });
    if shown != name {
        head.header_response.accessible_name(name).on_hover_text(name);
    }
}

/// What stands beside the name of a part: the sign that it can be folded, and the edges, px.
const FOLD_PX: f32 = 30.0;

/// Whether something is sought in the form that is drawn.
pub(super) fn seeking() -> egui::Id {
    egui::Id::unique("seeking in the form")
}

fn read(desk: &Desk, texts: &Forms, of: Of, text: &str) -> Result<f64, NotRead> {
    match of {
        Of::Length => desk.read_length(text),
        Of::Angle => {
            let angle = typed::degrees(text).map(angle::radians);
            angle.ok_or_else(|| NotRead::Wrong(desk.texts().no_angle(text)))
        }
        Of::Number(by) => {
            let plain = text.trim().replace(',', ".");
            let number = plain.parse::<f64>().ok().filter(|value| value.is_finite());
            number.map(|value| value / by).ok_or_else(|| NotRead::Wrong(texts.not_a_number.to_owned()))
        }
    }
}
